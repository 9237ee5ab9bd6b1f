//! Outlines from drawings.

use super::desk::{Desk, Drawn};
use super::outline::Body;
use crate::fault::{Place, Route};
use crate::shape::BodyShape;

/// Where the text of a drawing comes from: the garment's folder.
pub trait Files {
    /// The text of a file, and the name of the size that is drawn.
    ///
    /// # Errors
    /// In words, where it cannot be read.
    fn text(&self, file: &str) -> Result<String, String>;
    /// The name of the size, for `{size}`.
    fn size(&self) -> &str;
}

/// No folder: nothing can be imported.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct NoFiles;

impl Files for NoFiles {
    fn text(&self, _: &str) -> Result<String, String> {
        Err("there is no folder to read it from".to_string())
    }

    fn size(&self) -> &str {
        ""
    }
}

pub(super) fn imported(desk: &Desk, body: &BodyShape, route: &Route, files: &dyn Files) -> Drawn<Body> {
    let BodyShape::Imported(shape) = body else {
        return Err(desk.cannot(Place::Key(route.clone()), "this kind of shape cannot be drawn", "choose another"));
    };
    files.text(&shape.file).map_err(|why| {
        desk.cannot(route.key("file"), format!("`{}` cannot be read: {why}", shape.file), "look at the name")
    })?;
    Ok(Body::default())
}
