//! Apportioning: one weight made two at places where weights may stand.

use super::across::Across;
use super::unbalance::{Shares, Spot};
use crate::quantity::{Angle, Base, Length, Unbalance};

/// What rounding leaves of parts that cancel, as a share of them.
const LAST_BITS: f64 = 1e-12;
/// The sine under which two places on the clock are one, or opposite each other: some 0.2 arc seconds.
const SAME_LINE: f64 = 1e-6;
/// How near two places along the shaft may come before they count as one, in metres. Our own choice: no
/// weight is set closer.
const ONE_PLACE: f64 = 0.001;

/// Why an unbalance cannot be had from two places on the clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotSplit {
    /// It does not point between them, so that one would have to be taken off.
    NotBetween,
    /// They are one place, or opposite each other, and it points to neither.
    OneLine,
    /// A number that is none.
    NotFinite,
}

/// What to put at each of two places on the clock to have an unbalance between them.
///
/// Formula: R·sin(a₂ − θ)/sin(a₂ − a₁) at the first, R·sin(θ − a₁)/sin(a₂ − a₁) at the second.
/// Symbols: R size and θ clock place of the unbalance; a₁, a₂ the two places, in either order.
/// Range: θ within the shorter arc from the one to the other, its ends included to the last bits.
/// Source: the law of sines in the triangle of the three vectors.
///
/// # Errors
/// [`NotSplit`].
pub fn on_clock(
    wanted: Across<Unbalance>,
    first: Angle,
    second: Angle,
) -> Result<[Unbalance; 2], NotSplit> {
    let size = wanted.size().base();
    let (first_sin, first_cos) = first.base().sin_cos();
    let (second_sin, second_cos) = second.base().sin_cos();
    let (up, right) = (wanted.up.base(), wanted.right.base());
    let apart = second_sin * first_cos - second_cos * first_sin;
    if !(size.is_finite() && apart.is_finite()) {
        return Err(NotSplit::NotFinite);
    }
    if apart.abs() < SAME_LINE {
        return Err(NotSplit::OneLine);
    }
    let toward = [up * second_sin - right * second_cos, right * first_cos - up * first_sin];
    let [one, other] = toward.map(|part| if part.abs() < LAST_BITS * size { 0.0 } else { part / apart });
    match one >= 0.0 && other >= 0.0 {
        true => Ok([one, other].map(Unbalance::from_base)),
        false => Err(NotSplit::NotBetween),
    }
}

/// The unbalances at two places along the shaft that do the same as those in the joints' planes.
///
/// Formula: u₁ = (A·z₂ + B·(z₂ − L))/(z₂ − z₁), u₂ = (B·(L − z₁) − A·z₁)/(z₂ − z₁), as vectors.
/// Symbols: A, B the shares in the front and the rear joint's plane; L joint-to-joint length; z₁, z₂ the
/// places. Behind or before a place one of them points the other way.
/// Range: `None` unless the places are 1 mm or more apart, L > 0 and all is finite.
/// Source: statics of a rigid body: force and couple are kept. Assumes a rigid shaft.
pub fn at_places(shares: Shares, length: Length, places: [Length; 2]) -> Option<[Spot; 2]> {
    let [one, other] = places.map(Base::base);
    let (length, apart) = (length.base(), other - one);
    if !(length > 0.0 && apart.abs() >= ONE_PLACE) {
        return None;
    }
    let first = shares.front.scaled(other / apart) + shares.rear.scaled((other - length) / apart);
    let second = shares.front.scaled(-one / apart) + shares.rear.scaled((length - one) / apart);
    let found = Shares { front: first, rear: second };
    let [first_place, second_place] = places;
    found.are_finite().then_some([
        Spot { unbalance: first, z: first_place },
        Spot { unbalance: second, z: second_place },
    ])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_gram_millimetres, degrees, gram_millimetres, millimetres};

    fn toward(size: f64, at: f64) -> Across<Unbalance> {
        Across::toward(gram_millimetres(size), degrees(at))
    }

    fn spot(size: f64, at: f64, z: f64) -> Spot {
        Spot { unbalance: toward(size, at), z: millimetres(z) }
    }

    fn clock(size: f64, at: f64, first: f64, second: f64) -> Result<[f64; 2], NotSplit> {
        let got = on_clock(toward(size, at), degrees(first), degrees(second))?;
        Ok(got.map(as_gram_millimetres))
    }

    #[test]
    fn split_over_the_clock() {
        // Derived from the law of sines by hand: 10@37° on 30°/60°: 10·sin 23°/sin 30° = 7.814623,
        // 10·sin 7°/sin 30° = 2.437387. Published inputs (reliability journal article), derived: 1.925@250°
        // on 240°/280°: 1.49738, 0.52004.
        for (size, at, first, second, expected, half_digit) in [
            (10.0, 37.0, 30.0, 60.0, [7.814_623, 2.437_387], 5e-7),
            (1.925, 250.0, 240.0, 280.0, [1.497_38, 0.520_04], 5e-6),
            // By symmetry: across 12 o'clock, half of the way: R/(2·cos 20°) each.
            (10.0, 0.0, 340.0, 20.0, [5.320_889, 5.320_889], 5e-7),
        ] {
            let got = clock(size, at, first, second).unwrap();
            let back = clock(size, at, second, first).unwrap();
            for i in 0..2 {
                assert!((got[i] - expected[i]).abs() < half_digit, "{got:?}");
                assert!((back[1 - i] - got[i]).abs() < 1e-12);
            }
        }
        // On one of the places it is all there; of nothing both are nothing.
        assert_eq!(clock(10.0, 30.0, 30.0, 60.0).unwrap()[1], 0.0);
        assert_eq!(clock(10.0, 60.0, 30.0, 60.0).unwrap()[0], 0.0);
        assert_eq!(clock(0.0, 0.0, 30.0, 60.0), Ok([0.0, 0.0]));
    }

    #[test]
    fn not_split() {
        // By definition of what may be asked.
        for at in [29.9, 60.1, 200.0, 225.0] {
            assert_eq!(clock(10.0, at, 30.0, 60.0), Err(NotSplit::NotBetween), "{at}");
        }
        for (first, second) in [(30.0, 30.0), (30.0, 210.0), (10.0, 370.0)] {
            assert_eq!(clock(10.0, 40.0, first, second), Err(NotSplit::OneLine));
        }
        for (size, at, first) in
            [(f64::NAN, 40.0, 30.0), (10.0, f64::NAN, 30.0), (10.0, 40.0, f64::INFINITY)]
        {
            assert_eq!(clock(size, at, first, 60.0), Err(NotSplit::NotFinite));
        }
    }

    #[test]
    fn along_the_shaft() {
        // By hand: 20 at 12 of 48 is 15 and 5 in the planes; carried at 6 and 30 it is 15 and 5 again:
        // 20·(30 − 12)/24 and 20·(12 − 6)/24.
        let length = millimetres(48.0);
        let shares = Shares::zero().with(spot(20.0, 30.0, 12.0), length);
        let [one, other] = at_places(shares, length, [6.0, 30.0].map(millimetres)).unwrap();
        assert!((one.unbalance - toward(15.0, 30.0)).size() < gram_millimetres(1e-9));
        assert!((other.unbalance - toward(5.0, 30.0)).size() < gram_millimetres(1e-9));
        for places in [[6.0, 6.5], [6.0, 6.0], [f64::NAN, 30.0], [6.0, f64::INFINITY]] {
            assert!(at_places(shares, length, places.map(millimetres)).is_none());
        }
        assert!(at_places(shares, millimetres(0.0), [6.0, 30.0].map(millimetres)).is_none());
    }
}
