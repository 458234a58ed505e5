//! Phase: how far the two yokes are turned against each other.

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

/// The turn of the rear yoke against the front one from a level's reading across each pair of ears,
/// both + when the right-hand ear is low, seen from the rear.
///
/// Formula: ψ = rear − front, as a line: between −90° and 90°, since a yoke looks the same half a
/// turn on. + is clockwise seen from the rear. Source: geometry.
pub fn from_levels(front: Angle, rear: Angle) -> Angle {
    half_open_half_turn(rear - front)
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
}
