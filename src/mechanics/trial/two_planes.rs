//! Two planes with phase: one run as it is and two with trial weights, two pick-ups.

use super::super::across::Across;
use super::super::uncertainty::Spread;
use super::complex::{Complex, ONE, ZERO};
use super::{Correction, NoCorrection, Region, Scale, Vibration};
use crate::quantity::Unbalance;

/// Below this share of what two columns could make, their determinant is rounding: both trials were one.
const LEAST_SHARE: f64 = 1e-9;

/// A run with trial weights.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialRun {
    /// All that was on the shaft beyond the first run, in plane A and in plane B; mostly one is nothing.
    pub weights: [Across<Unbalance>; 2],
    /// What both pick-ups read.
    pub read: [Vibration; 2],
}

/// Three numbers that go with the three runs.
type Three = [Complex; 3];

fn product(one: Three, other: Three) -> Complex {
    let ([a, b, c], [d, e, f]) = (one, other);
    a * d + b * e + c * f
}

fn square(of: Three) -> f64 {
    of.iter().map(|part| part.square()).sum()
}

/// What is square to both, without a conjugate: the determinant of it, one and other is a sum of squares.
fn cross(one: Three, other: Three) -> Three {
    let ([a, b, c], [d, e, f]) = (one, other);
    [b * f - c * e, c * d - a * f, a * e - b * d]
}

fn conj(of: Three) -> Three {
    of.map(Complex::conj)
}

/// The greater and the lesser singular value of two rows of two.
fn singular(rows: [[Complex; 2]; 2]) -> (f64, f64) {
    let [[a, b], [c, d]] = rows;
    let whole = 0.5 * (a.square() + b.square() + c.square() + d.square());
    let determinant = (a * d - b * c).size();
    let greater = (whole + ((whole - determinant) * (whole + determinant)).max(0.0).sqrt()).sqrt();
    (greater, determinant / greater)
}

/// The weights that still two planes, from three runs; either is in place of all trial weights.
///
/// Formula: H·Wₖ = Vₖ − V₀ gives H, and C = −H⁻¹·V₀. As shares of the trials: V₀ + D·x = 0, D = (V₁ − V₀,
/// V₂ − V₀), C = x₁·W₁ + x₂·W₂. The region of each plane's weight: with b = (1 − x₁ − x₂, x₁, x₂) and
/// A = (V₀, V₁, V₂) all b that bring the plane's weight to c make a plane in three dimensions, ℓ·b = 0 with
/// ℓ = w − c·(1, 1, 1), w = (0, W₁, W₂) in that plane; it holds c while the least of |A·b|²/|b|² over
/// them is at most k. That is ℓ·adj(AᴴA − k)·ℓᴴ ≤ 0: a disc, of middle w·adj·eᴴ/α and radius
/// √(k·(s₁² − k)·(s₂² − k)·(|A·m|² − k·|m|²))/α, α = e·adj·eᴴ, e = (1, 1, 1), m = e × w.
/// Symbols: V vibrations at both pick-ups, W weights in both planes, H effects, complex; s singular values of
/// A; k = q·σ², q the 95 % point of chi-squared for two, 2·F₀.₉₅(2, ν) where the scatter was estimated.
/// Range: amplitudes above 0, σ > 0, ν ≥ 1. `effect` is the lesser singular value of D over σ: what the two
/// trials together change at least, however they are mixed; `condition` is the ratio of H's two.
/// Errors: [`NoCorrection::TooFewTrials`] for a run without weights, [`NoCorrection::SamePlace`] where one
/// run repeats the other's weights, [`NoCorrection::NoEffect`] where no circle holds the answer and a trial
/// changed too little, [`NoCorrection::IllConditioned`] where each changed enough but both alike.
/// Source: influence coefficients (ISO 21940-11; from memory). The region is our own derivation: Fieller's
/// for one plane (see [`one_plane`](super::one_plane())), the other plane's weight taken as the readings
/// like it best; the law of the least singular value makes it chi-squared's with two where the trials
/// show well, and `tests/trials.rs` counts how often it holds the truth. Assumes as for one plane.
pub fn two_planes(
    first: [Vibration; 2],
    trials: [TrialRun; 2],
    scatter: Spread<f64>,
) -> Result<[Correction; 2], NoCorrection> {
    let [one, two] = trials;
    let [a1, b1] = one.weights;
    let [a2, b2] = two.weights;
    let scale = Scale::new(scatter, &[a1, b1, a2, b2])?;
    let sound = first.iter().chain(&one.read).chain(&two.read).all(|vibration| vibration.is_sound());
    if !sound {
        return Err(NoCorrection::NotComputable);
    }
    let weight = |of: Across<Unbalance>| Complex::of_weight(of, scale.weight);
    let in_planes = [[ZERO, weight(a1), weight(a2)], [ZERO, weight(b1), weight(b2)]];
    let [[_, wa1, wa2], [_, wb1, wb2]] = in_planes;
    let sizes = [wa1.square() + wb1.square(), wa2.square() + wb2.square()];
    let got = sizes.iter().filter(|size| **size > 0.0).count();
    if got < 2 {
        return Err(NoCorrection::TooFewTrials { got, needed: 2 });
    }
    let weighed = wa1 * wb2 - wa2 * wb1;
    if weighed.size() <= LEAST_SHARE * sizes.iter().product::<f64>().sqrt() {
        return Err(NoCorrection::SamePlace);
    }
    let read = |of: Vibration| Complex::of_vibration(of, scale.scatter);
    let ([first_a, first_b], [one_a, one_b], [two_a, two_b]) = (first, one.read, two.read);
    let rows = [[first_a, one_a, two_a].map(read), [first_b, one_b, two_b].map(read)];
    let change = rows.map(|[before, one, two]| [one - before, two - before]);
    let (greater, effect) = singular(change);
    // H = D·W⁻¹, but for the determinant of W, which the ratio does not need.
    let effects = change.map(|[one, two]| [one * wb2 - two * wb1, two * wa1 - one * wa2]);
    let (most, least) = singular(effects);
    let condition = most / least;
    if !greater.is_finite() {
        return Err(NoCorrection::NotComputable);
    }
    let Some(known) = Known::new(rows, scale.stretch) else {
        let [shown_one, shown_two] = shown(change);
        let shown = shown_one.min(shown_two);
        return Err(if shown < scale.needed {
            NoCorrection::NoEffect { effect: shown, needed: scale.needed }
        } else if condition.is_finite() {
            NoCorrection::IllConditioned { condition }
        } else {
            NoCorrection::SamePlace
        });
    };
    let mix = known.mix();
    let [found_a, found_b] = in_planes.map(|in_plane| product(in_plane, mix));
    let responses = {
        let [[aa, ab], [ba, bb]] = effects.map(|row| row.map(|effect| effect.size() / weighed.size()));
        [aa.max(ba), ab.max(bb)]
    };
    // Worked out by way of H, not of the shares that the weights came from: rounding is all that may be left.
    let left = |before: Complex, [by_a, by_b]: [Complex; 2]| {
        (before + (by_a * found_a + by_b * found_b).over(weighed)).size() * scale.scatter
    };
    let ([[before_a, ..], [before_b, ..]], [effects_a, effects_b]) = (rows, effects);
    let lefts = [left(before_a, effects_a), left(before_b, effects_b)];
    let doubt = (scale.stretch * square(mix)).sqrt() * scale.scatter;
    let correction = |in_plane: Three, found: Complex, response: f64, expected_left: f64| {
        let (middle, radius) = known.disc(in_plane);
        Correction {
            weight: scale.weight(found),
            region: Region::disc(scale.weight(middle), scale.amount(radius)),
            expected_left,
            left_doubt: doubt,
            response: response * scale.response(),
            effect,
            needed: scale.needed,
            condition,
            disagreement: None,
        }
        .sound()
    };
    let ([plane_a, plane_b], [response_a, response_b], [left_a, left_b]) = (in_planes, responses, lefts);
    Ok([
        correction(plane_a, found_a, response_a, left_a)?,
        correction(plane_b, found_b, response_b, left_b)?,
    ])
}

