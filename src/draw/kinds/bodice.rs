//! Views of a bodice and of a gown, front and back, from their own pieces.

use kurbo::{Affine, BezPath, Point};

use super::super::figure::{Drawn, KeyEntry, Measure, Scale, Undrawable};
use super::super::geom::{circle, closed, line, pt, real, steps};
use super::super::look::{Look, Paint};
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, many};
use super::skirt::{SkirtView, View, falling};
use super::sleeve::{Armhole, hang, wing};
use super::worn::{Body, Place, WornEdge, WornPiece};

/// How the middle of a bodice closes.
#[derive(Debug, Clone, PartialEq)]
pub enum Closing {
    /// It does not: the middle is whole, or a seam.
    None,
    /// The edges meet; what holds them does not show.
    Meeting,
    /// Buttons, at distances from the top, mm.
    Buttons(Vec<f64>),
    /// Eyelets with a lace, at distances from the top, mm; how far the edges stand apart, and how far the eyelets are from
    /// the edge.
    Lacing {
        /// Distances of the eyelets from the top, mm.
        at: Vec<f64>,
        /// From edge to edge.
        gap: f64,
        /// From the edge to the eyelet.
        inset: f64,
    },
}

/// A bodice as it is worn, alone or with the skirt sewn to it.
#[derive(Debug, Clone, PartialEq)]
pub struct BodiceView {
    /// What it is: `bodice`.
    pub name: String,
    /// Front or back.
    pub view: View,
    /// The pieces of one half, in order from the middle that is seen to the other middle.
    pub pieces: Vec<WornPiece>,
    /// Whether there is a seam down the middle that is seen.
    pub middle_seam: bool,
    /// Outlines of the pieces of one sleeve on their seam lines, mm, y down, the largest first; none without sleeves.
    pub sleeve: Vec<BezPath>,
    /// Depth of a wing at the armhole.
    pub wing: Option<Measure>,
    /// How the middle closes.
    pub closing: Closing,
    /// Whether the lower edge is piped.
    pub piped: bool,
    /// The skirt sewn to it; its `waist`, `dip` and `band` are taken from the bodice.
    pub skirt: Option<SkirtView>,
    /// Height of the drawing, mm.
    pub height: f64,
}

/// A bodice or gown as it is worn.
///
/// # Errors
/// Where the pieces do not go round a body, or a place is not finite.
pub fn bodice_view(input: &BodiceView, look: &Look) -> Drawn {
    if !(15.0..=400.0).contains(&input.height) {
        return Err(Undrawable(format!("expected a drawing 15 to 400 mm high, but found {}", input.height)));
    }
    let (places, gap, _) = closing(&input.closing);
    if places.iter().any(|c| !c.is_finite()) || !(0.0..=400.0).contains(&gap) {
        return Err(Undrawable("expected places at finite distances".into()));
    }
    let body = Body::new(&input.pieces, gap)?;
    let worn = body.worn();
    let all = || worn.iter().flatten().flat_map(|(points, _)| points).filter(|p| p.seen).map(|p| p.at);
    let (top, low) = all().fold((f64::MAX, f64::MIN), |(a, b), p| (a.min(p.y), b.max(p.y)));
    let tall = match &input.skirt {
        Some(skirt) => body.waist - top + skirt.length.mm(),
        None => low - top,
    };
    if !(tall.is_finite() && tall > 1.0) {
        return Err(Undrawable("expected pieces that are seen from this side, but none is".into()));
    }
    let n = tall / input.height;
    let mut dress = Dress { body, worn, n, top };
    let mut s = Scene::new(look);
    s.uses(KeyEntry::RightSide);
    if let Some(skirt) = &input.skirt {
        falling(
            &mut s,
            skirt,
            n,
            &dress.waist_line(),
            dress.on_paper(pt(dress.body.breadth(dress.body.waist), dress.body.waist)),
        )?;
    }
    if let Some(hole) = dress.hole() {
        for mirror in [Affine::IDENTITY, Affine::FLIP_X] {
            hang(&mut s, &input.sleeve, &hole, n, mirror)?;
        }
    }
    dress.draw(&mut s, input);
    s.finish(words(input, look), Scale::NotToScale)
}

