//! References by name: what feeds what.

use std::collections::HashMap;

use super::component::Kind;
use super::document::Node;
use super::place::{Place, Spot};
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

/// A component as far as references are concerned. It is gathered from the tree, not from the records, so that a
/// reference to a component that has a problem of its own is no second problem.
pub(super) struct Link {
    pub(super) kind: Kind,
    /// Which of its kind; for an outlet, which of its source.
    pub(super) index: usize,
    /// The link that feeds it.
    pub(super) from: Option<usize>,
    pub(super) normal_supply: Option<Supply>,
}

struct Reference {
    text: String,
    place: Place,
}

struct Named {
    name: Option<Reference>,
    from: Option<Reference>,
    normal_supply: Option<Reference>,
}

/// All components of a document with their references resolved, in the order of the document within each kind.
pub(super) fn links(root: &Node<'_>, reader: &mut Reader<'_>) -> Vec<Link> {
    let (mut links, named) = gather(root, reader);
    let by_name = names(&links, &named, reader);
    for (index, own) in named.iter().enumerate() {
        let Some(kind) = links.get(index).map(|link| link.kind) else { continue };
        if let Some(from) = &own.from {
            let found = resolve(kind, "from", kind.fed_from(), from, &by_name, &links, &named, reader);
            set(&mut links, index, |link| link.from = found);
        }
        if let Some(supply) = &own.normal_supply {
            let found = if supply.text == UTILITY {
                Some(Supply::Utility)
            } else {
                resolve(kind, "normal_supply", &[Kind::Panel], supply, &by_name, &links, &named, reader).map(Supply::Panel)
            };
            set(&mut links, index, |link| link.normal_supply = found);
        }
    }
    circles(&links, &named, "from", |link| link.from, |named| named.from.as_ref(), reader);
    let normal = |link: &Link| match link.normal_supply {
        Some(Supply::Panel(panel)) => Some(panel),
        _ => None,
    };
    circles(&links, &named, "normal_supply", normal, |named| named.normal_supply.as_ref(), reader);
    links
}

fn set(links: &mut [Link], index: usize, change: impl FnOnce(&mut Link)) {
    if let Some(link) = links.get_mut(index) {
        change(link);
    }
}

fn gather(root: &Node<'_>, reader: &Reader<'_>) -> (Vec<Link>, Vec<Named>) {
    let mut links = Vec::new();
    let mut all = Vec::new();
    // The outlets stand inside their sources.
    for &kind in Kind::ALL.iter().filter(|kind| **kind != Kind::Outlet) {
        for (index, node) in root.field(kind.key()).map_or(&[][..], Node::items).iter().enumerate() {
            let path = format!("{}[{index}]", kind.key());
            links.push(Link { kind, index, from: None, normal_supply: None });
            all.push(named(node, &path, reader));
            if kind == Kind::Source {
                let source = links.len().checked_sub(1);
                let outlets = node.field(Kind::Outlet.key()).map_or(&[][..], Node::items);
                for (index, outlet) in outlets.iter().enumerate() {
                    let path = format!("{path}.{}[{index}]", Kind::Outlet.key());
                    links.push(Link { kind: Kind::Outlet, index, from: source, normal_supply: None });
                    all.push(Named { from: None, ..named(outlet, &path, reader) });
                }
            }
        }
    }
    (links, all)
}

fn named(node: &Node<'_>, path: &str, reader: &Reader<'_>) -> Named {
    let reference = |field: &'static str| {
        let value = node.field(field)?;
        let place = Place { record: path.into(), field: Some(field), ..reader.place(value.span.start) };
        Some(Reference { text: value.text()?.to_owned(), place })
    };
    Named { name: reference("name"), from: reference("from"), normal_supply: reference("normal_supply") }
}

