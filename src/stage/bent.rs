//! Bent: what the offsets at several places along the tube come from.

use super::amount::Amount;
use super::cut_list::cut_list;
use super::dial::{Turn, line, turn};
use super::field::Fields;
use super::finding::{Blocked, Finding, Name, Need, Reason, Sense, Source, Value, Verdict, Why};
use super::judged::may_say_where;
use crate::job::{End, Entry, Job, SetUp};
use crate::mechanics::across::Across;
use crate::mechanics::centreline::{
    Axis, Cause, Explained, NotExplained, Place, Shaft, Suspect, explain,
};
use crate::mechanics::runout::{FEWEST, RunOut};
use crate::mechanics::uncertainty::{Spread, of_division};
use crate::quantity::{Angle, Base, Length};

/// How seldom luck may leave as much as a kink or a step at the new weld does, before it is said that
/// nothing is to be mended there. Our own choice: that stops the work, so it wants more than what gives up
/// an explanation.
pub(super) const SURELY_NOT: f64 = 0.01;
/// Steps along the shaft at which its shape is drawn.
const STEPS: usize = 48;

/// The shaft's centreline as a pass found it. z runs rearward from the front joint's centre.
#[derive(Clone, Debug, PartialEq)]
pub struct Bent {
    /// Joint to joint.
    pub length: Length,
    /// The new weld.
    pub weld: Length,
    /// Each place read: z, the offset there, and the radius of its 95 % circle.
    pub places: Vec<(Length, Across<Length>, Length)>,
    /// What explains the offsets, sampled along z; empty where nothing does.
    pub shape: Vec<(Length, Across<Length>)>,
    /// What they let be said.
    pub explained: Result<Explained, NotExplained>,
}

/// What the offsets of a pass come from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BentBy {
    /// The cause that leaves least; `None` where the shaft is straight as far as the dial sees.
    pub cause: Option<Cause>,
    /// A second one beside it, where one alone does not explain the offsets.
    pub beside: Option<Cause>,
    /// Others that explain them as well.
    pub others: [Option<Cause>; 4],
    /// Other pairs do too.
    pub other_pairs: bool,
    /// Whether luck leaves what is left.
    pub explains: bool,
    /// The high side of it.
    pub at: Angle,
    /// The angle, of a kink.
    pub kink: Option<Angle>,
    /// What is left at the places.
    pub left: Length,
    /// What these places in this set-up do not show, in the order of [`Cause::ALL`].
    pub hidden: [bool; 5],
}

/// The shaft as it will be.
///
/// # Errors
/// The fields that are needed.
pub(super) fn shaft(job: &Job) -> Result<Shaft, Vec<Need>> {
    let list = cut_list(job)?;
    let mut fields = Fields::of(job);
    let Some(_) = fields.length(Entry::WeldLine) else { return Err(fields.needs()) };
    let length = list.lengths.wanted.best;
    // A weld line is a bench distance; the length is the shaft's at its set point.
    let from_far = list.new_weld().map_or(length, |weld| weld + list.lengths.pushed_in);
    Ok(Shaft { length, weld: from_front(job, from_far, length) })
}

/// A distance from the far datum as one from the front joint.
fn from_front(job: &Job, from_far: Length, length: Length) -> Length {
    match job.cut.end {
        End::Rear => from_far,
        End::Front => length - from_far,
    }
}

/// A place along the tube, from the front joint.
///
/// # Errors
/// The fields that are needed.
pub(super) fn place_along(job: &Job, place: usize) -> Result<Length, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (shaft, typed) = (fields.sum(shaft(job)), fields.length(Entry::PlaceAlong(place)));
    match (shaft, typed) {
        (Some(shaft), Some(typed)) => Ok(from_front(job, typed, shaft.length)),
        _ => Err(fields.needs()),
    }
}

/// The places at which a pass has readings.
pub(super) fn begun(job: &Job, pass: usize) -> Vec<usize> {
    let turns = job.truing.passes.get(pass).map(|pass| pass.turns.as_slice()).unwrap_or_default();
    turns.iter().enumerate().filter(|(_, turn)| !turn.is_blank()).map(|(place, _)| place).collect()
}

