//! A drawing on the page.

use leptos::prelude::*;

use super::dynamic::slot;
use crate::job::Job;
use crate::screen::state::State;

type Draw = Box<dyn Fn(&Job) -> Option<String> + Send + Sync>;

/// A drawing with its caption, or nothing while there is nothing to draw. The markup is `drawing`'s
/// own: it escapes every text it puts in.
pub fn picture(
    state: State,
    caption: &'static str,
    draw: impl Fn(&Job) -> Option<String> + Send + Sync + 'static,
) -> AnyView {
    let draw: Draw = Box::new(draw);
    let markup = Memo::new(move |_| state.job.with(|job| draw(job)));
    let there = Memo::new(move |_| markup.with(Option::is_some));
    slot(move || there.get().then(|| frame(caption, markup)))
}

fn frame(caption: &'static str, markup: Memo<Option<String>>) -> AnyView {
    let markup = Signal::derive(move || markup.get().unwrap_or_default());
    view! {
        <figure class="drawing">
            <div role="img" aria-label=caption inner_html=markup></div>
            <figcaption>{caption}</figcaption>
        </figure>
    }
    .into_any()
}
