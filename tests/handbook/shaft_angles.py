"""The invented shaft's angles, for shaft.py: plain vectors, stepped round a turn.

A joint's cross is stepped: its second arm is square to the first and to the driven shaft, and how far
that has turned is read off as an angle. What is ahead over a turn is differentiated by differences of
nine neighbours, its steepest place looked for among steps. Slopes come from an axis turned until it falls as a
level read, a shaft turned until it falls by the difference of the heights, a front joint slid back until the
joints are as far apart again. A rear joint goes round the axle's centre. What each measurement does to a ± is
felt out by moving it by its own u, once either way, the larger of both.
x runs rearward, y to the right, z up; slopes fall toward the rear; turns are clockwise from the rear.
"""

from fractions import Fraction as F
from math import asin, atan2, cos, degrees, hypot, pi, radians, sin, sqrt, tan

from shaft_length import ONCE, T95, WANTED, OLD, mean_and_u
from tools import halve, say

SPEED = 3500 * 2 * pi / 60
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
# A joint's centre is found to an eighth of an inch, the tape's line beside it.
HEIGHT = hypot(ONCE, 0.125 / sqrt(3))
BASE = {
    "gearbox": slope(["2.4", "2.5", "2.4"]),
    "pinion": slope(["1.7", "1.6", "1.6"]),
    "front": (24.75, HEIGHT),
    "rear": (19.875, HEIGHT),
    "bias": BIAS,
    "phase": PHASE,
    "length": LENGTH,
}
READ = {key: value for key, value in BASE.items() if key not in ("front", "rear")}
READ["shaft"] = slope(["5.1", "5.2", "5.1"])
# A pinion that lies too flat: here there is something to change.
FLAT = {**BASE, "pinion": slope(["0.3", "0.2", "0.3"])}
# One past the shaft's own slope: gearbox and pinion lean to each other.
LEANING = {**BASE, "pinion": slope(["4.2", "4.1", "4.2"])}
UNTURNED = {**BASE, "bias": (0.0, 0.1 / sqrt(3))}
ASIDE = 2.0, 0.125 / sqrt(3)
OFFSET = {**BASE, "offset": ASIDE}
PLAN = 0.5 / sqrt(3)
PLANS = {**BASE, "gearbox plan": (1.0, PLAN), "shaft plan": (-0.5, PLAN), "pinion plan": (0.5, PLAN)}
# Where the axle goes: its nose to half a degree, its travel and the pinion's arm to a quarter inch.
NOSE, QUARTER = 0.5 / sqrt(3), 0.25 / sqrt(3)
ARM = 9.5, QUARTER
AT = {
    "ride": {},
    "power": {"nose": (1.0, NOSE), "arm": ARM},
    "bump": {"nose": (0.4, NOSE), "arm": ARM, "travel": (3.0, QUARTER)},
    "droop": {"nose": (0.9, NOSE), "arm": ARM, "travel": (-4.5, QUARTER)},
}


def as_read(reading, plan):
    """The slope in the side view of an axis that a level on it reads as so steep."""
    return halve(lambda s: -axis(s, plan)[2] - sin(radians(reading)), -60, 60)


def leaning(way):
    return degrees(atan2(-way[2], way[0])), degrees(atan2(way[1], way[0]))


def lying(m, length=None):
    """Gearbox, shaft and pinion as (slope, plan), from what was measured."""
    length = length or m["length"]
    plans = [m.get(f"{who} plan", 0.0) for who in ("gearbox", "shaft", "pinion")]
    gearbox, pinion = [
        (as_read(m[who] - m["bias"], plan), plan) for who, plan in (("gearbox", plans[0]), ("pinion", plans[2]))
    ]
    drop = length * sin(radians(m["shaft"] - m["bias"])) if "shaft" in m else m["front"] - m["rear"]
    if "offset" in m:
        run = sqrt(length**2 - drop**2 - m["offset"] ** 2)
        shaft = leaning((run, m["offset"], -drop))
    else:
        shaft = halve(lambda s: -length * axis(s, plans[1])[2] - drop, -60, 60), plans[1]
    return [gearbox, shaft, pinion]


def raised(leans, m, slides=True, turned=0.0):
    """The same with the axle risen and turned about its own centre, the rear joint going round that."""
    gearbox, shaft, pinion = leans
    if "nose" not in m:
        return leans
    length, arm = m["length"], m["arm"]
    centre = plus(plus((0, 0, 0), length, axis(*shaft)), arm, axis(*pinion))
    pinion = (pinion[0] + m["nose"] + turned, pinion[1])
    rear = plus(plus(centre, m.get("travel", 0.0), (0.0, 0.0, 1.0)), -arm, axis(*pinion))
    if slides:
        out = axis(*gearbox)
        far = lambda by: sqrt(dot(plus(rear, -by, out), plus(rear, -by, out)))
        rear = plus(rear, -halve(lambda by: length - far(by), -10.0, 10.0), out)
    return [gearbox, leaning(rear), pinion]


