//! Uneven: how unevenly a joint, or a line of joints, passes a turn on.
//!
//! A joint carries the line through its driving ears over to the driven ones by a linear map: it is
//! laid down on the plane across the other shaft and turned a quarter. Linear maps one after another
//! are one linear map, so joints in series, with any phase and in any planes, pass a turn on exactly as
//! one single joint does. A complex number holds such a joint: its size is t = tan²(β/2), and half its
//! angle the place of its plane.

/// One joint, or joints in series seen as one: a complex number of size t = tan²(β/2) < 1, angles
/// clockwise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Uneven {
    re: f64,
    im: f64,
}

/// What is passed on at one place of the turn.
pub(super) struct Passed {
    /// Driven speed over driving speed.
    pub(super) ratio: f64,
    /// What the ratio gains a radian of the driving turn.
    pub(super) gain: f64,
    /// How far the driven side is ahead, in radians, less the mean.
    pub(super) lead: f64,
}

impl Uneven {
    /// The joint between a shaft and one at a cosine `along` it, with parts `up` and `right` across it.
    ///
    /// Formula: k = ((u + i·r)/(1 + c))²: (sin β/(1 + cos β))² = tan²(β/2), twice the plane's angle.
    pub(super) fn joint(along: f64, [up, right]: [f64; 2]) -> Uneven {
        let (up, right) = (up / (1.0 + along), right / (1.0 + along));
        Uneven { re: up * up - right * right, im: 2.0 * up * right }
    }

    /// This joint and behind it another, whose driving ears are turned by `phase` against the first
    /// one's driven ears.
    ///
    /// Formula: k = (k₁ − q)/(1 − k̄₁·q), q = k₂·e^(−2iψ).
    pub(super) fn then(self, phase: f64, next: Uneven) -> Uneven {
        let (sin, cos) = (-2.0 * phase).sin_cos();
        let turned = Uneven { re: next.re * cos - next.im * sin, im: next.re * sin + next.im * cos };
        let (re, im) = (self.re - turned.re, self.im - turned.im);
        let under_re = 1.0 - (self.re * turned.re + self.im * turned.im);
        let under_im = self.im * turned.re - self.re * turned.im;
        let square = under_re * under_re + under_im * under_im;
        Uneven {
            re: (re * under_re + im * under_im) / square,
            im: (im * under_re - re * under_im) / square,
        }
    }

    /// t = tan²(β/2).
    pub(super) fn size(self) -> f64 {
        self.re.hypot(self.im)
    }

    /// What is passed on when the driving ears stand at `turn`, in radians.
    ///
    /// Formula: with w = k·e^(−2iθ): ω₂/ω₁ = (1 − t²)/|1 − w|², its gain 4(1 − t²)·Im w/|1 − w|⁴, the
    /// lead the angle of 1 − w.
    pub(super) fn at(self, turn: f64) -> Passed {
        let (sin, cos) = (-2.0 * turn).sin_cos();
        let (re, im) = (self.re * cos - self.im * sin, self.re * sin + self.im * cos);
        let square = (1.0 - re) * (1.0 - re) + im * im;
        let even = 1.0 - (self.re * self.re + self.im * self.im);
        Passed {
            ratio: even / square,
            gain: 4.0 * even * im / (square * square),
            lead: (-im).atan2(1.0 - re),
        }
    }
}

/// Least and greatest ratio of a joint of this t = tan²(β/2): cos β and its inverse.
pub(super) fn ratios(size: f64) -> (f64, f64) {
    ((1.0 - size) / (1.0 + size), (1.0 + size) / (1.0 - size))
}

/// Greatest gain of a joint of this t = tan²(β/2).
///
/// Formula: 4t·(1 − t²)·√(1 − x²)/(1 + t² − 2t·x)², the gain where its own gain is nothing:
/// x = cos 2γ = 8t/(1 + t² + √((1 + t²)² + 32t²)).
pub(super) fn greatest_gain(size: f64) -> f64 {
    let sum = 1.0 + size * size;
    let x = 8.0 * size / (sum + (sum * sum + 32.0 * size * size).sqrt());
    let under = sum - 2.0 * size * x;
    4.0 * size * (1.0 - size * size) * (1.0 - x * x).sqrt() / (under * under)
}
