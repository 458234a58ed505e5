"""How well the scatter of a reading is known from the range of five.

Needs numpy and scipy. Run from the repository's top level; some seconds:

    python3 tests/handbook/range_of_five.py > tests/trials/range_of_five.txt

The range W of five numbers of the normal law with scatter 1: mean d2, scatter d3 and root mean square d2* by
integrating its density, and once more by throwing them. W/d2* has the mean square of the scatter. It is taken for
the root of a mean square of v degrees of freedom: v is that at which this root varies, as a share of its mean, as W
does (P. B. Patnaik, Biometrika 37 (1950); from memory). A. J. Duncan, Quality Control and Industrial Statistics,
table of d2* (from memory), has v 3.8 and d2* 2.48 for one sample of five.

Then what that is worth: how often a circle of radius r holds a thrown vector, r = share * W * sqrt(2 F(0.95; 2, v)),
and how often one square lies beyond (share * W)^2 * F(0.99; 1, v), for shares of 2/5 and 3/7.
"""

import numpy
from scipy import integrate, optimize, special, stats

READINGS = 5
FREEDOM = 3.8  # as the table has it
phi, Phi = stats.norm.pdf, stats.norm.cdf


def density(w):
    """n(n - 1) integral of phi(x) phi(x + w) (Phi(x + w) - Phi(x))^(n - 2) over x."""
    n = READINGS
    inner = lambda x: phi(x) * phi(x + w) * (Phi(x + w) - Phi(x)) ** (n - 2)
    return n * (n - 1) * integrate.quad(inner, -w / 2 - 9, -w / 2 + 9, epsabs=1e-13, limit=200)[0]


# Gauss's rule over the range, which past 12 has nothing left.
NODES, PARTS = numpy.polynomial.legendre.leggauss(200)
RANGES, PARTS = 6 * (NODES + 1), 6 * PARTS
PARTS = PARTS * numpy.array([density(w) for w in RANGES])


def mean_over_range(of):
    return float(numpy.sum(PARTS * of(RANGES)))


def chi_mean(nu):
    return numpy.exp(special.gammaln((nu + 1) / 2) - special.gammaln(nu / 2)) * numpy.sqrt(2)


whole = mean_over_range(numpy.ones_like)
d2 = mean_over_range(lambda w: w)
star = mean_over_range(lambda w: w * w) ** 0.5
d3 = (star**2 - d2**2) ** 0.5
nu = optimize.brentq(lambda v: (v - chi_mean(v) ** 2) ** 0.5 / chi_mean(v) - d3 / d2, 1, 30)
print(f"integral {whole:.9f} d2 {d2:.5f} d3 {d3:.5f} d2* {star:.5f} freedom {nu:.4f}")

luck = numpy.random.default_rng(20265)
thrown = numpy.ptp(luck.normal(size=(2_000_000, READINGS)), axis=1)
by_luck = (thrown**2).mean() ** 0.5
cv = thrown.std() / thrown.mean()
nu_by_luck = optimize.brentq(lambda v: (v - chi_mean(v) ** 2) ** 0.5 / chi_mean(v) - cv, 1, 30)
print(f"thrown   d2 {thrown.mean():.4f} d3 {thrown.std():.4f} d2* {by_luck:.4f} freedom {nu_by_luck:.3f}")

for name, share in [("2/5", 2 / 5), ("3/7", 3 / 7)]:
    circle = 2 * stats.f.ppf(0.95, 2, FREEDOM)
    held = mean_over_range(lambda w: 1 - numpy.exp(-circle * (share * w) ** 2 / 2))
    limit = stats.f.ppf(0.99, 1, FREEDOM)
    beyond = mean_over_range(lambda w: stats.chi2.sf(limit * (share * w) ** 2, 1))
    print(
        f"share {name} freedom {FREEDOM}: root mean square {share * star:.4f} mean {share * d2:.4f}"
        f" factor {circle**0.5:.4f} held {held:.4f} F(0.99; 1, v) {limit:.3f} beyond {beyond:.4f}"
    )
