//! Run-out: what a turn of dial readings holds.

use super::across::Across;
use super::least_squares::solve;
use super::student::{circle_95, coverage_95};
use crate::quantity::{Angle, Base, Length, as_degrees, clockwise_angle};

/// Fewest stations from which anything can be told.
pub const FEWEST: usize = 3;
/// Most stations taken in one turn: one every ten degrees.
pub const MOST: usize = 36;
/// From this many stations the second order (ovality) can be told.
const FEWEST_FOR_OVALITY: usize = 5;
/// From this many stations the scatter itself gives the ±.
const FEWEST_FOR_SCATTER: usize = 6;
/// Stations closer than this count as the same one.
const SAME_STATION_DEGREES: f64 = 0.5;

/// One reading of the dial, + where the tube stands out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Place on the tube, clockwise from the witness mark seen from the rear.
    pub at: Angle,
    /// The dial's reading.
    pub reading: Length,
}

/// What one turn holds.
#[derive(Clone, Debug, PartialEq)]
pub struct RunOut {
    /// Mean of the fit: where the dial happened to be set.
    pub mean: Length,
    /// Greatest reading less least reading (ASME Y14.5, ISO 1101).
    pub total: Length,
    /// Order 1: how far and to which side the axis stands off; twice its size is its share of the
    /// total reading.
    pub offset: Across<Length>,
    /// Standard uncertainty of the offset in its worst direction.
    pub offset_standard: Length,
    /// Half-width at 95 % of the offset's size, where the offset is large against it.
    pub offset_plus_minus: Length,
    /// Radius of the circle round the offset that holds the true one in 95 of 100 cases.
    pub offset_circle: Length,
    /// Order 2, where the stations can tell it.
    pub ovality: Option<Ovality>,
    /// Standard deviation of what no order explains, where the stations leave something over.
    pub leftover: Option<Length>,
    /// Readings taken.
    pub stations: usize,
}

/// Order 2: an oval tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ovality {
    /// Height of the lobes over the mean.
    pub size: Length,
    /// The lobe at the smaller clock angle, 0° to 180°; the other stands opposite.
    pub at: Angle,
}

/// Why a turn of readings tells nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoFit {
    /// Too few stations.
    TooFew {
        /// Stations with a reading.
        got: usize,
        /// Stations needed.
        needed: usize,
    },
    /// Two readings at one place.
    SamePlace {
        /// That place.
        at: Angle,
    },
    /// All stations on one side: offset and mean cannot be told apart.
    OneSided,
}

impl RunOut {
    /// Whether the offset stands clear of the dial's noise: over three times its standard uncertainty.
    pub fn offset_is_seen(&self) -> bool {
        self.offset.size().base() > 3.0 * self.offset_standard.base()
    }

    /// The height of the fitted curve over its mean at a place: offset and ovality together.
    pub fn fitted(&self, at: Angle) -> Length {
        let oval = self
            .ovality
            .map_or(0.0, |oval| oval.size.base() * (2.0 * (at.base() - oval.at.base())).cos());
        Length::from_base(self.offset_part(at).base() + oval)
    }

    /// The height of the offset's own curve over the mean at a place.
    pub fn offset_part(&self, at: Angle) -> Length {
        let angle = at.base();
        Length::from_base(self.offset.up.base() * angle.cos() + self.offset.right.base() * angle.sin())
    }
}

