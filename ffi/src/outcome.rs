//! How a check ends, and what limits an answer.

use loadworthy::calc::ampacity::Governor;
use loadworthy::calc::overcurrent::DeviceGovernor;
use loadworthy::calc::plug::FitGovernor;
use loadworthy::check::Verdict;
use loadworthy::plan;
use loadworthy::rules::{Outcome, Severity};
use loadworthy::size::Requirement;

use crate::border::{Out, guard, lw_str};
use crate::error::{fail, lw_error};
use crate::status::{LW_STATUS_BAD_CHOICE, lw_status};

/// How a check ends: one of the `LW_OUTCOME_` constants. 0 is none: what was never answered holds nothing.
pub type lw_outcome = i32;

/// It holds; a site is loadworthy; a question is answered.
pub const LW_OUTCOME_HOLDS: lw_outcome = 1;
/// It fails; a site is not loadworthy; the answer to a question is no.
pub const LW_OUTCOME_FAILS: lw_outcome = 2;
/// A fact is missing, or a table does not tell. Never take it for "holds".
pub const LW_OUTCOME_CANNOT_TELL: lw_outcome = 3;

/// How grave a failure is: one of the `LW_SEVERITY_` constants, the gravest first.
pub type lw_severity = i32;

/// Never allowed, whatever else holds.
pub const LW_SEVERITY_PROHIBITED: lw_severity = 1;
/// Breaks a code section or a listing.
pub const LW_SEVERITY_VIOLATION: lw_severity = 2;
/// Likely trouble, or advice that the code gives without requiring it.
pub const LW_SEVERITY_CAUTION: lw_severity = 3;
/// Reported only.
pub const LW_SEVERITY_INFORMATION: lw_severity = 4;

/// Yes or no: 0 is not stated.
pub type lw_yes_no = i32;

/// Yes.
pub const LW_YES: lw_yes_no = 1;
/// No.
pub const LW_NO: lw_yes_no = 2;

/// What was not stated and was taken as the base of the table has it, or on the cautious side: the sum of
/// `LW_ASSUMED_` constants.
pub type lw_assumed = u32;

/// Conductors of an insulation lie in a raceway, those of a cable in the cable.
pub const LW_ASSUMED_INSTALLATION: lw_assumed = 1;
/// The place is dry.
pub const LW_ASSUMED_DRY_PLACE: lw_assumed = 2;
/// The ambient temperature is 30 °C.
pub const LW_ASSUMED_AMBIENT_30C: lw_assumed = 4;
/// It is not above a roof in sunlight.
pub const LW_ASSUMED_NO_ROOF: lw_assumed = 8;
/// Three conductors carry current.
pub const LW_ASSUMED_THREE_CONDUCTORS: lw_assumed = 16;
/// Terminals bear no temperature mark.
pub const LW_ASSUMED_TERMINALS_UNMARKED: lw_assumed = 32;
/// The size decides how unmarked terminals count, 110.14(C)(1), since the rating of the circuit is not stated.
pub const LW_ASSUMED_RATING_BY_SIZE: lw_assumed = 64;
/// The cord bears no temperature mark.
pub const LW_ASSUMED_CORD_UNMARKED: lw_assumed = 128;
/// The return or neutral conductor is like the others.
pub const LW_ASSUMED_RETURN_ALIKE: lw_assumed = 256;
/// Conductors are at 75 °C.
pub const LW_ASSUMED_CONDUCTORS_75C: lw_assumed = 512;
/// The device and its assembly are not listed for 100 % of the rating.
pub const LW_ASSUMED_NOT_LISTED_100_PERCENT: lw_assumed = 1024;
/// The supply gives what plug and receptacle are rated for.
pub const LW_ASSUMED_SUPPLY_AMPLE: lw_assumed = 2048;
/// Circuit conductors are no larger than they need to be.
pub const LW_ASSUMED_NOT_ENLARGED: lw_assumed = 4096;
/// No limit on the voltage drop.
pub const LW_ASSUMED_NO_DROP_LIMIT: lw_assumed = 8192;
/// The equipment grounding conductor is of the material of the others.
pub const LW_ASSUMED_GROUNDING_ALIKE: lw_assumed = 16384;

