//! Seams and cloth, old and new.

use serde::Serialize;

use crate::book::{Account, ClothNeed};
use crate::units::{Length, Show, Systems, print};

/// A seam that is not what it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SeamChange {
    /// What it is called.
    pub title: String,
    /// Whether it is new, gone or longer or shorter.
    pub what: Fate,
    /// Its length on the side it is sewn to, one a size in which it changed: size, old, new.
    pub sizes: Vec<(String, String, String)>,
}

/// What happened to a thing that has a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fate {
    /// It is new.
    New,
    /// It is gone.
    Gone,
    /// It is there, but otherwise.
    Changed,
}

/// Cloth to buy that is not what it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ClothChange {
    /// The cloth.
    pub cloth: String,
    /// The width on offer, as printed.
    pub width: String,
    /// Whether it is new, gone or another length.
    pub what: Fate,
    /// One a size in which it changed: size, old, new, as printed.
    pub sizes: Vec<(String, String, String)>,
}

fn text(length: Length, show: Show, systems: Systems) -> String {
    print(length.into(), show).terminal(systems).replace('\u{a0}', " ")
}

/// Every seam that changed.
pub(super) fn seams(old: &Account, new: &Account) -> Vec<SeamChange> {
    let mut changes = Vec::new();
    for seam in &new.seams.seams {
        let Some(before) = old.seams.seams.iter().find(|other| other.title == seam.title) else {
            changes.push(SeamChange { title: seam.title.clone(), what: Fate::New, sizes: Vec::new() });
            continue;
        };
        let mut sizes = Vec::new();
        for one in &seam.by_size {
            let Some(was) = before.by_size.iter().find(|other| other.size == one.size) else { continue };
            let words = |sew: Length, to: Length| {
                let (sew, to) = (text(sew, Show::LENGTH, new.systems), text(to, Show::LENGTH, new.systems));
                if sew == to { to } else { format!("{sew} on {to}") }
            };
            let (old_words, new_words) = (words(was.sew, was.to), words(one.sew, one.to));
            if old_words != new_words {
                sizes.push((one.size.clone(), old_words, new_words));
            }
        }
        if !sizes.is_empty() || seam.sew != before.sew || seam.to != before.to {
            changes.push(SeamChange { title: seam.title.clone(), what: Fate::Changed, sizes });
        }
    }
    let gone = old.seams.seams.iter().filter(|seam| !new.seams.seams.iter().any(|other| other.title == seam.title));
    changes.extend(gone.map(|seam| SeamChange { title: seam.title.clone(), what: Fate::Gone, sizes: Vec::new() }));
    changes
}

/// Every length of cloth to buy that changed.
pub(super) fn cloths(old: &Account, new: &Account) -> Vec<ClothChange> {
    let mut changes: Vec<ClothChange> = Vec::new();
    let mut put = |need: &ClothNeed, what: Fate, size: Option<(String, String, String)>| {
        let width = text(need.width, Show::LENGTH, new.systems);
        match changes
            .iter_mut()
            .find(|change| change.cloth == need.cloth && change.width == width && change.what == what)
        {
            Some(change) => change.sizes.extend(size),
            None => {
                let sizes = size.into_iter().collect();
                changes.push(ClothChange { cloth: need.cloth.clone(), width, what, sizes });
            }
        }
    };
    let same_cloth = |a: &ClothNeed, b: &ClothNeed| a.cloth == b.cloth && (a.width - b.width).to_mm().abs() < 0.05;
    for need in &new.needs {
        let buy = text(need.buy, Show::CLOTH, new.systems);
        if !old.needs.iter().any(|was| same_cloth(was, need)) {
            put(need, Fate::New, Some((need.size.clone(), String::new(), buy)));
        } else if let Some(was) = old.needs.iter().find(|was| same_cloth(was, need) && was.size == need.size) {
            let before = text(was.buy, Show::CLOTH, new.systems);
            if before != buy {
                put(need, Fate::Changed, Some((need.size.clone(), before, buy)));
            }
        }
    }
    for need in &old.needs {
        if !new.needs.iter().any(|is| same_cloth(need, is)) {
            let before = text(need.buy, Show::CLOTH, new.systems);
            put(need, Fate::Gone, Some((need.size.clone(), before, String::new())));
        }
    }
    changes
}
