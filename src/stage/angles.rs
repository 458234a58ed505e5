//! Angles: how gearbox, shaft and pinion lie, and what both joints make of it at the top speed.

use super::amount::{Amount, plain};
pub use super::bounds::{Bounds, bounds};
use super::bounds::{inertia_source, least_source, shake_source, with_bounds};
use super::field::Fields;
use super::finding::{Blocked, Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
use super::lie::{Lie, lie};
use super::reset;
pub use super::told::At;
use super::told::{Of, Told};
use crate::job::{Entry, Job, PlanBy};
use crate::mechanics::attitude::Attitude;
use crate::mechanics::line::{Line, acceleration, joint_with_gain};
use crate::mechanics::uncertainty::Measured;
use crate::quantity::{Angle, AngularAcceleration, Base, RoadSpeed, degrees, turn_rate_squared};

/// What follows from the angles.
pub fn findings(job: &Job) -> Vec<Finding> {
    let lie = lie(job);
    let [power, ride, bump, droop] = [At::Power, At::Ride, At::Bump, At::Droop].map(|at| told(&lie, at));
    let mut found = vec![
        shake(job, Name::ShakeUnderPower, &power),
        shake(job, Name::ShakeAtRide, &ride),
        joint(job, Name::FrontJoint, &ride),
        joint(job, Name::RearJoint, &ride),
        slope(&lie, &ride),
        swing(&power),
        shake(job, Name::ShakeAtBump, &bump),
        shake(job, Name::ShakeAtDroop, &droop),
    ];
    if job.angles.plan_by != PlanBy::Straight {
        found.push(twist(&ride));
    }
    found.extend(reset::findings(job, lie.as_ref().ok(), &power));
    found
}

/// The first of them alone.
pub(super) fn first(job: &Job) -> Finding {
    shake(job, Name::ShakeUnderPower, &told(&lie(job), At::Power))
}

fn told(lie: &Result<Lie, Vec<Need>>, at: At) -> Result<Told, Blocked> {
    match lie {
        Ok(lie) => lie.tell(at),
        Err(needs) => Err(Blocked::Missing(needs.clone())),
    }
}

/// The line there, for a drawing.
pub fn line(job: &Job, at: At) -> Option<Line> {
    told(&lie(job), at).ok().map(|told| told.line)
}

/// The slopes and plan angles of that line, for a drawing.
pub fn attitude(job: &Job, at: At) -> Option<Attitude> {
    told(&lie(job), at).ok().map(|told| told.attitude)
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
    let lie = lie(job);
    let [power, ride] = [At::Power, At::Ride].map(|at| told(&lie, at).ok());
    let (power, ride) = (power?.line, ride?.line);
    Some(Growth {
        pinion: power.peaks().pinion_gain,
        shaft: [ride.peaks().shaft_gain, ride.overrun().peaks().shaft_gain],
        bounds: bounds(job).ok()?,
        road: Fields::of(job).road_speed(Entry::RoadSpeed),
    })
}

/// How much the pinion is shaken at top speed.
fn shake(job: &Job, name: Name, told: &Result<Told, Blocked>) -> Finding {
    let (told, bounds) = match with_bounds(job, told) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(name, blocked),
    };
    let factor = turn_rate_squared(bounds.top);
    let found: Measured<AngularAcceleration> = told.measured(Of::PinionGain, factor);
    let (size, doubt) = (found.best.base(), found.spread.expanded());
    let allowed = bounds.shake;
    let passing = matches!(name, Name::ShakeAtBump | Name::ShakeAtDroop | Name::ShakeAtRide);
    let verdict = if size > allowed.base() {
        // At bump and droop the axle stays for a moment, and without power little torque is on it.
        let over = Reason::OverShake { allowed };
        if passing { Verdict::Watch(over) } else { Verdict::Stop(over) }
    } else if size + doubt.base() > allowed.base() {
        Verdict::Watch(Reason::NearShake { allowed })
    } else {
        Verdict::Good
    };
    let gain = size / factor;
    let one = joint_with_gain(gain);
    let value = Value {
        amount: Amount::Acceleration(found.best),
        plus_minus: Some(Amount::Acceleration(doubt)),
        sense: one.map(|angle| Sense::AsOneJoint {
            angle,
            front: told.line.front_joint(),
            rear: told.line.rear_joint(),
        }),
    };
    let mut finding = Finding::known(name, value, verdict)
        .step(
            Law::TrueAngles,
            &[
                Amount::Angle(told.attitude.gearbox.slope),
                Amount::Angle(told.attitude.shaft.slope),
                Amount::Angle(told.attitude.pinion.slope),
                Amount::Angle(told.line.front_joint()),
            ],
            Amount::Angle(told.line.rear_joint()),
        )
        .step(
            Law::EquivalentAngle,
            &[
                Amount::Angle(told.line.front_joint()),
                Amount::Angle(told.line.rear_joint()),
                Amount::Angle(told.attitude.phase),
                Amount::Angle(told.line.twist().unwrap_or(degrees(0.0))),
            ],
            Amount::Angle(told.line.equivalent()),
        );
    if let Some(one) = one {
        finding = finding.step(
            Law::JointShake,
            &[Amount::Speed(bounds.top), Amount::Angle(one)],
            Amount::Acceleration(found.best),
        );
    }
    finding.causes = told.causes(Of::PinionGain);
    finding.within(Amount::Acceleration(allowed), shake_source(allowed)).from(&[
        Source::UniversalJoints,
        Source::JointsInSeries,
        Source::DoubtOfAngles,
    ])
}

