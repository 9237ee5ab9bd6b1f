//! "My own swatch": what a range of results means for every size.

use std::collections::BTreeMap;

use indexmap::IndexMap;

use crate::check::{Construction, Swatch as Measured};
use crate::fault::Route;
use crate::prose::{Block, Run};
use crate::reckon::{Given, Value};
use crate::set::view::{Cell, ResultRow, ResultTable, Swatch, SwatchChapter};
use crate::shape::{Expr, InputShape};
use crate::units::{Length, Quantity, Show, print};
use crate::words::Word;

use super::desk::Desk;
use super::figures::Drawings;

/// How the buyer's swatch may turn out, as a share of ours: from much tighter to much looser.
const RANGE: [f64; 7] = [0.80, 0.87, 0.93, 1.0, 1.07, 1.14, 1.22];

pub(super) fn swatches(desk: &Desk<'_>, drawings: &mut Drawings<'_, '_>) -> Option<SwatchChapter> {
    let garment = desk.garment;
    if garment.swatches.is_empty() {
        return None;
    }
    let words = garment.shape.swatch_page.as_deref().unwrap_or(desk.say(Word::SwatchIntro));
    let blocks = desk.blocks(&Route::top().key("swatch_page"), words);
    let swatches = garment.swatches.iter().map(|swatch| one(desk, drawings, swatch)).collect();
    Some(SwatchChapter { blocks, swatches, differs: differs(desk) })
}

fn differs(desk: &Desk<'_>) -> Vec<Block> {
    [Word::SwatchNearest, Word::SwatchDash]
        .into_iter()
        .map(|word| Block::Paragraph { runs: vec![Run::text(desk.say(word))] })
        .collect()
}

fn one(desk: &Desk<'_>, drawings: &mut Drawings<'_, '_>, swatch: &Measured) -> Swatch {
    let route = Route::top().key("swatches").key(swatch.name.as_str());
    let request: IndexMap<String, InputShape> = [("kind", "swatch"), ("swatch", swatch.name.as_str())]
        .into_iter()
        .map(|(key, value)| (key.to_string(), InputShape::One(Expr::from(value))))
        .collect();
    let figures = drawings.view(&route, &request, &format!("swatch-{}", swatch.name)).into_iter().collect();
    let layers: Vec<String> = swatch
        .layers
        .iter()
        .map(|(cloth, folded)| {
            let title = desk.garment.cloth(cloth).map_or(cloth.as_str(), |cloth| cloth.title.as_str());
            desk.words.fill(if *folded { Word::SwatchFolded } else { Word::SwatchSingle }, &[("cloth", title)])
        })
        .collect();
    let show = |length: Length, show: Show| print(length.into(), show).typeset(desk.systems);
    let sew = desk.words.fill(
        Word::SwatchSew,
        &[
            ("layers", &layers.join("; ")),
            ("stitch", &show(swatch.stitch, Show::SMALL)),
            ("flat", &show(swatch.flat, Show::FINE)),
        ],
    );
    let mut blocks = vec![Block::Paragraph { runs: vec![Run::text(sew)] }];
    if let Some(note) = &swatch.note {
        blocks.extend(desk.blocks(&route.key("note"), note));
    }
    Swatch {
        id: swatch.name.clone(),
        name: swatch.title.clone(),
        sew: blocks,
        figures,
        flat: show(swatch.flat, Show::FINE),
        drawn: show(swatch.tight, Show::FINE),
        eased: swatch.eased.map(|eased| show(eased, Show::FINE)).unwrap_or_default(),
        ratio: print(Quantity::number(swatch.flat / swatch.tight), Show::RATIO).typeset(desk.systems),
        results: results(desk, swatch),
    }
}

/// The pleats each size takes with another drawn-up width: the technique of the garment, worked again.
fn results(desk: &Desk<'_>, swatch: &Measured) -> Option<ResultTable> {
    let entry = desk.garment.construction.iter().find(|entry| entry.swatch.as_deref() == Some(swatch.name.as_str()))?;
    entry.technique.output("pleats")?;
    let rows: Vec<ResultRow> = RANGE
        .iter()
        .map(|share| {
            let drawn = swatch.tight * *share;
            let cells = desk
                .sizes()
                .map(|sized| {
                    let answer = sized.answers.get(&entry.name)?;
                    pleats(entry, &answer.inputs, swatch, *share)
                })
                .map(|pleats| Cell::new(pleats.unwrap_or_else(|| "–".to_string()), ""))
                .collect();
            ResultRow {
                drawn: print(drawn.into(), Show::FINE).typeset(desk.systems),
                ratio: print(Quantity::number(swatch.flat / drawn), Show::RATIO).typeset(desk.systems),
                ours: (share - 1.0).abs() < 1e-9,
                cells,
            }
        })
        .collect();
    Some(ResultTable {
        caption: desk.say(Word::SwatchFit).to_string(),
        head: desk
            .words
            .fill(Word::SwatchHead, &[("flat", &print(swatch.flat.into(), Show::FINE).typeset(desk.systems))]),
        rows,
    })
}

/// The pleats with a swatch drawn up to a share of ours, where they are within reach.
fn pleats(
    entry: &Construction,
    inputs: &[(String, Value, Show, bool)],
    swatch: &Measured,
    share: f64,
) -> Option<String> {
    let mut values: BTreeMap<String, Value> = inputs
        .iter()
        .filter(|(_, _, _, assumed)| !assumed)
        .map(|(name, value, ..)| (name.clone(), value.clone()))
        .collect();
    values.insert("swatch_tight".to_string(), Value::Quantity((swatch.tight * share).into()));
    if let Some(eased) = swatch.eased {
        values.insert("swatch_eased".to_string(), Value::Quantity((eased * share).into()));
    }
    if entry.technique.input("take").is_some() {
        values.insert("take".to_string(), Value::Word("what-fits".to_string()));
    }
    let answer = entry.technique.answer(Given::check(entry.technique, values).ok()?).ok()?;
    if answer.out_of_reach.is_some() {
        return None;
    }
    answer.printed("pleats").map(|printed| printed.plain)
}
