//! Site documents: what is wrong with them is said all at once, in exact words and at the exact place.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::quantity::Amperes;
use loadworthy::site::{
    Component, DEEPEST, Language, MOST_BYTES, MOST_PROBLEMS, MOST_TABLES, NormalSupply, Problem, Site,
};
use proptest::prelude::*;

const COTTAGE: &str = include_str!("../core/examples/cottage.toml");
const FAILING: &str = include_str!("../core/examples/cottage-failing.toml");
const UNKNOWN: &str = include_str!("../core/examples/cottage-unknown.toml");

const HEAD: &str = "[site]\nname = \"shed\"\ncode = \"nec-2023\"\n";

fn cottage() -> Site {
    Site::from_toml("cottage.toml", COTTAGE).unwrap_or_else(|problems| panic!("{problems}"))
}

/// The codes and messages of a document that begins with a sound `[site]` table of three lines.
fn problems(rest: &str) -> Vec<(&'static str, String)> {
    let text = format!("{HEAD}{rest}");
    match Site::from_toml("site.toml", &text) {
        Ok(_) => Vec::new(),
        Err(problems) => problems.iter().map(|problem| (problem.code(), problem.to_string())).collect(),
    }
}

/// One problem, its code and its exact message.
fn one(rest: &str, code: &str, message: &str) {
    let found = problems(rest);
    assert_eq!(found, [(found.first().map_or("none", |(code, _)| *code), message.to_owned())]);
    assert_eq!(found[0].0, code);
}

const SOURCE: &str = "[[source]]\nname = \"generator\"\nkind = \"generator\"\nsystem = \"120/240 V\"\n\
                      [[source.outlet]]\nname = \"outlet\"\nconfiguration = \"14-50R\"\n";

/// A cord with one more line, behind a source: that line is line 16.
fn cord(line: &str) -> String {
    format!(
        "{SOURCE}[[cord]]\nname = \"cord\"\nfrom = \"outlet\"\nsupply_end = \"14-50P\"\nload_end = \"14-50R\"\n{line}\n"
    )
}

#[test]
fn each_value_says_what_is_wrong_with_it() {
    for (line, code, message) in [
        ("length = 25", "missing-unit", "site.toml:16:10: `25` has no unit; write a length such as `25 ft`"),
        ("length = 25.5", "missing-unit", "site.toml:16:10: `25.5` has no unit; write a length such as `25.5 ft`"),
        ("length = \"25\"", "missing-unit", "site.toml:16:10: `25` has no unit; write a length such as `25 ft`"),
        ("length = \"25 A\"", "wrong-quantity", "site.toml:16:10: `25 A` is a current; write a length such as `25 ft`"),
        (
            "length = \"25 elbows\"",
            "unknown-unit",
            "site.toml:16:10: `25 elbows` has the unknown unit `elbows`; write a length in ft, m, in, mm, cm, km, yd",
        ),
        (
            "length = \"long\"",
            "not-a-number",
            "site.toml:16:10: `long` is not a length; write a number and a unit, such as `25 ft`",
        ),
        (
            "length = \"40 km\"",
            "out-of-range",
            "site.toml:16:10: `40 km` is out of range; length goes from 0 ft to 32808.39895 ft",
        ),
        (
            "length = \"0.0001 mm\"",
            "too-fine",
            "site.toml:16:10: `0.0001 mm` is finer than length is kept (steps of 0.001 mm); write fewer decimals",
        ),
        ("length = true", "wrong-type", "site.toml:16:10: `true` is a boolean; write a length such as `25 ft`"),
        (
            "length = 2024-01-01",
            "wrong-type",
            "site.toml:16:10: `2024-01-01` is a date; write a length such as `25 ft`",
        ),
        ("length = { feet = 25 }", "wrong-type", "site.toml:16:10: this is a table; write a length such as `25 ft`"),
        ("size = 6", "missing-unit", "site.toml:16:8: `6` has no unit; write a wire size such as `6 AWG`"),
        ("conductors = 0", "out-of-range", "site.toml:16:14: `0` is out of range; write a whole number from 1 to 999"),
        (
            "conductors = 1000",
            "out-of-range",
            "site.toml:16:14: `1000` is out of range; write a whole number from 1 to 999",
        ),
        (
            "conductors = 2.5",
            "wrong-type",
            "site.toml:16:14: `2.5` is a decimal number; write a whole number such as `3`",
        ),
        (
            "outdoors = \"yes\"",
            "wrong-type",
            "site.toml:16:12: `yes` is a text; write `true` or `false` without quotes",
        ),
        ("type = \"SOOWW\"", "unknown-word", "site.toml:16:8: `SOOWW` is not a known cord type; did you mean `SOOW`?"),
        (
            "place = \"moon\"",
            "unknown-word",
            "site.toml:16:9: `moon` is not a known kind of place; write one of: dry, damp, wet",
        ),
        (
            "place = false",
            "wrong-type",
            "site.toml:16:9: `false` is a boolean; write a kind of place as text, one of `dry`, `damp`, `wet`",
        ),
        ("sise = \"6 AWG\"", "unknown-field", "site.toml:16:1: `sise` is not a field of a cord; did you mean `size`?"),
    ] {
        one(&cord(line), code, message);
    }
    for line in ["conductors = 1", "conductors = 999", "length = \"10 km\"", "length = \"0.1 mm\"", "type = \"soow\""] {
        assert_eq!(problems(&cord(line)), [], "{line}");
    }
}

