//! The scene: what has been drawn so far, in millimetres, before it becomes a figure.

use std::collections::BTreeSet;

use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

use super::figure::{Anchor, Callout, Drawn, Figure, KeyEntry, Label, LabelStyle, Leader, Scale, Undrawable};
use super::geom::pt;
use super::look::{Look, Paint};
use super::metric;
use super::notes::{Note, Side, place};
use super::pen::Pen;
use super::render::svg;
use super::weave::{Weave, ticks};

/// Size of ordinary labels, points.
pub(crate) const SIZE: f64 = 8.0;
/// White kept round every figure, mm.
const MARGIN: f64 = 1.5;

/// One drawn thing, in painter's order.
#[derive(Debug, Clone)]
pub(crate) enum Item {
    /// A filled area.
    Fill(BezPath, Paint),
    /// A line; the name is kept in the SVG.
    Stroke(BezPath, Pen, Option<String>),
    /// A weave over an area; left out where words stand.
    Hatch(BezPath, Weave, Vec2),
    /// Things seen only inside an outline.
    Clip(BezPath, Vec<Item>),
}

/// The words that go with a figure.
pub(crate) struct Words {
    /// What stands under it.
    pub(crate) caption: String,
    /// What it shows.
    pub(crate) alt: String,
}

/// A figure in the making.
pub(crate) struct Scene {
    pub(crate) look: Look,
    pub(crate) items: Vec<Item>,
    labels: Vec<Label>,
    notes: Vec<Note>,
    callouts: Vec<Callout>,
    key: BTreeSet<KeyEntry>,
    /// Where no ticks are to stand.
    clear: Vec<Rect>,
    /// A line of words over everything.
    headline: Option<(f64, String)>,
    /// What the language of the figure has no words for.
    unsaid: Vec<String>,
    /// Greatest width of a note before it is broken into lines, mm.
    pub(crate) note_room: f64,
}

impl Scene {
    pub(crate) fn new(look: &Look) -> Scene {
        Scene {
            look: *look,
            items: Vec::new(),
            labels: Vec::new(),
            notes: Vec::new(),
            callouts: Vec::new(),
            key: BTreeSet::new(),
            clear: Vec::new(),
            headline: None,
            unsaid: Vec::new(),
            note_room: 27.0,
        }
    }

    /// An empty scene of the same look, for a detail.
    pub(crate) fn child(&self) -> Scene {
        Scene::new(&self.look)
    }

    pub(crate) fn fill(&mut self, path: BezPath, paint: Paint) {
        self.items.push(Item::Fill(path, paint));
    }

    pub(crate) fn stroke(&mut self, path: BezPath, pen: Pen) {
        self.items.push(Item::Stroke(path, pen, None));
    }

    pub(crate) fn named(&mut self, path: BezPath, pen: Pen, name: impl Into<String>) {
        self.items.push(Item::Stroke(path, pen, Some(name.into())));
    }

    pub(crate) fn uses(&mut self, entry: KeyEntry) {
        self.key.insert(entry);
    }

    /// Moves what was drawn since `start` items into an outline, outside of which it is not seen.
    pub(crate) fn clip_since(&mut self, start: usize, outline: BezPath) {
        let inner = self.items.split_off(start.min(self.items.len()));
        self.items.push(Item::Clip(outline, inner));
    }

    /// Words on a base line.
    pub(crate) fn text(&mut self, at: Point, anchor: Anchor, style: LabelStyle, text: impl Into<String>) {
        self.label(Label { x: at.x, y: at.y, anchor, text: text.into(), size_pt: SIZE, style, leader: None });
    }

    /// Words whose box is centred on a height.
    pub(crate) fn text_mid(&mut self, at: Point, anchor: Anchor, style: LabelStyle, text: impl Into<String>) {
        let text = self.say(&text.into());
        let y = at.y - metric::height(&text, SIZE) / 2.0 + metric::ascent(SIZE);
        self.labels.push(Label { x: at.x, y, anchor, text, size_pt: SIZE, style, leader: None });
    }

    pub(crate) fn label(&mut self, mut label: Label) {
        if label.style != LabelStyle::Callout {
            label.text = self.say(&label.text);
        }
        self.labels.push(label);
    }

    /// A bold title within the figure.
    pub(crate) fn title(&mut self, at: Point, anchor: Anchor, text: impl Into<String>) {
        self.text(at, anchor, LabelStyle::Strong, text);
    }

