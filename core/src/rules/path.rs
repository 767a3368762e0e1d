//! The voltage drop from a source to a load, stretch by stretch.

use super::{Demand, Findings, Survey};
use crate::calc::voltage_drop::{Currents, Method, Segment, VoltageDrop, Wire, part, voltage_drop};
use crate::calc::{CannotTell, Silent, Working};
use crate::quantity::{Amperes, Celsius, Meters, Ratio, Rounding};
use crate::rules::Shape;
use crate::site::{Component, ComponentId, Cord, Load, Wiring};
use crate::trade::{Leg, Material, System, WireSize};

/// How drops are reckoned: at the temperature of the table of resistances.
const METHOD: Method = Method::DirectCurrent { temperature: Celsius::from_whole(75) };

/// A way of more stretches is not reckoned.
const MOST_STRETCHES: usize = 8;

/// Why the drop of a path is not known.
#[derive(Clone, Copy)]
pub(super) enum Unknown {
    /// A fact is not stated: of what, which field, in words.
    Fact(ComponentId, &'static str, &'static str),
    /// A table does not tell.
    Gap(CannotTell),
    /// The system is one whose drops are not reckoned here.
    System,
}

/// The drop up to a load, as far as it is known: which legs some loads are on may not be.
#[derive(Clone, Copy)]
pub(super) struct Drops {
    /// The greatest that it can be.
    pub(super) worst: VoltageDrop,
    /// The least that it can be, with a load whose leg would tell more; `None` where all that counts is known.
    best: Option<(VoltageDrop, ComponentId)>,
}

impl Drops {
    /// What a judgement says of the drop, the same at its greatest and its least; else asks for the leg that decides.
    pub(super) fn certain<T: PartialEq>(&self, judge: impl Fn(&VoltageDrop) -> T) -> Result<T, Unknown> {
        let worst = judge(&self.worst);
        match &self.best {
            Some((best, load)) if judge(best) != worst => Err(Unknown::Fact(*load, "leg", "its leg")),
            _ => Ok(worst),
        }
    }
}

/// Which stretches of the way count.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Reach {
    /// Everything from the source.
    FromSource,
    /// The branch circuit alone.
    Branch,
}

impl Reach {
    /// Whether what a component adds to the drop counts.
    fn counts(self, component: Component<'_>) -> bool {
        match component {
            Component::Circuit(_) => true,
            Component::Feeder(_) | Component::Cord(_) => self == Self::FromSource,
            _ => false,
        }
    }
}

/// The drop up to a load, with all loads running that are to run.
pub(super) fn drop_to(survey: &Survey<'_>, load: &Load, reach: Reach, found: &mut Findings) -> Result<Drops, Unknown> {
    let [from_source, branch] = &survey.drops;
    let drops = if reach == Reach::Branch { branch } else { from_source };
    found.once(drops.get(load.id().index()), |found| {
        let parts = if found.wants_working() { None } else { of_parts(survey, load, reach) };
        parts.unwrap_or_else(|| reckoned(survey, load, reach, found))
    })
}

/// The drop as the sum of its stretches, each of which is reckoned once for all loads that it acts on alike; `None` where
/// there is more to say, since the leg of a load is not stated, or the way is too long.
fn of_parts(survey: &Survey<'_>, load: &Load, reach: Reach) -> Option<Result<Drops, Unknown>> {
    let (mut sum, mut count, mut gap) = (0_i128, 0, None);
    for component in survey.upstream(load.id()).filter(|component| reach.counts(*component)) {
        let id = component.id();
        count += 1;
        if survey.demand(id).without_leg.is_some() || count > MOST_STRETCHES {
            return None;
        }
        let alike = survey.parts.get(acts_as(survey, id, load))?.get(id.index())?;
        match *alike.get_or_init(|| part_of(survey, component, load)) {
            Ok(part) => sum = sum.saturating_add(part),
            // A fact that is missing further on comes before a table that does not tell.
            Err(Unknown::Gap(found)) => gap = gap.or(Some(found)),
            Err(unknown) => return Some(Err(unknown)),
        }
    }
    Some(match gap {
        Some(gap) => Err(Unknown::Gap(gap)),
        None => Ok(Drops { worst: VoltageDrop::of_parts(*load.voltage, sum), best: None }),
    })
}

