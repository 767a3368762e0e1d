//! Memory for the answers to a batch: one piece, of which each column is a part.

use std::ops::Range;

use arrow_buffer::Buffer;
use arrow_schema::ArrowError;
use zerocopy::{FromBytes, IntoBytes};

use super::Wanted;
use super::columns::{COLUMNS, Columns};
use super::memory::Memory;
use crate::batch::Answers;

/// Room for the answers to so many rows. Every entry is to be written: what stands there at first means nothing.
pub(super) struct Room {
    memory: Memory,
    rows: usize,
    wanted: Wanted,
}

/// Columns begin at lines of a cache, as Arrow recommends.
const LINE: usize = 64;

impl Room {
    pub(super) fn new(rows: usize, wanted: Wanted) -> Self {
        let bytes = <[_; COLUMNS]>::from(places(rows, wanted)).into_iter().map(|place| place.end).max().unwrap_or(0);
        Self { memory: Memory::new(bytes), rows, wanted }
    }

    /// The columns, to be written to.
    ///
    /// # Errors
    /// None, as long as every column has a place of its own.
    pub(super) fn answers(&mut self) -> Result<Answers<'_>, ArrowError> {
        let columns = self.memory.bytes().get_disjoint_mut(places(self.rows, self.wanted).into());
        let columns: [_; COLUMNS] = columns.map_err(|error| ArrowError::MemoryError(error.to_string()))?;
        let Columns { verdicts, numbers, figures, reason } = Columns::from(columns);
        let [verdict, first, second, third, fourth, fifth] = verdicts.map(Some);
        let [decided_by, governors @ ..] = numbers.map(Some);
        let everything = self.wanted == Wanted::Everything;
        let [of_ampacity, of_device] = governors.map(|governors| governors.filter(|_| everything));
        let figure = |figure| typed::<f64>(figure).map(|figure| Some(figure).filter(|_| everything));
        let [ampacity, least, largest, drop, percent] = figures.map(figure);
        Ok(Answers {
            verdict,
            reason: Some(typed(reason)?),
            conductor_ampacity: first,
            continuous_load_on_conductor: second,
            continuous_load_on_device: third,
            breaker_protects_conductor: fourth,
            voltage_drop: fifth,
            decided_by,
            ampacity_governed_by: of_ampacity,
            largest_device_governed_by: of_device,
            ampacity_a: ampacity?,
            least_device_a: least?,
            largest_device_a: largest?,
            drop_v: drop?,
            drop_percent: percent?,
        })
    }

    /// The columns as they are, without a copy.
    pub(super) fn buffers(self) -> Columns<Buffer> {
        let all = Buffer::from(self.memory);
        places(self.rows, self.wanted).map(|place| all.slice_with_length(place.start, place.len()))
    }
}

/// Where each column stands, one behind the other, those of the widest values first. One that is not wanted is empty.
fn places(rows: usize, wanted: Wanted) -> Columns<Range<usize>> {
    let mut end: usize = 0;
    let mut place = |width: usize| {
        let place = end..end.saturating_add(rows.saturating_mul(width));
        end = place.end.saturating_add(LINE - 1) / LINE * LINE;
        place
    };
    let figure = if wanted == Wanted::Everything { size_of::<f64>() } else { 0 };
    Columns {
        figures: [(); 5].map(|()| place(figure)),
        reason: place(size_of::<u16>()),
        verdicts: [(); 6].map(|()| place(1)),
        numbers: [1, figure.min(1), figure.min(1)].map(place),
    }
}

fn typed<T: FromBytes + IntoBytes>(bytes: &mut [u8]) -> Result<&mut [T], ArrowError> {
    <[T]>::mut_from_bytes(bytes).map_err(|error| ArrowError::MemoryError(error.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_column_has_a_place_of_its_own_at_a_line() {
        // 52 bytes a row with figures, 10 without: around half of a large page, around a whole one, and none at all.
        for rows in [0, 1, 63, 64, 65, 1000, 20_164, 20_165, 40_329, 104_857, 104_858, 300_000] {
            for wanted in [Wanted::Everything, Wanted::Verdicts] {
                let mut room = Room::new(rows, wanted);
                let everything = wanted == Wanted::Everything;
                let mut answers = room.answers().unwrap();
                assert_eq!(answers.has_figures(), everything);
                assert_eq!(answers.wrong_length(rows), None);
                for (number, column) in (1..).zip([
                    &mut answers.verdict,
                    &mut answers.conductor_ampacity,
                    &mut answers.continuous_load_on_conductor,
                    &mut answers.continuous_load_on_device,
                    &mut answers.breaker_protects_conductor,
                    &mut answers.voltage_drop,
                    &mut answers.decided_by,
                    &mut answers.ampacity_governed_by,
                    &mut answers.largest_device_governed_by,
                ]) {
                    let column = column.iter_mut().flat_map(|column| column.iter_mut());
                    column.for_each(|entry| *entry = number);
                }
                for (number, column) in (10..).map(f64::from).zip([
                    &mut answers.ampacity_a,
                    &mut answers.least_device_a,
                    &mut answers.largest_device_a,
                    &mut answers.drop_v,
                    &mut answers.drop_percent,
                ]) {
                    column.iter_mut().flat_map(|column| column.iter_mut()).for_each(|entry| *entry = number);
                }
                answers.reason.iter_mut().flat_map(|column| column.iter_mut()).for_each(|entry| *entry = 15);
                // Each has what was written to it.
                let columns = room.buffers();
                let bytes = columns.verdicts.iter().chain(columns.numbers.iter().take(if everything { 3 } else { 1 }));
                for (number, column) in (1..).zip(bytes) {
                    assert_eq!(column.as_slice(), vec![number; rows]);
                    assert_eq!(column.as_ptr().align_offset(LINE), 0);
                }
                for (number, column) in (10..).map(f64::from).zip(&columns.figures) {
                    assert_eq!(column.typed_data::<f64>(), vec![number; if everything { rows } else { 0 }]);
                }
                assert_eq!(columns.reason.typed_data::<u16>(), vec![15; rows]);
            }
        }
    }
}