fn closing(closing: &Closing) -> (&[f64], f64, f64) {
    match closing {
        Closing::None | Closing::Meeting => (&[], 0.0, 0.0),
        Closing::Buttons(at) => (at, 0.0, 0.0),
        Closing::Lacing { at, gap, inset } => (at, *gap, *inset),
    }
}

/// The bodice on its body, and the scale of the drawing.
struct Dress {
    body: Body,
    worn: Vec<Vec<(Vec<Place>, WornEdge)>>,
    n: f64,
    top: f64,
}

impl Dress {
    fn on_paper(&self, p: Point) -> Point {
        pt(p.x / self.n, (p.y - self.top) / self.n)
    }

    fn edges(&self, kind: WornEdge) -> impl Iterator<Item = &Vec<Place>> {
        self.worn.iter().flatten().filter(move |(_, other)| *other == kind).map(|(points, _)| points)
    }

    /// Stretches of an edge that are seen, on paper.
    fn runs(&self, edge: &[Place]) -> Vec<Vec<Point>> {
        let mut runs: Vec<Vec<Point>> = vec![Vec::new()];
        for place in edge {
            match runs.last_mut() {
                Some(run) if place.seen => run.push(self.on_paper(place.at)),
                Some(run) if !run.is_empty() => {
                    // The place where it goes round the side.
                    run.push(self.on_paper(place.at));
                    runs.push(Vec::new());
                }
                _ => {}
            }
        }
        runs.retain(|run| run.len() > 1);
        runs
    }

    /// The lower edge from the middle outward, on paper.
    fn lower(&self) -> Vec<Point> {
        let mut points: Vec<Point> = self.edges(WornEdge::Lower).flat_map(|edge| self.runs(edge)).flatten().collect();
        points.sort_by(|a, b| a.x.total_cmp(&b.x));
        points.dedup_by(|a, b| (a.x - b.x).abs() < 0.12);
        points
    }

    /// The same for the skirt: share of half the waist, and drop below the side waist in mm on paper.
    fn waist_line(&self) -> Vec<(f64, f64)> {
        let side = self.on_paper(pt(self.body.breadth(self.body.waist), self.body.waist));
        self.lower().iter().map(|p| ((p.x / side.x).clamp(0.0, 1.0), p.y - side.y)).collect()
    }

    /// The outer end of the shoulder, on paper.
    fn shoulder_tip(&self) -> Option<Point> {
        let ends = self.edges(WornEdge::Shoulder).flatten().filter(|p| p.seen).map(|p| self.on_paper(p.at));
        ends.max_by(|a, b| a.x.total_cmp(&b.x))
    }

    /// The armhole from the shoulder down, on paper.
    fn armhole(&self) -> Vec<Point> {
        let mut points: Vec<Point> = self.edges(WornEdge::Armhole).flat_map(|edge| self.runs(edge)).flatten().collect();
        points.sort_by(|a, b| a.y.total_cmp(&b.y));
        points
    }

    fn hole(&self) -> Option<Armhole> {
        Some(Armhole { tip: self.shoulder_tip()?, seam: self.armhole(), under: *self.side().first()? })
    }

    /// The pieces that are seen; what of them goes round the side ends on the silhouette.
    fn panels(&self) -> Vec<Vec<Point>> {
        let side = self.side();
        let (top, low) = (side.first().map_or(f64::MIN, |p| p.y), side.last().map_or(f64::MAX, |p| p.y));
        let set = |p: &Place| {
            let at = self.on_paper(p.at);
            if p.seen { at } else { self.on_side(at.y.clamp(top, low)) }
        };
        self.worn
            .iter()
            .filter(|edges| edges.iter().any(|(points, _)| points.iter().any(|p| p.seen)))
            .map(|edges| edges.iter().flat_map(|(points, _)| points).map(set).collect())
            .collect()
    }

