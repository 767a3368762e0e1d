//! What the rules found on a site: to be walked, or printed as the command prints it.

use std::borrow::Cow;
use std::sync::{Arc, OnceLock};

use loadworthy::check::{self, Report, WithWorking, check};
use loadworthy::report::{self, citation, mend, place, question, sentence};
use loadworthy::rules::{Finding, Said};
use loadworthy::site::{Place, Site};
use loadworthy::size::remedy::remedy;

use crate::border::{Out, OutHandle, OutStruct, Plain, Text, Texts, free, guard, handle, lw_str, plain};
use crate::code::{Shared, lw_code};
use crate::error::{Result, fail, lw_error, no_such_index};
use crate::outcome::{lw_outcome, lw_severity, lw_yes_no, of_outcome, of_severity, of_verdict};
use crate::question::yes_no;
use crate::site::{code_for, lw_site};
use crate::status::{LW_STATUS_PANIC, lw_status};
use crate::working::{StepTexts, lw_step};

/// What the rules found on a site. It is only read: any number of threads may use one at once. What is asked of it first
/// is made then, once.
pub struct lw_report {
    site: Arc<Site>,
    code: Shared,
    findings: Vec<Finding>,
    outcome: lw_outcome,
    walked: OnceLock<Walked>,
    text: OnceLock<Text>,
    json: OnceLock<Text>,
}

/// The texts of a report, for those who walk it.
struct Walked {
    findings: Vec<FindingTexts>,
    questions: Vec<QuestionTexts>,
}

struct FindingTexts {
    kind: Option<Text>,
    component: Option<Text>,
    rule: Text,
    field: Text,
    message: Text,
    measured: Option<Text>,
    limit: Option<Text>,
    citation: Text,
    remedy: Option<Text>,
    place: PlaceTexts,
    steps: Vec<StepTexts>,
}

struct QuestionTexts {
    kind: Option<Text>,
    component: Option<Text>,
    field: Text,
    question: Text,
    decides: Text,
    place: PlaceTexts,
}

#[derive(Default)]
struct PlaceTexts {
    file: Option<Text>,
    path: Option<Text>,
    line: u32,
    column: u32,
}

/// How a site is checked. Make one with `lw_check_options_init`.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_check_options {
    /// Set it to `sizeof(lw_check_options)`.
    pub struct_size: usize,
    /// `LW_YES` where every finding is to carry its working; it costs time otherwise saved.
    pub working: lw_yes_no,
    /// Zero.
    pub reserved: i32,
}

/// One thing that a rule examined, and what it found: an output. Its texts live as long as the report; one that has
/// nothing to say has NULL as its `data`.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_finding {
    /// Set it to `sizeof(lw_finding)`.
    pub struct_size: usize,
    /// How it ended.
    pub outcome: lw_outcome,
    /// How grave a failure of the rule is; the gravest two decide about the site.
    pub severity: lw_severity,
    /// The slug of the rule, such as `cord-ampacity`.
    pub rule: lw_str,
    /// The kind of the component, such as `cord`.
    pub kind: lw_str,
    /// The name of the component.
    pub component: lw_str,
    /// The field that decided.
    pub field: lw_str,
    /// The finding in one sentence.
    pub message: lw_str,
    /// What was measured, with its unit.
    pub measured: lw_str,
    /// The limit, with its unit.
    pub limit: lw_str,
    /// The sections and listings that it rests on.
    pub citation: lw_str,
    /// What would mend it, with the smallest standard size that does.
    pub remedy: lw_str,
    /// The document, as the caller named it.
    pub file: lw_str,
    /// The path of the field, such as `cord[0].size`.
    pub path: lw_str,
    /// The line, from 1; 0 where there is none.
    pub line: u32,
    /// The column in characters, from 1; 0 where there is none.
    pub column: u32,
    /// How many steps its working has: `lw_report_step` gives them.
    pub step_count: usize,
}

