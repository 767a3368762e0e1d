//! Overcurrent devices, small conductors, grounding, dwelling services, receptacles.

use loadworthy::code::{Code, Edition, Gap, SmallConductor};
use loadworthy::quantity::Amperes;
use loadworthy::trade::{DeviceKind, Material};

use crate::compared::{Comparison, METALS, amperes, mark, rows, size};

const fn year(edition: Edition) -> &'static str {
    match edition {
        Edition::Nec2017 => "2017",
        Edition::Nec2020 => "2020",
        _ => "2023",
    }
}

#[test]
fn standard_ratings() {
    for kind in [DeviceKind::Breaker, DeviceKind::Fuse] {
        // 10 A is a rating of fuses alone before 2023: the count of fuses stays, that of breakers grows.
        let count = |edition| if kind == DeviceKind::Fuse { 42 } else { 37 + usize::from(edition == Edition::Nec2023) };
        Comparison::in_every_edition_by(count, |edition, of| {
            let stands = |row: &crate::compared::Row| {
                row["editions"].split(';').any(|known| known == year(edition))
                    && (kind == DeviceKind::Fuse || row["kind"] == "fuse_or_breaker")
            };
            let printed: Vec<_> = rows("ocpd_standard_ratings_240_6").into_iter().filter(stands).collect();
            assert_eq!(of.every.standard_ratings(kind).len(), printed.len());
            for (index, row) in printed.iter().enumerate() {
                of.cell(&row["rating_a"], amperes(&row["rating_a"]), mark(&row["confidence"], 0), |code| {
                    code.standard_ratings(kind)[index]
                });
            }
        });
    }
}

#[test]
fn small_conductors() {
    for edition in Edition::ALL {
        let every = loadworthy::code::Nec::new(
            edition,
            &loadworthy::code::Acceptance::of_grade(loadworthy::published::Grade::Memory),
        );
        let item = if edition == Edition::Nec2023 { "item_2023" } else { "item_2014_2020" };
        let mut limited = Vec::new();
        for row in rows("small_conductor_240_4_d") {
            let materials: &[Material] = match row["material"].as_str() {
                "cu" => &[Material::Copper],
                "cca" => &[Material::CopperCladAluminum],
                "al_or_cca" => &[Material::Aluminum, Material::CopperCladAluminum],
                other => panic!("{other}"),
            };
            for material in materials {
                let size = size(&row["size"]);
                limited.push((*material, size));
                let printed = SmallConductor {
                    device: amperes(&row["max_ocpd_a"]).unwrap(),
                    continuous: amperes(&row["max_continuous_a"]),
                };
                let answer = every.small_conductor(*material, size);
                if row[item].is_empty() {
                    assert!(matches!(answer, Err(Gap::NotInEdition(_))), "{size} {material} in {}", edition.id());
                } else {
                    assert_eq!(answer.unwrap().unwrap().value, printed, "{size} {material} in {}", edition.id());
                }
            }
        }
        for size in every.sizes() {
            for material in [Material::Copper, Material::Aluminum, Material::CopperCladAluminum] {
                if !limited.contains(&(material, *size)) {
                    assert_eq!(every.small_conductor(material, *size), Ok(None), "{size} {material}");
                }
            }
        }
    }
}

/// At the rating of a row, and a microampere above that of the row before.
#[test]
fn equipment_grounding() {
    let table = rows("egc_250_122");
    Comparison::in_every_edition(table.len() * 4 * 2, |edition, of| {
        let aluminum = if edition == Edition::Nec2017 { "al_size_2014_2017" } else { "al_size_2020_2023" };
        let mark_of = if edition == Edition::Nec2017 { 2 } else { 1 };
        let mut above = Amperes::new(1).unwrap();
        for row in &table {
            let at = amperes(&row["ocpd_not_exceeding_a"]).unwrap();
            for (index, (_, materials)) in METALS.iter().enumerate() {
                let (column, mark_of) = if index == 0 { ("cu_size", 0) } else { (aluminum, mark_of) };
                for material in materials {
                    for device in [above, at] {
                        let what = format!("{material} for {device}");
                        of.cell(&what, Some(size(&row[column])), mark(&row["confidence"], mark_of), |code| {
                            code.equipment_grounding(*material, device)
                        });
                    }
                }
            }
            above = at.checked_add(Amperes::new(1).unwrap()).unwrap();
        }
        of.outside("above the last row", |code| code.equipment_grounding(Material::Copper, above));
    });
}

