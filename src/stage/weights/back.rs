//! What goes back: each weight by itself, one for an end, or two that keep both planes' shares.

use super::left::{Doubted, doubt_of};
use super::log::{Logged, all_logged, behind_front, change, density, logged, rows, weight_doubt};
use super::place::{Place, place};
use super::sense::Cut;
use crate::job::{End, Entry, Job, Joined, PutBack};
use crate::mechanics::across::Across;
use crate::mechanics::models::{Model, put_back};
use crate::mechanics::plate::Stock;
use crate::mechanics::unbalance::{Spot, Weight};
use crate::quantity::{Angle, Base, Length, Mass, Unbalance};
use crate::stage::field::Fields;
use crate::stage::finding::{Blocked, Name, Reason};
use crate::stage::measure::length_change;

/// Under this an unbalance is rounding: a thousandth of a gram on a tube.
const NOTHING: f64 = 1e-7;

/// A weight that goes on the new shaft.
#[derive(Clone, Debug, PartialEq)]
pub struct GoesBack {
    /// What it is called.
    pub name: Name,
    /// The end it belongs to.
    pub own: End,
    /// On the new shaft; `None` where the weights of an end cancel each other.
    pub weight: Option<Weight>,
    /// Distance from the far datum on the new shaft.
    pub distance: Length,
    /// How well its mass is known, ±; where they cancel each other, what may be left of them.
    pub doubt: Mass,
    /// How far it reaches on the clock to either side of its middle: what is known of the strip that is cut
    /// for it, else of the one that came off; else nothing.
    pub reach: Angle,
    /// How far it reaches along the shaft to either side of its middle, where that is known.
    pub half_width: Length,
    /// How thick the one was that came off, where it is one and that is known.
    pub thick: Option<Length>,
    /// ± of its place on the clock, of one that stands for several.
    pub around: Option<Angle>,
    /// Nobody said where along the shaft it goes: so far inside the weld.
    pub inside_weld: Option<Length>,
    /// The logged weights it stands for.
    pub of: Vec<Logged>,
}

/// Stock for strips, where both its sizes are given.
pub(in crate::stage) fn strip(job: &Job) -> Option<(Stock, Length)> {
    let mut fields = Fields::of(job);
    let stock = Stock {
        width: fields.length(Entry::StripWidth)?,
        thickness: fields.length(Entry::StripThickness)?,
        density: density(job),
    };
    Some((stock, fields.length(Entry::TubeDiameter)? * 0.5))
}

/// The strip that does the work of an unbalance.
pub(in crate::stage) fn cut(job: &Job, wanted: Unbalance) -> Cut {
    let Some((stock, tube)) = strip(job) else { return Cut::NotAsked };
    stock.cut_length(tube, wanted).map_or(Cut::TooThin, Cut::Long)
}

/// The weight that makes an unbalance: of the named strip, which is drawn in by its arc; else at a radius.
pub(in crate::stage) fn made(job: &Job, spot: Spot, radius: Length) -> Option<Weight> {
    let of_strip = strip(job).and_then(|(stock, tube)| {
        let length = stock.cut_length(tube, spot.unbalance.size())?;
        Some(stock.plate(tube, length)?.radius)
    });
    spot.weight(of_strip.unwrap_or(radius))
}

/// How far a weight reaches to either side of its middle, on the clock and along the shaft: of the named
/// strip, else of the one that came off; nothing where neither is known.
pub(in crate::stage) fn spans(job: &Job, one: Option<&Logged>, work: Unbalance) -> (Angle, Length) {
    let of_strip = strip(job).and_then(|(stock, tube)| {
        let plate = stock.plate(tube, stock.cut_length(tube, work)?)?;
        Some((plate.round * 0.5, stock.width * 0.5))
    });
    let as_it_was = || {
        let (stock, ..) = one?.size?;
        Some((one?.reach, stock.width * 0.5))
    };
    of_strip.or_else(as_it_was).unwrap_or((Angle::from_base(0.0), Length::from_base(0.0)))
}

