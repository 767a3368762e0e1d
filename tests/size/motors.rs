//! Motor circuits: the next smaller conductor has not the ampacity, and the grounding conductor goes by the device.

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, ampacity};
use loadworthy::calc::grounding::equipment;
use loadworthy::code::{Code, Edition};
use loadworthy::plan::motor::{MotorDevice, ProtectedMotor, motor_conductor, motor_device};
use loadworthy::quantity::Amperes;
use loadworthy::size::Unsized;
use loadworthy::size::motor::motor_circuit;
use loadworthy::trade::{Material, WireSize};
use proptest::prelude::*;

use crate::circuits::{milliamperes, questions, with_the_book};

/// 125 % of the full-load current, by hand: five quarters of it.
fn bears(usable: Amperes, full_load: Amperes) -> bool {
    use loadworthy::quantity::Quantity;
    4 * usable.count() >= 5 * full_load.count()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn the_next_smaller_conductor_does_not_bear_the_motor(
        question in questions(1000), full_load in 1_000_i64..300_000, device in 0_usize..3, kind in 0_usize..4,
    ) {
        let code = with_the_book(Edition::Nec2023);
        let full_load = milliamperes(full_load);
        let device = [MotorDevice::InverseTimeBreaker, MotorDevice::DualElementFuse, MotorDevice::NontimeDelayFuse][device];
        let kind = [
            ProtectedMotor::SinglePhase, ProtectedMotor::SquirrelCage, ProtectedMotor::DesignBEfficient,
            ProtectedMotor::WoundRotor,
        ][kind];
        let least = motor_conductor(full_load).unwrap();
        let rating = motor_device(code, kind, device, full_load).unwrap();
        let conditions = Conditions { circuit_rating: Some(rating), ..question.conditions };
        let usable = |size| ampacity(code, &Conditions { size, ..conditions }, &mut Silent).map(|found| found.usable);
        let copper_least: WireSize = "14 AWG".parse().unwrap();
        let aluminum_least: WireSize = "12 AWG".parse().unwrap();
        let smallest = if conditions.material == Material::Copper { copper_least } else { aluminum_least };
        let passes = |size: WireSize| size >= smallest && usable(size).is_ok_and(|usable| bears(usable, full_load));
        match motor_circuit(code, &conditions, least, rating, Material::Copper, &mut Silent) {
            Ok(sized) => {
                let size = sized.ungrounded.value;
                prop_assert!(passes(size), "{size} does not bear {full_load}");
                for smaller in code.sizes().iter().filter(|other| **other < size) {
                    prop_assert!(!passes(*smaller), "{smaller} bears {full_load}");
                }
                // Table 250.122 for the device; never above the circuit's own conductors where both are of copper.
                let table = equipment(code, Material::Copper, rating, None, &mut Silent).unwrap();
                let most = if conditions.material == Material::Copper && table > size { size } else { table };
                prop_assert_eq!(sized.grounding.value, most);
            }
            Err(Unsized::NothingPasses(_)) => {
                for any in code.sizes() {
                    prop_assert!(!passes(*any), "{any} bears {full_load}");
                }
            }
            Err(error) => prop_assert!(false, "{error}"),
        }
    }
}
