//! Cloths and swatches.

use super::garment::{Cloth, Swatch};
use super::laying::check_laying;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::shape::{ClothShape, Expr, GarmentShape, SwatchShape};
use crate::units::{Dim, Length, Quantity, Ratio, SheetMass, kinds, parse_literal};

/// A value that is one literal of one dimension, within bounds.
pub(super) fn literal(
    route: &Route,
    expr: &Expr,
    dim: Dim,
    bounds: (f64, f64),
    hint: &str,
    faults: &mut Vec<Fault>,
) -> Option<f64> {
    match parse_literal(expr.text()) {
        Ok(Quantity { value, dim: found }) if found == dim => {
            if value >= bounds.0 && value <= bounds.1 {
                return Some(value);
            }
            let message = format!("`{}` is out of bounds here", expr.text());
            faults.push(Fault::new(Code::Absurd, route, message).help(hint));
        }
        Ok(found) => {
            let message = format!("expected {dim}, but found {}", found.dim);
            faults.push(Fault::new(Code::WrongType, route, message).help(hint));
        }
        Err(fault) => faults.push(Fault::new(Code::BadValue, route, fault.to_string()).help(hint)),
    }
    None
}

pub(super) fn check_cloths(shape: &GarmentShape, faults: &mut Vec<Fault>) -> Vec<Cloth> {
    let home = Route::top().key("cloths");
    if shape.cloths.is_empty() {
        faults.push(
            Fault::new(Code::MissingKey, &home, "a garment needs at least one cloth").help("add one under `cloths`"),
        );
    }
    shape.cloths.iter().filter_map(|(name, cloth)| check_cloth(name, cloth, &home.key(name.as_str()), faults)).collect()
}

fn check_cloth(name: &str, shape: &ClothShape, route: &Route, faults: &mut Vec<Fault>) -> Option<Cloth> {
    let before = faults.len();
    let width_hint = "a cloth's width is a length from 10 cm to 5 m: `45 in`, `150 cm`";
    let mut widths: Vec<Length> = shape
        .widths
        .iter()
        .enumerate()
        .filter_map(|(index, expr)| {
            let at = route.key("widths").index(index);
            literal(&at, expr, kinds::LENGTH, (100.0, 5000.0), width_hint, faults).map(Length::mm)
        })
        .collect();
    if shape.widths.is_empty() || shape.widths.len() > 6 {
        let message = format!("expected one to six widths for `{name}`, but found {}", shape.widths.len());
        faults.push(Fault::new(Code::BadValue, route.key("widths"), message).help(width_hint));
    }
    widths.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
    widths.dedup();
    let selvage = shape.selvage.as_ref().map_or(Some(12.7), |expr| {
        let hint = "a selvage is a length of at most 5 cm: `1/2 in`, `1 cm`";
        literal(&route.key("selvage"), expr, kinds::LENGTH, (0.0, 50.0), hint, faults)
    });
    let weight = shape.weight.as_ref().and_then(|expr| {
        let hint = "a weight is written `280 g/m2` or `8 oz/yd2`";
        literal(&route.key("weight"), expr, kinds::SHEET_MASS, (1e-6, 5e-3), hint, faults).map(SheetMass::from_base)
    });
    let mut shrink = |key: &str, expr: &Option<Expr>| {
        expr.as_ref().map_or(Some(0.0), |expr| {
            let hint = "shrinkage is a share, from a washed swatch: `4 %`; at most 40 %";
            literal(&route.key(key), expr, kinds::NUMBER, (0.0, 0.4), hint, faults)
        })
    };
    let along = shrink("shrinks_along", &shape.shrinks_along);
    let across = shrink("shrinks_across", &shape.shrinks_across);
    let laying = check_laying(shape, route, faults);
    if faults.len() > before {
        return None;
    }
    Some(Cloth {
        name: name.to_string(),
        title: shape.title.clone(),
        role: shape.role,
        widths,
        selvage: Length::mm(selvage?),
        weight,
        one_way: shape.one_way.0,
        laying: laying?,
        shrinks_along: Ratio::from_base(along?),
        shrinks_across: Ratio::from_base(across?),
        note: shape.note.clone(),
    })
}

