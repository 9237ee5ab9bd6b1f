//! Catalogues, and what is asked of them.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use super::phrase::{Phrases, Tongue};
use super::word::Word;
use crate::fault::{Code, Fault, Place, did_you_mean};

/// Every catalogue there is. The first is complete by definition: the others are held to it.
const FILES: [(&str, &str); 1] = [("en", include_str!("../../templates/words/en.json"))];

/// The words prose is merged with. In patterns `{value}`, `{sizes}`, `{label}` and `{n}` are filled in.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ProseWords {
    /// One size within a sentence: `size {sizes}`.
    pub size: String,
    /// Several sizes within a sentence: `sizes {sizes}`.
    pub sizes: String,
    /// One size at the beginning of a line: `Size {sizes}`.
    pub size_first: String,
    /// Several sizes at the beginning of a line: `Sizes {sizes}`.
    pub sizes_first: String,
    /// A run of sizes: `{from} to {to}`.
    pub run: String,
    /// Between the last two of a list.
    pub and: String,
    /// Between the last two of several values with units: `, or `.
    pub or_long: String,
    /// Between the last two of several bare numbers: ` or `.
    pub or_short: String,
    /// A value with units and its sizes: `{value} for {sizes}`.
    pub value_long: String,
    /// A bare number and its sizes: `{value} ({sizes})`.
    pub value_short: String,
    /// The label of half a value: `half of {label}`.
    pub half: String,
    /// The label of a quarter of a value: `a quarter of {label}`.
    pub quarter: String,
    /// The label of a value taken several times: `{n} times {label}`.
    pub times: String,
    /// The small counts from nought on, in words.
    pub counts: Vec<String>,
    /// Opening and closing double quotation marks.
    pub double: [String; 2],
    /// Opening and closing single quotation marks; the closing one is the apostrophe too.
    pub single: [String; 2],
}

impl ProseWords {
    /// English.
    #[must_use]
    pub fn english() -> ProseWords {
        english().prose.clone()
    }
}

/// The words of one language.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Catalogue {
    /// The decimal mark.
    pub decimal: String,
    /// The words prose is merged with.
    pub prose: ProseWords,
    /// Fixed words by key. `{n}` and the like stand for what is put in; `one|many` are the forms for one and for more.
    pub words: BTreeMap<String, String>,
    /// What figures and calculators say, from the English. Empty in English.
    #[serde(default)]
    pub phrases: Phrases,
}

type Read = Result<Catalogue, Vec<Fault>>;

static READ: LazyLock<Vec<(&'static str, Read)>> =
    LazyLock::new(|| FILES.iter().map(|(language, text)| (*language, read(language, text))).collect());

static ENGLISH: LazyLock<Catalogue> = LazyLock::new(|| read("en", FILES[0].1).unwrap_or_default());

fn english() -> &'static Catalogue {
    &ENGLISH
}

/// The languages there are catalogues of.
#[must_use]
pub fn languages() -> Vec<&'static str> {
    FILES.iter().map(|(language, _)| *language).collect()
}

/// The language of a code with a region: `en` of `en-GB`.
#[must_use]
pub fn primary(code: &str) -> &str {
    code.split('-').next().unwrap_or(code)
}

/// The words of a language, by its code.
///
/// # Errors
/// If there is no catalogue of that language, or a word is missing in it or left over.
pub fn catalogue(code: &str) -> Result<&'static Catalogue, Vec<Fault>> {
    let language = primary(code);
    match READ.iter().find(|(name, _)| *name == language) {
        Some((_, Ok(words))) => Ok(words),
        Some((_, Err(faults))) => Err(faults.clone()),
        None => {
            let message = format!("there are no words for the language `{code}`");
            let help = did_you_mean(language, &languages());
            Err(vec![Fault::new(Code::Translation, Place::Nowhere, message).help(help)])
        }
    }
}

fn read(language: &str, text: &str) -> Read {
    let words: Catalogue = serde_json::from_str(text).map_err(|error| {
        let message = format!("the words of `{language}` cannot be read: {error}");
        vec![Fault::new(Code::Translation, Place::Nowhere, message)]
    })?;
    if language == FILES[0].0 {
        return Ok(words);
    }
    let faults = held(language, &words, english());
    if faults.is_empty() { Ok(words) } else { Err(faults) }
}

