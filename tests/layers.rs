//! The rooms of the core: imports point down, and no file grows beyond what a reader keeps in mind.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::path::{Path, PathBuf};

/// The rooms from the lowest up. Rooms of one line do not import each other.
const ROOMS: &[&[&str]] = &[
    &["quantity", "interrupt"],
    &["published"],
    &["trade"],
    &["code"],
    &["calc"],
    &["site", "batch"],
    &["rules"],
    &["check"],
    &["size", "plan", "switching"],
    &["report"],
    &["cli"],
];

/// The room and those that it may import although they stand beside it or above, each with its reason.
const EXCEPTIONS: &[(&str, &str, &str)] = &[];

const MOST_LINES: usize = 500;

fn source() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

fn files() -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    let mut folders = vec![source()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).expect("a folder of core/src") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let text = std::fs::read_to_string(&path).expect("a source file in UTF-8");
                found.push((path.strip_prefix(source()).expect("inside core/src").to_owned(), text));
            }
        }
    }
    found.sort();
    assert!(found.len() > 100, "core/src was not found");
    found
}

/// The room of a file: its first folder, or its own name. `lib.rs` and `main.rs` stand above all rooms.
fn room_of(file: &Path) -> Option<String> {
    let first = file.iter().next()?.to_str()?;
    let room = first.strip_suffix(".rs").unwrap_or(first);
    (!matches!(room, "lib" | "main")).then(|| room.to_owned())
}

fn level(room: &str) -> Option<usize> {
    ROOMS.iter().position(|rooms| rooms.contains(&room))
}

/// A text without its comments: what they mention is no import.
fn without_comments(text: &str) -> String {
    text.lines()
        .map(|line| line.find("//").map_or(line, |at| line.get(..at).unwrap_or(line)))
        .collect::<Vec<_>>()
        .join("\n")
}

/// The rooms that a text names behind `crate::`, also in braces.
fn imported(text: &str) -> Vec<String> {
    let name = |text: &str| text.chars().take_while(|c| c.is_ascii_lowercase() || *c == '_').collect::<String>();
    let mut rooms = Vec::new();
    for rest in text.split("crate::").skip(1) {
        let Some(group) = rest.strip_prefix('{') else {
            rooms.push(name(rest));
            continue;
        };
        // The names at the outer level of the braces.
        let mut depth = 0;
        let mut start = true;
        for (at, letter) in group.char_indices() {
            match letter {
                '}' if depth == 0 => break,
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 0 => start = true,
                letter if start && !letter.is_whitespace() => {
                    rooms.push(name(group.get(at..).unwrap_or_default()));
                    start = false;
                }
                _ => {}
            }
        }
    }
    // `crate::Name` would be something of lib.rs itself; it has none.
    rooms.into_iter().filter(|room| !room.is_empty()).collect()
}

/// Why a room may not import another; `None` where it may.
fn points_up(from: &str, to: &str) -> Option<String> {
    if from == to || EXCEPTIONS.iter().any(|(one, other, _)| (*one, *other) == (from, to)) {
        return None;
    }
    match (level(from), level(to)) {
        (None, _) => Some(format!("`{from}` is no room of the list")),
        (_, None) => Some(format!("`{to}` is no room of the list")),
        (Some(_), Some(_)) if from == "batch" && to == "site" => Some("`batch` stands on `calc`".to_owned()),
        (Some(own), Some(other)) if other == own => Some(format!("`{from}` and `{to}` stand beside each other")),
        (Some(own), Some(other)) if other > own => Some(format!("`{to}` stands above `{from}`")),
        _ => None,
    }
}

#[test]
fn imports_point_down() {
    let mut wrong = Vec::new();
    for (file, text) in files() {
        let Some(room) = room_of(&file) else { continue };
        for to in imported(&without_comments(&text)) {
            wrong.extend(points_up(&room, &to).map(|why| format!("{}: {why}", file.display())));
        }
    }
    wrong.dedup();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn an_import_that_points_up_is_seen() {
    assert_eq!(imported("use crate::{calc, code::{Code, Nec}, site::Site};"), ["calc", "code", "site"]);
    assert_eq!(imported("fn f(x: &crate::report::Place) {}\nuse crate::rules::Rule;"), ["report", "rules"]);
    assert_eq!(imported(&without_comments("// use crate::cli;")), Vec::<String>::new());
    assert_eq!(points_up("rules", "site"), None);
    for (from, to) in [("site", "rules"), ("size", "plan"), ("plan", "switching"), ("batch", "site"), ("code", "new")] {
        assert!(points_up(from, to).is_some(), "{from} to {to}");
    }
}

#[test]
fn every_room_has_a_place_in_the_order() {
    for (file, _) in files() {
        if let Some(room) = room_of(&file) {
            assert!(level(&room).is_some(), "{}: `{room}` is no room of the list", file.display());
        }
    }
}

#[test]
fn no_file_is_long() {
    let long: Vec<String> = files()
        .iter()
        .map(|(file, text)| (file, text.lines().count()))
        .filter(|(_, lines)| *lines > MOST_LINES)
        .map(|(file, lines)| format!("{}: {lines} lines", file.display()))
        .collect();
    assert!(long.is_empty(), "more than {MOST_LINES} lines: {long:#?}");
}
