//! Whirl speed against length, with what it must stay clear of, and both lengths marked.

use super::graph::{Graph, LEFT, ROW, key, round_step};
use super::pieces::{MARGIN, WIDTH};
use super::svg::{Anchor, Pen, Svg};
use crate::job::Job;
use crate::quantity::{AngularVelocity, Length, as_millimetres, as_rpm, in_inches, show_number};
use crate::stage::check::chart;

const TOP: f64 = 40.0;
const BOTTOM: f64 = 290.0;
/// Of the whirl speed at the new length: how high the scale goes, unless what is marked goes higher.
const SCALE: f64 = 1.45;
/// Ticks along the foot, about.
const TICKS: f64 = 5.0;
/// How long a tick is, and how far below the foot its number hangs.
const TICK: f64 = 6.0;

/// The chart; `None` while tube or lengths are not known.
pub fn whirl_chart(job: &Job) -> Option<String> {
    let chart = chart(job)?;
    let inch = job.display.is_inch();
    let along = |length: Length| if inch { in_inches(length) } else { as_millimetres(length) };
    let point = |(length, speed): &(Length, AngularVelocity)| (along(*length), as_rpm(*speed));
    let whirl: Vec<(f64, f64)> = chart.whirl.iter().map(point).collect();
    let soft: Vec<(f64, f64)> = chart.soft.iter().map(point).collect();
    let ((from, _), (to, _)) = (*whirl.first()?, *whirl.last()?);
    let [old, new] = chart.lengths.map(along);
    let top = chart.top.map(as_rpm);
    let at_new = whirl.iter().find(|(length, _)| *length >= new).map_or(0.0, |(_, speed)| *speed);
    let most = (at_new * SCALE).max(top.unwrap_or(0.0) * 1.1);
    if !(to > from && most > 0.0 && most.is_finite()) {
        return None;
    }
    let graph =
        Graph { right: WIDTH - MARGIN, top: TOP, bottom: BOTTOM, farthest: to - from, least: 0.0, most };
    let shown = |points: &[(f64, f64)], share: f64| -> Vec<(f64, f64)> {
        let scaled = points.iter().map(|(x, y)| (x - from, y * share));
        scaled.filter(|(_, y)| *y <= most).collect()
    };
    let rows = 3 + usize::from(!soft.is_empty());
    let rows = rows + usize::from(top.is_some() || chart.cruise.is_some());
    let foot = BOTTOM + ROW;
    let mut svg = Svg::new(WIDTH, foot + ROW * (rows as f64 + 0.6));
    svg.text(Pen::Thin, (MARGIN, 22.0), Anchor::Start, "rpm");
    graph.upright(&mut svg, round_step(most, 6.0));
    lengths(&mut svg, &graph, (from, to), if inch { "in" } else { "mm" });
    for (length, word, pen) in [(old, "old", Pen::Ghost), (new, "new", Pen::Part)] {
        let (x, _) = graph.place((length - from, 0.0));
        svg.line(pen, (x, TOP - 8.0), (x, BOTTOM));
        // Side by side where they are nearly one.
        let anchor = if (length == new) == (new > old) { Anchor::Start } else { Anchor::End };
        svg.text(Pen::Thin, (x, TOP - 14.0), anchor, word);
    }
    let band = |share: f64| shown(&whirl, 0.5 * share);
    let (low, high) = (band(1.0 - chart.keep_off_half), band(1.0 + chart.keep_off_half));
    let strokes: Vec<[(f64, f64); 2]> =
        low.iter().zip(&high).map(|(one, other)| [graph.place(*one), graph.place(*other)]).collect();
    svg.lines(Pen::Ghost, &strokes);
    for edge in [&low, &high] {
        graph.curve(&mut svg, Pen::Ghost, &mut edge.iter().copied());
    }
    let allowed = show_number(chart.allowed * 100.0, 0);
    let by = if chart.by_elements { "yokes counted" } else { "the tube alone" };
    let mut words = vec![(Pen::Accent, format!("whirl speed, {by}"))];
    if !soft.is_empty() {
        graph.curve(&mut svg, Pen::Part, &mut shown(&soft, 1.0).into_iter());
        words.push((Pen::Part, "held as softly as you say".to_owned()));
    }
    graph.curve(&mut svg, Pen::Thin, &mut shown(&whirl, chart.allowed).into_iter());
    words.push((Pen::Thin, format!("{allowed} % of it: top speed below")));
    words.push((Pen::Ghost, "half of it: no cruising in there".to_owned()));
    graph.curve(&mut svg, Pen::Accent, &mut shown(&whirl, 1.0).into_iter());
    let mut levels = Vec::new();
    for (speed, word) in [(chart.top, "top"), (chart.cruise, "cruising")] {
        let Some(speed) = speed else { continue };
        graph.level(&mut svg, Pen::Part, as_rpm(speed));
        levels.push(format!("{word} {}", show_number(as_rpm(speed), 0)));
    }
    if !levels.is_empty() {
        words.push((Pen::Part, format!("level: {} rpm", levels.join(", "))));
    }
    for (row, (pen, words)) in words.into_iter().enumerate() {
        key(&mut svg, pen, (MARGIN, foot + ROW * (row as f64 + 1.0)), &words);
    }
    Some(svg.finish())
}

/// The scale along the foot, which does not begin at nothing.
fn lengths(svg: &mut Svg, graph: &Graph, (from, to): (f64, f64), unit: &str) {
    svg.line(Pen::Thin, (LEFT, graph.bottom), (graph.right, graph.bottom));
    let (step, decimals) = round_step(to - from, TICKS);
    let (first, last) = ((from / step).ceil() as i32, (to / step).floor() as i32);
    for number in first..=last {
        let value = f64::from(number) * step;
        let (x, y) = graph.place((value - from, 0.0));
        svg.line(Pen::Thin, (x, y), (x, y + TICK));
        let words = show_number(value, decimals);
        let words = if number == last { format!("{words} {unit}") } else { words };
        let anchor = if number == last { Anchor::End } else { Anchor::Middle };
        svg.text(
            Pen::Thin,
            (if number == last { (x + 30.0).min(graph.right) } else { x }, y + ROW),
            anchor,
            &words,
        );
    }
}
