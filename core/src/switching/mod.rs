//! Switching: what a hand on a breaker, a plug or a transfer switch can bring about, proved over every state.
//!
//! A [`Network`] is devices, the nodes they join, and the interlocks between them. A [`State`] says where each
//! device stands. [`Network::verify`] judges somebody's own order of steps. [`Network::explore`] looks at every
//! position that anybody can bring about. [`Network::find_order`] finds the shortest order; [`Network::procedure`]
//! does it all: there and back, with reasons, and with what one slip would do.

pub use crate::rules::Outcome;

mod board;
mod builder;
mod demand;
mod device;
mod electrical;
mod explain;
mod explore;
mod fault;
mod goal;
mod invariant;
mod judge;
mod lanes;
mod network;
mod operation;
mod placement;
mod preference;
mod procedure;
mod refuel;
mod scenario;
mod search;
mod sequence;
mod site;
mod site_draft;
mod site_facts;
mod site_loads;
mod site_nodes;
mod state;
mod steps;
mod transition;
mod verify;
mod walk;
mod watch;

pub use builder::{Builder, NetworkError, NetworkErrors};
pub use device::{ContactName, Interlock, Load, Rotation, RotationNeed, Source, Throw, Transfer};
pub use explore::{Exploration, Hazard, KeptBy, TooManySwitches};
pub use fault::{Fault, FaultKind};
pub use goal::Goal;
pub use invariant::{Break, Detail, Fact, Invariant, Limit, Need, Question};
pub use network::{DeviceId, Kind, MAX_BITS, MAX_SUPPLIES, Network, NodeId};
pub use operation::{Isolators, NoSuchOperation, Operation};
pub use placement::Placement;
pub use procedure::{Because, Order, Procedure, Step, Withheld};
pub use scenario::{Scenario, ScenarioError, ScenarioProblem, scenarios};
pub use search::{FoundOrder, MAX_SEARCHED, NoOrder, Shortest};
pub use sequence::{NoPlan, Orders, Plan, Sequence, Verified, sequence, sequence_unless, verify_steps};
pub use site::{Arrangement, Feeding, MAX_COMPONENTS, Open, Unmapped};
pub use state::{Position, State, StateError};
pub use steps::{Do, StepProblem, StepProblems, Steps};
pub use transition::{Effect, Refusal};
pub use verify::{Judgement, StepFinding};
