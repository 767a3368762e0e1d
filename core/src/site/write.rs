//! The canonical writing of a site: the fields in the order of the reference, quantities in the units they came in.

use super::Site;

/// A site that could not be written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the site could not be written as {language}: {what}")]
pub struct WriteError {
    /// `TOML` or `JSON`.
    language: &'static str,
    what: String,
}

impl Site {
    /// The site as a TOML document, which reads back as the same site.
    ///
    /// # Errors
    /// None that a site read from a document is known to cause.
    pub fn to_toml(&self) -> Result<String, WriteError> {
        toml::to_string(&self.document).map_err(|error| WriteError { language: "TOML", what: error.to_string() })
    }

    /// The site as a JSON document, which reads back as the same site.
    ///
    /// # Errors
    /// None that a site read from a document is known to cause.
    pub fn to_json(&self) -> Result<String, WriteError> {
        serde_json::to_string_pretty(&self.document)
            .map_err(|error| WriteError { language: "JSON", what: error.to_string() })
    }
}
