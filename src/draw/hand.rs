//! What the hand draws: cloth, edges, stitches, threads, arrows, needles, pins and dimension lines.

use kurbo::{Affine, BezPath, Point, Vec2};

use super::figure::{Anchor, KeyEntry, LabelStyle};
use super::geom::{
    along, beside, circle, closed, length, line, polyline, pt, real, right_of, smooth, spread, steps, unit, whole,
};
use super::look::Paint;
use super::pen::Pen;
use super::scene::{Item, Scene};
use super::weave::Weave;

/// Which side of which cloth is up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Up {
    /// Right side of the outer cloth.
    Right,
    /// Its wrong side.
    Wrong,
    /// An under cloth.
    Under,
    /// Interlining.
    Interlining,
}

/// The grain running down the page.
pub(crate) const DOWN: Vec2 = Vec2::new(0.0, 1.0);
/// How far a second layer peeps out behind the first, mm.
pub(crate) const PEEP: f64 = 1.5;
/// Thickness of cloth in section, mm.
pub(crate) const THICK: f64 = 1.5;

impl Scene {
    /// An area of cloth without its edges.
    pub(crate) fn cloth(&mut self, area: BezPath, up: Up, grain: Vec2) {
        match up {
            Up::Right => {
                self.uses(KeyEntry::RightSide);
                self.fill(area, Paint::Tint);
            }
            Up::Wrong => {
                self.uses(KeyEntry::WrongSide);
                self.fill(area.clone(), Paint::White);
                self.items.push(Item::Hatch(area, Weave::Along, grain));
            }
            Up::Under => {
                self.uses(KeyEntry::UnderCloth);
                self.fill(area.clone(), Paint::White);
                self.items.push(Item::Hatch(area, Weave::Across, grain));
            }
            Up::Interlining => {
                self.uses(KeyEntry::Interlining);
                self.fill(area.clone(), Paint::White);
                self.items.push(Item::Hatch(area, Weave::Interlining, grain));
            }
        }
    }

    /// An area of cloth with a raw edge all round.
    pub(crate) fn cut_cloth(&mut self, area: BezPath, up: Up, grain: Vec2) {
        self.cloth(area.clone(), up, grain);
        self.cut(area);
    }

    /// The edge of a layer behind, peeping out by [`PEEP`]; draw it before the layer in front.
    pub(crate) fn behind(&mut self, area: &BezPath, up: Up, grain: Vec2) {
        let moved = Affine::translate(Vec2::new(PEEP, PEEP)) * area.clone();
        self.cut_cloth(moved, up, grain);
    }

    pub(crate) fn cut(&mut self, path: BezPath) {
        self.uses(KeyEntry::CutEdge);
        self.stroke(path, Pen::CUT);
    }

    pub(crate) fn fold(&mut self, path: BezPath) {
        self.uses(KeyEntry::FoldedEdge);
        self.stroke(path, Pen::FOLD);
    }

    pub(crate) fn fold_line(&mut self, path: BezPath) {
        self.uses(KeyEntry::FoldLine);
        self.stroke(path, Pen::FOLD_LINE);
    }

    pub(crate) fn seam_line(&mut self, path: BezPath) {
        self.uses(KeyEntry::SeamLine);
        self.stroke(path, Pen::SEAM);
    }

    pub(crate) fn machine(&mut self, path: BezPath) {
        self.uses(KeyEntry::MachineStitch);
        self.stroke(path, Pen::MACHINE);
    }

    pub(crate) fn mark(&mut self, path: BezPath) {
        self.uses(KeyEntry::Mark);
        self.stroke(path, Pen::MARK);
    }

    /// Hand stitches through the points: over the cloth from the first to the second, under to the third, and so on.
    pub(crate) fn running(&mut self, points: &[Point]) {
        for (i, pair) in points.windows(2).enumerate() {
            let pen = if i % 2 == 0 { Pen::THREAD } else { Pen::THREAD_UNDER };
            self.stroke(polyline(pair), pen);
        }
    }

    /// A knot at the end of a thread.
    pub(crate) fn knot(&mut self, at: Point) {
        self.fill(circle(at, 0.85), Paint::Ink);
        self.stroke(polyline(&[at + Vec2::new(-0.2, 0.3), at + Vec2::new(-1.5, 1.5)]), Pen::THREAD);
    }

    /// A loose tail of thread that leaves `at` in a direction and curls.
    pub(crate) fn tail(&mut self, at: Point, toward: Vec2, size: f64) {
        let d = unit(toward);
        let n = right_of(d);
        let points = [
            at,
            at + d * (size * 0.3) + n * (size * 0.06),
            at + d * (size * 0.62) - n * (size * 0.07),
            at + d * (size * 0.9) + n * (size * 0.05),
            at + d * size + n * (size * 0.2),
        ];
        self.stroke(smooth(&points), Pen::THREAD);
    }

