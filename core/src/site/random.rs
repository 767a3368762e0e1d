//! Random sites for the tests, drawn from the fields as they are documented: a new field is drawn without more ado.

use proptest::prelude::*;
use serde_json::{Map, Value};

use super::component::Kind;
use super::record::RecordInfo;
use super::records::Document;
use super::{Site, reference};

/// A source of choices; nothing here has to be hard to foresee.
struct Choices(u64);

impl Choices {
    fn below(&mut self, count: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % count.max(1)
    }

    fn of<T: Clone>(&mut self, items: &[T]) -> T {
        items[self.below(items.len())].clone()
    }
}

/// A document in JSON, with every kind of component and every field now and then.
fn document(choices: &mut Choices) -> Value {
    let mut names: Vec<(Kind, String)> = Vec::new();
    let mut document = Map::new();
    for key in ["site", "utility", "surroundings", "procedure"] {
        if key == "site" || choices.below(2) == 0 {
            let info = inner(Document::INFO, key);
            document.insert(key.to_owned(), record(info, choices, &mut |_, _| None));
        }
    }
    for &kind in Kind::ALL.iter().filter(|kind| **kind != Kind::Outlet) {
        let info = inner(Document::INFO, kind.key());
        let mut list = Vec::new();
        for _ in 0..choices.below(4) {
            let feeding = of_kinds(&names, kind.fed_from());
            if kind != Kind::Source && kind != Kind::Panel && feeding.is_empty() {
                continue;
            }
            let panels = of_kinds(&names, &[Kind::Panel]);
            let mut new = Vec::new();
            let value = record(info, choices, &mut |field, choices| match field {
                "name" => {
                    let kind = if new.is_empty() { kind } else { Kind::Outlet };
                    let name =
                        format!("{} {} {}", kind.key(), names.len() + new.len(), choices.of(&["é", "\\", "\"", "#"]));
                    new.push((kind, name.clone()));
                    Some(Value::from(name))
                }
                "from" if feeding.is_empty() => Some(Value::Null),
                "from" => Some(Value::from(choices.of(&feeding))),
                "normal_supply" if panels.is_empty() => Some(Value::from("utility")),
                "normal_supply" => Some(Value::from(choices.of(&panels))),
                _ => None,
            });
            names.extend(new);
            list.push(value);
        }
        if !list.is_empty() {
            document.insert(kind.key().to_owned(), Value::from(list));
        }
    }
    Value::Object(document)
}

fn inner(info: &RecordInfo, key: &str) -> &'static RecordInfo {
    let field = info.fields.iter().find(|field| field.name == key).unwrap();
    (field.form)().record.unwrap()
}

fn of_kinds(names: &[(Kind, String)], kinds: &[Kind]) -> Vec<String> {
    names.iter().filter(|(kind, _)| kinds.contains(kind)).map(|(_, name)| name.clone()).collect()
}

type Special<'a> = &'a mut dyn FnMut(&str, &mut Choices) -> Option<Value>;

fn record(info: &RecordInfo, choices: &mut Choices, special: Special<'_>) -> Value {
    let mut table = Map::new();
    for field in info.fields {
        if !field.required && choices.below(2) == 0 {
            continue;
        }
        let excluded = ["current", "power", "apparent_power"];
        if excluded.contains(&field.name) && excluded.iter().any(|name| table.contains_key(*name)) {
            continue;
        }
        let form = (field.form)();
        let is_list = form.wanted.starts_with("a list");
        let value = match (special(field.name, choices), form.record) {
            (Some(Value::Null), _) => continue,
            (Some(value), _) => value,
            (None, Some(inner)) if is_list => {
                (0..1 + choices.below(3)).map(|_| record(inner, choices, special)).collect()
            }
            (None, Some(inner)) => record(inner, choices, special),
            (None, None) if is_list => {
                (0..1 + choices.below(3)).map(|number| Value::from(format!("rule {number}"))).collect()
            }
            (None, None) => leaf(info, &form, choices),
        };
        table.insert(field.name.to_owned(), value);
    }
    Value::Object(table)
}

fn leaf(info: &RecordInfo, form: &super::form::Form, choices: &mut Choices) -> Value {
    if !form.words.is_empty() {
        return Value::from(choices.of(&form.words));
    }
    let examples: Vec<&str> = form.wanted.split('`').skip(1).step_by(2).collect();
    match (examples.as_slice(), form.wanted.as_str()) {
        ([], _) => Value::from(choices.of(&["plain", "two\nlines", "\"quoted\" \\ 'text'", "é°\u{1F50C}", ""])),
        (["true", "false"], _) => Value::from(choices.below(2) == 0),
        (["3"], _) => Value::from(1 + choices.below(999)),
        // An inlet and the plug of a load have blades, a receptacle has openings.
        (["14-50P", "14-50R"], _) => {
            Value::from(if info.a_record == "a receptacle" { "14-50R" } else { choices.of(&["14-50P", "L14-30P"]) })
        }
        (["0.85"], _) => Value::from(choices.of(&["0.85", "1", "0.000001", "62.5 %"])),
        ([example], _) if example.starts_with("25 ") => {
            let digits = choices.of(&["25", "0", "100", "0.5", "12.25", "99.875"]);
            Value::from(example.replacen("25", digits, 1))
        }
        (examples, _) => Value::from(choices.of(examples)),
    }
}

proptest! {
    #[test]
    fn parse_print_parse_gives_the_same_site(seed: u64) {
        let text = document(&mut Choices(seed)).to_string();
        let site = Site::from_json("site.json", &text).unwrap_or_else(|problems| panic!("{problems}\n{text}"));
        let toml = site.to_toml().unwrap();
        let again = Site::from_toml("site.toml", &toml).unwrap_or_else(|problems| panic!("{problems}\n{toml}"));
        prop_assert_eq!(&again, &site);
        prop_assert_eq!(again.to_toml().unwrap(), toml);
        prop_assert_eq!(Site::from_json("site.json", &again.to_json().unwrap()).unwrap(), site);
    }

    #[test]
    fn the_order_is_a_forest(seed: u64) {
        let text = document(&mut Choices(seed)).to_string();
        let site = Site::from_json("site.json", &text).unwrap();
        for component in site.components() {
            // Slowly: everything whose path goes through this component.
            let through = |other: super::Component<'_>| site.upstream(other.id()).any(|above| above.id() == component.id());
            let slow: Vec<_> = site.components().filter(|other| through(*other)).map(|other| other.id()).collect();
            let quick: Vec<_> = site.below(component.id()).map(|other| other.id()).collect();
            prop_assert_eq!(quick, slow);
            let fed: Vec<_> = site.downstream(component.id()).map(|other| other.id()).collect();
            let from: Vec<_> = site
                .components()
                .filter(|other| site.from(other.id()).is_some_and(|from| from.id() == component.id()))
                .map(|other| other.id())
                .collect();
            prop_assert_eq!(fed, from);
        }
    }
}

#[test]
fn the_reference_names_every_record_and_every_field() {
    let reference = reference();
    for title in ["Site description", "Source", "Outlet", "Wiring", "Overcurrent device", "Transfer equipment", "Load"]
    {
        assert!(
            reference.contains(&format!("\n## {title}\n")) || reference.starts_with(&format!("## {title}\n")),
            "{title}"
        );
    }
    assert!(reference.contains("| `length` | no | a length such as `25 ft` | Its length. |"));
    assert!(
        reference
            .contains("| `kind` | yes | `generator`, `vehicle`, `battery`, `inverter` | What kind of machine it is. |")
    );
    assert!(!reference.contains("||") && !reference.contains("|  |"), "a field without its documentation");
}