/// Splits a turn of readings into mean, offset, ovality and what is left.
///
/// Formula: least squares of r(θ) = m + a₁cos θ + b₁sin θ + a₂cos 2θ + b₂sin 2θ; offset (a₁, b₁),
/// ovality √(a₂² + b₂²) at ½·atan2(b₂, a₂). For N evenly spread stations u(A) = s·√(2/N), s with
/// N − 5 degrees of freedom. The scatter is never taken below the dial's own δ/√12.
/// Symbols: θ station, r reading, δ dial division. 3 or 4 stations: order 1 alone, 5: both orders,
/// both with the ± of the division; 6 and up: Student's t and, for the vector, Fisher's F.
/// Range: 3 to 36 stations, anywhere but all on one side. Source: ISO 12181 (least-squares circle);
/// JCGM 100:2008 H.3 for the ± of a fit; our own choice of how few stations may claim what.
/// Assumes a tube whose offset is small against its radius.
///
/// # Errors
/// [`NoFit`] where the stations cannot tell the terms apart.
pub fn fit(stations: &[Station], division: Length) -> Result<RunOut, NoFit> {
    let count = stations.len();
    if count < FEWEST {
        return Err(NoFit::TooFew { got: count, needed: FEWEST });
    }
    if let Some(at) = repeated_place(stations) {
        return Err(NoFit::SamePlace { at });
    }
    let with_ovality = count >= FEWEST_FOR_OVALITY;
    let orders: &[f64] = if with_ovality { &[1.0, 2.0] } else { &[1.0] };
    let mut columns = vec![vec![1.0; count]];
    for order in orders {
        columns.push(stations.iter().map(|s| (order * s.at.base()).cos()).collect());
        columns.push(stations.iter().map(|s| (order * s.at.base()).sin()).collect());
    }
    let target: Vec<f64> = stations.iter().map(|s| s.reading.base()).collect();
    let solution = solve(&columns, &target).map_err(|_| NoFit::OneSided)?;
    let terms = columns.len();
    let spare = count.saturating_sub(terms);

    let line = division.base() / 12.0_f64.sqrt();
    let squares: f64 = solution.residuals.iter().map(|r| r * r).sum();
    let scatter = if spare > 0 { (squares / spare as f64).sqrt() } else { 0.0 };
    // The scatter speaks for itself only where enough readings are left over; where it is finer
    // than the dial's own line, the line is what is known.
    let own_scatter = count >= FEWEST_FOR_SCATTER && scatter > line;
    let (each, freedom) = if own_scatter { (scatter, spare as f64) } else { (line, f64::INFINITY) };
    let offset_standard = each * worst_direction(&solution.covariance).sqrt();

    let mut found = solution.coefficients.iter().copied();
    let mut next = || found.next().unwrap_or(0.0);
    let mean = Length::from_base(next());
    let offset = Across { up: Length::from_base(next()), right: Length::from_base(next()) };
    let ovality = with_ovality.then(|| {
        let (cos, sin) = (next(), next());
        Ovality {
            size: Length::from_base(cos.hypot(sin)),
            at: clockwise_angle(Angle::from_base(
                sin.atan2(cos).rem_euclid(core::f64::consts::TAU) / 2.0,
            )),
        }
    });
    let most = target.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let least = target.iter().copied().fold(f64::INFINITY, f64::min);
    Ok(RunOut {
        mean,
        total: Length::from_base(most - least),
        offset,
        offset_standard: Length::from_base(offset_standard),
        offset_plus_minus: Length::from_base(offset_standard * coverage_95(freedom)),
        offset_circle: Length::from_base(offset_standard * circle_95(freedom)),
        ovality,
        leftover: (spare > 0).then(|| Length::from_base(scatter)),
        stations: count,
    })
}

/// The greater variance of the offset over all directions, for readings of unit variance.
fn worst_direction(covariance: &[Vec<f64>]) -> f64 {
    let cell = |row: usize, column: usize| {
        covariance.get(row).and_then(|cells| cells.get(column)).copied().unwrap_or(0.0)
    };
    let (a, b, c) = (cell(1, 1), cell(1, 2), cell(2, 2));
    0.5 * (a + c) + (0.25 * (a - c).powi(2) + b * b).sqrt()
}

fn repeated_place(stations: &[Station]) -> Option<Angle> {
    let place = |s: &Station| as_degrees(clockwise_angle(s.at));
    stations.iter().enumerate().find_map(|(i, one)| {
        let close = |other: &Station| {
            let apart = (place(one) - place(other)).abs();
            apart.min(360.0 - apart) < SAME_STATION_DEGREES
        };
        stations.iter().skip(i + 1).any(close).then_some(one.at)
    })
}

/// The dial did not come back to where it began.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drifted {
    /// Closing reading less first reading.
    pub by: Length,
}

