//! Angles: how gearbox, shaft and pinion lie, and what both joints make of it at the top speed.

use super::amount::{Amount, plain};
pub use super::bounds::{Bounds, bounds};
use super::bounds::{shake_source, with_bounds};
use super::field::Fields;
use super::finding::{Blocked, Finding, Law, Name, Need, Reason, Sense, Shaken, Source, Value, Verdict};
use super::joint::{self, worse};
pub use super::line::reading_apart;
use super::line::{MeasuredLine, measured_line};
pub use super::reckoned::At;
use super::reckoned::{Of, Reckoned, moved};
use super::reset;
use crate::job::{Entry, Job, PlanBy};
use crate::mechanics::attitude::Attitude;
use crate::mechanics::line::{Line, acceleration, joint_with_gain};
use crate::mechanics::uncertainty::Measured;
use crate::quantity::{Angle, AngularAcceleration, Base, Length, RoadSpeed, degrees, turn_rate_squared};

/// What follows from the angles.
pub fn findings(job: &Job) -> Vec<Finding> {
    let measured = measured_line(job);
    let [power, ride, bump, droop] =
        [At::Power, At::Ride, At::Bump, At::Droop].map(|at| reckoned_at(job, &measured, at));
    let mut found = vec![
        shake(job, Name::ShakeUnderPower, &power),
        shake(job, Name::ShakeAtRide, &ride),
        smooth(job, &power, &ride),
        joint::finding(job, Name::FrontJoint, &ride, &power),
        joint::finding(job, Name::RearJoint, &ride, &power),
        slope(job, &measured, &ride),
        swing(&power),
        shake(job, Name::ShakeAtBump, &bump),
        shake(job, Name::ShakeAtDroop, &droop),
    ];
    if job.angles.plan_by != PlanBy::Straight {
        found.push(twist(&ride));
    }
    found.extend(reset::findings(job, measured.as_ref().ok(), &power));
    found
}

/// The first of them alone.
pub(super) fn first(job: &Job) -> Finding {
    shake(job, Name::ShakeUnderPower, &reckoned_at(job, &measured_line(job), At::Power))
}

/// What is reckoned of the line there, or all that stands in its way at once.
fn reckoned_at(
    job: &Job,
    measured: &Result<MeasuredLine, Vec<Need>>,
    at: At,
) -> Result<Reckoned, Blocked> {
    match (measured, moved(job, at)) {
        (Ok(measured), Ok(moved)) => measured.reckon(moved),
        (measured, moved) => {
            let mut fields = Fields::of(job);
            for needs in [measured.as_ref().err(), moved.as_ref().err()].into_iter().flatten() {
                fields.also(needs);
            }
            Err(Blocked::Missing(fields.needs()))
        }
    }
}

/// The line there, for a drawing.
pub fn line(job: &Job, at: At) -> Option<Line> {
    reckoned_at(job, &measured_line(job), at).ok().map(|reckoned| reckoned.line)
}

/// The slopes and plan angles of that line, for a drawing.
pub fn attitude(job: &Job, at: At) -> Option<Attitude> {
    reckoned_at(job, &measured_line(job), at).ok().map(|reckoned| reckoned.attitude)
}

/// How shakes grow with speed: each is its gain times the square of the shaft's speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Growth {
    /// Of the pinion, under power.
    pub pinion: f64,
    /// Of the shaft in drive and on the overrun.
    pub shaft: [f64; 2],
    /// Top speed and limits.
    pub bounds: Bounds,
    /// Road speed at the shaft's top speed, where it was given.
    pub road: Option<RoadSpeed>,
}

/// How shakes grow with speed; `None` while they or the limits are not known.
pub fn growth(job: &Job) -> Option<Growth> {
    let measured = measured_line(job);
    let [power, ride] = [At::Power, At::Ride].map(|at| reckoned_at(job, &measured, at).ok());
    let (power, ride) = (power?.line, ride?.line);
    Some(Growth {
        pinion: power.peaks().pinion_gain,
        shaft: [ride.peaks().shaft_gain, ride.overrun().peaks().shaft_gain],
        bounds: bounds(job).ok()?,
        road: Fields::of(job).road_speed(Entry::RoadSpeed),
    })
}

