//! A stretch of the path as options, or as one text: "12 AWG copper, 50 ft, 16 A".

use std::str::FromStr;

use super::super::answer::Answer;
use super::super::named::named;
use super::super::options::{Problem, given, missing, required};
use crate::calc::voltage_drop::{Currents, Segment, Wire};
use crate::quantity::{Amperes, Meters, OhmsPerLength, QuantityError};
use crate::trade::{Material, WireSize};

/// One stretch: conductors, length, currents.
#[derive(clap::Args, Clone, Default)]
pub(super) struct Stretch {
    /// The size of the conductors: "12 AWG"
    #[arg(long)]
    size: Option<String>,
    /// Their material: copper, aluminum, copper-clad aluminum
    #[arg(long)]
    material: Option<String>,
    /// The resistance of one conductor, in place of size and material: "0.2 ohm/kft"
    #[arg(long)]
    resistance: Option<String>,
    /// The reactance of one conductor: "0.05 ohm/kft"
    #[arg(long)]
    reactance: Option<String>,
    /// The size of the neutral, where it differs
    #[arg(long)]
    neutral_size: Option<String>,
    /// The material of the neutral
    #[arg(long)]
    neutral_material: Option<String>,
    /// The resistance of the neutral, in place of size and material
    #[arg(long)]
    neutral_resistance: Option<String>,
    /// The reactance of the neutral
    #[arg(long)]
    neutral_reactance: Option<String>,
    /// The length, one way: "50 ft"
    #[arg(long)]
    length: Option<String>,
    /// The current; on three wires that of the leg asked about: "16 A"
    #[arg(long)]
    current: Option<String>,
    /// The current of the other leg, on three wires: "10 A"
    #[arg(long)]
    other_leg: Option<String>,
}

named!(Stretch: size, material, resistance, reactance, neutral_size, neutral_material, neutral_resistance, neutral_reactance, length, current, other_leg);

/// How the conductors of a circuit carry its current.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Circuit {
    TwoWire,
    ThreeWire,
    ThreePhase,
}

impl Stretch {
    /// Reads the parts of a text, separated by commas: size and material, length, current; with a name in front
    /// `resistance`, `reactance`, `other leg`, `neutral`, `neutral resistance`, `neutral reactance`.
    pub(super) fn from_text(text: &str) -> Result<Self, Problem> {
        let mut stretch = Self::default();
        for part in text.split(',') {
            stretch.part(part.trim())?;
        }
        Ok(stretch)
    }

    fn part(&mut self, part: &str) -> Result<(), Problem> {
        let after = |name: &str| part.strip_prefix(name).map(|rest| rest.trim().to_owned());
        if let Some(rest) = after("neutral resistance ") {
            once(&mut self.neutral_resistance, rest, part)
        } else if let Some(rest) = after("neutral reactance ") {
            once(&mut self.neutral_reactance, rest, part)
        } else if let Some(rest) = after("neutral ") {
            let (size, material) = size_and_material(&rest).ok_or_else(|| unknown(part))?;
            once(&mut self.neutral_size, size, part)?;
            once(&mut self.neutral_material, material, part)
        } else if let Some(rest) = after("other leg ") {
            once(&mut self.other_leg, rest, part)
        } else if let Some(rest) = after("resistance ") {
            once(&mut self.resistance, rest, part)
        } else if let Some(rest) = after("reactance ") {
            once(&mut self.reactance, rest, part)
        } else if let Some((size, material)) = size_and_material(part) {
            once(&mut self.size, size, part)?;
            once(&mut self.material, material, part)
        } else if is_a::<Amperes>(part)? {
            once(&mut self.current, part.to_owned(), part)
        } else if is_a::<Meters>(part)? {
            once(&mut self.length, part.to_owned(), part)
        } else {
            Err(unknown(part))
        }
    }

    /// Whether nothing is said of it.
    pub(super) fn is_empty(&self) -> bool {
        let parts = [&self.size, &self.material, &self.resistance, &self.reactance, &self.length, &self.current];
        let more = [&self.neutral_size, &self.neutral_material, &self.neutral_resistance, &self.neutral_reactance];
        parts.into_iter().chain(more).chain([&self.other_leg]).all(Option::is_none)
    }

