"""Whether the leaves and the witnesses of one claim show its numbers (sections 4 to 6)."""
import numpy as np

import bounds
import planes
from bounds import SLACK
from motion import Motion
from text import Refused


class Proof:
    """The leaves and witnesses of one claim against its numbers."""

    def __init__(self, reader, claim, touch, exempt, each):
        self.reader, self.claim, self.touch, self.exempt = reader, claim, touch, exempt
        self.free = self._numbers(claim.needs, {p: f for p, (f, _) in each.items()})
        own = {p: t for p, (_, t) in each.items()}
        given = claim.touches or any(t is not None for t in own.values())
        self.held = self._numbers(claim.touches, own) if given else None
        self.carrier = claim.carrier
        self.stack = reader.part_stack(self.carrier)
        self.part_body = np.array([p.body for p in self.carrier.parts], int)
        self.still = bounds.Still(reader.solid_stack(claim.place)) if claim.place else None
        self.asked_free, self.asked_held = False, False

    def _numbers(self, needs, each):
        """Each part's number: the greatest of LOWER + UM 1e-6, and of its own."""
        out = np.full(len(self.claim.carrier.parts), -np.inf)
        for need in needs.values():
            mine = np.full(len(out), need.lower)
            for p, um in need.less.items():
                mine[p] = need.lower + um * 1e-6
            out = np.maximum(out, mine)
        for p, x in each.items():
            if x is not None:
                out[p] = max(out[p], x)
        return out

    def check(self, leaves, witnesses):
        with np.errstate(all="ignore"):
            for w in witnesses:
                self._guard(w.line, "near", self._witness, w)
            if not leaves:
                return
            points = sorted({s for f in leaves for s in (f.s0, f.s1)})
            self.at = {s: i for i, s in enumerate(points)}
            pairs = dict.fromkeys((self.at[f.s0], self.at[f.s1]) for f in leaves)
            self.index = {p: k for k, p in enumerate(pairs)}
            self.motion = self.reader.motion(self.claim, points, list(pairs))
            for f in self._one_by_one(leaves):
                self._guard(f.line, f.word, self._leaf, f)
            for moving in self.motion.moving.values():
                moving.at.clear()

    def _interval(self, f):
        return self.index[(self.at[f.s0], self.at[f.s1])]

    def _one_by_one(self, leaves):
        """The leaves that are not shown together with others."""
        rest, by_frame = [], {}
        if self.exempt is not None and len(self.carrier.parts) > planes.PARTS:
            return leaves
        for f in leaves:
            if f.word == "P" and len(f.a) * len(f.b) <= planes.PAIRS:
                by_frame.setdefault(self._frame(f.a if self.still is not None else f.a + f.b), []).append(f)
            else:
                rest.append(f)
        numbers = planes.Numbers(self.free, self.held, self.touch, self.exempt)
        for frame, mine in by_frame.items():
            for batch in self._batches(mine):
                rest += self._together(frame, batch, numbers)
        self.asked_free |= numbers.asked_free
        self.asked_held |= numbers.asked_held
        return sorted(rest, key=lambda f: f.line)

    def _batches(self, leaves):
        """Leaves in lots of so many vertices and pairs."""
        mine = self.stack.sizes
        others = self.still.stack.sizes if self.still is not None else mine
        lot, vertices, pairs = [], 0, 0
        for f in leaves:
            v, p = sum(mine[i] for i in f.a) + sum(others[i] for i in f.b), len(f.a) * len(f.b)
            if lot and (vertices + v > planes.VERTICES or pairs + p > planes.PAIRS):
                yield lot
                lot, vertices, pairs = [], 0, 0
            lot.append(f)
            vertices, pairs = vertices + v, pairs + p
            self.reader.budget.spend(v + p)
        if lot:
            yield lot

    def _together(self, frame, leaves, numbers):
        """Of leaves seen from one frame, those that are not shown."""
        moving = self._moving(frame)
        moving.prepare()
        batch = planes.Batch(leaves, [self._interval(f) for f in leaves])
        fine, least = planes.check(moving, self.still, batch, numbers)
        counts = self.reader.counts
        counts["touch_least"] = min(counts["touch_least"], least)
        return [f for f, good in zip(leaves, fine) if not good]

    def idle(self):
        """Numbers that no pair was held to: of the seams they are an entry, so that is refused."""
        if not self.asked_free:
            self.reader.counts["idle"] += 1
        if self.still is None and self.claim.touches and not self.asked_held:
            raise Refused("touch strip.self.seams, but no pair that may touch had to be shown", self.claim.line, self.claim.text())

    def _guard(self, line, word, what, thing):
        try:
            what(thing)
        except Refused as e:
            if e.line is None:
                e.line, e.record = line, f"{word} of {self.claim.text()}"
            raise

    def _frame(self, ids):
        """The nearest common ancestor of the bodies of ids, for a self claim; else the ground."""
        if self.still is not None:
            return -1
        masks, mask = self.carrier.geometry.masks, -1
        for b in {self.exempt.body[p] for p in ids}:
            mask &= masks[b]
        return self.carrier.geometry.common(mask)

    def _moving(self, frame):
        known = self.motion.moving
        if frame not in known:
            known[frame] = bounds.Moving(self.motion, frame, self.stack, self.part_body)
        return known[frame]

    def _other(self, moving, k, n0, n1, ids, plane):
        if self.still is not None:
            return self.still.ends(n0, n1, ids)
        return moving.ends(k, n0, n1, ids, plane)

    def _errors(self, moving, k, a, b):
        far_b = self.still.far(b) if self.still is not None else moving.far(k, b)
        return bounds.rounding(moving.far(k, a), far_b)

    def _leaf(self, f):
        a, b = f.a, f.b
        self.reader.budget.spend(len(a) * len(b))
        k = self._interval(f)
        moving = self._moving(self._frame(a if self.still is not None else a + b))
        asked = self._asked(f)
        dd = (f.s1 - f.s0) ** 2
        if f.word == "W":
            low = np.array([[self._turning(f, k, moving, dd)]])
        else:
            low = self._plane(f, k, moving, dd, asked)
        good = low >= asked - SLACK
        if self.exempt is not None and not good.all() and low.size > 1:
            good = good | self.exempt.block(a, b)
        if not good.all():
            self._fail(f, k, moving, low, asked, good)
        if f.touched:
            c = self.reader.counts
            c["touch_least"] = min(c["touch_least"], float(asked[0, 0]) - SLACK)

    def _plane(self, f, k, moving, dd, asked):
        n = bounds.unit(f.n0)
        one = moving.ends(k, n, n, f.a)
        two = self._other(moving, k, n, n, f.b, True)
        self.reader.budget.spend(len(one[0]) + len(two[0]))
        e = self._errors(moving, k, f.a, f.b)
        low = bounds.plane_sides(one, two, one[3], two[3], dd) - e
        if low.size == 1 and self.still is None and not low[0, 0] >= asked[0, 0] - SLACK:
            self.reader.budget.spend(len(one[0]) * len(two[0]))
            low = np.array([[bounds.plane_pair(one, two, dd)]]) - e
        return low

    def _turning(self, f, k, moving, dd):
        n0, n1 = bounds.unit(f.n0), bounds.unit(f.n1)
        v = self._ends3(moving, k, f.a)
        if self.still is not None:
            x = self.still.stack.points[self.still.stack.rows(f.b)[0]]
            w = (x, x, np.zeros(len(x)))
        else:
            w = self._ends3(moving, k, f.b)
        self.reader.budget.spend(len(v[0]) * len(w[0]))
        return bounds.turning_plane(n0, n1, v, w, dd, float(self._errors(moving, k, f.a, f.b)[0, 0]))

    def _ends3(self, moving, k, ids):
        rows, _ = self.stack.rows(ids)
        n = np.array([1.0, 0.0, 0.0])
        bend = moving.ends(k, n, n, ids, False)[2]
        m = self.motion
        return moving.points(m.i0[k])[rows], moving.points(m.i1[k])[rows], bend

    def _asked(self, f):
        """The number of every pair of the leaf."""
        if self.still is not None:
            small = np.broadcast_to(np.array(f.a)[:, None], (len(f.a), len(f.b)))
        else:
            small = np.minimum.outer(np.array(f.a), np.array(f.b))
        if f.touched:
            self.asked_held = True
            return self.held[small]
        self.asked_free = True
        asked = self.free[small]
        if self.held is not None and self.still is None:
            # A seam without C: the seams make an entry of their own, which must hold for it too.
            at = None
            for i, p in enumerate(f.a):
                for q in self.touch.get(p, ()):
                    at = at or {q: j for j, q in enumerate(f.b)}
                    if q in at:
                        j = at[q]
                        self.asked_held = True
                        asked[i, j] = max(asked[i, j], self.held[small[i, j]])
        return asked

    def _fail(self, f, k, moving, low, asked, good):
        i, j = np.argwhere(~good)[0]
        a, b, frame = f.a[i], f.b[j], moving.frame
        bodies = [self.part_body[a]] + ([] if self.still is not None else [self.part_body[b]])
        for body in bodies:
            t = self.motion.trouble(frame, int(body), k)
            if t is not None:
                raise Refused(f"from s = {f.s0!r} to {f.s1!r} the link of body {t} comes too near a dead point or cannot reach")
        raise Refused(f"{a} and {b} from s = {f.s0!r} to {f.s1!r}: shown is {low[i, j]:.9g}, asked {asked[i, j]:.9g} less the slack {SLACK}")

    def _witness(self, w):
        frame = self._frame([w.one] if self.still is not None else [w.one, w.other])
        motion = self.reader.motion(self.claim, [w.s], [(0, 0)])
        x, one = self._point(motion, frame, w.one, w.weights)
        if self.still is not None:
            y, two = w.weights2 @ self.still.stack.points[self.still.stack.rows([w.other])[0]], self.still.far([w.other])
        else:
            y, two = self._point(motion, frame, w.other, w.weights2)
        e = float(bounds.rounding(one, two)[0, 0])
        gap = float(np.linalg.norm(x - y))
        # where a link has no solution E is not finite: that shows nothing
        if not (np.isfinite(e) and gap <= max(w.upper, 0.0) + SLACK + e):
            raise Refused(f"the witness is {gap:.9g} apart, said is {w.upper:.9g} (E = {e:.3g})")

    def _point(self, motion, frame, part, weights):
        """A point of a part at the one point of a motion, and the part's joints, R, e there."""
        b = int(self.part_body[part])
        r, t = motion.pose(frame, b)
        count, reach, widths, slides = motion.error(frame, b)
        far = self.stack.far[[part]] + reach
        at = self.stack.points[self.stack.rows([part])[0]] @ r[0].T + t[0]
        return weights @ at, (np.array([count]), far, far * widths + slides)
