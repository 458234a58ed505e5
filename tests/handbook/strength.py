"""Torsion, buckling, welds, torque and tyres by another road than the program's.

Plain python3, some seconds, from the repository's top level:

    python3 tests/handbook/strength.py > tests/handbook/strength.txt

J is summed ring by ring, twist slice by slice, a weld dab by dab; buckling is worked out twice: hinged
tubes by the series of Donnell's equation (Batdorf's form: sines along the tube, both phases of n lobes),
endless tubes by the energy of a shell that bends, stretches and shears in three directions; the program has
closed forms for both. In the keys: inches, ksi, lbf·ft, degrees.
"""

from math import pi, sin, sqrt

from tools import halve, say, simpson

PSI = 0.45359237 * 9.80665 / 0.0254**2


# ---- section

def rings(outer, inner):
    """J as the sum of thin rings, each its area times its radius squared."""
    return simpson(lambda r: 2 * pi * r**3, inner / 2, outer / 2, 4000)


for outer, wall in [(3.0, 0.083), (3.5, 0.095), (4.0, 0.095)]:
    j = rings(outer, outer - 2 * wall)
    say(f"J {outer} {wall}", j)
    # What the wall carries, ring by ring, at a stress that grows with the radius to 1 at the outside.
    inside = outer / 2 - wall
    carried = simpson(lambda r: 2 * pi * r * r * (r / (outer / 2)), inside, outer / 2, 4000)
    say(f"psi {outer} {wall} at 2000 lbf ft", 2000 * 12 / carried)
    say(f"lbf ft {outer} {wall} at 30 ksi", 30e3 * carried / 12)
    turn = sum(2000 * 12 / (j * 11.5e6) * (50 / 1000) for _ in range(1000))
    say(f"twist {outer} {wall} at 2000 lbf ft over 50 in, 11.5 Mpsi", turn * 180 / pi)
say("psi 0.75 solid at 1500 lbf in", 1500 / simpson(lambda r: 2 * pi * r * r * (r / 0.375), 0, 0.375, 4000))


# ---- buckling

def largest(apply, size):
    """The largest eigenvalue of a symmetric matrix whose eigenvalues come in ± pairs."""
    v = [1.0 / (1 + i) for i in range(size)]
    value = 0.0
    for _ in range(4000):
        w = apply(apply(v))
        norm = sqrt(sum(x * x for x in w))
        v = [x / norm for x in w]
        if abs(norm - value) < 1e-13 * norm:
            break
        value = norm
    return sqrt(norm)


def series(r, t, l, e, nu, n, terms):
    """Donnell's equation for n lobes and hinged ends, by Galerkin: w = sin(ny/r)·Σa·sin(mπx/L) +
    cos(ny/r)·Σb·sin(mπx/L). Sign and phase let the a stand for odd m and the b for even ones."""
    d = e * t**3 / (12 * (1 - nu**2))
    stiff = []
    for m in range(1, terms + 1):
        a, b = m * pi / l, n / r
        k = a * a + b * b
        stiff.append(d * k * k + e * t / r**2 * a**4 / k**2)
    # 2·N·w,xy against the shape of m: the integral of cos(qπx/L)·sin(mπx/L) is (2L/π)·m/(m² − q²).
    def couple(m, q):
        return 0.0 if (m - q) % 2 == 0 else (2 * n / r) * (4 * q / l) * m / (m * m - q * q)
    side = [[couple(i + 1, j + 1) / sqrt(stiff[i] * stiff[j]) for j in range(terms)] for i in range(terms)]
    # Odd and even stand for the two phases, and the pair of signs makes it symmetric.
    side = [[s * (1 if (i % 2 == 0) else -1) for j, s in enumerate(row)] for i, row in enumerate(side)]
    assert all(abs(side[i][j] - side[j][i]) < 1e-12 for i in range(terms) for j in range(terms))
    apply = lambda v: [sum(s * x for s, x in zip(row, v)) for row in side]
    return 1 / largest(apply, terms) / t


