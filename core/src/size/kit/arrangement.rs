//! One arrangement: what it carries, its parts, and what stands in its way.

use super::parts::{Part, cost, length, pieces};
use super::{Arrangement, Kit, Obstacle, Outlet, Question, Wanted, inlet_for};
use crate::calc::Working;
use crate::calc::ampacity::Covering;
use crate::calc::continuous::{Load, factors};
use crate::calc::overcurrent::next_device;
use crate::code::Code;
use crate::quantity::{Amperes, Meters, Quantity, Ratio, Scaled, Volts};
use crate::site::{LoadWish, SourceNeutral, TransferNeutral};
use crate::size::circuit::{self, Circuit, Conductors, Device, DropLimit, NeutralLoad, Role, circuit};
use crate::size::cord::{self, CordSet, cord_set};
use crate::trade::{Configuration, DeviceKind, Leg, Mating, System, Usage};

pub(super) fn kit<'a>(
    code: &dyn Code,
    question: &Question<'a>,
    arrangement: Arrangement,
    working: &mut impl Working,
) -> Result<Kit<'a>, Obstacle> {
    match arrangement {
        Arrangement::CordsToAppliances => cords(code, question, working),
        Arrangement::ManualTransfer | Arrangement::InterlockedInlet => inlet(code, question, arrangement, working),
        Arrangement::FixedBidirectional => fixed(code, question),
    }
}

/// What an outlet gives for hours: the source's current, and the share of its device that may last, whichever is less.
fn carries(code: &dyn Code, question: &Question<'_>, outlet: &Outlet) -> Result<Amperes, Obstacle> {
    let (factor, _) = factors(code, outlet.continuous_rating).map_err(crate::size::Unsized::from)?;
    let bears = outlet.device.min(outlet.configuration.rated_current());
    // The greatest current whose factor still fits, rounded down to the microampere.
    let count = bears.count().saturating_mul(Ratio::ONE.count()).checked_div(factor.count()).unwrap_or(0);
    Ok(Amperes::from_count(count).unwrap_or(Amperes::ZERO).min(question.source.current))
}

/// The outlet for a building: of those that serve every line of the source, the one with the largest device.
fn main_outlet<'a>(question: &Question<'a>) -> Result<&'a Outlet, Obstacle> {
    let system = question.source.system;
    let lines = lines(system);
    let serves = |outlet: &&Outlet| {
        let configuration = outlet.configuration;
        let neutral = u8::from(configuration.neutral());
        configuration.poles().saturating_sub(neutral) == lines && (configuration.neutral() || system == System::V240)
    };
    question
        .source
        .outlets
        .iter()
        .filter(serves)
        .max_by_key(|outlet| outlet.device)
        .ok_or(Obstacle::Rule("voltage-and-poles-match", "no outlet of the source serves every line of its system"))
}

const fn lines(system: System) -> u8 {
    match system {
        System::V120 | System::V230 => 1,
        System::V240 | System::V120V240 => 2,
        System::V208Y120 | System::V480Y277 | System::V400Y230 => 3,
    }
}

/// The loads that fit one beside the other, in the order in which they are wanted.
struct Legs {
    limit: Amperes,
    a: Amperes,
    b: Amperes,
}

impl Legs {
    fn new(limit: Amperes) -> Self {
        Self { limit, a: Amperes::ZERO, b: Amperes::ZERO }
    }

    /// Takes a load on where it fits. On a source of one voltage there is one line only.
    fn take(&mut self, system: System, load: &Wanted<'_>) -> bool {
        let one_line = !matches!(system, System::V120V240);
        let between = system.line_to_line() == Some(load.voltage);
        let (on_a, on_b) = match load.leg {
            _ if one_line || between => (true, true),
            Some(Leg::A) => (true, false),
            Some(Leg::B) => (false, true),
            Some(Leg::Both) | None => (true, true),
        };
        let sum = |leg: Amperes, on: bool| if on { leg.checked_add(load.current) } else { Some(leg) };
        match (sum(self.a, on_a), sum(self.b, on_b)) {
            (Some(a), Some(b)) if a <= self.limit && b <= self.limit => {
                (self.a, self.b) = (a, b);
                true
            }
            _ => false,
        }
    }
}

