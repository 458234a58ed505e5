//! The passes of the dial one after the other: a line that goes down.

use super::dial::{LEAST_SCALE, drawn_limit, in_lines, reach, shown, unit};
use super::graph::{Graph, LEFT, ROW, round_step};
use super::pieces::{MARGIN, WIDTH};
use super::svg::{Anchor, Pen, Svg};
use crate::job::{Choice, Job, PassKind};
use crate::quantity::show_number;
use crate::sheet::Worded;
use crate::stage::passes;

const TOP: f64 = 40.0;
const BOTTOM: f64 = 220.0;
/// The numbers of the passes; those of the upright scale's foot end above them.
const PASSES: f64 = BOTTOM + ROW + 6.0;
/// Room for the half of the last number that hangs over.
const RIGHT: f64 = WIDTH - 20.0;
/// Half the size of a mark.
const MARK: f64 = 6.0;
/// A number under the graph needs so much room: three digits of the larger size on narrow screens.
const NUMBER: f64 = 44.0;

/// The offset that each pass found, with its ±, against half the limit of the total reading; under each
/// its number and when it was begun, where that is known. `None` with fewer than two passes.
pub fn history(job: &Job, along: usize) -> Option<String> {
    let points = passes::history(job, along);
    let count = points.len();
    if count < 2 {
        return None;
    }
    let mut most = LEAST_SCALE;
    let mut heights = Vec::with_capacity(count);
    for point in &points {
        let size = in_lines(job, point.offset.size());
        let doubt = in_lines(job, point.doubt);
        reach(&mut most, size + doubt);
        heights.push((size, doubt));
    }
    if !most.is_finite() {
        return None;
    }
    let limit = drawn_limit(job, most);
    if let Some((half, true)) = limit {
        most = most.max(half);
    }
    let graph = Graph {
        right: RIGHT,
        top: TOP,
        bottom: BOTTOM,
        farthest: count as f64,
        least: 0.0,
        most: 1.08 * most,
    };
    let times = Times::of(points.last().and_then(|point| point.minutes));
    let rows = 2.0 + f64::from(u8::from(times.is_some()));
    let mut svg = Svg::new(WIDTH, PASSES + ROW * rows - 10.0);
    svg.text(Pen::Thin, (MARGIN, 22.0), Anchor::Start, &format!("offset, {}", unit(job)));
    graph.upright(&mut svg, round_step(graph.most, 4.0));
    graph.level(&mut svg, Pen::Thin, 0.0);
    if let Some((half, drawn)) = limit {
        if drawn {
            graph.level(&mut svg, Pen::Ghost, half);
        }
        let beyond = if drawn { "" } else { ", above" };
        let words = format!("limit {}{beyond}", shown(half));
        svg.text(Pen::Thin, (WIDTH - MARGIN, 22.0), Anchor::End, &words);
    }

    let middle = |index: usize| index as f64 + 0.5;
    let mut sizes = heights.iter().enumerate().map(|(index, (size, _))| (middle(index), *size));
    graph.curve(&mut svg, Pen::Thin, &mut sizes);
    svg.text(Pen::Thin, (MARGIN, PASSES), Anchor::Start, "pass");
    if let Some(times) = &times {
        svg.text(Pen::Thin, (MARGIN, PASSES + ROW), Anchor::Start, times.word);
    }
    // Where they would run into each other only every so many are written, the last one always.
    let every = (NUMBER * count as f64 / (RIGHT - LEFT)).ceil().max(1.0) as usize;
    for (index, (point, (size, doubt))) in points.iter().zip(&heights).enumerate() {
        let x = middle(index);
        // A size below nothing is none.
        let bar = [(x, (size - doubt).max(0.0)), (x, size + doubt)].map(|end| graph.place(end));
        svg.line(Pen::Thin, bar[0], bar[1]);
        let at = graph.place((x, *size));
        mark(&mut svg, point.kind, at);
        if (count - 1 - index).is_multiple_of(every) {
            let number = (point.pass + 1).to_string();
            svg.text(Pen::Thin, (at.0, PASSES), Anchor::Middle, &number);
            if let Some((times, minutes)) = times.as_ref().zip(point.minutes) {
                let number = times.shown(minutes);
                svg.text(Pen::Thin, (at.0, PASSES + ROW), Anchor::Middle, &number);
            }
        }
    }
    for (kind, x) in PassKind::ALL.iter().zip([MARGIN, 182.0, 328.0]) {
        let y = PASSES + ROW * rows - ROW;
        mark(&mut svg, *kind, (x + MARK, y - 7.0));
        svg.text(Pen::Thin, (x + 3.0 * MARK, y), Anchor::Start, kind.word());
    }
    Some(svg.finish())
}

/// A pass, by its shape and not by its colour: round as fitted, square when tacked, a full lozenge when
/// welded.
fn mark(svg: &mut Svg, kind: PassKind, at: (f64, f64)) {
    let corner = |x: f64, y: f64| (at.0 + MARK * x, at.1 + MARK * y);
    match kind {
        PassKind::AsFitted => svg.circle(Pen::Accent, at, MARK, false),
        PassKind::Tacked => svg.frame(Pen::Accent, corner(-1.0, -1.0), corner(1.0, 1.0)),
        PassKind::Welded => {
            let corners = [(0.0, -1.3), (1.3, 0.0), (0.0, 1.3), (-1.3, 0.0)];
            svg.path(Pen::Accent, &corners.map(|(x, y)| corner(x, y)), true);
        }
    }
}

/// What the times are counted in.
struct Times {
    word: &'static str,
    minutes: f64,
}

impl Times {
    /// In which three digits say when the last pass was begun; `None` where that is not known.
    fn of(last: Option<f64>) -> Option<Times> {
        const COUNTS: [(&str, f64); 3] = [("min", 1.0), ("h", 60.0), ("days", 1440.0)];
        let last = last.filter(|last| last.is_finite())?;
        let (word, minutes) = COUNTS.into_iter().find(|(_, minutes)| last / minutes < 999.0)?;
        Some(Times { word, minutes })
    }

    /// A time in that count; hours and days with a tenth where there are few.
    fn shown(&self, minutes: f64) -> String {
        let count = minutes / self.minutes;
        show_number(count, usize::from(self.minutes > 1.0 && count.abs() < 9.95))
    }
}
