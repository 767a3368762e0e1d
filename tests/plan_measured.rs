//! Measured loads from CSV and ESPI.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use std::fmt::Write;

use loadworthy::plan::measured::*;
use loadworthy::quantity::{Amperes, Ratio};
use proptest::prelude::*;

fn q<T: std::str::FromStr>(text: &str) -> T
where
    T::Err: std::fmt::Debug,
{
    text.parse().unwrap()
}

fn watts(rows: &[(&str, &str)]) -> Result<Measured, MeasuredError> {
    let rows: String = rows.iter().map(|(time, watts)| format!("{time},{watts}\n")).collect();
    read_csv(&format!("time,watts\n{rows}"))
}

#[test]
fn percentiles_peaks_and_hours() {
    let record = watts(&[
        ("2025-01-31T17:30:00-05:00", "400"),
        ("2025-01-31T17:45:00-05:00", "420"),
        ("2025-01-31T18:00:00-05:00", "2000.125"),
        ("2025-01-31T18:15:00-05:00", "900"),
    ])
    .unwrap();
    assert!(record.notices.is_empty());
    assert_eq!(record.coverage(), Ratio::ONE);
    // A quarter of the time is at or below 400 W; one step more of a share is not.
    assert_eq!(record.percentile(q("25 %")), Some(q("400 W")));
    assert_eq!(record.percentile(q("25.0001 %")), Some(q("420 W")));
    assert_eq!(record.percentile(q("0 %")), Some(q("400 W")));
    assert_eq!(record.percentile(q("100 %")), Some(q("2000.125 W")));
    let (peak, start) = record.peak().unwrap();
    assert_eq!((peak, start), (q("2000.125 W"), 1_738_364_400));
    // 410 W and 1450.0625 W for half an hour each, in mW·s.
    assert_eq!(record.energy_by_hour(), [(1_738_360_800, 738_000_000), (1_738_364_400, 2_610_112_500)]);
    let means = record.mean_by_hour_of_day();
    assert_eq!((means[17], means[18], means[19]), (Some(q("410 W")), Some(q("1450.063 W")), None));
}

#[test]
fn amperes_of_both_legs() {
    let record =
        read_csv("Time, leg_b_amperes, note, leg_a_amperes\n2025-01-01T00:00Z,1.5,x,3\n2025-01-01T00:01Z,2,y,1\n")
            .unwrap();
    assert_eq!(record.kind(), Kind::CurrentPerLeg);
    assert_eq!(record.current_percentile(Ratio::ONE), Some([q::<Amperes>("3 A"), q("2 A")]));
    assert_eq!(record.percentile(Ratio::ONE), None);
}

#[test]
fn gaps_and_doubled_rows_are_told() {
    let record = watts(&[
        ("2025-01-01T00:00Z", "100"),
        ("2025-01-01T00:15Z", "100"),
        ("2025-01-01T00:15Z", "100"),
        ("2025-01-01T01:00Z", "300"),
    ])
    .unwrap();
    assert_eq!(record.notices, [Notice::Twice { at: 4 }, Notice::Gap { at: 5, missing: q("30 min") }]);
    assert_eq!(record.notices[1].to_string(), "5: nothing is recorded for 1800 s before it");
    assert_eq!(record.coverage(), q("60 %"));
    assert_eq!(record.milliwatt_seconds(), Some(500 * 900 * 1000));
}

#[test]
fn clock_changes() {
    // With offsets nothing is odd: the hour after the change begins an hour later on the clock.
    let with_offsets =
        watts(&[("2025-03-09T01:30-05:00", "1"), ("2025-03-09T03:00-04:00", "1"), ("2025-03-09T03:30-04:00", "1")])
            .unwrap();
    assert!(with_offsets.notices.is_empty());
    // Without, an hour vanishes in spring and repeats in autumn.
    let spring = watts(&[("2025-03-09 01:00", "1"), ("2025-03-09 01:30", "1"), ("2025-03-09 03:00", "1")]).unwrap();
    assert_eq!(spring.notices, [Notice::ClockSetForward { at: 4 }]);
    let autumn = watts(&[
        ("2025-11-02 01:00", "1"),
        ("2025-11-02 01:30", "1"),
        ("2025-11-02 01:00", "2"),
        ("2025-11-02 01:30", "2"),
        ("2025-11-02 02:00", "1"),
    ])
    .unwrap();
    assert_eq!(autumn.notices, [Notice::ClockSetBack { at: 4 }]);
    assert_eq!(autumn.coverage(), Ratio::ONE);
    assert_eq!(autumn.milliwatt_seconds(), Some(7 * 1800 * 1000));
}

