//! References by name: what feeds what.

use std::collections::HashMap;

use super::component::Kind;
use super::document::Node;
use super::place::Place;
use super::problem::Problem;
use super::reader::{Reader, shortened};

/// The name by which a panel refers to the utility; no component may have it.
pub(super) const UTILITY: &str = "utility";

/// What a panel is normally supplied by; the index is that of its link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Supply {
    Utility,
    Panel(usize),
}

/// A component as far as references are concerned, with its references resolved.
pub(super) struct Link {
    pub(super) kind: Kind,
    /// Which of its kind; for an outlet, which of its source.
    pub(super) index: usize,
    /// The link that feeds it.
    pub(super) from: Option<usize>,
    pub(super) normal_supply: Option<Supply>,
}

/// A component as it is gathered from the tree. The records are not asked: a reference to a component that has a
/// problem of its own is no second problem.
struct Named {
    kind: Kind,
    index: usize,
    /// For an outlet, its source among all that is gathered.
    source: Option<usize>,
    name: Option<Text>,
    from: Option<Text>,
    normal_supply: Option<Text>,
}

/// A text and its place.
struct Text {
    text: String,
    place: Place,
}

/// All components of a document with their references resolved, in the order of the document within each kind.
pub(super) fn links(root: &Node<'_>, reader: &mut Reader<'_>) -> Vec<Link> {
    let all = gather(root, reader);
    let names = Names { by_name: by_name(&all, reader), all: &all };
    let mut links = Vec::with_capacity(all.len());
    for own in &all {
        let from = own.from.as_ref().and_then(|from| names.resolve(own, "from", own.kind.fed_from(), from, reader));
        let normal_supply = match &own.normal_supply {
            Some(supply) if supply.text == UTILITY => Some(Supply::Utility),
            Some(supply) => names.resolve(own, "normal_supply", &[Kind::Panel], supply, reader).map(Supply::Panel),
            None => None,
        };
        links.push(Link { kind: own.kind, index: own.index, from: own.source.or(from), normal_supply });
    }
    let from: Vec<Option<usize>> = links.iter().map(|link| link.from).collect();
    circles(&from, &all, "from", |named| named.from.as_ref(), reader);
    let panels: Vec<Option<usize>> = links
        .iter()
        .map(|link| match link.normal_supply {
            Some(Supply::Panel(panel)) => Some(panel),
            _ => None,
        })
        .collect();
    circles(&panels, &all, "normal_supply", |named| named.normal_supply.as_ref(), reader);
    links
}

fn gather(root: &Node<'_>, reader: &Reader<'_>) -> Vec<Named> {
    let mut all = Vec::new();
    // The outlets stand inside their sources.
    for &kind in Kind::ALL.iter().filter(|kind| **kind != Kind::Outlet) {
        for (index, node) in root.field(kind.key()).map_or(&[][..], Node::items).iter().enumerate() {
            let path = format!("{}[{index}]", kind.key());
            let source = all.len();
            all.push(named(kind, index, node, &path, reader));
            if kind == Kind::Source {
                let outlets = node.field(Kind::Outlet.key()).map_or(&[][..], Node::items);
                for (index, outlet) in outlets.iter().enumerate() {
                    let path = format!("{path}.{}[{index}]", Kind::Outlet.key());
                    let outlet = named(Kind::Outlet, index, outlet, &path, reader);
                    all.push(Named { source: Some(source), from: None, ..outlet });
                }
            }
        }
    }
    all
}

fn named(kind: Kind, index: usize, node: &Node<'_>, path: &str, reader: &Reader<'_>) -> Named {
    let field = |field: &'static str| {
        let value = node.field(field)?;
        let place = Place { record: path.into(), field: Some(field), ..reader.place(value.span.start) };
        Some(Text { text: value.text()?.to_owned(), place })
    };
    // Only a panel has a normal supply, and a source is fed from nothing: elsewhere such a field is unknown.
    let from = field("from").filter(|_| !kind.fed_from().is_empty());
    let normal_supply = field("normal_supply").filter(|_| kind == Kind::Panel);
    Named { kind, index, source: None, name: field("name"), from, normal_supply }
}

