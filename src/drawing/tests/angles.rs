//! Drawings of the angles, read back from their own text.
#![cfg(test)]

use super::reader::{Piece, complaints, pieces};
use crate::drawing::{line_views, speed_curve, turn_curve};
use crate::job::{BEFORE_TACKING, Choice, Display, Entry, Job, PlanBy, ShaftBy, sample};
use crate::quantity::{
    Base, as_kilometres_per_hour, as_miles_per_hour, as_radians_per_second_squared, as_rpm,
    turn_rate_squared,
};
use crate::stage::angles::{At, attitude, growth, line};

const LEVEL: Entry = Entry::FrontLevel(BEFORE_TACKING, 0);
const REAR_LEVEL: Entry = Entry::RearLevel(BEFORE_TACKING, 0);

/// The sample with these slopes read, no phase and the pinion still under power, and other entries.
fn lying(slopes: [&str; 3], more: &[(Entry, &str)]) -> Job {
    let mut job = sample();
    job.angles = Job::default().angles;
    job.angles.shaft_by = ShaftBy::Read;
    job.phase.sittings = Default::default();
    let [gearbox, shaft, pinion] = slopes;
    for (entry, text) in [
        (Entry::GearboxSlope(0), gearbox),
        (Entry::ShaftSlopeRead(0), shaft),
        (Entry::PinionSlope(0), pinion),
        (Entry::PowerRise, "0"),
        (Entry::PinionArm, "0"),
        (LEVEL, "0"),
        (REAR_LEVEL, "0"),
    ] {
        job.put(entry, text);
    }
    for (entry, text) in more {
        job.put(*entry, text);
    }
    job
}

/// The same with the rear joint beside the front one.
fn beside(offset: &str, mut job: Job) -> Job {
    job.angles.plan_by = PlanBy::Offset;
    job.put(Entry::SideOffset, offset);
    job
}

fn in_millimetres(mut job: Job) -> Job {
    job.display = Display::Millimetre;
    job
}

const USUAL: [&str; 3] = ["3.5", "6", "3.2"];
const LEVEL_LINE: [&str; 3] = ["0", "0", "0"];

fn jobs() -> Vec<(&'static str, Job)> {
    let road = (Entry::RoadSpeed, "75 mph");
    vec![
        ("usual", lying(USUAL, &[])),
        ("usual-mph", lying(USUAL, &[road])),
        ("usual-kmh", in_millimetres(lying(USUAL, &[road]))),
        ("usual-rise", lying(USUAL, &[(Entry::PowerRise, "2")])),
        ("beside", beside("3", lying(USUAL, &[(REAR_LEVEL, "2")]))),
        ("beside-left", beside("-3", lying(USUAL, &[(REAR_LEVEL, "2")]))),
        ("beside-far", beside("-20", lying(["-12", "25", "-3"], &[]))),
        ("level", lying(LEVEL_LINE, &[])),
        ("level-mph", lying(LEVEL_LINE, &[road])),
        ("big", lying(["0", "15", "-5"], &[])),
        ("big-fast", lying(["0", "15", "-5"], &[(Entry::TopSpeed, "20000")])),
        ("up", lying(["-4", "-20", "3"], &[])),
        ("slow", lying(USUAL, &[(Entry::TopSpeed, "1200")])),
        ("slow-mph", lying(USUAL, &[(Entry::TopSpeed, "1200"), road])),
        ("low-limits", lying(USUAL, &[(Entry::TorsionalLimit, "20"), (Entry::InertiaLimit, "30")])),
        (
            "far-below",
            lying(["0", "15", "-5"], &[(Entry::TorsionalLimit, "60"), (Entry::InertiaLimit, "100")]),
        ),
        ("wide-limits", lying(USUAL, &[(Entry::TorsionalLimit, "20"), (Entry::InertiaLimit, "10000")])),
        ("one-limit", lying(["0", "8", "-4"], &[(Entry::InertiaLimit, "400")])),
        ("slight", lying(["0.1", "0.3", "0.15"], &[])),
        ("parallel", lying(["3", "6", "3"], &[])),
        ("nearly", lying(["2", "7", "2.05"], &[])),
        (
            "steep",
            lying(["30", "-10", "30"], &[(Entry::TopSpeed, "20000"), (Entry::TorsionalLimit, "20")]),
        ),
    ]
}

