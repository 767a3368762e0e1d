//! Arrow through Python capsules: the PyCapsule interface of Arrow, both ways, as safe functions.
//!
//! The only `unsafe` that the Python package needs is here. Each block relies on what the interface promises: a capsule of
//! one of its three names holds a pointer to the structure of that name, valid as long as the capsule, whose contents a
//! consumer may move out once, leaving it released; or on what was looked at just before.

use std::sync::Arc;

use arrow_array::ffi::{FFI_ArrowArray, FFI_ArrowSchema, from_ffi};
use arrow_array::ffi_stream::{FFI_ArrowArrayStream, RecordBatchStreamReader};
use arrow_array::types::ArrowDictionaryKeyType;
use arrow_array::{
    Array, ArrayRef, DictionaryArray, PrimitiveArray, RecordBatch, RecordBatchIterator, RecordBatchReader, StructArray,
};
use arrow_schema::{ArrowError, Schema};
use pyo3::exceptions::{PyTypeError, PyValueError};
use pyo3::prelude::*;
use pyo3::types::{PyCapsule, PyTuple};

const STREAM: &std::ffi::CStr = c"arrow_array_stream";
const SCHEMA: &std::ffi::CStr = c"arrow_schema";
const ARRAY: &std::ffi::CStr = c"arrow_array";

/// Record batches of anything with `__arrow_c_stream__` or `__arrow_c_array__`; `None` for what has neither.
///
/// # Errors
/// What the object raises, a capsule that is not what the interface says, or one that was consumed before.
pub fn import(object: &Bound<'_, PyAny>) -> PyResult<Option<Box<dyn RecordBatchReader + Send>>> {
    if object.hasattr("__arrow_c_stream__")? {
        let capsule = object.call_method0("__arrow_c_stream__")?;
        return Ok(Some(Box::new(stream(&capsule)?)));
    }
    if object.hasattr("__arrow_c_array__")? {
        let pair = object.call_method0("__arrow_c_array__")?;
        let batch = array(pair.cast::<PyTuple>()?)?;
        let schema = batch.schema();
        return Ok(Some(Box::new(RecordBatchIterator::new([Ok(batch)], schema))));
    }
    Ok(None)
}

fn stream(capsule: &Bound<'_, PyAny>) -> PyResult<RecordBatchStreamReader> {
    let pointer = capsule.cast::<PyCapsule>()?.pointer_checked(Some(STREAM))?.cast::<FFI_ArrowArrayStream>();
    // SAFETY: the capsule has the name that the interface gives to a valid stream, and lives until after this block. The
    // stream is moved out and an empty one is left behind, which the capsule's destructor does not release again.
    let stream = unsafe { FFI_ArrowArrayStream::from_raw(pointer.as_ptr()) };
    if stream.release().is_none() {
        return Err(PyValueError::new_err("the Arrow stream was consumed before"));
    }
    RecordBatchStreamReader::try_new(stream).map_err(|error| match error {
        // All that it says of a stream whose values are not rows of named columns.
        ArrowError::CDataInterface(why) if why == "Unable to interpret C data struct as a Schema" => {
            no_table("an array of another type")
        }
        error => raised(&error),
    })
}

fn no_table(found: &str) -> PyErr {
    PyTypeError::new_err(format!("a table is needed, an array of columns by name; this is {found}"))
}

fn array(pair: &Bound<'_, PyTuple>) -> PyResult<RecordBatch> {
    let (schema, array) = (pair.get_item(0)?, pair.get_item(1)?);
    let schema = schema.cast::<PyCapsule>()?.pointer_checked(Some(SCHEMA))?.cast::<FFI_ArrowSchema>();
    let array = array.cast::<PyCapsule>()?.pointer_checked(Some(ARRAY))?.cast::<FFI_ArrowArray>();
    // SAFETY: both capsules have the names that the interface gives to a valid schema and a valid array of it, and live
    // until after this block. The schema is only read; the array is moved out and an empty one is left behind.
    let data = unsafe {
        let array = FFI_ArrowArray::from_raw(array.as_ptr());
        if array.is_released() {
            return Err(PyValueError::new_err("the Arrow array was consumed before"));
        }
        from_ffi(array, schema.as_ref()).map_err(|error| raised(&error))?
    };
    if !matches!(data.data_type(), arrow_schema::DataType::Struct(_)) {
        return Err(no_table(&format!("one of {}", data.data_type())));
    }
    let columns = StructArray::from(data);
    if columns.null_count() > 0 {
        return Err(PyValueError::new_err("a row of the table is null as a whole"));
    }
    Ok(RecordBatch::from(columns))
}

/// A capsule of a stream of record batches. The stream is released with the capsule, unless it was moved out before.
///
/// # Errors
/// What Python raises when it cannot make one.
pub fn export<'py>(py: Python<'py>, batches: Box<dyn RecordBatchReader + Send>) -> PyResult<Bound<'py, PyCapsule>> {
    PyCapsule::new_with_value(py, FFI_ArrowArrayStream::new(batches), STREAM)
}

/// A capsule of a schema.
///
/// # Errors
/// A schema that the interface cannot express, or what Python raises.
pub fn export_schema<'py>(py: Python<'py>, schema: &Schema) -> PyResult<Bound<'py, PyCapsule>> {
    let schema = FFI_ArrowSchema::try_from(schema).map_err(|error| raised(&error))?;
    PyCapsule::new_with_value(py, schema, SCHEMA)
}

/// Keys and their words as a dictionary: all keys are looked at together, where safe code looks at one after the other.
///
/// # Errors
/// A key that is none of a word.
pub fn join<K: ArrowDictionaryKeyType>(keys: PrimitiveArray<K>, words: &ArrayRef) -> Result<ArrayRef, ArrowError> {
    let most = match (size_of::<K::Native>(), keys.values().inner()) {
        (1, bytes) => usize::from(bytes.iter().fold(0, |most, key| *key.max(&most))),
        (2, bytes) => usize::from(bytes.typed_data::<u16>().iter().fold(0, |most, key| *key.max(&most))),
        _ => usize::MAX,
    };
    // Read without its sign, a key below zero has the topmost bit.
    let sign = 1 << (8 * size_of::<K::Native>() - 1);
    if most >= words.len().min(sign) && keys.null_count() < keys.len() {
        return Ok(Arc::new(DictionaryArray::try_new(keys, Arc::clone(words))?));
    }
    // SAFETY: every key that is not null is that of a word.
    Ok(Arc::new(unsafe { DictionaryArray::new_unchecked(keys, Arc::clone(words)) }))
}

/// An error of Arrow as an exception.
#[must_use]
pub fn raised(error: &ArrowError) -> PyErr {
    PyValueError::new_err(error.to_string())
}
