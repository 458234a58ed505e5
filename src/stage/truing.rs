//! True: what a turn of the dial says, and what to do about it.

use super::along::elsewhere;
pub use super::bent::{Bent, bent as centreline};
pub use super::dial::{AsideBy, Turn, line, station_at, turn};
use super::field::Fields;
use super::finding::{Blocked, Finding, Name, Source};
use super::judged::{as_proven, chosen_limit, offset, total};
pub use super::judged::{limit, may_say_where, named_limit};
pub use super::tapping::{Earlier, earlier, tap_at};
use super::{bent, shape, tapping};
use crate::job::Job;
use crate::quantity::Length;

/// The latest turn that has a reading: the last one begun, whatever state of the shaft it was taken in.
/// A weld that is cut off and tacked again is judged by its new turn.
pub fn latest(job: &Job) -> usize {
    job.truing.passes.iter().rposition(|pass| !pass.is_blank()).unwrap_or(0)
}

/// The first place along the tube at which a pass has a reading; the first of all where it has none.
pub fn first_read(job: &Job, pass: usize) -> usize {
    let turns = job.truing.passes.get(pass).map(|pass| pass.turns.as_slice()).unwrap_or_default();
    turns.iter().position(|turn| !turn.is_blank()).unwrap_or(0)
}

/// The first of what follows from a turn: what to do.
/// `before` is what [`earlier`] says, kept while this turn is typed.
pub fn first(job: &Job, turn: &Result<Turn, Blocked>, before: &Earlier) -> Finding {
    match judged(job, turn) {
        Ok((turn, limit, source)) => tapping::correction(job, before, turn, limit, source),
        Err(blocked) => Finding::blocked(Name::Correction, blocked),
    }
}

/// What follows from the turn of a pass at a place, with what the turns before it teach.
pub fn findings(job: &Job, pass: usize, place: usize) -> Vec<Finding> {
    findings_of(job, pass, place, &turn(job, pass, place), &earlier(job, pass, place))
}

/// The same of a turn that was read, and of what [`earlier`] says.
pub fn findings_of(
    job: &Job,
    pass: usize,
    place: usize,
    turn: &Result<Turn, Blocked>,
    before: &Earlier,
) -> Vec<Finding> {
    const NAMES: [Name; 3] = [Name::Correction, Name::OffsetReading, Name::TotalReading];
    let (turn, limit, source) = match judged(job, turn) {
        Ok(known) => known,
        Err(blocked) => {
            return NAMES.map(|name| Finding::blocked(name, blocked.clone())).to_vec();
        }
    };
    let mut found = vec![
        tapping::correction(job, before, turn, limit, source),
        offset(turn, limit, source),
        as_proven(job, turn, total(job, turn, limit, source)),
    ];
    found.extend(elsewhere(job, pass, place, limit, source));
    found.extend(shape::aside(turn));
    found.extend(shape::shape(job, turn));
    found.extend(shape::drift(turn));
    found.extend(tapping::findings(job, pass, place, before, turn, limit));
    found.extend(bent::findings(job, pass));
    found
}

/// A turn and what it is judged by.
fn judged<'a>(
    job: &Job,
    turn: &'a Result<Turn, Blocked>,
) -> Result<(&'a Turn, Length, Source), Blocked> {
    let turn = turn.as_ref().map_err(Clone::clone)?;
    let mut fields = Fields::of(job);
    match chosen_limit(job, &mut fields) {
        Some((limit, source)) => Ok((turn, limit, source)),
        None => Err(Blocked::Missing(fields.needs())),
    }
}
