//! A vector across the tube, in the plane of the clock face.

use core::ops::{Add, Neg, Sub};

use crate::quantity::{Angle, Base, clockwise_angle};

/// A vector across the tube: `up` points to the witness mark at 12, `right` to 3 o'clock, seen from
/// the rear looking forward. Holds an offset, an unbalance or any other directed quantity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Across<Q> {
    /// The part toward 12.
    pub up: Q,
    /// The part toward 3.
    pub right: Q,
}

impl<Q: Base> Across<Q> {
    /// The vector of no size.
    pub fn zero() -> Self {
        Across { up: Q::from_base(0.0), right: Q::from_base(0.0) }
    }

    /// A vector of this size toward this place on the clock: size·(cos θ, sin θ), θ clockwise from 12.
    pub fn toward(size: Q, at: Angle) -> Self {
        let theta = at.base();
        Across {
            up: Q::from_base(size.base() * theta.cos()),
            right: Q::from_base(size.base() * theta.sin()),
        }
    }

    /// Its size, never negative.
    pub fn size(self) -> Q {
        Q::from_base(self.up.base().hypot(self.right.base()))
    }

    /// The place on the clock it points to, from 0° up to 360°; 0° for the vector of no size.
    pub fn at(self) -> Angle {
        clockwise_angle(Angle::from_base(self.right.base().atan2(self.up.base())))
    }

    /// The vector times a plain number.
    pub fn scaled(self, by: f64) -> Self {
        Across { up: Q::from_base(self.up.base() * by), right: Q::from_base(self.right.base() * by) }
    }

    /// The vector turned clockwise by an angle.
    pub fn turned(self, by: Angle) -> Self {
        let (sin, cos) = by.base().sin_cos();
        let (up, right) = (self.up.base(), self.right.base());
        Across { up: Q::from_base(up * cos - right * sin), right: Q::from_base(up * sin + right * cos) }
    }
}

impl<Q: Add<Output = Q>> Add for Across<Q> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Across { up: self.up + other.up, right: self.right + other.right }
    }
}

impl<Q: Sub<Output = Q>> Sub for Across<Q> {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Across { up: self.up - other.up, right: self.right - other.right }
    }
}

impl<Q: Neg<Output = Q>> Neg for Across<Q> {
    type Output = Self;
    fn neg(self) -> Self {
        Across { up: -self.up, right: -self.right }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, as_degrees, as_millimetres, degrees, millimetres};

    #[test]
    fn clock_and_back() {
        // Round trip at every ten degrees, no outside value.
        for tens in 0..36 {
            let at = f64::from(tens) * 10.0;
            let vector = Across::<Length>::toward(millimetres(2.5), degrees(at));
            assert!((as_millimetres(vector.size()) - 2.5).abs() < 1e-12);
            assert!((as_degrees(vector.at()) - at).abs() < 1e-9, "{at}");
        }
        assert!(as_degrees(Across::<Length>::zero().at()).abs() < 1e-12);
    }

    #[test]
    fn three_o_clock_is_right() {
        // The convention itself: clockwise from 12, so 90° is all right and no up.
        let vector = Across::toward(millimetres(1.0), degrees(90.0));
        assert!(as_millimetres(vector.up).abs() < 1e-12);
        assert!((as_millimetres(vector.right) - 1.0).abs() < 1e-12);
        let turned = Across::toward(millimetres(1.0), degrees(20.0)).turned(degrees(70.0));
        assert!((as_degrees(turned.at()) - 90.0).abs() < 1e-9);
    }
}