/// What the pieces are cut of: every cloth is one of the list, and every cloth of the list is cut of or measured.
pub(super) fn check_cuts(shape: &GarmentShape, faults: &mut Vec<Fault>) {
    let known: Vec<&str> = shape.cloths.keys().map(String::as_str).collect();
    for (name, piece) in &shape.pieces {
        let home = Route::top().key("pieces").key(name.as_str()).key("cut");
        for cloth in piece.cut.keys().filter(|cloth| !shape.cloths.contains_key(*cloth)) {
            let place = Place::Key(home.key(cloth.as_str()));
            let message = format!("no cloth is called `{cloth}`");
            faults.push(Fault::new(Code::UnknownName, place, message).help(did_you_mean(cloth, &known)));
        }
    }
    for cloth in known {
        if !shape.pieces.values().any(|piece| piece.cut.contains_key(cloth)) {
            let place = Place::Key(Route::top().key("cloths").key(cloth));
            let fault = Fault::warning(Code::Advice, place, format!("nothing is cut of `{cloth}`"));
            faults.push(fault.help("name it under `cut` of a piece, or take it off the list of cloths"));
        }
    }
}

pub(super) fn check_swatches(shape: &GarmentShape, faults: &mut Vec<Fault>) -> Vec<Swatch> {
    let home = Route::top().key("swatches");
    shape
        .swatches
        .iter()
        .filter_map(|(name, swatch)| check_swatch(shape, name, swatch, &home.key(name.as_str()), faults))
        .collect()
}

fn check_swatch(
    garment: &GarmentShape,
    name: &str,
    shape: &SwatchShape,
    route: &Route,
    faults: &mut Vec<Fault>,
) -> Option<Swatch> {
    let before = faults.len();
    let hint = "a swatch is measured in lengths: `12 in`, `30 cm`";
    let mut length = |key: &str, expr: &Expr| {
        literal(&route.key(key), expr, kinds::LENGTH, (0.1, 20_000.0), hint, faults).map(Length::mm)
    };
    let flat = length("flat", &shape.flat);
    let tight = length("tight", &shape.tight);
    let eased = shape.eased.as_ref().map(|expr| length("eased", expr));
    let stitch = length("stitch", &shape.stitch);
    let mut contradiction = |key: &str, message: &str, help: &str| {
        faults.push(Fault::new(Code::Swatch, route.key(key), message).help(help));
    };
    if let (Some(flat), Some(tight)) = (flat, tight)
        && tight >= flat
    {
        contradiction(
            "tight",
            "drawn up, this swatch is no narrower than flat",
            "check which of the two numbers is which",
        );
    }
    if let (Some(tight), Some(Some(eased))) = (tight, eased)
        && eased < tight
    {
        contradiction(
            "eased",
            "eased out, this swatch is narrower than drawn up tight",
            "check which of the two numbers is which",
        );
    }
    if let (Some(flat), Some(stitch)) = (flat, stitch)
        && flat < stitch * 8.0
    {
        contradiction(
            "flat",
            "this swatch has fewer than four pleats; it measures nothing",
            "sew a swatch of at least 20 pleats",
        );
    }
    let known: Vec<&str> = garment.cloths.keys().map(String::as_str).collect();
    for (cloth, how) in &shape.layers {
        let at = route.key("layers").key(cloth.as_str());
        if !garment.cloths.contains_key(cloth) {
            let message = format!("no cloth is called `{cloth}`");
            faults
                .push(Fault::new(Code::UnknownName, Place::Key(at.clone()), message).help(did_you_mean(cloth, &known)));
        }
        if !["folded", "flat"].contains(&how.as_str()) {
            let message = format!("expected `folded` or `flat`, but found `{how}`");
            faults.push(
                Fault::new(Code::BadValue, at, message).help("`folded` is two layers at the edge, `flat` is one"),
            );
        }
    }
    if faults.len() > before {
        return None;
    }
    Some(Swatch {
        name: name.to_string(),
        title: shape.title.clone().unwrap_or_else(|| name.replace('_', " ")),
        layers: shape.layers.iter().map(|(cloth, how)| (cloth.clone(), how == "folded")).collect(),
        flat: flat?,
        tight: tight?,
        eased: match eased {
            None => None,
            Some(eased) => Some(eased?),
        },
        stitch: stitch?,
        note: shape.note.clone(),
    })
}
