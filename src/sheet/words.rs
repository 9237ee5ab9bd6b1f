//! The words on the pieces.

use super::face::{Face, pt};
use super::lettering::size_list;
use super::page::Sizes;
use super::pattern::{Pattern, PieceSet};
use crate::draft::Piece;
use crate::units::{Length, Show, print};

/// No line of a label is wider than this, mm, at the size it should have.
const WIDEST: f64 = 75.0;

/// The label of a piece, line by line.
#[must_use]
pub fn label(set: &PieceSet, pattern: &Pattern) -> Vec<String> {
    let mut lines = vec![format!("{}  {}", set.number, set.title), pattern.size_words()];
    lines.extend(cuts(set, pattern));
    lines.extend(allowances(set, pattern));
    lines.push(format!("{}, edition {}", pattern.title, pattern.edition));
    let wrapped = |line: &String| Face::Regular.lines(line, pt(9.5), WIDEST);
    lines.iter().enumerate().flat_map(|(at, line)| if at == 0 { vec![line.clone()] } else { wrapped(line) }).collect()
}

/// What to cut from each cloth; where the sizes differ, which sizes.
fn cuts(set: &PieceSet, pattern: &Pattern) -> Vec<String> {
    let mut cloths: Vec<&str> = Vec::new();
    for cut in set.by_size.iter().flat_map(|piece| &piece.cuts) {
        if !cloths.contains(&cut.cloth.as_str()) {
            cloths.push(&cut.cloth);
        }
    }
    let mut lines = Vec::new();
    for cloth in cloths {
        let of = |piece: &Piece| piece.cuts.iter().find(|cut| cut.cloth == cloth).map(crate::draft::Cut::words);
        let mut told: Vec<(String, Sizes)> = Vec::new();
        for (size, words) in set.by_size.iter().map(of).enumerate() {
            let words = words.unwrap_or_else(|| "none".to_string());
            match told.iter_mut().find(|(known, _)| *known == words) {
                Some((_, sizes)) => *sizes = sizes.and(Sizes::one(size)),
                None => told.push((words, Sizes::one(size))),
            }
        }
        let name = cloth.replace('_', " ");
        if let [(words, _)] = told.as_slice() {
            lines.push(format!("{name}: cut {words}"));
        } else {
            let list: Vec<String> = told
                .iter()
                .map(|(words, sizes)| format!("{words} (size {})", size_list(*sizes, &pattern.sizes)))
                .collect();
            lines.push(format!("{name}: cut {}", list.join(", ")));
        }
    }
    lines
}

/// The allowances within the cut line: the usual one, then the edges that have another. Where sizes differ nothing is said.
fn allowances(set: &PieceSet, pattern: &Pattern) -> Option<String> {
    let piece = set.by_size.first()?;
    let same = set.by_size.iter().all(|other| {
        other.edges.len() == piece.edges.len()
            && other.edges.iter().zip(&piece.edges).all(|(a, b)| (a.allowance - b.allowance).abs() < Length::mm(0.05))
    });
    if !same {
        return None;
    }
    let shown = |length: Length| print(length.into(), Show::FINE).typeset(pattern.systems);
    let edges: Vec<(&str, String)> = piece
        .edges
        .iter()
        .filter(|edge| piece.fold.as_deref() != Some(edge.name.as_str()))
        .map(|edge| {
            (
                edge.name.as_str(),
                if edge.allowance > Length::mm(0.05) { shown(edge.allowance) } else { "none".to_string() },
            )
        })
        .collect();
    let mut usual: Vec<(&String, usize)> = Vec::new();
    for (_, words) in &edges {
        match usual.iter_mut().find(|(known, _)| *known == words) {
            Some((_, count)) => *count += 1,
            None => usual.push((words, 1)),
        }
    }
    let (main, _) = usual.iter().max_by_key(|(_, count)| *count)?;
    let others: Vec<String> = edges
        .iter()
        .filter(|(_, words)| words != *main)
        .map(|(name, words)| format!("{} {words}", name.replace('_', " ")))
        .collect();
    let rest = if others.is_empty() { String::new() } else { format!("; {}", others.join(", ")) };
    Some(format!("allowance {main}{rest}"))
}
