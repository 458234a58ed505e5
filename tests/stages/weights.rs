//! Weights, entered as a mechanic would.
//!
//! By tests/handbook/weights.py unless another source is named.

use std::fs;
use std::path::Path;

use shaftwright::job::{End, Entry, Job, Joined, PutBack, Weighed, WeightRow};
use shaftwright::quantity::{
    Angle, Length, as_degrees, as_gram_millimetres, as_grams, as_millimetres, in_inches,
};
use shaftwright::stage::weights::{Cut, Piece, There, WeightReason, WeightSense, leaves};
use shaftwright::stage::{Amount, Finding, Law, Name, Reason, Sense, Source, Stage, Verdict};

use super::shaft::{find, number, shaft, value, with, with_all};

/// What the script weights.py printed for a key. Grams, millimetres, degrees, g·mm.
pub fn weighed(key: &str) -> f64 {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/handbook/weights.txt");
    let text = fs::read_to_string(path).unwrap();
    let line = text.lines().find_map(|line| line.rsplit_once(' ').filter(|(known, _)| *known == key));
    line.unwrap_or_else(|| panic!("weights.txt has no line {key}")).1.parse().unwrap()
}

/// Where a weight goes: its place on the clock and along the shaft.
pub fn place(finding: &Finding) -> (Angle, Length) {
    let there = there(finding);
    (there.clock, there.distance)
}

/// Everything that is said of where a weight goes.
pub fn there(finding: &Finding) -> There {
    match finding.value().and_then(|value| value.sense) {
        Some(Sense::Weight(WeightSense::There(there))) => there,
        _ => panic!("{finding:?}"),
    }
}

fn mass(job: &Job, name: Name) -> f64 {
    match value(job, name).amount {
        Amount::Mass(mass) => as_grams(mass),
        other => panic!("{other:?}"),
    }
}

pub fn close(got: f64, expected: f64, within: f64) {
    assert!((got - expected).abs() <= within, "{got} against {expected}");
}

/// What a working line of a finding comes to.
fn step(job: &Job, name: Name, law: Law) -> f64 {
    number(find(job, name).working.iter().find(|step| step.law == law).unwrap().gives)
}

/// The shaft with its second weight alone, known by its size.
fn by_size() -> Job {
    let mut job = shaft();
    job.weights.weighed = Weighed::Size;
    job.weights.rows = vec![WeightRow::default()];
    for (entry, text) in [
        (Entry::WeightLength(0), "25 mm"),
        (Entry::WeightWidth(0), "20 mm"),
        (Entry::WeightThickness(0), "3 mm"),
        (Entry::WeightClock(0), "7:30"),
        (Entry::WeightDistance(0), "52"),
    ] {
        job.put(entry, text);
    }
    job
}

#[test]
fn a_weight_known_by_its_size() {
    let job = by_size();
    close(mass(&job, Name::PutBack(0)), weighed("plate mass"), 1e-6);
    // In metres; the script's slices are thin, not none.
    close(step(&job, Name::PutBack(0), Law::PlateRadius) * 25.4, weighed("plate radius"), 2e-4);
    assert!(find(&job, Name::PutBack(0)).sources.contains(&Source::PlateOnTube));
    // By hand: 1/32 in of 25 and of 20 mm, 0.1 mm of 3, as half-widths of what is equally likely.
    let part = |doubt: f64, size: f64| (doubt / size / 3.0_f64.sqrt()).powi(2);
    let share = (part(25.4 / 32.0, 25.0) + part(25.4 / 32.0, 20.0) + part(0.1, 3.0)).sqrt();
    let doubt = match value(&job, Name::PutBack(0)).plus_minus {
        Some(Amount::Mass(mass)) => as_grams(mass),
        other => panic!("{other:?}"),
    };
    // 1.959964: the normal law's 95 %, from memory.
    close(doubt, 1.959_964 * share * weighed("plate mass"), 1e-5);
    close(as_millimetres(there(&find(&job, Name::PutBack(0))).thick.unwrap()), 3.0, 1e-9);
    // A radius that was measured goes before what would follow.
    let mut measured = by_size();
    measured.put(Entry::WeightRadius(0), "40 mm");
    close(step(&measured, Name::PutBack(0), Law::Unbalance), 40.0 * weighed("plate mass"), 1e-4);
}

