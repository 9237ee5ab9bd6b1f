//! SVG 1.1: paths and polygons by id, with the transforms about them.

use kurbo::{Affine, BezPath, PathEl, Point};

use super::{Sketch, Unread};
use crate::draft::path::Path;
use crate::draft::piece::MarkKind;

/// How deep groups may lie in each other.
const DEEPEST: usize = 64;

/// A tag: its name, its attributes, and whether it opens, closes or stands alone.
struct Tag<'a> {
    name: &'a str,
    attributes: Vec<(&'a str, &'a str)>,
    closes: bool,
    alone: bool,
}

impl Tag<'_> {
    fn get(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(key, _)| *key == name).map(|(_, value)| *value)
    }
}

/// The tags of a document, in order. Comments, text and declarations are passed over.
fn tags(text: &str) -> Result<Vec<Tag<'_>>, Unread> {
    let broken = || Unread::File("it is not well-formed XML".to_string());
    let mut tags = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find('<') {
        rest = &rest[at..];
        if let Some(comment) = rest.strip_prefix("<!--") {
            rest = &comment[comment.find("-->").ok_or_else(broken)? + 3..];
            continue;
        }
        if rest.starts_with("<![CDATA[") {
            rest = &rest[rest.find("]]>").ok_or_else(broken)? + 3..];
            continue;
        }
        let end = tag_end(rest).ok_or_else(broken)?;
        let inner = &rest[1..end];
        rest = &rest[end + 1..];
        if inner.starts_with(['?', '!']) {
            continue;
        }
        let closes = inner.starts_with('/');
        let alone = inner.ends_with('/');
        let inner = inner.trim_start_matches('/').trim_end_matches('/');
        let name_end = inner.find(char::is_whitespace).unwrap_or(inner.len());
        let name = inner[..name_end].rsplit(':').next().unwrap_or("");
        tags.push(Tag { name, attributes: attributes(&inner[name_end..]).ok_or_else(broken)?, closes, alone });
    }
    Ok(tags)
}

/// Where a tag ends: at the first `>` outside quotes.
fn tag_end(text: &str) -> Option<usize> {
    let mut quote = None;
    for (at, c) in text.char_indices() {
        match (quote, c) {
            (None, '>') => return Some(at),
            (None, '"' | '\'') => quote = Some(c),
            (Some(open), c) if c == open => quote = None,
            _ => {}
        }
    }
    None
}

fn attributes(text: &str) -> Option<Vec<(&str, &str)>> {
    let mut found = Vec::new();
    let mut rest = text.trim_start();
    while !rest.is_empty() {
        let equals = rest.find('=')?;
        let name = rest[..equals].trim();
        let after = rest[equals + 1..].trim_start();
        let quote = after.chars().next().filter(|c| matches!(c, '"' | '\''))?;
        let value = &after[1..];
        let end = value.find(quote)?;
        found.push((name, &value[..end]));
        rest = value[end + 1..].trim_start();
    }
    Some(found)
}

/// Reads the path, polygon or group of that id. A group must hold one outline; further open paths in it are lines within.
pub(super) fn read(text: &str, id: &str) -> Result<Sketch, Unread> {
    let tags = tags(text)?;
    let mut unit = None;
    let mut stack: Vec<(Affine, bool)> = vec![(Affine::IDENTITY, false)];
    let mut known = Vec::new();
    let mut shapes: Vec<(BezPath, bool)> = Vec::new();
    let mut found = false;
    for tag in &tags {
        if tag.closes {
            if stack.len() > 1 {
                stack.pop();
            }
            continue;
        }
        let (outer, inside) = stack.last().copied().unwrap_or((Affine::IDENTITY, false));
        if tag.name == "svg" && unit.is_none() {
            unit = stated_unit(tag);
        }
        let own = match tag.get("transform") {
            Some(text) => transform(text)
                .ok_or_else(|| Unread::Outline(format!("has the transform `{text}`, which is not read")))?,
            None => Affine::IDENTITY,
        };
        let here = tag.get("id") == Some(id);
        if let Some(name) = tag.get("id")
            && matches!(tag.name, "g" | "path" | "polygon")
        {
            known.push(name.to_string());
        }
        found |= here;
        let to = outer * own;
        if (here || inside)
            && let Some(shape) = outline(tag)?
        {
            shapes.extend(split(&shape).into_iter().map(|(path, closed)| (to * path, closed)));
        }
        if !tag.alone {
            if stack.len() > DEEPEST {
                return Err(Unread::File("its groups lie too deep in each other".to_string()));
            }
            stack.push((to, inside || here));
        }
    }
    if !found {
        return Err(Unread::Name(known));
    }
    choose(shapes, unit)
}

