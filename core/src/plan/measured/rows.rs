//! The rows of a CSV with their lines, trimmed.

/// A row: its line, counted from 1, and its cells.
pub(super) struct Row {
    pub(super) line: usize,
    cells: Vec<String>,
}

impl Row {
    pub(super) fn cell(&self, at: usize) -> &str {
        self.cells.get(at).map_or("", String::as_str)
    }

    pub(super) fn cells(&self) -> &[String] {
        &self.cells
    }
}

/// Reads every row; a quotation that is not closed ends at the end of the text.
pub(super) fn rows(text: &str) -> Vec<Row> {
    let mut reader = csv_core::ReaderBuilder::new().build();
    let (mut rows, mut cells, mut line) = (Vec::new(), Vec::new(), 1);
    let mut left = text.as_bytes();
    // No cell is longer than the text.
    let mut cell = vec![0; text.len() + 1];
    let mut filled = 0;
    loop {
        let (result, read, written) = reader.read_field(left, cell.get_mut(filled..).unwrap_or(&mut []));
        left = left.get(read..).unwrap_or(&[]);
        filled += written;
        match result {
            // An empty input asks the reader for the last field.
            csv_core::ReadFieldResult::InputEmpty => {}
            csv_core::ReadFieldResult::OutputFull | csv_core::ReadFieldResult::End => return rows,
            csv_core::ReadFieldResult::Field { record_end } => {
                if cells.is_empty() {
                    let lines_ended = u64::from(record_end && text.len() > left.len() && !left.is_empty());
                    line = usize::try_from(reader.line().saturating_sub(lines_ended)).unwrap_or(usize::MAX);
                }
                let bytes = cell.get(..filled).unwrap_or(&[]);
                cells.push(String::from_utf8_lossy(bytes).trim().to_owned());
                filled = 0;
                if record_end {
                    rows.push(Row { line, cells: std::mem::take(&mut cells) });
                }
            }
        }
    }
}