def hinged(way, outer, wall, length, e, nu, terms):
    """The least over the number of lobes."""
    r = (outer - wall) / 2
    best = None
    for n in range(2, 40):
        here = way(r, wall, length, e, nu, n, terms)
        if best is not None and here > best[0]:
            break
        best = (here, n)
    return best


def block(k, n, r, wall, e, nu):
    """What a shell stores in one wave of u, v, w: membrane and Sanders' bending, k half waves in radians a
    length along, n lobes round."""
    c, d, b = e * wall / (1 - nu**2), e * wall**3 / (12 * (1 - nu**2)), n / r
    ex, ey, exy = [-k, 0, 0], [0, b, 1 / r], [-b, k, 0]
    kx, ky, kxy = [0, 0, k * k], [0, b / r, b * b], [b / (2 * r), 1.5 * k / r, 2 * k * b]

    def stored(x, y, xy, i, j):
        return x[i] * x[j] + y[i] * y[j] + nu * (x[i] * y[j] + y[i] * x[j]) + (1 - nu) / 2 * xy[i] * xy[j]

    return [[c * stored(ex, ey, exy, i, j) + d * stored(kx, ky, kxy, i, j) for j in range(3)] for i in range(3)]


def determinant(m):
    return (m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
            - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
            + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]))


def inverse(m):
    d = determinant(m)
    part = lambda i, j: (m[(j + 1) % 3][(i + 1) % 3] * m[(j + 2) % 3][(i + 2) % 3]
                         - m[(j + 1) % 3][(i + 2) % 3] * m[(j + 2) % 3][(i + 1) % 3])
    return [[part(i, j) / d for j in range(3)] for i in range(3)]


def endless(outer, wall, e, nu, n=2):
    """One wave that runs round and along an endless tube: the least over its pitch. The shear works on
    u,x·u,y + v,x·(v,y + w/r) + w,x·(w,y − v/r), to second order in all three displacements."""
    r = (outer - wall) / 2

    def at(k):
        stiff, b = block(k, n, r, wall, e, nu), n / r
        load = [[2 * k * b, 0, 0], [0, 2 * k * b, 2 * k / r], [0, 2 * k / r, 2 * k * b]]
        left = lambda s: determinant([[stiff[i][j] - s * load[i][j] for j in range(3)] for i in range(3)])
        # The least root: step up to the first change of sign, then halve.
        high = e * wall * 1e-6
        while left(high) > 0:
            high *= 1.02
        return halve(lambda s: -left(s), high / 1.02, high) / wall

    low, high = 1e-3 / r, 2.0 / r
    for _ in range(100):
        one, two = low + (high - low) / 3, high - (high - low) / 3
        low, high = (low, two) if at(one) < at(two) else (one, high)
    return at((low + high) / 2)


def shell(r, wall, length, e, nu, n, terms):
    """The same energy for a tube between round ends that may lean and warp: u as cosines, v and w as sines
    along it, both phases of n lobes."""
    b = n / r
    along = [m * pi / length for m in range(1, terms + 1)]
    soft = [inverse(block(k, n, r, wall, e, nu)) for k in along]
    # 2/L times the integral of cos(mπx/L)·sin(qπx/L).
    over = lambda m, q: 0.0 if (m - q) % 2 == 0 else 4 / pi * q / (q * q - m * m)
    load = [[None] * terms for _ in range(terms)]
    for i in range(terms):
        for j in range(terms):
            here, there = along[i] * over(i + 1, j + 1), along[j] * over(j + 1, i + 1)
            u = b * (along[j] * over(i + 1, j + 1) - along[i] * over(j + 1, i + 1))
            load[i][j] = (u, b * (here - there), (here - there) / r)

    def half(x, turned):
        out = []
        for i in range(terms):
            f = [0.0, 0.0, 0.0]
            for j in range(terms):
                if (i - j) % 2:
                    u, straight, cross = load[j][i] if turned else load[i][j]
                    y = x[j]
                    f[0] += u * y[0]
                    f[1] += straight * y[1] + cross * y[2]
                    f[2] += cross * y[1] + straight * y[2]
            out.append([sum(s * g for s, g in zip(row, f)) for row in soft[i]])
        return out

    x, value = [[1.0 / (1 + i), 1.0 / (1 + i), -2.0 / (1 + i)] for i in range(terms)], 0.0
    for _ in range(500):
        x = half(half(x, False), True)
        size = sqrt(sum(y * y for part in x for y in part))
        x = [[y / size for y in part] for part in x]
        if abs(size - value) < 1e-10 * size:
            break
        value = size
    return 1 / sqrt(size) / wall


