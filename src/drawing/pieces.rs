//! Pieces that several drawings share: yoke, joint, dimensions below a part, a bar that gives the scale.

use super::svg::{Anchor, Pen, Svg};
use crate::job::{End, Job};
use crate::quantity::{Base, millimetres};

/// Width of a drawing of a length.
pub(super) const WIDTH: f64 = 480.0;
/// What stays free at its edges.
pub(super) const MARGIN: f64 = 8.0;
/// From one dimension to the next.
const ROW: f64 = 36.0;

/// A dimension below a part.
pub(super) struct Dimension {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) word: &'static str,
    pub(super) figure: String,
    pub(super) pen: Pen,
}

/// How high so many dimensions stand.
pub(super) fn dimensions_height(count: usize) -> f64 {
    ROW * count as f64
}

/// Dimensions of a part, a row each under `top`. Their text begins at the edge, where there is room for
/// it; the lines from the part down to them are broken where they would cross it.
pub(super) fn dimensions(svg: &mut Svg, rows: &[Dimension], axis: f64, top: f64) {
    // A digit of the larger size on narrow screens, in a wide face.
    const CHARACTER: f64 = 13.0;
    let text = |row: &Dimension| [row.word, " ", &row.figure].concat();
    let at = |row: usize| top + ROW * (row as f64 + 1.0) - 8.0;
    for (i, row) in rows.iter().enumerate() {
        for x in [row.from, row.to] {
            let mut begins = axis;
            for (j, above) in rows.iter().enumerate().take(i + 1) {
                if x < MARGIN + CHARACTER * text(above).chars().count() as f64 {
                    let gap = at(j) - 28.0;
                    if gap > begins {
                        svg.line(Pen::Thin, (x, begins), (x, gap));
                    }
                    begins = at(j) - 5.0;
                }
            }
            svg.line(Pen::Thin, (x, begins), (x, at(i) + 5.0));
        }
        svg.span(row.pen, row.from, row.to, at(i));
        svg.text(row.pen, (MARGIN, at(i) - 9.0), Anchor::Start, &text(row));
    }
}

/// Which end of the vehicle lies left, the far datum's, and which right.
pub(super) fn end_names(svg: &mut Svg, job: &Job, y: f64, cut: bool) {
    let (left, right) = match job.cut.end {
        End::Rear => ("gearbox end", if cut { "axle end: cut here" } else { "axle end" }),
        End::Front => ("axle end", if cut { "gearbox end: cut here" } else { "gearbox end" }),
    };
    svg.text(Pen::Thin, (MARGIN, y), Anchor::Start, left);
    svg.text(Pen::Thin, (WIDTH - MARGIN, y), Anchor::End, right);
}

/// A bar of a known length at the left edge, by which to read a drawing of so many pixels a metre.
pub(super) fn scale_bar(svg: &mut Svg, job: &Job, scale: f64, y: f64) {
    let bars = if job.display.is_inch() {
        [(304.8, "12 in"), (101.6, "4 in"), (25.4, "1 in"), (6.35, "1/4 in")]
    } else {
        [(300.0, "300 mm"), (100.0, "100 mm"), (20.0, "20 mm"), (5.0, "5 mm")]
    };
    for (i, (length, text)) in bars.into_iter().enumerate() {
        let size = millimetres(length).base() * scale;
        // The longest that leaves room beside it.
        if size <= 125.0 || i + 1 == bars.len() {
            svg.line(Pen::Part, (MARGIN, y), (MARGIN + size, y));
            for x in [MARGIN, MARGIN + size] {
                svg.line(Pen::Part, (x, y - 7.0), (x, y + 7.0));
            }
            svg.text(Pen::Thin, (MARGIN + size + 8.0, y + 7.0), Anchor::Start, text);
            return;
        }
    }
}

/// A yoke from its weld line to its joint centre, on a tube of this half width.
pub(super) fn yoke(svg: &mut Svg, pen: Pen, (weld, joint): (f64, f64), axis: f64, half: f64) {
    let out = if joint > weld { 1.0 } else { -1.0 };
    let (shoulder, tip) = (weld + 0.2 * (joint - weld), joint + out * 10.0);
    svg.line(pen, (weld, axis - half), (weld, axis + half));
    for side in [-1.0, 1.0] {
        let (edge, narrow) = (axis + side * half, axis + side * (0.78 * half).max(12.0));
        svg.path(pen, &[(weld, edge), (shoulder, edge), (tip, narrow), (tip, axis + side * 9.0)], false);
    }
    svg.circle(pen, (joint, axis), 9.0, false);
    cross(svg, Pen::Thin, joint, axis);
}

/// The centre of a joint.
pub(super) fn cross(svg: &mut Svg, pen: Pen, x: f64, axis: f64) {
    svg.line(pen, (x - 14.0, axis), (x + 14.0, axis));
    svg.line(pen, (x, axis - 14.0), (x, axis + 14.0));
}

/// Where a tube of this half width is broken off.
pub(super) fn broken(svg: &mut Svg, x: f64, axis: f64, half: f64) {
    let ends = half + 6.0;
    let zigzag =
        [(x, axis - ends), (x + 5.0, axis - 0.3 * half), (x - 5.0, axis + 0.3 * half), (x, axis + ends)];
    svg.path(Pen::Thin, &zigzag, false);
}
