//! Motors, dwellings, sources and run times: the `mo`, `lr`, `dw`, `so`, `ba` and `fu` examples.

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, Covering};
use loadworthy::code::Nec;
use loadworthy::plan::choose::{Choice, Limits, Load, Placement, choose};
use loadworthy::plan::demand::{Climate, Dwelling, DwellingDemand, ElectricHeat, optional_dwelling};
use loadworthy::plan::dip::{DipLoad, Impedance, Sag};
use loadworthy::plan::endurance::{Battery, DayLoad, Figure, battery_hours};
use loadworthy::plan::motor::{
    CodeLetter, Horsepower, Method, Motor, MotorDevice, OtherLoad, Phase, ProtectedMotor, StartingCurrent,
    compressor_conductor, feeder_conductor, feeder_device, full_load_current, motor_conductor, motor_device,
    starting_current,
};
use loadworthy::plan::order::{Source, Start, Starter, judge_order};
use loadworthy::plan::{Answer, Draw, Known};
use loadworthy::quantity::{
    Amperes, Ohms, PowerFactor, Quantity, Ratio, Rounding, Scaled, VoltAmperes, Volts, WattHours, Watts,
};
use loadworthy::size::ampacity::of_ampacity;
use loadworthy::trade::{DeviceKind, Insulation, Leg, Material, TerminalMark, WireSize};
use rust_decimal::Decimal;

use crate::harness::{Answers, Claim, Example};

pub(crate) const CLAIMS: &[(&str, Claim)] = &[
    ("mo-feeder-four-5hp", four_alike),
    ("mo-7.5hp-230v-3ph", one_motor),
    ("mo-10hp-460v", one_motor),
    ("mo-feeder-20hp-10hp-460v", feeder),
    ("mo-feeder-208v-10hp-7.5hp", feeder),
    ("cl-motor-compressor-plus-fan", compressor_and_fan),
    ("mo-feeder-25hp-two-30hp-annex-d8", feeder_of_annex_d8),
    ("lr-20hp-460v-code-g", code_letter),
    ("dw-annex-d2a", dwelling),
    ("dw-annex-d2b", dwelling),
    ("dw-annex-d2c", dwelling),
    ("dw-optional-2800ft2", dwelling),
    ("so-leg-overload-then-moved", two_legs),
    ("ba-half-depth-50w", run_time),
    ("ba-150ah-290w", run_time),
    ("ba-2000w-on-200ah", full_and_half),
    ("dip-generator-motor-start-parallel-load", standing_and_starting),
    ("so-portable-sum", all_together),
    ("so-portable-with-motor-start", all_together),
];

fn shown(current: Scaled<Amperes>) -> Amperes {
    current.rounded(Rounding::Up).unwrap()
}

fn three_phase(output: &str, volts: Volts) -> Amperes {
    full_load_current(Phase::Three, output.parse().unwrap(), volts).unwrap().value
}

fn breaker(code: &Nec, current: Amperes) -> Amperes {
    motor_device(code, ProtectedMotor::SquirrelCage, MotorDevice::InverseTimeBreaker, current).unwrap()
}

/// The smallest copper conductor of an ampacity, by the column that the example names.
fn copper(example: &Example, code: &Nec, least: Scaled<Amperes>) -> WireSize {
    let thwn2 = Covering::Insulation(Insulation::Thwn2);
    let terminals = if example.number("column_C") == Decimal::from(60) { TerminalMark::C60 } else { TerminalMark::C75 };
    let base = Conditions::base(Material::Copper, "14 AWG".parse().unwrap(), thwn2);
    of_ampacity(code, &Conditions { terminals, ..base }, least, &mut Silent).unwrap().value
}

fn compressor_and_fan(example: &Example, code: &'static Nec) -> Answers {
    let compressor = compressor_conductor(example.quantity("compressor_rated_load_A"), None).unwrap();
    let least = compressor + Scaled::whole(example.quantity("fan_A"));
    Answers::default().quantity("minimum_ampacity_A", shown(least)).text("copper", copper(example, code, least))
}

fn four_alike(example: &Example, code: &'static Nec) -> Answers {
    let current = full_load_current(Phase::Single, "5 hp".parse().unwrap(), Volts::from_whole(230)).unwrap().value;
    example.agrees("table_flc_A", current);
    let least = feeder_conductor(&[current; 4], OtherLoad::default()).unwrap();
    Answers::default().quantity("feeder_ampacity_A", shown(least)).text("copper", copper(example, code, least))
}

