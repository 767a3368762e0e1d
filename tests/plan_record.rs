//! The record of a meter through the command: what the home was measured to draw stands in for the stated base load.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use std::process::Command;

use serde_json::Value;

/// The base load with what the loads of the cottage draw by their duty cycles, 48 + 240 + 153.6 + 1026 + 300 W, rounded
/// up.
fn with_loads(base: u32) -> u32 {
    (base * 10 + 17_676).div_ceil(10)
}

fn plan(file: &str, text: &str, more: &[&str]) -> Value {
    let path = format!("{}/{file}", env!("CARGO_TARGET_TMPDIR"));
    std::fs::write(&path, text).unwrap();
    let site = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/cottage-plan.toml");
    let output = Command::new(env!("CARGO_BIN_EXE_loadworthy"))
        .args(["plan", site, "--format", "json", "--measured", &path])
        .args(more)
        .output()
        .unwrap();
    assert!(output.status.code() < Some(3), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// The load of each hour, as expected or at worst, in watts rounded up.
fn loads(document: &Value, figure: &str) -> Vec<u32> {
    let hours = document["lasting"][figure]["by_hour"].as_array().unwrap();
    hours.iter().map(|hour| hour["load"].as_str().unwrap().trim_end_matches(" W").parse().unwrap()).collect()
}

fn notes(document: &Value) -> String {
    document["notes"].to_string()
}

/// 100 Wh in the first hour of the local day, 10 Wh more in each that follows.
fn feed() -> String {
    let reading = |hour: i64| {
        let start = 1_741_582_800 + 3600 * hour;
        format!(
            "<espi:IntervalReading><espi:timePeriod><espi:duration>3600</espi:duration><espi:start>{start}</espi:start>\
             </espi:timePeriod><espi:value>{}</espi:value></espi:IntervalReading>",
            100 + 10 * hour
        )
    };
    format!(
        r#"<?xml version="1.0"?><feed xmlns="http://www.w3.org/2005/Atom" xmlns:espi="http://naesb.org/espi">
        <entry><content><espi:LocalTimeParameters><espi:dstOffset>0</espi:dstOffset><espi:tzOffset>-18000</espi:tzOffset>
        </espi:LocalTimeParameters></content></entry>
        <entry><content><espi:ReadingType><espi:accumulationBehaviour>4</espi:accumulationBehaviour>
        <espi:flowDirection>1</espi:flowDirection><espi:powerOfTenMultiplier>0</espi:powerOfTenMultiplier>
        <espi:uom>72</espi:uom></espi:ReadingType></content></entry>
        <entry><content><espi:IntervalBlock>{}</espi:IntervalBlock></content></entry></feed>"#,
        (0..24).map(reading).collect::<String>()
    )
}

#[test]
fn the_energy_of_each_hour_is_that_of_the_utilitys_export() {
    // 2025-03-10 00:00 at -5 h. All of the time are 330 W or less.
    let document = plan("export.xml", &feed(), &["--measured-share", "100 %", "--start-hour", "3"]);
    assert_eq!(document["base"]["power"], "330 W");
    assert_eq!(document["base"]["from"], "measured");
    let expected: Vec<u32> = (3..15).map(|hour| with_loads(100 + 10 * hour)).collect();
    assert_eq!(loads(&document, "expected"), expected);
    // At worst the base load is what it was never measured above, and all that is on runs all the time.
    let all = 330 + 192 + 480 + 1536 + 2052 + 300;
    assert!(loads(&document, "worst").iter().all(|load| *load == all), "{document}");
    // 60 kWh from 80 % to 20 % at 90 % are 32.4 kWh; the first hour takes 130 Wh, the loads, and 200 Wh of idling at
    // 90 %: what is left is 1 - (130 + 1767.6 + 180) / 32400.
    assert_eq!(document["lasting"]["expected"]["by_hour"][0]["left"], "93.5876 %");
    let notes = notes(&document);
    assert!(notes.contains("100 % of its time is recorded"));
    // Twelve hours have 210 W or less, 23 of 24 hours 320 W or less.
    assert!(
        notes.contains("at most 210 W half of the time, 320 W for 95 % of it; the highest interval 330 W"),
        "{notes}"
    );
}

#[test]
fn gaps_and_a_clock_that_is_set_back_are_told_and_counted() {
    let mut text = "time,watts\n2025-11-02T00:00:00,100\n2025-11-02T01:00:00,200\n2025-11-02T01:00:00,400\n".to_owned();
    // Nothing at three and four.
    for hour in [2].into_iter().chain(5..24) {
        text += &format!("2025-11-02T{hour:02}:00:00,100\n");
    }
    let document = plan("record.csv", &text, &["--measured-share", "100 %"]);
    assert_eq!(document["base"]["power"], "400 W");
    let hours = loads(&document, "expected");
    // The hour that came twice has the mean of both; that of which nothing is recorded has the base load.
    for (hour, base) in [(0, 100), (1, 300), (2, 100), (3, 400), (4, 400), (5, 100)] {
        assert_eq!(hours[hour], with_loads(base), "{hour}");
    }
    let notes = notes(&document);
    for said in [
        "the clock was taken as set back",
        "nothing is recorded for 7200 s",
        "92 % of its time",
        "some hour of the day",
    ] {
        assert!(notes.contains(said), "{said}: {notes}");
    }
}

#[test]
fn currents_of_both_legs_count_with_the_power_factor_that_is_stated() {
    let mut text = "time,leg_a_amperes,leg_b_amperes\n".to_owned();
    for hour in 0..24 {
        let [a, b] = if hour < 12 { [1, 2] } else { [3, 1] };
        text += &format!("2025-01-31T{hour:02}:00:00-05:00,{a},{b}\n");
    }
    let document = plan("legs.csv", &text, &["--measured-share", "100 %", "--start-hour", "11"]);
    let hours = loads(&document, "expected");
    // 3 A and 4 A at 120 V and 0.9.
    assert_eq!(hours[..2], [with_loads(324), with_loads(432)]);
}
