//! Lines beside lines: the cut line from the seam line.

use kurbo::offset::offset_cubic;
use kurbo::{BezPath, Line, ParamCurve, PathSeg, Point, Vec2};

use super::cross::{crosses_itself, crossings};
use super::path::{Path, SAME};
use super::trim;

/// How far an offset curve may be from the true one, mm; a tenth of what is promised.
const TOLERANCE: f64 = 0.005;
/// A mitre whose point is farther from the corner than this many allowances is clipped.
const SHARPEST: f64 = 2.5;

/// What the allowance does at a corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Corner {
    /// Both cut lines run on until they meet.
    Mitred,
    /// Square to the seam line of the edge that asks for it.
    Squared,
    /// The neighbour's cut line mirrored at the seam line of the edge that asks for it.
    FoldedBack,
    /// Cut across.
    Clipped,
}

/// An edge of the seam line with its allowance.
#[derive(Debug, Clone)]
pub struct Side {
    /// The seam line.
    pub path: Path,
    /// The allowance, mm; inside the piece where it is below nothing.
    pub width: f64,
    /// What this edge asks for at its start.
    pub start: Option<Corner>,
    /// What this edge asks for at its end.
    pub end: Option<Corner>,
    /// Whether it lies on the fold, so that nothing is mirrored at it.
    pub fold: bool,
}

/// A cut line.
#[derive(Debug, Clone, PartialEq)]
pub struct CutLine {
    /// The line, closed.
    pub path: Path,
    /// The part of it that belongs to each edge, where nothing was trimmed.
    pub runs: Vec<Path>,
    /// Whether allowances ran into each other and were trimmed.
    pub trimmed: bool,
}

/// Why there is no cut line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoCutLine {
    /// The allowances close a hole or fall apart.
    FallsApart,
    /// There is nothing left of it.
    Nothing,
}

/// The outward direction of a line that runs clockwise on the page.
pub(crate) fn outward(dir: Vec2) -> Vec2 {
    Vec2::new(dir.y, -dir.x)
}

/// The line beside a path, `by` mm to the left hand (outward, clockwise on the page). Corners within the path are mitred.
#[must_use]
pub fn beside(path: &Path, by: f64) -> Path {
    if by == 0.0 || path.is_empty() {
        return path.clone();
    }
    let sides: Vec<Path> = path.segs().iter().map(|seg| seg_beside(seg, by)).collect();
    let mut done = Path::default();
    let originals = path.segs();
    for (index, next) in sides.iter().enumerate() {
        if next.is_empty() {
            continue;
        }
        if done.is_empty() {
            done = next.clone();
            continue;
        }
        let corner = originals[index].start();
        let Joint { end, start, points } = mitre(&done, next, corner, by.abs(), by.abs());
        let head = run(&done, f64::NEG_INFINITY, end - reach(by.abs()));
        let tail = run(next, start - reach(by.abs()), f64::INFINITY);
        done = head.then(&Path::straight(&points)).then(&tail);
    }
    done.joined_up()
}

/// How far lines are run on in search of their meeting, mm.
fn reach(width: f64) -> f64 {
    10.0 * width + 1.0
}

/// The part of a path between two distances, which may lie before its start or past its end: it is run on straight.
fn run(path: &Path, from: f64, to: f64) -> Path {
    let length = path.length();
    let mut segs: Vec<PathSeg> = Vec::new();
    if from < 0.0 && from.is_finite() {
        segs.push(PathSeg::Line(Line::new(path.at(from).0, path.start())));
    }
    segs.extend(path.slice(from.max(0.0), to.min(length)).segs());
    if to > length && to.is_finite() {
        segs.push(PathSeg::Line(Line::new(path.end(), path.at(to).0)));
    }
    Path::of(segs)
}

fn seg_beside(seg: &PathSeg, by: f64) -> Path {
    match seg {
        PathSeg::Line(line) => {
            let dir = line.p1 - line.p0;
            let out = outward(dir / dir.hypot().max(1e-12)) * by;
            Path::straight(&[line.p0 + out, line.p1 + out])
        }
        other => {
            let cubic = other.to_cubic();
            let chord = cubic.p3 - cubic.p0;
            let flat = |p: Point| chord.cross(p - cubic.p0).abs() < 1e-9 * chord.hypot2().max(1e-12);
            if flat(cubic.p1) && flat(cubic.p2) {
                let out = outward(chord / chord.hypot().max(1e-12)) * by;
                return Path::straight(&[cubic.p0 + out, cubic.p3 + out]);
            }
            let mut result = BezPath::new();
            // The library counts to the right hand on this page.
            offset_cubic(cubic, -by, TOLERANCE, &mut result);
            Path::of(result.segments())
        }
    }
}

/// How two lines are put together at a corner: the first is kept to `end` (mm along it run on backwards by `reach`),
/// then come the points, then the second from `start`.
#[derive(Debug, Clone)]
struct Joint {
    end: f64,
    start: f64,
    points: Vec<Point>,
}

