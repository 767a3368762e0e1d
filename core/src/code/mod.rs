//! What is particular to an electrical code, behind one interface: [`Code`].
//!
//! The calculations ask a code for cells and policies and do not know which code answers. A pack for another
//! code implements [`Code`] from its own tables; nothing else changes.

mod acceptance;
mod citation;
pub mod guidance;
mod lookup;
pub mod nec;
mod policy;

use crate::published::TableId;
use crate::quantity::{
    Amperes, Celsius, CelsiusRise, CircularMils, CubicMillimeters, Meters, OhmsPerLength, Ratio, SquareMillimeters,
};
use crate::trade::{
    Cable, Conduit, CordType, DeviceKind, Installation, Insulation, Jacket, Material, Place, RacewayKind, TradeSize,
    WireSize,
};

pub use acceptance::{Acceptance, AcceptanceError};
pub use citation::Citation;
pub use lookup::{Bands, Gap, Lookup, SizeTable};
pub use nec::{Edition, Nec};
pub use policy::{
    CableRule, ConductorRating, ContinuousLoad, CordFacts, CordPlace, DropAdvice, InsulationFacts, NextSizeUp,
    RooftopRule, SmallConductor, Termination,
};

/// An electrical code in one edition.
///
/// Every value comes back as a [`Lookup`]: the cell with its place, or the [`Gap`] that keeps it from being known.
pub trait Code: Send + Sync {
    /// The identifier that a document names it by, such as `nec-2023`.
    fn id(&self) -> &'static str;

