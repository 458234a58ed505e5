//! A slope read by the tablet or phone itself, laid on the part.

use std::sync::Arc;

use leptos::prelude::*;

use super::element::{all, el, fold, key, text};
use crate::book::tilt::{NoTilt, ask, listen};
use crate::job::{Entry, Job, LevelDivision};
use crate::quantity::{Angle, degrees};
use crate::screen::state::State;
use crate::sheet::{tilt_full, tilt_put, tilt_so_far, tilt_text, tilt_unread};
use crate::stage::tilt::{Way, average, first_free, reading, too_coarse};

/// Looks after the tap that do not count: the finger has moved the device. There are twenty a second.
/// Our own choice, as are those below.
const SETTLE: u32 = 10;
/// Samples that are enough: two seconds of them.
const ENOUGH: usize = 40;
/// Looks after which a device that told nothing tells nothing.
const SILENT: u32 = 40;
/// Looks after which it ends with what there is.
const LONGEST: u32 = 100;
/// Looks from one live figure to the next: an eye cannot follow each.
const SHOW: u32 = 5;

/// The arrow on the glass along which the device is laid, by the quarter turns counterclockwise of its top
/// edge as made; and whether it points away from that edge. It runs up the page or to its right, never back.
const ARROWS: [(&str, bool); 4] = [("↑", false), ("→", true), ("↑", true), ("→", false)];

/// What a reading can be put into.
#[derive(Clone)]
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
pub struct Placing {
    /// One plain sentence.
    pub how: &'static str,
    /// Where the arrow points: "the rear".
    pub toward: &'static str,
}

/// A fold that reads slopes by the device itself and puts them into these targets. They are drawn anew
/// when a signal that they follow changes. Nothing listens but for some seconds after a key was tapped.
pub fn level_panel(
    state: State,
    placing: Placing,
    division: fn(&Job) -> LevelDivision,
    targets: impl Fn() -> Vec<LevelTarget> + Send + Sync + 'static,
) -> AnyView {
    folded(state, placing, division, Arc::new(targets))
}

type Targets = Arc<dyn Fn() -> Vec<LevelTarget> + Send + Sync>;

/// One piece of code for every stage.
#[inline(never)]
fn folded(
    state: State,
    placing: Placing,
    division: fn(&Job) -> LevelDivision,
    targets: Targets,
) -> AnyView {
    let never = Memo::new(|_| false);
    let inside = move || opened(state, placing, division, Arc::clone(&targets));
    fold("Read it with this tablet or phone", never, inside)
}

fn opened(
    state: State,
    placing: Placing,
    division: fn(&Job) -> LevelDivision,
    targets: Targets,
) -> AnyView {
    let panel = Panel {
        state,
        division,
        live: RwSignal::new(String::new()),
        said: RwSignal::new(String::new()),
        tap: RwSignal::new(0),
    };
    let toward = text(move || {
        let (arrow, _) = ARROWS.get(state.turn.get()).copied().unwrap_or_default();
        format!("{arrow} this way to {}", placing.toward)
    });
    let keys = move || {
        Some(all(targets()
            .into_iter()
            .map(|target| key("", target.name, move || panel.tapped(target.clone())).into())))
    };
    all([
        el("p").text(placing.how).into(),
        el("p").class("value").words(toward).into(),
        el("fieldset")
            .class("segments")
            .child(el("legend").text("Read it and put it into"))
            .child(el("div").slot(keys))
            .into(),
        el("p").class("value").words(text(move || panel.live.get())).into(),
        el("p").attr("role", "status").words(text(move || panel.said.get())).into(),
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
    /// Counts the taps; goes with the fold, and listening with it.
    tap: RwSignal<u32>,
}

impl Panel {
    fn tapped(self, target: LevelTarget) {
        let tap = self.tap.get_untracked().wrapping_add(1);
        self.tap.set(tap);
        if self.free(&target).is_none() {
            return self.end(tilt_full(target.name, target.entries.len()));
        }
        self.said.set(String::new());
        self.live.set("Let go and hold still…".to_owned());
        ask(Box::new(move |leave| {
            // The fold may have been shut, or another key tapped, while the browser asked.
            if self.is_on(tap) {
                match leave {
                    Ok(()) => self.listen(tap, target.clone()),
                    Err(why) => self.end(why.sentence().to_owned()),
                }
            }
        }));
    }

    fn is_on(self, tap: u32) -> bool {
        self.tap.try_get_untracked() == Some(tap)
    }

    fn free(self, target: &LevelTarget) -> Option<usize> {
        self.state.job.with_untracked(|job| first_free(job, &target.entries))
    }

    fn listen(self, tap: u32, target: LevelTarget) {
        let turn = self.state.turn.get_untracked();
        let away = ARROWS.get(turn).is_some_and(|(_, away)| *away);
        let way = if target.turned == away { Way::Along } else { Way::Turned };
        let (mut looks, mut betas): (u32, Vec<Angle>) = (0, Vec::new());
        listen(Box::new(move |told| {
            if !self.is_on(tap) {
                return false;
            }
            looks += 1;
            if looks > SETTLE {
                betas.extend(told.map(degrees));
            }
            let silent = told.is_none() && betas.is_empty() && looks >= SILENT;
            if silent || betas.len() >= ENOUGH || looks >= LONGEST {
                self.end(self.outcome(&target, &betas, way));
                return false;
            }
            if looks.is_multiple_of(SHOW)
                && let Some(found) = average(&betas, way)
            {
                self.live.set(tilt_so_far(&found));
            }
            true
        }));
    }

    fn end(self, words: String) {
        self.live.set(String::new());
        self.said.set(words);
    }

    /// Puts what was read, and says so.
    fn outcome(self, target: &LevelTarget, betas: &[Angle], way: Way) -> String {
        if betas.is_empty() {
            return NoTilt::Silent.sentence().to_owned();
        }
        let count = target.entries.len();
        let found = match reading(betas, way) {
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
