//! Cloth that falls from a waist in folds: tubes at the top that join into fewer, wider folds toward the hem.
//!
//! A place on the skirt is told by `u`, from the left silhouette (-1) to the right one (1), and `t`, from the
//! waist (0) to the hem (1). Folds are evenly spread round the body, so that they crowd toward the silhouettes;
//! between front folds lie recesses, in shadow, that open toward the hem.

use kurbo::Point;

use super::super::geom::{closed, lerp, pt, quirk, real, soft, steps};
use super::super::look::Paint;
use super::super::scene::Scene;

/// The shape of a skirt as it stands, mm on paper.
#[derive(Debug, Clone)]
pub(crate) struct Shape {
    /// Half the width at the waist.
    pub(crate) waist: f64,
    /// Half the width at the hem.
    pub(crate) hem: f64,
    /// Height of the waist seam at the sides.
    pub(crate) top: f64,
    /// Height of the hem at the sides.
    pub(crate) foot: f64,
    /// How much the waist seam sags to the middle, seen from a little above.
    pub(crate) sag_top: f64,
    /// The same at the hem.
    pub(crate) sag_foot: f64,
    /// How strongly the skirt springs from the waist, 0 to 1.
    pub(crate) spring: f64,
    /// Drop of the waist seam by `u`, first at the centre.
    pub(crate) dip: Vec<(f64, f64)>,
}

impl Shape {
    fn half(&self, t: f64) -> f64 {
        let rest = 1.0 - t;
        let quick = 1.0 - rest.powi(12);
        let slow = 1.0 - rest.powf(2.6);
        let share = 0.24 * self.spring * quick + 0.3 * slow + (0.7 - 0.24 * self.spring) * t;
        lerp(self.waist, self.hem, share)
    }

    /// Drop of the waist seam.
    pub(crate) fn drop(&self, u: f64) -> f64 {
        let u = u.abs();
        for pair in self.dip.windows(2) {
            let ((a, da), (b, db)) = (pair[0], pair[1]);
            if u >= a && u <= b {
                let t = if b > a { (u - a) / (b - a) } else { 0.0 };
                return lerp(da, db, t);
            }
        }
        0.0
    }

    /// The place on paper.
    pub(crate) fn at(&self, u: f64, t: f64) -> Point {
        let facing = (1.0 - u * u).max(0.0).sqrt();
        let top = self.top + self.sag_top * facing + self.drop(u) * (1.0 - t).powi(2);
        let foot = self.foot + self.sag_foot * facing;
        pt(u * self.half(t), lerp(top, foot, t))
    }

    /// The line at one height from the left silhouette to the right.
    pub(crate) fn level(&self, t: f64, shift: f64) -> Vec<Point> {
        steps(80)
            .map(|k| (k * std::f64::consts::PI - std::f64::consts::FRAC_PI_2).sin())
            .map(|u| self.at(u, t) + kurbo::Vec2::new(0.0, shift))
            .collect()
    }
}

/// One tier of cloth between two heights.
pub(crate) struct Tier {
    /// Height it hangs from.
    pub(crate) from: f64,
    /// Height of its lower edge.
    pub(crate) to: f64,
    /// Pleats or gathers seen at its head.
    pub(crate) heads: usize,
    /// Folds seen at its lower edge.
    pub(crate) folds: usize,
    /// How deep the lower edge waves, mm.
    pub(crate) wave: f64,
    /// Even tubes (cartridge pleats) or uneven gathers.
    pub(crate) even: bool,
    /// Extra width of the tier beyond the one above, share.
    pub(crate) flare: f64,
    /// Changes the disorder.
    pub(crate) salt: u32,
}

/// A recess between two folds.
struct Recess {
    head: f64,
    foot: f64,
    half: f64,
    apex: f64,
}

fn around(k: f64) -> f64 {
    (k * std::f64::consts::PI - std::f64::consts::FRAC_PI_2).sin()
}

impl Tier {
    fn place(&self, shape: &Shape, u: f64, k: f64) -> Point {
        let t = lerp(self.from, self.to, k);
        let mut p = shape.at(u, t);
        p.x *= 1.0 + self.flare * soft(k * 1.4);
        p
    }

    fn head(&self, i: usize) -> f64 {
        let n = real(self.heads);
        let wobble = if self.even || i == 0 || i == self.heads { 0.0 } else { quirk(i, self.salt + 1) * 0.33 };
        around((real(i) + wobble) / n)
    }