/// The text names the motor: `7.5 hp, 230 V, three-phase`.
fn one_motor(example: &Example, code: &'static Nec) -> Answers {
    let parts: Vec<&str> = example.text("motor").split(", ").collect();
    let current = three_phase(parts[0], parts[1].parse().unwrap());
    example.agrees("table_flc_A", current);
    let least = motor_conductor(current).unwrap();
    let answers = Answers::default().quantity("branch_ampacity_A", shown(least));
    if !example.expected().contains_key("max_breaker_A") {
        return answers;
    }
    answers.quantity("max_breaker_A", breaker(code, current)).text("copper", copper(example, code, least))
}

fn feeder(example: &Example, code: &'static Nec) -> Answers {
    let volts: Volts = example.quantity("source_V");
    let motors = example.each("motors").into_iter().map(|motor| {
        let current = three_phase(&format!("{} hp", motor.number("hp")), volts);
        motor.agrees("table_flc_A", current);
        current
    });
    let motors: Vec<Amperes> = motors.collect();
    let least = feeder_conductor(&motors, OtherLoad::default()).unwrap();
    let answers = Answers::default().quantity("feeder_ampacity_A", shown(least));
    if !example.expected().contains_key("feeder_breaker_max_A") {
        return answers;
    }
    let pairs: Vec<_> = motors.iter().map(|current| (*current, breaker(code, *current))).collect();
    answers
        .text("copper", copper(example, code, least))
        .quantity("branch_breaker_20hp_A", pairs[0].1)
        .quantity("branch_breaker_10hp_A", pairs[1].1)
        .quantity("feeder_breaker_max_A", feeder_device(code, DeviceKind::Breaker, &pairs).unwrap())
}

fn feeder_of_annex_d8(example: &Example, code: &'static Nec) -> Answers {
    let volts: Volts = example.quantity("source_V");
    let (squirrel, wound) = (three_phase("25 hp", volts), three_phase("30 hp", volts));
    let fuse = |motor, current| motor_device(code, motor, MotorDevice::NontimeDelayFuse, current).unwrap();
    let fuses = (fuse(ProtectedMotor::SquirrelCage, squirrel), fuse(ProtectedMotor::WoundRotor, wound));
    let pairs = [(squirrel, fuses.0), (wound, fuses.1), (wound, fuses.1)];
    let feeder = feeder_conductor(&[squirrel, wound, wound], OtherLoad::default()).unwrap();
    Answers::default()
        .quantity("branch_25hp_A", shown(motor_conductor(squirrel).unwrap()))
        .quantity("branch_30hp_A", shown(motor_conductor(wound).unwrap()))
        .quantity("feeder_ampacity_A", shown(feeder))
        .quantity("fuse_25hp_A", fuses.0)
        .quantity("fuse_30hp_A", fuses.1)
        .quantity("feeder_fuse_max_A", feeder_device(code, DeviceKind::Fuse, &pairs).unwrap())
}

fn code_letter(example: &Example, _: &'static Nec) -> Answers {
    let letter = CodeLetter::new(example.text("code_letter").chars().next().unwrap()).unwrap();
    let most = letter.most_per_horsepower().unwrap().value;
    let horsepower = example.number("hp");
    let motor = Motor {
        output: Some(format!("{horsepower} hp").parse::<Horsepower>().unwrap()),
        code_letter: Some(letter),
        method: Some(Method::AcrossTheLine),
        ..Motor::new("motor", Phase::Three, example.quantity("source_V"))
    };
    let Answer::Told(StartingCurrent { current, .. }) = starting_current(&motor).unwrap() else { panic!("asked") };
    let whole = VoltAmperes::from_count(most.count() * i128::try_from(horsepower).unwrap()).unwrap();
    Answers::default().quantity("locked_rotor_kVA", whole).quantity("locked_rotor_A", current)
}

