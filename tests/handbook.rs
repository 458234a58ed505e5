//! The handbook's values: every data file in `tests/handbook` is walked, every case in it computed
//! and compared. Each expected value stands in its file with its tolerance and its source; one that is
//! derived names the script and the line of its output it was taken from, and that is checked too.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde_json::Value;
use shaftwright::job::{Entry, Job, RunOutLimit, WhirlShare};
use shaftwright::mechanics::cut::{allowed_face_error, finished_length, tube_removed};
use shaftwright::mechanics::material::{aluminium, steel};
use shaftwright::mechanics::phase::{arc, from_lift};
use shaftwright::mechanics::runout::{Station, fit};
use shaftwright::mechanics::square::{spigot_tilt, tilt};
use shaftwright::mechanics::strip::{circumference, pieces, strip_length};
use shaftwright::mechanics::student::{circle_95, coverage_95};
use shaftwright::mechanics::tube::Tube;
use shaftwright::mechanics::unbalance::{Grade, Weight, permitted, shares};
use shaftwright::mechanics::uncertainty::{Spread, combined, mean_of, of_division};
use shaftwright::mechanics::whirl::first_pinned;
use shaftwright::quantity::{
    Denominator, as_degrees, as_gram_millimetres, as_grams, as_millimetres, as_newtons, as_ounce_inches,
    as_pounds_force, as_rpm, centrifugal_force, degrees, grams, in_inches, inch_fraction, inches,
    kilograms, kilograms_per_cubic_metre, millimetres, rpm,
};
use shaftwright::stage::{Amount, Finding, Stage, truing::named_limit};

#[path = "handbook/apportion.rs"]
mod apportion;
#[path = "handbook/beam.rs"]
mod beam;
#[path = "handbook/line.rs"]
mod line;
#[path = "handbook/strength.rs"]
mod strength;
#[path = "handbook/sums.rs"]
mod sums;

type Results = Vec<(&'static str, f64)>;

/// What is given to one sum.
struct Given<'a>(&'a Value);

impl Given<'_> {
    fn number(&self, name: &str) -> f64 {
        self.0[name].as_f64().unwrap_or_else(|| panic!("{name} is missing in {}", self.0))
    }

    fn text(&self, name: &str) -> &str {
        self.0[name].as_str().unwrap()
    }

    fn numbers(&self, name: &str) -> Vec<f64> {
        self.0[name].as_array().unwrap().iter().map(|value| value.as_f64().unwrap()).collect()
    }

    fn rows(&self, name: &str) -> Vec<Vec<f64>> {
        let row = |row: &Value| row.as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect();
        self.0[name].as_array().unwrap().iter().map(row).collect()
    }
}

