"""Whether the invented shaft of shaft.py is fit for its speed and its torque, by other routes than the program's.

Plain python3, no package, most of a minute. Run from the repository's top level:

    python3 tests/handbook/shaft_check.py > tests/handbook/shaft_check.txt

Bending: the program cuts the shaft into finite elements. Here nothing is cut: deflection, slope, moment and shear
are carried along each stretch by the exponential of the beam's own equations (Timoshenko, rotary inertia), past
lumps and supports by their jumps, and the speeds are those at which the far end can be free. Its ± is felt out by
small steps. Shaft speeds: by turns counted in a minute of driving. Slip: by the work of a mile. J ring by ring, the
weld dab by dab. Speeds in rpm, road speeds in mph, torque in lbf·ft, stress in ksi, lengths in inches, angles in
degrees, rates in lbf/in, masses in kg.
"""

import sys
from fractions import Fraction as F
from math import cos, pi, sin, sqrt

sys.dont_write_bytecode = True
from shaft_length import OLD, T95, WANTED
from tools import halve, say, simpson

INCH = 0.0254
POUND, FOOT = 0.45359237, 0.3048
FORCE = POUND * 9.80665
STEEL = (205e9, 205e9 / 2.58, 7850.0, 0.29)
ALUMINIUM = (68.9e9, 68.9e9 / 2.66, 2700.0, 0.33)
# Our own choice for a yoke: a bar of steel as thick as the tube beside it.


# ---- the beam


def section(outer, inner, material, density=None):
    """EI, κGA, ρA, ρI of a round section, κ by Cowper."""
    modulus, shear, own, ratio = material
    area = pi / 4 * (outer**2 - inner**2)
    second = pi / 64 * (outer**4 - inner**4)
    m = (inner / outer) ** 2
    kappa = 6 * (1 + ratio) * (1 + m) ** 2 / ((7 + 6 * ratio) * (1 + m) ** 2 + (20 + 12 * ratio) * m)
    heavy = own if density is None else density
    return modulus * second, kappa * shear * area, heavy * area, heavy * second


def yoke(length, outer, mass, share=1.0):
    """Stiff as a share of a bar, heavy as the scale says."""
    soft = (STEEL[0] * share, STEEL[1] * share, *STEEL[2:])
    return length, section(outer, 0.0, soft, mass / (pi / 4 * outer**2 * length))


def times(a, b):
    return [[sum(x * y for x, y in zip(row, column)) for column in zip(*b)] for row in a]


def carried(length, of, square):
    """exp(A·length) for deflection, slope, moment, shear at ω² = square."""
    bending, shear, mass, rotary = of
    a = [
        [0, 1, 0, 1 / shear],
        [0, 0, 1 / bending, 0],
        [0, -rotary * square, 0, -1],
        [-mass * square, 0, 0, 0],
    ]
    # Unlike sizes: scaled so that all four are lengths.
    size = [1.0, 1 / length, bending / length**2, bending / length**3]
    a = [[a[i][j] * length * size[j] / size[i] for j in range(4)] for i in range(4)]
    halvings = 8
    a = [[x / 2**halvings for x in row] for row in a]
    whole = [[float(i == j) for j in range(4)] for i in range(4)]
    term = whole
    for k in range(1, 14):
        term = [[x / k for x in row] for row in times(term, a)]
        whole = [[x + y for x, y in zip(*rows)] for rows in zip(whole, term)]
    for _ in range(halvings):
        whole = times(whole, whole)
    return [[whole[i][j] * size[i] / size[j] for j in range(4)] for i in range(4)]


def determinant(rows):
    rows, sign = [list(row) for row in rows], 1.0
    n = len(rows)
    for i in range(n):
        best = max(range(i, n), key=lambda r: abs(rows[r][i]))
        if best != i:
            rows[i], rows[best], sign = rows[best], rows[i], -sign
        if rows[i][i] == 0:
            return 0.0
        sign *= rows[i][i] / abs(rows[i][i])
        for r in range(i + 1, n):
            times_ = rows[r][i] / rows[i][i]
            rows[r] = [x - times_ * y for x, y in zip(rows[r], rows[i])]
    size = 1.0
    for i in range(n):
        size *= abs(rows[i][i])
    return sign * size


