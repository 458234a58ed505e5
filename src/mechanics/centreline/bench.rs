//! The fit of causes to the places: weighted least squares and what is left over.

use super::cause::{AT_THE_WELD, Axis, Cause, Shaft};
use super::{NotExplained, Pair, Place, Suspect};
use crate::mechanics::across::Across;
use crate::mechanics::fisher::beyond;
use crate::mechanics::least_squares::solve;
use crate::mechanics::student::circle_95;
use crate::mechanics::uncertainty::Spread;
use crate::quantity::{Base, Length};

/// What a cause of size one shows nowhere more of than this, is not shown at all: it is rounding.
const NOTHING: f64 = 1e-8;
/// From so many degrees of freedom on a scatter is as good as known.
const AS_GOOD_AS_KNOWN: f64 = 1e4;

/// Everything that was read, made ready.
pub(super) struct Bench<'a> {
    shaft: Shaft,
    axis: Axis,
    places: &'a [Place],
    /// Of each place the lower triangle of its covariance's root: up, right by up, right.
    roots: Vec<[f64; 3]>,
    pub(super) scatter: Spread<Length>,
}

/// What one attempt came to.
pub(super) struct Fit {
    /// One suspect a cause; what is left over is still to be written into them.
    suspects: Vec<Suspect>,
    pub(super) misfit: f64,
    pub(super) luck: f64,
}

impl Bench<'_> {
    pub(super) fn new<'a>(
        shaft: &Shaft,
        axis: Axis,
        places: &'a [Place],
    ) -> Result<Bench<'a>, NotExplained> {
        let (length, _) = shaft.sound().ok_or(NotExplained::BadGeometry)?;
        if !axis.is_sound(length) {
            return Err(NotExplained::BadGeometry);
        }
        for (i, place) in places.iter().enumerate() {
            let (z, offset) = (place.z.base(), place.offset);
            if !(z.is_finite() && offset.up.base().is_finite() && offset.right.base().is_finite()) {
                return Err(NotExplained::NotFinite);
            }
            if !(0.0..=length).contains(&z) {
                return Err(NotExplained::OffTheShaft { z: place.z });
            }
            if places.iter().skip(i + 1).any(|other| (other.z.base() - z).abs() < AT_THE_WELD) {
                return Err(NotExplained::SamePlace { z: place.z });
            }
        }
        let needed = axis.free().len() + 2;
        if places.len() < needed {
            return Err(NotExplained::TooFew { got: places.len(), needed });
        }
        let roots: Option<Vec<_>> = places.iter().map(|place| root(place.unit_covariance)).collect();
        let (roots, scatter) = roots.zip(pooled(places)).ok_or(NotExplained::BadSpread)?;
        Ok(Bench { shaft: *shaft, axis, places, roots, scatter })
    }

    pub(super) fn suspect(&self, cause: Cause) -> Option<Suspect> {
        let fit = self.fit(&[cause])?;
        fit.suspects.first().copied()
    }

    pub(super) fn pair(&self, one: Cause, other: Cause) -> Option<Pair> {
        let fit = self.fit(&[one, other])?;
        let [one, other] = fit.suspects.try_into().ok()?;
        Some(Pair { one, other })
    }

    /// Weighted least squares on these causes and the set-up's free terms; `None` where the places do not
    /// tell them apart, or cannot be reckoned with.
    pub(super) fn fit(&self, causes: &[Cause]) -> Option<Fit> {
        let (length, powers) = (self.shaft.length.base(), self.axis.free());
        let mut columns = Vec::new();
        for power in powers {
            self.add_columns(&mut columns, &|z| (z / length).powi(*power))?;
        }
        for cause in causes {
            self.add_columns(&mut columns, &|z| self.shaft.shown(self.axis, *cause, z))?;
        }
        let mut target = Vec::new();
        for (place, root) in self.places.iter().zip(&self.roots) {
            target.extend(whitened(root, place.offset.up.base(), place.offset.right.base()));
        }
        let solution = solve(&columns, &target).ok()?;
        let misfit: f64 = solution.residuals.iter().map(|left| left * left).sum();
        let spare = self.places.len().checked_sub(powers.len() + causes.len())?;
        let luck = luck(misfit, spare, self.scatter)?;

        let mut vectors = solution.coefficients.chunks(2).map(|two| {
            let part = |i: usize| Length::from_base(two.get(i).copied().unwrap_or(0.0));
            Across { up: part(0), right: part(1) }
        });
        let mut term = |power: i32| powers.contains(&power).then(|| vectors.next()).flatten();
        let rigid = [term(0).unwrap_or(Across::zero()), term(1).unwrap_or(Across::zero())];
        let mut suspects = Vec::new();
        for (i, (cause, size)) in causes.iter().zip(vectors).enumerate() {
            let variance = worst_direction(&solution.covariance, 2 * (powers.len() + i));
            let standard = Length::from_base(self.scatter.standard.base() * variance.sqrt());
            let circle = standard * circle_95(self.scatter.freedom);
            let left = Length::from_base(0.0);
            let (shaft, axis) = (self.shaft, self.axis);
            suspects.push(Suspect {
                cause: *cause,
                size,
                circle,
                standard,
                left,
                luck,
                misfit,
                rigid,
                shaft,
                axis,
            });
        }
        let left = self.left(&suspects);
        suspects.iter_mut().for_each(|suspect| suspect.left = left);
        Some(Fit { suspects, misfit, luck })
    }

    /// Adds what a shape does to up and to right; `None` where it is nothing at every place.
    fn add_columns(&self, columns: &mut Vec<Vec<f64>>, shape: &dyn Fn(f64) -> f64) -> Option<()> {
        let (mut up, mut right, mut most) = (Vec::new(), Vec::new(), 0.0_f64);
        for (place, root) in self.places.iter().zip(&self.roots) {
            let here = shape(place.z.base());
            most = most.max(here.abs());
            up.extend(whitened(root, here, 0.0));
            right.extend(whitened(root, 0.0, here));
        }
        columns.extend([up, right]);
        (most > NOTHING).then_some(())
    }

    /// Root mean square of what these causes together leave at the places.
    fn left(&self, causes: &[Suspect]) -> Length {
        let mut squares = 0.0;
        for place in self.places {
            let mut left = place.offset;
            for (i, cause) in causes.iter().enumerate() {
                // What the set-up adds stands in each of them and is there once.
                left = left - if i == 0 { cause.at(place.z) } else { cause.own(place.z) };
            }
            squares += left.size().base().powi(2);
        }
        Length::from_base((squares / self.places.len() as f64).sqrt())
    }
}

