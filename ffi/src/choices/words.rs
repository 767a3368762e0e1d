//! The words of the trade by number.

use loadworthy::trade::{
    Cable, Conduit, ContinuousRating, CordType, DeviceKind, Installation, Insulation, Material, Place, RacewayKind,
    Stranding, TerminalMark, TradeSize, Usage,
};

use super::Choices;

/// What a conductor is made of: one of the `LW_MATERIAL_` constants, 0 where it is not stated.
pub type lw_material = i32;

/// Copper.
pub const LW_MATERIAL_COPPER: lw_material = 1;
/// Aluminum.
pub const LW_MATERIAL_ALUMINUM: lw_material = 2;
/// Copper-clad aluminum: the aluminum columns of the tables hold for it.
pub const LW_MATERIAL_COPPER_CLAD_ALUMINUM: lw_material = 3;

/// The words behind [`lw_material`].
pub const MATERIALS: Choices<Material> =
    Choices { kind: "material", words: &[Material::Copper, Material::Aluminum, Material::CopperCladAluminum] };

/// The insulation of a conductor: one of the `LW_INSULATION_` constants, 0 where it is not stated.
pub type lw_insulation = i32;

/// Thermoplastic, moisture resistant.
pub const LW_INSULATION_TW: lw_insulation = 1;
/// Underground feeder conductor.
pub const LW_INSULATION_UF: lw_insulation = 2;
/// Thermoplastic, heat and moisture resistant.
pub const LW_INSULATION_THW: lw_insulation = 3;
/// With a nylon jacket, for wet places.
pub const LW_INSULATION_THWN: lw_insulation = 4;
/// Thermoplastic, heat resistant dry, moisture resistant.
pub const LW_INSULATION_THHW: lw_insulation = 5;
/// Thermoplastic with a nylon jacket, dry and damp places.
pub const LW_INSULATION_THHN: lw_insulation = 6;
/// As THW, 90 °C wet and dry.
pub const LW_INSULATION_THW_2: lw_insulation = 7;
/// As THWN, 90 °C wet and dry; most building wire carries this mark beside THHN.
pub const LW_INSULATION_THWN_2: lw_insulation = 8;
/// Cross-linked polyethylene, moisture resistant.
pub const LW_INSULATION_XHHW: lw_insulation = 9;
/// As XHHW, 90 °C wet and dry.
pub const LW_INSULATION_XHHW_2: lw_insulation = 10;
/// Cross-linked polyethylene, dry and damp places.
pub const LW_INSULATION_XHH: lw_insulation = 11;
/// Thermoset, dry and damp places.
pub const LW_INSULATION_RHH: lw_insulation = 12;
/// Thermoset, moisture resistant.
pub const LW_INSULATION_RHW: lw_insulation = 13;
/// As RHW, 90 °C wet and dry.
pub const LW_INSULATION_RHW_2: lw_insulation = 14;
/// Underground service entrance.
pub const LW_INSULATION_USE: lw_insulation = 15;
/// As USE, 90 °C wet and dry.
pub const LW_INSULATION_USE_2: lw_insulation = 16;
/// Modified ethylene tetrafluoroethylene.
pub const LW_INSULATION_ZW: lw_insulation = 17;
/// As ZW, 90 °C wet and dry.
pub const LW_INSULATION_ZW_2: lw_insulation = 18;
/// Fluorinated ethylene propylene.
pub const LW_INSULATION_FEP: lw_insulation = 19;
/// Fluorinated ethylene propylene with a braid.
pub const LW_INSULATION_FEPB: lw_insulation = 20;
/// Mineral insulated, metal sheathed.
pub const LW_INSULATION_MI: lw_insulation = 21;
/// Silicone.
pub const LW_INSULATION_SA: lw_insulation = 22;
/// Thermoset for switchboards.
pub const LW_INSULATION_SIS: lw_insulation = 23;
/// Thermoplastic with a braid, for switchboards.
pub const LW_INSULATION_TBS: lw_insulation = 24;
/// Machine tool wire.
pub const LW_INSULATION_MTW: lw_insulation = 25;

