//! Properties: what physics and the code say of any circuit, on random ones.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "properties/conductors.rs"]
mod conductors;
#[path = "properties/devices.rs"]
mod devices;
#[path = "properties/drops.rs"]
mod drops;

use std::sync::LazyLock;

use loadworthy::code::{Acceptance, Code, Edition, Nec};
use loadworthy::published::Grade;
use loadworthy::quantity::Amperes;
use loadworthy::trade::{Material, WireSize};
use proptest::prelude::*;

/// The editions with every cell, so that few random circuits end in "cannot tell".
static CODES: LazyLock<Vec<Nec>> = LazyLock::new(|| {
    Edition::ALL.iter().map(|edition| Nec::new(*edition, &Acceptance::of_grade(Grade::Memory))).collect()
});

/// An edition that a failure prints by its name alone.
#[derive(Clone, Copy)]
struct Chosen(&'static Nec);

impl std::fmt::Debug for Chosen {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(self.0.id())
    }
}

impl std::ops::Deref for Chosen {
    type Target = Nec;

    fn deref(&self) -> &Nec {
        self.0
    }
}

fn code() -> impl Strategy<Value = Chosen> {
    (0..CODES.len()).prop_map(|index| Chosen(&CODES[index]))
}

fn size() -> impl Strategy<Value = WireSize> {
    let sizes = CODES[0].sizes();
    (0..sizes.len()).prop_map(|index| sizes[index])
}

fn material() -> impl Strategy<Value = Material> {
    prop_oneof![Just(Material::Copper), Just(Material::Aluminum), Just(Material::CopperCladAluminum)]
}

/// A current up to `most` amperes; often a whole one, since limits are.
fn current(most: u16) -> impl Strategy<Value = Amperes> {
    prop_oneof![
        (0..=most).prop_map(Amperes::from_whole),
        (0..=i64::from(most) * 1_000_000).prop_map(|count| Amperes::new(count).unwrap()),
    ]
}
