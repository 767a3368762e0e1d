//! A conductor and its conditions, as options: shared by the questions that need an ampacity.

use super::super::answer::Answer;
use super::super::named::named;
use super::super::options::{Count, Problem, given, missing, required};
use crate::calc::ampacity::{Conditions, Covering};
use crate::calc::counting::{self, Neutral};
use crate::code::Code;
use crate::quantity::{Amperes, Celsius, Meters, Written};
use crate::trade::{Cable, Installation, Insulation, Material, Place, TerminalMark, WireSize};

/// Where and how a conductor lies.
#[derive(Clone, Default, clap::Args)]
pub(in crate::cli) struct Conductor {
    /// The size: "6 AWG", "1/0 AWG", "250 kcmil"
    #[arg(long)]
    pub(in crate::cli) size: Option<String>,
    /// The material: copper, aluminum, copper-clad aluminum
    #[arg(long)]
    pub(in crate::cli) material: Option<String>,
    /// The insulation: THHN, THWN-2, XHHW-2 and so on
    #[arg(long)]
    pub(in crate::cli) insulation: Option<String>,
    /// The cable that the conductor lies in, where it does: NM-B, UF-B, SE, AC, MC
    #[arg(long)]
    pub(in crate::cli) cable: Option<String>,
    /// How it is installed: raceway, cable, buried, free air
    #[arg(long)]
    installation: Option<String>,
    /// The kind of place: dry, damp, wet
    #[arg(long)]
    place: Option<String>,
    /// The ambient temperature: "30 °C", "95 °F"
    #[arg(long, allow_hyphen_values = true)]
    ambient: Option<String>,
    /// The clearance above a roof in sunlight: "6 in"
    #[arg(long)]
    rooftop_clearance: Option<String>,
    #[command(flatten)]
    counted: Counted,
    /// Whether the cable lies in thermal insulation: yes or no
    #[arg(long)]
    thermal_insulation: Option<String>,
    /// The lower temperature mark of its terminals: "60 °C", "75 °C", "90 °C", unmarked
    #[arg(long)]
    terminals: Option<String>,
    /// The rating of the circuit, which decides how unmarked terminals count: "100 A"
    #[arg(long)]
    pub(in crate::cli) circuit_rating: Option<String>,
}

named!(Conductor: size, material, insulation, cable, installation, place, ambient, rooftop_clearance, thermal_insulation, terminals, circuit_rating; counted);

/// How many conductors carry current: counted already, or told by what the neutral carries.
#[derive(Clone, Default, clap::Args)]
pub(in crate::cli) struct Counted {
    /// How many conductors carry current
    #[arg(long)]
    current_carrying: Option<String>,
    /// How many ungrounded conductors there are, in place of --current-carrying
    #[arg(long)]
    ungrounded: Option<String>,
    /// What the neutral beside them carries: unbalance-only, counted, none
    #[arg(long)]
    neutral: Option<String>,
}

named!(Counted: current_carrying, ungrounded, neutral);

impl Counted {
    /// The count; the base of the table, three, where nothing is said of it.
    pub(in crate::cli) fn count(&self, code: &dyn Code, answer: &mut Answer) -> Result<u16, Problem> {
        let counted: Option<Count> = given("current-carrying", self.current_carrying.as_ref())?;
        let ungrounded: Option<Count> = given("ungrounded", self.ungrounded.as_ref())?;
        let neutral: Option<Neutral> = given("neutral", self.neutral.as_ref())?;
        match (counted, ungrounded, neutral) {
            (Some(Count(count)), None, None) => Ok(count),
            (None, Some(Count(ungrounded)), Some(neutral)) => {
                Ok(counting::current_carrying(code, ungrounded, neutral, &mut answer.working))
            }
            (None, None, None) => {
                answer.assume("three conductors carry current, the base of the table");
                Ok(3)
            }
            (Some(_), ..) => Err(Problem::at(
                "current-carrying",
                "stands for --ungrounded and --neutral; give either the one or the others",
            )),
            (None, Some(_), None) => Err(missing("neutral", "unbalance-only")),
            (None, None, Some(_)) => Err(missing("ungrounded", "2")),
        }
    }
}

impl Conductor {
    pub(in crate::cli) fn material_and_size(&self) -> Result<(Material, WireSize), Problem> {
        let size = required("size", self.size.as_ref(), "6 AWG")?;
        Ok((required("material", self.material.as_ref(), "copper")?, size))
    }

    /// The conditions; what the base of the table settles is assumed and noted, the rest must be stated.
    pub(in crate::cli) fn conditions(&self, code: &dyn Code, answer: &mut Answer) -> Result<Conditions, Problem> {
        let (material, size) = self.material_and_size()?;
        let covering = self.covering()?;
        let mut of = Conditions::base(material, size, covering);
        match given::<Installation>("installation", self.installation.as_ref())? {
            Some(installation) => of.installation = installation,
            None => answer.assume(format_args!("installation: {}", of.installation)),
        }
        match given::<Place>("place", self.place.as_ref())? {
            Some(place) => of.place = place,
            None => answer.assume(format_args!("place: {}", of.place)),
        }
        match given::<Written<Celsius>>("ambient", self.ambient.as_ref())? {
            Some(ambient) => of.ambient = ambient.value(),
            None => answer.assume(format_args!("ambient {}, the base of the table", of.ambient)),
        }
        of.rooftop_clearance = given::<Meters>("rooftop-clearance", self.rooftop_clearance.as_ref())?;
        if of.rooftop_clearance.is_none() {
            answer.assume("not above a roof in sunlight");
        }
        of.current_carrying = self.counted.count(code, answer)?;
        of.thermal_insulation = self.thermal_insulation(code, covering, size)?;
        of.circuit_rating = given::<Amperes>("circuit-rating", self.circuit_rating.as_ref())?;
        match given::<TerminalMark>("terminals", self.terminals.as_ref())? {
            Some(terminals) => of.terminals = terminals,
            None => answer.assume("terminals without a temperature mark"),
        }
        if of.terminals == TerminalMark::Unmarked && of.circuit_rating.is_none() {
            answer.assume("circuit rating not stated: the size decides how unmarked terminals count, 110.14(C)(1)");
        }
        Ok(of)
    }

    fn covering(&self) -> Result<Covering, Problem> {
        let insulation: Option<Insulation> = given("insulation", self.insulation.as_ref())?;
        let cable: Option<Cable> = given("cable", self.cable.as_ref())?;
        match (cable, insulation) {
            (Some(cable), insulation) => Ok(Covering::Cable(cable, insulation)),
            (None, Some(insulation)) => Ok(Covering::Insulation(insulation)),
            (None, None) => Err(Problem(
                "--insulation or --cable is missing and decides the answer; write one, as in `--insulation THHN` or \
                 `--cable NM-B`"
                    .to_owned(),
            )),
        }
    }

    /// Whether the cable lies in thermal insulation; asked for only where the code's answer depends on it.
    fn thermal_insulation(&self, code: &dyn Code, covering: Covering, size: WireSize) -> Result<bool, Problem> {
        if let Some(text) = &self.thermal_insulation {
            return match text.trim() {
                "yes" => Ok(true),
                "no" => Ok(false),
                _ => Err(Problem::at("thermal-insulation", "write yes or no")),
            };
        }
        let Covering::Cable(cable, _) = covering else {
            return Ok(false);
        };
        let rule = |inside| code.cable(cable, inside, size).map(|cell| cell.value);
        if rule(true) == rule(false) { Ok(false) } else { Err(missing("thermal-insulation", "yes")) }
    }
}
