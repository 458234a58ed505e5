//! One plane with amplitudes alone: one run as it is and three and more with trial weights.

use super::super::across::Across;
use super::super::chi_squared::passed_by_luck;
use super::super::ellipse::Ellipse;
use super::super::least_squares::{dot, solve};
use super::super::uncertainty::Spread;
use super::complex::{Complex, ZERO};
use super::distances::Runs;
use super::rim::{Law, rim};
use super::{Contradiction, Correction, Disagreement, NoCorrection, Region, Scale, is_amplitude};
use crate::quantity::{Base, Unbalance};

/// The fewest runs with a weight on that tell one answer.
const FEWEST: usize = 3;
/// Below this sine or share of the heaviest trial two places are one, or three lie on a line.
const SAME: f64 = 1e-9;
/// How far apart two places must be to be two answers, as a share of their size: nearer than that no one
/// sets a weight.
const APART: f64 = 1e-3;

/// The weight that stills one plane, from amplitudes alone.
///
/// Formula: a run with the weight w on reads |O + H·w| = g·|w − c|, c = −O/H the correction and g = |H|: the
/// readings are distances from the correction, all on one scale, so
/// S(c) = least over g of Σ(T − g·|w − c|)² over all runs, the first with w = 0 among them. With t = H·W and
/// p + iq its parts along and across O that is T² = O² + t² + 2·O·(p·cos φ + q·sin φ) under t² = p² + q²,
/// each run with weight by its own scatter. The region is S(c) − S(ĉ) ≤ q·σ², and is given as the ellipse of
/// its middle and its second moments.
/// Symbols: O first amplitude, T those with the trials w (with size W at φ on the clock); σ scatter of one
/// reading; q the 95 % point of chi-squared for two, 2·F₀.₉₅(2, ν) where σ was estimated.
/// Range: three trials and more at any places and of any sizes, amplitudes above 0, σ > 0, ν ≥ 1.
/// Errors: [`NoCorrection::TooFewTrials`]; [`NoCorrection::SamePlace`] where all were one;
/// [`NoCorrection::TwoAnswers`] with two trials, with all on one line through the axis (either has a mirror
/// image exactly), and where a second place explains the readings within q·σ² as well;
/// [`NoCorrection::Disagree`] where S(ĉ)/σ² is more than luck makes once in a hundred;
/// [`NoCorrection::NoEffect`] and [`NoCorrection::IllConditioned`] where the region has no end.
/// Source: the four-run method of balancing without phase (common practice), here by least squares; the
/// region by S. S. Wilks, Ann. Math. Stat. 9 (1938) (from memory). It does not take the formula for straight,
/// as an ellipse from its slopes would, which holds the truth in 89 of 100 cases at five times the scatter. Assumes that vibration answers in
/// proportion to weight, and normal scatter alike in all readings.
pub fn amplitudes(
    first: f64,
    trials: &[(Across<Unbalance>, f64)],
    scatter: Spread<f64>,
) -> Result<Correction, NoCorrection> {
    let weights: Vec<_> = trials.iter().map(|(weight, _)| *weight).collect();
    let scale = Scale::new(scatter, &weights);
    if trials.len() < 2 {
        return Err(NoCorrection::TooFewTrials { got: trials.len(), needed: FEWEST });
    }
    let scale = scale?;
    let read = |amplitude: f64| is_amplitude(amplitude).then_some(amplitude / scale.scatter);
    let mut runs = Vec::with_capacity(trials.len() + 1);
    runs.push((ZERO, read(first).ok_or(NoCorrection::NotComputable)?));
    for (weight, amplitude) in trials {
        let amplitude = read(*amplitude).ok_or(NoCorrection::NotComputable)?;
        runs.push((Complex::of_weight(*weight, scale.weight), amplitude));
    }
    let runs = Runs { runs };
    let places = Places::of(&runs);
    if places == Places::One {
        return Err(NoCorrection::SamePlace);
    }
    let mut best = runs.polished(runs.settled(runs.first_look()));
    let mut squares = runs.squares(best);
    let rival = rival(&runs, &mut best, &mut squares);
    if !(squares.is_finite() && best.square().is_finite()) {
        return Err(NoCorrection::NotComputable);
    }
    let far_off = runs.squares_far_off();
    let disagreement = match places {
        Places::Many => Some(agreement(squares.min(far_off), trials.len(), scatter.freedom)?),
        _ => None,
    };
    if let Some(found) = disagreement.filter(|found| found.chi_squared > found.allowed) {
        return Err(NoCorrection::Disagree(Contradiction {
            found,
            squares: both_squares(&runs).map(|pair| pair.map(|t| t * scale.scatter * scale.scatter)),
            scatter: scale.scatter * (found.chi_squared / found.allowed).sqrt(),
        }));
    }
    let changes = || runs.runs.iter().skip(1).map(|(_, read)| (read - first / scale.scatter).abs());
    let shown = changes().fold(0.0, f64::max);
    let slope = runs.slope(best);
    let no_end = || {
        let condition = slope.condition();
        if shown < scale.needed {
            NoCorrection::NoEffect { effect: shown, needed: scale.needed }
        } else if condition.is_finite() {
            NoCorrection::IllConditioned { condition }
        } else {
            NoCorrection::NotComputable
        }
    };
    if far_off - squares <= scale.stretch {
        return Err(no_end());
    }
    let as_good = rival.filter(|(_, above)| *above <= scale.stretch).map(|(place, _)| place);
    // On the mirror itself the two have met.
    let image = if places == Places::Mirrored { as_good.or(Some(best)) } else { as_good };
    if let Some(other) = image {
        return Err(NoCorrection::TwoAnswers([best, other].map(|place| scale.weight(place))));
    }
    let law = Law { stretch: scale.stretch, freedom: scatter.freedom };
    let oval = rim(&runs, best, &law).ok_or_else(no_end)?;
    let ellipse = Ellipse::of(oval.moment, scale.amount(2.0)).ok_or_else(no_end)?;
    let [re, im] = oval.middle;
    let middle = Complex { re, im };
    let region = Region { middle: scale.weight(middle), ellipse };
    let least = runs.runs.iter().skip(1).map(|(weight, _)| weight.size()).fold(f64::INFINITY, f64::min);
    let response = slope.effect * scale.response();
    let furthest = ellipse.long.base() + scale.weight(middle - best).size().base();
    Correction {
        weight: scale.weight(best),
        region,
        // At −O/H the formula leaves nothing.
        expected_left: 0.0,
        left_doubt: response * furthest,
        response,
        // Where the first run is as small, there is hardly anything to balance, and its place is as little known.
        effect: (slope.effect * least).min(first / scale.scatter),
        needed: scale.needed,
        condition: ellipse.long.base() / ellipse.short.base(),
        disagreement,
    }
    .sound()
}

