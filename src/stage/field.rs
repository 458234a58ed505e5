//! Typed text to a quantity that makes sense: each field's kind and range, and what can be wrong.

use super::amount::Amount;
use super::check::top_speed;
use super::complaint::Complaint;
use super::finding::{Need, Why};
use super::range::allowed;
use crate::job::{Dial, End, Entry, Job, LevelDivision};
use crate::mechanics::tyre::{NoSuchTyre, loaded, parse_tyre};
use crate::quantity::{
    Angle, AngularAcceleration, AngularVelocity, Base, Length, Mass, RoadSpeed, Unit, Unreadable,
    degrees, inches, millimetres, parse_acceleration, parse_angle, parse_clock, parse_density,
    parse_length, parse_mass, parse_modulus, parse_number, parse_rate, parse_road_speed, parse_speed,
    parse_stress, parse_torque, parse_turns,
};

/// Turns of a shaft a metre of road: a tyre of 3 m round on an axle of 1 gives 0.33, one of 1.6 m on an axle
/// of 9 gives 5.6. Our own choice, to catch miles an hour typed for turns.
const TURNS_A_METRE: core::ops::RangeInclusive<f64> = 0.3..=6.0;

/// Two readings of one spot differ by no more: twice an instrument's own error of 2°. Our own choice, to
/// catch a sign that was lost.
const MOST_TURNED_DEGREES: f64 = 4.0;

/// What a field holds: `None` where it is empty.
///
/// # Errors
/// A [`Complaint`] with what was given and what is allowed.
pub fn read(job: &Job, entry: Entry) -> Result<Option<Amount>, Complaint> {
    let Some(given) = parsed(job, entry)? else { return Ok(None) };
    let (least, most) = allowed(entry);
    let (at_least, at_most) =
        (base(given) >= slack(base(least), -1.0), base(given) <= slack(base(most), 1.0));
    if !(at_least && at_most) {
        return Err(Complaint::OutOfRange { given, least, most });
    }
    if matches!(entry, Entry::StationReading(..) | Entry::Closing(..)) && finer_than_dial(job, given) {
        return Err(Complaint::FinerThanDial);
    }
    against_others(job, entry, given)?;
    Ok(Some(given))
}

/// Not nothing, and under two fifths of a line: no eye reads that, so half lines may still be typed.
fn finer_than_dial(job: &Job, given: Amount) -> bool {
    let line = dial_division(job).base();
    base(given) != 0.0 && base(given).abs() < 0.4 * line
}

/// The distance between the lines of the dial in use.
pub(super) fn dial_division(job: &Job) -> Length {
    match job.truing.dial {
        Dial::Thousandth => inches(0.001),
        Dial::HalfThousandth => inches(0.0005),
        Dial::Hundredth => millimetres(0.01),
    }
}

/// The distance between the lines of a level or protractor.
pub(super) fn level_division(division: LevelDivision) -> Angle {
    degrees(match division {
        LevelDivision::Twentieth => 0.05,
        LevelDivision::Tenth => 0.1,
        LevelDivision::Fifth => 0.2,
        LevelDivision::Quarter => 0.25,
        LevelDivision::Whole => 1.0,
    })
}

/// How well a tube's diameter and its wall are known to someone with a calliper, ±. Our own choice.
pub(super) fn tube_doubt() -> (Length, Length) {
    (millimetres(0.15), millimetres(0.1))
}

/// A hair of room at a bound, so that the bound itself may be typed in either unit.
fn slack(bound: f64, direction: f64) -> f64 {
    bound + direction * 1e-9 * bound.abs()
}

