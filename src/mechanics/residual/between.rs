//! Between the places: by how much a smooth curve through them differs from straight lines.

use super::super::across::Across;
use super::super::unbalance::{Shares, Spot};
use super::smooth::GAUSS;
use super::{Body, Knot, NoResidual, Point, across, knots};
use crate::quantity::{Base, Length};

/// Two places nearer than this share of the length make one knot of the curve: else what the readings scatter
/// by would bow it far out beside them. Our own choice.
const ONE_KNOT: f64 = 0.05;

/// Second derivatives of the natural cubic spline at its knots, up and right, none at either joint.
fn bends(knots: &[Knot]) -> Vec<(f64, f64)> {
    let mut steps: Vec<(f64, f64, f64)> = Vec::new();
    for three in knots.windows(3) {
        let [before, here, after] = three else { continue };
        let (back, on) = (here.z - before.z, after.z - here.z);
        let (share, up, right) = steps.last().copied().unwrap_or((0.0, 0.0, 0.0));
        let pivot = 2.0 * (back + on) - back * share;
        let rise = |of: fn(&Knot) -> f64, known: f64| {
            let turn = (of(after) - of(here)) / on - (of(here) - of(before)) / back;
            (6.0 * turn - back * known) / pivot
        };
        let next =
            (rise(|knot| knot.offset.up.base(), up), rise(|knot| knot.offset.right.base(), right));
        steps.push((on / pivot, next.0, next.1));
    }
    let mut found = vec![(0.0, 0.0)];
    let mut next = (0.0, 0.0);
    for (share, up, right) in steps.into_iter().rev() {
        next = (up - share * next.0, right - share * next.1);
        found.push(next);
    }
    found.push((0.0, 0.0));
    found.reverse();
    found
}

/// The unbalances in the joints' planes by which a smooth curve through the places differs from the straight
/// lines of [`super::residual`]: a measure of what lies between them and was not read.
///
/// Formula: as of [`super::residual`] for s(z) − c(z) in place of c(z): s the natural cubic spline through the
/// joints and the places, c straight between them. On a piece of length h, s − c =
/// h²/6·((a³ − a)·M + (b³ − b)·M'), b the share of it that lies behind, a = 1 − b.
/// Symbols: M, M' second derivatives of s at both ends of the piece; the others as there.
/// Range: as there. Of places nearer to each other, or to a joint, than a twentieth of the length the curve
/// goes through one.
/// Source: a beam bent to go through points takes this shape (any text on splines). That it measures what is
/// not known between is our own choice.
///
/// # Errors
/// [`NoResidual`].
pub fn between(body: &Body, points: &[Point]) -> Result<Shares, NoResidual> {
    body.check()?;
    let (length, from, to) = (body.length.base(), body.from.base(), body.to.base());
    let per_length = body.tube.base() / (to - from);
    let mut kept: Vec<Knot> = Vec::new();
    for knot in knots(length, points)? {
        let near = |z: f64| knot.z - z < ONE_KNOT * length;
        let at_a_joint = knot.z < length && length - knot.z < ONE_KNOT * length;
        if !(at_a_joint || knot.z < length && kept.last().is_some_and(|last| near(last.z))) {
            kept.push(knot);
        }
    }
    let bends = bends(&kept);
    let mut sum = Shares::zero();
    for (pair, bend) in kept.windows(2).zip(bends.windows(2)) {
        let ([one, other], [first, second]) = (pair, bend) else { continue };
        let (start, piece) = (one.z, other.z - one.z);
        let mut add = |mass: f64, z: f64| {
            let b = (z - start) / piece;
            let a = 1.0 - b;
            let part = |first: f64, second: f64| {
                let bow = (a.powi(3) - a) * first + (b.powi(3) - b) * second;
                Length::from_base(piece * piece / 6.0 * bow)
            };
            let offset = Across { up: part(first.0, second.0), right: part(first.1, second.1) };
            let spot = Spot { unbalance: across(mass, offset), z: Length::from_base(z) };
            sum = sum.with(spot, body.length);
        };
        let (low, high) = (from.max(start), to.min(other.z));
        if high > low {
            let half = (high - low) / 2.0;
            for [place, weight] in GAUSS {
                add(per_length * half * weight, low + half * (1.0 + place));
            }
        }
        for lump in body.lumps.iter().filter(|lump| (start..other.z).contains(&lump.z.base())) {
            add(lump.mass.base(), lump.z.base());
        }
    }
    if sum.are_finite() { Ok(sum) } else { Err(NoResidual::NotFinite) }
}

#[cfg(test)]
mod tests {
    use core::f64::consts::PI;

