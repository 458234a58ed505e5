//! A pad of large keys for dial readings, and the fields that it types into.

mod sight;

use core::time::Duration;

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::element::{Element, either, el, key, slot, text};
use super::field::{Pieces, field_id, pieces};
use crate::job::{Entry, Job, PadHand, PadKey, Stations};
use crate::screen::state::State;
use crate::sheet::{Worded, label};
use crate::stage::Blocked;
use crate::stage::truing::Turn;
use sight::{has_focus, in_another_box, put_caret, show_above_pad, show_answers};

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
    /// The caret is in a box that is none of the pad's.
    elsewhere: RwSignal<bool>,
    /// Marks of the turn shown that do not count, whoever set them aside.
    left_out: Memo<Vec<usize>>,
    /// Which marks of the turn shown the mechanic has set aside: one look at the job serves all of them.
    aside: Memo<Vec<bool>>,
}

/// The boxes of a mark in the order in which a hand fills them: what was read, and where it is, if that is
/// typed. A mark that the mechanic lays out is laid out once for the whole tube; where only the highest and
/// the lowest are read, each turn has its own.
pub fn boxes_of(
    stations: Stations,
    [pass, along, mark]: [usize; 3],
) -> impl Iterator<Item = Entry> + use<> {
    let (read, at) = (Entry::StationReading(pass, along, mark), Entry::StationAt(pass, along, mark));
    let [first, second] = match stations {
        Stations::HighLow => [Some(read), Some(at)],
        Stations::Free if along == 0 => [Some(at), Some(read)],
        _ => [Some(read), None],
    };
    first.into_iter().chain(second)
}

impl Pad {
    /// A pad with no field yet, beside the turn that is shown.
    pub fn new(state: State, turn: Memo<Result<Turn, Blocked>>) -> Self {
        Pad {
            state,
            mark: RwSignal::new(None),
            hand: RwSignal::new(PadHand::fresh()),
            corrects: RwSignal::new(false),
            keyboard: RwSignal::new(false),
            elsewhere: RwSignal::new(false),
            left_out: Memo::new(move |_| {
                state.pass.track();
                state.along.track();
                let marks = |turn: &Turn| {
                    let aside = turn.run_out.aside.iter();
                    aside.filter_map(|station| turn.marks.get(*station).copied()).collect()
                };
                let known = |turn: &Result<Turn, Blocked>| turn.as_ref().map(marks).unwrap_or_default();
                state.at_rest(|_| turn.with_untracked(known))
            }),
            aside: Memo::new(move |_| {
                let (pass, along) = (state.pass.get(), state.along.get());
                let aside = |job: &Job| {
                    let turn = job.truing.passes.get(pass).and_then(|pass| pass.turns.get(along));
                    turn.map(|turn| turn.aside.clone()).unwrap_or_default()
                };
                state.job.with(aside)
            }),
        }
    }

    /// Set aside by hand.
    fn is_aside(self, entry: Entry) -> bool {
        let Entry::StationReading(.., mark) = entry else { return false };
        self.aside.with(|aside| aside.get(mark) == Some(&true))
    }

