//! Flexible cords by their letter types.

use super::word::words;

words! {
    /// How hard a cord may be used.
    pub enum Usage: "cord usage" {
        /// Not hard usage.
        NotHard = "not hard",
        /// Hard usage.
        Hard = "hard",
        /// Extra-hard usage.
        ExtraHard = "extra hard",
        /// For ranges and dryers.
        RangesDryers = "ranges and dryers",
    }
}

words! {
    /// A flexible cord or portable cable, by its letter type. What a code says of each stands in its tables.
    pub enum CordType: "cord type" {
        /// 300 V thermoset.
        Sj = "SJ",
        /// 300 V, oil-resistant jacket.
        Sjo = "SJO",
        /// 300 V, oil-resistant jacket, outdoors.
        Sjow = "SJOW",
        /// 300 V, oil-resistant throughout.
        Sjoo = "SJOO",
        /// 300 V, oil-resistant throughout, outdoors.
        Sjoow = "SJOOW",
        /// 300 V elastomer.
        Sje = "SJE",
        /// 300 V elastomer, outdoors.
        Sjew = "SJEW",
        /// 300 V elastomer, oil-resistant jacket.
        Sjeo = "SJEO",
        /// 300 V elastomer, oil-resistant jacket, outdoors.
        Sjeow = "SJEOW",
        /// 300 V elastomer, oil-resistant throughout.
        Sjeoo = "SJEOO",
        /// 300 V elastomer, oil-resistant throughout, outdoors.
        Sjeoow = "SJEOOW",
        /// 300 V thermoplastic.
        Sjt = "SJT",
        /// 300 V thermoplastic, outdoors.
        Sjtw = "SJTW",
        /// 300 V thermoplastic, oil-resistant jacket.
        Sjto = "SJTO",
        /// 300 V thermoplastic, oil-resistant jacket, outdoors.
        Sjtow = "SJTOW",
        /// 300 V thermoplastic, oil-resistant throughout.
        Sjtoo = "SJTOO",
        /// 300 V thermoplastic, oil-resistant throughout, outdoors.
        Sjtoow = "SJTOOW",
        /// 600 V thermoset.
        S = "S",
        /// 600 V, oil-resistant jacket.
        So = "SO",
        /// 600 V, oil-resistant jacket, outdoors.
        Sow = "SOW",
        /// 600 V, oil-resistant throughout.
        Soo = "SOO",
        /// 600 V, oil-resistant throughout, outdoors.
        Soow = "SOOW",
        /// 600 V elastomer.
        Se = "SE",
        /// 600 V elastomer, outdoors.
        Sew = "SEW",
        /// 600 V elastomer, oil-resistant jacket.
        Seo = "SEO",
        /// 600 V elastomer, oil-resistant jacket, outdoors.
        Seow = "SEOW",
        /// 600 V elastomer, oil-resistant throughout.
        Seoo = "SEOO",
        /// 600 V elastomer, oil-resistant throughout, outdoors.
        Seoow = "SEOOW",
        /// 600 V thermoplastic.
        St = "ST",
        /// 600 V thermoplastic, outdoors.
        Stw = "STW",
        /// 600 V thermoplastic, oil-resistant jacket.
        Sto = "STO",
        /// 600 V thermoplastic, oil-resistant jacket, outdoors.
        Stow = "STOW",
        /// 600 V thermoplastic, oil-resistant throughout.
        Stoo = "STOO",
        /// 600 V thermoplastic, oil-resistant throughout, outdoors.
        Stoow = "STOOW",
        /// 600 V single-conductor portable cable, thermoset.
        Sc = "SC",
        /// 600 V single-conductor portable cable, elastomer.
        Sce = "SCE",
        /// 600 V single-conductor portable cable, thermoplastic.
        Sct = "SCT",
        /// 2000 V portable cable.
        W = "W",
        /// 2000 V portable cable, elastomer.
        Ppe = "PPE",
        /// 2000 V portable cable with grounding conductors.
        G = "G",
        /// 2000 V portable cable with grounding and ground-check conductors.
        Ggc = "G-GC",
        /// Parallel cord, 300 V.
        Spt1 = "SPT-1",
        /// Parallel cord, outdoors.
        Spt1w = "SPT-1W",
        /// Parallel cord, heavier.
        Spt2 = "SPT-2",
        /// Parallel cord, heavier, outdoors.
        Spt2w = "SPT-2W",
        /// Parallel cord, heaviest.
        Spt3 = "SPT-3",
        /// Range and dryer cord.
        Srdt = "SRDT",
        /// Light appliance cord, thermoset.
        Sv = "SV",
        /// Light appliance cord, thermoplastic.
        Svt = "SVT",
        /// Vehicle charging cable.
        Ev = "EV",
        /// Light vehicle charging cable.
        Evj = "EVJ",
        /// Heater cord, parallel.
        Hpd = "HPD",
        /// Heater cord, parallel, thermoset.
        Hpn = "HPN",
        /// Heater cord, jacketed.
        Hsj = "HSJ",
        /// Heater cord, oil-resistant jacket.
        Hsjo = "HSJO",
        /// Heater cord, oil-resistant jacket, outdoors.
        Hsjow = "HSJOW",
        /// Heater cord, oil-resistant throughout.
        Hsjoo = "HSJOO",
        /// Heater cord, oil-resistant throughout, outdoors.
        Hsjoow = "HSJOOW",
    }
}
