//! The wrap strip on the Cut stage: what it needs, its pages made small, and the printer.

use leptos::prelude::*;

use crate::book::browser;
use crate::drawing::strip_pages;
use crate::job::Entry;
use crate::screen::parts::{Follows, choice, either, el, field, jump_to, key, picture};
use crate::screen::state::State;
use crate::stage::strip::strip;

/// The strip's own questions, its preview, and the key that prints it. Until the diameter is known the
/// key says so, and leads to its field.
pub fn strip_section(state: State) -> AnyView {
    let known = move || state.at_rest(|job| strip(job).is_ok());
    let words = either(known, "Print the wrap strip", "Still needed: tube diameter, outside");
    el("section")
        .class("asked wrap")
        .child(el("h2").text("Wrap strip"))
        .child(el("p").text(
            "A strip of paper, printed true to size, to wrap round the tube: its edge guides the scriber round the new face, its ticks carry the clock.",
        ))
        .child(choice(state, "Marks round the tube", |job| job.cut.marks, |job, to| job.cut.marks = to))
        .child(choice(state, "Paper in the printer", |job| job.cut.paper, |job, to| job.cut.paper = to))
        .child(field(state, Entry::SeamClock))
        .child(key("primary", "", move || print(state)).words(words))
        .child(el("small").text("At 100 %, the paper lying across. Measure the printed bar before you cut."))
        .child(picture(state, "The strip's first page, made small", Follows::Pause, strip_pages))
        .into()
}

fn print(state: State) {
    match state.job.with_untracked(strip_pages) {
        Some(pages) => browser::print_alone(&pages),
        None => jump_to(state, Entry::TubeDiameter),
    }
}
