//! Keeping off: where on the tube no weight may stand, and the nearest places beside it.

use core::f64::consts::{PI, TAU};

use crate::quantity::{Angle, Base, Length, clockwise_angle};

/// How far within an edge a place must lie to be hit, in radians or metres: last bits.
const LAST_BIT: f64 = 1e-9;

/// What a weight must keep off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// The tube's own seam.
    Seam,
    /// An ear of the front yoke.
    FrontEar,
    /// An ear of the rear yoke.
    RearEar,
    /// A weld round the tube toward the front joint.
    FrontWeld,
    /// A weld round the tube toward the rear joint.
    RearWeld,
    /// A weight that is there already.
    Weight,
}

/// A part of the clock to keep off, so far to either side of its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sector {
    /// What is there.
    pub obstacle: Obstacle,
    /// Its middle.
    pub at: Angle,
    /// How far it reaches to either side.
    pub half: Angle,
}

/// A length of the tube to keep off, so far before and behind its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// What is there.
    pub obstacle: Obstacle,
    /// Its middle, behind the front joint's centre.
    pub z: Length,
    /// How far it reaches either way.
    pub half: Length,
}

/// Both ears of a yoke, from the line through them: one at the line's angle, one opposite.
pub fn ears(obstacle: Obstacle, line: Angle, half: Angle) -> [Sector; 2] {
    let opposite = clockwise_angle(line + Angle::from_base(PI));
    [clockwise_angle(line), opposite].map(|at| Sector { obstacle, at, half })
}

/// How far clockwise from one place to another, 0 up to a whole turn.
fn clockwise(from: f64, to: f64) -> f64 {
    (to - from).rem_euclid(TAU)
}

impl Sector {
    /// How far a weight's middle must be from this sector's; `None` where a number is none, or under 0.
    fn reach(&self, own_half: Angle) -> Option<f64> {
        let (half, own) = (self.half.base(), own_half.base());
        let finite = self.at.is_finite() && half.is_finite() && own.is_finite();
        (finite && half >= 0.0 && own >= 0.0).then_some(half + own)
    }

    /// How much further a weight in this sector has to go clockwise (or against the clock) to be off it;
    /// 0 where it is not in it.
    fn way_out(&self, at: f64, reach: f64, against: bool) -> f64 {
        let passed = match against {
            false => clockwise(self.at.base() - reach, at),
            true => clockwise(at, self.at.base() + reach),
        };
        match reach > 0.0 && passed > LAST_BIT && passed < 2.0 * reach - LAST_BIT {
            true => 2.0 * reach - passed,
            false => 0.0,
        }
    }
}

/// Every reach, or `None` where a number is none.
fn reaches(sectors: &[Sector], at: Angle, own_half: Angle) -> Option<Vec<f64>> {
    let whole: Option<Vec<f64>> = sectors.iter().map(|sector| sector.reach(own_half)).collect();
    whole.filter(|_| at.is_finite() && own_half.is_finite() && own_half.base() >= 0.0)
}

/// Which sectors a weight would stand in, in their order.
///
/// Formula: hit where the angle between the middles is less than both half-widths together.
/// Symbols: `at` the weight's middle on the clock, `own_half` how far it reaches to either side of it.
/// Range: `None` where a number is none or a half-width is under 0. At an edge nothing is hit.
/// Source: geometry. The caller gives the sectors that matter where the weight stands along the shaft.
pub fn hit_on_clock(sectors: &[Sector], at: Angle, own_half: Angle) -> Option<Vec<Obstacle>> {
    let reaches = reaches(sectors, at, own_half)?;
    let inside = |(sector, reach): (&Sector, &f64)| {
        // A reach of half a turn leaves no place.
        let hit = *reach >= PI || sector.way_out(at.base(), *reach, false) > 0.0;
        hit.then_some(sector.obstacle)
    };
    Some(sectors.iter().zip(&reaches).filter_map(inside).collect())
}