fn part_of(survey: &Survey<'_>, component: Component<'_>, load: &Load) -> Result<i128, Unknown> {
    let (wire, length) = conductors(component)?;
    let currents = currents(survey, component.id(), load)?.worst;
    part(survey.code, &Segment { wire, neutral: None, length, currents }, METHOD).map_err(Unknown::Gap)
}

/// Which loads the currents of a stretch act on alike: those on leg A, on leg B, between the lines, and others.
fn acts_as(survey: &Survey<'_>, of: ComponentId, load: &Load) -> usize {
    match load.leg {
        _ if between_lines(survey, of, load) => 2,
        Some(Leg::A) => 0,
        Some(Leg::B) => 1,
        Some(Leg::Both) | None => 3,
    }
}

fn between_lines(survey: &Survey<'_>, of: ComponentId, load: &Load) -> bool {
    survey.system(of).and_then(System::line_to_line) == Some(*load.voltage)
}

fn reckoned(survey: &Survey<'_>, load: &Load, reach: Reach, working: &mut impl Working) -> Result<Drops, Unknown> {
    let mut path = Path::EMPTY;
    let mut leg = None;
    for component in survey.upstream(load.id()).filter(|component| reach.counts(*component)) {
        let (wire, length) = conductors(component)?;
        let flows = currents(survey, component.id(), load)?;
        path.push(Segment { wire, neutral: None, length, currents: flows.worst }, flows.best)?;
        leg = leg.or(flows.best.and(if load.leg.is_none() { Some(load.id()) } else { flows.leg }));
    }
    let best = match leg {
        Some(at) => Some((path.best().drop(survey, load, &mut Silent)?, at)),
        None => None,
    };
    Ok(Drops { worst: path.drop(survey, load, working)?, best })
}

/// The stretches of a way, from the load on, with the currents that let it drop most; and those that let it drop least,
/// where they differ.
struct Path {
    segments: [Segment; MOST_STRETCHES],
    best: [Option<Currents>; MOST_STRETCHES],
    count: usize,
}

impl Path {
    const EMPTY: Self = Self {
        segments: [Segment {
            wire: ZERO,
            neutral: None,
            length: Meters::ZERO,
            currents: Currents::TwoWire(Amperes::ZERO),
        }; MOST_STRETCHES],
        best: [None; MOST_STRETCHES],
        count: 0,
    };

    fn push(&mut self, segment: Segment, best: Option<Currents>) -> Result<(), Unknown> {
        *self.segments.get_mut(self.count).ok_or(Unknown::System)? = segment;
        *self.best.get_mut(self.count).ok_or(Unknown::System)? = best;
        self.count += 1;
        Ok(())
    }

    /// The same way where it drops least.
    fn best(&self) -> Self {
        let mut segments = self.segments;
        for (segment, best) in segments.iter_mut().zip(self.best) {
            segment.currents = best.unwrap_or(segment.currents);
        }
        Self { segments, ..*self }
    }

    fn drop(&self, survey: &Survey<'_>, load: &Load, working: &mut impl Working) -> Result<VoltageDrop, Unknown> {
        let segments = self.segments.get(..self.count).unwrap_or_default();
        voltage_drop(survey.code, *load.voltage, segments, METHOD, working).map_err(Unknown::Gap)
    }
}

const ZERO: Wire =
    Wire::Stated { resistance: crate::quantity::OhmsPerLength::MIN, reactance: crate::quantity::OhmsPerLength::MIN };

/// The conductors of a stretch and their length.
fn conductors(component: Component<'_>) -> Result<(Wire, Meters), Unknown> {
    match component {
        Component::Circuit(circuit) => fixed(circuit.id(), circuit.wiring.as_ref()),
        Component::Feeder(feeder) => fixed(feeder.id(), feeder.wiring.as_ref()),
        Component::Cord(cord) => flexible(cord),
        _ => Err(Unknown::System),
    }
}