/// The words behind [`lw_insulation`].
pub const INSULATIONS: Choices<Insulation> = Choices {
    kind: "insulation",
    words: &[
        Insulation::Tw,
        Insulation::Uf,
        Insulation::Thw,
        Insulation::Thwn,
        Insulation::Thhw,
        Insulation::Thhn,
        Insulation::Thw2,
        Insulation::Thwn2,
        Insulation::Xhhw,
        Insulation::Xhhw2,
        Insulation::Xhh,
        Insulation::Rhh,
        Insulation::Rhw,
        Insulation::Rhw2,
        Insulation::Use,
        Insulation::Use2,
        Insulation::Zw,
        Insulation::Zw2,
        Insulation::Fep,
        Insulation::Fepb,
        Insulation::Mi,
        Insulation::Sa,
        Insulation::Sis,
        Insulation::Tbs,
        Insulation::Mtw,
    ],
};

/// The cable that a conductor lies in: one of the `LW_CABLE_` constants, 0 where it is not stated.
pub type lw_cable = i32;

/// Nonmetallic-sheathed, dry places.
pub const LW_CABLE_NM_B: lw_cable = 1;
/// Nonmetallic-sheathed, damp and corrosive places.
pub const LW_CABLE_NMC_B: lw_cable = 2;
/// Underground feeder and branch-circuit cable.
pub const LW_CABLE_UF_B: lw_cable = 3;
/// Service-entrance cable used inside.
pub const LW_CABLE_SE: lw_cable = 4;
/// Armored.
pub const LW_CABLE_AC: lw_cable = 5;
/// Metal-clad.
pub const LW_CABLE_MC: lw_cable = 6;

/// The words behind [`lw_cable`].
pub const CABLES: Choices<Cable> =
    Choices { kind: "cable", words: &[Cable::NmB, Cable::NmcB, Cable::UfB, Cable::Se, Cable::Ac, Cable::Mc] };

/// How a conductor is installed: one of the `LW_INSTALLATION_` constants, 0 where it is not stated.
pub type lw_installation = i32;

/// In a raceway.
pub const LW_INSTALLATION_RACEWAY: lw_installation = 1;
/// In a cable assembly.
pub const LW_INSTALLATION_CABLE: lw_installation = 2;
/// Directly buried.
pub const LW_INSTALLATION_BURIED: lw_installation = 3;
/// Single conductors in free air.
pub const LW_INSTALLATION_FREE_AIR: lw_installation = 4;

/// The words behind [`lw_installation`].
pub const INSTALLATIONS: Choices<Installation> = Choices {
    kind: "installation",
    words: &[Installation::Raceway, Installation::Cable, Installation::Buried, Installation::FreeAir],
};

/// The kind of place: one of the `LW_PLACE_` constants, 0 where it is not stated.
pub type lw_place = i32;

/// Not normally damp or wet.
pub const LW_PLACE_DRY: lw_place = 1;
/// Protected from weather, some moisture.
pub const LW_PLACE_DAMP: lw_place = 2;
/// Exposed to weather, in the ground, or saturated.
pub const LW_PLACE_WET: lw_place = 3;

/// The words behind [`lw_place`].
pub const PLACES: Choices<Place> = Choices { kind: "place", words: &[Place::Dry, Place::Damp, Place::Wet] };

/// What a conduit is made of: one of the `LW_CONDUIT_` constants, 0 where it is not stated.
pub type lw_conduit = i32;

/// Nonmetallic.
pub const LW_CONDUIT_PVC: lw_conduit = 1;
/// Aluminum.
pub const LW_CONDUIT_ALUMINUM: lw_conduit = 2;
/// Steel.
pub const LW_CONDUIT_STEEL: lw_conduit = 3;

