//! What guards the house whatever a document says: no panic, nothing gained by silence, no matter of order, and no
//! overload cured by one more load. The sites are the examples and those of every case.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod corpus;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use loadworthy::check::{Report, Verdict, WithWorking, check};
use loadworthy::code::{Edition, Nec};
use loadworthy::report;
use loadworthy::rules::Outcome;
use loadworthy::site::{Kind, Problems, Site};
use proptest::prelude::*;
use toml::{Table, Value};

/// Fields whose absence is itself a statement by their own documentation, so that leaving them out may make a limit
/// vanish: kind of record, field, why.
const ABSENCE_SAYS_SOMETHING: &[(&str, &str, &str)] = &[
    ("cord", "current_carrying", "stated only where it differs from what the system says"),
    ("inlet", "rated_current", "stated only where it differs from the configuration's"),
    ("source", "continuous_apparent_power", "another statement of what the source gives remains"),
    ("panel", "from", "a panel without it is one that no source reaches"),
    ("source", "replaced_earthing", "only IEC 60364 asks for it; under the NEC nothing waits for it"),
    ("panel", "supply_breaker", "a panel that transfer equipment feeds by its lugs has none"),
    ("source", "carbon_monoxide_shutoff", "a source has one only where that is stated"),
    ("source", "greatest_drop", "a source requires a limit only where its maker states one"),
];

static SITES: LazyLock<Vec<(String, String)>> = LazyLock::new(corpus::sites);
static EXAMPLES: LazyLock<Vec<(Table, Vec<Field>)>> = LazyLock::new(of_examples);

/// What was found, by rule and component.
type Outcomes = BTreeMap<(&'static str, String), Vec<Outcome>>;

fn with_report<T>(site: &Site, use_report: impl FnOnce(&Report<'_>) -> T) -> T {
    let edition = Edition::of_id(&site.premises().code).unwrap_or(Edition::Nec2023);
    use_report(&check(site, Nec::standard(edition), WithWorking::No))
}

fn outcomes(report: &Report<'_>) -> Outcomes {
    let mut outcomes = Outcomes::new();
    for finding in &*report.findings {
        let name = report.site.component(finding.subject).map_or("", |component| component.name()).to_owned();
        outcomes.entry((finding.rule.slug, name)).or_default().push(finding.outcome);
    }
    outcomes
}

fn read(table: &Table) -> Result<Site, Problems> {
    Site::from_toml("site.toml", &toml::to_string(table).expect("a table prints"))
}

/// The site, and both reports of it, as text.
fn through_everything(text: &str) -> Option<(Verdict, String, String)> {
    let site = Site::from_toml("site.toml", text).ok()?;
    Some(with_report(&site, |found| {
        let mut shown = String::new();
        report::text::write(found, &mut shown).expect("a string takes any text");
        let document = serde_json::to_string(&report::json::document(found)).expect("a report prints as JSON");
        (found.verdict(), shown, document)
    }))
}

/// A way to a field: the keys and numbers before it, its record's kind, and its own key.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Field {
    steps: Vec<Step>,
    record: String,
    key: String,
}

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Step {
    Key(String),
    At(usize),
}

/// Every field of every record, and every record inside another.
fn fields(table: &Table, record: &str, steps: &[Step], found: &mut Vec<Field>) {
    for (key, value) in table {
        let inside = |step: Option<usize>| {
            let mut steps = steps.to_vec();
            steps.push(Step::Key(key.clone()));
            steps.extend(step.map(Step::At));
            steps
        };
        match value {
            Value::Table(nested) => fields(nested, key, &inside(None), found),
            Value::Array(records) => {
                for (index, nested) in records.iter().enumerate() {
                    if let Value::Table(nested) = nested {
                        fields(nested, key, &inside(Some(index)), found);
                    }
                }
            }
            _ => {}
        }
        if !record.is_empty() && !matches!(value, Value::Array(_)) || record.is_empty() && key == "utility" {
            found.push(Field { steps: steps.to_vec(), record: record.to_owned(), key: key.clone() });
        }
    }
}

fn remove(value: &mut Value, steps: &[Step], key: &str) {
    match (steps.split_first(), value) {
        (None, Value::Table(table)) => drop(table.remove(key)),
        (Some((Step::Key(step), rest)), Value::Table(table)) => {
            table.get_mut(step).map(|value| remove(value, rest, key)).unwrap_or_default();
        }
        (Some((Step::At(step), rest)), Value::Array(values)) => {
            values.get_mut(*step).map(|value| remove(value, rest, key)).unwrap_or_default();
        }
        // The record that had the field is gone already.
        _ => {}
    }
}

fn without(table: &Table, field: &Field) -> Table {
    let mut value = Value::Table(table.clone());
    remove(&mut value, &field.steps, &field.key);
    match value {
        Value::Table(table) => table,
        _ => table.clone(),
    }
}

fn is_excepted(field: &Field) -> bool {
    ABSENCE_SAYS_SOMETHING.iter().any(|(record, key, _)| (*record, *key) == (&*field.record, &*field.key))
}

/// What silence gained: the finding that now holds, or the verdict.
fn gained(before: &Report<'_>, after: &Report<'_>) -> Vec<String> {
    let (old, new) = (outcomes(before), outcomes(after));
    let open = |outcomes: &[Outcome]| outcomes.iter().any(|outcome| *outcome != Outcome::Holds);
    let questions = |found: &Report<'_>| -> BTreeSet<String> {
        found.questions().iter().map(|open| report::question(found, open)).collect()
    };
    let asks = questions(after).difference(&questions(before)).next().is_some();
    let mut gained = Vec::new();
    for ((rule, name), outcomes) in &old {
        if !open(outcomes) {
            continue;
        }
        // What was found of one component may now be asked of another: the whole rule must not fall silent.
        let same = new.get(&(*rule, name.clone()));
        let elsewhere = new.iter().any(|((other, _), outcomes)| other == rule && open(outcomes));
        // Nor may it turn to "holds"; it may end only where the missing fact is asked for by another rule.
        if same.is_some_and(|same| !open(same)) && !elsewhere || same.is_none() && !elsewhere && !asks {
            gained.push(format!("{rule} of `{name}`"));
        }
    }
    if before.verdict() != Verdict::Loadworthy && after.verdict() == Verdict::Loadworthy {
        gained.push("the verdict".to_owned());
    }
    gained
}

