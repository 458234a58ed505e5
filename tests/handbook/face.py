"""Faces out of square, loose spigots and strips of paper, for derive.py."""

from cmath import exp
from fractions import Fraction as F
from math import atan2, cos, degrees, pi, radians, sin, sqrt, tan

from tools import circle, fit, halve, polygon_arc, say


def face(key, at, readings, places):
    """The first order by walking downhill, then high side and low side by where its slope turns."""
    (_, c, s, *_), left = fit(at, readings, (1, 2))
    height = lambda a: c * cos(radians(a)) + s * sin(radians(a))
    about = degrees(atan2(s, c))
    high = halve(lambda a: height(a - 1) - height(a + 1), about - 80, about + 80)
    low = height(high + 180)
    say(f"{key} out", height(high) - low)
    say(f"{key} high at", high % 360)
    for place in places:
        say(f"{key} file at {place}", height(place) - low)
    # Even places: u(A) = s·√(2/N); the circle's factor by summing the plane's density, twice for f.
    spare = len(at) - 5
    u = sqrt(sum(x * x for x in left) / spare) * sqrt(2 / len(at))
    say(f"{key} doubt", 2 * u * halve(lambda r: circle(r, spare) - 0.95, 0, 50), 6)


def spigot(key, bore, wide, long):
    """A rectangle turned further and further until it is as wide across as the bore."""

    def across(angle):
        corners = [complex(x, y) * exp(1j * angle) for x in (-wide / 2, wide / 2) for y in (0, long)]
        return max(p.real for p in corners) - min(p.real for p in corners)

    # It is widest when its diagonal lies across.
    say(key, degrees(halve(lambda a: across(a) - bore, 0, pi / 2 - atan2(wide, long))))


def pages(key, length, page):
    left, count = F(length), 0
    while left > 0:
        left, count = left - F(page), count + 1
    say(key, count)


def faces():
    every = [45 * i for i in range(8)]
    face("slant", every, [4, 9, 12, 10, 6, 1, -2, -1], [0, 90, 200])
    for key, f, d in [("0.005 over 3", 0.005, 3.0), ("0.1 mm over 76.2", 0.1, 76.2)]:
        say(f"tilt {key}", degrees(halve(lambda a: d * tan(a) - f, 0, 1)))
    # The first two are short for their width: how much a first order leaves out. The others are long.
    for bore, wide, long in [(72.1, 72.0, 14.0), (72.05, 72.0, 20.0), (72.02, 72.0, 720.0), (50.01, 50.0, 2000.0)]:
        spigot(f"spigot {bore} {wide} {long}", bore, wide, long)
    for d, t in [(76.2, 0.1), (88.9, 0.25)]:
        # The paper's middle: as long as the mean of its inside and its outside.
        say(f"strip {d} {t}", (polygon_arc(d, 360) + polygon_arc(d + 2 * t, 360)) / 2, 6)
        say(f"round {d}", polygon_arc(d, 360), 6)
    for length, page in [("239.7", "277"), ("279.6", "277"), ("554", "277"), ("0.3", "0.1")]:
        pages(f"pages {length} {page}", length, page)
