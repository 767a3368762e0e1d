//! The inlet that goes with an outlet.

use crate::published::TableId;
use crate::quantity::Amperes;
use crate::trade::Configuration;

/// The configuration of an inlet for an outlet: the same voltages, poles and neutral, rated for the outlet's device; the
/// least rating, and among those one that locks, so that the cord is not pulled out of the wall (common practice, no
/// source). `None` where no configuration that is carried will do.
///
/// ```
/// # use loadworthy::size::kit::inlet_for;
/// assert_eq!(inlet_for("14-50".parse()?, "50 A".parse()?).map(|inlet| inlet.designation()), Some("CS-50-125/250"));
/// assert_eq!(inlet_for("L14-30".parse()?, "30 A".parse()?).map(|inlet| inlet.designation()), Some("L14-30"));
/// assert_eq!(inlet_for("TT-30".parse()?, "30 A".parse()?).map(|inlet| inlet.designation()), Some("L5-30"));
/// assert_eq!(inlet_for("L14-30".parse()?, "31 A".parse()?), None);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn inlet_for(outlet: Configuration, device: Amperes) -> Option<Configuration> {
    let family = outlet.place().table;
    let alike = |other: &Configuration| {
        other.place().table == family
            && other.phases() == outlet.phases()
            && other.poles() == outlet.poles()
            && other.neutral() == outlet.neutral()
            && other.grounding()
            && other.rated_voltage() == outlet.rated_voltage()
            && other.second_voltage() == outlet.second_voltage()
            && other.rated_current() >= device
            // Behind the outlet's own face a larger one would hide what the source gives.
            && other.rated_current() <= outlet.rated_current()
    };
    if family == TableId::Iec60309Configurations {
        return Some(outlet).filter(alike);
    }
    Configuration::all().filter(alike).min_by_key(|other| {
        // Of equal rating and lock the outlet's own configuration, then the one that is not of marine supply, whose
        // designation is the longer.
        (other.rated_current(), !other.locking(), *other != outlet, usize::MAX - other.designation().len())
    })
}
