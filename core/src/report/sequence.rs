//! An order of switching for a person to read, and the judgement of somebody's own order.

use std::fmt::{self, Write};

use super::{CAUTIONS, question, text};
use crate::check::{Question, Report, Verdict};
use crate::rules::{self, Outcome, Severity};
use crate::switching::{
    Arrangement, Exploration, Fault, FaultKind, Invariant, Judgement, KeptBy, NoOrder, NoPlan, Open, Order, Orders,
    Plan, Scenario, Sequence, Shortest, Verified,
};
use crate::trade::Word;

/// Writes the orders of a site: what keeps it from having any, or each order step by step with its reasons and faults.
///
/// # Errors
/// Only where `out` fails.
pub fn write(found: &Sequence<'_>, out: &mut impl Write) -> fmt::Result {
    heading(found.report, headline(found), out)?;
    if !found.prohibited.is_empty() {
        writeln!(out, "\nprohibited everywhere; no order of switching is given before this is mended")?;
        for finding in &found.prohibited {
            text::one(found.report, finding, out)?;
        }
    }
    for plan in &found.plans {
        if let Some(arrangement) = found.arrangements.get(plan.arrangement) {
            of_plan(found.report, arrangement, plan, out)?;
        }
    }
    if let Some(unmapped) = &found.unmapped {
        writeln!(out, "\nthe site is not laid out for switching: {unmapped}")?;
    } else if found.plans.is_empty() && found.prohibited.is_empty() {
        writeln!(out, "\nno source is described, so that there is nothing to switch")?;
    }
    notes(&found.arrangements, out)?;
    ending(&questions(found.report, &found.questions), found.report, out)
}

/// Writes the judgement of somebody's own order.
///
/// # Errors
/// Only where `out` fails.
pub fn write_verified(found: &Verified<'_>, out: &mut impl Write) -> fmt::Result {
    let (network, judged) = (&found.arrangement.network, &found.judgement);
    let words = match judged.outcome {
        Outcome::Holds => "the steps keep every invariant, whatever the utility does",
        Outcome::Fails => "the steps are refused",
        Outcome::CannotTell => "cannot tell whether the steps keep every invariant",
    };
    heading(found.report, words, out)?;
    if !found.prohibited.is_empty() {
        writeln!(out, "\nprohibited everywhere; no order of switching makes up for it")?;
        for finding in &found.prohibited {
            text::one(found.report, finding, out)?;
        }
    }
    writeln!(out, "\nsteps")?;
    for (number, operation) in (1..).zip(&found.steps.operations) {
        writeln!(out, "  {number:>3}. {}", network.operation(*operation))?;
    }
    if let Some(first) = &judged.first {
        writeln!(
            out,
            "\nfirst step that {}",
            if judged.outcome == Outcome::Fails { "breaks an invariant" } else { "nobody can tell of" }
        )?;
        let step = first.step.checked_sub(1).and_then(|index| found.steps.operations.get(index));
        match step {
            Some(step) => writeln!(out, "  {}. {}", first.step, network.operation(*step))?,
            None => writeln!(out, "  the state before the first step")?,
        }
        for one in &first.breaks {
            writeln!(out, "    {}", found.arrangement.explain(one))?;
        }
        writeln!(out, "    state: {}", network.describe(&first.state))?;
    }
    if !judged.refused.is_empty() {
        writeln!(out, "\nsteps that cannot be done")?;
        for (step, refusal) in &judged.refused {
            writeln!(out, "  {step}. {}", network.refusal(refusal))?;
        }
    }
    writeln!(out, "\nafter the last step that was followed\n  {}", network.describe(&judged.last))?;
    explored(&found.arrangement, found.explored.as_ref(), out)?;
    notes(std::slice::from_ref(&found.arrangement), out)?;
    ending(&questions(found.report, &found.questions), found.report, out)
}

/// The outcome in words.
#[must_use]
pub fn headline(found: &Sequence<'_>) -> &'static str {
    let all_found = !found.plans.is_empty() && found.plans.iter().all(|plan| plan.answer.is_ok());
    let none = found.plans.iter().any(|plan| matches!(&plan.answer, Err(no) if no.outcome() == Outcome::Fails));
    match (found.prohibited.is_empty(), all_found, none) {
        (false, ..) => "no order: the arrangement is prohibited",
        (_, true, _) => "orders found and proved",
        (_, _, true) => "no order",
        _ => "no order: cannot tell",
    }
}

/// What the verdict of the rules means for an order.
#[must_use]
pub const fn standing(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Loadworthy => "loadworthy",
        Verdict::NotLoadworthy => "not loadworthy; follow no order before what `check` finds is mended",
        Verdict::CannotTell => "cannot tell; follow no order before the questions are answered",
    }
}

fn heading(report: &Report<'_>, words: &str, out: &mut impl Write) -> fmt::Result {
    writeln!(out, "{}: {words}", report.site.premises().name)?;
    writeln!(out, "judged by {}: {}", report.code.title(), standing(report.verdict()))
}

