//! The drive shaft as a beam: two yokes and the tube between them, with what hangs on it and what holds it.

use super::beam::{Beam, Held, Lump, Section, Stretch, Support};
use super::material::{Stiffness, steel};
use super::tube::Tube;
use crate::quantity::{Base, Inertia, Length, Mass};

/// A yoke: from its joint's centre to where the tube begins, with its half of the joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YokeEnd {
    /// Joint's centre to the tube.
    pub length: Length,
    /// Its mass.
    pub mass: Mass,
}

/// A drive shaft, or the front half of one in two pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriveShaft {
    /// Joint to joint.
    pub length: Length,
    /// The tube, or its front part.
    pub tube: Tube,
    /// What it is of.
    pub stiffness: Stiffness,
    /// Front and rear yoke.
    pub yokes: [YokeEnd; 2],
    /// Front joint to the place where the tube changes, and the tube behind it.
    pub step: Option<(Length, Tube)>,
    /// Front joint to a lump, and its mass.
    pub lump: Option<(Length, Mass)>,
    /// Front joint to a centre bearing, which then holds it in place of the rear joint.
    pub bearing: Option<Length>,
    /// What hangs on the front and on the rear joint: it counts where that gives way, or hangs out.
    pub hung: [Mass; 2],
    /// What holds it, front and rear.
    pub held: [Support; 2],
    /// How stiff the yokes are, as a share of a solid bar of steel as thick as the tube.
    pub yoke_share: f64,
}

impl DriveShaft {
    /// Mass of the tube between both yokes, of one size or two.
    ///
    /// Formula: Σ ρ·A·ℓ. Symbols: ρ density, A section, ℓ length of each part. Source: geometry.
    pub fn tube_mass(&self) -> Mass {
        let [front, rear] = self.yokes;
        let (from, to) = (front.length, self.length - rear.length);
        let density = self.stiffness.density;
        match self.step {
            None => self.tube.mass(density, to - from),
            Some((at, other)) => self.tube.mass(density, at - from) + other.mass(density, to - at),
        }
    }

    /// The beam it is taken for.
    ///
    /// Formula: stretches of a yoke, the tube (or both its parts), a yoke; each yoke as stiff as a share of a
    /// solid bar of steel as thick as the tube beside it, its mass spread along it.
    /// Range: `None` where the parts do not fit into the length, or a mass is under 0.
    /// Source: our own choice for the yokes: a forged yoke bends so little beside the tube that half of that
    /// stiffness changes the first speed by less than the tube's wall does (`tests/stages/check.rs`).
    /// Assumes joints that bend freely, as joints do.
    pub fn beam(&self) -> Option<Beam> {
        let [front, rear] = self.yokes;
        let behind = self.length - rear.length;
        let fits = front.length.base() > 0.0 && rear.length.base() > 0.0 && front.length < behind;
        let within = |z: Length| z.base() >= 0.0 && z <= self.length;
        let masses = front.mass.base() >= 0.0
            && rear.mass.base() >= 0.0
            && self.hung.iter().all(|mass| mass.base() >= 0.0);
        if !(fits && masses && self.length.is_finite()) {
            return None;
        }
        let last = self.step.map_or(self.tube, |(_, tube)| tube);
        let yoke = |beside: Tube, yoke: YokeEnd| {
            let bar = Tube::new(beside.outer(), beside.outer() * 0.5).ok()?;
            let steel = steel();
            let of = Stiffness {
                modulus: steel.modulus * self.yoke_share,
                shear: steel.shear * self.yoke_share,
                ..steel
            };
            let section = Section::heavy(Section::of_tube(bar, of), yoke.mass, yoke.length);
            Some(Stretch { length: yoke.length, section })
        };
        let tube = |tube: Tube, length: Length| Stretch {
            length,
            section: Section::of_tube(tube, self.stiffness),
        };
        let mut stretches = vec![yoke(self.tube, front)?];
        match self.step {
            None => stretches.push(tube(self.tube, behind - front.length)),
            Some((at, other)) => {
                if !(at > front.length && at < behind) {
                    return None;
                }
                stretches.push(tube(self.tube, at - front.length));
                stretches.push(tube(other, behind - at));
            }
        }
        stretches.push(yoke(last, rear)?);
        let mut lumps = Vec::new();
        let at = |z: Length, mass: Mass| Lump { z, mass, inertia: Inertia::from_base(0.0) };
        for (z, mass) in [Length::from_base(0.0), self.length].into_iter().zip(self.hung) {
            if mass.base() > 0.0 {
                lumps.push(at(z, mass));
            }
        }
        if let Some((z, mass)) = self.lump {
            if !(within(z) && mass.base() >= 0.0) {
                return None;
            }
            lumps.push(at(z, mass));
        }
        let rear_at = self.bearing.unwrap_or(self.length);
        if !(within(rear_at) && rear_at > front.length) {
            return None;
        }
        let [by_front, by_rear] = self.held;
        let held =
            vec![Held { z: Length::from_base(0.0), by: by_front }, Held { z: rear_at, by: by_rear }];
        Some(Beam { stretches, lumps, held })
    }
}
