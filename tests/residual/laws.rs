//! Laws: force and couple are kept, order never matters, the clock turns the answer, sizes scale it, what
//! is carried by two places comes back; the models against the stage that puts weights back.

use shaftwright::job::{End, Entry, Job, WeightRow, sample};
use shaftwright::mechanics::apportion::at_places;
use shaftwright::mechanics::models::{Change, CutEnd, Model, put_back};
use shaftwright::mechanics::residual::{residual, residual_of};
use shaftwright::mechanics::unbalance::{Weight, grade_reached};
use shaftwright::quantity::{Base, as_degrees, kilograms, rpm};
use shaftwright::stage::{weights, weights::GoesBack};

use super::*;

fn alike(one: &[f64], other: &[f64], scale: f64) {
    for (a, b) in one.iter().zip(other) {
        assert!((a - b).abs() <= 1e-9 * scale, "{one:?} against {other:?}");
    }
}

fn planes(shares: Shares, length: f64) -> [Spot; 2] {
    [
        Spot { unbalance: shares.front, z: millimetres(0.0) },
        Spot { unbalance: shares.rear, z: millimetres(length) },
    ]
}

fn shares_of(spots: &[Spot], length: f64) -> Shares {
    spots.iter().fold(Shares::zero(), |sum, spot| sum.with(*spot, millimetres(length)))
}

#[test]
fn force_and_couple_about_every_place() {
    let mut luck = Luck(1);
    for _ in 0..200 {
        let length = luck.between(500.0, 2000.0);
        let spots = luck.spots(5, length);
        let shares = shares_of(&spots, length);
        let places = [luck.between(0.0, 0.4), luck.between(0.5, 1.0)].map(|part| part * length);
        let two = at_places(shares, millimetres(length), places.map(millimetres)).unwrap();
        for about in [-300.0, 0.0, luck.between(0.0, length), length, 5000.0] {
            let wanted = force_and_couple(&spots, about);
            let scale = 5.0 * 900.0 * 6000.0;
            for instead in [planes(shares, length), two] {
                alike(&force_and_couple(&instead, about), &wanted, scale);
            }
        }
    }
}

#[test]
fn two_places_along_the_shaft_carry_their_own() {
    // What two weights do, asked of their own places, is those two again.
    let mut luck = Luck(2);
    for _ in 0..200 {
        let pair = [
            spot(luck.between(1.0, 900.0), luck.between(0.0, 360.0), luck.between(0.0, 400.0)),
            spot(luck.between(1.0, 900.0), luck.between(0.0, 360.0), luck.between(500.0, 1000.0)),
        ];
        let shares = shares_of(&pair, 1000.0);
        let back = at_places(shares, millimetres(1000.0), pair.map(|one| one.z)).unwrap();
        for (one, other) in back.iter().zip(pair) {
            alike(&parts(one.unbalance), &parts(other.unbalance), 20.0 * 1800.0);
        }
    }
}

/// A crooked tube of luck, with yokes.
fn crooked(luck: &mut Luck) -> (Vec<Lump>, Vec<Point>) {
    let lumps = [(0.0, 0.0), (80.0, 0.2), (1320.0, 0.1), (1400.0, 0.0)];
    let lumps = lumps.map(|(z, off)| lump(900.0, z, offset(off, -off))).to_vec();
    let points = [150.0, 420.0, 700.0, 760.0, 1100.0, 1290.0].map(|z| {
        let c = offset(luck.between(-0.5, 0.5), luck.between(-0.5, 0.5));
        point(z, c, luck.between(0.0, 0.02), luck.between(2.0, 30.0))
    });
    (lumps, points.to_vec())
}

