//! Two hundred and forty cases against the kept output of `handbook/residual.py`.

use std::f64::consts::PI;
use std::fs;
use std::path::Path;

use shaftwright::mechanics::apportion::{NotSplit, on_clock};
use shaftwright::mechanics::models::{Change, CutEnd, Model, PutBack, put_back};
use shaftwright::mechanics::plate::Stock;
use shaftwright::mechanics::residual::{Known, residual, residual_of};
use shaftwright::mechanics::unbalance::Weight;
use shaftwright::quantity::{Base, as_degrees, as_grams, kilograms_per_cubic_metre};

use super::*;

/// How near the two routes must come, as a share of what the case is about.
const NEAR: f64 = 1e-9;

/// A line of the output: its first word, names, numbers.
struct Line {
    word: String,
    names: Vec<String>,
    n: Vec<f64>,
}

fn lines() -> Vec<Line> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/handbook/residual.txt");
    let text = fs::read_to_string(file).unwrap();
    let line = |line: &str| {
        let mut words = line.split(' ');
        let word = words.next().unwrap().to_owned();
        let (mut names, mut n) = (Vec::new(), Vec::new());
        for text in words {
            // "inf" is a number here.
            match text.parse() {
                Ok(number) => n.push(number),
                Err(_) => names.push(text.to_owned()),
            }
        }
        Line { word, names, n }
    };
    // The first line names the versions.
    text.lines().skip(1).map(line).collect()
}

/// Each group of lines, from a first word to the next of them.
fn groups(first: &[&str]) -> Vec<Vec<Line>> {
    let mut groups: Vec<Vec<Line>> = Vec::new();
    let mut inside = false;
    let starts = ["body", "strip", "cut", "split", "change"];
    for line in lines() {
        if starts.contains(&line.word.as_str()) {
            inside = first.contains(&line.word.as_str());
            if inside {
                groups.push(Vec::new());
            }
        }
        if inside {
            groups.last_mut().unwrap().push(line);
        }
    }
    groups
}

fn near(got: &[f64], expected: &[f64], scale: f64, what: &str) {
    assert_eq!(got.len(), expected.len(), "{what}");
    for (one, other) in got.iter().zip(expected) {
        assert!((one - other).abs() <= NEAR * scale, "{what}: {got:?} against {expected:?}");
    }
}

fn same_known(got: Known, n: &[f64], scale: f64, what: &str) {
    let [up, right] = parts(got.best);
    let circle = as_gram_millimetres(got.circle());
    near(
        &[up, right, as_gram_millimetres(got.spread.standard), circle],
        &[n[0], n[1], n[2], n[4]],
        scale,
        what,
    );
    match n[3].is_finite() {
        true => near(&[got.spread.freedom], &[n[3]], n[3], what),
        false => assert!(got.spread.freedom.is_infinite(), "{what}"),
    }
}

#[test]
fn crooked_tubes() {
    // Derived by the script (handbook/residual.py), lines of its kept output.
    let (mut broken, mut bows) = (0, 0);
    for (number, group) in groups(&["body"]).iter().enumerate() {
        let (mut lumps, mut points) = (Vec::new(), Vec::new());
        for Line { word, n, .. } in group {
            match word.as_str() {
                "lump" => lumps.push(lump(n[0], n[1], offset(n[2], n[3]))),
                "point" => points.push(point(n[0], offset(n[1], n[2]), n[3], n[4])),
                _ => {}
            }
        }
        let n = &group[0].n;
        let shaft = body(n[0], n[1], n[2], n[3], &lumps);
        // Of sums that may cancel, the scale is what is summed: all mass at a millimetre.
        let scale = n[3] + lumps.iter().map(|lump| as_grams(lump.mass)).sum::<f64>();
        let (mut shares, what) = (Shares::zero(), format!("shaft {number}"));
        for Line { word, names, n } in group {
            match word.as_str() {
                "found" => {
                    let got = residual(&shaft, &points).unwrap();
                    same_known(got.front, &n[..5], scale, &what);
                    same_known(got.rear, &n[5..], scale, &what);
                    shares = got.shares();
                    broken += 1;
                }
                "bow" => {
                    let (size, length) = (offset(n[0], n[1]), shaft.length.base());
                    let sine = |z: Length| size.scaled((PI * z.base() / length).sin());
                    let arch = |z: Length| {
                        size.scaled(4.0 * z.base() * (length - z.base()) / (length * length))
                    };
                    let shape: &dyn Fn(Length) -> Across<Length> =
                        if names[0] == "sine" { &sine } else { &arch };
                    shares = residual_of(&shaft, shape, None).unwrap();
                    bows += 1;
                }
                "shares" => near(&four(shares), n, scale, &what),
                "cancel" => {
                    let places = [n[0], n[1]].map(millimetres);
                    let radius = millimetres(n[6]);
                    let both = cancelled(shares, &shaft, places, radius).unwrap();
                    for (weight, n) in both.iter().zip([&n[2..4], &n[4..6]]) {
                        let expected = unbalance(n[0] * as_millimetres(radius), n[1]);
                        near(&parts(weight.unbalance()), &parts(expected), scale, &what);
                    }
                }
                _ => {}
            }
        }
    }
    assert_eq!((broken, bows), (60, 40));
}

