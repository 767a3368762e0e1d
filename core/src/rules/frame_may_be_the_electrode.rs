//! `frame-may-be-the-electrode`: a source rests on its frame for earth only while it feeds cords alone.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::{Electrode, Source, SourceKind};

rule! {
    /// ## Protects against
    /// Fixed wiring without a reference to earth. A portable or vehicle source needs no ground rod while it feeds only what
    /// is plugged into its own receptacles, with their grounding contacts bonded to its frame.
    ///
    /// ## Cannot tell when
    /// It is not stated what connects the source to earth, or whether its frame is bonded.
    ///
    /// ## Remedy
    /// The electrode system of the building, through the feeder's grounding conductor.
    FRAME_MAY_BE_THE_ELECTRODE = "frame-may-be-the-electrode" {
        severity: Violation,
        summary: "a source that feeds fixed wiring rests on its frame for earth",
        topics: ["generator-frame-as-electrode", "vehicle-frame-as-electrode"],
        sources: ["29 CFR 1926.404(f)(3)(i) and (ii), as a contractor quotes them"],
        check: check,
    }
}

const EARTH: Fact = Fact {
    field: "electrode",
    asked: "what connects its system to earth",
    well: "feeds fixed wiring and is connected to an electrode",
    ill: "feeds fixed wiring and rests on its frame for earth, or on nothing",
    mend: "connect it to the electrode system of the building through the feeder's grounding conductor",
};

const FRAME: Fact = Fact {
    field: "frame_bonded",
    asked: "whether its frame, that of its vehicle, and the grounding contacts of its receptacles are bonded",
    well: "feeds cords alone, and its frame and the grounding contacts of its receptacles are bonded",
    ill: "feeds cords, and its frame and the grounding contacts of its receptacles are not bonded",
    mend: "bond the frame and the grounding contacts, or connect an electrode",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey) {
        let earth = source.electrode.map(|electrode| !matches!(electrode, Electrode::Frame | Electrode::Missing));
        EARTH.judge(found, source.id(), earth);
    }
    for source in premises::sources_on_their_own(survey) {
        on_its_own(found, source);
    }
}

fn on_its_own(found: &mut Findings, source: &Source) {
    if matches!(source.electrode, Some(Electrode::Building | Electrode::Own)) {
        let said = Said::Plain("is connected to an electrode");
        return found.judge(source, "electrode", true, said, Remedy::Do(EARTH.mend));
    }
    // The frame stands for an electrode on a set that moves: 250.34(A) and (B).
    match source.portable {
        Some(true) => FRAME.judge(found, source.id(), source.frame_bonded),
        _ if source.kind == SourceKind::Vehicle => FRAME.judge(found, source.id(), source.frame_bonded),
        Some(false) => {
            let said = Said::Plain("stays in its place and has no electrode of its own or of the building");
            found.judge(source, "electrode", false, said, Remedy::Do(EARTH.mend));
        }
        None => found.ask(source, "portable", "whether it is portable"),
    }
}
