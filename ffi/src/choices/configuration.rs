//! The configurations of plugs and receptacles by number.

use std::sync::LazyLock;

use loadworthy::trade::Configuration;

use super::{missing, unknown};
use crate::error::Result;

/// The configuration of a plug and a receptacle (ANSI/NEMA WD 6, IEC 60309-2): one of the `LW_CONFIGURATION_`
/// constants, 0 where it is not stated.
pub type lw_configuration = i32;

/// 1-15.
pub const LW_CONFIGURATION_1_15: lw_configuration = 1;
/// 5-15.
pub const LW_CONFIGURATION_5_15: lw_configuration = 2;
/// 5-20.
pub const LW_CONFIGURATION_5_20: lw_configuration = 3;
/// 5-30.
pub const LW_CONFIGURATION_5_30: lw_configuration = 4;
/// 5-50.
pub const LW_CONFIGURATION_5_50: lw_configuration = 5;
/// 6-15.
pub const LW_CONFIGURATION_6_15: lw_configuration = 6;
/// 6-20.
pub const LW_CONFIGURATION_6_20: lw_configuration = 7;
/// 6-30.
pub const LW_CONFIGURATION_6_30: lw_configuration = 8;
/// 6-50.
pub const LW_CONFIGURATION_6_50: lw_configuration = 9;
/// 10-30.
pub const LW_CONFIGURATION_10_30: lw_configuration = 10;
/// 10-50.
pub const LW_CONFIGURATION_10_50: lw_configuration = 11;
/// 14-15.
pub const LW_CONFIGURATION_14_15: lw_configuration = 12;
/// 14-20.
pub const LW_CONFIGURATION_14_20: lw_configuration = 13;
/// 14-30.
pub const LW_CONFIGURATION_14_30: lw_configuration = 14;
/// 14-50.
pub const LW_CONFIGURATION_14_50: lw_configuration = 15;
/// 14-60.
pub const LW_CONFIGURATION_14_60: lw_configuration = 16;
/// TT-30.
pub const LW_CONFIGURATION_TT_30: lw_configuration = 17;
/// L5-15.
pub const LW_CONFIGURATION_L5_15: lw_configuration = 18;
/// L5-20.
pub const LW_CONFIGURATION_L5_20: lw_configuration = 19;
/// L5-30.
pub const LW_CONFIGURATION_L5_30: lw_configuration = 20;
/// L6-15.
pub const LW_CONFIGURATION_L6_15: lw_configuration = 21;
/// L6-20.
pub const LW_CONFIGURATION_L6_20: lw_configuration = 22;
/// L6-30.
pub const LW_CONFIGURATION_L6_30: lw_configuration = 23;
/// L14-20.
pub const LW_CONFIGURATION_L14_20: lw_configuration = 24;
/// L14-30.
pub const LW_CONFIGURATION_L14_30: lw_configuration = 25;
/// L21-30.
pub const LW_CONFIGURATION_L21_30: lw_configuration = 26;
/// SS2-50.
pub const LW_CONFIGURATION_SS2_50: lw_configuration = 27;
/// CS-50-125/250.
pub const LW_CONFIGURATION_CS_50_125_250: lw_configuration = 28;
/// IEC 60309 16 A blue 2P+E.
pub const LW_CONFIGURATION_IEC_60309_16_A_BLUE_2P_E: lw_configuration = 29;
/// IEC 60309 32 A blue 2P+E.
pub const LW_CONFIGURATION_IEC_60309_32_A_BLUE_2P_E: lw_configuration = 30;
/// IEC 60309 63 A blue 2P+E.
pub const LW_CONFIGURATION_IEC_60309_63_A_BLUE_2P_E: lw_configuration = 31;
/// IEC 60309 16 A red 3P+N+E.
pub const LW_CONFIGURATION_IEC_60309_16_A_RED_3P_N_E: lw_configuration = 32;
/// IEC 60309 32 A red 3P+N+E.
pub const LW_CONFIGURATION_IEC_60309_32_A_RED_3P_N_E: lw_configuration = 33;
/// IEC 60309 63 A red 3P+N+E.
pub const LW_CONFIGURATION_IEC_60309_63_A_RED_3P_N_E: lw_configuration = 34;
/// IEC 60309 16 A red 3P+E.
pub const LW_CONFIGURATION_IEC_60309_16_A_RED_3P_E: lw_configuration = 35;
/// IEC 60309 32 A red 3P+E.
pub const LW_CONFIGURATION_IEC_60309_32_A_RED_3P_E: lw_configuration = 36;
/// IEC 60309 63 A red 3P+E.
pub const LW_CONFIGURATION_IEC_60309_63_A_RED_3P_E: lw_configuration = 37;

/// The designations behind [`lw_configuration`], in the order of their numbers.
pub static DESIGNATIONS: [&str; 37] = [
    "1-15",
    "5-15",
    "5-20",
    "5-30",
    "5-50",
    "6-15",
    "6-20",
    "6-30",
    "6-50",
    "10-30",
    "10-50",
    "14-15",
    "14-20",
    "14-30",
    "14-50",
    "14-60",
    "TT-30",
    "L5-15",
    "L5-20",
    "L5-30",
    "L6-15",
    "L6-20",
    "L6-30",
    "L14-20",
    "L14-30",
    "L21-30",
    "SS2-50",
    "CS-50-125/250",
    "IEC 60309 16 A blue 2P+E",
    "IEC 60309 32 A blue 2P+E",
    "IEC 60309 63 A blue 2P+E",
    "IEC 60309 16 A red 3P+N+E",
    "IEC 60309 32 A red 3P+N+E",
    "IEC 60309 63 A red 3P+N+E",
    "IEC 60309 16 A red 3P+E",
    "IEC 60309 32 A red 3P+E",
    "IEC 60309 63 A red 3P+E",
];

/// What a configuration is called in a message.
const CONFIGURATION: &str = "configuration";

/// The published table gives them; looked up once.
static CONFIGURATIONS: LazyLock<Vec<Option<Configuration>>> =
    LazyLock::new(|| DESIGNATIONS.iter().map(|designation| designation.parse().ok()).collect());

/// The configuration of a number, `None` where it is not stated.
pub(crate) fn configuration_given(number: i32, place: &'static str) -> Result<Option<Configuration>> {
    if number == 0 {
        return Ok(None);
    }
    let index = usize::try_from(number).ok().and_then(|number| number.checked_sub(1));
    match index.and_then(|index| CONFIGURATIONS.get(index)).copied().flatten() {
        Some(configuration) => Ok(Some(configuration)),
        None => Err(unknown(number, CONFIGURATION, DESIGNATIONS.len(), place)),
    }
}

/// The configuration of a number that must be stated.
pub(crate) fn configuration(number: i32, place: &'static str) -> Result<Configuration> {
    configuration_given(number, place)?.ok_or_else(|| missing(CONFIGURATION, place))
}
