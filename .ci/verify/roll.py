"""Carry and tip: the carrier's frame placed as a whole (section 3), how fast it moves (section 4)."""
import math

import numpy as np

from interval import Iv
from text import Refused

E45 = 2.0 ** -45


def check(roll):
    kind, w = roll
    {"carry": _check_carry, "tip": _check_tip}[kind](w)


def _check_carry(w):
    c = Carry(w)
    if not c.base >= 0.1 or not c.wide >= 0.1:
        raise Refused(f"carry: BASE {c.base} or the way between the two A, {c.wide}, is below 0.1")
    for slope in (c.low_slope, c.high_slope):
        if not math.hypot(*slope) <= 0.5:
            raise Refused(f"carry: slope {slope} is longer than 0.5")
    if not math.hypot(*c.w) <= 1:
        raise Refused("carry: |w| > 1")
    for s in (0.0, 1.0):
        m = c.m0 + s * c.m1
        if not float(np.linalg.norm(m)) < 0.9:
            raise Refused(f"carry: |m| is {np.linalg.norm(m)} at an end")
    for ahead in c.facing(np.array([0.0, 1.0]))[0][:, 0]:
        if not ahead >= 0.3:
            raise Refused(f"carry: e_u is {ahead} at an end")


def _check_tip(w):
    for pitch in w[7:9]:
        if not abs(pitch) < 0.9:
            raise Refused(f"tip: pitch {pitch}")


def make(roll):
    if roll is None:
        return None
    return {"carry": Carry, "tip": Tip}[roll[0]](roll[1])


def about_z(a):
    """Stack of turns about z."""
    c, s, o = np.cos(a), np.sin(a), np.zeros_like(a)
    return np.stack([np.stack([c, -s, o], -1), np.stack([s, c, o], -1), np.stack([o, o, o + 1], -1)], -2)


def about_y(a):
    """Stack of turns about y, right hand: x goes down."""
    c, s, o = np.cos(a), np.sin(a), np.zeros_like(a)
    return np.stack([np.stack([c, o, s], -1), np.stack([o, o + 1, o], -1), np.stack([-s, o, c], -1)], -2)


def norm(v):
    return math.sqrt(sum(x * x for x in v))


class Motion:
    """How a placed frame moves on pieces: om, al, a (arrays), c, axis in the carrier and in the ground."""

    def __init__(self, a, om, al, c, axis, axis_ground, exact, mixed):
        self.a, self.om, self.al = a, om, al
        self.c, self.axis, self.axis_ground, self.exact, self.mixed = c, axis, axis_ground, exact, mixed


class Level:
    """What carry and tip share: the level frame, and turns by yaw and pitch in it."""

    def place(self, yaw, pitch, point, at):
        """Poses in the ground of a frame that faces yaw, pitch with its point at `at` (level)."""
        turn = about_z(yaw) @ about_y(-pitch)
        tilt = about_y(np.array(self.tilt))
        shift = at - turn @ np.array(point)
        return tilt @ turn, shift @ tilt.T + np.array(self.origin)

    def turning(self, a, yaws, pitches, c, pitch_now, yaw_now):
        """yaws, pitches: (|q'|, |q''|) or None where that one rests."""
        tilt = about_y(np.array(self.tilt))
        if yaws is not None and pitches is not None:
            om = np.hypot(yaws[0], pitches[0])
            al = np.sqrt(yaws[1] ** 2 + pitches[1] ** 2 + (yaws[0] * pitches[0]) ** 2)
            return Motion(a, om, al, c, None, None, False, True)
        if yaws is not None:
            axis = np.array([math.sin(pitch_now), 0.0, math.cos(pitch_now)])
            return Motion(a, yaws[0], yaws[1], c, axis, tilt @ np.array([0.0, 0.0, 1.0]), pitch_now == 0, False)
        own = np.array([math.sin(yaw_now), -math.cos(yaw_now), 0.0])
        return Motion(a, pitches[0], pitches[1], c, np.array([0.0, -1.0, 0.0]), tilt @ own, True, False)


class Tip(Level):
    joints = 2

    def __init__(self, w):
        self.origin, self.tilt, self.pivot, self.start, self.stop = w[:5]
        self.yaw, self.pitch = w[5:7], w[7:9]

    def rest(self):
        return self.yaw[0] == self.yaw[1] and self.pitch[0] == self.pitch[1]

    def pose(self, s):
        yaw = self.yaw[0] + s * (self.yaw[1] - self.yaw[0])
        pitch = self.pitch[0] + s * (self.pitch[1] - self.pitch[0])
        a, b = np.array(self.start), np.array(self.stop)
        return self.place(yaw, pitch, self.pivot, a + s[:, None] * (b - a))

    def motion(self, lo, hi):
        z = np.zeros(len(lo))
        rates = []
        for p, q in (self.yaw, self.pitch):
            rates.append(None if p == q else (z + abs(q - p), z))
        return self.turning(z, rates[0], rates[1], np.array(self.pivot), self.pitch[0], self.yaw[0])

    def error(self):
        return norm(self.pivot) + norm(self.origin) + max(norm(self.start), norm(self.stop)), 0.0


