//! The wrap strip: a strip of paper, printed true to size, that is wrapped round the tube. Its straight
//! edge guides the scriber round the new face, its ticks carry the clock.
//!
//! Which way the hours run: angles run clockwise, seen from the rear looking forward. Whoever stands
//! behind the shaft and looks down on the top of the tube has its rear end nearest, and clockwise runs
//! from left to right there. Laid flat in that place, printed face up, the paper's lower edge is toward
//! the rear and the hours increase to the right. Wrapped round, that holds at every hour: the outward
//! normal n, the way to the front f and the tangent t of increasing hours are a set in which t = f × n,
//! and so are the paper's face, its upward and its rightward direction.

use super::amount::Amount;
use super::field::{Fields, read};
use super::finding::Need;
use crate::job::{End, Entry, Job, Paper, WeightsCame};
use crate::mechanics::phase::arc;
use crate::mechanics::strip::{office_paper, pieces, strip_length};
use crate::quantity::{Angle, Length, as_degrees, degrees, inches, millimetres};

/// A hair, in degrees: a mark on a join stands on both pieces, whatever the last bit says.
const HAIR: f64 = 1e-6;

/// What a mark says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MarkKind {
    /// A tick at every 5°.
    Five,
    /// A tick at every 10°.
    Ten,
    /// An hour of the clock, 1 to 12; 12 is the witness mark.
    Hour(usize),
    /// A mark to scribe, counted from 1 at the witness mark.
    Clock(usize),
    /// The tube's own seam.
    Seam,
    /// The weight of this row.
    Weight(usize),
}

/// A mark on a piece of the strip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// What it says.
    pub kind: MarkKind,
    /// How far to the right of the piece's left end.
    pub at: Length,
}

/// One page's piece of the strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Where it begins on the whole strip.
    pub from: Length,
    /// Where it ends on the whole strip.
    pub to: Length,
    /// What stands on it. A mark on a join stands on both pieces.
    pub marks: Vec<Mark>,
}

/// The strip, laid flat.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Diameter of the tube it is for.
    pub diameter: Length,
    /// Its length, from the witness mark round to the witness mark.
    pub length: Length,
    /// From one hour to the next.
    pub hour: Length,
    /// From one mark to scribe to the next.
    pub step: Length,
    /// Width and height of the page, held across.
    pub page: (Length, Length),
    /// What the printer leaves white at each side.
    pub margin: Length,
    /// The end that is cut. The tube that is kept lies on the other side of the new face, so cut at the
    /// rear the strip has its rear edge on the face, cut at the front its front edge.
    pub cut: End,
    /// The pieces, from the witness mark clockwise.
    pub pieces: Vec<Piece>,
}

/// Width and height of a page held across. Sources: ISO 216 for A4; ANSI/ASME Y14.1 for Letter (A).
fn page(paper: Paper) -> (Length, Length) {
    match paper {
        Paper::A4 => (millimetres(297.0), millimetres(210.0)),
        Paper::Letter => (inches(11.0), inches(8.5)),
    }
}

/// What is left white at each side. Our own choice: printers need 5 to 13 mm.
fn margin() -> Length {
    millimetres(15.0)
}

/// Every mark by its angle. One at the witness mark stands at both ends of the strip.
fn marks_by_angle(job: &Job) -> Vec<(Angle, MarkKind)> {
    let mut found = Vec::new();
    let mut put = |at: f64, kind| {
        let at_witness_mark = !(HAIR..360.0 - HAIR).contains(&at);
        found.push((degrees(if at_witness_mark { 0.0 } else { at }), kind));
        if at_witness_mark {
            found.push((degrees(360.0), kind));
        }
    };
    for step in 0..72_u32 {
        let kind = match step {
            0 => MarkKind::Hour(12),
            _ if step % 6 == 0 => MarkKind::Hour(step as usize / 6),
            _ if step % 2 == 0 => MarkKind::Ten,
            _ => MarkKind::Five,
        };
        put(f64::from(step) * 5.0, kind);
    }
    let count = job.cut.marks.count();
    for place in 0..count {
        put(360.0 * place as f64 / count as f64, MarkKind::Clock(place + 1));
    }
    // What cannot be read is said at its field; the strip does without it.
    let mut read_clock = |entry, kind| {
        if let Ok(Some(Amount::Clock(at))) = read(job, entry) {
            put(as_degrees(at).rem_euclid(360.0), kind);
        }
    };
    read_clock(Entry::SeamClock, MarkKind::Seam);
    if job.weights.came == WeightsCame::Off {
        for row in 0..job.weights.rows.len() {
            read_clock(Entry::WeightClock(row), MarkKind::Weight(row));
        }
    }
    found
}

/// The strip for the tube of a job.
///
/// # Errors
/// The fields that are needed.
pub fn strip(job: &Job) -> Result<Strip, Vec<Need>> {
    let mut fields = Fields::of(job);
    let diameter = fields.length(Entry::TubeDiameter);
    let page = page(job.cut.paper);
    let length = diameter.map(|diameter| strip_length(diameter, office_paper()));
    let count = length.and_then(|length| pieces(length, page.0 - margin() * 2.0));
    let (Some(diameter), Some(length), Some(count)) = (diameter, length, count) else {
        return Err(fields.needs());
    };
    let along = |at: Angle| arc(diameter + office_paper(), at);
    let marks = marks_by_angle(job);
    let share = 360.0 / count as f64;
    let piece = |place: usize| {
        let (begin, end) = (share * place as f64, share * (place + 1) as f64);
        let (from, to) = (along(degrees(begin)), along(degrees(end)));
        let here = |at: Angle| (begin - HAIR..=end + HAIR).contains(&as_degrees(at));
        let on_it = marks.iter().filter(|(at, _)| here(*at));
        let marks = on_it.map(|(at, kind)| Mark { kind: *kind, at: along(*at) - from }).collect();
        Piece { from, to, marks }
    };
    Ok(Strip {
        diameter,
        length,
        hour: along(degrees(30.0)),
        step: along(degrees(360.0 / job.cut.marks.count() as f64)),
        page,
        margin: margin(),
        cut: job.cut.end,
        pieces: (0..count).map(piece).collect(),
    })
}
