//! Trial weights: what to put where so that a turning shaft stops shaking, from runs with known weights.
//!
//! Amplitudes are in whatever unit the instrument shows, plain numbers above 0: it goes out of the answer.
//! A weight is its unbalance, mass times distance from the axis, toward its place on the clock.

use super::across::Across;
use super::ellipse::Ellipse;
use super::student::circle_95;
use super::uncertainty::Spread;
use crate::quantity::{Angle, AngularVelocity, Base, Force, Unbalance, turn_rate_squared};

mod amplitudes;
pub mod clips;
mod complex;
mod distances;
mod one_plane;
mod phase;
mod rim;
#[cfg(test)]
mod tests;
mod two_planes;

pub use amplitudes::amplitudes;
pub use one_plane::one_plane;
pub use phase::{PickUp, Spin, shaft_phase};
pub use two_planes::{TrialRun, two_planes};

/// How many times its scatter a reading must change by so that a region at 95 % keeps its promise, where the
/// scatter is known. Our own choice; `tests/trials.rs` shows what holds from there on.
pub const LEAST_EFFECT: f64 = 5.0;
/// Degrees of freedom of a scatter that was taken from the range of five readings: two fifths of it, since its
/// root mean square is 2.48 scatters. Published: A. J. Duncan, Quality Control and Industrial Statistics, table
/// of d₂* (from memory), 3.8; `tests/handbook/range_of_five.py` finds 3.83 by integration and by luck.
pub const FREEDOM_OF_FIVE: f64 = 3.8;
/// The share of the load at rest that a trial's force may be. Common practice, no source.
const MOST_OF_LOAD: f64 = 0.1;
/// By how much a trial should change amplitude, as a share, or else phase, in degrees.
const LEAST_SHARE: f64 = 0.3;
const LEAST_TURN_DEGREES: f64 = 30.0;

/// A vibration at the shaft's own speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vibration {
    /// Its amplitude, above 0.
    pub amplitude: f64,
    /// Its phase on the shaft, in the sense of the weights: see [`shaft_phase`].
    pub phase: Angle,
}

impl Vibration {
    fn is_sound(&self) -> bool {
        is_amplitude(self.amplitude) && self.phase.base().is_finite()
    }
}

fn is_amplitude(value: f64) -> bool {
    value > 0.0 && value.is_finite()
}

/// Where the true correction lies in 95 of 100 cases. Its middle is not quite the correction: what a small
/// effect divides reaches further out than in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Region {
    /// The middle of the ellipse.
    pub middle: Across<Unbalance>,
    /// The ellipse round it.
    pub ellipse: Ellipse<Unbalance>,
}

impl Region {
    fn disc(middle: Across<Unbalance>, radius: Unbalance) -> Self {
        Region { middle, ellipse: Ellipse { long: radius, short: radius, at: Angle::from_base(0.0) } }
    }

    /// Whether it holds a weight.
    pub fn holds(&self, weight: Across<Unbalance>) -> bool {
        self.ellipse.holds(weight - self.middle)
    }
}

/// What to put where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Correction {
    /// The weight, on top of what was on in the first run (of the trial as well where that was left on).
    pub weight: Across<Unbalance>,
    /// Where the true one lies at 95 %.
    pub region: Region,
    /// The amplitude to expect with it; with two planes at this plane's pick-up, both weights on.
    pub expected_left: f64,
    /// How much more than that the readings' scatter allows for at 95 %.
    pub left_doubt: f64,
    /// Amplitude per unbalance in SI units (kg·m); with two planes at the pick-up that shows more of it.
    pub response: f64,
    /// The smallest effect of a trial over the scatter; with two planes of their least lucky mix.
    pub effect: f64,
    /// The effect from which on the region keeps its promise; below it a heavier trial is called for.
    pub needed: f64,
    /// How much worse it is known one way than another: with amplitudes alone the ratio of the region's
    /// axes, with two planes that of the singular values of their effects; 1 at best.
    pub condition: f64,
    /// Whether the readings agree with each other, where there are more than the answer needs.
    pub disagreement: Option<Disagreement>,
}

impl Correction {
    /// The same where every number is one.
    fn sound(self) -> Result<Correction, NoCorrection> {
        let ellipse = self.region.ellipse;
        let fine = [
            self.weight.size().base(),
            self.region.middle.size().base(),
            ellipse.long.base(),
            ellipse.short.base(),
            ellipse.at.base(),
            self.expected_left,
            self.left_doubt,
            self.response,
            self.effect,
            self.condition,
        ];
        if fine.iter().all(|number| number.is_finite()) {
            Ok(self)
        } else {
            Err(NoCorrection::NotComputable)
        }
    }

    /// The amplitude to expect with another weight in place of the correction, what that leaves included.
    ///
    /// Formula: |H|·|w − c| + the amplitude that the correction leaves.
    /// Symbols: H effect of a weight, c correction, w weight put on. Range: any weight.
    /// Source: proportion; with two planes the other plane's correction is taken to be on, and the pick-up
    /// that shows more of this plane is meant.
    pub fn left_with(&self, weight: Across<Unbalance>) -> f64 {
        self.response * (weight - self.weight).size().base() + self.expected_left
    }
}

