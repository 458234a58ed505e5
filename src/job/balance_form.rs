//! The form of Balance: runs on the car with trial weights.

use super::{BalanceBy, End, Entry, Job, PickUp, Ready, RunsMade, Spin, TrialLeft, Typed};

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
    /// For which ends the runs were made.
    pub made: RunsMade,
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
            made: RunsMade::default(),
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
        self.ready == Ready::NotYet && !self.any_run()
    }

    /// Something stands in a run, a check run among them.
    pub fn any_run(&self) -> bool {
        let run = |run: &Run| !run.mass.is_blank() || !run.at.is_blank();
        self.runs.iter().any(run) || (0..PLANES).any(|end| self.is_read(end))
    }

    /// The ends that runs made now are for. Whether phase is read does not count: the same weights at the same end
    /// are read either way.
    const fn made_now(&self) -> RunsMade {
        match (self.by, self.end) {
            (BalanceBy::TwoPlanes, _) => RunsMade::BothEnds,
            (_, End::Front) => RunsMade::Front,
            (_, End::Rear) => RunsMade::Rear,
        }
    }

    /// What the runs were made for, where that is not what is chosen now: their numbers say nothing of it.
    pub fn made_for_others(&self) -> Option<RunsMade> {
        let others = self.made != RunsMade::NotSaid && self.made != self.made_now();
        (others && self.any_run()).then_some(self.made)
    }

    /// Empties every run and the check run; as many runs stay to be filled in.
    pub fn empty_runs(&mut self) {
        self.runs.iter_mut().for_each(|run| *run = Run::default());
        self.check = Default::default();
        self.made = RunsMade::default();
    }

    /// What was read at the first end stands at the other, and the other way about.
    pub(super) fn swap_ends(&mut self) {
        self.runs.iter_mut().for_each(|run| run.read.reverse());
        self.check.reverse();
    }
}

/// Whether an entry is of a run: its weight, what was read, or what the check run read.
pub(super) const fn is_of_a_run(entry: Entry) -> bool {
    matches!(
        entry,
        Entry::TrialMass(_)
            | Entry::TrialClock(_)
            | Entry::RunAmplitude(..)
            | Entry::RunPhase(..)
            | Entry::CheckAmplitude(_)
    )
}

impl Job {
    /// After something was put into a run: the first text says what the runs are made for, and with the last one gone
    /// nothing does.
    pub(super) fn say_runs_made(&mut self, any_before: bool) {
        let balance = &mut self.balance;
        match (any_before, balance.any_run()) {
            (false, true) => balance.made = balance.made_now(),
            (_, false) => balance.made = RunsMade::default(),
            (true, true) => {}
        }
    }
}
