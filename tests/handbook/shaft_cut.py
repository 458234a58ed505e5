"""Marks, faces and spigot of the invented shaft, for shaft.py.

Pieces are laid end to end from the far joint, each slot where the saw leaves it, in exact fractions.
"""

from fractions import Fraction as F
from math import atan2, cos, degrees, hypot, radians, sin, sqrt, tan

from shaft_length import OLD, T95, WANTED, felt, once
from tools import circle, fit, halve, polygon_arc, say

WELD, FAR, KERF, GAP, SHRINK, SPIGOT = F("53.875"), F("3.375"), F(3, 32), F(1, 16), F(1, 32), F("1.25")
old, wanted = OLD[0], WANTED[0]
# From the far joint the tube, the gap, the yoke; the weld then draws it shorter.
END = wanted + SHRINK - (old - WELD) - GAP


def nearest(key, places):
    """The nearer old weld of each line, and how far out from it."""
    welds = {"far weld": FAR, "old weld": WELD}
    for name, at in places.items():
        others = {weld: at - place for weld, place in welds.items() if weld != name}
        weld = min(others, key=lambda weld: abs(others[weld]))
        say(f"{key} {name} from {weld}", others[weld])


def ring(first_slot, second_slot):
    """What falls out between two slots, each from its near to its far edge."""
    return second_slot[0] - first_slot[1]


def marks():
    slot = (END, END + KERF)
    places = {"tube end": slot[0], "slot end": slot[1], "spigot reach": END + GAP - SPIGOT}
    places |= {"new weld": END + GAP / 2, "finished": wanted, "old": old, "old weld": WELD, "far weld": FAR}
    nearest("mark", places)
    # Left 1/32 on to be filed: the saw goes in so far outside the face.
    saw = END + F(1, 32)
    say("trim saw line", saw)
    say("trim slot end", saw + KERF)
    # The old weld is opened on the tube's side of its line.
    say("trim ring", ring((saw, saw + KERF), (WELD - KERF, WELD)))
    # Cut clear of the weld by 1-1/2, right through on the yoke's side of the line.
    first = WELD - F("1.5")
    say("clear first cut", first)
    say("clear ring", ring(slot, (first, first + KERF)))


def longer():
    """2-1/4 longer: from far weld to new shoulder a gap, the new tube, a gap; two welds draw it."""
    new = old + F("2.25")
    tube = new + 2 * SHRINK - FAR - 2 * GAP - (old - WELD)
    say("longer add", FAR + tube - WELD)
    say("longer tube", tube)
    say("longer new weld", FAR + GAP + tube + GAP / 2)
    say("longer finished", FAR + GAP + tube + GAP - 2 * SHRINK + (old - WELD))


def weld_line():
    miss = lambda old, shoulder, weld: old - shoulder - weld
    parts = {"old": OLD, "shoulder": once("3.4375"), "weld": once(WELD)}
    felt("weld line", miss, parts)
    felt("weld line an inch off", miss, {**parts, "weld": once(WELD + 1)})
    felt("weld line a 20th off", miss, {**parts, "shoulder": once("3.375")})


def face():
    """Gaps under a square every 45°: high where the gap is least."""
    at = [45 * i for i in range(8)]
    gaps = [0, 1, 2, 3, 3, 2, 1, 0]
    (_, c, s, *_), left = fit(at, [-gap for gap in gaps], (1, 2))
    high = lambda a: c * cos(radians(a)) + s * sin(radians(a))
    say("face out", 2 * hypot(c, s) / 1000)
    about = degrees(atan2(s, c))
    say("face high at", halve(lambda a: high(a - 1) - high(a + 1), about - 80, about + 80) % 360)
    # The readings scatter less than a feeler's step of 0.05 mm, so the step is what is known.
    step = 0.05 / 25.4
    assert sqrt(sum(x * x for x in left) / 3) / 1000 < step / sqrt(12)
    # The plane's normal density inside a radius of so many u is 1 − exp(−r²/2).
    rim = halve(lambda r: circle(r, 1e7) - 0.95, 0, 10)
    say("face doubt", 2 * rim * step / sqrt(12) * sqrt(2 / 8))


def spigot():
    bore, wide = 3 - 2 * F("0.083"), F("2.83")
    play = bore - wide
    say("spigot play", play)
    # Bore to 0.15 mm, spigot to half a feeler's step.
    say("spigot doubt", T95 * hypot(0.15 / 25.4, 0.025 / 25.4) / sqrt(3))
    say("spigot lean", degrees(halve(lambda a: float(SPIGOT) * tan(a) - float(play), 0, 1)))


def clock():
    for count in [8, 12, 16, 24]:
        say(f"clock step {count}", polygon_arc(3.0, 360 / count))
    for i in [1, 3, 8]:
        say(f"clock arc {i} of 8", polygon_arc(3.0, 45 * i))


def cuts():
    for part in [marks, longer, weld_line, face, spigot, clock]:
        part()
