//! Models: where old weights go back on a shaft of another length, and what each way leaves.

use super::apportion::at_places;
use super::unbalance::{Shares, Spot, Weight, shares};
use crate::quantity::{Angle, Base, Length, clockwise_angle};

/// The end at which the shaft is cut, so that its yoke moves and may be turned. Distances that stay are
/// those from the other end's joint centre, the far datum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutEnd {
    /// The front one.
    Front,
    /// The rear one.
    Rear,
}

/// What is done to the shaft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Joint to joint before.
    pub old: Length,
    /// Joint to joint afterwards.
    pub new: Length,
    /// Where it is cut.
    pub cut: CutEnd,
    /// How far the cut end's yoke was turned against the tube, clockwise.
    pub turned: Angle,
}

/// A way to put weights back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Model {
    /// Each keeps its distance from the yoke that it was nearer to: what it cancelled was taken to lie
    /// there.
    OwnYoke,
    /// Two new ones, at these distances behind the front joint of the new shaft, that do in the joints'
    /// planes what the old ones did.
    SharesKept {
        /// Where the two go.
        places: [Length; 2],
    },
    /// Each keeps its distance from the far datum, though the shaft is another.
    OwnPlaces,
}

/// Weights on the new shaft.
#[derive(Clone, Debug, PartialEq)]
pub struct PutBack {
    /// Each of them: in the order of the old ones, but two for [`Model::SharesKept`].
    pub spots: Vec<Spot>,
    /// Their shares in the joints' planes.
    pub shares: Shares,
    /// The same less those of the old weights on the old shaft, turned as their yokes were: what the model
    /// leaves. Of two models the difference of this is the difference between them.
    pub leaves: Shares,
}

impl Change {
    fn is_sound(&self) -> bool {
        let [old, new] = [self.old, self.new].map(Base::base);
        old > 0.0 && new > 0.0 && old.is_finite() && new.is_finite() && self.turned.is_finite()
    }

    /// A distance behind the front joint as one from the far datum, on a shaft of this length; and back,
    /// which is the same sum.
    fn far_or_front(&self, z: Length, length: Length) -> Length {
        match self.cut {
            CutEnd::Rear => z,
            CutEnd::Front => length - z,
        }
    }

    /// Whether a weight of the old shaft belongs to the yoke at the cut: it stood nearer to that one.
    pub fn moves(&self, weight: &Weight) -> bool {
        self.far_or_front(weight.z, self.old).base() > self.old.base() / 2.0
    }

    /// A weight of the old shaft with its place on the clock as its yoke was turned: what it cancels has
    /// turned with that yoke.
    pub fn turned(&self, weight: &Weight) -> Weight {
        let turn = if self.moves(weight) { self.turned } else { Angle::from_base(0.0) };
        Weight { at: clockwise_angle(weight.at + turn), ..*weight }
    }

    /// The distance from the far datum that a weight has on the new shaft: the one that it had, less what the
    /// shaft lost where it moves with the cut end's yoke.
    pub fn moved_to(&self, distance: Length, with_yoke: bool) -> Length {
        if with_yoke { distance - (self.old - self.new) } else { distance }
    }

    /// The same of a weight of the old shaft, behind the front joint.
    fn placed(&self, weight: &Weight, with_yoke: bool) -> Length {
        let distance = self.moved_to(self.far_or_front(weight.z, self.old), with_yoke);
        self.far_or_front(distance, self.new)
    }
}

/// Where the weights of the old shaft go on the new one by a model, and what that leaves.
///
/// Formula: own yoke: d' = d − (L − L') for the cut end's weights, d' = d for the others; own places:
/// d' = d for all; shares kept: u₁, u₂ at the two places with u₁ + u₂ = A + B and
/// u₁·z₁ + u₂·z₂ = B·L'. Leaves: shares of the new ones on L' less shares of the old ones on L.
/// Symbols: d distance from the far datum, L old and L' new length, A and B the old shares in front and
/// rear. The cut end's weights take the turn of their yoke, in every model, and in the shares that are
/// to be kept.
/// Range: `None` unless both lengths are above 0 and all is finite; and for shares kept, where a place is
/// not on the new shaft or the two are not 1 mm apart. A weight may come to stand off the shaft, before 0
/// or behind L': whoever shows it must look.
/// Source: statics of a rigid body. Which model is true no one can know without a balancing machine: our
/// own choice to offer all three. Assumes that a weight at the middle belongs to the end that is not cut.
pub fn put_back(weights: &[Weight], change: &Change, model: Model) -> Option<PutBack> {
    if !change.is_sound() {
        return None;
    }
    let old: Vec<Weight> = weights.iter().map(|weight| change.turned(weight)).collect();
    let wanted = shares(&old, change.old);
    let spots = match model {
        Model::SharesKept { places } => {
            let new = 0.0..=change.new.base();
            if !places.iter().all(|place| new.contains(&place.base())) {
                return None;
            }
            at_places(wanted, change.new, places)?.to_vec()
        }
        Model::OwnYoke | Model::OwnPlaces => {
            let spot = |weight: &Weight| {
                let with_yoke = model == Model::OwnYoke && change.moves(weight);
                Spot { unbalance: weight.unbalance(), z: change.placed(weight, with_yoke) }
            };
            old.iter().map(spot).collect()
        }
    };
    let shares = spots.iter().fold(Shares::zero(), |sum, spot| sum.with(*spot, change.new));
    let leaves = shares - wanted;
    (shares.are_finite() && leaves.are_finite()).then_some(PutBack { spots, shares, leaves })
}

#[cfg(test)]
mod tests {
    use super::super::across::Across;
    use super::*;
    use crate::quantity::{
        Unbalance, as_gram_millimetres, as_millimetres, degrees, grams, inches, millimetres,
    };

