"""What crooked tubes put out of balance, strips on a tube, weights put back: by integrals and equations
worked out by number.

Needs numpy and scipy. Run from the repository's top level; some seconds:

    python3 tests/handbook/residual.py > tests/handbook/residual.txt

Millimetres, degrees, grams, g·mm; a vector is two numbers, up and right. A line is a word and numbers:

    body      length, the tube's beginning and end, its mass
    lump      mass, z, offset of its own centre beside the centreline
    point     z, offset, standard uncertainty, degrees of freedom
    found     front and rear share, each vector, standard uncertainty, freedom, radius of its 95 % circle
    bow       "sine" or "parabola", vector of its size half way
    shares    front and rear share of the bow and lumps
    cancel    two places, then mass and clock place at each that cancel what stands above, radius last
    strip     tube radius, width, thickness, kg/m³, cut length; mass, distance of its centre, share
    cut       tube radius, width, thickness, kg/m³, wanted unbalance; length ("-" where there is none)
    split     size, place, two clock places; what goes to each ("-" where one would be taken off)
    change    old and new length, "front" or "rear" for the cut end, turn of its yoke, two places
    weight    unbalance, clock place, z
    own, places, kept   what the model leaves in front and rear; kept: its two vectors before that
"""

import sys

import numpy
import scipy
from scipy import integrate, optimize, stats

LUCK = numpy.random.default_rng(21940)
TAU = 2 * numpy.pi


def line(word, *values):
    # What is under 1e-12 is rounding, and another on each machine.
    text = lambda v: v if isinstance(v, str) else "inf" if numpy.isinf(v) else f"{numpy.round(v, 12) + 0.0:.13g}"
    flat = []
    for value in values:
        flat += [value.real, value.imag] if isinstance(value, complex | numpy.complexfloating) else [value]
    print(word, *[text(value) for value in flat])


def even(low, high, digits=1):
    return float(numpy.round(LUCK.uniform(low, high), digits))


def vector(most, digits=3):
    return complex(even(-most, most, digits), even(-most, most, digits))


def polar(size, at):
    return size * numpy.exp(1j * numpy.radians(at))


def integral(f, low, high, corners=()):
    """Of a vector, halved between the corners until it settles."""
    edges = [low, *sorted(z for z in corners if low < z < high), high]
    parts = lambda z: numpy.array([f(z).real, f(z).imag])
    panel = lambda a, b: integrate.quad_vec(parts, a, b, epsabs=1e-11, epsrel=1e-13)[0]
    return complex(*sum(panel(a, b) for a, b in zip(edges, edges[1:])))


def planes(force, moment, length):
    """The two unbalances in the joints' planes with this force and this moment about the front joint."""
    return numpy.linalg.solve(numpy.array([[1, 1], [0, length]], complex), numpy.array([force, moment]))


def body():
    length = even(600, 2000)
    begin, end = even(20, 0.2 * length), even(0.75 * length, length - 15)
    mass = even(1500, 9000)
    line("body", length, begin, end, mass)
    lumps = []
    for _ in range(LUCK.integers(0, 4)):
        at = LUCK.choice([0.0, length, even(0, length)])
        lumps.append((even(200, 2500), float(at), vector(0.3) if LUCK.random() < 0.5 else 0j))
        line("lump", *lumps[-1])
    return length, begin, end, mass, lumps


def shares(shaft, c, corners=()):
    """Force and moment of tube and lumps, and what does the same in the planes."""
    length, begin, end, mass, lumps = shaft
    force = integral(lambda z: mass / (end - begin) * c(z), begin, end, corners)
    moment = integral(lambda z: mass / (end - begin) * c(z) * z, begin, end, corners)
    for lump, z, beside in lumps:
        force += lump * (c(z) + beside)
        moment += lump * (c(z) + beside) * z
    return planes(force, moment, length)


def cancel(shaft, both):
    length, begin, end, *_ = shaft
    places = [even(begin + 1, begin + 100), even(end - 100, end - 1)]
    radius = even(20, 60)
    # Weights at the places and what is there make no force and no moment.
    weights = numpy.linalg.solve(
        numpy.array([[1, 1], places], complex), -numpy.array([both[0] + both[1], both[1] * length])
    )
    each = [v for w in weights for v in (abs(w) / radius, numpy.degrees(numpy.angle(w)) % 360)]
    line("cancel", *places, *each, radius)


def broken(number):
    shaft = body()
    length = shaft[0]
    count = int(LUCK.integers(1, 13))
    at = numpy.round(numpy.sort(LUCK.choice(numpy.arange(2, length - 2, 2.5), count, replace=False)), 1)
    points = []
    for z in LUCK.permutation(at):
        freedom = float(LUCK.choice([3, 7, 11, 20, numpy.inf]))
        points.append((float(z), vector(0.8), even(0, 0.03, 4), freedom))
        line("point", *points[-1])
    points.sort()

    def along(offsets):
        knots = [0, *[z for z, *_ in points], length]
        table = numpy.array([0, *offsets, 0])
        c = lambda z: numpy.interp(z, knots, table.real) + 1j * numpy.interp(z, knots, table.imag)
        return shares(shaft, c, knots)

    offsets = [c for _, c, _, _ in points]
    best = along(offsets)
    # Each place moved up by its own doubt, alone.
    moved = []
    for i, (_, c, u, _) in enumerate(points):
        moved.append(along([*offsets[:i], c + u, *offsets[i + 1 :]]) - best if u else best * 0)
    result = []
    for plane in range(2):
        parts = numpy.array([abs(swing[plane]) for swing in moved])
        freedoms = numpy.array([freedom for *_, freedom in points])
        u = numpy.sqrt(parts @ parts)
        shared = (parts**4 / freedoms).sum()
        freedom = u**4 / shared if shared else numpy.inf
        rim = 2 * stats.f.ppf(0.95, 2, freedom) if freedom < 1e6 else stats.chi2.ppf(0.95, 2)
        result += [best[plane], u, freedom, u * numpy.sqrt(rim)]
    line("found", *result)
    cancel(shaft, best)