#[test]
fn what_cannot_be_read_is_an_error_with_its_line() {
    for (text, message) in [
        (
            "when,watts\n",
            "the columns are `when,watts`; write `time` and `watts`, or `time`, `leg_a_amperes` and `leg_b_amperes`",
        ),
        ("time,watts\nyesterday,1\n", "2: `yesterday` is not a time; write one such as `2025-01-31T18:45:00-05:00`"),
        ("time,watts\n2025-01-01T00:00Z,-1\n", "2: `-1` is not a value from 0 up with at most 3 decimals"),
        ("time,watts\n2025-01-01T00:00Z,\n", "2: `` is not a value from 0 up with at most 3 decimals"),
        ("time,watts\n2025-01-01T00:00Z,nan\n", "2: `nan` is not a value from 0 up with at most 3 decimals"),
        (
            "time,watts\n2025-01-01T00:00Z,1\n2025-01-01T00:15,1\n",
            "3: times with and without an offset are mixed; write all of them with one",
        ),
        (
            "time,watts\n2025-01-01T00:15Z,1\n2025-01-01T00:30Z,1\n2025-01-01T00:00Z,1\n",
            "4: the interval begins before the one above it has ended",
        ),
        (
            "time,watts\n\n2025-01-01T00:00Z,1\n\"2025-01-01T00:15Z\",x",
            "4: `x` is not a value from 0 up with at most 3 decimals",
        ),
        ("", "the columns are ``; write `time` and `watts`, or `time`, `leg_a_amperes` and `leg_b_amperes`"),
        (
            "time,watts\n2025-01-01T00:15Z,1\n",
            "the record has fewer than two readings, so the length of an interval cannot be told",
        ),
    ] {
        assert_eq!(read_csv(text).unwrap_err().to_string(), message);
    }
}

fn feed(reading_type: &str, readings: &str) -> String {
    format!(
        r#"<?xml version="1.0" encoding="UTF-8"?><feed xmlns="http://www.w3.org/2005/Atom" xmlns:espi="http://naesb.org/espi">
        <entry><content><espi:LocalTimeParameters><espi:dstOffset>3600</espi:dstOffset><espi:tzOffset>-18000</espi:tzOffset>
        </espi:LocalTimeParameters></content></entry>
        <entry><content><espi:ReadingType>{reading_type}</espi:ReadingType></content></entry>
        <entry><content><espi:IntervalBlock><espi:interval><espi:duration>86400</espi:duration><espi:start>1741478400</espi:start>
        </espi:interval>{readings}</espi:IntervalBlock></content></entry></feed>"#
    )
}

fn reading(start: i64, value: i64) -> String {
    format!(
        "<espi:IntervalReading><espi:cost>1</espi:cost><espi:timePeriod><espi:duration>900</espi:duration><espi:start>{start}</espi:start>\
         </espi:timePeriod><espi:value>{value}</espi:value></espi:IntervalReading>"
    )
}

const WATT_HOURS: &str = "<espi:accumulationBehaviour>4</espi:accumulationBehaviour><espi:flowDirection>1</espi:flowDirection>\
    <espi:powerOfTenMultiplier>-3</espi:powerOfTenMultiplier><espi:uom>72</espi:uom>";