    fn draw(&mut self, s: &mut Scene, input: &BodiceView) {
        let panels = self.panels();
        let (_, gap, _) = closing(&input.closing);
        if input.view == View::Front || gap > 0.0 {
            back_neck(s, &panels);
        }
        if gap > 0.0 {
            self.behind(s, gap);
        }
        for (mirror, dark) in [(Affine::IDENTITY, 0.22), (Affine::FLIP_X, 0.08)] {
            let turned = |points: &[Point]| points.iter().map(|p| mirror * *p).collect::<Vec<_>>();
            for panel in &panels {
                s.fill(closed(&turned(panel)), Paint::Tint);
            }
            shade(s, &panels, mirror, dark);
            for line in self.edges(WornEdge::After).chain(&self.body.darts()) {
                for run in self.runs(line).iter().filter(|run| real(run.len()) > 2.0) {
                    s.brush(&turned(run), |t| 0.22 + 0.2 * (t * std::f64::consts::PI).sin());
                }
            }
            for kind in [WornEdge::Free, WornEdge::Shoulder, WornEdge::Armhole, WornEdge::Lower] {
                for run in self.edges(kind).flat_map(|edge| self.runs(edge)) {
                    s.brush(&turned(&run), |_| 0.55);
                }
            }
            s.brush(&turned(&self.side()), |_| 0.55);
            if gap > 0.0 {
                for run in self.edges(WornEdge::Before).take(1).flat_map(|edge| self.runs(edge)) {
                    s.brush(&turned(&run), |_| 0.5);
                }
            }
            if let Some(depth) = &input.wing {
                wing(s, &self.armhole(), depth.mm() / self.n, mirror);
            }
            if input.piped {
                piped(s, &turned(&self.lower()));
            }
        }
        self.middle(s, input);
    }

    /// The silhouette at a height on paper.
    fn on_side(&self, y: f64) -> Point {
        let height = y * self.n + self.top;
        self.on_paper(pt(self.body.breadth(height), height))
    }

    /// The silhouette at the side, from the underarm to the lower edge.
    fn side(&self) -> Vec<Point> {
        let turns = |kind: WornEdge| {
            let pairs = self.edges(kind).flat_map(|edge| edge.windows(2));
            pairs.filter(|pair| pair[0].seen != pair[1].seen).map(|pair| pair[0].at.midpoint(pair[1].at).y)
        };
        let from = turns(WornEdge::Armhole).fold(f64::MIN, f64::max);
        let from = if from > f64::MIN { from } else { self.body.chest };
        let till = turns(WornEdge::Lower).fold(f64::MIN, f64::max);
        let till = if till > f64::MIN { till } else { self.body.waist };
        steps(40).map(|t| from + (till - from) * t).map(|y| self.on_paper(pt(self.body.breadth(y), y))).collect()
    }

    /// What is seen between edges that stand apart: the strip laced behind them.
    fn behind(&self, s: &mut Scene, gap: f64) {
        let Some(edge) = self.edges(WornEdge::Before).next() else { return };
        let ys = || edge.iter().map(|p| self.on_paper(p.at).y);
        let (top, low) = (ys().fold(f64::MAX, f64::min) + 0.4, ys().fold(f64::MIN, f64::max));
        let half = gap / 2.0 / self.n + 0.4;
        let area = [pt(-half, top), pt(half, top), pt(half, low), pt(-half, low)];
        s.fill(closed(&area), Paint::White);
        s.stroke(line(area[0], area[1]), Pen::FOLD);
        s.stroke(line(area[2], area[3]), Pen::FOLD);
    }

