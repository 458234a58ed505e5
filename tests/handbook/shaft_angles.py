"""The invented shaft's angles, for shaft.py: plain vectors, stepped round a turn.

A joint's cross is stepped: its second arm is square to the first and to the driven shaft, and how far
that has turned is read off as an angle. What is ahead over a turn is differentiated by differences of
nine neighbours, its steepest place looked for among steps. Slopes come from a shaft turned until it falls by the
difference of the heights, from a front joint slid back until the joints are as far apart again. What each
measurement does to a ± is felt out by moving it by its own u, once either way, the larger of both.
x runs rearward, y to the right, z up; slopes fall toward the rear; turns are clockwise from the rear.
"""

from fractions import Fraction as F
from math import asin, atan2, cos, degrees, hypot, pi, radians, sin, sqrt, tan

from shaft_length import ONCE, T95, WANTED, OLD, mean_and_u
from tools import halve, say

SPEED = 4200 * 2 * pi / 60
SQUARE = SPEED**2
# Differences of nine neighbours: published coefficients of the eighth order (any table of finite
# differences), for the first and for the second derivative.
FIRST = [4 / 5, -1 / 5, 4 / 105, -1 / 280]
SECOND = [8 / 5, -1 / 5, 8 / 315, -1 / 560]
STEP = 0.04
GOLDEN = (sqrt(5) - 1) / 2


def plus(a, k, b):
    return tuple(x + k * y for x, y in zip(a, b))


def dot(a, b):
    return sum(x * y for x, y in zip(a, b))


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def unit(a):
    return plus((0, 0, 0), 1 / sqrt(dot(a, a)), a)


def axis(slope, plan):
    return unit((1.0, tan(radians(plan)), -tan(radians(slope))))


def between(a, b):
    """The angle between two axes by the chord from tip to tip."""
    return degrees(2 * asin(sqrt(dot(plus(a, -1, b), plus(a, -1, b))) / 2))


def sides(a):
    """Upright and right of an axis."""
    up = unit(plus((0.0, 0.0, 1.0), -a[2], a))
    return up, cross(up, a)


def clock(a, way):
    """Where a line across an axis stands on its clock, in radians."""
    up, right = sides(a)
    return atan2(dot(way, right), dot(way, up))


def near(angle, to):
    """The same line's place nearest to another."""
    return angle - pi * round((angle - to) / pi)


def leads(axes, phase):
    """How far the last axis is ahead when the first has turned, in radians, up to a constant. The arm that
    is square to the driving ears lies in the driven ears, and through a shaft its other yoke's ears stand
    turned by the phase."""
    first, *rest = [(a, *sides(a)) for a in axes]
    turned = radians(phase)

    def ahead(turn):
        ears = plus(tuple(cos(turn) * u for u in first[1]), sin(turn), first[2])
        want = turn
        for driven, up, right in rest:
            arm = cross(driven, ears)
            # A quarter turn back, and a little ahead or behind.
            want -= pi / 2
            want = near(atan2(dot(arm, right), dot(arm, up)), want) + turned
            ears = plus(tuple(cos(want) * u for u in up), sin(want), right)
        return want - turn

    return ahead


def gains(axes, phase):
    ahead = leads(axes, phase)
    middle = lambda turn: -205 / 72 * ahead(turn)

    def gain(turn):
        """(ratio less one, what the ratio gains a radian)."""
        both = [(ahead(turn + i * STEP), ahead(turn - i * STEP)) for i in range(1, 5)]
        slope = sum(c * (u - d) for c, (u, d) in zip(FIRST, both)) / STEP
        bend = (sum(c * (u + d) for c, (u, d) in zip(SECOND, both)) + middle(turn)) / STEP**2
        return ahead(turn), slope, bend

    return gain


def peak(value, low, high, steps, narrowings=24, ends=False):
    """The greatest of a value: the best of a few steps, then the golden section beside it. A value over a
    turn goes on past its ends, one between ends does not."""
    width = (high - low) / steps
    best = max((low + width * i for i in range(steps + 1)), key=value)
    a, b = best - width, best + width
    if ends:
        a, b = max(a, low), min(b, high)
    c, d = b - GOLDEN * (b - a), a + GOLDEN * (b - a)
    f, g = value(c), value(d)
    for _ in range(narrowings):
        if f > g:
            b, d, g = d, c, f
            c = b - GOLDEN * (b - a)
            f = value(c)
        else:
            a, c, f = c, d, g
            d = a + GOLDEN * (b - a)
            g = value(d)
    return max(f, g), (a + b) / 2


