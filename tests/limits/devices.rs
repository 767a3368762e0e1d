//! Overcurrent devices, continuous loads, grounding conductors: 240.4, 240.6, 210.20, 250.122.

use loadworthy::calc::Silent;
use loadworthy::calc::continuous::{Load, requirement};
use loadworthy::calc::grounding::{Enlarged, equipment, required_area};
use loadworthy::calc::overcurrent::{DeviceGovernor, LargestDevice, Supplies, largest_device, next_device};
use loadworthy::code::{Code, Edition, Gap};
use loadworthy::published::TableId;
use loadworthy::quantity::{Amperes, Scaled};
use loadworthy::trade::{ContinuousRating, DeviceKind, Material, WireSize};

use crate::{every_cell, nec, of};

fn largest(code: &dyn Code, ampacity: &str, size: &str, supplies: Supplies) -> Result<(String, DeviceGovernor), Gap> {
    let found =
        largest_device(code, DeviceKind::Breaker, of(ampacity), (Material::Copper, of(size)), supplies, &mut Silent);
    found.map(|LargestDevice { rating, governed_by }| (rating.to_string(), governed_by)).map_err(|error| error.gap)
}

fn found(rating: &str, governed_by: DeviceGovernor) -> Result<(String, DeviceGovernor), Gap> {
    Ok((rating.to_owned(), governed_by))
}

/// 240.4(B): the next size up where the ampacity is not itself a standard rating.
#[test]
fn next_size_up_stops_at_a_standard_rating() {
    use DeviceGovernor::{Ampacity, NextSizeUp};
    for edition in Edition::ALL {
        let of_other = |ampacity| largest(nec(edition), ampacity, "8 AWG", Supplies::Other);
        assert_eq!(of_other("49.999999 A"), found("50 A", NextSizeUp));
        assert_eq!(of_other("50 A"), found("50 A", Ampacity));
        assert_eq!(of_other("50.000001 A"), found("60 A", NextSizeUp));
        let of_receptacles = |ampacity| largest(nec(edition), ampacity, "8 AWG", Supplies::SeveralReceptacles);
        assert_eq!(of_receptacles("49.999999 A"), found("45 A", Ampacity));
        assert_eq!(of_receptacles("50 A"), found("50 A", Ampacity));
        assert_eq!(of_receptacles("50.000001 A"), found("50 A", Ampacity));
    }
}

/// 240.4(B)(3) and (C): the next size up ends at 800 A.
#[test]
fn next_size_up_ends_at_800_amperes() {
    use DeviceGovernor::{Ampacity, NextSizeUp};
    let code = every_cell(Edition::Nec2023);
    let of_other = |ampacity| largest(&code, ampacity, "500 kcmil", Supplies::Other);
    assert_eq!(of_other("700.000001 A"), found("800 A", NextSizeUp));
    assert_eq!(of_other("799.999999 A"), found("800 A", NextSizeUp));
    assert_eq!(of_other("800 A"), found("800 A", Ampacity));
    assert_eq!(of_other("800.000001 A"), found("800 A", Ampacity));
    assert_eq!(of_other("999.999999 A"), found("800 A", Ampacity));
    assert_eq!(of_other("1000 A"), found("1000 A", Ampacity));
    // 601 A is a rating of fuses alone, and a standard one all the same: 240.4(B)(2).
    assert_eq!(of_other("600.999999 A"), found("600 A", Ampacity));
    assert_eq!(of_other("601 A"), found("600 A", Ampacity));
    assert_eq!(of_other("601.000001 A"), found("700 A", NextSizeUp));
}

/// The ratings above 600 A are witnessed by memory alone: where the answer would be one, nobody can tell.
#[test]
fn ratings_above_600_amperes_are_not_rested_on() {
    let of_other = |ampacity| largest(nec(Edition::Nec2023), ampacity, "500 kcmil", Supplies::Other);
    assert_eq!(of_other("600 A"), found("600 A", DeviceGovernor::Ampacity));
    assert!(matches!(of_other("600.000001 A"), Err(Gap::BelowGrade(place, _)) if place.text() == "700"));
    assert!(matches!(of_other("601.000001 A"), Err(Gap::BelowGrade(place, _)) if place.text() == "700"));
    let next = |required| {
        next_device(nec(Edition::Nec2023), DeviceKind::Breaker, Scaled::whole(of::<Amperes>(required)), &mut Silent)
    };
    assert_eq!(next("600 A"), Ok(of("600 A")));
    assert!(matches!(next("600.000001 A").unwrap_err().gap, Gap::BelowGrade(place, _) if place.text() == "700"));
}

/// Below the first rating of a breaker the smaller ratings of fuses decide which one is next.
#[test]
fn small_ampacities_find_the_next_rating_or_none() {
    use DeviceGovernor::{Ampacity, NextSizeUp};
    let none = Err(Gap::Outside(TableId::StandardRatings));
    let old = |ampacity, supplies| largest(nec(Edition::Nec2017), ampacity, "12 AWG", supplies);
    assert_eq!(old("15 A", Supplies::Other), found("15 A", Ampacity));
    assert_eq!(old("14.999999 A", Supplies::Other), found("15 A", NextSizeUp));
    assert_eq!(old("14.999999 A", Supplies::SeveralReceptacles), none);
    assert_eq!(old("10.000001 A", Supplies::Other), found("15 A", NextSizeUp));
    assert_eq!(old("10 A", Supplies::Other), none);
    assert_eq!(old("9.999999 A", Supplies::Other), none);
    let new = |ampacity, supplies| largest(nec(Edition::Nec2023), ampacity, "12 AWG", supplies);
    assert_eq!(new("14.999999 A", Supplies::SeveralReceptacles), found("10 A", Ampacity));
    assert_eq!(new("10 A", Supplies::Other), found("10 A", Ampacity));
    assert_eq!(new("9.999999 A", Supplies::Other), found("10 A", NextSizeUp));
    assert_eq!(new("5.999999 A", Supplies::Other), none);
}