/// How far readings stand from what any single weight would make.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disagreement {
    /// The squares left over, in units of the scatter's.
    pub chi_squared: f64,
    /// How many readings there are beyond what the answer needs.
    pub freedom: f64,
    /// What luck passes once in a hundred.
    pub allowed: f64,
    /// What it passes once in twenty.
    pub unlikely: f64,
}

impl Disagreement {
    /// Whether luck leaves as much once in twenty times at the most.
    pub fn is_unlikely(&self) -> bool {
        self.chi_squared > self.unlikely
    }
}

/// Readings that no single weight explains.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contradiction {
    /// By how much.
    pub found: Disagreement,
    /// The square of a trial's effect as it comes out by itself, and out of its two parts: one and the same
    /// where the readings agree. In the amplitude's unit squared, for a trial of the trials' mean square;
    /// none where the trials do not tell them apart.
    pub squares: Option<[f64; 2]>,
    /// The scatter of a reading from which on luck would explain it.
    pub scatter: f64,
}

/// Why there is no correction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoCorrection {
    /// Fewer runs with a weight on than it takes.
    TooFewTrials {
        /// How many there are.
        got: usize,
        /// How many it takes.
        needed: usize,
    },
    /// The trials sat in one place, or one repeats another.
    SamePlace,
    /// The trials changed too little to be told from scatter.
    NoEffect {
        /// What they changed, in scatters: by phase the smallest, by amplitudes alone the greatest change.
        effect: f64,
        /// The change that is enough.
        needed: f64,
    },
    /// The readings contradict each other.
    Disagree(Contradiction),
    /// Two weights explain the readings alike; a run with a trial elsewhere tells which.
    TwoAnswers([Across<Unbalance>; 2]),
    /// The trials show enough, but all of them much the same.
    IllConditioned {
        /// How much worse the answer is known one way than another.
        condition: f64,
    },
    /// A number that is none, an amplitude or a scatter not above 0.
    NotComputable,
}

/// The units in which the readings' scatter and the heaviest trial are 1.
struct Scale {
    /// One standard deviation of a reading.
    scatter: f64,
    /// The heaviest trial in SI units.
    weight: f64,
    /// q: the square of the factor from a standard deviation to the 95 % circle.
    stretch: f64,
    /// The effect that is enough.
    needed: f64,
}

impl Scale {
    fn new(scatter: Spread<f64>, weights: &[Across<Unbalance>]) -> Result<Scale, NoCorrection> {
        let mut weight = 0.0_f64;
        for size in weights.iter().map(|weight| weight.size().base()) {
            if !size.is_finite() {
                return Err(NoCorrection::NotComputable);
            }
            weight = weight.max(size);
        }
        if !(is_amplitude(scatter.standard) && scatter.freedom >= 1.0) {
            return Err(NoCorrection::NotComputable);
        }
        if weight <= 0.0 {
            return Err(NoCorrection::TooFewTrials { got: 0, needed: 1 });
        }
        let factor = circle_95(scatter.freedom);
        Ok(Scale {
            scatter: scatter.standard,
            weight,
            stretch: factor * factor,
            needed: enough(scatter.freedom),
        })
    }

    fn weight(&self, number: complex::Complex) -> Across<Unbalance> {
        number.as_weight(self.weight)
    }

    fn amount(&self, number: f64) -> Unbalance {
        Unbalance::from_base(number * self.weight)
    }

    /// What an effect of 1 is in the amplitude's unit per unbalance.
    fn response(&self) -> f64 {
        self.scatter / self.weight
    }
}

/// How many times its scatter a reading must change by, where the scatter has so many degrees of freedom.
///
/// Formula: 5·√(F₀.₉₅(2, ν)/F₀.₉₅(2, ∞)): as far out as the region's circle grows. Symbols: ν degrees of freedom.
/// Range: ν ≥ 1. Source: our own choice ([`LEAST_EFFECT`]); `tests/trials.rs` shows what holds from there on.
pub fn enough(freedom: f64) -> f64 {
    LEAST_EFFECT * circle_95(freedom) / circle_95(f64::INFINITY)
}

/// Whether a trial changed enough to be believed: amplitude by 30 % or phase by 30°.
///
/// Range: `false` for amplitudes not above 0 and numbers that are none.
/// Source: a training note on vibration analysis for balancing.
pub fn changed_enough(first: Vibration, run: Vibration) -> bool {
    if !(first.is_sound() && run.is_sound()) {
        return false;
    }
    let share = (run.amplitude / first.amplitude - 1.0).abs();
    // Between two directions: by the cosine, which knows no full turns.
    let turned = (run.phase.base() - first.phase.base()).cos();
    share >= LEAST_SHARE || turned <= LEAST_TURN_DEGREES.to_radians().cos()
}

/// The heaviest trial weight to begin with: its force is a tenth of what rests on that end.
///
/// Formula: U = 0.1·F/ω².
/// Symbols: F load at rest on the shaft's end, ω speed of the run.
/// Range: `None` unless F, ω > 0. Source: common practice, no source, for the tenth; U·ω² by ISO 21940-2.
pub fn most_trial(load: Force, speed: AngularVelocity) -> Option<Unbalance> {
    let most = MOST_OF_LOAD * load.base() / turn_rate_squared(speed);
    let fine = load.base() > 0.0 && speed.base() > 0.0 && is_amplitude(most);
    fine.then(|| Unbalance::from_base(most))
}
