//! A fillet weld round a tube or yoke.

use core::f64::consts::PI;

use crate::quantity::{Base, Length, Pressure, Torque};

/// Throat of a fillet weld of equal legs, as a share of its leg: 0.707, the three digits of sin 45° that the
/// tables of welds are worked with (Shigley, Mechanical Engineering Design, Table 9-1).
pub const THROAT_SHARE: f64 = 0.707;

/// Share of the electrode's tensile strength that its throat may bear in shear, standing still: 0.30
/// (Shigley, Mechanical Engineering Design, Table 9-6, from memory).
pub const ALLOWED_SHARE: f64 = 0.30;

/// What a fillet weld's throat may bear in shear.
///
/// Formula: τ = 0.30·S_ut. Symbols: S_ut tensile strength of the weld metal.
/// Range: `None` unless S_ut > 0 and finite. Source: [`ALLOWED_SHARE`]. For a load that stands still: one that
/// comes and goes bears less.
pub fn allowable(tensile: Pressure) -> Option<Pressure> {
    positive(tensile.base() * ALLOWED_SHARE).map(Pressure::from_base)
}

/// The throat of a fillet weld of equal legs: the least way through it.
///
/// Formula: a = 0.707·h. Symbols: h leg. Range: `None` unless h > 0 and finite. Source: [`THROAT_SHARE`].
/// Assumes a flat face: what bulges does not count.
pub fn throat(leg: Length) -> Option<Length> {
    positive(leg.base() * THROAT_SHARE).map(Length::from_base)
}

/// The shear stress in the throat of a fillet weld all round, under a torque.
///
/// Formula: τ = T·r/J, J = 0.707·h·J_u, J_u = 2πr³; that is τ = T/(1.414·π·h·r²).
/// Symbols: T torque, h leg, r radius of the joint; J_u polar second moment of a thin ring a unit wide.
/// Range: `None` unless h > 0, 0.707·h < r and T finite; signed as T is. Source: Shigley, Mechanical
/// Engineering Design, Table 9-1. Assumes a weld that is whole, thin against the radius, with the throat
/// taken at the radius: a real fillet's lies a little further out, which is on the safe side.
pub fn fillet_shear(torque: Torque, leg: Length, radius: Length) -> Option<Pressure> {
    let (throat, r) = (throat(leg)?.base(), radius.base());
    let stress = torque.base() / (throat * unit_moment(r) / r);
    (throat < r && r.is_finite() && stress.is_finite()).then(|| Pressure::from_base(stress))
}

/// The leg that a fillet weld all round needs to carry a torque: [`fillet_shear`] the other way round.
///
/// Formula: h = |T|/(1.414·π·r²·τ).
/// Symbols: T torque, either way; r radius of the joint; τ stress that the throat may bear.
/// Range: `None` unless T ≠ 0, r > 0 and τ > 0, all finite, and where the throat would reach the radius.
/// Source and assumptions as there. A leg over the wall of the tube cannot be welded to it: compare.
pub fn leg_needed(torque: Torque, radius: Length, allowable: Pressure) -> Option<Length> {
    let (r, bears) = (radius.base(), allowable.base());
    let leg = torque.base().abs() / (THROAT_SHARE * unit_moment(r) / r * bears);
    let in_range = r > 0.0 && bears > 0.0 && bears.is_finite() && THROAT_SHARE * leg < r;
    positive(leg).filter(|_| in_range).map(Length::from_base)
}

/// J_u = 2πr³ of a ring a unit wide, in m³.
fn unit_moment(radius: f64) -> f64 {
    2.0 * PI * radius.powi(3)
}

/// A number above zero.
fn positive(number: f64) -> Option<f64> {
    (number > 0.0 && number.is_finite()).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::luck::luck;
    use crate::quantity::{as_ksi, in_inches, inches, ksi, pound_feet};

    #[test]
    fn a_weld_round_a_tube() {
        // Published: Shigley, Mechanical Engineering Design, Table 9-1 and Problem 9-8: J_u of 4 cm
        // radius is 402.12 cm³.
        assert!((unit_moment(4.0) - 402.12).abs() < 0.005);
        // Derived dab by dab (tests/handbook/strength.py): 2000 lbf·ft on a leg of 3/16 in round 3 in,
        // 12 806.43 psi in a throat of 0.132 562 5 in.
        let (torque, leg, r) = (pound_feet(2000.0), inches(0.1875), inches(1.5));
        assert!((as_ksi(fillet_shear(torque, leg, r).unwrap()) - 12.806_43).abs() < 5e-6);
        assert!((in_inches(throat(leg).unwrap()) - 0.132_562_5).abs() < 1e-9);
        // From memory: Shigley, Table 9-6: E70 may bear 21.0 ksi on the throat.
        assert!((as_ksi(allowable(ksi(70.0)).unwrap()) - 21.0).abs() < 1e-9);
    }

    #[test]
    fn welds_keep_their_laws() {
        // Laws, over seeded luck: the leg that is needed bears just what it may; twice the leg bears twice
        // the torque; twice the size eight times; the direction only turns the sign.
        let mut next = luck(5);
        for _ in 0..200 {
            let (t, r, bears) = (next(1.0, 3000.0), next(1.0, 3.0), next(15.0, 30.0));
            let h = leg_needed(pound_feet(t), inches(r), ksi(bears)).unwrap();
            let stress = fillet_shear(pound_feet(t), h, inches(r)).unwrap();
            assert!((as_ksi(stress) / bears - 1.0).abs() < 1e-9);
            let back = fillet_shear(pound_feet(-2.0 * t), h * 2.0, inches(r));
            let eight = fillet_shear(pound_feet(8.0 * t), h * 2.0, inches(2.0 * r)).unwrap();
            assert!((eight.base() / stress.base() - 1.0).abs() < 1e-9);
            if let Some(back) = back {
                assert!((back.base() / stress.base() + 1.0).abs() < 1e-9);
            }
            let other = leg_needed(pound_feet(-t), inches(r), ksi(bears)).unwrap();
            assert!((other.base() / h.base() - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn nothing_from_a_bad_weld() {
        for (t, h, r) in [
            (f64::NAN, 0.2, 1.5),
            (f64::INFINITY, 0.2, 1.5),
            (2000.0, 0.0, 1.5),
            (2000.0, -0.2, 1.5),
            (2000.0, f64::NAN, 1.5),
            (2000.0, f64::INFINITY, 1.5),
            (2000.0, 0.2, 0.0),
            (2000.0, 0.2, -1.5),
            (2000.0, 0.2, f64::NAN),
            (2000.0, 0.2, f64::INFINITY),
            (2000.0, 2.5, 1.5),
        ] {
            assert!(fillet_shear(pound_feet(t), inches(h), inches(r)).is_none(), "{t} {h} {r}");
        }
        for (t, r, bears) in [
            (0.0, 1.5, 21.0),
            (f64::NAN, 1.5, 21.0),
            (f64::INFINITY, 1.5, 21.0),
            (2000.0, 0.0, 21.0),
            (2000.0, -1.5, 21.0),
            (2000.0, f64::NAN, 21.0),
            (2000.0, f64::INFINITY, 21.0),
            (2000.0, 1.5, 0.0),
            (2000.0, 1.5, -21.0),
            (2000.0, 1.5, f64::NAN),
            (2000.0, 1.5, f64::INFINITY),
            (1e9, 1.5, 21.0),
        ] {
            assert!(leg_needed(pound_feet(t), inches(r), ksi(bears)).is_none(), "{t} {r} {bears}");
        }
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(throat(inches(bad)).is_none() && allowable(ksi(bad)).is_none());
        }
    }
}