/// What is gained by leaving fields out of a site; nothing where what is left is no site.
fn gained_without(before: &Site, table: &Table, fields: &[&Field]) -> Vec<String> {
    let changed = fields.iter().fold(table.clone(), |table, field| without(&table, field));
    let Ok(after) = read(&changed) else { return Vec::new() };
    with_report(before, |before| with_report(&after, |after| gained(before, after)))
}

fn table(text: &str) -> Table {
    text.parse().expect("a site of the corpus is TOML")
}

#[test]
fn leaving_a_fact_out_gains_nothing() {
    let mut wrong = BTreeSet::new();
    let mut needed = BTreeSet::new();
    for (name, text) in SITES.iter() {
        let table = table(text);
        let before = read(&table).unwrap_or_else(|problems| panic!("{name}: {problems}"));
        let mut all = Vec::new();
        fields(&table, "", &[], &mut all);
        for field in &all {
            let gained = gained_without(&before, &table, &[field]);
            if gained.is_empty() {
                continue;
            }
            let (record, key) = (field.record.clone(), field.key.clone());
            if is_excepted(field) {
                needed.insert((record, key));
            } else {
                wrong.insert(format!("{record}.{key} in {name}: {}", gained.join(", ")));
            }
        }
    }
    assert!(wrong.is_empty(), "leaving out gains: {wrong:#?}");
    let listed = ABSENCE_SAYS_SOMETHING.iter();
    let idle: Vec<_> =
        listed.filter(|(record, key, _)| !needed.contains(&((*record).to_owned(), (*key).to_owned()))).collect();
    assert!(idle.is_empty(), "these gain nothing any more: take them off the list: {idle:#?}");
}

/// The fields of each example that may be left out in pairs.
fn of_examples() -> Vec<(Table, Vec<Field>)> {
    let examples = corpus::examples();
    let read = examples.iter().map(|(_, text)| {
        let table = table(text);
        let mut all = Vec::new();
        fields(&table, "", &[], &mut all);
        all.retain(|field| !is_excepted(field));
        (table, all)
    });
    read.collect()
}

/// The arrays of records of a document in another order.
fn shuffled(table: &Table, seed: &[u32]) -> Table {
    let mut changed = table.clone();
    for value in changed.iter_mut().map(|(_, value)| value) {
        if let Value::Array(records) = value {
            let mut keyed: Vec<(u32, Value)> =
                records.drain(..).zip(seed.iter().copied().cycle()).map(|(record, key)| (key, record)).collect();
            keyed.sort_by_key(|(key, _)| *key);
            records.extend(keyed.into_iter().map(|(_, record)| record));
        }
    }
    changed
}

