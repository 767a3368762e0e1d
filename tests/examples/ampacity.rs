//! Ampacity of conductors: the `am` examples.

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Ampacity, Conditions, Covering, ampacity};
use loadworthy::calc::overcurrent::{Supplies, largest_device};
use loadworthy::code::{Code, ConductorRating, Nec};
use loadworthy::published::TableId;
use loadworthy::quantity::{Amperes, Fraction, Rounding};
use loadworthy::trade::{Cable, DeviceKind, Insulation, Material, TerminalMark, WireSize};

use crate::harness::{Answers, Claim, Example};

pub(crate) const CLAIMS: &[(&str, Claim)] = &[
    ("am-2awg-thwn-100f", adjusted),
    ("am-10awg-thhn-120f", adjusted),
    ("am-bundled-8x12awg", adjusted),
    ("am-bundled-6x2awg-thwn", adjusted),
    ("am-bundled-30x12awg", adjusted),
    ("am-8awg-thhn-40c-75c-terminals", corrected_then_terminals),
    ("am-bundled-12x12awg-device", bundled_with_device),
    ("am-nm-12awg-110f", nonmetallic_cable),
    ("am-nm-five-12-2-bundled", nonmetallic_cables_with_device),
    ("am-dwelling-83-percent-200a", dwelling_200),
    ("am-dwelling-83-percent-100a", dwelling_100),
    ("am-generator-conductors-60kva", generator_conductor),
    ("am-generator-conductors-20kw", generator_ampacity),
];

/// The conductor of a text such as `2 AWG copper THWN`, in the example's ambient and bundle.
fn conditions(example: &Example) -> Conditions {
    let words: Vec<&str> = example.text("conductor").split_whitespace().collect();
    let size = format!("{} {}", words[0], words[1]).parse().unwrap();
    let insulation: Insulation = words[3].parse().unwrap();
    in_place(example, Conditions::base(words[2].parse().unwrap(), size, Covering::Insulation(insulation)))
}

fn in_place(example: &Example, mut conditions: Conditions) -> Conditions {
    for key in ["ambient_F", "ambient_C"].into_iter().filter(|key| example.has(key)) {
        conditions.ambient = example.quantity(key);
    }
    if example.has("current_carrying_conductors") {
        conditions.current_carrying = u16::try_from(example.number("current_carrying_conductors").mantissa()).unwrap();
    }
    conditions
}

/// The ampacity, and every cell that the author took is the one that the code gives.
fn find(example: &Example, code: &Nec, of: &Conditions, column: ConductorRating) -> Ampacity {
    let base = code.base_ampacity(of.installation, of.material, column, of.size).unwrap().value;
    example.agrees("table_ampacity_A", base);
    example.agrees("table_ampacity_90C_A", base);
    example.factor_agrees("temperature_factor", code.ambient_factor(column, of.ambient).unwrap().value);
    if let Some(factor) = code.bundling_factor(of.current_carrying).unwrap() {
        example.factor_agrees("adjustment_factor", factor.value);
    }
    let found = ampacity(code, of, &mut Silent).unwrap();
    example.agrees("terminal_column_60C_A", found.terminal);
    example.agrees("terminal_column_75C_A", found.terminal);
    found
}

fn adjusted(example: &Example, code: &'static Nec) -> Answers {
    let of = conditions(example);
    let Covering::Insulation(insulation) = of.covering else { unreachable!() };
    let column = code.insulation(insulation, of.place).unwrap().value.rating;
    Answers::default().quantity("adjusted_ampacity_A", find(example, code, &of, column).corrected)
}

fn corrected_then_terminals(example: &Example, code: &'static Nec) -> Answers {
    let of = Conditions { terminals: TerminalMark::C75, ..conditions(example) };
    let found = find(example, code, &of, ConductorRating::C90);
    Answers::default().quantity("corrected_A", found.corrected).quantity("usable_A", found.usable)
}

