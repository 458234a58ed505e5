//! What the page has to say about itself.

use leptos::prelude::*;

use super::dynamic::{all, key, slot};
use crate::screen::state::State;

/// A notice with its keys.
fn notice(class: &'static str, words: String, keys: Vec<AnyView>) -> AnyView {
    view! { <div class=class><p>{words}</p>{keys.into_any()}</div> }.into_any()
}

/// A newer version, a job just deleted, and troubles with keeping jobs.
pub fn notices(state: State) -> AnyView {
    let update = move || {
        state.update_ready.get().then(|| {
            let keys = vec![
                key("take-update", "Take it now", move || state.take_update()),
                key("", "Later", move || state.update_ready.set(false)),
            ];
            notice("notice", "A newer version lies ready. Your job stays as it is.".to_owned(), keys)
        })
    };
    let deleted = move || {
        state.deleted.get().map(|(id, name)| {
            let keys = vec![
                key("put-back", "Put it back", move || state.put_back(&id)),
                key("", "Close", move || state.deleted.set(None)),
            ];
            notice("notice", format!("“{name}” is in the bin."), keys)
        })
    };
    let troubles = move || {
        let each = state.troubles.get().into_iter().enumerate().map(|(place, trouble)| {
            let seen = move || {
                state.troubles.update(|all| {
                    if place < all.len() {
                        all.remove(place);
                    }
                });
            };
            notice("notice trouble", trouble.sentence(), vec![key("", "Understood", seen)])
        });
        Some(all(each))
    };
    view! { <div class="notices" role="status">{slot(update)}{slot(deleted)}{slot(troubles)}</div> }
        .into_any()
}
