//! The constant K of the drop formula that the trade uses.

/// The constant of the K form, in ohm circular mils per foot: about 12.9 for copper and 21.2 for aluminum at 75 °C
/// (common practice, no source; the worked examples of the trade use 12.9, and 21.0 to 21.2).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct KFactor(i64);

impl KFactor {
    /// From ten-thousandths of an ohm circular mil per foot, above 0 and at most 100 whole ones.
    #[must_use]
    pub const fn from_ten_thousandths(count: i64) -> Option<Self> {
        if count > 0 && count <= 1_000_000 { Some(Self(count)) } else { None }
    }

    /// The count of ten-thousandths.
    #[must_use]
    pub const fn ten_thousandths(self) -> i64 {
        self.0
    }
}

impl std::fmt::Display for KFactor {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{}", rust_decimal::Decimal::new(self.0, 4).normalize())
    }
}

impl std::str::FromStr for KFactor {
    type Err = KFactorError;

    fn from_str(text: &str) -> Result<Self, KFactorError> {
        let error = || KFactorError(text.chars().take(40).collect());
        let decimal = rust_decimal::Decimal::from_str_exact(text.trim()).map_err(|_| error())?;
        let scaled = decimal.checked_mul(rust_decimal::Decimal::from(10_000)).ok_or_else(error)?.normalize();
        let count = (scaled.scale() == 0).then(|| i64::try_from(scaled.mantissa()).ok()).flatten();
        count.and_then(Self::from_ten_thousandths).ok_or_else(error)
    }
}

/// A text that is not a constant K.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not a constant K; write ohm circular mils per foot, above 0 and at most 100, such as `12.9`")]
pub struct KFactorError(pub String);