fn choose(shapes: Vec<(BezPath, bool)>, unit: Option<f64>) -> Result<Sketch, Unread> {
    let as_path = |bez: &BezPath| Path::of(bez.segments());
    let count = shapes.iter().filter(|(_, closed)| *closed).count();
    let outline = match (count, shapes.len()) {
        (1, _) => shapes.iter().position(|(_, closed)| *closed),
        // One open line may be an outline whose ends meet.
        (0, 1) => Some(0),
        (0, 0) => return Err(Unread::Outline("holds no line".to_string())),
        (0, many) => return Err(Unread::Outline(format!("is not closed: it holds {many} open lines"))),
        (many, _) => return Err(Unread::Outline(format!("holds {many} closed outlines, and a piece has one"))),
    };
    let Some(index) = outline else { return Err(Unread::Outline("holds no line".to_string())) };
    let lines = shapes.iter().enumerate().filter(|(at, _)| *at != index);
    let lines = lines.map(|(_, (path, _))| (MarkKind::Stitch, as_path(path))).collect();
    let (path, closed) = &shapes[index];
    Ok(Sketch { outline: as_path(path), closed: *closed, lines, unit, ..Sketch::default() })
}

/// The subpaths, each with whether it is closed.
fn split(path: &BezPath) -> Vec<(BezPath, bool)> {
    path.subpaths()
        .map(|elements| {
            let closed = elements.iter().any(|element| matches!(element, PathEl::ClosePath));
            (BezPath::from_vec(elements.to_vec()), closed)
        })
        .filter(|(path, _)| path.elements().len() > 1)
        .collect()
}

fn outline(tag: &Tag) -> Result<Option<BezPath>, Unread> {
    match tag.name {
        "path" => {
            let Some(data) = tag.get("d") else { return Ok(None) };
            BezPath::from_svg(data)
                .map(Some)
                .map_err(|why| Unread::Outline(format!("has path data that cannot be read: {why}")))
        }
        "polygon" => {
            let Some(data) = tag.get("points") else { return Ok(None) };
            let numbers = numbers(data).ok_or_else(|| Unread::Outline("has points that cannot be read".to_string()))?;
            let mut path = BezPath::new();
            for pair in numbers.chunks_exact(2) {
                let point = Point::new(pair[0], pair[1]);
                if path.elements().is_empty() { path.move_to(point) } else { path.line_to(point) }
            }
            if !path.elements().is_empty() {
                path.close_path();
            }
            Ok(Some(path))
        }
        _ => Ok(None),
    }
}

fn numbers(text: &str) -> Option<Vec<f64>> {
    text.split([',', ' ', '\t', '\n', '\r']).filter(|part| !part.is_empty()).map(|part| part.parse().ok()).collect()
}

/// SVG 1.1, section 7.6: a list of transforms, applied from the right.
fn transform(text: &str) -> Option<Affine> {
    let mut whole = Affine::IDENTITY;
    let mut rest = text.trim();
    while !rest.is_empty() {
        let open = rest.find('(')?;
        let close = rest.find(')')?;
        let name = rest[..open].trim().trim_start_matches(',').trim();
        let values = numbers(rest.get(open + 1..close)?)?;
        let one = match (name, values.as_slice()) {
            ("matrix", [a, b, c, d, e, f]) => Affine::new([*a, *b, *c, *d, *e, *f]),
            ("translate", [x]) => Affine::translate((*x, 0.0)),
            ("translate", [x, y]) => Affine::translate((*x, *y)),
            ("scale", [s]) => Affine::scale(*s),
            ("scale", [x, y]) => Affine::scale_non_uniform(*x, *y),
            ("rotate", [angle]) => Affine::rotate(angle.to_radians()),
            ("rotate", [angle, x, y]) => Affine::rotate_about(angle.to_radians(), Point::new(*x, *y)),
            _ => return None,
        };
        whole *= one;
        rest = rest[close + 1..].trim();
    }
    Some(whole)
}

/// What one unit is, where the document says how wide its view is in real units (SVG 1.1, sections 7.2 and 7.10).
fn stated_unit(tag: &Tag) -> Option<f64> {
    let view = numbers(tag.get("viewBox")?)?;
    let width = tag.get("width")?;
    let at = width.find(|c: char| c.is_alphabetic())?;
    let value: f64 = width[..at].trim().parse().ok()?;
    let mm = match &width[at..] {
        "mm" => 1.0,
        "cm" => 10.0,
        "in" => 25.4,
        "pt" => 25.4 / 72.0,
        "pc" => 25.4 / 6.0,
        _ => return None,
    };
    let across = *view.get(2)?;
    (across > 0.0).then(|| value * mm / across)
}
