//! Cells that are witnessed too weakly: nobody can tell, until somebody reads them in the book.

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, Covering, ampacity};
use loadworthy::code::{Acceptance, Edition, Nec};
use loadworthy::quantity::Amperes;
use loadworthy::trade::{Installation, Insulation, Material, TerminalMark};

use crate::of;

fn in_free_air(code: &Nec, size: &str, insulation: Insulation) -> Result<Amperes, String> {
    let conditions = Conditions {
        installation: Installation::FreeAir,
        terminals: TerminalMark::C75,
        ..Conditions::base(Material::Copper, of(size), Covering::Insulation(insulation))
    };
    ampacity(code, &conditions, &mut Silent).map(|found| found.corrected).map_err(|error| error.to_string())
}

fn refused(size: &str, column: &str) -> Result<Amperes, String> {
    Err(format!(
        "cannot tell the ampacity: table `ampacity-free-air`, row `{size}`, column `{column}` rests on memory only; \
         read it in the book and accept it"
    ))
}

#[test]
fn an_accepted_cell_lifts_that_cell_alone() {
    let accepted = Acceptance::from_toml(
        "[[cell]]\ntable = \"ampacity-free-air\"\nrow = \"12 AWG\"\ncolumn = \"copper_75c_a\"\nvalue = \"35\"\n\
         read_by = \"A. Reader, NEC 2023, Table 310.17\"\n",
    )
    .unwrap();
    let (usual, lifted) = (Nec::standard(Edition::Nec2023), Nec::new(Edition::Nec2023, &accepted));
    assert_eq!(in_free_air(usual, "12 AWG", Insulation::Thw), refused("12 AWG", "copper 75c a"));
    assert_eq!(in_free_air(&lifted, "12 AWG", Insulation::Thw), Ok(of("35 A")));
    // The neighbors in its column stay refused; that of its row was witnessed all along.
    for size in ["14 AWG", "10 AWG"] {
        assert_eq!(in_free_air(&lifted, size, Insulation::Thw), refused(size, "copper 75c a"));
    }
    assert_eq!(in_free_air(usual, "12 AWG", Insulation::Thhn), Ok(of("40 A")));
    assert_eq!(in_free_air(usual, "12 AWG", Insulation::Tw), Ok(of("30 A")));
}

#[test]
fn a_cell_read_otherwise_in_the_book_is_not_accepted() {
    let text = "[[cell]]\ntable = \"ampacity-free-air\"\nrow = \"12 AWG\"\ncolumn = \"copper_75c_a\"\nvalue = \"36\"\n\
                read_by = \"A. Reader\"\n";
    assert!(Acceptance::from_toml(text).unwrap_err().to_string().contains("reads `36` where"));
}

#[test]
fn a_size_that_no_row_lists_is_not_the_nearest_one() {
    let refused = in_free_air(Nec::standard(Edition::Nec2023), "13 AWG", Insulation::Thhn).unwrap_err();
    assert_eq!(refused, "cannot tell the ampacity: table `ampacity-free-air` has no row for it");
}