    /// Cloth cut through and seen on edge: `right` says whether the right side is at the right hand of the line's
    /// direction. Raw ends are drawn thick.
    pub(crate) fn section(&mut self, path: &BezPath, up: Up, right: bool, raw: (bool, bool)) {
        self.section_of(path, up, right, raw, THICK);
    }

    /// The same with its own thickness.
    pub(crate) fn section_of(&mut self, path: &BezPath, up: Up, right: bool, raw: (bool, bool), thick: f64) {
        let points = spread(path, 0.35);
        if points.len() < 2 {
            return;
        }
        let half = thick / 2.0;
        let (one, two) = (beside(&points, half), beside(&points, -half));
        let band = |a: &[Point], b: &[Point]| closed(&a.iter().chain(b.iter().rev()).copied().collect::<Vec<_>>());
        self.fill(band(&one, &two), Paint::White);
        match up {
            Up::Right | Up::Wrong => {
                self.uses(KeyEntry::InSection);
                let face = if right { &one } else { &two };
                self.fill(band(face, &points), Paint::Shade);
            }
            Up::Under => {
                self.uses(KeyEntry::UnderCloth);
                for at in cuts(path, 1.5) {
                    let (p, d) = along(path, at);
                    let n = right_of(d) * (half * 0.95);
                    self.stroke(line(p - n, p + n), Pen::TICK);
                }
            }
            Up::Interlining => {
                self.uses(KeyEntry::Interlining);
                for at in cuts(path, 1.1) {
                    let (p, _) = along(path, at);
                    self.fill(circle(p, 0.26), Paint::Ink);
                }
            }
        }
        self.stroke(polyline(&one), Pen::FACE);
        self.stroke(polyline(&two), Pen::FACE);
        let ends = [(raw.0, one.first(), two.first()), (raw.1, one.last(), two.last())];
        for (raw, a, b) in ends {
            if let (Some(a), Some(b)) = (a, b) {
                if raw {
                    self.cut(line(*a, *b));
                } else {
                    self.stroke(torn(*a, *b), Pen::FACE);
                }
            }
        }
    }

    /// A line whose width swells and dies away, as a brush draws it; `width` from 0 to 1 along it, mm.
    pub(crate) fn brush(&mut self, points: &[Point], width: impl Fn(f64) -> f64) {
        self.swell(points, width, Paint::Ink);
    }

    /// The same in another colour.
    pub(crate) fn swell(&mut self, points: &[Point], width: impl Fn(f64) -> f64, paint: Paint) {
        let n = points.len();
        if n < 2 {
            return;
        }
        let side = |sign: f64| {
            points.iter().enumerate().map(move |(i, p)| {
                let before = points[i.saturating_sub(1)];
                let after = points[(i + 1).min(n - 1)];
                (*p, right_of(unit(after - before)) * sign, real(i) / real(n - 1))
            })
        };
        let one: Vec<Point> = side(1.0).map(|(p, d, t)| p + d * (width(t).max(0.02) / 2.0)).collect();
        let two: Vec<Point> = side(-1.0).map(|(p, d, t)| p + d * (width(t).max(0.02) / 2.0)).collect();
        self.fill(closed(&one.iter().chain(two.iter().rev()).copied().collect::<Vec<_>>()), paint);
    }

    /// A movement: a shaft that swells toward a filled head.
    pub(crate) fn arrow(&mut self, points: &[Point]) {
        self.uses(KeyEntry::Movement);
        let path = if points.len() > 2 { smooth(points) } else { polyline(points) };
        let total = length(&path);
        let head = 3.4_f64.min(total * 0.6);
        let n = whole(total / 0.6, 4, 400);
        let shaft: Vec<Point> = steps(n).map(|t| along(&path, t * (total - head * 0.8)).0).collect();
        self.brush(&shaft, |t| 0.45 + 0.65 * t);
        let (tip, _) = along(&path, total);
        let (root, _) = along(&path, total - head);
        let d = unit(tip - root);
        let wing = right_of(d) * (head * 0.44);
        self.fill(closed(&[tip, root - wing, root + d * (head * 0.22), root + wing]), Paint::Ink);
    }

    /// A needle, its point at `at`; returns its eye.
    pub(crate) fn needle(&mut self, at: Point, toward: Vec2, size: f64) -> Point {
        let d = unit(toward);
        let n = right_of(d);
        let back = |t: f64, w: f64| at - d * (size * t) + n * w;
        let outline = closed(&[
            at,
            back(0.25, 0.42),
            back(0.86, 0.62),
            back(0.97, 0.5),
            back(1.0, 0.0),
            back(0.97, -0.5),
            back(0.86, -0.62),
            back(0.25, -0.42),
        ]);
        self.fill(outline.clone(), Paint::White);
        self.stroke(outline, Pen::THIN);
        self.stroke(line(back(0.85, 0.0), back(0.94, 0.0)), Pen::THREAD);
        back(0.9, 0.0)
    }

