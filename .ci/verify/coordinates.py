"""The coordinate q of every joint over pieces of a step, enclosed with its derivatives (section 3)."""
import numpy as np

from interval import Iv, Jet, acos, angle, cross2, dot, down, norm2, up
from joints import hat


class Coordinates:
    """q of the joints of one step on the pieces lo..hi; bad holds where a rule of section 3 fails."""

    def __init__(self, chain, step, lo, hi, derive):
        self.chain, self.step, self.derive = chain, step, derive
        self.s = Iv(lo, hi)
        self.n = len(lo)
        self.jets, self.bad = {}, {}

    def constant(self, value):
        z = np.zeros(self.n)
        v = Iv(np.full(self.n, value))
        return Jet(v, Iv(z), Iv(z)) if self.derive else Jet(v)

    def driven(self, b):
        a, z = self.chain.drive(self.step, b)
        if a == z:
            return self.constant(a)
        rate = Iv(down(np.full(self.n, z - a)), up(np.full(self.n, z - a)))
        v = self.s * rate + a
        return Jet(v, rate, Iv(np.zeros(self.n))) if self.derive else Jet(v)

    def q(self, b):
        if b not in self.jets and self.chain.rests(self.step, b):
            self._still(b)
        if b not in self.jets:
            for j in self.chain.needs.get(b, ()):
                self.q(j)
            body = self.chain.bodies[b]
            bad = np.zeros(self.n, bool)
            for j in self.chain.needs.get(b, ()):
                bad = bad | self.bad[j]
            with np.errstate(all="ignore"):
                self.jets[b], wrong = self._solve(body)
            self.bad[b] = bad | wrong
        return self.jets[b]

    def _still(self, b):
        """A joint at rest stands the same all through the step: solved once for the step."""
        key = (id(self.step), b)
        known = self.chain.still
        if key not in known:
            known[key] = None                      # so that the one piece below is solved, not asked for
            one = Coordinates(self.chain, self.step, np.zeros(1), np.zeros(1), False)
            known[key] = (one.q(b).v, bool(one.bad[b][0]))
        if known[key] is not None:
            v, bad = known[key]
            z = np.zeros(self.n)
            wide = Iv(z + v.lo, z + v.hi)
            self.jets[b] = Jet(wide, Iv(z), Iv(z)) if self.derive else Jet(wide)
            self.bad[b] = np.full(self.n, bad)

    def _solve(self, body):
        fine = np.zeros(self.n, bool)
        if body.kind == "fixed":
            return self.constant(0.0), fine
        if body.link < 0:
            return self.driven(body.id), fine
        if body.kind == "slide":
            q, bad = self._slide(body)
        else:
            q, bad = self._aim(body) if body.kind == "aim" else self._turn(body)
        return q, bad

    def _carried(self, body):
        """The far pin as seen from the joint's parent."""
        far, pin = self.chain.far(body)
        z = np.zeros((3, self.n))
        v = Iv(z + np.array(pin)[:, None])
        x = Jet(v, Iv(z), Iv(z)) if self.derive else Jet(v)
        ups, downs = self.chain.path(far, body.parent)
        for j in ups:
            x = self._through(j, x, 1)
        for j in downs:
            x = self._through(j, x, -1)
        return x

    def _through(self, j, x, way):
        """x taken from a body to its parent's frame (way 1) or back (way -1)."""
        body, q = self.chain.bodies[j], self.q(j)
        if body.kind == "fixed":
            return x
        if way < 0:
            q = -q
        u = np.array(body.axis)
        if body.kind == "slide":
            return x + _spread(q, u)
        c, s = q.cos_sin()
        y = x.shift(-np.array(body.pin))
        along = np.outer(u, u)
        turned = y.apply(along) + y.apply(np.eye(3) - along) * _row(c) + y.apply(hat(u)) * _row(s)
        return turned.shift(body.pin)

    def _slide(self, body):
        link = self.chain.links[body.link]
        u = np.array(body.axis)
        u2 = float(u @ u)
        e = (-self._carried(body)).shift(link.pin_b)
        length = self.driven(body.id)
        eu = dot(e.v, Iv(u[:, None]))
        sign = 1.0 if float(np.dot(np.subtract(link.pin_b, link.pin_a), u)) > 0 else -1.0
        square = eu.sq() - (norm2(e.v) - length.v.sq()) * u2
        root = square.sqrt() * sign
        q = (root - eu) / Iv(np.full(self.n, u2))
        size = np.sqrt(u2) * length.v.hi
        bad = ~(sign * (eu.lo if sign > 0 else eu.hi) > 0) | ~(np.sqrt(np.maximum(square.lo, 0)) >= 0.05 * size)
        if not self.derive:
            return Jet(q), bad
        q1 = (length.v * length.d - dot(_dir(e, q, u), e.d)) / root
        d1 = e.d + q1 * Iv(u[:, None])
        q2 = (length.d.sq() - norm2(d1) - dot(_dir(e, q, u), e.dd)) / root
        return Jet(q, q1, q2), bad

    def _turn(self, body):
        plane, g0, r, sign, f0 = self.chain.planes[body.id]
        g = self._carried(body).shift(-np.array(body.pin)).apply(plane)
        length = self.driven(body.id)
        r2 = float(r @ r)
        g2 = norm2(g.v)
        reach = (g2 + r2 - length.v.sq()) * Iv(0.5)
        gr = g2.sqrt() * Iv(down(np.sqrt(r2)), up(np.sqrt(r2)))
        cosf = reach / gr
        sinf = (Iv(1.0) - cosf.sq()).sqrt()
        theta, clear = _turned(g0, g)
        f = acos(cosf) - Iv(down(down(f0)), up(up(f0)))
        q = theta + f * sign
        bad = ~clear | ~(cosf.lo >= -1) | ~(cosf.hi <= 1) | ~(sinf.lo >= 0.05)
        if not self.derive:
            return Jet(q), bad
        c, s = Jet(q).cos_sin()
        rx = c.v * r[0] - s.v * r[1]
        ry = s.v * r[0] + c.v * r[1]
        now = Iv(np.stack([rx.lo, ry.lo]), np.stack([rx.hi, ry.hi]))
        square = Iv(np.stack([-ry.hi, rx.lo]), np.stack([-ry.lo, rx.hi]))
        under = gr * sinf * (-sign)
        q1 = (dot(g.v - now, g.d) - length.v * length.d) / under
        q2 = (norm2(g.d) + dot(g.v - now, g.dd) - q1 * dot(g.d, square) * 2.0 + q1.sq() * reach
              - length.d.sq()) / under
        return Jet(q, q1, q2), bad

    def _aim(self, body):
        plane, d0, _, _, _ = self.chain.planes[body.id]
        d = self._carried(body).shift(-np.array(body.pin)).apply(plane)
        q, clear = _turned(d0, d)
        if not self.derive:
            return Jet(q), ~clear
        size = norm2(d.v)
        q1 = cross2(d.v, d.d) / size
        q2 = (cross2(d.v, d.dd) - dot(d.v, d.d) * q1 * 2.0) / size
        return Jet(q, q1, q2), ~clear | ~(size.lo > 0)


def _turned(raised, now):
    """Angle from a raised direction to the carried one."""
    a, b = float(raised[0]), float(raised[1])
    x, y = now.v[0], now.v[1]
    return angle(y * a - x * b, x * a + y * b)


def _dir(e, q, u):
    return e.v + q * Iv(u[:, None])


def _spread(q, u):
    """q times a vector, as a vector of jets."""
    col = Iv(np.asarray(u)[:, None])
    return Jet(q.v * col) if q.d is None else Jet(q.v * col, q.d * col, q.dd * col)


def _row(q):
    """A scalar jet against the first axis of a vector."""
    f = lambda x: Iv(x.lo[None, :], x.hi[None, :])
    return Jet(f(q.v)) if q.d is None else Jet(f(q.v), f(q.d), f(q.dd))