/// What limits an answer: one of the `LW_GOVERNOR_` constants; 0 where nothing was found. `lw_governor_word` says it.
pub type lw_governor = i32;

/// The conductor itself, corrected and adjusted.
pub const LW_GOVERNOR_CONDUCTOR: lw_governor = 1;
/// The terminals.
pub const LW_GOVERNOR_TERMINALS: lw_governor = 2;
/// The cable.
pub const LW_GOVERNOR_CABLE: lw_governor = 3;
/// The cord.
pub const LW_GOVERNOR_CORD: lw_governor = 4;
/// The ampacity is itself the rating, or the next lower standard rating.
pub const LW_GOVERNOR_AMPACITY: lw_governor = 5;
/// The next standard rating above the ampacity is permitted.
pub const LW_GOVERNOR_NEXT_SIZE_UP: lw_governor = 6;
/// The limit of a small conductor.
pub const LW_GOVERNOR_SMALL_CONDUCTOR: lw_governor = 7;
/// The plug.
pub const LW_GOVERNOR_PLUG: lw_governor = 8;
/// The receptacle.
pub const LW_GOVERNOR_RECEPTACLE: lw_governor = 9;
/// The supply behind the receptacle.
pub const LW_GOVERNOR_SUPPLY: lw_governor = 10;
/// The load.
pub const LW_GOVERNOR_LOAD: lw_governor = 11;
/// The overcurrent device.
pub const LW_GOVERNOR_DEVICE: lw_governor = 12;
/// The circuit conductors, which were enlarged.
pub const LW_GOVERNOR_ENLARGED_CONDUCTORS: lw_governor = 13;
/// The service conductor.
pub const LW_GOVERNOR_SERVICE_CONDUCTOR: lw_governor = 14;
/// The rating of the service.
pub const LW_GOVERNOR_SERVICE_RATING: lw_governor = 15;
/// The smallest size that was asked for.
pub const LW_GOVERNOR_ASKED: lw_governor = 16;
/// The smallest conductor that the code allows.
pub const LW_GOVERNOR_SMALLEST_CONDUCTOR: lw_governor = 17;
/// The smallest conductor that may be connected in parallel.
pub const LW_GOVERNOR_SMALLEST_PARALLEL: lw_governor = 18;
/// The sizes that the table lists and the cable is made in.
pub const LW_GOVERNOR_LISTED: lw_governor = 19;
/// The place.
pub const LW_GOVERNOR_PLACE: lw_governor = 20;
/// The ambient temperature.
pub const LW_GOVERNOR_AMBIENT: lw_governor = 21;
/// The number of conductors together.
pub const LW_GOVERNOR_BUNDLING: lw_governor = 22;
/// The continuous load with its factor, before correction and adjustment.
pub const LW_GOVERNOR_CONTINUOUS_LOAD: lw_governor = 23;
/// Protection by the overcurrent device.
pub const LW_GOVERNOR_PROTECTION: lw_governor = 24;
/// The voltage drop.
pub const LW_GOVERNOR_VOLTAGE_DROP: lw_governor = 25;
/// The standard ratings.
pub const LW_GOVERNOR_STANDARD_RATING: lw_governor = 26;
/// The ratings that a circuit of several receptacles may have.
pub const LW_GOVERNOR_RECEPTACLE_RATING: lw_governor = 27;
/// The equipment grounding conductor that the device asks for.
pub const LW_GOVERNOR_EQUIPMENT_GROUNDING: lw_governor = 28;
/// The equipment grounding conductor grows with enlarged circuit conductors.
pub const LW_GOVERNOR_EQUIPMENT_GROUNDING_INCREASE: lw_governor = 29;
/// The ungrounded conductors.
pub const LW_GOVERNOR_AS_UNGROUNDED: lw_governor = 30;
/// The equipment grounding conductor, which a feeder's neutral is not smaller than.
pub const LW_GOVERNOR_FEEDER_NEUTRAL: lw_governor = 31;
/// The share of the raceway that conductors may fill.
pub const LW_GOVERNOR_RACEWAY_FILL: lw_governor = 32;
/// The volume of the box.
pub const LW_GOVERNOR_BOX_FILL: lw_governor = 33;
/// The overcurrent device that lets the motor start.
pub const LW_GOVERNOR_MOTOR_PROTECTION: lw_governor = 34;
/// The rating of the plug and receptacle configuration.
pub const LW_GOVERNOR_CONFIGURATION: lw_governor = 35;

