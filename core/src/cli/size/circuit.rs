//! `size circuit`: overcurrent device, ungrounded conductors, neutral, equipment grounding conductor, raceway.

use super::super::answer::{Answer, Detail};
use super::super::calc::conductor::Conductor;
use super::super::calc::continuous_load::LoadOptions;
use super::super::named::named;
use super::super::options::{Problem, given, missing, required};
use super::settle;
use crate::calc::Working;
use crate::calc::ampacity::Covering;
use crate::calc::continuous::Load;
use crate::calc::overcurrent::Supplies;
use crate::code::Code;
use crate::quantity::{Amperes, Meters, Ratio, Volts};
use crate::size::circuit::{
    self, Circuit, Conductors, Device, DropLimit, NeutralLoad, Question as Asked, Role, TABLE_8,
};
use crate::size::raceway::{self, Extent, Occupant};
use crate::trade::{DeviceKind, Insulation, Jacket, Material, RacewayKind, Stranding, TerminalMark};

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    #[command(flatten)]
    pub(super) path: Path,
    /// The least rating of the device to consider: "15 A"
    #[arg(long)]
    least_device: Option<String>,
    /// The material of the equipment grounding conductor, or none where a raceway or a sheath serves
    #[arg(long)]
    grounding_material: Option<String>,
    /// The most sets of conductors in parallel, each in its own raceway: 1 to 9
    #[arg(long)]
    most_sets: Option<String>,
    /// The raceway to size too, for each set: EMT, ENT, FMC, IMC, LFMC, RMC, PVC-40, PVC-80
    #[arg(long)]
    raceway: Option<String>,
}

named!(Question: least_device, grounding_material, most_sets, raceway; path);

/// The circuit but for its sizes: shared with `size solve`.
#[derive(Default, clap::Args)]
pub(super) struct Path {
    /// Branch or feeder
    #[arg(long)]
    role: Option<String>,
    #[command(flatten)]
    load: LoadOptions,
    /// Its conductors: line-and-neutral, two-lines, two-lines-and-neutral, three-phase, three-phase-and-neutral
    #[arg(long)]
    conductors: Option<String>,
    /// The most that the neutral of a feeder carries, taken as continuous: "20 A"
    #[arg(long)]
    neutral_load: Option<String>,
    /// The voltage, between lines where there are two: "240 V"
    #[arg(long)]
    voltage: Option<String>,
    /// The length of the run, one way: "80 ft"
    #[arg(long)]
    length: Option<String>,
    /// The limit on the voltage drop: "3 %"
    #[arg(long)]
    drop_limit: Option<String>,
    #[command(flatten)]
    conductor: Conductor,
    /// The kind of device: breaker or fuse
    #[arg(long)]
    kind: Option<String>,
    /// What it supplies: several-receptacles (for cord-and-plug portable loads), other
    #[arg(long)]
    supplies: Option<String>,
}

named!(Path: role, conductors, neutral_load, voltage, length, drop_limit, kind, supplies; load, conductor);