/// How many places the weights were in, the axis among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Places {
    /// One trial only, however often.
    One,
    /// On one circle or line through the axis: any answer has an image that explains the readings alike.
    Mirrored,
    /// More: the readings tell one answer.
    Many,
}

impl Places {
    /// Three points lie on one circle; a fourth may be beside it. The circle's images keep the ratios of
    /// distances from its points.
    fn of(runs: &Runs) -> Places {
        let trials = || runs.runs.iter().skip(1).map(|(weight, _)| *weight).filter(|w| w.size() > SAME);
        let Some(one) = trials().next() else { return Places::One };
        let Some(two) = trials().find(|other| (*other - one).size() > SAME) else { return Places::One };
        let on_it = match circle(one, two) {
            Some((middle, square)) => {
                trials().all(|w| ((w - middle).square() - square).abs() <= SAME * square.max(1.0))
            }
            None => trials().all(|w| is_line(one, w)),
        };
        if on_it { Places::Mirrored } else { Places::Many }
    }
}

fn is_line(one: Complex, two: Complex) -> bool {
    (one.conj() * two).im.abs() <= SAME * one.size() * two.size()
}

/// Middle and squared radius of the circle through the axis and two places; `None` where they lie on a line.
fn circle(one: Complex, two: Complex) -> Option<(Complex, f64)> {
    if is_line(one, two) {
        return None;
    }
    // |m|² = |m − one|² = |m − two|²: 2·(m·w) = |w|² for both, by Cramer's rule.
    let twice = 2.0 * (one.conj() * two).im;
    let middle = Complex {
        re: (one.square() * two.im - two.square() * one.im) / twice,
        im: (one.re * two.square() - two.re * one.square()) / twice,
    };
    Some((middle, middle.square()))
}

