//! Drawing one piece of one size.

use std::collections::BTreeSet;

use super::darts;
use super::derived::derived;
use super::desk::{Desk, Drawn, Pieces, Slot, Stuck, angle, length};
use super::import::{Files, Texts, imported};
use super::marks;
use super::offset::{self, Corner, NoCutLine, Side};
use super::outline::{Body, RawEdge, close};
use super::path::Path;
use super::piece::{Cut, Edge, Extent, Finish, HowCut, Piece, Spot};
use super::supplied::supplied;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::formula::Env;
use crate::shape::{CornerShape, FinishShape, HowCutShape, PieceShape};
use crate::units::{Area, Count};

/// The widest allowance, mm.
const WIDEST: f64 = 500.0;
/// Names that measures of the whole piece have.
const MEASURES: [&str; 6] = ["width", "height", "area", "cut_width", "cut_height", "cut_area"];
/// The most pieces of one kind.
const MOST_PIECES: f64 = 2000.0;

/// Draws a piece: its seam line, its cut line and everything marked on it. `route` leads to the piece in the garment file,
/// `env` answers the names of its formulas, `others` holds the pieces it is derived from. Lengths are millimetres, x to the
/// right, y down the page.
///
/// # Errors
/// Every fault found, each with the route to the formula or key it is about.
pub fn draft(
    name: &str,
    shape: &PieceShape,
    route: &Route,
    env: &dyn Env,
    others: &dyn Pieces,
) -> Result<Piece, Vec<Fault>> {
    draft_with(name, shape, route, env, others, Files { texts: &Texts::new(), size: "" })
}

/// [`draft`] for pieces whose outline may come from a drawing in the garment's folder.
///
/// # Errors
/// As for [`draft`].
pub fn draft_with(
    name: &str,
    shape: &PieceShape,
    route: &Route,
    env: &dyn Env,
    others: &dyn Pieces,
    files: Files<'_>,
) -> Result<Piece, Vec<Fault>> {
    let desk = Desk::new(name, shape, route, env, others);
    match piece(&desk, files) {
        Ok(piece) if !desk.has_faults() => Ok(piece),
        _ => {
            let mut faults = desk.faults();
            if faults.is_empty() {
                let place = Place::Key(route.clone());
                faults.push(Fault::new(Code::Piece, place, format!("the piece `{name}` cannot be drawn")));
            }
            Err(faults)
        }
    }
}

