//! Two pieces laid right sides together, the seam to be sewn picked out.

use kurbo::{Affine, BezPath, Point, Shape, Vec2};

use super::super::figure::{Drawn, KeyEntry, Measure, Scale};
use super::super::geom::{along, length, right_of};
use super::super::hand::{PEEP, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{scale_for, sound};
use super::piece::{Notch, outline_box};

/// Two pieces laid together.
#[derive(Debug, Clone, PartialEq)]
pub struct Together {
    /// Name of the piece on top.
    pub over: String,
    /// Name of the piece under it.
    pub under: String,
    /// Cut line of the piece on top, closed, mm.
    pub over_cut: BezPath,
    /// Cut line of the piece under it, moved and mirrored so that the seam lies on the seam.
    pub under_cut: BezPath,
    /// The seam lines to be sewn, each with its name.
    pub seams: Vec<(String, BezPath)>,
    /// Allowance of the seams.
    pub allowance: Measure,
    /// Notches that meet.
    pub notches: Vec<Notch>,
    /// Grain of the upper piece.
    pub grain: Vec2,
    /// Wrong sides together, as for the first pass of a French seam.
    pub wrong_sides: bool,
    /// Width and height of paper the pieces may take, mm.
    pub room: (f64, f64),
}

/// Two pieces laid together, seam picked out, to scale.
///
/// # Errors
/// Where an outline encloses nothing, or a length is nothing or not finite.
pub fn together(input: &Together, look: &Look) -> Drawn {
    sound(&[("allowance", input.allowance.length)])?;
    let one = outline_box(&input.over_cut, "an upper cut line")?;
    let two = outline_box(&input.under_cut, "an under cut line")?;
    let all = one.union(two);
    let n = scale_for(all.width(), all.height(), input.room);
    let to = Affine::scale(1.0 / n);
    let mut s = Scene::new(look);
    let (over, under) = (to * input.over_cut.clone(), to * input.under_cut.clone());
    let (top, below) = if input.wrong_sides { (Up::Right, Up::Wrong) } else { (Up::Wrong, Up::Right) };
    s.behind(&under, below, input.grain);
    s.cut_cloth(over.clone(), top, input.grain);
    let centre = over.bounding_box().center();
    for (name, path) in &input.seams {
        let seam = to * path.clone();
        s.stroke(seam.clone(), Pen { class: "glow", width: 2.2, paint: Paint::Tint, dash: &[] });
        s.uses(KeyEntry::MachineStitch);
        s.named(seam.clone(), Pen { width: 0.5, ..Pen::MACHINE }, name.clone());
        for (at, sign) in [(0.0, 1.0), (1.0, -1.0)] {
            let total = length(&seam);
            let (p, d) = along(&seam, total * at);
            let back = d * (1.2 * sign);
            let across = right_of(d) * 0.6;
            s.stroke(
                super::super::geom::polyline(&[p + across, p + back + across, p + back - across, p - across]),
                Pen::THIN,
            );
        }
        let (mid, d) = along(&seam, length(&seam) / 2.0);
        let mut out = right_of(d);
        if out.dot(mid - centre) < 0.0 {
            out = -out;
        }
        pins(&mut s, &seam, out);
        let side = facing(out);
        s.note(side, mid, format!("{name}: stitch {} from the raw edge", look.set(&input.allowance)));
    }
    for notch in &input.notches {
        super::piece::draw_notch(&mut s, to * notch.at, notch.out, notch.count, n);
    }
    let over_box = over.bounding_box();
    let taken: Vec<Side> = input
        .seams
        .iter()
        .map(|(_, path)| {
            let seam = to * path.clone();
            let (mid, d) = along(&seam, length(&seam) / 2.0);
            let out = right_of(d);
            facing(if out.dot(mid - centre) < 0.0 { -out } else { out })
        })
        .collect();
    // Above the pieces there is most room, unless a seam is named there.
    let above = !taken.contains(&Side::Above);
    let spot = inner_point(&over, if above { [0.15, 0.2, 0.3, 0.4, 0.5] } else { [0.5, 0.4, 0.6, 0.3, 0.7] });
    let side = if above {
        Side::Above
    } else if (spot.x - over_box.x0) < over_box.width() / 2.0 {
        Side::Left
    } else {
        Side::Right
    };
    let turned = if input.wrong_sides { "right" } else { "wrong" };
    s.note(side, spot, format!("{}, {turned} side up", input.over));
    let peep = peep_point(&over, &under);
    s.note(Side::Below, peep, format!("{} beneath, peeping out", input.under));
    let sides = if input.wrong_sides { "wrong" } else { "right" };
    let names: Vec<&str> = input.seams.iter().map(|(name, _)| name.as_str()).collect();
    let names = names.join(" and ");
    let on = if input.over == input.under { "another like it" } else { input.under.as_str() };
    let caption = format!(
        "{} on {on}, {sides} sides together: stitch along the {names}, {} from the raw edge.",
        input.over,
        look.set(&input.allowance)
    );
    let alt = format!(
        "Two pieces lie on each other with their {sides} sides together: {} on top, its {turned} side up; {} beneath, drawn peeping out below and \
         at the right so that it can be seen. Along the {names} the raw edges are level. The seam is pinned with pins across it, and a line of machine \
         stitching is picked out {} inside the raw edges, fastened at both ends.{}",
        input.over,
        input.under,
        look.say(&input.allowance),
        if input.notches.is_empty() { "" } else { " The notches of both pieces meet." }
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

pub(crate) fn facing(out: Vec2) -> Side {
    if out.x.abs() > out.y.abs() * 0.8 {
        if out.x > 0.0 { Side::Right } else { Side::Left }
    } else if out.y > 0.0 {
        Side::Below
    } else {
        Side::Above
    }
}

/// Pins across a seam, heads outward.
fn pins(s: &mut Scene, seam: &BezPath, out: Vec2) {
    let total = length(seam);
    for t in [0.14, 0.38, 0.62, 0.86] {
        let (p, d) = along(seam, total * t);
        let mut n = right_of(d);
        if n.dot(out) < 0.0 {
            n = -n;
        }
        s.pin(p + n * 3.4, -n, 6.4);
    }
}

/// A point within the outline at one of these shares of its height, left of its middle where that is inside.
fn inner_point(path: &BezPath, heights: [f64; 5]) -> Point {
    let area = path.bounding_box();
    let outline = super::super::geom::flat(path, 0.05);
    for v in heights {
        for u in [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8] {
            let p = Point::new(area.x0 + area.width() * u, area.y0 + area.height() * v);
            if super::super::weave::inside(&outline, p) {
                return p;
            }
        }
    }
    area.center()
}

/// A point where the under piece peeps out below.
pub(crate) fn peep_point(over: &BezPath, under: &BezPath) -> Point {
    let front = super::super::geom::flat(over, 0.05);
    let moved = Affine::translate((PEEP, PEEP)) * under.clone();
    let back = super::super::geom::flat(&moved, 0.05);
    let area = moved.bounding_box();
    let mut best = Point::new(area.x0 + area.width() * 0.3, area.y1);
    for i in 1..40 {
        let x = area.x0 + area.width() * (0.12 + 0.76 * f64::from(i) / 40.0);
        let mut y = area.y1;
        while y > area.y0 {
            let p = Point::new(x, y);
            if super::super::weave::inside(&back, p) {
                if !super::super::weave::inside(&front, p) {
                    best = Point::new(x, y - 0.6);
                    return best;
                }
                break;
            }
            y -= 0.2;
        }
    }
    best
}
