//! What to change so that both joints cancel: the pinion's slope, the gearbox's, or the yokes' turn.

use super::amount::Amount;
use super::bounds::{Bounds, with_bounds};
use super::field::Fields;
use super::finding::{Blocked, Finding, Name, Sense, Source, Value, Verdict};
use super::lie::Lie;
use super::told::Told;
use crate::job::{Entry, Job, PlanBy};
use crate::mechanics::attitude::Attitude;
use crate::mechanics::line::acceleration;
use crate::mechanics::mend::{self, Layout, Mend, mount_drop, wedge};
use crate::quantity::{Angle, AngularAcceleration, Base, Length, degrees};

/// The pinion or the gearbox is turned by no more than this: beyond it the axle or the mounts are wrong,
/// not their shims. Our own choice.
const MOST_CHANGE_DEGREES: f64 = 15.0;
/// Parallel only while the equal angles stay below this (US Army TM 5-3820-256-24-4).
const MOST_PARALLEL_DEGREES: f64 = 12.0;
/// No wedge, shim or yoke is set finer than this. Our own choice.
const LEAST_CHANGE_DEGREES: f64 = 0.05;

/// What speaks against a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Against {
    /// A joint would work at too large an angle for the top speed.
    TooSharp {
        /// Most angle at top speed.
        allowed: Angle,
    },
    /// A joint would be too straight for needle bearings.
    TooStraight {
        /// Least angle.
        least: Angle,
    },
    /// Parallel, with joints past the published bound of that layout.
    Parallel {
        /// The bound.
        allowed: Angle,
    },
    /// The pinion would still be shaken too much.
    Shakes {
        /// The limit.
        allowed: AngularAcceleration,
    },
}

/// A change and what comes of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reset {
    /// The slope or turn to set, without power on it.
    pub to: Angle,
    /// Pinion's nose up, gearbox's tail down, or yoke clockwise.
    pub plus: bool,
    /// Too small to set.
    pub leave: bool,
    /// Thickness of the wedge, or height of the shim.
    pub thick: Option<Length>,
    /// The pinion's shake that is left, under power.
    pub left: AngularAcceleration,
    /// Both joints' angles then.
    pub joints: [Angle; 2],
    /// What speaks against it.
    pub against: Option<Against>,
}

/// What could be changed.
pub(super) fn findings(job: &Job, lie: Option<&Lie>, power: &Result<Told, Blocked>) -> Vec<Finding> {
    let (told, bounds) = match with_bounds(job, power) {
        Ok(known) => known,
        // One card says what is missing for all of them.
        Err(blocked) => return vec![Finding::blocked(Name::PinionParallel, blocked)],
    };
    let Some(lie) = lie else { return Vec::new() };
    let now = &told.attitude;
    let mut found = vec![
        pinion(job, lie, now, bounds, Layout::Parallel),
        pinion(job, lie, now, bounds, Layout::Intersecting),
    ];
    found.extend(gearbox(job, lie, now, bounds));
    if job.angles.plan_by != PlanBy::Straight {
        found.extend(phase(now, bounds));
    }
    found
}

fn against(mend: &Mend, bounds: Bounds, left: AngularAcceleration, parallel: bool) -> Option<Against> {
    let line = mend.attitude.line().ok()?;
    let joints = [line.front_joint(), line.rear_joint()];
    let any = |test: &dyn Fn(f64) -> bool| joints.iter().any(|joint| test(joint.base()));
    let over = bounds.most_angle().filter(|most| any(&|joint| joint > most.base()));
    let bound = degrees(MOST_PARALLEL_DEGREES);
    if let Some(allowed) = over {
        Some(Against::TooSharp { allowed })
    } else if parallel && any(&|joint| joint >= bound.base()) {
        Some(Against::Parallel { allowed: bound })
    } else if left.base() > bounds.shake.base() {
        Some(Against::Shakes { allowed: bounds.shake })
    } else if any(&|joint| joint < bounds.least.base()) {
        Some(Against::TooStraight { least: bounds.least })
    } else {
        None
    }
}

/// Too small to set.
fn is_left(change: Angle) -> bool {
    change.base().abs() < degrees(LEAST_CHANGE_DEGREES).base()
}

fn finding(
    name: Name,
    mend: &Mend,
    to: Angle,
    thick: Option<Length>,
    bounds: Bounds,
) -> Option<Finding> {
    let line = mend.attitude.line().ok()?;
    let left = acceleration(bounds.top, mend.residual);
    let change = mend.change;
    let reset = Reset {
        to,
        plus: change.base() > 0.0,
        leave: is_left(change),
        thick,
        left,
        joints: [line.front_joint(), line.rear_joint()],
        against: against(mend, bounds, left, name == Name::PinionParallel),
    };
    let value = Value {
        amount: Amount::Angle(Angle::from_base(change.base().abs())),
        plus_minus: None,
        sense: Some(Sense::Reset(reset)),
    };
    let found = Finding::known(name, value, Verdict::Figure);
    Some(found.from(&[Source::LeastShake, Source::ParallelBound]))
}

fn pinion(job: &Job, lie: &Lie, now: &Attitude, bounds: Bounds, layout: Layout) -> Finding {
    let (name, shaft_counts) = match layout {
        Layout::Parallel => (Name::PinionParallel, 0.0),
        Layout::Intersecting => (Name::PinionIntersecting, 2.0),
    };
    let none = || Finding {
        verdict: Verdict::Figure,
        ..Finding::impossible(name, super::Reason::NoRoomToReset)
    };
    let Some(mend) = mend::pinion(now, layout, degrees(MOST_CHANGE_DEGREES)) else { return none() };
    let mut fields = Fields::of(job);
    let pad = fields.optional_length(Entry::SpringPad);
    let size = Angle::from_base(mend.change.base().abs());
    // Under power the nose rises by itself: it is set so much lower.
    let rise = lie.power_rise.unwrap_or(degrees(0.0));
    let to = mend.attitude.pinion.slope - rise;
    let thick = pad.map(|pad| wedge(pad, size));
    match finding(name, &mend, to, thick, bounds) {
        Some(mut found) => {
            if let super::Answer::Known(value) = &mut found.answer
                && !is_left(mend.change)
            {
                value.plus_minus = Some(Amount::Angle(lie.spread_of_setting(shaft_counts).expanded()));
            }
            found
        }
        None => none(),
    }
}

/// With the mounts' distance given: what the gearbox's rear mount can do in the layout there is.
fn gearbox(job: &Job, lie: &Lie, now: &Attitude, bounds: Bounds) -> Option<Finding> {
    let arm = Fields::of(job).optional_length(Entry::MountArm)?;
    let side = |slope: Angle| (slope - now.shaft.slope).base();
    let parallel = side(now.gearbox.slope) * side(now.pinion.slope) >= 0.0;
    let layout = if parallel { Layout::Parallel } else { Layout::Intersecting };
    let mend = mend::gearbox(now, layout, arm, lie.laid.length, degrees(MOST_CHANGE_DEGREES))?;
    let drop = mount_drop(arm, now.gearbox.slope, mend.change);
    let thick = Length::from_base(drop.base().abs());
    finding(Name::GearboxMount, &mend, mend.attitude.gearbox.slope, Some(thick), bounds)
}

/// The yokes' turn that cancels what the plan view twists.
fn phase(now: &Attitude, bounds: Bounds) -> Option<Finding> {
    let mend = mend::phase(now)?;
    finding(Name::PhaseForTwist, &mend, mend.attitude.phase, None, bounds)
}
