"""Bending frequencies of shafts by a library of rotordynamics, at zero spin.

Needs ross-rotordynamics (tried with plotly 5), numpy and scipy. Run from the repository's top level, a minute:

    python3 tests/handbook/beam.py > tests/handbook/beam.txt

The library makes the elements, about 45 to a shaft and then twice as many, and puts them together; of its six freedoms a node
the deflection and the slope of one plane are kept, a rigid support's deflection is struck out, and scipy's
dense solver finds the lowest three. So the program's own element, its assembly, its search and its count all
stand against another's. The library's element lets shear be the same all along an element, so that the error
of its frequencies falls with the square of the element's length: what the two counts tend to is printed
(Richardson: the finer and a third of what it moved).

A case is its name and its lines, all in SI units: stretches from the front (length, outer and inner diameter,
Young's modulus, shear modulus, density), lumps (place, mass, inertia about a diameter), supports (place,
"rigid" or a spring's rate), and the three frequencies in rad/s. Poisson's ratio is E/2G − 1, as the library has
it. A yoke is a solid bar whose density makes its mass.
"""

import os
import sys
from math import pi

import numpy
import scipy

# The library's imports talk about what is not installed.
talk, nothing = os.dup(1), os.open(os.devnull, os.O_WRONLY)
errors = os.dup(2)
os.dup2(nothing, 1), os.dup2(nothing, 2)
import ross

sys.stdout.flush()
os.dup2(talk, 1), os.dup2(errors, 2)

INCH = 0.0254
ELEMENTS = 45
STEEL = (205e9, 205e9 / 2.58, 7850.0)
ALUMINIUM = (68.9e9, 68.9e9 / 2.66, 2700.0)
# A wound tube: soft in shear for its stiffness along it.
WOUND = (70e9, 12e9, 1600.0)
LUCK = numpy.random.default_rng(1921)


def tube(length, outer, wall, material=STEEL):
    return (length, outer, outer - 2 * wall, *material)


def yoke(length, diameter, mass):
    return (length, diameter, 0.0, *STEEL[:2], mass / (pi / 4 * diameter**2 * length))


def frequencies(stretches, lumps, held):
    """The three lowest, in rad/s, as the elements grow shorter."""
    coarse, fine = (of_elements(stretches, lumps, held, times) for times in (1, 2))
    return fine + (fine - coarse) / 3


def of_elements(stretches, lumps, held, times):
    whole = sum(stretch[0] for stretch in stretches)
    ends = numpy.cumsum([stretch[0] for stretch in stretches])
    corners = sorted({0.0, *ends, *(lump[0] for lump in lumps), *(place for place, _ in held)})
    # What lies a last bit apart is one place.
    places = [z for i, z in enumerate(corners) if i == 0 or z - corners[i - 1] > 1e-9]
    elements, nodes = [], [0.0]
    for front, rear in zip(places, places[1:]):
        length, outer, inner, modulus, shear, density = stretches[
            min(int(numpy.searchsorted(ends, (front + rear) / 2)), len(stretches) - 1)
        ]
        material = ross.Material(f"no_{len(elements)}", rho=density, E=modulus, G_s=shear)
        count = times * max(2, round(ELEMENTS * (rear - front) / whole))
        for i in range(count):
            elements.append(
                ross.ShaftElement((rear - front) / count, inner, outer, material=material, n=len(elements))
            )
            nodes.append(front + (rear - front) * (i + 1) / count)
    at = lambda z: int(numpy.argmin(numpy.abs(numpy.array(nodes) - z)))
    disks = [ross.DiskElement(at(z), mass, inertia, 2 * inertia) for z, mass, inertia in lumps]
    bearings = [
        ross.BearingElement(at(z), kxx=0.0 if by == "rigid" else by, cxx=0.0) for z, by in held
    ]
    rotor = ross.Rotor(elements, disks, bearings)
    struck = {6 * at(z) for z, by in held if by == "rigid"}
    kept = [6 * i + j for i in range(len(nodes)) for j in (0, 4) if 6 * i + j not in struck]
    stiffness, mass = (matrix[numpy.ix_(kept, kept)] for matrix in (rotor.K(0.0), rotor.M(0.0)))
    found = scipy.linalg.eigh(stiffness, mass, eigvals_only=True, subset_by_index=[0, 2])
    return numpy.sqrt(found)


def case(name, stretches, lumps, held):
    print("case", name)
    for stretch in stretches:
        print("stretch", *(f"{number:.10g}" for number in stretch))
    for lump in lumps:
        print("lump", *(f"{number:.10g}" for number in lump))
    for place, by in held:
        print("held", f"{place:.10g}", by if by == "rigid" else f"{by:.10g}")
    print("speeds", *(f"{speed:.8g}" for speed in frequencies(stretches, lumps, held)))


def pinned(length, front="rigid", rear="rigid"):
    return [(0.0, front), (length, rear)]


