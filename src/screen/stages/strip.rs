//! The wrap strip on the Cut stage: what it needs, its first page made small, and the printer.

use leptos::prelude::*;

use crate::book::browser;
use crate::drawing::{strip_page, strip_pages};
use crate::job::Entry;
use crate::screen::parts::{Follows, choice, el, field, key, needs_list, picture};
use crate::screen::state::State;
use crate::sheet::need;
use crate::stage::strip::strip;

/// The strip's own questions, its preview, and the key that prints it.
pub fn strip_section(state: State) -> AnyView {
    let missing = Memo::new(move |_| {
        state.pauses.track();
        state.job_id.track();
        state.job.with_untracked(|job| {
            let needs = strip(job).err().unwrap_or_default();
            needs.iter().map(|n| (n.entry, need(job, n))).collect::<Vec<_>>()
        })
    });
    let print_or_needs = move || {
        let print = || key("primary", "Print the wrap strip", move || print(state)).into();
        Some(needs_list(state, missing.get()).unwrap_or_else(print))
    };
    el("section")
        .class("asked wrap")
        .child(el("h2").text("Wrap strip"))
        .child(el("p").text(
            "A strip of paper, printed true to size, to wrap round the tube: its edge guides the scriber round the new face, its ticks carry the clock.",
        ))
        .child(choice(state, "Marks round the tube", |job| job.cut.marks, |job, to| job.cut.marks = to))
        .child(choice(state, "Paper in the printer", |job| job.cut.paper, |job, to| job.cut.paper = to))
        .child(field(state, Entry::SeamClock))
        .slot(print_or_needs)
        .child(el("small").text("At 100 %, the paper lying across. Measure the printed bar before you cut."))
        .child(picture(state, "The strip's first page, made small", Follows::Pause, strip_page))
        .into()
}

fn print(state: State) {
    state.job.with_untracked(|job| {
        if let Some(pages) = strip_pages(job) {
            browser::print_alone(&pages);
        }
    });
}
