//! Any bits as a question: it is answered or refused, alike with the working and without; no panic, no "holds" with a
//! status that is not OK.
#![no_main]

use std::ptr::null_mut;
use std::sync::LazyLock;

use libfuzzer_sys::fuzz_target;
use loadworthy_ffi::code::{lw_code, lw_code_new};
use loadworthy_ffi::outcome::LW_OUTCOME_CANNOT_TELL;
use loadworthy_ffi::question::ampacity::{lw_ampacity, lw_ampacity_answer, lw_ampacity_question};
use loadworthy_ffi::question::box_fill::{lw_counted, lw_size_box, lw_size_box_answer, lw_size_box_question};
use loadworthy_ffi::question::circuit::{lw_size_circuit, lw_size_circuit_answer, lw_size_circuit_question};
use loadworthy_ffi::question::continuous_load::{
    lw_continuous_load, lw_continuous_load_answer, lw_continuous_load_question,
};
use loadworthy_ffi::question::cord::{lw_cord_ampacity, lw_cord_answer, lw_cord_question};
use loadworthy_ffi::question::cord_set::{lw_size_cord, lw_size_cord_answer, lw_size_cord_question};
use loadworthy_ffi::question::device::{
    lw_device_answer, lw_largest_device, lw_largest_device_question, lw_next_device, lw_next_device_question,
};
use loadworthy_ffi::question::grounding::{
    lw_conductor_answer, lw_dwelling_service, lw_dwelling_service_question, lw_equipment_grounding,
    lw_equipment_grounding_question, lw_grounding_electrode, lw_grounding_electrode_question,
};
use loadworthy_ffi::question::plug::{lw_plug_answer, lw_plug_fit, lw_plug_question};
use loadworthy_ffi::question::raceway::{
    lw_occupant, lw_size_raceway, lw_size_raceway_answer, lw_size_raceway_question,
};
use loadworthy_ffi::question::voltage_drop::{
    lw_segment, lw_voltage_drop, lw_voltage_drop_answer, lw_voltage_drop_question,
};
use loadworthy_ffi::status::{LW_STATUS_OK, LW_STATUS_PANIC};
use loadworthy_ffi::working::lw_working_free;

struct Code(*mut lw_code);

// SAFETY: a code may be shared among threads, as its documentation says.
unsafe impl Send for Code {}
// SAFETY: likewise.
unsafe impl Sync for Code {}

static CODE: LazyLock<Code> = LazyLock::new(|| {
    let mut code = null_mut();
    // SAFETY: no text is passed, and the place for the code is there.
    let status = unsafe { lw_code_new(2023, std::ptr::null(), 0, &raw mut code, null_mut()) };
    assert_eq!(status, LW_STATUS_OK);
    Code(code)
});

/// Up to three of them, one behind the other.
///
/// # Safety
/// As with `filled`.
unsafe fn several<T>(data: &mut &[u8]) -> Vec<T> {
    let Some((count, rest)) = data.split_first() else { return Vec::new() };
    *data = rest;
    // SAFETY: as with `filled`.
    (0..count % 4).map(|_| unsafe { filled(data) }).collect()
}

/// The bits of a struct behind its size, from the data, its rest zero.
///
/// # Safety
/// Any bits are a `T`, and `struct_size` is its first field.
unsafe fn filled<T>(data: &mut &[u8]) -> T {
    let mut value = std::mem::MaybeUninit::<T>::zeroed();
    let size = size_of::<T>();
    let taken = data.len().min(size - size_of::<usize>());
    let (first, rest) = data.split_at(taken);
    *data = rest;
    // SAFETY: both lie inside the value.
    unsafe {
        let start = value.as_mut_ptr().cast::<u8>();
        std::ptr::copy_nonoverlapping(first.as_ptr(), start.add(size_of::<usize>()), taken);
        value.as_mut_ptr().cast::<usize>().write(size);
        value.assume_init()
    }
}

/// The bits of an answer; it has no gaps.
fn bits<T>(answer: &T) -> &[u8] {
    // SAFETY: as many bytes as it has, all of them written.
    unsafe { std::slice::from_raw_parts(std::ptr::from_ref(answer).cast(), size_of::<T>()) }
}

