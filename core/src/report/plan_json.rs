//! The plan of a site for programs: a stable document, `loadworthy-plan` version 1.
//!
//! | field | meaning |
//! | --- | --- |
//! | `format`, `version` | `loadworthy-plan`, `1`; the version grows when a field changes its meaning |
//! | `site`, `source`, `code` | the names of the site and of the source, the identifier of the edition |
//! | `outcome` | `holds`, `fails` or `cannot-tell`, as the exit statuses 0, 1 and 2 |
//! | `kind` | `plan`, `prohibited`, `impossible` or `cannot-tell` |
//! | `reasons` | where no plan is possible, why |
//! | `connection` | `{ kind, citation }`: `manual` or `automatic` |
//! | `base` | `{ power, leg_a, leg_b, from }`: `not-stated`, `stated` or `measured` |
//! | `on` | the loads that can stay on together: `{ load, leg, current, power }` |
//! | `together` | `{ leg_a, leg_b, neutral, apparent_power, power, proven, worth, at_most }`; the last two list `{ priority, weight }` and are compared class by class; no set is worth more than `at_most`, which is null where it is proven that none is better |
//! | `off` | `{ load, kind, why, over }`; `over` is a list of `{ limit, by }` |
//! | `apart` | pairs of loads that must not run at once |
//! | `rotation` | turns, each a list of loads |
//! | `never` | loads that no turn can hold, not even alone beside those that must be on |
//! | `starts` | `{ outcome, steps, by_itself, all_at_once, on_return }`; a step is `{ loads, leg_a, leg_b, apparent_power, share, voltage, wait, outcome, broken }` |
//! | `lasting` | `{ expected, worst, reserve, wish }`; a time is `{ hours, seconds, at_least, end, by_hour }`, an hour `{ hour, load, left }` |
//! | `whole` | the calculated load of the whole dwelling, or null: `{ method, citation, demand, current, gives, outcome, working, questions }`, a part of the working `{ what, load, share, demand }` |
//! | `proposed` | the order of starts that was asked about, or null: `{ outcome, first_failing, steps }`, steps counted from 1 |
//! | `questions` | `{ about, fact, decides }` |
//! | `notes` | what was not stated and was taken on the cautious side, and what is odd about the record of a meter |
//! | `path` | the report on the site as planned, as `check --format json` prints it |
//! | `cautions` | the cautions of every report |
//!
//! Quantities are texts with units, rounded up (voltages and times down). What has nothing to say is null or empty.

use serde_json::{Value, json};

use super::plan::{amperes, connection, hours, priority, volt_amperes, watts};
use super::{CAUTIONS, json as report_json};
use crate::check::Report;
use crate::plan::choose::{ClassWorth, Proof};
use crate::plan::endurance::End;
use crate::plan::site::{
    BaseFrom, Body, Lasting, Lasts, Plan, SitePlan, StartStep, Starts, Whole, Why, Wished, Working,
};
use crate::plan::{Answer, Question, Verdict};

/// The plan as a document that can be serialized. `path` is the report on [`SitePlan::planned`].
#[must_use]
pub fn document(plan: &SitePlan, path: &Report<'_>) -> Value {
    let (kind, reasons) = match &plan.body {
        Body::Prohibited => ("prohibited", &[][..]),
        Body::CannotTell => ("cannot-tell", &[][..]),
        Body::Impossible(reasons) => ("impossible", reasons.as_slice()),
        Body::Plan(_) => ("plan", &[][..]),
    };
    let (connected, citation, _) = connection(plan, path);
    let [a, b] = plan.base_currents.map(amperes);
    let from = match plan.base_from {
        BaseFrom::NotStated => "not-stated",
        BaseFrom::Stated => "stated",
        BaseFrom::Measured => "measured",
    };
    let mut document = json!({
        "format": "loadworthy-plan",
        "version": 1,
        "site": plan.planned.premises().name,
        "source": plan.source,
        "code": path.code.id(),
        "outcome": outcome(plan.verdict),
        "kind": kind,
        "reasons": reasons,
        "connection": { "kind": connected, "citation": citation.map(|citation| citation.to_string()) },
        "base": { "power": watts(plan.base).to_string(), "leg_a": a, "leg_b": b, "from": from },
        "on": [], "together": null, "off": [], "apart": [], "rotation": [], "never": [], "starts": null, "lasting": null,
        "whole": plan.whole.as_ref().map(|whole| self::whole(whole, path)),
        "proposed": plan.proposed.as_ref().map(|judged| json!({
            "outcome": outcome(judged.verdict),
            "first_failing": judged.first_failing,
            "steps": steps(&judged.steps),
        })),
        "questions": plan.questions.iter().map(question).collect::<Vec<_>>(),
        "notes": plan.notes,
        "path": report_json::document(path),
        "cautions": CAUTIONS,
    });
    if let (Body::Plan(body), Some(fields)) = (&plan.body, document.as_object_mut()) {
        for (name, value) in body_fields(body) {
            fields.insert(name.to_owned(), value);
        }
    }
    document
}

