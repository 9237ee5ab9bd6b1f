//! The drawings a garment names: SVG and DXF files of its folder.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::File;
use std::io::Read;
use std::path::Path;

use super::folder::{inside, plain};
use super::node::{Node, NodeKind};

/// How large a drawing may be.
pub const MAX_DRAWING_BYTES: u64 = 20 * 1024 * 1024;
/// How large all drawings of a garment may be together.
const MAX_BYTES: u64 = 200 * 1024 * 1024;
/// How many drawings a garment may name.
const MAX_DRAWINGS: usize = 2000;

/// Reads every drawing that is named under a key `file`, once for each size where its name holds `{size}`. What cannot be
/// read stands in its place in words, for whoever wants the drawing.
pub(super) fn drawings(folder: &Path, root: &Node) -> BTreeMap<String, Result<String, String>> {
    let sizes: Vec<&str> = match root.get("sizes").and_then(|sizes| sizes.get("names")).map(|names| &names.kind) {
        Some(NodeKind::List(names)) => names.iter().filter_map(Node::text).collect(),
        _ => Vec::new(),
    };
    let mut names = BTreeSet::new();
    named(root, &sizes, &mut names);
    let mut left = MAX_BYTES;
    let mut drawings = BTreeMap::new();
    for (index, name) in names.into_iter().enumerate() {
        let text = if index < MAX_DRAWINGS {
            text(folder, &name, left)
        } else {
            Err(format!("a garment has at most {MAX_DRAWINGS} drawings"))
        };
        left = left.saturating_sub(text.as_ref().map_or(0, |text| text.len() as u64));
        drawings.insert(name, text);
    }
    drawings
}

/// The names of drawings at and below a node.
fn named(node: &Node, sizes: &[&str], names: &mut BTreeSet<String>) {
    match &node.kind {
        NodeKind::Map(entries) => {
            for entry in entries {
                match entry.value.text() {
                    Some(text) if entry.key == "file" && is_drawing(text) => {
                        if text.contains("{size}") {
                            names.extend(sizes.iter().map(|size| text.replace("{size}", size)));
                        } else {
                            names.insert(text.to_string());
                        }
                    }
                    Some(_) => {}
                    None => named(&entry.value, sizes, names),
                }
            }
        }
        NodeKind::List(nodes) => nodes.iter().for_each(|node| named(node, sizes, names)),
        NodeKind::Scalar { .. } => {}
    }
}

fn is_drawing(name: &str) -> bool {
    let ending = Path::new(name).extension().unwrap_or_default();
    !name.contains('\n') && (ending.eq_ignore_ascii_case("svg") || ending.eq_ignore_ascii_case("dxf"))
}

fn text(folder: &Path, name: &str, left: u64) -> Result<String, String> {
    let path = inside(folder, name)?;
    let file = File::open(&path).map_err(|error| plain(&error).to_string())?;
    let data = file.metadata().map_err(|error| plain(&error).to_string())?;
    if !data.is_file() {
        return Err("it is not a file".to_string());
    }
    let room = MAX_DRAWING_BYTES.min(left);
    let mut bytes = Vec::new();
    file.take(room + 1).read_to_end(&mut bytes).map_err(|error| plain(&error).to_string())?;
    if bytes.len() as u64 > room {
        let mib = |bytes: u64| bytes / 1024 / 1024;
        return Err(if room < MAX_DRAWING_BYTES {
            format!("the drawings of this garment are larger than {} MiB together", mib(MAX_BYTES))
        } else {
            format!("it is larger than {} MiB", mib(MAX_DRAWING_BYTES))
        });
    }
    // Older drawing programs write one byte a character, as ISO 8859-1 has them.
    Ok(String::from_utf8(bytes).unwrap_or_else(|error| error.into_bytes().into_iter().map(char::from).collect()))
}
