//! Arrays that cross by the Arrow C data interface.

use arrow_array::ffi::{FFI_ArrowArray, FFI_ArrowSchema, from_ffi};
use arrow_array::{Array, RecordBatch, StructArray};
use arrow_schema::DataType;

use super::argument::check;
use crate::arrow::{ArrowArray, ArrowSchema};
use crate::error::{Result, fail};
use crate::status::LW_STATUS_ARROW;

/// A table, moved in: what is left behind counts as released, whether it could be taken or not.
pub(crate) fn table(schema: *const ArrowSchema, array: *mut ArrowArray) -> Result<RecordBatch> {
    let (schema, array) = (schema.cast::<FFI_ArrowSchema>(), array.cast::<FFI_ArrowArray>());
    check(schema, "schema")?;
    check(array, "array")?;
    // SAFETY: both are not NULL and aligned; the caller owes structures as the interface defines them, which arrow-array
    // lays out alike. The array is moved out, and the released one that is left behind is nobody's duty; the schema is
    // only read during this call.
    let data = unsafe {
        let array = FFI_ArrowArray::from_raw(array);
        if array.is_released() {
            return Err(fail(LW_STATUS_ARROW, "array", format_args!("was released before; pass one that is not")));
        }
        from_ffi(array, &*schema).map_err(|error| fail(LW_STATUS_ARROW, "array", format_args!("{error}")))?
    };
    // What the interface promises of offsets, dictionaries and text is checked before anything rests on it.
    data.validate_full().map_err(|error| fail(LW_STATUS_ARROW, "array", format_args!("{error}")))?;
    if !matches!(data.data_type(), DataType::Struct(_)) {
        let found = data.data_type();
        let what = format_args!("is an array of {found}; pass a struct, whose children are the columns");
        return Err(fail(LW_STATUS_ARROW, "array", what));
    }
    let columns = StructArray::from(data);
    if columns.null_count() > 0 {
        return Err(fail(LW_STATUS_ARROW, "array", format_args!("has rows that are null as a whole; leave them out")));
    }
    Ok(RecordBatch::from(columns))
}

/// Places for a table; what counts as released stands in them until one is given.
pub(crate) struct OutTable {
    schema: *mut FFI_ArrowSchema,
    array: *mut FFI_ArrowArray,
}

impl OutTable {
    pub(crate) fn new(schema: *mut ArrowSchema, array: *mut ArrowArray) -> Result<Self> {
        let (schema, array) = (schema.cast::<FFI_ArrowSchema>(), array.cast::<FFI_ArrowArray>());
        check(schema, "schema_out")?;
        check(array, "array_out")?;
        // SAFETY: both are not NULL and aligned; the caller owes a place for one of each, and that what stood there before
        // is released or nobody's.
        unsafe {
            schema.write(FFI_ArrowSchema::empty());
            array.write(FFI_ArrowArray::empty());
        }
        Ok(Self { schema, array })
    }

    /// Gives a table away: the caller owes the release of both.
    pub(crate) fn give(&self, table: RecordBatch) -> Result<()> {
        let schema = FFI_ArrowSchema::try_from(table.schema_ref().as_ref())
            .map_err(|error| fail(LW_STATUS_ARROW, "schema_out", format_args!("{error}")))?;
        let array = FFI_ArrowArray::new(&StructArray::from(table).into_data());
        // SAFETY: as in `new`; the released ones that are overwritten own nothing.
        unsafe {
            self.schema.write(schema);
            self.array.write(array);
        }
        Ok(())
    }
}
