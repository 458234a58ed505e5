//! Beams so plain that their frequencies are sums by hand.
#![cfg(test)]

use super::*;

/// Stiff enough that it does not bend, of so many kilograms a metre and no rotary inertia of its own.
fn stiff(mass: f64) -> Section {
    Section { bending: 1e9, shear: 1e12, mass, rotary: 0.0 }
}

#[test]
fn a_stiff_bar_on_two_springs() {
    // By hand: m = 6 kg, k = 2e4 N/m each at the ends of 1.5 m: it bounces with ω² = 2k/m and pitches with
    // ω² = (k·L²/2)/(m·L²/12) = 6k/m.
    let long = millimetres(1500.0);
    let mut beam = pinned(long, stiff(4.0));
    beam.held = vec![spring(inches(0.0), 2e4), spring(long, 2e4)];
    let [bounce, pitch, _] = beam.modes(10).unwrap().speeds;
    assert!(off(bounce, (2.0 * 2e4 / 6.0_f64).sqrt()).abs() < 1e-5);
    assert!(off(pitch, (6.0 * 2e4 / 6.0_f64).sqrt()).abs() < 1e-5);
    // With the springs where bounce and pitch are equal, at ±L/√12 from the middle, both come out.
    let arm = 750.0 / 3.0_f64.sqrt();
    beam.held = vec![spring(millimetres(750.0 - arm), 2e4), spring(millimetres(750.0 + arm), 2e4)];
    let [one, two, three] = beam.modes(10).unwrap().speeds;
    for got in [one, two] {
        assert!(off(got, (2.0 * 2e4 / 6.0_f64).sqrt()).abs() < 1e-5);
    }
    assert!(three.base() > 10.0 * two.base() && two.base() >= one.base());
}

#[test]
fn two_stiff_halves_and_a_hinge() {
    // By hand: two bars of a = 0.5 m and m = 2 kg, pinned outside, between them a massless spring of
    // κ = EI/ℓ = 1000 N·m/rad that bends by 2y/a: ω² = 4κ/a² over 2m/3 = 6κ/(m·a²). The spring is 1 mm long,
    // which makes it a little softer to turn about: a share of 1/500.
    let half = stretch(millimetres(500.0), stiff(4.0));
    let hinge = Section { bending: 1.0, shear: 1e12, mass: 0.0, rotary: 0.0 };
    let beam = Beam {
        stretches: vec![half, stretch(millimetres(1.0), hinge), half],
        lumps: Vec::new(),
        held: vec![rigid(inches(0.0)), rigid(millimetres(1001.0))],
    };
    let got = beam.first(8).unwrap();
    assert!(off(got, (6.0 * 1000.0 / (2.0 * 0.25_f64)).sqrt()).abs() < 0.003, "{}", got.base());
}

#[test]
fn one_mass_on_a_springy_line() {
    // By hand: a mass m at the middle of a massless bar that does not shear: ω² = 48·EI/(m·L³); at the end of
    // an overhang c behind a span b: ω² = 3·EI/(m·c²·(b + c)). Any text on strength of materials.
    let bar = Section { bending: 2000.0, shear: 1e12, mass: 0.0, rotary: 0.0 };
    let mut beam = pinned(millimetres(1000.0), bar);
    beam.lumps = vec![lump(millimetres(500.0), 3.0, 0.0)];
    assert!(off(beam.first(4).unwrap(), (48.0 * 2000.0 / 3.0_f64).sqrt()).abs() < 1e-6);
    beam.lumps = vec![lump(millimetres(1000.0), 3.0, 0.0)];
    beam.held = vec![rigid(inches(0.0)), rigid(millimetres(700.0))];
    let expected = (3.0 * 2000.0 / (3.0 * 0.09 * 1.0_f64)).sqrt();
    for elements in [0, 1, 7, 30] {
        assert!(off(beam.first(elements).unwrap(), expected).abs() < 1e-6);
    }
    // A disk without mass that only tilts, amid: the bar takes 12·EI/L of moment a radian.
    beam = pinned(millimetres(1000.0), bar);
    beam.lumps = vec![lump(millimetres(500.0), 0.0, 0.02)];
    assert!(off(beam.first(4).unwrap(), (12.0 * 2000.0 / 0.02_f64).sqrt()).abs() < 1e-6);
}

#[test]
fn the_shape_of_an_overhang() {
    // By symmetry and sight: held at the front and amid, the tail swings most and the span bends the other
    // way; the largest is 1 and positive.
    let mut beam = pinned(millimetres(1000.0), section(millimetres(60.0), millimetres(2.0)));
    beam.held = vec![rigid(inches(0.0)), rigid(millimetres(500.0))];
    let shape = beam.modes(20).unwrap().shape;
    assert_eq!(shape.len(), 41);
    let (place, last) = shape[40];
    assert!((place.base() - 1.0).abs() < 1e-12 && (last - 1.0).abs() < 1e-12);
    assert!(shape[0].1 == 0.0 && shape[20].1 == 0.0);
    assert!(shape[1..20].iter().all(|(_, at)| *at < 0.0) && shape[21..].iter().all(|(_, at)| *at > 0.0));
    assert!(shape.windows(2).all(|pair| pair[0].0 < pair[1].0));
}
