//! Every layout of every garment: density, time, and the lengths set beside area over width and beside the usual
//! conversion between widths.
//!
//! `cargo run --release --example layouts -- patterns tests/cases/bodice`

use std::path::PathBuf;
use std::time::Instant;

use furbelow::book::{ClothNeed, LaidPiece, lay_cloths};
use furbelow::cache::Nothing;
use furbelow::pipeline;

/// Yards of cloth 35-36, 44-45 and 58-60 in wide that do the same work. Read in two copies of a fabric width conversion chart
/// (attributed from memory to Rutgers Cooperative Extension).
const CHART: [[f64; 12]; 3] = [
    [1.75, 2.0, 2.25, 2.5, 2.875, 3.125, 3.375, 3.75, 4.25, 4.5, 4.75, 5.0],
    [1.375, 1.625, 1.75, 2.125, 2.25, 2.5, 2.75, 2.875, 3.125, 3.375, 3.625, 3.875],
    [1.0, 1.25, 1.375, 1.625, 1.75, 1.875, 2.0, 2.25, 2.375, 2.625, 2.75, 2.875],
];
const WIDTHS: [(f64, f64); 3] = [(35.0, 36.0), (44.0, 45.0), (58.0, 60.0)];

fn column(inches: f64) -> Option<&'static [f64; 12]> {
    let at = WIDTHS.iter().position(|(from, to)| inches >= from - 0.01 && inches <= to + 0.01)?;
    CHART.get(at)
}

/// A length at one width as the chart has it at another; between its rows, and beyond them in proportion.
fn converted(yards: f64, from: f64, to: f64) -> Option<f64> {
    let (from, to) = (column(from)?, column(to)?);
    let row = from.iter().position(|value| *value >= yards);
    Some(match row {
        Some(0) => to[0] * yards / from[0],
        None => to[11] * yards / from[11],
        Some(row) => {
            let share = (yards - from[row - 1]) / (from[row] - from[row - 1]);
            to[row - 1] + share * (to[row] - to[row - 1])
        }
    })
}

/// Why a wider cloth does not help as much as the chart says.
fn why(need: &ClothNeed, narrow: &ClothNeed, pieces: &[&LaidPiece]) -> String {
    let height = |piece: &LaidPiece| piece.bounds().1[1] - piece.bounds().0[1];
    let size = |piece: &LaidPiece| (piece.bounds().1[0] - piece.bounds().0[0]) * height(piece);
    let Some(largest) = pieces.iter().max_by(|a, b| size(a).total_cmp(&size(b))) else { return String::new() };
    let across = height(largest).max(1.0);
    let fits = |need: &ClothNeed| (need.usable.to_mm() / across).floor();
    if fits(need) <= fits(narrow) {
        let per = if fits(need) < 1.0 { "on the fold".to_string() } else { format!("{:.0} side by side", fits(need)) };
        return format!("{} is {:.1} in across: {per} at both widths", largest.title, across / 25.4);
    }
    let refused = need.others.iter().find(|other| other.length.is_none());
    match refused.and_then(|other| other.reasons.first()) {
        Some(reason) => format!("not {:?}: {reason}", refused.map(|other| other.folding)),
        None => format!("density {:.0} % against {:.0} %", 100.0 * need.density(), 100.0 * narrow.density()),
    }
}

fn main() {
    let named: Vec<PathBuf> = std::env::args().skip(1).map(PathBuf::from).collect();
    let paths = if named.is_empty() { vec![PathBuf::from("patterns")] } else { named };
    let folders = pipeline::find(&paths).unwrap_or_else(|words| {
        eprintln!("{words}");
        std::process::exit(1)
    });
    for folder in folders {
        let (_, checked) = pipeline::check(&folder);
        let (Some(garment), Some(build)) = (checked.garment, checked.build) else { continue };
        let start = Instant::now();
        let (laid, _) = lay_cloths(&garment, &build.sizes, &Nothing);
        let seconds = start.elapsed().as_secs_f64();
        println!("\n{}: {} layouts in {seconds:.2} s", garment.shape.title, laid.len());
        println!(
            "cloth        in size  spread              laid yd  area/width  density  chart yd  why above the chart"
        );
        let mut density = Vec::new();
        for one in &laid {
            let need = &one.need;
            density.push(need.density());
            let narrow = laid.iter().find(|other| other.need.cloth == need.cloth && other.need.size == need.size);
            let Some(narrow) = narrow else { continue };
            let (wide, from) = (need.width.to_inches(), narrow.need.width.to_inches());
            let chart = if wide > from { converted(narrow.need.laid.to_yards(), from, wide) } else { None };
            let above = chart.is_some_and(|chart| need.laid.to_yards() > chart + 1e-9);
            let pieces: Vec<&LaidPiece> = one.sections.iter().flat_map(|section| &section.pieces).collect();
            println!(
                "{:<12} {wide:>2.0} {:<5} {:<19} {:>7.3}  {:>10.3}  {:>6.1} %  {:>8}  {}",
                need.cloth,
                need.size,
                format!("{:?}", need.folding),
                need.laid.to_yards(),
                need.bound.to_yards(),
                100.0 * need.density(),
                chart.map_or_else(String::new, |chart| format!("{chart:.3}")),
                if above { why(need, &narrow.need, &pieces) } else { String::new() },
            );
        }
        density.sort_by(f64::total_cmp);
        if let Some(median) = density.get(density.len() / 2) {
            println!("median density {:.1} %", 100.0 * median);
        }
    }
}
