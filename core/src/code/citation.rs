//! Where a requirement stands: document, edition, section.

use std::fmt;

use crate::published::Grade;

/// A section of a code in one edition, such as `NEC 2023 210.20(A)`.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Citation {
    /// The document and edition, short: `NEC 2023`.
    pub document: &'static str,
    /// The section or table; `None` where the edition has no such section.
    pub section: Option<String>,
    /// How sure the number of the section is.
    #[serde(skip)]
    pub grade: Option<Grade>,
}

impl fmt::Display for Citation {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.section {
            Some(section) => write!(out, "{} {section}", self.document),
            None => write!(out, "{}: no section", self.document),
        }
    }
}
