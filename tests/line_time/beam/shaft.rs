//! The shaft that is timed: two yokes, a tube, a flange, a soft support behind.

use shaftwright::mechanics::beam::{Beam, Held, Lump, Section, Stretch, Support};
use shaftwright::mechanics::material::steel;
use shaftwright::mechanics::tube::Tube;
use shaftwright::quantity::{Base, Inertia, SpringRate, kilograms, millimetres};

/// The shaft, or nothing where a tube of it could not be.
pub fn shaft() -> Option<Beam> {
    let of = |diameter, wall| {
        let tube = Tube::new(millimetres(diameter), millimetres(wall)).ok()?;
        Some(Section::of_tube(tube, steel()))
    };
    let yoke = Section::heavy(of(45.0, 22.5)?, kilograms(1.2), millimetres(60.0));
    let stretch = |length, section| Stretch { length: millimetres(length), section };
    Some(Beam {
        stretches: vec![stretch(60.0, yoke), stretch(1150.0, of(76.2, 2.1)?), stretch(60.0, yoke)],
        lumps: vec![Lump {
            z: millimetres(1150.0),
            mass: kilograms(0.4),
            inertia: Inertia::from_base(0.0004),
        }],
        held: vec![
            Held { z: millimetres(0.0), by: Support::Rigid },
            Held { z: millimetres(1270.0), by: Support::Spring(SpringRate::from_base(2e7)) },
        ],
    })
}
