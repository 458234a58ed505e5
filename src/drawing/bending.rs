//! The first shape in which the shaft bends, with where it is held.

use super::pieces::{MARGIN, WIDTH};
use super::svg::{Anchor, Pen, Svg};
use crate::job::Job;
use crate::quantity::Base;
use crate::stage::check::shape;

const MIDDLE: f64 = 96.0;
/// How far the largest deflection is drawn.
const DEFLECTION: f64 = 56.0;
/// Height of a support's triangle.
const SUPPORT: f64 = 18.0;
const HEIGHT: f64 = 172.0;

/// The shape; `None` while yokes or tube are not known.
pub fn bending(job: &Job) -> Option<String> {
    let shape = shape(job)?;
    let (left, right) = (4.0 * MARGIN, WIDTH - 4.0 * MARGIN);
    let whole = shape.length.base();
    let x = |z: crate::quantity::Length| left + (right - left) * z.base() / whole;
    let points: Vec<(f64, f64)> =
        shape.bends.iter().map(|(z, by)| (x(*z), MIDDLE - DEFLECTION * by)).collect();
    if points.len() < 2 || points.iter().any(|(x, y)| !(x.is_finite() && y.is_finite())) {
        return None;
    }
    let mut svg = Svg::new(WIDTH, HEIGHT);
    svg.line(Pen::Ghost, (left, MIDDLE), (right, MIDDLE));
    svg.path(Pen::Accent, &points, false);
    let mirrored: Vec<(f64, f64)> = points.iter().map(|(x, y)| (*x, 2.0 * MIDDLE - y)).collect();
    svg.path(Pen::Ghost, &mirrored, false);
    for z in &shape.held {
        let at = x(*z);
        // It is held where its line goes through there, however soft.
        let y = nearest(&points, at);
        let foot = y + SUPPORT;
        svg.path(Pen::Part, &[(at, y), (at - 10.0, foot), (at + 10.0, foot)], true);
    }
    svg.text(Pen::Thin, (left, HEIGHT - 12.0), Anchor::Start, "front joint");
    svg.text(Pen::Thin, (right, HEIGHT - 12.0), Anchor::End, "rear joint");
    Some(svg.finish())
}

/// The height of the drawn line at a place.
fn nearest(points: &[(f64, f64)], at: f64) -> f64 {
    let far = |point: &(f64, f64)| (point.0 - at).abs();
    let mut best: Option<&(f64, f64)> = None;
    for point in points {
        if best.is_none_or(|known| far(point) < far(known)) {
            best = Some(point);
        }
    }
    best.map_or(MIDDLE, |(_, y)| *y)
}
