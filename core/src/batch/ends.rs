//! How checks end, as bits of a row, and the columns of verdicts that these bits are.

use super::answers::Answers;
use super::reason::Reason;
use super::verdict::Verdict;

/// The first five bits are those of the checks that fail, in their order.
const FAILS: u8 = 31;
/// The fourth check cannot tell: the two readings of what the circuit supplies differ. It then does not fail.
const DIFFER: u8 = 32;

/// The bits of five checks that fail or do not, and of two readings that differ.
#[inline(always)]
pub(super) fn of(fails: [bool; 5], differ: bool) -> u8 {
    let [first, second, third, fourth, fifth] = fails.map(u8::from);
    first | second << 1 | third << 2 | fourth << 3 | fifth << 4 | u8::from(differ) << 5
}

const fn verdict(ends: u8) -> u8 {
    (ends & FAILS != 0) as u8 * Verdict::Fails as u8 + (ends == DIFFER) as u8 * Verdict::CannotTell as u8
}

const fn decided_by(ends: u8) -> u8 {
    let decides = if ends & FAILS == 0 { ends >> 2 } else { ends & FAILS };
    if decides == 0 { 0 } else { decides.trailing_zeros() as u8 + 1 }
}

/// A table, since counting zeros goes one at a time as well.
#[expect(clippy::indexing_slicing, reason = "in a constant, which does not compile outside of its bounds")]
const DECIDED_BY: [u8; 64] = {
    let mut table = [0; 64];
    let mut ends = 0;
    while ends < 64 {
        table[ends] = decided_by(ends as u8);
        ends += 1;
    }
    table
};

/// Writes the columns of verdicts that are wanted; `limit` says whether the drop is judged.
pub(super) fn write(ends: &[u8], limit: bool, answers: &mut Answers<'_>) {
    fn each<T>(column: &mut Option<&mut [T]>, ends: &[u8], of: impl Fn(u8) -> T) {
        if let Some(column) = column {
            column.iter_mut().zip(ends).for_each(|(to, ends)| *to = of(*ends));
        }
    }
    each(&mut answers.verdict, ends, verdict);
    each(&mut answers.decided_by, ends, |ends| DECIDED_BY.get(usize::from(ends % 64)).copied().unwrap_or(0));
    each(&mut answers.reason, ends, |ends| Reason::SUPPLIES_DECIDES.number() * u16::from(ends >> 5));
    each(&mut answers.conductor_ampacity, ends, |ends| ends & 1);
    each(&mut answers.continuous_load_on_conductor, ends, |ends| ends >> 1 & 1);
    each(&mut answers.continuous_load_on_device, ends, |ends| ends >> 2 & 1);
    each(&mut answers.breaker_protects_conductor, ends, |ends| {
        (ends >> 3 & 1) + (ends >> 5) * Verdict::CannotTell as u8
    });
    let judged = |ends: u8| ends >> 4 & 1;
    each(&mut answers.voltage_drop, ends, |ends| if limit { judged(ends) } else { Verdict::NotAsked as u8 });
}

#[cfg(test)]
mod tests {
    use super::super::answers::OwnedAnswers;
    use super::super::verdict;
    use super::*;

    #[test]
    fn the_columns_say_what_the_checks_say() {
        for bits in (0..64_u8).filter(|bits| bits & DIFFER == 0 || bits & 8 == 0) {
            let fails = [0, 1, 2, 3, 4].map(|check| bits >> check & 1 == 1);
            let mut checks = fails.map(|fails| Verdict::of(!fails));
            let mut reason = Reason::NONE;
            if bits & DIFFER != 0 {
                (checks[3], reason) = (Verdict::CannotTell, Reason::SUPPLIES_DECIDES);
            }
            let whole = Verdict::of_all(checks);
            let mut answers = OwnedAnswers::new(1);
            write(&[of(fails, bits & DIFFER != 0)], true, &mut answers.as_mut());
            assert_eq!(answers.verdict, [whole as u8], "{bits:b}");
            assert_eq!(answers.decided_by, [verdict::decided_by(checks, whole)], "{bits:b}");
            assert_eq!(answers.reason, [reason.number()]);
            let found = [
                answers.conductor_ampacity[0],
                answers.continuous_load_on_conductor[0],
                answers.continuous_load_on_device[0],
                answers.breaker_protects_conductor[0],
                answers.voltage_drop[0],
            ];
            assert_eq!(found, checks.map(|check| check as u8), "{bits:b}");
            write(&[of(fails, false)], false, &mut answers.as_mut());
            assert_eq!(answers.voltage_drop, [Verdict::NotAsked as u8]);
        }
    }
}
