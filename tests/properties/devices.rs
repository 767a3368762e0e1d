//! Overcurrent devices, continuous loads, grounding conductors.

use loadworthy::calc::Silent;
use loadworthy::calc::continuous::{Load, requirement};
use loadworthy::calc::grounding::{Enlarged, electrode, equipment};
use loadworthy::calc::overcurrent::{Supplies, largest_device, next_device};
use loadworthy::code::{Code, Nec};
use loadworthy::quantity::{Amperes, Scaled};
use loadworthy::trade::{ContinuousRating, DeviceKind, Material, WireSize};
use proptest::prelude::*;

use crate::{code, current, material, size};

fn kind() -> impl Strategy<Value = DeviceKind> {
    prop_oneof![Just(DeviceKind::Breaker), Just(DeviceKind::Fuse)]
}

fn ratings(code: &Nec, kind: DeviceKind) -> Vec<Amperes> {
    code.standard_ratings(kind).iter().map(|rating| rating.as_ref().unwrap().value).collect()
}

/// 240.4 as it reads: a device protects at or below the ampacity; one above it only as the very next standard rating,
/// up to 800 A, on a circuit of anything but several receptacles; and never above the limit of a small conductor.
fn protects(code: &Nec, device: Amperes, ampacity: Amperes, of: (Material, WireSize), supplies: Supplies) -> bool {
    let small = code.small_conductor(of.0, of.1).unwrap().is_none_or(|limit| device <= limit.value.device);
    let between = ratings(code, DeviceKind::Fuse).into_iter().any(|rating| ampacity <= rating && rating < device);
    let next = supplies == Supplies::Other && device <= Amperes::from_whole(800) && !between;
    small && (device <= ampacity || next)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn the_largest_device_protects_and_the_next_would_not(
        code in code(), kind in kind(), ampacity in current(1300), size in size(), several: bool,
    ) {
        let of = (Material::Copper, size);
        let supplies = if several { Supplies::SeveralReceptacles } else { Supplies::Other };
        let found = largest_device(code.0, kind, ampacity, of, supplies, &mut Silent).ok().map(|found| found.rating);
        if let Some(rating) = found {
            prop_assert!(protects(code.0, rating, ampacity, of, supplies), "{rating}");
        }
        for larger in ratings(code.0, kind).into_iter().filter(|rating| found.is_none_or(|found| *rating > found)) {
            prop_assert!(!protects(code.0, larger, ampacity, of, supplies), "{larger} would do as well as {found:?}");
        }
    }

    #[test]
    fn more_ampacity_never_lowers_the_device(
        code in code(), ampacity in current(1300), more in current(100), size in size(), kind in kind(),
    ) {
        let of = (Material::Copper, size);
        let find = |ampacity| largest_device(code.0, kind, ampacity, of, Supplies::SeveralReceptacles, &mut Silent).ok();
        if let (Some(less), Some(more)) = (find(ampacity), find(ampacity.checked_add(more).unwrap())) {
            prop_assert!(less.rating <= more.rating);
        }
    }

    #[test]
    fn the_next_device_is_enough_and_the_one_below_is_not(code in code(), kind in kind(), required in current(1300)) {
        let found = next_device(code.0, kind, Scaled::whole(required), &mut Silent).unwrap();
        prop_assert!(found >= required);
        prop_assert!(ratings(code.0, kind).into_iter().all(|rating| rating >= found || rating < required));
    }

    #[test]
    fn more_load_never_lowers_the_device(
        code in code(), continuous in current(400), other in current(400), more in current(100), listed: bool,
    ) {
        let rating = if listed { ContinuousRating::Listed100 } else { ContinuousRating::Standard };
        let device = |load| {
            let needed = requirement(code.0, load, rating, &mut Silent).unwrap();
            next_device(code.0, DeviceKind::Breaker, needed.device, &mut Silent).unwrap()
        };
        let load = Load { continuous, non_continuous: other };
        let more_continuous = Load { continuous: continuous.checked_add(more).unwrap(), ..load };
        let more_other = Load { non_continuous: other.checked_add(more).unwrap(), ..load };
        prop_assert!(device(load) <= device(more_other) && device(more_other) <= device(more_continuous));
    }

    #[test]
    fn a_larger_device_never_takes_a_smaller_grounding_conductor(
        code in code(), metal in material(), device in current(6000), more in current(1000),
    ) {
        let find = |device| equipment(code.0, metal, device, None, &mut Silent).ok();
        match (find(device), find(device.checked_add(more).unwrap())) {
            (Some(less), Some(more)) => prop_assert!(less <= more),
            (less, more) => prop_assert!(less.is_some() || more.is_none()),
        }
    }

    #[test]
    fn enlarging_never_shrinks_the_grounding_conductor(
        code in code(), metal in material(), device in current(1200), needed in size(), sizes in (size(), size()),
    ) {
        let (installed, larger) = if sizes.0 < sizes.1 { sizes } else { (sizes.1, sizes.0) };
        let find = |change| equipment(code.0, metal, device, change, &mut Silent).ok();
        let [plain, enlarged, more] = [None, Some(Enlarged { needed, installed }), Some(Enlarged { needed, installed: larger })]
            .map(find);
        if let (Some(plain), Some(enlarged)) = (plain, enlarged) {
            // Never required larger than the circuit conductors, and so smaller only where those are smaller than the table's.
            prop_assert!(enlarged >= plain || enlarged == installed);
        }
        if let (Some(enlarged), Some(more)) = (enlarged, more) {
            prop_assert!(more >= enlarged || more == larger, "{more} for {larger}, {enlarged} for {installed}");
        }
    }

    #[test]
    fn a_larger_service_never_takes_a_smaller_electrode_conductor(
        code in code(), service in material(), metal in material(), sizes in (size(), size()),
    ) {
        let (small, large) = if sizes.0 < sizes.1 { sizes } else { (sizes.1, sizes.0) };
        let find = |size| electrode(code.0, (service, size), metal, &mut Silent).unwrap();
        prop_assert!(find(small) <= find(large));
    }
}
