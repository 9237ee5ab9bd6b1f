//! The typefaces of the sheets and how wide words are in them.

use std::sync::LazyLock;

/// A typeface: Noto Sans, as in the booklet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Upright.
    Regular,
    /// Heavy.
    Bold,
}

/// The font files (SIL Open Font License 1.1, text beside them).
const FILES: [&[u8]; 2] = [
    include_bytes!("../../templates/fonts/NotoSans-Regular.ttf"),
    include_bytes!("../../templates/fonts/NotoSans-Bold.ttf"),
];

static FONTS: LazyLock<[Option<ttf_parser::Face<'static>>; 2]> =
    LazyLock::new(|| FILES.map(|file| ttf_parser::Face::parse(file, 0).ok()));

impl Face {
    /// Both.
    pub const ALL: [Face; 2] = [Face::Regular, Face::Bold];

    /// The font file.
    #[must_use]
    pub const fn file(self) -> &'static [u8] {
        match self {
            Face::Regular => FILES[0],
            Face::Bold => FILES[1],
        }
    }

    /// The name fonts know themselves by.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Face::Regular => "NotoSans-Regular",
            Face::Bold => "NotoSans-Bold",
        }
    }

    pub(super) fn font(self) -> Option<&'static ttf_parser::Face<'static>> {
        match self {
            Face::Regular => FONTS[0].as_ref(),
            Face::Bold => FONTS[1].as_ref(),
        }
    }

    /// The glyph of a character; 0 where there is none.
    #[must_use]
    pub fn glyph(self, c: char) -> u16 {
        self.font().and_then(|font| font.glyph_index(c)).map_or(0, |id| id.0)
    }

    /// The width of a glyph as a share of the em.
    #[must_use]
    pub fn advance(self, glyph: u16) -> f64 {
        let Some(font) = self.font() else { return 0.6 };
        let units = f64::from(font.units_per_em());
        font.glyph_hor_advance(ttf_parser::GlyphId(glyph)).map_or(0.6, |wide| f64::from(wide) / units)
    }

    /// How wide words are, in the unit of the em.
    #[must_use]
    pub fn width(self, text: &str, em: f64) -> f64 {
        text.chars().map(|c| self.advance(self.glyph(c))).sum::<f64>() * em
    }

    /// Words broken into lines no wider than that; a single word that is wider stands alone.
    #[must_use]
    pub fn lines(self, text: &str, em: f64, width: f64) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        let mut line = String::new();
        for word in text.split_whitespace() {
            let longer = if line.is_empty() { word.to_string() } else { format!("{line} {word}") };
            if self.width(&longer, em) > width && !line.is_empty() {
                lines.push(std::mem::replace(&mut line, word.to_string()));
            } else {
                line = longer;
            }
        }
        if !line.is_empty() {
            lines.push(line);
        }
        lines
    }

    /// The first character of a text that has no glyph.
    #[must_use]
    pub fn missing(self, text: &str) -> Option<char> {
        text.chars().find(|c| !c.is_whitespace() && self.glyph(*c) == 0)
    }
}

/// Points to millimetres, for heights of type.
#[must_use]
pub const fn pt(points: f64) -> f64 {
    points * 25.4 / 72.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The advance widths of Noto Sans as its own `hmtx` table states them (read with fontTools: `H` 741, `i` 258 of 1000).
    #[test]
    fn widths_are_those_of_the_font() {
        assert!((Face::Regular.width("H", 10.0) - 7.41).abs() < 1e-9);
        assert!((Face::Regular.width("Hi", 1000.0) - 999.0).abs() < 1e-6);
        assert_eq!(Face::Regular.missing("½ in, 5⅜"), None);
        assert_eq!(Face::Bold.missing("a \u{4f60}"), Some('\u{4f60}'));
    }

    #[test]
    fn lines_break_at_words() {
        let lines = Face::Regular.lines("one two three", 10.0, Face::Regular.width("one two", 10.0) + 0.1);
        assert_eq!(lines, ["one two", "three"]);
    }
}
