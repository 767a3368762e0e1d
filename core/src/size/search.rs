//! Searching a whole number: the greatest that still holds.

/// The greatest number from `low` to `high` at which `holds`, which holds up to some number and not above it;
/// `None` where it does not even hold at `low`.
pub(super) fn greatest<E>(
    low: i128,
    high: i128,
    mut holds: impl FnMut(i128) -> Result<bool, E>,
) -> Result<Option<i128>, E> {
    if !holds(low)? {
        return Ok(None);
    }
    if holds(high)? {
        return Ok(Some(high));
    }
    let (mut yes, mut no) = (low, high);
    while no - yes > 1 {
        let middle = yes + (no - yes) / 2;
        if holds(middle)? { yes = middle } else { no = middle }
    }
    Ok(Some(yes))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_edge_is_found_wherever_it_lies() {
        for edge in -1..=10 {
            let found: Result<_, ()> = greatest(0, 9, |number| Ok(number <= edge));
            assert_eq!(found, Ok(if edge < 0 { None } else { Some(i128::min(edge, 9)) }));
        }
    }
}
