//! Voltage drop of lines, cords and three wires: the other `vd` examples, `co` and `tw`.

use loadworthy::calc::voltage_drop::{Currents, Method, Segment, VoltageDrop, Wire};
use loadworthy::code::{Code, Nec};
use loadworthy::quantity::{
    Amperes, Drop, Fraction, Meters, Ohms, OhmsPerLength, PowerFactor, Rounding, Seconds, Volts, Watts,
};
use loadworthy::trade::Conduit;
use rust_decimal::Decimal;

use crate::harness::{Answers, Claim, Example};
use crate::voltage_drop::{ANY, DIRECT, LUMPED, conductor, drop, find, limit, one_wire, stated, two_wires};

pub(crate) const CLAIMS: &[(&str, Claim)] = &[
    ("vd-aircraft-single-conductor-6awg", one_conductor),
    ("vd-aircraft-single-conductor-14awg", one_conductor),
    ("vd-aircraft-single-conductor-10awg-273ft", one_conductor),
    ("vd-aircraft-single-conductor-12awg-88ft", one_conductor),
    ("vd-dc-feeder-lead-and-return", lead_and_return),
    ("vd-dc-factory-feeder", factory_feeder),
    ("vd-dc-distributor-four-loads", section_by_section),
    ("vd-approx-three-loads-800m", loads_in_line),
    ("vd-ac-distributor-three-loads-moments", loads_by_moments),
    ("vd-secondary-plus-service-drop", per_unit_of_two_lines),
    ("vd-motor-start-dip-service", per_unit_at_the_start),
    ("vd-iec-motor-cable-running-and-starting", running_and_starting_cable),
    ("vd-iec-feeder-plus-lighting-branch", feeder_and_branch),
    ("vd-3ph-motor-16mm2-running-and-starting", running_and_starting_motor),
    ("vd-3ph-effective-z-4awg", effective_impedance),
    ("vd-bs7671-socket-radial", socket_radial),
    ("vd-line-energy-20a-10h", line_energy),
    ("co-generator-cord-drop-16awg", cord_of_one_conductor),
    ("co-generator-cord-max-length", cord_of_two_conductors),
    ("tw-unequal-loads-load-voltages", unequal_legs),
    ("tw-feed-voltages-double-neutral", fed_legs),
];

fn plus(a: Drop, b: Drop) -> Drop {
    a.checked_add(b).unwrap()
}

/// The sending voltage of a load's voltage, for drops of whole millivolts.
fn sent(at_load: Volts, found: &VoltageDrop) -> Volts {
    let drop = found.drop.to_volts().unwrap();
    assert_eq!(Drop::from_volts(drop), found.drop);
    if found.rises { at_load.checked_sub(drop) } else { at_load.checked_add(drop) }.unwrap()
}

/// The airframe carries the current back: the length counts once.
fn one_conductor(example: &Example, code: &'static Nec) -> Answers {
    let wire = stated(example.quantity("resistance_ohm_per_ft"));
    let segment = one_wire(wire, example.quantity("length_ft"), example.quantity("current_A"));
    Answers::default().quantity("voltage_drop_V", drop(code, segment))
}

fn lead_and_return(example: &Example, code: &'static Nec) -> Answers {
    let wire = stated(example.quantity_in("resistance_per_conductor_ohm", LUMPED.0));
    let found = find(code, ANY, &[two_wires(wire, LUMPED.1, example.quantity("current_A"))], DIRECT);
    Answers::default().quantity("source_V", sent(example.quantity("load_V"), &found))
}

/// The loss is the drop times the current, all of it real.
fn loss(drop: Drop, current: Amperes) -> Watts {
    drop.to_volts().unwrap() * current * PowerFactor::UNITY
}

fn factory_feeder(example: &Example, code: &'static Nec) -> Answers {
    let load: Volts = example.quantity("load_V");
    let current = Fraction::of_power(example.quantity("load_kW"), load, PowerFactor::UNITY).unwrap();
    let current = current.to_current(Rounding::Up);
    let wire = stated(example.quantity_in("loop_resistance_ohm", LUMPED.0));
    let drop = drop(code, one_wire(wire, LUMPED.1, current));
    Answers::default()
        .quantity("current_A", current)
        .quantity("source_V", load.checked_add(drop.to_volts().unwrap()).unwrap())
        .quantity("line_loss_kW", loss(drop, current))
}

