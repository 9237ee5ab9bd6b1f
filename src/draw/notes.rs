//! Where words go: columns beside the drawing and rows above and under it, with leaders that do not cross.

use kurbo::{Point, Rect};

use super::figure::{Anchor, Label, LabelStyle, Leader};
use super::geom::{cross, pt};
use super::metric;
use super::scene::SIZE;

/// On which side of the drawing a note stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    /// In a column at the left.
    Left,
    /// In a column at the right.
    Right,
    /// In a row above.
    Above,
    /// In a row below.
    Below,
}

/// Words waiting for their place.
#[derive(Debug, Clone)]
pub(crate) struct Note {
    pub(crate) side: Side,
    pub(crate) target: Point,
    pub(crate) text: String,
}

/// Distance of notes from the drawing, mm.
const STAND_OFF: f64 = 4.0;
/// Distance between notes, mm.
const GAP: f64 = 1.6;

/// The notes as labels with leaders, placed round `body`.
pub(crate) fn place(notes: &[Note], body: Rect) -> Vec<Label> {
    let mut out = Vec::new();
    for side in [Side::Left, Side::Right, Side::Above, Side::Below] {
        let mut group: Vec<&Note> = notes.iter().filter(|n| n.side == side).collect();
        let upright = matches!(side, Side::Left | Side::Right);
        group.sort_by(|a, b| {
            let key = |n: &Note| if upright { n.target.y } else { n.target.x };
            key(a).total_cmp(&key(b))
        });
        let mut labels = lay(&group, side, body);
        for _ in 0..40 {
            let Some((i, j)) = crossing(&labels) else { break };
            group.swap(i, j);
            labels = lay(&group, side, body);
        }
        out.extend(labels);
    }
    out
}

/// Places the notes of one side in the order given.
fn lay(group: &[&Note], side: Side, body: Rect) -> Vec<Label> {
    let upright = matches!(side, Side::Left | Side::Right);
    let sizes: Vec<f64> = group
        .iter()
        .map(|n| {
            if upright { metric::height(&n.text, SIZE) } else { metric::width(&n.text, SIZE, LabelStyle::Plain) + 1.0 }
        })
        .collect();
    let wanted: Vec<f64> = group.iter().map(|n| if upright { n.target.y } else { n.target.x }).collect();
    let centres = apart(&wanted, &sizes);
    group.iter().zip(centres).map(|(note, centre)| label(note, side, centre, body)).collect()
}

fn label(note: &Note, side: Side, centre: f64, body: Rect) -> Label {
    let high = metric::height(&note.text, SIZE);
    let (x, top, anchor) = match side {
        Side::Left => (body.x0 - STAND_OFF, centre - high / 2.0, Anchor::End),
        Side::Right => (body.x1 + STAND_OFF, centre - high / 2.0, Anchor::Start),
        Side::Above => (centre, body.y0 - STAND_OFF - high, Anchor::Middle),
        Side::Below => (centre, body.y1 + STAND_OFF, Anchor::Middle),
    };
    let from = match side {
        Side::Left => pt(x + 0.9, centre),
        Side::Right => pt(x - 0.9, centre),
        Side::Above => pt(x, top + high + 0.3),
        Side::Below => pt(x, top - 0.4),
    };
    Label {
        x,
        y: top + metric::ascent(SIZE),
        anchor,
        text: note.text.clone(),
        size_pt: SIZE,
        style: LabelStyle::Plain,
        leader: Some(Leader { from: [from.x, from.y], to: [note.target.x, note.target.y] }),
    }
}

/// Centres as near the wanted ones as sizes allow, in the order given: runs that press on one another
/// are moved together to the mean of what their members want.
fn apart(wanted: &[f64], sizes: &[f64]) -> Vec<f64> {
    // Each run: first member, last member, centre offset sum, place of its start.
    let mut runs: Vec<(usize, usize, f64)> = Vec::new();
    let span = |a: usize, b: usize| sizes.iter().skip(a).take(b - a + 1).map(|s| s + GAP).sum::<f64>();
    let start_of = |a: usize, b: usize| {
        let mut offset = 0.0;
        let mut sum = 0.0;
        let mut count = 0.0;
        for i in a..=b {
            let (w, s) = (wanted.get(i).copied().unwrap_or(0.0), sizes.get(i).copied().unwrap_or(0.0));
            sum += w - (offset + s / 2.0);
            offset += s + GAP;
            count += 1.0;
        }
        sum / count
    };
    for i in 0..wanted.len() {
        let mut run = (i, i, start_of(i, i));
        while let Some(before) = runs.last().copied() {
            if before.2 + span(before.0, before.1) <= run.2 {
                break;
            }
            runs.pop();
            run = (before.0, run.1, start_of(before.0, run.1));
        }
        runs.push(run);
    }
    let mut centres = Vec::with_capacity(wanted.len());
    for (a, b, start) in runs {
        let mut at = start;
        for size in sizes.iter().skip(a).take(b - a + 1) {
            centres.push(at + size / 2.0);
            at += size + GAP;
        }
    }
    centres
}

fn crossing(labels: &[Label]) -> Option<(usize, usize)> {
    let line = |l: &Label| l.leader.map(|g| (pt(g.from[0], g.from[1]), pt(g.to[0], g.to[1])));
    for (i, a) in labels.iter().enumerate() {
        for (j, b) in labels.iter().enumerate().skip(i + 1) {
            if let (Some(a), Some(b)) = (line(a), line(b))
                && cross(a, b)
            {
                return Some((i, j));
            }
        }
    }
    None
}
