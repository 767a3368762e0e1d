//! An order of switching for programs: stable documents, `loadworthy-sequence` and `loadworthy-judgement`, version 1.
//!
//! Every field stands in every document; one that has nothing to say is null or empty.
//!
//! | field | meaning |
//! | --- | --- |
//! | `format`, `version` | `loadworthy-sequence` or `loadworthy-judgement`, `1` |
//! | `site`, `code` | the name of the site, the identifier of the edition |
//! | `check` | the verdict of the rules |
//! | `outcome` | `holds`, `fails` or `cannot-tell`, as the exit statuses 0, 1 and 2 |
//! | `prohibited` | the findings that keep a site from any order, as in `loadworthy-report` |
//! | `unmapped` | why the site is not laid out for switching, or null |
//! | `sources` | one object a source: `source`, `outcome`, `reason`, `arrangement`, `orders` |
//! | `orders` | `{ purpose, shortest_proved, steps, faults }`; the purpose is `connect`, `return`, `disconnect` or `refuel` |
//! | `steps` | `{ number, step, verify, because, state }` |
//! | `faults` | `{ step, kind, outcome, breaks_at, invariants, refused, reaches_goal, message }` |
//! | `arrangement` | what anybody can bring about: `{ switches, reached, hazards }`; a hazard is `{ invariant, outcome, kept_by, message, way }` |
//! | `notes`, `questions`, `cautions` | how the site was taken; what is missing; the cautions of every report |
//!
//! A judgement has `steps` as texts, `accepted`, `first` (`{ step, invariants, messages, state }`), `refused`
//! (`{ step, message }`), `last` and `arrangement` in place of `sources`. A scenario has `scenario`, `outcome`, `first`,
//! `refused` and its hazards as `arrangement`.

use serde::Serialize;

use super::json::{self, FindingDocument, QuestionDocument};
use super::{CAUTIONS, sequence as words};
use crate::check::Verdict;
use crate::rules::Outcome;
use crate::switching::{
    Arrangement, Break, Exploration, Fault, FaultKind, Hazard, Judgement, KeptBy, Network, Order, Plan, Refusal,
    Scenario, Sequence, Shortest, StepFinding, Verified,
};
use crate::trade::Word;

/// The orders of a site.
#[derive(Debug, Serialize)]
pub struct Document<'a> {
    format: &'static str,
    version: u32,
    site: &'a str,
    code: &'static str,
    check: Verdict,
    outcome: Outcome,
    prohibited: Vec<FindingDocument<'a>>,
    unmapped: Option<String>,
    sources: Vec<SourceDocument<'a>>,
    notes: Vec<&'a str>,
    questions: Vec<QuestionDocument<'a>>,
    cautions: [&'static str; 4],
}

#[derive(Debug, Serialize)]
struct SourceDocument<'a> {
    source: &'a str,
    outcome: Outcome,
    reason: Option<String>,
    arrangement: Option<ArrangementDocument>,
    orders: Vec<OrderDocument>,
}

#[derive(Debug, Serialize)]
struct OrderDocument {
    purpose: &'static str,
    shortest_proved: bool,
    steps: Vec<StepDocument>,
    faults: Vec<FaultDocument>,
}

#[derive(Debug, Serialize)]
struct StepDocument {
    number: usize,
    step: String,
    verify: &'static str,
    because: String,
    state: String,
}

#[derive(Debug, Serialize)]
struct FaultDocument {
    step: usize,
    kind: &'static str,
    outcome: Outcome,
    breaks_at: Option<usize>,
    invariants: Vec<&'static str>,
    refused: Vec<usize>,
    reaches_goal: bool,
    message: String,
}

#[derive(Debug, Serialize)]
struct ArrangementDocument {
    switches: usize,
    reached: u64,
    hazards: Vec<HazardDocument>,
}

#[derive(Debug, Serialize)]
struct HazardDocument {
    invariant: &'static str,
    outcome: Outcome,
    kept_by: &'static str,
    message: String,
    way: Vec<String>,
}

