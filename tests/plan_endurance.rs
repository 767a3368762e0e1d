//! Hours of a charge and of a tank against published examples and against a plain integration.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::plan::endurance::*;
use loadworthy::plan::{Answer, Known};
use loadworthy::quantity::{Quantity, Ratio, Seconds, Watts};
use proptest::prelude::*;

fn q<T: std::str::FromStr>(text: &str) -> T
where
    T::Err: std::fmt::Debug,
{
    text.parse().unwrap()
}

fn battery(capacity: &str, floor: &str) -> Battery {
    Battery {
        name: "battery".to_owned(),
        capacity: Known::Stated(q(capacity)),
        charge: Known::Stated(Ratio::ONE),
        reserve: Known::Stated(q(floor)),
        shut_off_charge: Known::DoesNotApply,
        efficiency: Known::DoesNotApply,
        idle: Known::DoesNotApply,
        timer: Known::DoesNotApply,
    }
}

fn always(power: &str) -> DayLoad {
    DayLoad { name: "load".to_owned(), power: q(power), on: Known::DoesNotApply }
}

fn told<T>(answer: Answer<T>) -> T {
    match answer {
        Answer::Told(told) => told,
        Answer::CannotTell(questions) => panic!("{questions:?}"),
    }
}

fn hours(battery: &Battery, load: &str) -> f64 {
    told(battery_hours(battery, &[always(load)], 0, Figure::Worst).unwrap()).time.count() as f64 / 3_600_000.0
}

/// The run times of makers and sellers, who leave out losses.
#[test]
fn published_run_times() {
    for (id, capacity, floor, load, expected, tolerance) in [
        ("ba-half-depth-50w", "1200 Wh", "50 %", "50 W", 12.0, 0.001),
        ("ba-2000w-on-200ah full", "2400 Wh", "0 %", "2000 W", 1.2, 0.005),
        ("ba-2000w-on-200ah half", "2400 Wh", "50 %", "2000 W", 0.6, 0.005),
        ("ba-150ah-290w", "1800 Wh", "0 %", "290 W", 6.2, 0.05),
        ("ba-1500w-3h", "4500 Wh", "0 %", "1500 W", 3.0, 0.001),
    ] {
        let found = hours(&battery(capacity, floor), load);
        assert!((found - expected).abs() <= tolerance, "{id}: {found} h");
    }
}

/// A source that switches itself off after 12 hours or at 5 % charge: common practice, no source.
#[test]
fn the_timer_the_shut_off_and_the_reserve_whichever_comes_first() {
    let mut vehicle = battery("100 kWh", "0 %");
    vehicle.timer = Known::Stated(q("12 h"));
    vehicle.shut_off_charge = Known::Stated(q("5 %"));
    let run = |vehicle: &Battery, load: &str| told(battery_hours(vehicle, &[always(load)], 0, Figure::Worst).unwrap());
    let idle = run(&vehicle, "900 W");
    assert_eq!((idle.time, idle.end), (q("12 h"), End::ShutOffTimer));
    // 95 kWh at 9.5 kW are 10 h.
    let full = run(&vehicle, "9.5 kW");
    assert_eq!((full.time, full.end), (q("10 h"), End::Reserve));
    assert_eq!(full.hours.len(), 10);
    assert_eq!(full.hours[4].left, q("50 %"));
    // At the limit of the timer exactly, one step more and one less.
    vehicle.timer = Known::Stated(q("10 h"));
    assert_eq!(run(&vehicle, "9.5 kW").end, End::Reserve);
    vehicle.timer = Known::Stated(q("35999.999 s"));
    assert_eq!(run(&vehicle, "9.5 kW").end, End::ShutOffTimer);
    vehicle.timer = Known::DoesNotApply;
    vehicle.reserve = Known::Stated(q("24 %"));
    assert_eq!(run(&vehicle, "9.5 kW").time, q("8 h"));
    vehicle.charge = Known::Stated(q("20 %"));
    assert_eq!(run(&vehicle, "9.5 kW").time, Seconds::MIN);
}

#[test]
fn losses_and_idle_draw_are_counted() {
    let mut station = battery("1000 Wh", "0 %");
    station.efficiency = Known::Stated(q("90 %"));
    station.idle = Known::Stated(q("10 W"));
    // 90 W at 90 % are 100 W from the battery, 110 W with the idle draw.
    assert!((hours(&station, "90 W") - 1000.0 / 110.0).abs() < 1e-5);
    // Without a load the idle draw alone empties it.
    assert_eq!(told(battery_hours(&station, &[], 0, Figure::Worst).unwrap()).time, q("100 h"));
    station.idle = Known::DoesNotApply;
    assert_eq!(told(battery_hours(&station, &[], 0, Figure::Worst).unwrap()).end, End::BeyondRange);
}

