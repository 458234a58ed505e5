//! A pad of large keys for dial readings, and the fields that it types into.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::element::{Element, either, el, key, slot, text};
use super::field::{Pieces, field_id, pieces};
use crate::job::{Entry, PadHand, PadKey, Stations};
use crate::screen::state::State;
use crate::sheet::label;

/// The pad of a stage: which field it types into, and how the next key is meant.
#[derive(Clone, Copy)]
pub struct Pad {
    state: State,
    mark: RwSignal<Option<Entry>>,
    hand: RwSignal<PadHand>,
    /// Something stood in the field when it was chosen.
    corrects: RwSignal<bool>,
    /// The device's own keyboard is wanted in place of the pad.
    keyboard: RwSignal<bool>,
}

impl Pad {
    /// A pad with no field yet.
    pub fn new(state: State) -> Self {
        Pad {
            state,
            mark: RwSignal::new(None),
            hand: RwSignal::new(PadHand::fresh()),
            corrects: RwSignal::new(false),
            keyboard: RwSignal::new(false),
        }
    }

    /// Chooses the first mark of the turn shown that has no reading yet.
    pub fn begin(self) {
        self.choose(self.unread(None));
    }

    fn choose(self, mark: Option<Entry>) {
        self.mark.set(mark);
        self.hand.set(PadHand::fresh());
        self.corrects.set(mark.is_some_and(|mark| !self.typed(mark).is_empty()));
    }

    fn typed(self, mark: Entry) -> String {
        let typed = |text: &crate::job::Typed| text.text.clone();
        self.state.job.with_untracked(|job| job.typed(mark).map(typed)).unwrap_or_default()
    }

    /// The first field behind this one, or of all, that wants a reading. A mark set aside wants none.
    fn unread(self, behind: Option<Entry>) -> Option<Entry> {
        let (pass, along) = (self.state.pass.get_untracked(), self.state.along.get_untracked());
        self.state.job.with_untracked(|job| {
            let turn = job.truing.passes.get(pass)?;
            let blank = |entry: Entry| job.typed(entry).is_some_and(crate::job::Typed::is_blank);
            // There is nothing to close where the first mark was passed over.
            let closes = turn.stations != Stations::HighLow
                && !(blank(Entry::StationReading(pass, along, 0))
                    && job.truing.is_aside(pass, along, 0));
            let closing = closes.then_some(Entry::Closing(pass, along));
            let marks = (0..turn.count()).map(|mark| Entry::StationReading(pass, along, mark));
            let mut passed = behind.is_none();
            marks.chain(closing).find(|entry| {
                let wanted = passed && blank(*entry);
                passed |= behind == Some(*entry);
                wanted && !is_aside(job, *entry)
            })
        })
    }

    /// Goes on: from a field that was filled anew to the one behind it, from a correction back to where
    /// the turn was left.
    fn next(self) {
        let behind = if self.corrects.get_untracked() { None } else { self.mark.get_untracked() };
        self.choose(self.unread(behind));
        self.show_chosen();
    }

    /// Brings the field into sight with the caret in it, so that a keyboard on the bench types there too.
    fn show_chosen(self) {
        if let Some(input) = self.mark.get_untracked().and_then(input_of) {
            let _ = input.focus();
            input.select();
        }
    }

    fn press(self, key: PadKey) {
        let Some(mark) = self.mark.get_untracked() else { return };
        let mut hand = self.hand.get_untracked();
        let text = hand.press(&self.typed(mark), key);
        self.hand.set(hand);
        if let Some(text) = text {
            self.state.put(mark, &text);
        }
    }

    /// Changes between the pad and the device's own keyboard, which some browsers bring up or put away
    /// only for a field that gets the focus anew.
    fn change_keyboard(self) {
        let keyboard = !self.keyboard.get_untracked();
        self.keyboard.set(keyboard);
        if let Some(input) = self.mark.get_untracked().and_then(input_of) {
            let _ = input.set_attribute("inputmode", input_mode(keyboard));
            let _ = input.blur();
            let _ = input.focus();
        }
    }

    fn turn_aside(self) {
        if let Some(Entry::StationReading(pass, along, mark)) = self.mark.get_untracked() {
            self.state.change(|job| {
                let turn = job.truing.passes.get_mut(pass).and_then(|pass| pass.turns.get_mut(along));
                if let Some(aside) = turn.and_then(|turn| turn.aside.get_mut(mark)) {
                    *aside = !*aside;
                }
            });
        }
    }
}

/// Set aside by hand.
fn is_aside(job: &crate::job::Job, entry: Entry) -> bool {
    let Entry::StationReading(pass, along, mark) = entry else { return false };
    job.truing.is_aside(pass, along, mark)
}

