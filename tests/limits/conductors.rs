//! Ampacity of conductors and cords: 310.15, 110.14(C), 400.5.

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Ampacity, Conditions, Covering, Governor, ampacity};
use loadworthy::calc::cord::{self, CordConditions};
use loadworthy::code::{Code, ConductorRating, Edition, Gap};
use loadworthy::published::TableId;
use loadworthy::quantity::{Amperes, Ratio};
use loadworthy::trade::{CordType, Insulation, Material, TerminalMark};

use crate::{nec, of};

fn base(size: &str, insulation: Insulation) -> Conditions {
    Conditions::base(Material::Copper, of(size), Covering::Insulation(insulation))
}

fn find(edition: Edition, of: &Conditions) -> Ampacity {
    ampacity(nec(edition), of, &mut Silent).unwrap()
}

/// 310.15(B)(1): the bands, in °C and °F; what lies between two whole degrees belongs to the warmer band.
#[test]
fn ambient_bands() {
    let factor =
        |rating, ambient: &str| nec(Edition::Nec2023).ambient_factor(rating, of(ambient)).map(|cell| cell.value);
    let percent = |percent| Ok(Ratio::percent(percent));
    for (ambient, warm) in [
        ("-100 °C", 115),
        ("10 °C", 115),
        ("10.001 °C", 112),
        ("25.999 °C", 100),
        ("29.999 °C", 100),
        ("30 °C", 100),
        ("86 °F", 100),
        ("30.001 °C", 96),
        ("86.001 °F", 96),
        ("35 °C", 96),
        ("95 °F", 96),
        ("35.001 °C", 91),
        ("40 °C", 91),
        ("104 °F", 91),
        ("40.001 °C", 87),
        ("104.001 °F", 87),
        ("85 °C", 29),
        ("185 °F", 29),
    ] {
        assert_eq!(factor(ConductorRating::C90, ambient), percent(warm), "{ambient}");
    }
    // The last band of each column, and nothing above it.
    assert_eq!(factor(ConductorRating::C60, "55 °C"), percent(41));
    assert!(matches!(factor(ConductorRating::C60, "55.001 °C"), Err(Gap::Blank(_))));
    assert_eq!(factor(ConductorRating::C75, "70 °C"), percent(33));
    assert!(matches!(factor(ConductorRating::C75, "70.001 °C"), Err(Gap::Blank(_))));
    assert_eq!(factor(ConductorRating::C90, "85.001 °C"), Err(Gap::Outside(TableId::AmbientCorrection30)));
}

/// 310.15(C)(1): 12 AWG at 30 A, by the count of conductors that carry current.
#[test]
fn counts_of_conductors() {
    for (count, amperes) in [
        (0, "30 A"),
        (3, "30 A"),
        (4, "24 A"),
        (6, "24 A"),
        (7, "21 A"),
        (9, "21 A"),
        (10, "15 A"),
        (20, "15 A"),
        (21, "13.5 A"),
        (30, "13.5 A"),
        (31, "12 A"),
        (40, "12 A"),
        (41, "10.5 A"),
        (u16::MAX, "10.5 A"),
    ] {
        let found = find(Edition::Nec2023, &Conditions { current_carrying: count, ..base("12 AWG", Insulation::Thhn) });
        assert_eq!(found.corrected, of(amperes), "{count}");
    }
}

/// 110.14(C)(1): unmarked terminals take 60 °C up to 100 A, or up to 1 AWG where the rating is not known.
#[test]
fn unmarked_terminals() {
    let terminal = |size, rating: Option<&str>| {
        let conditions = Conditions { circuit_rating: rating.map(of), ..base(size, Insulation::Thhn) };
        find(Edition::Nec2023, &conditions).terminal
    };
    for (rating, amperes) in [("99.999999 A", "95 A"), ("100 A", "95 A"), ("100.000001 A", "115 A")] {
        assert_eq!(terminal("2 AWG", Some(rating)), of(amperes), "{rating}");
    }
    for (size, amperes) in [("2 AWG", "95 A"), ("1 AWG", "110 A"), ("1/0 AWG", "150 A")] {
        assert_eq!(terminal(size, None), of(amperes), "{size}");
    }
    // A conductor of a lower temperature than its terminals governs: TW on 90 °C terminals stays at 60 °C.
    let cool = Conditions { terminals: TerminalMark::C90, ..base("2 AWG", Insulation::Tw) };
    assert_eq!(find(Edition::Nec2023, &cool).terminal, of("95 A"));
}

