//! Record batches of every layout that frames hand over, judged alike.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::ops::ControlFlow;
use std::sync::Arc;

use arrow_array::cast::AsArray;
use arrow_array::types::{Float64Type, Int8Type, Int32Type, UInt16Type};
use arrow_array::{
    Array, ArrayRef, BooleanArray, Decimal128Array, DictionaryArray, Float32Array, Float64Array, Int32Array,
    Int64Array, LargeStringArray, NullArray, RecordBatch, StringArray, StringViewArray,
};
use arrow_schema::{DataType, Field, Schema};
use loadworthy::batch::arrow::{ArrowJudgeError, Judge, Wanted, assumed, judge, schema};
use loadworthy::batch::{JudgeError, Reason};
use loadworthy::code::{Edition, Nec};

fn array<T: Array + 'static>(array: T) -> ArrayRef {
    Arc::new(array)
}

fn batch(columns: Vec<(&str, ArrayRef)>) -> RecordBatch {
    RecordBatch::try_from_iter_with_nullable(columns.into_iter().map(|(name, array)| (name, array, true))).unwrap()
}

fn judged(circuits: &RecordBatch, carry: &[&str]) -> Result<RecordBatch, ArrowJudgeError> {
    judge(Nec::standard(Edition::Nec2023), circuits, carry, 1, &mut |_| ControlFlow::Continue(()))
}

/// The words of a dictionary column.
fn words(answers: &RecordBatch, name: &str) -> Vec<Option<String>> {
    let dictionary = answers.column_by_name(name).unwrap().as_dictionary::<Int8Type>();
    dictionary.downcast_dict::<StringArray>().unwrap().into_iter().map(|word| word.map(str::to_owned)).collect()
}

fn reasons(answers: &RecordBatch) -> Vec<Option<String>> {
    let dictionary = answers.column_by_name("reason").unwrap().as_dictionary::<UInt16Type>();
    dictionary.downcast_dict::<StringArray>().unwrap().into_iter().map(|word| word.map(str::to_owned)).collect()
}

/// 12 AWG THWN-2 with 15, 16 and 16.5 A on a 20 A device, then a row without a load.
fn circuits(
    text: impl Fn(Vec<Option<&str>>) -> ArrayRef,
    number: impl Fn(Vec<Option<i64>>) -> ArrayRef,
) -> RecordBatch {
    let same = |word| text(vec![Some(word); 4]);
    batch(vec![
        ("material", same("copper")),
        ("size", same("12 AWG")),
        ("insulation", same("THWN-2")),
        ("cable", array(NullArray::new(4))),
        ("load_continuous_ma", number(vec![Some(15_000), Some(16_000), Some(16_500), None])),
        ("load_other_ma", number(vec![Some(0); 4])),
        ("device_a", number(vec![Some(20); 4])),
        ("voltage_v", number(vec![Some(120); 4])),
        ("circuit", same("two-wire")),
        ("length_ft", number(vec![Some(100); 4])),
        ("drop_limit_percent", number(vec![Some(100); 4])),
        ("thermal_insulation", array(BooleanArray::from(vec![false; 4]))),
    ])
}

type OfTexts = fn(Vec<Option<&str>>) -> ArrayRef;
type OfNumbers = fn(Vec<Option<i64>>) -> ArrayRef;

