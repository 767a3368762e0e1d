//! Ampacity, correction, adjustment, insulations, resistance: 310.16, 310.17, 310.15, 310.4, Chapter 9 Tables 8 and 9.

use loadworthy::code::{Code, ConductorRating, InsulationFacts};
use loadworthy::published::Cell;
use loadworthy::quantity::{Celsius, CircularMils, OhmsPerLength};
use loadworthy::trade::{Conduit, Installation, Insulation, Material, Place, WireSize};

use crate::compared::{Comparison, METALS, RATINGS, amperes, factor, mark, rows, size, with_unit};

fn ampacity(name: &str, installations: &[Installation], of: &mut Comparison) {
    for row in rows(name) {
        let size = size(&row["size"]);
        for (metal, (short, materials)) in METALS.iter().enumerate() {
            for rating in RATINGS {
                let printed = amperes(&row[&format!("{short}_{}c_a", rating.degrees())]);
                let mark = mark(&row["confidence"], metal * 3 + rating as usize);
                for (material, installation) in
                    materials.iter().flat_map(|m| installations.iter().map(move |i| (*m, *i)))
                {
                    let what = format!("{size} {material} {rating} {installation}");
                    of.cell(&what, printed, mark, |code| code.base_ampacity(installation, material, rating, size));
                }
            }
        }
    }
}

#[test]
fn ampacity_in_raceway_cable_and_earth() {
    let rows = rows("ampacity_310_16").len();
    Comparison::in_every_edition(rows * 3 * 4 * 3, |_, of| {
        ampacity("ampacity_310_16", &[Installation::Raceway, Installation::Cable, Installation::Buried], of);
        let size = "800 kcmil".parse().unwrap(); // listed; 850 kcmil is not
        assert!(of.every.terminal_ampacity(Material::Copper, ConductorRating::C75, size).is_ok());
        for unlisted in ["850 kcmil", "13 AWG", "20 AWG", "10 mm2"].map(|size| size.parse::<WireSize>().unwrap()) {
            of.outside(&unlisted.to_string(), |code| {
                code.base_ampacity(Installation::Raceway, Material::Copper, ConductorRating::C75, unlisted)
            });
        }
    });
}

#[test]
fn ampacity_in_free_air() {
    let rows = rows("ampacity_310_17").len();
    Comparison::in_every_edition(rows * 3 * 4, |_, of| ampacity("ampacity_310_17", &[Installation::FreeAir], of));
}

/// Every whole degree of a band, in both units.
#[test]
fn ambient_correction() {
    // 10 °C and below from -10 °C: 21 degrees; then 11 °C to 85 °C. And the same in °F, 14 °F to 185 °F.
    Comparison::in_every_edition((21 + 75) * 3 + (37 + 135) * 3, |_, of| {
        for row in rows("ambient_correction_30c") {
            for (unit, from, to, lowest) in
                [("°C", "ambient_c_from", "ambient_c_to", -10), ("°F", "ambient_f_from", "ambient_f_to", 14)]
            {
                for degrees in row[from].parse().unwrap_or(lowest)..=row[to].parse::<i32>().unwrap() {
                    let ambient: Celsius = format!("{degrees} {unit}").parse().unwrap();
                    for rating in RATINGS {
                        let printed = factor(&row[&format!("factor_{}c", rating.degrees())]);
                        let mark = mark(&row["confidence"], rating as usize);
                        of.cell(&format!("{ambient} {rating}"), printed, mark, |code| {
                            code.ambient_factor(rating, ambient)
                        });
                    }
                }
            }
        }
        for rating in RATINGS {
            of.outside("86 °C", |code| code.ambient_factor(rating, "86 °C".parse().unwrap()));
        }
    });
}

#[test]
fn adjustment_for_more_than_three() {
    Comparison::in_every_edition(100 - 3, |_, of| {
        for row in rows("adjustment_more_than_three") {
            for count in row["count_from"].parse().unwrap()..=row["count_to"].parse().unwrap_or(100) {
                let printed = with_unit(&row["percent"], "%");
                of.cell(&format!("{count} conductors"), printed, mark(&row["confidence"], 0), |code| {
                    code.bundling_factor(count).transpose().unwrap()
                });
            }
        }
        for count in 0..=3 {
            assert_eq!(of.every.bundling_factor(count), Ok(None));
        }
        assert_eq!(of.every.bundling_factor(u16::MAX), of.every.bundling_factor(41));
    });
}

