//! What to change on the invented shaft: pinion, gearbox and yokes, and what speaks against each.

use shaftwright::job::{Entry, Job};
use shaftwright::quantity::{as_degrees, as_radians_per_second_squared, in_inches};
use shaftwright::stage::{Against, Answer, Name, Need, Reason, Sense, Stage, Verdict, Why};

use super::angles::{FLAT, as_read, laid, near, offset, plan, untold};
use super::shaft::{by_hand, find, number, repeats, value};

/// What is offered against the script: by how much, which way, to what, and what is left.
fn offers(job: &Job, name: Name, key: &str) {
    let hand = |what: &str| by_hand(&format!("{key} {what}"));
    let offered = value(job, name);
    let Some(Sense::Reset(reset)) = offered.sense else { panic!("{offered:?}") };
    near(number(offered.amount), hand("change").abs(), FLAT);
    assert_eq!(reset.plus, hand("change") > 0.0, "{name:?}");
    assert_eq!(reset.leave, hand("change").abs() < 0.05);
    near(as_degrees(reset.to), hand("to"), FLAT);
    near(as_radians_per_second_squared(reset.left), hand("left"), 1e-3);
    near(as_degrees(reset.joints[0]), hand("front"), FLAT);
    near(as_degrees(reset.joints[1]), hand("rear"), FLAT);
}

const LAYOUTS: [(Name, &str); 2] =
    [(Name::PinionParallel, "parallel"), (Name::PinionIntersecting, "intersecting")];

#[test]
fn the_pinion_to_change() {
    for (job, key) in [
        (laid(&[]), "angles"),
        (as_read(), "angles read"),
        (untold(), "angles untold"),
        (offset(), "angles offset"),
        (plan(), "angles plan"),
    ] {
        for (name, layout) in LAYOUTS {
            offers(&job, name, &format!("{key} {layout}"));
        }
    }
    // The ± is said to first order, and the script finds the least again with each input moved: within a
    // hundredth of one another (the cosine of 5° is in it).
    for (job, key) in [(laid(&[]), "angles"), (as_read(), "angles read"), (untold(), "angles untold")] {
        for (name, layout) in LAYOUTS {
            let doubt = number(value(&job, name).plus_minus.unwrap());
            let hand = by_hand(&format!("{key} {layout} doubt"));
            assert!((doubt / hand - 1.0).abs() < 0.01, "{key} {layout}: {doubt}, by hand {hand}");
        }
    }
    // A wedge under a pad of 4-1/2 in; without the pad none is said, with a wrong one neither.
    for (name, layout) in LAYOUTS {
        let wedge = |text: &str| match value(&laid(&[(Entry::SpringPad, text)]), name).sense {
            Some(Sense::Reset(reset)) => reset.thick.map(in_inches),
            other => panic!("{other:?}"),
        };
        near(wedge("4-1/2").unwrap(), by_hand(&format!("angles {layout} wedge")), 1e-6);
        assert_eq!((wedge(""), wedge("about so")), (None, None));
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
    let job = laid(&[(Entry::MountArm, "31")]);
    offers(&job, Name::GearboxMount, "angles mount");
    let taken = |job: &Job| match value(job, Name::GearboxMount).sense {
        Some(Sense::Reset(reset)) => (reset.plus, in_inches(reset.thick.unwrap())),
        other => panic!("{other:?}"),
    };
    let (down, thick) = taken(&job);
    assert!(down);
    near(thick, by_hand("angles mount down"), 31.0 * FLAT.to_radians());
    // A pinion that stands too flat wants the tail up.
    let up = laid(&[
        (Entry::MountArm, "31"),
        (Entry::PinionSlope(0), "1"),
        (Entry::PinionSlope(1), "1"),
        (Entry::PinionSlope(2), "1"),
    ]);
    assert!(!taken(&up).0);
    // Not asked for, there is no such card; wrong, it says so and nothing else is lost or judged by it.
    let names = |text: &str| {
        let found = Stage::Angles.findings(&laid(&[(Entry::MountArm, text)]));
        found.into_iter().find(|finding| finding.name == Name::GearboxMount)
    };
    assert_eq!(names(""), None);
    let wrong = names("about so").unwrap();
    assert_eq!(wrong.verdict, Verdict::Figure);
    let Answer::Missing(said) = wrong.answer else { panic!("{wrong:?}") };
    assert!(matches!(&said[..], [Need { entry: Entry::MountArm, why: Why::Wrong(_) }]));
}

#[test]
fn what_speaks_against_a_change() {
    let against = |fields: &[(Entry, &str)], name: Name| {
        let offered = value(&laid(fields), name);
        let Some(Sense::Reset(reset)) = offered.sense else { panic!("{offered:?}") };
        reset.against
    };
    assert_eq!(against(&[], Name::PinionParallel), None);
    // Parallel both joints work at 2.70°. 1000 rad/s² at 4200 rpm is 4.12°, 400 is 2.61°.
    let sharp = against(&[(Entry::InertiaLimit, "400")], Name::PinionParallel);
    assert!(matches!(sharp, Some(Against::TooSharp { allowed }) if as_degrees(allowed) < 2.61));
    let straight = against(&[(Entry::LeastAngle, "2.8")], Name::PinionParallel);
    assert!(
        matches!(straight, Some(Against::TooStraight { least }) if (as_degrees(least) - 2.8).abs() < 1e-9)
    );
    // Three degrees out of phase, the least that can be left is 45 rad/s².
    let turned = [(Entry::RearLevel(1, 0), "-2.6"), (Entry::TorsionalLimit, "20")];
    assert!(matches!(against(&turned, Name::PinionParallel), Some(Against::Shakes { .. })));
    assert_eq!(against(&turned[..1], Name::PinionParallel), None);
    // Slow enough for 13°, parallel is still bound to 12° (US Army TM 5-3820-256-24-4).
    let gearbox = [
        (Entry::GearboxSlope(0), "-8"),
        (Entry::GearboxSlope(1), "-8"),
        (Entry::GearboxSlope(2), "-8"),
        (Entry::TopSpeed, "1000"),
    ];
    let bound = against(&gearbox, Name::PinionParallel);
    assert!(
        matches!(bound, Some(Against::Parallel { allowed }) if (as_degrees(allowed) - 12.0).abs() < 1e-9)
    );
    // Leaning to each other the same angles are no parallel layout.
    assert!(matches!(against(&gearbox, Name::PinionIntersecting), None | Some(Against::Shakes { .. })));
}

#[test]
fn what_cannot_be_changed_says_so() {
    // The pinion 20° above the shaft: nothing within 15° brings it below, where the gearbox is.
    let mut steep = laid(&[]);
    repeats(&mut steep, Entry::PinionSlope, &["25", "25", "25"]);
    steep.put(Entry::TopSpeed, "500");
    let found = find(&steep, Name::PinionParallel);
    assert_eq!(found.answer, Answer::Impossible(Reason::NoRoomToReset));
    assert_eq!(found.verdict, Verdict::Figure);
    assert!(find(&steep, Name::PinionIntersecting).value().is_some());
}
