//! Connection kits: what they carry, what stands in their way, and the rules that ask for each part.

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, Covering};
use loadworthy::code::{Edition, Nec};
use loadworthy::quantity::Amperes;
use loadworthy::rules::{RULES, Severity, find};
use loadworthy::site::{LoadWish, SourceNeutral, TransferNeutral};
use loadworthy::size::kit::{
    Alternative, Amount, Arrangement, Importance, Obstacle, Outlet, Panel, Price, Prohibited, Question, Source, Wanted,
    alternatives,
};
use loadworthy::trade::{ContinuousRating, Insulation, Leg, Material, Place, System, TerminalMark};

fn outlet(configuration: &str, device: u16) -> Outlet {
    Outlet {
        configuration: configuration.parse().unwrap(),
        device: Amperes::from_whole(device),
        continuous_rating: ContinuousRating::Standard,
    }
}

fn wanted<'a>(name: &'a str, voltage: &str, current: u16, plug: Option<&str>, leg: Option<Leg>) -> Wanted<'a> {
    Wanted {
        name,
        voltage: voltage.parse().unwrap(),
        current: Amperes::from_whole(current),
        plug: plug.map(|plug| plug.parse().unwrap()),
        leg,
        importance: Importance::default(),
    }
}

fn question<'a>(outlets: &'a [Outlet], wanted: &'a [Wanted<'a>], prices: &'a [Price<'a>]) -> Question<'a> {
    Question {
        source: Source {
            system: System::V120V240,
            current: Amperes::from_whole(30),
            outlets,
            neutral: Some(SourceNeutral::Floating),
        },
        panel: Panel { system: System::V120V240, rating: Amperes::from_whole(100) },
        wanted,
        cord_length: "25 ft".parse().unwrap(),
        feeder_length: "20 ft".parse().unwrap(),
        feeder: Conditions {
            terminals: TerminalMark::C75,
            place: Place::Wet,
            ..Conditions::base(Material::Copper, "14 AWG".parse().unwrap(), Covering::Insulation(Insulation::Thwn2))
        },
        drop: None,
        cord_place: Place::Wet,
        prices,
    }
}

fn of<'a>(question: &Question<'a>, arrangement: Arrangement) -> Alternative<'a> {
    let all = alternatives(Nec::standard(Edition::Nec2023), question, &mut Silent);
    assert_eq!(all.len(), 4);
    all.into_iter().find(|alternative| alternative.arrangement == arrangement).unwrap()
}

#[test]
fn every_part_is_asked_for_by_a_rule_that_exists() {
    let outlets = [outlet("L14-30", 30), outlet("5-20", 20)];
    let loads = [wanted("refrigerator", "120 V", 6, Some("5-15"), None), wanted("pump", "240 V", 8, None, None)];
    for alternative in alternatives(Nec::standard(Edition::Nec2023), &question(&outlets, &loads, &[]), &mut Silent) {
        for part in alternative.kit.unwrap().parts {
            assert!(find(part.rule).is_some(), "{}: {}", part.rule, part.name);
        }
    }
    for prohibited in [Prohibited::CordWithTwoPlugs, Prohibited::NoTransferEquipment] {
        assert_eq!(find(prohibited.rule()).unwrap().severity, Severity::Prohibited);
    }
    assert!(!RULES.is_empty());
}

#[test]
fn the_inlet_takes_what_its_outlet_gives() {
    let outlets = [outlet("L14-30", 30), outlet("5-20", 20)];
    let loads = [
        wanted("pump", "240 V", 10, None, None),
        wanted("heater", "120 V", 15, None, Some(Leg::A)),
        wanted("furnace", "120 V", 10, None, Some(Leg::B)),
        wanted("lamp", "120 V", 1, None, None),
    ];
    let kit = of(&question(&outlets, &loads, &[]), Arrangement::InterlockedInlet).kit.unwrap();
    // 80 % of 30 A is 24 A on each leg: 10 + 15 A on leg A is one ampere too many, 10 + 10 on leg B fits, and the lamp of
    // unknown leg fits on either.
    assert_eq!(kit.carries, Amperes::from_whole(24));
    assert_eq!(kit.runs, ["pump", "furnace", "lamp"]);
    assert_eq!(kit.stays_off, [("heater", "the source is taken by what stands before it")]);
    assert_eq!(kit.neutral, Some(TransferNeutral::Solid));
    let names: Vec<&str> = kit.parts.iter().map(|part| part.name.as_str()).collect();
    assert_eq!(
        names[..3],
        [
            "cord set STW, 10 AWG, 4 conductors, L14-30P to L14-30R",
            "flanged inlet L14-30P, 30 A",
            "ungrounded conductor 10 AWG copper THWN-2",
        ]
    );
    assert_eq!(kit.parts[2].amount, Amount::Length("40 ft".parse().unwrap()));
}

