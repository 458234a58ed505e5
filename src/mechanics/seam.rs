//! Seam: the few neighbouring readings of a turn that a weld seam or a dent has lifted.

use super::fisher::beyond;
use super::least_squares::{Solution, dot};
use super::runout::{NoFit, RunOut, Station, fit_without, solved, told};
use super::uncertainty::{Spread, of_division};
use crate::quantity::{Base, Length};

/// Fewest stations among which a seam is looked for: fewer would leave too little to know it by.
pub const FEWEST: usize = 12;
/// Most stations that are set aside. At least nine are left, where handbooks ask for eight.
const MOST_ASIDE: usize = 3;
/// A seam's greatest width round the tube, with the last bits of a place: 13 mm on 3 in.
const WIDEST_DEGREES: f64 = 20.0 + 1e-6;
/// How often luck alone may set something aside.
const LUCK: f64 = 0.01;
/// Share of a reading that the others must leave open. Under it the fit passes through the reading
/// whatever it is, and what is left over is made of rounding.
const LEAST_OPEN: f64 = 1e-6;

/// The same as [`fit`](super::runout::fit), but one run of neighbouring stations is set aside where
/// leaving it out lowers the sum of squares by more than luck.
///
/// Formula: leaving out the run R lowers the sum of squares by Δ = e_Rᵀ(I − H_RR)⁻¹e_R; F = (Δ/k)/v,
/// v the greater of (S − Δ)/(ν − k) and δ²/12. The run is set aside for which luck alone gives such an F
/// least often, if that, times the number of runs looked at, is at most 1 in 100.
/// Symbols: k stations of the run, e what the fit of all leaves of each, H what of each reading the fit
/// of all hands on to each station, S its sum of squares with ν = N − 5 degrees of freedom, δ the
/// dial's division.
/// Range: 12 to 36 stations; fewer are fitted as they are. A run spans at most 20° of the tube and
/// holds at most 3 stations. Source: Cook & Weisberg, Residuals and Influence in Regression (from
/// memory) for Δ; Bonferroni's bound for the number of runs. The width, the count and the 1 in 100 are
/// our own choice: a seam of a few millimetres, seen by a dial's round tip somewhat wider.
/// Assumes normal scatter beside the seam. Two seams, or a wide dent, stay in and show in the leftover.
/// Measured by `tests/turns.rs` over 10 000 turns each: with a seam of 3 to 30 divisions and a scatter of
/// 0.5 to 2, the offset is within twice its ± in 99.8 of 100 and in its ellipse in 94; from 10 divisions
/// on its error is 0.28 of what a fit of all makes. Without a seam something is set aside in 0.6 of 100.
///
/// # Errors
/// [`NoFit`] where the stations cannot tell the terms apart.
pub fn fit_but_seam(stations: &[Station], division: Length) -> Result<RunOut, NoFit> {
    let solution = solved(stations, division)?;
    let whole = || told(stations, &solution, division);
    match seam(stations, &solution, division) {
        // What cannot be fitted without its seam is fitted with it.
        Some(run) => fit_without(stations, &run, division).or_else(|_| whole()),
        None => whole(),
    }
}

/// The run that stands out of a turn by more than luck.
fn seam(stations: &[Station], solution: &Solution, division: Length) -> Option<Vec<usize>> {
    if stations.len() < FEWEST {
        return None;
    }
    let next: Vec<(usize, f64)> = (0..stations.len()).map(|index| next(stations, index)).collect();
    let mut looked_at = 0;
    // The best run of each length: how far it lowers the sum of squares, and where it begins.
    let mut best = [(0.0, 0); MOST_ASIDE];
    for begin in 0..stations.len() {
        let lowered = lowered(begin, &next, solution);
        looked_at += lowered.len();
        for (most, by) in best.iter_mut().zip(lowered) {
            if by > most.0 {
                *most = (by, begin);
            }
        }
    }
    let squares = solution.squares();
    let freedom = stations.len().saturating_sub(solution.coefficients.len()) as f64;
    let line: Spread<Length> = of_division(division);
    let mut least = LUCK / looked_at as f64;
    let mut found = None;
    for (length, (by, begin)) in (1_usize..).zip(best) {
        let k = length as f64;
        let each = ((squares - by) / (freedom - k)).max(line.standard.base().powi(2));
        // A dial without lines and readings without scatter make no ratio, and no seam.
        let Some(luck) = beyond(by / k / each, k, freedom - k) else {
            continue;
        };
        if luck <= least {
            least = luck;
            found = Some(run(begin, length, &next));
        }
    }
    found
}

