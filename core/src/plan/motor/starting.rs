//! The current that a motor draws while it starts.

use super::{CodeLetter, Design, Horsepower, MotorError, Phase, full_load_current, locked_rotor_current};
use crate::plan::exact::Exact;
use crate::plan::{Answer, Question};
use crate::published::CellPlace;
use crate::quantity::{Amperes, Ratio, Rounding, Volts};

/// What is known of a motor. What is not known stays `None`; it is asked for where it decides.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Motor {
    /// Its name, for reports.
    pub name: String,
    /// Its phases.
    pub phase: Phase,
    /// The voltage at its terminals.
    pub voltage: Volts,
    /// An ordinary motor or a hermetic compressor.
    pub kind: MotorKind,
    /// Its rated output.
    pub output: Option<Horsepower>,
    /// The nameplate's running current; for a hermetic compressor its rated-load current.
    pub running: Option<Amperes>,
    /// The nameplate's locked-rotor current.
    pub locked_rotor: Option<Amperes>,
    /// The nameplate's code letter.
    pub code_letter: Option<CodeLetter>,
    /// The design letter of a three-phase motor.
    pub design: Option<Design>,
    /// How it is started.
    pub method: Option<Method>,
}

/// What kind of motor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MotorKind {
    /// An ordinary motor.
    Ordinary,
    /// A hermetic refrigerant motor-compressor.
    Hermetic,
}

/// How a motor is started.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Method {
    /// At full voltage.
    AcrossTheLine,
    /// Through a soft starter that lets this share of the locked-rotor current through, as its maker says.
    SoftStarter(Ratio),
    /// Through an inverter that runs it up from standstill: no more than the running current. Common practice, no
    /// source; the inverter's own maker may say otherwise.
    InverterDriven,
}

/// A starting current, rounded up, and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StartingCurrent {
    /// While it starts, by the method of starting.
    pub current: Amperes,
    /// With the rotor held at full voltage; `None` where an inverter drives it.
    pub locked_rotor: Option<Amperes>,
    /// Where the figure comes from.
    pub basis: Basis,
}

/// Where a starting current comes from, surest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// The locked-rotor current of the nameplate.
    Nameplate,
    /// The upper edge of the code letter: NEC Table 430.7(B).
    CodeLetter(CellPlace),
    /// NEC Table 430.251(A) or (B).
    Table(CellPlace),
    /// Six times the running current: NEC 430.110(C)(3) for small motors outside the tables, 440.12(C) for hermetic
    /// compressors without marking.
    SixTimes(CellPlace),
    /// The running current, for the inverter never draws more.
    Running,
}

/// The current that a motor draws while it starts.
///
/// ```
/// # use loadworthy::plan::{Answer, motor::*};
/// // 1/2 hp on 115 V, nameplate unread: the locked-rotor table says 58.8 A, and a soft starter halves it.
/// let pump = Motor {
///     output: Some("1/2 hp".parse()?),
///     method: Some(Method::SoftStarter("50 %".parse()?)),
///     ..Motor::new("pump", Phase::Single, "115 V".parse()?)
/// };
/// let Answer::Told(start) = starting_current(&pump)? else { return Err("asked".into()) };
/// assert_eq!(start.current, "29.4 A".parse()?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`MotorError`] for a motor that cannot be.
pub fn starting_current(motor: &Motor) -> Result<Answer<StartingCurrent>, MotorError> {
    if motor.voltage == Volts::MIN {
        return Err(MotorError::NoVoltage { motor: motor.name.clone() });
    }
    if let (Some(locked_rotor), Some(running)) = (motor.locked_rotor, motor.running)
        && locked_rotor < running
    {
        return Err(MotorError::LockedBelowRunning { motor: motor.name.clone(), locked_rotor, running });
    }
    let ask = |fact| Ok(Answer::CannotTell(vec![Question::new(&motor.name, fact, DECIDES)]));
    let ratio = match motor.method {
        None => return ask("the starting method"),
        Some(Method::InverterDriven) => {
            let Some(current) = motor.running else { return ask("the running current") };
            return Ok(Answer::Told(StartingCurrent { current, locked_rotor: None, basis: Basis::Running }));
        }
        Some(Method::AcrossTheLine) => Ratio::ONE,
        Some(Method::SoftStarter(ratio)) if ratio == Ratio::MIN || ratio > Ratio::ONE => {
            return Err(MotorError::SoftStarterRatio { motor: motor.name.clone(), ratio });
        }
        Some(Method::SoftStarter(ratio)) => ratio,
    };
    let (locked_rotor, basis) = match locked_rotor(motor) {
        Ok(found) => found,
        Err(fact) => return ask(fact),
    };
    let Some(current) = (locked_rotor * ratio).rounded(Rounding::Up) else {
        return ask("a locked-rotor current within range");
    };
    Ok(Answer::Told(StartingCurrent { current, locked_rotor: Some(locked_rotor), basis }))
}

