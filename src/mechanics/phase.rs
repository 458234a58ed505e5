//! Phase: how far the two yokes are turned against each other.

use core::f64::consts::{FRAC_PI_2, PI};

use super::uncertainty::{Measured, mean_of};
use crate::quantity::{Angle, Base, Length, half_open_half_turn};

/// The lift under one ear cannot be at or past the span between the ears.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftPastSpan;

/// The turn between the yokes from a lift on a flat bench: one yoke's cups on the plate, h under one
/// ear of the other.
///
/// Formula: ψ = asin(h/w).
/// Symbols: h lift; w span between the two places where the ears would touch, lengths; ψ angle.
/// Range: |h| < w, w > 0. Source: geometry.
///
/// # Errors
/// [`LiftPastSpan`] outside the range.
pub fn from_lift(lift: Length, span: Length) -> Result<Angle, LiftPastSpan> {
    let sine = lift.base() / span.base();
    if span.base() > 0.0 && sine.abs() < 1.0 {
        Ok(Angle::from_base(sine.asin()))
    } else {
        Err(LiftPastSpan)
    }
}

/// A yoke over a flat bench, and which of its ears stands off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// How much higher one ear is than the other.
    pub lift: Length,
    /// Between the two places where the ears would touch.
    pub span: Length,
    /// The higher ear is the right-hand one, seen from the rear.
    pub right: bool,
}

impl Gap {
    /// How far the yoke leans, + clockwise seen from the rear.
    ///
    /// Formula: α = ±asin(h/w), − where the right-hand ear is the higher: the yoke is then turned
    /// counter-clockwise.
    /// Symbols: h lift; w span, lengths; α angle. Range: |h| < w, w > 0. Source: geometry.
    ///
    /// # Errors
    /// [`LiftPastSpan`] outside the range.
    pub fn lean(self) -> Result<Angle, LiftPastSpan> {
        let size = from_lift(self.lift, self.span)?;
        Ok(if self.right { -size } else { size })
    }
}

/// The turn of the rear yoke against the front one from a gap of each, the tube held level over one
/// bench. A tube that is held turned leans both yokes alike, which cancels.
///
/// Formula: ψ = α of the rear yoke − α of the front one, as a line: above −90° and up to 90°.
/// Symbols: α lean of a yoke, see [`Gap::lean`]; ψ turn, + clockwise seen from the rear.
/// Range: each |h| < w, w > 0. Source: geometry. Assumes that the bench is flat under both.
///
/// # Errors
/// [`LiftPastSpan`] outside the range.
pub fn from_lifts(front: Gap, rear: Gap) -> Result<Angle, LiftPastSpan> {
    Ok(half_open_half_turn(rear.lean()? - front.lean()?))
}

/// Two lines on a tube cannot be farther apart than once round it, and a tube has a diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArcPastTube;

/// The turn between the yokes from two lines on the tube, one along each.
///
/// Formula: ψ = 2·s/D, as a line: above −90° and up to 90°, since a line along the other ear of a yoke
/// is the same yoke.
/// Symbols: s arc on the tube from the front yoke's line to the rear yoke's, + clockwise seen from the
/// rear; D tube diameter, lengths; ψ turn.
/// Range: D > 0, |s| < π·D. Source: geometry of the circle.
///
/// # Errors
/// [`ArcPastTube`] outside the range.
pub fn from_lines(arc: Length, diameter: Length) -> Result<Angle, ArcPastTube> {
    let turn = 2.0 * arc.base() / diameter.base();
    if diameter.base() > 0.0 && turn.abs() < 2.0 * PI {
        Ok(half_open_half_turn(Angle::from_base(turn)))
    } else {
        Err(ArcPastTube)
    }
}

/// The turn of the rear yoke against the front one from a level's reading across each pair of ears,
/// both + when the right-hand ear is low, seen from the rear.
///
/// Formula: ψ = rear − front, as a line: between −90° and 90°, since a yoke looks the same half a
/// turn on. + is clockwise seen from the rear. Source: geometry.
pub fn from_levels(front: Angle, rear: Angle) -> Angle {
    half_open_half_turn(rear - front)
}

/// Repeat readings of one line (not direction) brought to one side: each moved by whole half turns to
/// within 90° of the line in their middle, so that 89.6°, −89.8° and 90° stand beside each other as
/// 89.6°, 90.2° and 90°. Empty for none.
///
/// Formula: the middle is ½·atan2(Σsin 2θ, Σcos 2θ); each θ' = middle + (θ − middle) as a line.
/// Symbols: θ reading, angle. Range: finite readings. Where they lie all round, so that their doubled
/// directions cancel, no line is in their middle and the first reading stands in for it: the width of
/// what comes out then says how little they agree.
/// Source: the mean of axial data by doubled angles (K. V. Mardia, Statistics of Directional Data,
/// 1972; from memory).
pub fn as_one_line(readings: &[Angle]) -> Vec<Angle> {
    const CANCELLED: f64 = 1e-9;
    let (mut cos, mut sin) = (0.0, 0.0);
    for reading in readings {
        let (s, c) = (2.0 * reading.base()).sin_cos();
        cos += c;
        sin += s;
    }
    let middle = match readings.first() {
        Some(first) if cos.hypot(sin) < CANCELLED => *first,
        _ => Angle::from_base(0.5 * sin.atan2(cos)),
    };
    readings.iter().map(|reading| middle + half_open_half_turn(*reading - middle)).collect()
}

