//! A drawing on the page.

use leptos::prelude::*;

use crate::job::Job;
use crate::screen::state::State;

/// A drawing with its caption, or nothing while there is nothing to draw. The markup is `drawing`'s
/// own: it escapes every text it puts in.
pub fn picture(
    state: State,
    caption: &'static str,
    draw: impl Fn(&Job) -> Option<String> + Send + Sync + 'static,
) -> AnyView {
    let markup = Memo::new(move |_| state.job.with(&draw));
    let there = Memo::new(move |_| markup.with(Option::is_some));
    view! {
        {move || there.get().then(|| view! {
            <figure class="drawing">
                <div role="img" aria-label=caption inner_html=move || markup.get().unwrap_or_default()></div>
                <figcaption>{caption}</figcaption>
            </figure>
        })}
    }
    .into_any()
}