const DECIDES: &str = "whether the source can start it";

/// The locked-rotor current from the surest of what is known, or the fact that is missing.
fn locked_rotor(motor: &Motor) -> Result<(Amperes, Basis), &'static str> {
    if let Some(current) = motor.locked_rotor {
        return Ok((current, Basis::Nameplate));
    }
    if motor.kind == MotorKind::Hermetic {
        let running = motor.running.ok_or("the locked-rotor current, or the rated-load current")?;
        return six_times("small-compressor-lrc", running).ok_or("the locked-rotor current");
    }
    if let (Some(letter), Some(output)) = (motor.code_letter, motor.output) {
        let most =
            letter.most_per_horsepower().ok_or("the locked-rotor current (the code letter has no upper bound)")?;
        let current = from_letter(most.value, output, motor.phase, motor.voltage).ok_or("the locked-rotor current")?;
        return Ok((current, Basis::CodeLetter(most.place)));
    }
    let Some(output) = motor.output else { return Err("the locked-rotor current, or the output and the code letter") };
    if motor.phase == Phase::Three && matches!(motor.design, None | Some(Design::A)) {
        return Err("the locked-rotor current, the code letter or a design letter other than A");
    }
    if let Ok(cell) = locked_rotor_current(motor.phase, output, motor.voltage) {
        return Ok((cell.value, Basis::Table(cell.place)));
    }
    // Six times is for motors too small for the locked-rotor table, which the full-load table still names.
    let small = Horsepower::new(1, 2).is_some_and(|half| output < half);
    let running = motor.running.or_else(|| Some(full_load_current(motor.phase, output, motor.voltage).ok()?.value));
    match running {
        Some(running) if small => six_times("small-motor-lrc", running).ok_or("the locked-rotor current"),
        _ => Err("the locked-rotor current or the code letter"),
    }
}

fn six_times(key: &str, running: Amperes) -> Option<(Amperes, Basis)> {
    let factor = crate::calc::motor::percent(key)?;
    Some(((running * factor.value).rounded(Rounding::Up)?, Basis::SixTimes(factor.place)))
}

/// Apparent power per horsepower times horsepower over voltage, and over √3 for three phases, rounded up.
fn from_letter(
    per_horsepower: crate::quantity::VoltAmperes,
    output: Horsepower,
    phase: Phase,
    at: Volts,
) -> Option<Amperes> {
    let (numerator, denominator) = output.parts();
    // √3 to nine digits, rounded down here, so that the current is never understated.
    let root = if phase == Phase::Three { Exact::new(1_000_000_000, 1_732_050_807)? } else { Exact::new(1, 1)? };
    let per_volt = Exact::of(per_horsepower).times(Exact::new(1, u128::from(at.millivolts().unsigned_abs()))?)?;
    let current = per_volt.times(Exact::new(u128::from(numerator), u128::from(denominator))?)?.times(root)?;
    Some(current.rounded(Rounding::Up, Amperes::MAX))
}

impl Motor {
    /// An ordinary motor of which nothing else is known yet.
    #[must_use]
    pub fn new(name: &str, phase: Phase, voltage: Volts) -> Self {
        Self {
            name: name.to_owned(),
            phase,
            voltage,
            kind: MotorKind::Ordinary,
            output: None,
            running: None,
            locked_rotor: None,
            code_letter: None,
            design: None,
            method: None,
        }
    }
}
