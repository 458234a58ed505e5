//! What to change so that both joints cancel: the pinion's slope, the gearbox's, or the yokes' turn.

use super::amount::Amount;
use super::bounds::{Bounds, with_bounds};
use super::field::Fields;
use super::finding::{Against, Blocked, Finding, Name, Reason, Reset, Sense, Source, Value, Verdict};
use super::joint::most_parallel;
use super::line::{MeasuredLine, true_slope};
use super::reckoned::Reckoned;
use super::setting::Setting;
use crate::job::{Entry, Job, PlanBy};
use crate::mechanics::attitude::{Attitude, Leaning, Ties};
use crate::mechanics::line::{Line, acceleration};
use crate::mechanics::mend::{self, Layout, Mend, mount_drop, wedge};
use crate::quantity::{Angle, Base, Length, degrees};

/// The pinion or the gearbox is turned by no more than this: beyond it the axle or the mounts are wrong,
/// not their shims. Our own choice.
const MOST_CHANGE_DEGREES: f64 = 15.0;
/// No wedge, shim or yoke is set finer than this. Our own choice.
const LEAST_CHANGE_DEGREES: f64 = 0.05;
/// Wedges under spring pads are made for no more. Our own choice, from memory of what is sold.
const MOST_WEDGE_DEGREES: f64 = 6.0;
/// A change that leaves more than this share of the shake is no cure. Our own choice.
const NO_BETTER: f64 = 0.9;
/// A search that ends so near its bound has found the bound.
const AT_BOUND_DEGREES: f64 = 0.001;

/// The line that is to be changed, and what it is judged by.
struct Present<'a> {
    measured: &'a MeasuredLine,
    now: &'a Attitude,
    bounds: Bounds,
    ties: Ties,
    rise: Angle,
    parallel: bool,
    /// The pinion's shake as it is, under power.
    shake: f64,
}

/// What could be changed.
pub(super) fn findings(
    job: &Job,
    measured: Option<&MeasuredLine>,
    power: &Result<Reckoned, Blocked>,
) -> Vec<Finding> {
    let (reckoned, bounds) = match with_bounds(job, power) {
        Ok(known) => known,
        // One card says what is missing for all of them.
        Err(blocked) => return vec![Finding::blocked(Name::PinionParallel, blocked)],
    };
    let mut fields = Fields::of(job);
    let (rise, arm) = (fields.angle(Entry::PowerRise), fields.length(Entry::PinionArm));
    let (Some(measured), Some(rise), Some(arm)) = (measured, rise, arm) else { return Vec::new() };
    let parallel = reckoned.is_parallel();
    let present = Present {
        measured,
        now: &reckoned.attitude,
        bounds,
        ties: measured.ties(arm),
        rise,
        parallel,
        shake: reckoned.line.peaks().pinion_gain,
    };
    let mut found =
        vec![pinion(job, &present, Layout::Parallel), pinion(job, &present, Layout::Intersecting)];
    found.extend(gearbox(job, &present));
    if job.angles.plan_by != PlanBy::Straight {
        found.extend(phase(&present));
    }
    found
}

impl Present<'_> {
    /// The slope that the mechanic's own instrument shows on an axis that leans like this.
    fn as_read(&self, lean: Leaning) -> Angle {
        true_slope(lean) + self.measured.readings.bias
    }

    /// What a change is known to, of an end that carries its joint on a lever.
    fn doubt(&self, layout: Layout, lever: Length, nose: Angle) -> Angle {
        let times = match layout {
            Layout::Parallel => 0.0,
            Layout::Intersecting => 2.0,
        };
        let setting = Setting { times, lever, arm: self.ties.arm, nose };
        self.measured.spread_of_setting(&setting).expanded()
    }

    /// The line of a change under power, and without.
    fn lines(&self, mend: &Mend) -> Option<[Line; 2]> {
        let still = Length::from_base(0.0);
        let ride = mend.attitude.raised(still, -self.rise, self.ties).ok()?;
        Some([mend.attitude.line().ok()?, ride.line().ok()?])
    }

    fn against(&self, lines: &[Line; 2], mend: &Mend, parallel: bool) -> Option<Against> {
        let joints = lines.iter().flat_map(|line| [line.front_joint(), line.rear_joint()]);
        let (mut least, mut most) = (f64::INFINITY, 0.0_f64);
        for joint in joints {
            (least, most) = (least.min(joint.base()), most.max(joint.base()));
        }
        let bounds = self.bounds;
        let left = acceleration(bounds.top, mend.residual);
        if left.base() > bounds.shake.base() {
            Some(Against::Shakes { allowed: bounds.shake })
        } else if most > bounds.most_angle().base() {
            Some(Against::TooSharp { allowed: bounds.most_angle() })
        } else if parallel && most >= most_parallel().base() {
            Some(Against::Parallel { allowed: most_parallel() })
        } else if least < bounds.least.base() {
            Some(Against::TooStraight { least: bounds.least })
        } else if mend.residual > NO_BETTER * self.shake {
            Some(Against::NoBetter)
        } else {
            None
        }
    }

    /// A change in words of the stage. `doubt`: what the change is known to, where that was reckoned.
    fn finding(
        &self,
        (name, parallel): (Name, bool),
        mend: &Mend,
        to: Angle,
        thick: Option<Length>,
        doubt: Option<Angle>,
    ) -> Finding {
        let size = mend.change.base().abs();
        let at_bound = size > degrees(MOST_CHANGE_DEGREES - AT_BOUND_DEGREES).base();
        let Some(lines) = self.lines(mend).filter(|_| !at_bound || name == Name::PhaseForTwist) else {
            return none(name);
        };
        let [power, _] = &lines;
        let left = acceleration(self.bounds.top, mend.residual);
        // Too small to set, or to be seen.
        let leave = size < degrees(LEAST_CHANGE_DEGREES).base()
            || doubt.is_some_and(|doubt| size <= doubt.base());
        let reset = Reset {
            to,
            plus: mend.change.base() > 0.0,
            leave,
            thick,
            left,
            joints: [power.front_joint(), power.rear_joint()],
            // What is left as it is need not be better.
            against: self
                .against(&lines, mend, parallel)
                .or_else(|| too_much(name, size))
                .filter(|against| !(leave && *against == Against::NoBetter)),
        };
        let value = Value {
            amount: Amount::Angle(Angle::from_base(size)),
            plus_minus: doubt.filter(|_| !leave).map(Amount::Angle),
            sense: Some(Sense::Reset(reset)),
        };
        let found = Finding::known(name, value, Verdict::Figure).from(&[Source::LeastShake]);
        if parallel { found.from(&[Source::ParallelBound]) } else { found }
    }
}