    fn recesses(&self) -> Vec<Recess> {
        let n = self.folds.max(3);
        (1..n)
            .map(|i| {
                let k = 0.035 + 0.93 * (real(i) + quirk(i, self.salt + 2) * 0.3) / real(n);
                let foot = around(k);
                let spacing = (around((real(i) + 0.5) / real(n)) - around((real(i) - 0.5) / real(n))).abs();
                let nearest = (0..=self.heads)
                    .map(|h| self.head(h))
                    .min_by(|a, b| (a - foot).abs().total_cmp(&(b - foot).abs()))
                    .unwrap_or(foot);
                let rise = (quirk(i, self.salt + 3) + 1.0) / 2.0;
                let strong = if i % 2 == 0 { 0.0 } else { 0.3 };
                Recess {
                    head: nearest,
                    foot,
                    half: spacing * (0.15 + 0.075 * quirk(i, self.salt + 4)),
                    apex: 0.08 + 0.26 * rise + strong,
                }
            })
            .collect()
    }

    fn middle(&self, r: &Recess, k: f64) -> f64 {
        lerp(r.head, r.foot, k.powf(0.85))
    }

    /// One edge of a recess, from its apex to the lower edge.
    fn edge(&self, shape: &Shape, r: &Recess, sign: f64) -> Vec<Point> {
        steps(22)
            .map(|q| {
                let k = lerp(r.apex, 1.0, q);
                self.place(shape, self.middle(r, k) + sign * r.half * q.powf(0.8), k)
            })
            .collect()
    }

    fn lower(&self, shape: &Shape, u: f64, lift: f64) -> Point {
        let facing = 0.45 + 0.55 * (1.0 - u * u).max(0.0).sqrt();
        self.place(shape, u, 1.0) + kurbo::Vec2::new(0.0, lift * self.wave * facing)
    }

    /// Draws the tier.
    pub(crate) fn draw(&self, s: &mut Scene, shape: &Shape) {
        let recesses = self.recesses();
        let mut bounds = vec![(-1.0, -1.0)];
        bounds.extend(recesses.iter().map(|r| (r.foot - r.half, r.foot + r.half)));
        bounds.push((1.0, 1.0));
        let mut lobes: Vec<Vec<Point>> = Vec::new();
        let mut bays: Vec<Vec<Point>> = Vec::new();
        for (i, pair) in bounds.windows(2).enumerate() {
            let (a, b) = (pair[0].1, pair[1].0);
            let lively = 1.0 + 0.34 * quirk(i, self.salt + 5);
            lobes.push(
                steps(12)
                    .map(|q| {
                        self.lower(shape, lerp(a, b, q), lively * (q * std::f64::consts::PI).sin().max(0.0).powf(0.6))
                    })
                    .collect(),
            );
            if i + 2 < bounds.len() {
                let (a, b) = pair[1];
                bays.push(
                    steps(8)
                        .map(|q| {
                            self.lower(
                                shape,
                                lerp(a, b, q),
                                -0.75 * (q * std::f64::consts::PI).sin().max(0.0).powf(0.7),
                            )
                        })
                        .collect(),
                );
            }
        }
        let mut outline: Vec<Point> = steps(60).map(|q| self.place(shape, around(q), 0.0)).collect();
        outline.extend(steps(24).map(|k| self.place(shape, 1.0, k * k)));
        for (i, lobe) in lobes.iter().enumerate().rev() {
            outline.extend(lobe.iter().rev());
            if i > 0
                && let Some(bay) = bays.get(i - 1)
            {
                outline.extend(bay.iter().rev());
            }
        }
        outline.extend(steps(24).rev().map(|k| self.place(shape, -1.0, k * k)));
        s.fill(closed(&outline), Paint::Tint);
        self.shadows(s, shape, &recesses, &bounds, &bays);
        self.lines(s, shape, &recesses);
        for lobe in &lobes {
            s.brush(lobe, |t| 0.42 + 0.16 * (t * std::f64::consts::PI).sin());
        }
        for bay in &bays {
            s.brush(bay, |_| 0.36);
        }
        for side in [-1.0, 1.0] {
            let edge: Vec<Point> = steps(50).map(|k| self.place(shape, side, k * k)).collect();
            s.brush(&edge, |_| 0.55);
        }
    }

