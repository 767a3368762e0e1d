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
    /// How the load of a dwelling is calculated.
    pub enum DemandMethod: "method of calculating a load" {
        /// A dwelling by the optional method, NEC 220.82.
        Optional = "optional",
        /// A dwelling that stands, NEC 220.83.
        Existing = "existing",
        /// A dwelling that stands, from its meter, NEC 220.87.
        Metered = "metered",
    }
}

words! {
    /// How long a record of demand is.
    pub enum DemandRecordLength: "length of a record of demand" {
        /// A year or more.
        Year = "a year",
        /// 30 days without a gap, by 15 minutes, at a time of highest use.
        ThirtyDays = "30 days by 15 minutes",
        /// Less, with gaps, or by longer intervals.
        Less = "less",
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

words! {
    /// The form of a voltage.
    pub enum Waveform: "waveform" {
        /// A sine.
        Sine = "sine",
        /// Steps in place of a sine, sold as modified sine or square wave.
        NotSine = "not sine",
    }
}

words! {
    /// The order in which three phases reach their peaks.
    pub enum PhaseSequence: "phase sequence" {
        /// As the hands of a clock.
        Clockwise = "clockwise",
        /// Against them.
        Counterclockwise = "counterclockwise",
    }
}

words! {
    /// What an engine burns.
    pub enum Fuel: "fuel" {
        /// Gasoline.
        Gasoline = "gasoline",
        /// Diesel.
        Diesel = "diesel",
        /// Propane from cylinders that people change.
        PropaneCylinder = "propane cylinder",
        /// Gas from a pipe or a fixed tank: nobody refuels.
        PipedGas = "piped gas",
    }
}

words! {
    /// Where a source stands.
    pub enum Standing: "standing place" {
        /// Outdoors, open on all sides, at most under an open canopy.
        OpenAir = "open air",
        /// Inside a building.
        Building = "building",
        /// In a garage, its doors open or not.
        Garage = "garage",
        /// On a porch.
        Porch = "porch",
        /// In a carport.
        Carport = "carport",
        /// In a shed.
        Shed = "shed",
        /// In a basement.
        Basement = "basement",
        /// In a crawl space.
        CrawlSpace = "crawl space",
        /// In a tent.
        Tent = "tent",
        /// In any other place that is enclosed, wholly or partly.
        Enclosed = "partly enclosed place",
    }
}

words! {
    /// What keeps an outlet of a source from overload.
    pub enum OverloadProtection: "overload protection" {
        /// A circuit breaker or a fuse.
        Device = "overcurrent device",
        /// The source cannot be overloaded.
        Inherent = "inherent",
        /// Nothing.
        Nothing = "none",
    }
}

words! {
    /// The way that a cord takes.
    pub enum CordRoute: "route of a cord" {
        /// Loose and in sight.
        Open = "in the open",
        /// Through a door or a window.
        Opening = "through a door or window",
        /// Through a hole in a wall, a floor or a ceiling.
        Wall = "through a wall, floor or ceiling",
        /// Behind or inside a part of the building.
        Hidden = "hidden",
        /// Fastened to the building.
        Fastened = "fastened to the building",
        /// In a raceway.
        Raceway = "in a raceway",
    }
}

words! {
    /// What kind of load something is.
    pub enum LoadKind: "kind of load" {
        /// Resistance heat for rooms.
        SpaceHeating = "space heating",
        /// A range or an oven.
        Range = "range",
        /// A water heater.
        WaterHeater = "water heater",
        /// A clothes dryer.
        Dryer = "dryer",
        /// Central cooling or a heat pump.
        CentralCooling = "central cooling",
        /// The charging of a vehicle.
        VehicleCharging = "vehicle charging",
        /// The charging of a battery.
        BatteryCharging = "battery charging",
        /// Anything else with a motor or a compressor: a refrigerator, a pump, a fan.
        Motor = "motor",
        /// Sensitive electronics.
        Electronics = "electronics",
        /// Medical equipment.
        Medical = "medical equipment",
        /// Lighting.
        Lighting = "lighting",
        /// Anything else.
        Other = "other",
    }
}

words! {
    /// What the people of a site want of a load while a source feeds.
    pub enum LoadWish: "wish" {
        /// It must be on.
        Must = "must",
        /// On if it can be.
        WouldLike = "would like",
        /// Off.
        Off = "off",
    }
}
