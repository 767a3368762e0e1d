//! One of something for each column of the answers.

/// What belongs to each column that Arrow gets from the answers as they are.
pub(super) struct Columns<T> {
    /// The verdict, and those of the five checks.
    pub(super) verdicts: [T; 6],
    /// What decides, what governs the ampacity, and what governs the largest device: numbers of words.
    pub(super) numbers: [T; 3],
    /// In the order of the answers.
    pub(super) figures: [T; 5],
    pub(super) reason: T,
}

/// How many there are.
pub(super) const COLUMNS: usize = 15;

impl<T> Columns<T> {
    pub(super) fn map<U>(self, mut of: impl FnMut(T) -> U) -> Columns<U> {
        Columns {
            verdicts: self.verdicts.map(&mut of),
            numbers: self.numbers.map(&mut of),
            figures: self.figures.map(&mut of),
            reason: of(self.reason),
        }
    }
}

impl<T> From<Columns<T>> for [T; COLUMNS] {
    fn from(columns: Columns<T>) -> Self {
        let [v, v1, v2, v3, v4, v5] = columns.verdicts;
        let ([n, n1, n2], [f, f1, f2, f3, f4]) = (columns.numbers, columns.figures);
        [v, v1, v2, v3, v4, v5, n, n1, n2, f, f1, f2, f3, f4, columns.reason]
    }
}

impl<T> From<[T; COLUMNS]> for Columns<T> {
    fn from(columns: [T; COLUMNS]) -> Self {
        let [v, v1, v2, v3, v4, v5, n, n1, n2, f, f1, f2, f3, f4, reason] = columns;
        Self { verdicts: [v, v1, v2, v3, v4, v5], numbers: [n, n1, n2], figures: [f, f1, f2, f3, f4], reason }
    }
}
