//! Cut.

use leptos::prelude::*;

use super::strip::strip_section;
use super::truing::limit_questions;
use crate::drawing::{cut_zone, elevation};
use crate::job::{CutAt, Entry, FACE_PLACES, Job};
use crate::quantity::{Angle, Length, show_clock, show_length};
use crate::screen::parts::{
    Follows, all, choice, el, field, field_row, fields, fold, part, picture, slot,
};
use crate::screen::state::State;
use crate::sheet::{far_datum, mark_nearest, mark_note, mark_title, order_of_work};
use crate::stage::cut::{CutList, Mark, clock_arcs, cut_list};

/// The questions.
pub fn questions(state: State) -> AnyView {
    let clear = state.follows(|job| job.cut.at == CutAt::ClearOfIt);
    let first_cut = move || clear.get().then(|| field(state, Entry::ClearBy));
    let face = field_row(
        state,
        "Face, round the clock: read at three places or more",
        (0..FACE_PLACES).map(Entry::FaceReading).collect(),
    );
    all([
        choice(state, "Cut at the", |job| job.cut.end, |job, to| job.cut.end = to),
        el("p")
            .class("small")
            .text("Every place below counts from the other joint: after a change here, measure them again.")
            .into(),
        choice(state, "The yoke comes off", |job| job.cut.at, |job, to| job.cut.at = to),
        slot(first_cut),
        fields(state, &[Entry::WeldLine, Entry::FarWeldLine, Entry::Shoulder]),
        part(
            "Saw and weld",
            fields(state, &[Entry::Kerf, Entry::Trim, Entry::RootGap, Entry::Shrinkage]),
        ),
        part(
            "Tube and spigot",
            fields(state, &[Entry::TubeDiameter, Entry::Spigot, Entry::SpigotDiameter]),
        ),
        part(
            "Is the new face square?",
            all([
                limit_questions(state),
                choice(state, "Read by", |job| job.cut.square_by, |job, to| job.cut.square_by = to),
                el("div").class("dial").child(face).into(),
            ]),
        ),
    ])
}

/// The cut list and the drawings.
pub fn pictures(state: State) -> AnyView {
    all([
        list(state),
        picture(
            state,
            "The cut end to scale; numbers as in the list. Dashed: as it was; hatched: comes out",
            Follows::Pause,
            cut_zone,
        ),
        picture(state, "Side view, broken in the middle, not to scale", Follows::Pause, elevation),
    ])
}

/// What helps to scribe the tube: a strip to print, and arcs for those who have no printer.
pub fn marks_round_the_tube(state: State) -> AnyView {
    all([
        strip_section(state),
        fold("Arcs to scribe round the tube", Memo::new(|_| false), move || arcs(state)),
    ])
}

/// The arc of every mark from the witness line.
fn arcs(state: State) -> AnyView {
    let rows = move || {
        let (arcs, display) = state.at_rest(|job| (clock_arcs(job), job.display.lengths()));
        let row = |(at, arc): &(Angle, Length)| {
            let place = el("th").attr("scope", "row").text(&show_clock(*at));
            el("tr").child(place).child(el("td").text(&show_length(*arc, display))).into()
        };
        let rows: Vec<AnyView> = arcs.iter().map(row).collect();
        Some(el("tbody").children(rows).into())
    };
    el("table")
        .class("cut-list")
        .child(el("caption").text("From the witness line, clockwise seen from the rear"))
        .slot(rows)
        .into()
}

/// The cut list: every place from the far datum, in its order.
fn list(state: State) -> AnyView {
    slot(move || state.at_rest(|job| drawn_list(job, &cut_list(job).ok()?)))
}

fn drawn_list(job: &Job, list: &CutList) -> Option<AnyView> {
    if list.stop.is_some() {
        let words = "The cut list is withheld until the stop above is mended.";
        return Some(el("p").class("remark").text(words).into());
    }
    if list.marks.is_empty() {
        return None;
    }
    let (display, longer) = (job.display.lengths(), list.lengths.lengthens());
    let row = |(at, mark): (usize, &Mark)| {
        let nearest = mark_nearest(mark, display).map(|words| el("span").text(&words).into());
        let what = el("th")
            .attr("scope", "row")
            .text(&format!("{}. {}", at + 1, mark_title(mark.name)))
            .child(el("small").text(mark_note(job, mark.name, longer)));
        let place = el("td").text(&show_length(mark.from_far, display)).children(nearest);
        el("tr").child(what).child(place).into()
    };
    let rows: Vec<AnyView> = list.marks.iter().enumerate().map(row).collect();
    let caption = format!("Cut list, in the order of the tape, from {}", far_datum(job));
    let table = el("table")
        .class("cut-list")
        .child(el("caption").text(&caption))
        .child(el("tbody").children(rows));
    Some(all([table.into(), el("p").text(order_of_work(job, longer)).into()]))
}
