//! Ampacity of a conductor in its conditions.

use super::{CannotTell, Step, Working, cannot_tell};
use crate::code::{Code, ConductorRating, Gap, Termination};
use crate::published::{Cell, TableId};
use crate::quantity::{Amperes, Celsius, Meters, Ratio, Rounding};
use crate::trade::{Cable, Installation, Insulation, Material, Place, TerminalMark, WireSize};

const AMPACITY: &str = "the ampacity";
const BEFORE_FACTORS: &str = "the ampacity before factors";

/// A conductor and everything that its ampacity depends on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Conditions {
    /// What it is made of.
    pub material: Material,
    /// Its size.
    pub size: WireSize,
    /// Its insulation, or the cable it lies in.
    pub covering: Covering,
    /// How it is installed.
    pub installation: Installation,
    /// Whether the place is wet.
    pub place: Place,
    /// The ambient temperature; outdoors the temperature of the air, before any addition for a roof.
    pub ambient: Celsius,
    /// The clearance above a roof in sunlight, where there is one.
    pub rooftop_clearance: Option<Meters>,
    /// The conductors that carry current in the same raceway, cable or bundle.
    pub current_carrying: u16,
    /// Whether a cable lies in thermal insulation.
    pub thermal_insulation: bool,
    /// The lower mark of its two terminals.
    pub terminals: TerminalMark,
    /// The rating of the circuit, which decides how unmarked terminals count.
    pub circuit_rating: Option<Amperes>,
}

/// What covers a conductor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Covering {
    /// A conductor of its own insulation.
    Insulation(Insulation),
    /// A conductor of a cable assembly; of an insulation where that is known and matters.
    Cable(Cable, Option<Insulation>),
}

impl Conditions {
    /// A copper or aluminum conductor in a raceway in a dry place at 30 °C, with no more than three that carry
    /// current and unmarked terminals: the conditions of the base table. Change what differs.
    ///
    /// ```
    /// # use loadworthy::{calc::{ampacity::{ampacity, Conditions, Covering}, Silent}, code::{Edition, Nec}};
    /// # use loadworthy::trade::{Insulation, Material};
    /// let conditions = Conditions {
    ///     ambient: "120 °F".parse()?,
    ///     ..Conditions::base(Material::Copper, "10 AWG".parse()?, Covering::Insulation(Insulation::Thhn))
    /// };
    /// let found = ampacity(Nec::standard(Edition::Nec2023), &conditions, &mut Silent)?;
    /// assert_eq!(found.corrected, "32.8 A".parse()?);
    /// assert_eq!(found.usable, "30 A".parse()?); // unmarked terminals: the 60 °C column
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn base(material: Material, size: WireSize, covering: Covering) -> Self {
        Self {
            material,
            size,
            covering,
            installation: match covering {
                Covering::Insulation(_) => Installation::Raceway,
                Covering::Cable(..) => Installation::Cable,
            },
            place: Place::Dry,
            ambient: Celsius::from_whole(30),
            rooftop_clearance: None,
            current_carrying: 3,
            thermal_insulation: false,
            terminals: TerminalMark::Unmarked,
            circuit_rating: None,
        }
    }
}

/// What governs an ampacity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Governor {
    /// The conductor itself, corrected and adjusted.
    Conductor,
    /// The temperature of its terminals.
    Terminals,
    /// The limit of the cable it lies in.
    Cable,
}

impl std::fmt::Display for Governor {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(match self {
            Self::Conductor => "the conductor, corrected and adjusted",
            Self::Terminals => "the terminals",
            Self::Cable => "the cable",
        })
    }
}

/// An ampacity with the limits that it is the least of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Ampacity {
    /// What may be used: the least of the others.
    pub usable: Amperes,
    /// The table value times correction and adjustment.
    pub corrected: Amperes,
    /// What the terminals admit.
    pub terminal: Amperes,
    /// What the cable admits, where it has a limit of its own.
    pub cable: Option<Amperes>,
    /// Which of them governs.
    pub governed_by: Governor,
    /// The greatest overcurrent device for a small conductor; it limits the device, not the ampacity.
    pub small_conductor_device: Option<Amperes>,
}

