//! What comes out: one entry a row in columns of the caller, or of a buffer of one's own.

use super::circuit::Judgement;
use super::reason::Reason;
#[cfg(doc)]
use super::verdict::Check;
use super::verdict::Verdict;
use crate::calc::ampacity::Governor;
use crate::calc::overcurrent::DeviceGovernor;

/// Which words stand for the numbers of `ampacity_governed_by`: 0 where there is no ampacity.
pub const AMPACITY_GOVERNORS: [&str; 4] = ["", "conductor", "terminals", "cable"];

/// Which words stand for the numbers of `largest_device_governed_by`: 0 where there is no such device.
pub const DEVICE_GOVERNORS: [&str; 4] = ["", "ampacity", "next-size-up", "small-conductor"];

/// The answer of a row, as it stands in the columns. Figures are what is shown: no verdict is taken from them.
#[derive(Clone, Copy, Debug)]
pub struct Answer {
    /// How the row ends.
    pub verdict: Verdict,
    /// How each check ends, in the order of [`Check::ALL`].
    pub checks: [Verdict; 5],
    /// Why something could not be judged.
    pub reason: Reason,
    /// The first check that fails, else the first that cannot tell: its number in [`Check`] plus 1; 0 for none.
    pub decided_by: u8,
    /// What governs the ampacity: a number of [`AMPACITY_GOVERNORS`].
    pub ampacity_governed_by: u8,
    /// What governs the largest device: a number of [`DEVICE_GOVERNORS`].
    pub largest_device_governed_by: u8,
    /// The usable ampacity, A; NaN where there is none.
    pub ampacity_a: f64,
    /// The smallest standard device for the load, A; NaN where there is none.
    pub least_device_a: f64,
    /// The largest device that protects the conductor, A; NaN where there is none.
    pub largest_device_a: f64,
    /// The drop rounded up to the millivolt, V; NaN where there is none.
    pub drop_v: f64,
    /// The drop as a share of the voltage, rounded up to a ten-thousandth of a percent; NaN where there is none, or one beyond
    /// the range of a [`Ratio`](crate::quantity::Ratio).
    pub drop_percent: f64,
}

impl Answer {
    /// A row that could not be judged at all.
    pub(super) const fn unjudged(reason: Reason) -> Self {
        Self {
            verdict: Verdict::CannotTell,
            checks: [Verdict::CannotTell; 5],
            reason,
            decided_by: 0,
            ampacity_governed_by: 0,
            largest_device_governed_by: 0,
            ampacity_a: f64::NAN,
            least_device_a: f64::NAN,
            largest_device_a: f64::NAN,
            drop_v: f64::NAN,
            drop_percent: f64::NAN,
        }
    }
}

impl PartialEq for Answer {
    /// Equal to the bit: a figure that is not there equals another that is not there.
    fn eq(&self, other: &Self) -> bool {
        let numbers = |of: &Self| (of.decided_by, of.ampacity_governed_by, of.largest_device_governed_by);
        let figures = |of: &Self| {
            [of.ampacity_a, of.least_device_a, of.largest_device_a, of.drop_v, of.drop_percent].map(f64::to_bits)
        };
        (self.verdict, self.checks, self.reason) == (other.verdict, other.checks, other.reason)
            && numbers(self) == numbers(other)
            && figures(self) == figures(other)
    }
}

pub(super) const fn ampacity_governor(governor: Governor) -> u8 {
    match governor {
        Governor::Conductor => 1,
        Governor::Terminals => 2,
        Governor::Cable => 3,
    }
}

pub(super) const fn device_governor(governor: DeviceGovernor) -> u8 {
    match governor {
        DeviceGovernor::Ampacity => 1,
        DeviceGovernor::NextSizeUp => 2,
        DeviceGovernor::SmallConductor => 3,
    }
}

/// A current as it is shown: the double nearest to its decimal.
#[expect(clippy::cast_precision_loss, reason = "a current has at most 12 digits")]
pub(super) fn shown(microamperes: i64) -> f64 {
    microamperes as f64 / 1e6
}

/// A drop as it is shown: the double nearest to its decimal, which any that a load could take has.
#[expect(clippy::cast_precision_loss, reason = "a voltage has at most 10 digits")]
pub(super) fn shown_volts(millivolts: i128) -> f64 {
    millivolts as f64 / 1e3
}

#[expect(clippy::cast_precision_loss, reason = "a share has at most 10 digits")]
pub(super) fn shown_percent(millionths: i64) -> f64 {
    millionths as f64 / 1e4
}

impl From<&Judgement> for Answer {
    fn from(judged: &Judgement) -> Self {
        let drop = judged.drop.and_then(Result::ok);
        Self {
            verdict: judged.verdict,
            checks: judged.checks,
            reason: judged.reason,
            decided_by: judged.decided_by().map_or(0, |check| check as u8 + 1),
            ampacity_governed_by: judged.ampacity.map_or(0, |found| ampacity_governor(found.governed_by)),
            largest_device_governed_by: judged.largest_device.map_or(0, |found| device_governor(found.governed_by)),
            ampacity_a: judged.ampacity.map_or(f64::NAN, |found| shown(found.usable.microamperes())),
            least_device_a: judged.least_device.map_or(f64::NAN, |found| shown(found.microamperes())),
            largest_device_a: judged.largest_device.map_or(f64::NAN, |found| shown(found.rating.microamperes())),
            drop_v: drop.map_or(f64::NAN, |found| shown_volts(found.drop.millivolts_rounded_up())),
            drop_percent: drop
                .and_then(|found| found.share())
                .map_or(f64::NAN, |share| shown_percent(share.count_of_millionths())),
        }
    }
}

