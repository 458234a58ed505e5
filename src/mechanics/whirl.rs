//! Whirl: the speed at which the shaft bows out by itself.

use super::material::Stiffness;
use super::tube::Tube;
use crate::quantity::{AngularVelocity, Base, Length};

/// The first bending frequency of a uniform tube pinned at both joints and not spinning, as the
/// speed of rotation that meets it.
///
/// Formula: ω = (π/L)²·√(E/ρ)·√(D² + d²)/4, that is N = 7.5π·√(E/ρ)·√(D² + d²)/L² in rpm.
/// Symbols: E Young's modulus, ρ density, D outer and d inner diameter, L joint-to-joint length.
/// Range: `None` unless L > 0. Source: Euler–Bernoulli beam, any text on vibration; the constant
/// agrees with the 4.68 to 4.80 ×10⁶ (steel, inches) of propeller-shaft makers' data.
/// Assumes thin yokes and rigid supports: yoke mass and soft supports lower it, spinning raises the
/// forward whirl a little, so an allowed fraction well below one is always taken.
pub fn first_pinned(tube: Tube, stiffness: Stiffness, length: Length) -> Option<AngularVelocity> {
    // √(E/ρ) is a speed in m/s; divided by a length it comes out in 1/s, and that number is
    // already in radians per second: no 2π belongs here.
    let speed_of_sound = (stiffness.modulus.base() / stiffness.density.base()).sqrt();
    let waves = core::f64::consts::PI / length.base();
    let omega = waves * waves * speed_of_sound * tube.bending_diameter().base() / 4.0;
    (length.base() > 0.0 && omega.is_finite()).then(|| AngularVelocity::from_base(omega))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::material::steel;
    use crate::quantity::{as_rpm, inches, millimetres};

    fn tube(diameter: Length, wall: Length) -> Tube {
        Tube::new(diameter, wall).unwrap()
    }

    #[test]
    fn closed_form_values() {
        // Derived independently from the formula with E 205 GPa, ρ 7850 kg/m³; tests/README.md names
        // the script: 7825.40, 7574.99, 7274.14 and 7551.74 rpm.
        for (tube, length, expected) in [
            (tube(inches(3.0), inches(0.083)), inches(50.0), 7825.40),
            (tube(inches(3.5), inches(0.083)), inches(55.0), 7574.99),
            (tube(inches(4.0), inches(0.095)), inches(60.0), 7274.14),
            (tube(millimetres(88.9), millimetres(2.0)), millimetres(1400.0), 7551.74),
        ] {
            let got = as_rpm(first_pinned(tube, steel(), length).unwrap());
            assert!((got - expected).abs() < 0.005, "{got} against {expected}");
        }
    }

    #[test]
    fn within_the_published_constants() {
        // Published: propeller-shaft makers' data for steel in inches, N = k·√(D²+d²)/L² with k from
        // 4.68 ×10⁶ (from memory) to 4.80 ×10⁶ (technical data).
        let got = as_rpm(first_pinned(tube(inches(3.0), inches(0.083)), steel(), inches(50.0)).unwrap());
        let k = got * 2500.0 / 3.0_f64.hypot(2.834);
        assert!((4.68e6..=4.80e6).contains(&k), "{k}");
    }

    #[test]
    fn falls_with_the_square_of_the_length() {
        // Law: N ~ 1/L².
        let t = tube(inches(3.0), inches(0.083));
        let one = as_rpm(first_pinned(t, steel(), inches(30.0)).unwrap());
        let two = as_rpm(first_pinned(t, steel(), inches(60.0)).unwrap());
        assert!((one / two - 4.0).abs() < 1e-9);
        assert!(first_pinned(t, steel(), inches(0.0)).is_none());
        assert!(first_pinned(t, steel(), inches(-5.0)).is_none());
    }
}
