//! Views of skirts and petticoats, front and back, in the proportions of their own measures.

use kurbo::{Point, Vec2};

use crate::units::Length;

use super::super::figure::{Drawn, KeyEntry, Measure, Scale, Undrawable};
use super::super::geom::{closed, lerp, line, pt, smooth, steps, whole};
use super::super::look::{Look, Paint};
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::sound;
use super::fall::{Shape, Tier};
use super::worn::BREADTH;

/// From which side a garment is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// The front.
    Front,
    /// The back.
    Back,
}

/// How the fullness is taken in at the waist.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fullness {
    /// Cartridge pleats.
    Cartridge,
    /// Gathers.
    Gathers,
}

/// A skirt or petticoat as it hangs.
#[derive(Debug, Clone, PartialEq)]
pub struct SkirtView {
    /// What it is: `skirt`, `petticoat`.
    pub name: String,
    /// Front or back.
    pub view: View,
    /// Finished waist, all round.
    pub waist: Measure,
    /// From the waist seam to the hem, at the side.
    pub length: Measure,
    /// Hem, all round.
    pub hem: Measure,
    /// Depth of the band.
    pub band: Measure,
    /// Waist seam from the centre of this view outward: distance along the waist, and drop below the level waist.
    /// Empty for a level seam.
    pub dip: Vec<(Length, Length)>,
    /// How the waist is filled.
    pub fullness: Fullness,
    /// Pleats in the whole waist, or gathers to draw.
    pub pleats: u64,
    /// Length of the opening at the centre of this view.
    pub opening: Option<Measure>,
    /// Whether the waist seam is piped.
    pub piped: bool,
    /// A flounce at the hem: its depth, and its length flat.
    pub flounce: Option<(Measure, Measure)>,
    /// Height of the drawing, mm.
    pub height: f64,
}

/// How much of a full hem stands out: a hem hangs in folds of about this depth (common practice, no source).
const HANG: f64 = 1.75;

/// A skirt or petticoat as it hangs on its wearer.
///
/// # Errors
/// Where a length is nothing or not finite, the hem is less than the waist, or a flounce is longer than the skirt.
pub fn skirt_view(input: &SkirtView, look: &Look) -> Drawn {
    let (n, shape) = (scale(input)?, shape(input, scale(input)?));
    let mut s = Scene::new(look);
    s.uses(KeyEntry::RightSide);
    back_of_band(&mut s, input, &shape, n);
    let main = hang(&mut s, input, &shape);
    opening(&mut s, input, &shape);
    band(&mut s, input, &shape, n);
    if main.even {
        main.tube_heads(&mut s, &shape);
    }
    s.finish(words(input, look), Scale::NotToScale)
}

/// Looks the numbers over, and finds how many mm of the garment are one on paper.
fn scale(input: &SkirtView) -> Result<f64, Undrawable> {
    let mut lengths = vec![
        ("waist", input.waist.length),
        ("length", input.length.length),
        ("hem", input.hem.length),
        ("band", input.band.length),
    ];
    lengths.extend(input.opening.iter().map(|o| ("opening", o.length)));
    lengths.extend(input.flounce.iter().flat_map(|(a, b)| [("flounce depth", a.length), ("flounce", b.length)]));
    sound(&lengths)?;
    if input.hem.mm() < input.waist.mm() {
        return Err(Undrawable("expected a hem wider than the waist, but it is narrower".into()));
    }
    if input.flounce.as_ref().is_some_and(|(d, _)| d.mm() > input.length.mm() * 0.9) {
        return Err(Undrawable("expected a flounce shorter than the skirt, but it is not".into()));
    }
    if input.dip.iter().any(|(x, y)| !x.to_mm().is_finite() || !y.to_mm().is_finite()) {
        return Err(Undrawable("expected a dip of finite lengths".into()));
    }
    if !(20.0..=400.0).contains(&input.height) {
        return Err(Undrawable(format!("expected a drawing 20 to 400 mm high, but found {}", input.height)));
    }
    Ok((input.length.mm() + input.band.mm()) / (input.height * 0.93))
}

/// A skirt without a band that falls from a bodice: `side` is where the waist meets the silhouette, `dip` the lower edge of
/// the bodice, by share of half the waist and drop, mm on paper.
pub(crate) fn falling(
    s: &mut Scene,
    input: &SkirtView,
    n: f64,
    dip: &[(f64, f64)],
    side: Point,
) -> Result<(), Undrawable> {
    scale(input)?;
    let mut shape = shape(input, n);
    shape.waist = side.x + 0.3;
    shape.hem = shape.hem.max(shape.waist * 1.25);
    (shape.top, shape.foot) = (side.y, side.y + input.length.mm() / n);
    shape.sag_top = 0.0;
    shape.dip = dip.to_vec();
    if let (Some(first), true) = (dip.first().copied(), dip.first().is_some_and(|(u, _)| *u > 0.0)) {
        shape.dip.insert(0, (0.0, first.1));
    }
    let main = hang(s, input, &shape);
    opening(s, input, &shape);
    if main.even {
        main.tube_heads(s, &shape);
    }
    Ok(())
}

