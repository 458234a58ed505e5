//! The form of Balance: runs on the car with trial weights.

use super::{BalanceBy, End, PickUp, Ready, Spin, TrialLeft, Typed};

/// Planes across the shaft: the front joint's and the rear joint's.
pub const PLANES: usize = 2;
/// Most runs kept: the first and those with a trial weight.
pub const MOST_RUNS: usize = 8;

/// Balancing on the car.
#[derive(Clone, Debug, PartialEq)]
pub struct BalanceForm {
    /// Whether all that keeps a hand whole was read and is so. Never saved: it is said anew each time a job is
    /// opened.
    pub ready: Ready,
    /// What is read at a run.
    pub by: BalanceBy,
    /// What tells the phase.
    pub pick_up: PickUp,
    /// Which way the shaft turns.
    pub spin: Spin,
    /// Whether a trial weight stays on when the next thing is put on.
    pub left: TrialLeft,
    /// The end that weights are put at, where there is but one.
    pub end: End,
    /// Speed of the shaft at every run.
    pub speed: Typed,
    /// Middle of a clip's screw head to the shaft's axis.
    pub clip_radius: Typed,
    /// Mass of one clip's screw head.
    pub clip_mass: Typed,
    /// How far a reading moves from run to run with nothing changed.
    pub scatter: Typed,
    /// The first run, then those with a trial weight.
    pub runs: Vec<Run>,
    /// Amplitude at each end in the run after the correction.
    pub check: [Typed; PLANES],
}

/// One run.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Run {
    /// Mass of its trial weight; the first run has none.
    pub mass: Typed,
    /// Where on the clock that sits.
    pub at: Typed,
    /// What was read at each end.
    pub read: [RunReading; PLANES],
}

/// What was read at one end.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct RunReading {
    /// Amplitude, in whatever unit the instrument has.
    pub amplitude: Typed,
    /// Phase, as its pick-up tells it.
    pub phase: Typed,
}

impl Default for BalanceForm {
    fn default() -> Self {
        BalanceForm {
            ready: Ready::default(),
            by: BalanceBy::default(),
            pick_up: PickUp::default(),
            spin: Spin::default(),
            left: TrialLeft::default(),
            end: End::default(),
            speed: Typed::default(),
            clip_radius: Typed::default(),
            clip_mass: Typed::default(),
            scatter: Typed::default(),
            // Without phase it takes a first run and three with a weight.
            runs: vec![Run::default(); 4],
            check: Default::default(),
        }
    }
}

impl BalanceForm {
    /// The ends that are read, as they are counted in a run: 0 the gearbox end, 1 the axle end.
    pub const fn ends(&self) -> &'static [usize] {
        match (self.by, self.end) {
            (BalanceBy::TwoPlanes, _) => &[0, 1],
            (_, End::Front) => &[0],
            (_, End::Rear) => &[1],
        }
    }

    /// Something stands in what was read at an end.
    pub fn is_read(&self, end: usize) -> bool {
        let typed = |reading: &RunReading| !reading.amplitude.is_blank() || !reading.phase.is_blank();
        self.runs.iter().any(|run| run.read.get(end).is_some_and(typed))
            || self.check.get(end).is_some_and(|check| !check.is_blank())
    }

    /// Nothing was typed or said here: balancing on the car is for those who want it.
    pub fn is_blank(&self) -> bool {
        let run = |run: &Run| !run.mass.is_blank() || !run.at.is_blank();
        self.ready == Ready::NotYet
            && !self.runs.iter().any(run)
            && !(0..PLANES).any(|end| self.is_read(end))
    }

    /// What was read at the first end stands at the other, and the other way about.
    pub(super) fn swap_ends(&mut self) {
        self.runs.iter_mut().for_each(|run| run.read.reverse());
        self.check.reverse();
    }
}
