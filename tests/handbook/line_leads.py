"""How far shaft and pinion are ahead of the gearbox, for lines in space, place by place over a turn.

Plain python3, no package. Run from the repository's top level:

    python3 tests/handbook/line_leads.py > tests/handbook/line_leads.txt

Each place is found by turning a yoke until the cross's right angle is met (joints.py); no formula of a
joint is used. A line begins with its three slopes, each with its plan angle, and the phase, in degrees;
under it stand places of the gearbox's yoke, degrees clockwise seen from the rear from its upright
(joints.py), and the leads of the shaft and of the pinion there less those at the first place, in radians.
"""

import sys

sys.dont_write_bytecode = True
from joints import Line, degrees, radians

PHASES = [0, 2, -2, 5, 37, 90, -5, 88.5, -61]
# Level, one sided, both ways, up to where a joint bends by 30°.
LEANINGS = [
    [(0, 0), (3, 0), (0, 0)], [(3, 0), (0, 0), (-3, 0)], [(0, 0), (0, 3), (0, 0)], [(2, 0), (7, 0), (3.5, 0)],
    [(4, 0.5), (7, -1), (2, 1.5)], [(4, 0), (4, 0), (4, 0)], [(3, 0), (3, 0), (1, 0)], [(3, 0), (6, 2), (6, 2)],
    [(0, 0), (30, 0), (0, 0)], [(-12, 0), (15, 0), (-10, 0)], [(0, -14), (0, 15), (2, -9)],
    [(10, 10), (-8, -7), (6, 11)], [(3, 1), (12, -4), (-9, 5)], [(-2, 0.5), (-9, 3), (1, -6)],
    [(0.5, 0), (0, 0.5), (-0.5, 0)], [(20, 0), (0, 20), (20, 0)], [(5, 0), (9, 0), (5, 4)],
]
# Three phases to each leaning, another three to the next.
LINES = [(*three, PHASES[(3 * i + k) % len(PHASES)]) for i, three in enumerate(LEANINGS) for k in range(3)]
PLACES = [round(15.3 * k, 1) for k in range(24)]


def main():
    for gearbox, shaft, pinion, phase in LINES:
        line = Line(gearbox, shaft, pinion, phase)
        assert all(degrees(bend) < 30.1 for bend in line.bends)
        print("line", *gearbox, *shaft, *pinion, phase)
        first = line.leads(line.zero + radians(PLACES[0]))
        for place in PLACES:
            # Nothing and a last bit below it are printed alike.
            leads = line.leads(line.zero + radians(place))
            print(place, *(f"{round(a - b, 16) or 0:.16f}" for a, b in zip(leads, first)))


if __name__ == "__main__":
    main()
