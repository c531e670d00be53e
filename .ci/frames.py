#!/usr/bin/python3
"""Hold how a proof places a carrier that rolls against the definitions.

    .ci/frames.py PROOF...

place() says where a `carry` or `tip` record of clearance/proof/FORMAT.md
puts a point of the carrier. It was written from that page alone by somebody else than
who wrote the verifiers, and finds the direction of a `carry` not by the page's closed
form but by Newton's method from what defines it: the base point on its line, two
points in their planes, length one. Every such record of the proofs given is placed
both ways, and the second verifier's bounds on curvature are held against second
differences of these places. Exit 1 if any differs. Needs numpy for the verifier.
"""

import math
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "verify"))

S = (0.0, 0.3, 0.7, 1.0)
KINDS = {"carry": "vnvnvnnnvnnvnv", "tip": "vnvvvnnnn"}


def vec(text):
    return tuple(float(c) for c in text.split(","))


def parse(record):
    kind, *words = record.split()
    return kind, [vec(x) if c == "v" else float(x) for c, x in zip(KINDS[kind], words, strict=True)]


def turn_y(p, a):
    c, s = math.cos(a), math.sin(a)
    return (c * p[0] + s * p[2], p[1], -s * p[0] + c * p[2])


def turn_z(p, a):
    c, s = math.cos(a), math.sin(a)
    return (c * p[0] - s * p[1], s * p[0] + c * p[1], p[2])


def add(p, q):
    return tuple(a + b for a, b in zip(p, q))


def sub(p, q):
    return tuple(a - b for a, b in zip(p, q))


def lerp(a, b, s):
    return a + s * (b - a)


def vlerp(a, b, s):
    return tuple(lerp(x, y, s) for x, y in zip(a, b))


def solve(rows, right):
    """The solution of a small linear system, by elimination."""
    n = len(right)
    m = [list(r) + [v] for r, v in zip(rows, right)]
    for i in range(n):
        k = max(range(i, n), key=lambda r: abs(m[r][i]))
        m[i], m[k] = m[k], m[i]
        for r in range(i + 1, n):
            f = m[r][i] / m[i][i]
            m[r] = [x - f * y for x, y in zip(m[r], m[i])]
    x = [0.0] * n
    for i in reversed(range(n)):
        x[i] = (m[i][n] - sum(m[i][j] * x[j] for j in range(i + 1, n))) / m[i][i]
    return x


def guide_at(f, s):
    at, heading, start, end = f[4:8]
    d = lerp(start, end, s)
    return at[0] + d * math.cos(heading), at[1] + d * math.sin(heading)


def direction(f, s):
    """The carrier's x and the height of GUIDE, in the level frame, of a carry."""
    base, at2, heading, low, plane_low, high, plane_high = f[3], *f[8:]
    px, py = guide_at(f, s)
    nx, ny = -math.sin(heading), math.cos(heading)
    slope = [(plane_low[i] + plane_high[i]) / 2 for i in (0, 1)]
    up = slope[0] * math.cos(heading) + slope[1] * math.sin(heading)
    c = 1 / math.sqrt(1 + up * up)
    v = [c * math.cos(heading), c * math.sin(heading), c * up, plane_low[2]]
    for _ in range(60):
        ex, ey, ez, z = v
        residual = [nx * (px + base * ex - at2[0]) + ny * (py + base * ey - at2[1])]
        rows = [[nx * base, ny * base, 0, 0]]
        for ahead, (a, b, h) in ((low, plane_low), (high, plane_high)):
            residual.append(z + ahead * ez - h - a * (px + ahead * ex) - b * (py + ahead * ey))
            rows.append([-a * ahead, -b * ahead, ahead, 1])
        residual.append(ex * ex + ey * ey + ez * ez - 1)
        rows.append([2 * ex, 2 * ey, 2 * ez, 0])
        step = solve(rows, residual)
        v = [a - b for a, b in zip(v, step)]
        if max(map(abs, step)) < 1e-13 * max(1, abs(v[3])):
            return v[:3], v[3]
    raise ArithmeticError("Newton's method does not settle")


def place(record, s, point):
    """Where a point of the carrier goes at s."""
    kind, f = parse(record)
    if kind == "carry":
        e, z = direction(f, s)
        to = (*guide_at(f, s), z)
        yaw, pitch = math.atan2(e[1], e[0]), math.atan2(e[2], math.hypot(e[0], e[1]))
    else:
        to, yaw, pitch = vlerp(f[3], f[4], s), lerp(f[5], f[6], s), lerp(f[7], f[8], s)
    faced = turn_z(turn_y(sub(point, f[2]), -pitch), yaw)
    return add(f[0], turn_y(add(to, faced), f[1]))


def check(record, rolling):
    """The most that both ways differ by, and the largest share of a bound that is used."""
    import numpy as np

    frame = rolling.make(parse(record))
    differ, used, h = 0.0, 0.0, 1e-2
    for point in ((0.0, 0.0, 0.0), (9.3, 1.5, 2.4), (-1.0, -1.6, 0.1), (4.0, 0.0, 3.0)):
        for s in S:
            r, t = frame.pose(np.array([s]))
            differ = max(differ, math.dist(r[0] @ np.array(point) + t[0], place(record, s, point)))
        for s in (0.1, 0.5, 0.9):
            p = [np.array(place(record, s + d, point)) for d in (-h, 0, h)]
            bend = float(np.linalg.norm(p[0] - 2 * p[1] + p[2])) / (h * h)
            used = max(used, bend / (curvature(frame, s - h, s + h, point) + 1e-9))  # 1e-13 m of rounding over h²
    return differ, used


def curvature(frame, s0, s1, point):
    """The verifier's bound on |p''| of a point of the frame over an interval."""
    import numpy as np

    if frame.rest():
        return 0.0
    m = frame.motion(np.array([s0]), np.array([s1]))
    arm = np.array(point) - m.c
    if m.axis is not None:
        arm = np.cross(arm, m.axis)
    return float(m.a[0] + (m.om[0] ** 2 + m.al[0]) * np.linalg.norm(arm))


def main(names):
    import roll

    records = set()
    for name in names:
        with open(name, encoding="utf-8") as file:
            records |= {line.strip() for line in file if line.split(" ", 1)[0] in KINDS}
    differ = used = 0.0
    for record in sorted(records):
        d, u = check(record, roll)
        if d > 1e-11 or u > 1:
            print(f"{record}: places differ by {d:.3g} m, {u:.3f} of the bound on curvature is used")
        differ, used = max(differ, d), max(used, u)
    print(f"{len(records)} records of rolling frames: places differ by {differ:.2g} m at most, {used:.3f} of a bound on curvature is used")
    return 0 if records and differ <= 1e-11 and used <= 1 else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
