//! The names of the words Rust asks for.

macro_rules! words {
    ($( $name:ident = $key:literal ),+ $(,)?) => {
        /// A fixed word that is put together in Rust. Its text stands in every catalogue under its key.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[allow(missing_docs)] // Each is explained by its English words.
        pub enum Word { $( $name ),+ }

        impl Word {
            /// All of them.
            pub const ALL: &'static [Word] = &[ $( Word::$name ),+ ];

            /// The key in the catalogues.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self { $( Word::$name => $key ),+ }
            }
        }
    };
}

words! {
    AllSizes = "all-sizes",
    SizeOne = "size-one",
    SizeRange = "size-range",
    SizeList = "size-list",
    DrawnFor = "drawn-for",
    MeasureFirst = "measure-first",
    CutIntro = "cut-intro",
    CutPieces = "cut-pieces",
    CutLaid = "cut-laid",
    CutAlong = "cut-along",
    CutAcross = "cut-across",
    CutAcrossHalf = "cut-across-half",
    CutHalfDrawn = "cut-half-drawn",
    CutSingle = "cut-single",
    CutPair = "cut-pair",
    CutFold = "cut-fold",
    CutOf = "cut-of-cloth",
    GrainStraight = "grain-straight",
    GrainBias = "grain-bias",
    GrainTurned = "grain-turned",
    ClothWide = "cloth-wide",
    RoleOuter = "role-outer",
    RoleUnder = "role-under",
    RoleLining = "role-lining",
    RoleInterlining = "role-interlining",
    RoleTrim = "role-trim",
    SwatchIntro = "swatch-intro",
    SwatchNearest = "swatch-nearest",
    SwatchDash = "swatch-dash",
    SwatchSew = "swatch-sew",
    SwatchFolded = "swatch-folded",
    SwatchSingle = "swatch-single",
    SwatchFit = "swatch-fit",
    SwatchHead = "swatch-head",
    CautionFlame = "caution-flame",
    CautionSteam = "caution-steam",
    CautionPins = "caution-pins",
    CautionCutter = "caution-cutter",
    CautionDye = "caution-dye",
    CautionLacing = "caution-lacing",
    CautionCords = "caution-cords",
    CautionSleepwear = "caution-sleepwear",
    CautionNeck = "caution-neck",
    SourceFlame = "source-flame",
    SourceDye = "source-dye",
    SourceCords = "source-cords",
    SourceSleepwear = "source-sleepwear",
}
