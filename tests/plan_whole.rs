//! The calculated load of the whole dwelling beside what the source gives.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::code::{Edition, Nec};
use loadworthy::plan::Verdict;
use loadworthy::plan::site::{Options, Whole, plan};
use loadworthy::site::Site;

fn q<T: std::str::FromStr>(text: &str) -> T
where
    T::Err: std::fmt::Debug,
{
    text.parse().unwrap()
}

/// A dwelling on a source that gives 100 A at 240 V: 24 kVA.
fn whole(dwelling: &str) -> Option<Whole> {
    let site = r#"
[site]
name = "house"
code = "nec-2023"

[[source]]
name = "set"
kind = "generator"
system = "120/240 V"
continuous_current = "100 A"

[[source.outlet]]
name = "terminals"
configuration = "hardwired"
"#;
    let site = Site::from_toml("house.toml", &format!("{site}{dwelling}")).unwrap_or_else(|wrong| panic!("{wrong}"));
    plan(&site, Nec::standard(Edition::Nec2023), &Options::default()).unwrap().whole
}

/// `dw-annex-d2a`: National Electrical Code, Informative Annex D, as reprinted in the 2005 handbook: 17,880 VA and
/// 3600 VA of heat, 21,480 VA, 90 A.
const ANNEX: &str = r#"
[dwelling]
method = "optional"
floor_area = "1500 ft²"
small_appliance_circuits = 2
laundry_circuits = 1
electric_heat = "9 kVA"
electric_heat_units = 5
[[dwelling.appliance]]
name = "range"
apparent_power = "12 kVA"
[[dwelling.appliance]]
name = "water heater"
apparent_power = "2500 VA"
[[dwelling.appliance]]
name = "dishwasher"
apparent_power = "1200 VA"
[[dwelling.appliance]]
name = "clothes dryer"
apparent_power = "5000 VA"
"#;

#[test]
fn dw_annex_d2a_of_a_described_dwelling() {
    let found = whole(ANNEX).unwrap();
    assert_eq!((found.demand, found.current), (Some(q("21480 VA")), Some(q("89.5 A"))));
    assert_eq!((found.verdict, found.gives), (Verdict::Holds, Some(q("24 kVA"))));
    let parts: Vec<_> = found.working.iter().map(|part| (part.load, part.share, part.demand)).collect();
    assert_eq!(
        parts,
        [
            (q("10 kVA"), q("100 %"), q("10 kVA")),
            (q("19700 VA"), q("40 %"), q("7880 VA")),
            (q("9 kVA"), q("40 %"), q("3600 VA")),
        ]
    );
    // 6300 VA more of appliances are 2520 VA more: 24 kVA exactly. One volt-ampere more, counted at 40 %, is too much.
    for (range, verdict) in [("18.3 kVA", Verdict::Holds), ("18301 VA", Verdict::Fails)] {
        assert_eq!(whole(&ANNEX.replace("12 kVA", range)).unwrap().verdict, verdict, "{range}");
    }
}

#[test]
fn what_is_not_stated_is_asked_for() {
    for (line, fact) in [
        ("floor_area = \"1500 ft²\"\n", "the floor area"),
        ("small_appliance_circuits = 2\n", "the number of small-appliance circuits"),
        ("laundry_circuits = 1\n", "the number of laundry circuits"),
        ("electric_heat = \"9 kVA\"\n", "its heating and cooling"),
        ("electric_heat_units = 5\n", "the number of separately controlled heating units"),
    ] {
        assert!(ANNEX.contains(line));
        let found = whole(&ANNEX.replace(line, "")).unwrap();
        assert_eq!((found.verdict, found.demand), (Verdict::CannotTell, None), "{line}");
        assert_eq!(found.questions.iter().map(|question| question.fact).collect::<Vec<_>>(), [fact]);
    }
    let found = whole("[dwelling]\nmethod = \"metered\"\n").unwrap();
    assert_eq!(found.questions[0].fact, "the highest demand on record");
    assert!(whole("").is_none());
}

/// By hand, 220.83(A) and (B): 8 kVA and 40 % of the rest; an added air conditioner counts whole beside it.
#[test]
fn a_dwelling_that_stands() {
    let existing = ANNEX.replace("\"optional\"", "\"existing\"");
    // 29,700 VA and 9000 VA of heat: 8000 + 40 % of 30,700.
    assert_eq!(whole(&existing).unwrap().demand, Some(q("20280 VA")));
    let added = existing.replace("laundry_circuits = 1\n", "laundry_circuits = 1\nadded_climate = \"5 kVA\"\n");
    // The heat of 9000 VA is the larger, whole, beside 8000 + 40 % of 21,700.
    assert_eq!(whole(&added).unwrap().demand, Some(q("25680 VA")));
    assert_eq!(whole(&added).unwrap().verdict, Verdict::Fails);
}

/// By hand, 220.87: 125 % of 18 kVA and 1500 VA are 24 kVA exactly.
#[test]
fn a_dwelling_by_its_meter() {
    let metered = |record: &str, hidden: &str, new: &str| {
        whole(&format!(
            "[dwelling]\nmethod = \"metered\"\nhighest_demand = \"18 kVA\"\ndemand_record = \"{record}\"\n\
             load_hidden = {hidden}\nnew_load = \"{new}\"\n"
        ))
        .unwrap()
    };
    assert_eq!(metered("a year", "false", "1500 VA").verdict, Verdict::Holds);
    assert_eq!(metered("a year", "false", "1501 VA").verdict, Verdict::Fails);
    assert_eq!(metered("less", "false", "1500 VA").verdict, Verdict::CannotTell);
    assert_eq!(metered("30 days by 15 minutes", "true", "1500 VA").verdict, Verdict::CannotTell);
    // A record that shows too much already needs no longer one.
    assert_eq!(metered("less", "false", "1501 VA").verdict, Verdict::Fails);
}
