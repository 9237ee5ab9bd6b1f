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
    // An edge that a join may have meant by a name that is not there has been told of at the join.
    let misnamed: Vec<(&str, &str)> = joined
        .iter()
        .filter_map(|full| full.split_once('.'))
        .filter(|(piece, edge)| pieces.piece(piece).is_none_or(|piece| piece.edge(edge).is_none()))
        .collect();
    let maybe = |piece: &str, edge: &str| {
        misnamed.iter().any(|(of, name)| *of == piece || (pieces.piece(of).is_none() && *name == edge))
    };
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
            if fate == Fate::Loose && !maybe(name, &edge.name) {
                // Where the edge is not written out, the nearest that is: its piece.
                let place = Place::Key(Route::top().key("pieces").key(name).key("edges").key(edge.name.as_str()));
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
