//! The pages a buyer lays her cloth by.

use crate::check::Cloth;
use crate::draw::{LaidShape, LayoutFigure, Measure, Spread};
use crate::lay::cloth::{Folding, SectionKind};
use crate::prose::{Block, Run};
use crate::set::view::{ClothLengths, LayoutPage, LayoutPlace, LayoutSection, Layouts};
use crate::units::{Length, Printed, Show, print};
use crate::words::Word;

use super::laid::{LaidCloth, LaidPiece, LaidSection};
use super::words::{lies, reason, spread, way};
use crate::book::desk::Desk;
use crate::book::figures::Drawings;
use crate::book::glance::{role, width_words};
use crate::book::rows::row;

/// The paper a section may take, mm.
const ROOM: (f64, f64) = (165.0, 96.0);
/// Places nearer than this are one place, mm.
const SAME: f64 = 0.5;

/// The layouts of an edition: a page a cloth, a width and an arrangement.
pub(in crate::book) fn layouts(desk: &Desk<'_>, drawings: &mut Drawings<'_, '_>) -> Layouts {
    let mut pages = Vec::new();
    let mut lengths = Vec::new();
    let middle = desk.drawn().map(|sized| sized.size.as_str()).unwrap_or_default();
    for (at, cloth) in desk.garment.cloths.iter().enumerate() {
        let mut rows = Vec::new();
        for (nth, width) in cloth.widths.iter().enumerate() {
            let laid: Vec<&LaidCloth> =
                desk.sizes().filter_map(|sized| desk.build.laid(&cloth.name, &sized.size, *width)).collect();
            if laid.len() == desk.selection.indexes.len() {
                rows.extend(length_rows(desk, *width, &laid));
            }
            for group in groups(&laid) {
                let sizes: Vec<String> = group.iter().map(|one| one.need.size.clone()).collect();
                let booklet = sizes.iter().any(|size| size == middle);
                let id = format!("layout-{at}-{nth}-{}", pages.len());
                pages.extend(page(desk, drawings, (cloth, *width), &group, (&id, booklet, sizes)));
            }
        }
        if !rows.is_empty() {
            let (name, role) = (cloth.title.clone(), desk.say(role(cloth.role)).to_string());
            lengths.push(ClothLengths { name, role, rows });
        }
    }
    let say = |word: Word| Block::Paragraph { runs: vec![Run::text(desk.say(word))] };
    let intro = [Word::LayIntro, Word::LayRead, Word::LayCheck].map(say).to_vec();
    Layouts { intro, lengths, pages }
}

/// What is to buy, and what of it the pieces take, at one width.
pub(in crate::book) fn length_rows(desk: &Desk<'_>, width: Length, laid: &[&LaidCloth]) -> Vec<crate::prose::StripRow> {
    let width = width_words(width, desk);
    let printed = |of: fn(&LaidCloth) -> Length| -> Vec<Printed> {
        laid.iter().map(|one| print(of(one).into(), Show::CLOTH)).collect()
    };
    vec![
        row(desk.words.fill(Word::LayBuy, &[("width", &width)]), &printed(|one| one.need.buy), desk.systems),
        row(desk.words.fill(Word::LayWashed, &[("width", &width)]), &printed(|one| one.need.laid), desk.systems),
    ]
}

/// Neighbouring sizes whose pieces lie in the same order, the same way round and in the same rows.
fn groups<'a>(laid: &[&'a LaidCloth]) -> Vec<Vec<&'a LaidCloth>> {
    let mut groups: Vec<Vec<&LaidCloth>> = Vec::new();
    for one in laid {
        match groups.last_mut() {
            Some(group) if group.last().is_some_and(|last| alike(last, one)) => group.push(one),
            _ => groups.push(vec![one]),
        }
    }
    groups
}

fn alike(a: &LaidCloth, b: &LaidCloth) -> bool {
    a.need.folding == b.need.folding
        && a.sections.len() == b.sections.len()
        && a.sections.iter().zip(&b.sections).all(|(a, b)| {
            a.kind == b.kind
                && a.pieces.len() == b.pieces.len()
                && a.pieces.iter().zip(&b.pieces).all(|(p, q)| {
                    let same = |p: &LaidPiece| (p.number, p.on_fold, p.opened_out, p.face_down, p.degrees);
                    same(p) == same(q)
                })
                && beside(a) == beside(b)
        })
}