/// Every weight that goes back, each in its row, or the one or two that stand for all; of each what stands
/// in its way.
pub fn going_back(job: &Job) -> Vec<(Name, Result<GoesBack, Blocked>)> {
    let apart = job.weights.joined == Joined::Apart;
    match job.weights.put_back {
        PutBack::BothShares => two(job, both_shares(job)),
        rule if apart => {
            let each = |row: usize| (Name::PutBack(row), by_itself(job, row, rule));
            rows(job).into_iter().map(each).collect()
        }
        rule => two(job, one_an_end(job, rule)),
    }
}

/// Those that are known; nothing where one is missing.
pub(super) fn all_back(job: &Job) -> Option<Vec<GoesBack>> {
    going_back(job).into_iter().map(|(_, found)| found.ok()).collect()
}

/// What stands in the way of both stands in the way of each.
fn two(job: &Job, found: Result<Vec<GoesBack>, Blocked>) -> Vec<(Name, Result<GoesBack, Blocked>)> {
    match found {
        Ok(all) => all.into_iter().map(|one| (one.name, Ok(one))).collect(),
        Err(_) if rows(job).is_empty() => Vec::new(),
        Err(blocked) => [Name::PutFront, Name::PutRear].map(|name| (name, Err(blocked.clone()))).into(),
    }
}

/// A weight on the new shaft by a rule that moves each by itself, with the cut end's yoke or not at all, and
/// its distance from the far datum.
fn moved(job: &Job, one: &Logged, rule: PutBack) -> Result<(Weight, Length), Blocked> {
    let lengths = length_change(job).map_err(Blocked::Missing)?;
    let with_yoke = rule == PutBack::OwnYoke && one.own == job.cut.end;
    let distance = change(job, &lengths, Angle::from_base(0.0)).moved_to(one.distance, with_yoke);
    let z = behind_front(job, distance, lengths.wanted.best);
    Ok((Weight { z, ..one.turned }, distance))
}

fn by_itself(job: &Job, row: usize, rule: PutBack) -> Result<GoesBack, Blocked> {
    let one = logged(job, row).map_err(Blocked::Missing)?;
    let (weight, distance) = moved(job, &one, rule)?;
    let (reach, half_width) = spans(job, Some(&one), weight.mass * weight.radius);
    Ok(GoesBack {
        name: Name::PutBack(row),
        own: one.own,
        weight: Some(weight),
        distance,
        doubt: one.doubt,
        reach,
        half_width,
        thick: one.thick,
        around: None,
        inside_weld: None,
        of: vec![one],
    })
}

/// Every logged weight, or what stands in the way of one.
fn whole_log(job: &Job) -> Result<Vec<Logged>, Blocked> {
    let (all, needs) = all_logged(job);
    if needs.is_empty() { Ok(all) } else { Err(Blocked::Missing(needs)) }
}

/// Mean distance from the axis, by mass.
fn mean_radius<'a>(weights: impl Iterator<Item = &'a Weight>) -> Length {
    let (mut mass, mut moment) = (0.0, 0.0);
    for weight in weights {
        mass += weight.mass.base();
        moment += weight.mass.base() * weight.radius.base();
    }
    Length::from_base(moment / mass)
}

/// The weights of each end as one, at the mean of their places by what each does: a mean never lies
/// outside them, and what that leaves is in what the move leaves.
fn one_an_end(job: &Job, rule: PutBack) -> Result<Vec<GoesBack>, Blocked> {
    let log = whole_log(job)?;
    let lengths = length_change(job).map_err(Blocked::Missing)?;
    let mut found = Vec::new();
    for (end, name) in [(End::Front, Name::PutFront), (End::Rear, Name::PutRear)] {
        let of: Vec<Logged> = log.iter().copied().filter(|one| one.own == end).collect();
        let weights = of.iter().map(|one| moved(job, one, rule)).collect::<Result<Vec<_>, _>>()?;
        if weights.is_empty() {
            continue;
        }
        let (mut sum, mut sizes, mut along) = (Across::<Unbalance>::zero(), 0.0, 0.0);
        for (weight, distance) in &weights {
            let size = weight.unbalance().size().base();
            sum = sum + weight.unbalance();
            sizes += size;
            along += size * distance.base();
        }
        let distance = Length::from_base(along / sizes);
        let z = behind_front(job, distance, lengths.wanted.best);
        let radius = mean_radius(weights.iter().map(|(weight, _)| weight));
        let doubted: Vec<Doubted> =
            weights.iter().zip(&of).map(|((weight, _), one)| (*weight, one.doubt)).collect();
        let all = |list: &[Doubted]| {
            Some(list.iter().fold(Across::zero(), |sum, (weight, _)| sum + weight.unbalance()))
        };
        let within = doubt_of(&doubted, &all).filter(|_| of.len() > 1);
        // Within its ± of nothing a sum has no place: they cancel each other.
        let least = within.map_or(NOTHING, |within| within.base().max(NOTHING));
        let is_something = sum.size().base() > least;
        let weight = is_something.then(|| made(job, Spot { unbalance: sum, z }, radius)).flatten();
        let mut one = new_one(job, name, end, weight, distance, of);
        if let Some(within) = within {
            one.around = around(within, sum.size());
            if weight.is_none() {
                one.doubt = Mass::from_base(within.base() / radius.base());
            }
        }
        found.push(one);
    }
    Ok(found)
}

