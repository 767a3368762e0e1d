//! The order to connect a source, to return and to disconnect, found and proved; or somebody's own order judged.

use std::ffi::c_char;

use loadworthy::check::{WithWorking, check};
use loadworthy::report::{sequence as text, sequence_checklist as checklist, sequence_json as json};
use loadworthy::switching::{self, Arrangement, Order, Sequence};

use crate::border::{self, Out, OutHandle, OutStruct, Plain, Text, Texts, free, guard, handle, lw_str};
use crate::code::lw_code;
use crate::error::{fail, lw_error, no_such_index};
use crate::outcome::{lw_outcome, of_outcome};
use crate::report::line;
use crate::site::{code_for, lw_site};
use crate::status::{LW_STATUS_DOCUMENT, lw_status};

/// The orders of switching of a site, or the judgement of somebody's own. It is only read: any number of threads may use
/// one at once.
pub struct lw_sequence {
    outcome: lw_outcome,
    steps: Vec<Step>,
    text: Text,
    json: Text,
    checklist: Option<Text>,
}

struct Step {
    source: Text,
    purpose: lw_purpose,
    number: u32,
    operation: Text,
    see: Text,
    because: Text,
}

/// What an order is for: one of the `LW_PURPOSE_` constants.
pub type lw_purpose = i32;

/// From the normal state to the chosen loads on the source.
pub const LW_PURPOSE_CONNECT: lw_purpose = 1;
/// From there to the building on the utility, the source still running without load.
pub const LW_PURPOSE_RETURN: lw_purpose = 2;
/// From there to the normal state.
pub const LW_PURPOSE_DISCONNECT: lw_purpose = 3;
/// To refuel while the loads are on the source, and back to them; for a source with an engine.
pub const LW_PURPOSE_REFUEL: lw_purpose = 4;

/// One step of an order: an output. Its texts live as long as the sequence.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_switching_step {
    /// Set it to `sizeof(lw_switching_step)`.
    pub struct_size: usize,
    /// The source that the order belongs to.
    pub source: lw_str,
    /// What the order is for.
    pub purpose: lw_purpose,
    /// The number of the step in its order, from 1.
    pub number: u32,
    /// What to do.
    pub operation: lw_str,
    /// What to see before going on.
    pub see: lw_str,
    /// Why it is there and comes there.
    pub because: lw_str,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_switching_step {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        source: lw_str::NONE,
        purpose: 0,
        number: 0,
        operation: lw_str::NONE,
        see: lw_str::NONE,
        because: lw_str::NONE,
    };
}

fn steps(found: &Sequence<'_>) -> Vec<Step> {
    let mut all = Vec::new();
    for plan in &found.plans {
        let (Some(arrangement), Ok(orders)) = (found.arrangements.get(plan.arrangement), &plan.answer) else {
            continue;
        };
        let source = arrangement.network.name(plan.source);
        let mut add = |purpose, order| all.extend(of_order(arrangement, source, purpose, order));
        add(LW_PURPOSE_CONNECT, &orders.connect);
        if let Some(retransfer) = &orders.retransfer {
            add(LW_PURPOSE_RETURN, retransfer);
        }
        add(LW_PURPOSE_DISCONNECT, &orders.disconnect);
        if let Some(refuel) = &orders.refuel {
            add(LW_PURPOSE_REFUEL, refuel);
        }
    }
    all
}

fn of_order<'a>(
    arrangement: &'a Arrangement,
    source: &'a str,
    purpose: lw_purpose,
    order: &'a Order,
) -> impl Iterator<Item = Step> + 'a {
    (1_u32..).zip(&order.steps).map(move |(number, step)| Step {
        source: Text::new(source),
        purpose,
        number,
        operation: Text::new(arrangement.network.operation(step.operation)),
        see: Text::new(step.verify),
        because: Text::new(text::why(arrangement, order, usize::try_from(number).unwrap_or(usize::MAX))),
    })
}

/// Finds the orders of switching of a site, each proved, or says why there are none.
///
/// `code` may be NULL: then the edition judges that the description names. On success `*sequence_out` owns the sequence:
/// release it with `lw_sequence_free`. Several threads may ask at once, of one site.
///
/// ```c
/// lw_sequence *sequence;
/// lw_site_sequence(site, NULL, &sequence, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_site_sequence(
    site: *const lw_site,
    code: *const lw_code,
    sequence_out: *mut *mut lw_sequence,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(sequence_out, "sequence_out")?;
        let site = &handle(site, "site")?.site;
        let code = code_for(site, code)?;
        let checked = check(site, code.code(), WithWorking::No);
        let found = switching::sequence(&checked);
        let (mut page, mut list) = (String::new(), String::new());
        // A `String` takes whatever is written to it.
        let _ = text::write(&found, &mut page);
        let _ = checklist::write(&found, &mut list);
        out.give(lw_sequence {
            outcome: of_outcome(found.outcome()),
            steps: steps(&found),
            json: line(&json::document(&found))?,
            text: Text::new(page),
            checklist: Some(Text::new(list)),
        });
        Ok(())
    })
}

