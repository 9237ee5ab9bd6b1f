//! Figures of what is set into or on to something else: sleeves, laces, pleats on a shaped edge, motifs.

use kurbo::{Affine, Point, Vec2};

use crate::draft::Edge;
use crate::draw::{self, LaceWay, Lacing, Look, Measure, Motifs, ShapedSeam, SleeveSet};
use crate::fault::{Code, Fault};
use crate::reckon::{Outcome, Value};
use crate::units::{Length, Show};

use super::kinds::{choose, dip_line, drawn};
use super::params::Params;
use super::pieces::edge;
use super::seams::{chain, join, joined};

/// The keys of pleats on a shaped edge.
pub(super) const SHAPED: &[&str] = &["dip", "edge", "pitch", "meets", "piped"];
/// The keys of printed motifs.
pub(super) const MOTIFS: &[&str] = &["piece", "beside", "repeat_across", "repeat_up", "half_drop"];

pub(super) fn lacing(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let answer = p.answer("of")?;
    let Some(Outcome::List(places)) = answer.get("at") else {
        return Err(Fault::new(Code::Figure, p.route.key("of"), "`of` names an entry that has no places")
            .help("name an entry of the technique `closures` of the kind `eyelets`"));
    };
    let edge = match p.maybe_measure("edge")? {
        Some(edge) => edge,
        None => p.measure("opening", "the length of the edge")?,
    };
    let inset = match p.maybe_measure("inset")? {
        Some(inset) => inset,
        None => p.measure("from_edge", "from the edge to the middle of an eyelet")?,
    };
    let gap = match p.maybe_measure("gap")? {
        Some(gap) if p.has("gap") => Some(gap),
        _ => p.maybe_measure("laced_gap")?,
    };
    let input = Lacing {
        edge,
        places: places.iter().map(|place| Measure::new(Length::mm(place.value), Show::FINE)).collect(),
        inset,
        gap: gap.filter(|gap| gap.length.to_mm() > 0.0),
        way: choose(p, "way", &[("spiral", LaceWay::Spiral), ("cross", LaceWay::Cross)], Some(LaceWay::Spiral))?,
        behind: p.text("behind").map(str::to_string),
        boned: p.flag("boned"),
    };
    drawn(p, draw::lacing(&input, look))
}

pub(super) fn pleats_to_shaped_edge(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let pitch = p.measure("pitch", "the seam one pleat takes")?;
    let line = match p.text("edge") {
        Some(name) => {
            let (piece, name) = name.split_once('.').unwrap_or((name, ""));
            let piece = p.piece_named("edge", piece)?;
            from_edge(edge(p, piece, "edge", name)?)
        }
        None => dip(p)?,
    };
    let deep = line.iter().fold(Length::ZERO, |deep, (_, y)| Length::max(deep, *y));
    let arc: f64 = line
        .windows(2)
        .filter_map(|pair| pair.first().zip(pair.get(1)))
        .map(|(a, b)| (b.0.to_mm() - a.0.to_mm()).hypot(b.1.to_mm() - a.1.to_mm()))
        .sum();
    let input = ShapedSeam {
        arc: Measure::new(Length::mm(arc), Show::FINE),
        depth: Measure::new(deep, Show::LENGTH),
        pleats: pleats(arc / pitch.length.to_mm()),
        pitch,
        meets: p.text("meets").unwrap_or("bodice").to_string(),
        piped: p.flag("piped"),
        edge: line,
    };
    drawn(p, draw::pleats_to_shaped_edge(&input, look))
}

/// The nearest whole number of pleats.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn pleats(count: f64) -> u64 {
    if count.is_finite() { count.round().clamp(0.0, 1e6) as u64 } else { 0 }
}

/// The half of a dip named by an entry, from the centre outward.
fn dip(p: &Params<'_>) -> Result<Vec<(Length, Length)>, Fault> {
    let answer = p.answer("dip")?;
    let input = |name: &str| answer.inputs.iter().find(|(other, ..)| other == name).map(|(_, value, ..)| value);
    let length = |name: &str| match input(name) {
        Some(Value::Quantity(quantity)) => Some(Length::mm(quantity.value)),
        _ => None,
    };
    let shape = match input("shape") {
        Some(Value::Word(word)) => word.as_str(),
        _ => "straight",
    };
    match (length("width"), length("depth")) {
        (Some(width), Some(depth)) => Ok(dip_line(shape, width, depth)),
        _ => Err(Fault::new(Code::Figure, p.route.key("dip"), "`dip` names an entry that is no dip")
            .help("name an entry of the technique `dip`, or the `edge` of a piece")),
    }
}

