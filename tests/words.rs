//! What people read, word for word: the report of the sample job and of an empty one, and the sentence
//! that stands at a field when something is wrong.
//!
//! The kept texts in tests/golden are not outside values: they show, in review, every change of what is
//! read. After a wanted change: `GOLDEN=write cargo test --test words`, then read the difference.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::fs;
use std::path::Path;

use shaftwright::job::{
    CutAt, Datum, Display, Division, Entry, Guide, Job, PhaseMethod, PhaseTarget, PlanBy, Route,
    ShaftBy, ShaftKind, SquareBy, TravelBy, YokeAt, sample,
};
use shaftwright::sheet::{complaint, remark, report};
use shaftwright::stage::read;

#[path = "words/balance.rs"]
mod balance;
#[path = "words/check.rs"]
mod check;
#[path = "words/dial.rs"]
mod dial;
#[path = "words/weights.rs"]
mod weights;

fn against_golden(name: &str, text: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden").join(name);
    if std::env::var("GOLDEN").is_ok_and(|value| value == "write") {
        fs::write(&path, text).unwrap();
    }
    let kept = fs::read_to_string(&path).unwrap();
    for (line, (got, kept)) in text.lines().zip(kept.lines()).enumerate() {
        assert_eq!(got, kept, "{name}, line {}", line + 1);
    }
    assert_eq!(text.lines().count(), kept.lines().count(), "{name}");
}

#[test]
fn reports() {
    against_golden("sample.txt", &report(&sample()));
    against_golden("empty.txt", &report(&Job::new(Display::Millimetre)));
    let mut lengthened = sample();
    for reading in 0..3 {
        lengthened.put(Entry::WantedReading(reading), "59-1/4");
    }
    lengthened.display = Display::Millimetre;
    against_golden("lengthened-in-mm.txt", &report(&lengthened));
}

