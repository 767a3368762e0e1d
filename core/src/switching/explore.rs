//! Every position that the switches can reach, in any order and by anybody: what an arrangement makes possible.
//!
//! Covers count as fitted, since taking one off is no switching; what rests on a cover is reported apart. What
//! depends on how much is drawn (a source overloaded, an engine started under load) is judged in an order of steps,
//! not here: anybody can switch on too much.

use super::board::{Board, Regime};
use super::invariant::{Break, Detail, Question};
use super::lanes::{MAX_SWITCHES, Move, closed_in, reach};
use super::network::{Condition, Network, Undescribed};
use super::operation::Operation;
use super::state::State;
use super::watch::Flood;
use crate::rules::Outcome;

/// What an arrangement makes possible.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exploration {
    /// `Fails` where some order of steps brings a hazard about, whatever order is recommended.
    pub outcome: Outcome,
    /// The switches explored: those that can matter.
    pub switches: usize,
    /// The positions of those switches that can be reached.
    pub reached: u64,
    /// Every hazard, with the shortest way to it.
    pub hazards: Vec<Hazard>,
}

/// Something that an arrangement makes possible.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hazard {
    /// What it breaks, or what nobody can tell of it.
    pub found: Break,
    /// What keeps it from happening.
    pub kept_by: KeptBy,
    /// The fewest steps from the start that bring it about (where a supply is stopped or dead, it starts or returns
    /// afterwards).
    pub steps: Vec<Operation>,
}

/// What keeps a hazard from happening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum KeptBy {
    /// Discipline only: nothing but care. One slip is enough.
    Discipline,
    /// Something that was not described: an interlock, or the way a transfer switch moves.
    NotDescribed,
    /// An interlock on a cover: it is gone while the cover is off. A caution; the outcome does not change.
    Cover,
    /// The branch of the load stays off on a source, as its description says: the rule for such branches asks no more,
    /// so that the outcome does not change, though only care keeps it off.
    KeptOff,
}

/// Why an arrangement cannot be explored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "{found} switches can matter to each other, more than the {limit} that are explored together; \
         describe the network in parts"
)]
pub struct TooManySwitches {
    /// The switches that can matter.
    pub found: usize,
    /// How many there may be.
    pub limit: usize,
}