#[test]
fn the_radius_follows_from_tube_and_thickness() {
    // By hand: half of 76.2 and of 3 mm.
    let job = with_all(&[(Entry::WeightRadius(0), ""), (Entry::WeightThickness(0), "3 mm")]);
    close(step(&job, Name::PutBack(0), Law::Unbalance), 9.0 * 39.6, 1e-6);
    // What was measured goes before it; without a thickness it is asked for.
    let job = with(Entry::WeightThickness(0), "3 mm");
    close(step(&job, Name::PutBack(0), Law::Unbalance), 9.0 * 1.5625 * 25.4, 1e-6);
    let asked = super::shaft::needs(&with(Entry::WeightRadius(0), ""), Name::PutBack(0));
    assert_eq!(asked[0].entry, Entry::WeightRadius(0));
}

#[test]
fn a_strip_for_each_weight() {
    let job = with_all(&[(Entry::StripWidth, "3/4"), (Entry::StripThickness, "1/8")]);
    match there(&find(&job, Name::PutBack(0))).cut {
        Cut::Long(length) => close(as_millimetres(length), weighed("strip"), 2e-3),
        other => panic!("{other:?}"),
    }
    // One size alone cuts nothing; too thin a strip is said.
    let one = with(Entry::StripWidth, "3/4");
    assert_eq!(there(&find(&one, Name::PutBack(0))).cut, Cut::NotAsked);
    let mut thin = with_all(&[(Entry::StripWidth, "3 mm"), (Entry::StripThickness, "0.5 mm")]);
    thin.put(Entry::WeightMass(0), "100");
    assert_eq!(there(&find(&thin, Name::PutBack(0))).cut, Cut::TooThin);
}

/// Two weights at the cut end, 30° apart round the same place, each where the ears are not.
fn beside_the_ears() -> Job {
    let mut job = with(Entry::YokeTurned, "0");
    for (row, mass, clock) in [(0, "7.814622570", "30°"), (1, "2.437386868", "60°")] {
        job.put(Entry::WeightMass(row), mass);
        job.put(Entry::WeightClock(row), clock);
        job.put(Entry::WeightDistance(row), "50");
        job.put(Entry::WeightRadius(row), "1.6");
    }
    job.put(Entry::EarClock, "45°");
    job
}

#[test]
fn merged_then_split_comes_back() {
    // Handbook (law of sines, derived by the script's two pulls): 10 at 37° over 30° and 60° is 7.814623
    // and 2.437387.
    let mut job = beside_the_ears();
    for row in 0..2 {
        assert_eq!(find(&job, Name::PutBack(row)).verdict, Verdict::Good);
    }
    job.weights.joined = Joined::OneAnEnd;
    let one = find(&job, Name::PutRear);
    close(mass(&job, Name::PutRear), 10.0, 1e-6);
    let There { clock, distance, split, around, .. } = there(&one);
    close(as_degrees(clock), 37.0, 1e-5);
    // By hand: 0.5 g, 5° and 1/16 in of each as half-widths, at 1.6 in; the normal law's 95 % from memory.
    let mut squares = 0.0;
    for mass in [7.814_622_570_f64, 2.437_386_868] {
        let round = 2.0 * 2.5_f64.to_radians().sin() * mass * 40.64;
        squares += ((0.5 * 40.64_f64).powi(2) + round.powi(2) + (mass * 1.5875).powi(2)) / 3.0;
    }
    let share = 1.959_964 * squares.sqrt() / 406.4;
    close(as_degrees(around.unwrap()), share.asin().to_degrees(), 1e-4);
    close(in_inches(distance), 50.0 - weighed("shorter"), 1e-6);
    assert!(matches!(
        one.verdict,
        Verdict::Watch(Reason::Weight(WeightReason::OnTheEars { split: true, .. }))
    ));
    let [Piece { clock: at, mass: of, .. }, Piece { clock: there, mass: other, .. }] = split.unwrap();
    close(as_degrees(at), 30.0, 1e-6);
    close(as_degrees(there), 60.0, 1e-6);
    close(as_grams(of), weighed("part first"), 1e-5);
    close(as_grams(other), weighed("part second"), 1e-5);
    // Only one end had any.
    assert!(Stage::Weights.findings(&job).iter().all(|finding| finding.name != Name::PutFront));
}

