//! The page "What changed": its data.

use std::collections::BTreeSet;

use serde_json::json;

use super::accent::{Accent, Colour};
use super::kind::DocKind;
use super::paper::Setting;
use super::view::Notice;
use crate::words::Catalogue;

/// Its data files: path and bytes.
///
/// # Errors
/// If the view cannot be written as JSON (a number that is not finite).
pub(super) fn files(
    notice: &Notice,
    words: &Catalogue,
    setting: Setting,
) -> Result<Vec<(String, Vec<u8>)>, serde_json::Error> {
    let (width, height) = setting.paper.size_mm();
    let front = json!({
        "kind": DocKind::WhatChanged.name(),
        "chapters": [],
        "paper": { "name": setting.paper.name(), "width": width, "height": height,
                   "margins": setting.paper.margins_mm() },
        "print": setting.print,
        "accent": Accent::of(Colour::parse(&notice.accent).unwrap_or(Colour(0, 0, 0))),
        "language": notice.language,
        "region": null,
        "title": notice.title,
        "production": null,
        "maker": null,
        "edition": notice.edition,
        "sizes": notice.sizes,
        "cover": null,
        "both_systems": false,
    });
    let none: BTreeSet<String> = BTreeSet::new();
    let refs = json!({ "step": {}, "figure": {}, "piece": {}, "section": {}, "page": none });
    let mut files = vec![
        ("/data/front.json".to_string(), serde_json::to_vec(&front)?),
        ("/data/words.json".to_string(), serde_json::to_vec(&words.words)?),
        ("/data/refs.json".to_string(), serde_json::to_vec(&refs)?),
        ("/data/notice.json".to_string(), serde_json::to_vec(notice)?),
    ];
    for (at, piece) in notice.pieces.iter().enumerate() {
        files.push((format!("/data/notice/{}.svg", at + 1), piece.svg.clone().into_bytes()));
    }
    Ok(files)
}
