//! The shaft as it is built: what the fields say of it, ready for the elements.

use super::found::FitReason;
use super::whirl::stiffness;
use super::why;
use crate::job::{End, Entry, Job};
use crate::mechanics::beam::Support;
use crate::mechanics::drive_shaft::{DriveShaft, YokeEnd};
use crate::mechanics::tube::Tube;
use crate::mechanics::uncertainty::Measured;
use crate::quantity::{Base, Length, Mass, SpringRate};
use crate::stage::field::Fields;
use crate::stage::finding::{Blocked, Reason};
use crate::stage::measure::length_change;
use crate::stage::weights::WeightReason;

/// The shaft as it will be, and as it was.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Built {
    /// As it will be.
    pub new: DriveShaft,
    /// As it was.
    pub old: DriveShaft,
    /// Its new length with its spread.
    pub length: Measured<Length>,
    /// The yokes' mass is half of what the shaft weighs beyond its tube each.
    pub halved: bool,
    /// Least stiffness of what holds it, front and rear, where typed.
    pub soft: [Option<SpringRate>; 2],
}

/// The masses of both yokes: as typed, else half each of what the shaft weighs beyond its new tube.
fn yokes(fields: &mut Fields, tube: Option<Mass>) -> Option<Result<([Mass; 2], bool), Blocked>> {
    let both = [Entry::FrontYokeMass, Entry::RearYokeMass];
    let empty = both.iter().all(|entry| fields.is_empty(*entry));
    if empty && !fields.is_empty(Entry::ShaftMass) {
        let (whole, tube) = (fields.mass(Entry::ShaftMass)?, tube?);
        if tube >= whole {
            let reason = Reason::Weight(WeightReason::TubeHeavier { tube });
            return Some(Err(Blocked::Impossible(reason)));
        }
        let half = (whole - tube) * 0.5;
        return Some(Ok(([half, half], true)));
    }
    let [front, rear] = both.map(|entry| fields.mass(entry));
    Some(Ok(([front?, rear?], false)))
}

/// Another tube behind a place, where one is described.
fn step(fields: &mut Fields) -> Option<Option<(Length, Tube)>> {
    let all = [Entry::StepAt, Entry::StepDiameter, Entry::StepWall];
    if all.iter().all(|entry| fields.is_empty(*entry)) {
        return Some(None);
    }
    let [at, diameter, wall] = all.map(|entry| fields.length(entry));
    let (at, diameter, wall) = (at?, diameter?, wall?);
    Tube::new(diameter, wall).ok().map(|tube| Some((at, tube)))
}

/// The shaft as it is built.
///
/// # Errors
/// [`Blocked`].
pub fn built(job: &Job) -> Result<Built, Blocked> {
    let mut fields = Fields::of(job);
    let (diameter, wall) = (fields.length(Entry::TubeDiameter), fields.length(Entry::TubeWall));
    let lengths = fields.sum(length_change(job));
    let (far, weld) = (fields.length(Entry::FarWeldLine), fields.length(Entry::WeldLine));
    let stiffness = fields.sum(stiffness(job));
    let tube = diameter.zip(wall).and_then(|(diameter, wall)| Tube::new(diameter, wall).ok());
    let reach = lengths.as_ref().zip(weld).map(|(lengths, weld)| lengths.old.best - weld);
    let tube_length = lengths
        .as_ref()
        .zip(far.zip(reach))
        .map(|(lengths, (far, near))| lengths.wanted.best - far - near);
    let tube_mass = tube.zip(stiffness).zip(tube_length);
    let tube_mass = tube_mass.map(|((tube, of), length)| tube.mass(of.density, length));
    let masses = yokes(&mut fields, tube_mass);
    let step = step(&mut fields);
    let lump = optional_pair(&mut fields, Entry::LumpAt, Entry::LumpMass);
    let bearing = fields.optional_length(Entry::BearingAt);
    let hung: Option<Mass> = fields.optional(Entry::SlipMass);
    let soft = [Entry::FrontSupport, Entry::RearSupport].map(|entry| fields.optional(entry));
    let needs = fields.needs();
    if !needs.is_empty() {
        return Err(Blocked::Missing(needs));
    }
    let (Some(lengths), Some(far), Some(near), Some(tube), Some(stiffness), Some(masses), Some(step)) =
        (lengths, far, reach, tube, stiffness, masses, step)
    else {
        return Err(Blocked::Impossible(Reason::NotComputable));
    };
    let ([front_mass, rear_mass], halved) = masses?;
    let (front, rear) = if job.cut.end == End::Rear { (far, near) } else { (near, far) };
    let yokes = [YokeEnd { length: front, mass: front_mass }, YokeEnd { length: rear, mass: rear_mass }];
    let change = lengths.old.best - lengths.wanted.best;
    // Places count from the front joint of the new shaft: cut there, all of the old one lay farther back.
    let shaft = |length: Length, by: Length| DriveShaft {
        length,
        tube,
        stiffness,
        yokes,
        step: step.map(|(at, tube)| (at + by, tube)),
        lump: lump.map(|(at, mass)| (at + by, mass)),
        bearing: bearing.map(|at| at + by),
        hung: hung.unwrap_or(Mass::from_base(0.0)),
        held: [Support::Rigid; 2],
        yoke_share: 1.0,
    };
    let built = Built {
        new: shaft(lengths.wanted.best, Length::from_base(0.0)),
        old: shaft(
            lengths.old.best,
            if job.cut.end == End::Front { change } else { Length::from_base(0.0) },
        ),
        length: lengths.wanted,
        halved,
        soft,
    };
    if built.new.beam().is_none() {
        return Err(Blocked::Impossible(why(FitReason::NoSuchShaft)));
    }
    Ok(built)
}

/// Two fields that go together: both, neither, or what is missing of them.
fn optional_pair(fields: &mut Fields, at: Entry, mass: Entry) -> Option<(Length, Mass)> {
    if fields.is_empty(at) && fields.is_empty(mass) {
        return None;
    }
    let (at, mass) = (fields.length(at), fields.mass(mass));
    at.zip(mass)
}

impl Built {
    /// The new shaft, held as the fields say.
    pub fn softly(&self) -> DriveShaft {
        let by = |rate: Option<SpringRate>| rate.map_or(Support::Rigid, Support::Spring);
        let [front, rear] = self.soft;
        DriveShaft { held: [by(front), by(rear)], ..self.new }
    }
}
