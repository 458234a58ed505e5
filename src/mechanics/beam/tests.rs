//! The beam against closed roots and published values; laws and bad input beside it.
#![cfg(test)]

use super::super::luck::luck;
use super::super::material::{aluminium, steel};
use super::super::tube::Tube;
use super::super::whirl::first_pinned;
use super::*;
use crate::quantity::{as_rpm, inches, kilograms, millimetres};

mod bad;
mod laws;
mod small;

fn section(diameter: Length, wall: Length) -> Section {
    Section::of_tube(Tube::new(diameter, wall).unwrap(), steel())
}

fn stretch(length: Length, section: Section) -> Stretch {
    Stretch { length, section }
}

fn lump(z: Length, mass: f64, inertia: f64) -> Lump {
    Lump { z, mass: kilograms(mass), inertia: Inertia::from_base(inertia) }
}

fn rigid(z: Length) -> Held {
    Held { z, by: Support::Rigid }
}

fn spring(z: Length, rate: f64) -> Held {
    Held { z, by: Support::Spring(SpringRate::from_base(rate)) }
}

/// One stretch, pinned at its ends.
fn pinned(length: Length, section: Section) -> Beam {
    let held = vec![rigid(inches(0.0)), rigid(length)];
    Beam { stretches: vec![stretch(length, section)], lumps: Vec::new(), held }
}

/// The exact ω of a pinned beam's mode n, the lower root.
///
/// Derived: w = W·sin βz and θ = Θ·cos βz, β = nπ/L, meet both equations of motion and both ends; what is
/// left is (κGA·β² − ρA·λ)(EI·β² + κGA − ρI·λ) = (κGA·β)², a square in λ = ω².
fn closed(section: Section, length: Length, n: f64) -> f64 {
    let beta = n * core::f64::consts::PI / length.base();
    let Section { bending, shear, mass, rotary } = section;
    let square = mass * rotary / shear;
    let once = mass + rotary * beta * beta + bending * beta * beta * mass / shear;
    let none = bending * beta.powi(4);
    (2.0 * none / (once + (once * once - 4.0 * square * none).sqrt())).sqrt()
}

fn off(got: AngularVelocity, expected: f64) -> f64 {
    got.base() / expected - 1.0
}

#[test]
fn tubes_of_the_handbook() {
    // Derived, with Cowper's shear coefficient (from memory), E 205 GPa, ρ 7850 kg/m³, ν 0.29: 7825.40 rpm by
    // Euler and Bernoulli times 0.98794 = 7731.05; 29096.6 and 27484.1.
    for (diameter, wall, length, slender, expected) in
        [(3.0, 0.083, 50.0, 7825.40, 7731.05), (4.0, 0.095, 30.0, 29096.6, 27484.1)]
    {
        let (tube, length) = (Tube::new(inches(diameter), inches(wall)).unwrap(), inches(length));
        let section = Section::of_tube(tube, steel());
        assert!((as_rpm(first_pinned(tube, steel(), length).unwrap()) - slender).abs() < 0.05);
        let got = as_rpm(pinned(length, section).first(40).unwrap());
        assert!((got - expected).abs() < 0.05, "{got}");
        let root = as_rpm(AngularVelocity::from_base(closed(section, length, 1.0)));
        assert!((root - expected).abs() < 0.05, "{root}");
    }
}

#[test]
fn any_tube_against_the_closed_root() {
    // Derived: `closed`. Pinned tubes of seeded luck, from foil to solid bars, from six diameters long.
    let mut between = luck(7);
    let mut worst = [0.0_f64; 4];
    for round in 0..500 {
        let diameter = between(20.0, 150.0);
        let tube = Tube::new(millimetres(diameter), millimetres(diameter * between(0.01, 0.5))).unwrap();
        let section = Section::of_tube(tube, if round % 2 == 0 { steel() } else { aluminium() });
        let length = millimetres(diameter * between(6.0, 60.0));
        let beam = pinned(length, section);
        let modes = beam.modes(40).unwrap();
        let roots = [1.0, 2.0, 3.0].map(|n| closed(section, length, n));
        for ((got, root), worst) in modes.speeds.iter().zip(roots).zip(&mut worst) {
            // Law: elements never come out too low.
            assert!(off(*got, root) > -1e-9, "{round} {}", off(*got, root));
            *worst = worst.max(off(*got, root));
        }
        worst[3] = worst[3].max(off(beam.first(16).unwrap(), roots[0]));
        // By symmetry the shape is highest amid, and straight from one end to the other it is nothing.
        let at = |i: usize| modes.shape[i].1;
        assert!((at(40) - 1.0).abs() < 1e-9 && at(0) == 0.0 && at(80) == 0.0);
        for i in 0..=80 {
            let sine = (core::f64::consts::PI * i as f64 / 80.0).sin();
            assert!((at(i) - sine).abs() < 1e-4, "{round} {i}");
        }
    }
    assert!(worst[0] < 1e-6 && worst[1] < 5e-6 && worst[2] < 3e-5 && worst[3] < 1e-5, "{worst:?}");
}