ksi = lambda stress: stress / PSI / 1000
for outer, wall, length in [(3.0, 0.083, 40.0), (3.0, 0.083, 50.0), (3.0, 0.083, 70.0), (3.5, 0.083, 30.0),
                            (3.5, 0.095, 55.0), (4.0, 0.095, 60.0), (5.0, 0.065, 30.0), (5.0, 0.065, 60.0),
                            (5.0, 0.02, 20.0), (20.0, 0.05, 10.0), (20.0, 0.05, 30.0)]:
    stress, lobes = hinged(shell, outer, wall, length, 205e9, 0.3, 24)
    say(f"buckling shell {outer} {wall} {length}", ksi(stress), 4)
    say(f"buckling shell lobes {outer} {wall} {length}", lobes, 0)
    say(f"buckling series {outer} {wall} {length}", ksi(hinged(series, outer, wall, length, 205e9, 0.3, 24)[0]), 4)
# Over the program's whole range of tubes: r/t, L/r, and the stress as millionths of E.
for walls in (10, 14, 18, 25, 35, 50, 80):
    for along in (4, 8, 10, 14, 18, 24, 30, 36, 45, 60, 90):
        stress, _ = hinged(shell, 2 + 1 / walls, 1 / walls, along, 1e6, 0.3, 24 if along < 60 else 36)
        say(f"shell {walls} {along}", stress, 3)
# Whether 24 waves along the tube were enough.
say("buckling shell 3.0 0.083 70.0 with 36 waves", ksi(hinged(shell, 3.0, 0.083, 70.0, 205e9, 0.3, 36)[0]), 4)
for outer, wall in [(3.0, 0.083), (4.0, 0.095), (20.0, 0.05)]:
    say(f"buckling endless {outer} {wall}", ksi(endless(outer, wall, 205e9, 0.3)), 4)
say("buckling endless 3.0 0.083 at 29 Mpsi and 0.29", ksi(endless(3.0, 0.083, 29e6 * PSI, 0.29)), 4)


# ---- weld

def dabs(torque, leg, radius, count=100000):
    """A ring of dabs, each pushing along the ring with the same stress: what stress balances the torque?"""
    each = 0.707 * leg * radius * 2 * sin(pi / count)
    return torque / sum(each * radius for _ in range(count))


say("weld psi 0.1875 1.5 at 2000 lbf ft", dabs(2000 * 12, 0.1875, 1.5), 5)
say("weld Ju 4", sum(16 * (2 * 4 * sin(pi / 100000)) for _ in range(100000)), 6)


# ---- torque and speeds

# At the slip, what the tyres do in a mile is 0.95 of what the shaft does in it.
for pounds, radius, axle in [(3000, 13.5, 3.73), (2200, 12.6, 3.08)]:
    work = 0.71 * pounds * 5280
    turns = 5280 * 12 / (2 * pi * radius) * axle
    say(f"slip lbf ft {pounds} {radius} {axle}", work / 0.95 / (2 * pi * turns))


# ---- tyres

def rolled(diameter, sides=200000):
    """A wheel of many flat sides, laid down side by side: turns a mile."""
    return 1609344 / (sides * diameter * sin(pi / sides))


for name, width, aspect, rim in [("205/55R16", 205, 55, 16), ("245/75R16", 245, 75, 16)]:
    # Rim, and a side above it and below it.
    high = rim * 25.4 + sum(width * aspect / 100 for _ in ("above", "below"))
    say(f"tyre mm {name}", high)
    say(f"tyre a mile {name}", rolled(high))
    say(f"tyre a mile at 0.97 {name}", rolled(high) / 0.97)
    # At 60 mph, which is a mile a minute, with an axle of 3.73.
    say(f"shaft rpm {name} 60 mph 3.73 at 0.97", rolled(high) / 0.97 * 3.73)
