//! How long it takes to size a circuit: the aim is under 5 µs on one core.

#![allow(missing_docs, clippy::unwrap_used)]

use criterion::{Criterion, criterion_group, criterion_main};
use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, Covering};
use loadworthy::calc::continuous::Load;
use loadworthy::calc::voltage_drop::Method;
use loadworthy::code::{Acceptance, Edition, Nec};
use loadworthy::published::Grade;
use loadworthy::quantity::Amperes;
use loadworthy::size::circuit::{Conductors, Device, DropLimit, NeutralLoad, Question, Role, circuit};
use loadworthy::trade::{Insulation, Material};

fn question(amperes: u16, feet: &str, sets: u8) -> Question {
    Question {
        role: Role::Feeder,
        load: Load { continuous: Amperes::from_whole(amperes), non_continuous: Amperes::from_whole(amperes / 4) },
        conductors: Conductors::TwoLinesAndNeutral(NeutralLoad::AsUngrounded),
        voltage: "240 V".parse().unwrap(),
        length: feet.parse().unwrap(),
        conditions: Conditions::base(
            Material::Copper,
            "14 AWG".parse().unwrap(),
            Covering::Insulation(Insulation::Thwn2),
        ),
        drop: Some(DropLimit {
            share: "3 %".parse().unwrap(),
            method: Method::DirectCurrent { temperature: "75 °C".parse().unwrap() },
        }),
        device: Device::BREAKER,
        grounding: Some(Material::Copper),
        most_sets: sets,
    }
}

fn sizes(bench: &mut Criterion) {
    // Device ratings from 700 A up rest on memory: read as with the book in hand.
    let nec = &Nec::new(Edition::Nec2023, &Acceptance::of_grade(Grade::Memory));
    for (name, question) in [
        ("size a 12 A circuit", question(12, "50 ft", 1)),
        ("size a 40 A circuit with a long run", question(40, "400 ft", 1)),
        ("size a 200 A feeder", question(200, "150 ft", 1)),
        ("size a 900 A feeder in parallel", question(900, "100 ft", 6)),
    ] {
        bench.bench_function(name, |timed| {
            timed.iter(|| circuit(nec, std::hint::black_box(&question), &mut Silent).unwrap());
        });
    }
}

criterion_group!(benches, sizes);
criterion_main!(benches);
