//! Motors on their own circuits: what they draw, what they draw at start, and the sizing of their circuits.

mod horsepower;
mod sizing;
mod starting;
mod tables;

use crate::trade::words;

pub use horsepower::{Horsepower, HorsepowerError};
pub use sizing::{
    CompressorStart, MotorDevice, OtherLoad, ProtectedMotor, compressor_conductor, compressor_device, feeder_conductor,
    feeder_device, motor_conductor, motor_device,
};
pub use starting::{Basis, Method, Motor, MotorKind, StartingCurrent, starting_current};
pub use tables::{CodeLetter, Looked, Missing, full_load_current, locked_rotor_current};

words! {
    /// The phases of a motor.
    pub enum Phase: "number of phases" {
        /// Single-phase.
        Single = "single-phase" | "1",
        /// Three-phase.
        Three = "three-phase" | "3",
    }
}

words! {
    /// The design letter of a polyphase motor, which is not its code letter.
    pub enum Design: "motor design letter" {
        /// No limit to the locked-rotor current.
        A = "A",
        /// Design B.
        B = "B",
        /// Design C.
        C = "C",
        /// Design D.
        D = "D",
    }
}

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