def left_over(stretches, lumps, held, square):
    """Nothing where a shaft free at both ends and held at its supports swings at this ω²."""
    ends = [0.0]
    for length, _ in stretches:
        ends.append(ends[-1] + length)
    places = sorted({*ends, *(z for z, _ in lumps), *(z for z, _ in held)})
    # What lies a last bit apart is one place.
    places = [z for i, z in enumerate(places) if i == 0 or z - places[i - 1] > 1e-9]
    rigid = [z for z, by in held if by is None]
    # Unknown: deflection and slope at the front, and a push at each rigid support.
    columns = 2 + len(rigid)
    state = [[0.0] * columns for _ in range(4)]
    state[0][0] = state[1][1] = 1.0
    rows = []
    for i, z in enumerate(places):
        if i:
            middle = (z + places[i - 1]) / 2
            of = next(s for (_, s), end in zip(stretches, ends[1:]) if middle < end)
            state = times(carried(z - places[i - 1], of, square), state)
        for at, mass in lumps:
            if abs(at - z) < 1e-9:
                state[3] = [v - mass * square * w for v, w in zip(state[3], state[0])]
        for at, by in held:
            if abs(at - z) < 1e-9 and by is not None:
                state[3] = [v + by * w for v, w in zip(state[3], state[0])]
        for number, at in enumerate(rigid):
            if abs(at - z) < 1e-9:
                rows.append(list(state[0]))
                state[3][2 + number] += 1.0
    return determinant([*rows, state[2], state[3]])


def speeds(stretches, lumps, held, count=1):
    """The lowest, in rpm."""
    # Steps of 40 rad/s: no two of a drive shaft's lie so near.
    f = lambda omega: left_over(stretches, lumps, held, omega**2)
    found, low = [], 5.0
    before = f(low)
    while len(found) < count:
        high = low + 40.0
        after = f(high)
        if before * after < 0:
            a, b, fa = low, high, before
            for _ in range(60):
                middle = (a + b) / 2
                fm = f(middle)
                a, b, fa = (middle, b, fm) if fa * fm > 0 else (a, middle, fa)
            found.append((a + b) / 2 * 60 / (2 * pi))
        low, before = high, after
    return found


# ---- the shaft

FAR, WELD = 3.375, 53.875
(old, u_old), (wanted, u_wanted) = OLD, WANTED
old, wanted = float(old), float(wanted)
FRONT, REAR = FAR, old - WELD
OUTER, WALL = 3.0, 0.083
WHOLE = 18.5 * POUND


def tube_mass(outer, wall, length, material=STEEL):
    return material[2] * pi / 4 * (outer**2 - (outer - 2 * wall) ** 2) * length * INCH**3


def shaft(
    length=wanted, outer=OUTER, wall=WALL, yokes=None, material=STEEL, share=1.0, held=(None, None),
    step=None, lump=None, bearing=None, hung=0.0, hung_behind=0.0, ends=(FRONT, REAR),
):
    front, rear = ends
    half = (WHOLE - tube_mass(OUTER, WALL, wanted - FRONT - REAR)) / 2
    masses = yokes or (half, half)
    tube = lambda run, outer, wall: (run * INCH, section(outer * INCH, (outer - 2 * wall) * INCH, material))
    behind = length - rear
    if step:
        at, other, thick = step
        runs = [tube(at - front, outer, wall), tube(behind - at, other, thick)]
    else:
        other, runs = outer, [tube(behind - front, outer, wall)]
    stretches = [
        yoke(front * INCH, outer * INCH, masses[0], share),
        *runs,
        yoke(rear * INCH, other * INCH, masses[1], share),
    ]
    lumps = [(lump[0] * INCH, lump[1])] if lump else []
    if hung:
        lumps.append((0.0, hung))
    if hung_behind:
        lumps.append((sum(run for run, _ in stretches), hung_behind))
    at = sum(run for run, _ in stretches) if bearing is None else bearing * INCH
    return stretches, lumps, [(0.0, held[0]), (at, held[1])]


half = (WHOLE - tube_mass(OUTER, WALL, wanted - FRONT - REAR)) / 2
say("yoke half", half)
one, two, three = speeds(*shaft(), 3)
say("first", one)
say("second", two)
say("third", three)
say("first before", speeds(*shaft(length=old))[0])
first = lambda **given: speeds(*shaft(**given))[0]

