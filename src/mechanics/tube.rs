//! The round tube.

use crate::quantity::{Base, Length, Mass, MassDensity};

/// A round tube's cross-section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tube {
    outer: Length,
    inner: Length,
}

/// The wall is not between nothing and half the diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NoSuchTube;

impl Tube {
    /// A tube of this outer diameter and wall. A wall of half the diameter is a solid bar.
    ///
    /// # Errors
    /// [`NoSuchTube`] unless 0 < wall ≤ diameter/2.
    pub fn new(diameter: Length, wall: Length) -> Result<Tube, NoSuchTube> {
        let (outer, wall) = (diameter.base(), wall.base());
        if outer.is_finite() && wall > 0.0 && 2.0 * wall <= outer {
            Ok(Tube { outer: diameter, inner: Length::from_base(outer - 2.0 * wall) })
        } else {
            Err(NoSuchTube)
        }
    }

    /// Outer diameter D.
    pub fn outer(self) -> Length {
        self.outer
    }

    /// Inner diameter d.
    pub fn inner(self) -> Length {
        self.inner
    }

    /// Wall, (D − d)/2.
    pub fn wall(self) -> Length {
        (self.outer - self.inner) * 0.5
    }

    /// √(D² + d²): four times the radius of gyration of the section in bending.
    pub fn bending_diameter(self) -> Length {
        Length::from_base(self.outer.base().hypot(self.inner.base()))
    }

    /// Mass of a length of this tube, m = ρ·π·(D² − d²)/4·ℓ.
    ///
    /// Symbols: ρ density; D outer, d inner diameter; ℓ length. Source: geometry.
    pub fn mass(self, density: MassDensity, length: Length) -> Mass {
        let area = core::f64::consts::PI * (self.outer.base().powi(2) - self.inner.base().powi(2)) / 4.0;
        Mass::from_base(density.base() * area * length.base())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_grams, inches, kilograms_per_cubic_metre, millimetres};

    #[test]
    fn mass_of_a_metre() {
        // Derived from ρπ(D²−d²)/4: 3.0 × 0.083 in steel, 7850 kg/m³: 3.8521 kg/m.
        let tube = Tube::new(inches(3.0), inches(0.083)).unwrap();
        let mass = tube.mass(kilograms_per_cubic_metre(7850.0), millimetres(1000.0));
        assert!((as_grams(mass) - 3852.1).abs() < 0.05);
    }

    #[test]
    fn no_such_tube() {
        for (diameter, wall) in [(3.0, 0.0), (3.0, -0.1), (3.0, 1.6), (0.0, 0.0), (f64::NAN, 0.1)] {
            assert_eq!(Tube::new(inches(diameter), inches(wall)), Err(NoSuchTube));
        }
        assert!(Tube::new(inches(1.0), inches(0.5)).is_ok());
    }
}
