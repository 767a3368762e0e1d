//! The words that only a site description needs.

use crate::trade::words;

words! {
    /// What kind of machine a source is.
    pub enum SourceKind: "kind of source" {
        /// An engine with a generator.
        Generator = "generator",
        /// A vehicle's outlets.
        Vehicle = "vehicle",
        /// A battery with outlets.
        Battery = "battery",
        /// An inverter.
        Inverter = "inverter",
    }
}

words! {
    /// Whether a source's neutral is bonded to its frame.
    pub enum SourceNeutral: "neutral of a source" {
        /// Bonded to the frame inside the source.
        Bonded = "bonded",
        /// Not bonded inside the source.
        Floating = "floating",
    }
}

words! {
    /// Who made the cord with its ends.
    pub enum Assembly: "cord assembly" {
        /// A listed cord set or power-supply cord.
        Listed = "listed cord set",
        /// Put together from its parts in the field.
        FieldAssembled = "field assembled",
        /// The cord of an appliance.
        Appliance = "appliance cord",
    }
}

words! {
    /// What keeps two supplies apart.
    pub enum TransferKind: "kind of transfer equipment" {
        /// A mechanical interlock between two breakers of a panel.
        Interlock = "interlock",
        /// A switch worked by hand.
        Manual = "manual transfer switch",
        /// A switch that works by itself.
        Automatic = "automatic transfer switch",
        /// A switch between the meter and its socket.
        MeterMounted = "meter-mounted transfer switch",
        /// Interactive equipment that leaves the utility by itself.
        Interactive = "listed interactive equipment",
    }
}

words! {
    /// Whether transfer equipment switches the neutral.
    pub enum TransferNeutral: "neutral of transfer equipment" {
        /// The neutral runs through.
        Solid = "solid",
        /// The neutral is switched with the ungrounded conductors.
        Switched = "switched",
    }
}

words! {
    /// How transfer equipment passes from one supply to the other.
    pub enum Transition: "transition" {
        /// One supply is left before the other is taken.
        Open = "open",
        /// Both supplies meet for a moment.
        Closed = "closed",
    }
}

words! {
    /// What a circuit supplies.
    pub enum Supplies: "supply of a circuit" {
        /// One single receptacle and nothing else.
        OneReceptacle = "one receptacle",
        /// Two or more receptacles: a duplex receptacle is two.
        SeveralReceptacles = "several receptacles",
        /// Equipment that is fastened and hardwired.
        FixedEquipment = "fixed equipment",
        /// Lighting.
        Lighting = "lighting",
    }
}
