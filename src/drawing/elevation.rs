//! Side elevation: the shaft with its far datum at the left, the cut at the right.
//!
//! A shaft twenty times as long as the piece that comes off cannot be drawn to scale on a hand's
//! width, so it is broken in the middle, and the figures carry the sizes.

use super::pieces::{
    Dimension, MARGIN, WIDTH, broken, cross, dimensions, dimensions_height, end_names, yoke,
};
use super::svg::{Anchor, Pen, Svg};
use crate::job::{End, Entry, Job, Route, ShaftKind};
use crate::quantity::{Base, Length, show_length};
use crate::stage::cut::{MarkName, cut_list};
use crate::stage::measure::length_change;
use crate::stage::{Amount, read};

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

    fn draw(self, svg: &mut Svg, pen: Pen, joint: f64, out: f64) {
        let (face, end) = self.sizes();
        let at = |along: f64, up: f64| (joint + out * along, AXIS + up);
        if self == Beyond::Nothing {
            return;
        }
        svg.path(pen, &[at(9.0, -9.0), at(28.0, -15.0), at(28.0, 15.0), at(9.0, 9.0)], false);
        for side in [-1.0, 1.0] {
            if self == Beyond::Flange {
                svg.line(pen, at(face - 12.0, side * 21.0), at(end, side * 21.0));
                continue;
            }
            // Barrel, the seal's lip on it, the gearbox round it.
            svg.line(pen, at(28.0, side * 12.0), at(end - 6.0, side * 12.0));
            svg.line(pen, at(face + 4.0, side * 12.0), at(face + 9.0, side * 20.0));
            let housing = [at(face, side * 20.0), at(face, side * 36.0), at(end, side * 36.0)];
            svg.path(Pen::Thin, &housing, false);
        }
        match self {
            Beyond::Flange => svg.frame(pen, at(28.0, -30.0), at(face, 30.0)),
            _ => svg.line(pen, at(28.0, -20.0), at(28.0, 20.0)),
        }
    }
}

/// The shaft from the side, of the kind chosen. With the lengths: old and wanted; with a cut list: its
/// places; where it is measured from the ends: that. Never `None`: the kind is always known.
pub fn elevation(job: &Job) -> Option<String> {
    let lengths = length_change(job).ok();
    let list = cut_list(job).ok();
    let face = list.as_ref().and_then(|list| list.place(MarkName::TubeEnd));
    let kind = job.measure.kind;
    let (far_end, cut_end, toward_front) = match job.cut.end {
        End::Rear => (End::Front, End::Rear, -1.0),
        End::Front => (End::Rear, End::Front, 1.0),
    };
    let (far, near) = (Beyond::of(kind, far_end), Beyond::of(kind, cut_end));
    let far_joint = MARGIN + far.sizes().1;
    let joint = WIDTH - MARGIN - near.sizes().1;
    let weld = joint - YOKE;
    let longer = lengths.as_ref().is_some_and(|lengths| lengths.lengthens());
    // The shaft that is drawn is the longer of the two; the other's joint is a cross.
    let (new_joint, old_joint) = if longer { (joint, joint - PIECE) } else { (joint - PIECE, joint) };

    let display = job.display.lengths();
    let mut rows: Vec<Dimension> = Vec::new();
    let mut row = |to: f64, word: &'static str, length: Option<Length>, pen: Pen| {
        if let Some(length) = length {
            rows.push(Dimension {
                from: far_joint,
                to,
                word,
                figure: show_length(length, display),
                pen,
            });
        }
    };
    row(weld - PIECE, "face", face, Pen::Accent);
    row(
        weld,
        "weld",
        list.as_ref().filter(|_| face.is_some()).and_then(|list| list.weld_line),
        Pen::Thin,
    );
    let [old, new] = [
        (old_joint, "old", lengths.as_ref().map(|lengths| lengths.old.best), Pen::Thin),
        (new_joint, "new", lengths.as_ref().map(|lengths| lengths.wanted.best), Pen::Accent),
    ];
    for (to, word, length, pen) in if longer { [old, new] } else { [new, old] } {
        row(to, word, length, pen);
    }
    let end_joint = if lengths.is_some() { new_joint } else { joint };
    if job.measure.route != Route::Joints {
        let figure = ends(job).map(|length| show_length(length, display)).unwrap_or_default();
        let (from, to) = (far_joint - far.sizes().0, end_joint + near.sizes().0);
        rows.push(Dimension { from, to, word: "ends", figure, pen: Pen::Accent });
    }

    let top = AXIS + TUBE + 14.0;
    let mut svg = Svg::new(WIDTH, top + dimensions_height(rows.len()) + 8.0);
    end_names(&mut svg, job, 20.0, face.is_some());
    let pen = if face.is_some() { Pen::Ghost } else { Pen::Part };
    far.draw(&mut svg, Pen::Part, far_joint, -1.0);
    near.draw(&mut svg, pen, joint, 1.0);
    yoke(&mut svg, Pen::Part, (far_joint + FAR_YOKE, far_joint), AXIS, TUBE);
    yoke(&mut svg, pen, (weld, joint), AXIS, TUBE);
    let begins = far_joint + FAR_YOKE;
    let ends_at = if face.is_some() { weld - PIECE } else { weld };
    tube(&mut svg, begins, ends_at, (kind != ShaftKind::SlipInGearbox).then_some(toward_front));
    if let (Some(_), Some(list)) = (face, &list) {
        piece(&mut svg, weld, list.place(MarkName::FirstCut).is_some());
        let removed = crate::sheet::amount(Amount::Length(list.removed.best), display);
        svg.text(Pen::Accent, (weld - 0.5 * PIECE, AXIS - TUBE - 14.0), Anchor::Middle, &removed);
    }
    if lengths.is_some() {
        let (pen, x) = if longer { (Pen::Ghost, old_joint) } else { (Pen::Accent, new_joint) };
        cross(&mut svg, pen, x, AXIS);
        let face = near.sizes().0;
        if face > 0.0 && !longer && job.measure.route != Route::Joints {
            svg.line(Pen::Accent, (x + face, AXIS - 20.0), (x + face, AXIS + 20.0));
        }
    }
    dimensions(&mut svg, &rows, AXIS, top);
    Some(svg.finish())
}

