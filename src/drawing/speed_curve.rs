//! How shakes grow with speed, and where each comes to its limit.

use super::graph::{Graph, LEFT, ROW, key, round_step};
use super::pieces::{MARGIN, WIDTH};
use super::svg::{Anchor, Pen, Svg};
use crate::job::Job;
use crate::quantity::{
    as_kilometres_per_hour, as_miles_per_hour, as_radians_per_second_squared, as_rpm, show_number,
    show_road_speed, show_speed, three_figures, turn_rate_squared,
};
use crate::stage::angles::growth;

const TOP: f64 = 40.0;
const BOTTOM: f64 = 240.0;
/// Room at the right for the limits.
const RIGHT: f64 = WIDTH - 90.0;
/// Of the top speed, how far the curves go.
const BEYOND: f64 = 1.1;
/// Of the larger limit: how high the scale goes at least, and at most.
const SCALE: (f64, f64) = (1.15, 3.0);
/// Points on a drawn curve, beside the first.
const STEPS: i32 = 24;
/// rad/s² below which nothing is shaken.
const SEEN: f64 = 0.01;
/// From one limit's words to the other's.
const LIMITS_APART: f64 = 48.0;
/// A digit of the larger size on narrow screens, in a wide face.
const DIGIT: f64 = 13.5;

