"""One invented shaft worked through by hand, stage by stage, for tests/stages.rs.

Plain python3, no package. Run from the repository's top level:

    python3 tests/handbook/shaft.py > tests/handbook/shaft.txt

Lengths and cuts are exact fractions; spreads come from sensitivities written out by hand where the
program moves its inputs up and down; the whirl speed and the fitted circle come from the iterations
of derive.py; the planes come from the two balances of statics.
"""

import contextlib
import io
import sys
from fractions import Fraction as F
from math import asin, atan2, degrees, floor, hypot, pi, radians, sqrt

sys.dont_write_bytecode = True
with contextlib.redirect_stdout(io.StringIO()):
    from derive import polar, student, whirl
from shaft_angles import angles
from shaft_cut import END, FAR, GAP, KERF, SHRINK, SPIGOT, WELD, cuts
from shaft_dial import dials
from shaft_length import LINE, OLD, T95, WANTED, lengths
from shaft_slip import slips
from shaft_yokes import yokes
from tools import fit, halve, polygon_arc, say

# What is measured, in inches.
line, (old, u_old), (wanted, u_wanted) = LINE, OLD, WANTED
change, u_change = old - wanted, hypot(u_old, u_wanted)
say("old", old)
say("wanted", wanted)
say("wanted doubt", T95 * u_wanted)
say("change", change)
say("change doubt", T95 * u_change)
# A fourth reading of the old length, so that its scatter speaks: with three degrees of freedom of its
# own, with more once the lines of the tape and the wanted length, which have none, stand beside it.
four = [F("57.3125"), F("57.28125"), F("57.3125"), F("57.25")]
scatter = sum((r - sum(four) / 4) ** 2 for r in four) / 3 / 4
square = float(scatter) + float(line) ** 2 / 12 + u_wanted**2
say("four freedom", square**2 / (float(scatter) ** 2 / 3))
# Cut down to a whole number (JCGM 100:2008 G.4.1).
factor = halve(lambda t: student(t, int(square**2 / (float(scatter) ** 2 / 3))) - 0.95, 0, 50)
say("four factor", factor)
say("four change", sum(four) / 4 - wanted)
say("four change doubt", factor * sqrt(square))
# Bottomed: the set point of 7/8 comes off, and is laid off with the same tape.
say("wanted from bottomed", wanted - F(7, 8))
say("wanted from bottomed doubt", T95 * hypot(u_wanted, line / sqrt(12)))

# The cut.
weld, far, kerf, gap, shrink, spigot, tube_end = WELD, FAR, KERF, GAP, SHRINK, SPIGOT, END
say("tube end", tube_end)
say("removed", weld - tube_end)
say("removed doubt", T95 * sqrt(u_change**2 + float(shrink) ** 2 / 3))
say("finished", tube_end + gap + (old - weld) - shrink)
# How well the finished shaft meets that aim: the old length, the tape laid on twice, the weld.
say("finished doubt", T95 * sqrt(u_old**2 + 2 * float(line) ** 2 / 12 + float(shrink) ** 2 / 3))
say("ring", weld - tube_end - 2 * kerf)
say("slot end", tube_end + kerf)
say("spigot reach", tube_end + gap - spigot)
say("new weld", tube_end + gap / 2)
# Longer by 2-1/4: new tube from shoulder to shoulder, a gap and a weld at each end.
longer = old + F("2.25")
say("new tube", longer - far - (old - weld) - 2 * gap + 2 * shrink)
# A face out by f kinks the shaft by f/D; at the weld the dial reads 2·(f/D)·z·(L−z)/L.
z = tube_end
say("face", 3 * F(1, 100) * wanted / (2 * z * (wanted - z)))

# Phase.
turn, u_turn = F("-0.2") - F("0.4"), 0.1 / sqrt(12) * sqrt(2)
say("turn", turn)
say("turn doubt", T95 * u_turn)
say("turn arc", polygon_arc(3.0, 0.6))
bench = degrees(asin(0.0340327 / 3.25))
say("bench turn", bench)
slope = 1 / (3.25 * sqrt(1 - (0.0340327 / 3.25) ** 2))
u_lift, u_span = 0.05 / 25.4 / sqrt(3), 0.8 / 25.4 / sqrt(3)
say("bench doubt", T95 * degrees(slope * hypot(u_lift, u_span * 0.0340327 / 3.25)))

