//! Voltage drop at its recommended shares, by every method.

use loadworthy::calc::Silent;
use loadworthy::calc::voltage_drop::{Currents, Method, Segment, Wire, voltage_drop};
use loadworthy::code::Edition;
use loadworthy::quantity::{Amperes, OhmsPerLength, PowerFactor, Volts};
use loadworthy::trade::Conduit;

use crate::{nec, of};

/// Whether one wire of 0.1 ohm each way, at unity power factor, keeps a drop within a share of 120 V.
fn within(currents: Currents, method: Method, share: &str) -> bool {
    let wire = Wire::Stated { resistance: of("1 ohm/kft"), reactance: OhmsPerLength::MIN };
    let segment = Segment { wire, neutral: None, length: of("100 ft"), currents };
    let supply: Volts = of("120 V");
    voltage_drop(nec(Edition::Nec2023), supply, &[segment], method, &mut Silent).unwrap().within(of(share))
}

fn methods() -> [Method; 4] {
    let (conduit, power_factor) = (Conduit::Pvc, PowerFactor::UNITY);
    [
        Method::DirectCurrent { temperature: of("75 °C") },
        Method::Constant { k: of("12.9") },
        Method::EffectiveImpedance { conduit, power_factor },
        Method::ExactPhasor { conduit, power_factor },
    ]
}

/// 210.19 informational note: 3 % is 3.6 V, and 5 % is 6 V.
#[test]
fn exactly_at_the_share_and_a_microampere_over() {
    for method in methods() {
        for (share, at) in [("3 %", "18 A"), ("5 %", "30 A")] {
            let at: Amperes = of(at);
            let step = Amperes::new(1).unwrap();
            let (under, over) = (at.checked_sub(step).unwrap(), at.checked_add(step).unwrap());
            let two_wires = |current| within(Currents::TwoWire(current), method, share);
            assert!(two_wires(under) && two_wires(at) && !two_wires(over), "{} {share}", method.name());
            // A balanced leg drops over one wire: half as much.
            let leg = |this, other| within(Currents::Legs { this, other }, method, share);
            let twice = at.checked_add(at).unwrap();
            assert!(leg(twice, twice) && !leg(twice.checked_add(step).unwrap(), twice), "{} {share}", method.name());
            // Alone, it drops over both, and the other leg's current takes from the neutral's.
            assert!(leg(at, Amperes::ZERO) && !leg(over, Amperes::ZERO) && leg(over, step.checked_add(step).unwrap()));
        }
    }
}

/// √3 is rounded up, to 1.732050808: the drop is never understated.
#[test]
fn three_phases_at_the_share() {
    for method in methods() {
        let line = |current| within(Currents::ThreePhase(of(current)), method, "3 %");
        // 3.6 V / 0.1732050808 ohm = 20.784609 A and a little.
        assert!(line("20.784609 A") && !line("20.78461 A"), "{}", method.name());
    }
}
