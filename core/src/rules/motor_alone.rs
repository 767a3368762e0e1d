//! A motor that is alone on its circuit, as the rules about its conductors and its device see it.

use super::Survey;
use crate::calc::motor::full_load_current;
use crate::published::Grade;
use crate::quantity::Amperes;
use crate::site::{Circuit, Load};
use crate::trade::Phase;

/// The current that sizes a motor's circuit.
pub(super) enum MotorAlone<'a> {
    /// An ordinary motor of one phase: the full-load current of the table (NEC 430.6(A)).
    Ordinary(&'a Load, Amperes),
    /// An ordinary motor whose full-load current the tables do not give.
    NoFullLoad(&'a Load),
    /// A motor by its kind, of which nothing more is said.
    NotStated(&'a Load),
    /// A load whose kind is not stated, so that it may be one.
    NoKind(&'a Load),
    /// A hermetic compressor: its rated-load current (NEC 440.6(A)); `None` where that is not stated.
    Hermetic(&'a Load, Option<Amperes>),
}

impl<'a> MotorAlone<'a> {
    /// The motor of a circuit with one load. Motors of appliances with a plug, of three phases, and on circuits with
    /// other loads are not examined.
    pub(super) fn of(survey: &Survey<'a>, circuit: &Circuit) -> Option<Self> {
        let mut loads = survey.site.loads_below(circuit.id());
        let (load, None) = (loads.next()?, loads.next()) else { return None };
        if load.plug.is_some() || !matches!(load.phases, None | Some(Phase::Single)) {
            return None;
        }
        if load.hermetic == Some(true) {
            return Some(Self::Hermetic(load, load.current.map(|current| *current)));
        }
        let Some(output) = load.motor_output else {
            return match super::capacity::is_motor(load) {
                Some(true) => Some(Self::NotStated(load)),
                Some(false) => None,
                None => Some(Self::NoKind(load)),
            };
        };
        Some(match full_load_current(Phase::Single, output, *load.voltage) {
            Ok(cell) if cell.grade != Grade::Memory => Self::Ordinary(load, cell.value),
            _ => Self::NoFullLoad(load),
        })
    }

    /// Whether Article 440 governs it, and not Article 430 alone.
    pub(super) fn is_hermetic(&self) -> bool {
        matches!(self, Self::Hermetic(..))
    }
}
