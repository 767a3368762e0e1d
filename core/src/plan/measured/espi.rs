//! The interval-data export of utilities: NAESB REQ.21, Energy Services Provider Interface (ESPI), an Atom feed.
//!
//! The feed is read as a stream and never held whole. Element names count without their namespace prefix, and the codes
//! of its reading type are those of the ESPI schema (from memory): unit 72 is Wh and 38 is W, accumulation 4 is the
//! amount of the interval, 3 and 1 are running totals, flow 1 is forward (to the home). The local clock is taken as
//! standard time all year.

use std::io::BufRead;

use quick_xml::Reader;
use quick_xml::events::Event;

use super::{Interval, Kind, Measured, MeasuredError, Notice};
use crate::quantity::Seconds;

/// What the feed says about its readings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct ReadingType {
    unit: Option<i64>,
    power_of_ten: i64,
    accumulation: Option<i64>,
    flow: Option<i64>,
}

/// One reading as it stands.
#[derive(Clone, Copy, Debug, Default)]
struct Raw {
    start: Option<i64>,
    seconds: Option<i64>,
    value: Option<i64>,
    doubtful: bool,
}

/// Reads a feed of one meter's forward flow.
///
/// # Errors
/// [`MeasuredError`] for XML that is not well formed or declares a document type, a reading type that is missing or of
/// another kind, and readings that overlap.
///
/// ```
/// # use loadworthy::plan::measured::read_espi;
/// let feed = "<feed><entry><ReadingType><uom>72</uom><powerOfTenMultiplier>0</powerOfTenMultiplier></ReadingType></entry>
///   <entry><IntervalBlock><IntervalReading><timePeriod><duration>900</duration><start>1741502700</start></timePeriod>
///   <value>100</value></IntervalReading></IntervalBlock></entry></feed>";
/// let record = read_espi(feed.as_bytes())?;
/// // 100 Wh in a quarter of an hour.
/// assert_eq!(record.peak(), Some(("400 W".parse()?, 1_741_502_700)));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn read_espi(feed: impl BufRead) -> Result<Measured, MeasuredError> {
    let mut reader = Reader::from_reader(feed);
    let (mut types, mut readings) = (Vec::<ReadingType>::new(), Vec::<Raw>::new());
    let mut offset = 0;
    let (mut in_type, mut in_reading, mut in_local) = (false, false, false);
    let (mut buffer, mut text, mut open) = (Vec::new(), String::new(), 0usize);
    let xml = |error: quick_xml::Error| MeasuredError::Xml(error.to_string());
    loop {
        match reader.read_event_into(&mut buffer).map_err(xml)? {
            Event::DocType(_) => return Err(MeasuredError::Xml("a document type is declared".to_owned())),
            Event::Start(element) => {
                open += 1;
                text.clear();
                match element.local_name().as_ref() {
                    "ReadingType" => {
                        in_type = true;
                        types.push(ReadingType::default());
                    }
                    "IntervalReading" => {
                        in_reading = true;
                        readings.push(Raw::default());
                    }
                    "LocalTimeParameters" => in_local = true,
                    _ => {}
                }
            }
            Event::Text(part) => text.push_str(&part),
            Event::CData(part) => text.push_str(&part),
            // A number spelled with references would be read in part.
            Event::GeneralRef(_) if in_type || in_reading || in_local => {
                return Err(MeasuredError::Xml("a reference stands in a number".to_owned()));
            }
            Event::End(element) => {
                open = open.saturating_sub(1);
                let number = || text.trim().parse::<i64>().ok();
                match element.local_name().as_ref() {
                    "ReadingType" => in_type = false,
                    "IntervalReading" => in_reading = false,
                    "LocalTimeParameters" => in_local = false,
                    "tzOffset" if in_local => {
                        let seconds = number().and_then(|seconds| i32::try_from(seconds).ok());
                        offset = seconds
                            .ok_or(MeasuredError::NoReadingType("offset of the local clock that can be read"))?;
                    }
                    name if in_reading => {
                        let at = readings.len();
                        let Some(raw) = readings.last_mut() else { continue };
                        let value =
                            || number().ok_or_else(|| MeasuredError::Value { at, found: text.clone(), decimals: 0 });
                        match name {
                            "start" => raw.start = Some(value()?),
                            "duration" => raw.seconds = Some(value()?),
                            "value" => raw.value = Some(value()?),
                            "quality" => raw.doubtful |= number() != Some(0),
                            _ => {}
                        }
                    }
                    name if in_type => {
                        let Some(of) = types.last_mut() else { continue };
                        let value = || number().ok_or(MeasuredError::NoReadingType("reading type that can be read"));
                        match name {
                            "uom" => of.unit = Some(value()?),
                            "powerOfTenMultiplier" => of.power_of_ten = value()?,
                            "accumulationBehaviour" => of.accumulation = Some(value()?),
                            "flowDirection" => of.flow = Some(value()?),
                            _ => {}
                        }
                    }
                    _ => {}
                }
                text.clear();
            }
            Event::Eof if open > 0 => {
                return Err(MeasuredError::Xml("it ends before its elements are closed".to_owned()));
            }
            Event::Eof => break,
            _ => {}
        }
        buffer.clear();
    }
    types.dedup();
    match types.as_slice() {
        [one] => intervals(*one, &readings, offset),
        [] => Err(MeasuredError::NoReadingType("reading type")),
        _ => Err(MeasuredError::SeveralReadingTypes),
    }
}

