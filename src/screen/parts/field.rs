//! A field that is typed into: label, text, unit, and one plain sentence where something is wrong.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::element::{Element, all, either, el, key, line, text};
use crate::job::{Entry, Job, sign_turned};
use crate::quantity::{Unit, Unreadable};
use crate::screen::state::State;
use crate::sheet::{amount, complaint, hint, label, remark, which_way};
use crate::stage::{Amount, Complaint, allowed, may_be_negative, read};

/// What a field shows, all at once: one memo a field keeps a keystroke cheap.
#[derive(Clone, PartialEq, Default)]
struct Face {
    label: String,
    text: String,
    unit: &'static str,
    complaint: Option<String>,
    /// What is odd about it among the others.
    remark: Option<String>,
    /// Both readings of an ambiguous text.
    either: Option<(String, String)>,
    /// What was understood, where that is not what stands there.
    understood: Option<String>,
}

fn face(job: &Job, entry: Entry) -> Face {
    let typed = job.typed(entry);
    let text = typed.map(|typed| typed.text.clone()).unwrap_or_default();
    let unit = job.unit_of(entry);
    let mut face = Face { label: label(job, entry), unit: unit_text(unit), text, ..Face::default() };
    match read(job, entry) {
        Ok(Some(value)) => {
            face.understood = understood(job, entry, value, &face.text);
            face.remark = remark(job, entry);
        }
        Ok(None) => {}
        Err(what) => {
            face.complaint = Some(complaint(job, entry, &what));
            if let Complaint::Unreadable(Unreadable::Ambiguous { grouped, decimal, .. }) = what {
                face.either = Some((grouped, decimal));
            }
        }
    }
    face
}

const fn unit_text(unit: Unit) -> &'static str {
    match unit {
        Unit::Hour => "",
        Unit::Hundredth => "×0.01 mm",
        other => other.symbol(),
    }
}

/// A text that carries its own unit, or was typed under another display, is read back in the display
/// in force, so that a slip shows.
fn understood(job: &Job, entry: Entry, value: Amount, text: &str) -> Option<String> {
    let foreign = job.unit_of(entry) != job.unit_in_force(entry);
    let own_unit = text
        .chars()
        .any(|c| c.is_ascii_alphabetic() || matches!(c, '\'' | '"' | '°' | '′' | '″' | '’' | '”' | ':'));
    let value = match value {
        Amount::PlainLength(length) => Amount::Length(length),
        other => other,
    };
    let said = which_way(entry, value);
    // 4.30 is four hours and three tenths, not half past four: what was taken for it is said.
    let broken_hour = matches!(value, Amount::Clock(_)) && text.contains(['.', ',']);
    if said.is_empty() && !foreign && !own_unit && !broken_hour {
        return None;
    }
    Some(format!("= {}{said}", amount(value, job.display.lengths())))
}

/// The keypad that a tablet should bring up: digits where digits are all it takes.
fn keypad(job: &Job, entry: Entry) -> &'static str {
    if matches!(entry, Entry::WeightNote(_)) {
        return "text";
    }
    let digits = match allowed(entry).0 {
        Amount::PlainLength(_) => !job.display.is_inch(),
        Amount::Clock(_) => false,
        _ => true,
    };
    if digits { "decimal" } else { "text" }
}

fn turn_sign(state: State, entry: Entry) {
    let text = state.job.with_untracked(|job| job.typed(entry).map(|typed| typed.text.clone()));
    state.put(entry, &sign_turned(&text.unwrap_or_default()));
}

/// The name a field has in the page, for labels, jumps and tests.
pub fn field_id(entry: Entry) -> String {
    entry.name()
}

/// Enter goes on to the next field, as a hand on the bench wants it.
fn next_on_enter(event: &web_sys::Event) {
    let pressed = event.dyn_ref::<web_sys::KeyboardEvent>().map(web_sys::KeyboardEvent::key);
    if pressed.as_deref() != Some("Enter") {
        return;
    }
    event.prevent_default();
    let here = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    let (Some(here), Ok(all)) = (here, document().query_selector_all("main .field input")) else {
        return;
    };
    let mut found = false;
    for place in 0..all.length() {
        let Some(node) = all.item(place) else { continue };
        if found {
            if let Ok(input) = node.dyn_into::<web_sys::HtmlInputElement>() {
                let _ = input.focus();
                input.select();
            }
            return;
        }
        found = here.is_same_node(Some(&node));
    }
}

