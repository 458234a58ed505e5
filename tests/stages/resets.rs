//! What to change on the invented shaft: pinion, gearbox and yokes, and what speaks against each.

use shaftwright::job::{Entry, Job, PlanBy, ShaftKind};
use shaftwright::quantity::{as_degrees, as_radians_per_second_squared, in_inches};
use shaftwright::stage::{
    Against, Answer, Finding, Name, Need, Reason, Sense, Source, Stage, Verdict, Why,
};

use super::angles::{FLAT, as_read, laid, near, offset, plan, untold};
use super::shaft::{by_hand, find, number, repeats, value};

/// What is offered against the script: by how much, which way, to what, and what is left. Within its own ±
/// it is to be left alone.
fn offers(job: &Job, name: Name, key: &str, doubt: f64) {
    // With the slip in the shaft the program goes on from where power has left it, and takes its length
    // for the one at ride: a part in 6000 of the shaft's slope that follows the pinion.
    let within = if job.measure.kind == ShaftKind::SlipOnShaft { 2e-4 } else { FLAT };

    let hand = |what: &str| by_hand(&format!("{key} {what}"));
    let offered = value(job, name);
    let Some(Sense::Reset(reset)) = offered.sense else { panic!("{offered:?}") };
    near(number(offered.amount), hand("change").abs(), within);
    assert_eq!(reset.plus, hand("change") > 0.0, "{name:?}");
    assert_eq!(reset.leave, hand("change").abs() < doubt, "{name:?}");
    // A change that is left alone needs no ±.
    assert_eq!(offered.plus_minus.is_none(), reset.leave);
    near(as_degrees(reset.to), hand("to"), within);
    near(as_radians_per_second_squared(reset.left), hand("left"), 1e-3);
    near(as_degrees(reset.joints[0]), hand("front"), within);
    near(as_degrees(reset.joints[1]), hand("rear"), within);
}

/// The ± of a change is said to first order, and the script finds the least again with each input moved:
/// within a hundredth of one another (the cosine of 5° is in it).
fn known_to(job: &Job, name: Name, hand: f64) {
    let Some(doubt) = value(job, name).plus_minus.map(number) else { return };
    assert!((doubt / hand - 1.0).abs() < 0.01, "{name:?}: {doubt}, by hand {hand}");
}

/// The pinion lies too flat, by more than it is known to.
fn flat() -> Job {
    pinion(["0.3", "0.2", "0.3"])
}

/// The shaft with this pinion.
fn pinion(texts: [&str; 3]) -> Job {
    let mut job = laid(&[]);
    repeats(&mut job, Entry::PinionSlope, &texts);
    job
}

/// The slip in the shaft: the front joint stays where it is.
fn in_shaft() -> Job {
    let mut job = laid(&[]);
    job.measure.kind = ShaftKind::SlipOnShaft;
    job
}

const LAYOUTS: [(Name, &str); 2] =
    [(Name::PinionParallel, "parallel"), (Name::PinionIntersecting, "intersecting")];

#[test]
fn the_pinion_to_change() {
    for (job, key) in [
        (laid(&[]), "angles"),
        (as_read(), "angles read"),
        (untold(), "angles untold"),
        (flat(), "angles flat"),
        (in_shaft(), "angles in shaft"),
    ] {
        for (name, layout) in LAYOUTS {
            let key = format!("{key} {layout}");
            let doubt = by_hand(&format!("{key} doubt"));
            offers(&job, name, &key, doubt);
            known_to(&job, name, doubt);
        }
    }
    // Off to the side the ± is hardly another, and what is offered is far from it.
    for (job, key) in [(offset(), "angles offset"), (plan(), "angles plan")] {
        for (name, layout) in LAYOUTS {
            let doubt = by_hand(&format!("angles {layout} doubt"));
            offers(&job, name, &format!("{key} {layout}"), doubt);
        }
    }
    // A wedge under a pad of 4-1/2 in; without the pad none is said, and a wrong one is named.
    for (name, layout) in LAYOUTS {
        let wedge = |text: &str| match value(&laid(&[(Entry::SpringPad, text)]), name).sense {
            Some(Sense::Reset(reset)) => reset.thick.map(in_inches),
            other => panic!("{other:?}"),
        };
        near(wedge("4-1/2").unwrap(), by_hand(&format!("angles {layout} wedge")), 1e-5);
        assert_eq!(wedge(""), None);
        let wrong = find(&laid(&[(Entry::SpringPad, "about so")]), name);
        assert_eq!(wrong.verdict, Verdict::Figure);
        let Answer::Missing(said) = wrong.answer else { panic!("{wrong:?}") };
        assert!(matches!(&said[..], [Need { entry: Entry::SpringPad, why: Why::Wrong(_) }]));
    }
}

