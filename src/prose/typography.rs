//! Real quotation marks and dashes, as a book has them.

use crate::words::ProseWords as Words;

/// What stands in a line of text, as far as its neighbours care.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    /// A character.
    Char(char),
    /// A character that is to stay as it is.
    Kept(char),
    /// A number or a reference.
    Thing,
}

impl Sign {
    fn char(self) -> char {
        match self {
            Sign::Char(c) | Sign::Kept(c) => c,
            Sign::Thing => 'x',
        }
    }
}

/// What each sign of a line becomes; empty for one that another has swallowed, `None` for a thing.
pub(super) fn set(line: &[Sign], words: &Words) -> Vec<Option<String>> {
    let mut out: Vec<Option<String>> = Vec::with_capacity(line.len());
    let mut open = false;
    let mut at = 0;
    while let Some(&sign) = line.get(at) {
        let plain = |offset: usize| {
            line.get(at + offset).copied().and_then(|sign| if let Sign::Char(c) = sign { Some(c) } else { None })
        };
        let before = at.checked_sub(1).and_then(|at| line.get(at)).map(|sign| sign.char());
        let next = line.get(at + 1).map(|sign| sign.char());
        let (text, taken) = match sign {
            Sign::Thing => (None, 1),
            Sign::Kept(c) => (Some(c.to_string()), 1),
            Sign::Char('"') => {
                let mark = if opens(before) {
                    open = true;
                    words.double[0].clone()
                } else if !open && before.is_some_and(char::is_numeric) {
                    "″".to_string()
                } else {
                    open = false;
                    words.double[1].clone()
                };
                (Some(mark), 1)
            }
            Sign::Char('\'') => {
                let opening = opens(before) && next.is_some_and(char::is_alphabetic);
                (Some(words.single[usize::from(!opening)].clone()), 1)
            }
            Sign::Char('-') if plain(1) == Some('-') && plain(2) == Some('-') => (Some("—".to_string()), 3),
            Sign::Char('-') if plain(1) == Some('-') => (Some("–".to_string()), 2),
            Sign::Char('-') if before == Some(' ') && next == Some(' ') => (Some("–".to_string()), 1),
            Sign::Char('.') if plain(1) == Some('.') && plain(2) == Some('.') => (Some("…".to_string()), 3),
            Sign::Char(c) => (Some(c.to_string()), 1),
        };
        out.push(text);
        out.extend(std::iter::repeat_n(Some(String::new()), taken - 1));
        at += taken;
    }
    out
}

fn opens(before: Option<char>) -> bool {
    before.is_none_or(|c| c.is_whitespace() || matches!(c, '(' | '[' | '{' | '-' | '–' | '—' | '/' | '"' | '\''))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn english(text: &str) -> String {
        let line: Vec<Sign> = text.chars().map(Sign::Char).collect();
        set(&line, &Words::english()).into_iter().flatten().collect()
    }

    #[test]
    fn quotes_and_dashes() {
        for (plain, book) in [
            ("\"Turn it,\" she said", "“Turn it,” she said"),
            ("the maker's own 'cut' line", "the maker’s own ‘cut’ line"),
            ("the sewers' table", "the sewers’ table"),
            ("12\" wide", "12″ wide"),
            ("\"size 12\" fits", "“size 12” fits"),
            ("slowly -- as ever", "slowly – as ever"),
            ("slowly - as ever", "slowly – as ever"),
            ("well---no", "well—no"),
            ("half-way", "half-way"),
            ("and so on...", "and so on…"),
            ("(\"so\")", "(“so”)"),
            ("in the '90s", "in the ’90s"),
            ("$x$ #let _a_ @b <c> `d` \\e", "$x$ #let _a_ @b <c> `d` \\e"),
        ] {
            assert_eq!(english(plain), book);
        }
    }
}
