//! The slip over the axle's whole travel: room at bump, engaged spline at droop.

use super::amount::{Amount, plain};
use super::field::Fields;
use super::finding::{Blocked, Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
use super::length::{LAST_BIT, division, length_change, wanted};
use super::line::gearbox_slope;
use crate::job::{Entry, Guide, Job, ShaftKind, TravelBy};
use crate::mechanics::travel::{Extremes, Link, Parabola, Swing, extremes};
use crate::mechanics::uncertainty::{Spread, combined, of_division, rectangular};
use crate::quantity::{Angle, Base, Length, degrees, inches};

/// How well a slope is known that was read at the shaft, ±. Our own choice.
const SLOPE_DOUBT_DEGREES: f64 = 0.5;

/// How far the output shaft's slope, while it was not read at Angles, may differ from the shaft's own, ±.
/// Our own choice.
const OUTPUT_DOUBT_DEGREES: f64 = 5.0;

/// How well the axle's travel is known, ±. Our own choice.
fn height_doubt() -> Length {
    inches(0.25)
}

/// How the distance between the joints changes over the travel.
#[derive(Clone, Copy, Debug)]
pub struct Travel {
    /// How far the slip goes in from its set point, never negative.
    pub inward: Length,
    /// How far it comes out from its set point, never negative.
    pub outward: Length,
    /// Height of the axle at which it is in farthest, + above ride.
    pub inward_at: Length,
    /// Doubt of either.
    pub spread: Spread<Length>,
}

/// What the travel is reckoned from.
#[derive(Clone, Copy)]
struct Path {
    swing: Swing,
    /// Standard uncertainty of the output shaft's slope.
    output_doubt: Angle,
    bump: Length,
    droop: Length,
}

impl Path {
    fn extremes(self) -> Option<Extremes> {
        extremes(&|up| self.swing.distance(up), self.droop, self.bump)
    }
}

/// The travel of the slip.
///
/// # Errors
/// The fields that are needed, or why the numbers do not go together.
pub fn travel(job: &Job) -> Result<Travel, Blocked> {
    let mut fields = Fields::of(job);
    let (bump, droop) = (fields.length(Entry::BumpTravel), fields.length(Entry::DroopTravel));
    match job.slip.by {
        TravelBy::Measured => {
            let at = [Entry::AtBump, Entry::AtRide, Entry::AtDroop].map(|entry| fields.length(entry));
            let (Some(bump), Some(droop), [Some(at_bump), Some(at_ride), Some(at_droop)]) =
                (bump, droop, at)
            else {
                return Err(Blocked::Missing(fields.needs()));
            };
            measured(job, (bump, at_bump), at_ride, (droop, at_droop))
        }
        TravelBy::Reckoned => {
            let length = fields.sum(wanted(job));
            let slope = fields.angle(Entry::ShaftSlope);
            let link = match job.slip.guide {
                Guide::Straight => Some(None),
                guide => {
                    let (radius, rise) =
                        (fields.length(Entry::LinkRadius), fields.length(Entry::LinkRise));
                    radius.zip(rise).map(|(radius, rise)| {
                        Some(Link { radius, rise, trails: guide == Guide::Trailing })
                    })
                }
            };
            let (Some(bump), Some(droop), Some(length), Some(slope), Some(link)) =
                (bump, droop, length, slope, link)
            else {
                return Err(Blocked::Missing(fields.needs()));
            };
            let (output, output_doubt) = match gearbox_slope(job) {
                Some(read) => (read.best, read.spread.standard),
                None => (slope, rectangular(degrees(OUTPUT_DOUBT_DEGREES)).standard),
            };
            let output = (job.measure.kind == ShaftKind::SlipInGearbox).then_some(output);
            let swing = Swing { length: length.best, slope, link, output };
            reckoned(Path { swing, output_doubt, bump, droop })
        }
    }
}

/// From the distance measured at bump, ride and droop, with a parabola through the three to look between.
fn measured(
    job: &Job,
    bump: (Length, Length),
    ride: Length,
    droop: (Length, Length),
) -> Result<Travel, Blocked> {
    let unfit = Blocked::Impossible(Reason::TravelUnfit);
    let curve = Parabola::through(bump, ride, droop).ok_or(unfit.clone())?;
    let found = extremes(&|up| curve.distance(up), droop.0, bump.0).ok_or(unfit)?;
    let line = of_division(division(job));
    Ok(between(ride, found, combined(&[line, line])))
}

/// From the geometry: what each input's doubt does is found by moving it.
fn reckoned(path: Path) -> Result<Travel, Blocked> {
    let unfit = || Blocked::Impossible(Reason::TravelUnfit);
    let found = path.extremes().ok_or_else(unfit)?;
    let ride = path.swing.length;
    let height = rectangular(height_doubt()).standard;
    // The larger move of either end either way: about a level shaft a slope up and a slope down lengthen
    // the same end, and half their difference would be nothing.
    let moved = |change: &dyn Fn(&mut Path, f64)| {
        let mut most = 0.0_f64;
        for way in [1.0, -1.0] {
            let mut other = path;
            change(&mut other, way);
            let other = other.extremes()?;
            most = most
                .max((other.least - found.least).base().abs())
                .max((other.greatest - found.greatest).base().abs());
        }
        Some(Spread { standard: Length::from_base(most), freedom: f64::INFINITY })
    };
    let zero = Length::from_base(0.0);
    let (slope, output) = (rectangular(degrees(SLOPE_DOUBT_DEGREES)).standard, path.output_doubt);
    let parts = [
        moved(&|path, way| path.swing.slope += slope * way),
        moved(&|path, way| path.bump = larger(path.bump + height * way, zero)),
        moved(&|path, way| path.droop = larger(path.droop + height * way, zero)),
        moved(&|path, way| {
            path.swing.output = path.swing.output.map(|known| known + output * way);
        }),
    ];
    let parts: Option<Vec<Spread<Length>>> = parts.into_iter().collect();
    Ok(between(ride, found, combined(&parts.ok_or_else(unfit)?)))
}

pub(super) fn larger(one: Length, other: Length) -> Length {
    if one.base() > other.base() { one } else { other }
}

fn between(ride: Length, found: Extremes, spread: Spread<Length>) -> Travel {
    let zero = Length::from_base(0.0);
    Travel {
        inward: larger(ride - found.least, zero),
        outward: larger(found.greatest - ride, zero),
        inward_at: found.least_at,
        spread,
    }
}

/// What follows for the slip.
pub(super) fn findings(job: &Job, travel: &Result<Travel, Blocked>) -> Vec<Finding> {
    vec![
        set_point_finding(job, travel.is_ok()),
        plunge_in(job, travel),
        plunge_out(job, travel),
        engaged(job, travel),
    ]
}

fn set_point_finding(job: &Job, travel_known: bool) -> Finding {
    let mut fields = Fields::of(job);
    let Some(set_point) = fields.length(Entry::SetPoint) else {
        return Finding::missing(Name::SetPoint, fields.needs());
    };
    // Where the travel is known, the cards on the travel judge it.
    let verdict =
        if travel_known { Verdict::Figure } else { Verdict::Unjudged(Reason::TravelNotChecked) };
    let value = Value {
        amount: Amount::Length(set_point),
        plus_minus: Some(plain(of_division(division(job)).expanded())),
        sense: None,
    };
    Finding::known(Name::SetPoint, value, verdict).from(&[Source::CommonPractice])
}

/// The travel and these fields, or what stands in the way.
pub(super) fn with<'a, const N: usize>(
    job: &Job,
    travel: &'a Result<Travel, Blocked>,
    entries: [Entry; N],
) -> Result<(&'a Travel, [Length; N]), Blocked> {
    let mut fields = Fields::of(job);
    let lengths = entries.map(|entry| fields.length(entry));
    if let Err(Blocked::Missing(needs)) = travel {
        fields.also(needs);
    }
    let needs: Vec<Need> = fields.needs();
    let mut all = [Length::from_base(0.0); N];
    for (slot, length) in all.iter_mut().zip(lengths) {
        *slot = length.unwrap_or(*slot);
    }
    match travel {
        _ if !needs.is_empty() => Err(Blocked::Missing(needs)),
        Ok(travel) => Ok((travel, all)),
        Err(blocked) => Err(blocked.clone()),
    }
}

