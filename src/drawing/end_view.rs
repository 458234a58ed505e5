//! The tube from the rear, out of true: the readings of a turn as radii on the clock.

use super::clock::{CENTRE, RIM, ROW, face, place, words};
use super::dial::{LEAST_SCALE, STEPS, down_to_half_a_figure, in_lines, reach, round};
use super::pieces::length;
use super::svg::{LIFT, Pen};
use crate::job::{Entry, Job, MarkNames};
use crate::quantity::{Base, inches, show_angle, show_clock, show_number};
use crate::stage::truing::{Earlier, Turn, may_say_where, tap_at};

/// Radius of a true tube, and how far inward and outward the farthest reading may lie from it.
const TRUE: f64 = 62.0;
const REACH: f64 = 22.0;
/// Radius of a reading.
const DOT: f64 = 4.0;

/// A turn on the clock: the readings as radii, hollow where they were set aside, the outline fitted to
/// them, the circle that is the offset alone with the ellipse that its centre lies in, and, where it can
/// be told, the high side and, before welding, where to tap and which way: there what `before` teaches has
/// its say. `None` where it is no number.
pub fn end_view(job: &Job, turn: &Turn, before: &Earlier) -> Option<String> {
    let run_out = &turn.run_out;
    let heights: Vec<f64> = turn.stations.iter().map(|s| (s.reading - run_out.mean).base()).collect();
    let fitted: Vec<f64> = (0..STEPS).map(|step| run_out.fitted(round(step)).base()).collect();
    let size = run_out.offset.size().base();
    let mut most = size;
    for height in heights.iter().chain(&fitted) {
        reach(&mut most, height.abs());
    }
    // A flat turn shows as flat.
    let one = inches(1.0);
    reach(&mut most, LEAST_SCALE * one.base() / in_lines(job, one));
    if !most.is_finite() {
        return None;
    }
    let (scale, times) = magnified(job, REACH / most);
    let offset = (run_out.offset.right.base() * scale, -run_out.offset.up.base() * scale);
    let middle = (CENTRE.0 + offset.0, CENTRE.1 + offset.1);

    let mut rows = vec![high_side(job, turn), times];
    let ellipse = run_out.ellipse;
    let (long, short) = (ellipse.long.base() * scale, ellipse.short.base() * scale);
    let fits = size * scale + long <= TRUE - REACH;
    if !fits {
        rows.push("its ± is off the drawing".to_owned());
    }
    let mut svg = face(ROW * (rows.len() - 1) as f64);
    svg.circle(Pen::Ghost, CENTRE, TRUE, false);
    svg.shape(Pen::Thin, CENTRE, (5.0, 5.0), &CROSS);
    if fits {
        let (sin, cos) = ellipse.at.base().sin_cos();
        let point = |step: usize| {
            let (s, c) = round(step).base().sin_cos();
            let (up, right) = (long * c * cos - short * s * sin, long * c * sin + short * s * cos);
            (middle.0 + right, middle.1 - up)
        };
        svg.path(Pen::Accent, &(0..=STEPS).step_by(2).map(point).collect::<Vec<_>>(), false);
    }
    let outline = fitted.iter().enumerate().map(|(i, height)| place(TRUE + scale * height, round(i)));
    let mut outline: Vec<(f64, f64)> = outline.collect();
    outline.extend(outline.first().copied());
    svg.circle(Pen::Accent, middle, TRUE, false);
    svg.path(Pen::Thin, &outline, false);
    let mut kept = Vec::new();
    for (i, (station, height)) in turn.stations.iter().zip(&heights).enumerate() {
        let at = place(TRUE + scale * height, station.at);
        if run_out.aside.contains(&i) {
            svg.circle(Pen::Thin, at, DOT, false);
        } else {
            kept.push(at);
        }
    }
    svg.dots(DOT, &kept);
    if run_out.offset_is_seen() && may_say_where(turn) {
        let at = run_out.offset.at();
        svg.circle(Pen::Accent, place(RIM, at), 9.0, true);
        // Inward from where to tap, which is beside the high side where the taps went aside; short of the
        // ellipse.
        if let Some(at) = tap_at(before, turn) {
            svg.arrow(Pen::Accent, place(RIM - 10.0, at), place(TRUE - REACH + 4.0, at));
        }
    }
    words(&mut svg, &rows);
    Some(svg.finish())
}

const CROSS: [(i8, i8); 5] = [(-1, 0), (1, 0), LIFT, (0, -1), (0, 1)];

/// Pixels a metre for what is out of true, no more than `most` of them, and how much larger than the
/// tube that is drawn in words: by a number that can be said where the tube's diameter is known.
fn magnified(job: &Job, most: f64) -> (f64, String) {
    let tube = length(job, Entry::TubeDiameter).map(|diameter| 2.0 * TRUE / diameter.base());
    let known = tube.filter(|tube| most / tube >= 2.0 && tube.is_finite());
    let Some(tube) = known else {
        return (most, "drawn much larger".to_owned());
    };
    let times = down_to_half_a_figure(most / tube);
    (times * tube, format!("drawn {} times larger", show_number(times, 0)))
}

/// Where the high side is, in the marks' own names.
fn high_side(job: &Job, turn: &Turn) -> String {
    if !may_say_where(turn) {
        "high side: not yet known".to_owned()
    } else if !turn.run_out.offset_is_seen() {
        "no high side to be seen".to_owned()
    } else {
        let at = turn.run_out.offset.at();
        let name = match job.truing.marks {
            MarkNames::Degrees => show_angle(at, 0),
            _ => show_clock(at),
        };
        format!("high at {name}")
    }
}
