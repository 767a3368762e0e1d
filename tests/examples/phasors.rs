//! The exact phasor against published ones, which state the drop as a complex number.

use loadworthy::calc::voltage_drop::{Method, Segment, Wire};
use loadworthy::code::Nec;
use loadworthy::quantity::{Amperes, PowerFactor, Quantity, Volts};
use loadworthy::trade::Conduit;
use rust_decimal::Decimal;

use crate::harness::{Answers, Claim, Example};
use crate::voltage_drop::{LUMPED, find, one_wire};

pub(crate) const CLAIMS: &[(&str, Claim)] =
    &[("vd-phasor-two-sections-400v", two_sections), ("vd-exact-phasor-versus-table9-note", against_the_approximation)];

/// Nanovolts in line with the load's voltage, and at right angles to it without a sign.
struct Components {
    in_line: u128,
    across: u128,
}

const NANOVOLT: i128 = 381_000_000_000_000_000_000;
const SENT: Volts = Volts::from_whole(500);

/// The two methods of the library are the two sides: V_sent² = (V_load + A)² + B², where the effective impedance gives
/// A and the exact phasor V_load.
fn components(code: &Nec, path: &[Segment], power_factor: PowerFactor) -> Components {
    let conduit = Conduit::Pvc;
    let drop = |method| find(code, SENT, path, method).drop.count() / NANOVOLT;
    let in_line = drop(Method::EffectiveImpedance { conduit, power_factor });
    let sent = SENT.count() * 1_000_000;
    let at_load = sent - drop(Method::ExactPhasor { conduit, power_factor });
    let square = sent.pow(2) - (at_load + in_line).pow(2);
    Components { in_line: in_line.unsigned_abs(), across: square.unsigned_abs().isqrt() }
}

fn volts(nanovolts: u128) -> Decimal {
    Decimal::from_i128_with_scale(i128::try_from(nanovolts).unwrap(), 9)
}

fn impedance(example: &Example) -> Wire {
    Wire::Stated {
        resistance: example.quantity_in("resistance_ohm", LUMPED.0),
        reactance: example.quantity_in("reactance_ohm", LUMPED.0),
    }
}

/// Reactance outweighs resistance in both sections, so both parts across are positive.
fn two_sections(example: &Example, code: &'static Nec) -> Answers {
    let (sections, loads) = (example.each("sections"), example.each("loads"));
    let [near, far]: [Amperes; 2] = [0, 1].map(|index: usize| loads[index].quantity("current_A"));
    let power_factor = |index: usize| loads[index].number("power_factor_lagging").to_string();
    assert_eq!(power_factor(0), power_factor(1));
    let first = one_wire(impedance(&sections[0]), LUMPED.1, near.checked_add(far).unwrap());
    let second = one_wire(impedance(&sections[1]), LUMPED.1, far);
    let power_factor = power_factor(0).parse().unwrap();
    let to_middle = components(code, &[second], power_factor);
    let whole = components(code, &[first, second], power_factor);
    let far_end = example.number("far_end_V");
    Answers::default()
        .number("mid_real_V", far_end + volts(to_middle.in_line))
        .number("mid_imag_V", volts(to_middle.across))
        .number("sending_real_V", far_end + volts(whole.in_line))
        .number("sending_imag_V", volts(whole.across))
}

/// One conductor, to neutral.
fn against_the_approximation(example: &Example, code: &'static Nec) -> Answers {
    let path = [one_wire(impedance(example), LUMPED.1, example.quantity("current_A"))];
    let power_factor = example.number("power_factor_lagging").to_string().parse().unwrap();
    let Components { in_line, across } = components(code, &path, power_factor);
    Answers::default()
        .number("approximate_drop_V", volts(in_line))
        .number("drop_phasor_magnitude_V", volts((in_line.pow(2) + across.pow(2)).isqrt()))
}
