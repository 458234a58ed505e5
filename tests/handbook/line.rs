//! The sums of gearbox, shaft and pinion, and the leads place by place over a turn.

use std::fs;

use shaftwright::mechanics::attitude::{Attitude, Leaning};
use shaftwright::mechanics::line::{Direction, Line, Moment, Peaks, acceleration, joint_with_gain};
use shaftwright::mechanics::mend;
use shaftwright::quantity::{
    Base, as_degrees, as_radians_per_second_squared, degrees, rpm, turn_rate_squared,
};

use super::{Given, Results, folder};

fn leaning(pair: &[f64]) -> Leaning {
    Leaning { slope: degrees(pair[0]), plan: degrees(pair[1]) }
}

fn direction(pair: &[f64]) -> Direction {
    Direction::new(degrees(pair[0]), degrees(pair[1])).unwrap()
}

fn attitude(given: &Given) -> Attitude {
    let [gearbox, shaft, pinion] =
        ["gearbox", "shaft", "pinion"].map(|name| leaning(&given.numbers(name)));
    Attitude { gearbox, shaft, pinion, phase: degrees(given.number("phase")) }
}

/// One joint: the pinion is in line with the shaft.
fn joint(angle: f64) -> Peaks {
    let [level, bent] = [[0.0, 0.0], [angle, 0.0]].map(|pair| direction(&pair));
    Line::new(level, bent, bent, degrees(0.0)).unwrap().peaks()
}

/// A single joint's ratios and gain, and its peak acceleration at a speed.
pub fn one_joint(given: &Given) -> Results {
    let peaks = joint(given.number("degrees"));
    let (least, greatest) = peaks.shaft_ratio;
    let mut results = vec![
        ("least", least),
        ("greatest", greatest),
        ("fluctuation", greatest - least),
        ("gain", peaks.shaft_gain),
        // Behind a straight joint the pinion goes with the shaft.
        ("pinion gain", peaks.pinion_gain),
    ];
    if let Some(speed) = given.0["rpm"].as_f64() {
        let peak = acceleration(rpm(speed), peaks.shaft_gain);
        results.push(("acceleration", as_radians_per_second_squared(peak)));
    }
    results
}

/// The single joint that reaches an acceleration at a speed.
pub fn joint_of_a_gain(given: &Given) -> Results {
    let gain = given.number("limit") / turn_rate_squared(rpm(given.number("rpm")));
    let angle = joint_with_gain(gain).unwrap();
    vec![("degrees", as_degrees(angle)), ("back", joint(as_degrees(angle)).shaft_gain / gain)]
}

/// ω²β², the rule of small angles.
pub fn rough_acceleration(given: &Given) -> Results {
    let angle = degrees(given.number("degrees")).base();
    let got = acceleration(rpm(given.number("rpm")), angle * angle);
    vec![("acceleration", as_radians_per_second_squared(got))]
}

/// The angle between two axes.
pub fn between(given: &Given) -> Results {
    let [one, other] = ["one", "other"].map(|name| direction(&given.numbers(name)));
    vec![("degrees", as_degrees(one.angle_to(other)))]
}

/// Everything that is said of a line.
pub fn line(given: &Given) -> Results {
    let line = attitude(given).line().unwrap();
    let peaks = line.peaks();
    let mut results = vec![
        ("front joint", as_degrees(line.front_joint())),
        ("rear joint", as_degrees(line.rear_joint())),
        ("equivalent", as_degrees(line.equivalent())),
        ("error", as_degrees(peaks.error)),
        ("least shaft ratio", peaks.shaft_ratio.0),
        ("greatest shaft ratio", peaks.shaft_ratio.1),
        ("least pinion ratio", peaks.pinion_ratio.0),
        ("greatest pinion ratio", peaks.pinion_ratio.1),
        ("shaft gain", peaks.shaft_gain),
        ("pinion gain", peaks.pinion_gain),
    ];
    results.extend(line.twist().map(|twist| ("twist", as_degrees(twist))));
    let places = given.0["places"].as_array().map(|_| given.numbers("places"));
    for place in places.unwrap_or_default() {
        let moment = line.moment(degrees(place));
        for (name, value) in [
            ("shaft ratio", moment.shaft_ratio),
            ("pinion ratio", moment.pinion_ratio),
            ("shaft gain", moment.shaft_gain),
            ("pinion gain", moment.pinion_gain),
        ] {
            results.push((format!("at {place} {name}").leak(), value));
        }
    }
    results
}

/// The phase that leaves least.
pub fn best_phase(given: &Given) -> Results {
    let found = mend::phase(&attitude(given)).unwrap();
    vec![
        ("phase", as_degrees(found.attitude.phase)),
        ("change", as_degrees(found.change)),
        ("residual", found.residual),
    ]
}

#[test]
fn every_place_of_a_turn() {
    // Derived by line_leads.py, which turns yokes until the cross's right angle is met: sixteen digits.
    let text = fs::read_to_string(folder().join("line_leads.txt")).unwrap();
    let (mut lines, mut places, mut worst) = (0, 0, 0.0_f64);
    let mut now: Option<(Line, Moment)> = None;
    for row in text.lines() {
        let numbers = |words: &str| -> Vec<f64> {
            words.split_whitespace().map(|word| word.parse().unwrap()).collect()
        };
        if let Some(given) = row.strip_prefix("line ") {
            let n = numbers(given);
            let [gearbox, shaft, pinion] = [&n[0..2], &n[2..4], &n[4..6]].map(direction);
            let line = Line::new(gearbox, shaft, pinion, degrees(n[6])).unwrap();
            // A turn begins with the first place, which is at 0.
            now = Some((line, line.moment(degrees(0.0))));
            lines += 1;
            continue;
        }
        let (n, (line, first)) = (numbers(row), now.unwrap());
        let moment = line.moment(degrees(n[0]));
        for (got, from, expected) in
            [(moment.shaft_lead, first.shaft_lead, n[1]), (moment.pinion_lead, first.pinion_lead, n[2])]
        {
            let off = ((got - from).base() - expected).abs();
            assert!(off <= 1e-9, "{row}: off by {off} in {line:?}");
            worst = worst.max(off);
        }
        places += 1;
    }
    println!("{lines} lines, {places} places, off by {worst:e} rad at most");
    assert!(lines >= 40 && places >= 24 * lines, "{lines} lines with {places} places");
}
