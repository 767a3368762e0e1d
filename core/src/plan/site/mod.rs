//! The plan of a described site: what can run on its source, on which leg, started in which order, and for how long.
//!
//! Left out: the trip curves of devices while a motor starts, the reactance of the wires, and what unequal legs do to
//! the voltage of a load between them, which counts as half of it on each leg; a note says so where it matters.
//!
//! ```
//! use loadworthy::{code::{Edition, Nec}, plan::{Verdict, site::{Body, Options, plan}}, site::Site};
//! let site = Site::from_toml("cottage-plan.toml", include_str!("../../../examples/cottage-plan.toml"))?;
//! let found = plan(&site, Nec::standard(Edition::Nec2023), &Options::default()).map_err(|wrong| wrong[0].to_string())?;
//! let Body::Plan(planned) = &found.body else { return Err("no plan".into()) };
//! assert_eq!(planned.on.iter().filter(|on| on.name == "well pump").count(), 1);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod answer;
mod candidate;
mod choice;
mod impossible;
mod lasting;
mod limits;
mod neutral;
mod record;
mod rotation;
mod starts;
mod supply;
mod way;
mod whole;

use super::choose::{self, Reason};
use super::endurance::EnduranceError;
use super::{Known, Question, Verdict, order};
use crate::check::{self, WithWorking};
use crate::code::Code;
use crate::interrupt::Interrupt;
use crate::quantity::{Amperes, Quantity, Rounding, Seconds, VoltAmperes, Watts};
use crate::rules::{Shape, Survey};
use crate::site::{Component, Site, Source, TransferKind};
use crate::trade::Leg;

use candidate::Candidate;
use choice::{Found, Refused, Search};

pub use answer::{BaseFrom, Body, KeptOff, On, Plan, SitePlan, Why};
pub use impossible::Impossible;
pub use lasting::{Lasting, Lasts, Wished};
pub use record::RecordError;
pub use starts::{JudgedOrder, StartStep, Starts};
pub use whole::{Whole, Working};

/// What is asked besides the description.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// The source, where there are several.
    pub source: Option<String>,
    /// An order of starts to be judged, by the names of the loads.
    pub start_order: Option<Vec<String>>,
    /// The time that is wished.
    pub wish: Option<Seconds>,
    /// The hour of the day at which the source takes over, 0 to 23.
    pub start_hour: u8,
    /// A measured base load in place of a stated one.
    pub measured: Option<MeasuredBase>,
    /// The work after which the best set so far is given, with the most that another can be worth;
    /// [`choose::MOST_NODES`] where nothing is said. A first answer is always sought.
    pub work: Option<u64>,
}

/// What a record of a meter says of the base load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeasuredBase {
    /// The demand.
    pub demand: MeasuredDemand,
    /// The mean demand of each hour of the day, which the energy is reckoned by; `None` where no day recorded the hour.
    pub by_hour: Box<[Option<MeasuredDemand>; 24]>,
    /// The described loads that the record holds already, by name.
    pub stands_for: Vec<String>,
}

/// A measured demand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasuredDemand {
    /// Of the whole.
    Power(Watts),
    /// On leg A and leg B.
    Legs([Amperes; 2]),
}

/// Plans a site.
///
/// # Errors
/// Everything stated that cannot be, each with its place.
pub fn plan(site: &Site, code: &dyn Code, options: &Options) -> Result<SitePlan, Vec<Impossible>> {
    plan_unless(site, code, options, &Interrupt::never())
}

