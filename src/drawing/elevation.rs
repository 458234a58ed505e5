//! Side elevation: the shaft with its far datum at the left, the cut at the right.
//!
//! A shaft twenty times as long as the piece that comes off cannot be drawn to scale on a hand's
//! width, so it is broken in the middle, and the figures carry the sizes.

use super::svg::{Anchor, Pen, Svg};
use crate::job::{End, Job};
use crate::quantity::{Base, Length, show_length};
use crate::stage::Amount;
use crate::stage::cut::{MarkName, cut_list};
use crate::stage::measure::length_change;

const WIDTH: f64 = 480.0;
const AXIS: f64 = 100.0;
const TUBE: f64 = 26.0;
const FAR_JOINT: f64 = 34.0;
const NEW_FACE: f64 = 292.0;
const OLD_WELD: f64 = 352.0;
const JOINT: f64 = 92.0;

/// The shaft from the side. With a cut list: its places; before that: old and wanted length alone.
/// `None` while the lengths are not known.
pub fn elevation(job: &Job) -> Option<String> {
    let lengths = length_change(job).ok()?;
    let display = job.display.lengths();
    let show = |length: Length| show_length(length, display);
    let list = cut_list(job).ok().filter(|list| list.weld_line.is_some());
    let cut = list.as_ref().filter(|list| !list.lengths.lengthens() && list.removed.best.base() > 0.0);

    // (dimension from the far joint, to, text, pen)
    let mut dimensions: Vec<(f64, f64, String, Pen)> = Vec::new();
    let (old_joint, new_joint) = (OLD_WELD + JOINT, NEW_FACE + JOINT);
    if let (Some(list), Some(cut)) = (&list, cut) {
        let face = cut.place(MarkName::TubeEnd).map(|face| format!("face {}", show(face)));
        dimensions.extend(face.map(|text| (FAR_JOINT, NEW_FACE, text, Pen::Accent)));
        let weld = list.weld_line.map(|weld| format!("weld {}", show(weld)));
        dimensions.extend(weld.map(|text| (FAR_JOINT, OLD_WELD, text, Pen::Thin)));
    }
    let longer = lengths.lengthens();
    let (near, far) = if longer { (old_joint, new_joint) } else { (new_joint, old_joint) };
    let (wanted_at, old_at) = if longer { (far.max(near), near.min(far)) } else { (near, far) };
    dimensions.push((FAR_JOINT, wanted_at, format!("new {}", show(lengths.wanted.best)), Pen::Accent));
    dimensions.push((FAR_JOINT, old_at, format!("old {}", show(lengths.old.best)), Pen::Thin));

    let first_row = AXIS + TUBE + 48.0;
    let row = 36.0;
    let height = first_row + row * (dimensions.len() as f64 - 1.0) + 16.0;
    let mut svg = Svg::new(WIDTH, height);
    let (far_name, cut_name) = match job.cut.end {
        End::Rear => ("gearbox end", "axle end: cut here"),
        End::Front => ("axle end", "gearbox end: cut here"),
    };
    svg.text(Pen::Thin, (8.0, 20.0), Anchor::Start, far_name);
    svg.text(Pen::Thin, (WIDTH - 8.0, 20.0), Anchor::End, cut_name);
    shaft(&mut svg, cut.is_some());
    if let Some(cut) = cut {
        let removed = crate::sheet::amount(Amount::Length(cut.removed.best), display);
        svg.text(
            Pen::Accent,
            (0.5 * (NEW_FACE + OLD_WELD), AXIS - TUBE - 12.0),
            Anchor::Middle,
            &removed,
        );
    }
    for (i, (from, to, text, pen)) in dimensions.iter().enumerate() {
        let y = first_row + row * i as f64;
        svg.line(Pen::Thin, (*to, AXIS), (*to, y + 5.0));
        svg.dimension(*pen, *from, *to, y, text);
    }
    let last = first_row + row * (dimensions.len() as f64 - 1.0);
    svg.line(Pen::Thin, (FAR_JOINT, AXIS), (FAR_JOINT, last + 5.0));
    Some(svg.finish())
}

/// Tube, break, yokes and the piece that comes out.
fn shaft(svg: &mut Svg, with_cut: bool) {
    let (top, bottom) = (AXIS - TUBE, AXIS + TUBE);
    let left_end = FAR_JOINT + JOINT * 0.6;
    let right_end = if with_cut { NEW_FACE } else { OLD_WELD };
    let break_at = 190.0;
    for y in [top, bottom] {
        svg.line(Pen::Part, (left_end, y), (break_at - 8.0, y));
        svg.line(Pen::Part, (break_at + 8.0, y), (right_end, y));
    }
    for x in [break_at - 8.0, break_at + 8.0] {
        let zigzag = [(x, top - 6.0), (x + 5.0, AXIS - 8.0), (x - 5.0, AXIS + 8.0), (x, bottom + 6.0)];
        svg.path(Pen::Thin, &zigzag, false);
    }
    yoke(svg, Pen::Part, left_end, FAR_JOINT);
    if with_cut {
        // The piece that comes out, hatched; the yoke drawn where it was.
        for y in [top, bottom] {
            svg.line(Pen::Ghost, (NEW_FACE, y), (OLD_WELD, y));
        }
        let mut x = NEW_FACE + 4.0;
        while x < OLD_WELD - 2.0 {
            let end = (x + 22.0).min(OLD_WELD);
            svg.line(Pen::Ghost, (x, bottom), (end, bottom - (end - x) * 2.0));
            x += 12.0;
        }
        svg.line(Pen::Accent, (NEW_FACE, top - 10.0), (NEW_FACE, bottom + 10.0));
        yoke(svg, Pen::Ghost, OLD_WELD, OLD_WELD + JOINT);
    } else {
        yoke(svg, Pen::Part, OLD_WELD, OLD_WELD + JOINT);
    }
}

/// A yoke from its weld line to its joint centre.
fn yoke(svg: &mut Svg, pen: Pen, weld: f64, joint: f64) {
    let out = if joint > weld { 1.0 } else { -1.0 };
    let (top, bottom) = (AXIS - TUBE, AXIS + TUBE);
    svg.line(pen, (weld, top), (weld, bottom));
    for y in [top, bottom] {
        let shoulder = (weld + out * 18.0, y);
        let toward_axis = AXIS + (y - AXIS) * 0.78;
        svg.path(pen, &[(weld, y), shoulder, (joint + out * 10.0, toward_axis)], false);
    }
    svg.line(pen, (joint + out * 10.0, AXIS - TUBE * 0.78), (joint + out * 10.0, AXIS - 9.0));
    svg.line(pen, (joint + out * 10.0, AXIS + TUBE * 0.78), (joint + out * 10.0, AXIS + 9.0));
    svg.circle(pen, (joint, AXIS), 9.0, false);
    svg.line(Pen::Thin, (joint - 14.0, AXIS), (joint + 14.0, AXIS));
    svg.line(Pen::Thin, (joint, AXIS - 14.0), (joint, AXIS + 14.0));
}
