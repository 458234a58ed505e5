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
use crate::stage::finding::{Blocked, Need, Reason};
use crate::stage::measure::length_change;
use crate::stage::weights::WeightReason;

/// The shaft as it is, and how it is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Built {
    /// As it is now, held rigidly.
    pub old: DriveShaft,
    /// Its new length with its spread.
    pub length: Measured<Length>,
    /// The yokes' mass is half of what the shaft weighs beyond its tube each.
    pub halved: bool,
    /// Least stiffness of what holds it, front and rear, where typed.
    pub soft: [Option<SpringRate>; 2],
    /// The old weld at the cut end, behind the front joint, and whether it is the rear end.
    weld: Length,
    at_rear: bool,
}

/// Another tube behind a place, from the front joint, where one is described.
type Step = Option<(Length, Tube)>;

/// The tube, and another one behind a place where one is described.
///
/// # Errors
/// The fields that are needed.
pub fn tubes(job: &Job) -> Result<(Tube, Step), Vec<Need>> {
    let mut fields = Fields::of(job);
    let first = [Entry::TubeDiameter, Entry::TubeWall].map(|entry| fields.length(entry));
    let other = [Entry::StepAt, Entry::StepDiameter, Entry::StepWall];
    let stepped = other.iter().any(|entry| !fields.is_empty(*entry));
    let other = stepped.then(|| other.map(|entry| fields.length(entry)));
    let needs = fields.needs();
    let tube = |diameter: Option<Length>, wall: Option<Length>| Tube::new(diameter?, wall?).ok();
    let [diameter, wall] = first;
    match (tube(diameter, wall), other) {
        (Some(first), None) => Ok((first, None)),
        (Some(first), Some([at, diameter, wall])) => match at.zip(tube(diameter, wall)) {
            Some(step) => Ok((first, Some(step))),
            None => Err(needs),
        },
        (None, _) => Err(needs),
    }
}

/// The masses of both yokes: as typed, else half each of what the shaft weighs beyond all that is known of it.
fn yokes(fields: &mut Fields, known: Option<Mass>) -> Option<Result<([Mass; 2], bool), Blocked>> {
    let both = [Entry::FrontYokeMass, Entry::RearYokeMass];
    let empty = both.iter().all(|entry| fields.is_empty(*entry));
    if empty {
        let (whole, known) = (fields.mass(Entry::ShaftMass)?, known?);
        if known >= whole {
            let reason = Reason::Weight(WeightReason::TubeHeavier { tube: known });
            return Some(Err(Blocked::Impossible(reason)));
        }
        let half = (whole - known) * 0.5;
        return Some(Ok(([half, half], true)));
    }
    let [front, rear] = both.map(|entry| fields.mass(entry));
    Some(Ok(([front?, rear?], false)))
}