fn whole(whole: &Whole, path: &Report<'_>) -> Value {
    let part = |part: &Working| {
        let (load, demand) = (volt_amperes(part.load), volt_amperes(part.demand));
        json!({ "what": part.what, "load": load, "share": part.share, "demand": demand })
    };
    json!({
        "method": whole.method, "citation": path.code.section(whole.topic).to_string(),
        "demand": whole.demand.map(volt_amperes), "current": whole.current.map(amperes), "gives": whole.gives,
        "outcome": outcome(whole.verdict), "working": whole.working.iter().map(part).collect::<Vec<_>>(),
        "questions": whole.questions.iter().map(question).collect::<Vec<_>>(),
    })
}

fn weights(worth: &[ClassWorth]) -> Value {
    worth.iter().map(|one| json!({ "priority": priority(one.class), "weight": one.weight })).collect()
}

fn body_fields(body: &Plan) -> [(&'static str, Value); 8] {
    let on = body
        .on
        .iter()
        .map(|on| json!({ "load": on.name, "leg": on.leg, "current": amperes(on.current), "power": watts(on.power) }));
    let ([a, b], apparent, power) = &body.legs;
    let together = json!({
        "leg_a": amperes(*a), "leg_b": amperes(*b), "neutral": body.neutral.map(amperes),
        "apparent_power": volt_amperes(*apparent), "power": watts(*power), "proven": body.proof == Proof::Best, "worth": weights(&body.worth),
        "at_most": match &body.proof {
            Proof::Best => Value::Null,
            Proof::NotProven { at_most } => weights(at_most),
        },
    });
    let off = body.off.iter().map(
        |off| json!({ "load": off.name, "kind": kind(&off.why), "why": off.why.to_string(), "over": over(&off.why) }),
    );
    [
        ("on", on.collect()),
        ("together", together),
        ("off", off.collect()),
        ("apart", json!(body.apart)),
        ("rotation", json!(body.rotation)),
        ("never", json!(body.never)),
        ("starts", starts(&body.starts)),
        ("lasting", lasting(&body.lasting)),
    ]
}

const fn outcome(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Holds => "holds",
        Verdict::Fails => "fails",
        Verdict::CannotTell => "cannot-tell",
    }
}

const fn kind(why: &Why) -> &'static str {
    match why {
        Why::Wished => "wished",
        Why::NotStated(_) => "not-stated",
        Why::Excluded(_) => "excluded",
        Why::Breaks(_) => "limit",
        Why::Start(_) => "start",
        Why::Said(_) => "other",
    }
}

fn over(why: &Why) -> Vec<Value> {
    match why {
        Why::Breaks(breaches) => breaches
            .iter()
            .map(|breach| json!({ "limit": breach.limit.to_string(), "by": breach.over.to_string() }))
            .collect(),
        _ => Vec::new(),
    }
}

fn question(question: &Question) -> Value {
    json!({ "about": question.about, "fact": question.fact, "decides": question.decides })
}

fn starts(starts: &Starts) -> Value {
    json!({
        "outcome": outcome(starts.verdict),
        "steps": steps(&starts.steps),
        "by_itself": steps(&starts.by_itself),
        "all_at_once": starts.all_at_once.as_ref().map(step),
        "on_return": starts.on_return.as_ref().map(step),
    })
}

fn steps(steps: &[StartStep]) -> Vec<Value> {
    steps.iter().map(step).collect()
}

fn step(step: &StartStep) -> Value {
    let [a, b] = step.current.map(amperes);
    json!({
        "loads": step.loads, "leg_a": a, "leg_b": b, "apparent_power": volt_amperes(step.total), "share": step.share,
        "voltage": step.voltage, "wait": step.wait, "outcome": outcome(step.verdict), "broken": step.broken,
    })
}

fn lasting(lasting: &Lasting) -> Value {
    let answer = |answer: &Answer<Lasts>| match answer {
        Answer::Told(told) => lasts(told),
        Answer::CannotTell(_) => Value::Null,
    };
    json!({
        "expected": answer(&lasting.expected),
        "worst": answer(&lasting.worst),
        "reserve": lasting.reserve,
        "wish": lasting.wished.as_ref().map(wish),
    })
}

fn lasts(told: &Lasts) -> Value {
    let end = match told.endurance.end {
        End::Reserve => "reserve",
        End::ShutOffTimer => "shut-off",
        End::BeyondRange => "beyond-range",
    };
    let by_hour = told.endurance.hours.iter();
    json!({
        "hours": hours(told.endurance.time),
        "seconds": told.endurance.time,
        "at_least": told.at_least,
        "end": end,
        "by_hour": by_hour
            .map(|hour| json!({ "hour": hour.of_day, "load": watts(hour.load), "left": hour.left }))
            .collect::<Vec<_>>(),
    })
}

fn wish(wished: &Wished) -> Value {
    json!({
        "time": hours(wished.time), "outcome": outcome(wished.verdict),
        "drop_expected": wished.drop_expected, "drop_worst": wished.drop_worst,
    })
}
