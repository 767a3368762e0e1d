//! `equipment-grounding-conductor`: the grounding conductor of a run is large enough for its device.

use super::wires::{Run, rating_ahead};
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::ampacity::{Conditions, Covering, ampacity};
use crate::calc::grounding::{Enlarged, equipment};
use crate::calc::overcurrent::{Supplies, largest_device};
use crate::calc::Silent;
use crate::quantity::Amperes;
use crate::site::Wiring;
use crate::trade::{DeviceKind, Insulation, Material, TerminalMark, WireSize};

rule! {
    /// ## Protects against
    /// A fault to metal that the device does not clear, because the way back is too thin; more so where conductors were
    /// enlarged and the grounding conductor was not.
    ///
    /// ## Cannot tell when
    /// The rating of the device, or the size or material of the grounding conductor, is not stated; or the conductors are
    /// larger than the device alone would ask for, and the size that would do is not stated and decides.
    ///
    /// ## Remedy
    /// A larger grounding conductor.
    EQUIPMENT_GROUNDING_CONDUCTOR = "equipment-grounding-conductor" {
        severity: Violation,
        summary: "an equipment grounding conductor is too small for its device",
        topics: ["equipment-grounding", "equipment-grounding-increase"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    let mut smallest = Smallest::default();
    for run in Run::all(survey) {
        let of = run.component();
        let Some(device) = rating_ahead(run.known(survey).device, of, found) else { continue };
        let Some(wiring) = run.wiring() else {
            found.ask(of, "wiring", "its wiring");
            continue;
        };
        let Some(size) = wiring.grounding_size else {
            found.ask(of, "wiring", "the size of its equipment grounding conductor");
            continue;
        };
        let Some(material) = wiring.grounding_material else {
            found.ask(of, "wiring", "the material of its equipment grounding conductor");
            continue;
        };
        let required = |enlarged, found: &mut Findings| {
            found.afresh();
            equipment(survey.code, material, device, enlarged, found)
        };
        // Whether the conductors were enlarged matters only to a grounding conductor that is large enough without.
        let plain = required(None, found);
        let enough = plain.as_ref().is_ok_and(|least| size >= *least);
        let least = match enlarged(survey, wiring, device, &mut smallest) {
            _ if !enough => plain,
            Ok(None) => plain,
            Ok(enlarged) => required(enlarged, found),
            Err((possible, fact)) => match possible.map(|enlarged| required(Some(enlarged), found)) {
                Some(Ok(least)) if size >= least => Ok(least),
                _ => {
                    found.ask(of, "wiring", fact);
                    continue;
                }
            },
        };
        match least {
            Err(gap) => found.gap(of, "wiring", gap),
            Ok(least) => {
                let said = Said::Compared {
                    does: "has a grounding conductor of",
                    measured: Value::Size(size),
                    limit_words: "its device asks for",
                    limit: Value::Size(least),
                };
                let holds = size >= least;
                let remedy = Remedy::Use("use an equipment grounding conductor of at least", Value::Size(least));
                found.judge(of, "wiring", holds, said, remedy);
            }
        }
    }
}

/// How far conductors may have been enlarged, as far as that is known, and the fact that is missing.
type Perhaps = (Option<Enlarged>, &'static str);

/// Whether the conductors were enlarged, and from which size.
fn enlarged(
    survey: &Survey<'_>,
    wiring: &Wiring,
    device: Amperes,
    smallest: &mut Smallest,
) -> Result<Option<Enlarged>, Perhaps> {
    let installed = wiring.size.ok_or((None, "its wire size"))?;
    if let Some(needed) = wiring.minimum_size {
        return Ok(Some(Enlarged { needed, installed }));
    }
    let material = wiring.material.ok_or((None, "the material of its conductors"))?;
    let fact = "the smallest size that would do for its conductors";
    let needed = smallest.of(survey, wiring, (material, device)).ok_or((None, fact))?;
    if installed <= needed { Ok(None) } else { Err((Some(Enlarged { needed, installed }), fact)) }
}

/// The smallest size that a device of a rating may protect in the best conditions: whatever the conditions ask for is not
/// smaller. Most runs of a building are alike, so the last answer is kept.
#[derive(Default)]
struct Smallest(Option<(Protected, Option<WireSize>)>);

type Protected = (Material, Amperes, TerminalMark);

impl Smallest {
    /// Terminals of a higher mark than 75 °C are not reckoned with (common practice, no source).
    fn of(&mut self, survey: &Survey<'_>, wiring: &Wiring, (material, device): (Material, Amperes)) -> Option<WireSize> {
        let ends = [wiring.supply_terminals, wiring.load_terminals];
        let terminals = if ends.contains(&Some(TerminalMark::C60)) { TerminalMark::C60 } else { TerminalMark::C75 };
        let asked = (material, device, terminals);
        match self.0 {
            Some((known, smallest)) if known == asked => smallest,
            _ => self.0.insert((asked, smallest(survey, asked))).1,
        }
    }
}

fn smallest(survey: &Survey<'_>, (material, device, terminals): Protected) -> Option<WireSize> {
    survey.code.sizes().iter().copied().find(|size| {
        let base = Conditions::base(material, *size, Covering::Insulation(Insulation::Thhn));
        let conditions = Conditions { terminals, circuit_rating: Some(device), ..base };
        let largest = ampacity(survey.code, &conditions, &mut Silent).and_then(|ampacity| {
            let conductor = (material, *size);
            largest_device(survey.code, DeviceKind::Breaker, ampacity.usable, conductor, Supplies::Other, &mut Silent)
        });
        largest.is_ok_and(|largest| device <= largest.rating)
    })
}
