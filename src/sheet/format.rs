//! The papers sheets are printed on.

use serde::{Deserialize, Serialize};

/// What no home printer can be trusted to print along an edge of the paper, mm. Common practice, no source: older inkjets
/// leave 12.7 mm (1/2 in) blank at the end where the rollers hold the sheet, lasers and newer ones less.
pub const HOME_MARGIN: f64 = 12.7;
/// The edge a copy shop's plotter leaves blank, mm, with something to spare (common practice, no source: 5 mm).
pub const PLOTTER_MARGIN: f64 = 10.0;
/// The longest side of a page most viewers and printers take, mm: 200 in, the limit of ISO 32000-1, annex C.
pub const LONGEST: f64 = 200.0 * 25.4;
/// How much of the neighbouring tile is printed once more, to be stuck under it, mm.
pub const FLAP: f64 = 10.0;

/// What the sheets are printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Format {
    /// Tiles on ISO 216 A4, 210 by 297 mm.
    A4,
    /// Tiles on US letter, 8.5 by 11 in.
    Letter,
    /// ISO 216 A0, 841 by 1189 mm, for a copy shop.
    A0,
    /// A roll 36 in wide, for a copy shop.
    Roll,
    /// One page for a projector over the cutting table.
    Projector,
}

/// How tiles are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Joining {
    /// Each tile overlaps the next, and is glued on it.
    #[default]
    Glued,
    /// Each tile is cut on its frame, and taped edge to edge.
    Butted,
}

impl Format {
    /// Every format.
    pub const ALL: [Format; 5] = [Format::A4, Format::Letter, Format::A0, Format::Roll, Format::Projector];

    /// Its name in file names and on the command line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Format::A4 => "a4",
            Format::Letter => "letter",
            Format::A0 => "a0",
            Format::Roll => "roll",
            Format::Projector => "projector",
        }
    }

    /// Its name in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Format::A4 => "A4",
            Format::Letter => "US letter",
            Format::A0 => "A0",
            Format::Roll => "a roll 36 in (914 mm) wide",
            Format::Projector => "a projector",
        }
    }

    /// The format of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Format> {
        Format::ALL.into_iter().find(|format| format.name() == name)
    }

    /// Whether it comes as tiles of paper for a home printer.
    #[must_use]
    pub const fn is_home(self) -> bool {
        matches!(self, Format::A4 | Format::Letter)
    }

    /// Whether it is one page as long as it needs to be.
    #[must_use]
    pub const fn is_endless(self) -> bool {
        matches!(self, Format::Roll | Format::Projector)
    }

    /// Width and height of the paper, mm; the height of an endless page is the greatest it may have.
    #[must_use]
    pub const fn paper(self) -> (f64, f64) {
        match self {
            Format::A4 => (210.0, 297.0),
            Format::Letter => (215.9, 279.4),
            Format::A0 => (841.0, 1189.0),
            Format::Roll => (914.4, LONGEST),
            Format::Projector => (1524.0, LONGEST),
        }
    }

    /// What is printed on of a page, mm: the frame of a tile, and where it is glued, the flaps to its right and below.
    #[must_use]
    pub const fn area(self) -> (f64, f64) {
        match self {
            // Even numbers of millimetres, at least the margin away from every edge.
            Format::A4 => (184.0, 271.0),
            Format::Letter => (190.5, 254.0),
            Format::A0 | Format::Roll | Format::Projector => {
                let (width, height) = self.paper();
                (width - 2.0 * PLOTTER_MARGIN, height - 2.0 * PLOTTER_MARGIN)
            }
        }
    }

    /// From one tile to the next across and down, mm.
    #[must_use]
    pub fn pitch(self, joining: Joining) -> (f64, f64) {
        let (width, height) = self.area();
        if self.is_endless() || joining == Joining::Butted { (width, height) } else { (width - FLAP, height - FLAP) }
    }

    /// How much thicker lines and larger words are: a projector hangs a storey above the table.
    #[must_use]
    pub const fn boldness(self) -> f64 {
        if matches!(self, Format::Projector) { 2.0 } else { 1.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Read: ISO 216 (A4 210 x 297 mm, A0 841 x 1189 mm); US letter 8.5 by 11 in.
    #[test]
    fn frames_stay_off_the_edge() {
        for format in Format::ALL.into_iter().filter(|format| format.is_home()) {
            let ((wide, high), (across, down)) = (format.paper(), format.area());
            assert!(
                (wide - across) / 2.0 >= HOME_MARGIN - 1e-9 && (high - down) / 2.0 >= HOME_MARGIN - 1e-9,
                "{format:?}"
            );
        }
        let (wide, high) = Format::Letter.paper();
        assert!((wide - 8.5 * 25.4).abs() < 1e-9 && (high - 11.0 * 25.4).abs() < 1e-9);
        assert_eq!(Format::named("roll"), Some(Format::Roll));
    }
}