print("ross", ross.__version__, "numpy", numpy.__version__, "scipy", scipy.__version__, "python", sys.version.split()[0])

long_tube, wide_tube = tube(50 * INCH, 3 * INCH, 0.083 * INCH), tube(30 * INCH, 4 * INCH, 0.095 * INCH)
case("a tube", [long_tube], [], pinned(50 * INCH))
case("a short wide tube", [wide_tube], [], pinned(30 * INCH))
case("aluminium", [tube(1.397, 0.0889, 0.003175, ALUMINIUM)], [], pinned(1.397))
case("wound", [tube(1.5, 0.1, 0.004, WOUND)], [], pinned(1.5))
case("a solid bar", [tube(31 * INCH, INCH, INCH / 2)], [], pinned(31 * INCH))
case("soft supports", [long_tube], [], pinned(50 * INCH, 5e6, 2e6))
case("very soft supports", [long_tube], [], pinned(50 * INCH, 5e4, 8e4))
case("a soft and a rigid one", [long_tube], [], pinned(50 * INCH, 3e6))
case("a balance weight", [long_tube], [(20 * INCH, 1.5, 0.0)], pinned(50 * INCH))
case("a flange amid", [long_tube], [(25 * INCH, 3.0, 0.006)], pinned(50 * INCH))
case("two lumps on a bar", [tube(31 * INCH, INCH, INCH / 2)], [(7 * INCH, 15.9, 0.02), (20 * INCH, 24.9, 0.05)], pinned(31 * INCH))
case(
    "yokes and a tube",
    [yoke(0.06, 0.045, 1.1), tube(1.15, 0.0762, 0.0021082), yoke(0.06, 0.045, 1.3)],
    [],
    pinned(1.27),
)
case("two tubes", [tube(0.6, 0.0889, 0.0021), tube(0.7, 0.0635, 0.0024)], [], pinned(1.3))
case(
    "two tubes, a ring between, soft",
    [tube(0.6, 0.0889, 0.0021), tube(0.04, 0.07, 0.02), tube(0.7, 0.0635, 0.0024)],
    [(0.62, 0.8, 0.0007)],
    pinned(1.34, 8e6, 4e6),
)
case("an overhang", [tube(1.4, 0.0762, 0.0021)], [], [(0.0, "rigid"), (1.1, "rigid")])
case("an overhang with a flange", [tube(1.4, 0.0762, 0.0021)], [(1.4, 2.5, 0.004)], [(0.0, "rigid"), (1.1, 1e7)])
case("two overhangs", [tube(1.4, 0.0762, 0.0021)], [(0.0, 1.0, 0.001)], [(0.2, "rigid"), (1.25, "rigid")])
case("a centre bearing", [tube(1.8, 0.0762, 0.0021)], [], [(0.0, "rigid"), (0.9, 4e5), (1.8, "rigid")])
case(
    "a centre bearing before a stub",
    [yoke(0.05, 0.05, 1.2), tube(1.0, 0.0762, 0.0021), tube(0.15, 0.035, 0.0175), yoke(0.08, 0.05, 1.6)],
    [(1.12, 0.7, 0.0005)],
    [(0.0, "rigid"), (1.12, 3e5), (1.28, "rigid")],
)
case("a rigid centre bearing", [tube(1.8, 0.0762, 0.0021)], [], [(0.0, "rigid"), (0.9, "rigid"), (1.8, "rigid")])
case(
    "a centre bearing and an overhang behind it",
    [tube(1.1, 0.0762, 0.0021), tube(0.12, 0.035, 0.0175)],
    [(1.22, 1.9, 0.002)],
    [(0.0, "rigid"), (1.12, 5e5)],
)
for i in range(40):
    stretches = [
        tube(round(LUCK.uniform(0.05, 0.6), 4), outer := round(LUCK.uniform(0.03, 0.12), 4),
             round(outer * LUCK.uniform(0.02, 0.5), 5), (STEEL, ALUMINIUM, WOUND)[LUCK.integers(3)])
        for _ in range(LUCK.integers(1, 5))
    ]
    whole = sum(stretch[0] for stretch in stretches)
    places = lambda most: numpy.round(numpy.sort(LUCK.uniform(0, whole, LUCK.integers(0, most))), 4)
    lumps = [(z, LUCK.uniform(0, 4), LUCK.choice([0.0, LUCK.uniform(0, 0.01)])) for z in places(4)]
    by = lambda: "rigid" if LUCK.random() < 0.5 else round(10 ** LUCK.uniform(4.5, 8), 0)
    amid = round(LUCK.uniform(0.4, 0.8) * whole, 4)
    held = [(round(LUCK.uniform(0, 0.2) * whole, 4), by()), (amid if LUCK.random() < 0.3 else whole, by())]
    if LUCK.random() < 0.4:
        held.append((round(LUCK.uniform(0.3, 0.7) * whole, 4) + 0.01, by()))
    case(f"any {i}", stretches, lumps, held)
