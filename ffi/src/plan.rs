//! What can run on the source of a site, in which order, and for how long.

use std::ffi::c_char;
use std::mem::offset_of;
use std::sync::Arc;

use loadworthy::check::{WithWorking, check};
use loadworthy::plan::site::{Body, MeasuredBase, Options, RecordError, SitePlan, plan};
use loadworthy::quantity::{Ratio, Seconds};
use loadworthy::report;
use loadworthy::trade::Leg;

use crate::border::{
    Out, OutHandle, OutStruct, Plain, Text, Texts, free, guard, handle, long_text, lw_str, plain, text,
};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error, no_such_index};
use crate::number::{Unit, amperes, given, needed};
use crate::outcome::{LW_NO, LW_YES, lw_outcome, lw_yes_no, of_plan};
use crate::report::line;
use crate::site::{code_for, lw_site};
use crate::status::{LW_STATUS_BAD_NUMBER, LW_STATUS_DOCUMENT, LW_STATUS_NOT_STATED, lw_status};

/// The plan of a site. It is only read: any number of threads may use one at once.
pub struct lw_plan {
    outcome: lw_outcome,
    loads: Vec<Planned>,
    planned: Arc<loadworthy::site::Site>,
    text: Text,
    json: Text,
}

/// A load in the plan.
struct Planned {
    name: Text,
    on: bool,
    leg: lw_leg,
    current_a: f64,
    why: Option<Text>,
}

/// A leg of a split phase: one of the `LW_LEG_` constants; 0 where there is none.
pub type lw_leg = i32;

/// Leg A.
pub const LW_LEG_A: lw_leg = 1;
/// Leg B.
pub const LW_LEG_B: lw_leg = 2;
/// Both legs.
pub const LW_LEG_BOTH: lw_leg = 3;

/// What is asked of a plan. Make one with `lw_plan_options_init`.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_plan_options {
    /// Set it to `sizeof(lw_plan_options)`.
    pub struct_size: usize,
    /// The name of the source, UTF-8, where the site has several; else NULL.
    pub source: *const c_char,
    /// Its length in bytes.
    pub source_len: usize,
    /// An order of starts to be judged, UTF-8: names of loads with commas between them; else NULL.
    pub start_order: *const c_char,
    /// Its length in bytes.
    pub start_order_len: usize,
    /// How long it is wanted to last, in hours; NAN where nothing is wished.
    pub wished_h: f64,
    /// The hour of the day at which the source takes over, 0 to 23.
    pub start_hour: i32,
    /// Zero.
    pub reserved: i32,
    /// A record of the home's meter that gives the base load, CSV or a utility's ESPI export in XML, UTF-8, at most 64 MiB;
    /// else NULL.
    pub record: *const c_char,
    /// Its length in bytes.
    pub record_len: usize,
    /// What notes and errors call the record, UTF-8; NULL for `record`.
    pub record_name: *const c_char,
    /// Its length in bytes.
    pub record_name_len: usize,
    /// The share of the recorded time that the base load covers, in percent, at most 100; stated where there is a record.
    pub record_share_percent: f64,
    /// The described loads that the record holds already, UTF-8: their names with commas between them; else NULL.
    pub record_for: *const c_char,
    /// Its length in bytes.
    pub record_for_len: usize,
}

/// A load in a plan: an output. Its texts live as long as the plan.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_planned_load {
    /// Set it to `sizeof(lw_planned_load)`.
    pub struct_size: usize,
    /// Its name.
    pub name: lw_str,
    /// Whether it can stay on with the others.
    pub on: lw_yes_no,
    /// Its leg, where it is on.
    pub leg: lw_leg,
    /// What it draws in each line, in amperes, rounded up to the microampere; NAN where it is off.
    pub current_a: f64,
    /// Why it is kept off; NULL as its `data` where it is on.
    pub why: lw_str,
}

// SAFETY: `repr(C)`, `struct_size` first, integers, doubles and pointers only.
unsafe impl Plain for lw_plan_options {
    // Before there were records.
    const LEAST: usize = offset_of!(Self, record);
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        source: std::ptr::null(),
        source_len: 0,
        start_order: std::ptr::null(),
        start_order_len: 0,
        wished_h: f64::NAN,
        start_hour: 0,
        reserved: 0,
        record: std::ptr::null(),
        record_len: 0,
        record_name: std::ptr::null(),
        record_name_len: 0,
        record_share_percent: f64::NAN,
        record_for: std::ptr::null(),
        record_for_len: 0,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers, doubles and pointers only.
unsafe impl Plain for lw_planned_load {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        name: lw_str::NONE,
        on: 0,
        leg: 0,
        current_a: f64::NAN,
        why: lw_str::NONE,
    };
}

