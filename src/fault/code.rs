//! The kinds of faults, each with a page that explains it.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

macro_rules! codes {
    ($( $(#[doc = $doc:literal])+ $name:ident = $code:literal, )*) => {
        /// What kind of fault it is. Its name never changes once published.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code {
            $( $(#[doc = $doc])+ $name, )*
        }

        /// Every code there is.
        pub const ALL_CODES: &[Code] = &[ $( Code::$name, )* ];

        impl Code {
            /// Its name, as printed and as `furbelow explain` takes it.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $( Code::$name => $code, )* }
            }

            /// The page that explains it.
            #[must_use]
            pub const fn explain(self) -> &'static str {
                match self { $( Code::$name => concat!($( $doc, "\n" ),+), )* }
            }
        }
    };
}

codes! {
    /// A file cannot be read: it is not there, is not a file, is not text, is too large, or lies
    /// outside the garment's folder.
    File = "file",
    /// The text is not YAML. Look at the marked place for a tab, a missing space behind a colon,
    /// or a quote that is never closed.
    Yaml = "yaml",
    /// Anchors and aliases (`&name`, `*name`), tags (`!name`) and merge keys have no place in a
    /// garment file. Write the value out, or name it under `numbers`.
    YamlFeature = "yaml-feature",
    /// The same key stands twice in one mapping.
    DuplicateKey = "duplicate-key",
    /// A key is not one this place knows.
    UnknownKey = "unknown-key",
    /// A key that must be there is missing.
    MissingKey = "missing-key",
    /// A value is of another kind than expected here: text for a list, a list for a mapping.
    WrongType = "wrong-type",
    /// A value is of the right kind, but not one of those allowed.
    BadValue = "bad-value",
    /// There is more of something than the tool takes.
    TooMuch = "too-much",
    /// A name is not of the form names have: letters, digits and underscores, beginning with a
    /// letter.
    BadName = "bad-name",
    /// A formula cannot be read.
    FormulaSyntax = "formula-syntax",
    /// A formula names something that is not there.
    UnknownName = "unknown-name",
    /// A formula mixes dimensions: it adds a bare number to a length, or yields an area where a
    /// length is expected.
    FormulaDimension = "formula-dimension",
    /// A formula has no value: it divides by zero, takes the root of a negative number, or runs
    /// out of bounds.
    FormulaValue = "formula-value",
    /// Names that need each other in a ring, so that none can be worked out first.
    Cycle = "cycle",
    /// A number that no garment has: a length of a mile, a count of a billion.
    Absurd = "absurd",
    /// The size table does not hold together.
    Sizes = "sizes",
    /// A swatch's measurements contradict each other.
    Swatch = "swatch",
    /// A technique cannot do what is asked of it.
    Reach = "out-of-reach",
    /// What a teacher at your elbow would say about a technique.
    Advice = "advice",
    /// A piece cannot be drawn.
    Piece = "piece",
    /// An outline crosses itself, is not closed, or has no area.
    Outline = "outline",
    /// Two edges that are sewn together do not fit.
    Seam = "seam",
    /// Notches that should meet do not.
    Notches = "notches",
    /// An edge is not sewn, hemmed, faced, bound, folded or declared free.
    LooseEdge = "loose-edge",
    /// A size does not grow as its neighbours do.
    Grading = "grading",
    /// The prose of a step cannot be rendered.
    Prose = "prose",
    /// Words are missing in the language of the edition, or left over from it: in the catalogue of fixed words, or in
    /// the garment's own file of translations.
    Translation = "translation",
    /// A figure cannot be drawn from what it names.
    Figure = "figure",
    /// A layout cannot be found on a cloth.
    Layout = "layout",
    /// The pattern sheets of a format cannot be made: the pieces need a page longer than viewers and
    /// printers take (200 in), or one is wider than the paper however it is turned. Leave long plain
    /// pieces to the cutting chart, or offer another format.
    Sheet = "sheet",
    /// A document cannot be set.
    Document = "document",
    /// An output cannot be written.
    Output = "output",
    /// A caution that applies to this garment is missing from it.
    Caution = "caution",
}

impl Code {
    /// The code of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Code> {
        ALL_CODES.iter().copied().find(|code| code.name() == name)
    }
}

impl Serialize for Code {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

impl<'de> Deserialize<'de> for Code {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Code, D::Error> {
        let name = String::deserialize(deserializer)?;
        Code::named(&name).ok_or_else(|| D::Error::custom(format!("no kind of fault is called `{name}`")))
    }
}
