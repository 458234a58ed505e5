//! The bar at the top and the rail of stages.

use leptos::prelude::*;

use super::choice::labelled;
use super::element::{all, either, el, text};
use super::mark::standing_mark;
use crate::book::browser;
use crate::job::{Choice, Display};
use crate::screen::state::{Place, State, Theme};
use crate::sheet::{Worded, shaft_line, stage_title, standing_word};
use crate::stage::{Stage, Standing, Whole, whole};

/// The bar: home, the job's name, how lengths are shown, colours.
pub fn bar(state: State) -> AnyView {
    let theme_words = text(move || format!("◐ {}", theme_word(state)));
    let open = Memo::new(move |_| state.job_id.with(Option::is_some));
    let skip = el("a").class("skip").attr("href", "#main").text("To the work").on("click", |event| {
        // The address is where the page is: only the focus moves.
        event.prevent_default();
        browser::focus_main();
    });
    let home = el("a")
        .class("home")
        .attr("href", "#/")
        .child(el("span").attr("aria-hidden", "true").text("⊕"))
        .text("Job book");
    let theme = el("button")
        .attr("type", "button")
        .class("plain theme")
        .live("aria-label", text(move || format!("Colours: {}", theme_word(state))))
        .words(theme_words)
        .on("click", move |_| state.next_theme());
    let bar = el("header")
        .class("bar")
        .child(home)
        .slot(move || open.get().then(|| of_job(state)))
        .child(theme);
    all([skip.into(), bar.into()])
}

fn theme_word(state: State) -> &'static str {
    match state.theme.get() {
        Theme::Auto => "auto",
        Theme::Light => "light",
        Theme::Dark => "dark",
    }
}

fn of_job(state: State) -> AnyView {
    let at = move || {
        let display = state.job.with(|job| job.display);
        Display::ALL.iter().position(|known| *known == display).unwrap_or(0)
    };
    let set = move |chosen: usize| {
        if let Some(display) = Display::ALL.get(chosen) {
            state.set_display(*display);
        }
    };
    let words = Display::ALL.iter().map(|display| display.word()).collect();
    let name = el("p").class("job-name").words(text(move || state.job.with(|job| job.name.clone())));
    all([name.into(), labelled("Lengths in", words, Box::new(at), Box::new(set))])
}

/// The rail: every stage with its standing, and the shaft's.
///
/// In the second of the page's two files, as is all that only this calls: see `split.mjs`.
#[inline(never)]
pub fn rail(state: State) -> AnyView {
    // Follows the job in hand, not its every keystroke.
    let whole = Memo::new(move |_| state.at_rest(whole));
    let stations = Stage::ALL.into_iter().map(|stage| station(state, whole, stage));
    let shaft = Memo::new(move |_| Some(whole.with(|whole| whole.shaft)));
    let kept = text(move || {
        let word = match (state.fleeting.get(), state.unsaved.get()) {
            (true, _) => "Only while this page is open",
            (false, true) => "Keeping…",
            (false, false) => "Kept on this device",
        };
        word.to_owned()
    });
    let foot = el("p")
        .class("shaft")
        .slot(move || Some(standing_mark(shaft.get())))
        .child(el("span").words(text(move || whole.with(shaft_line))))
        .child(el("span").class("kept").words(kept));
    el("nav")
        .class("rail")
        .attr("aria-label", "Stages")
        .child(el("ol").children(stations.collect::<Vec<AnyView>>()))
        .child(foot)
        .into()
}

fn station(state: State, whole: Memo<Whole>, stage: Stage) -> AnyView {
    let standing = Memo::new(move |_| {
        let known = whole.with(|whole| whole.stages.iter().find(|(known, _)| *known == stage).copied());
        known.map(|(_, standing)| standing)
    });
    let of_standing = move || standing_word(standing.get().unwrap_or(Standing::NotYet)).to_owned();
    let word = el("span")
        .class("standing")
        .slot(move || Some(standing_mark(standing.get())))
        .child(el("span").words(text(of_standing)));
    let link = el("a")
        .live("href", text(move || state.address(stage)))
        .live("aria-current", either(move || state.place.get() == Place::Stage(stage), "page", "false"))
        .child(el("span").class("station").text(stage_title(stage)))
        .child(word);
    el("li").child(link).into()
}
