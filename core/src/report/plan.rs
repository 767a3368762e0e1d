//! The plan of a site for a person to read.

use std::fmt::{self, Write};

use super::{CAUTIONS, text};
use crate::check::{self, Report};
use crate::code::Citation;
use crate::plan::choose::{Amount, Breach, Proof};
use crate::plan::endurance::{End, Hour};
use crate::plan::site::{BaseFrom, Body, KeptOff, Lasting, Lasts, Plan, SitePlan, StartStep, Starts, Whole, Why};
use crate::plan::{Answer, Verdict};
use crate::quantity::{Amperes, Quantity, Ratio, Seconds, VoltAmperes, Volts, Watts};
use crate::rules::{Finding, Outcome, Severity};
use crate::site::{Component, TransferKind};

/// Writes a plan: what is on, what is off and why, how to start, how long it lasts, the questions, the cautions.
///
/// `path` is the report on [`SitePlan::planned`].
///
/// # Errors
/// Only where `out` fails.
pub fn write(plan: &SitePlan, path: &Report<'_>, out: &mut impl Write) -> fmt::Result {
    writeln!(out, "{}: {}", plan.planned.premises().name, headline(plan))?;
    writeln!(out, "source `{}`, judged by {}", plan.source, path.code.title())?;
    writeln!(out, "{}", connection(plan, path).2)?;
    match &plan.body {
        Body::Prohibited => {
            writeln!(out, "the arrangement is prohibited everywhere and is not planned; mend this first\n")?;
            let prohibited = |finding: &&Finding| finding.rule.severity == Severity::Prohibited;
            let ended = path.ended(Outcome::Fails);
            ended.into_iter().filter(prohibited).try_for_each(|finding| text::one(path, finding, out))?;
        }
        Body::CannotTell => writeln!(out, "nothing can be planned before the questions are answered")?,
        Body::Impossible(reasons) => reasons.iter().try_for_each(|reason| writeln!(out, "{reason}"))?,
        Body::Plan(body) => self::body(plan, body, out)?,
    }
    if let Some(whole) = &plan.whole {
        self::whole(whole, path, out)?;
    }
    if let Some(judged) = &plan.proposed {
        writeln!(out, "\nthe order that was proposed {}", holds(judged.verdict))?;
        if let Some(number) = judged.first_failing {
            writeln!(out, "  its first failing step is {number}")?;
        }
        numbered(&judged.steps, out)?;
    }
    if plan.verdict != Verdict::Holds || plan.path != check::Verdict::Loadworthy {
        questions(plan, out)?;
    }
    if matches!(plan.body, Body::Plan(_)) {
        writeln!(out, "\nthe path as planned: {}", plan.path.words())?;
        text::part(path, Outcome::Fails, "fails", out)?;
        text::questions(path, out)?;
    }
    if !plan.notes.is_empty() {
        writeln!(out, "\nnotes; what is not stated was taken on the cautious side")?;
        plan.notes.iter().try_for_each(|note| writeln!(out, "  {note}"))?;
    }
    writeln!(out, "\ncautions")?;
    CAUTIONS.iter().try_for_each(|caution| writeln!(out, "  - {caution}"))
}

fn headline(plan: &SitePlan) -> &'static str {
    match (&plan.body, plan.verdict) {
        (Body::Plan(_), Verdict::Holds) => "a plan exists and holds",
        (Body::Plan(_), Verdict::Fails) => "a plan exists and does not hold",
        (Body::Plan(_) | Body::CannotTell, _) => "cannot tell",
        (Body::Prohibited, _) => "prohibited, no plan",
        (Body::Impossible(_), _) => "no plan is possible",
    }
}

/// How the building is put on the source: by whom, the section that says what it must then carry, and both in words.
pub(super) fn connection(plan: &SitePlan, path: &Report<'_>) -> (&'static str, Option<Citation>, String) {
    let source = plan.planned.sources().iter().find(|source| *source.name == *plan.source);
    let mut below = source.into_iter().flat_map(|source| plan.planned.below(source.id()));
    let automatic = below.any(|component| match component {
        Component::Transfer(transfer) => matches!(transfer.kind, TransferKind::Automatic | TransferKind::Interactive),
        _ => false,
    });
    let (kind, topic, words) = if automatic {
        (
            "automatic",
            "automatic-transfer-capacity",
            "transfer is automatic: the source must carry all that is passed to it",
        )
    } else {
        ("manual", "manual-transfer-capacity", "people choose the loads: the source must carry all that is on together")
    };
    let citation = path.code.section(topic);
    let section = if citation.section.is_some() { format!(" ({citation})") } else { String::new() };
    (kind, Some(citation), format!("{words}{section}"))
}

