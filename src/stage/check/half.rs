//! Half of the whirl speed, where the joints' two shakes a turn meet the bending of the shaft.

use super::build::built;
use super::elements::with_doubt;
use super::found::{Fit, FitReason, FitSense};
use super::speeds::{at_road, tyre};
use super::whirl::whirl_with_doubt;
use super::{name, sense, why};
use crate::job::{Entry, Job};
use crate::quantity::{AngularVelocity, Base};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Blocked, Finding, Need, Reason, Source, Value, Verdict, Why};

/// How far a cruising speed keeps from half the whirl speed, as a share of that half. Published: a cardan-shaft
/// maker's catalogue, whose words leave open of what the 8 % are; here of the half.
pub const KEEP_OFF_HALF: f64 = 0.08;

/// The least and the greatest whirl speed that half of is to be kept off: held as softly as was typed and
/// rigidly, each with its ±; by the closed form where the yokes are not known. Also whether what holds both joints
/// was typed: else it may be softer than rigid by anything.
fn span(job: &Job) -> Result<([AngularVelocity; 2], bool), Blocked> {
    let wrong = |need: &Need| matches!(need.why, Why::Wrong(_));
    let built = match built(job) {
        Ok(built) => built,
        // What is wrong holds it up; what is not given yet does not.
        Err(Blocked::Missing(needs)) if needs.iter().any(wrong) => {
            return Err(Blocked::Missing(needs.into_iter().filter(wrong).collect()));
        }
        Err(Blocked::Missing(_)) => {
            return whirl_with_doubt(job).map(|(speed, doubt)| ([speed - doubt, speed + doubt], false));
        }
        Err(blocked) => return Err(blocked),
    };
    let new = built.wanted();
    let unreckoned = Blocked::Impossible(why(FitReason::NotReckoned));
    let Some(rigid) = with_doubt(job, &built, &new) else { return Err(unreckoned) };
    let highest = rigid.speed + rigid.doubt;
    let soft = if built.soft.iter().any(Option::is_some) {
        with_doubt(job, &built, &built.softly(new)).ok_or(unreckoned)?
    } else {
        rigid
    };
    Ok(([soft.speed - soft.doubt, highest], built.soft.iter().all(Option::is_some)))
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
    let ([low, high], held) = match span(job) {
        Ok(span) => span,
        Err(blocked) => return Some(Finding::blocked(fit, blocked)),
    };
    let Some(cruise) = at_road(job, road) else {
        return Some(Finding::impossible(fit, Reason::NotComputable));
    };
    let (from, to) = (low * (0.5 * (1.0 - KEEP_OFF_HALF)), high * (0.5 * (1.0 + KEEP_OFF_HALF)));
    // The nearer edge of what half of it may be, by its own share.
    let off = |whirl: AngularVelocity| (cruise.base() / (0.5 * whirl.base()) - 1.0).abs();
    let half = if off(low) < off(high) { low * 0.5 } else { high * 0.5 };
    let verdict = if cruise >= from && cruise <= to {
        // Held less softly than was typed, the half lies anywhere between.
        let between = FitReason::BetweenHalves { low: low * 0.5, high: high * 0.5 };
        let near = off(half * 2.0) <= KEEP_OFF_HALF;
        Verdict::Watch(why(if near { FitReason::NearHalf { half } } else { between }))
    } else if cruise < from && !held {
        // A softer hold lowers the half toward it.
        Verdict::Figure
    } else {
        Verdict::Good
    };
    let value = Value {
        amount: Amount::EstimatedSpeed(cruise),
        plus_minus: None,
        sense: Some(sense(FitSense::FromHalf { half, road, if_rigid: verdict == Verdict::Figure })),
    };
    let finding = Finding::known(fit, value, verdict);
    Some(
        finding
            .within(Amount::Percent(KEEP_OFF_HALF), Source::CardanMakerHalf)
            .from(&[Source::Geometry]),
    )
}
