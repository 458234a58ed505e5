//! Check: what more length, mass and give do to the whirl speed, what more torque does; units change nothing.

use shaftwright::job::{Display, Entry, Job};
use shaftwright::stage::check::{Fit, FitSense, Governs, choices};
use shaftwright::stage::{Finding, Name, Sense, Stage, Verdict};

use super::Luck;
use super::shaft::{number, shaft};

fn found(job: &Job, name: Name) -> Finding {
    Stage::Check.findings(job).into_iter().find(|finding| finding.name == name).unwrap()
}

fn amount(job: &Job, name: Name) -> f64 {
    let finding = found(job, name);
    number(finding.value().unwrap_or_else(|| panic!("{finding:?}")).amount)
}

fn fit(job: &Job, fit: Fit) -> f64 {
    amount(job, Name::Fit(fit))
}

/// A shaft as luck has it: diameter and wall in inches, length, masses in kg, rates in N/mm, torque in lbf·ft.
#[derive(Clone)]
struct Drawn {
    tube: [f64; 2],
    length: f64,
    yokes: [f64; 2],
    rates: [f64; 2],
    lump: [f64; 2],
    torque: f64,
    load: f64,
}

const INCH: f64 = 25.4;
const POUND: f64 = 0.453_592_37;

impl Drawn {
    fn new(luck: &mut Luck) -> Drawn {
        Drawn {
            tube: [luck.between(2.9, 5.0), luck.between(0.06, 0.13)],
            length: luck.between(30.0, 56.0),
            yokes: [luck.between(0.5, 4.0), luck.between(0.5, 4.0)],
            rates: [luck.between(200.0, 50_000.0), luck.between(200.0, 50_000.0)],
            lump: [luck.between(8.0, 24.0), luck.between(0.2, 3.0)],
            torque: luck.between(60.0, 400.0),
            load: luck.between(1200.0, 5000.0),
        }
    }

    /// The job of it, in inches and pounds or in millimetres and newtons.
    fn job(&self, metric: bool) -> Job {
        let mut job = shaft();
        if metric {
            job.display = Display::Millimetre;
        }
        let mut put = |entry: Entry, inch: f64, by: f64, units: [&str; 2]| {
            let (value, unit) = if metric { (inch * by, units[1]) } else { (inch, units[0]) };
            // Fourteen digits or so, which is as many as a field takes.
            let places = if value < 1000.0 { 12 } else { 8 };
            job.put(entry, &format!("{value:.places$} {unit}"));
        };
        let long = ["in", "mm"];
        put(Entry::TubeDiameter, self.tube[0], INCH, long);
        put(Entry::TubeWall, self.tube[1], INCH, long);
        (0..3).for_each(|reading| put(Entry::WantedReading(reading), self.length, INCH, long));
        put(Entry::FrontYokeMass, self.yokes[0] / POUND, POUND, ["lb", "kg"]);
        put(Entry::RearYokeMass, self.yokes[1] / POUND, POUND, ["lb", "kg"]);
        // 1 lbf/in = 0.175126835 N/mm, by definition of pound-force and inch.
        let per_inch = POUND * 9.806_65 / INCH;
        put(Entry::FrontSupport, self.rates[0] / per_inch, per_inch, ["lbf/in", "N/mm"]);
        put(Entry::RearSupport, self.rates[1] / per_inch, per_inch, ["lbf/in", "N/mm"]);
        put(Entry::LumpAt, self.lump[0], INCH, long);
        put(Entry::LumpMass, self.lump[1] / POUND, POUND, ["lb", "kg"]);
        let foot = POUND * 9.806_65 * 0.3048;
        put(Entry::EngineTorque, self.torque, foot, ["lbf·ft", "N·m"]);
        put(Entry::AxleLoad, self.load, POUND, ["lb", "kg"]);
        put(Entry::WeldLeg, 0.15, INCH, long);
        put(Entry::Cruise, 50.0, 1.609_344, ["mph", "km/h"]);
        job.put(Entry::AxleRatio, "3.9");
        job.put(Entry::TyreSize, "215/75R15");
        job
    }
}

#[test]
fn a_longer_shaft_never_whirls_faster() {
    let mut luck = Luck(71);
    for _ in 0..25 {
        let drawn = Drawn::new(&mut luck);
        let longer = Drawn { length: drawn.length * luck.between(1.001, 1.9), ..drawn.clone() };
        let (one, other) = (drawn.job(false), longer.job(false));
        // The closed form falls with the square of the length.
        let square = (longer.length / drawn.length).powi(2);
        let fell = amount(&one, Name::WhirlSpeed) / amount(&other, Name::WhirlSpeed);
        assert!((fell / square - 1.0).abs() < 1e-9);
        for by in [Fit::Elements, Fit::Soft] {
            assert!(fit(&other, by) <= fit(&one, by), "{by:?}: {} {}", drawn.length, longer.length);
        }
        // Held rigidly it never bends more easily than held softly.
        assert!(fit(&one, Fit::Soft) <= fit(&one, Fit::Elements) * (1.0 + 1e-9));
    }
}

