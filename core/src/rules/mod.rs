//! The rules: one file each, and the list of them.
//!
//! A rule looks at a site by a code and says, for each thing that it examines, whether it holds, fails, or cannot be
//! told. Its page, which people read, is the doc comment of its file's `rule!`.

pub(crate) mod bonds;
pub(crate) mod capacity;
mod compare;
mod cord;
mod demand;
mod distance;
mod fact;
mod finding;
mod motor_alone;
mod path;
pub(crate) mod premises;
mod rule;
mod survey;
mod wires;

pub use demand::{Bounds, Demand};
pub use finding::{Finding, Findings, Outcome, Remedy, Said, Value};
pub use rule::{Rule, Severity};
pub use survey::{Shape, Survey};

use rule::rule;

macro_rules! rules {
    ($($module:ident :: $name:ident),+ $(,)?) => {
        $(pub mod $module;)+

        /// Every rule, in the order of their slugs.
        pub static RULES: &[&Rule] = &[$(&$module::$name),+];
    };
}

rules! {
    acknowledgements_name_cautions::ACKNOWLEDGEMENTS_NAME_CAUTIONS,
    all_live_poles_move_together::ALL_LIVE_POLES_MOVE_TOGETHER,
    automatic_load_within_source::AUTOMATIC_LOAD_WITHIN_SOURCE,
    backfed_breaker_held_down::BACKFED_BREAKER_HELD_DOWN,
    backfed_breaker_not_one_way::BACKFED_BREAKER_NOT_ONE_WAY,
    backfeed_warning_at_switches::BACKFEED_WARNING_AT_SWITCHES,
    bare_contacts_never_live::BARE_CONTACTS_NEVER_LIVE,
    bond_marking_known::BOND_MARKING_KNOWN,
    bond_matches_transfer_poles::BOND_MATCHES_TRANSFER_POLES,
    breaker_protects_conductor::BREAKER_PROTECTS_CONDUCTOR,
    breaker_protects_cord::BREAKER_PROTECTS_CORD,
    breaker_protects_inlet::BREAKER_PROTECTS_INLET,
    breaks_before_it_makes::BREAKS_BEFORE_IT_MAKES,
    co_alarms::CO_ALARMS,
    co_distance::CO_DISTANCE,
    co_distance_advised::CO_DISTANCE_ADVISED,
    co_shutoff_not_a_license::CO_SHUTOFF_NOT_A_LICENSE,
    conductor_ampacity::CONDUCTOR_AMPACITY,
    conductor_suits_place::CONDUCTOR_SUITS_PLACE,
    continuous_load_on_conductor::CONTINUOUS_LOAD_ON_CONDUCTOR,
    continuous_load_on_device::CONTINUOUS_LOAD_ON_DEVICE,
    cord_ampacity::CORD_AMPACITY,
    cord_connections_off_ground::CORD_CONNECTIONS_OFF_GROUND,
    cord_not_fixed_wiring::CORD_NOT_FIXED_WIRING,
    cord_set_length_limit::CORD_SET_LENGTH_LIMIT,
    cord_sound::CORD_SOUND,
    cord_suits_place::CORD_SUITS_PLACE,
    cord_through_opening::CORD_THROUGH_OPENING,
    cord_unrolled::CORD_UNROLLED,
    electrode_when_feeding_building::ELECTRODE_WHEN_FEEDING_BUILDING,
    energy_lasts_long_enough::ENERGY_LASTS_LONG_ENOUGH,
    engine_clear_all_round::ENGINE_CLEAR_ALL_ROUND,
    engine_fire_distance::ENGINE_FIRE_DISTANCE,
    engine_outside_only::ENGINE_OUTSIDE_ONLY,
    equipment_grounding_conductor::EQUIPMENT_GROUNDING_CONDUCTOR,
    floating_source_on_its_own::FLOATING_SOURCE_ON_ITS_OWN,
    frame_may_be_the_electrode::FRAME_MAY_BE_THE_ELECTRODE,
    frequency_match::FREQUENCY_MATCH,
    generator_disconnect::GENERATOR_DISCONNECT,
    gfci_on_portable_outlets::GFCI_ON_PORTABLE_OUTLETS,
    grounding_path_whole::GROUNDING_PATH_WHOLE,
    inlet_neutral_sign::INLET_NEUTRAL_SIGN,
    inlet_of_right_kind::INLET_OF_RIGHT_KIND,
    instructions_posted::INSTRUCTIONS_POSTED,
    interlock_works_with_cover_on::INTERLOCK_WORKS_WITH_COVER_ON,
    island_supply_has_own_earth::ISLAND_SUPPLY_HAS_OWN_EARTH,
    kept_dry::KEPT_DRY,
    large_inlet_interlocked::LARGE_INLET_INTERLOCKED,
    largest_single_load_within_source::LARGEST_SINGLE_LOAD_WITHIN_SOURCE,
    largest_start_first::LARGEST_START_FIRST,
    leg_imbalance_noted::LEG_IMBALANCE_NOTED,
    loads_kept_off::LOADS_KEPT_OFF,
    lock_and_tag_all_sources::LOCK_AND_TAG_ALL_SOURCES,
    main_open_and_proved::MAIN_OPEN_AND_PROVED,
    manual_load_within_source::MANUAL_LOAD_WITHIN_SOURCE,
    medical_equipment_has_own_plan::MEDICAL_EQUIPMENT_HAS_OWN_PLAN,
    meter_mounted_switch_agreed::METER_MOUNTED_SWITCH_AGREED,
    motor_conductor_ampacity::MOTOR_CONDUCTOR_AMPACITY,
    motor_device_not_too_large::MOTOR_DEVICE_NOT_TOO_LARGE,
    motor_start_within_source::MOTOR_START_WITHIN_SOURCE,
    motor_voltage_and_frequency::MOTOR_VOLTAGE_AND_FREQUENCY,
    nameplate_known::NAMEPLATE_KNOWN,
    neutral_bus_above_source::NEUTRAL_BUS_ABOVE_SOURCE,
    neutral_never_opens_first::NEUTRAL_NEVER_OPENS_FIRST,
    no_backfeed_through_charger::NO_BACKFEED_THROUGH_CHARGER,
    no_cord_with_two_plugs::NO_CORD_WITH_TWO_PLUGS,
    no_cut_ground_to_stop_tripping::NO_CUT_GROUND_TO_STOP_TRIPPING,
    no_plug_under_load::NO_PLUG_UNDER_LOAD,
    no_series_cords::NO_SERIES_CORDS,
    no_unattended_automatic_on_portable::NO_UNATTENDED_AUTOMATIC_ON_PORTABLE,
    one_neutral_ground_bond::ONE_NEUTRAL_GROUND_BOND,
    panel_space_clear::PANEL_SPACE_CLEAR,
    parallel_busbar_sum::PARALLEL_BUSBAR_SUM,
    parallel_only_if_built_for_it::PARALLEL_ONLY_IF_BUILT_FOR_IT,
    phase_sequence_match::PHASE_SEQUENCE_MATCH,
    plug_enters_receptacle::PLUG_ENTERS_RECEPTACLE,
    portable_set_30ma::PORTABLE_SET_30MA,
    prime_mover_shutdown::PRIME_MOVER_SHUTDOWN,
    protective_electronics_on_source::PROTECTIVE_ELECTRONICS_ON_SOURCE,
    receptacle_load::RECEPTACLE_LOAD,
    receptacle_not_a_way_in::RECEPTACLE_NOT_A_WAY_IN,
    receptacle_suits_circuit::RECEPTACLE_SUITS_CIRCUIT,
    refuel_cool::REFUEL_COOL,
    refuel_stopped::REFUEL_STOPPED,
    return_in_order::RETURN_IN_ORDER,
    second_bond_trips_source_gfci::SECOND_BOND_TRIPS_SOURCE_GFCI,
    shared_neutral_opened_together::SHARED_NEUTRAL_OPENED_TOGETHER,
    shared_neutral_within_rating::SHARED_NEUTRAL_WITHIN_RATING,
    single_120v_source_no_shared_neutrals::SINGLE_120V_SOURCE_NO_SHARED_NEUTRALS,
    single_pole_connectors_in_order::SINGLE_POLE_CONNECTORS_IN_ORDER,
    smallest_rating_governs::SMALLEST_RATING_GOVERNS,
    source_conductor_ampacity::SOURCE_CONDUCTOR_AMPACITY,
    source_instructions_allow_building_supply::SOURCE_INSTRUCTIONS_ALLOW_BUILDING_SUPPLY,
    source_not_feeding_its_own_charger::SOURCE_NOT_FEEDING_ITS_OWN_CHARGER,
    source_opened_before_utility::SOURCE_OPENED_BEFORE_UTILITY,
    source_overload_protected::SOURCE_OVERLOAD_PROTECTED,
    source_signs_at_service::SOURCE_SIGNS_AT_SERVICE,
    sources_mutually_excluded::SOURCES_MUTUALLY_EXCLUDED,
    surge_and_electronics::SURGE_AND_ELECTRONICS,
    temporary_source_under_exception::TEMPORARY_SOURCE_UNDER_EXCEPTION,
    test_before_touch::TEST_BEFORE_TOUCH,
    transfer_equipment_present::TRANSFER_EQUIPMENT_PRESENT,
    transfer_equipment_suited::TRANSFER_EQUIPMENT_SUITED,
    transfer_ratings_enough::TRANSFER_RATINGS_ENOUGH,
    unload_before_transfer::UNLOAD_BEFORE_TRANSFER,
    utility_informed::UTILITY_INFORMED,
    vehicle_cannot_drive_off::VEHICLE_CANNOT_DRIVE_OFF,
    vehicle_export_listed::VEHICLE_EXPORT_LISTED,
    vehicle_frame_bonded::VEHICLE_FRAME_BONDED,
    vehicle_outlet_limits::VEHICLE_OUTLET_LIMITS,
    voltage_and_poles_match::VOLTAGE_AND_POLES_MATCH,
    voltage_at_load::VOLTAGE_AT_LOAD,
    voltage_drop_in_branch::VOLTAGE_DROP_IN_BRANCH,
    voltage_drop_on_path::VOLTAGE_DROP_ON_PATH,
    voltage_window::VOLTAGE_WINDOW,
    waveform_suits_loads::WAVEFORM_SUITS_LOADS,
    wet_receptacle_covered::WET_RECEPTACLE_COVERED,
}

