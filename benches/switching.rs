//! How long it takes to explore every position of the switches of a network: the aims are under 50 ms for 16 devices
//! and under 1 s for 20, in less than 200 MB. Beside it, where it is installed, the model checker `spin` on the same
//! network, which is what one would use instead.
//!
//! The network is a ring of breakers with two sources and a utility, no breaker of which can be left out of account.

#![allow(missing_docs, clippy::unwrap_used)]

use std::fmt::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

use criterion::{Criterion, criterion_group};
use loadworthy::switching::{Goal, Interlock, Network, Outcome, Position, Source, State};

/// The argument that asks this program for the peak memory of one exploration, in a process of its own.
const PEAK_OF: &str = "--peak-of";

/// The supplies of a ring, each with the node that it feeds.
fn supplies(switches: usize) -> [(&'static str, usize); 3] {
    [("utility", 0), ("one", switches / 3), ("two", 2 * switches / 3)]
}

fn ring(switches: usize) -> (Network, State) {
    let node = |index: usize| format!("node {}", index % switches);
    let mut builder = Network::builder();
    let mut positions = Vec::new();
    for index in 0..switches {
        builder = builder.breaker(&format!("breaker {index}"), &node(index), &node(index + 1));
        positions.push((format!("breaker {index}"), Position::Open));
    }
    for (name, at) in supplies(switches) {
        let (added, position) = match name {
            "utility" => (builder.utility(name, &node(at)), Position::Dead),
            _ => (builder.source(name, &node(at), Source::unknown()), Position::Stopped),
        };
        builder = added;
        positions.push((name.to_owned(), position));
    }
    let network = builder.interlock("breaker 0", "breaker 1", Interlock::Devices).build().unwrap();
    let listed: Vec<(&str, Position)> = positions.iter().map(|(name, position)| (name.as_str(), *position)).collect();
    let state = network.state(&listed).unwrap();
    (network, state)
}

/// An interlocked panel of four branches, for which an order is found as well.
fn panel() -> (Network, State, Goal) {
    use Position as P;
    let watts = |power: u32| format!("{power} W").parse().unwrap();
    let facts = Source::unknown()
        .rated(watts(7200))
        .surge(watts(9000))
        .leg_rated(watts(3600))
        .system("120/240 V".parse().unwrap())
        .neutral_bonded(false)
        .neutral_switched(false)
        .engine(true);
    let mut builder = Network::builder()
        .utility("utility", "service")
        .breaker("main", "service", "bus")
        .breaker("inlet breaker", "bus", "inlet")
        .interlock("main", "inlet breaker", Interlock::Devices)
        .joint("inlet", "inlet", "cord")
        .source("generator", "cord", facts);
    let mut positions: Vec<(String, P)> = [
        ("utility", P::Dead),
        ("main", P::Closed),
        ("inlet breaker", P::Open),
        ("inlet", P::Parted),
        ("generator", P::Stopped),
    ]
    .map(|(name, position)| (name.to_owned(), position))
    .into();
    for (index, leg) in ["A", "B", "A", "B"].into_iter().enumerate() {
        let facts = loadworthy::switching::Load::unknown()
            .running(watts(200))
            .starting(watts(1500))
            .voltage("120 V".parse().unwrap())
            .leg(leg.parse().unwrap())
            .shared_neutral(false)
            .rotation(loadworthy::switching::RotationNeed::Any);
        let (branch, wire, load) = (format!("branch {index}"), format!("wire {index}"), format!("load {index}"));
        builder = builder.breaker(&branch, "bus", &wire).load(&load, &wire, facts);
        positions.extend([(branch, P::Closed), (load, P::On)]);
    }
    let network = builder.premises("bus").service_bonded(true).other_bonds(0).build().unwrap();
    let listed: Vec<(&str, P)> = positions.iter().map(|(name, position)| (name.as_str(), *position)).collect();
    let state = network.state(&listed).unwrap();
    let loads = (0..4).filter_map(|index| network.find(&format!("load {index}"))).collect();
    let source = network.find("generator").unwrap();
    (network, state, Goal::Fed { source, loads })
}

fn explorations(bench: &mut Criterion) {
    for switches in [16, 20] {
        let (network, start) = ring(switches);
        bench.bench_function(&format!("explore {switches} devices"), |timed| {
            timed.iter(|| network.explore(std::hint::black_box(&start)).unwrap());
        });
    }
    let (network, start, goal) = panel();
    bench.bench_function("find the order of a panel of four branches", |timed| {
        timed.iter(|| network.find_order(std::hint::black_box(&start), &goal).unwrap());
    });
}

/// The greatest memory that this process has held, in megabytes; `None` where the system does not tell.
fn peak() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(line.trim().strip_suffix(" kB")?.trim().parse::<u64>().ok()?.div_ceil(1024))
}

