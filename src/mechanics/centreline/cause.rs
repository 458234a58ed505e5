//! What bends a centreline: the shape of each cause, and what a set-up leaves to be seen of it.

use crate::quantity::{Angle, Base, Length};

/// How near the weld a place may stand before its side is no longer taken from its figure, in metres.
/// A dial's foot is not set closer, and two lengths reckoned from each other miss by less.
pub(in crate::mechanics) const AT_THE_WELD: f64 = 0.001;

/// What the shaft turns about while it is read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Axis {
    /// Both joints' centres.
    Joints,
    /// The front joint's centre; the tail end is held, but where is not known: a slip yoke in the gearbox.
    FrontJoint,
    /// The tube itself as it lies in two vees.
    Vees {
        /// The vee nearer the front joint, from its centre.
        front: Length,
        /// The vee nearer the rear joint, from the front joint's centre.
        rear: Length,
    },
    /// Centres that may stand anywhere across the shaft.
    Free,
}

/// What can set a tube off its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// The two pieces meet at the weld at an angle.
    Kink,
    /// The rear piece stands beside the front piece at the weld, parallel to it.
    Step,
    /// The tube is bowed evenly from joint to joint.
    Bow,
    /// The front yoke is bent or welded off its place.
    FrontYoke,
    /// The rear yoke is bent or welded off its place.
    RearYoke,
}

impl Cause {
    /// Every cause, for walking through them.
    pub const ALL: [Cause; 5] =
        [Cause::Kink, Cause::Step, Cause::Bow, Cause::FrontYoke, Cause::RearYoke];
}

/// The shaft, as far as its centreline needs it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shaft {
    /// From joint centre to joint centre.
    pub length: Length,
    /// The weld, from the front joint's centre.
    pub weld: Length,
}

impl Shaft {
    /// Length and place of the weld in metres; `None` unless 0 < weld < length.
    pub(super) fn sound(&self) -> Option<(f64, f64)> {
        let (length, weld) = (self.length.base(), self.weld.base());
        (length.is_finite() && weld > 0.0 && weld < length).then_some((length, weld))
    }

    /// Whether a place belongs to the piece before the weld. At the weld it belongs to the longer piece,
    /// which is the tube; the short one is a yoke's neck.
    fn is_before(&self, z: f64) -> bool {
        let (length, weld) = (self.length.base(), self.weld.base());
        if (z - weld).abs() < AT_THE_WELD { weld > length - weld } else { z < weld }
    }

    /// The offset at z, in metres, that a cause of size one makes while the shaft turns about its joints'
    /// centres.
    ///
    /// Formula: kink z/w before and (L − z)/(L − w) after the weld; step −z/L before and 1 − z/L after;
    /// bow 4z(L − z)/L²; front yoke 1 − z/L; rear yoke z/L. Each is 1 where it makes most but the step,
    /// whose two sides are 1 apart.
    /// Symbols: L length, w the weld's place.
    /// Source: geometry of a straight or once broken line pinned at z = 0 and L, the bow a parabola. A
    /// kink by the angle κ makes κ·z·(L − w)/L before the weld and κ·w·(L − z)/L after, so κ·w·(L − w)/L
    /// at it.
    pub(in crate::mechanics) fn shape(&self, cause: Cause, z: f64) -> f64 {
        let (length, weld) = (self.length.base(), self.weld.base());
        let along = z / length;
        match cause {
            Cause::Kink if z <= weld => z / weld,
            Cause::Kink => (length - z) / (length - weld),
            Cause::Step if self.is_before(z) => -along,
            Cause::Step | Cause::FrontYoke => 1.0 - along,
            Cause::Bow => 4.0 * along * (1.0 - along),
            Cause::RearYoke => along,
        }
    }

    /// The same as the set-up shows it. In two vees the line through both of them is nothing, whatever
    /// the joints do.
    pub(super) fn shown(&self, axis: Axis, cause: Cause, z: f64) -> f64 {
        let shape = self.shape(cause, z);
        let Axis::Vees { front, rear } = axis else {
            return shape;
        };
        let (front, rear) = (front.base(), rear.base());
        let [at_front, at_rear] = [front, rear].map(|vee| self.shape(cause, vee));
        shape - at_front - (at_rear - at_front) * (z - front) / (rear - front)
    }

    /// How much of a kink's offset at the weld a set-up shows at a place: under 0 where its high side reads
    /// low, as on the piece that swings beyond both vees.
    pub fn kink_shown(&self, axis: Axis, place: Length) -> f64 {
        self.shown(axis, Cause::Kink, place.base())
    }

    /// The angle of a kink that makes this offset at the weld: e·L/(w·(L − w)).
    pub(super) fn kink(&self, at_weld: Length) -> Angle {
        let (length, weld) = (self.length.base(), self.weld.base());
        Angle::from_base(at_weld.base() * length / (weld * (length - weld)))
    }
}

impl Axis {
    /// The powers of z/L that the set-up adds to every turn, no one knows how much of them.
    pub(super) fn free(self) -> &'static [i32] {
        match self {
            Axis::Joints | Axis::Vees { .. } => &[],
            Axis::FrontJoint => &[1],
            Axis::Free => &[0, 1],
        }
    }

    /// Whether the vees, where there are any, stand on the shaft and apart, the front one in front.
    pub(super) fn is_sound(self, length: f64) -> bool {
        let Axis::Vees { front, rear } = self else {
            return true;
        };
        let (front, rear) = (front.base(), rear.base());
        front >= 0.0 && rear <= length && rear - front >= AT_THE_WELD
    }
}

