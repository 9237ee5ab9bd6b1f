//! The fixed words of everything that is printed, one catalogue a language.
//!
//! A catalogue is a file of `templates/words/`. Words that Rust asks for have a name in [`Word`], so that a word
//! nobody wrote is a compile error; words only templates ask for are held against the templates by a test. Figures are
//! drawn in English and put into another language sentence by sentence, with [`Phrases`].

mod catalogue;
mod phrase;
mod word;

pub use catalogue::{Catalogue, ProseWords, catalogue, languages, primary};
pub use phrase::{Phrases, Tongue};
pub use word::Word;