fn explore_once(switches: usize) {
    let (network, start) = ring(switches);
    let found = network.explore(&start).unwrap();
    assert_eq!(found.outcome, Outcome::Fails);
    let peak = peak().map_or_else(|| "not told by this system".to_owned(), |megabytes| format!("{megabytes} MB"));
    println!("explore {switches} devices: {} states, peak memory {peak}", found.reached);
}

/// The ring as a model, as short as a model checker may wish it: a bit a breaker, and two supplies joined where every
/// breaker of an arc between them is closed.
fn model(switches: usize) -> String {
    let arc = |from: usize, to: usize| {
        let on_it = (0..switches).filter(|breaker| (from..to).contains(breaker));
        on_it.map(|breaker| format!("s[{breaker}]")).collect::<Vec<_>>().join(" && ")
    };
    let at = supplies(switches).map(|(_, node)| node);
    let mut joined = Vec::new();
    for (one, other) in [(at[0], at[1]), (at[0], at[2]), (at[1], at[2])] {
        let outer = [arc(0, one), arc(other, switches)].into_iter().filter(|arc| !arc.is_empty());
        joined.push(format!("({})", arc(one, other)));
        joined.push(format!("({})", outer.collect::<Vec<_>>().join(" && ")));
    }
    // A model checker stops at the first assertion that fails; to see every state it has to note them instead.
    let joined = joined.join(" || ");
    let mut text = format!("bool s[{switches}]; bool joined;\nactive proctype anybody() {{\n  do\n");
    for index in 0..switches {
        let guard = match index {
            0 => " && !s[1]",
            1 => " && !s[0]",
            _ => "",
        };
        let _ = writeln!(text, "  :: d_step {{ !s[{index}]{guard} -> s[{index}] = 1; joined = {joined} }}");
        let _ = writeln!(text, "  :: d_step {{ s[{index}] -> s[{index}] = 0; joined = {joined} }}");
    }
    text.push_str("  od }\n");
    text
}

/// Explores the model with `spin`; says so where it cannot.
fn spin(switches: usize) -> Result<(), Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("spin-{switches}"));
    std::fs::create_dir_all(&folder)?;
    std::fs::write(folder.join("model.pml"), model(switches))?;
    let run = |program: &str, arguments: &[&str]| -> Result<String, Box<dyn std::error::Error>> {
        let output = Command::new(program).args(arguments).current_dir(&folder).stderr(Stdio::null()).output()?;
        if output.status.success() {
            Ok(String::from_utf8(output.stdout)?)
        } else {
            Err(format!("`{program}` failed: {}", String::from_utf8_lossy(&output.stdout)).into())
        }
    };
    run("spin", &["-a", "model.pml"])?;
    run("cc", &["-O2", "-DSAFETY", "-DNOREDUCE", "-o", "pan", "pan.c"])?;
    let before = Instant::now();
    let said = run("./pan", &["-m2000000", "-w22"])?;
    let spent = before.elapsed();
    let (network, start) = ring(switches);
    let before = Instant::now();
    let found = network.explore(&start)?;
    let own = before.elapsed();
    let states = said.lines().find_map(|line| line.trim().strip_suffix(" states, stored")).unwrap_or("?");
    println!(
        "spin on {switches} devices: {states} states in {spent:.2?}, {:.0} times as long as here ({} states in {own:.2?})",
        spent.as_secs_f64() / own.as_secs_f64(),
        found.reached
    );
    Ok(())
}

/// Memory and the comparison, which are no matter of many repetitions.
fn once() {
    for switches in [16, 20] {
        let own = std::env::current_exe().unwrap();
        let asked = Command::new(own).args([PEAK_OF, &switches.to_string()]).status();
        if !asked.is_ok_and(|status| status.success()) {
            println!("explore {switches} devices: peak memory could not be measured");
        }
    }
    for switches in [16, 20] {
        if let Err(why) = spin(switches) {
            println!("spin on {switches} devices: left out ({why})");
        }
    }
}

criterion_group!(benches, explorations);

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if let Some(place) = arguments.iter().position(|argument| argument == PEAK_OF) {
        explore_once(arguments.get(place + 1).and_then(|switches| switches.parse().ok()).unwrap());
        return;
    }
    // Cargo runs benches as tests too, to see that they work: then nothing is measured.
    if arguments.iter().any(|argument| argument == "--bench") {
        once();
    }
    benches();
    Criterion::default().configure_from_args().final_summary();
}
