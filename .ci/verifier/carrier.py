"""Section 2, the carrier: bodies, links, parts, its steps, and what may touch what."""

import collections
import math

import numpy as np

from .interval import down, up
from .refusal import require


class Body:
    def __init__(self, ident, parent, kind, line):
        self.id, self.parent, self.kind, self.line = ident, parent, kind, line
        self.axis = self.pin = np.zeros(3)
        self.link = None
        self.length = 0.0


class Link:
    def __init__(self, a, b, pin_a, pin_b):
        self.a, self.b, self.pin_a, self.pin_b = a, b, pin_a, pin_b
        self.raised = math.dist(pin_a, pin_b)


class Step:
    def __init__(self, ident, kind, name, line):
        self.id, self.kind, self.name, self.line = ident, kind, name, line
        self.drives, self.absent, self.frame = {}, None, None
        self.present, self.first_strip = (), False

    def finish(self, parts):
        if self.absent is None:
            self.present = tuple(range(parts))


class Hulls:
    """Convex hulls, their vertices in one array, in the order of their ids."""

    def __init__(self, vertex_lists):
        self.count = len(vertex_lists)
        sizes = [len(v) for v in vertex_lists]
        self.start = np.concatenate([[0], np.cumsum(sizes)]).astype(int)
        self.x = np.array([v for vs in vertex_lists for v in vs]).reshape(-1, 3)
        self.far = self._per_hull(np.maximum, np.linalg.norm(self.x, axis=1))
        self.low = self._per_hull(np.minimum, self.x)
        self.high = self._per_hull(np.maximum, self.x)

    def _per_hull(self, ufunc, values):
        return ufunc.reduceat(values, self.start[:-1], axis=0) if self.count else values

    def slice(self, ident):
        return slice(self.start[ident], self.start[ident + 1])


class Carrier:
    def __init__(self, ident):
        self.id = ident
        self.bodies, self.links, self.runs = [], [], set()
        self.part_body, self.vertices = [], []
        self.pinned, self.seams = set(), set()
        self.steps = []

    def chain(self, body, frame=-1):
        """The bodies from the frame (left out) to the body."""
        out = []
        while body != frame:
            require(body >= 0, "not an ancestor")
            out.append(body)
            body = self.bodies[body].parent
        return out[::-1]

    def common(self, bodies):
        """The nearest common ancestor, which may be one of them."""
        line = None
        for b in bodies:
            chain = [-1] + self.chain(b)
            line = chain if line is None else [x for x, y in zip(line, chain) if x == y]
        return line[-1]

    def path(self, a, b):
        """The joints (as bodies) between two bodies: up from a, down to b."""
        top = self.common([a, b])
        return self.chain(a, top)[::-1], self.chain(b, top)

    def far_pin(self, body):
        """Of the link of a joint: the body and the pin seen from the parent."""
        link = self.links[body.link]
        if body.kind == "aim" and not (link.a == body.parent and np.array_equal(link.pin_a, body.pin)):
            return link.a, link.pin_a
        return (link.b, link.pin_b) if body.kind == "aim" else (link.a, link.pin_a)

    def joined(self, p, q):
        if p == q or self.bodies[p].parent == q or self.bodies[q].parent == p:
            return True
        if (min(p, q), max(p, q)) in self.runs:
            return True
        ends = [{l.a, l.b} | {b.id for b in self.bodies if b.kind == "aim" and b.link == i}
                for i, l in enumerate(self.links)]
        return any(p in e and q in e for e in ends)

    def drive(self, step, body):
        """FROM and TO of what is driven."""
        if body in step.drives:
            return step.drives[body]
        b = self.bodies[body]
        return (self.links[b.link].raised,) * 2 if b.link is not None else (0.0, 0.0)

    def rests(self, step, body, cache):
        """Whether the joint keeps its coordinate in the step (section 6)."""
        if body not in cache:
            b = self.bodies[body]
            still = b.kind == "fixed" or b.kind == "aim" or len(set(self.drive(step, body))) == 1
            if still and b.link is not None:
                up, down = self.path(self.far_pin(b)[0], b.parent)
                still = all(self.rests(step, j, cache) for j in up + down)
            cache[body] = still
        return cache[body]

    def finish(self):
        """What hangs on more than one record."""
        self.hulls = Hulls(self.vertices)
        self.body_of = np.array(self.part_body, dtype=int)
        self.parts = tuple(range(len(self.part_body)))
        self._check_order()

    def close_model(self):
        """Checks of bodies and links, made before the first part that needs them."""
        for b in self.bodies:
            if b.link is not None:
                require(b.link < len(self.links), f"body {b.id}: no link {b.link}", b.line)
                check_link(self, b)
        for b in self.bodies:
            self._check_acyclic(b.id, ())

    def _check_acyclic(self, body, above):
        require(body not in above, f"body {body} needs its own coordinate", self.bodies[body].line)
        b = self.bodies[body]
        if getattr(b, "acyclic", False):
            return
        if b.link is not None:
            up, down = self.path(self.far_pin(b)[0], b.parent)
            for j in up + down:
                self._check_acyclic(j, above + (body,))
        b.acyclic = True

    def concerned(self, step):
        todo, seen = list({self.part_body[p] for p in step.present}), set()
        while todo:
            body = todo.pop()
            if body < 0 or body in seen:
                continue
            seen.add(body)
            b = self.bodies[body]
            todo.append(b.parent)
            if b.link is not None:
                todo += [self.links[b.link].a, self.links[b.link].b]
        return seen

    def _check_order(self):
        earlier, total, gone = None, collections.Counter(), set()
        for step in self.steps:
            if step.kind not in ("strip", "end"):
                continue
            if step.kind == "strip" and not any(s.first_strip for s in self.steps):
                step.first_strip = True
            if earlier is not None:
                for body in sorted(self.concerned(step)):
                    total[body] += abs(self.drive(step, body)[0] - self.drive(earlier, body)[1])
                    require(total[body] <= 1e-9, f"step {step.id}: body {body} does not start where it stood", step.line)
                back = gone.intersection(step.present)
                require(not back, f"step {step.id}: part {min(back, default=0)} comes back", step.line)
            gone.update(set(self.parts) - set(step.present))
            earlier = step


