//! Breaking text into lines of 80 columns.

use crate::units::UNIT_NAMES;

/// The width of a terminal.
pub(super) const COLUMNS: usize = 80;

/// Breaks a text at its spaces; a no-break space stays inside its line and is written as a space.
pub(super) fn wrap(text: &str, first: usize, next: usize) -> String {
    entry(&" ".repeat(first), text, next)
}

/// A text behind a lead, its further lines indented to the lead's width, or to `next` where that is not 0.
pub(super) fn entry(lead: &str, text: &str, next: usize) -> String {
    let indent = if next == 0 { lead.chars().count() } else { next };
    let mut out = String::new();
    let mut line = lead.to_string();
    let mut used = line.chars().count();
    let mut empty = true;
    let text = kept(text);
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let length = word.chars().count();
        if !empty && used + 1 + length > COLUMNS {
            out.push_str(line.trim_end());
            out.push('\n');
            line = " ".repeat(indent);
            used = indent;
            empty = true;
        }
        if !empty {
            line.push(' ');
            used += 1;
        }
        line.push_str(word);
        used += length;
        empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
    out.replace('\u{a0}', " ")
}

/// The text with no-break spaces inside its numbers: `65 3/8 in` stays in one line.
fn kept(text: &str) -> String {
    let mut out = String::new();
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        out.push_str(word);
        let Some(next) = words.peek() else { break };
        let digit_behind = word.ends_with(|c: char| c.is_ascii_digit());
        let whole = word.trim_start_matches(['(', '-']).chars().all(|c| c.is_ascii_digit()) && digit_behind;
        let fraction = next.contains('/') && next.starts_with(|c: char| c.is_ascii_digit());
        let unit = UNIT_NAMES.contains(&next.trim_end_matches([')', ',', ';', ':', '.']));
        out.push(if (whole && fraction) || (digit_behind && unit) { '\u{a0}' } else { ' ' });
    }
    out
}

/// Rows of a name and its value in two columns.
pub(super) fn rows(pairs: &[(String, String)]) -> String {
    let width = pairs.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0).min(COLUMNS / 2);
    let mut out = String::new();
    for (name, value) in pairs {
        if name.chars().count() > width {
            out.push_str(&wrap(name, 2, 4));
            out.push_str(&wrap(value, width + 4, width + 4));
        } else {
            out.push_str(&entry(&format!("  {name:width$}  "), value, 0));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{COLUMNS, entry, rows, wrap};

    #[test]
    fn lines_stay_inside() {
        let text = "one two three four five six seven eight nine ten ".repeat(10);
        for line in wrap(&text, 2, 6).lines().chain(entry("  name  ", &text, 0).lines()) {
            assert!(line.chars().count() <= COLUMNS, "{line}");
        }
    }

    #[test]
    fn numbers_stay_with_their_unit() {
        let text = format!("{} 12\u{a0}cm", "x".repeat(76));
        assert_eq!(wrap(&text, 0, 2), format!("{}\n  12 cm\n", "x".repeat(76)));
        let text = format!("{} 65 3/8 in, 4 cm", "x".repeat(72));
        assert_eq!(wrap(&text, 0, 2), format!("{}\n  65 3/8 in, 4 cm\n", "x".repeat(72)));
    }

    #[test]
    fn long_names_stand_above_their_value() {
        let pairs = [("a".repeat(50), "1".to_string()), ("b".to_string(), "2".to_string())];
        assert_eq!(rows(&pairs).lines().count(), 3);
    }
}