fn compute(sum: &str, given: &Given) -> Results {
    match sum {
        "nearest fraction" => nearest_fraction(given),
        "division" => {
            let u = of_division(inches(given.number("division")));
            let both = combined(&[u, u]);
            vec![("u", in_inches(u.standard)), ("u of a difference", in_inches(both.standard))]
        }
        "combined" => {
            let spread = |row: &Vec<f64>| Spread { standard: millimetres(row[0]), freedom: row[1] };
            let whole = combined(&given.rows("parts").iter().map(spread).collect::<Vec<_>>());
            vec![
                ("u", as_millimetres(whole.standard)),
                ("freedom", whole.freedom),
                ("freedom cut down", whole.freedom.floor()),
            ]
        }
        "repeats" => {
            let readings: Vec<_> = given.numbers("readings").into_iter().map(inches).collect();
            let mean = mean_of(&readings, inches(given.number("division"))).unwrap();
            vec![
                ("mean", in_inches(mean.best)),
                ("u", in_inches(mean.spread.standard)),
                ("freedom", mean.spread.freedom),
            ]
        }
        "coverage" => {
            let freedom = given.number("freedom");
            vec![("t", coverage_95(freedom)), ("circle", circle_95(freedom))]
        }
        "budget" => sums::budget(given),
        "apart" => sums::apart(given),
        "swing" => sums::one_height(given),
        "extremes" => sums::whole_travel(given),
        "parabola" => sums::parabola(given),
        "cut" => cut(given),
        "slant" => sums::slant(given),
        "tilt" => {
            let lean = tilt(inches(given.number("out")), inches(given.number("diameter")));
            vec![("degrees", as_degrees(lean.unwrap()))]
        }
        "spigot" => {
            let [bore, wide, long] =
                ["bore", "wide", "long"].map(|name| millimetres(given.number(name)));
            vec![("degrees", as_degrees(spigot_tilt(bore, wide, long).unwrap()))]
        }
        "strip" => {
            let [tube, paper] = ["diameter", "paper"].map(|name| millimetres(given.number(name)));
            let lengths = [("strip", strip_length(tube, paper)), ("round", circumference(tube))];
            lengths.map(|(name, length)| (name, as_millimetres(length))).to_vec()
        }
        "pages" => {
            let [length, page] = ["length", "page"].map(|name| millimetres(given.number(name)));
            vec![("pages", pieces(length, page).unwrap() as f64)]
        }
        "face" => {
            let [d, t, l, z] =
                ["diameter", "total", "length", "weld"].map(|name| inches(given.number(name)));
            vec![("error", in_inches(allowed_face_error(d, t, l, z).unwrap()))]
        }
        "arc" => {
            let arc = arc(inches(given.number("diameter")), degrees(given.number("degrees")));
            vec![("arc", in_inches(arc))]
        }
        "lift" => {
            let turn = from_lift(inches(given.number("lift")), inches(given.number("span"))).unwrap();
            vec![("degrees", as_degrees(turn))]
        }
        "gaps" => sums::gaps(given),
        "lines" => sums::lines(given),
        "line mean" => sums::line_mean(given),
        "off" => sums::off(given),
        "run-out" => run_out(given),
        "shares" => two_planes(given),
        "split" => apportion::split(given),
        "clips" => apportion::clips(given),
        "moved" => apportion::moved(given),
        "growth" => apportion::grown(given),
        "permitted" => {
            let grade = if given.text("grade") == "G40" { Grade::G40 } else { Grade::G16 };
            let (mass, speed) = (kilograms(given.number("kilograms")), rpm(given.number("rpm")));
            let got = permitted(grade, mass, speed).unwrap();
            vec![("gram millimetres", as_gram_millimetres(got)), ("ounce inches", as_ounce_inches(got))]
        }
        "unbalance" => {
            let unbalance = grams(given.number("grams")) * millimetres(given.number("millimetres"));
            let force = centrifugal_force(unbalance, rpm(given.number("rpm")));
            vec![
                ("gram millimetres", as_gram_millimetres(unbalance)),
                ("ounce inches", as_ounce_inches(unbalance)),
                ("newtons", as_newtons(force)),
                ("pounds-force", as_pounds_force(force)),
            ]
        }
        "whirl" => whirl(given),
        "tube mass" => {
            let tube = tube(given);
            let length = millimetres(given.number("length"));
            let mass = as_grams(tube.mass(kilograms_per_cubic_metre(7850.0), length));
            vec![("kilograms", mass / 1000.0), ("pounds", mass / 453.592_37)]
        }
        "total reading" => {
            let limit = match given.text("name") {
                "army tube" => RunOutLimit::ArmyTube,
                "near weld" => RunOutLimit::NearWeld,
                "eight tenths" => RunOutLimit::EightTenths,
                "middle of the tube" => RunOutLimit::MiddleOfTube,
                "slip neck" => RunOutLimit::SlipNeck,
                "anywhere" => RunOutLimit::Anywhere,
                _ => RunOutLimit::HomeTruing,
            };
            vec![("inches", in_inches(named_limit(limit).unwrap().0))]
        }
        "one joint" => line::one_joint(given),
        "joint of a gain" => line::joint_of_a_gain(given),
        "acceleration" => line::rough_acceleration(given),
        "between" => line::between(given),
        "line" => line::line(given),
        "best phase" => line::best_phase(given),
        "torsion" => strength::torsion(given),
        "buckling" => strength::tube_buckling(given),
        "grade" => strength::grade(given),
        "fillet" => strength::fillet(given),
        "fillet allowable" => strength::fillet_allowable(),
        "engine torque" => strength::from_the_engine(given),
        "slip torque" => strength::at_the_slip(given),
        "shaft from engine" => strength::shaft_from_engine(given),
        "shaft from road" => strength::shaft_from_road(given),
        "tyre" => strength::tyre(given),
        "whirl share" | "phase" | "finished length" => limit_in_a_stage(sum, given),
        other => panic!("no sum is called {other}"),
    }
}

