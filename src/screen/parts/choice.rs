//! Choosing between named things.

use leptos::prelude::*;

use crate::job::Job;
use crate::screen::state::State;

/// A drop-down.
pub fn select<T: PartialEq + Copy + Send + Sync + 'static>(
    all: &'static [T],
    get: impl Fn() -> T + Copy + Send + Sync + 'static,
    set: impl Fn(T) + 'static,
    word: fn(T) -> &'static str,
) -> AnyView {
    let options = all.iter().enumerate().map(|(i, item)| {
        let item = *item;
        view! { <option value=i.to_string() selected=move || get() == item>{word(item)}</option> }
    });
    let place = move || all.iter().position(|item| *item == get()).unwrap_or(0).to_string();
    view! {
        <select
            prop:value=place
            on:change=move |event| {
                let chosen = event_target_value(&event).parse::<usize>().ok();
                if let Some(item) = chosen.and_then(|at| all.get(at)) {
                    set(*item);
                }
            }
        >
            {options.collect_view()}
        </select>
    }
    .into_any()
}

/// A choice of the job, as a labelled drop-down.
pub fn choice<T: crate::job::Choice + crate::sheet::Worded + Send + Sync>(
    state: State,
    label: &'static str,
    get: fn(&Job) -> T,
    set: fn(&mut Job, T),
) -> AnyView {
    let current = move || state.job.with(get);
    view! {
        <label class="field choice">
            <span class="label">{label}</span>
            {select(T::ALL, current, move |item| state.change(|job| set(job, item)), T::word)}
        </label>
    }
    .into_any()
}

/// A choice between few things, all in sight: one tap.
pub fn segments<T: PartialEq + Copy + Send + Sync + 'static>(
    legend: &'static str,
    all: Vec<(T, String)>,
    get: impl Fn() -> T + Copy + Send + Sync + 'static,
    set: impl Fn(T) + Copy + 'static,
) -> AnyView {
    let buttons = all.into_iter().map(|(item, word)| {
        let pressed = move || if get() == item { "true" } else { "false" };
        view! {
            <button type="button" aria-pressed=pressed on:click=move |_| set(item)>{word}</button>
        }
    });
    view! {
        <fieldset class="segments">
            <legend>{legend}</legend>
            <div>{buttons.collect_view()}</div>
        </fieldset>
    }
    .into_any()
}