/// The two vee blocks as they were typed, where the shaft lies in some.
pub(super) fn vees(job: &Job, fields: &mut Fields) -> Option<(Length, Length)> {
    if job.truing.set_up != SetUp::Vees {
        return None;
    }
    let (front, rear) = (fields.length(Entry::FrontVee), fields.length(Entry::RearVee));
    front.zip(rear)
}

/// What the shaft turns about.
pub(super) fn axis(job: &Job, length: Length, vees: Option<(Length, Length)>) -> Axis {
    match (job.truing.set_up, vees) {
        (SetUp::Gearbox, _) => Axis::FrontJoint,
        (SetUp::Centres, _) => Axis::Free,
        (SetUp::Vees, Some((front, rear))) => {
            Axis::Vees { front: from_front(job, front, length), rear: from_front(job, rear, length) }
        }
        _ => Axis::Joints,
    }
}

/// Why a turn says no way.
fn says_no_way(turn: &Turn) -> Reason {
    match turn.drift.filter(|_| turn.drifted) {
        Some(by) => Reason::DialDrifted { by },
        None if turn.unread > 0 => Reason::PartRead,
        None => Reason::TooFewStations { got: turn.run_out.stations, needed: FEWEST + 1 },
    }
}

/// The shaft's centreline as a pass found it.
///
/// # Errors
/// [`Blocked`].
pub fn bent(job: &Job, pass: usize) -> Result<Bent, Blocked> {
    let mut fields = Fields::of(job);
    let lay = fields.sum(shaft(job));
    let vees = vees(job, &mut fields);
    let mut places = Vec::new();
    for place in begun(job, pass) {
        let typed = fields.length(Entry::PlaceAlong(place));
        let at = typed.zip(lay).map(|(typed, shaft)| from_front(job, typed, shaft.length));
        match (turn(job, pass, place), at) {
            // What does not say which way explains nothing until it is read to its end, or again.
            (Ok(turn), _) if !may_say_where(&turn) => {
                return Err(Blocked::Impossible(says_no_way(&turn)));
            }
            (Ok(turn), Some(z)) => places.push((z, turn.run_out)),
            (Err(Blocked::Missing(needs)), _) => fields.also(&needs),
            (Err(blocked), _) => return Err(blocked),
            (Ok(_), None) => {}
        }
    }
    let needs = fields.needs();
    let (Some(shaft), true) = (lay, needs.is_empty()) else {
        return Err(Blocked::Missing(needs));
    };
    let axis = axis(job, shaft.length, vees);
    let turns: Vec<&RunOut> = places.iter().map(|(_, run_out)| run_out).collect();
    let known = known_scatter(&turns, of_division(line(job)));
    let read: Vec<Place> = places
        .iter()
        .map(|(z, run_out)| Place {
            z: *z,
            offset: run_out.offset,
            unit_covariance: run_out.unit_covariance,
            scatter: known.or_else(|| run_out.own_scatter()).unwrap_or(run_out.scatter),
        })
        .collect();
    let explained = explain(&shaft, axis, &read);
    let shape = explained.as_ref().ok().and_then(|explained| drawn(explained, shaft.length));
    Ok(Bent {
        length: shaft.length,
        weld: shaft.weld,
        places: places.iter().map(|(z, found)| (*z, found.offset, found.offset_circle)).collect(),
        shape: shape.unwrap_or_default(),
        explained,
    })
}

/// The dial's line, where all turns together scatter less than it: a line binds once for a dial, not for
/// each turn that happens to scatter less.
fn known_scatter(turns: &[&RunOut], line: Spread<Length>) -> Option<Spread<Length>> {
    let (mut squares, mut freedom) = (0.0, 0.0);
    for own in turns.iter().filter_map(|turn| turn.own_scatter()) {
        squares += own.standard.base().powi(2) * own.freedom;
        freedom += own.freedom;
    }
    (squares <= line.standard.base().powi(2) * freedom).then_some(line)
}