# Half of the yokes' stiffness, against the tube's wall a tenth of a millimetre out.
thin = 0.1 / 25.4
soft = first(share=0.5)
say("soft yokes", soft)
say("thin wall", first(wall=WALL - thin))
say("thick wall", first(wall=WALL + thin))


def felt(outer=OUTER, wall=WALL, length=wanted, half_share=0.3, modulus=0.024, u_length=u_wanted, **given):
    """The ±: each measurement moved by a small step, its u times the slope; one calliper for both tubes."""
    at = lambda **more: first(**{"outer": outer, "wall": wall, "length": length, **given, **more})
    yokes = given.get("yokes") or (half, half)
    slope = lambda up, down, step: (up - down) / (2 * step)
    h = 1e-4
    of = given.get("material", STEEL)
    stiffer = lambda f: {"material": (of[0] * f, of[1] * f, *of[2:])}
    heavier = lambda f: {"yokes": tuple(mass * f for mass in yokes)}

    def tubes(across, thick):
        more = {"outer": outer + across, "wall": wall + thick}
        if "step" in given:
            place, other, its_wall = given["step"]
            more["step"] = (place, other + across, its_wall + thick)
        return at(**more)

    parts = {
        "diameter": slope(tubes(h, 0), tubes(-h, 0), h) * 0.15 / 25.4 / sqrt(3),
        "wall": slope(tubes(0, h), tubes(0, -h), h) * 0.1 / 25.4 / sqrt(3),
        "length": slope(at(length=length + h), at(length=length - h), h) * u_length,
        "yokes": slope(at(**heavier(1 + h)), at(**heavier(1 - h)), h) * half_share / sqrt(3),
        "modulus": slope(at(**stiffer(1 + h)), at(**stiffer(1 - h)), h) * modulus / sqrt(3),
        "stiff yokes": (at() - at(share=0.5)) / sqrt(3),
    }
    square = sum(part**2 for part in parts.values())
    return T95 * sqrt(square), {name: part**2 / square for name, part in parts.items()}


doubt, shares = felt()
say("first doubt", doubt)
for name in ["diameter", "wall", "length", "yokes", "modulus"]:
    say(f"first share {name}", shares[name])

