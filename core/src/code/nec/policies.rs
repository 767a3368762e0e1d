//! Policies of the NEC, with their parameters from `rule-factors.csv` and `next-size-up.csv`.

use super::read::{self, Reading};
use crate::code::{Acceptance, ConductorRating, ContinuousLoad, DropAdvice, Gap, Lookup, NextSizeUp, Termination};
use crate::published::TableId;
use crate::quantity::Ratio;
use crate::trade::WireSize;

#[derive(Debug)]
pub(super) struct Policies {
    pub(super) termination: Termination,
    pub(super) continuous_load: ContinuousLoad,
    pub(super) next_size_up: NextSizeUp,
    pub(super) drop_advice: DropAdvice,
    shares: Vec<(&'static str, Lookup<Ratio>)>,
}

impl Policies {
    pub(super) fn share(&self, key: &str) -> Lookup<Ratio> {
        let row = self.shares.iter().find(|(known, _)| *known == key);
        row.map_or(Err(Gap::Outside(TableId::RuleFactors)), |(_, share)| *share)
    }

    pub(super) fn read(acceptance: &Acceptance) -> Self {
        let factors = Reading::of(TableId::RuleFactors, acceptance);
        let next = Reading::of(TableId::NextSizeUp, acceptance);
        let percent = |key: &str| -> Lookup<Ratio> { factors.keyed(key, "value", read::percent) };
        let rating = |text: &str| read::whole(text).and_then(ConductorRating::of_degrees);
        let gauge = |text: &str| text.parse().ok().and_then(WireSize::awg);
        Self {
            termination: Termination::ColumnCap {
                boundary: factors.keyed("terminal-boundary-current", "value", read::amperes),
                boundary_size: factors.keyed("terminal-boundary-size", "value", gauge),
                at_or_below: factors.keyed("terminal-column-at-or-below", "value", rating),
                above: factors.keyed("terminal-column-above", "value", rating),
            },
            continuous_load: ContinuousLoad::LoadFactor {
                device: percent("continuous-branch-overcurrent"),
                conductor: percent("continuous-branch-conductor"),
                listed: percent("continuous-100-percent-listed-overcurrent"),
            },
            next_size_up: NextSizeUp::UpTo {
                limit: next.keyed("limit", "value", read::amperes),
                receptacles_excluded: next.keyed("receptacle-exclusion", "value", |text| Some(text == "yes")),
            },
            drop_advice: match (percent("voltage-drop-branch"), percent("voltage-drop-total")) {
                (Ok(branch), Ok(total)) => DropAdvice::Advisory { branch, total },
                (Err(gap), _) | (_, Err(gap)) => DropAdvice::Unknown(gap),
            },
            shares: factors
                .rows()
                .filter(|(_, row)| factors.text(row, "unit") == "percent")
                .filter_map(|(index, row)| Some((row.cell(0)?, factors.cell(index, row, "value", read::percent))))
                .collect(),
        }
    }
}
