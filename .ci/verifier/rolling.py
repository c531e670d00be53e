"""Sections 3 and 4: what steer, carry and tip do with a carrier's frame."""

import math

import numpy as np

from .interval import Iv, Jet, dot
from .joints import Y, Z, rotations
from .refusal import require
from .text import number, vector


def in_plan(v):
    return np.array([v[0], v[1], 0.0])


def toward(heading):
    """The directions along a heading and left of it, in plan."""
    return np.array([math.cos(heading), math.sin(heading), 0]), np.array([-math.sin(heading), math.cos(heading), 0])


def angle_rates(x, y):
    """q' and q'' of the angle of a moving vector (x, y), as a Jet without its value."""
    d2 = x.v.square() + y.v.square()
    d = (x.v * y.d - y.v * x.d) / d2
    return Jet(0.0, d, (x.v * y.e - y.v * x.e - 2.0 * (d * (x.v * x.d + y.v * y.d))) / d2)


class Placed:
    """What a record that places a carrier's frame does (sections 3 and 4).

    `joints`, `far` and `unsure` enter the rounding; poses(s) are rotations and
    translations; curve(s) over intervals gives how the frame is turned before it
    turns, the point c, the most that c is accelerated and what turns: each an axis
    in the carrier's coordinates, the same axis in the frame looked from, and its
    rates.
    """


class Steer(Placed):
    words, joints = 6, 1

    def __init__(self, words):
        self.start, self.end, self.on = vector(words[0]), vector(words[1]), vector(words[2])
        self.heading = number(words[3])
        self.rear, front = vector(words[4]), vector(words[5])
        along = front - self.rear
        base = math.hypot(along[0], along[1])
        require(base >= 0.1, "steer: REAR and FRONT are too near in plan")
        self.own = math.atan2(along[1], along[0])
        _, left = toward(self.heading)
        self.h = [float((p - self.on) @ left) / base for p in (self.start, self.end)]
        require(max(abs(h) for h in self.h) < 0.9, "steer: too far off the line")
        most = max(np.linalg.norm(self.start), np.linalg.norm(self.end))
        self.far = np.linalg.norm(self.rear) + most
        self.unsure = 2.0 ** -45 * (1 + (np.linalg.norm(self.on) + most) / base)

    def poses(self, s):
        r = rotations(Z, self.heading - np.arcsin(self.h[0] + s * (self.h[1] - self.h[0])) - self.own)
        t = self.start + s[:, None] * (self.end - self.start) - r @ self.rear
        t[:, 2] = 0
        return r, t

    def curve(self, s):
        if self.h[0] == self.h[1]:
            return self.poses(np.zeros(1))[0][0], in_plan(self.rear), 0.0, []
        dh = Iv(self.h[1]) - self.h[0]
        h = s * dh + self.h[0]
        c2 = Iv(1.0) - h.square()
        jet = Jet(0.0, -(dh / c2.sqrt()), -(dh.square() * h / (c2 * c2.sqrt())))
        return np.eye(3), in_plan(self.rear), 0.0, [(Z, Z, jet)]


class Facing(Placed):
    """A frame that yaws and pitches in a level frame: carry and tip."""

    def level(self, origin, tilt):
        self.origin, self.tilt = vector(origin), rotations(Y, np.array(number(tilt)))

    def placed(self, yaw, pitch, at, to):
        """The poses that face so and take the carrier's point `at` to `to` of the level frame."""
        r = self.tilt @ rotations(Z, yaw) @ rotations(-Y, pitch)
        return r, self.origin + to @ self.tilt.T - r @ at

    def turned(self, c, a, yaw, pitch, rates):
        """curve, at the yaw and pitch of one moment; rates are None for what rests."""
        before = self.tilt @ rotations(Z, np.array(yaw))
        up = rotations(-Y, np.array(pitch))
        spins = []
        if rates[0] is not None:
            spins.append((up.T @ Z, self.tilt @ Z, rates[0]))
        if rates[1] is not None:
            spins.append((-Y, before @ -Y, rates[1]))
        return before @ up, c, a, spins


