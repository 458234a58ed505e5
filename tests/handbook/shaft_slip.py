"""The invented shaft's slip over the axle's travel, for shaft.py.

The axle is walked along its path in tiny steps and the extremes are kept; what a doubt does is felt out
by walking again with it moved either way by its u. The seal's lip is slid along the barrel.
"""

from fractions import Fraction as F
from math import asin, cos, hypot, radians, sin, sqrt

from shaft_length import OLD, ONCE, SET, T95, WANTED
from tools import halve, say

LENGTH = float(WANTED[0])
SPLINE, LEAST_ENGAGED, BUMP_ROOM = 4.0, 1.5, 0.25
BOTTOMED, LIP_DEPTH = 0.5, 0.25
# An old length read short, or a wanted one read long, makes a shaft that is too long by as much; it
# pushes the slip in by that, so both are in all that is said of the slip.
LONG = hypot(OLD[1], WANTED[1])
STEPS = 20000


def path(droop, bump, link):
    """The rear joint from full droop to full bump as (rearward, up) from where it is at ride."""
    if link is None:
        for i in range(STEPS + 1):
            yield 0.0, -droop + (droop + bump) * i / STEPS
        return
    # The link's end goes round its pivot; one that leads is the mirror image.
    radius, rise, way = link
    turn = lambda up: asin((rise + up) / radius)
    ride, low, high = turn(0.0), turn(-droop), turn(bump)
    for i in range(STEPS + 1):
        at = low + (high - low) * i / STEPS
        yield way * radius * (cos(at) - cos(ride)), radius * (sin(at) - sin(ride))


def walk(slope, bump, droop, link=None):
    """How far the slip goes in and comes out."""
    x, y = LENGTH * cos(radians(slope)), LENGTH * sin(radians(slope))
    distances = [hypot(x + rearward, y - up) for rearward, up in path(droop, bump, link)]
    return LENGTH - min(distances), max(distances) - LENGTH


def reckoned(key, slope, bump, droop, link=None):
    way_in, way_out = walk(slope, bump, droop, link)
    # Slope to half a degree, travel to a quarter inch; each by the end that it moves the more.
    tilt, height = 0.5 / sqrt(3), 0.25 / sqrt(3)
    square = 0.0
    for s, b, d in [(tilt, 0, 0), (0, height, 0), (0, 0, height)]:
        up = walk(slope + s, bump + b, droop + d, link)
        down = walk(slope - s, bump - b, droop - d, link)
        square += max(abs(up[end] - down[end]) / 2 for end in (0, 1)) ** 2
    return say_travel(key, way_in, way_out, sqrt(square))


def say_travel(key, way_in, way_out, u):
    say(f"{key} in", way_in)
    say(f"{key} out", way_out)
    # One dimension beside the travel, two, three.
    for count, what in [(1, "in"), (2, "out"), (3, "lip")]:
        doubt = T95 * sqrt(u**2 + count * ONCE**2 + LONG**2)
        say(f"{key} {what} doubt", doubt)
    say(f"{key} room", float(SET[0]) - way_in)
    say(f"{key} engaged", SPLINE - float(SET[0]) - way_out)
    return way_in, way_out, doubt


def determinant(m):
    """Of 3×3, along its first row."""
    minor = lambda j: [[row[k] for k in range(3) if k != j] for row in m[1:]]
    two = lambda m: m[0][0] * m[1][1] - m[0][1] * m[1][0]
    return sum((-1) ** j * m[0][j] * two(minor(j)) for j in range(3))


def measured(key, bump, at_bump, at_ride, droop, at_droop):
    """The parabola through three by Cramer's rule on Vandermonde's square, in exact fractions."""
    heights, distances = [F(bump), F(0), -F(droop)], [F(at_bump), F(at_ride), F(at_droop)]
    square = [[F(1), h, h * h] for h in heights]
    with_column = lambda j: [[d if k == j else x for k, x in enumerate(row)] for row, d in zip(square, distances)]
    c = [determinant(with_column(j)) / determinant(square) for j in range(3)]
    curve = lambda h: c[0] + c[1] * h + c[2] * h * h
    # Walked in steps of a 4096th of the travel; then where the slope turns, if it does.
    ends = (heights[2], heights[0])
    steps = [ends[0] + (ends[1] - ends[0]) * i / 4096 for i in range(4097)]
    least, greatest = min(steps, key=curve), max(steps, key=curve)
    if least not in ends:
        least = -c[1] / (2 * c[2])
    ride = distances[1]
    say(f"{key} in at", least)
    # The tape is read at ride and at the end: two lines for what lies between.
    return say_travel(key, float(ride - curve(least)), float(curve(greatest) - ride), ONCE * sqrt(2))


def lip(key, way_in, way_out, doubt, inner, outer, margin):
    ride = BOTTOMED + LIP_DEPTH + float(SET[0])
    low, high = ride - way_in, ride + way_out
    say(f"{key} from", low)
    say(f"{key} to", high)
    # Slid either way until even an edge that is out by its ± is as far off the groove as it shall be.
    say(f"{key} slid out", halve(lambda by: (low - doubt) + by - (outer + margin), -5, 5))
    say(f"{key} slid in", halve(lambda by: (inner - margin) - (high + doubt - by), -5, 5))


def slips():
    base = reckoned("slip", 5.0, 3.0, 4.5)
    lip("lip", *base, 1.9375, 2.0625, 0.0625)
    # Level, and shortest, where the axle has risen by the shaft's whole drop.
    reckoned("slip level inside", 2.0, 3.0, 4.5)
    say("slip level inside in at", LENGTH * sin(radians(2.0)))
    reckoned("slip trailing", 5.0, 3.0, 4.5, (24.0, -1.0, 1))
    reckoned("slip leading", 5.0, 3.0, 4.5, (20.0, 2.0, -1))
    found = measured("slip measured", "3", "60.03125", "60.0625", "4.5", "60.5625")
    lip("lip measured", *found, 1.0625, 1.1875, 0.0625)
