//! What is laid where under a folding: sections of cloth with their items, or the reasons it cannot be used.

use super::outline::{block, edge, is_symmetric, opened, over_the_fold, upper_half};
use super::ways::{Form, Ground, ways};
use super::{ClothSpec, Cut, Folding, Piece, SectionKind};
use crate::lay::geom::Point;
use crate::lay::problem::{Item, Problem};

/// Something laid: an item of the section's problem and what cutting it yields.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    pub piece: usize,
    pub item: Item,
    /// Pieces cut by each laying: 2 on double cloth off the fold.
    pub cuts: usize,
    pub on_fold: bool,
    pub opened_out: bool,
}

/// A section of cloth with what is laid on it.
#[derive(Debug, Clone)]
pub(super) struct SectionPlan {
    pub ground: Ground,
    pub entries: Vec<Entry>,
}

impl SectionPlan {
    pub fn problem(&self) -> Problem {
        Problem { width: self.ground.width, items: self.entries.iter().map(|e| e.item.clone()).collect() }
    }
}

/// Sections in the order they follow one another on the cloth.
pub(super) fn plan(spec: &ClothSpec, pieces: &[Piece], folding: Folding) -> Result<Vec<SectionPlan>, Vec<String>> {
    let faults: Vec<String> = pieces.iter().filter_map(edge_fault).collect();
    if !faults.is_empty() {
        return Err(faults);
    }
    let double = folding.double();
    if double == Some(SectionKind::CrosswiseFold) && spec.one_way {
        return Err(vec![
            "one-way cloth is not folded crosswise: everything cut from the lower layer would run the other way"
                .to_owned(),
        ]);
    }
    let double = double.map(|kind| Ground::of(kind, spec.width));
    let open = Ground::of(SectionKind::Open, spec.width);
    let mut folded = Vec::new();
    let mut flat = Vec::new();
    let mut reasons = Vec::new();
    for (index, piece) in pieces.iter().enumerate() {
        let mut left = total(piece.cut);
        if let Some(ground) = double {
            let cut = cut_double(spec, piece, index, ground);
            left -= cut.entries.iter().map(|e| e.item.copies * e.cuts).sum::<usize>();
            folded.extend(cut.entries);
            match cut.left_why {
                Some(why) if !folding.then_open() => reasons.push(why),
                _ => {}
            }
        }
        if left > 0 && (double.is_none() || folding.then_open()) {
            match cut_open(spec, piece, index, open, left) {
                Ok(entries) => flat.extend(entries),
                Err(why) => reasons.push(why),
            }
        }
    }
    if !reasons.is_empty() {
        return Err(reasons);
    }
    if folding.then_open() {
        if flat.is_empty() {
            return Err(vec!["everything can be cut on the fold; nothing is left for an open part".to_owned()]);
        }
        if folded.is_empty() {
            return Err(vec!["nothing can be cut on the fold; all of it would be the open part".to_owned()]);
        }
    }
    let mut sections = Vec::new();
    if let Some(ground) = double
        && !folded.is_empty()
    {
        sections.push(SectionPlan { ground, entries: folded });
    }
    if !flat.is_empty() {
        sections.push(SectionPlan { ground: open, entries: flat });
    }
    Ok(sections)
}

/// Whole pieces to be cut.
pub(super) fn total(cut: Cut) -> usize {
    match cut {
        Cut::Same { copies } | Cut::OnFold { copies, .. } => copies,
        Cut::Pairs { pairs } => 2 * pairs,
    }
}

fn edge_fault(piece: &Piece) -> Option<String> {
    if let Some(hem) = piece.border_edge
        && hem >= piece.outline.len()
    {
        return Some(format!("{} has no corner {hem} at which an edge for the border could begin", piece.name));
    }
    let Cut::OnFold { edge: from, .. } = piece.cut else { return None };
    let Some(fold) = edge(&piece.outline, from) else {
        return Some(format!("{} has no corner {from} at which a fold edge could begin", piece.name));
    };
    if fold.0 == fold.1 {
        return Some(format!("{} has a fold edge without length", piece.name));
    }
    let over = over_the_fold(&piece.outline, fold);
    (over > 0.01).then(|| format!("{} reaches {over:.1} mm over its own fold edge", piece.name))
}

/// The outline that is laid, with its block and the edge for the border, as an item.
fn item(
    spec: &ClothSpec,
    piece: &Piece,
    ground: Ground,
    outline: &[Point],
    fold: Option<(Point, Point)>,
    over: &[bool],
    copies: usize,
) -> Result<Item, String> {
    let blocked = piece.block_margin.map(|margin| block(outline, margin, fold));
    let border = piece.border_edge.and_then(|e| edge(&piece.outline, e)).map(|hem| {
        // The side of the block that the hem faces takes the place of the hem.
        blocked.as_ref().map_or(hem, |b| facing_side(b, hem))
    });
    let laid: &[Point] = blocked.as_deref().unwrap_or(outline);
    let form = Form { outline: laid, fold, border, over };
    let choices = ways(spec, piece, &form, ground)?;
    Ok(Item { name: piece.name.clone(), copies, clearance: spec.gap, choices })
}

