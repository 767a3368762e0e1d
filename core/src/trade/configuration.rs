//! Plug and receptacle configurations, and which mates with which.
//!
//! Source: ANSI/NEMA WD 6 and IEC 60309-2 as transcribed in `core/data/wd6` and `core/data/iec60309`.

use std::fmt;
use std::str::FromStr;
use std::sync::LazyLock;

use super::word::{WordError, words};
use crate::published::{CellPlace, Row, Table, TableId};
use crate::quantity::{Amperes, Volts};

/// A plug and receptacle configuration: what its contacts are for and what it is rated.
///
/// ```
/// # use loadworthy::trade::Configuration;
/// let range: Configuration = "14-50".parse()?;
/// assert_eq!(range.rated_current().to_string(), "50 A");
/// assert!(range.neutral() && range.grounding());
/// # Ok::<(), loadworthy::trade::WordError>(())
/// ```
#[derive(Clone, Copy)]
pub struct Configuration(&'static Facts);

struct Facts {
    designation: String,
    locking: bool,
    poles: u8,
    wires: u8,
    rated_voltage: Volts,
    second_voltage: Option<Volts>,
    rated_current: Amperes,
    neutral: bool,
    grounding: bool,
    phases: u8,
    place: CellPlace,
}

words! {
    /// Whether contacts protrude or receive.
    pub enum Gender: "gender of contacts" {
        /// Blades or pins: a plug or a flanged inlet.
        Male = "plug" | "male",
        /// Openings: a receptacle or a cord connector.
        Female = "receptacle" | "female" | "connector",
    }
}

/// One half of a connection: a configuration and whether it has the blades (`14-50P`) or the openings (`14-50R`).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Contacts {
    /// The configuration.
    pub configuration: Configuration,
    /// Blades or openings.
    pub gender: Gender,
}

/// Whether a plug enters a receptacle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mating {
    /// It does.
    Mates(CellPlace),
    /// It may: some makes of the pair do not.
    Conditional(CellPlace),
    /// It does not.
    DoesNot,
}

static ALL: LazyLock<Vec<Facts>> = LazyLock::new(|| {
    let wd6 = TableId::Wd6Configurations.load().map(|table| facts(table, "rated_v", "second_v"));
    let iec = TableId::Iec60309Configurations.load().map(|table| facts(table, "rated_high_v", ""));
    wd6.into_iter().chain(iec).flatten().collect()
});

fn facts(table: &'static Table, rated: &str, second: &str) -> Vec<Facts> {
    let read = |index: usize, row: &'static Row| {
        let text = |column: &str| table.column(column).and_then(|column| row.cell(column));
        let yes = |column: &str| text(column) == Some("yes");
        let whole = |column: &str| text(column).and_then(|text| text.parse::<u16>().ok());
        let designation = text("designation")?;
        Some(Facts {
            designation: if rated == "rated_v" { designation.to_owned() } else { format!("IEC 60309 {designation}") },
            locking: yes("locking"),
            poles: u8::try_from(whole("poles")?).ok()?,
            wires: u8::try_from(whole("wires")?).ok()?,
            rated_voltage: Volts::from_whole(whole(rated)?),
            second_voltage: whole(second).map(Volts::from_whole),
            rated_current: Amperes::from_whole(whole("rated_a")?),
            neutral: yes("neutral"),
            grounding: yes("grounding") || yes("earth"),
            phases: u8::try_from(whole("phases")?).ok()?,
            place: CellPlace { table: table.id, row: u16::try_from(index).ok()?, column: table.column("rated_a")? },
        })
    };
    table.rows.iter().enumerate().filter_map(|(index, row)| read(index, row)).collect()
}

impl Configuration {
    /// Every configuration that is carried.
    pub fn all() -> impl Iterator<Item = Self> + Clone {
        ALL.iter().map(Self)
    }

