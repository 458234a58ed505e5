//! The turn between the yokes: as read, as wanted, and as the shaft has it.

use super::amount::Amount;
use super::field::Fields;
use super::finding::{Law, Need};
use super::yokes::{self, Turn};
use crate::job::{AFTER_WELDING, BEFORE_CUT, BEFORE_TACKING, Entry, Job, PhaseTarget};
use crate::mechanics::uncertainty::Measured;
use crate::quantity::{Angle, Base};

/// The turn of the rear yoke against the front one that was read at a sitting, clockwise seen from the
/// rear.
///
/// # Errors
/// The fields that are needed.
pub fn turn(job: &Job, sitting: usize) -> Result<Measured<Angle>, Vec<Need>> {
    yokes::turn(job, sitting).map(|turn| turn.measured())
}

/// The turn that is wanted: none, as the yokes stood before the cut, or the mechanic's own.
///
/// # Errors
/// The fields that are needed.
pub fn target(job: &Job) -> Result<Measured<Angle>, Vec<Need>> {
    wanted(job).map(|turn| turn.measured())
}

/// The turn that the shaft has as far as is known: as welded where anything was read then, else as it
/// lies before tacking, else as it is wanted.
///
/// # Errors
/// The fields that are needed.
pub fn in_force(job: &Job) -> Result<Measured<Angle>, Vec<Need>> {
    match [AFTER_WELDING, BEFORE_TACKING].into_iter().find(|sitting| begun(job, *sitting)) {
        Some(sitting) => turn(job, sitting),
        None => target(job),
    }
}

/// Whether anything stands in the fields of a sitting, right or wrong.
pub fn begun(job: &Job, sitting: usize) -> bool {
    yokes::begun(job, sitting)
}

/// How far the rear yoke is off the turn wanted at a sitting, as a line; + clockwise seen from the rear.
///
/// # Errors
/// The fields that are needed.
pub fn off(job: &Job, sitting: usize) -> Result<Measured<Angle>, Vec<Need>> {
    off_wanted(job, sitting).map(|turn| turn.measured())
}

pub(super) fn wanted(job: &Job) -> Result<Turn, Vec<Need>> {
    match job.phase.target {
        PhaseTarget::InLine => Ok(Turn::exact(Angle::from_base(0.0))),
        PhaseTarget::AsItWas => yokes::turn(job, BEFORE_CUT),
        PhaseTarget::Own => {
            let mut fields = Fields::of(job);
            fields.angle(Entry::OwnTarget).map(Turn::exact).ok_or_else(|| fields.needs())
        }
    }
}

pub(super) fn off_wanted(job: &Job, sitting: usize) -> Result<Turn, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (turn, wanted) = (fields.sum(yokes::turn(job, sitting)), fields.sum(wanted(job)));
    let (Some(turn), Some(wanted)) = (turn, wanted) else {
        return Err(fields.needs());
    };
    let (read, aimed) = (Amount::Angle(turn.best), Amount::Angle(wanted.best));
    let mut off = turn.off(wanted);
    if job.phase.target != PhaseTarget::InLine {
        off.step(Law::OffTarget, &[read, aimed], Amount::Angle(off.best));
    }
    Ok(off)
}
