//! Arrays of Arrow as columns, borrowed.

use arrow_array::cast::AsArray;
use arrow_array::types::{
    Decimal128Type, Float32Type, Float64Type, Int8Type, Int16Type, Int32Type, Int64Type, UInt8Type, UInt16Type,
    UInt32Type, UInt64Type,
};
use arrow_array::{Array, StringViewArray};
use arrow_buffer::NullBuffer;
use arrow_schema::DataType;

use crate::batch::{Bits, Column, Data, Integers, Joined, Text};

/// An array, with what a column must borrow that the array does not have as such.
pub(super) struct Held<'a> {
    data: Kind<'a>,
    nulls: Option<&'a NullBuffer>,
}

enum Kind<'a> {
    Plain(Data<'a>),
    Joined(Joined<'a>),
    View(View<'a>),
    Coded(Integers<'a>, Vec<Option<&'a str>>),
    /// A type that no column has.
    Other(Other),
}

impl<'a> Held<'a> {
    pub(super) fn of(array: &'a dyn Array) -> Self {
        let data = match array.data_type() {
            DataType::Float64 => Kind::Plain(Data::F64(array.as_primitive::<Float64Type>().values())),
            DataType::Float32 => Kind::Plain(Data::F32(array.as_primitive::<Float32Type>().values())),
            DataType::Decimal128(_, scale) => {
                Kind::Plain(Data::Decimals { values: array.as_primitive::<Decimal128Type>().values(), scale: *scale })
            }
            DataType::Boolean => {
                let values = array.as_boolean().values();
                let bits = Bits { bytes: values.values(), offset: values.offset() };
                Kind::Plain(Data::Flags { bits, rows: array.len() })
            }
            DataType::Utf8 => {
                let text = array.as_string::<i32>();
                Kind::Joined(Joined { offsets: Integers::I32(text.value_offsets()), bytes: text.value_data() })
            }
            DataType::LargeUtf8 => {
                let text = array.as_string::<i64>();
                Kind::Joined(Joined { offsets: Integers::I64(text.value_offsets()), bytes: text.value_data() })
            }
            DataType::Utf8View => Kind::View(View(array.as_string_view())),
            DataType::Null => Kind::Plain(Data::Nulls { rows: array.len() }),
            DataType::Dictionary(_, values) if is_text(values) => coded(array),
            _ => integers(array).map_or_else(|| other(array), |values| Kind::Plain(Data::Integers(values))),
        };
        Self { data, nulls: array.nulls() }
    }

    pub(super) fn column<'h>(&'h self, name: &'h str) -> Column<'h> {
        let data = match &self.data {
            Kind::Plain(data) => *data,
            Kind::Joined(text) => Data::Text(text),
            Kind::View(text) => Data::Text(text),
            Kind::Coded(codes, words) => Data::Coded { codes: *codes, words },
            Kind::Other(Other { name, rows }) => Data::Other { kind: name, rows: *rows },
        };
        let validity = self.nulls.map(|nulls| Bits { bytes: nulls.validity(), offset: nulls.offset() });
        Column { name, data, validity }
    }
}

fn is_text(of: &DataType) -> bool {
    matches!(of, DataType::Utf8 | DataType::LargeUtf8 | DataType::Utf8View)
}

fn integers(array: &dyn Array) -> Option<Integers<'_>> {
    Some(match array.data_type() {
        DataType::Int64 => Integers::I64(array.as_primitive::<Int64Type>().values()),
        DataType::Int32 => Integers::I32(array.as_primitive::<Int32Type>().values()),
        DataType::Int16 => Integers::I16(array.as_primitive::<Int16Type>().values()),
        DataType::Int8 => Integers::I8(array.as_primitive::<Int8Type>().values()),
        DataType::UInt64 => Integers::U64(array.as_primitive::<UInt64Type>().values()),
        DataType::UInt32 => Integers::U32(array.as_primitive::<UInt32Type>().values()),
        DataType::UInt16 => Integers::U16(array.as_primitive::<UInt16Type>().values()),
        DataType::UInt8 => Integers::U8(array.as_primitive::<UInt8Type>().values()),
        _ => return None,
    })
}

fn other(array: &dyn Array) -> Kind<'_> {
    Kind::Other(Other { name: array.data_type().to_string(), rows: array.len() })
}

fn coded(array: &dyn Array) -> Kind<'_> {
    let Some(dictionary) = array.as_any_dictionary_opt() else { return other(array) };
    match integers(dictionary.keys()) {
        Some(codes) => Kind::Coded(codes, words(dictionary.values().as_ref())),
        None => other(array),
    }
}

fn words(values: &dyn Array) -> Vec<Option<&str>> {
    match values.data_type() {
        DataType::Utf8 => values.as_string::<i32>().iter().collect(),
        DataType::LargeUtf8 => values.as_string::<i64>().iter().collect(),
        _ => values.as_string_view().iter().collect(),
    }
}

#[derive(Debug)]
struct View<'a>(&'a StringViewArray);

impl Text for View<'_> {
    fn rows(&self) -> usize {
        self.0.len()
    }

    fn get(&self, row: usize) -> Option<&str> {
        (row < self.0.len() && !self.0.is_null(row)).then(|| self.0.value(row))
    }
}

struct Other {
    name: String,
    rows: usize,
}
