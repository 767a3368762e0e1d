//! What to change where a rule fails: the smallest standard size that makes the finding hold and breaks nothing else.
//!
//! The forward check itself is asked, size by size, so that a remedy is right by the same rules that found the fault.

use crate::check::{Report, WithWorking, check, check_by};
use crate::code::Code;
use crate::quantity::{Amperes, Written};
use crate::rules::{Finding, Outcome};
use crate::site::{Component, ComponentId, Site};
use crate::trade::{DeviceKind, WireSize};

/// One thing to replace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Change {
    /// The circuit conductors of a circuit or a feeder.
    Conductors {
        /// Of what.
        of: ComponentId,
        /// Their new size.
        size: WireSize,
        /// The size that the ampacity alone would need, from which the grounding conductor is enlarged.
        needed: Option<WireSize>,
    },
    /// The equipment grounding conductor of a circuit or a feeder.
    Grounding {
        /// Of what.
        of: ComponentId,
        /// Its new size.
        size: WireSize,
    },
    /// The overcurrent device of a circuit or a feeder, or the breaker that feeds a panel from the source.
    Device {
        /// Of what.
        of: ComponentId,
        /// Its new rating.
        rating: Amperes,
    },
    /// A cord.
    Cord {
        /// Which.
        of: ComponentId,
        /// The size of the new one.
        size: WireSize,
    },
}

/// What mends a finding: one change, or a few that belong together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// The changes.
    pub changes: Vec<Change>,
}

/// The smallest standard change that makes a finding hold and breaks no other.
///
/// `None` where the finding does not fail, where no size mends it, and wherever something prohibited stands: a prohibited
/// arrangement is never sized.
///
/// ```
/// use loadworthy::{check::{check, WithWorking}, code::{Edition, Nec}, rules::Outcome, site::Site, size::remedy::remedy};
/// // A breaker of 20 A in place of the 15 A ahead of 14 AWG conductors.
/// let text = include_str!("../../examples/cottage.toml").replacen("rating = \"15 A\"", "rating = \"20 A\"", 1);
/// let site = Site::from_toml("cottage.toml", &text)?;
/// let report = check(&site, Nec::standard(Edition::Nec2023), WithWorking::No);
/// let finding = report.ended(Outcome::Fails)[0];
/// assert_eq!(finding.rule.slug, "breaker-protects-conductor");
/// assert_eq!(
///     remedy(&report, finding).map(|mend| mend.text(&site)).as_deref(),
///     Some("replace the conductors of `lighting circuit` with 12 AWG"),
/// );
/// # Ok::<(), loadworthy::site::Problems>(())
/// ```
#[must_use]
pub fn remedy(report: &Report<'_>, finding: &Finding) -> Option<Mend> {
    if finding.outcome != Outcome::Fails || report.prohibited() {
        return None;
    }
    candidates(report, finding).into_iter().find_map(|changes| complete(report, finding, changes))
}

impl Mend {
    /// The site with the changes made.
    #[must_use]
    pub fn applied(&self, site: &Site) -> Site {
        let mut mended = site.clone();
        for change in &self.changes {
            change.apply(&mut mended);
        }
        mended
    }

    /// In words, with the names of the components.
    #[must_use]
    pub fn text(&self, site: &Site) -> String {
        let words: Vec<String> = self.changes.iter().map(|change| change.text(site)).collect();
        words.join("; ")
    }
}

impl Change {
    const fn of(self) -> ComponentId {
        match self {
            Self::Conductors { of, .. }
            | Self::Grounding { of, .. }
            | Self::Device { of, .. }
            | Self::Cord { of, .. } => of,
        }
    }

    fn text(self, site: &Site) -> String {
        let name = site.component(self.of()).map_or("", Component::name);
        match self {
            Self::Conductors { size, .. } => format!("replace the conductors of `{name}` with {size}"),
            Self::Grounding { size, .. } => {
                format!("replace the equipment grounding conductor of `{name}` with {size}")
            }
            Self::Device { of, rating } if matches!(site.component(of), Some(Component::Panel(_))) => {
                format!("replace the breaker that feeds `{name}` with one of {rating}")
            }
            Self::Device { rating, .. } => format!("replace the overcurrent device of `{name}` with one of {rating}"),
            Self::Cord { size, .. } => format!("replace `{name}` with a cord of {size}"),
        }
    }