fn piece(desk: &Desk, files: Files<'_>) -> Drawn<Piece> {
    let shape = desk.shape;
    let body = body(desk, files)?;
    for (name, point) in &body.points {
        desk.points.borrow_mut().insert(name.clone(), Slot::Done(*point));
    }
    for edge in &body.edges {
        if shape.shape.is_some() {
            let path = if edge.turned { edge.path.reversed() } else { edge.path.clone() };
            desk.lines.borrow_mut().insert(edge.name.clone(), Slot::Done(path));
        }
    }
    names(desk, &body)?;
    let mut raw = close(desk, body.edges)?;
    let mut all_darts = body.darts;
    all_darts.extend(darts::open(desk, &mut raw)?);
    let fold = shape.fold.clone().or(body.fold);
    let (sides, edges) = edges(desk, raw, fold.as_deref())?;
    let cut = cut_line(desk, &sides)?;
    let seam = edges.iter().fold(Path::default(), |path, edge| path.then(&edge.path));
    let grain = {
        let own = shape.grain.as_ref().map(|grain| &grain.0);
        marks::grain_angle(desk, own, body.grain.unwrap_or(0.0), &desk.route.key("grain"))?
    };
    let (middle, grain_line) = marks::grain_line(&seam, grain);
    let label = match &shape.label {
        Some(label) => desk.point(label, Some(&desk.route.key("label")))?,
        None => middle,
    };
    // All of what follows is tried, so that one run names all that is wrong.
    let notches = marks::notches(desk, &edges, &body.notches);
    let own_marks = marks::marks(desk, &edges, &seam);
    let drills = marks::drills(desk);
    let cuts = cuts(desk, fold.as_deref(), grain);
    let points = points(desk);
    for (index, edge) in shape.not_growing.iter().enumerate() {
        marks::edge_named(desk, &edges, edge, &desk.route.key("not_growing").index(index))?;
    }
    if let Some(border) = &shape.on_border {
        let route = desk.route.key("on_border");
        if !marks::edge_named(desk, &edges, border, &route)?.path.is_straight() {
            let message = format!("the edge `{border}` is to lie on a border, and is not straight");
            return Err(desk.cannot(route, message, "only a straight edge can lie on a border"));
        }
    }
    let on_repeat = match &shape.on_repeat {
        Some(point) => Some(marks::spot(desk.point(point, Some(&desk.route.key("on_repeat")))?)),
        None => None,
    };
    let mut all_marks: Vec<_> = body
        .lines
        .iter()
        .map(|(name, kind, path)| marks::finished(name, &name.replace('_', " "), *kind, path, None))
        .collect();
    all_marks.extend(body.marks);
    all_marks.extend(own_marks?);
    let mut all_drills = body.drills;
    all_drills.extend(drills?);
    let cut_path = cut.path.rounded();
    Ok(Piece {
        name: desk.name.to_string(),
        title: shape.title.clone(),
        note: shape.note.clone(),
        extent: Extent::of(&seam),
        cut_extent: Extent::of(&cut_path),
        area: area(&seam),
        cut_area: area(&cut_path),
        cut: cut_path,
        trimmed: cut.trimmed,
        fold,
        on_border: shape.on_border.clone(),
        on_repeat,
        points: points?,
        guides: guides(desk),
        darts: all_darts,
        notches: notches?,
        marks: all_marks,
        drills: all_drills,
        grain: grain_line,
        label: marks::spot(label),
        cuts: cuts?,
        edges,
        not_growing: shape.not_growing.clone(),
    })
}

fn area(path: &Path) -> Area {
    Area::from_base(super::path::tidy(path.signed_area().abs()))
}

fn body(desk: &Desk, files: Files<'_>) -> Drawn<Body> {
    let shape = desk.shape;
    let Some(ready) = &shape.shape else {
        // In the order written, so that a long chain of points is drawn link by link.
        for name in shape.points.keys() {
            let _ = desk.point(name, None);
        }
        let lines: Vec<(&String, Drawn<Path>)> = shape.edges.keys().map(|name| (name, desk.line(name, None))).collect();
        let mut edges = Vec::new();
        for (name, line) in lines {
            edges.push(RawEdge::new(name, line?));
        }
        return Ok(Body { edges, ..Body::default() });
    };
    if let Some(edge) = shape.edges.keys().next() {
        let place = Place::Key(desk.route.key("edges").key(edge.as_str()));
        let message = "a piece has either a `shape` or `edges` of its own";
        return Err(desk.cannot(place, message, "leave one of them out; further lines go under `guides` or `marks`"));
    }
    let route = desk.route.key("shape");
    if let Some(body) = supplied(desk, ready, &route)? {
        return Ok(body);
    }
    if let Some(body) = derived(desk, ready, &route)? {
        return Ok(body);
    }
    imported(desk, ready, &route, files)
}

