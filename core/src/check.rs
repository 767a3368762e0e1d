//! A site judged by a code: every rule applied, and the outcome that follows.

use std::borrow::Cow;

use crate::code::Code;
use crate::rules::{Finding, Findings, Outcome, RULES, Rule, Said, Severity, Survey};
use crate::site::{ComponentId, Site};

/// What the rules found on a site.
pub struct Report<'a> {
    /// The site.
    pub site: &'a Site,
    /// The code that it was judged by.
    pub code: &'a dyn Code,
    /// Everything that was found, in the order of the rules and of the components.
    pub findings: Cow<'a, [Finding]>,
}

/// How a check ends for the whole site.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Every rule that decides holds.
    Loadworthy,
    /// A rule that decides fails.
    NotLoadworthy,
    /// None fails, but a fact is missing.
    CannotTell,
}

impl Verdict {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Loadworthy => "loadworthy",
            Self::NotLoadworthy => "not loadworthy",
            Self::CannotTell => "cannot tell",
        }
    }
}

/// A fact to find out, and what it would decide.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// Of what.
    pub subject: ComponentId,
    /// Its field.
    pub field: &'static str,
    /// The fact, in words.
    pub fact: &'static str,
    /// The slugs of the rules that wait for it.
    pub decides: Vec<&'static str>,
}

/// Whether the working is wanted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WithWorking {
    /// No: the derivations cost nothing.
    #[default]
    No,
    /// Every finding carries its derivation.
    Yes,
}

/// Applies every rule to a site.
///
/// ```
/// use loadworthy::{check::{check, Verdict, WithWorking}, code::{Edition, Nec}, site::Site};
/// let text = include_str!("../examples/cottage.toml");
/// let site = Site::from_toml("cottage.toml", text)?;
/// let report = check(&site, Nec::standard(Edition::Nec2023), WithWorking::No);
/// assert_eq!(report.verdict(), Verdict::Loadworthy);
/// # Ok::<(), loadworthy::site::Problems>(())
/// ```
#[must_use]
pub fn check<'a>(site: &'a Site, code: &'a dyn Code, working: WithWorking) -> Report<'a> {
    let survey = Survey::new(site, code);
    let mut findings = Findings::new(working == WithWorking::Yes, site.components().count());
    for rule in RULES {
        findings.begin(rule);
        (rule.check)(&survey, &mut findings);
    }
    Report { site, code, findings: Cow::Owned(findings.into_found()) }
}

/// Applies one rule to a site.
pub(crate) fn check_by(rule: &'static Rule, site: &Site, code: &dyn Code) -> Vec<Finding> {
    let mut findings = Findings::new(false, 0);
    findings.begin(rule);
    (rule.check)(&Survey::new(site, code), &mut findings);
    findings.into_found()
}

impl Report<'_> {
    /// The outcome: not loadworthy where a rule that decides fails; otherwise cannot tell where one waits for a fact,
    /// or where there was nothing to judge.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        let decides = |finding: &&Finding| finding.rule.severity.decides();
        let any = |outcome| self.findings.iter().filter(decides).any(|finding| finding.outcome == outcome);
        if any(Outcome::Fails) {
            Verdict::NotLoadworthy
        } else if any(Outcome::CannotTell) || !any(Outcome::Holds) {
            Verdict::CannotTell
        } else {
            Verdict::Loadworthy
        }
    }

    /// Whether the description acknowledges a finding: then it is quiet, and asks for nothing. Only a caution that does
    /// not hold can be; everything else stays as loud as it is.
    ///
    /// ```
    /// use loadworthy::{check::{check, WithWorking}, code::{Edition, Nec}, rules::Outcome, site::Site};
    /// let text = include_str!("../examples/cottage.toml");
    /// let head = text.find("name =").unwrap_or_default();
    /// let text = [&text[..head], "acknowledged = [\"co-alarms\"]\n", &text[head..]].concat();
    /// let text = text.replace("carbon_monoxide_alarms = true", "carbon_monoxide_alarms = false");
    /// let site = Site::from_toml("cottage.toml", &text)?;
    /// let report = check(&site, Nec::standard(Edition::Nec2023), WithWorking::No);
    /// let failing = report.ended(Outcome::Fails);
    /// assert_eq!(failing.iter().map(|finding| finding.rule.slug).collect::<Vec<_>>(), ["co-alarms"]);
    /// assert!(report.acknowledges(failing[0]));
    /// # Ok::<(), loadworthy::site::Problems>(())
    /// ```
    #[must_use]
    pub fn acknowledges(&self, finding: &Finding) -> bool {
        finding.rule.severity == Severity::Caution
            && finding.outcome != Outcome::Holds
            && self.site.premises().acknowledged.iter().any(|slug| slug == finding.rule.slug)
    }

    /// The findings that ended in one way, gravest first, else in order.
    #[must_use]
    pub fn ended(&self, outcome: Outcome) -> Vec<&Finding> {
        let mut ended: Vec<&Finding> = self.findings.iter().filter(|finding| finding.outcome == outcome).collect();
        ended.sort_by_key(|finding| finding.rule.severity);
        ended
    }

    /// The facts that are missing, each once, with the rules that wait for it; what is acknowledged waits for none.
    #[must_use]
    pub fn questions(&self) -> Vec<Question> {
        let mut questions: Vec<Question> = Vec::new();
        for finding in self.findings.iter().filter(|finding| !self.acknowledges(finding)) {
            let Said::NotStated(fact) = finding.said else { continue };
            let same =
                questions.iter_mut().find(|question| question.subject == finding.subject && question.fact == fact);
            match same {
                Some(question) if question.decides.contains(&finding.rule.slug) => {}
                Some(question) => question.decides.push(finding.rule.slug),
                None => questions.push(Question {
                    subject: finding.subject,
                    field: finding.field,
                    fact,
                    decides: vec![finding.rule.slug],
                }),
            }
        }
        questions
    }

    /// Whether something is prohibited everywhere: then nothing is sized, planned or given a switching order.
    #[must_use]
    pub fn prohibited(&self) -> bool {
        self.findings
            .iter()
            .any(|finding| finding.rule.severity == Severity::Prohibited && finding.outcome == Outcome::Fails)
    }
}
