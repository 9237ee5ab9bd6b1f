//! From a pattern to the file of a format.

use std::fmt;

use kurbo::Rect;
use serde::Serialize;

use super::board::{Board, board};
use super::face::Face;
use super::format::{Format, LONGEST, PLOTTER_MARGIN};
use super::page::{Document, Item, Page};
use super::pattern::{Options, Pattern};
use super::tiles::{pages, tiles};
use super::{front, overview};

/// The sheets of a pattern on one format, and how well they fill their paper.
#[derive(Debug, Clone)]
pub struct Sheets {
    /// The pages.
    pub document: Document,
    /// What they take.
    pub tally: Tally,
}

/// What sheets take of paper.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Tally {
    /// Sheets with pieces on them.
    pub sheets: usize,
    /// The fewest the area of the pieces could lie on.
    pub at_least: usize,
    /// The length of an endless page, mm; of others, of one sheet.
    pub length: f64,
    /// The share of the printed paper that the pieces cover.
    pub share: f64,
}

/// Why there can be no page of a format.
#[derive(Debug, Clone, PartialEq)]
pub enum NoPage {
    /// It would be longer than viewers and printers take.
    TooLong {
        /// The format.
        format: Format,
        /// The length it would have, mm.
        length: f64,
    },
    /// A piece is wider than it however it is turned.
    TooWide {
        /// The format.
        format: Format,
        /// The piece.
        piece: String,
        /// The least width it needs, mm.
        width: f64,
    },
}

impl fmt::Display for NoPage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (inches, cm) = (|mm: f64| (mm / 25.4).ceil(), |mm: f64| (mm / 10.0).ceil());
        match self {
            NoPage::TooLong { format, length } => write!(
                f,
                "expected at most {:.0} in ({:.0} cm) of length for {}, but the pieces need {:.0} in ({:.0} cm)",
                inches(LONGEST),
                cm(LONGEST),
                format.words(),
                inches(*length),
                cm(*length)
            ),
            NoPage::TooWide { format, piece, width } => write!(
                f,
                "`{piece}` needs {:.0} in ({:.0} cm) of width, and {} has {:.0} in ({:.0} cm) to print on",
                inches(*width),
                cm(*width),
                format.words(),
                (format.area().0 / 25.4).floor(),
                (format.area().0 / 10.0).floor()
            ),
        }
    }
}

impl std::error::Error for NoPage {}

/// The sheets of a pattern.
///
/// # Errors
/// [`NoPage`] where an endless page would be longer than viewers and printers take, or is narrower than a piece.
#[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub fn sheets(pattern: &Pattern, format: Format, options: &Options) -> Result<Sheets, NoPage> {
    let mut board = board(pattern, format, options);
    let area = board.area;
    let title = format!("{}, {}, {}", pattern.title, pattern.size_words(), format.words());
    let mut document =
        Document { title, edition: pattern.edition.clone(), sizes: pattern.sizes.clone(), pages: Vec::new() };
    if format.is_endless() {
        let page = endless(&board, format)?;
        let length = page.height;
        let share = area / (format.area().0 * (length - 2.0 * PLOTTER_MARGIN));
        document.pages.push(page);
        return Ok(Sheets { document, tally: Tally { sheets: 1, at_least: 1, length, share } });
    }
    let used = tiles(&board);
    if format.is_home() {
        document.pages.push(front::page(pattern, format, options, used.len()));
        document.pages.push(overview::page(&board, &used, pattern, format, options, 2));
    }
    let before = document.pages.len();
    document.pages.extend(pages(&mut board, &used, pattern, format, options, before));
    let tile = board.pitch.0 * board.pitch.1;
    let at_least = (area / tile).ceil().max(1.0) as usize;
    let share = area / (tile * used.len().max(1) as f64);
    let tally = Tally { sheets: used.len(), at_least, length: format.paper().1, share };
    Ok(Sheets { document, tally })
}

/// One page as long as it needs to be.
fn endless(board: &Board, format: Format) -> Result<Page, NoPage> {
    let (width, _) = format.paper();
    for drawing in &board.drawings {
        let bounds = drawing.bounds();
        if bounds.x1 > format.area().0 {
            let (piece, width) = (drawing.name.clone(), bounds.width().min(bounds.height()));
            return Err(NoPage::TooWide { format, piece, width });
        }
    }
    let low = board.items.iter().map(Item::bounds).reduce(|a: Rect, b| a.union(b)).map_or(0.0, |rect| rect.y1);
    // To whole millimetres, so that the shop's ruler agrees.
    let height = (low + 2.0 * PLOTTER_MARGIN).ceil();
    if height > LONGEST {
        return Err(NoPage::TooLong { format, length: height });
    }
    let by = kurbo::Vec2::new(PLOTTER_MARGIN, PLOTTER_MARGIN);
    let items = board.items.iter().map(|item| item.moved(by)).collect();
    Ok(Page { name: format!("On {}", format.words()), width, height, items })
}

/// The first character on any page that the typefaces do not have, with the words it stands in.
#[must_use]
pub fn missing(document: &Document) -> Option<(char, String)> {
    fn of(items: &[Item]) -> Option<(char, String)> {
        items.iter().find_map(|item| match item {
            Item::Text { text, face, .. } => Face::missing(*face, text).map(|c| (c, text.clone())),
            Item::Window { items, .. } => of(items),
            _ => None,
        })
    }
    document.pages.iter().find_map(|page| of(&page.items))
}