/// The quantity in a field's text, of the field's own kind.
fn parsed(job: &Job, entry: Entry) -> Result<Option<Amount>, Complaint> {
    // A note is for the reader alone.
    let is_note = matches!(entry, Entry::WeightNote(_));
    let Some(typed) = job.typed(entry).filter(|_| !is_note) else { return Ok(None) };
    let (text, unit) = (typed.text.as_str(), typed.unit);
    if entry == Entry::TyreSize {
        return match parse_tyre(text) {
            Ok(tyre) => Ok(Some(Amount::Turns(loaded(tyre)))),
            Err(NoSuchTyre::Empty) => Ok(None),
            Err(why) => Err(Complaint::NoTyre(why)),
        };
    }
    let amount = match allowed(entry).0 {
        Amount::FineLength(_) => parse_length(text, unit).map(Amount::FineLength),
        Amount::Clock(_) => parse_clock(text, unit).map(Amount::Clock),
        Amount::Angle(_) => parse_angle(text, Unit::Degree).map(Amount::Angle),
        Amount::Mass(_) => parse_mass(text, unit).map(Amount::Mass),
        Amount::Speed(_) => parse_speed(text).map(Amount::Speed),
        Amount::RoadSpeed(_) => parse_road_speed(text, unit).map(Amount::RoadSpeed),
        Amount::Acceleration(_) => parse_acceleration(text).map(Amount::Acceleration),
        Amount::Reading(_) => parse_number(text).map(Amount::Reading),
        Amount::Torque(_) => parse_torque(text, unit).map(Amount::Torque),
        Amount::Stress(_) => parse_stress(text, unit).map(Amount::Stress),
        Amount::Modulus(_) => parse_modulus(text, unit).map(Amount::Modulus),
        Amount::Density(_) => parse_density(text, unit).map(Amount::Density),
        Amount::Rate(_) => parse_rate(text, unit).map(Amount::Rate),
        Amount::Turns(_) => parse_turns(text, unit).map(Amount::Turns),
        _ => parse_length(text, unit).map(Amount::PlainLength),
    };
    match amount {
        Ok(amount) => Ok(Some(amount)),
        Err(Unreadable::Empty) => Ok(None),
        Err(unreadable) => Err(Complaint::Unreadable(unreadable)),
    }
}

/// What one field says about another.
fn against_others(job: &Job, entry: Entry, given: Amount) -> Result<(), Complaint> {
    let below = |other: Entry, factor: f64| {
        let Ok(Some(limit)) = in_range_alone(job, other) else { return Ok(()) };
        let most = Length::from_base(base(limit) * factor);
        if base(given).abs() < most.base() {
            Ok(())
        } else {
            Err(Complaint::NotBelow { given, other, most: Amount::PlainLength(most) })
        }
    };
    let at_most = |other: Entry| {
        let Ok(Some(limit)) = in_range_alone(job, other) else { return Ok(()) };
        if base(given) <= slack(base(limit), 1.0) {
            Ok(())
        } else {
            Err(Complaint::Above { given, other, most: limit })
        }
    };
    let round_tube = || {
        let Ok(Some(across)) = in_range_alone(job, Entry::TubeDiameter) else { return Ok(()) };
        let least = 0.5 * base(across);
        if base(given) >= slack(least, -1.0) {
            Ok(())
        } else {
            let least = Amount::PlainLength(Length::from_base(least));
            Err(Complaint::TooLittle { other: Entry::TubeDiameter, least })
        }
    };
    let turns_with = |other: Entry| {
        let Ok(Some(top)) = in_range_alone(job, other) else { return Ok(()) };
        // Turns of the shaft a metre of road.
        let turns = base(top) / core::f64::consts::TAU / base(given);
        if TURNS_A_METRE.contains(&turns) { Ok(()) } else { Err(Complaint::SpeedsApart { other }) }
    };
    let near = |other: Entry, most: f64| {
        let Ok(Some(known)) = in_range_alone(job, other) else { return Ok(()) };
        let apart = Angle::from_base((base(given) - base(known)).abs());
        if apart.base() <= slack(degrees(most).base(), 1.0) {
            Ok(())
        } else {
            Err(Complaint::FarFrom { other, apart })
        }
    };
    match entry {
        Entry::TubeWall => below(Entry::TubeDiameter, 0.5),
        Entry::StepWall => below(Entry::StepDiameter, 0.5),
        Entry::SplineBore => below(Entry::SplineRoot, 1.0),
        Entry::Cruise => at_most(Entry::RoadTop),
        // From first up each gear is higher than the one given before it: its ratio is less.
        Entry::GearRatio(row) => {
            let given =
                |before: &usize| matches!(in_range_alone(job, Entry::GearRatio(*before)), Ok(Some(_)));
            (0..row).rev().find(given).map_or(Ok(()), |before| at_most(Entry::GearRatio(before)))
        }
        Entry::WeldLine | Entry::WeightDistance(_) => below(first_old(job), 1.0),
        // Round the tube no weight is longer than it is round.
        Entry::WeightLength(_) => below(Entry::TubeDiameter, core::f64::consts::PI),
        // Both from the far datum, which is the rear joint where the front end is cut.
        Entry::FrontPlane if job.cut.end == End::Rear => below(Entry::RearPlane, 1.0),
        Entry::RearPlane if job.cut.end == End::Front => below(Entry::FrontPlane, 1.0),
        Entry::FarWeldLine => below(Entry::WeldLine, 1.0),
        // Farther than once round the tube is no place on it.
        Entry::LineArc(..) => below(Entry::TubeDiameter, core::f64::consts::PI),
        Entry::Lift(..) => below(Entry::Span, 1.0),
        Entry::FrontLift(..) => below(Entry::FrontSpan, 1.0),
        Entry::SpigotDiameter => below(Entry::TubeDiameter, 1.0),
        Entry::LeastEngaged | Entry::SetPoint | Entry::TakenAt => below(Entry::SplineLength, 1.0),
        Entry::GroovePlace | Entry::BottomedGap => below(Entry::BarrelLength, 1.0),
        Entry::Shoulder => below(first_old(job), 1.0),
        // A band lies round the tube, and its screw on that.
        Entry::ClipRadius => round_tube(),
        Entry::RoadSpeed => turns_with(Entry::TopSpeed),
        Entry::TurnedRound => near(Entry::OneWay, MOST_TURNED_DEGREES),
        Entry::ClearBy => below(Entry::WeldLine, 1.0),
        _ => Ok(()),
    }
}

