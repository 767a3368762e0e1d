//! The plan of a described site: the cottage by hand, every missing fact asked for, what cannot be refused in its place,
//! and the search against all subsets.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::process::{Command, Output};

use loadworthy::code::{Edition, Nec};
use loadworthy::plan::choose::{LimitName, Proof};
use loadworthy::plan::endurance::End;
use loadworthy::plan::site::{Body, Impossible, MeasuredBase, MeasuredDemand, Options, Plan, SitePlan, Why, plan};
use loadworthy::plan::{Answer, Verdict};
use loadworthy::site::Site;
use loadworthy::trade::Leg;

const COTTAGE: &str = include_str!("../core/examples/cottage-plan.toml");

fn q<T: std::str::FromStr>(text: &str) -> T
where
    T::Err: std::fmt::Debug,
{
    text.parse().unwrap()
}

fn cottage(changes: &[(&str, &str)]) -> Site {
    let site = Site::from_toml("cottage-plan.toml", COTTAGE).unwrap_or_else(|problems| panic!("{problems}"));
    changes.iter().fold(site, |site, (path, value)| site.with_field(path, value).unwrap())
}

fn asked(site: &Site, options: &Options) -> Result<SitePlan, Vec<Impossible>> {
    plan(site, Nec::standard(Edition::Nec2023), options)
}

fn planned(site: &Site) -> SitePlan {
    asked(site, &Options::default()).unwrap()
}

fn body(plan: &SitePlan) -> &Plan {
    match &plan.body {
        Body::Plan(body) => body,
        other => panic!("{other:?}"),
    }
}

fn on(plan: &SitePlan) -> Vec<(&str, Leg)> {
    body(plan).on.iter().map(|on| (on.name.as_str(), on.leg)).collect()
}

fn why<'a>(plan: &'a SitePlan, name: &str) -> &'a Why {
    &body(plan).off.iter().find(|off| off.name == name).unwrap().why
}

fn questions(plan: &SitePlan) -> Vec<String> {
    plan.questions.iter().map(ToString::to_string).collect()
}

/// By hand. 360 W at 0.9 are 400 VA: 3.333 A, counted on each leg. Lights 300 / 0.95 / 120 = 2.632 A.
///
/// Leg A: 3.333 + refrigerator 2 + fan 5 + pump 8 + cooling 9 = 27.333 A; leg B: 3.333 + 2.632 + 8 + 9 = 22.965 A;
/// in total 400 + 240 + 600 + 1920 + 2160 + 315.8 = 5635.8 VA.
#[test]
fn the_cottage_gets_the_plan_that_arithmetic_gives() {
    let plan = planned(&cottage(&[]));
    assert_eq!(plan.verdict, Verdict::Holds, "{:?}", questions(&plan));
    let expected = [
        ("refrigerator", Leg::A),
        ("lights", Leg::B),
        ("furnace fan", Leg::A),
        ("well pump", Leg::Both),
        ("downstairs cooling", Leg::Both),
    ];
    assert_eq!(on(&plan), expected);
    let body = body(&plan);
    assert_eq!(body.proof, Proof::Best);
    let ([a, b], total, _) = &body.legs;
    assert_eq!((*a, *b), (q("27.333334 A"), q("22.964913 A")));
    assert!(*total >= q("5635.789 VA") && *total < q("5635.79 VA"));
    // The pump (30 A) goes first. The cooling's soft starter passes half of 56 A: 3.333 + 8 + 28 = 39.333 A on a leg.
    let order: Vec<&str> = body.starts.steps.iter().map(|step| step.loads[0].as_str()).collect();
    assert_eq!(order, ["well pump", "downstairs cooling", "refrigerator", "furnace fan", "lights"]);
    assert_eq!(body.starts.steps[1].current, [q("39.333334 A"); 2]);
    // 5635.8 - 315.8 VA are 27.333 A of 40 A on leg A before the lights, which are on leg B.
    assert_eq!(body.starts.steps[3].share, Some(q("68.3334 %")));
    // 3.333 A at 0.9 and 30 A of any angle over 0.05 ohm and 90 ft of 6 AWG (0.491 ohm/kft): Z·Y is at most 0.0261,
    // so at least 116.9 V a leg; the pump's own 120 ft of 12 AWG (1.98 ohm/kft) takes 7.1 V: 226.8 V.
    assert_eq!(body.starts.steps[0].voltage, [q("226.812 V")]);
}

