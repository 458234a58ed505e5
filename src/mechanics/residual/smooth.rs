//! The same for a centreline that is known everywhere: the shape that a cause makes.

use super::super::across::Across;
use super::super::centreline::AT_THE_WELD;
use super::super::unbalance::{Shares, Spot};
use super::{Body, NoResidual, across};
use crate::quantity::{Base, Length};

/// Places and weights of the five-point rule of Gauss and Legendre on −1 to 1; the other half is alike.
/// Source: Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4 (from memory).
pub(super) const GAUSS: [[f64; 2]; 5] = [
    [-0.906_179_845_938_664, 0.236_926_885_056_189_1],
    [-0.538_469_310_105_683_1, 0.478_628_670_499_366_47],
    [0.0, 0.568_888_888_888_888_9],
    [0.538_469_310_105_683_1, 0.478_628_670_499_366_47],
    [0.906_179_845_938_664, 0.236_926_885_056_189_1],
];
/// Panels from one corner to the next.
const PANELS: u32 = 4;

/// What a centreline of any shape puts out of balance.
///
/// Formula: as of [`super::residual`], the integral by Gauss's rule of five points on four panels between
/// the tube's ends and the weld: exact for a parabola or a broken line, to 1e-12 of itself for a half sine
/// from joint to joint.
/// Symbols: `shape` the offset at z from the line through the joints' centres, such as
/// [`super::super::centreline::Suspect::own`]; `weld` where it may have a corner or a step.
/// Range: where the shape is finite all along. No ± comes of it: a shape's size has its own, and the answer
/// is as many times larger as the size is.
/// Source: as of [`super::residual`]; Gauss's rule in any text on numerical integration.
///
/// # Errors
/// [`NoResidual`].
pub fn residual_of(
    body: &Body,
    shape: &dyn Fn(Length) -> Across<Length>,
    weld: Option<Length>,
) -> Result<Shares, NoResidual> {
    body.check()?;
    let (from, to) = (body.from.base(), body.to.base());
    let per_length = body.tube.base() / (to - from);
    let mut sum = body.lumps_alone();
    let mut add = |mass: f64, z: f64| {
        let z = Length::from_base(z);
        sum = sum.with(Spot { unbalance: across(mass, shape(z)), z }, body.length);
    };
    // A step is taken for a place within 1 mm of the weld, on the side of the longer piece.
    let weld = weld.map_or(from, Base::base);
    if !weld.is_finite() {
        return Err(NoResidual::NotFinite);
    }
    let mut start = from;
    for end in [weld - AT_THE_WELD, weld, weld + AT_THE_WELD, to] {
        let end = end.min(to);
        if end <= start {
            continue;
        }
        let half = (end - start) / f64::from(2 * PANELS);
        for panel in 0..PANELS {
            let middle = start + half * f64::from(2 * panel + 1);
            for [place, weight] in GAUSS {
                add(per_length * half * weight, middle + half * place);
            }
        }
        start = end;
    }
    for lump in body.lumps {
        add(lump.mass.base(), lump.z.base());
    }
    if sum.are_finite() { Ok(sum) } else { Err(NoResidual::NotFinite) }
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use super::super::{Lump, Point, residual};
    use super::*;
    use crate::mechanics::uncertainty::Spread;
    use crate::quantity::{as_gram_millimetres, grams, kilograms, millimetres};

    /// A tube of 8 kg from 100 to 1300 of 1400 mm.
    fn body(lumps: &[Lump]) -> Body<'_> {
        let [length, from, to] = [1400.0, 100.0, 1300.0].map(millimetres);
        Body { length, from, to, tube: kilograms(8.0), lumps }
    }

    fn up(size: f64) -> Across<Length> {
        Across { up: millimetres(size), right: millimetres(0.0) }
    }

    #[test]
    fn a_half_sine_in_closed_form() {
        // Derived by hand: ∫sin(πz/L)dz from a to b is L/π·(cos πa/L − cos πb/L), half of it in each plane
        // where a and b lie alike to the middle.
        let half_sine = |z: Length| up((PI * z.base() / 1.4).sin());
        let expected = 8000.0 / 1200.0 * 1400.0 / PI * 2.0 * (PI * 100.0 / 1400.0).cos() / 2.0;
        for weld in [None, Some(millimetres(1200.0)), Some(millimetres(20.0)), Some(millimetres(1399.5))]
        {
            let got = residual_of(&body(&[]), &half_sine, weld).unwrap();
            for plane in [got.front, got.rear] {
                assert!((as_gram_millimetres(plane.up) / expected - 1.0).abs() < 1e-12);
                assert!(plane.right.base() == 0.0);
            }
        }
    }

    #[test]
    fn a_broken_line_is_the_one_through_its_corner() {
        // Law: a kink at the weld is what one point there makes, whatever hangs on it.
        let lumps = [
            Lump { mass: grams(900.0), z: millimetres(60.0), beside: up(0.2) },
            Lump { mass: grams(1200.0), z: millimetres(1350.0), beside: up(-0.1) },
        ];
        let kink = |z: Length| {
            let z = z.base() * 1000.0;
            up(if z < 1100.0 { 0.4 * z / 1100.0 } else { 0.4 * (1400.0 - z) / 300.0 })
        };
        let point = Point { z: millimetres(1100.0), offset: up(0.4), spread: Spread::none() };
        let one = residual(&body(&lumps), &[point]).unwrap().shares();
        let other = residual_of(&body(&lumps), &kink, Some(millimetres(1100.0))).unwrap();
        let off = one - other;
        assert!(as_gram_millimetres(off.front.size() + off.rear.size()) < 1e-9);
    }

    #[test]
    fn a_step_where_the_longer_piece_has_it() {
        // Derived by hand: −z/L before a step at s and 1 − z/L after it, on a tube all the way, make in front
        // μ·(∫(1 − z/L)dz from s to L, (L − s)²/(2L), less ∫z/L·(1 − z/L)dz from 0 to L, L/6).
        let (length, weld) = (1400.0, 1100.0);
        let whole = Body { from: millimetres(0.0), to: millimetres(length), ..body(&[]) };
        for step in [weld - 1.0, weld, weld + 1.0] {
            let shape = |z: Length| {
                let z = z.base() * 1000.0;
                up(if z < step { -z / length } else { 1.0 - z / length })
            };
            let got = residual_of(&whole, &shape, Some(millimetres(weld))).unwrap();
            let front = (length - step).powi(2) / (2.0 * length) - length / 6.0;
            let front = 8000.0 / length * front;
            assert!((as_gram_millimetres(got.front.up) / front - 1.0).abs() < 1e-9, "{step}");
        }
    }

    #[test]
    fn no_answer() {
        // By definition of the ranges.
        let shape = |size: f64| move |_: Length| up(size);
        assert!(residual_of(&body(&[]), &shape(1.0), None).is_ok());
        assert_eq!(residual_of(&body(&[]), &shape(f64::NAN), None), Err(NoResidual::NotFinite));
        let weld = Some(millimetres(f64::NAN));
        assert_eq!(residual_of(&body(&[]), &shape(1.0), weld), Err(NoResidual::NotFinite));
        let bad = Body { to: millimetres(1401.0), ..body(&[]) };
        assert_eq!(residual_of(&bad, &shape(1.0), None), Err(NoResidual::BadBody));
    }
}
