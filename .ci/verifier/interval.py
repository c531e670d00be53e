"""Intervals, rounded outward, many at once, and quantities with two derivatives."""

import math

import numpy as np


def down(x):
    return np.nextafter(x, -np.inf)


def up(x):
    return np.nextafter(x, np.inf)


class Iv:
    """Arrays of intervals."""

    __slots__ = ("lo", "hi")

    def __init__(self, lo, hi=None):
        self.lo = np.asarray(lo, dtype=float)
        self.hi = self.lo if hi is None else np.asarray(hi, dtype=float)

    @staticmethod
    def of(x):
        return x if isinstance(x, Iv) else Iv(x)

    def __add__(self, o):
        o = Iv.of(o)
        return Iv(down(self.lo + o.lo), up(self.hi + o.hi))

    def __neg__(self):
        return Iv(-self.hi, -self.lo)

    def __sub__(self, o):
        return self + (-Iv.of(o))

    def __mul__(self, o):
        o = Iv.of(o)
        p = [self.lo * o.lo, self.lo * o.hi, self.hi * o.lo, self.hi * o.hi]
        return Iv(down(np.minimum(np.minimum(p[0], p[1]), np.minimum(p[2], p[3]))),
                  up(np.maximum(np.maximum(p[0], p[1]), np.maximum(p[2], p[3]))))

    __radd__, __rmul__ = __add__, __mul__

    def __truediv__(self, o):
        o = Iv.of(o)
        crosses = (o.lo <= 0) & (o.hi >= 0)
        low, high = np.where(crosses, np.nan, o.lo), np.where(crosses, np.nan, o.hi)
        return self * Iv(down(1 / high), up(1 / low))

    def square(self):
        big = np.maximum(abs(self.lo), abs(self.hi))
        small = np.where((self.lo <= 0) & (self.hi >= 0), 0.0, np.minimum(abs(self.lo), abs(self.hi)))
        return Iv(np.maximum(down(small * small), 0), up(big * big))

    def sqrt(self):
        return Iv(np.maximum(down(np.sqrt(np.maximum(self.lo, 0))), 0), up(np.sqrt(self.hi)))

    def size(self):
        """The greatest absolute value."""
        return np.maximum(abs(self.lo), abs(self.hi))

    def width(self):
        return up(self.hi - self.lo)

    def mid(self):
        return np.where(self.lo == self.hi, self.lo, self.lo / 2 + self.hi / 2)


def widened(lo, hi):
    """Around values of library functions, whose error is below 4 units in the last place."""
    return Iv(lo - (abs(lo) * 9e-16 + 1e-300), hi + (abs(hi) * 9e-16 + 1e-300))


def _wave(f, x, crest):
    """f over x, f being a cosine with its crest at the angle given."""
    a, b = f(x.lo), f(x.hi)
    out = widened(np.minimum(a, b), np.maximum(a, b))
    turn, eps = 2 * math.pi, 1e-9

    def meets(at):
        return np.floor((x.hi - at) / turn + eps) >= np.ceil((x.lo - at) / turn - eps)
    hi = np.where(meets(crest), 1.0, np.minimum(out.hi, 1))
    lo = np.where(meets(crest + math.pi), -1.0, np.maximum(out.lo, -1))
    return Iv(lo, hi)


def cos(x):
    return _wave(np.cos, x, 0.0)


def sin(x):
    return _wave(np.sin, x, math.pi / 2)


def acos(x):
    return widened(np.arccos(x.hi), np.arccos(x.lo))


def atan2(y, x):
    """The angle of a box; the whole circle where it holds the origin or the cut."""
    corners = [np.arctan2(b, a) for a in (x.lo, x.hi) for b in (y.lo, y.hi)]
    out = widened(np.minimum.reduce(corners), np.maximum.reduce(corners))
    wide = (x.lo <= 0) & (y.lo <= 0) & (y.hi >= 0)
    return Iv(np.where(wide, -4.0, out.lo), np.where(wide, 4.0, out.hi))


def dot(a, b):
    total = a[0] * b[0]
    for x, y in zip(a[1:], b[1:]):
        total = total + x * y
    return total


def cross2(a, b):
    return a[0] * b[1] - a[1] * b[0]


class Jet:
    """A value with its first and second derivative by s, each an interval."""

    __slots__ = ("v", "d", "e")

    def __init__(self, v, d=None, e=None):
        self.v, self.d, self.e = Iv.of(v), Iv.of(0.0 if d is None else d), Iv.of(0.0 if e is None else e)

    def __add__(self, o):
        return Jet(self.v + o.v, self.d + o.d, self.e + o.e)

    def __sub__(self, o):
        return Jet(self.v - o.v, self.d - o.d, self.e - o.e)

    def __mul__(self, o):
        return Jet(self.v * o.v, self.d * o.v + self.v * o.d, self.e * o.v + 2.0 * (self.d * o.d) + self.v * o.e)

    def scaled(self, k):
        return Jet(self.v * k, self.d * k, self.e * k)

    def cos_sin(self):
        c, s = cos(self.v), sin(self.v)
        sq = self.d.square()
        return (Jet(c, -(s * self.d), -(c * sq) - s * self.e),
                Jet(s, c * self.d, c * self.e - s * sq))