/// The priority that a class stands for; what has none comes last.
pub(super) fn priority(class: u8) -> Option<u16> {
    (class < u8::MAX).then(|| u16::from(class) + 1)
}

fn body(plan: &SitePlan, body: &Plan, out: &mut impl Write) -> fmt::Result {
    let from = match plan.base_from {
        BaseFrom::NotStated => "none is stated",
        BaseFrom::Stated => "as stated",
        BaseFrom::Measured => "as measured",
    };
    let [a, b] = plan.base_currents.map(amperes);
    writeln!(out, "\nbase load: {}, {from}; leg A {a}, leg B {b}", watts(plan.base))?;
    match &body.proof {
        Proof::Best => writeln!(out, "\ncan stay on together (no set is better)")?,
        Proof::NotProven { at_most } => {
            writeln!(out, "\ncan stay on together (the best found; that none is better is not proven)")?;
            for (worth, most) in body.worth.iter().zip(at_most) {
                let class = priority(worth.class).map_or("no priority".to_owned(), |class| format!("priority {class}"));
                writeln!(out, "  {class}: weight {} on; no set has more than {}", worth.weight, most.weight)?;
                // What comes after the first difference says nothing: classes are compared one after the other.
                if worth.weight != most.weight {
                    break;
                }
            }
        }
    }
    for on in &body.on {
        writeln!(out, "  {}: leg {}, {}, {}", on.name, on.leg, amperes(on.current), watts(on.power))?;
    }
    let ([a, b], apparent, power) = &body.legs;
    write!(out, "  together: leg A {}, leg B {}", amperes(*a), amperes(*b))?;
    if let Some(neutral) = body.neutral {
        write!(out, ", neutral {}", amperes(neutral))?;
    }
    writeln!(out, "; {}, {}", volt_amperes(*apparent), watts(*power))?;
    if !body.off.is_empty() {
        writeln!(out, "\nkeep off; each would exceed")?;
        body.off.iter().try_for_each(|off| kept_off(off, out))?;
    }
    if !body.apart.is_empty() {
        writeln!(out, "\nmust not run at once")?;
        body.apart.iter().try_for_each(|(one, other)| writeln!(out, "  `{one}` and `{other}`"))?;
    }
    if !body.rotation.is_empty() {
        writeln!(out, "\nin turns")?;
        for (number, turn) in (1..).zip(&body.rotation) {
            writeln!(out, "  {number}. {}", turn.join(", "))?;
        }
    }
    if !body.never.is_empty() {
        writeln!(out, "\nin no turn, not even alone beside what must be on\n  {}", body.never.join(", "))?;
    }
    starts(&body.starts, out)?;
    lasting(&body.lasting, out)
}

/// One line for one limit; a line for each where there are several.
fn kept_off(off: &KeptOff, out: &mut impl Write) -> fmt::Result {
    let line = |breach: &Breach| format!("{} by {}", breach.limit, over(breach.over));
    match &off.why {
        Why::Breaks(breaches) if breaches.len() > 1 => {
            writeln!(out, "  {}:", off.name)?;
            breaches.iter().try_for_each(|breach| writeln!(out, "    {}", line(breach)))
        }
        Why::Breaks(breaches) if !breaches.is_empty() => {
            writeln!(out, "  {}: {}", off.name, breaches.iter().map(line).collect::<Vec<_>>().join(""))
        }
        why => writeln!(out, "  {}: {why}", off.name),
    }
}

/// As other amounts of a report, rounded up.
fn over(amount: Amount) -> Amount {
    match amount {
        Amount::Current(current) => Amount::Current(amperes(current)),
        Amount::Apparent(power) => Amount::Apparent(volt_amperes(power)),
        Amount::Power(power) => Amount::Power(watts(power)),
    }
}

