//! Fisher's law: whether one scatter is larger than another by more than luck.

/// Steps of the continued fraction; it converges in some √(larger freedom) of them.
const MOST_STEPS: u32 = 200;
/// Where a step of the fraction changes the last bit no more.
const LAST_BIT: f64 = 1e-16;
/// Stands in for a zero denominator of the fraction (Lentz's method).
const TINY: f64 = 1e-300;

/// The share of Fisher's law beyond a ratio of two mean squares: how often luck alone would make the
/// ratio this large or larger.
///
/// Formula: Q(F|ν₁, ν₂) = I_x(ν₂/2, ν₁/2), x = ν₂/(ν₂ + ν₁F), I the incomplete beta function's ratio,
/// by its continued fraction.
/// Symbols: F ratio, 0 and up; ν₁, ν₂ degrees of freedom of its upper and lower mean square, above 0.
/// Range: `None` for anything else, or where the fraction does not settle.
/// Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.6.2 and 26.5.8 (from memory);
/// checked against published tables. Assumes normal scatter.
pub fn beyond(ratio: f64, upper: f64, lower: f64) -> Option<f64> {
    let fine = ratio >= 0.0 && upper > 0.0 && lower > 0.0;
    let finite = ratio.is_finite() && upper.is_finite() && lower.is_finite();
    if !(fine && finite) {
        return None;
    }
    let x = lower / (lower + upper * ratio);
    beta_ratio(0.5 * lower, 0.5 * upper, x)
}

/// I_x(a, b).
fn beta_ratio(a: f64, b: f64, x: f64) -> Option<f64> {
    if x <= 0.0 || x >= 1.0 {
        return Some(x.clamp(0.0, 1.0));
    }
    // The fraction settles fast below the law's middle; above it the other side is taken.
    let front = (ln_gamma(a + b) - ln_gamma(a) - ln_gamma(b) + a * x.ln() + b * (1.0 - x).ln()).exp();
    if x < (a + 1.0) / (a + b + 2.0) {
        Some(front * fraction(a, b, x)? / a)
    } else {
        Some(1.0 - front * fraction(b, a, 1.0 - x)? / b)
    }
}

/// The continued fraction of the incomplete beta function, by Lentz's method.
fn fraction(a: f64, b: f64, x: f64) -> Option<f64> {
    let not_zero = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut c = 1.0;
    let mut d = 1.0 / not_zero(1.0 - (a + b) * x / (a + 1.0));
    let mut whole = d;
    for step in 1..MOST_STEPS {
        let m = f64::from(step);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let before = whole;
        for part in [even, odd] {
            d = 1.0 / not_zero(1.0 + part * d);
            c = not_zero(1.0 + part / c);
            whole *= c * d;
        }
        if (whole - before).abs() <= LAST_BIT * whole.abs() {
            return Some(whole);
        }
    }
    None
}

/// ln Γ(z) for z above 0: Stirling's series, the argument raised until its rest is under 1e-13.
pub(super) fn ln_gamma(z: f64) -> f64 {
    let (mut z, mut lowered) = (z, 0.0);
    while z < 12.0 {
        lowered += z.ln();
        z += 1.0;
    }
    let inverse = 1.0 / (z * z);
    let series =
        (1.0 / 12.0 - inverse * (1.0 / 360.0 - inverse * (1.0 / 1260.0 - inverse / 1680.0))) / z;
    (z - 0.5) * z.ln() - z + 0.5 * core::f64::consts::TAU.ln() + series - lowered
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::student::coverage_95;

    #[test]
    fn points_of_published_tables() {
        // Published: 95 % points of F (any table; from memory), two decimals: 5 % lie beyond each.
        for (upper, lower, point) in [
            (1.0, 1.0, 161.45),
            (2.0, 3.0, 9.55),
            (2.0, 10.0, 4.10),
            (3.0, 7.0, 4.35),
            (4.0, 6.0, 4.53),
            (5.0, 20.0, 2.71),
            (10.0, 30.0, 2.16),
            (12.0, 120.0, 1.83),
        ] {
            // A unit in the point's second decimal moves the share by less than half of it.
            let near = |at: f64| beyond(at, upper, lower).unwrap();
            assert!(near(point - 0.0051) > 0.05 && near(point + 0.0051) < 0.05, "{upper} {lower}");
        }
    }

    #[test]
    fn two_and_any_in_closed_form() {
        // Law: with ν₁ = 2 the share is (1 + 2F/ν₂)^(−ν₂/2).
        for lower in [1.0, 3.0, 6.0, 31.0, 400.0] {
            for ratio in [0.0, 0.01, 0.5, 1.0, 4.0, 30.0] {
                let closed = (1.0_f64 + 2.0 * ratio / lower).powf(-0.5 * lower);
                assert!((beyond(ratio, 2.0, lower).unwrap() - closed).abs() < 1e-12, "{lower} {ratio}");
            }
        }
    }

    #[test]
    fn one_is_student_squared() {
        // Law: with ν₁ = 1 the ratio is Student's t squared.
        for lower in [1.0, 2.0, 5.0, 19.0, 250.0] {
            let t = coverage_95(lower);
            assert!((beyond(t * t, 1.0, lower).unwrap() - 0.05).abs() < 1e-10, "{lower}");
        }
    }

    #[test]
    fn what_is_no_ratio() {
        for (ratio, upper, lower) in [
            (-0.1, 2.0, 3.0),
            (1.0, 0.0, 3.0),
            (1.0, 2.0, 0.0),
            (f64::NAN, 2.0, 3.0),
            (1.0, f64::INFINITY, 3.0),
        ] {
            assert!(beyond(ratio, upper, lower).is_none(), "{ratio} {upper} {lower}");
        }
    }
}
