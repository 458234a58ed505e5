//! The face of the tube: how square it must be, how square it is, and how the spigot sits in it.

use super::amount::{Amount, plain};
use super::cut_list::CutList;
use super::field::tube_doubt;
use super::field::{Fields, read};
use super::finding::{Blocked, Finding, Law, Name, Need, Reason, Sense, Source, Value, Verdict, Why};
use super::judged::chosen_limit;
use super::length::division;
use crate::job::{Entry, FACE_PLACES, Job, SquareBy};
use crate::mechanics::cut::allowed_face_error;
use crate::mechanics::runout::FEWEST;
use crate::mechanics::square::{self, Face, spigot_tilt, tilt};
use crate::mechanics::uncertainty::{combined, rectangular};
use crate::quantity::{Angle, Base, Length, degrees, millimetres};

/// The steps of a feeler gauge. Our own choice: a set's usual 0.05 mm, 0.002 in.
fn feeler_line() -> Length {
    millimetres(0.05)
}

/// Most a spigot may lean in its bore before it is called the wrong tube. Our own choice.
fn most_lean() -> Angle {
    degrees(1.0)
}

/// How far out of square the face may be at the chosen limit, with the limit and its source.
fn allowed(
    job: &Job,
    list: Option<&CutList>,
    cut_needs: &[Need],
) -> Result<(Length, [Length; 4], Source), Blocked> {
    let mut fields = Fields::of(job);
    fields.also(cut_needs);
    let diameter = fields.length(Entry::TubeDiameter);
    let weld_line = fields.length(Entry::WeldLine);
    let limit = chosen_limit(job, &mut fields);
    let (Some(list), Some(diameter), Some(_), Some((limit, source))) =
        (list, diameter, weld_line, limit)
    else {
        return Err(Blocked::Missing(fields.needs()));
    };
    // By a weld line that is wrong no limit can be said.
    if let Some(reason) = list.stop {
        return Err(Blocked::Impossible(reason));
    }
    let length = list.lengths.wanted.best;
    // A weld line is a bench distance; the length is the shaft's at its set point.
    let weld = list.new_weld().map_or(length, |weld| weld + list.lengths.pushed_in);
    allowed_face_error(diameter, limit, length, weld)
        .map(|allowed| (allowed, [diameter, limit, length, weld], source))
        .ok_or(Blocked::Impossible(Reason::MoreThanTheTube))
}

/// How far out of square the face may be.
pub(super) fn allowed_finding(job: &Job, list: Option<&CutList>, cut_needs: &[Need]) -> Finding {
    let (allowed, [diameter, limit, length, weld], source) = match allowed(job, list, cut_needs) {
        Ok(known) => known,
        Err(blocked) => return Finding::blocked(Name::FaceError, blocked),
    };
    let value = Value { amount: Amount::FineLength(allowed), plus_minus: None, sense: None };
    Finding::known(Name::FaceError, value, Verdict::Figure)
        .step(
            Law::FaceError,
            &[plain(diameter), Amount::FineLength(limit), plain(length), plain(weld)],
            Amount::FineLength(allowed),
        )
        .within(Amount::FineLength(limit), source)
        .from(&[Source::Geometry, Source::TotalReadingStandard])
}

/// The face as it was read; `None` where nothing was.
fn found(job: &Job) -> Option<Result<Face, Blocked>> {
    let entries = || (0..FACE_PLACES).map(Entry::FaceReading);
    if !entries().any(|entry| job.typed(entry).is_some_and(|typed| !typed.is_blank())) {
        return None;
    }
    let mut fields = Fields::of(job);
    // Checked as a whole first, so that a wrong one is named.
    fields.readings::<Length>(entries());
    let needs = fields.needs();
    if !needs.is_empty() {
        return Some(Err(Blocked::Missing(needs)));
    }
    // A gap is where the face is low.
    let (sign, line) = match job.cut.square_by {
        SquareBy::Strip => (1.0, division(job)),
        SquareBy::Feeler => (-1.0, feeler_line()),
    };
    let place = |at: usize| match read(job, Entry::FaceReading(at)) {
        Ok(Some(Amount::PlainLength(stands))) => {
            let step = 360.0 / FACE_PLACES as f64;
            Some((degrees(step * at as f64), stands * sign))
        }
        _ => None,
    };
    let readings: Vec<(Angle, Length)> = (0..FACE_PLACES).filter_map(place).collect();
    // Half-way through the reading nothing is wrong yet: the next place is asked.
    let empty = entries().find(|entry| matches!(read(job, *entry), Ok(None)));
    if let (true, Some(entry)) = (readings.len() < FEWEST, empty) {
        return Some(Err(Blocked::Missing(vec![Need { entry, why: Why::Empty }])));
    }
    Some(square::face(&readings, line).ok_or(Blocked::Impossible(Reason::OneSided)))
}

