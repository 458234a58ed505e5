//! Residual: what a tube that does not run true puts out of balance, and the two weights against it.

use super::across::Across;
use super::apportion::at_places;
use super::student::circle_95;
use super::unbalance::{Shares, Spot};
use super::uncertainty::{Spread, combined};
use crate::quantity::{Base, Length, Mass, Unbalance};
pub use between::between;
pub use smooth::residual_of;

mod between;
mod smooth;

/// How near two places may come before they count as one, in metres: a dial's foot is not set closer.
const ONE_PLACE: f64 = 0.001;

/// The mass of a shaft as it lies along its length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body<'a> {
    /// Joint to joint.
    pub length: Length,
    /// Where the tube begins, behind the front joint's centre.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Mass of the tube, spread evenly from its beginning to its end: [`super::tube::Tube::mass`].
    pub tube: Mass,
    /// Yokes, and what else is small against the length.
    pub lumps: &'a [Lump],
}

/// A mass at one place along the shaft. It goes with the centreline there; a yoke's at its joint's centre
/// does not go off the axis at all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lump {
    /// Its mass.
    pub mass: Mass,
    /// Its centre, behind the front joint's.
    pub z: Length,
    /// How far its own centre of mass stands beside the centreline; nothing where that is not known.
    pub beside: Across<Length>,
}

/// A place where the centreline was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Behind the front joint's centre.
    pub z: Length,
    /// How far off the axis of rotation, which goes through both joints' centres.
    pub offset: Across<Length>,
    /// How well that is known: its standard uncertainty in the worst direction, and the degrees of freedom
    /// of the readings' scatter.
    pub spread: Spread<Length>,
}

/// An unbalance with its spread, the same in every direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// Best value.
    pub best: Across<Unbalance>,
    /// Its spread in any one direction.
    pub spread: Spread<Unbalance>,
}

impl Known {
    /// Radius of the circle round it that holds the true one in 95 of 100 cases: √(2F₀.₉₅(2, ν))·u.
    pub fn circle(self) -> Unbalance {
        self.spread.standard * circle_95(self.spread.freedom)
    }
}

/// The unbalances in the joints' planes that the centreline makes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// In the plane of the front joint.
    pub front: Known,
    /// In the plane of the rear joint.
    pub rear: Known,
}

impl Residual {
    /// The best values alone.
    pub fn shares(self) -> Shares {
        Shares { front: self.front.best, rear: self.rear.best }
    }
}

/// Why nothing is said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoResidual {
    /// Two places less than 1 mm apart.
    SamePlace {
        /// The place of the rearward one.
        z: Length,
    },
    /// A place, or a lump, that is not on the shaft; a place of the centreline at a joint, where it is on
    /// the axis by definition.
    OffTheShaft {
        /// That place.
        z: Length,
    },
    /// The length, the tube's ends or a mass that cannot be.
    BadBody,
    /// A number that is none, or too large to be reckoned with.
    NotFinite,
}

impl Body<'_> {
    /// Whether this can be a shaft.
    fn check(&self) -> Result<(), NoResidual> {
        let (length, from, to) = (self.length.base(), self.from.base(), self.to.base());
        let tube = self.tube.base();
        let sound = length.is_finite() && from >= 0.0 && from < to && to <= length;
        if !(sound && tube >= 0.0 && tube.is_finite()) {
            return Err(NoResidual::BadBody);
        }
        for lump in self.lumps {
            if !(lump.mass.base() >= 0.0 && lump.mass.is_finite()) {
                return Err(NoResidual::BadBody);
            }
            if !(0.0..=length).contains(&lump.z.base()) {
                return Err(NoResidual::OffTheShaft { z: lump.z });
            }
        }
        Ok(())
    }

    /// What the lumps' own centres put out of balance, on a shaft however straight.
    fn lumps_alone(&self) -> Shares {
        let spot = |lump: &Lump| Spot { unbalance: across(lump.mass.base(), lump.beside), z: lump.z };
        self.lumps.iter().fold(Shares::zero(), |sum, lump| sum.with(spot(lump), self.length))
    }
}

/// Mass times offset.
fn across(mass: f64, offset: Across<Length>) -> Across<Unbalance> {
    let times = |part: Length| Unbalance::from_base(mass * part.base());
    Across { up: times(offset.up), right: times(offset.right) }
}

/// A place of the centreline and the mass that hangs on it, as it counts in the front and in the rear
/// plane.
struct Knot {
    z: f64,
    offset: Across<Length>,
    spread: Spread<Length>,
    mass: [f64; 2],
}

