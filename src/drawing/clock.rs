//! End views: the tube from the rear with a clock face round it.

use super::svg::{Anchor, Pen, Svg};
use super::unrolled::number;
use crate::job::{AFTER_WELDING, BEFORE_TACKING, End, Job};
use crate::quantity::{Angle, Base, as_degrees, degrees, show_angle};
use crate::stage::phase as phase_stage;
use crate::stage::weights::lay;

const WIDTH: f64 = 320.0;
/// From one line of words under a face to the next.
pub(super) const ROW: f64 = 26.0;
pub(super) const HEIGHT: f64 = 350.0;
pub(super) const CENTRE: (f64, f64) = (160.0, 164.0);
pub(super) const RIM: f64 = 104.0;
/// A word at the rim is in the way of another one nearer than this, in degrees.
const BESIDE: f64 = 45.0;
/// Two more lines of text under a face.
const FOOT: f64 = 52.0;

/// A place on the face: so far from the centre, so far round the clock.
pub(super) fn place(radius: f64, at: Angle) -> (f64, f64) {
    let (sin, cos) = at.base().sin_cos();
    (CENTRE.0 + radius * sin, CENTRE.1 - radius * cos)
}

/// Words on the face beside the witness mark's triangle, where they would lie on it.
pub(super) fn off_the_mark((x, y): (f64, f64)) -> (f64, f64) {
    let on_it = (x - CENTRE.0).abs() < 20.0 && y < CENTRE.1 - RIM + 38.0;
    (if on_it { CENTRE.0 + 22.0 } else { x }, y)
}

/// The face: the tube, twelve ticks, four numbers, the witness mark at 12.
/// Room is left below for more lines of text.
pub(super) fn face(foot: f64) -> Svg {
    let mut svg = Svg::new(WIDTH, HEIGHT + foot);
    svg.circle(Pen::Part, CENTRE, RIM, false);
    svg.circle(Pen::Thin, CENTRE, RIM - 9.0, false);
    let mut ticks = Vec::new();
    for hour in 0..12_u8 {
        let at = degrees(f64::from(hour) * 30.0);
        let long = hour % 3 == 0;
        ticks.push([place(RIM + 4.0, at), place(RIM + if long { 16.0 } else { 10.0 }, at)]);
        if long {
            let (x, y) = place(RIM + 32.0, at);
            let number = if hour == 0 { 12 } else { hour };
            svg.text(Pen::Thin, (x, y + 7.0), Anchor::Middle, &number.to_string());
        }
    }
    svg.lines(Pen::Thin, &ticks);
    let mark = [
        place(RIM + 2.0, degrees(0.0)),
        place(RIM - 16.0, degrees(-6.0)),
        place(RIM - 16.0, degrees(6.0)),
    ];
    svg.path(Pen::Part, &mark, true);
    svg
}

/// Both yokes end-on: the one that stays small and level, the cut end's one large, dashed where it is
/// wanted and solid where it stands. What it is off by is drawn larger than it is, so that it can be
/// seen; the turn that is wanted is drawn as it is. `None` while it is not known.
pub fn phase(job: &Job) -> Option<String> {
    const LARGER: f64 = 10.0;
    // Farther off than this the drawn turn would pass for another, and is seen as it is.
    const LARGER_UP_TO: f64 = 6.0;
    let welded = phase_stage::off(job, AFTER_WELDING).ok();
    let off = welded.or_else(|| phase_stage::off(job, BEFORE_TACKING).ok())?;
    let wanted = phase_stage::target(job).ok()?.best;
    let (size, seen) = (off.best.base().abs(), off.best.base().abs() > off.spread.expanded().base());
    let is_small = as_degrees(off.best).abs() <= LARGER_UP_TO;
    let times = if is_small { LARGER } else { 1.0 };
    // The rear yoke is told against the front one: where the front one is the one that turns, each turn
    // is its opposite.
    let (way, stays, turns) = match job.cut.end {
        End::Rear => (1.0, "front", "rear"),
        End::Front => (-1.0, "rear", "front"),
    };
    let level = degrees(90.0);
    let place_wanted = level + wanted * way;
    let place_now = place_wanted + off.best * (way * times);
    let mut svg = face(FOOT);
    ears(&mut svg, Pen::Thin, level, 30.0, 8.0);
    ears(&mut svg, Pen::Ghost, place_wanted, RIM - 30.0, 12.0);
    ears(&mut svg, Pen::Part, place_now, RIM - 30.0, 12.0);
    // Welded, nothing turns any more; inside its own ± there is no way to show.
    if welded.is_none() && seen {
        turning_arrow(&mut svg, place_now, -way * off.best.base().signum());
    }
    let out = show_angle(Angle::from_base(size), 2);
    let state = if welded.is_some() { "welded, out" } else { "out" };
    let scale = if is_small { " (×10)" } else { "" };
    words(
        &mut svg,
        &[
            format!("small: {stays} · large: {turns}"),
            format!("dashed: {turns} as wanted"),
            format!("{state} {out}{scale}"),
        ],
    );
    Some(svg.finish())
}

