//! Typed text to a quantity that makes sense: each field's kind and range, and what can be wrong.

use super::amount::Amount;
use super::complaint::Complaint;
use super::finding::{Need, Why};
use crate::job::{Dial, End, Entry, Job, LevelDivision};
use crate::quantity::{
    Angle, AngularAcceleration, AngularVelocity, Base, Length, Mass, RoadSpeed, Unit, Unreadable,
    degrees, grams, inches, kilometres_per_hour, millimetres, parse_acceleration, parse_angle,
    parse_clock, parse_length, parse_mass, parse_number, parse_road_speed, parse_speed,
    radians_per_second_squared, rpm,
};

/// Turns of a shaft a metre of road: a tyre of 3 m round on an axle of 1 gives 0.33, one of 1.6 m on an axle
/// of 9 gives 5.6. Our own choice, to catch miles an hour typed for turns.
const TURNS_A_METRE: core::ops::RangeInclusive<f64> = 0.3..=6.0;

/// Two readings of one spot differ by no more: twice an instrument's own error of 2°. Our own choice, to
/// catch a sign that was lost.
const MOST_TURNED_DEGREES: f64 = 4.0;

/// The range of a field, as amounts of its own kind. The bounds are our own choice: wide enough for
/// any road vehicle's shaft, narrow enough to catch a wrong unit or a slipped digit.
pub fn allowed(entry: Entry) -> (Amount, Amount) {
    let length = |least: f64, most: f64| {
        (Amount::PlainLength(millimetres(least)), Amount::PlainLength(millimetres(most)))
    };
    let fine = |least: f64, most: f64| {
        (Amount::FineLength(millimetres(least)), Amount::FineLength(millimetres(most)))
    };
    let angle = |least: f64, most: f64| (Amount::Angle(degrees(least)), Amount::Angle(degrees(most)));
    let mass = |least: f64, most: f64| (Amount::Mass(grams(least)), Amount::Mass(grams(most)));
    let reading = || (Amount::Reading(0.0), Amount::Reading(100_000.0));
    match entry {
        Entry::OldReading(_) | Entry::WantedReading(_) => length(200.0, 3000.0),
        Entry::EndsReading(_) | Entry::AtBump | Entry::AtRide | Entry::AtDroop => length(200.0, 3500.0),
        Entry::SetPoint | Entry::TakenAt | Entry::BottomedGap => length(0.0, 100.0),
        Entry::SplineLength | Entry::BarrelLength => length(20.0, 300.0),
        Entry::LeastEngaged => length(5.0, 200.0),
        Entry::BumpRoom => length(0.0, 50.0),
        Entry::BumpTravel | Entry::DroopTravel => length(1.0, 500.0),
        Entry::ShaftSlope => angle(-30.0, 30.0),
        Entry::LinkRadius => length(100.0, 2500.0),
        Entry::LinkRise => length(-1000.0, 1000.0),
        Entry::LipDepth => length(0.0, 30.0),
        Entry::GroovePlace => length(0.0, 300.0),
        Entry::GrooveWidth => length(0.1, 20.0),
        Entry::GrooveMargin => length(0.0, 10.0),
        Entry::FrontCup | Entry::RearCup => length(10.0, 80.0),
        Entry::FrontEar | Entry::RearEar | Entry::WantedFrontEar | Entry::WantedRearEar => {
            length(0.0, 100.0)
        }
        Entry::FrontDepth | Entry::RearDepth | Entry::Shoulder => length(10.0, 400.0),
        Entry::ClearBy => length(3.0, 500.0),
        Entry::SpigotDiameter => length(15.0, 200.0),
        Entry::Trim => length(0.0, 10.0),
        Entry::TubeDiameter => length(20.0, 200.0),
        Entry::TubeWall => length(0.8, 12.0),
        Entry::TopSpeed | Entry::RunSpeed => (Amount::Speed(rpm(100.0)), Amount::Speed(rpm(20_000.0))),
        Entry::WeldLine | Entry::FarWeldLine => length(10.0, 3000.0),
        Entry::Kerf => length(0.3, 8.0),
        Entry::RootGap | Entry::Shrinkage => length(0.0, 6.0),
        Entry::Spigot => length(3.0, 100.0),
        Entry::Lift(..) | Entry::FrontLift(..) => length(0.0, 30.0),
        Entry::Span | Entry::FrontSpan => length(20.0, 250.0),
        Entry::FrontLevel(..) | Entry::RearLevel(..) | Entry::YokeTurned => angle(-180.0, 180.0),
        Entry::LineArc(..) => length(-350.0, 350.0),
        Entry::OwnTarget => angle(-90.0, 90.0),
        Entry::GearboxSlope(_)
        | Entry::ShaftSlopeRead(_)
        | Entry::PinionSlope(_)
        | Entry::OneWay
        | Entry::TurnedRound => angle(-30.0, 30.0),
        Entry::GearboxPlan | Entry::ShaftPlan | Entry::PinionPlan => angle(-20.0, 20.0),
        Entry::FrontHeight | Entry::RearHeight => length(50.0, 2500.0),
        Entry::SideOffset => length(-600.0, 600.0),
        Entry::PowerRise => angle(-5.0, 12.0),
        Entry::BumpRise | Entry::DroopRise => angle(-25.0, 25.0),
        Entry::LeastAngle => angle(0.0, 3.0),
        Entry::TorsionalLimit | Entry::InertiaLimit => {
            let bound = |value: f64| Amount::Acceleration(radians_per_second_squared(value));
            (bound(20.0), bound(10_000.0))
        }
        Entry::RoadSpeed => {
            let bound = |value: f64| Amount::RoadSpeed(kilometres_per_hour(value));
            (bound(5.0), bound(500.0))
        }
        Entry::PinionArm | Entry::JointOverhang => length(0.0, 800.0),
        Entry::JointMost => angle(5.0, 44.0),
        Entry::SpringPad => length(20.0, 400.0),
        Entry::MountArm => length(200.0, 3000.0),
        Entry::PhaseLimit => angle(0.1, 5.0),
        Entry::OwnLimit => fine(0.02, 2.0),
        Entry::StationAt(..)
        | Entry::WeightClock(_)
        | Entry::SeamClock
        | Entry::EarClock
        | Entry::TrialClock(_)
        | Entry::RunPhase(..) => (Amount::Clock(degrees(0.0)), Amount::Clock(degrees(360.0))),
        Entry::StationReading(..) | Entry::Closing(..) => fine(-12.0, 12.0),
        Entry::Backlash => fine(0.0, 0.25),
        Entry::PlaceAlong(_) => length(10.0, 3000.0),
        Entry::FrontVee | Entry::RearVee => length(0.0, 3000.0),
        Entry::FaceReading(_) => length(-10.0, 10.0),
        Entry::WeightMass(_) => mass(0.5, 500.0),
        Entry::WeightDistance(_) => length(0.0, 3000.0),
        Entry::WeightRadius(_) | Entry::ClipRadius => length(10.0, 120.0),
        Entry::FrontPlane | Entry::RearPlane => length(0.0, 3000.0),
        Entry::WeightLength(_) => length(3.0, 350.0),
        Entry::WeightWidth(_) | Entry::StripWidth => length(3.0, 100.0),
        Entry::WeightThickness(_) | Entry::StripThickness => length(0.5, 12.0),
        Entry::TrialMass(_) | Entry::ClipMass => mass(0.5, 200.0),
        Entry::RunAmplitude(..) | Entry::CheckAmplitude(_) | Entry::RunScatter => reading(),
        // Words, of which none is wrong.
        Entry::WeightNote(_) => reading(),
        Entry::ShaftMass => mass(500.0, 80_000.0),
    }
}

