//! Choosing between named things. Inside, a choice is a place in a list: one piece of code serves all.

use leptos::prelude::*;

use super::dynamic::{Switch, all, switch};
use crate::job::{Choice, Job};
use crate::screen::state::State;
use crate::sheet::Worded;

/// A drop-down.
fn select(words: Vec<&'static str>, at: Memo<usize>, set: Box<dyn Fn(usize)>) -> AnyView {
    let options = words.into_iter().enumerate().map(|(i, word)| {
        let selected = Signal::derive(move || at.get() == i);
        view! { <option value=i.to_string() selected=selected>{word}</option> }.into_any()
    });
    view! {
        <select
            prop:value=Signal::derive(move || at.get().to_string())
            on:change=move |event| {
                if let Ok(chosen) = event_target_value(&event).parse::<usize>() {
                    set(chosen);
                }
            }
        >
            {all(options)}
        </select>
    }
    .into_any()
}

/// A choice of the job, as a labelled drop-down.
pub fn choice<T: Choice + Worded>(
    state: State,
    label: &'static str,
    get: fn(&Job) -> T,
    set: fn(&mut Job, T),
) -> AnyView {
    let at = move || {
        let current = state.job.with(get);
        T::ALL.iter().position(|item| *item == current).unwrap_or(0)
    };
    let set = move |chosen: usize| {
        if let Some(item) = T::ALL.get(chosen) {
            state.change(|job| set(job, *item));
        }
    };
    labelled(label, T::ALL.iter().map(|item| item.word()).collect(), Box::new(at), Box::new(set))
}

/// A labelled drop-down.
pub fn labelled(
    label: &'static str,
    words: Vec<&'static str>,
    at: Box<dyn Fn() -> usize + Send + Sync>,
    set: Box<dyn Fn(usize)>,
) -> AnyView {
    let at = Memo::new(move |_| at());
    view! {
        <label class="field choice">
            <span class="label">{label}</span>
            {select(words, at, set)}
        </label>
    }
    .into_any()
}

/// A choice between few things, all in sight: one tap.
pub fn segments(
    legend: &'static str,
    words: Vec<String>,
    at: Signal<usize>,
    set: impl Fn(usize) + Copy + 'static,
) -> AnyView {
    let buttons = words.into_iter().enumerate().map(|(i, word)| {
        switch(Switch::Pressed, Signal::stored(word), move || at.get() == i, move || set(i))
    });
    view! {
        <fieldset class="segments">
            <legend>{legend}</legend>
            <div>{all(buttons)}</div>
        </fieldset>
    }
    .into_any()
}
