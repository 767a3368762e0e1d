//! The macros that define a quantity and the products between quantities.

/// Defines a quantity: an integer count of a small unit, with its range, its units and its text form.
macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $name:ident($repr:ty), $a_noun:literal $noun:literal, $minimum:expr => $maximum:expr,
        [$($symbol:literal $(| $other:literal)* = $count:expr $(, offset $offset:expr)?);+ $(;)?]
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub(super) $repr);

        impl $name {
            /// The least value that can be held.
            pub const MIN: Self = Self($minimum);
            /// The greatest value that can be held.
            pub const MAX: Self = Self($maximum);

            /// From a count of the smallest unit; `None` outside the range.
            #[must_use]
            pub const fn new(count: $repr) -> Option<Self> {
                if count < $minimum || count > $maximum { None } else { Some(Self(count)) }
            }

            /// The sum; `None` above the range.
            #[must_use]
            pub fn checked_add(self, other: Self) -> Option<Self> {
                self.0.checked_add(other.0).and_then(Self::new)
            }

            /// The difference; `None` below the range.
            #[must_use]
            pub fn checked_sub(self, other: Self) -> Option<Self> {
                self.0.checked_sub(other.0).and_then(Self::new)
            }
        }

        impl $crate::quantity::Quantity for $name {
            const NOUN: &'static str = $noun;
            const A_NOUN: &'static str = concat!($a_noun, " ", $noun);
            const UNITS: &'static [$crate::quantity::Unit] = &[$(
                $crate::quantity::Unit {
                    symbol: $symbol,
                    names: &[$($other),*],
                    count: $count,
                    offset: 0 $(+ $offset)?,
                }
            ),+];
            const MINIMUM: i128 = $minimum as i128;
            const MAXIMUM: i128 = $maximum as i128;

            #[inline]
            fn count(self) -> i128 {
                i128::from(self.0)
            }

            #[inline]
            fn from_count(count: i128) -> Option<Self> {
                <$repr>::try_from(count).ok().and_then(Self::new)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                $crate::quantity::text::display(*self, out)
            }
        }

        impl std::str::FromStr for $name {
            type Err = $crate::quantity::QuantityError;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                $crate::quantity::text::parse::<Self>(text).map(|(value, _)| value)
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
                out.collect_str(self)
            }
        }
    };
}

/// Products with a physical meaning. The right side is wide enough for any two factors in their ranges,
/// which the compiler proves from the limits given beside it.
macro_rules! products {
    ($($left:ident * $right:ident = $product:ident;)+) => {$(
        const _: () = assert!(
            ($left::MAX.0 as i128).checked_mul($right::MAX.0 as i128).is_some()
                && ($left::MAX.0 as i128) * ($right::MAX.0 as i128) <= $product::MAX.0 as i128,
            "a product must fit its range"
        );

        impl std::ops::Mul<$right> for $left {
            type Output = $product;

            #[inline]
            fn mul(self, right: $right) -> $product {
                $product(i128::from(self.0) * i128::from(right.0))
            }
        }

        impl std::ops::Mul<$left> for $right {
            type Output = $product;

            #[inline]
            fn mul(self, left: $left) -> $product {
                left * self
            }
        }
    )+};
}

pub(super) use {products, quantity};
