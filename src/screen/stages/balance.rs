//! Balance on the car.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{BalanceBy, Entry, Job, MOST_RUNS, Ready, Run};
use crate::screen::parts::{
    Follows, all, choice, el, field, field_row, fields, fold, key, line, part, picture, slot,
};
use crate::screen::state::State;
use crate::sheet::{
    balance_limits, balance_not_for, balance_same_runs, clip_table, made_for_others, trial_place,
};
use crate::stage::balance::{check_is_next, spin_counts, trials_asked};

/// The runs of the usual job: more may be taken away again, fewer not.
const USUAL_RUNS: usize = 4;

/// Says that what must be so is so, or that it is to be read again.
pub fn say_ready(state: State, ready: bool) {
    let ready = if ready { Ready::Ready } else { Ready::NotYet };
    state.change(|job| job.balance.ready = ready);
}

/// The questions: how it is read, the clips, then run by run.
pub fn questions(state: State) -> AnyView {
    let by = state.follows(|job| job.balance.by);
    let again = key("plain", "Read again what must be so", move || say_ready(state, false));
    all([
        again.into(),
        choice(state, "What is read at each run", |job| job.balance.by, |job, to| job.balance.by = to),
        line("small", move || Some(balance_limits(by.get()).to_owned())),
        el("p").class("small").text(balance_not_for()).into(),
        slot(move || {
            (by.get() != BalanceBy::TwoPlanes).then(|| {
                choice(
                    state,
                    "Weights go on at the end",
                    |job| job.balance.end,
                    |job, to| job.balance.end = to,
                )
            })
        }),
        other_runs(state),
        field(state, Entry::RunSpeed),
        clips(state),
        slot(move || (by.get() != BalanceBy::Amplitudes).then(|| phase(state, by))),
        runs(state, by),
        kept(state),
    ])
}

/// Runs that were made for other ends: said, with a key that empties them.
fn other_runs(state: State) -> AnyView {
    let words = state.follows(made_for_others);
    slot(move || {
        let words = words.get()?;
        let empty = move || state.change(|job| job.balance.empty_runs());
        let key = key("plain", "Empty these runs", empty);
        Some(el("div").class("asked").child(el("p").text(&words)).child(key).into())
    })
}

/// What the weight that is kept is made of, and what it keeps clear of.
fn kept(state: State) -> AnyView {
    const ASKED: [Entry; 6] = [
        Entry::StripThickness,
        Entry::StripWidth,
        Entry::FrontPlane,
        Entry::RearPlane,
        Entry::SeamClock,
        Entry::EarClock,
    ];
    let shut = Memo::new(|_| false);
    fold("For keeps: the strip, and what to keep clear of", shut, move || fields(state, &ASKED))
}

/// The clips, and what two of them make.
fn clips(state: State) -> AnyView {
    let shut = Memo::new(|_| false);
    let table = Memo::new(move |_| state.at_rest(clip_table));
    let rows = move || {
        let row = |(half, made): (String, String)| {
            el("li").child(el("span").text(&half)).child(el("code").text(&made)).into()
        };
        let rows: Vec<AnyView> = table.get().into_iter().map(row).collect();
        (!rows.is_empty()).then(|| el("ul").class("clip-table").children(rows).into())
    };
    let inside = move || {
        let words =
            "Two clips side by side, each screw head turned away from the wanted place by so much:";
        all([el("p").class("small").text(words).into(), slot(rows)])
    };
    part(
        "Clips",
        all([
            fields(state, &[Entry::ClipRadius, Entry::ClipMass]),
            fold("What two heads make together", shut, inside),
        ]),
    )
}

/// What tells the phase.
fn phase(state: State, by: Memo<BalanceBy>) -> AnyView {
    let left = move || {
        (by.get() == BalanceBy::Phase).then(|| {
            choice(
                state,
                "The trial weight, once it is read",
                |job| job.balance.left,
                |job, to| job.balance.left = to,
            )
        })
    };
    let asks_spin = state.follows(spin_counts);
    let turns = move || {
        asks_spin.get().then(|| {
            choice(
                state,
                "The shaft turns, seen from the rear",
                |job| job.balance.spin,
                |job, to| job.balance.spin = to,
            )
        })
    };
    all([
        choice(
            state,
            "How the phase is read",
            |job| job.balance.pick_up,
            |job, to| job.balance.pick_up = to,
        ),
        slot(turns),
        slot(left),
    ])
}

