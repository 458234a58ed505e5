//! Phase.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{BEFORE_TACKING, Entry, PHASE_READINGS, PhaseMethod};
use crate::screen::parts::{
    Follows, Laid, LevelTarget, all, choice, fields, level_panel, line, picture, slot,
};
use crate::screen::state::State;
use crate::sheet::cut_yoke;

/// The questions of the method chosen.
pub fn questions(state: State) -> AnyView {
    let levels = state.follows(|job| job.phase.method == PhaseMethod::Levels);
    let of_method = move || Some(if levels.get() { by_levels(state) } else { on_the_bench(state) });
    all([
        choice(state, "Measured by", |job| job.phase.method, |job, to| job.phase.method = to),
        slot(of_method),
        fields(state, &[Entry::TubeDiameter, Entry::PhaseLimit]),
        line("reason", move || {
            let yoke = state.job.with(cut_yoke);
            Some(format!(
                "The {yoke} yoke is the one to turn: it is at the end that is cut. Changed at Cut."
            ))
        }),
    ])
}

fn by_levels(state: State) -> AnyView {
    all([
        choice(
            state,
            "Level reads to",
            |job| job.phase.level_division,
            |job, to| job.phase.level_division = to,
        ),
        fields(state, &[Entry::FrontLevel(1, 0), Entry::RearLevel(1, 0)]),
        by_device(state, || BEFORE_TACKING),
    ])
}

/// The tablet or phone as the level, for the sitting shown.
fn by_device(state: State, sitting: impl Fn() -> usize + Send + Sync + 'static) -> AnyView {
    let targets = move || {
        let sitting = sitting();
        let yoke = |name, entry: fn(usize, usize) -> Entry| LevelTarget {
            name,
            entries: (0..PHASE_READINGS).map(|i| entry(sitting, i)).collect(),
            turned: false,
        };
        vec![yoke("Front yoke", Entry::FrontLevel), yoke("Rear yoke", Entry::RearLevel)]
    };
    let laid = Laid {
        how: "Lay it across the ears, screen up, the same way on both yokes; tap and let go.",
        toward: "the right, seen from the rear",
    };
    level_panel(state, laid, |job| job.phase.level_division, targets)
}

fn on_the_bench(state: State) -> AnyView {
    all([fields(state, &[Entry::Lift(1, 0), Entry::Span])])
}

/// The drawing.
pub fn pictures(state: State) -> AnyView {
    picture(state, "Both yokes from the rear: front dashed, rear solid", Follows::Pause, drawing::phase)
}
