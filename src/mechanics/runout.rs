//! Run-out: what a turn of dial readings holds.

use super::across::Across;
use super::ellipse::Ellipse;
use super::least_squares::{Solution, solve};
use super::student::{circle_95, coverage_95};
use super::uncertainty::{Spread, of_division};
use crate::quantity::{Angle, Base, Length, as_degrees, clockwise_angle};

pub use super::drift::{Drifted, without_drift};

/// Fewest stations from which anything can be told.
pub const FEWEST: usize = 3;
/// Most stations taken in one turn: one every ten degrees.
pub const MOST: usize = 36;
/// From this many stations the second order (ovality) can be told.
const FEWEST_FOR_OVALITY: usize = 5;
/// From this many stations the scatter itself gives the ±.
const FEWEST_FOR_SCATTER: usize = 6;
/// From this many readings left over a scatter under the dial's line may say that the line is all: with
/// one or two it is too often small by luck.
const FEWEST_SPARE_FOR_LINE: f64 = 3.0;
/// So many degrees of freedom are as good as none to doubt.
const AS_GOOD_AS_KNOWN: f64 = 1e6;
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
    /// Greatest reading less least reading (ASME Y14.5, ISO 1101), of those fitted.
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
    /// How well one reading is known: its standard uncertainty and the degrees of freedom of that,
    /// infinite where it is the dial's line alone.
    pub scatter: Spread<Length>,
    /// Covariance of the offset for readings of unit variance: up·up, up·right, right·right.
    pub unit_covariance: [f64; 3],
    /// The ellipse round the offset that holds the true one in 95 of 100 cases.
    pub ellipse: Ellipse<Length>,
    /// Order 2, where the stations can tell it.
    pub ovality: Option<Ovality>,
    /// Standard deviation of what no order explains, where the stations leave something over.
    pub leftover: Option<Length>,
    /// Readings fitted.
    pub stations: usize,
    /// Which of the stations given were set aside, by their place among them.
    pub aside: Vec<usize>,
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
    /// A reading or a place that is no number, a division that is none or below 0, or readings so
    /// large that their squares are none.
    NoNumber,
}

impl RunOut {
    /// Whether the offset stands clear of the dial's noise: over three times its standard uncertainty, and
    /// over its ±, which is more where only a reading or two were left over.
    pub fn offset_is_seen(&self) -> bool {
        let size = self.offset.size().base();
        size > 3.0 * self.offset_standard.base() && size > self.offset_plus_minus.base()
    }

    /// The scatter of these readings alone, whatever the dial's line, with the readings left over; `None`
    /// where they are too few to tell it.
    pub fn own_scatter(&self) -> Option<Spread<Length>> {
        let terms = if self.ovality.is_some() { 5 } else { 3 };
        let spare = self.stations.saturating_sub(terms) as f64;
        let standard = self.leftover.filter(|_| self.stations >= FEWEST_FOR_SCATTER)?;
        Some(Spread { standard, freedom: spare })
    }

