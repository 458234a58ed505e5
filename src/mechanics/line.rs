//! Line: gearbox, shaft and pinion with a joint between each two, and how evenly they turn together.
//!
//! x runs rearward, y to the right looking forward, z up; every axis points rearward. Turns are clockwise
//! seen from the rear, that is, right-handed about −x.

use core::f64::consts::{FRAC_PI_2, FRAC_PI_4, TAU};

use super::space::Vector;
use super::uneven::{Uneven, greatest_gain, ratios};
use crate::quantity::{
    Angle, AngularAcceleration, AngularVelocity, Base, half_open_half_turn, turn_rate_squared,
};

#[cfg(test)]
mod tests;

/// How far below 45° a joint counts as being there, in radians: a last bit.
const LAST_BIT: f64 = 1e-12;
/// A joint straighter than this, in radians, has no plane.
const STRAIGHT: f64 = 1e-6;
/// Halvings of the bracket for a joint of a gain: its width falls below the last bits.
const HALVINGS: u32 = 60;

/// Where an axis points: a unit vector.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction(Vector);

impl Direction {
    /// The direction of an axis seen with this slope from the side and this plan angle from above.
    ///
    /// Formula: d ∝ (1, tan κ, −tan σ).
    /// Symbols: σ slope, + falling toward the rear; κ plan angle, + going right as it runs rearward.
    /// Range: `None` unless |σ|, |κ| < 90°. Source: geometry. Assumes both are angles of a view square
    /// from the side and from above: a level laid on a shaft that goes off by κ reads the slope a
    /// little small, by κ²/2 of it (0.4 % at 5°).
    pub fn new(slope: Angle, plan: Angle) -> Option<Direction> {
        let (slope, plan) = (slope.base(), plan.base());
        if !(slope.abs() < FRAC_PI_2 && plan.abs() < FRAC_PI_2) {
            return None;
        }
        Vector([1.0, plan.tan(), -slope.tan()]).unit().map(Direction)
    }

    /// The way from one place to another, where that is rearward at all.
    pub(super) fn along(way: Vector) -> Option<Direction> {
        let Vector([rearward, ..]) = way;
        if rearward > 0.0 { way.unit().map(Direction) } else { None }
    }

    /// The unit vector.
    pub(super) fn vector(self) -> Vector {
        self.0
    }

    /// The angle between two axes, from 0° to 180°.
    ///
    /// Formula: β = atan2(|a × b|, a·b), which keeps its figures where the two are nearly one.
    /// Symbols: a, b unit vectors. Source: vector geometry.
    pub fn angle_to(self, other: Direction) -> Angle {
        Angle::from_base(self.0.cross(other.0).size().atan2(self.0.dot(other.0)))
    }

    /// Slope in the side view, + falling toward the rear: σ = atan2(−z, x).
    pub fn slope(self) -> Angle {
        let Vector([x, _, z]) = self.0;
        Angle::from_base((-z).atan2(x))
    }

    /// Angle in the plan view, + going right as it runs rearward: κ = atan2(y, x).
    pub fn plan(self) -> Angle {
        let Vector([x, y, _]) = self.0;
        Angle::from_base(y.atan2(x))
    }
}

/// One of the two joints of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum JointAt {
    /// Between gearbox and shaft.
    Front,
    /// Between shaft and pinion.
    Rear,
}

/// A joint at or past 45°: no cardan joint of a road vehicle works there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TooSharp {
    /// Which joint.
    pub joint: JointAt,
    /// Its angle.
    pub angle: Angle,
}

/// Gearbox, shaft and pinion with the yokes' phase.
///
/// Formula: a joint lays the line through its driving ears down on the plane across the driven shaft and
/// turns it a quarter: e₁ ∝ a₁ × e₀, f₁ is e₁ turned by ψ about a₁, f₂ ∝ a₂ × f₁; so ω₁/ω₀ =
/// (a₀·a₁)/(1 − (a₁·e₀)²) and ω₂/ω₁ = (a₁·a₂)/(1 − (a₂·f₁)²), e₀, e₁, f₁ of length 1. Each step is
/// linear, and linear steps in a row pass a turn on as one joint does. With kⱼ = ((u + i·r)/(1 + c))²,
/// c the cosine and u, r the parts across the shaft (up, and a quarter turn clockwise from there) of the
/// gearbox's axis (k₁) and the pinion's (k₂), the shaft turns against the gearbox as behind a joint
/// k = k₁, and the pinion as behind k = (k₁ − q)/(1 − k̄₁·q), q = k₂·e^(−2iψ), of size t = |k| =
/// tan²(β/2). With w = k·e^(−2iθ): ratio (1 − t²)/|1 − w|², lead the angle of 1 − w.
/// Symbols: a₀, a₁, a₂ unit axes of gearbox, shaft, pinion; e₀, e₁, f₁, f₂ ears' lines; ψ phase, the turn
/// of the shaft's rear yoke against its front one; θ turn of the gearbox's yoke; ω speeds.
/// Source: Machinery's Handbook, universal joints, for the one joint (any planes: vector form of the
/// same); joints in a row as one are derived here, and held against the vectors step by step in the
/// tests. Assumes rigid shafts, joints without play, and ears square to their shafts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    gearbox: Direction,
    shaft: Direction,
    pinion: Direction,
    phase: f64,
    /// Gearbox to shaft.
    first: Uneven,
    /// Pinion to shaft.
    last: Uneven,
    /// Gearbox to pinion.
    whole: Uneven,
}

