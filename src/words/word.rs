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
    LaySingle = "lay-single",
    LayLengthwise = "lay-lengthwise",
    LayCrosswise = "lay-crosswise",
    LayThenOpen = "lay-then-open",
    WaySingle = "way-single",
    WayLengthwise = "way-lengthwise",
    WayCrosswise = "way-crosswise",
    WayThenOpen = "way-then-open",
    LiesOnFold = "lies-on-fold",
    LiesFolded = "lies-folded",
    LiesTwice = "lies-twice",
    LiesOpened = "lies-opened",
    LiesFaceDown = "lies-face-down",
    LiesFaceUp = "lies-face-up",
    LiesTurned = "lies-turned",
    LiesAcross = "lies-across",
    LiesBias = "lies-bias",
    LiesBlock = "lies-block",
    LayIntro = "lay-intro",
    LayRead = "lay-read",
    LayCheck = "lay-check",
    LayShown = "lay-shown",
    LayBuy = "lay-buy",
    LayWashed = "lay-washed",
    LayOneWay = "lay-one-way",
    LayGap = "lay-gap",
    LayBlocks = "lay-blocks",
    LayBorder = "lay-border",
    LayRepeat = "lay-repeat",
    LaySpare = "lay-spare",
    LaySpareDouble = "lay-spare-double",
    LayMore = "lay-more",
    LayCannot = "lay-cannot",
    LayFromEnd = "lay-from-end",
    LayFromFold = "lay-from-fold",
    LayFromSelvage = "lay-from-selvage",
    LayFirstPart = "lay-first-part",
    LaySecondPart = "lay-second-part",
    LayOnePart = "lay-one-part",
    LayFoldedPart = "lay-folded-part",
    LayCrossPart = "lay-cross-part",
    LayCrossThenOpen = "lay-cross-then-open",
    LayDoubled = "lay-doubled",
    WayCrossThenOpen = "way-cross-then-open",
    WayDoubled = "way-doubled",
    LayFirstCross = "lay-first-cross",
    LayDoubledPart = "lay-doubled-part",
    LayFromLowerFold = "lay-from-lower-fold",
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
