//! What an eye would stop at, found on the finished pages.
//!
//! Typst is silent about characters no font has, about letters that run into each other and about
//! content beyond the paper's edge; so the frames of every page are walked here.

use std::fmt;

use serde::{Deserialize, Serialize};
use typst::introspection::Tag;
use typst::layout::{Abs, Frame, FrameItem, Point, Transform};
use typst::model::HeadingElem;
use typst::text::TextItem;
use typst_layout::{Page, PagedDocument};

use super::paper::Paper;
use crate::fault::{Code, Fault, Place};

/// The smallest letters, points.
const SMALLEST: f64 = 7.0;
/// How far two texts may reach into each other, points across and down, before it shows.
const TOUCH: (f64, f64) = (1.0, 1.5);

/// What kind of thing is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LintKind {
    /// A character no embedded font has.
    MissingGlyph,
    /// Letters, lines or pictures beyond the edge of the paper.
    OffPage,
    /// Letters smaller than 7 pt.
    SmallText,
    /// Two texts printed over each other.
    Overlap,
    /// A heading with nothing under it on its page.
    OrphanHeading,
    /// A page with a head and a foot and nothing between.
    EmptyPage,
    /// Typst itself has a doubt: places that did not settle, a typeface that is not there.
    Doubt,
}

/// One thing an eye would stop at.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Lint {
    /// The page, counted from 1; 0 for the document as a whole.
    pub page: usize,
    /// What kind.
    pub kind: LintKind,
    /// In words.
    pub message: String,
}

impl Lint {
    /// A missing character as a fault: a document that lacks one cannot be sold.
    pub(super) fn as_fault(&self) -> Option<Fault> {
        (self.kind == LintKind::MissingGlyph).then(|| {
            Fault::new(Code::Document, Place::Nowhere, self.to_string())
                .help("write it with letters the typefaces have, or spell it out")
        })
    }
}

impl fmt::Display for Lint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "page {}: {}", self.page, self.message)
    }
}

/// Walks every page; `doubts` are typst's own warnings.
pub(super) fn lint(document: &PagedDocument, paper: Paper, doubts: &[String]) -> Vec<Lint> {
    let [top, _, bottom, _] = paper.margins_mm().map(Abs::mm);
    let mut lints: Vec<Lint> = document
        .pages()
        .iter()
        .enumerate()
        .flat_map(|(at, page)| Walk::of(page, at + 1).lints(top, page.frame.height() - bottom))
        .collect();
    let doubt = |message: &String| Lint { page: 0, kind: LintKind::Doubt, message: message.clone() };
    lints.extend(doubts.iter().map(doubt));
    lints.sort();
    lints.dedup();
    lints
}

/// A box on the page, points.
#[derive(Debug, Clone, Copy)]
struct Area {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Area {
    /// The box around the corners of a rectangle, after a transformation.
    fn of(from: Point, to: Point, transform: Transform) -> Area {
        let corners = [from, Point::new(to.x, from.y), to, Point::new(from.x, to.y)].map(|p| p.transform(transform));
        let fold = |start: f64, pick: fn(f64, f64) -> f64, part: fn(&Point) -> Abs| {
            corners.iter().map(|corner| part(corner).to_pt()).fold(start, pick)
        };
        Area {
            left: fold(f64::INFINITY, f64::min, |p| p.x),
            top: fold(f64::INFINITY, f64::min, |p| p.y),
            right: fold(f64::NEG_INFINITY, f64::max, |p| p.x),
            bottom: fold(f64::NEG_INFINITY, f64::max, |p| p.y),
        }
    }
}

/// What was met on one page.
struct Walk {
    number: usize,
    width: f64,
    height: f64,
    found: Vec<Lint>,
    texts: Vec<(Area, String)>,
    headings: Vec<f64>,
    lowest: Vec<f64>,
}

impl Walk {
    fn of(page: &Page, number: usize) -> Walk {
        let size = page.frame.size();
        let mut walk = Walk {
            number,
            width: size.x.to_pt(),
            height: size.y.to_pt(),
            found: Vec::new(),
            texts: Vec::new(),
            headings: Vec::new(),
            lowest: Vec::new(),
        };
        walk.frame(&page.frame, Transform::identity(), false);
        walk
    }

    fn say(&mut self, kind: LintKind, message: String) {
        self.found.push(Lint { page: self.number, kind, message });
    }

