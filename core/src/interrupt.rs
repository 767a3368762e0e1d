//! Whether an answer is still waited for: work that may take long asks from time to time.

use std::fmt;
use std::ops::ControlFlow;
use std::sync::Arc;

/// Asked by work that may take long whether to go on; who waits no longer says [`ControlFlow::Break`].
///
/// Work that is told to stop gives no answer but says so. By default nothing is asked, and all is done.
///
/// ```
/// use loadworthy::{check::{WithWorking, check}, code::{Edition, Nec}, interrupt::Interrupt, rules::Outcome, site::Site};
/// use loadworthy::switching::sequence_unless;
/// use std::ops::ControlFlow;
///
/// let site = Site::from_toml("cottage.toml", include_str!("../examples/cottage.toml"))?;
/// let report = check(&site, Nec::standard(Edition::Nec2023), WithWorking::No);
/// assert_eq!(sequence_unless(&report, &Interrupt::never()).outcome(), Outcome::Holds);
/// let at_once = Interrupt::when(|| ControlFlow::Break(()));
/// assert_eq!(sequence_unless(&report, &at_once).outcome(), Outcome::CannotTell);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Default)]
pub struct Interrupt(Option<Arc<Ask>>);

type Ask = dyn Fn() -> ControlFlow<()> + Send + Sync;

impl Interrupt {
    /// Nothing interrupts the work.
    #[must_use]
    pub const fn never() -> Self {
        Self(None)
    }

    /// The work stops when this breaks. It is asked often, and by whichever thread works.
    #[must_use]
    pub fn when(ask: impl Fn() -> ControlFlow<()> + Send + Sync + 'static) -> Self {
        Self(Some(Arc::new(ask)))
    }

    /// Whether to stop.
    #[must_use]
    pub fn stops(&self) -> bool {
        self.0.as_ref().is_some_and(|ask| ask().is_break())
    }
}

impl fmt::Debug for Interrupt {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(if self.0.is_some() { "Interrupt::when(..)" } else { "Interrupt::never()" })
    }
}
