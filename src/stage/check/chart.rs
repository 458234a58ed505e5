//! Whirl speed against length, for a chart: with half of it, top and cruising speed, and both lengths.

use super::build::built;
use super::elements::first;
use super::half::KEEP_OFF_HALF;
use super::speeds::{at_road, top_speed};
use super::whirl::{allowed_share, whirl_at};
use crate::job::{Entry, Job};
use crate::mechanics::drive_shaft::DriveShaft;
use crate::quantity::{AngularVelocity, Base, Length};
use crate::stage::field::Fields;
use crate::stage::measure::length_change;

/// Lengths that the curves are drawn through.
const POINTS: u16 = 24;
/// How far the chart goes past the shorter and the longer of both lengths.
const BELOW: f64 = 0.8;
const ABOVE: f64 = 1.2;

/// What the chart shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// Length and whirl speed: by elements where the yokes are known, else by the closed form.
    pub whirl: Vec<(Length, AngularVelocity)>,
    /// The same with what holds it giving way, where that was typed.
    pub soft: Vec<(Length, AngularVelocity)>,
    /// It is by elements.
    pub by_elements: bool,
    /// The share that is allowed.
    pub allowed: f64,
    /// How far to keep from half the whirl speed, as a share of that half.
    pub keep_off_half: f64,
    /// Top speed.
    pub top: Option<AngularVelocity>,
    /// Cruising speed.
    pub cruise: Option<AngularVelocity>,
    /// Old and new length.
    pub lengths: [Length; 2],
}

/// The chart; `None` while tube or lengths are not known.
pub fn chart(job: &Job) -> Option<Chart> {
    let lengths = length_change(job).ok()?;
    let (old, new) = (lengths.old.best, lengths.wanted.best);
    let (least, most) = if old < new { (old, new) } else { (new, old) };
    let (from, to) = (least * BELOW, most * ABOVE);
    let built = built(job).ok();
    let curve = |held: Option<&dyn Fn(Length) -> DriveShaft>| {
        let mut points = Vec::with_capacity(usize::from(POINTS) + 1);
        for step in 0..=POINTS {
            let length = from + (to - from) * (f64::from(step) / f64::from(POINTS));
            let speed = match held {
                // The tube grows and shrinks at the end that is cut, the yokes stay.
                Some(shaft) => first(&shaft(length)),
                None => whirl_at(job, length),
            };
            points.extend(speed.map(|speed| (length, speed)));
        }
        points
    };
    let whirl = match &built {
        Some(built) => curve(Some(&|length| built.at(length))),
        None => curve(None),
    };
    let soft = match built.as_ref().filter(|built| built.soft.iter().any(Option::is_some)) {
        Some(built) => curve(Some(&|length| built.softly(built.at(length)))),
        None => Vec::new(),
    };
    let road = Fields::of(job).optional(Entry::Cruise);
    let (allowed, _) = allowed_share(job);
    Some(Chart {
        whirl,
        soft,
        by_elements: built.is_some(),
        allowed,
        keep_off_half: KEEP_OFF_HALF,
        top: top_speed(job).ok().map(|top| top.speed),
        cruise: road.and_then(|road| at_road(job, road)),
        lengths: [old, new],
    })
    .filter(|chart| chart.whirl.iter().all(|(_, speed)| speed.base() > 0.0))
}

/// The first shape in which the new shaft bends: place from the front joint and deflection, 1 at its largest;
/// where it is held.
pub fn shape(job: &Job) -> Option<Shape> {
    let built = built(job).ok()?;
    let beam = built.softly(built.wanted()).beam()?;
    let held = beam.held.iter().map(|held| held.z).collect();
    let modes = beam.modes(super::elements::ELEMENTS).ok()?;
    Some(Shape { bends: modes.shape, held, length: built.length.best })
}

/// How the shaft bends at its first speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Place and deflection.
    pub bends: Vec<(Length, f64)>,
    /// Where it is held.
    pub held: Vec<Length>,
    /// Joint to joint.
    pub length: Length,
}
