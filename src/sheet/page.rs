//! Pages as lines, fills and words in millimetres, before any file format.

use std::sync::Arc;

use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

use super::face::Face;

/// A set of sizes by their place in the size table. The empty set stands for what is there whatever the size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Sizes(u128);

impl Sizes {
    /// Shown whatever the size.
    pub const ALWAYS: Sizes = Sizes(0);

    /// One size. Beyond the first 128 sizes a line is shown always.
    #[must_use]
    pub fn one(index: usize) -> Sizes {
        Sizes(u32::try_from(index).ok().and_then(|by| 1u128.checked_shl(by)).unwrap_or(0))
    }

    /// Both together.
    #[must_use]
    pub const fn and(self, other: Sizes) -> Sizes {
        Sizes(self.0 | other.0)
    }

    /// The places in the table, the first first.
    pub fn iter(self) -> impl Iterator<Item = usize> {
        (0..128).filter(move |index| self.0 & (1 << index) != 0)
    }

    /// How many there are.
    #[must_use]
    pub const fn len(self) -> usize {
        self.0.count_ones() as usize
    }

    /// Whether it is the empty set.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The first of them.
    #[must_use]
    pub fn first(self) -> Option<usize> {
        self.iter().next()
    }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// Its thickness, mm.
    pub width: f64,
    /// Lengths of dashes and gaps in turn, mm; empty for an unbroken line.
    pub dash: &'static [f64],
    /// From 0, black, to 1, white.
    pub grey: f64,
}

impl Pen {
    /// An unbroken black line.
    #[must_use]
    pub const fn solid(width: f64) -> Pen {
        Pen { width, dash: &[], grey: 0.0 }
    }

    /// The same line in grey.
    #[must_use]
    pub const fn grey(self, grey: f64) -> Pen {
        Pen { grey, ..self }
    }

    /// The same line broken into dashes.
    #[must_use]
    pub const fn dashed(self, dash: &'static [f64]) -> Pen {
        Pen { dash, ..self }
    }
}

/// What a line is of, for readers of the file other than eyes: written into the PDF as the properties of marked content.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tag {
    /// The piece's name in the garment file.
    pub piece: String,
    /// `cut`, `seam`, `fold`, `notch`, `grain` ...
    pub kind: &'static str,
}

/// Something on a page.
#[derive(Debug, Clone)]
pub enum Item {
    /// A line.
    Stroke {
        /// Where it runs, mm.
        path: BezPath,
        /// How it is drawn.
        pen: Pen,
        /// For which sizes.
        sizes: Sizes,
        /// What it is of.
        tag: Option<Arc<Tag>>,
    },
    /// A filled shape.
    Fill {
        /// Its outline, mm.
        path: BezPath,
        /// From 0, black, to 1, white.
        grey: f64,
        /// For which sizes.
        sizes: Sizes,
    },
    /// A line of words, upright.
    Text {
        /// Where its base line begins, mm.
        at: Point,
        /// The words.
        text: String,
        /// The typeface.
        face: Face,
        /// The height of the type (its em), mm.
        em: f64,
        /// From 0, black, to 1, white.
        grey: f64,
        /// For which sizes.
        sizes: Sizes,
    },
    /// Part of a larger drawing, seen through a window.
    Window {
        /// The window, in the coordinates of the drawing, mm.
        clip: Rect,
        /// How far the drawing is moved on the page, mm.
        by: Vec2,
        /// The drawing.
        items: Vec<Item>,
    },
}

impl Item {
    /// The sizes it is for.
    #[must_use]
    pub const fn sizes(&self) -> Sizes {
        match self {
            Item::Stroke { sizes, .. } | Item::Fill { sizes, .. } | Item::Text { sizes, .. } => *sizes,
            Item::Window { .. } => Sizes::ALWAYS,
        }
    }

    /// The upright box about it, mm, with the thickness of its line.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        match self {
            Item::Stroke { path, pen, .. } => path.bounding_box().inflate(pen.width / 2.0, pen.width / 2.0),
            Item::Fill { path, .. } => path.bounding_box(),
            Item::Text { at, text, face, em, .. } => text_box(*at, face.width(text, *em), *em),
            Item::Window { clip, by, .. } => *clip + *by,
        }
    }

    /// The same item elsewhere. Words stay upright: only their place moves.
    #[must_use]
    pub fn moved(&self, by: Vec2) -> Item {
        let shift = Affine::translate(by);
        let mut item = self.clone();
        match &mut item {
            Item::Stroke { path, .. } | Item::Fill { path, .. } => path.apply_affine(shift),
            Item::Text { at, .. } => *at += by,
            Item::Window { by: far, .. } => *far += by,
        }
        item
    }
}

/// The box about a line of words whose base line begins at a place.
#[must_use]
pub fn text_box(at: Point, width: f64, em: f64) -> Rect {
    Rect::new(at.x, at.y - 0.78 * em, at.x + width, at.y + 0.24 * em)
}

/// A page.
#[derive(Debug, Clone)]
pub struct Page {
    /// Its name, for the list of pages in a viewer.
    pub name: String,
    /// Its width, mm.
    pub width: f64,
    /// Its height, mm.
    pub height: f64,
    /// What is on it, the lowest first.
    pub items: Vec<Item>,
}

/// A file of pages.
#[derive(Debug, Clone)]
pub struct Document {
    /// Its title.
    pub title: String,
    /// The edition of the pattern.
    pub edition: String,
    /// The names of the sizes, in which [`Sizes`] counts. With more than one, each is a layer of the file.
    pub sizes: Vec<String>,
    /// The pages.
    pub pages: Vec<Page>,
}

/// Draws on a page.
#[derive(Debug, Clone, Default)]
pub struct Canvas {
    /// What has been drawn.
    pub items: Vec<Item>,
}

impl Canvas {
    /// A straight line.
    pub fn line(&mut self, from: Point, to: Point, pen: Pen) {
        let mut path = BezPath::new();
        path.move_to(from);
        path.line_to(to);
        self.stroke(path, pen);
    }

    /// A line.
    pub fn stroke(&mut self, path: BezPath, pen: Pen) {
        self.items.push(Item::Stroke { path, pen, sizes: Sizes::ALWAYS, tag: None });
    }

    /// A line that says what it is.
    pub fn tagged(&mut self, path: BezPath, pen: Pen, kind: &'static str) {
        let tag = Some(Arc::new(Tag { piece: String::new(), kind }));
        self.items.push(Item::Stroke { path, pen, sizes: Sizes::ALWAYS, tag });
    }

    /// A filled box.
    pub fn fill(&mut self, rect: Rect, grey: f64) {
        self.items.push(Item::Fill { path: rect.to_path(0.1), grey, sizes: Sizes::ALWAYS });
    }

    /// A line of words from a place to the right.
    pub fn text(&mut self, at: Point, text: &str, face: Face, em: f64) {
        let (text, sizes) = (text.to_string(), Sizes::ALWAYS);
        self.items.push(Item::Text { at, text, face, em, grey: 0.0, sizes });
    }

    /// A line of words with its middle at a place.
    pub fn centred(&mut self, at: Point, text: &str, face: Face, em: f64) {
        self.text(Point::new(at.x - face.width(text, em) / 2.0, at.y), text, face, em);
    }

    /// Words in a column, line under line; gives the base line for what follows.
    pub fn column(&mut self, at: Point, text: &str, face: Face, em: f64, width: f64) -> Point {
        let mut at = at;
        for line in face.lines(text, em, width) {
            self.text(at, &line, face, em);
            at.y += em * 1.4;
        }
        at
    }
}