#[test]
fn each_record_says_what_is_wrong_with_it() {
    one(
        "[utility]\nsystem = \"120 V\"\n",
        "missing-field",
        "site.toml:4:1: a utility service needs `connected`; write `true` or `false` without quotes",
    );
    one(
        "[utility]\nconnected = true\nzzz = 1\n",
        "unknown-field",
        "site.toml:6:1: `zzz` is not a field of a utility service; its fields are `connected`, `system`, `neutral_bonded_ahead`",
    );
    one("cord = 3\n", "unknown-field", "site.toml:4:1: `cord` is not a field of a site; did you mean `code`?");
    one(
        "[[cords]]\n",
        "unknown-field",
        "site.toml:4:3: `cords` is not a field of a site description; did you mean `cord`?",
    );
    one("[cord]\n", "wrong-type", "site.toml:4:1: this is a table; write a list of tables");
    one(
        "[[source]]\nname = \"a\"\nkind = \"battery\"\n",
        "missing-field",
        "site.toml:4:1: a source needs `system`; write a supply system as text, one of `120 V`, `240 V`, `120/240 V`, \
         `208Y/120 V`, `480Y/277 V`, `230 V`, `400Y/230 V`",
    );
    let load =
        |lines: &str| format!("{SOURCE}[[load]]\nname = \"lamp\"\nfrom = \"outlet\"\nvoltage = \"120 V\"\n{lines}");
    one(
        &load("power = \"100 W\"\ncurrent = \"1 A\"\n"),
        "contradiction",
        "site.toml:15:9: a load gives `current` and `power`, which exclude each other; keep one of them",
    );
    one(
        &load("plug = \"5-15R\"\n"),
        "wrong-gender",
        "site.toml:15:8: `5-15R` has openings; the plug of a load has blades: write `5-15P`",
    );
    one(
        &format!("{SOURCE}[[receptacle]]\nname = \"wall\"\nfrom = \"outlet\"\nconfiguration = \"5-20P\"\n"),
        "wrong-gender",
        "site.toml:14:17: `5-20P` has blades; a receptacle has openings: write `5-20R`",
    );
    assert_eq!(problems(&load("power = \"100 W\"\npower_factor = 1\n")), []);
}