/// The index of each name; duplicates and the utility's name are noted.
fn names<'n>(links: &[Link], named: &'n [Named], reader: &mut Reader<'_>) -> HashMap<&'n str, usize> {
    let mut in_order: Vec<(usize, &Link, &Reference)> = links
        .iter()
        .zip(named)
        .enumerate()
        .filter_map(|(index, (link, named))| named.name.as_ref().map(|name| (index, link, name)))
        .collect();
    in_order.sort_by_key(|(_, _, name)| name.place.spot);
    let mut by_name: HashMap<&str, usize> = HashMap::with_capacity(in_order.len());
    let mut first_places: HashMap<&str, (Kind, &Place)> = HashMap::new();
    for (index, link, name) in in_order {
        if name.text == UTILITY {
            let advice = "it stands for the utility service; choose another";
            reader.note(Problem::NotAName { at: name.place.clone(), found: name.text.clone(), advice });
        } else if let Some((kind, place)) = first_places.get(name.text.as_str()) {
            reader.note(Problem::DuplicateName {
                at: name.place.clone(),
                name: shortened(&name.text),
                another: kind.a_noun(),
                first: (*place).clone(),
            });
        } else {
            by_name.insert(&name.text, index);
            first_places.insert(&name.text, (link.kind, &name.place));
        }
    }
    by_name
}

fn resolve(
    kind: Kind,
    field: &'static str,
    allowed: &[Kind],
    reference: &Reference,
    by_name: &HashMap<&str, usize>,
    links: &[Link],
    named: &[Named],
    reader: &mut Reader<'_>,
) -> Option<usize> {
    let at = reference.place.clone();
    let name = shortened(&reference.text);
    let kind_of = |index: usize| links.get(index).map(|link| link.kind);
    let wanted = Kind::wanted(allowed);
    match by_name.get(reference.text.as_str()).map(|index| (*index, kind_of(*index))) {
        Some((index, Some(found))) if allowed.contains(&found) => Some(index),
        Some((_, Some(found))) => {
            reader.note(Problem::WrongKindOfReference { at, name, is_a: found.a_noun(), a_record: kind.a_noun(), field, wanted });
            None
        }
        _ => {
            let fitting = named.iter().zip(links).filter(|(_, link)| allowed.contains(&link.kind));
            let names = fitting.filter_map(|(named, _)| named.name.as_ref()).map(|name| name.text.as_str());
            let advice = match reader.near(&reference.text, names) {
                Some(near) => format!("did you mean `{near}`?"),
                None => "describe it, or correct the name".to_owned(),
            };
            reader.note(Problem::DanglingReference { at, name, wanted, advice });
            None
        }
    }
}

/// Notes each circle once, at the reference in it that stands first in the document.
fn circles(
    links: &[Link],
    named: &[Named],
    field: &'static str,
    next: impl Fn(&Link) -> Option<usize>,
    reference: impl Fn(&Named) -> Option<&Reference>,
    reader: &mut Reader<'_>,
) {
    // In which walk each link was met: a walk that meets itself has found a circle.
    let mut met: Vec<Option<usize>> = vec![None; links.len()];
    for start in 0..links.len() {
        let mut walked = Vec::new();
        let mut current = Some(start);
        while let Some(index) = current {
            match met.get_mut(index) {
                Some(mark @ None) => *mark = Some(start),
                Some(Some(mark)) if *mark == start => {
                    let circle = walked.iter().skip_while(|walked| **walked != index).copied().collect::<Vec<_>>();
                    note_circle(&circle, named, field, &reference, reader);
                    break;
                }
                _ => break,
            }
            walked.push(index);
            current = links.get(index).and_then(&next);
        }
    }
}

fn note_circle<'n>(
    circle: &[usize],
    named: &'n [Named],
    field: &'static str,
    reference: impl Fn(&'n Named) -> Option<&'n Reference>,
    reader: &mut Reader<'_>,
) {
    const SHOWN: usize = 8;
    let spot = |index: &usize| named.get(*index).and_then(&reference).map_or(Spot::START, |reference| reference.place.spot);
    let first = circle.iter().enumerate().min_by_key(|(_, index)| spot(index)).map_or(0, |(position, _)| position);
    let in_order = circle.iter().cycle().skip(first).take(circle.len());
    let named_in_order: Vec<&Named> = in_order.filter_map(|index| named.get(*index)).collect();
    let text = |named: &&Named| named.name.as_ref().map_or_else(String::new, |name| shortened(&name.text));
    let Some((name, at)) = named_in_order.first().and_then(|named| Some((text(named), reference(named)?.place.clone())))
    else {
        return;
    };
    let mut cycle: Vec<String> = named_in_order.iter().take(SHOWN).map(|named| format!("`{}`", text(named))).collect();
    if named_in_order.len() > SHOWN {
        cycle.push("…".to_owned());
    }
    cycle.push(format!("`{name}`"));
    reader.note(Problem::CircularReference { at, name, cycle: cycle.join(" from "), field });
}
