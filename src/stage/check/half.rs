//! Half of the whirl speed, where the joints' two shakes a turn meet the bending of the shaft.

use super::build::built;
use super::elements;
use super::found::{Fit, FitReason, FitSense};
use super::speeds::{at_road, tyre};
use super::whirl::whirl_speed;
use super::{name, sense, why};
use crate::job::{Entry, Job};
use crate::quantity::{AngularVelocity, Base};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Blocked, Finding, Source, Value, Verdict};

/// How far a cruising speed keeps from half the whirl speed, as a share of that half. Published: a cardan-shaft
/// maker's catalogue, whose words leave open of what the 8 % are; here of the half.
pub const KEEP_OFF_HALF: f64 = 0.08;

/// The whirl speeds that half of is to be kept off, lowest and highest: held as softly as was typed, rigidly,
/// and by the closed form where no elements are known.
pub fn whirl_span(job: &Job) -> Result<[AngularVelocity; 2], Blocked> {
    let built = match built(job) {
        Ok(built) => built,
        Err(_) => return whirl_speed(job).map(|speed| [speed, speed]),
    };
    match (elements::first(&built.softly()), elements::first(&built.new)) {
        (Some(low), Some(high)) => Ok([low, high]),
        _ => whirl_speed(job).map(|speed| [speed, speed]),
    }
}

/// The cruising speed against half of the whirl speed; nothing before it is asked for.
pub(super) fn finding(job: &Job) -> Option<Finding> {
    let mut fields = Fields::of(job);
    if fields.is_empty(Entry::Cruise) {
        return None;
    }
    let road = fields.road_speed(Entry::Cruise);
    fields.sum(tyre(job));
    fields.reading(Entry::AxleRatio);
    let needs = fields.needs();
    let fit = name(Fit::Half);
    let Some(road) = road.filter(|_| needs.is_empty()) else {
        return Some(Finding::missing(fit, needs));
    };
    let [low, high] = match whirl_span(job) {
        Ok(span) => span,
        Err(blocked) => return Some(Finding::blocked(fit, blocked)),
    };
    let cruise = at_road(job, road)?;
    let (from, to) = (low * (0.5 * (1.0 - KEEP_OFF_HALF)), high * (0.5 * (1.0 + KEEP_OFF_HALF)));
    // The nearer of both, where they differ.
    let half = if (cruise.base() - 0.5 * low.base()).abs() < (cruise.base() - 0.5 * high.base()).abs() {
        low * 0.5
    } else {
        high * 0.5
    };
    let verdict = if cruise >= from && cruise <= to {
        Verdict::Watch(why(FitReason::NearHalf { half }))
    } else {
        Verdict::Good
    };
    let value = Value {
        amount: Amount::EstimatedSpeed(cruise),
        plus_minus: None,
        sense: Some(sense(FitSense::FromHalf { half, road: Some(road) })),
    };
    let finding = Finding::known(fit, value, verdict);
    Some(
        finding
            .within(Amount::Percent(KEEP_OFF_HALF), Source::CardanMakerHalf)
            .from(&[Source::Geometry]),
    )
}