/// What a curve is called, how it is drawn, its acceleration at top speed, and its limit.
type Curve = (&'static str, Pen, f64, f64);

/// Shake against speed: the pinion under power, the shaft in drive and with the foot off, and their
/// limits. `None` while angles, top speed or limits are not known.
pub fn speed_curve(job: &Job) -> Option<String> {
    let growth = growth(job)?;
    let bounds = growth.bounds;
    let (top, top_words) = match growth.road {
        Some(road) => {
            let of_display =
                if job.display.is_inch() { as_miles_per_hour } else { as_kilometres_per_hour };
            (of_display(road), show_road_speed(road, job.display.lengths()))
        }
        None => (as_rpm(bounds.top), show_speed(bounds.top)),
    };
    let unit = top_words.rsplit(' ').next().unwrap_or_default();
    let [shake, inertia] = [bounds.shake, bounds.inertia].map(as_radians_per_second_squared);
    let square = turn_rate_squared(bounds.top);
    let [drive, overrun] = growth.shaft;
    let curves: [Curve; 3] = [
        ("pinion under power", Pen::Accent, square * growth.pinion, shake),
        ("shaft in drive", Pen::Thin, square * drive, inertia),
        ("shaft, foot off", Pen::Ghost, square * overrun, inertia),
    ];
    let larger = shake.max(inertia);
    let most = curves.iter().fold(0.0_f64, |most, curve| most.max(curve.2 * BEYOND * BEYOND));
    let most = most.max(SCALE.0 * larger).min(SCALE.1 * larger);
    if !(most.is_finite() && top > 0.0) {
        return None;
    }
    let graph =
        Graph { right: RIGHT, top: TOP, bottom: BOTTOM, farthest: BEYOND * top, least: 0.0, most };
    let marks = marks(&graph, top, &curves);
    let scale = BOTTOM + ROW * if marks.is_empty() { 1.0 } else { 2.2 };
    let mut svg = Svg::new(WIDTH, scale + 5.0 * ROW - 8.0);

    svg.text(Pen::Thin, (MARGIN, 22.0), Anchor::Start, "rad/s²");
    svg.text(Pen::Thin, (WIDTH - MARGIN, 22.0), Anchor::End, "limits");
    graph.upright(&mut svg, round_step(most, 4.0));
    graph.along(&mut svg, round_step(graph.farthest, 5.0).0, "", scale - BOTTOM);
    svg.text(Pen::Thin, (WIDTH - 4.0, scale), Anchor::End, unit);
    let (x, _) = graph.place((top, 0.0));
    svg.line(Pen::Thin, (x, TOP - 10.0), (x, BOTTOM));
    svg.text(Pen::Thin, (x + 6.0, 22.0), Anchor::End, &format!("top speed {top_words}"));
    limits(&mut svg, &graph, shake, inertia);

    let key_top = scale + ROW + 5.0;
    svg.text(Pen::Thin, (WIDTH - MARGIN, key_top), Anchor::End, "at top speed");
    // The last first, so that the boldest lies on top.
    for (i, (words, pen, at_top, _)) in curves.into_iter().enumerate().rev() {
        let ends = BEYOND.min((most / at_top).sqrt());
        let mut points = (0..=STEPS).map(|i| {
            let share = ends * f64::from(i) / f64::from(STEPS);
            (top * share, at_top * share * share)
        });
        graph.curve(&mut svg, pen, &mut points);
        let row = key_top + ROW * (i + 1) as f64;
        key(&mut svg, pen, (MARGIN, row), words);
        let figure = if at_top < SEEN { "0".to_owned() } else { three_figures(at_top) };
        svg.text(Pen::Thin, (WIDTH - MARGIN, row), Anchor::End, &figure);
    }
    crossings(&mut svg, &marks);
    Some(svg.finish())
}

/// Where a curve comes to its limit: the place, its pen and the speed.
struct Mark {
    at: (f64, f64),
    pen: Pen,
    speed: String,
}

/// The marks inside the graph, from left to right; of two at one place the bolder.
fn marks(graph: &Graph, top: f64, curves: &[Curve]) -> Vec<Mark> {
    let mut marks: Vec<Mark> = Vec::new();
    for (_, pen, at_top, limit) in curves {
        let share = (limit / at_top).sqrt();
        if share <= BEYOND {
            let at = graph.place((share * top, *limit));
            let before = marks.iter().position(|mark| at.0 < mark.at.0).unwrap_or(marks.len());
            marks.insert(before, Mark { at, pen: *pen, speed: show_number(share * top, 0) });
        }
    }
    marks
}

/// A round at each, and its speed below the foot.
fn crossings(svg: &mut Svg, marks: &[Mark]) {
    // All as wide as the widest.
    let digits = marks.iter().fold(0, |most, mark| most.max(mark.speed.len()));
    let apart = DIGIT * (digits + 1) as f64;
    let mut least = 0.0_f64;
    for (i, mark) in marks.iter().enumerate() {
        let (x, y) = mark.at;
        // Those that are to come must have room too, and half of what they lack is taken here.
        let rest = (marks.len() - 1 - i) as f64;
        let next = marks.last().map_or(x, |last| last.at.0);
        let lack = (rest * apart - (next - x)).max(0.0);
        let here = (x - 0.5 * lack).min(RIGHT - rest * apart).max(least).max(LEFT);
        least = here + apart;
        svg.line(Pen::Ghost, (x, y), (x, BOTTOM));
        svg.circle(mark.pen, (x, y), 6.0, true);
        svg.line(Pen::Thin, (x, BOTTOM), (here, BOTTOM + 12.0));
        svg.text(Pen::Thin, (here, BOTTOM + 32.0), Anchor::Middle, &mark.speed);
    }
}

/// The limits from edge to edge with their figures beside them.
fn limits(svg: &mut Svg, graph: &Graph, shake: f64, inertia: f64) {
    let (pinion, shaft) = (("pinion", Pen::Accent, shake), ("shaft", Pen::Part, inertia));
    let all = if shake > inertia { [pinion, shaft] } else { [shaft, pinion] };
    let [high, low] = all.map(|(.., limit)| graph.place((0.0, limit)).1);
    let push = (0.5 * (LIMITS_APART - (low - high))).max(0.0);
    let upper = (high - push).clamp(TOP + 14.0, BOTTOM - 20.0 - LIMITS_APART);
    let lower = (low + push).min(BOTTOM - 20.0).max(upper + LIMITS_APART);
    for ((name, pen, limit), (y, words)) in all.into_iter().zip([(high, upper), (low, lower)]) {
        graph.level(svg, pen, limit);
        svg.line(pen, (RIGHT, y), (RIGHT + 10.0, words));
        svg.text(Pen::Thin, (WIDTH - MARGIN, words - 3.0), Anchor::End, name);
        svg.text(Pen::Thin, (WIDTH - MARGIN, words + 21.0), Anchor::End, &show_number(limit, 0));
    }
}
