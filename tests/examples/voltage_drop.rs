//! Voltage drop by the tables, by a constant, and at a limit: the `vd` examples of building wiring.

use loadworthy::calc::Silent;
use loadworthy::calc::least_area::least_area;
use loadworthy::calc::voltage_drop::{Currents, KFactor, Method, Segment, VoltageDrop, Wire, voltage_drop};
use loadworthy::code::{Code, Nec};
use loadworthy::quantity::{
    Amperes, Celsius, Drop, Meters, OhmsPerLength, PowerFactor, Quantity, Ratio, Rounding, Volts,
};
use loadworthy::trade::{Conduit, Material, WireSize};

use crate::harness::{Answers, Claim, Example};

pub(crate) const CLAIMS: &[(&str, Claim)] = &[
    ("vd-dc-16awg-100ft", by_table_8),
    ("vd-3ph-12awg-steel-conduit", three_phase),
    ("vd-3ph-12awg-500ft", three_phase),
    ("vd-3ph-min-size-k-factor", least_area_and_size),
    ("vd-1ph-min-size-aluminium-275ft", least_area_and_size),
    ("vd-1ph-min-size-30a-230v", least_size),
    ("vd-1ph-size-ladder-10a-140ft", size_ladder),
    ("vd-3ph-max-length-10awg", longest_three_phase),
    ("vd-3ph-max-length-12awg", longest_three_phase),
    ("vd-max-length-12awg-5v", longest_conductor),
    ("vd-limit-min-voltage-120", least_voltage),
    ("vd-recommended-limit-240v", least_voltage),
    ("vd-lighting-limit-8-percent", lighting_limits),
    ("vd-bs-limits-230v", limits_of_230),
    ("vd-1ph-10awg-16a", by_table_9),
    ("vd-1ph-12awg-8a", by_table_9),
];

/// Stated resistances stand as they are, so the temperature does not matter to them.
pub(crate) const DIRECT: Method = Method::DirectCurrent { temperature: Celsius::from_whole(75) };
/// A way back that drops nothing: the author counts one conductor, or his figure holds for the whole loop.
pub(crate) const NO_WIRE: Wire = Wire::Stated { resistance: OhmsPerLength::MIN, reactance: OhmsPerLength::MIN };
/// Where the example names no supply, none matters.
pub(crate) const ANY: Volts = Volts::from_whole(1000);
/// A lumped resistance is that of a wire of a thousand feet in ohms per thousand feet.
pub(crate) const LUMPED: (&str, Meters) = ("ohm/kft", Meters::from_feet(1000));

pub(crate) fn stated(resistance: OhmsPerLength) -> Wire {
    Wire::Stated { resistance, reactance: OhmsPerLength::MIN }
}

pub(crate) fn two_wires(wire: Wire, length: Meters, current: Amperes) -> Segment {
    Segment { wire, neutral: None, length, currents: Currents::TwoWire(current) }
}

pub(crate) fn one_wire(wire: Wire, length: Meters, current: Amperes) -> Segment {
    Segment { neutral: Some(NO_WIRE), ..two_wires(wire, length, current) }
}

pub(crate) fn find(code: &Nec, supply: Volts, path: &[Segment], method: Method) -> VoltageDrop {
    voltage_drop(code, supply, path, method, &mut Silent).unwrap()
}

pub(crate) fn drop(code: &Nec, segment: Segment) -> Drop {
    find(code, ANY, &[segment], DIRECT).drop
}

/// The conductor of a text such as `12 AWG copper, steel conduit`.
pub(crate) fn conductor(example: &Example) -> (Material, WireSize) {
    let words: Vec<&str> = example.text("conductor").split_whitespace().collect();
    let size = format!("{} {}", words[0], words[1]).parse().unwrap();
    (words[2].trim_end_matches(',').parse().unwrap(), size)
}

fn by_table_8(example: &Example, code: &'static Nec) -> Answers {
    let (material, size) = conductor(example);
    example.agrees("resistance_ohm_per_kft", code.resistance(material, size).unwrap().value);
    let segment =
        two_wires(Wire::Sized(material, size), example.quantity("length_one_way_ft"), example.quantity("current_A"));
    let found = find(code, example.quantity("source_V"), &[segment], DIRECT);
    Answers::default().quantity("voltage_drop_V", found.drop).quantity("voltage_drop_percent", found.share().unwrap())
}

fn by_table_9(example: &Example, code: &'static Nec) -> Answers {
    let (material, size) = conductor(example);
    example.agrees("resistance_ohm_per_kft", code.impedance(material, Conduit::Pvc, size).unwrap().value.0);
    let segment =
        two_wires(Wire::Sized(material, size), example.quantity("length_one_way_ft"), example.quantity("current_A"));
    let method = Method::EffectiveImpedance { conduit: Conduit::Pvc, power_factor: PowerFactor::UNITY };
    Answers::default().quantity("voltage_drop_V", find(code, ANY, &[segment], method).drop)
}

