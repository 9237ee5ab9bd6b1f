//! Sizes laid over each other: where each is put, and which of their lines are the same line.

use kurbo::{BezPath, Line, ParamCurve, PathEl, PathSeg, Point, Rect, Vec2};

use super::page::Sizes;
use crate::draft::Piece;

/// Lines nearer to each other than this are one line, mm: a twentieth of the thickness of a printed one.
const SAME: f64 = 0.02;
/// Lines this near may be linked by others between them, mm.
const NEARBY: f64 = 1.0;
/// Stretches shorter than this are not told apart, mm.
const SHORT: f64 = 0.02;

/// How far each size of a piece is moved so that the nest takes the least paper: as drafted, or with one of the corners of
/// the seam line in one place in all sizes.
#[must_use]
pub fn stacked(pieces: &[Piece]) -> Vec<Vec2> {
    let Some(first) = pieces.first() else { return Vec::new() };
    let mut best = vec![Vec2::ZERO; pieces.len()];
    let mut least = nest_area(pieces, &best) * 0.999;
    for index in 0..first.edges.len() {
        let corners: Vec<Point> =
            pieces.iter().filter_map(|piece| piece.edges.get(index)).map(|edge| edge.path.start()).collect();
        let named = pieces.iter().all(|piece| piece.edge_names() == first.edge_names());
        if corners.len() != pieces.len() || !named {
            break;
        }
        let moves: Vec<Vec2> = corners.iter().map(|corner| corners[0] - *corner).collect();
        let area = nest_area(pieces, &moves);
        if area < least {
            (best, least) = (moves, area * 0.999);
        }
    }
    best
}

fn nest_area(pieces: &[Piece], moves: &[Vec2]) -> f64 {
    let boxes = pieces.iter().zip(moves).map(|(piece, by)| piece.cut.bounds() + *by);
    boxes.reduce(|a: Rect, b| a.union(b)).map_or(0.0, |rect| rect.area())
}

/// The outlines of all sizes as lines, each with the sizes whose line it is. A stretch that several sizes share comes
/// once. Straight pieces are compared along their length, curves as wholes.
#[must_use]
pub fn shared(outlines: &[Vec<PathSeg>]) -> Vec<(BezPath, Sizes)> {
    let mut lines = Vec::new();
    for (size, segs) in outlines.iter().enumerate() {
        let mut runs: Vec<(Vec<PathSeg>, Sizes)> = Vec::new();
        for seg in segs {
            for (part, sizes) in parts(*seg, size, outlines) {
                match runs.last_mut() {
                    Some((run, same)) if *same == sizes && meets(run.last(), &part) => run.push(part),
                    _ => runs.push((vec![part], sizes)),
                }
            }
        }
        // The outline is closed: its last run goes on in its first.
        if runs.len() > 1
            && let (Some(first), Some(last)) = (runs.first(), runs.last())
            && first.1 == last.1
            && let Some(start) = first.0.first()
            && meets(last.0.last(), start)
            && let Some((head, sizes)) = runs.pop()
        {
            let (tail, _) = runs.remove(0);
            runs.push((head.into_iter().chain(tail).collect(), sizes));
        }
        lines.extend(
            runs.into_iter().filter(|(_, sizes)| sizes.first() == Some(size)).map(|(run, s)| (joined(&run), s)),
        );
    }
    lines
}

fn meets(before: Option<&PathSeg>, after: &PathSeg) -> bool {
    before.is_some_and(|seg| seg.end().distance(after.start()) < SAME)
}

/// Segments that follow each other as one path, closed where the last ends at the first.
#[must_use]
pub fn joined(segs: &[PathSeg]) -> BezPath {
    let mut path = BezPath::new();
    let Some(first) = segs.first() else { return path };
    path.move_to(first.start());
    for seg in segs {
        path.push(match seg {
            PathSeg::Line(line) => PathEl::LineTo(line.p1),
            PathSeg::Quad(quad) => PathEl::QuadTo(quad.p1, quad.p2),
            PathSeg::Cubic(cubic) => PathEl::CurveTo(cubic.p1, cubic.p2, cubic.p3),
        });
    }
    if segs.len() > 1 && segs.last().is_some_and(|last| last.end().distance(first.start()) < SAME) {
        path.close_path();
    }
    path
}

/// A segment in the parts that different sizes share, each with its sizes.
fn parts(seg: PathSeg, size: usize, outlines: &[Vec<PathSeg>]) -> Vec<(PathSeg, Sizes)> {
    let PathSeg::Line(line) = seg else {
        return vec![(seg, sharers(&seg, size, seg.eval(0.5), outlines))];
    };
    let length = line.p0.distance(line.p1);
    let dir = (line.p1 - line.p0) / length.max(1e-9);
    // Wherever a straight piece of any size begins or ends along this one, the sizes may change.
    let mut cuts: Vec<f64> = vec![0.0, length];
    for other in outlines.iter().flatten() {
        if matches!(other, PathSeg::Line(_)) {
            for end in [other.start(), other.end()] {
                let (along, off) = (dir.dot(end - line.p0), dir.cross(end - line.p0).abs());
                if off < NEARBY && along > SHORT && along < length - SHORT {
                    cuts.push(along);
                }
            }
        }
    }
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| *a - *b < 1e-3);
    let mut found = Vec::new();
    for pair in cuts.windows(2) {
        let [from, to] = pair else { continue };
        let middle = line.eval(from.midpoint(*to) / length);
        let part = PathSeg::Line(line.subsegment(from / length..to / length));
        found.push((part, sharers(&seg, size, middle, outlines)));
    }
    if found.is_empty() { vec![(seg, sharers(&seg, size, seg.eval(0.5), outlines))] } else { found }
}

