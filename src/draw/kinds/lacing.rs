//! Lacing: eyelets down two edges, and the way of the lace.

use kurbo::{Point, Vec2};

use super::super::figure::{Anchor, Drawn, KeyEntry, LabelStyle, Measure, Scale, Undrawable};
use super::super::geom::{circle, closed, line, polyline, pt, real, rect, smooth};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, counted, many, scale_for, sound};

/// How the lace runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LaceWay {
    /// One lace in a spiral, from side to side and up, knotted at the foot.
    Spiral,
    /// Both ends cross between each pair of eyelets.
    Cross,
}

/// Two edges that are laced together.
#[derive(Debug, Clone, PartialEq)]
pub struct Lacing {
    /// Length of the edge.
    pub edge: Measure,
    /// Distance of each eyelet from the top, in order.
    pub places: Vec<Measure>,
    /// From the edge to the middle of an eyelet.
    pub inset: Measure,
    /// How far the edges stand apart when laced; none where they meet.
    pub gap: Option<Measure>,
    /// How the lace runs.
    pub way: LaceWay,
    /// What lies behind the lacing, in words: `stomacher`, `placket`.
    pub behind: Option<String>,
    /// Whether a bone lies between each edge and its eyelets.
    pub boned: bool,
}

/// Height of the drawing between top and foot, mm.
const TALL: f64 = 92.0;

/// Eyelets at their places along both edges, laced, with a detail of one eyelet as it is worked.
///
/// # Errors
/// Where a length is not finite, there are fewer than two eyelets or more than 60, or they do not lie on the edge in order.
pub fn lacing(input: &Lacing, look: &Look) -> Drawn {
    sound(&[("edge", input.edge.length), ("inset", input.inset.length)])?;
    if let Some(gap) = &input.gap {
        sound(&[("gap", gap.length)])?;
    }
    counted("places", input.places.len(), 2, 60)?;
    let places: Vec<f64> = input.places.iter().map(Measure::mm).collect();
    let fits = |p: &f64| p.is_finite() && (0.0..=input.edge.mm() + 1e-6).contains(p);
    if !places.iter().all(fits) || places.windows(2).any(|w| w[1] <= w[0]) {
        return Err(Undrawable(
            "expected eyelets in order along the edge, but one lies off it or before the last".into(),
        ));
    }
    let n = scale_for(input.edge.mm(), input.edge.mm(), (TALL, TALL));
    let tall = input.edge.mm() / n;
    let heights: Vec<f64> = places.iter().map(|p| p / n).collect();
    let inset = (input.inset.mm() / n).clamp(2.2, 7.0);
    let half = input.gap.as_ref().map_or(0.35, |g| (g.mm() / n / 2.0).clamp(2.0, 9.0));
    let wide = 13.0;
    let mut s = Scene::new(look);
    s.uses(KeyEntry::MachineStitch);
    if let Some(name) = &input.behind {
        s.cloth(rect(-half - 4.0, -1.6, half + 4.0, tall + 1.6), Up::Under, DOWN);
        s.fold(line(pt(-half - 4.0, -1.6), pt(half + 4.0, -1.6)));
        s.note(Side::Above, pt(0.0, -1.0), format!("{name} behind"));
    }
    for sign in [-1.0, 1.0] {
        edge(&mut s, sign, half, wide, tall, inset, input.boned);
    }
    lace(&mut s, input.way, &heights, half + inset);
    for y in &heights {
        for sign in [-1.0, 1.0] {
            eyelet(&mut s, pt(sign * (half + inset), *y));
        }
    }
    distances(&mut s, input, look, &heights, -half - wide);
    if let Some(gap) = &input.gap {
        let y = tall + 1.0;
        s.dim(pt(-half, y), pt(half, y), 4.0, look.set(gap));
    }
    let last = heights.last().copied().unwrap_or(0.0);
    s.note(Side::Right, pt(half + inset + 0.8, last), format!("eyelets {} in from the edge", look.set(&input.inset)));
    if input.boned {
        s.note(Side::Right, pt(half + inset * 0.45, (tall - 6.0).min(last * 0.72)), "a bone between edge and eyelets");
    }
    s.note(
        Side::Right,
        pt(
            half + inset * 0.4,
            heights.first().copied().unwrap_or(0.0) * 0.5 + heights.get(1).copied().unwrap_or(0.0) * 0.5,
        ),
        if input.way == LaceWay::Spiral { "one lace, up in a spiral" } else { "the two ends cross" },
    );
    detail(&mut s, pt(half + wide + 15.0, tall * 0.36), pt(half + inset, nearest(&heights, tall * 0.36)));
    s.finish(words(input, look), Scale::OneTo(n))
}

