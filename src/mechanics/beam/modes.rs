//! The lowest λ of K·φ = λ·M·φ, one after the other, each proved by a count.

use super::banded::{Row, assembled, dot, solve, split, times};
use super::element::Piece;
use super::mesh::Mesh;
use super::{Modes, NoModes};
use crate::quantity::{AngularVelocity, Base, Length};

/// Most solutions with no shift, which sort the low modes from the high.
const FIRST_LOOKS: u32 = 8;
/// They are enough when λ moves by less than this share; a shift then does the rest.
const ROUGH: f64 = 0.02;
/// Most shifts for one mode; three are the rule.
const SHIFTS: u32 = 60;
/// λ stands when a shift moves it by less than this share: what is still wrong then is its square.
const SETTLED: f64 = 1e-7;
/// As a share of λ, either side of it: where the count must jump.
const PROOF: f64 = 1e-6;
/// A vector that keeps less than this share of its square beside the modes already found is one of them.
const NOTHING_LEFT: f64 = 1e-20;

/// A mode that was found: λ = ω², its vector φ with φᵀ·M·φ = 1, and M·φ.
struct Mode {
    square: f64,
    vector: Vec<f64>,
    heavy: Vec<f64>,
}

/// The matrices of a mesh, and the room to split them in.
struct Search<'a> {
    mesh: &'a Mesh,
    stiff: Vec<Row>,
    mass: Vec<Row>,
    factor: Vec<Row>,
}

/// The first mode's ω, rad/s.
pub(super) fn first(mesh: &Mesh) -> Result<f64, NoModes> {
    Ok(Search::of(mesh).next(&[])?.square.sqrt())
}

/// The first three.
pub(super) fn three(mesh: &Mesh) -> Result<Modes, NoModes> {
    let mut search = Search::of(mesh);
    let mut found: Vec<Mode> = Vec::with_capacity(3);
    let mut speeds = [AngularVelocity::from_base(0.0); 3];
    let mut highest: f64 = 0.0;
    for speed in &mut speeds {
        let mode = search.next(&found)?;
        // Equal ones come out in either order, in their last digits.
        highest = highest.max(mode.square);
        *speed = AngularVelocity::from_base(highest.sqrt());
        found.push(mode);
    }
    let Some(mode) = found.first() else { return Err(NoModes::NotComputable) };
    let shape = shape(mesh, &mode.vector);
    let largest =
        shape.iter().fold(0.0, |most: f64, (_, at)| if at.abs() > most.abs() { *at } else { most });
    let share = |(place, at): (f64, f64)| (Length::from_base(place), at / largest);
    if largest == 0.0 {
        return Err(NoModes::NotComputable);
    }
    Ok(Modes { speeds, shape: shape.into_iter().map(share).collect() })
}

/// Place and deflection of each node, and of each middle between two: w = (w₁ + w₂)/2 + ℓ(θ₁ − θ₂)/8 + q.
fn shape(mesh: &Mesh, vector: &[f64]) -> Vec<(f64, f64)> {
    let mut places = Vec::with_capacity(2 * mesh.nodes.len());
    let mut before: Option<(f64, [f64; 3])> = None;
    for (node, at) in mesh.nodes.iter().zip(vector.as_chunks().0) {
        let [w_rear, slope_rear, _] = *at;
        if let Some((place, [w, slope, bulge])) = before {
            let eighth = (node.place - place) / 8.0;
            let middle = (w + w_rear) / 2.0 + eighth * (slope - slope_rear) + bulge;
            places.push(((place + node.place) / 2.0, middle));
        }
        places.push((node.place, w_rear));
        before = Some((node.place, *at));
    }
    places
}

/// A vector that has something of every mode in it: the fractional parts of multiples of an irrational
/// number, about their middle.
fn any_vector(length: usize, seed: u32) -> Vec<f64> {
    let step = (2.0 + f64::from(seed)).sqrt();
    (0..length).map(|i| (step * (i + 1) as f64).fract() - 0.3).collect()
}