/// The sizes whose line a segment is at a place: its owner, and those that have no line of their own there because the
/// owner's is near enough. Of lines that are only near each other in a chain each is drawn that no owner covers.
fn sharers(seg: &PathSeg, size: usize, at: Point, outlines: &[Vec<PathSeg>]) -> Sizes {
    let first = owner(seg, size, at, outlines);
    let mut sizes = Sizes::one(first).and(Sizes::one(size));
    if first == size {
        for (other, segs) in outlines.iter().enumerate().skip(size + 1) {
            let there = segs.iter().find(|other| same_at(seg, other, at));
            if there.is_some_and(|there| owner(there, other, at, outlines) == size) {
                sizes = sizes.and(Sizes::one(other));
            }
        }
    }
    sizes
}

/// The smallest size whose own line this is at a place.
fn owner(seg: &PathSeg, size: usize, at: Point, outlines: &[Vec<PathSeg>]) -> usize {
    let smaller = outlines.iter().enumerate().take(size);
    let mut there =
        smaller.filter_map(|(other, segs)| Some((other, segs.iter().find(|other| same_at(seg, other, at))?)));
    there.find(|(other, segment)| owner(segment, *other, at, outlines) == *other).map_or(size, |(other, _)| other)
}

/// Whether two segments are the same line at a place on the first.
fn same_at(a: &PathSeg, b: &PathSeg, at: Point) -> bool {
    match (a, b) {
        (PathSeg::Line(a), PathSeg::Line(b)) => overlap(*a, *b).is_some_and(|(from, to)| {
            let along = (a.p1 - a.p0).dot(at - a.p0) / a.p0.distance(a.p1).max(1e-9);
            from <= along && along <= to
        }),
        (PathSeg::Line(_), _) | (_, PathSeg::Line(_)) => false,
        (a, b) => equal(a, b),
    }
}

/// The stretch of a line on which another lies, as distances from its start.
fn overlap(line: Line, other: Line) -> Option<(f64, f64)> {
    let length = line.p0.distance(line.p1);
    let dir = (line.p1 - line.p0) / length.max(1e-9);
    let off = |p: Point| dir.cross(p - line.p0).abs();
    let along = |p: Point| dir.dot(p - line.p0);
    let (a, b) = (along(other.p0), along(other.p1));
    let (from, to) = (a.min(b).max(0.0), a.max(b).min(length));
    // Where they overlap, not at the far ends of the other.
    let there = |at: f64| {
        let share = if (b - a).abs() < 1e-9 { 0.0 } else { (at - a) / (b - a) };
        off(other.p0.lerp(other.p1, share))
    };
    (to - from > SHORT && there(from) < SAME && there(to) < SAME).then_some((from, to))
}

/// Whether two curves are the same, drawn either way.
fn equal(a: &PathSeg, b: &PathSeg) -> bool {
    let near = |b: &PathSeg| {
        let (PathSeg::Cubic(a), PathSeg::Cubic(b)) = (a, b) else { return false };
        // Finer than for straight lines: what many curves differ by adds up along an edge.
        [(a.p0, b.p0), (a.p1, b.p1), (a.p2, b.p2), (a.p3, b.p3)].iter().all(|(a, b)| a.distance(*b) < SAME / 8.0)
    };
    near(b) || near(&b.reverse())
}

#[cfg(test)]
mod tests {
    use kurbo::Shape;

    use super::*;

    fn rectangle(width: f64, height: f64) -> Vec<PathSeg> {
        Rect::new(0.0, 0.0, width, height).to_path(0.1).segments().collect()
    }

    /// Two rectangles with one corner in common share its two sides as far as the smaller one reaches.
    #[test]
    fn shared_sides_come_once() {
        let lines = shared(&[rectangle(100.0, 60.0), rectangle(120.0, 60.0)]);
        let both = Sizes::one(0).and(Sizes::one(1));
        let length = |sizes: Sizes| -> f64 {
            lines.iter().filter(|(_, of)| *of == sizes).map(|(path, _)| path.perimeter(1e-9)).sum()
        };
        // Top and bottom for 100, and the left side.
        assert!((length(both) - 260.0).abs() < 1e-6, "{lines:?}");
        assert!((length(Sizes::one(0)) - 60.0).abs() < 1e-6);
        assert!((length(Sizes::one(1)) - (20.0 + 60.0 + 20.0)).abs() < 1e-6);
    }

    #[test]
    fn outlines_that_are_the_same_are_one_closed_line() {
        let lines = shared(&[rectangle(100.0, 60.0), rectangle(100.0, 60.0)]);
        assert_eq!(lines.len(), 1);
        assert!((lines[0].0.perimeter(1e-9) - 320.0).abs() < 1e-6);
        assert_eq!(lines[0].1.len(), 2);
    }

    /// Three lines, each a hair from the next: whichever is not near enough to the first has its own, and none is lost.
    #[test]
    fn chains_lose_nothing() {
        let at = |y: f64| vec![PathSeg::Line(Line::new((0.0, y), (100.0, y)))];
        let lines = shared(&[at(0.0), at(0.015), at(0.03)]);
        let all = lines.iter().fold(Sizes::ALWAYS, |all, (_, sizes)| all.and(*sizes));
        assert_eq!(all.len(), 3, "{lines:?}");
        assert_eq!(lines.len(), 2);
    }

    /// A line that only crosses another shares nothing with it.
    #[test]
    fn crossing_is_not_sharing() {
        let a = vec![PathSeg::Line(Line::new((0.0, 0.0), (100.0, 0.0)))];
        let b = vec![PathSeg::Line(Line::new((0.0, -1.0), (100.0, 1.0)))];
        assert!(shared(&[a, b]).iter().all(|(_, sizes)| sizes.len() == 1));
    }
}
