"""Runs with trial weights, and the correction that another road finds.

Needs numpy and scipy. Run from the repository's top level; some seconds:

    python3 tests/handbook/trials.py > tests/trials/trials.txt

One case a line, amplitudes in any unit, angles in degrees, weights in g·mm, after "=" what was found:

    phase LEFT_ON σ ν O φ W θ R φ = up right, middle up right, radius
    planes σ ν then O φ at both pick-ups; two times W θ in A, W θ in B, V φ at both pick-ups
        = for A and for B: up right, middle up right, radius
    refused σ ν O then W θ T for each trial = squares left over in σ², how many luck allows
    alone σ ν O then W θ T for each trial
        = up right, squares left over in σ², how many luck allows, middle up right, and how far the ellipse
          reaches toward 12 and toward 3 o'clock

How this differs from the program. With phase: no closed form of the region; numpy solves the complex system, and
the rim is found along three rays by bisection of the inequality itself, the circle laid through the three
points. Two planes: the inequality is the least singular value of the runs on a basis of the null space, by scipy.
Amplitudes alone: scipy's least_squares in first amplitude and effect, |O + H·w|, from 40 starts; the region by
2000 rays, coordinates from its Jacobian. Points of laws are scipy's.
"""

import sys

import numpy
import scipy
from scipy import linalg, optimize, stats

LUCK = numpy.random.default_rng(20261)


def polar(size, at):
    return size * numpy.exp(1j * numpy.radians(at))


def amount(least, most, digits=3):
    return round(float(LUCK.uniform(least, most)), digits)


def angle():
    return amount(0, 360, 1)


def read(value):
    """A vibration as an instrument shows it."""
    return round(abs(value), 4), round(float(numpy.degrees(numpy.angle(value)) % 360), 3)


def thrown():
    return LUCK.normal() + 1j * LUCK.normal()


def freedom():
    return float(LUCK.choice([numpy.inf, 4, 9, 30]))


def stretch(nu):
    return stats.chi2.ppf(0.95, 2) if numpy.isinf(nu) else 2 * stats.f.ppf(0.95, 2, nu)


def beyond(x, nu):
    return stats.chi2.sf(x, 2) if numpy.isinf(nu) else stats.f.sf(x / 2, 2, nu)


def rim(inside, far):
    """From nothing outward to where inside() ends, by bisection; None without an end before `far`."""
    low, high = 0.0, far * 1e-6
    while inside(high):
        low, high = high, high * 1.3
        if high > far:
            return None
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if inside(middle) else (low, middle)
    return low


def circle(inside, best, far):
    """The circle through three points of the rim."""
    points = []
    for way in (0.3, 2.4, 4.5):
        e = numpy.exp(1j * way)
        along = rim(lambda t: inside(best + t * e), far)
        if along is None:
            return None
        points.append(best + along * e)
    a, b, c = points
    rows = numpy.array([[(b - a).real, (b - a).imag], [(c - a).real, (c - a).imag]])
    right = numpy.array([abs(b - a) ** 2, abs(c - a) ** 2]) / 2
    x, y = numpy.linalg.solve(rows, right)
    middle = a + x + 1j * y
    return middle, abs(middle - a)


def show(*numbers):
    out = []
    for number in numbers:
        parts = (number.real, number.imag) if isinstance(number, complex) else (number,)
        out += [repr(float(part)) for part in parts]
    return " ".join(out)


def phase():
    left_on, nu = int(LUCK.integers(0, 2)), freedom()
    sigma = amount(0.05, 0.3)
    first, w = read(polar(amount(2, 12), angle())), (amount(50, 400, 1), angle())
    effect = polar(amount(8, 60) * sigma * numpy.sqrt(stretch(nu) / 6), angle())
    run = read(polar(*first) + effect + sigma * thrown())
    o, r, weight = polar(*first), polar(*run), polar(*w)
    k = stretch(nu) * sigma**2
    best = complex(numpy.linalg.solve([[(r - o) / weight]], [-o])[0])

    def inside(c):
        x = c / weight
        return abs(o * (1 - x) + r * x) ** 2 <= k * (abs(1 - x) ** 2 + abs(x) ** 2)

    found = circle(inside, best, 1e4 * abs(best))
    if found is None or found[1] > 20 * abs(best):
        return None
    off = weight if left_on else 0
    given = show(left_on, sigma, nu, *first, *w, *run)
    return f"phase {given} = {show(best - off, found[0] - off, found[1])}"


