//! Reading a garment folder: texts, and a tree of nodes that knows the bytes of every key and value.
//!
//! `garment.yaml` may put any of its long parts into a file of its own (`steps: steps.yaml`); the tree
//! is one all the same. Nothing outside the folder is read. Values keep the text they were written
//! with; [`Node::to_value`] resolves plain scalars as YAML 1.2 does. Drawings the garment names are read as text.

mod drawings;
mod folder;
mod index;
mod locate;
mod node;

pub use drawings::MAX_DRAWING_BYTES;
pub use folder::{GARMENT_FILE, MAX_YAML_BYTES, Source, read};
pub use index::{MAX_DEPTH, MAX_NODES, parse};
pub use node::{Entry, Node, NodeKind};
