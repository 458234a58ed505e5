//! How fast the shaft turns: by its mechanic, by engine and gears, by tyre and axle.

use super::found::{Fastest, Fit, FitReason, FitSense};
use super::whirl::of_whirl;
use super::{name, sense, why};
use crate::job::{Entry, Job, TyreBy};
use crate::mechanics::drive::{from_engine, from_road, to_road};
use crate::mechanics::tyre::{LOADED_HALF_WIDTH, rolled_out};
use crate::quantity::{AngularVelocity, Base, RoadSpeed, TurnsPerLength};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Need, Source, Value, Verdict, Why};

/// How well a tyre's turns are known by its maker's figure or rolled out, ±, for wear and load. Our own choice.
const TYRE_DOUBT: f64 = 0.01;
/// What was typed may be rounded up or down by so much before it is said to be too little. Our own choice.
const ROUNDED: f64 = 0.02;

/// A speed of the shaft with its ±.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShaftSpeed {
    /// What makes it turn so fast.
    pub by: Fastest,
    /// How fast.
    pub speed: AngularVelocity,
    /// ±.
    pub doubt: AngularVelocity,
}

impl ShaftSpeed {
    /// A speed as it was typed.
    pub fn typed(speed: AngularVelocity) -> ShaftSpeed {
        ShaftSpeed { by: Fastest::Typed, speed, doubt: AngularVelocity::from_base(0.0) }
    }

    /// This speed as a share of a whirl speed that is known to ±, with what both leave open of it.
    pub fn share_of(&self, whirl: AngularVelocity, doubt: AngularVelocity) -> (f64, f64) {
        let share = self.speed.base() / whirl.base();
        let own = self.doubt.base() / self.speed.base();
        (share, share * own.hypot(doubt.base() / whirl.base()))
    }
}

/// Turns of the driven tyre on a length of road, where it is known.
///
/// # Errors
/// The field that is needed.
pub fn tyre(job: &Job) -> Result<TurnsPerLength, Vec<Need>> {
    let mut fields = Fields::of(job);
    let turns = match job.check.speeds.tyre_by {
        TyreBy::Marking => fields.quantity(Entry::TyreSize),
        TyreBy::Turns => fields.quantity(Entry::TyreTurns),
        TyreBy::RolledOut => fields.length(Entry::RolledOut).and_then(|round| rolled_out(1.0, round)),
    };
    turns.ok_or_else(|| fields.needs())
}

/// Tyre and axle.
fn wheels(job: &Job) -> Result<(TurnsPerLength, f64), Vec<Need>> {
    let mut fields = Fields::of(job);
    let tyre = fields.sum(tyre(job));
    let axle = fields.reading(Entry::AxleRatio);
    tyre.zip(axle).ok_or_else(|| fields.needs())
}

/// The shaft's speed at a road speed.
pub fn at_road(job: &Job, road: RoadSpeed) -> Option<AngularVelocity> {
    let (tyre, axle) = wheels(job).ok()?;
    from_road(road, tyre, axle)
}

/// The road speed at a speed of the shaft.
pub fn road_at(job: &Job, shaft: AngularVelocity) -> Option<RoadSpeed> {
    let (tyre, axle) = wheels(job).ok()?;
    to_road(shaft, tyre, axle)
}

/// Each forward gear that is given, from 0, with the shaft's speed at the engine's top speed.
pub fn gears(job: &Job) -> Vec<(usize, AngularVelocity)> {
    let mut fields = Fields::of(job);
    let Some(engine) = fields.speed(Entry::EngineLimit) else { return Vec::new() };
    let mut shaft = |row: usize| {
        let ratio = fields.optional_reading(Entry::GearRatio(row));
        ratio.and_then(|ratio| from_engine(engine, ratio))
    };
    (0..job.check.speeds.gears.len()).filter_map(|row| Some((row, shaft(row)?))).collect()
}

/// The fastest gear.
fn by_engine(job: &Job) -> Option<ShaftSpeed> {
    let mut fastest: Option<(usize, AngularVelocity)> = None;
    for (row, speed) in gears(job) {
        if fastest.is_none_or(|(_, known)| speed > known) {
            fastest = Some((row, speed));
        }
    }
    let none = AngularVelocity::from_base(0.0);
    fastest.map(|(row, speed)| ShaftSpeed { by: Fastest::Gear(row), speed, doubt: none })
}

/// Whether the fastest gear that is given can be the highest there is: it turns the shaft no slower than the
/// engine, and no gear below it was left out.
fn is_highest(job: &Job, gear: usize) -> bool {
    let mut fields = Fields::of(job);
    let direct = fields.optional_reading(Entry::GearRatio(gear)).is_some_and(|ratio| ratio <= 1.0);
    direct && (0..gear).all(|row| !fields.is_empty(Entry::GearRatio(row)))
}

/// By the fastest on the road.
fn by_road(job: &Job) -> Option<ShaftSpeed> {
    let road = Fields::of(job).road_speed(Entry::RoadTop)?;
    let speed = at_road(job, road)?;
    let share = if job.check.speeds.tyre_by == TyreBy::Marking { LOADED_HALF_WIDTH } else { TYRE_DOUBT };
    Some(ShaftSpeed { by: Fastest::Road(road), speed, doubt: speed * share })
}

