//! The batch gives for every row what the calculations give for that row alone.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use std::ops::ControlFlow;

use loadworthy::batch::{
    Answer, Batch, Bits, Check, Circuit, Column, ColumnProblem, Data, Integers, Joined, JudgeError, OwnedAnswers,
    Phases, Reason, Run, Text, Verdict,
};
use loadworthy::calc::ampacity::{Conditions, Covering, ampacity, before_factors};
use loadworthy::calc::continuous::{Load, requirement};
use loadworthy::calc::overcurrent::{Supplies, largest_device};
use loadworthy::calc::voltage_drop::{Currents, Segment, Wire, voltage_drop};
use loadworthy::calc::{Derivation, Silent};
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::quantity::{Quantity, Scaled};
use loadworthy::size::circuit::{self, Conductors, DropLimit, Question, Role, TABLE_8};
use loadworthy::trade::{Cable, ContinuousRating, DeviceKind, Insulation, Word};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};

/// A row as people hand it in: words, and numbers in the units of the columns.
#[derive(Clone, Debug)]
struct Row {
    words: [Option<String>; 12],
    ambient_f: f64,
    current_carrying: i64,
    load_continuous_a: f64,
    load_other_a: f64,
    device_a: f64,
    voltage_v: f64,
    length_ft: f64,
    drop_limit_percent: f64,
}

const WORDS: [&str; 12] = [
    "material",
    "size",
    "insulation",
    "cable",
    "installation",
    "place",
    "thermal_insulation",
    "terminals",
    "device_kind",
    "continuous_rating",
    "supplies",
    "circuit",
];

/// Nulls of a column of text.
#[derive(Debug)]
struct Texts<'a>(Vec<Option<&'a str>>);

impl Text for Texts<'_> {
    fn rows(&self) -> usize {
        self.0.len()
    }

    fn get(&self, row: usize) -> Option<&str> {
        self.0.get(row).copied().flatten()
    }
}

/// The row as a circuit, by the texts of its quantities: nothing of the batch is used. `None` where it is none.
fn circuit(code: &dyn Code, row: &Row) -> Option<Circuit> {
    let word = |at: usize| row.words[at].as_deref();
    let covering = match (word(3), word(2)) {
        (Some(cable), insulation) => {
            Covering::Cable(cable.parse().ok()?, insulation.map(|text| text.parse::<Insulation>()).transpose().ok()?)
        }
        (None, Some(insulation)) => Covering::Insulation(insulation.parse().ok()?),
        (None, None) => return None,
    };
    let size = word(1)?.parse().ok()?;
    let thermal_insulation = match (word(6), covering) {
        (Some("yes"), _) => true,
        (Some("no"), _) => false,
        (Some(_), _) => return None,
        (None, Covering::Cable(cable, _)) => {
            let rule = |inside| code.cable(cable, inside, size).map(|cell| cell.value);
            if rule(true) == rule(false) {
                false
            } else {
                return None;
            }
        }
        (None, _) => false,
    };
    let amperes = |number: f64| format!("{number} A").parse().ok();
    let device = amperes(row.device_a)?;
    let conditions = Conditions {
        installation: word(4)?.parse().ok()?,
        place: word(5)?.parse().ok()?,
        ambient: format!("{} °F", row.ambient_f).parse().ok()?,
        current_carrying: u16::try_from(row.current_carrying).ok().filter(|count| (1..=999).contains(count))?,
        thermal_insulation,
        terminals: word(7)?.parse().ok()?,
        circuit_rating: Some(device),
        ..Conditions::base(word(0)?.parse().ok()?, size, covering)
    };
    let supplies = match word(10) {
        Some("other") => Some(Supplies::Other),
        Some("several-receptacles") => Some(Supplies::SeveralReceptacles),
        Some(_) => return None,
        None => None,
    };
    let run = Run {
        voltage: format!("{} V", row.voltage_v)
            .parse()
            .ok()
            .filter(|voltage: &loadworthy::quantity::Volts| voltage.count() > 0)?,
        phases: match word(11)? {
            "two-wire" => Phases::TwoWire,
            "three-phase" => Phases::ThreePhase,
            _ => return None,
        },
        length: format!("{} ft", row.length_ft).parse().ok()?,
        limit: Some(format!("{} %", row.drop_limit_percent).parse().ok()?),
    };
    Some(Circuit {
        conditions,
        load: Load { continuous: amperes(row.load_continuous_a)?, non_continuous: amperes(row.load_other_a)? },
        device,
        kind: word(8)?.parse().ok()?,
        continuous_rating: word(9)?.parse().ok()?,
        supplies,
        run: Some(run),
    })
}

