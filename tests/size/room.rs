//! Room in raceways and boxes: limits met exactly, one more refused, figures from published examples.

use loadworthy::calc::Silent;
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::quantity::{CubicMillimeters, Quantity};
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

/// Table 314.16(B), in hundredths of a cubic inch, transcribed here apart from the library's own.
const ALLOWANCES: [(&str, u32); 7] = [
    ("18 AWG", 150),
    ("16 AWG", 175),
    ("14 AWG", 200),
    ("12 AWG", 225),
    ("10 AWG", 250),
    ("8 AWG", 300),
    ("6 AWG", 500),
];

proptest! {
    #[test]
    fn a_box_is_the_smallest_that_holds_what_is_counted_by_hand(
        conductors in prop::collection::vec((0_usize..7, 1_u16..6), 1..4), clamps: bool, fittings in 0_u16..3,
        devices in prop::collection::vec((0_usize..7, 1_u16..3), 0..3), grounding in prop::option::of((0_usize..7, 1_u16..8)),
        shape in 0_usize..3, edition in 0_usize..3,
    ) {
        let edition = Edition::ALL[edition];
        // The volume of 6 AWG rests on memory.
        let nec = crate::circuits::with_the_book(edition);
        let size = |place: usize| ALLOWANCES[place].0.parse::<WireSize>().unwrap();
        // By hand, in four-hundredths: a conductor once, a device twice, clamps and fittings by the largest conductor,
        // grounding conductors once and from 2020 on a quarter for each beyond four.
        let most = conductors.iter().map(|(place, _)| ALLOWANCES[*place].1).max().unwrap();
        let mut by_hand: u32 = conductors.iter().map(|(place, count)| 4 * ALLOWANCES[*place].1 * u32::from(*count)).sum();
        by_hand += 4 * most * (u32::from(clamps) + u32::from(fittings));
        by_hand += devices.iter().map(|(place, count)| 8 * ALLOWANCES[*place].1 * u32::from(*count)).sum::<u32>();
        if let Some((place, count)) = grounding {
            let beyond = if edition == Edition::Nec2017 { 0 } else { u32::from(count.saturating_sub(4)) };
            by_hand += ALLOWANCES[place].1 * (4 + beyond);
        }
        let sized = |of: &[(usize, u16)]| of.iter().map(|(place, count)| (size(*place), *count)).collect::<Vec<_>>();
        let (conductors, devices) = (sized(&conductors), sized(&devices));
        let contents = Contents {
            conductors: &conductors,
            grounding: grounding.map(|(place, count)| (size(place), count)),
            clamps: if clamps { Clamps::Internal } else { Clamps::None },
            fittings,
            devices: &devices,
        };
        // A cubic inch is 16387.064 cubic millimeters; what is counted is rounded up to a thousandth of one.
        let least = CubicMillimeters::from_count((i128::from(by_hand) * 16_387_064 + 399) / 400).unwrap();
        prop_assert_eq!(least_volume(nec, &contents, &mut Silent).unwrap(), least);
        let shape = ["round", "square", "device"][shape];
        let known = nec.boxes().iter().filter_map(|(name, volume)| Some((*name, volume.as_ref().ok()?.value)));
        let holding = known.filter(|(name, volume)| name.ends_with(shape) && *volume >= least);
        match box_fill::smallest(nec, &contents, shape, &mut Silent) {
            Ok(found) => {
                prop_assert!(found.volume >= least && found.name.ends_with(shape));
                prop_assert!(holding.into_iter().all(|(_, volume)| volume >= found.volume));
            }
            Err(Unsized::NothingPasses(_)) => prop_assert_eq!(holding.count(), 0),
            Err(error) => prop_assert!(false, "{error}"),
        }
    }
}
