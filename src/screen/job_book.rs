//! The job book: every job on this device.

use leptos::prelude::*;

use super::parts::{Element, all, either, el, key, text};
use super::state::{State, file_name};
use crate::book::{Card, Kept, Shelf, browser};
use crate::job::LONGEST_NAME;
use crate::stage::Stage;

/// The screen.
pub fn job_book(state: State) -> AnyView {
    let list = move || {
        let cards = state.cards.get();
        Some(if cards.is_empty() {
            el("p").class("empty").text("No job yet. Start one, or look at the sample first.").into()
        } else {
            all(cards.into_iter().map(|card| job_row(state, card)))
        })
    };
    let offline = either(
        move || state.offline_ready.get(),
        "Ready without signal: this page now opens in a garage with no network.",
        "Not yet ready without signal: keep the network on for a moment.",
    );
    let open_file = el("input").attr("type", "file").attr("accept", ".json,application/json").on(
        "change",
        move |event| {
            browser::read_file(&event_target(&event), move |text| state.open_text(text));
        },
    );
    let actions = el("div")
        .class("actions")
        .child(key("primary new-job", "Start a job", move || state.begin()))
        .child(key("sample-job", "Open the sample job", move || state.begin_sample()))
        .child(el("label").class("button").text("Open a job file").child(open_file));
    el("section")
        .class("book")
        .child(el("h1").text("Job book"))
        .child(el("p").class("lead").text("Shorten or lengthen a drive shaft by hand and have it come out right."))
        .child(actions)
        .child(el("div").class("jobs").slot(list))
        .slot(move || bin(state))
        .slot(move || kept(state))
        .child(el("p").class("small").words(offline))
        .child(el("p").class("small").text("Everything here is an estimate, not an approval. A person qualified to weld, a driveline shop and your local vehicle rules have the last word."))
        .into()
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
    let heading = move || Some(if renaming.get() { rename(name, finish) } else { link(&id(), name) });
    let when = (changed > 0).then(|| format!("Changed {}", browser::date_text(changed)));
    let actions = el("div")
        .class("actions")
        .child(key("", "Rename", move || {
            renaming.set(true);
            set_timeout(|| browser::focus(".rename input"), core::time::Duration::ZERO);
        }))
        .child(key("", "Duplicate", move || state.duplicate(&id())))
        .child(key("", "Save as a file", save))
        .child(key("delete", "Delete", move || card.with_value(|card| state.delete(card))));
    el("article")
        .class("job")
        .slot(heading)
        .children(when.map(|when| el("p").class("small").text(&when).into()))
        .child(actions)
        .into()
}

fn link(id: &str, name: RwSignal<String>) -> AnyView {
    let shown = move || {
        let name = name.get();
        if name.trim().is_empty() { "(no name)".to_owned() } else { name }
    };
    let address = format!("#/{id}/{}", Stage::Measure.slug());
    el("a").class("job-link").attr("href", &address).words(text(shown)).into()
}

fn rename(name: RwSignal<String>, finish: impl Fn() + Copy + 'static) -> AnyView {
    let input = el("input")
        .attr("type", "text")
        .attr("maxlength", &LONGEST_NAME.to_string())
        .prop("value", name.into())
        .on("input", move |event| name.set(event_target_value(&event)))
        .on("change", move |_| finish());
    let label = el("label")
        .class("field rename")
        .child(el("span").class("label").text("Name of the job"))
        .child(input);
    all([label.into(), key("", "Keep this name", finish).into()])
}

/// A folded list with a title.
fn folded(title: String, items: Vec<AnyView>) -> Element {
    el("details").class("bin").child(el("summary").text(&title)).child(el("ul").children(items))
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
        let back = key("", "Put back", move || state.put_back(&id));
        el("li").child(el("span").text(&card.name)).child(back).into()
    };
    let empty = move || {
        state.with_shelf(Shelf::empty_bin);
        state.deleted.set(None);
        state.cards.notify();
    };
    let title = format!("Bin ({})", cards.len());
    let list = folded(title, cards.into_iter().map(row).collect());
    Some(list.child(key("", "Empty the bin for good", empty)).into())
}

/// Texts that could not be read.
fn kept(state: State) -> Option<AnyView> {
    state.cards.track();
    let texts = state.with_shelf(Shelf::kept);
    if texts.is_empty() {
        return None;
    }
    let row = |kept: Kept| {
        let (place, again) = (kept.key.clone(), kept.key.clone());
        let forget = move || {
            state.with_shelf(|shelf| shelf.drop_kept(&place));
            state.cards.notify();
        };
        let words = el("span").text(&kept.key);
        let save = move || browser::save_file("unreadable-job.json", &kept.text);
        el("li")
            .child(words)
            .child(key("", "Save its text", save))
            .child(key("", "Try again", move || state.try_again(&again)))
            .child(key("", "Forget it", forget))
            .into()
    };
    let title = format!("Texts that cannot be read ({})", texts.len());
    Some(folded(title, texts.into_iter().map(row).collect()).into())
}
