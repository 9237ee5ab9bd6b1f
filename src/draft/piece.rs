//! A drawn piece of one size.

use std::collections::BTreeMap;

use kurbo::{Affine, Point, Vec2};
use serde::{Deserialize, Serialize};

use super::path::Path;
use crate::units::{Angle, Area, Count, Length, Quantity};

/// A place on the page, mm: x to the right, y down.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(from = "[f64; 2]", into = "[f64; 2]")]
pub struct Spot(pub Point);

impl From<[f64; 2]> for Spot {
    fn from([x, y]: [f64; 2]) -> Spot {
        Spot(Point::new(x, y))
    }
}

impl From<Spot> for [f64; 2] {
    fn from(spot: Spot) -> [f64; 2] {
        [spot.0.x, spot.0.y]
    }
}

/// What becomes of an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Finish {
    /// Lies on the fold of the cloth.
    Fold,
    /// Turned up and sewn.
    Hemmed,
    /// Faced with another piece.
    Faced,
    /// Bound with a strip.
    Bound,
    /// Piped.
    Piped,
    /// Sewn to something that is no piece.
    Sewn,
    /// Left as it is.
    Free,
}

impl Finish {
    /// In words: `hemmed`, `on the fold`.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Finish::Fold => "on the fold",
            Finish::Hemmed => "hemmed",
            Finish::Faced => "faced",
            Finish::Bound => "bound",
            Finish::Piped => "piped",
            Finish::Sewn => "sewn",
            Finish::Free => "left as it is",
        }
    }
}

/// An edge of the seam line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Edge {
    /// Its name.
    pub name: String,
    /// The seam line, in the direction of the outline: clockwise on the page.
    pub path: Path,
    /// Whether the maker wrote it the other way, so that its start is the end of `path`.
    pub turned: bool,
    /// Its length on the seam line, darts closed.
    pub length: Length,
    /// Stretches of `path` taken up by darts: from, to, as distances from its start.
    pub darts: Vec<(Length, Length)>,
    /// The allowance outside it.
    pub allowance: Length,
    /// What becomes of it; none where it is sewn to another edge.
    pub finish: Option<Finish>,
}

impl Edge {
    /// The seam line in the direction the maker wrote it.
    #[must_use]
    pub fn as_written(&self) -> Path {
        if self.turned { self.path.reversed() } else { self.path.clone() }
    }

    /// Where on `path` a place lies that is so far along the seam line, darts closed, from the start as written; mm.
    #[must_use]
    pub fn on_path(&self, along: Length) -> f64 {
        let sewn = if self.turned { (self.length - along).to_mm() } else { along.to_mm() };
        let mut at = sewn;
        for (from, to) in &self.darts {
            if at > from.to_mm() + 1e-9 {
                at += (*to - *from).to_mm();
            }
        }
        at
    }

    /// The reverse of [`Edge::on_path`]: a distance along `path`, mm, as a distance along the seam from the start as written.
    #[must_use]
    pub fn along(&self, on_path: f64) -> Length {
        let taken: f64 = self.darts.iter().map(|(from, to)| (on_path.min(to.to_mm()) - from.to_mm()).max(0.0)).sum();
        let sewn = Length::mm(on_path - taken);
        if self.turned { self.length - sewn } else { sewn }
    }
}

/// A notch.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Notch {
    /// The edge.
    pub edge: String,
    /// How far along the seam line from the start of the edge as written.
    pub along: Length,
    /// Its place on the seam line.
    pub at: Spot,
    /// Its place on the cut line.
    pub cut: Spot,
    /// The direction out of the piece, of length 1.
    pub out: Spot,
    /// A double notch.
    pub double: bool,
    /// Its name, where it has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
}

/// A dart. One from an edge has its mouth there; one with two points has none.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Dart {
    /// Its name.
    pub name: String,
    /// The edge it opens on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub edge: Option<String>,
    /// The lines to be stitched on each other, both from the mouth (or the upper point) to the point.
    pub legs: (Path, Path),
    /// The line it is folded on.
    pub centre: Path,
    /// The length of a leg; both are the same.
    pub leg: Length,
    /// The width taken in.
    pub width: Length,
}

