//! The run-out curve: readings round the tube, the fit, and the offset drawn through them.

use core::fmt::Write;

use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

use super::dial::{
    LEAST_SCALE, STEPS, drawn_limit, in_lines, known_seam, quarter_name, reach, round, shown, unit,
};
use super::graph::round_step;
use super::older::Older;
use super::svg::dots;
use crate::job::Job;
use crate::quantity::{Angle, Length, as_degrees, clockwise_angle, degrees, show_number};
use crate::stage::truing::Turn;

/// Drawn at twice the size it is shown, since the plotter rounds to whole pixels.
const SIZE: (u32, u32) = (960, 620);
/// Stand-ins that the page's own colours replace once the plot is text.
const LINE: RGBColor = RGBColor(1, 2, 3);
const ACCENT: RGBColor = RGBColor(4, 5, 6);
/// The same for the limit, whose lines are broken.
const LIMIT: RGBColor = RGBColor(7, 8, 9);

/// A chart: what is drawn, and how high it reaches, in the dial's count.
struct Chart<'a> {
    job: &'a Job,
    pass: usize,
    turn: &'a Turn,
    /// ± of a reading.
    doubt: f64,
    /// Half of the limit, and whether it lies within the chart.
    limit: Option<(f64, bool)>,
    most: f64,
}

/// A turn as a curve: points with their ±, hollow where they were set aside; a thin line for the fit, a
/// bold one for the offset, the limit as a band, the seam shaded, and older turns faint behind it all.
/// `None` where it is no number. `pass` is the one that the turn is of, whose marks name the quarters;
/// `older` is put in as it stands.
///
/// No caption, legend or right axis: for those the plotter would ask the page how wide a text is, and
/// the drawing would differ from place to place.
pub fn runout_curve(job: &Job, pass: usize, turn: &Turn, older: &Older) -> Option<String> {
    let doubt = in_lines(job, turn.run_out.scatter.expanded());
    let mut chart = Chart { job, pass, turn, doubt, limit: None, most: LEAST_SCALE };
    let mut with_bars = 0.0;
    for station in &turn.stations {
        let height = chart.height(station.reading).abs();
        reach(&mut chart.most, height);
        reach(&mut with_bars, height + doubt);
    }
    for step in 0..=STEPS {
        reach(&mut chart.most, in_lines(job, turn.run_out.fitted(round(step))).abs());
        reach(&mut chart.most, in_lines(job, turn.run_out.offset_part(round(step))).abs());
    }
    // With one mark more than it needs a turn's bars are some ten times as long as it is high: they go
    // over the edge rather than flatten it.
    let with_bars = if with_bars > BARS_UP_TO * chart.most { chart.most } else { with_bars };
    reach(&mut chart.most, with_bars);
    chart.limit = drawn_limit(job, chart.most);
    if let Some((half, true)) = chart.limit {
        reach(&mut chart.most, half);
    }
    // Earlier turns may go over the edge rather than flatten the one in hand.
    let with_older = older.most.min(OLDER_UP_TO * chart.most);
    reach(&mut chart.most, with_older);
    chart.most *= 1.08;
    if !chart.most.is_finite() {
        return None;
    }
    let mut text = String::new();
    chart.plot(&mut text).ok()?;
    let mut text = text
        .replace("#010203", "currentColor")
        .replace("#040506", "var(--accent)")
        .replace("\"#070809\"", "\"currentColor\" stroke-dasharray=\"14 10\"");
    let head = text.find('>')? + 1;
    let corner = (f64::from(LEFT), f64::from(ABOVE));
    let other = (corner.0 + WIDE, corner.1 + HIGH);
    text.insert_str(head, &older.placed(corner, other, 0.5 * HIGH / chart.most));
    text.insert_str(head, &chart.grid());
    let tail = text.rfind("</svg>")?;
    text.insert_str(tail, &chart.readings());
    Some(text)
}