/// The points in their order along the shaft, a joint at either end.
fn knots(length: f64, points: &[Point]) -> Result<Vec<Knot>, NoResidual> {
    let joint = |z: f64| Knot { z, offset: Across::zero(), spread: Spread::none(), mass: [0.0, 0.0] };
    let mut knots = vec![joint(0.0), joint(length)];
    for point in points {
        let (z, u) = (point.z.base(), point.spread.standard.base());
        let known = u >= 0.0 && u.is_finite() && point.spread.freedom > 0.0;
        if !(known && point.offset.size().is_finite() && z.is_finite()) {
            return Err(NoResidual::NotFinite);
        }
        if !(z > 0.0 && z < length) {
            return Err(NoResidual::OffTheShaft { z: point.z });
        }
        let place = knots.iter().position(|knot| knot.z > z).unwrap_or(knots.len());
        knots.insert(place, Knot { offset: point.offset, spread: point.spread, ..joint(z) });
    }
    // Joints are no readings: one may be read as near to them as it can be reached.
    let inner = knots.get(1..knots.len() - 1).unwrap_or_default();
    for pair in inner.windows(2) {
        if let [before, after] = pair
            && after.z - before.z < ONE_PLACE
        {
            return Err(NoResidual::SamePlace { z: Length::from_base(after.z) });
        }
    }
    Ok(knots)
}

/// Hangs a mass at z on the knots at both ends of its piece, as it counts in the two planes.
fn hang(pair: &mut [Knot], mass: f64, z: f64, length: f64) {
    if let [before, after] = pair {
        let along = (z - before.z) / (after.z - before.z);
        for (knot, part) in [(before, 1.0 - along), (after, along)] {
            let [front, rear] = &mut knot.mass;
            *front += mass * part * (1.0 - z / length);
            *rear += mass * part * z / length;
        }
    }
}

/// What a centreline found at some places puts out of balance, straight from place to place and on the axis
/// at both joints' centres.
///
/// Formula: front ∫μ·c(z)·(1 − z/L)dz + Σm·(c(z) + e)·(1 − z/L), rear the same with z/L, as vectors; in
/// closed form: on each straight piece Simpson's rule is exact for the product of two lines. u of each
/// √Σ(∂U/∂cᵢ·uᵢ)², freedom by Welch and Satterthwaite.
/// Symbols: c offset of the centreline, L joint-to-joint length, μ mass of the tube per length between its
/// ends, m each lump's mass, e how far its centre stands beside the centreline, uᵢ of each place.
/// Range: places in any order, between the joints, 1 mm or more apart; none at all is a straight shaft.
/// Source: statics of a rigid body; ISO 21940-2 (definition of unbalance); JCGM 100:2008 (10), (G.2b).
/// Assumes places read independently of each other, joints' centres that are on the axis of rotation, a wall
/// as thick all round (what a tube's wall puts out of balance is not seen by a dial), a shaft that is rigid
/// at its speed: [`super::whirl::is_rigid`].
///
/// # Errors
/// [`NoResidual`].
pub fn residual(body: &Body, points: &[Point]) -> Result<Residual, NoResidual> {
    body.check()?;
    let (length, from, to) = (body.length.base(), body.from.base(), body.to.base());
    let per_length = body.tube.base() / (to - from);
    let mut knots = knots(length, points)?;
    for i in 0..knots.len() {
        let Some(pair) = knots.get_mut(i..i + 2) else { break };
        let [Knot { z: start, .. }, Knot { z: end, .. }] = pair else { break };
        let (start, end) = (*start, *end);
        let (low, high) = (from.max(start), to.min(end));
        if high > low {
            let sixth = per_length * (high - low) / 6.0;
            hang(pair, sixth, low, length);
            hang(pair, 4.0 * sixth, (low + high) / 2.0, length);
            hang(pair, sixth, high, length);
        }
        // One at the rear joint is on the axis.
        for lump in body.lumps.iter().filter(|lump| (start..end).contains(&lump.z.base())) {
            hang(pair, lump.mass.base(), lump.z.base(), length);
        }
    }
    let mut found = body.lumps_alone();
    let (mut front, mut rear) = (Vec::new(), Vec::new());
    for knot in &knots {
        let [in_front, in_rear] = knot.mass;
        found.front = found.front + across(in_front, knot.offset);
        found.rear = found.rear + across(in_rear, knot.offset);
        let spread = |mass: f64| Spread {
            standard: Unbalance::from_base(mass.abs() * knot.spread.standard.base()),
            freedom: knot.spread.freedom,
        };
        front.push(spread(in_front));
        rear.push(spread(in_rear));
    }
    let (front, rear) = (combined(&front), combined(&rear));
    if !(found.are_finite() && front.standard.is_finite() && rear.standard.is_finite()) {
        return Err(NoResidual::NotFinite);
    }
    Ok(Residual {
        front: Known { best: found.front, spread: front },
        rear: Known { best: found.rear, spread: rear },
    })
}

/// The two unbalances on the tube that cancel those in the joints' planes.
///
/// Formula: −U in each plane, carried over to the two places by [`at_places`].
/// Symbols: L joint-to-joint length, `tube` where the tube begins and ends, `places` both behind the front
/// joint.
/// Range: `None` unless both places are on the tube and 1 mm or more apart, L > 0, all finite.
/// Source: statics of a rigid body. Assumes a rigid shaft.
pub fn cancelling(
    shares: Shares,
    length: Length,
    [from, to]: [Length; 2],
    places: [Length; 2],
) -> Option<[Spot; 2]> {
    let tube = from.base()..=to.base();
    let on_it = places.iter().all(|place| tube.contains(&place.base()));
    on_it.then(|| at_places(-shares, length, places)).flatten()
}