fn nearest_fraction(given: &Given) -> Results {
    let length = match given.0["inches"].as_f64() {
        Some(value) => inches(value),
        None => millimetres(given.number("millimetres")),
    };
    let finest = [Denominator::Sixteenth, Denominator::ThirtySecond, Denominator::SixtyFourth]
        .into_iter()
        .find(|finest| f64::from(finest.lines()) == given.number("lines"))
        .unwrap();
    let got = inch_fraction(length, finest).unwrap();
    vec![
        ("whole", got.whole as f64),
        ("upper", f64::from(got.upper)),
        ("lower", f64::from(got.lower)),
        ("leftover", got.leftover),
    ]
}

fn cut(given: &Given) -> Results {
    let [old, wanted, gap, shrinkage, weld] =
        ["old", "wanted", "gap", "shrinkage", "weld"].map(|name| inches(given.number(name)));
    let removed = tube_removed(old, wanted, gap, shrinkage);
    let finished = finished_length(weld - removed, weld, old, gap, shrinkage);
    vec![("removed", in_inches(removed)), ("finished", in_inches(finished))]
}

fn run_out(given: &Given) -> Results {
    let stations: Vec<Station> = (given.numbers("at").into_iter())
        .zip(given.numbers("readings"))
        .map(|(at, reading)| Station { at: degrees(at), reading: inches(reading) })
        .collect();
    let got = fit(&stations, inches(1e-6)).unwrap();
    let mut results = vec![
        ("total", in_inches(got.total)),
        ("mean", in_inches(got.mean)),
        ("offset", in_inches(got.offset.size())),
        ("offset at", as_degrees(got.offset.at())),
    ];
    if let Some(oval) = got.ovality {
        results.extend([("ovality", in_inches(oval.size)), ("ovality at", as_degrees(oval.at))]);
    }
    results.extend(got.leftover.map(|leftover| ("leftover", in_inches(leftover))));
    results
}

fn two_planes(given: &Given) -> Results {
    let weight = |row: Vec<f64>| Weight {
        mass: grams(row[0]),
        radius: millimetres(1.0),
        at: degrees(row[1]),
        z: inches(row[2]),
    };
    let weights: Vec<Weight> = given.rows("weights").into_iter().map(weight).collect();
    let got = shares(&weights, inches(given.number("length")));
    vec![
        ("front", as_gram_millimetres(got.front.size())),
        ("front at", as_degrees(got.front.at())),
        ("rear", as_gram_millimetres(got.rear.size())),
        ("rear at", as_degrees(got.rear.at())),
    ]
}

fn tube(given: &Given) -> Tube {
    Tube::new(millimetres(given.number("diameter")), millimetres(given.number("wall"))).unwrap()
}

fn whirl(given: &Given) -> Results {
    let (tube, length) = (tube(given), millimetres(given.number("length")));
    let stiffness = if given.text("material") == "steel" { steel() } else { aluminium() };
    let speed = as_rpm(first_pinned(tube, stiffness, length).unwrap());
    let size = as_millimetres(tube.outer()).hypot(as_millimetres(tube.inner()));
    let constant = speed * as_millimetres(length).powi(2) / size;
    vec![("rpm", speed), ("constant", constant), ("constant in inches", constant / 25.4)]
}