/// Computes the ampacity: I = min(I_table · F_ambient · F_adjustment, I_terminal, I_cable), all in amperes.
///
/// Sections (NEC 2023): 310.16, 310.17, 310.15(B)(1), (B)(2), (C)(1), 110.14(C), 334.80, 338.10(B)(4), 340.80,
/// 240.4(D). Leaves out: the 310.15(B) formula, conductors above 2000 V, the 10 ft exception of 310.14(A)(2).
///
/// # Errors
/// [`CannotTell`] where a cell is blank, outside its table, or below the grade that answers may rest on.
#[inline(always)]
pub fn ampacity(code: &dyn Code, of: &Conditions, working: &mut impl Working) -> Result<Ampacity, CannotTell> {
    find(code, of, working).map_err(cannot_tell(AMPACITY))
}

#[inline(always)]
fn find(code: &dyn Code, of: &Conditions, working: &mut impl Working) -> Result<Ampacity, Gap> {
    let ratings = Ratings::of(code, of, working)?;
    let base = code.base_ampacity(of.installation, of.material, ratings.conductor, of.size)?;
    working.step(|| {
        let what = format!("{} {} at {}, {}", of.size, of.material, ratings.conductor, of.installation);
        Step::read(what, base, code)
    });
    let corrected = adjusted(code, of, corrected(code, of, ratings.conductor, base.value, working)?, working)?;
    let terminal = code.terminal_ampacity(of.material, ratings.terminal, of.size)?;
    working.step(|| {
        Step::read(format!("terminals at {}: no more, without factors", ratings.terminal), terminal, code)
            .by(&code.section("terminal-temperature"))
    });
    let cable = match ratings.cable {
        Some(rating) => {
            let cell = code.terminal_ampacity(of.material, rating, of.size)?;
            working.step(|| Step::read(format!("the cable's final value at {rating}"), cell, code));
            Some(cell.value)
        }
        None => None,
    };
    let small = code.small_conductor(of.material, of.size)?;
    if let Some(cell) = small {
        working.step(|| {
            Step::new("overcurrent device of a small conductor, at most", cell.value.device.to_string())
                .from_cell(cell.place, cell.grade, code)
        });
    }
    // The first of equals governs: the conductor itself before what it is fastened to.
    let (mut usable, mut governed_by) = (corrected, Governor::Conductor);
    if terminal.value < usable {
        (usable, governed_by) = (terminal.value, Governor::Terminals);
    }
    if let Some(limit) = cable.filter(|limit| *limit < usable) {
        (usable, governed_by) = (limit, Governor::Cable);
    }
    working.step(|| Step::new(format!("the least governs: {governed_by}"), usable.to_string()));
    Ok(Ampacity {
        usable,
        corrected,
        terminal: terminal.value,
        cable,
        governed_by,
        small_conductor_device: small.map(|cell| cell.value.device),
    })
}

/// The ampacity before correction and adjustment, at the column that terminals and cable admit: what 125 % of a
/// continuous load is compared with. Sections (NEC 2023): 210.19(A)(1), 215.2(A)(1), 110.14(C).
///
/// # Errors
/// [`CannotTell`] where a cell is blank, outside its table, or below the grade that answers may rest on.
pub fn before_factors(code: &dyn Code, of: &Conditions, working: &mut impl Working) -> Result<Amperes, CannotTell> {
    find_before_factors(code, of, working).map_err(cannot_tell(BEFORE_FACTORS))
}

fn find_before_factors(code: &dyn Code, of: &Conditions, working: &mut impl Working) -> Result<Amperes, Gap> {
    let ratings = Ratings::of(code, of, working)?;
    let rating = ratings.cable.map_or(ratings.terminal, |cable| cable.min(ratings.terminal));
    let cell = code.base_ampacity(of.installation, of.material, rating, of.size)?;
    let terminal = code.terminal_ampacity(of.material, rating, of.size)?;
    working.step(|| Step::read(format!("{} {} at {rating}, before factors", of.size, of.material), cell, code));
    Ok(cell.value.min(terminal.value))
}

/// The columns to read.
struct Ratings {
    conductor: ConductorRating,
    terminal: ConductorRating,
    cable: Option<ConductorRating>,
}