/// The line at one place of the gearbox's turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// The turn of the gearbox's yoke.
    pub turn: Angle,
    /// Shaft speed over gearbox speed.
    pub shaft_ratio: f64,
    /// Pinion speed over gearbox speed.
    pub pinion_ratio: f64,
    /// How far the shaft is ahead of the gearbox, less the mean over the turn.
    pub shaft_lead: Angle,
    /// How far the pinion is ahead of the gearbox, less the mean over the turn: the residual error.
    pub pinion_lead: Angle,
    /// What the shaft's ratio gains a radian of the gearbox's turn: times the square of its speed it is
    /// the shaft's angular acceleration.
    pub shaft_gain: f64,
    /// The same of the pinion.
    pub pinion_gain: f64,
}

/// Least and greatest over a turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peaks {
    /// Least and greatest shaft speed over gearbox speed.
    pub shaft_ratio: (f64, f64),
    /// Least and greatest pinion speed over gearbox speed.
    pub pinion_ratio: (f64, f64),
    /// Greatest size of the shaft's gain.
    pub shaft_gain: f64,
    /// Greatest size of the pinion's gain.
    pub pinion_gain: f64,
    /// Peak to peak of the pinion's lead.
    pub error: Angle,
}

impl Line {
    /// The line of these axes, with the shaft's rear yoke turned by `phase` against its front yoke,
    /// clockwise seen from the rear; 0 where the ears of both lie in one plane.
    ///
    /// # Errors
    /// [`TooSharp`] for the first joint at or past 45°; for the rear joint where the phase is no number,
    /// which is no line either.
    pub fn new(
        gearbox: Direction,
        shaft: Direction,
        pinion: Direction,
        phase: Angle,
    ) -> Result<Line, TooSharp> {
        let blunt = |angle: Angle| angle.base() < FRAC_PI_4 - LAST_BIT;
        let (front, rear) = (gearbox.angle_to(shaft), shaft.angle_to(pinion));
        let too_sharp = |joint, angle| Err(TooSharp { joint, angle });
        if !blunt(front) {
            return too_sharp(JointAt::Front, front);
        }
        let phase = phase.base();
        match shaft.vector().sides() {
            Some([up, right]) if blunt(rear) && phase.is_finite() => {
                let joint = |axis: Vector| {
                    Uneven::joint(axis.dot(shaft.vector()), [axis.dot(up), axis.dot(right)])
                };
                let (first, last) = (joint(gearbox.vector()), joint(pinion.vector()));
                let whole = first.then(phase, last);
                Ok(Line { gearbox, shaft, pinion, phase, first, last, whole })
            }
            _ => too_sharp(JointAt::Rear, rear),
        }
    }

    /// The angle in space between gearbox and shaft.
    pub fn front_joint(&self) -> Angle {
        self.gearbox.angle_to(self.shaft)
    }

    /// The angle in space between shaft and pinion.
    pub fn rear_joint(&self) -> Angle {
        self.shaft.angle_to(self.pinion)
    }

    /// From the front joint's plane to the rear joint's, clockwise seen from the rear, in (−90°, 90°]: the
    /// planes seen along the shaft are lines.
    ///
    /// Formula: τ = atan2(−a₁·(n₁ × n₂), n₁·n₂) as a line, n₁ = a₀ × a₁, n₂ = a₁ × a₂.
    /// Symbols: a₀, a₁, a₂ unit axes of gearbox, shaft, pinion; n₁, n₂ across the joints' planes.
    /// Range: `None` where a joint is straighter than 1e-6 rad, which has no plane.
    /// Source: vector geometry.
    pub fn twist(&self) -> Option<Angle> {
        let has_plane = |joint: Angle| joint.base() >= STRAIGHT;
        if !(has_plane(self.front_joint()) && has_plane(self.rear_joint())) {
            return None;
        }
        let shaft = self.shaft.vector();
        let one = self.gearbox.vector().cross(shaft);
        let two = shaft.cross(self.pinion.vector());
        let angle = (-shaft.dot(one.cross(two))).atan2(one.dot(two));
        Some(half_open_half_turn(Angle::from_base(angle)))
    }

