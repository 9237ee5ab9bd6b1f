//! Text as data: blocks of runs.

use serde::{Deserialize, Serialize};

/// One block of a text.
///
/// In JSON a mapping with the key `kind` in kebab case: `{"kind": "paragraph", "runs": [...]}`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Block {
    /// A paragraph.
    Paragraph {
        /// Its text.
        runs: Vec<Run>,
    },
    /// A list.
    List {
        /// Numbered (`true`) or with dots.
        ordered: bool,
        /// One text an entry.
        items: Vec<Vec<Run>>,
    },
    /// What to do when it goes wrong: set in italics, apart from the step's own words.
    Note {
        /// Its text.
        runs: Vec<Run>,
    },
    /// Numbers that differ from size to size: one column a size.
    Strip {
        /// The sizes of the columns, in the book's order.
        sizes: Vec<String>,
        /// One kind of number a row.
        rows: Vec<StripRow>,
    },
    /// Wording for some sizes only.
    Sizes {
        /// Which sizes, in words: `Sizes 6 to 10`.
        words: String,
        /// Which sizes, by name.
        sizes: Vec<String>,
        /// What holds for them.
        blocks: Vec<Block>,
    },
}

/// A stretch of text of one kind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Run {
    /// Words.
    Text {
        /// The words, shown as they stand.
        text: String,
        /// In bold.
        #[serde(default)]
        strong: bool,
        /// In italics.
        #[serde(default)]
        emph: bool,
    },
    /// A printed number with its units. Its no-break spaces hold.
    Value {
        /// As printed.
        text: String,
        /// In bold.
        #[serde(default)]
        strong: bool,
        /// In italics.
        #[serde(default)]
        emph: bool,
    },
    /// A letter in a capsule that stands for a row of the strip below.
    Mark {
        /// The letter.
        letter: String,
    },
    /// A link to another place in the booklet.
    Ref {
        /// What it leads to.
        target: RefTarget,
        /// The id of what it leads to.
        id: String,
        /// The words that carry the link. For a page the number is added behind them; where they
        /// are empty the usual words are set (`step 14`, `figure 9`, `piece 3`).
        #[serde(default)]
        text: String,
    },
}

impl Run {
    /// Plain words.
    #[must_use]
    pub fn text(text: impl Into<String>) -> Run {
        Run::Text { text: text.into(), strong: false, emph: false }
    }

    /// A printed number.
    #[must_use]
    pub fn value(text: impl Into<String>) -> Run {
        Run::Value { text: text.into(), strong: false, emph: false }
    }
}

/// What a link leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RefTarget {
    /// A step, by its id.
    Step,
    /// A figure, by its id.
    Figure,
    /// A piece, by its id.
    Piece,
    /// The page of a chapter, a swatch or a step, by its id; the page number is set by the booklet.
    Page,
    /// A chapter by its name in the templates (`swatch`, `cutting`, `glossary` ...) or a swatch by its id.
    Section,
    /// A word of the glossary, by the word.
    Term,
}

/// One row of a size strip: a kind of number in every size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StripRow {
    /// The letter of the [`Run::Mark`] that points here; none if nothing does.
    #[serde(default)]
    pub mark: Option<String>,
    /// What the numbers are.
    pub label: String,
    /// The unit of the first lines of the cells; may be empty.
    #[serde(default)]
    pub unit_first: String,
    /// The unit of the second lines; may be empty.
    #[serde(default)]
    pub unit_second: String,
    /// One cell a size, in the order of the strip's sizes.
    pub cells: Vec<Cell>,
}

/// One number of a size strip.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cell {
    /// The number in the system that comes first.
    pub first: String,
    /// The number in the other system; empty if only one is printed.
    #[serde(default)]
    pub second: String,
}

impl Cell {
    /// A number in both systems.
    #[must_use]
    pub fn new(first: impl Into<String>, second: impl Into<String>) -> Cell {
        Cell { first: first.into(), second: second.into() }
    }
}
