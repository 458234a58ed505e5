//! What a crooked tube puts out of balance, weights cut from stock, split and put back: against a
//! script that integrates and solves by number, against the stage, and laws.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaftwright::mechanics::across::Across;
use shaftwright::mechanics::residual::{Body, Lump, Point, cancelling};
use shaftwright::mechanics::unbalance::{Shares, Spot, Weight};
use shaftwright::mechanics::uncertainty::Spread;
use shaftwright::quantity::{
    Length, Unbalance, as_gram_millimetres, as_millimetres, degrees, gram_millimetres, grams,
    millimetres,
};

#[path = "residual/bad.rs"]
mod bad;
#[path = "residual/laws.rs"]
mod laws;
#[path = "residual/script.rs"]
mod script;

fn offset(up: f64, right: f64) -> Across<Length> {
    Across { up: millimetres(up), right: millimetres(right) }
}

fn unbalance(size: f64, at: f64) -> Across<Unbalance> {
    Across::toward(gram_millimetres(size), degrees(at))
}

fn spot(size: f64, at: f64, z: f64) -> Spot {
    Spot { unbalance: unbalance(size, at), z: millimetres(z) }
}

fn point(z: f64, offset: Across<Length>, u: f64, freedom: f64) -> Point {
    Point { z: millimetres(z), offset, spread: Spread { standard: millimetres(u), freedom } }
}

fn lump(mass: f64, z: f64, beside: Across<Length>) -> Lump {
    Lump { mass: grams(mass), z: millimetres(z), beside }
}

fn body(length: f64, from: f64, to: f64, tube: f64, lumps: &[Lump]) -> Body<'_> {
    let [length, from, to] = [length, from, to].map(millimetres);
    Body { length, from, to, tube: grams(tube), lumps }
}

/// Up and right in g·mm.
fn parts(vector: Across<Unbalance>) -> [f64; 2] {
    [vector.up, vector.right].map(as_gram_millimetres)
}

/// Front up and right, rear up and right, in g·mm.
fn four(shares: Shares) -> [f64; 4] {
    let ([a, b], [c, d]) = (parts(shares.front), parts(shares.rear));
    [a, b, c, d]
}

/// Force and couple about a place of what stands along a shaft, in g·mm and g·mm².
fn force_and_couple(spots: &[Spot], about: f64) -> [f64; 4] {
    spots.iter().fold([0.0; 4], |[up, right, up_couple, right_couple], spot| {
        let ([u, r], arm) = (parts(spot.unbalance), as_millimetres(spot.z) - about);
        [up + u, right + r, up_couple + u * arm, right_couple + r * arm]
    })
}

/// Numbers that look thrown and are the same on every run: a linear congruential generator with the
/// constants of Knuth's MMIX (from memory), high bits only.
struct Luck(u64);

impl Luck {
    fn between(&mut self, least: f64, most: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        least + (most - least) * (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn spots(&mut self, count: usize, length: f64) -> Vec<Spot> {
        let one =
            |_| spot(self.between(1.0, 900.0), self.between(0.0, 360.0), self.between(0.0, length));
        (0..count).map(one).collect()
    }
}

/// The two weights at a radius that cancel unbalances in the joints' planes.
fn cancelled(shares: Shares, body: &Body, places: [Length; 2], radius: Length) -> Option<[Weight; 2]> {
    let [one, other] = cancelling(shares, body.length, [body.from, body.to], places)?;
    Some([one.weight(radius)?, other.weight(radius)?])
}
