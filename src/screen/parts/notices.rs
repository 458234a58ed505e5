//! What the page has to say about itself.

use leptos::prelude::*;

use super::element::{all, el, key};
use crate::screen::state::State;

/// A notice with its keys.
fn notice(class: &'static str, words: String, keys: [Option<super::element::Element>; 2]) -> AnyView {
    el("div")
        .class(class)
        .child(el("p").text(&words))
        .children(keys.into_iter().flatten().map(AnyView::from))
        .into()
}

/// A newer version, a job just deleted, and troubles with keeping jobs.
pub fn notices(state: State) -> AnyView {
    let update = move || {
        state.update_ready.get().then(|| {
            let take = key("take-update", "Take it now", move || state.take_update());
            let later = key("", "Later", move || state.update_ready.set(false));
            let words = "A newer version lies ready. Your job stays as it is.".to_owned();
            notice("notice", words, [Some(take), Some(later)])
        })
    };
    let deleted = move || {
        state.deleted.get().map(|(id, name)| {
            let back = key("put-back", "Put it back", move || state.put_back(&id));
            let close = key("", "Close", move || state.deleted.set(None));
            notice("notice", format!("“{name}” is in the bin."), [Some(back), Some(close)])
        })
    };
    let troubles = move || {
        Some(all(state.troubles.get().into_iter().map(|trouble| {
            let words = trouble.sentence();
            let seen = move || state.troubles.update(|all| all.retain(|known| *known != trouble));
            notice("notice trouble", words, [Some(key("", "Understood", seen)), None])
        })))
    };
    el("div").class("notices").attr("role", "status").slot(update).slot(deleted).slot(troubles).into()
}
