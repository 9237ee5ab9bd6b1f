//! How a figure is to look: the garment's accent, the systems of its numbers, colour or grey.

use crate::units::Systems;
use crate::words::Tongue;

/// The colour a garment is known by, as red, green and blue of the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Accent {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl Accent {
    /// Reads `#7a2e3a`, with or without the mark; none where it is not six hexadecimal digits.
    #[must_use]
    pub fn parse(text: &str) -> Option<Accent> {
        let digits = text.trim().trim_start_matches('#');
        if digits.len() != 6 || !digits.is_ascii() {
            return None;
        }
        let part = |at: usize| u8::from_str_radix(digits.get(at..at + 2)?, 16).ok();
        Some(Accent { red: part(0)?, green: part(2)?, blue: part(4)? })
    }
}

/// How a figure is to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Look {
    /// The garment's one colour.
    pub accent: Accent,
    /// Which systems of measures are printed, and in what order.
    pub systems: Systems,
    /// Draw in greys only, as a black-and-white printer will.
    pub grey: bool,
    /// Pale areas, for an edition that spares ink.
    pub pale: bool,
    /// The language of the words.
    pub tongue: Tongue,
}

/// What an area or a line is painted with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Paint {
    /// The line colour of everything.
    Ink,
    /// A lighter ink for what lies hidden.
    Faint,
    /// The right side of the cloth.
    Tint,
    /// The right side a little turned from the light.
    Half,
    /// The right side in shadow.
    Shade,
    /// A full accent, for threads and cords that must be told from lines.
    Deep,
    /// Paper, and the wrong side of the cloth.
    White,
    /// The wrong side in shadow.
    Pale,
}

/// Relative luminance each tone of the accent is brought to, so that pale and dark accents print alike.
const TONES: [(Paint, f64); 4] = [(Paint::Tint, 0.66), (Paint::Half, 0.53), (Paint::Shade, 0.38), (Paint::Deep, 0.13)];

impl Look {
    pub(crate) fn colour(&self, paint: Paint) -> String {
        let (red, green, blue) = match paint {
            Paint::Ink => (0x22, 0x20, 0x20),
            Paint::Faint => (0x80, 0x7c, 0x7c),
            Paint::White => (0xff, 0xff, 0xff),
            Paint::Pale => (0xe6, 0xe4, 0xe3),
            tone => {
                let target = TONES.iter().find(|(name, _)| *name == tone).map_or(0.5, |(_, value)| *value);
                // Halfway to paper, in the same order.
                let target = if self.pale { f64::midpoint(target, 1.0) } else { target };
                self.toned(target)
            }
        };
        format!("#{red:02x}{green:02x}{blue:02x}")
    }

    /// The accent mixed with white or black until it has the luminance asked for.
    fn toned(&self, target: f64) -> (u8, u8, u8) {
        let own = [self.accent.red, self.accent.green, self.accent.blue].map(f64::from);
        let own = if self.grey { [luminance(own); 3].map(unlinear) } else { own };
        let toward = if luminance(own) < target { 255.0 } else { 0.0 };
        let (mut low, mut high) = (0.0_f64, 1.0_f64);
        for _ in 0..40 {
            let share = f64::midpoint(low, high);
            let mixed = own.map(|c| c + (toward - c) * share);
            if (luminance(mixed) < target) == (toward > 0.0) { low = share } else { high = share }
        }
        let mixed = own.map(|c| c + (toward - c) * low);
        (byte(mixed[0]), byte(mixed[1]), byte(mixed[2]))
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn byte(value: f64) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}

/// Relative luminance of sRGB, 0 to 1. Read: IEC 61966-2-1, as given in WCAG 2.1, "relative luminance".
fn luminance(rgb: [f64; 3]) -> f64 {
    let linear = rgb.map(|c| {
        let share = c / 255.0;
        if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
}

fn unlinear(value: f64) -> f64 {
    let share = if value <= 0.003_130_8 { value * 12.92 } else { 1.055 * value.powf(1.0 / 2.4) - 0.055 };
    share * 255.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tones_of_any_accent_print_alike() {
        for text in ["#000000", "#ffffff", "#7a2e3a", "#f5e663", "0a4f8a"] {
            for grey in [false, true] {
                let accent = Accent::parse(text).unwrap();
                let look = Look { accent, systems: Systems::ImperialFirst, grey, pale: false, tongue: Tongue::ENGLISH };
                for (_, target) in TONES {
                    let (r, g, b) = look.toned(target);
                    let found = luminance([r, g, b].map(f64::from));
                    assert!((found - target).abs() < 0.01, "{text}: {found} for {target}");
                    assert!(!grey || (r == g && g == b));
                }
            }
        }
        assert_eq!(Accent::parse("#12345"), None);
        assert_eq!(Accent::parse("brown!"), None);
    }
}
