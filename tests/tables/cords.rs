//! Flexible cords: 400.4, 400.5, 240.5.

use loadworthy::code::{Code, ConductorRating, CordFacts, CordPlace};
use loadworthy::trade::{CordType, Usage, Word};

use crate::compared::{Comparison, RATINGS, amperes, mark, rows, size, with_unit};

#[test]
fn ampacity_of_cords() {
    let listed = rows("flexible_cord_ampacity_400_5_a1").len() - 1;
    Comparison::in_every_edition(listed * 4, |_, of| {
        for row in rows("flexible_cord_ampacity_400_5_a1") {
            let size = size(&row["awg"]);
            for (column, cord, carrying) in [
                ("column_a_3_current_carrying_a", CordType::Soow, 3),
                ("column_b_2_current_carrying_a", CordType::Soow, 2),
                ("column_b_2_current_carrying_a", CordType::Sjt, 1),
                ("heater_cord_a", CordType::Hpn, 2),
            ] {
                let ask = |code: &dyn Code| code.cord_ampacity(cord, size, carrying, ConductorRating::C60);
                let what = format!("{cord} {size}, {carrying}");
                if row["note"] == "elevator cables only" {
                    of.outside(&what, ask);
                } else {
                    of.cell(&what, amperes(&row[column]), mark(&row["confidence"], 0), ask);
                }
            }
        }
    });
}

#[test]
fn ampacity_of_portable_cables() {
    let listed = rows("portable_cable_ampacity_400_5_a2").len();
    Comparison::in_every_edition(listed * 9, |_, of| {
        for row in rows("portable_cable_ampacity_400_5_a2") {
            let size = size(&row["size"]);
            for (letter, cord, carrying) in [("d", CordType::Sc, 1), ("e", CordType::W, 2), ("f", CordType::G, 3)] {
                for rating in RATINGS {
                    let printed = amperes(&row[&format!("{letter}_{}c_a", rating.degrees())]);
                    let what = format!("{cord} {size} {rating}");
                    of.cell(&what, printed, mark(&row["confidence"], 0), |code| {
                        code.cord_ampacity(cord, size, carrying, rating)
                    });
                }
            }
        }
    });
}

#[test]
fn adjustment_of_cords() {
    Comparison::in_every_edition(60 - 3, |_, of| {
        for row in rows("flexible_cord_adjustment_400_5_a3") {
            for count in row["conductors_min"].parse().unwrap()..=row["conductors_max"].parse().unwrap_or(60) {
                let printed = with_unit(&row["percent_of_three_conductor_value"], "%");
                of.cell(&format!("{count} conductors"), printed, mark(&row["confidence"], 0), |code| {
                    code.cord_bundling_factor(count).transpose().unwrap()
                });
            }
        }
    });
}

#[test]
fn types_of_cords() {
    let listed = rows("flexible_cord_types_400_4");
    Comparison::in_every_edition(listed.len(), |_, of| {
        for row in &listed {
            let facts = CordFacts {
                voltage: with_unit(&row["volts"], "V").unwrap(),
                usage: match row["usage"].as_str() {
                    "extra_hard" => Usage::ExtraHard,
                    "hard" => Usage::Hard,
                    "not_hard" => Usage::NotHard,
                    "ranges_dryers" => Usage::RangesDryers,
                    other => panic!("{other}"),
                },
                place: match row["location"].as_str() {
                    "damp" => Some(CordPlace::Damp),
                    "damp_and_wet" | "wet" => Some(CordPlace::Wet),
                    "" => None,
                    other => panic!("{other}"),
                },
                smallest: size(&row["size_max_number_awg"]),
                largest: size(&row["size_min_number_awg_or_kcmil"]),
            };
            let cord: CordType = row["type"].parse().unwrap();
            of.cell(cord.spelling(), Some(facts), mark(&row["confidence"], 0), |code| code.cord(cord));
        }
        for (name, cord) in
            CordType::all().into_iter().filter(|(name, _)| listed.iter().all(|row| row["type"] != *name))
        {
            of.outside(name, |code| code.cord(cord));
        }
    });
}

#[test]
fn cords_without_a_mark_and_field_assembled_ones() {
    Comparison::in_every_edition(2, |_, of| {
        let unmarked = rows("cord_temperature_ratings").remove(0);
        assert_eq!(unmarked["item"], "unmarked cord, assumed rating");
        let printed = with_unit(&unmarked["value_c"], "°C");
        of.cell("unmarked", printed, mark(&unmarked["confidence"], 0), |code| code.unmarked_cord_rating());
        let assembled = rows("flexible_cord_protection_240_5").remove(0);
        assert!(assembled["case"].starts_with("field-assembled"));
        let printed = amperes(&assembled["circuit_a"]).zip(Some(size(&assembled["smallest_awg"])));
        of.cell("field-assembled", printed, mark(&assembled["confidence"], 0), |code| code.field_assembled_cord());
    });
}
