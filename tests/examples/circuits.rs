//! Continuous loads, grounding conductors, resistances, neutrals: the `cl`, `gr`, `cr`, `ne` examples.

use loadworthy::calc::Silent;
use loadworthy::calc::continuous::{Load, Requirement, requirement};
use loadworthy::calc::grounding::{Enlarged, electrode, equipment, required_area};
use loadworthy::calc::overcurrent::next_device;
use loadworthy::calc::voltage_drop::Currents;
use loadworthy::code::{Code, Nec};
use loadworthy::quantity::{
    Amperes, CircularMils, Fraction, Meters, OhmsPerLength, PowerFactor, Rounding, Volts, Watts,
};
use loadworthy::trade::{ContinuousRating, DeviceKind, Material, WireSize};

use crate::harness::{Answers, Claim, Example};

pub(crate) const CLAIMS: &[(&str, Claim)] = &[
    ("cl-nine-ballasts", continuous_circuit),
    ("cl-14.7a-208v", continuous_circuit),
    ("cl-20a-continuous", continuous_alone),
    ("cl-mixed-60-plus-40", mixed_feeder),
    ("cl-cord-connected-80-percent", cord_connected),
    ("cl-resistive-240v", resistive),
    ("gr-egc-upsized-250-to-350kcmil", enlarged),
    ("gr-egc-upsized-12awg-to-1-0", enlarged),
    ("gr-egc-upsized-8awg-to-1awg", enlarged),
    ("gr-egc-upsized-8awg-to-4awg", enlarged),
    ("gr-egc-upsized-3-0-to-250kcmil", enlarged),
    ("gr-egc-upsized-1-0-to-350kcmil", enlarged),
    ("gr-egc-table-copper", grounding_table),
    ("gr-egc-one-raceway-largest-device", largest_device_of_a_raceway),
    ("gr-gec-350kcmil", grounding_electrode),
    ("cr-18awg-400ft", resistance_of_a_length),
    ("cr-4awg-1530ft", resistance_of_a_length),
    ("ne-split-phase-8-and-5", neutral_of_legs),
    ("ne-multiwire-both-on-one-leg", neutral_of_one_leg),
    ("ne-lamps-120w-240w", neutral_of_lamps),
    ("tw-lamps-100w-200w-normal", currents_of_lamps),
];

fn required(example: &Example, code: &Nec, continuous: &str, non_continuous: Option<&str>) -> Requirement {
    let load = Load {
        continuous: example.quantity(continuous),
        non_continuous: non_continuous.map_or(Amperes::ZERO, |key| example.quantity(key)),
    };
    let (device, _) = loadworthy::calc::continuous::factors(code, ContinuousRating::Standard).unwrap();
    example.factor_agrees("factor", device);
    requirement(code, load, ContinuousRating::Standard, &mut Silent).unwrap()
}

fn standard(code: &Nec, of: &Requirement) -> Amperes {
    next_device(code, DeviceKind::Breaker, of.device, &mut Silent).unwrap()
}

fn continuous_circuit(example: &Example, code: &'static Nec) -> Answers {
    let of = required(example, code, "load_A", None);
    Answers::default().quantity("minimum_rating_A", of.device_shown()).quantity("circuit_A", standard(code, &of))
}

fn continuous_alone(example: &Example, code: &'static Nec) -> Answers {
    let of = required(example, code, "continuous_A", None);
    assert_eq!(of.device_shown(), of.conductor_shown());
    Answers::default().quantity("minimum_rating_A", of.device_shown())
}

fn mixed_feeder(example: &Example, code: &'static Nec) -> Answers {
    let of = required(example, code, "continuous_A", Some("noncontinuous_A"));
    Answers::default().quantity("minimum_rating_A", of.device_shown()).quantity("feeder_device_A", standard(code, &of))
}

/// The smallest circuit whose receptacle of the same rating admits the load.
fn cord_connected(example: &Example, code: &'static Nec) -> Answers {
    let load: Amperes = example.quantity("load_A");
    let admits = code.standard_ratings(DeviceKind::Breaker).iter().find_map(|rating| {
        let circuit = rating.as_ref().ok()?.value;
        let most = code.receptacle_load(circuit, circuit).ok()?.value;
        assert_eq!(circuit * example.factor("max_fraction_of_circuit"), loadworthy::quantity::Scaled::whole(most));
        (load <= most).then_some((circuit, most))
    });
    let (circuit, most) = admits.unwrap();
    Answers::default().quantity("circuit_A", circuit).quantity("limit_A", most)
}

fn current(power: Watts, at: Volts) -> Amperes {
    Fraction::of_power(power, at, PowerFactor::UNITY).unwrap().to_current(Rounding::Up)
}

