//! The page. It shows what the stages found in the words of `sheet` and the strokes of `drawing`, and
//! puts the next keystroke into the job. It does no sums.

mod job_book;
mod parts;
mod stages;
mod state;
mod waiting;

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::book::{browser, tilt};
use parts::{all, bar, el, notices, rail, slot};
use state::{Place, State};

/// Puts the page into `#app`.
pub fn mount() {
    let found =
        document().get_element_by_id("app").and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok());
    let Some(place) = found else { return };
    place.set_inner_html("");
    mount_to(place, app).forget();
}

/// The whole page. Every input's text lives in the job at this root, so nothing typed can go away
/// with a screen.
fn app() -> impl IntoView {
    let state = State::open();
    listen(state);
    let screen = move || {
        Some(match state.place.get() {
            Place::Book => job_book::job_book(state),
            Place::Stage(stage) if state.whole_here.get() => stages::stage_screen(state, stage),
            Place::Stage(_) => waiting::waiting(state),
        })
    };
    let judged = Memo::new(move |_| state.whole_here.get() && state.job_id.with(Option::is_some));
    let main = el("main").attr("id", "main").attr("tabindex", "-1").slot(screen);
    all([bar(state), slot(move || judged.get().then(|| rail(state))), notices(state), main.into()])
}

/// Follows the address, other windows, the worker's news, and the page's own end.
fn listen(state: State) {
    browser::on_event("hashchange", move |_| state.follow_address());
    browser::on_event("storage", move |_| state.take_news());
    browser::on_event("shaftwright:whole-ready", move |_| state.whole_here.set(true));
    browser::on_event("shaftwright:rest-missing", move |_| state.rest_missing.set(true));
    // The start script tries again then.
    browser::on_event("online", move |_| state.rest_missing.set(false));
    browser::on_event("shaftwright:update-ready", move |_| state.update_ready.set(true));
    browser::on_event("shaftwright:offline-ready", move |_| state.offline_ready.set(true));
    tilt::on_turn(move |quarters| state.turn.set(quarters));
    browser::on_leaving(move || state.save_now());
    browser::put_print_away_on_return();
}
