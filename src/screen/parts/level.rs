//! A slope read by the tablet or phone itself, laid on the part.

use core::time::Duration;

use leptos::prelude::*;

use super::element::{all, el, fold, key, text};
use crate::book::tilt::{Ear, NoTilt, Turn, ask};
use crate::job::{Entry, Job, LevelDivision};
use crate::quantity::{Angle, degrees};
use crate::screen::state::State;
use crate::sheet::{tilt_full, tilt_put, tilt_so_far, tilt_text, tilt_unread};
use crate::stage::tilt::{Way, average, first_free, reading, too_coarse};

/// Between two looks at what was told last.
const LOOK: Duration = Duration::from_millis(50);
/// Looks after the tap that do not count: the finger has moved the device. Our own choice, as are those
/// below.
const SETTLE: u32 = 10;
/// Samples that are enough: two seconds of them.
const ENOUGH: usize = 40;
/// Looks after which a device that told nothing tells nothing.
const SILENT: u32 = 40;
/// Looks after which it ends with what there is.
const LONGEST: u32 = 100;
/// Looks from one live figure to the next: an eye cannot follow each.
const SHOW: u32 = 5;

/// What a reading can be put into.
#[derive(Clone, PartialEq)]
pub struct LevelTarget {
    /// What its key says.
    pub name: &'static str,
    /// Its readings: the first empty one is taken.
    pub entries: Vec<Entry>,
    /// Whether the device lies end for end.
    pub turned: bool,
}

/// How to lay the device.
#[derive(Clone, Copy)]
pub struct Laid {
    /// One plain sentence.
    pub how: &'static str,
    /// Where the arrow points: "the rear".
    pub toward: &'static str,
}

/// A fold that reads slopes by the device itself and puts them into these targets, which may follow the
/// job. Nothing listens but for some seconds after a key was tapped.
pub fn level_panel(
    state: State,
    laid: Laid,
    division: fn(&Job) -> LevelDivision,
    targets: impl Fn() -> Vec<LevelTarget> + Send + Sync + 'static,
) -> AnyView {
    let targets = Memo::new(move |_| targets());
    let never = Memo::new(|_| false);
    fold("Read it with this tablet or phone", never, move || opened(state, laid, division, targets))
}

fn opened(
    state: State,
    laid: Laid,
    division: fn(&Job) -> LevelDivision,
    targets: Memo<Vec<LevelTarget>>,
) -> AnyView {
    let panel = Panel {
        state,
        division,
        live: RwSignal::new(String::new()),
        said: RwSignal::new(String::new()),
        run: StoredValue::new_local(None),
    };
    let arrow = RwSignal::new("");
    // Kept as long as the fold is open.
    StoredValue::new_local(Turn::follow(move |to| arrow.set(to)));
    let toward = text(move || format!("{} this way to {}", arrow.get(), laid.toward));
    let keys = move || {
        Some(all(targets
            .get()
            .into_iter()
            .map(|target| key("", target.name, move || panel.tapped(target.clone())).into())))
    };
    all([
        el("p").text(laid.how).into(),
        el("p").class("value").words(toward).into(),
        el("fieldset")
            .class("segments")
            .child(el("legend").text("Read it and put it into"))
            .child(el("div").slot(keys))
            .into(),
        el("p").class("value").words(panel.live.into()).into(),
        el("p").attr("role", "status").words(panel.said.into()).into(),
    ])
}

/// An open fold.
#[derive(Clone, Copy)]
struct Panel {
    state: State,
    division: fn(&Job) -> LevelDivision,
    /// What is read at the moment.
    live: RwSignal<String>,
    /// What came of it.
    said: RwSignal<String>,
    /// Goes with the fold, and listening with it.
    run: StoredValue<Option<Run>, LocalStorage>,
}

/// Listening for one target, until it is dropped.
struct Run {
    ear: Ear,
    timer: Option<IntervalHandle>,
    target: LevelTarget,
    betas: Vec<Angle>,
    looks: u32,
}

impl Drop for Run {
    fn drop(&mut self) {
        if let Some(timer) = self.timer {
            timer.clear();
        }
    }
}

impl Run {
    fn way(&self) -> Way {
        if self.target.turned { Way::Turned } else { Way::Along }
    }

    /// Looks once; whether that is the end.
    fn look(&mut self) -> bool {
        self.looks += 1;
        let told = self.ear.beta();
        if self.looks > SETTLE {
            self.betas.extend(told.map(degrees));
        }
        let silent = told.is_none() && self.betas.is_empty() && self.looks >= SILENT;
        silent || self.betas.len() >= ENOUGH || self.looks >= LONGEST
    }

    /// A live figure, now and then.
    fn so_far(&self) -> Option<String> {
        let due = self.looks.is_multiple_of(SHOW);
        due.then(|| average(&self.betas, self.way())).flatten().map(|found| tilt_so_far(&found))
    }
}

impl Panel {
    fn tapped(self, target: LevelTarget) {
        self.run.set_value(None);
        if self.free(&target).is_none() {
            return self.end(tilt_full(target.name, target.entries.len()));
        }
        self.said.set(String::new());
        self.live.set("Let go and hold still…".to_owned());
        ask(move |leave| {
            // The fold may have been shut while the browser asked.
            if self.run.is_disposed() {
                return;
            }
            match leave {
                Ok(()) => self.listen(target.clone()),
                Err(why) => self.end(why.sentence().to_owned()),
            }
        });
    }

    fn free(&self, target: &LevelTarget) -> Option<usize> {
        self.state.job.with_untracked(|job| first_free(job, &target.entries))
    }

    fn listen(self, target: LevelTarget) {
        let timer = set_interval_with_handle(move || self.look(), LOOK).ok();
        let run = Run { ear: Ear::begin(), timer, target, betas: Vec::new(), looks: 0 };
        self.run.set_value(Some(run));
    }

    fn look(self) {
        let ended = self.run.try_update_value(|run| {
            let ended = run.as_mut().is_some_and(Run::look);
            if ended { run.take() } else { None }
        });
        if let Some(run) = ended.flatten() {
            self.end(self.outcome(&run));
        } else if let Some(words) = self.run.with_value(|run| run.as_ref().and_then(Run::so_far)) {
            self.live.set(words);
        }
    }

    fn end(self, words: String) {
        self.live.set(String::new());
        self.said.set(words);
    }

    /// Puts what was read, and says so.
    fn outcome(self, run: &Run) -> String {
        let Run { target, betas, .. } = run;
        if betas.is_empty() {
            return NoTilt::Silent.sentence().to_owned();
        }
        let count = target.entries.len();
        let found = match reading(betas, run.way()) {
            Ok(found) => found,
            Err(why) => return tilt_unread(&why),
        };
        // Looked up again: something may have been typed meanwhile.
        let free = self.free(target).and_then(|at| target.entries.get(at).map(|entry| (at, *entry)));
        let Some((at, entry)) = free else { return tilt_full(target.name, count) };
        self.state.put(entry, &tilt_text(&found));
        let division = self.state.job.with_untracked(self.division);
        tilt_put(&found, target.name, at, count, too_coarse(found.scatter, division))
    }
}
