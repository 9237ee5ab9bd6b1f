//! What was found, for a page of the maker's own papers and for programs.

use serde::{Deserialize, Serialize};

use crate::draft::Finish;
use crate::units::{Angle, Length};

/// The seams of a garment in all its sizes.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct SeamReport {
    /// The sizes, in order.
    pub sizes: Vec<String>,
    /// Every join.
    pub seams: Vec<SeamMet>,
    /// Every edge of every piece, and what becomes of it.
    pub edges: Vec<EdgeFate>,
    /// How every edge grows.
    pub grading: Vec<Growth>,
}

impl SeamReport {
    /// Whether every seam meets in every size and no edge is left over.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.seams.iter().all(|seam| seam.by_size.iter().all(|size| size.meets))
            && self.edges.iter().all(|edge| edge.fate != Fate::Loose)
            && self.grading.iter().all(|growth| growth.shrinks.is_empty())
    }
}

/// One join.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SeamMet {
    /// What it is called.
    pub title: String,
    /// The edges of the fuller side.
    pub sew: Vec<String>,
    /// The edges they are sewn to.
    pub to: Vec<String>,
    /// Size by size.
    pub by_size: Vec<SeamOfSize>,
}

/// One join in one size. All lengths on the seam line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SeamOfSize {
    /// The size.
    pub size: String,
    /// Length of the fuller side.
    pub sew: Length,
    /// Length of the other.
    pub to: Length,
    /// The least the fuller side may be longer.
    pub least: Length,
    /// The most it may be longer.
    pub most: Length,
    /// How much longer it is.
    pub longer: Length,
    /// By how much it misses what is allowed; nothing where it meets. Below nothing: too short.
    pub misses: Length,
    /// Its notches, each with the one it meets.
    pub notches: Vec<NotchMet>,
    /// Edges that run on across it.
    pub angles: Vec<AngleMet>,
    /// Whether all of it is as it should be.
    pub meets: bool,
}

/// Two notches that should meet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NotchMet {
    /// The name, where the notch has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Distance from the start of the seam on the fuller side; none where there is no such notch.
    pub sew: Option<Length>,
    /// Distance from the start of the seam on the other side.
    pub to: Option<Length>,
    /// Whether they meet.
    pub meets: bool,
}

/// Two edges that run on across a seam.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AngleMet {
    /// The one edge.
    pub from: String,
    /// The other.
    pub into: String,
    /// The kink where they meet: nothing is smooth; above nothing it points out of the garment's edge.
    pub kink: Angle,
    /// Whether it is smooth enough.
    pub meets: bool,
}

/// What becomes of an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fate {
    /// Sewn to another edge.
    Joined,
    /// Finished so.
    Finished(Finish),
    /// Nobody sews it.
    Loose,
}

/// An edge and what becomes of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct EdgeFate {
    /// The piece.
    pub piece: String,
    /// The edge.
    pub edge: String,
    /// What becomes of it.
    pub fate: Fate,
}

/// How an edge grows from size to size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Growth {
    /// The piece.
    pub piece: String,
    /// The edge.
    pub edge: String,
    /// Its length in every size.
    pub lengths: Vec<Length>,
    /// Whether it was declared that it need not grow.
    pub declared: bool,
    /// Sizes in which it is shorter than in the one before, undeclared.
    pub shrinks: Vec<String>,
    /// Sizes whose step is unlike the others.
    pub outliers: Vec<String>,
}
