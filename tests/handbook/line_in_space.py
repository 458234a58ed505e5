"""Draws one line in space that fixes every sign, and says its numbers.

Plain python3, no package. Run from the repository's top level:

    python3 tests/handbook/line_in_space.py > tests/handbook/line_in_space.txt

writes src/mechanics/line_in_space.svg too. The numbers are found as in line.py.
"""

import sys
from math import cos, radians, sin

sys.dont_write_bytecode = True
from joints import D, Line, degrees
from line import SPACE, clock, equivalent, twist_of
from tools import say

PAPER, INK, SOFT, ONE, TWO = "#fbfaf6", "#1d1d1b", "#6b6a64", "#0b5aa5", "#a8380f"
# Slopes and plan angles are small: the two long views draw them so many times as large.
TIMES = 5


class Sheet:
    """SVG text, an element a line: a blank one would end the drawing where the docs include it."""

    def __init__(self, width, height):
        self.out = [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="100%" role="img" '
            'aria-label="A drive line in three views with the sign of every angle" '
            'font-family="sans-serif" font-size="16" stroke-linecap="round">',
            f'<rect width="{width}" height="{height}" rx="8" fill="{PAPER}"/>',
        ]

    def line(self, a, b, colour=INK, wide=1.5, dash=None):
        dash = f' stroke-dasharray="{dash}"' if dash else ""
        self.out.append(
            f'<line x1="{a[0]:.1f}" y1="{a[1]:.1f}" x2="{b[0]:.1f}" y2="{b[1]:.1f}" stroke="{colour}" stroke-width="{wide}"{dash}/>'
        )

    def text(self, at, words, anchor="start", colour=INK, size=16, weight=None):
        weight = f' font-weight="{weight}"' if weight else ""
        # A rim of paper, so that words stand clear of the lines they cross.
        self.out.append(
            f'<text x="{at[0]:.1f}" y="{at[1]:.1f}" text-anchor="{anchor}" fill="{colour}" font-size="{size}"{weight} '
            f'stroke="{PAPER}" stroke-width="4" paint-order="stroke" stroke-linejoin="round">{words}</text>'
        )

    def dot(self, at, r, fill=PAPER, colour=INK, wide=2):
        self.out.append(f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{r}" fill="{fill}" stroke="{colour}" stroke-width="{wide}"/>')

    def head(self, tip, way, colour, size=11):
        """An arrow's head, its tip pointing `way`: degrees on the page, from rightward, counter-clockwise."""
        back = [(tip[0] - size * cos(radians(way + k)), tip[1] + size * sin(radians(way + k))) for k in (-20, 20)]
        corners = " ".join(f"{x:.1f},{y:.1f}" for x, y in [tip, *back])
        self.out.append(f'<polygon points="{corners}" fill="{colour}"/>')

    def arrow(self, a, length, way, colour=INK, wide=2):
        b = (a[0] + length * cos(radians(way)), a[1] - length * sin(radians(way)))
        short = (b[0] - 8 * cos(radians(way)), b[1] + 8 * sin(radians(way)))
        self.line(a, short, colour, wide)
        self.head(b, way, colour)
        return b

    def arc(self, centre, r, start, end, colour=INK, wide=2, head=True):
        """From one page angle to another, with a head at its end."""
        at = lambda k: (centre[0] + r * cos(radians(k)), centre[1] - r * sin(radians(k)))
        (ax, ay), (bx, by) = at(start), at(end)
        large, sweep = int(abs(end - start) > 180), int(end < start)
        self.out.append(
            f'<path d="M{ax:.1f} {ay:.1f}A{r} {r} 0 {large} {sweep} {bx:.1f} {by:.1f}" fill="none" stroke="{colour}" stroke-width="{wide}"/>'
        )
        if head:
            # The head is straight, the arc is not: it lies along the last of the arc.
            lean = 90 if end > start else -90
            self.head((bx, by), end + lean * (1 - 4 / r / 1.57), colour, 9)


def signed(value, digits=None):
    words = f"{value:+g}" if digits is None else f"{value:+.{digits}f}"
    return words.replace("-", "−") + "°"


def long_view(sheet, top, title, side_words, angles, downward, plus_words, word, joints):
    """Gearbox, shaft and pinion from one side, the front at the left. `downward`: + goes down the page."""
    sheet.text((30, top), title, size=18, weight="bold")
    sheet.text((30, top + 23), side_words, colour=SOFT)
    lengths, names = [190, 400, 180], ["gearbox", "shaft", "pinion"]
    colours = [ONE, INK, TWO]
    way = [(-a if downward else a) * TIMES for a in angles]
    steps = [(l * cos(radians(w)), -l * sin(radians(w))) for l, w in zip(lengths, way)]
    ys = [0]
    for _, dy in steps:
        ys.append(ys[-1] + dy)
    spot = (90, top + 75 - min(ys))
    points = [spot]
    for dx, dy in steps:
        points.append((points[-1][0] + dx, points[-1][1] + dy))
    for a, b, colour in zip(points, points[1:], colours):
        sheet.line(a, b, colour, 7)
    # The level, or straight rearward, from where each begins; the angle's arrow from there to the axis.
    for a, length, w, angle, name, colour in zip(points, lengths, way, angles, names, colours):
        sheet.line(a, (a[0] + length + 12, a[1]), SOFT, 1.3, "7 5")
        r = length * 0.8
        sheet.arc(a, r, 0, w, colour, 2.2)
        # Beside the arc where there is room, beyond the dashed line where there is none.
        if name == "shaft":
            at = (a[0] + (r + 10) * cos(radians(w / 2)), a[1] - (r + 10) * sin(radians(w / 2)) + 5)
        else:
            at = (a[0] + length * (0.35 if name == "gearbox" else 0.72), a[1] + (26 if w > 0 else -14))
        anchor = "start" if name == "shaft" else "middle"
        sheet.text(at, f"{name} {word} {signed(angle)}", anchor, colour, 17, "bold")
    for k, point in enumerate(points[1:3]):
        sheet.dot(point, 9, PAPER, [ONE, TWO][k], 3)
        sheet.text((point[0], point[1] + joints[k]), f"joint {k + 1}", "middle", [ONE, TWO][k], 15)
    # What counts as +, apart from the case.
    corner = (905, top + 62)
    sheet.line(corner, (corner[0] + 66, corner[1]), SOFT, 1.3, "7 5")
    lean = -24 if downward else 24
    sheet.arrow(corner, 70, lean, INK, 3)
    sheet.arc(corner, 50, 0, lean, INK, 1.6)
    sheet.text((corner[0] + 72, corner[1] + (58 if downward else -40)), "+ " + word, "end", INK, 17, "bold")
    for k, words in enumerate(plus_words):
        sheet.text((corner[0] + 72, corner[1] + (78 if downward else 24) + 19 * k), words, "end", SOFT, 15)


def ends(sheet, x, y):
    sheet.arrow((x, y), 55, 180, SOFT, 1.6)
    sheet.text((x - 60, y + 5), "front", "end", SOFT, 15)
    sheet.arrow((x + 20, y), 55, 0, SOFT, 1.6)
    sheet.text((x + 80, y + 5), "rear", "start", SOFT, 15)


def page_angle(clock_degrees):
    """A clock's degrees as the page counts them: 12 up, clockwise, against rightward, counter-clockwise."""
    return 90 - clock_degrees


def face(sheet, centre, r):
    sheet.dot(centre, r, "none", SOFT, 1.3)
    for hour, words in [(0, "up"), (90, "right"), (180, "down"), (270, "left")]:
        w = radians(page_angle(hour))
        sheet.line(*[(centre[0] + k * cos(w), centre[1] - k * sin(w)) for k in (r - 7, r)], SOFT)
        anchor = {90: "start", 270: "end"}.get(hour, "middle")
        lift = {0: -8, 180: 20}.get(hour, 5)
        side = {90: 8, 270: -8}.get(hour, 0)
        sheet.text((centre[0] + r * cos(w) + side, centre[1] - r * sin(w) + lift), words, anchor, SOFT, 15)


def clockwise(sheet, centre, words):
    sheet.arc(centre, 182, 152, 122, INK, 2.2)
    sheet.text((centre[0] - 190 * cos(radians(44)) - 2, centre[1] - 190 * sin(radians(44)) - 6), words, "end", INK, 15.5)


def planes_view(sheet, top, bends, clocks, twist):
    sheet.text((30, top), "From the rear, looking forward along the shaft", size=18, weight="bold")
    sheet.text((30, top + 23), "each joint's plane is a line end-on; these angles are true", colour=SOFT)
    centre, r = (265, top + 235), 165
    face(sheet, centre, r)
    for c, colour, dash in zip(clocks, [ONE, TWO], ["12 5", "3 5"]):
        w = radians(page_angle(c))
        ends = [(centre[0] + k * cos(w), centre[1] - k * sin(w)) for k in (-r, r)]
        sheet.line(*ends, colour, 2, dash)
    first, second = clocks
    # The far side of the first line, where the twist is read off.
    other = (first + 180) % 360
    sheet.arc(centre, 118, page_angle(other), page_angle(other + twist), INK, 2.6)
    middle = radians(page_angle(other + twist / 2))
    sheet.text((centre[0] + 150 * cos(middle) + 40, centre[1] - 150 * sin(middle) - 42), "twist", "start", INK, 17, "bold")
    sheet.text((centre[0] + 150 * cos(middle) + 40, centre[1] - 150 * sin(middle) - 22), signed(twist, 2), "start", INK, 17, "bold")
    sheet.arrow(centre, 95, page_angle(first), ONE, 5)
    sheet.arrow(centre, 95, page_angle(second), TWO, 5)
    sheet.dot(centre, 10, INK, INK)
    clockwise(sheet, centre, "+ clockwise")
    sheet.text((20, centre[1] + r + 40), f"joint 1, dashed: the shaft goes down and left, {bends[0]:.2f}°", "start", ONE, 15.5)
    sheet.text((20, centre[1] + r + 62), f"joint 2, dotted: the pinion goes up and right, {bends[1]:.2f}°", "start", TWO, 15.5)
    sheet.text((20, centre[1] + r + 84), "twist: from the line of joint 1 to the line of joint 2,", "start", INK, 15.5)
    sheet.text((20, centre[1] + r + 104), "+ clockwise; here it goes counter-clockwise, so it is minus", "start", INK, 15.5)


def yoke(sheet, centre, r, clock_degrees, colour, hollow):
    w = radians(page_angle(clock_degrees))
    tips = [(centre[0] + k * cos(w), centre[1] - k * sin(w)) for k in (-r, r)]
    sheet.line(*tips, colour, 3 if hollow else 9, "12 5" if hollow else None)
    for tip in tips:
        sheet.dot(tip, 22 if hollow else 15, PAPER if hollow else colour, colour, 3)


def yokes_view(sheet, top, phase):
    sheet.text((540, top), "From the rear: the shaft's own two yokes", size=18, weight="bold")
    sheet.text((540, top + 23), "at one moment of the turn; these angles are true", colour=SOFT)
    centre, r = (750, top + 235), 165
    face(sheet, centre, r)
    front = 0
    yoke(sheet, centre, 128, front, ONE, True)
    yoke(sheet, centre, 128, front + phase, TWO, False)
    sheet.arc(centre, 96, page_angle(front), page_angle(front + phase), INK, 2.6)
    at = (centre[0] + 30, centre[1] - 60)
    sheet.text(at, f"ψ {signed(phase)}", "start", INK, 17, "bold")
    clockwise(sheet, centre, "+ clockwise")
    for k, (words, colour) in enumerate([
        ("hollow, dashed: ears of the front yoke, on joint 1", ONE),
        ("solid: ears of the rear yoke, on joint 2", TWO),
        ("ψ: from the front yoke's ears to the rear yoke's,", INK),
        ("+ clockwise; 0 where both lie in one plane", INK),
    ]):
        sheet.text((540, centre[1] + r + 40 + 21 * k), words, "start", colour, 15.5)


def draw(numbers):
    gearbox, shaft, pinion, phase = SPACE
    sheet = Sheet(1000, 1300)
    long_view(
        sheet, 40, "From the left side", f"front at the left, up is up; angles drawn {TIMES} times as large",
        [gearbox[0], shaft[0], pinion[0]], True, ["falls toward", "the rear"], "slope", (34, 34),
    )
    ends(sheet, 700, 58)
    long_view(
        sheet, 392, "From above", f"front at the left, the vehicle's right side up the page; angles drawn {TIMES} times as large",
        [gearbox[1], shaft[1], pinion[1]], False, ["goes right as it", "runs rearward"], "plan", (-18, 34),
    )
    planes_view(sheet, 682, numbers["bends"], numbers["clocks"], numbers["twist"])
    yokes_view(sheet, 682, phase)
    top = 1222
    n = numbers
    sheet.line((20, top - 28), (980, top - 28), SOFT, 1)
    for k, words in enumerate([
        f"Equivalent angle {n['equivalent']:.3f}°. Pinion ahead and behind by {n['error']:.4f}° peak to peak. "
        f"Peak gains: shaft {n['gains'][0]:.6f}, pinion {n['gains'][1]:.6f}.",
        f"Least is left at phase {signed(n['best'], 2)}: the rear yoke turned {phase - n['best']:.2f}° counter-clockwise from where it is "
        f"(pinion gain {n['best gain']:.6f}).",
        "A gain is what a speed ratio grows by in a radian of the gearbox's turn: times its speed squared, an angular acceleration.",
    ]):
        sheet.text((20, top + 24 * k), words, "start", INK, 15.5)
    sheet.out.append("</svg>")
    with open("src/mechanics/line_in_space.svg", "w") as file:
        file.write("\n".join(sheet.out) + "\n")


def least_phase():
    """The phase whose pinion gain is least: between thirds, ever closer, a quarter turn about the twist."""
    gain = lambda phase: Line(*SPACE[:3], phase).peak_gain(1)
    twist = twist_of(Line(*SPACE))
    low, high = D(twist) - 40, D(twist) + 40
    for _ in range(60):
        one, other = low + (high - low) / 3, high - (high - low) / 3
        low, high = (low, other) if gain(one) < gain(other) else (one, high)
    return (low + high) / 2, gain((low + high) / 2)


def main():
    line = Line(*SPACE)
    best, best_gain = least_phase()
    twist = twist_of(line)
    first, second = (clock(line, end) for end in (0, 2))
    numbers = {
        "bends": [float(degrees(b)) for b in line.bends],
        # Away from the line of the axis before it: the gearbox's front end is seen opposite of where the
        # shaft goes.
        "clocks": [(first + 360) % 360, (second + 360) % 360],
        "twist": twist,
        "equivalent": float(equivalent(*line.bends, D(twist) * D("0.01745329251994329576923690768488612713"), SPACE[3])),
        "error": float(degrees(line.error())),
        "gains": [float(line.peak_gain(k)) for k in (0, 1)],
        "best": float(best),
        "best gain": float(best_gain),
    }
    say("front joint", numbers["bends"][0], 11)
    say("rear joint", numbers["bends"][1], 11)
    say("joint 1 bends to clock", numbers["clocks"][0], 11)
    say("joint 2 bends to clock", numbers["clocks"][1], 11)
    say("twist", twist, 11)
    say("equivalent", numbers["equivalent"], 11)
    say("error", numbers["error"], 12)
    say("shaft gain", numbers["gains"][0], 14)
    say("pinion gain", numbers["gains"][1], 14)
    say("phase with least", best, 8)
    say("least pinion gain", best_gain, 14)
    draw(numbers)


main()
