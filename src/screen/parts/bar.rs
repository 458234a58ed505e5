//! The bar at the top and the rail of stages.

use leptos::prelude::*;

use super::choice::select;
use super::mark::standing_mark;
use crate::job::{Choice, Display};
use crate::screen::state::{Place, State, Theme};
use crate::sheet::{Worded, shaft_line, stage_title, standing_word};
use crate::stage::{Stage, Standing, whole};

/// The bar: home, the job's name, how lengths are shown, colours, whether all is kept.
pub fn bar(state: State) -> AnyView {
    let theme_word = move || match state.theme.get() {
        Theme::Auto => "Auto",
        Theme::Light => "Light",
        Theme::Dark => "Dark",
    };
    let in_job = move || state.job_id.with(Option::is_some);
    view! {
        <a class="skip" href="#main" on:click=|event| {
            // The address is where the page is: only the focus moves.
            event.prevent_default();
            focus_main();
        }>"To the work"</a>
        <header class="bar">
            <a class="home" href="#/"><span aria-hidden="true">"⊕ "</span>"Job book"</a>
            {move || in_job().then(|| view! {
                <p class="job-name">{move || state.job.with(|job| job.name.clone())}</p>
                <label class="display">
                    <span>"Lengths in"</span>
                    {select(Display::ALL, move || state.job.with(|job| job.display), move |display| state.set_display(display), Display::word)}
                </label>
            })}
            <button type="button" class="plain" on:click=move |_| state.next_theme()>
                <span class="small">"Colours"</span>{theme_word}
            </button>
        </header>
    }
    .into_any()
}

fn focus_main() {
    use wasm_bindgen::JsCast;
    let main =
        document().get_element_by_id("main").and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok());
    if let Some(main) = main {
        let _ = main.focus();
    }
}

/// The rail: every stage with its standing, and the shaft's.
pub fn rail(state: State) -> AnyView {
    let whole = Memo::new(move |_| state.job.with(whole));
    let standing = move |stage: Stage| {
        whole.with(|whole| {
            whole.stages.iter().find(|(known, _)| *known == stage).map(|(_, standing)| *standing)
        })
    };
    let station = move |stage: Stage| {
        let standing = Memo::new(move |_| standing(stage).unwrap_or(Standing::NotYet));
        let current = move || (state.place.get() == Place::Stage(stage)).then_some("page");
        view! {
            <li>
                <a href=move || state.address(stage) aria-current=current>
                    <span class="station">{stage_title(stage)}</span>
                    <span class="standing">
                        {move || standing_mark(Some(standing.get()))}
                        {move || standing_word(standing.get())}
                    </span>
                </a>
            </li>
        }
    };
    view! {
        <nav class="rail" aria-label="Stages">
            <ol>{Stage::ALL.map(station).collect_view()}</ol>
            <p class="shaft">
                {move || standing_mark(Some(whole.with(|whole| whole.shaft)))}
                <span>{move || whole.with(shaft_line)}</span>
                <span class="kept">
                    {move || if state.unsaved.get() { "Keeping…" } else { "Kept on this device" }}
                </span>
            </p>
        </nav>
    }
    .into_any()
}