const WATT_HOURS: i64 = 72;
const WATTS: i64 = 38;

fn intervals(of: ReadingType, readings: &[Raw], offset: i32) -> Result<Measured, MeasuredError> {
    let unit = of.unit.ok_or(MeasuredError::NoReadingType("unit of measure"))?;
    let other = |what, found| Err(MeasuredError::OtherReadingType { what, found });
    if unit != WATT_HOURS && unit != WATTS {
        return other("the unit of measure", unit);
    }
    if let Some(flow) = of.flow.filter(|flow| *flow != 1) {
        return other("the flow direction", flow);
    }
    // 4 is the amount of the interval; 6, 0 and 12 are means and instants, which only a power can be.
    if let Some(accumulation) =
        of.accumulation.filter(|code| *code != 4 && (unit == WATT_HOURS || ![0, 6, 12].contains(code)))
    {
        return other("the accumulation", accumulation);
    }
    let mut notices = Vec::new();
    let mut numbered = Vec::new();
    for (at, raw) in (1..).zip(readings) {
        let missing = || MeasuredError::Value { at, found: String::new(), decimals: 0 };
        let (start, seconds, value) =
            (raw.start.ok_or_else(missing)?, raw.seconds.ok_or_else(missing)?, raw.value.ok_or_else(missing)?);
        let seconds = u32::try_from(seconds).ok().filter(|seconds| *seconds > 0).ok_or_else(missing)?;
        if raw.doubtful {
            notices.push(Notice::Quality { at });
        }
        // mW·s: a Wh is 3,600,000 of them, a W so many thousand as it lasts seconds.
        let each = if unit == WATT_HOURS { 3_600_000 } else { i64::from(seconds) * 1000 };
        let amount = scale(value, of.power_of_ten, each).ok_or_else(|| MeasuredError::Value {
            at,
            found: value.to_string(),
            decimals: 0,
        })?;
        numbered.push((at, Interval { start, offset, seconds, amounts: [amount, 0] }));
    }
    // Blocks may come in any order.
    numbered.sort_by_key(|(_, interval)| interval.start);
    let mut intervals: Vec<Interval> = Vec::new();
    for (at, interval) in numbered {
        if let Some(last) = intervals.last() {
            let end = last.start.saturating_add(i64::from(last.seconds));
            if *last == interval {
                notices.push(Notice::Twice { at });
                continue;
            }
            if interval.start < end {
                return Err(MeasuredError::Order { at });
            }
            if interval.start > end {
                let missing =
                    Seconds::new(interval.start.saturating_sub(end).saturating_mul(1000)).unwrap_or(Seconds::MAX);
                notices.push(Notice::Gap { at, missing });
            }
        }
        intervals.push(interval);
    }
    Measured::new(Kind::Power, intervals, notices)
}

/// `value · 10^power · each`; `None` where it is negative, no whole number or out of range.
fn scale(value: i64, power_of_ten: i64, each: i64) -> Option<i64> {
    let ten = 10_i128.checked_pow(u32::try_from(power_of_ten.unsigned_abs()).ok()?)?;
    let product = i128::from(value).checked_mul(i128::from(each))?;
    let scaled =
        if power_of_ten < 0 { (product % ten == 0).then(|| product / ten)? } else { product.checked_mul(ten)? };
    i64::try_from(scaled).ok().filter(|amount| *amount >= 0)
}
