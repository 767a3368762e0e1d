//! The words for how a source is joined to a building: neutrals, earth, disconnects, interlocks, signs.

use crate::trade::words;

words! {
    /// What a mark or a sign says of a source's neutral.
    pub enum NeutralMark: "mark of a neutral" {
        /// Neutral bonded to the frame.
        Bonded = "bonded",
        /// Neutral floating.
        Floating = "floating",
        /// There is no mark.
        Unmarked = "unmarked",
    }
}

words! {
    /// The state of the grounding conductor from a source to what it feeds.
    pub enum GroundingPath: "state of a grounding path" {
        /// Unbroken through every plug, cord, adapter and connector.
        Whole = "whole",
        /// Missing or broken somewhere.
        Broken = "broken",
        /// Cut, lifted or left out so that a ground-fault device stops tripping.
        OpenedAgainstTripping = "opened against tripping",
    }
}

words! {
    /// What connects a source's system to earth.
    pub enum Electrode: "connection to earth" {
        /// The grounding electrode system of the building.
        Building = "building electrode",
        /// An electrode of its own.
        Own = "own electrode",
        /// Its frame, or that of its vehicle.
        Frame = "frame",
        /// The earth terminal of the distributor, and nothing else.
        Distributor = "distributor's earth",
        /// Nothing.
        Missing = "missing",
    }
}

words! {
    /// How separate single-pole connectors are kept in order: ground first, then neutral, then the phases.
    pub enum SinglePole: "order of single-pole connectors" {
        /// It has no such connectors.
        NotUsed = "not used",
        /// Interlocked, so that they cannot be joined or parted under power.
        Interlocked = "interlocked",
        /// Sequential by their construction.
        Sequential = "sequential",
        /// A notice beside them gives the order.
        Notice = "notice posted",
        /// Nothing keeps the order.
        Unordered = "unordered",
    }
}

words! {
    /// What equipment that exports power from a vehicle is listed for.
    pub enum ExportListing: "export listing" {
        /// Optional standby use.
        Standby = "standby",
        /// Running in parallel with the utility.
        Parallel = "parallel",
        /// Both.
        Both = "standby and parallel",
        /// Not listed.
        Unlisted = "not listed",
    }
}

words! {
    /// Which way charging equipment lets power flow.
    pub enum Charging: "kind of charging equipment" {
        /// It is not connected to any.
        NotConnected = "not connected",
        /// From the building to the vehicle only.
        OneWay = "one-way",
        /// Both ways, listed for export.
        TwoWayListed = "two-way, listed",
        /// Both ways, not listed for export.
        TwoWayUnlisted = "two-way, not listed",
    }
}

words! {
    /// The means to disconnect a source.
    pub enum Disconnect: "disconnect" {
        /// Opens all ungrounded conductors at once and locks open.
        Lockable = "lockable",
        /// Does not lock open, or not all conductors at once.
        NotLockable = "not lockable",
        /// There is none.
        Missing = "missing",
    }
}

words! {
    /// Whether a utility was told of a source.
    pub enum Notice: "notice to the utility" {
        /// It was told, and agreed where it must.
        Given = "given",
        /// It need not be told.
        NotRequired = "not required",
        /// It must be told and was not.
        Omitted = "required, not given",
    }
}

words! {
    /// What an interlock is fastened to.
    pub enum InterlockMounting: "mounting of an interlock" {
        /// The breakers themselves.
        Breakers = "breakers",
        /// The cover of the panel.
        Cover = "cover",
    }
}

words! {
    /// When transfer equipment opens a switched neutral.
    pub enum NeutralOpens: "order of a switched neutral" {
        /// Together with the ungrounded conductors.
        Together = "together",
        /// After them, and it closes before them.
        Last = "last",
        /// Before them.
        First = "first",
        /// Without them.
        Alone = "alone",
    }
}

words! {
    /// What holds a device in its panel.
    pub enum Fastening: "fastening of a breaker" {
        /// Plugged on, with an added fastener that a plain pull does not release.
        Fastener = "fastener",
        /// Bolted on.
        Bolted = "bolted",
        /// Plugged on and nothing more.
        PlugOn = "plug-on only",
    }
}

words! {
    /// What is marked at the terminals of a breaker.
    pub enum BreakerMarking: "marking of a breaker" {
        /// Neither line nor load.
        Unmarked = "unmarked",
        /// Identified for feeding in reverse.
        ReverseFeed = "reverse feed",
        /// Line and load.
        LineAndLoad = "line and load",
    }
}

words! {
    /// How a normal supply is kept off.
    pub enum KeptOff: "way of keeping a supply off" {
        /// A disconnect that is locked open.
        Locked = "locked open",
        /// Its conductors are removed.
        Removed = "conductors removed",
        /// A breaker that is merely open.
        MerelyOpen = "merely open",
    }
}

words! {
    /// What kind of building a site is.
    pub enum Occupancy: "occupancy" {
        /// A dwelling of one or two families.
        OneOrTwoFamilyDwelling = "one- or two-family dwelling",
        /// Anything else.
        Other = "other",
    }
}

words! {
    /// How a distributor earths its supply.
    pub enum Earthing: "earthing of a supply" {
        /// The distributor earths the neutral and gives an earth terminal.
        Tn = "TN",
        /// The installation has its own electrode.
        Tt = "TT",
        /// The supply is not earthed.
        It = "IT",
    }
}