macro_rules! question {
    ($data:expr, $function:ident, $question:ty, $answer:ty, $prepare:expr) => {{
        // SAFETY: structs of integers, doubles and pointers, of which `prepare` sets the last.
        unsafe {
            let mut question: $question = filled(&mut $data);
            let mut answer: $answer = filled(&mut (&[][..]));
            let prepare: &dyn Fn(&mut $question) = &$prepare;
            prepare(&mut question);
            let mut working = null_mut();
            let status = $function(CODE.0, &raw const question, &raw mut answer, &raw mut working, null_mut());
            assert_ne!(status, LW_STATUS_PANIC);
            assert!((1..=3).contains(&answer.outcome));
            assert!(status == LW_STATUS_OK || answer.outcome == LW_OUTCOME_CANNOT_TELL);
            assert_eq!(status == LW_STATUS_OK, !working.is_null());
            lw_working_free(working);
            // Without the working the call takes another way, and ends alike.
            let mut short: $answer = filled(&mut (&[][..]));
            assert_eq!($function(CODE.0, &raw const question, &raw mut short, null_mut(), null_mut()), status);
            assert_eq!(bits(&short), bits(&answer));
        }
    }};
}

fuzz_target!(|data: &[u8]| {
    let Some((which, mut data)) = data.split_first() else { return };
    match which % 14 {
        0 => question!(data, lw_ampacity, lw_ampacity_question, lw_ampacity_answer, |_| {}),
        1 => question!(data, lw_cord_ampacity, lw_cord_question, lw_cord_answer, |_| {}),
        2 => question!(data, lw_continuous_load, lw_continuous_load_question, lw_continuous_load_answer, |_| {}),
        3 => question!(data, lw_largest_device, lw_largest_device_question, lw_device_answer, |_| {}),
        4 => question!(data, lw_next_device, lw_next_device_question, lw_device_answer, |_| {}),
        5 => question!(data, lw_equipment_grounding, lw_equipment_grounding_question, lw_conductor_answer, |_| {}),
        6 => question!(data, lw_grounding_electrode, lw_grounding_electrode_question, lw_conductor_answer, |_| {}),
        7 => question!(data, lw_dwelling_service, lw_dwelling_service_question, lw_conductor_answer, |_| {}),
        8 => question!(data, lw_plug_fit, lw_plug_question, lw_plug_answer, |_| {}),
        9 => question!(data, lw_size_cord, lw_size_cord_question, lw_size_cord_answer, |_| {}),
        10 => a_path(data),
        11 => a_circuit(data),
        12 => a_raceway(data),
        _ => a_box(data),
    }
});

fn a_path(mut data: &[u8]) {
    // SAFETY: structs of integers and doubles.
    let segments = unsafe { several::<lw_segment>(&mut data) };
    question!(data, lw_voltage_drop, lw_voltage_drop_question, lw_voltage_drop_answer, |question| {
        question.segments = segments.as_ptr();
        question.segment_count = segments.len();
    });
}

fn a_circuit(mut data: &[u8]) {
    // SAFETY: a struct of integers and doubles.
    let conductor = unsafe { filled::<lw_ampacity_question>(&mut data) };
    question!(data, lw_size_circuit, lw_size_circuit_question, lw_size_circuit_answer, |question| {
        question.conductor = &raw const conductor;
    });
}

fn a_raceway(mut data: &[u8]) {
    // SAFETY: structs of integers.
    let occupants = unsafe { several::<lw_occupant>(&mut data) };
    question!(data, lw_size_raceway, lw_size_raceway_question, lw_size_raceway_answer, |question| {
        question.occupants = occupants.as_ptr();
        question.occupant_count = occupants.len();
    });
}

fn a_box(mut data: &[u8]) {
    // SAFETY: structs of integers.
    let (conductors, devices) = unsafe { (several::<lw_counted>(&mut data), several::<lw_counted>(&mut data)) };
    question!(data, lw_size_box, lw_size_box_question, lw_size_box_answer, |question| {
        question.conductors = conductors.as_ptr();
        question.conductor_count = conductors.len();
        question.devices = devices.as_ptr();
        question.device_count = devices.len();
    });
}