#[test]
fn each_name_says_what_is_wrong_with_it() {
    let load =
        |name: &str, from: &str| format!("{SOURCE}[[load]]\nname = {name}\nfrom = {from}\nvoltage = \"120 V\"\n");
    for (name, message) in [
        ("\"\"", "`` cannot be a name; write at least one character"),
        ("\" lamp\"", "` lamp` cannot be a name; leave out the spaces around it"),
        ("\"la\\nmp\"", "`la mp` cannot be a name; write it on one line, without control characters"),
        ("\"utility\"", "`utility` cannot be a name; it stands for the utility service; choose another"),
    ] {
        one(&load(name, "\"outlet\""), "not-a-name", &format!("site.toml:12:8: {message}"));
    }
    assert_eq!(problems(&load(&format!("\"{}\"", "é".repeat(100)), "\"outlet\"")), []);
    let too_long = problems(&load(&format!("\"{}\"", "é".repeat(101)), "\"outlet\""));
    assert_eq!(
        too_long[0].1,
        format!("site.toml:12:8: `{}…` cannot be a name; write at most 100 characters", "é".repeat(60))
    );
    one(
        &load("\"generator\"", "\"outlet\""),
        "duplicate-name",
        "site.toml:12:8: `generator` is already the name of a source at site.toml:5:8; give one of them another name",
    );
    one(
        &load("\"lamp\"", "\"outlat\""),
        "dangling-reference",
        "site.toml:13:8: `outlat` is not the name of a circuit, a receptacle, a cord, an outlet or an inlet; \
         did you mean `outlet`?",
    );
    one(
        &load("\"lamp\"", "\"kitchen\""),
        "dangling-reference",
        "site.toml:13:8: `kitchen` is not the name of a circuit, a receptacle, a cord, an outlet or an inlet; \
         describe it, or correct the name",
    );
    one(
        &load("\"lamp\"", "\"generator\""),
        "wrong-kind-of-reference",
        "site.toml:13:8: `generator` is a source; a load takes a circuit, a receptacle, a cord, an outlet or an inlet \
         as its `from`",
    );
    one(
        "[[panel]]\nname = \"main\"\nsystem = \"120/240 V\"\nnormal_supply = \"utillity\"\n",
        "dangling-reference",
        "site.toml:7:17: `utillity` is not the name of a panel; describe it, or correct the name",
    );
}

#[test]
fn circles_are_named_once_each() {
    let ends = "supply_end = \"5-15P\"\nload_end = \"5-15R\"\n";
    let cord = |name: &str, from: &str| format!("[[cord]]\nname = \"{name}\"\nfrom = \"{from}\"\n{ends}");
    one(
        &cord("a", "a"),
        "circular-reference",
        "site.toml:6:8: `a` is fed from itself: `a` from `a`; correct the `from` of one of them",
    );
    // The cord outside the circle that leads into it is no second problem.
    one(
        &[cord("d", "b"), cord("a", "b"), cord("b", "c"), cord("c", "a")].concat(),
        "circular-reference",
        "site.toml:11:8: `a` is fed from itself: `a` from `b` from `c` from `a`; correct the `from` of one of them",
    );
    let panel = |name: &str, supply: &str| {
        format!("[[panel]]\nname = \"{name}\"\nsystem = \"120/240 V\"\nnormal_supply = \"{supply}\"\n")
    };
    one(
        &[panel("one", "two"), panel("two", "one")].concat(),
        "circular-reference",
        "site.toml:7:17: `one` is fed from itself: `one` from `two` from `one`; correct the `normal_supply` of one of them",
    );
}

#[test]
fn all_problems_come_at_once_in_the_order_of_their_places() {
    let text = "[[load]]\nname = \"lamp\"\nfrom = \"nowhere at all\"\nvoltage = 120\n\n[site]\nname = \"shed\"\ncode = 2023\n\
                ambient = 30\n[[source]]\nname = \"lamp\"\nkind = \"generatr\"\n";
    let problems = Site::from_toml("site.toml", text).unwrap_err();
    let places: Vec<(u32, u32, String, &str)> = problems
        .iter()
        .map(|problem| (problem.place().line(), problem.place().column(), problem.place().path(), problem.code()))
        .collect();
    let expected = [
        (3, 8, "load[0].from", "dangling-reference"),
        (4, 11, "load[0].voltage", "missing-unit"),
        (8, 8, "site.code", "wrong-type"),
        (9, 11, "site.ambient", "missing-unit"),
        (10, 1, "source[0]", "missing-field"),
        (11, 8, "source[0].name", "duplicate-name"),
        (12, 8, "source[0].kind", "unknown-word"),
    ];
    assert_eq!(places, expected.map(|(line, column, path, code)| (line, column, path.to_owned(), code)));
    assert_eq!(problems.to_string().lines().count(), expected.len());
}

