"""Marks, faces and spigot of the invented shaft, for shaft.py.

Pieces are laid end to end from the far joint, each slot where the saw leaves it, in exact fractions.
"""

from fractions import Fraction as F
from math import atan2, cos, degrees, hypot, radians, sin, sqrt, tan

from shaft_length import COARSE, OLD, OLD_READ, SET, T95, WANTED, felt, mean_and_u, once
from tools import circle, fit, halve, polygon_arc, say

WELD, FAR, KERF, GAP, SHRINK, SPIGOT = F("53.875"), F("3.375"), F(3, 32), F(1, 16), F(1, 32), F("1.25")
old, wanted = OLD[0], WANTED[0]
# From the far joint the tube, the gap, the yoke; the weld then draws it shorter.
END = wanted + SHRINK - (old - WELD) - GAP


def nearest(key, places, weld=WELD):
    """The nearer old weld of each line, and how far out from it."""
    welds = {"far weld": FAR, "old weld": weld}
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
    # Moved in until the slot's near edge comes to the end of the old spigot, no further.
    spigot_end, slot_end = WELD - SPIGOT, lambda clear: WELD - clear + KERF
    say("clear least", halve(lambda clear: float(spigot_end) - float(slot_end(F(clear))), 0, 5))

    # How well it is known that the two miss each other: three sizes, each read once.
    miss = lambda clear, spigot, kerf: (WELD - spigot) - (WELD - clear + kerf)
    felt("clear misses", miss, {"clear": once("1.5"), "spigot": once(SPIGOT), "kerf": once(KERF)})


def pushed_in():
    """A slip in the shaft, pushed in as it lies on the bench, where all is laid off; in the car it is
    drawn out. The finished shaft lies there shorter by what it will be drawn out."""
    drawn, bench, weld = SET[0], F("56.4375"), F(53)
    joint = wanted - drawn
    end = joint + SHRINK - (bench - weld) - GAP
    places = {"tube end": end, "slot end": end + KERF, "spigot reach": end + GAP - SPIGOT}
    places |= {"new weld": end + GAP / 2, "new joint": joint, "old joint": bench}
    places |= {"old weld": weld, "far weld": FAR}
    for name, at in places.items():
        say(f"pushed in {name}", at)
    nearest("pushed in mark", places, weld)
    say("pushed in ring", ring((end, end + KERF), (weld - KERF, weld)))
    # At the weld, from the far joint as the shaft is in use, a face out by f kinks it by f/D.
    z = end + drawn
    say("pushed in face", 3 * F(1, 100) * wanted / (2 * z * (wanted - z)))
    say("pushed in finished", end + GAP + (bench - weld) - SHRINK + drawn)
    old, set_point = mean_and_u(["56.4375"] * 3), SET
    parts = {"old": old, "drawn": set_point, "wanted": WANTED, "shrinkage": (SHRINK, float(SHRINK) / sqrt(3))}
    removed = lambda old, drawn, wanted, shrinkage: old + drawn - wanted + GAP - shrinkage
    felt("pushed in removed", removed, parts, True)
    # The shoulder is proved as the shaft lies there: how far it will be drawn out says nothing of it.
    parts = {"old": old, "drawn": set_point, "shoulder": once("3.4375"), "weld": once(weld)}
    miss = lambda old, drawn, shoulder, weld: (old + drawn) - drawn - shoulder - weld
    felt("pushed in weld line", miss, parts)


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
    # By a tape of sixteenths it is within its ±, which is wide.
    coarse = {"shoulder": once("3.4375", COARSE), "weld": once(WELD, COARSE)}
    felt("weld line coarse", miss, {"old": mean_and_u(OLD_READ, COARSE), **coarse})


def face():
    """Gaps under a square every 45°: high where the gap is least."""
    at = [45 * i for i in range(8)]
    gaps = [0, 1, 2, 3, 3, 2, 1, 0]
    (_, c, s, *_), left = fit(at, [-gap for gap in gaps], (1, 2))
    high = lambda a: c * cos(radians(a)) + s * sin(radians(a))
    say("face out", 2 * hypot(c, s) / 1000)
    about = degrees(atan2(s, c))
    say("face high at", halve(lambda a: high(a - 1) - high(a + 1), about - 80, about + 80) % 360)
    # The readings scatter less than a feeler's step of 0.05 mm, so the step is what is known, but for the
    # scatter's share with the three readings left over (Welch and Satterthwaite).
    own, line = sqrt(sum(x * x for x in left) / 3) / 1000, 0.05 / 25.4 / sqrt(12)
    assert own < line
    known = line**4 / (own**4 / 3)
    rim = halve(lambda r: circle(r, known) - 0.95, 0, 50)
    say("face doubt", 2 * rim * line * sqrt(2 / 8))


def spigot():
    play = lambda tube, wall, spigot: tube - 2 * wall - spigot
    # Tube over all to 0.15 mm, its wall to 0.1 mm and twice in the bore, spigot to half a feeler's step;
    # each moved by its own u.
    sizes = {"tube": F(3), "wall": F("0.083"), "spigot": F("2.83")}
    widths = {"tube": 0.15, "wall": 0.1, "spigot": 0.025}
    felt("spigot play", play, {name: (size, widths[name] / 25.4 / sqrt(3)) for name, size in sizes.items()})
    loose = float(play(**sizes))
    say("spigot lean", degrees(halve(lambda a: float(SPIGOT) * tan(a) - loose, 0, 1)))


def clock():
    for count in [8, 12, 16, 24]:
        say(f"clock step {count}", polygon_arc(3.0, 360 / count))
    for i in [1, 3, 8]:
        say(f"clock arc {i} of 8", polygon_arc(3.0, 45 * i))


def cuts():
    for part in [marks, pushed_in, longer, weld_line, face, spigot, clock]:
        part()