#[test]
fn the_error_falls_with_the_fourth_power() {
    // Against `closed`: from each count to the next, twice as many, the error of the first falls by at least
    // twelve (sixteen is 1/n⁴) until a millionth is left, of the second and third by six until a hundredth of
    // a thousandth is: what the slope lacks between its nodes falls with the square alone, and is that small.
    for (diameter, wall, length) in
        [(3.0, 0.083, 50.0), (4.0, 0.095, 30.0), (1.0, 0.5, 31.0), (5.0, 0.05, 40.0)]
    {
        let (section, length) = (section(inches(diameter), inches(wall)), inches(length));
        let beam = pinned(length, section);
        let mut before = [f64::INFINITY; 3];
        for elements in [4, 8, 16, 32] {
            let speeds = beam.modes(elements).unwrap().speeds;
            for (i, before) in before.iter_mut().enumerate() {
                let now = off(speeds[i], closed(section, length, (i + 1) as f64));
                let (falls, floor) = if i == 0 { (12.0, 1e-6) } else { (6.0, 1e-5) };
                assert!(now < (*before / falls).max(floor), "{diameter} {elements} {i}: {now}");
                *before = now;
            }
            if elements == 16 {
                assert!(before[0] < 1e-5);
            }
        }
        assert!(off(beam.first(2).unwrap(), closed(section, length, 1.0)) < 0.006);
    }
}

#[test]
fn two_masses_on_a_bar() {
    // Published: Shigley's Mechanical Engineering Design, Ex. 7-5, recomputed: a steel bar of 1 in, 31 in from
    // bearing to bearing, 35 lbf at 7 in and 55 lbf at 20 in, E 30 Mpsi, its own mass left out: 124.68 rad/s.
    // That is without shear, so the bar gets a thousand times its own; with it the frequency is a little lower.
    let bar = Section::of_tube(
        Tube::new(inches(1.0), inches(0.5)).unwrap(),
        super::super::material::Stiffness { modulus: crate::quantity::ksi(30_000.0), ..steel() },
    );
    let light = Section::heavy(bar, kilograms(0.0), inches(31.0));
    let no_shear = Section { shear: 1000.0 * light.shear, ..light };
    let pound = 0.453_592_37;
    let mut beam = pinned(inches(31.0), no_shear);
    beam.lumps = vec![lump(inches(7.0), 35.0 * pound, 0.0), lump(inches(20.0), 55.0 * pound, 0.0)];
    for elements in [1, 3, 16, 40] {
        let got = beam.first(elements).unwrap();
        assert!((got.base() - 124.68).abs() < 0.015, "{elements} {}", got.base());
        // Two masses, two modes.
        assert_eq!(beam.modes(elements), Err(NoModes::TooLight));
    }
    beam.stretches = vec![stretch(inches(31.0), light)];
    let with_shear = off(beam.first(16).unwrap(), 124.68);
    assert!(with_shear < 0.0 && with_shear > -0.003, "{with_shear}");
}

#[test]
fn coefficient_of_shear() {
    // Derived from Cowper's formula for a hollow circle, ν 0.3: solid 6·1.3/8.8 = 0.88636, a thin wall
    // 2·1.3/(4 + 0.9) = 0.53061; G = E/2.6.
    let metal = super::super::material::Stiffness::of_metal(
        crate::quantity::gigapascals(200.0),
        crate::quantity::kilograms_per_cubic_metre(7850.0),
        0.3,
    );
    for (wall, expected) in [(0.5, 0.88636), (1e-6, 0.53061)] {
        let tube = Tube::new(inches(1.0), inches(wall)).unwrap();
        let got = Section::of_tube(tube, metal);
        let area = got.mass / 7850.0;
        assert!((got.shear / (200e9 / 2.6 * area) - expected).abs() < 1e-5, "{}", got.shear);
    }
}
