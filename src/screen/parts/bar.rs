//! The bar at the top and the rail of stages.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::choice::labelled;
use super::dynamic::{all, button, slot, text};
use super::mark::standing_mark;
use crate::job::{Choice, Display};
use crate::screen::state::{Place, State, Theme};
use crate::sheet::{Worded, shaft_line, stage_title, standing_word};
use crate::stage::{Stage, Standing, whole};

/// The bar: home, the job's name, how lengths are shown, colours.
pub fn bar(state: State) -> AnyView {
    let theme_word = move || {
        let word = match state.theme.get() {
            Theme::Auto => "auto",
            Theme::Light => "light",
            Theme::Dark => "dark",
        };
        format!("Colours: {word}")
    };
    let open = Memo::new(move |_| state.job_id.with(Option::is_some));
    view! {
        <a class="skip" href="#main" on:click=|event| {
            // The address is where the page is: only the focus moves.
            event.prevent_default();
            focus_main();
        }>"To the work"</a>
        <header class="bar">
            <a class="home" href="#/"><span aria-hidden="true">"⊕ "</span>"Job book"</a>
            {slot(move || open.get().then(|| of_job(state)))}
            {button("plain", text(theme_word), move || state.next_theme())}
        </header>
    }
    .into_any()
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
    view! {
        <p class="job-name">{text(move || state.job.with(|job| job.name.clone()))}</p>
        {labelled("Lengths in", words, Box::new(at), Box::new(set))}
    }
    .into_any()
}

fn focus_main() {
    let main =
        document().get_element_by_id("main").and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok());
    if let Some(main) = main {
        let _ = main.focus();
    }
}

/// The rail: every stage with its standing, and the shaft's.
pub fn rail(state: State) -> AnyView {
    let whole = Memo::new(move |_| state.job.with(whole));
    let stations = Stage::ALL.into_iter().map(move |stage| {
        let standing = Memo::new(move |_| {
            let of_stage = |whole: &crate::stage::Whole| {
                whole.stages.iter().find(|(known, _)| *known == stage).map(|(_, standing)| *standing)
            };
            whole.with(of_stage).unwrap_or(Standing::NotYet)
        });
        let current = Signal::derive(move || match state.place.get() == Place::Stage(stage) {
            true => "page",
            false => "false",
        });
        view! {
            <li>
                <a href=text(move || state.address(stage)) aria-current=current>
                    <span class="station">{stage_title(stage)}</span>
                    <span class="standing">{slot(move || Some(standing_and_word(standing.get())))}</span>
                </a>
            </li>
        }
        .into_any()
    });
    let shaft = Memo::new(move |_| whole.with(|whole| whole.shaft));
    let kept = move || match state.unsaved.get() {
        true => "Keeping…".to_owned(),
        false => "Kept on this device".to_owned(),
    };
    view! {
        <nav class="rail" aria-label="Stages">
            <ol>{all(stations)}</ol>
            <p class="shaft">
                {slot(move || Some(standing_mark(Some(shaft.get()))))}
                <span>{text(move || whole.with(shaft_line).to_owned())}</span>
                <span class="kept">{text(kept)}</span>
            </p>
        </nav>
    }
    .into_any()
}

fn standing_and_word(standing: Standing) -> AnyView {
    view! { {standing_mark(Some(standing))}<span>{standing_word(standing)}</span> }.into_any()
}
