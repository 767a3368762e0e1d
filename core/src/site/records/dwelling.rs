//! A dwelling as a whole: what its calculated load rests on.

use crate::quantity::{SquareMeters, VoltAmperes, Written};
use crate::site::record::record;
use crate::site::value::Name;
use crate::site::words::{DemandMethod, DemandRecordLength};

record! {
    /// One dwelling as a whole, whether or not a source is to carry all of it: what its calculated load rests on
    /// (NEC 220.82, 220.83 and 220.87). Nameplates are apparent power; `0 VA` says that there is no such thing.
    pub struct Dwelling: "a dwelling" {
        /// The method by which its load is calculated: `optional` (220.82), `existing` (220.83) or `metered` (220.87).
        method: DemandMethod,
        /// Its floor area by outside dimensions, without open porches, garages and unfinished spaces.
        floor_area: Option<Written<SquareMeters>>,
        /// The number of its small-appliance branch circuits.
        small_appliance_circuits: Option<u16>,
        /// The number of its laundry branch circuits.
        laundry_circuits: Option<u16>,
        /// All appliances that are fastened in place, permanently connected or on a circuit of their own, cooking
        /// appliances, dryers, water heaters and motors, but neither heating nor cooling.
        appliances as "appliance": Vec<Appliance>,
        /// The nameplate of its air conditioning.
        air_conditioning: Option<Written<VoltAmperes>>,
        /// The nameplate of its heat pump.
        heat_pump: Option<Written<VoltAmperes>>,
        /// The electric heat that may run with the heat pump.
        supplementary_heat: Option<Written<VoltAmperes>>,
        /// The nameplate of its electric space heating.
        electric_heat: Option<Written<VoltAmperes>>,
        /// The number of separately controlled units of that.
        electric_heat_units: Option<u16>,
        /// Thermal storage, or other heating that is expected to run on at its full value.
        storage_heat: Option<Written<VoltAmperes>>,
        /// For `existing`: the heating or cooling that is added; left out where none is.
        added_climate: Option<Written<VoltAmperes>>,
        /// For `metered`: the highest demand on record.
        highest_demand: Option<Written<VoltAmperes>>,
        /// For `metered`: how long that record is.
        demand_record: Option<DemandRecordLength>,
        /// For `metered`: whether solar, wind or peak shaving takes part of the load off the meter.
        load_hidden: Option<bool>,
        /// For `metered`: the load that is added; left out where none is.
        new_load: Option<Written<VoltAmperes>>,
    }
}

record! {
    /// An appliance of a dwelling.
    pub struct Appliance: "an appliance" {
        /// Its name.
        name: Name,
        /// Its nameplate.
        apparent_power: Written<VoltAmperes>,
    }
}