/// What explains the offsets as a line along the shaft.
fn drawn(explained: &Explained, length: Length) -> Option<Vec<(Length, Across<Length>)>> {
    let along = (0..=STEPS).map(|step| length * (step as f64 / STEPS as f64));
    match (&explained.pair, explained.single.first()) {
        _ if explained.straight => Some(along.map(|z| (z, Across::zero())).collect()),
        (Some(pair), _) => Some(along.map(|z| (z, pair.at(z))).collect()),
        (None, Some(best)) => Some(along.map(|z| (z, best.at(z))).collect()),
        (None, None) => None,
    }
}

/// What a pass says of the shaft's line; nothing before two places are read.
pub(super) fn findings(job: &Job, pass: usize) -> Option<Finding> {
    if begun(job, pass).len() < 2 {
        return None;
    }
    // It says where to look and waits for nothing: the limits judge the shaft.
    let figure = |finding: Finding| Finding { verdict: Verdict::Figure, ..finding };
    let name = Name::BentBy;
    let bent = match bent(job, pass) {
        Ok(bent) => bent,
        Err(blocked) => return Some(figure(Finding::blocked(name, blocked))),
    };
    let explained = match bent.explained {
        Ok(explained) => explained,
        Err(why) => return Some(figure(refused(job, pass, bent.length, why))),
    };
    let best = match (&explained.pair, explained.single.first()) {
        (Some(pair), _) if !explained.straight => &pair.one,
        (_, Some(best)) => best,
        (_, None) => return Some(figure(Finding::impossible(name, Reason::NothingToTell))),
    };
    let beside = explained.pair.as_ref().filter(|_| !explained.straight).map(|pair| pair.other.cause);
    let by = BentBy {
        cause: (!explained.straight).then_some(best.cause),
        beside,
        others: others(&explained, best),
        other_pairs: explained.pairs > 1,
        explains: best.explains(),
        at: best.size.at(),
        kink: best.kink(),
        left: best.left,
        hidden: Cause::ALL.map(|cause| explained.cannot_show.contains(&cause)),
    };
    let fine = Amount::FineLength;
    // What is straight has no size: how large a thing may hide is said by the best one's circle.
    let amount = if explained.straight { Length::from_base(0.0) } else { best.size.size() };
    let value = Value {
        amount: fine(amount),
        plus_minus: Some(fine(best.circle)),
        sense: Some(Sense::Bent(by)),
    };
    Some(Finding::known(name, value, Verdict::Figure).from(&[Source::BentShapes, Source::Gum]))
}

/// Other single causes that explain the offsets as well as the best, or may.
fn others(explained: &Explained, best: &Suspect) -> [Option<Cause>; 4] {
    let mut others = [None; 4];
    if !explained.straight && explained.pair.is_none() {
        // What would have to be opened is named for longer: nobody is told that it is not there before it
        // is sure.
        let is_other = |other: &&Suspect| {
            let at_weld = matches!(other.cause, Cause::Kink | Cause::Step) && other.luck >= SURELY_NOT;
            other.cause != best.cause && (other.explains() || at_weld)
        };
        let all = explained.single.iter().filter(is_other);
        others.iter_mut().zip(all).for_each(|(slot, other)| *slot = Some(other.cause));
    }
    others
}

/// Why the offsets cannot be looked into.
fn refused(job: &Job, pass: usize, length: Length, why: NotExplained) -> Finding {
    let name = Name::BentBy;
    let reason = match why {
        NotExplained::TooFew { got, needed } => {
            // The next place that is laid out and not read, or else one more of them.
            let read = begun(job, pass);
            if let Some(place) = (0..job.truing.places.len()).find(|place| !read.contains(place)) {
                let entry = Entry::StationReading(pass, place, 0);
                return Finding::missing(name, vec![Need { entry, why: Why::Empty }]);
            }
            Reason::TooFewPlaces { got, needed }
        }
        // As they were typed, so that they are found again in their fields.
        NotExplained::SamePlace { z } => Reason::SamePlaceAlong { z: from_front(job, z, length) },
        NotExplained::OffTheShaft { z } => Reason::PlaceOffTheShaft { z: from_front(job, z, length) },
        NotExplained::BadGeometry => Reason::VeesOrWeldOff,
        NotExplained::BadSpread | NotExplained::NotFinite => Reason::NotComputable,
    };
    Finding::impossible(name, reason)
}