/// The mean of repeat readings of one yoke's line, above −90° and up to 90°, with its spread; `None`
/// without a reading.
///
/// Formula: the mean of [`as_one_line`], and its spread by [`mean_of`].
/// Symbols: as there. Range: finite readings, division > 0. Source: as there.
pub fn mean_line(readings: &[Angle], division: Angle) -> Option<Measured<Angle>> {
    let Measured { best, spread } = mean_of(&as_one_line(readings), division)?;
    Some(Measured { best: half_open_half_turn(best), spread })
}

/// How far the rear yoke is from where it should stand against the front one.
///
/// Formula: ε = ψ − ψ₀ as a line: above −90° and up to 90°.
/// Symbols: ψ turn; ψ₀ the turn wanted; ε what is to be undone, angles, + clockwise seen from the rear.
/// Range: any. Source: geometry.
pub fn off_target(turn: Angle, target: Angle) -> Angle {
    half_open_half_turn(turn - target)
}

/// Whether a yoke looks to be a quarter turn out: nearer to square across its place than to its place.
///
/// Formula: |ε| > 45°. Symbols: ε as [`off_target`]'s. Range: a finite ε, else `false`. Source: our own
/// rule; a level laid along one yoke's ears and across the other's comes out 90° wrong.
pub fn is_a_quarter_turn(off: Angle) -> bool {
    off.base().abs() > 0.5 * FRAC_PI_2
}

