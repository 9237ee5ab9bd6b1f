//! The drawing table: the points and lines of one piece, drawn when they are asked for.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use indexmap::IndexMap;
use kurbo::Point;

use super::path::Path;
use super::piece::Piece;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::formula::{Env, Formula};
use crate::shape::{Expr, PieceShape};
use crate::units::{Angle, Dim, Length, Quantity, kinds};

/// The pieces drawn before.
pub trait Pieces {
    /// A piece by name.
    fn piece(&self, name: &str) -> Option<&Piece>;
    /// The names of all of them.
    fn piece_names(&self) -> Vec<&str>;
}

impl Pieces for BTreeMap<String, Piece> {
    fn piece(&self, name: &str) -> Option<&Piece> {
        self.get(name)
    }

    fn piece_names(&self) -> Vec<&str> {
        self.keys().map(String::as_str).collect()
    }
}

impl Pieces for IndexMap<String, Piece> {
    fn piece(&self, name: &str) -> Option<&Piece> {
        self.get(name)
    }

    fn piece_names(&self) -> Vec<&str> {
        self.keys().map(String::as_str).collect()
    }
}

/// A piece cannot be drawn further; the fault is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Stuck;

pub(crate) type Drawn<T> = Result<T, Stuck>;

/// Something named, drawn or being drawn.
#[derive(Debug, Clone)]
pub(super) enum Slot<T> {
    Open,
    Done(T),
    Stuck,
}

/// How many points and lines may stand in each other's formulas before one of them is drawn.
const DEEPEST: usize = 120;

/// The longest length on a piece, mm: a hundred metres.
const LONGEST: f64 = 1e5;

pub(crate) struct Desk<'a> {
    pub name: &'a str,
    pub shape: &'a PieceShape,
    pub route: &'a Route,
    env: &'a dyn Env,
    pub others: &'a dyn Pieces,
    pub(super) points: RefCell<BTreeMap<String, Slot<Point>>>,
    pub(super) lines: RefCell<BTreeMap<String, Slot<Path>>>,
    faults: RefCell<Vec<Fault>>,
    depth: Cell<usize>,
}