fn nearest(heights: &[f64], y: f64) -> f64 {
    heights.iter().copied().min_by(|a, b| (a - y).abs().total_cmp(&(b - y).abs())).unwrap_or(y)
}

/// One side: right side up, folded edge, stitching of the channels, the bone.
fn edge(s: &mut Scene, sign: f64, half: f64, wide: f64, tall: f64, inset: f64, boned: bool) {
    let x = |d: f64| sign * (half + d);
    let foot = smooth(&[pt(x(0.0), tall), pt(x(6.0), tall + 0.6), pt(x(12.0), tall - 0.5), pt(x(wide), tall)]);
    let mut area = vec![pt(x(wide), 0.0), pt(x(0.0), 0.0)];
    area.extend(super::super::geom::spread(&foot, 0.6));
    s.cloth(closed(&area), Up::Right, DOWN);
    s.fold(polyline(&[pt(x(wide), 0.0), pt(x(0.0), 0.0), pt(x(0.0), tall)]));
    s.stroke(foot, Pen::THIN);
    s.stroke(line(pt(x(wide), 0.0), pt(x(wide), tall)), Pen::THIN);
    if boned {
        for d in [inset * 0.12 + 0.2, inset * 0.66] {
            s.machine(line(pt(x(d), 0.3), pt(x(d), tall)));
        }
    }
}

/// An eyelet worked over with thread.
fn eyelet(s: &mut Scene, at: Point) {
    s.fill(circle(at, 1.05), Paint::White);
    s.stroke(circle(at, 1.05), Pen::THIN);
    s.fill(circle(at, 0.5), Paint::Ink);
}

/// The lace: over the cloth it is drawn full, under it broken.
fn lace(s: &mut Scene, way: LaceWay, heights: &[f64], x: f64) {
    let over = Pen { class: "lace", width: 0.9, ..Pen::THIN };
    let core = Pen { class: "lace", width: 0.45, paint: Paint::White, ..Pen::THIN };
    let mut draw = |a: Point, b: Point| {
        s.stroke(line(a, b), over);
        s.stroke(line(a, b), core);
    };
    for (i, pair) in heights.windows(2).enumerate() {
        let (a, b) = (pair[0], pair[1]);
        match way {
            LaceWay::Spiral => {
                // Straight across in front, slanting up behind.
                draw(pt(-x, b), pt(x, b));
                if i == 0 {
                    draw(pt(-x, a), pt(x, a));
                }
            }
            LaceWay::Cross => {
                let (left, right) = (pt(-x, a), pt(x, a));
                let (to_left, to_right) = (pt(-x, b), pt(x, b));
                if i % 2 == 0 {
                    draw(left, to_right);
                    draw(right, to_left);
                } else {
                    draw(right, to_left);
                    draw(left, to_right);
                }
            }
        }
    }
    let (Some(first), Some(last)) = (heights.first(), heights.last()) else { return };
    match way {
        LaceWay::Spiral => {
            for pair in heights.windows(2) {
                s.stroke(line(pt(x, pair[1]), pt(-x, pair[0])), Pen { width: 0.4, ..Pen::HIDDEN });
            }
            s.knot(pt(x - 1.6, *last));
            let end = smooth(&[pt(-x, *first), pt(-x - 2.0, first - 3.0), pt(-x - 1.0, -4.0), pt(-x - 3.5, -7.0)]);
            s.stroke(end.clone(), over);
            s.stroke(end, core);
        }
        LaceWay::Cross => {
            draw(pt(-x, *last), pt(x, *last));
            for sign in [-1.0, 1.0] {
                let end = smooth(&[
                    pt(sign * x, *first),
                    pt(sign * (x + 1.0), first - 3.0),
                    pt(sign * (x - 0.6), -4.0),
                    pt(sign * (x + 1.4), -7.0),
                ]);
                s.stroke(end.clone(), over);
                s.stroke(end, core);
            }
        }
    }
}