fn fixed(of: ComponentId, wiring: Option<&Wiring>) -> Result<(Wire, Meters), Unknown> {
    let missing = |fact| Unknown::Fact(of, "wiring", fact);
    let wiring = wiring.ok_or(missing("its wiring"))?;
    let material = wiring.material.ok_or(missing("the material of its conductors"))?;
    let size = wiring.size.ok_or(missing("its wire size"))?;
    let length = wiring.length.ok_or(missing("its length"))?;
    Ok((Wire::Sized(material, size), *length))
}

fn flexible(cord: &Cord) -> Result<(Wire, Meters), Unknown> {
    let size: WireSize = cord.size.ok_or(Unknown::Fact(cord.id(), "size", "its wire size"))?;
    let length = cord.length.ok_or(Unknown::Fact(cord.id(), "length", "its length"))?;
    // Flexible cords are of copper: Tables 400.5(A)(1) and (A)(2).
    Ok((Wire::Sized(Material::Copper, size), *length))
}

/// The currents of a stretch as they act on a load.
struct Flows {
    /// Where they let its voltage drop most.
    worst: Currents,
    /// Where they let it drop least, if the legs of some loads are not stated.
    best: Option<Currents>,
    /// One of those loads.
    leg: Option<ComponentId>,
}

impl From<Amperes> for Flows {
    fn from(current: Amperes) -> Self {
        Self { worst: Currents::TwoWire(current), best: None, leg: None }
    }
}

/// The currents of a stretch: over its two conductors, or over its leg and the neutral.
fn currents(survey: &Survey<'_>, of: ComponentId, load: &Load) -> Result<Flows, Unknown> {
    let demand = survey.demand(of);
    if let Some(missing) = demand.without_draw {
        return Err(Unknown::Fact(missing, "current", "its current, or its power and power factor,"));
    }
    match survey.shape(of) {
        Some(Shape::OneLeg | Shape::TwoLegs) => {
            let bounds = survey.line_current(of, Ratio::ONE).ok_or(Unknown::System)?;
            Ok(bounds.greatest.to_current(Rounding::Up).into())
        }
        Some(Shape::ThreeWire) => {
            let flow = survey.flow(of).ok_or(Unknown::System)?;
            if between_lines(survey, of, load) {
                return Ok(flow.between_lines.ok_or(Unknown::System)?.into());
            }
            let (this, other) = flow.legs(load.leg).ok_or(Unknown::System)?;
            let worst = Currents::Legs { this, other };
            if demand.without_leg.is_none() {
                return Ok(Flows { worst, best: None, leg: None });
            }
            let (this, other) = survey.lightest_leg(of, load).ok_or(Unknown::System)?;
            Ok(Flows { worst, best: Some(Currents::Legs { this, other }), leg: demand.without_leg })
        }
        Some(Shape::ThreePhase) => Err(Unknown::System),
        None => Err(Unknown::Fact(of, "voltage", "its voltage")),
    }
}

/// The currents of two legs that share a neutral, as they act on loads.
pub(super) struct Flow {
    /// On a load between the lines. Each line drops its own current's share: together twice the mean, whatever leg a load
    /// is on.
    between_lines: Option<Amperes>,
    /// On one on leg A, on leg B, on both or either: (its own leg, the other).
    on_leg: [Option<(Amperes, Amperes)>; 3],
}

impl Flow {
    pub(super) fn of(demand: &Demand) -> Self {
        let legs = demand.legs();
        let on_leg = [Some(Leg::A), Some(Leg::B), None].map(|leg| legs?.currents(leg));
        Self { between_lines: demand.mean_of_lines(), on_leg }
    }

    fn legs(&self, leg: Option<Leg>) -> Option<(Amperes, Amperes)> {
        let [a, b, heavier] = self.on_leg;
        match leg {
            Some(Leg::A) => a,
            Some(Leg::B) => b,
            Some(Leg::Both) | None => heavier,
        }
    }
}

/// The loads whose drop is judged: those that are to run.
pub(super) fn running<'a>(survey: &Survey<'a>) -> impl Iterator<Item = &'a Load> {
    survey.site.loads().iter().filter(|load| load.running != Some(false))
}
