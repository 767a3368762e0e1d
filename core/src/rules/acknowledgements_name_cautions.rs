//! `acknowledgements-name-cautions`: what a description acknowledges is a caution.

use super::{Findings, RULES, Remedy, Said, Severity, Survey, find, rule};
use crate::site::ComponentId;
use crate::trade::nearest;

rule! {
    /// ## Protects against
    /// A wish to be left alone that is taken for more than it is: only a caution can be acknowledged, and what is
    /// acknowledged under another name is not quiet. A finding rather than a problem of the document, since how grave
    /// a rule is belongs to the rules and not to the words of a description; it decides nothing, for nothing is hidden.
    ///
    /// ## Cannot tell when
    /// Never: the list is all that counts.
    ///
    /// ## Remedy
    /// Name a caution by its slug, and mend what is more than a caution.
    ACKNOWLEDGEMENTS_NAME_CAUTIONS = "acknowledgements-name-cautions" {
        severity: Information,
        summary: "a description acknowledges what is no caution",
        topics: [],
        sources: ["the severity of the rule that is named"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for written in &survey.site.premises().acknowledged {
        let severity = find(written).map(|rule| rule.severity);
        let remedy = match severity {
            Some(Severity::Prohibited | Severity::Violation) => "mend what it finds; only a caution can be acknowledged",
            Some(Severity::Caution | Severity::Information) => "leave it out: it decides nothing",
            None => "name a caution as `rules` lists it",
        };
        let cautions = RULES.iter().filter(|rule| rule.severity == Severity::Caution).map(|rule| rule.slug);
        let near = if severity.is_none() { nearest(written, cautions) } else { None };
        // What was written goes into one line of a report.
        let slug = written.chars().take(60).flat_map(char::escape_debug).collect();
        let said = Said::Acknowledges { slug, severity, near };
        let holds = severity == Some(Severity::Caution);
        found.judge_part(ComponentId::SITE, "acknowledged", holds, said, Remedy::Do(remedy));
    }
}