impl<'a> Desk<'a> {
    pub fn new(
        name: &'a str,
        shape: &'a PieceShape,
        route: &'a Route,
        env: &'a dyn Env,
        others: &'a dyn Pieces,
    ) -> Desk<'a> {
        Desk {
            name,
            shape,
            route,
            env,
            others,
            points: RefCell::default(),
            lines: RefCell::default(),
            faults: RefCell::default(),
            depth: Cell::new(0),
        }
    }

    /// Draws something that may need other points and lines first.
    pub fn deeper<T>(&self, place: Place, draw: impl FnOnce() -> Drawn<T>) -> Drawn<T> {
        if self.depth.get() >= DEEPEST {
            let message = format!("more than {DEEPEST} points and lines wait here for each other");
            let fault = Fault::new(Code::TooMuch, place, message);
            return Err(self.fault(fault.help("draw it from points that are given more directly")));
        }
        self.depth.set(self.depth.get() + 1);
        let drawn = draw();
        self.depth.set(self.depth.get() - 1);
        drawn
    }

    /// Notes a fault.
    pub fn fault(&self, fault: Fault) -> Stuck {
        let mut faults = self.faults.borrow_mut();
        if !faults.contains(&fault) {
            faults.push(fault);
        }
        Stuck
    }

    /// Notes a fault of the kind `piece`.
    pub fn cannot(&self, place: impl Into<Place>, message: impl Into<String>, help: impl Into<String>) -> Stuck {
        self.fault(Fault::new(Code::Piece, place, message).help(help))
    }

    pub fn faults(&self) -> Vec<Fault> {
        self.faults.borrow().clone()
    }

    pub fn has_faults(&self) -> bool {
        !self.faults.borrow().is_empty()
    }

    /// The value of a formula.
    pub fn quantity(&self, expr: &Expr, route: &Route) -> Drawn<Quantity> {
        let tell = |fault: &crate::formula::FormulaFault| {
            let found = Fault::new(fault.code(), Place::Within(route.clone(), fault.at.clone()), fault.to_string());
            match fault.help() {
                Some(help) => found.help(help),
                None => found,
            }
        };
        let formula = Formula::parse(expr.text()).map_err(|fault| self.fault(tell(&fault)))?;
        let before = self.faults.borrow().len();
        formula.eval(self).map_err(|fault| {
            // What is wrong with a point or an edge it names has been told already.
            if self.faults.borrow().len() == before { self.fault(tell(&fault)) } else { Stuck }
        })
    }

    fn of_dim(&self, expr: &Expr, route: &Route, dim: Dim) -> Drawn<f64> {
        let quantity = self.quantity(expr, route)?;
        if quantity.dim == dim {
            return Ok(quantity.value);
        }
        let message = format!("expected {dim}, but found {}", quantity.dim);
        let fault = Fault::new(Code::FormulaDimension, route, message);
        let wants_unit = quantity.dim == kinds::NUMBER && dim == kinds::LENGTH;
        Err(self.fault(if wants_unit {
            fault.help("write a unit behind the number: `5/8 in`, `1.5 cm`")
        } else {
            fault
        }))
    }

    /// A length in mm.
    pub fn mm(&self, expr: &Expr, route: &Route) -> Drawn<f64> {
        let value = self.of_dim(expr, route, kinds::LENGTH)?;
        if value.abs() > LONGEST {
            let message = format!("this is {:.0} m long, and no piece is", value / 1000.0);
            return Err(self.fault(Fault::new(Code::Absurd, route, message)));
        }
        Ok(value)
    }

    /// A length in mm that is more than nothing.
    pub fn positive(&self, expr: &Expr, route: &Route, what: &str) -> Drawn<f64> {
        let value = self.mm(expr, route)?;
        if value < 0.01 {
            let message = format!("expected a length for {what}, but found {}", crate::draft::words::mm(value));
            return Err(self.cannot(route, message, "it must be more than nothing in every size"));
        }
        Ok(value)
    }

    /// A bare number.
    pub fn number(&self, expr: &Expr, route: &Route) -> Drawn<f64> {
        self.of_dim(expr, route, kinds::NUMBER)
    }

    /// An angle in radians.
    pub fn angle(&self, expr: &Expr, route: &Route) -> Drawn<f64> {
        self.of_dim(expr, route, kinds::ANGLE)
    }

    /// A whole number from 1 up.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    pub fn count(&self, expr: &Expr, route: &Route, most: f64) -> Drawn<u64> {
        let value = self.number(expr, route)?;
        let whole = value.round();
        if (value - whole).abs() > 1e-6 || whole < 1.0 || whole > most {
            let message = format!("expected a whole number from 1 to {most:.0}, but found {value}");
            return Err(self.cannot(route, message, "round it in the formula with `ceil`, `floor` or `round`"));
        }
        Ok(whole as u64)
    }

    /// Another piece.
    pub fn piece(&self, name: &str, route: &Route) -> Drawn<&'a Piece> {
        self.others.piece(name).ok_or_else(|| {
            let known = self.others.piece_names();
            let message = format!("no piece is called `{name}`");
            self.fault(Fault::new(Code::UnknownName, route, message).help(did_you_mean(name, &known)))
        })
    }

    /// A piece and one of its edges, `front.side`.
    pub fn piece_edge(&self, name: &str, route: &Route) -> Drawn<(&'a Piece, &'a super::piece::Edge)> {
        let Some((piece, edge)) = name.split_once('.') else {
            let message = format!("expected a piece and its edge, but found `{name}`");
            return Err(self.cannot(route, message, "write them with a dot between: `bodice_front.side`"));
        };
        let piece = self.piece(piece, route)?;
        let found = piece.edge(edge).ok_or_else(|| {
            let message = format!("the piece `{}` has no edge `{edge}`", piece.name);
            self.fault(Fault::new(Code::UnknownName, route, message).help(did_you_mean(edge, &piece.edge_names())))
        })?;
        Ok((piece, found))
    }
}

impl Desk<'_> {
    /// Whether there is a point of that name, here or on another piece.
    fn has_point(&self, name: &str) -> bool {
        let elsewhere = || {
            let (piece, point) = name.split_once('.')?;
            self.others.piece(piece)?.points.get(point)
        };
        self.shape.points.contains_key(name) || self.points.borrow().contains_key(name) || elsewhere().is_some()
    }

    /// `a.b` as two points, of which each may be one of another piece: `front.a.b`.
    fn two_named<'t>(&self, tail: &'t str) -> Option<(&'t str, &'t str)> {
        tail.match_indices('.')
            .map(|(at, _)| (&tail[..at], &tail[at + 1..]))
            .find(|(a, b)| self.has_point(a) && self.has_point(b))
    }
}

impl Env for Desk<'_> {
    fn get(&self, name: &str) -> Option<Quantity> {
        let (head, tail) = name.split_once('.').unwrap_or((name, ""));
        let length = |value: f64| Some(Quantity::mm(value));
        match head {
            _ if tail.is_empty() => self.env.get(name),
            "x" => length(self.point(tail, None).ok()?.x),
            "y" => length(self.point(tail, None).ok()?.y),
            "span" => {
                let (a, b) = self.two_named(tail)?;
                length(self.point(a, None).ok()?.distance(self.point(b, None).ok()?))
            }
            "edge" => length(self.line(tail, None).ok()?.length()),
            head if head == self.name && self.has_line(tail) => length(self.line(tail, None).ok()?.length()),
            _ => self.env.get(name),
        }
    }

    fn known(&self) -> Vec<String> {
        self.env.known()
    }
}

/// A length as a quantity of millimetres.
pub(crate) fn length(mm: f64) -> Length {
    Length::mm(super::path::tidy(mm))
}

/// An angle in radians, to a millionth.
pub(crate) fn angle(radians: f64) -> Angle {
    Angle::from_base(super::path::tidy(radians))
}
