//! Least squares of the layers' shares of a pitch.

/// A fit of `pitch = Σ thicknesses × share` over several swatches.
///
/// The normal equations are solved through their eigenvectors (Jacobi's method; Golub and Van Loan, *Matrix
/// Computations*, section 8.5), so that stackings which the swatches cannot tell apart are found and named
/// rather than solved by chance.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fit {
    /// The share of each layer: one thickness of it in the pitch.
    pub(super) shares: Vec<f64>,
    /// How many independent stackings the swatches hold.
    pub(super) rank: usize,
    /// The sum of the squares of what is left over.
    pub(super) left: f64,
    pairs: Vec<(f64, Vec<f64>)>,
}

/// An eigenvalue smaller than this share of the largest is nothing.
const NOTHING: f64 = 1e-9;

impl Fit {
    /// Fits `pitches` to the rows of thicknesses.
    pub(super) fn of(rows: &[Vec<f64>], pitches: &[f64]) -> Fit {
        let layers = rows.first().map_or(0, Vec::len);
        let mut normal = vec![vec![0.0; layers]; layers];
        let mut right = vec![0.0; layers];
        for (row, pitch) in rows.iter().zip(pitches) {
            for ((entry, line), target) in row.iter().zip(&mut normal).zip(&mut right) {
                *target += entry * pitch;
                for (other, cell) in row.iter().zip(line) {
                    *cell += entry * other;
                }
            }
        }
        let mut pairs = eigen(normal);
        let largest = pairs.iter().map(|(value, _)| *value).fold(0.0, f64::max);
        pairs.retain(|(value, _)| *value > NOTHING * largest && largest > 0.0);
        let mut shares = vec![0.0; layers];
        for (value, vector) in &pairs {
            let along = dot(vector, &right) / value;
            for (share, entry) in shares.iter_mut().zip(vector) {
                *share += along * entry;
            }
        }
        let left = rows.iter().zip(pitches).map(|(row, pitch)| (pitch - dot(row, &shares)).powi(2)).sum();
        Fit { shares, rank: pairs.len(), left, pairs }
    }

    /// The pitch of a stacking by the fit.
    pub(super) fn pitch(&self, stacking: &[f64]) -> f64 {
        dot(stacking, &self.shares)
    }

    /// Whether the swatches say anything certain about a stacking: it is made up of theirs.
    pub(super) fn tells(&self, stacking: &[f64]) -> bool {
        let mut rest = stacking.to_vec();
        for (_, vector) in &self.pairs {
            let along = dot(vector, stacking);
            for (entry, other) in rest.iter_mut().zip(vector) {
                *entry -= along * other;
            }
        }
        dot(&rest, &rest).sqrt() < 1e-6 * dot(stacking, stacking).sqrt().max(1.0)
    }

    /// How far a stacking lies from the swatches (its leverage): the variance of its pitch by the fit over the
    /// variance of one measurement.
    pub(super) fn leverage(&self, stacking: &[f64]) -> f64 {
        self.pairs.iter().map(|(value, vector)| dot(vector, stacking).powi(2) / value).sum()
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// The eigenvalues and unit eigenvectors of a symmetric matrix.
#[allow(clippy::needless_range_loop)]
fn eigen(mut matrix: Vec<Vec<f64>>) -> Vec<(f64, Vec<f64>)> {
    let size = matrix.len();
    let mut vectors: Vec<Vec<f64>> =
        (0..size).map(|row| (0..size).map(|column| f64::from(u8::from(row == column))).collect()).collect();
    // Converges in a handful of sweeps for the few layers of a stacking; the bound only ends it for certain.
    for _ in 0..100 {
        for p in 0..size {
            for q in p + 1..size {
                if matrix[p][q].abs() < f64::MIN_POSITIVE {
                    continue;
                }
                let theta = (matrix[q][q] - matrix[p][p]) / (2.0 * matrix[p][q]);
                let t = theta.signum() / (theta.abs() + theta.hypot(1.0));
                let c = 1.0 / t.hypot(1.0);
                let s = t * c;
                for k in 0..size {
                    let (a, b) = (matrix[k][p], matrix[k][q]);
                    matrix[k][p] = c * a - s * b;
                    matrix[k][q] = s * a + c * b;
                }
                for k in 0..size {
                    let (a, b) = (matrix[p][k], matrix[q][k]);
                    matrix[p][k] = c * a - s * b;
                    matrix[q][k] = s * a + c * b;
                }
                for row in &mut vectors {
                    let (a, b) = (row[p], row[q]);
                    row[p] = c * a - s * b;
                    row[q] = s * a + c * b;
                }
            }
        }
    }
    (0..size).map(|at| (matrix[at][at], vectors.iter().map(|row| row[at]).collect())).collect()
}

#[cfg(test)]
mod tests {
    use super::Fit;

    /// Closed form for one unknown: Σ x y / Σ x².
    #[test]
    fn one_layer() {
        let fit = Fit::of(&[vec![1.0], vec![2.0], vec![4.0]], &[1.0, 2.2, 3.9]);
        assert!((fit.shares[0] - (1.0 + 4.4 + 15.6) / 21.0).abs() < 1e-12);
        assert!((fit.leverage(&[2.0]) - 4.0 / 21.0).abs() < 1e-12);
    }

    /// Closed form for two unknowns by Cramer's rule on the normal equations.
    #[test]
    fn two_layers() {
        let rows = [vec![2.0, 1.0], vec![1.0, 1.0], vec![2.0, 2.0], vec![1.0, 2.0]];
        let pitches = [5.1, 2.9, 6.2, 4.1];
        let fit = Fit::of(&rows, &pitches);
        let sum = |f: &dyn Fn(&[f64], f64) -> f64| rows.iter().zip(&pitches).map(|(r, p)| f(r, *p)).sum::<f64>();
        let (aa, ab, bb) = (sum(&|r, _| r[0] * r[0]), sum(&|r, _| r[0] * r[1]), sum(&|r, _| r[1] * r[1]));
        let (ay, by) = (sum(&|r, p| r[0] * p), sum(&|r, p| r[1] * p));
        let det = aa * bb - ab * ab;
        assert!((fit.shares[0] - (ay * bb - by * ab) / det).abs() < 1e-10);
        assert!((fit.shares[1] - (aa * by - ab * ay) / det).abs() < 1e-10);
        assert_eq!(fit.rank, 2);
    }

    #[test]
    fn what_cannot_be_told_apart() {
        let fit = Fit::of(&[vec![2.0, 2.0], vec![1.0, 1.0]], &[4.0, 2.0]);
        assert_eq!(fit.rank, 1);
        assert!(fit.tells(&[3.0, 3.0]) && !fit.tells(&[1.0, 0.0]));
        assert!((fit.pitch(&[3.0, 3.0]) - 6.0).abs() < 1e-10);
    }
}
