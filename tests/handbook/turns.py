"""Turns of dial readings and what another library's least squares finds in them.

Needs numpy and scipy. Run from the repository's top level; a second:

    python3 tests/handbook/turns.py > tests/turns/turns.txt

A turn is four lines: its number, the dial's division in mm, the closing reading ("-" for none) and which
stations are left out; the places in degrees; the readings in whole divisions; and what was found, in mm:
mean, order 1 up and right, order 2 likewise ("-" for none), the standard deviation of what is left ("-"
where nothing is), the standard uncertainty of one reading and its degrees of freedom; covariance of order
1 for readings of unit variance (up·up, up·right, right·right); the standard uncertainty of order 1 in its
worst direction, its ± by Student's t, the radius of its circle by Fisher's F; half axes and clock angle of
the ellipse ("-" for a circle's angle).
"""

import sys

import numpy
import scipy
from scipy import stats

MOST = 200
LUCK = numpy.random.default_rng(20260)
# Dials: 0.001 in, 0.0005 in, 0.01 mm, 0.1 mm, 0.002 mm.
DIVISIONS = ["0.0254", "0.0127", "0.01", "0.1", "0.002"]


def places(count):
    """Even marks, some of them skipped, or marks wherever a hand stopped."""
    step = 360 / count
    if LUCK.random() < 0.5:
        every = numpy.round(numpy.arange(count) * step, 4)
        skipped = LUCK.integers(0, max(1, count // 4)) if count > 6 and LUCK.random() < 0.4 else 0
        kept = numpy.sort(LUCK.permutation(count)[: max(6, count - skipped)])
        return every[kept]
    return numpy.round((numpy.arange(count) + LUCK.uniform(-0.3, 0.3, count)) * step, 1)


def wave(at, order, most):
    size, lobe = LUCK.uniform(0, most), LUCK.uniform(0, 360)
    return size * numpy.cos(numpy.radians(order * (at - lobe)))


def a_turn(number, counts):
    at = places(int(LUCK.integers(*counts)))
    count = len(at)
    height = wave(at, 1, 20) + wave(at, 2, 8) + LUCK.uniform(-30, 30)
    height += wave(at, 3, 4) if number % 3 == 0 else 0
    height += LUCK.normal(0, LUCK.uniform(0, 2), count)
    aside = []
    if number % 2 and count >= 9:
        middle, wide = LUCK.uniform(0, 360), LUCK.uniform(10, 40)
        off = numpy.abs((at - middle + 180) % 360 - 180)
        aside = [int(i) for i in numpy.flatnonzero(off <= wide / 2)][: count - 6]
        height[aside] += LUCK.uniform(3, 30)
    read = numpy.round(height + (LUCK.uniform(-1, 1) * numpy.arange(count) / count if number % 4 == 1 else 0))
    # A dial that comes back one line lower, at its first reading, or one line higher.
    closing = int(read[0] + LUCK.integers(-1, 2)) if number % 4 < 2 else None
    return LUCK.choice(DIVISIONS), at, read.astype(int), closing, aside


def fitted(division, at, read, closing, aside):
    count = len(at)
    readings = read * float(division)
    if closing is not None:
        # Spread evenly from the first station to the closing one, as on a straight line.
        readings = readings - numpy.interp(
            numpy.arange(count), [0, count], [0, (closing - read[0]) * float(division)]
        )
    kept = numpy.setdiff1d(numpy.arange(count), aside)
    angle, readings = numpy.radians(at[kept]), readings[kept]
    terms = [numpy.ones(len(kept)), numpy.cos(angle), numpy.sin(angle)]
    if len(kept) > 4:
        terms += [numpy.cos(2 * angle), numpy.sin(2 * angle)]
    table = numpy.column_stack(terms)
    found, *_ = numpy.linalg.lstsq(table, readings, rcond=None)
    left = readings - table @ found
    spare = len(kept) - len(terms)
    own = numpy.sqrt(left @ left / spare) if spare else None
    line = float(division) * stats.uniform.std()
    if len(kept) > 5:
        u, freedom = max(own, line), spare
        if own < line and spare > 2:
            # Welch and Satterthwaite: all that is known of u is the line, but for the scatter's share.
            freedom = u**4 / (own**4 / spare) if own else numpy.inf
            freedom = freedom if freedom < 1e6 else numpy.inf
        # Broken degrees are cut down for t; above a thousand it is the normal law's.
        t = stats.t.ppf(0.975, numpy.floor(freedom)) if freedom <= 1000 else stats.norm.ppf(0.975)
        f = stats.f.ppf(0.95, 2, freedom) if freedom < 1e6 else stats.chi2.ppf(0.95, 2) / 2
    else:
        u, freedom = line, numpy.inf
        t, f = stats.norm.ppf(0.975), stats.chi2.ppf(0.95, 2) / 2
    inverse = numpy.linalg.pinv(table)
    unit = (inverse @ inverse.T)[1:3, 1:3]
    (short, long), axes = numpy.linalg.eigh(unit)
    worst = u * numpy.sqrt(long)
    rim = numpy.sqrt(2 * f)
    # A circle has no long axis.
    long_at = None if long - short < 1e-9 else numpy.degrees(numpy.arctan2(axes[1, 1], axes[0, 1])) % 180
    second = list(found[3:]) if len(found) > 3 else [None, None]
    return [
        *[*found[:3], *second, own, u, freedom, unit[0, 0], unit[0, 1], unit[1, 1]],
        *[worst, worst * t, worst * rim, u * rim * numpy.sqrt(long), u * rim * numpy.sqrt(short), long_at],
    ]


def line(key, values):
    # What is under 1e-13 is rounding, and another on each machine.
    text = lambda value: "-" if value is None else f"{numpy.round(value, 13) + 0.0:.12g}"
    print(key, *[text(value) for value in values])


print("numpy", numpy.__version__, "scipy", scipy.__version__, "python", sys.version.split()[0])
for number in range(MOST + 24):
    # Six stations to thirty-six; then some of three to five.
    division, at, read, closing, aside = a_turn(number, (6, 37) if number < MOST else (3, 6))
    line(f"turn {number} {division}", [closing, *aside])
    line("at", at)
    line("read", read)
    line("found", fitted(division, at, read, closing, aside))