#[test]
fn a_missing_fact_is_asked_for() {
    let mut unknown = battery("1000 Wh", "0 %");
    unknown.idle = Known::NotStated;
    let Answer::CannotTell(questions) = battery_hours(&unknown, &[always("50 W")], 0, Figure::Worst).unwrap() else {
        panic!()
    };
    assert_eq!(questions[0].to_string(), "`battery`: the idle draw is not stated; it decides how long it lasts");
    // A cycle that nobody knows: at worst it is always on, what to expect cannot be told.
    let known = battery("1000 Wh", "0 %");
    let refrigerator = DayLoad { on: Known::NotStated, ..always("100 W") };
    assert_eq!(
        told(battery_hours(&known, std::slice::from_ref(&refrigerator), 0, Figure::Worst).unwrap()).time,
        q("10 h")
    );
    assert!(matches!(battery_hours(&known, &[refrigerator], 0, Figure::Expected).unwrap(), Answer::CannotTell(_)));
}

#[test]
fn duty_cycles_and_hours_of_the_day() {
    let known = battery("1000 Wh", "0 %");
    let third = DayLoad { on: Known::Stated(Cycle::Share(q("25 %"))), ..always("100 W") };
    let run = |load: &DayLoad, hour, figure| {
        told(battery_hours(&known, std::slice::from_ref(load), hour, figure).unwrap()).time
    };
    assert_eq!(run(&third, 0, Figure::Expected), q("40 h"));
    assert_eq!(run(&third, 0, Figure::Worst), q("10 h"));
    let mut evening = [Ratio::MIN; 24];
    evening[18..22].fill(Ratio::ONE);
    let lights = DayLoad { on: Known::Stated(Cycle::ByHour(Box::new(evening))), ..always("125 W") };
    // 500 Wh an evening: the second evening ends it at 22 h of the next day.
    assert_eq!(run(&lights, 18, Figure::Worst), q("28 h"));
    assert_eq!(run(&lights, 0, Figure::Worst), q("46 h"));
}

#[test]
fn what_to_drop_for_a_wished_time() {
    let known = battery("1000 Wh", "0 %");
    let loads = [always("50 W"), always("50 W"), always("150 W")];
    let drop = |wish: &str| told(drop_to_reach(&known, &loads, 0, Figure::Worst, q(wish)).unwrap());
    assert_eq!(drop("4 h"), Some(vec![]));
    assert_eq!(drop("4.001 h"), Some(vec![2]));
    assert_eq!(drop("10.5 h"), Some(vec![1, 2]));
    let mut idle = known.clone();
    idle.idle = Known::Stated(q("100 W"));
    assert_eq!(told(drop_to_reach(&idle, &loads, 0, Figure::Worst, q("11 h")).unwrap()), None);
}

/// The diesel set of 20 kW of a widely reprinted approximate chart: 0.6, 0.9, 1.3 and 1.6 gal/h.
fn engine(tank: u32) -> Engine {
    let point = |load: u16, thousandths: u32| FuelPoint {
        load: Ratio::percent(load),
        per_hour: FuelAmount::thousandths(thousandths, FuelUnit::Gallon),
    };
    Engine {
        name: "generator".to_owned(),
        rated: q("20 kW"),
        gives: q("20 kW"),
        points: vec![point(25, 600), point(50, 900), point(75, 1300), point(100, 1600)],
        tank: Known::Stated(FuelAmount::thousandths(tank, FuelUnit::Gallon)),
        reserve: Known::DoesNotApply,
    }
}

#[test]
fn fuel_is_interpolated_between_the_points_and_never_beyond() {
    let run = |engine: &Engine, load: &str| told(fuel_hours(engine, &[always(load)], 0, Figure::Worst).unwrap());
    // At a point, halfway between two, and at full load.
    for (load, time) in [("10 kW", "10 h"), ("12.5 kW", "29454.545 s"), ("20 kW", "20250 s"), ("5 kW", "15 h")] {
        let found = run(&engine(9000), load);
        assert_eq!((found.endurance.time, found.at_least), (q(time), false), "{load}");
    }
    // Below the least point it lasts at least as long as at that point.
    let light = run(&engine(9000), "1 kW");
    assert_eq!((light.endurance.time, light.at_least), (q("15 h"), true));
    assert!(run(&engine(9000), "4.999999 kW").at_least);
    // Above the greatest point nothing is known.
    let mut partial = engine(9000);
    partial.points.pop();
    assert!(!run(&partial, "15 kW").at_least);
    assert!(matches!(
        fuel_hours(&partial, &[always("15.000001 kW")], 0, Figure::Worst).unwrap(),
        Answer::CannotTell(_)
    ));
    // Nor above what the engine gives.
    let mut high = engine(9000);
    high.gives = q("17 kW");
    assert!(fuel_hours(&high, &[always("17 kW")], 0, Figure::Worst).is_ok());
    assert_eq!(
        fuel_hours(&high, &[always("17.000001 kW")], 0, Figure::Worst).unwrap_err().to_string(),
        "the loads draw 17000.001 W in some hour, `generator` gives 17000 W"
    );
    let mut reserve = engine(9000);
    reserve.reserve = Known::Stated(q("10 %"));
    assert_eq!(run(&reserve, "10 kW").endurance.time, q("9 h"));
    reserve.reserve = Known::NotStated;
    assert!(matches!(fuel_hours(&reserve, &[always("10 kW")], 0, Figure::Worst).unwrap(), Answer::CannotTell(_)));
}