/// A fact to find out, and what it would decide: an output. Its texts live as long as the report.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_open_question {
    /// Set it to `sizeof(lw_open_question)`.
    pub struct_size: usize,
    /// The kind of the component.
    pub kind: lw_str,
    /// The name of the component.
    pub component: lw_str,
    /// The field to fill in.
    pub field: lw_str,
    /// The question in one sentence.
    pub question: lw_str,
    /// The slugs of the rules that wait for it, with `, ` between them.
    pub decides: lw_str,
    /// The document, as the caller named it.
    pub file: lw_str,
    /// The path of the field or of its component.
    pub path: lw_str,
    /// The line, from 1; 0 where there is none.
    pub line: u32,
    /// The column in characters, from 1; 0 where there is none.
    pub column: u32,
}

// SAFETY: `repr(C)`, `struct_size` first, integers only.
unsafe impl Plain for lw_check_options {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self { struct_size: size_of::<Self>(), working: 0, reserved: 0 };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_finding {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: 0,
        severity: 0,
        rule: lw_str::NONE,
        kind: lw_str::NONE,
        component: lw_str::NONE,
        field: lw_str::NONE,
        message: lw_str::NONE,
        measured: lw_str::NONE,
        limit: lw_str::NONE,
        citation: lw_str::NONE,
        remedy: lw_str::NONE,
        file: lw_str::NONE,
        path: lw_str::NONE,
        line: 0,
        column: 0,
        step_count: 0,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_open_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        kind: lw_str::NONE,
        component: lw_str::NONE,
        field: lw_str::NONE,
        question: lw_str::NONE,
        decides: lw_str::NONE,
        file: lw_str::NONE,
        path: lw_str::NONE,
        line: 0,
        column: 0,
    };
}

impl lw_report {
    /// The report as the core knows it.
    fn report(&self) -> Report<'_> {
        Report { site: &self.site, code: self.code.code(), findings: Cow::Borrowed(&self.findings) }
    }

    fn walked(&self) -> &Walked {
        self.walked.get_or_init(|| {
            let report = self.report();
            Walked {
                findings: report.findings.iter().map(|finding| FindingTexts::new(&report, finding)).collect(),
                questions: report.questions().iter().map(|open| QuestionTexts::new(&report, open)).collect(),
            }
        })
    }

    fn finding(&self, index: usize) -> Result<&FindingTexts> {
        let findings = &self.walked().findings;
        findings.get(index).ok_or_else(|| no_such_index(index, findings.len()))
    }
}

impl FindingTexts {
    fn new(report: &Report<'_>, finding: &Finding) -> Self {
        let component = report.site.component(finding.subject);
        let (measured, limit) = match &finding.said {
            Said::Compared { measured, limit, .. } => (Some(measured.to_string()), Some(limit.to_string())),
            Said::Joined { mine, theirs, .. } => (Some(mine.to_string()), Some(theirs.to_string())),
            _ => (None, None),
        };
        Self {
            kind: component.map(|component| Text::new(component.kind().key())),
            component: component.map(|component| Text::new(component.name())),
            rule: Text::new(finding.rule.slug),
            field: Text::new(finding.field),
            message: Text::new(sentence(report, finding)),
            measured: measured.map(Text::new),
            limit: limit.map(Text::new),
            citation: Text::new(citation(report, finding)),
            remedy: mend(report, finding).map(Text::new),
            place: PlaceTexts::new(place(report, finding)),
            steps: finding.working.iter().map(StepTexts::new).collect(),
        }
    }
}

impl QuestionTexts {
    fn new(report: &Report<'_>, open: &check::Question) -> Self {
        let component = report.site.component(open.subject);
        Self {
            kind: component.map(|component| Text::new(component.kind().key())),
            component: component.map(|component| Text::new(component.name())),
            field: Text::new(open.field),
            question: Text::new(question(report, open)),
            decides: Text::new(open.decides.join(", ")),
            place: PlaceTexts::new(report.site.place_of(open.subject, open.field)),
        }
    }
}

impl PlaceTexts {
    fn new(place: Option<Place>) -> Self {
        place.map_or_else(Self::default, |place| Self {
            file: Some(Text::new(place.file())),
            path: Some(Text::new(place.path())),
            line: place.line(),
            column: place.column(),
        })
    }
}

