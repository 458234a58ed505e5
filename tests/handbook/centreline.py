"""What explains the offsets along two hundred generated shafts, in every set-up.

python3 with numpy and scipy; their versions stand in the output. Run from the repository's top level:

    python3 tests/handbook/centreline.py > tests/handbook/centreline.txt

How it differs from the program: no shape is written down as seen about the joints. Each cause is a body: a
line of the tube's centres and the two joints' centres, with its break, jump, bend or joint off its place; it is
then laid onto the set-up (through its joints' centres, its front one, its centres in the vees, or anyhow), and
scaled so that about the joints it makes an offset of one where it makes most. The fit whitens with the symmetric
root of each covariance (eigenvectors) and solves by singular values (numpy lstsq); uncertainties by the inverse
of the normal matrix, Fisher's and chi-squared's laws by scipy.

Lengths in millimetres. A shaft is its length and weld; then its set-up; its places: z, offset up and right,
covariance up-up, up-right, right-right for unit readings, scatter of a reading and its degrees of freedom. Under
them what follows: scatter of all turns; how often luck sets a straight shaft off as much; each cause alone, or
that nothing shows of it: size up and right, circle, standard, what it leaves, luck, offset where the shaft is
halved; how many pairs explain it, where it is not straight and none alone does, and the best of them (more than
one where the places cannot tell).
"""

from math import inf, sqrt
from random import Random

import numpy
import scipy
from scipy.stats import chi2, f

CAUSES = ["kink", "step", "bow", "front", "rear"]
EXPLAINS = 0.05


class Body:
    """A shaft off its line by one cause: the tube's centres and the joints' centres, in any scale."""

    def __init__(self, cause, length, weld):
        self.cause, self.length, self.weld = cause, length, weld
        self.joints = {"front": (-1.0, 0.0), "rear": (0.0, -1.0)}.get(cause, (self.tube(0), self.tube(length)))
        # About the joints' centres it makes one where it makes most; a step is one high as it stands.
        places = {"kink": weld, "bow": length / 2, "front": 0, "rear": length}
        self.scale = 1 / self.seen(("joints",), places[cause]) if cause in places else 1.0

    def tube(self, z):
        # Within a millimetre of the weld stands the longer piece.
        tube_is_front = self.weld > self.length - self.weld
        behind = not tube_is_front if abs(z - self.weld) < 1 else z > self.weld
        if self.cause == "kink":
            return -max(z - self.weld, 0.0)
        if self.cause == "step":
            return 1.0 if behind else 0.0
        if self.cause == "bow":
            return -z * z
        return 0.0

    def seen(self, axis, z):
        """Offset at z from what the shaft turns about."""
        if axis[0] == "joints":
            ends = [(0.0, self.joints[0]), (self.length, self.joints[1])]
        elif axis[0] == "vees":
            ends = [(vee, self.tube(vee)) for vee in axis[1:]]
        else:
            # The tilt, or all of the line, is left free: any line will do that goes through what is held.
            ends = [(0.0, self.joints[0]), (self.length, self.joints[0])]
        line = numpy.linalg.solve([[1.0, z0] for z0, _ in ends], [height for _, height in ends])
        return self.tube(z) - line[0] - line[1] * z


class Places:
    def __init__(self, length, axis, places):
        self.length, self.axis, self.places = length, axis, places
        self.white = []
        for _, _, _, uu, ur, rr, _, _ in places:
            values, vectors = numpy.linalg.eigh([[uu, ur], [ur, rr]])
            self.white.append(vectors @ numpy.diag(values**-0.5) @ vectors.T)
        known = [(nu, s) for *_, s, nu in places if nu < inf]
        self.nu = sum(nu for nu, _ in known) if known else inf
        squares = sum(nu * s * s for nu, s in known) / self.nu if known else None
        self.square = squares or sum(place[6] ** 2 for place in places) / len(places)

    def free(self):
        return {"joints": [], "vees": [], "front": [1], "free": [0, 1]}[self.axis[0]]

    def fit(self, bodies):
        """Sizes, their covariances, misfit, curve; None where the places do not tell them apart."""
        lines = [lambda z, p=p: (z / self.length) ** p for p in self.free()]
        shapes = lines + [lambda z, b=b: b.scale * b.seen(self.axis, z) for b in bodies]
        n, k = len(self.places), len(shapes)
        matrix, right = numpy.zeros((2 * n, 2 * k)), numpy.zeros(2 * n)
        for i, (place, white) in enumerate(zip(self.places, self.white)):
            right[2 * i : 2 * i + 2] = white @ place[1:3]
            for j, shape in enumerate(shapes):
                matrix[2 * i : 2 * i + 2, 2 * j : 2 * j + 2] = shape(place[0]) * white
        if k == 0:
            return [], [], right @ right, n, lambda z: numpy.zeros(2)
        norms = numpy.linalg.norm(matrix, axis=0)
        if norms.min() < 1e-9 * n or numpy.linalg.matrix_rank(matrix / norms, tol=1e-8) < 2 * k:
            return None
        found = numpy.linalg.lstsq(matrix / norms, right, rcond=None)[0] / norms
        inverse = numpy.linalg.inv(matrix.T @ matrix)
        left = right - matrix @ found
        vectors = found.reshape(k, 2)
        cells = [inverse[2 * j : 2 * j + 2, 2 * j : 2 * j + 2] for j in range(len(lines), k)]
        curve = lambda z: sum(shape(z) * vector for shape, vector in zip(shapes, vectors))
        return vectors[len(lines) :], cells, left @ left, n - k, curve

    def luck(self, misfit, spare):
        if self.nu == inf:
            return chi2.sf(misfit / self.square, 2 * spare)
        return f.sf(misfit / (2 * spare) / self.square, 2 * spare, self.nu)

    def left(self, curve):
        squares = [numpy.sum((numpy.array(p[1:3]) - curve(p[0])) ** 2) for p in self.places]
        return sqrt(sum(squares) / len(squares))

    def known(self, cell):
        standard = sqrt(self.square * numpy.linalg.eigvalsh(cell)[-1])
        factor = sqrt(chi2.ppf(0.95, 2) if self.nu == inf else 2 * f.ppf(0.95, 2, self.nu))
        return standard * factor, standard


