//! Pieces that several drawings share: yoke, joint, dimensions below a part, a bar that gives the scale.

use super::svg::{Anchor, LIFT, Pen, Svg};
use crate::job::{End, Entry, Job};
use crate::quantity::{Base, Length, millimetres, show_length};
use crate::stage::{Amount, read};

/// Width of a drawing of a length.
pub(super) const WIDTH: f64 = 480.0;
/// What stays free at its edges.
pub(super) const MARGIN: f64 = 8.0;
/// From one dimension to the next.
const ROW: f64 = 36.0;

/// A length as it was typed, where it can be read.
pub(super) fn length(job: &Job, entry: Entry) -> Option<Length> {
    match read(job, entry) {
        Ok(Some(Amount::PlainLength(length))) => Some(length),
        _ => None,
    }
}

/// A dimension below a part.
pub(super) struct Dimension {
    from: f64,
    to: f64,
    pen: Pen,
    text: String,
}

impl Dimension {
    /// From one place of the drawing to another, with its word and, where it is known, its figure.
    pub(super) fn new(
        job: &Job,
        (from, to): (f64, f64),
        pen: Pen,
        word: &str,
        figure: Option<Length>,
    ) -> Dimension {
        let mut text = word.to_owned();
        if let Some(figure) = figure {
            text.push(' ');
            text.push_str(&show_length(figure, job.display.lengths()));
        }
        Dimension { from, to, pen, text }
    }
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
    // Nearer than that, two heads would lie on each other.
    const LEAST: f64 = 28.0;
    let mut y = top;
    for (i, row) in rows.iter().enumerate() {
        let line = y + ROW - 8.0;
        for x in [row.from, row.to] {
            let (mut begins, mut above) = (axis, top);
            for crossed in rows.iter().take(i + 1) {
                if x < MARGIN + CHARACTER * crossed.text.chars().count() as f64 {
                    svg.line(Pen::Thin, (x, begins), (x, above.max(begins)));
                    begins = above + 23.0;
                }
                above += ROW;
            }
            svg.line(Pen::Thin, (x, begins), (x, line + 5.0));
            let middle = (0.5 * (row.from + row.to), line);
            if (row.from - row.to).abs() < LEAST {
                svg.line(row.pen, middle, (x, line));
            } else {
                svg.arrow(row.pen, middle, (x, line));
            }
        }
        svg.text(row.pen, (MARGIN, line - 9.0), Anchor::Start, &row.text);
        y += ROW;
    }
}

/// Which end of the vehicle lies left, the far datum's, and which right.
pub(super) fn end_names(svg: &mut Svg, job: &Job, y: f64, cut: bool) {
    let (left, right) = match (job.cut.end, cut) {
        (End::Rear, true) => ("gearbox end", "axle end: cut here"),
        (End::Rear, false) => ("gearbox end", "axle end"),
        (End::Front, true) => ("axle end", "gearbox end: cut here"),
        (End::Front, false) => ("axle end", "gearbox end"),
    };
    svg.text(Pen::Thin, (MARGIN, y), Anchor::Start, left);
    svg.text(Pen::Thin, (WIDTH - MARGIN, y), Anchor::End, right);
}

/// Bars of so many millimetres, the last of them for whatever is larger.
type Bars = [(f64, &'static str); 4];
static INCHES: Bars = [(304.8, "12 in"), (101.6, "4 in"), (25.4, "1 in"), (6.35, "1/4 in")];
static MILLIMETRES: Bars = [(300.0, "300 mm"), (100.0, "100 mm"), (20.0, "20 mm"), (5.0, "5 mm")];

/// A bar of a known length at the left edge, by which to read a drawing of so many pixels a metre: the
/// longest that leaves room beside it.
pub(super) fn scale_bar(svg: &mut Svg, job: &Job, scale: f64, y: f64) {
    let bars = if job.display.is_inch() { &INCHES } else { &MILLIMETRES };
    let (mut size, mut said) = (0.0, "");
    for (length, text) in bars.iter().rev() {
        let longer = millimetres(*length).base() * scale;
        if longer <= 125.0 || said.is_empty() {
            (size, said) = (longer, text);
        }
    }
    svg.frame(Pen::Part, (MARGIN, y - 4.0), (MARGIN + size, y + 4.0));
    svg.text(Pen::Thin, (MARGIN + size + 8.0, y + 7.0), Anchor::Start, said);
}

/// A yoke from its weld line to its joint centre, on a tube of this half width.
pub(super) fn yoke(svg: &mut Svg, pen: Pen, (weld, joint): (f64, f64), axis: f64, half: f64) {
    let tip = joint + 10.0_f64.copysign(joint - weld);
    // In hundredths of its length, and of half its width.
    let outline = [(0, 100), (20, 100), (100, 78), (100, -78), (20, -100), (0, -100), (0, 100)];
    svg.shape(pen, (weld, axis), (0.01 * (tip - weld), 0.01 * half), &outline);
    svg.circle(pen, (joint, axis), 9.0, false);
    cross(svg, Pen::Thin, joint, axis);
}

/// The centre of a joint.
pub(super) fn cross(svg: &mut Svg, pen: Pen, x: f64, axis: f64) {
    svg.shape(pen, (x, axis), (1.0, 1.0), &[(-14, 0), (14, 0), LIFT, (0, -14), (0, 14)]);
}

/// Where a tube of this half width is broken off.
pub(super) fn broken(svg: &mut Svg, x: f64, axis: f64, half: f64) {
    let zigzag = [(0, -100), (5, -25), (-5, 25), (0, 100)];
    svg.shape(Pen::Thin, (x, axis), (1.0, 0.01 * half + 0.06), &zigzag);
}
