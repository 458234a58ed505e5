"""Expected values of the handbook's sums, each by another route than the program takes.

Plain python3, no package. Run from the repository's top level:

    python3 tests/handbook/derive.py > tests/handbook/derive.txt

Where the program uses a closed form, this integrates, walks or searches; where it solves, this tries
and halves; where it adds decimals, this keeps exact fractions.
"""

import sys
from fractions import Fraction as F
from math import atan2, cos, degrees, gamma, hypot, pi, radians, sin, sqrt
from statistics import median

sys.dont_write_bytecode = True
from face import faces
from tools import INCH, POUND, circle, fit, halve, polygon_arc, say, simpson
from travel import travels
from yokes import yokes


def fractions_of_an_inch():
    for key, inches, lines in [
        ("tape 1455.7 mm", F("1455.7") / INCH, 16),
        ("tape 0.8 mm", F("0.8") / INCH, 32),
        ("tape 57.3125 in", F("57.3125"), 16),
        ("tape 1.999 in", F("1.999"), 64),
        ("tape -3.49 in", F("-3.49"), 32),
    ]:
        nearest = min((F(n, lines) for n in range(-4 * lines, 60 * lines)), key=lambda q: abs(q - inches))
        say(f"{key} whole", abs(nearest) // 1)
        say(f"{key} upper", (abs(nearest) % 1).numerator)
        say(f"{key} lower", (abs(nearest) % 1).denominator)
        say(f"{key} leftover", inches - nearest)


def spreads():
    # The standard deviation of a reading rounded to its nearest line, by integrating its density.
    for key, division in [("1/16", 1 / 16), ("1/32", 1 / 32), ("1/64", 1 / 64), ("0.001", 0.001), ("1/4", 0.25)]:
        u = sqrt(simpson(lambda x: x * x / division, -division / 2, division / 2, 2000))
        say(f"line {key}", u)
        say(f"difference line {key}", sqrt(2) * u)
    # The end gauge of the GUM with exact fractions: squares, and the effective degrees of freedom.
    parts = [(F(25), F(18)), (F("9.7"), F("25.6")), (F("2.9"), F(50)), (F("16.6"), F(2))]
    square = sum(u**2 for u, _ in parts)
    say("end gauge u", sqrt(square))
    say("end gauge freedom", square**2 / sum(u**4 / nu for u, nu in parts))
    # Repeats by hand of the definitions: 57.3125, 57.25, 57.3125, 57.28 read to 1/32.
    four = [F("57.3125"), F("57.25"), F("57.3125"), F("57.28")]
    mean = sum(four) / 4
    scatter = sum((x - mean) ** 2 for x in four) / 3 / 4
    whole = scatter + F(1, 32) ** 2 / 12
    say("four repeats mean", mean)
    say("four repeats u", sqrt(whole))
    say("four repeats freedom", whole**2 / (scatter**2 / 3))
    two = [F("57.3125"), F("57.25")]
    say("two repeats u", sqrt(((two[0] - two[1]) / 2) ** 2 / 3 + F(1, 32) ** 2 / 12))


def student(t, nu):
    """Student's probability of being within t, the density integrated over an angle."""
    c = gamma((nu + 1) / 2) / (sqrt(pi) * gamma(nu / 2))
    edge = atan2(t, sqrt(nu))
    return 2 * simpson(lambda a: c * cos(a) ** (nu - 1), 0, edge, 4000)


def coverage():
    for nu in [1, 2, 3, 5, 7, 9, 16, 50]:
        say(f"t {nu}", halve(lambda t: student(t, nu) - 0.95, 0, 50), 6)
        say(f"circle {nu}", halve(lambda r: circle(r, nu) - 0.95, 0, 50), 6)


def phase():
    for key, d in [("3.0", 3.0), ("3.5", 3.5), ("4.0", 4.0)]:
        say(f"arc {key}", polygon_arc(d, 1.0))
    say("arc 76.2 mm 2.5", polygon_arc(76.2, 2.5))
    # The turn under a lift, by trying angles until the ear stands so high.
    for key, h, w in [("0.06 over 3.4", 0.06, 3.4), ("1 mm over 80", 1.0, 80.0)]:
        say(f"lift {key}", halve(lambda a: w * sin(radians(a)) - h, 0, 90))


def run_out(key, at, readings, orders=(1, 2)):
    c, left = fit(at, readings, orders)
    say(f"{key} total", max(readings) - min(readings))
    say(f"{key} mean", c[0])
    say(f"{key} offset", hypot(c[1], c[2]))
    say(f"{key} offset at", degrees(atan2(c[2], c[1])) % 360)
    if 2 in orders:
        say(f"{key} ovality", hypot(c[3], c[4]))
        # An oval that is not there has no place.
        if hypot(c[3], c[4]) > 1e-9:
            say(f"{key} ovality at", degrees(atan2(c[4], c[3])) % 360 / 2)
    spare = len(readings) - len(c)
    if spare > 0:
        say(f"{key} leftover", sqrt(sum(x * x for x in left) / spare))


def run_outs():
    every = lambda n: [360 * i / n for i in range(n)]
    run_out("eight", every(8), [0, 3, 7, 9, 8, 5, 1, -1])
    run_out("eight bent", every(8), [15.38881, 17.26274, 13.06418, 9.23736, 7.67536, 5.30841, 3.87164, 8.19149])
    wave = lambda a: 10 + 6 * cos(radians(a - 50)) + 2 * cos(2 * radians(a - 20))
    run_out("twelve whole", every(12), [float(round(wave(a))) for a in every(12)])
    run_out("four", every(4), [0, 6, 9, 2], (1,))
    run_out("three", every(3), [0, 4, -2], (1,))
    run_out("five", every(5), [0, 4, -2, 1, 0])
    # Stations where a hand happened to stop, one quarter left out for the seam.
    uneven = [0, 40, 75, 130, 165, 200, 330]
    run_out("uneven", uneven, [1, 5, 8, 10, 8, 5, -1])


def polar(size, angle):
    return complex(size * cos(radians(angle)), size * sin(radians(angle)))


def two_planes(key, weights, length):
    """Shares from the two balances of statics: force, and moment about the front plane."""
    force = sum(polar(u, at) for u, at, _ in weights)
    moment = sum(polar(u, at) * z for u, at, z in weights)
    rear = moment / length
    front = force - rear
    for name, v in [("front", front), ("rear", rear)]:
        say(f"{key} {name}", abs(v))
        say(f"{key} {name} at", degrees(atan2(v.imag, v.real)) % 360)


def unbalance():
    two_planes("shares inside", [(20, 30, 12)], 48)
    two_planes("shares beyond", [(20, 30, 52)], 48)
    two_planes("shares of three", [(14, 75, 9), (22, 200, 41), (5, 310, 50)], 48)
    for key, g, m, n in [("G16 10 kg 3000", 16, 10, 3000), ("G16 8 kg 4000", 16, 8, 4000), ("G40 10 kg 3000", 40, 10, 3000)]:
        # The grade is the speed of the centre of mass: find the offset whose circle gives it.
        turns = n / 60
        offset = halve(lambda e: 2 * pi * e * turns - g, 0, 100)
        say(key, m * 1000 * offset)
    per_pound = halve(lambda e: 2 * pi * e * 50 - 16, 0, 100)
    ounce_inch = float(POUND / 16 * INCH)
    say("G16 20 lb 3000 oz-in", 20 * float(POUND) * per_pound / ounce_inch)
    say("one oz-in in g-mm", POUND / 16 * INCH, 7)
    # Force by the second difference of the circle's own position.
    step, w = 1e-5, 2 * pi * 50
    x = lambda t: cos(w * t)
    pull = -(x(step) - 2 * x(0) + x(-step)) / step**2 * ounce_inch * 1e-6
    say("force of one oz-in at 3000 N", pull, 3)
    say("force of one oz-in at 3000 lbf", pull / 4.4482216152605, 3)
    say("20 lb at 0.005 in", F(20) * 16 * F("0.005"))
    say("10 kg at 0.1 mm", F(10000) * F("0.1"))


def apportioned():
    """An unbalance from two places, found by taking the second off until the rest points to the first."""
    splits = [("37 on 30 60", 10, 37, 30, 60), ("250 on 240 280", 1.925, 250, 240, 280)]
    for key, size, at, first, second in splits:
        rest = lambda q: polar(size, at) - polar(q, second)
        # How far the rest points past the first place, as a part of it square to that.
        past = lambda q: -(rest(q) / polar(1, first)).imag
        q = halve(past, 0, 10 * size)
        say(f"split {key} first", abs(rest(q)), 6)
        say(f"split {key} second", q, 6)
    for ratio in [1, 1.5, 0.5]:
        say(f"clips {ratio}", halve(lambda g: ratio - abs(polar(1, g) + polar(1, -g)), 0, 90), 6)
    say("2.2 oz from 14 to 16", F("2.2") * 14 / 16)
    for share in [0.5, 0.7, 0.9]:
        # A bow's own pull bends it again, by (n/N)² of itself, and so on.
        say(f"growth {share}", sum(share ** (2 * k) for k in range(2000)))


def whirl(outer, inner, length, modulus, density):
    """First bending frequency by Stodola's iteration: bend the beam under its own inertia until the
    shape repeats itself. Lengths in metres; revolutions a minute."""
    n = 4000
    h = length / n
    gyration_square = (outer**2 + inner**2) / 16
    stiffness = modulus / density * gyration_square  # EI/(ρA)
    y = [4 * i * (n - i) / n**2 for i in range(n + 1)]
    omega_square = 0.0
    for _ in range(12):
        bent = twice([v / stiffness for v in y], h)
        bent = twice(bent, h)
        omega_square = sum(a * b for a, b in zip(y, bent)) / sum(b * b for b in bent)
        top = max(bent)
        y = [v / top for v in bent]
    return sqrt(omega_square) * 30 / pi


def twice(load, h):
    """Solves −v'' = load with v = 0 at both ends (Numerov's rule: error of fourth order)."""
    n = len(load) - 1
    right = [0.0] * (n + 1)
    for i in range(1, n):
        right[i] = h * h * (load[i - 1] + 10 * load[i] + load[i + 1]) / 12
    # Thomas' elimination for −1, 2, −1.
    c, d = [0.0] * (n + 1), [0.0] * (n + 1)
    for i in range(1, n):
        m = 2 - c[i - 1]
        c[i] = 1 / m
        d[i] = (right[i] + d[i - 1]) / m
    v = [0.0] * (n + 1)
    for i in range(n - 1, 0, -1):
        v[i] = d[i] + c[i] * v[i + 1]
    return v


def whirls():
    inch = float(INCH) / 1000
    for key, d, t, l in [("3.000x0.083x50", 3, 0.083, 50), ("3.500x0.083x55", 3.5, 0.083, 55), ("4.000x0.095x60", 4, 0.095, 60)]:
        say(f"whirl {key}", whirl(d * inch, (d - 2 * t) * inch, l * inch, 205e9, 7850), 3)
    say("whirl 88.9x2.0x1400", whirl(0.0889, 0.0849, 1.4, 205e9, 7850), 3)
    say("whirl aluminium 3.500x0.125x55", whirl(3.5 * inch, 3.25 * inch, 55 * inch, 68.9e9, 2700), 3)
    rings = 20000
    d, wall = 3 * inch, 0.083 * inch
    step = wall / rings
    say("mass of a metre", sum(2 * pi * (d / 2 - (i + 0.5) * step) * step for i in range(rings)) * 7850)


def cuts():
    for key, old, wanted, gap, shrink, weld in [
        ("cut shorter", "57.3125", "55.5", "0", "0.015625", "53.875"),
        ("cut gap", "48", "46.75", "0.0625", "0.03", "44.5"),
        ("cut longer", "48", "50.25", "0.125", "0.06", "44.5"),
    ]:
        old, wanted, gap, shrink, weld = map(F, (old, wanted, gap, shrink, weld))
        # Put the shaft together again with more and more taken out, to the 640 000th of an inch.
        made = lambda out: (weld - out) + gap + (old - weld) - shrink
        least, most = -3200000, 3200000
        while most - least > 1:
            middle = (least + most) // 2
            least, most = (middle, most) if made(F(middle, 640000)) > wanted else (least, middle)
        out = F(most, 640000)
        say(f"{key} removed", out)
        say(f"{key} finished", made(out))
    # A face out of square: two straight pieces with a kink of f/D, held at both joints.
    def dial(f, d, length, z):
        kink = f / d
        front_slope = kink * (length - z) / length  # the front piece rises, the rear one comes back
        return 2 * front_slope * z

    for key, d, t, length, z in [("face 3 in", 3.0, 0.010, 55.5, 52.0), ("face 88.9 mm", 88.9, 0.8, 1400.0, 1310.0)]:
        say(key, halve(lambda f: dial(f, d, length, z) - t, 0, d))


def budget(key, causes, terms):
    """A sum of multiples of readings, felt out by moving one reading at a time by its own u."""
    total = lambda xs: sum(F(factor) * xs[i] for i, factor in terms)
    best = [F(x) for x, _, _ in causes]
    brings = []
    for i, (_, u, _) in enumerate(causes):
        ends = [total([x + (sign * F(u) if j == i else 0) for j, x in enumerate(best)]) for sign in (1, -1)]
        brings.append(abs(ends[0] - ends[1]) / 2)
    square = sum(u * u for u in brings)
    say(f"{key} best", total(best))
    say(f"{key} u", sqrt(square))
    shared = sum(u**4 / F(nu) for u, (_, _, nu) in zip(brings, causes) if nu)
    if shared:
        say(f"{key} freedom", square**2 / shared)
    for place, i in enumerate(sorted(range(len(brings)), key=lambda i: -brings[i])):
        if brings[i]:
            say(f"{key} cause {place}", i)
            say(f"{key} brings {place}", brings[i])


def budgets():
    # A degree of freedom of 0 stands for one without end.
    cause = [("57.3125", "0.009", 0), ("55.5", "0.0125", 3), ("0.0625", "0.0045", 5)]
    budget("budget cut", cause, [(0, 1), (1, -1), (2, 1)])
    budget("budget twice", cause, [(0, 1), (1, "-0.5"), (0, "-0.25"), (2, "2.5"), (1, "-0.5"), (2, "-0.5")])
    budget("budget gone", cause, [(0, 1), (1, 1), (0, -1)])


def apart(key, readings, division):
    """The rule, over a sorted list."""
    readings, division = [F(x) for x in readings], F(division)
    others = lambda i: sorted(readings[:i] + readings[i + 1 :])
    i = max(range(len(readings)), key=lambda i: abs(readings[i] - median(others(i))))
    rest = others(i)
    off, width = abs(readings[i] - median(rest)), rest[-1] - rest[0]
    stands = off > 3 * division and off > 3 * width
    say(f"{key} stands apart", stands)
    if stands:
        say(f"{key} index", i)
        say(f"{key} by", readings[i] - sum(rest) / len(rest))
        say(f"{key} others", width)


def readings_apart():
    apart("apart inch", ["57.3125", "57.28125", "58.3125"], "0.03125")
    apart("apart short", ["55.53", "55.5", "54.5", "55.47", "55.5"], "0.03125")
    apart("apart agree", ["57.3125", "57.28125", "57.3125"], "0.03125")
    apart("apart calliper", ["3.002", "2.999", "3.004", "2.998", "3.001", "3.003"], "0.001")


for part in [
    *[fractions_of_an_inch, spreads, coverage, phase, run_outs, unbalance, whirls, cuts],
    *[travels, budgets, readings_apart, faces, yokes, apportioned],
]:
    part()
