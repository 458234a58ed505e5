"""Lengths of the invented shaft by every route and for every kind of shaft, for shaft.py.

A tape lies on two marks of a line with both joints on it; the length is what lets it read as it does.
What each measurement does to a ± is felt out by moving it by its own u.
"""

from fractions import Fraction as F
from math import sqrt

from tools import say

T95 = 1.959963984540054  # two-sided 95 % of the normal law
LINE = F(1, 32)
ONCE = float(LINE) / sqrt(12)


def mean_and_u(readings, division=LINE):
    """Up to three repeats: half the range as a rectangle, beside the division."""
    readings = [F(reading) for reading in readings]
    half = (max(readings) - min(readings)) / 2
    return sum(readings) / len(readings), sqrt(half**2 / 3 + division**2 / 12)


def once(text, division=LINE):
    return F(text), float(division) / sqrt(12)


def felt(key, result, measured, shares=False):
    """The result, its ± and, largest first, which share of that ± squared each measurement makes."""
    best = {name: value for name, (value, _) in measured.items()}
    whole = result(**best)
    parts = {}
    for name, (value, u) in measured.items():
        parts[name] = abs(float(result(**{**best, name: value + F(u)}) - whole))
    square = sum(part**2 for part in parts.values())
    say(key, whole)
    say(f"{key} doubt", T95 * sqrt(square))
    for name, part in parts.items() if shares else ():
        if part:
            say(f"{key} share {name}", part**2 / square)


OLD_READ, WANTED_READ = ["57.3125", "57.28125", "57.3125"], ["55.5", "55.53125", "55.5"]
ENDS_READ = ["59.28125", "59.3125", "59.28125"]
OLD, WANTED = mean_and_u(OLD_READ), mean_and_u(WANTED_READ)
COARSE = F(1, 16)
SET = once("0.875")
FRONT_CUP, REAR_CUP = once("1.0625"), once("1.1875")
FRONT_EAR, REAR_EAR = once("1.125"), once("1.25")
# The distance under the car is taken at other yokes, whose ears have sizes of their own.
CAR_FRONT_EAR, CAR_REAR_EAR = once("1.1875"), once("1.3125")
SLIP_DEPTH, FRONT_DEPTH, REAR_DEPTH, BOTTOMED = map(once, ["2.375", "2.375", "2.125", "0.5"])


def marks(datum, cup, ear, outward):
    """Where the tape's mark stands beside a joint's centre; outward: away from the other joint."""
    return {
        "centre": 0,
        "outer seat": outward * cup / 2,
        "inner seat": -outward * cup / 2,
        "outer ear": outward * ear,
        "inner ear": -outward * ear,
    }[datum]


def between(tape, front, rear, front_cup, rear_cup, front_ear, rear_ear):
    """How far apart the centres are when the tape on these marks reads so."""
    touching = marks(rear, rear_cup, rear_ear, 1) - marks(front, front_cup, front_ear, -1)
    return tape - touching


def datums():
    cups = {"front_cup": FRONT_CUP, "rear_cup": REAR_CUP}
    own = {"front_ear": FRONT_EAR, "rear_ear": REAR_EAR}
    car = {"car_front_ear": CAR_FRONT_EAR, "car_rear_ear": CAR_REAR_EAR}
    for key, old_at, wanted_at in [
        ("alike", ("outer seat", "outer seat"), ("outer seat", "outer seat")),
        ("seats", ("outer seat", "outer seat"), ("centre", "inner seat")),
        ("ears", ("outer ear", "inner ear"), ("outer ear", "outer ear")),
        ("front ears", ("inner ear", "outer seat"), ("inner ear", "outer seat")),
    ]:
        length = lambda wanted, car_front_ear, car_rear_ear, **cups: between(
            wanted, *wanted_at, front_ear=car_front_ear, rear_ear=car_rear_ear, **cups
        )

        def change(old, wanted, front_ear, rear_ear, car_front_ear, car_rear_ear, **cups):
            own = between(old, *old_at, front_ear=front_ear, rear_ear=rear_ear, **cups)
            return own - length(wanted, car_front_ear, car_rear_ear, **cups)

        felt(f"datums {key} wanted", length, {"wanted": WANTED, **cups, **car})
        felt(f"datums {key} change", change, {"old": OLD, "wanted": WANTED, **cups, **own, **car}, True)