    fn apply(self, site: &mut Site) {
        let parts = site.parts_mut(self.of());
        match self {
            Self::Conductors { size, needed, .. } => {
                if let Some(wiring) = parts.wiring {
                    wiring.size = Some(size);
                    // What was needed before no longer stands where the ampacity itself asks for more.
                    wiring.minimum_size = needed.or(wiring.minimum_size.map(|_| size));
                }
            }
            Self::Grounding { size, .. } => {
                if let Some(wiring) = parts.wiring {
                    wiring.grounding_size = Some(size);
                }
            }
            Self::Device { rating, .. } => {
                if let Some(device) = parts.device {
                    device.rating = Some(Written::from(rating));
                }
            }
            Self::Cord { size, .. } => {
                if let Some(cord) = parts.cord {
                    cord.size = Some(size);
                }
            }
        }
    }
}

/// The changes to try, the smallest first.
fn candidates(report: &Report<'_>, finding: &Finding) -> Vec<Vec<Change>> {
    let Some(subject) = report.site.component(finding.subject) else { return Vec::new() };
    match finding.rule.slug {
        "conductor-ampacity"
        | "conductor-suits-place"
        | "continuous-load-on-conductor"
        | "source-conductor-ampacity" => conductors(report, subject, Why::Ampacity),
        "breaker-protects-conductor" => {
            let mut all = conductors(report, subject, Why::Ampacity);
            all.extend(devices(report, subject, Toward::Smaller));
            all
        }
        "continuous-load-on-device" => devices(report, subject, Toward::Larger),
        "equipment-grounding-conductor" => grounding(report, subject),
        "breaker-protects-cord" | "cord-ampacity" | "cord-set-length-limit" => cords(report, subject),
        "motor-voltage-and-frequency"
        | "voltage-at-load"
        | "voltage-drop-in-branch"
        | "voltage-drop-on-path"
        | "voltage-window" => {
            let mut all = conductors(report, subject, Why::Drop);
            for component in report.site.upstream(subject.id()) {
                all.extend(conductors(report, component, Why::Drop));
                all.extend(cords(report, component));
            }
            all
        }
        _ => Vec::new(),
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Why {
    Ampacity,
    Drop,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Toward {
    Larger,
    Smaller,
}

fn wiring(component: Component<'_>) -> Option<&crate::site::Wiring> {
    match component {
        Component::Circuit(circuit) => circuit.wiring.as_ref(),
        Component::Feeder(feeder) => feeder.wiring.as_ref(),
        _ => None,
    }
}

fn larger(code: &dyn Code, than: WireSize) -> impl Iterator<Item = WireSize> {
    code.sizes().iter().copied().filter(move |size| *size > than)
}

fn conductors(report: &Report<'_>, of: Component<'_>, why: Why) -> Vec<Vec<Change>> {
    let Some((wiring, old)) = wiring(of).and_then(|wiring| Some((wiring, wiring.size?))) else { return Vec::new() };
    let needed = (why == Why::Drop).then(|| wiring.minimum_size.unwrap_or(old));
    let change = |size| vec![Change::Conductors { of: of.id(), size, needed }];
    larger(report.code, old).map(change).collect()
}

fn cords(report: &Report<'_>, of: Component<'_>) -> Vec<Vec<Change>> {
    match of {
        Component::Cord(cord) => match cord.size {
            Some(old) => larger(report.code, old).map(|size| vec![Change::Cord { of: of.id(), size }]).collect(),
            None => Vec::new(),
        },
        _ => Vec::new(),
    }
}

fn grounding(report: &Report<'_>, of: Component<'_>) -> Vec<Vec<Change>> {
    let Some(old) = wiring(of).and_then(|wiring| wiring.grounding_size) else { return Vec::new() };
    larger(report.code, old).map(|size| vec![Change::Grounding { of: of.id(), size }]).collect()
}

/// Other ratings of a component's own device; a larger one alone first, else with larger conductors behind it.
fn devices(report: &Report<'_>, of: Component<'_>, toward: Toward) -> Vec<Vec<Change>> {
    let device = match of {
        Component::Circuit(circuit) => circuit.overcurrent_device.as_ref(),
        Component::Feeder(feeder) => feeder.overcurrent_device.as_ref(),
        Component::Panel(panel) => panel.supply_breaker.as_ref(),
        _ => None,
    };
    let Some(old) = device.and_then(|device| device.rating.as_deref().copied()) else { return Vec::new() };
    let kind = device.and_then(|device| device.kind).unwrap_or(DeviceKind::Breaker);
    let mut ratings: Vec<Amperes> =
        report.code.standard_ratings(kind).iter().flatten().map(|cell| cell.value).collect();
    match toward {
        Toward::Larger => ratings.retain(|rating| *rating > old),
        Toward::Smaller => {
            ratings.retain(|rating| *rating < old);
            ratings.reverse();
        }
    }
    let mut all = Vec::new();
    for rating in ratings {
        let device = Change::Device { of: of.id(), rating };
        all.push(vec![device]);
        if toward == Toward::Larger {
            all.extend(conductors(report, of, Why::Ampacity).into_iter().map(|mut changes| {
                changes.insert(0, device);
                changes
            }));
        }
    }
    all
}

/// The changes, with a larger equipment grounding conductor where they make one necessary, if they mend the finding.
fn complete(report: &Report<'_>, finding: &Finding, changes: Vec<Change>) -> Option<Mend> {
    let mend = Mend { changes };
    let of = mend.changes.last()?.of();
    match broken(report, finding, &mend)? {
        Broken::Nothing => Some(mend),
        Broken::GroundingOf(id) if id == of => {
            let component = report.site.component(of)?;
            grounding(report, component).into_iter().find_map(|grounding| {
                let mut changes = mend.changes.clone();
                changes.extend(grounding);
                let mend = Mend { changes };
                matches!(broken(report, finding, &mend)?, Broken::Nothing).then_some(mend)
            })
        }
        Broken::GroundingOf(_) | Broken::Other => None,
    }
}

/// What else the changes break, once they make the finding hold.
enum Broken {
    Nothing,
    GroundingOf(ComponentId),
    Other,
}

/// `None` where the finding does not hold after the changes.
fn broken(report: &Report<'_>, finding: &Finding, mend: &Mend) -> Option<Broken> {
    let mended = mend.applied(report.site);
    // Its own rule first: most changes do not mend it, and then no other rule need be asked.
    let own = check_by(finding.rule, &mended, report.code);
    let of_it = || own.iter().filter(|other| other.subject == finding.subject);
    // Another size may be judged by another field: then all that the rule says of the subject must hold.
    let recurs = of_it().any(|other| other.field == finding.field);
    let mut judged = of_it().filter(|other| !recurs || other.field == finding.field).peekable();
    if judged.peek().is_none() || !judged.all(|other| other.outcome == Outcome::Holds) {
        return None;
    }
    let after = check(&mended, report.code, WithWorking::No);
    // What failed and now asks is no worse: behind the fault another fact is missing.
    let no_worse = |old: &Finding, new: &Finding| {
        let now_asks = old.outcome == Outcome::Fails && new.outcome == Outcome::CannotTell;
        now_asks || old.outcome == new.outcome && old.field == new.field
    };
    let known = |new: &Finding| {
        report.findings.iter().any(|old| old.rule == new.rule && old.subject == new.subject && no_worse(old, new))
    };
    let mut result = Broken::Nothing;
    for new in after.findings.iter().filter(|new| new.outcome != Outcome::Holds && !known(new)) {
        match result {
            Broken::Nothing if new.rule.slug == "equipment-grounding-conductor" => {
                result = Broken::GroundingOf(new.subject);
            }
            _ => return Some(Broken::Other),
        }
    }
    Some(result)
}