/// The shaft as it is built.
///
/// # Errors
/// [`Blocked`].
pub fn built(job: &Job) -> Result<Built, Blocked> {
    let mut fields = Fields::of(job);
    let tubes = fields.sum(tubes(job));
    let lengths = fields.sum(length_change(job));
    let (far, weld) = (fields.length(Entry::FarWeldLine), fields.length(Entry::WeldLine));
    let stiffness = fields.sum(stiffness(job));
    let lump = optional_pair(&mut fields, Entry::LumpAt, Entry::LumpMass);
    let bearing = fields.optional_length(Entry::BearingAt);
    let behind: Option<Mass> = if bearing.is_some() { fields.quantity(Entry::HungBehind) } else { None };
    let slip: Option<Mass> = fields.optional(Entry::SlipMass);
    let none = Mass::from_base(0.0);
    let hung = [slip, behind].map(|mass| mass.unwrap_or(none));
    let soft = [Entry::FrontSupport, Entry::RearSupport].map(|entry| fields.optional(entry));
    let reach = lengths.as_ref().zip(weld).map(|(lengths, weld)| lengths.old.best - weld);
    let ends = far.zip(reach).map(|(far, near)| match job.cut.end {
        End::Rear => (far, near),
        End::Front => (near, far),
    });
    let shaft = |yokes: [Mass; 2]| {
        let ((tube, step), (front, rear)) = (tubes?, ends?);
        let [front_mass, rear_mass] = yokes;
        Some(DriveShaft {
            length: lengths.as_ref()?.old.best,
            tube,
            stiffness: stiffness?,
            yokes: [
                YokeEnd { length: front, mass: front_mass },
                YokeEnd { length: rear, mass: rear_mass },
            ],
            step,
            lump,
            bearing,
            hung,
            held: [Support::Rigid; 2],
            yoke_share: 1.0,
        })
    };
    // What the whole weighs beside its yokes; what hangs behind a bearing is not on that scale.
    let wanted = lengths.as_ref().map(|lengths| lengths.wanted.best);
    let bare = shaft([none; 2]).zip(wanted).zip(weld);
    let bare = bare.map(|((bare, wanted), weld)| cut_to(&bare, wanted, old_weld(job, &bare, weld)));
    let lump_mass = lump.map_or(none, |(_, mass)| mass);
    let known = bare.map(|(bare, _)| bare.tube_mass() + lump_mass + hung[0]);
    let masses = yokes(&mut fields, known);
    let needs = fields.needs();
    if !needs.is_empty() {
        return Err(Blocked::Missing(needs));
    }
    let (Some(masses), Some(lengths), Some(weld)) = (masses, lengths.as_ref(), weld) else {
        return Err(Blocked::Impossible(Reason::NotComputable));
    };
    let (masses, halved) = masses?;
    let Some(old) = shaft(masses) else {
        return Err(Blocked::Impossible(Reason::NotComputable));
    };
    let (weld, at_rear) = old_weld(job, &old, weld);
    let built = Built { old, length: lengths.wanted, halved, soft, weld, at_rear };
    let (new, whole) = cut_to(&built.old, built.length.best, (weld, at_rear));
    if !whole || new.beam().is_none() {
        return Err(Blocked::Impossible(why(FitReason::NoSuchShaft)));
    }
    Ok(built)
}

/// The old weld at the cut end, behind the front joint, and whether it is the rear end.
fn old_weld(job: &Job, old: &DriveShaft, from_far: Length) -> (Length, bool) {
    match job.cut.end {
        End::Rear => (from_far, true),
        End::Front => (old.length - from_far, false),
    }
}

/// The same shaft cut to another length: what lies behind the tube that is cut out moves with its end. Also
/// whether all that sits on it is still there.
fn cut_to(old: &DriveShaft, length: Length, (weld, at_rear): (Length, bool)) -> (DriveShaft, bool) {
    let by = length - old.length;
    let moved = |z: Length| {
        let behind = if at_rear { z >= weld } else { z > weld };
        if behind { z + by } else { z }
    };
    let shaft = DriveShaft {
        length,
        step: old.step.map(|(at, tube)| (moved(at), tube)),
        lump: old.lump.map(|(at, mass)| (moved(at), mass)),
        bearing: old.bearing.map(moved),
        ..*old
    };
    // What sat on the piece that is sawn out, or between both ends, is nowhere.
    let gone = |z: Length| {
        let edge = if at_rear { weld + by } else { weld - by };
        let out = if at_rear { z > edge && z < weld } else { z > weld && z < edge };
        out && by.base() < 0.0
    };
    let placed = [old.step.map(|(at, _)| at), old.lump.map(|(at, _)| at), old.bearing];
    (shaft, !placed.into_iter().flatten().any(gone))
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
    /// The shaft at another length, held rigidly, cut at its end.
    pub fn at(&self, length: Length) -> DriveShaft {
        cut_to(&self.old, length, (self.weld, self.at_rear)).0
    }

    /// As it will be, held rigidly.
    pub fn wanted(&self) -> DriveShaft {
        self.at(self.length.best)
    }

    /// A shaft held as the fields say.
    pub fn softly(&self, shaft: DriveShaft) -> DriveShaft {
        let by = |rate: Option<SpringRate>| rate.map_or(Support::Rigid, Support::Spring);
        let [front, rear] = self.soft;
        DriveShaft { held: [by(front), by(rear)], ..shaft }
    }
}
