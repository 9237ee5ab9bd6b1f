//! Texts that are printed as they stand.

use crate::fault::{Code, Fault, Place, Route};
use crate::shape::{GarmentShape, InputShape};

/// Titles and the like are not prose: a number written into one would be printed as `{{ name }}`.
pub(super) fn check_plain(shape: &GarmentShape, faults: &mut Vec<Fault>) {
    for (route, text) in texts(shape) {
        let Some((at, sign)) = ["{{", "{%"].iter().find_map(|sign| Some((text.find(sign)?, *sign))) else { continue };
        let place = Place::Within(route, at..at + sign.len());
        let fault = Fault::new(Code::Prose, place, "this is printed as it stands; a number cannot stand in it");
        faults.push(fault.help("say it without the number, or put the number into prose or a note"));
    }
}

fn texts(shape: &GarmentShape) -> Vec<(Route, &str)> {
    let top = Route::top();
    let mut texts: Vec<(Route, &str)> = vec![(top.key("title"), &shape.title)];
    for (key, text) in [("production", &shape.production), ("maker", &shape.maker)] {
        texts.extend(text.as_deref().map(|text| (top.key(key), text)));
    }
    for (name, cloth) in &shape.cloths {
        texts.push((top.key("cloths").key(name.as_str()).key("title"), &cloth.title));
    }
    for (name, swatch) in &shape.swatches {
        let title = swatch.title.as_deref();
        texts.extend(title.map(|title| (top.key("swatches").key(name.as_str()).key("title"), title)));
    }
    for (index, notion) in shape.notions.iter().enumerate() {
        texts.push((top.key("notions").index(index).key("title"), &notion.title));
    }
    for (name, piece) in &shape.pieces {
        let route = top.key("pieces").key(name.as_str());
        for (mark, shape) in &piece.marks {
            let title = shape.title.as_deref();
            texts.extend(title.map(|title| (route.key("marks").key(mark.as_str()).key("title"), title)));
        }
        for (index, notch) in piece.notches.iter().enumerate() {
            let name = notch.name.as_deref();
            texts.extend(name.map(|name| (route.key("notches").index(index).key("name"), name)));
        }
        texts.push((route.key("title"), &piece.title));
    }
    for (index, join) in shape.joins.iter().enumerate() {
        let title = join.title.as_deref();
        texts.extend(title.map(|title| (top.key("joins").index(index).key("title"), title)));
    }
    for (index, step) in shape.steps.iter().enumerate() {
        let route = top.key("steps").index(index);
        texts.extend(step.part.as_deref().map(|part| (route.key("part"), part)));
        texts.push((route.key("title"), &step.title));
        if let Some(InputShape::One(alt)) = step.figure.as_ref().and_then(|figure| figure.get("alt")) {
            texts.push((route.key("figure").key("alt"), alt.text()));
        }
    }
    for (index, caution) in shape.cautions.iter().enumerate() {
        texts.push((top.key("cautions").index(index).key("about"), &caution.about));
    }
    texts
}
