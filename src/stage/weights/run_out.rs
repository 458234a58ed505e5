//! What the shaft's run-out puts out of balance in the planes of its joints.

use super::log::behind_front;
use super::sense::WeightReason;
use crate::job::{End, Entry, Job, PassKind, SetUp};
use crate::mechanics::across::Across;
use crate::mechanics::centreline::{Cause, Explained, Shaft};
use crate::mechanics::one_place::guess;
use crate::mechanics::residual::{Body, Known, Lump, NoResidual, Point, between, residual, residual_of};
use crate::mechanics::student::circle_95;
use crate::mechanics::tube::Tube;
use crate::mechanics::unbalance::Shares;
use crate::mechanics::uncertainty::{Spread, combined, rectangular};
use crate::quantity::{Base, Length, Mass, Unbalance};
use crate::stage::bent::{Bent, begun, bent};
use crate::stage::check::stiffness;
use crate::stage::cut_list::cut_list;
use crate::stage::dial::turn;
use crate::stage::field::{Fields, tube_doubt};
use crate::stage::finding::{Blocked, Reason};
use crate::stage::truing::latest;

/// From how much it was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum From {
    /// From line to line between so many places.
    Places(usize),
    /// Places of which none is in the middle third: what lies there was not seen.
    Ends,
    /// One place, and a bow through it.
    OnePlace,
    /// What explains the offsets on other supports.
    OtherAxis,
}

impl From {
    /// What lies between was taken for granted.
    pub(super) fn is_guess(self) -> bool {
        matches!(self, From::OnePlace | From::Ends)
    }
}

/// What is out of balance, and what it was found from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct OutOfBalance {
    /// In both planes.
    pub shares: Shares,
    /// ± of each, in whichever direction: the radius of its 95 % circle.
    pub doubt: [Unbalance; 2],
    pub from: From,
    /// The turn it was read in.
    pub pass: usize,
    /// Read after welding.
    pub welded: bool,
    /// Joint to joint.
    pub length: Length,
    /// Where the tube begins and ends, behind the front joint.
    pub tube: [Length; 2],
    pub tube_mass: Mass,
    /// Both yokes.
    pub yokes: Mass,
    pub diameter: Length,
}

/// The tube as it lies, and what the yokes weigh.
struct Lay {
    length: Length,
    tube: [Length; 2],
    weld: Length,
    tube_mass: Mass,
    lumps: [Lump; 2],
    /// How well the wall is known, as a share of it.
    wall_doubt: f64,
    diameter: Length,
}

impl Lay {
    fn body<'a>(&self, lumps: &'a [Lump]) -> Body<'a> {
        let [from, to] = self.tube;
        Body { length: self.length, from, to, tube: self.tube_mass, lumps }
    }
}

/// The pass that tells: the latest after welding, else the latest of all.
pub(super) fn pass(job: &Job) -> usize {
    let welded = |pass: &crate::job::Pass| pass.kind == PassKind::Welded && !pass.is_blank();
    job.truing.passes.iter().rposition(welded).unwrap_or_else(|| latest(job))
}

/// Both ends of the tube between the welds, behind the front joint.
pub(super) fn tube_ends(job: &Job, fields: &mut Fields) -> Option<([Length; 2], Length)> {
    let far = fields.length(Entry::FarWeldLine);
    let line = fields.length(Entry::WeldLine);
    let list = fields.sum(cut_list(job));
    let (far, _, list) = (far?, line?, list?);
    let length = list.lengths.wanted.best;
    let [one, other] = [far, list.new_weld()?].map(|weld| behind_front(job, weld, length));
    let ends = match job.cut.end {
        End::Rear => [one, other],
        End::Front => [other, one],
    };
    Some((ends, length))
}

