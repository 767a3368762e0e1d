//! Voltage drop: physics that holds on any path.

use loadworthy::calc::Silent;
use loadworthy::calc::least_area::least_area;
use loadworthy::calc::voltage_drop::{Currents, KFactor, Method, Segment, VoltageDrop, Wire, voltage_drop};
use loadworthy::code::Code;
use loadworthy::quantity::{Amperes, Celsius, Drop, Meters, OhmsPerLength, PowerFactor, Quantity, Ratio, Volts};
use loadworthy::trade::Conduit;
use proptest::prelude::*;

use crate::{CODES, current, material, size};

const SUPPLY: Volts = Volts::from_whole(480);

fn ohms_per_length(most_thousandths_of_an_ohm: i64) -> impl Strategy<Value = OhmsPerLength> {
    // A thousandth of an ohm per thousand feet.
    (0..=most_thousandths_of_an_ohm).prop_map(|count| OhmsPerLength::new(count * 1_250_000_000_000).unwrap())
}

fn wire() -> impl Strategy<Value = Wire> {
    prop_oneof![
        (material(), size()).prop_map(|(material, size)| Wire::Sized(material, size)),
        (ohms_per_length(3000), ohms_per_length(200))
            .prop_map(|(resistance, reactance)| Wire::Stated { resistance, reactance }),
    ]
}

fn power_factor() -> impl Strategy<Value = PowerFactor> {
    (1i64..=1_000_000).prop_map(|count| PowerFactor::from_millionths(count).unwrap())
}

fn conduit() -> impl Strategy<Value = Conduit> {
    prop_oneof![Just(Conduit::Pvc), Just(Conduit::Aluminum), Just(Conduit::Steel)]
}

fn direct() -> impl Strategy<Value = Method> {
    (-20i64..=90).prop_map(|degrees| Method::DirectCurrent { temperature: Celsius::from_degrees(degrees).unwrap() })
}

fn constant() -> impl Strategy<Value = KFactor> {
    (1i64..=300_000).prop_map(|count| KFactor::from_ten_thousandths(count).unwrap())
}

fn linear() -> impl Strategy<Value = Method> {
    prop_oneof![
        direct(),
        constant().prop_map(|k| Method::Constant { k }),
        (conduit(), power_factor())
            .prop_map(|(conduit, power_factor)| Method::EffectiveImpedance { conduit, power_factor }),
    ]
}

fn method() -> impl Strategy<Value = Method> {
    prop_oneof![
        linear(),
        (conduit(), power_factor()).prop_map(|(conduit, power_factor)| Method::ExactPhasor { conduit, power_factor }),
    ]
}

fn length() -> impl Strategy<Value = Meters> {
    (0u16..1000).prop_map(Meters::from_feet)
}

fn one_way() -> impl Strategy<Value = Currents> {
    prop_oneof![current(100).prop_map(Currents::TwoWire), current(100).prop_map(Currents::ThreePhase)]
}

fn any_currents() -> impl Strategy<Value = Currents> {
    prop_oneof![one_way(), (current(100), current(100)).prop_map(|(this, other)| Currents::Legs { this, other })]
}

fn segment(currents: impl Strategy<Value = Currents>) -> impl Strategy<Value = Segment> {
    (wire(), proptest::option::of(wire()), length(), currents).prop_map(|(wire, neutral, length, currents)| Segment {
        wire,
        neutral,
        length,
        currents,
    })
}

fn find(path: &[Segment], method: Method) -> Option<VoltageDrop> {
    voltage_drop(&CODES[2], SUPPLY, path, method, &mut Silent).ok()
}

/// With its sign: a rise counts as a negative drop.
fn signed(found: &VoltageDrop) -> i128 {
    if found.rises { -found.drop.count() } else { found.drop.count() }
}

fn more(current: Amperes, by: Amperes) -> Amperes {
    current.checked_add(by).unwrap()
}