/// A document whose loads all lack some fields.
fn without_in_loads(table: &Table, keys: &[&str]) -> Table {
    let mut changed = table.clone();
    if let Some(Value::Array(loads)) = changed.get_mut("load") {
        for load in loads.iter_mut().filter_map(Value::as_table_mut) {
            load.retain(|key, _| !keys.contains(&key));
        }
    }
    changed
}

/// Every finding as a line: what the order of a document must not change.
fn lines(site: &Site) -> BTreeSet<String> {
    with_report(site, |found| {
        let all = found.findings.iter();
        all.map(|finding| {
            let remedy = finding.remedy.map(|remedy| remedy.to_string()).unwrap_or_default();
            format!("{} {:?} {} {remedy}", finding.rule.slug, finding.outcome, report::sentence(found, finding))
        })
        .collect()
    })
}

#[test]
fn the_order_of_a_document_does_not_matter() {
    let mut wrong = BTreeSet::new();
    for (name, text) in SITES.iter() {
        // Also where every load lacks the same fact: which of them is asked for must not depend on who stands first.
        for lacking in [&[][..], &["current", "power"], &["duty"], &["leg"]] {
            let table = without_in_loads(&table(text), lacking);
            let Ok(site) = read(&table) else { continue };
            for seed in [[3, 2, 1, 0], [1, 3, 0, 2]] {
                let other = read(&shuffled(&table, &seed)).expect("the same records");
                let (first, second) = (lines(&site), lines(&other));
                wrong.extend(first.symmetric_difference(&second).map(|line| format!("{name} {lacking:?}: {line}")));
            }
        }
    }
    assert!(wrong.is_empty(), "found in one order and not in another: {wrong:#?}");
}

/// A load that is added to a site.
#[derive(Clone, Debug)]
struct Added {
    milliamperes: Option<u32>,
    duty: Option<&'static str>,
    leg: Option<&'static str>,
    to: usize,
}

fn added() -> impl Strategy<Value = Added> {
    let duty = prop::option::of(prop::sample::select(vec!["continuous", "non-continuous"]));
    let leg = prop::option::of(prop::sample::select(vec!["A", "B"]));
    (prop::option::of(0u32..60_000), duty, leg, 0usize..64).prop_map(|(milliamperes, duty, leg, to)| Added {
        milliamperes,
        duty,
        leg,
        to,
    })
}

/// A site with one more load on one of its components, which gives the voltage that others there have.
fn with_load(table: &Table, added: &Added) -> Option<Table> {
    let site = read(table).ok()?;
    let may_feed: Vec<String> = site
        .components()
        .filter(|component| Kind::Load.fed_from().contains(&component.kind()))
        .map(|component| component.name().to_owned())
        .collect();
    let to = may_feed.get(added.to.checked_rem(may_feed.len())?)?;
    let mut load = Table::new();
    load.insert("name".to_owned(), "one more".into());
    load.insert("from".to_owned(), to.as_str().into());
    load.insert("voltage".to_owned(), "120 V".into());
    if let Some(current) = added.milliamperes {
        load.insert("current".to_owned(), format!("{} A", f64::from(current) / 1000.0).into());
    }
    for (key, value) in [("duty", added.duty), ("leg", added.leg)] {
        value.map(|value| load.insert(key.to_owned(), value.into()));
    }
    let mut changed = table.clone();
    match changed.entry("load").or_insert(Value::Array(Vec::new())) {
        Value::Array(loads) => loads.push(Value::Table(load)),
        _ => return None,
    }
    Some(changed)
}

/// The rules that compare a load with what carries it.
const OF_LOADS: [&str; 7] = [
    "conductor-ampacity",
    "continuous-load-on-conductor",
    "continuous-load-on-device",
    "cord-ampacity",
    "receptacle-load",
    "smallest-rating-governs",
    "breaker-protects-conductor",
];

/// Those of these rules whose worst finding one more load made better. Where the way of a load branches, another
/// component than before may be the one that is overloaded.
fn cured(before: &Report<'_>, after: &Report<'_>) -> Vec<&'static str> {
    let worst = |found: &Report<'_>, slug: &str| {
        let own = found.findings.iter().filter(|finding| finding.rule.slug == slug);
        own.map(|finding| match finding.outcome {
            Outcome::Holds => 0,
            Outcome::CannotTell => 1,
            Outcome::Fails => 2,
        })
        .max()
    };
    OF_LOADS.into_iter().filter(|slug| worst(after, slug) < worst(before, slug)).collect()
}

