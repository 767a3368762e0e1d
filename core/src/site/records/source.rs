//! A source and its outlets.

use crate::quantity::{
    Amperes, Celsius, CelsiusRise, Hertz, Meters, Ohms, PowerFactor, Ratio, Seconds, VoltAmperes, Volts, WattHours,
    Watts, Written,
};
use crate::site::joining::{
    Charging, Disconnect, Earthing, Electrode, ExportListing, GroundingPath, NeutralMark, Notice, SinglePole,
};
use crate::site::record::record;
use crate::site::value::{End, Name};
use crate::site::words::{Fuel, OverloadProtection, PhaseSequence, SourceKind, SourceNeutral, Standing, Waveform};
use crate::trade::{ContinuousRating, FuelAmount, Poles, System};

record! {
    /// A portable or standby source of electricity.
    pub struct Source: "a source" {
        /// Its name.
        name: Name,
        /// What kind of machine it is.
        kind: SourceKind,
        /// The supply system that it gives.
        system: System,
        /// The current that it gives for hours on each leg, at the altitude, temperature and fuel of the place.
        continuous_current: Option<Written<Amperes>>,
        /// The real power that it gives for hours.
        continuous_power: Option<Written<Watts>>,
        /// The apparent power that it gives for hours.
        continuous_apparent_power: Option<Written<VoltAmperes>>,
        /// The power factor at which its power is stated.
        power_factor: Option<PowerFactor>,
        /// Whether its neutral is bonded to its frame.
        neutral: Option<SourceNeutral>,
        /// What its marking says of its neutral.
        neutral_mark: Option<NeutralMark>,
        /// The state of the grounding conductor from its frame to what it feeds.
        grounding_path: Option<GroundingPath>,
        /// Whether its frame, that of the vehicle or trailer it stands on, and its receptacles' grounding contacts are bonded.
        frame_bonded: Option<bool>,
        /// Whether it is mounted on a vehicle or a trailer.
        vehicle_mounted: Option<bool>,
        /// What connects its system to earth.
        electrode: Option<Electrode>,
        /// How the supply that it takes the place of is earthed, by the letters of IEC 60364; other codes do not ask.
        replaced_earthing: Option<Earthing>,
        /// Whether a link bonds neutral to earth while it alone supplies, and opens when the distributor supplies.
        island_link: Option<bool>,
        /// Whether a residual-current device of 30 mA or less, opening the neutral too, protects its outlets.
        residual_current_device: Option<bool>,
        /// How the ends of its separate single-pole connectors are kept in order, where it has any.
        single_pole_connectors: Option<SinglePole>,
        /// Whether a qualified person joins and parts those connectors.
        qualified_user: Option<bool>,
        /// Whether the maker's instructions and its listing let it feed premises wiring.
        building_supply_allowed: Option<bool>,
        /// What the fixed equipment that takes its power into the building is listed for.
        export_listing: Option<ExportListing>,
        /// Whether its outlets are listed for the use.
        outlets_listed: Option<bool>,
        /// Which way the equipment that charges it lets power flow.
        charging: Option<Charging>,
        /// Whether it is kept from being driven off while it is connected.
        immobilized: Option<bool>,
        /// Whether its cord is relieved of strain.
        strain_relieved: Option<bool>,
        /// The means to disconnect it from what it feeds.
        disconnect: Option<Disconnect>,
        /// Whether its stopping means keep its engine from starting until it is reset by hand.
        restart_prevented: Option<bool>,
        /// Whether its engine can be stopped from outside its room or enclosure.
        remote_stop: Option<bool>,
        /// Whether a labeled emergency stop for it is readily accessible outside the dwelling.
        emergency_stop_outside: Option<bool>,
        /// Whether a sign at the service equipment tells its kind and its place.
        sign_at_service: Option<bool>,
        /// Whether a sign warns that opening a ground connection at the service opens its grounding path.
        grounding_sign: Option<bool>,
        /// Whether the utility was told of it.
        utility_notice: Option<Notice>,
        /// Whether a fuel engine drives it, whose exhaust kills.
        engine: Option<bool>,
        /// The share of its voltage that the drop up to a load may reach, where the source or its loads require one.
        greatest_drop: Option<Written<Ratio>>,
        /// Whether it is portable.
        portable: Option<bool>,
        /// Its frequency.
        frequency: Option<Written<Hertz>>,
        /// The apparent power that it gives for moments while motors start.
        starting_apparent_power: Option<Written<VoltAmperes>>,
        /// The ambient temperature that its ratings hold for.
        rated_ambient: Option<Written<Celsius>>,
        /// The load that automatic transfer equipment passes to it, calculated as the code has it.
        calculated_load: Option<Written<VoltAmperes>>,
        /// The most that a load manager connects to it, where there is one.
        managed_load: Option<Written<VoltAmperes>>,
        /// The difference between the currents of its legs that somebody has set as the greatest.
        greatest_leg_difference: Option<Written<Amperes>>,
        /// The voltage that was measured at its outlets.
        measured_voltage: Option<Written<Volts>>,
        /// The form of its voltage.
        waveform: Option<Waveform>,
        /// The sequence of its phases, where it has three.
        phase_sequence: Option<PhaseSequence>,
        /// The energy that is stored and can be used.
        usable_energy: Option<Written<WattHours>>,
        /// The average power of the loads that are planned.
        average_power: Option<Written<Watts>>,
        /// How long its fuel lasts at that power.
        fuel_lasts: Option<Written<Seconds>>,
        /// How long it is wanted to run.
        wanted_time: Option<Written<Seconds>>,
        /// Where it stands.
        stands_in: Option<Standing>,
        /// The distance from its engine to the nearest building that people may enter, a neighbor's too.
        distance_to_building: Option<Written<Meters>>,
        /// Whether its exhaust points away from every building.
        exhaust_away: Option<bool>,
        /// Whether it stops itself when carbon monoxide gathers around it.
        carbon_monoxide_shutoff: Option<bool>,
        /// The space that is clear on every side of it, to openings, to walls and to all that burns.
        clear_space: Option<Written<Meters>>,
        /// Whether the wall or the enclosure beside it is proved to withstand fire.
        fire_proved_wall: Option<bool>,
        /// Whether it stands dry on level ground, under an open canopy where it rains, out of floods and sprinklers.
        kept_dry: Option<bool>,
        /// What its engine burns.
        fuel: Option<Fuel>,
        /// Whether it was made before 2015.
        made_before_2015: Option<bool>,
        /// Whether it is made to start and run with nobody there.
        made_for_unattended: Option<bool>,
        /// The current that it gives on each leg for moments while motors start; state the continuous one where it gives no more.
        starting_current: Option<Written<Amperes>>,
        /// For how long it gives that.
        starting_time: Option<Written<Seconds>>,
        /// How far its voltage dips at most while it gives that, as a share of its no-load voltage.
        greatest_dip: Option<Written<Ratio>>,
        /// Its voltage with nothing connected, of a leg where it has two; the nominal one where this is left out.
        no_load_voltage: Option<Written<Volts>>,
        /// Its internal resistance on each leg.
        internal_resistance: Option<Written<Ohms>>,
        /// Its internal reactance on each leg.
        internal_reactance: Option<Written<Ohms>>,
        /// Its internal impedance on each leg, where resistance and reactance are not known apart.
        internal_impedance: Option<Written<Ohms>>,
        /// The energy that it stores from full to empty.
        energy_capacity: Option<Written<WattHours>>,
        /// Its state of charge.
        state_of_charge: Option<Written<Ratio>>,
        /// The share of its charge, or of what its tank holds, that must be left; `0 %` for none.
        reserve: Option<Written<Ratio>>,
        /// Whether it switches itself off, after a time or at a state of charge; both are asked for unless it never does.
        shuts_off_by_itself: Option<bool>,
        /// The state of charge at which it switches itself off; `0 %` where it only does after a time.
        shut_off_charge: Option<Written<Ratio>>,
        /// The time after which it switches itself off; `1000 d` where it only does at a state of charge.
        shut_off_time: Option<Written<Seconds>>,
        /// The share of its stored energy that reaches its outlets; `100 %` where its capacity is stated at the outlets.
        efficiency: Option<Written<Ratio>>,
        /// What it takes from its own store all the time; `0 W` for nothing.
        idle_draw: Option<Written<Watts>>,
        /// What its tank holds.
        tank: Option<FuelAmount>,
        /// The points of the maker's fuel table, from the least load.
        fuel_points as "fuel_point": Vec<FuelUse>,
        /// What its engine loses high up and in the heat, where its power is not stated for the place itself.
        derating: Option<Losses>,
        /// Anything a reader should know; nothing is concluded from it.
        note: Option<String>,
        /// Its outlets, or the terminals that wiring is fastened to.
        outlets as "outlet": Vec<Outlet>,
    }
}

