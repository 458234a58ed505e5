//! True.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{Choice, Entry, MOST_PASSES, MOST_STATIONS, Pass, PassKind, RunOutLimit, Stations};
use crate::screen::parts::{
    Follows, all, choice, el, field, field_row, fields, key, picture, segments, slot,
};
use crate::screen::state::State;
use crate::sheet::Worded;

/// The limit of the total reading, asked here and at the cut.
pub fn limit_questions(state: State) -> AnyView {
    let own = state.follows(|job| job.truing.limit == RunOutLimit::Own);
    all([
        choice(
            state,
            "Limit of the total reading",
            |job| job.truing.limit,
            |job, to| job.truing.limit = to,
        ),
        slot(move || own.get().then(|| field(state, Entry::OwnLimit))),
    ])
}

/// The questions: which turn, how many stations, the readings.
pub fn questions(state: State) -> AnyView {
    // A turn keeps its kind for good: only how many there are can change.
    let count = state.follows(|job| job.truing.passes.len());
    let turns = move || {
        count.track();
        let named = |(i, pass): (usize, &Pass)| format!("{} {}", i + 1, pass.kind.word());
        let words =
            state.job.with_untracked(|job| job.truing.passes.iter().enumerate().map(named).collect());
        Some(segments("Turn", words, state.pass.into(), move |pass| state.pass.set(pass)))
    };
    all([
        slot(turns),
        new_turn(state, count),
        choice(state, "Dial reads to", |job| job.truing.dial, |job, to| job.truing.dial = to),
        stations(state),
        limit_questions(state),
    ])
}

fn new_turn(state: State, count: Memo<usize>) -> AnyView {
    let add = move |kind: PassKind| {
        let stations =
            state.job.with_untracked(|job| job.truing.passes.last().map(|pass| pass.stations));
        state.change(|job| _ = job.truing.begin(kind, stations.unwrap_or_default()));
        state.pass.set(count.get_untracked().saturating_sub(1));
    };
    let keys = move || {
        let each = PassKind::ALL.iter();
        all(each.map(|kind| key("plain", &format!("+ {}", kind.word()), move || add(*kind)).into()))
    };
    // A turn begun by mistake can be taken away while nothing stands in it.
    let empty = Memo::new(move |_| {
        let blank = Pass::is_blank;
        let at = state.pass.get();
        state.job.with(|job| job.truing.passes.len() > 1 && job.truing.passes.get(at).is_some_and(blank))
    });
    let take_away = move || {
        let at = state.pass.get_untracked();
        state.pass.set(at.saturating_sub(1));
        state.change(|job| {
            if at < job.truing.passes.len() {
                job.truing.passes.remove(at);
            }
        });
    };
    slot(move || {
        (count.get() < MOST_PASSES).then(|| {
            el("div")
                .class("actions")
                .attr("role", "group")
                .attr("aria-label", "Take a new turn")
                .child(el("span").class("small").text("New turn:"))
                .child(keys())
                .slot(move || {
                    empty.get().then(|| key("plain", "Take this empty turn away", take_away).into())
                })
                .into()
        })
    })
}

/// Stations and readings of the turn that is shown.
fn stations(state: State) -> AnyView {
    let of_pass = move |what: fn(&Pass) -> usize| {
        Memo::new(move |_| state.job.with(|job| job.truing.passes.get(state.pass.get()).map_or(0, what)))
    };
    let count = of_pass(Pass::count);
    let at = of_pass(|pass| Stations::ALL.iter().position(|item| *item == pass.stations).unwrap_or(0));
    let set = move |chosen: usize| {
        let (pass, stations) = (state.pass.get_untracked(), Stations::ALL.get(chosen).copied());
        let mut own_turn = None;
        state.change(|job| {
            let count = job.truing.passes.len();
            if let (Some(pass), Some(stations)) = (job.truing.passes.get_mut(pass), stations)
                && !pass.set_stations(stations)
            {
                // The readings stay where they were taken: the new marks begin a pass of their own.
                let kind = pass.kind;
                own_turn = job.truing.begin(kind, stations).then_some(count);
            }
        });
        if let Some(turn) = own_turn {
            state.pass.set(turn);
        }
    };
    let words = Stations::ALL.iter().map(|item| item.word().to_owned()).collect();
    let readings = move || {
        let (pass, count) = (state.pass.get(), count.get());
        Some(match Stations::ALL.get(at.get()) {
            Some(Stations::Free) => free_readings(state, pass, count),
            _ => fixed_readings(state, pass, count),
        })
    };
    all([segments("Marks round the tube", words, at.into(), set), slot(readings)])
}

fn fixed_readings(state: State, pass: usize, count: usize) -> AnyView {
    let entries = (0..count).map(|station| Entry::StationReading(pass, 0, station)).collect();
    let row = field_row(state, "Dial readings: plunger pushed in is plus", entries);
    all([el("div").class("dial").child(row).into(), field(state, Entry::Closing(pass, 0))])
}

fn free_readings(state: State, pass: usize, count: usize) -> AnyView {
    let pair = |station: usize| {
        let both = [Entry::StationAt(pass, 0, station), Entry::StationReading(pass, 0, station)];
        el("div").class("pair").child(fields(state, &both)).into()
    };
    let add = move || {
        state.change(|job| {
            if let Some(pass) = job.truing.passes.get_mut(pass) {
                pass.add_station();
            }
        });
    };
    let more = (count < MOST_STATIONS).then(|| key("plain", "One more mark", add).into());
    let marks = el("div").class("dial free").child(all((0..count).map(pair)));
    all([marks.into()].into_iter().chain(more).chain([field(state, Entry::Closing(pass, 0))]))
}

/// The curve and the clock.
pub fn pictures(state: State) -> AnyView {
    let clock = picture(
        state,
        "Tube from the rear: the high side, and which way to move it",
        Follows::Pause,
        move |job| drawing::high_spot(job, state.pass.get()),
    );
    let curve = picture(
        state,
        "Readings round the clock, in the dial's lines: points read, thin line fitted, bold line the offset, faint lines earlier turns",
        Follows::Keystroke,
        move |job| drawing::runout_curve(job, state.pass.get()),
    );
    all([curve, clock])
}
