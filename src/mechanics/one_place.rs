//! One place: what a shaft read at one place alone may put out of balance, as a best guess.

use core::f64::consts::PI;

use super::across::Across;
use super::centreline::{Cause, Shaft};
use super::residual::{Body, NoResidual, residual_of};
use super::unbalance::Shares;
use crate::quantity::{Base, Length, Unbalance};

/// A guess and how far it may be off in each joint's plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guess {
    /// What a bow through the place puts out of balance.
    pub shares: Shares,
    /// How far that may be off for another cause, front and rear.
    pub by_cause: [Unbalance; 2],
    /// How far it may be off for what the reading itself leaves open, front and rear.
    pub by_reading: [Unbalance; 2],
}

/// What one offset lets be guessed.
///
/// Formula: a half sine through the place, c(z) = c₀·sin(πz/L)/sin(πz₀/L), by [`residual_of`]. By cause:
/// the largest difference to what a kink at the weld, or the yoke at the cut end off its place, would put
/// out of balance with the same offset at z₀.
/// Symbols: c₀ offset at z₀ behind the front joint, `circle` how well it is known; L joint to joint.
/// Range: 0 < z₀ < L. Near a joint a small offset stands for a large bow, and the guess grows without bound.
/// Source: a beam's first mode for the bow; geometry for the other two. That these three are the causes
/// looked at is our own choice: they are what cutting and welding one end brings about.
///
/// # Errors
/// [`NoResidual`].
pub fn guess(
    body: &Body,
    shaft: &Shaft,
    cut_yoke: Cause,
    (place, offset): (Length, Across<Length>),
    circle: Length,
) -> Result<Guess, NoResidual> {
    let (z, length) = (place.base(), body.length.base());
    if !(z > 0.0 && z < length) {
        return Err(NoResidual::OffTheShaft { z: place });
    }
    if !(offset.size().is_finite() && circle.is_finite()) {
        return Err(NoResidual::NotFinite);
    }
    // Every shape lies in one plane, so that a length toward 12 tells all of it.
    let of_one = |shape: &dyn Fn(f64) -> f64| {
        let here = shape(z);
        let nothing = Length::from_base(0.0);
        let line = |z: Length| Across { up: Length::from_base(shape(z.base()) / here), right: nothing };
        let made = residual_of(body, &line, Some(shaft.weld))?;
        Ok([made.front.up.base(), made.rear.up.base()])
    };
    let bow = of_one(&|z| (PI * z / length).sin())?;
    let mut most = [0.0, 0.0];
    for cause in [Cause::Kink, cut_yoke] {
        let other = of_one(&|z| shaft.shape(cause, z))?;
        for (most, (bow, other)) in most.iter_mut().zip(bow.iter().zip(other)) {
            *most = f64::max(*most, (bow - other).abs());
        }
    }
    let times = |each: [f64; 2], size: Length| each.map(|one| Unbalance::from_base(one * size.base()));
    let [front, rear] = bow;
    let carried = |by: f64| Across {
        up: Unbalance::from_base(offset.up.base() * by),
        right: Unbalance::from_base(offset.right.base() * by),
    };
    Ok(Guess {
        shares: Shares { front: carried(front), rear: carried(rear) },
        by_cause: times(most, offset.size()),
        by_reading: times(bow, circle),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_degrees, as_gram_millimetres, degrees, grams, millimetres};

    /// 1500 mm between the joints, all of it tube of 6 kg, welded 100 mm before the rear joint.
    fn ask(z: f64, offset: f64) -> Result<Guess, NoResidual> {
        let length = millimetres(1500.0);
        let body = Body { length, from: millimetres(0.0), to: length, tube: grams(6000.0), lumps: &[] };
        let shaft = Shaft { length, weld: millimetres(1400.0) };
        let at = Across::toward(millimetres(offset), degrees(70.0));
        guess(&body, &shaft, Cause::RearYoke, (millimetres(z), at), millimetres(0.01))
    }

    #[test]
    fn a_bow_by_hand() {
        // By hand: a half sine of 0.1 mm at its middle has the mean 2/π of it, 6 kg make 6000·0.1·2/π =
        // 381.97 g·mm, half of it in each plane. A kink of 0.1 mm there is 0.1·1400/750 = 0.18667 mm at
        // the weld, half of that on the mean, 560 g·mm; its centre lies at (1500 + 1400)/3 mm, so the rear
        // plane has 560·2900/4500 = 360.89 and the front one 199.11. The yoke off by 0.2 mm: 600 g·mm, two
        // thirds of it in the rear plane, 400, and 200 in the front one.
        let got = ask(750.0, 0.1).unwrap();
        for plane in [got.shares.front, got.shares.rear] {
            assert!((as_gram_millimetres(plane.size()) - 190.986).abs() < 5e-4);
            assert!((as_degrees(plane.at()) - 70.0).abs() < 1e-9);
        }
        let [front, rear] = got.by_cause.map(as_gram_millimetres);
        assert!((front - (200.0 - 190.986)).abs() < 5e-4 && (rear - (400.0 - 190.986)).abs() < 5e-4);
        assert!(got.by_reading.iter().all(|by| (as_gram_millimetres(*by) - 19.0986).abs() < 5e-5));
    }

    #[test]
    fn grows_toward_a_joint() {
        // Law: the same offset nearer a joint stands for a larger bow: 1/sin(πz/L) times as large.
        let middle = ask(750.0, 0.1).unwrap().shares.front.size();
        let near = ask(250.0, 0.1).unwrap().shares.front.size();
        assert!((near.base() / middle.base() - 2.0).abs() < 1e-9);
        for z in [0.0, 1500.0, -1.0, 1501.0, f64::NAN] {
            assert!(ask(z, 0.1).is_err(), "{z}");
        }
        assert!(ask(750.0, f64::NAN).is_err());
    }
}
