//! `size kit`: what it takes to connect a source to a building, in several ways side by side.

use std::fmt::Write as _;
use std::io::Write;
use std::str::FromStr;

use super::super::answer::{Answer, CAUTION, Detail};
use super::super::calc::Book;
use super::super::calc::conductor::Conductor;
use super::super::named::named;
use super::super::options::{Problem, given, missing, required};
use super::super::output::Output;
use super::super::{Status, json};
use crate::calc::Derivation;
use crate::code::Code;
use crate::quantity::{Amperes, Ratio};
use crate::site::{LoadWish, SourceNeutral};
use crate::size::kit::{self, Alternative, Importance, Outlet, Panel, Price, Prohibited, Source, Wanted, alternatives};
use crate::trade::{Configuration, ContinuousRating, Leg};

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// The system of the source: "120/240 V", "120 V"
    #[arg(long)]
    source_system: Option<String>,
    /// The current that the source gives for hours on each line: "30 A"
    #[arg(long)]
    source_current: Option<String>,
    /// Whether the neutral of the source is bonded to its frame: bonded or floating
    #[arg(long)]
    source_neutral: Option<String>,
    /// An outlet with its device, several times: "14-50 = 40 A", or "14-50 = 40 A, 100 %"
    #[arg(long)]
    outlet: Vec<String>,
    /// The system of the panel: "120/240 V"
    #[arg(long)]
    panel_system: Option<String>,
    /// The rating of the panel: "100 A"
    #[arg(long)]
    panel_rating: Option<String>,
    /// What should run, several times: "well pump = 240 V, 8 A, must", "refrigerator = 120 V, 6 A, plug 5-15, priority 1",
    /// "furnace = 120 V, 5 A, leg A, weight 2". Where not all fits, what must be on goes first, then by priority (1
    /// first), then by weight, then as it stands here
    #[arg(long)]
    want: Vec<String>,
    /// From the source to the inlet or an appliance: "25 ft"
    #[arg(long)]
    cord_length: Option<String>,
    /// The place of the cords: dry, damp, wet
    #[arg(long)]
    cord_place: Option<String>,
    /// From the inlet to the panel: "20 ft"
    #[arg(long)]
    feeder_length: Option<String>,
    /// The limit on the voltage drop of the cord, and again of the conductors: "3 %"
    #[arg(long)]
    drop_limit: Option<String>,
    /// What a part costs, by the beginning of its name, several times: "flanged inlet = 85.00"
    #[arg(long)]
    price: Vec<String>,
    /// `none` asks for a connection without transfer equipment
    #[arg(long)]
    transfer: Option<String>,
    #[command(flatten)]
    conductor: Conductor,
}

named!(Question: source_system, source_current, source_neutral, outlet, panel_system, panel_rating, want, cord_length, cord_place, feeder_length, drop_limit, price, transfer; conductor);

/// The document for programs.
#[derive(serde::Serialize)]
struct Document<'a> {
    question: &'static str,
    edition: &'static str,
    outcome: &'static str,
    alternatives: Vec<Alternative<'a>>,
    prohibited: Option<Refusal>,
    working: Derivation,
    assumed: &'a [String],
    caution: &'static str,
}

#[derive(serde::Serialize)]
struct Refusal {
    rule: &'static str,
    lawful: &'static str,
}

impl Question {
    pub(super) fn run(&self, book: &Book, out: &mut Output<impl Write>) -> Result<Status, Problem> {
        let (text, status) = book.ask(|code, stated| self.document(code, stated, book.is_json()))?;
        out.write(&text);
        Ok(status)
    }

    /// The answer as it is printed.
    pub(in crate::cli) fn document(
        &self,
        code: &dyn Code,
        edition_stated: bool,
        as_json: bool,
    ) -> Result<(String, Status), Problem> {
        match self.transfer.as_deref().map(str::trim) {
            None => self.answer(code, edition_stated, as_json),
            Some("none") => refuse(Prohibited::NoTransferEquipment, code, as_json).map(|text| (text, Status::No)),
            Some(_) => Err(Problem::at("transfer", "every lawful kind is shown; leave it out, or write none")),
        }
    }

