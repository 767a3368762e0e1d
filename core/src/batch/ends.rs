//! How checks end, as bits of a row, and the columns of verdicts that these bits are.

use super::answers::Answers;
use super::verdict::Verdict;
use super::wide::widest;

/// The first five bits are those of the checks that fail, in their order.
const FAILS: u8 = 31;

/// Which of the checks the tables leave open, whatever the row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Open {
    /// The bits of those that can fail.
    judged: u8,
    /// The bits of those that cannot tell: the last three, for the first, second and fourth check.
    cannot: u8,
}

impl Open {
    pub(super) const NOTHING: Self = Self { judged: 0, cannot: 0 };

    /// Of the checks on the ampacity, on the ampacity before factors, and on the device.
    pub(super) fn of(open: [bool; 3]) -> Self {
        let [first, second, fourth] = open.map(u8::from);
        Self { judged: FAILS & !(first | second << 1 | fourth << 3), cannot: first << 5 | second << 6 | fourth << 7 }
    }
}

/// The bits of five checks that fail or do not, and of two readings that differ, in which case the fourth does not fail.
#[inline(always)]
pub(super) fn of(fails: [bool; 5], differ: bool, open: Open) -> u8 {
    let [first, second, third, fourth, fifth] = fails.map(u8::from);
    let fails = first | second << 1 | third << 2 | fourth << 3 | fifth << 4;
    fails & open.judged | open.cannot | u8::from(differ) << 7
}

/// Whether the fourth check cannot tell.
#[inline(always)]
pub(super) const fn fourth_is_open(ends: u8) -> bool {
    ends >> 7 == 1
}

#[inline(always)]
const fn verdict(ends: u8) -> u8 {
    (ends & FAILS != 0) as u8 * Verdict::Fails as u8
        + ((ends != 0) & (ends & FAILS == 0)) as u8 * Verdict::CannotTell as u8
}

/// The check that decides, counted from 1. Each bit outweighs those before it, so that no row needs a branch of its own.
#[inline(always)]
fn decided_by(ends: u8) -> u8 {
    const BY_BIT: [(u8, u8); 8] = [(7, 4), (6, 2), (5, 1), (4, 5), (3, 4), (2, 3), (1, 2), (0, 1)];
    BY_BIT.into_iter().fold(0, |decided, (bit, check)| if ends >> bit & 1 == 1 { check } else { decided })
}

/// Writes the columns of verdicts that are wanted; `limit` says whether the drop is judged.
pub(super) fn write(ends: &[u8], limit: bool, answers: &mut Answers<'_>) {
    widest!(columns(ends, limit, answers));
}

#[inline(always)]
fn columns(ends: &[u8], limit: bool, answers: &mut Answers<'_>) {
    #[inline(always)]
    fn each<T>(column: &mut Option<&mut [T]>, ends: &[u8], of: impl Fn(u8) -> T) {
        if let Some(column) = column {
            for (to, ends) in column.iter_mut().zip(ends) {
                *to = of(*ends);
            }
        }
    }
    each(&mut answers.verdict, ends, verdict);
    each(&mut answers.decided_by, ends, decided_by);
    each(&mut answers.conductor_ampacity, ends, |ends| (ends & 1) + (ends >> 5 & 1) * CANNOT_TELL);
    each(&mut answers.continuous_load_on_conductor, ends, |ends| (ends >> 1 & 1) + (ends >> 6 & 1) * CANNOT_TELL);
    each(&mut answers.continuous_load_on_device, ends, |ends| ends >> 2 & 1);
    each(&mut answers.breaker_protects_conductor, ends, |ends| (ends >> 3 & 1) + (ends >> 7) * CANNOT_TELL);
    each(&mut answers.voltage_drop, ends, |ends| if limit { ends >> 4 & 1 } else { Verdict::NotAsked as u8 });
}

const CANNOT_TELL: u8 = Verdict::CannotTell as u8;

#[cfg(test)]
mod tests {
    use super::super::answers::OwnedAnswers;
    use super::super::verdict;
    use super::*;

    #[test]
    fn the_columns_say_what_the_checks_say() {
        for bits in 0..=u8::MAX {
            let fails = [0, 1, 2, 3, 4].map(|check| bits >> check & 1 == 1);
            let open = [32, 64, 128].map(|bit| bits & bit != 0);
            let mut checks = fails.map(|fails| Verdict::of(!fails));
            for (check, open) in [0, 1, 3].into_iter().zip(open) {
                if open {
                    checks[check] = Verdict::CannotTell;
                }
            }
            let whole = Verdict::of_all(checks);
            let mut answers = OwnedAnswers::new(1);
            write(&[of(fails, false, Open::of(open))], true, &mut answers.as_mut());
            assert_eq!(answers.verdict, [whole as u8], "{bits:b}");
            assert_eq!(answers.decided_by, [verdict::decided_by(checks, whole)], "{bits:b}");
            let found = [
                answers.conductor_ampacity[0],
                answers.continuous_load_on_conductor[0],
                answers.continuous_load_on_device[0],
                answers.breaker_protects_conductor[0],
                answers.voltage_drop[0],
            ];
            assert_eq!(found, checks.map(|check| check as u8), "{bits:b}");
            write(&[of(fails, false, Open::of(open))], false, &mut answers.as_mut());
            assert_eq!(answers.voltage_drop, [Verdict::NotAsked as u8]);
            if !fails[3] {
                assert_eq!(of(fails, true, Open::of(open)), of(fails, false, Open::of([open[0], open[1], true])));
            }
        }
    }
}
