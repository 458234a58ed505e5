//! Choosing between named things. Inside, a choice is a place in a list: one piece of code serves all.

use leptos::prelude::*;

use super::element::{either, el, key, text};
use crate::job::{Choice, Job};
use crate::screen::state::State;
use crate::sheet::Worded;

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
    let options = words.into_iter().enumerate().map(|(i, word)| {
        let option = el("option").attr("value", &i.to_string()).text(word);
        // Said in the markup too: the property below is set before the options are there.
        if at.get_untracked() == i { option.attr("selected", "").into() } else { option.into() }
    });
    let options: Vec<AnyView> = options.collect();
    let select = el("select").children(options).prop("value", text(move || at.get().to_string())).on(
        "change",
        move |event| {
            if let Ok(chosen) = event_target_value(&event).parse::<usize>() {
                set(chosen);
            }
        },
    );
    el("label").class("field choice").child(el("span").class("label").text(label)).child(select).into()
}

/// A choice between few things, all in sight: one tap.
pub fn segments(
    legend: &'static str,
    words: Vec<String>,
    at: Signal<usize>,
    set: impl Fn(usize) + Copy + 'static,
) -> AnyView {
    let keys = words.into_iter().enumerate().map(|(i, word)| {
        key("", &word, move || set(i))
            .live("aria-pressed", either(move || at.get() == i, "true", "false"))
            .into()
    });
    el("fieldset")
        .class("segments")
        .child(el("legend").text(legend))
        .child(el("div").children(keys.collect::<Vec<AnyView>>()))
        .into()
}
