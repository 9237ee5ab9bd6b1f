//! Openings and what closes them: plackets, hooks with eyes or bars.

use kurbo::{BezPath, Point, Vec2};

use super::super::figure::{Anchor, Drawn, KeyEntry, LabelStyle, Measure, Scale, Undrawable};
use super::super::geom::{circle, closed, line, polyline, pt, real, rect, smooth};
use super::super::hand::{DOWN, PEEP, Up};
use super::super::look::Look;
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{counted, many, scale_for, sound};
use super::piping::stitch_through;

/// A lapped placket, possibly through an outer cloth and an under cloth treated as one.
#[derive(Debug, Clone, PartialEq)]
pub struct Placket {
    /// Length of the opening.
    pub opening: Measure,
    /// How far one side laps over the other.
    pub lap: Measure,
    /// Whether an under cloth is caught in.
    pub two_layers: bool,
}

/// The placket from the right side, beside it cut across.
///
/// # Errors
/// Where a length is nothing or not finite, or the lap is not less than the opening.
pub fn placket(input: &Placket, look: &Look) -> Drawn {
    sound(&[("opening", input.opening.length), ("lap", input.lap.length)])?;
    if input.lap.mm() >= input.opening.mm() {
        return Err(Undrawable("expected a lap shorter than the opening, but it is not".into()));
    }
    let mut s = Scene::new(look);
    let (wide, tall, slit) = (44.0, 58.0, 40.0);
    let lap = (slit * input.lap.mm() / input.opening.mm()).clamp(4.0, 9.0);
    let mid = wide / 2.0;
    if input.two_layers {
        let foot = rect(PEEP, tall - 4.0, wide + PEEP, tall + PEEP);
        s.cut_cloth(foot, Up::Under, DOWN);
    }
    // The under side, its extension showing where the opening gapes.
    let gape = 2.6;
    s.cloth(closed(&[pt(mid - 2.0, 0.0), pt(wide, 0.0), pt(wide, tall), pt(mid - 2.0, tall)]), Up::Right, DOWN);
    s.cloth(closed(&[pt(0.0, 0.0), pt(mid - gape, 0.0), pt(mid, slit), pt(mid, tall), pt(0.0, tall)]), Up::Right, DOWN);
    let strip = closed(&[pt(mid - gape, 0.0), pt(mid + lap - gape, 0.0), pt(mid + lap * 0.8, 0.0), pt(mid, slit)]);
    s.cloth(strip, if input.two_layers { Up::Under } else { Up::Wrong }, DOWN);
    let edge = smooth(&[pt(mid + lap * 0.8, 0.0), pt(mid + lap * 0.55, slit * 0.4), pt(mid, slit)]);
    s.fold(edge);
    s.fold(line(pt(mid - gape, 0.0), pt(mid, slit)));
    s.machine(polyline(&[pt(mid - gape - 2.0, 0.0), pt(mid - 2.0, slit - 1.0), pt(mid, slit + 1.2)]));
    s.machine(polyline(&[
        pt(mid + lap * 0.8 + 2.0, 0.0),
        pt(mid + lap * 0.55 + 2.0, slit * 0.4),
        pt(mid + 2.0, slit - 1.0),
        pt(mid, slit + 1.2),
    ]));
    s.seam_line(line(pt(mid, slit), pt(mid, tall)));
    s.stroke(polyline(&[pt(mid - 1.1, slit + 0.2), pt(mid + 1.1, slit + 2.2)]), Pen::THREAD);
    s.stroke(polyline(&[pt(mid + 1.1, slit + 0.2), pt(mid - 1.1, slit + 2.2)]), Pen::THREAD);
    for x in [0.0, wide] {
        s.stroke(line(pt(x, 0.0), pt(x, tall)), Pen::THIN);
    }
    s.cut(line(pt(0.0, 0.0), pt(mid - gape, 0.0)));
    s.cut(line(pt(mid - gape, 0.0), pt(wide, 0.0)));
    s.cut(line(pt(0.0, tall), pt(wide, tall)));
    s.dim(pt(0.0, slit), pt(0.0, 0.0), -4.0, look.two(&input.opening));
    s.note(Side::Right, pt(mid + 1.0, slit + 1.2), "bar tack by hand: the end bears all the strain");
    s.note(
        Side::Right,
        pt(wide * 0.88, slit * 0.3),
        if input.two_layers { "right side; both layers handled as one" } else { "right side" },
    );
    if input.two_layers {
        s.note(Side::Left, pt(wide * 0.12, tall + 0.9), "under cloth");
    }
    placket_section(&mut s, input, look, pt(mid, tall + 22.0));
    let layers = if input.two_layers { "outer cloth and under cloth as one" } else { "one layer" };
    let caption = format!(
        "The placket, {} long, {layers}; one side laps {} over the other.",
        look.set(&input.opening),
        look.set(&input.lap)
    );
    let alt = format!(
        "Above, the right side of the skirt at its opening. The opening runs {} down from the top edge; below it the seam is closed. The left side is folded \
         back and stitched near its fold; the right side has an extension that lies {} under it, stitched down too. The foot of the opening is held by \
         a bar tack in the shape of a cross. Below, a cut across the opening: the lapping side ends in a fold, the other runs on beneath it for {}. {}",
        look.say(&input.opening),
        look.say(&input.lap),
        look.say(&input.lap),
        if input.two_layers {
            "Each side consists of the outer cloth and the under cloth, turned and stitched together."
        } else {
            ""
        }
    );
    s.finish(Words { caption, alt: alt.trim().to_string() }, Scale::NotToScale)
}

