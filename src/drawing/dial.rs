//! What the drawings of True share: the dial's own count, the marks' names, the limit.

use crate::job::{Dial, Entry, Job, MarkNames, SeamBy, Stations, TurnedHow};
use crate::quantity::{Angle, Length, as_millimetres, as_thousandths, degrees, show_number};
use crate::stage::truing::limit;
use crate::stage::{Amount, read};

/// Least height of a scale either way, in the dial's count: a flat turn shows as flat.
pub(super) const LEAST_SCALE: f64 = 2.0;
/// A limit that lies farther out than so many times what was read would flatten all the rest: it is
/// named, not drawn.
const LIMIT_UP_TO: f64 = 3.0;

/// A length as the dial counts: in thousandths of an inch, or hundredths of a millimetre.
pub(super) fn in_lines(job: &Job, length: Length) -> f64 {
    match job.truing.dial {
        Dial::Hundredth => as_millimetres(length) * 100.0,
        Dial::Thousandth | Dial::HalfThousandth => as_thousandths(length),
    }
}

/// What one of that count is.
pub(super) const fn unit(job: &Job) -> &'static str {
    match job.truing.dial {
        Dial::Hundredth => "0.01 mm",
        Dial::Thousandth | Dial::HalfThousandth => "0.001 in",
    }
}

/// A number of the dial's count, with half a line where it has one.
pub(super) fn shown(lines: f64) -> String {
    let whole = (lines - lines.round()).abs() < 0.05;
    show_number(lines, usize::from(!whole))
}

/// Lets a scale reach as far as this. A height that is no number is never passed over, as `max` would.
pub(super) fn reach(most: &mut f64, far: f64) {
    if far > *most || far.is_nan() {
        *most = far;
    }
}

/// A magnification that can be said: down to a whole or a half of its first figure.
pub(super) fn down_to_half_a_figure(times: f64) -> f64 {
    let half = 0.5 * 10.0_f64.powi(times.log10().floor() as i32);
    (times / half).floor() * half
}

/// The limit of the total reading shows half above the mean and half below: one half, in the dial's
/// count.
pub(super) fn half_limit(job: &Job) -> Option<f64> {
    let half = 0.5 * in_lines(job, limit(job)?);
    half.is_finite().then_some(half)
}

/// Half of the limit and whether it is drawn beside readings that reach so far.
pub(super) fn drawn_limit(job: &Job, most: f64) -> Option<(f64, bool)> {
    half_limit(job).map(|half| (half, half <= LIMIT_UP_TO * most))
}

/// The place on the tube where its seam is known to be.
pub(super) fn known_seam(job: &Job) -> Option<Angle> {
    match read(job, Entry::SeamClock) {
        Ok(Some(Amount::Clock(at))) if job.truing.seam == SeamBy::Known => Some(at),
        _ => None,
    }
}

/// What the mark at a quarter of the clock is called.
pub(super) fn quarter_name(job: &Job, pass: usize, quarter: usize) -> String {
    let around = quarter % 4;
    // Turned clockwise, the marks come one after the other the other way round.
    let counted = if job.truing.turned == TurnedHow::Clockwise { (4 - around) % 4 } else { around };
    let stations = job.truing.passes.get(pass).map(|pass| pass.stations);
    match (job.truing.marks, stations.and_then(Stations::evenly)) {
        (MarkNames::Degrees, _) => format!("{}°", 90 * quarter),
        (MarkNames::Numbers, Some(count)) => (1 + counted * count / 4).to_string(),
        _ => (if around == 0 { 12 } else { 3 * around }).to_string(),
    }
}

/// Points on a drawn curve: one every seven and a half degrees, fine enough for a second order.
pub(super) const STEPS: usize = 48;

/// The place of a point of a curve.
pub(super) fn round(step: usize) -> Angle {
    degrees(360.0 * step as f64 / STEPS as f64)
}
