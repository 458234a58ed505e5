//! A drawing on the page.

use leptos::prelude::*;

use super::element::{el, hideable, once_there, slot, text};
use crate::job::Job;
use crate::screen::state::State;

type Draw = Box<dyn Fn(&Job) -> Option<String> + Send + Sync>;

/// When a drawing is drawn anew.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Follows {
    /// In the frame of the keystroke: the one that is watched while typing.
    Keystroke,
    /// When the hand has paused: it would only make the keystroke slower.
    Pause,
}

/// A drawing with its caption, or nothing while there is nothing to draw. The markup is `drawing`'s
/// own: it escapes every text it puts in.
pub fn picture(
    state: State,
    caption: &'static str,
    follows: Follows,
    draw: impl Fn(&Job) -> Option<String> + Send + Sync + 'static,
) -> AnyView {
    let draw: Draw = Box::new(draw);
    let markup = Memo::new(move |_| match follows {
        Follows::Keystroke => state.job.with(|job| draw(job)),
        Follows::Pause => state.at_rest(|job| draw(job)),
    });
    // Drawn once, its frame stays: a reading on its way to another passes through what cannot be read,
    // and to take the frame away and build it anew is what would cost most in such a keystroke.
    let gone = Memo::new(move |_| markup.with(Option::is_none));
    let begun = once_there(gone);
    slot(move || begun.get().then(|| frame(caption, markup, gone)))
}

fn frame(caption: &'static str, markup: Memo<Option<String>>, gone: Memo<bool>) -> AnyView {
    // What is hidden keeps what it showed: it need not be taken down for the next to be put up.
    let kept =
        Memo::new(move |kept: Option<&String>| markup.get().or(kept.cloned()).unwrap_or_default());
    let picture = el("div")
        .attr("role", "img")
        .attr("aria-label", caption)
        .prop("innerHTML", text(move || kept.get()));
    hideable(el("figure").class("drawing"), gone)
        .child(picture)
        .child(el("figcaption").text(caption))
        .into()
}