/// The shaft as a body.
fn lie(job: &Job) -> Result<Lay, Blocked> {
    let mut fields = Fields::of(job);
    let (diameter, wall) = (fields.length(Entry::TubeDiameter), fields.length(Entry::TubeWall));
    let mass = fields.mass(Entry::ShaftMass);
    let ends = tube_ends(job, &mut fields);
    let of = fields.sum(stiffness(job));
    let (Some(diameter), Some(wall), Some(mass), Some((tube, length)), Some(of)) =
        (diameter, wall, mass, ends, of)
    else {
        return Err(Blocked::Missing(fields.needs()));
    };
    let impossible = |reason| Err(Blocked::Impossible(Reason::Weight(reason)));
    let [from, to] = tube;
    if !(from.base() >= 0.0 && from.base() < to.base() && to.base() <= length.base()) {
        return impossible(WeightReason::NoTubeLeft);
    }
    let Ok(made) = Tube::new(diameter, wall) else {
        return Err(Blocked::Impossible(Reason::NotComputable));
    };
    let tube_mass = made.mass(of.density, to - from);
    if tube_mass.base() > mass.base() {
        return impossible(WeightReason::TubeHeavier { tube: tube_mass });
    }
    let yoke = (mass - tube_mass) * 0.5;
    let lump = |z: Length| Lump { mass: yoke, z, beside: Across::zero() };
    let lumps = [lump(from * 0.5), lump((to + length) * 0.5)];
    let weld = if job.cut.end == End::Rear { to } else { from };
    let wall_doubt = tube_doubt().1.base() / wall.base();
    Ok(Lay { length, tube, weld, tube_mass, lumps, wall_doubt, diameter })
}

/// What is out of balance, before what the yokes and the wall leave open.
struct Found {
    shares: Shares,
    spreads: [Vec<Spread<Unbalance>>; 2],
    from: From,
}

/// What the run-out puts out of balance.
///
/// # Errors
/// [`Blocked`].
pub(super) fn run_out(job: &Job) -> Result<OutOfBalance, Blocked> {
    let pass = pass(job);
    let lay = lie(job);
    // Nothing read yet: the first mark is asked for.
    let unread = if begun(job, pass).is_empty() { turn(job, pass, 0).err() } else { None };
    let (lay, read) = match (lay, unread.map_or_else(|| bent(job, pass), Err)) {
        (Ok(lay), Ok(read)) => (lay, read),
        (Err(Blocked::Missing(needs)), Err(Blocked::Missing(read))) => {
            let mut all = Fields::of(job);
            all.also(&read);
            all.also(&needs);
            return Err(Blocked::Missing(all.needs()));
        }
        (Err(blocked), _) | (_, Err(blocked)) => return Err(blocked),
    };
    let lumped = found(job, &lay, &lay.lumps, &read)?;
    let bare = found(job, &lay, &[], &read)?;
    let yokes = lumped.shares - bare.shares;
    let planes = [(lumped.shares.front, yokes.front), (lumped.shares.rear, yokes.rear)];
    let mut doubt = [Unbalance::from_base(0.0); 2];
    for ((doubt, mut parts), (all, yoke)) in doubt.iter_mut().zip(lumped.spreads).zip(planes) {
        // A yoke's middle may be anywhere from its joint to its weld: from nothing to twice what is taken.
        parts.push(rectangular(yoke.size()));
        parts.push(rectangular((all - yoke).size() * lay.wall_doubt));
        *doubt = Known { best: all, spread: combined(&parts) }.circle();
    }
    let [front, rear] = &lay.lumps;
    Ok(OutOfBalance {
        shares: lumped.shares,
        doubt,
        from: lumped.from,
        pass,
        welded: job.truing.passes.get(pass).is_some_and(|pass| pass.kind == PassKind::Welded),
        length: lay.length,
        tube: lay.tube,
        tube_mass: lay.tube_mass,
        yokes: front.mass + rear.mass,
        diameter: lay.diameter,
    })
}

