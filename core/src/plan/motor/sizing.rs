//! The circuit of a motor or a compressor: conductors, the device that protects against short circuit, and feeders.

use super::tables;
use crate::calc::overcurrent::next_device;
use crate::calc::{CannotTell, Silent};
use crate::code::{Code, Gap};
use crate::published::{Grade, TableId};
use crate::quantity::{Amperes, Ratio, Scaled};
use crate::trade::{DeviceKind, Word, words};

words! {
    /// The kinds of motor that NEC Table 430.52 tells apart.
    pub enum ProtectedMotor: "kind of motor" {
        /// Single-phase.
        SinglePhase = "single-phase",
        /// Polyphase, other than wound rotor.
        Polyphase = "ac-polyphase-other-than-wound-rotor",
        /// Squirrel cage, other than Design B energy-efficient or premium-efficient.
        SquirrelCage = "squirrel-cage-other-than-design-b-energy-or-premium-efficient",
        /// Design B energy-efficient or premium-efficient.
        DesignBEfficient = "design-b-energy-or-premium-efficient",
        /// Synchronous.
        Synchronous = "synchronous",
        /// Wound rotor.
        WoundRotor = "wound-rotor",
        /// Direct current, constant voltage.
        DirectCurrent = "dc-constant-voltage",
    }
}

words! {
    /// The device that protects a motor's branch circuit against short circuit and ground fault.
    pub enum MotorDevice: "motor protective device" {
        /// A fuse without time delay.
        NontimeDelayFuse = "nontime-delay fuse",
        /// A dual-element, time-delay fuse.
        DualElementFuse = "dual-element fuse",
        /// An inverse-time breaker.
        InverseTimeBreaker = "inverse-time breaker",
    }
}

/// The other loads of a feeder, in amperes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct OtherLoad {
    /// Continuous.
    pub continuous: Option<Amperes>,
    /// Not continuous.
    pub noncontinuous: Option<Amperes>,
}

const CONDUCTOR: &str = "the ampacity of the motor conductors";
const DEVICE: &str = "the motor protective device";

/// The least ampacity of the conductors of one continuous-duty motor, exact: 125 % of the table's full-load current.
///
/// Section: NEC 430.22 (2020, 2023).
///
/// ```
/// # use loadworthy::plan::motor::motor_conductor;
/// assert!(motor_conductor("22 A".parse()?)? <= "27.5 A".parse::<loadworthy::quantity::Amperes>()?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`CannotTell`] where the table of factors does not answer.
pub fn motor_conductor(full_load: Amperes) -> Result<Scaled<Amperes>, CannotTell> {
    Ok(full_load * factor("single-motor-conductor", CONDUCTOR)?)
}

/// The least ampacity of conductors that supply several motors and other loads, exact: 125 % of the largest motor,
/// 100 % of the others and of non-continuous load, 125 % of continuous load.
///
/// Section: NEC 430.24 (2020, 2023).
///
/// # Errors
/// [`CannotTell`] where the table of factors does not answer.
pub fn feeder_conductor(motors: &[Amperes], other: OtherLoad) -> Result<Scaled<Amperes>, CannotTell> {
    let whole = |currents: &mut dyn Iterator<Item = &Amperes>| {
        currents.fold(Scaled::whole(Amperes::ZERO), |sum, current| sum + Scaled::whole(*current))
    };
    let largest = largest_index(motors, |current| *current);
    let others =
        whole(&mut motors.iter().enumerate().filter(|(index, _)| Some(*index) != largest).map(|(_, current)| current));
    let largest = largest.and_then(|index| motors.get(index)).copied().unwrap_or(Amperes::ZERO);
    let continuous = other.continuous.unwrap_or(Amperes::ZERO) * factor("several-continuous-other", CONDUCTOR)?;
    let rest = Scaled::whole(other.noncontinuous.unwrap_or(Amperes::ZERO));
    Ok(largest * factor("several-largest", CONDUCTOR)? + others + continuous + rest)
}

/// The largest device that may protect a motor's branch circuit: the table's percentage of the full-load current, and
/// the next standard size up where that is none.
///
/// Section: NEC 430.52(C)(1) with its first exception; Table 430.52 (2017, 2020), 430.52(C)(1) (2023). The larger
/// figures of the second exception, for a motor that does not start, are left out.
///
/// # Errors
/// [`CannotTell`] where a table does not answer.
pub fn motor_device(
    code: &dyn Code,
    motor: ProtectedMotor,
    device: MotorDevice,
    full_load: Amperes,
) -> Result<Amperes, CannotTell> {
    let outside = CannotTell { what: DEVICE, gap: Gap::Outside(TableId::MotorOvercurrent) };
    let (column, kind) = match device {
        MotorDevice::NontimeDelayFuse => ("nontime_delay_fuse_percent", DeviceKind::Fuse),
        MotorDevice::DualElementFuse => ("dual_element_fuse_percent", DeviceKind::Fuse),
        MotorDevice::InverseTimeBreaker => ("inverse_time_breaker_percent", DeviceKind::Breaker),
    };
    let (index, row) = tables::row(TableId::MotorOvercurrent, motor.spelling()).ok_or(outside)?;
    let cell = tables::cell(TableId::MotorOvercurrent, index, row, column).ok_or(outside)?;
    if !code.admits(cell.place, cell.grade) {
        return Err(CannotTell { what: DEVICE, gap: Gap::BelowGrade(cell.place, cell.grade) });
    }
    let percent: Ratio = format!("{} %", cell.value).parse().map_err(|_| outside)?;
    next_device(code, kind, full_load * percent, &mut Silent)
}

