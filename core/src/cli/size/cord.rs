//! `size cord`: a cord set for an outlet.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, given, required};
use super::settle;
use crate::code::Code;
use crate::quantity::{Celsius, Meters, Quantity, Ratio, Rounding, Written};
use crate::size::cord::{self, cord_set};
use crate::size::kit::Prohibited;
use crate::trade::{Configuration, Contacts, Gender, Place, Usage};

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// The outlet: "14-50", "L14-30", "5-20"
    #[arg(long)]
    outlet: Option<String>,
    /// What the connector serves, where it differs: "CS-50-125/250"
    #[arg(long)]
    connector: Option<String>,
    /// The rating of the device that protects the outlet: "30 A"
    #[arg(long)]
    device: Option<String>,
    /// The load on each line: "24 A"
    #[arg(long)]
    current: Option<String>,
    /// The voltage: "240 V"
    #[arg(long)]
    voltage: Option<String>,
    /// The length: "50 ft"
    #[arg(long)]
    length: Option<String>,
    /// The limit on the voltage drop: "3 %"
    #[arg(long)]
    drop_limit: Option<String>,
    /// How hard it is used: not hard, hard, extra hard
    #[arg(long)]
    usage: Option<String>,
    /// The kind of place: dry, damp, wet
    #[arg(long)]
    place: Option<String>,
    /// The ambient temperature: "30 °C", "95 °F"
    #[arg(long, allow_hyphen_values = true)]
    ambient: Option<String>,
    /// The temperature marked on the cord: "90 °C"
    #[arg(long)]
    marked: Option<String>,
    /// The type, where one is wanted: SOOW
    #[arg(long = "type")]
    cord_type: Option<String>,
}

named!(Question: outlet, connector, device, current, voltage, length, drop_limit, usage, place, ambient, marked, "type" = cord_type);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("size-cord", code, detail);
        let outlet: Configuration = match half("outlet", self.outlet.as_ref())? {
            Some((outlet, _)) => outlet,
            None => required("outlet", None, "14-50")?,
        };
        let connector = match half("connector", self.connector.as_ref())? {
            Some((_, Some(Gender::Male))) => {
                // Blades at the load end too: never sized.
                answer.subject("a cord with blades at both ends");
                answer.no(Prohibited::CordWithTwoPlugs.lawful());
                answer.governed_by(Prohibited::CordWithTwoPlugs.rule());
                return Ok(answer);
            }
            Some((connector, _)) => connector,
            None => outlet,
        };
        let drop = given::<Ratio>("drop-limit", self.drop_limit.as_ref())?;
        let length = match (drop, given::<Meters>("length", self.length.as_ref())?) {
            (Some(_), None) => required("length", None, "50 ft")?,
            (_, length) => length.unwrap_or(Meters::ZERO),
        };
        if drop.is_none() {
            answer.assume("no limit on the voltage drop");
        }
        let ambient = match given::<Written<Celsius>>("ambient", self.ambient.as_ref())? {
            Some(ambient) => ambient.value(),
            None => {
                answer.assume("ambient 30 °C, the base of the table");
                Celsius::from_whole(30)
            }
        };
        let marked = given::<Written<Celsius>>("marked", self.marked.as_ref())?.map(|marked| marked.value());
        if marked.is_none() {
            answer.assume("the cord is not marked with a temperature");
        }
        let asked = cord::Question {
            outlet,
            connector,
            device: required("device", self.device.as_ref(), "30 A")?,
            current: required("current", self.current.as_ref(), "24 A")?,
            voltage: required("voltage", self.voltage.as_ref(), "240 V")?,
            length,
            drop,
            usage: required::<Usage>("usage", self.usage.as_ref(), "hard")?,
            place: required::<Place>("place", self.place.as_ref(), "wet")?,
            ambient,
            marked,
            cord: given("type", self.cord_type.as_ref())?,
        };
        answer.subject(format_args!("cord set for {} from an outlet {outlet} behind {}", asked.current, asked.device));
        let found = cord_set(code, &asked, &mut answer.working);
        if let Some(set) = settle(&mut answer, found) {
            answer.quantity(set.size.value);
            answer.say(format_args!("{} {}, {} conductors", set.cord, set.size.value, set.conductors));
            answer.governed_by(set.size.governed_by);
            answer.figure("type", set.cord);
            answer.figure("size", set.size.value);
            answer.figure("conductors", set.conductors);
            answer.figure("plug", set.plug);
            answer.figure("connector", set.connector);
            answer.figure("ampacity", set.ampacity);
            if let Some(longest) = set.longest {
                answer.figure("longest_for_the_drop", longest);
                answer.figure("longest_for_the_drop_in_feet", in_feet(longest));
            }
        }
        Ok(answer)
    }
}

/// In feet, rounded down to a tenth.
pub(super) fn in_feet(length: Meters) -> String {
    let unit = Meters::UNITS.iter().find(|unit| unit.symbol == "ft");
    unit.map_or_else(String::new, |unit| format!("{} ft", length.in_unit(unit, 1, Rounding::Down)))
}

/// A configuration, with or without the letter of a plug or a receptacle behind it.
fn half(option: &str, text: Option<&String>) -> Result<Option<(Configuration, Option<Gender>)>, Problem> {
    let Some(text) = text else { return Ok(None) };
    if let Ok(configuration) = text.parse::<Configuration>() {
        return Ok(Some((configuration, None)));
    }
    match text.parse::<Contacts>() {
        Ok(contacts) => Ok(Some((contacts.configuration, Some(contacts.gender)))),
        Err(_) => {
            Err(Problem::at(option, text.parse::<Configuration>().err().map_or(String::new(), |e| e.to_string())))
        }
    }
}