/// Distances from the top: each where there is room, else those that can stand clear of one another.
fn distances(s: &mut Scene, input: &Lacing, look: &Look, heights: &[f64], x: f64) {
    s.text(pt(x - 3.4, -4.0), Anchor::End, LabelStyle::Plain, "from the top:");
    let mut free = f64::NEG_INFINITY;
    let last = heights.len() - 1;
    for (i, (y, m)) in heights.iter().zip(&input.places).enumerate() {
        s.stroke(line(pt(x - 2.5, *y), pt(x - 0.6, *y)), Pen::MEASURE);
        let end = heights.get(last).copied().unwrap_or(*y);
        let clear = *y >= free && (i == last || end - y >= 3.9);
        if clear {
            s.text_mid(pt(x - 3.4, *y), Anchor::End, LabelStyle::Measure, look.set(m));
            free = y + 3.9;
        }
    }
}

/// An eyelet near by: a hole pushed between the threads, overcast all round.
fn detail(s: &mut Scene, centre: Point, spot: Point) {
    let look = s.look;
    let mut d = Scene::new(&look);
    d.fill(circle(pt(0.0, 0.0), 12.0), Paint::Tint);
    for i in 0..26 {
        let angle = std::f64::consts::TAU * real(i) / 26.0;
        let (c, sn) = (angle.cos(), angle.sin());
        let skew = angle + 0.16;
        d.stroke(line(pt(c * 2.7, sn * 2.7), pt(skew.cos() * 5.3, skew.sin() * 5.3)), Pen::THREAD);
    }
    d.fill(circle(pt(0.0, 0.0), 2.6), Paint::White);
    d.stroke(circle(pt(0.0, 0.0), 2.6), Pen::THIN);
    d.stroke(circle(pt(0.0, 0.0), 3.3), Pen { width: 0.25, ..Pen::THREAD });
    s.uses(KeyEntry::HandStitch);
    s.lens(spot, 1.9, centre, 8.5, d);
    s.pointer(
        centre + Vec2::new(0.0, 16.0),
        Anchor::Middle,
        centre + Vec2::new(0.0, 5.0),
        "pushed open with\nan awl, not cut;\novercast all round",
    );
}

fn words(input: &Lacing, look: &Look) -> Words {
    let count = many(input.places.len(), "eyelet", "eyelets");
    let all = |f: &dyn Fn(&Measure) -> String| input.places.iter().map(f).collect::<Vec<_>>().join(", ");
    let caption = format!(
        "{} down each edge of {}, {} in from it{}.",
        capital(&count),
        look.set(&input.edge),
        look.set(&input.inset),
        input.gap.as_ref().map_or_else(String::new, |g| format!("; laced, the edges stand {} apart", look.set(g)))
    );
    let way = match input.way {
        LaceWay::Spiral => {
            "One lace is knotted at the lowest eyelet and climbs in a spiral: straight across in front, slanting up behind; its end comes out at the top."
        }
        LaceWay::Cross => {
            "The lace lies straight across the lowest pair, and its two ends cross between each pair and the next; both come out at the top."
        }
    };
    let mut alt = format!(
        "Two edges, {} long, right side up, with {count} down each, the same on both sides. Their middles lie {} in from the edge, and from the top at {}. {way}",
        look.say(&input.edge),
        look.say(&input.inset),
        all(&|m| look.say(m))
    );
    if let Some(gap) = &input.gap {
        alt += &format!(" Laced, the edges stand {} apart.", look.say(gap));
    }
    if let Some(name) = &input.behind {
        alt += &format!(" Behind them lies the {name}.");
    }
    if input.boned {
        alt += " Between each edge and its eyelets runs a bone, stitched in on both sides.";
    }
    alt +=
        " A magnified circle shows one eyelet: a round hole pushed between the threads and overcast close all round.";
    Words { caption, alt }
}
