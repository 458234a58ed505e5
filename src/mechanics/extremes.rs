//! Extremes: the least and the greatest of a distance over a whole travel, looked for and not assumed
//! to lie at the ends.

use crate::quantity::{Base, Length};

/// Steps of the first look over the whole travel.
const STEPS: u32 = 64;
/// How closely the place of an extreme is closed in on, in metres or radians.
const CLOSE_ENOUGH: f64 = 1e-9;
/// Most narrowings of one bracket: enough to take 10 m down to [`CLOSE_ENOUGH`].
const NARROWINGS: u32 = 50;
/// The longer part of the golden section, (√5 − 1)/2.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// The least and the greatest distance over a travel, each with the height where it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extremes {
    /// Least distance.
    pub least: Length,
    /// How far above ride it lies; negative: below.
    pub least_at: Length,
    /// Greatest distance.
    pub greatest: Length,
    /// How far above ride it lies; negative: below.
    pub greatest_at: Length,
}

/// The least and the greatest distance over the whole travel from `droop` below ride to `bump` above.
///
/// Formula: the best of 65 evenly spread heights, both ends among them, then the golden section
/// between that height's neighbours until they are a nanometre apart.
/// Symbols: h rise from ride, −droop ≤ h ≤ bump, lengths.
/// Range: `None` unless droop, bump ≥ 0 and the distance is given over the whole travel.
/// Source: golden-section search (J. Kiefer, Sequential minimax search for a maximum, 1953; from
/// memory). Assumes a smooth curve with at most one dip and one crest between two of those heights.
/// The distance comes out to the last bits; the height, where the curve is flat, to a ten-thousandth
/// of a millimetre.
pub fn extremes(
    distance: &dyn Fn(Length) -> Option<Length>,
    droop: Length,
    bump: Length,
) -> Option<Extremes> {
    if !(droop.base() >= 0.0 && bump.base() >= 0.0) {
        return None;
    }
    let value =
        |up: f64| Some(distance(Length::from_base(up))?.base()).filter(|found| found.is_finite());
    // Zero less the droop, so that no droop is a plain zero.
    let ends = least_and_greatest(&value, 0.0 - droop.base(), bump.base())?;
    let [[least, least_at], [greatest, greatest_at]] = ends.map(|end| end.map(Length::from_base));
    Some(Extremes { least, least_at, greatest, greatest_at })
}

/// The least and the greatest value between two places, each with the place where it lies: the search
/// of [`extremes`] for any number of any number. Places where the value is infinite are never the least.
pub(super) fn least_and_greatest(
    value: &dyn Fn(f64) -> Option<f64>,
    low: f64,
    high: f64,
) -> Option<[[f64; 2]; 2]> {
    let step = (high - low) / f64::from(STEPS);
    let mut least = [value(high)?, high];
    let mut greatest = least;
    for i in 0..STEPS {
        let at = low + step * f64::from(i);
        let found = value(at)?;
        if found < least[0] {
            least = [found, at];
        }
        if found > greatest[0] {
            greatest = [found, at];
        }
    }
    // Between the neighbours, or the end where there is none.
    let close_in = |sign: f64, best: [f64; 2]| {
        let bracket = ((best[1] - step).max(low), (best[1] + step).min(high));
        narrowed(value, sign, best, bracket)
    };
    Some([close_in(1.0, least)?, close_in(-1.0, greatest)?])
}

/// The least value and its place in a bracket for `sign` 1, the greatest for −1, or the best so far
/// where the bracket holds nothing better.
fn narrowed(
    value: &dyn Fn(f64) -> Option<f64>,
    sign: f64,
    best: [f64; 2],
    (mut low, mut high): (f64, f64),
) -> Option<[f64; 2]> {
    let inner = |low: f64, high: f64| [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    let [mut lower, mut upper] = inner(low, high);
    let (mut left, mut right) = (value(lower)?, value(upper)?);
    for _ in 0..NARROWINGS {
        if high - low < CLOSE_ENOUGH {
            break;
        }
        // One of the two inner heights is an inner height of the narrower bracket as well.
        if sign * left < sign * right {
            (high, upper, right) = (upper, lower, left);
            [lower, _] = inner(low, high);
            left = value(lower)?;
        } else {
            (low, lower, left) = (lower, upper, right);
            [_, upper] = inner(low, high);
            right = value(upper)?;
        }
    }
    let found = if sign * left < sign * right { [left, lower] } else { [right, upper] };
    Some(if sign * found[0] < sign * best[0] { found } else { best })
}

#[cfg(test)]
mod tests {
    use super::super::luck::luck;
    use super::super::travel::{Link, Swing};
    use super::*;
    use crate::quantity::{degrees, in_inches, inches};

    #[test]
    fn no_height_is_beyond_them() {
        // Law, over seeded luck: none of two thousand heights between the ends has less than the least
        // or more than the greatest, and both are the distance at the height that is given for them.
        let mut between = luck(64);
        let mut inside = 0;
        for round in 0..200 {
            let radius = between(15.0, 60.0);
            let link = Link {
                radius: inches(radius),
                rise: inches(between(-5.0, 5.0)),
                trails: round % 2 == 0,
            };
            let link = (round % 5 != 0).then_some(link);
            let (length, slope) = (inches(between(15.0, 80.0)), degrees(between(-10.0, 10.0)));
            let shaft = Swing { length, slope, link, output: None };
            let (droop, bump) = (between(0.0, 9.0), between(0.0, 9.0));
            let got = extremes(&|up| shaft.distance(up), inches(droop), inches(bump)).unwrap();
            let at = |up: f64| in_inches(shaft.distance(inches(up)).unwrap());
            let [least, greatest] = [got.least, got.greatest].map(in_inches);
            let [least_at, greatest_at] = [got.least_at, got.greatest_at].map(in_inches);
            assert!((at(least_at) - least).abs() < 1e-12 && (at(greatest_at) - greatest).abs() < 1e-12);
            for i in 0..=2000 {
                let here = at(-droop + (droop + bump) * f64::from(i) / 2000.0);
                assert!(here > least - 1e-12 && here < greatest + 1e-12, "{round} {i}");
            }
            let is_inside = |up: f64| up > 0.01 - droop && up < bump - 0.01;
            inside += u32::from(is_inside(least_at) || is_inside(greatest_at));
        }
        // Luck that never met a dip or a crest would prove nothing.
        assert!(inside > 40, "{inside}");
    }

    #[test]
    fn sharp_and_flat() {
        // By construction: a dip between two of the first heights, a flat line, a gap in the travel.
        let look = |distance: &dyn Fn(f64) -> Option<f64>| {
            extremes(&|up| distance(in_inches(up)).map(inches), inches(3.0), inches(5.0))
        };
        let got = look(&|h| Some(40.0 + (h - 1.23456).abs())).unwrap();
        assert!((in_inches(got.least_at) - 1.23456).abs() < 1e-6 && in_inches(got.least) < 40.0 + 1e-6);
        assert!((in_inches(got.greatest_at) + 3.0).abs() < 1e-12);
        let got = look(&|_| Some(40.0)).unwrap();
        assert_eq!(in_inches(got.least), in_inches(got.greatest));
        assert!(look(&|h| (h < 4.9).then_some(40.0)).is_none());
        assert!(look(&|h| Some(if h > 2.0 { f64::NAN } else { 40.0 })).is_none());
    }
}