/// `fu-propane-cylinder`: a generator supplier's note on propane use; rule-of-thumb factors.
#[test]
fn fu_propane_cylinder() {
    let mut set = engine(1);
    set.points =
        vec![FuelPoint { load: Ratio::percent(50), per_hour: FuelAmount::thousandths(50_000_000, FuelUnit::Btu) }];
    set.tank = Known::Stated(FuelAmount::thousandths(441_600_000, FuelUnit::Btu));
    let found = told(fuel_hours(&set, &[always("10 kW")], 0, Figure::Worst).unwrap());
    assert!((found.endurance.time.count() as f64 / 3_600_000.0 - 8.8).abs() <= 0.05);
}

#[test]
fn inputs_that_cannot_be_are_errors() {
    let mut wrong = engine(1000);
    wrong.tank = Known::Stated(FuelAmount::thousandths(1000, FuelUnit::Liter));
    assert_eq!(
        fuel_hours(&wrong, &[], 0, Figure::Worst).unwrap_err().to_string(),
        "the tank of `generator` is given in L and its use in gal; write both in one unit"
    );
    wrong.points.reverse();
    assert!(matches!(fuel_hours(&wrong, &[], 0, Figure::Worst), Err(EnduranceError::PointsNotRising { .. })));
    let mut over = battery("1 kWh", "100.0001 %");
    assert!(matches!(battery_hours(&over, &[], 0, Figure::Worst), Err(EnduranceError::AboveWhole { .. })));
    over.reserve = Known::DoesNotApply;
    over.efficiency = Known::Stated(Ratio::MIN);
    assert!(matches!(battery_hours(&over, &[], 0, Figure::Worst), Err(EnduranceError::NoEfficiency { .. })));
    assert_eq!(battery_hours(&battery("1 kWh", "0 %"), &[], 24, Figure::Worst), Err(EnduranceError::NoSuchHour(24)));
    let cycle = DayLoad { on: Known::Stated(Cycle::Share(q("101 %"))), ..always("1 W") };
    assert!(matches!(
        battery_hours(&battery("1 kWh", "0 %"), &[cycle], 0, Figure::Worst),
        Err(EnduranceError::AboveWhole { .. })
    ));
}

#[test]
fn derating_adds_both_losses() {
    // A portable set of 3.3 kW: 3 % per 500 m above 1000 m and 3 % per 5 °C above 40 °C (operator's manual, page 20).
    let loss = |per: &str, above: &str| Loss { share: q("3 %"), per: q(per), above: q(above) };
    let heat = Loss { share: q("3 %"), per: q("5 °C"), above: q("40 °C") };
    let derating = Derating { altitude: Known::Stated(loss("500 m", "1000 m")), temperature: Known::Stated(heat) };
    let at =
        |altitude: &str, ambient: &str| told(derated("set", q("3.3 kW"), &derating, q(altitude), q(ambient)).unwrap());
    assert_eq!(at("1000 m", "40 °C"), q("3.3 kW"));
    assert_eq!(at("2000 m", "45 °C"), q::<Watts>("3003 W"));
    let unknown = Derating { temperature: Known::NotStated, ..derating };
    assert!(matches!(derated("set", q("3.3 kW"), &unknown, q("0 m"), q("20 °C")).unwrap(), Answer::CannotTell(_)));
}

proptest! {
    /// Against an integration in floating point, hour by hour.
    #[test]
    fn a_charge_lasts_as_long_as_a_plain_integration_says(
        capacity in 100u32..20_000, charge in 0u32..=100, reserve in 0u32..=50, efficiency in 50u32..=100, idle in 0u32..100,
        shares in prop::collection::vec(0u32..=100, 24), power in 1u32..5000, start in 0u8..24,
    ) {
        let percent = |value: u32| q::<Ratio>(&format!("{value} %"));
        let mut known = battery(&format!("{capacity} Wh"), "0 %");
        known.charge = Known::Stated(percent(charge));
        known.reserve = Known::Stated(percent(reserve));
        known.efficiency = Known::Stated(percent(efficiency));
        known.idle = Known::Stated(q(&format!("{idle} W")));
        let hours: [Ratio; 24] = std::array::from_fn(|hour| percent(shares[hour]));
        let load = DayLoad { on: Known::Stated(Cycle::ByHour(Box::new(hours))), ..always(&format!("{power} W")) };
        let found = told(battery_hours(&known, &[load], start, Figure::Expected).unwrap());
        let mut left = f64::from(capacity) * f64::from(charge.saturating_sub(reserve)) / 100.0;
        let (mut time, mut hour) = (0.0, usize::from(start));
        loop {
            let rate = f64::from(power) * f64::from(shares[hour % 24]) / f64::from(efficiency) + f64::from(idle);
            if rate > left {
                time += left / rate;
                break;
            }
            left -= rate;
            time += 1.0;
            hour += 1;
            if time > 24_000.0 {
                break;
            }
        }
        let found = found.time.count() as f64 / 3_600_000.0;
        prop_assert!((found - time.min(24_000.0)).abs() < 1e-3, "{found} {time}");
    }
}
