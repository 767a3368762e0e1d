//! Circuits: every requirement holds by the forward calculations alone, and the next smaller size or device fails one.

use loadworthy::calc::ampacity::{Conditions, Covering, ampacity, before_factors};
use loadworthy::calc::continuous::{Load, requirement};
use loadworthy::calc::grounding::{Enlarged, equipment};
use loadworthy::calc::overcurrent::{Supplies, largest_device};
use loadworthy::calc::voltage_drop::{Currents, Method, Segment, Wire, voltage_drop};
use loadworthy::calc::{Derivation, Silent};
use loadworthy::code::{Acceptance, Code, Edition, Nec};
use loadworthy::published::Grade;
use loadworthy::quantity::{Amperes, Celsius, Meters, Quantity, Ratio, Volts};
use loadworthy::size::circuit::{Circuit, Conductors, Device, DropLimit, NeutralLoad, Question, Role, circuit};
use loadworthy::size::{Requirement, Unsized};
use loadworthy::trade::{Cable, ContinuousRating, DeviceKind, Insulation, Material, Place, TerminalMark, WireSize};
use proptest::prelude::*;
use std::sync::OnceLock;

pub(crate) fn milliamperes(count: i64) -> Amperes {
    Amperes::new(count * 1000).unwrap()
}

fn coverings() -> impl Strategy<Value = Covering> {
    prop_oneof![
        Just(Covering::Insulation(Insulation::Thhn)),
        Just(Covering::Insulation(Insulation::Thwn)),
        Just(Covering::Insulation(Insulation::Tw)),
        Just(Covering::Insulation(Insulation::Xhhw2)),
        Just(Covering::Cable(Cable::NmB, None)),
        Just(Covering::Cable(Cable::UfB, None)),
    ]
}

fn terminals() -> impl Strategy<Value = TerminalMark> {
    prop_oneof![Just(TerminalMark::Unmarked), Just(TerminalMark::C60), Just(TerminalMark::C75)]
}

pub(crate) fn questions(most: i64) -> impl Strategy<Value = Question> {
    let load = (0..most, 0..most, any::<bool>(), any::<bool>());
    let lying = (coverings(), terminals(), -10_i8..45, 1_u16..12, any::<bool>());
    let path = (0_u16..600, 0_u16..5, any::<bool>());
    let circuit = (0_usize..4, any::<bool>(), any::<bool>(), 1_u8..5);
    (load, lying, path, circuit).prop_map(|(load, lying, path, circuit)| {
        let (continuous, other, whole, fuse) = load;
        let round = |count: i64| if whole { count / 1000 * 1000 } else { count };
        let (covering, terminals, ambient, current_carrying, aluminum) = lying;
        let (feet, percent, receptacles) = path;
        let (conductors, feeder, listed, most_sets) = circuit;
        let material = if aluminum { Material::Aluminum } else { Material::Copper };
        let unbalance = Load { continuous: milliamperes(round(continuous) / 3), non_continuous: Amperes::ZERO };
        Question {
            role: if feeder { Role::Feeder } else { Role::Branch },
            load: Load { continuous: milliamperes(round(continuous)), non_continuous: milliamperes(round(other)) },
            conductors: match conductors {
                0 => Conductors::LineAndNeutral,
                1 => Conductors::TwoLines,
                2 => Conductors::TwoLinesAndNeutral(NeutralLoad::Unbalance(unbalance)),
                _ => Conductors::ThreePhaseAndNeutral(NeutralLoad::AsUngrounded),
            },
            voltage: Volts::from_whole(if conductors == 0 { 120 } else { 240 }),
            length: Meters::from_feet(feet),
            conditions: Conditions {
                ambient: Celsius::from_whole(ambient),
                current_carrying,
                terminals,
                place: Place::Dry,
                ..Conditions::base(material, "14 AWG".parse().unwrap(), covering)
            },
            drop: (percent > 0).then(|| DropLimit {
                share: Ratio::percent(percent),
                method: Method::DirectCurrent { temperature: Celsius::from_whole(75) },
            }),
            device: Device {
                kind: if fuse { DeviceKind::Fuse } else { DeviceKind::Breaker },
                continuous_rating: if listed { ContinuousRating::Listed100 } else { ContinuousRating::Standard },
                supplies: if receptacles && !feeder { Supplies::SeveralReceptacles } else { Supplies::Other },
                least: Amperes::from_whole(15),
            },
            grounding: Some(Material::Copper),
            most_sets,
        }
    })
}