fn words() -> impl Strategy<Value = [Option<String>; 12]> {
    fn some(words: Vec<&'static str>, nulls: u32) -> impl Strategy<Value = Option<String>> {
        let odd = prop_oneof![4 => Just(None), 1 => Just(Some("nonsense")), 1 => Just(Some(""))];
        let word = prop_oneof![40 => select(words).prop_map(Some), nulls => Just(None), 1 => odd];
        word.prop_map(|word| word.map(str::to_owned))
    }
    let sizes = vec![
        "18 AWG",
        "16 AWG",
        "14 AWG",
        "14 awg",
        "12 AWG",
        "12 AWG",
        "10 AWG",
        "8 AWG",
        "6 AWG",
        "4 AWG",
        "3 AWG",
        "1 AWG",
        "1/0 AWG",
        "4/0 AWG",
        "250 kcmil",
        "500 kcmil",
        "2000 kcmil",
        "1750 kcmil",
        "2.5 mm2",
        "27 AWG",
        "333 kcmil",
    ];
    let all = |spellings: Vec<&'static str>| spellings;
    let insulations = all(Insulation::all().into_iter().map(|(spelling, _)| spelling).collect());
    let cables = all(Cable::all().into_iter().map(|(spelling, _)| spelling).collect());
    (
        some(vec!["copper", "copper", "Cu", "aluminum", "copper-clad aluminum"], 0),
        some(sizes, 0),
        some(insulations, 10),
        some(cables, 60),
        some(vec!["raceway", "cable", "free air", "buried", "conduit"], 0),
        some(vec!["dry", "dry", "damp", "wet"], 0),
        some(vec!["yes", "no"], 20),
        some(vec!["60 °C", "75 °C", "60/75 °C", "90 °C", "unmarked", "unmarked"], 0),
        some(vec!["breaker", "fuse"], 0),
        some(vec!["80 %", "100 %"], 0),
        some(vec!["other", "several-receptacles"], 20),
        some(vec!["two-wire", "three-phase"], 0),
    )
        .prop_map(|(a, b, c, d, e, f, g, h, i, j, k, l)| [a, b, c, d, e, f, g, h, i, j, k, l])
}

/// Mostly what people write, with what they do not.
fn number(usual: impl Strategy<Value = f64> + 'static) -> impl Strategy<Value = f64> {
    let odd = select(vec![
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -1.0,
        -0.0,
        0.0,
        5e-324,
        1e300,
        f64::MAX,
        0.1 + 0.2,
        100_000.0,
        1e-7,
        9_007_199_254_740_993.0,
    ]);
    prop_oneof![60 => usual, 1 => odd, 1 => any::<u64>().prop_map(f64::from_bits)]
}

fn amperes() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => (0_u32..1200).prop_map(|tenths| f64::from(tenths) / 10.0),
        1 => (0_u32..4_000_000).prop_map(|thousandths| f64::from(thousandths) / 1000.0),
        1 => select(vec![12.0, 16.0, 16.000_001, 15.999_999, 20.0, 24.0, 32.0, 40.0, 100_000.0]),
    ]
}

fn row() -> impl Strategy<Value = Row> {
    let ratings =
        select(vec![10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 60.0, 100.0, 100.000_001, 110.0, 225.0, 601.0, 6000.0]);
    (
        words(),
        number((-40_i32..200).prop_map(f64::from)),
        prop_oneof![30 => 1_i64..45, 1 => select(vec![0, -1, 999, 1000, i64::MIN, i64::MAX])],
        number(amperes()),
        number(amperes()),
        number(prop_oneof![5 => ratings, 1 => amperes()]),
        number(select(vec![120.0, 208.0, 240.0, 277.0, 480.0, 0.001, 1_000_000.0])),
        number(prop_oneof![
            (0_u32..5000).prop_map(|tenths| f64::from(tenths) / 10.0),
            select(vec![32_808.0, 32_809.0])
        ]),
        number(select(vec![1.5, 2.0, 3.0, 5.0, 0.0, 100.0, 100_000.0])),
    )
        .prop_map(
            |(
                words,
                ambient_f,
                current_carrying,
                load_continuous_a,
                load_other_a,
                device_a,
                voltage_v,
                length_ft,
                drop_limit_percent,
            )| Row {
                words,
                ambient_f,
                current_carrying,
                load_continuous_a,
                load_other_a,
                device_a,
                voltage_v,
                length_ft,
                drop_limit_percent,
            },
        )
}