    /// The same code, where it stays as long as the process does: what was asked of it may be remembered for others.
    fn lasting(&self) -> Option<&'static dyn Code> {
        None
    }

    /// The title of the document and its edition.
    fn title(&self) -> &'static str;

    /// How a table is numbered in this edition, such as `Table 310.16`; `None` where the edition has no such table.
    fn number(&self, table: TableId) -> Option<&str>;

    /// The section of a topic of `sections.csv` in this edition.
    fn section(&self, topic: &'static str) -> Citation;

    /// Ampacity from the base table, before any factor.
    fn base_ampacity(
        &self,
        installation: Installation,
        material: Material,
        rating: ConductorRating,
        size: WireSize,
    ) -> Lookup<Amperes>;

    /// The ampacity that a terminal of that temperature admits, whatever the table of the run.
    fn terminal_ampacity(&self, material: Material, rating: ConductorRating, size: WireSize) -> Lookup<Amperes>;

    /// The correction factor of an ambient temperature.
    fn ambient_factor(&self, rating: ConductorRating, ambient: Celsius) -> Lookup<Ratio>;

    /// Whether an answer may rest on a cell of a table that is looked up beside the code, as the motor tables are.
    ///
    /// ```
    /// use loadworthy::{code::{Acceptance, Code, Edition, Nec}, published::{CellPlace, Grade, TableId}};
    /// let place = CellPlace { table: TableId::MotorRuleFactors, row: 4, column: 1 };
    /// assert!(!Nec::standard(Edition::Nec2023).admits(place, Grade::Memory));
    /// let with_the_book = Nec::new(Edition::Nec2023, &Acceptance::of_grade(Grade::Memory));
    /// assert!(with_the_book.admits(place, Grade::Memory));
    /// ```
    fn admits(&self, place: crate::published::CellPlace, grade: crate::published::Grade) -> bool {
        Acceptance::default().admits(place, grade)
    }

    /// The adjustment factor of a count of current-carrying conductors; `Ok(None)` where none is needed.
    fn bundling_factor(&self, conductors: u16) -> Result<Option<crate::published::Cell<Ratio>>, Gap>;

    /// What sunlight above a roof adds to the outdoor ambient.
    fn rooftop(&self) -> Lookup<RooftopRule>;

    /// What the code says of an insulation.
    fn insulation(&self, insulation: Insulation, place: Place) -> Lookup<InsulationFacts>;

    /// What the code says of a cable assembly.
    fn cable(&self, cable: Cable, thermal_insulation: bool, size: WireSize) -> Lookup<CableRule>;

    /// How terminals limit the ampacity.
    fn termination(&self) -> &Termination;

    /// How continuous loads count.
    fn continuous_load(&self) -> &ContinuousLoad;

    /// The limit on the device of a small conductor; `Ok(None)` for a size without one.
    fn small_conductor(
        &self,
        material: Material,
        size: WireSize,
    ) -> Result<Option<crate::published::Cell<SmallConductor>>, Gap>;

    /// When a device above the ampacity may protect a conductor.
    fn next_size_up(&self) -> &NextSizeUp;

    /// The standard ratings of a kind of device, ascending.
    fn standard_ratings(&self, kind: DeviceKind) -> &[Lookup<Amperes>];

    /// Ampacity of a flexible cord of a type and size with two or three conductors that carry current.
    fn cord_ampacity(&self, cord: CordType, size: WireSize, carrying: u8, rating: ConductorRating) -> Lookup<Amperes>;

    /// The factor of more than three current-carrying conductors in a cord; `Ok(None)` where none is needed.
    fn cord_bundling_factor(&self, conductors: u16) -> Result<Option<crate::published::Cell<Ratio>>, Gap>;

    /// What the code says of a type of flexible cord.
    fn cord(&self, cord: CordType) -> Lookup<CordFacts>;

    /// The temperature rating of a cord without a mark.
    fn unmarked_cord_rating(&self) -> Lookup<Celsius>;

    /// The smallest size of an extension cord set field-assembled of listed parts, and the circuit it may be used on.
    fn field_assembled_cord(&self) -> Lookup<(Amperes, WireSize)>;

    /// The least equipment grounding conductor for a device.
    fn equipment_grounding(&self, material: Material, device: Amperes) -> Lookup<WireSize>;

    /// The grounding electrode conductor for the largest ungrounded service conductor: (`of`, size) to (`electrode`).
    fn grounding_electrode(&self, of: Material, size: WireSize, electrode: Material) -> Lookup<WireSize>;

    /// The conductor of a dwelling's service or main power feeder of a rating.
    fn dwelling_service(&self, material: Material, rating: Amperes) -> Lookup<WireSize>;

    /// The receptacle ratings that a circuit of a rating may have, least and greatest.
    fn receptacle_ratings(&self, circuit: Amperes) -> Lookup<(Amperes, Amperes)>;

    /// The greatest cord-and-plug load on one receptacle of a circuit with several.
    fn receptacle_load(&self, circuit: Amperes, receptacle: Amperes) -> Lookup<Amperes>;

    /// The area of a size in circular mils.
    fn area(&self, size: WireSize) -> Lookup<CircularMils>;

    /// The direct-current resistance at 75 °C, uncoated, stranded where both are made.
    fn resistance(&self, material: Material, size: WireSize) -> Lookup<OhmsPerLength>;

    /// The temperature coefficient of resistance per degree Celsius, in hundred-thousandths, and its reference.
    fn temperature_coefficient(&self, material: Material) -> Lookup<(i64, Celsius)>;

    /// Alternating-current resistance and reactance to neutral in a conduit.
    fn impedance(&self, material: Material, conduit: Conduit, size: WireSize)
    -> Lookup<(OhmsPerLength, OhmsPerLength)>;

    /// What the code says of voltage drop.
    fn drop_advice(&self) -> &DropAdvice;

    /// The sizes that the code's ampacity table lists, ascending.
    fn sizes(&self) -> &[WireSize];

    /// The smallest conductor of a material for general wiring.
    fn smallest_conductor(&self, material: Material) -> Lookup<WireSize> {
        let _ = material;
        Err(Gap::NotInEdition(TableId::RuleFactors))
    }

    /// The smallest conductor that may be connected in parallel.
    fn smallest_parallel(&self) -> Lookup<WireSize> {
        Err(Gap::NotInEdition(TableId::RuleFactors))
    }

    /// A parameter of the rules that is a share, by its key in `rule-factors.csv`.
    fn share(&self, key: &'static str) -> Lookup<Ratio> {
        let _ = key;
        Err(Gap::NotInEdition(TableId::RuleFactors))
    }

    /// The share of a raceway's area that so many conductors may fill, and the share of a nipple.
    fn raceway_fill(&self, conductors: u16, nipple: bool) -> Lookup<Ratio> {
        let _ = (conductors, nipple);
        Err(Gap::NotInEdition(TableId::RacewayFill))
    }

    /// The trade sizes of a kind of raceway, ascending, each with its area.
    fn raceways(&self, kind: RacewayKind) -> &[(TradeSize, Lookup<SquareMillimeters>)] {
        let _ = kind;
        &[]
    }

    /// The area that a conductor takes in a raceway: of an insulation and a stranding, or bare.
    fn conductor_area(&self, jacket: Jacket, size: WireSize) -> Lookup<SquareMillimeters> {
        let _ = (jacket, size);
        Err(Gap::NotInEdition(TableId::InsulatedConductorDimensions))
    }

    /// The volume that a conductor takes in a box.
    fn box_volume(&self, size: WireSize) -> Lookup<CubicMillimeters> {
        let _ = size;
        Err(Gap::NotInEdition(TableId::BoxVolume))
    }

    /// The standard metal boxes by name, each with its volume.
    fn boxes(&self) -> &[(&'static str, Lookup<CubicMillimeters>)] {
        &[]
    }

    /// How close above a roof a raceway or cable must be for the addition to apply, and the addition.
    fn rooftop_addition(&self, clearance: Meters, insulation: Option<Insulation>) -> Result<Option<CelsiusRise>, Gap> {
        let rule = self.rooftop()?.value;
        let exempt = insulation.is_some() && insulation == rule.exempt;
        Ok((clearance < rule.clearance && !exempt).then_some(rule.addition))
    }
}
