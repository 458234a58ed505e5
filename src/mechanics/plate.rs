//! Plate: the weight that is a strip of flat stock, bent round the tube and welded on.

use core::f64::consts::PI;

use crate::quantity::{Angle, Base, Length, Mass, MassDensity, Unbalance};

/// Flat stock to cut a weight from. Of steel its density is that of [`super::material::steel`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Width, along the shaft.
    pub width: Length,
    /// Thickness, away from the tube.
    pub thickness: Length,
    /// What it is made of.
    pub density: MassDensity,
}

/// A strip on the tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Its mass.
    pub mass: Mass,
    /// Distance of its centre of mass from the axis.
    pub radius: Length,
    /// How much of the clock it covers.
    pub round: Angle,
    /// What is left of mass times the distance of its material, because its ends pull to the sides: 1 for
    /// a short piece, 2/π for half of the way round.
    pub share: f64,
}

impl Plate {
    /// Its unbalance, toward its middle.
    pub fn unbalance(self) -> Unbalance {
        self.mass * self.radius
    }
}

impl Stock {
    /// Radius of the strip's middle face on a tube, and the mean distance of its material from the axis;
    /// `None` unless the sizes are above 0.
    ///
    /// Formula: R = r + t/2, R_c = (2/3)·(r₂³ − r₁³)/(r₂² − r₁²) = R + t²/(12·R).
    fn on(&self, tube_radius: Length) -> Option<(f64, f64)> {
        let (width, thickness) = (self.width.base(), self.thickness.base());
        let (radius, density) = (tube_radius.base(), self.density.base());
        let middle = radius + thickness / 2.0;
        let sound = width > 0.0 && thickness > 0.0 && radius > 0.0 && density > 0.0;
        let finite = middle.is_finite() && width.is_finite() && density.is_finite();
        (sound && finite).then(|| (middle, middle + thickness * thickness / (12.0 * middle)))
    }

    /// The weight that a cut length of this stock is on a tube.
    ///
    /// Formula: m = ρ·w·t·ℓ, α = ℓ/R, centre of mass at R_c·sin(α/2)/(α/2), R = r + t/2,
    /// R_c = R + t²/(12·R).
    /// Symbols: ρ density; w width along the shaft, t thickness; ℓ length cut from the flat stock, the same
    /// as along the middle face of the bent strip; r outer radius of the tube; α angle that it covers; R_c
    /// mean distance of its material.
    /// Range: `None` unless all are above 0 and the strip goes no further than once round.
    /// Source: geometry, exact for a sector of a ring. That the middle face keeps its length as the strip
    /// is bent holds for stock thin against the radius: common practice, no source.
    pub fn plate(&self, tube_radius: Length, length: Length) -> Option<Plate> {
        let (middle, mean) = self.on(tube_radius)?;
        let half = length.base() / middle / 2.0;
        let mass = self.density.base() * self.width.base() * self.thickness.base() * length.base();
        if !(half > 0.0 && half <= PI && mass.is_finite()) {
            return None;
        }
        // Once round sin π leaves a last bit of the wrong sign or the right one: either is nothing.
        let share = half.sin().max(0.0) / half;
        Some(Plate {
            mass: Mass::from_base(mass),
            radius: Length::from_base(mean * share),
            round: Angle::from_base(2.0 * half),
            share,
        })
    }

