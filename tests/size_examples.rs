//! Published sizing examples, claimed by their ids in `published/worked_examples.jsonl`.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, Covering};
use loadworthy::calc::continuous::Load;
use loadworthy::calc::grounding::{Enlarged, equipment};
use loadworthy::calc::voltage_drop::Method;
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::quantity::{Amperes, Celsius, Ratio, Scaled};
use loadworthy::size::ampacity::of_ampacity;
use loadworthy::size::circuit::{Conductors, Device, DropLimit, Question, Role, circuit};
use loadworthy::size::solve::{Built, longest_run};
use loadworthy::trade::{Conduit, Insulation, Material, TerminalMark};
use serde_json::Value;

fn example(id: &str) -> (Value, Value) {
    let lines = include_str!("published/worked_examples.jsonl").lines();
    let found = lines.map(|line| serde_json::from_str::<Value>(line).unwrap()).find(|value| value["id"] == id);
    let value = found.unwrap_or_else(|| panic!("no example {id}"));
    (value["inputs"].clone(), value["expected"].clone())
}

fn quantity<Q: std::str::FromStr>(value: &Value, unit: &str) -> Q
where
    Q::Err: std::fmt::Debug,
{
    format!("{value} {unit}").parse::<Q>().unwrap()
}

fn conditions(material: Material) -> Conditions {
    Conditions::base(material, "14 AWG".parse().unwrap(), Covering::Insulation(Insulation::Thwn2))
}

fn plain(load: Load, material: Material) -> Question {
    Question {
        role: Role::Branch,
        load,
        conductors: Conductors::TwoLines,
        voltage: "240 V".parse().unwrap(),
        length: "0 ft".parse().unwrap(),
        conditions: conditions(material),
        drop: None,
        device: Device::BREAKER,
        grounding: None,
        most_sets: 1,
    }
}

fn editions() -> impl Iterator<Item = &'static Nec> {
    Edition::ALL.into_iter().map(Nec::standard)
}

#[test]
fn smallest_conductor_for_a_drop() {
    for id in [
        "vd-3ph-min-size-k-factor",
        "vd-1ph-min-size-30a-230v",
        "vd-1ph-min-size-aluminium-275ft",
        "vd-1ph-size-ladder-10a-140ft",
    ] {
        let (inputs, expected) = example(id);
        let material = inputs["material"].as_str().unwrap().parse().unwrap();
        let load = Load { continuous: Amperes::ZERO, non_continuous: quantity(&inputs["current_A"], "A") };
        let question = Question {
            conductors: match inputs["phase"].as_str().unwrap() {
                "three-phase" => Conductors::ThreePhase,
                _ => Conductors::TwoLines,
            },
            voltage: quantity(&inputs["source_V"], "V"),
            length: quantity(&inputs["length_one_way_ft"], "ft"),
            drop: Some(DropLimit {
                share: quantity::<Ratio>(&inputs["max_drop_percent"], "%"),
                method: Method::Constant { k: inputs["k_ohm_cmil_per_ft"].to_string().parse().unwrap() },
            }),
            ..plain(load, material)
        };
        for code in editions() {
            let sized = circuit(code, &question, &mut Silent).unwrap();
            assert_eq!(sized.ungrounded.value.to_string(), expected["minimum_size"].as_str().unwrap(), "{id}");
        }
    }
}

#[test]
fn longest_run_for_a_drop() {
    for (id, size) in [("vd-3ph-max-length-10awg", "10 AWG"), ("vd-3ph-max-length-12awg", "12 AWG")] {
        let (inputs, expected) = example(id);
        let load = Load { continuous: Amperes::ZERO, non_continuous: quantity(&inputs["current_A"], "A") };
        let question = Question {
            conductors: Conductors::ThreePhase,
            voltage: quantity(&inputs["source_V"], "V"),
            drop: Some(DropLimit {
                share: Ratio::percent(3), // 14.4 V of 480 V
                method: Method::EffectiveImpedance { conduit: Conduit::Steel, power_factor: "0.85".parse().unwrap() },
            }),
            ..plain(load, Material::Copper)
        };
        let built = Built { device: Amperes::from_whole(20), sets: 1, size: size.parse().unwrap() };
        let longest = longest_run(Nec::standard(Edition::Nec2023), &question, built, &mut Silent).unwrap().value;
        // The example rounds the effective impedance to 1.1 and 1.7 ohm per 1000 ft, up to 5 % from R cos + X sin.
        let printed = expected["max_length_one_way_ft"].as_u64().unwrap();
        let feet = |percent: u64| quantity(&serde_json::json!(printed * percent / 100), "ft");
        assert!(longest >= feet(95) && longest <= feet(105), "{id}: {longest}");
    }
}

