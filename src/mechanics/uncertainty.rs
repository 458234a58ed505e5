//! How well a measurement is known: the GUM, cut to what a garage needs.

use super::student::coverage_95;
use crate::quantity::Base;

/// How many repeats it takes before their own scatter says more than the instrument's line. With
/// fewer, Student's factor would blow the ± up to nonsense.
pub const ENOUGH_REPEATS: usize = 4;

/// A standard uncertainty and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread<Q> {
    /// Standard uncertainty u: one standard deviation.
    pub standard: Q,
    /// Degrees of freedom; infinite where u is not an estimate from scatter.
    pub freedom: f64,
}

/// A best value with its spread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured<Q> {
    /// Best value.
    pub best: Q,
    /// Its spread.
    pub spread: Spread<Q>,
}

impl<Q: Base> Spread<Q> {
    /// No doubt at all.
    pub fn none() -> Self {
        Spread { standard: Q::from_base(0.0), freedom: f64::INFINITY }
    }

    /// The half-width for 95 % coverage: U = t₉₅(ν)·u.
    pub fn expanded(self) -> Q {
        Q::from_base(self.standard.base() * coverage_95(self.freedom))
    }
}

/// u of an instrument read to its nearest line: δ/√12.
///
/// Symbols: δ distance between the lines. Source: JCGM 100:2008 F.2.2.1. Assumes that every place
/// between two half-lines is equally likely.
pub fn of_division<Q: Base>(division: Q) -> Spread<Q> {
    rectangular(Q::from_base(division.base() / 2.0))
}

/// u of a value known to lie within ±a and no better: a/√3.
///
/// Symbols: a half-width. Source: JCGM 100:2008 4.3.7.
pub fn rectangular<Q: Base>(half_width: Q) -> Spread<Q> {
    Spread { standard: Q::from_base(half_width.base().abs() / 3.0_f64.sqrt()), freedom: f64::INFINITY }
}

/// Several spreads of one result, each already multiplied by its sensitivity, put together.
///
/// Formula: u = √Σuᵢ², ν = u⁴ / Σ(uᵢ⁴/νᵢ). Source: JCGM 100:2008 (10) and (G.2b), the
/// Welch–Satterthwaite formula. Assumes that the parts are independent.
pub fn combined<Q: Base>(parts: &[Spread<Q>]) -> Spread<Q> {
    let sum: f64 = parts.iter().map(|part| part.standard.base().powi(2)).sum();
    let shared: f64 = parts
        .iter()
        .filter(|part| part.freedom.is_finite())
        .map(|part| part.standard.base().powi(4) / part.freedom)
        .sum();
    Spread {
        standard: Q::from_base(sum.sqrt()),
        freedom: if shared > 0.0 { sum * sum / shared } else { f64::INFINITY },
    }
}

/// The spread that an input's spread causes in a result: half the swing of the result as the input
/// moves one standard uncertainty up and down.
///
/// Formula: (f(x+u) − f(x−u))/2, the sensitivity times u. Source: JCGM 100:2008 5.1.3 note 2.
pub fn swing<Q: Base>(up: Q, down: Q, freedom: f64) -> Spread<Q> {
    Spread { standard: Q::from_base((up.base() - down.base()).abs() / 2.0), freedom }
}

