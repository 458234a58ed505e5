//! Student's t and Fisher's F for the ± that results carry.

/// Degrees of freedom above which Student's t is taken as the normal law. At 1000 the two differ by
/// 0.0023 of 1.96, far under the last digit shown.
const AS_GOOD_AS_NORMAL: u32 = 1000;
/// The normal law's two-sided 95 % factor (JCGM 100:2008, table G.1, there 1.960).
const NORMAL_95: f64 = 1.959_963_984_540_054;
/// Halvings of a bracket of 0 to 1000: enough for the last bit of a double.
const HALVINGS: u32 = 64;

/// The coverage factor t for 95 % two-sided coverage.
///
/// Formula: the t at which A(t|ν) = 0.95, A the two-sided probability of Student's law, by its finite
/// series for whole ν, bracketed and halved a fixed number of times.
/// Symbols: ν degrees of freedom, 1 and up; infinite where nothing was estimated from scatter. A
/// broken ν is cut down to a whole number, as the GUM advises (G.4.1); below 1 it counts as 1.
/// Source: JCGM 100:2008 (GUM) annex G; series Abramowitz & Stegun, Handbook of Mathematical
/// Functions, 26.7.3 and 26.7.4 (from memory, checked against GUM table G.2).
pub fn coverage_95(freedom: f64) -> f64 {
    if !freedom.is_finite() || freedom > f64::from(AS_GOOD_AS_NORMAL) {
        return NORMAL_95;
    }
    quantile(0.95, freedom.floor().max(1.0) as u32)
}

/// The two-sided quantile of Student's law for whole degrees of freedom, 1 to 1000.
fn quantile(probability: f64, freedom: u32) -> f64 {
    let (mut low, mut high) = (0.0, 1000.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if within(middle, freedom) < probability {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// A(t|ν): the probability that Student's variable lies within ±t.
fn within(t: f64, freedom: u32) -> f64 {
    let theta = (t / f64::from(freedom).sqrt()).atan();
    let (sin, cos) = theta.sin_cos();
    if freedom % 2 == 1 {
        let mut term = cos;
        let mut sum = if freedom > 1 { term } else { 0.0 };
        for k in (3..freedom).step_by(2) {
            term *= cos * cos * f64::from(k - 1) / f64::from(k);
            sum += term;
        }
        (theta + sin * sum) * core::f64::consts::FRAC_2_PI
    } else {
        let mut term = 1.0;
        let mut sum = term;
        for k in (2..freedom).step_by(2) {
            term *= cos * cos * f64::from(k - 1) / f64::from(k);
            sum += term;
        }
        sin * sum
    }
}

/// The factor on a vector's standard uncertainty (the same in every direction) that gives the radius
/// of its 95 % circle, √(2·F₀.₉₅(2, ν)).
///
/// Formula: F₀.₉₅(2, ν) = (ν/2)·(0.05^(−2/ν) − 1), closed because the first degree of freedom is 2;
/// for ν without limit 2F = −2·ln 0.05 (5.991).
/// Symbols: ν degrees of freedom of the scatter, above 0.
/// Source: Abramowitz & Stegun 26.6 (from memory); derived by integrating F's density for 2.
pub fn circle_95(freedom: f64) -> f64 {
    if !freedom.is_finite() || freedom > 1e6 {
        return (-2.0 * 0.05_f64.ln()).sqrt();
    }
    let nu = freedom.max(1.0);
    (nu * (0.05_f64.powf(-2.0 / nu) - 1.0)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn coverage_against_the_gum() {
        // Published: JCGM 100:2008 table G.2, t for 95 % and ν degrees of freedom, two decimals.
        for (freedom, t) in [
            (1.0, 12.71),
            (2.0, 4.30),
            (3.0, 3.18),
            (4.0, 2.78),
            (5.0, 2.57),
            (8.0, 2.31),
            (10.0, 2.23),
            (16.0, 2.12),
            (20.0, 2.09),
            (50.0, 2.01),
            (f64::INFINITY, 1.96),
        ] {
            assert!((coverage_95(freedom) - t).abs() <= 0.005_01, "{freedom}");
        }
        // The same table at 99 %: ν 16 gives 2.92.
        assert!((quantile(0.99, 16) - 2.92).abs() <= 0.005_01);
        // GUM G.4.1: a broken ν is cut down.
        assert!((coverage_95(16.7) - coverage_95(16.0)).abs() < 1e-12);
    }

    #[test]
    fn circle_reaches_its_limit() {
        // Published: the 95 % point of chi-squared with two degrees of freedom is 5.991 (any table).
        assert!((circle_95(f64::INFINITY).powi(2) - 5.991).abs() < 0.0005);
        // Published: F 95 % (2, 3) = 9.55, (2, 5) = 5.79, (2, 10) = 4.10 (any F table; from memory).
        for (nu, f) in [(3.0, 9.55), (5.0, 5.79), (10.0, 4.10)] {
            assert!((circle_95(nu).powi(2) / 2.0 - f).abs() < 0.006, "{nu}");
        }
    }

    #[test]
    fn never_grows_with_more_knowledge() {
        // Law: more degrees of freedom never widen the factor.
        let mut last = f64::INFINITY;
        for nu in 1..1200 {
            let factor = coverage_95(f64::from(nu));
            assert!(factor <= last && factor.is_finite());
            last = factor;
        }
    }
}