def figures(m, slides=True):
    leans = raised(lying(m), m, slides)
    axes = [axis(*lean) for lean in leans]
    return {
        "front": between(axes[0], axes[1]),
        "rear": between(axes[1], axes[2]),
        "slope": leans[1][0],
        "pinion": steepest(axes, m["phase"]) * SQUARE,
        "drive": steepest(axes[:2], 0) * SQUARE,
        "coast": steepest(axes[:0:-1], 0) * SQUARE,
    }


def felt(key, measured, names, slides=True, shares=()):
    """The figures of these names with their ±."""
    best = {name: value for name, (value, _) in measured.items()}
    whole = figures(best, slides)
    parts = {}
    for name, (value, u) in measured.items():
        moved = [figures({**best, name: value + way * u}, slides) for way in (1, -1)]
        parts[name] = {n: max(abs(one[n] - whole[n]) for one in moved) for n in names}
    doubts = {}
    for n in names:
        say(f"{key} {n}", whole[n])
        square = sum(part[n] ** 2 for part in parts.values())
        doubts[n] = T95 * sqrt(square)
        say(f"{key} {n} doubt", doubts[n])
        for name, part in parts.items() if n in shares else ():
            if part[n] ** 2 / square > 1e-14:
                say(f"{key} {n} share {name}", part[n] ** 2 / square)
    return {n: (whole[n], doubts[n]) for n in names}


def least(axes, phase, low, high, narrowings):
    """The change between two with the least steepness, and what it leaves."""
    found, at = peak(lambda c: -steepest(axes(c), phase), low, high, 2 * round(high - low), narrowings, True)
    return at, -found * SQUARE


def felt_change(measured, at, change):
    """The ± of a change: what it is found to be with each measurement moved. Yokes and length hardly
    move it and are left out."""
    best = {name: value for name, (value, _) in measured.items()}
    square = 0.0
    for name, (value, u) in measured.items():
        if name not in ("phase", "length"):
            moved = [change({**best, name: value + way * u}) for way in (1, -1)]
            square += max(abs(one - at) for one in moved) ** 2
    return T95 * sqrt(square)


def read(m, lean):
    """What the level shows on an axis that leans like this."""
    return degrees(asin(-axis(*lean)[2])) + m["bias"]


def pinions(key, measured, slides=True):
    """What a pinion is turned by, parallel and leaning to the gearbox, under power."""
    measured = {**measured, **AT["power"]}
    best = {name: value for name, (value, _) in measured.items()}
    for layout in ("parallel", "intersecting"):

        def change(m, narrowings=28):
            ride = lying(m)
            leans = lambda turned: raised(ride, m, slides, turned)
            # On the side of the shaft, wherever the joint takes that, that the layout asks for.
            above = lambda turned: leans(turned)[2][0] - leans(turned)[1][0]
            border = halve_few(above, -12.0, 12.0)
            low, high = {"parallel": (border - 6, border), "intersecting": (border, border + 6)}[layout]
            axes = lambda turned: [axis(*lean) for lean in leans(turned)]
            return *least(axes, m["phase"], low, high, narrowings), leans, border

        at, left, leans, border = change(best)
        (_, shaft, pinion), axes = leans(at), [axis(*lean) for lean in leans(at)]
        for what, number in [
            ("change", at),
            ("left", left),
            ("to", read(best, (pinion[0] - best["nose"], pinion[1]))),
            ("front", between(axes[0], axes[1])),
            ("rear", between(axes[1], axes[2])),
            ("wedge", 4.5 * tan(radians(abs(at)))),
            ("border", border),
        ]:
            say(f"{key} {layout} {what}", number)
        # The ± off to the side is left out.
        if not any(name == "offset" or name.endswith("plan") for name in measured):
            # To a ten-thousandth of a degree: it moves by hundredths.
            say(f"{key} {layout} doubt", felt_change(measured, at, lambda m: change(m, 18)[0]))


def mount(key, measured, arm, overhang, most=1):
    """What a gearbox's tail is turned by, its front joint going down with it."""
    measured = {**measured, **AT["power"]}
    best = {name: value for name, (value, _) in measured.items()}

    def change(m, narrowings=28):
        (gearbox, plan), shaft, pinion = raised(lying(m), m)
        rear = plus((0, 0, 0), m["length"], axis(*shaft))
        down = lambda turned: sin(radians(gearbox + turned)) - sin(radians(gearbox))

        def axes(turned):
            way = plus(rear, (arm + overhang) * down(turned), (0.0, 0.0, 1.0))
            return [axis(gearbox + turned, plan), unit(way), axis(*pinion)]

        # No further than gearbox and pinion stay on their sides of the shaft.
        at, left = least(axes, m["phase"], -3, most, narrowings)
        return at, left, axes(at), arm * down(at), read(m, (gearbox + at, plan))

    at, left, axes, down, to = change(best)
    for what, number in [
        ("change", at),
        ("left", left),
        ("to", to),
        ("down", down),
        ("front", between(*axes[:2])),
        ("rear", between(*axes[1:])),
        ("doubt", felt_change(measured, at, lambda m: change(m, 18)[0])),
    ]:
        say(f"{key} {what}", number)