/// A dwelling by the optional method; the keys name its parts.
fn dwelling(example: &Example, _: &'static Nec) -> Answers {
    let volts: Volts = example.quantity("source_V");
    let nameplates = ["range_kW", "water_heater_kW", "dishwasher_kW", "dryer_kW", "cooktop_kW", "washer_dryer_kW"];
    let apparent = |key: &str| example.quantity_in::<VoltAmperes>(key, "kVA");
    let mut appliances: Vec<_> = nameplates.iter().filter(|key| example.has(key)).map(|key| apparent(key)).collect();
    if example.has("ovens_kW") {
        appliances.extend(example.quantities_in::<VoltAmperes>("ovens_kW", "kVA"));
    }
    let mut climate = Vec::new();
    if example.has("heating_kW") {
        let units = if example.has("heating_units") { ElectricHeat::FourOrMore } else { ElectricHeat::FewerThanFour };
        climate.push(Climate::Electric(apparent("heating_kW"), units));
    }
    if example.has("air_conditioner_A") {
        climate.push(Climate::AirConditioning(volts * example.quantity::<Amperes>("air_conditioner_A")));
    }
    if example.has("room_ac_A") {
        let count = i128::try_from(example.number("room_air_conditioners")).unwrap();
        let one = volts * example.quantity::<Amperes>("room_ac_A");
        climate.push(Climate::AirConditioning(VoltAmperes::from_count(one.count() * count).unwrap()));
    }
    if example.has("heat_pump_A") {
        let pump = volts * example.quantity::<Amperes>("heat_pump_A");
        climate.push(Climate::HeatPumpWithHeat { pump, heat: apparent("supplementary_heat_kW") });
    }
    let count = |key| u32::try_from(example.number(key)).unwrap();
    let of = Dwelling {
        square_feet: count("floor_area_ft2"),
        small_appliance_circuits: count("small_appliance_circuits"),
        laundry_circuits: count("laundry_circuits"),
        appliances,
        climate,
    };
    let DwellingDemand { general, blocks, climate, demand, current, .. } = optional_dwelling(&of, volts).unwrap();
    let general_demand = blocks.iter().fold(VoltAmperes::MIN, |sum, part| sum.checked_add(part.demand).unwrap());
    let mut answers = Answers::default()
        .quantity("general_VA", general)
        .quantity("general_demand_VA", general_demand)
        .quantity("net_load_VA", demand)
        .quantity("service_A", current.unwrap());
    for part in climate {
        let key = match part.what {
            "air conditioning" => "air_conditioning_VA",
            "heat pump" => "heat_pump_VA",
            "supplementary heat" => "supplementary_VA",
            _ => "heating_VA",
        };
        answers = answers.quantity(key, part.demand);
    }
    answers
}

fn two_legs(example: &Example, _: &'static Nec) -> Answers {
    let volts = Volts::from_whole(120);
    let currents: Vec<Amperes> = example.quantities("loads_A");
    let draw = |current: &Amperes| Draw::from_current(*current, volts, PowerFactor::UNITY);
    let loads: Vec<Load> = currents.iter().map(|current| Load::new("load", draw(current), Placement::Either)).collect();
    let on = |limits: &Limits| match choose(&loads, limits).unwrap() {
        Choice::Found(chosen) => chosen.on,
        other => panic!("{other:?}"),
    };
    let limit: Amperes = example.quantity("leg_limit_A");
    let (one, both) = (on(&Limits::single_leg(limit)), on(&Limits::per_leg(limit)));
    let yes = |all: bool| if all { "yes" } else { "no" };
    let leg = |leg: Leg| {
        both.iter()
            .filter(|(_, of)| *of == leg)
            .fold(Amperes::ZERO, |sum, (load, _)| sum.checked_add(currents[*load]).unwrap())
    };
    let mut legs = [leg(Leg::A), leg(Leg::B)];
    legs.sort();
    Answers::default()
        .quantity("both_on_one_leg_A", currents[0].checked_add(currents[1]).unwrap())
        .text("one_leg_holds", yes(one.len() == 2))
        .quantity("split_leg_1_A", legs[0])
        .quantity("split_leg_2_A", legs[1])
        .text("split_holds", yes(both.len() == 2))
}

