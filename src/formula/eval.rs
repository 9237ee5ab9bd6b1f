//! Working a formula out, with dimensions.

use std::ops::Range;

use super::fault::{FormulaFault, FormulaFaultKind};
use super::tree::{Formula, Kind, Node, Op};
use crate::fault::did_you_mean;
use crate::units::{Quantity, kinds};

/// The functions: name, how it is used, what it does.
pub const FUNCTIONS: &[(&str, &str, &str)] = &[
    ("min", "min(a, b, ...)", "the smallest"),
    ("max", "max(a, b, ...)", "the largest"),
    ("round", "round(a) or round(a, step)", "to the nearest whole number, or the nearest multiple of a step"),
    ("floor", "floor(a) or floor(a, step)", "down to a whole number, or to a multiple of a step"),
    ("ceil", "ceil(a) or ceil(a, step)", "up to a whole number, or to a multiple of a step"),
    ("abs", "abs(a)", "without the sign"),
    ("sqrt", "sqrt(a)", "square root; of an area it is a length"),
    ("hypot", "hypot(a, b)", "the long side of a right-angled triangle"),
    ("sin", "sin(angle)", "sine"),
    ("cos", "cos(angle)", "cosine"),
    ("tan", "tan(angle)", "tangent"),
    ("atan", "atan(a, b)", "the angle whose tangent is a / b"),
    ("pi", "pi(a)", "3.14159... times a"),
    ("if", "if(condition, a, b)", "a where the condition holds, else b"),
];

/// What a formula can see.
pub trait Env {
    /// The value of a name.
    fn get(&self, name: &str) -> Option<Quantity>;
    /// Every name there is, for did-you-mean.
    fn known(&self) -> Vec<String>;
}

/// Rounding of a whole number that arithmetic may have moved by a hair.
const SLACK: f64 = 1e-9;

impl Formula {
    /// The value of the formula.
    ///
    /// # Errors
    /// Where a name is unknown, dimensions do not go together, or there is no finite value.
    pub fn eval(&self, env: &dyn Env) -> Result<Quantity, FormulaFault> {
        let value = eval(&self.root, env)?;
        if value.value.is_finite() {
            Ok(value)
        } else {
            Err(FormulaFault::value(self.root.at.clone(), "the value is not a finite number"))
        }
    }
}

fn eval(node: &Node, env: &dyn Env) -> Result<Quantity, FormulaFault> {
    match &node.kind {
        Kind::Literal(quantity) => Ok(*quantity),
        Kind::Name(name) => env.get(name).ok_or_else(|| unknown(name, &node.at, env)),
        Kind::Negate(inner) => {
            let inner = eval(inner, env)?;
            Ok(Quantity::new(-inner.value, inner.dim))
        }
        Kind::Binary(op, left, right) => binary(*op, node, (left, eval(left, env)?), (right, eval(right, env)?)),
        Kind::Call("if", args) => {
            let [condition, yes, no] = args.as_slice() else { return Err(arity(node, "if(condition, a, b)")) };
            let condition = eval(condition, env)?;
            eval(if condition.value != 0.0 { yes } else { no }, env)
        }
        Kind::Call(function, args) => {
            let values = args.iter().map(|arg| eval(arg, env)).collect::<Result<Vec<_>, _>>()?;
            call(function, node, args, &values)
        }
    }
}

fn unknown(name: &str, at: &Range<usize>, env: &dyn Env) -> FormulaFault {
    let known = env.known();
    let known: Vec<&str> = known.iter().map(String::as_str).collect();
    let kind = FormulaFaultKind::UnknownName { name: name.to_string(), hint: did_you_mean(name, &known) };
    FormulaFault { at: at.clone(), kind }
}

fn arity(node: &Node, usage: &str) -> FormulaFault {
    FormulaFault::syntax(node.at.clone(), format!("expected `{usage}`"))
}