def yokes(key, measured):
    """The yokes' turn with the least steepness, and the planes' own twist: the turn between the lines
    across both joints' planes, seen along the shaft."""
    m = {name: value for name, (value, _) in measured.items()}
    ride = [axis(*lean) for lean in lying(m)]
    one, two = [clock(ride[1], unit(cross(*pair))) for pair in (ride[:2], ride[1:])]
    say(f"{key} twist", degrees(near(two - one, 0.0)))
    m.update({name: value for name, (value, _) in AT["power"].items()})
    axes = [axis(*lean) for lean in raised(lying(m), m)]
    found, at = peak(lambda phase: -steepest(axes, phase), -90, 90, 60, 32)
    # About its least the steepness is flat; twenty degrees to either side it is as great, and steep.
    at = halve_few(lambda turn: steepest(axes, turn + 20) - steepest(axes, turn - 20), at - 1, at + 1)
    say(f"{key} yokes to", at)
    say(f"{key} yokes change", at - m["phase"])
    say(f"{key} yokes left", -found * SQUARE)


BOTH = ("pinion", "front", "rear")
JOINTS = ("front", "rear", "slope", "pinion", "drive", "coast")


def slopes(key, measured):
    """The slope of the old shaft between the same joints, and how long either looks from the side."""
    m = {name: value for name, (value, _) in measured.items()}
    for who, length in [("new", m["length"]), ("old", float(OLD[0]))]:
        shaft = lying(m, length)[1]
        x, _, z = axis(*shaft)
        say(f"{key} {who} from the side", length * hypot(x, z))
        if who == "old":
            say(f"{key} old slope", shaft[0])


def angles():
    best = {name: value for name, (value, _) in BASE.items()}
    for at, move in AT.items():
        names, shares = (JOINTS, ("pinion", "front", "slope")) if at == "ride" else (BOTH, ("pinion",))
        whole = felt(f"angles {at}", {**BASE, **move}, names, shares=shares)
        say(f"angles {at} as one", one_joint(whole["pinion"][0] / SQUARE))
        m = {**best, **{name: value for name, (value, _) in move.items()}}
        leans = [axis(*lean) for lean in raised(lying(m), m)]
        # The summary of both joints in one plane, out of phase by the yokes' turn.
        one, two = [radians(between(*pair)) ** 2 for pair in (leans[:2], leans[1:])]
        turn = 2 * radians(best["phase"])
        say(f"angles {at} summary", degrees(sqrt(hypot(one - two * cos(turn), two * sin(turn)))))
        if at == "power":
            for key, axes, phase in [("pinion", leans, best["phase"]), ("shaft", leans[:2], 0)]:
                half, lead = swing(axes, phase)
                say(f"angles {key} swing", half)
                if key == "pinion":
                    say("angles lead", lead)
            say("angles in one plane", steepest(leans, 0.0) * SQUARE)
    say("angles most", one_joint(1000.0 / SQUARE))
    for key, measured in [("angles", BASE), ("angles read", READ), ("angles untold", UNTURNED), ("angles flat", FLAT)]:
        pinions(key, measured)
    mount("angles mount", FLAT, 31.0, 7.0)
    mount("angles mount at joint", BASE, 31.0, 0.0)
    mount("angles mount leaning", LEANING, 31.0, 7.0, 2)
    # A nose that goes down under power.
    key, falling = "angles falling power", {**BASE, **AT["power"], "nose": (-1.0, NOSE)}
    rear, doubt = felt(key, falling, BOTH)["rear"]
    for what, angle in [("at", rear), ("past", rear + doubt)]:
        say(f"{key} shakes {what}", steepest([axis(0, 0), axis(angle, 0)], 0) * SQUARE)
    felt("angles read ride", READ, JOINTS, shares=("pinion",))
    felt("angles untold ride", UNTURNED, JOINTS)
    # A slip in the shaft: the front joint stays where it is.
    for at in ("power", "bump", "droop"):
        felt(f"angles in shaft {at}", {**BASE, **AT[at]}, BOTH, slides=False)
    pinions("angles in shaft", BASE, slides=False)
    for key, measured in [("angles", BASE), ("angles offset", OFFSET), ("angles plan", PLANS)]:
        slopes(key, measured)
    for key, measured in [("offset", OFFSET), ("plan", PLANS)]:
        for at, move in AT.items():
            felt(f"angles {key} {at}", {**measured, **move}, JOINTS if at == "ride" else BOTH)
        pinions(f"angles {key}", measured)
        yokes(f"angles {key}", measured)
    # Read on a shaft that goes off to the side.
    felt("angles read offset ride", {**READ, "offset": ASIDE}, JOINTS)
    plans = {name: PLANS[name] for name in ("gearbox plan", "shaft plan", "pinion plan")}
    felt("angles read plan ride", {**READ, **plans}, JOINTS)


if __name__ == "__main__":
    angles()