/// The words behind [`lw_conduit`].
pub const CONDUITS: Choices<Conduit> =
    Choices { kind: "conduit", words: &[Conduit::Pvc, Conduit::Aluminum, Conduit::Steel] };

/// The temperature mark of terminals: one of the `LW_TERMINALS_` constants, 0 where it is not stated.
pub type lw_terminals = i32;

/// 60 °C.
pub const LW_TERMINALS_60C: lw_terminals = 1;
/// 75 °C, or 60/75 °C.
pub const LW_TERMINALS_75C: lw_terminals = 2;
/// 90 °C.
pub const LW_TERMINALS_90C: lw_terminals = 3;
/// Not marked: the code's default for the circuit's rating holds.
pub const LW_TERMINALS_UNMARKED: lw_terminals = 4;

/// The words behind [`lw_terminals`].
pub const TERMINAL_MARKS: Choices<TerminalMark> = Choices {
    kind: "terminal mark",
    words: &[TerminalMark::C60, TerminalMark::C75, TerminalMark::C90, TerminalMark::Unmarked],
};

/// The kind of overcurrent device: one of the `LW_DEVICE_KIND_` constants, 0 where it is not stated.
pub type lw_device_kind = i32;

/// An inverse-time circuit breaker.
pub const LW_DEVICE_KIND_BREAKER: lw_device_kind = 1;
/// A fuse.
pub const LW_DEVICE_KIND_FUSE: lw_device_kind = 2;

/// The words behind [`lw_device_kind`].
pub const DEVICE_KINDS: Choices<DeviceKind> =
    Choices { kind: "device kind", words: &[DeviceKind::Breaker, DeviceKind::Fuse] };

/// How much of its rating a device carries for hours: one of the `LW_CONTINUOUS_RATING_` constants, 0 where it is not stated.
pub type lw_continuous_rating = i32;

/// The usual device: 80 % of its rating.
pub const LW_CONTINUOUS_RATING_80_PERCENT: lw_continuous_rating = 1;
/// The device and its assembly are listed for 100 %.
pub const LW_CONTINUOUS_RATING_100_PERCENT: lw_continuous_rating = 2;

/// The words behind [`lw_continuous_rating`].
pub const CONTINUOUS_RATINGS: Choices<ContinuousRating> =
    Choices { kind: "continuous rating", words: &[ContinuousRating::Standard, ContinuousRating::Listed100] };

/// The letter type of a flexible cord: one of the `LW_CORD_` constants, 0 where it is not stated.
pub type lw_cord = i32;