/// The judgement of somebody's own order.
#[derive(Debug, Serialize)]
pub struct JudgementDocument<'a> {
    format: &'static str,
    version: u32,
    site: &'a str,
    code: &'static str,
    check: Verdict,
    outcome: Outcome,
    prohibited: Vec<FindingDocument<'a>>,
    steps: Vec<String>,
    accepted: Outcome,
    first: Option<FirstDocument>,
    refused: Vec<RefusedDocument>,
    last: String,
    arrangement: Option<ArrangementDocument>,
    notes: Vec<&'a str>,
    questions: Vec<QuestionDocument<'a>>,
    cautions: [&'static str; 4],
}

#[derive(Debug, Serialize)]
struct FirstDocument {
    step: usize,
    invariants: Vec<&'static str>,
    messages: Vec<String>,
    state: String,
}

#[derive(Debug, Serialize)]
struct RefusedDocument {
    step: usize,
    message: String,
}

/// The document of the orders of a site.
#[must_use]
pub fn document<'a>(found: &'a Sequence<'a>) -> Document<'a> {
    let report = found.report;
    let questions = words::questions(report, &found.questions);
    Document {
        format: "loadworthy-sequence",
        version: 1,
        site: &report.site.premises().name,
        code: report.code.id(),
        check: report.verdict(),
        outcome: found.outcome(),
        prohibited: found.prohibited.iter().map(|finding| json::finding(report, finding)).collect(),
        unmapped: found.unmapped.as_ref().map(ToString::to_string),
        sources: found.plans.iter().filter_map(|plan| source(found, plan)).collect(),
        notes: found.arrangements.iter().flat_map(|arrangement| &arrangement.notes).map(String::as_str).collect(),
        questions: questions.iter().map(|open| json::ask(report, open)).collect(),
        cautions: CAUTIONS,
    }
}

/// The document of a judgement.
#[must_use]
pub fn judgement<'a>(found: &'a Verified<'a>) -> JudgementDocument<'a> {
    let (report, arrangement, judged) = (found.report, &found.arrangement, &found.judgement);
    let network = &arrangement.network;
    let questions = words::questions(report, &found.questions);
    JudgementDocument {
        format: "loadworthy-judgement",
        version: 1,
        site: &report.site.premises().name,
        code: report.code.id(),
        check: report.verdict(),
        outcome: found.outcome(),
        prohibited: found.prohibited.iter().map(|finding| json::finding(report, finding)).collect(),
        steps: found.steps.operations.iter().map(|step| network.operation(*step)).collect(),
        accepted: judged.outcome,
        first: judged.first.as_ref().map(|found| first(network, found, |one| arrangement.explain(one))),
        refused: refused(network, judged),
        last: network.describe(&judged.last),
        arrangement: found.explored.as_ref().map(|explored| explored_document(arrangement, explored)),
        notes: arrangement.notes.iter().map(String::as_str).collect(),
        questions: questions.iter().map(|open| json::ask(report, open)).collect(),
        cautions: CAUTIONS,
    }
}

fn source<'a>(found: &'a Sequence<'a>, plan: &'a Plan) -> Option<SourceDocument<'a>> {
    let arrangement = found.arrangements.get(plan.arrangement)?;
    let explored = plan.explored.as_ref().map(|explored| explored_document(arrangement, explored));
    let name = arrangement.network.name(plan.source);
    Some(match &plan.answer {
        Ok(orders) => {
            let mut all = vec![order(arrangement, "connect", &orders.connect)];
            all.extend(orders.retransfer.as_ref().map(|found| order(arrangement, "return", found)));
            all.push(order(arrangement, "disconnect", &orders.disconnect));
            all.extend(orders.refuel.as_ref().map(|found| order(arrangement, "refuel", found)));
            SourceDocument { source: name, outcome: Outcome::Holds, reason: None, arrangement: explored, orders: all }
        }
        Err(no) => SourceDocument {
            source: name,
            outcome: no.outcome(),
            reason: Some(no.to_string()),
            arrangement: explored,
            orders: Vec::new(),
        },
    })
}

