//! The start order against all permutations, and the voltage against complex arithmetic.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use loadworthy::plan::dip::{DipLoad, Impedance, Sag};
use loadworthy::plan::order::{
    Automatic, LimitBroken, Order, OrderError, Source, Start, Starter, automatic, has_order, judge, judge_order, order,
};
use loadworthy::plan::{Draw, Known, Verdict};
use loadworthy::quantity::{Amperes, Ohms, PowerFactor, Ratio, Volts};
use loadworthy::trade::Leg;
use proptest::prelude::*;

fn q<T: std::str::FromStr>(text: &str) -> T
where
    T::Err: std::fmt::Debug,
{
    text.parse().unwrap()
}

fn load(name: &str, leg: Leg, running: &str) -> Starter {
    let volts = Volts::from_whole(if leg == Leg::Both { 240 } else { 120 });
    Starter::without_surge(name, leg, volts, Draw::from_current(q(running), volts, PowerFactor::UNITY))
}

fn motor(name: &str, leg: Leg, running: &str, start: &str) -> Starter {
    let start = Start { current: q(start), time: Known::Stated(q("1 s")), factor: None };
    Starter { start: Known::Stated(start), ..load(name, leg, running) }
}

fn source(continuous: &str, surge: &str) -> Source {
    Source {
        continuous: Known::Stated(q(continuous)),
        surge: Known::Stated(q(surge)),
        surge_time: Known::Stated(q("3 s")),
        ..Source::new("source", q("120 V"))
    }
}

#[test]
fn the_largest_motor_first_is_found_not_assumed() {
    // A dip limit on the small motor's neighbor forces the large one first; a time limit forces nothing.
    let loads = [motor("small", Leg::A, "2 A", "6 A"), motor("large", Leg::A, "8 A", "38 A")];
    let Order::Found(steps) = order(&source("20 A", "40 A"), &loads, &[]).unwrap() else { panic!() };
    assert_eq!(steps[0].starting, [1]);
    assert_eq!(steps[0].current, [q("38 A"), Amperes::ZERO]);
    assert_eq!(steps[1].current, [q("14 A"), Amperes::ZERO]);
    assert_eq!(steps[1].share, Some(q("50 %")));
    // The other way round reaches exactly 40 A: at the limit it holds, one step over it does not.
    assert_eq!(judge_order(&source("20 A", "40 A"), &loads, &[], &[0, 1]).unwrap().verdict, Verdict::Holds);
    let judged = judge_order(&source("20 A", "39.999999 A"), &loads, &[], &[0, 1]).unwrap();
    assert_eq!((judged.verdict, judged.first_failing), (Verdict::Fails, Some(1)));
    assert_eq!(judged.steps[1].broken, [LimitBroken::Surge { leg: Leg::A, over: q("0.001 mA") }]);
}

#[test]
fn an_order_that_ends_with_the_large_motor_when_a_small_one_cannot_bear_its_dip() {
    let cord = Impedance::Parts { resistance: q("0.5 ohm"), reactance: Ohms::ZERO };
    let mut source = source("40 A", "60 A");
    source.impedance = Known::Stated(cord);
    let mut large = motor("large", Leg::A, "8 A", "30 A");
    let mut small = motor("small", Leg::A, "2 A", "4 A");
    (large.factor, small.factor) = (Some(PowerFactor::UNITY), Some(PowerFactor::UNITY));
    small.dip = Known::Stated(q("5 %"));
    // The small load does not bear the large motor's start, so it must come after it.
    let Order::Found(steps) = order(&source, &[small.clone(), large.clone()], &[]).unwrap() else { panic!() };
    assert_eq!(steps[0].starting, [1]);
    // And where it already runs, there is no order.
    assert!(matches!(order(&source, &[large], &[small]).unwrap(), Order::Impossible(stuck)
        if matches!(&stuck[0].broken[..], [LimitBroken::Dip { load, .. }] if load == "small")));
}

#[test]
fn without_a_surge_rating_a_motor_start_cannot_be_told() {
    let mut source = source("20 A", "40 A");
    source.surge = Known::NotStated;
    let pump = motor("pump", Leg::A, "8 A", "38 A");
    let Order::CannotTell(_, questions) = order(&source, std::slice::from_ref(&pump), &[]).unwrap() else { panic!() };
    assert_eq!(
        questions[0].to_string(),
        "`source`: the surge current is not stated; it decides whether the start holds"
    );
    // A start within the continuous rating needs no surge.
    let fan = motor("fan", Leg::A, "2 A", "20 A");
    assert!(matches!(order(&source, &[fan], &[]).unwrap(), Order::Found(_)));
    // A load that nobody read the nameplate of.
    let unread = Starter { start: Known::NotStated, ..load("unread", Leg::A, "5 A") };
    assert!(matches!(order(&source, &[unread], &[]).unwrap(), Order::CannotTell(..)));
    // How long the start lasts decides too.
    source.surge = Known::Stated(q("40 A"));
    for (time, verdict) in [
        (Known::Stated(q("3 s")), Verdict::Holds),
        (Known::Stated(q("3.001 s")), Verdict::Fails),
        (Known::NotStated, Verdict::CannotTell),
    ] {
        let start = Start { current: q("38 A"), time, factor: None };
        let pump = Starter { start: Known::Stated(start), ..pump.clone() };
        assert_eq!(judge(&source, &[pump], &[], &[], &[0]).unwrap().verdict(), verdict);
    }
}