fn starts(starts: &Starts, out: &mut impl Write) -> fmt::Result {
    let heading = match starts.verdict {
        Verdict::Holds => "start in this order; every start holds",
        Verdict::CannotTell => "start in this order; whether every start holds cannot be told",
        Verdict::Fails => "no order of starts holds; each of these cannot be the last",
    };
    writeln!(out, "\n{heading}")?;
    numbered(&starts.steps, out)?;
    if !starts.by_itself.is_empty() {
        writeln!(out, "\nwhat comes on by itself beside all others")?;
        numbered(&starts.by_itself, out)?;
    }
    for (words, step) in [
        ("all that comes on by itself must not do so at one moment; keep these apart:", &starts.all_at_once),
        (
            "when power returns all of these come on at once and must not; open their breakers before:",
            &starts.on_return,
        ),
    ] {
        if let Some(step) = step {
            writeln!(out, "\n{words}\n  {}", one(step))?;
        }
    }
    Ok(())
}

const fn holds(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Holds => "holds",
        Verdict::Fails => "fails",
        Verdict::CannotTell => "cannot be told",
    }
}

fn numbered(steps: &[StartStep], out: &mut impl Write) -> fmt::Result {
    (1..).zip(steps).try_for_each(|(number, step)| writeln!(out, "  {number}. {}", one(step)))
}

fn one(step: &StartStep) -> String {
    let [a, b] = step.current.map(amperes);
    let mut line =
        format!("{}: leg A {a}, leg B {b}, {} while it starts", step.loads.join(" and "), volt_amperes(step.total));
    if let Some(share) = step.share {
        let share = Ratio::new(share.count_of_millionths().saturating_add(999) / 1000 * 1000).unwrap_or(share);
        line.push_str(&format!("; then {share} of what the source gives for hours"));
    }
    match step.voltage.as_slice() {
        [] => line.push_str("; the voltage cannot be told"),
        volts => {
            let volts: Vec<String> = volts.iter().map(|volts| tenth(*volts).to_string()).collect();
            line.push_str(&format!("; {} at the load", volts.join(" and ")));
        }
    }
    match step.wait {
        Some(wait) => line.push_str(&format!("; then wait {wait}")),
        None => line.push_str("; then wait until all is steady, for no time is stated"),
    }
    if !step.broken.is_empty() {
        line.push_str(&format!("; fails: {}", step.broken.join("; ")));
    }
    line
}

fn lasting(lasting: &Lasting, out: &mut impl Write) -> fmt::Result {
    writeln!(out, "\nhow long it lasts")?;
    for (words, answer) in
        [("with the duty cycles", &lasting.expected), ("with everything on all the time", &lasting.worst)]
    {
        match answer {
            Answer::Told(told) => writeln!(out, "  {words}: {}", lasts(told, lasting))?,
            Answer::CannotTell(_) => writeln!(out, "  {words}: cannot tell")?,
        }
    }
    by_hour(lasting, out)?;
    let Some(wished) = &lasting.wished else { return Ok(()) };
    let told = matches!((&lasting.expected, &lasting.worst), (Answer::Told(_), Answer::Told(_)));
    let words = match wished.verdict {
        Verdict::CannotTell if told => "is reached with the duty cycles and not with everything on",
        verdict => holds(verdict),
    };
    writeln!(out, "  the wish of {} {words}", hours(wished.time))?;
    for (words, dropped) in
        [("with the duty cycles", &wished.drop_expected), ("with everything on", &wished.drop_worst)]
    {
        match dropped.as_deref() {
            Some([]) => writeln!(out, "    {words}: nothing need be dropped")?,
            Some(names) => writeln!(out, "    {words}: drop {}", names.join(", "))?,
            None => writeln!(out, "    {words}: it cannot be shown that dropping anything reaches it")?,
        }
    }
    Ok(())
}

/// The hours of a day that are printed; the document for programs has more.
const HOURS_SHOWN: usize = 24;

