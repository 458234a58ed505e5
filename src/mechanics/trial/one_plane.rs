//! One plane with phase: one run as it is and one with a trial weight.

use super::super::across::Across;
use super::super::uncertainty::Spread;
use super::complex::{Complex, ONE, ZERO};
use super::{Correction, NoCorrection, Region, Scale, Vibration};
use crate::quantity::Unbalance;

/// The weight that stills one plane, from the vibration without and with a trial weight.
///
/// Formula: H = (R − O)/W, c = −O/H with the trial off again, c = −R/H with it left on. With x = c/W (with
/// the trial left on x = 1 + c/W) the region is |O·(1 − x) + R·x|² ≤ q·σ²·(|1 − x|² + |x|²), a disc:
/// x₀ = −(O·D̄ + k)/(|D|² − 2k), its radius √(k·(|O|² + |R|² − k))/(|D|² − 2k), D = R − O, k = q·σ².
/// Symbols: O first vibration, R that with the trial W, complex; H effect of a weight; σ scatter of either
/// part of one reading; q the 95 % point of chi-squared for two, 2·F₀.₉₅(2, ν) where σ was estimated.
/// Range: amplitudes above 0, W not nothing, σ > 0, ν ≥ 1.
/// Errors: [`NoCorrection::TooFewTrials`] for a trial of no size, [`NoCorrection::NoEffect`] where
/// |D|² ≤ 2k, so that no circle holds the answer, [`NoCorrection::NotComputable`] for the rest.
/// Source: influence coefficients (ISO 21940-11, balancing from trial runs; from memory); the region by
/// E. C. Fieller, J. R. Stat. Soc. B 16 (1954) (from memory), here for complex numbers: for the true x the
/// left side has the variance on the right, so the region holds it in exactly 95 of 100 cases, the unbounded
/// ones counted. Assumes that vibration answers in proportion to weight, and normal scatter alike in both
/// parts of both readings.
pub fn one_plane(
    first: Vibration,
    trial: Across<Unbalance>,
    run: Vibration,
    left_on: bool,
    scatter: Spread<f64>,
) -> Result<Correction, NoCorrection> {
    let scale = Scale::new(scatter, &[trial])?;
    if !(first.is_sound() && run.is_sound()) {
        return Err(NoCorrection::NotComputable);
    }
    let [o, r] = [first, run].map(|vibration| Complex::of_vibration(vibration, scale.scatter));
    let weight = Complex::of_weight(trial, scale.weight);
    let (change, k) = (r - o, scale.stretch);
    let (square, effect) = (change.square(), change.size());
    let bounded = square - 2.0 * k;
    if bounded.is_nan() {
        return Err(NoCorrection::NotComputable);
    }
    if bounded <= 0.0 {
        return Err(NoCorrection::NoEffect { effect, needed: scale.needed });
    }
    let stays = if left_on { ONE } else { ZERO };
    let share = ZERO - o.over(change) - stays;
    let middle = ZERO - (o * change.conj() + ONE.scaled(k)).scaled(1.0 / bounded) - stays;
    let radius = (k * (o.square() + r.square() - k)).sqrt() / bounded * weight.size();
    let now = if left_on { r } else { o };
    Correction {
        weight: scale.weight(share * weight),
        region: Region::disc(scale.weight(middle * weight), scale.amount(radius)),
        expected_left: (now + change * share).size() * scale.scatter,
        // What the line through both readings is worth at x, as in the region.
        left_doubt: (k * ((ONE - share - stays).square() + (share + stays).square())).sqrt()
            * scale.scatter,
        response: effect / weight.size() * scale.response(),
        effect,
        needed: scale.needed,
        condition: 1.0,
        disagreement: None,
    }
    .sound()
}
