//! Seams in section, with the direction they are pressed in.

use kurbo::Point;

use super::super::figure::{Anchor, Drawn, KeyEntry, Measure, Scale};
use super::super::geom::{pt, rounded};
use super::super::hand::Up;
use super::super::look::Look;
use super::super::notes::Side;
use super::super::scene::{Scene, Words};
use super::super::words::sound;
use super::piping::stitch_through;

/// How a seam is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeamKind {
    /// Plain, both allowances pressed the same way or open.
    Plain,
    /// French seam, first pass: wrong sides together.
    FrenchFirst,
    /// French seam, second pass: right sides together, raw edges enclosed.
    FrenchSecond,
    /// Felled: the wider allowance folded over the trimmed one and sewn flat.
    Felled,
    /// Plain, pressed open, each raw edge bound.
    Bound,
    /// An edge with a facing.
    Faced,
    /// Plain, pressed open, each side mounted on an under cloth and handled as one with it.
    Mounted,
    /// The lining of one side turned under and felled by hand over the allowances of a mounted seam.
    FelledLining,
}

/// Where allowances go under the iron.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Press {
    /// One to each side.
    Open,
    /// Both to one side.
    OneSide,
}

/// A seam in section.
#[derive(Debug, Clone, PartialEq)]
pub struct SeamFigure {
    /// How it is made.
    pub kind: SeamKind,
    /// From the seam to the cut edge (French: the second pass; felled: the wider allowance).
    pub allowance: Measure,
    /// French: the first pass. Felled: what the inner allowance is trimmed to. Faced: the shorter layer.
    pub first: Option<Measure>,
    /// Plain seams: how it is pressed.
    pub press: Press,
}

const GARMENT: bool = true;

/// A seam cut through, outside of the garment below (French passes: as they lie under the machine).
///
/// # Errors
/// Where a length is nothing or not finite.
pub fn seam(input: &SeamFigure, look: &Look) -> Drawn {
    let mut lengths = vec![("allowance", input.allowance.length)];
    lengths.extend(input.first.as_ref().map(|f| ("first", f.length)));
    sound(&lengths)?;
    let mut s = Scene::new(look);
    s.uses(KeyEntry::MachineStitch);
    match input.kind {
        SeamKind::Plain => plain(&mut s, input, look),
        SeamKind::Bound => bound(&mut s, input, look),
        SeamKind::FrenchFirst => french_first(&mut s, input, look),
        SeamKind::FrenchSecond => french_second(&mut s, input, look),
        SeamKind::Felled => felled(&mut s, input, look),
        SeamKind::Faced => faced(&mut s, input, look),
        SeamKind::Mounted => mounted(&mut s, input, look),
        SeamKind::FelledLining => felled_lining(&mut s, input, look),
    }
    s.finish(words(input, look), Scale::NotToScale)
}

fn outer(s: &mut Scene, points: &[Point], right: bool, raw_end: bool) {
    s.section(&rounded(points, 1.0), Up::Right, right, (false, raw_end));
}

fn body_labels(s: &mut Scene) {
    s.text(pt(-27.0, 4.9), Anchor::Start, super::super::figure::LabelStyle::Plain, "outside");
    s.text(pt(-27.0, -4.0), Anchor::Start, super::super::figure::LabelStyle::Plain, "inside");
}

fn plain(s: &mut Scene, input: &SeamFigure, look: &Look) {
    body_labels(s);
    match input.press {
        Press::Open => {
            outer(s, &[pt(-27.0, 0.0), pt(-0.95, 0.0), pt(-0.95, -2.4), pt(-11.0, -3.6)], GARMENT, true);
            outer(s, &[pt(27.0, 0.0), pt(0.95, 0.0), pt(0.95, -2.4), pt(11.0, -3.6)], !GARMENT, true);
            stitch_through(s, pt(-2.0, -1.1), pt(2.0, -1.1));
            s.arrow(&[pt(-3.0, -9.5), pt(-8.0, -8.6), pt(-13.0, -6.0)]);
            s.arrow(&[pt(3.0, -9.5), pt(8.0, -8.6), pt(13.0, -6.0)]);
            s.note(Side::Above, pt(0.0, -9.5), "press open");
            s.dim(pt(0.0, 0.9), pt(12.0, 0.9), 5.0, look.set(&input.allowance));
        }
        Press::OneSide => {
            outer(s, &[pt(27.0, 0.0), pt(0.95, 0.0), pt(0.95, -4.4), pt(-11.0, -5.2)], !GARMENT, true);
            outer(s, &[pt(-27.0, 0.0), pt(-0.95, 0.0), pt(-0.95, -2.2), pt(-11.0, -3.0)], GARMENT, true);
            stitch_through(s, pt(-2.0, -1.1), pt(2.0, -1.1));
            s.arrow(&[pt(5.0, -8.0), pt(0.0, -10.6), pt(-8.0, -9.6)]);
            s.note(Side::Above, pt(0.0, -10.6), "press both to one side");
            s.dim(pt(-12.0, 0.9), pt(0.0, 0.9), 7.0, look.set(&input.allowance));
        }
    }
    s.note(Side::Right, pt(2.2, -1.1), "seam");
}