#[test]
fn each_load_that_is_kept_off_names_its_limit() {
    let plan = planned(&cottage(&[]));
    // 27.333 + 25 A on leg A is 12.333 A over 40 A, 22.965 + 25 A on leg B 7.965 A.
    let Why::Breaks(breaches) = why(&plan, "baseboard heat") else { panic!() };
    let over = |leg| {
        let name = LimitName::Leg { of: "battery trailer".to_owned(), leg };
        breaches.iter().find(|breach| breach.limit == name).unwrap().over.to_string()
    };
    assert_eq!((over(Leg::A), over(Leg::B)), ("12.333334 A".to_owned(), "7.964913 A".to_owned()));
    // Pump and cooling at the same moment: 30 + 28 + kettle 10 + 2.632 + 3.333 = 73.965 A on leg B, 3.965 A over 70 A.
    let kettle = why(&plan, "kettle").to_string();
    assert_eq!(kettle, "the surge of leg B with the start of `well pump` and `downstairs cooling` by 3.964913 A");
    assert_eq!(body(&plan).never, ["baseboard heat"]);
    let apart =
        [("kettle", "downstairs cooling"), ("kettle", "upstairs cooling"), ("downstairs cooling", "upstairs cooling")];
    assert_eq!(body(&plan).apart, apart.map(|(one, other)| (one.to_owned(), other.to_owned())));
    assert_eq!(body(&plan).rotation.len(), 3);
}

/// 36 kWh lie between 80 % and the reserve. All on: 4920 W / 0.9 + 200 W = 5666.7 W, 6.353 h. With the duty cycles
/// 360 + 48 + 240 + 153.6 + 1026 + 300 = 2127.6 W, 14.04 h, but the source stops after 12 h.
#[test]
fn time_by_hand_and_what_to_drop() {
    let wish = Options { wish: Some(q("8 h")), ..Options::default() };
    let plan = asked(&cottage(&[]), &wish).unwrap();
    let lasting = &body(&plan).lasting;
    let (Answer::Told(expected), Answer::Told(worst)) = (&lasting.expected, &lasting.worst) else { panic!() };
    assert_eq!((expected.endurance.time, expected.endurance.end), (q("12 h"), End::ShutOffTimer));
    assert!(worst.endurance.time > q("6.3529 h") && worst.endurance.time < q("6.353 h"));
    assert_eq!(worst.endurance.end, End::Reserve);
    // Reached as expected, not at worst; the least class that may go is the cooling's.
    let wished = lasting.wished.as_ref().unwrap();
    assert_eq!((wished.verdict, plan.verdict), (Verdict::CannotTell, Verdict::CannotTell));
    assert_eq!(wished.drop_expected, Some(vec![]));
    assert_eq!(wished.drop_worst, Some(vec!["downstairs cooling".to_owned()]));
    // Longer than the timer nothing lasts.
    let wish = Options { wish: Some(q("12.001 h")), ..Options::default() };
    let plan = asked(&cottage(&[]), &wish).unwrap();
    assert_eq!(plan.verdict, Verdict::Fails);
    assert_eq!(body(&plan).lasting.wished.as_ref().unwrap().drop_worst, None);
}

#[test]
fn each_missing_fact_is_asked_for_and_never_passes() {
    for (removed, question) in [
        (
            &["battery trailer.starting_current", "battery trailer.starting_apparent_power"][..],
            "`battery trailer`: the surge current",
        ),
        (&["battery trailer.internal_resistance"], "`battery trailer`: the internal impedance"),
        (&["trailer outlet.overcurrent_device"], "`trailer outlet`: the rating of its overcurrent device"),
        (&["battery trailer.reserve"], "`battery trailer`: the reserve"),
        (&["battery trailer.state_of_charge"], "`battery trailer`: the state of charge"),
        (&["battery trailer.idle_draw"], "`battery trailer`: the idle draw"),
        (&["battery trailer.shut_off_time"], "`battery trailer`: the time after which it switches itself off"),
        (&["site.base_load_power_factor"], "`the site`: the power factor of the base load"),
        (&["lights.power_factor"], "`lights`: the power factor"),
        (&["refrigerator.leg"], "`refrigerator`: the leg"),
        (&["refrigerator.duty_cycle"], "`refrigerator`: the share of the time that it is on"),
        (&["lights.lowest_voltage"], "`lights`: the dip of voltage that it bears"),
        (&["downstairs cooling.starting_ratio"], "`downstairs cooling`: the ratio of its soft starter"),
        (
            &["well pump.starting_current", "well pump.motor_output"],
            "`well pump`: the locked-rotor current, or the output and the code letter",
        ),
        (&["downstairs cooling circuit.wiring.length"], "`downstairs cooling circuit`: the length"),
        (&["well pump.current", "well pump.motor_output"], "`well pump`: the current, or the power and power factor"),
    ] {
        let site = cottage(&removed.iter().map(|path| (*path, "")).collect::<Vec<_>>());
        let plan = planned(&site);
        assert_eq!(plan.verdict, Verdict::CannotTell, "{removed:?}");
        let all = questions(&plan);
        assert!(
            all.iter().any(|asked| asked.starts_with(&format!("{question} is not stated; "))),
            "{question}: {all:#?}"
        );
    }
}

