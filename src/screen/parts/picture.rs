//! A drawing on the page.

use leptos::prelude::*;

use super::element::{el, slot, text};
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
    let there = Memo::new(move |_| markup.with(Option::is_some));
    slot(move || there.get().then(|| frame(caption, markup)))
}

fn frame(caption: &'static str, markup: Memo<Option<String>>) -> AnyView {
    let picture = el("div")
        .attr("role", "img")
        .attr("aria-label", caption)
        .prop("innerHTML", text(move || markup.get().unwrap_or_default()));
    el("figure").class("drawing").child(picture).child(el("figcaption").text(caption)).into()
}
