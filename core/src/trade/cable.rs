//! Cable assemblies, raceways, and the place where a conductor lies.

use super::word::words;

words! {
    /// A cable assembly whose own article limits its conductors.
    pub enum Cable: "cable" {
        /// Nonmetallic-sheathed, dry places.
        NmB = "NM-B" | "NM",
        /// Nonmetallic-sheathed, damp and corrosive places.
        NmcB = "NMC-B" | "NMC",
        /// Underground feeder and branch-circuit cable.
        UfB = "UF-B",
        /// Service-entrance cable used inside.
        Se = "SE" | "SER" | "SEU",
        /// Armored.
        Ac = "AC",
        /// Metal-clad.
        Mc = "MC",
    }
}

words! {
    /// How a conductor is installed, which decides the ampacity table.
    pub enum Installation: "installation" {
        /// In a raceway.
        Raceway = "raceway" | "conduit",
        /// In a cable assembly.
        Cable = "cable",
        /// Directly buried.
        Buried = "buried",
        /// Single conductors in free air.
        FreeAir = "free air",
    }
}

words! {
    /// The material of the raceway, which decides the impedance.
    pub enum Conduit: "conduit material" {
        /// Nonmetallic.
        Pvc = "PVC" | "nonmetallic",
        /// Aluminum.
        Aluminum = "aluminum" | "aluminium",
        /// Steel.
        Steel = "steel",
    }
}

words! {
    /// Wetness of a place: raceways outside count as wet inside.
    pub enum Place: "kind of place" {
        /// Not normally damp or wet.
        Dry = "dry",
        /// Protected from weather, some moisture.
        Damp = "damp",
        /// Exposed to weather, in the ground, or saturated.
        Wet = "wet",
    }
}
