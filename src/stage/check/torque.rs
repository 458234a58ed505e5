//! The torque that the shaft must carry: by the engine in its lowest gear, or by the wheels when they slip.

use super::found::{Fit, FitSense};
use super::speeds::tyre;
use super::{name, sense};
use crate::job::{Entry, Gearbox, Job};
use crate::mechanics::drive::{AUTOMATIC_EFFICIENCY, MANUAL_EFFICIENCY, engine_torque, slip_torque};
use crate::quantity::{Base, Force, Length, Mass, Torque};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Need, Source, Value, Verdict};

/// Acceleration of a falling body in m/s², exact by definition (standard gravity, 1901).
const FALL: f64 = 9.806_65;

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

/// The lowest gear there is: the greatest ratio, reverse among them.
fn lowest_gear(job: &Job, fields: &mut Fields) -> Option<f64> {
    let gears = (0..job.check.speeds.gears.len()).map(Entry::GearRatio);
    let entries: Vec<Entry> = gears.chain([Entry::ReverseRatio]).collect();
    let (mut lowest, mut given) = (0.0_f64, false);
    for entry in entries {
        given |= !fields.is_empty(entry);
        lowest = lowest.max(fields.optional_reading(entry).unwrap_or(0.0));
    }
    // Where none is given, the first is asked for.
    if given { Some(lowest).filter(|lowest| *lowest > 0.0) } else { fields.reading(Entry::GearRatio(0)) }
}

fn by_engine(job: &Job) -> Result<ByEngine, Vec<Need>> {
    let mut fields = Fields::of(job);
    let engine: Option<Torque> = fields.quantity(Entry::EngineTorque);
    let gear = lowest_gear(job, &mut fields);
    let low = if fields.is_empty(Entry::LowRange) { Some(1.0) } else { fields.reading(Entry::LowRange) };
    let converter = job.check.load.gearbox == Gearbox::Automatic;
    let stall = if converter { fields.reading(Entry::StallRatio) } else { Some(1.0) };
    let efficiency = if converter { AUTOMATIC_EFFICIENCY } else { MANUAL_EFFICIENCY };
    let (Some(engine), Some(gear), Some(low), Some(stall)) = (engine, gear, low, stall) else {
        return Err(fields.needs());
    };
    let torque = engine_torque(engine, gear * low, efficiency, stall).ok_or_else(Vec::new)?;
    Ok(ByEngine { torque, engine, gear, low, stall, efficiency })
}

fn by_slip(job: &Job) -> Result<BySlip, Vec<Need>> {
    let mut fields = Fields::of(job);
    let load: Option<Mass> = fields.quantity(Entry::AxleLoad);
    let friction = fields.reading(Entry::Friction);
    let turns = fields.sum(tyre(job));
    let axle = fields.reading(Entry::AxleRatio);
    let (Some(load), Some(friction), Some(turns), Some(axle)) = (load, friction, turns, axle) else {
        return Err(fields.needs());
    };
    let load = Force::from_base(load.base() * FALL);
    let radius = Length::from_base(1.0 / (core::f64::consts::TAU * turns.base()));
    let torque = slip_torque(load, radius, axle, friction).ok_or_else(Vec::new)?;
    Ok(BySlip { torque, friction, load, radius, axle })
}

/// The torque that the shaft must carry: the lesser of what the engine can give and of what the wheels can
/// hold, of those that are known; neither can be passed.
///
/// # Errors
/// What the torque by the engine needs, where neither is known.
pub fn torque(job: &Job) -> Result<Torque, Vec<Need>> {
    match (by_engine(job), by_slip(job)) {
        (Ok(engine), Ok(slip)) if slip.torque < engine.torque => Ok(slip.torque),
        (Ok(engine), _) => Ok(engine.torque),
        (_, Ok(slip)) => Ok(slip.torque),
        (Err(needs), _) => Err(needs),
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
    let mut found = Vec::new();
    let only_slip = slip.is_ok() && !begun(job, Entry::EngineTorque);
    if !only_slip {
        found.push(match &engine {
            Ok(by) => {
                let put_in = [
                    Amount::Torque(by.engine),
                    Amount::Reading(by.gear),
                    Amount::Reading(by.low),
                    Amount::Share(by.efficiency),
                    Amount::Reading(by.stall),
                ];
                value(Fit::ByEngine, by.torque, governs)
                    .step(Law::TorqueByEngine, &put_in, Amount::Torque(by.torque))
                    .from(&[Source::InstallationManual])
            }
            Err(needs) => Finding::missing(name(Fit::ByEngine), needs.clone()),
        });
    }
    if slip.is_ok() || begun(job, Entry::AxleLoad) {
        found.push(match &slip {
            Ok(by) => {
                let put_in = [
                    Amount::Reading(by.friction),
                    Amount::Force(by.load),
                    Amount::PlainLength(by.radius),
                    Amount::Reading(by.axle),
                ];
                value(Fit::BySlip, by.torque, governs)
                    .step(Law::TorqueBySlip, &put_in, Amount::Torque(by.torque))
                    .from(&[Source::InstallationManual])
            }
            Err(needs) => Finding::missing(name(Fit::BySlip), needs.clone()),
        });
    }
    found
}

fn value(fit: Fit, torque: Torque, governs: Option<Torque>) -> Finding {
    let value = Value {
        amount: Amount::Torque(torque),
        plus_minus: None,
        sense: Some(sense(FitSense::Governs(governs == Some(torque)))),
    };
    Finding::known(name(fit), value, Verdict::Figure)
}