/// An edge from its lower end outward, its darts closed: distance across, and drop below its highest place.
fn from_edge(edge: &Edge) -> Vec<(Length, Length)> {
    let mut points: Vec<Point> = Vec::new();
    let (mut gone, mut taken) = (0.0, Vec2::ZERO);
    let mut last: Option<Point> = None;
    kurbo::flatten(edge.path.bez().elements().iter().copied(), 0.02, |el| {
        let Some(end) = el.end_point() else { return };
        if let Some(before) = last {
            let step = (end - before).hypot();
            let middle = gone + step / 2.0;
            if edge.darts.iter().any(|(from, to)| (from.to_mm()..to.to_mm()).contains(&middle)) {
                taken += end - before;
            }
            gone += step;
        }
        last = Some(end);
        points.push(end - taken);
    });
    if points.first().zip(points.last()).is_some_and(|(a, b)| a.y < b.y) {
        points.reverse();
    }
    let origin = points.first().copied().unwrap_or_default();
    let top = points.iter().map(|q| q.y).fold(f64::INFINITY, f64::min);
    points.iter().map(|q| (Length::mm((q.x - origin.x).abs()), Length::mm(q.y - top))).collect()
}

pub(super) fn sleeve_set(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let join = join(p)?;
    let head = chain(p, &join.sew, true)?;
    let hole = chain(p, &join.to, false)?;
    let at = |mm: f64| Measure::new(Length::mm(mm), Show::FINE);
    let alike = head.notches.len() == hole.notches.len()
        && head.notches.iter().zip(&hole.notches).all(|(a, b)| a.1 == b.1)
        && !join.free_notches.0;
    if !alike {
        let title = join.title.as_deref().unwrap_or("the seam");
        let message = format!("`{title}` has no notches that meet, so where head and armhole meet cannot be drawn");
        return Err(Fault::new(Code::Figure, p.route.key("join"), message)
            .help("give both sides the same notches in the same order, and leave out `free_notches`"));
    }
    let mut meets = vec![(hole.start.clone(), at(0.0), at(0.0))];
    for (a, b) in head.notches.iter().zip(&hole.notches) {
        let usual = if a.1 { "double notch" } else { "notch" };
        meets.push((a.2.as_deref().or(b.2.as_deref()).unwrap_or(usual).replace('_', " "), at(a.0), at(b.0)));
    }
    meets.push((hole.end.clone(), at(head.length), at(hole.length)));
    let last = meets.len() - 1;
    let input = SleeveSet {
        eased: if last >= 3 { (1, last - 1) } else { (0, last) },
        ease: Measure::new(Length::mm(head.length - hole.length), Show::FINE),
        meets,
        head: head.path,
        armhole: hole.path,
    };
    drawn(p, draw::sleeve_set(&input, look))
}

pub(super) fn motifs(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let piece = p.piece("piece")?;
    let across = p.measure("repeat_across", "from the middle of one motif to the next, across")?;
    let up = p.measure("repeat_up", "from the middle of one motif to the next, upwards")?;
    let length = |name: &str, usual: Length| -> Result<Length, Fault> {
        Ok(p.maybe_measure(name)?.map_or(usual, |measure| measure.length))
    };
    let (left, foot) = (length("origin_across", across.length / 2.0)?, length("origin_up", up.length / 2.0)?);
    let low = (piece.extent.min.0.x, piece.extent.max.0.y);
    let mut pieces = vec![(piece.title.clone(), piece.cut.closed_bez())];
    let mut seam = None;
    if p.has("beside") {
        let other = p.piece("beside")?;
        let Some((own, its)) = joined(p, piece, other).first().copied() else {
            let message = format!("`{}` and `{}` are not sewn together", piece.name, other.name);
            return Err(Fault::new(Code::Figure, p.route.key("beside"), message)
                .help("name two pieces that share a seam in `joins`"));
        };
        let by = own.path.start().midpoint(own.path.end()) - its.path.start().midpoint(its.path.end());
        pieces.push((other.title.clone(), Affine::translate(by) * other.cut.closed_bez()));
        seam = Some((own.name.replace('_', " "), own.path.bez().clone()));
    }
    let half_drop = match p.text("half_drop") {
        Some(_) => p.flag("half_drop"),
        None => p.text("of").and_then(|of| p.sized.answers.get(of)).is_some_and(|answer| {
            answer.inputs.iter().any(|(name, value, ..)| name == "half_drop" && *value == Value::Flag(true))
        }),
    };
    let input = Motifs {
        pieces,
        seam,
        origin: (Length::mm(low.0) + left, Length::mm(low.1) - foot),
        repeat: (across, up),
        half_drop,
        room: (70.0, 70.0),
    };
    drawn(p, draw::motifs(&input, look))
}
