//! Closed vocabularies: one spelling to print, the others understood, and the nearest word when none fits.

/// A word of a closed vocabulary.
pub trait Word: Copy + Sized + 'static {
    /// What the vocabulary is of: `material`.
    const KIND: &'static str;

    /// Every word with its spelling.
    fn all() -> Vec<(&'static str, Self)>;

    /// The spelling that is printed.
    fn spelling(self) -> &'static str;

    /// The word of a spelling, whatever its case; `None` where no word has it.
    fn spelled(text: &str) -> Option<Self> {
        Self::all().into_iter().find(|(spelling, _)| spelling.eq_ignore_ascii_case(text)).map(|(_, word)| word)
    }

    /// The word of a text, whatever its case.
    ///
    /// # Errors
    /// Names the vocabulary, and the nearest word or all of them.
    fn find(text: &str) -> Result<Self, WordError> {
        let trimmed = text.trim();
        if let Some(word) = Self::spelled(trimmed) {
            return Ok(word);
        }
        let all = Self::all();
        Err(WordError::new(Self::KIND, trimmed, all.iter().map(|(spelling, _)| *spelling)))
    }
}

/// A text that is not a word of the vocabulary.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{found}` is not a known {kind}; {advice}")]
pub struct WordError {
    /// The text as it was found.
    pub found: String,
    /// What the vocabulary is of.
    pub kind: &'static str,
    /// The near word, or the words to choose from.
    pub advice: String,
}

impl WordError {
    pub(crate) fn new(kind: &'static str, found: &str, words: impl Iterator<Item = &'static str> + Clone) -> Self {
        const MOST: usize = 12;
        let advice = match nearest(found, words.clone()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => {
                let listed: Vec<&str> = words.clone().take(MOST).collect();
                let more = if words.count() > MOST { ", …" } else { "" };
                format!("write one of: {}{more}", listed.join(", "))
            }
        };
        Self { found: found.chars().take(60).collect(), kind, advice }
    }
}

/// The word nearest to `text`, where one is near enough to be meant.
#[must_use]
pub fn nearest<'a>(text: &str, words: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    const NEAR_ENOUGH: f64 = 0.75;
    let lower = text.chars().take(60).collect::<String>().to_lowercase();
    words
        .map(|word| (strsim::jaro_winkler(&lower, &word.to_lowercase()), word))
        .filter(|(likeness, _)| *likeness > NEAR_ENOUGH)
        .max_by(|(a, _), (b, _)| a.total_cmp(b))
        .map(|(_, word)| word)
}

/// Defines a closed vocabulary as an enum with its spellings; the first spelling of a word is the one printed.
macro_rules! words {
    (
        $(#[$doc:meta])*
        pub enum $name:ident: $kind:literal {
            $($(#[$word_doc:meta])* $variant:ident = $spelling:literal $(| $other:literal)*),+ $(,)?
        }
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[non_exhaustive]
        pub enum $name {
            $($(#[$word_doc])* $variant),+
        }

        impl $crate::trade::Word for $name {
            const KIND: &'static str = $kind;

            fn all() -> Vec<(&'static str, Self)> {
                vec![$(($spelling, Self::$variant) $(, ($other, Self::$variant))*),+]
            }

            fn spelling(self) -> &'static str {
                match self { $(Self::$variant => $spelling),+ }
            }

            // Without the list: a question has many words, and most are right.
            fn spelled(text: &str) -> Option<Self> {
                $(if text.eq_ignore_ascii_case($spelling) $(|| text.eq_ignore_ascii_case($other))* {
                    return Some(Self::$variant);
                })+
                None
            }
        }

        impl std::str::FromStr for $name {
            type Err = $crate::trade::WordError;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                $crate::trade::Word::find(text)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                out.write_str($crate::trade::Word::spelling(*self))
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
                out.serialize_str($crate::trade::Word::spelling(*self))
            }
        }
    };
}

pub(crate) use words;