    /// Puts the questions under the pad's eye: it types into no box but its own.
    pub fn around(self, questions: AnyView) -> AnyView {
        let goes = move |elsewhere: bool| {
            if self.elsewhere.get_untracked() != elsewhere {
                self.elsewhere.set(elsewhere);
            }
        };
        el("div")
            .class("around")
            .on("focusout", move |_| goes(false))
            .on("focusin", move |_| goes(in_another_box()))
            .child(questions)
            .into()
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
            let marks = (0..turn.count()).flat_map(|mark| boxes_of(turn.stations, [pass, along, mark]));
            let mut passed = behind.is_none();
            marks.chain(closing).find(|entry| {
                let wanted = passed && blank(*entry);
                passed |= behind == Some(*entry);
                let passed_over = match entry {
                    Entry::StationReading(.., mark) | Entry::StationAt(.., mark) => {
                        job.truing.is_aside(pass, along, *mark)
                    }
                    _ => false,
                };
                wanted && !passed_over
            })
        })
    }

    /// Goes on: from a field that was filled anew to the one behind it, from a correction back to where
    /// the turn was left; from a turn that is read to what follows from it.
    fn next(self) {
        let Some(mark) = self.mark.get_untracked() else { return show_answers() };
        let goes_on = !self.corrects.get_untracked() && !self.elsewhere.get_untracked();
        self.choose(self.unread(goes_on.then_some(mark)));
        self.show_chosen();
    }

    /// Brings the field into sight with the caret in it, so that a keyboard on the bench types there too.
    fn show_chosen(self) {
        if let Some(input) = self.mark.try_get_untracked().flatten().and_then(input_of) {
            put_caret(&input);
            input.select();
            show_above_pad(&input);
        }
    }

    /// The same once the fields of another turn are drawn.
    pub fn show_soon(self) {
        set_timeout(move || self.show_chosen(), Duration::ZERO);
    }

    fn press(self, key: PadKey) {
        let Some(mark) = self.mark.get_untracked() else { return };
        if in_another_box() {
            return;
        }
        if let Some(input) = input_of(mark) {
            // Chosen by the page itself, it has no caret yet.
            if !has_focus(&input) {
                put_caret(&input);
            }
            show_above_pad(&input);
        }
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
        if let Some(mark) = self.mark.get_untracked()
            && let Some(input) = input_of(mark)
        {
            let _ = input.set_attribute("inputmode", input_mode(mark, keyboard));
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

fn input_of(mark: Entry) -> Option<web_sys::HtmlInputElement> {
    document().get_element_by_id(&field_id(mark))?.dyn_into().ok()
}

/// A place may be 4:30, for which a pad of figures has no key.
const fn input_mode(entry: Entry, keyboard: bool) -> &'static str {
    match (keyboard, entry) {
        (false, _) => "none",
        (true, Entry::StationAt(..)) => "text",
        (true, _) => "decimal",
    }
}

/// A field that the pad types into. The unit of readings, their sign and their keys stand once for all.
pub fn reading(pad: Pad, entry: Entry) -> AnyView {
    let Pieces { label, wrong, input, unit, note } = pieces(pad.state, entry);
    let aside = Memo::new(move |_| pad.is_aside(entry));
    let left_out = Memo::new(move |_| match entry {
        Entry::StationReading(.., mark) => pad.left_out.with(|marks| marks.contains(&mark)),
        _ => false,
    });
    let chosen = Memo::new(move |_| pad.mark.get() == Some(entry));
    let class = text(move || {
        let marked = |is: bool, word: &'static str| if is { word } else { "" };
        let (wrong, chosen) = (marked(wrong.get(), " wrong"), marked(chosen.get(), " chosen"));
        format!("field reading{wrong}{chosen}{}", marked(aside.get() || left_out.get(), " aside"))
    });
    let input = input
        .live("inputmode", text(move || input_mode(entry, pad.keyboard.get()).to_owned()))
        .on("focus", move |_| {
            if pad.mark.get_untracked() != Some(entry) {
                pad.choose(Some(entry));
            }
        })
        .on("click", move |_| {
            pad.choose(Some(entry));
            if let Some(input) = input_of(entry) {
                show_above_pad(&input);
            }
        })
        .on("input", move |_| pad.hand.set(PadHand::default()));
    let input = match entry {
        Entry::StationAt(..) => {
            el("span").class("entry").child(input).child(el("span").class("unit").words(unit))
        }
        _ => input,
    };
    let fate = move || match (aside.get(), left_out.get()) {
        (true, _) => Some(el("small").text("set aside").into()),
        (false, true) => Some(el("small").text("left out").into()),
        (false, false) => None,
    };
    el("div")
        .live("class", class)
        .child(el("label").class("label").attr("for", &field_id(entry)).words(label))
        .child(input)
        .slot(fate)
        .child(note)
        .into()
}

/// The pad itself.
pub fn pad_keys(pad: Pad) -> AnyView {
    let figure = |figure: char| {
        key("figure", figure.encode_utf8(&mut [0; 4]), move || pad.press(PadKey::Figure(figure))).into()
    };
    let row = |figures: &str| figures.chars().map(figure).collect::<Vec<AnyView>>();
    // A place has no sign and no half lines, but minutes.
    let place = Memo::new(move |_| matches!(pad.mark.get(), Some(Entry::StationAt(..))));
    let sign = key("", "±", move || pad.press(PadKey::Sign))
        .live("class", either(move || place.get(), "unseen", ""))
        .attr("aria-label", "Turn the sign");
    let half = move || pad.press(if place.get_untracked() { PadKey::Colon } else { PadKey::Half });
    let half = key("figure", "", half)
        .words(either(move || place.get(), ":", "½"))
        .live("aria-label", either(move || place.get(), "Colon", "Half a line"));
    let delete = key("figure two", "⌫", move || pad.press(PadKey::Delete)).attr("aria-label", "Delete");
    let read = move || pad.mark.get().is_none();
    let next =
        key("primary three", "", move || pad.next()).words(either(read, "See what to do", "Next mark"));
    let keyboard = key("plain", "Keyboard", move || pad.change_keyboard())
        .live("aria-pressed", either(move || pad.keyboard.get(), "true", "false"));
    let class = text(move || {
        let idle = if read() || pad.elsewhere.get() { " idle" } else { "" };
        format!("pad{}{idle}", if pad.keyboard.get() { " slim" } else { "" })
    });
    el("div")
        .live("class", class)
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
        Some(_) if pad.elsewhere.get() => "Tap a mark first".to_owned(),
        Some(mark) => pad.state.at_rest(|job| label(job, mark)),
        None => "Turn read".to_owned(),
    });
    // Which turn, where there are several: the list of them may be out of sight.
    let turn = text(move || {
        let shown = pad.state.pass.get();
        let kind = pad.state.at_rest(|job| {
            let several = job.truing.passes.len() > 1;
            job.truing.passes.get(shown).map(|pass| pass.kind.word()).filter(|_| several)
        });
        let said = |kind: &str| format!("Turn {}, {} · ", shown + 1, kind.to_ascii_lowercase());
        kind.map(said).unwrap_or_default()
    });
    let number = text(move || {
        let Some(mark) = pad.mark.get().filter(|_| !pad.elsewhere.get()) else { return String::new() };
        let stands = pad.state.job.with(|job| job.typed(mark).map(|typed| typed.text.replace('-', "−")));
        match stands.unwrap_or_default() {
            empty if empty.is_empty() => if pad.hand.get().minus { "−" } else { "" }.to_owned(),
            stands => stands,
        }
    });
    el("p")
        .class("mark-name")
        .attr("role", "status")
        .child(el("small").words(turn))
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

    let aside = Memo::new(move |_| pad.mark.get().is_some_and(|mark| pad.is_aside(mark)));
    let aside_key = move || {
        key("plain", "Set aside", move || pad.turn_aside())
            .attr("aria-label", "Set aside this mark: a seam or a dent")
            .live("aria-pressed", either(move || aside.get(), "true", "false"))
    };
    slot(move || Some(if fits.get() { aside_key() } else { el("span") }.into()))
}
