//! The pens: one weight for each kind of line, always the same.

use super::look::Paint;

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pen {
    /// What the line is, kept in the SVG as its class.
    pub(crate) class: &'static str,
    /// Width, mm.
    pub(crate) width: f64,
    /// Colour.
    pub(crate) paint: Paint,
    /// On and off lengths, mm; empty for an unbroken line.
    pub(crate) dash: &'static [f64],
}

impl Pen {
    const fn plain(class: &'static str, width: f64) -> Pen {
        Pen { class, width, paint: Paint::Ink, dash: &[] }
    }

    const fn dashed(class: &'static str, width: f64, dash: &'static [f64]) -> Pen {
        Pen { class, width, paint: Paint::Ink, dash }
    }

    /// A raw edge.
    pub(crate) const CUT: Pen = Pen::plain("cut", 0.7);
    /// A folded edge, a silhouette.
    pub(crate) const FOLD: Pen = Pen::plain("fold", 0.5);
    /// Seam lines and other thin lines.
    pub(crate) const SEAM: Pen = Pen::plain("seam", 0.25);
    /// Face of a cloth seen on edge.
    pub(crate) const FACE: Pen = Pen::plain("face", 0.25);
    /// Detail inside a drawing.
    pub(crate) const THIN: Pen = Pen::plain("thin", 0.25);
    /// A line to fold on.
    pub(crate) const FOLD_LINE: Pen = Pen::dashed("foldline", 0.3, &[5.0, 1.1, 1.2, 1.1, 1.2, 1.1]);
    /// Machine stitching.
    pub(crate) const MACHINE: Pen = Pen::dashed("machine", 0.35, &[1.5, 1.0]);
    /// A mark of chalk or pencil.
    pub(crate) const MARK: Pen = Pen::dashed("mark", 0.25, &[0.15, 0.95]);
    /// What lies behind cloth.
    pub(crate) const HIDDEN: Pen = Pen { paint: Paint::Faint, ..Pen::dashed("hidden", 0.25, &[2.2, 1.2]) };
    /// A gathering thread, and hand sewing thread.
    pub(crate) const THREAD: Pen = Pen::plain("thread", 0.4);
    /// The same thread where it runs under the cloth.
    pub(crate) const THREAD_UNDER: Pen = Pen::dashed("under", 0.25, &[0.5, 0.8]);
    /// Dimension lines.
    pub(crate) const MEASURE: Pen = Pen::plain("measure", 0.25);
    /// Leaders from a label to what it names.
    pub(crate) const LEADER: Pen = Pen::plain("leader", 0.25);
    /// Grain line.
    pub(crate) const GRAIN: Pen = Pen::plain("grain", 0.3);
    /// Ticks of a wrong side.
    pub(crate) const TICK: Pen = Pen::plain("tick", 0.22);
    /// Ring of a magnified detail.
    pub(crate) const RING: Pen = Pen::plain("ring", 0.5);
}
