//! Cord sets: the size passes by the forward calculations, the next smaller fails, and the longest length is the edge.

use super::circuits::{Book, codes, milliamperes};
use loadworthy::calc::Silent;
use loadworthy::calc::cord::{CordConditions, ampacity};
use loadworthy::calc::voltage_drop::{Currents, Method, Segment, Wire, voltage_drop};
use loadworthy::code::Code;
use loadworthy::quantity::{Amperes, Celsius, Meters, Quantity, Ratio, Volts};
use loadworthy::size::Unsized;
use loadworthy::size::cord::{CordSet, Question, cord_set};
use loadworthy::trade::{Configuration, Material, Place, Usage, WireSize};
use proptest::prelude::*;

fn questions() -> impl Strategy<Value = Question> {
    let outlets = ["5-15", "5-20", "TT-30", "L5-30", "L14-20", "L14-30", "14-50", "6-50", "6-20"];
    let outlet = (0..outlets.len()).prop_map(move |index| outlets[index].parse::<Configuration>().unwrap());
    (outlet, 0_i64..60_000, 1_u16..400, 0_u16..6, 0_usize..3, 0_usize..3, 0_i8..45, any::<bool>()).prop_map(
        |(outlet, current, feet, percent, usage, place, ambient, cool)| Question {
            outlet,
            connector: outlet,
            device: outlet.rated_current(),
            current: milliamperes(current),
            voltage: Volts::from_whole(if outlet.rated_voltage() == Volts::from_whole(125) { 120 } else { 240 }),
            length: Meters::from_feet(feet),
            drop: (percent > 0).then(|| Ratio::percent(percent)),
            usage: [Usage::NotHard, Usage::Hard, Usage::ExtraHard][usage],
            place: [Place::Dry, Place::Damp, Place::Wet][place],
            ambient: Celsius::from_whole(ambient),
            marked: (!cool).then(|| Celsius::from_whole(90)),
            cord: None,
        },
    )
}

fn passes(code: &dyn Code, question: &Question, set: &CordSet, size: WireSize, length: Meters) -> bool {
    let carrying = match question.outlet.designation() {
        "L14-20" | "L14-30" | "14-50" => 2,
        _ => question.outlet.poles(),
    };
    let of = CordConditions {
        cord: set.cord,
        size,
        current_carrying: carrying.into(),
        ambient: question.ambient,
        marked: question.marked,
    };
    let Ok(ampacity) = ampacity(code, &of, &mut Silent) else { return false };
    let segment = Segment {
        wire: Wire::Sized(Material::Copper, size),
        neutral: None,
        length,
        currents: Currents::TwoWire(question.current),
    };
    let method = Method::DirectCurrent { temperature: Celsius::from_whole(75) };
    let drop = voltage_drop(code, question.voltage, &[segment], method, &mut Silent).unwrap();
    question.current <= ampacity && question.device <= ampacity && question.drop.is_none_or(|share| drop.within(share))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn a_cord_set_passes_and_the_next_smaller_fails(Book(code) in codes(), question in questions()) {
        let set = match cord_set(code, &question, &mut Silent) {
            Ok(set) => set,
            Err(Unsized::NothingPasses(_)) => return Ok(()),
            Err(error) => panic!("{error}"),
        };
        prop_assert!(passes(code, &question, &set, set.size.value, question.length), "{set:?}");
        for smaller in code.sizes().iter().filter(|size| **size < set.size.value) {
            prop_assert!(!passes(code, &question, &set, *smaller, question.length), "{smaller}: {set:?}");
        }
        let facts = code.cord(set.cord).unwrap().value;
        prop_assert!(facts.usage >= question.usage && facts.voltage >= question.voltage);
        prop_assert!(set.plug.to_string().ends_with('P') && set.connector.to_string().ends_with('R'));
        if let Some(longest) = set.longest {
            prop_assert!(passes(code, &question, &set, set.size.value, longest) && longest >= question.length);
            if let Some(longer) = Meters::from_count(longest.count() + 1) {
                prop_assert!(!passes(code, &question, &set, set.size.value, longer));
            }
        }
    }
}

#[test]
fn more_than_the_outlet_bears_is_never_sized() {
    let code = loadworthy::code::Nec::standard(loadworthy::code::Edition::Nec2023);
    let at = |current: i64| Question {
        outlet: "L14-30".parse().unwrap(),
        connector: "L14-30".parse().unwrap(),
        device: Amperes::from_whole(30),
        current: Amperes::new(current).unwrap(),
        voltage: Volts::from_whole(240),
        length: Meters::from_feet(50),
        drop: None,
        usage: Usage::Hard,
        place: Place::Wet,
        ambient: Celsius::from_whole(30),
        marked: None,
        cord: None,
    };
    // 10 AWG with two conductors that carry current: 30 A; 12 AWG: 25 A, by Table 400.5(A)(1).
    assert_eq!(cord_set(code, &at(30_000_000), &mut Silent).unwrap().size.value.to_string(), "10 AWG");
    assert_eq!(
        cord_set(code, &at(30_000_001), &mut Silent).unwrap_err().to_string(),
        "no standard cord set meets the rating of the plug and receptacle configuration; it would take an outlet of a \
         higher rating, or less load"
    );
}
