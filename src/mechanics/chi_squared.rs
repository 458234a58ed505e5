//! The law of chi-squared: whether readings stand further from a formula than their scatter allows.

use super::fisher::{beyond, ln_gamma};

/// Degrees of freedom of a scatter above which it counts as known. At 10 000 the points of the two laws
/// differ by less than one part in a thousand.
const AS_GOOD_AS_KNOWN: f64 = 10_000.0;
/// Steps of the continued fraction; it settles in some √ν of them in its range.
const MOST_STEPS: u32 = 200;
/// Where a step of the fraction changes the last bit no more.
const LAST_BIT: f64 = 1e-16;
/// Doublings until a bracket holds a point, and halvings down to its last bits.
const DOUBLINGS: u32 = 40;
const HALVINGS: u32 = 80;

/// The sum of squares that luck alone passes in such a share of cases, in units of one reading's variance.
///
/// Formula: the x at which Q(x|ν) = share where the scatter is known, Q the share of chi-squared's law
/// beyond x; where it was estimated, ν times the F at which Fisher's law leaves that share. Bracketed and halved.
/// Symbols: ν degrees of freedom left over, 1 and up; ν₂ those of the scatter, 1 and up, infinite where it
/// is known. Range: a share of 0.05 and less but above 0; `None` for anything else. Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.4
/// and 26.6 (from memory); checked against published tables. Assumes normal scatter.
pub(super) fn passed_by_luck(share: f64, freedom: f64, of_scatter: f64) -> Option<f64> {
    let rare = share > 0.0 && share <= 0.05;
    if !(rare && freedom >= 1.0 && freedom.is_finite() && of_scatter >= 1.0) {
        return None;
    }
    let beyond_it = |x: f64| {
        if of_scatter > AS_GOOD_AS_KNOWN {
            tail(x, freedom)
        } else {
            beyond(x / freedom, freedom, of_scatter)
        }
    };
    // From the middle of the law on, where the fraction settles fast.
    let mut low = freedom + 2.0;
    let mut high = 2.0 * low;
    for _ in 0..DOUBLINGS {
        if beyond_it(high)? < share {
            break;
        }
        (low, high) = (high, 2.0 * high);
    }
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if beyond_it(middle)? > share {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(0.5 * (low + high))
}

/// Q(x|ν), the share beyond x, for x not below ν + 2.
///
/// Formula: Γ(a, y)/Γ(a), a = ν/2, y = x/2, by Legendre's continued fraction (Lentz's method).
fn tail(x: f64, freedom: f64) -> Option<f64> {
    let (a, y) = (0.5 * freedom, 0.5 * x);
    let front = (a * y.ln() - y - ln_gamma(a)).exp();
    // From y = a + 1 on every denominator is above 0.
    let mut b = y + 1.0 - a;
    let mut d = 1.0 / b;
    let mut c = f64::INFINITY;
    let mut whole = d;
    for step in 1..MOST_STEPS {
        let n = f64::from(step);
        let part = n * (a - n);
        b += 2.0;
        d = 1.0 / (b + part * d);
        c = b + part / c;
        whole *= c * d;
        if (c * d - 1.0).abs() <= 2.0 * LAST_BIT {
            return Some(front * whole);
        }
    }
    (y > a).then_some(front * whole)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_of_published_tables() {
        // Published: the 99 % points of chi-squared (any table), three decimals.
        for (freedom, point) in
            [(1.0, 6.635), (2.0, 9.210), (3.0, 11.345), (4.0, 13.277), (10.0, 23.209), (30.0, 50.892)]
        {
            let got = passed_by_luck(0.01, freedom, f64::INFINITY).unwrap();
            assert!((got - point).abs() < 5.1e-4, "{freedom} {got}");
        }
        // Published: the 99 % points of F (any table; from memory): (1, 1) 4052, (1, 10) 10.04, (2, 5)
        // 13.27, (3, 20) 4.94.
        for (upper, lower, point, half) in [
            (1.0, 1.0, 4052.0, 0.5),
            (1.0, 10.0, 10.04, 5e-3),
            (2.0, 5.0, 13.27, 5e-3),
            (3.0, 20.0, 4.94, 5e-3),
        ] {
            let got = passed_by_luck(0.01, upper, lower).unwrap() / upper;
            assert!((got - point).abs() <= half + 1e-9, "{upper} {lower} {got}");
        }
    }

    #[test]
    fn points_at_one_in_twenty() {
        // Published: the 95 % points of chi-squared (any table) and, from memory, of F (1, 4) 7.71, (1, 3) 10.13.
        for (freedom, of_scatter, point, half) in [
            (1.0, f64::INFINITY, 3.841, 5.1e-4),
            (2.0, f64::INFINITY, 5.991, 5.1e-4),
            (30.0, f64::INFINITY, 43.773, 5.1e-4),
            (1.0, 4.0, 7.71, 5e-3),
            (1.0, 3.0, 10.13, 5e-3),
        ] {
            let got = passed_by_luck(0.05, freedom, of_scatter).unwrap();
            assert!((got - point).abs() <= half, "{freedom} {of_scatter} {got}");
        }
        // What `tests/handbook/range_of_five.py` prints for the scatter of five runs.
        let got = passed_by_luck(0.01, 1.0, 3.8).unwrap();
        assert!((got - 22.790).abs() < 1e-3, "{got}");
    }

    #[test]
    fn two_in_closed_form() {
        // Law: with ν = 2 the share beyond x is e^(−x/2).
        let got = passed_by_luck(0.01, 2.0, f64::INFINITY).unwrap();
        assert!((got + 2.0 * 0.01_f64.ln()).abs() < 1e-12);
        // Law: the better the scatter is known, the less luck explains, down to the law of a known one.
        let mut last = f64::INFINITY;
        for of_scatter in [1.0, 2.0, 5.0, 30.0, 1000.0, 10_000.0, 10_001.0, f64::INFINITY] {
            let now = passed_by_luck(0.01, 3.0, of_scatter).unwrap();
            assert!(now <= last + 1e-12, "{of_scatter}");
            last = now;
        }
        // The step where the laws are exchanged is as small as it is said to be.
        let step = passed_by_luck(0.01, 3.0, 10_000.0).unwrap() / last;
        assert!(step > 1.0 && step < 1.001, "{step}");
    }

    #[test]
    fn what_has_no_point() {
        for (freedom, of_scatter) in
            [(0.0, 5.0), (0.5, 5.0), (2.0, 0.0), (f64::NAN, 5.0), (2.0, f64::NAN), (f64::INFINITY, 5.0)]
        {
            assert!(passed_by_luck(0.01, freedom, of_scatter).is_none(), "{freedom} {of_scatter}");
        }
        for share in [0.0, 0.06, f64::NAN] {
            assert!(passed_by_luck(share, 1.0, 5.0).is_none(), "{share}");
        }
    }
}
