//! What the page has to do when one reading of the dial was typed anew, many times over, for
//! `tests/line_time.mjs` to time: in a job of 36 marks, 12 places and 20 passes the last turn is read and
//! fitted, the instruction is found, and its curve and the tube from the rear are drawn to text. The passes before it are drawn once,
//! as on the page, where they follow when the hand pauses.

use std::hint::black_box;

use shaftwright::drawing::{end_view, older_turns, runout_curve};
use shaftwright::job::{Entry, Job, MOST_PASSES, MOST_PLACES, MOST_STATIONS, PassKind, Stations};
use shaftwright::stage::truing::{earlier, first, turn};

/// Keystrokes a batch, as in `line_time.mjs`.
const KEYSTROKES: usize = 20;

/// A job as large as one can be, with a seam and an oval tube in each turn.
fn largest() -> Job {
    let mut job = Job::default();
    job.put(Entry::TubeDiameter, "3");
    job.truing.passes.clear();
    for _ in 1..MOST_PLACES {
        job.truing.add_place();
    }
    for pass in 0..MOST_PASSES {
        let _ = job.truing.begin(PassKind::Tacked, Stations::ThirtySix);
        for place in 0..MOST_PLACES {
            for mark in 0..MOST_STATIONS {
                let at = (10.0 * mark as f64).to_radians();
                let seam = if mark == 7 { 6.0 } else { 0.0 };
                let size = 20.0 - 0.8 * pass as f64 + 0.1 * place as f64;
                let height = size * at.cos() + 3.0 * (2.0 * at).sin() + seam;
                job.put(Entry::StationReading(pass, place, mark), &format!("{height:.0}"));
            }
        }
    }
    job
}

fn main() {
    let mut job = largest();
    let (pass, place) = (MOST_PASSES - 1, MOST_PLACES - 1);
    let older = older_turns(&job, pass, place);
    let before = earlier(&job, pass, place);
    let mut length = 0;
    for keystroke in 0..KEYSTROKES {
        let reading = if keystroke % 2 == 0 { "5" } else { "-5" };
        job.put(Entry::StationReading(pass, place, 9), reading);
        let job = black_box(&job);
        let turn = turn(job, pass, place);
        black_box(first(job, &turn, &before));
        let turn = turn.as_ref().ok();
        let curve = turn.and_then(|turn| runout_curve(job, pass, turn, &older));
        let end = turn.and_then(|turn| end_view(job, turn, &before));
        length +=
            black_box(curve).map_or(0, |svg| svg.len()) + black_box(end).map_or(0, |svg| svg.len());
    }
    black_box(length);
}
