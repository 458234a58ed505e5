//! Weights: where each one goes back, and what that leaves.

use super::amount::Amount;
use super::check::stiffness;
use super::cut::cut_list;
use super::field::Fields;
use super::finding::{Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
use super::judged::chosen_limit;
use super::measure::{LengthChange, length_change};
use crate::job::{End, Entry, Job, WeightsCame};
use crate::mechanics::across::Across;
use crate::mechanics::tube::Tube;
use crate::mechanics::unbalance::{Grade, Shares, Weight, permitted, shares};
use crate::mechanics::uncertainty::{Spread, combined, rectangular};
use crate::quantity::{
    Angle, AngularVelocity, Base, Length, Mass, Unbalance, centrifugal_force, clockwise_angle, degrees,
    grams, inches,
};

/// How well a removed weight is known, ±: mass by a kitchen scale, clock position by eye, place and
/// radius by tape. Our own choice.
fn weight_doubt() -> (Mass, Angle, Length, Length) {
    (grams(0.5), degrees(5.0), inches(1.0 / 8.0), inches(1.0 / 16.0))
}

/// How far a weight must keep from a weld. Common practice, no source.
fn keep_from_weld() -> Length {
    inches(0.5)
}

/// A weight that came off, and where it goes back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// The row it was logged in.
    pub row: usize,
    /// The yoke it belongs to.
    pub own: End,
    /// On the old shaft.
    pub before: Weight,
    /// On the new shaft.
    pub after: Weight,
    /// Distance from the far datum on the new shaft.
    pub distance: Length,
}

/// The distance behind the front joint of a place that is so far from the far datum.
fn behind_front(job: &Job, distance: Length, length: Length) -> Length {
    match job.cut.end {
        End::Rear => distance,
        End::Front => length - distance,
    }
}

fn is_blank(job: &Job, row: usize) -> bool {
    [Entry::WeightMass, Entry::WeightClock, Entry::WeightDistance, Entry::WeightRadius]
        .iter()
        .all(|entry| job.typed(entry(row)).is_none_or(|typed| typed.is_blank()))
}

/// Where a logged weight goes back, kept with its own yoke.
///
/// # Errors
/// The fields that are needed.
pub fn placed(job: &Job, row: usize) -> Result<Placed, Vec<Need>> {
    let mut fields = Fields::of(job);
    let mass = fields.mass(Entry::WeightMass(row));
    let clock = fields.angle(Entry::WeightClock(row));
    let distance = fields.length(Entry::WeightDistance(row));
    let radius = fields.length(Entry::WeightRadius(row));
    let turned = fields.angle(Entry::YokeTurned);
    let lengths = fields.sum(length_change(job));
    let (Some(mass), Some(at), Some(distance), Some(radius), Some(turned), Some(lengths)) =
        (mass, clock, distance, radius, turned, lengths)
    else {
        return Err(fields.needs());
    };
    let (old, new) = (lengths.old.best, lengths.wanted.best);
    let with_cut_end = distance.base() > old.base() / 2.0;
    let moved = if with_cut_end { distance - (old - new) } else { distance };
    let turn = if with_cut_end { turned } else { degrees(0.0) };
    let own = match (job.cut.end, with_cut_end) {
        (End::Rear, true) | (End::Front, false) => End::Rear,
        _ => End::Front,
    };
    let before = Weight { mass, radius, at, z: behind_front(job, distance, old) };
    let after =
        Weight { mass, radius, at: clockwise_angle(at + turn), z: behind_front(job, moved, new) };
    Ok(Placed { row, own, before, after, distance: moved })
}

/// Every weight that can be placed; needs of those that cannot.
pub fn all_placed(job: &Job) -> (Vec<Placed>, Vec<Need>) {
    let mut found = Vec::new();
    let mut fields = Fields::of(job);
    if job.weights.came == WeightsCame::None {
        return (found, fields.needs());
    }
    for row in (0..job.weights.rows.len()).filter(|row| !is_blank(job, *row)) {
        match placed(job, row) {
            Ok(weight) => found.push(weight),
            Err(needs) => fields.also(&needs),
        }
    }
    (found, fields.needs())
}

/// What follows for the weights.
pub fn findings(job: &Job) -> Vec<Finding> {
    if job.weights.came == WeightsCame::None {
        let value = Value { amount: Amount::Count(0), plus_minus: None, sense: None };
        return vec![Finding::known(Name::NothingToPutBack, value, Verdict::Good)];
    }
    let rows: Vec<usize> = (0..job.weights.rows.len()).filter(|row| !is_blank(job, *row)).collect();
    let mut found: Vec<Finding> = rows.iter().map(|row| put_back(job, *row)).collect();
    found.extend(left(job, rows.is_empty()));
    found
}

