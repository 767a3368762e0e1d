//! Reading examples with their units, and comparing answers with what was printed.

use std::collections::BTreeMap;
use std::str::FromStr;

use loadworthy::code::Nec;
use loadworthy::quantity::{Quantity, Ratio, Rounding};
use rust_decimal::Decimal;
use serde_json::{Map, Value};

/// What answers an example: it reads the inputs, asks the library, and gives what the example expects.
pub(crate) type Claim = fn(&Example, &'static Nec) -> Answers;

/// A published example, or an object inside its inputs.
#[derive(Clone, Debug)]
pub(crate) struct Example {
    whole: Map<String, Value>,
    inputs: Map<String, Value>,
}

/// Units by the end of a key, longest first.
const UNITS: [(&str, &str); 20] = [
    ("_ohm_per_kft", "ohm/kft"),
    ("_ohm_per_km", "ohm/km"),
    ("_ohm_per_ft", "ohm/ft"),
    ("_v_per_A_km", "ohm/km"),
    ("_mv_per_A_m", "mohm/m"),
    ("_percent", "%"),
    ("_cmil", "cmil"),
    ("_ohm", "ohm"),
    ("_kVA", "kVA"),
    ("_kWh", "kWh"),
    ("_kW", "kW"),
    ("_VA", "VA"),
    ("_pu", "V"), // per unit of one volt
    ("_ft", "ft"),
    ("_V", "V"),
    ("_A", "A"),
    ("_W", "W"),
    ("_m", "m"),
    ("_F", "°F"),
    ("_C", "°C"),
];

fn unit_of(key: &str) -> &'static str {
    let key = format!("_{key}");
    UNITS.iter().find(|(end, _)| key.ends_with(end)).unwrap_or_else(|| panic!("no unit in `{key}`")).1
}

fn decimal(value: &Value) -> Decimal {
    let text = value.as_number().unwrap_or_else(|| panic!("{value} is no number")).to_string();
    Decimal::from_str_exact(&text).or_else(|_| Decimal::from_scientific(&text)).unwrap().normalize()
}

fn quantity<Q: Quantity + FromStr>(value: &Value, unit: &str) -> Q {
    let text = format!("{} {unit}", decimal(value));
    text.parse().unwrap_or_else(|_| panic!("`{text}` is no {}", Q::NOUN))
}

impl Example {
    /// Every example, those of other codes last.
    pub(crate) fn all() -> Vec<Self> {
        let files = [
            include_str!("../published/worked_examples.jsonl"),
            include_str!("../published/worked_examples_international.jsonl"),
        ];
        let lines = files.iter().flat_map(|file| file.lines()).filter(|line| !line.is_empty());
        lines
            .map(|line| {
                let whole: Map<String, Value> = serde_json::from_str(line).unwrap();
                let inputs = whole["inputs"].as_object().unwrap().clone();
                Self { whole, inputs }
            })
            .collect()
    }

    pub(crate) fn id(&self) -> &str {
        self.whole["id"].as_str().unwrap()
    }

    pub(crate) fn expected(&self) -> &Map<String, Value> {
        self.whole["expected"].as_object().unwrap()
    }

