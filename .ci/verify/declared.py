"""Declared pairs, joined bodies and the order of steps (section 2)."""
import math

from text import Refused

NEAR = 1e-4
SAME = 1e-9


def joined(carrier, p, q):
    """Parent and child, two ends of a link, an end and an aim along it, or runs; a body with itself."""
    if p == q or (min(p, q), max(p, q)) in carrier.runs:
        return True
    bodies = carrier.bodies
    if bodies[p].parent == q or bodies[q].parent == p:
        return True
    for i, link in enumerate(carrier.links):
        group = {link.a, link.b} | {b.id for b in bodies if b.kind == "aim" and b.link == i}
        if p in group and q in group:
            return True
    return False


def check_pinned(carrier, p, q):
    a, b = carrier.parts[p].body, carrier.parts[q].body
    if not joined(carrier, a, b):
        raise Refused(f"parts {p} and {q} are pinned but their bodies {a} and {b} are not joined")


def box_gap(a, b):
    """Distance of the boxes around two vertex lists."""
    gap = 0.0
    for k in range(3):
        a0, a1 = min(v[k] for v in a), max(v[k] for v in a)
        b0, b1 = min(v[k] for v in b), max(v[k] for v in b)
        gap += max(a0 - b1, b0 - a1, 0.0) ** 2
    return math.sqrt(gap)


def check_near(a, b):
    gap = box_gap(a, b)
    if not gap <= NEAR:
        raise Refused(f"declared to touch, but the boxes as raised are {gap:.6g} m apart")


def check_face(place, solid, parts, scene):
    s = place.solids[solid]
    if scene not in s.scenes or s.zone in ("invert", "steel_ahead"):
        raise Refused(f"solid {solid} of zone {s.zone} and scenes {s.scenes} may not be declared here")
    stands = [(x - place.shift, y, z) for x, y, z in s.vertices]
    for p in parts:
        check_near(place.carrier.parts[p].vertices, stands)


def concerned(carrier, step):
    """Bodies of present parts, what they hang on, and what the links on the way need."""
    found, todo = set(), {carrier.parts[p].body for p in step.present}
    while todo:
        b = todo.pop()
        if b == -1 or b in found:
            continue
        found.add(b)
        body = carrier.bodies[b]
        todo.add(body.parent)
        if body.link >= 0:
            link = carrier.links[body.link]
            todo |= {link.a, link.b}
    return found


def order_of_steps(carrier, budget):
    """Strip and end steps go on where the one before stopped; small gaps add up over the steps."""
    before, gaps = None, {}
    for step in carrier.steps:
        if step.kind == "raise":
            continue
        budget.spend(len(step.present) + len(carrier.bodies))
        if before is not None:
            _compare(carrier, before, step, gaps)
        before = step


def _compare(carrier, before, step, gaps):
    new = set(step.present) - set(before.present)
    if new:
        raise Refused(f"part {min(new)} is present but was absent in step {before.id}", step.line, f"step {step.id}")
    chain = carrier.geometry
    for b in sorted(concerned(carrier, step)):
        if carrier.bodies[b].kind not in ("slide", "turn"):
            continue
        gap = abs(chain.drive(step, b)[0] - chain.drive(before, b)[1])
        gaps[b] = gaps.get(b, 0.0) + gap
        if not gaps[b] <= SAME:
            raise Refused(f"body {b} begins {gap:.6g} from where step {before.id} left it", step.line, f"step {step.id}")