/// Plans a site as [`plan`] does, unless the search is interrupted.
///
/// # Errors
/// As [`plan`], and that it was stopped.
pub fn plan_unless(
    site: &Site,
    code: &dyn Code,
    options: &Options,
    interrupt: &Interrupt,
) -> Result<SitePlan, Vec<Impossible>> {
    let source = pick(site, options).map_err(|wrong| vec![wrong])?;
    let wrong = impossible::check(site, source);
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let mut answer = SitePlan::of(site, source);
    if check::check(site, code, WithWorking::No).prohibited() {
        answer.body = Body::Prohibited;
        answer.verdict = Verdict::Fails;
        answer.path = check::Verdict::NotLoadworthy;
        return Ok(answer);
    }
    let survey = Survey::new(site, code);
    answer.whole = whole::whole(site, source);
    if survey.shape(source.id()) == Some(Shape::ThreePhase) {
        answer.notes.push("a source of three phases is not planned here".to_owned());
        return Ok(answer);
    }
    Planner::new(&survey, source, options, interrupt, &mut answer)?.run(answer)
}

fn pick<'a>(site: &'a Site, options: &Options) -> Result<&'a Source, Impossible> {
    let at = || site.premises().place();
    let names = || site.sources().iter().map(|source| format!("`{}`", source.name)).collect::<Vec<_>>().join(", ");
    match (&options.source, site.sources()) {
        (Some(name), sources) => sources.iter().find(|source| source.name.as_str() == name).ok_or_else(|| Impossible {
            at: at(),
            what: format!("`{name}` is not a source of the site; its sources are: {}", names()),
        }),
        (None, [one]) => Ok(one),
        (None, []) => Err(Impossible { at: at(), what: "the site has no source; describe one".to_owned() }),
        (None, _) => {
            Err(Impossible { at: at(), what: format!("the site has several sources; name one of: {}", names()) })
        }
    }
}

struct Planner<'s, 'a> {
    survey: &'s Survey<'a>,
    source: &'a Source,
    options: &'s Options,
    interrupt: &'s Interrupt,
    candidates: Vec<Candidate<'a>>,
    mapped: limits::Mapped,
    base: supply::Base,
    supply: order::Source,
    /// What is asked about the voltage of the source and the trunk.
    about_way: Vec<Question>,
}

impl<'s, 'a> Planner<'s, 'a> {
    fn new(
        survey: &'s Survey<'a>,
        source: &'a Source,
        options: &'s Options,
        interrupt: &'s Interrupt,
        answer: &mut SitePlan,
    ) -> Result<Self, Vec<Impossible>> {
        let trunk = way::trunk(survey, source);
        let mut candidates = candidate::candidates(survey, source, &trunk);
        stand_in(&mut candidates, options, survey.site).map_err(|wrong| vec![wrong])?;
        let mapped = limits::limits(survey, source);
        let mut about_way = Vec::new();
        answer.questions.extend(mapped.questions.iter().cloned());
        let base = supply::base(survey, source, options.measured.as_ref(), &mut answer.questions, &mut answer.notes);
        let resistance = way::shared(survey, &trunk);
        let supply = supply::source(survey, source, &mapped, resistance, &mut answer.notes, &mut about_way);
        answer.base = base.power;
        answer.base_currents = base.currents();
        answer.base_from = base.from;
        Ok(Self { survey, source, options, interrupt, candidates, mapped, base, supply, about_way })
    }

