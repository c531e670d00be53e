"""Section 4: chord, planes that stand or turn, rounding."""

import collections
import math

import numpy as np

from .motion import Motion, PIECES
from .refusal import Refused, require
from .text import MAX_KEPT, vector

SLACK = 2e-6
ROUND = 2.0 ** -43
CHUNK = 4000  # leaves whose motion is worked out together


def chord(f0, f1, k):
    """The least of a function with these ends and |f''| D² <= k."""
    lower = np.minimum(f0, f1)
    d = f1 - f0
    sag = (f0 + f1) / 2 - k / 8 - d * d / (2 * k)
    return np.where(2 * np.abs(d) >= k, lower, sag)


def unit(word):
    n = vector(word)
    size = math.sqrt(float(n @ n))
    require(size > 1e-9, "a normal of no length")
    return n / size


Leaf = collections.namedtuple("Leaf", "line kind a b s0 s1 touched n0 n1")


class Evaluator:
    """Bounds of the leaves of one claim, some at a time."""

    def __init__(self, claim, verifier):
        self.claim, self.v = claim, verifier
        self.c, self.step = claim.carrier, claim.step
        self.rests = verifier.rests_in(self.c, self.step)
        self.pending = []
        self.most = max(1, min(CHUNK, MAX_KEPT // (128 * max(1, len(self.c.bodies)))))

    def add(self, leaf):
        self.pending.append(leaf)
        if len(self.pending) >= self.most:
            self.flush()

    def flush(self):
        if not self.pending:
            return
        ends = sorted({s for f in self.pending for s in (f.s0, f.s1)})
        spans = sorted({(f.s0, f.s1) for f in self.pending})
        self.index = {s: i for i, s in enumerate(ends)}
        self.span = {s: i for i, s in enumerate(spans)}
        self.v.keep(len(self.c.bodies) * (len(ends) * 16 + len(spans) * 4 * PIECES))
        self.motion = Motion(self.c, self.step, self.rests, np.array(ends), np.array(spans))
        for f in self.pending:
            try:
                self._leaf(f)
            except Refused as refusal:
                if refusal.line is None:
                    refusal.line, refusal.claim = f.line, self.claim.words
                raise
        self.pending = []

    def _leaf(self, f):
        self.i0, self.i1, self.k = self.index[f.s0], self.index[f.s1], self.span[(f.s0, f.s1)]
        self.dd = (f.s1 - f.s0) ** 2
        frame = -1
        if self.claim.is_self:
            frame = self.c.common(sorted({self.c.part_body[p] for p in f.a + f.b}))
        self.v.matrix(f.a, f.b)
        a, b = self._side(f.a, frame, True), self._side(f.b, frame, self.claim.is_self)
        asked = self.claim.asked(f)
        exempt = self.claim.exempt(f.a, f.b) if self.claim.is_self else None
        one = len(f.a) == 1 and len(f.b) == 1
        if f.kind == "W":
            bound = self._turning(f, a[0], b[0])
        elif one and a[0].moves and b[0].moves:
            bound = self._both(f, a[0], b[0])
        else:
            low_a, low_b = self._lows(a, len(f.a), -f.n0), self._lows(b, len(f.b), f.n0)
            bound = low_a[:, None] + low_b[None, :] - self._rounding(a, b, len(f.a), len(f.b))
        margin = bound - (asked - SLACK)
        if exempt is not None:
            margin = np.where(exempt, np.inf, margin)
        if not np.all(margin >= 0):
            i, j = np.unravel_index(int(np.argmin(np.where(np.isnan(margin), -np.inf, margin))), margin.shape)
            second = "part" if self.claim.is_self else "solid"
            got = np.broadcast_to(bound, margin.shape)[i, j]
            want = np.broadcast_to(asked, margin.shape)[i, j]
            raise Refused(f"{f.kind}: part {f.a[i]} and {second} {f.b[j]}: {got:.9g} m is shown, {want:.9g} m is asked")
        if self.v.observe is not None:
            self.v.observe(self.claim, f, float(margin.min()))

    def points(self, one, other, s):
        """The vertices of a pair at one moment, in a common frame, and E."""
        self.v.keep(len(self.c.bodies) * (16 + 4 * PIECES))
        self.motion = Motion(self.c, self.step, self.rests, np.array([s]), np.array([[s, s]]))
        self.i0 = self.i1 = self.k = 0
        own = self.claim.is_self
        frame = self.c.common(sorted({self.c.part_body[p] for p in (one, other)})) if own else -1
        a, b = self._side((one,), frame, True)[0], self._side((other,), frame, own)[0]
        return (a.at_start(), b.at_start()), float(self._rounding([a], [b], 1, 1)[0, 0])

    def _side(self, ids, frame, parts):
        """One entry for each body of the set."""
        if not parts:
            return [Group(None, None, ids, np.arange(len(ids)), self.claim.place.hulls, self)]
        if len(ids) == 1:
            return [self._group(frame, self.c.part_body[ids[0]], ids, np.zeros(1, int))]
        ids_ = np.array(ids)
        bodies = self.c.body_of[ids_]
        return [self._group(frame, b, ids_[bodies == b], np.flatnonzero(bodies == b)) for b in sorted(set(bodies.tolist()))]

    def _group(self, frame, body, ids, where):
        return Group(self.motion.view(frame, body), body, ids, where, self.c.hulls, self)

    def _lows(self, groups, count, n):
        out = np.empty(count)
        for g in groups:
            out[g.where] = g.lows(n)
        return out

    def _rounding(self, a, b, na, nb):
        ra, ea, ja = self._spread(a, na)
        rb, eb, jb = self._spread(b, nb)
        joints = 1 + ja[:, None] + jb[None, :]
        return ROUND * joints * (ra[:, None] + rb[None, :]) + ea[:, None] + eb[None, :]

    @staticmethod
    def _spread(groups, count):
        r, e, j = np.empty(count), np.empty(count), np.empty(count)
        for g in groups:
            r[g.where], e[g.where], j[g.where] = g.rounding()
        return r, e, j

    def _both(self, f, a, b):
        v0, v1, kv = a.along(f.n0)
        w0, w1, kw = b.along(f.n0)
        self.v.spend(len(v0) * len(w0))
        low = chord(w0[None, :] - v0[:, None], w1[None, :] - v1[:, None], (kv + 0 * v0)[:, None] + (kw + 0 * w0)[None, :])
        return low.min() - self._rounding([a], [b], 1, 1)

    def _turning(self, f, a, b):
        h = float(np.linalg.norm(f.n0 + f.n1)) / 2
        require(h > 0.5, "W: turns too far")
        v0, v1, kv = a.places()
        w0, w1, kw = b.places()
        self.v.spend(len(v0) * len(w0))
        u0, u1 = w0[None] - v0[:, None], w1[None] - v1[:, None]
        k = (kv + np.zeros(len(v0)))[:, None] + (kw + np.zeros(len(w0)))[None, :]
        sway = np.linalg.norm(u1 - u0, axis=2)
        turn = float(np.linalg.norm(f.n1 - f.n0))
        low = chord(u0 @ f.n0, u1 @ f.n1, k + 2 * turn * (sway + k / 2)).min() - 2 * self._rounding([a], [b], 1, 1)
        return np.where(low < 0, low / h, low)


class Group:
    """Hulls of one body (or of the ground) in a leaf."""

    __slots__ = ("view", "body", "ids", "where", "hulls", "ev", "moves")

    def __init__(self, view, body, ids, where, hulls, ev):
        self.view, self.body, self.ids, self.where, self.hulls, self.ev = view, body, ids, where, hulls, ev
        self.moves = view is not None and view.moves

    def _selected(self):
        """The vertices looked at (slice or indices) and where each hull begins."""
        h = self.hulls
        if len(self.ids) == 1:
            return h.slice(self.ids[0]), None
        ids = np.asarray(self.ids)
        sizes = h.start[ids + 1] - h.start[ids]
        begins = np.concatenate([[0], np.cumsum(sizes)[:-1]])
        return np.repeat(h.start[ids] - begins, sizes) + np.arange(sizes.sum()), begins

    def lows(self, n):
        which, begins = self._selected()
        f0, f1, k = self._values(n, which)
        low = np.minimum(f0, f1) if isinstance(k, float) else chord(f0, f1, k)
        return low.min() if begins is None else np.minimum.reduceat(low, begins)

    def along(self, n):
        return self._values(n, self._selected()[0])

    def _values(self, n, which):
        """n.v at both ends, and K D² (0.0 where there is none)."""
        x = self.hulls.x[which]
        self.ev.v.spend(len(x))
        if self.view is None:
            f = x @ n
            return f, f, 0.0
        v, ev = self.view, self.ev
        f0 = x @ (n @ v.r[ev.i0]) + float(n @ v.t[ev.i0])
        f1 = x @ (n @ v.r[ev.i1]) + float(n @ v.t[ev.i1])
        share = 1.0 if v.axis is None else float(np.linalg.norm(np.cross(n, v.axis)))
        return f0, f1, self._bend(which, share)

    def _bend(self, which, share):
        v, ev = self.view, self.ev
        a, w = v.a[ev.k], v.w[ev.k]
        if a == 0 and w == 0:
            return 0.0
        rho = 0.0 if v.rho is None else v.rho[which]
        return (a + w * rho * share) * ev.dd + np.zeros(len(self.hulls.x[which]))

    def places(self):
        """The vertices at both ends, and K D² with the whole share."""
        which, _ = self._selected()
        x = self.hulls.x[which]
        if self.view is None:
            return x, x, 0.0
        v, ev = self.view, self.ev
        return (x @ v.r[ev.i0].T + v.t[ev.i0], x @ v.r[ev.i1].T + v.t[ev.i1], self._bend(which, 1.0))

    def at_start(self):
        x = self.hulls.x[self._selected()[0]]
        return x if self.view is None else x @ self.view.r[self.ev.i0].T + self.view.t[self.ev.i0]

    def rounding(self):
        far = self.hulls.far[np.asarray(self.ids)]
        if self.view is None:
            return far, 0.0, 0.0
        v, ev = self.view, self.ev
        r = far + 2 * max(v.size[ev.i0], v.size[ev.i1]) + v.reach[ev.k]
        turned, slid = (max(w[ev.i0], w[ev.i1]) for w in v.width)
        return r, r * turned + slid, float(v.joints)