/// What a line within a piece is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MarkKind {
    /// To fold on.
    Fold,
    /// To stitch on.
    Stitch,
    /// The middle line of a channel.
    Channel,
    /// Where another part is placed.
    Place,
    /// The middle of the body.
    Centre,
    /// To cut on.
    Cut,
    /// A row of a grid.
    Row,
    /// An upright guide line of a grid.
    Guide,
}

/// A line within a piece.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Mark {
    /// The name in the file.
    pub name: String,
    /// What the pattern calls it.
    pub title: String,
    /// What it is for.
    pub kind: MarkKind,
    /// The line.
    pub path: Path,
    /// Its length.
    pub length: Length,
    /// The width of a channel.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<Length>,
}

/// A point to be marked through all layers.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Drill {
    /// The place.
    pub at: Spot,
    /// What it marks.
    pub title: String,
}

/// How the pieces of a cloth lie to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HowCut {
    /// All the same way round.
    Single,
    /// Each with its mirror image.
    Pair,
    /// With its fold edge on the fold.
    Fold,
}

/// How often a piece is cut from a cloth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Cut {
    /// The cloth.
    pub cloth: String,
    /// How many; a pair and a piece on the fold count once.
    pub count: Count,
    /// How they lie to each other.
    pub how: HowCut,
    /// The direction of the grain on the piece, from down the page, clockwise.
    pub grain: Angle,
}

impl Cut {
    /// How many pieces of cloth there are in the end.
    #[must_use]
    pub fn pieces(&self) -> u64 {
        if self.how == HowCut::Pair { self.count.0.saturating_mul(2) } else { self.count.0 }
    }

    /// In words: `3`, `1 pair`, `1 on fold`.
    #[must_use]
    pub fn words(&self) -> String {
        match (self.how, self.count.0) {
            (HowCut::Single, n) => n.to_string(),
            (HowCut::Pair, 1) => "1 pair".to_string(),
            (HowCut::Pair, n) => format!("{n} pairs"),
            (HowCut::Fold, n) => format!("{n} on fold"),
        }
    }
}

/// An upright box, mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Extent {
    /// Upper left corner.
    pub min: Spot,
    /// Lower right corner.
    pub max: Spot,
}

impl Extent {
    /// About a path.
    #[must_use]
    pub fn of(path: &Path) -> Extent {
        let rect = path.bounds();
        Extent { min: Spot(Point::new(rect.x0, rect.y0)), max: Spot(Point::new(rect.x1, rect.y1)) }
    }

    /// Left to right.
    #[must_use]
    pub fn width(&self) -> Length {
        Length::mm(self.max.0.x - self.min.0.x)
    }

    /// Top to bottom.
    #[must_use]
    pub fn height(&self) -> Length {
        Length::mm(self.max.0.y - self.min.0.y)
    }
}

/// A pattern piece of one size. The coordinates are millimetres, x to the right and y down the page, right side of the
/// cloth up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Piece {
    /// Its name in the file.
    pub name: String,
    /// Its name on the pattern.
    pub title: String,
    /// A remark for the cutting chart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The seam line, edge by edge, clockwise on the page.
    pub edges: Vec<Edge>,
    /// The cut line, closed; of a piece on the fold, the half with the fold for one side.
    pub cut: Path,
    /// Whether the allowances ran into each other and were trimmed.
    pub trimmed: bool,
    /// The edge on the fold, where the piece drawn is one half.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fold: Option<String>,
    /// The edge that lies on the border of a cloth that has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on_border: Option<String>,
    /// The place that lies on the repeat of a cloth that has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on_repeat: Option<Spot>,
    /// Its named points.
    pub points: BTreeMap<String, Spot>,
    /// Lines it was constructed with, which are not printed.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub guides: BTreeMap<String, Path>,
    /// Its darts.
    pub darts: Vec<Dart>,
    /// Its notches, edge by edge.
    pub notches: Vec<Notch>,
    /// Lines within it.
    pub marks: Vec<Mark>,
    /// Drill marks.
    pub drills: Vec<Drill>,
    /// The grain line: from, to.
    pub grain: (Spot, Spot),
    /// Where the name is printed.
    pub label: Spot,
    /// How often it is cut from each cloth.
    pub cuts: Vec<Cut>,
    /// The box about the seam line.
    pub extent: Extent,
    /// The box about the cut line.
    pub cut_extent: Extent,
    /// The area within the seam line, as drawn.
    pub area: Area,
    /// The area within the cut line, as drawn.
    pub cut_area: Area,
    /// Edges that need not grow from size to size.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub not_growing: Vec<String>,
}

