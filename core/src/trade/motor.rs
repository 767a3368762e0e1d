//! What a motor's nameplate says.

use super::word::words;

words! {
    /// The phases of a motor.
    pub enum Phase: "number of phases" {
        /// Single-phase.
        Single = "single-phase" | "1",
        /// Three-phase.
        Three = "three-phase" | "3",
    }
}

words! {
    /// The locked-rotor code letter of a nameplate: NEC Table 430.7(B) has A to V without I, O and Q.
    pub enum CodeLetterMark: "code letter" {
        /// A.
        A = "A",
        /// B.
        B = "B",
        /// C.
        C = "C",
        /// D.
        D = "D",
        /// E.
        E = "E",
        /// F.
        F = "F",
        /// G.
        G = "G",
        /// H.
        H = "H",
        /// J.
        J = "J",
        /// K.
        K = "K",
        /// L.
        L = "L",
        /// M.
        M = "M",
        /// N.
        N = "N",
        /// P.
        P = "P",
        /// R.
        R = "R",
        /// S.
        S = "S",
        /// T.
        T = "T",
        /// U.
        U = "U",
        /// V, which has no upper bound.
        V = "V",
    }
}

words! {
    /// How a motor is started.
    pub enum StartingMethod: "starting method" {
        /// At full voltage.
        AcrossTheLine = "across the line",
        /// Through a soft starter, which lets a share of the locked-rotor current through.
        SoftStarter = "soft starter",
        /// Through an inverter that runs it up from standstill.
        Inverter = "inverter-driven",
    }
}