/// The arc on the tube that an angle covers.
///
/// Formula: s = D·ψ/2 with ψ in radians (π·D·ψ/360 in degrees).
/// Symbols: D tube diameter; ψ angle; s arc length. Source: geometry of the circle.
pub fn arc(diameter: Length, angle: Angle) -> Length {
    Length::from_base(diameter.base() * angle.base() / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_degrees, degrees, in_inches, inches};

    #[test]
    fn arc_of_one_degree() {
        // Derived from π·D/360: 3.000 in 0.026180; 3.5 in 0.030543; 4 in 0.034907.
        for (diameter, expected) in [(3.0, 0.026_180), (3.5, 0.030_543), (4.0, 0.034_907)] {
            assert!((in_inches(arc(inches(diameter), degrees(1.0))) - expected).abs() < 5e-7);
        }
    }

    #[test]
    fn levels_wrap() {
        // Definitions: a line, not a direction; any starting angle gives the same turn.
        for start in [-170.0, -89.0, 0.0, 44.0, 135.0] {
            let psi = from_levels(degrees(start), degrees(start + 2.5));
            assert!((as_degrees(psi) - 2.5).abs() < 1e-9);
        }
        let across = from_levels(degrees(89.5), degrees(-89.0));
        assert!((as_degrees(across) - 1.5).abs() < 1e-9);
    }

    #[test]
    fn lift_and_back() {
        // Round trip by the sine; a lift past the span is refused.
        let psi = from_lift(inches(0.06), inches(3.4)).unwrap();
        assert!((in_inches(inches(3.4)) * psi.base().sin() - 0.06).abs() < 1e-12);
        assert_eq!(from_lift(inches(3.4), inches(3.4)), Err(LiftPastSpan));
        assert_eq!(from_lift(inches(0.1), inches(0.0)), Err(LiftPastSpan));
    }

    fn gap(lift: f64, right: bool) -> Gap {
        Gap { lift: inches(lift), span: inches(3.25), right }
    }

    #[test]
    fn two_gaps_make_one_turn() {
        // By hand: asin(0.5) is 30°; the right-hand ear high is counter-clockwise, seen from the rear.
        let lean = |right| as_degrees(gap(1.625, right).lean().unwrap());
        assert!((lean(false) - 30.0).abs() < 1e-9 && (lean(true) + 30.0).abs() < 1e-9);
        // Law: both leaning alike is no turn; the front yoke's own lean comes off.
        let turn = |front, rear| as_degrees(from_lifts(front, rear).unwrap());
        assert!(turn(gap(0.7, true), gap(0.7, true)).abs() < 1e-9);
        assert!((turn(gap(1.625, true), gap(0.0, false)) - 30.0).abs() < 1e-9);
        assert!((turn(gap(0.0, true), gap(1.625, true)) + 30.0).abs() < 1e-9);
        // By definition of a line: 60° one way less 60° the other is 120°, which is 60° the other way.
        let steep = 3.25 * 60.0_f64.to_radians().sin();
        assert!((turn(gap(steep, true), gap(steep, false)) + 60.0).abs() < 1e-9);
        for bad in [gap(3.25, true), gap(f64::NAN, false), Gap { span: inches(0.0), ..gap(0.1, true) }] {
            assert_eq!(from_lifts(bad, gap(0.1, true)), Err(LiftPastSpan));
            assert_eq!(from_lifts(gap(0.1, true), bad), Err(LiftPastSpan));
        }
    }

    #[test]
    fn lines_on_the_tube() {
        let turn = |arc: f64, tube: f64| from_lines(inches(arc), inches(tube)).map(as_degrees);
        // Definition of the radian: an arc of the radius is one; round trip by the arc of an angle.
        assert!((turn(1.5, 3.0).unwrap() - 1.0_f64.to_degrees()).abs() < 1e-9);
        let back = turn(in_inches(arc(inches(3.0), degrees(-30.0))), 3.0).unwrap();
        assert!((back + 30.0).abs() < 1e-9);
        // A line along the other ear: half the girth on is no turn.
        let half_girth = 1.5 * PI;
        assert!(turn(half_girth, 3.0).unwrap().abs() < 1e-9);
        assert!((turn(half_girth - 0.1, 3.0).unwrap() - turn(-0.1, 3.0).unwrap()).abs() < 1e-9);
        // Outside: farther than once round, no tube, no number.
        for (arc, tube) in
            [(9.5, 3.0), (-9.5, 3.0), (0.1, 0.0), (0.1, -3.0), (f64::NAN, 3.0), (0.0, f64::NAN)]
        {
            assert_eq!(turn(arc, tube), Err(ArcPastTube), "{arc} {tube}");
        }
    }

    fn mean(readings: &[f64]) -> f64 {
        let readings: Vec<Angle> = readings.iter().copied().map(degrees).collect();
        as_degrees(mean_line(&readings, degrees(0.1)).unwrap().best)
    }

    #[test]
    fn readings_of_one_line() {
        // By hand on one side: 89.6, 90.2 and 90 make 89.9333.
        assert!((mean(&[89.6, -89.8, 90.0]) - 269.8 / 3.0).abs() < 1e-9);
        assert!((mean(&[-89.8, 90.0, 89.6]) - 269.8 / 3.0).abs() < 1e-9);
        // 179.8 and −179.9 are −0.2 and 0.1; three alike and one alone are themselves.
        assert!((mean(&[179.8, -179.9]) + 0.05).abs() < 1e-9);
        assert!((mean(&[0.4, 180.4, -179.6]) - 0.4).abs() < 1e-9);
        assert!((mean(&[-90.0]) - 90.0).abs() < 1e-9);
        // Law: where nothing wraps it is the plain mean, and its spread is the plain one.
        let plain = [0.4, 0.7, 0.1].map(degrees);
        let (line, usual) = (mean_line(&plain, degrees(0.1)), mean_of(&plain, degrees(0.1)));
        let (line, usual) = (line.unwrap(), usual.unwrap());
        assert!((line.best - usual.best).base().abs() < 1e-12);
        assert!((line.spread.standard - usual.spread.standard).base().abs() < 1e-12);
        // Wrapped ones are no farther apart than they are: half of 0.6 over √3, beside 0.1/√12.
        let u = mean_line(&[89.6, -89.8, 90.0].map(degrees), degrees(0.1)).unwrap().spread.standard;
        assert!((as_degrees(u) - (0.03_f64 + 0.01 / 12.0).sqrt()).abs() < 1e-9);
    }

    #[test]
    fn readings_that_are_no_line() {
        assert!(mean_line(&[], degrees(0.1)).is_none() && as_one_line(&[]).is_empty());
        // All round, so that nothing is in their middle: finite, and as wide as they are.
        for all_round in [&[0.0, 90.0][..], &[0.0, 60.0, 120.0], &[30.0, -60.0]] {
            let readings: Vec<Angle> = all_round.iter().copied().map(degrees).collect();
            let found = mean_line(&readings, degrees(0.1)).unwrap();
            assert!(found.best.base().is_finite());
            assert!(as_degrees(found.spread.standard) > 25.0, "{all_round:?}");
        }
    }

    #[test]
    fn off_and_a_quarter_turn() {
        // By hand: as a line, 170° off is 10° the other way.
        for (turn, target, off) in
            [(2.0, 0.0, 2.0), (29.0, 30.0, -1.0), (-85.0, 85.0, 10.0), (90.0, 0.0, 90.0)]
        {
            assert!((as_degrees(off_target(degrees(turn), degrees(target))) - off).abs() < 1e-9);
        }
        assert!(is_a_quarter_turn(degrees(-89.0)) && is_a_quarter_turn(degrees(46.0)));
        assert!(!is_a_quarter_turn(degrees(44.0)) && !is_a_quarter_turn(degrees(-0.5)));
    }
}