impl lw_plan_options {
    /// The options, and what is to be noted about the record.
    fn read(&self) -> Result<(Options, Vec<String>)> {
        let source = text(self.source, self.source_len, "options.source")?;
        let order = text(self.start_order, self.start_order_len, "options.start_order")?;
        let start_hour = u8::try_from(self.start_hour).ok().filter(|hour| *hour < 24).ok_or_else(|| {
            let hour = self.start_hour;
            fail(LW_STATUS_BAD_NUMBER, "options.start_hour", format_args!("the day has no hour {hour}; write 0 to 23"))
        })?;
        let (measured, notices) = self.measured()?.unzip();
        let options = Options {
            source: (!source.is_empty()).then(|| source.to_owned()),
            start_order: (!order.is_empty()).then(|| names(order)),
            wish: given::<Seconds>(self.wished_h, &Unit::HOUR, "options.wished_h")?,
            start_hour,
            measured,
            work: None,
        };
        Ok((options, notices.unwrap_or_default()))
    }

    fn measured(&self) -> Result<Option<(MeasuredBase, Vec<String>)>> {
        let record = long_text(self.record, self.record_len, MOST_RECORD, "options.record")?;
        let name = text(self.record_name, self.record_name_len, "options.record_name")?;
        let stands_for = names(text(self.record_for, self.record_for_len, "options.record_for")?);
        let share = given::<Ratio>(self.record_share_percent, &Unit::PERCENT, "options.record_share_percent")?;
        if record.is_empty() {
            return match share {
                None => Ok(None),
                Some(_) => Err(fail(
                    LW_STATUS_NOT_STATED,
                    "options.record",
                    format_args!("is not stated, but what share of it counts is; pass one, or leave NAN in the share"),
                )),
            };
        }
        let share = needed(share, "share of the recorded time", "options.record_share_percent")?;
        let name = if name.is_empty() { "record" } else { name };
        MeasuredBase::of_record(name, record, share, stands_for).map(Some).map_err(|wrong| match wrong {
            RecordError::Share(_) => {
                fail(LW_STATUS_BAD_NUMBER, "options.record_share_percent", format_args!("{wrong}; write at most 100"))
            }
            _ => fail(LW_STATUS_DOCUMENT, "options.record", format_args!("{wrong}")),
        })
    }
}

/// The longest record that is taken: a year of minutes has about 16 MiB.
const MOST_RECORD: usize = 64 * 1024 * 1024;

fn names(list: &str) -> Vec<String> {
    list.split(',').map(|name| name.trim().to_owned()).filter(|name| !name.is_empty()).collect()
}

fn loads(found: &SitePlan) -> Vec<Planned> {
    let Body::Plan(body) = &found.body else { return Vec::new() };
    let on = body.on.iter().map(|on| Planned {
        name: Text::new(on.name.as_str()),
        on: true,
        leg: match on.leg {
            Leg::A => LW_LEG_A,
            Leg::B => LW_LEG_B,
            Leg::Both => LW_LEG_BOTH,
            _ => 0,
        },
        current_a: amperes(on.current),
        why: None,
    });
    let off = body.off.iter().map(|off| Planned {
        name: Text::new(off.name.as_str()),
        on: false,
        leg: 0,
        current_a: f64::NAN,
        why: Some(Text::new(off.why.to_string())),
    });
    on.chain(off).collect()
}