/// Takes a small drift out of a turn, spread evenly from the first station to the closing one.
///
/// Formula: rᵢ − (closing − first)·i/N. Range: a drift of at most one division. Source: common
/// practice.
///
/// # Errors
/// [`Drifted`] where the dial came back more than one division away: read the turn again.
pub fn without_drift(
    readings: &[Length],
    closing: Length,
    division: Length,
) -> Result<Vec<Length>, Drifted> {
    let Some(first) = readings.first() else {
        return Ok(Vec::new());
    };
    let drift = closing.base() - first.base();
    // A division typed as text and a difference of readings may miss each other in the last bit.
    if drift.abs() > division.base() * (1.0 + 1e-9) {
        return Err(Drifted { by: Length::from_base(drift) });
    }
    let count = readings.len() as f64;
    let corrected = readings.iter().enumerate();
    Ok(corrected.map(|(i, r)| Length::from_base(r.base() - drift * i as f64 / count)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_thousandths, degrees, inches};

    fn turn(readings: &[f64]) -> Vec<Station> {
        let step = 360.0 / readings.len() as f64;
        readings
            .iter()
            .enumerate()
            .map(|(i, r)| Station { at: degrees(step * i as f64), reading: inches(r / 1000.0) })
            .collect()
    }

    fn close(value: f64, expected: f64, within: f64) {
        assert!((value - expected).abs() < within, "{value} against {expected}");
    }

    #[test]
    fn eight_stations() {
        // Derived by an independent script (tests/README.md): 0,3,7,9,8,5,1,−1 at 45°: mean 4.000,
        // A1 5.047566 at 144.7356°, A2 0, s 0.171573 for the five-term fit.
        let fit = fit(&turn(&[0.0, 3.0, 7.0, 9.0, 8.0, 5.0, 1.0, -1.0]), inches(0.0001)).unwrap();
        close(as_thousandths(fit.mean), 4.0, 1e-9);
        close(as_thousandths(fit.offset.size()), 5.047_566, 1e-6);
        close(as_degrees(fit.offset.at()), 144.7356, 1e-4);
        close(as_thousandths(fit.ovality.unwrap().size), 0.0, 1e-9);
        close(as_thousandths(fit.leftover.unwrap()), 0.171_573, 1e-6);
        close(as_thousandths(fit.total), 10.0, 1e-9);
        // u(A1) = s·√(2/N), t₉₅(3) = 3.182 (JCGM 100:2008 table G.2).
        close(as_thousandths(fit.offset_standard), 0.171_573 * 0.5, 1e-6);
        close(as_thousandths(fit.offset_plus_minus), 0.171_573 * 0.5 * 3.182, 5e-5);
    }

    #[test]
    fn offset_and_ovality_told_apart() {
        // Derived by the script: 10 + 6cos(θ−50°) + 2cos2(θ−20°) at 8 stations.
        let eight = [15.38881, 17.26274, 13.06418, 9.23736, 7.67536, 5.30841, 3.87164, 8.19149];
        let got = fit(&turn(&eight), inches(0.001)).unwrap();
        close(as_thousandths(got.offset.size()), 6.0, 1e-4);
        close(as_degrees(got.offset.at()), 50.0, 1e-2);
        close(as_thousandths(got.ovality.unwrap().size), 2.0, 1e-4);
        close(as_degrees(got.ovality.unwrap().at), 20.0, 1e-2);
        // The same rounded to whole units at 12 stations: 6.0340 at 50.30°, 2.0276 at 17.36°.
        let twelve: Vec<f64> = (0..12)
            .map(|i| f64::from(i) * 30.0)
            .map(|at: f64| {
                let part = |order: f64, phase: f64| (order * (at - phase).to_radians()).cos();
                (10.0 + 6.0 * part(1.0, 50.0) + 2.0 * part(2.0, 20.0)).round()
            })
            .collect();
        let got = fit(&turn(&twelve), inches(0.001)).unwrap();
        close(as_thousandths(got.offset.size()), 6.0340, 1e-4);
        close(as_degrees(got.offset.at()), 50.30, 1e-2);
        close(as_thousandths(got.ovality.unwrap().size), 2.0276, 1e-4);
        close(as_degrees(got.ovality.unwrap().at), 17.36, 1e-2);
    }

    #[test]
    fn few_stations_claim_little() {
        // Rule of this house: 3 or 4 stations tell order 1 alone, and the ± is the division's.
        let three = fit(&turn(&[0.0, 4.0, -2.0]), inches(0.001)).unwrap();
        assert!(three.ovality.is_none() && three.leftover.is_none());
        close(as_thousandths(three.offset_standard), (2.0_f64 / 3.0 / 12.0).sqrt(), 1e-9);
        let five = fit(&turn(&[0.0, 4.0, -2.0, 1.0, 0.0]), inches(0.001)).unwrap();
        assert!(five.ovality.is_some() && five.leftover.is_none());
        let two = fit(&turn(&[0.0, 4.0]), inches(0.001));
        assert_eq!(two, Err(NoFit::TooFew { got: 2, needed: 3 }));
    }

    #[test]
    fn laws_of_a_turn() {
        // Laws: a pure offset e reads 2e (ASME Y14.5); turning the tube turns the answer; the dial's
        // zero changes nothing.
        let pure = |turned: f64, zero: f64| -> Vec<Station> {
            (0..16)
                .map(|i| {
                    let at = f64::from(i) * 22.5;
                    let reading = zero + 6.0 * (at - turned).to_radians().cos();
                    Station { at: degrees(at), reading: inches(reading / 1000.0) }
                })
                .collect()
        };
        for (turned, zero) in [(0.0, 0.0), (90.0, 25.0), (202.5, -400.0)] {
            let got = fit(&pure(turned, zero), inches(0.001)).unwrap();
            close(as_thousandths(got.total), 12.0, 1e-9);
            close(as_thousandths(got.offset.size()), 6.0, 1e-9);
            close(as_degrees(got.offset.at()), turned, 1e-7);
        }
    }

    #[test]
    fn bad_turns() {
        let mut same = turn(&[1.0, 2.0, 3.0, 4.0]);
        same[3].at = degrees(0.2);
        assert!(matches!(fit(&same, inches(0.001)), Err(NoFit::SamePlace { .. })));
        let close_by: Vec<Station> =
            (0..3).map(|i| Station { at: degrees(f64::from(i)), reading: inches(0.001) }).collect();
        // Three stations within two degrees still have a solution, with a ± that says it all.
        let got = fit(&close_by, inches(0.001)).unwrap();
        assert!(!got.offset_is_seen());
    }

    #[test]
    fn drift() {
        // By hand: 0, 2, 4, 2 closing at 1 with a division of 1: 0.25 comes off per station.
        let readings = [0.0, 2.0, 4.0, 2.0].map(|r| inches(r / 1000.0));
        let got = without_drift(&readings, inches(0.001), inches(0.001)).unwrap();
        for (value, expected) in got.iter().zip([0.0, 1.75, 3.5, 1.25]) {
            close(as_thousandths(*value), expected, 1e-9);
        }
        assert!(without_drift(&readings, inches(0.003), inches(0.001)).is_err());
    }
}