def planes():
    nu, sigma = freedom(), amount(0.02, 0.1)
    effects = numpy.array([[polar(amount(0.5, 1), angle()) for _ in "AB"] for _ in "AB"])
    if numpy.linalg.cond(effects) > 5:
        return None
    first = [read(polar(amount(2, 8), angle())) for _ in "AB"]
    trials = [[(amount(3, 9), angle()), (0.0, 0.0)], [(0.0, 0.0), (amount(3, 9), angle())]]
    if LUCK.random() < 0.4:
        # The first trial stays on, or is moved about.
        trials[1][0] = trials[0][0] if LUCK.random() < 0.5 else (amount(1, 4), angle())
    weights = numpy.array([[polar(*trials[run][plane]) for run in (0, 1)] for plane in (0, 1)])
    v0 = numpy.array([polar(*one) for one in first])
    runs = []
    for run in (0, 1):
        made = v0 + effects @ weights[:, run] + sigma * numpy.array([thrown(), thrown()])
        runs.append([read(value) for value in made])
    values = numpy.array([[polar(*runs[run][sensor]) for run in (0, 1)] for sensor in (0, 1)])
    found_effects = (values - v0[:, None]) @ numpy.linalg.inv(weights)
    best = -numpy.linalg.solve(found_effects, v0)
    k = stretch(nu) * sigma**2
    readings = numpy.column_stack([v0, values])
    out = []
    for plane in (0, 1):
        in_plane = numpy.array([0, *weights[plane]])

        def inside(c):
            basis = linalg.null_space((in_plane - c)[None, :])
            return linalg.svdvals(readings @ basis)[-1] ** 2 <= k

        found = circle(inside, complex(best[plane]), 1e3 * abs(best[plane]))
        if found is None or found[1] > 3 * abs(best[plane]):
            return None
        out.append(show(complex(best[plane]), complex(found[0]), found[1]))
    given = [show(*first[0], *first[1])]
    for run in (0, 1):
        given.append(show(*trials[run][0], *trials[run][1], *runs[run][0], *runs[run][1]))
    return f"planes {show(sigma, nu)} {' '.join(given)} = {' '.join(out)}"


def nearest(at, scaled):
    """First amplitude (real) and effect that come nearest, the squares left over, all 40 fits, the slopes."""

    def misses(parameters):
        a, p, q = parameters
        return numpy.abs(a + (p + 1j * q) * at) - scaled

    def jacobian(parameters):
        a, p, q = parameters
        z = a + (p + 1j * q) * at
        u = z / numpy.abs(z)
        return numpy.column_stack([u.real, (u.conj() * at).real, -(u.conj() * at).imag])

    fits = []
    for start in range(40):
        first = [scaled[0], *(LUCK.normal(size=2) * scaled[0] * LUCK.uniform(0.05, 2))]
        fits.append(optimize.least_squares(misses, first, jacobian, method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15))
    fit = min(fits, key=lambda one: one.cost)
    # lm stops at half the digits of the cost: a few Newton steps on the gradient finish it.
    x = fit.x

    def gradient(v):
        return jacobian(v).T @ misses(v)

    for _ in range(20):
        h = 1e-6 * numpy.abs(x).max()
        hessian = numpy.column_stack([(gradient(x + h * e) - gradient(x - h * e)) / (2 * h) for e in numpy.eye(3)])
        x = x - numpy.linalg.solve(hessian, gradient(x))
    return x, float(misses(x) @ misses(x)), fits, jacobian

def luck_allows(freedom, nu):
    return stats.chi2.isf(0.01, freedom) if numpy.isinf(nu) else freedom * stats.f.isf(0.01, freedom, nu)


def refused(sigma, nu, first, trials):
    """Readings that contradict each other."""
    at = numpy.array([0] + [polar(size / 100, place) for size, place, _ in trials])
    scaled = numpy.array([first] + [t for _, _, t in trials]) / sigma
    least = nearest(at, scaled)[1]
    given = show(sigma, nu, first) + " " + " ".join(show(*map(float, trial)) for trial in trials)
    return f"refused {given} = {show(least, luck_allows(len(trials) - 2, nu))}"