/// What is read at a run, the first or one with a trial: each end that is read, with its phase where that is.
fn read_at(by: BalanceBy, ends: &[usize], run: usize) -> Vec<Entry> {
    let mut asked = Vec::new();
    for end in ends {
        asked.push(Entry::RunAmplitude(run, *end));
        if by != BalanceBy::Amplitudes {
            asked.push(Entry::RunPhase(run, *end));
        }
    }
    asked
}

/// The first run, each trial, and the check run.
fn runs(state: State, by: Memo<BalanceBy>) -> AnyView {
    let there = |job: &Job| trials_asked(job).min(job.balance.runs.len().saturating_sub(1));
    let (count, needed) = (state.follows(there), state.follows(trials_asked));
    let ends = state.follows(|job| job.balance.ends());
    let first = move || {
        let words = el("p").class("small").text(balance_same_runs()).into();
        let read = fields(state, &read_at(by.get(), ends.get(), 0));
        Some(part("First run, nothing on", all([words, field(state, Entry::RunScatter), read])))
    };
    let trials = move || {
        let (by, ends) = (by.get(), ends.get());
        let one = |run: usize| {
            let place = state.job.with_untracked(|job| trial_place(job, run));
            let words = place.map(|words| el("p").class("small").text(words).into());
            let mut asked = vec![Entry::TrialMass(run), Entry::TrialClock(run)];
            asked.extend(read_at(by, ends, run));
            let row = field_row(state, "A run with a trial weight on", asked);
            el("section").class("asked").children(words).child(row).into()
        };
        Some(all((1..=count.get()).map(one)))
    };
    let is_free = move || by.get() == BalanceBy::Amplitudes;
    let more = move || {
        let add = move || state.change(|job| job.balance.runs.push(Run::default()));
        // A file may hold fewer runs than its method asks for.
        let short = count.get() < needed.get();
        let room = short || (is_free() && count.get() + 1 < MOST_RUNS);
        room.then(|| key("plain more-runs", "One more trial", add).into())
    };
    let fewer = move || {
        let less = move || state.change(|job| job.balance.runs.truncate(job.balance.runs.len() - 1));
        let some = is_free() && count.get() + 1 > USUAL_RUNS;
        some.then(|| key("plain", "Take the last trial away", less).into())
    };
    // It stays open once it was: what is typed there must not shut it.
    let counts = move || {
        state.job.with(|job| job.balance.check.iter().any(|end| !end.is_blank()))
            || state.at_rest(check_is_next)
    };
    let read_after = Memo::new(move |_| counts());
    let check = move || {
        let ends = ends.get();
        let asked = move || all(ends.iter().map(|end| field(state, Entry::CheckAmplitude(*end))));
        Some(fold("Check run, with the correction on", read_after, asked))
    };
    all([slot(first), slot(trials), slot(more), slot(fewer), slot(check)])
}

/// Where everything sits, and the runs as vectors.
pub fn pictures(state: State) -> AnyView {
    let shut = Memo::new(|_| false);
    all([
        picture(
            state,
            "Shaft from the rear: hollow dots the trials, filled dots the screw heads, arrow the correction; arc, where it matters, the direction of rotation",
            Follows::Pause,
            |job| drawing::clips_on_the_clock(job, 0),
        ),
        picture(state, "The same at the axle end", Follows::Pause, |job| {
            drawing::clips_on_the_clock(job, 1)
        }),
        // How it was found is for who wants to see it: what to put on at the other end must not stand below it.
        fold("How the runs add up, drawn", shut, move || vectors(state)),
    ])
}

fn vectors(state: State) -> AnyView {
    all([
        picture(
            state,
            "Weights as vectors: arrow the correction, none where it is not known, ring where the true one lies at 95 %; dots the trials; thin circles, one a trial: they cross at the answer",
            Follows::Pause,
            |job| drawing::weight_plane(job, 0),
        ),
        picture(state, "Weights as vectors, axle end", Follows::Pause, |job| {
            drawing::weight_plane(job, 1)
        }),
        picture(
            state,
            "Readings as vectors on the shaft: O the first run, the others with a trial, dashed what a trial did",
            Follows::Pause,
            |job| drawing::run_vectors(job, 0),
        ),
        picture(state, "Readings as vectors, axle end", Follows::Pause, |job| {
            drawing::run_vectors(job, 1)
        }),
    ])
}
