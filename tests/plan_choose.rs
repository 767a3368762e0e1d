//! The choice of loads against exhaustive enumeration, written independently and without any bound.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use std::num::NonZeroU32;

use loadworthy::plan::choose::{
    Amount, Choice, ChooseError, Chosen, LegLimit, LimitName, Limits, Load, NeutralCurrent, NeutralLimit, Placement,
    Proof, Reason, Rotation, Surge, Wish, choose, choose_within, pairs_apart, rotation,
};
use loadworthy::plan::{Draw, Known};
use loadworthy::quantity::{Amperes, PowerFactor, Ratio, Rounding, VoltAmperes, Volts};
use loadworthy::trade::{Duty, Leg};
use proptest::prelude::*;

/// Current, placement, class, weight, wish, group (0 none), continuous, passes the outlet, starting current where it
/// comes on by itself.
type CaseLoad = (i64, Placement, u8, u32, Wish, u16, bool, bool, Option<i64>);

/// A case in tenths of amperes at 120 V to neutral.
#[derive(Clone, Debug)]
struct Case {
    loads: Vec<CaseLoad>,
    legs: (i64, i64),
    outlet: i64,
    total: Option<i64>,
    neutral: Option<(NeutralCurrent, i64)>,
    continuous_percent: u16,
    /// What a leg, and the source in total at 120 V to neutral, gives for a start.
    surge: Option<(i64, i64)>,
}

fn amperes(tenths: i64) -> Amperes {
    Amperes::new(tenths * 100_000).unwrap()
}

impl Case {
    fn input(&self) -> (Vec<Load>, Limits) {
        let loads = self.loads.iter().enumerate().map(
            |(index, &(current, placement, class, weight, wish, group, long, outlet, start))| {
                let volts = Volts::from_whole(if placement == Placement::Both { 240 } else { 120 });
                let draw = Draw::from_current(amperes(current), volts, PowerFactor::UNITY);
                let mut load =
                    Load::new(&format!("load {index}"), draw, placement).worth(class, NonZeroU32::new(weight).unwrap());
                load.wish = wish;
                load.start = start.map(|start| Draw::from_current(amperes(start), volts, PowerFactor::UNITY));
                load.duty = if long { Duty::Continuous } else { Duty::NonContinuous };
                load.groups = (group > 0).then_some(group).into_iter().collect();
                load.through = if outlet { vec![0] } else { Vec::new() };
                load
            },
        );
        let legs = |name: &str, a, b| LegLimit {
            name: name.to_owned(),
            leg_a: Known::Stated(amperes(a)),
            leg_b: Known::Stated(amperes(b)),
            continuous: Ratio::percent(self.continuous_percent),
        };
        let limits = Limits {
            source: legs("source", self.legs.0, self.legs.1),
            shared: vec![legs("outlet", self.outlet, self.outlet)],
            total: self.total.map_or(Known::DoesNotApply, |total| {
                // A tenth of an ampere at 120 V is 12 VA.
                Known::Stated(VoltAmperes::new(i128::from(total) * 12_000_000_000).unwrap())
            }),
            surge: Surge {
                leg: self.surge.map(|(leg, _)| amperes(leg)),
                total: self.surge.map(|(_, total)| VoltAmperes::new(i128::from(total) * 12_000_000_000).unwrap()),
            },
            power: Known::DoesNotApply,
            neutral: self.neutral.map_or(Known::DoesNotApply, |(current, limit)| {
                Known::Stated(NeutralLimit { current, limit: amperes(limit) })
            }),
        };
        (loads.collect(), limits)
    }

