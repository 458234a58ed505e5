//! Torsion: what a torque does to a round tube.

use core::f64::consts::PI;

use super::tube::Tube;
use crate::quantity::{Angle, Base, Length, Pressure, Torque};

/// The polar second moment of the section, J = π(D⁴ − d⁴)/32, in m⁴. Source: geometry.
fn polar(tube: Tube) -> f64 {
    let (outer, inner) = (tube.outer().base(), tube.inner().base());
    PI * (outer.powi(4) - inner.powi(4)) / 32.0
}

/// The shear stress at the tube's outside, where it is largest.
///
/// Formula: τ = T·D/(2J), J = π(D⁴ − d⁴)/32.
/// Symbols: T torque, its sign that of the stress; D outer, d inner diameter; τ stress.
/// Range: any finite torque, up to yield; `None` for one that is none. Source: Coulomb's torsion of a round
/// bar, any text on strength, such as Shigley, Mechanical Engineering Design (3-37, from memory).
/// Assumes a torque that stands still and a place away from weld, groove and hole: what those raise is not
/// in it.
pub fn shear(tube: Tube, torque: Torque) -> Option<Pressure> {
    finite(torque.base() * tube.outer().base() / (2.0 * polar(tube))).map(Pressure::from_base)
}

/// The torque that brings the tube's outside to a shear stress: [`shear`] the other way round.
///
/// Formula: T = 2J·τ/D. Symbols, source and assumptions as there.
/// Range: any finite stress; `None` for one that is none.
pub fn torque_at(tube: Tube, shear: Pressure) -> Option<Torque> {
    finite(2.0 * polar(tube) * shear.base() / tube.outer().base()).map(Torque::from_base)
}

/// How far one end of the tube turns against the other under a torque.
///
/// Formula: φ = T·L/(J·G).
/// Symbols: T torque, L length of tube, J polar second moment, G shear modulus; φ angle, signed as T is.
/// Range: `None` unless L ≥ 0 and G > 0, all finite. Source: Coulomb's torsion of a round bar, any text on
/// strength. Assumes less stress than yield; the yokes' and the slip's own twist is not in it.
pub fn twist(tube: Tube, torque: Torque, length: Length, shear_modulus: Pressure) -> Option<Angle> {
    let in_range = length.base() >= 0.0 && shear_modulus.base() > 0.0;
    let turned = torque.base() * length.base() / (polar(tube) * shear_modulus.base());
    finite(turned).filter(|_| in_range && shear_modulus.base().is_finite()).map(Angle::from_base)
}

/// How many walls the mean radius must hold for a tube to be called thin. Our own choice: shell theory is
/// commonly used from ten on, and there the buckling stress, near 0.008·E, is long past any yield.
pub const THIN: f64 = 10.0;

/// The share of [`buckling`] that tests of thin tubes reach at least: γ^¾ = 0.67 (NASA SP-8007, torsion of
/// moderately long cylinders, from memory). Tubes with many more walls to the radius than a drive shaft's
/// gave it.
pub const TESTED_SHARE: f64 = 0.67;

