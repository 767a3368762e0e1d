//! The same questions in doubles, tuned: every table is an array by dictionary code, every factor an array by band.

use loadworthy::batch::OwnedAnswers;
use loadworthy::published::TableId;

use crate::frame::{Frame, WORDS};

pub(crate) struct Doubles {
    /// By material, size and column.
    ampacity: Vec<[f64; 3]>,
    resistance: Vec<f64>,
    small: Vec<f64>,
    /// By whole degrees Celsius, for 60, 75 and 90 °C.
    ambient: Vec<[f64; 3]>,
    bundling: Vec<f64>,
    ratings: Vec<f64>,
    /// The column of an insulation.
    insulation: [usize; 4],
}

const SIZES: usize = 12;

fn number(text: &str) -> f64 {
    text.parse().unwrap_or(f64::NAN)
}

impl Doubles {
    pub(crate) fn read(_: &Frame) -> Self {
        let table = |id: TableId| id.load().unwrap();
        let cell = |id: TableId, row: &str, column: &str| {
            let column = usize::from(table(id).column(column).unwrap());
            // The stranded row stands below the solid one.
            let found = table(id).rows.iter().rev().find(|of| of.cells()[0] == row);
            found.map_or(f64::NAN, |of| number(&of.cells()[column]))
        };
        let of = |material: usize, size: usize| (["copper", "aluminum"][material], WORDS[1][size].unwrap());
        let each = || (0..2).flat_map(move |material| (0..SIZES).map(move |size| of(material, size)));
        let small = |metal: &str, size: &str| {
            let rows = &table(TableId::SmallConductor).rows;
            let found = rows.iter().find(|row| row.cells()[0] == size && row.cells()[1] == metal);
            found.map_or(f64::INFINITY, |row| number(&row.cells()[2]))
        };
        let band = |id: TableId, edge: &str, value: &str, key: f64| {
            let (edge, value) = (table(id).column(edge).unwrap(), table(id).column(value).unwrap());
            let rows = &table(id).rows;
            let found = rows.iter().find(|row| {
                // An edge that is left open is above everything.
                let edge = number(&row.cells()[usize::from(edge)]);
                edge.is_nan() || key <= edge
            });
            found.map_or(f64::NAN, |row| number(&row.cells()[usize::from(value)]))
        };
        let columns = ["60", "75", "90"];
        Self {
            ampacity: each()
                .map(|(metal, size)| columns.map(|c| cell(TableId::AmpacityRaceway, size, &format!("{metal}_{c}c_a"))))
                .collect(),
            resistance: each()
                .map(|(metal, size)| {
                    let column = if metal == "copper" { "copper_uncoated_ohm_per_kft" } else { "aluminum_ohm_per_kft" };
                    cell(TableId::ConductorProperties, size, column)
                })
                .collect(),
            small: each().map(|(metal, size)| small(metal, size)).collect(),
            ambient: (0..60)
                .map(|degrees| {
                    columns.map(|c| {
                        let column = format!("factor_{c}c");
                        band(TableId::AmbientCorrection30, "ambient_c_to", &column, f64::from(degrees))
                    })
                })
                .collect(),
            bundling: (0..20)
                .map(|count| {
                    if count <= 3 {
                        return 1.0;
                    }
                    band(TableId::AdjustmentMoreThanThree, "count_to", "percent", f64::from(count)) / 100.0
                })
                .collect(),
            ratings: table(TableId::StandardRatings)
                .rows
                .iter()
                .filter(|row| row.cells()[1] == "fuse-or-breaker")
                .map(|row| number(&row.cells()[0]))
                .filter(|rating| rating.fract() == 0.0 && *rating >= 15.0)
                .collect(),
            insulation: [2, 2, 2, 0],
        }
    }

    #[expect(clippy::float_cmp, reason = "this is what one would write")]
    pub(crate) fn judge(&self, frame: &Frame, answers: &mut OwnedAnswers) {
        for row in 0..answers.verdict.len() {
            let word = |at: usize| usize::from(frame.words[at][row]);
            let at = word(0) * SIZES + word(1);
            let own = self.insulation[word(2)];
            let terminal = word(4).min(own);
            let columns = self.ampacity[at];
            let (ambient, count) = (frame.ambient_c[row] as usize, frame.current_carrying[row] as usize);
            let corrected = columns[own] * self.ambient[ambient][own] * self.bundling[count];
            let usable = corrected.min(columns[terminal]);
            let (continuous, other, device) = (frame.continuous[row], frame.other[row], frame.device[row]);
            let factor = if word(5) == 0 { 1.25 } else { 1.0 };
            let (load, needs) = (continuous + other, continuous * factor + other);
            let above = self.ratings.partition_point(|rating| *rating < usable);
            let mut largest = match self.ratings.get(above) {
                Some(rating) if *rating == usable || (word(6) == 0 && *rating <= 800.0) => *rating,
                _ => above.checked_sub(1).map_or(f64::NAN, |below| self.ratings[below]),
            };
            largest = largest.min(self.small[at]);
            let least = self.ratings.get(self.ratings.partition_point(|rating| *rating < needs));
            let wires = if word(7) == 0 { 2.0 } else { 1.732_050_808 };
            let drop = wires * self.resistance[at] * frame.length[row] / 1000.0 * load;
            let percent = drop / frame.voltage[row] * 100.0;
            let known = !(usable.is_nan() || largest.is_nan());
            let checks = [
                load <= usable,
                needs <= columns[terminal],
                needs <= device,
                device <= largest,
                percent <= frame.limit[row],
            ];
            answers.conductor_ampacity[row] = u8::from(!checks[0]);
            answers.continuous_load_on_conductor[row] = u8::from(!checks[1]);
            answers.continuous_load_on_device[row] = u8::from(!checks[2]);
            answers.breaker_protects_conductor[row] = u8::from(!checks[3]);
            answers.voltage_drop[row] = u8::from(!checks[4]);
            let fails = !(checks[1] && checks[2] && checks[4]) || known && !(checks[0] && checks[3]);
            answers.verdict[row] = if fails {
                1
            } else if known {
                0
            } else {
                2
            };
            answers.decided_by[row] = checks.iter().position(|holds| !holds).map_or(0, |at| at as u8 + 1);
            answers.ampacity_a[row] = usable;
            answers.least_device_a[row] = least.copied().unwrap_or(f64::NAN);
            answers.largest_device_a[row] = largest;
            answers.drop_v[row] = drop;
            answers.drop_percent[row] = percent;
        }
    }
}
