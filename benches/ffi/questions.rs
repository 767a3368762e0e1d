//! Three questions with the same answer in Rust and through C, nobody wanting the working.

use std::hint::black_box;
use std::ptr::{null, null_mut};

use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, Covering, ampacity};
use loadworthy::calc::continuous::Load;
use loadworthy::calc::overcurrent::{Supplies, largest_device};
use loadworthy::calc::voltage_drop::{Currents, Method, Segment, Wire, voltage_drop};
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::quantity::{Amperes, Ratio, Volts};
use loadworthy::size::circuit::{self, Conductors, Device, DropLimit, Role, TABLE_8, circuit};
use loadworthy::trade::{ContinuousRating, DeviceKind, Insulation, Material, TerminalMark, WireSize};
use loadworthy_ffi::choices::words::{
    LW_DEVICE_KIND_BREAKER, LW_INSULATION_THHN, LW_MATERIAL_COPPER, LW_TERMINALS_75C,
};
use loadworthy_ffi::code::{lw_code, lw_code_new};
use loadworthy_ffi::error::lw_error;
use loadworthy_ffi::question::ampacity::{lw_ampacity, lw_ampacity_question};
use loadworthy_ffi::question::circuit::{LW_CONDUCTORS_TWO_LINES, lw_size_circuit, lw_size_circuit_question};
use loadworthy_ffi::question::device::{LW_SUPPLIES_OTHER, lw_largest_device, lw_largest_device_question};
use loadworthy_ffi::question::voltage_drop::{
    LW_CIRCUIT_TWO_WIRE, LW_METHOD_DC, lw_segment, lw_voltage_drop, lw_voltage_drop_question,
};
use loadworthy_ffi::working::lw_working;

use super::Pair;

type Ask<Q, A> =
    unsafe extern "C" fn(*const lw_code, *const Q, *mut A, *mut *mut lw_working, *mut *mut lw_error) -> i32;

pub(super) fn pairs() -> Vec<Pair> {
    vec![ampacity_of_a_conductor(), device_of_a_conductor(), drop_of_a_circuit(), sizes_of_a_circuit()]
}

fn nec() -> &'static dyn Code {
    Nec::standard(Edition::Nec2023)
}

/// Asks through a pointer that the compiler cannot see through, as a loaded library is called.
fn through_c<Q: 'static, A: 'static>(ask: Ask<Q, A>, question: Q) -> Box<dyn FnMut(u64)> {
    let mut code = null_mut();
    // SAFETY: no text is passed, and the place for the code is there.
    assert_eq!(unsafe { lw_code_new(2023, null(), 0, &raw mut code, null_mut()) }, 0);
    // SAFETY: any bits are an answer, and its size is its first field.
    let mut answer: A = unsafe {
        let mut answer = std::mem::zeroed::<A>();
        (&raw mut answer).cast::<usize>().write(size_of::<A>());
        answer
    };
    let ask = black_box(ask);
    Box::new(move |often| {
        for _ in 0..often {
            let (code, question, answer) =
                (black_box(code), black_box(&raw const question), black_box(&raw mut answer));
            // SAFETY: every pointer is NULL or points to what the function wants.
            let status = unsafe { ask(code, question, answer, null_mut(), null_mut()) };
            assert_eq!(status, 0);
        }
    })
}

/// 10 AWG copper THHN, six conductors at 38 °C, terminals at 75 °C.
fn ampacity_of_a_conductor() -> Pair {
    let size: WireSize = "10 AWG".parse().unwrap();
    let conditions = Conditions {
        ambient: "38 °C".parse().unwrap(),
        current_carrying: 6,
        terminals: TerminalMark::C75,
        ..Conditions::base(Material::Copper, size, Covering::Insulation(Insulation::Thhn))
    };
    let asked = lw_ampacity_question { ambient_c: 38.0, current_carrying: 6, ..conductor(10) };
    let code = nec();
    Pair {
        name: "ampacity",
        rust: Box::new(move |often| {
            for _ in 0..often {
                let _ = black_box(ampacity(black_box(code), black_box(&conditions), &mut Silent));
            }
        }),
        c: through_c(lw_ampacity, asked),
        often: 2000,
    }
}

/// The largest breaker for 6 AWG copper that carries 55 A.
fn device_of_a_conductor() -> Pair {
    let (ampacity, size): (Amperes, WireSize) = ("55 A".parse().unwrap(), "6 AWG".parse().unwrap());
    let of = (Material::Copper, size);
    let asked = lw_largest_device_question {
        struct_size: size_of::<lw_largest_device_question>(),
        material: LW_MATERIAL_COPPER,
        size: 6,
        ampacity_a: 55.0,
        kind: LW_DEVICE_KIND_BREAKER,
        supplies: LW_SUPPLIES_OTHER,
    };
    let code = nec();
    Pair {
        name: "largest device",
        rust: Box::new(move |often| {
            for _ in 0..often {
                let (ampacity, of) = (*black_box(&ampacity), *black_box(&of));
                let (kind, supplies) = (black_box(DeviceKind::Breaker), black_box(Supplies::Other));
                let _ = black_box(largest_device(black_box(code), kind, ampacity, of, supplies, &mut Silent));
            }
        }),
        c: through_c(lw_largest_device, asked),
        often: 2000,
    }
}

