//! The passes of the dial, one after the other: whether the shaft is getting better.

use super::truing::turn;
use crate::job::{Job, PassKind};
use crate::mechanics::across::Across;
use crate::quantity::Length;

/// A pass as a point of the history.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PassPoint {
    /// Which pass.
    pub pass: usize,
    /// When in the job it was taken.
    pub kind: PassKind,
    /// The offset it found.
    pub offset: Across<Length>,
    /// How far the offset may be off, at 95 %.
    pub doubt: Length,
    /// Minutes since the first pass was begun, where both times are known.
    pub minutes: Option<f64>,
}

/// Every pass that can be read at a place, oldest first.
pub fn history(job: &Job, place: usize) -> Vec<PassPoint> {
    let start = job.truing.passes.iter().find_map(|pass| pass.begun);
    let since = |begun: u64| start.map(|start| (begun as f64 - start as f64) / 60_000.0);
    let point = |(pass, taken): (usize, &crate::job::Pass)| {
        let turn = turn(job, pass, place).ok()?;
        Some(PassPoint {
            pass,
            kind: taken.kind,
            offset: turn.run_out.offset,
            doubt: turn.run_out.offset_circle,
            minutes: taken.begun.and_then(since),
        })
    };
    job.truing.passes.iter().enumerate().filter_map(point).collect()
}
