//! Papers and reading sizes.

use serde::{Deserialize, Serialize};

/// The paper a document is set for. Each is set in its own right, not scaled from another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// ISO 216 A4, 210 by 297 mm.
    #[default]
    A4,
    /// US letter, 8.5 by 11 in.
    Letter,
}

impl Paper {
    /// Every paper there is.
    pub const ALL: [Paper; 2] = [Paper::A4, Paper::Letter];

    /// Its name, as used in file names and on the command line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Paper::A4 => "a4",
            Paper::Letter => "letter",
        }
    }

    /// Width and height in millimetres.
    #[must_use]
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        }
    }

    /// Margins in millimetres, clockwise from the top: head and foot stand within them,
    /// and so do the numbers of the steps, on the left.
    #[must_use]
    pub const fn margins_mm(self) -> [f64; 4] {
        match self {
            Paper::A4 => [22.0, 13.0, 20.0, 25.0],
            Paper::Letter => [20.0, 15.0, 18.0, 27.0],
        }
    }
}

/// How large the words are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Print {
    /// 10.5 on 14.5 pt.
    #[default]
    Standard,
    /// 16 on 21 pt.
    Large,
}

/// Paper and reading size together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
pub struct Setting {
    /// The paper.
    pub paper: Paper,
    /// The reading size.
    pub print: Print,
}

impl From<Paper> for Setting {
    fn from(paper: Paper) -> Setting {
        Setting { paper, print: Print::Standard }
    }
}
