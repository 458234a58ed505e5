//! What a tube is made of: constants with name, value, unit and source.

use crate::quantity::{MassDensity, Pressure, gigapascals, kilograms_per_cubic_metre};

/// A tube's material, as far as whirl asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stiffness {
    /// Young's modulus E.
    pub modulus: Pressure,
    /// Density ρ.
    pub density: MassDensity,
}

/// Carbon steel: E 205 GPa, ρ 7850 kg/m³ (common handbook figures, from memory; E of carbon steels
/// runs from 200 to 210 GPa).
pub fn steel() -> Stiffness {
    Stiffness { modulus: gigapascals(205.0), density: kilograms_per_cubic_metre(7850.0) }
}

/// Aluminium alloy 6061: E 68.9 GPa, ρ 2700 kg/m³ (common handbook figures, from memory).
pub fn aluminium() -> Stiffness {
    Stiffness { modulus: gigapascals(68.9), density: kilograms_per_cubic_metre(2700.0) }
}