#[test]
fn order_clock_size_and_ends_of_a_crooked_tube() {
    let mut luck = Luck(3);
    for _ in 0..100 {
        let (lumps, points) = crooked(&mut luck);
        let shaft = body(1400.0, 90.0, 1310.0, 6000.0, &lumps);
        let got = residual(&shaft, &points).unwrap();
        let wanted = four(got.shares());
        let circles = [got.front.circle(), got.rear.circle()].map(as_gram_millimetres);
        let (by, times) = (degrees(luck.between(0.0, 360.0)), luck.between(0.2, 4.0));
        // Order never matters, of points or of lumps.
        let (mut shuffled, mut other_lumps) = (points.clone(), lumps.clone());
        shuffled.reverse();
        shuffled.rotate_left(2);
        other_lumps.rotate_left(1);
        let again = residual(&Body { lumps: &other_lumps, ..shaft }, &shuffled).unwrap();
        alike(&four(again.shares()), &wanted, 6000.0);
        // Turning the clock turns it; every offset so many times as large makes it as many times larger,
        // and so does every mass.
        let change = |c: Across<Length>| c.turned(by).scaled(times);
        let lumps: Vec<Lump> =
            lumps.iter().map(|one| Lump { beside: change(one.beside), ..*one }).collect();
        let turned: Vec<Point> = (points.iter())
            .map(|one| Point {
                offset: change(one.offset),
                spread: Spread { standard: one.spread.standard * times, ..one.spread },
                ..*one
            })
            .collect();
        let other = residual(&Body { lumps: &lumps, ..shaft }, &turned).unwrap();
        let back = |known: Across<Unbalance>| known.turned(-by).scaled(1.0 / times);
        let back = Shares { front: back(other.front.best), rear: back(other.rear.best) };
        alike(&four(back), &wanted, 6000.0);
        let back = [other.front.circle(), other.rear.circle()].map(|c| as_gram_millimetres(c) / times);
        alike(&back, &circles, 6000.0);
        let heavy: Vec<Lump> = lumps.iter().map(|one| Lump { mass: one.mass * 3.0, ..*one }).collect();
        let heavy = Body { tube: shaft.tube * 3.0, lumps: &heavy, ..shaft };
        let thrice = residual(&heavy, &turned).unwrap().shares();
        alike(&four(thrice.scaled(1.0 / 3.0)), &four(other.shares()), 6000.0 * times);
        // Seen from the other end front is rear.
        let length = shaft.length;
        let mirrored: Vec<Point> =
            turned.iter().map(|one| Point { z: length - one.z, ..*one }).collect();
        let lumps: Vec<Lump> = lumps.iter().map(|one| Lump { z: length - one.z, ..*one }).collect();
        let from = length - shaft.to;
        let mirror = Body { from, to: length - shaft.from, lumps: &lumps, ..shaft };
        let mirrored = residual(&mirror, &mirrored).unwrap().shares();
        let swapped = Shares { front: mirrored.rear, rear: mirrored.front };
        alike(&four(swapped), &four(other.shares()), 6000.0 * times);
    }
}

#[test]
fn a_place_on_the_line_changes_nothing_and_many_places_are_the_curve() {
    let mut luck = Luck(4);
    let (lumps, points) = crooked(&mut luck);
    let shaft = body(1400.0, 90.0, 1310.0, 6000.0, &lumps);
    let shares = residual(&shaft, &points).unwrap().shares();
    // One more place, on the line from its neighbour to the next, shows nothing new.
    let [one, other] = [points[1], points[2]];
    let between = point(560.0, (one.offset + other.offset).scaled(0.5), 0.0, f64::INFINITY);
    let more = [&points[..], &[between]].concat();
    alike(&four(residual(&shaft, &more).unwrap().shares()), &four(shares), 6000.0);
    // A bow read at n places misses by n times n less: four times as many, a sixteenth.
    let bow = |z: Length| offset(1.0, 0.4).scaled(4.0 * z.base() * (1.4 - z.base()) / (1.4 * 1.4));
    let whole = residual_of(&shaft, &bow, None).unwrap();
    let misses = |count: u32| {
        let place = |i| millimetres(1400.0) * (f64::from(i) / f64::from(count));
        let points: Vec<Point> = (1..count)
            .map(|i| Point { z: place(i), offset: bow(place(i)), spread: Spread::none() })
            .collect();
        as_gram_millimetres((residual(&shaft, &points).unwrap().shares() - whole).front.size())
    };
    let ratio = misses(14) / misses(56);
    assert!((ratio - 16.0).abs() < 1.0, "{ratio}");
    // A lump that stands just where a place was read hangs there once, as it does beside it.
    let at = |z: f64| {
        let lumps = [lump(900.0, z, offset(0.0, 0.0))];
        four(residual(&Body { lumps: &lumps, ..shaft }, &points).unwrap().shares())
    };
    for z in [150.0, 700.0, 1290.0] {
        alike(&at(z), &at(z + 1e-7), 6000.0);
    }
    // A straight shaft has what its lumps' own centres make, and no doubt.
    let straight = residual(&shaft, &[]).unwrap();
    assert!(straight.front.circle().base() == 0.0);
    let none = residual(&Body { lumps: &[], ..shaft }, &[]).unwrap();
    assert!(four(none.shares()) == [0.0; 4]);
}

