//! The speed of the runs: against the whirl speed, and as a speed on the road.

use super::found::{OnTheCar, RunReason, RunSense};
use super::why;
use crate::job::{Entry, Job};
use crate::quantity::{Base, RoadSpeed, miles_per_hour};
use crate::stage::amount::Amount;
use crate::stage::check::{of_whirl, road_at};
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Name, Reason, Sense, Source, Value, Verdict};

/// Faster than this nobody runs wheels off the ground. Common practice, no source; the cautions say it too.
const MOST_MILES_PER_HOUR: f64 = 55.0;
/// A speed worked out from two others is the same within this.
const ROUNDING: f64 = 1e-9;

/// What the wheels then do on the speedometer: by tyre and axle, or where the shaft's top speed is known both
/// ways.
///
/// Formula: v = V·n/N. Symbols: n speed of the runs, N top speed, V road speed at that.
/// Source: proportion. Assumes the same gear of the axle.
fn on_the_road(job: &Job) -> Option<RoadSpeed> {
    let mut fields = Fields::of(job);
    let (run, top) = (fields.speed(Entry::RunSpeed)?, fields.top_speed());
    let road = fields.road_speed(Entry::RoadSpeed);
    // Tyre and axle go before a speed that was typed for the chart of Angles.
    road_at(job, run).or_else(|| Some(road? * (run.base() / top?.base())))
}

/// The speed of the runs, judged by what of the two is known; nothing where neither is.
pub(super) fn run_speed(job: &Job) -> Option<Finding> {
    let speed = Fields::of(job).speed(Entry::RunSpeed)?;
    let (whirl, road) = (of_whirl(job, speed), on_the_road(job));
    if whirl.is_none() && road.is_none() {
        return None;
    }
    let most = miles_per_hour(MOST_MILES_PER_HOUR);
    let too_fast = road.filter(|road| road.base() > most.base() * (1.0 + ROUNDING));
    let verdict = match (&whirl, too_fast) {
        (Some(by), _) if by.share > by.allowed => {
            Verdict::Stop(why(RunReason::OverWhirl { allowed: by.allowed }))
        }
        (_, Some(_)) => Verdict::Watch(why(RunReason::FastOnTheRoad)),
        (Some(by), _) if by.share + by.doubt > by.allowed => {
            Verdict::Watch(Reason::NearWhirlShare { allowed: by.allowed })
        }
        (Some(_), _) => Verdict::Good,
        (None, _) => Verdict::Figure,
    };
    let sense =
        Sense::OnTheCar(RunSense::AtThatSpeed { share: whirl.as_ref().map(|by| by.share), road });
    let value = Value { amount: Amount::Speed(speed), plus_minus: None, sense: Some(sense) };
    let mut finding = Finding::known(Name::OnTheCar(OnTheCar::Speed), value, verdict);
    if let Some(by) = whirl {
        let put_in = [Amount::Speed(speed), Amount::EstimatedSpeed(by.whirl)];
        finding = finding
            .step(Law::WhirlShare, &put_in, Amount::Share(by.share))
            .within(Amount::Share(by.allowed), by.source)
            .from(&[Source::WhirlBeam]);
    }
    Some(if road.is_some() { finding.from(&[Source::CommonPractice]) } else { finding })
}