/// 240.4(D): a small conductor's device, whatever its ampacity.
#[test]
fn small_conductors_are_limited_from_14_to_10_gauge() {
    use DeviceGovernor::{Ampacity, SmallConductor};
    for (size, limit, over) in
        [("14 AWG", "15 A", "15.000001 A"), ("12 AWG", "20 A", "20.000001 A"), ("10 AWG", "30 A", "30.000001 A")]
    {
        let at = |ampacity| largest(nec(Edition::Nec2023), ampacity, size, Supplies::Other);
        assert_eq!(at(limit), found(limit, Ampacity));
        assert_eq!(at(over), found(limit, SmallConductor));
        assert_eq!(at("100 A"), found(limit, SmallConductor));
    }
    assert_eq!(largest(nec(Edition::Nec2023), "100 A", "8 AWG", Supplies::Other), found("100 A", Ampacity));
}

/// 210.20(A): 16 A of continuous load is all that a 20 A device carries.
#[test]
fn a_continuous_load_at_80_percent() {
    let device = |continuous: &str, other: &str, rating| {
        let load = Load { continuous: of(continuous), non_continuous: of(other) };
        let needed = requirement(nec(Edition::Nec2023), load, rating, &mut Silent).unwrap();
        next_device(nec(Edition::Nec2023), DeviceKind::Breaker, needed.device, &mut Silent).unwrap().to_string()
    };
    use ContinuousRating::{Listed100, Standard};
    assert_eq!(device("15.999999 A", "0 A", Standard), "20 A");
    assert_eq!(device("16 A", "0 A", Standard), "20 A");
    assert_eq!(device("16.000001 A", "0 A", Standard), "25 A");
    assert_eq!(device("20 A", "0 A", Listed100), "20 A");
    assert_eq!(device("20.000001 A", "0 A", Listed100), "25 A");
    assert_eq!(device("40 A", "59.999999 A", Standard), "110 A");
    assert_eq!(device("40 A", "60 A", Standard), "110 A");
    assert_eq!(device("40 A", "60.000001 A", Standard), "125 A");
}

fn grounding(device: &str, change: Option<(&str, &str)>) -> Result<String, Gap> {
    let change = change.map(|(needed, installed)| Enlarged { needed: of(needed), installed: of(installed) });
    let size = equipment(nec(Edition::Nec2023), Material::Copper, of(device), change, &mut Silent);
    size.map(|size| size.to_string()).map_err(|error| error.gap)
}

#[test]
fn grounding_conductors_change_above_a_rating() {
    for (device, size) in [
        ("0.000001 A", "14 AWG"),
        ("15 A", "14 AWG"),
        ("15.000001 A", "12 AWG"),
        ("59.999999 A", "10 AWG"),
        ("60 A", "10 AWG"),
        ("60.000001 A", "8 AWG"),
        ("100 A", "8 AWG"),
        ("100.000001 A", "6 AWG"),
        ("6000 A", "800 kcmil"),
    ] {
        assert_eq!(grounding(device, None), Ok(size.to_owned()), "{device}");
    }
    assert_eq!(grounding("6000.000001 A", None), Err(Gap::Outside(TableId::EquipmentGrounding)));
}

/// The two examples that turn on two and on three circular mils: 250.122(B), Code Q&A of a trade magazine.
#[test]
fn an_enlarged_grounding_conductor_by_a_hair() {
    // 10,380 x 41,740 / 16,510 = 26,242.3: 6 AWG has 26,240.
    assert_eq!(grounding("50 A", Some(("8 AWG", "4 AWG"))), Ok("4 AWG".to_owned()));
    // 10,380 x 83,690 / 16,510 = 52,616.9: 3 AWG has 52,620.
    assert_eq!(grounding("50 A", Some(("8 AWG", "1 AWG"))), Ok("3 AWG".to_owned()));
    let area = |needed: &str, installed: &str| {
        let change = Enlarged { needed: of(needed), installed: of(installed) };
        required_area(nec(Edition::Nec2023), of::<WireSize>("10 AWG"), change).unwrap()
    };
    assert_eq!(area("8 AWG", "4 AWG"), of("26243 cmil"));
    assert_eq!(area("8 AWG", "1 AWG"), of("52617 cmil"));
}

#[test]
fn a_conductor_that_was_not_enlarged_changes_nothing() {
    for installed in ["8 AWG", "10 AWG"] {
        assert_eq!(grounding("50 A", Some(("8 AWG", installed))), Ok("10 AWG".to_owned()));
    }
    // Sizes of two systems: whether it was enlarged cannot be told.
    assert_eq!(grounding("50 A", Some(("8 AWG", "25 mm2"))), Err(Gap::Outside(TableId::ConductorProperties)));
}