/// What a field is put together from.
pub(super) struct Pieces {
    /// Its name.
    pub label: Signal<String>,
    /// Something is wrong with what stands there.
    pub wrong: Memo<bool>,
    /// Where it is typed.
    pub input: Element,
    /// What a bare number is.
    pub unit: Signal<String>,
    /// What is to be said about it.
    pub note: Element,
}

/// The pieces of a field; which keypad its input brings up is not among them.
#[inline(never)]
pub(super) fn pieces(state: State, entry: Entry) -> Pieces {
    // A stage has dozens of fields, and a keystroke changes one; the others follow at the pause.
    // Told apart first: when the hand goes to another field, only these two look at the job again.
    let typed_into = Memo::new(move |_| state.typing.get() == Some(entry));
    let face = Memo::new(move |_| {
        if typed_into.get() {
            return state.job.with(|job| face(job, entry));
        }
        state.at_rest(|job| face(job, entry))
    });
    let id = field_id(entry);
    let note_id = format!("{id}-note");
    let label = text(move || face.with(|face| face.label.clone()));
    let wrong = Memo::new(move |_| face.with(|face| face.complaint.is_some()));
    let input = el("input")
        .attr("id", &id.clone())
        .attr("type", "text")
        .attr("autocomplete", "off")
        .attr("autocapitalize", "off")
        .attr("spellcheck", "false")
        .attr("enterkeyhint", "next")
        .attr("maxlength", "60")
        .attr("aria-describedby", &note_id.clone())
        .live("aria-invalid", either(move || wrong.get(), "true", "false"))
        .prop("value", text(move || face.with(|face| face.text.clone())))
        .on("input", move |event| state.put(entry, &event_target_value(&event)))
        .on("keydown", |event| next_on_enter(&event));
    let unit = text(move || face.with(|face| face.unit.to_owned()));
    Pieces { label, wrong, input, unit, note: note(state, entry, face, note_id) }
}

/// A field.
pub fn field(state: State, entry: Entry) -> AnyView {
    let Pieces { label, wrong, input, unit, note } = pieces(state, entry);
    let input = input.attr("inputmode", state.job.with_untracked(|job| keypad(job, entry)));
    // Number pads of phones have no key for the sign.
    let sign = may_be_negative(entry).then(|| sign_key(state, entry, label).into());
    let unit = el("span").class("unit").words(unit);
    el("div")
        .live("class", either(move || wrong.get(), "field wrong", "field"))
        .child(el("label").class("label").attr("for", &field_id(entry)).words(label))
        .child(el("span").class("entry").children(sign).child(input).child(unit))
        .child(note)
        .into()
}

fn sign_key(state: State, entry: Entry, label: Signal<String>) -> Element {
    let says = text(move || format!("Turn the sign of {}", label.get()));
    key("sign", "±", move || turn_sign(state, entry)).live("aria-label", says)
}

/// What stands under a field: what is wrong, both readings of an ambiguous text, what was understood,
/// what to know.
fn note(state: State, entry: Entry, face: Memo<Face>, id: String) -> Element {
    let sentence = Memo::new(move |_| face.with(|face| face.complaint.clone()));
    let wrong = move || {
        // The sentence quotes what was given, so it changes whenever the two readings do.
        let (sentence, readings) = (sentence.get(), face.with_untracked(|face| face.either.clone()));
        let put = move |words: String| {
            let typed = words.clone();
            key("", &words, move || state.put(entry, &typed))
        };
        sentence.map(|sentence| {
            let keys = readings.map(|(grouped, decimal)| {
                el("span").class("either").child(put(grouped)).child(put(decimal)).into()
            });
            all(core::iter::once(el("strong").text(&sentence).into()).chain(keys))
        })
    };
    let hint = hint(entry);
    let hint = (!hint.is_empty()).then(|| el("small").text(hint).into());
    let understood = Memo::new(move |_| face.with(|face| face.understood.clone()));
    let remark = Memo::new(move |_| face.with(|face| face.remark.clone()));
    el("div")
        .class("note")
        .attr("id", &id)
        .slot(wrong)
        .child(line("understood", move || understood.get()))
        .child(line("remark", move || remark.get()))
        .children(hint)
}

/// Several fields, one under the other.
pub fn fields(state: State, entries: &[Entry]) -> AnyView {
    all(entries.iter().map(|entry| field(state, *entry)))
}

/// Several small fields side by side under one heading.
pub fn field_row(state: State, legend: &'static str, entries: Vec<Entry>) -> AnyView {
    el("fieldset")
        .class("row")
        .child(el("legend").text(legend))
        .child(el("div").child(fields(state, &entries)))
        .into()
}