/// Judges rows as columns; `coded` gives the words as a dictionary.
/// Codes of every width.
#[derive(Default)]
struct Codes(Vec<u8>, Vec<i8>, Vec<u16>, Vec<i16>, Vec<u32>, Vec<i32>, Vec<u64>, Vec<i64>);

impl Codes {
    fn of(codes: impl Iterator<Item = u8>) -> Self {
        let mut all = Self::default();
        for code in codes {
            all.0.push(code);
            all.1.push(code.cast_signed());
            all.2.push(code.into());
            all.3.push(code.into());
            all.4.push(code.into());
            all.5.push(code.into());
            all.6.push(code.into());
            all.7.push(code.into());
        }
        all
    }

    fn width(&self, number: usize) -> Integers<'_> {
        match number % 8 {
            0 => Integers::U8(&self.0),
            1 => Integers::I8(&self.1),
            2 => Integers::U16(&self.2),
            3 => Integers::I16(&self.3),
            4 => Integers::U32(&self.4),
            5 => Integers::I32(&self.5),
            6 => Integers::U64(&self.6),
            _ => Integers::I64(&self.7),
        }
    }
}

fn judged(code: &dyn Code, rows: &[Row], coded: bool) -> OwnedAnswers {
    let texts: Vec<Texts> =
        (0..12).map(|at| Texts(rows.iter().map(|row| row.words[at].as_deref()).collect())).collect();
    let dictionaries: Vec<(Codes, Vec<Option<&str>>)> = texts
        .iter()
        .map(|Texts(words)| {
            let mut known: Vec<Option<&str>> = words.clone();
            known.sort_unstable();
            known.dedup();
            (Codes::of(words.iter().map(|word| known.binary_search(word).unwrap() as u8)), known)
        })
        .collect();
    let numbers = |of: fn(&Row) -> f64| rows.iter().map(of).collect::<Vec<f64>>();
    let figures = [
        ("ambient_f", numbers(|row| row.ambient_f)),
        ("load_continuous_a", numbers(|row| row.load_continuous_a)),
        ("load_other_a", numbers(|row| row.load_other_a)),
        ("device_a", numbers(|row| row.device_a)),
        ("voltage_v", numbers(|row| row.voltage_v)),
        ("length_ft", numbers(|row| row.length_ft)),
        ("drop_limit_percent", numbers(|row| row.drop_limit_percent)),
    ];
    let counts: Vec<i64> = rows.iter().map(|row| row.current_carrying).collect();
    let mut columns: Vec<Column> =
        figures.iter().map(|(name, values)| Column { name, data: Data::F64(values), validity: None }).collect();
    columns.push(Column { name: "current_carrying", data: Data::Integers(Integers::I64(&counts)), validity: None });
    for (at, name) in WORDS.iter().enumerate() {
        let (codes, words) = &dictionaries[at];
        let data = if coded { Data::Coded { codes: codes.width(at), words } } else { Data::Text(&texts[at]) };
        columns.push(Column { name, data, validity: None });
    }
    let batch = Batch::new(code, &columns).unwrap();
    let mut answers = OwnedAnswers::new(batch.rows());
    batch.judge(answers.as_mut(), 1, &mut |_| ControlFlow::Continue(())).unwrap();
    for (at, row) in rows.iter().enumerate() {
        // What the batch reads of a row is the circuit that its texts say.
        let read = batch.circuit_of(at);
        assert_eq!(read.ok(), circuit(code, row), "{row:?} {:?}", read.map_err(|reason| reason.to_string()));
    }
    answers
}