def show(*words):
    print(*(word if isinstance(word, (str, int)) else f"{word:.12g}" for word in words))


def answer(length, weld, axis, places):
    bench = Places(length, axis, places)
    bodies = {cause: Body(cause, length, weld) for cause in CAUSES}
    show("scatter", sqrt(bench.square), bench.nu)
    _, _, misfit, spare, _ = bench.fit([])
    straight = bench.luck(misfit, spare)
    show("straight", straight)
    fits = {cause: bench.fit([bodies[cause]]) for cause in CAUSES}
    explained = straight >= EXPLAINS
    for cause, fit in fits.items():
        if fit is None:
            show("cannot", cause)
            continue
        [size], [cell], misfit, spare, curve = fit
        luck = bench.luck(misfit, spare)
        explained |= luck >= EXPLAINS
        show("single", cause, *size, *bench.known(cell), bench.left(curve), luck, *curve(length / 2))
    pairs = []
    told = [cause for cause in CAUSES if fits[cause] is not None]
    if not explained and len(places) > len(bench.free()) + 2:
        for i, one in enumerate(told):
            for other in told[i + 1 :]:
                fit = bench.fit([bodies[one], bodies[other]])
                if fit and bench.luck(fit[2], fit[3]) >= EXPLAINS:
                    pairs.append((one, other, fit))
    show("pairs", len(pairs))
    best = min((fit[2] for *_, fit in pairs), default=0)
    for one, other, (sizes, cells, misfit, spare, curve) in pairs:
        if misfit < best * (1 + 1e-7):
            parts = [number for size, cell in zip(sizes, cells) for number in (*size, *bench.known(cell))]
            show("pair", one, other, *parts, bench.left(curve), bench.luck(misfit, spare), *curve(length / 2))


def shaft(luck, number):
    """A shaft, its set-up and what was read on it, rounded to what is printed."""
    length = round(luck.uniform(500, 2200), 1)
    neck = luck.uniform(40, 140)
    weld = round(luck.choice([neck, length - neck, luck.uniform(0.2, 0.8) * length]), 1)
    vees = sorted(round(luck.uniform(0.02, 0.98) * length, 1) for _ in range(2))
    if vees[1] - vees[0] < 0.2 * length:
        vees = [round(0.1 * length, 1), round(0.85 * length, 1)]
    axis = [("joints",), ("front",), ("vees", *vees), ("free",)][number % 4]
    count = luck.randint(4 if axis[0] == "free" else 3, 12)
    # At times at the weld, a joint or a vee; at times all behind the weld.
    wanted = [weld + 0.4, weld - 0.4, weld, 0.0, length] + vees * 2
    places = [round(luck.choice(wanted), 1)] if luck.random() < 0.3 else []
    first = weld + 5 if luck.random() < 0.2 and weld < 0.6 * length else 0
    while len(places) < count:
        z = round(luck.uniform(first, length), 1)
        if all(abs(z - other) > 3 for other in places):
            places.append(z)
    causes = luck.sample(CAUSES, luck.choice([0, 1, 1, 2, 2]))
    bodies = [Body(cause, length, weld) for cause in causes]
    sizes = [(luck.uniform(-0.3, 0.3), luck.uniform(-0.3, 0.3)) for _ in causes]
    rigid = [(luck.uniform(-3, 3), luck.uniform(-3, 3)) for _ in range(2)]
    powers = {"front": [1], "free": [0, 1]}.get(axis[0], [])
    all_lines, scatter = luck.random() < 0.2, luck.uniform(0.005, 0.04)
    rows = []
    for z in places:
        uu, rr = round(luck.uniform(0.12, 0.6), 4), round(luck.uniform(0.12, 0.6), 4)
        ur = round(luck.uniform(-0.7, 0.7) * sqrt(uu * rr), 4)
        thrown = numpy.linalg.cholesky([[uu, ur], [ur, rr]]) @ [luck.gauss(0, scatter) for _ in range(2)]
        offset = [
            sum(size[side] * body.scale * body.seen(axis, z) for body, size in zip(bodies, sizes))
            + sum(rigid[power][side] * (z / length) ** power for power in powers)
            + thrown[side]
            for side in range(2)
        ]
        nu = inf if all_lines or luck.random() < 0.15 else luck.choice([1, 3, 5, 7])
        s = round(scatter if nu == inf else scatter * sqrt(sum(luck.gauss(0, 1) ** 2 for _ in range(nu)) / nu), 4)
        rows.append((z, round(offset[0], 4), round(offset[1], 4), uu, ur, rr, s, nu))
    return length, weld, axis, rows


def main():
    luck = Random(8)
    print("numpy", numpy.__version__, "scipy", scipy.__version__)
    for number in range(200):
        length, weld, axis, rows = shaft(luck, number)
        show("shaft", length, weld)
        show("axis", *axis)
        for row in rows:
            show("place", *row)
        answer(length, weld, axis, rows)


main()
