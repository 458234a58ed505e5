//! Distances: amplitudes as what they are, the distances of the trial weights from the correction.

use super::complex::Complex;

/// Places round and distances out of the first look, in the heaviest trial's size.
const ROUND: u32 = 12;
const OUT: [f64; 8] = [0.125, 0.25, 0.5, 1.0, 1.5, 2.5, 5.0, 12.0];
/// Steps downhill; a dozen are usual.
const MOST_STEPS: u32 = 200;
/// Where a step moves the place so little that the squares do not show it.
const CLOSE: f64 = 1e-8;
/// Where the damping has stopped a step altogether.
const STUCK: f64 = 1e15;
/// Runs without phase: where the weight was (nothing in the first run), and what was read.
///
/// The law of all of them: read = g·|w − c|, c the correction, g the effect of a weight of size 1. It is
/// |O + H·w| with c = −O/H and g = |H|.
pub(super) struct Runs {
    pub runs: Vec<(Complex, f64)>,
}

/// How the squares change near a place.
pub(super) struct Slope {
    /// Half of their curvature for g = 1: xx, xy, yy.
    pub bend: [f64; 3],
    /// How they fall, likewise.
    fall: [f64; 2],
    /// The effect of a weight of size 1 that suits the place best.
    pub effect: f64,
}

impl Runs {
    /// g for a correction at `place`: the least squares of one factor.
    fn effect(&self, place: Complex) -> f64 {
        let (mut both, mut own) = (0.0, 0.0);
        for (weight, read) in &self.runs {
            let distance = (place - *weight).size();
            both += read * distance;
            own += distance * distance;
        }
        both / own
    }

    /// The sum of squares that a correction at `place` leaves, with the effect that suits it best.
    pub fn squares(&self, place: Complex) -> f64 {
        let effect = self.effect(place);
        let left = |(weight, read): &(Complex, f64)| read - effect * (place - *weight).size();
        self.runs.iter().map(|run| left(run).powi(2)).sum()
    }

    /// The sum of squares that no effect at all leaves: a correction out of reach.
    pub fn squares_far_off(&self) -> f64 {
        let mean = self.runs.iter().map(|(_, read)| read).sum::<f64>() / self.runs.len() as f64;
        self.runs.iter().map(|(_, read)| (read - mean).powi(2)).sum()
    }

    /// Formula: with e the unit vectors from the weights to the place, d the distances, y the readings:
    /// fall Σ(y − g·d)·e, bend Σe·eᵀ − (Σd·e)(Σd·e)ᵀ/Σd², g = Σy·d/Σd².
    pub fn slope(&self, place: Complex) -> Slope {
        let effect = self.effect(place);
        let (mut bend, mut fall, mut along, mut own) = ([0.0; 3], [0.0; 2], [0.0; 2], 0.0);
        for (weight, read) in &self.runs {
            let way = place - *weight;
            let distance = way.size();
            own += distance * distance;
            // On the very place of a weight there is no direction: it does not pull.
            if distance > 0.0 {
                let (x, y, left) = (way.re / distance, way.im / distance, read - effect * distance);
                add(&mut bend, [x * x, x * y, y * y]);
                add(&mut fall, [left * x, left * y]);
                add(&mut along, [way.re, way.im]);
            }
        }
        let [x, y] = along;
        add(&mut bend, [-x * x / own, -x * y / own, -y * y / own]);
        Slope { bend, fall, effect }
    }

    /// Downhill from `place` to where the squares are least nearby, by damped Gauss–Newton steps with g
    /// taken out (variable projection, Golub and Pereyra 1973, in Kaufman's form).
    pub fn settled(&self, mut place: Complex) -> Complex {
        let (mut squares, mut damping) = (self.squares(place), 1e-3);
        for _ in 0..MOST_STEPS {
            let step = self.slope(place).step(damping);
            let next = place + step;
            let after = self.squares(next);
            if after < squares {
                (place, squares, damping) = (next, after, damping * 0.1);
            } else {
                damping *= 8.0;
            }
            // A step that no longer shows, in the squares or against their rounding.
            if step.size() <= CLOSE * place.size() || damping > STUCK {
                break;
            }
        }
        place
    }

    /// A settled place to its last digits. The squares are flat there to half of them, so each further step
    /// is taken as long as it is shorter than the one before.
    pub fn polished(&self, mut place: Complex) -> Complex {
        let mut last = CLOSE.sqrt() * place.size();
        for _ in 0..MOST_STEPS {
            let step = self.slope(place).step(0.0);
            let size = step.size();
            let is_shorter = size < last;
            if !is_shorter {
                break;
            }
            place = place + step;
            last = size;
        }
        place
    }

    /// The place with the least squares of a grid round the clock.
    pub fn first_look(&self) -> Complex {
        let mut best = (f64::INFINITY, Complex::polar(1.0, 0.0));
        for out in OUT {
            for step in 0..ROUND {
                // Off the straight lines on which trials are likely to lie.
                let round = core::f64::consts::TAU * (f64::from(step) + 0.31) / f64::from(ROUND);
                let place = Complex::polar(out, round);
                let squares = self.squares(place);
                if squares < best.0 {
                    best = (squares, place);
                }
            }
        }
        best.1
    }
}

impl Slope {
    /// The step that the curvature asks for, damped.
    fn step(&self, damping: f64) -> Complex {
        let ([xx, xy, yy], [x, y]) = (self.bend, self.fall);
        let (xx, yy) = (xx * (1.0 + damping), yy * (1.0 + damping));
        let by = 1.0 / ((xx * yy - xy * xy) * self.effect);
        Complex { re: (yy * x - xy * y) * by, im: (xx * y - xy * x) * by }
    }

    /// How much worse the place is known one way than another.
    pub fn condition(&self) -> f64 {
        let [xx, xy, yy] = self.bend;
        let greater = 0.5 * (xx + yy) + (0.25 * (xx - yy).powi(2) + xy * xy).sqrt();
        // By the product of both, since their difference would lose the smaller one's digits.
        greater / (xx * yy - xy * xy).max(0.0).sqrt()
    }
}

/// Adds part by part.
pub(super) fn add<const N: usize>(sum: &mut [f64; N], parts: [f64; N]) {
    sum.iter_mut().zip(parts).for_each(|(sum, part)| *sum += part);
}