/// How much the pinion is shaken at top speed.
fn shake(job: &Job, name: Name, reckoned: &Result<Reckoned, Blocked>) -> Finding {
    let (reckoned, bounds) = match with_bounds(job, reckoned) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(name, blocked),
    };
    let factor = turn_rate_squared(bounds.top);
    let found: Measured<AngularAcceleration> = reckoned.measured(Of::PinionGain, factor);
    let (size, doubt) = (found.best.base(), found.spread.expanded());
    let allowed = bounds.shake;
    // What lies within its ± is not worth a word where the axle stands for a moment.
    let passes = matches!(name, Name::ShakeAtBump | Name::ShakeAtDroop);
    let verdict = if size > allowed.base() {
        // At bump and droop the axle stays for a moment, and without power little torque is on it.
        match name {
            Name::ShakeUnderPower => Verdict::Stop(Reason::OverShake { allowed }),
            _ => Verdict::Watch(Reason::OverShakeThere { allowed }),
        }
    } else if size + doubt.base() > allowed.base() && !passes {
        Verdict::Watch(Reason::NearShake { allowed })
    } else {
        Verdict::Good
    };
    let verdict = match name {
        Name::ShakeAtBump | Name::ShakeAtDroop => match reach(job, reckoned) {
            Ok(reach) => worse(reach, verdict),
            Err(needs) => return Finding::missing(name, needs),
        },
        _ => verdict,
    };
    let verdict = reckoned.remarked(verdict);
    let gain = size / factor;
    let one = joint_with_gain(gain);
    let value = Value {
        amount: Amount::Acceleration(found.best),
        plus_minus: Some(Amount::Acceleration(doubt)),
        sense: one.map(|angle| Sense::AsOneJoint {
            angle,
            front: reckoned.line.front_joint(),
            rear: reckoned.line.rear_joint(),
        }),
    };
    let mut finding = Finding::known(name, value, verdict)
        .step(
            Law::TrueAngles,
            &[
                Amount::Angle(reckoned.attitude.gearbox.slope),
                Amount::Angle(reckoned.attitude.shaft.slope),
                Amount::Angle(reckoned.attitude.pinion.slope),
                Amount::Angle(reckoned.line.front_joint()),
            ],
            Amount::Angle(reckoned.line.rear_joint()),
        )
        .step(
            Law::EquivalentAngle,
            &[
                Amount::Angle(reckoned.line.front_joint()),
                Amount::Angle(reckoned.line.rear_joint()),
                Amount::Angle(reckoned.attitude.phase),
                Amount::Angle(reckoned.line.twist().unwrap_or(degrees(0.0))),
            ],
            Amount::Angle(reckoned.line.equivalent()),
        );
    if let Some(one) = one {
        finding = finding.step(
            Law::JointShake,
            &[Amount::Speed(bounds.top), Amount::Angle(one)],
            Amount::Acceleration(found.best),
        );
    }
    finding.causes = reckoned.causes(Of::PinionGain);
    finding.within(Amount::Acceleration(allowed), shake_source(allowed)).from(&[
        Source::UniversalJoints,
        Source::JointsInSeries,
        Source::DoubtOfAngles,
    ])
}

/// The most that is said of a speed, in times the top speed.
const MOST_OF_TOP: f64 = 5.0;

/// Past this without a maker's figure a joint is to be looked at. Our own choice.
const FAR_DEGREES: f64 = 15.0;

/// Whether the joints allow the angles that they have there.
fn reach(job: &Job, reckoned: &Reckoned) -> Result<Verdict, Vec<Need>> {
    let mut fields = Fields::of(job);
    let most = (!fields.is_empty(Entry::JointMost)).then(|| fields.angle(Entry::JointMost));
    let (front, rear) = (reckoned.line.front_joint(), reckoned.line.rear_joint());
    let angle = if front.base() > rear.base() { front } else { rear };
    match most {
        Some(None) => Err(fields.needs()),
        Some(Some(allowed)) if angle.base() > allowed.base() => {
            Ok(Verdict::Stop(Reason::JointOverMaker { allowed }))
        }
        None if angle.base() > degrees(FAR_DEGREES).base() => {
            Ok(Verdict::Watch(Reason::JointFar { angle }))
        }
        _ => Ok(Verdict::Good),
    }
}

/// The new shaft's slope, and how much steeper it is than the old one between the same heights.
fn slope(
    job: &Job,
    measured: &Result<MeasuredLine, Vec<Need>>,
    ride: &Result<Reckoned, Blocked>,
) -> Finding {
    let name = Name::ShaftLies;
    let (measured, reckoned) = match (measured, ride) {
        (Ok(measured), Ok(reckoned)) => (measured, reckoned),
        (Err(needs), _) => return Finding::missing(name, needs.clone()),
        (_, Err(blocked)) => return Finding::blocked(name, blocked.clone()),
    };
    let found: Measured<Angle> = reckoned.measured(Of::ShaftSlope, 1.0);
    let value = Value {
        amount: Amount::Angle(found.best),
        plus_minus: Some(Amount::Angle(found.spread.expanded())),
        sense: measured.old_slope.map(|old| Sense::Steeper { by: found.best - old, was: old }),
    };
    let mut finding = Finding::known(name, value, Verdict::Figure).from(&[Source::Geometry]);
    if let (Some([front, rear, new, old_length]), Some(old)) = (measured.heights, measured.old_slope) {
        // A shaft that goes off to one side looks shorter from the side.
        let seen = |length: Length, slope: Angle| match job.angles.plan_by {
            PlanBy::Straight => length,
            _ => Length::from_base((front - rear).base() / slope.base().sin()),
        };
        for (length, slope) in [(new, found.best), (old_length, old)] {
            let put_in = [plain(front), plain(rear), plain(seen(length, slope))];
            finding = finding.step(Law::SlopeOfHeights, &put_in, Amount::Angle(slope));
        }
    }
    finding.causes = reckoned.causes(Of::ShaftSlope);
    finding
}

