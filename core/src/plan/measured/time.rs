//! Times as people and programs write them, without a calendar library: the proleptic Gregorian calendar.

/// A time with the offset of its local clock, where it names one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Moment {
    /// Seconds since 1970 began; on the local clock where there is no offset.
    pub(super) seconds: i64,
    pub(super) offset: Option<i32>,
}

/// Reads `2025-01-31T18:45:00-05:00`: seconds may be left out, a space may stand for the `T`, `Z` is UTC.
pub(super) fn parse(text: &str) -> Option<Moment> {
    let text = text.trim();
    let number = |from: usize, to: usize| -> Option<i64> {
        let part = text.get(from..to)?;
        part.bytes().all(|byte| byte.is_ascii_digit()).then(|| part.parse().ok())?
    };
    let mark = |at: usize, marks: &[u8]| text.as_bytes().get(at).is_some_and(|byte| marks.contains(byte));
    let (year, month, day, hour, minute) =
        (number(0, 4)?, number(5, 7)?, number(8, 10)?, number(11, 13)?, number(14, 16)?);
    let marked = mark(4, b"-") && mark(7, b"-") && mark(10, b"T ") && mark(13, b":");
    let (second, rest) = if mark(16, b":") { (number(17, 19)?, text.get(19..)?) } else { (0, text.get(16..)?) };
    let in_range = (1..=days_of(year, month)?).contains(&day) && hour < 24 && minute < 60 && second < 60 && year > 0;
    if !marked || !in_range {
        return None;
    }
    let local = days_before(year, month, day) * 86_400 + hour * 3600 + minute * 60 + second;
    let offset = match rest {
        "" => None,
        "Z" => Some(0),
        _ => Some(offset(rest)?),
    };
    Some(Moment { seconds: local - i64::from(offset.unwrap_or(0)), offset })
}

fn offset(text: &str) -> Option<i32> {
    let sign = match text.as_bytes().first()? {
        b'+' => 1,
        b'-' => -1,
        _ => return None,
    };
    let (hours, minutes) = text.get(1..)?.split_once(':')?;
    let two = |part: &str| -> Option<i32> {
        (part.len() == 2 && part.bytes().all(|b| b.is_ascii_digit())).then(|| part.parse().ok())?
    };
    let (hours, minutes) = (two(hours)?, two(minutes)?);
    (hours < 24 && minutes < 60).then_some(sign * (hours * 3600 + minutes * 60))
}

fn days_of(year: i64, month: i64) -> Option<i64> {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    Some(match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 => 28 + i64::from(leap),
        _ => return None,
    })
}

/// Days from 1970-01-01, counting years from March, so that the leap day comes last.
fn days_before(year: i64, month: i64, day: i64) -> i64 {
    let from_march = (month + 9) % 12;
    let years = year - i64::from(month <= 2);
    let of_year = (153 * from_march + 2) / 5 + day - 1;
    365 * years + years.div_euclid(4) - years.div_euclid(100) + years.div_euclid(400) + of_year - 719_468
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_exactly() {
        // From the system's own `date --utc --date=... +%s`.
        for (text, seconds, offset) in [
            ("1970-01-01T00:00:00Z", 0, Some(0)),
            ("2000-02-29 12:00", 951_825_600, None),
            ("2025-03-09T01:45:00-05:00", 1_741_502_700, Some(-18_000)),
            ("2025-12-31T23:59:59+05:30", 1_767_205_799, Some(19_800)),
        ] {
            assert_eq!(parse(text), Some(Moment { seconds, offset }), "{text}");
        }
        for text in [
            "",
            "2025-02-29T00:00",
            "2025-13-01T00:00",
            "2025-01-01",
            "2025-01-01T24:00",
            "2025-01-01T00:00+5",
            "２025-01-01T00:00",
            "2025-01-01T00:00:00.5Z",
        ] {
            assert_eq!(parse(text), None, "{text}");
        }
    }
}