/// For each two pieces, whether one lies before or above the other: what makes an arrangement.
fn beside(section: &LaidSection) -> Vec<(bool, bool, bool, bool)> {
    let boxes: Vec<_> = section.pieces.iter().map(LaidPiece::bounds).collect();
    let pairs = boxes.iter().enumerate().flat_map(|(i, a)| boxes.iter().skip(i + 1).map(move |b| (a, b)));
    pairs
        .map(|((low, high), (other_low, other_high))| {
            let before = |axis: usize| high[axis] <= other_low[axis] + SAME;
            let after = |axis: usize| other_high[axis] <= low[axis] + SAME;
            (before(0), after(0), before(1), after(1))
        })
        .collect()
}

fn page(
    desk: &Desk<'_>,
    drawings: &mut Drawings<'_, '_>,
    (cloth, width): (&Cloth, Length),
    group: &[&LaidCloth],
    (id, booklet, sizes): (&str, bool, Vec<String>),
) -> Option<LayoutPage> {
    let shown = *group.get(group.len() / 2)?;
    let mut sections = Vec::new();
    for (at, section) in shown.sections.iter().enumerate() {
        let figure = drawings.layout(&figure(desk, cloth, section), &format!("{id}-{at}"))?;
        sections.push(LayoutSection {
            title: desk.say(part(shown, at)).to_string(),
            figure,
            edge: desk.say(edge(section.kind)).to_string(),
            places: places(desk, group, at),
        });
    }
    let shown_for = (group.len() > 1).then(|| Block::Paragraph {
        runs: vec![Run::text(desk.words.fill(Word::LayShown, &[("size", &shown.need.size)]))],
    });
    Some(LayoutPage {
        cloth: cloth.title.clone(),
        role: desk.say(role(cloth.role)).to_string(),
        width: desk.words.fill(Word::ClothWide, &[("width", &width_words(width, desk))]),
        sizes,
        booklet,
        words: how(desk, cloth, shown).into_iter().chain(shown_for).collect(),
        lengths: length_rows(desk, width, group),
        sections,
    })
}

/// What distances across are measured from.
fn edge(kind: SectionKind) -> Word {
    match kind {
        SectionKind::LengthwiseFold => Word::LayFromFold,
        SectionKind::GateFold => Word::LayFromLowerFold,
        SectionKind::Open | SectionKind::CrosswiseFold => Word::LayFromSelvage,
    }
}

fn part(shown: &LaidCloth, at: usize) -> Word {
    match (shown.need.folding, at) {
        (Folding::LengthwiseThenOpen, 0) => Word::LayFirstPart,
        (Folding::CrosswiseThenOpen, 0) => Word::LayFirstCross,
        (Folding::LengthwiseThenOpen | Folding::CrosswiseThenOpen, _) => Word::LaySecondPart,
        (Folding::Single, _) => Word::LayOnePart,
        (Folding::Lengthwise, _) => Word::LayFoldedPart,
        (Folding::Crosswise, _) => Word::LayCrossPart,
        (Folding::Doubled, _) => Word::LayDoubledPart,
    }
}

/// How to spread the cloth and what to mind; why no other way was taken.
fn how(desk: &Desk<'_>, cloth: &Cloth, shown: &LaidCloth) -> Vec<Block> {
    let said = |length: Length, show: Show| print(length.into(), show).typeset(desk.systems);
    let first = shown.sections.first().map_or(Length::mm(0.0), |section| section.length);
    let mut text = desk.words.fill(spread(shown.need.folding), &[("length", &said(first, Show::LENGTH_UP))]);
    let mut more = |words: String| {
        text.push(' ');
        text.push_str(&words);
    };
    if cloth.one_way {
        more(desk.say(Word::LayOneWay).to_string());
    }
    more(desk.words.fill(Word::LayGap, &[("gap", &said(shown.gap, Show::LENGTH))]));
    if let Some(margin) = cloth.laying.block_margin {
        more(desk.words.fill(Word::LayBlocks, &[("margin", &said(margin, Show::LENGTH))]));
    }
    if cloth.laying.border.is_some() {
        more(desk.say(Word::LayBorder).to_string());
    }
    if cloth.laying.repeat.is_some() {
        more(desk.say(Word::LayRepeat).to_string());
    }
    let mut blocks = vec![Block::Paragraph { runs: vec![Run::text(text)] }];
    for section in &shown.sections {
        if let Some(spare) = &section.spare {
            let (length, width) =
                (said(Length::mm(spare.length), Show::LENGTH_DOWN), said(Length::mm(spare.width), Show::LENGTH_DOWN));
            let word = if section.kind == SectionKind::Open { Word::LaySpare } else { Word::LaySpareDouble };
            let words = desk.words.fill(word, &[("length", &length), ("width", &width)]);
            blocks.push(Block::Paragraph { runs: vec![Run::text(words)] });
        }
    }
    let others: Vec<Vec<Run>> = shown
        .need
        .others
        .iter()
        .map(|other| {
            let way = desk.say(way(other.folding));
            let words = match other.length {
                Some(length) => desk.words.fill(Word::LayMore, &[("way", way), ("length", &said(length, Show::CLOTH))]),
                None => {
                    let why: Vec<String> = other.reasons.iter().take(2).map(|why| reason(desk, why)).collect();
                    desk.words.fill(Word::LayCannot, &[("way", way), ("why", &why.join("; "))])
                }
            };
            vec![Run::text(words)]
        })
        .collect();
    if !others.is_empty() {
        blocks.push(Block::List { ordered: false, items: others });
    }
    blocks
}

