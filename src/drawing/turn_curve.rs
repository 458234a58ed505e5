//! Speed over one turn of the gearbox: how much faster and slower shaft and pinion go.

use super::graph::{Graph, ROW, key, round_step};
use super::pieces::{MARGIN, WIDTH};
use super::svg::{Anchor, Pen, Svg};
use crate::job::Job;
use crate::quantity::show_number;
use crate::stage::angles::{At, line};

const HEIGHT: f64 = 335.0;
/// Points on a drawn curve: one every five degrees.
const STEPS: usize = 72;
/// Least height of the scale either way, in per cent: an even turn shows as even.
const LEAST_SCALE: f64 = 0.1;
/// Swings under this, in per cent, are none.
const SEEN: f64 = 0.0005;

/// Shaft (thin) and pinion (bold) over one turn of the gearbox, under power. `None` while the angles are
/// not known.
pub fn turn_curve(job: &Job) -> Option<String> {
    let line = line(job, At::Power)?;
    let peaks = line.peaks();
    let mut all = line.turn(STEPS);
    all.extend(all.first().copied());
    let percent = |ratio: f64| 100.0 * (ratio - 1.0);
    let most = all
        .iter()
        .flat_map(|moment| [moment.shaft_ratio, moment.pinion_ratio])
        .fold(LEAST_SCALE, |most, ratio| most.max(percent(ratio).abs()));
    if !most.is_finite() {
        return None;
    }
    let graph = Graph {
        right: WIDTH - 4.0 * MARGIN,
        top: 66.0,
        bottom: HEIGHT - 2.0 * ROW - 13.0,
        farthest: 360.0,
        least: -1.1 * most,
        most: 1.1 * most,
    };
    let mut svg = Svg::new(WIDTH, HEIGHT);
    for (x, pen, name, (least, most)) in [
        (MARGIN, Pen::Thin, "shaft", peaks.shaft_ratio),
        (0.5 * WIDTH, Pen::Accent, "pinion", peaks.pinion_ratio),
    ] {
        key(&mut svg, pen, (x, 22.0), &format!("{name} {}", swing(50.0 * (most - least))));
    }
    svg.text(Pen::Thin, (MARGIN, 50.0), Anchor::Start, "% off the mean");
    graph.upright(&mut svg, round_step(graph.most, 3.0));
    graph.along(&mut svg, 90.0, "°", ROW + 5.0);
    graph.level(&mut svg, Pen::Ghost, 0.0);
    for (pen, of_pinion) in [(Pen::Thin, false), (Pen::Accent, true)] {
        let mut points = all.iter().enumerate().map(|(i, moment)| {
            let ratio = if of_pinion { moment.pinion_ratio } else { moment.shaft_ratio };
            (360.0 * i as f64 / STEPS as f64, percent(ratio))
        });
        graph.curve(&mut svg, pen, &mut points);
    }
    svg.text(Pen::Thin, (0.5 * WIDTH, HEIGHT - 10.0), Anchor::Middle, "one turn of the gearbox");
    Some(svg.finish())
}

/// A swing either way, in per cent.
fn swing(size: f64) -> String {
    if size < SEEN {
        "even".to_owned()
    } else {
        format!("±{} %", show_number(size, if size < 0.1 { 3 } else { 2 }))
    }
}