/// Magnitudes of a house with two air conditioners on a 240 V source limited to 40 A (common practice, no source):
/// a second one that starts beside a first that runs peaks near 9 kW, and both run within the limit.
#[test]
fn two_automatic_compressors_are_checked_together() {
    let mut source = source("40 A", "60 A");
    source.continuous = Known::Stated(q("40 A"));
    let compressor = |name: &str| Starter { automatic: Automatic::ByItself, ..motor(name, Leg::Both, "8 A", "31 A") };
    let loads = [compressor("upstairs"), compressor("downstairs"), load("house", Leg::A, "4 A")];
    assert!(matches!(order(&source, &loads, &[]).unwrap(), Order::Found(_)));
    let together = automatic(&source, &loads, &[]).unwrap();
    assert!(together.alone.is_empty());
    // 31 + 31 + 4 A on leg A: 6 A over the surge.
    assert_eq!(together.pairs.len(), 1);
    assert_eq!(together.pairs[0].broken[0], LimitBroken::Surge { leg: Leg::A, over: q("6 A") });
    assert_eq!(together.verdict(), Verdict::Fails);
    // When power returns only the two come on by themselves: 62 A, still 2 A over.
    assert_eq!(together.pickup.unwrap().broken[0], LimitBroken::Surge { leg: Leg::A, over: q("2 A") });
}

#[test]
fn inputs_that_cannot_be_are_errors() {
    let pump = motor("pump", Leg::A, "8 A", "38 A");
    assert_eq!(
        order(&source("20 A", "19 A"), &[], &[]).unwrap_err().to_string(),
        "source `source` carries 19 A for a start and 20 A for hours; the first cannot be less"
    );
    assert_eq!(
        judge_order(&source("20 A", "40 A"), std::slice::from_ref(&pump), &[], &[0, 0]),
        Err(OrderError::NotToStart { index: 0 })
    );
    let dead = Starter { rated: Volts::MIN, ..pump };
    assert!(matches!(order(&source("20 A", "40 A"), &[dead], &[]), Err(OrderError::NoVoltage { .. })));
}

fn permutations(left: &[usize], done: &mut Vec<usize>, visit: &mut impl FnMut(&[usize])) {
    if left.is_empty() {
        visit(done);
    }
    for (at, index) in left.iter().enumerate() {
        let mut rest = left.to_vec();
        rest.remove(at);
        done.push(*index);
        permutations(&rest, done, visit);
        done.pop();
    }
}