    /// The one joint that would turn about as unevenly as both together: the summary of a line, to
    /// leading order. [`joint_with_gain`] of the peak gain is the exact one.
    ///
    /// Formula: βe = √|β₁² − β₂²·e^(i·2(ψ − τ))|; in one plane √|β₁² − β₂²| in phase, √(β₁² + β₂²) a
    /// quarter turn out.
    /// Symbols: β₁, β₂ joint angles in space, ψ phase, τ [`twist`](Line::twist) (0 where there is none).
    /// Source: SAE AE-7, Universal Joint and Driveshaft Design Manual, §3.1, for one plane; in space
    /// derived. Assumes small angles: two joints of 10° a quarter turn out come to 14.14°, exactly 14.11°.
    pub fn equivalent(&self) -> Angle {
        let square = |joint: Angle| joint.base() * joint.base();
        let (front, rear) = (square(self.front_joint()), square(self.rear_joint()));
        let out = self.phase - self.twist().map_or(0.0, Base::base);
        let (sin, cos) = (2.0 * out).sin_cos();
        Angle::from_base((front - rear * cos).hypot(rear * sin).sqrt())
    }

    /// The gearbox end driven by the axle, on the overrun: the ends swapped, everything else as it is. In
    /// what it gives, the pinion is called gearbox and the gearbox pinion.
    ///
    /// Formula: a₀ and a₂ change places, ψ becomes −ψ: the shaft's other yoke now drives.
    /// Exactly: the joint angles change places, phase and twist change sign (a twist of 90° stays), the
    /// shaft's peaks are those behind the rear joint, and the whole line's peaks and its equivalent angle
    /// stay as they are.
    pub fn overrun(&self) -> Line {
        let (phase, first, last) = (-self.phase, self.last, self.first);
        let whole = first.then(phase, last);
        Line { gearbox: self.pinion, pinion: self.gearbox, phase, first, last, whole, ..*self }
    }

    /// The line when the gearbox's yoke has turned by `turn`, clockwise seen from the rear, from where its
    /// ears stand upright: square to the shaft as nearly upright as the shaft lets them, and tilted from
    /// there to the gearbox's axis the shortest way.
    ///
    /// Formula and source: see [`Line`]. Range: any turn; one that is no number gives none.
    pub fn moment(&self, turn: Angle) -> Moment {
        let (shaft, pinion) = (self.first.at(turn.base()), self.whole.at(turn.base()));
        Moment {
            turn,
            shaft_ratio: shaft.ratio,
            pinion_ratio: pinion.ratio,
            shaft_lead: Angle::from_base(shaft.lead),
            pinion_lead: Angle::from_base(pinion.lead),
            shaft_gain: shaft.gain,
            pinion_gain: pinion.gain,
        }
    }

    /// So many moments evenly over one full turn of the gearbox, the first at 0.
    pub fn turn(&self, count: usize) -> Vec<Moment> {
        let step = TAU / count as f64;
        (0..count).map(|i| self.moment(Angle::from_base(step * i as f64))).collect()
    }

    /// Least and greatest over a turn, in closed form: nothing is searched for.
    ///
    /// Formula: as one joint of t = tan²(β/2), shaft and whole line alike: ratio (1 − t)/(1 + t) = cos β
    /// and its inverse; gain 4t(1 − t²)·√(1 − x²)/(1 + t² − 2t·x)² with x = cos 2γ =
    /// 8t/(1 + t² + √((1 + t²)² + 32t²)); lead 2·asin t from peak to peak.
    /// Symbols: γ turn of the driving ears from the joint's plane.
    /// Source: the one joint of Machinery's Handbook and what its derivatives make nothing; see [`Line`].
    pub fn peaks(&self) -> Peaks {
        let (shaft, pinion) = (self.first.size(), self.whole.size());
        Peaks {
            shaft_ratio: ratios(shaft),
            pinion_ratio: ratios(pinion),
            shaft_gain: greatest_gain(shaft),
            pinion_gain: greatest_gain(pinion),
            error: Angle::from_base(2.0 * pinion.asin()),
        }
    }
}

/// The angular acceleration at a gain.
///
/// Formula: α = ω²·g.
/// Symbols: ω speed of the gearbox's shaft, rad/s; g what the ratio gains a radian of its turn; α rad/s².
/// Source: chain rule. Assumes that the gearbox turns evenly.
pub fn acceleration(speed: AngularVelocity, gain: f64) -> AngularAcceleration {
    AngularAcceleration::from_base(turn_rate_squared(speed) * gain)
}

/// The one joint whose peak gain is this: the exact equivalent of a whole line from its residual.
///
/// Formula: the t = tan²(β/2) of that peak gain, see [`Line::peaks`], between g/8 and g/4 (it runs from 4t at small
/// angles to 4.6t at 45°) halved down to the last bits; β = 2·atan √t.
/// Symbols: g peak gain, rad/s² over the square of rad/s; β joint angle.
/// Range: `None` unless 0 ≤ g and β ≤ 45°. Source: as [`Line::peaks`], by bisection.
pub fn joint_with_gain(gain: f64) -> Option<Angle> {
    let sharpest = (FRAC_PI_4 / 2.0).tan().powi(2);
    if !(gain >= 0.0 && gain <= greatest_gain(sharpest)) {
        return None;
    }
    let (mut low, mut high) = (gain / 8.0, (gain / 4.0).min(sharpest));
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if greatest_gain(middle) < gain {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(Angle::from_base(2.0 * high.sqrt().atan()))
}