/// Where each piece begins, in every size of the group.
fn places(desk: &Desk<'_>, group: &[&LaidCloth], at: usize) -> Vec<LayoutPlace> {
    let Some(section) = group.get(group.len() / 2).and_then(|shown| shown.sections.get(at)) else { return Vec::new() };
    let double = section.kind != SectionKind::Open;
    let measured = |index: usize, axis: usize| -> Vec<Printed> {
        group
            .iter()
            .filter_map(|one| one.sections.get(at)?.pieces.get(index))
            .map(|piece| print(Length::mm(piece.bounds().0[axis].max(0.0)).into(), Show::LENGTH))
            .collect()
    };
    section
        .pieces
        .iter()
        .enumerate()
        .map(|(index, piece)| LayoutPlace {
            number: piece.number,
            name: piece.title.clone(),
            lies: lies(desk, piece, double),
            along: row(desk.say(Word::LayFromEnd), &measured(index, 0), desk.systems),
            across: row("", &measured(index, 1), desk.systems),
        })
        .collect()
}

fn figure(desk: &Desk<'_>, cloth: &Cloth, section: &LaidSection) -> LayoutFigure {
    let _ = desk;
    let measure = |length: Length, show: Show| Measure::new(length, show);
    LayoutFigure {
        cloth: cloth.title.clone(),
        spread: match section.kind {
            SectionKind::Open => Spread::Open,
            SectionKind::LengthwiseFold => Spread::Lengthwise,
            SectionKind::CrosswiseFold => Spread::Crosswise,
            SectionKind::GateFold => Spread::Doubled,
        },
        length: measure(section.length, Show::LENGTH_UP),
        width: measure(section.width, Show::LENGTH),
        one_way: cloth.one_way,
        pieces: section.pieces.iter().map(shape).collect(),
        spare: section.spare.map(|spare| {
            let side = |mm: f64| measure(Length::mm(mm), Show::LENGTH_DOWN);
            (spare.at, side(spare.length), side(spare.width))
        }),
        room: ROOM,
    }
}

fn shape(piece: &LaidPiece) -> LaidShape {
    let (low, high) = piece.bounds();
    // Grain runs along the cloth, so a half is turned over in a line along the cloth or across it.
    let opened_at = piece.opened_out.then(|| {
        let spans = |axis: usize| {
            let values = || piece.pattern.iter().map(|p| p[axis]);
            values().fold(f64::NEG_INFINITY, f64::max) - values().fold(f64::INFINITY, f64::min)
        };
        let middle = [f64::midpoint(low[0], high[0]), f64::midpoint(low[1], high[1])];
        if spans(1) < (high[1] - low[1]) * 0.75 {
            ([low[0], middle[1]], [high[0], middle[1]])
        } else {
            ([middle[0], low[1]], [middle[0], high[1]])
        }
    });
    LaidShape {
        number: piece.number,
        name: piece.title.clone(),
        outline: piece.outline.clone(),
        pattern: piece.pattern.clone(),
        opened_at,
        face_down: piece.face_down,
        forward: piece.degrees == 0,
        on_fold: piece.on_fold,
    }
}