def shares():
    """What makes the ± of the tube to take out: both lengths, and a weld that draws as it will."""
    draws = {"shrinkage": (F(1, 32), 1 / 32 / sqrt(3))}
    removed = lambda old, wanted, shrinkage: old - wanted + F(1, 16) - shrinkage
    felt("removed again", removed, {"old": OLD, "wanted": WANTED, **draws}, True)


def kinds():
    # A slip in the shaft, the old one measured pushed in: drawn out it is longer.
    felt("slip on shaft old", lambda old, drawn: old + drawn, {"old": OLD, "drawn": SET})
    pushed_in = lambda old, drawn, wanted: old + drawn - wanted
    felt("slip on shaft change", pushed_in, {"old": OLD, "drawn": SET, "wanted": WANTED}, True)
    # From the front flange's face to the rear joint's centre.
    ends = mean_and_u(["57.875", "57.90625", "57.875"])
    parts = {"ends": ends, "depth": FRONT_DEPTH}
    felt("slip on shaft from ends", lambda ends, depth: ends - depth, parts)
    # From flange to flange.
    ends = mean_and_u(["60", "60.03125", "60"])
    parts = {"ends": ends, "front": FRONT_DEPTH, "rear": REAR_DEPTH}
    felt("flanged", lambda ends, front, rear: ends - front - rear, parts)
    felt("flanged change", lambda ends, front, rear, old: old - (ends - front - rear), {**parts, "old": OLD}, True)


def routes():
    # A slip yoke: seal face, the gap that stays when it bottoms, the set point, the yoke's own depth.
    ends = mean_and_u(ENDS_READ)
    parts = {"ends": ends, "bottomed": BOTTOMED, "drawn": SET, "depth": SLIP_DEPTH}
    by_ends = lambda ends, bottomed, drawn, depth: ends - bottomed - drawn - depth
    felt("from ends", by_ends, parts)
    felt("from ends change", lambda old, **parts: old - by_ends(**parts), {"old": OLD, **parts}, True)
    joints = {"wanted": WANTED}
    felt("routes", lambda wanted, **parts: wanted - by_ends(**parts), {**joints, **parts})
    # Bottomed, the set point comes off both ways, so that it is nothing between them.
    pushed = lambda wanted, drawn, **parts: wanted - drawn - by_ends(drawn=drawn, **parts)
    felt("routes bottomed", pushed, {**joints, **parts})
    # The same by a tape of sixteenths: they differ by less than their ±, which is wide.
    sizes = {"bottomed": "0.5", "drawn": "0.875", "depth": "2.375"}
    parts = {name: once(size, COARSE) for name, size in sizes.items()}
    parts |= {"ends": mean_and_u(ENDS_READ, COARSE), "wanted": mean_and_u(WANTED_READ, COARSE)}
    felt("routes coarse", lambda wanted, **parts: wanted - by_ends(**parts), parts)


def drawn():
    """Read with the slip drawn out 7/8, to be 1-1/8 in use. What it slides in stands still: the front
    joint is that far before it, and the other joint where the tape found it, or where the tube ends."""
    parts = {"taken": once("0.875"), "point": once("1.125")}
    rear = lambda taken, wanted: taken + wanted
    felt("drawn on wanted", lambda point, **read: rear(**read) - point, {**parts, "wanted": WANTED})
    change = lambda old, point, **read: old - (rear(**read) - point)
    felt("drawn on change", change, {**parts, "wanted": WANTED, "old": OLD}, True)
    tube = lambda taken, old: old - taken
    change = lambda wanted, point, **read: point + tube(**read) - wanted
    felt("drawn on in shaft change", change, {**parts, "old": OLD, "wanted": WANTED}, True)
    # Bottomed, the tape finds the other joint from the front one's place there.
    change = lambda old, point, wanted: old - (wanted - point)
    felt("bottomed change", change, {"old": OLD, "point": SET, "wanted": WANTED}, True)


def lengths():
    shares()
    drawn()
    datums()
    kinds()
    routes()
