//! Which names the formulas of a piece use.

use crate::fault::Route;
use crate::formula::Formula;
use crate::shape::{
    BandShape, BodyShape, DipShape, EdgeShape, Expr, GoreShape, LongGrain, MarkShape, PieceShape, PointShape,
};

/// The first parts of names that a piece answers itself: `x.a`, `y.a`, `span.a.b`, `edge.waist`.
pub(crate) const OWN: [&str; 4] = ["x", "y", "span", "edge"];

/// A formula of a piece and where it stands in it.
struct Found<'a> {
    here: Route,
    formulas: Vec<(&'a Expr, Route)>,
    pieces: Vec<(String, Route)>,
}

impl<'a> Found<'a> {
    fn some(&mut self, key: &str, expr: Option<&'a Expr>) {
        if let Some(expr) = expr {
            // A short form stands in place of its mapping.
            let route = if key.is_empty() { self.here.clone() } else { self.here.key(key) };
            self.formulas.push((expr, route));
        }
    }

    fn one(&mut self, key: &str, expr: &'a Expr) {
        self.some(key, Some(expr));
    }

    /// A point or an edge of another piece: `bodice_front.side`.
    fn elsewhere(&mut self, key: &str, name: &str) {
        if !name.is_empty() {
            self.pieces.push((name.split('.').next().unwrap_or(name).to_string(), self.here.key(key)));
        }
    }

    /// A point or a line, where it is one of another piece.
    fn maybe(&mut self, key: &str, name: Option<&String>) {
        for part in name.into_iter().flat_map(|name| name.split(" to ")) {
            if part.contains('.') {
                self.elsewhere(key, part.trim());
            }
        }
    }

    fn all(&mut self, key: &str, names: &[String]) {
        for name in names {
            self.maybe(key, Some(name));
        }
    }

    fn at(&mut self, route: Route) {
        self.here = route;
    }
}

/// The names from outside that the formulas of a piece use, and the pieces it is derived from or whose points it uses, each with the route within the
/// piece. Names it answers itself (its points, its own edges) are not among them; formulas that cannot be read are left
/// for the draft to complain about.
#[must_use]
pub fn names_used(piece: &PieceShape) -> Vec<(String, Route)> {
    let top = Route::top();
    let mut found = Found { here: top.clone(), formulas: Vec::new(), pieces: Vec::new() };
    found.some("allowance", piece.allowance.as_ref());
    for (cloth, cut) in &piece.cut {
        found.at(top.key("cut").key(cloth.as_str()));
        found.one(if cut.0.short { "" } else { "count" }, &cut.0.count);
        if let Some(grain) = &cut.0.grain {
            grain_names(&mut found, &grain.0);
        }
    }
    if let Some(grain) = &piece.grain {
        found.at(top.key("grain"));
        grain_names(&mut found, &grain.0);
    }
    if let Some(body) = &piece.shape {
        found.at(top.key("shape"));
        body_names(&mut found, body);
    }
    for (name, point) in &piece.points {
        found.at(top.key("points").key(name.as_str()));
        point_names(&mut found, point);
    }
    for (section, lines) in [("edges", &piece.edges), ("guides", &piece.guides)] {
        for (name, line) in lines {
            found.at(top.key(section).key(name.as_str()));
            edge_names(&mut found, line);
        }
    }
    for (name, dart) in &piece.darts {
        found.at(top.key("darts").key(name.as_str()));
        found.one("width", &dart.width);
        for (key, expr) in [("by", &dart.by), ("share", &dart.share), ("above", &dart.above), ("below", &dart.below)] {
            found.some(key, expr.as_ref());
        }
        found.maybe("at", dart.at.as_ref());
        found.maybe("tip", dart.tip.as_ref());
    }
    for (name, allowance) in &piece.allowances {
        found.at(top.key("allowances").key(name.as_str()));
        found.one(if allowance.0.short { "" } else { "width" }, &allowance.0.width);
    }
    for (index, notch) in piece.notches.iter().enumerate() {
        found.at(top.key("notches").index(index));
        found.some("by", notch.by.as_ref());
        found.some("share", notch.share.as_ref());
        found.maybe("at", notch.at.as_ref());
    }
    for (index, drill) in piece.drills.iter().enumerate() {
        found.at(top.key("drills").index(index));
        found.maybe("at", Some(&drill.at));
    }
    for (name, mark) in &piece.marks {
        found.at(top.key("marks").key(name.as_str()));
        mark_names(&mut found, mark);
    }
    let mut names = Vec::new();
    for (expr, route) in &found.formulas {
        let Ok(formula) = Formula::parse(expr.text()) else { continue };
        for (name, _) in formula.names() {
            match name.split_once('.') {
                Some((head, tail)) if OWN.contains(&head) => {
                    names.extend(pieces_in(piece, head, tail).map(|name| (name.to_string(), route.clone())));
                }
                _ => names.push((name.to_string(), route.clone())),
            }
        }
    }
    names.extend(found.pieces);
    names
}

/// The pieces whose points are named in `x.block.under` or `span.a.block.under`.
fn pieces_in<'n>(piece: &'n PieceShape, head: &'n str, tail: &'n str) -> impl Iterator<Item = &'n str> {
    let parts: Vec<&str> = tail.split('.').collect();
    let most = parts.len().saturating_sub(1);
    let points = if head == "span" { 2 } else { 1 };
    let elsewhere = parts.len() > points;
    parts.into_iter().take(most).filter(move |part| elsewhere && !piece.points.contains_key(*part))
}

fn grain_names<'a>(found: &mut Found<'a>, grain: &'a LongGrain) {
    found.some("turned", grain.turned.as_ref());
    found.maybe("along", grain.along.as_ref());
    found.maybe("across", grain.across.as_ref());
}