    fn frame(&mut self, frame: &Frame, transform: Transform, clipped: bool) {
        for (at, item) in frame.items() {
            let here = transform.pre_concat(Transform::translate(at.x, at.y));
            match item {
                FrameItem::Group(group) => {
                    let inner = here.pre_concat(group.transform);
                    self.frame(&group.frame, inner, clipped || group.clip.is_some());
                }
                FrameItem::Text(text) => self.text(text, here),
                FrameItem::Shape(shape, _) if !clipped => {
                    let bounds = shape.bbox(false);
                    self.bounds("a line or a ground", Area::of(bounds.min, bounds.max, here));
                }
                FrameItem::Image(_, size, _) if !clipped => {
                    let area = Area::of(Point::zero(), size.to_point(), here);
                    self.lowest.push(area.bottom);
                    self.bounds("a picture", area);
                }
                FrameItem::Tag(Tag::Start(content, _)) if content.is::<HeadingElem>() => {
                    self.headings.push(Point::zero().transform(here).y.to_pt());
                }
                _ => {}
            }
        }
    }

    fn text(&mut self, item: &TextItem, transform: Transform) {
        let words: String = item.text.chars().take(40).collect();
        for glyph in item.glyphs.iter().filter(|glyph| glyph.id == 0) {
            let lost = item.text.get(glyph.range()).unwrap_or(&item.text);
            let codes: Vec<String> = lost.chars().map(|c| format!("U+{:04X}", u32::from(c))).collect();
            self.say(LintKind::MissingGlyph, format!("no typeface has `{lost}` ({})", codes.join(" ")));
        }
        let scale = (transform.sx.get() * transform.sy.get() - transform.kx.get() * transform.ky.get()).abs().sqrt();
        let size = item.size.to_pt() * scale;
        if size < SMALLEST - 0.01 {
            self.say(LintKind::SmallText, format!("`{words}` is set in {size:.1} pt, smaller than {SMALLEST} pt"));
        }
        let ink = item.bbox();
        let (low, high) = (ink.min.min(ink.max), ink.min.max(ink.max));
        if ![low.x, low.y, high.x, high.y].into_iter().all(|part| part.to_pt().is_finite()) {
            return;
        }
        let area = Area::of(low, high, transform);
        self.bounds(&format!("`{words}`"), area);
        self.texts.push((area, words));
    }

    fn bounds(&mut self, what: &str, area: Area) {
        let slack = 0.5;
        let over = [-area.left, -area.top, area.right - self.width, area.bottom - self.height];
        let over = over.into_iter().fold(f64::NEG_INFINITY, f64::max);
        if over > slack {
            self.say(LintKind::OffPage, format!("{what} runs {over:.1} pt beyond the paper"));
        }
    }

    fn lints(mut self, top: Abs, bottom: Abs) -> Vec<Lint> {
        let (top, bottom) = (top.to_pt(), bottom.to_pt());
        let body: Vec<f64> = self
            .texts
            .iter()
            .filter(|(area, _)| area.top > top - 4.0 && area.bottom < bottom + 4.0)
            .map(|(area, _)| area.top)
            .chain(self.lowest.iter().copied())
            .collect();
        if body.is_empty() {
            self.say(LintKind::EmptyPage, "the page is empty".to_string());
        }
        for heading in self.headings.clone() {
            // A heading of two lines at most, then something lower.
            if !body.iter().any(|low| *low > heading + 18.0) {
                self.say(LintKind::OrphanHeading, "a heading has nothing under it".to_string());
            }
        }
        self.overlaps();
        self.found
    }

    fn overlaps(&mut self) {
        let mut texts = std::mem::take(&mut self.texts);
        texts.sort_by(|(a, _), (b, _)| a.top.total_cmp(&b.top));
        for (at, (one, words)) in texts.iter().enumerate() {
            for (other, others) in texts.iter().skip(at + 1).take_while(|(other, _)| other.top < one.bottom - TOUCH.1) {
                let across = one.right.min(other.right) - one.left.max(other.left);
                let down = one.bottom.min(other.bottom) - one.top.max(other.top);
                if across > TOUCH.0 && down > TOUCH.1 {
                    self.say(LintKind::Overlap, format!("`{words}` and `{others}` are printed over each other"));
                }
            }
        }
    }
}
