//! The slip, its places to scale: where the seal's lip runs on the barrel over the whole travel, or
//! where the slip runs on its spline. The gearbox is at the left, so in is left.

use super::pieces::{Dimension, MARGIN, WIDTH, cross, dimensions, dimensions_height, length, scale_bar};
use super::svg::{Anchor, Pen, Svg};
use crate::job::{Entry, Job, ShaftKind};
use crate::quantity::{Base, Length};
use crate::stage::seal::lip_band;
use crate::stage::slip::travel;

const AXIS: f64 = 72.0;
const BARREL: f64 = 30.0;
/// How far marks stand out over it.
const OUT: f64 = 11.0;
/// Room for the yoke at the shoulder, and beyond the other end.
const YOKE: f64 = 62.0;
const BEYOND: f64 = 26.0;

/// Places along the slip, from one end that all of them count from.
struct Places {
    /// They count from the barrel's shoulder, at the right; otherwise from bottomed, at the left.
    on_barrel: bool,
    /// Those that are told, first, and whatever else must come into the frame.
    marks: Vec<Length>,
    told: usize,
    /// Where the slip runs, from farthest in to farthest out.
    band: (Length, Length),
    /// Where it must not run, and how far it shall stay off.
    barred: Option<(Length, Length, Length)>,
    end: Length,
}

/// What the marks on the barrel are, and how they are drawn.
static ON_BARREL: &[(&str, Pen)] = &[
    ("lip, bottomed", Pen::Thin),
    ("lip, yoke in", Pen::Thin),
    ("lip at ride", Pen::Accent),
    ("lip, yoke out", Pen::Thin),
    ("barrel end", Pen::Thin),
    ("groove", Pen::Thin),
];
/// The same on the spline.
static ON_SPLINE: &[(&str, Pen)] = &[
    ("farthest in", Pen::Thin),
    ("at ride", Pen::Accent),
    ("farthest out", Pen::Thin),
    ("out at most", Pen::Part),
];

/// The slip to scale. `None` while its travel, or a place on it, is not known.
pub fn slip(job: &Job) -> Option<String> {
    let places = match job.measure.kind {
        ShaftKind::SlipInGearbox => on_barrel(job),
        _ => on_spline(job),
    }?;
    let (mut least, mut most) = (0.0_f64, 0.0_f64);
    for place in &places.marks {
        (least, most) = (least.min(place.base()), most.max(place.base()));
    }
    let scale = (WIDTH - YOKE - BEYOND - 2.0 * MARGIN) / (most - least);
    if !scale.is_finite() {
        return None;
    }
    let (edge, way) =
        if places.on_barrel { (WIDTH - MARGIN - YOKE, -scale) } else { (MARGIN + BEYOND, scale) };
    let begins = edge - least * way;
    let at = |place: Length| begins + place.base() * way;
    let named = if places.on_barrel { ON_BARREL } else { ON_SPLINE };
    let named = named.get(..places.told)?;

    let top = AXIS + BARREL + 20.0;
    let bottom = top + dimensions_height(places.told);
    let mut svg = Svg::new(WIDTH, bottom + 44.0);
    svg.text(Pen::Thin, (MARGIN, 20.0), Anchor::Start, "← in");
    svg.text(Pen::Thin, (WIDTH - MARGIN, 20.0), Anchor::End, "out →");
    body(&mut svg, begins, at(places.end), places.on_barrel, least < 0.0);
    boxed(&mut svg, Pen::Accent, (at(places.band.0), at(places.band.1)), 0.0);
    if let Some((from, to, margin)) = places.barred {
        boxed(&mut svg, Pen::Ghost, (at(from), at(to)), OUT);
        for place in [from - margin, to + margin] {
            across(&mut svg, Pen::Ghost, at(place));
        }
    }
    let mut rows: Vec<Dimension> = Vec::new();
    for ((word, pen), place) in named.iter().zip(&places.marks) {
        let x = at(*place);
        across(&mut svg, *pen, x);
        rows.push(Dimension::new(job, (begins, x), *pen, word, Some(*place)));
    }
    dimensions(&mut svg, &rows, AXIS + BARREL, top);
    scale_bar(&mut svg, job, scale, bottom + 26.0);
    Some(svg.finish())
}

/// The lip's places on the slip yoke's barrel.
fn on_barrel(job: &Job) -> Option<Places> {
    let lip = lip_band(job).ok()?;
    let mut marks = vec![lip.bottomed, lip.from, lip.ride, lip.to, lip.barrel];
    let mut told = marks.len();
    let barred = lip.groove.map(|(inner, outer)| (inner, outer, lip.margin));
    if let Some((inner, outer, margin)) = barred {
        marks.extend([(inner + outer) / 2.0, inner - margin, outer + margin]);
        told += 1;
    }
    Some(Places { on_barrel: true, marks, told, band: (lip.from, lip.to), barred, end: lip.barrel })
}

/// The slip's places on its spline, from bottomed.
fn on_spline(job: &Job) -> Option<Places> {
    let travel = travel(job).ok()?;
    let ride = length(job, Entry::SetPoint)?;
    let spline = length(job, Entry::SplineLength)?;
    let least = length(job, Entry::LeastEngaged)?;
    let (from, to) = (ride - travel.inward, ride + travel.outward);
    let marks = vec![from, ride, to, spline - least, spline];
    let barred = Some((spline - least, spline, Length::from_base(0.0)));
    Some(Places { on_barrel: false, marks, told: 4, band: (from, to), barred, end: spline })
}

/// A hatched band over it, standing out by so much.
fn boxed(svg: &mut Svg, pen: Pen, (one, other): (f64, f64), by: f64) {
    let (from, to) = ((one.min(other), AXIS - BARREL - by), (one.max(other), AXIS + BARREL + by));
    svg.hatch(pen, from, to, pen == Pen::Accent);
    svg.frame(pen, from, to);
}

/// A line over it.
fn across(svg: &mut Svg, pen: Pen, x: f64) {
    svg.line(pen, (x, AXIS - BARREL - OUT), (x, AXIS + BARREL + OUT));
}

/// The barrel with its yoke, where no place lies on that, or the spline.
fn body(svg: &mut Svg, begins: f64, ends: f64, on_barrel: bool, past_shoulder: bool) {
    svg.frame(Pen::Part, (begins, AXIS - BARREL), (ends, AXIS + BARREL));
    // The yoke's shoulder, or the stop on which the slip bottoms.
    across(svg, Pen::Part, begins);
    if !on_barrel {
        for up in [-16.0, 0.0, 16.0] {
            svg.line(Pen::Thin, (begins, AXIS + up), (ends, AXIS + up));
        }
    } else if !past_shoulder {
        svg.shape(Pen::Part, (begins, AXIS), (1.0, 1.0), &[(0, -41), (50, -12), (50, 12), (0, 41)]);
        svg.circle(Pen::Part, (begins + 38.0, AXIS), 9.0, false);
        cross(svg, Pen::Thin, begins + 38.0, AXIS);
    }
}