/// 300 V thermoset.
pub const LW_CORD_SJ: lw_cord = 1;
/// 300 V, oil-resistant jacket.
pub const LW_CORD_SJO: lw_cord = 2;
/// 300 V, oil-resistant jacket, outdoors.
pub const LW_CORD_SJOW: lw_cord = 3;
/// 300 V, oil-resistant throughout.
pub const LW_CORD_SJOO: lw_cord = 4;
/// 300 V, oil-resistant throughout, outdoors.
pub const LW_CORD_SJOOW: lw_cord = 5;
/// 300 V elastomer.
pub const LW_CORD_SJE: lw_cord = 6;
/// 300 V elastomer, outdoors.
pub const LW_CORD_SJEW: lw_cord = 7;
/// 300 V elastomer, oil-resistant jacket.
pub const LW_CORD_SJEO: lw_cord = 8;
/// 300 V elastomer, oil-resistant jacket, outdoors.
pub const LW_CORD_SJEOW: lw_cord = 9;
/// 300 V elastomer, oil-resistant throughout.
pub const LW_CORD_SJEOO: lw_cord = 10;
/// 300 V elastomer, oil-resistant throughout, outdoors.
pub const LW_CORD_SJEOOW: lw_cord = 11;
/// 300 V thermoplastic.
pub const LW_CORD_SJT: lw_cord = 12;
/// 300 V thermoplastic, outdoors.
pub const LW_CORD_SJTW: lw_cord = 13;
/// 300 V thermoplastic, oil-resistant jacket.
pub const LW_CORD_SJTO: lw_cord = 14;
/// 300 V thermoplastic, oil-resistant jacket, outdoors.
pub const LW_CORD_SJTOW: lw_cord = 15;
/// 300 V thermoplastic, oil-resistant throughout.
pub const LW_CORD_SJTOO: lw_cord = 16;
/// 300 V thermoplastic, oil-resistant throughout, outdoors.
pub const LW_CORD_SJTOOW: lw_cord = 17;
/// 600 V thermoset.
pub const LW_CORD_S: lw_cord = 18;
/// 600 V, oil-resistant jacket.
pub const LW_CORD_SO: lw_cord = 19;
/// 600 V, oil-resistant jacket, outdoors.
pub const LW_CORD_SOW: lw_cord = 20;
/// 600 V, oil-resistant throughout.
pub const LW_CORD_SOO: lw_cord = 21;
/// 600 V, oil-resistant throughout, outdoors.
pub const LW_CORD_SOOW: lw_cord = 22;
/// 600 V elastomer.
pub const LW_CORD_SE: lw_cord = 23;
/// 600 V elastomer, outdoors.
pub const LW_CORD_SEW: lw_cord = 24;
/// 600 V elastomer, oil-resistant jacket.
pub const LW_CORD_SEO: lw_cord = 25;
/// 600 V elastomer, oil-resistant jacket, outdoors.
pub const LW_CORD_SEOW: lw_cord = 26;
/// 600 V elastomer, oil-resistant throughout.
pub const LW_CORD_SEOO: lw_cord = 27;
/// 600 V elastomer, oil-resistant throughout, outdoors.
pub const LW_CORD_SEOOW: lw_cord = 28;
/// 600 V thermoplastic.
pub const LW_CORD_ST: lw_cord = 29;
/// 600 V thermoplastic, outdoors.
pub const LW_CORD_STW: lw_cord = 30;
/// 600 V thermoplastic, oil-resistant jacket.
pub const LW_CORD_STO: lw_cord = 31;
/// 600 V thermoplastic, oil-resistant jacket, outdoors.
pub const LW_CORD_STOW: lw_cord = 32;
/// 600 V thermoplastic, oil-resistant throughout.
pub const LW_CORD_STOO: lw_cord = 33;
/// 600 V thermoplastic, oil-resistant throughout, outdoors.
pub const LW_CORD_STOOW: lw_cord = 34;
/// 600 V single-conductor portable cable, thermoset.
pub const LW_CORD_SC: lw_cord = 35;
/// 600 V single-conductor portable cable, elastomer.
pub const LW_CORD_SCE: lw_cord = 36;
/// 600 V single-conductor portable cable, thermoplastic.
pub const LW_CORD_SCT: lw_cord = 37;
/// 2000 V portable cable.
pub const LW_CORD_W: lw_cord = 38;
/// 2000 V portable cable, elastomer.
pub const LW_CORD_PPE: lw_cord = 39;
/// 2000 V portable cable with grounding conductors.
pub const LW_CORD_G: lw_cord = 40;
/// 2000 V portable cable with grounding and ground-check conductors.
pub const LW_CORD_G_GC: lw_cord = 41;
/// Parallel cord, 300 V.
pub const LW_CORD_SPT_1: lw_cord = 42;
/// Parallel cord, outdoors.
pub const LW_CORD_SPT_1W: lw_cord = 43;
/// Parallel cord, heavier.
pub const LW_CORD_SPT_2: lw_cord = 44;
/// Parallel cord, heavier, outdoors.
pub const LW_CORD_SPT_2W: lw_cord = 45;
/// Parallel cord, heaviest.
pub const LW_CORD_SPT_3: lw_cord = 46;
/// Range and dryer cord.
pub const LW_CORD_SRDT: lw_cord = 47;
/// Light appliance cord, thermoset.
pub const LW_CORD_SV: lw_cord = 48;
/// Light appliance cord, thermoplastic.
pub const LW_CORD_SVT: lw_cord = 49;
/// Vehicle charging cable.
pub const LW_CORD_EV: lw_cord = 50;
/// Light vehicle charging cable.
pub const LW_CORD_EVJ: lw_cord = 51;
/// Heater cord, parallel.
pub const LW_CORD_HPD: lw_cord = 52;
/// Heater cord, parallel, thermoset.
pub const LW_CORD_HPN: lw_cord = 53;
/// Heater cord, jacketed.
pub const LW_CORD_HSJ: lw_cord = 54;
/// Heater cord, oil-resistant jacket.
pub const LW_CORD_HSJO: lw_cord = 55;
/// Heater cord, oil-resistant jacket, outdoors.
pub const LW_CORD_HSJOW: lw_cord = 56;
/// Heater cord, oil-resistant throughout.
pub const LW_CORD_HSJOO: lw_cord = 57;
/// Heater cord, oil-resistant throughout, outdoors.
pub const LW_CORD_HSJOOW: lw_cord = 58;

