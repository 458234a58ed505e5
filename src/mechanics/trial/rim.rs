//! Rim: the region round a correction that was found from amplitudes alone, as an ellipse.

use super::complex::Complex;
use super::distances::{Runs, add};

/// Rays from the answer, evenly round.
const RAYS: u32 = 24;
/// How far out a rim is looked for, in what it would be if the region were an ellipse.
const FAR: f64 = 30.0;
/// By how much the axes may have to be stretched until the ellipse holds its share.
const MOST_STRETCH: f64 = 3.0;
/// Steps that close in, and how closely.
const MOST_STEPS: u32 = 60;
const CLOSE: f64 = 1e-6;
/// What may lie beyond: one in twenty.
const BEYOND: f64 = 0.05;
/// Degrees of freedom above which a scatter counts as known, as for the 95 % circle.
const AS_GOOD_AS_KNOWN: f64 = 1e6;

/// The law of the squares that two unknowns take up.
pub(super) struct Law {
    /// What 95 of 100 stay below.
    pub stretch: f64,
    /// Degrees of freedom of the scatter.
    pub freedom: f64,
}

impl Law {
    /// The share beyond: e^(−x/2), or (1 + x/ν)^(−ν/2) where the scatter was estimated.
    fn beyond(&self, squares: f64) -> f64 {
        // Below the least there is but rounding.
        let x = squares.max(0.0);
        if self.freedom > AS_GOOD_AS_KNOWN {
            (-0.5 * x).exp()
        } else {
            (1.0 + x / self.freedom).powf(-0.5 * self.freedom)
        }
    }
}

/// An ellipse by its middle and a quarter of its half axes' squares as a matrix: xx, xy, yy.
#[derive(Clone, Copy)]
pub(super) struct Oval {
    pub middle: [f64; 2],
    pub moment: [f64; 3],
}

impl Oval {
    fn stretched(&self, by: f64) -> Oval {
        Oval { middle: self.middle, moment: self.moment.map(|part| part * by * by) }
    }

    /// How far its rim is from the origin in a direction; not a number where the origin is outside.
    fn along(&self, [x, y]: [f64; 2]) -> f64 {
        let ([mx, my], [xx, xy, yy]) = (self.middle, self.moment);
        // (t·e − m)ᵀ·M⁻¹·(t·e − m) = 4, times the determinant of M.
        let form = |a: f64, b: f64, c: f64, d: f64| yy * a * c - xy * (a * d + b * c) + xx * b * d;
        let (square, mixed) = (form(x, y, x, y), form(x, y, mx, my));
        let rest = form(mx, my, mx, my) - 4.0 * (xx * yy - xy * xy);
        if rest < 0.0 { (mixed + (mixed * mixed - square * rest).sqrt()) / square } else { f64::NAN }
    }
}

/// Coordinates round a place in which the squares bend alike in all directions.
struct Round<'a> {
    runs: &'a Runs,
    place: Complex,
    least: f64,
    /// The first column's and the second column's parts of the way back: right (x, 0) and (turn, y).
    x: f64,
    turn: f64,
    y: f64,
}

impl Round<'_> {
    /// By Cholesky: bend·g² = L·Lᵀ, and a step in here is L⁻ᵀ times as much out there.
    fn new(runs: &Runs, place: Complex) -> Round<'_> {
        let slope = runs.slope(place);
        let [xx, xy, yy] = slope.bend;
        let first = xx.sqrt();
        let mixed = xy / first;
        let y = 1.0 / ((yy - mixed * mixed).sqrt() * slope.effect);
        let (x, turn) = (1.0 / (first * slope.effect), -mixed / first * y);
        Round { runs, place, least: runs.squares(place), x, turn, y }
    }

    fn out(&self, [x, y]: [f64; 2]) -> Complex {
        Complex { re: self.x * x + self.turn * y, im: self.y * y }
    }

    /// By how much the squares are above the least, so far along a ray.
    fn above(&self, ray: [f64; 2], along: f64) -> f64 {
        self.runs.squares(self.place + self.out(ray).scaled(along)) - self.least
    }
}

fn rays() -> impl Iterator<Item = [f64; 2]> {
    (0..RAYS).map(|ray| {
        let (y, x) = (core::f64::consts::TAU * f64::from(ray) / f64::from(RAYS)).sin_cos();
        [x, y]
    })
}