/// Whether less than nothing makes sense in a field.
pub fn may_be_negative(entry: Entry) -> bool {
    base(allowed(entry).0) < 0.0
}

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
    let amount = match allowed(entry).0 {
        Amount::FineLength(_) => parse_length(text, unit).map(Amount::FineLength),
        Amount::Clock(_) => parse_clock(text, unit).map(Amount::Clock),
        Amount::Angle(_) => parse_angle(text, Unit::Degree).map(Amount::Angle),
        Amount::Mass(_) => parse_mass(text, unit).map(Amount::Mass),
        Amount::Speed(_) => parse_speed(text).map(Amount::Speed),
        Amount::RoadSpeed(_) => parse_road_speed(text, unit).map(Amount::RoadSpeed),
        Amount::Acceleration(_) => parse_acceleration(text).map(Amount::Acceleration),
        Amount::Reading(_) => parse_number(text).map(Amount::Reading),
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

fn base(amount: Amount) -> f64 {
    match amount {
        Amount::Length(q) | Amount::PlainLength(q) | Amount::FineLength(q) => q.base(),
        Amount::Angle(q) | Amount::Clock(q) => q.base(),
        Amount::Mass(q) => q.base(),
        Amount::Speed(q) => q.base(),
        Amount::RoadSpeed(q) => q.base(),
        Amount::Acceleration(q) => q.base(),
        Amount::Reading(value) => value,
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

    pub(super) fn acceleration(&mut self, entry: Entry) -> Option<AngularAcceleration> {
        self.take(entry).map(|amount| AngularAcceleration::from_base(base(amount)))
    }

    pub(super) fn road_speed(&mut self, entry: Entry) -> Option<RoadSpeed> {
        self.take(entry).map(|amount| RoadSpeed::from_base(base(amount)))
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