#[test]
fn what_cannot_be_is_refused_at_its_place() {
    let line = |text: &str| COTTAGE.lines().position(|line| line == text).unwrap() + 1;
    for (was, now, field, said) in [
        (
            "starting_current = \"70 A\"",
            "starting_current = \"30 A\"",
            "source[0].starting_current",
            "`starting_current` is `30 A` and what it gives for hours `40 A`; the first cannot be less",
        ),
        (
            "duty_cycle = \"25 %\"",
            "duty_cycle = \"101 %\"",
            "load[0].duty_cycle",
            "`duty_cycle` is `101 %`; write at most 100 %",
        ),
        (
            "starting_current = \"12 A\"",
            "starting_current = \"1 A\"",
            "load[0].starting_current",
            "with its rotor held it draws `1 A` and running `2 A`; the first cannot be less",
        ),
        (
            "efficiency = \"90 %\"",
            "efficiency = \"0 %\"",
            "source[0].efficiency",
            "an efficiency of `0 %` lets nothing through; write what reaches the outlets",
        ),
        (
            "weight = 2",
            "weight = 2\nprofile = [{ hour = \"6:00\", share = \"10 %\" }]",
            "load[5].profile",
            "a load gives `duty_cycle` and `profile`, which exclude each other; keep one of them",
        ),
    ] {
        let text = COTTAGE.replacen(was, now, 1);
        let wrong = asked(&Site::from_toml("site.toml", &text).unwrap(), &Options::default()).unwrap_err();
        assert_eq!(wrong.len(), 1, "{wrong:?}");
        assert_eq!((wrong[0].at.path().as_str(), wrong[0].what.as_str()), (field, said));
        let line = line(was) + usize::from(now.contains('\n'));
        assert!(wrong[0].to_string().starts_with(&format!("site.toml:{line}:")), "{}", wrong[0]);
    }
    // What no quantity can be is a problem of the document already.
    for (was, now) in
        [("power_factor = 0.95", "power_factor = 1.05"), ("duty_cycle = \"25 %\"", "duty_cycle = \"-1 %\"")]
    {
        let problems = Site::from_toml("site.toml", &COTTAGE.replacen(was, now, 1)).unwrap_err();
        assert_eq!(problems.as_slice()[0].code(), "out-of-range");
        let column = now.find('=').unwrap() + 3;
        assert!(problems.to_string().starts_with(&format!("site.toml:{}:{column}: ", line(was))), "{problems}");
    }
}

#[test]
fn what_is_prohibited_is_not_planned() {
    let site = Site::from_toml("failing.toml", include_str!("../core/examples/cottage-failing.toml")).unwrap();
    let plan = planned(&site);
    assert_eq!((&plan.body, plan.verdict), (&Body::Prohibited, Verdict::Fails));
}

#[test]
fn a_load_of_240_v_on_a_source_of_120_v_is_kept_off_or_there_is_no_plan() {
    let changed = cottage(&[("battery trailer.system", "120 V")]);
    let Body::Impossible(reasons) = planned(&changed).body else { panic!() };
    let said = "cottage-plan.toml, changed: load[4].voltage: `well pump` needs 240 V, its source gives 120 V";
    assert_eq!(reasons, [said]);
    let plan = planned(&changed.with_field("well pump.wish", "would like").unwrap());
    assert_eq!(why(&plan, "well pump"), &Why::Said(said.to_owned()));
}

