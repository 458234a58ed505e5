//! Weights.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{Entry, MOST_WEIGHTS, WeightRow};
use crate::screen::parts::{field_row, fields, picture};
use crate::screen::state::State;

/// The questions: each weight that came off, and what judges the rest.
pub fn questions(state: State) -> AnyView {
    let count = Memo::new(move |_| state.job.with(|job| job.weights.rows.len()));
    let row = move |i: usize| {
        let entries = vec![
            Entry::WeightMass(i),
            Entry::WeightClock(i),
            Entry::WeightDistance(i),
            Entry::WeightRadius(i),
        ];
        view! { <div class="weight">{field_row(state, "A weight that came off", entries)}</div> }
    };
    view! {
        {move || (0..count.get()).map(row).collect_view()}
        {move || (count.get() < MOST_WEIGHTS).then(|| view! {
            <button type="button" class="plain" id="more-weights" on:click=move |_| state.change(|job| job.weights.rows.push(WeightRow::default()))>
                "One more weight"
            </button>
        })}
        {fields(state, &[Entry::YokeTurned, Entry::ShaftMass, Entry::TopSpeed])}
    }
    .into_any()
}

/// The drawing.
pub fn pictures(state: State) -> AnyView {
    picture(state, "Weights on the new shaft, from the rear", drawing::weights)
}
