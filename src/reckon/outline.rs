//! A closed outline of straight lines against points and upright boxes; bare millimetres.

/// What arithmetic may be off by.
const HAIR: f64 = 1e-6;

/// Where a point lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Within the line.
    Inside,
    /// On it.
    On,
    /// Beyond it.
    Outside,
}

/// An upright box: its middle and half its width and height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// The middle.
    pub middle: (f64, f64),
    /// Half the width and half the height.
    pub half: (f64, f64),
}

impl Frame {
    /// The same box, wider by so much on every side.
    #[must_use]
    pub fn grown(self, by: f64) -> Frame {
        Frame { half: (self.half.0 + by, self.half.1 + by), ..self }
    }

    /// Whether a line passes through the box, touching its rim not counted.
    fn is_crossed(&self, from: (f64, f64), to: (f64, f64)) -> bool {
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for (start, end, middle, half) in
            [(from.0, to.0, self.middle.0, self.half.0), (from.1, to.1, self.middle.1, self.half.1)]
        {
            let (low, high) = (middle - half + HAIR, middle + half - HAIR);
            let run = end - start;
            if run.abs() < 1e-12 {
                if start <= low || start >= high {
                    return false;
                }
                continue;
            }
            let (a, b) = ((low - start) / run, (high - start) / run);
            enter = enter.max(a.min(b));
            leave = leave.min(a.max(b));
        }
        enter < leave
    }
}

/// The corners of an outline, in order; the last is joined to the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline(pub Vec<(f64, f64)>);

impl Outline {
    fn lines(&self) -> impl Iterator<Item = ((f64, f64), (f64, f64))> + '_ {
        self.0.iter().copied().zip(self.0.iter().copied().cycle().skip(1))
    }

    /// The lowest and the highest corner: left and foot, right and head.
    #[must_use]
    pub fn bounds(&self) -> ((f64, f64), (f64, f64)) {
        let far = ((f64::INFINITY, f64::INFINITY), (f64::NEG_INFINITY, f64::NEG_INFINITY));
        self.0
            .iter()
            .fold(far, |(low, high), at| ((low.0.min(at.0), low.1.min(at.1)), (high.0.max(at.0), high.1.max(at.1))))
    }

    /// The area within, without a sign.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.lines().map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>().abs() / 2.0
    }

    /// Where a point lies.
    #[must_use]
    pub fn side(&self, at: (f64, f64)) -> Side {
        let mut inside = false;
        for (a, b) in self.lines() {
            let (dx, dy) = (b.0 - a.0, b.1 - a.1);
            let square = dx * dx + dy * dy;
            let share =
                if square > 0.0 { (((at.0 - a.0) * dx + (at.1 - a.1) * dy) / square).clamp(0.0, 1.0) } else { 0.0 };
            if (at.0 - a.0 - share * dx).hypot(at.1 - a.1 - share * dy) < HAIR {
                return Side::On;
            }
            if (a.1 > at.1) != (b.1 > at.1) && at.0 < a.0 + (at.1 - a.1) / dy * dx {
                inside = !inside;
            }
        }
        if inside { Side::Inside } else { Side::Outside }
    }

    /// Whether the outline passes through the box.
    #[must_use]
    pub fn crosses(&self, frame: Frame) -> bool {
        self.lines().any(|(a, b)| frame.is_crossed(a, b))
    }

    /// Whether any part of the box lies within.
    #[must_use]
    pub fn meets(&self, frame: Frame) -> bool {
        self.crosses(frame) || self.side(frame.middle) != Side::Outside
    }

    /// Whether the whole box lies within.
    #[must_use]
    pub fn holds(&self, frame: Frame) -> bool {
        !self.crosses(frame) && self.side(frame.middle) != Side::Outside
    }
}
