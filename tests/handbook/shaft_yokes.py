"""The invented shaft's yokes, measured in every way, for shaft.py.

Each way is a function from what was measured to the turn, by directions in the plane (yokes.py). A ± is
felt out by moving each measurement by its own u, once either way; what is in two sittings is moved in
both at once.
"""

from math import hypot, sqrt

from shaft_length import T95
from tools import polygon_arc, say
from yokes import as_line, between, chords, lean, mean, pointing

INCH = 25.4
FEELER, SPAN, LINE, TUBE = [mm / INCH / sqrt(3) for mm in (0.05, 0.8, 0.25, 0.15)]


def felt(key, turn, measured):
    """The turn and its ± at 95 %, from best values with their u."""
    best = [x for x, _ in measured]
    moves = []
    for i, (x, u) in enumerate(measured):
        ends = [turn(*best[:i], x + sign * u, *best[i + 1 :]) for sign in (1, -1)]
        moves.append((ends[0] - ends[1]) / 2)
    say(f"{key} turn", turn(*best))
    say(f"{key} doubt", T95 * sqrt(sum(move**2 for move in moves)))


def repeats(readings, one):
    """A mean of lengths and its u: half the range as a rectangle beside what one reading has."""
    half_range = (max(readings) - min(readings)) / 2
    return sum(readings) / len(readings), hypot(half_range / sqrt(3), one)


def yokes():
    front, rear = mean(["89.6", "-89.8", "90"], "0.1"), mean(["-89.2", "-89", "-89.1"], "0.1")
    felt(
        "wrapped levels",
        lambda f, r: between(pointing(float(f)), pointing(float(r))),
        [(float(x), u) for x, u in (front, rear)],
    )
    felt(
        "gaps",
        lambda fh, fw, rh, rw: between(lean(fh, fw, "right"), lean(rh, rw, "left")),
        [(0.02, FEELER), (3.25, SPAN), repeats([0.06, 0.061, 0.059], FEELER), (3.5, SPAN)],
    )
    one_arc = hypot(1 / 32 / sqrt(12), LINE, LINE)
    arc = repeats([3 / 32, 1 / 8], 1 / 32 / sqrt(12))
    felt("lines", lambda s, d: as_line(chords(s, d)), [(arc[0], hypot(arc[1], LINE, LINE)), (3.0, TUBE)])
    # One span is in both sittings.
    felt(
        "as it was",
        lambda was, now, w: between(lean(was, w, "left"), lean(now, w, "left")),
        [(0.5, FEELER), (0.46, FEELER), (3.25, SPAN)],
    )
    # One tube is.
    felt(
        "lines as they were",
        lambda was, now, d: as_line(chords(now, d) / chords(was, d)),
        [(0.75, one_arc), (0.78125, one_arc), (3.0, TUBE)],
    )
    # Arc of a turn of 0.6° with the tube's own doubt.
    one = 0.1 / sqrt(12) * sqrt(2)
    say("turn arc doubt", T95 * hypot(polygon_arc(3.0, one), polygon_arc(TUBE, 0.6)))
    # Levels of 0.3 and 0 after welding.
    say("welded turn", as_line(pointing(0.0) / pointing(0.3)))