def alone():
    nu = freedom()
    count = int(LUCK.integers(3, 7))
    begin = LUCK.uniform(0, 360)
    places = [round((begin + 360 * (i + LUCK.uniform(-0.2, 0.2)) / count) % 360, 1) for i in range(count)]
    sizes = [amount(100, 100 if LUCK.random() < 0.5 else 180, 1) for _ in places]
    sigma = amount(0.05, 0.2)
    true_effect = amount(10, 60) * sigma * numpy.sqrt(stretch(nu) / 6) / 100
    c = polar(100 * amount(0.8, 6), angle())
    w = numpy.array([0] + [polar(*pair) for pair in zip(sizes, places)])
    made = true_effect * abs(w - c) + sigma * LUCK.normal(size=count + 1)
    if made.min() < 4 * sigma:
        return None
    y = numpy.round(made, 4)

    # Scaled: trials of 1, readings in scatters.
    at, scaled = w / 100, y / sigma

    x, least, fits, jacobian = nearest(at, scaled)
    a, p, q = x
    best = -a / (p + 1j * q)
    allowed = luck_allows(count - 2, nu)

    def squares(place):
        d = numpy.abs(numpy.asarray(place)[..., None] - at)
        g = (d * scaled).sum(-1) / (d * d).sum(-1)
        return ((scaled - g[..., None] * d) ** 2).sum(-1)

    others = [-one.x[0] / (one.x[1] + 1j * one.x[2]) for one in fits]
    limit = stretch(nu)
    # Rivals, contradictions and regions without an end are told by the program's own tests.
    if least > allowed or any(
        abs(o - best) > 1e-3 * abs(best) and squares(o) - least < limit + 1 for o in others
    ):
        return None
    # Coordinates in which the squares bend alike: the covariance of −a/h by way of that of a and h.
    effect = x[1] + 1j * x[2]
    by = numpy.array([-1 / effect, a / effect**2, 1j * a / effect**2])
    by = numpy.array([by.real, by.imag])
    back = numpy.linalg.cholesky(by @ numpy.linalg.inv(jacobian(x).T @ jacobian(x)) @ by.T)
    round_ = numpy.arange(2000) * 2 * numpy.pi / 2000
    rays = numpy.array([numpy.cos(round_), numpy.sin(round_)])
    ways = back @ rays
    ways = ways[0] + 1j * ways[1]
    low, high = numpy.zeros(2000), numpy.full(2000, 0.1 * numpy.sqrt(limit))
    grow = squares(best + high * ways) - least < limit
    while grow.any():
        low[grow], high[grow] = high[grow], high[grow] * 1.1
        if high.max() > 6 * numpy.sqrt(limit):
            return None
        grow = squares(best + high * ways) - least < limit
    for _ in range(60):
        middle = (low + high) / 2
        held = squares(best + middle * ways) - least < limit
        low, high = numpy.where(held, middle, low), numpy.where(held, high, middle)
    t = low
    area = (t**2).sum() / 2
    mean = (t**3 * rays).sum(1) / 3 / area
    moment = numpy.einsum("r,ir,jr->ij", t**4, rays, rays) / 4 / area - numpy.outer(mean, mean)
    inverse = numpy.linalg.inv(moment)

    def outside(by):
        # t·e on the ellipse: a quadratic for each ray.
        quad = numpy.einsum("ir,ij,jr->r", rays, inverse, rays)
        half = rays.T @ inverse @ mean
        rest = mean @ inverse @ mean - 4 * by**2
        along = (half + numpy.sqrt(half**2 - quad * rest)) / quad
        return beyond(squares(best + along * ways) - least, nu).mean() - 0.05

    by = optimize.brentq(outside, 0.7, 2.8, xtol=1e-12)
    out = back @ moment @ back.T * by**2
    centre = best + complex(*(back @ mean))
    reach = 2 * numpy.sqrt(numpy.diag(out))
    given = show(sigma, nu, float(y[0])) + " " + " ".join(
        show(size, place, float(t)) for size, place, t in zip(sizes, places, y[1:])
    )
    return f"alone {given} = {show(100 * best, least, allowed, 100 * centre, *(100 * reach))}"


print(f"numpy {numpy.__version__}, scipy {scipy.__version__}")
# An article on balancing without phase: 50 g at 0°, 120°, 240°; 10, then 7, 12, 18.
for sigma, nu in ((0.1, numpy.inf), (0.16, numpy.inf), (0.01, 3.0)):
    print(refused(sigma, nu, 10.0, [(50, 0, 7), (50, 120, 12), (50, 240, 18)]))
for kind, count in ((phase, 40), (planes, 40), (alone, 40)):
    made = 0
    while made < count:
        line = kind()
        if line:
            print(line)
            made += 1
sys.stdout.flush()
