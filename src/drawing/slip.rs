//! The slip, its places to scale: where the seal's lip runs on the barrel over the whole travel, or
//! where the slip runs on its spline. The gearbox is at the left, so in is left.

use super::pieces::{Dimension, MARGIN, WIDTH, cross, dimensions, dimensions_height, scale_bar};
use super::svg::{Anchor, Pen, Svg};
use crate::job::{Entry, Job, ShaftKind};
use crate::quantity::{Base, Length};
use crate::stage::slip::{lip_band, travel};
use crate::stage::{Amount, read};

const AXIS: f64 = 72.0;
const BARREL: f64 = 30.0;
/// Room for the yoke at the shoulder, and beyond the other end.
const YOKE: f64 = 62.0;
const BEYOND: f64 = 26.0;

/// Places along the slip, from one end that all of them count from.
struct Places {
    /// They count from the barrel's shoulder, at the right; otherwise from bottomed, at the left.
    on_barrel: bool,
    /// In the order in which they are told.
    marks: Vec<(&'static str, Length, Pen)>,
    /// Where the slip runs, from farthest in to farthest out.
    band: (Length, Length),
    /// Where it must not run, and how far it shall stay off.
    barred: Option<(Length, Length, Length)>,
    end: Length,
}

/// The slip to scale. `None` while its travel, or a place on it, is not known.
pub fn slip(job: &Job) -> Option<String> {
    let places = match job.measure.kind {
        ShaftKind::SlipInGearbox => on_barrel(job),
        _ => on_spline(job),
    }?;
    let zero = Length::from_base(0.0);
    let all = || {
        let barred = places.barred.map_or([zero, zero], |(from, to, _)| [from, to]);
        places.marks.iter().map(|mark| mark.1).chain([zero, places.end]).chain(barred).map(Base::base)
    };
    let (least, most) = (all().fold(0.0, f64::min), all().fold(0.0, f64::max));
    let room = WIDTH - YOKE - BEYOND - 2.0 * MARGIN;
    let scale = room / (most - least);
    if !scale.is_finite() {
        return None;
    }
    let at = |place: Length| {
        let along = (place.base() - least) * scale;
        if places.on_barrel { WIDTH - MARGIN - YOKE - along } else { MARGIN + BEYOND + along }
    };

    let top = AXIS + BARREL + 20.0;
    let bottom = top + dimensions_height(places.marks.len());
    let mut svg = Svg::new(WIDTH, bottom + 44.0);
    svg.text(Pen::Thin, (MARGIN + 34.0, 20.0), Anchor::Start, "in");
    svg.arrow(Pen::Thin, (MARGIN + 30.0, 14.0), (MARGIN, 14.0));
    svg.text(Pen::Thin, (WIDTH - MARGIN - 34.0, 20.0), Anchor::End, "out");
    svg.arrow(Pen::Thin, (WIDTH - MARGIN - 30.0, 14.0), (WIDTH - MARGIN, 14.0));

    let (begins, ends) = (at(zero), at(places.end));
    body(&mut svg, begins, ends, places.on_barrel, least < 0.0);
    let high = |by: f64| (AXIS - BARREL - by, AXIS + BARREL + by);
    let boxed = |svg: &mut Svg, pen: Pen, (one, other): (Length, Length), by: f64, rising: bool| {
        let (one, other, (upper, lower)) = (at(one), at(other), high(by));
        let (from, to) = ((one.min(other), upper), (one.max(other), lower));
        svg.hatch(pen, from, to, rising);
        svg.frame(pen, from, to);
    };
    boxed(&mut svg, Pen::Accent, places.band, 0.0, true);
    if let Some((from, to, margin)) = places.barred {
        boxed(&mut svg, Pen::Ghost, (from, to), 11.0, false);
        for x in [at(from - margin), at(to + margin)] {
            svg.line(Pen::Ghost, (x, high(11.0).0), (x, high(11.0).1));
        }
    }
    let mut rows: Vec<Dimension> = Vec::new();
    for (word, place, pen) in &places.marks {
        let x = at(*place);
        if *pen != Pen::Ghost {
            svg.line(*pen, (x, high(8.0).0), (x, high(8.0).1));
        }
        let figure = crate::sheet::amount(Amount::Length(*place), job.display.lengths());
        let pen = if *pen == Pen::Ghost { Pen::Thin } else { *pen };
        rows.push(Dimension { from: begins, to: x, word, figure, pen });
    }
    dimensions(&mut svg, &rows, AXIS + BARREL, top);
    scale_bar(&mut svg, job, scale, bottom + 26.0);
    Some(svg.finish())
}

/// The lip's places on the slip yoke's barrel.
fn on_barrel(job: &Job) -> Option<Places> {
    let lip = lip_band(job).ok()?;
    let mut marks = vec![
        ("lip, bottomed", lip.bottomed, Pen::Thin),
        ("lip, yoke in", lip.from, Pen::Thin),
        ("lip at ride", lip.ride, Pen::Accent),
        ("lip, yoke out", lip.to, Pen::Thin),
    ];
    if let Some((inner, outer)) = lip.groove {
        marks.push(("groove", (inner + outer) / 2.0, Pen::Ghost));
    }
    marks.push(("barrel end", lip.barrel, Pen::Thin));
    let barred = lip.groove.map(|(inner, outer)| (inner, outer, lip.margin));
    Some(Places { on_barrel: true, marks, band: (lip.from, lip.to), barred, end: lip.barrel })
}

/// The slip's places on its spline, from bottomed.
fn on_spline(job: &Job) -> Option<Places> {
    let travel = travel(job).ok()?;
    let [ride, spline, least] =
        [Entry::SetPoint, Entry::SplineLength, Entry::LeastEngaged].map(|entry| {
            match read(job, entry) {
                Ok(Some(Amount::PlainLength(length))) => Some(length),
                _ => None,
            }
        });
    let (ride, spline, least) = (ride?, spline?, least?);
    let (from, to) = (ride - travel.inward, ride + travel.outward);
    let marks = vec![
        ("farthest in", from, Pen::Thin),
        ("at ride", ride, Pen::Accent),
        ("farthest out", to, Pen::Thin),
        ("out at most", spline - least, Pen::Part),
    ];
    let barred = Some((spline - least, spline, Length::from_base(0.0)));
    Some(Places { on_barrel: false, marks, band: (from, to), barred, end: spline })
}

/// The barrel with its yoke, where no place lies on that, or the spline.
fn body(svg: &mut Svg, begins: f64, ends: f64, on_barrel: bool, past_shoulder: bool) {
    svg.frame(Pen::Part, (begins, AXIS - BARREL), (ends, AXIS + BARREL));
    if on_barrel {
        let (wide, joint) = (BARREL + 10.0, begins + YOKE - 12.0);
        svg.line(Pen::Part, (begins, AXIS - wide), (begins, AXIS + wide));
        if past_shoulder {
            return;
        }
        let ear =
            [(begins, AXIS - wide), (joint, AXIS - 12.0), (joint, AXIS + 12.0), (begins, AXIS + wide)];
        svg.path(Pen::Part, &ear, false);
        svg.circle(Pen::Part, (joint - 12.0, AXIS), 9.0, false);
        cross(svg, Pen::Thin, joint - 12.0, AXIS);
    } else {
        for up in [-16.0, 0.0, 16.0] {
            svg.line(Pen::Thin, (begins, AXIS + up), (ends, AXIS + up));
        }
        // The stop on which it bottoms.
        svg.line(Pen::Part, (begins, AXIS - BARREL - 12.0), (begins, AXIS + BARREL + 12.0));
    }
}
