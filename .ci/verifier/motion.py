"""Sections 3 and 4: where bodies are seen from a frame, and how they curve between."""

import numpy as np

from .carrier import parallel
from .interval import up
from .joints import Coordinates, rotations

PIECES = 8


class View:
    """A body seen from a frame: poses at the ends, curvature over the intervals."""

    __slots__ = ("r", "t", "reach", "width", "joints", "moves", "a", "w", "rho", "axis", "size")


class Motion:
    """A step of a carrier at some values of s and over some intervals."""

    def __init__(self, carrier, step, rests, ends, pieces):
        self.c, self.step, self.rests = carrier, step, rests
        self.ends, self.count = ends, len(pieces)
        self.at = Coordinates(carrier, step, rests, ends, ends)
        lo, hi = pieces[:, :1], pieces[:, 1:]
        grid = np.arange(PIECES + 1) / PIECES
        edges = lo + (hi - lo) * grid
        edges[:, -1:] = hi
        self.over = Coordinates(carrier, step, rests, edges[:, :-1], edges[:, 1:])
        self.views, self.poses = {}, {}

    def pose(self, frame, body):
        """Rotation and translation at every end."""
        key = (frame, body)
        if key not in self.poses:
            n = len(self.ends)
            if body == frame:
                r, t = np.broadcast_to(np.eye(3), (n, 3, 3)), np.zeros((n, 3))
                if body == -1 and self.step.frame:
                    r, t = self.step.frame.poses(self.ends)
            else:
                b = self.c.bodies[body]
                r, t = self.pose(frame, b.parent)
                jr, jt = self._joint(b)
                if jt is not None:
                    t = t + np.einsum("nij,nj->ni", r, jt)
                if jr is not None:
                    r = r @ jr
            self.poses[key] = r, t
        return self.poses[key]

    def _joint(self, b):
        if b.kind == "fixed":
            return None, None
        q = self.at.q(b.id).v.mid()
        if b.kind == "slide":
            return None, q[:, None] * b.axis
        r = rotations(b.axis, q)
        return r, b.pin - r @ b.pin

    def view(self, frame, body):
        key = (frame, body)
        if key not in self.views:
            self.views[key] = self._view(frame, body)
        return self.views[key]

    def _view(self, frame, body):
        v = View()
        v.r, v.t = self.pose(frame, body)
        chain = [self.c.bodies[x] for x in self.c.chain(body, frame)]
        placed = self.step.frame if frame == -1 else None
        self._reach(v, chain, placed)
        self._curvature(v, chain, placed)
        return v

    def _reach(self, v, chain, placed):
        v.joints = len(chain) + (placed.joints if placed else 0)
        v.size = np.linalg.norm(v.t, axis=1)
        v.reach, turned = np.zeros(self.count), np.zeros(len(self.ends))
        slid = np.zeros(len(self.ends))
        if placed:
            v.reach, turned = v.reach + placed.far, turned + placed.unsure
        for b in chain:
            if b.kind == "fixed":
                continue
            width = self.at.q(b.id).v
            width = np.where(width.lo == width.hi, 0.0, width.width())
            if b.kind == "slide":
                v.reach = v.reach + b.length * self.over.q(b.id).v.size().max(axis=1)
                slid = slid + b.length * width
            else:
                v.reach = v.reach + np.linalg.norm(b.pin)
                turned = turned + width
        v.width = turned, slid

    def _curvature(self, v, chain, placed):
        """Section 4: a, om² + al over the intervals, and each vertex's rho."""
        zero = np.zeros((self.count, PIECES))
        a, om, al = zero, zero, zero
        c, axis, axis_in_frame = np.zeros(3), None, None
        turning, mixed, stand = False, False, np.eye(3)
        sums = None
        v.moves = any(not self.rests(b.id) for b in chain) or bool(placed)
        if placed:
            stand, c, rise, spins = placed.curve(self.over.s)
            a = a + rise
            turning, mixed = bool(spins), len(spins) > 1
            if turning:
                axis, axis_in_frame, jet = spins[0]
                sums = [jet.d, jet.e]
                om, al = zero + jet.d.size(), zero + jet.e.size()
            if mixed:
                om2, al2 = spins[1][2].d.size(), spins[1][2].e.size()
                om, al = up(np.hypot(om, om2)), up(np.sqrt(al * al + al2 * al2 + om * om * om2 * om2))
        for b in chain:
            if self.rests(b.id):
                if b.kind == "fixed":
                    continue
                q = float(self.at.q(b.id).v.mid()[0])
                if q == 0:
                    continue
                if b.kind == "slide":
                    c = c - q * b.axis
                    continue
                r = rotations(b.axis, np.array(q))
                if not turning:
                    stand = stand @ r
                    continue
                c = b.pin + r.T @ (c - b.pin)
                if not mixed and not parallel(b.axis, axis):
                    axis = r.T @ axis
                continue
            jet = self.over.q(b.id)
            if b.kind == "slide":
                a = a + (om * om + al) * b.length * jet.v.size() + 2 * om * b.length * jet.d.size() + b.length * jet.e.size()
                continue
            if not turning:
                turning, axis, axis_in_frame, c = True, b.axis, stand @ b.axis, b.pin
                sums = [jet.d, jet.e]
                om, al = jet.d.size(), jet.e.size()
                continue
            a = a + (om * om + al) * distances(b.pin, c, None if mixed else axis)
            c = b.pin
            way = 0 if mixed else parallel(b.axis, axis)
            if way:
                sums = [sums[0] + jet.d * float(way), sums[1] + jet.e * float(way)]
                om, al = sums[0].size(), sums[1].size()
            else:
                mixed = True
                al = al + jet.e.size() + om * jet.d.size()
                om = om + jet.d.size()
        v.a = a.max(axis=1)
        v.w = (om * om + al).max(axis=1)
        v.axis = axis_in_frame if turning and not mixed else None
        v.rho = None
        if turning:
            v.rho = distances(self.c.hulls.x, c, None if mixed else axis)


def distances(points, c, axis):
    """From the line through c along the axis, or from c."""
    d = points - c
    if axis is not None:
        d = np.cross(d, axis)
    return np.linalg.norm(d, axis=-1)
