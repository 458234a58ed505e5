//! The tube unrolled: the clock across, the shaft's length down the page, so that every weight is seen.
//!
//! It lies as the wrap strip does, seen from outside with the front at the top: the hours run to the right.
//! Round and along have scales of their own; a shaft is too long for one.

use super::svg::{Anchor, Pen, Svg};
use crate::job::{End, Job};
use crate::quantity::{Angle, Base, Length, as_degrees, clockwise_angle, degrees};
use crate::stage::Name;
use crate::stage::weights::{GoesBack, Lay, lay};

const LEFT: f64 = 20.0;
const WIDTH: f64 = 320.0;
const TOP: f64 = 62.0;
const HEIGHT: f64 = 270.0;
/// From one line of words to the next.
const ROW: f64 = 26.0;
/// A weight's name is no wider than this.
const WORD: f64 = 62.0;
/// Radius of the lightest mark and of the heaviest.
const SMALLEST: f64 = 5.0;
const LARGEST: f64 = 13.0;

/// The weights on the tube laid flat: dashed where they came off, filled where they go, larger as they are
/// heavier. `None` without a weight.
pub fn unrolled(job: &Job) -> Option<String> {
    let lay = lay(job)?;
    if lay.old.is_empty() && lay.new.is_empty() {
        return None;
    }
    let sheet = Sheet::of(job, &lay);
    let keeps_off = lay.ears.iter().any(Option::is_some)
        || lay.seam.is_some()
        || lay.welds.iter().any(Option::is_some);
    let mut words =
        vec!["rear (axle)", "dashed: came off", "filled: goes back", "lines: from old to new"];
    words.extend(keeps_off.then_some("hatched: keep off"));
    let mut svg = Svg::new(WIDTH + 2.0 * LEFT, TOP + HEIGHT + ROW * words.len() as f64 + 14.0);
    sheet.tube(&mut svg);
    sheet.bands(&mut svg);
    sheet.weights(&mut svg);
    let middle = LEFT + WIDTH / 2.0;
    svg.text(Pen::Thin, (middle, TOP - 40.0), Anchor::Middle, "front (gearbox)");
    for (line, words) in words.into_iter().enumerate() {
        let y = TOP + HEIGHT + ROW * (line as f64 + 1.0);
        svg.text(Pen::Thin, (middle, y), Anchor::Middle, words);
    }
    Some(svg.finish())
}

/// What a weight is called: its row's number, the numbers that it stands for, or its end.
pub(super) fn number(one: &GoesBack) -> String {
    match one.name {
        Name::PutBack(row) => (row + 1).to_string(),
        _ if one.of.iter().any(|logged| logged.own != one.own) => {
            if one.own == End::Rear { "rear" } else { "front" }.to_owned()
        }
        _ => {
            let rows: Vec<String> = one.of.iter().map(|logged| (logged.row + 1).to_string()).collect();
            rows.join("+")
        }
    }
}

/// Where things are on the sheet.
struct Sheet<'a> {
    job: &'a Job,
    lay: &'a Lay,
    /// The longer of both shafts: all of it is on the sheet.
    longest: f64,
    heaviest: f64,
}