fn bound(s: &mut Scene, input: &SeamFigure, look: &Look) {
    body_labels(s);
    for sign in [-1.0, 1.0] {
        outer(
            s,
            &[pt(27.0 * sign, 0.0), pt(0.95 * sign, 0.0), pt(0.95 * sign, -3.4), pt(11.0 * sign, -3.4)],
            sign < 0.0,
            true,
        );
        let wrap =
            rounded(&[pt(6.4 * sign, -5.1), pt(12.9 * sign, -5.1), pt(12.9 * sign, -1.75), pt(6.4 * sign, -1.75)], 1.4);
        s.section_of(&wrap, Up::Under, true, (true, true), 1.1);
        stitch_through(s, pt(7.8 * sign, -6.2), pt(7.8 * sign, -0.9));
    }
    stitch_through(s, pt(-2.0, -1.4), pt(2.0, -1.4));
    s.note(Side::Above, pt(11.0, -5.6), "binding over the raw edge");
    s.note(Side::Above, pt(-7.8, -6.3), "stitched through all layers of the binding");
    s.dim(pt(0.0, 0.9), pt(12.9, 0.9), 5.0, look.set(&input.allowance));
}

fn french_first(s: &mut Scene, input: &SeamFigure, look: &Look) {
    outer(s, &[pt(-27.0, -1.0), pt(10.0, -1.0)], false, true);
    outer(s, &[pt(-27.0, 1.0), pt(10.0, 1.0)], true, true);
    stitch_through(s, pt(2.0, -2.6), pt(2.0, 2.6));
    let first = input.first.as_ref().unwrap_or(&input.allowance);
    s.dim(pt(2.0, -1.9), pt(10.0, -1.9), -4.5, look.set(first));
    s.note(Side::Left, pt(-20.0, -1.5), "right side outward");
    s.note(Side::Left, pt(-20.0, 1.5), "right side outward");
    s.note(Side::Right, pt(10.2, 0.6), "wrong sides together, raw edges level; trim after stitching");
}

fn french_second(s: &mut Scene, input: &SeamFigure, look: &Look) {
    outer(s, &[pt(-27.0, -3.0), pt(9.6, -3.0), pt(9.6, -0.95), pt(2.6, -0.95)], true, true);
    outer(s, &[pt(-27.0, 3.0), pt(9.6, 3.0), pt(9.6, 0.95), pt(2.6, 0.95)], false, true);
    stitch_through(s, pt(8.0, -1.5), pt(8.0, 1.5));
    stitch_through(s, pt(0.0, -4.4), pt(0.0, 4.4));
    s.dim(pt(0.0, -4.6), pt(10.4, -4.6), -3.5, look.set(&input.allowance));
    s.note(Side::Left, pt(-20.0, -3.4), "wrong side outward");
    s.note(Side::Left, pt(-0.2, 4.2), "second stitching");
    s.note(Side::Right, pt(8.4, -1.2), "first stitching, at the fold");
    s.note(Side::Right, pt(2.8, 0.9), "raw edges shut in");
}

fn felled(s: &mut Scene, input: &SeamFigure, look: &Look) {
    body_labels(s);
    outer(s, &[pt(27.0, 0.0), pt(0.9, 0.0), pt(0.9, -2.2), pt(7.0, -2.2)], !GARMENT, true);
    outer(
        s,
        &[pt(-27.0, 0.0), pt(-0.9, 0.0), pt(-0.9, -4.4), pt(13.6, -4.4), pt(13.6, -2.2), pt(8.6, -2.2)],
        GARMENT,
        true,
    );
    stitch_through(s, pt(-2.0, -1.1), pt(2.0, -1.1));
    stitch_through(s, pt(12.0, -5.7), pt(12.0, 1.3));
    s.dim(pt(0.0, -5.2), pt(14.4, -5.2), -4.0, look.set(&input.allowance));
    let trimmed = input.first.as_ref().map_or_else(
        || "inner allowance trimmed".to_string(),
        |f| format!("inner allowance trimmed to {}", look.set(f)),
    );
    s.note(Side::Right, pt(5.0, -2.0), trimmed);
    s.note(Side::Below, pt(12.0, 1.4), "second stitching, seen outside");
    s.note(Side::Below, pt(-1.9, -0.9), "first stitching");
}