#[test]
fn a_reference_to_a_record_with_a_problem_of_its_own_is_no_second_problem() {
    let text = format!(
        "{SOURCE}[[cord]]\nname = \"cord\"\nfrom = \"outlet\"\nlength = 3\nsupply_end = \"14-50P\"\nload_end = \"14-50R\"\n\
                        [[load]]\nname = \"lamp\"\nfrom = \"cord\"\nvoltage = \"120 V\"\n"
    );
    one(&text, "missing-unit", "site.toml:14:10: `3` has no unit; write a length such as `3 ft`");
}

#[test]
fn syntax_is_said_with_its_place() {
    let message = |text: &str| match Site::from_toml("site.toml", text) {
        Ok(_) => String::new(),
        Err(problems) => problems.to_string(),
    };
    assert_eq!(
        message("[site]\nname = \n"),
        "site.toml:2:8: this is not well-formed TOML: string values must be quoted, expected literal string"
    );
    assert_eq!(
        message("[site]\nname = \"a\"\nname = \"b\"\n"),
        "site.toml:3:1: this is not well-formed TOML: duplicate key"
    );
    let json = |text: &str| match Site::from_json("site.json", text) {
        Ok(_) => String::new(),
        Err(problems) => problems.to_string(),
    };
    let says = |text: &str, place: &str, what: &str| {
        assert_eq!(json(text), format!("site.json:{place}: this is not well-formed JSON: {what}"), "{text}");
    };
    says("", "1:1", "the document is empty");
    says("{\"site\": {},}", "1:12", "trailing commas are not allowed");
    says("// note\n{}", "1:1", "comments are not allowed");
    says("{site: {}}", "1:2", "expected string for object property");
    says("{\"a\": .5}", "1:7", "leading or trailing decimal points on numbers are not allowed");
    says("{\"a\": 0x10}", "1:7", "hexadecimal numbers are not allowed");
    says("{} {}", "1:4", "text cannot contain more than one JSON value");
    assert!(json("{\"site\": {\"name\": \"a\nb\", \"code\": \"nec-2023\"}}").contains("not well-formed JSON"));
    assert_eq!(
        json("{\"site\": {\"name\": \"a\", \"name\": \"b\", \"code\": \"c\"}}"),
        "site.json:1:24: `name` stands here a second time; keep one of the two"
    );
    assert_eq!(
        json("{\"site\": {\"name\": \"a\", \"code\": \"c\", \"ambient\": null}}"),
        "site.json:1:48: `null` is no value; write a temperature such as `25 °C`"
    );
    assert_eq!(json("[]"), "site.json:1:1: this is a list; write a table");
}

#[test]
fn columns_count_characters() {
    one(
        "\"ünïcödé\" = 1\n",
        "unknown-field",
        "site.toml:4:1: `ünïcödé` is not a field of a site; its fields are `name`, `code`, `ambient`, `occupancy`, `workplace`, `altitude`, `base_load`, `base_load_power_factor`, `note`, `acknowledged`",
    );
    // Two characters of two bytes each stand before the value.
    one(
        "\n[utility]\nconnected = true\nsystem = \"120 V\"\n[[panel]]\nname = \"é°\"\nsystem = \"120 V\" # é\nbusbar = 3\n",
        "missing-unit",
        "site.toml:11:10: `3` has no unit; write a current such as `3 A`",
    );
    let json = "{\"site\": {\"name\": \"é°\", \"code\": 3}}";
    let problems = Site::from_json("site.json", json).unwrap_err();
    assert_eq!(problems.to_string(), "site.json:1:33: `3` is a whole number; write a text in quotes");
}

#[test]
fn bytes_that_are_not_text_have_a_place() {
    let message = |bytes: &[u8]| Site::read("site.toml", bytes).unwrap_err().to_string();
    assert_eq!(message(b"\xff"), "site.toml:1:1: the byte 0xff is not UTF-8 text; save the file as UTF-8");
    assert_eq!(
        message("[site]\nname = \"é".as_bytes().iter().copied().chain([0xe9, b'"']).collect::<Vec<_>>().as_slice()),
        "site.toml:2:10: the byte 0xe9 is not UTF-8 text; save the file as UTF-8"
    );
}

