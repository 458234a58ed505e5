//! What Check says, word for word, of everything that can be met there.

use shaftwright::job::{Entry, Gearbox, Grade, Job, TubeMaterial, TyreBy, WhirlShare};
use shaftwright::sheet::{complaint, gear_table, report, tube_table};
use shaftwright::stage::read;

use super::{against_golden, sample, with};

fn changed(fields: &[(Entry, &str)], change: impl Fn(&mut Job)) -> Job {
    let mut job = with(fields);
    change(&mut job);
    job
}

const SPLINE: [(Entry, &str); 2] = [(Entry::SplineRoot, "1-1/4"), (Entry::SplineBore, "1/2")];
const SOFT: [(Entry, &str); 2] = [(Entry::FrontSupport, "20000"), (Entry::RearSupport, "30000")];

fn all() -> Vec<(&'static str, Job)> {
    let joints = |rating, to| with(&[(Entry::JointRating, rating), (Entry::JointRatedTo, to)]);
    let spline = |yields| with(&[SPLINE[0], SPLINE[1], (Entry::SplineYield, yields)]);
    vec![
        ("the sample", sample()),
        ("in millimetres", changed(&[], |job| job.display = shaftwright::job::Display::Millimetre)),
        ("nothing typed", Job::default()),
        ("reckoned by the road, the engine could do more", with(&[(Entry::TopSpeed, "")])),
        ("reckoned by the engine", with(&[(Entry::TopSpeed, ""), (Entry::RoadTop, "")])),
        ("by the road alone", with(&[(Entry::TopSpeed, ""), (Entry::EngineLimit, "")])),
        ("typed less than it comes to", with(&[(Entry::TopSpeed, "2800")])),
        (
            "no speed at all",
            with(&[(Entry::TopSpeed, ""), (Entry::EngineLimit, ""), (Entry::RoadTop, "")]),
        ),
        ("a wrong gear", with(&[(Entry::TopSpeed, ""), (Entry::GearRatio(1), "20.5")])),
        ("near the share", with(&[(Entry::TopSpeed, "4380")])),
        ("over the share", with(&[(Entry::TopSpeed, "4500")])),
        (
            "over another maker's share",
            changed(&[(Entry::TopSpeed, "4200")], |job| {
                job.check.whirl_share = WhirlShare::Industrial;
            }),
        ),
        ("no mass of the shaft", with(&[(Entry::ShaftMass, "")])),
        ("lighter than its tube", with(&[(Entry::ShaftMass, "9")])),
        ("yokes weighed", with(&[(Entry::FrontYokeMass, "2.1 kg"), (Entry::RearYokeMass, "1.6 kg")])),
        ("one yoke weighed", with(&[(Entry::FrontYokeMass, "2.1 kg")])),
        ("held softly", with(&SOFT)),
        ("held softly at the front, a slip yoke there", with(&[SOFT[0], (Entry::SlipMass, "2 kg")])),
        ("held far too softly", with(&[(Entry::FrontSupport, "3000"), (Entry::RearSupport, "3000")])),
        (
            "a tube of two sizes",
            with(&[(Entry::StepAt, "30"), (Entry::StepDiameter, "2-1/2"), (Entry::StepWall, "0.12")]),
        ),
        (
            "a step beyond the shaft",
            with(&[(Entry::StepAt, "60"), (Entry::StepDiameter, "2-1/2"), (Entry::StepWall, "0.12")]),
        ),
        ("a damper", with(&[(Entry::LumpAt, "25"), (Entry::LumpMass, "1.5 kg")])),
        ("a centre bearing that gives", with(&[(Entry::BearingAt, "50"), SOFT[1]])),
        ("cruising near half of it", with(&[(Entry::RoadTop, ""), (Entry::Cruise, "72 mph")])),
        ("not cruising", with(&[(Entry::Cruise, "")])),
        ("cruising on an unknown tyre", with(&[(Entry::TyreSize, "")])),
        ("no torque known", with(&[(Entry::EngineTorque, ""), (Entry::AxleLoad, "")])),
        ("slip alone", with(&[(Entry::EngineTorque, "")])),
        ("slip governs", with(&[(Entry::AxleLoad, "2000")])),
        (
            "automatic",
            changed(&[(Entry::StallRatio, "2.1")], |job| {
                job.check.load.gearbox = Gearbox::Automatic;
            }),
        ),
        ("automatic without its ratio", changed(&[], |job| job.check.load.gearbox = Gearbox::Automatic)),
        ("in low range", with(&[(Entry::LowRange, "2.6"), (Entry::AxleLoad, "")])),
        ("too much for the tube", with(&[(Entry::EngineTorque, "700"), (Entry::AxleLoad, "")])),
        ("a better grade", changed(&[], |job| job.check.load.grade = Grade::Drawn1026)),
        ("an own yield, not given", changed(&[], |job| job.check.load.grade = Grade::OwnYield)),
        ("aluminium", changed(&[], |job| job.tube.material = TubeMaterial::Aluminium)),
        ("by hand, nothing given", changed(&[], |job| job.tube.material = TubeMaterial::ByHand)),
        (
            "by hand",
            changed(
                &[
                    (Entry::Modulus, "70 GPa"),
                    (Entry::ShearModulus, "5 GPa"),
                    (Entry::Density, "1600 kg/m3"),
                    (Entry::OwnYield, "60"),
                ],
                |job| job.tube.material = TubeMaterial::ByHand,
            ),
        ),
        ("no weld laid yet", with(&[(Entry::WeldLeg, "")])),
        ("a weld too small", with(&[(Entry::WeldLeg, "0.032")])),
        ("a weld for once the torque", with(&[(Entry::WeldLeg, "0.05")])),
        ("a splined part", spline("80")),
        ("a splined part that bears it once", spline("50")),
        ("a splined part that fails", spline("30")),
        ("a splined part, its yield not known", spline("")),
        ("joints rated", joints("1200", "")),
        ("joints rated up to an angle", joints("1200", "12")),
        ("joints past their angle", joints("1200", "2")),
        ("joints rated for less", joints("600", "")),
        (
            "joints at an angle not known",
            changed(
                &[(Entry::JointRating, "1200"), (Entry::JointRatedTo, "8"), (Entry::FrontHeight, "")],
                |_| {},
            ),
        ),
        (
            "a tyre by its turns",
            changed(&[(Entry::TopSpeed, ""), (Entry::TyreTurns, "720")], |job| {
                job.check.speeds.tyre_by = TyreBy::Turns;
            }),
        ),
        (
            "longer",
            with(&[
                (Entry::WantedReading(0), "59-1/4"),
                (Entry::WantedReading(1), "59-1/4"),
                (Entry::WantedReading(2), "59-1/4"),
            ]),
        ),
    ]
}

