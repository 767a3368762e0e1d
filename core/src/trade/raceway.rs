//! Raceways by their trade names, and what conductors are covered with in them.

use super::Insulation;
use super::word::words;

words! {
    /// A kind of raceway.
    pub enum RacewayKind: "raceway" {
        /// Electrical metallic tubing.
        Emt = "EMT" | "electrical metallic tubing",
        /// Electrical nonmetallic tubing.
        Ent = "ENT" | "electrical nonmetallic tubing",
        /// Flexible metal conduit.
        Fmc = "FMC" | "flexible metal conduit",
        /// Intermediate metal conduit.
        Imc = "IMC" | "intermediate metal conduit",
        /// Liquidtight flexible metal conduit.
        Lfmc = "LFMC" | "liquidtight flexible metal conduit",
        /// Rigid metal conduit.
        Rmc = "RMC" | "rigid metal conduit",
        /// Rigid PVC conduit of Schedule 40.
        Pvc40 = "PVC-40" | "PVC Schedule 40",
        /// Rigid PVC conduit of Schedule 80.
        Pvc80 = "PVC-80" | "PVC Schedule 80",
    }
}

words! {
    /// How the strands of a conductor lie.
    pub enum Stranding: "stranding" {
        /// Round strands, as in most building wire of copper.
        Usual = "usual" | "concentric",
        /// Compacted strands, as in most building wire of aluminum.
        Compact = "compact",
    }
}

words! {
    /// A trade size of raceway, in inches.
    #[allow(missing_docs, reason = "each name is its size")]
    pub enum TradeSize: "trade size" {
        ThreeEighths = "3/8 in" | "3/8",
        OneHalf = "1/2 in" | "1/2",
        ThreeQuarters = "3/4 in" | "3/4",
        One = "1 in" | "1",
        OneAndOneQuarter = "1-1/4 in" | "1-1/4",
        OneAndOneHalf = "1-1/2 in" | "1-1/2",
        Two = "2 in" | "2",
        TwoAndOneHalf = "2-1/2 in" | "2-1/2",
        Three = "3 in" | "3",
        ThreeAndOneHalf = "3-1/2 in" | "3-1/2",
        Four = "4 in" | "4",
        Five = "5 in" | "5",
        Six = "6 in" | "6",
    }
}

/// What a conductor is covered with, as far as the room that it takes depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Jacket {
    /// An insulation over a stranding.
    Insulated(Insulation, Stranding),
    /// Nothing: a bare equipment grounding conductor.
    Bare,
}
