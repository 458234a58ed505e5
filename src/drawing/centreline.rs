//! The centreline drawn magnified: the shaft from the side and from above, with what bends it.

use super::dial::{LEAST_SCALE, down_to_half_a_figure, in_lines, reach, unit};
use super::graph::{Graph, LEFT, ROW, round_step};
use super::pieces::{MARGIN, WIDTH, cross};
use super::svg::{Anchor, Pen, Svg};
use crate::job::Job;
use crate::quantity::{Base, Length, show_number};
use crate::stage::truing::{self, Bent};

/// Height of a strip, and where the first one begins.
const HIGH: f64 = 110.0;
const TOP: f64 = 66.0;
/// From one strip to the next, with the words between.
const NEXT: f64 = HIGH + 38.0;
/// Room beyond the joints.
const BEYOND: f64 = 18.0;
const RIGHT: f64 = WIDTH - MARGIN - BEYOND;

/// The shaft as a pass found it at several places. `None` with fewer than two, or while they cannot be
/// told.
pub fn centreline(job: &Job, pass: usize) -> Option<String> {
    let bent = truing::centreline(job, pass).ok()?;
    if bent.places.len() < 2 { None } else { line_of(job, &bent) }
}

/// A bent shaft in two strips, toward 12 and toward 3 upward: both joints, the weld, each place read with
/// its ±, and the shape that explains them. `None` where a length is no number or the shaft has none.
pub(super) fn line_of(job: &Job, bent: &Bent) -> Option<String> {
    let mut most = 0.0_f64;
    for (_, offset, doubt) in &bent.places {
        reach(&mut most, offset.up.base().abs() + doubt.base());
        reach(&mut most, offset.right.base().abs() + doubt.base());
    }
    for (_, offset) in &bent.shape {
        reach(&mut most, offset.up.base().abs());
        reach(&mut most, offset.right.base().abs());
    }
    let length = bent.length.base();
    let along = bent.places.iter().map(|place| place.0).chain(bent.shape.iter().map(|point| point.0));
    let inside = |z: Length| (0.0..=length).contains(&z.base());
    if !(most.is_finite() && length > 0.0 && inside(bent.weld) && along.into_iter().all(inside)) {
        return None;
    }
    // In the dial's count from here; a straight shaft shows as straight.
    let lines = |part: Length| in_lines(job, part);
    let most = lines(Length::from_base(most)).max(LEAST_SCALE);
    // The scale across is a round number of times the one along.
    let begins = LEFT + BEYOND;
    let pixels_along = (RIGHT - begins) / length;
    let metre = in_lines(job, Length::from_base(1.0));
    let times = down_to_half_a_figure(0.46 * HIGH / most * metre / pixels_along);
    let half = 0.5 * HIGH * metre / (pixels_along * times);
    let mut svg = Svg::new(WIDTH, TOP + NEXT + HIGH + 2.0 * ROW + 4.0);
    svg.text(Pen::Thin, (MARGIN, 22.0), Anchor::Start, unit(job));
    let larger = format!("across {} times larger", show_number(times, 0));
    svg.text(Pen::Thin, (WIDTH - MARGIN, 22.0), Anchor::End, &larger);
    for (strip, words) in
        ["from the side: up is toward 12", "from above: up is toward 3"].iter().enumerate()
    {
        let top = TOP + NEXT * strip as f64;
        let graph = Graph {
            right: WIDTH - MARGIN,
            top,
            bottom: top + HIGH,
            farthest: 1.0,
            least: -half,
            most: half,
        };
        let part = |up: Length, right: Length| lines(if strip == 0 { up } else { right });
        // The graph's own foot is not used: along the shaft the joints are the ends.
        let place = |z: Length, height: f64| {
            let (_, y) = graph.place((0.0, height));
            (begins + pixels_along * z.base(), y)
        };
        svg.text(Pen::Thin, (WIDTH - MARGIN, top - 8.0), Anchor::End, words);
        graph.upright(&mut svg, round_step(half, 2.0));
        let (zero, far) = (place(Length::from_base(0.0), 0.0), place(bent.length, 0.0));
        svg.line(Pen::Ghost, zero, far);
        for joint in [zero, far] {
            svg.circle(Pen::Part, joint, 9.0, false);
            cross(&mut svg, Pen::Thin, joint.0, joint.1);
        }
        svg.line(Pen::Part, place(bent.weld, -0.8 * half), place(bent.weld, -half));
        svg.line(Pen::Part, place(bent.weld, 0.8 * half), place(bent.weld, half));
        let shape: Vec<(f64, f64)> =
            bent.shape.iter().map(|(z, offset)| place(*z, part(offset.up, offset.right))).collect();
        svg.path(Pen::Accent, &shape, false);
        for (z, offset, doubt) in &bent.places {
            let (height, doubt) = (part(offset.up, offset.right), lines(*doubt));
            svg.line(Pen::Thin, place(*z, height - doubt), place(*z, height + doubt));
            svg.circle(Pen::Thin, place(*z, height), 4.5, true);
        }
    }
    let weld = begins + pixels_along * bent.weld.base();
    let foot = TOP + NEXT + HIGH + ROW - 5.0;
    let name = |svg: &mut Svg, x: f64, y: f64, name: &str| {
        // A word of four letters of the larger size on narrow screens, or of seven, must stay inside.
        let half = 0.5 * 13.5 * name.len() as f64;
        let x = x.max(half).min(WIDTH - half);
        svg.text(Pen::Thin, (x, y), Anchor::Middle, name);
    };
    name(&mut svg, weld, foot, "weld");
    name(&mut svg, begins, foot + ROW, "gearbox");
    name(&mut svg, RIGHT, foot + ROW, "axle");
    Some(svg.finish())
}