fn plain(a: &Path, reach_a: f64, reach_b: f64, points: Vec<Point>) -> Joint {
    Joint { end: reach_a + a.length(), start: reach_b, points }
}

/// Both lines run on (or are cut back) to where they cross.
fn mitre(a: &Path, b: &Path, corner: Point, wide_a: f64, wide_b: f64) -> Joint {
    let far = reach(wide_a.max(wide_b));
    let (reach_a, reach_b) = (reach(wide_a), reach(wide_b));
    if a.end().distance(b.start()) < SAME {
        return plain(a, reach_a, reach_b, Vec::new());
    }
    let (long_a, long_b) = (run(a, -reach_a, a.length() + far), run(b, -far, b.length() + reach_b));
    let best =
        crossings(&long_a, &long_b).into_iter().min_by(|x, y| x.at.distance(corner).total_cmp(&y.at.distance(corner)));
    let turn = a.end_dir().cross(b.start_dir());
    let sharp = |at: Point| turn > 0.0 && at.distance(corner) > SHARPEST * wide_a.max(wide_b) + SAME;
    match best {
        Some(hit) if !sharp(hit.at) => Joint { end: hit.first, start: hit.second - far + reach_b, points: Vec::new() },
        Some(_) => clipped(a, b, corner, wide_a, wide_b),
        // A step from one width to another on a straight line, or an inner corner that is left to be trimmed.
        None => plain(a, reach_a, reach_b, Vec::new()),
    }
}

/// Cut across the corner, one allowance away from it, square to the line that halves its angle.
fn clipped(a: &Path, b: &Path, corner: Point, wide_a: f64, wide_b: f64) -> Joint {
    let (reach_a, reach_b) = (reach(wide_a), reach(wide_b));
    let out = a.end_dir() - b.start_dir();
    if out.hypot() < 1e-9 {
        return plain(a, reach_a, reach_b, Vec::new());
    }
    let out = out / out.hypot();
    let middle = corner + out * wide_a.max(wide_b);
    let along = Vec2::new(-out.y, out.x);
    let cut = Path::straight(&[middle - along * 1e4, middle + along * 1e4]);
    let far = 1e4;
    let first = crossings(&run(a, -reach_a, a.length() + far), &cut).into_iter().next_back();
    let second = crossings(&run(b, -far, b.length() + reach_b), &cut).into_iter().next();
    match (first, second) {
        (Some(first), Some(second)) => {
            Joint { end: first.first, start: second.first - far + reach_b, points: vec![first.at, second.at] }
        }
        _ => plain(a, reach_a, reach_b, Vec::new()),
    }
}

/// The allowance of the first line ends square to its seam line where that, run on, meets the second line.
fn squared(a: &Path, b: &Path, seam_a: &Path, wide_a: f64, wide_b: f64) -> Option<Joint> {
    let far = reach(wide_a.max(wide_b));
    let (reach_a, reach_b) = (reach(wide_a), reach(wide_b));
    let (corner, dir) = (seam_a.end(), seam_a.end_dir());
    let ahead = Path::straight(&[corner, corner + dir * far]);
    let hit = crossings(&ahead, &run(b, -far, b.length() + reach_b)).into_iter().next()?;
    let outer = hit.at + outward(dir) * wide_a;
    Some(Joint { end: reach_a + a.length(), start: hit.second - far + reach_b, points: vec![a.end(), outer, hit.at] })
}

/// The first line is mirrored at the seam line of the second, a hem, and so are its last inches.
fn folded_back(a: &Path, b: &Path, seam_b: &Path, wide_a: f64, wide_b: f64) -> Option<Joint> {
    let far = reach(wide_a.max(wide_b));
    let (reach_a, reach_b) = (reach(wide_a), reach(wide_b));
    let (corner, dir) = (seam_b.start(), seam_b.start_dir());
    let hem = Path::straight(&[corner - dir * far, corner + dir * far]);
    let long = run(a, -reach_a, a.length() + far);
    let turn =
        crossings(&long, &hem).into_iter().min_by(|x, y| x.at.distance(corner).total_cmp(&y.at.distance(corner)))?;
    let length = long.length();
    let back = run(&long, -far, turn.first.min(length)).reversed().moved(kurbo::Affine::reflect(corner, dir));
    let hit = crossings(&back, &run(b, -far, b.length() + reach_b)).into_iter().find(|hit| hit.first > SAME)?;
    let way = back.slice(0.0, hit.first).flat(TOLERANCE);
    Some(Joint { end: turn.first, start: hit.second - far + reach_b, points: way })
}

