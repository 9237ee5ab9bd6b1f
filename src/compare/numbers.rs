//! Numbers by size, old and new, and why they changed.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use serde::Serialize;

use crate::size::{Named, Origin, SizedGarment, needs};
use crate::units::Systems;

/// How many first causes are named.
const CAUSES: usize = 3;

/// A number that changed in some size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NumberChange {
    /// Its name.
    pub name: String,
    /// What it is, in words.
    pub label: String,
    /// Old and new, one a size in which it changed.
    pub sizes: Vec<SizeChange>,
    /// Why, as a sentence without a full stop.
    pub why: String,
    /// Whether it is what the maker herself changed, and not a consequence.
    pub first: bool,
}

/// A number of one size, old and new, as printed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SizeChange {
    /// The size.
    pub size: String,
    /// As it was; nothing where it is new.
    pub old: Option<String>,
    /// As it is; nothing where it is gone.
    pub new: Option<String>,
}

/// Every number whose print changed, in the sizes both have; what the maker changed comes first.
#[must_use]
pub fn changed_numbers(old: &[SizedGarment], new: &[SizedGarment], systems: Systems) -> Vec<NumberChange> {
    let mut found: BTreeMap<String, NumberChange> = BTreeMap::new();
    for before in old {
        let Some(after) = new.iter().find(|sized| sized.size == before.size) else { continue };
        let pair = Pair::new(before, after, systems);
        for name in &pair.changed {
            let (was, is) = (before.names.named(name), after.names.named(name));
            let size = SizeChange {
                size: before.size.clone(),
                old: was.map(|named| printed(named, systems)),
                new: is.map(|named| printed(named, systems)),
            };
            let entry = found.entry(name.clone()).or_insert_with(|| {
                let (why, first) = pair.why(name);
                let label = is.or(was).map(|named| named.label.clone()).unwrap_or_default();
                NumberChange { name: name.clone(), label, sizes: Vec::new(), why, first }
            });
            entry.sizes.push(size);
        }
    }
    let mut numbers: Vec<NumberChange> = found.into_values().collect();
    numbers.sort_by_key(|number| !number.first);
    numbers
}

pub(super) fn printed(named: &Named, systems: Systems) -> String {
    named.printed().terminal(systems).replace('\u{a0}', " ")
}

/// One size, before and after.
struct Pair<'a> {
    before: &'a SizedGarment,
    after: &'a SizedGarment,
    systems: Systems,
    changed: BTreeSet<String>,
}