/// The sample with these fields changed.
fn with(fields: &[(Entry, &str)]) -> Job {
    let mut job = sample();
    fields.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

/// The sample tacked and not yet welded, with these fields changed.
fn tacked(fields: &[(Entry, &str)]) -> Job {
    let mut job = with(&[(Entry::FrontLevel(2, 0), ""), (Entry::RearLevel(2, 0), "")]);
    fields.iter().for_each(|(entry, text)| job.put(*entry, text));
    job
}

/// The sample with its wanted length taken from the ends.
fn from_ends(kind: ShaftKind, route: Route, ends: [&str; 3]) -> Job {
    let mut job = with(&[(Entry::FrontDepth, "2-3/8"), (Entry::RearDepth, "2-1/8")]);
    (job.measure.kind, job.measure.route) = (kind, route);
    for (reading, text) in ends.into_iter().enumerate() {
        job.put(Entry::EndsReading(reading), text);
    }
    job
}

#[test]
fn reports_of_other_kinds_of_shaft() {
    let flanged = from_ends(ShaftKind::Flanged, Route::Ends, ["60", "60-1/32", "60"]);
    against_golden("flanged.txt", &report(&flanged));
    let mut both = from_ends(ShaftKind::SlipOnShaft, Route::Both, ["57-7/8", "57-29/32", "57-7/8"]);
    both.measure.yoke_at = YokeAt::Bottomed;
    both.measure.old_datum.front = Datum::OuterSeat;
    both.put(Entry::FrontCup, "1-1/16");
    // Laid off as the shaft lies on the bench, its slip pushed in as it was measured.
    both.put(Entry::WeldLine, "53-5/16");
    against_golden("slip-on-shaft.txt", &report(&both));
}

/// Three readings of the pinion's slope.
fn pinion(texts: [&'static str; 3]) -> [(Entry, &'static str); 3] {
    let [one, two, three] = texts;
    [(Entry::PinionSlope(0), one), (Entry::PinionSlope(1), two), (Entry::PinionSlope(2), three)]
}

/// What goes wrong, each alone, with the job that it goes wrong in.
fn mishaps() -> Vec<(&'static str, Job)> {
    let mut all = vec![
        ("a misread tape", with(&[(Entry::OldReading(2), "4' 10-5/16\"")])),
        (
            "two readings that differ",
            with(&[(Entry::WantedReading(0), "56"), (Entry::WantedReading(2), "")]),
        ),
        ("one reading", with(&[(Entry::OldReading(1), ""), (Entry::OldReading(2), "")])),
        ("lip in the groove, both ways out", with(&[(Entry::GroovePlace, "1-15/16")])),
        (
            "lip in the groove, out alone",
            with(&[(Entry::GroovePlace, "1-15/16"), (Entry::BumpRoom, "1/2")]),
        ),
        (
            "lip in the groove, no way out",
            with(&[
                (Entry::GroovePlace, "1-3/4"),
                (Entry::SplineLength, "3-1/4"),
                (Entry::BumpRoom, "1/2"),
            ]),
        ),
        ("lip near the groove", with(&[(Entry::GroovePlace, "1.295")])),
        ("lip off the barrel", with(&[(Entry::BarrelLength, "2-3/16")])),
        ("too little room", with(&[(Entry::SetPoint, "3/8")])),
        ("near the least room", with(&[(Entry::SetPoint, "7/16")])),
        ("too little spline", with(&[(Entry::SplineLength, "2-3/4")])),
        ("near the least spline", with(&[(Entry::SplineLength, "2.95")])),
        ("a travel that is not known", with(&[(Entry::AtDroop, "")])),
        (
            "distances that no link gives",
            with(&[(Entry::ShaftSlope, "5"), (Entry::LinkRadius, "4"), (Entry::LinkRise, "2")]),
        ),
        ("weld line from the wrong joint", with(&[(Entry::WeldLine, "54-7/8")])),
        ("weld line a little off", with(&[(Entry::Shoulder, "3-3/8")])),
        ("weld line not known, face read", with(&[(Entry::WeldLine, "")])),
        ("a wrong shoulder", with(&[(Entry::Shoulder, "3-7/61")])),
        ("first cut clear of the weld", with(&[(Entry::ClearBy, "1-1/2"), (Entry::Trim, "1/32")])),
        ("first cut too far in", with(&[(Entry::ClearBy, "2")])),
        ("first cut not said", with(&[(Entry::ClearBy, "")])),
        ("first cut through the spigot", with(&[(Entry::ClearBy, "1-1/4")])),
        ("first cut near the spigot", with(&[(Entry::ClearBy, "1-11/32")])),
        (
            "a spigot too long for a first cut",
            with(&[(Entry::ClearBy, "1-3/4"), (Entry::Spigot, "1-3/4")]),
        ),
        (
            "weld line from the other joint, no shoulder",
            with(&[(Entry::WeldLine, "4"), (Entry::FarWeldLine, ""), (Entry::Shoulder, "")]),
        ),
        ("weld line without a shoulder", with(&[(Entry::Shoulder, "")])),
        (
            "less to come out than the slots",
            with(&[
                (Entry::WantedReading(0), "57-1/8"),
                (Entry::WantedReading(1), "57-1/8"),
                (Entry::WantedReading(2), "57-1/8"),
            ]),
        ),
        ("the set point moved after the reading", with(&[(Entry::SetPoint, "1-1/8")])),
        (
            "face out of square",
            with(&[(Entry::FaceReading(4), "0.012"), (Entry::FaceReading(5), "0.012")]),
        ),
        ("face near its limit", with(&[(Entry::OwnLimit, "0.008")])),
        ("face read at two places", with(&[])),
        ("face by a strip and a coarse rule", with(&[])),
        ("spigot tight", with(&[(Entry::SpigotDiameter, "2.838")])),
        ("spigot too large", with(&[(Entry::SpigotDiameter, "2.86")])),
        ("spigot of another tube", with(&[(Entry::SpigotDiameter, "2.75")])),
        (
            "routes that disagree",
            from_ends(ShaftKind::SlipInGearbox, Route::Both, ["58-1/4", "58-1/4", "58-9/32"]),
        ),
        (
            "routes and a weld line by a coarse tape",
            from_ends(ShaftKind::SlipInGearbox, Route::Both, ["59-1/4", "59-1/4", "59-1/4"]),
        ),
        (
            "a tape on ears, each yoke with its own",
            with(&[(Entry::FrontEar, "1-1/8"), (Entry::WantedFrontEar, "1-3/16")]),
        ),
        ("an ear not measured", with(&[(Entry::FrontEar, "1-1/8")])),
        ("yokes out, tacked", tacked(&[(Entry::RearLevel(1, 0), "1.6")])),
        ("a level misread", tacked(&[(Entry::RearLevel(1, 1), "-0.2"), (Entry::RearLevel(1, 2), "9")])),
        ("two levels that differ", tacked(&[(Entry::FrontLevel(1, 2), "-0.2")])),
        ("yokes in one plane, as far as this level sees", tacked(&[(Entry::RearLevel(1, 0), "0.4")])),
        ("yokes out, welded", with(&[(Entry::RearLevel(2, 0), "1.9")])),
        ("yokes near the limit, welded", with(&[(Entry::RearLevel(2, 0), "1.25")])),
        ("yokes a quarter turn out", with(&[(Entry::RearLevel(2, 0), "90")])),
        ("as before the cut, not measured then", tacked(&[])),
        (
            "as before the cut, by a gap of each",
            tacked(&[
                (Entry::Span, "3-1/2"),
                (Entry::FrontSpan, "3-1/4"),
                (Entry::FrontLift(0, 0), "0.02"),
                (Entry::Lift(0, 0), "0.41"),
                (Entry::FrontLift(1, 0), "0.1"),
                (Entry::Lift(1, 0), "0.5"),
            ]),
        ),
        (
            "30° on purpose, by two lines",
            tacked(&[
                (Entry::OwnTarget, "30"),
                (Entry::LineArc(1, 0), "13/16"),
                (Entry::LineArc(1, 1), "20.5 mm"),
            ]),
        ),
        ("a pinion that lies too flat", with(&pinion(["1", "1", "1"]))),
        ("a pinion that lies too steep", with(&pinion(["8.5", "8.5", "8.5"]))),
        ("shaken near the limit", with(&[(Entry::TorsionalLimit, "230")])),
        ("shaken too much at droop", with(&[(Entry::DroopRise, "4")])),
        ("joints near what top speed allows", with(&[(Entry::InertiaLimit, "800")])),
        ("joints too sharp for quiet running", with(&[(Entry::InertiaLimit, "500")])),
        ("joints too straight", with(&[(Entry::LeastAngle, "3")])),
        (
            "the instrument not turned, the rise not known",
            with(&[(Entry::TurnedRound, ""), (Entry::PowerRise, "")]),
        ),
        (
            "heights further apart than the shaft is long",
            with(&[(Entry::FrontHeight, "75"), (Entry::RearHeight, "3")]),
        ),
        ("a joint past 45°", with(&[&pinion(["-30"; 3])[..], &[(Entry::FrontHeight, "36")]].concat())),
        ("nothing to change it with", with(&pinion(["27", "27", "27"]))),
        ("a nose whose lever is not known", with(&[(Entry::PinionArm, "")])),
        ("a sign lost as the level was turned", with(&[(Entry::TurnedRound, "-3.4")])),
        ("a slope misread", with(&[(Entry::GearboxSlope(2), "8.5")])),
        ("two slopes that differ", with(&pinion(["2.8", "2.3", ""]))),
        ("joints near too straight", with(&[(Entry::LeastAngle, "2")])),
        ("joints at droop past their maker's most", with(&[(Entry::JointMost, "6")])),
        ("joints far at droop", with(&[(Entry::DroopTravel, "14"), (Entry::DroopRise, "-8")])),
        (
            "parallel past twelve degrees",
            with(
                &[
                    &pinion(["-7.5"; 3])[..],
                    &[(Entry::GearboxSlope(0), "-6.5"), (Entry::GearboxSlope(1), "-6.5")],
                    &[(Entry::GearboxSlope(2), "-6.5"), (Entry::TopSpeed, "1000")],
                    &[(Entry::RoadSpeed, "18 mph")],
                ]
                .concat(),
            ),
        ),
        ("a wrong pad", with(&[(Entry::SpringPad, "about so")])),
        ("a wrong distance of the mounts", with(&[(Entry::MountArm, "about so")])),
        (
            "a slope read on the shaft, side by side",
            with(&[(Entry::ShaftSlopeRead(0), "6.1"), (Entry::SideOffset, "2-1/2")]),
        ),
        (
            "each at its own angle from above",
            with(&[(Entry::GearboxPlan, "1"), (Entry::ShaftPlan, "-1"), (Entry::PinionPlan, "0")]),
        ),
    ];
    for (name, job) in &mut all {
        match *name {
            "distances that no link gives" => {
                (job.slip.by, job.slip.guide) = (TravelBy::Reckoned, Guide::Trailing);
            }
            "first cut clear of the weld"
            | "first cut near the spigot"
            | "a spigot too long for a first cut"
            | "first cut too far in"
            | "first cut not said"
            | "first cut through the spigot" => job.cut.at = CutAt::ClearOfIt,
            "routes and a weld line by a coarse tape" => job.measure.division = Division::Sixteenth,
            "a tape on ears, each yoke with its own" | "an ear not measured" => {
                (job.measure.old_datum.front, job.measure.wanted_datum.front) =
                    (Datum::InnerEar, Datum::InnerEar);
                job.put(Entry::WeldLine, "55");
            }
            "as before the cut, not measured then" => job.phase.target = PhaseTarget::AsItWas,
            "as before the cut, by a gap of each" => {
                (job.phase.method, job.phase.target) = (PhaseMethod::BothLifts, PhaseTarget::AsItWas);
            }
            "30° on purpose, by two lines" => {
                (job.phase.method, job.phase.target) = (PhaseMethod::Lines, PhaseTarget::Own);
            }
            "face near its limit" => job.truing.limit = shaftwright::job::RunOutLimit::Own,
            "face read at two places" => {
                [1, 2, 3, 5, 6, 7].into_iter().for_each(|place| job.put(Entry::FaceReading(place), ""));
            }
            "a slope read on the shaft, side by side" => {
                (job.angles.shaft_by, job.angles.plan_by) = (ShaftBy::Read, PlanBy::Offset);
            }
            "each at its own angle from above" => job.angles.plan_by = PlanBy::Angles,
            "face by a strip and a coarse rule" => job.cut.square_by = SquareBy::Strip,
            _ => {}
        }
    }
    all
}

#[test]
fn mishaps_as_they_are_read() {
    against_golden("mishaps.txt", &otherwise(mishaps()));
    against_golden("weights.txt", &otherwise(weights::mishaps()));
}

/// Of each report the lines that stand otherwise than in the sample's, and what is said at a field.
fn otherwise(mishaps: Vec<(&'static str, Job)>) -> String {
    let usual = report(&sample());
    let mut text = String::new();
    for (name, job) in mishaps {
        text.push_str(&format!("== {name}\n"));
        for entry in job.entries() {
            if let Some(said) = remark(&job, entry) {
                text.push_str(&format!("  at {}: {said}\n", entry.name()));
            }
        }
        let report = report(&job);
        let other = report.lines().filter(|line| !usual.lines().any(|known| known == *line));
        other.for_each(|line| text.push_str(&format!("{line}\n")));
    }
    text
}

#[test]
fn sentences_at_a_field() {
    let mut text = String::new();
    for (entry, given) in [
        (Entry::OldReading(0), "3 mm"),
        (Entry::OldReading(0), "1,455"),
        (Entry::OldReading(0), "57-17/16"),
        (Entry::OldReading(0), "57-5/61"),
        (Entry::OldReading(0), "-57"),
        (Entry::OldReading(0), "4' 13\""),
        (Entry::OldReading(0), "57 furlongs"),
        (Entry::OldReading(0), "gearbox"),
        (Entry::OldReading(0), "5731255731255731255731255731255731255731255731"),
        (Entry::TubeWall, "1.6"),
        (Entry::WeldLine, "70"),
        (Entry::FrontLevel(1, 0), "200"),
        (Entry::LineArc(1, 0), "-10"),
        (Entry::FrontLift(0, 1), "2"),
        (Entry::OwnTarget, "120"),
        (Entry::TopSpeed, "42"),
        (Entry::StationReading(0, 0, 0), "2 in"),
        (Entry::WeightMass(0), "9 kg"),
        (Entry::WeightClock(0), "19"),
        (Entry::WeightClock(0), "7:75"),
        (Entry::ShaftMass, "0.2"),
        (Entry::SetPoint, "4-1/2"),
        (Entry::SplineLength, "40"),
        (Entry::LeastEngaged, "1/16"),
        (Entry::ShaftSlope, "45"),
        (Entry::LinkRise, "-50"),
        (Entry::LipDepth, "2"),
        (Entry::GroovePlace, "6"),
        (Entry::FaceReading(3), "2"),
        (Entry::Shoulder, "20"),
        (Entry::ClearBy, "0"),
        (Entry::SpigotDiameter, "3-1/4"),
        (Entry::SeamClock, "19"),
        (Entry::GearboxSlope(0), "86.5"),
        (Entry::PinionSlope(1), "3 mm"),
        (Entry::FrontHeight, "1"),
        (Entry::SideOffset, "30"),
        (Entry::ShaftPlan, "25"),
        (Entry::PowerRise, "15"),
        (Entry::BumpRise, "-30"),
        (Entry::TorsionalLimit, "4"),
        (Entry::TorsionalLimit, "400 rpm"),
        (Entry::InertiaLimit, "1,000 rad/s²"),
        (Entry::LeastAngle, "5"),
        (Entry::RoadSpeed, "2"),
        (Entry::RoadSpeed, "75 rpm"),
        (Entry::RoadSpeed, "fast"),
        (Entry::SpringPad, "1/4"),
        (Entry::MountArm, "3"),
        (Entry::PinionArm, "95"),
        (Entry::JointOverhang, "-2"),
        (Entry::JointMost, "50"),
        (Entry::TurnedRound, "-3.4"),
        (Entry::RoadSpeed, "4200 km/h"),
        (Entry::RoadSpeed, "6 mph"),
    ] {
        let mut job = sample();
        job.put(entry, given);
        let what = read(&job, entry).expect_err(given);
        text.push_str(&format!("{}: {}\n", entry.name(), complaint(&job, entry, &what)));
    }
    against_golden("sentences.txt", &text);
}

#[test]
fn nothing_read_is_without_a_number() {
    // The word that stands in for a number that cannot be shown must never be read.
    let all = mishaps().into_iter().map(|(_, job)| job);
    for job in all.chain([sample(), Job::default()]) {
        let text = report(&job);
        assert!(!text.contains("no figure") && !text.contains("NaN") && !text.contains("inf"));
    }
}
