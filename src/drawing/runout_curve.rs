//! The run-out curve: readings round the tube, the fit, and the offset drawn through them.

use plotters::prelude::*;

use crate::job::{Dial, Job};
use crate::quantity::{Length, as_millimetres, as_thousandths, degrees};
use crate::stage::truing::{Turn, turn};

/// Drawn at twice the size it is shown, since the plotter rounds to whole pixels.
const SIZE: (u32, u32) = (960, 620);
/// Stand-ins that the page's own colours replace once the plot is text.
const LINE: RGBColor = RGBColor(1, 2, 3);
const ACCENT: RGBColor = RGBColor(4, 5, 6);
/// Points on a drawn curve: one every seven and a half degrees, fine enough for a second order.
const STEPS: usize = 48;
/// Least height of the scale either way, in the dial's lines: a flat turn shows as flat.
const LEAST_SCALE: f64 = 2.0;

/// A turn as a curve: points with the readings, a thin line for the fit, a bold one for the offset,
/// older turns faint behind it. `None` while the turn cannot be read.
///
/// No caption, legend or right axis: for those the plotter would ask the page how wide a text is, and
/// the drawing would differ from place to place.
pub fn runout_curve(job: &Job, pass: usize) -> Option<String> {
    let now = turn(job, pass).ok()?;
    let older: Vec<Turn> = (0..pass).filter_map(|i| turn(job, i).ok()).collect();
    let in_lines = |length: Length| match job.truing.dial {
        Dial::Hundredth => as_millimetres(length) * 100.0,
        _ => as_thousandths(length),
    };
    let heights = now.stations.iter().map(|s| in_lines(s.reading - now.run_out.mean));
    let drawn = |turn: &Turn| -> Vec<f64> {
        (0..=STEPS).map(|i| in_lines(turn.run_out.fitted(round(i)))).collect()
    };
    let most = heights
        .chain(drawn(&now))
        .chain(older.iter().flat_map(drawn))
        .map(f64::abs)
        .fold(LEAST_SCALE, f64::max);
    if !most.is_finite() {
        return None;
    }
    let mut text = String::new();
    plot(&mut text, &now, &older, most * 1.15, &in_lines).ok()?;
    Some(text.replace("#010203", "currentColor").replace("#040506", "var(--accent)"))
}

/// The place of a point of a curve.
fn round(step: usize) -> crate::quantity::Angle {
    degrees(360.0 * step as f64 / STEPS as f64)
}

fn plot(
    text: &mut String,
    now: &Turn,
    older: &[Turn],
    most: f64,
    in_lines: &dyn Fn(Length) -> f64,
) -> Result<(), Box<dyn std::error::Error>> {
    let root = SVGBackend::with_string(text, SIZE).into_drawing_area();
    let mut chart = ChartBuilder::on(&root)
        .margin(16)
        .margin_right(40)
        .x_label_area_size(64)
        .y_label_area_size(84)
        .build_cartesian_2d(0.0..4.0, -most..most)?;
    chart
        .configure_mesh()
        .x_labels(5)
        .y_labels(7)
        .x_label_formatter(&|at| hour(*at))
        .y_label_formatter(&|height| crate::quantity::show_number(*height, usize::from(most < 4.0)))
        .label_style(("sans-serif", 40).into_font().color(&LINE))
        .axis_style(LINE.mix(0.6))
        .bold_line_style(LINE.mix(0.18))
        .light_line_style(LINE.mix(0.0))
        .draw()?;
    let curve = |height: &dyn Fn(crate::quantity::Angle) -> Length| -> Vec<(f64, f64)> {
        (0..=STEPS).map(|i| (4.0 * i as f64 / STEPS as f64, in_lines(height(round(i))))).collect()
    };
    for turn in older {
        chart.draw_series(LineSeries::new(curve(&|at| turn.run_out.fitted(at)), LINE.mix(0.3)))?;
    }
    let offset = curve(&|at| now.run_out.offset_part(at));
    chart.draw_series(LineSeries::new(offset, ACCENT.stroke_width(6)))?;
    let fitted = curve(&|at| now.run_out.fitted(at));
    chart.draw_series(LineSeries::new(fitted, LINE.stroke_width(2)))?;
    let points = now.stations.iter().map(|station| {
        let at = crate::quantity::as_degrees(station.at) / 90.0;
        Circle::new((at, in_lines(station.reading - now.run_out.mean)), 9, LINE.filled())
    });
    chart.draw_series(points)?;
    root.present()?;
    Ok(())
}

/// The hour at a quarter of the clock: the axis counts quarters, so that it draws no more lines and
/// numbers than those.
fn hour(quarter: f64) -> String {
    if quarter < 0.5 { "12".to_owned() } else { format!("{:.0}", quarter * 3.0) }
}
