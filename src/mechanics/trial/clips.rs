//! Clips: two equal heads on a band round the tube, set apart so that together they make what is wanted.

use core::f64::consts::FRAC_PI_2;

use super::super::across::Across;
use crate::quantity::{Angle, Base, Length, Mass, Unbalance, clockwise_angle, degrees};

/// Two equal heads and where they go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clips {
    /// How far each stands from the wanted place, 0° to 90°.
    pub half: Angle,
    /// The places on the clock of both, from 0° up to 360°: the one before the wanted place, the one after.
    pub at: [Angle; 2],
}

/// Why two heads do not make what is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoClips {
    /// Both in one place make no more than `most`.
    TooLight {
        /// Their unbalance side by side.
        most: Unbalance,
    },
    /// A mass or a distance that is none.
    NotComputable,
}

/// Where two equal heads go to make a wanted unbalance.
///
/// Formula: γ = acos(R/(2W)), W = m·r; the heads at θ ∓ γ.
/// Symbols: R wanted unbalance toward θ; m mass of one head, r distance of its centre from the axis.
/// Range: m, r > 0 and 0 ≤ R ≤ 2W.
/// Errors: [`NoClips::TooLight`] where R > 2W; [`NoClips::NotComputable`] for what is no number.
/// Source: the sum of two vectors of one size. Assumes that the bands themselves balance out.
pub fn clips(head: Mass, radius: Length, wanted: Across<Unbalance>) -> Result<Clips, NoClips> {
    let (mass, distance) = (head.base(), radius.base());
    let most = head * radius * 2.0;
    let share = wanted.size().base() / most.base();
    let computable = mass > 0.0 && distance > 0.0 && most.base().is_finite() && share.is_finite();
    if !computable {
        return Err(NoClips::NotComputable);
    }
    if share > 1.0 {
        return Err(NoClips::TooLight { most });
    }
    let half = Angle::from_base(share.acos());
    let at = [wanted.at() - half, wanted.at() + half].map(clockwise_angle);
    Ok(Clips { half, at })
}

/// What two equal heads make that each stand `half` from the place between them.
///
/// Formula: R = 2W·cos γ.
/// Symbols: W unbalance of one head, γ half the angle between both.
/// Range: `None` unless W ≥ 0 and 0° ≤ γ ≤ 90°. Source: as [`clips`].
pub fn together(one: Unbalance, half: Angle) -> Option<Unbalance> {
    let gamma = half.base();
    let fine = one.base() >= 0.0 && one.base().is_finite() && (0.0..=FRAC_PI_2).contains(&gamma);
    fine.then(|| one * (2.0 * gamma.cos()))
}

/// What two equal heads make at half-angles of 0°, 15° and so on to 90°; `None` as in [`together`].
pub fn table(one: Unbalance) -> Option<[(Angle, Unbalance); 7]> {
    let mut rows = [0.0, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0].map(|half| (degrees(half), one));
    for (half, made) in &mut rows {
        *made = together(one, *half)?;
    }
    Some(rows)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_degrees, as_gram_millimetres, gram_millimetres, grams, millimetres};

    fn set(wanted: f64, at: f64) -> Result<Clips, NoClips> {
        clips(grams(5.0), millimetres(40.0), Across::toward(gram_millimetres(wanted), degrees(at)))
    }

    #[test]
    fn half_angles() {
        // Derived from R = 2W·cos γ: R/W 1 → 60°, 1.5 → 41.41°, 0.5 → 75.52°; W is 200 g·mm here.
        for (share, half) in [(1.0, 60.0), (1.5, 41.41), (0.5, 75.52), (2.0, 0.0), (0.0, 90.0)] {
            let got = set(share * 200.0, 70.0).unwrap();
            assert!((as_degrees(got.half) - half).abs() < 5e-3, "{share}");
        }
        // Law: both heads together are what was wanted, also across 12.
        for (wanted, at) in [(310.0, 70.0), (150.0, 5.0), (399.0, 355.0)] {
            let got = set(wanted, at).unwrap();
            let [one, other] = got.at.map(|place| Across::toward(gram_millimetres(200.0), place));
            let off = one + other - Across::toward(gram_millimetres(wanted), degrees(at));
            assert!(as_gram_millimetres(off.size()) < 1e-9, "{wanted} {at}");
            // Law: there and back.
            let back = together(gram_millimetres(200.0), got.half).unwrap();
            assert!((as_gram_millimetres(back) - wanted).abs() < 1e-9);
        }
    }

    #[test]
    fn a_table_of_half_angles() {
        // By definition of the cosine: 2, √3 and 1 times one head at 0°, 30° and 60°; nothing at 90°.
        let rows = table(gram_millimetres(100.0)).unwrap();
        for (index, made) in [(0, 200.0), (2, 100.0 * 3.0_f64.sqrt()), (4, 100.0), (6, 0.0)] {
            let (half, got) = rows[index];
            assert!((as_degrees(half) - 15.0 * index as f64).abs() < 1e-12);
            assert!((as_gram_millimetres(got) - made).abs() < 1e-9, "{index}");
        }
        assert!(table(gram_millimetres(f64::NAN)).is_none());
    }

    #[test]
    fn what_two_heads_do_not_make() {
        let Err(NoClips::TooLight { most }) = set(400.1, 70.0) else { panic!("enough") };
        assert!((as_gram_millimetres(most) - 400.0).abs() < 1e-9);
        assert_eq!(set(f64::NAN, 70.0), Err(NoClips::NotComputable));
        let wanted = Across::toward(gram_millimetres(1.0), degrees(0.0));
        for (mass, radius) in
            [(0.0, 40.0), (5.0, 0.0), (-5.0, 40.0), (f64::NAN, 40.0), (5.0, f64::INFINITY)]
        {
            let got = clips(grams(mass), millimetres(radius), wanted);
            assert_eq!(got, Err(NoClips::NotComputable), "{mass} {radius}");
        }
        for half in [-1.0, 90.1, f64::NAN] {
            assert!(together(gram_millimetres(1.0), degrees(half)).is_none(), "{half}");
        }
    }
}
