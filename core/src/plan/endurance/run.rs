//! Drawing down what is available, hour by hour.

use super::{Day, End, Endurance, Hour, MILLION, MOST_HOURS, watts};
use crate::quantity::{Ratio, Seconds};

const MILLISECONDS_PER_HOUR: u128 = 3_600_000;

/// Draws `available` down at the rate of each hour (per millisecond), until it or the timer ends.
pub(super) fn run(
    available: u128,
    day: &Day,
    start_hour: u8,
    timer: Option<Seconds>,
    rate: impl Fn(u128) -> u128,
) -> Endurance {
    let longest = timer.unwrap_or(Seconds::MAX);
    let longest_count = milliseconds(longest);
    let (mut left, mut time) = (available, 0);
    let mut hours = Vec::new();
    let mut end = if timer.is_some() { End::ShutOffTimer } else { End::BeyondRange };
    for hour in usize::from(start_hour).. {
        let span = MILLISECONDS_PER_HOUR.min(longest_count - time);
        if span == 0 {
            break;
        }
        let load = day.at(hour);
        let per_millisecond = rate(load);
        let lasts = left.checked_div(per_millisecond).unwrap_or(u128::MAX);
        let ends = lasts < span;
        let used = lasts.min(span);
        time += used;
        left = if ends { 0 } else { left - per_millisecond * span };
        if hours.len() < MOST_HOURS {
            hours.push(Hour {
                of_day: u8::try_from(hour % 24).unwrap_or(0),
                load: watts(load.div_ceil(MILLION)),
                left: share(left, available),
            });
        }
        // At the very end of the hour nothing is left: the time is exact and the next hour would add none.
        if ends || left == 0 && per_millisecond > 0 {
            end = End::Reserve;
            break;
        }
    }
    let time = i64::try_from(time).ok().and_then(Seconds::new).unwrap_or(Seconds::MAX);
    Endurance { time, end, hours }
}

fn milliseconds(time: Seconds) -> u128 {
    use crate::quantity::Quantity;
    time.count().unsigned_abs()
}

fn share(part: u128, whole: u128) -> Ratio {
    // Where the product would not fit, the quotient of the rounded whole is smaller, never larger.
    let millionths = match part.checked_mul(MILLION) {
        Some(product) => product.checked_div(whole).unwrap_or(0),
        None => part / whole.div_ceil(MILLION),
    };
    i64::try_from(millionths).ok().and_then(Ratio::new).unwrap_or(Ratio::MIN)
}