/// No two edges have one name, none has the name of a measure, and every table of edges names edges.
fn names(desk: &Desk, body: &Body) -> Drawn<()> {
    let shape = desk.shape;
    let known: Vec<&str> = body.edges.iter().map(|edge| edge.name.as_str()).collect();
    let mut stuck = None;
    let mut seen = BTreeSet::new();
    for name in &known {
        if MEASURES.contains(name) {
            let place = Place::Key(desk.route.key("edges").key(*name));
            let fault = Fault::new(
                Code::BadName,
                place,
                format!("an edge cannot be called `{name}`, which is a measure of the whole piece"),
            );
            stuck = Some(desk.fault(fault.help("choose another name")));
        }
        if !seen.insert(*name) {
            let place = Place::Key(desk.route.key("shape"));
            stuck = Some(desk.fault(Fault::new(
                Code::BadName,
                place,
                format!("two edges of this piece are called `{name}`"),
            )));
        }
    }
    let tables: [(&str, Vec<&String>); 2] =
        [("allowances", shape.allowances.keys().collect()), ("finish", shape.finish.keys().collect())];
    for (section, names) in tables {
        for name in names {
            if !known.contains(&name.as_str()) {
                let place = Place::Key(desk.route.key(section).key(name.as_str()));
                let fault = Fault::new(Code::UnknownName, place, format!("no edge of this piece is called `{name}`"));
                stuck = Some(desk.fault(fault.help(did_you_mean(name, &known))));
            }
        }
    }
    if let Some(fold) = &shape.fold
        && !known.contains(&fold.as_str())
    {
        let fault =
            Fault::new(Code::UnknownName, desk.route.key("fold"), format!("no edge of this piece is called `{fold}`"));
        stuck = Some(desk.fault(fault.help(did_you_mean(fold, &known))));
    }
    stuck.map_or(Ok(()), Err)
}

fn corner(shape: CornerShape) -> Corner {
    match shape {
        CornerShape::Mitred => Corner::Mitred,
        CornerShape::Squared => Corner::Squared,
        CornerShape::FoldedBack => Corner::FoldedBack,
        CornerShape::Clipped => Corner::Clipped,
    }
}

/// The edges with their allowances, and what the cut line is drawn from.
fn edges(desk: &Desk, raw: Vec<RawEdge>, fold: Option<&str>) -> Drawn<(Vec<Side>, Vec<Edge>)> {
    let shape = desk.shape;
    let usual = match &shape.allowance {
        Some(allowance) => Some(allowance_width(desk, allowance, &desk.route.key("allowance"))?),
        None => None,
    };
    let (mut sides, mut edges) = (Vec::new(), Vec::new());
    for edge in raw {
        let on_fold = fold == Some(edge.name.as_str());
        let own = shape.allowances.get(&edge.name).map(|allowance| &allowance.0);
        let route = desk.route.key("allowances").key(edge.name.as_str());
        let width = match own {
            Some(own) if own.short => Some(allowance_width(desk, &own.width, &route)?),
            Some(own) => Some(allowance_width(desk, &own.width, &route.key("width"))?),
            None => None,
        };
        let finish = match shape.finish.get(&edge.name) {
            _ if on_fold => Some(Finish::Fold),
            Some(FinishShape::Hemmed) => Some(Finish::Hemmed),
            Some(FinishShape::Faced) => Some(Finish::Faced),
            Some(FinishShape::Bound) => Some(Finish::Bound),
            Some(FinishShape::Piped) => Some(Finish::Piped),
            Some(FinishShape::Sewn) => Some(Finish::Sewn),
            Some(FinishShape::Free) => Some(Finish::Free),
            None => edge.finish.filter(|finish| *finish != Finish::Fold),
        };
        if on_fold && !edge.path.is_straight() {
            let message = format!("the edge `{}` is to lie on the fold, and is not straight", edge.name);
            return Err(desk.cannot(desk.route.key("fold"), message, "only a straight edge can lie on a fold"));
        }
        if on_fold && width.is_some_and(|width| width > 0.0) {
            let message = format!("the edge `{}` lies on the fold and has no allowance", edge.name);
            return Err(desk.cannot(&route, message, "leave it out here"));
        }
        let width =
            if on_fold { 0.0 } else { width.or(edge.allowance.filter(|_| usual.is_none())).or(usual).unwrap_or(0.0) };
        let default = if finish == Some(Finish::Hemmed) { Some(Corner::FoldedBack) } else { None };
        let asked = |end: Option<CornerShape>| {
            let own = own.and_then(|own| end.or(own.corner)).map(corner);
            own.or(default)
        };
        let (start, end) = (asked(own.and_then(|own| own.start_corner)), asked(own.and_then(|own| own.end_corner)));
        let (start, end) = if edge.turned { (end, start) } else { (start, end) };
        let path = edge.path.rounded();
        sides.push(Side { path: edge.path.clone(), width, start, end, fold: on_fold });
        let taken: f64 = edge.darts.iter().map(|(from, to)| to - from).sum();
        edges.push(Edge {
            length: length(edge.path.length() - taken),
            name: edge.name,
            path,
            turned: edge.turned,
            darts: edge.darts.iter().map(|(from, to)| (length(*from), length(*to))).collect(),
            allowance: length(width),
            finish,
        });
    }
    // Rounded apart, the ends of two edges may differ in the last place.
    let ends: Vec<kurbo::Point> = edges.iter().map(|edge: &Edge| edge.path.end()).collect();
    let before = ends.iter().cycle().skip(ends.len().saturating_sub(1));
    for (edge, end) in edges.iter_mut().zip(before) {
        edge.path = edge.path.starting(*end);
    }
    Ok((sides, edges))
}