    pub(super) fn segment(&self, circuit: Circuit, reactance: bool, answer: &mut Answer) -> Result<Segment, Problem> {
        let wire = wire(
            ["size", "material", "resistance", "reactance"],
            reactance,
            [self.size.as_ref(), self.material.as_ref(), self.resistance.as_ref(), self.reactance.as_ref()],
        )?
        .ok_or_else(|| missing("size", "12 AWG"))?;
        let neutral = wire_of_neutral(self, reactance)?;
        let length = required("length", self.length.as_ref(), "50 ft")?;
        let current = required("current", self.current.as_ref(), "16 A")?;
        let other: Option<Amperes> = given("other-leg", self.other_leg.as_ref())?;
        let currents = match (circuit, other) {
            (Circuit::ThreeWire, Some(other)) => Currents::Legs { this: current, other },
            (Circuit::ThreeWire, None) => return Err(missing("other-leg", "10 A")),
            (_, Some(_)) => return Err(Problem::at("other-leg", "only a three-wire circuit has one; leave it out")),
            (Circuit::TwoWire, None) => Currents::TwoWire(current),
            (Circuit::ThreePhase, None) => Currents::ThreePhase(current),
        };
        match (circuit, neutral) {
            (Circuit::ThreePhase, Some(_)) => {
                return Err(Problem(
                    "the neutral of a balanced three-phase circuit carries nothing; leave it out".to_owned(),
                ));
            }
            (Circuit::TwoWire, None) => answer.assume("the return conductor is like the other one"),
            (Circuit::ThreeWire, None) => answer.assume("the neutral is like the ungrounded conductors"),
            _ => {}
        }
        Ok(Segment { wire, neutral, length, currents })
    }

    /// Whether an impedance is to be read from the tables.
    pub(super) const fn is_sized(&self) -> bool {
        self.size.is_some() || self.neutral_size.is_some()
    }
}

fn wire_of_neutral(stretch: &Stretch, reactance: bool) -> Result<Option<Wire>, Problem> {
    wire(
        ["neutral-size", "neutral-material", "neutral-resistance", "neutral-reactance"],
        reactance,
        [
            stretch.neutral_size.as_ref(),
            stretch.neutral_material.as_ref(),
            stretch.neutral_resistance.as_ref(),
            stretch.neutral_reactance.as_ref(),
        ],
    )
}

/// A conductor by size and material or by its stated impedance; `None` where nothing is said.
fn wire(
    [size, material, resistance, reactance]: [&'static str; 4],
    reactance_counts: bool,
    given_as: [Option<&String>; 4],
) -> Result<Option<Wire>, Problem> {
    let [size_text, material_text, resistance_text, reactance_text] = given_as;
    match (size_text.or(material_text), resistance_text.or(reactance_text)) {
        (None, None) => Ok(None),
        (Some(_), Some(_)) => Err(Problem::at(
            resistance,
            format!("stands for --{size} and --{material}; give either the one or the others"),
        )),
        (Some(_), None) => Ok(Some(Wire::Sized(
            required::<Material>(material, material_text, "copper")?,
            required::<WireSize>(size, size_text, "12 AWG")?,
        ))),
        (None, Some(_)) => {
            let ohms = required::<OhmsPerLength>(resistance, resistance_text, "0.2 ohm/kft")?;
            let stated: Option<OhmsPerLength> = given(reactance, reactance_text)?;
            match stated {
                Some(reactance) => Ok(Some(Wire::Stated { resistance: ohms, reactance })),
                None if reactance_counts => Err(missing(reactance, "0.05 ohm/kft")),
                // Without a power factor a reactance has no part in the answer.
                None => Ok(Some(Wire::Stated { resistance: ohms, reactance: OhmsPerLength::MIN })),
            }
        }
    }
}

/// Whether a part is a quantity of this kind; one that is, and cannot be held, is a problem of its own.
fn is_a<Q: FromStr<Err = QuantityError>>(part: &str) -> Result<bool, Problem> {
    match part.parse::<Q>() {
        Ok(_) => Ok(true),
        Err(error @ (QuantityError::TooFine { .. } | QuantityError::OutOfRange { .. })) => {
            Err(Problem(error.to_string()))
        }
        Err(_) => Ok(false),
    }
}

/// "12 AWG copper" in its two parts.
fn size_and_material(text: &str) -> Option<(String, String)> {
    let at = text.match_indices(' ').map(|(at, _)| text.split_at(at));
    let mut parts = at.map(|(size, material)| (size.trim(), material.trim()));
    let found = parts.find(|(size, material)| size.parse::<WireSize>().is_ok() && material.parse::<Material>().is_ok());
    found.map(|(size, material)| (size.to_owned(), material.to_owned()))
}

fn once(slot: &mut Option<String>, value: String, part: &str) -> Result<(), Problem> {
    match slot {
        None => {
            *slot = Some(value);
            Ok(())
        }
        Some(_) => Err(Problem(format!("`{part}` is said twice; say it once"))),
    }
}

fn unknown(part: &str) -> Problem {
    let shown: String = part.chars().take(60).collect();
    Problem(format!(
        "`{shown}` is no part of a segment; write parts such as `12 AWG copper`, `resistance 0.2 ohm/kft`, \
         `reactance 0.05 ohm/kft`, `50 ft`, `16 A`, `other leg 10 A`, `neutral 12 AWG copper`"
    ))
}