# Yokes that were weighed, 2.1 and 1.6 kg.
WEIGHED = (2.1, 1.6)
say("weighed", first(yokes=WEIGHED))
say("weighed doubt", felt(yokes=WEIGHED, half_share=0.02)[0])
# Held by springs of 3000 and 5000 N/mm; a slip yoke of 2 kg that swings on the front one.
say("springs", first(yokes=WEIGHED, held=(3e6, 5e6)))
say("springs doubt", felt(yokes=WEIGHED, half_share=0.02, held=(3e6, 5e6))[0])
say("springs hung", first(yokes=WEIGHED, held=(3e6, 5e6), hung=2.0))
say("front spring", first(yokes=WEIGHED, held=(3e6, None)))
# Another tube of 2-1/2 × 0.12 from 30 in on; a lump of 1.5 kg at 25 in; a centre bearing at 50 in.
say("step", first(yokes=WEIGHED, step=(30.0, 2.5, 0.12)))
change = old - wanted
say("step doubt", felt(yokes=WEIGHED, step=(30.0, 2.5, 0.12), half_share=0.02)[0])
say("step before", first(yokes=WEIGHED, step=(30.0, 2.5, 0.12), length=old))
# Cut at the front, what lies 30 in from the front joint now comes nearer to it by what is cut out.
MIRROR = (REAR, FRONT)
say("step front", first(yokes=WEIGHED, step=(30.0 - change, 2.5, 0.12), ends=MIRROR))
say("step front before", first(yokes=WEIGHED, step=(30.0, 2.5, 0.12), length=old, ends=MIRROR))
say("lump", first(yokes=WEIGHED, lump=(25.0, 1.5)))
say("lump front", first(yokes=WEIGHED, lump=(25.0 - change, 1.5), ends=MIRROR))
# On the rear yoke, at 54.5 in now, behind the weld at 53.875: it goes with the yoke.
say("lump behind", first(yokes=WEIGHED, lump=(54.5 - change, 1.5)))
say("lump behind before", first(yokes=WEIGHED, lump=(54.5, 1.5), length=old))
# 3 kg hang on the rear joint behind the bearing.
say("bearing", first(yokes=WEIGHED, bearing=50.0, hung_behind=3.0))
say("bearing spring", first(yokes=WEIGHED, bearing=50.0, hung_behind=3.0, held=(None, 5e6)))
# Nothing weighed but the whole: two sizes, a lump of 0.5 kg at 25 in and 0.8 kg on the front joint are no yokes'.
both = tube_mass(OUTER, WALL, 30.0 - FRONT) + tube_mass(2.5, 0.12, wanted - REAR - 30.0)
less = (WHOLE - both - 0.5 - 0.8) / 2
say("yoke half of less", less)
say("halved of less", first(yokes=(less, less), step=(30.0, 2.5, 0.12), lump=(25.0, 0.5)))
say("aluminium", first(yokes=WEIGHED, material=ALUMINIUM, outer=3.5, wall=0.125))
# By hand: 70 GPa, 5 GPa, 1600 kg/m³, ν taken for 0.3; E known to 5 %.
WOUND = (70e9, 5e9, 1600.0, 0.3)
say("by hand", first(yokes=WEIGHED, material=WOUND, outer=3.5, wall=0.125))
doubt, shares = felt(yokes=WEIGHED, material=WOUND, outer=3.5, wall=0.125, half_share=0.02, modulus=0.05)
say("by hand doubt", doubt)
say("by hand share modulus", shares["modulus"])
# Longer by 2-1/4: 59.552083 in and more, as tests/stages.rs reads it (59-9/16, 59-17/32, 59-9/16).
longer = float(F("59.5625") + F("59.53125") + F("59.5625")) / 3
long_half = (WHOLE - tube_mass(OUTER, WALL, longer - FRONT - REAR)) / 2
say("longer", first(length=longer, yokes=(long_half, long_half)))
# Another tube in the table: 3-1/2 × 0.083 with this shaft's yokes.
say("other tube", first(outer=3.5, wall=0.083, yokes=WEIGHED))
say("other tube springs", first(outer=3.5, wall=0.083, yokes=WEIGHED, held=(3e6, 5e6)))
say("other tube mass", tube_mass(3.5, 0.083, wanted - FRONT - REAR))

# ---- speeds

ENGINE, GEARS, AXLE = 5200, [F("3.4"), F("1.95"), F("1.3"), F(1), F("0.78")], F("3.73")
for row, ratio in enumerate(GEARS):
    say(f"gear {row}", ENGINE / ratio)


def turns_a_mile(width, aspect, rim):
    """A wheel of the marking's size whose way round is laid off on a mile, 97 in a hundred of it."""
    across = 25.4 * rim + 2 * width * aspect / 100
    sides = 100000
    way = sides * across * sin(pi / sides) * 0.97
    return 1609344 / way


TYRE = turns_a_mile(215, 75, 15)
say("turns a mile", TYRE)
# In a minute at so many mph that many sixtieths of miles are driven.
shaft_at = lambda mph, turns=TYRE, axle=AXLE: mph / 60 * turns * float(axle)
say("road 80", shaft_at(80))
say("road 80 doubt", shaft_at(80) * 0.01)
say("road 80 by turns", shaft_at(80, 750))
say("road 80 rolled out", shaft_at(80, 1609344 / (84.5 * 25.4)))
say("mph in fifth", halve(lambda mph: shaft_at(mph) - ENGINE / 0.78, 1, 500))

# ---- half of the whirl speed with its ±, ±8 % of that half, in mph

SPRINGS = dict(yokes=WEIGHED, held=(3e6, 5e6))
for name, given in [("half", {}), ("half springs", SPRINGS), ("half weighed", dict(yokes=WEIGHED))]:
    speed, doubt = first(**given), felt(half_share=0.02 if given else 0.3, **given)[0]
    say(f"{name} least", (speed - doubt) / 2)
    say(f"{name} greatest", (speed + doubt) / 2)
    say(f"{name} low", halve(lambda mph: shaft_at(mph) - (speed - doubt) / 2 * 0.92, 1, 500))
    say(f"{name} high", halve(lambda mph: shaft_at(mph) - (speed + doubt) / 2 * 1.08, 1, 500))