def steepest(axes, phase):
    """The greatest gain of the last axis over half a turn; the rest repeats it."""
    gain = gains(axes, phase)
    return peak(lambda turn: abs(gain(turn)[2]), 0, pi, 24)[0]


def swing(axes, phase):
    """Half of greatest less least ratio, and the lead from end to end in degrees."""
    gain = gains(axes, phase)
    ends = lambda which: [peak(lambda turn: way * gain(turn)[which], 0, pi, 24)[0] for way in (1, -1)]
    return sum(ends(1)) / 2, degrees(sum(ends(0)))


def halve_few(f, low, high):
    """Where f turns from negative to positive, to the twelfth figure."""
    for _ in range(42):
        middle = (low + high) / 2
        low, high = (middle, high) if f(middle) < 0 else (low, middle)
    return low


def one_joint(gain):
    """The one joint that is as steep."""
    return halve_few(lambda angle: steepest([axis(0, 0), axis(angle, 0)], 0) - gain, 0.0, 44.0)


# What is measured: a value and its u. Slopes in degrees, lengths in inches.
def slope(readings, division="0.1"):
    best, u = mean_and_u(readings, F(division))
    return float(best), u


LENGTH = float(WANTED[0]), WANTED[1]
PHASE = -0.6, 0.1 / sqrt(12) * sqrt(2)
BIAS = 0.1, 0.1 / sqrt(12) * sqrt(2) / 2
BASE = {
    "gearbox": slope(["2.4", "2.5", "2.4"]),
    "pinion": slope(["1.7", "1.6", "1.6"]),
    "front": (24.75, ONCE),
    "rear": (19.875, ONCE),
    "bias": BIAS,
    "phase": PHASE,
    "length": LENGTH,
}
READ = {key: value for key, value in BASE.items() if key not in ("front", "rear")}
READ["shaft"] = slope(["5.1", "5.2", "5.1"])
UNTURNED = {**BASE, "bias": (0.0, 0.1 / sqrt(3))}
OFFSET = {**BASE, "offset": (2.0, 0.125 / sqrt(3))}
PLAN = 0.5 / sqrt(3)
PLANS = {**BASE, "gearbox plan": (1.0, PLAN), "shaft plan": (-0.5, PLAN), "pinion plan": (0.5, PLAN)}
RISES = {"ride": None, "power": (0.0, 1.0), "bump": (3.0, 0.4), "droop": (-4.5, 0.9)}


def lying(m, length=None):
    """Gearbox, shaft and pinion as axes, and the shaft's length, from what was measured."""
    length = length or m["length"]
    plans = [m.get(f"{who} plan", 0.0) for who in ("gearbox", "shaft", "pinion")]
    if "shaft" in m:
        slope = m["shaft"] - m["bias"]
        if "offset" in m:
            # Turned to the side until its end lies there.
            plans[1] = halve(lambda p: length * axis(slope, p)[1] - m["offset"], -60, 60)
    else:
        drop = m["front"] - m["rear"]
        if "offset" in m:
            run = sqrt(length**2 - drop**2 - m["offset"] ** 2)
            slope, plans[1] = degrees(atan2(drop, run)), degrees(atan2(m["offset"], run))
        else:
            slope = halve(lambda s: -length * axis(s, plans[1])[2] - drop, -60, 60)
    return [(m["gearbox"] - m["bias"], plans[0]), (slope, plans[1]), (m["pinion"] - m["bias"], plans[2])]


def raised(leans, length, move, slides=True):
    """The same with the axle risen and the pinion's nose with it."""
    if move is None:
        return leans
    up, nose = move
    gearbox, shaft, pinion = leans
    rear = plus(plus((0, 0, 0), length, axis(*shaft)), up, (0.0, 0.0, 1.0))
    if up and slides:
        out = axis(*gearbox)
        far = lambda by: sqrt(dot(plus(rear, -by, out), plus(rear, -by, out)))
        rear = plus(rear, -halve(lambda by: length - far(by), -10.0, 10.0), out)
    lean = degrees(atan2(-rear[2], rear[0])), degrees(atan2(rear[1], rear[0]))
    return [gearbox, lean if up else shaft, (pinion[0] + nose, pinion[1])]


