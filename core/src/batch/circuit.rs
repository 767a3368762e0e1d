//! One circuit and its judgement: what a row says, and the calculations that judge it.

use super::reason::Reason;
use super::verdict::{Check, Verdict, decided_by};
use crate::calc::ampacity::{Ampacity, Conditions, ampacity, before_factors};
use crate::calc::continuous::{Load, factors};
use crate::calc::overcurrent::{LargestDevice, Supplies, largest_device, next_device};
use crate::calc::voltage_drop::{Currents, Method, Segment, VoltageDrop, Wire, voltage_drop};
use crate::calc::{CannotTell, Working};
use crate::code::Code;
use crate::quantity::{Amperes, Celsius, Meters, Ratio, Scaled, Volts};
use crate::trade::{ContinuousRating, DeviceKind};

/// How the drop of a row is found: by the direct-current resistance at 75 °C, Chapter 9 Table 8.
pub(super) const METHOD: Method = Method::DirectCurrent { temperature: Celsius::from_whole(75) };

/// A circuit, as a row states it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Circuit {
    /// The conductor in its conditions; its circuit rating is that of the device.
    pub conditions: Conditions,
    /// The load.
    pub load: Load,
    /// The rating of the overcurrent device.
    pub device: Amperes,
    /// Breaker or fuse.
    pub kind: DeviceKind,
    /// Whether the assembly is listed for continuous load at its rating.
    pub continuous_rating: ContinuousRating,
    /// What it supplies; `None` where that is not stated.
    pub supplies: Option<Supplies>,
    /// The run, where the drop is asked for.
    pub run: Option<Run>,
}

/// The run of a circuit, for its drop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Run {
    /// The voltage that the drop is a share of.
    pub voltage: Volts,
    /// Whether three balanced phases carry the current.
    pub phases: Phases,
    /// The length, one way.
    pub length: Meters,
    /// The limit; `None` where the drop is not judged.
    pub limit: Option<Ratio>,
}

/// The conductors that drop voltage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phases {
    /// There and back over two like conductors.
    TwoWire,
    /// Three balanced line currents; the drop is between lines.
    ThreePhase,
}

impl Phases {
    pub(super) const fn currents(self, current: Amperes) -> Currents {
        match self {
            Self::TwoWire => Currents::TwoWire(current),
            Self::ThreePhase => Currents::ThreePhase(current),
        }
    }
}

/// A circuit, judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Judgement {
    /// How each check ends, in the order of [`Check::ALL`].
    pub checks: [Verdict; 5],
    /// How the circuit ends.
    pub verdict: Verdict,
    /// Why the first check that cannot tell cannot; [`Reason::NONE`] where all were judged.
    pub reason: Reason,
    /// The ampacity.
    pub ampacity: Result<Ampacity, CannotTell>,
    /// The smallest standard device that is not below what the load requires.
    pub least_device: Result<Amperes, CannotTell>,
    /// The largest device that protects the conductor; read strictly where it is not stated what it supplies.
    pub largest_device: Result<LargestDevice, CannotTell>,
    /// The drop, where a run is stated.
    pub drop: Option<Result<VoltageDrop, CannotTell>>,
}

impl Circuit {
    /// The load, continuous and other; `None` where it is beyond the range of a current.
    #[must_use]
    pub fn current(&self) -> Option<Amperes> {
        self.load.continuous.checked_add(self.load.non_continuous)
    }