#[test]
fn the_language_is_told_by_the_name_or_the_first_character() {
    assert_eq!(Language::of("site.json", ""), Language::Json);
    assert_eq!(Language::of("SITE.JSON", "[site]"), Language::Json);
    assert_eq!(Language::of("site.toml", "{"), Language::Toml);
    assert_eq!(Language::of("site", "\n {"), Language::Json);
    assert_eq!(Language::of("-", "[site]"), Language::Toml);
    let json = cottage().to_json().unwrap();
    assert_eq!(Site::read("-", json.as_bytes()).unwrap(), cottage());
    assert_eq!(Site::read("-", format!("\u{feff}{COTTAGE}").as_bytes()).unwrap(), cottage());
}

#[test]
fn limits_hold_at_the_limit_and_not_one_step_beyond() {
    let padded = |bytes: usize| format!("{HEAD}#{}", "x".repeat(bytes - HEAD.len() - 1));
    assert!(Site::from_toml("site.toml", &padded(MOST_BYTES)).is_ok());
    assert_eq!(
        Site::from_toml("site.toml", &padded(MOST_BYTES + 1)).unwrap_err().to_string(),
        "site.toml:1:1: the document has more than 4194304 bytes; divide it into several sites"
    );

    // Ten thousand tables with `site` and `source`; a TOML document's own table is not counted.
    let sources = |count: usize| {
        let outlet = |number: usize| format!("[[source.outlet]]\nname = \"{number}\"\nconfiguration = \"14-50R\"\n");
        let outlets: String = (0..count - 2).map(outlet).collect();
        format!("{HEAD}[[source]]\nname = \"s\"\nkind = \"battery\"\nsystem = \"120 V\"\n{outlets}")
    };
    assert!(Site::from_toml("site.toml", &sources(MOST_TABLES)).is_ok());
    let beyond = Site::from_toml("site.toml", &sources(MOST_TABLES + 1)).unwrap_err();
    assert_eq!(beyond.as_slice()[0].code(), "too-large");

    let nested = |depth: usize| format!("{{\"a\": {}{}}}", "[".repeat(depth), "]".repeat(depth));
    let code = |depth: usize| Site::from_json("site.json", &nested(depth)).unwrap_err().as_slice()[0].code();
    assert_eq!(code(DEEPEST - 1), "missing-field");
    assert_eq!(code(DEEPEST), "too-deep");
    assert_eq!(code(100_000), "syntax");
    let toml = format!("{HEAD}a = {}{}", "[".repeat(DEEPEST), "]".repeat(DEEPEST));
    assert_eq!(Site::from_toml("site.toml", &toml).unwrap_err().as_slice()[0].code(), "too-deep");

    let unknown = |count: usize| (0..count).map(|number| format!("x{number} = 1\n")).collect::<String>();
    assert_eq!(problems(&unknown(MOST_PROBLEMS)).len(), MOST_PROBLEMS);
    let many = problems(&unknown(MOST_PROBLEMS + 1));
    assert_eq!(many.len(), MOST_PROBLEMS + 1);
    assert_eq!(
        many.last().unwrap().1,
        "site.toml:1003:1: the document has more than 1000 problems; correct these and read it again"
    );
}

#[test]
fn a_large_document_of_nothing_but_problems_is_still_quick() {
    let cords: String =
        (0..9_000).map(|number| format!("[[cord]]\nname = \"cord {number}\"\nfrom = \"cprd {number}\"\n")).collect();
    let start = std::time::Instant::now();
    assert_eq!(problems(&cords).len(), MOST_PROBLEMS + 1);
    // One line of JSON: every place needs its column.
    let line = format!("{{{}}}", (0..100_000).map(|number| format!("\"x{number}\": 1")).collect::<Vec<_>>().join(","));
    assert_eq!(Site::from_json("site.json", &line).unwrap_err().as_slice().len(), MOST_PROBLEMS + 1);
    assert!(start.elapsed().as_secs() < 20, "{:?}", start.elapsed());
}

