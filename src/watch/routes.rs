//! What is served under which path.

use std::sync::Arc;

use serde::Deserialize;
use serde_json::{Value, json};

use super::desk::{Desk, Shown};
use super::figures;
use super::http::{Method, Request, Response};
use super::inputs::inputs;
use super::pages::{Set, Which};
use super::tried::tried;
use crate::cache::Key;
use crate::fault::{Fault, Route, locate_json};
use crate::set::{DocKind, Paper};
use crate::size::why;

const PAGE: &str = include_str!("../../templates/page/index.html");
const STYLE: &str = include_str!("../../templates/page/page.css");
const SCRIPT: &str = include_str!("../../templates/page/page.js");

const ICON: &str = include_str!("../../templates/page/icon.svg");

const SVG: &str = "image/svg+xml";

/// The answer to a request that may be answered.
pub(super) fn answer(desk: &Desk, request: &Request) -> Response {
    let path: Vec<&str> = request.path.trim_start_matches('/').split('/').collect();
    if request.method == Method::Post {
        return match path.as_slice() {
            ["try"] => with(desk, |shown| try_value(desk, shown, &request.body)),
            _ => Response::refused(405, "there is nothing to try here"),
        };
    }
    match path.as_slice() {
        [""] => Response::ok("text/html; charset=utf-8", PAGE),
        ["page.css"] => Response::ok("text/css; charset=utf-8", STYLE),
        ["page.js"] => Response::ok("text/javascript; charset=utf-8", SCRIPT),
        ["icon.svg"] => Response::ok(SVG, ICON),
        ["state"] => Response::json(&desk.state()),
        ["document", edition, kind, paper] => with(desk, |shown| document(desk, shown, edition, kind, paper)),
        ["page", edition, kind, paper, page] => with(desk, |shown| page_of(desk, shown, [edition, kind, paper, page])),
        ["figures", edition] => with(desk, |shown| match shown.edition(edition) {
            Some(Ok(book)) => Response::json(&figures::list(&book)),
            Some(Err(faults)) => wrong(shown, &faults),
            None => missing(),
        }),
        ["figure", edition, name] => with(desk, |shown| figure(shown, edition, name)),
        ["numbers"] => with(desk, |shown| Response::json(&numbers(shown))),
        ["why", name] => with(desk, |shown| reasons(shown, name, request.value("size"))),
        _ => missing(),
    }
}

fn missing() -> Response {
    Response::refused(404, "there is nothing here")
}

fn with(desk: &Desk, answer: impl FnOnce(&Arc<Shown>) -> Response) -> Response {
    match desk.shown() {
        Some(shown) => answer(&shown),
        None => Response::refused(404, "the garment was not right yet"),
    }
}

fn wrong(shown: &Shown, faults: &[Fault]) -> Response {
    let faults: Vec<Value> = faults.iter().map(|fault| locate_json(fault, &shown.source)).collect();
    Response::json(&json!({ "faults": faults }))
}

fn which(edition: &str, kind: &str, paper: &str) -> Option<Which> {
    let kind = DocKind::ALL.into_iter().find(|known| known.name() == kind)?;
    let paper = Paper::ALL.into_iter().find(|known| known.name() == paper)?;
    Some(Which { edition: edition.to_string(), kind, paper })
}

fn set(desk: &Desk, shown: &Shown, edition: &str, kind: &str, paper: &str) -> Option<(Which, Set)> {
    let which = which(edition, kind, paper)?;
    let set = desk.pages().get(shown, &which)?;
    Some((which, set))
}

