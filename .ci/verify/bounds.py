"""What a plane shows: chord bound, planes, turning planes, rounding and the slack (section 4)."""
import math

import numpy as np

from joints import hat
from text import Refused

ULPS = 2.0 ** -43
SLACK = 2e-6


def chord(f0, f1, kdd):
    """The least of a function over an interval that bends by at most kdd."""
    gap = np.abs(f1 - f0)
    bent = 2 * gap < kdd
    dip = (f0 + f1) / 2 - kdd / 8 - gap * gap / (2 * np.where(bent, kdd, 1))
    # not bent, and also where kdd is no number: that must come out as no number
    low = np.where(bent, dip, np.minimum(f0, f1))
    return np.where(np.isnan(kdd), -np.inf, low)


def unit(n):
    size = math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2])
    if not size > 1e-9:
        raise Refused(f"the normal has length {size}")
    return np.array(n) / size


class Stack:
    """Vertex lists one behind the other, with where each begins."""

    def __init__(self, lists):
        self.sizes = [len(v) for v in lists]
        self.counts = np.array(self.sizes, int)
        self.starts = np.concatenate([[0], np.cumsum(self.counts)])
        self.points = np.array([v for vs in lists for v in vs], float).reshape(-1, 3)
        self.ranges = [np.arange(a, b) for a, b in zip(self.starts[:-1], self.starts[1:])]
        size = np.sqrt(np.sum(self.points ** 2, -1))
        self.far = np.array([size[r].max() for r in self.ranges])

    def rows(self, ids):
        """Where the vertices of ids stand, and where in those each id begins."""
        if len(ids) == 1:
            return slice(self.starts[ids[0]], self.starts[ids[0] + 1]), (0,)
        starts = np.concatenate([[0], np.cumsum(self.counts[ids])[:-1]])
        return np.concatenate([self.ranges[i] for i in ids]), starts


class Still:
    """Solids: they stand, so nothing bends, nothing rounds but the vertex itself."""

    def __init__(self, stack):
        self.stack = stack

    def ends(self, n0, n1, ids):
        rows, starts = self.stack.rows(ids)
        f = self.stack.points[rows]
        return f @ n0, f @ n1, np.zeros(len(f)), starts

    def far(self, ids):
        """joints, R, e of each id."""
        return np.zeros(len(ids)), self.stack.far[ids], np.zeros(len(ids))