/// Sizes with a resistance, in order.
fn not_larger(smaller: &Segment, larger: &Segment, method: Method) -> Result<(), TestCaseError> {
    if let (Some(smaller), Some(larger)) = (find(&[*smaller], method), find(&[*larger], method)) {
        prop_assert!(signed(&smaller) <= signed(&larger), "{smaller:?} above {larger:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn a_path_drops_what_its_segments_drop(
        path in proptest::collection::vec(segment(any_currents()), 1..6), method in linear(),
    ) {
        if let Some(whole) = find(&path, method) {
            let parts: i128 = path.iter().map(|segment| signed(&find(&[*segment], method).unwrap())).sum();
            prop_assert_eq!(signed(&whole), parts);
        }
    }

    #[test]
    fn the_order_of_the_segments_never_matters(
        path in proptest::collection::vec(segment(any_currents()), 1..6), method in method(), seed: usize,
    ) {
        let mut other = path.clone();
        other.rotate_left(seed % path.len());
        prop_assert_eq!(find(&path, method), find(&other, method));
        other.reverse();
        prop_assert_eq!(find(&path, method), find(&other, method));
    }

    #[test]
    fn a_longer_run_never_drops_less(of in segment(one_way()), method in method(), more_feet in 0u16..500) {
        let longer = of.length.checked_add(Meters::from_feet(more_feet)).unwrap();
        not_larger(&of, &Segment { length: longer, ..of }, method)?;
    }

    #[test]
    fn a_larger_current_never_drops_less(of in segment(one_way()), method in method(), by in current(50)) {
        let currents = match of.currents {
            Currents::TwoWire(current) => Currents::TwoWire(more(current, by)),
            Currents::ThreePhase(current) => Currents::ThreePhase(more(current, by)),
            legs => legs,
        };
        not_larger(&of, &Segment { currents, ..of }, method)?;
    }

    #[test]
    fn a_leg_drops_more_with_its_own_current_and_less_with_the_other(
        of in segment((current(100), current(100)).prop_map(|(this, other)| Currents::Legs { this, other })),
        method in direct(), by in current(50),
    ) {
        if let Currents::Legs { this, other } = of.currents {
            let with = |currents| Segment { currents, ..of };
            not_larger(&of, &with(Currents::Legs { this: more(this, by), other }), method)?;
            not_larger(&with(Currents::Legs { this, other: more(other, by) }), &of, method)?;
        }
    }

    /// What the neutral takes from one leg it gives to the other: from outer to outer only the outers count.
    #[test]
    fn the_neutral_cancels_from_outer_to_outer(
        outer in wire(), neutral in wire(), length in length(), this in current(100), other in current(100), method in linear(),
    ) {
        let none = Wire::Stated { resistance: OhmsPerLength::MIN, reactance: OhmsPerLength::MIN };
        let leg = |this, other| Segment { wire: outer, neutral: Some(neutral), length, currents: Currents::Legs { this, other } };
        let alone = |current| Segment { wire: outer, neutral: Some(none), length, currents: Currents::TwoWire(current) };
        let drops = [leg(this, other), leg(other, this), alone(this), alone(other)].map(|of| find(&[of], method));
        if let [Some(a), Some(b), Some(outer_a), Some(outer_b)] = drops {
            prop_assert_eq!(signed(&a) + signed(&b), signed(&outer_a) + signed(&outer_b));
        }
    }

    #[test]
    fn a_smaller_wire_never_drops_less(
        metal in material(), sizes in (size(), size()), length in length(), currents in one_way(),
        method in prop_oneof![
            direct(),
            constant().prop_map(|k| Method::Constant { k }),
            // Reactance is no matter of size alone; where resistance leads, the order holds.
            (conduit(), 500_000i64..=1_000_000).prop_map(|(conduit, count)| Method::EffectiveImpedance {
                conduit, power_factor: PowerFactor::from_millionths(count).unwrap(),
            }),
        ],
    ) {
        let (small, large) = if sizes.0 < sizes.1 { sizes } else { (sizes.1, sizes.0) };
        let of = |size| Segment { wire: Wire::Sized(metal, size), neutral: None, length, currents };
        not_larger(&of(large), &of(small), method)?;
    }

    /// R cos φ + X sin φ: a lower power factor relieves a resistance and burdens a reactance.
    #[test]
    fn a_lower_power_factor_follows_the_impedance(
        ohms in ohms_per_length(3000), factors in (power_factor(), power_factor()), length in length(), currents in one_way(),
    ) {
        let (low, high) = if factors.0 < factors.1 { factors } else { (factors.1, factors.0) };
        let drop = |resistance, reactance, power_factor| {
            let of = Segment { wire: Wire::Stated { resistance, reactance }, neutral: None, length, currents };
            find(&[of], Method::EffectiveImpedance { conduit: Conduit::Pvc, power_factor }).unwrap().drop
        };
        let none = OhmsPerLength::MIN;
        prop_assert!(drop(ohms, none, low) <= drop(ohms, none, high));
        prop_assert!(drop(none, ohms, low) >= drop(none, ohms, high));
    }

    /// V_load = √(V² − B²) − A is never above V − A.
    #[test]
    fn the_exact_phasor_never_drops_less_than_the_approximation(
        path in proptest::collection::vec(segment(any_currents()), 1..6), conduit in conduit(), power_factor in power_factor(),
    ) {
        let exact = find(&path, Method::ExactPhasor { conduit, power_factor });
        let near = find(&path, Method::EffectiveImpedance { conduit, power_factor });
        prop_assert_eq!(exact.is_some(), near.is_some());
        if let (Some(exact), Some(near)) = (exact, near) {
            // A voltage is never below none.
            let at_most = signed(&near).min(Drop::from_volts(SUPPLY).count());
            prop_assert!(signed(&exact) >= at_most, "{exact:?} below {near:?}");
        }
    }

    #[test]
    fn the_least_area_holds_and_a_smaller_size_does_not(
        k in constant(), length in (1u16..1000).prop_map(Meters::from_feet), currents in one_way(), percent in 1u16..=10,
    ) {
        let share = Ratio::percent(percent);
        let Some(area) = least_area(k, currents, length, SUPPLY, share) else { return Ok(()) };
        for size in CODES[2].sizes() {
            let Ok(of_size) = CODES[2].area(*size) else { continue };
            let wire = Wire::Sized(loadworthy::trade::Material::Copper, *size);
            let found = find(&[Segment { wire, neutral: None, length, currents }], Method::Constant { k }).unwrap();
            prop_assert_eq!(found.within(share), of_size.value >= area, "{} against {}", of_size.value, area);
        }
    }

    #[test]
    fn a_drop_within_a_share_is_within_any_larger_one(path in proptest::collection::vec(segment(any_currents()), 1..4), method in method(), percent in 0u16..50) {
        if let Some(found) = find(&path, method) && found.within(Ratio::percent(percent)) {
            prop_assert!(found.within(Ratio::percent(percent + 1)));
        }
    }
}