fn too_much(name: Name, size: f64) -> Option<Against> {
    let most = degrees(MOST_WEDGE_DEGREES);
    let wedge = matches!(name, Name::PinionParallel | Name::PinionIntersecting);
    (wedge && size > most.base()).then_some(Against::TooMuchForAWedge { most })
}

fn pinion(job: &Job, present: &Present, layout: Layout) -> Finding {
    let name = match layout {
        Layout::Parallel => Name::PinionParallel,
        Layout::Intersecting => Name::PinionIntersecting,
    };
    let most = degrees(MOST_CHANGE_DEGREES);
    let Some(mend) = mend::pinion(present.now, layout, most, present.ties) else { return none(name) };
    let mut fields = Fields::of(job);
    let pad = fields.optional_length(Entry::SpringPad);
    let size = Angle::from_base(mend.change.base().abs());
    // Under power the nose rises by itself: it is set so much lower.
    let pinion = mend.attitude.pinion;
    let to = present.as_read(Leaning { slope: pinion.slope - present.rise, ..pinion });
    let thick = pad.map(|pad| wedge(pad, size));
    let doubt = present.doubt(layout, present.ties.arm, present.rise + mend.change);
    named(fields, name).unwrap_or_else(|| {
        present.finding((name, layout == Layout::Parallel), &mend, to, thick, Some(doubt))
    })
}

/// There is no such change. It is no fault of the line as it lies.
fn none(name: Name) -> Finding {
    Finding { verdict: Verdict::Figure, ..Finding::impossible(name, Reason::NoRoomToReset) }
}

/// A wrong entry that a change can do without, but was meant to be there, is named, and is no fault of the
/// line.
fn named(fields: Fields, name: Name) -> Option<Finding> {
    let needs = fields.needs();
    let wrong = !needs.is_empty();
    wrong.then(|| Finding { verdict: Verdict::Figure, ..Finding::missing(name, needs) })
}

/// With the mounts' distance given: what the gearbox's rear mount can do in the layout there is.
fn gearbox(job: &Job, present: &Present) -> Option<Finding> {
    let name = Name::GearboxMount;
    let mut fields = Fields::of(job);
    let overhang = fields.optional_length(Entry::JointOverhang);
    let arm = fields.optional_length(Entry::MountArm);
    if let Some(finding) = named(fields, name) {
        return Some(finding);
    }
    let arm = arm?;
    let lever = overhang.map_or(arm, |overhang| arm + overhang);
    let layout = if present.parallel { Layout::Parallel } else { Layout::Intersecting };
    let (most, length) = (degrees(MOST_CHANGE_DEGREES), present.ties.length);
    let Some(mend) = mend::gearbox(present.now, layout, lever, length, most) else {
        return Some(none(name));
    };
    let drop = mount_drop(arm, present.now.gearbox.slope, mend.change);
    let thick = Length::from_base(drop.base().abs());
    let to = present.as_read(mend.attitude.gearbox);
    let doubt = present.doubt(layout, lever, present.rise);
    Some(present.finding((name, present.parallel), &mend, to, Some(thick), Some(doubt)))
}

/// The yokes' turn that cancels what the plan view twists.
fn phase(present: &Present) -> Option<Finding> {
    let mend = mend::phase(present.now)?;
    let to = mend.attitude.phase;
    Some(present.finding((Name::PhaseForTwist, false), &mend, to, None, None))
}
