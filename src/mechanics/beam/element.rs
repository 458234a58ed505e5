//! One finite element of a beam: two nodes, each with its deflection w and its slope θ, and a bulge q between
//! them.
//!
//! Between its nodes the element bends as a beam does that is loaded at its ends alone, so that it is exact
//! there and a slender one does not lock. The shear of such a beam is the same all along; that of a beam that
//! swings is not, and without more the error would fall with 1/n² where shear matters. The bulge, 4ξ(1 − ξ) of
//! deflection without slope, lets shear run in a straight line along the element: the error falls with 1/n⁴,
//! down to a share of 1e-6 or so, where what rotary inertia bends between the nodes is left.

use super::section::Section;

/// A piece of a beam between two nodes.
#[derive(Clone, Copy)]
pub(super) struct Piece {
    /// Its length, m.
    pub length: f64,
    /// Its section.
    pub section: Section,
}

/// What is needed of an element's matrix, since its two ends are alike.
#[derive(Clone, Copy)]
pub(super) struct Matrix {
    /// The front node's deflection with itself; the rear's is the same.
    pub ww: f64,
    /// The front deflection with the front slope; at the rear the opposite.
    pub wt: f64,
    /// The front slope with itself; the rear's is the same.
    pub tt: f64,
    /// The front deflection with the rear.
    pub w_w: f64,
    /// The front deflection with the rear slope; the front slope with the rear deflection is the opposite.
    pub w_t: f64,
    /// The front slope with the rear.
    pub t_t: f64,
    /// The bulge with itself.
    pub qq: f64,
    /// The bulge with either deflection.
    pub qw: f64,
    /// The bulge with the front slope; with the rear the opposite.
    pub qt: f64,
}

impl Piece {
    /// How much softer shear makes the piece: Φ = 12·EI/(κGA·ℓ²).
    fn softness(&self) -> f64 {
        12.0 * self.section.bending / (self.section.shear * self.length * self.length)
    }

    /// Stiffness: EI/(ℓ³(1+Φ)) times 12, 6ℓ, (4+Φ)ℓ² and −12, 6ℓ, (2−Φ)ℓ²; of the bulge 16·κGA/(3ℓ), and
    /// nothing with the nodes, since the shear of both is square to each other.
    ///
    /// Source: J. S. Przemieniecki, Theory of Matrix Structural Analysis (1968), from memory; the bulge by
    /// integration.
    pub fn stiffness(&self) -> Matrix {
        let (l, soft) = (self.length, self.softness());
        let c = self.section.bending / (l * l * l * (1.0 + soft));
        Matrix {
            ww: c * 12.0,
            wt: c * 6.0 * l,
            tt: c * (4.0 + soft) * l * l,
            w_w: c * -12.0,
            w_t: c * 6.0 * l,
            t_t: c * (2.0 - soft) * l * l,
            qq: self.bulging(),
            qw: 0.0,
            qt: 0.0,
        }
    }

    fn bulging(&self) -> f64 {
        16.0 / 3.0 * self.section.shear / self.length
    }

    /// Consistent mass, that of the deflection and that of the slope: ρAℓ/(210(1+Φ)²) times 70Φ²+147Φ+78,
    /// (35Φ²+77Φ+44)ℓ/4, (7Φ²+14Φ+8)ℓ²/4 and 35Φ²+63Φ+27, −(35Φ²+63Φ+26)ℓ/4, −(7Φ²+14Φ+6)ℓ²/4;
    /// ρI/(30(1+Φ)²ℓ) times 36, (3−15Φ)ℓ, (10Φ²+5Φ+4)ℓ² and −36, (3−15Φ)ℓ, (5Φ²−5Φ−1)ℓ²; of the bulge
    /// ρAℓ·8/15, with the deflections ρAℓ/3, with the slopes ±ρAℓ²/15.
    ///
    /// Source: Z. Friedman, J. B. Kosmatka, An improved two-node Timoshenko beam finite element, Computers &
    /// Structures 47 (1993), from memory; the bulge by integration. Held against the closed root of a pinned
    /// beam in the tests.
    pub fn mass(&self) -> Matrix {
        let (l, soft) = (self.length, self.softness());
        let stiffer = 1.0 / (1.0 + soft);
        let whole = self.section.mass * l;
        let a = whole / 210.0 * stiffer * stiffer;
        let b = self.section.rotary / (30.0 * l) * stiffer * stiffer;
        let by = |square: f64, once: f64, none: f64| (square * soft + once) * soft + none;
        let slope = b * by(0.0, -15.0, 3.0) * l;
        Matrix {
            ww: a * by(70.0, 147.0, 78.0) + b * 36.0,
            wt: a * by(35.0, 77.0, 44.0) * l / 4.0 + slope,
            tt: a * by(7.0, 14.0, 8.0) * l * l / 4.0 + b * by(10.0, 5.0, 4.0) * l * l,
            w_w: a * by(35.0, 63.0, 27.0) - b * 36.0,
            w_t: -a * by(35.0, 63.0, 26.0) * l / 4.0 + slope,
            t_t: -a * by(7.0, 14.0, 6.0) * l * l / 4.0 + b * by(5.0, -5.0, -1.0) * l * l,
            qq: whole * 8.0 / 15.0,
            qw: whole / 3.0,
            qt: whole * l / 15.0,
        }
    }

    /// Twice the energy of the piece, bent to this deflection and slope at its two ends and bulged.
    ///
    /// Formula: EI/ℓ·(θ₂ − θ₁)² + 12·EI/(ℓ(1+Φ))·((w₂ − w₁)/ℓ − (θ₁ + θ₂)/2)² + 16·κGA/(3ℓ)·q², the same as
    /// by [`Piece::stiffness`]. Large terms that cancel there are taken as differences here, so that it is
    /// right to the last bits for a short piece too.
    pub fn energy(&self, front: [f64; 3], rear: [f64; 3]) -> f64 {
        let ([w, slope, bulge], [w_rear, slope_rear, _]) = (front, rear);
        let bend = slope_rear - slope;
        let skew = (w_rear - w) / self.length - (slope + slope_rear) / 2.0;
        let stiff = self.section.bending / self.length;
        stiff * bend * bend
            + 12.0 * stiff / (1.0 + self.softness()) * skew * skew
            + self.bulging() * bulge * bulge
    }
}