def figures(m, move, slides=True):
    leans = raised(lying(m), m["length"], move, slides)
    axes = [axis(*lean) for lean in leans]
    return {
        "front": between(axes[0], axes[1]),
        "rear": between(axes[1], axes[2]),
        "slope": leans[1][0],
        "pinion": steepest(axes, m["phase"]) * SQUARE,
        "drive": steepest(axes[:2], 0) * SQUARE,
        "coast": steepest(axes[:0:-1], 0) * SQUARE,
    }


def felt(key, measured, move, names, slides=True, shares=()):
    """The figures of these names with their ±."""
    best = {name: value for name, (value, _) in measured.items()}
    whole = figures(best, move, slides)
    parts = {}
    for name, (value, u) in measured.items():
        moved = [figures({**best, name: value + way * u}, move, slides) for way in (1, -1)]
        parts[name] = {n: max(abs(one[n] - whole[n]) for one in moved) for n in names}
    for n in names:
        say(f"{key} {n}", whole[n])
        square = sum(part[n] ** 2 for part in parts.values())
        say(f"{key} {n} doubt", T95 * sqrt(square))
        for name, part in parts.items() if n in shares else ():
            if part[n] ** 2 / square > 1e-9:
                say(f"{key} {n} share {name}", part[n] ** 2 / square)
    return whole


def least(leans, phase, which, low, high, narrowings):
    """The change between two with the least steepness, and what it leaves."""

    def value(change):
        changed = list(leans)
        changed[which] = (leans[which][0] + change, leans[which][1])
        return -steepest([axis(*lean) for lean in changed], phase)

    found, at = peak(value, low, high, 2 * round(high - low), narrowings, True)
    return at, -found * SQUARE


def pinions(key, measured):
    """What a pinion is turned by, parallel and leaning to the gearbox, under power."""
    best = {name: value for name, (value, _) in measured.items()}
    for layout in ("parallel", "intersecting"):

        def change(m, narrowings=28):
            leans = raised(lying(m), m["length"], RISES["power"])
            (gearbox, _), (shaft, _), (pinion, _) = leans
            # On the side of the shaft that the layout asks for.
            sides = {"parallel": (shaft - 6, shaft), "intersecting": (shaft, shaft + 6)}
            low, high = [side - pinion for side in sides[layout]]
            at, left = least(leans, m["phase"], 2, low, high, narrowings)
            axes = [axis(*lean) for lean in leans[:2]] + [axis(pinion + at, leans[2][1])]
            return at, left, pinion + at, between(axes[0], axes[1]), between(axes[1], axes[2])

        at, left, to, front, rear = change(best)
        square = 0.0
        # What hardly moves it, and the ± off to the side, are left out.
        in_line = not any(name == "offset" or name.endswith("plan") for name in measured)
        for name, (value, u) in measured.items() if in_line else ():
            if name in ("phase", "length"):
                continue
            # To a ten-thousandth of a degree: it moves by hundredths.
            moved = [change({**best, name: value + way * u}, 18)[0] for way in (1, -1)]
            square += max(abs(one - at) for one in moved) ** 2
        for what, number in [
            ("change", at),
            ("left", left),
            ("to", to - RISES["power"][1]),
            ("front", front),
            ("rear", rear),
            ("wedge", 4.5 * tan(radians(abs(at)))),
        ]:
            say(f"{key} {layout} {what}", number)
        if in_line:
            say(f"{key} {layout} doubt", T95 * sqrt(square))