class Moving:
    """Parts of a carrier seen from a frame over the intervals of one Motion."""

    def __init__(self, motion, frame, stack, part_body):
        self.motion, self.frame, self.stack = motion, frame, stack
        self.part_body = part_body
        self.vertex_body = np.repeat(part_body, stack.counts)
        self.bodies = [b for b in sorted(set(part_body.tolist())) if self._under(b)]
        self.at, self.ready = {}, False

    def _under(self, b):
        return self.frame == -1 or bool(self.motion.chain.masks[b] >> self.frame & 1)

    def prepare(self):
        """Per body rows of a, om²+al and the axis, per vertex rho, per body the error terms."""
        if self.ready:
            return
        m, n = self.motion, len(self.motion.chain.bodies)
        size = len(m.i0)
        m.budget.keep(len(self.stack.points) + 7 * n * size)
        self.a, self.turn = np.zeros((n, size)), np.zeros((n, size))
        self.axes, self.mixed = np.zeros((n, 3, 3)), np.zeros(n)
        self.rho = np.zeros(len(self.stack.points))
        self.count, self.reach = np.zeros(n), np.zeros((n, size))
        self.widths, self.slides = np.zeros((n, size)), np.zeros((n, size))
        for b in self.bodies:
            t = m.state(self.frame, b)
            self.a[b], self.turn[b] = t.a, t.speed()
            mine = self.vertex_body == b
            self.rho[mine] = t.rho(self.stack.points[mine])
            self.mixed[b] = t.mixed
            if t.axis_frame is not None:
                self.axes[b] = hat(t.axis_frame)
            self.count[b], self.reach[b], self.widths[b], self.slides[b] = m.error(self.frame, b)
        self.flat_axes = self.axes.reshape(-1, 3)
        self.turns = np.any(self.turn != 0, axis=0)
        self.bends = self.turns | np.any(self.a != 0, axis=0)
        self.ready = True

    def points(self, i):
        """All vertices at point i in the frame."""
        if i not in self.at:
            if len(self.at) * len(self.stack.points) > 1 << 22:
                self.at.clear()
            self.motion.budget.spend(len(self.stack.points))
            self.at[i] = self._place(i)
        return self.at[i]

    def _place(self, i):
        x = np.zeros((len(self.stack.points), 3))
        for b in self.bodies:
            r, t = self.motion.pose(self.frame, b)
            mine = self._mine(b)
            x[mine] = self.stack.points[mine] @ r[i].T + t[i]
        return x

    def stacked(self):
        """R and t of all bodies at all points, as two arrays."""
        if not hasattr(self, "poses"):
            n, m = len(self.motion.chain.bodies), len(self.motion.points)
            self.motion.budget.keep(12 * n * m)
            turns, shifts = np.zeros((n, m, 3, 3)), np.zeros((n, m, 3))
            for b in self.bodies:
                turns[b], shifts[b] = self.motion.pose(self.frame, b)
            self.poses = turns, shifts
        return self.poses

    def _mine(self, b):
        if not hasattr(self, "mine"):
            self.mine = {k: np.nonzero(self.vertex_body == k)[0] for k in self.bodies}
        return self.mine[b]

    def bend(self, k, rows, n):
        """K of the vertices: against a plane of normal n, or (None) of any direction."""
        if not self.bends[k]:
            return 0.0
        a = self.a[:, k]
        bodies = self.vertex_body[rows]
        if not self.turns[k]:
            return a[bodies]
        share = 1.0
        if n is not None:
            y = (self.flat_axes @ n).reshape(-1, 3)
            share = np.sqrt(np.sum(y * y, -1)) + self.mixed
            share = np.minimum(share * (1 + 1e-12), 1.0)
        return a[bodies] + (self.turn[:, k] * share)[bodies] * self.rho[rows]

    def ends(self, k, n0, n1, ids, plane=True):
        """n.x at both ends and K of the vertices of ids over interval k."""
        self.prepare()
        rows, starts = self.stack.rows(ids)
        x0 = self.points(self.motion.i0[k])[rows]
        x1 = self.points(self.motion.i1[k])[rows]
        bend = self.bend(k, rows, n0 if plane else None)
        return x0 @ n0, x1 @ n1, np.zeros(len(x0)) + bend, starts

    def far(self, k, ids):
        b = self.part_body[ids]
        r = self.stack.far[ids] + self.reach[b, k]
        e = r * self.widths[b, k] + self.slides[b, k]
        return self.count[b], r, e


def rounding(a, b):
    """E of every pair of two sides."""
    (ja, ra, ea), (jb, rb, eb) = a, b
    return ULPS * (1 + ja[:, None] + jb) * (ra[:, None] + rb) + ea[:, None] + eb


def least(values, starts):
    return np.minimum.reduceat(values, starts)


def plane_sides(a, b, starts_a, starts_b, dd):
    """Bound for every pair, each side of its own; a, b are (n.x(s0), n.x(s1), K)."""
    low_a = least(chord(-a[0], -a[1], a[2] * dd), starts_a)
    low_b = least(chord(b[0], b[1], b[2] * dd), starts_b)
    return low_a[:, None] + low_b


def plane_pair(a, b, dd):
    """The better bound of one pair where both move."""
    f0, f1 = b[0] - a[0][:, None], b[1] - a[1][:, None]
    return float(np.min(chord(f0, f1, (b[2] + a[2][:, None]) * dd)))


def turning_plane(n0, n1, v, w, dd, e):
    """v, w: (x(s0), x(s1), K) of all vertices of both; a plane that turns from n0 to n1."""
    h = float(np.linalg.norm(n0 + n1)) / 2
    if not h > 0.5:
        raise Refused(f"the plane turns too far: |n0 + n1| / 2 = {h}")
    u0, u1 = w[0] - v[0][:, None], w[1] - v[1][:, None]
    k = (w[2] + v[2][:, None]) * dd
    way = np.sqrt(np.sum((u1 - u0) ** 2, -1))
    bend = k + 2 * float(np.linalg.norm(n1 - n0)) * (way + k / 2)
    low = float(np.min(chord(u0 @ n0, u1 @ n1, bend))) - 2 * e
    return low / h if low < 0 else low