fn drawings(job: &Job) -> Vec<(&'static str, String)> {
    [("turn", turn_curve(job)), ("speed", speed_curve(job)), ("line", line_views(job))]
        .into_iter()
        .filter_map(|(what, svg)| Some((what, svg?)))
        .collect()
}

/// Writes every drawing of every job to the folder for short-lived files, to be looked at.
#[test]
#[ignore = "for the eye"]
fn dump() {
    let folder = std::env::temp_dir().join("shaftwright-angles");
    std::fs::create_dir_all(&folder).unwrap();
    for (name, job) in jobs() {
        for (what, svg) in drawings(&job) {
            std::fs::write(folder.join(format!("{what}--{name}.svg")), svg).unwrap();
        }
    }
}

/// Whether a stroke from one place to another goes through a box.
fn goes_through(from: (f64, f64), to: (f64, f64), [left, top, right, bottom]: [f64; 4]) -> bool {
    // The part of the stroke that lies between two parallel sides, then between the other two.
    let (mut begins, mut ends) = (0.0_f64, 1.0_f64);
    for (at, by, least, most) in
        [(from.0, to.0 - from.0, left, right), (from.1, to.1 - from.1, top, bottom)]
    {
        if by.abs() < 1e-9 {
            if at < least || at > most {
                return false;
            }
            continue;
        }
        let (one, other) = ((least - at) / by, (most - at) / by);
        (begins, ends) = (begins.max(one.min(other)), ends.min(one.max(other)));
    }
    begins < ends
}

/// Texts that a stroke goes through.
fn struck_out(svg: &str) -> Vec<String> {
    let (_, _, all) = pieces(svg);
    let mut wrong = Vec::new();
    for text in all.iter().filter(|piece| piece.tag == "text") {
        // The wide face's side and the room over small letters may be touched.
        let [left, top, right, bottom] = text.bounds();
        let letters = [left + 3.0, top + 2.0, right - 3.0, bottom - 4.0];
        for piece in all.iter().filter(|piece| piece.tag == "line" || piece.tag == "path") {
            for stroke in piece.points.windows(2) {
                // A path that lifts its pen is taken for one stroke: no text may lie there either.
                if goes_through(stroke[0], stroke[1], letters) {
                    wrong.push(format!("{:?} goes through {}", stroke, text.text));
                }
            }
        }
        for circle in all.iter().filter(|piece| piece.tag == "circle") {
            let [left, top, right, bottom] = circle.bounds();
            if left < letters[2] && right > letters[0] && top < letters[3] && bottom > letters[1] {
                wrong.push(format!("a round lies on {}", text.text));
            }
        }
    }
    wrong
}

#[test]
fn nothing_leaves_the_frame_or_lies_on_a_text() {
    for (name, job) in jobs() {
        assert_eq!(drawings(&job).len(), 3, "{name}");
        for (what, svg) in drawings(&job) {
            assert_eq!(complaints(&svg), Vec::<String>::new(), "{what} of {name}");
            assert_eq!(struck_out(&svg), Vec::<String>::new(), "{what} of {name}");
        }
    }
}