/// Which bands a weight would stand in, in their order.
///
/// Formula: hit where the middles are less apart than both half-widths together.
/// Symbols: `z` the weight's middle behind the front joint, `own_half` how far it reaches either way.
/// Range: `None` where a number is none or a half-width is under 0. At an edge nothing is hit.
/// Source: geometry.
pub fn hit_along(bands: &[Band], z: Length, own_half: Length) -> Option<Vec<Obstacle>> {
    let mut hit = Vec::new();
    for band in bands {
        let (half, own) = (band.half.base(), own_half.base());
        let apart = (z.base() - band.z.base()).abs();
        if !(half >= 0.0 && own >= 0.0 && apart.is_finite() && (half + own).is_finite()) {
            return None;
        }
        if apart < half + own - LAST_BIT {
            hit.push(band.obstacle);
        }
    }
    (z.is_finite() && own_half.is_finite() && own_half.base() >= 0.0).then_some(hit)
}

/// The nearest places on the clock where a weight may stand, going against the clock and clockwise; both
/// are the place itself where it is free. What [`super::apportion::on_clock`] splits it over.
///
/// Formula: from sector to sector, each time to its far edge, until none is hit.
/// Symbols: as of [`hit_on_clock`].
/// Range: `None` where a number is none or a half-width is under 0, and where no place is free.
/// Source: geometry. They lie up to nearly a turn apart: no weight splits over places half a turn apart
/// or more.
pub fn beside(sectors: &[Sector], at: Angle, own_half: Angle) -> Option<[Angle; 2]> {
    let reaches = reaches(sectors, at, own_half)?;
    if reaches.iter().any(|reach| *reach >= PI) {
        return None;
    }
    Some([edge(sectors, &reaches, at, true)?, edge(sectors, &reaches, at, false)?])
}