fn faced(s: &mut Scene, input: &SeamFigure, look: &Look) {
    body_labels(s);
    outer(s, &[pt(-27.0, 0.0), pt(14.0, 0.0), pt(14.0, -2.1), pt(2.0, -2.1)], GARMENT, true);
    let facing = rounded(&[pt(-14.0, -6.3), pt(13.6, -6.3), pt(13.6, -4.2), pt(5.0, -4.2)], 1.0);
    s.section(&facing, Up::Under, false, (true, true));
    stitch_through(s, pt(12.4, -5.2), pt(12.4, -1.2));
    s.note(Side::Right, pt(14.7, -0.2), "the garment rolls a hair over the edge");
    s.note(Side::Right, pt(12.7, -3.2), "seam");
    s.note(Side::Above, pt(-8.0, -6.3), "facing, inside");
    s.dim(pt(2.0, 0.9), pt(12.4, 0.9), 4.0, look.set(&input.allowance));
    if let Some(first) = &input.first {
        s.note(Side::Above, pt(5.2, -4.4), format!("shorter layer trimmed to {}", look.set(first)));
    }
}

/// Outer cloth and under cloth of both sides, allowances pressed apart.
fn layers(s: &mut Scene) {
    for sign in [-1.0, 1.0] {
        // The under cloth lies inside, and turns up with the outer cloth.
        let under = [pt(27.0 * sign, -1.45), pt(2.3 * sign, -1.45), pt(2.3 * sign, -2.9), pt(10.6 * sign, -3.7)];
        s.section_of(&rounded(&under, 0.6), Up::Interlining, sign > 0.0, (false, true), 1.2);
        outer(
            s,
            &[pt(27.0 * sign, 0.0), pt(0.85 * sign, 0.0), pt(0.85 * sign, -4.2), pt(10.6 * sign, -5.1)],
            sign < 0.0,
            true,
        );
    }
    stitch_through(s, pt(-3.6, -2.1), pt(3.6, -2.1));
}

fn mounted(s: &mut Scene, input: &SeamFigure, look: &Look) {
    s.text(pt(-27.0, 4.9), Anchor::Start, super::super::figure::LabelStyle::Plain, "outside");
    s.text(pt(-27.0, -4.6), Anchor::Start, super::super::figure::LabelStyle::Plain, "inside");
    layers(s);
    s.arrow(&[pt(-3.0, -10.5), pt(-8.0, -9.8), pt(-13.0, -7.4)]);
    s.arrow(&[pt(3.0, -10.5), pt(8.0, -9.8), pt(13.0, -7.4)]);
    s.note(Side::Above, pt(0.0, -10.5), "press open");
    s.dim(pt(0.0, 0.9), pt(10.6, 0.9), 5.0, look.set(&input.allowance));
    s.note(Side::Right, pt(21.0, -1.5), "under cloth");
    s.note(Side::Right, pt(24.0, 0.2), "outer cloth, right side out");
}

fn felled_lining(s: &mut Scene, input: &SeamFigure, look: &Look) {
    s.text(pt(-27.0, 4.9), Anchor::Start, super::super::figure::LabelStyle::Plain, "outside");
    layers(s);
    // One lining lies flat over the seam, the other is turned under and laid on it.
    let first = rounded(&[pt(27.0, -3.6), pt(13.0, -3.6), pt(10.5, -7.0), pt(-7.0, -7.0)], 1.2);
    s.section_of(&first, Up::Under, true, (false, true), 1.2);
    let second = rounded(
        &[pt(-27.0, -3.6), pt(-13.6, -3.6), pt(-11.0, -10.4), pt(1.6, -10.4), pt(1.6, -8.6), pt(-5.6, -8.6)],
        0.9,
    );
    s.section_of(&second, Up::Under, true, (false, true), 1.2);
    // A fell stitch: up through the fold, down just beside it.
    s.uses(KeyEntry::HandStitch);
    s.stroke(
        rounded(&[pt(-0.6, -11.2), pt(3.4, -9.2), pt(3.2, -6.2), pt(0.2, -6.4)], 0.8),
        super::super::pen::Pen::THREAD,
    );
    s.note(Side::Right, pt(3.4, -9.0), "fell stitch by hand: into the fold, and beside it into the other lining");
    s.note(Side::Above, pt(-8.0, -10.6), "fold of the lining on the seam");
    s.note(Side::Left, pt(-20.0, -3.7), "lining");
    s.note(Side::Left, pt(-22.0, -0.2), "outer cloth on its under cloth");
    s.dim(pt(0.0, 0.9), pt(10.6, 0.9), 5.0, look.set(&input.allowance));
}

