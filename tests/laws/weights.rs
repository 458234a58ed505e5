//! Putting back, by every rule: the order of the weights, the zero of the clock and the units change nothing.

use shaftwright::job::{Choice, Display, Entry, Job, Joined, PutBack, WeightRow};
use shaftwright::mechanics::across::Across;
use shaftwright::mechanics::apportion::on_clock;
use shaftwright::mechanics::unbalance::Weight;
use shaftwright::quantity::{
    Unbalance, as_degrees, as_gram_millimetres, as_grams, as_millimetres, clockwise_angle, degrees,
};
use shaftwright::stage::weights::{going_back, leaves};
use shaftwright::stage::{Name, Stage};

use super::Luck;
use super::shaft::shaft;

/// Weights of a job as luck puts them, in inches, hours and grams.
struct Drawn(Vec<[f64; 4]>);

impl Drawn {
    fn new(luck: &mut Luck) -> Drawn {
        let one = |luck: &mut Luck| {
            [
                luck.between(3.0, 60.0),
                luck.between(0.0, 360.0),
                luck.between(4.0, 51.0),
                luck.between(1.5, 1.8),
            ]
        };
        Drawn((0..4).map(|_| one(luck)).collect())
    }

    /// The same, all turned by so much, in this order and this unit.
    fn job(&self, by: f64, order: [usize; 4], metric: bool) -> Job {
        let mut job = shaft();
        if metric {
            job.display = Display::Millimetre;
        }
        job.weights.rows = vec![WeightRow::default(); 4];
        let long = |inches: f64| {
            if metric { format!("{:.12}", inches * 25.4) } else { format!("{inches:.12}") }
        };
        for (row, place) in order.into_iter().enumerate() {
            let [mass, clock, distance, radius] = self.0[place];
            job.put(Entry::WeightMass(row), &format!("{mass:.12} g"));
            job.put(Entry::WeightClock(row), &format!("{:.12}°", (clock + by).rem_euclid(360.0)));
            job.put(Entry::WeightDistance(row), &long(distance));
            job.put(Entry::WeightRadius(row), &long(radius));
        }
        job.put(Entry::FrontPlane, &long(5.0));
        job.put(Entry::RearPlane, &long(49.0));
        job
    }
}

/// Every weight that goes back, by its own place in the log where it is one.
fn back(job: &Job, order: [usize; 4]) -> Vec<Weight> {
    let mut found: Vec<(usize, Weight)> = going_back(job)
        .into_iter()
        .map(|(name, one)| {
            let place = match name {
                Name::PutBack(row) => order[row],
                Name::PutFront => 0,
                _ => 1,
            };
            (place, one.unwrap().weight.unwrap())
        })
        .collect();
    found.sort_by_key(|(place, _)| *place);
    found.into_iter().map(|(_, weight)| weight).collect()
}

#[test]
fn order_zero_of_the_clock_and_units_change_nothing() {
    const AS_IT_IS: [usize; 4] = [0, 1, 2, 3];
    const TURNED: [usize; 4] = [3, 1, 0, 2];
    let mut luck = Luck(44);
    for _ in 0..20 {
        let (drawn, by) = (Drawn::new(&mut luck), luck.between(0.0, 360.0));
        for rule in PutBack::ALL {
            for joined in Joined::ALL {
                let choose = |mut job: Job| {
                    (job.weights.put_back, job.weights.joined) = (*rule, *joined);
                    job
                };
                let job = choose(drawn.job(0.0, AS_IT_IS, false));
                let other = choose(drawn.job(by, TURNED, true));
                let (one, two) = (back(&job, AS_IT_IS), back(&other, TURNED));
                assert_eq!(one.len(), two.len());
                for (one, two) in one.iter().zip(&two) {
                    assert!((as_grams(one.mass) - as_grams(two.mass)).abs() < 1e-6);
                    assert!((as_millimetres(one.z) - as_millimetres(two.z)).abs() < 1e-6);
                    let off = as_degrees(clockwise_angle(two.at - one.at - degrees(by)));
                    assert!(off.min(360.0 - off) < 1e-6, "{rule:?} {joined:?}: {off}");
                }
                let [one, two] = [&job, &other].map(|job| leaves(job).unwrap());
                let same = |one: Across<Unbalance>, two: Across<Unbalance>| {
                    as_gram_millimetres((one.turned(degrees(by)) - two).size()) < 1e-6
                };
                assert!(same(one.front, two.front) && same(one.rear, two.rear));
                // No rule adds or loses any pull: what is left is a couple.
                assert!(as_gram_millimetres((one.front + one.rear).size()) < 1e-6);
                // Whichever rule is chosen, what the rules differ by is the same.
                let differ = |job: &Job| {
                    let all = Stage::Weights.findings(job);
                    all.into_iter().find(|one| one.name == Name::RulesDiffer).unwrap().value().unwrap()
                };
                let [a, b] = [&job, &other].map(|job| super::number(differ(job).amount));
                assert!((a - b).abs() < 1e-6);
            }
        }
    }
}

#[test]
fn one_for_two_at_one_place_splits_into_them_again() {
    // Two at one place along the shaft, less than half a turn apart: the one for the end stands there too, pulls
    // as they do, and asked of their own places on the clock it is those two again.
    let mut luck = Luck(45);
    for _ in 0..200 {
        let mut job = shaft();
        let (first, distance) = (luck.between(0.0, 360.0), luck.between(30.0, 50.0));
        let second = first + luck.between(20.0, 160.0);
        for (row, clock) in [first, second].into_iter().enumerate() {
            let (mass, radius) = (luck.between(10.0, 60.0), luck.between(1.5, 1.8));
            job.put(Entry::WeightMass(row), &format!("{mass:.12} g"));
            job.put(Entry::WeightClock(row), &format!("{:.12}°", clock.rem_euclid(360.0)));
            job.put(Entry::WeightDistance(row), &format!("{distance:.12}"));
            job.put(Entry::WeightRadius(row), &format!("{radius:.12}"));
        }
        let each = back(&job, [0, 1, 2, 3]);
        job.weights.joined = Joined::OneAnEnd;
        let [one] = back(&job, [0, 1, 2, 3])[..] else { panic!("one end had them") };
        assert!(each.iter().all(|weight| as_millimetres(weight.z - one.z).abs() < 1e-9));
        assert!(as_gram_millimetres(off_from(&each, one)) < 1e-6);
        let [a, b] = [each[0], each[1]];
        let split = on_clock(one.unbalance(), a.at, b.at).unwrap();
        for (part, weight) in split.into_iter().zip([a, b]) {
            assert!((as_gram_millimetres(part - weight.unbalance().size())).abs() < 1e-6);
        }
    }
}

/// How far one weight is off what several do.
fn off_from(each: &[Weight], one: Weight) -> Unbalance {
    let all = each.iter().fold(Across::zero(), |sum, weight| sum + weight.unbalance());
    (all - one.unbalance()).size()
}
