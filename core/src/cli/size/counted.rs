//! So many conductors of a size, as one text: "3 x 6 AWG", with what covers them "3 x 6 AWG THWN-2".

use super::super::options::{Count, Problem};
use crate::trade::WireSize;

/// `count x size` and what stands behind it, which is empty where nothing does.
pub(super) fn counted<'t>(option: &str, text: &'t str, form: &str) -> Result<(u16, WireSize, &'t str), Problem> {
    let wrong = || {
        let shown: String = text.chars().take(60).collect();
        Problem::at(option, format!("`{shown}` is not a count and a size; write them as in `{form}`"))
    };
    let (count, rest) = text.split_once(['x', '×']).ok_or_else(wrong)?;
    let Count(count) = count.parse().map_err(|error| Problem::at(option, error))?;
    let rest = rest.trim();
    // A size is one word or two: `6AWG`, `6 AWG`.
    let ends = rest.match_indices(' ').map(|(at, _)| rest.split_at(at)).chain([(rest, "")]);
    let mut sized = ends.filter_map(|(size, behind)| Some((size.trim().parse::<WireSize>().ok()?, behind.trim())));
    let (size, behind) = sized.next().ok_or_else(wrong)?;
    Ok((count, size, behind))
}

/// Where nothing may stand behind the size.
pub(super) fn counted_alone(option: &str, text: &str, form: &str) -> Result<(u16, WireSize), Problem> {
    match counted(option, text, form)? {
        (count, size, "") => Ok((count, size)),
        (_, _, behind) => {
            let shown: String = behind.chars().take(60).collect();
            Err(Problem::at(option, format!("`{shown}` has no place here; write count and size as in `{form}`")))
        }
    }
}
