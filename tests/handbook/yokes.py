"""Turns between two yokes, for derive.py.

A yoke is a direction in the plane across the shaft, a complex number, and looks the same half a turn
on. Leans are found by tilting a span until one end stands so high, arcs by chords laid round the tube,
a mean of wrapped readings by trying every way to unwrap them and taking the one where they lie closest.
"""

from cmath import exp, phase
from fractions import Fraction as F
from itertools import product
from math import asin, degrees, radians, sin, sqrt

from tools import halve, say

CHORDS = 200000


def pointing(angle):
    return exp(1j * radians(angle))


def as_line(turn):
    """The angle of a turn in degrees, the half turn on it that lies to the right."""
    return degrees(phase(turn if turn.real > 0 else -turn))


def lean(lift, span, ear):
    size = halve(lambda a: span * sin(radians(a)) - lift, 0, 90)
    return pointing(size if ear == "left" else -size)


def between(front, rear):
    return as_line(rear / front)


def chords(arc, diameter):
    """The turn under an arc, laid off as many short chords."""
    return pointing(degrees(CHORDS * 2 * asin(arc / CHORDS / diameter)))


def unwrapped(readings):
    ways = product(*[[F(x) + 180 * k for k in (-1, 0, 1)] for x in readings[1:]])
    return min(([F(readings[0]), *way] for way in ways), key=lambda way: max(way) - min(way))


def mean(readings, division):
    """The mean and its u: half the range as a rectangle beside the line of the level."""
    side = unwrapped(readings)
    best = sum(side) / len(side)
    u = sqrt(((max(side) - min(side)) / 2) ** 2 / 3 + F(division) ** 2 / 12)
    while best > 90:
        best -= 180
    while best <= -90:
        best += 180
    return best, u


def yokes():
    for key, front, rear in [
        ("gaps apart", (0.02, 3.25, "right"), (0.06, 3.5, "left")),
        ("gaps alike", (0.05, 3.25, "left"), (0.06, 3.25, "left")),
        ("gaps steep", (2.8, 3.25, "right"), (2.8, 3.25, "left")),
    ]:
        say(f"{key} turn", between(lean(*front), lean(*rear)))
    for key, arc, diameter in [
        ("lines 3/32 on 3", 3 / 32, 3.0),
        ("lines -20 mm on 76.2", -20.0, 76.2),
        ("lines to the other ear", 4.75, 3.0),
    ]:
        say(f"{key} turn", as_line(chords(arc, diameter)))
    for key, readings, division in [
        ("level wrapped", ["89.6", "-89.8", "90"], "0.1"),
        ("level half a turn", ["0.4", "-179.5", "180.2"], "0.25"),
        ("level plain", ["-1.5", "-1.25", "-1.5"], "0.25"),
    ]:
        best, u = mean(readings, division)
        say(f"{key} mean", best)
        say(f"{key} u", u)
    for key, turn, target in [("off 29 of 30", 29, 30), ("off -85 of 85", -85, 85), ("off 40 of -30", 40, -30)]:
        say(key, between(pointing(target), pointing(turn)))
