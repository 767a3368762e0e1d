//! A source and its outlets.

use crate::quantity::{
    Amperes, Celsius, Hertz, Meters, PowerFactor, Ratio, Seconds, VoltAmperes, Volts, WattHours, Watts, Written,
};
use crate::site::joining::{
    Charging, Disconnect, Earthing, Electrode, ExportListing, GroundingPath, NeutralMark, Notice, SinglePole,
};
use crate::site::record::record;
use crate::site::value::{End, Name};
use crate::site::words::{Fuel, OverloadProtection, PhaseSequence, SourceKind, SourceNeutral, Standing, Waveform};
use crate::trade::{ContinuousRating, Poles, System};

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
        /// Anything a reader should know; nothing is concluded from it.
        note: Option<String>,
        /// Its outlets, or the terminals that wiring is fastened to.
        outlets as "outlet": Vec<Outlet>,
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