fn of_plan(report: &Report<'_>, arrangement: &Arrangement, plan: &Plan, out: &mut impl Write) -> fmt::Result {
    let name = arrangement.network.name(plan.source);
    writeln!(out, "\nsource `{name}`")?;
    match &plan.answer {
        Ok(orders) => {
            for (title, order) in titled(orders) {
                of_order(arrangement, title, order, out)?;
            }
        }
        Err(no) => {
            writeln!(out, "  {no}")?;
            if let NoPlan::Order(_, NoOrder::Start(breaks)) = no {
                for one in breaks {
                    writeln!(out, "    {}", arrangement.explain(one))?;
                }
            }
        }
    }
    if report.verdict() != Verdict::Loadworthy && plan.answer.is_ok() {
        writeln!(out, "\n  the site is {}", standing(report.verdict()))?;
    }
    explored(arrangement, plan.explored.as_ref(), out)
}

/// The orders with what each is for.
#[must_use]
pub fn titled(orders: &Orders) -> Vec<(&'static str, &Order)> {
    let mut all = vec![("to connect", &orders.connect)];
    all.extend(orders.retransfer.as_ref().map(|order| ("to return, once the utility is back and steady", order)));
    all.push(("to disconnect after that", &orders.disconnect));
    all.extend(orders.refuel.as_ref().map(|order| ("to refuel while the loads are on the source", order)));
    all
}

/// Whether an order is known to be shortest.
#[must_use]
pub const fn proof(shortest: Shortest) -> &'static str {
    match shortest {
        Shortest::Proved => "proved: no order is shorter",
        Shortest::NotProved => "proved to break no invariant; whether a shorter one exists was not decided",
    }
}

fn of_order(arrangement: &Arrangement, title: &str, order: &Order, out: &mut impl Write) -> fmt::Result {
    let network = &arrangement.network;
    writeln!(out, "\n  {title}: {} steps, {}", order.steps.len(), proof(order.shortest))?;
    for (number, step) in (1..).zip(&order.steps) {
        writeln!(out, "  {number:>3}. {}", network.operation(step.operation))?;
        writeln!(out, "       see: {}", step.verify)?;
        writeln!(out, "       why: {}", why(arrangement, order, number))?;
    }
    if order.faults.is_empty() {
        return Ok(());
    }
    writeln!(out, "    single faults, the rest carried out as written")?;
    for fault in &order.faults {
        writeln!(out, "      {}", of_fault(arrangement, order, fault))?;
    }
    Ok(())
}

/// Why a step is there and why it comes there.
#[must_use]
pub fn why(arrangement: &Arrangement, order: &Order, number: usize) -> String {
    let network = &arrangement.network;
    let Some(step) = number.checked_sub(1).and_then(|index| order.steps.get(index)) else { return String::new() };
    let reason = network.reason(&step.because);
    let placement = network.placement(order, number);
    let names = |broken: &[Invariant]| match broken {
        [] => "it is refused or leads elsewhere".to_owned(),
        _ => format!("it breaks {}", broken.iter().map(|one| one.spelling()).collect::<Vec<_>>().join(", ")),
    };
    let mut places = Vec::new();
    if let Some((step, broken)) = &placement.after {
        places.push(format!("not before step {step}: there {}", names(broken)));
    }
    if let Some((step, broken)) = &placement.before {
        places.push(format!("not after step {step}: there {}", names(broken)));
    }
    if places.is_empty() {
        places.push(network.custom(step.operation).to_owned());
    }
    format!("{reason}; {}", places.join("; "))
}

/// One line about a fault: survived or not, and what follows from it.
#[must_use]
pub fn of_fault(arrangement: &Arrangement, order: &Order, fault: &Fault) -> String {
    let network = &arrangement.network;
    let step = fault.step.checked_sub(1).and_then(|index| order.steps.get(index));
    let what = match fault.kind {
        FaultKind::Skipped => {
            let words = step.map_or_else(String::new, |step| network.operation(step.operation));
            format!("step {} left out or without effect ({words})", fault.step)
        }
        FaultKind::Stuck(device) => format!("`{}` stuck from step {}", network.name(device), fault.step),
    };
    let follows = match (&fault.first, fault.outcome) {
        (Some(first), outcome) if outcome != Outcome::Holds => {
            let breaks: Vec<String> = first.breaks.iter().map(|one| arrangement.explain(one)).collect();
            let verb = if outcome == Outcome::Fails { "not survived" } else { "cannot tell" };
            format!("{verb}: at step {} {}", first.step, breaks.join("; "))
        }
        (_, Outcome::Holds) => match fault.refused.first() {
            Some((step, refusal)) => format!("survived: step {step} is refused, {}", network.refusal(refusal)),
            None if fault.reaches_goal => "survived: the goal is reached all the same".to_owned(),
            None => "survived: nothing breaks, and the goal is not reached".to_owned(),
        },
        _ => "cannot tell".to_owned(),
    };
    format!("{what}: {follows}")
}