/// Lines of words under a face.
pub(super) fn words(svg: &mut Svg, rows: &[String]) {
    for (row, text) in rows.iter().enumerate() {
        svg.text(Pen::Thin, (CENTRE.0, HEIGHT - 8.0 + ROW * row as f64), Anchor::Middle, text);
    }
}

/// The two ears of a yoke on a line through the axis, so far from it, each a ring of this radius.
fn ears(svg: &mut Svg, pen: Pen, at: Angle, out: f64, ring: f64) {
    svg.line(pen, place(out + ring, at), place(out + ring, at + degrees(180.0)));
    for side in [0.0, 180.0] {
        svg.circle(pen, place(out, at + degrees(side)), ring, false);
    }
}

/// An arrow round the face: + is clockwise.
pub(super) fn turning_arrow(svg: &mut Svg, start: Angle, way: f64) {
    let radius = RIM - 52.0;
    let points: Vec<(f64, f64)> =
        (0..=6).map(|i| place(radius, start + degrees(way * f64::from(i) * 6.0))).collect();
    svg.path(Pen::Accent, &points, false);
    let from = place(radius, start + degrees(way * 36.0));
    svg.arrow(Pen::Accent, from, place(radius, start + degrees(way * 50.0)));
}

/// The weights on the clock, numbered, with each one's end in words below: filled where they go, dashed where they
/// came off, as on the tube unrolled; the seam and the line through the ears thin. `None` without one.
pub fn weights(job: &Job) -> Option<String> {
    let lay = lay(job)?;
    let new = || lay.new.iter().filter_map(|one| Some((one, one.weight?)));
    new().next()?;
    let mut rows = vec!["dashed: came off".to_owned(), "filled: goes back".to_owned()];
    for (end, word) in [(End::Front, "front"), (End::Rear, "rear")] {
        let own = new().filter(|(one, _)| one.own == end).map(|(one, _)| number(one));
        // One named by its end needs no more words.
        let own: Vec<String> = own.filter(|name| name != word).collect();
        if !own.is_empty() {
            rows.push(format!("{word}: {}", own.join(", ")));
        }
    }
    let mut svg = face(ROW * (rows.len() - 1) as f64);
    for (line, _) in lay.ears.into_iter().flatten() {
        svg.line(Pen::Thin, place(RIM - 12.0, line), place(RIM - 12.0, line + degrees(180.0)));
    }
    if let Some((at, _)) = lay.seam {
        svg.line(Pen::Thin, place(RIM - 14.0, at), place(RIM + 6.0, at));
        // Further in where a weight's number stands there.
        let near = |weight: Angle| {
            let apart = as_degrees(weight - at).rem_euclid(360.0);
            !(BESIDE..=360.0 - BESIDE).contains(&apart)
        };
        let taken = new().any(|(_, weight)| near(weight.at));
        let (x, y) = place(if taken { RIM - 70.0 } else { RIM - 34.0 }, at);
        svg.text(Pen::Thin, (x, y + 7.0), Anchor::Middle, "seam");
    }
    for logged in &lay.old {
        svg.circle(Pen::Ghost, place(RIM, logged.weight.at), 11.0, false);
    }
    for (one, weight) in new() {
        for told in lay.told.iter().filter(|told| told.name == one.name) {
            svg.circle(Pen::Accent, place(RIM, told.clock), 11.0, true);
        }
        let (x, y) = place(RIM - 30.0, weight.at);
        svg.text(Pen::Part, (x, y + 7.0), Anchor::Middle, &number(one));
    }
    words(&mut svg, &rows);
    Some(svg.finish())
}
