"""The invented shaft under the dial, for shaft.py: readings made from bent shafts built up point by point,
and what has to be found in them again.

A place across the tube is a complex number: up to the witness mark, right in the imaginary part, so that
a clock angle is its argument. Inches, the dial in thousandths.
"""

from bisect import bisect_left
from cmath import exp, phase, pi
from math import cos, degrees, hypot, log, radians, sin, sqrt

from shaft_cut import END
from shaft_length import WANTED
from tools import fit, halve, say

LENGTH, WELD, TUBE = float(WANTED[0]), float(END), 3.0
PLACES = [8.0, 20.0, 33.0, 46.0, 54.0]
VEES = [14.0, 40.0]
LINE = 1 / sqrt(12)
# Radius of a circle that 5 of 100 points of two independent unit errors fall outside of.
CIRCLE = sqrt(-2 * log(0.05))


def toward(size, clock):
    return size * exp(1j * radians(clock))


def say_vector(key, vector):
    say(f"{key} up", vector.real)
    say(f"{key} right", vector.imag)


def clock_of(vector):
    return degrees(phase(vector)) % 360


# How far the joint opens.


def opened(place, moved):
    """Two straight pieces on a table, hinged at the rim: the front one is raised, and the rear one laid back to
    the line, until the tube has moved so far at the place. What then gapes between the faces."""
    def rear(front):
        return halve(lambda b: (LENGTH - WELD) * sin(b) - WELD * sin(front), 0, 0.5)

    def stands(front):
        if place <= WELD:
            return place * sin(front)
        return (LENGTH - WELD) * sin(rear(front)) - (place - WELD) * sin(rear(front))

    front = halve(lambda a: stands(a) - moved, 0, 0.01)
    angle = front + rear(front)
    # The rim that gapes, seen from the hinge, by each face.
    one, other = TUBE * exp(1j * (pi / 2 + angle / 2)), TUBE * exp(1j * (pi / 2 - angle / 2))
    return abs(one - other)


def opening():
    c, _ = fit([45 * i for i in range(8)], [0, 5, 11, 15, 14, 9, 3, -1], (1, 2))
    offset = hypot(c[1], c[2]) / 1000
    for place in (33.0, 46.0, 54.0):
        say(f"opens at {place:.0f}", opened(place, offset))


# What a tap taught.


def tried(effect, offset):
    """The tap that leaves least, by trying sizes and sides around the best one so far."""
    size, side, wide = abs(offset), clock_of(-offset), 1.0
    for _ in range(60):
        tries = [
            (max(0.0, size + i * wide * 2), side + j * wide * 15) for i in range(-4, 5) for j in range(-4, 5)
        ]
        size, side = min(tries, key=lambda t: abs(offset + effect(*t)))
        wide *= 0.7
    return size, side


def learned():
    at = [45 * i for i in range(8)]
    read = lambda vector: [round(abs(vector) * cos(radians(a - clock_of(vector)))) for a in at]
    found = lambda readings: (lambda c: complex(c[1], c[2]))(fit(at, readings, (1, 2))[0])
    first = found([0, 5, 11, 15, 14, 9, 3, -1])
    # Asked straight across; the tube goes six tenths of that, 20° to the clockwise side.
    asked = -first
    readings = read(first + toward(0.6 * abs(asked), clock_of(asked) + 20))
    for mark, reading in enumerate(readings):
        say(f"second pass mark {mark}", reading)
    second = found(readings)
    moved = second - first
    share, aside = abs(moved) / abs(asked), (clock_of(moved) - clock_of(asked) + 180) % 360 - 180
    say("moved", abs(moved))
    say("moved toward", clock_of(moved))
    say("answered share", share)
    say("answered aside", aside)
    size, side = tried(lambda size, side: toward(size * share, side + aside), second)
    say("second offset", abs(second))
    say("second offset at", clock_of(second))
    say("second tap", size, 6)
    say("second tap at", (side + 180) % 360, 6)


# Two readings alone.


def quick():
    high, low = (9.0, 105.0), (-2.0, 300.0)
    # The places are found to half an hour of the clock either way.
    u = [LINE, LINE, 15 / sqrt(3), 15 / sqrt(3)]
    # Where the highest is, and where the lowest is not.
    found = lambda h, l, at, opposite: toward((h - l) / 2, (at + opposite) / 2)
    best = [high[0], low[0], high[1], low[1] - 180]
    say("quick offset", abs(found(*best)))
    say("quick offset at", clock_of(found(*best)))
    for key, factor in [("quick", 1.0), ("quick backlash", hypot(1, 1.5))]:
        moves = []
        for i in range(4):
            one = u[i] * (factor if i < 2 else 1)
            # Small steps: a wide one would follow the circle.
            hair = [x + (one / 1000 if i == j else 0) for j, x in enumerate(best)]
            moves.append(abs(found(*hair) - found(*best)) * 1000)
        # All taken as if they lay in one direction, so that no side is said better known than it is.
        say(f"{key} doubt", CIRCLE * sqrt(sum(move**2 for move in moves)), 6)