/// Room round the chart for the scales, in the drawing's own units.
const LEFT: i32 = 112;
const RIGHT: i32 = 52;
const ABOVE: i32 = 62;
const BELOW: i32 = 70;
/// The chart itself.
const WIDE: f64 = (SIZE.0 as i32 - LEFT - RIGHT) as f64;
const HIGH: f64 = (SIZE.1 as i32 - ABOVE - BELOW) as f64;
const MIDDLE: f64 = ABOVE as f64 + 0.5 * HIGH;
/// Quarters of the clock along the chart: the axis counts them, so that it draws no more lines and
/// names than those.
const QUARTERS: usize = 4;
/// How many times the height of the turn itself the chart may be for its bars.
const BARS_UP_TO: f64 = 3.0;
/// How many times the height of the turn in hand, or of its limit, the chart may be for earlier ones.
const OLDER_UP_TO: f64 = 2.5;
/// Where a seam is shaded, the tube is told apart by so many pieces round.
const PIECES: usize = 144;
/// How far to either side of its own place a seam is shaded, in degrees, and what was set aside at most:
/// up to its neighbours where those are nearer.
const SEAM_DEGREES: f64 = 10.0;
const ASIDE_DEGREES: f64 = 15.0;

impl Chart<'_> {
    /// A reading's height over the mean.
    fn height(&self, reading: Length) -> f64 {
        in_lines(self.job, reading - self.turn.run_out.mean)
    }

    /// Where the count is named on the left, and with how many decimals.
    fn levels(&self) -> impl Iterator<Item = (f64, usize)> + use<> {
        let (step, decimals) = round_step(self.most, 3.9);
        let lines = (self.most / step).floor() as i32;
        (-lines..=lines).map(move |at| (f64::from(at) * step, decimals))
    }

    /// A place on the chart in its own units: a quarter of the clock across, the dial's count up.
    fn pixel(&self, quarter: f64, height: f64) -> (f64, f64) {
        (f64::from(LEFT) + WIDE * quarter / QUARTERS as f64, MIDDLE - 0.5 * HIGH * height / self.most)
    }

    /// The lines behind it all, in one path but for that of the mean.
    fn grid(&self) -> String {
        let ends = QUARTERS as f64;
        let mut path = String::new();
        // Writing to a String cannot fail.
        let mut line = |from: (f64, f64), to: (f64, f64)| {
            let _ = write!(path, "M{:.1} {:.1}L{:.1} {:.1}", from.0, from.1, to.0, to.1);
        };
        for (at, _) in self.levels() {
            line(self.pixel(0.0, at), self.pixel(ends, at));
        }
        for quarter in 0..=QUARTERS {
            let at = quarter as f64;
            line(self.pixel(at, -self.most), self.pixel(at, self.most));
        }
        let (from, to) = (self.pixel(0.0, 0.0), self.pixel(ends, 0.0));
        format!(
            concat!(
                r#"<g stroke="currentColor" stroke-width="1"><path stroke-opacity="0.18" d="{path}"/>"#,
                r#"<path stroke-opacity="0.5" d="M{:.1} {:.1}L{:.1} {:.1}"/></g>"#
            ),
            from.0,
            from.1,
            to.0,
            to.1,
            path = path
        )
    }

    /// The chart is drawn element by element: the plotter's own grid would bring the code of every
    /// scale it knows into the page.
    fn plot(&self, text: &mut String) -> Result<(), Box<dyn std::error::Error>> {
        let (width, height) = (SIZE.0 as i32, SIZE.1 as i32);
        let (most, ends) = (self.most, QUARTERS as f64);
        let scale = Cartesian2d::<RangedCoordf64, RangedCoordf64>::new(
            0.0..ends,
            -most..most,
            // Heights grow upward, pixels downward.
            (LEFT..width - RIGHT, height - BELOW..ABOVE),
        );
        let root = SVGBackend::with_string(text, SIZE).into_drawing_area().apply_coord_spec(scale);
        let line =
            |points: Vec<(f64, f64)>, style: ShapeStyle| root.draw(&PathElement::new(points, style));
        let label = |words: String, at: (f64, f64), place: (HPos, VPos), by: (i32, i32)| {
            let font = (FontFamily::SansSerif, 40).into_font().color(&LINE);
            let style = font.pos(Pos::new(place.0, place.1));
            root.draw(&(EmptyElement::at(at) + Text::new(words, by, style)))
        };
        for (from, to) in self.shaded() {
            let one = ends / PIECES as f64;
            let (from, to) = (from as f64 * one, to as f64 * one);
            let middle = 0.5 * (from + to);
            let wide = ((to - from) / ends * WIDE) as u32;
            line(vec![(middle, -most), (middle, most)], LINE.mix(0.14).stroke_width(wide))?;
        }
        for (at, decimals) in self.levels() {
            label(show_number(at, decimals), (0.0, at), (HPos::Right, VPos::Center), (-12, 0))?;
        }
        for quarter in 0..=QUARTERS {
            let at = quarter as f64;
            let name = quarter_name(self.job, self.pass, quarter);
            label(name, (at, -most), (HPos::Center, VPos::Top), (0, 16))?;
        }
        label(unit(self.job).to_owned(), (0.0, most), (HPos::Left, VPos::Bottom), (12 - LEFT, -12))?;
        if let Some((half, drawn)) = self.limit {
            for at in [half, -half].into_iter().filter(|_| drawn) {
                line(vec![(0.0, at), (ends, at)], LIMIT.stroke_width(3))?;
            }
            let beyond = if drawn { "" } else { ", off the chart" };
            let words = format!("limit ±{}{beyond}", shown(half));
            label(words, (ends, most), (HPos::Right, VPos::Bottom), (0, -12))?;
        }
        let run_out = &self.turn.run_out;
        let curve = |height: &dyn Fn(Angle) -> Length| -> Vec<(f64, f64)> {
            let point = |step: usize| in_lines(self.job, height(round(step)));
            (0..=STEPS).map(|step| (ends * step as f64 / STEPS as f64, point(step))).collect()
        };
        line(curve(&|at| run_out.offset_part(at)), ACCENT.stroke_width(7))?;
        line(curve(&|at| run_out.fitted(at)), LINE.stroke_width(2))?;
        root.present()?;
        Ok(())
    }

    /// The readings with their ±: all bars in one path and all dots in one, so that a turn of many marks
    /// has the page lay out no more than one of few. The plotter would make a piece of each.
    fn readings(&self) -> String {
        let most = self.most;
        // Smaller where they would touch.
        let dot = if self.turn.stations.len() > 24 { 6.0 } else { 8.0 };
        let (mut bars, mut kept, mut hollow) = (String::new(), Vec::new(), String::new());
        for (index, station) in self.turn.stations.iter().enumerate() {
            let at = as_degrees(clockwise_angle(station.at)) / 90.0;
            let height = self.height(station.reading);
            let [low, high] = [height - self.doubt, height + self.doubt]
                .map(|end| self.pixel(at, end.max(-most).min(most)).1);
            let (x, y) = self.pixel(at, height);
            // Writing to a String cannot fail.
            let _ = write!(bars, "M{x:.1} {low:.1}L{x:.1} {high:.1}");
            if self.turn.run_out.aside.contains(&index) {
                let _ = write!(hollow, r#"<circle cx="{x:.1}" cy="{y:.1}" r="{:.0}"/>"#, dot + 1.0);
            } else {
                kept.push((x, y));
            }
        }
        let mut points = String::new();
        dots(&mut points, &kept);
        format!(
            concat!(
                r#"<g fill="none" stroke="currentColor"><path stroke-width="2" d="{bars}"/>"#,
                r#"<g stroke-width="3">{hollow}</g>"#,
                r#"<path class="dots" stroke-width="{wide:.0}" d="{points}"/></g>"#
            ),
            bars = bars,
            hollow = hollow,
            wide = 2.0 * dot,
            points = points
        )
    }

    /// The stretches of the tube that are shaded, from piece to piece: its seam where that is known, and
    /// what was set aside. None goes over 12, where the chart ends.
    fn shaded(&self) -> Vec<(usize, usize)> {
        let apart = 360.0 / self.turn.stations.len().max(1) as f64;
        let mut seams = vec![];
        seams.extend(known_seam(self.job).map(|at| (at, SEAM_DEGREES)));
        for index in &self.turn.run_out.aside {
            let station = self.turn.stations.get(*index);
            seams.extend(station.map(|station| (station.at, ASIDE_DEGREES.min(0.5 * apart))));
        }
        let is_shaded = |piece: usize| {
            let middle = 360.0 * (piece as f64 + 0.5) / PIECES as f64;
            seams.iter().any(|(at, either_way)| {
                let off = as_degrees(clockwise_angle(*at - degrees(middle)));
                off.min(360.0 - off) < *either_way
            })
        };
        let mut found = Vec::new();
        let mut begun = None;
        for piece in 0..=PIECES {
            let shaded = !seams.is_empty() && piece < PIECES && is_shaded(piece);
            match (shaded, begun) {
                (true, None) => begun = Some(piece),
                (false, Some(from)) => {
                    found.push((from, piece));
                    begun = None;
                }
                _ => {}
            }
        }
        found
    }
}
