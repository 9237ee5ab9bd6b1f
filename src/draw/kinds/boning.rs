//! Boning channels, and a bone in its channel.

use kurbo::{BezPath, Point};

use super::super::figure::{Anchor, Drawn, Measure, Scale, Undrawable};
use super::super::geom::{line, polyline, pt, rect};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::sound;

/// A bone and its channel.
#[derive(Debug, Clone, PartialEq)]
pub struct Boning {
    /// Between the two rows of stitching.
    pub channel: Measure,
    /// Width of the bone.
    pub width: Measure,
    /// Length of the channel, seam line to seam line.
    pub length: Measure,
    /// Length of the bone.
    pub bone: Measure,
    /// What is left free at each end.
    pub clearance: Measure,
}

/// The channel stitched, and the bone going in.
///
/// # Errors
/// Where a length is nothing or not finite, or the bone is wider than its channel or longer.
pub fn boning(input: &Boning, look: &Look) -> Drawn {
    sound(&[
        ("channel", input.channel.length),
        ("width", input.width.length),
        ("length", input.length.length),
        ("bone", input.bone.length),
        ("clearance", input.clearance.length),
    ])?;
    if input.width.mm() > input.channel.mm() || input.bone.mm() > input.length.mm() {
        return Err(Undrawable("expected a bone narrower and shorter than its channel, but it is not".into()));
    }
    let mut s = Scene::new(look);
    let (wide, tall, seam) = (26.0, 66.0, 6.0);
    let half = 4.2;
    let bone = half * (input.width.mm() / input.channel.mm()).clamp(0.55, 0.95);
    let clear = ((tall - 2.0 * seam) * input.clearance.mm() / input.length.mm()).clamp(2.6, 7.0);
    for (i, x) in [0.0, 54.0].into_iter().enumerate() {
        s.cloth(rect(x, 0.0, x + wide, tall), Up::Under, DOWN);
        s.cut(line(pt(x, 0.0), pt(x + wide, 0.0)));
        s.cut(line(pt(x, tall), pt(x + wide, tall)));
        for side in [x, x + wide] {
            s.stroke(line(pt(side, 0.0), pt(side, tall)), Pen::THIN);
        }
        let mid = x + wide / 2.0;
        s.keep_clear(kurbo::Rect::new(mid - half - 1.2, -1.0, mid + half + 1.2, tall + 1.0));
        for y in [seam, tall - seam] {
            s.seam_line(line(pt(x, y), pt(x + wide, y)));
        }
        for side in [mid - half, mid + half] {
            s.machine(line(pt(side, 0.0), pt(side, tall)));
        }
        if i == 1 {
            draw_bone(&mut s, mid, bone, seam + clear, tall - seam - clear);
        } else {
            let top = -10.0;
            draw_bone(&mut s, mid, bone, top - 14.0, seam + 20.0);
            s.arrow(&[pt(mid + half + 4.0, top - 10.0), pt(mid + half + 4.0, top + 2.0)]);
        }
    }
    let mid = 54.0 + wide / 2.0;
    s.dim(pt(wide / 2.0 - half, tall + 0.5), pt(wide / 2.0 + half, tall + 0.5), 3.6, look.set(&input.channel));
    s.dim(pt(mid - half, tall + 0.5), pt(mid + half, tall + 0.5), 3.6, format!("bone {} wide", look.set(&input.width)));
    s.dim(pt(54.0 + wide, tall - seam), pt(54.0 + wide, seam), 15.0, look.two(&input.length));
    s.note(Side::Right, pt(mid, seam + clear * 0.5), format!("{} free at each end", look.set(&input.clearance)));
    s.note(Side::Right, pt(mid + bone * 0.4, tall * 0.66), format!("bone {}", look.set(&input.bone)));
    s.note(Side::Left, pt(wide / 2.0 - half, tall * 0.6), "two rows of stitching through both layers");
    s.note(Side::Left, pt(0.3, seam), "seam line");
    s.note(Side::Left, pt(wide / 2.0 - bone, -18.0), "rounded end first");
    s.title(pt(54.0 + wide / 2.0, -3.0), Anchor::Middle, "in place");
    let caption = format!(
        "A channel {} wide between two rows of stitching; the bone, {} long, ends {} short of each seam line.",
        look.set(&input.channel),
        look.set(&input.bone),
        look.set(&input.clearance)
    );
    let alt = format!(
        "Two drawings of the lining side. At the left a channel {} wide runs from top to bottom between two rows of machine stitching; a flat bone {} wide, its \
         ends rounded, is being pushed in from the top. At the right the bone, {} long, lies in its channel, which measures {} from seam line to seam line; it \
         stops {} before the seam line at each end, so that nobody sews over it.",
        look.say(&input.channel),
        look.say(&input.width),
        look.say(&input.bone),
        look.say(&input.length),
        look.say(&input.clearance)
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}

fn draw_bone(s: &mut Scene, x: f64, half: f64, top: f64, foot: f64) {
    let mut path = BezPath::new();
    let k = half * 1.2;
    path.move_to(pt(x - half, top + k));
    path.curve_to(pt(x - half, top), pt(x + half, top), pt(x + half, top + k));
    path.line_to(pt(x + half, foot - k));
    path.curve_to(pt(x + half, foot), pt(x - half, foot), pt(x - half, foot - k));
    path.close_path();
    s.fill(path.clone(), Paint::Pale);
    s.stroke(path, Pen::FOLD);
    let gleam: Vec<Point> = vec![pt(x - half * 0.35, top + k), pt(x - half * 0.35, foot - k)];
    s.stroke(polyline(&gleam), Pen { paint: Paint::White, width: 0.8, ..Pen::THIN });
}