/// Limits that live in a stage are read off its finding, on a shaft filled in just far enough.
fn limit_in_a_stage(sum: &str, given: &Given) -> Results {
    let mut job = Job::default();
    for (entry, text) in [
        (Entry::OldReading(0), "57"),
        (Entry::WantedReading(0), "55"),
        (Entry::TakenAt, "1"),
        (Entry::SetPoint, "1"),
        (Entry::TubeDiameter, "3"),
        (Entry::TubeWall, "0.083"),
        (Entry::TopSpeed, "3000"),
        (Entry::FrontLevel(1, 0), "0"),
        (Entry::RearLevel(1, 0), "0"),
    ] {
        job.put(entry, text);
    }
    let limit = |findings: Vec<Finding>| findings.iter().find_map(|f| f.limit).unwrap().amount;
    match sum {
        "phase" => match limit(Stage::Phase.findings(&job)) {
            Amount::Angle(angle) => vec![("degrees", as_degrees(angle))],
            other => panic!("{other:?}"),
        },
        "finished length" => match limit(Stage::Measure.findings(&job)) {
            Amount::Length(length) => vec![("inches", in_inches(length))],
            other => panic!("{other:?}"),
        },
        _ => {
            job.check.whirl_share = match given.text("name") {
                "industrial" => WhirlShare::Industrial,
                "cardan maker" => WhirlShare::CardanMaker,
                _ => WhirlShare::Light,
            };
            match limit(Stage::Check.findings(&job)) {
                Amount::Share(share) => vec![("share", share)],
                other => panic!("{other:?}"),
            }
        }
    }
}

fn folder() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/handbook")
}

/// A script's kept output: a key and a number a line.
fn derived(script: &str) -> BTreeMap<String, f64> {
    let text = fs::read_to_string(folder().join(format!("{script}.txt"))).unwrap();
    let line = |line: &str| {
        let (key, value) = line.rsplit_once(' ').unwrap();
        (key.to_owned(), value.parse().unwrap())
    };
    text.lines().map(line).collect()
}

#[test]
fn every_value_of_the_handbook() {
    let derived =
        ["derive", "line", "line_in_space", "strength"].map(|script| (script, derived(script)));
    let (mut checked, mut wrong) = (0, Vec::new());
    let mut files: Vec<_> = fs::read_dir(folder()).unwrap().map(|file| file.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "json"));
    files.sort();
    for path in files {
        let cases: Vec<Value> = serde_json::from_str(&fs::read_to_string(&path).unwrap()).unwrap();
        for case in cases {
            let sum = case["sum"].as_str().unwrap();
            let results = compute(sum, &Given(&case["given"]));
            for (name, expected) in case["expected"].as_object().unwrap() {
                let value = expected["value"].as_f64().unwrap();
                let within = expected["within"].as_f64().unwrap();
                let source = expected["source"].as_str().unwrap();
                check_source(source, value, within, &derived);
                let got = results.iter().find(|(known, _)| known == name);
                let got = got.unwrap_or_else(|| panic!("{sum} gives no {name}")).1;
                // Asked this way round, so that a number that is none fails too.
                let right = (got - value).abs() <= within;
                if !right {
                    wrong.push(format!("{path:?} {sum} {name}: {got}, expected {value} ({source})"));
                }
                checked += 1;
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // A folder that was moved or emptied must not pass for a folder that agrees.
    assert!(checked > 700, "only {checked} values were found");
}

/// Every value says where it comes from, and a derived one is what its script printed.
fn check_source(source: &str, value: f64, within: f64, derived: &[(&str, BTreeMap<String, f64>)]) {
    let by = source.strip_prefix("derived by ").and_then(|rest| rest.split_once(".py: "));
    if let Some((script, key)) = by {
        let lines = derived.iter().find(|(known, _)| *known == script);
        let lines = &lines.unwrap_or_else(|| panic!("no such script: {source}")).1;
        let line = lines.get(key).unwrap_or_else(|| panic!("{script}.txt has no line {key}"));
        assert!((line - value).abs() <= within, "{key}: {value} is not the script's {line}");
    } else {
        let known = ["published: ", "from memory: ", "common practice, no source", "by construction"];
        assert!(known.iter().any(|start| source.starts_with(start)), "no such source: {source}");
    }
}
