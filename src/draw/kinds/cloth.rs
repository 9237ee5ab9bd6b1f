//! Cloth before it is a garment: basting, blocks, motifs, bias strips.

use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

use crate::units::Length;

use super::super::figure::{Anchor, Drawn, KeyEntry, LabelStyle, Measure, Scale, Undrawable};
use super::super::geom::{along, circle, closed, flat, length, line, pt, real, rect, right_of, whole};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::weave::inside;
use super::super::words::{counted, many, scale_for, sound};
use super::piece::outline_box;

/// Two layers held together by rows of basting.
#[derive(Debug, Clone, PartialEq)]
pub struct Basting {
    /// Name of the piece.
    pub name: String,
    /// Its cut line, mm.
    pub cut: BezPath,
    /// Distance between rows.
    pub gap: Measure,
    /// What the layer beneath is: `cotton flannel`.
    pub under: String,
    /// Paper it may take, mm.
    pub room: (f64, f64),
}

/// Layers basted together, to scale.
///
/// # Errors
/// Where the outline encloses nothing or the gap is nothing or not finite.
pub fn basting(input: &Basting, look: &Look) -> Drawn {
    sound(&[("gap", input.gap.length)])?;
    let area = outline_box(&input.cut, "a cut line")?;
    let n = scale_for(area.width(), area.height(), input.room);
    let cut = Affine::scale(1.0 / n) * input.cut.clone();
    let mut s = Scene::new(look);
    s.behind(&cut, Up::Under, DOWN);
    s.cut_cloth(cut.clone(), Up::Right, DOWN);
    let frame = cut.bounding_box();
    let outline = flat(&cut, 0.05);
    let rows = whole(area.width() / input.gap.mm(), 2, 12);
    s.uses(KeyEntry::HandStitch);
    let mut target = frame.center();
    for i in 0..rows {
        let x = frame.x0 + frame.width() * (real(i) + 0.5) / real(rows);
        let mut points: Vec<Point> = Vec::new();
        let count = whole(frame.height() / 2.4, 4, 200);
        for j in 1..count {
            let p = pt(x, frame.y0 + frame.height() * real(j) / real(count));
            if inside(&outline, p + Vec2::new(0.0, 1.5)) && inside(&outline, p - Vec2::new(0.0, 1.5)) {
                points.push(p);
            }
        }
        if let Some(first) = points.first() {
            s.knot(*first);
        }
        s.running(&points);
        if i + 1 == rows
            && let Some(p) = points.get(points.len() / 2)
        {
            target = *p;
        }
    }
    let xs = |i: usize| frame.x0 + frame.width() * (real(i) + 0.5) / real(rows);
    s.dim(pt(xs(0), frame.y0), pt(xs(1), frame.y0), -3.5, look.set(&input.gap));
    s.note(Side::Right, target, "long loose stitches, from the middle outward");
    s.note(
        Side::Below,
        pt(frame.x0 + frame.width() * 0.72, frame.y0 + frame.height() * 0.85),
        format!("{}, right side up", input.name),
    );
    s.note(Side::Below, super::together::peep_point(&cut, &cut), format!("{} beneath", input.under));
    let caption =
        format!("{} basted to the {}: rows {} apart, worked flat.", input.name, input.under, look.set(&input.gap));
    let alt = format!(
        "{} lies right side up on a layer of {}, which peeps out at the lower edge and the right. {} of long loose hand stitches run from top to bottom \
         through both layers, about {} apart, knotted at the top.",
        input.name,
        input.under,
        super::super::words::capital(&many(rows, "row", "rows")),
        look.say(&input.gap)
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

/// A block of cloth with a margin round the piece to be cut from it later.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Name of the piece.
    pub name: String,
    /// Cut line of the piece, mm.
    pub cut: BezPath,
    /// Margin all round.
    pub margin: Measure,
    /// Width of the block.
    pub width: Measure,
    /// Height of the block.
    pub height: Measure,
    /// What is done to the block before trimming: `printed`, `dyed`, `pleated`.
    pub why: String,
    /// Paper it may take, mm.
    pub room: (f64, f64),
}

/// The block with the piece marked on it, to scale.
///
/// # Errors
/// Where the outline encloses nothing, a length is nothing or not finite, or the block is less than piece and margins.
pub fn block(input: &Block, look: &Look) -> Drawn {
    sound(&[("margin", input.margin.length), ("width", input.width.length), ("height", input.height.length)])?;
    let area = outline_box(&input.cut, "a cut line")?;
    let (w, h) = (input.width.mm(), input.height.mm());
    if area.width() > w + 0.5 || area.height() > h + 0.5 {
        return Err(Undrawable("expected a block larger than its piece, but it is smaller".into()));
    }
    let n = scale_for(w, h, input.room);
    let mut s = Scene::new(look);
    let frame = Rect::from_center_size(area.center(), (w, h));
    let to = Affine::scale(1.0 / n);
    let block = to * frame.to_path(0.1);
    s.cloth(block.clone(), Up::Right, DOWN);
    s.named(block, Pen::CUT, "block");
    s.uses(KeyEntry::CutEdge);
    let cut = to * input.cut.clone();
    s.stroke(cut.clone(), Pen { class: "mark", width: 0.35, ..Pen::MARK });
    s.uses(KeyEntry::Mark);
    let f = Rect::new(frame.x0 / n, frame.y0 / n, frame.x1 / n, frame.y1 / n);
    let c = cut.bounding_box();
    s.dim(pt(f.x0, f.y0), pt(f.x1, f.y0), -4.0, look.set(&input.width));
    s.dim(pt(f.x0, f.y1), pt(f.x0, f.y0), -4.0, look.two(&input.height));
    s.dim(pt(c.x1, f.y1 - 0.4), pt(f.x1, f.y1 - 0.4), 4.0, format!("margin {}", look.set(&input.margin)));
    s.text_mid(
        c.center(),
        Anchor::Middle,
        LabelStyle::Strong,
        super::super::metric::wrap(&input.name, 8.0, (c.width() * 0.6).max(14.0)),
    );
    let (p, _) = along(&cut, length(&cut) * 0.3);
    s.note(Side::Right, p, format!("piece, cut after it is {}", input.why));
    let caption = format!(
        "{} is cut as a block with a margin of {} all round, {}, and only then trimmed.",
        input.name,
        look.set(&input.margin),
        input.why
    );
    let alt = format!(
        "A straight block of cloth, {} wide and {} high. The outline of the {} is marked on it in dots, with {} of cloth left all round. The block is {} first; \
         the dotted line is cut afterwards.",
        look.say(&input.width),
        look.say(&input.height),
        input.name,
        look.say(&input.margin),
        input.why
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

/// A motif repeated over one piece, or over two that are sewn together.
#[derive(Debug, Clone, PartialEq)]
pub struct Motifs {
    /// Name, cut line and place of each piece, mm; two pieces stand side by side as they are sewn.
    pub pieces: Vec<(String, BezPath)>,
    /// The seam between two pieces, on the same plane.
    pub seam: Option<(String, BezPath)>,
    /// Repeat across and down.
    pub repeat: (Measure, Measure),
    /// A motif centre, mm.
    pub origin: (Length, Length),
    /// Every second column dropped by half.
    pub half_drop: bool,
    /// Paper it may take, mm.
    pub room: (f64, f64),
}

/// Motifs on their pieces, to scale.
///
/// # Errors
/// Where there are no pieces or more than two, an outline encloses nothing, a length is nothing or not finite, or more than
/// 2000 motifs would be drawn.
pub fn motifs(input: &Motifs, look: &Look) -> Drawn {
    let (across, down) = (&input.repeat.0, &input.repeat.1);
    sound(&[("repeat across", across.length), ("repeat down", down.length)])?;
    counted("pieces", input.pieces.len(), 1, 2)?;
    let (ox, oy) = (input.origin.0.to_mm(), input.origin.1.to_mm());
    if !ox.is_finite() || !oy.is_finite() {
        return Err(Undrawable("expected an origin at finite distances".into()));
    }
    let mut all: Option<Rect> = None;
    for (name, cut) in &input.pieces {
        let area = outline_box(cut, name)?;
        all = Some(all.map_or(area, |a| a.union(area)));
    }
    let all = all.unwrap_or_default();
    if (all.width() / across.mm() + 1.0) * (all.height() / down.mm() + 1.0) > 2000.0 {
        return Err(Undrawable("expected at most 2000 motifs on the pieces, but there are more".into()));
    }
    let n = scale_for(all.width(), all.height(), input.room);
    let to = Affine::scale(1.0 / n);
    let mut s = Scene::new(look);
    let size = (across.mm().min(down.mm()) / n * 0.3).clamp(0.9, 5.0);
    let mut count = 0_usize;
    let mut sample = None;
    for (name, cut) in &input.pieces {
        let path = to * cut.clone();
        s.cut_cloth(path.clone(), Up::Right, DOWN);
        let outline = flat(&path, 0.05);
        let mut drawn = None;
        let (i0, i1) = span(all.x0 - ox, all.x1 - ox, across.mm());
        let (j0, j1) = span(all.y0 - oy, all.y1 - oy, down.mm());
        for i in i0..=i1 {
            for j in j0..=j1 {
                let drop = if input.half_drop && i.rem_euclid(2) == 1 { down.mm() / 2.0 } else { 0.0 };
                #[allow(clippy::cast_precision_loss)]
                let p = pt((ox + across.mm() * i as f64) / n, (oy + down.mm() * j as f64 + drop) / n);
                let at = s.items.len();
                if path.bounding_box().inflate(size, size).contains(p) {
                    sprig(&mut s, p, size);
                    if drawn.is_none() {
                        drawn = Some(at);
                    }
                }
                if inside(&outline, p) {
                    count += 1;
                    sample.get_or_insert(p);
                }
            }
        }
        if let Some(start) = drawn {
            s.clip_since(start, path.clone());
        }
        s.cut(path.clone());
        let area = path.bounding_box();
        let side = if area.center().x <= all.center().x / n { Side::Left } else { Side::Right };
        let edge = if side == Side::Left { area.x0 + 0.3 } else { area.x1 - 0.3 };
        s.note(side, pt(edge, area.center().y), name.clone());
    }
    if let Some((name, seam)) = &input.seam {
        let path = to * seam.clone();
        s.machine(path.clone());
        s.note(Side::Below, along(&path, length(&path)).0, format!("{name}: the motifs run on across it"));
    }
    if let Some(p) = sample {
        s.dim(pt(p.x, all.y0 / n - 0.5), pt(p.x + across.mm() / n, all.y0 / n - 0.5), -4.0, look.set(across));
        s.dim(pt(all.x1 / n + 0.5, p.y + down.mm() / n), pt(all.x1 / n + 0.5, p.y), 4.0, look.two(down));
    }
    let drop = if input.half_drop { ", every second column dropped by half" } else { "" };
    let matched = input.seam.as_ref().map_or_else(String::new, |(name, _)| {
        format!(" They share one origin, so the pattern runs on across the {name}.")
    });
    let names: Vec<&str> = input.pieces.iter().map(|(name, _)| name.as_str()).collect();
    let caption = format!(
        "The motif on {}: {} across and {} down{drop}.{matched}",
        names.join(" and "),
        look.set(across),
        look.set(down)
    );
    let alt = format!(
        "{} with a small motif repeated over the right side, centre to centre {} across and {} down{drop}. {} lie inside the cut edges.{matched}",
        names.join(" and "),
        look.say(across),
        look.say(down),
        super::super::words::capital(&many(count, "motif centre", "motif centres"))
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

#[allow(clippy::cast_possible_truncation)]
fn span(low: f64, high: f64, step: f64) -> (i64, i64) {
    ((low / step).floor() as i64, (high / step).ceil() as i64)
}

/// A sprig of four petals.
fn sprig(s: &mut Scene, at: Point, size: f64) {
    for i in 0..4 {
        let d = Vec2::from_angle(std::f64::consts::FRAC_PI_2 * f64::from(i) + std::f64::consts::FRAC_PI_4);
        let n = right_of(d) * (size * 0.42);
        let mut petal = BezPath::new();
        petal.move_to(at);
        petal.curve_to(at + d * (size * 0.5) + n, at + d * size + n * 0.4, at + d * size);
        petal.curve_to(at + d * size - n * 0.4, at + d * (size * 0.5) - n, at);
        petal.close_path();
        s.fill(petal.clone(), Paint::White);
        s.stroke(petal, Pen { class: "motif", ..Pen::THIN });
    }
    s.fill(circle(at, (size * 0.14).max(0.25)), Paint::Ink);
}

/// Bias strips cut from a rectangle.
#[derive(Debug, Clone, PartialEq)]
pub struct BiasStrips {
    /// Width of the cloth used, along the crossgrain.
    pub across: Measure,
    /// Length of the cloth used, along the selvedge.
    pub along: Measure,
    /// Width of a strip, square to its edges.
    pub strip: Measure,
    /// What a strip takes along the selvedge.
    pub slant: Measure,
    /// How many strips are cut.
    pub count: usize,
    /// Seam allowance of a join.
    pub join: Measure,
}

/// Strips marked at 45 degrees on the cloth, to scale, and beside it two strips joined.
///
/// # Errors
/// Where a length is nothing or not finite, or the strips are none or more than 200.
pub fn bias_strips(input: &BiasStrips, look: &Look) -> Drawn {
    sound(&[
        ("across", input.across.length),
        ("along", input.along.length),
        ("strip", input.strip.length),
        ("slant", input.slant.length),
        ("join", input.join.length),
    ])?;
    counted("count", input.count, 1, 200)?;
    let n = scale_for(input.across.mm(), input.along.mm(), (60.0, 60.0));
    let (w, h) = (input.across.mm() / n, input.along.mm() / n);
    let step = input.slant.mm() / n;
    let mut s = Scene::new(look);
    s.cloth(rect(0.0, 0.0, w, h), Up::Right, DOWN);
    // Lines y = c - x, around the middle so that whole strips are the longest.
    let middle = f64::midpoint(w, h);
    let first = middle - step * real(input.count) / 2.0;
    for i in 0..=input.count {
        let c = first + step * real(i);
        let (a, b) = (pt(c.min(w), c - c.min(w)), pt(c - c.min(h), c.min(h)));
        if c > 0.0 && c < w + h {
            s.named(line(a, b), Pen { class: "strip", width: 0.35, ..Pen::SEAM }, format!("strip {i}"));
        }
    }
    s.cut(line(pt(0.0, 0.0), pt(w, 0.0)));
    s.cut(line(pt(0.0, h), pt(w, h)));
    for x in [0.0, w] {
        s.fold(line(pt(x, 0.0), pt(x, h)));
    }
    let (gx, gy) = (w * 0.12, h * 0.12);
    s.grain(pt(gx, gy), pt(gx, gy + (h * 0.24).max(7.0)));
    s.dim(pt(0.0, 0.0), pt(w, 0.0), -4.0, look.set(&input.across));
    s.dim(pt(0.0, h), pt(0.0, 0.0), -4.0, look.two(&input.along));
    let c = first + step;
    if c - step > 0.0 && c < h {
        s.dim(pt(0.0, c), pt(0.0, c - step), -17.0, look.two(&input.slant));
    } else {
        let half = (first + step * 0.5) / 2.0;
        s.note(
            Side::Below,
            pt(half.min(w * 0.9), half.min(h * 0.98)),
            format!("each strip takes {} along the selvedge", look.set(&input.slant)),
        );
    }
    joined(&mut s, input, look, pt(w + 22.0, h / 2.0));
    let strips = many(input.count, "strip", "strips");
    let caption = format!(
        "{} {} wide, cut at 45 degrees and joined at right angles.",
        super::super::words::capital(&strips),
        look.set(&input.strip)
    );
    let alt = format!(
        "Left, a piece of cloth {} across and {} along the selvedge, grain up and down. {} are marked on the slant at 45 degrees, each {} wide measured square \
         to its edges, which takes {} along the selvedge. Right, two strips are laid right sides together at a right angle, ends level, and stitched across from corner to \
         corner with {} of allowance, so that they run on straight when opened.",
        look.say(&input.across),
        look.say(&input.along),
        super::super::words::capital(&strips),
        look.say(&input.strip),
        look.say(&input.slant),
        look.say(&input.join)
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

/// Two strips at a right angle, stitched from notch to notch.
fn joined(s: &mut Scene, input: &BiasStrips, look: &Look, at: Point) {
    let wide = 9.0;
    let (x, y) = (at.x, at.y - 6.0);
    let slant = Vec2::new(1.0, 1.0) * std::f64::consts::FRAC_1_SQRT_2;
    // Lower strip, right side up, runs to the right; upper strip, wrong side up, runs down. Ends are cut on the grain.
    let lower = closed(&[pt(x - 3.0, y), pt(x + 32.0, y), pt(x + 32.0, y + wide), pt(x - 3.0 + wide, y + wide)]);
    s.cut_cloth(lower, Up::Right, slant);
    let upper = closed(&[pt(x, y - 3.0), pt(x + wide, y - 3.0 + wide), pt(x + wide, y + 30.0), pt(x, y + 30.0)]);
    s.cut_cloth(upper, Up::Wrong, slant);
    s.machine(line(pt(x, y), pt(x + wide, y + wide)));
    s.note(Side::Right, pt(x + 24.0, y + wide * 0.5), "strip, right side up");
    s.note(Side::Right, pt(x + wide * 0.7, y + 22.0), "strip, wrong side up");
    s.note(
        Side::Right,
        pt(x + wide * 0.66, y + wide * 0.66),
        format!("stitched {} from the ends, from notch to notch", look.set(&input.join)),
    );
}
