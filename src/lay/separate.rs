//! Separation: what overlaps on a strip of given length is moved apart, one unit after the other, violations that
//! persist counting more and more.

use crate::lay::board::Board;
use crate::lay::relocate::{Sampling, Scratch, relocate};
use crate::lay::rng::Rng;

/// Places tried for each unit in each round.
const SAMPLING: Sampling = Sampling { wide: 12, near: 6, kept: 4 };
/// Rounds without progress before the best arrangement is taken up again, with weights as they are by then; where there
/// was no progress at all that is the end.
const PATIENCE: usize = 60;
/// By what the weight of a violated pair is multiplied: by the least for the shallowest, the most for the deepest.
const LEAST: f64 = 1.1;
const MOST: f64 = 1.5;
/// What is left of the weight of other pairs.
const DECAY: f64 = 0.95;
/// Less of the overlap than this is progress.
const PROGRESS: f64 = 0.98;

/// Separates, with room for candidates that is kept from one separation to the next.
#[derive(Debug)]
pub(crate) struct Separator {
    scratch: Scratch,
    order: Vec<usize>,
    /// Total depth that counts as nothing, mm.
    tolerance: f64,
}

impl Separator {
    pub fn new(tolerance: f64) -> Self {
        Self { scratch: Scratch::default(), order: Vec::new(), tolerance }
    }

    /// Guided local search until nothing overlaps (true), or no progress, or the board has spent `until`;
    /// leaves the best arrangement on the board.
    pub fn separate(&mut self, board: &mut Board, rng: &mut Rng, until: u64) -> bool {
        board.reset_weights();
        let mut least = board.total();
        let mut kept = board.spots.clone();
        loop {
            let before = least;
            let mut idle = 0;
            while idle < PATIENCE {
                self.round(board, rng);
                let total = board.total();
                if total <= self.tolerance {
                    return true;
                }
                idle += 1;
                if total < least {
                    if total < PROGRESS * least {
                        idle = 0;
                    }
                    least = total;
                    kept.clone_from(&board.spots);
                }
                if board.spent >= until {
                    board.set_spots(&kept);
                    return false;
                }
                board.reweigh(LEAST, MOST, DECAY);
            }
            board.set_spots(&kept);
            if least >= PROGRESS * before {
                return false;
            }
        }
    }

    /// Every unit that overlaps is moved once, in random order.
    fn round(&mut self, board: &mut Board, rng: &mut Rng) {
        let nothing = self.tolerance / board.units() as f64;
        board.crowded(nothing, &mut self.order);
        rng.shuffle(&mut self.order);
        for &unit in &self.order {
            if board.depth_of(unit) > nothing {
                relocate(board, unit, &SAMPLING, rng, &mut self.scratch);
            }
        }
    }
}
