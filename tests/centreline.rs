//! What explains the offsets along a tube: against a script that goes another way, against truths that were
//! read with noise, and laws.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaftwright::mechanics::across::Across;
use shaftwright::mechanics::centreline::{Axis, Cause, Explained, Place, Shaft, explain};
use shaftwright::mechanics::uncertainty::Spread;
use shaftwright::quantity::{Length, as_millimetres, millimetres};

#[path = "centreline/bad.rs"]
mod bad;
#[path = "centreline/laws.rs"]
mod laws;
#[path = "centreline/pieces.rs"]
mod pieces;
#[path = "centreline/script.rs"]
mod script;
#[path = "centreline/turns.rs"]
mod turns;

/// A shaft in millimetres.
fn shaft(length: f64, weld: f64) -> Shaft {
    Shaft { length: millimetres(length), weld: millimetres(weld) }
}

fn vees(front: f64, rear: f64) -> Axis {
    Axis::Vees { front: millimetres(front), rear: millimetres(rear) }
}

fn vector(up: f64, right: f64) -> Across<Length> {
    Across { up: millimetres(up), right: millimetres(right) }
}

/// Up and right in millimetres.
fn parts(vector: Across<Length>) -> [f64; 2] {
    [as_millimetres(vector.up), as_millimetres(vector.right)]
}

/// A turn of so many even marks by a dial that scatters by 0.01 mm.
fn place(z: f64, offset: Across<Length>, marks: f64) -> Place {
    Place {
        z: millimetres(z),
        offset,
        unit_covariance: [2.0 / marks, 0.0, 2.0 / marks],
        scatter: Spread { standard: millimetres(0.01), freedom: marks - 5.0 },
    }
}

/// A cause by its name in the script.
fn cause(name: &str) -> Cause {
    match name {
        "kink" => Cause::Kink,
        "step" => Cause::Step,
        "bow" => Cause::Bow,
        "front" => Cause::FrontYoke,
        "rear" => Cause::RearYoke,
        _ => panic!("{name} is no cause"),
    }
}

/// What the handbook has a cause make of a size of one about the joints' centres, z from the front one: kink
/// by an angle κ κ·z·(L − w)/L before and κ·w·(L − z)/L after the weld, offset there −z/L and 1 − z/L, bow
/// 4z(L − z)/L², yokes 1 − z/L and z/L.
fn handbook(cause: Cause, length: f64, weld: f64, z: f64) -> f64 {
    let angle = length / (weld * (length - weld));
    match cause {
        Cause::Kink if z < weld => angle * z * (length - weld) / length,
        Cause::Kink => angle * weld * (length - z) / length,
        Cause::Step if z < weld => -z / length,
        Cause::Step => 1.0 - z / length,
        Cause::Bow => 4.0 * z * (length - z) / (length * length),
        Cause::FrontYoke => 1.0 - z / length,
        Cause::RearYoke => z / length,
    }
}

/// The size of a cause alone, in millimetres.
fn size(found: &Explained, cause: Cause) -> [f64; 2] {
    parts(found.single.iter().find(|suspect| suspect.cause == cause).unwrap().size)
}

/// Numbers that look thrown and are the same on every run: a linear congruential generator with the
/// constants of Knuth's MMIX (from memory), high bits only.
struct Luck(u64);

impl Luck {
    fn below_one(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.below_one()
    }

    fn pick(&mut self, count: usize) -> usize {
        (self.below_one() * count as f64) as usize
    }

    /// A throw of the normal law of unit variance (Box and Muller).
    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.below_one()).ln()).sqrt();
        radius * (core::f64::consts::TAU * self.below_one()).cos()
    }

    fn vector(&mut self, most: f64) -> Across<Length> {
        vector(self.between(-most, most), self.between(-most, most))
    }
}