fn facing_side(block: &[Point], hem: (Point, Point)) -> (Point, Point) {
    let reach = |i: usize| {
        let (a, b) = (block[i], block[(i + 1) % block.len()]);
        let off = |p: Point| {
            if (a[0] - b[0]).abs() > (a[1] - b[1]).abs() { (p[1] - a[1]).abs() } else { (p[0] - a[0]).abs() }
        };
        off(hem.0).max(off(hem.1))
    };
    let nearest = (0..block.len()).min_by(|&i, &j| reach(i).total_cmp(&reach(j))).unwrap_or(0);
    (block[nearest], block[(nearest + 1) % block.len()])
}

const FACE_UP: &[bool] = &[false];
const FACE_DOWN: &[bool] = &[true];
const EITHER: &[bool] = &[false, true];

struct CutDouble {
    entries: Vec<Entry>,
    /// Why some of it is left for open cloth.
    left_why: Option<String>,
}

/// What of a piece can be cut from double cloth.
fn cut_double(spec: &ClothSpec, piece: &Piece, index: usize, ground: Ground) -> CutDouble {
    let entry = |item: Item, cuts: usize, on_fold: bool| Entry { piece: index, item, cuts, on_fold, opened_out: false };
    let none = |why: String| CutDouble { entries: Vec::new(), left_why: Some(why) };
    let doubled = |copies: usize| item(spec, piece, ground, &piece.outline, None, EITHER, copies);
    match piece.cut {
        Cut::OnFold { copies: 0, .. } | Cut::Same { copies: 0 } | Cut::Pairs { pairs: 0 } => {
            CutDouble { entries: Vec::new(), left_why: None }
        }
        Cut::OnFold { copies, edge: from } => {
            let fold = edge(&piece.outline, from);
            match item(spec, piece, ground, &piece.outline, fold, EITHER, copies) {
                Ok(item) => CutDouble { entries: vec![entry(item, 1, true)], left_why: None },
                Err(why) => none(why),
            }
        }
        Cut::Pairs { pairs } => match doubled(pairs) {
            Ok(item) => CutDouble { entries: vec![entry(item, 2, false)], left_why: None },
            Err(why) => none(why),
        },
        Cut::Same { copies } => {
            let symmetric = is_symmetric(&piece.outline);
            if !symmetric && !spec.either_side {
                return none(format!(
                    "{} is cut {copies} times the same way up, and double cloth gives mirrored pairs",
                    piece.name
                ));
            }
            let mut entries = Vec::new();
            if copies >= 2 {
                match doubled(copies / 2) {
                    Ok(item) => entries.push(entry(item, 2, false)),
                    Err(why) => return none(why),
                }
            }
            if copies % 2 == 0 {
                return CutDouble { entries, left_why: None };
            }
            match odd_one(spec, piece, ground, symmetric) {
                Ok(item) => {
                    entries.push(entry(item, 1, true));
                    CutDouble { entries, left_why: None }
                }
                Err(why) => CutDouble { entries, left_why: Some(why) },
            }
        }
    }
}

/// An odd copy of a symmetric piece, laid on the fold by its half.
fn odd_one(spec: &ClothSpec, piece: &Piece, ground: Ground, symmetric: bool) -> Result<Item, String> {
    let why = || format!("{} is cut an odd number of times and double cloth gives two at a time", piece.name);
    if !symmetric {
        return Err(why());
    }
    let half = upper_half(&piece.outline).ok_or_else(why)?;
    item(spec, piece, ground, &half.0, Some(half.1), EITHER, 1).map_err(|reason| format!("{}; {reason}", why()))
}

/// The rest of a piece on open cloth.
fn cut_open(spec: &ClothSpec, piece: &Piece, index: usize, ground: Ground, left: usize) -> Result<Vec<Entry>, String> {
    let entry = |item: Item, opened_out: bool| Entry { piece: index, item, cuts: 1, on_fold: false, opened_out };
    match piece.cut {
        Cut::OnFold { edge: from, .. } => {
            let whole = opened(&piece.outline, from);
            Ok(vec![entry(item(spec, piece, ground, &whole, None, EITHER, left)?, true)])
        }
        Cut::Same { .. } => {
            let over = if spec.either_side || is_symmetric(&piece.outline) { EITHER } else { FACE_UP };
            Ok(vec![entry(item(spec, piece, ground, &piece.outline, None, over, left)?, false)])
        }
        Cut::Pairs { .. } if spec.either_side => {
            Ok(vec![entry(item(spec, piece, ground, &piece.outline, None, EITHER, left)?, false)])
        }
        Cut::Pairs { .. } => [FACE_UP, FACE_DOWN]
            .into_iter()
            .map(|over| Ok(entry(item(spec, piece, ground, &piece.outline, None, over, left / 2)?, false)))
            .collect(),
    }
}