/// Applies every rule to a site.
///
/// `code` may be NULL: then the edition judges that the description names, as with the command. `options` may be NULL for
/// those of `lw_check_options_init`. On success `*report_out` owns the report: release it with `lw_report_free`; it needs
/// neither the site nor the code any more. Several threads may ask at once, of one site.
///
/// ```c
/// lw_report *report;
/// lw_site_check(site, NULL, NULL, &report, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_site_check(
    site: *const lw_site,
    code: *const lw_code,
    options: *const lw_check_options,
    report_out: *mut *mut lw_report,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(report_out, "report_out")?;
        let site = Arc::clone(&handle(site, "site")?.site);
        let code = code_for(&site, code)?;
        let options = if options.is_null() { lw_check_options::UNSTATED } else { plain(options, "options")? };
        let working = match yes_no(options.working, "options.working")? {
            Some(true) => WithWorking::Yes,
            _ => WithWorking::No,
        };
        let report = check(&site, code.code(), working);
        let outcome = of_verdict(report.verdict());
        let findings = report.findings.into_owned();
        out.give(lw_report {
            site,
            code,
            findings,
            outcome,
            walked: OnceLock::new(),
            text: OnceLock::new(),
            json: OnceLock::new(),
        });
        Ok(())
    })
}

/// Frees a report; NULL does nothing. After it none of its texts may be used.
///
/// Not while another call uses the report.
///
/// ```c
/// lw_report_free(report);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_free(report: *mut lw_report) -> lw_status {
    free(report, "report")
}

/// The outcome for the whole site: loadworthy, not loadworthy, or cannot tell.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_outcome outcome;
/// lw_report_outcome(report, &outcome, NULL);
/// if (outcome != LW_OUTCOME_HOLDS) puts("do not use it");
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_outcome(
    report: *const lw_report,
    outcome_out: *mut lw_outcome,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(outcome_out, "outcome_out", 0)?;
        out.write(handle(report, "report")?.outcome);
        Ok(())
    })
}

/// How many findings a report has.
///
/// Several threads may ask at once.
///
/// ```c
/// size_t count;
/// lw_report_finding_count(report, &count, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_finding_count(
    report: *const lw_report,
    count_out: *mut usize,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(count_out, "count_out", 0)?;
        out.write(handle(report, "report")?.findings.len());
        Ok(())
    })
}

/// One finding, counted from 0, in the order of the rules and of the components. Its texts live as long as the report.
///
/// `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.
///
/// ```c
/// lw_finding finding = lw_finding_init();
/// if (lw_report_finding(report, 0, &finding, NULL) == LW_STATUS_OK)
///     printf("%s: %s\n", finding.rule.data, finding.message.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_finding(
    report: *const lw_report,
    index: usize,
    finding_out: *mut lw_finding,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutStruct::new(finding_out, "finding_out")?;
        let report = handle(report, "report")?;
        let texts = report.finding(index)?;
        let finding = report.findings.get(index).ok_or_else(|| no_such_index(index, report.findings.len()))?;
        out.write(lw_finding {
            outcome: of_outcome(finding.outcome),
            severity: of_severity(finding.rule.severity),
            rule: texts.rule.as_str(),
            kind: texts.kind.or_none(),
            component: texts.component.or_none(),
            field: texts.field.as_str(),
            message: texts.message.as_str(),
            measured: texts.measured.or_none(),
            limit: texts.limit.or_none(),
            citation: texts.citation.as_str(),
            remedy: texts.remedy.or_none(),
            file: texts.place.file.or_none(),
            path: texts.place.path.or_none(),
            line: texts.place.line,
            column: texts.place.column,
            step_count: texts.steps.len(),
            ..lw_finding::UNSTATED
        });
        Ok(())
    })
}