/// What was read from seal face or flange to the axle: the mean of what can be read.
fn ends(job: &Job) -> Option<Length> {
    let (mut sum, mut count) = (0.0, 0.0);
    for i in 0..job.measure.ends.len() {
        if let Ok(Some(Amount::PlainLength(length))) = read(job, Entry::EndsReading(i)) {
            sum += length.base();
            count += 1.0;
        }
    }
    (count > 0.0).then(|| Length::from_base(sum / count))
}

/// The tube, broken in the middle, with the slip near the front where it lies in the shaft.
fn tube(svg: &mut Svg, begins: f64, ends: f64, slip_toward: Option<f64>) {
    const SLIP: f64 = 76.0;
    let (mut left, mut right) = (begins, ends);
    if let Some(way) = slip_toward {
        let at = if way < 0.0 { begins } else { ends };
        let along = |by: f64, up: f64| (at - way * by, AXIS + up);
        // A short piece of tube, the sleeve, and the splined stub that runs in it.
        for side in [-TUBE, TUBE] {
            svg.line(Pen::Part, along(0.0, side), along(10.0, side));
        }
        svg.frame(Pen::Part, along(10.0, -TUBE - 7.0), along(48.0, TUBE + 7.0));
        svg.frame(Pen::Part, along(48.0, -16.0), along(SLIP, 16.0));
        for up in [-8.0, 0.0, 8.0] {
            svg.line(Pen::Thin, along(48.0, up), along(SLIP, up));
        }
        if way < 0.0 {
            left += SLIP
        } else {
            right -= SLIP
        }
        svg.line(Pen::Part, along(SLIP, -TUBE), along(SLIP, TUBE));
    }
    let middle = 0.5 * (left + right);
    for y in [AXIS - TUBE, AXIS + TUBE] {
        svg.line(Pen::Part, (left, y), (middle - 8.0, y));
        svg.line(Pen::Part, (middle + 8.0, y), (right, y));
    }
    for x in [middle - 8.0, middle + 8.0] {
        broken(svg, x, AXIS, TUBE);
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