/// What engine and road come to: the lesser, since neither can be passed.
fn reckoned(job: &Job) -> Option<ShaftSpeed> {
    match (by_engine(job), by_road(job)) {
        (Some(engine), Some(road)) if road.speed < engine.speed => Some(road),
        (engine, road) => engine.or(road),
    }
}

/// A wrong entry that the speeds would need.
fn wrong(job: &Job) -> Vec<Need> {
    let gears = (0..job.check.speeds.gears.len()).map(Entry::GearRatio);
    let tyre = match job.check.speeds.tyre_by {
        TyreBy::Marking => Entry::TyreSize,
        TyreBy::Turns => Entry::TyreTurns,
        TyreBy::RolledOut => Entry::RolledOut,
    };
    let all = [Entry::TopSpeed, Entry::EngineLimit, Entry::AxleRatio, Entry::RoadTop, tyre];
    let mut fields = Fields::of(job);
    for entry in gears.chain(all) {
        fields.optional_reading(entry);
    }
    fields.needs()
}

/// The fastest the shaft turns: as typed, else by engine and road.
///
/// # Errors
/// What is wrong, else the one field that would do.
pub fn top_speed(job: &Job) -> Result<ShaftSpeed, Vec<Need>> {
    let typed = Fields::of(job).optional(Entry::TopSpeed);
    let typed = typed.map(ShaftSpeed::typed);
    // What was typed holds whatever stands below it; a wrong entry hides none of what it would change.
    let wrong = wrong(job);
    let is_wrong = |entry: Entry| wrong.iter().any(|need| need.entry == entry);
    if let Some(typed) = typed.filter(|_| !is_wrong(Entry::TopSpeed)) {
        return Ok(typed);
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    reckoned(job).ok_or_else(|| vec![Need { entry: Entry::TopSpeed, why: Why::Empty }])
}

/// Faster than another speed by more than rounding.
fn beyond(one: AngularVelocity, other: AngularVelocity) -> bool {
    one.base() > other.base() * (1.0 + ROUNDED)
}

/// The fastest the shaft turns, and what makes it so.
pub(super) fn finding(job: &Job) -> Finding {
    let top = match top_speed(job) {
        Ok(top) => top,
        Err(needs) => return Finding::missing(name(Fit::TopSpeed), needs),
    };
    let faster =
        reckoned(job).filter(|other| top.by == Fastest::Typed && beyond(other.speed, top.speed));
    let by_engine = by_engine(job);
    // On ice, in mud or off the ground nothing but the engine stops a wheel that spins.
    let spins = by_engine.and_then(|engine| of_whirl(job, engine.speed).map(|by| (engine.speed, by)));
    let spins = spins.filter(|(_, by)| by.share > by.allowed);
    let verdict = match (faster, top.by) {
        (Some(faster), _) => Verdict::Watch(why(FitReason::FasterThanTyped { reckoned: faster.speed })),
        (None, Fastest::Typed) if by_engine.is_some_and(|engine| beyond(top.speed, engine.speed)) => {
            let reckoned = by_engine.map_or(top.speed, |engine| engine.speed);
            Verdict::Watch(why(FitReason::NothingMakesIt { reckoned }))
        }
        (None, Fastest::Gear(gear)) if !is_highest(job, gear) => {
            Verdict::Watch(why(FitReason::IsItTheHighest))
        }
        (None, Fastest::Road(_)) if by_engine.is_none() => Verdict::Watch(why(FitReason::RoadOnly)),
        _ => match spins {
            Some((engine, by)) => {
                Verdict::Watch(why(FitReason::SpinsPastWhirl { engine, allowed: by.allowed }))
            }
            None if top.by == Fastest::Typed => Verdict::Figure,
            None => Verdict::Good,
        },
    };
    let engine = by_engine.map(|engine| engine.speed).filter(|speed| *speed > top.speed);
    let value = Value {
        amount: Amount::Speed(top.speed),
        plus_minus: (top.doubt.base() > 0.0).then_some(Amount::Speed(top.doubt)),
        sense: Some(sense(FitSense::Fastest { by: top.by, engine })),
    };
    let finding = Finding::known(name(Fit::TopSpeed), value, verdict);
    working(job, finding, top)
}

/// The working of a top speed that was reckoned.
fn working(job: &Job, finding: Finding, top: ShaftSpeed) -> Finding {
    let mut fields = Fields::of(job);
    match top.by {
        Fastest::Typed => finding,
        Fastest::Gear(row) => {
            let (engine, ratio) =
                (fields.speed(Entry::EngineLimit), fields.reading(Entry::GearRatio(row)));
            let (Some(engine), Some(ratio)) = (engine, ratio) else { return finding };
            let put_in = [Amount::Speed(engine), Amount::Reading(ratio)];
            finding.step(Law::EngineToShaft, &put_in, Amount::Speed(top.speed)).from(&[Source::Geometry])
        }
        Fastest::Road(road) => {
            let Ok((tyre, axle)) = wheels(job) else { return finding };
            let put_in = [Amount::RoadSpeed(road), Amount::Turns(tyre), Amount::Reading(axle)];
            finding
                .step(Law::RoadToShaft, &put_in, Amount::Speed(top.speed))
                .from(&[Source::Geometry, Source::TyreTurns])
        }
    }
}
