//! Side elevation: the shaft with its far datum at the left, the cut at the right.
//!
//! A shaft twenty times as long as the piece that comes off cannot be drawn to scale on a hand's
//! width, so it is broken in the middle, and the figures carry the sizes.

use super::pieces::{
    Dimension, MARGIN, WIDTH, broken, cross, dimensions, dimensions_height, end_names, length, yoke,
};
use super::svg::{Anchor, LIFT, Pen, Svg};
use crate::job::{End, Entry, Job, Route, ShaftKind};
use crate::quantity::{Base, Length, show_length};
use crate::stage::cut::{MarkName, cut_list};
use crate::stage::measure::length_change;

const AXIS: f64 = 100.0;
const TUBE: f64 = 26.0;
/// Weld line to joint centre, at the far end and at the end that is cut.
const FAR_YOKE: f64 = 46.0;
const YOKE: f64 = 76.0;
/// The piece that comes out.
const PIECE: f64 = 56.0;

/// What stands beyond a joint.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Beyond {
    /// The slip yoke's barrel in the gearbox.
    Slip,
    /// A flange.
    Flange,
    /// Nothing of the shaft.
    Nothing,
}

impl Beyond {
    fn of(kind: ShaftKind, end: End) -> Beyond {
        match (kind, end) {
            (ShaftKind::SlipInGearbox, End::Front) => Beyond::Slip,
            (ShaftKind::SlipOnShaft, End::Front) | (ShaftKind::Flanged, _) => Beyond::Flange,
            _ => Beyond::Nothing,
        }
    }

    /// Joint centre to seal or flange face, or to the joint itself, and to where the drawing of it ends.
    const fn sizes(self) -> (f64, f64) {
        match self {
            Beyond::Slip => (50.0, 78.0),
            Beyond::Flange => (34.0, 42.0),
            Beyond::Nothing => (0.0, 18.0),
        }
    }

    /// Its strokes, outward from the joint's centre: the shaft's own, and the gearbox's.
    const fn strokes(self) -> (Strokes, Strokes) {
        match self {
            Beyond::Slip => (BARREL, GEARBOX),
            Beyond::Flange => (FLANGE, &[]),
            Beyond::Nothing => (&[], &[]),
        }
    }

    fn draw(self, svg: &mut Svg, pen: Pen, joint: f64, out: f64) {
        let (own, gearbox) = self.strokes();
        svg.shape(pen, (joint, AXIS), (out, 1.0), own);
        svg.shape(Pen::Thin, (joint, AXIS), (out, 1.0), gearbox);
    }
}

type Strokes = &'static [(i8, i8)];

/// The slip yoke's shoulder and barrel, and the lip of the seal on it.
#[rustfmt::skip]
static BARREL: Strokes = &[
    (9, -9), (28, -15), (28, 15), (9, 9), LIFT, (28, -20), (28, 20), LIFT, (28, -12), (72, -12), LIFT,
    (28, 12), (72, 12), LIFT, (54, -12), (59, -20), LIFT, (54, 12), (59, 20),
];
/// The gearbox's housing with its seal face.
static GEARBOX: Strokes = &[(50, -20), (50, -36), (78, -36), LIFT, (50, 20), (50, 36), (78, 36)];
/// A yoke with its disc and two bolts through that.
#[rustfmt::skip]
static FLANGE: Strokes = &[
    (9, -9), (28, -15), (28, 15), (9, 9), LIFT, (28, -30), (34, -30), (34, 30), (28, 30), (28, -30), LIFT,
    (22, -21), (42, -21), LIFT, (22, 21), (42, 21),
];
/// A slip in the shaft: a short piece of tube, the sleeve, the splined stub that runs in it, the tube again.
#[rustfmt::skip]
static SLIP: Strokes = &[
    (0, -26), (10, -26), LIFT, (0, 26), (10, 26), LIFT, (10, -33), (48, -33), (48, 33), (10, 33), (10, -33),
    LIFT, (48, -16), (76, -16), LIFT, (48, 16), (76, 16), LIFT, (76, -26), (76, 26),
];
static SPLINES: Strokes = &[(48, -8), (76, -8), LIFT, (48, 0), (76, 0), LIFT, (48, 8), (76, 8)];
const SLIP_LENGTH: f64 = 76.0;