#[test]
fn nor_does_it_for_entries_by_luck() {
    // A linear congruential generator with the constants of Knuth's MMIX (from memory), a fixed seed.
    let mut seed: u64 = 11;
    let mut luck = |most: usize| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) as usize % most
    };
    let slopes =
        ["0", "0.01", "-0.4", "1", "3.33", "6", "-9", "15", "-22.5", "30", "-30", "90", "x", ""];
    let limits = ["20", "25", "100", "399.5", "400", "1000", "9999", "10000", "1e9", "-3"];
    let speeds = ["100", "137", "1200", "4200", "9999", "20000", "0", "<b>"];
    let roads = ["", "3.2 mph", "8 km/h", "62 mph", "180 km/h", "310 mph", "-1", "1e300"];
    let sides = ["0", "1/16", "-3", "12", "-23.6", "600 mm", "?"];
    let (mut drawn, all) = ([0; 3], jobs());
    for _ in 0..3000 {
        let mut job = all[luck(all.len())].1.clone();
        job.display = Display::ALL[luck(Display::ALL.len())];
        job.angles.plan_by = PlanBy::ALL[luck(PlanBy::ALL.len())];
        for (entry, texts) in [
            (Entry::GearboxSlope(0), &slopes[..]),
            (Entry::ShaftSlopeRead(0), &slopes[..]),
            (Entry::PinionSlope(0), &slopes[..]),
            (Entry::GearboxPlan, &slopes[..]),
            (Entry::ShaftPlan, &slopes[..]),
            (Entry::PinionPlan, &slopes[..]),
            (Entry::PowerRise, &slopes[..]),
            (REAR_LEVEL, &slopes[..]),
            (Entry::SideOffset, &sides[..]),
            (Entry::TorsionalLimit, &limits[..]),
            (Entry::InertiaLimit, &limits[..]),
            (Entry::TopSpeed, &speeds[..]),
            (Entry::RoadSpeed, &roads[..]),
        ] {
            if luck(4) == 0 {
                job.put(entry, texts[luck(texts.len())]);
            }
        }
        for (what, svg) in drawings(&job) {
            let about = || format!("{what}: {svg}");
            assert_eq!(complaints(&svg), Vec::<String>::new(), "{}", about());
            assert_eq!(struck_out(&svg), Vec::<String>::new(), "{}", about());
            drawn[["turn", "speed", "line"].iter().position(|name| *name == what).unwrap()] += 1;
        }
    }
    assert!(drawn.iter().all(|count| *count > 500), "{drawn:?}");
}

#[test]
fn nothing_is_drawn_of_what_is_not_known() {
    for job in [Job::default(), lying(["", "6", "3"], &[]), lying(["30", "-30", "0"], &[])] {
        assert!(drawings(&job).is_empty());
    }
    let no_speed = [Entry::TopSpeed, Entry::EngineLimit, Entry::RoadTop].map(|entry| (entry, ""));
    let no_speed = lying(USUAL, &no_speed);
    assert!(speed_curve(&no_speed).is_none() && turn_curve(&no_speed).is_some());
}

/// A number as it is shown.
fn number(text: &str) -> Option<f64> {
    text.trim_end_matches('°').replace('−', "-").parse().ok()
}

/// What the numbers of a scale make of a place: value of the first, and value a pixel.
struct Scale {
    at: f64,
    value: f64,
    a_pixel: f64,
}

impl Scale {
    fn of(mut marks: Vec<(f64, f64)>) -> Scale {
        marks.sort_by(|one, other| one.0.total_cmp(&other.0));
        let (first, last) = (marks[0], marks[marks.len() - 1]);
        assert!(marks.len() > 1 && marks.len() < 8, "{marks:?}");
        Scale { at: first.0, value: first.1, a_pixel: (last.1 - first.1) / (last.0 - first.0) }
    }

    fn read(&self, place: f64) -> f64 {
        self.value + (place - self.at) * self.a_pixel
    }
}

/// Both scales of a graph by their numbers, along the foot and upright.
fn scales(all: &[Piece], ends: &str) -> (Scale, Scale) {
    let texts = || all.iter().filter(|piece| piece.tag == "text");
    let upright = texts().filter(|piece| piece.anchor == "end" && piece.points[0].0 < 80.0);
    let upright = upright.map(|piece| (piece.points[0].1 - 7.0, number(&piece.text).unwrap()));
    let foot = texts().filter(|piece| piece.anchor == "middle" && piece.text.ends_with(ends));
    let foot: Vec<(f64, f64)> =
        foot.filter_map(|piece| Some((piece.points[0].0, number(&piece.text)?))).collect();
    (Scale::of(foot), Scale::of(upright.collect()))
}

fn curves<'a>(all: &'a [Piece], class: &str, points: usize) -> Vec<&'a Piece> {
    all.iter().filter(|p| p.tag == "path" && p.class == class && p.points.len() == points).collect()
}

