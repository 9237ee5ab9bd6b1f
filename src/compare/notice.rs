//! The page for buyers of the earlier edition.

use std::fmt::Write;

use super::numbers::NumberChange;
use super::pages::ranges;
use super::pieces::{Overlay, PieceChange, PieceFate};
use super::report::Comparison;
use super::seams::Fate;
use crate::book::Account;
use crate::set::view::{Edition, Notice, NoticePiece, NoticeRow};
use crate::units::{Length, Show, Systems, print};

/// The width an overlay is drawn at, mm.
const WIDE: f64 = 46.0;
/// The height it may take, mm.
const TALL: f64 = 42.0;
/// How many pieces are drawn.
const DRAWN: usize = 3;

/// The view of the page "What changed". `most` is how many lines a list may have; what is left out is counted.
#[must_use]
pub fn notice(comparison: &Comparison, new: &Account, most: usize) -> Notice {
    let words = new.changes.iter().filter(|(edition, _)| *edition == comparison.new).map(|(_, words)| words.clone());
    let systems = new.systems;
    let all = new.sizes.len();
    // What is measured on a piece is shown by its drawing.
    let measured = |name: &str| {
        let piece = name.split('.').next().unwrap_or(name);
        new.sizes.iter().any(|sized| sized.pieces.contains_key(piece))
    };
    let numbers = comparison.numbers.iter().filter(|number| !number.sizes.is_empty() && !measured(&number.name));
    let cloths = comparison.cloths.iter().map(|cloth| NoticeRow {
        label: format!("{}, {} wide", cloth.cloth.replace('_', " "), cloth.width),
        sizes: cloth.sizes.iter().map(set).collect(),
        everywhere: false,
    });
    let documents = comparison.documents.iter().flatten().filter(|document| document.what != Fate::Gone);
    let pages = documents.filter_map(|document| match (document.what, document.print.as_deref()) {
        (Fate::New, _) => Some(format!("{}: new", document.path)),
        (_, Some([])) => None,
        (_, Some(pages)) => Some(format!("{}: {}", document.path, ranges(pages))),
        (_, None) => Some(document.path.clone()),
    });
    let steps = comparison.steps.iter().map(|step| {
        let what = match step.what {
            Fate::New => "new",
            Fate::Gone => "left out",
            Fate::Changed => match (step.words, step.numbers, step.figures.is_empty()) {
                (true, true, _) => "words and numbers",
                (true, false, _) => "words",
                (false, true, _) => "numbers",
                (false, false, false) => "figure",
                (false, false, true) => "number of the step",
            },
        };
        format!("Step {}, {}: {what}", step.number, step.title)
    });
    let (numbers, numbers_left) = some(numbers.map(|number| row(number, all)), most);
    let (cloths, cloths_left) = some(cloths, most);
    let (pages, pages_left) = some(pages, most);
    // Steps stand in two columns.
    let (steps, steps_left) = some(steps, most * 2);
    let drawn = comparison.pieces.iter().filter(|piece| piece.overlay.is_some()).take(DRAWN);
    let others = comparison.pieces.iter().filter(|piece| piece.overlay.is_none()).map(plain);
    let undrawn = comparison.pieces.iter().filter(|piece| piece.overlay.is_some()).skip(DRAWN);
    let undrawn = undrawn.map(|piece| format!("{}: the cut line moved", piece.title));
    Notice {
        title: comparison.title.clone(),
        accent: new.accent.clone(),
        language: "en".to_string(),
        edition: Edition { version: comparison.new.clone(), words: "All sizes".to_string(), remark: String::new() },
        from: comparison.old.clone(),
        sizes: new.sizes.iter().map(|sized| sized.size.clone()).collect(),
        words: words.collect(),
        sizes_in: comparison.sizes_in.clone(),
        sizes_out: comparison.sizes_out.clone(),
        numbers,
        numbers_left,
        pieces: drawn.filter_map(|piece| drawing(piece, systems, all)).collect(),
        other_pieces: others.chain(undrawn).collect(),
        cloths,
        cloths_left,
        steps,
        steps_left,
        pages,
        pages_left,
    }
}

/// A size with its numbers, fractions set as fractions.
fn set((size, old, new): &(String, String, String)) -> (String, String, String) {
    (size.clone(), fractions(old), fractions(new))
}

/// `3/4` with the fraction slash between digits, as the page takes it.
fn fractions(text: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let digit = |at: Option<usize>| at.and_then(|at| letters.get(at)).is_some_and(char::is_ascii_digit);
    let slash = |(at, c): (usize, &char)| match c {
        '/' if digit(at.checked_sub(1)) && digit(Some(at + 1)) => '\u{2044}',
        c => *c,
    };
    letters.iter().enumerate().map(slash).collect()
}

