//! `size box`: the least volume for what a box holds, and the smallest standard metal box.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, missing};
use super::counted::counted_alone;
use super::settle;
use crate::code::Code;
use crate::quantity::{CubicMillimeters, Quantity, Rounding};
use crate::size::Requirement;
use crate::size::box_fill::{Clamps, Contents, least_volume, smallest};
use crate::trade::WireSize;

const FORM: &str = "4 x 14 AWG";

/// What is not in the box is said too: a box that is too small by what was forgotten overheats what it holds.
#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// Conductors that end, are spliced or pass unbroken inside, said again for each size: "4 x 14 AWG"
    #[arg(long)]
    conductor: Vec<String>,
    /// Equipment grounding conductors by count, with the size of the largest: "3 x 12 AWG", or none
    #[arg(long)]
    grounding: Option<String>,
    /// Devices by count, with the size of the largest conductor on them: "1 x 12 AWG", or none; one that is wider than
    /// a single device counts once for each gang
    #[arg(long)]
    device: Vec<String>,
    /// Cable clamps: internal, or none (none inside the box)
    #[arg(long)]
    clamps: Option<String>,
    /// Kinds of fittings inside, studs and hickeys: 0, 1 or 2
    #[arg(long)]
    fittings: Option<String>,
    /// The shape of metal box to choose too: round, square, device
    #[arg(long)]
    shape: Option<String>,
}

named!(Question: conductor, grounding, device, clamps, fittings, shape);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("size-box", code, detail);
        let conductors = all("conductor", &self.conductor)?;
        let grounding = match self.grounding.as_deref().map(str::trim) {
            None => return Err(missing("grounding", "3 x 12 AWG")),
            Some("none") => None,
            Some(text) => counted_alone("grounding", text, "3 x 12 AWG").map(|(count, size)| Some((size, count)))?,
        };
        let devices = match self.device.as_slice() {
            [] => return Err(missing("device", "1 x 12 AWG")),
            [none] if none.trim() == "none" => Vec::new(),
            devices => all("device", devices)?,
        };
        let clamps = match self.clamps.as_deref().map(str::trim) {
            Some("internal") => Clamps::Internal,
            Some("none") => Clamps::None,
            Some(_) => return Err(Problem::at("clamps", "write internal or none")),
            None => return Err(missing("clamps", "internal")),
        };
        let fittings = match self.fittings.as_deref().map(str::trim) {
            Some("0") => 0,
            Some("1") => 1,
            Some("2") => 2,
            Some(_) => return Err(Problem::at("fittings", "write 0, 1 or 2")),
            None => return Err(missing("fittings", "0")),
        };
        if conductors.is_empty() {
            return Err(missing("conductor", FORM));
        }
        let contents = Contents { conductors: &conductors, grounding, clamps, fittings, devices: &devices };
        answer.assume("no terminal blocks; no volume of plaster rings, extension rings or domed covers");
        let count = conductors.iter().fold(0_u32, |sum, (_, count)| sum.saturating_add(u32::from(*count)));
        let what = format!("for {count} conductors and what lies with them");
        match self.shape.as_deref().map(str::trim) {
            None => {
                answer.subject(format_args!("least volume of a box {what}"));
                let found = least_volume(code, &contents, &mut answer.working);
                if let Some(volume) = answer.settle(found) {
                    answer.quantity(cubic_inches(volume));
                    answer.governed_by(Requirement::BoxFill);
                }
            }
            Some(shape @ ("round" | "square" | "device")) => {
                answer.subject(format_args!("smallest standard metal box {what}"));
                let found = smallest(code, &contents, shape, &mut answer.working);
                if let Some(found) = settle(&mut answer, found) {
                    answer.quantity(cubic_inches(found.volume));
                    answer.say(found.name);
                    answer.governed_by(Requirement::BoxFill);
                    answer.figure("least_volume_rounded_up", cubic_inches(found.taken));
                    answer.figure("volume", cubic_inches(found.volume));
                }
            }
            Some(_) => return Err(Problem::at("shape", "write round, square or device")),
        }
        Ok(answer)
    }
}

fn all(option: &str, texts: &[String]) -> Result<Vec<(WireSize, u16)>, Problem> {
    let read = |text: &String| counted_alone(option, text, FORM).map(|(count, size)| (size, count));
    texts.iter().map(read).collect()
}

/// In cubic inches, as the tables print, rounded up to a thousandth.
fn cubic_inches(volume: CubicMillimeters) -> String {
    let unit = CubicMillimeters::UNITS.iter().find(|unit| unit.symbol == "in3");
    unit.map_or_else(|| volume.to_string(), |unit| format!("{} in3", volume.in_unit(unit, 3, Rounding::Up)))
}