impl Search<'_> {
    fn of(mesh: &Mesh) -> Search<'_> {
        let stiff = assembled(mesh, Piece::stiffness, |node| [node.spring, 0.0], 1.0);
        let mass = assembled(mesh, Piece::mass, |node| [node.mass, node.inertia], 0.0);
        Search { mesh, factor: Vec::with_capacity(stiff.len()), stiff, mass }
    }

    /// How many λ lie below a shift; leaves K − σ·M split.
    fn below(&mut self, shift: f64) -> usize {
        split(&self.stiff, &self.mass, shift, &mut self.factor)
    }

    /// φᵀ·K·φ, from each piece's bending.
    fn energy(&self, vector: &[f64]) -> f64 {
        let mut pieces = self.mesh.pieces.iter();
        let mut before = None;
        let mut sum = 0.0;
        for (node, at) in self.mesh.nodes.iter().zip(vector.as_chunks().0) {
            if let Some(front) = before {
                sum += pieces.next().map_or(0.0, |piece| piece.energy(front, *at));
            }
            sum += node.spring * at[0] * at[0];
            before = Some(*at);
        }
        sum
    }

    /// Takes out of a vector what it has of the modes found, and scales it to φᵀ·M·φ = 1.
    fn clean(&self, mode: &mut Mode, found: &[Mode]) -> Result<(), NoModes> {
        times(&self.mass, &mode.vector, &mut mode.heavy);
        let whole = dot(&mode.vector, &mode.heavy);
        for other in found {
            let share = dot(&mode.vector, &other.heavy);
            for (at, of) in mode.vector.iter_mut().zip(&other.vector) {
                *at -= share * of;
            }
        }
        times(&self.mass, &mode.vector, &mut mode.heavy);
        let left = dot(&mode.vector, &mode.heavy);
        if !(whole.is_finite() && left.is_finite()) {
            return Err(NoModes::NotComputable);
        }
        if left <= NOTHING_LEFT * whole || whole <= 0.0 {
            return Err(NoModes::TooLight);
        }
        let scale = 1.0 / left.sqrt();
        for at in mode.vector.iter_mut().chain(&mut mode.heavy) {
            *at *= scale;
        }
        Ok(())
    }

    /// One inverse iteration with the shift that is split: x becomes (K − σ·M)⁻¹·M·x, and λ Rayleigh's.
    fn turn(&self, mode: &mut Mode, found: &[Mode]) -> Result<(), NoModes> {
        mode.vector.clear();
        mode.vector.extend_from_slice(&mode.heavy);
        solve(&self.factor, &mut mode.vector);
        self.clean(mode, found)?;
        mode.square = self.energy(&mode.vector);
        Ok(())
    }

    /// A fresh vector, turned with no shift until the lowest that it holds stands out.
    fn begun(&mut self, found: &[Mode], seed: u32) -> Result<Mode, NoModes> {
        let vector = any_vector(self.stiff.len(), seed);
        let mut mode = Mode { square: 0.0, vector, heavy: Vec::new() };
        self.clean(&mut mode, found)?;
        if self.below(0.0) > 0 {
            return Err(NoModes::NotComputable);
        }
        for _ in 0..FIRST_LOOKS {
            let before = mode.square;
            self.turn(&mut mode, found)?;
            if (mode.square - before).abs() <= ROUGH * mode.square {
                break;
            }
        }
        Ok(mode)
    }

    /// The lowest mode beside those already found, which are the lowest of all.
    fn next(&mut self, found: &[Mode]) -> Result<Mode, NoModes> {
        let known = found.len();
        let mut mode = self.begun(found, 0)?;
        // The count at the low end is at most `known`, at the high end more.
        let mut low = found.last().map_or(0.0, |last| last.square * (1.0 - PROOF));
        let mut high = f64::INFINITY;
        let mut shift = mode.square;
        for round in 1..=SHIFTS {
            if self.below(shift) > known {
                high = high.min(shift)
            } else {
                low = low.max(shift)
            }
            self.turn(&mut mode, found)?;
            if (mode.square - shift).abs() <= SETTLED * mode.square {
                let (under, over) = (mode.square * (1.0 - PROOF), mode.square * (1.0 + PROOF));
                let none_missed = self.below(under) <= known;
                let is_here = self.below(over) > known;
                if none_missed && is_here {
                    return Ok(mode);
                }
                // It is a higher one, or a lower: the bracket knows, and the search begins anew in it.
                if none_missed {
                    low = low.max(over)
                } else {
                    high = high.min(under)
                }
                mode = self.begun(found, round)?;
            }
            let middle = if high.is_finite() { (low + high) / 2.0 } else { 4.0 * low };
            let is_inside = mode.square > low && mode.square < high;
            shift = if is_inside { mode.square } else { middle };
        }
        Err(NoModes::NotComputable)
    }
}

/// How many λ of a mesh lie below a shift.
#[cfg(test)]
pub(super) fn below(mesh: &Mesh, shift: f64) -> usize {
    Search::of(mesh).below(shift)
}

/// K − σ·M of a mesh with all its zeros.
#[cfg(test)]
#[allow(clippy::indexing_slicing)]
pub(super) fn dense(mesh: &Mesh, shift: f64) -> Vec<Vec<f64>> {
    let search = Search::of(mesh);
    let size = search.stiff.len();
    let mut full = vec![vec![0.0; size]; size];
    for (i, (stiff, mass)) in search.stiff.iter().zip(&search.mass).enumerate() {
        for (back, (k, m)) in stiff.iter().zip(mass).enumerate().take(i + 1) {
            full[i][i - back] = k - shift * m;
            full[i - back][i] = k - shift * m;
        }
    }
    full
}