/// The words behind [`lw_cord`].
pub const CORDS: Choices<CordType> = Choices {
    kind: "cord type",
    words: &[
        CordType::Sj,
        CordType::Sjo,
        CordType::Sjow,
        CordType::Sjoo,
        CordType::Sjoow,
        CordType::Sje,
        CordType::Sjew,
        CordType::Sjeo,
        CordType::Sjeow,
        CordType::Sjeoo,
        CordType::Sjeoow,
        CordType::Sjt,
        CordType::Sjtw,
        CordType::Sjto,
        CordType::Sjtow,
        CordType::Sjtoo,
        CordType::Sjtoow,
        CordType::S,
        CordType::So,
        CordType::Sow,
        CordType::Soo,
        CordType::Soow,
        CordType::Se,
        CordType::Sew,
        CordType::Seo,
        CordType::Seow,
        CordType::Seoo,
        CordType::Seoow,
        CordType::St,
        CordType::Stw,
        CordType::Sto,
        CordType::Stow,
        CordType::Stoo,
        CordType::Stoow,
        CordType::Sc,
        CordType::Sce,
        CordType::Sct,
        CordType::W,
        CordType::Ppe,
        CordType::G,
        CordType::Ggc,
        CordType::Spt1,
        CordType::Spt1w,
        CordType::Spt2,
        CordType::Spt2w,
        CordType::Spt3,
        CordType::Srdt,
        CordType::Sv,
        CordType::Svt,
        CordType::Ev,
        CordType::Evj,
        CordType::Hpd,
        CordType::Hpn,
        CordType::Hsj,
        CordType::Hsjo,
        CordType::Hsjow,
        CordType::Hsjoo,
        CordType::Hsjoow,
    ],
};

/// How hard a cord is used: one of the `LW_USAGE_` constants, 0 where it is not stated.
pub type lw_usage = i32;

/// Not hard usage.
pub const LW_USAGE_NOT_HARD: lw_usage = 1;
/// Hard usage.
pub const LW_USAGE_HARD: lw_usage = 2;
/// Extra-hard usage.
pub const LW_USAGE_EXTRA_HARD: lw_usage = 3;
/// For ranges and dryers.
pub const LW_USAGE_RANGES_AND_DRYERS: lw_usage = 4;

/// The words behind [`lw_usage`].
pub const USAGES: Choices<Usage> =
    Choices { kind: "cord usage", words: &[Usage::NotHard, Usage::Hard, Usage::ExtraHard, Usage::RangesDryers] };

/// A raceway: one of the `LW_RACEWAY_` constants, 0 where it is not stated.
pub type lw_raceway = i32;