    fn run(self, mut answer: SitePlan) -> Result<SitePlan, Vec<Impossible>> {
        for one in self.candidates.iter().filter(|one| one.wish != choose::Wish::Off) {
            answer.notes.extend(one.notes.iter().cloned());
            answer.questions.extend(one.questions.iter().cloned());
        }
        let must = |one: &&Candidate<'_>| one.wish == choose::Wish::Must;
        if let Some(one) = self.candidates.iter().filter(must).find(|one| !one.fed) {
            answer.body = Body::Impossible(vec![self.not_fed(one)]);
            answer.verdict = Verdict::Fails;
            return Ok(answer);
        }
        let unknown_must = self.candidates.iter().filter(must).any(|one| !one.questions.is_empty());
        if !self.mapped.questions.is_empty() || unknown_must {
            return Ok(answer);
        }
        let mut groups = Vec::new();
        let mut loads: Vec<choose::Load> =
            self.candidates.iter().map(|one| one.choice(&self.mapped, self.survey, &mut groups)).collect();
        loads.extend(self.base.loads.iter().cloned());
        let limits = self.limits();
        let next_group = u16::try_from(groups.len()).unwrap_or(u16::MAX);
        let candidates = self.candidates.iter().collect();
        let mut search =
            Search::new(candidates, &limits, &self.supply, &self.base.starters, next_group, self.interrupt);
        let found = search
            .best(&loads, self.options.work.unwrap_or(choice::MOST_WORK))
            .map_err(|refused| self.refused(refused))?;
        match found {
            Found::Unknown(questions) => answer.questions.extend(questions),
            Found::Over(breaches) => {
                let over = |breach: &choose::Breach| format!("{} by {}", breach.limit, breach.over);
                let said = breaches.iter().map(over).collect::<Vec<_>>().join(", ");
                let said = if said.is_empty() {
                    "no assignment of legs serves".to_owned()
                } else {
                    format!("they exceed {said}")
                };
                answer.body = Body::Impossible(vec![format!("the loads that must be on do not fit together: {said}")]);
                answer.verdict = Verdict::Fails;
            }
            Found::NoStart(part) => {
                let names = self.names(part.iter().copied()).join("`, `");
                answer.body = Body::Impossible(vec![format!("`{names}` must be on and cannot be started together")]);
                answer.verdict = Verdict::Fails;
            }
            Found::Set(chosen) => {
                let plan = self.planned(&mut search, &chosen, &loads, &mut answer);
                let plan = plan.map_err(|refused| self.refused(refused))?;
                let on = search.of_candidates(&chosen);
                self.finish(plan, &mut answer);
                self.judge_proposed(&search, &on, &mut answer)?;
                return Ok(answer);
            }
        }
        self.judge_proposed(&search, &[], &mut answer)?;
        Ok(answer)
    }

    /// Judges the order that somebody proposes, also where there is no plan.
    fn judge_proposed(
        &self,
        search: &Search<'_, '_>,
        on: &[(usize, Leg)],
        answer: &mut SitePlan,
    ) -> Result<(), Vec<Impossible>> {
        let Some(names) = &self.options.start_order else { return Ok(()) };
        let judged = starts::judged(search, on, names, answer).map_err(|refused| self.refused(refused))?;
        answer.questions.sort_unstable();
        answer.questions.dedup();
        answer.verdict = answer.verdict.and(judged.verdict);
        answer.proposed = Some(judged);
        Ok(())
    }

    /// What limits the choice: the site, and what the source gives while loads start by themselves.
    fn limits(&self) -> choose::Limits {
        let surge = choose::Surge { leg: self.supply.surge.stated(), total: self.supply.surge_total.stated() };
        choose::Limits { surge, ..self.mapped.limits.clone() }
    }

    fn planned(
        &self,
        search: &mut Search<'_, '_>,
        chosen: &choose::Chosen,
        loads: &[choose::Load],
        answer: &mut SitePlan,
    ) -> Result<Plan, Refused> {
        let on = search.of_candidates(chosen);
        let shown = on.iter().filter_map(|(index, leg)| {
            let one = self.candidates.get(*index)?;
            let draw = one.draw?;
            let name = one.load.name.as_str().to_owned();
            Some(On { name, leg: *leg, current: draw.current(Rounding::Up), power: draw.power(Rounding::Up) })
        });
        let (worth, proof) = search.proof(chosen, loads);
        let mut off = Vec::new();
        for kept in chosen.off.iter().filter(|kept| kept.load < self.candidates.len()) {
            if let Some(one) = self.candidates.get(kept.load) {
                let why = self.why(search, &on, kept, (one, loads))?;
                off.push(KeptOff { name: one.load.name.as_str().to_owned(), why });
            }
        }
        let turns = rotation::turns(search, loads)?;
        let between = on.iter().any(|(_, leg)| *leg == Leg::Both);
        if between && on.iter().any(|(_, leg)| *leg != Leg::Both) && matches!(search.source.impedance, Known::Stated(_))
        {
            answer.notes.push(
                "where a load between the legs starts beside unequal ones, the voltage can be somewhat more than is shown"
                    .to_owned(),
            );
        }
        let starts = starts::starts(search, &on, answer)?;
        Ok(Plan {
            on: shown.collect(),
            off,
            legs: self.sums(search, &on),
            neutral: neutral::current(&search.starters(&on), &self.base.starters, self.survey.shape(self.source.id())),
            worth,
            proof,
            apart: turns.apart.iter().filter_map(|(one, other)| Some((self.name(*one)?, self.name(*other)?))).collect(),
            rotation: turns.turns.into_iter().map(|turn| self.names(turn.into_iter())).collect(),
            never: self.names(turns.never.into_iter()),
            starts,
            lasting: self.lasting(&on)?,
        })
    }