/// With 0.3 ohm inside, and lights and kettle on: 120 V / |1 + Z·Y| with Z = 0.3442 ohm, 15.5 A in phase (kettle 10,
/// lights 2.5, base 3), 2.27 A at right angles, and the cooling's 28 A of any angle: 106.69 V on leg B, below 108 V. That
/// lights and kettle are on one leg alone adds half of 0.0899 (cooling and base, 31.33 A) times 0.0359 (theirs): 106.53 V.
/// The two steps before leave 117.3 V at the lights and 113.3 V at the kettle.
#[test]
fn a_start_order_that_sags_is_refused_at_the_right_step() {
    let names = ["lights", "kettle", "downstairs cooling"].map(str::to_owned).to_vec();
    let order = Options { start_order: Some(names), ..Options::default() };
    let plan = asked(&cottage(&[("battery trailer.internal_resistance", "0.3 ohm")]), &order).unwrap();
    let judged = plan.proposed.as_ref().unwrap();
    assert_eq!((judged.verdict, judged.first_failing, plan.verdict), (Verdict::Fails, Some(3), Verdict::Fails));
    // Behind 100 ft of 14 AWG (3.14 ohm/kft) the lights lose another 0.83 V.
    assert_eq!(judged.steps[2].broken[0], "the voltage of `lights` dips to 105.706 V, more than by 10 %");
    let held = asked(&cottage(&[]), &order).unwrap();
    assert_eq!(held.proposed.unwrap().verdict, Verdict::Holds);
    let unknown = Options { start_order: Some(vec!["lamp".to_owned()]), ..Options::default() };
    assert!(asked(&cottage(&[]), &unknown).unwrap_err()[0].what.contains("`lamp` of the start order is not a load"));
}

#[test]
fn a_soft_starter_and_a_longer_cord_change_the_answer() {
    // Across the line the cooling starts with 56 A: beside the pump's 30 A no order of both by themselves holds.
    let direct = cottage(&[
        ("downstairs cooling.starting_method", "across the line"),
        ("upstairs cooling.starting_method", "across the line"),
    ]);
    assert!(!on(&planned(&direct)).iter().any(|(name, _)| name.ends_with("cooling")));
    // 400 ft of 6 AWG are 0.393 ohm there and back; the pump's start then leaves less than 216 V.
    let plan = planned(&cottage(&[("trailer cord.length", "400 ft")]));
    assert_eq!(plan.verdict, Verdict::Fails);
    assert!(matches!(plan.body, Body::Impossible(_)));
}

const SMALL: &str = r#"
[site]
name = "shed"
code = "nec-2023"
altitude = "2000 ft"
ambient = "80 °F"

[[source]]
name = "set"
kind = "generator"
system = "SYSTEM"
continuous_current = "30 A"
starting_current = "40 A"
starting_time = "5 s"
internal_resistance = "0 ohm"
internal_reactance = "0 ohm"
EXTRA

[[source.outlet]]
name = "terminals"
configuration = "hardwired"
overcurrent_device = "30 A"
continuous_rating = "100 %"

[[panel]]
name = "panel"
from = "terminals"
system = "120/240 V"
busbar = "100 A"
"#;

fn small(system: &str, extra: &str, rest: &str) -> Site {
    let text = SMALL.replace("SYSTEM", system).replace("EXTRA", extra) + rest;
    Site::from_toml("small.toml", &text).unwrap_or_else(|problems| panic!("{problems}"))
}

fn load(name: &str, from: &str, current: &str, leg: &str, more: &str) -> String {
    format!(
        "[[load]]\nname = \"{name}\"\nfrom = \"{from}\"\ncurrent = \"{current}\"\npower_factor = 1\nvoltage = \"120 V\"\n\
         duty = \"non-continuous\"\nleg = \"{leg}\"\nkind = \"other\"\nautomatic = false\ngreatest_dip = \"100 %\"\n{more}\n"
    )
}

fn circuit(name: &str, rating: &str) -> String {
    format!(
        "[[circuit]]\nname = \"{name}\"\nfrom = \"panel\"\nvoltage = \"120 V\"\nmultiwire = true\n\
         overcurrent_device = {{ rating = \"{rating}\", kind = \"breaker\", poles = 2, continuous_rating = \"80 %\" }}\n\
         [circuit.wiring]\nmaterial = \"copper\"\nsize = \"12 AWG\"\nlength = \"10 ft\"\n"
    )
}

