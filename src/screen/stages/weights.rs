//! Weights.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{Entry, MOST_WEIGHTS, WeightRow, WeightsCame};
use crate::screen::parts::{Follows, all, choice, el, field_row, fields, key, picture, slot};
use crate::screen::state::State;

/// The questions: each weight that came off, and what judges the rest.
pub fn questions(state: State) -> AnyView {
    let count = state.follows(|job| job.weights.rows.len());
    let row = move |i: usize| {
        let entries = vec![
            Entry::WeightMass(i),
            Entry::WeightClock(i),
            Entry::WeightDistance(i),
            Entry::WeightRadius(i),
        ];
        el("div").class("weight").child(field_row(state, "A weight that came off", entries)).into()
    };
    let more = move || {
        let add = move || state.change(|job| job.weights.rows.push(WeightRow::default()));
        (count.get() < MOST_WEIGHTS).then(|| key("plain more-weights", "One more weight", add).into())
    };
    let came = state.follows(|job| job.weights.came == WeightsCame::Off);
    let rows = move || came.get().then(|| all((0..count.get()).map(row)));
    all([
        choice(state, "Did weights come off?", |job| job.weights.came, |job, to| job.weights.came = to),
        slot(rows),
        slot(move || if came.get() { more() } else { None }),
        fields(state, &[Entry::YokeTurned, Entry::ShaftMass, Entry::TopSpeed]),
    ])
}

/// The drawing.
pub fn pictures(state: State) -> AnyView {
    picture(state, "Weights on the new shaft, from the rear", Follows::Pause, drawing::weights)
}