fn put_back(job: &Job, row: usize) -> Finding {
    let name = Name::PutBack(row);
    let weight = match placed(job, row) {
        Ok(weight) => weight,
        Err(needs) => return Finding::missing(name, needs),
    };
    let weld = cut_list(job).ok().and_then(|list| list.new_weld());
    let mut optional = Fields::of(job);
    let far_weld = optional.length(Entry::FarWeldLine);
    let lengths = length_change(job);
    let lengthened = lengths.as_ref().is_ok_and(LengthChange::lengthens);
    let near = |weld: Length| (weight.distance - weld).base().abs() < keep_from_weld().base();
    // Shortened past the middle, even a weight that stays where it was may stand on thin air.
    let on_the_shaft =
        |lengths: &LengthChange| (0.0..=lengths.wanted.best.base()).contains(&weight.distance.base());
    let verdict = if !lengths.as_ref().is_ok_and(on_the_shaft) {
        Verdict::Stop(Reason::OffTheShaft)
    } else if weld.is_some_and(near) || (lengthened && far_weld.is_some_and(near)) {
        Verdict::Watch(Reason::OnTheWeld { keep: keep_from_weld() })
    } else if lengthened {
        // These weights balanced a tube that is now scrap.
        Verdict::Watch(Reason::Lengthened)
    } else {
        Verdict::Good
    };
    let value = Value {
        amount: Amount::Mass(weight.after.mass),
        plus_minus: Some(Amount::Mass(weight_doubt().0)),
        sense: Some(Sense::Place { clock: weight.after.at, distance: weight.distance }),
    };
    let mut finding = Finding::known(name, value, verdict).step(
        Law::Unbalance,
        &[Amount::Mass(weight.after.mass), Amount::PlainLength(weight.after.radius)],
        Amount::Unbalance(weight.after.mass * weight.after.radius),
    );
    let stays = (weight.own == End::Rear) != (job.cut.end == End::Rear);
    if let (false, Ok(lengths)) = (stays, length_change(job)) {
        let plain = Amount::PlainLength;
        let before = weight.distance + (lengths.old.best - lengths.wanted.best);
        finding = finding.step(
            Law::NewDistance,
            &[plain(before), plain(lengths.old.best), plain(lengths.wanted.best)],
            plain(weight.distance),
        );
    }
    finding.from(&[Source::TwoPlanes, Source::DoubtOfWeights, Source::CommonPractice])
}

/// The weights before and after, on their shafts. A weight at the turned yoke is compared with its own
/// turned place, since what it cancels has turned with it.
#[derive(Clone)]
struct Move {
    before: Vec<Weight>,
    after: Vec<Weight>,
    old: Length,
    new: Length,
}

impl Move {
    fn of(placed: &[Placed], lengths: &LengthChange) -> Move {
        Move {
            before: placed.iter().map(|p| Weight { at: p.after.at, ..p.before }).collect(),
            after: placed.iter().map(|p| p.after).collect(),
            old: lengths.old.best,
            new: lengths.wanted.best,
        }
    }

    /// What the move leaves in the two planes through the joints: the weights' shares on the new shaft
    /// less their shares on the old one.
    fn leaves(&self) -> Shares {
        let (new, old) = (shares(&self.after, self.new), shares(&self.before, self.old));
        Shares { front: new.front - old.front, rear: new.rear - old.rear }
    }

    /// How far the doubts of each weight move what is left in a plane. Where a weight sat and where it
    /// is put are two readings, and each has its own doubt.
    fn doubts(&self, plane: Plane) -> Vec<Spread<Unbalance>> {
        let best = plane(self.leaves());
        let mut parts = Vec::new();
        for row in 0..self.after.len() {
            for nudge in nudges() {
                for put_back in [false, true] {
                    let mut moved = self.clone();
                    let list = if put_back { &mut moved.after } else { &mut moved.before };
                    if let Some(weight) = list.get_mut(row) {
                        nudge(weight);
                    }
                    parts.push(rectangular((plane(moved.leaves()) - best).size()));
                }
            }
        }
        parts
    }
}

/// Each doubt of a weight, done to it.
fn nudges() -> [fn(&mut Weight); 4] {
    [
        |weight| weight.mass += weight_doubt().0,
        |weight| weight.at += weight_doubt().1,
        |weight| weight.z += weight_doubt().2,
        |weight| weight.radius += weight_doubt().3,
    ]
}

/// Picks one of the two planes.
type Plane = fn(Shares) -> Across<Unbalance>;

