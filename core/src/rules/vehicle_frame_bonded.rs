//! `vehicle-frame-bonded`: the frames of a source and of its vehicle are bonded together.

use super::fact::Fact;
use super::{Findings, Survey, rule};
use crate::site::{Source, SourceKind};

rule! {
    /// ## Protects against
    /// Frames at different voltages under the two hands of one person.
    ///
    /// ## Cannot tell when
    /// It is not stated whether a portable source is mounted on a vehicle or a trailer, or whether the frames are bonded.
    ///
    /// ## Remedy
    /// A bond between the source's frame, the vehicle's frame and the grounding contacts of the receptacles.
    VEHICLE_FRAME_BONDED = "vehicle-frame-bonded" {
        severity: Violation,
        summary: "the frames of a source and of its vehicle are not bonded",
        topics: ["vehicle-frame-as-electrode"],
        check: check,
    }
}

const FRAMES: Fact = Fact {
    field: "frame_bonded",
    asked: "whether its frame, that of its vehicle, and the grounding contacts of its receptacles are bonded",
    well: "has its frame, that of its vehicle, and the grounding contacts of its receptacles bonded",
    ill: "has its frame, that of its vehicle, and the grounding contacts of its receptacles not bonded",
    mend: "bond the frames and the grounding contacts",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        match on_vehicle(source) {
            Some(true) => FRAMES.judge(found, source.id(), source.frame_bonded),
            Some(false) => {}
            None => found.ask(source, "vehicle_mounted", "whether it is mounted on a vehicle or a trailer"),
        }
    }
}

fn on_vehicle(source: &Source) -> Option<bool> {
    match (source.kind, source.vehicle_mounted, source.portable) {
        (SourceKind::Vehicle, _, _) => Some(true),
        (_, Some(mounted), _) => Some(mounted),
        // Equipment that stays in its place is on no vehicle.
        (_, None, Some(false)) => Some(false),
        (_, None, _) => None,
    }
}