/// The 95 % region of a correction at `place`, in the units of the weights; `None` where it has no end
/// nearby.
///
/// Formula: first the likelihood's region, S(c) − S(ĉ) ≤ q: rays e(φ) from the place, evenly round in
/// coordinates in which S bends alike all round, t(φ) the distance to the rim. Area ½Σt²Δφ, middle
/// ⅓Σt³·e·Δφ/area, second moments ¼Σt⁴·e·eᵀ·Δφ/area: an ellipse has half axes of twice the roots of these.
/// It is then stretched about its middle until the mean over all rays of the share beyond its rim,
/// e^(−(S − S(ĉ))/2), is 5 %. Where S is a square of the distance, both are the same ellipse.
/// Symbols: S squares left over in units of the scatter's, q the 95 % point for two.
/// Source: our own choice. That likelihood counts as probability along the rays is right where the readings
/// are straight in the trial's effect, which is nearly so (its inverse is the correction); `tests/trials.rs`
/// counts how often the ellipse holds the truth. Unstretched it missed up to ten in a hundred more at five
/// times the scatter, since a region bent like a moon lies partly outside an ellipse of its area.
pub(super) fn rim(runs: &Runs, place: Complex, law: &Law) -> Option<Oval> {
    let round = Round::new(runs, place);
    let (mut area, mut middle, mut moment) = (0.0, [0.0; 2], [0.0; 3]);
    let guess = law.stretch.sqrt();
    for [x, y] in rays() {
        let over = |along: f64| round.above([x, y], along) - law.stretch;
        let along = crossing(&over, -law.stretch, guess, FAR * guess)?;
        let (square, cube) = (along * along / 2.0, along.powi(3) / 3.0);
        area += square;
        add(&mut middle, [cube * x, cube * y]);
        let fourth = square * square;
        add(&mut moment, [fourth * x * x, fourth * x * y, fourth * y * y]);
    }
    let [x, y] = middle.map(|part| part / area);
    let [xx, xy, yy] = moment.map(|part| part / area);
    let plain = Oval { middle: [x, y], moment: [xx - x * x, xy - x * y, yy - y * y] };
    let spare = |stretch: f64| {
        let oval = plain.stretched(stretch);
        let beyond: f64 = rays().map(|ray| law.beyond(round.above(ray, oval.along(ray)))).sum();
        BEYOND - beyond / f64::from(RAYS)
    };
    let stretch = crossing(&spare, BEYOND - 1.0, 1.0, MOST_STRETCH)?;
    let Oval { middle, moment: [xx, xy, yy] } = plain.stretched(stretch);
    // Back out: second moments from both sides.
    let moment = [
        round.x * round.x * xx + 2.0 * round.x * round.turn * xy + round.turn * round.turn * yy,
        round.y * (round.x * xy + round.turn * yy),
        round.y * round.y * yy,
    ];
    let middle = place + round.out(middle);
    Some(Oval { middle: [middle.re, middle.im], moment })
}

/// Where `over` first turns from below nothing, as it is at 0, to above: outward by halves from a guess,
/// then by false position with the standing end's weight halved (the Illinois rule), capped.
fn crossing(over: &dyn Fn(f64) -> f64, at_zero: f64, guess: f64, most: f64) -> Option<f64> {
    let (mut low, mut at_low) = (0.0, at_zero);
    let (mut high, mut at_high) = (guess, over(guess));
    while at_high < 0.0 {
        if high >= most {
            return None;
        }
        (low, at_low) = (high, at_high);
        high = (high * 1.5).min(most);
        at_high = over(high);
    }
    for _ in 0..MOST_STEPS {
        let next = low + (high - low) * at_low / (at_low - at_high);
        let at_next = over(next);
        if at_next.is_nan() {
            return None;
        }
        if at_next.abs() <= -CLOSE * at_zero || high - low <= CLOSE * high {
            return Some(next);
        }
        if at_next < 0.0 {
            (low, at_low, at_high) = (next, at_next, at_high * 0.5);
        } else {
            (high, at_high, at_low) = (next, at_next, at_low * 0.5);
        }
    }
    None
}
