//! The tables of motors and the sizing of their circuits.

mod sizing;
mod tables;

pub use crate::trade::{Horsepower, HorsepowerError, Phase};
pub use sizing::{
    CompressorStart, MotorDevice, OtherLoad, ProtectedMotor, compressor_conductor, compressor_device, feeder_conductor,
    feeder_device, motor_conductor, motor_device,
};
pub(crate) use tables::percent;
pub use tables::{CodeLetter, Looked, Missing, full_load_current, locked_rotor_current};

/// A motor that cannot be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum MotorError {
    /// A letter that the table does not have.
    #[error("`{letter}` is not a locked-rotor code letter; the letters are A to V without I, O and Q")]
    NoSuchCodeLetter {
        /// The letter.
        letter: char,
    },
    /// The locked-rotor current is less than the running current.
    #[error("motor `{motor}` draws {locked_rotor} with the rotor held and {running} running; the first cannot be less")]
    LockedBelowRunning {
        /// The motor.
        motor: String,
        /// Its locked-rotor current.
        locked_rotor: crate::quantity::Amperes,
        /// Its running current.
        running: crate::quantity::Amperes,
    },
    /// A soft starter that lets nothing through, or more than all.
    #[error(
        "the soft starter of motor `{motor}` lets {ratio} of the locked-rotor current through; write more than 0 % and at most 100 %"
    )]
    SoftStarterRatio {
        /// The motor.
        motor: String,
        /// The ratio.
        ratio: crate::quantity::Ratio,
    },
    /// A motor without voltage.
    #[error("motor `{motor}` has a voltage of 0 V")]
    NoVoltage {
        /// The motor.
        motor: String,
    },
}
