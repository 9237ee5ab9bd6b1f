//! Wording that figures share.

use crate::units::Length;

use super::figure::{Measure, Undrawable};
use super::look::Look;

impl Look {
    /// As it stands in a label: `2⅝ in (6.7 cm)`.
    pub(crate) fn set(&self, m: &Measure) -> String {
        m.printed.typeset(self.systems)
    }

    /// The same, the second system on a line of its own.
    pub(crate) fn two(&self, m: &Measure) -> String {
        self.set(m).replace(" (", "\n(")
    }

    /// As it is read aloud: `2 5/8 in (6.7 cm)`.
    pub(crate) fn say(&self, m: &Measure) -> String {
        m.printed.terminal(self.systems).replace('\u{a0}', " ")
    }
}

/// Refuses lengths nobody can sew: not finite, nothing, less than nothing, or over a kilometre.
pub(crate) fn sound(lengths: &[(&str, Length)]) -> Result<(), Undrawable> {
    for (name, length) in lengths {
        let mm = length.to_mm();
        if !mm.is_finite() || mm <= 0.0 || mm > 1e6 {
            return Err(Undrawable(format!("expected a length above zero for `{name}`, but found {mm} mm")));
        }
    }
    Ok(())
}

/// Refuses a count outside of what the figure means.
pub(crate) fn counted(name: &str, count: usize, least: usize, most: usize) -> Result<(), Undrawable> {
    if (least..=most).contains(&count) {
        Ok(())
    } else {
        Err(Undrawable(format!("expected {least} to {most} for `{name}`, but found {count}")))
    }
}

/// Small numbers in words.
const SMALL: [&str; 13] =
    ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/// `one row`, `three rows`, `16 rows`: in words up to twelve.
pub(crate) fn many(count: usize, one: &str, more: &str) -> String {
    let noun = if count == 1 { one } else { more };
    SMALL.get(count).map_or_else(|| format!("{count} {noun}"), |word| format!("{word} {noun}"))
}

/// The words with a capital first.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |c| c.to_uppercase().collect::<String>() + letters.as_str())
}

/// The usual scales, garment over paper.
const SCALES: [f64; 17] = [1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0];

/// The largest usual scale at which `width` by `height` mm of garment fit into a room of paper.
pub(crate) fn scale_for(width: f64, height: f64, room: (f64, f64)) -> f64 {
    let need = (width / room.0).max(height / room.1);
    SCALES.into_iter().find(|n| *n >= need - 1e-9).unwrap_or_else(|| (need / 10.0).ceil() * 10.0)
}

/// The largest usual scale not above `n`, or `n` itself to two figures below true size.
pub(crate) fn scale_down(n: f64) -> f64 {
    if n < 1.0 {
        return ((n * 100.0).floor() / 100.0).max(0.01);
    }
    SCALES.into_iter().rev().find(|scale| *scale <= n + 1e-9).unwrap_or(1.0)
}