/// The index of each name; duplicates and the utility's name are noted.
fn by_name<'n>(all: &'n [Named], reader: &mut Reader<'_>) -> HashMap<&'n str, usize> {
    let mut in_order: Vec<(usize, &Named, &Text)> =
        all.iter().enumerate().filter_map(|(index, named)| Some((index, named, named.name.as_ref()?))).collect();
    in_order.sort_by_key(|(_, _, name)| name.place.spot);
    let mut first: HashMap<&str, (usize, &Named, &Text)> = HashMap::with_capacity(in_order.len());
    for (index, named, name) in in_order {
        if name.text == UTILITY {
            let advice = "it stands for the utility service; choose another";
            reader.note(Problem::NotAName { at: name.place.clone(), found: name.text.clone(), advice });
        } else if let Some((_, another, first)) = first.get(name.text.as_str()) {
            reader.note(Problem::DuplicateName {
                at: name.place.clone(),
                name: shortened(&name.text),
                another: another.kind.a_noun(),
                first: first.place.clone(),
            });
        } else {
            first.insert(&name.text, (index, named, name));
        }
    }
    first.into_iter().map(|(name, (index, _, _))| (name, index)).collect()
}

struct Names<'n> {
    by_name: HashMap<&'n str, usize>,
    all: &'n [Named],
}

impl Names<'_> {
    /// What a reference means, or a note why it means nothing.
    fn resolve(
        &self,
        own: &Named,
        field: &'static str,
        allowed: &[Kind],
        reference: &Text,
        reader: &mut Reader<'_>,
    ) -> Option<usize> {
        let at = reference.place.clone();
        let name = shortened(&reference.text);
        let wanted = Kind::wanted(allowed);
        let found = self.by_name.get(reference.text.as_str()).copied();
        match found.and_then(|index| self.all.get(index)).map(|found| found.kind) {
            Some(kind) if allowed.contains(&kind) => return found,
            Some(kind) => {
                let (is_a, a_record) = (kind.a_noun(), own.kind.a_noun());
                reader.note(Problem::WrongKindOfReference { at, name, is_a, a_record, field, wanted });
            }
            None => {
                let fitting = self.all.iter().filter(|named| allowed.contains(&named.kind));
                let names = fitting.filter_map(|named| named.name.as_ref()).map(|name| name.text.as_str());
                let advice = match reader.near(&reference.text, names) {
                    Some(near) => format!("did you mean `{}`?", shortened(near)),
                    None => "describe it, or correct the name".to_owned(),
                };
                reader.note(Problem::DanglingReference { at, name, wanted, advice });
            }
        }
        None
    }
}

/// Notes each circle once, at the reference in it that stands first in the document. `next` says for each component
/// which one it refers to.
fn circles<'n>(
    next: &[Option<usize>],
    all: &'n [Named],
    field: &'static str,
    reference: impl Fn(&'n Named) -> Option<&'n Text>,
    reader: &mut Reader<'_>,
) {
    // In which walk each component was met: a walk that meets itself has found a circle.
    let mut met: Vec<Option<usize>> = vec![None; next.len()];
    for start in 0..next.len() {
        let mut walked = Vec::new();
        let mut current = Some(start);
        while let Some(index) = current {
            match met.get_mut(index) {
                Some(mark @ None) => *mark = Some(start),
                Some(Some(mark)) if *mark == start => {
                    let circle = walked.iter().skip_while(|walked| **walked != index);
                    let circle: Vec<&Named> = circle.filter_map(|index: &usize| all.get(*index)).collect();
                    note_circle(&circle, field, &reference, reader);
                    break;
                }
                _ => break,
            }
            walked.push(index);
            current = next.get(index).copied().flatten();
        }
    }
}

fn note_circle<'n>(
    circle: &[&'n Named],
    field: &'static str,
    reference: impl Fn(&'n Named) -> Option<&'n Text>,
    reader: &mut Reader<'_>,
) {
    const SHOWN: usize = 8;
    let spot = |named: &'n Named| reference(named).map(|reference| reference.place.spot);
    let first = (0..).zip(circle).min_by_key(|(_, named)| spot(named)).map_or(0, |(position, _)| position);
    let name = |named: &Named| named.name.as_ref().map_or_else(String::new, |name| shortened(&name.text));
    let in_order = || circle.iter().cycle().skip(first).take(circle.len());
    let Some(at) = in_order().next().and_then(|named| reference(named)).map(|reference| reference.place.clone()) else {
        return;
    };
    let mut cycle: Vec<String> = in_order().take(SHOWN).map(|named| format!("`{}`", name(named))).collect();
    if circle.len() > SHOWN {
        cycle.push("…".to_owned());
    }
    let name = in_order().next().map_or_else(String::new, |named| name(named));
    cycle.push(format!("`{name}`"));
    reader.note(Problem::CircularReference { at, name, cycle: cycle.join(" from "), field });
}