#[test]
fn more_mass_never_raises_it_and_stiffer_supports_never_lower_it() {
    let mut luck = Luck(72);
    for turn in 0..30 {
        let drawn = Drawn::new(&mut luck);
        let more = luck.between(1.05, 2.0);
        let mut heavy = drawn.clone();
        match turn % 3 {
            0 => heavy.yokes[0] *= more,
            1 => heavy.yokes[1] *= more,
            _ => heavy.lump[1] *= more,
        }
        let mut stiff = drawn.clone();
        stiff.rates[turn % 2] *= more;
        let (one, heavy, stiff) = (drawn.job(false), heavy.job(false), stiff.job(false));
        let room = 1.0 + 1e-9;
        for by in [Fit::Elements, Fit::Soft] {
            assert!(fit(&heavy, by) <= fit(&one, by) * room, "{by:?}");
        }
        assert!(fit(&stiff, Fit::Soft) * room >= fit(&one, Fit::Soft));
        let rigid = fit(&stiff, Fit::Elements) / fit(&one, Fit::Elements);
        assert!((rigid - 1.0).abs() < 1e-12);
        // What hangs on the front joint is mass as well.
        let mut hung = one.clone();
        hung.put(Entry::SlipMass, "3 kg");
        assert!(fit(&hung, Fit::Soft) <= fit(&one, Fit::Soft) * room);
    }
}

#[test]
fn torque_is_linear_and_the_lesser_counts() {
    let mut luck = Luck(73);
    let mut by_slip = 0;
    for _ in 0..40 {
        let drawn = Drawn::new(&mut luck);
        let job = drawn.job(false);
        let lesser = fit(&job, Fit::ByEngine).min(fit(&job, Fit::BySlip));
        by_slip += usize::from(fit(&job, Fit::BySlip) < fit(&job, Fit::ByEngine));
        for (one, other) in [(Fit::ByEngine, Fit::BySlip), (Fit::BySlip, Fit::ByEngine)] {
            let Some(Sense::Fit(FitSense::Governs(governs))) =
                found(&job, Name::Fit(one)).value().unwrap().sense
            else {
                panic!()
            };
            assert_eq!(governs == Governs::Lesser, fit(&job, one) <= fit(&job, other));
        }
        // With that torque alone the strength is the same; with more of it as many times as much.
        let alone = |torque: f64| {
            let mut job = job.clone();
            job.put(Entry::AxleLoad, "");
            // The first gear of 3.4 at 0.85, as shaft.rs has it.
            job.put(Entry::EngineTorque, &format!("{:.12}", torque / 3.4 / 0.85));
            job
        };
        let times = luck.between(1.1, 2.0);
        let (same, more) = (alone(lesser), alone(lesser * times));
        for by in [Fit::Shear, Fit::Twist, Fit::Weld] {
            assert!((fit(&same, by) / fit(&job, by) - 1.0).abs() < 1e-8, "{by:?}");
            assert!((fit(&more, by) / fit(&same, by) / times - 1.0).abs() < 1e-8, "{by:?}");
        }
    }
    assert!((5..35).contains(&by_slip), "{by_slip}");
}

/// A verdict without what it carries, which is compared as amounts.
fn word(verdict: &Verdict) -> &'static str {
    match verdict {
        Verdict::Good => "good",
        Verdict::Watch(_) => "watch",
        Verdict::Stop(_) => "stop",
        Verdict::Figure => "figure",
        _ => "other",
    }
}

#[test]
fn units_and_display_change_no_answer() {
    let mut luck = Luck(74);
    for _ in 0..12 {
        let drawn = Drawn::new(&mut luck);
        let (one, other) = (drawn.job(false), drawn.job(true));
        let (all, same) = (Stage::Check.findings(&one), Stage::Check.findings(&other));
        assert_eq!(all.len(), same.len());
        for (one, other) in all.iter().zip(&same) {
            assert_eq!((one.name, word(&one.verdict)), (other.name, word(&other.verdict)));
            let Some((a, b)) = one.value().zip(other.value()) else {
                assert!(one.value().is_none() && other.value().is_none());
                continue;
            };
            let near = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-8;
            assert!(near(number(a.amount), number(b.amount)), "{:?}", one.name);
            let doubts = a.plus_minus.zip(b.plus_minus);
            assert!(doubts.is_none_or(|(a, b)| (number(a) / number(b) - 1.0).abs() < 1e-4));
        }
        // The display alone changes which sizes are offered, and nothing else.
        let mut shown = one.clone();
        shown.display = Display::DecimalInch;
        assert_eq!(Stage::Check.findings(&shown), all);
        assert_eq!(choices(&shown), choices(&one));
    }
}
