//! The columns of a batch: their names, what they hold, and what is assumed where one is left out.

use crate::quantity::{Amperes, Celsius, Meters, Quantity, Ratio, Unit, Volts};

/// A fact of a circuit, which a column holds.
///
/// A column that is left out is assumed for all rows as said here. A null in a column that is given is a missing fact
/// of that row: nothing is assumed for it, and the row cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u8)]
#[non_exhaustive]
pub enum Field {
    /// `material`, a word: required.
    Material,
    /// `size`, a text such as `12 AWG`: required.
    Size,
    /// `insulation`, a word: this or `cable`; null where the cable says enough.
    Insulation,
    /// `cable`, a word: this or `insulation`; null for conductors that lie in none.
    Cable,
    /// `installation`, a word; assumed: in a raceway, or in its cable where `cable` names one.
    Installation,
    /// `place`, a word; assumed: dry.
    Place,
    /// `thermal_insulation`, yes or no (or true or false); where it is left out or null and decides, the row is not
    /// judged.
    ThermalInsulation,
    /// `terminals`, a word; assumed: unmarked, so that the device's rating decides, 110.14(C)(1).
    Terminals,
    /// `ambient_c` or `ambient_f`; assumed: 30 °C, the base of the table.
    Ambient,
    /// `current_carrying`, a whole number from 1 to 999; assumed: 3, the base of the table.
    CurrentCarrying,
    /// `load_continuous_a` or `load_continuous_ma`: required.
    LoadContinuous,
    /// `load_other_a` or `load_other_ma`, the load that is not continuous: required.
    LoadOther,
    /// `device_a` or `device_ma`, the rating of the overcurrent device: required.
    Device,
    /// `device_kind`, a word; assumed: a breaker.
    DeviceKind,
    /// `continuous_rating`, a word; assumed: the usual device, not listed for 100 %.
    ContinuousRating,
    /// `supplies`, `several-receptacles` or `other`; where it is left out or null and decides, that check cannot tell.
    Supplies,
    /// `voltage_v`, `voltage_mv` or `voltage_kv`, between lines where there are two: required for the drop.
    Voltage,
    /// `circuit`, `two-wire` or `three-phase`: required for the drop.
    Circuit,
    /// `length_ft`, `length_in`, `length_m` or `length_mm`, one way: required for the drop.
    Length,
    /// `drop_limit_percent`; assumed: no limit, so that the drop is given and not judged.
    DropLimit,
}

/// What a column of numbers is read as.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    /// Counts of the quantity's smallest unit in one.
    pub(super) count: i64,
    /// The count at zero.
    pub(super) offset: i64,
    /// The least count.
    pub(super) least: i64,
    /// The greatest count.
    pub(super) most: i64,
}

/// What a column holds.
#[derive(Clone, Copy, Debug)]
pub(super) enum Holds {
    Words,
    Numbers(Scale),
}

impl Field {
    /// Every field, in the order in which a row is looked at.
    pub const ALL: [Self; 20] = [
        Self::Material,
        Self::Size,
        Self::Insulation,
        Self::Cable,
        Self::Installation,
        Self::Place,
        Self::ThermalInsulation,
        Self::Terminals,
        Self::Ambient,
        Self::CurrentCarrying,
        Self::LoadContinuous,
        Self::LoadOther,
        Self::Device,
        Self::DeviceKind,
        Self::ContinuousRating,
        Self::Supplies,
        Self::Voltage,
        Self::Circuit,
        Self::Length,
        Self::DropLimit,
    ];

    /// The names that its column may have; the first is the one to suggest.
    #[must_use]
    pub const fn names(self) -> &'static [&'static str] {
        match self {
            Self::Material => &["material"],
            Self::Size => &["size"],
            Self::Insulation => &["insulation"],
            Self::Cable => &["cable"],
            Self::Installation => &["installation"],
            Self::Place => &["place"],
            Self::ThermalInsulation => &["thermal_insulation"],
            Self::Terminals => &["terminals"],
            Self::Ambient => &["ambient_c", "ambient_f"],
            Self::CurrentCarrying => &["current_carrying"],
            Self::LoadContinuous => &["load_continuous_a", "load_continuous_ma"],
            Self::LoadOther => &["load_other_a", "load_other_ma"],
            Self::Device => &["device_a", "device_ma"],
            Self::DeviceKind => &["device_kind"],
            Self::ContinuousRating => &["continuous_rating"],
            Self::Supplies => &["supplies"],
            Self::Voltage => &["voltage_v", "voltage_mv", "voltage_kv"],
            Self::Circuit => &["circuit"],
            Self::Length => &["length_ft", "length_in", "length_m", "length_mm"],
            Self::DropLimit => &["drop_limit_percent"],
        }
    }

    /// The field of a column name, with the place of that name among its names.
    pub(super) fn of_name(name: &str) -> Option<(Self, usize)> {
        Self::ALL.into_iter().find_map(|field| Some((field, field.names().iter().position(|known| *known == name)?)))
    }

    /// Whether no row can be judged without its column.
    pub(super) const fn required(self) -> bool {
        matches!(self, Self::Material | Self::Size | Self::LoadContinuous | Self::LoadOther | Self::Device)
    }

    /// Whether a null in its column says something: that there is no cable, or what is said without it.
    pub(super) const fn may_be_null(self) -> bool {
        matches!(self, Self::Insulation | Self::Cable | Self::ThermalInsulation | Self::Supplies)
    }

    /// What the column of that name holds.
    pub(super) fn holds(self, name: &str) -> Option<Holds> {
        let unit = name.rsplit('_').next().unwrap_or_default();
        let scale = match self {
            Self::Ambient => scale::<Celsius>(unit),
            Self::CurrentCarrying => Some(Scale { count: 1, offset: 0, least: 1, most: 999 }),
            Self::LoadContinuous | Self::LoadOther | Self::Device => scale::<Amperes>(unit),
            // Nothing is dropped of no voltage.
            Self::Voltage => scale::<Volts>(unit).map(|scale| Scale { least: 1, ..scale }),
            Self::Length => scale::<Meters>(unit),
            Self::DropLimit => scale::<Ratio>(unit),
            _ => return Some(Holds::Words),
        };
        scale.map(Holds::Numbers)
    }
}

/// The scale of the unit that a column name ends in.
fn scale<Q: Quantity>(unit: &str) -> Option<Scale> {
    // mV, mA, mm and m differ only in case from units that are not offered: the exact spelling is looked for first.
    let symbol = match unit {
        "a" => "A",
        "ma" => "mA",
        "v" => "V",
        "mv" => "mV",
        "kv" => "kV",
        "c" => "°C",
        "f" => "°F",
        "percent" => "%",
        other => other,
    };
    let found: &Unit = Q::UNITS.iter().find(|known| known.symbol == symbol)?;
    Some(Scale {
        count: i64::try_from(found.count).ok()?,
        offset: i64::try_from(found.offset).ok()?,
        least: i64::try_from(Q::MINIMUM).ok()?,
        most: i64::try_from(Q::MAXIMUM).ok()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_is_read_in_some_scale_and_belongs_to_one_field() {
        for (at, field) in Field::ALL.into_iter().enumerate() {
            assert_eq!(field as usize, at);
            for name in field.names() {
                assert_eq!(Field::of_name(name).unwrap().0, field);
                match field.holds(name).expect(name) {
                    // Counts are found in doubles, with room for their rounding.
                    Holds::Numbers(scale) => assert!(scale.least > -(1 << 50) && scale.most < 1 << 50, "{name}"),
                    Holds::Words => {}
                }
            }
        }
    }
}