/// The verdicts of a circuit by the calculations one by one, without the judgement of the library.
fn verdicts(code: &dyn Code, circuit: &Circuit) -> [Verdict; 5] {
    let of = &circuit.conditions;
    let needs = requirement(code, circuit.load, circuit.continuous_rating, &mut Silent);
    let found = ampacity(code, of, &mut Silent);
    let verdict = |holds: Option<bool>| match holds {
        Some(true) => Verdict::Holds,
        Some(false) => Verdict::Fails,
        None => Verdict::CannotTell,
    };
    let both = |supplies: Supplies| {
        let most =
            largest_device(code, circuit.kind, found.ok()?.usable, (of.material, of.size), supplies, &mut Silent);
        most.ok().map(|most| circuit.device <= most.rating)
    };
    let protects = match circuit.supplies {
        Some(supplies) => both(supplies),
        None => match (both(Supplies::Other), both(Supplies::SeveralReceptacles)) {
            (Some(loose), Some(strict)) if loose == strict => Some(strict),
            _ => None,
        },
    };
    // A small conductor without a limit that answers may rest on has none that could be read.
    let protects = code.small_conductor(of.material, of.size).is_ok().then_some(protects).flatten();
    let run = circuit.run.unwrap();
    // Part by part: what the two parts of the load drop adds up.
    let part = |current| Segment {
        wire: Wire::Sized(of.material, of.size),
        neutral: None,
        length: run.length,
        currents: match run.phases {
            Phases::TwoWire => Currents::TwoWire(current),
            Phases::ThreePhase => Currents::ThreePhase(current),
        },
    };
    let parts = [circuit.load.continuous, circuit.load.non_continuous].map(part);
    let drop = voltage_drop(code, run.voltage, &parts, TABLE_8, &mut Silent);
    let load = Scaled::whole(circuit.load.continuous) + Scaled::whole(circuit.load.non_continuous);
    [
        verdict(found.ok().map(|found| load <= found.usable)),
        verdict(before_factors(code, of, &mut Silent).ok().and_then(|limit| Some(needs.ok()?.conductor <= limit))),
        verdict(needs.ok().map(|needs| needs.device <= circuit.device)),
        verdict(protects),
        verdict(drop.ok().map(|drop| drop.within(run.limit.unwrap()))),
    ]
}

fn checks(answers: &OwnedAnswers, at: usize) -> [u8; 5] {
    [
        answers.conductor_ampacity[at],
        answers.continuous_load_on_conductor[at],
        answers.continuous_load_on_device[at],
        answers.breaker_protects_conductor[at],
        answers.voltage_drop[at],
    ]
}

