//! `size raceway`: the trade size that takes some conductors.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, missing, required};
use super::counted::counted;
use super::settle;
use crate::code::Code;
use crate::size::Requirement;
use crate::size::raceway::{Extent, Occupant, smallest};
use crate::trade::{Insulation, Jacket, RacewayKind, Stranding};

const FORM: &str = "3 x 6 AWG THWN-2";

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// The raceway: EMT, ENT, FMC, IMC, LFMC, RMC, PVC-40, PVC-80
    #[arg(long)]
    kind: Option<String>,
    /// Like conductors in it, grounding conductors too, said again for each sort: "3 x 6 AWG THWN-2",
    /// "3 x 4/0 AWG compact XHHW-2", "1 x 10 AWG bare"
    #[arg(long)]
    conductor: Vec<String>,
    /// How far it goes: run, or nipple (at most 24 in between boxes)
    #[arg(long)]
    extent: Option<String>,
}

named!(Question: kind, conductor, extent);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("size-raceway", code, detail);
        let kind = required::<RacewayKind>("kind", self.kind.as_ref(), "EMT")?;
        let occupants = self.conductor.iter().map(|text| occupant(text)).collect::<Result<Vec<_>, _>>()?;
        if occupants.is_empty() {
            return Err(missing("conductor", FORM));
        }
        let extent = match self.extent.as_deref().map(str::trim) {
            Some("run") => Extent::Run,
            Some("nipple") => Extent::Nipple,
            Some(_) => return Err(Problem::at("extent", "write run or nipple")),
            None => {
                answer.assume("a run longer than a nipple");
                Extent::Run
            }
        };
        let usual = |of: &Occupant| matches!(of.jacket, Jacket::Insulated(_, Stranding::Usual));
        if occupants.iter().any(usual) {
            answer.assume("strands not compact where that is not said");
        }
        answer.subject(format_args!(
            "for {}",
            self.conductor.iter().map(|text| text.trim()).collect::<Vec<_>>().join(", ")
        ));
        let found = smallest(code, kind, &occupants, extent, &mut answer.working);
        if let Some(found) = settle(&mut answer, found) {
            answer.quantity(found.trade_size);
            answer.say(format_args!("{} {}", found.trade_size, found.kind));
            answer.governed_by(Requirement::RacewayFill);
            answer.figure("whole_area", found.area);
            answer.figure("taken", found.taken);
            answer.figure("share_that_may_be_taken", found.share);
        }
        Ok(answer)
    }
}

fn occupant(text: &str) -> Result<Occupant, Problem> {
    let (count, size, jacket) = counted("conductor", text, FORM)?;
    let jacket = match jacket.split_once(' ') {
        _ if jacket.is_empty() => {
            return Err(Problem::at(
                "conductor",
                format!("what covers it is missing and decides the answer; write it as in `{FORM}`, or `bare`"),
            ));
        }
        _ if jacket == "bare" => Jacket::Bare,
        Some(("compact", insulation)) => Jacket::Insulated(read(insulation)?, Stranding::Compact),
        _ => Jacket::Insulated(read(jacket)?, Stranding::Usual),
    };
    Ok(Occupant { jacket, size, count })
}

fn read(text: &str) -> Result<Insulation, Problem> {
    text.trim().parse().map_err(|error| Problem::at("conductor", error))
}