/// Each section carries the loads beyond it.
fn section_by_section(example: &Example, code: &'static Nec) -> Answers {
    let loads = example.each("loads");
    let wire = stated(example.quantity("loop_resistance_ohm_per_km"));
    let distance = |index: usize| loads[index].quantity::<Meters>("distance_m");
    let beyond = |index: usize| {
        let currents = loads[index..].iter().map(|load| load.quantity::<Amperes>("current_A"));
        currents.fold(Amperes::ZERO, |sum, current| sum.checked_add(current).unwrap())
    };
    let sections: Vec<Segment> = (0..loads.len())
        .map(|index| {
            let start = index.checked_sub(1).map_or(Meters::ZERO, distance);
            one_wire(wire, distance(index).checked_sub(start).unwrap(), beyond(index))
        })
        .collect();
    let keys = ["voltage_at_500m_V", "voltage_at_1000m_V", "voltage_at_1600m_V", "voltage_at_2000m_V"];
    keys.into_iter().enumerate().fold(Answers::default(), |answers, (last, key)| {
        let found = find(code, example.quantity("source_V"), &sections[..=last], DIRECT);
        answers.quantity(key, found.at_load())
    })
}

/// The drop that each load makes over its own distance, added in line.
fn in_line(example: &Example, code: &Nec, wire: Wire, power_factor: &str) -> Answers {
    let drops = example.each("loads").into_iter().map(|load| {
        let power_factor = load.number(power_factor).to_string().parse().unwrap();
        let method = Method::EffectiveImpedance { conduit: Conduit::Pvc, power_factor };
        find(code, ANY, &[one_wire(wire, load.quantity("distance_m"), load.quantity("current_A"))], method).drop
    });
    Answers::default().quantity("voltage_drop_V", drops.fold(Drop::ZERO, plus))
}

fn loads_in_line(example: &Example, code: &'static Nec) -> Answers {
    let wire = Wire::Stated {
        resistance: example.quantity("loop_resistance_ohm_per_km"),
        reactance: example.quantity("loop_reactance_ohm_per_km"),
    };
    in_line(example, code, wire, "power_factor_lagging")
}

/// The impedance is that of the whole length, 500 m: twice as much a kilometer.
fn loads_by_moments(example: &Example, code: &'static Nec) -> Answers {
    assert_eq!(example.quantity::<Meters>("length_m"), "500 m".parse().unwrap());
    let of_length: Vec<OhmsPerLength> = example.quantities_in("loop_impedance_ohm", "ohm/km");
    let [resistance, reactance] = [of_length[0], of_length[1]].map(|half| half.checked_add(half).unwrap());
    in_line(example, code, Wire::Stated { resistance, reactance }, "pf")
}

/// Per unit of one volt: 0.0088 per 10,000 ampere-feet is 0.00088 ohm per thousand feet.
fn per_unit(line: &Example, current: Amperes, code: &Nec) -> Drop {
    let per_kilofoot = line.number("pu_per_10000_A_ft") / Decimal::from(10);
    let wire = stated(format!("{} ohm/kft", per_kilofoot.normalize()).parse().unwrap());
    find(code, Volts::from_whole(1), &[one_wire(wire, line.quantity("length_ft"), current)], DIRECT).drop
}

fn per_unit_of_two_lines(example: &Example, code: &'static Nec) -> Answers {
    let of = |key| {
        let line = example.inside(key);
        per_unit(&line, line.quantity("current_A"), code)
    };
    Answers::default()
        .quantity("secondary_line_drop_pu", of("secondary_line"))
        .quantity("service_drop_pu", of("service_drop"))
}

fn per_unit_at_the_start(example: &Example, code: &'static Nec) -> Answers {
    let of = |key| per_unit(&example.inside(key), example.quantity("start_current_A"), code);
    Answers::default()
        .quantity("secondary_line_dip_pu", of("secondary_line"))
        .quantity("service_drop_dip_pu", of("service_drop"))
}