    /// The length to cut for a wanted unbalance on a tube.
    ///
    /// Formula: ℓ = 2·R·arcsin(U/(2·ρ·w·t·R·R_c)): [`Stock::plate`] the other way round, in closed form,
    /// for U = 2·ρ·w·t·R·R_c·sin(ℓ/(2·R)).
    /// Symbols: U wanted unbalance; the others as there.
    /// Range: `None` unless all are above 0; and where no length up to half of the way round is enough: the
    /// ends of a longer one pull against each other. Take wider or thicker stock then.
    /// Source: geometry.
    pub fn cut_length(&self, tube_radius: Length, wanted: Unbalance) -> Option<Length> {
        let (middle, mean) = self.on(tube_radius)?;
        let most = 2.0 * self.density.base() * self.width.base() * self.thickness.base() * middle * mean;
        let sine = wanted.base() / most;
        (sine > 0.0 && sine <= 1.0).then(|| Length::from_base(2.0 * middle * sine.asin()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::material::steel;
    use crate::quantity::{
        as_degrees, as_gram_millimetres, as_grams, as_millimetres, gram_millimetres,
        kilograms_per_cubic_metre, millimetres,
    };

    fn stock(width: f64, thickness: f64) -> Stock {
        let density = steel().density;
        Stock { width: millimetres(width), thickness: millimetres(thickness), density }
    }

    #[test]
    fn a_strip_by_hand() {
        // By hand: steel 7850 kg/m³, 25 × 3 × 60 mm: 4500 mm³, 35.325 g. On a tube of 38.5 mm radius its
        // middle face lies at 40 mm: 60/40 = 1.5 rad, 85.944°; mean distance 40 + 9/480 = 40.01875 mm;
        // sin 0.75/0.75 = 0.908852, so its centre lies at 36.371 mm.
        let got = stock(25.0, 3.0).plate(millimetres(38.5), millimetres(60.0)).unwrap();
        assert!((as_grams(got.mass) - 35.325).abs() < 1e-9);
        assert!((as_degrees(got.round) - 85.944).abs() < 5e-4);
        assert!((got.share - 0.908_852).abs() < 5e-7);
        assert!((as_millimetres(got.radius) - 36.3711).abs() < 5e-5);
        assert!((as_gram_millimetres(got.unbalance()) - 35.325 * 36.3711).abs() < 5e-3);
    }

    #[test]
    fn what_is_cut_weighs_what_was_wanted() {
        // Law: the two ways undo each other, over the whole reach of a strip.
        let (stock, tube) = (stock(20.0, 2.5), millimetres(44.45));
        let half_round = (44.45 + 1.25) * PI;
        for part in [1e-6, 0.01, 0.2, 0.5, 0.9, 0.999] {
            let length = part * half_round;
            let plate = stock.plate(tube, millimetres(length)).unwrap();
            let back = as_millimetres(stock.cut_length(tube, plate.unbalance()).unwrap());
            assert!((back - length).abs() < 1e-9 * half_round, "{part}");
        }
        // Half of the way round is the most it can do: by definition of the sine.
        let most = stock.plate(tube, millimetres(half_round)).unwrap();
        assert!((most.share - 2.0 / PI).abs() < 1e-12);
        assert!(stock.cut_length(tube, most.unbalance() * 1.000_001).is_none());
        for part in [0.8, 1.2, 1.9] {
            let less = stock.plate(tube, millimetres(part * half_round)).unwrap();
            assert!(less.unbalance() < most.unbalance());
        }
        // Once round it is no weight at all, and further it does not go.
        let ring = stock.plate(tube, millimetres(2.0 * half_round)).unwrap();
        assert!(as_gram_millimetres(ring.unbalance()).abs() < 1e-9);
        assert!(stock.plate(tube, millimetres(2.001 * half_round)).is_none());
    }

    #[test]
    fn a_short_thin_piece_is_its_mass_at_the_tube() {
        // Law: the limit of a small thin piece is m·r, its share falls with the square of its length.
        let (tube, length) = (millimetres(40.0), millimetres(0.5));
        let got = stock(10.0, 1e-4).plate(tube, length).unwrap();
        assert!((as_millimetres(got.radius) - 40.0).abs() < 4e-4);
        let lost = |length: f64| 1.0 - stock(10.0, 1.0).plate(tube, millimetres(length)).unwrap().share;
        assert!((lost(8.0) / lost(4.0) - 4.0).abs() < 0.01);
    }

    #[test]
    fn no_such_strip() {
        let tube = millimetres(40.0);
        for (width, thickness) in
            [(0.0, 3.0), (-1.0, 3.0), (20.0, 0.0), (20.0, f64::NAN), (f64::INFINITY, 3.0)]
        {
            let stock = stock(width, thickness);
            assert!(stock.plate(tube, millimetres(20.0)).is_none(), "{width} {thickness}");
            assert!(stock.cut_length(tube, gram_millimetres(100.0)).is_none(), "{width} {thickness}");
        }
        let good = stock(20.0, 3.0);
        for length in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(good.plate(tube, millimetres(length)).is_none());
            assert!(good.plate(millimetres(length), millimetres(20.0)).is_none());
            assert!(good.cut_length(tube, gram_millimetres(length)).is_none());
            assert!(good.cut_length(millimetres(length), gram_millimetres(1.0)).is_none());
        }
        let weightless = Stock { density: kilograms_per_cubic_metre(0.0), ..good };
        assert!(weightless.plate(tube, millimetres(20.0)).is_none());
    }
}
