//! True.

use leptos::prelude::*;

use crate::drawing;
use crate::job::{Choice, Entry, MOST_PASSES, MOST_STATIONS, Pass, PassKind, RunOutLimit, Stations};
use crate::screen::parts::{choice, field, field_row, picture, segments};
use crate::screen::state::State;
use crate::sheet::Worded;

/// The limit of the total reading, asked here and at the cut.
pub fn limit_questions(state: State) -> AnyView {
    let own = Memo::new(move |_| state.job.with(|job| job.truing.limit == RunOutLimit::Own));
    view! {
        {choice(state, "Limit of the total reading", |job| job.truing.limit, |job, to| job.truing.limit = to)}
        {move || own.get().then(|| field(state, Entry::OwnLimit))}
    }
    .into_any()
}

/// The questions: which turn, how many stations, the readings.
pub fn questions(state: State) -> AnyView {
    let passes = Memo::new(move |_| {
        state.job.with(|job| job.truing.passes.iter().map(|pass| pass.kind).collect::<Vec<_>>())
    });
    let turns = move || {
        let all = passes.get();
        let named =
            all.iter().enumerate().map(|(i, kind)| (i, format!("{} {}", i + 1, kind.word()))).collect();
        segments("Turn", named, move || state.pass.get(), move |pass| state.pass.set(pass))
    };
    view! {
        {turns}
        {new_turn(state, passes)}
        {choice(state, "Dial reads to", |job| job.truing.dial, |job, to| job.truing.dial = to)}
        {stations(state)}
        {limit_questions(state)}
    }
    .into_any()
}

fn new_turn(state: State, passes: Memo<Vec<PassKind>>) -> AnyView {
    let add = move |kind: PassKind| {
        let stations =
            state.job.with_untracked(|job| job.truing.passes.last().map(|pass| pass.stations));
        state.change(|job| job.truing.passes.push(Pass::new(kind, stations.unwrap_or_default())));
        state.pass.set(passes.with_untracked(Vec::len).saturating_sub(1));
    };
    let button = move |kind: &'static PassKind| {
        view! { <button type="button" class="plain" on:click=move |_| add(*kind)>{format!("+ {}", kind.word())}</button> }
    };
    view! {
        {move || (passes.with(Vec::len) < MOST_PASSES).then(|| view! {
            <div class="actions" role="group" aria-label="Take a new turn">
                <span class="small">"New turn:"</span>
                {PassKind::ALL.iter().map(button).collect_view()}
            </div>
        })}
    }
    .into_any()
}

/// Stations and readings of the turn that is shown.
fn stations(state: State) -> AnyView {
    let current = move || {
        let pass = state.pass.get();
        state.job.with(|job| {
            job.truing.passes.get(pass).map_or((Stations::Eight, 0), |p| (p.stations, p.count()))
        })
    };
    let shape = Memo::new(move |_| (state.pass.get(), current()));
    let set = move |stations: Stations| {
        let pass = state.pass.get_untracked();
        state.change(|job| {
            if let Some(pass) = job.truing.passes.get_mut(pass) {
                pass.set_stations(stations);
            }
        });
    };
    let choices = Stations::ALL.iter().map(|item| (*item, item.word().to_owned())).collect();
    let readings = move || {
        let (pass, (stations, count)) = shape.get();
        if stations == Stations::Free {
            free_readings(state, pass, count)
        } else {
            let entries = (0..count).map(|station| Entry::StationReading(pass, station)).collect();
            view! {
                <div class="dial">{field_row(state, "Dial readings, in is plus", entries)}</div>
                {field(state, Entry::Closing(pass))}
            }
            .into_any()
        }
    };
    view! {
        {segments("Marks round the tube", choices, move || current().0, set)}
        {readings}
    }
    .into_any()
}

fn free_readings(state: State, pass: usize, count: usize) -> AnyView {
    let pair = move |station: usize| {
        view! {
            <div class="pair">{field(state, Entry::StationAt(pass, station))}{field(state, Entry::StationReading(pass, station))}</div>
        }
    };
    view! {
        <div class="dial free">{(0..count).map(pair).collect_view()}</div>
        {(count < MOST_STATIONS).then(|| view! {
            <button type="button" class="plain" on:click=move |_| state.change(|job| {
                if let Some(pass) = job.truing.passes.get_mut(pass) {
                    pass.add_station();
                }
            })>"One more mark"</button>
        })}
        {field(state, Entry::Closing(pass))}
    }
    .into_any()
}

/// The curve and the clock.
pub fn pictures(state: State) -> AnyView {
    view! {
        {picture(state, "Readings round the clock in the dial's own lines: points read, thin line fitted, bold line the offset, faint lines earlier turns", move |job| drawing::runout_curve(job, state.pass.get()))}
        {picture(state, "Tube from the rear: the high side, and which way to move it", move |job| drawing::high_spot(job, state.pass.get()))}
    }
    .into_any()
}
