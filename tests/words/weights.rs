//! What is said of weights by each rule, and of what the run-out adds.

use shaftwright::job::{Entry, Job, Joined, PassKind, PutBack, SetUp, Weighed};

use super::with;

/// The sample with this rule, and these fields.
fn by(rule: PutBack, joined: Joined, fields: &[(Entry, &str)]) -> Job {
    let mut job = with(fields);
    (job.weights.put_back, job.weights.joined) = (rule, joined);
    job
}

/// The sample with every reading of its last pass so many times as large.
fn crooked(times: f64) -> Job {
    let mut job = with(&[]);
    for (place, turn) in job.truing.passes[2].clone().turns.iter().enumerate() {
        for (mark, reading) in turn.readings.iter().enumerate() {
            let read: f64 = reading.text.parse().unwrap();
            job.put(Entry::StationReading(2, place, mark), &(read * times).to_string());
        }
    }
    job
}

fn by_size() -> Job {
    let mut job = with(&[(Entry::WeightRadius(0), ""), (Entry::WeightRadius(1), "")]);
    job.weights.weighed = Weighed::Size;
    for row in 0..2 {
        job.put(Entry::WeightLength(row), "1-1/4");
        job.put(Entry::WeightWidth(row), "3/4");
        job.put(Entry::WeightThickness(row), "1/16");
    }
    job
}

/// What is read of weights, each alone.
pub fn mishaps() -> Vec<(&'static str, Job)> {
    let planes = [(Entry::FrontPlane, "5"), (Entry::RearPlane, "50")];
    let strip = [(Entry::StripWidth, "3/4"), (Entry::StripThickness, "1/8")];
    let mut tacked = with(&[]);
    tacked.truing.passes[2].kind = PassKind::Tacked;
    let mut one_place = with(&[]);
    while one_place.truing.places.len() > 1 {
        one_place.truing.drop_place();
    }
    let mut centres = with(&[]);
    centres.truing.set_up = SetUp::Centres;
    vec![
        ("weights known by their size", by_size()),
        ("a note at a weight", with(&[(Entry::WeightNote(1), "two tacks, rusty")])),
        ("a strip for each weight", with(&strip)),
        (
            "a strip that is too thin",
            with(&[(Entry::StripWidth, "1/8"), (Entry::StripThickness, "0.02")]),
        ),
        (
            "one weight an end",
            by(PutBack::OwnYoke, Joined::OneAnEnd, &[(Entry::WeightDistance(0), "50")]),
        ),
        (
            "weights of an end that cancel each other",
            by(
                PutBack::OwnYoke,
                Joined::OneAnEnd,
                &[
                    (Entry::WeightDistance(0), "52"),
                    (Entry::WeightMass(0), "14.5"),
                    (Entry::WeightClock(0), "1:30"),
                ],
            ),
        ),
        ("both planes' shares", by(PutBack::BothShares, Joined::Apart, &planes)),
        ("both planes' shares, no places", by(PutBack::BothShares, Joined::Apart, &[])),
        ("each where it was", by(PutBack::OwnPlaces, Joined::Apart, &[])),
        ("a weight on the seam", with(&[(Entry::SeamClock, "2:10")])),
        ("a weight in line with the ears", with(&[(Entry::EarClock, "1:15"), strip[0], strip[1]])),
        (
            "two weights that would touch",
            with(&[
                (Entry::WeightClock(0), "7:20"),
                (Entry::WeightDistance(0), "52"),
                strip[0],
                strip[1],
            ]),
        ),
        (
            "two weights that would touch beside the seam",
            with(&[
                (Entry::WeightClock(0), "7:20"),
                (Entry::WeightDistance(0), "52"),
                (Entry::SeamClock, "7:55"),
                strip[0],
                strip[1],
            ]),
        ),
        ("a seam that cannot be read", with(&[(Entry::SeamClock, "banana")])),
        ("weights that the rules differ much about", with(&[(Entry::WeightMass(1), "300")])),
        ("run-out near G 16", crooked(1.5)),
        ("run-out over G 16", crooked(2.5)),
        ("run-out near G 40", crooked(4.0)),
        ("run-out over G 40", crooked(6.0)),
        ("run-out read at one place", one_place),
        ("run-out read at no place in the middle third", with(&[(Entry::PlaceAlong(1), "12")])),
        ("run-out before welding", tacked),
        ("run-out on centres", centres),
        ("a shaft lighter than its tube", with(&[(Entry::ShaftMass, "8")])),
        ("no tube between the welds", with(&[(Entry::FarWeldLine, "53-1/2")])),
        ("too near the whirl speed", with(&[(Entry::TopSpeed, "4600")])),
        ("a heavy weight against the run-out", with(&planes)),
    ]
}