class Carry(Facing):
    words, joints = 14, 3

    def __init__(self, words):
        self.level(words[0], words[1])
        self.guide, self.base = vector(words[2]), number(words[3])
        at1, heading1, self.start, self.end = in_plan(vector(words[4])), number(words[5]), number(words[6]), number(words[7])
        at2, self.heading = in_plan(vector(words[8])), number(words[9])
        self.ahead = [number(words[10]), number(words[12])]
        planes = [vector(words[11]), vector(words[13])]
        self.slope, self.height = [in_plan(p) for p in planes], [p[2] for p in planes]
        wide = self.ahead[1] - self.ahead[0]
        require(self.base >= 0.1 and wide >= 0.1, "carry: BASE or the wheel lines are too near")
        require(max(np.linalg.norm(q) for q in self.slope) <= 0.5, "carry: too steep a plane")
        self.at1, (self.along1, _) = at1, toward(heading1)
        self._solve(at2, heading1, wide)
        p = max(np.linalg.norm(self.p(s)) for s in (0.0, 1.0))
        self.far = (np.linalg.norm(self.guide) + np.linalg.norm(self.origin) + np.linalg.norm(at1) + abs(self.start) + abs(self.end)
                    + abs(self.ahead[0]) + abs(self.ahead[1]) + abs(self.height[0]))
        self.unsure = 2.0 ** -45 * (1 + (np.linalg.norm(at2) + p) / self.base + (abs(self.height[0]) + abs(self.height[1]) + p) / wide)

    def p(self, s):
        return self.at1 + (self.start + (self.end - self.start) * s) * self.along1

    def _solve(self, at2, heading1, wide):
        """m at s = 0 and 1, and k, in the axes (u, n, z)."""
        self.u, self.n = toward(self.heading)
        (low, high), (sl, sh), (hl, hh) = self.ahead, self.slope, self.height
        w = (high * sh - low * sl) / wide
        require(np.linalg.norm(w) <= 1, "carry: |w| is above 1")
        self.alpha, beta = float(w @ self.u), float(w @ self.n)
        one = heading1 == self.heading
        r1 = [float(self.n @ (at2 - (self.at1 if one else self.p(s)))) / self.base for s in (0.0, 1.0)]
        r2 = [(hl - hh + float((sl - sh) @ self.p(s))) / wide for s in (0.0, 1.0)]
        if np.array_equal(sl, sh):
            r2[1] = r2[0]
        x = [(b - beta * a) / (1 + self.alpha ** 2) for a, b in zip(r1, r2)]
        self.m = [np.array([self.alpha * c, a, -c]) for a, c in zip(r1, x)]
        self.k = np.array([1, 0, self.alpha]) / math.hypot(1, self.alpha)
        require(max(np.linalg.norm(m) for m in self.m) < 0.9, "carry: too far off the straight ahead")
        require(min(self.direction(s)[0] for s in (0.0, 1.0)) >= 0.3, "carry: hardly ahead, or back")
        rests = np.array_equal(self.m[0], self.m[1])
        self.yaws = not rests and not (r1[0] == 0 and r1[1] == 0)
        self.pitches = not rests and not (x[0] == x[1] and self.alpha == 0)

    def direction(self, s):
        m = self.m[0] + np.asarray(s)[..., None] * (self.m[1] - self.m[0])
        return m + self.k * np.sqrt(1 - (m * m).sum(-1))[..., None]

    def poses(self, s):
        e = self.direction(s)
        p = self.p(s[:, None])
        foot = p + self.ahead[0] * (e[:, :1] * self.u + e[:, 1:2] * self.n)
        p[:, 2] = self.height[0] + foot @ self.slope[0] - self.ahead[0] * e[:, 2]
        return self.placed(*self._angles(e), self.guide, p)

    def _angles(self, e):
        return self.heading + np.arctan2(e[..., 1], e[..., 0]), np.arctan2(e[..., 2], np.hypot(e[..., 0], e[..., 1]))

    def curve(self, s):
        rate = [Iv(b) - a if a != b else Iv(0.0) for a, b in zip(*self.m)]
        m = [Jet(s * d + a, d) if (d.lo != 0 or d.hi != 0) else Jet(a) for a, d in zip(self.m[0], rate)]
        left = Iv(1.0) - (m[0].v.square() + m[1].v.square() + m[2].v.square())
        require(np.all(left.lo > 0), "carry: off the straight ahead")
        l = left.sqrt()
        ld = -(dot([x.v for x in m], rate) / l)
        le = -((rate[0].square() + rate[1].square() + rate[2].square() + ld.square()) / l)
        e = [x + Jet(l, ld, le).scaled(float(k)) for x, k in zip(m, self.k)]
        f = (e[0].v.square() + e[1].v.square()).sqrt()
        fd = (e[0].v * e[0].d + e[1].v * e[1].d) / f
        fe = (e[0].d.square() + e[1].d.square() + e[0].v * e[0].e + e[1].v * e[1].e - fd.square()) / f
        low = self.ahead[0]
        rise = e[0].e * float(low * (self.slope[0] @ self.u)) + e[1].e * float(low * (self.slope[0] @ self.n)) - e[2].e * low
        rates = angle_rates(e[0], e[1]) if self.yaws else None, angle_rates(Jet(f, fd, fe), e[2]) if self.pitches else None
        a = rise.size() if self.yaws or self.pitches else 0.0
        return self.turned(self.guide, a, *self._angles(self.direction(0.0)), rates)


class Tip(Facing):
    words, joints, unsure = 9, 2, 0.0

    def __init__(self, words):
        self.level(words[0], words[1])
        self.pivot, self.start, self.end = vector(words[2]), vector(words[3]), vector(words[4])
        self.yaw, self.pitch = [number(w) for w in words[5:7]], [number(w) for w in words[7:9]]
        require(max(abs(p) for p in self.pitch) < 0.9, "tip: pitched too far")
        self.far = np.linalg.norm(self.pivot) + np.linalg.norm(self.origin) + max(np.linalg.norm(self.start), np.linalg.norm(self.end))

    def poses(self, s):
        yaw, pitch = (d[0] + s * (d[1] - d[0]) for d in (self.yaw, self.pitch))
        return self.placed(yaw, pitch, self.pivot, self.start + s[:, None] * (self.end - self.start))

    def curve(self, s):
        rates = [Jet(0.0, Iv(d[1]) - d[0]) if d[0] != d[1] else None for d in (self.yaw, self.pitch)]
        return self.turned(self.pivot, 0.0, self.yaw[0], self.pitch[0], rates)


FRAMES = {"steer": Steer, "carry": Carry, "tip": Tip}