/// A catalogue held against the complete one: what is missing, what is left over, what is not put in.
fn held(language: &str, words: &Catalogue, complete: &Catalogue) -> Vec<Fault> {
    let fault = |message: String| Fault::new(Code::Translation, Place::Nowhere, message);
    let mut faults = Vec::new();
    for (key, english) in &complete.words {
        let Some(said) = words.words.get(key) else {
            faults.push(fault(format!("`{key}` has no words in `{language}`")).help(format!("in English: {english}")));
            continue;
        };
        for hole in holes(english).into_iter().filter(|hole| !said.contains(hole.as_str())) {
            faults.push(fault(format!("`{key}` leaves `{hole}` out in `{language}`")));
        }
    }
    for key in words.words.keys().filter(|key| !complete.words.contains_key(*key)) {
        faults.push(fault(format!("`{key}` is left over in `{language}`: English has no such word")));
    }
    faults
}

/// What stands in braces.
fn holes(text: &str) -> Vec<String> {
    text.split('{').skip(1).filter_map(|rest| Some(format!("{{{}}}", rest.split_once('}')?.0))).collect()
}

impl Catalogue {
    /// A fixed word.
    #[must_use]
    pub fn say(&self, word: Word) -> &str {
        self.words.get(word.key()).map_or("", String::as_str)
    }

    /// A fixed word with its holes filled.
    #[must_use]
    pub fn fill(&self, word: Word, put: &[(&str, &str)]) -> String {
        put.iter().fold(self.say(word).to_string(), |text, (name, value)| text.replace(&format!("{{{name}}}"), value))
    }

    /// A fixed word for so many things: its form for one, or for more, with the number in `{n}`.
    #[must_use]
    pub fn count(&self, word: Word, count: u64) -> String {
        let text = self.say(word);
        let (one, more) = text.split_once('|').unwrap_or((text, text));
        (if count == 1 { one } else { more }).replace("{n}", &count.to_string())
    }

    /// What figures are spoken in.
    #[must_use]
    pub fn tongue(&'static self) -> Tongue {
        Tongue::of(&self.phrases)
    }

    /// A number as this language writes it: with its decimal mark. Editions (`1.0.0`) stay as they are.
    #[must_use]
    pub fn decimals(&self, text: &str) -> String {
        if self.decimal == "." || !text.contains('.') {
            return text.to_string();
        }
        let chars: Vec<char> = text.chars().collect();
        let digit = |at: Option<usize>| at.and_then(|at| chars.get(at)).is_some_and(char::is_ascii_digit);
        let dot = |at: Option<usize>| at.and_then(|at| chars.get(at)) == Some(&'.');
        let run = |at: usize, step: isize| {
            let mut place = at.checked_add_signed(step);
            while digit(place) {
                place = place.and_then(|place| place.checked_add_signed(step));
            }
            place
        };
        let mut out = String::with_capacity(text.len());
        for (at, c) in chars.iter().enumerate() {
            let between = digit(at.checked_sub(1)) && digit(Some(at + 1));
            if *c == '.' && between && !dot(run(at, -1)) && !dot(run(at, 1)) {
                out.push_str(&self.decimal);
            } else {
                out.push(*c);
            }
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_catalogue_is_complete() {
        for language in languages() {
            let words = catalogue(language).unwrap_or_else(|faults| panic!("{faults:#?}"));
            for word in Word::ALL {
                assert!(!words.say(*word).is_empty(), "{language} has no words for `{}`", word.key());
            }
            assert_eq!(words.prose.counts.len(), 13, "{language}");
        }
    }

    #[test]
    fn an_unknown_language_is_named() {
        assert!(catalogue("xx").unwrap_err()[0].message.contains("`xx`"));
        assert!(catalogue("en-GB").is_ok());
    }

    #[test]
    fn a_missing_word_is_named_and_so_is_one_too_many() {
        let complete = english();
        let mut words = complete.clone();
        words.words.remove("size-one");
        words.words.insert("cloth-wide".into(), "no hole".into());
        words.words.insert("made-up".into(), "words".into());
        let said: Vec<String> = held("xx", &words, complete).into_iter().map(|fault| fault.message).collect();
        assert_eq!(
            said,
            [
                "`cloth-wide` leaves `{width}` out in `xx`",
                "`size-one` has no words in `xx`",
                "`made-up` is left over in `xx`: English has no such word"
            ]
        );
    }

    #[test]
    fn decimal_marks() {
        let comma = Catalogue { decimal: ",".into(), ..Catalogue::default() };
        for (text, there) in [
            ("34.0 cm (13⅜ in)", "34,0 cm (13⅜ in)"),
            ("Ausgabe 1.0.0", "Ausgabe 1.0.0"),
            ("1.5 : 1.", "1,5 : 1."),
            ("3. Falten", "3. Falten"),
            ("12.10.3", "12.10.3"),
        ] {
            assert_eq!(comma.decimals(text), there);
        }
    }
}