    fn middle(&self, s: &mut Scene, input: &BodiceView) {
        let Some(edge) = self.edges(WornEdge::Before).next() else { return };
        let mut points: Vec<Point> = edge.iter().map(|p| self.on_paper(p.at)).collect();
        points.sort_by(|a, b| a.y.total_cmp(&b.y));
        let (Some(first), Some(last)) = (points.first(), points.last()) else { return };
        let (top, low) = (first.y, last.y);
        let (places, _, inset) = closing(&input.closing);
        let heights: Vec<f64> = places.iter().map(|c| top + c / self.n).filter(|y| (top..=low).contains(y)).collect();
        match &input.closing {
            Closing::None if input.middle_seam => s.brush(&points, |_| 0.3),
            Closing::None => {}
            Closing::Meeting => s.stroke(line(pt(0.0, top), pt(0.0, low)), Pen::FOLD),
            Closing::Buttons(_) => {
                s.stroke(line(pt(0.0, top), pt(0.0, low)), Pen::FOLD);
                for y in heights {
                    s.fill(circle(pt(0.9, y), 0.75), Paint::White);
                    s.stroke(circle(pt(0.9, y), 0.75), Pen::THIN);
                }
            }
            Closing::Lacing { .. } => {
                let side = |y: f64| {
                    let near = points.iter().min_by(|a, b| (a.y - y).abs().total_cmp(&(b.y - y).abs()));
                    near.map_or(0.0, |p| p.x) + (inset / self.n).max(0.9)
                };
                laced(s, &heights, side);
            }
        }
    }
}

/// Eyelets at both sides of the middle, and one lace that climbs from side to side.
fn laced(s: &mut Scene, heights: &[f64], side: impl Fn(f64) -> f64) {
    for pair in heights.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        s.stroke(line(pt(-side(a), a), pt(side(b), b)), Pen { width: 0.55, ..Pen::THREAD });
        s.stroke(line(pt(side(a), a), pt(-side(a), a)), Pen { width: 0.3, ..Pen::THREAD });
    }
    for y in heights {
        for sign in [-1.0, 1.0] {
            let at = pt(sign * side(*y), *y);
            s.fill(circle(at, 0.55), Paint::White);
            s.stroke(circle(at, 0.55), Pen::THIN);
        }
    }
}

/// The inside of the back, seen over the front neck.
fn back_neck(s: &mut Scene, panels: &[Vec<Point>]) {
    let points = || panels.iter().flatten().copied();
    let Some(first) = panels.first() else { return };
    let middle = first.iter().map(|p| p.x).fold(f64::MAX, f64::min) + 0.3;
    let on_centre = first.iter().filter(|p| p.x <= middle).map(|p| p.y).fold(f64::INFINITY, f64::min);
    let Some(top) = points().min_by(|a, b| a.y.total_cmp(&b.y)) else { return };
    if !on_centre.is_finite() || on_centre - top.y < 2.0 {
        return;
    }
    let sag = (on_centre - top.y).min(top.x) * 0.28;
    let arc: Vec<Point> = steps(24)
        .map(|t| pt(top.x * (2.0 * t - 1.0), top.y + sag * (t * std::f64::consts::PI).sin().powf(0.8)))
        .collect();
    let mut area = arc.clone();
    area.extend([pt(top.x, on_centre), pt(-top.x, on_centre)]);
    s.fill(closed(&area), Paint::Pale);
    s.brush(&arc, |_| 0.4);
}

/// A piping along the lower edge.
fn piped(s: &mut Scene, edge: &[Point]) {
    let mut upper = edge.to_vec();
    upper.sort_by(|a, b| a.x.total_cmp(&b.x));
    if upper.len() < 3 {
        return;
    }
    // Both halves meet in the middle, and neither runs past it.
    let side = upper.iter().map(|p| p.x).sum::<f64>().signum();
    let mut lower = super::super::geom::beside(&upper, 1.0);
    for p in &mut lower {
        p.x = (p.x * side).max(0.0) * side;
    }
    s.fill(closed(&upper.iter().chain(lower.iter().rev()).copied().collect::<Vec<_>>()), Paint::White);
    s.brush(&upper, |_| 0.4);
    s.brush(&lower, |_| 0.4);
    let path = super::super::geom::polyline(&upper);
    let total = super::super::geom::length(&path);
    for i in 1..super::super::geom::whole(total / 1.3, 2, 200) {
        let (p, d) = super::super::geom::along(&path, real(i) * 1.3);
        let n = super::super::geom::right_of(d);
        s.stroke(line(p + n * 0.25 - d * 0.2, p + n * 0.75 + d * 0.25), Pen::TICK);
    }
}

