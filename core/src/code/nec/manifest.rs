//! The manifest of an edition: how it numbers the tables and the sections.

use std::collections::{BTreeMap, HashMap};
use std::sync::LazyLock;

use serde::Deserialize;

use super::Edition;
use crate::code::Citation;
use crate::published::{Grade, TableId};

/// The numbers that an edition prints over its tables.
#[derive(Debug, Default, Deserialize)]
pub(super) struct Manifest {
    #[serde(default)]
    tables: BTreeMap<String, String>,
}

impl Manifest {
    fn of(edition: Edition) -> Self {
        let text = match edition {
            Edition::Nec2017 => include_str!("../../../data/nec/2017.toml"),
            Edition::Nec2020 => include_str!("../../../data/nec/2020.toml"),
            Edition::Nec2023 => include_str!("../../../data/nec/2023.toml"),
        };
        toml::from_str(text).unwrap_or_default()
    }

    /// That of an edition, read when a number is first asked for.
    pub(super) fn kept(edition: Edition) -> &'static Self {
        static READ: [LazyLock<Manifest>; 3] = [
            LazyLock::new(|| Manifest::of(Edition::Nec2017)),
            LazyLock::new(|| Manifest::of(Edition::Nec2020)),
            LazyLock::new(|| Manifest::of(Edition::Nec2023)),
        ];
        let [nec_2017, nec_2020, nec_2023] = &READ;
        match edition {
            Edition::Nec2017 => nec_2017,
            Edition::Nec2020 => nec_2020,
            Edition::Nec2023 => nec_2023,
        }
    }

    pub(super) fn number(&self, table: TableId) -> Option<&str> {
        self.tables.get(table.name()).map(String::as_str)
    }
}

/// The section of a topic in an edition.
pub(super) fn section(edition: Edition, topic: &str) -> Citation {
    static INDEXED: [LazyLock<Sections>; 3] = [
        LazyLock::new(|| index(Edition::Nec2017)),
        LazyLock::new(|| index(Edition::Nec2020)),
        LazyLock::new(|| index(Edition::Nec2023)),
    ];
    let found = INDEXED.get(edition as usize).and_then(|sections| sections.get(topic));
    let (text, grade) = found.copied().unwrap_or(("", None));
    Citation { document: edition.short(), section: (!text.is_empty()).then(|| text.to_owned()), grade }
}

type Sections = HashMap<&'static str, (&'static str, Option<Grade>)>;

fn index(edition: Edition) -> Sections {
    let Ok(table) = TableId::Sections.load() else { return Sections::new() };
    let Some(column) = table.column(&format!("section_{}", edition.year())) else { return Sections::new() };
    let rows = table.rows.iter();
    rows.filter_map(|row| Some((row.cell(0)?, (row.cell(column)?, row.grade(column))))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_has_a_number_in_every_edition() {
        for edition in Edition::ALL {
            let manifest = Manifest::of(edition);
            for table in TableId::ALL.iter().filter(|table| table.path().starts_with("nec/")) {
                assert!(manifest.number(*table).is_some(), "{} in {}", table.name(), edition.id());
            }
            for name in manifest.tables.keys() {
                assert!(TableId::ALL.iter().any(|table| table.name() == name), "{name} is not carried");
            }
        }
    }

    #[test]
    fn sections_move_with_the_edition() {
        assert_eq!(section(Edition::Nec2017, "more-than-three-conductors").to_string(), "NEC 2017 310.15(B)(3)(a)");
        assert_eq!(section(Edition::Nec2023, "more-than-three-conductors").to_string(), "NEC 2023 310.15(C)(1)");
        assert_eq!(section(Edition::Nec2017, "ten-ampere-circuit").to_string(), "NEC 2017: no section");
    }
}