fn agrees(code: &dyn Code, rows: &[Row], answers: &OwnedAnswers) {
    for (at, row) in rows.iter().enumerate() {
        let Some(circuit) = circuit(code, row) else {
            assert_eq!(answers.verdict[at], Verdict::CannotTell as u8, "{row:?}");
            assert_ne!(answers.reason[at], 0, "{row:?}");
            assert!(answers.ampacity_a[at].is_nan());
            continue;
        };
        let alone = circuit.judge(code, &mut Silent);
        assert_eq!(alone.checks, verdicts(code, &circuit), "{row:?}");
        assert_eq!(answers.verdict[at], alone.verdict as u8, "{row:?}");
        assert_eq!(checks(answers, at), alone.checks.map(|check| check as u8), "{row:?}");
        let answer = Answer::from(&alone);
        assert_eq!(answers.reason[at], answer.reason.number(), "{row:?}");
        assert_eq!(answers.decided_by[at], answer.decided_by, "{row:?}");
        assert_eq!(answers.ampacity_governed_by[at], answer.ampacity_governed_by, "{row:?}");
        assert_eq!(answers.largest_device_governed_by[at], answer.largest_device_governed_by, "{row:?}");
        let same =
            |columns: f64, alone: f64| assert_eq!(columns.to_bits(), alone.to_bits(), "{row:?} {columns} {alone}");
        same(answers.ampacity_a[at], answer.ampacity_a);
        same(answers.least_device_a[at], answer.least_device_a);
        same(answers.largest_device_a[at], answer.largest_device_a);
        same(answers.drop_v[at], answer.drop_v);
        same(answers.drop_percent[at], answer.drop_percent);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn every_row_is_what_it_is_alone(rows in prop::collection::vec(row(), 1..120), edition in select(Edition::ALL.to_vec())) {
        let code = Nec::standard(edition);
        agrees(code, &rows, &judged(code, &rows, false));
        agrees(code, &rows, &judged(code, &rows, true));
    }

    #[test]
    fn rows_of_few_words_are_what_they_are_alone(
        mut rows in prop::collection::vec((row().boxed(), any::<[bool; 5]>()), 4..120),
        pair in [words().boxed(), words().boxed()],
        vary in subsequence((0..12).collect::<Vec<usize>>(), 5),
        edition in select(Edition::ALL.to_vec()),
    ) {
        // So few combinations that their words are one index, as in a table of real circuits.
        for (row, second) in &mut rows {
            row.words = pair[0].clone();
            for (at, second) in vary.iter().zip(second) {
                row.words[*at] = pair[usize::from(*second)][*at].clone();
            }
        }
        let (code, rows) = (Nec::standard(edition), rows.into_iter().map(|(row, _)| row).collect::<Vec<_>>());
        agrees(code, &rows, &judged(code, &rows, true));
    }

    #[test]
    fn what_holds_is_what_the_sizes_pass(row in row()) {
        // The inverse question asks the same requirements: what holds here has no first failure there.
        let code = Nec::standard(Edition::Nec2023);
        let Some(of) = circuit(code, &row) else { return Ok(()) };
        let Some(supplies) = of.supplies else { return Ok(()) };
        let (judged, run) = (of.judge(code, &mut Silent), of.run.unwrap());
        let question = Question {
            role: Role::Branch,
            load: of.load,
            conductors: if run.phases == Phases::TwoWire { Conductors::LineAndNeutral } else { Conductors::ThreePhase },
            voltage: run.voltage,
            length: run.length,
            conditions: of.conditions,
            drop: run.limit.map(|share| DropLimit { share, method: TABLE_8 }),
            device: circuit::Device {
                kind: of.kind, continuous_rating: of.continuous_rating, supplies, ..circuit::Device::BREAKER
            },
            grounding: None,
            most_sets: 1,
        };
        let failure = circuit::first_failure(code, &question, of.device, 1, of.conditions.size);
        if judged.verdict == Verdict::Holds {
            let smallest = failure == Ok(Some(loadworthy::size::Requirement::SmallestConductor));
            prop_assert!(smallest || failure == Ok(None), "{:?} {:?}", failure, row);
        }
    }
}

fn row_of(current: f64, limit: f64) -> Row {
    let words =
        ["copper", "12 AWG", "THWN-2", "", "raceway", "dry", "", "75 °C", "breaker", "80 %", "other", "two-wire"];
    Row {
        words: words.map(|word| (!word.is_empty()).then(|| word.to_owned())),
        ambient_f: 86.0,
        current_carrying: 3,
        load_continuous_a: current,
        load_other_a: 0.0,
        device_a: 20.0,
        voltage_v: 120.0,
        length_ft: 100.0,
        drop_limit_percent: limit,
    }
}

#[test]
fn limits_hold_at_the_value_and_not_one_step_over() {
    let code = Nec::standard(Edition::Nec2023);
    // 125 % of 16 A is the rating of the device. 12 AWG drops 2 x 1.98 ohm/kft: 16 A over 100 ft is 6.336 V, 5.28 %.
    let rows = [row_of(15.999_999, 5.28), row_of(16.0, 5.28), row_of(16.000_001, 5.28), row_of(16.0, 5.2799)];
    let answers = judged(code, &rows, true);
    let of = |check: Check| (0..4).map(|at| checks(&answers, at)[check as usize]).collect::<Vec<u8>>();
    assert_eq!(of(Check::ContinuousLoadOnDevice), [0, 0, 1, 0]);
    assert_eq!(of(Check::VoltageDrop), [0, 0, 1, 1]);
    assert_eq!(answers.drop_v[1], 6.336);
    assert_eq!(answers.drop_percent[1], 5.28);
    assert_eq!(answers.least_device_a[..3], [20.0, 20.0, 25.0]);
    assert_eq!(answers.decided_by, [0, 0, Check::ContinuousLoadOnDevice as u8 + 1, Check::VoltageDrop as u8 + 1]);
}

#[test]
fn loads_that_together_are_beyond_a_current_drop_all_that_they_drop() {
    let code = Nec::standard(Edition::Nec2023);
    let words = minimal_words(4).into_iter().filter(|(name, _)| *name == "material").collect::<Vec<_>>();
    // 2000 kcmil copper has 0.00643 ohm/kft, Chapter 9 Table 8: 180 kA over 2.8 ft and back drop 6.48144 V; 100 kA
    // over 3 ft drop 3.858 V, exactly 3.215 % of 120 V, and one microampere more drops more.
    // 12 AWG has 1.98 ohm/kft: 90 kA over 32,000 ft would drop 11,404.8 kV, more than any voltage that is kept.
    let words = [
        words,
        vec![
            ("size", vec!["2000 kcmil", "2000 kcmil", "2000 kcmil", "12 AWG"]),
            ("insulation", vec!["XHHW-2"; 4]),
            ("circuit", vec!["two-wire"; 4]),
            ("supplies", vec!["other"; 4]),
        ],
    ]
    .concat();
    let numbers: [(&str, [f64; 4]); 6] = [
        ("load_continuous_a", [90_000.0, 50_000.0, 100_000.0, 45_000.0]),
        ("load_other_a", [90_000.0, 50_000.0, 0.000_001, 45_000.0]),
        ("device_a", [100_000.0; 4]),
        ("voltage_v", [120.0; 4]),
        ("length_ft", [2.8, 3.0, 3.0, 32_000.0]),
        ("drop_limit_percent", [5.4011, 3.215, 3.215, 4.0]),
    ];
    let mut columns: Vec<Column<'_>> =
        words.iter().map(|(name, texts)| Column { name, data: Data::Text(texts), validity: None }).collect();
    columns.extend(numbers.iter().map(|(name, values)| Column { name, data: Data::F64(values), validity: None }));
    let batch = Batch::new(code, &columns).unwrap();
    let mut answers = OwnedAnswers::new(4);
    batch.judge(answers.as_mut(), 1, &mut |_| ControlFlow::Continue(())).unwrap();
    assert_eq!(answers.drop_v, [6.482, 3.858, 3.859, 11_404_800.0]);
    assert_eq!(answers.drop_percent[..3], [5.4012, 3.215, 3.2151]);
    assert!(answers.drop_percent[3].is_nan());
    let fails = Verdict::Fails as u8;
    assert_eq!(answers.voltage_drop, [fails, Verdict::Holds as u8, fails, fails]);
    assert_eq!(answers.conductor_ampacity, [fails; 4]);
    for row in 0..4 {
        let circuit = batch.circuit_of(row).unwrap();
        assert_eq!(circuit.judge(code, &mut Silent).checks.map(|check| check as u8), checks(&answers, row), "{row}");
    }
}

/// What one would write in doubles, correctly but for the rounding of doubles.
fn holds_in_doubles(row: &Row) -> bool {
    let drop = 2.0 * 1.98 / 1000.0 * row.length_ft * row.load_continuous_a;
    drop / row.voltage_v * 100.0 <= row.drop_limit_percent
}

#[test]
fn doubles_go_wrong_at_the_limits_and_the_batch_does_not() {
    let code = Nec::standard(Edition::Nec2023);
    // Runs that drop exactly their limit: I tenths of an ampere over 100 ft of 2 x 1.98 ohm/kft is 0.0396 I V.
    let rows: Vec<Row> =
        (1..160).map(|tenths| row_of(f64::from(tenths) / 10.0, f64::from(tenths * 33) / 1000.0)).collect();
    let answers = judged(code, &rows, true);
    assert!(answers.voltage_drop.iter().all(|verdict| *verdict == Verdict::Holds as u8));
    let wrong = rows.iter().filter(|row| !holds_in_doubles(row)).count();
    assert!(wrong > 10, "doubles were wrong in {wrong} of {} rows", rows.len());
}

#[test]
fn missing_facts_never_hold() {
    let code = Nec::standard(Edition::Nec2023);
    let full = row_of(12.0, 10.0);
    assert_eq!(judged(code, std::slice::from_ref(&full), false).verdict, [Verdict::Holds as u8]);
    for at in [0, 1, 2, 4, 5, 7, 8, 9, 11] {
        let mut row = full.clone();
        row.words[at] = None;
        let answers = judged(code, &[row], false);
        assert_eq!(answers.verdict, [Verdict::CannotTell as u8], "{}", WORDS[at]);
    }
}

#[test]
fn what_is_supplied_is_asked_for_where_it_decides() {
    let code = Nec::standard(Edition::Nec2023);
    // 4 AWG THHN at 40 °C on 75 °C terminals: 85 A; 90 A is the next standard rating, which receptacles may not use.
    let mut row = row_of(10.0, 100.0);
    row.words[1] = Some("4 AWG".to_owned());
    row.device_a = 90.0;
    row.words[10] = None;
    let answers = judged(code, std::slice::from_ref(&row), false);
    assert_eq!(answers.reason, [Reason::SUPPLIES_DECIDES.number()]);
    assert_eq!(answers.verdict, [Verdict::CannotTell as u8]);
    row.device_a = 80.0;
    assert_eq!(judged(code, &[row], false).verdict, [Verdict::Holds as u8]);
}

fn minimal<'a>(numbers: &'a [f64], words: &'a [(&'static str, Vec<&'static str>)]) -> Vec<Column<'a>> {
    let texts = words.iter().map(|(name, texts)| Column { name, data: Data::Text(texts), validity: None });
    let figures = ["load_continuous_a", "load_other_a", "device_a"];
    let figures = figures.map(|name| Column { name, data: Data::F64(numbers), validity: None });
    texts.chain(figures).collect()
}

fn minimal_words(rows: usize) -> Vec<(&'static str, Vec<&'static str>)> {
    vec![("material", vec!["copper"; rows]), ("size", vec!["12 AWG"; rows]), ("cable", vec!["NM-B"; rows])]
}

#[test]
fn all_problems_of_the_columns_come_at_once() {
    let code = Nec::standard(Edition::Nec2023);
    let (short, long, texts) = ([1.0], [1.0, 2.0], vec!["x", "y"]);
    let columns = [
        Column { name: "load_continuous", data: Data::F64(&long), validity: None },
        Column { name: "load_other_a", data: Data::Text(&texts), validity: None },
        Column { name: "device_a", data: Data::F64(&short), validity: None },
        Column { name: "ambiant_c", data: Data::F64(&long), validity: None },
        Column { name: "length_ft", data: Data::F64(&long), validity: Some(Bits { bytes: &[], offset: 0 }) },
        Column { name: "length_m", data: Data::F64(&long), validity: None },
        Column { name: "zzz", data: Data::F64(&long), validity: None },
    ];
    let problems = Batch::new(code, &columns).unwrap_err();
    assert_eq!(
        problems.to_string(),
        "column `load_continuous` is not known; its unit is missing; write `load_continuous_a` or `load_continuous_ma`\n\
         column `load_other_a` holds text; it must hold numbers\n\
         column `device_a` has 1 rows; the others have 2\n\
         column `ambiant_c` is not known; did you mean `ambient_c`?\n\
         column `length_ft` has 0 rows; the others have 2\n\
         columns `length_ft` and `length_m` say the same; give one of them\n\
         column `zzz` is not known; leave it out\n\
         column `material` is missing and decides\n\
         column `size` is missing and decides\n\
         column `load_continuous_a` or `load_continuous_ma` is missing and decides\n\
         column `insulation` or `cable` is missing and decides\n\
         column `voltage_v` or `voltage_mv` or `voltage_kv` is missing and decides the voltage drop\n\
         column `circuit` is missing and decides the voltage drop"
    );
    assert!(matches!(problems.0[0], ColumnProblem::Unknown { .. }));
}

#[test]
fn a_column_left_out_is_assumed_and_said_so() {
    let code = Nec::standard(Edition::Nec2023);
    let (numbers, words) = ([5.0], minimal_words(1));
    let columns = minimal(&numbers, &words);
    let batch = Batch::new(code, &columns).unwrap();
    let circuit = batch.circuit_of(0).unwrap();
    let base = Conditions::base(circuit.conditions.material, circuit.conditions.size, circuit.conditions.covering);
    assert_eq!(circuit.conditions, Conditions { circuit_rating: Some(circuit.device), ..base });
    assert_eq!(circuit.kind, DeviceKind::Breaker);
    assert_eq!(circuit.continuous_rating, ContinuousRating::Standard);
    assert_eq!((circuit.supplies, circuit.run), (None, None));
    assert_eq!(batch.assumed().len(), 8);
    assert_eq!(batch.circuit_of(1).unwrap_err(), Reason::NONE);
    let mut working = Derivation::default();
    assert_eq!(circuit.judge(code, &mut working).checks[4], Verdict::NotAsked);
    assert!(!working.steps.is_empty());
}

#[test]
fn a_bad_row_says_why_and_stops_nothing() {
    let code = Nec::standard(Edition::Nec2023);
    let rows = 100_000;
    let words = minimal_words(rows);
    let mut numbers = vec![10.0; rows];
    let mut valid = vec![0xff_u8; rows.div_ceil(8)];
    for at in (0..rows).step_by(100) {
        numbers[at] = [f64::NAN, -1.0, 0.1 + 0.2, 1e300, 10.0][at / 100 % 5];
    }
    valid[50] &= !1; // row 400 is null
    let mut columns = minimal(&numbers, &words);
    columns[3].validity = Some(Bits { bytes: &valid, offset: 0 });
    let batch = Batch::new(code, &columns).unwrap();
    let mut answers = OwnedAnswers::new(rows);
    batch.judge(answers.as_mut(), 2, &mut |_| ControlFlow::Continue(())).unwrap();
    let text = |at: usize| Reason::of_number(answers.reason[at]).unwrap().to_string();
    assert_eq!(text(0), "`load_continuous_a` is not a finite number");
    assert_eq!(text(100), "`load_continuous_a` is out of range");
    assert_eq!(
        text(200),
        "`load_continuous_a` is not a short decimal: it has more decimals than are kept, or was rounded on its way"
    );
    assert_eq!(text(300), "`load_continuous_a` is out of range");
    assert_eq!(text(400), "`load_continuous_a` is null");
    assert_eq!(text(401), "judged");
    assert_eq!(answers.reason.iter().filter(|reason| **reason != 0).count(), 801);
    assert_eq!(batch.circuit_of(400), Err(Reason::of_number(answers.reason[400]).unwrap()));
}

#[test]
fn threads_give_the_same_and_a_caller_can_stop() {
    let code = Nec::standard(Edition::Nec2023);
    let rows = 200_000;
    let words = minimal_words(rows);
    let numbers: Vec<f64> = (0..rows).map(|at| f64::from(u32::try_from(at % 400).unwrap()) / 10.0).collect();
    let columns = minimal(&numbers, &words);
    let batch = Batch::new(code, &columns).unwrap();
    let (mut one, mut four) = (OwnedAnswers::new(rows), OwnedAnswers::new(rows));
    let mut last = 0;
    batch
        .judge(one.as_mut(), 1, &mut |done| {
            assert!(done > last);
            last = done;
            ControlFlow::Continue(())
        })
        .unwrap();
    assert_eq!(last, rows);
    batch.judge(four.as_mut(), 4, &mut |_| ControlFlow::Continue(())).unwrap();
    assert_eq!(one.verdict, four.verdict);
    assert_eq!(one.least_device_a.map_bits(), four.least_device_a.map_bits());
    let stopped = batch.judge(four.as_mut(), 2, &mut |_| ControlFlow::Break(())).unwrap_err();
    assert!(matches!(stopped, JudgeError::Stopped { done } if done < rows));
    let mut short = OwnedAnswers::new(rows - 1);
    let wrong = batch.judge(short.as_mut(), 1, &mut |_| ControlFlow::Continue(())).unwrap_err();
    assert_eq!(wrong, JudgeError::WrongLength { name: "verdict", found: rows - 1, expected: rows });
}

trait MapBits {
    fn map_bits(&self) -> Vec<u64>;
}

impl MapBits for Vec<f64> {
    fn map_bits(&self) -> Vec<u64> {
        self.iter().map(|value| value.to_bits()).collect()
    }
}

#[test]
fn an_empty_batch_has_no_answers() {
    let words = minimal_words(0);
    let columns = minimal(&[], &words);
    let batch = Batch::new(Nec::standard(Edition::Nec2023), &columns).unwrap();
    let mut answers = OwnedAnswers::new(0);
    assert_eq!(batch.judge(answers.as_mut(), 8, &mut |_| ControlFlow::Continue(())), Ok(()));
}

#[test]
fn texts_between_offsets_are_found_together_as_each_alone() {
    let bytes = b"copperTHHN\xff12 AWG";
    // One that is no UTF-8, one that ends before it begins, one that begins below zero, and one beyond the bytes.
    let ends = [0, 6, 6, 10, 11, 17, 16, -1, 6, 18];
    let expected = [
        Some("copper"),
        Some(""),
        Some("THHN"),
        Some("\u{0}"),
        Some("12 AWG"),
        Some("\u{0}"),
        Some("\u{0}"),
        Some("\u{0}"),
        Some("\u{0}"),
    ];
    let narrow = ends.map(|end| i8::try_from(end).unwrap());
    for offsets in [Integers::I32(&ends), Integers::I8(&narrow)] {
        let joined = Joined { offsets, bytes };
        assert_eq!(joined.rows(), 9);
        assert_eq!([0, 1, 2, 3, 4, 5, 6, 7, 8].map(|row| joined.get(row)), expected);
        for start in 0..=9 {
            let mut texts = [Some(b"left over".as_slice()); 10];
            joined.read(start, &mut texts);
            let found = texts.map(|text| text.map(|text| std::str::from_utf8(text).unwrap_or("\u{0}")));
            let (some, none) = found.split_at(9 - start);
            assert_eq!(some, &expected[start..]);
            assert!(none.iter().all(Option::is_none));
        }
    }
    let none = Joined { offsets: Integers::I64(&[]), bytes };
    assert_eq!((none.rows(), none.get(0)), (0, None));
}