    /// A weight of so many g·mm, at a place in millimetres.
    fn weight(u: f64, at: f64, z: f64) -> Weight {
        Weight { mass: grams(u / 40.0), radius: millimetres(40.0), at: degrees(at), z: millimetres(z) }
    }

    fn change(old: f64, new: f64, cut: CutEnd, turned: f64) -> Change {
        Change { old: millimetres(old), new: millimetres(new), cut, turned: degrees(turned) }
    }

    fn near(got: Across<Unbalance>, size: f64, at: f64) {
        let off = (got - Across::toward(grams(size) * millimetres(1.0), degrees(at))).size();
        assert!(as_gram_millimetres(off) < 1e-9, "{got:?} against {size} at {at}");
    }

    #[test]
    fn one_weight_by_hand() {
        // By hand: 800 g·mm at 90°, 900 of 1000 mm, shares 80 and 720; the rear cut by 200 and turned 30°.
        // Own yoke: at 700 of 800, 100 and 700, so +20 and −20. Own places: at 900 of 800, −100 and 900.
        let old = [weight(800.0, 90.0, 900.0)];
        let cut = change(1000.0, 800.0, CutEnd::Rear, 30.0);
        let got = put_back(&old, &cut, Model::OwnYoke).unwrap();
        assert!((as_millimetres(got.spots[0].z) - 700.0).abs() < 1e-9);
        near(got.spots[0].unbalance, 800.0, 120.0);
        near(got.leaves.front, 20.0, 120.0);
        near(got.leaves.rear, 20.0, 300.0);
        let got = put_back(&old, &cut, Model::OwnPlaces).unwrap();
        assert!((as_millimetres(got.spots[0].z) - 900.0).abs() < 1e-9);
        near(got.leaves.front, 180.0, 300.0);
        near(got.leaves.rear, 180.0, 120.0);
        // Shares kept, at 100 and 700 of 800: 80·700 − 720·100 = −16 000 over 600 at the one,
        // 720·700 − 80·100 = 496 000 over 600 at the other.
        let places = [100.0, 700.0].map(millimetres);
        let got = put_back(&old, &cut, Model::SharesKept { places }).unwrap();
        near(got.spots[0].unbalance, 16_000.0 / 600.0, 300.0);
        near(got.spots[1].unbalance, 496_000.0 / 600.0, 120.0);
        near(got.leaves.front, 0.0, 0.0);
        near(got.leaves.rear, 0.0, 0.0);
    }

    #[test]
    fn the_front_cut_is_the_rear_cut_seen_from_the_other_end() {
        // Law: mirrored, each answer is mirrored.
        let old = [weight(300.0, 20.0, 150.0), weight(500.0, 200.0, 820.0), weight(90.0, 300.0, 560.0)];
        let mirrored = old.map(|one| Weight { z: millimetres(1000.0) - one.z, ..one });
        for model in [Model::OwnYoke, Model::OwnPlaces] {
            let rear = put_back(&old, &change(1000.0, 850.0, CutEnd::Rear, 12.0), model).unwrap();
            let front = put_back(&mirrored, &change(1000.0, 850.0, CutEnd::Front, 12.0), model).unwrap();
            for (one, other) in rear.spots.iter().zip(&front.spots) {
                assert!((as_millimetres(one.z + other.z) - 850.0).abs() < 1e-9);
            }
            let off = (rear.leaves.front - front.leaves.rear).size();
            assert!(as_gram_millimetres(off) < 1e-9);
        }
    }

    #[test]
    fn nothing_changed_leaves_nothing() {
        // Law: the same length and no turn leaves nothing in any model; no weight is no weight.
        let old = [weight(300.0, 20.0, 150.0), weight(500.0, 200.0, 820.0)];
        let same = change(1000.0, 1000.0, CutEnd::Rear, 0.0);
        let places = [200.0, 700.0].map(millimetres);
        for model in [Model::OwnYoke, Model::OwnPlaces, Model::SharesKept { places }] {
            let got = put_back(&old, &same, model).unwrap();
            near(got.leaves.front, 0.0, 0.0);
            near(got.leaves.rear, 0.0, 0.0);
            let none = put_back(&[], &change(1000.0, 800.0, CutEnd::Rear, 9.0), model).unwrap();
            near(none.shares.front, 0.0, 0.0);
        }
    }

    #[test]
    fn what_is_no_answer() {
        // By definition of the ranges.
        let old = [weight(300.0, 20.0, 150.0)];
        for (one, two, turn) in [
            (0.0, 800.0, 0.0),
            (1000.0, 0.0, 0.0),
            (1000.0, -1.0, 0.0),
            (f64::NAN, 800.0, 0.0),
            (1000.0, 800.0, f64::NAN),
        ] {
            assert!(put_back(&old, &change(one, two, CutEnd::Rear, turn), Model::OwnYoke).is_none());
        }
        let cut = change(1000.0, 800.0, CutEnd::Rear, 0.0);
        for places in [[-1.0, 700.0], [100.0, 801.0], [100.0, 100.5], [f64::NAN, 700.0]] {
            let places = places.map(millimetres);
            assert!(put_back(&old, &cut, Model::SharesKept { places }).is_none());
        }
        let bad = Weight { mass: grams(f64::NAN), ..weight(1.0, 0.0, 10.0) };
        assert!(put_back(&[bad], &cut, Model::OwnPlaces).is_none());
        // At the middle a weight belongs to the end that stays.
        assert!(!cut.moves(&weight(1.0, 0.0, 500.0)) && cut.moves(&weight(1.0, 0.0, 500.1)));
        assert!(!cut.moves(&Weight { z: inches(1.0), ..weight(1.0, 0.0, 0.0) }));
    }
}
