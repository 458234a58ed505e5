//! A beam cut into pieces, with a node wherever something changes.

use super::element::Piece;
use super::{Beam, NoModes, Support};
use crate::quantity::Base;

/// Two places within this share of the whole length are one.
const SAME_PLACE: f64 = 1e-6;
/// Most elements that may be asked for: beyond it nothing is gained and digits are lost.
pub(super) const MOST_ELEMENTS: usize = 400;

/// A node: where it lies, and what is there beside the beam.
#[derive(Clone, Copy)]
pub(super) struct Node {
    pub place: f64,
    pub mass: f64,
    pub inertia: f64,
    pub spring: f64,
    pub is_rigid: bool,
}

/// A piece lies between each node and the next.
pub(super) struct Mesh {
    pub nodes: Vec<Node>,
    pub pieces: Vec<Piece>,
}

/// Puts a place among the others, which run upward, unless it is there already.
fn put(places: &mut Vec<f64>, place: f64, near: f64) {
    let at = places.iter().position(|have| *have > place - near).unwrap_or(places.len());
    if places.get(at).is_none_or(|have| *have >= place + near) {
        places.insert(at, place);
    }
}

/// The node at a place; every place that is asked for has one.
fn at(nodes: &mut [Node], place: f64, near: f64) -> Option<&mut Node> {
    nodes.iter_mut().find(|node| (node.place - place).abs() <= near)
}

impl Mesh {
    /// The beam in about so many elements, at least one between any two places where something changes,
    /// spread by length.
    pub fn of(beam: &Beam, elements: usize) -> Result<Mesh, NoModes> {
        if elements > MOST_ELEMENTS {
            return Err(NoModes::TooFine);
        }
        let whole: f64 = beam.stretches.iter().map(|stretch| stretch.length.base()).sum();
        let near = SAME_PLACE * whole;
        if !(whole > 0.0 && whole.is_finite()) {
            return Err(NoModes::NoLength);
        }
        let mut places = vec![0.0];
        let mut end = 0.0;
        for stretch in &beam.stretches {
            // A stretch that falls into one place would be left out unsaid.
            if stretch.length.base().is_nan() || stretch.length.base() <= 2.0 * near {
                return Err(NoModes::NoLength);
            }
            if !stretch.section.is_sound() {
                return Err(NoModes::NoSuchSection);
            }
            end += stretch.length.base();
            put(&mut places, end, near);
        }
        let given = beam.lumps.iter().map(|lump| lump.z).chain(beam.held.iter().map(|held| held.z));
        for place in given.map(Base::base) {
            if !(place >= -near && place <= end + near) {
                return Err(NoModes::Outside);
            }
            put(&mut places, place, near);
        }
        let mut mesh = Mesh { nodes: Vec::new(), pieces: Vec::new() };
        mesh.cut(beam, &places, elements as f64 / end);
        mesh.load(beam, near)?;
        Ok(mesh)
    }

    /// Nodes and pieces, so many a metre.
    fn cut(&mut self, beam: &Beam, places: &[f64], per_metre: f64) {
        let mut node = |place: f64| {
            self.nodes.push(Node { place, mass: 0.0, inertia: 0.0, spring: 0.0, is_rigid: false });
        };
        let mut stretches = beam.stretches.iter();
        let mut now = stretches.next();
        let mut end = now.map_or(0.0, |stretch| stretch.length.base());
        for (from, to) in places.iter().zip(places.iter().skip(1)) {
            let long = to - from;
            while from + long / 2.0 > end {
                let Some(next) = stretches.next() else { break };
                end += next.length.base();
                now = Some(next);
            }
            let Some(stretch) = now else { return };
            let count = (long * per_metre).round().max(1.0) as usize;
            for i in 0..count {
                node(from + long * (i as f64 / count as f64));
                self.pieces.push(Piece { length: long / count as f64, section: stretch.section });
            }
        }
        if let Some(last) = places.last() {
            node(*last);
        }
    }

    /// Lumps and supports, each at its node.
    fn load(&mut self, beam: &Beam, near: f64) -> Result<(), NoModes> {
        let sound = |number: f64| number >= 0.0 && number.is_finite();
        for lump in &beam.lumps {
            let (mass, inertia) = (lump.mass.base(), lump.inertia.base());
            if !(sound(mass) && sound(inertia)) {
                return Err(NoModes::NoSuchLump);
            }
            let node = at(&mut self.nodes, lump.z.base(), near).ok_or(NoModes::Outside)?;
            node.mass += mass;
            node.inertia += inertia;
        }
        for held in &beam.held {
            let node = at(&mut self.nodes, held.z.base(), near).ok_or(NoModes::Outside)?;
            match held.by {
                Support::Rigid => node.is_rigid = true,
                Support::Spring(rate) if sound(rate.base()) => node.spring += rate.base(),
                Support::Spring(_) => return Err(NoModes::NoSuchSupport),
            }
        }
        let held = self.nodes.iter().filter(|node| node.is_rigid || node.spring > 0.0).count();
        if held < 2 { Err(NoModes::NotHeld) } else { Ok(()) }
    }
}
