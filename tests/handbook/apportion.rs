//! The sums of `handbook.rs` about sharing an unbalance: over the clock, between clips, at another
//! radius; and how a bow grows.

use shaftwright::mechanics::across::Across;
use shaftwright::mechanics::apportion::on_clock;
use shaftwright::mechanics::trial::clips;
use shaftwright::mechanics::unbalance::Weight;
use shaftwright::mechanics::whirl::growth;
use shaftwright::quantity::{
    as_degrees, as_gram_millimetres, as_grams, degrees, gram_millimetres, grams, inches, millimetres,
    rpm,
};

use super::{Given, Results};

/// A size at a place, from two places.
pub fn split(given: &Given) -> Results {
    let [at, first, second] = ["at", "one", "other"].map(|name| degrees(given.number(name)));
    let wanted = Across::toward(gram_millimetres(given.number("size")), at);
    let both = on_clock(wanted, first, second).unwrap().map(as_gram_millimetres);
    vec![("first", both[0]), ("second", both[1])]
}

/// Two equal clips.
pub fn clips(given: &Given) -> Results {
    let wanted = Across::toward(gram_millimetres(given.number("wanted")), degrees(0.0));
    let found = clips::clips(grams(given.number("each")), millimetres(1.0), wanted).unwrap();
    vec![("degrees", as_degrees(found.half))]
}

/// A mass at another radius; any unit of mass.
pub fn moved(given: &Given) -> Results {
    let [from, to] = ["from", "to"].map(|name| inches(given.number(name)));
    let (mass, at, z) = (grams(given.number("mass")), degrees(10.0), inches(0.0));
    let there = Weight { mass, radius: from, at, z }.spot().weight(to).unwrap();
    vec![("mass", as_grams(there.mass))]
}

/// How many times larger a bow is at a share of the whirl speed.
pub fn grown(given: &Given) -> Results {
    vec![("times", growth(rpm(given.number("share")), rpm(1.0)).unwrap())]
}