fn starter() -> impl Strategy<Value = Starter> {
    let leg = prop_oneof![Just(Leg::A), Just(Leg::B), Just(Leg::Both)];
    (leg, 1i64..80, 1i64..60, 0i64..250, prop::option::of(300_000i64..=1_000_000), 0usize..6).prop_map(
        |(leg, running, per_volt, extra, factor, kind)| {
            let volts = Volts::from_whole(if leg == Leg::Both { 240 } else { 120 });
            let current = |tenths: i64| Amperes::new(tenths * 100_000).unwrap();
            let factor = factor.and_then(PowerFactor::from_millionths);
            let start = Start { current: current(running + extra), time: Known::Stated(q("1 s")), factor };
            Starter {
                factor,
                start: if kind == 0 { Known::DoesNotApply } else { Known::Stated(start) },
                dip: if kind < 4 {
                    Known::Stated(Ratio::percent(u16::try_from(per_volt).unwrap()))
                } else {
                    Known::DoesNotApply
                },
                ..Starter::without_surge(
                    "load",
                    leg,
                    volts,
                    Draw::from_current(current(running), volts, PowerFactor::UNITY),
                )
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn an_order_is_found_exactly_where_some_permutation_holds(
        loads in prop::collection::vec(starter(), 1..6),
        continuous in 50i64..250, extra in 0i64..250, r in 0i64..1500, x in 0i64..1500,
    ) {
        let mut source = source("20 A", "40 A");
        source.continuous = Known::Stated(Amperes::new(continuous * 100_000).unwrap());
        source.surge = Known::Stated(Amperes::new((continuous + extra) * 100_000).unwrap());
        let ohms = |milliohms: i64| q::<Ohms>(&format!("{milliohms} mohm"));
        source.impedance = Known::Stated(Impedance::Parts { resistance: ohms(r), reactance: ohms(x) });
        let mut any = false;
        permutations(&(0..loads.len()).collect::<Vec<_>>(), &mut Vec::new(), &mut |order| {
            any |= judge_order(&source, &loads, &[], order).unwrap().verdict == Verdict::Holds;
        });
        prop_assert_eq!(has_order(&source, &loads, &[]).unwrap(), any);
        match order(&source, &loads, &[]).unwrap() {
            Order::Found(steps) => {
                prop_assert!(any);
                let order: Vec<usize> = steps.iter().map(|step| step.starting[0]).collect();
                prop_assert_eq!(judge_order(&source, &loads, &[], &order).unwrap().steps, steps);
            }
            Order::Impossible(_) => prop_assert!(!any),
            Order::CannotTell(..) => prop_assert!(false),
        }
    }

    /// Against complex arithmetic in floating point: the voltage is never above it, nor more than 2 mV below.
    #[test]
    fn the_voltage_agrees_with_complex_arithmetic(
        r in 0u32..3000, x in 0u32..3000, loads in prop::collection::vec((1u32..600, 1u32..=1_000_000), 0..6),
    ) {
        let ohms = |milliohms: u32| q::<Ohms>(&format!("{milliohms} mohm"));
        let mut sag = Sag::new(Impedance::Parts { resistance: ohms(r), reactance: ohms(x) });
        let (mut re, mut im) = (1.0_f64, 0.0_f64);
        for (tenths, factor) in loads {
            let factor_exact = PowerFactor::from_millionths(i64::from(factor)).unwrap();
            let current = Amperes::new(i64::from(tenths) * 100_000).unwrap();
            sag = sag.with(DipLoad { current, rated: q("120 V"), factor: Some(factor_exact) }).unwrap();
            let cos = f64::from(factor) / 1e6;
            let (g, b) = (f64::from(tenths) / 10.0 / 120.0 * cos, f64::from(tenths) / 10.0 / 120.0 * (1.0 - cos * cos).sqrt());
            let (r, x) = (f64::from(r) / 1000.0, f64::from(x) / 1000.0);
            re += r * g + x * b;
            im += x * g - r * b;
        }
        let expected = 120_000.0 / re.hypot(im);
        let found = sag.voltage(q("120 V")).millivolts() as f64;
        prop_assert!(found <= expected + 1e-3 && found > expected - 2.0, "{found} {expected}");
    }
}

/// `dip-10hp-single-phase`, Electric Power Distribution System Engineering: the author multiplies the starting current
/// by the impedance behind a fault current of 1438 A, at constant current. An impedance that is held by the sagging
/// motor draws less: the dip is 0.7302 / (1 + 0.0061) V.
#[test]
fn dip_10hp_single_phase() {
    let impedance = Impedance::of_fault_current(q("1438 A"), q("7200 V")).unwrap();
    // 6.3 kVA/hp and 10 hp at 7200 V.
    let start = DipLoad { current: q("8.75 A"), rated: q("7200 V"), factor: None };
    let sag = Sag::new(impedance).with(start).unwrap();
    let left = sag.voltage(q("120 kV")).millivolts() as f64 / 1e6;
    let dip_at_constant_current = 120.0 / left * (120.0 - left);
    assert!((dip_at_constant_current - 0.730181).abs() < 1e-5, "{dip_at_constant_current}");
}

/// `dip-generator-motor-start-parallel-load`, Handbook of Electrical Engineering for practitioners: 1 per unit is 1 V,
/// 1 A and 1 ohm, times a thousand.
#[test]
fn dip_generator_motor_start_parallel_load() {
    let generator = Impedance::Parts { resistance: q("0.02 ohm"), reactance: q("0.25 ohm") };
    let parallel = |sag: Sag, resistance: f64, reactance: f64| {
        // A reactance alone: the least power factor there is.
        let of = |ohms: f64, factor: i64| DipLoad {
            current: Amperes::new((1e9 / ohms).round() as i64).unwrap(),
            rated: q("1000 V"),
            factor: PowerFactor::from_millionths(factor),
        };
        sag.with(of(resistance, 1_000_000)).unwrap().with(of(reactance, 1)).unwrap()
    };
    let standing = parallel(Sag::new(generator), 2.2323, 4.188);
    let starting = parallel(standing, 3.8244, 0.9875);
    let share = starting.restored(&standing).count_of_millionths() as f64 / 1e6;
    assert!((share - 0.804).abs() <= 0.0003, "{share}");
    assert!(((1.0 - share) * 100.0 - 19.6).abs() <= 0.04);
}