def mount(key, measured, arm):
    """What a gearbox's tail is turned by, its front joint going down with it."""
    m = {name: value for name, (value, _) in measured.items()}
    leans = raised(lying(m), m["length"], RISES["power"])
    (gearbox, plan), shaft, pinion = leans
    rear = plus((0, 0, 0), m["length"], axis(*shaft))
    down = lambda change: arm * (sin(radians(gearbox + change)) - sin(radians(gearbox)))

    def turned(change):
        way = plus(rear, down(change), (0.0, 0.0, 1.0))
        lean = degrees(atan2(-way[2], way[0])), degrees(atan2(way[1], way[0]))
        return [axis(gearbox + change, plan), axis(*lean), axis(*pinion)]

    # No further than gearbox and pinion both stay flatter than the shaft.
    found, at = peak(lambda change: -steepest(turned(change), m["phase"]), -3, 1, 16, 28, True)
    axes = turned(at)
    for what, number in [
        ("change", at),
        ("left", -found * SQUARE),
        ("to", gearbox + at),
        ("down", down(at)),
        ("front", between(*axes[:2])),
        ("rear", between(*axes[1:])),
    ]:
        say(f"{key} mount {what}", number)


def yokes(key, measured):
    """The yokes' turn with the least steepness, and the planes' own twist: the turn between the lines
    across both joints' planes, seen along the shaft."""
    m = {name: value for name, (value, _) in measured.items()}
    ride = [axis(*lean) for lean in lying(m)]
    one, two = [clock(ride[1], unit(cross(*pair))) for pair in (ride[:2], ride[1:])]
    say(f"{key} twist", degrees(near(two - one, 0.0)))
    leans = raised(lying(m), m["length"], RISES["power"])
    axes = [axis(*lean) for lean in leans]
    found, at = peak(lambda phase: -steepest(axes, phase), -90, 90, 60, 32)
    # About its least the steepness is flat; twenty degrees to either side it is as great, and steep.
    at = halve_few(lambda turn: steepest(axes, turn + 20) - steepest(axes, turn - 20), at - 1, at + 1)
    say(f"{key} yokes to", at)
    say(f"{key} yokes change", at - m["phase"])
    say(f"{key} yokes left", -found * SQUARE)


ALL = ("pinion",)
JOINTS = ("front", "rear", "slope", "pinion", "drive", "coast")


def angles():
    best = {name: value for name, (value, _) in BASE.items()}
    for at, move in RISES.items():
        names, shares = (JOINTS, ("pinion", "front", "slope")) if at == "ride" else (ALL, ())
        whole = felt(f"angles {at}", BASE, move, names, shares=shares)
        say(f"angles {at} as one", one_joint(whole["pinion"] / SQUARE))
        leans = [axis(*lean) for lean in raised(lying(best), best["length"], move)]
        say(f"angles {at} front joint", between(*leans[:2]))
        say(f"angles {at} rear joint", between(*leans[1:]))
        # The summary of both joints in one plane, out of phase by the yokes' turn.
        one, two = [radians(between(*pair)) ** 2 for pair in (leans[:2], leans[1:])]
        turn = 2 * radians(best["phase"])
        say(f"angles {at} summary", degrees(sqrt(hypot(one - two * cos(turn), two * sin(turn)))))
    say("angles old slope", lying(best, float(OLD[0]))[1][0])
    power = [axis(*lean) for lean in raised(lying(best), best["length"], RISES["power"])]
    for key, axes, phase in [("pinion", power, best["phase"]), ("shaft", power[:2], 0)]:
        half, lead = swing(axes, phase)
        say(f"angles {key} swing", half)
        if key == "pinion":
            say("angles lead", lead)
    say("angles in one plane", steepest(power, 0.0) * SQUARE)
    say("angles most", one_joint(1000.0 / SQUARE))
    for key, measured in [("angles", BASE), ("angles read", READ), ("angles untold", UNTURNED)]:
        pinions(key, measured)
    mount("angles", BASE, 31.0)
    felt("angles read ride", READ, None, JOINTS, shares=("pinion",))
    felt("angles untold ride", UNTURNED, None, JOINTS)
    # A slip in the shaft: the front joint stays where it is.
    for at in ("bump", "droop"):
        felt(f"angles in shaft {at}", BASE, RISES[at], ALL, slides=False)
    for key, measured in [("offset", OFFSET), ("plan", PLANS)]:
        for at, move in RISES.items():
            felt(f"angles {key} {at}", measured, move, JOINTS if at == "ride" else ALL)
        pinions(f"angles {key}", measured)
        yokes(f"angles {key}", measured)


if __name__ == "__main__":
    angles()
