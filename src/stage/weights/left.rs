//! What putting the weights back leaves in the two planes through the joints.

use super::back::{GoesBack, all_back};
use super::log::{all_logged, behind_front, weight_doubt};
use super::place::place;
use crate::job::{End, Entry, Job, Weighed};
use crate::mechanics::across::Across;
use crate::mechanics::tube::Tube;
use crate::mechanics::unbalance::{Grade, Shares, Weight, permitted, shares};
use crate::mechanics::uncertainty::{Spread, combined, rectangular};
use crate::quantity::{AngularVelocity, Base, Length, Mass, Unbalance, centrifugal_force, degrees};
use crate::stage::amount::Amount;
use crate::stage::check::stiffness;
use crate::stage::cut::cut_list;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Name, Reason, Sense, Source, Value, Verdict};
use crate::stage::judged::chosen_limit;
use crate::stage::measure::{LengthChange, length_change};

/// A weight with how well its mass is known.
pub(super) type Doubted = (Weight, Mass);

/// The weights before and after, on their shafts. A weight at the turned yoke is compared with its own
/// turned place, since what it cancels has turned with it.
#[derive(Clone)]
struct Move {
    before: Vec<Doubted>,
    after: Vec<Doubted>,
    old: Length,
    new: Length,
}

impl Move {
    fn of(before: Vec<Doubted>, back: &[GoesBack], lengths: &LengthChange) -> Move {
        let after = back.iter().filter_map(|one| Some((one.weight?, one.doubt))).collect();
        Move { before, after, old: lengths.old.best, new: lengths.wanted.best }
    }

    /// The weights' shares on the new shaft less their shares on the old one.
    fn leaves(&self) -> Shares {
        let all = |list: &[Doubted]| list.iter().map(|(weight, _)| *weight).collect::<Vec<_>>();
        shares(&all(&self.after), self.new) - shares(&all(&self.before), self.old)
    }

    /// How far the doubts of each weight move what is left in a plane. Where a weight sat and where it
    /// is put are two readings, and each has its own doubt.
    fn doubts(&self, plane: Plane) -> Vec<Spread<Unbalance>> {
        let best = plane(self.leaves());
        let mut parts = Vec::new();
        for nudge in nudges() {
            for put_back in [false, true] {
                let count = if put_back { self.after.len() } else { self.before.len() };
                for place in 0..count {
                    let mut moved = self.clone();
                    let list = if put_back { &mut moved.after } else { &mut moved.before };
                    if let Some(weight) = list.get_mut(place) {
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
fn nudges() -> [fn(&mut Doubted); 4] {
    [
        |(weight, doubt)| weight.mass += *doubt,
        |(weight, _)| weight.at += weight_doubt().1,
        |(weight, _)| weight.z += weight_doubt().2,
        |(weight, _)| weight.radius += weight_doubt().3,
    ]
}

/// The ± that the doubts of all of these weights make in an unbalance that follows from them, in any
/// direction.
pub(super) fn doubt_of(
    weights: &[Doubted],
    follows: &dyn Fn(&[Doubted]) -> Option<Across<Unbalance>>,
) -> Option<Unbalance> {
    let best = follows(weights)?;
    let mut parts = Vec::new();
    for nudge in nudges() {
        for place in 0..weights.len() {
            let mut moved = weights.to_vec();
            moved.get_mut(place).into_iter().for_each(nudge);
            parts.push(rectangular((follows(&moved)? - best).size()));
        }
    }
    Some(combined(&parts).expanded())
}

/// Picks one of the two planes.
pub(super) type Plane = fn(Shares) -> Across<Unbalance>;

/// Both planes, front and rear.
pub(super) const PLANES: [Plane; 2] = [|shares| shares.front, |shares| shares.rear];

/// Half of what G 16 permits: each joint's plane has its half, the shaft's middle being near the middle
/// of its length.
pub(super) fn half_of(grade: Grade, mass: Mass, top: AngularVelocity) -> Option<Unbalance> {
    permitted(grade, mass, top).map(|whole| whole * 0.5)
}

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
    let of = stiffness(job).ok()?;
    let ring = Weight {
        mass: tube.mass(of.density, list.removed.best),
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
    moved(job, &length_change(job).ok()?).map(|moved| moved.leaves())
}

fn moved(job: &Job, lengths: &LengthChange) -> Option<Move> {
    let (logged, needs) = all_logged(job);
    if !needs.is_empty() {
        return None;
    }
    let before = logged.iter().map(|one| (one.turned, one.doubt)).collect();
    Some(Move::of(before, &all_back(job)?, lengths))
}

/// What is left in the plane of the front joint, and of the rear one.
pub(super) fn findings(job: &Job) -> Vec<Finding> {
    let names = [Name::LeftFront, Name::LeftRear];
    let (logged, needs) = all_logged(job);
    let mut fields = Fields::of(job);
    fields.also(&needs);
    if logged.is_empty() && needs.is_empty() {
        fields.also(&first_needs(job));
    }
    let lengths = fields.sum(length_change(job));
    if job.weights.put_back == crate::job::PutBack::BothShares {
        place(job, &mut fields, End::Front);
        place(job, &mut fields, End::Rear);
    }
    let needs = fields.needs();
    let (Some(lengths), true) = (lengths, needs.is_empty()) else {
        return names.map(|name| Finding::missing(name, needs.clone())).to_vec();
    };
    let Some(moved) = moved(job, &lengths) else {
        return names.map(|name| Finding::impossible(name, Reason::OffTheShaft)).to_vec();
    };
    let each = names.into_iter().zip(PLANES);
    each.map(|(name, plane)| in_plane(job, name, &moved, plane, lengths.lengthens())).collect()
}

/// What an empty log wants first.
fn first_needs(job: &Job) -> Vec<crate::stage::finding::Need> {
    let mut fields = Fields::of(job);
    match job.weights.weighed {
        Weighed::Scale => drop(fields.mass(Entry::WeightMass(0))),
        Weighed::Size => drop(fields.length(Entry::WeightLength(0))),
    }
    fields.needs()
}

/// Never good: it is the move of the weights alone, and the balance of the shaft is more than that.
fn in_plane(job: &Job, name: Name, moved: &Move, plane: Plane, lengthened: bool) -> Finding {
    let mut fields = Fields::of(job);
    let mass = fields.mass(Entry::ShaftMass);
    let top = fields.top_speed();
    let half = mass.zip(top).and_then(|(mass, top)| half_of(Grade::G16, mass, top));
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
    let put_in = [Amount::Mass(mass), Amount::Speed(top)];
    let finding = finding.step(Law::PermittedShare, &put_in, Amount::Unbalance(half));
    pull(finding, size, top).within(Amount::Unbalance(half), Source::BalanceGrade)
}

/// With how hard an unbalance pulls at top speed.
pub(super) fn pull(finding: Finding, size: Unbalance, top: AngularVelocity) -> Finding {
    finding.step(
        Law::PullForce,
        &[Amount::Unbalance(size), Amount::Speed(top)],
        Amount::Force(centrifugal_force(size, top)),
    )
}