#[test]
fn the_neutral_of_a_multiwire_circuit_fed_from_one_leg_carries_the_sum() {
    let site = |second: &str| {
        let loads =
            [load("saw", "shared", "11 A", "A", "priority = 1"), load("lamp", "shared", second, "B", "")].concat();
        circuit("shared", "20 A") + &loads
    };
    // 11 A and 9 A are exactly the 20 A of the circuit; a milliampere more is over.
    assert_eq!(on(&planned(&small("120 V", "", &site("9 A")))).len(), 2);
    let plan = planned(&small("120 V", "", &site("9.001 A")));
    let Why::Breaks(breaches) = why(&plan, "lamp") else { panic!() };
    assert_eq!(breaches.len(), 1);
    let said = format!("{} by {}", breaches[0].limit, breaches[0].over);
    assert_eq!(said, "leg A of `neutral of shared` by 0.001 A");
    // On two legs the neutral carries their difference, and each leg is by itself.
    let split = planned(&small("120/240 V", "", &site("9.001 A")));
    assert_eq!((on(&split).len(), body(&split).neutral), (2, Some(q("1.999 A"))));
}

#[test]
fn altitude_and_heat_take_from_the_source() {
    // 3.5 % per 1000 ft and 1 % per 10 °F above 60 °F take 9 % at 2000 ft and 80 °F: 3.2 kW become 2.912 kW.
    let losses = |above: &str| {
        format!(
            "continuous_power = \"3.2 kW\"\nderating = {{ altitude_loss = \"3.5 %\", altitude_step = \"1000 ft\", altitude_above = \"{above}\", \
             temperature_loss = \"1 %\", temperature_step = \"10 °F\", temperature_above = \"60 °F\" }}"
        )
    };
    let loads = circuit("shared", "40 A") + &load("heater", "shared", "24.2 A", "A", "");
    // 24.2 A at 120 V are 2904 W.
    assert_eq!(on(&planned(&small("120 V", &losses("0 ft"), &loads))).len(), 1);
    let heavier = circuit("shared", "40 A") + &load("heater", "shared", "24.267 A", "A", "");
    // 24.267 A are 2912.04 W: 0.04 W over.
    let plan = planned(&small("120 V", &losses("0 ft"), &heavier));
    let Why::Breaks(breaches) = why(&plan, "heater") else { panic!() };
    let power = breaches.iter().find(|breach| breach.limit == LimitName::Power).unwrap();
    assert_eq!(power.over.to_string(), "0.04 W");
    // Where altitude takes nothing up to 1000 ft, 5.5 % are lost: 3.024 kW.
    assert_eq!(on(&planned(&small("120 V", &losses("1000 ft"), &heavier))).len(), 1);
}

#[test]
fn a_tank_lasts_by_its_fuel_table() {
    // 1200 W of 2400 W: 0.5 gal an hour. 5 gal less a fifth are 4 gal: 8 h.
    let extra = "continuous_power = \"2.4 kW\"\ntank = \"5 gal\"\nreserve = \"20 %\"\n\
                 [[source.fuel_point]]\nload = \"50 %\"\nper_hour = \"0.5 gal\"\n[[source.fuel_point]]\nload = \"100 %\"\nper_hour = \"0.8 gal\"";
    let site = small("120 V", extra, &(circuit("shared", "20 A") + &load("heater", "shared", "10 A", "A", "")));
    let plan = planned(&site);
    let Answer::Told(told) = &body(&plan).lasting.worst else { panic!("{:?}", questions(&plan)) };
    assert_eq!((told.endurance.time, told.endurance.end), (q("8 h"), End::Reserve));
    let falling = site.with_components("new.toml", &format!("[[source]]\nname = \"set\"\nkind = \"generator\"\nsystem = \"120 V\"\n{}\n[[source.outlet]]\nname = \"terminals\"\nconfiguration = \"hardwired\"\novercurrent_device = \"30 A\"\n", extra.replace("0.8 gal", "0.4 gal"))).unwrap();
    let wrong = asked(&falling, &Options::default()).unwrap_err();
    assert!(
        wrong[0]
            .to_string()
            .starts_with("small.toml, changed: source[0].fuel_point: the fuel points of `set` do not rise"),
        "{}",
        wrong[0]
    );
}