/// The cloth of the skirt, and its flounce.
fn hang(s: &mut Scene, input: &SkirtView, shape: &Shape) -> Tier {
    let visible = whole(f64::from(u32::try_from(input.pleats).unwrap_or(u32::MAX)) / 2.0, 12, 44);
    let even = input.fullness == Fullness::Cartridge;
    let folds = whole(input.hem.mm() / 2.0 / 145.0, 7, 17);
    let split = input.flounce.as_ref().map_or(1.0, |(depth, _)| 1.0 - depth.mm() / input.length.mm());
    let wave = input.height * 0.021;
    let main = Tier {
        from: 0.0,
        to: split,
        heads: visible,
        folds,
        wave: if split < 1.0 { 0.0 } else { wave },
        even,
        flare: 0.0,
        salt: 20,
    };
    shoulder(s, shape, even);
    main.draw(s, shape);
    if let Some((_, flat)) = &input.flounce {
        let more = (flat.mm() / input.hem.mm()).clamp(1.2, 2.4);
        let tier = Tier {
            from: split,
            to: 1.0,
            heads: whole(f64::from(u32::try_from(folds).unwrap_or(9)) * 2.6 * more, 20, 52),
            folds: whole(f64::from(u32::try_from(folds).unwrap_or(9)) * more, 9, 24),
            wave: wave * 0.95,
            even: false,
            flare: 0.045 * more,
            salt: 60,
        };
        tier.draw(s, shape);
        let seam = shape.level(split, 0.0);
        s.brush(&seam, |_| 0.5);
        s.stroke(smooth(&shape.level(split, -0.9)), Pen::MACHINE);
        s.uses(KeyEntry::MachineStitch);
    }
    main
}

fn shape(input: &SkirtView, n: f64) -> Shape {
    let radius = input.waist.mm() / std::f64::consts::TAU;
    let waist = radius * BREADTH / n;
    let stand = input.hem.mm().max(input.flounce.as_ref().map_or(0.0, |(_, f)| f.mm() * 0.8));
    let hem = (stand / std::f64::consts::TAU / HANG / n).min(input.length.mm() * 0.6 / n).max(waist * 1.25);
    let mut dip: Vec<(f64, f64)> = input
        .dip
        .iter()
        .map(|(x, y)| ((x.to_mm() / radius).clamp(0.0, std::f64::consts::FRAC_PI_2).sin(), y.to_mm() / n))
        .collect();
    dip.sort_by(|a, b| a.0.total_cmp(&b.0));
    Shape {
        waist: waist + 0.6,
        hem,
        top: 0.0,
        foot: input.length.mm() / n,
        sag_top: input.height * 0.012,
        sag_foot: input.height * 0.05,
        spring: if input.fullness == Fullness::Cartridge { 1.0 } else { 0.45 },
        dip,
    }
}

/// The top edge of the band, `t` from left to right; far side for `sign` below zero.
fn rim(input: &SkirtView, shape: &Shape, n: f64, sign: f64) -> Vec<Point> {
    let wide = shape.waist - 0.6;
    let high = shape.top - input.band.mm() / n;
    steps(60)
        .map(|k| (k * std::f64::consts::PI - std::f64::consts::FRAC_PI_2).sin())
        .map(|u| pt(u * wide, high + sign * shape.sag_top * (1.0 - u * u).max(0.0).sqrt()))
        .collect()
}

fn back_of_band(s: &mut Scene, input: &SkirtView, shape: &Shape, n: f64) {
    let (near, far) = (rim(input, shape, n, 1.0), rim(input, shape, n, -1.4));
    let area: Vec<Point> = near.iter().chain(far.iter().rev()).copied().collect();
    s.fill(closed(&area), Paint::Pale);
    s.brush(&far, |_| 0.4);
}

