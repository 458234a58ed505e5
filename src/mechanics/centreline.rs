//! Centreline: what explains the offsets found at several places along the tube.

use super::across::Across;
use super::uncertainty::Spread;
use crate::quantity::{Angle, Base, Length};
use bench::Bench;
pub(super) use cause::AT_THE_WELD;
pub use cause::{Axis, Cause, Shaft, opening};

mod bench;
mod cause;

/// How often luck must leave as much as is left, or an explanation is given up. A true one is then given
/// up once in twenty times.
const EXPLAINS: f64 = 0.05;
/// How near two misfits count as one: shapes that no place tells apart differ by rounding alone.
const ONE_MISFIT: f64 = 1e-9;
/// The same where all but nothing is left, as a share of what a straight shaft leaves.
const LAST_BIT: f64 = 1e-17;

/// What one turn of readings found at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Its distance behind the front joint's centre.
    pub z: Length,
    /// How far and to which side the tube stands off what it turns about.
    pub offset: Across<Length>,
    /// Covariance of the offset for readings of unit variance: up with up, up with right, right with
    /// right.
    pub unit_covariance: [f64; 3],
    /// Scatter of one reading of this turn, with its degrees of freedom; infinite where it is the dial's
    /// line.
    pub scatter: Spread<Length>,
}

/// Why the offsets cannot be looked into.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotExplained {
    /// Too few places to have one left over for doubt.
    TooFew {
        /// Places read.
        got: usize,
        /// Places needed in this set-up.
        needed: usize,
    },
    /// Two turns less than 1 mm apart.
    SamePlace {
        /// The place of the first of them.
        z: Length,
    },
    /// A place before the front or behind the rear joint.
    OffTheShaft {
        /// That place.
        z: Length,
    },
    /// The weld is not between the joints, or the vees are not on the shaft one behind the other.
    BadGeometry,
    /// The readings do not tell an offset at some place, or have no scatter at all.
    BadSpread,
    /// A number that is none, or too large or small to be reckoned with.
    NotFinite,
}

/// A cause and what it has to be to come nearest to the offsets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suspect {
    /// What it is.
    pub cause: Cause,
    /// The offset that it makes about the joints' centres where it makes most, toward the high side: a
    /// kink at the weld, a bow half way, a yoke at its joint; of a step, how far the rear piece stands
    /// beside the front one.
    pub size: Across<Length>,
    /// Radius of the circle round the size that holds the true one in 95 of 100 cases.
    pub circle: Length,
    /// Standard uncertainty of the size in its worst direction.
    pub standard: Length,
    /// What is left at the places, root mean square of its sizes. Of a pair: what both leave.
    pub left: Length,
    /// How often the readings' scatter alone would leave as much or more. Of a pair: as both leave.
    pub luck: f64,
    /// Sum of squares left, for readings of unit variance.
    misfit: f64,
    /// What the set-up's free terms come to: at the front joint, and what they gain to the rear one.
    rigid: [Across<Length>; 2],
    shaft: Shaft,
    axis: Axis,
}

/// Two causes that together come near to the offsets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// The one, in the order of [`Cause::ALL`].
    pub one: Suspect,
    /// The other.
    pub other: Suspect,
}

/// What the offsets let be said.
#[derive(Clone, Debug, PartialEq)]
pub struct Explained {
    /// Whether a straight shaft in this set-up would often enough look like this.
    pub straight: bool,
    /// How often the scatter alone would set a straight shaft off as much or more.
    pub straight_luck: f64,
    /// Scatter of one reading, of all turns together.
    pub scatter: Spread<Length>,
    /// Each cause by itself, the one that leaves least first; where the places cannot tell two apart, in
    /// the order of [`Cause::ALL`].
    pub single: Vec<Suspect>,
    /// Where the shaft is not straight and no single cause explains it: the two that do and leave least.
    pub pair: Option<Pair>,
    /// How many pairs explain it then, the one above among them.
    pub pairs: usize,
    /// Causes of which these places in this set-up show nothing.
    pub cannot_show: Vec<Cause>,
}

impl Suspect {
    /// Whether luck leaves as much often enough, once in twenty times.
    pub fn explains(&self) -> bool {
        self.luck >= EXPLAINS
    }

    /// Whether the size stands clear of the noise: its circle leaves out the shaft without it.
    pub fn is_seen(&self) -> bool {
        self.size.size() > self.circle
    }

