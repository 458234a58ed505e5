//! Bending frequencies of a whole shaft that does not spin: tube, yokes, steps, overhangs, springy supports.
//!
//! Finite beam elements (Timoshenko, with rotary inertia); consistent stiffness and mass after Przemieniecki
//! and after Friedman and Kosmatka. The frequencies are those λ = ω² for which K·φ = λ·M·φ. Each is found by
//! inverse iteration, its shift moved after Rayleigh, inside a bracket that Sturm's count of the negative
//! pivots of K − σ·M keeps (K. J. Bathe, Finite Element Procedures; B. N. Parlett, The Symmetric Eigenvalue
//! Problem; both from memory), and is given out only after that count has proved it: as many λ below it as
//! were found before, and one more just above.
//!
//! Not spinning is the safe side: rotary inertia as a spinning tube feels it reverses its sign, so that
//! forward whirl lies a little higher.

use crate::quantity::{AngularVelocity, Base, Inertia, Length, Mass, SpringRate};

pub use section::Section;

mod banded;
mod element;
mod mesh;
mod modes;
mod section;
#[cfg(test)]
mod tests;

/// A length of beam of one section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// How long it is.
    pub length: Length,
    /// What it is like.
    pub section: Section,
}

/// A mass that sits on the beam at one place, stiff in itself and without length along it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lump {
    /// Where, from the front end of the first stretch.
    pub z: Length,
    /// How heavy.
    pub mass: Mass,
    /// Its inertia about a diameter, as the beam's slope tilts it.
    pub inertia: Inertia,
}

/// What holds the beam at a place, the same in every direction across it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Support {
    /// Does not give.
    Rigid,
    /// Gives as a spring does: a centre bearing's rubber, a soft gearbox mount.
    Spring(SpringRate),
}

/// A place where the beam is held: pinned, as a joint does, so that it takes no moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Where, from the front end of the first stretch.
    pub z: Length,
    /// By what.
    pub by: Support,
}

/// A shaft as a beam: stretches in order from the front, what sits on them, where they are held.
///
/// Supports may stand anywhere along it: a centre bearing with an overhang behind it is two of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Beam {
    /// The stretches, from the front.
    pub stretches: Vec<Stretch>,
    /// The lumps, in any order; two at one place add.
    pub lumps: Vec<Lump>,
    /// The supports, in any order; springs at one place add.
    pub held: Vec<Held>,
}

/// The three lowest bending frequencies and the shape of the first.
#[derive(Clone, Debug, PartialEq)]
pub struct Modes {
    /// The frequencies as the speeds of rotation that meet them, the lowest first. Two may be equal.
    pub speeds: [AngularVelocity; 3],
    /// The first mode: the nodes and the middle between any two, from the front, and how far each is deflected,
    /// as a share of the largest, which is 1.
    pub shape: Vec<(Length, f64)>,
}

/// Why there are no bending frequencies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoModes {
    /// There is no beam, or a stretch has no length (or less than two millionths of the whole).
    NoLength,
    /// A stretch's stiffness is not above 0, or its mass is below 0, or one of them is no number.
    NoSuchSection,
    /// A lump's mass or inertia is below 0 or no number.
    NoSuchLump,
    /// A spring's rate is below 0 or no number.
    NoSuchSupport,
    /// A lump or a support lies off the beam, or nowhere.
    Outside,
    /// Held at fewer than two places, so that the beam swings about the one as a pendulum would. A spring
    /// of rate 0 holds nothing.
    NotHeld,
    /// Fewer things move than modes are asked for: a beam without mass and with two lumps has two.
    TooLight,
    /// More than 400 elements are asked for.
    TooFine,
    /// The numbers are too far apart for the digits that there are, and the count proves nothing.
    NotComputable,
}

impl Beam {
    /// The three lowest bending frequencies, and the first one's shape, in about so many elements.
    ///
    /// Symbols: EI·(θ′)′ + κGA·(w′ − θ) = ρI·θ̈, κGA·(w″ − θ′) = ρA·ẅ with w deflection, θ slope; each
    /// section as [`Section`] has it. At least one element lies between any two places where something
    /// changes; places within a millionth of the whole length are one.
    /// Range: at most 400 elements. Of a uniform pinned tube from six diameters long, 16 give the first within
    /// 0.001 %, 40 all three within 0.003 %, always from above; the error falls with 1/n⁴.
    /// Source: see the head of this file; held against the closed root of pinned tubes, against a library of
    /// rotordynamics and against sums by hand.
    /// Assumes a shaft that does not spin, joints that take no moment and have no friction, small
    /// deflections, no damping, the same stiffness all round, no push or pull along the shaft.
    ///
    /// # Errors
    /// [`NoModes`] says which of the numbers cannot be, or that the beam is not held.
    pub fn modes(&self, elements: usize) -> Result<Modes, NoModes> {
        modes::three(&mesh::Mesh::of(self, elements)?)
    }

    /// The first bending frequency alone, as [`Beam::modes`] has it, for a third of the work. It is found
    /// too where fewer than three things move.
    ///
    /// # Errors
    /// [`NoModes`] as for [`Beam::modes`].
    pub fn first(&self, elements: usize) -> Result<AngularVelocity, NoModes> {
        modes::first(&mesh::Mesh::of(self, elements)?).map(AngularVelocity::from_base)
    }
}
