//! `transfer-ratings-enough`: transfer equipment bears the devices ahead of it and the faults behind it.

use super::{Findings, Remedy, Said, Survey, Value, rule, wires};
use crate::quantity::Amperes;
use crate::site::{Component, Transfer, TransferKind};

rule! {
    /// ## Protects against
    /// Contacts that weld or burst: in a fault of either supply, or under a device that lets through more than they carry.
    ///
    /// ## Cannot tell when
    /// Its rated current, the device ahead of it on either side, its short-circuit rating or the greatest fault current is
    /// not stated. An interlock has no contacts of its own: only the fault current counts for it.
    ///
    /// ## Remedy
    /// Transfer equipment of a higher rating.
    TRANSFER_RATINGS_ENOUGH = "transfer-ratings-enough" {
        severity: Violation,
        summary: "transfer equipment is rated below its supplies",
        topics: ["transfer-fault-current", "transfer-equipment", "interrupting-rating", "short-circuit-rating"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers() {
        if transfer.kind != TransferKind::Interlock {
            let ahead = wires::ahead(survey, Component::Transfer(transfer)).and_then(|device| device.rating);
            current(found, transfer, ("from", "the rating of the device ahead of it on the source's side"), ahead);
            let normal = transfer.normal_device.as_deref().copied();
            current(found, transfer, ("normal_device", "the rating of the device ahead of it on the normal side"), normal);
        }
        fault(found, transfer);
    }
}

fn current(found: &mut Findings, of: &Transfer, (field, fact): (&'static str, &'static str), device: Option<Amperes>) {
    let Some(rated) = of.rated_current.as_deref().copied() else {
        return found.ask(of, "rated_current", "its rated current");
    };
    let Some(device) = device else {
        return found.ask(of, field, fact);
    };
    let said = Said::Compared {
        does: "stands behind a device of",
        measured: Value::Current(device),
        limit_words: "its rated current is",
        limit: Value::Current(rated),
    };
    let remedy = Remedy::Use("use transfer equipment rated at least", Value::Current(device));
    found.judge(of, field, device <= rated, said, remedy);
}

fn fault(found: &mut Findings, of: &Transfer) {
    let Some(rating) = of.short_circuit_rating.as_deref().copied() else {
        return found.ask(of, "short_circuit_rating", "its short-circuit rating");
    };
    let Some(available) = of.available_fault_current.as_deref().copied() else {
        return found.ask(of, "available_fault_current", "the greatest fault current that its supplies can drive");
    };
    let said = Said::Compared {
        does: "may have to bear a fault current of",
        measured: Value::Current(available),
        limit_words: "its short-circuit rating is",
        limit: Value::Current(rating),
    };
    let remedy = Remedy::Use("use equipment whose short-circuit rating is at least", Value::Current(available));
    found.judge(of, "short_circuit_rating", available <= rating, said, remedy);
}