/// Every size that the ampacity table lists, in the band that the second copy puts it in.
#[test]
fn grounding_electrode() {
    let sizes = rows("ampacity_310_16").len();
    Comparison::in_every_edition(sizes * 4 * 2, |_, of| {
        for ampacity in rows("ampacity_310_16") {
            let service = size(&ampacity["size"]);
            for (of_metal, materials) in METALS {
                let row = rows("gec_250_66")
                    .into_iter()
                    .find(|row| {
                        let through = &row[&format!("{of_metal}_service_through")];
                        through.is_empty() || service.rank() <= rank(through)
                    })
                    .unwrap();
                for material in materials {
                    for (index, (short, [electrode, _])) in METALS.into_iter().enumerate() {
                        let printed = size(&row[&format!("{short}_gec")]);
                        let what = format!("{service} {material}, {electrode}");
                        of.cell(&what, Some(printed), mark(&row["confidence"], index), |code| {
                            code.grounding_electrode(material, service, electrode)
                        });
                    }
                }
            }
        }
        of.outside("a metric size", |code| {
            code.grounding_electrode(Material::Copper, "10 mm2".parse().unwrap(), Material::Copper)
        });
    });
}

/// The band's edge of 1100 kcmil is no size of the ampacity table, but a size all the same.
fn rank(text: &str) -> u32 {
    size(text).rank()
}

#[test]
fn dwelling_services() {
    Comparison::in_every_edition(rows("dwelling_service_310_12").len() * 4, |_, of| {
        for row in rows("dwelling_service_310_12") {
            let rating = amperes(&row["rating_a"]).unwrap();
            for (index, (short, materials)) in METALS.into_iter().enumerate() {
                for material in materials {
                    let printed = Some(size(&row[&format!("{short}_size")]));
                    of.cell(&format!("{rating} {material}"), printed, mark(&row["confidence"], index), |code| {
                        code.dwelling_service(material, rating)
                    });
                }
            }
        }
        of.outside("99 A", |code| code.dwelling_service(Material::Copper, Amperes::from_whole(99)));
        of.outside("401 A", |code| code.dwelling_service(Material::Copper, Amperes::from_whole(401)));
    });
}

#[test]
fn receptacles() {
    Comparison::in_every_edition(5 + 4, |_, of| {
        for row in rows("receptacle_ratings_210_21_b3") {
            let circuit = amperes(&row["circuit_rating_a"]).unwrap();
            let range = amperes(&row["receptacle_rating_min_a"]).zip(amperes(&row["receptacle_rating_max_a"]));
            of.cell(&format!("{circuit}"), range, mark(&row["confidence"], 0), |code| code.receptacle_ratings(circuit));
        }
        for row in rows("receptacle_cord_plug_load_210_21_b2") {
            let receptacle = amperes(&row["receptacle_rating_a"]).unwrap();
            for circuit in row["circuit_rating_a"].split(" or ").map(|text| amperes(text).unwrap()) {
                let what = format!("{receptacle} on {circuit}");
                of.cell(&what, amperes(&row["max_load_a"]), mark(&row["confidence"], 0), |code| {
                    code.receptacle_load(circuit, receptacle)
                });
            }
        }
        of.outside("25 A", |code| code.receptacle_ratings(Amperes::from_whole(25)));
    });
}
