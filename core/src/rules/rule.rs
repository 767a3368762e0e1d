//! What a rule is.

use super::{Findings, Survey};

/// How grave it is when a rule fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Never allowed, whatever else holds. No local amendment switches it off.
    Prohibited,
    /// Breaks a code section or a listing.
    Violation,
    /// Likely trouble, or advice that the code gives without requiring it.
    Caution,
    /// Reported only.
    Information,
}

impl Severity {
    /// Whether a failure makes a site not loadworthy, and a missing fact leaves it undecided.
    #[must_use]
    pub const fn decides(self) -> bool {
        matches!(self, Self::Prohibited | Self::Violation)
    }

    /// In a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Prohibited => "prohibited",
            Self::Violation => "violation",
            Self::Caution => "caution",
            Self::Information => "information",
        }
    }
}

/// A rule: what it is called, how grave it is, where it stands in the code, its page, and its check.
pub struct Rule {
    /// Its name: the same words as its file.
    pub slug: &'static str,
    /// What is wrong when it fails, in a line.
    pub summary: &'static str,
    /// How grave that is.
    pub severity: Severity,
    /// The topics of `sections.csv` that it rests on; the first is cited in its findings.
    pub topics: &'static [&'static str],
    /// What it rests on besides the code, or where the code says nothing: documents, or practice and reasoning said so.
    pub sources: &'static [&'static str],
    pub(super) lines: &'static [&'static str],
    pub(crate) check: fn(&Survey<'_>, &mut Findings),
}

impl Rule {
    /// The page that people read: what it protects against, when it cannot tell, and the remedy, in Markdown.
    #[must_use]
    pub fn page(&self) -> String {
        self.lines.iter().map(|line| line.strip_prefix(' ').unwrap_or(line)).collect::<Vec<_>>().join("\n")
    }
}

impl PartialEq for Rule {
    fn eq(&self, other: &Self) -> bool {
        self.slug == other.slug
    }
}

impl std::fmt::Debug for Rule {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(self.slug)
    }
}

/// Defines a rule; its doc comment is its page.
macro_rules! rule {
    (
        $(#[doc = $line:literal])+
        $name:ident = $slug:literal {
            severity: $severity:ident,
            summary: $summary:literal,
            topics: [$($topic:literal),* $(,)?],
            $(sources: [$($source:literal),+ $(,)?],)?
            check: $check:ident,
        }
    ) => {
        $(#[doc = $line])+
        pub static $name: $crate::rules::Rule = $crate::rules::Rule {
            slug: $slug,
            summary: $summary,
            severity: $crate::rules::Severity::$severity,
            topics: &[$($topic),*],
            sources: &[$($($source),+)?],
            lines: &[$($line),+],
            check: $check,
        };
    };
}

pub(super) use rule;
