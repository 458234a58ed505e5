//! Ellipse: how well a vector across the tube is known in each direction.

use super::across::Across;
use crate::quantity::{Angle, Base};

/// A region round a vector across the tube, by its half axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ellipse<Q> {
    /// Half of the long axis.
    pub long: Q,
    /// Half of the short axis.
    pub short: Q,
    /// Clock angle of the long axis, 0° to 180°; it points the other way as well.
    pub at: Angle,
}

impl<Q: Base> Ellipse<Q> {
    /// The region of a covariance, stretched.
    ///
    /// Formula: half axes λ·√e of the matrix's eigenvalues e, the long one at ½·atan2(2·ur, uu − rr).
    /// Symbols: the covariance up·up (uu), up·right (ur), right·right (rr), for readings of unit
    /// variance; λ the stretch, a quantity not below 0.
    /// Range: `None` where the matrix tells no ellipse: its determinant not above 0, or a number that
    /// is none. Source: geometry of a symmetric matrix of two rows.
    pub(super) fn of(covariance: [f64; 3], stretch: Q) -> Option<Self> {
        let [uu, ur, rr] = covariance;
        let greater = 0.5 * (uu + rr) + (0.25 * (uu - rr).powi(2) + ur * ur).sqrt();
        // By the product of both, since their difference would lose the smaller one's digits.
        let lesser = (uu * rr - ur * ur) / greater;
        let half = |eigenvalue: f64| stretch.base() * eigenvalue.sqrt();
        let fine = lesser > 0.0 && half(greater).is_finite() && stretch.base() >= 0.0;
        let twice = (2.0 * ur).atan2(uu - rr);
        fine.then(|| Ellipse {
            long: Q::from_base(half(greater)),
            short: Q::from_base(half(lesser)),
            at: Angle::from_base(0.5 * if twice < 0.0 { twice + core::f64::consts::TAU } else { twice }),
        })
    }

    /// Whether the ellipse holds a vector that begins at its middle; one on its rim counts as held.
    pub fn holds(&self, vector: Across<Q>) -> bool {
        let turned = vector.turned(-self.at);
        let (along, across) = (turned.up.base(), turned.right.base());
        let (long, short) = (self.long.base(), self.short.base());
        // Asked without dividing, since an ellipse of no width is one too, and holds a line or a point.
        along.abs() <= long
            && across.abs() <= short
            && (along * short).powi(2) + (across * long).powi(2) <= (long * short).powi(2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_degrees, as_millimetres, degrees, millimetres};

    /// The covariance of an ellipse with these half axes, the long one at this clock angle.
    fn covariance(long: f64, short: f64, at: f64) -> [f64; 3] {
        let (sin, cos) = at.to_radians().sin_cos();
        let (l, s) = (long * long, short * short);
        [l * cos * cos + s * sin * sin, (l - s) * sin * cos, l * sin * sin + s * cos * cos]
    }

    #[test]
    fn axes_come_back() {
        // By construction: half axes of 3 and 1, stretched twice, the long one at any place.
        for at in [0.0, 10.0, 45.0, 90.0, 100.0, 135.0, 179.0] {
            let got = Ellipse::of(covariance(3.0, 1.0, at), millimetres(2.0)).unwrap();
            assert!((as_millimetres(got.long) - 6.0).abs() < 1e-12, "{at}");
            assert!((as_millimetres(got.short) - 2.0).abs() < 1e-12, "{at}");
            assert!((as_degrees(got.at) - at).abs() < 1e-9, "{at}");
            // Held are what lies within 6 along it and within 2 square to it, at both ends.
            for (size, turn, held) in
                [(5.99, 0.0, true), (6.01, 180.0, false), (1.99, 90.0, true), (2.01, 270.0, false)]
            {
                let vector = Across::toward(millimetres(size), degrees(at + turn));
                assert_eq!(got.holds(vector), held, "{at} {size} {turn}");
            }
            // By hand: half-way along, √(1 − ¼)·2 = 1.732 to the side.
            for (side, held) in [(1.732, true), (1.733, false)] {
                let vector =
                    Across { up: millimetres(3.0), right: millimetres(side) }.turned(degrees(at));
                assert_eq!(got.holds(vector), held, "{at} {side}");
            }
        }
    }

    #[test]
    fn what_is_no_ellipse() {
        for matrix in [[1.0, 1.0, 1.0], [1.0, 2.0, 1.0], [0.0; 3], [f64::NAN, 0.0, 1.0]] {
            assert!(Ellipse::of(matrix, millimetres(1.0)).is_none(), "{matrix:?}");
        }
        for stretch in [-1.0, f64::NAN, f64::INFINITY] {
            assert!(Ellipse::of([1.0, 0.0, 1.0], millimetres(stretch)).is_none(), "{stretch}");
        }
        // No doubt at all: it holds its middle and nothing else.
        let point = Ellipse::of([1.0, 0.0, 2.0], millimetres(0.0)).unwrap();
        assert!(point.holds(Across::zero()));
        let off = Across { up: millimetres(1e-6), right: millimetres(0.0) };
        assert!(!point.holds(off) && !point.holds(off.turned(degrees(90.0))));
    }

    #[test]
    fn no_number_is_not_held() {
        let got = Ellipse::of([1.0, 0.0, 2.0], millimetres(1.0)).unwrap();
        for bad in [f64::NAN, f64::INFINITY] {
            assert!(!got.holds(Across { up: millimetres(bad), right: millimetres(0.0) }));
        }
    }
}