# ---- how soft both supports may be before 3500 rpm is 0.70 of the first speed, in lbf/in


def softest(top, **given):
    rate = halve(lambda power: first(held=(10**power, 10**power), **given) - top / 0.70, 4.7, 9.0)
    return 10**rate / FORCE * INCH


say("softest", softest(3500))
# A little too fast for springs of 3000 and 5000 N/mm.
say("softest weighed", softest(0.705 * first(**SPRINGS), yokes=WEIGHED))

# ---- torque

TORQUE = 200
by_engine = TORQUE * F("3.4") * F("0.85")
say("by engine", by_engine)
say("by engine low", by_engine * F("2.5"))
say("by engine reverse", TORQUE * F("3.9") * F("0.85"))
say("by engine automatic", TORQUE * F("3.4") * F("0.80") * F("2.1"))


def slip(load, friction, turns=TYRE, axle=AXLE):
    """Both wheels pushed along a mile at the push that they slip at; 95 in a hundred of the shaft's work get there."""
    work = friction * load * FORCE * 1609.344
    angle = turns * float(axle) * 2 * pi
    return work / 0.95 / angle / (FORCE * FOOT)


say("by slip", slip(2600, 0.71))
say("by slip soft tyres", slip(2600, 0.9))

# ---- strength, at the torque by the engine: 578 lbf·ft

newton_metres = lambda pound_feet: pound_feet * FORCE * FOOT


def rings(outer, inner):
    """J as rings of equal thickness, each its area by its radius squared."""
    return simpson(lambda r: 2 * pi * r**3, inner / 2, outer / 2, 200)


def shear(torque, outer, inner):
    stress = newton_metres(torque) * outer / 2 * INCH / (rings(outer, inner) * INCH**4)
    return stress * INCH**2 / FORCE / 1000


def dabs(leg, radius, count=3600):
    """A weld as dabs of its throat, each pushing along the tube; the torque at 1 ksi."""
    area = 0.707 * leg * 2 * pi * radius / count
    return sum(1000 * area * radius for _ in range(count)) / 12


T = float(by_engine)
say("shear", shear(T, 3.0, 2.834))
say("bears as welded", 0.577 * 32)
say("bears 1020", 0.577 * 55)
say("bears 1026", 0.577 * 65)
say("bears aluminium", 0.577 * 15)
say("twist", newton_metres(T) * wanted * INCH / (rings(3.0, 2.834) * INCH**4 * STEEL[1]) * 180 / pi)
say("torque at yield", 0.577 * 32 / shear(1, 3.0, 2.834))
# E70 metal bears 0.30 of 70 ksi on its throat, the tube beside it less: as it yields in shear.
say("leg", T / dabs(1, 1.5) / min(0.30 * 70, 0.577 * 32))
say("leg of E70", T / dabs(1, 1.5) / (0.30 * 70))
say("leg of half", T / dabs(1, 1.5) / (0.30 * 35))
say("leg aluminium", T / dabs(1, 1.5) / (0.577 * 15))
say("leg on the smaller", T / dabs(1, 1.25) / (0.577 * 32))
# A throat of 0.707 of the leg counts up to the wall.
say("most of a leg", 0.083 / 0.707)
# Of two sizes, 2-1/2 × 0.12 from 30 in on, or to 30 in less by what the front is cut by.
say("shear of the smaller", shear(T, 2.5, 2.26))


def winds(at):
    each = [at / rings(3.0, 2.834), (wanted - at) / rings(2.5, 2.26)]
    return newton_metres(T) * sum(each) / INCH**3 / STEEL[1] * 180 / pi


say("twist of both", winds(30.0))
say("twist of both front", winds(30.0 - change))
say("spline shear", shear(T, 1.25, 0.5))
# Folding: the formula that strength.py holds against a shell's energy, ν 0.29, 0.67 of it (NASA SP-8007).
t, r, length = 0.083, (3.0 - 0.083) / 2, wanted
ksi = 205e9 * INCH**2 / FORCE / 1000
moderate = 0.704 * ksi / (1 - 0.29**2) ** 0.625 * (t / r) ** 1.25 * sqrt(r / length)
long = ksi / (3 * sqrt(2) * (1 - 0.29**2) ** 0.75) * (t / r) ** 1.5
say("folds at", 0.67 * max(moderate, long))