fn explored(arrangement: &Arrangement, found: Option<&Exploration>, out: &mut impl Write) -> fmt::Result {
    let Some(found) = found else { return Ok(()) };
    writeln!(out, "\n  every position explored: {} switches that matter, {} positions", found.switches, found.reached)?;
    if found.hazards.is_empty() && !arrangement.questions.is_empty() {
        return writeln!(out, "    no hazard in what is described; what is described is not enough");
    }
    if found.hazards.is_empty() {
        return writeln!(
            out,
            "    no order of steps by anybody joins supplies, bares a live contact or changes the bonds"
        );
    }
    for hazard in &found.hazards {
        writeln!(out, "    {}", arrangement.explain(&hazard.found))?;
        writeln!(out, "      {}", kept_by(hazard.kept_by))?;
        let way: Vec<String> = hazard.steps.iter().map(|step| arrangement.network.operation(*step)).collect();
        if !way.is_empty() {
            writeln!(out, "      by: {}", way.join(", "))?;
        }
    }
    Ok(())
}

/// What keeps a hazard from happening, in words.
#[must_use]
pub const fn kept_by(kept: KeptBy) -> &'static str {
    match kept {
        KeptBy::Discipline => "discipline only: nothing but care keeps it from happening, and one slip is enough",
        KeptBy::NotDescribed => "kept by something that is not described",
        KeptBy::Cover => "kept by an interlock that is gone while its cover is off",
        KeptBy::KeptOff => "kept by care: the description says that its circuit stays off on the source",
    }
}

fn notes(arrangements: &[Arrangement], out: &mut impl Write) -> fmt::Result {
    let all: Vec<&String> = arrangements.iter().flat_map(|arrangement| &arrangement.notes).collect();
    if all.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nhow the site was taken")?;
    all.iter().try_for_each(|note| writeln!(out, "  {note}"))
}

/// What is missing for the order, then what is missing to say that nothing is prohibited, each fact once.
#[must_use]
pub fn questions(report: &Report<'_>, open: &[Open]) -> Vec<Question> {
    let mut all: Vec<Question> = open
        .iter()
        .map(|open| Question {
            subject: open.subject,
            field: open.field,
            fact: open.fact,
            decides: vec![open.invariant()],
        })
        .collect();
    for asked in report.questions() {
        match all.iter_mut().find(|known| known.subject == asked.subject && known.field == asked.field) {
            Some(known) => known.decides.extend(asked.decides),
            None if asked.decides.iter().any(|slug| prohibits(slug)) => all.push(asked),
            None => {}
        }
    }
    all
}

fn prohibits(slug: &str) -> bool {
    rules::find(slug).is_some_and(|rule| rule.severity == Severity::Prohibited)
}

fn ending(questions: &[Question], report: &Report<'_>, out: &mut impl Write) -> fmt::Result {
    if !questions.is_empty() {
        writeln!(out, "\nquestions to answer")?;
    }
    for open in questions {
        let place = report.site.place_of(open.subject, open.field).map(|place| place.to_string()).unwrap_or_default();
        writeln!(out, "  {place}: {}", question(report, open))?;
        writeln!(out, "    decides {}", open.decides.join(", "))?;
    }
    let asked = report.questions();
    let further = asked
        .iter()
        .filter(|one| !questions.iter().any(|known| known.subject == one.subject && known.field == one.field));
    match further.count() {
        0 => {}
        count => writeln!(out, "\nthe rules ask {count} further questions; `check` lists them")?,
    }
    writeln!(out, "\ncautions")?;
    CAUTIONS.iter().try_for_each(|caution| writeln!(out, "  - {caution}"))
}

/// The cautions of every report.
#[must_use]
pub fn cautions() -> String {
    format!("\ncautions\n{}", CAUTIONS.map(|caution| format!("  - {caution}\n")).concat())
}

/// What came of one scenario.
#[must_use]
pub fn scenario(scenario: &Scenario, judged: &Judgement, explored: &Exploration) -> String {
    let network = &scenario.network;
    let words = match judged.outcome {
        Outcome::Holds => "accepted",
        Outcome::Fails => "refused",
        Outcome::CannotTell => "cannot tell",
    };
    let mut lines = vec![format!("{}: {words} ({})", scenario.id, scenario.title)];
    if let Some(first) = &judged.first {
        let step = first.step.checked_sub(1).and_then(|index| scenario.steps.get(index));
        let step = step.map_or_else(|| "before the first step".to_owned(), |step| network.operation(*step));
        lines.push(format!("  step {}: {step}", first.step));
        lines.extend(first.breaks.iter().map(|one| format!("    {}", network.explain(one))));
        lines.push(format!("    state: {}", network.describe(&first.state)));
    }
    lines.extend(
        judged.refused.iter().map(|(step, why)| format!("  step {step} cannot be done: {}", network.refusal(why))),
    );
    for hazard in &explored.hazards {
        lines.push(format!("  arrangement: {}; {}", network.explain(&hazard.found), kept_by(hazard.kept_by)));
    }
    lines.join("\n") + "\n"
}