#[test]
fn kept_clear_of_the_seam() {
    // The second weight stands at 228° on a seam at 7:50 (235°): 10° to each side are 225° and 245°.
    let job = with(Entry::SeamClock, "235°");
    let found = find(&job, Name::PutBack(1));
    assert!(matches!(
        found.verdict,
        Verdict::Watch(Reason::Weight(WeightReason::OnTheSeam { split: true, .. }))
    ));
    let [one, other] = there(&found).split.unwrap();
    close(as_degrees(one.clock), 225.0, 1e-6);
    close(as_degrees(other.clock), 245.0, 1e-6);
    close(as_grams(one.mass), weighed("seam first"), 1e-6);
    close(as_grams(other.mass), weighed("seam second"), 1e-6);
    // Just clear of it.
    assert_eq!(find(&with(Entry::SeamClock, "238.1°"), Name::PutBack(1)).verdict, Verdict::Good);
    // The other yoke's ears stand as the yokes do: 0.3° clockwise of the cut end's, as welded (levels, by hand).
    for (ears, clear) in [("44.6°", true), ("44.8°", false), ("2:00", false), ("74.6°", false)] {
        let verdict = find(&with(Entry::EarClock, ears), Name::PutBack(0)).verdict;
        assert_eq!(verdict == Verdict::Good, clear, "{ears}: {verdict:?}");
    }
    // Where nobody said where they are, that is said once.
    let by_eye = |job: &Job| [0, 1].map(|row| there(&find(job, Name::PutBack(row))).by_eye);
    let [first, second] = by_eye(&shaft());
    close(as_degrees(first.unwrap()), 15.0, 1e-9);
    assert_eq!((second, by_eye(&with(Entry::EarClock, "12:00"))), (None, [None, None]));
    let ears = with(Entry::EarClock, "48°");
    assert!(matches!(
        find(&ears, Name::PutBack(1)).verdict,
        Verdict::Watch(Reason::Weight(WeightReason::OnTheEars { .. }))
    ));
    // What it was to be kept clear by and cannot be read is not passed over.
    for entry in [
        Entry::SeamClock,
        Entry::EarClock,
        Entry::StripWidth,
        Entry::StripThickness,
        Entry::WeldLine,
        Entry::FarWeldLine,
    ] {
        let wrong = find(&with(entry, "banana"), Name::PutBack(1)).verdict;
        assert_eq!(wrong, Verdict::Unjudged(Reason::WrongField), "{entry:?}");
    }
    // Its own place is known without those of the ends.
    for entry in [Entry::FrontPlane, Entry::RearPlane] {
        assert_eq!(find(&with(entry, "banana"), Name::PutBack(1)).verdict, Verdict::Good);
    }
}

#[test]
fn kept_on_the_tube_and_off_both_welds() {
    // By hand: the weld that stays is at 3-3/8 in, the new one where the script has the old one less what
    // was cut out; half an inch to keep. A weight 1 in wide reaches half an inch further.
    let new = 53.875 - super::shaft::by_hand("removed");
    let off = Verdict::Stop(Reason::Weight(WeightReason::OffTheTube));
    for wide in [0.0, 1.0] {
        let at = |place: f64| {
            let mut job = by_size();
            job.weights.put_back = PutBack::OwnPlaces;
            job.put(Entry::WeightWidth(0), "1 in");
            if wide == 0.0 {
                job.weights.weighed = Weighed::Scale;
                job.put(Entry::WeightMass(0), "9");
                job.put(Entry::WeightRadius(0), "1.5");
            }
            job.put(Entry::WeightDistance(0), &format!("{place:.4}"));
            find(&job, Name::PutBack(0)).verdict
        };
        let reach = wide / 2.0;
        for (inside, expected) in [(-0.01, 0), (0.01, 1), (0.49, 1), (0.51, 2)] {
            for place in [3.375 + reach + inside, new - reach - inside] {
                let got = at(place);
                let is = match got {
                    got if got == off => 0,
                    Verdict::Watch(Reason::OnTheWeld { .. }) => 1,
                    Verdict::Good => 2,
                    other => panic!("{other:?}"),
                };
                assert_eq!(is, expected, "{place}: {got:?}");
            }
        }
    }
}

