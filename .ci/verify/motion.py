"""Where bodies stand at the points of a claim, and what bounds them between (sections 3 and 4).

One Motion serves one claim: all its points and intervals at once, each frame and body when first asked for.
"""
import numpy as np

from coordinates import Coordinates
from joints import hat, length
import roll as rolls

PIECES = 8


class Turning:
    """Section 4's c, a, om, al along a chain, over all intervals at once."""

    def __init__(self, n):
        self.a, self.om, self.al = np.zeros(n), np.zeros(n), np.zeros(n)
        self.sums = None                 # signed sums of q', q'': lo, hi each, while axes are equal
        self.c = self.axis = self.axis_frame = None
        self.exact, self.mixed = True, False

    def copy(self):
        t = Turning(0)
        t.__dict__.update(self.__dict__)
        return t

    def rho(self, points):
        """Distance of points (of the body) from the line through c along the axis, or from c."""
        if self.c is None:
            return np.zeros(len(points))
        y = points - self.c
        if not self.mixed:
            y = y @ hat(self.axis).T
        return np.sqrt(np.sum(y * y, -1))

    def speed(self):
        return self.om * self.om + self.al


class Motion:
    def __init__(self, chain, step, budget, points, intervals):
        self.chain, self.step, self.budget = chain, step, budget
        self.placed = rolls.make(step.roll)
        self.points = np.array(points, float)
        self.i0 = np.array([i for i, _ in intervals], int)
        self.i1 = np.array([j for _, j in intervals], int)
        self._cut()
        self.at_points = Coordinates(chain, step, self.points, self.points, False)
        self.between = Coordinates(chain, step, self.lo, self.hi, True)
        self.poses, self.states, self.errors, self.moving = {}, {}, {}, {}

    def _cut(self):
        """Every interval in equal pieces, end to end."""
        a, b = self.points[self.i0], self.points[self.i1]
        t = np.arange(PIECES + 1) / PIECES
        cuts = a[:, None] + (b - a)[:, None] * t
        cuts[:, -1] = b
        self.lo, self.hi = cuts[:, :-1].ravel(), cuts[:, 1:].ravel()

    def _hull(self, x):
        """The least and the greatest over the pieces of every interval."""
        shape = (-1, PIECES)
        return x.lo.reshape(shape).min(-1), x.hi.reshape(shape).max(-1)

    def q_mid(self, b):
        return self.at_points.q(b).v.mid()

    def pose(self, frame, b):
        """R, t at every point: from body b (as raised) to the frame."""
        key = (frame, b)
        if key not in self.poses:
            self.budget.spend(len(self.points) * PIECES)
            self.poses[key] = self._pose(frame, b)
        return self.poses[key]

    def _pose(self, frame, b):
        m = len(self.points)
        if b == frame:
            if b == -1 and self.placed:
                return self.placed.pose(self.points)
            return np.broadcast_to(np.eye(3), (m, 3, 3)), np.zeros((m, 3))
        body = self.chain.bodies[b]
        r, t = self.pose(frame, body.parent)
        if body.kind == "fixed":
            return r, t
        q = self.q_mid(b)
        if body.kind == "slide":
            return r, t + np.einsum("mij,mj->mi", r, q[:, None] * np.array(body.axis))
        turn = rotation(body.axis, q)
        pin = np.array(body.pin)
        return r @ turn, t + np.einsum("mij,mj->mi", r, pin - turn @ pin)

    def state(self, frame, b):
        key = (frame, b)
        if key not in self.states:
            self.budget.spend(len(self.i0) * PIECES)
            with np.errstate(all="ignore"):
                self.states[key] = self._state(frame, b)
        return self.states[key]

    def _state(self, frame, b):
        if b == frame:
            return self._start(b)
        body = self.chain.bodies[b]
        before = self.state(frame, body.parent)
        if body.kind == "fixed":
            return before
        if self.chain.rests(self.step, b):
            return self._at_rest(before, body)
        q = self.between.q(b)
        if body.kind == "slide":
            return self._slide(before, body, q)
        return self._turn(before, body, q, frame)

    def _start(self, b):
        t = Turning(len(self.i0))
        if b == -1 and self.placed and not self.placed.rest():
            m = self.placed.motion(self.lo, self.hi)
            t.a, t.om, t.al = (x.reshape(-1, PIECES).max(-1) for x in (m.a, m.om, m.al))
            t.c, t.axis, t.axis_frame, t.exact, t.mixed = m.c, m.axis, m.axis_ground, m.exact, m.mixed
            t.sums = ((-t.om, t.om), (-t.al, t.al))
        return t

    def _at_rest(self, before, body):
        """Adds nothing, but what hangs on it has c and the axis at other coordinates than as raised."""
        q = float(self.q_mid(body.id)[0])
        if before.c is None or q == 0:
            return before
        t = before.copy()
        if body.kind == "slide":
            t.c = t.c - q * np.array(body.axis)
            return t
        back = rotation(body.axis, np.array([-q]))[0]
        pin = np.array(body.pin)
        t.c = pin + back @ (t.c - pin)
        if not t.mixed and not same_axis(t.axis, body.axis):
            t.axis, t.exact = back @ t.axis, False
        return t

    def _slide(self, before, body, q):
        t = before.copy()
        size = length(body.axis)
        most, speed, gain = (np.maximum(abs(lo), abs(hi)) for lo, hi in map(self._hull, (q.v, q.d, q.dd)))
        t.a = t.a + t.speed() * size * most + 2 * t.om * size * speed + size * gain
        return t

    def _turn(self, before, body, q, frame):
        t = before.copy()
        d, dd = self._hull(q.d), self._hull(q.dd)
        axis = np.array(body.axis)
        if t.c is not None:
            t.a = t.a + t.speed() * t.rho(np.array([body.pin]))[0]
        sign = 0 if t.mixed else 1 if t.c is None else same_axis(t.axis, body.axis) if t.exact else 0
        if sign:
            if t.c is None:
                z = np.zeros(len(self.i0))
                t.sums = ((z, z), (z, z))
                t.axis = axis
                t.axis_frame = self.pose(frame, body.parent)[0][0] @ axis
            t.sums = tuple(add(s, x, sign) for s, x in zip(t.sums, (d, dd)))
            t.om, t.al = (np.maximum(abs(lo), abs(hi)) for lo, hi in t.sums)
        else:
            rate, gain = np.maximum(abs(d[0]), abs(d[1])), np.maximum(abs(dd[0]), abs(dd[1]))
            t.al = t.al + gain + t.om * rate
            t.om = t.om + rate
            t.mixed, t.axis_frame = True, None
        t.c = np.array(body.pin)
        return t

    def error(self, frame, b):
        """Of section 4's rounding: joints, R less the farthest vertex, widths of turns with U, of slides."""
        key = (frame, b)
        if key not in self.errors:
            with np.errstate(all="ignore"):
                count, reach, turns, slides = self._chain_error(frame, b)
            t = np.sqrt(np.sum(self.pose(frame, b)[1] ** 2, -1))
            self.errors[key] = (count, reach + 2 * np.maximum(t[self.i0], t[self.i1]), turns, slides)
        return self.errors[key]

    def _chain_error(self, frame, b):
        key = ("chain", frame, b)
        if key not in self.errors:
            self.errors[key] = self._chain_error_of(frame, b)
        return self.errors[key]

    def _chain_error_of(self, frame, b):
        z = np.zeros(len(self.i0))
        if b == frame:
            if b == -1 and self.placed:
                f, u = self.placed.error()
                return self.placed.joints, z + f, z + u, z
            return 0, z, z, z
        body = self.chain.bodies[b]
        count, reach, turns, slides = self._chain_error(frame, body.parent)
        if body.kind == "fixed":
            return count + 1, reach, turns, slides
        q = self.at_points.q(b)
        width = np.where(self.at_points.bad[b], np.inf, q.v.width())
        width = np.maximum(width[self.i0], width[self.i1])
        width = np.where(self._interval_bad(b), np.inf, width)
        if body.kind == "slide":
            lo, hi = self._hull(self.between.q(b).v)
            size = length(body.axis)
            return count + 1, reach + size * np.maximum(abs(lo), abs(hi)), turns, slides + size * width
        return count + 1, reach + length(body.pin), turns + width, slides

    def _interval_bad(self, b):
        self.between.q(b)
        return self.between.bad[b].reshape(-1, PIECES).any(-1)

    def trouble(self, frame, b, k):
        """The joint on the chain of b that breaks a rule of section 3 in interval k, if any."""
        while b != frame:
            if self.chain.bodies[b].kind != "fixed":
                self.at_points.q(b)
                bad = self.at_points.bad[b]
                if self._interval_bad(b)[k] or bad[self.i0[k]] or bad[self.i1[k]]:
                    return b
            b = self.chain.bodies[b].parent
        return None


def rotation(axis, q):
    """Turns by q (an array) about a unit axis."""
    u = np.array(axis, float)
    along = np.outer(u, u)
    c, s = np.cos(q)[:, None, None], np.sin(q)[:, None, None]
    return along + c * (np.eye(3) - along) + s * hat(u)


def same_axis(a, b):
    """1 or -1 for exactly equal or opposite axes, else 0."""
    a, b = tuple(a), tuple(b)
    if a == b:
        return 1
    return -1 if a == tuple(-x for x in b) else 0


def add(total, x, sign):
    return (total[0] + x[0], total[1] + x[1]) if sign > 0 else (total[0] - x[1], total[1] - x[0])
