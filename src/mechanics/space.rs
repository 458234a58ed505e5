//! Space: vectors without a unit, for where axes point. x runs rearward, y to the right looking
//! forward, z up.

/// A vector by its parts along x, y and z.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Vector(pub(super) [f64; 3]);

/// Straight up.
pub(super) const UP: Vector = Vector([0.0, 0.0, 1.0]);
/// Square to the right.
const RIGHT: Vector = Vector([0.0, 1.0, 0.0]);
/// How much of an axis may point up before a place square to it is taken from the right instead: an
/// axis within 2.6° of upright has no upright side.
const UPRIGHT: f64 = 0.999;

impl Vector {
    /// How much of one lies along the other: |a|·|b|·cos of the angle between them.
    pub(super) fn dot(self, other: Vector) -> f64 {
        let (Vector([a, b, c]), Vector([x, y, z])) = (self, other);
        a * x + b * y + c * z
    }

    /// Square to both, right-handed, as long as |a|·|b|·sin of the angle between them.
    pub(super) fn cross(self, other: Vector) -> Vector {
        let (Vector([a, b, c]), Vector([x, y, z])) = (self, other);
        Vector([b * z - c * y, c * x - a * z, a * y - b * x])
    }

    /// This vector and so many times another.
    pub(super) fn plus(self, times: f64, other: Vector) -> Vector {
        let (Vector([a, b, c]), Vector([x, y, z])) = (self, other);
        Vector([a + times * x, b + times * y, c + times * z])
    }

    /// Its length.
    pub(super) fn size(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The vector of length 1 the same way; `None` where it points nowhere.
    pub(super) fn unit(self) -> Option<Vector> {
        let size = self.size();
        let Vector(parts) = self;
        (size > 0.0 && size.is_finite()).then(|| Vector(parts.map(|part| part / size)))
    }

    /// Two unit vectors square to this unit axis and to each other: as nearly upright as the axis lets
    /// it, and a quarter turn on from there, clockwise for who looks against the axis.
    pub(super) fn sides(self) -> Option<[Vector; 2]> {
        let near = if self.dot(UP).abs() < UPRIGHT { UP } else { RIGHT };
        let upright = near.plus(-near.dot(self), self).unit()?;
        Some([upright, upright.cross(self)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_are_square_and_clockwise() {
        // By definition of the axes: from the rear, upright is up and a quarter turn clockwise is right.
        assert_eq!(Vector([1.0, 0.0, 0.0]).sides(), Some([UP, RIGHT]));
        for parts in
            [[1.0, 0.2, -0.1], [0.001, 0.0, 1.0], [0.0, 0.0, -1.0], [1e-9, 1.0, 1e9], [-3.0, 4.0, 0.5]]
        {
            let axis = Vector(parts).unit().unwrap();
            let [upright, right] = axis.sides().unwrap();
            for (one, other, expected) in [
                (axis, upright, 0.0),
                (axis, right, 0.0),
                (upright, right, 0.0),
                (upright, upright, 1.0),
                (right, right, 1.0),
                // Right-handed about the way one looks, which is against the axis.
                (upright.cross(right), axis, -1.0),
            ] {
                assert!((one.dot(other) - expected).abs() < 1e-14, "{parts:?}");
            }
        }
        assert!(Vector([0.0; 3]).unit().is_none() && Vector([f64::NAN, 0.0, 1.0]).unit().is_none());
        assert!(Vector([f64::INFINITY, 0.0, 1.0]).unit().is_none());
    }
}
