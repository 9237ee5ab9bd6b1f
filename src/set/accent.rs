//! The accent colour, made fit to carry text.
//!
//! Contrast is that of WCAG 2.1 (W3C Recommendation, "relative luminance" and "contrast ratio"):
//! `(L1 + 0.05) / (L2 + 0.05)`, at least 4.5 : 1 for text.

use serde::Serialize;

/// The least contrast of text with its ground.
const LEAST: f64 = 4.5;

/// An sRGB colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Colour(pub u8, pub u8, pub u8);

impl Colour {
    /// White.
    pub const WHITE: Colour = Colour(255, 255, 255);

    /// Reads `#rrggbb`. None if it is something else.
    #[must_use]
    pub fn parse(text: &str) -> Option<Colour> {
        let hex = text.strip_prefix('#').filter(|hex| hex.len() == 6 && hex.bytes().all(|b| b.is_ascii_hexdigit()))?;
        let part = |at: usize| hex.get(at..at + 2).and_then(|two| u8::from_str_radix(two, 16).ok());
        Some(Colour(part(0)?, part(2)?, part(4)?))
    }

    /// Written as `#rrggbb`.
    #[must_use]
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.0, self.1, self.2)
    }

    /// Relative luminance, 0 (black) to 1 (white).
    #[must_use]
    pub fn luminance(self) -> f64 {
        let part = |value: u8| {
            let share = f64::from(value) / 255.0;
            if share <= 0.040_45 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(self.0) + 0.7152 * part(self.1) + 0.0722 * part(self.2)
    }

    /// Mixed with another: `share` of the other, 0 to 1.
    fn mixed(self, other: Colour, share: f64) -> Colour {
        // The result lies between two bytes, so the cast cannot lose anything.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let part = |a: u8, b: u8| (f64::from(a) * (1.0 - share) + f64::from(b) * share).round() as u8;
        Colour(part(self.0, other.0), part(self.1, other.1), part(self.2, other.2))
    }
}

/// Contrast of two colours, 1 to 21.
#[must_use]
pub fn contrast(one: Colour, other: Colour) -> f64 {
    let (a, b) = (one.luminance(), other.luminance());
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The colours a document uses, all from one accent.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Accent {
    /// For letters and rules: the accent, darkened until it reads on white and on the tint.
    pub ink: String,
    /// For bands behind text: light, and of one lightness whatever the accent.
    pub tint: String,
    /// For the wash behind a heading row: a little stronger than the tint.
    pub wash: String,
}

impl Accent {
    /// Derives them.
    #[must_use]
    pub fn of(accent: Colour) -> Accent {
        let tint = lightened(accent, 0.86);
        let wash = lightened(accent, 0.74);
        let ink = (0..=100)
            .map(|step| accent.mixed(Colour(0, 0, 0), f64::from(step) / 100.0))
            .find(|ink| contrast(*ink, wash) >= LEAST)
            .unwrap_or(Colour(0, 0, 0));
        Accent { ink: ink.hex(), tint: tint.hex(), wash: wash.hex() }
    }
}

/// The accent mixed with white until its luminance is at least `least`.
fn lightened(accent: Colour, least: f64) -> Colour {
    (0..=100)
        .map(|step| accent.mixed(Colour::WHITE, f64::from(step) / 100.0))
        .find(|tint| tint.luminance() >= least)
        .unwrap_or(Colour::WHITE)
}

#[cfg(test)]
mod tests {
    use super::{Accent, Colour, contrast};

    #[test]
    fn contrast_of_the_standard() {
        // Read: W3C, Understanding WCAG 2.1, SC 1.4.3: black on white is 21 : 1; #767676 on white
        // is the lightest grey of 4.5 : 1 (4.54).
        assert!((contrast(Colour(0, 0, 0), Colour::WHITE) - 21.0).abs() < 1e-9);
        let grey = contrast(Colour(0x76, 0x76, 0x76), Colour::WHITE);
        assert!((grey - 4.54).abs() < 0.005, "{grey}");
        assert!(contrast(Colour(0x77, 0x77, 0x77), Colour::WHITE) < 4.5);
    }

    #[test]
    fn every_accent_reads() {
        for accent in ["#ffff00", "#7a2e3a", "#ffffff", "#000000", "#00ff00", "#88aaff"] {
            let made = Accent::of(Colour::parse(accent).unwrap());
            let [ink, tint, wash] = [&made.ink, &made.tint, &made.wash].map(|hex| Colour::parse(hex).unwrap());
            for ground in [Colour::WHITE, tint, wash] {
                assert!(contrast(ink, ground) >= 4.5, "{accent}: {made:?}");
            }
            assert!(contrast(Colour(0x55, 0x55, 0x55), tint) >= 4.5, "the grey of second lines on {accent}");
        }
    }

    #[test]
    fn a_dark_accent_stays() {
        assert_eq!(Accent::of(Colour(0x7a, 0x2e, 0x3a)).ink, "#7a2e3a");
    }

    #[test]
    fn reads_hex_only() {
        for wrong in ["7a2e3a", "#7a2e3", "#7a2e3g", "#ééé", "", "#+a+b+c"] {
            assert_eq!(Colour::parse(wrong), None, "{wrong}");
        }
    }
}