/// A change of a document's text.
#[derive(Clone, Debug)]
enum Change {
    /// Leaves a line out.
    Drop(usize),
    /// Two lines change places.
    SwapLines(usize, usize),
    /// Two lines change what stands behind their `=`.
    SwapValues(usize, usize),
    /// Units become others.
    Units(usize, &'static str, &'static str),
    /// A word becomes another.
    Replace(usize, &'static str),
    /// The rest is cut off.
    Cut(usize),
}

fn change() -> impl Strategy<Value = Change> {
    let units = vec![" A", " V", " ft", " AWG", " °C", " W", " kVA", " %", " kcmil", " mm²", ""];
    let values = vec![
        "0",
        "-1",
        "true",
        "\"\"",
        "[]",
        "{}",
        "\"0 A\"",
        "\"1e30 A\"",
        "\"999999999999 A\"",
        "\"hardwired\"",
        "\"14-50P\"",
        "\"L21-30R\"",
        "\"480Y/277 V\"",
        "\"400Y/230 V\"",
        "\"240 V\"",
        "\"0 ft\"",
        "\"2000 kcmil\"",
        "\"40 AWG\"",
        "65535",
        "\"-40 °C\"",
        "\"utility\"",
        "\"main panel\"",
        "\"generator cord\"",
        "\"aluminum\"",
        "\"free air\"",
        "\"SRDT\"",
        "\"several receptacles\"",
    ];
    prop_oneof![
        any::<usize>().prop_map(Change::Drop),
        (any::<usize>(), any::<usize>()).prop_map(|(one, other)| Change::SwapLines(one, other)),
        (any::<usize>(), any::<usize>()).prop_map(|(one, other)| Change::SwapValues(one, other)),
        (any::<usize>(), prop::sample::select(units.clone()), prop::sample::select(units))
            .prop_map(|(at, from, to)| Change::Units(at, from, to)),
        (any::<usize>(), prop::sample::select(values)).prop_map(|(at, value)| Change::Replace(at, value)),
        any::<usize>().prop_map(Change::Cut),
    ]
}

fn changed(text: &str, changes: &[Change]) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for change in changes {
        let count = lines.len();
        if count == 0 {
            break;
        }
        match change {
            Change::Drop(at) => drop(lines.remove(at % count)),
            Change::SwapLines(one, other) => lines.swap(one % count, other % count),
            Change::SwapValues(one, other) => {
                let (one, other) = (one % count, other % count);
                let split = |line: &str| line.split_once('=').map(|(key, value)| (key.to_owned(), value.to_owned()));
                if let (Some((key, value)), Some((other_key, other_value))) = (split(&lines[one]), split(&lines[other]))
                {
                    lines[one] = format!("{key}={other_value}");
                    lines[other] = format!("{other_key}={value}");
                }
            }
            Change::Units(at, from, to) => lines[at % count] = lines[at % count].replace(from, to),
            Change::Replace(at, value) => {
                if let Some((key, _)) = lines[at % count].split_once('=') {
                    lines[at % count] = format!("{key}= {value}");
                }
            }
            Change::Cut(at) => lines.truncate(1 + at % count),
        }
    }
    lines.join("\n")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_document_panics(which in 0usize..3, changes in prop::collection::vec(change(), 1..6)) {
        let text = changed(corpus::examples()[which].1, &changes);
        let toml = through_everything(&text);
        // The same document as JSON says the same.
        if let (Some((verdict, ..)), Ok(table)) = (toml, text.parse::<Table>()) {
            let json = serde_json::to_string(&table).expect("a table prints as JSON");
            let site = Site::from_json("site.json", &json);
            if let Ok(site) = site {
                prop_assert_eq!(with_report(&site, |found| found.verdict()), verdict);
            }
        }
    }

    #[test]
    fn leaving_two_facts_out_gains_nothing(which in 0usize..3, one in any::<usize>(), other in any::<usize>()) {
        let (table, fields) = &EXAMPLES[which];
        let pair = [&fields[one % fields.len()], &fields[other % fields.len()]];
        let before = read(table).expect("an example is a site");
        let gained = gained_without(&before, table, &pair);
        prop_assert!(gained.is_empty(), "{:?} gain {:?}", pair, gained);
    }

    #[test]
    fn one_more_load_cures_nothing(which in any::<usize>(), added in added()) {
        let (name, text) = &SITES[which % SITES.len()];
        let table = table(text);
        let (Ok(before), Some(after)) = (read(&table), with_load(&table, &added)) else { return Ok(()) };
        let Ok(after) = read(&after) else { return Ok(()) };
        let cured = with_report(&before, |before| with_report(&after, |after| cured(before, after)));
        prop_assert!(cured.is_empty(), "{}: cured {:?}", name, cured);
    }
}
