//! Weights.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{Entry, Job, Joined, MOST_WEIGHTS, PutBack, Weighed, WeightRow, WeightsCame};
use crate::screen::parts::{
    Follows, all, choice, el, field, field_row, fields, fold, key, part, picture, slot,
};
use crate::screen::state::State;
use crate::sheet::taken_away;

/// The questions: each weight that came off, how it goes back, and what judges the rest.
pub fn questions(state: State) -> AnyView {
    let came = state.follows(|job| job.weights.came == WeightsCame::Off);
    all([
        choice(state, "Did weights come off?", |job| job.weights.came, |job, to| job.weights.came = to),
        slot(move || came.get().then(|| log(state))),
        slot(move || came.get().then(|| part("How they go back", going_back(state)))),
        part("What judges the rest", judged_by(state)),
    ])
}

/// What came off.
fn log(state: State) -> AnyView {
    let count = state.follows(|job| job.weights.rows.len());
    let by_size = state.follows(|job| job.weights.weighed == Weighed::Size);
    let taken: RwSignal<Option<Taken>> = RwSignal::new(None);
    // There until the log is changed: then the place it was at may be another's.
    let still = Memo::new(move |_| {
        let as_left = |one: &Taken| state.job.with(|job| job.weights.rows == one.left);
        taken.with(|taken| {
            taken.as_ref().filter(|one| as_left(one)).map(|one| (one.row, one.words.clone()))
        })
    });
    let gone = move |row: usize| {
        slot(move || {
            let (_, words) = still.get().filter(|(at, _)| *at == row)?;
            let back = move || put_back(state, taken);
            let key = key("plain", "Put it back", back);
            Some(el("div").class("weight").child(el("p").text(&words)).child(key).into())
        })
    };
    let rows = move || {
        let by_size = by_size.get();
        let count = count.get();
        let each = (0..count).flat_map(|row| [gone(row), one(state, taken, row, by_size, count > 1)]);
        Some(all(each.chain([gone(count)])))
    };
    let more = move || {
        let add = move || state.change(|job| job.weights.rows.push(WeightRow::default()));
        (count.get() < MOST_WEIGHTS).then(|| key("plain more-weights", "One more weight", add).into())
    };
    let material = move || {
        by_size.get().then(|| {
            all([
                choice(
                    state,
                    "The weights are of",
                    |job| job.weights.material,
                    |job, to| job.weights.material = to,
                ),
                field(state, Entry::TubeDiameter),
            ])
        })
    };
    all([
        choice(
            state,
            "How heavy they are is known",
            |job| job.weights.weighed,
            |job, to| job.weights.weighed = to,
        ),
        slot(material),
        slot(rows),
        slot(more),
    ])
}

/// A weight just taken out of the log, while this page is shown.
#[derive(Clone)]
struct Taken {
    row: usize,
    weight: WeightRow,
    /// What was left: once that changes, the weight is not put back any more.
    left: Vec<WeightRow>,
    words: String,
}

fn take_away(state: State, taken: RwSignal<Option<Taken>>, row: usize) {
    let weight = state.job.with_untracked(|job| job.weights.rows.get(row).cloned());
    let Some(weight) = weight else { return };
    let words = state.job.with_untracked(|job| taken_away(job, row));
    state.change(|job| job.weights.take_away(row));
    let left = state.job.with_untracked(|job| job.weights.rows.clone());
    taken.set(Some(Taken { row, weight, left, words }));
}

fn put_back(state: State, taken: RwSignal<Option<Taken>>) {
    if let Some(Taken { row, weight, .. }) = taken.get_untracked() {
        taken.set(None);
        state.change(|job| job.weights.log_again(row, weight));
    }
}

/// One weight.
fn one(
    state: State,
    taken: RwSignal<Option<Taken>>,
    row: usize,
    by_size: bool,
    several: bool,
) -> AnyView {
    let mut entries = if by_size {
        vec![
            Entry::WeightLength(row),
            Entry::WeightWidth(row),
            Entry::WeightThickness(row),
            Entry::WeightClock(row),
            Entry::WeightDistance(row),
            Entry::WeightRadius(row),
        ]
    } else {
        vec![
            Entry::WeightMass(row),
            Entry::WeightClock(row),
            Entry::WeightDistance(row),
            Entry::WeightRadius(row),
            Entry::WeightThickness(row),
        ]
    };
    entries.push(Entry::WeightNote(row));
    let less = move || take_away(state, taken, row);
    let less = several.then(|| key("plain", "Take this weight away", less).into());
    let row = field_row(state, "A weight that came off", entries);
    el("div").class("weight").child(row).children(less).into()
}

/// How they go back.
fn going_back(state: State) -> AnyView {
    let shares = state.follows(|job| job.weights.put_back == PutBack::BothShares);
    let joined = move || {
        (!shares.get()).then(|| {
            choice(
                state,
                "Several at one end",
                |job| job.weights.joined,
                |job: &mut Job, to: Joined| job.weights.joined = to,
            )
        })
    };
    let places = move || shares.get().then(|| planes(state));
    let strip = state.follows(|job| {
        [Entry::StripThickness, Entry::StripWidth].into_iter().any(|entry| is_typed(job, entry))
    });
    let clear = state.follows(|job| {
        [Entry::SeamClock, Entry::EarClock].into_iter().any(|entry| is_typed(job, entry))
    });
    all([
        choice(state, "Rule", |job| job.weights.put_back, |job, to| job.weights.put_back = to),
        slot(joined),
        slot(places),
        field(state, Entry::YokeTurned),
        fold("Keep clear of the tube's seam and the ears", clear, move || {
            fields(state, &[Entry::SeamClock, Entry::EarClock])
        }),
        fold("New weights cut from a strip", strip, move || {
            let size = fields(state, &[Entry::StripThickness, Entry::StripWidth]);
            let of = move || {
                let by_scale = state.job.with(|job| job.weights.weighed == Weighed::Scale);
                by_scale.then(|| {
                    choice(
                        state,
                        "The strip is of",
                        |job| job.weights.material,
                        |job, to| job.weights.material = to,
                    )
                })
            };
            all([size, slot(of)])
        }),
    ])
}

fn is_typed(job: &Job, entry: Entry) -> bool {
    job.typed(entry).is_some_and(|typed| !typed.is_blank())
}

fn planes(state: State) -> AnyView {
    fields(state, &[Entry::FrontPlane, Entry::RearPlane])
}

/// What the rest is judged by, and what the run-out adds is reckoned from.
fn judged_by(state: State) -> AnyView {
    let places = state.follows(|job| {
        let by_shares =
            job.weights.put_back == PutBack::BothShares && job.weights.came == WeightsCame::Off;
        !by_shares && [Entry::FrontPlane, Entry::RearPlane].into_iter().any(|entry| is_typed(job, entry))
    });
    let asked_above = state.follows(|job| {
        job.weights.put_back == PutBack::BothShares && job.weights.came == WeightsCame::Off
    });
    let cancelling = move || {
        (!asked_above.get())
            .then(|| fold("Where weights against the run-out would go", places, move || planes(state)))
    };
    all([fields(state, &[Entry::ShaftMass, Entry::TopSpeed]), slot(cancelling)])
}

/// The drawings.
pub fn pictures(state: State) -> AnyView {
    all([
        picture(state, "Weights on the new shaft, from the rear", Follows::Pause, drawing::weights),
        picture(
            state,
            "The tube unrolled, seen from outside, clock across",
            Follows::Pause,
            drawing::unrolled,
        ),
    ])
}