/// A weight that stands for several. How it is weighed is how well it is known.
fn new_one(
    job: &Job,
    name: Name,
    own: End,
    weight: Option<Weight>,
    distance: Length,
    of: Vec<Logged>,
) -> GoesBack {
    let (doubt, ..) = weight_doubt();
    let work = weight.map_or(Unbalance::from_base(0.0), |weight| weight.mass * weight.radius);
    let (reach, half_width) = spans(job, None, work);
    let (thick, around, inside_weld) = (None, None, None);
    GoesBack { name, own, weight, distance, doubt, reach, half_width, thick, around, inside_weld, of }
}

/// The ± of a place on the clock that a ± in any direction makes; `None` where every place is possible.
fn around(within: Unbalance, size: Unbalance) -> Option<Angle> {
    let share = within.base() / size.base();
    (share < 1.0).then(|| Angle::from_base(share.asin()))
}

/// Two weights that do in both planes what the old ones did, at the typed places or inside the welds.
fn both_shares(job: &Job) -> Result<Vec<GoesBack>, Blocked> {
    let mut fields = Fields::of(job);
    let (front, rear) = (place(job, &mut fields, End::Front), place(job, &mut fields, End::Rear));
    let turned = fields.angle(Entry::YokeTurned);
    let lengths = fields.sum(length_change(job));
    let (log, needs) = all_logged(job);
    fields.also(&needs);
    let needs = fields.needs();
    let (Some(front), Some(rear), Some(turned), Some(lengths), true) =
        (front, rear, turned, lengths, needs.is_empty())
    else {
        return Err(Blocked::Missing(needs));
    };
    let new = lengths.wanted.best;
    let places = [front, rear].map(|place| behind_front(job, place.distance, new));
    let doubted: Vec<Doubted> = log.iter().map(|one| (one.weight, one.doubt)).collect();
    let change = change(job, &lengths, turned);
    let spots = |list: &[Doubted]| -> Option<[Spot; 2]> {
        let weights: Vec<Weight> = list.iter().map(|(weight, _)| *weight).collect();
        put_back(&weights, &change, Model::SharesKept { places })?.spots.try_into().ok()
    };
    let Some([in_front, in_rear]) = spots(&doubted) else {
        return Err(Blocked::Impossible(Reason::OffTheShaft));
    };
    let radius = mean_radius(doubted.iter().map(|(weight, _)| weight));
    let one = |name, own, spot: Spot, place: Place| {
        let size = spot.unbalance.size();
        let weight = (size.base() > NOTHING).then(|| made(job, spot, radius)).flatten();
        let at_this_end = |list: &[Doubted]| {
            let [in_front, in_rear] = spots(list)?;
            Some(if own == End::Front { in_front.unbalance } else { in_rear.unbalance })
        };
        let within = doubt_of(&doubted, &at_this_end);
        GoesBack {
            around: within.and_then(|within| around(within, size)),
            inside_weld: place.inside_weld,
            ..new_one(job, name, own, weight, place.distance, log.clone())
        }
    };
    Ok(vec![
        one(Name::PutFront, End::Front, in_front, front),
        one(Name::PutRear, End::Rear, in_rear, rear),
    ])
}