    fn answer(&self, code: &dyn Code, edition_stated: bool, as_json: bool) -> Result<(String, Status), Problem> {
        let mut note = Answer::new("size-kit", code, Detail::Full);
        if !edition_stated {
            note.assume_edition();
        }
        let outlets = self.outlet.iter().map(|text| outlet(text)).collect::<Result<Vec<_>, _>>()?;
        if outlets.is_empty() {
            return Err(missing("outlet", "14-50 = 40 A"));
        }
        let wanted = self.want.iter().map(|text| wanted(text)).collect::<Result<Vec<_>, _>>()?;
        let prices = self.price.iter().map(|text| price(text)).collect::<Result<Vec<_>, _>>()?;
        let mut conductor = self.conductor.clone();
        conductor.size.get_or_insert_with(|| "14 AWG".to_owned());
        conductor.circuit_rating = Some("15 A".to_owned());
        let mut feeder = conductor.conditions(code, &mut note)?;
        feeder.circuit_rating = None;
        let question = kit::Question {
            source: Source {
                system: required("source-system", self.source_system.as_ref(), "120/240 V")?,
                current: required("source-current", self.source_current.as_ref(), "30 A")?,
                outlets: &outlets,
                neutral: given::<SourceNeutral>("source-neutral", self.source_neutral.as_ref())?,
            },
            panel: Panel {
                system: required("panel-system", self.panel_system.as_ref(), "120/240 V")?,
                rating: required("panel-rating", self.panel_rating.as_ref(), "100 A")?,
            },
            wanted: &wanted,
            cord_length: required("cord-length", self.cord_length.as_ref(), "25 ft")?,
            feeder_length: required("feeder-length", self.feeder_length.as_ref(), "20 ft")?,
            feeder,
            drop: given::<Ratio>("drop-limit", self.drop_limit.as_ref())?,
            cord_place: required("cord-place", self.cord_place.as_ref(), "wet")?,
            prices: &prices,
        };
        let mut working = Derivation::default();
        let all = alternatives(code, &question, &mut working);
        let status = if all.iter().any(|alternative| alternative.kit.is_ok()) { Status::Answered } else { Status::No };
        if as_json {
            let outcome = if status == Status::Answered { "answered" } else { "no" };
            let document = Document {
                question: "size-kit",
                edition: code.id(),
                outcome,
                alternatives: all,
                prohibited: None,
                working,
                assumed: note.assumed(),
                caution: CAUTION,
            };
            return Ok((json(serde_json::to_string_pretty(&document))? + "\n", status));
        }
        Ok((text(&all, !prices.is_empty(), note.assumed()), status))
    }
}

fn refuse(what: Prohibited, code: &dyn Code, as_json: bool) -> Result<String, Problem> {
    let refusal = Refusal { rule: what.rule(), lawful: what.lawful() };
    if !as_json {
        return Ok(format!("{} fails: {}\ncaution: {CAUTION}\n", refusal.rule, refusal.lawful));
    }
    let document = Document {
        question: "size-kit",
        edition: code.id(),
        outcome: "no",
        alternatives: Vec::new(),
        prohibited: Some(refusal),
        working: Derivation::default(),
        assumed: &[],
        caution: CAUTION,
    };
    json(serde_json::to_string_pretty(&document)).map(|text| text + "\n")
}

