//! The National Electrical Code, NFPA 70: editions 2017, 2020 and 2023, read from `core/data/nec`.

mod conductors;
mod cords;
mod manifest;
mod policies;
mod protection;
mod raceways;
mod read;

use std::sync::OnceLock;

use super::{
    Acceptance, CableRule, Citation, Code, ConductorRating, ContinuousLoad, CordFacts, DropAdvice, Gap,
    InsulationFacts, Lookup, NextSizeUp, RooftopRule, SmallConductor, Termination,
};
use crate::published::{Cell, CellPlace, Grade, TableId};
use crate::quantity::{Amperes, Celsius, CircularMils, CubicMillimeters, OhmsPerLength, Ratio, SquareMillimeters};
use crate::trade::{
    Cable, Conduit, CordType, DeviceKind, Installation, Insulation, Jacket, Material, Place, RacewayKind, TradeSize,
    WireSize,
};
use conductors::Conductors;
use cords::Cords;
use manifest::Manifest;
use policies::Policies;
use protection::Protection;
use raceways::Raceways;

/// An edition of the NEC that is carried.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Edition {
    /// NFPA 70-2017.
    Nec2017,
    /// NFPA 70-2020.
    Nec2020,
    /// NFPA 70-2023.
    Nec2023,
}

impl Edition {
    /// Every edition, oldest first.
    pub const ALL: [Self; 3] = [Self::Nec2017, Self::Nec2020, Self::Nec2023];

    /// The identifier in documents and on the command line.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Nec2017 => "nec-2017",
            Self::Nec2020 => "nec-2020",
            Self::Nec2023 => "nec-2023",
        }
    }

    /// The edition of an identifier.
    #[must_use]
    pub fn of_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|edition| edition.id() == id)
    }

    const fn year(self) -> &'static str {
        match self {
            Self::Nec2017 => "2017",
            Self::Nec2020 => "2020",
            Self::Nec2023 => "2023",
        }
    }

    const fn short(self) -> &'static str {
        match self {
            Self::Nec2017 => "NEC 2017",
            Self::Nec2020 => "NEC 2020",
            Self::Nec2023 => "NEC 2023",
        }
    }

    const fn title(self) -> &'static str {
        match self {
            Self::Nec2017 => "NFPA 70, National Electrical Code, 2017",
            Self::Nec2020 => "NFPA 70, National Electrical Code, 2020",
            Self::Nec2023 => "NFPA 70, National Electrical Code, 2023",
        }
    }
}

/// One edition of the NEC, its tables read and the cells admitted that an answer may rest on.
///
/// ```
/// # use loadworthy::code::{Code, ConductorRating, Edition, Nec};
/// # use loadworthy::trade::{Installation, Material};
/// let nec = Nec::standard(Edition::Nec2023);
/// let cell = nec.base_ampacity(Installation::Raceway, Material::Copper, ConductorRating::C75, "6 AWG".parse()?)?;
/// assert_eq!(cell.value.to_string(), "65 A");
/// assert_eq!(nec.number(cell.place.table), Some("Table 310.16"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug)]
pub struct Nec {
    edition: Edition,
    conductors: Conductors,
    cords: Cords,
    protection: Protection,
    policies: Policies,
    /// For sizing alone, so read when somebody sizes.
    raceways: OnceLock<Raceways>,
    acceptance: Acceptance,
}

impl Nec {
    /// An edition with the cells that `acceptance` admits.
    #[must_use]
    pub fn new(edition: Edition, acceptance: &Acceptance) -> Self {
        Self {
            edition,
            conductors: Conductors::read(edition, acceptance),
            cords: Cords::read(acceptance),
            protection: Protection::read(edition, acceptance),
            policies: Policies::read(acceptance),
            raceways: OnceLock::new(),
            acceptance: acceptance.clone(),
        }
    }

    /// An edition with the cells of the usual grade, read once and kept.
    #[must_use]
    pub fn standard(edition: Edition) -> &'static Self {
        match KEPT.get(edition as usize) {
            Some(kept) => kept.get_or_init(|| Self::new(edition, &Acceptance::default())),
            None => Self::standard(Edition::Nec2023),
        }
    }

    fn raceways(&self) -> &Raceways {
        self.raceways.get_or_init(|| Raceways::read(&self.acceptance))
    }

    /// Which edition it is.
    #[must_use]
    pub const fn edition(&self) -> Edition {
        self.edition
    }
}

/// The editions with the cells of the usual grade.
static KEPT: [OnceLock<Nec>; 3] = [const { OnceLock::new() }; 3];