    /// The angle between the two pieces, of a kink; it is high on the side of [`Suspect::size`].
    ///
    /// Formula: κ = e·L/(w·(L − w)), e offset at the weld, L length, w the weld's place.
    pub fn kink(&self) -> Option<Angle> {
        (self.cause == Cause::Kink).then(|| self.shaft.kink(self.size.size()))
    }

    /// The offset that this cause alone shows at a place as it was read, with what the set-up adds. Of a
    /// pair ask [`Pair::at`].
    pub fn at(&self, z: Length) -> Across<Length> {
        let [start, gain] = self.rigid;
        self.own(z) + start + gain.scaled(z.base() / self.shaft.length.base())
    }

    /// The same without what the set-up adds.
    pub fn own(&self, z: Length) -> Across<Length> {
        self.size.scaled(self.shaft.shown(self.axis, self.cause, z.base()))
    }

    /// The offset that this cause makes at a place while the shaft turns about its joints' centres, whatever
    /// the set-up in which it was read.
    pub fn about_joints(&self, z: Length) -> Across<Length> {
        self.size.scaled(self.shaft.shape(self.cause, z.base()))
    }
}

impl Pair {
    /// The offset that both together show at a place as it was read, with what the set-up adds.
    pub fn at(&self, z: Length) -> Across<Length> {
        self.one.at(z) + self.other.own(z)
    }
}

impl Explained {
    /// The single causes that explain the offsets. These places cannot tell them apart.
    pub fn possible(&self) -> impl Iterator<Item = &Suspect> {
        self.single.iter().filter(|suspect| suspect.explains())
    }
}

/// Finds what explains the offsets along a shaft: nothing at all, one cause, or two.
///
/// Formula: weighted least squares of c(z) = Σ size·shape(z) + free terms, c, size and free terms vectors
/// across the tube; each place weighs by the inverse of its covariance. Size's u = s·√(worst direction's
/// variance), its circle u·√(2F₀.₉₅(2, ν)); luck Q(Q/(2(n − k)s²) | 2(n − k), ν), Q the weighted sum of
/// squares left by k vectors at n places.
/// Symbols: shapes as [`Suspect::size`] says, pinned at both joints' centres; free terms by the set-up:
/// none about the joints, b·z where only the front joint is known, a + b·z on free centres; in two vees
/// each shape less its line through them. s² mean square of the turns' scatters weighted by their
/// freedom, ν the sum of it; where no turn has a finite one, that of the lines, ν infinite.
/// Range: places 0 to L, 1 mm apart, at least two more than free terms; 0 < w < L. A place within 1 mm of
/// the weld counts to the longer piece, the tube.
/// Source: geometry for the shapes; JCGM 100:2008 H.3 for the ± of a fit; Fisher's law for what is left.
/// That an explanation holds down to luck once in twenty times is our own choice.
/// Assumes offsets small against the length, one scatter for all turns, ovality and dents taken out before.
///
/// # Errors
/// [`NotExplained`] says what the places or the shaft lack.
pub fn explain(shaft: &Shaft, axis: Axis, places: &[Place]) -> Result<Explained, NotExplained> {
    let bench = Bench::new(shaft, axis, places)?;
    let straight = bench.fit(&[]).ok_or(NotExplained::NotFinite)?;
    let near = |misfit: f64| misfit * (1.0 + ONE_MISFIT) + LAST_BIT * straight.misfit;
    let (mut single, mut told, mut cannot_show) = (Vec::<Suspect>::new(), Vec::new(), Vec::new());
    for cause in Cause::ALL {
        let Some(suspect) = bench.suspect(cause) else {
            cannot_show.push(cause);
            continue;
        };
        let worse = single.iter().position(|other| other.misfit > near(suspect.misfit));
        single.insert(worse.unwrap_or(single.len()), suspect);
        told.push(cause);
    }
    let mut found = Explained {
        straight: straight.luck >= EXPLAINS,
        straight_luck: straight.luck,
        scatter: bench.scatter,
        single,
        pair: None,
        pairs: 0,
        cannot_show,
    };
    // Two causes leave one place less for doubt than one.
    let enough = places.len() > axis.free().len() + 2;
    if found.straight || found.possible().next().is_some() || !enough {
        return Ok(found);
    }
    for (i, one) in told.iter().enumerate() {
        for other in told.iter().skip(i + 1) {
            let Some(pair) = bench.pair(*one, *other).filter(|pair| pair.one.explains()) else {
                continue;
            };
            found.pairs += 1;
            if found.pair.is_none_or(|best| best.one.misfit > near(pair.one.misfit)) {
                found.pair = Some(pair);
            }
        }
    }
    Ok(found)
}