/// Volts per ampere and kilometer are the ohms of a loop; the drop upstream grows with the current.
fn running_and_starting_cable(example: &Example, code: &'static Nec) -> Answers {
    let (length, supply) = (example.quantity("length_m"), example.quantity("system_V"));
    let cable = |volts, current| one_wire(stated(example.quantity(volts)), length, example.quantity(current));
    let upstream = |current| {
        let running: Amperes = example.quantity("upstream_running_current_A");
        let ohms = example.number("upstream_running_drop_V") * Decimal::from(1_000_000)
            / Decimal::from(running.microamperes());
        one_wire(stated(format!("{} ohm/kft", ohms.normalize()).parse().unwrap()), LUMPED.1, example.quantity(current))
    };
    let running = [cable("running_v_per_A_km", "running_current_A"), upstream("upstream_running_current_A")];
    let starting = [cable("starting_v_per_A_km", "starting_current_A"), upstream("upstream_starting_current_A")];
    let [whole_running, whole_starting] = [running, starting].map(|path| find(code, supply, &path, DIRECT));
    Answers::default()
        .quantity("running_total_V", whole_running.drop)
        .quantity("running_total_percent", whole_running.share().unwrap())
        .quantity("starting_cable_V", drop(code, starting[0]))
        .quantity("starting_upstream_V", drop(code, starting[1]))
        .quantity("starting_total_percent", whole_starting.share().unwrap())
}

fn feeder_and_branch(example: &Example, code: &'static Nec) -> Answers {
    let of = |key| {
        let part = example.inside(key);
        drop(code, one_wire(stated(part.quantity("v_per_A_km")), part.quantity("length_m"), part.quantity("current_A")))
    };
    Answers::default().quantity("feeder_line_to_line_V", of("feeder")).quantity("branch_V", of("branch"))
}

fn running_and_starting_motor(example: &Example, code: &'static Nec) -> Answers {
    let wire = Wire::Stated {
        resistance: example.quantity_in("resistance_ohm", LUMPED.0),
        reactance: example.quantity_in("reactance_ohm", LUMPED.0),
    };
    let share = |current, power_factor| {
        let currents = Currents::ThreePhase(example.quantity(current));
        let power_factor = example.number(power_factor).to_string().parse().unwrap();
        let method = Method::EffectiveImpedance { conduit: Conduit::Pvc, power_factor };
        let segment = Segment { wire, neutral: None, length: LUMPED.1, currents };
        find(code, example.quantity("system_V"), &[segment], method).share().unwrap()
    };
    Answers::default()
        .quantity("running_drop_percent", share("running_current_A", "running_pf"))
        .quantity("starting_drop_percent", share("starting_current_A", "starting_pf"))
}

/// Line to neutral: one conductor of the table.
fn effective_impedance(example: &Example, code: &'static Nec) -> Answers {
    let (material, size) = conductor(example);
    let length: Meters = example.quantity("length_one_way_ft");
    let (resistance, reactance) = code.impedance(material, Conduit::Pvc, size).unwrap().value;
    example.agrees::<Ohms>("resistance_ohm", resistance * length);
    example.agrees::<Ohms>("reactance_ohm", reactance * length);
    let method = Method::EffectiveImpedance {
        conduit: Conduit::Pvc,
        power_factor: example.number("power_factor").to_string().parse().unwrap(),
    };
    let segment = one_wire(Wire::Sized(material, size), length, example.quantity("current_A"));
    Answers::default().quantity("voltage_drop_line_to_neutral_V", find(code, ANY, &[segment], method).drop)
}

fn socket_radial(example: &Example, code: &'static Nec) -> Answers {
    let wire = stated(example.quantity("mv_per_A_m"));
    let segment = one_wire(wire, example.quantity("length_m"), example.quantity("design_current_A"));
    let (supply, share) = (example.quantity("system_V"), example.quantity("limit_percent"));
    let found = find(code, supply, &[segment], DIRECT);
    Answers::default()
        .quantity("voltage_drop_V", found.drop)
        .quantity("limit_V", limit(supply, share))
        .text("holds", if found.within(share) { "yes" } else { "no" })
}

