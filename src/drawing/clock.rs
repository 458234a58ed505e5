//! End views: the tube from the rear with a clock face round it.

use super::svg::{Anchor, Pen, Svg};
use crate::job::{End, Job};
use crate::quantity::{Angle, Base, as_degrees, degrees, show_angle};
use crate::stage::{Sense, phase as phase_stage, truing, weights as weights_stage};

const WIDTH: f64 = 320.0;
const HEIGHT: f64 = 350.0;
const CENTRE: (f64, f64) = (160.0, 164.0);
const RIM: f64 = 104.0;

/// A place on the face: so far from the centre, so far round the clock.
fn place(radius: f64, at: Angle) -> (f64, f64) {
    let (sin, cos) = at.base().sin_cos();
    (CENTRE.0 + radius * sin, CENTRE.1 - radius * cos)
}

/// The face: the tube, twelve ticks, four numbers, the witness mark at 12.
fn face() -> Svg {
    let mut svg = Svg::new(WIDTH, HEIGHT);
    svg.circle(Pen::Part, CENTRE, RIM, false);
    svg.circle(Pen::Thin, CENTRE, RIM - 9.0, false);
    for hour in 0..12_u8 {
        let at = degrees(f64::from(hour) * 30.0);
        let long = hour % 3 == 0;
        svg.line(Pen::Thin, place(RIM + 4.0, at), place(RIM + if long { 16.0 } else { 10.0 }, at));
        if long {
            let (x, y) = place(RIM + 32.0, at);
            let number = if hour == 0 { 12 } else { hour };
            svg.text(Pen::Thin, (x, y + 7.0), Anchor::Middle, &number.to_string());
        }
    }
    let mark = [
        place(RIM + 2.0, degrees(0.0)),
        place(RIM - 16.0, degrees(-6.0)),
        place(RIM - 16.0, degrees(6.0)),
    ];
    svg.path(Pen::Part, &mark, true);
    svg
}

/// Both yokes end-on. The turn between them is drawn larger than it is, so that it can be seen.
/// `None` while it is not known.
pub fn phase(job: &Job) -> Option<String> {
    const LARGER: f64 = 10.0;
    // Farther round, the drawn turn would pass for another.
    const FARTHEST: f64 = 60.0;
    let turn = phase_stage::turn(job, crate::job::BEFORE_TACKING).ok()?.best;
    let (sense, size) = phase_stage::findings(job).first().and_then(|finding| {
        let value = finding.value()?;
        Some((value.sense?, turn.base().abs()))
    })?;
    let mut svg = face();
    let drawn = degrees((as_degrees(turn) * LARGER).clamp(-FARTHEST, FARTHEST));
    ears(&mut svg, Pen::Ghost, degrees(90.0));
    ears(&mut svg, Pen::Part, degrees(90.0) + drawn);
    let way = match sense {
        Sense::TurnClockwise => 1.0,
        Sense::TurnCounterclockwise => -1.0,
        _ => 0.0,
    };
    if way != 0.0 {
        // Which yoke is turned decides where the arrow sits; its way is the one the words say.
        let start = match job.cut.end {
            End::Rear => degrees(90.0) + drawn,
            End::Front => degrees(90.0),
        };
        turning_arrow(&mut svg, start, way);
    }
    let true_tenfold = (as_degrees(turn) * LARGER).abs() <= FARTHEST;
    let how = if true_tenfold { "drawn ×10" } else { "not to scale" };
    let note = format!("{}, {how}", show_angle(Angle::from_base(size), 2));
    svg.text(Pen::Thin, (CENTRE.0, HEIGHT - 8.0), Anchor::Middle, &note);
    Some(svg.finish())
}

/// The two ears of a yoke on a line through the axis.
fn ears(svg: &mut Svg, pen: Pen, at: Angle) {
    svg.line(pen, place(RIM - 18.0, at), place(RIM - 18.0, at + degrees(180.0)));
    for side in [0.0, 180.0] {
        svg.circle(pen, place(RIM - 30.0, at + degrees(side)), 12.0, false);
    }
}

/// An arrow round the face: + is clockwise.
fn turning_arrow(svg: &mut Svg, start: Angle, way: f64) {
    let radius = RIM - 58.0;
    let points: Vec<(f64, f64)> =
        (0..=6).map(|i| place(radius, start + degrees(way * f64::from(i) * 6.0))).collect();
    svg.path(Pen::Accent, &points, false);
    let from = place(radius, start + degrees(way * 36.0));
    svg.arrow(Pen::Accent, from, place(radius, start + degrees(way * 50.0)));
}

/// The high side of a turn on the clock, and where to move the tube. `None` while it is not known or
/// cannot be seen.
pub fn high_spot(job: &Job, pass: usize) -> Option<String> {
    let turn = truing::turn(job, pass).ok()?;
    let mut svg = face();
    for station in &turn.stations {
        svg.circle(Pen::Thin, place(RIM - 4.5, station.at), 4.0, true);
    }
    if turn.run_out.offset_is_seen() {
        let at = turn.run_out.offset.at();
        svg.circle(Pen::Accent, place(RIM, at), 10.0, true);
        svg.arrow(Pen::Accent, place(RIM - 26.0, at), place(RIM - 40.0, at + degrees(180.0)));
        let (x, y) = place(RIM - 50.0, at + degrees(28.0));
        svg.text(Pen::Accent, (x, y + 7.0), Anchor::Middle, "high");
    }
    Some(svg.finish())
}

/// The weights on the clock, numbered: hollow at the front, filled at the rear. `None` without one.
pub fn weights(job: &Job) -> Option<String> {
    let (placed, _) = weights_stage::all_placed(job);
    if placed.is_empty() {
        return None;
    }
    let mut svg = face();
    for weight in &placed {
        let at = weight.after.at;
        svg.circle(Pen::Accent, place(RIM, at), 11.0, weight.own == End::Rear);
        let (x, y) = place(RIM - 30.0, at);
        svg.text(Pen::Part, (x, y + 7.0), Anchor::Middle, &(weight.row + 1).to_string());
    }
    svg.text(Pen::Thin, (CENTRE.0, HEIGHT - 8.0), Anchor::Middle, "hollow: front · filled: rear");
    Some(svg.finish())
}
