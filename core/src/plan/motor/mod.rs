//! Motors on their own circuits: what they draw, what they draw at start, and the sizing of their circuits.

mod starting;

use crate::trade::words;

pub use crate::calc::motor::{
    CodeLetter, CompressorStart, Horsepower, HorsepowerError, Looked, Missing, MotorDevice, MotorError, OtherLoad,
    Phase, ProtectedMotor, compressor_conductor, compressor_device, feeder_conductor, feeder_device, full_load_current,
    locked_rotor_current, motor_conductor, motor_device,
};
pub use starting::{Basis, Method, Motor, MotorKind, StartingCurrent, starting_current};

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
