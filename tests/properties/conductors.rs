//! Ampacity never rises where a circuit gets worse.

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Ampacity, Conditions, Covering, ampacity};
use loadworthy::calc::cord::{self, CordConditions};
use loadworthy::code::{Code, ConductorRating};
use loadworthy::quantity::{Amperes, Celsius, CelsiusRise, Meters, Quantity, Ratio, Rounding};
use loadworthy::trade::{Cable, CordType, Installation, Insulation, Material, Place, TerminalMark, Word};
use proptest::prelude::*;

use crate::{CODES, code, material, size};

fn word<W: Word + std::fmt::Debug>() -> impl Strategy<Value = W> {
    let words = W::all();
    (0..words.len()).prop_map(move |index| words[index].1)
}

fn covering() -> impl Strategy<Value = Covering> {
    prop_oneof![
        word::<Insulation>().prop_map(Covering::Insulation),
        (word::<Cable>(), proptest::option::of(word::<Insulation>()))
            .prop_map(|(cable, inside)| Covering::Cable(cable, inside)),
    ]
}

fn ambient() -> impl Strategy<Value = Celsius> {
    prop_oneof![
        (-40i64..=90).prop_map(|degrees| Celsius::from_degrees(degrees).unwrap()),
        (-40i64 * 9000..=90 * 9000).prop_map(|count| Celsius::new(count).unwrap()),
    ]
}

prop_compose! {
    fn conditions()(
        material in material(),
        size in size(),
        covering in covering(),
        installation in word::<Installation>(),
        place in word::<Place>(),
        ambient in ambient(),
        rooftop_clearance in proptest::option::weighted(0.2, (0i64..500).prop_map(|count| Meters::new(count).unwrap())),
        current_carrying in 0u16..60,
        thermal_insulation: bool,
        terminals in word::<TerminalMark>(),
        circuit_rating in proptest::option::of((1u16..600).prop_map(Amperes::from_whole)),
    ) -> Conditions {
        Conditions {
            material, size, covering, installation, place, ambient, rooftop_clearance, current_carrying,
            thermal_insulation, terminals, circuit_rating,
        }
    }
}

fn find(code: &dyn Code, of: &Conditions) -> Option<Ampacity> {
    ampacity(code, of, &mut Silent).ok()
}

/// The worse circuit carries no more; and where the better one cannot be told, `may_appear` says whether it may be.
fn never_more(code: &dyn Code, better: &Conditions, worse: &Conditions, may_appear: bool) -> Result<(), TestCaseError> {
    match (find(code, better), find(code, worse)) {
        (Some(better), Some(worse)) => prop_assert!(worse.usable <= better.usable, "{worse:?} above {better:?}"),
        (None, Some(worse)) => prop_assert!(may_appear, "{worse:?} out of nothing"),
        (_, None) => {}
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn usable_is_the_least_of_the_limits(code in code(), of in conditions()) {
        if let Some(found) = find(code.0, &of) {
            let limits = [Some(found.corrected), Some(found.terminal), found.cable];
            prop_assert_eq!(Some(found.usable), limits.into_iter().flatten().min());
        }
    }

    #[test]
    fn a_smaller_conductor_never_carries_more(code in code(), of in conditions(), other in size()) {
        let (small, large) = if other < of.size { (other, of.size) } else { (of.size, other) };
        // A size that a table does not list may lie on either side.
        never_more(code.0, &Conditions { size: large, ..of }, &Conditions { size: small, ..of }, true)?;
    }

    #[test]
    fn hotter_air_never_raises_it(code in code(), of in conditions(), rise in 0i64..60 * 9000) {
        let hotter = of.ambient.raised_by(CelsiusRise::new(rise).unwrap()).unwrap();
        never_more(code.0, &of, &Conditions { ambient: hotter, ..of }, false)?;
    }

    #[test]
    fn a_roof_never_raises_it(code in code(), of in conditions()) {
        never_more(code.0, &Conditions { rooftop_clearance: None, ..of }, &of, false)?;
    }

    #[test]
    fn more_conductors_never_raise_it(code in code(), of in conditions(), more in 0u16..60) {
        never_more(code.0, &of, &Conditions { current_carrying: of.current_carrying + more, ..of }, false)?;
    }

    #[test]
    fn cooler_terminals_never_raise_it(code in code(), of in conditions()) {
        let marked = [TerminalMark::C90, TerminalMark::C75, TerminalMark::C60].map(|terminals| Conditions { terminals, ..of });
        // The columns of a small size may be blank at 60 and 75 °C.
        never_more(code.0, &marked[0], &marked[1], false)?;
        never_more(code.0, &marked[1], &marked[2], false)?;
        never_more(code.0, &marked[1], &Conditions { terminals: TerminalMark::Unmarked, ..of }, false)?;
    }

    #[test]
    fn a_larger_circuit_rating_never_lowers_it(code in code(), of in conditions(), more in 0u16..600) {
        if let Some(rating) = of.circuit_rating {
            let larger = rating.checked_add(Amperes::from_whole(more));
            never_more(code.0, &Conditions { circuit_rating: larger, ..of }, &of, false)?;
        }
    }

    #[test]
    fn cords_carry_no_more_when_they_get_worse(
        code in code(), cord in word::<CordType>(), size in size(), carrying in 1u16..60, more in 0u16..60,
        ambient in ambient(), rise in 0i64..60 * 9000, marked in proptest::option::of((60i64..=105).prop_map(|t| Celsius::from_degrees(t).unwrap())),
    ) {
        let of = CordConditions { cord, size, current_carrying: carrying, ambient, marked };
        let find = |of: CordConditions| cord::ampacity(code.0, &of, &mut Silent).ok();
        let hotter = ambient.raised_by(CelsiusRise::new(rise).unwrap()).unwrap();
        for worse in [CordConditions { current_carrying: carrying + more, ..of }, CordConditions { ambient: hotter, ..of }] {
            if let (Some(better), Some(worse)) = (find(of), find(worse)) {
                prop_assert!(worse <= better);
            }
        }
    }
}

/// Every printed ampacity, times every printed factor of its column, times every printed adjustment.
#[test]
fn every_product_of_printed_values_is_exact() {
    let code = &CODES[2];
    let whole = |value: Amperes, factor: Ratio| {
        let exact = value * factor;
        let (down, up) = (exact.rounded(Rounding::Down).unwrap(), exact.rounded(Rounding::Up).unwrap());
        assert_eq!(down, up, "{value} x {factor} is rounded");
        down
    };
    let adjustments: Vec<Option<Ratio>> =
        [3, 4, 7, 10, 21, 31, 41].map(|count| code.bundling_factor(count).unwrap().map(|cell| cell.value)).to_vec();
    let mut products = 0;
    for size in code.sizes() {
        for (material, rating) in [Material::Copper, Material::Aluminum]
            .into_iter()
            .flat_map(|metal| ConductorRating::ALL.map(|r| (metal, r)))
        {
            for installation in [Installation::Raceway, Installation::FreeAir] {
                let Ok(base) = code.base_ampacity(installation, material, rating, *size) else { continue };
                for degrees in (10..=85).step_by(5) {
                    let Ok(factor) = code.ambient_factor(rating, Celsius::from_degrees(degrees).unwrap()) else {
                        continue;
                    };
                    let corrected = whole(base.value, factor.value);
                    for adjustment in &adjustments {
                        adjustment.map(|factor| whole(corrected, factor));
                        products += 1;
                    }
                }
            }
        }
    }
    assert!(products > 10_000, "{products}");
    assert!(Amperes::MIN.count() == 0);
}