/// The pages of a document: their number, and an address each that changes with what is seen on it.
fn document(desk: &Desk, shown: &Shown, edition: &str, kind: &str, paper: &str) -> Response {
    let Some((which, set)) = set(desk, shown, edition, kind, paper) else { return missing() };
    let typeset = match set.as_ref() {
        Ok(typeset) => typeset,
        Err(faults) => return wrong(shown, faults),
    };
    let (width, height) = which.paper.size_mm();
    let total = typeset.pages().to_string();
    let pages: Vec<String> = typeset
        .digests()
        .iter()
        .enumerate()
        .map(|(at, digest)| {
            // Head and foot name the edition and the number of pages.
            let seen = Key::of("seen").bytes("body", digest.as_bytes()).bytes("of", total.as_bytes());
            let seen =
                seen.bytes("edition", shown.build.edition.as_bytes()).bytes("title", shown.build.title.as_bytes());
            let mark: String = seen.key().hex().chars().take(16).collect();
            format!("/page/{edition}/{kind}/{paper}/{}.svg?{mark}", at + 1)
        })
        .collect();
    let lints: Vec<String> = typeset.lints().iter().map(ToString::to_string).collect();
    Response::json(&json!({ "pages": pages, "width": width, "height": height, "lints": lints }))
}

fn page_of(desk: &Desk, shown: &Shown, [edition, kind, paper, page]: [&str; 4]) -> Response {
    let number = page.strip_suffix(".svg").and_then(|number| number.parse::<usize>().ok());
    let Some((_, set)) = set(desk, shown, edition, kind, paper) else { return missing() };
    let (Some(number), Ok(typeset)) = (number, set.as_ref()) else { return missing() };
    match typeset.svg(number) {
        Some(svg) => Response::ok(SVG, svg).lasting(),
        None => missing(),
    }
}

fn figure(shown: &Shown, edition: &str, name: &str) -> Response {
    let Some(Ok(book)) = shown.edition(edition) else { return missing() };
    let id = name.strip_suffix(".svg").unwrap_or(name);
    match book.figures.iter().find(|figure| figure.id == id) {
        Some(figure) => Response::ok(SVG, figure.svg.clone()).lasting(),
        None => missing(),
    }
}

/// Every number by size, and every value that can be tried.
fn numbers(shown: &Shown) -> Value {
    let sizes: Vec<&str> = shown.build.sizes.iter().map(|sized| sized.size.as_str()).collect();
    let systems = shown.build.systems;
    let mut names: Vec<&String> = shown.build.sizes.iter().flat_map(|sized| sized.names.0.keys()).collect();
    names.sort();
    names.dedup();
    let rows: Vec<Value> = names
        .into_iter()
        .map(|name| {
            let named = |at: &crate::size::SizedGarment| at.names.named(name).cloned();
            let label = shown.build.sizes.iter().find_map(named).map(|named| named.label).unwrap_or_default();
            let values: Vec<String> = shown
                .build
                .sizes
                .iter()
                .map(|sized| {
                    let named = sized.names.named(name);
                    named.map(|named| named.printed().terminal(systems).replace('\u{a0}', " ")).unwrap_or_default()
                })
                .collect();
            json!({ "name": name, "label": label, "values": values })
        })
        .collect();
    json!({ "sizes": sizes, "rows": rows, "inputs": inputs(&shown.source) })
}

fn reasons(shown: &Shown, name: &str, size: Option<&str>) -> Response {
    let mut sizes = shown.build.sizes.iter();
    let sized = match size {
        Some(size) => sizes.find(|sized| sized.size == size),
        None => sizes.next(),
    };
    match sized.and_then(|sized| why(sized, name, shown.build.systems)) {
        Some(reasons) => Response::json(&json!({ "reasons": reasons })),
        None => missing(),
    }
}

/// What the page sends to try a value.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Wanted {
    route: Route,
    value: String,
}

fn try_value(desk: &Desk, shown: &Shown, body: &[u8]) -> Response {
    let Ok(Wanted { route, value }) = serde_json::from_slice(body) else {
        return Response::refused(400, "expected a route and a value");
    };
    match tried(desk, shown, &route, &value) {
        Ok(tried) => serde_json::to_value(&tried).map_or_else(|_| missing(), |value| Response::json(&value)),
        Err(words) => Response::json(&json!({ "refused": words })),
    }
}