/// The old length's first reading that can be read: what a distance on the shaft must stay below.
fn first_old(job: &Job) -> Entry {
    (0..job.measure.old.len())
        .map(Entry::OldReading)
        .find(|entry| matches!(in_range_alone(job, *entry), Ok(Some(_))))
        .unwrap_or(Entry::OldReading(0))
}

/// A field read without asking the others, so that two fields never ask each other in a circle.
fn in_range_alone(job: &Job, entry: Entry) -> Result<Option<Amount>, Complaint> {
    let (least, most) = allowed(entry);
    let given = parsed(job, entry)?;
    Ok(given.filter(|amount| base(*amount) >= base(least) && base(*amount) <= base(most)))
}

pub(super) fn base(amount: Amount) -> f64 {
    match amount {
        Amount::Length(q) | Amount::PlainLength(q) | Amount::FineLength(q) => q.base(),
        Amount::Angle(q) | Amount::Clock(q) => q.base(),
        Amount::Mass(q) => q.base(),
        Amount::Speed(q) => q.base(),
        Amount::RoadSpeed(q) => q.base(),
        Amount::Acceleration(q) => q.base(),
        Amount::Reading(value) => value,
        Amount::Torque(q) => q.base(),
        Amount::Stress(q) | Amount::Modulus(q) => q.base(),
        Amount::Density(q) => q.base(),
        Amount::Rate(q) => q.base(),
        Amount::Turns(q) => q.base(),
        _ => f64::NAN,
    }
}

/// Collects fields for a sum and remembers what stands in the way.
pub(super) struct Fields<'a> {
    job: &'a Job,
    needs: Vec<Need>,
}

impl<'a> Fields<'a> {
    pub(super) fn of(job: &'a Job) -> Self {
        Fields { job, needs: Vec::new() }
    }

    fn take(&mut self, entry: Entry) -> Option<Amount> {
        let why = match read(self.job, entry) {
            Ok(Some(amount)) => return Some(amount),
            Ok(None) => Why::Empty,
            Err(complaint) => Why::Wrong(complaint),
        };
        self.needs.push(Need { entry, why });
        None
    }

