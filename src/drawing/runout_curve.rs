//! The run-out curve: readings round the tube, the fit, and the offset drawn through them.

use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

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
    let now = turn(job, pass, 0).ok()?;
    let older: Vec<Turn> = (0..pass).filter_map(|i| turn(job, i, 0).ok()).collect();
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

/// Room round the chart for the scales, in the drawing's own units.
const LEFT: i32 = 100;
const RIGHT: i32 = 40;
const ABOVE: i32 = 16;
const BELOW: i32 = 80;
/// Quarters of the clock along the chart.
const QUARTERS: i32 = 4;
/// What a line of the scale may be worth: the first that leaves no more than three either side.
const STEPS_OF_SCALE: [f64; 11] = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];

/// The chart is drawn element by element: the plotter's own grid would bring the code of every scale
/// it knows into the page.
fn plot(
    text: &mut String,
    now: &Turn,
    older: &[Turn],
    most: f64,
    in_lines: &dyn Fn(Length) -> f64,
) -> Result<(), Box<dyn std::error::Error>> {
    let (width, height) = (SIZE.0 as i32, SIZE.1 as i32);
    let scale = Cartesian2d::<RangedCoordf64, RangedCoordf64>::new(
        0.0..f64::from(QUARTERS),
        -most..most,
        // Heights grow upward, pixels downward.
        (LEFT..width - RIGHT, height - BELOW..ABOVE),
    );
    let root = SVGBackend::with_string(text, SIZE).into_drawing_area().apply_coord_spec(scale);
    let line = |points: Vec<(f64, f64)>, style: ShapeStyle| root.draw(&PathElement::new(points, style));
    let label = |words: String, at: (f64, f64), place: (HPos, VPos), by: (i32, i32)| {
        let font = (FontFamily::SansSerif, 40).into_font().color(&LINE);
        let style = font.pos(Pos::new(place.0, place.1));
        root.draw(&(EmptyElement::at(at) + Text::new(words, by, style)))
    };
    let step = STEPS_OF_SCALE.into_iter().find(|step| most / step < 4.0).unwrap_or(most / 2.0);
    let lines = (most / step).floor() as i32;
    for at in (-lines..=lines).map(|at| f64::from(at) * step) {
        let shade = if at == 0.0 { LINE.mix(0.6) } else { LINE.mix(0.18) };
        line(vec![(0.0, at), (f64::from(QUARTERS), at)], shade.stroke_width(1))?;
        let words = crate::quantity::show_number(at, usize::from(step < 1.0));
        label(words, (0.0, at), (HPos::Right, VPos::Center), (-12, 0))?;
    }
    for quarter in 0..=QUARTERS {
        let at = f64::from(quarter);
        line(vec![(at, -most), (at, most)], LINE.mix(0.18).stroke_width(1))?;
        label(hour(at), (at, -most), (HPos::Center, VPos::Top), (0, 16))?;
    }
    let curve = |height: &dyn Fn(crate::quantity::Angle) -> Length| -> Vec<(f64, f64)> {
        (0..=STEPS).map(|i| (4.0 * i as f64 / STEPS as f64, in_lines(height(round(i))))).collect()
    };
    for turn in older {
        line(curve(&|at| turn.run_out.fitted(at)), LINE.mix(0.3).stroke_width(1))?;
    }
    line(curve(&|at| now.run_out.offset_part(at)), ACCENT.stroke_width(6))?;
    line(curve(&|at| now.run_out.fitted(at)), LINE.stroke_width(2))?;
    for station in &now.stations {
        let at = crate::quantity::as_degrees(station.at) / 90.0;
        let height = in_lines(station.reading - now.run_out.mean);
        root.draw(&Circle::new((at, height), 9, LINE.filled()))?;
    }
    root.present()?;
    Ok(())
}

/// The hour at a quarter of the clock: the axis counts quarters, so that it draws no more lines and
/// numbers than those.
fn hour(quarter: f64) -> String {
    if quarter < 0.5 { "12".to_owned() } else { format!("{:.0}", quarter * 3.0) }
}