/// Judges somebody's own order of switching, a TOML document of steps as `loadworthy sequence --verify` takes it.
///
/// `name` is what messages call the document. Where it cannot be read, the status is `LW_STATUS_DOCUMENT`. `code` may be
/// NULL: then the edition judges that the description names. On success `*sequence_out` owns the judgement: release it
/// with `lw_sequence_free`; it has no checklist, and no steps to walk. Several threads may ask at once, of one site.
///
/// ```c
/// lw_sequence *judgement;
/// lw_site_verify_steps(site, NULL, "steps.toml", 10, bytes, len, &judgement, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_site_verify_steps(
    site: *const lw_site,
    code: *const lw_code,
    name: *const c_char,
    name_len: usize,
    document: *const c_char,
    document_len: usize,
    sequence_out: *mut *mut lw_sequence,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(sequence_out, "sequence_out")?;
        let site = &handle(site, "site")?.site;
        let code = code_for(site, code)?;
        let name = border::text(name, name_len, "name")?;
        let document = border::text(document, document_len, "document")?;
        let checked = check(site, code.code(), WithWorking::No);
        let found = switching::verify_steps(&checked, name, document)
            .map_err(|problems| fail(LW_STATUS_DOCUMENT, "document", format_args!("{problems}")))?;
        let mut page = String::new();
        // A `String` takes whatever is written to it.
        let _ = text::write_verified(&found, &mut page);
        out.give(lw_sequence {
            outcome: of_outcome(found.outcome()),
            steps: Vec::new(),
            json: line(&json::judgement(&found))?,
            text: Text::new(page),
            checklist: None,
        });
        Ok(())
    })
}

/// Frees a sequence; NULL does nothing. After it none of its texts may be used.
///
/// Not while another call uses the sequence.
///
/// ```c
/// lw_sequence_free(sequence);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_sequence_free(sequence: *mut lw_sequence) -> lw_status {
    free(sequence, "sequence")
}

/// Whether every source has its proved orders, or the steps keep every invariant.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_outcome outcome;
/// lw_sequence_outcome(sequence, &outcome, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_sequence_outcome(
    sequence: *const lw_sequence,
    outcome_out: *mut lw_outcome,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(outcome_out, "outcome_out", 0)?;
        out.write(handle(sequence, "sequence")?.outcome);
        Ok(())
    })
}

/// How many steps the orders have together.
///
/// Several threads may ask at once.
///
/// ```c
/// size_t count;
/// lw_sequence_step_count(sequence, &count, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_sequence_step_count(
    sequence: *const lw_sequence,
    count_out: *mut usize,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(count_out, "count_out", 0)?;
        out.write(handle(sequence, "sequence")?.steps.len());
        Ok(())
    })
}

/// One step, counted from 0 through all orders. Its texts live as long as the sequence.
///
/// `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.
///
/// ```c
/// lw_switching_step step = lw_switching_step_init();
/// if (lw_sequence_step(sequence, 0, &step, NULL) == LW_STATUS_OK)
///     printf("%u. %s\n", (unsigned)step.number, step.operation.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_sequence_step(
    sequence: *const lw_sequence,
    index: usize,
    step_out: *mut lw_switching_step,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutStruct::new(step_out, "step_out")?;
        let steps = &handle(sequence, "sequence")?.steps;
        let step = steps.get(index).ok_or_else(|| no_such_index(index, steps.len()))?;
        out.write(lw_switching_step {
            source: step.source.as_str(),
            purpose: step.purpose,
            number: step.number,
            operation: step.operation.as_str(),
            see: step.see.as_str(),
            because: step.because.as_str(),
            ..lw_switching_step::UNSTATED
        });
        Ok(())
    })
}

/// The orders, or the judgement, for a person to read, byte for byte as `loadworthy sequence` prints them. The text lives
/// as long as the sequence.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str text;
/// lw_sequence_text(sequence, &text, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_sequence_text(
    sequence: *const lw_sequence,
    text_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(text_out, "text_out", lw_str::NONE)?;
        out.write(handle(sequence, "sequence")?.text.as_str());
        Ok(())
    })
}

/// The same for a program, byte for byte as `loadworthy sequence --format json` prints it. The text lives as long as the
/// sequence.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str json;
/// lw_sequence_json(sequence, &json, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_sequence_json(
    sequence: *const lw_sequence,
    json_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(json_out, "json_out", lw_str::NONE)?;
        out.write(handle(sequence, "sequence")?.json.as_str());
        Ok(())
    })
}

/// A page to print, byte for byte as `loadworthy sequence --format checklist` prints it; NULL as its `data` for a
/// judgement. The text lives as long as the sequence.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str page;
/// lw_sequence_checklist(sequence, &page, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_sequence_checklist(
    sequence: *const lw_sequence,
    checklist_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(checklist_out, "checklist_out", lw_str::NONE)?;
        out.write(handle(sequence, "sequence")?.checklist.or_none());
        Ok(())
    })
}