fn dip_names<'a>(found: &mut Found<'a>, dip: &'a DipShape) {
    let here = found.here.clone();
    found.at(here.key("dip"));
    for (key, expr) in [("width", &dip.width), ("depth", &dip.depth), ("ratio", &dip.ratio), ("centre", &dip.centre)] {
        found.some(key, expr.as_ref());
    }
    for (index, row) in dip.depths.iter().enumerate() {
        found.at(here.key("dip").key("depths").index(index));
        found.one("out", &row.out);
        found.one("down", &row.down);
    }
    found.at(here);
}

fn body_names<'a>(found: &mut Found<'a>, body: &'a BodyShape) {
    match body {
        BodyShape::Panel(panel) => {
            found.one("width", &panel.width);
            found.one("height", &panel.height);
            if let Some(dip) = &panel.dip {
                dip_names(found, dip);
            }
        }
        BodyShape::Strip(strip) => {
            found.one("length", &strip.length);
            found.one("width", &strip.width);
        }
        BodyShape::Band(band) => band_names(found, band),
        BodyShape::Circle(circle) => {
            found.some("seam", circle.seam.as_ref());
            found.some("radius", circle.radius.as_ref());
            found.one("length", &circle.length);
            found.one("share", &circle.share);
        }
        BodyShape::Gore(gore) => gore_names(found, gore),
        BodyShape::Placket(placket) => {
            found.one("opening", &placket.opening);
            found.one("width", &placket.width);
        }
        BodyShape::Casing(casing) => {
            found.one("length", &casing.length);
            found.one("width", &casing.width);
        }
        BodyShape::Smocked(smocked) => {
            found.one("width", &smocked.width);
            found.one("height", &smocked.height);
            found.one("ratio", &smocked.ratio);
            found.some("drop", smocked.drop.as_ref());
        }
        BodyShape::Mirrored(mirrored) => found.elsewhere("of", &mirrored.of),
        BodyShape::Split(split) => found.elsewhere("of", &split.of),
        BodyShape::Joined(joined) => {
            found.elsewhere("of", &joined.of);
            found.elsewhere("to", &joined.to);
        }
        BodyShape::Facing(facing) => {
            found.elsewhere("of", &facing.of);
            found.one("depth", &facing.depth);
        }
        BodyShape::Copy(copy) => {
            found.elsewhere("of", &copy.of);
            let here = found.here.clone();
            found.at(here.key("moved"));
            for (edge, by) in &copy.moved {
                found.one(edge, by);
            }
        }
        BodyShape::Imported(import) => {
            found.one("scale", &import.scale);
            found.some("corner", import.corner.as_ref());
        }
    }
}

fn band_names<'a>(found: &mut Found<'a>, band: &'a BandShape) {
    found.one("length", &band.length);
    found.one("width", &band.width);
    found.some("underlap", band.underlap.as_ref());
    if let Some(dip) = &band.dip {
        dip_names(found, dip);
    }
}

fn gore_names<'a>(found: &mut Found<'a>, gore: &'a GoreShape) {
    let here = found.here.clone();
    for (index, row) in gore.widths.iter().enumerate() {
        found.at(here.key("widths").index(index));
        found.one("down", &row.down);
        found.one("width", &row.width);
    }
}

fn point_names<'a>(found: &mut Found<'a>, point: &'a PointShape) {
    let keys = [
        ("x", &point.x),
        ("y", &point.y),
        ("right", &point.right),
        ("left", &point.left),
        ("down", &point.down),
        ("up", &point.up),
        ("by", &point.by),
        ("share", &point.share),
        ("angle", &point.angle),
        ("reach", &point.reach),
        ("out", &point.out),
    ];
    for (key, expr) in keys {
        found.some(key, expr.as_ref());
    }
    if let Some(other) = &point.same_as {
        found.elsewhere("same_as", other);
    }
    let keys = [
        ("from", &point.from),
        ("toward", &point.toward),
        ("on", &point.on),
        ("near", &point.near),
        ("mirror", &point.mirror),
        ("over", &point.over),
        ("turn", &point.turn),
        ("about", &point.about),
        ("foot", &point.foot),
        ("square_off", &point.square_off),
    ];
    for (key, name) in keys {
        found.maybe(key, name.as_ref());
    }
    found.all("cross", &point.cross);
}

fn edge_names<'a>(found: &mut Found<'a>, edge: &'a EdgeShape) {
    for (key, expr) in [("radius", &edge.radius), ("start_pull", &edge.start_pull), ("end_pull", &edge.end_pull)] {
        found.some(key, expr.as_ref());
    }
    for (key, names) in [("line", &edge.line), ("curve", &edge.curve), ("arc", &edge.arc)] {
        found.all(key, names);
    }
    let keys = [
        ("along", &edge.along),
        ("from", &edge.from),
        ("to", &edge.to),
        ("start_along", &edge.start_along),
        ("start_square", &edge.start_square),
        ("end_along", &edge.end_along),
        ("end_square", &edge.end_square),
    ];
    for (key, name) in keys {
        found.maybe(key, name.as_ref());
    }
}

fn mark_names<'a>(found: &mut Found<'a>, mark: &'a MarkShape) {
    for (key, names) in [("line", &mark.line), ("curve", &mark.curve), ("arc", &mark.arc)] {
        found.all(key, names);
    }
    let keys = [
        ("by", &mark.by),
        ("start", &mark.start),
        ("end", &mark.end),
        ("rows", &mark.rows),
        ("apart", &mark.apart),
        ("every", &mark.every),
        ("width", &mark.width),
    ];
    for (key, expr) in keys {
        found.some(key, expr.as_ref());
    }
}