const OVER: &str = "the source is taken by what stands before it";
const NOT_WANTED: &str = "it is wanted off";
const VOLTAGE: &str = "the source does not give its voltage";

/// What is wanted, the most important first, equals as they stand.
fn by_importance<'q, 'a>(wanted: &'q [Wanted<'a>]) -> Vec<&'q Wanted<'a>> {
    let mut all: Vec<&Wanted<'a>> = wanted.iter().collect();
    all.sort_by_key(|load| load.importance.rank());
    all
}

fn loads<'a>(question: &Question<'a>, limit: Amperes) -> (Vec<Wanted<'a>>, Vec<(&'a str, &'static str)>) {
    let system = question.source.system;
    let mut legs = Legs::new(limit);
    let (mut runs, mut off) = (Vec::new(), Vec::new());
    for load in by_importance(question.wanted) {
        if load.importance.wish == LoadWish::Off {
            off.push((load.name, NOT_WANTED));
        } else if !system.gives(load.voltage) {
            off.push((load.name, VOLTAGE));
        } else if legs.take(system, load) {
            runs.push(*load);
        } else {
            off.push((load.name, OVER));
        }
    }
    (runs, off)
}

/// A cord of its own for each appliance with a plug, as long as outlets and the source last.
fn cords<'a>(code: &dyn Code, question: &Question<'a>, working: &mut impl Working) -> Result<Kit<'a>, Obstacle> {
    let source = question.source;
    let mut legs = Legs::new(source.current);
    let mut free: Vec<&Outlet> = source.outlets.iter().collect();
    // The least outlet that serves: the larger ones are left for what needs them.
    free.sort_by_key(|outlet| outlet.device);
    let (mut runs, mut stays_off, mut parts) = (Vec::new(), Vec::new(), Vec::new());
    for load in by_importance(question.wanted) {
        if load.importance.wish == LoadWish::Off {
            stays_off.push((load.name, NOT_WANTED));
            continue;
        }
        let Some(plug) = load.plug else {
            stays_off.push((load.name, "it has no plug"));
            continue;
        };
        let mut serves = None;
        for (index, outlet) in free.iter().enumerate() {
            let mates = matches!(plug.enters(outlet.configuration), Mating::Mates(_));
            if mates && load.current <= carries(code, question, outlet)? {
                serves = Some(index);
                break;
            }
        }
        match serves {
            None => stays_off.push((load.name, "no outlet is left that its plug enters and that carries it")),
            // Which leg an outlet is on is not known: a load at 120 V counts on both.
            Some(_) if !legs.take(source.system, &Wanted { leg: None, ..*load }) => stays_off.push((load.name, OVER)),
            Some(index) => {
                let outlet = free.remove(index);
                let ends = (outlet.configuration, outlet.configuration);
                let set = sized_cord(code, question, outlet, ends, (load.current, load.voltage), working)?;
                parts.push(cord_part(&set));
                runs.push(load.name);
            }
        }
    }
    let cost = cost(&parts, question.prices);
    Ok(Kit { carries: source.current, runs, stays_off, neutral: None, parts, cost })
}