#[test]
fn a_measured_base_load_takes_its_place_and_that_of_the_loads_it_holds() {
    let rest =
        circuit("shared", "20 A") + &load("lamp", "shared", "5 A", "A", "") + &load("radio", "shared", "1 A", "A", "");
    let site = small("120 V", "", &rest).with_field("site.base_load_power_factor", "1").unwrap();
    let measured = |power: &str| Options {
        measured: Some(MeasuredBase {
            demand: MeasuredDemand::Power(q(power)),
            by_hour: Box::new([None; 24]),
            stands_for: vec!["radio".to_owned()],
        }),
        ..Options::default()
    };
    // 3000 W are 25 A: with the lamp exactly 30 A.
    let plan = asked(&site, &measured("3000 W")).unwrap();
    assert_eq!(on(&plan), [("lamp", Leg::A)]);
    assert_eq!(why(&plan, "radio"), &Why::Said("it is part of the measured base load".to_owned()));
    let plan = asked(&site, &measured("3000.12 W")).unwrap();
    assert!(on(&plan).is_empty());
}

#[test]
fn a_load_may_choose_its_leg_and_one_that_may_not_is_asked() {
    let alone = |leg: &str| {
        let a = load("one", "c1", "20 A", "A", "");
        let b = load("two", "c2", "20 A", "A", "may_choose_leg = true").replace("leg = \"A\"\n", leg);
        let circuits = [circuit("c1", "30 A"), circuit("c2", "30 A")]
            .concat()
            .replace("multiwire = true", "multiwire = false")
            .replace("poles = 2", "poles = 1");
        small("120/240 V", "", &(circuits + &a + &b))
    };
    // 40 A do not fit on one leg of 30 A.
    assert_eq!(on(&planned(&alone(""))), [("one", Leg::A), ("two", Leg::B)]);
    assert_eq!(on(&planned(&alone("leg = \"A\"\n"))), [("one", Leg::A)]);
}

/// The search over sets that can also be started, against all subsets: each subset is asked for as loads that must be on.
#[test]
fn the_best_set_that_can_be_started_is_that_of_all_subsets() {
    let mut state = 7_u64;
    let mut below = |count: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % count
    };
    let mut left_out_for_starts = 0;
    for _ in 0..12 {
        let specs: Vec<(u64, u64, u64)> = (0..4).map(|_| (2 + below(9), 5 + below(30), 1 + below(3))).collect();
        let site = |wishes: &dyn Fn(usize) -> &'static str| {
            let loads: String = specs
                .iter()
                .enumerate()
                .map(|(index, (current, start, weight))| {
                    let more = format!(
                        "starting_current = \"{} A\"\nstarting_time = \"1 s\"\nweight = {weight}\nwish = \"{}\"",
                        start.max(current),
                        wishes(index)
                    );
                    load(&format!("motor {index}"), "shared", &format!("{current} A"), "A", &more)
                        .replace("automatic = false", "automatic = true")
                        .replace("kind = \"other\"", "kind = \"motor\"")
                })
                .collect();
            small("120 V", "", &(circuit("shared", "40 A") + &loads))
        };
        let best = planned(&site(&|_| "would like"));
        let worth = |indices: &mut dyn Iterator<Item = usize>| indices.map(|index| specs[index].2).sum::<u64>();
        let found = worth(&mut body(&best).on.iter().map(|on| on.name[6..].parse().unwrap()));
        let subsets = (0..1_usize << specs.len()).filter(|subset| {
            let must = |index: usize| if subset >> index & 1 == 1 { "must" } else { "off" };
            matches!(planned(&site(&must)).body, Body::Plan(_))
        });
        let most =
            subsets.map(|subset| worth(&mut (0..specs.len()).filter(|index| subset >> index & 1 == 1))).max().unwrap();
        assert_eq!(found, most, "{specs:?}");
        left_out_for_starts += body(&best).off.iter().filter(|off| off.why.to_string().contains("start")).count();
    }
    assert!(left_out_for_starts > 3, "the cases never needed the search: {left_out_for_starts}");
}

