//! What holds for every beam, over seeded luck.
#![cfg(test)]

use super::super::mesh::Mesh;
use super::super::modes::{below, dense};
use super::*;

/// One to four tubes, up to three lumps, two or three supports; lengths in metres.
fn any_beam(between: &mut impl FnMut(f64, f64) -> f64) -> Beam {
    let metres = Length::from_base;
    let mut beam = Beam { stretches: Vec::new(), lumps: Vec::new(), held: Vec::new() };
    let mut whole = 0.0;
    for _ in 0..between(1.0, 5.0) as usize {
        let (long, diameter) = (between(0.02, 0.7), between(0.03, 0.12));
        let mut one = section(metres(diameter), metres(diameter * between(0.01, 0.5)));
        if between(0.0, 1.0) < 0.2 {
            one = Section::heavy(one, kilograms(between(0.0, 3.0)), metres(long));
        }
        beam.stretches.push(stretch(metres(long), one));
        whole += long;
    }
    for _ in 0..between(0.0, 4.0) as usize {
        let inertia = between(-0.01, 0.01_f64).max(0.0);
        beam.lumps.push(lump(metres(between(0.0, whole)), between(0.0, 4.0), inertia));
    }
    let soft = |z: f64, held: f64, rate: f64| {
        if held < 0.5 { rigid(metres(z)) } else { spring(metres(z), 10.0_f64.powf(rate)) }
    };
    let mut hold = |from: f64, to: f64| {
        let z = between(from, to) * whole;
        beam.held.push(soft(z, between(0.0, 1.0), between(4.0, 9.0)));
    };
    hold(0.0, 0.2);
    hold(0.6, 1.0);
    if between(0.0, 1.0) < 0.4 {
        let z = between(0.25, 0.55) * whole;
        beam.held.push(soft(z, between(0.0, 1.0), between(4.0, 9.0)));
    }
    beam
}

fn whole(beam: &Beam) -> f64 {
    beam.stretches.iter().map(|stretch| stretch.length.base()).sum()
}

fn speeds(beam: &Beam, elements: usize) -> [f64; 3] {
    beam.modes(elements).unwrap().speeds.map(Base::base)
}

/// The law that none of three is above its fellow, but for the last bits.
fn none_above(low: [f64; 3], high: [f64; 3]) -> bool {
    low.iter().zip(high).all(|(low, high)| *low <= high * (1.0 + 1e-9))
}

fn alike(one: [f64; 3], other: [f64; 3], within: f64) -> bool {
    one.iter().zip(other).all(|(one, other)| (one / other - 1.0).abs() < within)
}

#[test]
fn every_beam_has_its_modes() {
    // Two thousand beams: all are answered, in order, the first alone is the first of three, and its shape is
    // 1 at its largest.
    let mut between = luck(11);
    for round in 0..2000 {
        let beam = any_beam(&mut between);
        let elements = between(0.0, 60.0) as usize;
        let modes = beam.modes(elements).unwrap_or_else(|why| panic!("{round} {why:?} {beam:?}"));
        let [one, two, three] = modes.speeds.map(Base::base);
        assert!(one > 0.0 && one <= two && two <= three && three.is_finite(), "{round}");
        assert!(off(beam.first(elements).unwrap(), one).abs() < 1e-9, "{round}");
        let largest = modes.shape.iter().map(|(_, at)| *at).fold(f64::MIN, f64::max);
        let least = modes.shape.iter().map(|(_, at)| *at).fold(f64::MAX, f64::min);
        assert!((largest - 1.0).abs() < 1e-12 && least >= -1.0 - 1e-12, "{round} {largest} {least}");
    }
}

#[test]
fn heavier_is_never_faster() {
    let mut between = luck(12);
    for round in 0..300 {
        let mut beam = any_beam(&mut between);
        let z = Length::from_base(between(0.0, whole(&beam)));
        // A lump of nothing first, so that both have the same nodes.
        beam.lumps.push(lump(z, 0.0, 0.0));
        let before = speeds(&beam, 24);
        let inertia = between(0.0, 1.0) * f64::from(round % 2);
        beam.lumps.push(lump(z, between(0.0, 5.0) * f64::from((round + 1) % 3), inertia * 0.01));
        assert!(none_above(speeds(&beam, 24), before), "{round}");
        // A stretch that is heavier, too.
        let now = speeds(&beam, 24);
        let Some(first) = beam.stretches.first_mut() else { continue };
        first.section.mass *= 1.0 + between(0.0, 1.0);
        assert!(none_above(speeds(&beam, 24), now), "{round}");
    }
}

#[test]
fn stiffer_is_never_slower() {
    let mut between = luck(13);
    for round in 0..300 {
        let mut beam = any_beam(&mut between);
        let z = Length::from_base(between(0.0, whole(&beam)));
        // One more support, from soft to hard to rigid: never slower. What the hardest lacks is a hundredth of
        // what one a hundred times softer lacks, so that rigid is the limit.
        let mut seen = vec![[0.0; 3]];
        let hardness = [1e5, 1e7, 1e9, 1e11, 1e13, 1e15].map(|rate| spring(z, rate));
        for held in hardness.into_iter().chain([rigid(z)]) {
            beam.held.push(held);
            seen.push(speeds(&beam, 24));
            beam.held.pop();
        }
        assert!(seen.windows(2).all(|pair| none_above(pair[0], pair[1])), "{round} {seen:?}");
        for i in 0..3 {
            let lacks = |which: usize| 1.0 - seen[which][i] / seen[7][i];
            assert!(lacks(6) < lacks(5) / 50.0 + 1e-7, "{round} {seen:?}");
        }
        let before = speeds(&beam, 24);
        for stretch in &mut beam.stretches {
            stretch.section.bending *= 1.0 + between(0.0, 1.0);
        }
        assert!(none_above(before, speeds(&beam, 24)), "{round}");
    }
}