fn joint(a: (&Side, &Path), b: (&Side, &Path)) -> Joint {
    let ((side_a, line_a), (side_b, line_b)) = (a, b);
    let (wide_a, wide_b) = (side_a.width.abs(), side_b.width.abs());
    let corner = side_b.path.start();
    let usual = || mitre(line_a, line_b, corner, wide_a, wide_b);
    let turn = side_a.path.end_dir().cross(side_b.path.start_dir());
    if side_a.fold || side_b.fold || turn < 1e-6 {
        return usual();
    }
    let special = match (side_a.end, side_b.start) {
        (_, Some(Corner::FoldedBack)) => folded_back(line_a, line_b, &side_b.path, wide_a, wide_b),
        (Some(Corner::FoldedBack), _) => {
            folded_back(&line_b.reversed(), &line_a.reversed(), &side_a.path.reversed(), wide_b, wide_a)
                .map(|joint| other_way(joint, (line_a, wide_a), (line_b, wide_b)))
        }
        (Some(Corner::Squared), _) => squared(line_a, line_b, &side_a.path, wide_a, wide_b),
        (_, Some(Corner::Squared)) => squared_back(line_a, line_b, &side_b.path, wide_a, wide_b),
        (Some(Corner::Clipped), _) | (_, Some(Corner::Clipped)) => {
            Some(clipped(line_a, line_b, corner, wide_a, wide_b))
        }
        _ => None,
    };
    special.unwrap_or_else(usual)
}

/// A joint worked out with both lines reversed, for the lines as they run.
fn other_way(joint: Joint, (a, wide_a): (&Path, f64), (b, wide_b): (&Path, f64)) -> Joint {
    // Reversed, the second line came first: its distance was counted from its own end.
    let end = a.length() - (joint.start - reach(wide_a)) + reach(wide_a);
    let start = b.length() - (joint.end - reach(wide_b)) + reach(wide_b);
    Joint { end, start, points: joint.points.into_iter().rev().collect() }
}

fn squared_back(a: &Path, b: &Path, seam_b: &Path, wide_a: f64, wide_b: f64) -> Option<Joint> {
    let far = reach(wide_a.max(wide_b));
    let (reach_a, reach_b) = (reach(wide_a), reach(wide_b));
    let (corner, dir) = (seam_b.start(), seam_b.start_dir());
    let behind = Path::straight(&[corner, corner - dir * far]);
    let hit = crossings(&behind, &run(a, -reach_a, a.length() + far)).into_iter().next()?;
    let outer = hit.at + outward(dir) * wide_b;
    Some(Joint { end: hit.second, start: reach_b, points: vec![hit.at, outer, b.start()] })
}

/// The cut line about a seam line that runs clockwise on the page.
///
/// # Errors
/// Where the allowances run into each other so that no outline is left.
pub fn cut_line(sides: &[Side]) -> Result<CutLine, NoCutLine> {
    let lines: Vec<Path> = sides.iter().map(|side| beside(&side.path, side.width)).collect();
    let n = sides.len();
    if n == 0 {
        return Err(NoCutLine::Nothing);
    }
    let joints: Vec<Joint> =
        (0..n).map(|i| joint((&sides[i], &lines[i]), (&sides[(i + 1) % n], &lines[(i + 1) % n]))).collect();
    let mut runs = Vec::with_capacity(n);
    let mut whole = true;
    for i in 0..n {
        let far = reach(sides[i].width.abs());
        let (from, to) = (joints[(i + n - 1) % n].start - far, joints[i].end - far);
        if to < from + 1e-9 {
            whole = false;
        }
        runs.push(run(&lines[i], from, to).then(&Path::straight(&joints[i].points)).joined_up());
    }
    let path = runs.iter().fold(Path::default(), |path, run| path.then(run));
    if whole && path.end().distance(path.start()) < SAME {
        let path = snapped(path);
        if crosses_itself(&path.flat(0.02)).is_none() && path.signed_area() > 0.0 {
            return Ok(CutLine { path: path.joined_up(), runs, trimmed: false });
        }
    }
    let wedges: Vec<Vec<Point>> = (0..n)
        .map(|i| {
            wedge(
                &sides[(i + 1) % n],
                (&lines[i], &lines[(i + 1) % n]),
                &joints[i],
                (sides[i].width, sides[(i + 1) % n].width),
            )
        })
        .collect();
    trim::by_union(sides, &lines, wedges).map(|path| CutLine { path, runs: Vec::new(), trimmed: true })
}

/// The corner of an allowance between two strips, where the outline turns outward; elsewhere nothing.
fn wedge(next: &Side, (a, b): (&Path, &Path), joint: &Joint, (wide_a, wide_b): (f64, f64)) -> Vec<Point> {
    let corner = next.path.start();
    if a.end_dir().cross(b.start_dir()) <= 0.0 {
        return Vec::new();
    }
    let mut points = vec![corner, a.end(), a.at(joint.end - reach(wide_a.abs())).0];
    points.extend(&joint.points);
    points.extend([b.at(joint.start - reach(wide_b.abs())).0, b.start()]);
    points
}

/// The end set to exactly the start.
fn snapped(path: Path) -> Path {
    let start = path.start();
    let mut segs = path.segs();
    if let Some(last) = segs.last_mut() {
        match last {
            PathSeg::Line(line) => line.p1 = start,
            PathSeg::Quad(quad) => quad.p2 = start,
            PathSeg::Cubic(cubic) => cubic.p3 = start,
        }
    }
    Path::of(segs)
}

#[cfg(test)]
#[path = "tests/offset.rs"]
mod tests;