#[test]
fn strips() {
    // Derived by the script, lines of its kept output.
    let (mut strips, mut cut, mut none) = (0, 0, 0);
    for (number, group) in groups(&["strip", "cut"]).iter().enumerate() {
        let Line { word, n, .. } = &group[0];
        let (tube, density) = (millimetres(n[0]), kilograms_per_cubic_metre(n[3]));
        let stock = Stock { width: millimetres(n[1]), thickness: millimetres(n[2]), density };
        let what = format!("strip {number}");
        if word == "strip" {
            let got = stock.plate(tube, millimetres(n[4])).unwrap();
            near(&[as_grams(got.mass)], &[n[5]], n[5], &what);
            near(&[as_millimetres(got.radius)], &[n[6]], n[0], &what);
            near(&[got.share], &[n[7]], 1.0, &what);
            strips += 1;
            continue;
        }
        let got = stock.cut_length(tube, gram_millimetres(n[4])).map(as_millimetres);
        match n.get(5) {
            Some(length) => near(&[got.unwrap()], &[*length], *length, &what),
            None => assert!(got.is_none(), "{what}"),
        }
        cut += 1;
        none += usize::from(got.is_none());
    }
    assert!(strips == 40 && cut > 30 && none > 3, "{strips} {cut} {none}");
}

#[test]
fn splits() {
    // Derived by the script, lines of its kept output.
    let (mut split, mut none) = (0, 0);
    for (number, group) in groups(&["split"]).iter().enumerate() {
        let n = &group[0].n;
        let got = on_clock(unbalance(n[0], n[1]), degrees(n[2]), degrees(n[3]));
        let what = format!("split {number}");
        match n.get(4..6) {
            Some(both) => near(&got.expect(&what).map(as_gram_millimetres), both, n[0] * 20.0, &what),
            None => assert_eq!(got, Err(NotSplit::NotBetween), "{what}"),
        }
        split += usize::from(got.is_ok());
        none += usize::from(got.is_err());
    }
    assert!(split > 30 && none > 5, "{split} {none}");
}

#[test]
fn weights_put_back() {
    // Derived by the script, lines of its kept output.
    let all = groups(&["change"]);
    assert_eq!(all.len(), 40);
    for (number, group) in all.iter().enumerate() {
        let Line { n, names, .. } = &group[0];
        let cut = if names[0] == "front" { CutEnd::Front } else { CutEnd::Rear };
        let (old, new) = (millimetres(n[0]), millimetres(n[1]));
        let change = Change { old, new, cut, turned: degrees(n[2]) };
        let places = [n[3], n[4]].map(millimetres);
        let radius = millimetres(40.0);
        let weights: Vec<Weight> = (group.iter().filter(|line| line.word == "weight"))
            .map(|Line { n, .. }| spot(n[0], n[1], n[2]).weight(radius).unwrap())
            .collect();
        let scale = weights.iter().map(|one| as_gram_millimetres(one.unbalance().size())).sum::<f64>();
        let ask = |model| put_back(&weights, &change, model).unwrap();
        let leaves = |got: &PutBack, n: &[f64], what: &str| {
            near(&four(got.leaves), n, scale, &format!("change {number}, {what}"));
        };
        for Line { word, n, .. } in group {
            match word.as_str() {
                "own" => leaves(&ask(Model::OwnYoke), n, word),
                "places" => leaves(&ask(Model::OwnPlaces), n, word),
                "kept" => {
                    let got = ask(Model::SharesKept { places });
                    let two: Vec<f64> =
                        got.spots.iter().flat_map(|spot| parts(spot.unbalance)).collect();
                    near(&two, &n[..4], 10.0 * scale, &format!("change {number}, kept"));
                    leaves(&got, &n[4..], word);
                    // Asked for at places in this order, and given so.
                    assert_eq!(got.spots.iter().map(|spot| spot.z).collect::<Vec<_>>(), places);
                }
                _ => {}
            }
        }
        // A weight is where the tape finds it: its clock place is between nothing and a turn.
        assert!(ask(Model::OwnYoke).spots.iter().all(|s| as_degrees(s.unbalance.at()) < 360.0));
    }
}
