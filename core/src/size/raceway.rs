//! Raceway trade size: Chapter 9 Tables 1, 4, 5, 5A and, for bare conductors, 8.

use super::requirement::{Requirement, Unsized, nothing};
use crate::calc::{CannotTell, Step, Working, cannot_tell};
use crate::code::{Code, Gap};
use crate::published::{Cell, TableId};
use crate::quantity::{Quantity, Ratio, Scaled, SquareMillimeters};
use crate::trade::{Jacket, RacewayKind, TradeSize, WireSize};

const ROOM: &str = "the room in the raceway";

/// Like conductors in a raceway. Equipment grounding conductors count too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Occupant {
    /// What covers each of them.
    pub jacket: Jacket,
    /// Their size.
    pub size: WireSize,
    /// How many there are.
    pub count: u16,
}

/// How long the raceway is, as far as the fill depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// A complete run.
    Run,
    /// At most 24 in between boxes: note 4 of Chapter 9.
    Nipple,
}

/// A raceway that is large enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Raceway {
    /// Its kind.
    pub kind: RacewayKind,
    /// Its trade size.
    pub trade_size: TradeSize,
    /// Its whole area.
    pub area: SquareMillimeters,
    /// What the conductors take.
    pub taken: SquareMillimeters,
    /// The share that they may take.
    pub share: Ratio,
}

/// The smallest trade size of a kind of raceway for some conductors: Σ A ≤ share · A_raceway.
///
/// ```
/// # use loadworthy::{calc::Silent, code::{Edition, Nec}, size::raceway::*, trade::*};
/// let wires = [Occupant {
///     jacket: Jacket::Insulated(Insulation::Thwn2, Stranding::Usual),
///     size: "12 AWG".parse()?,
///     count: 9,
/// }];
/// // 9 x 0.0133 in² is 0.1197 in²; 40 % of the 0.304 in² of 1/2 in tubing is 0.1216 in².
/// let nec = Nec::standard(Edition::Nec2023);
/// let found = smallest(nec, RacewayKind::Emt, &wires, Extent::Run, &mut Silent)?;
/// assert_eq!(found.trade_size.to_string(), "1/2 in");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`Unsized`]: a conductor or a raceway that the tables do not list, or more than the largest trade size takes.
pub fn smallest(
    code: &dyn Code,
    kind: RacewayKind,
    occupants: &[Occupant],
    extent: Extent,
    working: &mut impl Working,
) -> Result<Raceway, Unsized> {
    let (taken, share) = taken(code, occupants, extent, working)?;
    for (trade_size, area) in code.raceways(kind) {
        let area = area.map_err(cannot_tell(ROOM))?;
        if Scaled::new(area.value, share) >= taken {
            working.step(|| printed(format!("{trade_size} {kind}, whole area"), area, code));
            working.step(|| {
                Step::new(format!("smallest trade size with {share} of its area"), trade_size.to_string())
                    .by(&code.section("raceway-fill"))
            });
            return Ok(Raceway { kind, trade_size: *trade_size, area: area.value, taken, share });
        }
    }
    nothing("trade size of raceway", Requirement::RacewayFill)
}

/// Whether some conductors fit a raceway of a kind and trade size.
///
/// # Errors
/// [`CannotTell`] for a conductor or a raceway that the tables do not list.
pub fn fits(
    code: &dyn Code,
    (kind, trade_size): (RacewayKind, TradeSize),
    occupants: &[Occupant],
    extent: Extent,
) -> Result<bool, CannotTell> {
    let (taken, share) = taken(code, occupants, extent, &mut crate::calc::Silent)?;
    let row = code.raceways(kind).iter().find(|(known, _)| *known == trade_size);
    let area = row.map_or(Err(Gap::Outside(TableId::RacewayDimensions)), |(_, area)| *area);
    let area = area.map_err(cannot_tell(ROOM))?.value;
    Ok(Scaled::new(area, share) >= taken)
}

fn taken(
    code: &dyn Code,
    occupants: &[Occupant],
    extent: Extent,
    working: &mut impl Working,
) -> Result<(SquareMillimeters, Ratio), CannotTell> {
    let mut sum = SquareMillimeters::MIN;
    let mut count = 0_u16;
    for Occupant { jacket, size, count: of_these } in occupants {
        let area = code.conductor_area(*jacket, *size).map_err(cannot_tell(ROOM))?;
        working.step(|| printed(format!("{of_these} of {size}, each"), area, code));
        let all = area.value.count().checked_mul(i128::from(*of_these)).and_then(SquareMillimeters::from_count);
        sum = all
            .and_then(|all| sum.checked_add(all))
            .ok_or(CannotTell { what: ROOM, gap: Gap::Outside(area.place.table) })?;
        count = count.saturating_add(*of_these);
    }
    let share = code.raceway_fill(count, extent == Extent::Nipple).map_err(cannot_tell(ROOM))?;
    working.step(|| Step::read(format!("{count} conductors take {}, at most", inches(sum)), share, code));
    Ok((sum, share.value))
}

/// A cell as its table prints it.
fn printed(what: String, area: Cell<SquareMillimeters>, code: &dyn Code) -> Step {
    let mut step = Step::read(what, area, code);
    step.result = inches(area.value);
    step
}

/// In square inches, as the tables print, rounded up to four decimals.
fn inches(area: SquareMillimeters) -> String {
    let unit = SquareMillimeters::UNITS.iter().find(|unit| unit.symbol == "in2");
    unit.map_or_else(
        || area.to_string(),
        |unit| format!("{} in2", area.in_unit(unit, 4, crate::quantity::Rounding::Up)),
    )
}