impl Path {
    /// The question for the library; `unknown` names the option that is not needed since it is sought.
    pub(super) fn read(&self, code: &dyn Code, unknown: &str, answer: &mut Answer) -> Result<Asked, Problem> {
        let (load, continuous_rating) = if unknown == "load" {
            (Load { continuous: Amperes::ZERO, non_continuous: Amperes::ZERO }, self.rating(answer)?)
        } else {
            self.load.read(answer)?
        };
        let role = match self.role.as_deref().map(str::trim) {
            Some("branch") => Role::Branch,
            Some("feeder") => Role::Feeder,
            Some(_) => return Err(Problem::at("role", "write branch or feeder")),
            None => {
                answer.assume("a branch circuit");
                Role::Branch
            }
        };
        let conductors = self.conductors()?;
        let drop = match given::<Ratio>("drop-limit", self.drop_limit.as_ref())? {
            Some(share) => Some(DropLimit { share, method: TABLE_8 }),
            None => {
                answer.assume("no limit on the voltage drop");
                None
            }
        };
        let (voltage, length) = match drop {
            Some(_) => {
                answer.assume("drop by the direct-current resistance of Chapter 9 Table 8 at 75 °C, loads balanced");
                let voltage = required("voltage", self.voltage.as_ref(), "240 V")?;
                let length = match unknown {
                    "length" => Meters::ZERO,
                    _ => required("length", self.length.as_ref(), "80 ft")?,
                };
                (voltage, length)
            }
            None => (
                given("voltage", self.voltage.as_ref())?.unwrap_or(Volts::from_whole(240)),
                given("length", self.length.as_ref())?.unwrap_or(Meters::ZERO),
            ),
        };
        let mut conductor = self.conductor.clone();
        if conductor.circuit_rating.is_some() {
            return Err(Problem::at("circuit-rating", "is found here; leave it out"));
        }
        // The rating is known once the device is: nothing is assumed of it.
        let smallest = conductor.size.get_or_insert_with(|| "14 AWG".to_owned()).clone();
        conductor.circuit_rating = Some("15 A".to_owned());
        let mut conditions = conductor.conditions(code, answer)?;
        conditions.circuit_rating = None;
        answer.assume(format_args!("no conductor smaller than {smallest}"));
        let kind = match given("kind", self.kind.as_ref())? {
            Some(kind) => kind,
            None => {
                answer.assume("a breaker");
                DeviceKind::Breaker
            }
        };
        let supplies = match self.supplies.as_deref().map(str::trim) {
            Some("several-receptacles") => Supplies::SeveralReceptacles,
            Some("other") => Supplies::Other,
            Some(_) => return Err(Problem::at("supplies", "write several-receptacles or other")),
            None if role == Role::Feeder => Supplies::Other,
            None => return Err(missing("supplies", "other")),
        };
        Ok(Asked {
            role,
            load,
            conductors,
            voltage,
            length,
            conditions,
            drop,
            device: Device { kind, continuous_rating, supplies, least: Amperes::from_whole(15) },
            grounding: None,
            most_sets: 1,
        })
    }

    fn rating(&self, answer: &mut Answer) -> Result<crate::trade::ContinuousRating, Problem> {
        let load = LoadOptions {
            continuous: Some("0 A".to_owned()),
            non_continuous: Some("0 A".to_owned()),
            continuous_rating: self.load.continuous_rating.clone(),
        };
        load.read(answer).map(|(_, rating)| rating)
    }

    fn conductors(&self) -> Result<Conductors, Problem> {
        let neutral = match given::<Amperes>("neutral-load", self.neutral_load.as_ref())? {
            Some(continuous) => NeutralLoad::Unbalance(Load { continuous, non_continuous: Amperes::ZERO }),
            None => NeutralLoad::AsUngrounded,
        };
        match self.conductors.as_deref().map(str::trim) {
            None => Err(missing("conductors", "two-lines-and-neutral")),
            Some("line-and-neutral") => Ok(Conductors::LineAndNeutral),
            Some("two-lines") => Ok(Conductors::TwoLines),
            Some("two-lines-and-neutral") => Ok(Conductors::TwoLinesAndNeutral(neutral)),
            Some("three-phase") => Ok(Conductors::ThreePhase),
            Some("three-phase-and-neutral") => Ok(Conductors::ThreePhaseAndNeutral(neutral)),
            Some(_) => Err(Problem::at(
                "conductors",
                "write line-and-neutral, two-lines, two-lines-and-neutral, three-phase or three-phase-and-neutral",
            )),
        }
    }
}

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("size-circuit", code, detail);
        let mut asked = self.path.read(code, "", &mut answer)?;
        asked.grounding = match self.grounding_material.as_deref().map(str::trim) {
            Some("none") => None,
            Some(_) => given::<Material>("grounding-material", self.grounding_material.as_ref())?,
            None => {
                answer.assume(format_args!("equipment grounding conductor of {}", asked.conditions.material));
                Some(asked.conditions.material)
            }
        };
        match given("least-device", self.least_device.as_ref())? {
            Some(least) => asked.device.least = least,
            None => answer.assume("no device below 15 A"),
        }
        asked.most_sets = match self.most_sets.as_deref().map(str::trim) {
            None => 1,
            Some(text) => match text.parse::<u8>() {
                Ok(sets) if (1..=9).contains(&sets) => sets,
                _ => return Err(Problem::at("most-sets", "write a whole number from 1 to 9")),
            },
        };
        let raceway = given::<RacewayKind>("raceway", self.raceway.as_ref())?;
        answer.subject(format_args!(
            "for {} continuous and {} non-continuous load",
            asked.load.continuous, asked.load.non_continuous
        ));
        let found = circuit::circuit(code, &asked, &mut answer.working);
        let Some(sized) = settle(&mut answer, found) else {
            return Ok(answer);
        };
        if asked.conditions.terminals == TerminalMark::Unmarked {
            answer.assume(format_args!("terminals count by the device of {}, 110.14(C)(1)", sized.device.value));
        }
        tell(&mut answer, &asked, &sized);
        if let Some(kind) = raceway {
            size_raceway(code, &asked, &sized, kind, &mut answer)?;
        }
        Ok(answer)
    }
}