fn input_of(mark: Entry) -> Option<web_sys::HtmlInputElement> {
    document().get_element_by_id(&field_id(mark))?.dyn_into().ok()
}

const fn input_mode(keyboard: bool) -> &'static str {
    if keyboard { "decimal" } else { "none" }
}

/// A field that the pad types into. Its unit, its sign and its keys stand once for all of them.
pub fn reading(pad: Pad, entry: Entry) -> AnyView {
    let Pieces { label, wrong, input, note, .. } = pieces(pad.state, entry);
    let aside = Memo::new(move |_| pad.state.job.with(|job| is_aside(job, entry)));
    let chosen = Memo::new(move |_| pad.mark.get() == Some(entry));
    let class = text(move || {
        let marked = |is: bool, word: &'static str| if is { word } else { "" };
        let (wrong, chosen) = (marked(wrong.get(), " wrong"), marked(chosen.get(), " chosen"));
        format!("field reading{wrong}{chosen}{}", marked(aside.get(), " aside"))
    });
    let input = input
        .live("inputmode", text(move || input_mode(pad.keyboard.get()).to_owned()))
        .on("focus", move |_| {
            if pad.mark.get_untracked() != Some(entry) {
                pad.choose(Some(entry));
            }
        })
        .on("click", move |_| pad.choose(Some(entry)))
        .on("input", move |_| pad.hand.set(PadHand::default()));
    el("div")
        .live("class", class)
        .child(el("label").class("label").attr("for", &field_id(entry)).words(label))
        .child(input)
        .slot(move || aside.get().then(|| el("small").text("set aside").into()))
        .child(note)
        .into()
}

/// The pad itself.
pub fn pad_keys(pad: Pad) -> AnyView {
    let figure = |figure: char| {
        key("figure", figure.encode_utf8(&mut [0; 4]), move || pad.press(PadKey::Figure(figure))).into()
    };
    let row = |figures: &str| figures.chars().map(figure).collect::<Vec<AnyView>>();
    let sign = key("", "±", move || pad.press(PadKey::Sign)).attr("aria-label", "Turn the sign");
    let half = key("figure", "½", move || pad.press(PadKey::Half)).attr("aria-label", "Half a line");
    let delete = key("figure two", "⌫", move || pad.press(PadKey::Delete)).attr("aria-label", "Delete");
    let next = key("primary three", "Next mark", move || pad.next());
    let keyboard = key("plain", "Keyboard", move || pad.change_keyboard())
        .live("aria-pressed", either(move || pad.keyboard.get(), "true", "false"));
    el("div")
        .live("class", either(move || pad.keyboard.get(), "pad slim", "pad"))
        .attr("role", "group")
        .attr("aria-label", "Keys for readings")
        // The caret stays in the field: a key pressed takes no focus away.
        .on("mousedown", |event| event.prevent_default())
        .child(head(pad))
        .children(row("789"))
        .child(sign)
        .child(aside_key(pad))
        .children(row("456"))
        .child(half)
        .child(keyboard)
        .children(row("123"))
        .child(delete)
        .child(key("figure two", "0", move || pad.press(PadKey::Figure('0'))))
        .child(next)
        .into()
}

/// Which mark is typed, and what stands there.
fn head(pad: Pad) -> Element {
    let name = text(move || match pad.mark.get() {
        Some(mark) => pad.state.at_rest(|job| label(job, mark)),
        None => "Turn read".to_owned(),
    });
    let number = text(move || {
        let Some(mark) = pad.mark.get() else { return String::new() };
        let stands = pad.state.job.with(|job| job.typed(mark).map(|typed| typed.text.replace('-', "−")));
        match stands.unwrap_or_default() {
            empty if empty.is_empty() => if pad.hand.get().minus { "−" } else { "" }.to_owned(),
            stands => stands,
        }
    });
    el("p")
        .class("mark-name")
        .attr("role", "status")
        .child(el("span").words(name))
        .child(el("strong").words(number))
}

/// The closing reading and those of the quick way have nothing to be set aside.
fn aside_key(pad: Pad) -> AnyView {
    let fits = Memo::new(move |_| match pad.mark.get() {
        Some(Entry::StationReading(pass, ..)) => pad.state.job.with(|job| {
            job.truing.passes.get(pass).is_some_and(|pass| pass.stations != Stations::HighLow)
        }),
        _ => false,
    });

    let aside = Memo::new(move |_| {
        pad.mark.get().is_some_and(|mark| pad.state.job.with(|job| is_aside(job, mark)))
    });
    let aside_key = move || {
        key("plain", "Set aside", move || pad.turn_aside())
            .attr("aria-label", "Set aside this mark: a seam or a dent")
            .live("aria-pressed", either(move || aside.get(), "true", "false"))
    };
    slot(move || Some(if fits.get() { aside_key() } else { el("span") }.into()))
}
