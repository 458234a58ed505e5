//! A budget of doubts: which measurement brings how much of a result's ±.

use super::uncertainty::{Measured, Spread, combined};
use crate::quantity::{Base, Length};

/// A length reckoned from measured ones as a sum of multiples, that remembers what each measurement
/// brings to it.
///
/// A cause names one measurement: wherever it comes in again it is the same reading with the same
/// doubt, so that its sensitivities add before they are squared.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget<C> {
    /// Best value.
    pub best: Length,
    parts: Vec<Part<C>>,
}

/// What one measurement brings to a result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part<C> {
    /// The measurement.
    pub cause: C,
    /// By how much the result moves as the measurement moves by one: the sensitivity, a plain number.
    pub share: f64,
    /// The measurement's own spread.
    pub spread: Spread<Length>,
}

impl<C> Part<C> {
    /// The part of the result's spread: |c|·u.
    fn spread(&self) -> Spread<Length> {
        let standard = Length::from_base((self.share * self.spread.standard.base()).abs());
        Spread { standard, freedom: self.spread.freedom }
    }
}

impl<C: Copy + PartialEq> Budget<C> {
    /// A length without doubt.
    pub fn exact(best: Length) -> Self {
        Budget { best, parts: Vec::new() }
    }

    /// A measured length.
    pub fn of(cause: C, measured: Measured<Length>) -> Self {
        let part = Part { cause, share: 1.0, spread: measured.spread };
        Budget { best: measured.best, parts: vec![part] }
    }

    /// This length and a multiple of another; −1 takes the other off.
    ///
    /// Formula: y = a + k·b, c(y) = c(a) + k·c(b) for each cause.
    /// Symbols: k a plain number; c sensitivity. Source: JCGM 100:2008 5.1.3 (sensitivities of a sum).
    /// Exact for sums of multiples; for anything else k is the slope at the best value.
    pub fn plus(mut self, factor: f64, other: &Budget<C>) -> Self {
        self.best = Length::from_base(self.best.base() + factor * other.best.base());
        for part in &other.parts {
            let share = factor * part.share;
            match self.parts.iter_mut().find(|own| own.cause == part.cause) {
                Some(own) => own.share += share,
                None => self.parts.push(Part { share, ..*part }),
            }
        }
        self
    }

    /// The length with its spread.
    ///
    /// Formula: u² = Σ(c·u)², ν = u⁴ / Σ((c·u)⁴/ν), over the causes.
    /// Symbols: c sensitivity, u standard uncertainty and ν degrees of freedom of each measurement.
    /// Source: JCGM 100:2008 (10) and (G.2b). Assumes that the measurements are independent of each
    /// other.
    pub fn measured(&self) -> Measured<Length> {
        let spreads: Vec<_> = self.parts.iter().map(Part::spread).collect();
        Measured { best: self.best, spread: combined(&spreads) }
    }