/// The rule of a slug.
#[must_use]
pub fn find(slug: &str) -> Option<&'static Rule> {
    RULES.iter().copied().find(|rule| rule.slug == slug)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_are_sorted_by_slug_and_their_pages_are_whole() {
        assert!(RULES.is_sorted_by(|a, b| a.slug < b.slug));
        for rule in RULES {
            for heading in ["## Protects against", "## Cannot tell when", "## Remedy"] {
                assert!(rule.page().contains(heading), "{} lacks {heading}", rule.slug);
            }
            let sourced = !rule.topics.is_empty() || !rule.sources.is_empty();
            assert!(!rule.summary.is_empty() && sourced, "{}", rule.slug);
        }
    }

    #[test]
    fn every_topic_has_a_section_and_every_edition_a_section_or_a_source() {
        use crate::code::{Code, Edition, Nec};
        for rule in RULES {
            let has = |edition, topic| Nec::standard(edition).section(topic).section.is_some();
            for topic in rule.topics {
                assert!(Edition::ALL.into_iter().any(|edition| has(edition, topic)), "{}: {topic}", rule.slug);
            }
            for edition in Edition::ALL {
                let cited = rule.topics.iter().any(|topic| has(edition, topic)) || !rule.sources.is_empty();
                assert!(cited, "{} in {}", rule.slug, edition.id());
            }
        }
    }
}
