"""The invented shaft's slip over the axle's travel, for shaft.py.

The axle is walked along its path in small steps, and again in smaller ones about the extremes. A slip
yoke's front joint is slid along the gearbox's output shaft until the joints are as far apart as they
were. What a doubt does is felt out by walking again with it moved by its u, once either way. The seal's
lip is slid along the barrel.
"""

from fractions import Fraction as F
from math import asin, cos, hypot, isclose, radians, sin, sqrt, tan

from shaft_cut import SHRINK
from shaft_length import OLD, ONCE, SET, T95, WANTED, mean_and_u
from tools import halve, say

LENGTH = float(WANTED[0])
SPLINE, LEAST_ENGAGED, BUMP_ROOM = 4.0, 1.5, 0.25
BOTTOMED, LIP_DEPTH = 0.5, 0.25
# An old length read short, or a wanted one read long, makes a shaft that is too long by as much; it
# pushes the slip in by that, and so does what the laying off (the tape laid on twice) and the weld that
# draws as it will leave it too long: all of them are in all that is said of the slip.
LONG = sqrt(OLD[1] ** 2 + WANTED[1] ** 2 + 2 * ONCE**2 + float(SHRINK) ** 2 / 3)
STEPS = 200


def path(droop, bump, link):
    """Where the rear joint is, (rearward, up) from ride, from full droop (0) to full bump (1)."""
    if link is None:
        return lambda part: (0.0, -droop + (droop + bump) * part)
    # The link's end goes round its pivot; one that leads is the mirror image.
    radius, rise, way = link
    turn = lambda up: asin((rise + up) / radius)
    ride, low, high = turn(0.0), turn(-droop), turn(bump)

    def place(part):
        at = low + (high - low) * part
        return way * radius * (cos(at) - cos(ride)), radius * (sin(at) - sin(ride))

    return place


def slid(rear, output):
    """How far along the output shaft's line, + rearward, the front joint slides from the origin until it
    is LENGTH before the rear joint again; the line falls toward the rear."""
    along = (cos(radians(output)), -sin(radians(output)))
    short = lambda by: LENGTH - hypot(rear[0] - by * along[0], rear[1] - by * along[1])
    low, high = -10.0, 10.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if short(middle) < 0 else (low, middle)
    return (low + high) / 2


def drawn(slope, output):
    """How far the slip has come out of its set point, for a place of the rear joint."""
    x, y = LENGTH * cos(radians(slope)), LENGTH * sin(radians(slope))
    if output is None:
        return lambda place: hypot(x + place[0], y - place[1]) - LENGTH
    return lambda place: slid((x + place[0], place[1] - y), output)


def walk(slope, bump, droop, output, link=None):
    """How far the slip goes in and comes out."""
    place, out = path(droop, bump, link), drawn(slope, output)

    def farthest(way):
        low, high = 0.0, 1.0
        for _ in range(2):
            parts = [low + (high - low) * i / STEPS for i in range(STEPS + 1)]
            best = max(parts, key=lambda part: way * out(place(part)))
            step = (high - low) / STEPS
            low, high = max(0.0, best - step), min(1.0, best + step)
        return way * out(place(best)) + 0.0

    return farthest(-1), farthest(1)


def reckoned(key, slope, bump, droop, output=None, link=None, along=5 / sqrt(3)):
    way_in, way_out = walk(slope, bump, droop, output, link)
    # Slope to half a degree, travel to a quarter inch, the output shaft's slope, where it was not read, to
    # five degrees; each by the larger of what it moves either end, moved either way.
    tilt, height = 0.5 / sqrt(3), 0.25 / sqrt(3)
    square = 0.0
    for s, b, d, o in [(tilt, 0, 0, 0), (0, height, 0, 0), (0, 0, height, 0), (0, 0, 0, along)]:
        if o and output is None:
            continue
        moves = []
        for way in (1, -1):
            axis = None if output is None else output + way * o
            ends = walk(slope + way * s, bump + way * b, droop + way * d, axis, link)
            moves += [abs(ends[0] - way_in), abs(ends[1] - way_out)]
        square += max(moves) ** 2
    return say_travel(key, way_in, way_out, sqrt(square))


def say_travel(key, way_in, way_out, u):
    say(f"{key} in", way_in)
    say(f"{key} out", way_out)
    # Dimensions beside the travel: the set point; the spline with it; for the lip's band set point, gap,
    # depth of the lip, and the barrel or the groove.
    for count, what in [(1, "in"), (2, "out"), (4, "lip")]:
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
    base = reckoned("slip", 5.0, 3.0, 4.5, 5.0)
    lip("lip", *base, 1.9375, 2.0625, 0.0625)
    # The gearbox's slope read three times, less half of what one spot read either way round differs by:
    # for the ± of each reading and of the half, the level's lines of a tenth.
    gearbox, u = mean_and_u(["2.4", "2.5", "2.4"], F("0.1"))
    error, u_error = (F("2.5") - F("2.3")) / 2, 0.1 / sqrt(12) / sqrt(2)
    read = reckoned("slip along gearbox", 5.0, 3.0, 4.5, float(gearbox - error), along=hypot(u, u_error))
    lip("lip along gearbox", *read, 1.9375, 2.0625, 0.0625)
    # Deepest in where the slide turns; by the right angle at the output shaft that is a rise of L·tan.
    reckoned("slip level inside", 2.0, 3.0, 4.5, 2.0)
    out, near = drawn(2.0, 2.0), 1e-3
    turns = halve(lambda up: out((0.0, up + near)) - out((0.0, up - near)), 1.0, 3.0)
    assert isclose(turns, LENGTH * tan(radians(2.0)), rel_tol=1e-6)
    say("slip level inside in at", turns)
    reckoned("slip trailing", 5.0, 3.0, 4.5, 5.0, (24.0, -1.0, 1))
    reckoned("slip leading", 5.0, 3.0, 4.5, 5.0, (20.0, 2.0, -1))
    # A slip in the shaft: the front joint stays where it is. About level, a slope up and a slope down
    # lengthen the same end, and the difference of the two would be nothing.
    reckoned("slip in shaft", 5.0, 3.0, 4.5)
    reckoned("slip in shaft about level", 0.0, 3.0, 3.0)
    found = measured("slip measured", "3", "60.03125", "60.0625", "4.5", "60.5625")
    lip("lip measured", *found, 1.0625, 1.1875, 0.0625)
