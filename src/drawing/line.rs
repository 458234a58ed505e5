//! Gearbox, shaft and pinion from the side and from above, at ride.

use super::pieces::{MARGIN, WIDTH, cross};
use super::svg::{Anchor, Pen, Svg};
use crate::job::Job;
use crate::quantity::{Angle, Base, as_degrees, show_angle};
use crate::stage::angles::{At, attitude, line};

/// Places along the vehicle: the gearbox's ends, the joints, the axle.
const NOSE: f64 = MARGIN;
const TAIL: f64 = 58.0;
const FRONT: f64 = 118.0;
const REAR: f64 = 362.0;
const AXLE: f64 = 446.0;
/// Half the gearbox's height, and the axle's.
const HOUSING: f64 = 22.0;
const TUBE: f64 = 7.0;
/// How many times steeper it may be drawn.
const STEEPER: [(f64, &str); 4] = [
    (10.0, "angles drawn ×10"),
    (5.0, "angles drawn ×5"),
    (3.0, "angles drawn ×3"),
    (2.0, "angles drawn ×2"),
];
/// How steep (a tangent) that may make it: alone, and as one of two views, lest the picture grow high.
const STEEPEST: [f64; 2] = [0.34, 0.22];
/// Half a joint, and half the widest figure.
const JOINT: f64 = 14.0;
const FIGURE: f64 = 46.0;
/// Radians below which nothing leans.
const LEVEL: f64 = 1e-6;
const ROW: f64 = 25.0;
/// Two rows of words over what they stand on.
const WORDS: f64 = 2.0 * ROW + 8.0;

/// A view: its words, how its three axes lean in it, + down toward the right, with their figures, and
/// the joints' angles.
struct View {
    words: &'static str,
    leans: [f64; 3],
    figures: [String; 3],
    joints: Option<[Angle; 2]>,
}

/// The line from the side, and from above where it is not straight there. `None` while the angles are
/// not known.
pub fn line_views(job: &Job) -> Option<String> {
    let stands = attitude(job, At::Ride)?;
    let line = line(job, At::Ride)?;
    let all = [stands.gearbox, stands.shaft, stands.pinion];
    let side = View {
        words: "seen from the side, front left",
        leans: all.map(|axis| axis.slope.base().tan()),
        figures: all.map(|axis| signed(axis.slope)),
        joints: Some([line.front_joint(), line.rear_joint()]),
    };
    let mut views = vec![side];
    if all.iter().any(|axis| axis.plan.base().abs() > LEVEL) {
        views.push(View {
            words: "seen from above, front left",
            // The front is left, so the vehicle's right is up.
            leans: all.map(|axis| -axis.plan.base().tan()),
            figures: all.map(|axis| signed(axis.plan)),
            joints: None,
        });
    }
    let [alone, of_two] = STEEPEST;
    let steepest = if views.len() > 1 { of_two } else { alone };
    let height = views.iter().map(|view| view.laid_out(0.0, steepest).height).sum::<f64>();
    if !height.is_finite() {
        return None;
    }
    let mut svg = Svg::new(WIDTH, height);
    let mut top = 0.0;
    for view in &views {
        top += view.draw(&mut svg, top, steepest);
    }
    Some(svg.finish())
}

/// An angle with its sign.
fn signed(angle: Angle) -> String {
    let plus = if as_degrees(angle) >= 0.005 { "+" } else { "" };
    format!("{plus}{}", show_angle(angle, 2))
}

/// A view's places, down from its own top.
struct LaidOut {
    steeper: Option<&'static str>,
    /// How its axes lean as they are drawn.
    leans: [f64; 3],
    /// The gearbox's ends, the joints, the axle.
    nose: f64,
    tail: f64,
    front: f64,
    rear: f64,
    axle: f64,
    /// What the words of each axis stand on.
    under_words: [f64; 3],
    /// Below all that is drawn.
    foot: f64,
    height: f64,
}