fn binary(op: Op, node: &Node, left: (&Node, Quantity), right: (&Node, Quantity)) -> Result<Quantity, FormulaFault> {
    let ((left_node, a), (right_node, b)) = (left, right);
    match op {
        Op::Mul => Ok(Quantity::new(a.value * b.value, a.dim.times(b.dim))),
        Op::Div if b.value == 0.0 => {
            Err(FormulaFault::value(right_node.at.clone(), "division by zero: this part is nothing in this size"))
        }
        Op::Div => Ok(Quantity::new(a.value / b.value, a.dim.over(b.dim))),
        Op::Pow => power(left_node, a, right_node, b),
        Op::Add | Op::Sub | Op::Less | Op::LessEq | Op::More | Op::MoreEq => {
            if a.dim != b.dim {
                let words = match op {
                    Op::Add => format!("cannot add {} to {}", b.dim, a.dim),
                    Op::Sub => format!("cannot take {} from {}", b.dim, a.dim),
                    _ => format!("cannot compare {} with {}", a.dim, b.dim),
                };
                let at = if a.dim.is_number() { left_node.at.clone() } else { right_node.at.clone() };
                return Err(FormulaFault::dimension(if at.is_empty() { node.at.clone() } else { at }, words));
            }
            let truth = |holds: bool| Quantity::number(if holds { 1.0 } else { 0.0 });
            Ok(match op {
                Op::Add => Quantity::new(a.value + b.value, a.dim),
                Op::Sub => Quantity::new(a.value - b.value, a.dim),
                Op::Less => truth(a.value < b.value),
                Op::LessEq => truth(a.value <= b.value),
                Op::More => truth(a.value > b.value),
                _ => truth(a.value >= b.value),
            })
        }
    }
}

fn power(base_node: &Node, base: Quantity, node: &Node, exponent: Quantity) -> Result<Quantity, FormulaFault> {
    if !exponent.dim.is_number() {
        return Err(FormulaFault::dimension(
            node.at.clone(),
            format!("expected a bare number, but found {}", exponent.dim),
        ));
    }
    if base.dim.is_number() {
        let value = base.value.powf(exponent.value);
        if !value.is_finite() {
            return Err(FormulaFault::value(base_node.at.clone(), "this power has no value"));
        }
        return Ok(Quantity::number(value));
    }
    let times = exponent.value;
    if !(1.0..=3.0).contains(&times) || times.fract() != 0.0 {
        return Err(FormulaFault::dimension(node.at.clone(), format!("{} can only be raised to 1, 2 or 3", base.dim)));
    }
    let mut result = base;
    let mut done = 1.0;
    while done < times {
        result = Quantity::new(result.value * base.value, result.dim.times(base.dim));
        done += 1.0;
    }
    Ok(result)
}

fn call(function: &str, node: &Node, args: &[Node], values: &[Quantity]) -> Result<Quantity, FormulaFault> {
    let usage = FUNCTIONS.iter().find(|(name, ..)| *name == function).map_or("", |(_, usage, _)| usage);
    let need = |dim, index: usize| {
        let found = values[index].dim;
        if found == dim {
            Ok(values[index].value)
        } else {
            Err(FormulaFault::dimension(args[index].at.clone(), format!("expected {dim}, but found {found}")))
        }
    };
    match (function, values) {
        ("min" | "max", [first, rest @ ..]) => {
            let mut best = *first;
            for (index, other) in rest.iter().enumerate() {
                let other = Quantity::new(need(first.dim, index + 1).map(|_| other.value)?, first.dim);
                if (function == "min") == (other.value < best.value) {
                    best = other;
                }
            }
            Ok(best)
        }
        ("round" | "floor" | "ceil", [value]) => {
            need(kinds::NUMBER, 0)?;
            Ok(Quantity::number(round_with(function, value.value)))
        }
        ("round" | "floor" | "ceil", [value, step]) => {
            need(value.dim, 1)?;
            if step.value <= 0.0 {
                return Err(FormulaFault::value(args[1].at.clone(), "a step must be more than nothing"));
            }
            Ok(Quantity::new(round_with(function, value.value / step.value) * step.value, value.dim))
        }
        ("abs", [value]) => Ok(Quantity::new(value.value.abs(), value.dim)),
        ("sqrt", [value]) => {
            let Some(dim) = value.dim.root() else {
                return Err(FormulaFault::dimension(node.at.clone(), format!("{} has no square root", value.dim)));
            };
            if value.value < 0.0 {
                return Err(FormulaFault::value(args[0].at.clone(), "a negative number has no square root"));
            }
            Ok(Quantity::new(value.value.sqrt(), dim))
        }
        ("hypot", [a, b]) => {
            need(a.dim, 1)?;
            Ok(Quantity::new(a.value.hypot(b.value), a.dim))
        }
        ("sin", [_]) => Ok(Quantity::number(need(kinds::ANGLE, 0)?.sin())),
        ("cos", [_]) => Ok(Quantity::number(need(kinds::ANGLE, 0)?.cos())),
        ("tan", [_]) => Ok(Quantity::number(need(kinds::ANGLE, 0)?.tan())),
        ("atan", [a, b]) => {
            need(a.dim, 1)?;
            Ok(Quantity::new(a.value.atan2(b.value), kinds::ANGLE))
        }
        ("pi", [value]) => Ok(Quantity::new(std::f64::consts::PI * value.value, value.dim)),
        _ => Err(arity(node, usage)),
    }
}