#[test]
fn end_for_end_and_to_scale() {
    let mut between = luck(14);
    for round in 0..300 {
        let beam = any_beam(&mut between);
        let before = speeds(&beam, 30);
        let end = whole(&beam);
        let mut turned = beam.clone();
        turned.stretches.reverse();
        turned.lumps.iter_mut().for_each(|lump| lump.z = Length::from_base(end - lump.z.base()));
        turned.held.iter_mut().for_each(|held| held.z = Length::from_base(end - held.z.base()));
        assert!(alike(before, speeds(&turned, 30), 1e-8), "{round}");
        // All lengths times s, of the same stuff: EI goes with s⁴, κGA with s², masses with s³, inertias with
        // s⁵, spring rates with s, and ω with 1/s.
        let s = between(0.3, 4.0);
        let long = |length: Length| length * s;
        let mut large = beam.clone();
        for Stretch { length, section } in &mut large.stretches {
            *length = long(*length);
            section.bending *= s.powi(4);
            section.shear *= s * s;
            section.mass *= s * s;
            section.rotary *= s.powi(4);
        }
        for Lump { z, mass, inertia } in &mut large.lumps {
            (*z, *mass, *inertia) = (long(*z), *mass * s.powi(3), *inertia * s.powi(5));
        }
        for Held { z, by } in &mut large.held {
            *z = long(*z);
            if let Support::Spring(rate) = by {
                *rate *= s;
            }
        }
        assert!(alike(before, speeds(&large, 30).map(|speed| speed * s), 1e-8), "{round}");
    }
}

#[test]
fn millimetres_and_inches() {
    // By definition, 25.4 mm are an inch.
    let by = |unit: fn(f64) -> Length, to: f64| {
        let tube = section(unit(3.0 * to), unit(0.083 * to));
        let mut beam = pinned(unit(50.0 * to), tube);
        beam.lumps = vec![lump(unit(17.0 * to), 0.7, 0.001)];
        speeds(&beam, 30)
    };
    assert!(alike(by(inches, 1.0), by(millimetres, 25.4), 1e-10));
}

#[test]
fn a_cut_that_changes_nothing() {
    // Law: the same beam given in two stretches, two lumps for one, two springs for one.
    let mut between = luck(15);
    for round in 0..200 {
        let mut beam = any_beam(&mut between);
        let z = Length::from_base(0.0);
        let Some(first) = beam.stretches.first().copied() else { continue };
        let cut = first.length * 0.5;
        // The cut as a place of the uncut one as well, so that both have the same nodes.
        let mut other = beam.clone();
        beam.lumps.extend([lump(z, 3.0, 0.004), lump(cut, 0.0, 0.0)]);
        beam.held.push(spring(z, 3e6));
        let half = Stretch { length: cut, ..first };
        other.stretches.splice(0..1, [half, half]);
        other.lumps.extend([lump(z, 1.0, 0.001), lump(z, 2.0, 0.003)]);
        other.held.extend([spring(z, 1e6), spring(z, 2e6)]);
        assert!(alike(speeds(&beam, 30), speeds(&other, 30), 1e-8), "{round}");
    }
}

#[test]
fn the_count_is_right() {
    // The count of negative pivots against the signs of all eigenvalues of the same matrix, found by Jacobi's
    // rotations, which know nothing of bands or pivots.
    let mut between = luck(16);
    let mut seen = [0; 8];
    for round in 0..120 {
        let beam = any_beam(&mut between);
        let mesh = Mesh::of(&beam, 5).unwrap();
        let top = speeds(&beam, 5)[2].powi(2);
        for _ in 0..4 {
            let shift = top * between(0.0, 1.8_f64).powi(3);
            let (count, roots) = (below(&mesh, shift), eigenvalues(dense(&mesh, shift)));
            let negative = roots.iter().filter(|root| **root < 0.0).count();
            assert_eq!(count, negative, "{round} {shift}");
            seen[count.min(7)] += 1;
        }
        // The three that are given out: none below the first, one, two, and no more than three at the third.
        for (i, speed) in speeds(&beam, 5).into_iter().enumerate() {
            let square = speed * speed;
            assert!(below(&mesh, square * (1.0 - 2e-6)) <= i && below(&mesh, square * (1.0 + 2e-6)) > i);
        }
    }
    assert!(seen[..5].iter().all(|times| *times > 10), "{seen:?}");
}

/// All eigenvalues of a symmetric matrix, scaled to ones on its diagonal first, which keeps their signs.
fn eigenvalues(mut a: Vec<Vec<f64>>) -> Vec<f64> {
    let n = a.len();
    let scale: Vec<f64> = (0..n).map(|i| 1.0 / a[i][i].abs().sqrt().max(1e-150)).collect();
    for i in 0..n {
        for j in 0..n {
            a[i][j] *= scale[i] * scale[j];
        }
    }
    for _ in 0..40 {
        for p in 0..n {
            for q in p + 1..n {
                if a[p][q].abs() < 1e-18 {
                    continue;
                }
                let half = (a[q][q] - a[p][p]) / (2.0 * a[p][q]);
                let t = half.signum() / (half.abs() + half.hypot(1.0));
                let c = 1.0 / t.hypot(1.0);
                let s = t * c;
                for row in &mut a {
                    (row[p], row[q]) = (c * row[p] - s * row[q], s * row[p] + c * row[q]);
                }
                let (front, rear) = a.split_at_mut(q);
                for (one, other) in front[p].iter_mut().zip(&mut rear[0]) {
                    (*one, *other) = (c * *one - s * *other, s * *one + c * *other);
                }
            }
        }
    }
    (0..n).map(|i| a[i][i]).collect()
}