#[test]
fn the_least_is_counted_under_power_and_set_lower_by_the_rise() {
    let set = |rise: &str, name: Name| {
        let offered = value(&laid(&[(Entry::PowerRise, rise)]), name);
        let Some(Sense::Reset(reset)) = offered.sense else { panic!("{offered:?}") };
        let change = number(offered.amount) * if reset.plus { 1.0 } else { -1.0 };
        (change, as_degrees(reset.to), as_radians_per_second_squared(reset.left))
    };
    // By definition: a nose that rises by two degrees more is set two lower, and then all is the same.
    for (name, _) in LAYOUTS {
        let (one, three) = (set("1", name), set("3", name));
        near(three.0, one.0 - 2.0, FLAT);
        near(three.1, one.1 - 2.0, FLAT);
        near(three.2, one.2, 1e-6);
    }
    // Falling under power it is set higher.
    near(set("-2", Name::PinionParallel).1, set("1", Name::PinionParallel).1 + 3.0, FLAT);
}

#[test]
fn the_gearbox_to_change() {
    let with_arm = |mut job: Job, overhang: &str| {
        job.put(Entry::MountArm, "31");
        job.put(Entry::JointOverhang, overhang);
        job
    };
    let taken = |job: &Job| match value(job, Name::GearboxMount).sense {
        Some(Sense::Reset(reset)) => (reset.plus, in_inches(reset.thick.unwrap())),
        other => panic!("{other:?}"),
    };
    // A pinion that lies too flat wants the tail up; one past the shaft's slope, leaning to the gearbox,
    // wants it down. Where the joint is not said to overhang it sits at the mount.
    let leaning = pinion(["4.2", "4.1", "4.2"]);
    for (job, key) in [
        (with_arm(flat(), "7"), "angles mount"),
        (with_arm(laid(&[]), ""), "angles mount at joint"),
        (with_arm(laid(&[]), "0"), "angles mount at joint"),
        (with_arm(leaning, "7"), "angles mount leaning"),
    ] {
        let doubt = by_hand(&format!("{key} doubt"));
        offers(&job, Name::GearboxMount, key, doubt);
        known_to(&job, Name::GearboxMount, doubt);
        let (down, thick) = taken(&job);
        let hand = by_hand(&format!("{key} down"));
        assert_eq!(down, hand > 0.0);
        near(thick, hand.abs(), 31.0 * FLAT.to_radians());
    }
    // Not asked for, there is no such card; wrong, it says so and nothing else is lost or judged by it.
    let card = |fields: &[(Entry, &str)]| {
        let found = Stage::Angles.findings(&laid(fields));
        found.into_iter().find(|finding| finding.name == Name::GearboxMount)
    };
    assert_eq!(card(&[]), None);
    assert_eq!(card(&[(Entry::JointOverhang, "7")]), None);
    let (arm, overhang) = ((Entry::MountArm, "about so"), (Entry::JointOverhang, "about so"));
    for (fields, entry) in [
        (vec![arm], arm.0),
        (vec![overhang], overhang.0),
        (vec![(Entry::MountArm, "31"), overhang], overhang.0),
    ] {
        let wrong = card(&fields).unwrap();
        assert_eq!(wrong.verdict, Verdict::Figure);
        let Answer::Missing(said) = wrong.answer else { panic!("{wrong:?}") };
        assert!(matches!(&said[..], [Need { entry: named, why: Why::Wrong(_) }] if *named == entry));
    }
}

/// What speaks against a change.
fn against(job: &Job, name: Name) -> Option<Against> {
    let offered = value(job, name);
    let Some(Sense::Reset(reset)) = offered.sense else { panic!("{offered:?}") };
    reset.against
}