fn found(job: &Job, lay: &Lay, lumps: &[Lump], read: &Bent) -> Result<Found, Blocked> {
    let body = lay.body(lumps);
    let blocked = |why| Blocked::Impossible(why_not(job, lay.length, why));
    if job.truing.set_up != SetUp::Joints {
        return on_other_axis(lay, &body, read).map_err(|why| {
            why.map_or_else(|| Blocked::Impossible(Reason::Weight(WeightReason::OtherAxis)), blocked)
        });
    }
    if let [(z, offset, circle)] = read.places.as_slice() {
        let shaft = Shaft { length: lay.length, weld: lay.weld };
        let cut_yoke = if job.cut.end == End::Rear { Cause::RearYoke } else { Cause::FrontYoke };
        let guessed = guess(&body, &shaft, cut_yoke, (*z, *offset), *circle).map_err(blocked)?;
        let ([front, rear], [front_read, rear_read]) = (guessed.by_cause, guessed.by_reading);
        return Ok(Found {
            shares: guessed.shares,
            spreads: [
                vec![rectangular(front), of_circle(front_read)],
                vec![rectangular(rear), of_circle(rear_read)],
            ],
            from: From::OnePlace,
        });
    }
    let point = |(z, offset, circle): &(Length, Across<Length>, Length)| Point {
        z: *z,
        offset: *offset,
        spread: of_circle(*circle),
    };
    let points: Vec<Point> = read.places.iter().map(point).collect();
    let found = residual(&body, &points).map_err(blocked)?;
    // What lies between the places was not read: as much as a smooth curve through them makes of it.
    let unread = between(&body, &points).map_err(blocked)?;
    Ok(Found {
        shares: found.shares(),
        spreads: [
            vec![found.front.spread, rectangular(unread.front.size())],
            vec![found.rear.spread, rectangular(unread.rear.size())],
        ],
        from: if middle_read(&points, lay.length) { From::Places(points.len()) } else { From::Ends },
    })
}

/// Whether a place was read where a bow is largest. A straight line from one end to the other would pass
/// it by, and its ± would not tell. The middle third is our own choice.
fn middle_read(points: &[Point], length: Length) -> bool {
    let third = length.base() / 3.0;
    points.iter().any(|point| (third..=2.0 * third).contains(&point.z.base()))
}

/// The spread whose 95 % circle has this radius.
fn of_circle<Q: Base>(circle: Q) -> Spread<Q> {
    Spread { standard: Q::from_base(circle.base() / circle_95(f64::INFINITY)), freedom: f64::INFINITY }
}

/// On other supports the offsets are not those about the joints, but what explains them has a shape of its
/// own there. `None` where nothing explains them.
fn on_other_axis(lay: &Lay, body: &Body, read: &Bent) -> Result<Found, Option<NoResidual>> {
    let explained: &Explained = read.explained.as_ref().map_err(|_| None)?;
    let causes = match (&explained.pair, explained.single.first()) {
        (Some(pair), _) => vec![pair.one, pair.other],
        (None, Some(best)) => vec![*best],
        (None, None) => return Err(None),
    };
    let mut found = Found { shares: Shares::zero(), spreads: [vec![], vec![]], from: From::OtherAxis };
    for cause in causes {
        let line = |z: Length| cause.about_joints(z);
        let made = residual_of(body, &line, Some(lay.weld)).map_err(Some)?;
        // What is too small to be told from straight still has its ±.
        let times = cause.circle.base() / cause.size.size().base();
        let [front, rear] = &mut found.spreads;
        front.push(of_circle(made.front.size() * times));
        rear.push(of_circle(made.rear.size() * times));
        if !explained.straight {
            found.shares = found.shares - made.scaled(-1.0);
        }
    }
    Ok(found)
}

/// Why nothing comes out, with places as they were typed.
fn why_not(job: &Job, length: Length, why: NoResidual) -> Reason {
    match why {
        NoResidual::SamePlace { z } => Reason::SamePlaceAlong { z: behind_front(job, z, length) },
        NoResidual::OffTheShaft { z } => Reason::PlaceOffTheShaft { z: behind_front(job, z, length) },
        NoResidual::BadBody => Reason::Weight(WeightReason::NoTubeLeft),
        NoResidual::NotFinite => Reason::NotComputable,
    }
}