fn bundled_with_device(example: &Example, code: &'static Nec) -> Answers {
    let of = conditions(example);
    let found = find(example, code, &of, ConductorRating::C90);
    Answers::default()
        .quantity("adjusted_ampacity_A", found.corrected)
        .quantity("max_overcurrent_device_A", device(code, &of, &found))
}

fn device(code: &Nec, of: &Conditions, found: &Ampacity) -> Amperes {
    let conductor = (of.material, of.size);
    largest_device(code, DeviceKind::Breaker, found.usable, conductor, Supplies::Other, &mut Silent).unwrap().rating
}

fn nonmetallic(example: &Example) -> Conditions {
    let size = "12 AWG".parse().unwrap();
    in_place(example, Conditions::base(Material::Copper, size, Covering::Cable(Cable::NmB, None)))
}

fn nonmetallic_cable(example: &Example, code: &'static Nec) -> Answers {
    let found = find(example, code, &nonmetallic(example), ConductorRating::C90);
    Answers::default().quantity("derated_A", found.corrected).quantity("usable_A", found.usable)
}

fn nonmetallic_cables_with_device(example: &Example, code: &'static Nec) -> Answers {
    let of = nonmetallic(example);
    let found = find(example, code, &of, ConductorRating::C90);
    Answers::default()
        .quantity("derated_A", found.corrected)
        .quantity("max_overcurrent_device_A", device(code, &of, &found))
}

/// The smallest size of the 75 °C column, which every one of these examples reads, that carries a current.
fn smallest(code: &Nec, material: Material, least: Amperes) -> WireSize {
    let carries = |size: &&WireSize| {
        let cell = code.terminal_ampacity(material, ConductorRating::C75, **size);
        cell.is_ok_and(|cell| cell.value >= least)
    };
    *code.sizes().iter().find(carries).unwrap()
}

/// A parameter of the rules agrees with the factor that the author took.
fn parameter_agrees(example: &Example, key: &str) {
    let table = TableId::RuleFactors.load().unwrap();
    let row = table.rows.iter().find(|row| row.cell(0) == Some(key)).unwrap();
    let percent = row.cell(table.column("value").unwrap()).unwrap();
    example.factor_agrees("factor", format!("{percent} %").parse().unwrap());
}

fn dwelling_ampacity(example: &Example) -> Amperes {
    parameter_agrees(example, "dwelling-service-share");
    (example.quantity::<Amperes>("service_rating_A") * example.factor("factor")).rounded(Rounding::Up).unwrap()
}

/// The printed table of dwelling services and the ampacity of 83 percent lead to the same size.
fn dwelling_size(example: &Example, code: &Nec, material: Material) -> WireSize {
    let size = smallest(code, material, dwelling_ampacity(example));
    assert_eq!(code.dwelling_service(material, example.quantity("service_rating_A")).unwrap().value, size);
    size
}

fn dwelling_200(example: &Example, code: &'static Nec) -> Answers {
    dwelling_100(example, code).text("aluminium", dwelling_size(example, code, Material::Aluminum))
}

fn dwelling_100(example: &Example, code: &'static Nec) -> Answers {
    Answers::default()
        .quantity("minimum_ampacity_A", dwelling_ampacity(example))
        .text("copper", dwelling_size(example, code, Material::Copper))
}

fn generator_least(example: &Example, nameplate: Amperes) -> Amperes {
    parameter_agrees(example, "generator-conductors");
    (nameplate * example.factor("factor")).rounded(Rounding::Up).unwrap()
}

fn generator_conductor(example: &Example, code: &'static Nec) -> Answers {
    let current = Fraction::of_apparent_power(example.quantity("generator_VA"), example.quantity("source_V")).unwrap();
    let nameplate = current.to_current(Rounding::Up);
    let least = generator_least(example, nameplate);
    Answers::default()
        .quantity("nameplate_A", nameplate)
        .quantity("minimum_ampacity_A", least)
        .text("copper", smallest(code, Material::Copper, least))
}

fn generator_ampacity(example: &Example, _: &'static Nec) -> Answers {
    Answers::default().quantity("minimum_ampacity_A", generator_least(example, example.quantity("nameplate_A")))
}
