//! Options set by name: what a door that is no command line has in place of one.
//!
//! Each question lists its options a second time beside its fields; a test holds the list against the command line.

/// A place for the value of an option.
pub(in crate::cli) trait Slot {
    /// Takes the value; an option that may be said several times keeps them all.
    fn put(&mut self, text: String);
}

impl Slot for Option<String> {
    fn put(&mut self, text: String) {
        *self = Some(text);
    }
}

impl Slot for Vec<String> {
    fn put(&mut self, text: String) {
        self.push(text);
    }
}

/// A question whose options can be set by their names, written with underscores.
pub(in crate::cli) trait Named {
    /// Where the value of an option goes; `None` where there is no such option.
    fn slot(&mut self, option: &str) -> Option<&mut dyn Slot>;
}

/// Lists the options of a question by their fields, and the groups of options that it shares with others.
macro_rules! named {
    ($of:ident: $($($shown:literal =)? $option:ident),* $(; $($shared:ident),+)?) => {
        impl $crate::cli::named::Named for $of {
            fn slot(&mut self, option: &str) -> Option<&mut dyn $crate::cli::named::Slot> {
                $(if option == $crate::cli::named::named!(@name $($shown)? $option) {
                    return Some(&mut self.$option);
                })*
                $($(if let Some(slot) = $crate::cli::named::Named::slot(&mut self.$shared, option) {
                    return Some(slot);
                })+)?
                None
            }
        }
    };
    (@name $shown:literal $option:ident) => { $shown };
    (@name $option:ident) => { stringify!($option) };
}

pub(in crate::cli) use named;
