"""Distances between the joints as the axle moves, for derive.py.

Without a link the distance is walked to from ride height, adding up the shaft's slope; with one, the
link and the shaft are turned by trying angles until they stand as high as they must.
"""

from cmath import exp
from fractions import Fraction as F
from math import pi, sin

from tools import halve, say


def walked(length, drop, up, steps=2000):
    """Runge and Kutta's walk along dD/dh = −(Y − h)/D: what rises at the rear end shortens the shaft by
    the sine of its slope."""
    slope = lambda h, d: -(drop - h) / d
    step, h, d = up / steps, 0.0, length
    for _ in range(steps):
        a = slope(h, d)
        b = slope(h + step / 2, d + step / 2 * a)
        c = slope(h + step / 2, d + step / 2 * b)
        e = slope(h + step, d + step * c)
        d += step / 6 * (a + 2 * b + 2 * c + e)
        h += step
    return d


def standing(size, height):
    """A rod of this size turned until its end stands so high; x rearward, y up."""
    angle = halve(lambda a: size * sin(a) - height, -pi / 2, pi / 2)
    return size * exp(1j * angle)


def led(length, drop, radius, rise, trails, up):
    mirror = (lambda end: end) if trails else (lambda end: -end.conjugate())
    moved = mirror(standing(radius, rise + up)) - mirror(standing(radius, rise))
    return abs(standing(length, -drop) + moved)


def inside(distance, low, high, sign):
    """Where a dip (sign +) or a crest (−) lies: its slope, from near either side, turns there."""
    near = 1e-3
    return halve(lambda h: sign * (distance(h + near) - distance(h - near)), low, high)


def parabola(key, points, heights):
    """Lagrange's form in exact fractions; the dip where the differences at equal steps cancel."""
    points = [(F(h), F(d)) for h, d in points]

    def curve(h):
        total = F(0)
        for i, (hi, di) in enumerate(points):
            for j, (hj, _) in enumerate(points):
                if i != j:
                    di *= (h - hj) / (hi - hj)
            total += di
        return total

    for h in heights:
        say(f"{key} at {h}", curve(F(h)))
    low, middle, high = curve(F(-1)), curve(F(0)), curve(F(1))
    dip = (low - high) / (low - 2 * middle + high) / 2
    say(f"{key} dip at", dip)
    say(f"{key} dip", curve(dip))


def travels():
    for key, drop, up in [("level", 0, 4), ("level", 0, -4), ("drop 6", 6, -2), ("drop 6", 6, -4), ("drop 6", 6, 3)]:
        say(f"swing {key} {up}", walked(50.0, drop, up) - 50)
    links = {"trails": (26.0, -2.0, True), "leads": (18.0, 1.5, False)}
    for key, link in links.items():
        for up in [3.0, -4.0]:
            say(f"swing {key} {up:.0f}", led(50.0, 6.0, *link, up) - 50)
    # Extremes from 4 below ride to 5 above: a dip inside, a crest inside, and the ends.
    free = lambda h: walked(50.0, 2.0, h)
    say("extremes free least at", inside(free, 0.0, 4.0, 1))
    say("extremes free least", free(inside(free, 0.0, 4.0, 1)))
    say("extremes free greatest", free(-4.0))
    trailing = lambda h: led(50.0, 3.0, *links["trails"], h)
    crest = inside(trailing, -3.0, 4.0, -1)
    say("extremes trails greatest at", crest)
    say("extremes trails greatest", trailing(crest))
    say("extremes trails least", min(trailing(-4.0), trailing(5.0)))
    leading = lambda h: led(50.0, 3.0, *links["leads"], h)
    dip = inside(leading, -3.0, 4.0, 1)
    say("extremes leads least at", dip)
    say("extremes leads least", leading(dip))
    say("extremes leads greatest", max(leading(-4.0), leading(5.0)))
    parabola("parabola", [("3", "50.25"), ("0", "50.15"), ("-4", "50.875")], ["3", "0", "-4", "-2.5", "1.5"])
