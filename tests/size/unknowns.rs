//! One unknown solved: the answer holds by the forward check, and one step more fails.

use super::circuits::{Book, codes, questions};
use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::Conditions;
use loadworthy::calc::continuous::Load;
use loadworthy::quantity::{Amperes, Celsius, Meters, Quantity};
use loadworthy::size::circuit::{Question, circuit, first_failure};
use loadworthy::size::solve::{Built, Filling, highest_ambient, largest_load, longest_run, most_conductors};
use loadworthy::size::{Requirement, Unsized};
use loadworthy::trade::{Duty, Insulation, Jacket, RacewayKind, Stranding};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(800))]

    #[test]
    fn the_answer_is_the_edge(Book(code) in codes(), question in questions(150_000)) {
        let Ok(sized) = circuit(code, &question, &mut Silent) else { return Ok(()) };
        let built = Built { device: sized.device.value, sets: sized.sets, size: sized.ungrounded.value };
        let failure = |question: &Question| first_failure(code, question, built.device, built.sets, built.size).unwrap();

        let longest = longest_run(code, &question, built, &mut Silent).unwrap();
        prop_assert!(longest.value >= question.length);
        prop_assert_eq!(failure(&Question { length: longest.value, ..question }), None);
        if let Some(longer) = Meters::from_count(longest.value.count() + 1) {
            prop_assert_eq!(failure(&Question { length: longer, ..question }), Some(longest.governed_by));
        }

        for duty in [Duty::Continuous, Duty::NonContinuous] {
            let load = |count: i128| {
                let current = Amperes::from_count(count).unwrap();
                match duty {
                    Duty::Continuous => Load { continuous: current, non_continuous: Amperes::ZERO },
                    _ => Load { continuous: Amperes::ZERO, non_continuous: current },
                }
            };
            let largest = largest_load(code, &question, built, duty, &mut Silent).unwrap();
            let count = largest.value.count();
            prop_assert_eq!(failure(&Question { load: load(count), ..question }), None);
            prop_assert_eq!(failure(&Question { load: load(count + 1), ..question }), Some(largest.governed_by));
            prop_assert!(largest.value <= built.device);
        }

        let at = |degrees: i64| {
            let ambient = Celsius::from_degrees(degrees).unwrap();
            Question { conditions: Conditions { ambient, ..question.conditions }, ..question }
        };
        let hottest = highest_ambient(code, &question, built, &mut Silent).unwrap();
        let degrees = hottest.value.degrees_rounded_down();
        prop_assert_eq!(failure(&at(degrees)), None);
        prop_assert_eq!(failure(&at(degrees + 1)), Some(hottest.governed_by));

        let together = |count| {
            Question { conditions: Conditions { current_carrying: count, ..question.conditions }, ..question }
        };
        let most = most_conductors(code, &question, built, None, &mut Silent).unwrap();
        prop_assert_eq!(failure(&together(most.value)), None);
        if most.value < 999 {
            prop_assert_eq!(failure(&together(most.value + 1)), Some(most.governed_by));
        }
    }
}

#[test]
fn the_room_in_a_raceway_limits_the_count() {
    let code = loadworthy::code::Nec::standard(loadworthy::code::Edition::Nec2023);
    use loadworthy::calc::ampacity::Covering;
    use loadworthy::size::circuit::{Conductors, Device, Role};
    use loadworthy::size::raceway::Extent;
    use loadworthy::trade::Material;
    let question = Question {
        role: Role::Branch,
        load: Load { continuous: Amperes::ZERO, non_continuous: Amperes::from_whole(10) },
        conductors: Conductors::LineAndNeutral,
        voltage: "120 V".parse().unwrap(),
        length: Meters::ZERO,
        conditions: Conditions::base(
            Material::Copper,
            "14 AWG".parse().unwrap(),
            Covering::Insulation(Insulation::Thhn),
        ),
        drop: None,
        device: Device::BREAKER,
        grounding: None,
        most_sets: 1,
    };
    let built = Built { device: Amperes::from_whole(15), sets: 1, size: "12 AWG".parse().unwrap() };
    let filling = |trade_size: &str| Filling {
        raceway: (RacewayKind::Emt, trade_size.parse().unwrap()),
        extent: Extent::Run,
        others: &[],
        jacket: Jacket::Insulated(Insulation::Thhn, Stranding::Usual),
    };
    // 1/2 in tubing takes nine 12 AWG THHN. Of 30 A, 50 % for up to 20 is 15 A, and 45 % for up to 30 is 13.5 A, which
    // a device of 15 A may still protect as the next size up; 40 % for up to 40 is 12 A and 35 % beyond is 10.5 A.
    let half = most_conductors(code, &question, built, Some(filling("1/2 in")), &mut Silent).unwrap();
    assert_eq!((half.value, half.governed_by), (9, Requirement::RacewayFill));
    let strict = Question {
        device: Device { supplies: loadworthy::calc::overcurrent::Supplies::SeveralReceptacles, ..Device::BREAKER },
        ..question
    };
    let wide = most_conductors(code, &strict, built, Some(filling("2 in")), &mut Silent).unwrap();
    assert_eq!((wide.value, wide.governed_by), (20, Requirement::Protection));
    let nothing =
        most_conductors(code, &question, Built { device: Amperes::from_whole(40), ..built }, None, &mut Silent);
    assert!(matches!(nothing, Err(Unsized::NothingPasses(_))), "{nothing:?}");
}