#[test]
fn the_edge_of_a_strip_keeps_clear() {
    // The second weight at 228°: half of its strip's arc is its length over twice the radius of the
    // strip's middle face, 39.6875 mm here (by definition of the arc), and 10° come on top.
    let strip = [(Entry::StripWidth, "3/4"), (Entry::StripThickness, "1/8")];
    let free = with_all(&strip);
    let Cut::Long(length) = there(&find(&free, Name::PutBack(1))).cut else { panic!() };
    let half = (as_millimetres(length) / (2.0 * 39.6875)).to_degrees();
    assert!(half > 2.0, "{half}");
    for (beyond, clear) in [(0.2, true), (-0.2, false)] {
        let mut job = free.clone();
        job.put(Entry::SeamClock, &format!("{:.3}°", 228.0 + 10.0 + half + beyond));
        let verdict = find(&job, Name::PutBack(1)).verdict;
        assert_eq!(verdict == Verdict::Good, clear, "{verdict:?}");
    }
    // One weight for the end reaches as far as its strip does.
    let mut one = free.clone();
    one.weights.joined = Joined::OneAnEnd;
    one.put(Entry::SeamClock, &format!("{:.3}°", 228.0 + 10.0 + half - 0.2));
    assert!(matches!(find(&one, Name::PutRear).verdict, Verdict::Watch(Reason::Weight(_))));
}

#[test]
fn both_planes_keep_their_shares() {
    let mut job = with_all(&[(Entry::FrontPlane, "5"), (Entry::RearPlane, "50")]);
    job.weights.put_back = PutBack::BothShares;
    for (name, key, from) in [(Name::PutFront, "kept front", 5.0), (Name::PutRear, "kept rear", 50.0)] {
        close(mass(&job, name), weighed(key), 1e-6);
        let (clock, distance) = place(&find(&job, name));
        close(as_degrees(clock), weighed(&format!("{key} at")), 1e-6);
        close(in_inches(distance), from, 1e-9);
    }
    let left = leaves(&job).unwrap();
    assert!([left.front, left.rear].iter().all(|left| as_gram_millimetres(left.size()) < 1e-6));
    // Where no place is named it is an inch inside the weld, which is needed then: by hand the weld that stays
    // is at 3-3/8 in, the new one where the script has it.
    let new = 53.875 - super::shaft::by_hand("removed");
    for (entry, name, weld, place) in [
        (Entry::FrontPlane, Name::PutFront, Entry::FarWeldLine, 4.375),
        (Entry::RearPlane, Name::PutRear, Entry::WeldLine, new - 1.0),
    ] {
        let mut without = job.clone();
        without.put(entry, "");
        let there = there(&find(&without, name));
        close(in_inches(there.distance), place, 1e-6);
        close(in_inches(there.inside_weld.unwrap()), 1.0, 1e-12);
        without.put(weld, "");
        for name in [Name::PutFront, Name::PutRear, Name::LeftFront, Name::LeftRear] {
            assert_eq!(super::shaft::needs(&without, name)[0].entry, weld);
        }
    }
    // They must be on the shaft.
    job.put(Entry::RearPlane, "56");
    assert_eq!(find(&job, Name::PutRear).verdict, Verdict::Stop(Reason::OffTheShaft));
    // Cut at the front the far datum is the rear joint, and the gearbox end is the farther one.
    job.cut.end = End::Front;
    job.put(Entry::RearPlane, "5");
    job.put(Entry::FrontPlane, "50");
    close(mass(&job, Name::PutRear), weighed("kept front"), 1e-6);
    close(mass(&job, Name::PutFront), weighed("kept rear"), 1e-6);
}