/// Doubt of a room between the travel and dimensions read once each. A shaft that comes out longer
/// than wanted pushes the slip in by as much, so all that a finished length may be off is in it.
pub(super) fn doubt(job: &Job, travel: &Travel, dimensions: usize) -> Length {
    let line = of_division(division(job));
    let mut parts = vec![line; dimensions];
    parts.push(travel.spread);
    parts.extend(length_change(job).map(|both| both.change.spread));
    if let Some(shrinkage) = Fields::of(job).length(Entry::Shrinkage) {
        parts.extend([line, line, rectangular(shrinkage)]);
    }
    combined(&parts).expanded()
}

/// Good with its ± in hand, watch within it, stop short of it.
fn room(left: Length, wanted: Length, doubt: Length, short: Reason, near: Reason) -> Verdict {
    let spare = (left - wanted).base();
    if spare >= doubt.base() {
        Verdict::Good
    } else if spare >= -LAST_BIT {
        Verdict::Watch(near)
    } else {
        Verdict::Stop(short)
    }
}

pub(super) fn plunge_in(job: &Job, travel: &Result<Travel, Blocked>) -> Finding {
    let name = Name::PlungeIn;
    let (travel, [set_point, least]) = match with(job, travel, [Entry::SetPoint, Entry::BumpRoom]) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(name, blocked),
    };
    let doubt = doubt(job, travel, 1);
    let left = set_point - travel.inward;
    let verdict = room(left, least, doubt, Reason::TooCloseToBump { least }, Reason::NearBump { least });
    let value = Value {
        amount: Amount::Length(travel.inward),
        plus_minus: Some(plain(doubt)),
        sense: Some(Sense::Of { available: larger(set_point - least, Length::from_base(0.0)) }),
    };
    Finding::known(name, value, verdict)
        .step(Law::LeastDistance, &[plain(travel.inward_at)], plain(travel.inward))
        .step(Law::RoomIn, &[plain(set_point), plain(travel.inward)], plain(left))
        .within(Amount::Length(least), Source::CommonPractice)
        .from(travel_sources(job))
}