/// As many as there may be, and how many are left out.
fn some<T>(items: impl Iterator<Item = T>, most: usize) -> (Vec<T>, usize) {
    let mut items: Vec<T> = items.collect();
    let left = items.len().saturating_sub(most);
    items.truncate(most);
    (items, left)
}

fn row(number: &NumberChange, all: usize) -> NoticeRow {
    let words = |text: &str| text.replace('_', " ");
    let label = match number.name.split_once('.') {
        Some((entry, _)) if !number.label.starts_with(&words(entry)) => {
            format!("{}: {}", words(entry), words(&number.label))
        }
        _ => words(&number.label),
    };
    let sizes: Vec<(String, String, String)> = number
        .sizes
        .iter()
        .map(|size| (size.size.clone(), size.old.clone().unwrap_or_default(), size.new.clone().unwrap_or_default()))
        .map(|size| set(&size))
        .collect();
    let same = sizes.windows(2).all(|pair| pair[0].1 == pair[1].1 && pair[0].2 == pair[1].2);
    NoticeRow { label, everywhere: same && sizes.len() == all, sizes }
}

fn plain(piece: &PieceChange) -> String {
    match piece.what {
        PieceFate::New => format!("{}: new", piece.title),
        PieceFate::Gone => format!("{}: no longer needed", piece.title),
        PieceFate::Cut => format!("{}: the same shape, cut in another number or cloth", piece.title),
        PieceFate::Moved => format!("{}: the cut line moved", piece.title),
    }
}

fn drawing(piece: &PieceChange, systems: Systems, all: usize) -> Option<NoticePiece> {
    let overlay = piece.overlay.as_ref()?;
    let far = |length: Length| print(length.into(), Show::SMALL).typeset(systems);
    let (_, most) = piece.moved.iter().find(|(size, _)| *size == overlay.size)?;
    let sizes: Vec<&str> = piece.moved.iter().map(|(size, _)| size.as_str()).collect();
    let everywhere = sizes.len() == all;
    let (svg, width_mm, height_mm) = picture(overlay)?;
    Some(NoticePiece {
        title: piece.title.clone(),
        words: format!("Size {} is drawn; the lines lie at most {} apart.", overlay.size, far(*most)),
        sizes: if everywhere { String::new() } else { sizes.join(", ") },
        alt: format!(
            "{}, size {}: the new cut line laid on the old one, at most {} apart.",
            piece.title,
            overlay.size,
            far(*most)
        ),
        svg,
        width_mm,
        height_mm,
    })
}

/// Old line dashed and thin, new line solid, and a ring about the place where they are farthest apart; with its size, mm.
fn picture(overlay: &Overlay) -> Option<(String, f64, f64)> {
    let all = overlay.old.iter().chain(&overlay.new);
    let frame = all.fold(None::<[f64; 4]>, |frame, [x, y]| {
        let [l, t, r, b] = frame.unwrap_or([*x, *y, *x, *y]);
        Some([l.min(*x), t.min(*y), r.max(*x), b.max(*y)])
    })?;
    let [left, top, right, bottom] = frame;
    let (wide, high) = ((right - left).max(1.0), (bottom - top).max(1.0));
    let scale = (WIDE / wide).min(TALL / high);
    let margin = 3.0;
    let place = |[x, y]: [f64; 2]| (margin + (x - left) * scale, margin + (y - top) * scale);
    let line = |points: &[[f64; 2]]| {
        points.iter().fold(String::new(), |mut text, point| {
            let (x, y) = place(*point);
            let _ = write!(text, "{x:.2},{y:.2} ");
            text
        })
    };
    let (width, height) = (wide * scale + 2.0 * margin, high * scale + 2.0 * margin);
    let (ax, ay) = place(overlay.apart.0);
    let (bx, by) = place(overlay.apart.1);
    let (cx, cy) = ((ax + bx) / 2.0, (ay + by) / 2.0);
    let ring = ((ax - bx).hypot(ay - by) / 2.0 + 1.0).clamp(1.6, margin - 0.3);
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.2}mm\" height=\"{height:.2}mm\" \
         viewBox=\"0 0 {width:.2} {height:.2}\" fill=\"none\" stroke-linejoin=\"round\">\
         <polygon points=\"{}\" stroke=\"#555555\" stroke-width=\"0.3\" stroke-dasharray=\"1.6 1.1\"/>\
         <polygon points=\"{}\" stroke=\"#000000\" stroke-width=\"0.55\"/>\
         <circle cx=\"{cx:.2}\" cy=\"{cy:.2}\" r=\"{ring:.2}\" stroke=\"#000000\" stroke-width=\"0.35\"/></svg>",
        line(&overlay.old).trim_end(),
        line(&overlay.new).trim_end(),
    );
    Some((svg, width, height))
}
