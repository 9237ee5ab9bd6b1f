//! From a drawing to what the documents take.

use crate::draw::{self, Look, key_swatch};
use crate::prose::Run;
use crate::set::view;

/// A drawing with its id, number, and the signs to be explained beside it.
pub(super) fn convert(
    drawn: &draw::Figure,
    id: &str,
    number: Option<u32>,
    remark: Option<&str>,
    look: &Look,
    key: &[draw::KeyEntry],
) -> view::Figure {
    let mut caption = drawn.caption.clone();
    if number.is_some() {
        for more in remarks(drawn, remark) {
            if !caption.contains(more.trim_end_matches('.')) {
                caption = format!("{} {more}", caption.trim_end());
            }
        }
    }
    view::Figure {
        id: id.to_string(),
        number,
        svg: drawn.svg.clone(),
        width_mm: drawn.width_mm,
        height_mm: drawn.height_mm,
        labels: drawn.labels.iter().map(label).collect(),
        callouts: drawn
            .callouts
            .iter()
            .map(|callout| view::Callout {
                letter: callout.letter.clone(),
                x: callout.x,
                y: callout.y,
                words: (!callout.meaning.is_empty()).then(|| Run::text(callout.meaning.clone())).into_iter().collect(),
            })
            .collect(),
        caption: vec![Run::text(caption)],
        alt: drawn.alt.clone(),
        key: key.iter().filter_map(|entry| key_entry(*entry, look)).collect(),
    }
}

/// What stands behind every caption: the scale, and the size drawn where sizes differ. A line never ends within either.
pub(super) fn remarks(drawn: &draw::Figure, remark: Option<&str>) -> impl Iterator<Item = String> {
    let scale = drawn.scale.to_string().replace(' ', "\u{a0}") + ".";
    let size = remark.map(|words| match words.rsplit_once(' ') {
        Some((first, last)) => format!("{first}\u{a0}{last}"),
        None => words.to_string(),
    });
    [Some(scale), size].into_iter().flatten()
}

fn label(label: &draw::Label) -> view::Label {
    view::Label {
        x: label.x,
        y: label.y,
        anchor: match label.anchor {
            draw::Anchor::Start => view::Anchor::BaseStart,
            draw::Anchor::Middle => view::Anchor::BaseMiddle,
            draw::Anchor::End => view::Anchor::BaseEnd,
        },
        text: label.text.clone(),
        size_pt: label.size_pt,
        style: match label.style {
            draw::LabelStyle::Plain => view::LabelStyle::Plain,
            draw::LabelStyle::Strong => view::LabelStyle::Strong,
            draw::LabelStyle::Measure => view::LabelStyle::Measure,
            draw::LabelStyle::Callout => view::LabelStyle::Callout,
        },
        turn_deg: 0.0,
    }
}

/// A sign of the key with its small drawing.
pub(super) fn key_entry(entry: draw::KeyEntry, look: &Look) -> Option<view::KeyEntry> {
    let drawn = key_swatch(entry, look).ok()?;
    Some(view::KeyEntry {
        id: format!("{entry:?}").to_lowercase(),
        svg: drawn.svg,
        width_mm: drawn.width_mm,
        height_mm: drawn.height_mm,
        words: entry.words().to_string(),
    })
}
