//! Views of a bodice and of a gown from their drafted pieces.

use kurbo::{BezPath, Point};

use crate::draft::{Edge, Piece};
use crate::draw::{self, BodiceView, Closing, Fullness, Look, Measure, SkirtView, View, WornEdge, WornPiece};
use crate::fault::{Code, Fault};
use crate::reckon::{Outcome, Value};
use crate::units::{Length, Show};

use super::kinds::{choose, drawn};
use super::params::Params;
use super::seams::{joined, outline};

/// The keys a view of a bodice knows.
pub(super) const BODICE: &[&str] = &["name", "view", "pieces", "sleeves", "wing", "closing", "gap", "piped", "height"];

/// The keys a view of a gown knows.
pub(super) const GOWN: &[&str] = &[
    "name",
    "view",
    "pieces",
    "sleeves",
    "wing",
    "closing",
    "gap",
    "piped",
    "height",
    "waist",
    "length",
    "hem",
    "fullness",
    "pleats",
    "opening",
    "flounce_depth",
    "flounce_flat",
];

pub(super) fn bodice(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let input = view(p, "bodice", None, 72.0)?;
    drawn(p, draw::bodice_view(&input, look))
}

pub(super) fn gown(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let side = side(p)?;
    let flounce = match (p.maybe_measure("flounce_depth")?, p.maybe_measure("flounce_flat")?) {
        (Some(depth), Some(flat)) => Some((depth, flat)),
        _ => None,
    };
    let skirt = SkirtView {
        name: "skirt".to_string(),
        view: side,
        waist: p.measure("waist", "the finished waist, all round")?,
        length: p.measure("length", "from the waist to the hem at the side")?,
        hem: p.measure("hem", "the hem, all round")?,
        // The bodice takes the place of a band; any depth will do.
        band: Measure::new(Length::mm(10.0), Show::LENGTH),
        dip: Vec::new(),
        fullness: choose(
            p,
            "fullness",
            &[("cartridge", Fullness::Cartridge), ("gathers", Fullness::Gathers)],
            Some(Fullness::Cartridge),
        )?,
        pleats: p.count("pleats", "pleats in the whole waist, or gathers to draw")?,
        opening: p.maybe_measure("opening")?.filter(|opening| opening.length.to_mm() > 0.0),
        piped: false,
        flounce,
        height: 104.0,
    };
    let input = view(p, "gown", Some(skirt), 112.0)?;
    drawn(p, draw::bodice_view(&input, look))
}

fn side(p: &Params<'_>) -> Result<View, Fault> {
    choose(p, "view", &[("front", View::Front), ("back", View::Back)], Some(View::Front))
}

fn view(p: &Params<'_>, usual: &str, skirt: Option<SkirtView>, height: f64) -> Result<BodiceView, Fault> {
    let view = side(p)?;
    let mut pieces =
        p.pieces("pieces", "the pieces of one half, from the middle of the front to the middle of the back")?;
    if pieces.len() < 2 {
        return Err(Fault::new(
            Code::Figure,
            p.route.key("pieces"),
            "expected at least two pieces that go round half the body",
        )
        .help("name them in order, from the middle of the front to the middle of the back"));
    }
    if view == View::Back {
        pieces.reverse();
    }
    let sleeves = p.maybe_pieces("sleeves")?;
    let closing = closing(p)?;
    let worn = worn(p, &pieces, &sleeves)?;
    let middle = pieces.first().and_then(|piece| worn.1.map(|edge| piece.fold.as_deref() == Some(edge)));
    let mut sleeve: Vec<BezPath> = sleeves.iter().map(|piece| outline(piece)).collect();
    sleeve.sort_by(|a, b| {
        use kurbo::Shape;
        b.bounding_box().height().total_cmp(&a.bounding_box().height())
    });
    Ok(BodiceView {
        name: p.text("name").unwrap_or(usual).to_string(),
        view,
        pieces: worn.0,
        middle_seam: middle == Some(false),
        sleeve,
        wing: p.maybe_measure("wing")?,
        closing,
        piped: p.flag("piped"),
        skirt,
        height: p.number_or("height", height)?,
    })
}

/// How the middle closes: an entry of the technique `closures`, by its kind.
fn closing(p: &Params<'_>) -> Result<Closing, Fault> {
    if p.text("closing").is_none() {
        return Ok(Closing::None);
    }
    let answer = p.answer("closing")?;
    let Some(Outcome::List(places)) = answer.get("at") else {
        return Err(Fault::new(Code::Figure, p.route.key("closing"), "`closing` names an entry that has no places")
            .help("name an entry of the technique `closures`"));
    };
    let at: Vec<f64> = places.iter().map(|place| place.value).collect();
    let input = |name: &str| answer.inputs.iter().find(|(other, ..)| other == name).map(|(_, value, ..)| value);
    let length = |name: &str| match input(name) {
        Some(Value::Quantity(quantity)) => Some(quantity.value),
        _ => None,
    };
    let kind = match input("kind") {
        Some(Value::Word(word)) => word.as_str(),
        _ => "",
    };
    Ok(match kind {
        "eyelets" => Closing::Lacing {
            at,
            gap: p.maybe_measure("gap")?.map(|gap| gap.length.to_mm()).or(length("laced_gap")).unwrap_or(0.0),
            inset: length("from_edge").unwrap_or(12.7),
        },
        "buttons" => Closing::Buttons(at),
        _ => Closing::Meeting,
    })
}