/// How square the face is, where it was read, and where to file.
pub(super) fn found_finding(job: &Job, list: Option<&CutList>) -> Option<Finding> {
    let face = match found(job)? {
        Ok(face) => face,
        Err(blocked) => return Some(Finding::blocked(Name::FaceFound, blocked)),
    };
    let limit = allowed(job, list, &[]).ok().map(|(allowed, ..)| allowed);
    let verdict = match limit {
        None => Verdict::Unjudged(Reason::FaceLimitUnknown),
        Some(allowed) if (face.out + face.doubt).base() <= allowed.base() => {
            // New tube has two faces, and this is one.
            let longer = list.is_some_and(|list| list.lengths.lengthens());
            if longer { Verdict::Watch(Reason::OtherFace) } else { Verdict::Good }
        }
        Some(allowed) if face.out.base() <= allowed.base() => {
            Verdict::Watch(Reason::FaceNearLimit { allowed })
        }
        Some(_) if !face.is_seen => Verdict::Unjudged(Reason::FaceNotSeen),
        Some(allowed) => Verdict::Stop(Reason::FaceOverLimit { allowed }),
    };
    let value = Value {
        amount: Amount::FineLength(face.out),
        plus_minus: Some(Amount::FineLength(face.doubt)),
        sense: Some(match verdict {
            _ if !face.is_seen => Sense::LeaveAlone,
            Verdict::Good => Sense::At(face.high_at),
            _ => Sense::FileAt(face.high_at),
        }),
    };
    let mut finding = Finding::known(Name::FaceFound, value, verdict);
    let diameter = Fields::of(job).length(Entry::TubeDiameter);
    if let Some((diameter, tilt)) = diameter.and_then(|d| Some((d, tilt(face.out, d)?))) {
        let put_in = [Amount::FineLength(face.out), plain(diameter)];
        finding = finding.step(Law::FaceFit, &put_in, Amount::Angle(tilt));
    }
    if let Some(allowed) = limit {
        finding = finding.within(Amount::FineLength(allowed), Source::Geometry);
    }
    Some(finding.from(&[Source::LeastSquaresCircle]))
}

/// How far a loose spigot can lean in the tube, where its diameter was measured.
pub(super) fn spigot_finding(job: &Job) -> Option<Finding> {
    let mut fields = Fields::of(job);
    let spigot = fields.optional_length(Entry::SpigotDiameter);
    if spigot.is_none() && fields.needs().is_empty() {
        return None;
    }
    let mut fields = Fields::of(job);
    let [spigot, diameter, wall, reach] =
        [Entry::SpigotDiameter, Entry::TubeDiameter, Entry::TubeWall, Entry::Spigot]
            .map(|entry| fields.length(entry));
    let (Some(spigot), Some(diameter), Some(wall), Some(reach)) = (spigot, diameter, wall, reach) else {
        return Some(Finding::missing(Name::SpigotFit, fields.needs()));
    };
    let bore = diameter - wall * 2.0;
    let play = bore - spigot;
    let (of_diameter, of_wall) = tube_doubt();
    let parts = [of_diameter, of_wall * 2.0, feeler_line() / 2.0].map(rectangular);
    let doubt = combined(&parts).expanded();
    let lean = spigot_tilt(bore, spigot, reach);
    let (sense, verdict) = match lean {
        None if play.base() < -doubt.base() => (Sense::Tight, Verdict::Watch(Reason::SpigotTight)),
        None => (Sense::Tight, Verdict::Good),
        Some(lean) if lean.base() > most_lean().base() => {
            (Sense::Loose { lean }, Verdict::Watch(Reason::SpigotLoose))
        }
        // It sits in the tube, but what holds the yoke straight is the face and the dial.
        Some(lean) => (Sense::Loose { lean }, Verdict::Good),
    };
    let value = Value {
        amount: Amount::FineLength(Length::from_base(play.base().abs())),
        plus_minus: Some(Amount::FineLength(doubt)),
        sense: Some(sense),
    };
    let mut finding = Finding::known(Name::SpigotFit, value, verdict);
    if let Some(lean) = lean {
        let put_in = [plain(play), plain(reach)];
        finding = finding.step(Law::SpigotLean, &put_in, Amount::Angle(lean));
    }
    Some(finding.from(&[Source::Geometry, Source::DoubtOfTube]))
}
