//! Cut: where the tube ends, and how square.

use super::amount::Amount;
use super::field::Fields;
use super::finding::{Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict};
use super::measure::{self, LengthChange, division, length_change};
use super::truing::chosen_limit;
use crate::job::{Entry, Job};
use crate::mechanics::cut::{allowed_face_error, finished_length, tube_removed};
use crate::mechanics::uncertainty::{Measured, Spread, combined, of_division, rectangular};
use crate::quantity::{Base, Length, inches};

/// How far a finished length reckoned back from the cut list may miss the wanted one: the last
/// thousandth of an inch. Rounding is a million times finer, so a miss is a mistake.
fn closing_tolerance() -> Length {
    inches(0.0005)
}

/// A line of the cut list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MarkName {
    /// The weld at the far end.
    FarWeld,
    /// The old weld line: saw through the wall here.
    OldWeld,
    /// The new face of the tube.
    TubeEnd,
    /// The far side of the slot that the cut to length leaves.
    SlotEnd,
    /// How deep the spigot will reach into the tube.
    SpigotReach,
    /// Middle of the new weld.
    NewWeld,
    /// Centre of the joint at the cut end when all is welded.
    NewJoint,
    /// Centre of the joint at the cut end before.
    OldJoint,
}

/// A line of the cut list with its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// What is there.
    pub name: MarkName,
    /// Distance from the far datum.
    pub from_far: Length,
}

/// The cut, with every place on one line from the far datum.
#[derive(Clone, Debug)]
pub struct CutList {
    /// Lengths.
    pub lengths: LengthChange,
    /// New welds: one where the tube is cut, two where it is replaced.
    pub new_welds: f64,
    /// Root gap of all new welds together.
    pub gap: Length,
    /// Shrinkage of all new welds together.
    pub shrinkage: Length,
    /// Tube to take out; negative to add.
    pub removed: Measured<Length>,
    /// Old weld line.
    pub weld_line: Option<Length>,
    /// Marks in the order of the far datum.
    pub marks: Vec<Mark>,
    /// Finished length reckoned back.
    pub finished: Option<Length>,
}

/// The root gap and shrinkage of all new welds.
struct Allowances {
    gap: Length,
    shrinkage: Length,
}

fn allowances(job: &Job, new_welds: f64) -> Result<Allowances, Vec<Need>> {
    let mut fields = Fields::of(job);
    let (gap, shrinkage) = (fields.length(Entry::RootGap), fields.length(Entry::Shrinkage));
    match (gap, shrinkage) {
        (Some(gap), Some(shrinkage)) => {
            Ok(Allowances { gap: gap * new_welds, shrinkage: shrinkage * new_welds })
        }
        _ => Err(fields.needs()),
    }
}

/// The cut list. Without the old weld line it holds the tube to take out and no places.
///
/// # Errors
/// The fields that are needed.
pub fn cut_list(job: &Job) -> Result<CutList, Vec<Need>> {
    let mut fields = Fields::of(job);
    let lengths = fields.sum(length_change(job));
    // A longer shaft gets new tube, and new tube has a new weld at both ends.
    let new_welds = if lengths.as_ref().is_some_and(LengthChange::lengthens) { 2.0 } else { 1.0 };
    let allowances = fields.sum(allowances(job, new_welds));
    let (Some(lengths), Some(allowances)) = (lengths, allowances) else {
        return Err(fields.needs());
    };
    let Allowances { gap, shrinkage } = allowances;
    let removed = Measured {
        best: tube_removed(lengths.old.best, lengths.wanted.best, gap, shrinkage),
        // How much a weld draws is known no better than between nothing and twice the usual.
        spread: combined(&[lengths.change.spread, rectangular(shrinkage)]),
    };
    // What is wrong with these is said by the findings that rest on them alone.
    let mut optional = Fields::of(job);
    let weld_line = optional.length(Entry::WeldLine);
    let (kerf, spigot) = (optional.length(Entry::Kerf), optional.length(Entry::Spigot));
    let far_weld = optional.length(Entry::FarWeldLine);
    let mut list = CutList {
        lengths,
        new_welds,
        gap,
        shrinkage,
        removed,
        weld_line,
        marks: Vec::new(),
        finished: None,
    };
    if let Some(weld) = weld_line {
        let end = weld - removed.best;
        let finished = finished_length(end, weld, lengths.old.best, gap, shrinkage);
        let mut places = vec![
            (MarkName::OldWeld, Some(weld)),
            (MarkName::OldJoint, Some(lengths.old.best)),
            (MarkName::NewJoint, Some(finished)),
            (MarkName::FarWeld, far_weld),
        ];
        // With nothing to take out there is no second cut to mark.
        if !lengths.lengthens() && removed.best.base() > 0.0 {
            places.extend([
                (MarkName::TubeEnd, Some(end)),
                (MarkName::SlotEnd, kerf.map(|kerf| end + kerf)),
                (MarkName::SpigotReach, spigot.map(|spigot| end + gap - spigot)),
                (MarkName::NewWeld, Some(end + gap / 2.0)),
            ]);
        }
        for (name, from_far) in places.into_iter().filter_map(|(name, place)| Some((name, place?))) {
            let mark = Mark { name, from_far };
            let at = list.marks.partition_point(|known| known.from_far.base() <= from_far.base());
            list.marks.insert(at, mark);
        }
        list.finished = Some(finished);
    }
    Ok(list)
}

