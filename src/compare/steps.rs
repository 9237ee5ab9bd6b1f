//! Steps and chapters whose words, numbers or figures changed.

use serde::Serialize;

use super::seams::Fate;
use crate::book::Account;

/// A step that is not what it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepChange {
    /// Its id.
    pub id: String,
    /// Its number, in the new edition if it is there.
    pub number: u32,
    /// The number it had; the same unless steps came in or went out before it.
    pub was: Option<u32>,
    /// Its title.
    pub title: String,
    /// Whether it is new, gone or otherwise.
    pub what: Fate,
    /// Whether its title or words changed.
    pub words: bool,
    /// Whether the numbers in its words changed.
    pub numbers: bool,
    /// The figures that are drawn otherwise, are new or are gone.
    pub figures: Vec<String>,
}

/// Every step that changed, in the order of the new edition; those gone come last.
pub(super) fn steps(old: &Account, new: &Account) -> Vec<StepChange> {
    let mut changes = Vec::new();
    for step in &new.steps {
        let mut change = StepChange {
            id: step.id.clone(),
            number: step.number,
            was: None,
            title: step.title.clone(),
            what: Fate::New,
            words: false,
            numbers: false,
            figures: Vec::new(),
        };
        let Some(before) = old.steps.iter().find(|other| other.id == step.id) else {
            changes.push(change);
            continue;
        };
        change.was = Some(before.number);
        change.what = Fate::Changed;
        change.words = before.words != step.words || before.title != step.title;
        change.numbers = before.numbers != step.numbers;
        let all = step.figures.iter().chain(&before.figures);
        for (id, _) in all.filter(|figure| !(step.figures.contains(figure) && before.figures.contains(figure))) {
            if !change.figures.contains(id) {
                change.figures.push(id.clone());
            }
        }
        if change.words || change.numbers || !change.figures.is_empty() || before.number != step.number {
            changes.push(change);
        }
    }
    let gone = old.steps.iter().filter(|step| !new.steps.iter().any(|other| other.id == step.id));
    changes.extend(gone.map(|step| StepChange {
        id: step.id.clone(),
        number: step.number,
        was: Some(step.number),
        title: step.title.clone(),
        what: Fate::Gone,
        words: false,
        numbers: false,
        figures: Vec::new(),
    }));
    changes
}

/// The chapters whose words changed, by name.
pub(super) fn chapters(old: &Account, new: &Account) -> Vec<String> {
    let names = new.chapters.iter().chain(&old.chapters).map(|(name, _)| name);
    let mut changed: Vec<String> =
        names.filter(|name| old.chapters.get(*name) != new.chapters.get(*name)).cloned().collect();
    changed.sort();
    changed.dedup();
    changed
}