fn band(s: &mut Scene, input: &SkirtView, shape: &Shape, n: f64) {
    let near = rim(input, shape, n, 1.0);
    let wide = shape.waist - 0.6;
    let lift = if input.fullness == Fullness::Cartridge { 0.9 } else { -0.1 };
    let lower: Vec<Point> = steps(80)
        .map(|k| (k * std::f64::consts::PI - std::f64::consts::FRAC_PI_2).sin())
        .map(|u| pt(u * wide, shape.at(u, 0.0).y - lift))
        .collect();
    let area: Vec<Point> = near.iter().chain(lower.iter().rev()).copied().collect();
    s.fill(closed(&area), Paint::Tint);
    let dark: Vec<Point> = steps(20)
        .map(|k| lerp(0.86, 1.0, k))
        .map(|u| pt(u * wide, shape.at(u, 0.0).y - lift))
        .chain(
            steps(20)
                .rev()
                .map(|k| lerp(0.86, 1.0, k))
                .map(|u| pt(u * wide, shape.top - input.band.mm() / n + shape.sag_top * (1.0 - u * u).max(0.0).sqrt())),
        )
        .collect();
    s.fill(closed(&dark), Paint::Half);
    s.brush(&near, |_| 0.5);
    for p in [near.first().zip(lower.first()), near.last().zip(lower.last())].into_iter().flatten() {
        s.stroke(line(*p.0, *p.1), Pen::FOLD);
    }
    s.brush(&lower, |_| 0.5);
    if input.opening.is_some() {
        let open = |u: f64| {
            let high = shape.top - input.band.mm() / n + shape.sag_top * (1.0 - u * u).max(0.0).sqrt();
            line(pt(u * wide, high), pt(u * wide, shape.at(u, 0.0).y - lift))
        };
        s.stroke(open(0.004), Pen::FOLD);
        s.stroke(open(0.14), Pen::THIN);
    }
    if input.piped {
        let above = super::super::geom::beside(&lower, -1.0);
        let roll: Vec<Point> = above.iter().chain(lower.iter().rev()).copied().collect();
        s.fill(closed(&roll), Paint::White);
        s.brush(&above, |_| 0.3);
        s.brush(&lower, |_| 0.4);
        for (pair, q) in above.windows(2).zip(&lower).skip(6).step_by(3).take(22) {
            let (p, q) = (pair[0], *q);
            s.stroke(line(p.lerp(pair[1], 0.2) + (q - p) * 0.75, p.lerp(pair[1], 0.9) + (q - p) * 0.25), Pen::TICK);
        }
    }
}

/// Cloth between band and pleats, and the round of the outermost pleats.
fn shoulder(s: &mut Scene, shape: &Shape, even: bool) {
    let lift = if even { 1.1 } else { 0.2 };
    let seam = shape.level(0.0, 0.0);
    let above = shape.level(0.0, -lift);
    let area: Vec<Point> = seam.iter().chain(above.iter().rev()).copied().collect();
    s.fill(closed(&area), Paint::Shade);
    for side in [-1.0, 1.0] {
        let p = shape.at(side, 0.0);
        let q = pt(p.x - 0.6 * side, p.y - lift);
        s.brush(&[q, pt(p.x - 0.15 * side, p.y - lift * 0.6), p], |_| 0.5);
    }
}

fn opening(s: &mut Scene, input: &SkirtView, shape: &Shape) {
    let Some(length) = &input.opening else { return };
    let share = (length.mm() / input.length.mm()).min(0.6);
    let points: Vec<Point> = steps(20).map(|k| shape.at(0.004, k * share) + Vec2::new(0.0, 0.0)).collect();
    let under: Vec<Point> = steps(20).map(|k| shape.at(0.004 + 0.05 * (1.0 - k), k * share)).collect();
    let area: Vec<Point> = points.iter().chain(under.iter().rev()).copied().collect();
    s.fill(closed(&area), Paint::Shade);
    s.brush(&points, |_| 0.5);
    s.brush(&under, |_| 0.3);
    if let Some(foot) = points.last() {
        s.stroke(line(*foot + Vec2::new(-0.7, 0.0), *foot + Vec2::new(0.7, 0.0)), Pen::THREAD);
    }
}

fn words(input: &SkirtView, look: &Look) -> Words {
    let side = if input.view == View::Front { "front" } else { "back" };
    let taken = match input.fullness {
        Fullness::Cartridge => format!("{} cartridge pleats", input.pleats),
        Fullness::Gathers => "gathers".to_string(),
    };
    let depth = input.dip.iter().map(|(_, y)| y.to_mm()).fold(0.0, f64::max);
    let dips = if depth > 1.0 { " The waist seam dips to a point in the middle." } else { "" };
    let caption = format!("The {} from the {side}.", input.name);
    let mut alt = format!(
        "The {} as it hangs, seen from the {side}. A band {} deep closes round a waist of {}.{dips} From the seam the skirt is held in {taken} and falls {} to \
         a level hem, {} round; the folds are narrow at the waist and join into wide soft ones at the hem.",
        input.name,
        look.say(&input.band),
        look.say(&input.waist),
        look.say(&input.length),
        look.say(&input.hem)
    );
    if input.piped {
        alt += " A piping runs along the waist seam.";
    }
    if let Some((depth, flat)) = &input.flounce {
        alt += &format!(" Round the hem runs a gathered flounce {} deep, made of {}.", look.say(depth), look.say(flat));
    }
    if let Some(o) = &input.opening {
        alt += &format!(" In the middle it opens for {} below the band.", look.say(o));
    }
    Words { caption, alt }
}
