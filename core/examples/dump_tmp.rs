use loadworthy::{
    check::{WithWorking, check},
    code::{Edition, Nec},
    report,
    site::Site,
};
fn main() {
    for file in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&file).unwrap();
        match Site::from_toml("site.toml", &text) {
            Err(p) => println!("{p}"),
            Ok(site) => {
                let report = check(&site, Nec::standard(Edition::Nec2023), WithWorking::No);
                let mut out = String::new();
                report::text::write(&report, &mut out).unwrap();
                println!("{out}");
            }
        }
    }
}
