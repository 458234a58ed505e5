//! The job book: every job on this device.

use leptos::prelude::*;

use super::parts::{all, key, line, slot, text};
use super::state::State;
use crate::book::{Card, Kept, Shelf, browser};
use crate::job::LONGEST_NAME;
use crate::stage::Stage;

/// The screen.
pub fn job_book(state: State) -> AnyView {
    let list = move || {
        let cards = state.cards.get();
        Some(if cards.is_empty() {
            view! { <p class="empty">"No job yet. Start one, or look at the sample first."</p> }
                .into_any()
        } else {
            all(cards.into_iter().map(|card| job_row(state, card)))
        })
    };
    let offline = move || match state.offline_ready.get() {
        true => "Ready without signal: this page now opens in a garage with no network.".to_owned(),
        false => "Not yet ready without signal: keep the network on for a moment.".to_owned(),
    };
    view! {
        <section class="book">
            <h1>"Job book"</h1>
            <p class="lead">"Shorten or lengthen a drive shaft by hand and have it come out right."</p>
            <div class="actions">
                {key("primary new-job", "Start a job", move || state.begin())}
                {key("sample-job", "Open the sample job", move || state.begin_sample())}
                <label class="button">
                    "Open a job file"
                    <input type="file" accept=".json,application/json" on:change=move |event| {
                        browser::read_file(&event_target(&event), move |text| state.open_text(text));
                    }/>
                </label>
            </div>
            <div class="jobs">{slot(list)}</div>
            {slot(move || bin(state))}
            {slot(move || kept(state))}
            <p class="small">{text(offline)}</p>
            <p class="small">"Everything here is an estimate, not an approval. A person qualified to weld, a driveline shop and your local vehicle rules have the last word."</p>
        </section>
    }
    .into_any()
}

fn job_row(state: State, card: Card) -> AnyView {
    let renaming = RwSignal::new(false);
    let name = RwSignal::new(card.name.clone());
    let changed = card.changed_ms;
    let card = StoredValue::new(card);
    let id = move || card.with_value(|card| card.id.clone());
    let finish = move || {
        renaming.set(false);
        state.rename(&id(), &name.get_untracked());
    };
    let save = move || {
        if let Some(text) = state.with_shelf(|shelf| shelf.text(&id())) {
            browser::save_file(&file_name(&card.with_value(|card| card.name.clone())), &text);
        }
    };
    let heading = move || {
        Some(match renaming.get() {
            true => rename(name, finish),
            false => link(&id(), name),
        })
    };
    view! {
        <article class="job">
            {slot(heading)}
            {line("small", move || (changed > 0).then(|| format!("Changed {}", browser::date_text(changed))))}
            <div class="actions">
                {key("", "Rename", move || renaming.set(true))}
                {key("", "Duplicate", move || state.duplicate(&id()))}
                {key("", "Save as a file", save)}
                {key("delete", "Delete", move || card.with_value(|card| state.delete(card)))}
            </div>
        </article>
    }
    .into_any()
}

fn link(id: &str, name: RwSignal<String>) -> AnyView {
    let address = format!("#/{id}/{}", Stage::Measure.slug());
    let shown = move || {
        let name = name.get();
        if name.trim().is_empty() { "(no name)".to_owned() } else { name }
    };
    view! { <a class="job-link" href=address>{text(shown)}</a> }.into_any()
}

fn rename(name: RwSignal<String>, finish: impl Fn() + Copy + 'static) -> AnyView {
    let finish_on_enter: Box<dyn Fn()> = Box::new(finish);
    view! {
        <label class="field rename">
            <span class="label">"Name of the job"</span>
            <input type="text" maxlength=LONGEST_NAME.to_string() prop:value=name
                on:input=move |event| name.set(event_target_value(&event))
                on:keydown=move |event| if event.key() == "Enter" { finish_on_enter() }/>
        </label>
        {key("", "Keep this name", finish)}
    }
    .into_any()
}

/// A file name made of what every system takes.
fn file_name(job: &str) -> String {
    let plain: String = job.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let name = plain.trim_matches('-');
    format!("{}.json", if name.is_empty() { "shaft" } else { name })
}

/// A folded list with a title.
fn folded(title: String, items: Vec<AnyView>, foot: AnyView) -> AnyView {
    view! {
        <details class="bin"><summary>{title}</summary><ul>{items.into_any()}</ul>{foot}</details>
    }
    .into_any()
}

/// Jobs in the bin.
fn bin(state: State) -> Option<AnyView> {
    state.cards.track();
    let cards = state.with_shelf(Shelf::bin);
    if cards.is_empty() {
        return None;
    }
    let row = |card: Card| {
        let id = card.id;
        view! { <li><span>{card.name}</span>{key("", "Put back", move || state.put_back(&id))}</li> }
            .into_any()
    };
    let empty = move || {
        state.with_shelf(Shelf::empty_bin);
        state.deleted.set(None);
        state.cards.notify();
    };
    let title = format!("Bin ({})", cards.len());
    Some(folded(title, cards.into_iter().map(row).collect(), key("", "Empty the bin for good", empty)))
}

/// Texts that could not be read.
fn kept(state: State) -> Option<AnyView> {
    state.cards.track();
    let texts = state.with_shelf(Shelf::kept);
    if texts.is_empty() {
        return None;
    }
    let row = |kept: Kept| {
        let place = kept.key.clone();
        let forget = move || {
            state.with_shelf(|shelf| shelf.drop_kept(&place));
            state.cards.notify();
        };
        let save = move || browser::save_file("unreadable-job.txt", &kept.text);
        view! { <li><span>{kept.key}</span>{key("", "Save its text", save)}{key("", "Forget it", forget)}</li> }
            .into_any()
    };
    let title = format!("Texts that cannot be read ({})", texts.len());
    Some(folded(title, texts.into_iter().map(row).collect(), ().into_any()))
}