impl CutList {
    /// The place of a mark.
    pub fn place(&self, name: MarkName) -> Option<Length> {
        self.marks.iter().find(|mark| mark.name == name).map(|mark| mark.from_far)
    }

    /// Where the new weld will be, from the far datum: for tube that is replaced, at the new shoulder.
    pub fn new_weld(&self) -> Option<Length> {
        self.weld_line.map(|weld| weld - self.removed.best)
    }
}

/// What follows for the cut.
pub fn findings(job: &Job) -> Vec<Finding> {
    let list = match cut_list(job) {
        Ok(list) => list,
        Err(needs) => {
            let missing = |name| Finding::missing(name, needs.clone());
            return vec![
                missing(Name::TubeRemoved),
                missing(Name::FinishedLength),
                face_error(job, None, &needs),
            ];
        }
    };
    let mut found = vec![removed_finding(job, &list), finished_finding(job, &list)];
    found.push(if list.lengths.lengthens() { new_tube(job, &list) } else { scrap_ring(job, &list) });
    found.push(face_error(job, Some(&list), &[]));
    found
}

fn removed_finding(job: &Job, list: &CutList) -> Finding {
    let removed = list.removed.best;
    let mut optional = Fields::of(job);
    let far_weld = optional.optional_length(Entry::FarWeldLine);
    let spigot = optional.optional_length(Entry::Spigot);
    let half_checked = !optional.needs().is_empty();
    let tube_left = list.new_weld().map(|end| end - far_weld.unwrap_or(Length::from_base(0.0)));
    let two_spigots = spigot.unwrap_or(Length::from_base(0.0)) * 2.0;
    let verdict = match tube_left {
        Some(left) if left.base() <= 0.0 => Verdict::Stop(Reason::MoreThanTheTube),
        Some(left) if left.base() <= two_spigots.base() => Verdict::Stop(Reason::SpigotWontGoIn),
        _ if list.lengths.is_within_doubt() => Verdict::Watch(Reason::DifferenceWithinDoubt),
        _ if list.lengths.lengthens() => Verdict::Watch(Reason::Lengthened),
        _ if removed.base() <= 0.0 => Verdict::Watch(Reason::WeldDrawsMore),
        _ if spigot.is_some_and(|spigot| removed.base() < spigot.base()) => {
            Verdict::Watch(Reason::FaceOverSpigot)
        }
        _ if half_checked => Verdict::Unjudged(Reason::WrongField),
        _ => measure::loose(list.removed.spread.expanded()),
    };
    let sense = if removed.base() < 0.0 { Sense::Add } else { Sense::Remove };
    let value = Value {
        amount: Amount::Length(Length::from_base(removed.base().abs())),
        plus_minus: Some(Amount::PlainLength(list.removed.spread.expanded())),
        sense: Some(sense),
    };
    let plain = Amount::PlainLength;
    Finding::known(Name::TubeRemoved, value, verdict)
        .step(
            Law::ClosingEquation,
            &[
                plain(list.lengths.old.best),
                plain(list.lengths.wanted.best),
                plain(list.gap),
                plain(list.shrinkage),
            ],
            plain(removed),
        )
        .from(&[Source::Geometry, Source::WeldShrinkage, Source::Gum])
}