/// The stations of a run, by where it begins.
fn run(begin: usize, length: usize, next: &[(usize, f64)]) -> Vec<usize> {
    let follow = |index: &usize| next.get(*index).map(|(following, _)| *following);
    core::iter::successors(Some(begin), follow).take(length).collect()
}

/// The next station clockwise, and how far off it stands in radians.
fn next(stations: &[Station], index: usize) -> (usize, f64) {
    let at = |index: usize| stations.get(index).map_or(0.0, |station| station.at.base());
    let mut nearest = (index, core::f64::consts::TAU);
    for other in (0..stations.len()).filter(|other| *other != index) {
        let off = (at(other) - at(index)).rem_euclid(core::f64::consts::TAU);
        if off < nearest.1 {
            nearest = (other, off);
        }
    }
    nearest
}

/// How far the sum of squares falls when a run is left out, for runs of one station, two, three, as far
/// as the seam's width reaches.
///
/// I − H_RR = L·Lᵀ row by row, and Δ = |L⁻¹e|², so that each longer run goes on from the one before.
fn lowered(begin: usize, next: &[(usize, f64)], solution: &Solution) -> Vec<f64> {
    let widest = WIDEST_DEGREES.to_radians();
    // The rows of L, each ending in its pivot, and L⁻¹e as far as it goes.
    let mut rows: Vec<Vec<f64>> = Vec::new();
    let mut solved: Vec<f64> = Vec::new();
    let mut falls: Vec<f64> = Vec::new();
    let mut run: Vec<usize> = Vec::new();
    let (mut station, mut span) = (begin, 0.0);
    while run.len() < MOST_ASIDE && span <= widest {
        let handed_on = |other: usize| -> f64 {
            let both = |unit: &Vec<f64>| Some(unit.get(station)? * unit.get(other)?);
            solution.basis.iter().filter_map(both).sum()
        };
        let mut row: Vec<f64> = Vec::new();
        for (above, other) in rows.iter().zip(&run) {
            let pivot = above.last().copied().unwrap_or(1.0);
            row.push((-handed_on(*other) - dot(above, &row)) / pivot);
        }
        let open = 1.0 - handed_on(station) - dot(&row, &row);
        // A number that is none ends the run too.
        if open <= LEAST_OPEN || open.is_nan() {
            break;
        }
        let left = solution.residuals.get(station).copied().unwrap_or(0.0);
        let value = (left - dot(&row, &solved)) / open.sqrt();
        falls.push(falls.last().copied().unwrap_or(0.0) + value * value);
        solved.push(value);
        row.push(open.sqrt());
        rows.push(row);
        run.push(station);
        let Some((following, off)) = next.get(station).copied() else {
            break;
        };
        station = following;
        span += off;
    }
    falls
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::luck::luck;
    use crate::mechanics::runout::fit;
    use crate::quantity::{as_thousandths, degrees, inches};

    const LINE: f64 = 0.001;

    /// A turn at even marks that stands off by 6 and is oval by 2 thousandths, read to whole ones, with
    /// a hump over some of the marks.
    fn turn(count: usize, hump: f64, over: &[usize]) -> Vec<Station> {
        let one = |index: usize| {
            let at = 360.0 * index as f64 / count as f64;
            let part = |order: f64, phase: f64| (order * (at - phase).to_radians()).cos();
            let lifted = if over.contains(&index) { hump } else { 0.0 };
            let reading = (10.0 + 6.0 * part(1.0, 50.0) + 2.0 * part(2.0, 20.0) + lifted).round();
            Station { at: degrees(at), reading: inches(reading / 1000.0) }
        };
        (0..count).map(one).collect()
    }

    #[test]
    fn a_seam_is_set_aside() {
        // By construction: humps of one, two and three marks within 20°, over the end of the list too,
        // up and down; what is left is the turn without them.
        for (count, over) in [
            (12, &[4][..]),
            (16, &[0]),
            (18, &[7, 8]),
            (24, &[23]),
            (36, &[0, 34, 35]),
            (36, &[11, 12, 13]),
        ] {
            for hump in [9.0, 30.0, -12.0] {
                let stations = turn(count, hump, over);
                let found = fit_but_seam(&stations, inches(LINE)).unwrap();
                assert_eq!(found.aside, over, "{count} {hump}");
                assert_eq!(found, fit_without(&stations, over, inches(LINE)).unwrap());
                assert_eq!(found.stations, count - over.len());
                assert!((as_thousandths(found.offset.size()) - 6.0).abs() < 0.4, "{count} {hump}");
                // The hump is no part of the total reading.
                assert!(as_thousandths(found.total) < 17.0);
            }
        }
    }

    #[test]
    fn what_is_no_seam_stays() {
        // Rule of this house: nothing stands out; fewer than 12 marks; a hump wider than a seam; a tube of
        // three lobes; every mark alike.
        let three_lobes = |count: usize| {
            let lobe = |(index, station): (usize, Station)| {
                let at = 3.0 * core::f64::consts::TAU * index as f64 / count as f64;
                Station { reading: station.reading + inches(0.006 * at.cos()), ..station }
            };
            turn(count, 0.0, &[]).into_iter().enumerate().map(lobe).collect::<Vec<_>>()
        };
        let flat = |station: Station| Station { reading: inches(0.004), ..station };
        for stations in [
            turn(24, 0.0, &[]),
            turn(11, 30.0, &[3]),
            turn(36, 30.0, &[3, 4, 5, 6, 7, 8]),
            three_lobes(24),
            turn(24, 0.0, &[]).into_iter().map(flat).collect(),
        ] {
            let found = fit_but_seam(&stations, inches(LINE)).unwrap();
            assert!(found.aside.is_empty(), "{:?}", found.aside);
            assert_eq!(found, fit(&stations, inches(LINE)).unwrap());
        }
        // Even where a dial has no lines: readings without scatter make no ratio, and no stop.
        let flat: Vec<_> = turn(24, 0.0, &[]).into_iter().map(flat).collect();
        assert!(fit_but_seam(&flat, inches(0.0)).is_ok());
    }

    #[test]
    fn how_far_a_run_lowers_the_squares() {
        // Law: as far as the fit without it says.
        let mut luck = luck(11);
        for round in 0..60 {
            let count = 12 + round % 25;
            let step = 360.0 / count as f64;
            let mut one = |index: usize| Station {
                at: degrees(step * (index as f64 + luck(-0.4, 0.4))),
                reading: inches(luck(-0.01, 0.01)),
            };
            let stations: Vec<Station> = (0..count).map(&mut one).collect();
            let solution = solved(&stations, inches(LINE)).unwrap();
            let next: Vec<_> = (0..count).map(|index| next(&stations, index)).collect();
            for begin in 0..count {
                for (length, by) in (1..).zip(lowered(begin, &next, &solution)) {
                    let run = run(begin, length, &next);
                    let kept: Vec<Station> =
                        (0..count).filter(|i| !run.contains(i)).map(|i| stations[i]).collect();
                    let without = solved(&kept, inches(LINE)).unwrap().squares();
                    let off = solution.squares() - by - without;
                    assert!(off.abs() < 1e-10 * solution.squares(), "{count} {run:?} {off}");
                }
            }
        }
    }

    #[test]
    fn order_and_zero_change_nothing() {
        // Laws: the marks read in any order, the clock's zero anywhere, the dial's anywhere.
        let stations = turn(36, 11.0, &[20, 21]);
        let reversed: Vec<Station> = stations.iter().rev().copied().collect();
        let found = fit_but_seam(&reversed, inches(LINE)).unwrap();
        assert_eq!(found.aside, [14, 15]);
        for zero in [-500.0, -3.0, 155.0, 720.0] {
            let moved: Vec<Station> = stations
                .iter()
                .map(|s| Station {
                    at: s.at + degrees(zero),
                    reading: s.reading + inches(zero / 1000.0),
                })
                .collect();
            assert_eq!(fit_but_seam(&moved, inches(LINE)).unwrap().aside, [20, 21], "{zero}");
        }
    }

    #[test]
    fn bad_turns() {
        let with = |at: f64, reading: f64| {
            let mut stations = turn(12, 0.0, &[]);
            stations[5] = Station { at: degrees(at), reading: inches(reading) };
            stations
        };
        for bad in [f64::NAN, f64::INFINITY] {
            for stations in [with(150.0, bad), with(bad, 0.0)] {
                assert_eq!(fit_but_seam(&stations, inches(LINE)), Err(NoFit::NoNumber));
            }
        }
        let same = with(120.0, 0.0);
        assert!(matches!(fit_but_seam(&same, inches(LINE)), Err(NoFit::SamePlace { .. })));
    }
}
