//! The checks of a row and how each ends.

/// How a check ends. Only [`Verdict::Holds`] is a pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[repr(u8)]
#[non_exhaustive]
pub enum Verdict {
    /// It holds.
    Holds = 0,
    /// It fails.
    Fails = 1,
    /// A fact is missing, so that neither can be said.
    CannotTell = 2,
    /// It was not asked for: no limit on the drop.
    NotAsked = 3,
}

impl Verdict {
    /// Every verdict, by its number.
    pub const ALL: [Self; 4] = [Self::Holds, Self::Fails, Self::CannotTell, Self::NotAsked];

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Fails => "fails",
            Self::CannotTell => "cannot tell",
            Self::NotAsked => "not asked",
        }
    }

    #[inline]
    pub(super) const fn of(holds: bool) -> Self {
        if holds { Self::Holds } else { Self::Fails }
    }

    /// Of several: one that fails decides, then one that cannot tell.
    #[inline]
    pub(super) fn of_all(checks: [Self; 5]) -> Self {
        if checks.contains(&Self::Fails) {
            Self::Fails
        } else if checks.contains(&Self::CannotTell) {
            Self::CannotTell
        } else {
            Self::Holds
        }
    }
}

/// A check of a row. The slugs are those of the rules that ask the same of a described site.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[repr(u8)]
#[non_exhaustive]
pub enum Check {
    /// The load is within the usable ampacity: 210.19(A)(1), 310.16, 310.15.
    ConductorAmpacity = 0,
    /// The continuous load with its factor is within the ampacity before factors: 210.19(A)(1), 110.14(C).
    ContinuousLoadOnConductor = 1,
    /// The continuous load with its factor is within the rating of the device: 210.20(A).
    ContinuousLoadOnDevice = 2,
    /// The device is no larger than the conductor permits: 240.4, (B), (C) and (D).
    BreakerProtectsConductor = 3,
    /// The drop is within its limit.
    VoltageDrop = 4,
}

impl Check {
    /// Every check, in order.
    pub const ALL: [Self; 5] = [
        Self::ConductorAmpacity,
        Self::ContinuousLoadOnConductor,
        Self::ContinuousLoadOnDevice,
        Self::BreakerProtectsConductor,
        Self::VoltageDrop,
    ];

    /// Its name in words joined by hyphens.
    #[must_use]
    pub const fn slug(self) -> &'static str {
        match self {
            Self::ConductorAmpacity => "conductor-ampacity",
            Self::ContinuousLoadOnConductor => "continuous-load-on-conductor",
            Self::ContinuousLoadOnDevice => "continuous-load-on-device",
            Self::BreakerProtectsConductor => "breaker-protects-conductor",
            Self::VoltageDrop => "voltage-drop",
        }
    }
}

/// The number, plus 1, of the first check that ends as the whole does; 0 where all hold.
#[inline]
pub(super) fn decided_by(checks: [Verdict; 5], whole: Verdict) -> u8 {
    if whole == Verdict::Holds {
        return 0;
    }
    (1..).zip(checks).find(|(_, check)| *check == whole).map_or(0, |(number, _)| number)
}
