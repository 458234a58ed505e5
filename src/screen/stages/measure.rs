//! Measure.

use leptos::prelude::*;

use crate::drawing::elevation;
use crate::job::{Entry, Job, MOST_READINGS, Typed};
use crate::screen::parts::{Follows, all, choice, el, field, field_row, key, picture};
use crate::screen::state::State;

/// The questions.
pub fn questions(state: State) -> AnyView {
    all([
        choice(
            state,
            "Tape, rule or calliper reads to",
            |job| job.measure.division,
            |job, to| job.measure.division = to,
        ),
        readings(
            state,
            "Old shaft, joint centre to joint centre",
            Entry::OldReading,
            |job| &job.measure.old,
            |job| &mut job.measure.old,
        ),
        readings(
            state,
            "Wanted distance, joint centre to joint centre",
            Entry::WantedReading,
            |job| &job.measure.wanted,
            |job| &mut job.measure.wanted,
        ),
        choice(
            state,
            "Slip yoke while the wanted distance was taken",
            |job| job.measure.yoke_at,
            |job, to| job.measure.yoke_at = to,
        ),
        field(state, Entry::SetPoint),
    ])
}

/// Repeat readings of one length, with a key for one more.
fn readings(
    state: State,
    legend: &'static str,
    entry: fn(usize) -> Entry,
    list: fn(&Job) -> &Vec<Typed>,
    list_mut: fn(&mut Job) -> &mut Vec<Typed>,
) -> AnyView {
    let count = Memo::new(move |_| state.job.with(|job| list(job).len()));
    let more = move || {
        let add = move || state.change(|job| list_mut(job).push(Typed::default()));
        (count.get() < MOST_READINGS).then(|| key("plain", "One more reading", add).into())
    };
    el("div")
        .class("readings")
        .slot(move || Some(field_row(state, legend, (0..count.get()).map(entry).collect())))
        .slot(more)
        .into()
}

/// The drawing.
pub fn pictures(state: State) -> AnyView {
    picture(state, "Side view, broken in the middle, not to scale", Follows::Pause, elevation)
}