impl Sheet<'_> {
    fn of<'a>(job: &'a Job, lay: &'a Lay) -> Sheet<'a> {
        let longest = lay.lengths.iter().map(|length| length.base()).fold(0.0, f64::max);
        let old = lay.old.iter().map(|one| one.weight.mass.base());
        let new = lay.new.iter().filter_map(|one| Some(one.weight?.mass.base()));
        Sheet { job, lay, longest, heaviest: old.chain(new).fold(0.0, f64::max) }
    }

    /// Across, from 12 to 12.
    fn x(at: Angle) -> f64 {
        LEFT + WIDTH * as_degrees(clockwise_angle(at)) / 360.0
    }

    /// Down, from the front: distances count from the far datum.
    fn y(&self, distance: Length) -> f64 {
        let share = distance.base() / self.longest;
        match self.job.cut.end {
            End::Rear => TOP + HEIGHT * share,
            End::Front => TOP + HEIGHT * (1.0 - share),
        }
    }

    /// The edges, the hours, both joints and the welds.
    fn tube(&self, svg: &mut Svg) {
        let mut hours = Vec::new();
        for hour in 0..=12_u8 {
            let x = LEFT + WIDTH * f64::from(hour) / 12.0;
            let long = hour % 3 == 0;
            hours.push([(x, TOP - if long { 10.0 } else { 5.0 }), (x, TOP)]);
            if long {
                let number = if hour == 0 { 12 } else { hour };
                svg.text(Pen::Thin, (x, TOP - 14.0), Anchor::Middle, &number.to_string());
            }
        }
        svg.lines(Pen::Thin, &hours);
        let across = |y: f64| [(LEFT, y), (LEFT + WIDTH, y)];
        let nothing = Length::from_base(0.0);
        let [old, new] = self.lay.lengths.map(|length| self.y(length));
        let (far, edge) = (self.y(nothing), [LEFT, LEFT + WIDTH]);
        svg.lines(Pen::Part, &edge.map(|x| [(x, far), (x, new)]));
        svg.lines(Pen::Thin, &[across(far), across(new)]);
        let [from, to] = across(old);
        svg.line(Pen::Ghost, from, to);
        for weld in self.lay.welds.iter().flatten() {
            let [from, to] = across(self.y(*weld));
            svg.line(Pen::Part, from, to);
        }
    }

    /// What weights keep off: beside the welds, the seam, the line through the ears.
    fn bands(&self, svg: &mut Svg) {
        let lay = self.lay;
        for weld in lay.welds.iter().flatten() {
            let (one, other) = (self.y(*weld - lay.weld_keep), self.y(*weld + lay.weld_keep));
            svg.hatch(Pen::Ghost, (LEFT, one.min(other)), (LEFT + WIDTH, one.max(other)), true);
        }
        let [far, near] = lay.welds;
        let zero = Length::from_base(0.0);
        let [_, new] = lay.lengths;
        let (from, to) = (far.unwrap_or(zero), near.unwrap_or(new));
        if let Some((at, keep)) = lay.seam {
            self.band(svg, at, keep, (from, to), "seam");
        }
        for (ears, end) in lay.ears.into_iter().zip([End::Front, End::Rear]) {
            let Some((line, keep)) = ears else { continue };
            // They matter from their own yoke's weld to the middle.
            let weld = if end == self.job.cut.end { to } else { from };
            for at in [line, line + degrees(180.0)] {
                self.band(svg, at, keep, ((from + to) * 0.5, weld), "ear");
            }
        }
    }

    /// A part of the clock over a length of the tube; what goes past 12 goes on at the other edge.
    fn band(&self, svg: &mut Svg, at: Angle, keep: Angle, along: (Length, Length), word: &str) {
        let (one, other) = (self.y(along.0), self.y(along.1));
        let (from, to) = (one.min(other), one.max(other));
        let half = WIDTH * as_degrees(keep) / 360.0;
        let x = Sheet::x(at);
        for shift in [-WIDTH, 0.0, WIDTH] {
            let left = (x + shift - half).max(LEFT);
            let right = (x + shift + half).min(LEFT + WIDTH);
            if left < right {
                svg.hatch(Pen::Ghost, (left, from), (right, to), false);
            }
        }
        svg.line(Pen::Thin, (x, from), (x, to));
        let anchor = Sheet::anchor(x);
        let beside = if anchor == Anchor::End { -half - 5.0 } else { half + 5.0 };
        svg.text(Pen::Thin, (x + beside, (from + to) / 2.0), anchor, word);
    }

    /// Words beside a place stay on the sheet.
    fn anchor(x: f64) -> Anchor {
        if x > LEFT + 0.75 * WIDTH { Anchor::End } else { Anchor::Start }
    }

    /// A mark's radius: its area goes with the mass.
    fn radius(&self, mass: f64) -> f64 {
        SMALLEST + (LARGEST - SMALLEST) * (mass / self.heaviest).sqrt()
    }

    /// Old places and new ones.
    fn weights(&self, svg: &mut Svg) {
        for logged in &self.lay.old {
            let at = (Sheet::x(logged.weight.at), self.y(logged.distance));
            svg.circle(Pen::Ghost, at, self.radius(logged.weight.mass.base()), false);
        }
        for one in &self.lay.new {
            let Some(weight) = one.weight else { continue };
            let at = (Sheet::x(weight.at), self.y(one.distance));
            for logged in &one.of {
                svg.line(Pen::Thin, (Sheet::x(logged.weight.at), self.y(logged.distance)), at);
            }
            // Where it must not stand itself, the two that do its work.
            let mut named: Option<(f64, f64)> = None;
            for told in self.lay.told.iter().filter(|told| told.name == one.name) {
                let (x, y) = (Sheet::x(told.clock), self.y(told.distance));
                let radius = self.radius(told.mass.base());
                svg.circle(Pen::Accent, (x, y), radius, true);
                // Two that do one's work bear its name once where their words would lie on each other.
                let near = |(at, down): (f64, f64)| (at - x).abs() < WORD && (down - y).abs() < ROW;
                if named.is_some_and(near) {
                    continue;
                }
                named = Some((x, y));
                let anchor = Sheet::anchor(x);
                let beside = if anchor == Anchor::End { -radius - 5.0 } else { radius + 5.0 };
                svg.text(Pen::Part, (x + beside, y + 7.0), anchor, &number(one));
            }
        }
    }
}