fn placket_section(s: &mut Scene, input: &Placket, look: &Look, at: Point) {
    use super::super::geom::rounded;
    let (x, y) = (at.x, at.y);
    s.title(pt(x, y - 9.0), Anchor::Middle, "cut across");
    let under = if input.two_layers { 1.9 } else { 0.0 };
    // Lapping side, from the left: fold at the right, back to the left.
    s.section(
        &rounded(
            &[pt(x - 24.0, y - 3.4 - under), pt(x + 5.0, y - 3.4 - under), pt(x + 5.0, y - 1.2), pt(x - 8.0, y - 1.2)],
            1.0,
        ),
        Up::Right,
        false,
        (false, true),
    );
    if input.two_layers {
        s.section_of(&line(pt(x - 24.0, y - 3.3), pt(x + 3.2, y - 3.3)), Up::Under, true, (false, true), 1.2);
    }
    // Lying side, from the right: runs beneath.
    let base = y + 1.6;
    s.section(
        &rounded(
            &[pt(x + 24.0, base), pt(x - 5.0, base), pt(x - 5.0, base + 2.2 + under), pt(x + 8.0, base + 2.2 + under)],
            1.0,
        ),
        Up::Right,
        true,
        (false, true),
    );
    if input.two_layers {
        s.section_of(&line(pt(x + 24.0, base + 2.0), pt(x - 3.2, base + 2.0)), Up::Under, true, (false, true), 1.2);
    }
    stitch_through(s, pt(x - 5.5, y - 5.0 - under), pt(x - 5.5, y - 0.1));
    stitch_through(s, pt(x + 5.8, base - 1.2), pt(x + 5.8, base + 3.4 + under));
    s.dim(pt(x - 5.6, base + 3.2 + under), pt(x + 5.4, base + 3.2 + under), 4.0, look.set(&input.lap));
}

/// What the hooks go into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Catch {
    /// Metal eyes.
    Eyes,
    /// Bars of thread.
    Bars,
    /// The other halves of snaps, which then take the place of the hooks.
    Snaps,
}

/// Hooks along an edge with what they catch in.
#[derive(Debug, Clone, PartialEq)]
pub struct Hooks {
    /// Length of the edge.
    pub edge: Measure,
    /// Distance of each hook from the top, in order.
    pub places: Vec<Measure>,
    /// What they go into.
    pub catch: Catch,
    /// Distance of the hooks' bend from the folded edge.
    pub inset: Measure,
}