/// The pieces with each edge told what it is on the body, and the edge in the middle of the first.
fn worn<'a>(
    p: &Params<'a>,
    pieces: &[&'a Piece],
    sleeves: &[&Piece],
) -> Result<(Vec<WornPiece>, Option<&'a str>), Fault> {
    let mut seams: Vec<(&str, &str)> = Vec::new();
    for pair in pieces.windows(2) {
        let (Some(one), Some(two)) = (pair.first(), pair.get(1)) else { continue };
        let found = joined(p, one, two).into_iter().max_by(|a, b| upright(a.0).total_cmp(&upright(b.0)));
        let Some((a, b)) = found else {
            let message = format!("`{}` and `{}` follow each other but are not sewn together", one.name, two.name);
            return Err(Fault::new(Code::Figure, p.route.key("pieces"), message)
                .help("name the pieces in order from the middle of the front to the middle of the back, and their seams in `joins`"));
        };
        seams.push((a.name.as_str(), b.name.as_str()));
    }
    let last = pieces.len() - 1;
    let mut out = Vec::new();
    let mut first_middle = None;
    for (i, piece) in pieces.iter().enumerate() {
        let before = if i == 0 { None } else { seams.get(i - 1).map(|seam| seam.1) };
        let after = seams.get(i).map(|seam| seam.0);
        let middle = match (before, after) {
            (None, Some(seam)) | (Some(seam), None) => middle(piece, seam),
            _ => None,
        };
        if i == 0 {
            first_middle = middle;
        }
        let (before, after) = (before.or(middle), after.or(if i == last { middle } else { None }));
        let (Some(before), Some(after)) = (before, after) else {
            let message = format!("`{}` has no edge in the middle of the body", piece.name);
            return Err(Fault::new(Code::Figure, p.route.key("pieces"), message)
                .help("the first and the last piece each need an edge that runs down the middle"));
        };
        let lower = lower(piece, before, after);
        let kind = |edge: &Edge| {
            if edge.name == before {
                WornEdge::Before
            } else if edge.name == after {
                WornEdge::After
            } else if lower.contains(&edge.name.as_str()) {
                WornEdge::Lower
            } else if pieces.iter().any(|other| joined(p, piece, other).iter().any(|(own, _)| own.name == edge.name)) {
                WornEdge::Shoulder
            } else if edge.name.contains("armhole")
                || sleeves.iter().any(|other| joined(p, piece, other).iter().any(|(own, _)| own.name == edge.name))
            {
                WornEdge::Armhole
            } else {
                WornEdge::Free
            }
        };
        out.push(WornPiece {
            edges: piece.edges.iter().map(|edge| (edge.path.bez().clone(), kind(edge))).collect(),
            darts: piece.darts.iter().map(|dart| (dart.legs.0.bez().clone(), dart.legs.1.bez().clone())).collect(),
        });
    }
    Ok((out, first_middle))
}

/// How far an edge runs up and down.
fn upright(edge: &Edge) -> f64 {
    (edge.path.end().y - edge.path.start().y).abs()
}

fn centre(edge: &Edge) -> Point {
    edge.path.start().midpoint(edge.path.end())
}

/// The upright edge farthest from a seam: the middle of the body.
fn middle<'a>(piece: &'a Piece, seam: &str) -> Option<&'a str> {
    let from = centre(piece.edge(seam)?).x;
    piece
        .edges
        .iter()
        .filter(|edge| edge.name != seam && upright(edge) > (edge.path.end().x - edge.path.start().x).abs())
        .max_by(|a, b| (centre(a).x - from).abs().total_cmp(&(centre(b).x - from).abs()))
        .map(|edge| edge.name.as_str())
}

/// The edges between two seams that lie lower on the page.
fn lower<'a>(piece: &'a Piece, before: &str, after: &str) -> Vec<&'a str> {
    let place = |name: &str| piece.edges.iter().position(|edge| edge.name == name);
    let (Some(a), Some(b)) = (place(before), place(after)) else { return Vec::new() };
    let count = piece.edges.len();
    let between = |from: usize, till: usize| -> Vec<&'a Edge> {
        (1..count)
            .map(|step| (from + step) % count)
            .take_while(|index| *index != till)
            .filter_map(|index| piece.edges.get(index))
            .collect()
    };
    let low = |edges: &[&Edge]| edges.iter().map(|edge| centre(edge).y).fold(f64::NEG_INFINITY, f64::max);
    let (one, two) = (between(a, b), between(b, a));
    let lower = if low(&one) > low(&two) { one } else { two };
    lower.into_iter().map(|edge| edge.name.as_str()).collect()
}