def backlash():
    """Four marks: up is half of what the first has over the third. A line of one, lost motion of one and a
    half, any value within either as likely."""
    one = hypot(1, 1.5) / sqrt(12)
    say("four marks backlash doubt", 1.959963985 * hypot(one / 2, one / 2))
    say("four marks doubt", 1.959963985 * hypot(LINE / 2, LINE / 2))


# Bent shafts.

STEPS = 11000


class Shaft:
    """Where the tube's middle lies, in small steps along it, before it is hung up."""

    def __init__(self, cause, size, clock):
        way = toward(1, clock)
        self.z = sorted([LENGTH * i / STEPS for i in range(STEPS + 1)] + [WELD - 1e-9, WELD + 1e-9])
        self.front = self.rear = 0j
        if cause == "kink":
            # The rear piece leans away from the high side, by an angle of this size.
            self.y = [0j if z <= WELD else -way * (z - WELD) * size for z in self.z]
        elif cause == "step":
            self.y = [0j if z <= WELD else way * size for z in self.z]
        elif cause == "bow":
            # An arc of a circle over the chord.
            radius = ((LENGTH / 2) ** 2 + size**2) / (2 * size)
            self.y = [way * (sqrt(radius**2 - (z - LENGTH / 2) ** 2) - (radius - size)) for z in self.z]
        else:
            # A straight tube with a joint's centre beside its end, on the side away from the high one.
            self.y = [0j] * len(self.z)
        # Where the joints' centres are.
        self.front, self.rear = self.at(0.0), self.at(LENGTH)
        if cause == "front yoke":
            self.front -= way * size
        if cause == "rear yoke":
            self.rear -= way * size

    def at(self, z):
        i = max(1, min(bisect_left(self.z, z), len(self.z) - 1))
        share = (z - self.z[i - 1]) / (self.z[i] - self.z[i - 1])
        return self.y[i - 1] + (self.y[i] - self.y[i - 1]) * share

    def about(self, z, low, at_low, high, at_high):
        """Off the straight line through two points."""
        return self.at(z) - (at_low + (at_high - at_low) * (z - low) / (high - low))

    def joints(self, z):
        return self.about(z, 0.0, self.front, LENGTH, self.rear)

    def vees(self, z):
        low, high = VEES
        return self.about(z, low, self.at(low), high, self.at(high))

    def gearbox(self, z):
        # The tail is held somewhere beside its joint's centre.
        return self.about(z, 0.0, self.front, LENGTH, self.rear + toward(0.02, 75))

    def centres(self, z):
        return self.about(z, 0.0, self.front + toward(0.013, 200), LENGTH, self.rear + toward(0.02, 75))


KINK = 0.004
SHAFTS = [
    ("kink", KINK, 130.0),
    ("step", 0.03, 250.0),
    ("bow", 0.012, 40.0),
    ("front yoke", 0.015, 310.0),
    ("rear yoke", 0.01, 100.0),
]


def bent():
    for z in PLACES:
        say(f"place {PLACES.index(z)}", z)
    say("kink angle", degrees(KINK))
    for cause, size, clock in SHAFTS:
        shaft = Shaft(cause, size, clock)
        for set_up in ("joints", "vees", "gearbox", "centres"):
            shown = getattr(shaft, set_up)
            for place, z in enumerate(PLACES):
                say_vector(f"{set_up} {cause} {place}", shown(z))
        # Where it makes most about the joints; of a step how far the pieces stand apart.
        most = {"kink": WELD, "bow": LENGTH / 2, "front yoke": 0.0, "rear yoke": LENGTH}
        say(f"{cause} size", size if cause == "step" else abs(shaft.joints(most[cause])))
        for sixteenth in (4, 8, 12):
            say_vector(f"{cause} shape {sixteenth}", shaft.joints(LENGTH * sixteenth / 16))
    kink_doubt()


def kink_doubt():
    """How well the kink is known from four marks at each place: the size that leaves least, as each place's
    offset is moved by its own u."""
    kink = Shaft("kink", KINK, 0.0)
    shape = [(kink.joints(z) / kink.joints(WELD)).real for z in PLACES]

    def best(offsets):
        # Where what is left grows as much to one side as to the other.
        slope = lambda size: sum(s * (size * s - o) for s, o in zip(shape, offsets))
        return halve(slope, -10, 10)

    u = hypot(LINE / 2, LINE / 2)
    true = [5 * s for s in shape]
    moved = [best([o + (u if i == j else 0) for j, o in enumerate(true)]) - best(true) for i in range(len(true))]
    say("kink doubt", CIRCLE * sqrt(sum(m * m for m in moved)), 6)


def dials():
    opening()
    learned()
    quick()
    backlash()
    bent()
