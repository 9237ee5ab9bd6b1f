//! Reading formulas with their places, and faults of formulas as faults of the file.

use crate::fault::{Fault, Place, Route};
use crate::formula::{Formula, FormulaFault};
use crate::shape::Expr;

/// Formulas with the route each stands at.
pub type Formulas = Vec<(Route, Formula)>;

/// Reads a formula at a route.
///
/// # Errors
/// With the bytes inside the value.
pub fn parse_at(route: &Route, expr: &Expr) -> Result<Formula, Fault> {
    Formula::parse(expr.text()).map_err(|fault| formula_fault(route, &fault))
}

/// A fault of a formula as a fault of the file.
pub(crate) fn formula_fault(route: &Route, fault: &FormulaFault) -> Fault {
    let place = Place::Within(route.clone(), fault.at.clone());
    let found = Fault::new(fault.code(), place, fault.to_string());
    match fault.help() {
        Some(help) => found.help(help),
        None => found,
    }
}
