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

/// Up to which share of the first whirl speed a shaft may be taken for rigid, its unbalance for the same
/// at every speed. Source: ISO 21940-12 (from memory).
pub const RIGID_SHARE: f64 = 0.70;

/// How many times larger a bow, and what it puts out of balance, is at speed than standing still.
///
/// Formula: 1/(1 − (n/N)²). Symbols: n speed, N first whirl speed.
/// Range: `None` unless 0 ≤ n < N. Source: a beam that is bent in the shape of its first mode, any text on
/// vibration. Assumes no damping, and the bow in that shape, as a half sine is and a parabola nearly.
pub fn growth(speed: AngularVelocity, whirl: AngularVelocity) -> Option<f64> {
    let share = speed.base() / whirl.base();
    let times = 1.0 / ((1.0 - share) * (1.0 + share));
    let below = speed.base() >= 0.0 && whirl.base() > 0.0 && share < 1.0;
    (below && times.is_finite()).then_some(times)
}

/// Whether a shaft may be taken for rigid at a speed: n ≤ 0.70·N, as [`RIGID_SHARE`] says.
///
/// Symbols: n speed, N first whirl speed. Range: `None` unless n ≥ 0 and N > 0, finite.
pub fn is_rigid(speed: AngularVelocity, whirl: AngularVelocity) -> Option<bool> {
    let share = speed.base() / whirl.base();
    (speed.base() >= 0.0 && whirl.base() > 0.0 && share.is_finite()).then_some(share <= RIGID_SHARE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::material::steel;
    use crate::quantity::{as_rpm, inches, millimetres, rpm};

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

    #[test]
    fn grows_near_the_whirl_speed() {
        // By hand from 1/(1 − (n/N)²): 1.0 standing still, 1.3333 at half, 1/0.51 = 1.9608 at 0.7,
        // 5.2632 at 0.9; nothing is said at the whirl speed or past it.
        let ask = |n: f64, whirl: f64| growth(rpm(n), rpm(whirl));
        for (n, expected) in [(0.0, 1.0), (3500.0, 1.3333), (4900.0, 1.9608), (6300.0, 5.2632)] {
            assert!((ask(n, 7000.0).unwrap() - expected).abs() < 5e-5, "{n}");
        }
        for (n, whirl) in [
            (7000.0, 7000.0),
            (7001.0, 7000.0),
            (-1.0, 7000.0),
            (0.0, 0.0),
            (1.0, -5.0),
            (0.0, -5.0),
            (f64::NAN, 7000.0),
            (1.0, f64::NAN),
        ] {
            assert!(ask(n, whirl).is_none(), "{n} {whirl}");
        }
        // Law: what may be taken for rigid grows by less than twice.
        assert!(growth(rpm(RIGID_SHARE), rpm(1.0)).unwrap() < 2.0);
    }

    #[test]
    fn rigid_up_to_seven_tenths() {
        // By the definition of the limit.
        let ask = |n: f64| is_rigid(rpm(n), rpm(7000.0));
        assert_eq!(ask(4899.0), Some(true));
        assert_eq!(ask(4901.0), Some(false));
        assert_eq!(ask(9000.0), Some(false));
        assert!(ask(-1.0).is_none() && ask(f64::NAN).is_none());
        assert!(is_rigid(rpm(1.0), rpm(0.0)).is_none() && is_rigid(rpm(1.0), rpm(-7000.0)).is_none());
    }
}
