//! Dimensionless linear algebra, kept to itself: least squares by orthogonal columns.
//!
//! A few dozen rows and at most a dozen columns are all this house ever solves; a general library
//! would cost some 25 kB of the page for it. Gram–Schmidt is done twice over each column ("twice is
//! enough", Kahan and Parlett), which holds orthogonality to the last bits where once would not.

/// The answer to a least-squares problem.
#[derive(Clone, Debug)]
pub(super) struct Solution {
    /// One coefficient a column.
    pub coefficients: Vec<f64>,
    /// What each row is left with.
    pub residuals: Vec<f64>,
    /// Covariance of the coefficients for readings of unit variance, row by row.
    pub covariance: Vec<Vec<f64>>,
    /// The columns made orthonormal, one vector a column: H = Σ q·qᵀ lays a target onto the fit.
    pub basis: Vec<Vec<f64>>,
}

impl Solution {
    /// The least sum of squares.
    pub fn squares(&self) -> f64 {
        dot(&self.residuals, &self.residuals)
    }
}

/// The columns do not tell the coefficients apart: too few rows, or rows that repeat each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct NotTellable;

/// How much of a column must be left after taking out the columns before it. Below this share the
/// coefficient would be made of rounding.
const LEAST_SHARE: f64 = 1e-8;

/// Finds the coefficients that leave the least sum of squares.
///
/// # Errors
/// [`NotTellable`] where the columns depend on each other.
pub(super) fn solve(columns: &[Vec<f64>], target: &[f64]) -> Result<Solution, NotTellable> {
    let mut basis: Vec<Vec<f64>> = Vec::new();
    // For each column what it holds of the basis vectors before it, and its own length.
    let mut shares: Vec<(Vec<f64>, f64)> = Vec::new();
    for column in columns {
        let mut left = column.clone();
        let mut share = vec![0.0; basis.len()];
        for _ in 0..2 {
            for (unit, total) in basis.iter().zip(share.iter_mut()) {
                *total += take_out(&mut left, unit);
            }
        }
        let (size, whole) = (dot(&left, &left).sqrt(), dot(column, column).sqrt());
        if !(size > LEAST_SHARE * whole && size.is_finite()) {
            return Err(NotTellable);
        }
        left.iter_mut().for_each(|value| *value /= size);
        basis.push(left);
        shares.push((share, size));
    }
    let mut residuals = target.to_vec();
    let projected: Vec<f64> = basis.iter().map(|unit| take_out(&mut residuals, unit)).collect();
    let coefficients = back_substitute(&shares, projected);
    let covariance = covariance(&shares);
    Ok(Solution { coefficients, residuals, covariance, basis })
}

/// The sum of products, as far as both lists go.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Takes the part along `unit` out of `vector` and returns how much that was.
fn take_out(vector: &mut [f64], unit: &[f64]) -> f64 {
    let along = dot(vector, unit);
    vector.iter_mut().zip(unit).for_each(|(value, u)| *value -= along * u);
    along
}

/// Solves the upper triangle given by its columns, last unknown first.
fn back_substitute(shares: &[(Vec<f64>, f64)], mut right: Vec<f64>) -> Vec<f64> {
    let mut found = Vec::with_capacity(right.len());
    for (share, size) in shares.iter().rev() {
        let value = right.pop().unwrap_or(0.0) / size;
        right.iter_mut().zip(share).for_each(|(r, s)| *r -= s * value);
        found.push(value);
    }
    found.reverse();
    found
}

/// (RᵀR)⁻¹ from the triangle R: the sum over the columns w of R⁻¹ of w·wᵀ.
fn covariance(shares: &[(Vec<f64>, f64)]) -> Vec<Vec<f64>> {
    let count = shares.len();
    let mut sum = vec![vec![0.0; count]; count];
    for place in 0..count {
        let unit = (0..count).map(|i| if i == place { 1.0 } else { 0.0 }).collect();
        let column = back_substitute(shares, unit);
        for (row, a) in sum.iter_mut().zip(&column) {
            row.iter_mut().zip(&column).for_each(|(cell, b)| *cell += a * b);
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn straight_line_by_hand() {
        // Derived by hand: y = 1, 3, 4 at x = 0, 1, 2: slope 3/2, start 7/6, residuals −1/6, 1/3, −1/6;
        // (XᵀX)⁻¹ = [[5/6, −1/2], [−1/2, 1/2]].
        let columns = [vec![1.0, 1.0, 1.0], vec![0.0, 1.0, 2.0]];
        let got = solve(&columns, &[1.0, 3.0, 4.0]).unwrap();
        for (value, expected) in got.coefficients.iter().zip([7.0 / 6.0, 1.5]) {
            assert!((value - expected).abs() < 1e-12);
        }
        for (value, expected) in got.residuals.iter().zip([-1.0 / 6.0, 1.0 / 3.0, -1.0 / 6.0]) {
            assert!((value - expected).abs() < 1e-12);
        }
        let flat: Vec<f64> = got.covariance.concat();
        for (value, expected) in flat.iter().zip([5.0 / 6.0, -0.5, -0.5, 0.5]) {
            assert!((value - expected).abs() < 1e-12);
        }
    }

    #[test]
    fn dependent_columns_are_refused() {
        let same = [vec![1.0, 2.0, 3.0], vec![2.0, 4.0, 6.0]];
        assert_eq!(solve(&same, &[1.0, 1.0, 1.0]).unwrap_err(), NotTellable);
        let too_few = [vec![1.0], vec![2.0]];
        assert_eq!(solve(&too_few, &[1.0]).unwrap_err(), NotTellable);
    }
}
