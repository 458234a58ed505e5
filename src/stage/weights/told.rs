//! The places that are told: every weight that goes back, or the two pieces that do its work; which of them
//! would touch.

use super::back::{cut, going_back, made, spans};
use super::clear::{Standing, forbidden, placed};
use super::log::{Logged, density};
use super::sense::{Piece, WeightReason};
use crate::job::{End, Job};
use crate::mechanics::across::Across;
use crate::mechanics::keep_off::{Band, Obstacle, Sector, hit_along, hit_on_clock};
use crate::mechanics::unbalance::{Spot, Weight};
use crate::quantity::{Angle, Base, Length, Mass, Unbalance, inches};
use crate::stage::finding::{Name, Verdict};

/// How thick a weight is taken to be that nobody measured. Our own choice.
fn usual_thickness() -> Length {
    inches(1.0 / 8.0)
}

/// A piece at its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    /// The weight that it is, or is a part of.
    pub name: Name,
    /// Its mass.
    pub mass: Mass,
    /// Its place on the clock.
    pub clock: Angle,
    /// Distance from the far datum on the new shaft.
    pub distance: Length,
    own: End,
    radius: Length,
    reach: Angle,
    half_width: Length,
}

/// How far a piece reaches on the clock and along the shaft to either side: as its strip or its size says;
/// else as a square plate of its mass. The square is our own choice, and only for what another weight must
/// not touch.
fn reaches(
    job: &Job,
    (logged, thick): (Option<&Logged>, Option<Length>),
    work: Unbalance,
    radius: Length,
) -> (Angle, Length) {
    let (reach, half_width) = spans(job, logged, work);
    if reach.base() > 0.0 {
        return (reach, half_width);
    }
    let thick = thick.unwrap_or_else(usual_thickness);
    let area = work.base() / radius.base() / (density(job).base() * thick.base());
    let half = area.sqrt() / 2.0;
    (Angle::from_base(half / radius.base()), Length::from_base(half))
}

/// Every piece that goes back, at the place that is told for it.
pub(in crate::stage) fn told(job: &Job) -> Vec<Told> {
    let mut all = Vec::new();
    for one in going_back(job).into_iter().filter_map(|(_, found)| found.ok()) {
        let Some(weight) = one.weight else { continue };
        let piece = |clock: Angle, mass: Mass, whole: bool| {
            let work = mass * weight.radius;
            let logged = one.of.first().filter(|_| whole && one.of.len() == 1);
            let (reach, half_width) = reaches(job, (logged, one.thick), work, weight.radius);
            let (name, own, radius, distance) = (one.name, one.own, weight.radius, one.distance);
            Told { name, mass, clock, distance, own, radius, reach, half_width }
        };
        match forbidden(job, &Standing::of(&one, &weight), &[]) {
            Some((_, Some(split))) => {
                all.extend(split.iter().map(|part| piece(part.clock, part.mass, false)));
            }
            _ => all.push(piece(weight.at, weight.mass, true)),
        }
    }
    all
}

/// What of these pieces a weight at this place along the shaft must keep off round the tube; all of its end
/// where its place is not known.
pub(in crate::stage) fn in_its_way(
    all: &[Told],
    own: End,
    distance: Option<Length>,
    half_width: Length,
) -> Vec<Sector> {
    let beside = |told: &&Told| match distance {
        Some(distance) => told.overlaps(distance, half_width),
        None => told.own == own,
    };
    all.iter().filter(beside).map(Told::sector).collect()
}

impl Told {
    fn unbalance(&self) -> Across<Unbalance> {
        Across::toward(self.mass * self.radius, self.clock)
    }

    fn sector(&self) -> Sector {
        Sector { obstacle: Obstacle::Weight, at: self.clock, half: self.reach }
    }

    fn overlaps(&self, distance: Length, half_width: Length) -> bool {
        let band = Band { obstacle: Obstacle::Weight, z: self.distance, half: self.half_width };
        hit_along(&[band], distance, half_width).is_some_and(|hit| !hit.is_empty())
    }

    fn touches(&self, other: &Told) -> bool {
        let round = hit_on_clock(&[other.sector()], self.clock, self.reach);
        self.overlaps(other.distance, other.half_width) && round.is_some_and(|hit| !hit.is_empty())
    }
}

/// That a weight would touch another one, and the one piece that does the work of both; without it where
/// that must not stand there either, as any weight is judged, or would touch a third one.
pub(super) fn touching(job: &Job, all: &[Told], name: Name) -> Option<WeightReason> {
    let of_it = || all.iter().filter(|told| told.name == name);
    let (one, other) = of_it().find_map(|one| {
        let other = all.iter().find(|told| told.name != name && told.touches(one))?;
        Some((one, other))
    })?;
    let unbalance = one.unbalance() + other.unbalance();
    let (own, distance, size) = (one.own, one.distance, unbalance.size());
    let both = made(job, Spot { unbalance, z: distance }, one.radius).filter(|weight: &Weight| {
        let radius = weight.radius;
        let (reach, half_width) = spans(job, None, size);
        let standing = Standing { own, unbalance, radius, distance: Some(distance), reach, half_width };
        let (reach, half_width) = reaches(job, (None, None), size, radius);
        let (mass, clock) = (weight.mass, weight.at);
        let made = Told { name, mass, clock, distance, own, radius, reach, half_width };
        let mut others = all.iter().filter(|third| *third != one && *third != other);
        matches!(placed(job, &standing, &[]), (Verdict::Good, _))
            && !others.any(|third| third.touches(&made))
    });
    let both = both.map(|weight| Piece { clock: weight.at, mass: weight.mass, cut: cut(job, size) });
    Some(WeightReason::TouchesAnother { both })
}