fn text(all: &[Alternative<'_>], priced: bool, assumed: &[String]) -> String {
    let mut out = String::new();
    for alternative in all {
        // A `String` takes whatever is written to it.
        let _ = describe(alternative, priced, &mut out);
    }
    for assumed in assumed {
        let _ = writeln!(out, "assumed: {assumed}");
    }
    let _ = writeln!(out, "caution: {CAUTION}");
    out
}

fn describe(alternative: &Alternative<'_>, priced: bool, out: &mut String) -> std::fmt::Result {
    writeln!(out, "{}", alternative.arrangement.words())?;
    let kit = match &alternative.kit {
        Err(obstacle) => return writeln!(out, "  not to be had: {obstacle}\n"),
        Ok(kit) => kit,
    };
    writeln!(out, "  carries: {} on each line, for hours", kit.carries)?;
    if let Some(neutral) = kit.neutral {
        writeln!(out, "  neutral of the transfer equipment: {neutral}")?;
    }
    if !kit.runs.is_empty() {
        writeln!(out, "  runs: {}", kit.runs.join(", "))?;
    }
    for (name, why) in &kit.stays_off {
        writeln!(out, "  stays off: {name}: {why}")?;
    }
    for part in &kit.parts {
        writeln!(out, "  part: {} x {} ({})", part.amount, part.name, part.rule)?;
    }
    if priced {
        let (whole, hundredths) = (kit.cost.hundredths / 100, kit.cost.hundredths % 100);
        write!(out, "  cost: {whole}.{hundredths:02}")?;
        match kit.cost.not_priced.len() {
            0 => writeln!(out)?,
            1 => writeln!(out, ", and 1 part without a price")?,
            count => writeln!(out, ", and {count} parts without a price")?,
        }
    }
    writeln!(out)
}

/// `name = …`, with a message that shows the form.
fn named<'t>(option: &str, text: &'t str, form: &str) -> Result<(&'t str, &'t str), Problem> {
    let (name, rest) = text
        .split_once('=')
        .ok_or_else(|| Problem::at(option, format!("`{text}` lacks `=`; write it as in `{form}`")))?;
    Ok((name.trim(), rest.trim()))
}

fn read<T: FromStr<Err: std::fmt::Display>>(option: &str, text: &str) -> Result<T, Problem> {
    text.trim().parse().map_err(|error| Problem::at(option, error))
}

fn outlet(text: &str) -> Result<Outlet, Problem> {
    let (name, rest) = named("outlet", text, "14-50 = 40 A")?;
    let (device, rating) = rest.split_once(',').map_or((rest, None), |(device, rating)| (device, Some(rating)));
    Ok(Outlet {
        configuration: read::<Configuration>("outlet", name)?,
        device: read::<Amperes>("outlet", device)?,
        continuous_rating: match rating {
            Some(rating) => read("outlet", rating)?,
            None => ContinuousRating::Standard,
        },
    })
}

fn wanted(text: &str) -> Result<Wanted<'_>, Problem> {
    let form = "well pump = 240 V, 8 A";
    let (name, rest) = named("want", text, form)?;
    let mut parts = rest.split(',').map(str::trim);
    let lacks = || Problem::at("want", format!("`{text}` lacks voltage or current; write it as in `{form}`"));
    let voltage = read("want", parts.next().ok_or_else(lacks)?)?;
    let current = read("want", parts.next().ok_or_else(lacks)?)?;
    let mut wanted = Wanted { name, voltage, current, plug: None, leg: None, importance: Importance::default() };
    for part in parts {
        if let Ok(wish) = part.parse::<LoadWish>() {
            wanted.importance.wish = wish;
            continue;
        }
        match part.split_once(' ') {
            Some(("priority", class)) => wanted.importance.priority = Some(read("want", class)?),
            Some(("weight", weight)) => wanted.importance.weight = read("want", weight)?,
            Some(("plug", plug)) => wanted.plug = Some(read::<Configuration>("want", plug)?),
            Some(("leg", leg)) => wanted.leg = Some(read::<Leg>("want", leg)?),
            _ => {
                let words = "`plug 5-15`, `leg A`, `must`, `would like`, `off`, `priority 1` or `weight 2`";
                return Err(Problem::at("want", format!("`{part}` is not understood; write {words}")));
            }
        }
    }
    Ok(wanted)
}

fn price(text: &str) -> Result<Price<'_>, Problem> {
    let (part, amount) = named("price", text, "flanged inlet = 85.00")?;
    let wrong = || Problem::at("price", format!("`{amount}` is not an amount; write it as in `85.00`"));
    let decimal = rust_decimal::Decimal::from_str_exact(amount).map_err(|_| wrong())?;
    let hundredths = decimal.checked_mul(rust_decimal::Decimal::ONE_HUNDRED).ok_or_else(wrong)?.normalize();
    if hundredths.scale() != 0 {
        return Err(wrong());
    }
    Ok(Price { part, hundredths: u64::try_from(hundredths.mantissa()).map_err(|_| wrong())? })
}