/// The words in the order of their numbers, as the command line prints them.
pub static GOVERNORS: [&str; 35] = [
    "conductor\0",
    "terminals\0",
    "cable\0",
    "cord\0",
    "ampacity\0",
    "next-size-up\0",
    "small-conductor\0",
    "plug\0",
    "receptacle\0",
    "supply\0",
    "load\0",
    "device\0",
    "enlarged-conductors\0",
    "service-conductor\0",
    "service-rating\0",
    "asked\0",
    "smallest-conductor\0",
    "smallest-parallel\0",
    "listed\0",
    "place\0",
    "ambient\0",
    "bundling\0",
    "continuous-load\0",
    "protection\0",
    "voltage-drop\0",
    "standard-rating\0",
    "receptacle-rating\0",
    "equipment-grounding\0",
    "equipment-grounding-increase\0",
    "as-ungrounded\0",
    "feeder-neutral\0",
    "raceway-fill\0",
    "box-fill\0",
    "motor-protection\0",
    "configuration\0",
];

/// A word for what limits an answer, such as `terminals`. The text lives as long as the library is loaded.
///
/// Any thread may call it at any time.
///
/// ```c
/// lw_str word;
/// lw_governor_word(answer.governed_by, &word, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_governor_word(
    governor: lw_governor,
    word_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(word_out, "word_out", lw_str::NONE)?;
        let index = usize::try_from(governor).ok().and_then(|number| number.checked_sub(1));
        let word = index.and_then(|index| GOVERNORS.get(index)).ok_or_else(|| {
            let most = GOVERNORS.len();
            fail(LW_STATUS_BAD_CHOICE, "governor", format_args!("{governor} is none; pass one from 1 to {most}"))
        })?;
        out.write(lw_str::terminated(word));
        Ok(())
    })
}

pub(crate) const fn of_outcome(outcome: Outcome) -> lw_outcome {
    match outcome {
        Outcome::Holds => LW_OUTCOME_HOLDS,
        Outcome::Fails => LW_OUTCOME_FAILS,
        Outcome::CannotTell => LW_OUTCOME_CANNOT_TELL,
    }
}

pub(crate) const fn of_verdict(verdict: Verdict) -> lw_outcome {
    match verdict {
        Verdict::Loadworthy => LW_OUTCOME_HOLDS,
        Verdict::NotLoadworthy => LW_OUTCOME_FAILS,
        Verdict::CannotTell => LW_OUTCOME_CANNOT_TELL,
    }
}

pub(crate) const fn of_plan(verdict: plan::Verdict) -> lw_outcome {
    match verdict {
        plan::Verdict::Holds => LW_OUTCOME_HOLDS,
        plan::Verdict::Fails => LW_OUTCOME_FAILS,
        plan::Verdict::CannotTell => LW_OUTCOME_CANNOT_TELL,
    }
}

pub(crate) const fn of_severity(severity: Severity) -> lw_severity {
    match severity {
        Severity::Prohibited => LW_SEVERITY_PROHIBITED,
        Severity::Violation => LW_SEVERITY_VIOLATION,
        Severity::Caution => LW_SEVERITY_CAUTION,
        Severity::Information => LW_SEVERITY_INFORMATION,
    }
}

/// What limits an answer, as a number. The kinds may grow; what has no number yet is 0, and a test finds it.
pub(crate) trait Governs {
    fn number(self) -> lw_governor;
}

impl Governs for Governor {
    fn number(self) -> lw_governor {
        match self {
            Self::Conductor => LW_GOVERNOR_CONDUCTOR,
            Self::Terminals => LW_GOVERNOR_TERMINALS,
            Self::Cable => LW_GOVERNOR_CABLE,
            _ => 0,
        }
    }
}

