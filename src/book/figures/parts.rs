//! Figures of small parts: points of piping, folds, threads, wings.

use crate::draw::{self, FoldOver, Look, PipedPoint, TiedPairs, TiedThreads, WingFigure};
use crate::fault::Fault;

use super::kinds::{choose, drawn};
use super::params::Params;

type Drawn = Result<draw::Figure, Fault>;

pub(super) fn piping_point(p: &Params<'_>, look: &Look) -> Drawn {
    let width = p.measure("width", "the width of the dip")?;
    let depth = p.measure("depth", "the depth of the dip")?;
    let input = PipedPoint {
        name: p.text("name").unwrap_or("bodice").to_string(),
        slope: depth.length.to_mm() / (width.length.to_mm() / 2.0),
        allowance: p.measure("allowance", "from the stitching to the raw edges")?,
        short: p.maybe_measure("short")?,
    };
    drawn(p, draw::piping_point(&input, look))
}

pub(super) fn fold_over(p: &Params<'_>, look: &Look) -> Drawn {
    let input = FoldOver {
        depth: p.measure("depth", "from the cut edge to the fold")?,
        stay: p.text("stay").map(str::to_string),
    };
    drawn(p, draw::fold_over(&input, look))
}

pub(super) fn tied_threads(p: &Params<'_>, look: &Look) -> Drawn {
    let input = TiedThreads {
        rows: usize::try_from(p.count("rows", "how many rows")?).unwrap_or(usize::MAX),
        pairs: choose(p, "pairs", &[("halves", TiedPairs::Halves), ("rows", TiedPairs::Rows)], Some(TiedPairs::Rows))?,
        place: p.text("place").unwrap_or("end of the rows").to_string(),
    };
    drawn(p, draw::tied_threads(&input, look))
}

pub(super) fn wing(p: &Params<'_>, look: &Look) -> Drawn {
    let tabs = if p.has("tabs") { Some(p.count("tabs", "how many tabs")?) } else { None };
    let input = WingFigure {
        length: p.measure("length", "the length of the wing along the armhole")?,
        depth: p.measure("depth", "its depth at the shoulder")?,
        allowance: p.measure("allowance", "from the raw edge to the seam line")?,
        tabs: tabs.map(|count| usize::try_from(count).unwrap_or(usize::MAX)),
        free: p.maybe_measure("free")?,
    };
    drawn(p, draw::wing(&input, look))
}
