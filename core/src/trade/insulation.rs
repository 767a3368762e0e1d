//! Conductor insulations. Their temperature ratings stand in the published tables.

use super::word::words;

words! {
    /// The insulation of a conductor, by its letter type.
    pub enum Insulation: "insulation" {
        /// Thermoplastic, moisture resistant.
        Tw = "TW",
        /// Underground feeder conductor.
        Uf = "UF",
        /// Thermoplastic, heat and moisture resistant.
        Thw = "THW",
        /// With a nylon jacket, for wet places.
        Thwn = "THWN",
        /// Thermoplastic, heat resistant dry, moisture resistant.
        Thhw = "THHW",
        /// Thermoplastic with a nylon jacket, dry and damp places.
        Thhn = "THHN",
        /// As THW, 90 °C wet and dry.
        Thw2 = "THW-2",
        /// As THWN, 90 °C wet and dry; most building wire carries this mark beside THHN.
        Thwn2 = "THWN-2",
        /// Cross-linked polyethylene, moisture resistant.
        Xhhw = "XHHW",
        /// As XHHW, 90 °C wet and dry.
        Xhhw2 = "XHHW-2",
        /// Cross-linked polyethylene, dry and damp places.
        Xhh = "XHH",
        /// Thermoset, dry and damp places.
        Rhh = "RHH",
        /// Thermoset, moisture resistant.
        Rhw = "RHW",
        /// As RHW, 90 °C wet and dry.
        Rhw2 = "RHW-2",
        /// Underground service entrance.
        Use = "USE",
        /// As USE, 90 °C wet and dry.
        Use2 = "USE-2",
        /// Modified ethylene tetrafluoroethylene.
        Zw = "ZW",
        /// As ZW, 90 °C wet and dry.
        Zw2 = "ZW-2",
        /// Fluorinated ethylene propylene.
        Fep = "FEP",
        /// Fluorinated ethylene propylene with a braid.
        Fepb = "FEPB",
        /// Mineral insulated, metal sheathed.
        Mi = "MI",
        /// Silicone.
        Sa = "SA",
        /// Thermoset for switchboards.
        Sis = "SIS",
        /// Thermoplastic with a braid, for switchboards.
        Tbs = "TBS",
        /// Machine tool wire.
        Mtw = "MTW",
    }
}
