//! Numbers as makers write them: `12`, `2.5`, `1 3/8`, `5/8`, `2½`.

/// A proper fraction with the whole part before it, as printed on a tape measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fraction {
    /// Whether the value is below zero.
    pub negative: bool,
    /// The whole part.
    pub whole: u64,
    /// Numerator of the rest, 0 where there is none.
    pub numerator: u64,
    /// Denominator of the rest, in lowest terms.
    pub denominator: u64,
}

const VULGAR: [(char, u64, u64); 15] = [
    ('½', 1, 2),
    ('¼', 1, 4),
    ('¾', 3, 4),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
    ('⅙', 1, 6),
    ('⅚', 5, 6),
    ('⅕', 1, 5),
    ('⅖', 2, 5),
    ('⅗', 3, 5),
    ('⅘', 4, 5),
];

/// The numerator and denominator of a single-character fraction.
#[must_use]
pub fn vulgar(c: char) -> Option<(u64, u64)> {
    VULGAR.iter().find(|(glyph, ..)| *glyph == c).map(|&(_, n, d)| (n, d))
}

impl Fraction {
    /// A count of `1/denominator`ths, brought to lowest terms.
    #[must_use]
    pub fn of(parts: i64, denominator: u64) -> Fraction {
        let size = parts.unsigned_abs();
        let (whole, rest) = (size / denominator, size % denominator);
        let common = gcd(rest, denominator);
        Fraction { negative: parts < 0, whole, numerator: rest / common, denominator: denominator / common }
    }

    /// In plain characters: `2 5/8`.
    #[must_use]
    pub fn plain(&self) -> String {
        self.spell(" ", |n, d| format!("{n}/{d}"))
    }

    /// With a real fraction: `2⅝`; sixteenths with the fraction slash, `2 11⁄16`.
    #[must_use]
    pub fn typeset(&self) -> String {
        let glyph = VULGAR.iter().find(|&&(_, n, d)| (n, d) == (self.numerator, self.denominator));
        match glyph {
            Some(&(c, ..)) => self.spell("", |_, _| c.to_string()),
            None => self.spell("\u{2009}", |n, d| format!("{n}\u{2044}{d}")),
        }
    }

    fn spell(&self, gap: &str, rest: impl Fn(u64, u64) -> String) -> String {
        let sign = if self.negative { "-" } else { "" };
        match (self.whole, self.numerator) {
            (whole, 0) => format!("{sign}{whole}"),
            (0, n) => format!("{sign}{}", rest(n, self.denominator)),
            (whole, n) => format!("{sign}{whole}{gap}{}", rest(n, self.denominator)),
        }
    }
}

fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a.max(1) } else { gcd(b, a % b) }
}

/// Reads a number at the start of `text`: digits with an optional decimal part, a fraction
/// `a/b` without spaces round the slash, a whole number followed by such a fraction, or with a
/// fraction character. Returns the value and how many bytes it took.
#[must_use]
pub fn parse_number(text: &str) -> Option<(f64, usize)> {
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let first = digits(0);
    if first == 0 {
        let c = text.chars().next()?;
        let (n, d) = vulgar(c)?;
        return Some((to_f64(n) / to_f64(d), c.len_utf8()));
    }
    let whole: f64 = text[..first].parse().ok()?;
    if bytes.get(first) == Some(&b'.') {
        let more = digits(first + 1);
        if more > 0 {
            let end = first + 1 + more;
            return Some((text[..end].parse().ok()?, end));
        }
        return None;
    }
    if let Some((value, taken)) = fraction_after(&text[first..], whole, first) {
        return Some((value, taken));
    }
    let spaces = text[first..].chars().take_while(|c| *c == ' ' || *c == '\u{a0}').collect::<String>();
    let rest = first + spaces.len();
    if let Some(c) = text[rest..].chars().next()
        && let Some((n, d)) = vulgar(c)
    {
        return Some((whole + to_f64(n) / to_f64(d), rest + c.len_utf8()));
    }
    let second = digits(rest);
    if !spaces.is_empty() && second > 0 {
        let numerator: f64 = text[rest..rest + second].parse().ok()?;
        if let Some((value, taken)) = fraction_after(&text[rest + second..], numerator, rest + second) {
            return Some((whole + value, taken));
        }
    }
    Some((whole, first))
}

/// `/b` directly behind a numerator that ended at byte `at`.
fn fraction_after(rest: &str, numerator: f64, at: usize) -> Option<(f64, usize)> {
    let slash = rest.chars().next().filter(|c| *c == '/' || *c == '\u{2044}')?;
    let tail = &rest[slash.len_utf8()..];
    let count = tail.bytes().take_while(u8::is_ascii_digit).count();
    if count == 0 {
        return None;
    }
    let denominator: f64 = tail[..count].parse().ok()?;
    Some((numerator / denominator, at + slash.len_utf8() + count))
}

#[allow(clippy::cast_precision_loss)]
fn to_f64(n: u64) -> f64 {
    n as f64
}

/// A decimal number with a fixed count of places, and with no lone minus before zero.
#[must_use]
pub fn decimal(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    if text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.') {
        text.trim_start_matches('-').to_string()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_makers_write_them() {
        for (text, value, taken) in [
            ("12", 12.0, 2),
            ("2.5 cm", 2.5, 3),
            ("1 3/8 in", 1.375, 5),
            ("5/8 in", 0.625, 3),
            ("2½", 2.5, 3),
            ("2 ½\"", 2.5, 4),
            ("⅝", 0.625, 3),
            ("12 / 4", 12.0, 2),
            ("4 yd", 4.0, 1),
            ("7 12 in", 7.0, 1),
        ] {
            assert_eq!(parse_number(text), Some((value, taken)), "{text}");
        }
        assert_eq!(parse_number("waist"), None);
        assert_eq!(parse_number("1. cm"), None);
    }

    #[test]
    fn fractions_in_lowest_terms() {
        assert_eq!(Fraction::of(21, 8).plain(), "2 5/8");
        assert_eq!(Fraction::of(21, 8).typeset(), "2⅝");
        assert_eq!(Fraction::of(12, 16).plain(), "3/4");
        assert_eq!(Fraction::of(43, 16).typeset(), "2\u{2009}11\u{2044}16");
        assert_eq!(Fraction::of(-4, 8).plain(), "-1/2");
        assert_eq!(Fraction::of(0, 8).plain(), "0");
    }
}