/// The shear stress at which a thin tube without a flaw buckles under torque.
///
/// Formula: the greater of τ = 0.704·E/(1−ν²)^⅝·(t/r)^1.25·√(r/L), moderately long tubes, and
/// τ = E/(3√2·(1−ν²)^¾)·(t/r)^1.5, long ones, which the ends no longer hold.
/// Symbols: E Young's modulus; ν Poisson's ratio; t wall, r radius half way through it, L length between
/// the ends; τ stress in the thin wall.
/// Range: `None` unless r ≥ 10·t ([`THIN`]: a thicker tube yields long before), 0 < L ≤ 10·r·(r/t)^1.5
/// (a longer one would coil like a rope first), E > 0 and 0 ≤ ν < 0.5. The first formula holds from
/// L = 10·√(r·t) (3.5 in for 3.0 × 0.083 in) and is too low for a shorter tube; the two meet at
/// L = 8.7·r·√(r/t) (53 in).
/// Source: NASA SP-8007, 0.747·E·(t/r)^1.25·√(r/L) for ν 0.3, and EN 1993-1-6 Annex D, 0.75 and the same
/// two lengths; Timoshenko and Gere, Theory of Elastic Stability, long tubes (all from memory). Held
/// against the energy of a shell with round ends by a script in tests/handbook, r/t 10 to 80: up to 10 %
/// high where a tube goes over to two lobes (3.5 × 0.083 × 30 in: 9 %), up to 10 % low where the two meet.
/// Assumes round ends that may lean and an elastic wall: where this is over the shear yield the tube
/// yields and does not buckle. A real tube reaches [`TESTED_SHARE`] of it at the least.
pub fn buckling(tube: Tube, length: Length, modulus: Pressure, ratio: f64) -> Option<Pressure> {
    let (outer, inner) = (tube.outer().base(), tube.inner().base());
    let (t, r) = ((outer - inner) / 2.0, (outer + inner) / 4.0);
    let (l, e) = (length.base(), modulus.base());
    let slender = t / r;
    let root = slender.sqrt();
    // Powers by quarters and eighths as roots of roots.
    let rope = 10.0 * r / (slender * root);
    if !(r >= THIN * t && l > 0.0 && l <= rope && e > 0.0 && (0.0..0.5).contains(&ratio)) {
        return None;
    }
    let plane = 1.0 - ratio * ratio;
    let (half, eighth) = (plane.sqrt(), plane.sqrt().sqrt().sqrt());
    let moderate = 0.704 / (half * eighth) * slender * root.sqrt() * (r / l).sqrt();
    let long = slender * root / (3.0 * 2.0_f64.sqrt() * half * half.sqrt());
    finite(e * moderate.max(long)).map(Pressure::from_base)
}

