"""What the scripts of this folder share: slow, plain ways to a number."""

from fractions import Fraction as F
from math import atan2, cos, pi, radians, sin, sqrt

INCH = F(254, 10)
POUND = F("453.59237")


def say(key, value, digits=9):
    print(f"{key} {float(value):.{digits}f}")


def simpson(f, a, b, n=20000):
    h = (b - a) / n
    return h / 3 * (f(a) + f(b) + sum((4 if i % 2 else 2) * f(a + i * h) for i in range(1, n)))


def halve(f, low, high):
    """Where f turns from negative to positive."""
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if f(middle) < 0 else (low, middle)
    return (low + high) / 2


def polygon_arc(diameter, angle, sides=200000):
    """The arc as many short chords laid end to end."""
    step = radians(angle) / sides
    return sides * diameter * sin(step / 2)


def circle(r, nu):
    """The plane's t density inside radius r (in units of u), summed ring by ring."""
    # p(r) = r·(1 + r²/ν)^(−(ν+2)/2); with r = √ν·tan(a) the ring sum runs over an angle.
    edge = atan2(r, sqrt(nu))
    ring = lambda a: nu * sin(a) * cos(a) ** (nu - 1)
    return simpson(ring, 0, edge, 4000)


def fit(at, readings, orders):
    """Least squares by walking one coefficient at a time downhill: no linear algebra at all."""
    terms = [lambda a: 1.0]
    for k in orders:
        terms += [lambda a, k=k: cos(k * radians(a)), lambda a, k=k: sin(k * radians(a))]
    c = [0.0] * len(terms)
    table = [[t(a) for t in terms] for a in at]
    left = list(readings)
    for _ in range(20000):
        moved = 0.0
        for j in range(len(c)):
            column = [row[j] for row in table]
            step = sum(x * y for x, y in zip(column, left)) / sum(x * x for x in column)
            c[j] += step
            left = [y - step * x for x, y in zip(column, left)]
            moved = max(moved, abs(step))
        if moved < 1e-14:
            break
    return c, left