/// The mean of repeat readings of one length, with its spread; `None` without a reading.
///
/// Formula: one reading u = δ/√12. Two or three: the half-range as a rectangular half-width beside
/// the division, √((range/2)²/3 + δ²/12). Four and more: √(s²/n + δ²/12) with s²/n of n−1 degrees of
/// freedom.
/// Symbols: n readings, s their standard deviation, δ the instrument's division.
/// Source: JCGM 100:2008 4.2 (type A), 4.3.7 (rectangular), F.2.2.1 (division). That so few repeats
/// take the half-range is our own choice within 4.3.7.
pub fn mean_of<Q: Base>(readings: &[Q], division: Q) -> Option<Measured<Q>> {
    let line = of_division(division);
    if readings.is_empty() {
        return None;
    }
    let count = readings.len() as f64;
    let best = readings.iter().map(|reading| reading.base()).sum::<f64>() / count;
    let scatter = if readings.len() >= ENOUGH_REPEATS {
        let squares: f64 = readings.iter().map(|r| (r.base() - best).powi(2)).sum();
        Spread { standard: Q::from_base((squares / (count - 1.0) / count).sqrt()), freedom: count - 1.0 }
    } else {
        let most = readings.iter().map(|r| r.base()).fold(f64::NEG_INFINITY, f64::max);
        let least = readings.iter().map(|r| r.base()).fold(f64::INFINITY, f64::min);
        rectangular(Q::from_base((most - least) / 2.0))
    };
    Some(Measured { best: Q::from_base(best), spread: combined(&[scatter, line]) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Angle, as_degrees, as_millimetres, degrees, in_inches, inches, millimetres};

    #[test]
    fn divisions() {
        // Derived from δ/√12: 1/16 in 0.01804 in, 1/32 0.00902 in, 0.001 in 0.000289 in,
        // 0.01 mm 0.00289 mm; inclinometer of 1/4°: 0.0722°, 0.102° for a difference.
        // Each to half a unit in its last printed digit.
        for (division, u, half_digit) in
            [(1.0 / 16.0, 0.018_04, 0.5e-5), (1.0 / 32.0, 0.009_02, 0.5e-5), (0.001, 0.000_289, 0.5e-6)]
        {
            let got = in_inches(of_division(inches(division)).standard);
            assert!((got - u).abs() <= half_digit, "{division}");
        }
        let got = as_millimetres(of_division(millimetres(0.01)).standard);
        assert!((got - 0.002_89).abs() < 5e-6);
        let quarter = of_division::<Angle>(degrees(0.25));
        assert!((as_degrees(quarter.standard) - 0.0722).abs() < 5e-5);
        assert!((as_degrees(combined(&[quarter, quarter]).standard) - 0.102).abs() < 5e-4);
    }

    #[test]
    fn end_gauge_of_the_gum() {
        // Published: JCGM 100:2008 annex H.1: components 25, 9.7, 0, 2.9 and 16.6 nm with 18, 25.6,
        // -, 50 and 2 degrees of freedom give 32 nm (31.7) and 16 degrees of freedom (16.7).
        let parts = [(25.0, 18.0), (9.7, 25.6), (2.9, 50.0), (16.6, 2.0)]
            .map(|(u, freedom)| Spread { standard: millimetres(u * 1e-6), freedom });
        let whole = combined(&parts);
        assert!((as_millimetres(whole.standard) * 1e6 - 31.7).abs() < 0.05);
        // The annex prints 16.7, cut off; 16.76 unrounded.
        assert!((whole.freedom * 10.0).floor() == 167.0);
    }

    #[test]
    fn coarser_line_never_looks_better() {
        // Law: at the same readings the standard uncertainty never shrinks as the division grows.
        let readings = [57.3125, 57.25, 57.3125, 57.28, 57.30].map(inches);
        for count in 1..=readings.len() {
            let mut last = 0.0;
            for division in [0.001, 0.01, 1.0 / 64.0, 1.0 / 32.0, 1.0 / 16.0, 0.125] {
                let u = mean_of(&readings[..count], inches(division)).unwrap().spread.standard;
                assert!(in_inches(u) >= last);
                last = in_inches(u);
            }
        }
        assert!(mean_of(&[], inches(0.1)).is_none());
    }

    #[test]
    fn four_readings_by_hand() {
        // Derived by hand: 10, 10, 10, 14 mm: mean 11, s = 2, s/√4 = 1, three degrees of freedom.
        let four = mean_of(&[10.0, 10.0, 10.0, 14.0].map(millimetres), millimetres(0.0)).unwrap();
        assert!((as_millimetres(four.best) - 11.0).abs() < 1e-12);
        assert!((as_millimetres(four.spread.standard) - 1.0).abs() < 1e-12);
        assert!((four.spread.freedom - 3.0).abs() < 1e-9);
    }
}
