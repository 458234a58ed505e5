"""Speeds, accelerations, errors and angles of gearbox, shaft and pinion, by joints.py: turning yokes until
the cross's right angle is met, and differences of those turns.

Plain python3, no package, half a minute. Run from the repository's top level:

    python3 tests/handbook/line.py > tests/handbook/line.txt

Angles in degrees, gains in one over a radian. The differences leave an error under 1e-13.
"""

import sys
from math import atan2
from math import degrees as in_degrees

sys.dont_write_bytecode = True
from joints import PI, D, Line, axis, between, circle, degrees, dot, radians, root
from tools import say

# The case of line_in_space.svg, every sign another: gearbox, shaft, pinion, phase.
SPACE = ((2, 1.5), (5, -3), (-1.5, 1), 10)
FLAT = (0, 0)


def joint(angle):
    """One joint: the pinion is in line with the shaft."""
    return Line(FLAT, (angle, 0), (angle, 0), 0)


def one_joint():
    for angle in [3, 5, 10, 30]:
        least, greatest = joint(angle).ratios(0)
        say(f"joint {angle} least", least, 14)
        say(f"joint {angle} greatest", greatest, 14)
        say(f"joint {angle} fluctuation", greatest - least, 14)
        say(f"joint {angle} gain", joint(angle).peak_gain(0), 14)
    for angle, speed in [(3, 3000), (5, 3500), (3, 4000)]:
        say(f"acceleration {angle} at {speed}", joint(angle).peak_gain(0) * (speed * PI / 30) ** 2, 8)
    for limit, speed in [(1000, 3000), (1000, 4000), (1000, 5000), (400, 3000), (400, 4000), (20000, 3000)]:
        gain = limit / (speed * PI / 30) ** 2
        found = root(lambda a: joint(a).peak_gain(0) - gain, D(1), D(44))
        say(f"joint with {limit} at {speed}", found, 10)


def bent(front, rear, twist, phase, scale):
    """A line whose joints bend by so much (radians), the second's plane turned by the twist: the shaft
    level and straight back, the gearbox falling to it from above."""
    line = Line(FLAT, FLAT, FLAT, phase)
    leaning = lambda bend, clock: (lambda s, c, a, b: (c, s * a, s * b))(*circle(bend), *circle(clock))
    line.axes[0] = leaning(front * scale, D(0))
    line.axes[2] = leaning(rear * scale, twist)
    # Any two directions square to the axis and to each other will do, if the turn keeps its sense.
    for end in (0, 2):
        a = line.axes[end]
        up = (-a[2], D(0), a[0])
        size = dot(up, up).sqrt()
        up = tuple(x / size for x in up)
        right = (-a[1] * up[2], up[2] * a[0] - up[0] * a[2], up[0] * a[1])
        line.frames[end] = (up, right)
    return line


def equivalent(front, rear, twist, phase):
    """The single joint that errs as much, where all bends are small: the error peak to peak is half the
    square of it. Bends a ten millionth as large; what is left out is smaller by the square of that."""
    scale = D("1e-7")
    return degrees((2 * bent(front, rear, twist, phase, scale).error()).sqrt() / scale)


def clock(line, end):
    """Where the outer end of this axis is seen, looking forward along the shaft: degrees from straight up."""
    up, right = line.frames[1]
    away = line.axes[end] if end == 2 else tuple(-x for x in line.axes[0])
    return in_degrees(atan2(float(dot(away, right)), float(dot(away, up))))


def twist_of(line):
    twist = (clock(line, 2) - clock(line, 0)) % 180
    return twist - 180 if twist > 90 else twist


def errors():
    for front, rear, phase in [(3, 3, 2), (3, 3, 5), (3, 3, 10), (3, 3, 90), (3, 1, 0), (5, 4, 0), (6, 6, 10), (10, 10, 90)]:
        say(f"error {front} {rear} {phase}", degrees(Line((front, 0), FLAT, (rear, 0), phase).error()), 12)
    for angle, phase in [(3, 1), (3, 3), (3, 5), (3, 90), (5, 0)]:
        b = radians(angle)
        say(f"equivalent {angle} {angle} {phase}", equivalent(b, b, D(0), phase))
    for front, rear, phase in [(5, 4, 0), (3, 1, 0), (5, 4, 90), (3, 1, 90)]:
        say(f"equivalent {front} {rear} {phase}", equivalent(radians(front), radians(rear), D(0), phase))


def pairs():
    for one, other in [((3, 0), (-1, 2)), ((-3, 0), (-5.5, 1.5)), (FLAT, (2.15, 2.5)), ((8, -3), (-4, 11)), ((1, 1), (1, "1.0000001"))]:
        key = f"between {one[0]} {one[1]} and {other[0]} {other[1]}"
        say(key, degrees(between(axis(*one), axis(*other))), 12)


LINES = [
    ("level", (FLAT, (3, 0), FLAT, 2)),
    ("unequal", ((3, 0), FLAT, (1, 0), 0)),
    ("crossed", ((5, 0), FLAT, (-4, 0), -5)),
    ("space", SPACE),
    ("one way", ((3, 1), (12, -4), (-9, 5), -2)),
    ("other way", ((-2, 0.5), (-9, 3), (1, -6), 37)),
    ("wide", ((0, -14), (0, 15), (2, -9), 5)),
    ("sharp", ((10, 10), (-8, -7), (6, 11), -61)),
    ("quarter", ((10, 0), FLAT, (10, 0), 90)),
    ("thirty", (FLAT, (30, 0), FLAT, 3)),
    ("square", ((20, 0), (0, 20), (20, 0), 0)),
    ("near", ((0.5, 0), (0, 0.5), (-0.5, 0), 88.5)),
    ("straight", ((4, 0), (4, 0), (6, 1), 5)),
]


def lines():
    for name, given in LINES:
        line = Line(*given)
        for end, bend in zip(["front", "rear"], line.bends):
            say(f"{name} {end} joint", degrees(bend), 12)
        if min(line.bends) > 0:
            twist = twist_of(line)
            say(f"{name} twist", twist, 11)
            say(f"{name} equivalent", equivalent(*line.bends, radians(twist), given[3]), 11)
        for place in [10, 77, 141, 305] if name not in ("unequal", "near", "straight") else []:
            ratio, gain = line.rates(line.zero + radians(place))
            for what, r, g in zip(["shaft", "pinion"], ratio, gain):
                say(f"{name} at {place} {what} ratio", r, 14)
                say(f"{name} at {place} {what} gain", g, 14)
        say(f"{name} error", degrees(line.error()), 13)
        for which, what in enumerate(["shaft", "pinion"]):
            least, greatest = line.ratios(which)
            say(f"{name} least {what} ratio", least, 14)
            say(f"{name} greatest {what} ratio", greatest, 14)
            say(f"{name} {what} gain", line.peak_gain(which), 14)


if __name__ == "__main__":
    for part in [one_joint, errors, pairs, lines]:
        part()