/// The nearest free place one way. Within a turn each sector is left once: whoever has left as many as
/// there are and stands in one again has been round, and nothing is free.
fn edge(sectors: &[Sector], reaches: &[f64], at: Angle, against: bool) -> Option<Angle> {
    let mut gone = 0.0;
    for _ in 0..=sectors.len() {
        let here = if against { at.base() - gone } else { at.base() + gone };
        let ways =
            sectors.iter().zip(reaches).map(|(sector, reach)| sector.way_out(here, *reach, against));
        let way = ways.fold(0.0, f64::max);
        if way == 0.0 {
            return Some(clockwise_angle(Angle::from_base(here)));
        }
        gone += way;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::super::luck::luck;
    use super::*;
    use crate::quantity::{as_degrees, degrees, millimetres};

    fn sector(obstacle: Obstacle, at: f64, half: f64) -> Sector {
        Sector { obstacle, at: degrees(at), half: degrees(half) }
    }

    fn hit(sectors: &[Sector], at: f64, own: f64) -> Vec<Obstacle> {
        hit_on_clock(sectors, degrees(at), degrees(own)).unwrap()
    }

    fn either(sectors: &[Sector], at: f64, own: f64) -> Option<[f64; 2]> {
        beside(sectors, degrees(at), degrees(own)).map(|both| both.map(as_degrees))
    }

    fn close(got: Option<[f64; 2]>, expected: [f64; 2]) {
        let got = got.unwrap();
        assert!((0..2).all(|i| (got[i] - expected[i]).abs() < 1e-6), "{got:?} {expected:?}");
    }

    #[test]
    fn on_the_clock_by_hand() {
        use Obstacle::{FrontEar, Seam};
        // By hand: the seam at 5° ± 10°, ears at 20° and 200° ± 15°; a weight that reaches 5° itself.
        let mut all = vec![sector(Seam, 5.0, 10.0)];
        all.extend(ears(FrontEar, degrees(20.0), degrees(15.0)));
        assert_eq!(hit(&all, 10.0, 5.0), [Seam, FrontEar]);
        assert_eq!(hit(&all, 352.0, 5.0), [Seam]);
        assert_eq!(hit(&all, 215.0, 5.0), [FrontEar]);
        // At an edge nothing is hit: 5 − 15, 20 + 20, 200 − 20.
        for free in [350.0, 40.0, 180.0, 100.0] {
            assert_eq!(hit(&all, free, 5.0), [], "{free}");
            close(either(&all, free, 5.0), [free, free]);
        }
        // Seam and ear overlap: from 10° to 350° and 40°, out of the other ear to 180° and 220°.
        close(either(&all, 10.0, 5.0), [350.0, 40.0]);
        close(either(&all, 205.0, 5.0), [180.0, 220.0]);
    }

    #[test]
    fn where_nothing_is_free() {
        use Obstacle::{FrontEar, RearEar, Seam};
        let mut all = ears(FrontEar, degrees(0.0), degrees(45.0)).to_vec();
        all.extend(ears(RearEar, degrees(90.0), degrees(44.0)));
        // By hand: free are 1° each, from 45° to 46° and so on; a weight that reaches 1° does not fit.
        close(either(&all, 30.0, 0.0), [315.0, 45.0]);
        assert!(either(&all, 30.0, 1.0).is_none());
        assert!(either(&[sector(Seam, 10.0, 180.0)], 200.0, 0.0).is_none());
        assert_eq!(hit(&[sector(Seam, 10.0, 180.0)], 190.0, 0.0), [Seam]);
        close(either(&[sector(Seam, 10.0, 179.0)], 10.0, 0.0), [191.0, 189.0]);
        for (at, half, own) in
            [(f64::NAN, 5.0, 0.0), (0.0, -1.0, 0.0), (0.0, 5.0, -1.0), (0.0, f64::NAN, 0.0)]
        {
            assert!(either(&[sector(Seam, at, half)], 10.0, own).is_none());
            assert!(hit_on_clock(&[sector(Seam, at, half)], degrees(10.0), degrees(own)).is_none());
        }
        assert!(either(&[], f64::NAN, 0.0).is_none());
        close(either(&[], 77.0, 5.0), [77.0, 77.0]);
    }

    #[test]
    fn what_is_offered_is_free_and_nothing_nearer_is() {
        // Law, over seeded luck: looked at in steps of a tenth of a degree, everything between the place
        // and what is offered is hit; turning the clock turns the answer.
        let mut between = luck(11);
        let (mut forbidden, mut none) = (0, 0);
        for _ in 0..200 {
            let all: Vec<Sector> = (0..6)
                .map(|_| sector(Obstacle::Seam, between(0.0, 360.0), between(2.0, 60.0)))
                .collect();
            let (at, own, by) = (between(0.0, 360.0), between(0.0, 10.0), between(0.0, 360.0));
            let free = hit(&all, at, own).is_empty();
            let Some([back, on]) = either(&all, at, own) else {
                let tenths = (0..3600).all(|tenth| !hit(&all, f64::from(tenth) / 10.0, own).is_empty());
                assert!(tenths);
                none += 1;
                continue;
            };
            assert_eq!(free, (back - at).abs() < 1e-6 && (on - at).abs() < 1e-6);
            forbidden += u32::from(!free);
            assert!(hit(&all, back, own).is_empty() && hit(&all, on, own).is_empty());
            for (edge, sign) in [(back, -1.0), (on, 1.0)] {
                let way = (sign * (edge - at)).rem_euclid(360.0);
                let mut gone = 0.05;
                while !free && gone < way - 0.05 {
                    assert!(!hit(&all, at + sign * gone, own).is_empty());
                    gone += 0.1;
                }
            }
            let turned: Vec<Sector> =
                all.iter().map(|one| Sector { at: one.at + degrees(by), ..*one }).collect();
            let twin = either(&turned, at + by, own).unwrap();
            for (one, other) in [back, on].iter().zip(twin) {
                assert!(((other - one - by + 180.0).rem_euclid(360.0) - 180.0).abs() < 1e-6);
            }
        }
        assert!(forbidden > 50 && none > 0, "{forbidden} {none}");
    }

    #[test]
    fn along_the_tube() {
        use Obstacle::{FrontWeld, RearWeld};
        // By hand: welds at 100 and 900 mm, 12.7 mm to keep; a weight 20 mm wide reaches 10.
        let band = |obstacle, z: f64| Band { obstacle, z: millimetres(z), half: millimetres(12.7) };
        let all = [band(FrontWeld, 100.0), band(RearWeld, 900.0)];
        let ask = |z: f64, own: f64| hit_along(&all, millimetres(z), millimetres(own));
        assert_eq!(ask(122.6, 10.0).unwrap(), [FrontWeld]);
        assert_eq!(ask(122.7, 10.0).unwrap(), []);
        assert_eq!(ask(890.0, 0.0).unwrap(), [RearWeld]);
        assert_eq!(ask(500.0, 400.0).unwrap(), [FrontWeld, RearWeld]);
        for (z, own) in [(f64::NAN, 0.0), (1.0, f64::NAN), (1.0, -1.0), (1.0, f64::INFINITY)] {
            assert!(ask(z, own).is_none());
        }
        assert!(hit_along(&[], millimetres(f64::NAN), millimetres(0.0)).is_none());
    }
}