/// The largest device of a feeder of motors: the largest branch device and the full-load currents of the other
/// motors, and the standard size at or below.
///
/// Section: NEC 430.62(A).
///
/// # Errors
/// [`CannotTell`] where the sum is below the first standard rating, or one may not be rested on.
pub fn feeder_device(code: &dyn Code, kind: DeviceKind, motors: &[(Amperes, Amperes)]) -> Result<Amperes, CannotTell> {
    let largest = largest_index(motors, |(_, device)| *device);
    let parts = motors
        .iter()
        .enumerate()
        .map(|(index, (full_load, device))| if Some(index) == largest { *device } else { *full_load });
    at_or_below(code, kind, parts.fold(Scaled::whole(Amperes::ZERO), |sum, part| sum + Scaled::whole(part)))
}

/// The least ampacity of the conductors of one hermetic compressor: 125 % of its rated-load current or its
/// branch-circuit selection current, whichever is larger.
///
/// Section: NEC 440.32.
///
/// # Errors
/// [`CannotTell`] where the table of factors does not answer.
pub fn compressor_conductor(rated_load: Amperes, selection: Option<Amperes>) -> Result<Scaled<Amperes>, CannotTell> {
    Ok(selection.map_or(rated_load, |selection| selection.max(rated_load)) * factor("hermetic-conductor", CONDUCTOR)?)
}

/// Whether a compressor starts with the usual device.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CompressorStart {
    /// It does, or nobody has tried.
    Usual,
    /// It was found not to start.
    NeedsMore,
}

/// The largest device of a hermetic compressor: 175 % (225 % where it does not start otherwise), the standard size at
/// or below, but never required below 15 A. A maximum marked on the equipment governs where it is less.
///
/// Section: NEC 440.22(A). The permission of 2023 to take the next size up is left out, which is cautious.
///
/// # Errors
/// [`CannotTell`] where a table does not answer.
pub fn compressor_device(
    code: &dyn Code,
    kind: DeviceKind,
    rated_load: Amperes,
    selection: Option<Amperes>,
    start: CompressorStart,
) -> Result<Amperes, CannotTell> {
    let key = match start {
        CompressorStart::Usual => "hermetic-ocpd",
        CompressorStart::NeedsMore => "hermetic-ocpd-max",
    };
    let current = selection.map_or(rated_load, |selection| selection.max(rated_load));
    let outside = CannotTell { what: DEVICE, gap: Gap::Outside(TableId::MotorRuleFactors) };
    let floor = tables::current_of("hermetic-ocpd-floor").ok_or(outside)?;
    let most = current * factor(key, DEVICE)?;
    if most < floor {
        return Ok(floor);
    }
    at_or_below(code, kind, most)
}

fn at_or_below(code: &dyn Code, kind: DeviceKind, most: Scaled<Amperes>) -> Result<Amperes, CannotTell> {
    let mut found = None;
    for rating in code.standard_ratings(kind) {
        match rating {
            Ok(cell) if most >= cell.value => found = Some(cell.value),
            Ok(_) => break,
            // Ratings ascend; one that may not be rested on could be the answer.
            Err(gap) => return Err(CannotTell { what: DEVICE, gap: *gap }),
        }
    }
    found.ok_or(CannotTell { what: DEVICE, gap: Gap::Outside(TableId::StandardRatings) })
}

fn largest_index<T>(of: &[T], by: impl Fn(&T) -> Amperes) -> Option<usize> {
    of.iter().enumerate().max_by_key(|(index, item)| (by(item), std::cmp::Reverse(*index))).map(|(index, _)| index)
}

/// A percentage that an answer may rest on.
fn factor(key: &str, what: &'static str) -> Result<Ratio, CannotTell> {
    let cell = tables::percent(key).ok_or(CannotTell { what, gap: Gap::Outside(TableId::MotorRuleFactors) })?;
    if cell.grade == Grade::Memory {
        return Err(CannotTell { what, gap: Gap::BelowGrade(cell.place, cell.grade) });
    }
    Ok(cell.value)
}