#[test]
fn every_layout_gives_the_same_answers() {
    let texts: Vec<OfTexts> = vec![
        |words| array(StringArray::from(words)),
        |words| array(LargeStringArray::from(words)),
        |words| array(StringViewArray::from(words)),
        |words| array(words.into_iter().collect::<DictionaryArray<Int32Type>>()),
        |words| array(words.into_iter().collect::<DictionaryArray<UInt16Type>>()),
    ];
    let numbers: Vec<OfNumbers> = vec![
        |values| array(Int64Array::from(values)),
        |values| array(values.into_iter().map(|value| value.map(|value| value as i32)).collect::<Int32Array>()),
        |values| array(values.into_iter().map(|value| value.map(|value| value as f64)).collect::<Float64Array>()),
        |values| array(values.into_iter().map(|value| value.map(|value| value as f32)).collect::<Float32Array>()),
        |values| {
            let scaled = values.into_iter().map(|value| value.map(|value| i128::from(value) * 1000));
            array(scaled.collect::<Decimal128Array>().with_precision_and_scale(20, 3).unwrap())
        },
    ];
    for text in &texts {
        for number in &numbers {
            let answers = judged(&circuits(text, number), &[]).unwrap();
            let some = |word: &str| Some(word.to_owned());
            assert_eq!(words(&answers, "verdict"), ["holds", "holds", "fails", "cannot tell"].map(some));
            assert_eq!(words(&answers, "decided_by"), [None, None, some("continuous-load-on-conductor"), None]);
            assert_eq!(reasons(&answers), [None, None, None, some("`load_continuous_ma` is null")]);
            let drop = answers.column_by_name("drop_v").unwrap().as_primitive::<Float64Type>();
            // 2 x 1.98 ohm/kft x 100 ft x 16 A
            assert_eq!(drop.iter().collect::<Vec<_>>()[1..], [Some(6.336), Some(6.534), None]);
        }
    }
}

#[test]
fn a_slice_is_judged_by_itself() {
    let all = circuits(|words| array(StringArray::from(words)), |values| array(Int64Array::from(values)));
    let answers = judged(&all.slice(2, 2), &[]).unwrap();
    assert_eq!(words(&answers, "verdict"), [Some("fails".to_owned()), Some("cannot tell".to_owned())]);
}

#[test]
fn columns_are_carried_along_when_named() {
    let all = circuits(|words| array(StringArray::from(words)), |values| array(Int64Array::from(values)));
    let mut columns: Vec<(&str, ArrayRef)> = vec![("id", array(Int64Array::from(vec![7, 8, 9, 10])))];
    let schema_of = all.schema();
    columns.extend(
        schema_of.fields().iter().zip(all.columns()).map(|(field, array)| (field.name().as_str(), array.clone())),
    );
    let with_id = batch(columns);
    let answers = judged(&with_id, &["id"]).unwrap();
    assert_eq!(answers.column(0), with_id.column(0));
    assert_eq!(answers.schema(), schema(with_id.schema_ref(), &["id"], Wanted::Everything).unwrap());
    assert_eq!(judged(&with_id, &[]).unwrap_err().to_string(), "column `id` is not known; leave it out");
    assert_eq!(
        judged(&with_id, &["id", "absent"]).unwrap_err().to_string(),
        "column `absent` cannot be carried along; no column has this name"
    );
    let mut columns = vec![("verdict", array(Int64Array::from(vec![1, 2, 3, 4])))];
    columns.extend(
        with_id.schema_ref().fields().iter().zip(with_id.columns()).map(|(f, a)| (f.name().as_str(), a.clone())),
    );
    assert_eq!(
        judged(&batch(columns), &["id", "verdict"]).unwrap_err().to_string(),
        "column `verdict` cannot be carried along; its name is that of an answer; rename it"
    );
}

#[test]
fn a_fact_that_is_carried_along_is_read_all_the_same() {
    let all = circuits(|words| array(StringArray::from(words)), |values| array(Int64Array::from(values)));
    let (plain, carried) = (judged(&all, &[]).unwrap(), judged(&all, &["size", "length_ft"]).unwrap());
    assert_eq!(carried.column_by_name("size"), all.column_by_name("size"));
    assert_eq!(carried.column_by_name("length_ft"), all.column_by_name("length_ft"));
    assert_eq!(carried.columns()[2..], *plain.columns());
}