    /// Words beside the drawing with a leader to what they name.
    pub(crate) fn note(&mut self, side: Side, target: Point, text: impl Into<String>) {
        let text = metric::wrap(&self.say(&text.into()), SIZE, self.note_room);
        self.notes.push(Note { side, target, text });
    }

    /// Whether words already stand in a box.
    pub(crate) fn has_words(&self, area: Rect) -> bool {
        self.labels.iter().map(metric::bounds).any(|b| b.intersect(area).area() > 0.0)
    }

    /// Keeps ticks out of a box.
    pub(crate) fn keep_clear(&mut self, area: Rect) {
        self.clear.push(area);
    }

    /// Bold words over everything else, their middle at `x`.
    pub(crate) fn headline(&mut self, x: f64, text: impl Into<String>) {
        self.headline = Some((x, text.into()));
    }

    /// Words at a place of their own, their middle at `at`, with a leader to what they name.
    pub(crate) fn pointer(&mut self, at: Point, anchor: Anchor, target: Point, text: impl Into<String>) {
        let text = metric::wrap(&self.say(&text.into()), SIZE, self.note_room);
        let from = match anchor {
            Anchor::Start => pt(at.x - 0.9, at.y),
            Anchor::End => pt(at.x + 0.9, at.y),
            Anchor::Middle => {
                let half = metric::height(&text, SIZE) / 2.0 + 0.4;
                pt(at.x, if target.y < at.y { at.y - half } else { at.y + half })
            }
        };
        let y = at.y - metric::height(&text, SIZE) / 2.0 + metric::ascent(SIZE);
        self.stroke(super::geom::line(from, target), Pen::LEADER);
        self.fill(super::geom::circle(target, 0.45), Paint::Ink);
        let leader = Some(Leader { from: [from.x, from.y], to: [target.x, target.y] });
        self.labels.push(Label { x: at.x, y, anchor, text, size_pt: SIZE, style: LabelStyle::Plain, leader });
    }

    /// A lettered ring. The same letter may stand in a figure again, then without its meaning.
    pub(crate) fn callout(&mut self, letter: &str, at: Point, meaning: impl Into<String>) {
        let meaning = self.say(&meaning.into());
        let ring = super::geom::circle(at, 2.3);
        self.fill(ring.clone(), Paint::White);
        self.stroke(ring, Pen::RING);
        let y = at.y + 0.36 * SIZE * metric::MM_PER_PT;
        self.text(pt(at.x, y), Anchor::Middle, LabelStyle::Callout, letter);
        self.callouts.push(Callout { letter: letter.to_string(), x: at.x, y: at.y, meaning });
    }

    /// In the language of the figure. Where it has no words for it, the figure will say so when it is finished.
    fn say(&mut self, english: &str) -> String {
        self.look.tongue.say(english).unwrap_or_else(|| {
            self.unsaid.push(english.replace('\n', " "));
            english.to_string()
        })
    }

    /// Takes over everything of another scene, moved and turned; its words and notes move with it.
    pub(crate) fn adopt(&mut self, other: Scene, by: Affine) {
        for item in other.items {
            self.items.push(moved(item, by));
        }
        for mut label in other.labels {
            let at = by * pt(label.x, label.y);
            (label.x, label.y) = (at.x, at.y);
            if let Some(leader) = &mut label.leader {
                let (from, to) = (by * pt(leader.from[0], leader.from[1]), by * pt(leader.to[0], leader.to[1]));
                *leader = Leader { from: [from.x, from.y], to: [to.x, to.y] };
            }
            self.labels.push(label);
        }
        for mut note in other.notes {
            note.target = by * note.target;
            self.notes.push(note);
        }
        for mut callout in other.callouts {
            let at = by * pt(callout.x, callout.y);
            (callout.x, callout.y) = (at.x, at.y);
            self.callouts.push(callout);
        }
        self.unsaid.extend(other.unsaid);
        self.clear.extend(other.clear.into_iter().map(|r| by.transform_rect_bbox(r)));
        self.key.extend(other.key);
    }

    /// The box of what is drawn, words that have their place already included.
    pub(crate) fn extent(&self) -> Rect {
        let drawn = self.items.iter().filter_map(item_box);
        let words = self.labels.iter().map(metric::bounds);
        drawn.chain(words).reduce(|a, b| a.union(b)).unwrap_or_default()
    }