    fn why(
        &self,
        search: &Search<'_, '_>,
        on: &[(usize, Leg)],
        kept: &choose::KeptOff,
        (one, loads): (&Candidate<'_>, &[choose::Load]),
    ) -> Result<Why, Refused> {
        if !one.fed {
            return Ok(Why::Said(self.not_fed(one)));
        }
        if self.options.measured.as_ref().is_some_and(|base| base.stands_for.iter().any(|name| *name == *one.load.name))
        {
            return Ok(Why::Said("it is part of the measured base load".to_owned()));
        }
        let own = loads.get(kept.load);
        Ok(match &kept.reason {
            _ if one.wish == choose::Wish::Off => Why::Wished,
            Reason::DrawNotStated => Why::NotStated(one.questions.clone()),
            Reason::Breaks(breaches) => Why::Breaks(breaches.clone()),
            Reason::Excluded { by }
                if own
                    .zip(loads.get(*by))
                    .is_some_and(|(own, by)| own.groups.iter().any(|group| by.groups.contains(group))) =>
            {
                Why::Excluded(self.name(*by).unwrap_or_default())
            }
            // Left out, or put apart, because it could not be started.
            Reason::Excluded { .. } | Reason::Wished => {
                let leg = one.fixed_leg().unwrap_or(Leg::A);
                Why::Start(search.broken(on, kept.load, leg)?)
            }
        })
    }

    fn lasting(&self, on: &[(usize, Leg)]) -> Result<Lasting, Refused> {
        let ours: Vec<&Candidate<'_>> = on.iter().filter_map(|(index, _)| self.candidates.get(*index)).collect();
        let asked = (self.options.start_hour, self.options.wish);
        Ok(lasting::lasting(self.source, self.mapped.power, &ours, &self.base, asked)?)
    }

    fn sums(&self, search: &Search<'_, '_>, on: &[(usize, Leg)]) -> ([Amperes; 2], VoltAmperes, Watts) {
        let mut legs = self.base.currents();
        let starters = search.starters(on);
        let add = |sum: &mut Amperes, current| *sum = sum.checked_add(current).unwrap_or(Amperes::MAX);
        let (mut apparent, mut power) = (0, self.base.power.count());
        for starter in &starters {
            let current = starter.running.current(Rounding::Up);
            let [a, b] = &mut legs;
            if starter.leg != Leg::B {
                add(a, current);
            }
            if starter.leg != Leg::A {
                add(b, current);
            }
            power += starter.running.power(Rounding::Up).count();
        }
        for starter in starters.iter().chain(&self.base.starters) {
            apparent += starter.running.apparent(Rounding::Up).count();
        }
        let apparent = VoltAmperes::from_count(apparent).unwrap_or(VoltAmperes::MAX);
        (legs, apparent, Watts::from_count(power).unwrap_or(Watts::MAX))
    }

    /// Judges the site as planned by every rule, and closes the answer.
    fn finish(&self, plan: Plan, answer: &mut SitePlan) {
        for load in answer.planned.loads_mut() {
            let ours = self.candidates.iter().any(|one| one.load.name == load.name);
            let on = plan.on.iter().find(|on| on.name == *load.name);
            if ours {
                load.running = Some(on.is_some());
            }
            if let Some(on) =
                on.filter(|on| on.leg != Leg::Both && self.survey.shape(self.source.id()) == Some(Shape::ThreeWire))
            {
                load.leg = Some(on.leg);
            }
        }
        answer.path = check::check(&answer.planned, self.survey.code, WithWorking::No).verdict();
        let path = match answer.path {
            check::Verdict::Loadworthy => Verdict::Holds,
            check::Verdict::NotLoadworthy => Verdict::Fails,
            check::Verdict::CannotTell => Verdict::CannotTell,
        };
        for one in self.candidates.iter().filter(|one| plan.on.iter().any(|on| on.name == *one.load.name)) {
            answer.questions.extend(one.when_on.iter().cloned());
        }
        answer.questions.extend(self.about_way.iter().cloned());
        plan.questions(&mut answer.questions);
        answer.questions.sort_unstable();
        answer.questions.dedup();
        let asked = if answer.questions.is_empty() { Verdict::Holds } else { Verdict::CannotTell };
        // Where nobody is there to open breakers first, what comes on when power returns must be carried.
        let unattended = self.survey.site.below(self.source.id()).any(|component| match component {
            Component::Transfer(transfer) => {
                matches!(transfer.kind, TransferKind::Automatic | TransferKind::Interactive)
            }
            _ => false,
        });
        let on_return = if unattended && plan.starts.on_return.is_some() { Verdict::Fails } else { Verdict::Holds };
        answer.verdict = path.and(asked).and(on_return).and(plan.verdict());
        answer.body = Body::Plan(Box::new(plan));
    }

    fn name(&self, index: usize) -> Option<String> {
        self.candidates.get(index).map(|one| one.load.name.as_str().to_owned())
    }

    fn names(&self, indices: impl Iterator<Item = usize>) -> Vec<String> {
        indices.filter_map(|index| self.name(index)).collect()
    }

    fn not_fed(&self, one: &Candidate<'_>) -> String {
        let at = one.load.place_of("voltage");
        format!("{at}: `{}` needs {}, its source gives {}", one.load.name, one.load.voltage, self.source.system)
    }

    /// What an engine refuses, at the place of the source.
    fn refused(&self, refused: Refused) -> Vec<Impossible> {
        let (field, what) = match refused {
            Refused::Choose(error) => ("name", error.to_string()),
            Refused::Order(error @ order::OrderError::TotalSurgeBelowContinuous { .. }) => {
                ("starting_apparent_power", error.to_string())
            }
            Refused::Order(error) if self.source.starting_current.is_some() => ("starting_current", error.to_string()),
            Refused::Order(error) => ("starting_apparent_power", error.to_string()),
            Refused::Endurance(error @ EnduranceError::PointsNotRising { .. }) => ("fuel_point", error.to_string()),
            Refused::Endurance(error) => ("tank", error.to_string()),
            Refused::NoSuchLoad(what) => ("name", what),
            Refused::Stopped => ("name", "the plan was stopped before it was finished".to_owned()),
        };
        vec![Impossible { at: self.source.place_of(field), what }]
    }
}

/// The loads that a measured record holds already are not counted again.
fn stand_in(candidates: &mut [Candidate<'_>], options: &Options, site: &Site) -> Result<(), Impossible> {
    for name in options.measured.iter().flat_map(|measured| &measured.stands_for) {
        match candidates.iter_mut().find(|one| one.load.name.as_str() == name) {
            Some(one) => one.wish = choose::Wish::Off,
            None => {
                return Err(Impossible {
                    at: site.premises().place(),
                    what: format!("`{name}` is not a load of the source, and the measured record cannot stand for it"),
                });
            }
        }
    }
    Ok(())
}