/// Plans what can run on the source of a site.
///
/// `code` may be NULL: then the edition judges that the description names. `options` may be NULL for those of
/// `lw_plan_options_init`. Where the description states what cannot be, the status is `LW_STATUS_IMPOSSIBLE` and the error
/// lists why, each with its place. A record that cannot be read is `LW_STATUS_DOCUMENT`. On success `*plan_out` owns the plan: release it with `lw_plan_free`. Several threads
/// may ask at once, of one site.
///
/// ```c
/// lw_plan_options options = lw_plan_options_init();
/// lw_plan *plan;
/// options.wished_h = 8;
/// lw_site_plan(site, NULL, &options, &plan, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_site_plan(
    site: *const lw_site,
    code: *const lw_code,
    options: *const lw_plan_options,
    plan_out: *mut *mut lw_plan,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(plan_out, "plan_out")?;
        let site = &handle(site, "site")?.site;
        let code = code_for(site, code)?;
        let options = if options.is_null() { lw_plan_options::UNSTATED } else { plain(options, "options")? };
        let (options, notices) = options.read()?;
        let mut found = plan(site, code.code(), &options).map_err(|wrong| lw_error::of_impossible("site", &wrong))?;
        found.notes.extend(notices);
        let path = check(&found.planned, code.code(), WithWorking::No);
        let mut text = String::new();
        // A `String` takes whatever is written to it.
        let _ = report::plan::write(&found, &path, &mut text);
        let json = line(&report::plan_json::document(&found, &path))?;
        out.give(lw_plan {
            outcome: of_plan(found.verdict),
            loads: loads(&found),
            text: Text::new(text),
            json,
            planned: Arc::new(found.planned),
        });
        Ok(())
    })
}

/// Frees a plan; NULL does nothing. After it none of its texts may be used.
///
/// Not while another call uses the plan.
///
/// ```c
/// lw_plan_free(plan);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_free(plan: *mut lw_plan) -> lw_status {
    free(plan, "plan")
}

/// Whether a plan exists and holds, the path with it.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_outcome outcome;
/// lw_plan_outcome(plan, &outcome, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_outcome(
    plan: *const lw_plan,
    outcome_out: *mut lw_outcome,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(outcome_out, "outcome_out", 0)?;
        out.write(handle(plan, "plan")?.outcome);
        Ok(())
    })
}

/// How many loads a plan speaks of.
///
/// Several threads may ask at once.
///
/// ```c
/// size_t count;
/// lw_plan_load_count(plan, &count, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_load_count(
    plan: *const lw_plan,
    count_out: *mut usize,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(count_out, "count_out", 0)?;
        out.write(handle(plan, "plan")?.loads.len());
        Ok(())
    })
}

/// One load of a plan, counted from 0: first those that are on, then those that are off. Its texts live as long as the
/// plan.
///
/// `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.
///
/// ```c
/// lw_planned_load load = lw_planned_load_init();
/// if (lw_plan_load(plan, 0, &load, NULL) == LW_STATUS_OK) puts(load.name.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_load(
    plan: *const lw_plan,
    index: usize,
    load_out: *mut lw_planned_load,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutStruct::new(load_out, "load_out")?;
        let loads = &handle(plan, "plan")?.loads;
        let load = loads.get(index).ok_or_else(|| no_such_index(index, loads.len()))?;
        out.write(lw_planned_load {
            name: load.name.as_str(),
            on: if load.on { LW_YES } else { LW_NO },
            leg: load.leg,
            current_a: load.current_a,
            why: load.why.or_none(),
            ..lw_planned_load::UNSTATED
        });
        Ok(())
    })
}

/// The site as planned: what stays off does not run, and each load that is on has its leg. Check it to see the path.
///
/// `*site_out` owns the site: release it with `lw_site_free`. Several threads may ask at once.
///
/// ```c
/// lw_site *planned;
/// lw_plan_site(plan, &planned, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_site(
    plan: *const lw_plan,
    site_out: *mut *mut lw_site,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(site_out, "site_out")?;
        out.give(lw_site { site: Arc::clone(&handle(plan, "plan")?.planned) });
        Ok(())
    })
}

/// The plan for a person to read, byte for byte as `loadworthy plan` prints it. The text lives as long as the plan.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str text;
/// lw_plan_text(plan, &text, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_text(
    plan: *const lw_plan,
    text_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(text_out, "text_out", lw_str::NONE)?;
        out.write(handle(plan, "plan")?.text.as_str());
        Ok(())
    })
}

/// The plan for a program, byte for byte as `loadworthy plan --format json` prints it. The text lives as long as the plan.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str json;
/// lw_plan_json(plan, &json, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plan_json(
    plan: *const lw_plan,
    json_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(json_out, "json_out", lw_str::NONE)?;
        out.write(handle(plan, "plan")?.json.as_str());
        Ok(())
    })
}
