//! The fixed words of the documents, one catalogue a language.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::fault::{Code, Fault, Place, did_you_mean};

/// Every catalogue there is. The first is complete by definition: the others are held to it.
const CATALOGUES: &[(&str, &str)] = &[("en", include_str!("../../templates/words/en.json"))];

/// Fixed words by name. `{n}` and the like stand for what the templates put in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Words(pub BTreeMap<String, String>);

/// The words of a language.
///
/// # Errors
/// If there is no catalogue of that language, or a word is missing in it.
pub fn catalogue(language: &str) -> Result<Words, Vec<Fault>> {
    let known: Vec<&str> = CATALOGUES.iter().map(|(name, _)| *name).collect();
    let Some((_, text)) = CATALOGUES.iter().find(|(name, _)| *name == language) else {
        let message = format!("expected a language with a catalogue of words, but found `{language}`");
        return Err(vec![Fault::new(Code::Document, Place::Nowhere, message).help(did_you_mean(language, &known))]);
    };
    let words = read(language, text)?;
    let complete = match CATALOGUES.first() {
        Some((name, text)) if *name != language => read(name, text)?,
        _ => return Ok(words),
    };
    let missing: Vec<Fault> = complete
        .0
        .keys()
        .filter(|key| !words.0.contains_key(*key))
        .map(|key| Fault::new(Code::Document, Place::Nowhere, format!("`{key}` has no words in `{language}`")))
        .collect();
    if missing.is_empty() { Ok(words) } else { Err(missing) }
}

fn read(language: &str, text: &str) -> Result<Words, Vec<Fault>> {
    serde_json::from_str(text).map_err(|error| {
        vec![Fault::new(Code::Document, Place::Nowhere, format!("the words of `{language}` cannot be read: {error}"))]
    })
}

#[cfg(test)]
mod tests {
    use super::{CATALOGUES, catalogue};

    #[test]
    fn every_catalogue_is_complete() {
        for (language, _) in CATALOGUES {
            assert!(!catalogue(language).unwrap().0.is_empty(), "{language}");
        }
    }

    #[test]
    fn an_unknown_language_is_named() {
        assert!(catalogue("xx").unwrap_err()[0].message.contains("`xx`"));
    }
}
