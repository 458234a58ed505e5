//! The reading that stands apart from its fellows: most likely misread, or a digit slipped.

use crate::quantity::Base;

/// How many of the instrument's divisions readings of one size may be apart.
const DIVISIONS: f64 = 3.0;
/// How many times the range of the others a reading may be from their median.
const RANGES: f64 = 3.0;
/// Readings typed as text and their differences may miss each other in the last bit.
const LAST_BIT: f64 = 1.0 + 1e-9;

/// A reading that stands apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Apart<Q> {
    /// Its place in the list.
    pub index: usize,
    /// How far it is from the mean of the others, + where it is greater.
    pub by: Q,
    /// Greatest of the others less least of them.
    pub others: Q,
}

/// The one reading of three or more that stands apart, if one does.
///
/// Formula: the reading farthest from the median of the others, at |x − m| > 3δ and |x − m| > 3w.
/// Symbols: x the reading; m median and w range of the others; δ the instrument's division, of one kind.
/// Range: 3 and more finite readings and δ > 0, else `None`.
/// Source: our own rule. It stands beside Dixon's ratio of the gap to the range (W. J. Dixon, Ratios
/// involving extreme values, Annals of Mathematical Statistics 22, 1951; critical values D. B.
/// Rorabacher, Analytical Chemistry 63, 1991; both from memory): 3w from the median is a ratio above
/// 5/7 for three readings and above 2/3 to 3/4 for more. The published critical value for three
/// readings is 0.94 and up, so near 1 that a quarter inch misread beside two readings 1/32 apart
/// would pass; the 3δ keep this looser ratio from blaming a reading that is only one line off.
/// Assumes that one reading is wrong at most: two alike hide each other.
pub fn stands_apart<Q: Base>(readings: &[Q], division: Q) -> Option<Apart<Q>> {
    let count = readings.len();
    let sound = readings.iter().all(|reading| reading.base().is_finite());
    if !(count >= 3 && sound && division.base() > 0.0) {
        return None;
    }
    let mut farthest = None;
    let mut most = 0.0;
    for (index, reading) in readings.iter().enumerate() {
        let distance = (reading.base() - median_without(readings, index)).abs();
        if distance > most {
            most = distance;
            farthest = Some((index, reading.base()));
        }
    }
    let (index, reading) = farthest?;
    let (mut sum, mut high, mut low) = (0.0, f64::NEG_INFINITY, f64::INFINITY);
    for other in others(readings, index) {
        sum += other;
        high = high.max(other);
        low = low.min(other);
    }
    let apart = most > DIVISIONS * division.base() * LAST_BIT && most > RANGES * (high - low) * LAST_BIT;
    apart.then(|| Apart {
        index,
        by: Q::from_base(reading - sum / (count - 1) as f64),
        others: Q::from_base(high - low),
    })
}

/// By how much exactly two readings disagree, if they do: one of them is misread, and they cannot say
/// which.
///
/// Formula: |x₁ − x₂| > 3δ. Symbols: x readings, δ division, of one kind.
/// Range: two finite readings and δ > 0, else `None`. Source: our own rule, as [`stands_apart`]'s.
pub fn two_disagree<Q: Base>(readings: &[Q], division: Q) -> Option<Q> {
    let [one, other] = readings else {
        return None;
    };
    let apart = (one.base() - other.base()).abs();
    let line = division.base();
    let disagree = line > 0.0 && apart.is_finite() && apart > DIVISIONS * line * LAST_BIT;
    disagree.then(|| Q::from_base(apart))
}

/// All readings but one, as plain numbers.
fn others<Q: Base>(readings: &[Q], but: usize) -> impl Iterator<Item = f64> {
    readings.iter().enumerate().filter(move |(i, _)| *i != but).map(|(_, reading)| reading.base())
}