impl Ratings {
    #[inline(always)]
    fn of(code: &dyn Code, of: &Conditions, working: &mut impl Working) -> Result<Self, Gap> {
        let own = |insulation| code.insulation(insulation, of.place).map(|cell| cell.value.rating);
        let (conductor, cable) = match of.covering {
            Covering::Insulation(insulation) => (own(insulation)?, None),
            Covering::Cable(cable, insulation) => {
                let cell = code.cable(cable, of.thermal_insulation, of.size)?;
                if let (Place::Wet, Some(place)) = (of.place, cell.value.not_in_wet_places) {
                    return Err(Gap::NotPermitted(place));
                }
                let inside = insulation.map(own).transpose()?;
                let conductor = cell.value.factor_rating.or(inside).ok_or(Gap::Blank(cell.place))?;
                working.step(|| {
                    let result = match cell.value.final_rating {
                        Some(rating) => {
                            format!("factors from {conductor}, final value at most {rating}")
                        }
                        None => format!("conductors at {conductor}"),
                    };
                    let step = Step::new(format!("{cable} cable"), result).from_cell(cell.place, cell.grade, code);
                    step.by(&code.section(topic(cable)))
                });
                (conductor, cell.value.final_rating)
            }
        };
        Ok(Self { conductor, terminal: terminal_rating(code, of)?.min(conductor), cable })
    }
}

/// Where the code speaks of a cable.
const fn topic(cable: Cable) -> &'static str {
    match cable {
        Cable::NmB | Cable::NmcB => "nonmetallic-sheathed-cable",
        Cable::UfB => "underground-feeder-cable",
        Cable::Se => "service-entrance-cable",
        Cable::Ac => "armored-cable",
        Cable::Mc => "metal-clad-cable",
    }
}

/// The column that the terminals admit: their mark, else the default of the circuit's rating, else of the size.
fn terminal_rating(code: &dyn Code, of: &Conditions) -> Result<ConductorRating, Gap> {
    match of.terminals {
        TerminalMark::C60 => return Ok(ConductorRating::C60),
        TerminalMark::C75 => return Ok(ConductorRating::C75),
        TerminalMark::C90 => return Ok(ConductorRating::C90),
        TerminalMark::Unmarked => {}
    }
    match code.termination() {
        Termination::ColumnCap { boundary, boundary_size, at_or_below, above } => {
            let low = match of.circuit_rating {
                Some(rating) => rating <= boundary.as_ref().map_err(|gap| *gap)?.value,
                None => of.size <= boundary_size.as_ref().map_err(|gap| *gap)?.value,
            };
            if low { *at_or_below } else { *above }.map(|cell| cell.value)
        }
    }
}

#[inline(always)]
fn corrected(
    code: &dyn Code,
    of: &Conditions,
    rating: ConductorRating,
    base: Amperes,
    working: &mut impl Working,
) -> Result<Amperes, Gap> {
    let mut ambient = of.ambient;
    if let Some(clearance) = of.rooftop_clearance {
        let insulation = match of.covering {
            Covering::Insulation(insulation) | Covering::Cable(_, Some(insulation)) => Some(insulation),
            Covering::Cable(_, None) => None,
        };
        if let Some(addition) = code.rooftop_addition(clearance, insulation)? {
            ambient = ambient.raised_by(addition).ok_or(Gap::Outside(TableId::RooftopAddition))?;
            working.step(|| {
                Step::new(format!("sunlight above the roof adds {addition}"), ambient.to_string())
                    .by(&code.section("rooftop-addition"))
            });
        }
    }
    let factor = code.ambient_factor(rating, ambient)?;
    let value = times(base, factor, TableId::AmbientCorrection30)?;
    working.step(|| {
        let mut step = Step::read(format!("ambient {ambient}: times {}", factor.value), factor, code);
        step.result = value.to_string();
        step
    });
    Ok(value)
}

fn adjusted(code: &dyn Code, of: &Conditions, base: Amperes, working: &mut impl Working) -> Result<Amperes, Gap> {
    let Some(factor) = code.bundling_factor(of.current_carrying)? else {
        return Ok(base);
    };
    let value = times(base, factor, TableId::AdjustmentMoreThanThree)?;
    working.step(|| {
        let what = format!("{} conductors carry current: times {}", of.current_carrying, factor.value);
        let mut step = Step::read(what, factor, code);
        step.result = value.to_string();
        step
    });
    Ok(value)
}

/// A printed value times a printed factor: exact to the microampere for every cell (tested), else rounded down.
#[inline]
pub(super) fn times(value: Amperes, factor: Cell<Ratio>, table: TableId) -> Result<Amperes, Gap> {
    (value * factor.value).rounded(Rounding::Down).ok_or(Gap::Outside(table))
}