#[test]
fn the_components_of_the_cottage_know_their_paths() {
    let site = cottage();
    let names = |components: &mut dyn Iterator<Item = Component<'_>>| -> Vec<String> {
        components.map(|component| component.name().to_owned()).collect()
    };
    let refrigerator = site.loads().iter().find(|load| load.name.as_str() == "refrigerator").unwrap();
    assert_eq!(
        names(&mut site.upstream(refrigerator.id())),
        [
            "refrigerator receptacle",
            "refrigerator circuit",
            "main panel",
            "panel interlock",
            "inlet feeder",
            "wall inlet",
            "generator cord",
            "generator outlet",
            "generator",
        ]
    );
    let panel = &site.panels()[0];
    assert_eq!(
        names(&mut site.downstream(panel.id())),
        ["refrigerator circuit", "kitchen circuit", "lighting circuit", "furnace circuit", "well pump circuit"]
    );
    let loads = |id| site.loads_below(id).map(|load| load.name.as_str()).collect::<Vec<_>>();
    assert_eq!(loads(panel.id()), ["refrigerator", "kettle", "lights", "furnace fan", "well pump"]);
    assert_eq!(loads(site.circuits()[1].id()), ["kettle"]);
    assert!(loads(refrigerator.id()).is_empty());
    assert_eq!(site.source_of(refrigerator.id()).unwrap().name.as_str(), "generator");
    assert_eq!(site.panel_of(refrigerator.id()), Some(panel));
    assert_eq!(site.panel_of(site.cords()[0].id()), None);
    assert_eq!(site.normal_supply(panel), Some(NormalSupply::Utility));
    assert_eq!(site.outlets().next().unwrap().id(), site.upstream(site.cords()[0].id()).next().unwrap().id());

    // The order is one in which each stands behind what feeds it, and every id finds its own component.
    for (position, component) in site.components().enumerate() {
        assert_eq!(site.component(component.id()), Some(component));
        assert_eq!(site.components().nth(position), Some(component));
        assert!(site.from(component.id()).is_none_or(|from| from.id() < component.id()));
    }
    assert_eq!(site.components().count(), 19);
}

#[test]
fn every_fact_knows_where_it_was_written() {
    let site = cottage();
    let cord = &site.cords()[0];
    // The line of the first cord, counted in the text; its size stands four lines below.
    let line = 1 + COTTAGE.lines().position(|line| line == "[[cord]]").unwrap();
    assert_eq!(cord.place().to_string(), format!("cottage.toml:{line}:1"));
    assert_eq!((cord.place().path().as_str(), cord.place_of("size").path().as_str()), ("cord[0]", "cord[0].size"));
    assert_eq!(cord.place_of("size").to_string(), format!("cottage.toml:{}:8", line + 4));
    assert_eq!(cord.place_of("absent"), cord.place());
    let device = site.circuits()[1].overcurrent_device.as_ref().unwrap();
    assert_eq!(device.place_of("rating").path(), "circuit[1].overcurrent_device.rating");
    assert_eq!(device.rating.map(|rating| rating.value()), Some(Amperes::from_whole(20)));
    assert_eq!(site.sources()[0].outlets[0].place().path(), "source[0].outlet[0]");
    assert_eq!(site.premises().place_of("ambient").to_string(), "cottage.toml:7:11");
}

#[test]
fn a_site_reads_back_from_what_it_writes() {
    for text in [COTTAGE, FAILING, UNKNOWN] {
        let site = Site::from_toml("site.toml", text).unwrap_or_else(|problems| panic!("{problems}"));
        let toml = site.to_toml().unwrap();
        let again = Site::from_toml("again.toml", &toml).unwrap_or_else(|problems| panic!("{problems}"));
        assert_eq!(again, site);
        assert_eq!(again.to_toml().unwrap(), toml);
        let json =
            Site::from_json("site.json", &site.to_json().unwrap()).unwrap_or_else(|problems| panic!("{problems}"));
        assert_eq!(json, site);
        assert_eq!(json.to_toml().unwrap(), toml);
    }
    assert_ne!(cottage(), Site::from_toml("site.toml", UNKNOWN).unwrap());
}