    fn fits(&self, on: &[(usize, Leg)]) -> bool {
        // All in thousandths of amperes, so that 125 % is whole.
        let mut source = [0, 0];
        let mut outlet = [0, 0];
        let mut neutral = [0, 0];
        let mut total = 0;
        let mut groups = Vec::new();
        // What runs on each leg and in total, and what starts take more.
        let mut running = [0, 0, 0];
        let mut starts: [Vec<i64>; 3] = Default::default();
        for &(index, leg) in on {
            let (current, _, _, _, _, group, long, through, start) = self.loads[index];
            let counted = current * if long { i64::from(self.continuous_percent) } else { 100 };
            for (side, name) in [(0, Leg::A), (1, Leg::B)] {
                if leg == name || leg == Leg::Both {
                    source[side] += counted;
                    outlet[side] += if through { counted } else { 0 };
                    total += current;
                    neutral[side] += if leg == name { current } else { 0 };
                    running[side] += current;
                    starts[side].extend(start.map(|start| start - current).filter(|more| *more > 0));
                }
            }
            let legs = if leg == Leg::Both { 2 } else { 1 };
            running[2] += current * legs;
            starts[2].extend(start.map(|start| (start - current) * legs).filter(|more| *more > 0));
            if group > 0 {
                groups.push(group);
            }
        }
        // Every pair starts at one moment beside all others.
        let any_start = self.loads.iter().any(|load| load.4 != Wish::Off && load.8.is_some());
        let surge_holds = self.surge.is_none_or(|(leg, total)| {
            !any_start
                || [leg, leg, total].iter().zip(&running).zip(&starts).all(|((limit, running), starts)| {
                    let pair = |one: usize| {
                        (0..starts.len()).filter(move |other| *other != one).map(move |other| (one, other))
                    };
                    let alone = starts.iter().all(|start| running + start <= *limit);
                    alone
                        && running <= limit
                        && (0..starts.len())
                            .flat_map(pair)
                            .all(|(one, other)| running + starts[one] + starts[other] <= *limit)
                })
        });
        let one_each = groups.iter().all(|group| groups.iter().filter(|other| *other == group).count() == 1);
        let neutral_holds = self.neutral.is_none_or(|(kind, limit)| match kind {
            NeutralCurrent::GreaterLeg => neutral[0].max(neutral[1]) <= limit,
            NeutralCurrent::Difference => (neutral[0] - neutral[1]).abs() <= limit,
            NeutralCurrent::Sum => neutral[0] + neutral[1] <= limit,
        });
        one_each
            && surge_holds
            && neutral_holds
            && source[0] <= self.legs.0 * 100
            && source[1] <= self.legs.1 * 100
            && outlet.iter().all(|sum| *sum <= self.outlet * 100)
            && self.total.is_none_or(|limit| total <= limit)
    }

    /// The weight by class, most important first.
    fn worth(&self, on: &[(usize, Leg)]) -> Vec<u64> {
        let mut worth = vec![0; 256];
        for (index, _) in on {
            worth[usize::from(self.loads[*index].2)] += u64::from(self.loads[*index].3);
        }
        worth
    }

    fn enumerate(&self) -> Option<Vec<u64>> {
        let mut best = None;
        self.every(0, &mut Vec::new(), &mut best);
        best
    }

    fn every(&self, index: usize, on: &mut Vec<(usize, Leg)>, best: &mut Option<Vec<u64>>) {
        let Some(&(_, placement, _, _, wish, ..)) = self.loads.get(index) else {
            if self.fits(on) {
                *best = best.take().max(Some(self.worth(on)));
            }
            return;
        };
        if wish != Wish::Must {
            self.every(index + 1, on, best);
        }
        if wish != Wish::Off {
            let legs: &[Leg] = match placement {
                Placement::A => &[Leg::A],
                Placement::B => &[Leg::B],
                Placement::Both => &[Leg::Both],
                Placement::Either => &[Leg::A, Leg::B],
            };
            for leg in legs {
                on.push((index, *leg));
                self.every(index + 1, on, best);
                on.pop();
            }
        }
    }
}

fn placement() -> impl Strategy<Value = Placement> {
    prop_oneof![Just(Placement::A), Just(Placement::B), Just(Placement::Both), Just(Placement::Either)]
}

fn wish() -> impl Strategy<Value = Wish> {
    prop_oneof![1 => Just(Wish::Must), 12 => Just(Wish::WouldLike), 1 => Just(Wish::Off)]
}

fn case(most: usize, placement: impl Strategy<Value = Placement>) -> impl Strategy<Value = Case> {
    let load = (
        1i64..200,
        placement,
        0u8..3,
        1u32..6,
        wish(),
        prop_oneof![4 => Just(0u16), 1 => 1u16..3],
        any::<bool>(),
        any::<bool>(),
        prop_oneof![2 => Just(None), 1 => (1i64..600).prop_map(Some)],
    );
    let neutral = prop_oneof![
        2 => Just(None),
        1 => (1i64..400).prop_map(|limit| Some((NeutralCurrent::GreaterLeg, limit))),
        1 => (0i64..300).prop_map(|limit| Some((NeutralCurrent::Difference, limit))),
        1 => (1i64..500).prop_map(|limit| Some((NeutralCurrent::Sum, limit))),
    ];
    let legs = prop_oneof![(50i64..600).prop_map(|leg| (leg, leg)), (0i64..600, 0i64..600)];
    let percent = prop_oneof![Just(100u16), Just(125)];
    let surge = prop::option::of((50i64..900, 100i64..1500));
    (prop::collection::vec(load, 1..=most), legs, 50i64..700, prop::option::of(50i64..900), neutral, percent, surge)
        .prop_map(|(loads, legs, outlet, total, neutral, continuous_percent, surge)| Case {
            loads,
            legs,
            outlet,
            total,
            neutral,
            continuous_percent,
            surge,
        })
}