impl Governs for DeviceGovernor {
    fn number(self) -> lw_governor {
        match self {
            Self::Ampacity => LW_GOVERNOR_AMPACITY,
            Self::NextSizeUp => LW_GOVERNOR_NEXT_SIZE_UP,
            Self::SmallConductor => LW_GOVERNOR_SMALL_CONDUCTOR,
            _ => 0,
        }
    }
}

impl Governs for FitGovernor {
    fn number(self) -> lw_governor {
        match self {
            Self::Plug => LW_GOVERNOR_PLUG,
            Self::Receptacle => LW_GOVERNOR_RECEPTACLE,
            Self::Supply => LW_GOVERNOR_SUPPLY,
            _ => 0,
        }
    }
}

impl Governs for Requirement {
    fn number(self) -> lw_governor {
        match self {
            Self::Asked => LW_GOVERNOR_ASKED,
            Self::SmallestConductor => LW_GOVERNOR_SMALLEST_CONDUCTOR,
            Self::SmallestParallel => LW_GOVERNOR_SMALLEST_PARALLEL,
            Self::Listed => LW_GOVERNOR_LISTED,
            Self::Place => LW_GOVERNOR_PLACE,
            Self::Ambient => LW_GOVERNOR_AMBIENT,
            Self::Bundling => LW_GOVERNOR_BUNDLING,
            Self::ContinuousLoad => LW_GOVERNOR_CONTINUOUS_LOAD,
            Self::Load => LW_GOVERNOR_LOAD,
            Self::Protection => LW_GOVERNOR_PROTECTION,
            Self::VoltageDrop => LW_GOVERNOR_VOLTAGE_DROP,
            Self::StandardRating => LW_GOVERNOR_STANDARD_RATING,
            Self::ReceptacleRating => LW_GOVERNOR_RECEPTACLE_RATING,
            Self::EquipmentGrounding => LW_GOVERNOR_EQUIPMENT_GROUNDING,
            Self::EquipmentGroundingIncrease => LW_GOVERNOR_EQUIPMENT_GROUNDING_INCREASE,
            Self::AsUngrounded => LW_GOVERNOR_AS_UNGROUNDED,
            Self::FeederNeutral => LW_GOVERNOR_FEEDER_NEUTRAL,
            Self::RacewayFill => LW_GOVERNOR_RACEWAY_FILL,
            Self::BoxFill => LW_GOVERNOR_BOX_FILL,
            Self::MotorProtection => LW_GOVERNOR_MOTOR_PROTECTION,
            Self::Configuration => LW_GOVERNOR_CONFIGURATION,
            _ => 0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_says_the_word_that_the_command_prints() {
        fn same<G: Governs + Copy + serde::Serialize>(all: &[G]) {
            for one in all {
                let word = serde_json::to_value(one).unwrap();
                let index = usize::try_from(one.number() - 1).unwrap();
                assert_eq!(GOVERNORS[index].trim_end_matches('\0'), word.as_str().unwrap());
            }
        }
        same(&[Governor::Conductor, Governor::Terminals, Governor::Cable]);
        same(&[DeviceGovernor::Ampacity, DeviceGovernor::NextSizeUp, DeviceGovernor::SmallConductor]);
        same(&[FitGovernor::Plug, FitGovernor::Receptacle, FitGovernor::Supply]);
        same(&[
            Requirement::Asked,
            Requirement::SmallestConductor,
            Requirement::SmallestParallel,
            Requirement::Listed,
            Requirement::Place,
            Requirement::Ambient,
            Requirement::Bundling,
            Requirement::ContinuousLoad,
            Requirement::Load,
            Requirement::Protection,
            Requirement::VoltageDrop,
            Requirement::StandardRating,
            Requirement::ReceptacleRating,
            Requirement::EquipmentGrounding,
            Requirement::EquipmentGroundingIncrease,
            Requirement::AsUngrounded,
            Requirement::FeederNeutral,
            Requirement::RacewayFill,
            Requirement::BoxFill,
            Requirement::MotorProtection,
            Requirement::Configuration,
        ]);
        assert!(GOVERNORS.iter().all(|word| word.ends_with('\0')));
    }
}