/// A number that is one.
fn finite(number: f64) -> Option<f64> {
    number.is_finite().then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::luck::luck;
    use crate::quantity::{as_degrees, as_ksi, as_pound_feet, inches, ksi, newton_metres, pound_feet};

    fn tube(diameter: f64, wall: f64) -> Tube {
        Tube::new(inches(diameter), inches(wall)).unwrap()
    }

    #[test]
    fn stress_and_twist() {
        // Derived ring by ring and slice by slice (tests/handbook/strength.py): 2000 lbf·ft on
        // 3.0 × 0.083 in, 22 231.76 psi, 3.692133° over 50 in at G 11.5 Mpsi; 30 ksi carries
        // 2698.842 lbf·ft; J of three tubes in in⁴.
        let three = tube(3.0, 0.083);
        let (torque, g) = (pound_feet(2000.0), ksi(11_500.0));
        assert!((as_ksi(shear(three, torque).unwrap()) - 22.231_76).abs() < 5e-6);
        assert!((as_degrees(twist(three, torque, inches(50.0), g).unwrap()) - 3.692_133).abs() < 5e-7);
        assert!((as_pound_feet(torque_at(three, ksi(30.0)).unwrap()) - 2698.842).abs() < 5e-4);
        for (d, wall, j) in [(3.0, 0.083, 1.619_305), (3.5, 0.095, 2.947_832), (4.0, 0.095, 4.445_632)] {
            assert!((polar(tube(d, wall)) / 0.0254_f64.powi(4) - j).abs() < 1e-6, "{d} {wall}");
        }
        // Published, from memory: Shigley, Mechanical Engineering Design, Example 3-9: 1500 lbf·in on a solid
        // bar of 0.75 in makes 18.1 kpsi.
        let bar = shear(tube(0.75, 0.375), pound_feet(125.0)).unwrap();
        assert!((as_ksi(bar) - 18.1).abs() < 0.05);
    }

    #[test]
    fn torsion_keeps_its_laws() {
        // Laws, over seeded luck: back and forth is the same; stress and twist go with the torque, twist with
        // the length; all at twice the size takes eight times the torque; the energy is half of torque times
        // twist, which is what the stress stores: τ²/(2G) times the volume, half of it in a solid bar.
        let mut next = luck(7);
        for _ in 0..200 {
            let d = next(1.0, 6.0);
            let wall = next(0.01, 0.5) * d;
            let (t, l, g) = (next(-5000.0, 5000.0), next(1.0, 90.0), next(3000.0, 12_000.0));
            let (one, torque) = (tube(d, wall), pound_feet(t));
            let stress = shear(one, torque).unwrap();
            let same = |a: f64, b: f64| assert!((a - b).abs() <= 1e-9 * b.abs(), "{a} {b}");
            same(as_pound_feet(torque_at(one, stress).unwrap()), t);
            same(shear(one, pound_feet(-2.0 * t)).unwrap().base(), -2.0 * stress.base());
            same(shear(tube(2.0 * d, 2.0 * wall), pound_feet(8.0 * t)).unwrap().base(), stress.base());
            let turned = twist(one, torque, inches(l), ksi(g)).unwrap();
            same(twist(one, torque, inches(3.0 * l), ksi(g)).unwrap().base(), 3.0 * turned.base());
            let solid = tube(d, d / 2.0);
            let (s, a) =
                (shear(solid, torque).unwrap(), twist(solid, torque, inches(l), ksi(g)).unwrap());
            let volume = PI / 4.0 * inches(d).base().powi(2) * inches(l).base();
            same(torque.base() * a.base() / 2.0, s.base().powi(2) / (4.0 * ksi(g).base()) * volume);
        }
    }

    #[test]
    fn nothing_from_bad_torsion() {
        let (t, g) = (tube(3.0, 0.083), ksi(11_500.0));
        for torque in [f64::NAN, f64::INFINITY] {
            assert!(shear(t, newton_metres(torque)).is_none());
            assert!(torque_at(t, ksi(torque)).is_none());
            assert!(twist(t, newton_metres(torque), inches(50.0), g).is_none());
        }
        let torque = newton_metres(1000.0);
        for (length, modulus) in [
            (-1.0, 11_500.0),
            (f64::NAN, 11_500.0),
            (f64::INFINITY, 11_500.0),
            (50.0, 0.0),
            (50.0, -1.0),
            (50.0, f64::NAN),
            (50.0, f64::INFINITY),
        ] {
            assert!(twist(t, torque, inches(length), ksi(modulus)).is_none(), "{length} {modulus}");
        }
    }

    fn ask(diameter: f64, wall: f64, length: f64) -> f64 {
        let steel = crate::quantity::gigapascals(205.0);
        as_ksi(buckling(tube(diameter, wall), inches(length), steel, 0.3).unwrap())
    }

    #[test]
    fn buckling_in_two_ranges() {
        // From memory: NASA SP-8007, 0.747·E·(t/r)^1.25·√(r/L), and 0.236·E/(1−ν²)^¾·(t/r)^1.5 for long
        // ones; put in by hand: r/t 17.572, 105.4 ksi at 50 in, 102.1 ksi from 53 in on.
        assert!((ask(3.0, 0.083, 50.0) - 105.4).abs() < 0.1);
        assert!((ask(3.0, 0.083, 60.0) - 102.1).abs() < 0.05);
        // From memory: the long tube's formula in steel of 29 Mpsi and ν 0.29 (textbook steel) gives 99 ksi.
        let book = buckling(tube(3.0, 0.083), inches(60.0), ksi(29_000.0), 0.29).unwrap();
        assert!((as_ksi(book) - 99.0).abs() < 0.5);
        // Derived by tests/handbook/strength.py from the energy of a shell, in ksi: many lobes to 2 %, two
        // lobes to what the doc block says, and an endless tube of very thin wall to the formula's own digits.
        for (d, wall, length, expected, low, high) in [
            (20.0, 0.05, 10.0, 29.4461, -0.02, 0.02),
            (20.0, 0.05, 30.0, 16.8343, -0.02, 0.02),
            (5.0, 0.02, 20.0, 18.7172, -0.02, 0.02),
            (5.0, 0.065, 30.0, 66.0956, -0.03, 0.03),
            (3.0, 0.083, 40.0, 117.4500, -0.01, 0.01),
            (3.0, 0.083, 50.0, 112.9550, -0.07, 0.0),
            (3.0, 0.083, 70.0, 108.9255, -0.07, 0.0),
            (4.0, 0.095, 60.0, 92.0302, -0.01, 0.0),
            (3.5, 0.083, 30.0, 110.5535, 0.0, 0.095),
            (20.0, 0.05, 3000.0, 2.6741, -0.003, 0.0),
        ] {
            let off = ask(d, wall, length) / expected - 1.0;
            assert!((low..=high).contains(&off), "{d} {wall} {length}: {off}");
        }
    }

    #[test]
    fn buckling_keeps_its_laws() {
        // Laws, over seeded luck: scale changes nothing; longer is never stronger, thicker and stiffer always
        // is; and it is never lower than an endless tube's.
        let mut next = luck(11);
        for _ in 0..200 {
            let d = next(2.0, 5.0);
            let (wall, l, k) = (next(0.01, 0.04) * d, next(2.0, 30.0) * d, next(1.01, 3.0));
            let one = ask(d, wall, l);
            assert!((ask(k * d, k * wall, k * l) / one - 1.0).abs() < 1e-9);
            assert!(ask(d, wall, l / k) >= one && ask(d, wall / k, l) < one);
            let stiff = buckling(tube(d, wall), inches(l), ksi(1.0), 0.3).unwrap();
            let stiffer = buckling(tube(d, wall), inches(l), ksi(k), 0.3).unwrap();
            assert!((stiffer.base() / stiff.base() / k - 1.0).abs() < 1e-9);
            let ratio = wall / (d - wall) * 2.0;
            assert!(one >= 205e6 / 6894.757 * 0.2528 * ratio.powf(1.5));
        }
    }

    #[test]
    fn nothing_from_bad_buckling() {
        for (d, wall, length, e, ratio) in [
            // A wall of a tenth of the mean radius is the last that is thin.
            (3.0, 0.15, 50.0, 30_000.0, 0.3),
            (3.0, 1.5, 50.0, 30_000.0, 0.3),
            (3.0, 0.083, 0.0, 30_000.0, 0.3),
            (3.0, 0.083, -50.0, 30_000.0, 0.3),
            (3.0, 0.083, f64::NAN, 30_000.0, 0.3),
            (3.0, 0.083, f64::INFINITY, 30_000.0, 0.3),
            (3.0, 0.083, 50.0, 0.0, 0.3),
            (3.0, 0.083, 50.0, f64::NAN, 0.3),
            (3.0, 0.083, 50.0, f64::INFINITY, 0.3),
            (3.0, 0.083, 50.0, 30_000.0, 0.5),
            (3.0, 0.083, 50.0, 30_000.0, -0.1),
            (3.0, 0.083, 50.0, 30_000.0, f64::NAN),
        ] {
            let got = buckling(tube(d, wall), inches(length), ksi(e), ratio);
            assert!(got.is_none(), "{d} {wall} {length} {e} {ratio}");
        }
        assert!(buckling(tube(3.0, 0.142), inches(50.0), ksi(30_000.0), 0.3).is_some());
        // By hand: 10·r·(r/t)^1.5 of 3.0 × 0.083 in is 1074.3 in.
        let at = |length: f64| buckling(tube(3.0, 0.083), inches(length), ksi(30_000.0), 0.3);
        assert!(at(1074.0).is_some() && at(1075.0).is_none());
    }
}
