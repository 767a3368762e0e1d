//! The calculations, with and without derivation, beside what one would write instead: the same tables in a map, and
//! `rust_decimal` or `f64` written plainly. The plain ones cite nothing, check no grade and, in `f64`, are wrong at limits.

#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "calc/plain.rs"]
mod plain;

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use loadworthy::calc::ampacity::{Ampacity, Conditions, Covering, ampacity};
use loadworthy::calc::continuous::{Load, requirement};
use loadworthy::calc::grounding::equipment;
use loadworthy::calc::overcurrent::{Supplies, largest_device};
use loadworthy::calc::voltage_drop::{Currents, Method, Segment, Wire, voltage_drop};
use loadworthy::calc::{CannotTell, Derivation, Silent, Working};
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::quantity::{Amperes, Ratio, Volts};
use loadworthy::trade::{ContinuousRating, DeviceKind, Insulation, Material, TerminalMark, WireSize};
use plain::Plain;
use rust_decimal::Decimal;

/// A circuit of 12 A continuous and 5 A more on 10 AWG copper THHN, six conductors at 38 °C, 85 ft from a 120 V source.
struct Circuit {
    conditions: Conditions,
    load: Load,
    supply: Volts,
    segment: Segment,
    method: Method,
}

impl Circuit {
    fn new() -> Self {
        let size: WireSize = "10 AWG".parse().unwrap();
        Self {
            conditions: Conditions {
                ambient: "38 °C".parse().unwrap(),
                current_carrying: 6,
                terminals: TerminalMark::C75,
                ..Conditions::base(Material::Copper, size, Covering::Insulation(Insulation::Thhn))
            },
            load: Load { continuous: Amperes::from_whole(12), non_continuous: Amperes::from_whole(5) },
            supply: Volts::from_whole(120),
            segment: Segment {
                wire: Wire::Sized(Material::Copper, size),
                neutral: None,
                length: "85 ft".parse().unwrap(),
                currents: Currents::TwoWire(Amperes::from_whole(17)),
            },
            method: Method::DirectCurrent { temperature: "75 °C".parse().unwrap() },
        }
    }

    fn ampacity(&self, code: &dyn Code, working: &mut impl Working) -> Result<Ampacity, CannotTell> {
        ampacity(code, &self.conditions, working)
    }

    fn drop(&self, code: &dyn Code, working: &mut impl Working) -> Result<bool, CannotTell> {
        let path = std::slice::from_ref(&self.segment);
        voltage_drop(code, self.supply, path, self.method, working).map(|found| found.within(Ratio::percent(3)))
    }

    /// Whether all of it holds, and its grounding conductor.
    fn whole(&self, code: &dyn Code, working: &mut impl Working) -> Result<(bool, WireSize), CannotTell> {
        let Conditions { material, size, .. } = self.conditions;
        let found = self.ampacity(code, working)?;
        let needed = requirement(code, self.load, ContinuousRating::Standard, working)?;
        let supplies = Supplies::SeveralReceptacles;
        let device =
            largest_device(code, DeviceKind::Breaker, found.usable, (material, size), supplies, working)?.rating;
        let grounding = equipment(code, material, device, None, working)?;
        let carries = needed.device <= device && needed.conductor_after_factors <= found.usable;
        Ok((carries && self.drop(code, working)?, grounding))
    }
}

fn all(criterion: &mut Criterion) {
    let (code, circuit) = (Nec::standard(Edition::Nec2023), Circuit::new());
    let (decimal, float) = (Plain::<Decimal>::read(), Plain::<f64>::read());
    // What is timed gives the same answers.
    let whole = circuit.whole(code, &mut Silent).unwrap();
    assert_eq!(whole, (true, "10 AWG".parse().unwrap()));
    assert_eq!(decimal.whole("10 AWG"), (true, "10 AWG"));
    assert_eq!(float.whole("10 AWG"), (true, "10 AWG"));

    let mut group = criterion.benchmark_group("ampacity");
    group.bench_function("silent", |b| b.iter(|| black_box(&circuit).ampacity(code, &mut Silent)));
    group.bench_function("with derivation", |b| {
        b.iter(|| black_box(&circuit).ampacity(code, &mut Derivation::default()))
    });
    group.bench_function("plain decimal", |b| b.iter(|| black_box(&decimal).ampacity("10 AWG")));
    group.bench_function("plain f64", |b| b.iter(|| black_box(&float).ampacity("10 AWG")));
    group.finish();

    let mut group = criterion.benchmark_group("voltage drop");
    group.bench_function("silent", |b| b.iter(|| black_box(&circuit).drop(code, &mut Silent)));
    group.bench_function("with derivation", |b| b.iter(|| black_box(&circuit).drop(code, &mut Derivation::default())));
    group.bench_function("plain decimal", |b| b.iter(|| black_box(&decimal).drop("10 AWG")));
    group.bench_function("plain f64", |b| b.iter(|| black_box(&float).drop("10 AWG")));
    group.finish();

    let mut group = criterion.benchmark_group("circuit");
    group.bench_function("silent", |b| b.iter(|| black_box(&circuit).whole(code, &mut Silent)));
    group.bench_function("with derivation", |b| b.iter(|| black_box(&circuit).whole(code, &mut Derivation::default())));
    group.bench_function("plain decimal", |b| b.iter(|| black_box(&decimal).whole("10 AWG")));
    group.bench_function("plain f64", |b| b.iter(|| black_box(&float).whole("10 AWG")));
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_secs(1)).measurement_time(Duration::from_secs(3));
    targets = all
}
criterion_main!(benches);