/// One step of the working of a finding, both counted from 0; there are none unless `lw_check_options` asked for them. Its
/// texts live as long as the report.
///
/// `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.
///
/// ```c
/// lw_step step = lw_step_init();
/// lw_report_step(report, 0, 0, &step, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_step(
    report: *const lw_report,
    finding: usize,
    index: usize,
    step_out: *mut lw_step,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutStruct::new(step_out, "step_out")?;
        let steps = &handle(report, "report")?.finding(finding)?.steps;
        out.write(steps.get(index).ok_or_else(|| no_such_index(index, steps.len()))?.as_struct());
        Ok(())
    })
}

/// How many facts are to be found out.
///
/// Several threads may ask at once.
///
/// ```c
/// size_t count;
/// lw_report_question_count(report, &count, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_question_count(
    report: *const lw_report,
    count_out: *mut usize,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(count_out, "count_out", 0)?;
        out.write(handle(report, "report")?.walked().questions.len());
        Ok(())
    })
}

/// One fact to find out, counted from 0. Its texts live as long as the report.
///
/// `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.
///
/// ```c
/// lw_open_question question = lw_open_question_init();
/// if (lw_report_question(report, 0, &question, NULL) == LW_STATUS_OK) puts(question.question.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_question(
    report: *const lw_report,
    index: usize,
    question_out: *mut lw_open_question,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutStruct::new(question_out, "question_out")?;
        let questions = &handle(report, "report")?.walked().questions;
        let open = questions.get(index).ok_or_else(|| no_such_index(index, questions.len()))?;
        out.write(lw_open_question {
            kind: open.kind.or_none(),
            component: open.component.or_none(),
            field: open.field.as_str(),
            question: open.question.as_str(),
            decides: open.decides.as_str(),
            file: open.place.file.or_none(),
            path: open.place.path.or_none(),
            line: open.place.line,
            column: open.place.column,
            ..lw_open_question::UNSTATED
        });
        Ok(())
    })
}

/// The site with the smallest standard change made that mends a finding and breaks nothing else.
///
/// `*mended_out` owns that site: release it with `lw_site_free`. It is NULL, and the status `LW_STATUS_OK`, where no size
/// mends the finding, where it does not fail, and wherever something prohibited stands. The finding's `remedy` says it in
/// words. Several threads may ask at once.
///
/// ```c
/// lw_site *mended;
/// lw_report_mended(report, 0, &mended, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_mended(
    report: *const lw_report,
    finding: usize,
    mended_out: *mut *mut lw_site,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(mended_out, "mended_out")?;
        let report = handle(report, "report")?;
        let found = report.findings.get(finding).ok_or_else(|| no_such_index(finding, report.findings.len()))?;
        if let Some(mend) = remedy(&report.report(), found) {
            out.give(lw_site { site: Arc::new(mend.applied(&report.site)) });
        }
        Ok(())
    })
}

/// The report for a person to read, byte for byte as `loadworthy check` prints it. The text lives as long as the report.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str text;
/// lw_report_text(report, &text, NULL);
/// fwrite(text.data, 1, text.len, stdout);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_text(
    report: *const lw_report,
    text_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(text_out, "text_out", lw_str::NONE)?;
        let report = handle(report, "report")?;
        let text = report.text.get_or_init(|| {
            let mut text = String::new();
            // A `String` takes whatever is written to it.
            let _ = report::text::write(&report.report(), &mut text);
            Text::new(text)
        });
        out.write(text.as_str());
        Ok(())
    })
}

/// The report for a program, byte for byte as `loadworthy check --format json` prints it. The text lives as long as the
/// report.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str json;
/// lw_report_json(report, &json, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_report_json(
    report: *const lw_report,
    json_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(json_out, "json_out", lw_str::NONE)?;
        let report = handle(report, "report")?;
        let json = match report.json.get() {
            Some(json) => json,
            None => {
                let json = line(&report::json::document(&report.report()))?;
                report.json.get_or_init(|| json)
            }
        };
        out.write(json.as_str());
        Ok(())
    })
}

/// A document in one line, as the command prints it.
pub(crate) fn line(document: &impl serde::Serialize) -> Result<Text> {
    let mut line = serde_json::to_string(document)
        .map_err(|error| fail(LW_STATUS_PANIC, "json", format_args!("could not be written: {error}")))?;
    line.push('\n');
    Ok(Text::new(line))
}
