//! What a tube is made of: constants with name, value, unit and source.

use crate::quantity::{Base, MassDensity, Pressure, gigapascals, kilograms_per_cubic_metre};

/// A tube's material, as far as whirl asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stiffness {
    /// Young's modulus E, along the tube.
    pub modulus: Pressure,
    /// Density ρ.
    pub density: MassDensity,
    /// Shear modulus G. Of a wound tube it is a figure of its own: the way of the fibres decides it.
    pub shear: Pressure,
    /// Poisson's ratio ν; it is asked only for how shear is spread over the section.
    pub ratio: f64,
}

impl Stiffness {
    /// A metal: alike in all directions, so that its shear modulus follows, G = E/(2·(1 + ν)).
    ///
    /// Symbols: E Young's modulus, ρ density, ν Poisson's ratio. Source: any text on elasticity. Nothing is
    /// judged here: who reckons with a number that cannot be says so.
    pub fn of_metal(modulus: Pressure, density: MassDensity, ratio: f64) -> Stiffness {
        let shear = Pressure::from_base(modulus.base() / (2.0 * (1.0 + ratio)));
        Stiffness { modulus, density, shear, ratio }
    }
}

/// Carbon steel: E 205 GPa, ρ 7850 kg/m³, ν 0.29 (common handbook figures, from memory; E of carbon steels
/// runs from 200 to 210 GPa).
pub fn steel() -> Stiffness {
    Stiffness::of_metal(gigapascals(205.0), kilograms_per_cubic_metre(7850.0), 0.29)
}

/// Aluminium alloy 6061: E 68.9 GPa, ρ 2700 kg/m³, ν 0.33 (common handbook figures, from memory).
pub fn aluminium() -> Stiffness {
    Stiffness::of_metal(gigapascals(68.9), kilograms_per_cubic_metre(2700.0), 0.33)
}