/// The image of a place in the circle through the axis and two places, or in their line.
fn image(place: Complex, one: Complex, two: Complex) -> Complex {
    match circle(one, two) {
        Some((middle, square)) => {
            let way = place - middle;
            middle + way.scaled(square / way.square())
        }
        None => (one * (one.conj() * place).conj()).scaled(1.0 / one.square()),
    }
}

/// The second-best answer and by how much it is worse: downhill from the image of the best one in each
/// circle through the axis and two trials. Takes over where it turns out the better one.
fn rival(runs: &Runs, best: &mut Complex, squares: &mut f64) -> Option<(Complex, f64)> {
    let mut second: Option<(Complex, f64)> = None;
    let trials: Vec<Complex> = runs.runs.iter().skip(1).map(|(weight, _)| *weight).collect();
    for (index, one) in trials.iter().enumerate() {
        for two in trials.iter().skip(index + 1) {
            if one.size() <= SAME || two.size() <= SAME || (*one - *two).size() <= SAME {
                continue;
            }
            let place = runs.polished(runs.settled(image(*best, *one, *two)));
            let found = runs.squares(place);
            if !((place - *best).size() > APART * (1.0 + best.size()) && found.is_finite()) {
                continue;
            }
            if found < *squares {
                second = Some((*best, *squares));
                (*best, *squares) = (place, found);
            } else if second.is_none_or(|(_, least)| found < least) {
                second = Some((place, found));
            }
        }
    }
    second.map(|(place, found)| (place, found - *squares))
}

/// How well the readings agree: one scale and one place are taken from them.
fn agreement(squares: f64, trials: usize, of_scatter: f64) -> Result<Disagreement, NoCorrection> {
    let freedom = (trials + 1) as f64 - 3.0;
    let passed = |share| passed_by_luck(share, freedom, of_scatter).ok_or(NoCorrection::NotComputable);
    Ok(Disagreement { chi_squared: squares, freedom, allowed: passed(0.01)?, unlikely: passed(0.05)? })
}

/// t² by itself and p² + q², in scatters squared, for a trial of the trials' mean square.
///
/// Formula: least squares of T² − O² = s·|w|² + 2·O·(h·w) for s and h, each run weighed by 1/T, as the
/// scatter of T² is 2·T·σ; then s·W² and |h|²·W². Source: the cosine rule.
fn both_squares(runs: &Runs) -> Option<[f64; 2]> {
    let ((_, first), trials) = runs.runs.split_first()?;
    let column = |of: &dyn Fn(Complex) -> f64| trials.iter().map(|(w, read)| of(*w) / read).collect();
    let columns: [Vec<f64>; 3] = [
        column(&|weight| weight.square()),
        column(&|weight| 2.0 * first * weight.re),
        column(&|weight| 2.0 * first * weight.im),
    ];
    let target: Vec<f64> = trials.iter().map(|(_, read)| read - first * first / read).collect();
    let solution = solve(&columns, &target).ok()?;
    let (square, parts) = solution.coefficients.split_first()?;
    let mean = trials.iter().map(|(weight, _)| weight.square()).sum::<f64>() / trials.len() as f64;
    let pair = [square * mean, dot(parts, parts) * mean];
    pair.iter().all(|value| value.is_finite()).then_some(pair)
}