    /// Whether the inputs have a key.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.inputs.contains_key(key)
    }

    fn input(&self, key: &str) -> &Value {
        self.inputs.get(key).unwrap_or_else(|| panic!("{} has no input `{key}`", self.id()))
    }

    pub(crate) fn text(&self, key: &str) -> &str {
        self.input(key).as_str().unwrap()
    }

    pub(crate) fn number(&self, key: &str) -> Decimal {
        decimal(self.input(key))
    }

    /// A quantity in the unit at the end of its key.
    pub(crate) fn quantity<Q: Quantity + FromStr>(&self, key: &str) -> Q {
        quantity(self.input(key), unit_of(key))
    }

    /// A quantity in a unit of our own: a lumped resistance as that of a thousand feet, say.
    pub(crate) fn quantity_in<Q: Quantity + FromStr>(&self, key: &str, unit: &str) -> Q {
        quantity(self.input(key), unit)
    }

    /// A list of quantities in the unit at the end of its key.
    pub(crate) fn quantities<Q: Quantity + FromStr>(&self, key: &str) -> Vec<Q> {
        self.quantities_in(key, unit_of(key))
    }

    pub(crate) fn quantities_in<Q: Quantity + FromStr>(&self, key: &str, unit: &str) -> Vec<Q> {
        self.input(key).as_array().unwrap().iter().map(|value| quantity(value, unit)).collect()
    }

    /// A factor such as 0.88.
    pub(crate) fn factor(&self, key: &str) -> Ratio {
        Ratio::from_count((self.number(key) * Decimal::from(1_000_000)).normalize().mantissa()).unwrap()
    }

    /// An object inside the inputs.
    pub(crate) fn inside(&self, key: &str) -> Self {
        Self { whole: self.whole.clone(), inputs: self.input(key).as_object().unwrap().clone() }
    }

    /// A list of objects inside the inputs.
    pub(crate) fn each(&self, key: &str) -> Vec<Self> {
        let objects = self.input(key).as_array().unwrap().iter();
        objects.map(|object| Self { whole: self.whole.clone(), inputs: object.as_object().unwrap().clone() }).collect()
    }

    /// A cell that the author took is the cell that we look up.
    pub(crate) fn agrees<Q: Quantity + FromStr>(&self, key: &str, ours: Q) {
        if self.has(key) {
            assert_eq!(self.quantity::<Q>(key), ours, "{} {key}", self.id());
        }
    }

    /// The same for a factor.
    pub(crate) fn factor_agrees(&self, key: &str, ours: Ratio) {
        if self.has(key) {
            assert_eq!(self.factor(key), ours, "{} {key}", self.id());
        }
    }

    /// Every figure that differs from the printed one by more than its rounding, is missing, or was not asked for.
    pub(crate) fn differences(&self, answers: &Answers, unclaimed: impl Fn(&str) -> bool) -> Vec<String> {
        let mut differences = Vec::new();
        for (key, expected) in self.expected() {
            let answer = answers.0.get(key.as_str());
            match (answer, unclaimed(key)) {
                (None, true) => {}
                (Some(_), true) => differences.push(format!("{key}: answered although listed as not claimed")),
                (None, false) => differences.push(format!("{key}: no answer")),
                (Some(answer), false) => {
                    let tolerance = self.whole.get("tolerance").and_then(|all| all.get(key));
                    if !agree(answer, expected, tolerance.map_or(Decimal::ZERO, decimal)) {
                        differences.push(format!("{key}: {answer:?}, printed {expected}"));
                    }
                }
            }
        }
        let asked = |key: &&&str| !self.expected().contains_key(**key);
        differences.extend(answers.0.keys().filter(asked).map(|key| format!("{key}: nobody asked")));
        differences
    }
}

fn agree(answer: &Answer, expected: &Value, tolerance: Decimal) -> bool {
    match answer {
        Answer::Text(text) => Some(text.as_str()) == expected.as_str(),
        Answer::Number(number) => (*number - decimal(expected)).abs() <= tolerance,
    }
}

#[derive(Clone, Debug, PartialEq)]
enum Answer {
    Text(String),
    Number(Decimal),
}

/// The answers to one example, by the keys of what it expects.
#[derive(Clone, Debug, Default)]
pub(crate) struct Answers(BTreeMap<&'static str, Answer>);

impl Answers {
    /// A quantity, in the unit at the end of the key, with every digit that it has.
    pub(crate) fn quantity<Q: Quantity>(mut self, key: &'static str, value: Q) -> Self {
        let symbol = unit_of(key);
        let unit = Q::UNITS.iter().find(|unit| unit.symbol == symbol).unwrap_or_else(|| panic!("{key}: {}", Q::NOUN));
        self.0.insert(key, Answer::Number(value.in_unit(unit, 12, Rounding::Up)));
        self
    }

    pub(crate) fn number(mut self, key: &'static str, value: Decimal) -> Self {
        self.0.insert(key, Answer::Number(value));
        self
    }

    pub(crate) fn text(mut self, key: &'static str, value: impl ToString) -> Self {
        self.0.insert(key, Answer::Text(value.to_string()));
        self
    }
}
