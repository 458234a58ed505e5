//! Inches as a tape shows them.

use super::{Length, in_inches};

/// The finest line of the tape in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Denominator {
    /// 1/16 in.
    Sixteenth,
    /// 1/32 in.
    ThirtySecond,
    /// 1/64 in.
    SixtyFourth,
}

impl Denominator {
    /// Lines to the inch.
    pub const fn lines(self) -> u32 {
        match self {
            Denominator::Sixteenth => 16,
            Denominator::ThirtySecond => 32,
            Denominator::SixtyFourth => 64,
        }
    }
}

/// A length in whole inches and a binary fraction in lowest terms, with what is left over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InchFraction {
    /// The length is below zero.
    pub negative: bool,
    /// Whole inches.
    pub whole: u64,
    /// Upper number of the fraction; 0 where there is none.
    pub upper: u32,
    /// Lower number of the fraction, in lowest terms.
    pub lower: u32,
    /// The length less the fraction shown, in inches; signed like the length itself.
    pub leftover: f64,
}

/// The nearest fraction of an inch on a tape of the given line, ties going to the even line.
///
/// Returns `None` where the length is not finite or too long for a tape of any sort (1e9 in).
pub fn inch_fraction(length: Length, finest: Denominator) -> Option<InchFraction> {
    let value = in_inches(length);
    if !value.is_finite() || value.abs() > 1e9 {
        return None;
    }
    let lines = f64::from(finest.lines());
    let nearest = (value * lines).round_ties_even();
    let count = nearest.abs() as u64;
    let per_inch = u64::from(finest.lines());
    let (whole, mut upper, mut lower) = (count / per_inch, (count % per_inch) as u32, finest.lines());
    if upper == 0 {
        lower = 1;
    }
    while upper > 0 && upper % 2 == 0 {
        upper /= 2;
        lower /= 2;
    }
    Some(InchFraction {
        negative: nearest < 0.0,
        whole,
        upper,
        lower,
        leftover: value - nearest / lines,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{inches, millimetres};

    fn parts(length: Length, finest: Denominator) -> (bool, u64, u32, u32, f64) {
        let f = inch_fraction(length, finest).unwrap();
        (f.negative, f.whole, f.upper, f.lower, (f.leftover * 1e4).round() / 1e4)
    }

    #[test]
    fn nearest_line() {
        // Derived by hand from the inch of 25.4 mm: 57.3125 in = 57-5/16; 1455.7 mm = 57.3110 in;
        // 0.8 mm = 0.0315 in.
        let sixteenth = Denominator::Sixteenth;
        assert_eq!(parts(inches(57.3125), sixteenth), (false, 57, 5, 16, 0.0));
        assert_eq!(parts(millimetres(1455.7), sixteenth), (false, 57, 5, 16, -0.0015));
        assert_eq!(parts(millimetres(0.8), Denominator::ThirtySecond), (false, 0, 1, 32, 0.0002));
    }

    #[test]
    fn carries_and_signs() {
        // Arithmetic of fractions, no outside value.
        let finest = Denominator::SixtyFourth;
        assert_eq!(parts(inches(1.999), finest), (false, 2, 0, 1, -0.001));
        assert_eq!(parts(inches(-0.5), finest), (true, 0, 1, 2, 0.0));
        assert_eq!(parts(inches(0.0), finest), (false, 0, 0, 1, 0.0));
        assert!(inch_fraction(inches(f64::NAN), finest).is_none());
        assert!(inch_fraction(inches(1e12), finest).is_none());
    }
}
