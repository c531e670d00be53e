"""Planes of a claim, many at once: section 4's bounds of all pairs of many leaves together.

What is shown here is shown. A leaf that is not, for whatever cause, is left to be looked at by
itself (proof.py), which tells why it is refused.
"""
import numpy as np

from bounds import SLACK, ULPS, chord

VERTICES, PAIRS, PARTS = 1 << 16, 1 << 16, 1 << 11      # of one batch; parts of a carrier in a self claim


class Batch:
    """Planes that are seen from one frame, flat: entries are a leaf's parts and solids, one after the other."""

    def __init__(self, leaves, intervals):
        self.leaves = leaves
        self.k = np.array(intervals)
        n = np.array([f.n0 for f in leaves], float)
        size = np.sqrt(np.sum(n * n, -1))
        self.fine = size > 1e-9
        self.n = n / np.where(self.fine, size, 1)[:, None]
        self.dd = np.array([(f.s1 - f.s0) ** 2 for f in leaves])
        self.touched = np.array([f.touched for f in leaves])
        self.a, self.of_a, self.count_a = flat([f.a for f in leaves])
        self.b, self.of_b, self.count_b = flat([f.b for f in leaves])

    def pairs(self):
        """For every pair of every leaf: its leaf, and its entries on both sides."""
        many = self.count_a * self.count_b
        leaf, within = spread(many)
        second = self.count_b[leaf]
        return leaf, before(self.count_a)[leaf] + within // second, before(self.count_b)[leaf] + within % second


def flat(lists):
    """Lists one behind the other, which list each item is of, and how long each is."""
    counts = np.array([len(x) for x in lists])
    return np.array([i for x in lists for i in x]), np.repeat(np.arange(len(lists)), counts), counts


def before(counts):
    """How many stand before each."""
    return np.cumsum(counts) - counts


def spread(counts):
    """Of so many items each: whose each item is, and the how manieth of it."""
    whose = np.repeat(np.arange(len(counts)), counts)
    return whose, np.arange(len(whose)) - before(counts)[whose]


def vertices(stack, ids):
    """The vertices of ids: whose each is, its row in the stack, and where each id's begin."""
    counts = stack.counts[ids]
    whose, within = spread(counts)
    return whose, stack.starts[ids][whose] + within, before(counts)


def still_side(still, batch):
    """Of solids, which stand: the least along the plane's normal, and section 4's joints, R and e."""
    whose, rows, starts = vertices(still.stack, batch.b)
    along = np.einsum("ri,ri->r", still.stack.points[rows], batch.n[batch.of_b][whose])
    zero = np.zeros(len(batch.b))
    return np.minimum.reduceat(along, starts), zero, still.stack.far[batch.b], zero


def moving_side(moving, batch, ids, of, sign):
    """Of parts: the least of sign n.x over the interval, and section 4's joints, R and e."""
    m, stack, body, k, n = moving.motion, moving.stack, moving.part_body[ids], batch.k[of], batch.n[of]
    whose, rows, starts = vertices(stack, ids)
    turns, shifts = moving.stacked()
    points, ends = stack.points[rows], []
    for at in (m.i0[k], m.i1[k]):
        # n.(R x + t) = (R'n).x + n.t: the normal is taken into the body, once for a part
        normal = np.einsum("eij,ei->ej", turns[body, at], n)
        shift = np.einsum("ei,ei->e", shifts[body, at], n)
        ends.append(sign * (np.einsum("ri,ri->r", points, normal[whose]) + shift[whose]))
    across = np.einsum("eij,ej->ei", moving.axes[body], n)
    share = np.minimum((np.sqrt(np.sum(across * across, -1)) + moving.mixed[body]) * (1 + 1e-12), 1.0)
    bend = moving.a[body, k][whose] + (moving.turn[body, k] * share)[whose] * moving.rho[rows]
    least = np.minimum.reduceat(chord(ends[0], ends[1], bend * batch.dd[of][whose]), starts)
    r = stack.far[ids] + moving.reach[body, k]
    return least, moving.count[body], r, r * moving.widths[body, k] + moving.slides[body, k]


def shown(moving, still, batch):
    """What is shown of every pair: its leaf, the two, and the bound."""
    low_a, j_a, r_a, e_a = moving_side(moving, batch, batch.a, batch.of_a, -1)
    if still is not None:
        low_b, j_b, r_b, e_b = still_side(still, batch)
    else:
        low_b, j_b, r_b, e_b = moving_side(moving, batch, batch.b, batch.of_b, 1)
    leaf, i, j = batch.pairs()
    e = ULPS * (1 + j_a[i] + j_b[j]) * (r_a[i] + r_b[j]) + e_a[i] + e_b[j]
    return leaf, batch.a[i], batch.b[j], low_a[i] + low_b[j] - e


class Numbers:
    """The number of every pair of a claim, and which need none."""

    def __init__(self, free, held, touch, exempt):
        self.free, self.held, self.exempt = free, held, exempt
        self.seams = None
        if exempt is not None and held is not None:
            self.seams = np.zeros((len(free), len(free)), bool)
            for p, others in touch.items():
                self.seams[p, list(others)] = True
        self.none = None
        self.asked_free = self.asked_held = False

    def asked(self, a, b, touched):
        small = a if self.exempt is None else np.minimum(a, b)
        out = self.free[small]
        seam = touched
        if self.seams is not None:
            seam = touched | self.seams[a, b]
        if seam.any():
            out = np.where(touched, self.held[small], np.where(seam, np.maximum(out, self.held[small]), out))
        self.asked_held |= bool(seam.any())
        self.asked_free |= bool((~touched).any())
        return out

    def exempted(self, a, b):
        if self.none is None:
            every = list(range(len(self.free)))
            self.none = self.exempt.block(every, every)
        return self.none[a, b]


def check(moving, still, batch, numbers):
    """Which leaves are shown, and the least that a declared contact of these was held to."""
    leaf, a, b, low = shown(moving, still, batch)
    asked = numbers.asked(a, b, batch.touched[leaf])
    good = low >= asked - SLACK
    many = batch.count_a * batch.count_b
    if numbers.exempt is not None and not good.all():
        rest = np.nonzero(~good & (many > 1)[leaf])[0]
        good[rest] = numbers.exempted(a[rest], b[rest])
    fine = batch.fine & np.logical_and.reduceat(good, before(many))
    held = asked[(batch.touched & fine)[leaf]]
    return fine, float(held.min()) - SLACK if len(held) else np.inf