    use super::super::{Lump, residual, residual_of};
    use super::*;
    use crate::mechanics::uncertainty::Spread;
    use crate::quantity::{as_gram_millimetres, grams, kilograms, millimetres};

    fn point(z: f64, up: f64, right: f64) -> Point {
        let offset = Across { up: millimetres(up), right: millimetres(right) };
        Point { z: millimetres(z), offset, spread: Spread::none() }
    }

    fn body(ends: [f64; 2], lumps: &[Lump]) -> Body<'_> {
        let [from, to] = ends.map(millimetres);
        Body { length: millimetres(1400.0), from, to, tube: kilograms(8.0), lumps }
    }

    #[test]
    fn one_place_at_the_middle() {
        // Derived by hand: the natural spline through (0, 0), (L/2, y), (L, 0) bends by −12·y/L² there, and
        // bows out of its chords by y·L/8 in all: half of 8000 g·y/8 in each plane.
        let got = between(&body([0.0, 1400.0], &[]), &[point(700.0, 0.4, -0.3)]).unwrap();
        for plane in [got.front, got.rear] {
            assert!((as_gram_millimetres(plane.up) - 8000.0 * 0.4 / 16.0).abs() < 1e-9);
            assert!((as_gram_millimetres(plane.right) + 8000.0 * 0.3 / 16.0).abs() < 1e-9);
        }
        // A lump at a quarter: s − c there is (h²/6)·(b³ − b)·M with b = 1/2, h = L/2: 3·y/16.
        let lump = Lump { mass: grams(900.0), z: millimetres(350.0), beside: Across::zero() };
        let with = between(&body([0.0, 1400.0], &[lump]), &[point(700.0, 0.4, 0.0)]).unwrap();
        let by = as_gram_millimetres((with.front - got.front).up);
        assert!((by - 900.0 * 3.0 * 0.4 / 16.0 * 0.75).abs() < 1e-9, "{by}");
    }

    #[test]
    fn with_the_straight_lines_it_is_the_bow_itself() {
        // Law: a half sine has no bend at the joints, so the natural spline through a few of its places is
        // nearly it: five leave less than a thousandth, the straight lines alone leave more than a hundredth.
        let lumps = [Lump { mass: grams(900.0), z: millimetres(60.0), beside: Across::zero() }];
        let body = body([100.0, 1300.0], &lumps);
        let sine = |z: f64| (PI * z / 1400.0).sin();
        let points: Vec<Point> =
            [250.0, 480.0, 700.0, 900.0, 1150.0].map(|z| point(z, sine(z), 0.5 * sine(z))).into();
        let shape = |z: Length| {
            let size = sine(z.base() * 1000.0);
            Across { up: millimetres(size), right: millimetres(0.5 * size) }
        };
        let exact = residual_of(&body, &shape, None).unwrap();
        let straight = residual(&body, &points).unwrap().shares();
        let bowed = straight - between(&body, &points).unwrap().scaled(-1.0);
        let off = |got: Shares| (exact - got).front.size() / exact.front.size();
        assert!(off(bowed).base() < 1e-3 && off(straight).base() > 1e-2);
    }

    #[test]
    fn a_straight_line_and_no_place_at_all() {
        // By definition: nothing bends, nothing lies between.
        assert_eq!(between(&body([0.0, 1400.0], &[]), &[]), Ok(Shares::zero()));
    }

    #[test]
    fn places_close_together_do_not_bow_it_far_out() {
        // By our own rule: of two places 2 mm apart the curve goes through one.
        let whole = body([0.0, 1400.0], &[]);
        let one = between(&whole, &[point(700.0, 0.4, 0.0)]).unwrap();
        let two = between(&whole, &[point(700.0, 0.4, 0.0), point(702.0, 0.3, 0.0)]).unwrap();
        assert_eq!(one, two);
        assert_eq!(between(&whole, &[point(1390.0, 0.4, 0.0)]), Ok(Shares::zero()));
        assert_eq!(between(&whole, &[point(10.0, 0.4, 0.0)]), Ok(Shares::zero()));
    }

    #[test]
    fn no_answer() {
        // By definition of the ranges.
        let whole = body([0.0, 1400.0], &[]);
        for (point, why) in [
            (point(f64::NAN, 0.0, 0.0), NoResidual::NotFinite),
            (point(1400.0, 0.1, 0.0), NoResidual::OffTheShaft { z: millimetres(1400.0) }),
        ] {
            assert_eq!(between(&whole, &[point]), Err(why));
        }
        let bad = body([0.0, 1401.0], &[]);
        assert_eq!(between(&bad, &[]), Err(NoResidual::BadBody));
    }
}
