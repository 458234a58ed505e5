//! Complex numbers, as much of them as vectors on the clock need: up is real, right is imaginary, so that
//! to multiply by e^(iθ) is to turn clockwise by θ.

use core::ops::{Add, Mul, Sub};

use super::super::across::Across;
use super::Vibration;
use crate::quantity::{Base, Unbalance};

/// A complex number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Complex {
    pub re: f64,
    pub im: f64,
}

/// Nothing.
pub(super) const ZERO: Complex = Complex { re: 0.0, im: 0.0 };
/// One.
pub(super) const ONE: Complex = Complex { re: 1.0, im: 0.0 };

impl Complex {
    /// Of this size toward this angle in radians.
    pub fn polar(size: f64, angle: f64) -> Self {
        let (sin, cos) = angle.sin_cos();
        Complex { re: size * cos, im: size * sin }
    }

    /// A vibration in units of `unit`.
    pub fn of_vibration(vibration: Vibration, unit: f64) -> Self {
        Self::polar(vibration.amplitude / unit, vibration.phase.base())
    }

    /// A weight in units of `unit`.
    pub fn of_weight(weight: Across<Unbalance>, unit: f64) -> Self {
        Complex { re: weight.up.base() / unit, im: weight.right.base() / unit }
    }

    /// The weight again.
    pub fn as_weight(self, unit: f64) -> Across<Unbalance> {
        Across { up: Unbalance::from_base(self.re * unit), right: Unbalance::from_base(self.im * unit) }
    }

    /// Mirrored at the real axis.
    pub fn conj(self) -> Self {
        Complex { re: self.re, im: -self.im }
    }

    /// Times a plain number.
    pub fn scaled(self, by: f64) -> Self {
        Complex { re: self.re * by, im: self.im * by }
    }

    /// Its size squared.
    pub fn square(self) -> f64 {
        self.re * self.re + self.im * self.im
    }

    /// Its size.
    pub fn size(self) -> f64 {
        self.square().sqrt()
    }

    /// Divided by another; not finite where that is nothing.
    pub fn over(self, other: Self) -> Self {
        (self * other.conj()).scaled(1.0 / other.square())
    }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Complex { re: self.re + other.re, im: self.im + other.im }
    }
}

impl Sub for Complex {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Complex { re: self.re - other.re, im: self.im - other.im }
    }
}

impl Mul for Complex {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Complex {
            re: self.re * other.re - self.im * other.im,
            im: self.re * other.im + self.im * other.re,
        }
    }
}
