//! What was learned of the editions, kept for the next table of circuits: to learn it takes longer than to judge a short table.

use std::sync::Mutex;

use loadworthy::batch::Learned;
use loadworthy::code::{Edition, Nec};

/// Of each edition as it is. What somebody accepts beside it goes with the one who does.
static KNOWN: Mutex<Vec<(Edition, Learned<'static>)>> = Mutex::new(Vec::new());

/// Bytes: ordinary tables need a hundredth of them.
const MOST: usize = 1 << 24;

/// What is known of an edition; it is nobody else's until it is kept again.
pub(crate) fn take(edition: Edition) -> Learned<'static> {
    // Nobody waits for it: who comes second learns by himself.
    let mut known = KNOWN.try_lock().ok();
    let at = known.as_ref().and_then(|known| known.iter().position(|(of, _)| *of == edition));
    let taken = at.and_then(|at| Some(known.as_mut()?.swap_remove(at).1));
    taken.unwrap_or_else(|| Learned::new(Nec::standard(edition)))
}

/// Keeps it, if nobody else has kept the like meanwhile and it takes no more memory than it is worth.
pub(crate) fn keep(edition: Edition, learned: Learned<'static>) {
    if let Ok(mut known) = KNOWN.try_lock()
        && known.iter().all(|(of, _)| *of != edition)
        && learned.bytes() <= MOST
    {
        known.push((edition, learned));
    }
}