#[test]
fn types_that_no_column_has_are_named() {
    let fields = vec![
        Field::new("material", DataType::Date32, true),
        Field::new("size", DataType::Float64, true),
        Field::new("insulation", DataType::Dictionary(Box::new(DataType::Int8), Box::new(DataType::Int64)), true),
        Field::new("load_continuous_a", DataType::Utf8, true),
        Field::new("load_other_a", DataType::Boolean, true),
        Field::new("device_a", DataType::Float16, true),
    ];
    let problem = assumed(Nec::standard(Edition::Nec2023), &Schema::new(fields).into(), &[]).unwrap_err();
    assert_eq!(
        problem.to_string(),
        "column `material` holds Date32; it must hold text, or a dictionary of text\n\
         column `size` holds floating-point numbers; it must hold text\n\
         column `insulation` holds Dictionary(Int8, Int64); it must hold text, or a dictionary of text\n\
         column `load_continuous_a` holds text; it must hold numbers\n\
         column `load_other_a` holds true and false; it must hold numbers\n\
         column `device_a` holds Float16; it must hold numbers: floating point of 32 or 64 bits, whole numbers, or \
         decimals of 128 bits"
    );
}

#[test]
fn an_empty_batch_and_a_batch_of_nothing_but_nulls_are_judged() {
    let all = circuits(|words| array(StringArray::from(words)), |values| array(Int64Array::from(values)));
    let none = judged(&all.slice(0, 0), &[]).unwrap();
    assert_eq!(none.num_rows(), 0);
    let schema_of = all.schema();
    let nulls = schema_of.fields().iter().map(|field| (field.name().as_str(), array(NullArray::new(3)))).collect();
    let answers = judged(&batch(nulls), &[]).unwrap();
    assert_eq!(reasons(&answers)[0].as_deref(), Some("`material` is null"));
    let status = answers.column_by_name("status").unwrap().as_primitive::<UInt16Type>();
    assert!(
        status.values().iter().all(|number| Reason::of_number(*number).is_some_and(|reason| reason != Reason::NONE))
    );
}

#[test]
fn a_stream_is_judged_as_each_of_its_batches_is() {
    let text = |words: Vec<Option<&str>>| array(StringArray::from(words));
    let number = |numbers: Vec<Option<i64>>| array(Int64Array::from(numbers));
    let all = circuits(text, number);
    // The run is missing of the second: nothing of the first may stand in for it.
    let without_run = all.project(&[0, 1, 2, 3, 4, 5, 6, 11]).unwrap();
    let hot = batch(vec![
        ("material", text(vec![Some("copper"), Some("aluminum")])),
        ("size", text(vec![Some("10 AWG"), Some("8 AWG")])),
        ("insulation", text(vec![Some("THHN"), Some("XHHW-2")])),
        ("ambient_c", number(vec![Some(50), Some(45)])),
        ("current_carrying", number(vec![Some(7), Some(3)])),
        ("load_continuous_a", number(vec![Some(20), Some(24)])),
        ("load_other_a", number(vec![Some(0), Some(1)])),
        ("device_a", number(vec![Some(30), Some(30)])),
    ]);
    let code = Nec::standard(Edition::Nec2023);
    let mut stream = Judge::new(code, &[], Wanted::Everything);
    let mut verdicts = Judge::new(code, &[], Wanted::Verdicts);
    for circuits in [&all, &without_run, &hot, &all.slice(1, 2), &hot, &all.slice(0, 0), &without_run] {
        let alone = judged(circuits, &[]).unwrap();
        let mut go_on = |_| ControlFlow::Continue(());
        assert_eq!(stream.judge(circuits, 2, &mut go_on).unwrap(), alone);
        // Of verdicts alone the columns are the same ones, and there is no other.
        let answers = verdicts.judge(circuits, 1, &mut go_on).unwrap();
        assert_eq!(answers.schema(), schema(circuits.schema_ref(), &[], Wanted::Verdicts).unwrap());
        let first: Vec<usize> = (0..answers.num_columns()).collect();
        assert_eq!(answers, alone.project(&first).unwrap());
        assert!(answers.column_by_name("ampacity_a").is_none());
    }
}