fn finished_finding(job: &Job, list: &CutList) -> Finding {
    let (Some(finished), Some(weld)) = (list.finished, list.weld_line) else {
        let mut fields = Fields::of(job);
        fields.length(Entry::WeldLine);
        return Finding::missing(Name::FinishedLength, fields.needs());
    };
    let (gap, shrinkage) = (list.gap, list.shrinkage);
    // What was cut off is known by the old length; the tape is laid on twice, and the weld draws as
    // it will. The wanted length is the aim, and its own doubt stands with it.
    let laid_off = of_division(division(job));
    let old = list.lengths.old.spread;
    let doubt = combined(&[old, laid_off, laid_off, rectangular(shrinkage)]).expanded();
    let miss = (finished - list.lengths.wanted.best).base().abs();
    let verdict = if miss > closing_tolerance().base() {
        Verdict::Stop(Reason::NotComputable)
    } else {
        measure::loose(doubt)
    };
    let plain = Amount::PlainLength;
    let value = Value { amount: Amount::Length(finished), plus_minus: Some(plain(doubt)), sense: None };
    let end = weld - list.removed.best;
    Finding::known(Name::FinishedLength, value, verdict)
        .step(Law::TubeEnd, &[plain(weld), plain(list.removed.best)], plain(end))
        .step(
            Law::FinishedBack,
            &[plain(end), plain(gap), plain(list.lengths.old.best), plain(weld), plain(shrinkage)],
            plain(finished),
        )
        .within(Amount::Length(measure::length_tolerance()), Source::CommonPractice)
        .from(&[Source::Geometry])
}

fn scrap_ring(job: &Job, list: &CutList) -> Finding {
    let mut fields = Fields::of(job);
    let Some(kerf) = fields.length(Entry::Kerf) else {
        return Finding::missing(Name::ScrapRing, fields.needs());
    };
    // Two slots come out of the piece between the cuts: one at the old weld, one at the new face.
    let ring = list.removed.best - kerf * 2.0;
    if ring.base() <= 0.0 {
        let removed = list.removed.best.base();
        let value = Value {
            amount: Amount::Length(Length::from_base(removed.abs())),
            plus_minus: Some(Amount::PlainLength(list.removed.spread.expanded())),
            sense: Some(if removed < 0.0 { Sense::Add } else { Sense::Remove }),
        };
        return Finding::known(Name::ScrapRing, value, Verdict::Watch(Reason::LessThanAKerf { kerf }))
            .from(&[Source::Geometry]);
    }
    let line = of_division(division(job));
    let two_slots = Spread { standard: line.standard * 2.0, ..line };
    let doubt = combined(&[list.removed.spread, two_slots]).expanded();
    let value = Value {
        amount: Amount::Length(ring),
        plus_minus: Some(Amount::PlainLength(doubt)),
        sense: None,
    };
    Finding::known(Name::ScrapRing, value, Verdict::Figure)
        .step(
            Law::RingLength,
            &[Amount::PlainLength(list.removed.best), Amount::PlainLength(kerf)],
            Amount::PlainLength(ring),
        )
        .from(&[Source::Geometry])
}

fn new_tube(job: &Job, list: &CutList) -> Finding {
    let mut fields = Fields::of(job);
    let (weld, far) = (fields.length(Entry::WeldLine), fields.length(Entry::FarWeldLine));
    let (Some(weld), Some(far)) = (weld, far) else {
        return Finding::missing(Name::NewTube, fields.needs());
    };
    let tube = weld - far - list.removed.best;
    let plain = Amount::PlainLength;
    let value = Value {
        amount: Amount::Length(tube),
        plus_minus: Some(plain(list.removed.spread.expanded())),
        sense: None,
    };
    Finding::known(Name::NewTube, value, Verdict::Watch(Reason::Lengthened))
        .step(Law::NewTubeLength, &[plain(weld), plain(far), plain(-list.removed.best)], plain(tube))
        .from(&[Source::Geometry])
}

fn face_error(job: &Job, list: Option<&CutList>, cut_needs: &[Need]) -> Finding {
    let mut fields = Fields::of(job);
    fields.also(cut_needs);
    let diameter = fields.length(Entry::TubeDiameter);
    let weld_line = fields.length(Entry::WeldLine);
    let limit = chosen_limit(job, &mut fields);
    let (Some(list), Some(diameter), Some(_), Some((limit, source))) =
        (list, diameter, weld_line, limit)
    else {
        return Finding::missing(Name::FaceError, fields.needs());
    };
    let length = list.lengths.wanted.best;
    let weld = list.new_weld().unwrap_or(length);
    let Some(allowed) = allowed_face_error(diameter, limit, length, weld) else {
        return Finding::impossible(Name::FaceError, Reason::MoreThanTheTube);
    };
    let value = Value { amount: Amount::FineLength(allowed), plus_minus: None, sense: None };
    let plain = Amount::PlainLength;
    Finding::known(Name::FaceError, value, Verdict::Figure)
        .step(
            Law::FaceError,
            &[plain(diameter), Amount::FineLength(limit), plain(length), plain(weld)],
            Amount::FineLength(allowed),
        )
        .within(Amount::FineLength(limit), source)
        .from(&[Source::Geometry, Source::TotalReadingStandard])
}
