//! The least conductor area for a voltage drop: the constant form turned round.

use super::voltage_drop::{Currents, KFactor};
use crate::quantity::{CircularMils, Meters, Quantity, Ratio, SQUARE_ROOT_OF_THREE, Volts};

/// The least area that keeps the drop within `share` of `supply`, rounded up to the circular mil:
/// A ≥ f · K · I · L / ΔV, in circular mils, ohm circular mils per foot, amperes, feet and volts, with f = 2 for two
/// wires and √3 for three phases. A leg and a neutral of the same size count f · I as 2 · I_this − I_other.
///
/// Source of the form: common practice; it is Chapter 9 Table 8 (NEC) with one constant for every size. Leaves out
/// reactance. `None` where no drop is allowed, or where the area is beyond any conductor.
///
/// ```
/// # use loadworthy::calc::{least_area::least_area, voltage_drop::Currents};
/// let current = Currents::TwoWire("36 A".parse()?);
/// // 2 x 21 x 36 x 275 / 7.2 = 57,750 circular mils.
/// let area = least_area("21".parse()?, current, "275 ft".parse()?, "240 V".parse()?, "3 %".parse()?);
/// assert_eq!(area.map(|area| area.to_string()), Some("57750 cmil".to_owned()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn least_area(k: KFactor, currents: Currents, length: Meters, supply: Volts, share: Ratio) -> Option<CircularMils> {
    let (amperes, divisor) = match currents {
        Currents::TwoWire(current) => (current.count().checked_mul(2)?, 1),
        Currents::ThreePhase(current) => (current.count().checked_mul(SQUARE_ROOT_OF_THREE.0)?, SQUARE_ROOT_OF_THREE.1),
        // A leg that the other one helps more than it drops needs no area for the drop.
        Currents::Legs { this, other } => ((2 * this.count() - other.count()).max(0), 1),
    };
    // 10^-4 K, 10^-6 A and L/304,800 ft over 10^-3 V and 10^-6: a tenth remains.
    const FEET_AND_POWERS: i128 = 304_800 * 10;
    let numerator = i128::from(k.ten_thousandths()).checked_mul(length.count())?.checked_mul(amperes)?;
    let divisor = FEET_AND_POWERS.checked_mul(divisor)?.checked_mul(supply.count())?.checked_mul(share.count())?;
    let (whole, rest) = (numerator.checked_div(divisor)?, numerator.checked_rem(divisor)?);
    CircularMils::from_count(whole + i128::from(rest != 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn two_wire(share: &str) -> Option<String> {
        let current = Currents::TwoWire("36 A".parse().unwrap());
        let (k, length) = ("21".parse().unwrap(), "275 ft".parse().unwrap());
        let area = least_area(k, current, length, "240 V".parse().unwrap(), share.parse().unwrap());
        area.map(|area| area.count().to_string())
    }

    #[test]
    fn a_hair_less_drop_needs_a_circular_mil_more() {
        assert_eq!(two_wire("3 %").as_deref(), Some("57750"));
        assert_eq!(two_wire("2.9999 %").as_deref(), Some("57752"));
        assert_eq!(two_wire("0 %"), None);
        assert_eq!(two_wire("0.0001 %"), None, "beyond any conductor");
    }

    #[test]
    fn a_balanced_leg_needs_half_of_two_wires() {
        let area = |currents| {
            let (k, length) = ("12.9".parse().unwrap(), "100 ft".parse().unwrap());
            least_area(k, currents, length, "120 V".parse().unwrap(), "3 %".parse().unwrap()).unwrap().count()
        };
        let [twenty, fifty] = ["20 A", "50 A"].map(|text| text.parse().unwrap());
        assert_eq!(area(Currents::TwoWire(twenty)), 14_334); // 12.9 x 2 x 20 x 100 / 3.6 = 14,333.3
        assert_eq!(area(Currents::Legs { this: twenty, other: twenty }), 7_167);
        assert_eq!(area(Currents::Legs { this: twenty, other: fifty }), 0);
    }
}