    /// The designation, such as `L14-30`.
    #[must_use]
    pub fn designation(self) -> &'static str {
        &self.0.designation
    }

    /// Whether it locks by a twist.
    #[must_use]
    pub fn locking(self) -> bool {
        self.0.locking
    }

    /// The contacts that carry current.
    #[must_use]
    pub fn poles(self) -> u8 {
        self.0.poles
    }

    /// All contacts, the grounding contact too.
    #[must_use]
    pub fn wires(self) -> u8 {
        self.0.wires
    }

    /// The highest rated voltage: 125 V stands for nominal 120 V, 250 V for 240 V.
    #[must_use]
    pub fn rated_voltage(self) -> Volts {
        self.0.rated_voltage
    }

    /// The line-to-neutral rating where both voltages are served.
    #[must_use]
    pub fn second_voltage(self) -> Option<Volts> {
        self.0.second_voltage
    }

    /// The rated current.
    #[must_use]
    pub fn rated_current(self) -> Amperes {
        self.0.rated_current
    }

    /// Whether a neutral contact exists.
    #[must_use]
    pub fn neutral(self) -> bool {
        self.0.neutral
    }

    /// Whether a grounding contact exists.
    #[must_use]
    pub fn grounding(self) -> bool {
        self.0.grounding
    }

    /// The number of phases.
    #[must_use]
    pub fn phases(self) -> u8 {
        self.0.phases
    }

    /// Where its rating stands.
    #[must_use]
    pub fn place(self) -> CellPlace {
        self.0.place
    }

    /// Whether a plug of this configuration enters a receptacle of another.
    ///
    /// Only like mates with like, but for the pairs in `core/data/wd6/mating.csv`: a 20 A T-slot takes the 15 A plug of
    /// the same voltage (NEC 406.8), and a plug without a grounding blade enters a grounding receptacle.
    ///
    /// ```
    /// # use loadworthy::trade::{Configuration, Mating};
    /// let [small, large]: [Configuration; 2] = ["5-15".parse()?, "5-20".parse()?];
    /// assert!(matches!(small.enters(large), Mating::Mates(_)));
    /// assert_eq!(large.enters(small), Mating::DoesNot);
    /// # Ok::<(), loadworthy::trade::WordError>(())
    /// ```
    #[must_use]
    pub fn enters(self, receptacle: Self) -> Mating {
        if self.0.place.table == TableId::Iec60309Configurations {
            return if self == receptacle { Mating::Mates(self.0.place) } else { Mating::DoesNot };
        }
        let Ok(table) = TableId::Wd6Mating.load() else {
            return Mating::DoesNot;
        };
        let column = |name| table.column(name).unwrap_or(u16::MAX);
        let (plugs, receptacles, mates) = (column("plug"), column("receptacle"), column("mates"));
        for (index, row) in (0..).zip(&table.rows) {
            if row.cell(plugs) == Some(self.designation()) && row.cell(receptacles) == Some(receptacle.designation()) {
                let place = CellPlace { table: table.id, row: index, column: mates };
                return match row.cell(mates) {
                    Some("yes") => Mating::Mates(place),
                    _ => Mating::Conditional(place),
                };
            }
        }
        Mating::DoesNot
    }
}

impl PartialEq for Configuration {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self.0, other.0)
    }
}

impl Eq for Configuration {}

impl fmt::Display for Configuration {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.designation())
    }
}

impl fmt::Debug for Configuration {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.designation())
    }
}

impl serde::Serialize for Configuration {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.serialize_str(self.designation())
    }
}

impl FromStr for Configuration {
    type Err = WordError;

    fn from_str(text: &str) -> Result<Self, WordError> {
        let trimmed = text.trim();
        Self::all()
            .find(|configuration| configuration.designation().eq_ignore_ascii_case(trimmed))
            .ok_or_else(|| WordError::new("configuration", trimmed, Self::all().map(Self::designation)))
    }
}

impl FromStr for Contacts {
    type Err = WordError;

    /// Reads a designation that ends in `P` (blades) or `R` (openings), such as `L14-30P`.
    fn from_str(text: &str) -> Result<Self, WordError> {
        let trimmed = text.trim();
        let gender = match trimmed.chars().last() {
            Some('P' | 'p') => Some(Gender::Male),
            Some('R' | 'r') => Some(Gender::Female),
            _ => None,
        };
        let Some(gender) = gender else {
            return Err(WordError {
                found: trimmed.chars().take(60).collect(),
                kind: "half of a connection",
                advice: "end the designation with P for blades or R for openings, as in `14-50P` or `14-50R`"
                    .to_owned(),
            });
        };
        let designation: String = trimmed.chars().take(trimmed.chars().count() - 1).collect();
        let designation = designation.trim_end();
        let configuration = designation.parse()?;
        Ok(Self { configuration, gender })
    }
}

impl fmt::Display for Contacts {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let spaced = if self.configuration.designation().starts_with("IEC") { " " } else { "" };
        let letter = match self.gender {
            Gender::Male => "P",
            Gender::Female => "R",
        };
        write!(out, "{}{spaced}{letter}", self.configuration)
    }
}

impl serde::Serialize for Contacts {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(text: &str) -> Configuration {
        text.parse().unwrap()
    }

    #[test]
    fn only_like_mates_with_like_but_for_the_t_slot_and_the_ungrounded_plug() {
        let exceptions = [("1-15", "5-15"), ("1-15", "5-20"), ("5-15", "5-20"), ("6-15", "6-20")];
        let conditional = [("SS2-50", "CS-50-125/250"), ("CS-50-125/250", "SS2-50")];
        for plug in Configuration::all() {
            for receptacle in Configuration::all() {
                let pair = (plug.designation(), receptacle.designation());
                let mating = plug.enters(receptacle);
                if plug == receptacle || exceptions.contains(&pair) {
                    assert!(matches!(mating, Mating::Mates(_)), "{pair:?}");
                } else if conditional.contains(&pair) {
                    assert!(matches!(mating, Mating::Conditional(_)), "{pair:?}");
                } else {
                    assert_eq!(mating, Mating::DoesNot, "{pair:?}");
                }
            }
        }
    }

    #[test]
    fn wires_are_poles_and_ground() {
        for configuration in Configuration::all() {
            assert_eq!(configuration.wires(), configuration.poles() + u8::from(configuration.grounding()));
        }
    }

    #[test]
    fn halves_read_and_print() {
        for text in ["14-50P", "5-15R", "L14-30P", "CS-50-125/250R", "IEC 60309 32 A blue 2P+E R"] {
            assert_eq!(text.parse::<Contacts>().unwrap().to_string(), text);
        }
        assert_eq!(
            "14-51P".parse::<Contacts>().unwrap_err().to_string(),
            "`14-51` is not a known configuration; did you mean `14-15`?"
        );
        assert_eq!(named("tt-30").designation(), "TT-30");
    }
}