impl Piece {
    /// An edge by name.
    #[must_use]
    pub fn edge(&self, name: &str) -> Option<&Edge> {
        self.edges.iter().find(|edge| edge.name == name)
    }

    /// The names of its edges.
    #[must_use]
    pub fn edge_names(&self) -> Vec<&str> {
        self.edges.iter().map(|edge| edge.name.as_str()).collect()
    }

    /// The whole seam line, closed.
    #[must_use]
    pub fn seam(&self) -> Path {
        self.edges.iter().fold(Path::default(), |path, edge| path.then(&edge.path))
    }

    /// What other formulas may name: the length of every edge (`piece.edge`), and `width`, `height` and `area` within the
    /// seam line, `cut_width`, `cut_height` and `cut_area` within the cut line.
    #[must_use]
    pub fn measures(&self) -> Vec<(String, Quantity)> {
        let mut measures: Vec<(&str, Quantity)> =
            self.edges.iter().map(|edge| (edge.name.as_str(), Quantity::from(edge.length))).collect();
        measures.extend([
            ("width", Quantity::from(self.extent.width())),
            ("height", Quantity::from(self.extent.height())),
            ("area", Quantity::from(self.area)),
            ("cut_width", Quantity::from(self.cut_extent.width())),
            ("cut_height", Quantity::from(self.cut_extent.height())),
            ("cut_area", Quantity::from(self.cut_area)),
        ]);
        measures.into_iter().map(|(name, quantity)| (format!("{}.{name}", self.name), quantity)).collect()
    }

    /// The straight fold edge: a place on it and its direction.
    fn fold_line(&self) -> Option<(Point, Vec2)> {
        let edge = self.edge(self.fold.as_deref()?)?;
        Some((edge.path.start(), edge.path.start_dir()))
    }

    /// The mirror at the fold, where the piece has one.
    #[must_use]
    pub fn mirror(&self) -> Option<Affine> {
        let (point, dir) = self.fold_line()?;
        Some(Affine::reflect(point, dir))
    }

    /// The seam line opened out at the fold; the same as [`Piece::seam`] where there is none.
    #[must_use]
    pub fn full_seam(&self) -> Path {
        self.opened(&self.seam())
    }

    /// The cut line opened out at the fold; the same as `cut` where there is none.
    #[must_use]
    pub fn full_cut(&self) -> Path {
        self.opened(&self.cut)
    }

    fn opened(&self, outline: &Path) -> Path {
        let (Some((point, dir)), Some(mirror)) = (self.fold_line(), self.mirror()) else { return outline.clone() };
        let segs = outline.segs();
        let on_fold = |p: Point| (p - point).cross(dir).abs() < 1e-4;
        let lies = |seg: &kurbo::PathSeg| {
            use kurbo::ParamCurve;
            matches!(seg, kurbo::PathSeg::Line(_)) && on_fold(seg.start()) && on_fold(seg.end())
        };
        let Some(first) = segs.iter().position(lies) else { return outline.clone() };
        let turned: Vec<kurbo::PathSeg> =
            segs[first..].iter().chain(&segs[..first]).filter(|seg| !lies(seg)).copied().collect();
        let half = Path::of(turned);
        half.then(&half.moved(mirror).reversed()).rounded()
    }

    /// The cut line corner by corner, for laying on the cloth: no part of the piece lies outside it, and it is nowhere
    /// farther out than `tolerance`. Clockwise on the page, `[x, y]` in mm.
    #[must_use]
    pub fn cut_polygon(&self, tolerance: Length) -> Vec<[f64; 2]> {
        super::polygon::around(&self.cut, tolerance.to_mm())
    }

    /// The edge of a [`Piece::cut_polygon`] that lies outside an edge of the seam line: the index of its first corner. None
    /// where there is no such edge, or the seam line is not straight there.
    #[must_use]
    pub fn side_of(&self, polygon: &[[f64; 2]], edge: &str) -> Option<usize> {
        super::polygon::side_of(polygon, self.edge(edge)?)
    }

    /// [`Piece::cut_polygon`] of the piece opened out at its fold.
    #[must_use]
    pub fn full_cut_polygon(&self, tolerance: Length) -> Vec<[f64; 2]> {
        super::polygon::around(&self.full_cut(), tolerance.to_mm())
    }
}