fn tell(answer: &mut Answer, asked: &Asked, sized: &Circuit) {
    answer.quantity(sized.ungrounded.value);
    let sets = if sized.sets > 1 { format!("{} sets of ", sized.sets) } else { String::new() };
    let (size, material) = (sized.ungrounded.value, asked.conditions.material);
    answer.say(format_args!("{sets}{size} {material} behind a {} of {}", asked.device.kind, sized.device.value));
    answer.governed_by(sized.ungrounded.governed_by);
    answer.figure("overcurrent_device", sized.device.value);
    answer.figure("sets", sized.sets);
    answer.figure("ungrounded_conductor", sized.ungrounded.value);
    answer.figure("needed_for_ampacity", sized.needed);
    if let Some(neutral) = sized.neutral {
        answer.figure("neutral", neutral.value);
        answer.figure("neutral_governed_by", neutral.governed_by);
    }
    if let Some(grounding) = sized.grounding {
        answer.figure("equipment_grounding_conductor", grounding.value);
        answer.figure("equipment_grounding_conductor_governed_by", grounding.governed_by);
    }
    answer.figure("ampacity_of_one", sized.ampacity.usable);
    if let Some(drop) = sized.drop {
        answer.figure("voltage_drop_rounded_up", drop.drop.rounded_up());
        if let Some(share) = drop.share() {
            answer.figure("voltage_drop_share_rounded_up", share);
        }
    }
}

fn size_raceway(
    code: &dyn Code,
    asked: &Asked,
    sized: &Circuit,
    kind: RacewayKind,
    answer: &mut Answer,
) -> Result<(), Problem> {
    let Covering::Insulation(insulation) = asked.conditions.covering else {
        return Err(Problem::at("raceway", "is sized for conductors of an insulation; a cable needs its own diameter"));
    };
    let lines = match asked.conductors {
        Conductors::LineAndNeutral => 1,
        Conductors::TwoLines | Conductors::TwoLinesAndNeutral(_) => 2,
        Conductors::ThreePhase | Conductors::ThreePhaseAndNeutral(_) => 3,
    };
    let jacket = |insulation: Insulation| Jacket::Insulated(insulation, Stranding::Usual);
    let all = [
        Some((sized.ungrounded.value, lines)),
        sized.neutral.map(|size| (size.value, 1)),
        sized.grounding.map(|size| (size.value, 1)),
    ];
    let occupants: Vec<Occupant> =
        all.into_iter().flatten().map(|(size, count)| Occupant { jacket: jacket(insulation), size, count }).collect();
    answer.assume("the raceway holds this circuit alone, its grounding conductor insulated, strands not compact");
    let mut working = crate::calc::Derivation::default();
    match raceway::smallest(code, kind, &occupants, Extent::Run, &mut working) {
        Ok(found) => {
            working.steps.into_iter().for_each(|step| answer.working.step(|| step));
            answer.figure("raceway", format!("{} {}", found.trade_size, found.kind));
        }
        Err(error) => answer.figure("raceway", error),
    }
    Ok(())
}