/// The side away from the light: a strip along the outermost line of the panels, found row by row.
fn shade(s: &mut Scene, panels: &[Vec<Point>], mirror: Affine, share: f64) {
    let all = || panels.iter().flatten();
    let (y0, y1) = all().fold((f64::MAX, f64::MIN), |(a, b), p| (a.min(p.y), b.max(p.y)));
    let widest = all().map(|p| p.x).fold(0.0, f64::max);
    let (mut outer, mut inner) = (Vec::new(), Vec::new());
    for t in steps(70) {
        let y = y0 + (y1 - y0) * (0.004 + 0.992 * t);
        let crossings: Vec<f64> = panels
            .iter()
            .flat_map(|panel| panel.windows(2))
            .filter(|w| (w[0].y > y) != (w[1].y > y))
            .map(|w| w[0].x + (w[1].x - w[0].x) * (y - w[0].y) / (w[1].y - w[0].y))
            .collect();
        let (near, far) = crossings.iter().fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(*x), b.max(*x)));
        if far > near {
            let strip = (widest * share * (0.4 + 0.6 * (t * std::f64::consts::PI).sin())).min(far - near);
            outer.push(mirror * pt(far, y));
            inner.push(mirror * pt(far - strip, y));
        }
    }
    if outer.len() > 3 {
        s.fill(closed(&outer.iter().chain(inner.iter().rev()).copied().collect::<Vec<_>>()), Paint::Half);
    }
}

fn words(input: &BodiceView, look: &Look) -> Words {
    let side = if input.view == View::Front { "front" } else { "back" };
    let inner = input.pieces.len().saturating_sub(1) + input.pieces.iter().map(|p| p.darts.len()).sum::<usize>();
    let mut alt = format!("The {} as it is worn, seen from the {side}, both halves alike.", input.name);
    if inner > 0 {
        alt += &format!(
            " {} each side of the centre shape it.",
            capital(&many(inner, "seam or dart on", "seams and darts on"))
        );
    }
    alt += &match &input.closing {
        Closing::None if input.middle_seam => " A seam runs down the centre.".to_string(),
        Closing::None => " The centre is whole.".to_string(),
        Closing::Meeting => " It closes edge to edge down the centre.".to_string(),
        Closing::Buttons(at) => format!(" It closes down the centre at {}.", many(at.len(), "place", "places")),
        Closing::Lacing { at, gap, .. } => {
            let apart = if *gap > 0.0 { ", the edges a little apart, over a strip laid behind them" } else { "" };
            format!(" It is laced down the centre through {} each side{apart}.", many(at.len(), "eyelet", "eyelets"))
        }
    };
    if !input.sleeve.is_empty() {
        alt += if input.sleeve.len() > 1 {
            " Sleeves of two pieces, bent at the elbow, hang from the armholes."
        } else {
            " Sleeves hang from the armholes."
        };
    }
    if let Some(depth) = &input.wing {
        alt += &format!(" A wing {} deep stands out over each shoulder.", look.say(depth));
    }
    if input.piped {
        alt += " A piping runs along its lower edge.";
    }
    if let Some(skirt) = &input.skirt {
        alt += &format!(
            " The skirt is sewn to its lower edge and falls {} to a level hem, {} round.",
            look.say(&skirt.length),
            look.say(&skirt.hem)
        );
    }
    Words { caption: format!("The {} from the {side}, drawn from its own pieces.", input.name), alt }
}
