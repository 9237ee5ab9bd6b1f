//! What an entry was made from.

use std::fmt::Write as _;

use serde::Serialize;
use sha2::{Digest, Sha256};

/// The fingerprint of the program: its sources, templates, fonts and the versions of everything it is built from.
pub const MADE_FROM: &str = env!("FURBELOW_MADE_FROM");

/// The key of an entry: its kind, and a digest of everything it was made from.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    kind: &'static str,
    digest: [u8; 32],
}

impl Key {
    /// Begins a key. A kind is a short word of lower-case letters and `-`: `layout`.
    #[must_use]
    pub fn of(kind: &'static str) -> KeyMaker {
        let mut maker = KeyMaker { kind, hash: Sha256::new() };
        maker.add("program", MADE_FROM.as_bytes());
        maker.add("kind", kind.as_bytes());
        maker
    }

    /// The kind.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        self.kind
    }

    /// The digest in hexadecimal.
    #[must_use]
    pub fn hex(&self) -> String {
        self.digest.iter().fold(String::with_capacity(64), |mut text, byte| {
            let _ = write!(text, "{byte:02x}");
            text
        })
    }

    pub(super) fn digest(&self) -> &[u8; 32] {
        &self.digest
    }
}

/// A key being made: every input is added under its name.
#[derive(Clone)]
pub struct KeyMaker {
    kind: &'static str,
    hash: Sha256,
}

impl KeyMaker {
    /// Adds an input as bytes. Name and bytes go in with their lengths, so that inputs cannot run into each other.
    #[must_use]
    pub fn bytes(mut self, name: &str, bytes: &[u8]) -> KeyMaker {
        self.add(name, bytes);
        self
    }

    /// Adds an input by its JSON. None where JSON cannot hold the value (a mapping whose keys are not words): it is not kept.
    #[must_use]
    pub fn value(self, name: &str, value: &impl Serialize) -> Option<KeyMaker> {
        serde_json::to_vec(value).ok().map(|bytes| self.bytes(name, &bytes))
    }

    /// The key.
    #[must_use]
    pub fn key(self) -> Key {
        Key { kind: self.kind, digest: self.hash.finalize().into() }
    }

    fn add(&mut self, name: &str, bytes: &[u8]) {
        for part in [name.as_bytes(), bytes] {
            self.hash.update((part.len() as u64).to_le_bytes());
            self.hash.update(part);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Key;

    #[test]
    fn inputs_do_not_run_into_each_other() {
        let key = |a: &str, b: &str| Key::of("test").bytes("a", a.as_bytes()).bytes("b", b.as_bytes()).key();
        assert_eq!(key("one", "two"), key("one", "two"));
        assert_ne!(key("one", "two"), key("onet", "wo"));
        assert_ne!(key("", "x"), key("x", ""));
        assert_ne!(Key::of("test").key(), Key::of("other").key());
        assert_ne!(Key::of("test").bytes("a", b"x").key(), Key::of("test").bytes("b", b"x").key());
    }
}
