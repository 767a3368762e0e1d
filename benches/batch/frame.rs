//! A frame of random circuits as frames are: dictionary codes for words, doubles for numbers.

use loadworthy::batch::{Column, Data, Integers};

pub(crate) struct Frame {
    pub(crate) words: [Vec<u8>; 8],
    pub(crate) ambient_c: Vec<f64>,
    pub(crate) current_carrying: Vec<f64>,
    pub(crate) continuous: Vec<f64>,
    pub(crate) other: Vec<f64>,
    pub(crate) device: Vec<f64>,
    pub(crate) voltage: Vec<f64>,
    pub(crate) length: Vec<f64>,
    pub(crate) limit: Vec<f64>,
}

pub(crate) const NAMES: [&str; 8] =
    ["material", "size", "insulation", "place", "terminals", "continuous_rating", "supplies", "circuit"];

pub(crate) const WORDS: [&[Option<&str>]; 8] = [
    &[Some("copper"), Some("aluminum")],
    &[
        Some("12 AWG"),
        Some("10 AWG"),
        Some("8 AWG"),
        Some("6 AWG"),
        Some("4 AWG"),
        Some("3 AWG"),
        Some("2 AWG"),
        Some("1 AWG"),
        Some("1/0 AWG"),
        Some("2/0 AWG"),
        Some("3/0 AWG"),
        Some("4/0 AWG"),
    ],
    &[Some("THHN"), Some("THWN-2"), Some("XHHW-2"), Some("TW")],
    &[Some("dry"), Some("damp")],
    &[Some("60 °C"), Some("75 °C"), Some("90 °C")],
    &[Some("80 %"), Some("100 %")],
    &[Some("other"), Some("several-receptacles")],
    &[Some("two-wire"), Some("three-phase")],
];

/// Numbers that look random and are the same each time: steps of a linear congruence.
struct Dice(u64);

impl Dice {
    fn throw(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % sides
    }

    fn pick(&mut self, from: &[f64]) -> f64 {
        from[self.throw(from.len())]
    }

    fn tenths(&mut self, most: usize) -> f64 {
        f64::from(u32::try_from(self.throw(most)).unwrap()) / 10.0
    }
}

impl Frame {
    pub(crate) fn random(rows: usize) -> Self {
        let mut dice = Dice(1);
        let words = WORDS.map(|words| (0..rows).map(|_| u8::try_from(dice.throw(words.len())).unwrap()).collect());
        let mut numbers = |throw: &mut dyn FnMut(&mut Dice) -> f64| (0..rows).map(|_| throw(&mut dice)).collect();
        Self {
            words,
            ambient_c: numbers(&mut |dice| dice.tenths(41).mul_add(10.0, 10.0)),
            current_carrying: numbers(&mut |dice| dice.tenths(12).mul_add(10.0, 1.0)),
            continuous: numbers(&mut |dice| dice.tenths(800)),
            other: numbers(&mut |dice| dice.tenths(200)),
            device: numbers(&mut |dice| dice.pick(&[15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 125.0])),
            voltage: numbers(&mut |dice| dice.pick(&[120.0, 208.0, 240.0, 480.0])),
            length: numbers(&mut |dice| dice.tenths(250).mul_add(10.0, 5.0)),
            limit: numbers(&mut |dice| dice.pick(&[2.0, 3.0, 5.0])),
        }
    }

    pub(crate) fn columns(&self) -> Vec<Column<'_>> {
        let numbers = [
            ("ambient_c", &self.ambient_c),
            ("current_carrying", &self.current_carrying),
            ("load_continuous_a", &self.continuous),
            ("load_other_a", &self.other),
            ("device_a", &self.device),
            ("voltage_v", &self.voltage),
            ("length_ft", &self.length),
            ("drop_limit_percent", &self.limit),
        ];
        let coded = NAMES.iter().zip(&self.words).zip(WORDS).map(|((name, codes), words)| Column {
            name,
            data: Data::Coded { codes: Integers::U8(codes), words },
            validity: None,
        });
        let figures =
            numbers.into_iter().map(|(name, values)| Column { name, data: Data::F64(values), validity: None });
        coded.chain(figures).collect()
    }
}