/// The median of all readings but one, found by counting: a value is in the middle when at most half
/// of them are below it and at most half above. Of two such values the mean is taken.
fn median_without<Q: Base>(readings: &[Q], but: usize) -> f64 {
    let half = (readings.len() - 1) / 2;
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for value in others(readings, but) {
        let below = others(readings, but).filter(|other| *other < value).count();
        let above = others(readings, but).filter(|other| *other > value).count();
        if below <= half && above <= half {
            low = low.min(value);
            high = high.max(value);
        }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, in_inches, inches};

    /// Readings in sixteenths of an inch over 57, read to 1/32 in.
    fn sixteenths<const N: usize>(readings: [f64; N]) -> Option<Apart<Length>> {
        stands_apart(&readings.map(|r| inches(57.0 + r / 16.0)), inches(1.0 / 32.0))
    }

    #[test]
    fn a_slipped_inch() {
        // By hand: 57-5/16, 57-9/32 and 58-5/16: the last, 1-1/64 over the others' mean, which are
        // 1/32 apart.
        let found = sixteenths([5.0, 4.5, 21.0]).unwrap();
        assert_eq!(found.index, 2);
        assert!((in_inches(found.by) - (1.0 + 1.0 / 64.0)).abs() < 1e-12);
        assert!((in_inches(found.others) - 1.0 / 32.0).abs() < 1e-12);
        // The other way: read an inch short, first of four; others' mean 57-5/16, range 1/16.
        let found = sixteenths([-11.0, 5.0, 4.5, 5.5]).unwrap();
        assert_eq!(found.index, 0);
        assert!((in_inches(found.by) + 1.0).abs() < 1e-12);
        // A quarter inch beside two that are one line apart.
        assert_eq!(sixteenths([5.0, 9.0, 4.5]).unwrap().index, 1);
    }

    #[test]
    fn honest_readings() {
        // By hand of the rule, nothing outside: three that agree; three lines off and no more; four.
        assert!(sixteenths([5.0, 4.5, 5.0]).is_none());
        assert!(sixteenths([5.0, 5.0, 5.0]).is_none());
        assert!(sixteenths([5.0, 5.0, 6.5]).is_none());
        assert_eq!(sixteenths([5.0, 5.0, 7.0]).unwrap().index, 2);
        // Exactly three ranges off the median is not more than three.
        assert!(sixteenths([0.0, 2.0, 7.0]).is_none() && sixteenths([0.0, 2.0, 7.5]).is_some());
        // A calliper's scatter round a tube that is a little oval.
        let calliper = [3.002, 2.999, 3.004, 2.998, 3.001, 3.003].map(inches);
        assert!(stands_apart(&calliper, inches(0.001)).is_none());
        // Two wrong alike hide each other, as the doc block owns.
        assert!(sixteenths([5.0, 21.0, 5.0, 21.0]).is_none());
        assert!(sixteenths([5.0, 21.0]).is_none());
        let line = inches(0.1);
        assert!(stands_apart(&[1.0, 1.0, f64::NAN].map(inches), line).is_none());
        assert!(stands_apart(&[1.0, 1.0, f64::INFINITY].map(inches), line).is_none());
        assert!(stands_apart(&[1.0, 1.0, 2.0].map(inches), inches(0.0)).is_none());
    }

    #[test]
    fn laws_of_standing_apart() {
        let lists: [&[f64]; 4] = [
            &[57.3125, 57.28125, 58.3125],
            &[57.25, 57.3125, 56.0, 57.25, 57.28125],
            &[57.25, 57.3125, 57.25, 57.28125],
            &[3.0, 3.1, 3.0, 3.0, 3.0, 3.03125],
        ];
        let line = 1.0 / 32.0;
        let ask = |list: &[f64], line: f64| {
            let list: Vec<Length> = list.iter().copied().map(inches).collect();
            stands_apart(&list, inches(line)).map(|a| (a.index, in_inches(a.by), in_inches(a.others)))
        };
        let same = |one: (usize, f64, f64), other: (usize, f64, f64)| {
            one.0 == other.0 && (one.1 - other.1).abs() < 1e-9 && (one.2 - other.2).abs() < 1e-9
        };
        for list in lists {
            let first = ask(list, line);
            let changed = |change: &dyn Fn(f64) -> f64, line: f64| {
                ask(&list.iter().map(|x| change(*x)).collect::<Vec<_>>(), line)
            };
            let found = [
                changed(&|x| x + 12.5, line),
                changed(&|x| 7.0 * x, 7.0 * line).map(|(i, by, others)| (i, by / 7.0, others / 7.0)),
                changed(&|x| -x, line).map(|(i, by, others)| (i, -by, others)),
            ];
            // Laws: another zero, another unit, the other direction: the same reading stands apart.
            for other in found {
                assert_eq!(other.is_some(), first.is_some());
                assert!(first.zip(other).is_none_or(|(one, two)| same(one, two)));
            }
            // Law: the order of reading changes nothing but the place.
            for turn in 1..list.len() {
                let mut turned = list.to_vec();
                turned.rotate_left(turn);
                let back = ask(&turned, line).map(|(i, by, o)| ((i + turn) % list.len(), by, o));
                assert_eq!(back.is_some(), first.is_some());
                assert!(first.zip(back).is_none_or(|(one, two)| same(one, two)));
            }
        }
        assert_eq!(lists.map(|list| ask(list, line).map(|a| a.0)), [Some(2), Some(2), None, Some(1)]);
    }

    #[test]
    fn two_cannot_say_which() {
        // By hand of the rule: four lines apart; three are let pass; two readings and no more.
        let ask = |a: f64, b: f64| two_disagree(&[inches(a), inches(b)], inches(1.0 / 32.0));
        assert!((in_inches(ask(57.25, 57.375).unwrap()) - 0.125).abs() < 1e-12);
        assert!((in_inches(ask(57.375, 57.25).unwrap()) - 0.125).abs() < 1e-12);
        assert!(ask(57.25, 57.34375).is_none() && ask(57.25, f64::NAN).is_none());
        assert!(two_disagree(&[1.0, 2.0, 3.0].map(inches), inches(0.1)).is_none());
        assert!(two_disagree(&[inches(1.0)], inches(0.1)).is_none());
        assert!(two_disagree(&[1.0, 2.0].map(inches), inches(0.0)).is_none());
    }
}
