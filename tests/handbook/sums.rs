//! The longer sums of `handbook.rs`: budgets of doubt, readings apart, travel, slanted faces, yokes.

use shaftwright::mechanics::apart::stands_apart;
use shaftwright::mechanics::budget::Budget;
use shaftwright::mechanics::phase::{Gap, from_lifts, from_lines, mean_line, off_target};
use shaftwright::mechanics::square::{face, to_file};
use shaftwright::mechanics::travel::{Link, Parabola, Swing, extremes};
use shaftwright::mechanics::uncertainty::{Measured, Spread};
use shaftwright::quantity::{Angle, Base, Length, as_degrees, degrees, in_inches, inches};

use super::{Given, Results};

type Distance<'a> = &'a dyn Fn(Length) -> Option<Length>;

/// A name of the form "cause 2", kept for good: the results' names are constants elsewhere.
fn numbered(name: &str, number: impl std::fmt::Display) -> &'static str {
    format!("{name} {number}").leak()
}

/// A sum of multiples of readings, each reading a cause.
pub fn budget(given: &Given) -> Results {
    let causes = given.rows("causes");
    let one = |index: usize| {
        let freedom = if causes[index][2] > 0.0 { causes[index][2] } else { f64::INFINITY };
        let spread = Spread { standard: inches(causes[index][1]), freedom };
        Budget::of(index, Measured { best: inches(causes[index][0]), spread })
    };
    let terms = given.rows("terms");
    let sum = |sum: Budget<usize>, term: &Vec<f64>| sum.plus(term[1], &one(term[0] as usize));
    let whole = terms.iter().fold(Budget::exact(inches(0.0)), sum);
    let got = whole.measured();
    let mut results = vec![
        ("best", in_inches(got.best)),
        ("u", in_inches(got.spread.standard)),
        ("freedom", got.spread.freedom),
    ];
    for (place, (cause, brings)) in whole.causes().into_iter().enumerate() {
        results.push((numbered("cause", place), cause as f64));
        results.push((numbered("brings", place), in_inches(brings)));
    }
    results
}

/// The reading that stands apart.
pub fn apart(given: &Given) -> Results {
    let readings: Vec<_> = given.numbers("readings").into_iter().map(inches).collect();
    match stands_apart(&readings, inches(given.number("division"))) {
        None => vec![("stands apart", 0.0)],
        Some(found) => vec![
            ("stands apart", 1.0),
            ("index", found.index as f64),
            ("by", in_inches(found.by)),
            ("others", in_inches(found.others)),
        ],
    }
}

fn swing(given: &Given) -> Swing {
    let length = given.number("length");
    let link = given.0["link"].as_str().map(|way| Link {
        radius: inches(given.number("radius")),
        rise: inches(given.number("rise")),
        trails: way == "trails",
    });
    let slope = Angle::from_base((given.number("drop") / length).asin());
    Swing { length: inches(length), slope, link, output: None }
}

/// The distance at one height.
pub fn one_height(given: &Given) -> Results {
    let distance = swing(given).distance(inches(given.number("up"))).unwrap();
    vec![("change", in_inches(distance) - given.number("length"))]
}

/// The least and the greatest distance of the travel.
pub fn whole_travel(given: &Given) -> Results {
    let shaft = swing(given);
    dips(&|up| shaft.distance(up), given.number("droop"), given.number("bump"))
}

fn dips(distance: Distance, droop: f64, bump: f64) -> Results {
    let got = extremes(distance, inches(droop), inches(bump)).unwrap();
    vec![
        ("least", in_inches(got.least)),
        ("least at", in_inches(got.least_at)),
        ("greatest", in_inches(got.greatest)),
        ("greatest at", in_inches(got.greatest_at)),
    ]
}

/// A curve through three distances, and its dip.
pub fn parabola(given: &Given) -> Results {
    let [bump, droop] = ["bump", "droop"].map(|name| given.numbers(name));
    let point = |end: &[f64]| (inches(end[0]), inches(end[1]));
    let curve = Parabola::through(point(&bump), inches(given.number("ride")), point(&droop)).unwrap();
    let height = |up: f64| in_inches(curve.distance(inches(up)).unwrap());
    let mut results: Results =
        given.numbers("heights").into_iter().map(|up| (numbered("at", up), height(up))).collect();
    let found = dips(&|up| curve.distance(up), droop[0], bump[0]);
    results.extend([("dip", found[0].1), ("dip at", found[1].1)]);
    results
}

/// A face read round the clock, and what is filed off it.
pub fn slant(given: &Given) -> Results {
    let places = given.numbers("at").into_iter().map(degrees);
    let readings: Vec<_> = places.zip(given.numbers("readings").into_iter().map(inches)).collect();
    let got = face(&readings, inches(given.number("division"))).unwrap();
    let mut results = vec![
        ("out", in_inches(got.out)),
        ("high at", as_degrees(got.high_at)),
        ("doubt", in_inches(got.doubt)),
    ];
    for at in given.numbers("places") {
        results.push((numbered("file at", at), in_inches(to_file(&got, degrees(at)))));
    }
    results
}

/// The turn between two yokes from a gap of each.
pub fn gaps(given: &Given) -> Results {
    let gap = |yoke: &str| {
        let sizes = given.numbers(yoke);
        let right = given.text(&format!("{yoke} ear")) == "right";
        Gap { lift: inches(sizes[0]), span: inches(sizes[1]), right }
    };
    vec![("degrees", as_degrees(from_lifts(gap("front"), gap("rear")).unwrap()))]
}

/// The turn between two lines on a tube.
pub fn lines(given: &Given) -> Results {
    let [arc, tube] = ["arc", "diameter"].map(|name| inches(given.number(name)));
    vec![("degrees", as_degrees(from_lines(arc, tube).unwrap()))]
}

/// Repeat readings of one yoke's line.
pub fn line_mean(given: &Given) -> Results {
    let readings: Vec<_> = given.numbers("readings").into_iter().map(degrees).collect();
    let mean = mean_line(&readings, degrees(given.number("division"))).unwrap();
    vec![("degrees", as_degrees(mean.best)), ("u", as_degrees(mean.spread.standard))]
}

/// What a turn is off by.
pub fn off(given: &Given) -> Results {
    let [turn, wanted] = ["turn", "wanted"].map(|name| degrees(given.number(name)));
    vec![("degrees", as_degrees(off_target(turn, wanted)))]
}
