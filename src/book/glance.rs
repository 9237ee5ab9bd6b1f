//! "At a glance": sizes, measurements, everything to buy.

use crate::fault::{Code, Fault, Place, Route};
use crate::formula::Formula;
use crate::prose::{Run, StripRow};
use crate::set::view::{ClothNeed, Glance, NotionNeed};
use crate::shape::RoleShape;
use crate::units::{Length, Printed, Show, Style, print};

use super::desk::Desk;
use super::layouts::{LaidCloth, length_rows};
use super::rows::row;
use crate::words::Word;

pub(super) fn glance(desk: &Desk<'_>) -> Glance {
    Glance { body: body(desk), finished: finished(desk), cloths: cloths(desk), notions: notions(desk) }
}

fn body(desk: &Desk<'_>) -> Vec<StripRow> {
    let measurements = desk.garment.body.keys();
    measurements
        .map(|name| {
            let printed: Vec<Printed> = desk
                .sizes()
                .filter_map(|sized| sized.names.named(&format!("body.{name}")))
                .map(|named| named.printed())
                .collect();
            row(name.replace('_', " "), &printed, desk.systems)
        })
        .collect()
}

fn finished(desk: &Desk<'_>) -> Vec<StripRow> {
    let home = Route::top().key("glance");
    let mut rows = Vec::new();
    for (index, shape) in desk.garment.shape.glance.iter().enumerate() {
        let route = home.index(index).key("value");
        let formula = match Formula::parse(shape.value.text()) {
            Ok(formula) => formula,
            Err(fault) => {
                desk.fault(crate::check::formula_fault(&route, &fault));
                continue;
            }
        };
        let mut printed = Vec::new();
        for sized in desk.sizes() {
            match formula.eval(&sized.names) {
                Ok(quantity) => {
                    let show = match formula.names().as_slice() {
                        [(name, _)] if formula.is_plain() => sized.names.named(name).map(|named| named.show),
                        _ => None,
                    };
                    printed.push(print(quantity, show.unwrap_or_else(|| Show::usual(quantity))));
                }
                Err(fault) => {
                    desk.fault(crate::check::formula_fault(&route, &fault));
                    break;
                }
            }
        }
        if printed.len() == desk.selection.indexes.len() {
            rows.push(row(shape.label.clone(), &printed, desk.systems));
        }
    }
    rows
}

fn cloths(desk: &Desk<'_>) -> Vec<ClothNeed> {
    let home = Route::top().key("cloths");
    let mut needs = Vec::new();
    for cloth in &desk.garment.cloths {
        let mut rows = Vec::new();
        for width in &cloth.widths {
            let laid: Vec<&LaidCloth> =
                desk.sizes().filter_map(|sized| desk.build.laid(&cloth.name, &sized.size, *width)).collect();
            if laid.len() == desk.selection.indexes.len() {
                rows.extend(length_rows(desk, *width, &laid));
            }
        }
        if rows.is_empty() {
            let place = Place::Key(home.key(cloth.name.as_str()));
            let fault =
                Fault::warning(Code::Advice, place, format!("nothing is cut of `{}` in these sizes", cloth.name));
            desk.fault(fault.help("cut a piece of it, or leave the cloth out"));
            continue;
        }
        let advice = match &cloth.note {
            Some(note) => desk.runs(&home.key(cloth.name.as_str()).key("note"), note),
            None => Vec::new(),
        };
        needs.push(ClothNeed { name: cloth.title.clone(), role: desk.say(role(cloth.role)).to_string(), advice, rows });
    }
    needs
}

/// A width on offer, as a shop says it: whole inches, and centimetres.
pub(super) fn width_words(width: Length, desk: &Desk<'_>) -> String {
    let show = Show { style: Style::Length, ..Show::LENGTH };
    print(width.into(), show).typeset(desk.systems).replace(".0\u{a0}cm", "\u{a0}cm")
}

/// What a cloth is for.
pub(super) fn role(role: RoleShape) -> Word {
    match role {
        RoleShape::Outer => Word::RoleOuter,
        RoleShape::Under => Word::RoleUnder,
        RoleShape::Lining => Word::RoleLining,
        RoleShape::Interlining => Word::RoleInterlining,
        RoleShape::Trim => Word::RoleTrim,
    }
}

fn notions(desk: &Desk<'_>) -> Vec<NotionNeed> {
    let home = Route::top().key("notions");
    desk.garment
        .shape
        .notions
        .iter()
        .enumerate()
        .map(|(index, shape)| {
            let route = home.index(index);
            let (runs, rows) = desk.line(&route.key("amount"), &shape.amount);
            // Where the number differs by size the strip says it all; the sentence with its capsule is not needed.
            let amount = if rows.is_empty() { runs } else { Vec::new() };
            let rows = rows.into_iter().map(|row| StripRow { mark: None, ..row }).collect();
            let note: Vec<Run> = match &shape.note {
                Some(note) => desk.runs(&route.key("note"), note),
                None => Vec::new(),
            };
            NotionNeed { name: shape.title.clone(), amount, rows, note }
        })
        .collect()
}