/// The most that the source gives while the loads start one after the other, the motor last.
fn all_together(example: &Example, _: &'static Nec) -> Answers {
    // At 100 V every number of watts is a current without rounding.
    let volts = Volts::from_whole(100);
    let powers: Vec<Watts> = example.quantities(if example.has("loads_W") { "loads_W" } else { "running_W" });
    let load = |power: &Watts| {
        let draw = Draw::from_power(*power, volts, PowerFactor::UNITY).unwrap();
        Starter { dip: Known::DoesNotApply, ..Starter::without_surge("load", Leg::A, volts, draw) }
    };
    let mut loads: Vec<Starter> = powers.iter().map(load).collect();
    if example.has("largest_start_W") {
        let start: Watts = example.quantity("largest_start_W");
        let current = Draw::from_power(start, volts, PowerFactor::UNITY).unwrap().current(Rounding::Up);
        let motor = Starter::without_surge("motor", Leg::A, volts, Draw::NONE);
        let start = Known::Stated(Start { current, time: Known::DoesNotApply, factor: None });
        loads.push(Starter { start, dip: Known::DoesNotApply, ..motor });
    }
    let order: Vec<usize> = (0..loads.len()).collect();
    let judged = judge_order(&Source::new("set", volts), &loads, &[], &order).unwrap();
    let most = judged.steps.iter().map(|step| step.total).max().unwrap();
    Answers::default().number("required_W", Decimal::from(i64::try_from(most.count() / 1_000_000_000).unwrap()))
}

/// Per unit: 1 is 1000 V, 1000 A and 1 ohm.
fn standing_and_starting(example: &Example, _: &'static Nec) -> Answers {
    let impedance: Vec<Volts> = example.quantities("generator_impedance_pu");
    let ohms = |volts: &Volts| format!("{} ohm", Decimal::new(volts.millivolts(), 3)).parse::<Ohms>().unwrap();
    let [resistance, reactance] = [ohms(&impedance[0]), ohms(&impedance[1])];
    let with = |sag: Sag, key: &str, factor: i64| {
        let current = Decimal::from(1000) / example.number(key);
        let current = format!("{} A", current.round_dp(6)).parse().unwrap();
        sag.with(DipLoad { current, rated: Volts::from_whole(1000), factor: PowerFactor::from_millionths(factor) })
            .unwrap()
    };
    // A reactance alone has the least power factor that there is.
    let parallel = |sag, name: &str| {
        with(
            with(sag, &format!("{name}_parallel_resistance_pu"), 1_000_000),
            &format!("{name}_parallel_reactance_pu"),
            1,
        )
    };
    let standing = parallel(Sag::new(Impedance::Parts { resistance, reactance }), "standing");
    let left = parallel(standing, "motor_start").restored(&standing);
    let share = Decimal::new(left.count_of_millionths(), 6);
    Answers::default().number("terminal_V_pu", share).number("dip_percent", (Decimal::ONE - share) * Decimal::from(100))
}

/// A battery without losses, down to a depth.
fn hours(example: &Example, depth: Ratio) -> (WattHours, Decimal) {
    let capacity: WattHours =
        format!("{} Wh", example.number("battery_V") * example.number("capacity_Ah")).parse().unwrap();
    let reserve = Ratio::from_count(Ratio::ONE.count() - depth.count()).unwrap();
    let battery = Battery {
        name: "battery".to_owned(),
        capacity: Known::Stated(capacity),
        charge: Known::Stated(Ratio::ONE),
        reserve: Known::Stated(reserve),
        shut_off_charge: Known::DoesNotApply,
        efficiency: Known::DoesNotApply,
        idle: Known::DoesNotApply,
        timer: Known::DoesNotApply,
    };
    let load = DayLoad { name: "load".to_owned(), power: example.quantity("load_W"), on: Known::DoesNotApply };
    let Answer::Told(told) = battery_hours(&battery, &[load], 0, Figure::Worst).unwrap() else { panic!("asked") };
    let usable = (capacity * depth).rounded(Rounding::Down).unwrap();
    (usable, Decimal::from(i64::try_from(told.time.count()).unwrap()) / Decimal::from(3_600_000))
}

fn run_time(example: &Example, _: &'static Nec) -> Answers {
    let depth = if example.has("usable_fraction") { example.factor("usable_fraction") } else { Ratio::ONE };
    let (usable, time) = hours(example, depth);
    let answers = Answers::default().number("runtime_h", time);
    if example.expected().contains_key("usable_Wh") {
        return answers.number(
            "usable_Wh",
            Decimal::from(i64::try_from(usable.count() / 3_600_000_000_000_000_000_000).unwrap()),
        );
    }
    answers
}

fn full_and_half(example: &Example, _: &'static Nec) -> Answers {
    let half = hours(example, example.factor("usable_fraction")).1;
    Answers::default().number("runtime_full_h", hours(example, Ratio::ONE).1).number("runtime_half_depth_h", half)
}