#[test]
fn insulations() {
    // Twenty-two rows of conductors, of which one names two and one three types, each in three kinds of place.
    Comparison::in_every_edition((19 + 2 + 1 + 3) * 3, |_, of| {
        for row in rows("insulation_types").into_iter().filter(|row| !row["type"].contains("cable")) {
            let column = row["ampacity_table_column_c"].as_str();
            let part = |place: &str| {
                let parts = column.split("; ").find_map(|part| part.split_once(&format!(" {place}")));
                parts.map_or(column, |(degrees, _)| degrees)
            };
            let (dry, wet) = (part("dry"), if row["max_c_wet"].is_empty() { "" } else { part("wet") });
            for name in row["type"].trim_end_matches(" (conductor)").split(", ") {
                let insulation: Insulation = name.parse().unwrap();
                for (place, degrees) in [(Place::Dry, dry), (Place::Damp, dry), (Place::Wet, wet)] {
                    let printed = degrees.parse().ok().and_then(ConductorRating::of_degrees);
                    // Only the wet entry of ZW was seen, as its note says: the dry one counts as memory.
                    let from_memory = name == "ZW" && place != Place::Wet;
                    let mark = if from_memory { 'm' } else { mark(&row["confidence_column"], 0) };
                    of.cell(
                        &format!("{name} {place}"),
                        printed.map(|rating| InsulationFacts { rating }),
                        mark,
                        |code| code.insulation(insulation, place),
                    );
                }
            }
        }
    });
}

/// Where a size is made solid and stranded, the stranded resistance is the one that is read.
#[test]
fn conductor_properties() {
    let table = rows("conductor_properties_ch9_t8");
    let stranded: Vec<_> = table
        .iter()
        .enumerate()
        .filter(|(index, row)| table.get(index + 1).is_none_or(|next| next["size"] != row["size"]))
        .map(|(_, row)| row)
        .collect();
    Comparison::in_every_edition(stranded.len() * 4, |_, of| {
        for row in &stranded {
            let size = size(&row["size"]);
            let area = with_unit::<CircularMils>(&row["area_cmil"], "cmil");
            let confidence = row["confidence"].as_str();
            // The marks follow the fourteen columns after the size and the strands.
            of.cell(&format!("{size} area"), area, mark(confidence, 1), |code| code.area(size));
            let resistance = |column: &str| with_unit::<OhmsPerLength>(&row[column], "ohm/kft");
            let copper = resistance("cu_uncoated_ohm_per_kft");
            of.cell(&format!("{size} copper"), copper, mark(confidence, 9), |code| {
                code.resistance(Material::Copper, size)
            });
            for material in [Material::Aluminum, Material::CopperCladAluminum] {
                let aluminum = resistance("al_ohm_per_kft");
                of.cell(&format!("{size} {material}"), aluminum, mark(confidence, 13), |code| {
                    code.resistance(material, size)
                });
            }
        }
    });
}

#[test]
fn temperature_coefficients() {
    Comparison::in_every_edition(2, |_, of| {
        for row in rows("temperature_coefficients") {
            let material: Material = row["material"].parse().unwrap();
            let digits: i64 = row["coefficient_per_c_at_75c"].trim_start_matches("0.").parse().unwrap();
            let printed = (digits, with_unit(&row["reference_c"], "°C").unwrap());
            of.cell(&row["material"], Some(printed), mark(&row["confidence"], 0), |code| {
                code.temperature_coefficient(material)
            });
        }
    });
}

/// Resistance and reactance come together: the weaker of the two marks is that of the answer.
#[test]
fn alternating_current_impedance() {
    let conduits = [
        (Conduit::Pvc, "pvc", "pvc_al", 0),
        (Conduit::Aluminum, "al_conduit", "pvc_al", 0),
        (Conduit::Steel, "steel", "steel", 1),
    ];
    Comparison::in_every_edition(rows("ac_impedance_ch9_t9").len() * 3 * 4, |_, of| {
        for row in rows("ac_impedance_ch9_t9") {
            let size = size(&row["size"]);
            for (place, (conduit, r_name, x_name, x_index)) in conduits.into_iter().enumerate() {
                let x = with_unit::<OhmsPerLength>(&row[&format!("x_{x_name}_conduit_ohm_per_kft")], "ohm/kft");
                for (metal, (short, materials)) in METALS.iter().enumerate() {
                    let r = with_unit::<OhmsPerLength>(&row[&format!("r_{short}_{r_name}_ohm_per_kft")], "ohm/kft");
                    let marks =
                        [mark(&row["confidence_kft"], x_index), mark(&row["confidence_kft"], 2 + metal * 3 + place)];
                    let mark = marks.into_iter().max_by_key(|mark| "2p1cm-".find(*mark)).unwrap();
                    for material in materials {
                        of.cell(&format!("{size} {material} in {conduit}"), r.zip(x), mark, |code| {
                            code.impedance(*material, conduit, size).map(|cell: Cell<_>| cell)
                        });
                    }
                }
            }
        }
    });
}