fn resistive(example: &Example, _: &'static Nec) -> Answers {
    Answers::default().quantity("current_A", current(example.quantity("load_W"), example.quantity("source_V")))
}

/// The device is the least whose grounding conductor is the one that the author starts from.
fn enlarged(example: &Example, code: &'static Nec) -> Answers {
    let base: WireSize = example.text("base_egc").parse().unwrap();
    let change = Enlarged {
        needed: example.text("required_ungrounded").parse().unwrap(),
        installed: example.text("installed_ungrounded").parse().unwrap(),
    };
    for size in [base, change.needed, change.installed] {
        let stated = example.inside("areas_cmil").quantity_in::<CircularMils>(&size.to_string(), "cmil");
        assert_eq!(code.area(size).unwrap().value, stated, "{} {size}", example.id());
    }
    let starts_there =
        |device: &Amperes| equipment(code, Material::Copper, *device, None, &mut Silent).is_ok_and(|size| size == base);
    let ratings = code.standard_ratings(DeviceKind::Breaker).iter().filter_map(|rating| rating.as_ref().ok());
    let device = ratings.map(|cell| cell.value).find(starts_there).unwrap();
    let size = equipment(code, Material::Copper, device, Some(change), &mut Silent).unwrap();
    Answers::default()
        .text("required_egc", size)
        .quantity("required_egc_cmil", required_area(code, base, change).unwrap())
}

fn grounding_table(example: &Example, code: &'static Nec) -> Answers {
    let material = example.text("material").parse().unwrap();
    let sizes: Vec<WireSize> = example
        .quantities("device_A")
        .into_iter()
        .map(|device| equipment(code, material, device, None, &mut Silent).unwrap())
        .collect();
    Answers::default().text("egc_400A", sizes[0]).text("egc_1000A", sizes[1])
}

fn largest_device_of_a_raceway(example: &Example, code: &'static Nec) -> Answers {
    let material = example.text("material").parse().unwrap();
    let device = example.quantities("circuits_in_one_raceway_device_A").into_iter().max().unwrap();
    Answers::default().text("single_egc", equipment(code, material, device, None, &mut Silent).unwrap())
}

fn grounding_electrode(example: &Example, code: &'static Nec) -> Answers {
    let service = example.text("service_conductor").rsplit_once(' ').unwrap();
    let material = service.1.parse().unwrap();
    let size = electrode(code, (material, service.0.parse().unwrap()), Material::Copper, &mut Silent).unwrap();
    Answers::default().text("grounding_electrode_conductor", format!("{size} {}", Material::Copper))
}

fn resistance_of_a_length(example: &Example, _: &'static Nec) -> Answers {
    let per_length: OhmsPerLength = example.quantity("resistance_ohm_per_kft");
    let length: Meters = example.quantity("conductor_length_ft");
    Answers::default().quantity("resistance_ohm", per_length * length)
}

fn neutral_of_legs(example: &Example, _: &'static Nec) -> Answers {
    let legs = Currents::Legs { this: example.quantity("leg_a_A"), other: example.quantity("leg_b_A") };
    Answers::default().quantity("neutral_A", legs.neutral())
}

/// HAZARD, not a permitted circuit: on one leg the circuit is a two-wire one, and its neutral carries the sum.
fn neutral_of_one_leg(example: &Example, _: &'static Nec) -> Answers {
    let [a, b]: [Amperes; 2] = ["leg_a_A", "leg_b_A"].map(|key| example.quantity(key));
    let sum = a.checked_add(b).unwrap();
    assert_eq!(Currents::Legs { this: a, other: b }.neutral(), Amperes::ZERO, "as it should have been wired");
    Answers::default().quantity("neutral_A", Currents::TwoWire(sum).neutral())
}

fn neutral_of_lamps(example: &Example, _: &'static Nec) -> Answers {
    let [this, other] =
        ["lamps_leg_1_W", "lamps_leg_2_W"].map(|key| current(example.quantity(key), example.quantity("lamp_V")));
    Answers::default()
        .quantity("leg_1_A", this)
        .quantity("leg_2_A", other)
        .quantity("neutral_A", Currents::Legs { this, other }.neutral())
}

fn currents_of_lamps(example: &Example, _: &'static Nec) -> Answers {
    let lamps: Vec<Watts> = example.quantities_in("lamps_W_at_120V", "W");
    let [hundred, two_hundred] = [lamps[0], lamps[1]].map(|power| current(power, example.quantity("leg_V")));
    Answers::default().quantity("current_100W_A", hundred).quantity("current_200W_A", two_hundred)
}
