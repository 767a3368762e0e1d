//! Gives the shared library its name for the loader: `libloadworthy.so.MAJOR`, and before version 1 with the minor version
//! too, since there each minor version may change the interface.

fn main() {
    println!("cargo:rerun-if-changed=build.rs");
    let part = |name: &str| std::env::var(format!("CARGO_PKG_VERSION_{name}")).unwrap_or_default();
    let interface = match part("MAJOR").as_str() {
        "0" => format!("0.{}", part("MINOR")),
        major => major.to_owned(),
    };
    // `cargo cbuild` passes its own.
    let by_capi = std::env::var_os("CARGO_FEATURE_CAPI").is_some();
    if std::env::var("CARGO_CFG_TARGET_OS").as_deref() == Ok("linux") && !by_capi {
        println!("cargo:rustc-cdylib-link-arg=-Wl,-soname,libloadworthy.so.{interface}");
    }
}
