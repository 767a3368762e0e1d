//! From a text to a site.

use super::component::{ComponentId, Kind};
use super::document::{self, Language};
use super::form::FromNode;
use super::names::{self, Link};
use super::place::{At, Place, Spot};
use super::problem::{Problem, Problems};
use super::reader::Reader;
use super::records::Document;
use super::{Entry, Site, Supply};

impl Site {
    /// Reads a TOML document.
    ///
    /// # Errors
    /// Everything that is wrong with it, in the order of the places.
    pub fn from_toml(file_name: &str, text: &str) -> Result<Self, Problems> {
        from_text(file_name, Language::Toml, text)
    }

    /// Reads a JSON document of the same model.
    ///
    /// # Errors
    /// Everything that is wrong with it, in the order of the places.
    pub fn from_json(file_name: &str, text: &str) -> Result<Self, Problems> {
        from_text(file_name, Language::Json, text)
    }

    /// Reads the bytes of a file, whose language [`Language::of`] tells from its name or its first character.
    ///
    /// # Errors
    /// Everything that is wrong with it, in the order of the places; a byte that is not UTF-8 is one problem.
    pub fn read(file_name: &str, bytes: &[u8]) -> Result<Self, Problems> {
        match std::str::from_utf8(bytes) {
            Ok(text) => from_text(file_name, Language::of(file_name, text), text),
            Err(error) => Err(Problems(vec![not_text(file_name, bytes, error.valid_up_to())])),
        }
    }
}

fn not_text(file_name: &str, bytes: &[u8], offset: usize) -> Problem {
    // All up to the offset is UTF-8, so the lossy reading loses nothing.
    let before = String::from_utf8_lossy(bytes.get(..offset).unwrap_or_default());
    let line = before.split('\n').count();
    let column = before.rsplit('\n').next().map_or(0, |line| line.chars().count()) + 1;
    let spot =
        Spot { line: u32::try_from(line).unwrap_or(u32::MAX), column: u32::try_from(column).unwrap_or(u32::MAX) };
    let at = Place { file: file_name.into(), record: "".into(), field: None, spot };
    Problem::NotText { at, byte: bytes.get(offset).copied().unwrap_or_default() }
}

/// Reads a JSON text that nobody wrote: its places are paths.
pub(super) fn from_changed(file_name: &str, text: &str) -> Result<Site, Problems> {
    from_reader(file_name, Language::Json, text, Reader::new(file_name, text).without_lines())
}

fn from_text(file_name: &str, language: Language, text: &str) -> Result<Site, Problems> {
    // A byte order mark is no part of the text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    from_reader(file_name, language, text, Reader::new(file_name, text))
}

fn from_reader<'a>(
    file_name: &str,
    language: Language,
    text: &'a str,
    mut reader: Reader<'a>,
) -> Result<Site, Problems> {
    let site = read(language, text, &mut reader);
    match (reader.into_problems(), site) {
        (Some(problems), _) => Err(problems),
        (None, Some(site)) => Ok(site),
        // Reading gives no site only where it noted a problem; should that ever break, it still is no site.
        (None, None) => {
            let at = Place { file: file_name.into(), record: "".into(), field: None, spot: Spot::START };
            Err(Problems(vec![Problem::Syntax { at, language: "TOML", what: "the document gives no site".to_owned() }]))
        }
    }
}

fn read<'a>(language: Language, text: &'a str, reader: &mut Reader<'a>) -> Option<Site> {
    let root = document::parse(language, text, reader)?;
    let path = "".into();
    let document = Document::from_node(&root, At { record: &path, field: None }, reader);
    let links = names::links(&root, reader);
    (reader.count() == 0).then(|| assemble(document?, &links))?
}

/// Puts the components in order and gives each its id.
fn assemble(mut document: Document, links: &[Link]) -> Option<Site> {
    let mut fed: Vec<Vec<usize>> = vec![Vec::new(); links.len()];
    let mut roots = Vec::new();
    for (index, link) in links.iter().enumerate() {
        match link.from {
            Some(from) => fed.get_mut(from)?.push(index),
            None => roots.push(index),
        }
    }
    // Depth first without recursion: a chain of cords may be as long as the document.
    let mut order: Vec<usize> = Vec::with_capacity(links.len());
    let mut waiting: Vec<usize> = roots.into_iter().rev().collect();
    while let Some(index) = waiting.pop() {
        order.push(index);
        waiting.extend(fed.get(index)?.iter().rev());
    }
    let mut ids = vec![ComponentId(0); links.len()];
    for (id, index) in (0..).zip(&order) {
        *ids.get_mut(*index)? = ComponentId(id);
    }
    let mut entries: Vec<Entry> = Vec::with_capacity(links.len());
    for (id, index) in (0_u32..).zip(&order) {
        let link = links.get(*index)?;
        let id_of = |index: usize| ids.get(index).copied();
        let index = u32::try_from(link.index).ok()?;
        let from = link.from.and_then(id_of);
        // What feeds it stands before it, and knows its own.
        let above = from.and_then(|from| entries.get(from.0 as usize));
        let own_or = |kind, above| if link.kind == kind { Some(index) } else { above };
        entries.push(Entry {
            kind: link.kind,
            index,
            from,
            source: own_or(Kind::Source, above.and_then(|above| above.source)),
            panel: own_or(Kind::Panel, above.and_then(|above| above.panel)),
            circuit: own_or(Kind::Circuit, above.and_then(|above| above.circuit)),
            normal_supply: match link.normal_supply {
                Some(names::Supply::Utility) => Some(Supply::Utility),
                Some(names::Supply::Panel(panel)) => id_of(panel).map(Supply::Panel),
                None => None,
            },
            end: id + 1,
        });
    }
    // The ends, from the last component to the first: what it feeds has its end already.
    for id in (0..entries.len()).rev() {
        let entry = *entries.get(id)?;
        if let Some(from) = entry.from {
            let feeding = entries.get_mut(from.0 as usize)?;
            feeding.end = feeding.end.max(entry.end);
        }
    }
    let mut in_document = ids.iter().copied();
    number(&mut document, &mut in_document)?;
    Some(Site { document, entries })
}

/// Gives each record its id, in the order in which the links were gathered.
fn number(document: &mut Document, ids: &mut impl Iterator<Item = ComponentId>) -> Option<()> {
    for source in &mut document.sources {
        source.location.id = ids.next()?;
        for outlet in &mut source.outlets {
            outlet.location.id = ids.next()?;
        }
    }
    macro_rules! number {
        ($($records:ident),+) => {
            $(for record in &mut document.$records {
                record.location.id = ids.next()?;
            })+
        };
    }
    // The order of `Kind::ALL`.
    number!(cords, inlets, feeders, transfers, panels, circuits, receptacles, loads);
    const _: () = assert!(Kind::ALL.len() == 10, "a new kind needs its ids here");
    Some(())
}