    /// The finished figure: notes placed, weaves laid round the words, everything moved to the corner.
    pub(crate) fn finish(mut self, words: Words, scale: Scale) -> Drawn {
        let words = Words { caption: self.say(&words.caption), alt: self.say(&words.alt) };
        let body = self.extent();
        let placed = place(&self.notes, body);
        for label in placed {
            if let Some(Leader { from, to }) = label.leader {
                let (from, to) = (pt(from[0], from[1]), pt(to[0], to[1]));
                self.stroke(super::geom::line(from, to), Pen::LEADER);
                self.fill(super::geom::circle(to, 0.45), Paint::Ink);
            }
            self.labels.push(label);
        }
        if let Some((x, text)) = self.headline.take() {
            let now = self.extent();
            self.title(pt(x, now.y0 - 2.6), Anchor::Middle, text);
        }
        if !self.unsaid.is_empty() {
            return Err(Undrawable(format!("there are no words for `{}`", self.unsaid.join("`, `"))));
        }
        let all = self.extent().inflate(MARGIN, MARGIN);
        if !all.is_finite() || all.width() > 5_000.0 || all.height() > 5_000.0 {
            return Err(Undrawable("expected lengths a figure can show, but its drawing has no bounds".into()));
        }
        let shift = Affine::translate(Vec2::new(-all.x0, -all.y0));
        let mut boxes: Vec<Rect> = self.labels.iter().map(|l| metric::bounds(l).inflate(0.6, 0.3)).collect();
        boxes.append(&mut self.clear);
        let items = self.items.into_iter().map(|item| moved(lay(item, &boxes), shift)).collect::<Vec<_>>();
        for label in &mut self.labels {
            label.x -= all.x0;
            label.y -= all.y0;
            if let Some(leader) = &mut label.leader {
                leader.from = [leader.from[0] - all.x0, leader.from[1] - all.y0];
                leader.to = [leader.to[0] - all.x0, leader.to[1] - all.y0];
            }
        }
        for callout in &mut self.callouts {
            callout.x -= all.x0;
            callout.y -= all.y0;
        }
        let (width_mm, height_mm) = (up(all.width()), up(all.height()));
        let said = self.callouts.iter().filter(|c| !c.meaning.is_empty());
        let listed = said.map(|c| format!(" {}: {}.", c.letter, c.meaning)).collect::<String>();
        Ok(Figure {
            svg: svg(&items, &self.look, width_mm, height_mm),
            width_mm,
            height_mm,
            labels: self.labels,
            caption: words.caption,
            alt: format!("{}{listed}", words.alt),
            callouts: self.callouts,
            scale,
            key: KeyEntry::ALL.into_iter().filter(|entry| self.key.contains(entry)).collect(),
        })
    }
}

/// A size of the box, up to the next tenth of a millimetre.
fn up(value: f64) -> f64 {
    (value * 10.0).ceil() / 10.0
}

/// Weaves become ticks, left out where words stand.
fn lay(item: Item, boxes: &[Rect]) -> Item {
    match item {
        Item::Hatch(area, weave, along) => match weave {
            Weave::Interlining => {
                let mut dots = BezPath::new();
                for (p, _) in ticks(&area, weave, along, boxes) {
                    dots.extend(super::geom::circle(p, 0.24));
                }
                Item::Fill(dots, Paint::Ink)
            }
            Weave::Along | Weave::Across => {
                let mut path = BezPath::new();
                for (a, b) in ticks(&area, weave, along, boxes) {
                    path.move_to(a);
                    path.line_to(b);
                }
                Item::Stroke(path, Pen::TICK, None)
            }
        },
        Item::Clip(outline, inner) => Item::Clip(outline, inner.into_iter().map(|i| lay(i, boxes)).collect()),
        other => other,
    }
}

fn moved(item: Item, by: Affine) -> Item {
    match item {
        Item::Fill(path, paint) => Item::Fill(by * path, paint),
        Item::Stroke(path, pen, name) => Item::Stroke(by * path, pen, name),
        Item::Hatch(path, weave, along) => {
            let turned = by * Point::new(along.x, along.y) - by * Point::ZERO;
            Item::Hatch(by * path, weave, turned)
        }
        Item::Clip(outline, inner) => Item::Clip(by * outline, inner.into_iter().map(|i| moved(i, by)).collect()),
    }
}

fn item_box(item: &Item) -> Option<Rect> {
    match item {
        Item::Fill(path, _) | Item::Hatch(path, _, _) => (!path.is_empty()).then(|| path.bounding_box()),
        Item::Stroke(path, pen, _) => {
            (!path.is_empty()).then(|| path.bounding_box().inflate(pen.width / 2.0, pen.width / 2.0))
        }
        Item::Clip(path, _) => (!path.is_empty()).then(|| path.bounding_box()),
    }
}