class Carry(Level):
    joints = 3

    def __init__(self, w):
        (self.origin, self.tilt, self.guide, self.base, self.at1, self.head1, self.f, self.t,
         self.at2, self.head2, self.low, plane_l, self.high, plane_h) = w
        self.low_slope, self.low_h = np.array(plane_l[:2]), plane_l[2]
        self.high_slope, self.high_h = np.array(plane_h[:2]), plane_h[2]
        self.wide = self.high - self.low
        if not self.base >= 0.1 or not self.wide >= 0.1:
            raise Refused(f"carry: BASE {self.base} or the way between the two A, {self.wide}, is below 0.1")
        self._line()
        self._guide()

    def _line(self):
        c, s = math.cos(self.head2), math.sin(self.head2)
        self.u, self.n = np.array([c, s]), np.array([-s, c])
        self.w = (self.high * self.high_slope - self.low * self.low_slope) / self.wide
        self.alpha, self.beta = float(self.w @ self.u), float(self.w @ self.n)
        self.k = np.array([1, 0, self.alpha]) / math.sqrt(1 + self.alpha ** 2)

    def _guide(self):
        """m = m0 + s m1, both derived so that what is equal in the file gives an exact zero."""
        ahead = np.array([math.cos(self.head1), math.sin(self.head1)])
        at1, at2 = np.array(self.at1[:2]), np.array(self.at2[:2])
        self.p0, self.p1 = at1 + self.f * ahead, (self.t - self.f) * ahead
        slope = self.low_slope - self.high_slope
        r1, r1s = float(self.n @ (at2 - self.p0)) / self.base, -float(self.n @ self.p1) / self.base
        if self.head1 == self.head2:
            r1, r1s = float(self.n @ (at2 - at1)) / self.base, 0.0
        lift = self.low_h - self.high_h
        r2, r2s = (lift + float(slope @ self.p0)) / self.wide, float(slope @ self.p1) / self.wide
        if not slope.any():
            r2, r2s = lift / self.wide, 0.0
        under = 1 + self.alpha ** 2
        x, xs = (r2 - self.beta * r1) / under, (r2s - self.beta * r1s) / under
        self.m0 = np.array([self.alpha * x, r1, -x])
        self.m1 = np.array([self.alpha * xs, r1s, -xs])
        self.straight = r1 == 0 and r1s == 0 and self.head1 == self.head2
        self.even = xs == 0 and self.alpha == 0

    def rest(self):
        return not self.m1.any()

    def facing(self, s):
        m = self.m0 + s[:, None] * self.m1
        e = m + self.k * np.sqrt(1 - np.sum(m * m, -1))[:, None]
        yaw = self.head2 + np.arctan2(e[:, 1], e[:, 0])
        return e, yaw, np.arctan2(e[:, 2], np.hypot(e[:, 0], e[:, 1]))

    def pose(self, s):
        e, yaw, pitch = self.facing(s)
        p = self.p0 + s[:, None] * self.p1
        plan = e[:, :1] * self.u + e[:, 1:2] * self.n
        height = self.low_h + (p + self.low * plan) @ self.low_slope - self.low * e[:, 2]
        return self.place(yaw, pitch, self.guide, np.column_stack([p, height]))

    def motion(self, lo, hi):
        z = np.zeros(len(lo))
        c = np.array(self.guide)
        if self.rest():
            return Motion(z, z, z, c, None, None, False, False)
        e, e1, e2 = self._ahead(lo, hi)
        slope = (float(self.low_slope @ self.u), float(self.low_slope @ self.n))
        lift = (e2[0] * slope[0] + e2[1] * slope[1] - e2[2]) * self.low
        yaws = None if self.straight else self._yaw(e, e1, e2)
        pitches = None if self.even else self._pitch(e, e1, e2)
        _, yaw, pitch = self.facing(np.zeros(1))
        return self.turning(lift.mag(), yaws, pitches, c, float(pitch[0]), float(yaw[0]))

    def _ahead(self, lo, hi):
        """e, e', e'' in the axes u, n, z, each a list of three intervals."""
        s = Iv(lo, hi)
        m = [s * float(b) + float(a) for a, b in zip(self.m0, self.m1)]
        m2 = m[0].sq() + m[1].sq() + m[2].sq()
        speed2 = float(self.m1 @ self.m1) * (1 + 1e-15)
        along = m[0] * float(self.m1[0]) + m[1] * float(self.m1[1]) + m[2] * float(self.m1[2])
        l = (Iv(1.0) - m2).sqrt()
        l1 = -along / l
        l2 = -(l1.sq() + speed2) / l
        e = [m[i] + l * float(self.k[i]) for i in range(3)]
        e1 = [l1 * float(self.k[i]) + float(self.m1[i]) for i in range(3)]
        return e, e1, [l2 * float(self.k[i]) for i in range(3)]

    def _yaw(self, e, e1, e2):
        size = e[0].sq() + e[1].sq()
        q1 = (e[0] * e1[1] - e[1] * e1[0]) / size
        dot = e[0] * e1[0] + e[1] * e1[1]
        q2 = (e[0] * e2[1] - e[1] * e2[0] - dot * q1 * 2.0) / size
        return q1.mag(), q2.mag()

    def _pitch(self, e, e1, e2):
        level = (e[0].sq() + e[1].sq()).sqrt()
        q1 = e1[2] / level
        q2 = (e2[2] + q1.sq() * e[2]) / level
        return q1.mag(), q2.mag()

    def error(self):
        ends = [self.p0, self.p0 + self.p1]
        p = max(norm(x) for x in ends)
        at1, at2 = math.hypot(*self.at1[:2]), math.hypot(*self.at2[:2])
        f = norm(self.guide) + norm(self.origin) + at1 + sum(map(abs, (self.f, self.t, self.low, self.high, self.low_h)))
        u = E45 * (1 + (at2 + p) / self.base + (abs(self.low_h) + abs(self.high_h) + p) / self.wide)
        return f, u