/// Electrical metallic tubing.
pub const LW_RACEWAY_EMT: lw_raceway = 1;
/// Electrical nonmetallic tubing.
pub const LW_RACEWAY_ENT: lw_raceway = 2;
/// Flexible metal conduit.
pub const LW_RACEWAY_FMC: lw_raceway = 3;
/// Intermediate metal conduit.
pub const LW_RACEWAY_IMC: lw_raceway = 4;
/// Liquidtight flexible metal conduit.
pub const LW_RACEWAY_LFMC: lw_raceway = 5;
/// Rigid metal conduit.
pub const LW_RACEWAY_RMC: lw_raceway = 6;
/// Rigid PVC conduit of Schedule 40.
pub const LW_RACEWAY_PVC_40: lw_raceway = 7;
/// Rigid PVC conduit of Schedule 80.
pub const LW_RACEWAY_PVC_80: lw_raceway = 8;

/// The words behind [`lw_raceway`].
pub const RACEWAYS: Choices<RacewayKind> = Choices {
    kind: "raceway",
    words: &[
        RacewayKind::Emt,
        RacewayKind::Ent,
        RacewayKind::Fmc,
        RacewayKind::Imc,
        RacewayKind::Lfmc,
        RacewayKind::Rmc,
        RacewayKind::Pvc40,
        RacewayKind::Pvc80,
    ],
};

/// How the strands of a conductor lie: one of the `LW_STRANDING_` constants, 0 where it is not stated.
pub type lw_stranding = i32;

/// Round strands, as in most building wire of copper.
pub const LW_STRANDING_USUAL: lw_stranding = 1;
/// Compacted strands, as in most building wire of aluminum.
pub const LW_STRANDING_COMPACT: lw_stranding = 2;

/// The words behind [`lw_stranding`].
pub const STRANDINGS: Choices<Stranding> =
    Choices { kind: "stranding", words: &[Stranding::Usual, Stranding::Compact] };

/// The trade size of a raceway: one of the `LW_TRADE_SIZE_` constants, 0 where it is not stated.
pub type lw_trade_size = i32;

/// 3/8 in.
pub const LW_TRADE_SIZE_3_8_IN: lw_trade_size = 1;
/// 1/2 in.
pub const LW_TRADE_SIZE_1_2_IN: lw_trade_size = 2;
/// 3/4 in.
pub const LW_TRADE_SIZE_3_4_IN: lw_trade_size = 3;
/// 1 in.
pub const LW_TRADE_SIZE_1_IN: lw_trade_size = 4;
/// 1-1/4 in.
pub const LW_TRADE_SIZE_1_1_4_IN: lw_trade_size = 5;
/// 1-1/2 in.
pub const LW_TRADE_SIZE_1_1_2_IN: lw_trade_size = 6;
/// 2 in.
pub const LW_TRADE_SIZE_2_IN: lw_trade_size = 7;
/// 2-1/2 in.
pub const LW_TRADE_SIZE_2_1_2_IN: lw_trade_size = 8;
/// 3 in.
pub const LW_TRADE_SIZE_3_IN: lw_trade_size = 9;
/// 3-1/2 in.
pub const LW_TRADE_SIZE_3_1_2_IN: lw_trade_size = 10;
/// 4 in.
pub const LW_TRADE_SIZE_4_IN: lw_trade_size = 11;
/// 5 in.
pub const LW_TRADE_SIZE_5_IN: lw_trade_size = 12;
/// 6 in.
pub const LW_TRADE_SIZE_6_IN: lw_trade_size = 13;

/// The words behind [`lw_trade_size`].
pub const TRADE_SIZES: Choices<TradeSize> = Choices {
    kind: "trade size",
    words: &[
        TradeSize::ThreeEighths,
        TradeSize::OneHalf,
        TradeSize::ThreeQuarters,
        TradeSize::One,
        TradeSize::OneAndOneQuarter,
        TradeSize::OneAndOneHalf,
        TradeSize::Two,
        TradeSize::TwoAndOneHalf,
        TradeSize::Three,
        TradeSize::ThreeAndOneHalf,
        TradeSize::Four,
        TradeSize::Five,
        TradeSize::Six,
    ],
};