fn words(input: &SeamFigure, look: &Look) -> Words {
    let (shown, said) = (look.set(&input.allowance), look.say(&input.allowance));
    let first = input.first.as_ref().map_or_else(String::new, |f| look.set(f));
    let first_said = input.first.as_ref().map_or_else(String::new, |f| look.say(f));
    let with = |text: &str, n: &str| if n.is_empty() { String::new() } else { format!("{text} {n}") };
    let (caption, alt) = match (input.kind, input.press) {
        (SeamKind::Plain, Press::Open) => (
            format!("A plain seam, {shown} from the edges, pressed open."),
            format!(
                "A cut through the seam, inside up. Two pieces meet in the middle and are stitched together {said} from their raw edges. The two \
                 allowances stand up on the inside; arrows show them pressed apart, one to the left and one to the right."
            ),
        ),
        (SeamKind::Plain, Press::OneSide) => (
            format!("A plain seam, {shown} from the edges, both allowances pressed to one side."),
            format!(
                "A cut through the seam, inside up. Two pieces meet in the middle and are stitched together {said} from their raw edges. Both \
                 allowances lie on the inside to the left, one on the other; an arrow shows them pressed over together."
            ),
        ),
        (SeamKind::Bound, _) => (
            format!("A plain seam pressed open, each {shown} allowance bound."),
            format!(
                "A cut through the seam, inside up. The allowances, {said} wide, are pressed apart. A narrow binding wraps each raw edge, over and \
                 under, and is stitched through."
            ),
        ),
        (SeamKind::FrenchFirst, _) => (
            format!(
                "French seam, first pass: wrong sides together, stitched {} from the edge.",
                if first.is_empty() { &shown } else { &first }
            ),
            format!(
                "A cut through two pieces that lie flat on each other, wrong sides together, right sides outward, raw edges level. They are stitched \
                 {} from the raw edges.",
                if first_said.is_empty() { &said } else { &first_said }
            ),
        ),
        (SeamKind::FrenchSecond, _) => (
            format!(
                "French seam, second pass: right sides together, stitched {shown} from the fold. The raw edges are shut in."
            ),
            format!(
                "A cut through the same two pieces turned right sides together. The first stitching lies at the fold. The raw edges lie between the \
                 pieces. A second row of stitching, {said} from the fold, goes through both pieces beyond the raw edges and shuts them in."
            ),
        ),
        (SeamKind::Felled, _) => (
            format!("A felled seam, {shown} wide: the wider allowance folded over the trimmed one and sewn flat."),
            format!(
                "A cut through the seam, inside up. Both allowances lie to the right. The inner one is trimmed{}. The other, {said} wide, is folded \
                 over it with its raw edge turned under, and a second row of stitching near the fold goes through all layers to the outside.",
                with(" to", &first_said)
            ),
        ),
        (SeamKind::Mounted, _) => (
            format!("A seam of mounted pieces, {shown} from the edges, pressed open: both layers handled as one."),
            format!(
                "A cut through the seam, inside up. Each side consists of the outer cloth with an under cloth inside it, handled as one. They are stitched \
                 together {said} from their raw edges, all four layers, and the allowances are pressed apart."
            ),
        ),
        (SeamKind::FelledLining, _) => (
            format!("The lining felled over a mounted seam: its allowances, {shown} wide, lie beneath."),
            format!(
                "A cut through a mounted seam, inside up, its allowances, {said} wide, pressed apart. The lining of the right side lies flat over the seam. The \
                 lining of the left side is turned under, its fold laid along the seam line on top, and felled down by hand with small stitches that go into the \
                 fold and then into the other lining just beside it, not through to the outside."
            ),
        ),
        (SeamKind::Faced, _) => (
            format!("A faced edge, seam {shown} from the raw edges, the facing turned to the inside."),
            format!(
                "A cut through the edge, inside up. The garment comes from the left, rolls over the edge and turns back inside for {said}. The facing \
                 lies on top of it, its own allowance turned in{}; the two turned-in layers are stitched together close to the edge. The seam lies just inside, so \
                 that the facing does not show outside.",
                with(", trimmed to", &first_said)
            ),
        ),
    };
    Words { caption, alt }
}
