//! What a build tells about itself: enough to say later what changed.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::build::Build;
use super::layouts::ClothNeed;
use crate::meet::SeamReport;
use crate::prose::{Block, Run};
use crate::set::view::{Book, Figure, Step};
use crate::size::SizedGarment;
use crate::units::Systems;

/// Everything of a garment that two editions are compared by; the form of `build.json`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Account {
    /// Its title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// Which measuring system comes first.
    pub systems: Systems,
    /// The garment's accent colour, `#rrggbb`.
    #[serde(default)]
    pub accent: String,
    /// What the maker says changed, newest first: edition, words.
    #[serde(default)]
    pub changes: Vec<(String, String)>,
    /// The sizes, the smallest first.
    pub sizes: Vec<SizedGarment>,
    /// How the seams meet.
    pub seams: SeamReport,
    /// How much of each cloth, by width and size.
    pub needs: Vec<ClothNeed>,
    /// The steps.
    #[serde(default)]
    pub steps: Vec<StepAccount>,
    /// The other chapters, each by a digest of its words.
    #[serde(default)]
    pub chapters: BTreeMap<String, String>,
}

/// A step, as far as its words and drawings can change.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepAccount {
    /// Its id.
    pub id: String,
    /// Its number.
    pub number: u32,
    /// Its title.
    pub title: String,
    /// Its words for all sizes, a `#` in the place of every number.
    pub words: String,
    /// A digest of the numbers in them.
    pub numbers: String,
    /// Its figures: id, and a digest of the drawing.
    pub figures: Vec<(String, String)>,
}

impl Account {
    /// The account of a build, with the words and drawings of its edition of all sizes.
    #[must_use]
    pub fn of(build: &Build, book: &Book) -> Account {
        let chapter = |name: &str, words: serde_json::Result<Vec<u8>>| {
            (name.to_string(), words.map(|words| digest(&words)).unwrap_or_default())
        };
        let chapters = [
            chapter("what you will make", serde_json::to_vec(&book.making.blocks)),
            chapter("before you start", serde_json::to_vec(&(&book.before.blocks, &book.before.tools))),
            chapter("my own swatch", serde_json::to_vec(&book.swatch)),
            chapter("cautions", serde_json::to_vec(&book.cautions)),
            chapter("glossary", serde_json::to_vec(&book.glossary)),
            chapter("terms", serde_json::to_vec(&book.terms)),
        ];
        Account {
            title: build.title.clone(),
            edition: build.edition.clone(),
            systems: build.systems,
            accent: book.accent.clone(),
            changes: book.changes.iter().map(|change| (change.version.clone(), words(&change.blocks))).collect(),
            sizes: build.sizes.clone(),
            seams: build.seams.clone(),
            needs: build.needs.clone(),
            steps: book.steps.iter().map(|step| StepAccount::of(step, book)).collect(),
            chapters: chapters.into_iter().collect(),
        }
    }
}

impl StepAccount {
    fn of(step: &Step, book: &Book) -> StepAccount {
        let mut spoken = Spoken::default();
        spoken.runs(&step.why);
        spoken.end();
        for part in &step.parts {
            spoken.blocks(&part.blocks);
        }
        let ids = step.parts.iter().flat_map(|part| &part.figures);
        let figures = ids
            .filter_map(|id| book.figures.iter().find(|figure| figure.id == *id))
            .map(|figure| (figure.id.clone(), drawing(figure)))
            .collect();
        StepAccount {
            id: step.id.clone(),
            number: step.number,
            title: step.title.clone(),
            words: spoken.words.trim().to_string(),
            numbers: digest(spoken.numbers.as_bytes()),
            figures,
        }
    }
}

/// A text in plain words, its numbers among them.
fn words(blocks: &[Block]) -> String {
    let mut spoken = Spoken { plain: true, ..Spoken::default() };
    spoken.blocks(blocks);
    spoken.words.trim().to_string()
}

/// Words and numbers of a text, apart from each other.
#[derive(Default)]
struct Spoken {
    plain: bool,
    words: String,
    numbers: String,
}

impl Spoken {
    fn end(&mut self) {
        self.words.push('\n');
    }

    fn blocks(&mut self, blocks: &[Block]) {
        for block in blocks {
            match block {
                Block::Paragraph { runs } | Block::Note { runs } => self.runs(runs),
                Block::List { items, .. } => {
                    for item in items {
                        self.runs(item);
                        self.end();
                    }
                }
                Block::Strip { rows, .. } => {
                    for row in rows {
                        for cell in &row.cells {
                            self.numbers.push_str(&format!("{} {}\n", cell.first, cell.second));
                        }
                    }
                }
                Block::Sizes { words, blocks, .. } => {
                    self.words.push_str(words);
                    self.end();
                    self.blocks(blocks);
                }
            }
            self.end();
        }
    }

    fn runs(&mut self, runs: &[Run]) {
        for run in runs {
            match run {
                Run::Text { text, .. } => self.words.push_str(text),
                Run::Value { text, .. } if self.plain => self.words.push_str(text),
                Run::Value { text, .. } => {
                    self.numbers.push_str(text);
                    self.numbers.push('\n');
                    self.words.push('#');
                }
                Run::Mark { .. } => self.words.push('#'),
                Run::Ref { id, text, .. } => self.words.push_str(if text.is_empty() { id } else { text }),
            }
        }
    }
}

/// A digest of what is seen of a figure. Its place in the numbering does not count.
fn drawing(figure: &Figure) -> String {
    let seen = (&figure.svg, &figure.labels, &figure.callouts, &figure.caption);
    digest(&serde_json::to_vec(&seen).unwrap_or_default())
}

fn digest(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().take(12).map(|byte| format!("{byte:02x}")).collect()
}
