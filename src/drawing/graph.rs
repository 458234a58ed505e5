//! A graph: a field with two scales, curves, and a key to them.

use super::pieces::MARGIN;
use super::svg::{Anchor, Pen, Svg};
use crate::quantity::show_number;

/// Room for the numbers of the upright scale.
pub(super) const LEFT: f64 = 80.0;
/// From one row of words to the next.
pub(super) const ROW: f64 = 27.0;
/// Length of a tick, and of the piece of a curve in a key.
const TICK: f64 = 6.0;
const SWATCH: f64 = 30.0;

/// Where a graph stands on its sheet, and what its edges are worth.
pub(super) struct Graph {
    pub(super) right: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
    /// At the right edge; nothing at the left one.
    pub(super) farthest: f64,
    pub(super) least: f64,
    pub(super) most: f64,
}

/// The smallest of 1, 2, 5, 10, 20, 50 … (and as far down) that goes into `most` no more often than
/// `times`, and the decimals it is written with.
pub(super) fn round_step(most: f64, times: f64) -> (f64, usize) {
    let least = most / times;
    let mut size = least.log10().floor() as i32;
    let mut step = 10.0_f64.powi(size);
    // A last bit must not make the step larger.
    let most_step = least * (1.0 - 1e-9);
    for times in [2.0, 2.5, 2.0] {
        if step < most_step {
            step *= times;
        }
    }
    if step >= 9.9 * 10.0_f64.powi(size) {
        size += 1;
    }
    (step, usize::try_from(-size).unwrap_or(0))
}

impl Graph {
    /// The place on the sheet of a point of the graph.
    pub(super) fn place(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (
            LEFT + (self.right - LEFT) * x / self.farthest,
            self.bottom - (self.bottom - self.top) * (y - self.least) / (self.most - self.least),
        )
    }

    /// A curve through points of the graph.
    pub(super) fn curve(&self, svg: &mut Svg, pen: Pen, points: &mut dyn Iterator<Item = (f64, f64)>) {
        let points: Vec<(f64, f64)> = points.map(|point| self.place(point)).collect();
        svg.path(pen, &points, false);
    }

    /// A line from edge to edge at this height.
    pub(super) fn level(&self, svg: &mut Svg, pen: Pen, y: f64) {
        svg.line(pen, self.place((0.0, y)), self.place((self.farthest, y)));
    }

    /// The upright scale with its numbers.
    pub(super) fn upright(&self, svg: &mut Svg, (step, decimals): (f64, usize)) {
        svg.line(Pen::Thin, (LEFT, self.top), (LEFT, self.bottom));
        let (from, to) = ((self.least / step).ceil() as i32, (self.most / step).floor() as i32);
        for value in (from..=to).map(|i| f64::from(i) * step) {
            let (x, y) = self.place((0.0, value));
            svg.line(Pen::Thin, (x - TICK, y), (x, y));
            svg.text(Pen::Thin, (x - TICK - 5.0, y + 7.0), Anchor::End, &show_number(value, decimals));
        }
    }

    /// The scale along the foot, `ends` after each number, which hangs so far below.
    pub(super) fn along(&self, svg: &mut Svg, step: f64, ends: &str, below: f64) {
        svg.line(Pen::Thin, (LEFT, self.bottom), (self.right, self.bottom));
        // A hair more, so that a last bit does not take the last tick away.
        for value in (0..=(self.farthest / step + 1e-6) as i32).map(|i| f64::from(i) * step) {
            let (x, y) = self.place((value, self.least));
            svg.line(Pen::Thin, (x, y), (x, y + TICK));
            let number = show_number(value, 0) + ends;
            svg.text(Pen::Thin, (x, y + below), Anchor::Middle, &number);
        }
    }
}

/// A line of the key: a piece of the curve and what it is.
pub(super) fn key(svg: &mut Svg, pen: Pen, (x, y): (f64, f64), words: &str) {
    svg.line(pen, (x, y - 7.0), (x + SWATCH, y - 7.0));
    svg.text(Pen::Thin, (x + SWATCH + MARGIN, y), Anchor::Start, words);
}