    /// Whether the 95 % ellipse holds a vector.
    pub fn holds(&self, vector: Across<Length>) -> bool {
        self.ellipse.holds(vector - self.offset)
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
/// ovality √(a₂² + b₂²) at ½·atan2(b₂, a₂). s² = Σ(what is left)²/(N − p). The offset's covariance is
/// u²·(XᵀX)⁻¹, X the p columns above at the N stations; for evenly spread ones u(A) = u·√(2/N). Its
/// 95 % ellipse has the half axes u·√(2·F₀.₉₅(2, ν)·e), e the eigenvalues of that block of (XᵀX)⁻¹.
/// Symbols: θ station, r reading, p terms fitted (3 or 5), δ dial division; u standard uncertainty of
/// one reading with ν degrees of freedom. 3 or 4 stations: order 1 alone, 5: both orders, in both
/// u = δ/√12 and ν without limit; 6 and up: u the greater of s and δ/√12, and ν = N − p always, with
/// Student's t and, for the vector, Fisher's F. That a few readings happen to scatter less than the
/// dial's line proves little: with ν taken without limit there, the circle held the truth in 92 of 100
/// turns of 8 stations that scatter by half a division, and in 87 of 6.
/// Range: 3 to 36 stations, anywhere but all on one side. Source: ISO 12181 (least-squares circle);
/// JCGM 100:2008 H.3 for the ± of a fit; (G.2b) for ν under the line; our own choice of how few stations
/// may claim what. Assumes a tube whose offset is small against its radius, and normal scatter.
/// Shown by `tests/turns.rs`: against another library's fit, and that the ellipse holds the truth.
///
/// # Errors
/// [`NoFit`] where the stations cannot tell the terms apart.
pub fn fit(stations: &[Station], division: Length) -> Result<RunOut, NoFit> {
    told(stations, &solved(stations, division)?, division)
}

/// The same as [`fit`] without some of the stations: those at the weld seam or in a dent, as marked.
///
/// Symbols: `aside` the places of those stations among `stations`; one beyond the last counts for none.
///
/// # Errors
/// [`NoFit`] where the stations left cannot tell the terms apart.
pub fn fit_without(stations: &[Station], aside: &[usize], division: Length) -> Result<RunOut, NoFit> {
    let mut kept = Vec::new();
    let mut left_out = Vec::new();
    for (index, station) in stations.iter().enumerate() {
        if aside.contains(&index) {
            left_out.push(index);
        } else {
            kept.push(*station);
        }
    }
    fit(&kept, division).map(|found| RunOut { aside: left_out, ..found })
}

/// The terms of a turn by least squares, once it is sure that the stations are fit for it.
///
/// # Errors
/// [`NoFit`].
pub(super) fn solved(stations: &[Station], division: Length) -> Result<Solution, NoFit> {
    let count = stations.len();
    let is_number = |s: &Station| s.at.base().is_finite() && s.reading.base().is_finite();
    let division_is_fine = division.base() >= 0.0 && division.base().is_finite();
    if !(division_is_fine && stations.iter().all(is_number)) {
        return Err(NoFit::NoNumber);
    }
    if count < FEWEST {
        return Err(NoFit::TooFew { got: count, needed: FEWEST });
    }
    if let Some(at) = repeated_place(stations) {
        return Err(NoFit::SamePlace { at });
    }
    let orders: &[f64] = if count >= FEWEST_FOR_OVALITY { &[1.0, 2.0] } else { &[1.0] };
    let mut columns = vec![vec![1.0; count]];
    for order in orders {
        columns.push(stations.iter().map(|s| (order * s.at.base()).cos()).collect());
        columns.push(stations.iter().map(|s| (order * s.at.base()).sin()).collect());
    }
    let target: Vec<f64> = stations.iter().map(|s| s.reading.base()).collect();
    solve(&columns, &target).map_err(|_| NoFit::OneSided)
}

/// The standard uncertainty of one reading: its own scatter, never under the dial's line.
fn floored(own: f64, spare: f64, line: Spread<Length>) -> Spread<Length> {
    let standard = line.standard.base();
    if own >= standard {
        return Spread { standard: Length::from_base(own), freedom: spare };
    }
    let freedom = if spare < FEWEST_SPARE_FOR_LINE { spare } else { spare * (standard / own).powi(4) };
    Spread { freedom: if freedom < AS_GOOD_AS_KNOWN { freedom } else { f64::INFINITY }, ..line }
}

/// What the terms of a turn say.
///
/// # Errors
/// [`NoFit`].
pub(super) fn told(
    stations: &[Station],
    solution: &Solution,
    division: Length,
) -> Result<RunOut, NoFit> {
    let (count, terms) = (stations.len(), solution.coefficients.len());
    let spare = count.saturating_sub(terms);
    let line: Spread<Length> = of_division(division);
    let own = (spare > 0).then(|| (solution.squares() / spare as f64).sqrt());
    let scatter = match own.filter(|_| count >= FEWEST_FOR_SCATTER) {
        Some(own) => floored(own, spare as f64, line),
        None => line,
    };
    let Spread { standard, freedom } = scatter;
    let unit_covariance = offset_block(&solution.covariance);
    // One standard uncertainty first: its long half axis is the worst direction's.
    let one = Ellipse::of(unit_covariance, standard);
    let rim = Ellipse::of(unit_covariance, standard * circle_95(freedom));
    let (Some(one), Some(rim)) = (one, rim) else {
        // Rounding tells it no more than an overflow does; what is finite here was one-sided.
        let overflows = !standard.base().is_finite();
        return Err(if overflows { NoFit::NoNumber } else { NoFit::OneSided });
    };

    let mut found = solution.coefficients.iter().copied();
    let mut next = || found.next().unwrap_or(0.0);
    let mean = Length::from_base(next());
    let offset = Across { up: Length::from_base(next()), right: Length::from_base(next()) };
    let ovality = (terms > 3).then(|| {
        let (cos, sin) = (next(), next());
        Ovality {
            size: Length::from_base(cos.hypot(sin)),
            at: clockwise_angle(Angle::from_base(
                sin.atan2(cos).rem_euclid(core::f64::consts::TAU) / 2.0,
            )),
        }
    });
    let readings = || stations.iter().map(|station| station.reading.base());
    let most = readings().fold(f64::NEG_INFINITY, f64::max);
    let least = readings().fold(f64::INFINITY, f64::min);
    Ok(RunOut {
        mean,
        total: Length::from_base(most - least),
        offset,
        offset_standard: one.long,
        offset_plus_minus: one.long * coverage_95(freedom),
        offset_circle: rim.long,
        scatter,
        unit_covariance,
        ellipse: rim,
        ovality,
        leftover: own.map(Length::from_base),
        stations: count,
        aside: Vec::new(),
    })
}

/// The part of the fit's covariance that belongs to the offset.
fn offset_block(covariance: &[Vec<f64>]) -> [f64; 3] {
    let cell = |row: usize, column: usize| {
        covariance.get(row).and_then(|cells| cells.get(column)).copied().unwrap_or(0.0)
    };
    [cell(1, 1), cell(1, 2), cell(2, 2)]
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

mod tests;