/// A vector in units of its own doubt: the root's inverse times (up, right).
fn whitened([up_up, right_up, right_right]: &[f64; 3], up: f64, right: f64) -> [f64; 2] {
    let up = up / up_up;
    [up, (right - right_up * up) / right_right]
}

/// The lower root of a covariance (Cholesky); `None` where it is none, or some direction is as good as
/// not told from another.
fn root([up, both, right]: [f64; 3]) -> Option<[f64; 3]> {
    let up_up = up.sqrt();
    let right_up = both / up_up;
    let rest = right - right_up * right_up;
    let sound = up > 0.0 && right > 0.0 && rest > NOTHING * right && up.is_finite() && right.is_finite();
    sound.then(|| [up_up, right_up, rest.sqrt()])
}

/// The scatter of one reading over all turns; `None` where there is none.
fn pooled(places: &[Place]) -> Option<Spread<Length>> {
    let (mut squares, mut freedom, mut lines) = (0.0, 0.0, 0.0);
    for Place { scatter, .. } in places {
        let square = scatter.standard.base().powi(2);
        if scatter.freedom.is_infinite() {
            lines += square;
        } else {
            squares += scatter.freedom * square;
            freedom += scatter.freedom;
        }
        if !(scatter.freedom > 0.0 && scatter.standard.base() >= 0.0) {
            return None;
        }
    }
    let (square, freedom) = if freedom > 0.0 {
        (squares / freedom, freedom)
    } else {
        (lines / places.len() as f64, f64::INFINITY)
    };
    let told = square > 0.0 && square.is_finite();
    told.then(|| Spread { standard: Length::from_base(square.sqrt()), freedom })
}

/// How often readings of this scatter leave as large a sum of squares over so many spare places.
///
/// For a scatter that is known, Q = e^(−h)·Σ hʲ/j! over j below the spare places, h = half the sum over
/// the variance (Abramowitz & Stegun 26.4.5 for even degrees of freedom, from memory).
fn luck(misfit: f64, spare: usize, scatter: Spread<Length>) -> Option<f64> {
    let half = misfit / scatter.standard.base().powi(2) / 2.0;
    if scatter.freedom < AS_GOOD_AS_KNOWN {
        return beyond(half / spare as f64, 2.0 * spare as f64, scatter.freedom);
    }
    let mut term = (-half).exp();
    let mut sum = 0.0;
    for j in 1..=spare {
        sum += term;
        term *= half / j as f64;
    }
    (spare > 0 && sum.is_finite()).then_some(sum)
}

/// The greater variance over all directions of the vector whose `up` stands at `first`.
fn worst_direction(covariance: &[Vec<f64>], first: usize) -> f64 {
    let cell = |row: usize, column: usize| {
        covariance.get(row).and_then(|cells| cells.get(column)).copied().unwrap_or(0.0)
    };
    let (up, both, right) = (cell(first, first), cell(first, first + 1), cell(first + 1, first + 1));
    0.5 * (up + right) + (0.5 * (up - right)).hypot(both)
}