    /// Judges the circuit by itself, with its working on demand: what every row of a batch is equal to.
    ///
    /// ```
    /// # use loadworthy::batch::{Circuit, Verdict};
    /// # use loadworthy::calc::{Derivation, ampacity::{Conditions, Covering}, continuous::Load, overcurrent::Supplies};
    /// # use loadworthy::{code::{Edition, Nec}, quantity::Amperes};
    /// # use loadworthy::trade::{ContinuousRating, DeviceKind, Insulation, Material};
    /// let circuit = Circuit {
    ///     conditions: Conditions::base(Material::Copper, "12 AWG".parse()?, Covering::Insulation(Insulation::Thwn2)),
    ///     load: Load { continuous: "16 A".parse()?, non_continuous: Amperes::ZERO },
    ///     device: "20 A".parse()?,
    ///     kind: DeviceKind::Breaker,
    ///     continuous_rating: ContinuousRating::Standard,
    ///     supplies: Some(Supplies::Other),
    ///     run: None,
    /// };
    /// let mut working = Derivation::default();
    /// let judged = circuit.judge(Nec::standard(Edition::Nec2023), &mut working);
    /// assert_eq!(judged.verdict, Verdict::Holds); // 16 A at 125 % is exactly 20 A
    /// assert!(!working.steps.is_empty());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn judge(&self, code: &dyn Code, working: &mut impl Working) -> Judgement {
        let of = Conditions { circuit_rating: Some(self.device), ..self.conditions };
        let circuit = Self { conditions: of, ..*self };
        let ampacity = ampacity(code, &of, working);
        let before = before_factors(code, &of, working);
        let factors = factors(code, self.continuous_rating);
        // Where it is not stated what it supplies, the stricter reading decides if the looser one agrees.
        let strict = self.supplies.unwrap_or(Supplies::SeveralReceptacles);
        let strict = ampacity.and_then(|found| circuit.largest(code, found.usable, strict, working));
        let loose = match (self.supplies, ampacity) {
            (None, Ok(found)) => circuit.largest(code, found.usable, Supplies::Other, working),
            _ => strict,
        };
        let protected = strict.and_then(|strict| Ok(circuit.protected(code, strict.rating, loose?.rating)));
        let drop = circuit.run.map(|run| circuit.drop(code, run, working));
        let weighed = |factor: Ratio| self.load.continuous * factor + Scaled::whole(self.load.non_continuous);
        let least_device = factors.and_then(|(device, _)| next_device(code, self.kind, weighed(device), working));
        let judged = [
            ampacity.map(|found| Some(self.current().is_some_and(|load| load <= found.usable))).map_err(Reason::gap),
            before.and_then(|limit| Ok(Some(weighed(factors?.1) <= limit))).map_err(Reason::gap),
            factors.map(|(device, _)| Some(weighed(device) <= self.device)).map_err(Reason::gap),
            protected.map_err(Reason::gap).and_then(|found| found.map(Some)),
            match (self.run.and_then(|run| run.limit), drop) {
                (Some(limit), Some(found)) => found.map(|found| Some(found.within(limit))).map_err(Reason::gap),
                _ => Ok(None),
            },
        ];
        let checks = judged.map(|check| match check {
            Ok(None) => Verdict::NotAsked,
            Ok(Some(holds)) => Verdict::of(holds),
            Err(_) => Verdict::CannotTell,
        });
        Judgement {
            checks,
            verdict: Verdict::of_all(checks),
            reason: judged.into_iter().find_map(Result::err).unwrap_or(Reason::NONE),
            ampacity,
            least_device,
            largest_device: strict,
            drop,
        }
    }

    /// The largest device that protects the conductor of a usable ampacity.
    pub(super) fn largest(
        &self,
        code: &dyn Code,
        usable: Amperes,
        supplies: Supplies,
        working: &mut impl Working,
    ) -> Result<LargestDevice, CannotTell> {
        let conductor = (self.conditions.material, self.conditions.size);
        largest_device(code, self.kind, usable, conductor, supplies, working)
    }

    /// The greatest continuous load of a small conductor. A limit that is not known keeps its device from being known.
    pub(super) fn continuous_most(&self, code: &dyn Code) -> Option<Amperes> {
        let small = code.small_conductor(self.conditions.material, self.conditions.size);
        small.ok().flatten().and_then(|cell| cell.value.continuous)
    }

    fn protected(&self, code: &dyn Code, strict: Amperes, loose: Amperes) -> Result<bool, Reason> {
        // 240.4(D)(1) to (3): the smallest sizes limit the continuous load too.
        if self.continuous_most(code).is_some_and(|most| self.load.continuous > most) {
            return Ok(false);
        }
        match (self.device <= strict, self.device <= loose) {
            (strict, loose) if strict == loose => Ok(strict),
            _ => Err(Reason::SUPPLIES_DECIDES),
        }
    }

    pub(super) fn drop(
        &self,
        code: &dyn Code,
        run: Run,
        working: &mut impl Working,
    ) -> Result<VoltageDrop, CannotTell> {
        let wire = Wire::Sized(self.conditions.material, self.conditions.size);
        let of = |current| Segment { wire, neutral: None, length: run.length, currents: run.phases.currents(current) };
        match self.current() {
            Some(current) => voltage_drop(code, run.voltage, &[of(current)], METHOD, working),
            // Together they are no current that is kept; what each of them drops adds up.
            None => {
                let both = [self.load.continuous, self.load.non_continuous].map(of);
                voltage_drop(code, run.voltage, &both, METHOD, working)
            }
        }
    }
}

impl Judgement {
    /// The first check that fails, else the first that cannot tell; `None` where all hold.
    #[must_use]
    pub fn decided_by(&self) -> Option<Check> {
        let number = decided_by(self.checks, self.verdict);
        Check::ALL.into_iter().find(|check| *check as u8 + 1 == number)
    }
}