#[test]
fn a_feed_in_any_order_with_a_gap() {
    let readings =
        [reading(1_741_479_300, 300_000), reading(1_741_478_400, 100_000), reading(1_741_482_000, 25_000)].concat();
    let record = read_espi(feed(WATT_HOURS, &readings).as_bytes()).unwrap();
    assert_eq!(record.peak(), Some((q("1200 W"), 1_741_479_300)));
    // 425 Wh.
    assert_eq!(record.milliwatt_seconds(), Some(425 * 3_600_000));
    assert_eq!(record.notices, [Notice::Gap { at: 3, missing: q("30 min") }]);
    // 2025-03-09 00:00 UTC is 19 h the day before at -5 h.
    assert_eq!(record.mean_by_hour_of_day()[19], Some(q("800 W")));
}

#[test]
fn feeds_that_cannot_be_read_are_errors() {
    let of = |kind: &str, readings: &str| read_espi(feed(kind, readings).as_bytes()).unwrap_err().to_string();
    let one = reading(1_741_478_400, 1);
    assert_eq!(
        of(&WATT_HOURS.replace("72", "169"), &one),
        "the feed gives the unit of measure 169; read are Wh (72), W (38) of forward flow (1) and no running totals"
    );
    assert!(of(&WATT_HOURS.replace(">1<", ">19<"), &one).starts_with("the feed gives the flow direction 19"));
    assert!(of(&WATT_HOURS.replace(">4<", ">3<"), &one).starts_with("the feed gives the accumulation 3"));
    assert_eq!(of("", &one), "the feed has no unit of measure, so its readings cannot be told");
    assert!(of(WATT_HOURS, &reading(1_741_478_400, -1)).contains("`-1` is not a value"));
    assert!(of(WATT_HOURS, &one.replace("<espi:value>1</espi:value>", "<espi:value/>")).starts_with("1: "));
    assert!(
        of(WATT_HOURS, &one.replace(">1</espi:value>", ">1&#48;</espi:value>"))
            .contains("a reference stands in a number")
    );
    let overlap = reading(1_741_478_400, 1) + &reading(1_741_478_401, 1);
    assert_eq!(of(WATT_HOURS, &overlap), "2: the interval begins before the one above it has ended");
    let no_type = "<feed/>".to_owned();
    assert!(matches!(read_espi(no_type.as_bytes()), Err(MeasuredError::NoReadingType(_))));
    for broken in
        ["<feed>", "<feed></entry>", "<!DOCTYPE feed [<!ENTITY a \"b\">]><feed/>", "<feed>\u{0}<", "<feed a=></feed"]
    {
        assert!(read_espi(broken.as_bytes()).is_err(), "{broken}");
    }
    assert!(matches!(read_espi(&b"<feed>\xff\xfe</feed>"[..]), Err(MeasuredError::Xml(_))));
    let two = feed(WATT_HOURS, &one).replace("</feed>", "<ReadingType><uom>38</uom></ReadingType></feed>");
    assert_eq!(read_espi(two.as_bytes()), Err(MeasuredError::SeveralReadingTypes));
}

#[test]
fn a_year_of_quarters_of_an_hour_is_read_fast() {
    let mut readings = String::new();
    for index in 0..35_040i64 {
        write!(readings, "{}", reading(1_735_689_600 + index * 900, 100_000 + index % 7 * 1000)).unwrap();
    }
    let feed = feed(WATT_HOURS, &readings);
    let start = std::time::Instant::now();
    let record = read_espi(feed.as_bytes()).unwrap();
    assert_eq!((record.len(), record.coverage()), (35_040, Ratio::ONE));
    eprintln!("{} MB in {:?}", feed.len() / 1_000_000, start.elapsed());
    // A build without optimization takes many times as long.
    assert!(cfg!(debug_assertions) || start.elapsed().as_millis() < 1000);
}

proptest! {
    #[test]
    fn no_text_panics(text in "\\PC*", bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let _ = read_csv(&text);
        let _ = read_csv(&format!("time,watts\n{text}"));
        let _ = read_espi(bytes.as_slice());
        let _ = read_espi(feed(&text, &text).as_bytes());
    }
}
