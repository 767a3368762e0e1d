//! Published tables as data: CSV files that can be held beside the printed page, each cell with its grade.
//!
//! Nothing here knows what a cell means; the code packs do.

mod cell;
mod grade;
mod table;

use std::sync::LazyLock;

pub use cell::{Cell, CellPlace};
pub use grade::Grade;
pub use table::{Row, Table, TableError, Text};

macro_rules! tables {
    ($($variant:ident = $path:literal),+ $(,)?) => {
        /// A published table that the library carries.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[non_exhaustive]
        pub enum TableId {
            $(#[doc = concat!("`", $path, "`")] $variant),+
        }

        impl TableId {
            /// Every table, in the order of their files.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The file below `core/data`, without its ending: `nec/ampacity-raceway`.
            #[must_use]
            pub const fn path(self) -> &'static str {
                match self { $(Self::$variant => $path),+ }
            }

            /// The file as it is, to be held beside the printed page.
            #[must_use]
            pub const fn text(self) -> &'static str {
                match self { $(Self::$variant => include_str!(concat!("../../data/", $path, ".csv"))),+ }
            }
        }

        static LOADED: [LazyLock<Result<Table, TableError>>; TableId::ALL.len()] = [
            $(LazyLock::new(|| Table::parse(TableId::$variant, TableId::$variant.text()))),+
        ];
    };
}

tables! {
    VoltageBands = "ansi-c84-1/voltage-bands",
    EngineDistances = "guidance/engine-distances",
    Iec60309Configurations = "iec60309/configurations",
    MotorTolerances = "mg1/motor-tolerances",
    AcImpedance = "nec/ac-impedance",
    AdjustmentMoreThanThree = "nec/adjustment-more-than-three",
    AmbientCorrection30 = "nec/ambient-correction-30c",
    AmbientCorrection40 = "nec/ambient-correction-40c",
    AmpacityFreeAir = "nec/ampacity-free-air",
    AmpacityRaceway = "nec/ampacity-raceway",
    BoxVolume = "nec/box-volume",
    Boxes = "nec/boxes",
    BranchCircuitSummary = "nec/branch-circuit-summary",
    Cables = "nec/cables",
    CompactConductorDimensions = "nec/compact-conductor-dimensions",
    ConductorProperties = "nec/conductor-properties",
    ConnectionLimits = "nec/connection-limits",
    CordTemperature = "nec/cord-temperature",
    DryerDemand = "nec/dryer-demand",
    DwellingLoad = "nec/dwelling-load",
    DwellingService = "nec/dwelling-service",
    EquipmentGrounding = "nec/equipment-grounding",
    EquipmentGroundingIncrease = "nec/equipment-grounding-increase",
    FlexibleCordAdjustment = "nec/flexible-cord-adjustment",
    FlexibleCordAmpacity = "nec/flexible-cord-ampacity",
    FlexibleCordProtection = "nec/flexible-cord-protection",
    FlexibleCordTypes = "nec/flexible-cord-types",
    GeneratorShutdown = "nec/generator-shutdown",
    GroundingElectrode = "nec/grounding-electrode",
    InsulatedConductorDimensions = "nec/insulated-conductor-dimensions",
    Insulations = "nec/insulations",
    MotorCodeLetters = "nec/motor-code-letters",
    MotorFullLoadSinglePhase = "nec/motor-full-load-single-phase",
    MotorFullLoadThreePhase = "nec/motor-full-load-three-phase",
    MotorLockedRotorSinglePhase = "nec/motor-locked-rotor-single-phase",
    MotorLockedRotorThreePhase = "nec/motor-locked-rotor-three-phase",
    MotorOvercurrent = "nec/motor-overcurrent",
    MotorRuleFactors = "nec/motor-rule-factors",
    NextSizeUp = "nec/next-size-up",
    PermissibleLoads = "nec/permissible-loads",
    PortableCableAmpacity = "nec/portable-cable-ampacity",
    RacewayDimensions = "nec/raceway-dimensions",
    RacewayFill = "nec/raceway-fill",
    RangeDemand = "nec/range-demand",
    ReceptacleLoad = "nec/receptacle-load",
    ReceptacleRatings = "nec/receptacle-ratings",
    RooftopAddition = "nec/rooftop-addition",
    RuleFactors = "nec/rule-factors",
    Sections = "nec/sections",
    SmallConductor = "nec/small-conductor",
    StandardRatings = "nec/standard-ratings",
    TemperatureCoefficients = "nec/temperature-coefficients",
    CordSetLengths = "ul817/cord-set-lengths",
    Wd6Configurations = "wd6/configurations",
    Wd6Mating = "wd6/mating",
}

impl TableId {
    /// The last part of the file's name, as people ask for it: `ampacity-raceway`.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.path().rsplit('/').next().unwrap_or("")
    }

    /// The table.
    ///
    /// # Errors
    /// Where the file is not well formed, with its line. The files are part of the library and tests read every
    /// one, so a caller may take an error for an empty table.
    pub fn load(self) -> Result<&'static Table, &'static TableError> {
        match LOADED.get(self as usize) {
            Some(loaded) => loaded.as_ref(),
            None => Err(&TableError::NotCarried),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_is_well_formed() {
        for id in TableId::ALL {
            let table = id.load().unwrap_or_else(|error| panic!("{}: {error}", id.path()));
            assert!(
                !table.title.is_empty() && !table.document.is_empty() && !table.sources.is_empty(),
                "{}",
                id.path()
            );
            assert!(!table.rows.is_empty(), "{}", id.path());
        }
    }
}