/// A near miss: 8 AWG at 40 °C is 50.05 A against 50 A at the terminals.
#[test]
fn the_least_of_the_limits_governs() {
    let at = |terminals, ambient: &str| {
        let found =
            find(Edition::Nec2023, &Conditions { terminals, ambient: of(ambient), ..base("8 AWG", Insulation::Thhn) });
        (found.usable, found.governed_by)
    };
    assert_eq!(at(TerminalMark::C75, "40 °C"), (of("50 A"), Governor::Terminals));
    assert_eq!(at(TerminalMark::C75, "40.001 °C"), (of("47.85 A"), Governor::Conductor));
    // Where both are equal, the conductor is named.
    assert_eq!(at(TerminalMark::C90, "30 °C"), (of("55 A"), Governor::Conductor));
}

/// 310.15(B)(2): below 23 mm (7/8 in) before 2023, below 19 mm (3/4 in) since; 33 °C more, which leaves 50 % at 40 °C.
#[test]
fn clearance_above_a_roof() {
    let corrected = |edition, clearance: &str, insulation| {
        let of_roof =
            Conditions { ambient: of("40 °C"), rooftop_clearance: Some(of(clearance)), ..base("8 AWG", insulation) };
        find(edition, &of_roof).corrected
    };
    let [hot, cool]: [Amperes; 2] = ["27.5 A", "50.05 A"].map(of);
    for (edition, clearance, expected) in [
        (Edition::Nec2017, "22.9 mm", hot),
        (Edition::Nec2017, "23 mm", cool),
        (Edition::Nec2017, "23.1 mm", cool),
        (Edition::Nec2020, "22.9 mm", hot),
        (Edition::Nec2020, "23 mm", cool),
        (Edition::Nec2020, "19 mm", hot),
        (Edition::Nec2023, "18.9 mm", hot),
        (Edition::Nec2023, "19 mm", cool),
        (Edition::Nec2023, "22.9 mm", cool),
        (Edition::Nec2023, "0 mm", hot),
    ] {
        assert_eq!(corrected(edition, clearance, Insulation::Thhn), expected, "{} {clearance}", edition.id());
        assert_eq!(corrected(edition, clearance, Insulation::Xhhw2), cool, "XHHW-2 is exempt");
    }
}

/// 400.5(A): two, three, four conductors of a cord that carry current; its temperature; its smallest and largest size.
#[test]
fn cords() {
    let of_cord = |cord, size: &str, current_carrying, ambient: &str, marked: Option<&str>| {
        let conditions =
            CordConditions { cord, size: of(size), current_carrying, ambient: of(ambient), marked: marked.map(of) };
        cord::ampacity(nec(Edition::Nec2023), &conditions, &mut Silent).map_err(|error| error.gap)
    };
    for (count, amperes) in [(2, "30 A"), (3, "25 A"), (4, "20 A"), (6, "20 A"), (7, "17.5 A")] {
        assert_eq!(of_cord(CordType::Soow, "10 AWG", count, "30 °C", None), Ok(of(amperes)), "{count}");
    }
    // Unmarked is 60 °C; 105 °C is read as 90 °C, and so is 90 °C, but a step below that is 75 °C.
    for (marked, amperes) in [
        (None, "24.6 A"),
        (Some("60 °C"), "24.6 A"),
        (Some("74.999 °C"), "24.6 A"),
        (Some("75 °C"), "26.4 A"),
        (Some("89.999 °C"), "26.4 A"),
        (Some("90 °C"), "27.3 A"),
        (Some("105 °C"), "27.3 A"),
    ] {
        assert_eq!(of_cord(CordType::Soow, "10 AWG", 2, "40 °C", marked), Ok(of(amperes)), "{marked:?}");
    }
    assert_eq!(
        of_cord(CordType::Soow, "10 AWG", 2, "30 °C", Some("59.999 °C")),
        Err(Gap::Outside(TableId::CordTemperature))
    );
    assert!(of_cord(CordType::Sjoow, "10 AWG", 2, "30 °C", None).is_ok());
    for (cord, size) in [(CordType::Sjoow, "8 AWG"), (CordType::Srdt, "12 AWG"), (CordType::Srdt, "2 AWG")] {
        assert_eq!(
            of_cord(cord, size, 2, "30 °C", None),
            Err(Gap::Outside(TableId::FlexibleCordTypes)),
            "{cord} {size}"
        );
    }
    assert_eq!(of_cord(CordType::Srdt, "10 AWG", 2, "30 °C", None), Ok(of("30 A")));
}
