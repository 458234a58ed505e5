//! In place of a stage, until the second of the page's two files is here.

use leptos::prelude::*;

use super::parts::{el, key};
use super::state::State;
use crate::book::browser;

/// Says what is awaited, and what can be done when it does not come.
pub fn waiting(state: State) -> AnyView {
    if !state.rest_missing.get() {
        return el("p").class("waiting").text("Getting the rest of the page…").into();
    }
    let again = key("primary get-rest", "Try again", move || {
        state.rest_missing.set(false);
        browser::send("shaftwright:get-rest");
    });
    // Nothing else mends it where the host was changed meanwhile; but a job kept nowhere else would
    // go with the page.
    let reload = (!state.fleeting.get())
        .then(|| el("p").text("If it still does not come, reload the page: your job is kept.").into());
    el("div")
        .class("waiting")
        .child(el("p").text("The rest of the page did not come. Try again when there is signal."))
        .children(reload)
        .child(again)
        .into()
}