pub(super) fn plunge_out(job: &Job, travel: &Result<Travel, Blocked>) -> Finding {
    let name = Name::PlungeOut;
    let fields = [Entry::SetPoint, Entry::SplineLength, Entry::LeastEngaged];
    let (travel, [set_point, spline, least]) = match with(job, travel, fields) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(name, blocked),
    };
    let doubt = doubt(job, travel, 2);
    let available = spline - least - set_point;
    let verdict = room(
        available,
        travel.outward,
        doubt,
        Reason::TooLittleSpline { least },
        Reason::NearLeastSpline { least },
    );
    let value = Value {
        amount: Amount::Length(travel.outward),
        plus_minus: Some(plain(doubt)),
        sense: Some(Sense::Of { available: larger(available, Length::from_base(0.0)) }),
    };
    Finding::known(name, value, verdict)
        .step(Law::PlungeOut, &[plain(spline), plain(least), plain(set_point)], plain(available))
        .within(Amount::Length(least), Source::CommonPractice)
        .from(travel_sources(job))
}

fn engaged(job: &Job, travel: &Result<Travel, Blocked>) -> Finding {
    let name = Name::EngagedSpline;
    let fields = [Entry::SetPoint, Entry::SplineLength, Entry::LeastEngaged];
    let (travel, [set_point, spline, least]) = match with(job, travel, fields) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(name, blocked),
    };
    let doubt = doubt(job, travel, 2);
    let left = spline - set_point - travel.outward;
    let (short, near) = (Reason::TooLittleSpline { least }, Reason::NearLeastSpline { least });
    // Out of its spline altogether there is no length to show.
    let engaged = larger(left, Length::from_base(0.0));
    let value = Value { amount: Amount::Length(engaged), plus_minus: Some(plain(doubt)), sense: None };
    Finding::known(name, value, room(left, least, doubt, short, near))
        .step(Law::EngagedSpline, &[plain(spline), plain(set_point), plain(travel.outward)], plain(left))
        .within(Amount::Length(least), Source::CommonPractice)
        .from(travel_sources(job))
}

pub(super) const fn travel_sources(job: &Job) -> &'static [Source] {
    match job.slip.by {
        TravelBy::Measured => &[Source::Geometry, Source::Gum],
        TravelBy::Reckoned => &[Source::Geometry, Source::DoubtOfTravel],
    }
}
