//! What a record is: a table of the document whose fields are each written once, in Rust, with their documentation.

use super::form::Form;

/// A field of a record.
pub(super) struct Field {
    pub(super) name: &'static str,
    pub(super) about: &'static [&'static str],
    pub(super) required: bool,
    pub(super) form: fn() -> Form,
}

/// A record as it is documented.
pub(super) struct RecordInfo {
    /// What it describes, with its article: `an inlet`.
    pub(super) a_record: &'static str,
    pub(super) about: &'static [&'static str],
    pub(super) fields: &'static [Field],
}

/// Defines a record: the struct, its reading, its writing and its place in the printed reference.
///
/// The type of a field says whether it is required: `T` is, `Option<T>` and `Vec<T>` are not. A field whose name is a
/// word of Rust has its name in the document behind `as`.
macro_rules! record {
    (
        $(#[doc = $about:literal])*
        pub struct $name:ident: $a_record:literal {
            $($(#[doc = $field_about:literal])* $field:ident $(as $key:literal)?: $form:ty),+ $(,)?
        }
        $(at most one of $($alternative:literal),+ $(,)?)?
        $(checked by $check:path)?
    ) => {
        $(#[doc = $about])*
        #[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
        #[non_exhaustive]
        pub struct $name {
            $(
                $(#[doc = $field_about])*
                #[serde(skip_serializing_if = "crate::site::form::FieldValue::is_absent" $(, rename = $key)?)]
                pub $field: $form,
            )+
            #[serde(skip)]
            pub(in crate::site) location: $crate::site::place::Location,
        }

        impl $name {
            pub(in crate::site) const INFO: &'static $crate::site::record::RecordInfo = &$crate::site::record::RecordInfo {
                a_record: $a_record,
                about: &[$($about),*],
                fields: &[$($crate::site::record::Field {
                    name: $crate::site::record::key!($field $($key)?),
                    about: &[$($field_about),*],
                    required: <$form as $crate::site::form::FieldValue>::REQUIRED,
                    form: <$form as $crate::site::form::FieldValue>::form,
                }),+],
            };

            /// Where it stands in its document.
            #[must_use]
            pub fn place(&self) -> $crate::site::Place {
                self.location.place()
            }

            /// Where a field of it stands, by its name in the document; its own place where the field is absent.
            #[must_use]
            pub fn place_of(&self, field: &str) -> $crate::site::Place {
                self.location.place_of(field)
            }
        }

        impl $crate::site::form::FromNode for $name {
            fn from_node(
                node: &$crate::site::document::Node<'_>,
                at: $crate::site::place::At<'_>,
                reader: &mut $crate::site::reader::Reader<'_>,
            ) -> Option<Self> {
                let mut fields = $crate::site::reader::Fields::of(node, at, Self::INFO, reader)?;
                // Every field is read before the first that failed counts, so that all problems are noted.
                $(let $field = fields.read::<$form>($crate::site::record::key!($field $($key)?), reader);)+
                $(fields.at_most_one(&[$($alternative),+], reader);)?
                let record = Self { $($field: $field?,)+ location: fields.into_location() };
                $($check(&record, reader);)?
                Some(record)
            }

            fn form() -> $crate::site::form::Form {
                $crate::site::form::Form {
                    record: Some(Self::INFO),
                    ..$crate::site::form::Form::of("a table")
                }
            }
        }
    };
}

macro_rules! key {
    ($field:ident $key:literal) => {
        $key
    };
    ($field:ident) => {
        stringify!($field)
    };
}

pub(super) use {key, record};