fn inlet<'a>(
    code: &dyn Code,
    question: &Question<'a>,
    arrangement: Arrangement,
    working: &mut impl Working,
) -> Result<Kit<'a>, Obstacle> {
    let (source, panel) = (question.source, question.panel);
    if source.system != panel.system {
        return Err(Obstacle::Rule(
            "voltage-and-poles-match",
            "the source does not give the voltages of the panel; run cords to appliances, or equipment that is listed to \
             feed both legs",
        ));
    }
    let neutral = neutral(source.neutral, arrangement)?;
    let outlet = main_outlet(question)?;
    let Some(inlet) = inlet_for(outlet.configuration, outlet.device) else {
        return Err(Obstacle::Rule("breaker-protects-inlet", "no inlet that mates is rated for the outlet's device"));
    };
    if outlet.device > panel.rating {
        return Err(Obstacle::Rule("smallest-rating-governs", "the panel is rated below the outlet's device"));
    }
    let carries = carries(code, question, outlet)?;
    let (runs, stays_off) = loads(question, carries);
    let current = (outlet.device, voltage(source.system));
    let set = sized_cord(code, question, outlet, (outlet.configuration, inlet), current, working)?;
    let feeder = feeder(code, question, outlet, working)?;
    let breaker = next_device(code, DeviceKind::Breaker, Scaled::whole(outlet.device), working)
        .map_err(crate::size::Unsized::from)?
        .min(inlet.rated_current());
    let mut parts = vec![
        cord_part(&set),
        pieces(1, format!("flanged inlet {inlet}P, {}", inlet.rated_current()), "breaker-protects-inlet"),
    ];
    parts.extend(wires(question, &feeder));
    let poles = lines(source.system);
    let poles = if poles == 1 { "1 pole".to_owned() } else { format!("{poles} poles") };
    if arrangement == Arrangement::InterlockedInlet {
        let name = format!("breaker {breaker}, {poles}, with a retainer where it is plugged on");
        parts.push(pieces(1, name, "backfed-breaker-held-down"));
        parts.push(pieces(
            1,
            format!("listed interlock for the panel, {}", panel.rating),
            "transfer-equipment-present",
        ));
    } else {
        let circuits: u16 = runs.iter().fold(0, |count, load| count.saturating_add(poles_of(load, panel.system)));
        let neutral = match neutral {
            TransferNeutral::Switched => "switching the neutral",
            _ => "neutral solid",
        };
        let noun = if circuits == 1 { "circuit pole" } else { "circuit poles" };
        let name = format!("listed manual transfer switch, {breaker}, {poles}, {circuits} {noun}, {neutral}");
        parts.push(pieces(1, name, "transfer-equipment-present"));
    }
    parts.push(pieces(1, "sign at the service: type and place of the source", "source-signs-at-service"));
    parts.push(pieces(1, "sign at the inlet: whether the source's neutral is bonded", "inlet-neutral-sign"));
    let cost = cost(&parts, question.prices);
    let runs = runs.iter().map(|load| load.name).collect();
    Ok(Kit { carries, runs, stays_off, neutral: Some(neutral), parts, cost })
}

/// A bonded source needs the neutral switched, a floating one needs it solid: the neutral is bonded exactly once.
fn neutral(source: Option<SourceNeutral>, arrangement: Arrangement) -> Result<TransferNeutral, Obstacle> {
    match (source, arrangement) {
        (None, _) => Err(Obstacle::NotStated("whether the neutral of the source is bonded to its frame")),
        (Some(SourceNeutral::Floating), _) => Ok(TransferNeutral::Solid),
        (Some(_), Arrangement::InterlockedInlet) => Err(Obstacle::Rule(
            "one-neutral-ground-bond",
            "an interlock leaves the neutral solid and the source is bonded: the neutral would be bonded twice; use \
             transfer equipment that switches the neutral, or a source whose maker provides for a floating neutral",
        )),
        (Some(_), _) => Ok(TransferNeutral::Switched),
    }
}

fn fixed<'a>(code: &dyn Code, question: &Question<'a>) -> Result<Kit<'a>, Obstacle> {
    let (source, panel) = (question.source, question.panel);
    let carries = match main_outlet(question) {
        Ok(outlet) => carries(code, question, outlet)?,
        // Equipment that is fixed needs no outlet.
        Err(_) => source.current,
    };
    let (runs, stays_off) = loads(question, carries);
    let rating = carries;
    let parts = vec![
        pieces(1, format!("listed interactive equipment, {rating}, {}", panel.system), "transfer-equipment-present"),
        pieces(1, format!("listed transfer equipment of that system, {}", panel.rating), "sources-mutually-excluded"),
        pieces(1, "sign at the service: type and place of the source", "source-signs-at-service"),
    ];
    let cost = cost(&parts, question.prices);
    let runs = runs.iter().map(|load| load.name).collect();
    // Its neutral is switched or solid as its listing says; nothing is concluded here.
    Ok(Kit { carries, runs, stays_off, neutral: None, parts, cost })
}