#[test]
fn what_speaks_against_a_change() {
    let of = |fields: &[(Entry, &str)], name: Name| against(&laid(fields), name);
    assert_eq!(of(&[], Name::PinionParallel), None);
    // Leaning to each other, the rear joint is past straight without load by what turns it further. By
    // hand: the pinion's turn, and of its lever's end over the shaft's length.
    let turned = by_hand("angles intersecting change");
    let rear = by_hand("angles ride rear") - turned * (1.0 + 9.5 / by_hand("wanted"));
    assert!(rear.abs() < 0.75);
    for (least, is_straight) in [(rear.abs() + 0.01, true), (rear.abs() - 0.01, false)] {
        let job = [(Entry::LeastAngle, &*format!("{least:.4}"))];
        let said = of(&job, Name::PinionIntersecting);
        assert_eq!(matches!(said, Some(Against::TooStraight { .. })), is_straight, "{said:?}");
        assert!(is_straight || said.is_none(), "{said:?}");
    }
    // Too sharp: the steeper of both joints, without load or under power, on either side of what is
    // allowed. Parallel the rear one is steepest without load, by the rise and by what the axle turns back.
    let sharp = |limit: &str| of(&[(Entry::InertiaLimit, limit)], Name::PinionParallel);
    let steepest = parallel_without_load()[1];
    for (angle, is_sharp) in [(steepest - 0.01, true), (steepest + 0.01, false)] {
        let limit = format!(
            "{:.4}",
            by_hand("angles ride coast") * (angle / by_hand("angles ride rear")).powi(2)
        );
        match sharp(&limit) {
            Some(Against::TooSharp { allowed }) if is_sharp => near(as_degrees(allowed), angle, 1e-3),
            None if !is_sharp => {}
            other => panic!("{angle}: {other:?}"),
        }
    }
    // Too straight: the flatter of both, which is the one under power.
    let flatter = by_hand("angles parallel rear");
    for (angle, is_straight) in [(flatter + 0.01, true), (flatter - 0.01, false)] {
        match of(&[(Entry::LeastAngle, &format!("{angle:.4}"))], Name::PinionParallel) {
            Some(Against::TooStraight { least }) if is_straight => near(as_degrees(least), angle, 1e-4),
            None if !is_straight => {}
            other => panic!("{angle}: {other:?}"),
        }
    }
    // Three degrees out of phase more is left than 20 rad/s², which is said before what else there is.
    let turned = [(Entry::RearLevel(1, 0), "-2.6"), (Entry::TorsionalLimit, "20")];
    assert!(matches!(of(&turned, Name::PinionParallel), Some(Against::Shakes { .. })));
    let all = [&turned[..], &[(Entry::InertiaLimit, "100"), (Entry::LeastAngle, "3")]].concat();
    assert!(matches!(of(&all, Name::PinionParallel), Some(Against::Shakes { .. })));
    assert_eq!(of(&turned[..1], Name::PinionParallel), None);
    assert!(matches!(of(&all[2..], Name::PinionParallel), Some(Against::TooSharp { .. })));
}

/// Both joints of the parallel layout without load: the front one as at ride, where the pinion has been
/// turned, and the rear one. By hand: the front joint loses what the shaft's slope loses, which the rear one
/// loses too, and the rear one the turn besides.
fn parallel_without_load() -> [f64; 2] {
    // In shaft lengths the joint goes up by arm times the turn: to first order, 1e-4 of a degree here.
    let change = by_hand("angles parallel change").to_radians();
    let lost = (9.5 * change / by_hand("wanted")).to_degrees();
    let front = by_hand("angles ride front") - lost;
    [front, by_hand("angles ride rear") - lost - change.to_degrees()]
}