impl Code for Nec {
    fn lasting(&self) -> Option<&'static dyn Code> {
        let kept = KEPT.get(self.edition as usize)?.get()?;
        std::ptr::eq(self, kept).then_some(kept)
    }

    fn admits(&self, place: CellPlace, grade: Grade) -> bool {
        self.acceptance.admits(place, grade)
    }

    fn id(&self) -> &'static str {
        self.edition.id()
    }

    fn title(&self) -> &'static str {
        self.edition.title()
    }

    fn number(&self, table: TableId) -> Option<&str> {
        Manifest::kept(self.edition).number(table)
    }

    fn section(&self, topic: &'static str) -> Citation {
        manifest::section(self.edition, topic)
    }

    fn base_ampacity(
        &self,
        installation: Installation,
        material: Material,
        rating: ConductorRating,
        size: WireSize,
    ) -> Lookup<Amperes> {
        self.conductors.ampacity(installation, material, rating, size)
    }

    fn terminal_ampacity(&self, material: Material, rating: ConductorRating, size: WireSize) -> Lookup<Amperes> {
        // 110.14(C) reads the raceway table, whatever table the run is read in.
        self.conductors.ampacity(Installation::Raceway, material, rating, size)
    }

    fn ambient_factor(&self, rating: ConductorRating, ambient: Celsius) -> Lookup<Ratio> {
        self.conductors.ambient_factor(rating, ambient)
    }

    fn bundling_factor(&self, conductors: u16) -> Result<Option<Cell<Ratio>>, Gap> {
        self.conductors.bundling_factor(conductors)
    }

    fn rooftop(&self) -> Lookup<RooftopRule> {
        self.conductors.rooftop
    }

    fn insulation(&self, insulation: Insulation, place: Place) -> Lookup<InsulationFacts> {
        self.conductors.insulation(insulation, place)
    }

    fn cable(&self, cable: Cable, thermal_insulation: bool, size: WireSize) -> Lookup<CableRule> {
        self.conductors.cable(cable, thermal_insulation, size)
    }

    fn termination(&self) -> &Termination {
        &self.policies.termination
    }

    fn continuous_load(&self) -> &ContinuousLoad {
        &self.policies.continuous_load
    }

    fn small_conductor(&self, material: Material, size: WireSize) -> Result<Option<Cell<SmallConductor>>, Gap> {
        self.protection.small_conductor(material, size)
    }

    fn next_size_up(&self) -> &NextSizeUp {
        &self.policies.next_size_up
    }

    fn standard_ratings(&self, kind: DeviceKind) -> &[Lookup<Amperes>] {
        self.protection.standard_ratings(kind)
    }

    fn cord_ampacity(&self, cord: CordType, size: WireSize, carrying: u8, rating: ConductorRating) -> Lookup<Amperes> {
        self.cords.ampacity(cord, size, carrying, rating)
    }

    fn cord_bundling_factor(&self, conductors: u16) -> Result<Option<Cell<Ratio>>, Gap> {
        self.cords.bundling_factor(conductors)
    }

    fn cord(&self, cord: CordType) -> Lookup<CordFacts> {
        self.cords.facts(cord)
    }

    fn unmarked_cord_rating(&self) -> Lookup<Celsius> {
        self.cords.unmarked_rating
    }

    fn field_assembled_cord(&self) -> Lookup<(Amperes, WireSize)> {
        self.cords.field_assembled
    }

    fn equipment_grounding(&self, material: Material, device: Amperes) -> Lookup<WireSize> {
        self.protection.equipment_grounding(material, device)
    }

    fn grounding_electrode(&self, of: Material, size: WireSize, electrode: Material) -> Lookup<WireSize> {
        self.protection.grounding_electrode(of, size, electrode)
    }

    fn dwelling_service(&self, material: Material, rating: Amperes) -> Lookup<WireSize> {
        self.protection.dwelling_service(material, rating)
    }

    fn receptacle_ratings(&self, circuit: Amperes) -> Lookup<(Amperes, Amperes)> {
        self.protection.receptacle_ratings(circuit)
    }

    fn receptacle_load(&self, circuit: Amperes, receptacle: Amperes) -> Lookup<Amperes> {
        self.protection.receptacle_load(circuit, receptacle)
    }

    fn area(&self, size: WireSize) -> Lookup<CircularMils> {
        self.conductors.area.get(size, TableId::ConductorProperties)
    }

    fn resistance(&self, material: Material, size: WireSize) -> Lookup<OhmsPerLength> {
        self.conductors.resistance(material, size)
    }

    fn temperature_coefficient(&self, material: Material) -> Lookup<(i64, Celsius)> {
        self.conductors.temperature_coefficient(material)
    }

    fn impedance(
        &self,
        material: Material,
        conduit: Conduit,
        size: WireSize,
    ) -> Lookup<(OhmsPerLength, OhmsPerLength)> {
        self.conductors.impedance(material, conduit, size)
    }

    fn drop_advice(&self) -> &DropAdvice {
        &self.policies.drop_advice
    }

    fn sizes(&self) -> &[WireSize] {
        &self.conductors.sizes
    }

    fn smallest_conductor(&self, material: Material) -> Lookup<WireSize> {
        self.raceways().smallest(material)
    }

    fn smallest_parallel(&self) -> Lookup<WireSize> {
        self.raceways().smallest_parallel
    }

    fn share(&self, key: &'static str) -> Lookup<Ratio> {
        self.policies.share(key)
    }

    fn raceway_fill(&self, conductors: u16, nipple: bool) -> Lookup<Ratio> {
        self.raceways().fill(conductors, nipple)
    }

    fn raceways(&self, kind: RacewayKind) -> &[(TradeSize, Lookup<SquareMillimeters>)] {
        self.raceways().of_kind(kind)
    }

    fn conductor_area(&self, jacket: Jacket, size: WireSize) -> Lookup<SquareMillimeters> {
        self.raceways().conductor(jacket, size)
    }

    fn box_volume(&self, size: WireSize) -> Lookup<CubicMillimeters> {
        self.raceways().box_volume(size)
    }

    fn boxes(&self) -> &[(&'static str, Lookup<CubicMillimeters>)] {
        &self.raceways().boxes
    }
}