impl<'a> Pair<'a> {
    fn new(before: &'a SizedGarment, after: &'a SizedGarment, systems: Systems) -> Pair<'a> {
        let names = before.names.0.keys().chain(after.names.0.keys());
        let print = |sized: &SizedGarment, name: &str| sized.names.named(name).map(|named| printed(named, systems));
        let changed = names.filter(|name| print(before, name) != print(after, name)).cloned().collect();
        Pair { before, after, systems, changed }
    }

    /// Why a number changed, and whether that is the maker's own doing.
    fn why(&self, name: &str) -> (String, bool) {
        if let Some(own) = self.own(name) {
            return (own, true);
        }
        // Breadth first, so that the nearest causes are named, with the way to them.
        let mut causes: Vec<(String, Vec<String>)> = Vec::new();
        let mut seen = BTreeSet::from([name.to_string()]);
        let mut queue = VecDeque::from([(name.to_string(), Vec::<String>::new())]);
        while let Some((at, way)) = queue.pop_front() {
            for need in self.needs(&at) {
                if !seen.insert(need.clone()) {
                    continue;
                }
                if let Some(own) = self.own(&need) {
                    causes.push((format!("`{need}` {own}"), way.clone()));
                } else if self.changed.contains(&need) {
                    let mut way = way.clone();
                    way.push(need.clone());
                    queue.push_back((need, way));
                }
            }
        }
        if causes.is_empty() {
            let drawn = self.after.names.named(name).is_some_and(|named| matches!(named.origin, Origin::Piece { .. }));
            return (self.unexplained(name), !drawn);
        }
        let more = causes.len().saturating_sub(CAUSES);
        let mut words: Vec<String> = causes
            .into_iter()
            .take(CAUSES)
            .map(|(cause, way)| match way.as_slice() {
                [] => cause,
                [only] => format!("{cause}, through `{only}`"),
                [.., last] => format!("{cause}, through `{last}` and others"),
            })
            .collect();
        if more > 0 {
            words.push(format!("{more} more"));
        }
        (format!("because {}", words.join("; and ")), false)
    }

    /// Everything a number is made from, before or after.
    fn needs(&self, name: &str) -> Vec<String> {
        let mut names = needs(self.after, name);
        names.extend(needs(self.before, name));
        names
    }

    /// What the maker did to a number itself: wrote another value or formula, took it out, put it in.
    fn own(&self, name: &str) -> Option<String> {
        let (was, is) = (self.before.names.named(name), self.after.names.named(name));
        let entry = |origin: &Origin| match origin {
            Origin::Technique { construction, .. } | Origin::Fed { construction, .. } => Some(construction.clone()),
            Origin::Piece { piece, .. } => Some(piece.clone()),
            _ => None,
        };
        match (was, is) {
            (Some(was), None) => match entry(&was.origin) {
                Some(whole) if self.is_gone(&whole) => Some(format!("was removed with `{whole}`")),
                Some(_) => None,
                None => Some("was removed".to_string()),
            },
            (None, Some(is)) => match entry(&is.origin) {
                Some(whole) if self.is_new(&whole) => Some(format!("came with `{whole}`, which is new")),
                Some(_) => None,
                None => Some("is new".to_string()),
            },
            (Some(was), Some(is)) => self.rewritten(name, was, is),
            (None, None) => None,
        }
    }

    fn is_gone(&self, whole: &str) -> bool {
        !self.after.answers.contains_key(whole) && !self.after.pieces.contains_key(whole)
    }

    fn is_new(&self, whole: &str) -> bool {
        !self.before.answers.contains_key(whole) && !self.before.pieces.contains_key(whole)
    }

    fn rewritten(&self, name: &str, was: &Named, is: &Named) -> Option<String> {
        let values = || {
            let (old, new) = (printed(was, self.systems), printed(is, self.systems));
            (old != new).then(|| format!("went from {old} to {new}"))
        };
        match (&was.origin, &is.origin) {
            (Origin::Body, Origin::Body) | (Origin::Written, Origin::Written) => values(),
            (Origin::Formula { text: old, names: _ }, Origin::Formula { text: new, names }) if old != new => {
                let plain = names.is_empty();
                if plain { values() } else { Some(format!("went from `{old}` to `{new}`")) }
            }
            (Origin::Fed { construction, input, .. }, Origin::Fed { .. }) => self.fed(construction, input, name),
            (Origin::Technique { technique: old, .. }, Origin::Technique { technique: new, .. }) if old != new => {
                Some(format!("is reckoned as {new}, no longer as {old}"))
            }
            (Origin::Technique { construction, .. }, Origin::Technique { .. }) => {
                // Inputs that are words or lists have no name of their own.
                self.other_words(construction)
            }
            (old, new) if std::mem::discriminant(old) != std::mem::discriminant(new) => {
                Some("comes from elsewhere now".to_string())
            }
            _ => None,
        }
    }

    /// An input that was fed another value, where no name it uses changed.
    fn fed(&self, construction: &str, input: &str, name: &str) -> Option<String> {
        let find = |sized: &SizedGarment| {
            let answer = sized.answers.get(construction)?;
            answer.inputs.iter().find(|(known, ..)| known == input).map(|(_, _, _, assumed)| *assumed)
        };
        match (find(self.before), find(self.after)) {
            (Some(false), Some(true)) => return Some("was left out, and took its usual value".to_string()),
            (Some(true), Some(false)) => return Some("was given; before, it had its usual value".to_string()),
            _ => {}
        }
        if self.needs(name).iter().any(|need| self.changed.contains(need)) {
            return None;
        }
        let (was, is) = (self.before.names.named(name)?, self.after.names.named(name)?);
        let (old, new) = (printed(was, self.systems), printed(is, self.systems));
        (old != new).then(|| format!("went from {old} to {new}"))
    }

    fn other_words(&self, construction: &str) -> Option<String> {
        let (before, after) = (self.before.answers.get(construction)?, self.after.answers.get(construction)?);
        for (input, value, _, _) in &after.inputs {
            let crate::reckon::Value::Word(new) = value else { continue };
            let old = before.inputs.iter().find(|(known, ..)| known == input).map(|(_, value, ..)| value);
            if let Some(crate::reckon::Value::Word(old)) = old
                && old != new
            {
                return Some(format!("follows `{construction}.{input}`, which was {old} and is {new}"));
            }
        }
        None
    }

    fn unexplained(&self, name: &str) -> String {
        match self.after.names.named(name).or_else(|| self.before.names.named(name)).map(|named| &named.origin) {
            Some(Origin::Piece { piece, .. }) => format!("because the piece `{piece}` is drawn otherwise"),
            Some(Origin::Technique { construction, .. } | Origin::Fed { construction, .. }) => {
                format!("because `{construction}` is fed otherwise")
            }
            _ => "because it is written otherwise".to_string(),
        }
    }
}
