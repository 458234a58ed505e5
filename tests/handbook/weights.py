"""The weights of the shaft of shaft.py by other rules than its own, and what its run-out adds, for
tests/stages/weights.rs and tests/stages/run_out.rs.

Plain python3, no package. Run from the repository's top level:

    python3 tests/handbook/weights.py > tests/handbook/weights.txt

Strips are cut into thin slices round the tube and summed; parts of a weight come from its pull up and
to the right; two weights from their moments about each other's place; the tube of a crooked shaft is
thousands of rings, each with its own offset.
"""

import contextlib
import io
import sys
from cmath import exp
from math import atan2, cos, degrees, hypot, pi, radians, sin

sys.dont_write_bytecode = True
with contextlib.redirect_stdout(io.StringIO()):
    from shaft_cut import FAR, GAP, SHRINK, WELD
    from shaft_length import OLD, WANTED
    from tools import fit, halve, say

old, wanted = float(OLD[0]), float(WANTED[0])
weld, far = float(WELD - (OLD[0] - WANTED[0] + GAP - SHRINK)), float(FAR)
DENSITY = 7850e-6  # steel, g/mm³


def vector(size, at):
    return size * exp(1j * radians(at))


def say_vector(key, v):
    say(key, abs(v))
    say(key + " at", degrees(atan2(v.imag, v.real)) % 360)


# A strip, flat size in mm, bent round a tube: its middle face keeps its length. Slices round the tube,
# each of many thin layers.
def strip(length, width, thick, tube):
    middle, slices, layers = tube + thick / 2, 400, 200
    mass = pull = 0.0
    for layer in range(layers):
        r = tube + thick * (layer + 0.5) / layers
        arc = length / middle
        part = DENSITY * width * (thick / layers) * r * arc / slices
        mass += part * slices
        for i in range(slices):
            pull += part * r * cos(arc * ((i + 0.5) / slices - 0.5))
    return mass, pull


mass, pull = strip(25.0, 20.0, 3.0, 38.1)
say("plate mass", mass, 6)
say("plate radius", pull / mass, 4)
# Of 3/4 by 1/8 in stock, the length that does what 9 g at 1-9/16 in do.
wants = 9.0 * 1.5625 * 25.4
cut = halve(lambda length: strip(length, 19.05, 3.175, 38.1)[1] - wants, 1.0, 60.0)
say("strip", cut, 3)
# And what does 13.3333 g at 45 mm.
cut = halve(lambda length: strip(length, 19.05, 3.175, 38.1)[1] - 600.0, 1.0, 60.0)
say("kept strip", cut, 3)


# What is put at two places on the clock pulls up and to the right as the one did.
def parts(size, at, one, other):
    (a, b), (c, d), (p, q) = [(cos(radians(x)), sin(radians(x))) for x in (one, other, at)]
    whole = a * d - b * c
    return size * (p * d - q * c) / whole, size * (a * q - b * p) / whole


for name, value in zip(("first", "second"), parts(10.0, 37.0, 30.0, 60.0)):
    say("part " + name, value)
for name, value in zip(("first", "second"), parts(14.5, 228.0, 225.0, 245.0)):
    say("seam " + name, value)

# The two weights of the shaft: unbalance in g·mm, clock as its yoke was turned, from the far joint.
arm = 1.5625 * 25.4
before = [(vector(9.0 * arm, 60.0), 5.25), (vector(14.5 * arm, 228.0), 52.0)]


def shares(weights, length):
    rear = sum(u * z for u, z in weights) / length
    return sum(u for u, _ in weights) - rear, rear


say("shorter", old - wanted)
front, rear = shares(before, old)
# Both shares kept by weights at 5 and 50 in: moments about each of the two places.
moment = lambda about: front * (0 - about) + rear * (wanted - about)
for name, at, other in (("front", 5.0, 50.0), ("rear", 50.0, 5.0)):
    say_vector("kept " + name, moment(other) / (at - other) / arm)
# Own places: neither has moved, on a shorter shaft; and own yokes: the second has moved with its.
stays = shares(before, wanted)
goes = shares([before[0], (before[1][0], 52.0 - (old - wanted))], wanted)
for name, i in (("front", 0), ("rear", 1)):
    was = (front, rear)[i]
    say_vector("stays " + name, stays[i] - was)
say("rules differ", max(abs(a - b) for rule in ((goes, stays), (goes, (front, rear)), (stays, (front, rear)))
                        for a, b in zip(*rule)))

# What the run-out adds. Three places, thousandths of an inch every 45°, as tests/stages/run_out.rs has them.
READ = {
    49.0: [0, 2, 4, 6, 6, 4, 2, 0],
    28.0: [0, -0.5, -1.5, -2, -2, -1.5, -0.5, 0],
    8.0: [0, 0, 0.5, 0.5, 1, 0.5, 0.5, 0],
}
at = [45 * i for i in range(8)]
offset = {}
for z, readings in READ.items():
    c, _ = fit(at, readings, (1, 2))
    offset[z] = complex(c[1], c[2]) * 0.0254  # mm, toward 12 and toward 3
