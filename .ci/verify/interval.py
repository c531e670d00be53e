"""Interval arithmetic on numpy arrays, rounded outward, and jets: value, first, second derivative."""
import numpy as np

INF = np.inf
TINY = 2.0 ** -1000


def down(x):
    return np.nextafter(x, -INF)


def up(x):
    return np.nextafter(x, INF)


class Iv:
    """lo..hi, arrays of one shape."""
    __slots__ = ("lo", "hi")

    def __init__(self, lo, hi=None):
        self.lo = np.asarray(lo, float)
        self.hi = self.lo if hi is None else np.asarray(hi, float)

    def __add__(self, o):
        o = iv(o)
        return Iv(down(self.lo + o.lo), up(self.hi + o.hi))

    def __sub__(self, o):
        o = iv(o)
        return Iv(down(self.lo - o.hi), up(self.hi - o.lo))

    def __neg__(self):
        return Iv(-self.hi, -self.lo)

    def __mul__(self, o):
        o = iv(o)
        a, b, c, d = self.lo * o.lo, self.lo * o.hi, self.hi * o.lo, self.hi * o.hi
        return Iv(down(np.minimum(np.minimum(a, b), np.minimum(c, d))),
                  up(np.maximum(np.maximum(a, b), np.maximum(c, d))))

    def __truediv__(self, o):
        """By something that keeps off zero; where it does not, everything."""
        ok = (o.lo > 0) | (o.hi < 0)
        inv = Iv(np.where(ok, down(1 / np.where(ok, o.hi, 1)), -INF), np.where(ok, up(1 / np.where(ok, o.lo, 1)), INF))
        return self * inv

    def sq(self):
        a, b = self.lo * self.lo, self.hi * self.hi
        across = (self.lo < 0) & (self.hi > 0)
        lo = np.where(across, 0, np.maximum(down(np.minimum(a, b)), 0))
        return Iv(lo, up(np.maximum(a, b)))

    def sqrt(self):
        """Of what is not below zero; a negative lower end counts as zero."""
        return Iv(np.maximum(down(np.sqrt(np.maximum(self.lo, 0))), 0), up(np.sqrt(np.maximum(self.hi, 0))))

    def __getitem__(self, k):
        return Iv(self.lo[k], self.hi[k])

    def mag(self):
        return np.maximum(np.abs(self.lo), np.abs(self.hi))

    def width(self):
        return up(self.hi - self.lo)

    def mid(self):
        return self.lo + (self.hi - self.lo) / 2


def iv(x):
    return x if isinstance(x, Iv) else Iv(x)


def _cos_like(x, lo, hi, top):
    """Hull of a cosine whose end values are lo, hi and whose maxima lie at top + 2 pi k."""
    pad = 1e-9
    whole = 2 * np.pi
    has_max = np.floor((x.hi + pad - top) / whole) >= np.ceil((x.lo - pad - top) / whole)
    low = top + np.pi
    has_min = np.floor((x.hi + pad - low) / whole) >= np.ceil((x.lo - pad - low) / whole)
    a, b = np.minimum(lo, hi), np.maximum(lo, hi)
    # pad only ever widens to an extreme that is within about 1e-18 of the end value
    a = np.where(has_min, -1.0, np.maximum(down(down(a)), -1.0))
    b = np.where(has_max, 1.0, np.minimum(up(up(b)), 1.0))
    return Iv(a, b)


def cos(x):
    return _cos_like(x, np.cos(x.lo), np.cos(x.hi), 0.0)


def sin(x):
    return _cos_like(x, np.sin(x.lo), np.sin(x.hi), np.pi / 2)


def atan(x):
    return Iv(down(down(np.arctan(x.lo))), up(up(np.arctan(x.hi))))


def acos(x):
    lo, hi = np.clip(x.lo, -1, 1), np.clip(x.hi, -1, 1)
    return Iv(down(down(np.arccos(hi))), up(up(np.arccos(lo))))


PI = Iv(down(np.pi), up(np.pi))
HALF = Iv(down(np.pi / 2), up(np.pi / 2))


def angle(c, d):
    """atan2(c, d) of two intervals, in the chart where it is smooth; False where they hold 0,0."""
    right, left = d.lo > 0, d.hi < 0
    upper, lower = c.lo > 0, c.hi < 0
    safe_d = Iv(np.where(right | left, d.lo, 1), np.where(right | left, d.hi, 1))
    safe_c = Iv(np.where(upper | lower, c.lo, 1), np.where(upper | lower, c.hi, 1))
    flat = atan(c / safe_d)
    steep = HALF - atan(d / safe_c)
    steep_low = -HALF - atan(d / safe_c)
    turned = flat + PI
    pick = [right, upper, lower, left]
    lo = np.select(pick, [flat.lo, steep.lo, steep_low.lo, turned.lo], 0.0)
    hi = np.select(pick, [flat.hi, steep.hi, steep_low.hi, turned.hi], 0.0)
    return Iv(lo, hi), right | left | upper | lower


class Jet:
    """value, first and second derivative over s; d and dd are None where only values are asked."""
    __slots__ = ("v", "d", "dd")

    def __init__(self, v, d=None, dd=None):
        self.v, self.d, self.dd = v, d, dd

    def __add__(self, o):
        if self.d is None or o.d is None:
            return Jet(self.v + o.v)
        return Jet(self.v + o.v, self.d + o.d, self.dd + o.dd)

    def __neg__(self):
        return Jet(-self.v) if self.d is None else Jet(-self.v, -self.d, -self.dd)

    def __sub__(self, o):
        return self + (-o)

    def __mul__(self, o):
        if self.d is None or o.d is None:
            return Jet(self.v * o.v)
        cross = self.d * o.d
        return Jet(self.v * o.v, self.d * o.v + self.v * o.d, self.dd * o.v + cross + cross + self.v * o.dd)

    def cos_sin(self):
        c, s = cos(self.v), sin(self.v)
        if self.d is None:
            return Jet(c), Jet(s)
        q2 = self.d.sq()
        return (Jet(c, -(s * self.d), -(c * q2) - s * self.dd),
                Jet(s, c * self.d, c * self.dd - s * q2))

    def apply(self, matrix):
        """matrix times this vector (the first axis), every derivative alike."""
        if self.d is None:
            return Jet(times(matrix, self.v))
        return Jet(times(matrix, self.v), times(matrix, self.d), times(matrix, self.dd))

    def shift(self, vector):
        return Jet(self.v + np.asarray(vector, float)[:, None], self.d, self.dd)


def times(matrix, x):
    plus, minus = np.maximum(matrix, 0), np.minimum(matrix, 0)
    lo, hi = plus @ x.lo + minus @ x.hi, plus @ x.hi + minus @ x.lo
    pad = np.abs(matrix) @ x.mag() * 2.0 ** -50
    return Iv(down(lo - pad), up(hi + pad))


def dot(a, b):
    """Sum over the first axis of a product of intervals."""
    p = a * b
    total = p[0]
    for k in range(1, p.lo.shape[0]):
        total = total + p[k]
    return total


def norm2(a):
    p = a.sq()
    total = p[0]
    for k in range(1, p.lo.shape[0]):
        total = total + p[k]
    return Iv(np.maximum(total.lo, 0), total.hi)


def cross2(a, b):
    return a[0] * b[1] - a[1] * b[0]