    pub(super) fn length(&mut self, entry: Entry) -> Option<Length> {
        self.take(entry).map(|amount| Length::from_base(base(amount)))
    }

    /// A length that a sum can do without: an empty field is no need, but a wrong entry is. A check
    /// that the mechanic meant to feed must not be dropped without a word.
    pub(super) fn optional_length(&mut self, entry: Entry) -> Option<Length> {
        if self.is_empty(entry) { None } else { self.length(entry) }
    }

    /// Nothing stands in the field.
    pub(super) fn is_empty(&self, entry: Entry) -> bool {
        matches!(read(self.job, entry), Ok(None))
    }

    pub(super) fn angle(&mut self, entry: Entry) -> Option<Angle> {
        self.take(entry).map(|amount| Angle::from_base(base(amount)))
    }

    /// What an instrument shows, in its own unit.
    pub(super) fn reading(&mut self, entry: Entry) -> Option<f64> {
        self.take(entry).map(base)
    }

    pub(super) fn mass(&mut self, entry: Entry) -> Option<Mass> {
        self.take(entry).map(|amount| Mass::from_base(base(amount)))
    }

    pub(super) fn speed(&mut self, entry: Entry) -> Option<AngularVelocity> {
        self.take(entry).map(|amount| AngularVelocity::from_base(base(amount)))
    }

    /// The fastest the shaft turns, typed or reckoned.
    pub(super) fn top_speed(&mut self) -> Option<AngularVelocity> {
        self.sum(top_speed(self.job)).map(|top| top.speed)
    }

    pub(super) fn acceleration(&mut self, entry: Entry) -> Option<AngularAcceleration> {
        self.take(entry).map(|amount| AngularAcceleration::from_base(base(amount)))
    }

    pub(super) fn road_speed(&mut self, entry: Entry) -> Option<RoadSpeed> {
        self.take(entry).map(|amount| RoadSpeed::from_base(base(amount)))
    }

    /// A quantity of any kind.
    pub(super) fn quantity<Q: Base>(&mut self, entry: Entry) -> Option<Q> {
        self.take(entry).map(|amount| Q::from_base(base(amount)))
    }

    /// A quantity that a sum can do without; a wrong entry stands in the way all the same.
    pub(super) fn optional<Q: Base>(&mut self, entry: Entry) -> Option<Q> {
        if self.is_empty(entry) { None } else { self.quantity(entry) }
    }

    /// A plain number that a sum can do without; a wrong entry stands in the way all the same.
    pub(super) fn optional_reading(&mut self, entry: Entry) -> Option<f64> {
        if self.is_empty(entry) { None } else { self.reading(entry) }
    }

    /// Every reading of a list that is not empty; a reading that cannot be used stands in the way.
    pub(super) fn readings<Q: Base>(&mut self, entries: impl Iterator<Item = Entry>) -> Vec<Q> {
        let (mut found, mut first) = (Vec::new(), None);
        let before = self.needs.len();
        for entry in entries {
            first.get_or_insert(entry);
            match read(self.job, entry) {
                Ok(Some(amount)) => found.push(Q::from_base(base(amount))),
                Ok(None) => {}
                Err(complaint) => self.needs.push(Need { entry, why: Why::Wrong(complaint) }),
            }
        }
        if let (true, Some(entry)) = (found.is_empty() && self.needs.len() == before, first) {
            self.needs.push(Need { entry, why: Why::Empty });
        }
        found
    }

    /// The outcome of another sum; what stands in its way stands in the way here too.
    pub(super) fn sum<T>(&mut self, outcome: Result<T, Vec<Need>>) -> Option<T> {
        outcome.map_err(|needs| self.also(&needs)).ok()
    }

    /// Adds needs of another sum.
    pub(super) fn also(&mut self, needs: &[Need]) {
        for need in needs {
            if !self.needs.iter().any(|known| known.entry == need.entry) {
                self.needs.push(need.clone());
            }
        }
    }

    pub(super) fn needs(self) -> Vec<Need> {
        self.needs
    }
}