pub(crate) fn codes() -> impl Strategy<Value = Book> {
    (0_usize..3).prop_map(|index| Book(with_the_book(Edition::ALL[index])))
}

/// A code that prints shortly where a property fails.
#[derive(Clone, Copy)]
pub(crate) struct Book(pub(crate) &'static Nec);

impl std::fmt::Debug for Book {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(self.0.id())
    }
}

/// An edition as one reads it who has the book in hand: the ratings from 700 A up rest on memory here.
pub(crate) fn with_the_book(edition: Edition) -> &'static Nec {
    static BOOKS: [OnceLock<Nec>; 3] = [const { OnceLock::new() }; 3];
    BOOKS[edition as usize].get_or_init(|| Nec::new(edition, &Acceptance::of_grade(Grade::Memory)))
}

/// The forward check, written with the calculations alone; the drop is not part of it.
fn ampacity_passes(code: &dyn Code, question: &Question, device: Amperes, sets: u8, size: WireSize) -> bool {
    let needs = requirement(code, question.load, question.device.continuous_rating, &mut Silent).unwrap();
    let conditions = Conditions { size, circuit_rating: Some(device), ..question.conditions };
    let times = |one: Amperes| Amperes::from_count(one.count() * i128::from(sets)).unwrap();
    let (Ok(before), Ok(found)) =
        (before_factors(code, &conditions, &mut Silent), ampacity(code, &conditions, &mut Silent))
    else {
        return false;
    };
    let usable = times(found.usable);
    let conductor = (conditions.material, size);
    let Ok(most) = largest_device(code, question.device.kind, usable, conductor, question.device.supplies, &mut Silent)
    else {
        return false;
    };
    let least: WireSize = if conditions.material == Material::Copper { "14 AWG" } else { "12 AWG" }.parse().unwrap();
    needs.conductor <= times(before)
        && needs.conductor_after_factors <= usable
        && device <= most.rating
        && size >= least
        && (sets == 1 || size >= "1/0 AWG".parse().unwrap())
}

fn drop_passes(code: &dyn Code, question: &Question, sets: u8, size: WireSize) -> bool {
    let Some(limit) = question.drop else { return true };
    let whole = question.load.continuous.checked_add(question.load.non_continuous).unwrap();
    let currents = match question.conductors {
        Conductors::ThreePhase | Conductors::ThreePhaseAndNeutral(_) => Currents::ThreePhase(whole),
        _ => Currents::TwoWire(whole),
    };
    let wire = Wire::Sized(question.conditions.material, size);
    let segment = Segment { wire, neutral: None, length: question.length, currents };
    let found = voltage_drop(code, question.voltage, &[segment], limit.method, &mut Silent);
    // Sets share the current: exactly as if one of them might drop so many times the share.
    let share = Ratio::new(limit.share.count_of_millionths() * i64::from(sets)).unwrap();
    found.is_ok_and(|found| found.within(share))
}

fn passes(code: &dyn Code, question: &Question, device: Amperes, sets: u8, size: WireSize) -> bool {
    ampacity_passes(code, question, device, sets, size) && drop_passes(code, question, sets, size)
}

