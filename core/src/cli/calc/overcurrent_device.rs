//! `calc overcurrent-device`: the largest that protects a conductor, or the next one for a load.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, given, missing};
use super::ampacity::named;
use super::conductor::Conductor;
use super::continuous_load::{LoadOptions, in_range};
use crate::calc::Silent;
use crate::calc::ampacity::ampacity;
use crate::calc::continuous::requirement;
use crate::calc::overcurrent::{Supplies, largest_device, next_device};
use crate::code::Code;
use crate::quantity::{Amperes, Scaled};
use crate::trade::{DeviceKind, Material, WireSize};

/// For a conductor: state it, or its --ampacity with --size and --material. For a load: --required, or --continuous
/// and --non-continuous.
#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// The ampacity of the conductor, where it is known: "55 A"
    #[arg(long)]
    ampacity: Option<String>,
    #[command(flatten)]
    conductor: Conductor,
    /// The least rating that a load requires, where it is known: "45 A"
    #[arg(long)]
    required: Option<String>,
    #[command(flatten)]
    load: LoadOptions,
    /// The kind of device: breaker or fuse
    #[arg(long)]
    kind: Option<String>,
    /// What the circuit supplies: several-receptacles (for cord-and-plug portable loads), other
    #[arg(long)]
    supplies: Option<String>,
}

named!(Question: ampacity, required, kind, supplies; conductor, load);

const SUPPLIES: [Supplies; 2] = [Supplies::SeveralReceptacles, Supplies::Other];
const KINDS: [DeviceKind; 2] = [DeviceKind::Breaker, DeviceKind::Fuse];

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let for_load =
            [&self.required, &self.load.continuous, &self.load.non_continuous].into_iter().any(Option::is_some);
        let for_conductor = [&self.ampacity, &self.conductor.size, &self.conductor.insulation, &self.conductor.cable];
        match (for_load, for_conductor.into_iter().any(Option::is_some)) {
            (true, false) => self.for_load(code, detail),
            (false, true) => self.for_conductor(code, detail),
            (true, true) => Err(Problem(
                "a conductor and a load are two questions: the largest device for the one, the least for the other; ask \
                 each by itself"
                    .to_owned(),
            )),
            (false, false) => Err(Problem(
                "nothing to protect and nothing to supply; state a conductor, as in `--size \"6 AWG\" --material copper \
                 --insulation THHN`, or a load, as in `--required \"45 A\"`"
                    .to_owned(),
            )),
        }
    }

    fn for_conductor(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("overcurrent-device", code, detail);
        let (conductor, known) = (&self.conductor, given::<Amperes>("ampacity", self.ampacity.as_ref())?);
        let (of, ampacity) = match known {
            Some(ampacity) => {
                if conductor.insulation.is_some() || conductor.cable.is_some() {
                    return Err(Problem::at(
                        "ampacity",
                        "stands for --insulation or --cable and the conditions; give either the one or the others",
                    ));
                }
                let of = conductor.material_and_size()?;
                answer.subject(format_args!("largest device for {} {} of {ampacity}", of.1, of.0));
                (of, ampacity)
            }
            None => {
                let conditions = conductor.conditions(code, &mut answer)?;
                answer.subject(format_args!("largest device for {}", named(&conditions)));
                let found = ampacity(code, &conditions, &mut answer.working);
                let Some(found) = answer.settle(found) else {
                    return Ok(answer);
                };
                answer.figure("ampacity", found.usable);
                ((conditions.material, conditions.size), found.usable)
            }
        };
        let (kind, supplies) = self.kind_and_supplies(code, of, ampacity)?;
        let found = largest_device(code, kind, ampacity, of, supplies, &mut answer.working);
        if let Some(found) = answer.settle(found) {
            answer.quantity(found.rating);
            answer.governed_by(found.governed_by);
        }
        answer.assume("neither a tap, a motor circuit nor a transformer, which 240.4(E) to (G) treat apart");
        Ok(answer)
    }

    fn for_load(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("overcurrent-device", code, detail);
        let known: Option<Amperes> = given("required", self.required.as_ref())?;
        if self.supplies.is_some() {
            return Err(Problem::at("supplies", "belongs to the device of a conductor; leave it out for a load"));
        }
        let required = match known {
            Some(_) if self.load.continuous.is_some() || self.load.non_continuous.is_some() => {
                return Err(Problem::at(
                    "required",
                    "stands for --continuous and --non-continuous; give either the one or the others",
                ));
            }
            Some(required) => Scaled::whole(required),
            None => {
                let (load, rating) = self.load.read(&mut answer)?;
                let found = requirement(code, load, rating, &mut answer.working);
                let Some(found) = answer.settle(found) else {
                    return Ok(answer);
                };
                in_range(&found)?;
                answer.figure("required", found.device_shown());
                found.device
            }
        };
        answer.subject("least standard device for the load");
        let kind = match given("kind", self.kind.as_ref())? {
            Some(kind) => kind,
            None => alike(KINDS, |kind| next_device(code, kind, required, &mut Silent))
                .ok_or_else(|| missing("kind", "breaker"))?,
        };
        let found = next_device(code, kind, required, &mut answer.working);
        if let Some(found) = answer.settle(found) {
            answer.quantity(found);
            answer.governed_by("load");
        }
        Ok(answer)
    }

    /// What was stated; what was not is asked for only where the answer depends on it.
    fn kind_and_supplies(
        &self,
        code: &dyn Code,
        of: (Material, WireSize),
        ampacity: Amperes,
    ) -> Result<(DeviceKind, Supplies), Problem> {
        let kind: Option<DeviceKind> = given("kind", self.kind.as_ref())?;
        let supplies = match self.supplies.as_deref().map(str::trim) {
            None => None,
            Some("several-receptacles") => Some(Supplies::SeveralReceptacles),
            Some("other") => Some(Supplies::Other),
            Some(_) => return Err(Problem::at("supplies", "write several-receptacles or other")),
        };
        let rating =
            |kind, supplies| largest_device(code, kind, ampacity, of, supplies, &mut Silent).map(|found| found.rating);
        let kind = match (kind, supplies) {
            (Some(kind), _) => kind,
            (None, Some(supplies)) => {
                alike(KINDS, |kind| rating(kind, supplies)).ok_or_else(|| missing("kind", "breaker"))?
            }
            (None, None) => alike(KINDS, |kind| SUPPLIES.map(|supplies| rating(kind, supplies)))
                .ok_or_else(|| missing("kind", "breaker"))?,
        };
        let supplies = match supplies {
            Some(supplies) => supplies,
            None => alike(SUPPLIES, |supplies| rating(kind, supplies))
                .ok_or_else(|| missing("supplies", "several-receptacles"))?,
        };
        Ok((kind, supplies))
    }
}

/// Any one of the choices, where all give the same answer.
fn alike<C: Copy, A: PartialEq>(choices: [C; 2], mut answer: impl FnMut(C) -> A) -> Option<C> {
    let [first, second] = choices;
    (answer(first) == answer(second)).then_some(first)
}