fn line_energy(example: &Example, code: &'static Nec) -> Answers {
    let (length, current) = (example.quantity::<Meters>("length_one_way_ft"), example.quantity("current_A"));
    let time: Seconds = example.quantity_in("hours", "h");
    let resistance = |key| example.quantity::<OhmsPerLength>(key);
    let round_trip = |key| (resistance(key) * length).times(2).unwrap();
    let energy = |key| (loss(drop(code, two_wires(stated(resistance(key)), length, current)), current) * time).unwrap();
    Answers::default()
        .quantity("loop_12awg_ohm", round_trip("resistance_12awg_ohm_per_kft"))
        .quantity("loop_10awg_ohm", round_trip("resistance_10awg_ohm_per_kft"))
        .quantity("loss_12awg_kWh", energy("resistance_12awg_ohm_per_kft"))
        .quantity("loss_10awg_kWh", energy("resistance_10awg_ohm_per_kft"))
}

/// CAUTION: the printed figures count one conductor. A cord has two, and its drop is twice as large.
fn cord_of_one_conductor(example: &Example, code: &'static Nec) -> Answers {
    assert_eq!(example.text("length_counted"), "once");
    assert_eq!(example.quantity::<Meters>("cord_length_m"), "100 m".parse().unwrap());
    let wire = stated(example.quantity_in("resistance_ohm_per_100m", LUMPED.0));
    let keys = ["drop_5A_V", "drop_8A_V", "drop_10A_V", "drop_12A_V"];
    let currents: Vec<Amperes> = example.quantities("currents_A");
    keys.into_iter().zip(currents).fold(Answers::default(), |answers, (key, current)| {
        let printed = drop(code, one_wire(wire, LUMPED.1, current));
        assert_eq!(drop(code, two_wires(wire, LUMPED.1, current)), plus(printed, printed), "the cord itself");
        answers.quantity(key, printed)
    })
}

/// Both conductors of the cord; the 5 V behind the lengths are an interpretation.
fn cord_of_two_conductors(example: &Example, code: &'static Nec) -> Answers {
    let (lengths, resistances) = (example.inside("max_length_ft"), example.inside("resistance_20C_ohm_per_kft"));
    let of = |size: &str| {
        let wire = stated(resistances.quantity_in(size, "ohm/kft"));
        drop(code, two_wires(wire, lengths.quantity_in(size, "ft"), example.quantity("current_A")))
    };
    Answers::default()
        .quantity("implied_drop_10awg_V", of("10 AWG"))
        .quantity("implied_drop_12awg_V", of("12 AWG"))
        .quantity("implied_drop_14awg_V", of("14 AWG"))
        .quantity("implied_drop_16awg_V", of("16 AWG"))
}

fn three_wires(example: &Example, this: Amperes, other: Amperes) -> Segment {
    Segment {
        wire: stated(example.quantity_in("outer_resistance_ohm", LUMPED.0)),
        neutral: Some(stated(example.quantity_in("neutral_resistance_ohm", LUMPED.0))),
        length: LUMPED.1,
        currents: Currents::Legs { this, other },
    }
}

fn unequal_legs(example: &Example, code: &'static Nec) -> Answers {
    let legs: Vec<Amperes> = example.quantities("leg_currents_A");
    let of = |this, other| find(code, example.quantity("source_leg_V"), &[three_wires(example, this, other)], DIRECT);
    Answers::default()
        .quantity("load_a_V", of(legs[0], legs[1]).at_load())
        .quantity("load_b_V", of(legs[1], legs[0]).at_load())
}

fn fed_legs(example: &Example, code: &'static Nec) -> Answers {
    let load: Volts = example.quantity("load_leg_V");
    let legs: Vec<Amperes> = example
        .quantities::<Ohms>("loads_ohm")
        .into_iter()
        // The current is that which drops the leg's voltage over the load.
        .map(|ohms| (1..=100).map(Amperes::from_whole).find(|i| *i * ohms == Drop::from_volts(load)).unwrap())
        .collect();
    let fed = |this, other| sent(load, &find(code, ANY, &[three_wires(example, this, other)], DIRECT));
    Answers::default().quantity("feed_a_V", fed(legs[0], legs[1])).quantity("feed_b_V", fed(legs[1], legs[0]))
}