# Check: speeds in revolutions a minute.
inch = 0.0254
n = whirl(3 * inch, 2.834 * inch, float(wanted) * inch, 205e9, 7850)
say("whirl", n)
say("whirl before", whirl(3 * inch, 2.834 * inch, float(old) * inch, 205e9, 7850))
d, square = 2.834, 3.0**2 + 2.834**2
parts = [
    0.15 / 25.4 / sqrt(3) * (3 + d) / square,
    0.1 / 25.4 / sqrt(3) * 2 * d / square,
    u_wanted * 2 / float(wanted),
    0.0127 / sqrt(3),
]
relative = sqrt(sum(p * p for p in parts))
say("whirl doubt", T95 * relative * n)
say("share", 3500 / n)
say("share doubt", T95 * relative * 3500 / n)

# True: eight readings in thousandths, dial back at its first reading.
at = [45 * i for i in range(8)]
c, left = fit(at, [0, 5, 11, 15, 14, 9, 3, -1], (1, 2))
s = sqrt(sum(x * x for x in left) / 3)
say("offset", hypot(c[1], c[2]))
say("offset at", degrees(atan2(c[2], c[1])) % 360)
# The scatter is finer than the dial's own line, so the line is what is known, but for the scatter's share
# with the three readings left over (Welch and Satterthwaite, cut down to whole degrees).
line = 1 / sqrt(12)
assert s < line
known = floor(line**4 / (s**4 / 3))
say("offset doubt", halve(lambda t: student(t, known) - 0.95, 0, 50) * line * sqrt(2 / 8))
say("ovality over all", 2 * hypot(c[3], c[4]))
say("leftover", s)
tacked, _ = fit(at, [0, 1, 3, 4, 4, 3, 1, 0], (1, 2))
welded, _ = fit(at, [0, 2, 4, 6, 6, 4, 2, 0], (1, 2))
pull = complex(welded[1] - tacked[1], welded[2] - tacked[2])
say("pull", abs(pull))
say("pull at", degrees(atan2(pull.imag, pull.real)) % 360)
# A dial that comes back one line higher: an eighth of a line comes off at every station.
drifted, _ = fit(at, [r - i / 8 for i, r in enumerate([0, 5, 11, 15, 14, 9, 3, -1])], (1, 2))
say("drift offset", hypot(drifted[1], drifted[2]))
say("drift offset at", degrees(atan2(drifted[2], drifted[1])) % 360)

# Weights, in grams, degrees and inches from the far joint; the second belongs to the cut end, whose
# yoke was turned 3° clockwise.
radius = 1.5625
weights = [(9.0, 60.0, 5.25, 5.25, 0.0), (14.5, 225.0, 52.0, float(52 - change), 3.0)]
say("second distance", weights[1][3])


def planes(weights, length, place):
    """Shares in the far and the cut plane: force, and moment about the far joint. What each weight
    cancels turned with its yoke, so before and after are both seen turned."""
    us = [(m * radius * 25.4, clock + t, z[place]) for m, clock, *z, t in weights]
    force = sum(polar(u, a) for u, a, _ in us)
    cut = sum(polar(u, a) * z for u, a, z in us) / float(length)
    return force - cut, cut


def say_left(key, weights):
    (far_new, cut_new), (far_old, cut_old) = planes(weights, wanted, 1), planes(weights, old, 0)
    for name, v in [("far", far_new - far_old), ("cut", cut_new - cut_old)]:
        say(f"{key} {name}", abs(v))
        say(f"{key} {name} at", degrees(atan2(v.imag, v.real)) % 360)


say_left("left", weights)
# The second twenty times as heavy, so that what is left stands clear of its own doubt.
say_left("heavy", [weights[0], (300.0, *weights[1][1:])])
# Half of G 16 for 18.5 lb at 3500 rpm: 16 mm/s over the turn rate, times the mass.
say("permitted half", 16 / (3500 * 2 * pi / 60) * 18.5 * 453.59237 / 2)

for part in [lengths, slips, cuts, yokes, angles, dials]:
    part()