    /// What each measurement brings, |c|·u, the most first; those that bring nothing are left out.
    pub fn causes(&self) -> Vec<(C, Length)> {
        let mut found: Vec<(C, Length)> = Vec::with_capacity(self.parts.len());
        for part in &self.parts {
            let brings = part.spread().standard;
            if brings.base() > 0.0 {
                let before = found.iter().take_while(|(_, other)| *other >= brings).count();
                found.insert(before, (part.cause, brings));
            }
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::super::uncertainty::{mean_of, of_division};
    use super::*;
    use crate::quantity::{as_millimetres, in_inches, inches, millimetres};

    fn measured(best: f64, u: f64, freedom: f64) -> Measured<Length> {
        Measured { best: millimetres(best), spread: Spread { standard: millimetres(u), freedom } }
    }

    fn close(value: f64, expected: f64, within: f64) {
        assert!((value - expected).abs() <= within, "{value} against {expected}");
    }

    #[test]
    fn end_gauge_of_the_gum() {
        // Published: JCGM 100:2008 annex H.1, table H.1: 25, 9.7, 2.9 and 16.6 nm with 18, 25.6, 50
        // and 2 degrees of freedom give 32 nm (31.7) and 16 (16.7). From memory: the gauge of
        // 50.000623 mm and the difference of 215 nm give 50.000838 mm; the 16.6 nm are 0.029 °C times
        // 575 nm/°C, which is 11.5e-6/°C of 50 mm, and the difference's 9.7 nm with 25.6 are 5.8, 3.9
        // and 6.7 nm with 24, 5 and 8.
        let nanometre = 1e-6;
        let part = |cause, u: f64, freedom| Budget::of(cause, measured(0.0, u * nanometre, freedom));
        let gauge = Budget::of('s', measured(50.000_623, 25.0 * nanometre, 18.0));
        let difference = Budget::of('d', measured(0.000_215, 9.7 * nanometre, 25.6));
        let whole = gauge
            .clone()
            .plus(1.0, &difference)
            .plus(-1.0, &part('a', 2.9, 50.0))
            .plus(-575.0, &part('t', 0.029, 2.0));
        let got = whole.measured();
        close(as_millimetres(got.best), 50.000_838, 1e-9);
        close(as_millimetres(got.spread.standard) / nanometre, 31.7, 0.05);
        close(got.spread.freedom.floor(), 16.0, 0.0);
        let order: Vec<_> = whole.causes().into_iter().map(|(cause, _)| cause).collect();
        assert_eq!(order, ['s', 't', 'd', 'a']);
        // The difference in its own parts: the same to the digits printed.
        let parts = part('r', 5.8, 24.0).plus(1.0, &part('1', 3.9, 5.0)).plus(1.0, &part('2', 6.7, 8.0));
        close(as_millimetres(parts.measured().spread.standard) / nanometre, 9.7, 0.05);
        // Law: parts put together at once, or some of them first, are one spread.
        let some_first = gauge.clone().plus(1.0, &Budget::of('d', parts.measured())).measured();
        let at_once = gauge.plus(1.0, &parts).measured();
        close(at_once.spread.standard.base() / some_first.spread.standard.base(), 1.0, 1e-12);
        close(at_once.spread.freedom / some_first.spread.freedom, 1.0, 1e-12);
    }

    #[test]
    fn a_reading_is_itself_wherever_it_comes_in() {
        let (x, y) =
            (Budget::of('x', measured(7.0, 0.3, 5.0)), Budget::of('y', measured(2.0, 0.4, 9.0)));
        // Law: x − x has no doubt and no cause.
        let none = x.clone().plus(-1.0, &x);
        assert!(none.measured().spread == Spread::none() && none.causes().is_empty());
        assert_eq!(as_millimetres(none.best), 0.0);
        // Law: x + x is 2x, not √2 of it; (x + y) + (x − y) is 2x again.
        let twice = Budget::exact(millimetres(0.0)).plus(2.0, &x).measured();
        close(as_millimetres(twice.spread.standard), 0.6, 1e-12);
        close(twice.spread.freedom, 5.0, 1e-12);
        let sum = x.clone().plus(1.0, &y).plus(1.0, &x.clone().plus(-1.0, &y));
        close(as_millimetres(sum.measured().spread.standard), 0.6, 1e-12);
        assert_eq!(sum.causes().len(), 1);
        // By hand: 3 and 4 tenths make 5 tenths, added or taken off.
        for factor in [1.0, -1.0] {
            let both = x.clone().plus(factor, &y).measured();
            close(as_millimetres(both.spread.standard), 0.5, 1e-12);
            close(as_millimetres(both.best), 7.0 + factor * 2.0, 1e-12);
        }
        // Law: a length without doubt moves the best value alone.
        let moved = x.clone().plus(1.0, &Budget::exact(millimetres(10.0))).measured();
        assert_eq!(moved.spread.standard, x.measured().spread.standard);
        close(as_millimetres(moved.best), 17.0, 1e-12);
    }

    #[test]
    fn the_order_of_a_sum_does_not_matter() {
        // Law: any order gives one spread and one order of causes, the most first.
        let part = |i: usize| Budget::of(i, measured(1.0, [0.2, 0.9, 0.4, 0.0, 0.7][i], 4.0 + i as f64));
        let sum = |order: [usize; 5]| {
            order.iter().fold(Budget::exact(millimetres(0.0)), |sum, i| sum.plus(-1.5, &part(*i)))
        };
        let first = sum([0, 1, 2, 3, 4]);
        let names = |budget: &Budget<usize>| budget.causes().iter().map(|c| c.0).collect::<Vec<_>>();
        assert_eq!(names(&first), [1, 4, 2, 0]);
        close(as_millimetres(first.causes()[0].1), 1.35, 1e-12);
        for order in [[4, 3, 2, 1, 0], [2, 0, 4, 1, 3], [3, 1, 0, 4, 2]] {
            let other = sum(order);
            assert_eq!(names(&other), names(&first));
            let (one, two) = (first.measured().spread, other.measured().spread);
            close(as_millimetres(one.standard), as_millimetres(two.standard), 1e-12);
            close(one.freedom, two.freedom, 1e-9);
        }
    }

    #[test]
    fn coarser_line_never_looks_better() {
        // Law: at the same readings the combined standard uncertainty never shrinks as one
        // instrument's division grows.
        let (old, new) = ([57.3125, 57.25, 57.28, 57.30, 57.3125], [55.5, 55.53, 55.5, 55.47]);
        for count in 1..=4 {
            let mut last = 0.0;
            for division in [0.001, 0.01, 1.0 / 64.0, 1.0 / 32.0, 1.0 / 16.0, 0.125] {
                let mean = |readings: &[f64], division: f64| {
                    let readings: Vec<_> = readings[..count].iter().copied().map(inches).collect();
                    mean_of(&readings, inches(division)).unwrap()
                };
                let gap = Measured { best: inches(0.06), spread: of_division(inches(1.0 / 64.0)) };
                let cut = Budget::of("old", mean(&old, division))
                    .plus(-1.0, &Budget::of("new", mean(&new, 1.0 / 32.0)))
                    .plus(1.0, &Budget::of("gap", gap));
                let u = in_inches(cut.measured().spread.standard);
                assert!(u >= last);
                last = u;
            }
        }
    }
}