impl Network {
    /// Explores every position of the switches that any order of moves reaches from `start`. A locked device stays.
    ///
    /// # Errors
    /// More switches that matter to each other than can be explored.
    ///
    /// ```
    /// use loadworthy::switching::{Interlock, KeptBy, Network, Outcome, Position, Source};
    /// let panel = || Network::builder()
    ///     .utility("utility", "service")
    ///     .breaker("main", "service", "bus")
    ///     .breaker("inlet", "bus", "terminals")
    ///     .source("generator", "terminals", Source::unknown());
    /// let start = [("utility", Position::Dead), ("main", Position::Closed),
    ///     ("inlet", Position::Open), ("generator", Position::Stopped)];
    ///
    /// let bare = panel().build()?;
    /// let found = bare.explore(&bare.state(&start)?)?;
    /// assert_eq!(found.outcome, Outcome::Fails);
    /// assert_eq!(found.hazards[0].kept_by, KeptBy::Discipline);
    ///
    /// let interlocked = panel().interlock("main", "inlet", Interlock::Devices).build()?;
    /// assert_eq!(interlocked.explore(&interlocked.state(&start)?)?.outcome, Outcome::Holds);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn explore(&self, start: &State) -> Result<Exploration, TooManySwitches> {
        self.explore_folded(start, true)
    }

    fn explore_folded(&self, start: &State, fold: bool) -> Result<Exploration, TooManySwitches> {
        let regimes = [
            (KeptBy::Discipline, Regime { undescribed: Undescribed::Works, covers_on: true }),
            (KeptBy::NotDescribed, Regime { undescribed: Undescribed::Fails, covers_on: true }),
            (KeptBy::Cover, Regime { undescribed: Undescribed::Works, covers_on: false }),
        ];
        let mut result = Exploration { outcome: Outcome::Holds, switches: 0, reached: 0, hazards: Vec::new() };
        for (kept_by, regime) in regimes {
            let differs = match kept_by {
                KeptBy::Discipline => true,
                KeptBy::NotDescribed => self.has_undescribed(),
                KeptBy::Cover => self.has_cover_interlock(),
                KeptBy::KeptOff => false,
            };
            if !differs {
                continue;
            }
            let board = Board::new(self, start, regime, fold);
            if board.switches > MAX_SWITCHES {
                return Err(TooManySwitches { found: board.switches, limit: MAX_SWITCHES });
            }
            let (reached, hazards) = self.hazards(start, &board);
            if kept_by == KeptBy::Discipline {
                (result.switches, result.reached) = (board.switches, reached);
            }
            for (found, steps) in hazards {
                let kept_by = if self.is_of_load_kept_off(&found) { KeptBy::KeptOff } else { kept_by };
                if !result.hazards.iter().any(|known| known.found == found) {
                    result.hazards.push(Hazard { found, kept_by, steps });
                }
            }
        }
        let outcomes = result.hazards.iter().filter_map(|hazard| match hazard.kept_by {
            KeptBy::Discipline => Some(hazard.found.outcome()),
            KeptBy::NotDescribed => Some(Outcome::CannotTell),
            KeptBy::Cover | KeptBy::KeptOff => None,
        });
        for outcome in outcomes {
            if result.outcome != Outcome::Fails {
                result.outcome = outcome;
            }
        }
        Ok(result)
    }

    /// Whether a break is about what a load is made for that is kept off: whether it is fed at all is what decides.
    fn is_of_load_kept_off(&self, found: &Break) -> bool {
        let device = match found.detail {
            Detail::Misfit { load, .. } => load,
            Detail::Missing(Question::Fact(device, _)) => device,
            _ => return false,
        };
        self.loads.iter().any(|load| load.device == device && load.facts.kept_off)
    }

    fn has_cover_interlock(&self) -> bool {
        self.exclusions.iter().any(|pair| matches!(pair.condition, Condition::CoverOn(_)))
    }

    /// How many states are reached, and each hazard in them with the shortest way there.
    fn hazards(&self, start: &State, board: &Board) -> (u64, Vec<(Break, Vec<Operation>)>) {
        let moves: Vec<Move> = board.moves.iter().map(|(one, _)| *one).collect();
        let mut floods: Vec<Flood> =
            self.supplies.iter().map(|supply| Flood::new(supply.terminal, &board.wires, self.nodes.len())).collect();
        let watches = self.watches(start, board, &floods);
        let reached = reach(board.switches, board.start, &moves);
        let mut nearest: Vec<Option<(usize, u32)>> = vec![None; watches.len()];
        for (word, lanes) in reached.words() {
            for flood in &mut floods {
                flood.fill(|switch| closed_in(word, switch));
            }
            for (watch, nearest) in watches.iter().zip(&mut nearest) {
                let there = floods.get(watch.supply).map_or(0, |flood| flood.at(watch.node));
                let bare = watch.parted.map_or(u64::MAX, |switch| !closed_in(word, switch));
                let hit = there & bare & lanes;
                if hit != 0 {
                    let bound = nearest.map_or(usize::MAX, |(distance, _)| distance);
                    *nearest = reached.nearest(word, hit, bound).or(*nearest);
                }
            }
        }
        // Of several places where one hazard shows, the one that needs the fewest steps.
        let mut ways: Vec<(Break, Vec<Operation>)> = Vec::new();
        for (watch, place) in watches.into_iter().zip(nearest) {
            let Some(place) = place else { continue };
            let mut way: Vec<Operation> = Vec::new();
            let moved = reached.way(place, &moves).into_iter().filter_map(|place| board.moves.get(place));
            for (_, operation) in moved {
                // Both halves of the movement of a transfer switch are one operation.
                if way.last() != Some(operation) {
                    way.push(*operation);
                }
            }
            way.extend(watch.closing.iter().rev());
            match ways.iter_mut().find(|known| known.0 == watch.found) {
                Some(known) if way.len() < known.1.len() => known.1 = way,
                Some(_) => {}
                None => ways.push((watch.found, way)),
            }
        }
        (reached.count(), ways)
    }
}
