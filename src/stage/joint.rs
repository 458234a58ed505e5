//! The two joints: their true angles against what top speed, the needles and the layout allow.

use super::amount::Amount;
use super::bounds::{Bounds, inertia_source, least_source, with_bounds};
use super::finding::{Blocked, Finding, Law, Name, Reason, Sense, Source, Value, Verdict};
use super::reckoned::{Of, Reckoned};
use crate::job::Job;
use crate::mechanics::uncertainty::Measured;
use crate::quantity::{Angle, AngularAcceleration, Base, degrees, turn_rate_squared};

/// Parallel only while the equal angles stay below this (US Army TM 5-3820-256-24-4).
const MOST_PARALLEL_DEGREES: f64 = 12.0;

/// The bound of the parallel layout.
pub(super) fn most_parallel() -> Angle {
    degrees(MOST_PARALLEL_DEGREES)
}

/// The worse of two verdicts.
pub(super) fn worse(one: Verdict, other: Verdict) -> Verdict {
    let rank = |verdict: &Verdict| match verdict {
        Verdict::Stop(_) => 3,
        // What only might be so.
        Verdict::Watch(
            Reason::JointNearMost { .. } | Reason::JointNearLeast { .. } | Reason::NearShake { .. },
        ) => 1,
        Verdict::Watch(_) => 2,
        _ => 0,
    };
    if rank(&other) > rank(&one) { other } else { one }
}

/// A joint's true angle at ride, and how much it shakes the shaft: the front one in drive, the rear one on
/// the overrun. It is judged under power too, where the load is.
pub(super) fn finding(
    job: &Job,
    name: Name,
    ride: &Result<Reckoned, Blocked>,
    power: &Result<Reckoned, Blocked>,
) -> Finding {
    let (reckoned, bounds) = match with_bounds(job, ride) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(name, blocked),
    };
    let (of, gain) = match name {
        Name::FrontJoint => (Of::FrontJoint, Of::DriveGain),
        _ => (Of::RearJoint, Of::CoastGain),
    };
    let angle: Measured<Angle> = reckoned.measured(of, 1.0);
    let shaft: Measured<AngularAcceleration> = reckoned.measured(gain, turn_rate_squared(bounds.top));
    let (most, least) = (bounds.most_angle(), bounds.least);
    let mut verdict = judged(reckoned, of, bounds);
    // Without it the shake under power is not judged either, and says what is missing.
    if let Ok(power) = power {
        verdict = worse(verdict, judged(power, of, bounds));
    }
    let value = Value {
        amount: Amount::Angle(angle.best),
        plus_minus: Some(Amount::Angle(angle.spread.expanded())),
        sense: Some(Sense::ShakesShaft(shaft.best)),
    };
    let mut finding = Finding::known(name, value, reckoned.remarked(verdict))
        .step(
            Law::JointShake,
            &[Amount::Speed(bounds.top), Amount::Angle(angle.best)],
            Amount::Acceleration(shaft.best),
        )
        .step(
            Law::MostAngle,
            &[Amount::Acceleration(bounds.inertia), Amount::Speed(bounds.top)],
            Amount::Angle(most),
        )
        .within(Amount::Angle(most), inertia_source(bounds.inertia))
        .from(&[least_source(least), Source::UniversalJoints, Source::DoubtOfAngles]);
    if matches!(verdict, Verdict::Watch(Reason::ParallelOver { .. })) {
        finding = finding.from(&[Source::ParallelBound]);
    }
    finding.causes = reckoned.causes(of);
    finding
}

fn judged(reckoned: &Reckoned, of: Of, bounds: Bounds) -> Verdict {
    let Measured { best, spread } = reckoned.measured::<Angle>(of, 1.0);
    let (size, doubt) = (best.base(), spread.expanded().base());
    let (most, least, parallel) = (bounds.most_angle(), bounds.least, most_parallel());
    let both = [reckoned.line.front_joint(), reckoned.line.rear_joint()];
    if size > most.base() {
        Verdict::Stop(Reason::JointOverMost { allowed: most })
    } else if reckoned.is_parallel() && both.iter().all(|joint| joint.base() >= parallel.base()) {
        Verdict::Watch(Reason::ParallelOver { allowed: parallel })
    } else if size + doubt > most.base() {
        Verdict::Watch(Reason::JointNearMost { allowed: most })
    } else if size < least.base() {
        Verdict::Watch(Reason::JointTooStraight { least })
    } else if size - doubt < least.base() {
        Verdict::Watch(Reason::JointNearLeast { least })
    } else {
        Verdict::Good
    }
}
