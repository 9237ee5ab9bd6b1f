//! The open benchmark of irregular strip packing, as a [`Problem`].
//!
//! The format is the JSON published with arXiv 2509.13329: `strip_height` is the width of the strip, each item
//! has a demand, allowed orientations in degrees and a simple polygon whose last point repeats the first.

use crate::lay::geom::Point;
use crate::lay::pose::Pose;
use crate::lay::problem::{Choice, Domain, Item, Problem};
use serde::Deserialize;

/// An instance file.
#[derive(Debug, Clone, Deserialize)]
pub struct Instance {
    /// Its name.
    pub name: String,
    /// The shapes.
    pub items: Vec<InstanceItem>,
    /// Width of the strip, in the unit of the instance.
    pub strip_height: f64,
}

/// A shape of an instance.
#[derive(Debug, Clone, Deserialize)]
pub struct InstanceItem {
    /// Its number.
    pub id: u64,
    /// Copies to lay.
    pub demand: usize,
    /// Turns it may have, degrees anticlockwise.
    pub allowed_orientations: Vec<f64>,
    /// Its outline.
    pub shape: InstanceShape,
}

/// The outline of a shape.
#[derive(Debug, Clone, Deserialize)]
pub struct InstanceShape {
    /// Corners, closed.
    pub data: Vec<Point>,
}

impl Instance {
    /// Reads an instance file.
    ///
    /// # Errors
    /// What the JSON reader says, or that a turn is not a multiple of 45 degrees.
    pub fn read(text: &str) -> Result<Self, String> {
        let instance: Self = serde_json::from_str(text).map_err(|e| e.to_string())?;
        for item in &instance.items {
            for turn in &item.allowed_orientations {
                if pose(*turn).is_none() {
                    return Err(format!("item {} has a turn of {turn} degrees; only eighths are laid", item.id));
                }
            }
        }
        Ok(instance)
    }

    /// Millimetres for one unit of the instance: a power of ten that makes the strip about as wide as a cloth,
    /// so that tolerances in millimetres mean the same for every instance.
    #[must_use]
    pub fn scale(&self) -> f64 {
        let mut scale = 1.0;
        while self.strip_height * scale < 700.0 && scale < 1e9 {
            scale *= 10.0;
        }
        scale
    }

    /// The instance as a problem in millimetres, with [`Instance::scale`].
    #[must_use]
    pub fn problem(&self) -> Problem {
        let scale = self.scale();
        let items = self.items.iter().map(|item| {
            let mut outline: Vec<Point> = item.shape.data.iter().map(|p| [p[0] * scale, p[1] * scale]).collect();
            if outline.len() > 1 && outline.first() == outline.last() {
                outline.pop();
            }
            let choices = item
                .allowed_orientations
                .iter()
                .filter_map(|turn| pose(*turn))
                .map(|pose| Choice { pose, outline: pose.outline(&outline), domain: Domain::FREE })
                .collect();
            Item { name: format!("{}", item.id), copies: item.demand, clearance: 0.0, choices }
        });
        Problem { width: self.strip_height * scale, items: items.collect() }
    }
}

fn pose(degrees: f64) -> Option<Pose> {
    let whole = degrees.round();
    if (degrees - whole).abs() > 1e-9 || whole.abs() > 1e6 {
        return None;
    }
    Pose::turned(whole as i32)
}