/// The effective impedance as printed, which the resistance and reactance of the table give to its one decimal.
fn printed_impedance(example: &Example, code: &Nec) -> Wire {
    let (material, size) = conductor(example);
    let of_table = Segment {
        wire: Wire::Sized(material, size),
        neutral: Some(NO_WIRE),
        length: LUMPED.1,
        currents: Currents::TwoWire(Amperes::from_whole(1)),
    };
    let method = Method::EffectiveImpedance { conduit: Conduit::Steel, power_factor: "0.85".parse().unwrap() };
    let volts = Drop::UNITS.first().unwrap();
    let ours = find(code, ANY, &[of_table], method).drop.in_unit(volts, 12, Rounding::Up);
    assert_eq!(ours.round_dp(1), example.number("effective_z_ohm_per_kft"), "{}", example.id());
    stated(example.quantity("effective_z_ohm_per_kft"))
}

fn three_phase(example: &Example, code: &'static Nec) -> Answers {
    let segment = Segment {
        wire: printed_impedance(example, code),
        neutral: None,
        length: example.quantity("length_one_way_ft"),
        currents: Currents::ThreePhase(example.quantity("current_A")),
    };
    Answers::default().quantity("voltage_drop_V", drop(code, segment))
}

/// The greatest whole number of feet that holds.
fn greatest_feet(holds: impl Fn(Meters) -> bool) -> Meters {
    (1..=u16::MAX).map(Meters::from_feet).take_while(|length| holds(*length)).last().unwrap()
}

fn longest_three_phase(example: &Example, code: &'static Nec) -> Answers {
    let (wire, supply) = (printed_impedance(example, code), example.quantity("source_V"));
    let currents = Currents::ThreePhase(example.quantity("current_A"));
    let limit = Drop::from_volts(example.quantity("max_drop_V"));
    let longest = greatest_feet(|length| {
        find(code, supply, &[Segment { wire, neutral: None, length, currents }], DIRECT).drop <= limit
    });
    Answers::default().quantity("max_length_one_way_ft", longest)
}

/// The length of conductor, out and back together.
fn longest_conductor(example: &Example, code: &'static Nec) -> Answers {
    let size = "12 AWG".parse().unwrap();
    example.agrees("area_cmil", code.area(size).unwrap().value);
    let limit = Drop::from_volts(example.quantity("max_drop_V"));
    let longest = greatest_feet(|length| {
        let segment = one_wire(Wire::Sized(Material::Copper, size), length, example.quantity("current_A"));
        find(code, ANY, &[segment], Method::Constant { k: k_factor(example) }).drop <= limit
    });
    Answers::default().quantity("max_conductor_length_ft", longest)
}

fn k_factor(example: &Example) -> KFactor {
    example.number("k_ohm_cmil_per_ft").to_string().parse().unwrap()
}

fn by_constant(example: &Example, code: &Nec, size: WireSize) -> VoltageDrop {
    let currents = currents(example);
    let wire = Wire::Sized(example.text("material").parse().unwrap(), size);
    let segment = Segment { wire, neutral: None, length: example.quantity("length_one_way_ft"), currents };
    find(code, example.quantity("source_V"), &[segment], Method::Constant { k: k_factor(example) })
}

fn currents(example: &Example) -> Currents {
    let current = example.quantity("current_A");
    if example.text("phase") == "three-phase" { Currents::ThreePhase(current) } else { Currents::TwoWire(current) }
}

fn least_size(example: &Example, code: &'static Nec) -> Answers {
    let share: Ratio = example.quantity("max_drop_percent");
    let size = code.sizes().iter().find(|size| by_constant(example, code, **size).within(share)).unwrap();
    Answers::default().text("minimum_size", size)
}

fn least_area_and_size(example: &Example, code: &'static Nec) -> Answers {
    let (length, supply) = (example.quantity("length_one_way_ft"), example.quantity("source_V"));
    let share = example.quantity("max_drop_percent");
    let area = least_area(k_factor(example), currents(example), length, supply, share).unwrap();
    least_size(example, code).quantity("required_cmil", area)
}

fn size_ladder(example: &Example, code: &'static Nec) -> Answers {
    let of = |size: &str| by_constant(example, code, size.parse().unwrap()).drop;
    least_size(example, code)
        .quantity("voltage_drop_14awg_V", of("14 AWG"))
        .quantity("voltage_drop_8awg_V", of("8 AWG"))
}

pub(crate) fn limit(supply: Volts, share: Ratio) -> Volts {
    let limit = (supply * share).rounded(Rounding::Down).unwrap();
    // The limit itself is within the share, one millivolt more is not.
    let at = |drop| VoltageDrop { drop: Drop::from_volts(drop), supply, rises: false };
    assert!(at(limit).within(share) && !at(limit.checked_add(Volts::new(1).unwrap()).unwrap()).within(share));
    limit
}

fn least_voltage(example: &Example, _: &'static Nec) -> Answers {
    let supply = example.quantity("source_V");
    let drop = Drop::from_volts(limit(supply, example.quantity("max_drop_percent")));
    Answers::default().quantity("minimum_load_V", VoltageDrop { drop, supply, rises: false }.at_load())
}

fn lighting_limits(example: &Example, _: &'static Nec) -> Answers {
    let systems: Vec<Volts> = example.quantities("systems_V");
    let [high, low] = [systems[0], systems[1]].map(|supply| limit(supply, example.quantity("limit_percent")));
    Answers::default().quantity("limit_480_V", high).quantity("limit_240_V", low)
}

fn limits_of_230(example: &Example, _: &'static Nec) -> Answers {
    let of = |key| limit(example.quantity("system_V"), example.quantity(key));
    Answers::default()
        .quantity("lighting_limit_V", of("lighting_percent"))
        .quantity("other_limit_V", of("other_percent"))
}
