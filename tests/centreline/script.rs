//! Two hundred shafts against the kept output of `handbook/centreline.py`.

use std::fs;
use std::path::Path;

use shaftwright::mechanics::centreline::{Axis, Cause, Explained, Pair, Place, Shaft, Suspect, explain};
use shaftwright::mechanics::uncertainty::Spread;
use shaftwright::quantity::{Length, as_millimetres, millimetres};

use super::{cause, parts, shaft, vector, vees};

/// How near the two routes must come, as a share of a size with its circle; for a share itself, absolute.
const NEAR: f64 = 1e-9;

/// A line of the output: its first word, names, numbers.
struct Line<'a> {
    word: &'a str,
    names: Vec<&'a str>,
    numbers: Vec<f64>,
}

fn line(text: &str) -> Line<'_> {
    let mut words = text.split(' ');
    let word = words.next().unwrap();
    // "inf" is a number here.
    let (mut names, mut numbers) = (Vec::new(), Vec::new());
    for text in words {
        match text.parse() {
            Ok(number) => numbers.push(number),
            Err(_) => names.push(text),
        }
    }
    Line { word, names, numbers }
}

/// One shaft: what is given, and what the script says of it.
struct Kept<'a> {
    shaft: Shaft,
    axis: Axis,
    places: Vec<Place>,
    says: Vec<Line<'a>>,
}

fn axis(line: &Line) -> Axis {
    match line.names[0] {
        "joints" => Axis::Joints,
        "front" => Axis::FrontJoint,
        "vees" => vees(line.numbers[0], line.numbers[1]),
        "free" => Axis::Free,
        other => panic!("{other} is no set-up"),
    }
}

fn place(n: &[f64]) -> Place {
    Place {
        z: millimetres(n[0]),
        offset: vector(n[1], n[2]),
        unit_covariance: [n[3], n[4], n[5]],
        scatter: Spread { standard: millimetres(n[6]), freedom: n[7] },
    }
}

fn kept(text: &str) -> Vec<Kept<'_>> {
    let mut all: Vec<Kept> = Vec::new();
    // The first line names the versions.
    for line in text.lines().skip(1).map(line) {
        if line.word == "shaft" {
            let shaft = shaft(line.numbers[0], line.numbers[1]);
            all.push(Kept { shaft, axis: Axis::Joints, places: Vec::new(), says: Vec::new() });
            continue;
        }
        let one = all.last_mut().unwrap();
        match line.word {
            "axis" => one.axis = axis(&line),
            "place" => one.places.push(place(&line.numbers)),
            _ => one.says.push(line),
        }
    }
    all
}

fn near(got: f64, expected: f64, scale: f64, what: &str) {
    assert!((got - expected).abs() <= NEAR * scale, "{what}: {got} against {expected}");
}

/// Size, circle and standard.
fn same_size(got: &Suspect, n: &[f64], what: &str) {
    let [up, right] = parts(got.size);
    let scale = n[0].hypot(n[1]) + n[2];
    let all = [up, right, as_millimetres(got.circle), as_millimetres(got.standard)];
    all.iter().zip(n).for_each(|(one, expected)| near(*one, *expected, scale, what));
}

/// What is left, luck, and the offset where the shaft is halved.
fn same_rest(left: Length, luck: f64, half_way: [f64; 2], n: &[f64], scale: f64, what: &str) {
    near(as_millimetres(left), n[0], scale, what);
    near(luck, n[1], 1.0, what);
    near(half_way[0], n[2], scale, what);
    near(half_way[1], n[3], scale, what);
}

fn same_single(found: &Explained, wanted: Cause, n: &[f64], half: Length, scale: f64, what: &str) {
    let got = found.single.iter().find(|suspect| suspect.cause == wanted).expect(what);
    same_size(got, n, what);
    same_rest(got.left, got.luck, parts(got.at(half)), &n[4..], scale, what);
}

fn same_pair(pair: &Pair, n: &[f64], half: Length, scale: f64, what: &str) {
    same_size(&pair.one, n, what);
    same_size(&pair.other, &n[4..], what);
    assert_eq!((pair.one.left, pair.one.luck), (pair.other.left, pair.other.luck));
    same_rest(pair.one.left, pair.one.luck, parts(pair.at(half)), &n[8..], scale, what);
}

#[test]
fn two_hundred_shafts_as_the_script_finds_them() {
    // Derived by the script (handbook/centreline.py), lines of its kept output.
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/handbook/centreline.txt");
    let text = fs::read_to_string(file).unwrap();
    let all = kept(&text);
    assert_eq!(all.len(), 200);
    let (mut singles, mut pairs, mut hidden) = (0, 0, 0);
    for (number, one) in all.iter().enumerate() {
        let found = explain(&one.shaft, one.axis, &one.places).unwrap();
        let half = one.shaft.length / 2.0;
        // The offsets as they were read set the scale of what a fit leaves of them.
        let scale = one.places.iter().map(|p| as_millimetres(p.offset.size())).fold(0.0, f64::max);
        let (mut cannot, mut best) = (Vec::new(), Vec::new());
        for line in &one.says {
            let (n, what) = (&line.numbers, format!("shaft {number}, {} {:?}", line.word, line.names));
            match line.word {
                "scatter" => {
                    near(as_millimetres(found.scatter.standard), n[0], n[0], &what);
                    assert_eq!(found.scatter.freedom, n[1], "{what}");
                }
                "straight" => {
                    near(found.straight_luck, n[0], 1.0, &what);
                    assert_eq!(found.straight, n[0] >= 0.05, "{what}");
                }
                "single" => {
                    same_single(&found, cause(line.names[0]), n, half, scale, &what);
                    singles += 1;
                }
                "cannot" => cannot.push(cause(line.names[0])),
                "pairs" => assert_eq!(found.pairs, n[0] as usize, "{what}"),
                "pair" => best.push(line),
                other => panic!("{other} is not known"),
            }
        }
        assert_eq!(found.cannot_show, cannot, "shaft {number}");
        assert_eq!(found.single.len() + cannot.len(), Cause::ALL.len(), "shaft {number}");
        // Equal freedom, so more misfit is less luck.
        let ordered = found.single.windows(2).all(|two| two[0].luck >= two[1].luck - NEAR);
        assert!(ordered, "shaft {number}");
        hidden += cannot.len();
        let Some(pair) = found.pair else {
            assert!(best.is_empty(), "shaft {number}");
            continue;
        };
        // Where the places cannot tell two pairs apart, the script lists both.
        let names = [pair.one.cause, pair.other.cause];
        let line = best.iter().find(|line| [0, 1].map(|i| cause(line.names[i])) == names);
        same_pair(&pair, &line.unwrap().numbers, half, scale, &format!("shaft {number}, pair"));
        pairs += 1;
    }
    // Enough of each that the comparison means something.
    assert!(singles > 500 && pairs > 15 && hidden > 200, "{singles} {pairs} {hidden}");
}