/// What no one can know without a machine, as spreads in a plane: the unbalance of the ring that was cut
/// out, taken as its mass at the offset that the run-out limit allows; and what the moved yoke's end
/// carried beyond its weights, taken as a plane's share of the grade, times the part of the length that
/// it moved. `None` while the tube or the weld line is not known.
fn unknowable(job: &Job, moved: &Move, half: Unbalance, plane: Plane) -> Option<Vec<Spread<Unbalance>>> {
    let mut fields = Fields::of(job);
    let (diameter, wall) = (fields.length(Entry::TubeDiameter), fields.length(Entry::TubeWall));
    let (limit, _) = chosen_limit(job, &mut fields)?;
    let list = cut_list(job).ok()?;
    let tube = Tube::new(diameter?, wall?).ok()?;
    let ring = Weight {
        mass: tube.mass(stiffness(job).density, list.removed.best),
        radius: limit * 0.5,
        at: degrees(0.0),
        z: behind_front(job, list.new_weld()?, moved.new),
    };
    let part = ((moved.old - moved.new).base() / moved.new.base()).abs();
    Some(vec![rectangular(plane(shares(&[ring], moved.new)).size()), rectangular(half * part)])
}

/// What moving the weights leaves in the two planes, as vectors; `None` while a weight or a length is
/// missing. The findings show a direction only where it stands clear of its ±.
pub fn leaves(job: &Job) -> Option<Shares> {
    let (placed, needs) = all_placed(job);
    let lengths = length_change(job).ok().filter(|_| needs.is_empty())?;
    Some(Move::of(&placed, &lengths).leaves())
}

fn left(job: &Job, none_logged: bool) -> Vec<Finding> {
    let (placed, needs) = all_placed(job);
    let mut fields = Fields::of(job);
    fields.also(&needs);
    if none_logged {
        fields.mass(Entry::WeightMass(0));
    }
    let lengths = fields.sum(length_change(job));
    let needs = fields.needs();
    let (Some(lengths), true) = (lengths, needs.is_empty()) else {
        return vec![
            Finding::missing(Name::LeftFront, needs.clone()),
            Finding::missing(Name::LeftRear, needs),
        ];
    };
    let moved = Move::of(&placed, &lengths);
    let planes: [(Name, Plane); 2] =
        [(Name::LeftFront, |shares| shares.front), (Name::LeftRear, |shares| shares.rear)];
    planes.map(|(name, plane)| left_in_plane(job, name, &moved, plane, lengths.lengthens())).to_vec()
}

/// Never good: it is the move of the weights alone, and the balance of the shaft is more than that.
fn left_in_plane(job: &Job, name: Name, moved: &Move, plane: Plane, lengthened: bool) -> Finding {
    let mut fields = Fields::of(job);
    let mass = fields.mass(Entry::ShaftMass);
    let top = fields.speed(Entry::TopSpeed);
    let grade = mass.zip(top).and_then(|(mass, top)| permitted(Grade::G16, mass, top));
    // Half of what the grade permits belongs to each joint's plane, the shaft's middle being near
    // the middle of its length.
    let half = grade.map(|whole| whole * 0.5);
    let unknowable = half.and_then(|half| unknowable(job, moved, half, plane));
    let left = plane(moved.leaves());
    let mut parts = moved.doubts(plane);
    let all_counted = unknowable.is_some();
    parts.extend(unknowable.into_iter().flatten());
    let (size, doubt) = (left.size(), combined(&parts).expanded());
    let verdict = match half.filter(|_| all_counted) {
        _ if lengthened => Verdict::Watch(Reason::Lengthened),
        None => Verdict::Unjudged(Reason::GradeUnknown),
        Some(half) if size.base() > half.base() => Verdict::Stop(Reason::OverGrade { permitted: half }),
        Some(half) if (size + doubt).base() > half.base() => {
            Verdict::Watch(Reason::NearGrade { permitted: half })
        }
        Some(_) => Verdict::Figure,
    };
    let value = Value {
        amount: Amount::Unbalance(size),
        plus_minus: Some(Amount::Unbalance(doubt)),
        sense: (size.base() > doubt.base()).then(|| Sense::At(left.at())),
    };
    let mut finding =
        Finding::known(name, value, verdict).from(&[Source::TwoPlanes, Source::DoubtOfWeights]);
    if let (Some(half), Some(mass), Some(top)) = (half, mass, top) {
        finding = grade_working(finding, size, half, mass, top);
    }
    finding
}

fn grade_working(
    finding: Finding,
    size: Unbalance,
    half: Unbalance,
    mass: Mass,
    top: AngularVelocity,
) -> Finding {
    finding
        .step(Law::PermittedShare, &[Amount::Mass(mass), Amount::Speed(top)], Amount::Unbalance(half))
        .step(
            Law::PullForce,
            &[Amount::Unbalance(size), Amount::Speed(top)],
            Amount::Force(centrifugal_force(size, top)),
        )
        .within(Amount::Unbalance(half), Source::BalanceGrade)
}