#[test]
fn an_even_offset_is_mass_times_offset() {
    // By hand: a tube of 6 kg, 0.1 mm off all along, is 600 g·mm, half of it in each plane where it lies
    // in the middle; with both against it nothing is left. On 6 kg at 3000 rpm: 0.1·100π = 31.4 mm/s.
    let shaft = body(1400.0, 100.0, 1300.0, 6000.0, &[]);
    let shares = residual_of(&shaft, &|_| offset(0.1, 0.0), None).unwrap();
    alike(&four(shares), &[300.0, 0.0, 300.0, 0.0], 600.0);
    let both = cancelled(shares, &shaft, [150.0, 1200.0].map(millimetres), millimetres(40.0)).unwrap();
    let left = shares_of(&both.map(Weight::spot), 1400.0) - (-shares);
    alike(&four(left), &[0.0; 4], 600.0);
    assert!(both.iter().all(|weight| (as_degrees(weight.at) - 180.0).abs() < 1e-9));
    let grade = grade_reached((shares.front + shares.rear).size(), kilograms(6.0), rpm(3000.0)).unwrap();
    assert!((grade - 31.4159).abs() < 5e-5);
}

#[test]
fn laws_of_the_models() {
    let mut luck = Luck(5);
    for _ in 0..100 {
        let old = luck.between(900.0, 2000.0);
        let new = old * luck.between(0.7, 1.1);
        let radius = millimetres(40.0);
        let weights: Vec<Weight> =
            luck.spots(4, old).iter().map(|spot| spot.weight(radius).unwrap()).collect();
        let cut = if luck.between(0.0, 1.0) < 0.5 { CutEnd::Front } else { CutEnd::Rear };
        let turned = degrees(luck.between(-90.0, 90.0));
        let change = Change { old: millimetres(old), new: millimetres(new), cut, turned };
        let places = [0.1 * new, 0.9 * new].map(millimetres);
        let by = degrees(luck.between(0.0, 360.0));
        let scale = weights.iter().map(|one| as_gram_millimetres(one.unbalance().size())).sum::<f64>();
        for model in [Model::OwnYoke, Model::OwnPlaces, Model::SharesKept { places }] {
            let got = put_back(&weights, &change, model).unwrap();
            // No model adds or loses any force: what it leaves is a couple.
            alike(&parts(got.leaves.front + got.leaves.rear), &[0.0; 2], scale);
            // Order never matters, and the clock turns the answer.
            let mut other: Vec<Weight> =
                weights.iter().map(|one| Weight { at: one.at + by, ..*one }).collect();
            other.rotate_left(2);
            let back = put_back(&other, &change, model).unwrap().leaves.front.turned(-by);
            alike(&parts(back), &parts(got.leaves.front), scale);
            // The difference between two models is that of what they put on.
            let first = put_back(&weights, &change, Model::OwnYoke).unwrap();
            alike(&four(got.leaves - first.leaves), &four(got.shares - first.shares), scale);
        }
    }
}

#[test]
fn own_yoke_is_what_the_stage_does() {
    // The stage has its own road to the same places: its rows, from the far datum.
    for (end, turned) in [(End::Rear, "0"), (End::Rear, "12"), (End::Front, "-7.5"), (End::Front, "0")] {
        let mut job: Job = sample();
        job.cut.end = end;
        job.put(Entry::YokeTurned, turned);
        job.weights.rows.push(WeightRow::default());
        for (entry, text) in [
            (Entry::WeightMass(2), "7"),
            (Entry::WeightClock(2), "10:00"),
            (Entry::WeightDistance(2), "30"),
            (Entry::WeightRadius(2), "1-9/16"),
        ] {
            job.put(entry, text);
        }
        let (logged, _) = weights::all_logged(&job);
        let back: Vec<GoesBack> =
            weights::going_back(&job).into_iter().map(|(_, found)| found.unwrap()).collect();
        assert_eq!((logged.len(), back.len()), (3, 3));
        let lengths = shaftwright::stage::measure::length_change(&job).unwrap();
        let cut = if end == End::Front { CutEnd::Front } else { CutEnd::Rear };
        let turned = degrees(turned.parse().unwrap());
        let change = Change { old: lengths.old.best, new: lengths.wanted.best, cut, turned };
        let old: Vec<Weight> = logged.iter().map(|one| one.weight).collect();
        let got = put_back(&old, &change, Model::OwnYoke).unwrap();
        for (one, other) in got.spots.iter().zip(&back) {
            let other = other.weight.unwrap();
            assert!(as_millimetres(one.z - other.z).abs() < 1e-9);
            assert!(as_gram_millimetres((one.unbalance - other.unbalance()).size()) < 1e-9);
        }
        alike(&four(got.leaves), &four(weights::leaves(&job).unwrap()), 1000.0);
    }
}