def bow(number):
    shaft = body()
    length = shaft[0]
    kind = ["sine", "parabola"][number % 2]
    size = vector(1.5)
    line("bow", kind, size)
    wave = lambda z: numpy.sin(numpy.pi * z / length)
    arch = lambda z: 4 * z * (length - z) / length**2
    shape = wave if kind == "sine" else arch
    # At a joint's centre the sine of a half turn is nothing, to the last bits.
    both = shares(shaft, lambda z: size * shape(z))
    line("shares", *both)
    cancel(shaft, both)


def ring(radius, width, thickness, density, length):
    """Mass and moment of the bent strip, its middle face as long as it was cut, summed over its section."""
    half = length / (radius + thickness / 2) / 2
    gram = density * 1e-6 * width
    near = {"epsabs": 1e-12 * radius**2 * thickness, "epsrel": 1e-12}
    sector = lambda f: integrate.dblquad(f, -half, half, radius, radius + thickness, **near)[0]
    mass = gram * sector(lambda r, angle: r)
    return mass, gram * sector(lambda r, angle: r * r * numpy.cos(angle)), gram * sector(lambda r, angle: r * r)


def strip():
    radius, width, thickness = even(20, 60), even(5, 40), even(0.5, 6)
    density = float(LUCK.choice([7850.0, 2700.0, 8000.0]))
    half_round = numpy.pi * (radius + thickness / 2)
    length = float(numpy.round(half_round * LUCK.uniform(0.02, 1.95), 1))
    mass, moment, straight = ring(radius, width, thickness, density, length)
    line("strip", radius, width, thickness, density, length, mass, moment / mass, moment / straight)
    most = ring(radius, width, thickness, density, half_round)[1]
    wanted = float(numpy.round(most * LUCK.uniform(0.01, 1.15), 1))
    found = "-"
    if wanted < most:
        lacks = lambda length: ring(radius, width, thickness, density, length)[1] / wanted - 1
        found = optimize.brentq(lacks, 1e-3, half_round, xtol=1e-13, rtol=1e-14)
    # Near the top of the sine a length is not told to nine digits by its unbalance.
    if wanted < 0.98 * most or found == "-":
        line("cut", radius, width, thickness, density, wanted, found)


def split():
    size, at = even(1, 90), even(0, 360)
    first, second = even(at - 100, at + 20), even(at - 20, at + 100)
    if abs(numpy.sin(numpy.radians(second - first))) < 0.05:
        return
    columns = numpy.array([[polar(1, a).real, polar(1, a).imag] for a in (first, second)]).T
    wanted = polar(size, at)
    both = numpy.linalg.solve(columns, [wanted.real, wanted.imag])
    line("split", size, at, first, second, *(both if min(both) > 0 else ["-"]))


def change():
    old = even(800, 2000)
    new = float(numpy.round(old * LUCK.uniform(0.6, 1.1), 1))
    end = LUCK.choice(["front", "rear"])
    turned = LUCK.choice([0.0, even(-90, 90)])
    places = [even(20, 0.4 * new), even(0.5 * new, new - 20)]
    line("change", old, new, str(end), float(turned), *places)
    # From the far datum, as a tape is laid.
    far = (lambda z, length: z) if end == "rear" else (lambda z, length: length - z)
    force = moment = 0j
    own, kept_places = [0j, 0j], [0j, 0j]
    for _ in range(LUCK.integers(1, 6)):
        u, at, z = even(50, 900), even(0, 360), even(0, old)
        line("weight", u, at, z)
        with_cut = far(z, old) > old / 2
        v = polar(u, at + (turned if with_cut else 0))
        force, moment = force + v, moment + v * z
        # How far from its own yoke's joint, and there again on the new shaft.
        near_rear = z > old / 2 if end == "rear" else z >= old / 2
        again = new - (old - z) if near_rear else z
        stays = z if end == "rear" else new - (old - z)
        for sums, place in [(own, again), (kept_places, stays)]:
            sums[0] += v
            sums[1] += v * place
    wanted = planes(force, moment, old)
    line("own", *(planes(*own, new) - wanted))
    line("places", *(planes(*kept_places, new) - wanted))
    # Two weights whose force and moment are those of the shares, laid on the new length.
    two = numpy.linalg.solve(numpy.array([[1, 1], places], complex), [wanted.sum(), wanted[1] * new])
    left = planes(two.sum(), two @ places, new) - wanted
    line("kept", *two, *numpy.round(left, 6))


print("numpy", numpy.__version__, "scipy", scipy.__version__, "python", sys.version.split()[0])
for number in range(60):
    broken(number)
for number in range(40):
    bow(number)
for _ in range(40):
    strip()
for _ in range(60):
    split()
for _ in range(40):
    change()
