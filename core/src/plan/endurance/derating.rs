//! What an engine still gives high up and in the heat.

use super::{EnduranceError, MILLION};
use crate::plan::{Answer, Known, Question};
use crate::quantity::{Celsius, Meters, Quantity, Ratio, Watts};

/// The losses of an engine, as its maker's manual states them; both add.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Derating {
    /// The loss with altitude: a share per step of length above a height.
    pub altitude: Known<Loss<Meters>>,
    /// The loss with temperature: a share per step of degrees (as many as lie between 0 °C and `per`) above one.
    pub temperature: Known<Loss<Celsius>>,
}

/// A loss in proportion to what is above a threshold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Loss<Q> {
    /// The share lost for each step.
    pub share: Ratio,
    /// The step; for a temperature the number of degrees Celsius as a temperature.
    pub per: Q,
    /// Where the loss begins.
    pub above: Q,
}

/// The power that is left at an altitude and an ambient temperature, rounded down.
///
/// ```
/// use loadworthy::plan::{Answer, Known, endurance::*};
/// // 3.5 % per 1000 ft from sea level, and 1 % per 10 °F (5.555… °C) above 60 °F: at 2000 ft and 80 °F, 9 % of 8 kW.
/// let derating = Derating {
///     altitude: Known::Stated(Loss { share: "3.5 %".parse()?, per: "1000 ft".parse()?, above: "0 ft".parse()? }),
///     temperature: Known::Stated(Loss { share: "1.8 %".parse()?, per: "10 °C".parse()?, above: "60 °F".parse()? }),
/// };
/// let left = derated("generator", "8 kW".parse()?, &derating, "2000 ft".parse()?, "80 °F".parse()?)?;
/// assert_eq!(left, Answer::Told("7.28 kW".parse()?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`EnduranceError::NoStep`] for a loss per step of nothing.
pub fn derated(
    name: &str,
    rated: Watts,
    derating: &Derating,
    altitude: Meters,
    ambient: Celsius,
) -> Result<Answer<Watts>, EnduranceError> {
    let missing = [
        (derating.altitude == Known::NotStated, "the loss with altitude"),
        (derating.temperature == Known::NotStated, "the loss with temperature"),
    ];
    let missing = missing.into_iter().filter(|(missing, _)| *missing);
    let questions: Vec<_> = missing.map(|(_, fact)| Question::new(name, fact, "what it gives there")).collect();
    if !questions.is_empty() {
        return Ok(Answer::CannotTell(questions));
    }
    let lost_altitude = lost(derating.altitude.stated(), altitude)?;
    let lost_temperature = lost(derating.temperature.stated(), ambient)?;
    let left = (MILLION * MILLION).saturating_sub(lost_altitude + lost_temperature);
    // Whole µW, so that the product fits.
    let microwatts = rated.count().unsigned_abs() / 1_000_000_000;
    Ok(Answer::Told(super::watts(microwatts * left / (MILLION * MILLION))))
}

/// The share lost, in 10⁻¹², rounded up.
fn lost<Q: Quantity>(loss: Option<Loss<Q>>, at: Q) -> Result<u128, EnduranceError> {
    let Some(loss) = loss else { return Ok(0) };
    if loss.per.count() <= 0 {
        return Err(EnduranceError::NoStep);
    }
    let above = (at.count() - loss.above.count()).max(0).unsigned_abs();
    let share = u128::from(loss.share.count_of_millionths().unsigned_abs());
    Ok((above * share * MILLION).div_ceil(loss.per.count().unsigned_abs()))
}