#[test]
fn each_where_it_was() {
    let mut job = shaft();
    job.weights.put_back = PutBack::OwnPlaces;
    let (clock, distance) = place(&find(&job, Name::PutBack(1)));
    close(in_inches(distance), 52.0, 1e-9);
    // With its yoke, which was turned 3°.
    close(as_degrees(clock), 228.0, 1e-9);
    let left = leaves(&job).unwrap();
    for (left, key) in [(left.front, "stays front"), (left.rear, "stays rear")] {
        close(as_gram_millimetres(left.size()), weighed(key), 1e-6);
        close(as_degrees(left.at()), weighed(&format!("{key} at")), 1e-5);
    }
    // The new weld is at 52.05 in: there no weight may stay.
    assert!(matches!(find(&job, Name::PutBack(1)).verdict, Verdict::Watch(Reason::OnTheWeld { .. })));
}

#[test]
fn what_the_rules_differ_by() {
    let found = find(&shaft(), Name::RulesDiffer);
    let value = found.value().unwrap();
    close(number(value.amount), weighed("rules differ"), 1e-6);
    let Some(Sense::Weight(WeightSense::Rules { one, other, .. })) = value.sense else { panic!() };
    assert_eq!((one, other), (PutBack::OwnYoke, PutBack::OwnPlaces));
    assert_eq!(found.verdict, Verdict::Good);
    // The same whichever is chosen; over a plane's share of the grade it is a figure, and nothing is good.
    let mut chosen = shaft();
    chosen.weights.put_back = PutBack::OwnPlaces;
    assert_eq!(find(&chosen, Name::RulesDiffer), found);
    let heavy = with(Entry::WeightMass(1), "400");
    assert_eq!(find(&heavy, Name::RulesDiffer).verdict, Verdict::Figure);
}

#[test]
fn half_of_the_grade_for_each_plane() {
    // Handbook, derived from U = 9549.30·G·m/n: G 16, 10 kg, 3000 rpm 509.30 g·mm for the whole shaft.
    let job = with_all(&[(Entry::ShaftMass, "10 kg"), (Entry::TopSpeed, "3000")]);
    close(number(find(&job, Name::LeftFront).limit.unwrap().amount), 509.30 / 2.0, 0.005);
}

#[test]
fn weights_that_cancel_each_other_do_not_go_back() {
    let mut job = beside_the_ears();
    for (row, clock) in [(0, "1:00"), (1, "7:00")] {
        job.put(Entry::WeightMass(row), "9");
        job.put(Entry::WeightClock(row), clock);
    }
    job.weights.joined = Joined::OneAnEnd;
    let found = find(&job, Name::PutRear);
    close(mass(&job, Name::PutRear), 0.0, 1e-12);
    assert_eq!(found.value().unwrap().sense, Some(Sense::Weight(WeightSense::Cancelled)));
    // So do two that differ by less than they are known: 9 and 8 g, ± 1.5 g by the same parts as above; by
    // 3 g they do not.
    for (mass, cancels) in [("8", true), ("6", false)] {
        job.put(Entry::WeightMass(1), mass);
        let sense = find(&job, Name::PutRear).value().unwrap().sense;
        assert_eq!(sense == Some(Sense::Weight(WeightSense::Cancelled)), cancels, "{mass}");
    }
}

#[test]
fn two_that_would_touch_are_told_as_one() {
    // Both at the cut end 5° apart: by hand the sum of 9 and 14.5 g so far apart is 23.478 g, 1.915° before
    // the second; each turned 3° with its yoke.
    let touching = [(Entry::WeightClock(0), "220°"), (Entry::WeightDistance(0), "52")];
    let job = with_all(&touching);
    for row in 0..2 {
        let Verdict::Watch(Reason::Weight(WeightReason::TouchesAnother { both: Some(both) })) =
            find(&job, Name::PutBack(row)).verdict
        else {
            panic!("{:?}", find(&job, Name::PutBack(row)).verdict)
        };
        close(as_grams(both.mass), 23.478, 1e-3);
        close(as_degrees(both.clock), 226.085, 2e-3);
        assert_eq!(both.cut, Cut::NotAsked);
    }
    // One of both on the seam is none.
    let mut seam = job.clone();
    seam.put(Entry::SeamClock, "238°");
    seam.put(Entry::StripWidth, "3/4");
    seam.put(Entry::StripThickness, "1/8");
    let verdict = find(&seam, Name::PutBack(0)).verdict;
    let none = WeightReason::TouchesAnother { both: None };
    assert_eq!(verdict, Verdict::Watch(Reason::Weight(none)));
    // Far enough round the tube, or along it, they do not touch: by our own rule squares of 1/8 in steel, half
    // a side 9.501 mm and 12.060 mm, on 1-9/16 in 13.716° and 17.410°.
    for (clock, distance, clear) in [
        ("194°", "52", false),
        ("193.8°", "52", true),
        ("220°", "51-1/4", false),
        ("220°", "51-1/8", true),
    ] {
        let job = with_all(&[(Entry::WeightClock(0), clock), (Entry::WeightDistance(0), distance)]);
        let verdict = find(&job, Name::PutBack(0)).verdict;
        assert_eq!(verdict == Verdict::Good, clear, "{clock} {distance}: {verdict:?}");
    }
}