impl View {
    fn laid_out(&self, top: f64, steepest: f64) -> LaidOut {
        let most = self.leans.iter().fold(0.0_f64, |most, lean| most.max(lean.abs()));
        let steeper = STEEPER.into_iter().find(|(times, _)| most > LEVEL && most * times < steepest);
        let (times, steeper) = match steeper {
            Some((times, words)) => (times, Some(words)),
            None => (1.0, None),
        };
        let leans = self.leans.map(|lean| lean * times);
        let [gearbox, shaft, pinion] = leans;
        let places = |front: f64| {
            let (nose, tail) = (front - (FRONT - NOSE) * gearbox, front - (FRONT - TAIL) * gearbox);
            let rear = front + (REAR - FRONT) * shaft;
            [nose, tail, rear, rear + (AXLE - REAR) * pinion]
        };
        let words = |front: f64| {
            let [nose, tail, rear, axle] = places(front);
            let middle = 0.5 * (front + rear) - TUBE - FIGURE * shaft.abs();
            // Words at the edges reach over a box and a piece of the axis beside it.
            let beside = FRONT - MARGIN - 2.0 * FIGURE;
            [
                (nose.min(tail) - HOUSING).min(front - beside * gearbox - 4.0),
                middle,
                (axle - HOUSING).min(rear + beside * pinion - 4.0),
            ]
        };
        let [nose, tail, rear, axle] = places(0.0);
        let highest = words(0.0).into_iter().fold(0.0, f64::min).min(rear - JOINT + WORDS);
        let lowest = (nose.max(tail).max(axle) + HOUSING).max(rear.max(0.0) + JOINT);
        let front = top + ROW + WORDS - highest;
        let foot = front + lowest;
        let rows = f64::from(u8::from(self.joints.is_some()) + u8::from(steeper.is_some()));
        let height = foot + rows * ROW + 12.0 - top;
        let [nose, tail, rear, axle] = places(front);
        let under_words = words(front);
        LaidOut { steeper, leans, nose, tail, front, rear, axle, under_words, foot, height }
    }

    /// Draws it from `top` down; gives how high it is.
    fn draw(&self, svg: &mut Svg, top: f64, steepest: f64) -> f64 {
        let LaidOut { steeper, leans, nose, tail, front, rear, axle, under_words, foot, height } =
            self.laid_out(top, steepest);
        svg.text(Pen::Thin, (MARGIN, top + 21.0), Anchor::Start, self.words);
        let mut gearbox = [(NOSE, nose), (TAIL, tail), (TAIL, tail), (NOSE, nose), (NOSE, nose)];
        for ((_, y), by) in gearbox.iter_mut().zip([-HOUSING, -HOUSING, HOUSING, HOUSING, -HOUSING]) {
            *y += by;
        }
        svg.path(Pen::Part, &gearbox, false);
        svg.line(Pen::Part, (TAIL, tail), (FRONT, front));
        let [_, shaft, _] = leans;
        for half in [-TUBE, TUBE] {
            let (begins, ends) = (front + 10.0 * shaft + half, rear - 10.0 * shaft + half);
            svg.line(Pen::Part, (FRONT + 10.0, begins), (REAR - 10.0, ends));
        }
        svg.circle(Pen::Part, (AXLE, axle), HOUSING, false);
        svg.line(Pen::Part, (REAR, rear), (AXLE, axle));
        let names = ["gearbox", "shaft", "pinion"];
        let places =
            [(MARGIN, Anchor::Start), (0.5 * WIDTH, Anchor::Middle), (WIDTH - MARGIN, Anchor::End)];
        for (((name, figure), (x, anchor)), under) in
            names.iter().zip(&self.figures).zip(places).zip(under_words)
        {
            svg.text(Pen::Thin, (x, under - 8.0 - ROW), anchor, name);
            svg.text(Pen::Thin, (x, under - 8.0), anchor, figure);
        }
        for (x, y) in [(FRONT, front), (REAR, rear)] {
            svg.circle(Pen::Part, (x, y), 9.0, false);
            cross(svg, Pen::Thin, x, y);
        }
        let mut row = foot + ROW;
        if let Some([one, other]) = self.joints {
            for (x, y, angle) in [(FRONT, front, one), (REAR, rear, other)] {
                svg.line(Pen::Ghost, (x, y + JOINT), (x, row - 20.0));
                svg.text(
                    Pen::Thin,
                    (x, row),
                    Anchor::Middle,
                    &format!("joint {}", show_angle(angle, 2)),
                );
            }
            row += ROW;
        } else {
            svg.text(Pen::Thin, (WIDTH - MARGIN, top + 21.0), Anchor::End, "right ↑");
        }
        if let Some(words) = steeper {
            svg.text(Pen::Thin, (0.5 * WIDTH, row), Anchor::Middle, words);
        }
        height
    }
}