fn sized_cord(
    code: &dyn Code,
    question: &Question<'_>,
    from: &Outlet,
    (outlet, connector): (Configuration, Configuration),
    (current, voltage): (Amperes, Volts),
    working: &mut impl Working,
) -> Result<CordSet, Obstacle> {
    let asked = cord::Question {
        outlet,
        connector,
        device: from.device,
        current,
        voltage,
        length: question.cord_length,
        drop: question.drop,
        usage: Usage::ExtraHard,
        place: question.cord_place,
        ambient: question.feeder.ambient,
        marked: None,
        cord: None,
    };
    Ok(cord_set(code, &asked, working)?)
}

fn feeder(
    code: &dyn Code,
    question: &Question<'_>,
    outlet: &Outlet,
    working: &mut impl Working,
) -> Result<Circuit, Obstacle> {
    let source = question.source;
    let asked = circuit::Question {
        role: Role::Feeder,
        // The outlet's device protects it: it bears all of that rating.
        load: Load { continuous: Amperes::ZERO, non_continuous: outlet.device },
        conductors: match source.system {
            System::V120V240 => Conductors::TwoLinesAndNeutral(NeutralLoad::AsUngrounded),
            System::V240 => Conductors::TwoLines,
            System::V208Y120 | System::V480Y277 | System::V400Y230 => {
                Conductors::ThreePhaseAndNeutral(NeutralLoad::AsUngrounded)
            }
            _ => Conductors::LineAndNeutral,
        },
        voltage: voltage(source.system),
        length: question.feeder_length,
        conditions: question.feeder,
        drop: question.drop.map(|share| DropLimit { share, method: circuit::TABLE_8 }),
        device: Device { least: outlet.device, ..Device::BREAKER },
        grounding: Some(question.feeder.material),
        most_sets: 1,
    };
    Ok(circuit(code, &asked, working)?)
}

fn voltage(system: System) -> Volts {
    system.line_to_line().or(system.line_to_neutral()).unwrap_or(Volts::MIN)
}

fn cord_part(set: &CordSet) -> Part {
    let name = format!(
        "cord set {}, {}, {} conductors, {} to {}",
        set.cord, set.size.value, set.conductors, set.plug, set.connector
    );
    pieces(1, name, "breaker-protects-cord")
}

fn wires(question: &Question<'_>, feeder: &Circuit) -> Vec<Part> {
    let material = question.feeder.material;
    let covering = match question.feeder.covering {
        Covering::Insulation(insulation) => insulation.to_string(),
        Covering::Cable(cable, _) => format!("in {cable} cable"),
    };
    let times = |count: i128| {
        let all = question.feeder_length.count().saturating_mul(count);
        Meters::from_count(all).unwrap_or(Meters::MAX)
    };
    let size = feeder.ungrounded.value;
    let mut parts = vec![length(
        times(i128::from(lines(question.source.system))),
        format!("ungrounded conductor {size} {material} {covering}"),
        "conductor-ampacity",
    )];
    if let Some(neutral) = feeder.neutral {
        let name = format!("neutral {} {material} {covering}", neutral.value);
        parts.push(length(times(1), name, "conductor-ampacity"));
    }
    if let Some(grounding) = feeder.grounding {
        let name = format!("equipment grounding conductor {} {material}", grounding.value);
        parts.push(length(times(1), name, "equipment-grounding-conductor"));
    }
    parts
}

fn poles_of(load: &Wanted<'_>, system: System) -> u16 {
    if system.line_to_line() == Some(load.voltage) { 2 } else { 1 }
}