#[test]
fn near_a_weld_is_said_before_that_two_touch() {
    // Both 5° apart where they were, by the weld that the shorter shaft gets at 52.05 in: one of both, as far
    // along, would stand as near to it, so that it is no advice.
    let touching = [(Entry::WeightClock(0), "220°"), (Entry::WeightDistance(0), "52")];
    let mut job = with_all(&touching);
    job.weights.put_back = PutBack::OwnPlaces;
    for row in 0..2 {
        let verdict = find(&job, Name::PutBack(row)).verdict;
        assert!(matches!(verdict, Verdict::Watch(Reason::OnTheWeld { .. })), "{verdict:?}");
    }
    // Nor on a shaft that gets longer, nor where it cannot be told what they are to keep clear of.
    let mut longer = super::longer();
    touching.iter().for_each(|(entry, text)| longer.put(*entry, text));
    assert_eq!(find(&longer, Name::PutBack(0)).verdict, Verdict::Watch(Reason::Lengthened));
    let wrong = with_all(&[touching[0], touching[1], (Entry::SeamClock, "banana")]);
    assert_eq!(find(&wrong, Name::PutBack(0)).verdict, Verdict::Unjudged(Reason::WrongField));
    // On the seam it is: one of both may stand beside it.
    let seam = with_all(&[touching[0], touching[1], (Entry::SeamClock, "237°")]);
    let verdict = find(&seam, Name::PutBack(1)).verdict;
    assert!(
        matches!(verdict, Verdict::Watch(Reason::Weight(WeightReason::TouchesAnother { .. }))),
        "{verdict:?}"
    );
}

#[test]
fn one_of_both_keeps_off_a_third() {
    // The first two are 23.478 g at 226.085° (by hand, above); by our own rule a square of that reaches
    // 17.410°·√(23.478/14.5) = 22.154° on 1-9/16 in, one of 9 g 13.716°: they touch up to 261.955°, which is
    // 258.955° before the third turns 3° with its yoke. By itself that one touches neither of them.
    let at = |third: f64| {
        let mut job = with_all(&[(Entry::WeightClock(0), "220°"), (Entry::WeightDistance(0), "52")]);
        job.weights.rows.push(WeightRow::default());
        for (entry, text) in [
            (Entry::WeightMass(2), "9".to_owned()),
            (Entry::WeightClock(2), format!("{third}°")),
            (Entry::WeightDistance(2), "52".to_owned()),
            (Entry::WeightRadius(2), "1-9/16".to_owned()),
        ] {
            job.put(entry, &text);
        }
        match find(&job, Name::PutBack(0)).verdict {
            Verdict::Watch(Reason::Weight(WeightReason::TouchesAnother { both })) => both,
            other => panic!("{other:?}"),
        }
    };
    assert!(at(258.8).is_none());
    assert!(at(259.1).is_some());
}

#[test]
fn a_weight_taken_away_is_said_and_can_be_put_back() {
    // The rule itself: back where it was logged, and nothing else moves.
    let job = shaftwright::job::sample();
    for (row, words) in [(0, "Weight 1, "), (1, "Weight 2, ")] {
        let said = shaftwright::sheet::taken_away(&job, row);
        assert!(said.starts_with(words) && said.ends_with(", taken away."), "{said}");
        assert!(said.contains(" g (") && said.contains(" at "), "{said}");
        let mut now = job.clone();
        let weight = now.weights.rows[row].clone();
        now.weights.take_away(row);
        assert_ne!(now, job);
        now.weights.log_again(row, weight);
        assert_eq!(now, job);
    }
}
