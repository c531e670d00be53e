"""Joints as a chain: what each needs, what rests, and the rules that hold once for all steps (sections 2, 3)."""
import math

import numpy as np

from text import Refused

SQUARE = 1e-9


def length(v):
    return math.sqrt(sum(x * x for x in v))


def minus(a, b):
    return tuple(x - y for x, y in zip(a, b))


def inner(a, b):
    return sum(x * y for x, y in zip(a, b))


def check_axis(body):
    if body.kind == "fixed":
        return
    size = length(body.axis)
    if size == 0 or (body.kind != "slide" and abs(size - 1) > 1e-12):
        raise Refused(f"the axis of body {body.id} has length {size}")
    if body.kind == "aim" and body.link < 0:
        raise Refused("an aim has a link")


def check_drive(body, a, b):
    if body.kind not in ("slide", "turn"):
        raise Refused(f"body {body.id} is {body.kind}: it is not driven")
    if body.link >= 0 and not (a > 0 and b > 0):
        raise Refused("lengths of links are above 0")


def hat(axis):
    x, y, z = axis
    return np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]], float)


class Chain:
    """The joints of one carrier. Everything here is the same in all steps but drive and rests."""

    def __init__(self, carrier):
        self.carrier, self.bodies, self.links = carrier, carrier.bodies, carrier.links
        self.masks = []
        for b in self.bodies:
            self.masks.append((0 if b.parent < 0 else self.masks[b.parent]) | 1 << b.id)
        self.planes, self.needs, self.rest_cache, self.still = {}, {}, {}, {}
        for b in self.bodies:
            if b.link >= 0:
                self._at(b, self._check_link, b)
        self._check_cycles()

    def _at(self, body, check, *args):
        """A rule of a link is told of the body that has it."""
        try:
            check(*args)
        except Refused as e:
            e.line, e.record = body.line, "body"
            raise

    def common(self, mask):
        """The deepest body of a set of common ancestors, as parents come before children."""
        return mask.bit_length() - 1

    def path(self, a, b):
        """Joints from body a up, and from there down to body b, both without what they share."""
        up, down = [], []
        ma = self.masks[a] if a >= 0 else 0
        mb = self.masks[b] if b >= 0 else 0
        top = self.common(ma & mb)
        while a != top:
            up.append(a)
            a = self.bodies[a].parent
        while b != top:
            down.append(b)
            b = self.bodies[b].parent
        return up, down[::-1]

    def far(self, body):
        """The link's other end as the joint's parent sees it: (its body, its pin there)."""
        link = self.links[body.link]
        if body.kind != "aim":
            return link.a, link.pin_a
        if body.pin == link.pin_a and body.parent == link.a:
            return link.b, link.pin_b
        return link.a, link.pin_a

    def _check_link(self, b):
        if b.link >= len(self.links):
            raise Refused(f"body {b.id}: there is no link {b.link}")
        link = self.links[b.link]
        if b.kind == "aim":
            near_a = b.pin == link.pin_a and b.parent == link.a
            if not near_a and not (b.pin == link.pin_b and b.parent == link.b):
                raise Refused(f"aim {b.id} does not stand at a pin of its link")
        elif link.b != b.id:
            raise Refused(f"body {b.id} is not the B of its link {b.link}")
        up, down = self.path(self.far(b)[0], b.parent)
        self.needs[b.id] = up + down
        if b.kind == "slide":
            e = minus(link.pin_b, link.pin_a)
            if inner(e, b.axis) == 0:
                raise Refused(f"body {b.id}: its link stands square to the slide as raised")
        else:
            self._check_plane(b, link)

    def _check_plane(self, b, link):
        off = inner(minus(link.pin_b, link.pin_a), b.axis)
        if not abs(off) <= SQUARE:
            raise Refused(f"body {b.id}: its link leaves the plane square to the axis by {off}")
        for j in self.needs[b.id]:
            o = self.bodies[j]
            if o.kind == "slide":
                good = abs(inner(o.axis, b.axis)) <= SQUARE * min(1.0, length(o.axis))
            elif o.kind != "fixed":
                good = min(length(minus(o.axis, b.axis)), length([x + y for x, y in zip(o.axis, b.axis)])) <= SQUARE
            else:
                good = True
            if not good:
                raise Refused(f"body {b.id}: joint {j} takes the link out of its plane")
        self.planes[b.id] = self._plane(b, link)

    def _plane(self, b, link):
        """e1, e2 as rows; the raised directions in it; for a turn |r|, the sign and the raised angle."""
        u = np.array(b.axis)
        e1 = np.cross(u, np.eye(3)[int(np.argmin(np.abs(u)))])
        e1 /= np.linalg.norm(e1)
        plane = np.array([e1, np.cross(u, e1)])
        far = plane @ np.array(minus(self.far(b)[1], b.pin))
        if b.kind == "aim":
            return plane, far, None, None, None
        r = plane @ np.array(minus(link.pin_b, b.pin))
        size = math.hypot(*far) * math.hypot(*r)
        turn = math.atan2(far[0] * r[1] - far[1] * r[0], inner(far, r))
        if size == 0 or abs(math.sin(turn)) < 1e-6:
            raise Refused(f"body {b.id}: the raised angle of its link is {turn}")
        return plane, far, r, math.copysign(1.0, turn), abs(turn)

    def _check_cycles(self):
        done, state = set(), {}
        for start in self.needs:
            stack = [(start, iter(self.needs[start]))]
            state[start] = 1
            while stack:
                b, rest = stack[-1]
                n = next(rest, None)
                if n is None:
                    state[b] = 2
                    stack.pop()
                elif state.get(n) == 1:
                    raise Refused(f"the joint of body {n} needs its own coordinate", self.bodies[n].line, "body")
                elif n in self.needs and state.get(n) != 2:
                    state[n] = 1
                    stack.append((n, iter(self.needs[n])))

    def drive(self, step, b):
        """FROM, TO; by default where it stands as raised."""
        body = self.bodies[b]
        if b in step.drives:
            return step.drives[b]
        if body.link < 0:
            return 0.0, 0.0
        link = self.links[body.link]
        raised = length(minus(link.pin_b, link.pin_a))
        return raised, raised

    def rests(self, step, b):
        """Whether the joint keeps its coordinate all through the step."""
        key = (id(step), b)
        if key not in self.rest_cache:
            body = self.bodies[b]
            still = True
            if body.kind in ("slide", "turn"):
                a, z = self.drive(step, b)
                still = a == z
            self.rest_cache[key] = still and all(self.rests(step, j) for j in self.needs.get(b, ()))
        return self.rest_cache[key]

    def resting_pair(self, step, p, q):
        up, down = self.path(p, q)
        return all(self.rests(step, j) for j in up + down)