/// Whatever the bytes, the answer is a site, or problems that each have a place inside the document and a message of
/// one line.
fn understood_or_explained(name: &str, bytes: &[u8]) -> Result<(), TestCaseError> {
    let Err(problems) = Site::read(name, bytes) else { return Ok(()) };
    prop_assert!(!problems.as_slice().is_empty());
    let lines = u32::try_from(bytes.iter().filter(|byte| **byte == b'\n').count() + 1).unwrap();
    for problem in &problems {
        let place = problem.place();
        prop_assert!(place.line() >= 1 && place.line() <= lines, "{problem}");
        prop_assert!(place.column() >= 1, "{problem}");
        prop_assert_eq!(problem.to_string().lines().count(), 1, "{}", problem);
    }
    let sorted =
        problems.as_slice().is_sorted_by_key(|problem: &Problem| (problem.place().line(), problem.place().column()));
    prop_assert!(sorted);
    Ok(())
}

proptest! {
    #[test]
    fn random_bytes_are_understood_or_explained(bytes in prop::collection::vec(any::<u8>(), 0..300), json: bool) {
        understood_or_explained(if json { "site.json" } else { "site.toml" }, &bytes)?;
    }

    #[test]
    fn random_toml_is_understood_or_explained(
        lines in prop::collection::vec("(\\[{1,2}(site|source|source\\.outlet|cord|load|panel)\\]{1,2}|(name|from|size|length|kind|code|system|voltage) = (\"[a-z0-9 /°]{0,9}\"|-?[0-9]{1,4}(\\.[0-9]{1,3})?|true|\\[1, \"a\"\\]|\\{ name = 1 \\}|inf|0x1F|1e5|1_000|\\[\\[\\[\\]\\]\\]))", 0..20),
    ) {
        understood_or_explained("site.toml", lines.join("\n").as_bytes())?;
    }

    #[test]
    fn random_json_is_understood_or_explained(text in "[\\[\\]{},:\"a-z0-9.eE+\\-\\\\ u/\n\t]{0,80}") {
        understood_or_explained("site.json", text.as_bytes())?;
        understood_or_explained("site.json", format!("{{\"site\": {text}}}").as_bytes())?;
    }

    #[test]
    fn mutated_documents_are_understood_or_explained(
        which in 0usize..3,
        json: bool,
        edits in prop::collection::vec((any::<prop::sample::Index>(), 0u8..4, any::<u8>(), any::<prop::sample::Index>()), 1..8),
    ) {
        let text = [COTTAGE, FAILING, UNKNOWN][which];
        let mut bytes = if json {
            Site::from_toml("site.toml", text).unwrap().to_json().unwrap().into_bytes()
        } else {
            text.as_bytes().to_vec()
        };
        for (position, kind, byte, other) in edits {
            if bytes.is_empty() {
                break;
            }
            let at = position.index(bytes.len());
            match kind {
                0 => bytes[at] = byte,
                1 => bytes.insert(at, byte),
                2 => drop(bytes.remove(at)),
                _ => {
                    // A piece of the document, moved or cut out.
                    let end = (at + other.index(200)).min(bytes.len());
                    let piece: Vec<u8> = bytes.drain(at..end).collect();
                    if byte % 2 == 0 {
                        let to = other.index(bytes.len() + 1);
                        bytes.splice(to..to, piece);
                    }
                }
            }
        }
        understood_or_explained(if json { "site.json" } else { "site.toml" }, &bytes)?;
    }

    #[test]
    fn the_order_of_the_tables_never_matters_to_what_feeds_what(seed: u64) {
        let (head, rest) = COTTAGE.split_at(COTTAGE.find("[[cord]]").unwrap());
        let mut blocks: Vec<&str> = Vec::new();
        let mut start = 0;
        for (at, _) in rest.match_indices("\n[[").chain([(rest.len(), "")]) {
            blocks.push(&rest[start..at]);
            start = (at + 1).min(rest.len());
        }
        let mut state = seed;
        for index in (1..blocks.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            blocks.swap(index, (state >> 33) as usize % (index + 1));
        }
        let shuffled = Site::from_toml("site.toml", &format!("{head}{}\n", blocks.join("\n"))).unwrap();
        let site = cottage();
        for component in site.components() {
            let same = shuffled.components().find(|other| other.name() == component.name()).unwrap();
            let from = |site: &Site, component: Component<'_>| site.from(component.id()).map(|from| from.name().to_owned());
            prop_assert_eq!(from(&shuffled, same), from(&site, component));
            prop_assert_eq!(shuffled.loads_below(same.id()).count(), site.loads_below(component.id()).count());
        }
    }
}
