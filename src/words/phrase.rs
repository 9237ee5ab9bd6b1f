//! Sentences in another language, by their English.
//!
//! Figures and calculators make their words in English, numbers in them. A phrase is such a sentence with holes where
//! the numbers and names stand: `{n}` and `{n2}` stand for numbers with their units, other names in braces for words
//! that have been put into the language already. The English sentence is laid along the phrase, and what fills its
//! holes goes into the holes of the translation.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// The phrases of one language.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Phrases(BTreeMap<String, String>);

/// The language something is said in: English, or another through its phrases.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Tongue(Option<&'static Phrases>);

impl Tongue {
    /// English, which needs no phrases.
    pub const ENGLISH: Tongue = Tongue(None);

    /// The language of these phrases; English where there are none.
    #[must_use]
    pub fn of(phrases: &'static Phrases) -> Tongue {
        Tongue((!phrases.0.is_empty()).then_some(phrases))
    }

    /// An English sentence in this language; none where it has no phrase for it.
    #[must_use]
    pub fn say(self, english: &str) -> Option<String> {
        match self.0 {
            None => Some(english.to_string()),
            Some(phrases) => phrases.say(english),
        }
    }
}

impl Phrases {
    /// The sentence in the language of the phrases: by the phrase with the most letters of its own that fits.
    #[must_use]
    pub fn say(&self, english: &str) -> Option<String> {
        if english.trim().is_empty() || is_number(english) {
            return Some(english.to_string());
        }
        if let Some(said) = self.0.get(english) {
            return Some(said.clone());
        }
        let flat = english.replace('\n', " ");
        let mut fitting: Vec<(usize, &str, Filled<'_, '_>)> = self
            .0
            .iter()
            .filter(|(pattern, _)| pattern.contains('{'))
            .filter_map(|(pattern, said)| {
                let parts = parts(pattern);
                let own = parts.iter().map(|part| if let Part::Words(words) = part { words.len() } else { 0 }).sum();
                Some((own, said.as_str(), fit(&parts, &flat)?))
            })
            .collect();
        fitting.sort_by_key(|(own, ..)| std::cmp::Reverse(*own));
        let (_, said, put) = fitting.into_iter().next().or_else(|| {
            let said = self.0.get(&flat)?;
            Some((0, said.as_str(), Vec::new()))
        })?;
        Some(put.iter().fold(said.to_string(), |text, (name, words)| {
            let words = self.0.get(*words).map_or(*words, String::as_str);
            text.replace(&format!("{{{name}}}"), words)
        }))
    }
}

enum Part<'a> {
    Words(&'a str),
    Hole(&'a str),
}

fn parts(pattern: &str) -> Vec<Part<'_>> {
    let mut found = Vec::new();
    let mut rest = pattern;
    while let Some((before, after)) = rest.split_once('{') {
        let Some((name, behind)) = after.split_once('}') else { break };
        if !before.is_empty() {
            found.push(Part::Words(before));
        }
        found.push(Part::Hole(name));
        rest = behind;
    }
    if !rest.is_empty() {
        found.push(Part::Words(rest));
    }
    found
}

/// Holes, and what fills them.
type Filled<'p, 't> = Vec<(&'p str, &'t str)>;

/// What fills the holes, if the text fits along the parts.
fn fit<'p, 't>(parts: &[Part<'p>], text: &'t str) -> Option<Filled<'p, 't>> {
    match parts {
        [] => text.is_empty().then(Vec::new),
        [Part::Words(words), rest @ ..] => fit(rest, text.strip_prefix(words)?),
        [Part::Hole(name), rest @ ..] => {
            let number = name.starts_with('n') && name[1..].chars().all(|c| c.is_ascii_digit());
            let ends = text.char_indices().map(|(at, _)| at).skip(1).chain([text.len()]);
            let good = |end: &usize| {
                let filled = &text[..*end];
                !filled.is_empty() && (!number || is_number(filled))
            };
            ends.filter(good).find_map(|end| {
                let mut filled = vec![(*name, &text[..end])];
                filled.extend(fit(rest, &text[end..])?);
                Some(filled)
            })
        }
    }
}

/// Whether a text is a number in print: digits, fractions, units, both systems of units.
fn is_number(text: &str) -> bool {
    const UNITS: [&str; 13] = ["in", "cm", "mm", "m", "yd", "g", "oz", "ml", "l", "m²", "sq", "oz/yd²", "g/m²"];
    let mut digits = false;
    for word in text.split([' ', '\u{a0}', '\u{2009}', '(', ')', '\n']).filter(|word| !word.is_empty()) {
        let numeric = word
            .chars()
            .all(|c| c.is_numeric() || matches!(c, '.' | ',' | '/' | '⁄' | '-' | '–' | '°' | '%' | ':' | '×'));
        digits |= numeric && word.chars().any(char::is_numeric);
        if !numeric && !UNITS.contains(&word.trim_end_matches([',', '.'])) {
            return false;
        }
    }
    digits && !text.starts_with([' ', ')']) && !text.ends_with([' ', '('])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn phrases() -> Phrases {
        let pairs = [
            ("right side", "rechte Seite"),
            ("{n} above the seam", "{n} über der Naht"),
            ("{name}, {n} wide", "{name}, {n} breit"),
            ("one row", "eine Reihe"),
            ("{rows} of stitches in {piece}", "{rows} Stiche in {piece}"),
        ];
        Phrases(pairs.iter().map(|(a, b)| ((*a).to_string(), (*b).to_string())).collect())
    }

    #[test]
    fn sentences_are_laid_along_phrases() {
        for (english, said) in [
            ("right side", Some("rechte Seite")),
            ("⅝\u{a0}in (1.6\u{a0}cm) above\nthe seam", Some("⅝\u{a0}in (1.6\u{a0}cm) über der Naht")),
            ("Bund, 3.8 cm wide", Some("Bund, 3.8 cm breit")),
            ("one row of stitches in Rock", Some("eine Reihe Stiche in Rock")),
            ("something else", None),
            ("high above the seam", None),
            ("12⅜ in (31.4 cm)", Some("12⅜ in (31.4 cm)")),
        ] {
            assert_eq!(phrases().say(english).as_deref(), said, "{english}");
        }
        assert_eq!(Tongue::ENGLISH.say("anything"), Some("anything".into()));
    }
}
