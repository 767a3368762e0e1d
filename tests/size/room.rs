//! Room in raceways and boxes: limits met exactly, one more refused, figures from published examples.

use loadworthy::calc::Silent;
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::size::Unsized;
use loadworthy::size::box_fill::{self, Clamps, Contents, least_volume};
use loadworthy::size::raceway::{Extent, Occupant, fits, smallest};
use loadworthy::trade::{Insulation, Jacket, RacewayKind, Stranding, WireSize, Word};
use proptest::prelude::*;

fn wires(insulation: Insulation, size: &str, count: u16) -> Occupant {
    Occupant { jacket: Jacket::Insulated(insulation, Stranding::Usual), size: size.parse().unwrap(), count }
}

fn nec() -> &'static Nec {
    Nec::standard(Edition::Nec2023)
}

/// Annex C, from memory: the most conductors of one size in a trade size.
#[test]
fn counts_of_annex_c() {
    for (kind, trade_size, insulation, size, most) in [
        (RacewayKind::Emt, "1/2 in", Insulation::Thhn, "14 AWG", 12),
        (RacewayKind::Emt, "1/2 in", Insulation::Thhn, "12 AWG", 9),
        (RacewayKind::Emt, "3/4 in", Insulation::Thhn, "12 AWG", 16),
        (RacewayKind::Emt, "3/4 in", Insulation::Thhn, "10 AWG", 10),
        (RacewayKind::Emt, "1 in", Insulation::Thhn, "8 AWG", 9),
        (RacewayKind::Emt, "2 in", Insulation::Thhn, "3/0 AWG", 5),
        (RacewayKind::Pvc40, "1/2 in", Insulation::Thhn, "12 AWG", 8),
        (RacewayKind::Pvc80, "1/2 in", Insulation::Thhn, "12 AWG", 6),
        (RacewayKind::Rmc, "1/2 in", Insulation::Thhn, "12 AWG", 9),
    ] {
        let of = (kind, trade_size.parse().unwrap());
        let fit = |count| fits(nec(), of, &[wires(insulation, size, count)], Extent::Run).unwrap();
        assert!(fit(most), "{kind} {trade_size}: {most} of {size}");
        assert!(!fit(most + 1), "{kind} {trade_size}: {} of {size}", most + 1);
    }
}

proptest! {
    #[test]
    fn the_next_smaller_raceway_does_not_fit(
        kind in 0_usize..8, insulation in 0_usize..3, sizes in prop::collection::vec((0_usize..20, 1_u16..8), 1..4),
        nipple: bool,
    ) {
        let all = RacewayKind::all();
        let kinds: Vec<_> = all.iter().filter(|(name, kind)| *name == kind.spelling()).map(|(_, kind)| *kind).collect();
        let kind = kinds[kind];
        let insulation = [Insulation::Thwn2, Insulation::Xhhw2, Insulation::Thw][insulation];
        let listed: Vec<&WireSize> = nec().sizes().iter().filter(|size| **size >= "14 AWG".parse().unwrap()).collect();
        let occupants: Vec<Occupant> = sizes.iter().map(|(size, count)| Occupant {
            jacket: Jacket::Insulated(insulation, Stranding::Usual), size: *listed[*size], count: *count,
        }).collect();
        let extent = if nipple { Extent::Nipple } else { Extent::Run };
        match smallest(nec(), kind, &occupants, extent, &mut Silent) {
            Ok(found) => {
                prop_assert!(fits(nec(), (kind, found.trade_size), &occupants, extent).unwrap());
                for (smaller, _) in nec().raceways(kind).iter().take_while(|(size, _)| *size != found.trade_size) {
                    prop_assert!(!fits(nec(), (kind, *smaller), &occupants, extent).unwrap());
                }
            }
            Err(Unsized::NothingPasses(_)) => {
                for (any, _) in nec().raceways(kind) {
                    prop_assert!(!fits(nec(), (kind, *any), &occupants, extent).unwrap());
                }
            }
            Err(error) => prop_assert!(false, "{error}"),
        }
    }
}

#[test]
fn one_and_two_conductors_have_shares_of_their_own() {
    // 250 kcmil THHN takes 0.397 in²: one in 1 in tubing (53 % of 0.864 is 0.458), two only in 2 in (31 %).
    let size = |count| {
        smallest(nec(), RacewayKind::Emt, &[wires(Insulation::Thhn, "250 kcmil", count)], Extent::Run, &mut Silent)
            .unwrap()
            .trade_size
            .to_string()
    };
    assert_eq!([size(1), size(2), size(3)], ["1 in", "2 in", "2 in"]);
}

#[test]
fn an_insulation_that_the_table_does_not_print_is_not_told() {
    let rhw = [wires(Insulation::Rhw, "12 AWG", 3)];
    assert!(matches!(smallest(nec(), RacewayKind::Emt, &rhw, Extent::Run, &mut Silent), Err(Unsized::CannotTell(_))));
}

#[test]
fn a_box_is_filled_to_its_volume_and_no_further() {
    let twelve: WireSize = "12 AWG".parse().unwrap();
    let only = |count| {
        let conductors = [(twelve, count)];
        let contents =
            Contents { conductors: &conductors, grounding: None, clamps: Clamps::None, fittings: 0, devices: &[] };
        box_fill::smallest(nec(), &contents, "square", &mut Silent).unwrap().name
    };
    // A trade magazine's example: nine 12 AWG conductors take the 4 x 1-1/2 in square box, of 21.0 in³.
    assert_eq!(only(8), "4 x 1-1/4 in square"); // 18.0 of 18.0 in³
    assert_eq!(only(9), "4 x 1-1/2 in square"); // 20.25 in³
    assert_eq!(only(10), "4-11/16 x 1-1/4 in square"); // 22.5 in³
}

#[test]
fn grounding_conductors_beyond_four_count_a_quarter_from_2020_on() {
    let fourteen: WireSize = "14 AWG".parse().unwrap();
    let volume = |edition, grounding| {
        let contents = Contents {
            conductors: &[(fourteen, 4)],
            grounding: Some((fourteen, grounding)),
            clamps: Clamps::None,
            fittings: 0,
            devices: &[],
        };
        least_volume(Nec::standard(edition), &contents, &mut Silent).unwrap()
    };
    let inches = |text: &str| text.parse().unwrap();
    for edition in Edition::ALL {
        assert_eq!(volume(edition, 4), inches("10 in3"));
    }
    assert_eq!(volume(Edition::Nec2017, 5), inches("10 in3"));
    assert_eq!(volume(Edition::Nec2020, 5), inches("10.5 in3"));
    assert_eq!(volume(Edition::Nec2023, 6), inches("11 in3"));
}