record! {
    /// A point of a maker's fuel table.
    pub struct FuelUse: "a fuel point" {
        /// The load, as a share of the continuous power.
        load: Written<Ratio>,
        /// The fuel of one hour at that load.
        per_hour: FuelAmount,
    }
}

record! {
    /// What an engine loses high up and in the heat, as its maker states it.
    pub struct Losses: "a derating" {
        /// The share lost for each step of altitude.
        altitude_loss: Written<Ratio>,
        /// The step of altitude.
        altitude_step: Written<Meters>,
        /// The altitude up to which nothing is lost.
        altitude_above: Written<Meters>,
        /// The share lost for each step of temperature.
        temperature_loss: Written<Ratio>,
        /// The step of temperature.
        temperature_step: Written<CelsiusRise>,
        /// The temperature up to which nothing is lost.
        temperature_above: Written<Celsius>,
    }
}

record! {
    /// An outlet of a source.
    pub struct Outlet: "an outlet" {
        /// Its name.
        name: Name,
        /// Its receptacle, or `hardwired` for terminals.
        configuration: End,
        /// The rating of the device that protects it.
        overcurrent_device: Option<Written<Amperes>>,
        /// The poles of that device.
        poles: Option<Poles>,
        /// How much of its rating that device carries for three hours and more.
        continuous_rating: Option<ContinuousRating>,
        /// The current that the source gives for hours through this outlet, where it is less than the configuration suggests.
        continuous_current: Option<Written<Amperes>>,
        /// Whether a ground-fault circuit interrupter protects it.
        gfci: Option<bool>,
        /// What keeps it from overload, where that is not a device of a stated rating.
        overload_protection: Option<OverloadProtection>,
        /// Whether it is dead while an outlet of both voltages is in use.
        dead_while_larger_in_use: Option<bool>,
        /// Whether it is used only through a listed cord set with a ground-fault circuit interrupter.
        gfci_cord_set: Option<bool>,
    }
}
