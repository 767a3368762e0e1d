//! Options set by name: what a door that is no command line has in place of one.
//!
//! Each question lists its options a second time beside its fields; a test holds the list against the command line.

/// A place for the value of an option.
pub(in crate::cli) trait Slot {
    /// Takes the value; an option that may be said several times keeps them all.
    fn put(&mut self, text: String);

    /// Whether the option may be said several times.
    fn takes_several(&self) -> bool;

    /// What it holds.
    fn held(&self) -> &[String];
}

impl Slot for Option<String> {
    fn put(&mut self, text: String) {
        *self = Some(text);
    }

    fn takes_several(&self) -> bool {
        false
    }

    fn held(&self) -> &[String] {
        self.as_slice()
    }
}

impl Slot for Vec<String> {
    fn put(&mut self, text: String) {
        self.push(text);
    }

    fn takes_several(&self) -> bool {
        true
    }

    fn held(&self) -> &[String] {
        self
    }
}

/// A question whose options can be set by their names, written with underscores.
pub(in crate::cli) trait Named {
    /// Where the value of an option goes; `None` where there is no such option.
    fn slot(&mut self, option: &str) -> Option<&mut dyn Slot>;

    /// Every option with the values it holds.
    fn each<'a>(&'a self, tell: &mut dyn FnMut(&'static str, &'a [String]));
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

            fn each<'a>(&'a self, tell: &mut dyn FnMut(&'static str, &'a [String])) {
                $({
                    let slot: &dyn $crate::cli::named::Slot = &self.$option;
                    tell($crate::cli::named::named!(@name $($shown)? $option), slot.held());
                })*
                $($($crate::cli::named::Named::each(&self.$shared, tell);)+)?
                // A question of shared options alone has none of its own to tell.
                let _ = tell;
            }
        }
    };
    (@name $shown:literal $option:ident) => { $shown };
    (@name $option:ident) => { stringify!($option) };
}

pub(in crate::cli) use named;