    /// A pin, its head at `at`.
    pub(crate) fn pin(&mut self, at: Point, toward: Vec2, size: f64) {
        let tip = at + unit(toward) * size;
        self.stroke(line(at, tip), Pen::THIN);
        self.fill(circle(at, 0.8), Paint::White);
        self.stroke(circle(at, 0.8), Pen::THIN);
    }

    /// Small filled arrow head of a dimension line.
    fn head(&mut self, tip: Point, toward: Vec2) {
        let d = unit(toward);
        let n = right_of(d) * 0.55;
        self.fill(closed(&[tip, tip - d * 1.8 + n, tip - d * 1.8 - n]), Paint::Ink);
    }

    /// A dimension between two points, its line moved to the right hand by `offset`; words beside the line,
    /// on the side away from the drawing.
    pub(crate) fn dim(&mut self, a: Point, b: Point, offset: f64, text: impl Into<String>) {
        let (mid, n) = self.dim_line(a, b, offset);
        self.beside_line(mid, n, text.into());
    }

    /// The line of a dimension without words; returns its middle and the direction words stand in.
    pub(crate) fn dim_line(&mut self, a: Point, b: Point, offset: f64) -> (Point, Vec2) {
        let d = unit(b - a);
        let n = right_of(d) * offset.signum();
        let (p, q) = (a + n * offset.abs(), b + n * offset.abs());
        for (from, to) in [(a, p), (b, q)] {
            if offset.abs() > 1.5 {
                self.stroke(line(from + n * 0.8, to + n * 1.0), Pen::MEASURE);
            }
        }
        let size = (b - a).hypot();
        if size > 5.5 {
            self.stroke(line(p, q), Pen::MEASURE);
            self.head(p, -d);
            self.head(q, d);
        } else {
            self.stroke(line(p - d * 4.0, p), Pen::MEASURE);
            self.stroke(line(q, q + d * 4.0), Pen::MEASURE);
            self.stroke(line(p, q), Pen::MEASURE);
            self.head(p, d);
            self.head(q, -d);
        }
        (p.midpoint(q), n)
    }

    /// Words beside a line, on its side `n`.
    pub(crate) fn beside_line(&mut self, mid: Point, n: Vec2, text: String) {
        let style = LabelStyle::Measure;
        if n.x.abs() > 0.7 {
            let anchor = if n.x > 0.0 { Anchor::Start } else { Anchor::End };
            self.text_mid(mid + n * 1.4, anchor, style, text);
        } else {
            let high = super::metric::height(&text, super::scene::SIZE);
            let shift = (high / 2.0 + 1.3) * n.y.signum();
            self.text_mid(pt(mid.x + n.x * 2.0, mid.y + shift), Anchor::Middle, style, text);
        }
    }

    /// A grain line with open heads at both ends.
    pub(crate) fn grain(&mut self, a: Point, b: Point) {
        self.uses(KeyEntry::Grain);
        self.named(line(a, b), Pen::GRAIN, "grain");
        for (tip, d) in [(a, unit(a - b)), (b, unit(b - a))] {
            let n = right_of(d) * 1.1;
            self.stroke(polyline(&[tip - d * 2.4 + n, tip, tip - d * 2.4 - n]), Pen::GRAIN);
        }
    }

    /// A magnified detail: a ring round a spot, a larger ring with what is seen in it, and two lines between.
    pub(crate) fn lens(&mut self, spot: Point, small: f64, centre: Point, large: f64, detail: Scene) {
        let reach = centre - spot;
        let (d, n) = (unit(reach), right_of(unit(reach)));
        self.stroke(circle(spot, small), Pen::RING);
        for sign in [1.0, -1.0] {
            let from = spot + d * (small * 0.3) + n * (small * 0.954 * sign);
            let to = centre - d * (large * 0.3) + n * (large * 0.954 * sign);
            self.stroke(line(from, to), Pen::THIN);
        }
        self.fill(circle(centre, large), Paint::White);
        let start = self.items.len();
        self.adopt(detail, Affine::translate(centre.to_vec2()));
        self.clip_since(start, circle(centre, large));
        self.stroke(circle(centre, large), Pen::RING);
    }
}

/// A wavy end where the drawing leaves off, not the cloth.
fn torn(a: Point, b: Point) -> BezPath {
    let d = b - a;
    let n = right_of(unit(d)) * 0.25;
    smooth(&[a, a + d * 0.3 + n, a + d * 0.7 - n, b])
}

/// Distances along a path, evenly spread and clear of its ends.
fn cuts(path: &BezPath, gap: f64) -> Vec<f64> {
    let total = length(path);
    let n = whole(total / gap, 1, 2000);
    (0..n).map(|i| (real(i) + 0.5) * total / real(n)).collect()
}