/// A joint's true angle, and how much it shakes the shaft: the front one in drive, the rear one on the
/// overrun.
fn joint(job: &Job, name: Name, told: &Result<Told, Blocked>) -> Finding {
    let (told, bounds) = match with_bounds(job, told) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(name, blocked),
    };
    let front = name == Name::FrontJoint;
    let (of, gain) =
        if front { (Of::FrontJoint, Of::DriveGain) } else { (Of::RearJoint, Of::CoastGain) };
    let angle: Measured<Angle> = told.measured(of, 1.0);
    let shaft: Measured<AngularAcceleration> = told.measured(gain, turn_rate_squared(bounds.top));
    let (size, doubt) = (angle.best.base(), angle.spread.expanded());
    let Some(most) = bounds.most_angle() else {
        return Finding::impossible(name, Reason::NotComputable);
    };
    let least = bounds.least;
    let verdict = if size > most.base() {
        Verdict::Stop(Reason::JointOverMost { allowed: most })
    } else if size + doubt.base() > most.base() {
        Verdict::Watch(Reason::JointNearMost { allowed: most })
    } else if size < least.base() {
        Verdict::Watch(Reason::JointTooStraight { least })
    } else {
        Verdict::Good
    };
    let value = Value {
        amount: Amount::Angle(angle.best),
        plus_minus: Some(Amount::Angle(doubt)),
        sense: Some(Sense::ShakesShaft(shaft.best)),
    };
    let mut finding = Finding::known(name, value, verdict)
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
    finding.causes = told.causes(of);
    finding
}

/// The new shaft's slope, and how much steeper it is than the old one between the same heights.
fn slope(lie: &Result<Lie, Vec<Need>>, ride: &Result<Told, Blocked>) -> Finding {
    let name = Name::ShaftLies;
    let (lie, told) = match (lie, ride) {
        (Ok(lie), Ok(told)) => (lie, told),
        (Err(needs), _) => return Finding::missing(name, needs.clone()),
        (_, Err(blocked)) => return Finding::blocked(name, blocked.clone()),
    };
    let found: Measured<Angle> = told.measured(Of::ShaftSlope, 1.0);
    let value = Value {
        amount: Amount::Angle(found.best),
        plus_minus: Some(Amount::Angle(found.spread.expanded())),
        sense: lie.old_slope.map(|old| Sense::Steeper { by: found.best - old, was: old }),
    };
    let mut finding = Finding::known(name, value, Verdict::Figure).from(&[Source::Geometry]);
    if let (Some([front, rear, new, old_length]), Some(old)) = (lie.heights, lie.old_slope) {
        let [front, rear] = [plain(front), plain(rear)];
        finding = finding
            .step(Law::SlopeOfHeights, &[front, rear, plain(new)], Amount::Angle(found.best))
            .step(Law::SlopeOfHeights, &[front, rear, plain(old_length)], Amount::Angle(old));
    }
    finding.causes = told.causes(Of::ShaftSlope);
    finding
}

/// How unevenly shaft and pinion turn.
fn swing(told: &Result<Told, Blocked>) -> Finding {
    let told = match told {
        Ok(told) => told,
        Err(blocked) => return Finding::blocked(Name::SpeedSwing, blocked.clone()),
    };
    let peaks = told.line.peaks();
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
fn twist(ride: &Result<Told, Blocked>) -> Finding {
    let name = Name::PlaneTwist;
    let told = match ride {
        Ok(told) => told,
        Err(blocked) => return Finding::blocked(name, blocked.clone()),
    };
    match told.line.twist() {
        Some(twist) => {
            let value = Value {
                amount: Amount::Angle(Angle::from_base(twist.base().abs())),
                plus_minus: None,
                sense: Some(if twist.base() < 0.0 {
                    Sense::TwistCounterclockwise
                } else {
                    Sense::TwistClockwise
                }),
            };
            Finding::known(name, value, Verdict::Figure).from(&[Source::Geometry])
        }
        None => {
            let value = Value {
                amount: Amount::Angle(degrees(0.0)),
                plus_minus: None,
                sense: Some(Sense::NoPlane),
            };
            Finding::known(name, value, Verdict::Figure).from(&[Source::Geometry])
        }
    }
}

/// What the yokes' turn costs: the pinion's shake with it and with the turn that was wanted. A figure,
/// and no more than that while the angles are not known: phase can be set without them.
pub(super) fn cost_of_phase(job: &Job, wanted: Angle) -> Finding {
    let name = Name::PhaseCost;
    let power = told(&lie(job), At::Power);
    let (told, bounds) = match with_bounds(job, &power) {
        Ok(known) => known,
        Err(blocked) => {
            let finding = Finding::blocked(name, blocked);
            return Finding { verdict: Verdict::Figure, ..finding };
        }
    };
    let mut attitude = told.attitude;
    attitude.phase = wanted;
    let Ok(set) = attitude.line() else { return Finding::impossible(name, Reason::NotComputable) };
    let factor = turn_rate_squared(bounds.top);
    let found: Measured<AngularAcceleration> = told.measured(Of::PinionGain, factor);
    let value = Value {
        amount: Amount::Acceleration(found.best),
        plus_minus: Some(Amount::Acceleration(found.spread.expanded())),
        sense: Some(Sense::InsteadOf(acceleration(bounds.top, set.peaks().pinion_gain))),
    };
    Finding::known(name, value, Verdict::Figure)
        .within(Amount::Acceleration(bounds.shake), shake_source(bounds.shake))
        .from(&[Source::UniversalJoints, Source::JointsInSeries, Source::DoubtOfAngles])
}