/// Hooks and their eyes or bars on the inside of both edges, places to scale along the edge.
///
/// # Errors
/// Where a length is not finite, there are no hooks or more than 40, or they do not lie on the edge in order.
pub fn hooks(input: &Hooks, look: &Look) -> Drawn {
    sound(&[("edge", input.edge.length), ("inset", input.inset.length)])?;
    counted("places", input.places.len(), 1, 40)?;
    let places: Vec<f64> = input.places.iter().map(Measure::mm).collect();
    let fits = |p: &f64| p.is_finite() && (0.0..=input.edge.mm() + 1e-6).contains(p);
    if !places.iter().all(fits) || places.windows(2).any(|w| w[1] <= w[0]) {
        return Err(Undrawable(
            "expected hooks in order along the edge, but one lies off it or before the last".into(),
        ));
    }
    let closest = places.windows(2).map(|w| w[1] - w[0]).fold(f64::INFINITY, f64::min);
    // Labels take 3.6 mm each, two lines 7.
    let n = scale_for(input.edge.mm(), input.edge.mm(), (110.0, 110.0)).min((closest / 8.2).max(1e-3));
    let n = if input.edge.mm() / n > 190.0 { input.edge.mm() / 190.0 } else { super::super::words::scale_down(n) };
    let tall = input.edge.mm() / n;
    let (wide, gap) = (20.0, 10.0);
    let mut s = Scene::new(look);
    s.uses(KeyEntry::HandStitch);
    s.cloth(rect(0.0, 0.0, wide, tall + 4.0), Up::Wrong, DOWN);
    s.fold(line(pt(wide, 0.0), pt(wide, tall + 4.0)));
    let other = wide + gap;
    s.cloth(rect(other, 0.0, other + wide, tall + 4.0), Up::Right, DOWN);
    s.fold(line(pt(other, 0.0), pt(other, tall + 4.0)));
    for x in [0.0, other + wide] {
        s.stroke(line(pt(x, 0.0), pt(x, tall + 4.0)), Pen::THIN);
    }
    for (a, b) in [(0.0, wide), (other, other + wide)] {
        s.fold(line(pt(a, 0.0), pt(b, 0.0)));
        s.stroke(
            smooth(&[pt(a, tall + 4.0), pt(a + 7.0, tall + 4.5), pt(a + 13.0, tall + 3.6), pt(b, tall + 4.0)]),
            Pen::THIN,
        );
    }
    let near = places.first().copied().unwrap_or(0.0) / n;
    let big = (closest / n / 6.5).min(1.0).min((near / 2.9).max(0.6));
    for (place, m) in places.iter().zip(&input.places) {
        let y = place / n;
        if input.catch == Catch::Snaps {
            snap(&mut s, pt(wide - 5.0, y), big, true);
        } else {
            hook(&mut s, pt(wide - 1.2, y), big);
        }
        s.keep_clear(kurbo::Rect::new(wide - 10.5 * big, y - 4.2 * big, wide + 0.5, y + 4.2 * big));
        match input.catch {
            Catch::Eyes => eye(&mut s, pt(other + 2.0, y), big),
            Catch::Bars => bar(&mut s, pt(other + 3.0, y), big),
            Catch::Snaps => snap(&mut s, pt(other + 5.0, y), big, false),
        }
        s.mark(line(pt(wide + 0.6, y), pt(other - 0.6, y)));
        s.stroke(line(pt(-2.5, y), pt(-0.6, y)), Pen::MEASURE);
        s.text_mid(pt(-3.4, y), Anchor::End, LabelStyle::Measure, look.set(m));
    }
    s.text(pt(-3.4, -5.0), Anchor::End, LabelStyle::Plain, "from the top:");
    let (one, catch) = match input.catch {
        Catch::Eyes => ("hooks", "eyes"),
        Catch::Bars => ("hooks", "thread bars"),
        Catch::Snaps => ("balls", "sockets"),
    };
    s.title(pt(wide / 2.0, -2.4), Anchor::Middle, one);
    s.title(pt(other + wide / 2.0, -2.4), Anchor::Middle, catch);
    let snaps = input.catch == Catch::Snaps;
    let (count, catch) = if snaps {
        (many(input.places.len(), "snap", "snaps"), "other halves")
    } else {
        (many(input.places.len(), "hook", "hooks"), catch)
    };
    let list = |f: &dyn Fn(&Measure) -> String| input.places.iter().map(f).collect::<Vec<_>>().join(", ");
    let caption = format!(
        "{} and their {catch} along an edge of {}, measured from the top.",
        super::super::words::capital(&count),
        look.set(&input.edge)
    );
    let alt = format!(
        "Two edges that close, {} long. At the left, on the wrong side of the lapping edge, {count} are sewn on{}, {} back from it. At the \
         right, on the right side of the other edge, are the {catch} at the same heights. From the top they lie at {}.",
        look.say(&input.edge),
        if snaps { ", ball up" } else { ", bend toward the fold" },
        look.say(&input.inset),
        list(&|m| look.say(m))
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

/// Half a snap: the ball, or the socket, with the stitches over its rim.
fn snap(s: &mut Scene, at: Point, k: f64, ball: bool) {
    let r = 2.2 * k;
    for i in 0..4 {
        let angle = std::f64::consts::FRAC_PI_4 + std::f64::consts::FRAC_PI_2 * real(i);
        let d = Vec2::new(angle.cos(), angle.sin());
        s.stroke(line(at + d * (r * 0.62), at + d * (r * 1.3)), Pen::THREAD);
    }
    s.fill(circle(at, r), super::super::look::Paint::White);
    s.stroke(circle(at, r), Pen::FOLD);
    for i in 0..4 {
        let angle = std::f64::consts::FRAC_PI_4 + std::f64::consts::FRAC_PI_2 * real(i);
        let d = Vec2::new(angle.cos(), angle.sin());
        s.stroke(line(at + d * (r * 0.66), at + d * (r * 1.25)), Pen::THREAD);
    }
    s.fill(circle(at, r * 0.42), if ball { super::super::look::Paint::Pale } else { super::super::look::Paint::Ink });
    s.stroke(circle(at, r * 0.42), Pen::THIN);
}

fn wire(s: &mut Scene, path: BezPath) {
    s.stroke(path.clone(), Pen { class: "wire", width: 0.7, ..Pen::THIN });
    s.stroke(path, Pen { class: "wire", width: 0.25, paint: super::super::look::Paint::White, ..Pen::THIN });
}

/// A hook of wire, its bend at `tip`, lying to the left.
fn hook(s: &mut Scene, tip: Point, k: f64) {
    let p = |x: f64, y: f64| pt(tip.x + x * k, tip.y + y * k);
    for sign in [-1.0, 1.0] {
        wire(
            s,
            smooth(&[
                p(-4.6, 0.5 * sign),
                p(-6.0, 0.6 * sign),
                p(-7.6, 1.4 * sign),
                p(-7.4, 2.6 * sign),
                p(-6.2, 2.4 * sign),
                p(-5.6, 1.0 * sign),
                p(-4.6, 0.5 * sign),
            ]),
        );
        for angle in [0.4, 1.6] {
            let c = p(-6.8, 1.8 * sign);
            let d = Vec2::new(f64::cos(angle), f64::sin(angle) * sign) * (1.7 * k);
            s.stroke(line(c + d * 0.25, c + d), Pen::THREAD);
        }
    }
    wire(s, smooth(&[p(-4.6, -0.5), p(-2.0, -0.5), p(-0.2, -0.45), p(0.3, 0.0), p(-0.2, 0.5), p(-2.2, 0.45)]));
    wire(s, smooth(&[p(-4.6, 0.5), p(-3.4, 0.5)]));
}

/// An eye of wire.
fn eye(s: &mut Scene, at: Point, k: f64) {
    let p = |x: f64, y: f64| pt(at.x + x * k, at.y + y * k);
    wire(s, smooth(&[p(3.4, -1.0), p(1.0, -1.6), p(-0.9, -0.9), p(-1.2, 0.0), p(-0.9, 0.9), p(1.0, 1.6), p(3.4, 1.0)]));
    for sign in [-1.0, 1.0] {
        wire(s, circle_path(p(4.2, 1.7 * sign), 1.0 * k));
        s.stroke(line(p(4.4, 2.0 * sign), p(5.8, 2.5 * sign)), Pen::THREAD);
        s.stroke(line(p(4.4, 2.0 * sign), p(4.8, 3.1 * sign)), Pen::THREAD);
    }
}

fn circle_path(at: Point, r: f64) -> BezPath {
    circle(at, r)
}

/// A bar of thread worked over with loops.
fn bar(s: &mut Scene, at: Point, k: f64) {
    let h = 2.3 * k;
    for dx in [-0.3, 0.3] {
        s.stroke(line(pt(at.x + dx, at.y - h), pt(at.x + dx, at.y + h)), Pen::THREAD);
    }
    for i in 0..7 {
        let y = at.y - h + 2.0 * h * (real(i) + 0.5) / 7.0;
        s.stroke(line(pt(at.x - 0.9, y + 0.2), pt(at.x + 0.9, y - 0.2)), Pen::THIN);
    }
}

/// A vent in a hem.
#[derive(Debug, Clone, PartialEq)]
pub struct Vent {
    /// Its height above the hem.
    pub height: Measure,
    /// How far one side laps over the other.
    pub lap: Measure,
    /// Depth of the hem.
    pub hem: Measure,
}

/// A vent from the inside, height and lap in proportion.
///
/// # Errors
/// Where a length is nothing or not finite, or the hem is not less than the vent.
pub fn vent(input: &Vent, look: &Look) -> Drawn {
    sound(&[("height", input.height.length), ("lap", input.lap.length), ("hem", input.hem.length)])?;
    if input.hem.mm() >= input.height.mm() {
        return Err(Undrawable("expected a hem less deep than the vent is high, but it is not".into()));
    }
    let mut s = Scene::new(look);
    let (wide, tall, foot) = (60.0, 66.0, 66.0);
    let high = 40.0;
    let top = foot - high;
    let lap = (high * input.lap.mm() / input.height.mm()).clamp(7.0, 16.0);
    let hem = (high * input.hem.mm() / input.height.mm()).clamp(4.0, 16.0);
    let mid = wide / 2.0;
    s.cloth(rect(0.0, 0.0, wide, tall), Up::Wrong, DOWN);
    // Hem of both sides.
    s.cloth(rect(0.0, foot - hem, wide, foot), Up::Right, DOWN);
    s.stroke(line(pt(0.0, foot - hem), pt(wide, foot - hem)), Pen::FOLD);
    // Seam above the vent, allowances pressed to the lapping side.
    s.cloth(rect(mid, 0.0, mid + 5.0, top), Up::Right, DOWN);
    s.cut(line(pt(mid + 5.0, 0.0), pt(mid + 5.0, top)));
    s.stroke(line(pt(mid, 0.0), pt(mid, foot)), Pen::FOLD);
    // The extension that lies over, wrong side of garment up: its own turned edge.
    let slope = closed(&[pt(mid, top), pt(mid + lap, top + 3.0), pt(mid + lap, foot), pt(mid, foot)]);
    s.cloth(slope, Up::Right, DOWN);
    s.cut(line(pt(mid, top), pt(mid + lap, top + 3.0)));
    s.fold(line(pt(mid + lap, top + 3.0), pt(mid + lap, foot)));
    s.machine(line(pt(mid + lap - 1.6, top + 3.4), pt(mid + lap - 1.6, foot - 0.4)));
    s.machine(polyline(&[pt(mid, top + 1.6), pt(mid + lap - 1.6, top + 4.6)]));
    s.fold(line(pt(0.0, foot), pt(wide, foot)));
    for x in [0.0, wide] {
        s.stroke(line(pt(x, 0.0), pt(x, tall)), Pen::THIN);
    }
    s.stroke(smooth(&[pt(0.0, 0.0), pt(18.0, 0.7), pt(42.0, -0.6), pt(wide, 0.0)]), Pen::THIN);
    s.dim(pt(0.0, foot), pt(0.0, top), -4.0, look.two(&input.height));
    s.dim(pt(wide, foot - hem), pt(wide, foot), -4.0, look.two(&input.hem));
    s.dim(pt(mid, foot + 0.4), pt(mid + lap, foot + 0.4), 4.0, look.set(&input.lap));
    s.note(Side::Right, pt(mid + lap * 0.5, top + 3.6), "stitched through all layers across the top");
    s.note(Side::Right, pt(mid + 3.0, top * 0.4), "seam allowances");
    s.note(Side::Left, pt(3.0, top * 0.4), "wrong side");
    let caption = format!(
        "The vent from the inside: {} high, lapped {}, held across its top.",
        look.set(&input.height),
        look.set(&input.lap)
    );
    let alt = format!(
        "The wrong side of the hem. A seam comes down the middle and ends {} above the hem. Below that an extension, {} wide, lies over the seam to the right; its \
         edge is turned under and stitched, and its slanting top is stitched through all layers. The hem, {} deep, is turned up on both sides first.",
        look.say(&input.height),
        look.say(&input.lap),
        look.say(&input.hem)
    );
    s.finish(Words { caption, alt }, Scale::NotToScale)
}