#[test]
fn many_rows_are_judged_as_few_are_on_any_number_of_threads() {
    let rows = 20_011;
    let text = |word: &'static str| array(StringArray::from(vec![word; rows]));
    let number = |of: &[Option<i64>]| array(of.iter().copied().cycle().take(rows).collect::<Int64Array>());
    // Of each four the second fails on its device, the third is no circuit and the fourth has no ampacity.
    let many = batch(vec![
        ("material", text("copper")),
        ("size", text("12 AWG")),
        ("insulation", text("THWN-2")),
        ("ambient_c", number(&[Some(30), Some(30), Some(30), Some(89)])),
        ("load_continuous_a", number(&[Some(16), Some(17), None, Some(1)])),
        ("load_other_a", number(&[Some(0)])),
        ("device_a", number(&[Some(20)])),
    ]);
    let few = judged(&many.slice(0, 4), &[]).unwrap();
    let code = Nec::standard(Edition::Nec2023);
    for (wanted, threads) in [(Wanted::Everything, 1), (Wanted::Everything, 3), (Wanted::Verdicts, 1)] {
        let answers = Judge::new(code, &[], wanted).judge(&many, threads, &mut |_| ControlFlow::Continue(())).unwrap();
        let (found, expected) = (words(&answers, "verdict"), words(&few, "verdict"));
        assert_eq!(expected, ["holds", "fails", "cannot tell", "cannot tell"].map(|word| Some(word.to_owned())));
        assert!(found.iter().enumerate().all(|(row, word)| *word == expected[row % 4]));
        let (found, expected) = (reasons(&answers), reasons(&few));
        assert!(found.iter().enumerate().all(|(row, reason)| *reason == expected[row % 4]));
        if wanted == Wanted::Everything {
            let ampacity =
                |of: &RecordBatch| of.column_by_name("ampacity_a").unwrap().as_primitive::<Float64Type>().clone();
            let expected: Float64Array = (0..rows).map(|row| ampacity(&few).iter().nth(row % 4).unwrap()).collect();
            assert_eq!(expected.null_count(), (0..rows).filter(|row| row % 4 > 1).count());
            assert_eq!(ampacity(&answers), expected);
        }
    }
    // Stopped before its end it says how far it came; after the last row there is nothing to stop.
    let mut judge = Judge::new(code, &[], Wanted::Everything);
    match judge.judge(&many, 1, &mut |_| ControlFlow::Break(())) {
        Err(ArrowJudgeError::Judge(JudgeError::Stopped { done })) => assert!(0 < done && done < rows, "{done}"),
        other => panic!("{other:?}"),
    }
    let mut to_the_last = |done| if done == rows { ControlFlow::Break(()) } else { ControlFlow::Continue(()) };
    assert_eq!(judge.judge(&many, 1, &mut to_the_last).unwrap().num_rows(), rows);
}

#[test]
fn no_answer_shows_through_from_a_batch_before() {
    // So many that their memory is used again when they are dropped.
    let rows = 24_000;
    let text = |word: &'static str| array(StringArray::from(vec![word; rows]));
    let number = |value| array(Int64Array::from(vec![value; rows]));
    let of = |size, continuous: ArrayRef, feet| {
        batch(vec![
            ("material", text("copper")),
            ("size", text(size)),
            ("insulation", text("THWN-2")),
            ("load_continuous_a", continuous),
            ("load_other_a", number(0)),
            ("device_a", number(20)),
            ("voltage_v", number(120)),
            ("circuit", text("two-wire")),
            ("length_ft", number(feet)),
            ("drop_limit_percent", number(3)),
        ])
    };
    let code = Nec::standard(Edition::Nec2023);
    for circuits in [
        of("12 AWG", number(16), 100),
        of("12 AWG", array(NullArray::new(rows)), 100),
        of("no size", number(16), 100),
        // Such a drop is judged by itself.
        of("12 AWG", number(90_000), 32_000),
        of("4 AWG", number(1), 10),
    ] {
        let few = judged(&circuits.slice(0, 3), &[]).unwrap();
        for (threads, before) in [(1, 16), (2, 4), (1, 200)] {
            let mut go_on = |_| ControlFlow::Continue(());
            let mut judge = Judge::new(code, &[], Wanted::Everything);
            drop(judge.judge(&of("10 AWG", number(before), 50), threads, &mut go_on).unwrap());
            let answers = judge.judge(&circuits, threads, &mut go_on).unwrap();
            for start in (0..rows - 3).step_by(997).chain([rows - 3]) {
                assert_eq!(answers.slice(start, 3), few);
            }
        }
    }
}