/// The shaft from the side, of the kind chosen. With the lengths: old and wanted; with a cut list: its
/// places; where it is measured from the ends: that. Never `None`: the kind is always known.
pub fn elevation(job: &Job) -> Option<String> {
    let lengths = length_change(job).ok().map(|lengths| (lengths.old.best, lengths.wanted.best));
    let cut = cut_list(job).ok().and_then(|list| {
        let clear = list.place(MarkName::FirstCut).is_some();
        Some((list.place(MarkName::TubeEnd)?, list.weld_line?, list.removed.best, clear))
    });
    let kind = job.measure.kind;
    let (far_end, toward_front) = match job.cut.end {
        End::Rear => (End::Front, -1.0),
        End::Front => (End::Rear, 1.0),
    };
    let (far, near) = (Beyond::of(kind, far_end), Beyond::of(kind, job.cut.end));
    let ((far_face, far_size), (near_face, near_size)) = (far.sizes(), near.sizes());
    let (far_joint, joint) = (MARGIN + far_size, WIDTH - MARGIN - near_size);
    let (weld, shorter) = (joint - YOKE, joint - PIECE);
    // The shaft that is drawn is the longer of the two; the other's joint is a cross.
    let longer = lengths.is_some_and(|(old, wanted)| old.base() < wanted.base());
    let (new_joint, old_joint) = if longer { (joint, shorter) } else { (shorter, joint) };

    let mut rows: Vec<Dimension> = Vec::new();
    let mut row = |from: f64, to: f64, pen: Pen, word: &str, length: Option<Length>| {
        rows.push(Dimension::new(job, (from, to), pen, word, length));
    };
    if let Some((face, weld_line, ..)) = cut {
        row(far_joint, weld - PIECE, Pen::Accent, "face", Some(face));
        row(far_joint, weld, Pen::Thin, "weld", Some(weld_line));
    }
    let mut ends_joint = joint;
    if let Some((old, wanted)) = lengths {
        row(far_joint, new_joint, Pen::Accent, "new", Some(wanted));
        row(far_joint, old_joint, Pen::Thin, "old", Some(old));
        ends_joint = new_joint;
    }
    let from_the_ends = job.measure.route != Route::Joints;
    if from_the_ends {
        row(far_joint - far_face, ends_joint + near_face, Pen::Accent, "ends", ends(job));
    }

    let top = AXIS + TUBE + 14.0;
    let mut svg = Svg::new(WIDTH, top + dimensions_height(rows.len()) + 8.0);
    end_names(&mut svg, job, 20.0, cut.is_some());
    let begins = far_joint + FAR_YOKE;
    let (pen, ends) = if cut.is_some() { (Pen::Ghost, weld - PIECE) } else { (Pen::Part, weld) };
    far.draw(&mut svg, Pen::Part, far_joint, -1.0);
    near.draw(&mut svg, pen, joint, 1.0);
    yoke(&mut svg, Pen::Part, (begins, far_joint), AXIS, TUBE);
    yoke(&mut svg, pen, (weld, joint), AXIS, TUBE);
    tube(&mut svg, begins, ends, (kind != ShaftKind::SlipInGearbox).then_some(toward_front));
    if let Some((.., removed, clear)) = cut {
        piece(&mut svg, weld, clear);
        let removed = show_length(removed, job.display.lengths());
        svg.text(Pen::Accent, (weld - 0.5 * PIECE, AXIS - TUBE - 14.0), Anchor::Middle, &removed);
    }
    if lengths.is_some() {
        let pen = if longer { Pen::Ghost } else { Pen::Accent };
        cross(&mut svg, pen, shorter, AXIS);
        if near_face > 0.0 && from_the_ends {
            svg.line(pen, (shorter + near_face, AXIS - 20.0), (shorter + near_face, AXIS + 20.0));
        }
    }
    dimensions(&mut svg, &rows, AXIS, top);
    Some(svg.finish())
}

/// What was read from seal face or flange to the axle: the mean of what can be read.
fn ends(job: &Job) -> Option<Length> {
    let (mut sum, mut count) = (0.0, 0.0);
    for i in 0..job.measure.ends.len() {
        if let Some(length) = length(job, Entry::EndsReading(i)) {
            sum += length.base();
            count += 1.0;
        }
    }
    (count > 0.0).then(|| Length::from_base(sum / count))
}

/// The tube, broken in the middle, with the slip near the front where it lies in the shaft.
fn tube(svg: &mut Svg, begins: f64, ends: f64, slip_toward: Option<f64>) {
    let (mut left, mut right) = (begins, ends);
    if let Some(front) = slip_toward {
        let at = if front < 0.0 { begins } else { ends };
        svg.shape(Pen::Part, (at, AXIS), (-front, 1.0), SLIP);
        svg.shape(Pen::Thin, (at, AXIS), (-front, 1.0), SPLINES);
        if front < 0.0 { left += SLIP_LENGTH } else { right -= SLIP_LENGTH }
    }
    let middle = 0.5 * (left + right);
    for (from, to, at) in [(left, middle - 8.0, middle - 8.0), (middle + 8.0, right, middle + 8.0)] {
        for y in [AXIS - TUBE, AXIS + TUBE] {
            svg.line(Pen::Part, (from, y), (to, y));
        }
        broken(svg, at, AXIS, TUBE);
    }
}

/// The piece that comes out, with the new face and the first cut where that is clear of the old weld.
fn piece(svg: &mut Svg, weld: f64, clear: bool) {
    let (face, top, bottom) = (weld - PIECE, AXIS - TUBE, AXIS + TUBE);
    let first = if clear { weld - 16.0 } else { weld };
    svg.hatch(Pen::Ghost, (face, top), (first, bottom), true);
    svg.frame(Pen::Ghost, (face, top), (weld, bottom));
    svg.line(Pen::Accent, (face, top - 10.0), (face, bottom + 10.0));
    if clear {
        svg.line(Pen::Ghost, (first, top - 10.0), (first, bottom + 10.0));
    }
}
