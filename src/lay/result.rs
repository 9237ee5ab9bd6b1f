//! What a search hands back.

use crate::lay::board::Spot;
use crate::lay::pose::Pose;
use crate::lay::problem::Problem;
use crate::lay::table::{Table, pose_of};
use serde::{Deserialize, Serialize};

/// Where one copy of one item lies.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Placement {
    /// Index of the item in the problem as given.
    pub item: usize,
    /// Which copy of it, from 0.
    pub copy: usize,
    /// Index of the choice taken among those of the item.
    pub choice: usize,
    /// The pose of that choice.
    pub pose: Pose,
    /// How far the outline of the choice, as given, is moved, mm.
    pub by: [f64; 2],
}

/// All copies laid on a strip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Layout {
    /// Length of strip used, mm.
    pub length: f64,
    /// Area of the items over the area of the strip used, 0 to 1.
    pub density: f64,
    /// By item, then copy.
    pub placements: Vec<Placement>,
    /// Places evaluated to find it.
    pub evaluations: u64,
}

impl Layout {
    pub(crate) fn new(problem: &Problem, table: &Table, length: f64, spots: &[Spot], evaluations: u64) -> Self {
        let mut placements: Vec<Placement> = table
            .units
            .iter()
            .zip(spots)
            .map(|(unit, spot)| {
                let way = &table.kinds[unit.kind][spot.way];
                Placement {
                    item: unit.item,
                    copy: unit.copy,
                    choice: way.choice,
                    pose: pose_of(problem, unit.item, way.choice),
                    by: [spot.at[0] + way.shift[0], spot.at[1] + way.shift[1]],
                }
            })
            .collect();
        placements.sort_by_key(|p| (p.item, p.copy));
        Self { length, density: problem.area() / (length * problem.width), placements, evaluations }
    }
}