fn by_hour(lasting: &Lasting, out: &mut impl Write) -> fmt::Result {
    let hours = |answer| match answer {
        &Answer::Told(Lasts { ref endurance, .. }) => endurance.hours.as_slice(),
        Answer::CannotTell(_) => &[],
    };
    let (expected, worst) = (hours(&lasting.expected), hours(&lasting.worst));
    if expected.is_empty() && worst.is_empty() {
        return Ok(());
    }
    writeln!(
        out,
        "  hour by hour: the mean load, and what is left above the reserve; then the same with everything on"
    )?;
    let side = |hours: &[Hour], at: usize| {
        let told = |hour: &Hour| format!("{}, {} left", watts(hour.load), whole_percent(hour.left));
        hours.get(at).map_or("-".to_owned(), told)
    };
    for at in 0..expected.len().max(worst.len()).min(HOURS_SHOWN) {
        let Some(hour) = expected.get(at).or(worst.get(at)) else { break };
        writeln!(out, "    {:02}:00  {}; {}", hour.of_day, side(expected, at), side(worst, at))?;
    }
    Ok(())
}

/// Rounded down to a whole percent.
fn whole_percent(share: Ratio) -> Ratio {
    Ratio::percent(u16::try_from(share.count_of_millionths() / 10_000).unwrap_or(0))
}

fn lasts(told: &Lasts, lasting: &Lasting) -> String {
    let time = hours(told.endurance.time);
    let least = if told.at_least { "at least " } else { "" };
    let reserve = lasting.reserve.map(|share| share.to_string()).unwrap_or_default();
    match told.endurance.end {
        End::Reserve => format!("{least}{time}, down to the reserve of {reserve}"),
        End::ShutOffTimer => format!("{time}, when the source switches itself off"),
        End::BeyondRange => format!("more than {time}"),
    }
}

fn whole(whole: &Whole, path: &Report<'_>, out: &mut impl Write) -> fmt::Result {
    write!(out, "\nthe whole dwelling ({}): ", path.code.section(whole.topic))?;
    match whole.demand {
        None => writeln!(out, "cannot tell")?,
        Some(demand) => {
            write!(out, "{}", volt_amperes(demand))?;
            whole.current.map_or(Ok(()), |current| write!(out, ", {}", amperes(current)))?;
            let gives = whole.gives.map_or("is not known".to_owned(), |gives| format!("is {gives}"));
            let words = match whole.verdict {
                Verdict::Holds => "so it carries the whole",
                Verdict::Fails => "so it does not carry the whole: keep loads off, as above",
                Verdict::CannotTell => "so whether it carries the whole cannot be told",
            };
            writeln!(out, "; what the source gives {gives}, {words}")?;
        }
    }
    for part in &whole.working {
        let (load, demand) = (volt_amperes(part.load), volt_amperes(part.demand));
        writeln!(out, "  {}: {load} at {} is {demand}", part.what, part.share)?;
    }
    whole.questions.iter().try_for_each(|question| writeln!(out, "  {question}"))
}

fn questions(plan: &SitePlan, out: &mut impl Write) -> fmt::Result {
    if plan.questions.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nquestions that the plan waits for")?;
    plan.questions.iter().try_for_each(|question| writeln!(out, "  {question}"))
}

/// Hours and minutes, rounded down.
pub(super) fn hours(time: Seconds) -> String {
    let minutes = time.count() / 60_000;
    match (minutes / 60, minutes % 60) {
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

/// To the tenth of a volt, rounded down.
fn tenth(voltage: Volts) -> Volts {
    Volts::new(voltage.millivolts() / 100 * 100).unwrap_or(voltage)
}

/// Rounded up to a whole number of steps.
fn up<Q: Quantity>(quantity: Q, step: i128) -> Q {
    let steps = quantity.count() / step + i128::from(quantity.count() % step != 0);
    steps.checked_mul(step).and_then(Q::from_count).unwrap_or(quantity)
}

/// To the hundredth of an ampere, rounded up.
pub(super) fn amperes(current: Amperes) -> Amperes {
    up(current, 10_000)
}

/// To the watt, rounded up.
pub(super) fn watts(power: Watts) -> Watts {
    up(power, 1_000_000_000_000_000)
}

/// To the volt-ampere, rounded up.
pub(super) fn volt_amperes(power: VoltAmperes) -> VoltAmperes {
    up(power, 1_000_000_000)
}