/// The lines of the stage in the report.
fn section(job: &Job) -> String {
    let report = report(job);
    let from = report.find("\nCHECK\n").unwrap() + "\nCHECK\n".len();
    let section = &report[from..];
    section[..section.find("\n\n").unwrap_or(section.len())].to_owned()
}

#[test]
fn check_as_it_is_read() {
    let (usual, mut text) = (section(&sample()), String::new());
    for (name, job) in all() {
        text.push_str(&format!("== {name}\n"));
        for line in section(&job).lines() {
            // What stands as in the sample stands once.
            if name == "the sample" || !usual.lines().any(|known| known == line) {
                text.push_str(&format!("{line}\n"));
            }
        }
    }
    for (name, job) in [("inches", sample()), ("millimetres", all()[1].1.clone())] {
        text.push_str(&format!("== gears and tubes, in {name}\n"));
        for row in gear_table(&job) {
            text.push_str(&format!("  {}: {}, {}\n", row.gear, row.shaft, row.road));
        }
        for row in tube_table(&job).unwrap() {
            text.push_str(&format!("  {}: {}\n", row.size, row.figures));
        }
    }
    // Plain to the eye: no gap of two within a line, no word twice, no sign without its number.
    for line in text.lines() {
        let line = line.trim_start();
        assert!(!line.contains("  ") && !line.contains(" .") && !line.contains(".."), "{line}");
        assert!(!line.contains("NaN") && !line.contains("no figure"), "{line}");
    }
    against_golden("check.txt", &text);
}

#[test]
fn sentences_at_a_field_of_check() {
    let mut text = String::new();
    for (entry, given) in [
        (Entry::EngineLimit, "55 mph"),
        (Entry::EngineLimit, "44"),
        (Entry::GearRatio(0), "35"),
        (Entry::GearRatio(0), "3.5 in"),
        (Entry::ReverseRatio, "-3.3"),
        (Entry::LowRange, "0.4"),
        (Entry::AxleRatio, "35.5"),
        (Entry::AxleRatio, "3,550"),
        (Entry::TyreSize, "235"),
        (Entry::TyreSize, "235/75"),
        (Entry::TyreSize, "235/75R"),
        (Entry::TyreSize, "235/75R51"),
        (Entry::TyreSize, "75/235R15"),
        (Entry::TyreSize, "235/5R15"),
        (Entry::TyreSize, "90x10R15"),
        (Entry::TyreSize, "235/75R15 winter"),
        (Entry::TyreSize, "235/75R15 235/75R15 235/75R15 235/75R15 235/75R15"),
        (Entry::TyreSize, "the usual"),
        (Entry::TyreTurns, "7200"),
        (Entry::TyreTurns, "720 rpm"),
        (Entry::RolledOut, "8 in"),
        (Entry::RoadTop, "750"),
        (Entry::Cruise, "76 mph"),
        (Entry::Modulus, "205 MPa"),
        (Entry::ShearModulus, "900"),
        (Entry::Density, "2.7"),
        (Entry::FrontYokeMass, "4 g"),
        (Entry::SlipMass, "about 2"),
        (Entry::FrontSupport, "3"),
        (Entry::FrontSupport, "3000 N"),
        (Entry::StepWall, "1/2 furlong"),
        (Entry::LumpAt, "-3"),
        (Entry::EngineTorque, "300 hp"),
        (Entry::EngineTorque, "9999"),
        (Entry::StallRatio, "0.9"),
        (Entry::AxleLoad, "32"),
        (Entry::Friction, "7.1"),
        (Entry::OwnYield, "55000"),
        (Entry::OwnYield, "55 GPa"),
        (Entry::WeldLeg, "1/64"),
        (Entry::ElectrodeStrength, "7018"),
        (Entry::SplineYield, "hard"),
        (Entry::JointRating, "2"),
        (Entry::JointRatedTo, "60"),
    ] {
        let job = with(&[(entry, given)]);
        let what = read(&job, entry).expect_err(given);
        text.push_str(&format!("{} {given}: {}\n", entry.name(), complaint(&job, entry, &what)));
    }
    for pair in [
        [(Entry::StepDiameter, "7/8"), (Entry::StepWall, "0.45 in")],
        [(Entry::SplineRoot, "1"), (Entry::SplineBore, "1")],
    ] {
        let job = with(&pair);
        let (entry, given) = pair[1];
        let what = read(&job, entry).expect_err(given);
        text.push_str(&format!("{} {given}: {}\n", entry.name(), complaint(&job, entry, &what)));
    }
    against_golden("check-sentences.txt", &text);
}
