//! What a figure is asked with: `kind`, `of`, and inputs.

use indexmap::IndexMap;

use crate::check::{Garment, formula_fault};
use crate::draft::Piece;
use crate::draw::Measure;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::formula::Formula;
use crate::reckon::Answer;
use crate::shape::InputShape;
use crate::size::SizedGarment;
use crate::units::{Dim, Length, Quantity, Show, kinds};

/// The request for one figure, read against one size.
///
/// An input that is not given is taken from the construction entry named by `of`: `{kind: dip-laid, of: skirt_dip}`
/// finds `depth` at `skirt_dip.depth`.
pub(super) struct Params<'a> {
    /// Where the request stands.
    pub(super) route: &'a Route,
    /// The keys as written.
    pub(super) map: &'a IndexMap<String, InputShape>,
    /// The garment.
    pub(super) garment: &'a Garment,
    /// The size it is drawn for.
    pub(super) sized: &'a SizedGarment,
}

type Got<T> = Result<T, Fault>;

impl<'a> Params<'a> {
    /// The kind asked for.
    pub(super) fn kind(&self) -> &'a str {
        self.text("kind").unwrap_or("")
    }

    /// A word, where it is given.
    pub(super) fn text(&self, key: &str) -> Option<&'a str> {
        match self.map.get(key)? {
            InputShape::One(expr) => Some(expr.text()),
            _ => None,
        }
    }

    /// Whether a key is given.
    pub(super) fn has(&self, key: &str) -> bool {
        self.map.contains_key(key)
    }

    /// Yes or no; no where it is not given.
    pub(super) fn flag(&self, key: &str) -> bool {
        matches!(self.text(key), Some("yes" | "true"))
    }

    /// A word that must be given.
    pub(super) fn need(&self, key: &str, what: &str) -> Got<&'a str> {
        self.text(key).ok_or_else(|| self.missing(key, what))
    }

    fn missing(&self, key: &str, what: &str) -> Fault {
        let message = format!("a figure of the kind `{}` needs `{key}`", self.kind());
        Fault::new(Code::Figure, Place::Key(self.route.clone()), message).help(format!("`{key}` is {what}"))
    }

    /// The answer named by `of`, or by another key.
    pub(super) fn answer(&self, key: &str) -> Got<&'a Answer> {
        let name = self.need(key, "the name of a construction entry")?;
        self.sized.answers.get(name).ok_or_else(|| {
            let known: Vec<&str> = self.sized.answers.keys().map(String::as_str).collect();
            let message = format!("no construction entry is called `{name}`");
            Fault::new(Code::Figure, self.route.key(key), message).help(did_you_mean(name, &known))
        })
    }

    /// A piece by name.
    pub(super) fn piece_named(&self, key: &str, name: &str) -> Got<&'a Piece> {
        self.sized.pieces.get(name).ok_or_else(|| {
            let known: Vec<&str> = self.sized.pieces.keys().map(String::as_str).collect();
            let message = format!("no piece is called `{name}`");
            Fault::new(Code::Figure, self.route.key(key), message).help(did_you_mean(name, &known))
        })
    }

    /// The piece named by a key.
    pub(super) fn piece(&self, key: &str) -> Got<&'a Piece> {
        self.piece_named(key, self.need(key, "the name of a piece")?)
    }

    /// The pieces in a list of names, or none where the key is not given.
    pub(super) fn maybe_pieces(&self, key: &str) -> Got<Vec<&'a Piece>> {
        let route = self.route.key(key);
        let names: Vec<(Route, &str)> = match self.map.get(key) {
            None => Vec::new(),
            Some(InputShape::One(expr)) => vec![(route, expr.text())],
            Some(InputShape::List(list)) => {
                list.iter().enumerate().map(|(i, expr)| (route.index(i), expr.text())).collect()
            }
            Some(InputShape::Rows(_)) => {
                let message = format!("expected a list of names of pieces for `{key}`, but found a table");
                return Err(Fault::new(Code::Figure, route, message));
            }
        };
        names
            .into_iter()
            .map(|(route, name)| {
                self.sized.pieces.get(name).ok_or_else(|| {
                    let known: Vec<&str> = self.sized.pieces.keys().map(String::as_str).collect();
                    let message = format!("no piece is called `{name}`");
                    Fault::new(Code::Figure, route, message).help(did_you_mean(name, &known))
                })
            })
            .collect()
    }

    /// The pieces in a list of names, at least one.
    pub(super) fn pieces(&self, key: &str, what: &str) -> Got<Vec<&'a Piece>> {
        let pieces = self.maybe_pieces(key)?;
        if pieces.is_empty() { Err(self.missing(key, what)) } else { Ok(pieces) }
    }

    /// A quantity: the formula under the key, else the result or input of that name of the entry `of`.
    fn find(&self, key: &str) -> Got<Option<(Quantity, Show)>> {
        if let Some(InputShape::One(expr)) = self.map.get(key) {
            let route = self.route.key(key);
            let formula = Formula::parse(expr.text()).map_err(|fault| formula_fault(&route, &fault))?;
            let quantity = formula.eval(&self.sized.names).map_err(|fault| formula_fault(&route, &fault))?;
            let named = formula.names();
            let show = match named.as_slice() {
                [(name, _)] if formula.is_plain() => self.sized.names.named(name).map(|named| named.show),
                _ => None,
            };
            return Ok(Some((quantity, show.unwrap_or_else(|| Show::usual(quantity)))));
        }
        let Some(of) = self.text("of") else { return Ok(None) };
        if !self.sized.answers.contains_key(of) {
            self.answer("of")?;
        }
        Ok(self.sized.names.named(&format!("{of}.{key}")).map(|named| (named.quantity, named.show)))
    }

    fn quantity(&self, key: &str, dim: Dim, what: &str) -> Got<(Quantity, Show)> {
        let (quantity, show) = self.find(key)?.ok_or_else(|| self.missing(key, what))?;
        if quantity.dim == dim {
            return Ok((quantity, show));
        }
        let message = format!("expected {dim} for `{key}`, but found {}", quantity.dim);
        Err(Fault::new(Code::Figure, self.route.key(key), message).help(format!("`{key}` is {what}")))
    }

    /// A length with its print.
    pub(super) fn measure(&self, key: &str, what: &str) -> Got<Measure> {
        let (quantity, show) = self.quantity(key, kinds::LENGTH, what)?;
        Ok(Measure::new(Length::mm(quantity.value), show))
    }

    /// A length under a key, or else under the name the technique has for it.
    pub(super) fn measure_or(&self, key: &str, also: &str, what: &str) -> Got<Measure> {
        match self.maybe_measure(key)? {
            Some(measure) => Ok(measure),
            None => self.maybe_measure(also)?.ok_or_else(|| self.missing(key, what)),
        }
    }

    /// A length with its print, where there is one.
    pub(super) fn maybe_measure(&self, key: &str) -> Got<Option<Measure>> {
        match self.find(key)? {
            Some((quantity, show)) if quantity.dim == kinds::LENGTH => {
                Ok(Some(Measure::new(Length::mm(quantity.value), show)))
            }
            Some((quantity, _)) if self.has(key) => {
                let message = format!("expected {} for `{key}`, but found {}", kinds::LENGTH, quantity.dim);
                Err(Fault::new(Code::Figure, self.route.key(key), message).help("write a length: `1 in`"))
            }
            Some(_) | None => Ok(None),
        }
    }

    /// A bare number.
    pub(super) fn number(&self, key: &str, what: &str) -> Got<f64> {
        Ok(self.quantity(key, kinds::NUMBER, what)?.0.value)
    }

    /// A bare number, or another where there is none.
    pub(super) fn number_or(&self, key: &str, other: f64) -> Got<f64> {
        match self.find(key)? {
            Some((quantity, _)) if quantity.dim == kinds::NUMBER => Ok(quantity.value),
            _ => Ok(other),
        }
    }

    /// A whole number.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    pub(super) fn count(&self, key: &str, what: &str) -> Got<u64> {
        let value = self.number(key, what)?;
        if (value - value.round()).abs() > 1e-6 || !(0.0..1e6).contains(&value) {
            let message = format!("expected a whole number for `{key}`, but found {value}");
            return Err(Fault::new(Code::Figure, self.route.key(key), message).help(format!("`{key}` is {what}")));
        }
        Ok(value.round() as u64)
    }

    /// A fault of the figure as a whole.
    pub(super) fn fault(&self, message: impl Into<String>) -> Fault {
        Fault::new(Code::Figure, Place::Key(self.route.clone()), message)
    }
}