/// 16 A over 50 ft of 12 AWG copper and back, 120 V, at most 3 %.
fn drop_of_a_circuit() -> Pair {
    let (supply, limit): (Volts, Ratio) = ("120 V".parse().unwrap(), "3 %".parse().unwrap());
    let path = [Segment {
        wire: Wire::Sized(Material::Copper, "12 AWG".parse().unwrap()),
        neutral: None,
        length: "50 ft".parse().unwrap(),
        currents: Currents::TwoWire("16 A".parse().unwrap()),
    }];
    let method = Method::DirectCurrent { temperature: "75 °C".parse().unwrap() };
    let segment = Box::leak(Box::new(lw_segment {
        struct_size: size_of::<lw_segment>(),
        material: LW_MATERIAL_COPPER,
        size: 12,
        resistance_ohm_per_kft: f64::NAN,
        reactance_ohm_per_kft: f64::NAN,
        neutral_material: 0,
        neutral_size: 0,
        neutral_resistance_ohm_per_kft: f64::NAN,
        neutral_reactance_ohm_per_kft: f64::NAN,
        length_ft: 50.0,
        length_m: f64::NAN,
        current_a: 16.0,
        other_leg_a: f64::NAN,
    }));
    let asked = lw_voltage_drop_question {
        struct_size: size_of::<lw_voltage_drop_question>(),
        method: LW_METHOD_DC,
        circuit: LW_CIRCUIT_TWO_WIRE,
        supply_v: 120.0,
        segments: segment,
        segment_count: 1,
        conductor_temperature_c: 75.0,
        conductor_temperature_f: f64::NAN,
        k: f64::NAN,
        power_factor: f64::NAN,
        conduit: 0,
        reserved: 0,
        limit_percent: 3.0,
    };
    let code = nec();
    Pair {
        name: "voltage drop",
        rust: Box::new(move |often| {
            for _ in 0..often {
                let (supply, limit, method) = (*black_box(&supply), *black_box(&limit), *black_box(&method));
                if let Ok(found) = voltage_drop(black_box(code), supply, black_box(&path), method, &mut Silent) {
                    // All that the answer of C holds.
                    let within = found.within(limit);
                    black_box((within, found.drop.rounded_up(), found.share(), found.at_load()));
                }
            }
        }),
        c: through_c(lw_voltage_drop, asked),
        often: 1000,
    }
}

/// The sizes of a circuit of two lines, 32 A that last, 240 V, 100 ft, at most 3 %.
fn sizes_of_a_circuit() -> Pair {
    let conditions = Conditions {
        terminals: TerminalMark::C75,
        ..Conditions::base(Material::Copper, WireSize::awg(14).unwrap(), Covering::Insulation(Insulation::Thhn))
    };
    let question = circuit::Question {
        role: Role::Branch,
        load: Load { continuous: "32 A".parse().unwrap(), non_continuous: Amperes::ZERO },
        conductors: Conductors::TwoLines,
        voltage: "240 V".parse().unwrap(),
        length: "100 ft".parse().unwrap(),
        conditions,
        drop: Some(DropLimit { share: "3 %".parse().unwrap(), method: TABLE_8 }),
        device: Device {
            kind: DeviceKind::Breaker,
            continuous_rating: ContinuousRating::Standard,
            supplies: Supplies::Other,
            least: Amperes::from_whole(15),
        },
        grounding: Some(Material::Copper),
        most_sets: 1,
    };
    let asked = lw_size_circuit_question {
        struct_size: size_of::<lw_size_circuit_question>(),
        conductor: Box::leak(Box::new(conductor(0))),
        role: 0,
        conductors: LW_CONDUCTORS_TWO_LINES,
        continuous_a: 32.0,
        non_continuous_a: 0.0,
        neutral_a: f64::NAN,
        voltage_v: 240.0,
        length_ft: 100.0,
        length_m: f64::NAN,
        drop_limit_percent: 3.0,
        least_device_a: f64::NAN,
        continuous_rating: 0,
        kind: 0,
        supplies: LW_SUPPLIES_OTHER,
        grounding_material: 0,
        grounding: 0,
        most_sets: 0,
    };
    let code = nec();
    Pair {
        name: "sizes of a circuit",
        rust: Box::new(move |often| {
            for _ in 0..often {
                if let Ok(found) = circuit(black_box(code), black_box(&question), &mut Silent) {
                    let drop = found.drop.map(|drop| (drop.drop.rounded_up(), drop.share()));
                    black_box((found, drop));
                }
            }
        }),
        c: through_c(lw_size_circuit, asked),
        often: 200,
    }
}

/// Copper THHN of that size with terminals at 75 °C, and nothing else stated.
fn conductor(size: i32) -> lw_ampacity_question {
    lw_ampacity_question {
        struct_size: size_of::<lw_ampacity_question>(),
        material: LW_MATERIAL_COPPER,
        size,
        insulation: LW_INSULATION_THHN,
        cable: 0,
        installation: 0,
        place: 0,
        ambient_c: f64::NAN,
        ambient_f: f64::NAN,
        rooftop_clearance_in: f64::NAN,
        current_carrying: 0,
        thermal_insulation: 0,
        terminals: LW_TERMINALS_75C,
        reserved: 0,
        circuit_rating_a: f64::NAN,
    }
}