def parallel(a, b):
    """+1 or -1 where two axes are exactly equal or opposite, else 0."""
    return 1 if np.array_equal(a, b) else -1 if np.array_equal(a, -b) else 0


def plane_of(axis):
    """e1, e2 so that e1, e2, axis are right-handed."""
    helper = np.eye(3)[int(np.argmin(np.abs(axis)))]
    e1 = helper - axis * float(helper @ axis)
    e1 /= np.linalg.norm(e1)
    return np.array([e1, np.cross(axis, e1)])


def check_link(carrier, b):
    """What section 3 asks of a joint with a link."""
    link, line = carrier.links[b.link], b.line
    if b.kind == "aim":
        at_a = link.a == b.parent and np.array_equal(link.pin_a, b.pin)
        at_b = link.b == b.parent and np.array_equal(link.pin_b, b.pin)
        require(at_a or at_b, f"body {b.id}: aims along a link that does not begin at its pin and parent", line)
    else:
        require(link.b == b.id, f"body {b.id}: not the far end of link {b.link}", line)
    far_body, far_pin = carrier.far_pin(b)
    if b.kind == "slide":
        require(abs((link.pin_b - link.pin_a) @ b.axis) > 1e-9, f"body {b.id}: its link is square to its slide", line)
        return
    require(abs((link.pin_b - link.pin_a) @ b.axis) <= 1e-9, f"body {b.id}: link not square to its axis", line)
    up, down = carrier.path(far_body, b.parent)
    for j in (carrier.bodies[x] for x in up + down):
        square = (j.kind == "fixed" or j.kind == "slide" and abs(j.axis @ b.axis) <= 1e-9
                  or j.kind in ("turn", "aim") and parallel(j.axis, b.axis))
        require(square, f"body {b.id}: body {j.id} takes its link out of its plane", line)
    if b.kind == "turn":
        e = plane_of(b.axis)
        g, r = e @ (link.pin_a - b.pin), e @ (link.pin_b - b.pin)
        size = np.linalg.norm(g) * np.linalg.norm(r)
        require(size > 0 and abs(g[0] * r[1] - g[1] * r[0]) / size >= 1e-6, f"body {b.id}: its link is at dead centre", line)