fn order(arrangement: &Arrangement, purpose: &'static str, order: &Order) -> OrderDocument {
    let network = &arrangement.network;
    let steps = (1..).zip(&order.steps).map(|(number, step)| StepDocument {
        number,
        step: network.operation(step.operation),
        verify: step.verify,
        because: words::why(arrangement, order, number),
        state: network.describe(&step.state),
    });
    OrderDocument {
        purpose,
        shortest_proved: order.shortest == Shortest::Proved,
        steps: steps.collect(),
        faults: order.faults.iter().map(|one| fault(arrangement, order, one)).collect(),
    }
}

fn fault(arrangement: &Arrangement, order: &Order, fault: &Fault) -> FaultDocument {
    FaultDocument {
        step: fault.step,
        kind: match fault.kind {
            FaultKind::Skipped => "skipped",
            FaultKind::Stuck(_) => "stuck",
        },
        outcome: fault.outcome,
        breaks_at: fault.first.as_ref().map(|first| first.step),
        invariants: fault.first.iter().flat_map(|first| first.invariants()).map(Word::spelling).collect(),
        refused: fault.refused.iter().map(|(step, _)| *step).collect(),
        reaches_goal: fault.reaches_goal,
        message: words::of_fault(arrangement, order, fault),
    }
}

fn explored_document(arrangement: &Arrangement, explored: &Exploration) -> ArrangementDocument {
    let hazards = hazards(&arrangement.network, explored, |one| arrangement.explain(one));
    ArrangementDocument { switches: explored.switches, reached: explored.reached, hazards }
}

/// What came of one scenario: `loadworthy-scenario`, version 1.
#[derive(Debug, Serialize)]
pub struct ScenarioDocument<'a> {
    format: &'static str,
    version: u32,
    scenario: &'a str,
    outcome: Outcome,
    first: Option<FirstDocument>,
    refused: Vec<RefusedDocument>,
    arrangement: Vec<HazardDocument>,
    cautions: [&'static str; 4],
}

/// The document of one scenario.
#[must_use]
pub fn scenario<'a>(scenario: &'a Scenario, judged: &Judgement, explored: &Exploration) -> ScenarioDocument<'a> {
    let network = &scenario.network;
    let explain = |one: &Break| network.explain(one);
    ScenarioDocument {
        format: "loadworthy-scenario",
        version: 1,
        scenario: &scenario.id,
        outcome: judged.outcome,
        first: judged.first.as_ref().map(|found| first(network, found, explain)),
        refused: refused(network, judged),
        arrangement: hazards(network, explored, explain),
        cautions: CAUTIONS,
    }
}

fn first(network: &Network, found: &StepFinding, explain: impl Fn(&Break) -> String) -> FirstDocument {
    FirstDocument {
        step: found.step,
        invariants: found.invariants().into_iter().map(Word::spelling).collect(),
        messages: found.breaks.iter().map(explain).collect(),
        state: network.describe(&found.state),
    }
}

fn refused(network: &Network, judged: &Judgement) -> Vec<RefusedDocument> {
    let message =
        |(step, refusal): &(usize, Refusal)| RefusedDocument { step: *step, message: network.refusal(refusal) };
    judged.refused.iter().map(message).collect()
}

fn hazards(network: &Network, explored: &Exploration, explain: impl Fn(&Break) -> String) -> Vec<HazardDocument> {
    let hazard = |hazard: &Hazard| HazardDocument {
        invariant: hazard.found.invariant.spelling(),
        outcome: hazard.found.outcome(),
        kept_by: match hazard.kept_by {
            KeptBy::Discipline => "discipline",
            KeptBy::NotDescribed => "not-described",
            KeptBy::Cover => "cover",
            KeptBy::KeptOff => "kept-off",
        },
        message: explain(&hazard.found),
        way: hazard.steps.iter().map(|step| network.operation(*step)).collect(),
    };
    explored.hazards.iter().map(hazard).collect()
}
