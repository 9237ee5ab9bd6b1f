//! Where a fault is.

use std::fmt;
use std::ops::Range;

use serde::{Deserialize, Serialize};

/// One file of a garment folder, by its number in the order read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct FileId(pub u32);

/// A stretch of a file, in bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// Whether another stretch lies within this one.
    #[must_use]
    pub fn holds(self, other: Span) -> bool {
        self.file == other.file && self.start <= other.start && other.end <= self.end
    }
}

/// One step of a [`Route`].
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Seg {
    /// A key of a mapping.
    Key(String),
    /// An entry of a list, counted from 0.
    Index(usize),
}

/// The way from the top of the garment file to a value, key by key.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Route(pub Vec<Seg>);

impl Route {
    /// The top of the garment file.
    #[must_use]
    pub fn top() -> Route {
        Route::default()
    }

    /// One key further down.
    #[must_use]
    pub fn key(&self, key: impl Into<String>) -> Route {
        let mut segs = self.0.clone();
        segs.push(Seg::Key(key.into()));
        Route(segs)
    }

    /// One list entry further down.
    #[must_use]
    pub fn index(&self, index: usize) -> Route {
        let mut segs = self.0.clone();
        segs.push(Seg::Index(index));
        Route(segs)
    }
}

impl fmt::Display for Route {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, seg) in self.0.iter().enumerate() {
            match seg {
                Seg::Key(key) if at == 0 => write!(f, "{key}")?,
                Seg::Key(key) => write!(f, ".{key}")?,
                Seg::Index(index) => write!(f, "[{index}]")?,
            }
        }
        Ok(())
    }
}

/// Where a fault is: stages that know bytes say bytes, later ones say the route to the value.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Place {
    /// Nowhere in particular (a folder that is not there, a command's own argument).
    Nowhere,
    /// A stretch of a file.
    Span(Span),
    /// The key at the end of a route.
    Key(Route),
    /// The value at the end of a route.
    Value(Route),
    /// A stretch, in bytes, of the text of the scalar at the end of a route.
    Within(Route, Range<usize>),
}

impl From<Span> for Place {
    fn from(span: Span) -> Place {
        Place::Span(span)
    }
}

impl From<Route> for Place {
    fn from(route: Route) -> Place {
        Place::Value(route)
    }
}

impl From<&Route> for Place {
    fn from(route: &Route) -> Place {
        Place::Value(route.clone())
    }
}
