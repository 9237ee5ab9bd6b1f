//! The typefaces, embedded: Libertinus Serif for text, Noto Sans for everything around it.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

/// The files under `templates/fonts` (SIL Open Font License 1.1, texts beside them).
const FILES: [&[u8]; 10] = [
    include_bytes!("../../templates/fonts/LibertinusSerif-Regular.otf"),
    include_bytes!("../../templates/fonts/LibertinusSerif-Italic.otf"),
    include_bytes!("../../templates/fonts/LibertinusSerif-Semibold.otf"),
    include_bytes!("../../templates/fonts/LibertinusSerif-Bold.otf"),
    include_bytes!("../../templates/fonts/LibertinusSerif-BoldItalic.otf"),
    include_bytes!("../../templates/fonts/NotoSans-Regular.ttf"),
    include_bytes!("../../templates/fonts/NotoSans-Italic.ttf"),
    include_bytes!("../../templates/fonts/NotoSans-Bold.ttf"),
    include_bytes!("../../templates/fonts/NotoSans-BoldItalic.ttf"),
    include_bytes!("../../templates/fonts/NotoSansSymbols2-Regular.ttf"),
];

/// The fonts and what typst needs to choose among them.
pub(super) struct Fonts {
    /// Families, styles and coverage, in the order of `fonts`.
    pub(super) book: LazyHash<FontBook>,
    /// The faces.
    pub(super) fonts: Vec<Font>,
}

/// All embedded fonts, read once a process.
pub(super) static FONTS: LazyLock<Fonts> = LazyLock::new(|| {
    let fonts: Vec<Font> = FILES.iter().flat_map(|file| Font::iter(Bytes::new(*file))).collect();
    Fonts { book: LazyHash::new(FontBook::from_fonts(&fonts)), fonts }
});

#[cfg(test)]
mod tests {
    use super::{FILES, FONTS};

    #[test]
    fn all_files_are_fonts() {
        assert_eq!(FONTS.fonts.len(), FILES.len());
        let families: Vec<&str> = FONTS.book.families().map(|(family, _)| family).collect();
        assert_eq!(families, ["Libertinus Serif", "Noto Sans", "Noto Sans Symbols2"]);
    }
}