fn round_with(function: &str, value: f64) -> f64 {
    match function {
        "floor" => (value + SLACK).floor(),
        "ceil" => (value - SLACK).ceil(),
        _ => (value + SLACK).round(),
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::fault::Code;

    impl Env for BTreeMap<&str, Quantity> {
        fn get(&self, name: &str) -> Option<Quantity> {
            BTreeMap::get(self, name).copied()
        }
        fn known(&self) -> Vec<String> {
            self.keys().map(ToString::to_string).collect()
        }
    }

    fn env() -> BTreeMap<&'static str, Quantity> {
        BTreeMap::from([
            ("waist", Quantity::mm(660.0)),
            ("hip", Quantity::mm(920.0)),
            ("skirt.pleats", Quantity::number(288.0)),
            ("nothing", Quantity::number(0.0)),
        ])
    }

    fn value(text: &str) -> Result<Quantity, FormulaFault> {
        Formula::parse(text)?.eval(&env())
    }

    #[test]
    fn arithmetic_with_units() {
        for (text, expected) in [
            ("waist / 4 + 1/2 in", Quantity::mm(177.7)),
            ("2 * 3/8 in", Quantity::mm(19.05)),
            ("12 / 4 in", Quantity::new(12.0 / 101.6, kinds::NUMBER.over(kinds::LENGTH))),
            ("waist - 1 cm - 1 cm", Quantity::mm(640.0)),
            ("-2 ^ 2", Quantity::number(-4.0)),
            ("2 ^ 3 ^ 2", Quantity::number(512.0)),
            ("ceil(waist / 100 mm)", Quantity::number(7.0)),
            ("ceil(waist, 100 mm)", Quantity::mm(700.0)),
            ("sqrt(9 cm2)", Quantity::mm(30.0)),
            ("hypot(3 in, 4 in)", Quantity::mm(127.0)),
            ("if(waist > 60 cm, 2, 3)", Quantity::number(2.0)),
            ("max(waist, hip, 1 m)", Quantity::mm(1000.0)),
            ("skirt.pleats × 1/4 in", Quantity::mm(288.0 * 6.35)),
            ("5 % * waist", Quantity::mm(33.0)),
            ("cos(60 deg)", Quantity::number(0.5)),
            ("4 yd", Quantity::mm(3657.6)),
        ] {
            let found = value(text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
            assert!((found.value - expected.value).abs() < 1e-9, "{text}: {found:?}");
            if expected.dim != kinds::NUMBER.over(kinds::LENGTH) {
                assert_eq!(found.dim, expected.dim, "{text}");
            }
        }
    }

    #[test]
    fn faults_say_where() {
        for (text, code, at) in [
            ("waist + 1", Code::FormulaDimension, 8..9),
            ("1 + waist", Code::FormulaDimension, 0..1),
            ("wasit / 4", Code::UnknownName, 0..5),
            ("waist / nothing", Code::FormulaValue, 8..15),
            ("waist / (4 - 4)", Code::FormulaValue, 8..15),
            ("waist +", Code::FormulaSyntax, 7..7),
            ("3 furlong", Code::FormulaSyntax, 2..9),
            ("sqrt(0 - 1)", Code::FormulaValue, 5..10),
            ("round(waist)", Code::FormulaDimension, 6..11),
            ("rond(waist)", Code::FormulaSyntax, 0..4),
            ("min(waist, 3)", Code::FormulaDimension, 11..12),
            ("(waist", Code::FormulaSyntax, 6..6),
            ("waist waist", Code::FormulaSyntax, 6..11),
            ("10 ^ 400", Code::FormulaValue, 0..2),
        ] {
            let fault = value(text).expect_err(text);
            assert_eq!((fault.code(), fault.at.clone()), (code, at), "{text}: {fault}");
        }
        assert_eq!(value("wasit").unwrap_err().help(), Some("did you mean `waist`?"));
    }

    #[test]
    fn deep_nesting_is_refused_not_overrun() {
        assert!(Formula::parse(&"(".repeat(1500)).is_err());
        assert!(Formula::parse(&"-".repeat(1500)).is_err());
        assert!(Formula::parse(&"1^".repeat(900)).is_err());
    }

    #[test]
    fn filled_in() {
        let formula = Formula::parse("waist / 4 + 1/2 in").unwrap();
        assert_eq!(formula.filled(&|_| Some("66 cm".into())), "66 cm ÷ 4 + 1/2 in");
        assert_eq!(formula.names(), vec![("waist", 0..5)]);
    }
}