#[test]
fn conductors_of_an_ampacity() {
    let of = |terminals, material| Conditions { terminals, ..conditions(material) };
    let size = |code: &dyn Code, terminals, material, least: Scaled<Amperes>| {
        of_ampacity(code, &of(terminals, material), least, &mut Silent).unwrap().value.to_string()
    };
    for code in editions() {
        let dwelling = code.share("dwelling-service-share").unwrap().value;
        for id in ["am-dwelling-83-percent-200a", "am-dwelling-83-percent-100a"] {
            let (inputs, expected) = example(id);
            let rating: Amperes = quantity(&inputs["service_rating_A"], "A");
            assert_eq!(rating * dwelling, quantity::<Amperes>(&expected["minimum_ampacity_A"], "A"), "{id}");
            for (metal, material) in [("copper", Material::Copper), ("aluminium", Material::Aluminum)] {
                if let Some(printed) = expected[metal].as_str() {
                    assert_eq!(size(code, TerminalMark::C75, material, rating * dwelling), printed, "{id}");
                }
            }
        }
        let generator = code.share("generator-conductors").unwrap().value;
        let (_, expected) = example("am-generator-conductors-60kva");
        let nameplate: Amperes = quantity(&expected["nameplate_A"], "A");
        assert_eq!(nameplate * generator, quantity::<Amperes>(&expected["minimum_ampacity_A"], "A"));
        assert_eq!(size(code, TerminalMark::C75, Material::Copper, nameplate * generator), expected["copper"]);
        let (inputs, expected) = example("am-generator-conductors-20kw");
        let nameplate: Amperes = quantity(&inputs["nameplate_A"], "A");
        assert_eq!(nameplate * generator, quantity::<Amperes>(&expected["minimum_ampacity_A"], "A"));
        // Motors: the examples state the full-load currents and the ampacity that follows; the size is sought.
        let (_, expected) = example("mo-feeder-four-5hp");
        let least = Scaled::whole(quantity(&expected["feeder_ampacity_A"], "A"));
        assert_eq!(size(code, TerminalMark::C60, Material::Copper, least), expected["copper"]);
        let (_, expected) = example("mo-7.5hp-230v-3ph");
        let least = Scaled::whole(quantity(&expected["branch_ampacity_A"], "A"));
        assert_eq!(size(code, TerminalMark::C60, Material::Copper, least), expected["copper"]);
        let (_, expected) = example("mo-feeder-20hp-10hp-460v");
        let least = Scaled::whole(quantity(&expected["feeder_ampacity_A"], "A"));
        assert_eq!(size(code, TerminalMark::C75, Material::Copper, least), expected["copper"]);
        let (_, expected) = example("cl-motor-compressor-plus-fan");
        let least = Scaled::whole(quantity(&expected["minimum_ampacity_A"], "A"));
        assert_eq!(size(code, TerminalMark::C75, Material::Copper, least), expected["copper"]);
    }
}

#[test]
fn devices_for_continuous_loads() {
    let device = |code: &dyn Code, continuous: Amperes, non_continuous: Amperes| {
        circuit(code, &plain(Load { continuous, non_continuous }, Material::Copper), &mut Silent).unwrap().device.value
    };
    for code in editions() {
        for id in ["cl-nine-ballasts", "cl-14.7a-208v"] {
            let (inputs, expected) = example(id);
            let found = device(code, quantity(&inputs["load_A"], "A"), Amperes::ZERO);
            assert_eq!(found, quantity::<Amperes>(&expected["circuit_A"], "A"), "{id}");
        }
        let (inputs, expected) = example("cl-mixed-60-plus-40");
        let found = device(code, quantity(&inputs["continuous_A"], "A"), quantity(&inputs["noncontinuous_A"], "A"));
        assert_eq!(found, quantity::<Amperes>(&expected["feeder_device_A"], "A"));
        let (inputs, expected) = example("cl-20a-continuous");
        let found = device(code, quantity(&inputs["continuous_A"], "A"), Amperes::ZERO);
        assert_eq!(found, quantity::<Amperes>(&expected["minimum_rating_A"], "A"));
    }
}

#[test]
fn grounding_conductors_that_grow_with_the_circuit() {
    for id in ["gr-egc-upsized-8awg-to-1awg", "gr-egc-upsized-8awg-to-4awg"] {
        let (inputs, expected) = example(id);
        let size = |key: &str| inputs[key].as_str().unwrap().parse().unwrap();
        let enlarged = Enlarged { needed: size("required_ungrounded"), installed: size("installed_ungrounded") };
        for code in editions() {
            let found = equipment(code, Material::Copper, Amperes::from_whole(50), Some(enlarged), &mut Silent);
            assert_eq!(found.unwrap().to_string(), expected["required_egc"].as_str().unwrap(), "{id}");
        }
    }
    // Sized whole: a load that needs 8 AWG and, for its drop, 4 AWG takes the enlarged grounding conductor.
    let load = Load { continuous: Amperes::ZERO, non_continuous: Amperes::from_whole(40) };
    let question = Question {
        length: "300 ft".parse().unwrap(),
        conditions: Conditions { terminals: TerminalMark::C75, ..conditions(Material::Copper) },
        drop: Some(DropLimit {
            share: Ratio::percent(4),
            method: Method::DirectCurrent { temperature: Celsius::from_whole(75) },
        }),
        grounding: Some(Material::Copper),
        device: Device { least: Amperes::from_whole(50), ..Device::BREAKER },
        ..plain(load, Material::Copper)
    };
    let sized = circuit(Nec::standard(Edition::Nec2023), &question, &mut Silent).unwrap();
    let [needed, ungrounded] = [sized.needed, sized.ungrounded.value].map(|size| size.to_string());
    assert_eq!((needed.as_str(), ungrounded.as_str()), ("8 AWG", "4 AWG"));
    assert_eq!(sized.grounding.unwrap().value.to_string(), "4 AWG");
}
