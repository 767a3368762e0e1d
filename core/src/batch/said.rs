//! What is said of a row in words, as numbers that are read and kept together.

use super::answers::Answers;
use super::reason::Reason;
use super::rows::BLOCK;
use super::wide::widest;

/// The number of a reason, and of what governs the ampacity and the largest device.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Said(u32);

impl Said {
    pub(super) const NOTHING: Self = Self(0);

    pub(super) const fn of(reason: Reason, ampacity_governed_by: u8, device_governed_by: u8) -> Self {
        Self((reason.number() as u32) << 16 | (device_governed_by as u32) << 8 | ampacity_governed_by as u32)
    }
}

/// Writes the columns that are wanted.
pub(super) fn write(said: &[Said; BLOCK], answers: &mut Answers<'_>) {
    widest!(columns(said, answers));
}

#[inline(always)]
#[expect(clippy::cast_possible_truncation, reason = "each takes its own bits")]
fn columns(said: &[Said; BLOCK], answers: &mut Answers<'_>) {
    #[inline(always)]
    fn each<T>(column: &mut Option<&mut [T]>, said: &[Said; BLOCK], of: impl Fn(u32) -> T) {
        if let Some(column) = column {
            for (to, said) in column.iter_mut().zip(said) {
                *to = of(said.0);
            }
        }
    }
    each(&mut answers.reason, said, |said| (said >> 16) as u16);
    each(&mut answers.largest_device_governed_by, said, |said| (said >> 8) as u8);
    each(&mut answers.ampacity_governed_by, said, |said| said as u8);
}