#[test]
fn past_twelve_degrees_parallel_is_spoken_against_and_leaning_is_not() {
    // By construction: a gearbox 12° above or below the shaft, a pinion near it, no power and no arm. The
    // bound: US Army TM 5-3820-256-24-4.
    let ends = |gearbox: &str| {
        let mut job = as_read();
        repeats(&mut job, Entry::ShaftSlopeRead, &["5"; 3]);
        repeats(&mut job, Entry::GearboxSlope, &[gearbox; 3]);
        repeats(&mut job, Entry::PinionSlope, &["4"; 3]);
        for (entry, text) in [
            (Entry::PowerRise, "0"),
            (Entry::PinionArm, "0"),
            (Entry::TopSpeed, "1000"),
            (Entry::MountArm, "200 mm"),
            // Yokes in one plane: nothing is left.
            (Entry::FrontLevel(1, 0), "0"),
            (Entry::RearLevel(1, 0), "0"),
        ] {
            job.put(entry, text);
        }
        job
    };
    let (over, under) = (ends("-7.01"), ends("-6.99"));
    let Some(Against::Parallel { allowed }) = against(&over, Name::PinionParallel) else {
        panic!("{:?}", against(&over, Name::PinionParallel))
    };
    near(as_degrees(allowed), 12.0, 1e-9);
    // Under it what is left to say is that so large a wedge is not made.
    for (job, name) in [(&under, Name::PinionParallel), (&over, Name::PinionIntersecting)] {
        let Some(Against::TooMuchForAWedge { most }) = against(job, name) else {
            panic!("{:?}", against(job, name))
        };
        near(as_degrees(most), 6.0, 1e-9);
    }
    let sources = |job: &Job, name: Name| find(job, name).sources;
    for (name, cited) in [(Name::PinionParallel, true), (Name::PinionIntersecting, false)] {
        assert_eq!(sources(&over, name).contains(&Source::ParallelBound), cited);
    }
    // A mount keeps the layout that there is.
    let mut leaning = over.clone();
    repeats(&mut leaning, Entry::PinionSlope, &["6"; 3]);
    for (job, cited) in [(&over, true), (&leaning, false)] {
        assert_eq!(sources(job, Name::GearboxMount).contains(&Source::ParallelBound), cited);
    }
}

#[test]
fn a_change_that_cures_nothing_or_needs_too_much_of_a_wedge() {
    // Where the pinion stands best already it is left, and the other layout leaves more.
    let mut best = laid(&[]);
    let at = format!("{:.9}", by_hand("angles parallel to"));
    repeats(&mut best, Entry::PinionSlope, &[at.as_str(); 3]);
    assert_eq!(against(&best, Name::PinionParallel), None);
    // Off to the side, where the planes' twist is most of it; every limit is wide, so that nothing else
    // speaks against that.
    best.angles.plan_by = PlanBy::Offset;
    for (entry, wide) in [
        (Entry::SideOffset, "8"),
        (Entry::LeastAngle, "0"),
        (Entry::TorsionalLimit, "10000"),
        (Entry::InertiaLimit, "10000"),
    ] {
        best.put(entry, wide);
    }
    assert_eq!(against(&best, Name::PinionIntersecting), Some(Against::NoBetter));
    // Six degrees and a hair to either side. By definition the change is less by what the slope is more.
    let wedge = |by: f64| {
        let mut job = laid(&[]);
        let mean = (1.7 + 1.6 + 1.6) / 3.0;
        let text = format!("{:.6}", mean + by_hand("angles parallel change") - by);
        repeats(&mut job, Entry::PinionSlope, &[text.as_str(); 3]);
        near(number(value(&job, Name::PinionParallel).amount), by.abs(), 2e-3);
        against(&job, Name::PinionParallel)
    };
    for by in [6.01, -6.01] {
        assert!(matches!(wedge(by), Some(Against::TooMuchForAWedge { .. })), "{by}");
    }
    for by in [5.99, -5.99] {
        assert_eq!(wedge(by), None, "{by}");
    }
}

#[test]
fn what_cannot_be_changed_says_so() {
    let none = |found: &Finding| {
        assert_eq!(found.verdict, Verdict::Figure);
        found.answer == Answer::Impossible(Reason::NoRoomToReset)
    };
    // The pinion 20° above the shaft: nothing within 15° brings it below, where the gearbox is.
    let steep = |texts: [&str; 3]| {
        let mut job = pinion(texts);
        job.put(Entry::TopSpeed, "500");
        job
    };
    let above = steep(["25"; 3]);
    assert!(none(&find(&above, Name::PinionParallel)));
    // Below it by more than 15° a search ends at its bound, and that is no least either; by less it is one.
    // By definition the pinion is to be as much flatter than the gearbox's 2.43° as it rises under power.
    for (text, room) in [("-13.7", false), ("-13.5", true)] {
        let found = find(&steep([text; 3]), Name::PinionParallel);
        assert_eq!(none(&found), !room, "{text}: {found:?}");
    }
}