#[test]
fn the_turn_is_drawn_as_it_runs() {
    // A law: what the scales make of each drawn point is the ratio at that moment.
    for (name, job) in jobs() {
        let (_, _, all) = pieces(&turn_curve(&job).unwrap());
        let (along, upright) = scales(&all, "°");
        let moments = line(&job, At::Power).unwrap().turn(72);
        let most = 0.051 * (along.a_pixel.abs() + upright.a_pixel.abs());
        for (class, of_pinion) in [("thin", false), ("accent", true)] {
            let drawn = curves(&all, class, 73);
            assert_eq!(drawn.len(), 1, "{name}");
            for (i, (x, y)) in drawn[0].points.iter().enumerate() {
                let moment = moments[i % 72];
                let ratio = if of_pinion { moment.pinion_ratio } else { moment.shaft_ratio };
                assert!((along.read(*x) - 5.0 * i as f64).abs() < most, "{name}, {i}");
                assert!((upright.read(*y) - 100.0 * (ratio - 1.0)).abs() < most, "{name}, {i}");
            }
        }
    }
    let words = |slopes| turn_curve(&lying(slopes, &[])).unwrap();
    assert!(words(LEVEL_LINE).contains(">shaft even<") && words(LEVEL_LINE).contains(">pinion even<"));
    // Definition: from cos β to its inverse; (1/cos 2.5° − cos 2.5°)/2 = 0.0953 %.
    assert!(words(["3.5", "6", "3.2"]).contains(">shaft ±0.095 %<"), "{}", words(USUAL));
}

#[test]
fn shakes_are_drawn_as_they_grow_and_marked_at_their_limits() {
    let mut marked = 0;
    for (name, job) in jobs() {
        let (_, _, all) = pieces(&speed_curve(&job).unwrap());
        let (along, upright) = scales_of_speed(&all);
        let growth = growth(&job).unwrap();
        let bounds = growth.bounds;
        let top = match growth.road {
            None => as_rpm(bounds.top),
            Some(road) if job.display.is_inch() => as_miles_per_hour(road),
            Some(road) => as_kilometres_per_hour(road),
        };
        let [shake, inertia] = [bounds.shake, bounds.inertia].map(as_radians_per_second_squared);
        let highest = upright.read(40.0);
        let near = |one: f64, other: f64, room: f64| (one - other).abs() < room;
        let square = turn_rate_squared(bounds.top) / (top * top);
        for (class, gain, limit) in [
            ("accent", growth.pinion, shake),
            ("thin", growth.shaft[0], inertia),
            ("ghost", growth.shaft[1], inertia),
        ] {
            let drawn = curves(&all, class, 25);
            assert_eq!(drawn.len(), 1, "{name}");
            for (x, y) in &drawn[0].points {
                // A twentieth of a pixel either way, and as much of the slope there.
                let (speed, value) = (along.read(*x), upright.read(*y));
                let slope = 2.0 * gain * square * speed * along.a_pixel;
                let room = 0.051 * (upright.a_pixel.abs() + slope.abs()) + 0.002 * value.abs();
                assert!(near(value, gain * square * speed * speed, room), "{name}: {class} {speed}");
            }
            let last = drawn[0].points[24];
            let ends = near(along.read(last.0), 1.1 * top, 0.01 * top);
            assert!(ends || near(last.1, 40.0, 0.11), "{name}: {class} ends at {last:?}");
            // The mark: there if and only if the limit is met within the graph; on the limit.
            let meets = (limit / (gain * square)).sqrt();
            let rounds: Vec<&Piece> =
                all.iter().filter(|p| p.tag == "circle" && p.class.starts_with(class)).collect();
            assert_eq!(rounds.len(), usize::from(meets <= 1.1 * top), "{name}: {class}");
            for round in rounds {
                marked += 1;
                assert!(near(along.read(round.points[0].0), meets, 0.003 * top), "{name}: {class}");
                assert!(near(upright.read(round.points[0].1), limit, 0.003 * highest), "{name}");
                let said = format!("{meets:.0}");
                assert!(all.iter().any(|piece| piece.text == said), "{name}: {said} is not said");
            }
        }
        for (class, limit) in [("accent", shake), ("part", inertia)] {
            let level = all.iter().find(|p| {
                p.tag == "line" && p.class == class && p.points[0].0 == 80.0 && p.points[1].0 > 300.0
            });
            assert!(near(upright.read(level.unwrap().points[0].1), limit, 0.003 * highest), "{name}");
            assert!(all.iter().any(|piece| piece.text == format!("{limit:.0}")), "{name}");
        }
    }
    assert!(marked > 20, "{marked}");
}