fn allowance_width(desk: &Desk, expr: &crate::shape::Expr, route: &Route) -> Drawn<f64> {
    let width = desk.mm(expr, route)?;
    if !(0.0..=WIDEST).contains(&width) {
        let message = format!("an allowance of {} is none", super::words::mm(width));
        return Err(desk.cannot(route, message, "it is nothing or more, and less than half a metre"));
    }
    Ok(width)
}

fn cut_line(desk: &Desk, sides: &[Side]) -> Drawn<offset::CutLine> {
    offset::cut_line(sides).map_err(|why| {
        let section = if desk.shape.allowances.is_empty() { "allowance" } else { "allowances" };
        let message = match why {
            NoCutLine::FallsApart => "the allowances run into each other and close a hole",
            NoCutLine::Nothing => "the allowances leave no cut line",
        };
        let fault = Fault::new(Code::Outline, Place::Key(desk.route.key(section)), message);
        desk.fault(fault.help("make the allowances narrower where two edges come close"))
    })
}

fn cuts(desk: &Desk, fold: Option<&str>, grain: f64) -> Drawn<Vec<Cut>> {
    let mut cuts = Vec::new();
    for (cloth, shape) in &desk.shape.cut {
        let route = desk.route.key("cut").key(cloth.as_str());
        let at = if shape.0.short { route.clone() } else { route.key("count") };
        let count = desk.count(&shape.0.count, &at, MOST_PIECES)?;
        let how = match shape.0.how {
            HowCutShape::Single => HowCut::Single,
            HowCutShape::Pair => HowCut::Pair,
            HowCutShape::Fold => HowCut::Fold,
        };
        if how == HowCut::Fold && fold.is_none() {
            let message = "this piece is to be cut on the fold, and no edge of it is named to lie there";
            return Err(desk.cannot(Place::Key(route), message, "name a straight edge with `fold:`"));
        }
        let grain = match &shape.0.grain {
            Some(own) => marks::grain_angle(desk, Some(&own.0), 0.0, &route.key("grain"))?,
            None => grain,
        };
        cuts.push(Cut { cloth: cloth.clone(), count: Count(count), how, grain: angle(grain) });
    }
    Ok(cuts)
}

/// The lines it was constructed with. What is wrong with one has been told with the points.
fn guides(desk: &Desk) -> std::collections::BTreeMap<String, Path> {
    let drawn = |name: &String| Some((name.clone(), desk.line(name, None).ok()?.rounded()));
    desk.shape.guides.keys().filter_map(drawn).collect()
}

/// All points, drawn or taken over.
fn points(desk: &Desk) -> Drawn<std::collections::BTreeMap<String, Spot>> {
    let mut stuck = None;
    for name in desk.shape.points.keys() {
        if desk.point(name, None).is_err() {
            stuck = Some(Stuck);
        }
    }
    for name in desk.shape.guides.keys() {
        if desk.line(name, None).is_err() {
            stuck = Some(Stuck);
        }
    }
    if let Some(fault) = stuck {
        return Err(fault);
    }
    let points = desk.points.borrow();
    let done = points.iter().filter_map(|(name, slot)| match slot {
        Slot::Done(point) => Some((name.clone(), marks::spot(*point))),
        _ => None,
    });
    Ok(done.collect())
}