/// How much the joint between the two pieces must open at the rim to move the tube by `offset_at` at a
/// place. The tube moves toward the side that is opened.
///
/// Formula: D·κ, κ = e·L/(z·(L − w)) up to the weld, e·L/(w·(L − z)) behind it.
/// Symbols: e offset to be made at z, of either sign, the answer of the same; L length, w the weld's
/// place; D diameter of the tube.
/// Range: `None` unless 0 < z < L, 0 < w < L, D > 0, all finite.
/// Source: the kink's shape about the joints' centres, for small angles; it is opened on the low side.
/// Assumes that the pieces turn about the rim opposite, and that the shaft is judged about its joints.
pub fn opening(offset_at: Length, place: Length, shaft: &Shaft, diameter: Length) -> Option<Length> {
    let (length, weld) = shaft.sound()?;
    let (z, diameter) = (place.base(), diameter.base());
    if !(z > 0.0 && z < length && diameter > 0.0) {
        return None;
    }
    let lever = if z <= weld { z * (length - weld) } else { weld * (length - z) };
    let opened = offset_at.base() * length / lever * diameter;
    opened.is_finite().then(|| Length::from_base(opened))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{as_millimetres, millimetres};

    /// 1500 mm between the joints, welded 100 mm before the rear one.
    fn shaft() -> Shaft {
        Shaft { length: millimetres(1500.0), weld: millimetres(1400.0) }
    }

    fn close(value: f64, expected: f64) {
        assert!((value - expected).abs() < 1e-12, "{value} against {expected}");
    }

    #[test]
    fn shapes_by_hand() {
        // Derived by hand. A kink of 0.03 rad: 0.03·700·100/1500 = 1.4 mm half way to the weld,
        // 0.03·1400·100/1500 = 2.8 at it, 0.03·1400·50/1500 = 1.4 half way behind it.
        let shaft = shaft();
        let at = |cause: Cause, z: f64| shaft.shape(cause, z / 1000.0);
        close(shaft.kink(millimetres(2.8)).base(), 0.03);
        for (z, offset) in [(0.0, 0.0), (700.0, 1.4), (1400.0, 2.8), (1450.0, 1.4), (1500.0, 0.0)] {
            close(2.8 * at(Cause::Kink, z), offset);
        }
        // A step of 3: the front piece stands 3·700/1500 = 1.4 low in its middle, the rear one
        // 3·(1 − 1450/1500) = 0.1 high.
        close(3.0 * at(Cause::Step, 700.0), -1.4);
        close(3.0 * at(Cause::Step, 1450.0), 0.1);
        // A bow of 2: 4·2·300·1200/1500² = 1.28 at a fifth. Yokes off by 5: 4 and 1 there.
        close(2.0 * at(Cause::Bow, 300.0), 1.28);
        close(5.0 * at(Cause::FrontYoke, 300.0), 4.0);
        close(5.0 * at(Cause::RearYoke, 300.0), 1.0);
        // Within a millimetre of the weld stands the tube, here the front piece; beyond it the neck.
        for (z, before) in [(1398.9, true), (1399.5, true), (1400.9, true), (1401.1, false)] {
            assert_eq!(at(Cause::Step, z) < 0.0, before, "{z}");
        }
        let front_weld = Shaft { weld: millimetres(100.0), ..shaft };
        for (z, before) in [(98.9, true), (99.1, false), (100.0, false), (101.1, false)] {
            assert_eq!(front_weld.shape(Cause::Step, z / 1000.0) < 0.0, before, "{z}");
        }
    }

    #[test]
    fn two_vees_show_nothing_at_themselves_and_nothing_of_a_yoke() {
        // Laws of the set-up; and by hand: a kink of 2.8 at the weld between vees at 200 and 1450, where
        // it makes 0.4 and 1.4: 2.8 − 0.4 − 1200/1250·1.0 = 1.44.
        let shaft = shaft();
        let axis = Axis::Vees { front: millimetres(200.0), rear: millimetres(1450.0) };
        close(2.8 * shaft.shown(axis, Cause::Kink, 1.4), 1.44);
        for cause in Cause::ALL {
            close(shaft.shown(axis, cause, 0.2), 0.0);
            close(shaft.shown(axis, cause, 1.45), 0.0);
        }
        for z in [0.0, 0.3, 0.9, 1.42, 1.5] {
            close(shaft.shown(axis, Cause::FrontYoke, z), 0.0);
            close(shaft.shown(axis, Cause::RearYoke, z), 0.0);
        }
    }

    #[test]
    fn opened_at_the_rim() {
        // Derived by hand: to move the middle of the front piece by 0.35 mm, κ = 0.35·1500/(700·100)
        // = 0.0075, on 80 mm 0.6; half way behind the weld κ = 0.35·1500/(1400·50), the same.
        let ask = |e: f64, z: f64, d: f64| {
            opening(millimetres(e), millimetres(z), &shaft(), millimetres(d)).map(as_millimetres)
        };
        close(ask(0.35, 700.0, 80.0).unwrap(), 0.6);
        close(ask(0.35, 1450.0, 80.0).unwrap(), 0.6);
        close(ask(-0.35, 1450.0, 80.0).unwrap(), -0.6);
        for z in [0.0, 1500.0, -1.0, 1501.0, f64::NAN] {
            assert!(ask(0.35, z, 80.0).is_none(), "{z}");
        }
        assert!(ask(0.35, 700.0, 0.0).is_none() && ask(f64::NAN, 700.0, 80.0).is_none());
        assert!(ask(f64::INFINITY, 700.0, 80.0).is_none());
        for weld in [0.0, 1500.0, -5.0, f64::NAN] {
            let bad = Shaft { weld: millimetres(weld), ..shaft() };
            assert!(opening(millimetres(0.1), millimetres(700.0), &bad, millimetres(80.0)).is_none());
        }
    }
}
