//! What the page has to say about itself.

use leptos::prelude::*;

use crate::screen::state::State;

/// A newer version, a job just deleted, and troubles with keeping jobs.
pub fn notices(state: State) -> AnyView {
    let update = move || {
        state.update_ready.get().then(|| {
            view! {
                <div class="notice">
                    <p>"A newer version lies ready. Your job stays as it is."</p>
                    <button type="button" id="take-update" on:click=move |_| state.take_update()>"Take it now"</button>
                    <button type="button" on:click=move |_| state.update_ready.set(false)>"Later"</button>
                </div>
            }
        })
    };
    let deleted = move || {
        state.deleted.get().map(|(id, name)| {
            view! {
                <div class="notice">
                    <p>"“"{name}"” is in the bin."</p>
                    <button type="button" id="put-back" on:click=move |_| state.put_back(&id)>"Put it back"</button>
                    <button type="button" on:click=move |_| state.deleted.set(None)>"Close"</button>
                </div>
            }
        })
    };
    let troubles = move || {
        state
            .troubles
            .get()
            .into_iter()
            .enumerate()
            .map(|(place, trouble)| {
                view! {
                    <div class="notice trouble">
                        <p>{trouble.sentence()}</p>
                        <button type="button" on:click=move |_| state.troubles.update(|all| {
                            if place < all.len() {
                                all.remove(place);
                            }
                        })>"Understood"</button>
                    </div>
                }
            })
            .collect_view()
    };
    view! { <div class="notices" role="status">{update}{deleted}{troubles}</div> }.into_any()
}