fn found(case: &Case) -> Option<Chosen> {
    let (loads, limits) = case.input();
    match choose(&loads, &limits).unwrap() {
        Choice::Found(chosen) => Some(chosen),
        Choice::Impossible(_) => None,
        Choice::CannotTell(questions) => panic!("{questions:?}"),
    }
}

fn agrees(case: &Case) -> Result<(), TestCaseError> {
    let chosen = found(case);
    prop_assert_eq!(chosen.as_ref().map(|chosen| case.worth(&chosen.on)), case.enumerate());
    if let Some(chosen) = chosen {
        prop_assert_eq!(&chosen.proof, &Proof::Best);
        prop_assert!(!chosen.rounded);
        prop_assert!(case.fits(&chosen.on));
        prop_assert_eq!(chosen.on.len() + chosen.off.len(), case.loads.len());
        for class in &chosen.worth {
            prop_assert_eq!(case.worth(&chosen.on)[usize::from(class.class)], class.weight);
        }
        for kept in &chosen.off {
            // A load that only a limit keeps off breaks at least one.
            prop_assert!(!matches!(&kept.reason, Reason::Breaks(breaches) if breaches.is_empty()));
        }
        // The same input gives the same answer.
        prop_assert_eq!(found(case), Some(chosen));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn nine_loads_on_any_leg_equal_enumeration(case in case(9, placement())) {
        agrees(&case)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn eighteen_loads_on_given_legs_equal_enumeration(
        case in case(18, prop_oneof![Just(Placement::A), Just(Placement::B), Just(Placement::Both)])
    ) {
        agrees(&case)?;
    }
}

fn plain(currents: &[&str], limit: &str) -> (Vec<Load>, Limits) {
    let volts = Volts::from_whole(120);
    let load = |text: &&str| {
        Load::new(text, Draw::from_current(text.parse().unwrap(), volts, PowerFactor::UNITY), Placement::Either)
    };
    (currents.iter().map(load).collect(), Limits::per_leg(limit.parse().unwrap()))
}

fn chosen(loads: &[Load], limits: &Limits) -> Chosen {
    match choose(loads, limits).unwrap() {
        Choice::Found(chosen) => chosen,
        other => panic!("{other:?}"),
    }
}

/// `so-leg-overload-then-moved`: a generator manufacturer's owner manual, balancing the load.
#[test]
fn so_leg_overload_then_moved() {
    let (loads, limits) = plain(&["17 A", "28 A"], "39.6 A");
    let both = chosen(&loads, &limits);
    assert_eq!(both.on.len(), 2);
    assert_ne!(both.on[0].1, both.on[1].1);
    let Choice::Found(one_leg) = choose(&loads, &Limits::single_leg("39.6 A".parse().unwrap())).unwrap() else {
        panic!()
    };
    assert_eq!(one_leg.on.len(), 1);
    // Both on one leg are 45 A, 5.4 A over.
    let Reason::Breaks(breaches) = &one_leg.off[0].reason else { panic!() };
    let on_a = breaches.iter().find(|breach| matches!(breach.limit, LimitName::Leg { leg: Leg::A, .. })).unwrap();
    assert_eq!(on_a.over, Amount::Current("5.4 A".parse().unwrap()));
}

#[test]
fn at_the_limit_one_step_under_and_one_step_over() {
    // Three loads of 1000 W at 120 V draw exactly 25 A, which no decimal sum of thirds does.
    let draw = Draw::from_power("1000 W".parse().unwrap(), Volts::from_whole(120), PowerFactor::UNITY).unwrap();
    let loads: Vec<_> = (0..3).map(|_| Load::new("heater", draw, Placement::A)).collect();
    for (limit, count) in [("25 A", 3), ("24.999999 A", 2), ("25.000001 A", 3)] {
        let answer = chosen(&loads, &Limits::per_leg(limit.parse().unwrap()));
        assert_eq!(answer.on.len(), count, "{limit}");
        assert!(!answer.rounded);
    }
    let answer = chosen(&loads, &Limits::per_leg("24.999999 A".parse().unwrap()));
    let Reason::Breaks(breaches) = &answer.off[0].reason else { panic!() };
    assert_eq!(breaches[0].over, Amount::Current("0.001 mA".parse().unwrap()));
}

#[test]
fn a_continuous_load_counts_at_a_breaker_and_not_at_the_source() {
    let (mut loads, mut limits) = plain(&["32 A"], "40 A");
    loads[0].duty = Duty::Continuous;
    loads[0].through = vec![0];
    let breaker = |current: &str| LegLimit {
        name: "breaker".to_owned(),
        leg_a: Known::Stated(current.parse().unwrap()),
        leg_b: Known::DoesNotApply,
        continuous: Ratio::percent(125),
    };
    loads[0].placement = Placement::A;
    for (rating, count) in [("40 A", 1), ("39.999999 A", 0)] {
        limits.shared = vec![breaker(rating)];
        assert_eq!(chosen(&loads, &limits).on.len(), count, "{rating}");
    }
}

#[test]
fn one_load_of_a_higher_class_outweighs_all_of_the_next() {
    let (loads, limits) = plain(&["40 A", "39 A", "1 A", "10 A", "30 A"], "40 A");
    let weight = NonZeroU32::new(1000).unwrap();
    let loads: Vec<_> = loads
        .into_iter()
        .zip([0, 1, 1, 1, 1])
        .map(|(load, class)| load.worth(class, if class == 0 { NonZeroU32::MIN } else { weight }))
        .collect();
    let answer = chosen(&loads, &limits);
    assert!(answer.on.iter().any(|(load, _)| *load == 0));
    assert_eq!(answer.worth.iter().map(|class| class.weight).collect::<Vec<_>>(), [1, 2000]);
}

#[test]
fn what_is_not_stated_is_asked_for() {
    let (mut loads, mut limits) = plain(&["10 A", "10 A"], "40 A");
    loads[1].draw = None;
    let answer = chosen(&loads, &limits);
    assert_eq!(answer.off[0].reason, Reason::DrawNotStated);
    assert_eq!(answer.questions[0].to_string(), "`10 A`: the draw is not stated; it decides whether it can be on");
    loads[1].wish = Wish::Must;
    assert!(matches!(choose(&loads, &limits).unwrap(), Choice::CannotTell(questions) if questions.len() == 1));
    loads[1].wish = Wish::Off;
    limits.total = Known::NotStated;
    let Choice::CannotTell(questions) = choose(&loads, &limits).unwrap() else { panic!() };
    assert_eq!(questions[0].fact, "the limit of apparent power");
}

#[test]
fn loads_that_must_be_on_and_do_not_fit_say_what_breaks() {
    let (loads, limits) = plain(&["30 A", "25 A"], "40 A");
    let loads: Vec<_> = loads
        .into_iter()
        .map(|load| load.wished(Wish::Must))
        .map(|mut load| {
            load.placement = Placement::A;
            load
        })
        .collect();
    let Choice::Impossible(breaches) = choose(&loads, &limits).unwrap() else { panic!() };
    assert_eq!(breaches[0].over, Amount::Current("15 A".parse().unwrap()));
    assert_eq!(breaches[0].limit.to_string(), "leg A of `source`");
}

#[test]
fn loads_that_cannot_all_be_on_take_turns() {
    let (mut loads, limits) = plain(&["5 A", "20 A", "16 A", "15 A", "45 A"], "40 A");
    loads.iter_mut().for_each(|load| load.placement = Placement::A);
    loads[0].wish = Wish::Must;
    // 5 + 20 + 16 A are 41 A; 5 + 20 + 15 A are exactly 40 A.
    assert_eq!(pairs_apart(&loads, &limits).unwrap(), [(0, 4), (1, 2), (1, 4), (2, 4), (3, 4)]);
    let Rotation { turns, never } = rotation(&loads, &limits).unwrap().unwrap();
    let turns: Vec<Vec<usize>> = turns.iter().map(|turn| turn.iter().map(|(load, _)| *load).collect()).collect();
    assert_eq!(turns.iter().map(Vec::len).sum::<usize>(), 5);
    assert!(turns.iter().all(|turn| turn[0] == 0));
    assert_eq!(never, [4]);
}

#[test]
fn inputs_that_cannot_be_are_errors() {
    let (mut loads, limits) = plain(&["10 A"], "40 A");
    loads[0].through = vec![3];
    assert_eq!(choose(&loads, &limits).unwrap_err().to_string(), "load `10 A` passes through limit 3, but there are 0");
    let many: Vec<_> = std::iter::repeat_n(loads[0].clone(), 501).collect();
    assert!(matches!(choose(&many, &limits), Err(ChooseError::TooMany { found: 501, most: 500 })));
}

/// Worth proportional to draw, on either leg: the case that defeats plain branch and bound.
fn hard(count: usize, seed: u64, step: i64) -> (Vec<Load>, Limits) {
    let mut state = seed;
    let mut next = move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as i64
    };
    let volts = Volts::from_whole(120);
    let loads = (0..count).map(|index| {
        let units = 1 + next() % (15_000 / step);
        let draw = Draw::from_current(Amperes::new(units * step * 1000).unwrap(), volts, PowerFactor::UNITY);
        let placement =
            [Placement::Either, Placement::Either, Placement::Both, Placement::A, Placement::B][(next() % 5) as usize];
        let worth = if placement == Placement::Both { 2 * units } else { units };
        Load::new(&format!("load {index}"), draw, placement).worth(0, NonZeroU32::new(worth as u32).unwrap())
    });
    (loads.collect(), Limits::per_leg("40 A".parse().unwrap()))
}

#[test]
fn worth_proportional_to_draw_is_proved_at_forty_and_sixty_loads() {
    for step in [100, 10, 1] {
        for count in [20, 40, 60] {
            // Without optimization a few do.
            for seed in 0..if cfg!(debug_assertions) { 2 } else { 10 } {
                let (loads, limits) = hard(count, seed, step);
                let answer = chosen(&loads, &limits);
                assert_eq!(answer.proof, Proof::Best, "{step} mA, {count} loads, seed {seed}: {} nodes", answer.nodes);
            }
        }
    }
}

/// The same on either leg, where each, or every second one, starts by itself with two to five times its current, and a
/// leg gives 50 A for a start.
fn hard_to_start(count: usize, seed: u64, every: usize) -> (Vec<Load>, Limits) {
    let (mut loads, mut limits) = hard(count, seed, 1);
    for load in &mut loads {
        load.placement = Placement::Either;
        let milliamperes = load.draw.unwrap().current(Rounding::Up).microamperes() / 1000;
        load.weight = NonZeroU32::new(u32::try_from(milliamperes).unwrap()).unwrap();
    }
    for (index, load) in loads.iter_mut().enumerate().step_by(every) {
        let times = 20 + (i64::from(load.weight.get()) + i64::try_from(index).unwrap()) % 30;
        let start = Amperes::new(load.draw.unwrap().current(Rounding::Up).microamperes() * times / 10).unwrap();
        load.start = Some(Draw::from_current(start, Volts::from_whole(120), PowerFactor::UNITY));
    }
    limits.surge.leg = Some("50 A".parse().unwrap());
    (loads, limits)
}

#[test]
fn a_binding_surge_leaves_both_legs_full_where_loads_without_a_start_fill_them() {
    for seed in 0..if cfg!(debug_assertions) { 2 } else { 10 } {
        let (loads, limits) = hard_to_start(60, seed, 2);
        let answer = chosen(&loads, &limits);
        // A unit of weight is a milliampere, so that no set is worth more than two legs of 40 A.
        assert_eq!(answer.worth[0].weight, 80_000, "seed {seed}");
        assert_eq!(answer.proof, Proof::Best, "seed {seed}: {} nodes", answer.nodes);
    }
}

/// By plain addition: both legs carry what is on, and its two greatest starts at once.
fn assert_starts(loads: &[Load], on: &[(usize, Leg)]) {
    let current = |draw: Draw| draw.current(Rounding::Up).microamperes();
    for leg in [Leg::A, Leg::B] {
        let here = || on.iter().filter(|(_, of)| *of == leg).map(|(index, _)| &loads[*index]);
        let running: i64 = here().map(|load| current(load.draw.unwrap())).sum();
        let more = |load: &Load| load.start.map_or(0, |start| current(start) - current(load.draw.unwrap()));
        let mut starts: Vec<i64> = here().map(more).collect();
        starts.sort_unstable();
        let two: i64 = starts.iter().rev().take(2).sum();
        assert!(running <= 40_000_000 && running + two <= 50_000_000, "leg {leg}: {running} and {two}");
    }
}

#[test]
fn sixty_loads_that_all_start_by_themselves_are_proved_or_bounded() {
    for seed in 0..if cfg!(debug_assertions) { 1 } else { 10 } {
        let (loads, limits) = hard_to_start(60, seed, 1);
        let answer = chosen(&loads, &limits);
        assert_starts(&loads, &answer.on);
        assert!((1..80_000).contains(&answer.worth[0].weight), "seed {seed}: {:?}", answer.worth);
    }
}

#[test]
fn at_the_limit_of_work_the_bound_is_said() {
    let (loads, limits) = hard(40, 1, 1);
    let Choice::Found(early) = choose_within(&loads, &limits, 60).unwrap() else { panic!() };
    let best = chosen(&loads, &limits);
    let Proof::NotProven { at_most } = &early.proof else { panic!("{early:?}") };
    assert!(early.worth <= best.worth && best.worth <= *at_most);
}
