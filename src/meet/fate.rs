//! Every edge must come to something.

use std::collections::BTreeSet;

use super::report::{EdgeFate, Fate};
use crate::draft::Pieces;
use crate::fault::{Code, Fault, Place, Route};
use crate::shape::JoinShape;

/// What becomes of every edge of every piece that is cut from cloth.
pub(super) fn fates(joins: &[JoinShape], pieces: &dyn Pieces, faults: &mut Vec<Fault>) -> Vec<EdgeFate> {
    let joined: BTreeSet<&str> =
        joins.iter().flat_map(|join| join.sew.iter().chain(&join.to)).map(|one| one.0.edge.as_str()).collect();
    let mut fates = Vec::new();
    for name in pieces.piece_names() {
        let Some(piece) = pieces.piece(name) else { continue };
        // A piece that is cut from nothing is only there to draw others from.
        if piece.cuts.is_empty() {
            continue;
        }
        for edge in &piece.edges {
            let full = format!("{name}.{}", edge.name);
            let fate = match edge.finish {
                _ if joined.contains(full.as_str()) => Fate::Joined,
                Some(finish) => Fate::Finished(finish),
                None => Fate::Loose,
            };
            if fate == Fate::Loose {
                let place = Place::Key(Route::top().key("pieces").key(name));
                let message = format!("nobody sews the edge `{}` of `{name}`", edge.name);
                let fault = Fault::new(Code::LooseEdge, place, message);
                faults.push(fault.help(format!(
                    "name it in a join, or say under `finish` what becomes of it: `{}: hemmed`, `faced`, `bound`, `piped`, `sewn` or `free`",
                    edge.name
                )));
            }
            fates.push(EdgeFate { piece: name.to_string(), edge: edge.name.clone(), fate });
        }
    }
    fates
}
