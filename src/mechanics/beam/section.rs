//! A beam's section: how stiff and how heavy a length of it is.

use super::super::material::Stiffness;
use super::super::tube::Tube;
use crate::quantity::{Base, Length, Mass};

/// How stiff and how heavy a length of a beam is.
///
/// Numbers in SI base units. Whether they can be is asked where they are reckoned with
/// ([`NoModes::NoSuchSection`](super::NoModes::NoSuchSection)).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Bending stiffness EI, N·m².
    pub(super) bending: f64,
    /// Shear stiffness κGA, N.
    pub(super) shear: f64,
    /// Mass per length ρA, kg/m.
    pub(super) mass: f64,
    /// Rotary inertia per length ρI, kg·m.
    pub(super) rotary: f64,
}

impl Section {
    /// The section of a tube, or of a solid bar.
    ///
    /// Formula: A = π(D² − d²)/4, I = A·(D² + d²)/16; EI, κGA, ρA, ρI with Cowper's shear coefficient of a
    /// hollow circle κ = 6(1+ν)(1+m²)²/((7+6ν)(1+m²)² + (20+12ν)m²), m = d/D.
    /// Symbols: D outer, d inner diameter; E Young's modulus, G shear modulus, ρ density, ν Poisson's
    /// ratio. Source: G. R. Cowper, The shear coefficient in Timoshenko's beam theory, J. Appl. Mech. 33
    /// (1966), from memory. Assumes a material alike all round; of a wound tube E is that along it.
    pub fn of_tube(tube: Tube, stiffness: Stiffness) -> Section {
        let (outer, inner) = (tube.outer().base(), tube.inner().base());
        let area = core::f64::consts::PI * (outer - inner) * (outer + inner) / 4.0;
        let second = area * tube.bending_diameter().base().powi(2) / 16.0;
        let (ratio, hollow) = (stiffness.ratio, (inner / outer).powi(2));
        let whole = (1.0 + hollow).powi(2);
        let spread =
            6.0 * (1.0 + ratio) * whole / ((7.0 + 6.0 * ratio) * whole + (20.0 + 12.0 * ratio) * hollow);
        let density = stiffness.density.base();
        Section {
            bending: stiffness.modulus.base() * second,
            shear: spread * stiffness.shear.base() * area,
            mass: density * area,
            rotary: density * second,
        }
    }

    /// A section as stiff as another, with a mass of its own: a yoke is stiff as a bar, and weighs what the
    /// scale says. A mass of 0 makes a spring of it.
    ///
    /// Formula: ρA = m/ℓ; ρI in the same proportion, so that the radius of gyration stays.
    /// Symbols: m mass, ℓ length that it is spread over. A section without mass has no radius of gyration,
    /// and then gets no rotary inertia.
    pub fn heavy(section: Section, mass: Mass, length: Length) -> Section {
        let per_length = mass.base() / length.base();
        let rotary = if section.mass > 0.0 { section.rotary / section.mass * per_length } else { 0.0 };
        Section { mass: per_length, rotary, ..section }
    }

    /// Stiffnesses above 0, masses of 0 or more, all finite.
    pub(super) fn is_sound(&self) -> bool {
        let stiff = |number: f64| number > 0.0 && number.is_finite();
        let heavy = |number: f64| number >= 0.0 && number.is_finite();
        stiff(self.bending) && stiff(self.shear) && heavy(self.mass) && heavy(self.rotary)
    }
}
