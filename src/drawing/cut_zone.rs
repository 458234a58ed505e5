//! The end that is cut, to scale: every place of the cut list with its number there.

use super::pieces::{MARGIN, WIDTH, broken, cross, end_names, length, scale_bar, yoke};
use super::svg::{Anchor, Pen, Svg};
use crate::job::{Entry, Job};
use crate::quantity::{Base, Length, inches};
use crate::stage::cut::{MarkName, cut_list};

/// Room left and right of the places, for the tube that goes on, the joint's ears, and numbers.
const SIDE: f64 = 46.0;
/// A number's circle, the least between two numbers, and the two rows in which they stand.
const NUMBER: f64 = 16.0;
const APART: f64 = 21.0;
const ROWS: (f64, f64) = (22.0, 60.0);
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
    // The far weld comes first of all, and lies far outside.
    let before = list.marks.iter().take_while(|mark| mark.name == MarkName::FarWeld).count();
    let shown = list.marks.get(before..)?;
    let (first, last) = (shown.first()?.from_far.base(), shown.last()?.from_far.base());
    let diameter = length(job, Entry::TubeDiameter);
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
    let [new_weld, old_weld] = [place(MarkName::NewWeld)?, place(MarkName::OldWeld)?];
    let (upper, lower) = (axis - half, axis + half);

    // The old end, where it was, and the new one.
    yoke(&mut svg, Pen::Ghost, (old_weld, place(MarkName::OldJoint)?), axis, half);
    yoke(&mut svg, Pen::Thin, (new_weld, place(MarkName::NewJoint)?), axis, half);
    let face = place(MarkName::TubeEnd);
    for y in [upper, lower] {
        svg.line(Pen::Part, (MARGIN + 5.0, y), (face.unwrap_or(new_weld), y));
    }
    broken(&mut svg, MARGIN + 5.0, axis, half);
    if let Some(face) = face {
        let saw = place(MarkName::SawLine).unwrap_or(face);
        let slot = place(MarkName::SlotEnd).unwrap_or(saw);
        let first = place(MarkName::FirstCut).unwrap_or(old_weld);
        svg.hatch(Pen::Thin, (saw, upper), (slot, lower), true);
        svg.hatch(Pen::Ghost, (slot, upper), (first, lower), false);
        svg.frame(Pen::Ghost, (face, upper), (old_weld, lower));
        if let Some(reach) = place(MarkName::SpigotReach) {
            svg.frame(Pen::Ghost, (reach, upper + 5.0), (new_weld, lower - 5.0));
        }
    }

    let mut circles: Vec<f64> = shown.iter().map(|mark| at(mark.from_far)).collect();
    fan_out(&mut circles);
    let (mut y, mut other) = ROWS;
    for (i, (mark, circle)) in shown.iter().zip(circles).enumerate() {
        let x = at(mark.from_far);
        let mut foot = upper;
        let pen = match mark.name {
            MarkName::NewJoint | MarkName::NewWeld | MarkName::TubeEnd => Pen::Accent,
            _ => Pen::Thin,
        };
        match mark.name {
            MarkName::NewJoint | MarkName::OldJoint => {
                foot = axis;
                cross(&mut svg, pen, x, axis);
            }
            MarkName::NewWeld | MarkName::OldWeld => {
                svg.circle(pen, (x, upper), 4.0, true);
                svg.circle(pen, (x, lower), 4.0, true);
            }
            MarkName::SpigotReach | MarkName::FarWeld => {}
            MarkName::FirstCut => svg.line(Pen::Ghost, (x, upper - 6.0), (x, lower + 6.0)),
            _ => svg.line(pen, (x, upper - 6.0), (x, lower + 6.0)),
        }
        let turn = ROWS.1 + NUMBER + 2.0;
        svg.path(Pen::Thin, &[(circle, y + NUMBER), (circle, turn), (x, REACHED), (x, foot)], false);
        svg.circle(pen, (circle, y), NUMBER, false);
        svg.text(pen, (circle, y + 7.0), Anchor::Middle, &(before + i + 1).to_string());
        (y, other) = (other, y);
    }
    scale_bar(&mut svg, job, scale, bottom + 28.0);
    if diameter.is_none() {
        let at = (WIDTH - MARGIN, bottom + 35.0);
        svg.text(Pen::Thin, at, Anchor::End, "height not to scale");
    }
    end_names(&mut svg, job, bottom + 72.0, false);
    Some(svg.finish())
}

/// Moves numbers apart that would lie on each other, evenly, in their order and within the frame.
fn fan_out(places: &mut [f64]) {
    // Each round leaves less than nine tenths of what a row of ten lacks.
    for _ in 0..120 {
        let mut before: Option<&mut f64> = None;
        for place in places.iter_mut() {
            *place = place.clamp(MARGIN + NUMBER, WIDTH - MARGIN - NUMBER);
            if let Some(before) = before {
                let lack = 0.5 * (*before + APART - *place).max(0.0);
                (*before, *place) = (*before - lack, *place + lack);
            }
            before = Some(place);
        }
    }
}