/// Worth nearly proportional to draw, on either leg: within little work the best is not proven, and the bound is said.
#[test]
fn within_little_work_the_bound_of_a_better_set_is_said() {
    let mut state = 3_u64;
    let mut below = |count: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % count
    };
    let parts: String = (0..22)
        .map(|index| {
            let milliamperes = 500 + below(9000);
            let current = format!("{}.{:03} A", milliamperes / 1000, milliamperes % 1000);
            let more = format!("may_choose_leg = true\npriority = 2\nweight = {}", milliamperes / 10);
            let name = format!("load {index}");
            circuit(&name.replace("load", "way"), "40 A").replace("multiwire = true", "multiwire = false")
                + &load(&name, &format!("way {index}"), &current, "A", &more).replace("leg = \"A\"\n", "")
        })
        .collect();
    let site = small("120/240 V", "", &parts);
    let of = |work| asked(&site, &Options { work, ..Options::default() }).unwrap();
    let (early, best) = (of(Some(1)), of(None));
    assert_eq!(body(&best).proof, Proof::Best);
    let Proof::NotProven { at_most } = &body(&early).proof else { panic!("{:?}", body(&early).proof) };
    assert!(body(&early).worth <= body(&best).worth && body(&best).worth <= *at_most);
    let sum: u64 = body(&early).on.iter().map(|on| u64::try_from(on.current.microamperes()).unwrap() / 10_000).sum();
    assert_eq!(body(&early).worth.iter().map(|of| (of.class, of.weight)).collect::<Vec<_>>(), [(1, sum)]);
}

fn run(arguments: &[&str]) -> Output {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/cottage-plan.toml");
    Command::new(env!("CARGO_BIN_EXE_loadworthy"))
        .args(["plan", file])
        .args(arguments)
        .output()
        .expect("the command runs")
}

#[test]
fn the_command_answers_by_its_status_and_its_document() {
    for (arguments, status) in [
        (&[][..], 0),
        (&["--hours", "6 h"], 0),
        (&["--hours", "8 h"], 2),
        (&["--hours", "13 h"], 1),
        (&["--set", "battery trailer.reserve="], 2),
        (&["--set", "kettle.power_factor=1.1"], 3),
        (&["--set", "teapot.power=1 kW"], 3),
        (&["--set", "battery trailer.starting_current=39 A"], 3),
        (
            &[
                "--set",
                "battery trailer.internal_resistance=0.3 ohm",
                "--start-order",
                "lights, kettle, downstairs cooling",
            ],
            1,
        ),
        (&["--measured", "x.csv"], 3),
        (&["--start-hour", "24"], 3),
    ] {
        let output = run(arguments);
        assert_eq!(output.status.code(), Some(status), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        let text = String::from_utf8(output.stdout).unwrap();
        assert_eq!(
            text.matches("electricity and engine exhaust kill").count(),
            usize::from(status < 3),
            "{arguments:?}"
        );
        assert!(!text.to_lowercase().contains("safe"), "{text}");
    }
    let output = run(&["--format", "json", "--hours", "8 h"]);
    let document: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let source = include_str!("../core/src/report/plan_json.rs");
    let documented: Vec<&str> = source
        .lines()
        .filter_map(|line| line.strip_prefix("//! | `")?.split(" | ").next())
        .flat_map(|names| names.split(", "))
        .map(|name| name.trim_matches('`'))
        .collect();
    assert!(documented.len() > 15, "{documented:?}");
    for name in &documented {
        assert!(document.get(name).is_some(), "`{name}` is documented and not there");
    }
    for name in document.as_object().unwrap().keys() {
        assert!(documented.contains(&name.as_str()), "`{name}` is not documented");
    }
    assert_eq!(document["lasting"]["wish"]["drop_worst"], serde_json::json!(["downstairs cooling"]));
    assert_eq!(document["connection"]["kind"], "manual");
    let together = &document["together"];
    assert_eq!((&together["proven"], &together["at_most"]), (&true.into(), &serde_json::Value::Null));
    // Priority 2 the lights, priority 3 the cooling downstairs, and the two that must be on have none.
    let weights = serde_json::json!([
        { "priority": 1, "weight": 1 }, { "priority": 2, "weight": 1 }, { "priority": 3, "weight": 2 },
        { "priority": 4, "weight": 0 }, { "priority": 5, "weight": 0 }, { "priority": null, "weight": 2 },
    ]);
    assert_eq!(together["worth"], weights);
}
