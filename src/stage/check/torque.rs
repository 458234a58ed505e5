//! The torque that the shaft must carry: by the engine in its lowest gear, or by the wheels when they slip.

use super::found::{Fit, FitSense, Governs};
use super::speeds::tyre;
use super::{name, sense};
use crate::job::{Drives, Entry, Gearbox, Job};
use crate::mechanics::drive::{AUTOMATIC_EFFICIENCY, MANUAL_EFFICIENCY, engine_torque, slip_torque};
use crate::quantity::{Base, Force, Length, Mass, Torque, weight_of};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Blocked, Finding, Law, Reason, Source, Value, Verdict};

/// Torque by the engine, with what it was made of.
#[derive(Clone, Copy, Debug, PartialEq)]
struct ByEngine {
    torque: Torque,
    engine: Torque,
    gear: f64,
    low: f64,
    stall: f64,
    efficiency: f64,
}

/// Torque by slip, with what it was made of.
#[derive(Clone, Copy, Debug, PartialEq)]
struct BySlip {
    torque: Torque,
    friction: f64,
    load: Force,
    radius: Length,
    axle: f64,
}

/// The lowest gear there is: the greatest ratio, reverse among them. First gear is asked for: without it a
/// higher one would stand for the lowest.
fn lowest_gear(job: &Job, fields: &mut Fields) -> Option<f64> {
    let first = fields.reading(Entry::GearRatio(0));
    let others = (1..job.check.speeds.gears.len()).map(Entry::GearRatio).chain([Entry::ReverseRatio]);
    let mut lowest = first.unwrap_or(0.0);
    for entry in others {
        lowest = lowest.max(fields.optional_reading(entry).unwrap_or(0.0));
    }
    first.map(|_| lowest)
}

fn by_engine(job: &Job) -> Result<ByEngine, Blocked> {
    let mut fields = Fields::of(job);
    let engine: Option<Torque> = fields.quantity(Entry::EngineTorque);
    let gear = lowest_gear(job, &mut fields);
    let low = if fields.is_empty(Entry::LowRange) { Some(1.0) } else { fields.reading(Entry::LowRange) };
    let converter = job.check.load.gearbox == Gearbox::Automatic;
    let stall = if converter { fields.reading(Entry::StallRatio) } else { Some(1.0) };
    let efficiency = if converter { AUTOMATIC_EFFICIENCY } else { MANUAL_EFFICIENCY };
    // A wrong entry might be the lowest gear.
    let needs = fields.needs();
    let (Some(engine), Some(gear), Some(low), Some(stall), true) =
        (engine, gear, low, stall, needs.is_empty())
    else {
        return Err(Blocked::Missing(needs));
    };
    let torque = engine_torque(engine, gear * low, efficiency, stall);
    let torque = torque.ok_or(Blocked::Impossible(Reason::NotComputable))?;
    Ok(ByEngine { torque, engine, gear, low, stall, efficiency })
}

fn by_slip(job: &Job) -> Result<BySlip, Blocked> {
    let mut fields = Fields::of(job);
    let load: Option<Mass> = fields.quantity(Entry::AxleLoad);
    let friction = fields.reading(Entry::Friction);
    let turns = fields.sum(tyre(job));
    let axle = fields.reading(Entry::AxleRatio);
    let (Some(load), Some(friction), Some(turns), Some(axle)) = (load, friction, turns, axle) else {
        return Err(Blocked::Missing(fields.needs()));
    };
    let load = weight_of(load);
    let radius = Length::from_base(1.0 / (core::f64::consts::TAU * turns.base()));
    let torque = slip_torque(load, radius, axle, friction);
    let torque = torque.ok_or(Blocked::Impossible(Reason::NotComputable))?;
    Ok(BySlip { torque, friction, load, radius, axle })
}

/// Whether slipping wheels bound the torque: only where this shaft drives one axle and nothing else.
fn slip_bounds(job: &Job) -> bool {
    job.check.load.drives == Drives::OneAxle
}

/// The torque that the shaft must carry: the lesser of what the engine can give and of what the wheels can
/// hold, of those that are known; neither can be passed but by a shock.
///
/// # Errors
/// What the torque by the engine needs, where neither is known; what is wrong in either.
pub fn torque(job: &Job) -> Result<Torque, Blocked> {
    let slip = if slip_bounds(job) { by_slip(job).ok() } else { None };
    match (by_engine(job), slip) {
        (Ok(engine), Some(slip)) if slip.torque < engine.torque => Ok(slip.torque),
        (Ok(engine), _) => Ok(engine.torque),
        (_, Some(slip)) if !begun(job, Entry::EngineTorque) => Ok(slip.torque),
        (Err(blocked), _) => Err(blocked),
    }
}

/// Something was said of it.
fn begun(job: &Job, entry: Entry) -> bool {
    job.typed(entry).is_some_and(|typed| !typed.is_blank())
}

/// Both torques, each with its factors; one of them where of the other nothing was said.
pub(super) fn findings(job: &Job) -> Vec<Finding> {
    let (engine, slip) = (by_engine(job), by_slip(job));
    let governs = torque(job).ok();
    let both = engine.is_ok() && slip.is_ok();
    let mut found = Vec::new();
    let bounds = slip_bounds(job);
    if !(bounds && slip.is_ok() && !begun(job, Entry::EngineTorque)) {
        found.push(match &engine {
            Ok(by) => {
                let put_in = [
                    Amount::Torque(by.engine),
                    Amount::Reading(by.gear),
                    Amount::Reading(by.low),
                    Amount::Share(by.efficiency),
                    Amount::Reading(by.stall),
                ];
                value(Fit::ByEngine, by.torque, governs, both && bounds)
                    .step(Law::TorqueByEngine, &put_in, Amount::Torque(by.torque))
                    .from(&[Source::InstallationManual])
            }
            Err(blocked) => Finding::blocked(name(Fit::ByEngine), blocked.clone()),
        });
    }
    if bounds && (slip.is_ok() || begun(job, Entry::AxleLoad)) {
        found.push(match &slip {
            Ok(by) => {
                let put_in = [
                    Amount::Reading(by.friction),
                    Amount::Force(by.load),
                    Amount::PlainLength(by.radius),
                    Amount::Reading(by.axle),
                ];
                value(Fit::BySlip, by.torque, governs, both)
                    .step(Law::TorqueBySlip, &put_in, Amount::Torque(by.torque))
                    .from(&[Source::InstallationManual])
            }
            Err(blocked) => Finding::blocked(name(Fit::BySlip), blocked.clone()),
        });
    }
    found
}

/// A torque, and whether it is the one that counts.
fn value(fit: Fit, torque: Torque, governs: Option<Torque>, both: bool) -> Finding {
    let governs = match (governs == Some(torque), both) {
        (true, true) => Governs::Lesser,
        (true, false) => Governs::Alone,
        (false, _) => Governs::Never,
    };
    let value = Value {
        amount: Amount::Torque(torque),
        plus_minus: None,
        sense: Some(sense(FitSense::Governs(governs))),
    };
    Finding::known(name(fit), value, Verdict::Figure)
}