WHOLE = 18.5 * 453.59237
outer, inner = 3.0 * 25.4, (3.0 - 2 * 0.083) * 25.4
per_inch = DENSITY * pi * (outer**2 - inner**2) / 4 * 25.4
tube = per_inch * (weld - far)
say("tube mass", tube, 6)
yoke = (WHOLE - tube) / 2


def straight_between(points):
    """The line through points, on the axis at both joints."""
    knots = [(0.0, 0.0), *sorted(points.items()), (wanted, 0.0)]

    def line(z):
        for (a, p), (b, q) in zip(knots, knots[1:]):
            if z <= b:
                return p + (q - p) * (z - a) / (b - a)

    return line


def out_of_balance(line, rings=60000):
    """Of the tube and of the yokes, in the front and the rear plane."""
    step, found = (weld - far) / rings, [0.0, 0.0]
    for i in range(rings):
        z = far + (i + 0.5) * step
        u = per_inch * step * line(z)
        found[0] += u * (1 - z / wanted)
        found[1] += u * z / wanted
    ends = [(yoke * line(z), z) for z in (far / 2, (weld + wanted) / 2)]
    return found, shares(ends, wanted)


(tube_front, tube_rear), (yoke_front, yoke_rear) = out_of_balance(straight_between(offset))
total = (tube_front + yoke_front, tube_rear + yoke_rear)
for name, value, of_tube, of_yokes in (("front", total[0], tube_front, yoke_front), ("rear", total[1], tube_rear, yoke_rear)):
    say_vector("adds " + name, value)
    say(f"yokes {name}", abs(of_yokes))
    say(f"wall {name}", abs(of_tube) * 0.1 / (0.083 * 25.4))
def smooth_between(points):
    """The smooth curve through the same points: a cubic on each piece, its four coefficients from the
    conditions one by one (through both ends, no corner, no jump in the bend, none at the joints), solved as
    they stand."""
    knots = [(0.0, 0.0), *sorted(points.items()), (wanted, 0.0)]
    pieces, size = list(zip(knots, knots[1:])), 4 * (len(knots) - 1)
    rows = []

    def condition(terms, value):
        row = [0.0] * size + [value]
        for column, factor in terms:
            row[column] += factor
        rows.append(row)

    for i, ((a, p), (b, q)) in enumerate(pieces):
        h, c = b - a, 4 * i
        condition([(c, 1)], p)
        condition([(c, 1), (c + 1, h), (c + 2, h * h), (c + 3, h**3)], q)
        if i + 1 < len(pieces):
            condition([(c + 1, 1), (c + 2, 2 * h), (c + 3, 3 * h * h), (c + 5, -1)], 0.0)
            condition([(c + 2, 2), (c + 3, 6 * h), (c + 6, -2)], 0.0)
    last = pieces[-1][1][0] - pieces[-1][0][0]
    condition([(2, 2)], 0.0)
    condition([(size - 2, 2), (size - 1, 6 * last)], 0.0)
    for i in range(size):
        best = max(range(i, size), key=lambda r: abs(rows[r][i]))
        rows[i], rows[best] = rows[best], rows[i]
        rows[i] = [x / rows[i][i] for x in rows[i]]
        for r in range(size):
            if r != i and rows[r][i]:
                rows[r] = [x - rows[r][i] * y for x, y in zip(rows[r], rows[i])]

    def curve(z):
        for i, ((a, _), (b, _)) in enumerate(pieces):
            if z <= b:
                return sum(rows[4 * i + k][-1] * (z - a) ** k for k in range(4))

    return curve


# What lies between the places: the smooth curve less the straight lines.
(bow_front, bow_rear), (yoke_bow_front, yoke_bow_rear) = out_of_balance(smooth_between(offset))
say("between front", abs(bow_front + yoke_bow_front - total[0]))
say("between rear", abs(bow_rear + yoke_bow_rear - total[1]))
# What a millimetre at one place alone makes: how its ± comes through.
for z in READ:
    one = {other: complex(other == z) for other in READ}
    (a, b), (c, d) = out_of_balance(straight_between(one))
    say(f"by {z:.0f} front", abs(a + c))
    say(f"by {z:.0f} rear", abs(b + d))
speed = 3500 * 2 * pi / 60
say("grade", max(map(abs, total)) * speed / (WHOLE / 2))
# Two weights an inch inside the welds, at the tube's own radius: moments about each other's place.
moment = lambda about: total[0] * (0 - about) + total[1] * (wanted - about)
for name, place, other in (("front", far + 1, weld - 1), ("rear", weld - 1, far + 1)):
    say_vector("cancel " + name, -moment(other) / (place - other) / 38.1)

# One place at 28 in: a half sine through it; beside it a kink at the weld and the rear yoke off its place.
bow = lambda z: sin(pi * z / wanted) / sin(pi * 28 / wanted) * offset[28.0]
kink = lambda z: (z / weld if z < weld else (wanted - z) / (wanted - weld)) / (28 / weld) * offset[28.0]
rear_yoke = lambda z: z / 28 * offset[28.0]
made = [[a + b for a, b in zip(*out_of_balance(line))] for line in (bow, kink, rear_yoke)]
for i, name in enumerate(("front", "rear")):
    say_vector("bow " + name, made[0][i])
    say(f"bow {name} off", max(abs(made[0][i] - other[i]) for other in made[1:]))
