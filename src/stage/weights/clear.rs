//! Keeping clear: the seam, the line through the ears and the welds, and two weights beside them.

use super::back::{GoesBack, cut};
use super::keep_from_weld;
use super::sense::{Piece, WeightReason};
use crate::job::{Entry, Job};
use crate::mechanics::apportion::on_clock;
use crate::mechanics::keep_off::{Band, Obstacle, Sector, beside, ears, hit_along, hit_on_clock};
use crate::mechanics::unbalance::Weight;
use crate::quantity::{Angle, Base, Length, Mass, degrees};
use crate::stage::cut_list::cut_list;
use crate::stage::field::{Fields, read};
use crate::stage::finding::{Reason, Verdict};
use crate::stage::measure::length_change;

/// How far a weight keeps from the tube's seam, to either side: its edge, where its length is known, else
/// its middle. Our own choice.
pub(super) fn keep_from_seam() -> Angle {
    degrees(10.0)
}

/// How far it keeps from the line through the ears, to either side. Our own choice.
pub(super) fn keep_from_ears() -> Angle {
    degrees(15.0)
}

/// What a weight must keep off round the tube: the seam all along it, the ears at the cut end alone, since
/// the other yoke's are not asked.
pub(super) fn sectors(job: &Job, at_cut_end: bool) -> Vec<Sector> {
    let mut fields = Fields::of(job);
    let mut all = Vec::new();
    if let Some(at) = fields.angle(Entry::SeamClock) {
        all.push(Sector { obstacle: Obstacle::Seam, at, half: keep_from_seam() });
    }
    if let Some(line) = fields.angle(Entry::EarClock).filter(|_| at_cut_end) {
        all.extend(ears(Obstacle::RearEar, line, keep_from_ears()));
    }
    all
}

/// An entry that a weight is to be kept clear by is wrong.
fn wrong(job: &Job) -> bool {
    [Entry::SeamClock, Entry::EarClock].into_iter().any(|entry| read(job, entry).is_err())
}

/// What a weight would stand on round the tube, and the two beside it that do its work.
pub(super) fn forbidden(
    job: &Job,
    one: &GoesBack,
    weight: &Weight,
) -> Option<(WeightReason, Option<[Piece; 2]>)> {
    let all = sectors(job, one.own == job.cut.end);
    let hit = hit_on_clock(&all, weight.at, one.reach)?;
    let first = hit.first()?;
    let places = beside(&all, weight.at, one.reach);
    let split = places.and_then(|[before, after]| {
        let parts = on_clock(weight.unbalance(), before, after).ok()?;
        let piece = |clock: Angle, part: crate::quantity::Unbalance| Piece {
            clock,
            mass: Mass::from_base(part.base() / weight.radius.base()),
            cut: cut(job, part),
        };
        let [one, other] = parts;
        Some([piece(before, one), piece(after, other)])
    });
    let found = split.is_some();
    let reason = match first {
        Obstacle::Seam => WeightReason::OnTheSeam { keep: keep_from_seam(), split: found },
        _ => WeightReason::OnTheEars { keep: keep_from_ears(), split: found },
    };
    Some((reason, split))
}

/// Whether a weight stands too near one of these welds.
fn near_a_weld(one: &GoesBack, welds: [Option<Length>; 2]) -> bool {
    let band = |z: Length| Band { obstacle: Obstacle::RearWeld, z, half: keep_from_weld() };
    let bands: Vec<Band> = welds.into_iter().flatten().map(band).collect();
    hit_along(&bands, one.distance, one.half_width).is_none_or(|hit| !hit.is_empty())
}

/// What is said of a weight's place, and the two beside it where it must not stand there.
pub(super) fn judged(job: &Job, one: &GoesBack, weight: &Weight) -> (Verdict, Option<[Piece; 2]>) {
    let new_weld = cut_list(job).ok().and_then(|list| list.new_weld());
    let far_weld = Fields::of(job).length(Entry::FarWeldLine);
    let Ok(lengths) = length_change(job) else { return (Verdict::Figure, None) };
    let lengthened = lengths.lengthens();
    // Shortened past the middle, even a weight that stays where it was may stand on thin air.
    let on_the_shaft = (0.0..=lengths.wanted.best.base()).contains(&one.distance.base());
    if !on_the_shaft {
        return (Verdict::Stop(Reason::OffTheShaft), None);
    }
    // A weight is welded to the tube: beyond its ends there is a yoke.
    let (place, half) = (one.distance.base(), one.half_width.base());
    let before = far_weld.is_some_and(|weld| place - half < weld.base());
    if before || new_weld.is_some_and(|weld| place + half > weld.base()) {
        return (Verdict::Stop(Reason::Weight(WeightReason::OffTheTube)), None);
    }
    if near_a_weld(one, [far_weld, new_weld]) {
        return (Verdict::Watch(Reason::OnTheWeld { keep: keep_from_weld() }), None);
    }
    match forbidden(job, one, weight) {
        Some((reason, split)) => (Verdict::Watch(Reason::Weight(reason)), split),
        None if wrong(job) => (Verdict::Unjudged(Reason::WrongField), None),
        // These weights balanced a tube that is now scrap.
        None if lengthened => (Verdict::Watch(Reason::Lengthened), None),
        None => (Verdict::Good, None),
    }
}
