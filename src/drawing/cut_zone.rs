//! The end that is cut, to scale: every place of the cut list with its number there.

use super::pieces::{MARGIN, WIDTH, broken, cross, end_names, scale_bar, yoke};
use super::svg::{Anchor, Pen, Svg};
use crate::job::{Entry, Job};
use crate::quantity::{Base, Length, inches};
use crate::stage::cut::{Mark, MarkName, cut_list};
use crate::stage::{Amount, read};

/// Room left and right of the places, for the tube that goes on, the joint's ears, and numbers.
const SIDE: f64 = 46.0;
/// A number's circle, the least between two numbers, and the two rows in which they stand.
const NUMBER: f64 = 16.0;
const APART: f64 = 21.0;
const ROWS: [f64; 2] = [22.0, 60.0];
/// Where the lines from the numbers reach their places.
const REACHED: f64 = 98.0;
/// Most that the tube may be high.
const HIGHEST: f64 = 200.0;

/// The end that is cut, to one scale along and across. `None` while there are no places to cut by.
pub fn cut_zone(job: &Job) -> Option<String> {
    let list = cut_list(job).ok()?;
    if !list.saws() && !list.lengths.lengthens() {
        return None;
    }
    let shown: Vec<(usize, &Mark)> =
        list.marks.iter().enumerate().filter(|(_, mark)| mark.name != MarkName::FarWeld).collect();
    let (first, last) = (shown.first()?.1.from_far.base(), shown.last()?.1.from_far.base());
    let diameter = match read(job, Entry::TubeDiameter) {
        Ok(Some(Amount::PlainLength(diameter))) => Some(diameter),
        _ => None,
    };
    // Without it, a tube of a usual size.
    let across = diameter.unwrap_or(inches(3.0)).base();
    let room = WIDTH - 2.0 * SIDE;
    let scale = (room / (last - first)).min(HIGHEST / across);
    if !scale.is_finite() {
        return None;
    }
    let left = SIDE + 0.5 * (room - (last - first) * scale);
    let at = |place: Length| left + (place.base() - first) * scale;
    let place = |name: MarkName| list.place(name).map(at);
    let half = 0.5 * across * scale;
    let axis = REACHED + half.max(16.0) + 6.0;
    let bottom = axis + half.max(16.0);

    let mut svg = Svg::new(WIDTH, bottom + 84.0);
    let new_weld = place(MarkName::NewWeld)?;
    let (old_weld, old_joint) = (place(MarkName::OldWeld)?, place(MarkName::OldJoint)?);
    let new_joint = place(MarkName::NewJoint)?;
    let (upper, lower) = (axis - half, axis + half);

    // The old end, where it was, and the new one.
    yoke(&mut svg, Pen::Ghost, (old_weld, old_joint), axis, half);
    yoke(&mut svg, Pen::Thin, (new_weld, new_joint), axis, half);
    let tube_end = place(MarkName::TubeEnd).unwrap_or(new_weld);
    for y in [upper, lower] {
        svg.line(Pen::Part, (MARGIN + 5.0, y), (tube_end, y));
        svg.circle(Pen::Ghost, (old_weld, y), 5.0, true);
        svg.circle(Pen::Accent, (new_weld, y), 5.0, true);
    }
    broken(&mut svg, MARGIN + 5.0, axis, half);
    if let Some(face) = place(MarkName::TubeEnd) {
        let begins = place(MarkName::SlotEnd).unwrap_or(face);
        let ends = place(MarkName::FirstCut).unwrap_or(old_weld);
        svg.hatch(Pen::Ghost, (begins, upper), (ends, lower), false);
        svg.frame(Pen::Ghost, (face, upper), (old_weld, lower));
    }
    if let Some(reach) = place(MarkName::SpigotReach) {
        svg.frame(Pen::Ghost, (reach, upper + 5.0), (new_weld, lower - 5.0));
    }
    let saw = place(MarkName::SawLine);
    if let Some(end) = place(MarkName::SlotEnd) {
        svg.hatch(Pen::Thin, (saw.unwrap_or(tube_end), upper), (end, lower), true);
    }
    let lines = [
        (saw, Pen::Thin),
        (place(MarkName::SlotEnd), Pen::Thin),
        (place(MarkName::FirstCut), Pen::Ghost),
        (place(MarkName::TubeEnd), Pen::Accent),
    ];
    for (x, pen) in lines.into_iter().filter_map(|(x, pen)| Some((x?, pen))) {
        svg.line(pen, (x, upper - 6.0), (x, lower + 6.0));
    }
    cross(&mut svg, Pen::Accent, new_joint, axis);

    let mut circles: Vec<f64> = shown.iter().map(|(_, mark)| at(mark.from_far)).collect();
    fan_out(&mut circles);
    for ((i, (index, mark)), circle) in shown.iter().enumerate().zip(circles) {
        let y = if i % 2 == 0 { ROWS[0] } else { ROWS[1] };
        let x = at(mark.from_far);
        let foot = match mark.name {
            MarkName::NewJoint | MarkName::OldJoint => axis,
            _ => upper,
        };
        let turn = ROWS[1] + NUMBER + 2.0;
        svg.path(Pen::Thin, &[(circle, y + NUMBER), (circle, turn), (x, REACHED), (x, foot)], false);
        svg.circle(pen_of(mark.name), (circle, y), NUMBER, false);
        svg.text(pen_of(mark.name), (circle, y + 7.0), Anchor::Middle, &(index + 1).to_string());
    }
    scale_bar(&mut svg, job, scale, bottom + 28.0);
    if diameter.is_none() {
        let at = (WIDTH - MARGIN, bottom + 35.0);
        svg.text(Pen::Thin, at, Anchor::End, "height not to scale");
    }
    end_names(&mut svg, job, bottom + 72.0, false);
    Some(svg.finish())
}

/// What is new or to be done, against what was there.
fn pen_of(name: MarkName) -> Pen {
    match name {
        MarkName::TubeEnd | MarkName::NewWeld | MarkName::NewJoint => Pen::Accent,
        _ => Pen::Thin,
    }
}

/// Moves numbers apart that would lie on each other, as little as will do and in their order.
fn fan_out(places: &mut [f64]) {
    let edge = MARGIN + NUMBER;
    let (mut right, mut left) = (places.to_vec(), places.to_vec());
    push(right.iter_mut(), 1.0);
    push(left.iter_mut().rev(), -1.0);
    for ((place, one), other) in places.iter_mut().zip(right).zip(left) {
        *place = 0.5 * (one + other);
    }
    // Back into the frame, from either side.
    if let Some(first) = places.first_mut() {
        *first = first.max(edge);
    }
    push(places.iter_mut(), 1.0);
    if let Some(last) = places.last_mut() {
        *last = last.min(WIDTH - edge);
    }
    push(places.iter_mut().rev(), -1.0);
}

/// Each at least so far beyond the one before it.
fn push<'a>(places: impl Iterator<Item = &'a mut f64>, way: f64) {
    let mut known: Option<f64> = None;
    for place in places {
        if let Some(before) = known {
            *place = way * (way * *place).max(way * before + APART);
        }
        known = Some(*place);
    }
}
