//! One site of about 60 components: reading it, judging it with and without its working, and the whole process beside
//! an empty one.

use std::hint::black_box;
use std::process::{Command, Stdio};

use criterion::{Criterion, criterion_group, criterion_main};
use loadworthy::check::{WithWorking, check};
use loadworthy::code::{Edition, Nec};
use loadworthy::report;
use loadworthy::site::Site;

/// The cottage with circuits added until the site has at least 60 components.
fn sixty_components() -> String {
    let mut text = include_str!("../core/examples/cottage.toml").to_owned();
    for number in 0..14 {
        let voltage = if number % 4 == 3 { ("240 V", 2, "240 V") } else { ("120 V", 1, "120 V") };
        text.push_str(&format!(
            r#"
[[circuit]]
name = "bench circuit {number}"
from = "main panel"
overcurrent_device = {{ rating = "20 A", kind = "breaker", poles = {}, terminals = "75 °C" }}
voltage = "{}"
supplies = "one receptacle"
[circuit.wiring]
material = "copper"
size = "12 AWG"
cable = "NM-B"
place = "dry"
length = "{} ft"
current_carrying = 2
thermal_insulation = false
supply_terminals = "75 °C"
load_terminals = "75 °C"
grounding_size = "12 AWG"
grounding_material = "copper"

[[receptacle]]
name = "bench receptacle {number}"
from = "bench circuit {number}"
configuration = "{}-20R"

[[load]]
name = "bench load {number}"
from = "bench receptacle {number}"
power = "{} W"
power_factor = 0.95
voltage = "{}"
duty = "continuous"
leg = "{}"
"#,
            voltage.1,
            voltage.0,
            20 + number,
            if voltage.1 == 2 { "6" } else { "5" },
            100 + 7 * number,
            voltage.2,
            if voltage.1 == 2 {
                "both"
            } else if number % 2 == 0 {
                "A"
            } else {
                "B"
            },
        ));
    }
    text
}

fn site(criterion: &mut Criterion) {
    let text = sixty_components();
    let Ok(site) = Site::from_toml("bench.toml", &text) else { return };
    let components = site.components().count();
    let code = Nec::standard(Edition::Nec2023);
    let mut group = criterion.benchmark_group(format!("site of {components} components"));
    group.bench_function("read", |bench| bench.iter(|| Site::from_toml("bench.toml", black_box(&text)).is_ok()));
    group.bench_function("check", |bench| bench.iter(|| check(black_box(&site), code, WithWorking::No).findings.len()));
    group.bench_function("check with working", |bench| {
        bench.iter(|| check(black_box(&site), code, WithWorking::Yes).findings.len());
    });
    group.bench_function("check and print", |bench| {
        bench.iter(|| {
            let report = check(black_box(&site), code, WithWorking::No);
            let mut out = String::new();
            report::text::write(&report, &mut out).map(|()| out.len())
        });
    });
    group.finish();
    process(criterion, &text);
}

/// The whole process, beside one that does nothing.
fn process(criterion: &mut Criterion, text: &str) {
    let Some(binary) = option_env!("CARGO_BIN_EXE_loadworthy") else { return };
    let path = std::env::temp_dir().join(format!("loadworthy-bench-{}.toml", std::process::id()));
    if std::fs::write(&path, text).is_err() {
        return;
    }
    let mut group = criterion.benchmark_group("process");
    let run = |program: &str, arguments: &[&std::ffi::OsStr]| {
        Command::new(program).args(arguments).stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok()
    };
    group.bench_function("empty", |bench| bench.iter(|| run("true", &[])));
    group.bench_function("check", |bench| bench.iter(|| run(binary, &["check".as_ref(), path.as_os_str()])));
    group.finish();
    let _ = std::fs::remove_file(&path);
}

criterion_group!(benches, site);
criterion_main!(benches);
