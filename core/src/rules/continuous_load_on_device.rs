//! `continuous-load-on-device`: a device bears its continuous loads for hours.

use super::compare::{Against, load_against};
use super::wires::{Device, Run};
use super::{Findings, Remedy, Survey, rule};
use crate::calc::continuous;
use crate::site::Component;

rule! {
    /// ## Protects against
    /// Devices that trip, and terminations that overheat, because a load of three hours or more takes all of a device
    /// that is made to carry 80 % of its rating for so long.
    ///
    /// ## Cannot tell when
    /// The rating of the device, the current of a load, its duration, or (where that decides) whether the device and its
    /// assembly are listed for 100 %, is not stated.
    ///
    /// ## Remedy
    /// Less continuous load, or a larger device where the conductor permits it.
    CONTINUOUS_LOAD_ON_DEVICE = "continuous-load-on-device" {
        severity: Violation,
        summary: "continuous loads take more of a device than it bears for hours",
        topics: ["continuous-branch-overcurrent", "continuous-feeder-overcurrent", "listed-for-100-percent"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    let runs = Run::all(survey).filter_map(|run| match run {
        Run::Circuit(circuit) => circuit.overcurrent_device.as_ref().map(|own| Device::own(own, run.component())),
        Run::Feeder(feeder) => feeder.overcurrent_device.as_ref().map(|own| Device::own(own, run.component())),
    });
    let outlets = survey.site.outlets().map(Device::of_outlet);
    let panels = survey.site.panels().iter().filter_map(|panel| {
        let own = panel.supply_breaker.as_ref()?;
        Some(Device { field: "supply_breaker", ..Device::own(own, Component::Panel(panel)) })
    });
    for device in runs.chain(outlets).chain(panels) {
        judge(survey, found, device);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, device: Device<'_>) {
    let Some(limit) = device.rating else {
        return found.ask(device.at, device.field, "the rating of its overcurrent device");
    };
    // What is not said to be listed for 100 % is not: the usual device.
    let rating = device.continuous.unwrap_or(crate::trade::ContinuousRating::Standard);
    match continuous::factors(survey.code, rating) {
        Err(gap) => found.gap(device.at, device.field, gap),
        Ok((factor, _)) => {
            let against = Against {
                field: device.field,
                does: "needs a device of at least",
                limit_words: "its device is rated",
                limit,
                factor,
                remedy: Remedy::Do("move a continuous load away, or use a larger device where the conductor permits it"),
            };
            load_against(survey, found, device.at, against);
        }
    }
}
