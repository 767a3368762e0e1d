//! The questions of `calc` and `size` as functions: an option of the command is a keyword.
//!
//! The lines on the keywords are the command's help; a test holds them, and the list of keywords, against it.

use pyo3::prelude::*;

use crate::answer::Answer;
use crate::argument::{Accepted, EditionName, state};

macro_rules! questions {
    ($($(#[$doc:meta])* $name:ident = $question:literal($($option:ident),+ $(,)?);)+) => {
        $(
            $(#[$doc])*
            #[pyfunction]
            #[pyo3(signature = (*, $($option = None,)+ edition = None, accept = None))]
            #[allow(clippy::too_many_arguments, reason = "an option is a keyword; some questions have few")]
            pub(crate) fn $name(
                $($option: Option<&Bound<'_, PyAny>>,)+
                edition: Option<EditionName<'_>>,
                accept: Option<Accepted<'_>>,
            ) -> PyResult<Answer> {
                Answer::of($question, edition, accept, |asked| {
                    $(state(asked, stringify!($option), $option)?;)+
                    Ok(())
                })
            }
        )+

        /// The functions with the names of the questions.
        pub(crate) const NAMES: &[(&str, &str)] = &[$((stringify!($name), $question)),+];

        /// Adds the functions to the module.
        pub(crate) fn add_to(module: &Bound<'_, PyModule>) -> PyResult<()> {
            $(module.add_function(wrap_pyfunction!($name, module)?)?;)+
            Ok(())
        }
    };
}

questions! {
    /// How much current a conductor may carry in its conditions, in amperes.
    ///
    /// Keywords:
    ///     size: The size: "6 AWG", "1/0 AWG", "250 kcmil"
    ///     material: The material: copper, aluminum, copper-clad aluminum
    ///     insulation: The insulation: THHN, THWN-2, XHHW-2 and so on
    ///     cable: The cable that the conductor lies in, where it does: NM-B, UF-B, SE, AC, MC
    ///     installation: How it is installed: raceway, cable, buried, free air
    ///     place: The kind of place: dry, damp, wet
    ///     ambient: The ambient temperature: "30 °C", "95 °F"
    ///     rooftop_clearance: The clearance above a roof in sunlight: "6 in"
    ///     current_carrying: How many conductors carry current
    ///     ungrounded: How many ungrounded conductors there are, in place of current_carrying
    ///     neutral: What the neutral beside them carries: unbalance-only, counted, none
    ///     thermal_insulation: Whether the cable lies in thermal insulation: yes or no
    ///     terminals: The lower temperature mark of its terminals: "60 °C", "75 °C", "90 °C", unmarked
    ///     circuit_rating: The rating of the circuit, which decides how unmarked terminals count: "100 A"
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 310.16, 310.17, 310.15(B) and (C), 110.14(C) with their tables, as the working cites them.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.ampacity(size="8 AWG", material="copper", insulation="THHN", ambient="104 °F", terminals="75 °C")
    /// <Answer ampacity: 50 A, governed by terminals>
    ampacity = "ampacity"(
        size, material, insulation, cable, installation, place, ambient, rooftop_clearance,
        current_carrying, ungrounded, neutral, thermal_insulation, terminals, circuit_rating,
    );
    /// How much current a flexible cord may carry, in amperes.
    ///
    /// Keywords:
    ///     cord: The letter type: SOOW, SJTW and so on
    ///     size: The size of its conductors: "10 AWG"
    ///     current_carrying: How many conductors carry current
    ///     ungrounded: How many ungrounded conductors there are, in place of current_carrying
    ///     neutral: What the neutral beside them carries: unbalance-only, counted, none
    ///     ambient: The ambient temperature: "30 °C", "95 °F"
    ///     marked: The temperature marked on the cord: "90 °C"
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 400.5 with its tables.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.cord_ampacity(cord="SOOW", size="10 AWG", current_carrying=2).value
    /// Decimal('30')
    cord_ampacity = "cord"(
        cord, size, current_carrying, ungrounded, neutral, ambient, marked,
    );
    /// How much voltage is lost along a path, in volts.
    ///
    /// Keywords:
    ///     method: The method: dc (resistance, corrected for temperature), constant (K over circular mils),
    ///         impedance (effective, at a power factor), phasor (exact)
    ///     circuit: The circuit: two-wire, three-wire (two legs and a neutral; the drop of a leg), three-phase
    ///         (between lines)
    ///     supply: The voltage that is sent: "120 V"; on three wires that of a leg, on three phases that between
    ///         lines
    ///     segment: A stretch of the path, repeated for more: "12 AWG copper, 50 ft, 16 A"
    ///     size: The size of the conductors: "12 AWG"
    ///     material: Their material: copper, aluminum, copper-clad aluminum
    ///     resistance: The resistance of one conductor, in place of size and material: "0.2 ohm/kft"
    ///     reactance: The reactance of one conductor: "0.05 ohm/kft"
    ///     neutral_size: The size of the neutral, where it differs
    ///     neutral_material: The material of the neutral
    ///     neutral_resistance: The resistance of the neutral, in place of size and material
    ///     neutral_reactance: The reactance of the neutral
    ///     length: The length, one way: "50 ft"
    ///     current: The current; on three wires that of the leg asked about: "16 A"
    ///     other_leg: The current of the other leg, on three wires: "10 A"
    ///     conductor_temperature: The temperature of the conductors, for method dc: "75 °C"
    ///     k: The constant, for method constant, in ohm circular mils per foot: 12.9
    ///     conduit: The material of the conduit, for methods impedance and phasor: PVC, aluminum, steel
    ///     power_factor: The power factor, for methods impedance and phasor: 0.85
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC Chapter 9 Tables 8 and 9; the limits that the notes to 210.19 and 215.2 advise.
    ///
    /// >>> import loadworthy as lw
    /// >>> drop = lw.voltage_drop(method="dc", circuit="two-wire", supply="120 V", size="12 AWG", material="copper",
    /// ...                        length="50 ft", current="16 A")
    /// >>> drop.unit, drop.figures["share_rounded_up"]
    /// ('V', '2.64 %')
    voltage_drop = "voltage-drop"(
        method, circuit, supply, segment, size, material, resistance, reactance, neutral_size,
        neutral_material, neutral_resistance, neutral_reactance, length, current, other_leg,
        conductor_temperature, k, conduit, power_factor,
    );
    /// The largest device that protects a conductor, or the next one for a load, in amperes.
    ///
    /// Keywords:
    ///     ampacity: The ampacity of the conductor, where it is known: "55 A"
    ///     size: The size: "6 AWG", "1/0 AWG", "250 kcmil"
    ///     material: The material: copper, aluminum, copper-clad aluminum
    ///     insulation: The insulation: THHN, THWN-2, XHHW-2 and so on
    ///     cable: The cable that the conductor lies in, where it does: NM-B, UF-B, SE, AC, MC
    ///     installation: How it is installed: raceway, cable, buried, free air
    ///     place: The kind of place: dry, damp, wet
    ///     ambient: The ambient temperature: "30 °C", "95 °F"
    ///     rooftop_clearance: The clearance above a roof in sunlight: "6 in"
    ///     current_carrying: How many conductors carry current
    ///     ungrounded: How many ungrounded conductors there are, in place of current_carrying
    ///     neutral: What the neutral beside them carries: unbalance-only, counted, none
    ///     thermal_insulation: Whether the cable lies in thermal insulation: yes or no
    ///     terminals: The lower temperature mark of its terminals: "60 °C", "75 °C", "90 °C", unmarked
    ///     circuit_rating: The rating of the circuit, which decides how unmarked terminals count: "100 A"
    ///     required: The least rating that a load requires, where it is known: "45 A"
    ///     continuous: The part that lasts three hours or more: "16 A"
    ///     non_continuous: The rest: "0 A" where there is none
    ///     continuous_rating: How much of its rating the device carries for hours: "80 %", or "100 %" where the
    ///         assembly is listed for it
    ///     kind: The kind of device: breaker or fuse
    ///     supplies: What the circuit supplies: several-receptacles (for cord-and-plug portable loads), other
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 240.4, 240.6(A), 210.20(A), 215.3.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.overcurrent_device(required=lw.Amperes(45), kind="breaker")
    /// <Answer overcurrent-device: 45 A, governed by load>
    overcurrent_device = "overcurrent-device"(
        ampacity, size, material, insulation, cable, installation, place, ambient, rooftop_clearance,
        current_carrying, ungrounded, neutral, thermal_insulation, terminals, circuit_rating, required,
        continuous, non_continuous, continuous_rating, kind, supplies,
    );
    /// Whether a plug enters a receptacle, and the current that the pair may carry, in amperes.
    ///
    /// Keywords:
    ///     plug: The configuration of the plug: 14-50, L14-30P, "IEC 60309 32 A blue 2P+E"
    ///     receptacle: The configuration of the receptacle: 14-50, L14-30R
    ///     supply: What the supply behind the receptacle gives, where that is known: "40 A"
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: ANSI/NEMA WD 6, IEC 60309-2.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.plug_fit(plug="L14-30P", receptacle="14-50R").outcome
    /// <Outcome.NO: 'no'>
    plug_fit = "plug"(
        plug, receptacle, supply,
    );
    /// What a load that lasts three hours or more asks of device and conductor, in amperes.
    ///
    /// Keywords:
    ///     continuous: The part that lasts three hours or more: "16 A"
    ///     non_continuous: The rest: "0 A" where there is none
    ///     continuous_rating: How much of its rating the device carries for hours: "80 %", or "100 %" where the
    ///         assembly is listed for it
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 210.19(A), 210.20(A), 215.2, 215.3.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.continuous_load(continuous="16 A", non_continuous="0 A").value
    /// Decimal('20')
    continuous_load = "continuous-load"(
        continuous, non_continuous, continuous_rating,
    );
    /// The least equipment grounding conductor, a wire size.
    ///
    /// Keywords:
    ///     device: The rating of the overcurrent device ahead: "50 A"
    ///     material: The material of the grounding conductor: copper, aluminum, copper-clad aluminum
    ///     needed: The smallest circuit conductor with sufficient ampacity, where a larger one is installed: "8
    ///         AWG"
    ///     installed: The circuit conductor that is installed: "4 AWG"
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 250.122 with its table.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.equipment_grounding(device="50 A", material="copper").quantity
    /// WireSize('10 AWG')
    equipment_grounding = "equipment-grounding"(
        device, material, needed, installed,
    );
    /// The least grounding electrode conductor, a wire size.
    ///
    /// Keywords:
    ///     service_size: The largest ungrounded service conductor: "2/0 AWG"
    ///     service_material: Its material: copper, aluminum, copper-clad aluminum
    ///     material: The material of the grounding electrode conductor
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 250.66 with its table.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.grounding_electrode(service_size="2/0 AWG", service_material="copper", material="copper").quantity
    /// WireSize('4 AWG')
    grounding_electrode = "grounding-electrode"(
        service_size, service_material, material,
    );
    /// The least conductor of a dwelling's service or main power feeder, a wire size.
    ///
    /// Keywords:
    ///     rating: The rating of the service or main power feeder: "200 A"
    ///     material: The material: copper, aluminum, copper-clad aluminum
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 310.12 with its table.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.dwelling_service(rating="200 A", material="copper").quantity
    /// WireSize('2/0 AWG')
    dwelling_service = "dwelling-service"(
        rating, material,
    );
    /// Overcurrent device, conductors and grounding conductor of a circuit or a feeder; the answer is the ungrounded size.
    ///
    /// Keywords:
    ///     role: Branch or feeder
    ///     continuous: The part that lasts three hours or more: "16 A"
    ///     non_continuous: The rest: "0 A" where there is none
    ///     continuous_rating: How much of its rating the device carries for hours: "80 %", or "100 %" where the
    ///         assembly is listed for it
    ///     conductors: Its conductors: line-and-neutral, two-lines, two-lines-and-neutral, three-phase,
    ///         three-phase-and-neutral
    ///     neutral_load: The most that the neutral of a feeder carries, taken as continuous: "20 A"
    ///     voltage: The voltage, between lines where there are two: "240 V"
    ///     length: The length of the run, one way: "80 ft"
    ///     drop_limit: The limit on the voltage drop: "3 %"
    ///     size: The size: "6 AWG", "1/0 AWG", "250 kcmil"
    ///     material: The material: copper, aluminum, copper-clad aluminum
    ///     insulation: The insulation: THHN, THWN-2, XHHW-2 and so on
    ///     cable: The cable that the conductor lies in, where it does: NM-B, UF-B, SE, AC, MC
    ///     installation: How it is installed: raceway, cable, buried, free air
    ///     place: The kind of place: dry, damp, wet
    ///     ambient: The ambient temperature: "30 °C", "95 °F"
    ///     rooftop_clearance: The clearance above a roof in sunlight: "6 in"
    ///     current_carrying: How many conductors carry current
    ///     ungrounded: How many ungrounded conductors there are, in place of current_carrying
    ///     neutral: What the neutral beside them carries: unbalance-only, counted, none
    ///     thermal_insulation: Whether the cable lies in thermal insulation: yes or no
    ///     terminals: The lower temperature mark of its terminals: "60 °C", "75 °C", "90 °C", unmarked
    ///     circuit_rating: The rating of the circuit, which decides how unmarked terminals count: "100 A"
    ///     kind: The kind of device: breaker or fuse
    ///     supplies: What it supplies: several-receptacles (for cord-and-plug portable loads), other
    ///     least_device: The least rating of the device to consider: "15 A"
    ///     grounding_material: The material of the equipment grounding conductor, or none where a raceway or a
    ///         sheath serves
    ///     most_sets: The most sets of conductors in parallel, each in its own raceway: 1 to 9
    ///     raceway: The raceway to size too, for each set: EMT, ENT, FMC, IMC, LFMC, RMC, PVC-40, PVC-80
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 210.19, 210.20, 215.2, 215.3, 240.4, 250.122 and the tables of ampacity, as the working cites them.
    ///
    /// >>> import loadworthy as lw
    /// >>> found = lw.size_circuit(continuous="16 A", non_continuous="0 A", conductors="line-and-neutral", supplies="other",
    /// ...                         material="copper", insulation="THHN")
    /// >>> found.text, found.figures["overcurrent_device"]
    /// ('12 AWG copper behind a breaker of 20 A', '20 A')
    size_circuit = "size-circuit"(
        role, continuous, non_continuous, continuous_rating, conductors, neutral_load, voltage, length,
        drop_limit, size, material, insulation, cable, installation, place, ambient, rooftop_clearance,
        current_carrying, ungrounded, neutral, thermal_insulation, terminals, circuit_rating, kind,
        supplies, least_device, grounding_material, most_sets, raceway,
    );
    /// The circuit of one motor: conductors, grounding conductor, device against short circuit.
    ///
    /// Keywords:
    ///     output: Its output: "7-1/2 hp"
    ///     voltage: The voltage: "230 V"
    ///     phases: Its phases: single-phase or three-phase
    ///     motor_kind: Its kind, where three-phase: squirrel-cage-other-than-design-b-energy-or-premium-efficient,
    ///         design-b-energy-or-premium-efficient, ac-polyphase-other-than-wound-rotor, wound-rotor
    ///     device: The device against short circuit: inverse-time breaker, dual-element fuse, nontime-delay fuse
    ///     size: The size: "6 AWG", "1/0 AWG", "250 kcmil"
    ///     material: The material: copper, aluminum, copper-clad aluminum
    ///     insulation: The insulation: THHN, THWN-2, XHHW-2 and so on
    ///     cable: The cable that the conductor lies in, where it does: NM-B, UF-B, SE, AC, MC
    ///     installation: How it is installed: raceway, cable, buried, free air
    ///     place: The kind of place: dry, damp, wet
    ///     ambient: The ambient temperature: "30 °C", "95 °F"
    ///     rooftop_clearance: The clearance above a roof in sunlight: "6 in"
    ///     current_carrying: How many conductors carry current
    ///     ungrounded: How many ungrounded conductors there are, in place of current_carrying
    ///     neutral: What the neutral beside them carries: unbalance-only, counted, none
    ///     thermal_insulation: Whether the cable lies in thermal insulation: yes or no
    ///     terminals: The lower temperature mark of its terminals: "60 °C", "75 °C", "90 °C", unmarked
    ///     circuit_rating: The rating of the circuit, which decides how unmarked terminals count: "100 A"
    ///     grounding_material: The material of the equipment grounding conductor
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 430.6, 430.22, 430.52, 430.248, 430.250.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.size_motor(output="3 hp", voltage="230 V", phases="single-phase", material="copper", insulation="THHN").figures[
    /// ...     "full_load_current_of_the_table"]
    /// '17 A'
    size_motor = "size-motor"(
        output, voltage, phases, motor_kind, device, size, material, insulation, cable, installation, place,
        ambient, rooftop_clearance, current_carrying, ungrounded, neutral, thermal_insulation, terminals,
        circuit_rating, grounding_material,
    );
    /// The trade size of a raceway for what lies in it.
    ///
    /// Keywords:
    ///     kind: The raceway: EMT, ENT, FMC, IMC, LFMC, RMC, PVC-40, PVC-80
    ///     conductor: Like conductors in it, grounding conductors too, said again for each sort: "3 x 6 AWG
    ///         THWN-2", "3 x 4/0 AWG compact XHHW-2", "1 x 10 AWG bare"
    ///     extent: How far it goes: run, or nipple (at most 24 in between boxes)
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC Chapter 9 Tables 1, 4, 5 and 5A.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.size_raceway(kind="EMT", conductor=["3 x 6 AWG THWN-2", "1 x 10 AWG bare"]).text
    /// '3/4 in EMT'
    size_raceway = "size-raceway"(
        kind, conductor, extent,
    );
    /// The volume of a box for what it holds.
    ///
    /// Keywords:
    ///     conductor: Conductors that end, are spliced or pass unbroken inside, said again for each size: "4 x 14
    ///         AWG"
    ///     grounding: Equipment grounding conductors by count, with the size of the largest: "3 x 12 AWG", or none
    ///     device: Devices by count, with the size of the largest conductor on them: "1 x 12 AWG", or none; one
    ///         that is wider than a single device counts once for each gang
    ///     clamps: Cable clamps: internal, or none (none inside the box)
    ///     fittings: Kinds of fittings inside, studs and hickeys: 0, 1 or 2
    ///     shape: The shape of metal box to choose too: round, square, device
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 314.16.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.size_box(conductor="4 x 14 AWG", grounding="2 x 14 AWG", device="1 x 14 AWG", clamps="none", fittings=0).text
    /// '14 in3'
    size_box = "size-box"(
        conductor, grounding, device, clamps, fittings, shape,
    );
    /// A cord set for an outlet; the answer is the size of its conductors.
    ///
    /// Keywords:
    ///     outlet: The outlet: "14-50", "L14-30", "5-20"
    ///     connector: What the connector serves, where it differs: "CS-50-125/250"
    ///     device: The rating of the device that protects the outlet: "30 A"
    ///     current: The load on each line: "24 A"
    ///     voltage: The voltage: "240 V"
    ///     length: The length: "50 ft"
    ///     drop_limit: The limit on the voltage drop: "3 %"
    ///     usage: How hard it is used: not hard, hard, extra hard
    ///     place: The kind of place: dry, damp, wet
    ///     ambient: The ambient temperature: "30 °C", "95 °F"
    ///     marked: The temperature marked on the cord: "90 °C"
    ///     type: The type, where one is wanted: SOOW
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: NEC 400.4, 400.5, 240.5; ANSI/NEMA WD 6.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.size_cord(outlet="L14-30", device="30 A", current="24 A", voltage="240 V", usage="hard", place="wet").text
    /// 'SJTW 10 AWG, 4 conductors'
    size_cord = "size-cord"(
        outlet, connector, device, current, voltage, length, drop_limit, usage, place, ambient, marked,
        r#type,
    );
    /// What it takes to connect a source to a building, in several ways side by side.
    ///
    /// Keywords:
    ///     source_system: The system of the source: "120/240 V", "120 V"
    ///     source_current: The current that the source gives for hours on each line: "30 A"
    ///     source_neutral: Whether the neutral of the source is bonded to its frame: bonded or floating
    ///     outlet: An outlet with its device, several times: "14-50 = 40 A", or "14-50 = 40 A, 100 %"
    ///     panel_system: The system of the panel: "120/240 V"
    ///     panel_rating: The rating of the panel: "100 A"
    ///     want: What should run, several times: "well pump = 240 V, 8 A, must", "refrigerator = 120 V, 6 A, plug
    ///         5-15, priority 1", "furnace = 120 V, 5 A, leg A, weight 2". Where not all fits, what must be on goes
    ///         first, then by priority (1 first), then by weight, then as it stands here
    ///     cord_length: From the source to the inlet or an appliance: "25 ft"
    ///     cord_place: The place of the cords: dry, damp, wet
    ///     feeder_length: From the inlet to the panel: "20 ft"
    ///     drop_limit: The limit on the voltage drop of the cord, and again of the conductors: "3 %"
    ///     price: What a part costs, by the beginning of its name, several times: "flanged inlet = 85.00"
    ///     transfer: `none` asks for a connection without transfer equipment
    ///     size: The size: "6 AWG", "1/0 AWG", "250 kcmil"
    ///     material: The material: copper, aluminum, copper-clad aluminum
    ///     insulation: The insulation: THHN, THWN-2, XHHW-2 and so on
    ///     cable: The cable that the conductor lies in, where it does: NM-B, UF-B, SE, AC, MC
    ///     installation: How it is installed: raceway, cable, buried, free air
    ///     place: The kind of place: dry, damp, wet
    ///     ambient: The ambient temperature: "30 °C", "95 °F"
    ///     rooftop_clearance: The clearance above a roof in sunlight: "6 in"
    ///     current_carrying: How many conductors carry current
    ///     ungrounded: How many ungrounded conductors there are, in place of current_carrying
    ///     neutral: What the neutral beside them carries: unbalance-only, counted, none
    ///     thermal_insulation: Whether the cable lies in thermal insulation: yes or no
    ///     terminals: The lower temperature mark of its terminals: "60 °C", "75 °C", "90 °C", unmarked
    ///     circuit_rating: The rating of the circuit, which decides how unmarked terminals count: "100 A"
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: as the parts cite it: NEC 702, 110.14, 400.4, 240.4.
    ///
    /// >>> import loadworthy as lw
    /// >>> kit = lw.size_kit(source_system="120/240 V", source_current="24 A", outlet="L14-30 = 30 A",
    /// ...                   panel_system="120/240 V", panel_rating="100 A", want="well pump = 240 V, 8 A",
    /// ...                   cord_length="25 ft", cord_place="wet", feeder_length="20 ft",
    /// ...                   material="copper", insulation="THWN-2", terminals="75 °C")
    /// >>> kit.outcome
    /// <Outcome.ANSWERED: 'answered'>
    size_kit = "size-kit"(
        source_system, source_current, source_neutral, outlet, panel_system, panel_rating, want,
        cord_length, cord_place, feeder_length, drop_limit, price, transfer, size, material, insulation,
        cable, installation, place, ambient, rooftop_clearance, current_carrying, ungrounded, neutral,
        thermal_insulation, terminals, circuit_rating,
    );
    /// One unknown of a circuit that stands: its length, its load, its ambient temperature, its company.
    ///
    /// Keywords:
    ///     unknown: What is sought: length, load, ambient, conductors
    ///     device_rating: The rating of its overcurrent device: "20 A"
    ///     built_size: The size of its ungrounded conductors: "12 AWG"
    ///     sets: How many sets lie in parallel; one where nothing is said
    ///     duty: Whether the load that is sought is continuous or non-continuous
    ///     role: Branch or feeder
    ///     continuous: The part that lasts three hours or more: "16 A"
    ///     non_continuous: The rest: "0 A" where there is none
    ///     continuous_rating: How much of its rating the device carries for hours: "80 %", or "100 %" where the
    ///         assembly is listed for it
    ///     conductors: Its conductors: line-and-neutral, two-lines, two-lines-and-neutral, three-phase,
    ///         three-phase-and-neutral
    ///     neutral_load: The most that the neutral of a feeder carries, taken as continuous: "20 A"
    ///     voltage: The voltage, between lines where there are two: "240 V"
    ///     length: The length of the run, one way: "80 ft"
    ///     drop_limit: The limit on the voltage drop: "3 %"
    ///     size: The size: "6 AWG", "1/0 AWG", "250 kcmil"
    ///     material: The material: copper, aluminum, copper-clad aluminum
    ///     insulation: The insulation: THHN, THWN-2, XHHW-2 and so on
    ///     cable: The cable that the conductor lies in, where it does: NM-B, UF-B, SE, AC, MC
    ///     installation: How it is installed: raceway, cable, buried, free air
    ///     place: The kind of place: dry, damp, wet
    ///     ambient: The ambient temperature: "30 °C", "95 °F"
    ///     rooftop_clearance: The clearance above a roof in sunlight: "6 in"
    ///     current_carrying: How many conductors carry current
    ///     ungrounded: How many ungrounded conductors there are, in place of current_carrying
    ///     neutral: What the neutral beside them carries: unbalance-only, counted, none
    ///     thermal_insulation: Whether the cable lies in thermal insulation: yes or no
    ///     terminals: The lower temperature mark of its terminals: "60 °C", "75 °C", "90 °C", unmarked
    ///     circuit_rating: The rating of the circuit, which decides how unmarked terminals count: "100 A"
    ///     kind: The kind of device: breaker or fuse
    ///     supplies: What it supplies: several-receptacles (for cord-and-plug portable loads), other
    ///     edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said
    ///     accept: cells that somebody has read in the book and accepts
    ///
    /// Raises QuestionError where a keyword could not be understood or one that decides is missing.
    /// Source: as for `size_circuit`.
    ///
    /// >>> import loadworthy as lw
    /// >>> lw.size_solve(unknown="load", device_rating="20 A", built_size="12 AWG", duty="continuous",
    /// ...               conductors="line-and-neutral", supplies="other", material="copper", insulation="THHN").value
    /// Decimal('16')
    size_solve = "size-solve"(
        unknown, device_rating, built_size, sets, duty, role, continuous, non_continuous, continuous_rating,
        conductors, neutral_load, voltage, length, drop_limit, size, material, insulation, cable,
        installation, place, ambient, rooftop_clearance, current_carrying, ungrounded, neutral,
        thermal_insulation, terminals, circuit_rating, kind, supplies,
    );
}