#[test]
fn the_neutral_is_bonded_once() {
    let outlets = [outlet("L14-30", 30)];
    let mut bonded = question(&outlets, &[], &[]);
    bonded.source.neutral = Some(SourceNeutral::Bonded);
    assert!(matches!(
        of(&bonded, Arrangement::InterlockedInlet).kit,
        Err(Obstacle::Rule("one-neutral-ground-bond", _))
    ));
    let manual = of(&bonded, Arrangement::ManualTransfer).kit.unwrap();
    assert_eq!(manual.neutral, Some(TransferNeutral::Switched));
    assert!(manual.parts.iter().any(|part| part.name.ends_with("switching the neutral")));
    bonded.source.neutral = None;
    for arrangement in [Arrangement::InterlockedInlet, Arrangement::ManualTransfer] {
        assert!(matches!(of(&bonded, arrangement).kit, Err(Obstacle::NotStated(_))));
    }
}

#[test]
fn a_source_of_one_voltage_is_not_tied_to_a_panel_of_two() {
    let outlets = [outlet("TT-30", 30), outlet("5-20", 20), outlet("5-20", 20)];
    let loads = [
        wanted("refrigerator", "120 V", 6, Some("5-15"), None),
        wanted("freezer", "120 V", 5, Some("5-15"), None),
        wanted("fan", "120 V", 1, Some("5-15"), None),
    ];
    let mut asked = question(&outlets, &loads, &[]);
    asked.source.system = System::V120;
    for arrangement in [Arrangement::InterlockedInlet, Arrangement::ManualTransfer] {
        assert!(matches!(of(&asked, arrangement).kit, Err(Obstacle::Rule("voltage-and-poles-match", _))));
    }
    // Each cord has an outlet of its own: the third appliance finds none that its plug enters.
    let cords = of(&asked, Arrangement::CordsToAppliances).kit.unwrap();
    assert_eq!(cords.runs, ["refrigerator", "freezer"]);
    assert_eq!(cords.stays_off[0].0, "fan");
    assert_eq!(cords.parts.len(), 2);
}

#[test]
fn the_cost_is_whole_only_when_every_part_has_a_price() {
    let outlets = [outlet("5-20", 20)];
    let loads = [wanted("refrigerator", "120 V", 6, Some("5-15"), None)];
    let price = |part, hundredths| Price { part, hundredths };
    let some = [price("cord", 100), price("cord set", 4550)];
    let cost = of(&question(&outlets, &loads, &some), Arrangement::CordsToAppliances).kit.unwrap().cost;
    assert_eq!((cost.hundredths, cost.not_priced.len()), (4550, 0));
    let outlets = [outlet("L14-30", 30)];
    let wires = [price("ungrounded", 90), price("flanged inlet", 8500)];
    let cost = of(&question(&outlets, &[], &wires), Arrangement::InterlockedInlet).kit.unwrap().cost;
    // 40 ft at 0.90 and one inlet at 85.00.
    assert_eq!(cost.hundredths, 40 * 90 + 8500);
    assert!(cost.not_priced.iter().any(|name| name.starts_with("listed interlock")));
}

#[test]
fn what_matters_most_is_carried_wherever_it_stands() {
    let outlets = [outlet("L14-30", 30), outlet("5-20", 20)];
    let on_a = |name, importance| Wanted { importance, ..wanted(name, "120 V", 10, Some("5-15"), Some(Leg::A)) };
    let usual = Importance::default();
    // 24 A on the leg carry two of 10 A; the one cord outlet feeds one.
    let loads = [
        on_a("heater", Importance { wish: LoadWish::Off, ..usual }),
        on_a("kettle", usual),
        on_a("washer", Importance { weight: 2, ..usual }),
        on_a("freezer", Importance { priority: Some(1), ..usual }),
        on_a("furnace", Importance { wish: LoadWish::Must, ..usual }),
    ];
    let runs = |loads: &[Wanted<'_>], arrangement| -> Vec<String> {
        let kit = of(&question(&outlets, loads, &[]), arrangement).kit.unwrap();
        kit.runs.iter().map(|name| (*name).to_owned()).collect()
    };
    assert_eq!(runs(&loads, Arrangement::InterlockedInlet), ["furnace", "freezer"]);
    assert_eq!(runs(&loads, Arrangement::CordsToAppliances), ["furnace"]);
    assert_eq!(runs(&loads[..3], Arrangement::InterlockedInlet), ["washer", "kettle"]);
    let kit = of(&question(&outlets, &loads, &[]), Arrangement::ManualTransfer).kit.unwrap();
    let over = "the source is taken by what stands before it";
    assert_eq!(kit.stays_off, [("washer", over), ("heater", "it is wanted off"), ("kettle", over)]);
}
