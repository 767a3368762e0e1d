//! What the site is made of: components, each fed from at most one other.

use super::place::Place;
use super::records::{Circuit, Cord, Feeder, Inlet, Load, Outlet, Panel, Receptacle, Source, Transfer};

/// A component of a site. Ids are in an order in which each component stands behind the one that feeds it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ComponentId(pub(super) u32);

impl ComponentId {
    /// The site as a whole, where a finding is about no component.
    pub const SITE: Self = Self(u32::MAX);

    /// The surroundings: the place, the people and the alarms.
    pub const SURROUNDINGS: Self = Self(u32::MAX - 1);

    /// The procedure by which people connect and return.
    pub const PROCEDURE: Self = Self(u32::MAX - 2);

    /// Its number in the order of [`Site::components`](super::Site::components), from 0.
    #[must_use]
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

macro_rules! components {
    ($($kind:ident = $key:literal, $a_noun:literal, fed from [$($from:ident),*];)+) => {
        /// The kind of a component.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[non_exhaustive]
        pub enum Kind {
            $(#[doc = concat!("[`", stringify!($kind), "`]")] $kind),+
        }

        impl Kind {
            /// Every kind, in the order of the document.
            pub const ALL: &'static [Self] = &[$(Self::$kind),+];

            /// Its name in a document: `cord`.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self { $(Self::$kind => $key),+ }
            }

            /// With its article: `a cord`.
            #[must_use]
            pub const fn a_noun(self) -> &'static str {
                match self { $(Self::$kind => $a_noun),+ }
            }

            /// The kinds that may feed it.
            #[must_use]
            pub const fn fed_from(self) -> &'static [Self] {
                match self { $(Self::$kind => &[$(Self::$from),*]),+ }
            }
        }

        /// A component of a site.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[non_exhaustive]
        pub enum Component<'a> {
            $(#[doc = concat!("[`", stringify!($kind), "`]")] $kind(&'a $kind)),+
        }

        impl<'a> Component<'a> {
            /// Its kind.
            #[must_use]
            pub const fn kind(self) -> Kind {
                match self { $(Self::$kind(_) => Kind::$kind),+ }
            }

            /// Its id.
            #[must_use]
            pub const fn id(self) -> ComponentId {
                match self { $(Self::$kind(record) => record.id()),+ }
            }

            /// Its name.
            #[must_use]
            pub fn name(self) -> &'a str {
                match self { $(Self::$kind(record) => &record.name),+ }
            }

            /// Where it stands in its document.
            #[must_use]
            pub fn place(self) -> Place {
                match self { $(Self::$kind(record) => record.place()),+ }
            }

            /// Where a field of it stands; its own place where the field is absent.
            #[must_use]
            pub fn place_of(self, field: &str) -> Place {
                match self { $(Self::$kind(record) => record.place_of(field)),+ }
            }
        }

        $(
            impl $kind {
                /// Its id in the site that it is part of.
                #[must_use]
                pub const fn id(&self) -> ComponentId {
                    self.location.id
                }
            }

            impl<'a> From<&'a $kind> for Component<'a> {
                fn from(record: &'a $kind) -> Self {
                    Self::$kind(record)
                }
            }
        )+
    };
}

// A panel may be described as fed through a cord or a receptacle, and transfer equipment as fed by a cord: such
// arrangements exist, and those that are prohibited can only be judged when they can be described.
components! {
    Source = "source", "a source", fed from [];
    Outlet = "outlet", "an outlet", fed from [Source];
    Cord = "cord", "a cord", fed from [Outlet, Receptacle, Cord];
    Inlet = "inlet", "an inlet", fed from [Cord];
    Feeder = "feeder", "a feeder", fed from [Inlet, Outlet, Panel, Transfer];
    Transfer = "transfer", "transfer equipment", fed from [Feeder, Inlet, Outlet, Cord];
    Panel = "panel", "a panel", fed from [Transfer, Feeder, Outlet, Inlet, Cord, Receptacle];
    Circuit = "circuit", "a circuit", fed from [Panel];
    Receptacle = "receptacle", "a receptacle", fed from [Circuit, Outlet, Cord];
    Load = "load", "a load", fed from [Circuit, Receptacle, Cord, Outlet, Inlet];
}

impl Kind {
    /// The kinds that may feed it as one list: `an outlet, a receptacle or a cord`.
    pub(super) fn wanted(kinds: &[Self]) -> String {
        let nouns: Vec<&str> = kinds.iter().map(|kind| kind.a_noun()).collect();
        match nouns.split_last() {
            Some((last, [])) => (*last).to_owned(),
            Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
            None => String::new(),
        }
    }
}
