"""Gearbox, shaft and pinion by the one thing a cross keeps: the ears of its two yokes at a right angle.

For each place of a driving yoke the driven one is turned until the right angle is met, by halving and
chords between two places that lie on either side. Fifty digits, so that differences of places a hundred
millionth of a turn apart still give speeds and accelerations to sixteen. Plain python3, no package.

x rearward, y to the right looking forward, z up. Turns are clockwise seen from the rear, from straight up.
"""

from decimal import Decimal as D
from decimal import getcontext

getcontext().prec = 50
TINY = D(10) ** -46
# Of the differences: leaves 1e-15 of truncation and 1e-29 of cancellation.
STEP = D(10) ** -8


def arctan_of_one_over(n):
    total, power, k = D(0), D(1) / n, 0
    while abs(power) > TINY / 1000:
        total += power / (2 * k + 1)
        power /= -n * n
        k += 1
    return total


# Machin's formula.
PI = 4 * (4 * arctan_of_one_over(5) - arctan_of_one_over(239))


def radians(angle):
    return D(str(angle)) * PI / 180


def degrees(angle):
    return angle * 180 / PI


def circle(angle):
    """Sine and cosine by their power series."""
    angle = angle % (2 * PI)
    # A quarter of the angle, doubled back twice: fewer terms.
    small = angle / 16
    square, sine, term, k = small * small, D(0), small, 1
    while abs(term) > TINY / 1000:
        sine += term
        term *= -square / ((k + 1) * (k + 2))
        k += 2
    cosine, term, k = D(0), D(1), 0
    while abs(term) > TINY / 1000:
        cosine += term
        term *= -square / ((k + 1) * (k + 2))
        k += 2
    for _ in range(4):
        sine, cosine = 2 * sine * cosine, cosine * cosine - sine * sine
    return sine, cosine


def dot(a, b):
    return sum(x * y for x, y in zip(a, b))


def scaled(a, by):
    return tuple(x * by for x in a)


def unit(a):
    return scaled(a, 1 / dot(a, a).sqrt())


def axis(slope, plan):
    """The unit vector rearward along an axis of this slope and plan angle, in degrees."""
    tangent = lambda angle: (lambda s, c: s / c)(*circle(radians(angle)))
    return unit((D(1), tangent(plan), -tangent(slope)))


def seen_along(a):
    """Up and right for an eye behind looking forward along the axis."""
    up = unit(tuple(z - a[2] * x for z, x in zip((D(0), D(0), D(1)), a)))
    # Square to both, found without a product of vectors: level, and square to the axis on the map.
    right = unit((-a[1], a[0], D(0)))
    return up, right


def ears(frame, turn):
    """Where the ears point, so far clockwise of straight up."""
    sine, cosine = circle(turn)
    return tuple(cosine * u + sine * r for u, r in zip(*frame))


def root(f, low, high):
    """Where f is nothing between two places of opposite sign: chords, with the Illinois rule."""
    at_low, at_high = f(low), f(high)
    assert at_low * at_high <= 0, "no sign change"
    last = 0
    for _ in range(200):
        if at_low == 0 or at_high == 0 or high - low < TINY:
            break
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        at = f(middle)
        if abs(at) < TINY:
            return middle
        if at * at_high > 0:
            high, at_high = middle, at
            at_low = at_low / 2 if last == 1 else at_low
            last = 1
        else:
            low, at_low = middle, at
            at_high = at_high / 2 if last == -1 else at_high
            last = -1
    else:
        raise ArithmeticError("the root was not closed in")
    return low if abs(at_low) <= abs(at_high) else high


def between(one, other):
    """The angle of two unit vectors, by the chord from one tip to the other."""
    apart = tuple(x - y for x, y in zip(one, other))
    return 2 * root(lambda half: 2 * circle(half)[0] - dot(apart, apart).sqrt(), D(0), PI / 2)


class Line:
    """Slopes and plan angles of the three axes and the phase, in degrees."""

    def __init__(self, gearbox, shaft, pinion, phase):
        self.axes = [axis(*gearbox), axis(*shaft), axis(*pinion)]
        self.frames = [seen_along(a) for a in self.axes]
        self.phase = radians(phase)
        self.zero = self.upright()
        self.bends = [between(self.axes[i], self.axes[i + 1]) for i in (0, 1)]

    def upright(self):
        """The zero from which the program counts the gearbox's turn: the ears straight up as the shaft is
        seen, tilted to the gearbox's axis the shortest way. It is what the joint would hand on if it bent
        no more: two mirrorings, across the shaft and across the axis half way between, carry it over."""
        gearbox, shaft = self.axes[:2]
        half = unit(tuple(a + b for a, b in zip(gearbox, shaft)))
        mirrored = lambda v, by: tuple(x - 2 * dot(v, by) * n for x, n in zip(v, by))
        ears_up = mirrored(mirrored(self.frames[1][0], shaft), half)
        off = lambda t: dot(ears_up, ears(self.frames[0], t + PI / 2))
        return root(off, -radians(60), radians(60))

    def driven(self, joint, turn):
        """The turn of the driven yoke's ears: a quarter ahead of the driving yoke's, as near as the bend
        leaves them, so that it goes on without a jump over any number of turns."""
        driving = ears(self.frames[joint], turn)
        off = lambda t: dot(driving, ears(self.frames[joint + 1], t))
        quarter = turn + PI / 2
        # Up to 45° of bend, and the lean between the two frames, the ears stay well within this of it.
        return root(off, quarter - radians(60), quarter + radians(60))

    def turns(self, turn):
        """Of the shaft (its front yoke) and of the pinion, each less the quarters the crosses stand ahead."""
        shaft = self.driven(0, turn)
        pinion = self.driven(1, shaft + self.phase)
        return shaft - PI / 2, pinion - PI - self.phase

    def leads(self, turn):
        shaft, pinion = self.turns(turn)
        return shaft - turn, pinion - turn

    def rates(self, turn):
        """Speed ratios and gains: first and second differences of the turns."""
        before, here, after = (self.turns(turn + k * STEP) for k in (-1, 0, 1))
        ratio = [(a - b) / (2 * STEP) for a, b in zip(after, before)]
        gain = [(a - 2 * h + b) / STEP**2 for a, h, b in zip(after, here, before)]
        return ratio, gain

    def greatest(self, f, places=60):
        """Of a function of the turn, over the half turn after which all repeats: every three degrees, then
        closed in by golden sections, which see a top to half the digits and its height to nearly all."""
        at = [PI * k / places for k in range(places)]
        heights = [f(t) for t in at]
        k = max(range(places), key=lambda k: heights[k])
        low, high = at[k] - PI / places, at[k] + PI / places
        share = (D(5).sqrt() - 1) / 2
        one, other = high - share * (high - low), low + share * (high - low)
        f_one, f_other = f(one), f(other)
        for _ in range(36):
            if f_one > f_other:
                high, other, f_other = other, one, f_one
                one = high - share * (high - low)
                f_one = f(one)
            else:
                low, one, f_one = one, other, f_other
                other = low + share * (high - low)
                f_other = f(other)
        return max(heights[k], f_one, f_other)

    def error(self):
        """Peak to peak of the pinion's lead."""
        top = self.greatest(lambda t: self.leads(t)[1])
        return top + self.greatest(lambda t: -self.leads(t)[1])

    def peak_gain(self, which):
        return self.greatest(lambda t: abs(self.rates(t)[1][which]))

    def ratios(self, which):
        """Least and greatest."""
        of = lambda sign: self.greatest(lambda t: sign * self.rates(t)[0][which])
        return -of(-1), of(1)