fn sized(code: &dyn Code, question: &Question) -> Option<Circuit> {
    match circuit(code, question, &mut Silent) {
        Ok(sized) => Some(sized),
        Err(Unsized::NothingPasses(_)) => None,
        Err(error) => panic!("{error}: {question:?}"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn a_sized_circuit_passes_and_the_next_smaller_fails(Book(code) in codes(), question in questions(400_000)) {
        let Some(sized) = sized(code, &question) else { return Ok(()) };
        let (device, size) = (sized.device.value, sized.ungrounded.value);
        prop_assert!(passes(code, &question, device, sized.sets, size), "{sized:?}");
        for smaller in code.sizes().iter().filter(|smaller| **smaller < size) {
            prop_assert!(!passes(code, &question, device, sized.sets, *smaller), "{smaller} passes, not {sized:?}");
        }
        for fewer in 1..sized.sets {
            for any in code.sizes() {
                prop_assert!(!passes(code, &question, device, fewer, *any), "{fewer} x {any} passes, not {sized:?}");
            }
        }
        // The device: it carries the load with its factor, and the next smaller standard rating does not.
        let needs = requirement(code, question.load, question.device.continuous_rating, &mut Silent).unwrap();
        prop_assert!(needs.device <= device);
        for rating in code.standard_ratings(question.device.kind) {
            let rating = rating.unwrap().value;
            if rating >= device { break }
            let put_on = question.device.supplies == Supplies::Other || code.receptacle_ratings(rating).is_ok();
            prop_assert!(needs.device > rating || rating < question.device.least || !put_on, "{rating}: {sized:?}");
        }
    }

    #[test]
    fn where_nothing_passes_nothing_passes(Book(code) in codes(), question in questions(3_000_000)) {
        let Err(Unsized::NothingPasses(nothing)) = circuit(code, &question, &mut Silent) else { return Ok(()) };
        let needs = requirement(code, question.load, question.device.continuous_rating, &mut Silent).unwrap();
        if matches!(nothing.requirement, Requirement::StandardRating | Requirement::ReceptacleRating) { return Ok(()) }
        let fit = |rating: &Amperes| *rating >= question.device.least && needs.device <= *rating;
        let device = code.standard_ratings(question.device.kind).iter().map(|rating| rating.unwrap().value).find(fit);
        for sets in 1..=question.most_sets {
            for size in code.sizes() {
                prop_assert!(!passes(code, &question, device.unwrap(), sets, *size), "{sets} x {size}: {nothing}");
            }
        }
        prop_assert!(!nothing.requirement.change().is_empty());
    }

    #[test]
    fn the_other_conductors_are_minimal_too(Book(code) in codes(), question in questions(400_000)) {
        let Some(sized) = sized(code, &question) else { return Ok(()) };
        // The smallest that has the ampacity, from which the enlargement is reckoned.
        prop_assert!(ampacity_passes(code, &question, sized.device.value, sized.sets, sized.needed));
        for smaller in code.sizes().iter().filter(|size| **size < sized.needed) {
            prop_assert!(!ampacity_passes(code, &question, sized.device.value, sized.sets, *smaller));
        }
        let enlarged = Enlarged { needed: sized.needed, installed: sized.ungrounded.value };
        let grounding = equipment(code, Material::Copper, sized.device.value, Some(enlarged), &mut Silent).unwrap();
        let found = sized.grounding.unwrap().value;
        if question.conditions.material == Material::Copper {
            prop_assert_eq!(found, grounding.partial_cmp(&sized.ungrounded.value).map_or(grounding, |order| {
                if order.is_gt() { sized.ungrounded.value } else { grounding }
            }));
        } else {
            prop_assert_eq!(found, grounding);
        }
        match (question.conductors, sized.neutral) {
            (Conductors::TwoLines | Conductors::ThreePhase, neutral) => prop_assert!(neutral.is_none()),
            (Conductors::TwoLinesAndNeutral(NeutralLoad::Unbalance(load)), Some(neutral)) => {
                prop_assert!(neutral.value <= sized.ungrounded.value);
                let bears = Question { load, drop: None, ..question };
                let conditions = Conditions { size: neutral.value, circuit_rating: Some(sized.device.value), ..question.conditions };
                let usable = ampacity(code, &conditions, &mut Silent).unwrap().usable;
                prop_assert!(bears.load.continuous.count() <= usable.count() * i128::from(sized.sets));
                if neutral.value < sized.ungrounded.value {
                    prop_assert!(question.role == Role::Feeder && neutral.value >= found);
                }
            }
            (_, neutral) => prop_assert_eq!(neutral.map(|size| size.value), Some(sized.ungrounded.value)),
        }
    }

    #[test]
    fn asking_for_the_working_changes_nothing(Book(code) in codes(), question in questions(200_000)) {
        let mut working = Derivation::default();
        let with = circuit(code, &question, &mut working);
        prop_assert_eq!(with, circuit(code, &question, &mut Silent));
        if with.is_ok() {
            prop_assert!(working.steps.len() > 6);
        }
    }
}

#[test]
fn the_limit_is_met_exactly_and_one_step_over_takes_the_next_size() {
    let code = Nec::standard(Edition::Nec2023);
    let at = |continuous: i64| Question {
        role: Role::Branch,
        load: Load { continuous: Amperes::new(continuous).unwrap(), non_continuous: Amperes::ZERO },
        conductors: Conductors::TwoLines,
        voltage: Volts::from_whole(240),
        length: Meters::ZERO,
        conditions: Conditions::base(Material::Copper, "14 AWG".parse().unwrap(), Covering::Cable(Cable::NmB, None)),
        drop: None,
        device: Device::BREAKER,
        grounding: Some(Material::Copper),
        most_sets: 1,
    };
    // 16 A x 125 % is exactly 20 A.
    for (continuous, device, size) in [
        (15_999_999, "20 A", "12 AWG"),
        (16_000_000, "20 A", "12 AWG"),
        (16_000_001, "25 A", "10 AWG"),
        (40_000_000, "50 A", "6 AWG"), // 8 AWG is 40 A at 60 °C, 6 AWG 55 A
        (40_000_001, "60 A", "6 AWG"), // the next standard rating above 55 A may protect it
        (48_000_000, "60 A", "4 AWG"), // 125 % is 60 A, above the 55 A of 6 AWG
    ] {
        let sized = circuit(code, &at(continuous), &mut Silent).unwrap();
        assert_eq!((sized.device.value.to_string(), sized.ungrounded.value.to_string()), (device.into(), size.into()));
    }
}

#[test]
fn what_cannot_be_met_is_said_with_what_would_have_to_change() {
    let code = with_the_book(Edition::Nec2023);
    let question = Question {
        role: Role::Feeder,
        load: Load { continuous: Amperes::from_whole(700), non_continuous: Amperes::ZERO },
        conductors: Conductors::TwoLines,
        voltage: Volts::from_whole(240),
        length: Meters::ZERO,
        conditions: Conditions::base(
            Material::Copper,
            "14 AWG".parse().unwrap(),
            Covering::Insulation(Insulation::Thwn2),
        ),
        drop: None,
        device: Device::BREAKER,
        grounding: None,
        most_sets: 1,
    };
    assert_eq!(
        circuit(code, &question, &mut Silent).unwrap_err().to_string(),
        "no standard conductor meets the continuous load with its factor, before correction and adjustment; it would \
         take less load, more sets in parallel, a higher voltage, terminals of a higher mark, or gentler conditions"
    );
    // 875 A takes a device of 1000 A, above 800 A: the conductors must carry all of it. 3 x 400 kcmil at 75 °C.
    let sized = circuit(code, &Question { most_sets: 3, ..question }, &mut Silent).unwrap();
    assert_eq!((sized.device.value.to_string(), sized.sets), ("1000 A".to_owned(), 2));
    assert_eq!(sized.ungrounded.value.to_string(), "900 kcmil");
    let hot = Conditions { ambient: "95 °C".parse().unwrap(), ..question.conditions };
    let error = circuit(code, &Question { conditions: hot, most_sets: 3, ..question }, &mut Silent).unwrap_err();
    assert!(matches!(error, Unsized::NothingPasses(nothing) if nothing.requirement == Requirement::Ambient), "{error}");
    let wet = Conditions { place: Place::Wet, covering: Covering::Insulation(Insulation::Thhn), ..question.conditions };
    let error = circuit(code, &Question { conditions: wet, ..question }, &mut Silent).unwrap_err();
    assert!(matches!(error, Unsized::NothingPasses(nothing) if nothing.requirement == Requirement::Place), "{error}");
}
