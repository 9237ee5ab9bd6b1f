//! One side of a seam, walked from its start to its end.

use crate::draft::{Edge, Notch, Piece, Pieces};
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::formula::{Env, Formula};
use crate::shape::{EdgeUseShape, Expr};
use crate::units::{Dim, Quantity};

/// The most times one edge may come in a seam.
const MOST_TIMES: f64 = 400.0;

/// A notch on the way along a seam.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Passed {
    pub at: f64,
    pub double: bool,
    pub name: Option<String>,
}

/// One side of a seam in one size.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Walked {
    pub length: f64,
    pub notches: Vec<Passed>,
}

impl Walked {
    /// Walked from its other end.
    pub(super) fn turned(&self) -> Walked {
        let turn = |notch: &Passed| Passed { at: self.length - notch.at, ..notch.clone() };
        Walked { length: self.length, notches: self.notches.iter().rev().map(turn).collect() }
    }
}

/// What is found, or why it cannot be held against anything.
pub(super) type Held<T> = Result<T, Box<Fault>>;

/// A piece and one of its edges, by `piece.edge`.
pub(super) fn edge_of<'p>(pieces: &'p dyn Pieces, name: &str, route: &Route) -> Held<(&'p Piece, &'p Edge)> {
    let Some((piece_name, edge)) = name.split_once('.') else {
        let message = format!("expected a piece and its edge, but found `{name}`");
        return Err(Fault::new(Code::BadName, route, message)
            .help("write them with a dot between: `bodice_front.side`")
            .into());
    };
    let piece = pieces.piece(piece_name).ok_or_else(|| {
        let known = pieces.piece_names();
        let message = format!("no piece is called `{piece_name}`");
        Fault::new(Code::UnknownName, route, message).help(did_you_mean(piece_name, &known))
    })?;
    let found = piece.edge(edge).ok_or_else(|| {
        let message = format!("the piece `{piece_name}` has no edge `{edge}`");
        Fault::new(Code::UnknownName, route, message).help(did_you_mean(edge, &piece.edge_names()))
    })?;
    Ok((piece, found))
}

/// The value of a formula, which must have the dimension.
pub(super) fn value(expr: &Expr, env: &dyn Env, route: &Route, dims: &[Dim]) -> Held<Quantity> {
    let tell = |fault: crate::formula::FormulaFault| {
        let found = Fault::new(fault.code(), Place::Within(route.clone(), fault.at.clone()), fault.to_string());
        match fault.help() {
            Some(help) => found.help(help),
            None => found,
        }
    };
    let quantity = Formula::parse(expr.text()).and_then(|formula| formula.eval(env)).map_err(tell)?;
    if dims.contains(&quantity.dim) {
        return Ok(quantity);
    }
    let wanted: Vec<String> = dims.iter().map(ToString::to_string).collect();
    let message = format!("expected {}, but found {}", wanted.join(" or "), quantity.dim);
    Err(Fault::new(Code::FormulaDimension, route, message).into())
}

/// Walks the edges of one side, one after the other.
pub(super) fn walk(
    uses: &[EdgeUseShape],
    pieces: &dyn Pieces,
    env: &dyn Env,
    route: &Route,
    turned: bool,
) -> Held<Walked> {
    let mut walked = Walked::default();
    for (index, one) in uses.iter().enumerate() {
        let at = route.index(index);
        let (piece, edge) = edge_of(pieces, &one.0.edge, &at)?;
        let times = match &one.0.times {
            Some(times) => {
                let at = at.key("times");
                let times = value(times, env, &at, &[crate::units::kinds::NUMBER])?.value.round();
                if !(1.0..=MOST_TIMES).contains(&times) {
                    let message = format!("expected how often the edge comes, but found {times}");
                    return Err(Fault::new(Code::BadValue, &at, message).help("1 or more").into());
                }
                times
            }
            None => 1.0,
        };
        let mut done = 0.0;
        while done < times {
            pass(&mut walked, piece, edge, one.0.turned.0);
            done += 1.0;
        }
    }
    Ok(if turned { walked.turned() } else { walked })
}

fn pass(walked: &mut Walked, piece: &Piece, edge: &Edge, turned: bool) {
    let whole = edge.length.to_mm();
    let mut notches: Vec<&Notch> = piece.notches.iter().filter(|notch| notch.edge == edge.name).collect();
    if turned {
        notches.reverse();
    }
    for notch in notches {
        let along = notch.along.to_mm();
        let along = if turned { whole - along } else { along };
        walked.notches.push(Passed { at: walked.length + along, double: notch.double, name: notch.name.clone() });
    }
    walked.length += whole;
}