/// The speed up to which nothing passes its limit.
fn smooth(job: &Job, power: &Result<Reckoned, Blocked>, ride: &Result<Reckoned, Blocked>) -> Finding {
    let name = Name::SmoothUpTo;
    let (power, bounds) = match with_bounds(job, power) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(name, blocked),
    };
    let ride = match ride {
        Ok(ride) => &ride.line,
        Err(blocked) => return Finding::blocked(name, blocked.clone()),
    };
    let at_limit = |limit: AngularAcceleration, gain: f64| (limit.base() / gain).sqrt();
    // The shaft at ride and under power, whichever shakes it more.
    let shaft = |lines: [Line; 2]| {
        let [one, other] = lines.map(|line| line.peaks().shaft_gain);
        at_limit(bounds.inertia, one.max(other))
    };
    let all = [
        (Shaken::Pinion, at_limit(bounds.shake, power.line.peaks().pinion_gain)),
        (Shaken::Drive, shaft([*ride, power.line])),
        (Shaken::Coast, shaft([ride.overrun(), power.line.overrun()])),
    ];
    let first = all
        .into_iter()
        .fold((Shaken::Pinion, f64::INFINITY), |first, one| if one.1 < first.1 { one } else { first });
    // Faster than this no shaft turns, and the figure would say nothing.
    let share = (first.1 / bounds.top.base()).min(MOST_OF_TOP);
    let shaft = bounds.top * share;
    let road = Fields::of(job).road_speed(Entry::RoadSpeed);
    let amount = road.map_or(Amount::EstimatedSpeed(shaft), |road| Amount::RoadSpeed(road * share));
    let sense = Some(Sense::LimitedBy { shaft, by: first.0 });
    Finding::known(name, Value { amount, plus_minus: None, sense }, Verdict::Figure)
        .from(&[Source::UniversalJoints, Source::JointsInSeries])
}

/// How unevenly shaft and pinion turn.
fn swing(reckoned: &Result<Reckoned, Blocked>) -> Finding {
    let reckoned = match reckoned {
        Ok(reckoned) => reckoned,
        Err(blocked) => return Finding::blocked(Name::SpeedSwing, blocked.clone()),
    };
    let peaks = reckoned.line.peaks();
    let half = |(least, most): (f64, f64)| (most - least) / 2.0;
    let value = Value {
        amount: Amount::Percent(half(peaks.pinion_ratio)),
        plus_minus: None,
        sense: Some(Sense::ShaftSwings { share: half(peaks.shaft_ratio), lead: peaks.error }),
    };
    Finding::known(Name::SpeedSwing, value, Verdict::Figure)
        .from(&[Source::UniversalJoints, Source::JointsInSeries])
}

/// How far the joints' planes are turned against each other, which counts as phase.
fn twist(ride: &Result<Reckoned, Blocked>) -> Finding {
    let name = Name::PlaneTwist;
    let reckoned = match ride {
        Ok(reckoned) => reckoned,
        Err(blocked) => return Finding::blocked(name, blocked.clone()),
    };
    let (size, sense) = match reckoned.line.twist() {
        Some(twist) if twist.base() < 0.0 => (-twist, Sense::TwistCounterclockwise),
        Some(twist) => (twist, Sense::TwistClockwise),
        None => (degrees(0.0), Sense::NoPlane),
    };
    let value = Value { amount: Amount::Angle(size), plus_minus: None, sense: Some(sense) };
    Finding::known(name, value, Verdict::Figure).from(&[Source::Geometry])
}

/// What the yokes' turn costs: the pinion's shake with it and with the turn that was wanted. A figure, and
/// only where the angles are known: phase can be set without them.
pub(super) fn cost_of_phase(job: &Job, wanted: Angle) -> Option<Finding> {
    let name = Name::PhaseCost;
    let power = reckoned_at(job, &measured_line(job), At::Power);
    let (reckoned, bounds) = with_bounds(job, &power).ok()?;
    let mut attitude = reckoned.attitude;
    attitude.phase = wanted;
    let set = attitude.line().ok()?;
    let factor = turn_rate_squared(bounds.top);
    let found: Measured<AngularAcceleration> = reckoned.measured(Of::PinionGain, factor);
    let value = Value {
        amount: Amount::Acceleration(found.best),
        plus_minus: Some(Amount::Acceleration(found.spread.expanded())),
        sense: Some(Sense::InsteadOf(acceleration(bounds.top, set.peaks().pinion_gain))),
    };
    let finding = Finding::known(name, value, Verdict::Figure)
        .within(Amount::Acceleration(bounds.shake), shake_source(bounds.shake));
    Some(finding.from(&[Source::UniversalJoints, Source::JointsInSeries, Source::DoubtOfAngles]))
}