/// Defines the columns of the answers: owned and borrowed.
macro_rules! answers {
    (
        verdicts: { $($(#[$doc:meta])* $name:ident: $type:ty = |$answer:ident| $of:expr;)+ }
        figures: { $($(#[$figure_doc:meta])* $figure:ident: $figure_type:ty = |$figure_answer:ident| $figure_of:expr;)+ }
    ) => {
        /// Columns that answers are written to, each as long as the batch; those that are not wanted are left out.
        #[derive(Debug, Default)]
        pub struct Answers<'a> {
            $($(#[$doc])* pub $name: Option<&'a mut [$type]>,)+
            $($(#[$figure_doc])* pub $figure: Option<&'a mut [$figure_type]>,)+
        }

        /// Columns of answers of one's own.
        #[derive(Clone, Debug, Default)]
        pub struct OwnedAnswers {
            $($(#[$doc])* pub $name: Vec<$type>,)+
            $($(#[$figure_doc])* pub $figure: Vec<$figure_type>,)+
        }

        impl OwnedAnswers {
            /// Room for the answers of so many rows.
            #[must_use]
            pub fn new(rows: usize) -> Self {
                Self { $($figure: vec![Default::default(); rows],)+ ..Self::verdicts(rows) }
            }

            /// Room for the verdicts of so many rows and their reasons, and for no figure.
            #[must_use]
            pub fn verdicts(rows: usize) -> Self {
                Self { $($name: vec![Default::default(); rows],)+ ..Self::default() }
            }

            /// To be written to; a column without any entry is not wanted.
            pub fn as_mut(&mut self) -> Answers<'_> {
                Answers {
                    $($name: (!self.$name.is_empty()).then_some(&mut self.$name),)+
                    $($figure: (!self.$figure.is_empty()).then_some(&mut self.$figure),)+
                }
            }
        }

        impl<'a> Answers<'a> {
            /// Whether any figure is wanted, or what governs it.
            pub(super) const fn has_figures(&self) -> bool {
                $(self.$figure.is_some())||+
            }

            /// The first column that has not `rows` entries.
            pub(super) fn wrong_length(&self, rows: usize) -> Option<(&'static str, usize)> {
                let of = |name, length: Option<usize>| Some((name, length.filter(|length| *length != rows)?));
                let all = [
                    $(of(stringify!($name), self.$name.as_ref().map(|column| column.len())),)+
                    $(of(stringify!($figure), self.$figure.as_ref().map(|column| column.len())),)+
                ];
                all.into_iter().flatten().next()
            }

            /// Takes the first `rows` entries off.
            pub(super) fn take(&mut self, rows: usize) -> Self {
                fn first<'a, T>(column: &mut Option<&'a mut [T]>, rows: usize) -> Option<&'a mut [T]> {
                    column.as_mut()?.split_off_mut(..rows)
                }
                Self {
                    $($name: first(&mut self.$name, rows),)+
                    $($figure: first(&mut self.$figure, rows),)+
                }
            }

            /// Writes the answer of a row.
            pub(super) fn set(&mut self, row: usize, answer: &Answer) {
                $(if let Some(entry) = self.$name.as_mut().and_then(|column| column.get_mut(row)) {
                    let $answer = answer;
                    *entry = $of;
                })+
                $(if let Some(entry) = self.$figure.as_mut().and_then(|column| column.get_mut(row)) {
                    let $figure_answer = answer;
                    *entry = $figure_of;
                })+
            }
        }
    };
}

answers! {
    verdicts: {
        /// A number of [`Verdict`].
        verdict: u8 = |answer| answer.verdict as u8;
        /// A number of [`Reason`]; 0 where all was judged.
        reason: u16 = |answer| answer.reason.number();
        /// A number of [`Verdict`] for [`Check::ConductorAmpacity`].
        conductor_ampacity: u8 = |answer| answer.checks[0] as u8;
        /// A number of [`Verdict`] for [`Check::ContinuousLoadOnConductor`].
        continuous_load_on_conductor: u8 = |answer| answer.checks[1] as u8;
        /// A number of [`Verdict`] for [`Check::ContinuousLoadOnDevice`].
        continuous_load_on_device: u8 = |answer| answer.checks[2] as u8;
        /// A number of [`Verdict`] for [`Check::BreakerProtectsConductor`].
        breaker_protects_conductor: u8 = |answer| answer.checks[3] as u8;
        /// A number of [`Verdict`] for [`Check::VoltageDrop`].
        voltage_drop: u8 = |answer| answer.checks[4] as u8;
        /// See [`Answer::decided_by`].
        decided_by: u8 = |answer| answer.decided_by;
    }
    figures: {
        /// A number of [`AMPACITY_GOVERNORS`].
        ampacity_governed_by: u8 = |answer| answer.ampacity_governed_by;
        /// A number of [`DEVICE_GOVERNORS`].
        largest_device_governed_by: u8 = |answer| answer.largest_device_governed_by;
        /// The usable ampacity, A; NaN where there is none.
        ampacity_a: f64 = |answer| answer.ampacity_a;
        /// The smallest standard device for the load, A; NaN where there is none.
        least_device_a: f64 = |answer| answer.least_device_a;
        /// The largest device that protects the conductor, A; NaN where there is none.
        largest_device_a: f64 = |answer| answer.largest_device_a;
        /// The drop rounded up to the millivolt, V; NaN where there is none.
        drop_v: f64 = |answer| answer.drop_v;
        /// The drop, rounded up to a ten-thousandth of a percent of the voltage; NaN where there is none.
        drop_percent: f64 = |answer| answer.drop_percent;
    }
}