/// Both scales of that graph: the speeds at marks hang above the numbers of the foot.
fn scales_of_speed(all: &[Piece]) -> (Scale, Scale) {
    let texts = || all.iter().filter(|piece| piece.tag == "text" && piece.anchor == "middle");
    let foot = texts().map(|piece| piece.points[0].1).fold(0.0, f64::max);
    let marks = texts().filter(|piece| piece.points[0].1 == foot);
    let along = marks.map(|piece| (piece.points[0].0, number(&piece.text).unwrap())).collect();
    let ends = |p: &&Piece| p.tag == "text" && p.anchor == "end" && p.points[0].0 < 80.0;
    let numbers = all.iter().filter(ends);
    let upright = numbers.map(|p| (p.points[0].1 - 7.0, number(&p.text).unwrap())).collect();
    (Scale::of(along), Scale::of(upright))
}

#[test]
fn the_line_leans_as_it_does_times_what_is_said() {
    let (mut above, mut said) = (0, Vec::new());
    for (name, job) in jobs() {
        let svg = line_views(&job).unwrap();
        let (_, _, all) = pieces(&svg);
        let stands = attitude(&job, At::Ride).unwrap();
        let axes = [stands.gearbox, stands.shaft, stands.pinion];
        let not_straight = job.angles.plan_by != PlanBy::Straight;
        assert_eq!(svg.contains("seen from above"), not_straight, "{name}");
        above += usize::from(not_straight);
        // The views one below the other, each with its own words.
        let head = |words: &str| {
            all.iter().find(|piece| piece.text.starts_with(words)).map(|piece| piece.points[0].1)
        };
        let ends = head("seen from above").unwrap_or(1e9);
        let views = [(0.0, ends, 0), (ends, 1e9, 1)];
        for (from, to, view) in views.into_iter().take(1 + usize::from(not_straight)) {
            let here = || all.iter().filter(|p| p.points[0].1 >= from && p.points[0].1 < to);
            let times = here()
                .find_map(|piece| piece.text.strip_prefix("angles drawn ×"))
                .map_or(1.0, |times| times.parse().unwrap());
            said.push(times);
            let lines: Vec<&Piece> = here().filter(|p| p.tag == "line" && p.class == "part").collect();
            assert_eq!(lines.len(), 4, "{name}");
            for (axis, line) in [(0, lines[0]), (1, lines[1]), (1, lines[2]), (2, lines[3])] {
                let ((x, y), (u, v)) = (line.points[0], line.points[1]);
                // Down to the right as it falls toward the rear; up as it goes to the vehicle's right.
                let leans = if view == 0 {
                    axes[axis].slope.base().tan()
                } else {
                    -axes[axis].plan.base().tan()
                };
                let miss = (v - y) / (u - x) - times * leans;
                assert!(miss.abs() < 0.11 / (u - x), "{name}: {axis} misses by {miss}");
            }
        }
    }
    assert!(
        above == 3 && said.contains(&1.0) && said.contains(&2.0) && said.contains(&10.0),
        "{said:?}"
    );
    let svg = line_views(&lying(USUAL, &[])).unwrap();
    // In one plane the joints are the slopes' differences.
    for words in [">+3.50°<", ">+6.00°<", ">+3.20°<", ">joint 2.50°<", ">joint 2.80°<", "from the side"]
    {
        assert!(svg.contains(words), "{words}: {svg}");
    }
    assert!(!line_views(&lying(LEVEL_LINE, &[])).unwrap().contains("drawn"));
}