    fn shadows(&self, s: &mut Scene, shape: &Shape, recesses: &[Recess], bounds: &[(f64, f64)], bays: &[Vec<Point>]) {
        // The flank of each fold that is turned from the light, at the left of its recess.
        for (i, r) in recesses.iter().enumerate() {
            let left = bounds.get(i).map_or(-1.0, |b| b.1);
            let width = (r.foot - r.half - left).max(0.0);
            let mut area = self.edge(shape, r, -1.0);
            let inner = steps(22).rev().map(|q| {
                let k = lerp(r.apex, 1.0, q);
                let u = self.middle(r, k) - r.half * q.powf(0.8) - width * 0.4 * q.powf(1.2);
                let lift = ((0.6_f64 * std::f64::consts::PI).sin().powf(0.6)) * soft((q - 0.97) / 0.03);
                let facing = 0.45 + 0.55 * (1.0 - u * u).max(0.0).sqrt();
                self.place(shape, u, k) + kurbo::Vec2::new(0.0, lift * self.wave * facing * 0.8)
            });
            area.extend(inner);
            s.fill(closed(&area), Paint::Half);
        }
        // The right flank of the whole skirt.
        let mut area: Vec<Point> = steps(30).map(|k| self.place(shape, 1.0, k)).collect();
        area.extend(steps(30).rev().map(|k| self.place(shape, 0.975 - 0.02 * k, k)));
        s.fill(closed(&area), Paint::Half);
        for (r, bay) in recesses.iter().zip(bays) {
            let mut area = self.edge(shape, r, -1.0);
            area.extend(bay.iter());
            area.extend(self.edge(shape, r, 1.0).iter().rev());
            s.fill(closed(&area), Paint::Shade);
        }
    }

    fn lines(&self, s: &mut Scene, shape: &Shape, recesses: &[Recess]) {
        for (i, r) in recesses.iter().enumerate() {
            let stem: Vec<Point> =
                steps(14).map(|q| q * r.apex).map(|k| self.place(shape, self.middle(r, k), k)).collect();
            s.brush(&stem, |t| (0.36 - 0.12 * t) * (0.45 + 0.55 * (1.0 - r.foot * r.foot).max(0.0).sqrt()));
            let facing = (1.0 - r.foot * r.foot).max(0.0).sqrt();
            let heavy = 0.45 + 0.55 * soft((facing - 0.12) / 0.4);
            s.brush(&self.edge(shape, r, -1.0), |t| heavy * (0.24 + 0.2 * t));
            if facing > 0.38 {
                s.brush(&self.edge(shape, r, 1.0), |t| if t < 0.25 { 0.24 - 0.36 * t } else { 0.09 + 0.2 * t });
            }
            // A small fold of its own on some tubes, rising from the lower edge.
            if i % 3 == 1 {
                let u0 = r.foot + r.half * 2.4;
                let high = 0.3 + 0.15 * quirk(i, self.salt + 8);
                let own: Vec<Point> = steps(14)
                    .map(|q| 1.0 - q * high)
                    .map(|k| self.place(shape, lerp(r.head, u0, k.powf(0.85)), k))
                    .collect();
                s.brush(&own, |t| 0.3 * (1.0 - t) + 0.03);
            }
        }
        for i in 1..self.heads {
            let u = self.head(i);
            let reach = if self.even {
                0.1 + 0.16 * (quirk(i, self.salt + 6) + 1.0) / 2.0
            } else {
                0.06 + 0.26 * (quirk(i, self.salt + 6) + 1.0) / 2.0
            };
            let line: Vec<Point> = steps(12).map(|q| q * reach).map(|k| self.place(shape, u, k)).collect();
            let facing = (1.0 - u * u).max(0.0).sqrt();
            s.brush(&line, |t| (0.1 + 0.26 * facing) * (1.0 - t) + 0.02);
        }
    }

    /// Round heads of cartridge pleats along the seam.
    pub(crate) fn tube_heads(&self, s: &mut Scene, shape: &Shape) {
        for i in 0..self.heads {
            let (a, b) = (self.head(i), self.head(i + 1));
            let (p, q) = (self.place(shape, a, 0.0), self.place(shape, b, 0.0));
            let wide = (q.x - p.x).abs();
            let high = (wide * 0.5).min(1.0);
            let arc: Vec<Point> = steps(8)
                .map(|t| {
                    p.lerp(q, t) - kurbo::Vec2::new(0.0, high * (t * std::f64::consts::PI).sin().max(0.0).sqrt() - 0.25)
                })
                .collect();
            s.fill(closed(&arc), Paint::Tint);
            s.brush(&arc, |_| 0.28);
        }
    }
}
