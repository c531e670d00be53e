"""Section 3: the coordinates of joints, those that links set or that aim along one."""

import numpy as np

from .carrier import plane_of
from .interval import Iv, Jet, acos, atan2, cos, cross2, dot, sin
from .refusal import require


class Coordinates:
    """q, q', q'' of the joints of a carrier in a step over intervals of s."""

    def __init__(self, carrier, step, rests, lo, hi):
        self.c, self.step, self.rests = carrier, step, rests
        self.s = Iv(lo, hi)
        self.zero = np.zeros(np.shape(lo))
        self.cache = {}

    def q(self, body):
        if body not in self.cache:
            self.cache[body] = self._q(self.c.bodies[body])
        return self.cache[body]

    def _driven(self, body):
        a, b = self.c.drive(self.step, body)
        if a == b:
            return Jet(Iv(self.zero + a), Iv(self.zero), Iv(self.zero))
        d = Iv(b) - a
        return Jet(self.s * d + a, Iv(self.zero + d.lo, self.zero + d.hi), Iv(self.zero))

    def _q(self, b):
        if b.kind == "fixed":
            return Jet(Iv(self.zero), Iv(self.zero), Iv(self.zero))
        if b.link is None:
            return self._driven(b.id)
        return {"turn": self._turn, "slide": self._slide, "aim": self._aim}[b.kind](b)

    def carried(self, b, basis):
        """The far pin of the link of b as seen from its parent, in a basis."""
        body, pin = self.c.far_pin(b)
        up_, down_ = self.c.path(body, b.parent)
        point = [Jet(Iv(self.zero + float(e @ pin))) for e in basis]
        for j in up_:
            point = self._through(self.c.bodies[j], point, basis, 1.0)
        for j in down_:
            point = self._through(self.c.bodies[j], point, basis, -1.0)
        return point

    def _through(self, j, p, basis, way):
        if j.kind == "fixed":
            return p
        q = self.q(j.id)
        if j.kind == "slide":
            return [x + q.scaled(way * float(e @ j.axis)) for x, e in zip(p, basis)]
        c, s = q.cos_sin()
        s = s.scaled(way)
        pin = [Jet(float(e @ j.pin)) for e in basis]
        d = [x - y for x, y in zip(p, pin)]
        if len(basis) == 2:
            s = s.scaled(float(np.sign(np.cross(basis[0], basis[1]) @ j.axis)))
            return [pin[0] + c * d[0] - s * d[1], pin[1] + s * d[0] + c * d[1]]
        k = j.axis
        along = d[0].scaled(k[0]) + d[1].scaled(k[1]) + d[2].scaled(k[2])
        par = [along.scaled(x) for x in k]
        out = []
        for i in range(3):
            a, bb = (i + 1) % 3, (i + 2) % 3
            turned = d[bb].scaled(k[a]) - d[a].scaled(k[bb])
            out.append(pin[i] + par[i] + c * (d[i] - par[i]) + s * turned)
        return out

    def _turn(self, b):
        e = plane_of(b.axis)
        link = self.c.links[b.link]
        far = self.carried(b, e)
        g = [x - Jet(float(k @ b.pin)) for x, k in zip(far, e)]
        g0, r0 = e @ (link.pin_a - b.pin), e @ (link.pin_b - b.pin)
        gv, gd, ge = [x.v for x in g], [x.d for x in g], [x.e for x in g]
        l = self._driven(b.id)
        gg = gv[0].square() + gv[1].square()
        rr = Iv(r0[0]).square() + Iv(r0[1]).square()
        cosf = (gg + rr - l.v.square()) / (2.0 * gg.sqrt() * rr.sqrt())
        big = cosf.size()
        require(np.all(big <= 1) and np.all(1 - big * big >= 0.05 ** 2), f"body {b.id}: its link does not reach, or is near dead centre")
        raised = atan2(cross2([Iv(x) for x in g0], [Iv(x) for x in r0]), dot([Iv(x) for x in g0], [Iv(x) for x in r0]))
        f = acos(cosf)
        f = f if raised.lo > 0 else -f
        q = self._angle(g0, gv) + f - raised
        c, s = cos(q), sin(q)
        r = [c * r0[0] - s * r0[1], s * r0[0] + c * r0[1]]
        kr = [-r[1], r[0]]
        base = dot(gv, kr)
        d = (dot(gv, gd) - dot(gd, r) - l.v * l.d) / base
        dd = (gd[0].square() + gd[1].square() + dot(gv, ge) - dot(ge, r) - 2.0 * (d * dot(gd, kr))
              + d.square() * dot(gv, r) - l.d.square()) / base
        return self._full(q, d, dd)

    @staticmethod
    def _angle(g0, g):
        return atan2(g[1] * g0[0] - g[0] * g0[1], g[0] * g0[0] + g[1] * g0[1])

    def _full(self, q, d, dd):
        return Jet(*(Iv(self.zero + x.lo, self.zero + x.hi) for x in (q, d, dd)))

    def _aim(self, b):
        e = plane_of(b.axis)
        _, pin = self.c.far_pin(b)
        g = [x - Jet(float(k @ b.pin)) for x, k in zip(self.carried(b, e), e)]
        gv, gd, ge = [x.v for x in g], [x.d for x in g], [x.e for x in g]
        gg = gv[0].square() + gv[1].square()
        d = cross2(gv, gd) / gg
        dd = (cross2(gv, ge) - 2.0 * (d * dot(gv, gd))) / gg
        return self._full(self._angle(e @ (pin - b.pin), gv), d, dd)

    def _slide(self, b):
        link, basis = self.c.links[b.link], np.eye(3)
        far = self.carried(b, basis)
        e = [Jet(float(p)) - x for p, x in zip(link.pin_b, far)]
        axis = [Iv(float(x)) for x in b.axis]
        aa = dot(axis, axis)
        l = self._driven(b.id)
        ev, ed, ee = [x.v for x in e], [x.d for x in e], [x.e for x in e]
        ea = dot(ev, axis)
        sign = 1.0 if float((link.pin_b - link.pin_a) @ b.axis) > 0 else -1.0
        require(np.all(sign * ea.lo > 0) and np.all(sign * ea.hi > 0), f"body {b.id}: its link comes square to its slide")
        inner = ea.square() - aa * (ev[0].square() + ev[1].square() + ev[2].square() - l.v.square())
        require(np.all(inner.lo > 0), f"body {b.id}: its link does not reach")
        root = inner.sqrt()
        require(np.all(root.lo >= 0.05 * b.length * l.v.hi), f"body {b.id}: its link is near dead centre")
        root = root * sign
        q = (root - ea) / aa
        w = [x + q * a for x, a in zip(ev, axis)]
        d = (l.v * l.d - dot(w, ed)) / root
        wd = [x + d * a for x, a in zip(ed, axis)]
        dd = (l.d.square() - (wd[0].square() + wd[1].square() + wd[2].square()) - dot(w, ee)) / root
        return self._full(q, d, dd)


def rotations(axis, q):
    """Rotation matrices about an axis through the origin."""
    c, s = np.cos(q)[..., None, None], np.sin(q)[..., None, None]
    k = np.array([[0, -axis[2], axis[1]], [axis[2], 0, -axis[0]], [-axis[1], axis[0], 0]])
    kk = np.outer(axis, axis)
    return kk + c * (np.eye(3) - kk) + s * k


Z, Y = np.array([0, 0, 1.0]), np.array([0, 1.0, 0])