/// What each trial changed at the pick-up where it changed more.
fn shown(change: [[Complex; 2]; 2]) -> [f64; 2] {
    let [[aa, ab], [ba, bb]] = change.map(|row| row.map(Complex::size));
    [aa.max(ba), ab.max(bb)]
}

/// Three runs whose answer a circle holds.
struct Known {
    rows: [Three; 2],
    /// The mix of the three runs that is still, not scaled yet.
    still: Three,
    /// k.
    k: f64,
    /// The sum of A's squares: s₁² + s₂².
    whole: f64,
    /// (s₁² − k)·(s₂² − k).
    above: f64,
    /// e·adj·eᴴ.
    alpha: f64,
}

impl Known {
    /// `None` where the region is not bounded.
    fn new(rows: [Three; 2], k: f64) -> Option<Known> {
        let [one, two] = rows;
        let still = cross(one, two);
        let whole = square(one) + square(two);
        // |A's rows' cross|² is the determinant of A·Aᴴ (Lagrange).
        let above = square(still) - k * whole + k * k;
        let sum = product([ONE; 3], still).square();
        let runs = product([ONE; 3], one).square() + product([ONE; 3], two).square();
        let alpha = sum - k * (3.0 * whole - runs) + 3.0 * k * k;
        let bounded = alpha > 0.0 && above > 0.0 && whole > 2.0 * k;
        bounded.then_some(Known { rows, still, k, whole, above, alpha })
    }

    /// (1 − x₁ − x₂, x₁, x₂) as the readings have it.
    fn mix(&self) -> Three {
        let sum = product([ONE; 3], self.still);
        self.still.map(|part| part.over(sum))
    }

    /// Middle and radius of a plane's weight.
    fn disc(&self, in_plane: Three) -> (Complex, f64) {
        let [one, two] = self.rows;
        let ones = [ONE; 3];
        let sum = product(ones, in_plane);
        let still = product(in_plane, self.still) * product(ones, self.still).conj();
        // (A·wᴴ)ᴴ·(A·e), one row after the other.
        let runs = [one, two].map(|row| product(row, conj(in_plane)).conj() * product(row, ones));
        let [run_one, run_two] = runs;
        let by_k = (sum.scaled(self.whole) - run_one - run_two).scaled(self.k);
        let middle = (still - by_k + sum.scaled(self.k * self.k)).scaled(1.0 / self.alpha);
        let alone = cross(ones, in_plane);
        let made = product(one, alone).square() + product(two, alone).square();
        let radius = (self.k * self.above * (made - self.k * square(alone))).sqrt() / self.alpha;
        (middle, radius)
    }
}
