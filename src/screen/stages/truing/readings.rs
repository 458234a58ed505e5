//! The marks round the tube and what was read at each, with the pad that types them.

use leptos::prelude::*;

use crate::book::awake::stay_awake;
use crate::job::{Choice, Dial, Entry, MOST_STATIONS, Pass, Plunger, Stations};
use crate::screen::parts::{Pad, all, boxes_of, el, key, line, pad_keys, reading, segments, text};
use crate::screen::state::State;
use crate::sheet::Worded;

/// The readings of the turn that is shown with the pad, and under them the marks it is read at: while a
/// turn is typed the pad stands beside the curve.
pub fn readings(state: State, pad: Pad) -> AnyView {
    let of_pass = move |what: fn(&Pass) -> usize| {
        Memo::new(move |_| state.job.with(|job| job.truing.passes.get(state.pass.get()).map_or(0, what)))
    };
    let count = of_pass(Pass::count);
    let at = of_pass(|pass| Stations::ALL.iter().position(|item| *item == pass.stations).unwrap_or(0));
    // What was said of a turn that began by itself, and which one that was.
    let said = RwSignal::new((0, String::new()));
    let words = Stations::ALL.iter().map(|item| item.word().to_owned()).collect();
    let marks =
        segments("Marks round the tube", words, at.into(), move |to| take_marks(state, pad, said, to));
    let fields = move || {
        let (pass, along, count) = (state.pass.get(), state.along.get(), count.get());
        let stations = Stations::ALL.get(at.get()).copied().unwrap_or_default();
        pad.begin();
        Some(marks_of(state, pad, [pass, along, count], stations))
    };
    let legend = text(move || {
        let words = state.at_rest(|job| {
            let line = match job.truing.dial {
                Dial::Hundredth => "in 0.01 mm",
                _ => "in 0.001 in",
            };
            let sign = match job.truing.plunger {
                Plunger::InIsPlus => "plunger pushed in is plus",
                Plunger::InIsMinus => "plunger pushed in is minus",
            };
            (line, sign)
        });
        format!("Readings {}; {}", words.0, words.1)
    });
    let grid = el("fieldset").child(el("legend").words(legend)).slot(fields);
    let bench = el("div").class("bench").child(grid).child(pad_keys(pad));
    let news = move || {
        let (turn, words) = said.get();
        (turn == state.pass.get() && !words.is_empty()).then_some(words)
    };
    let news = el("div").attr("role", "status").child(line("small", news));
    all([news.into(), bench.into(), awake(), marks])
}

/// Takes other marks round the tube.
fn take_marks(state: State, pad: Pad, said: RwSignal<(usize, String)>, chosen: usize) {
    let (pass, stations) = (state.pass.get_untracked(), Stations::ALL.get(chosen).copied());
    let mut own_turn = None;
    state.change(|job| {
        let count = job.truing.passes.len();
        if let (Some(kind), Some(stations)) =
            (job.truing.passes.get(pass).map(|pass| pass.kind), stations)
            && !job.truing.set_stations(pass, stations)
        {
            // The readings stay where they were taken: the new marks begin a pass of their own.
            own_turn = Some(job.truing.begin(kind, stations).then_some(count));
        }
    });
    let Some(own_turn) = own_turn else { return pad.show_soon() };
    let marks = match stations.and_then(Stations::evenly) {
        Some(count) => format!("{count} marks"),
        None if stations == Some(Stations::HighLow) => "the highest and the lowest".to_owned(),
        None => "marks of your own".to_owned(),
    };
    let words = match own_turn {
        Some(turn) => format!("New turn {}, for {marks}. Turn {} is kept.", turn + 1, pass + 1),
        None => format!("Its readings keep their marks, and this job holds no more turns for {marks}."),
    };
    said.set((own_turn.unwrap_or(pass), words));
    if let Some(turn) = own_turn {
        state.pass.set(turn);
        pad.show_soon();
    }
}

/// One field a mark; a mark that the mechanic lays out has its place beside it, laid out once for the
/// whole tube. Where only the highest and the lowest are read each turn has its own.
fn marks_of(state: State, pad: Pad, [pass, along, count]: [usize; 3], stations: Stations) -> AnyView {
    let place = boxes_of(stations, [pass, along, 0]).count() > 1;
    let mark = |mark: usize| {
        let boxes = all(boxes_of(stations, [pass, along, mark]).map(|entry| reading(pad, entry)));
        if place { el("div").class("pair").child(boxes).into() } else { boxes }
    };
    let class = if place { "dial pairs" } else { "dial" };
    let add = move || {
        state.change(|job| {
            if let Some(pass) = job.truing.passes.get_mut(pass) {
                pass.add_station();
            }
        });
    };
    let more = stations == Stations::Free && place && count < MOST_STATIONS;
    let more = more.then(|| key("plain", "One more mark", add).into());
    let closing = (stations != Stations::HighLow)
        .then(|| el("div").class("closing").child(reading(pad, Entry::Closing(pass, along))).into());
    let marks = el("div").class(class).child(all((0..count).map(mark)));
    let elsewhere = stations == Stations::Free && !place;
    let elsewhere = elsewhere
        .then(|| el("p").class("small").text("The marks are those laid out at place 1.").into());
    all(elsewhere.into_iter().chain([marks.into()]).chain(more).chain(closing))
}

/// Keeps the screen awake for as long as this is drawn, and says whether it does.
fn awake() -> AnyView {
    let stays = RwSignal::new(None);
    let awake = stay_awake(Box::new(move |awake| _ = stays.try_set(Some(awake))));
    // Let go of with the stage.
    StoredValue::new_local(awake);
    line("small", move || {
        stays.get().map(|stays: bool| {
            let words = if stays {
                "The screen stays awake on this stage."
            } else {
                "This browser lets the screen go dark here."
            };
            words.to_owned()
        })
    })
}
