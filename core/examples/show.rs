//! tmp
fn main() {
    for f in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&f).unwrap();
        match loadworthy::site::Site::from_toml(&f, &text) {
            Err(p) => println!("{p}"),
            Ok(site) => {
                let r = loadworthy::check::check(
                    &site,
                    loadworthy::code::Nec::standard(loadworthy::code::Edition::Nec2023),
                    Default::default(),
                );
                let mut s = String::new();
                loadworthy::report::text::write(&r, &mut s).unwrap();
                println!("{s}");
            }
        }
    }
}
