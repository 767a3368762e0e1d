//! `ffi/include/loadworthy.h` is what the sources say. `LOADWORTHY_WRITE_HEADER=1 cargo test -p loadworthy-ffi --test
//! ffi_header` writes it anew.

#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::fmt::Write;
use std::path::Path;

const HEADER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/include/loadworthy.h");

#[test]
fn the_header_is_current() {
    let current = header();
    if std::env::var_os("LOADWORTHY_WRITE_HEADER").is_some() {
        std::fs::write(HEADER, &current).unwrap();
    }
    let kept = std::fs::read_to_string(HEADER).unwrap_or_default();
    let differs = kept.lines().zip(current.lines()).position(|(kept, current)| kept != current);
    assert!(
        kept == current,
        "ffi/include/loadworthy.h differs from its sources at line {}; refresh it with\n\
         LOADWORTHY_WRITE_HEADER=1 cargo test -p loadworthy-ffi --test ffi_header",
        differs.unwrap_or_else(|| kept.lines().count().min(current.lines().count())) + 1
    );
}

#[test]
fn the_header_has_the_version_of_the_crate() {
    use loadworthy_ffi::version::{LW_VERSION_MAJOR, LW_VERSION_MINOR, LW_VERSION_PATCH};
    let version = format!("{LW_VERSION_MAJOR}.{LW_VERSION_MINOR}.{LW_VERSION_PATCH}");
    assert_eq!(version, env!("CARGO_PKG_VERSION"));
}

fn header() -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let config = cbindgen::Config::from_file(root.join("cbindgen.toml")).unwrap();
    let bindings = cbindgen::Builder::new().with_crate(root).with_config(config).generate().unwrap();
    let mut bytes = Vec::new();
    bindings.write(&mut bytes);
    with_init(&String::from_utf8(bytes).unwrap())
}

/// Adds an `_init` function for every struct that begins with its size.
fn with_init(header: &str) -> String {
    let mut functions = String::from(
        "/* Structs that state nothing: numbers are NAN, all else is zero. Use no struct without it. */\n",
    );
    for (name, fields) in structs(header) {
        writeln!(functions, "\nstatic inline {name} {name}_init(void) {{").unwrap();
        writeln!(functions, "    {name} it;\n    memset(&it, 0, sizeof it);\n    it.struct_size = sizeof it;").unwrap();
        for field in
            fields.iter().filter_map(|field| field.strip_prefix("double ")).filter(|field| !field.starts_with('*'))
        {
            writeln!(functions, "    it.{field} = NAN;").unwrap();
        }
        functions.push_str("    return it;\n}\n");
    }
    functions.push_str(
        "\n/* A text that ends with a NUL, such as a literal, as the library takes it; NULL is none. It owns nothing. */\n\
         static inline lw_str lw_text(const char *text) {\n    lw_str it;\n    it.data = text;\n    \
         it.len = text ? strlen(text) : 0;\n    return it;\n}\n",
    );
    let end = header.rfind("#ifdef __cplusplus").unwrap();
    let (before, after) = header.split_at(end);
    format!("{before}{functions}\n{after}")
}

/// The structs that begin with `size_t struct_size`, each with its fields.
fn structs(header: &str) -> Vec<(&str, Vec<&str>)> {
    let bodies = header.split("typedef struct {\n").skip(1);
    bodies
        .filter_map(|body| {
            let (fields, rest) = body.split_once("\n}")?;
            let name = rest.split_once(';')?.0.trim();
            let fields: Vec<&str> = fields
                .lines()
                .map(str::trim)
                .filter(|line| line.ends_with(';'))
                .map(|line| line.trim_end_matches(';'))
                .collect();
            (fields.first() == Some(&"size_t struct_size")).then_some((name, fields))
        })
        .collect()
}
