#!/usr/bin/python3
"""Verify a written proof of clearances a second time.

    .ci/verify.py PROOF [RESULT.json]
    .ci/verify.py --tamper PROOF RESULT.json BOXWALK_BINARY
    .ci/verify.py --tamper-frames PROOF RESULT.json BOXWALK_BINARY

Written from clearance/proof/FORMAT.md alone, in another language and without a
look at the first verifier, so that one misreading does not pass both; only
`carry`, `tip` and `near` were added by somebody who knew the first, and frames.py,
written by somebody who did not, holds where they put the carrier. The section
numbers below are that page's. The first form prints what holds and what
was taken on trust (exit 0), or `refused: line L: reason` (exit 1). The second
makes tampered copies of a proof that holds and fails unless this verifier and
`BOXWALK_BINARY verify` both refuse every one.
Needs numpy (Debian and Ubuntu: python3-numpy).
"""

import bisect
import collections
import hashlib
import json
import math
import re
import subprocess
import sys
import tempfile
import unicodedata

import numpy as np

np.seterr(all="ignore")  # infinities and NaN end in a bound that holds nothing

SLACK = 2e-6
PIECES = 8
ROUND = 2.0 ** -43
CHUNK = 4000  # leaves whose motion is worked out together
MAX_BYTES, MAX_LINES, MAX_LINE = 2 ** 28, 2 ** 24, 2 ** 20
MAX_VERTICES, MAX_WORK, MAX_KEPT = 2 ** 22, 2e9, 2 ** 25
MAX_BODIES, MAX_KIND, MAX_INPUTS = 2 ** 10, 2 ** 20, 100
PLACE_ORDER = {k: i for i, keys in enumerate((("twin",), ("solid",), ("face",), ("lands",), ("stands",), ("rolls",),
                                              ("step", "drive", "absent", "steer", "carry", "tip"))) for k in keys}
KEPT_ZONES = ("hanger", "steel_ahead")
LETTER = {"strip": "s", "end": "s", "raise": "r", "roll": "a"}
CHECK_IDS = ("strip.dig", "strip.self", "strip.clear", "strip.supports", "raise.clear", "roll.clear")

NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?\Z")
WHOLE = re.compile(r"(?:0|[1-9][0-9]{0,9})\Z")
SIGNED = re.compile(r"-?[0-9]{1,8}\Z")
HASH = re.compile(r"[0-9a-f]{64}\Z")


class Refused(Exception):
    """The proof does not hold, or is not one."""

    def __init__(self, reason, line=None, claim=""):
        super().__init__(reason)
        self.reason, self.line, self.claim = reason, line, claim

    def __str__(self):
        where = f"line {self.line}: " if self.line is not None else ""
        return f"refused: {where}{self.claim + ': ' if self.claim else ''}{self.reason}"


def require(condition, reason, line=None):
    if not condition:
        raise Refused(reason, line)


# ---- 1. Text ---------------------------------------------------------------

def number(word):
    require(NUMBER.match(word), f"not a number: {word[:40]}")
    value = float(word)
    require(abs(value) <= 1e6, f"number too large: {word[:40]}")
    return value


def whole(word, least=0):
    if least == -1 and word == "-1":
        return -1
    require(WHOLE.match(word), f"not a whole number: {word[:40]}")
    return int(word)


def vector(word):
    parts = word.split(",")
    require(len(parts) == 3, f"not a vector: {word[:60]}")
    return np.array([number(p) for p in parts])


def cover(text, members):
    """The members of a sorted tuple that a LIST covers, and the rest."""
    listed, rest, last = [], [], 0
    for item in text.split(","):
        first, dash, final = item.partition("-")
        a = whole(first)
        b = whole(final) if dash else a
        i, j = bisect.bisect_left(members, a), bisect.bisect_right(members, b)
        require(j > i, f"the list covers nothing at {item}")
        require(i >= last, f"the list does not rise at {item}")
        rest.extend(members[last:i])
        listed.extend(members[i:j])
        last = j
    rest.extend(members[last:])
    return tuple(listed), tuple(rest)


class Reader:
    """The records of a proof, one after another."""

    def __init__(self, data):
        require(len(data) <= MAX_BYTES, "the file is too long")
        try:
            text = data.decode("utf-8")
        except UnicodeDecodeError as error:
            raise Refused(f"not UTF-8: {error.reason}") from None
        self.lines = text.split("\n")
        if self.lines and self.lines[-1] == "":
            self.lines.pop()
        require(len(self.lines) <= MAX_LINES, "too many lines")
        self.at = 0
        self.words, self.name, self.key = [], None, ""
        self.advance()

    @property
    def line(self):
        return self.at

    def advance(self):
        """Read the next record; key is "" behind the last."""
        if self.at >= len(self.lines):
            self.key, self.words, self.name = "", [], None
            self.at = len(self.lines) + 1
            return
        text = self.lines[self.at]
        self.at += 1
        require(len(text) * 4 <= MAX_LINE or len(text.encode()) <= MAX_LINE, "line too long")
        require(not any(unicodedata.category(c) == "Cc" for c in text), "a control character")
        cut = text.find(' "')
        self.name = None
        if cut >= 0:
            self.name = self._name(text[cut + 1:])
            text = text[:cut]
        self.words = text.split(" ")
        require(all(self.words) and self.words, "an empty word or line")
        self.key = self.words[0]

    @staticmethod
    def _name(text):
        require(text == text.strip(), "blanks behind the name")
        try:
            name = json.loads(text)
        except ValueError:
            raise Refused("the name is not a JSON string") from None
        require(isinstance(name, str), "the name is not a JSON string")
        require("\ufffd" not in name and not any("\ud800" <= c <= "\udfff" for c in name), "the name stands for no text")
        return name

    def take(self, least, most=None, named=False):
        """The words behind the key; then the next record is read by the caller."""
        count = len(self.words) - 1
        require(count >= least and count <= (least if most is None else most), f"{self.key}: wrong number of words")
        require((self.name is not None) == named, f"{self.key}: " + ("no name" if named else "a name that may not be"))
        return self.words[1:]


# ---- 2. Model --------------------------------------------------------------

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


class Place:
    def __init__(self, ident, carrier, shift, name):
        self.id, self.carrier, self.shift, self.name = ident, carrier, shift, name
        self.twins, self.solids, self.vertices, self.steps = [], [], [], []
        self.face, self.lands, self.stands, self.rolls = {}, {}, set(), set()

    def step(self, ident):
        for s in self.carrier.steps + self.steps:
            if s.id == ident:
                return s
        raise Refused(f"no step {ident}")

    def may_touch(self, step, part, solid):
        key = (solid, part)
        if step.kind == "roll":
            return key in self.rolls
        if key in self.stands:
            return True
        if step.kind == "strip":
            return key in self.face and step.id <= self.face[key]
        return step.kind == "raise" and key in self.lands and step.id >= self.lands[key]


Solid = collections.namedtuple("Solid", "zone kind scenes")


class Model:
    """Head and model, read from the records (section 2)."""

    ORDER = {k: i for i, k in enumerate(("body", "link", "runs", "part", "pinned", "seam", "step"))}

    def __init__(self, reader):
        self.r = reader
        self.inputs, self.result, self.scope = [], None, None
        self.zones, self.carriers, self.places = {}, [], []
        self.vertex_count = 0
        self.names = set()
        self.counts = collections.Counter()
        self._head()
        self._zones()
        while self.r.key == "carrier":
            self._carrier()
        while self.r.key == "place":
            self._place()

    def _head(self):
        r = self.r
        require(r.words == ["boxwalk-proof", "1"] and r.name is None, "not a proof of format 1")
        r.advance()
        while r.key == "input":
            (sha,) = r.take(1, named=True)
            require(HASH.match(sha), "input: not a SHA-256")
            self.inputs.append((sha, r.name))
            require(len(self.inputs) <= MAX_INPUTS, "too many inputs")
            r.advance()
        if r.key == "result":
            (self.result,) = r.take(1)
            require(HASH.match(self.result), "result: not a SHA-256")
            r.advance()
        require(r.key == "scope", f"scope is missing before {r.key}")
        (self.scope,) = r.take(1)
        require(self.scope in ("all", "some"), "scope: all or some")
        r.advance()

    def _zones(self):
        r = self.r
        while r.key == "zone":
            (zone,) = r.take(1, named=True)
            require(":" not in zone and zone != "self" and zone not in self.zones, f"zone {zone}: not allowed or twice")
            self.zones[zone] = r.name
            self._count("zone")
            r.advance()

    def _count(self, kind, by=1):
        self.counts[kind] += by
        require(self.counts[kind] <= (MAX_BODIES if kind == "body" else MAX_KIND), f"too many of {kind}")

    def _next(self, word, sequence, kind):
        require(whole(word) == len(sequence), f"{kind} {word}: its id should be {len(sequence)}")
        self._count(kind)

    def _hull(self, words):
        require(len(words) >= 4, "a solid of fewer than 4 vertices")
        self.vertex_count += len(words)
        require(self.vertex_count <= MAX_VERTICES, "too many vertices")
        return [vector(w) for w in words]

    def _carrier(self):
        r = self.r
        (word,) = r.take(1)
        self._next(word, self.carriers, "carrier")
        c = Carrier(len(self.carriers))
        self.carriers.append(c)
        r.advance()
        stage, closed = 0, False
        while r.key in self.ORDER or r.key in ("drive", "absent"):
            if r.key in ("drive", "absent"):
                require(c.steps, f"{r.key} before a step")
                self._step_detail(c, c.steps[-1])
            else:
                require(self.ORDER[r.key] >= stage, f"{r.key}: out of order")
                stage = self.ORDER[r.key]
                if stage >= self.ORDER["runs"] and not closed:
                    closed = True
                    c.close_model()
                getattr(self, "_" + r.key)(c)
            r.advance()
        if not closed:
            c.close_model()
        for s in c.steps:
            s.finish(len(c.part_body))
        c.finish()

    def _body(self, c):
        r, words = self.r, self.r.words[1:]
        require(len(words) >= 3, "body: too few words")
        self._next(words[0], c.bodies, "body")
        parent, kind = whole(words[1], -1), words[2]
        require(parent < len(c.bodies), "body: its parent is not earlier")
        b = Body(len(c.bodies), parent, kind, r.line)
        if kind == "fixed":
            r.take(3, named=True)
        else:
            require(kind in ("slide", "turn", "aim"), f"body: no joint {kind}")
            words = r.take(6, named=True)
            b.axis, b.pin = vector(words[3]), vector(words[4])
            b.link = None if words[5] == "-" else whole(words[5])
            b.length = float(np.linalg.norm(b.axis))
            require(b.length > 0 if kind == "slide" else abs(b.length - 1) <= 1e-12, "body: length of its axis")
            require(kind != "aim" or b.link is not None, "body: an aim without a link")
        c.bodies.append(b)

    def _link(self, c):
        words = self.r.take(5)
        self._next(words[0], c.links, "link")
        a, b = whole(words[1], -1), whole(words[2])
        require(a < len(c.bodies) and b < len(c.bodies) and a != b, "link: its bodies")
        link = Link(a, b, vector(words[3]), vector(words[4]))
        require(link.raised > 0, "link: its pins are not apart")
        c.links.append(link)

    def _pair(self, limit):
        words = self.r.take(2)
        p, q = whole(words[0]), whole(words[1])
        require(p < q < limit, f"{self.r.key}: not a pair")
        self._count(self.r.key)
        return p, q

    def _runs(self, c):
        p, q = self._pair(len(c.bodies))
        require((p, q) not in c.runs, "runs: twice")
        require(c.bodies[q].parent != p, "runs: one hangs on the other")
        c.runs.add((p, q))

    def _part(self, c):
        words = self.r.take(6, 1 << 20, named=True)
        self._next(words[0], c.part_body, "part")
        body = whole(words[1])
        require(body < len(c.bodies), "part: no such body")
        c.vertices.append(self._hull(words[2:]))
        c.part_body.append(body)

    def _pinned(self, c):
        p, q = self._pair(len(c.part_body))
        require((p, q) not in c.pinned, "pinned: twice")
        require(c.joined(c.part_body[p], c.part_body[q]), "pinned: their bodies are not joined")
        c.pinned.add((p, q))

    def _seam(self, c):
        p, q = self._pair(len(c.part_body))
        require((p, q) not in c.seams and (p, q) not in c.pinned, "seam: declared twice")
        a, b = np.array(c.vertices[p]), np.array(c.vertices[q])
        require(near(a.min(0), a.max(0), b.min(0), b.max(0)), "seam: the parts do not meet")
        c.seams.add((p, q))

    def _step(self, c):
        words = self.r.take(2, named=True)
        ident = whole(words[0])
        require(words[1] in ("strip", "raise", "end"), f"step: no kind {words[1]}")
        require(not c.steps or ident > c.steps[-1].id, "step: ids do not rise")
        self._count("step")
        c.steps.append(Step(ident, words[1], self.r.name, self.r.line))

    def _step_detail(self, c, step):
        r = self.r
        if r.key == "absent":
            (text,) = r.take(1)
            require(step.absent is None, "absent: twice")
            step.absent, step.present = cover(text, tuple(range(len(c.part_body))))
            self.counts["absent part"] += len(step.absent)
        elif r.key in FRAMES:
            require(step.kind == "roll" and step.frame is None, f"{r.key}: not in a roll step, or a second frame")
            kind = FRAMES[r.key]
            step.frame = kind(r.take(kind.words))
            self._count(r.key)
        else:
            words = r.take(3)
            body = whole(words[0])
            require(body < len(c.bodies) and body not in step.drives, "drive: no such body, or twice")
            b = c.bodies[body]
            require(b.kind in ("slide", "turn"), "drive: of a joint that nothing drives")
            ends = number(words[1]), number(words[2])
            require(b.link is None or min(ends) > 0, "drive: a link's length is not above 0")
            require(step.kind != "end" or ends[0] == ends[1], "drive: moves in an end step")
            step.drives[body] = ends

    def _place(self):
        r = self.r
        words = r.take(3, named=True)
        self._next(words[0], self.places, "place")
        carrier = whole(words[1])
        require(carrier < len(self.carriers), "place: no such carrier")
        p = Place(len(self.places), self.carriers[carrier], number(words[2]), r.name)
        self._new_name(r.name)
        self.places.append(p)
        r.advance()
        stage = 0
        while r.key in PLACE_ORDER:
            require(PLACE_ORDER[r.key] >= stage, f"{r.key}: out of order")
            stage = PLACE_ORDER[r.key]
            if r.key == "twin":
                r.take(0, named=True)
                self._new_name(r.name)
                p.twins.append(r.name)
                self._count("twin")
            elif r.key == "solid":
                self._solid(p)
            elif r.key == "step":
                self._roll_step(p)
            elif stage == PLACE_ORDER["drive"]:
                require(p.steps, f"{r.key} before a step of the place")
                self._step_detail(p.carrier, p.steps[-1])
            else:
                self._declared(p)
            r.advance()
        for s in p.steps:
            s.finish(len(p.carrier.part_body))
        p.hulls = Hulls(p.vertices)

    def _new_name(self, name):
        require(name not in self.names, f"two places are named {name}")
        self.names.add(name)

    def _solid(self, p):
        words = self.r.take(7, 1 << 20)
        self._next(words[0], p.solids, "solid of a place " + str(p.id))
        self._count("solid")
        zone, colon, kind = words[1].partition(":")
        require(zone in self.zones, f"solid: no zone {zone}")
        require(not colon or kind and ":" not in kind, "solid: its kind")
        require(words[2] and set(words[2]) <= set("sra") and len(set(words[2])) == len(words[2]), "solid: its scenes")
        p.solids.append(Solid(zone, kind if colon else None, words[2]))
        p.vertices.append([v - np.array([p.shift, 0, 0]) for v in self._hull(words[3:])])

    def _declared(self, p):
        r, kind = self.r, self.r.key
        timed = kind in ("face", "lands")
        words = r.take(3 if timed else 2)
        solid = whole(words[0])
        require(solid < len(p.solids), f"{kind}: no such solid")
        s = p.solids[solid]
        if timed:
            require({"face": "s", "lands": "r"}[kind] in s.scenes and s.zone not in ("invert", "steel_ahead"),
                    f"{kind}: a solid that may not be touched so")
        else:
            require(s.zone == "invert", f"{kind}: not of the invert")
        parts, _ = cover(words[-1], p.carrier.parts)
        store = getattr(p, kind)
        for part in parts:
            require((solid, part) not in store, f"{kind}: part {part} twice")
            if timed:
                v = np.array(p.vertices[solid])
                h = p.carrier.hulls
                require(near(v.min(0), v.max(0), h.low[part], h.high[part]), f"{kind}: part {part} does not meet solid {solid}")
                store[(solid, part)] = whole(words[1])
            else:
                store.add((solid, part))
        self._count(kind, len(parts))

    def _roll_step(self, p):
        words = self.r.take(2, named=True)
        ident = whole(words[0])
        require(words[1] == "roll", "step: a place has roll steps only")
        before = p.steps or p.carrier.steps
        require(not before or ident > before[-1].id, "step: ids do not rise")
        self._count("step")
        p.steps.append(Step(ident, "roll", self.r.name, self.r.line))


def near(low_a, high_a, low_b, high_b):
    """Whether two boxes are at most 0.1 mm apart."""
    gap = np.maximum(np.maximum(low_a - high_b, low_b - high_a), 0)
    return float(np.linalg.norm(gap)) <= 1e-4


# ---- Intervals, rounded outward, many at once ------------------------------

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


# ---- 3. Kinematics ---------------------------------------------------------

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


def in_plan(v):
    return np.array([v[0], v[1], 0.0])


def toward(heading):
    """The directions along a heading and left of it, in plan."""
    return np.array([math.cos(heading), math.sin(heading), 0]), np.array([-math.sin(heading), math.cos(heading), 0])


def angle_rates(x, y):
    """q' and q'' of the angle of a moving vector (x, y), as a Jet without its value."""
    d2 = x.v.square() + y.v.square()
    d = (x.v * y.d - y.v * x.d) / d2
    return Jet(0.0, d, (x.v * y.e - y.v * x.e - 2.0 * (d * (x.v * x.d + y.v * y.d))) / d2)


class Placed:
    """What a record that places a carrier's frame does (sections 3 and 4).

    `joints`, `far` and `unsure` enter the rounding; poses(s) are rotations and
    translations; curve(s) over intervals gives how the frame is turned before it
    turns, the point c, the most that c is accelerated and what turns: each an axis
    in the carrier's coordinates, the same axis in the frame looked from, and its
    rates.
    """


class Steer(Placed):
    words, joints = 6, 1

    def __init__(self, words):
        self.start, self.end, self.on = vector(words[0]), vector(words[1]), vector(words[2])
        self.heading = number(words[3])
        self.rear, front = vector(words[4]), vector(words[5])
        along = front - self.rear
        base = math.hypot(along[0], along[1])
        require(base >= 0.1, "steer: REAR and FRONT are too near in plan")
        self.own = math.atan2(along[1], along[0])
        _, left = toward(self.heading)
        self.h = [float((p - self.on) @ left) / base for p in (self.start, self.end)]
        require(max(abs(h) for h in self.h) < 0.9, "steer: too far off the line")
        most = max(np.linalg.norm(self.start), np.linalg.norm(self.end))
        self.far = np.linalg.norm(self.rear) + most
        self.unsure = 2.0 ** -45 * (1 + (np.linalg.norm(self.on) + most) / base)

    def poses(self, s):
        r = rotations(Z, self.heading - np.arcsin(self.h[0] + s * (self.h[1] - self.h[0])) - self.own)
        t = self.start + s[:, None] * (self.end - self.start) - r @ self.rear
        t[:, 2] = 0
        return r, t

    def curve(self, s):
        if self.h[0] == self.h[1]:
            return self.poses(np.zeros(1))[0][0], in_plan(self.rear), 0.0, []
        dh = Iv(self.h[1]) - self.h[0]
        h = s * dh + self.h[0]
        c2 = Iv(1.0) - h.square()
        jet = Jet(0.0, -(dh / c2.sqrt()), -(dh.square() * h / (c2 * c2.sqrt())))
        return np.eye(3), in_plan(self.rear), 0.0, [(Z, Z, jet)]


class Facing(Placed):
    """A frame that yaws and pitches in a level frame: carry and tip."""

    def level(self, origin, tilt):
        self.origin, self.tilt = vector(origin), rotations(Y, np.array(number(tilt)))

    def placed(self, yaw, pitch, at, to):
        """The poses that face so and take the carrier's point `at` to `to` of the level frame."""
        r = self.tilt @ rotations(Z, yaw) @ rotations(-Y, pitch)
        return r, self.origin + to @ self.tilt.T - r @ at

    def turned(self, c, a, yaw, pitch, rates):
        """curve, at the yaw and pitch of one moment; rates are None for what rests."""
        before = self.tilt @ rotations(Z, np.array(yaw))
        up = rotations(-Y, np.array(pitch))
        spins = []
        if rates[0] is not None:
            spins.append((up.T @ Z, self.tilt @ Z, rates[0]))
        if rates[1] is not None:
            spins.append((-Y, before @ -Y, rates[1]))
        return before @ up, c, a, spins


class Carry(Facing):
    words, joints = 14, 3

    def __init__(self, words):
        self.level(words[0], words[1])
        self.guide, self.base = vector(words[2]), number(words[3])
        at1, heading1, self.start, self.end = in_plan(vector(words[4])), number(words[5]), number(words[6]), number(words[7])
        at2, self.heading = in_plan(vector(words[8])), number(words[9])
        self.ahead = [number(words[10]), number(words[12])]
        planes = [vector(words[11]), vector(words[13])]
        self.slope, self.height = [in_plan(p) for p in planes], [p[2] for p in planes]
        wide = self.ahead[1] - self.ahead[0]
        require(self.base >= 0.1 and wide >= 0.1, "carry: BASE or the wheel lines are too near")
        require(max(np.linalg.norm(q) for q in self.slope) <= 0.5, "carry: too steep a plane")
        self.at1, (self.along1, _) = at1, toward(heading1)
        self._solve(at2, heading1, wide)
        p = max(np.linalg.norm(self.p(s)) for s in (0.0, 1.0))
        self.far = (np.linalg.norm(self.guide) + np.linalg.norm(self.origin) + np.linalg.norm(at1) + abs(self.start) + abs(self.end)
                    + abs(self.ahead[0]) + abs(self.ahead[1]) + abs(self.height[0]))
        self.unsure = 2.0 ** -45 * (1 + (np.linalg.norm(at2) + p) / self.base + (abs(self.height[0]) + abs(self.height[1]) + p) / wide)

    def p(self, s):
        return self.at1 + (self.start + (self.end - self.start) * s) * self.along1

    def _solve(self, at2, heading1, wide):
        """m at s = 0 and 1, and k, in the axes (u, n, z)."""
        self.u, self.n = toward(self.heading)
        (low, high), (sl, sh), (hl, hh) = self.ahead, self.slope, self.height
        w = (high * sh - low * sl) / wide
        require(np.linalg.norm(w) <= 1, "carry: |w| is above 1")
        self.alpha, beta = float(w @ self.u), float(w @ self.n)
        one = heading1 == self.heading
        r1 = [float(self.n @ (at2 - (self.at1 if one else self.p(s)))) / self.base for s in (0.0, 1.0)]
        r2 = [(hl - hh + float((sl - sh) @ self.p(s))) / wide for s in (0.0, 1.0)]
        if np.array_equal(sl, sh):
            r2[1] = r2[0]
        x = [(b - beta * a) / (1 + self.alpha ** 2) for a, b in zip(r1, r2)]
        self.m = [np.array([self.alpha * c, a, -c]) for a, c in zip(r1, x)]
        self.k = np.array([1, 0, self.alpha]) / math.hypot(1, self.alpha)
        require(max(np.linalg.norm(m) for m in self.m) < 0.9, "carry: too far off the straight ahead")
        rests = np.array_equal(self.m[0], self.m[1])
        self.yaws = not rests and not (r1[0] == 0 and r1[1] == 0)
        self.pitches = not rests and not (x[0] == x[1] and self.alpha == 0)

    def direction(self, s):
        m = self.m[0] + np.asarray(s)[..., None] * (self.m[1] - self.m[0])
        return m + self.k * np.sqrt(1 - (m * m).sum(-1))[..., None]

    def poses(self, s):
        e = self.direction(s)
        p = self.p(s[:, None])
        foot = p + self.ahead[0] * (e[:, :1] * self.u + e[:, 1:2] * self.n)
        p[:, 2] = self.height[0] + foot @ self.slope[0] - self.ahead[0] * e[:, 2]
        return self.placed(*self._angles(e), self.guide, p)

    def _angles(self, e):
        return self.heading + np.arctan2(e[..., 1], e[..., 0]), np.arctan2(e[..., 2], np.hypot(e[..., 0], e[..., 1]))

    def curve(self, s):
        rate = [Iv(b) - a if a != b else Iv(0.0) for a, b in zip(*self.m)]
        m = [Jet(s * d + a, d) if (d.lo != 0 or d.hi != 0) else Jet(a) for a, d in zip(self.m[0], rate)]
        left = Iv(1.0) - (m[0].v.square() + m[1].v.square() + m[2].v.square())
        require(np.all(left.lo > 0), "carry: off the straight ahead")
        l = left.sqrt()
        ld = -(dot([x.v for x in m], rate) / l)
        le = -((rate[0].square() + rate[1].square() + rate[2].square() + ld.square()) / l)
        e = [x + Jet(l, ld, le).scaled(float(k)) for x, k in zip(m, self.k)]
        f = (e[0].v.square() + e[1].v.square()).sqrt()
        fd = (e[0].v * e[0].d + e[1].v * e[1].d) / f
        fe = (e[0].d.square() + e[1].d.square() + e[0].v * e[0].e + e[1].v * e[1].e - fd.square()) / f
        low = self.ahead[0]
        rise = e[0].e * float(low * (self.slope[0] @ self.u)) + e[1].e * float(low * (self.slope[0] @ self.n)) - e[2].e * low
        rates = angle_rates(e[0], e[1]) if self.yaws else None, angle_rates(Jet(f, fd, fe), e[2]) if self.pitches else None
        a = rise.size() if self.yaws or self.pitches else 0.0
        return self.turned(self.guide, a, *self._angles(self.direction(0.0)), rates)


class Tip(Facing):
    words, joints, unsure = 9, 2, 0.0

    def __init__(self, words):
        self.level(words[0], words[1])
        self.pivot, self.start, self.end = vector(words[2]), vector(words[3]), vector(words[4])
        self.yaw, self.pitch = [number(w) for w in words[5:7]], [number(w) for w in words[7:9]]
        require(max(abs(p) for p in self.pitch) < 0.9, "tip: pitched too far")
        self.far = np.linalg.norm(self.pivot) + np.linalg.norm(self.origin) + max(np.linalg.norm(self.start), np.linalg.norm(self.end))

    def poses(self, s):
        yaw, pitch = (d[0] + s * (d[1] - d[0]) for d in (self.yaw, self.pitch))
        return self.placed(yaw, pitch, self.pivot, self.start + s[:, None] * (self.end - self.start))

    def curve(self, s):
        rates = [Jet(0.0, Iv(d[1]) - d[0]) if d[0] != d[1] else None for d in (self.yaw, self.pitch)]
        return self.turned(self.pivot, 0.0, self.yaw[0], self.pitch[0], rates)


FRAMES = {"steer": Steer, "carry": Carry, "tip": Tip}


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


# ---- 4. Bounds -------------------------------------------------------------

def chord(f0, f1, k):
    """The least of a function with these ends and |f''| D² <= k."""
    lower = np.minimum(f0, f1)
    d = f1 - f0
    sag = (f0 + f1) / 2 - k / 8 - d * d / (2 * k)
    return np.where(2 * np.abs(d) >= k, lower, sag)


def unit(word):
    n = vector(word)
    size = math.sqrt(float(n @ n))
    require(size > 1e-9, "a normal of no length")
    return n / size


Leaf = collections.namedtuple("Leaf", "line kind a b s0 s1 touched n0 n1")


class Evaluator:
    """Bounds of the leaves of one claim, some at a time."""

    def __init__(self, claim, verifier):
        self.claim, self.v = claim, verifier
        self.c, self.step = claim.carrier, claim.step
        self.rests = verifier.rests_in(self.c, self.step)
        self.pending = []
        self.most = max(1, min(CHUNK, MAX_KEPT // (128 * max(1, len(self.c.bodies)))))

    def add(self, leaf):
        self.pending.append(leaf)
        if len(self.pending) >= self.most:
            self.flush()

    def flush(self):
        if not self.pending:
            return
        ends = sorted({s for f in self.pending for s in (f.s0, f.s1)})
        spans = sorted({(f.s0, f.s1) for f in self.pending})
        self.index = {s: i for i, s in enumerate(ends)}
        self.span = {s: i for i, s in enumerate(spans)}
        self.v.keep(len(self.c.bodies) * (len(ends) * 16 + len(spans) * 4 * PIECES))
        self.motion = Motion(self.c, self.step, self.rests, np.array(ends), np.array(spans))
        for f in self.pending:
            try:
                self._leaf(f)
            except Refused as refusal:
                if refusal.line is None:
                    refusal.line, refusal.claim = f.line, self.claim.words
                raise
        self.pending = []

    def _leaf(self, f):
        self.i0, self.i1, self.k = self.index[f.s0], self.index[f.s1], self.span[(f.s0, f.s1)]
        self.dd = (f.s1 - f.s0) ** 2
        frame = -1
        if self.claim.is_self:
            frame = self.c.common(sorted({self.c.part_body[p] for p in f.a + f.b}))
        self.v.matrix(f.a, f.b)
        a, b = self._side(f.a, frame, True), self._side(f.b, frame, self.claim.is_self)
        asked = self.claim.asked(f)
        exempt = self.claim.exempt(f.a, f.b) if self.claim.is_self else None
        one = len(f.a) == 1 and len(f.b) == 1
        if f.kind == "W":
            bound = self._turning(f, a[0], b[0])
        elif one and a[0].moves and b[0].moves:
            bound = self._both(f, a[0], b[0])
        else:
            low_a, low_b = self._lows(a, len(f.a), -f.n0), self._lows(b, len(f.b), f.n0)
            bound = low_a[:, None] + low_b[None, :] - self._rounding(a, b, len(f.a), len(f.b))
        margin = bound - (asked - SLACK)
        if exempt is not None:
            margin = np.where(exempt, np.inf, margin)
        if not np.all(margin >= 0):
            i, j = np.unravel_index(int(np.argmin(np.where(np.isnan(margin), -np.inf, margin))), margin.shape)
            second = "part" if self.claim.is_self else "solid"
            got = np.broadcast_to(bound, margin.shape)[i, j]
            want = np.broadcast_to(asked, margin.shape)[i, j]
            raise Refused(f"{f.kind}: part {f.a[i]} and {second} {f.b[j]}: {got:.9g} m is shown, {want:.9g} m is asked")
        if self.v.observe is not None:
            self.v.observe(self.claim, f, float(margin.min()))

    def points(self, one, other, s):
        """The vertices of a pair at one moment, in a common frame, and E."""
        self.v.keep(len(self.c.bodies) * (16 + 4 * PIECES))
        self.motion = Motion(self.c, self.step, self.rests, np.array([s]), np.array([[s, s]]))
        self.i0 = self.i1 = self.k = 0
        own = self.claim.is_self
        frame = self.c.common(sorted({self.c.part_body[p] for p in (one, other)})) if own else -1
        a, b = self._side((one,), frame, True)[0], self._side((other,), frame, own)[0]
        return (a.at_start(), b.at_start()), float(self._rounding([a], [b], 1, 1)[0, 0])

    def _side(self, ids, frame, parts):
        """One entry for each body of the set."""
        if not parts:
            return [Group(None, None, ids, np.arange(len(ids)), self.claim.place.hulls, self)]
        if len(ids) == 1:
            return [self._group(frame, self.c.part_body[ids[0]], ids, np.zeros(1, int))]
        ids_ = np.array(ids)
        bodies = self.c.body_of[ids_]
        return [self._group(frame, b, ids_[bodies == b], np.flatnonzero(bodies == b)) for b in sorted(set(bodies.tolist()))]

    def _group(self, frame, body, ids, where):
        return Group(self.motion.view(frame, body), body, ids, where, self.c.hulls, self)

    def _lows(self, groups, count, n):
        out = np.empty(count)
        for g in groups:
            out[g.where] = g.lows(n)
        return out

    def _rounding(self, a, b, na, nb):
        ra, ea, ja = self._spread(a, na)
        rb, eb, jb = self._spread(b, nb)
        joints = 1 + ja[:, None] + jb[None, :]
        return ROUND * joints * (ra[:, None] + rb[None, :]) + ea[:, None] + eb[None, :]

    @staticmethod
    def _spread(groups, count):
        r, e, j = np.empty(count), np.empty(count), np.empty(count)
        for g in groups:
            r[g.where], e[g.where], j[g.where] = g.rounding()
        return r, e, j

    def _both(self, f, a, b):
        v0, v1, kv = a.along(f.n0)
        w0, w1, kw = b.along(f.n0)
        self.v.spend(len(v0) * len(w0))
        low = chord(w0[None, :] - v0[:, None], w1[None, :] - v1[:, None], (kv + 0 * v0)[:, None] + (kw + 0 * w0)[None, :])
        return low.min() - self._rounding([a], [b], 1, 1)

    def _turning(self, f, a, b):
        h = float(np.linalg.norm(f.n0 + f.n1)) / 2
        require(h > 0.5, "W: turns too far")
        v0, v1, kv = a.places()
        w0, w1, kw = b.places()
        self.v.spend(len(v0) * len(w0))
        u0, u1 = w0[None] - v0[:, None], w1[None] - v1[:, None]
        k = (kv + np.zeros(len(v0)))[:, None] + (kw + np.zeros(len(w0)))[None, :]
        sway = np.linalg.norm(u1 - u0, axis=2)
        turn = float(np.linalg.norm(f.n1 - f.n0))
        low = chord(u0 @ f.n0, u1 @ f.n1, k + 2 * turn * (sway + k / 2)).min() - 2 * self._rounding([a], [b], 1, 1)
        return np.where(low < 0, low / h, low)


class Group:
    """Hulls of one body (or of the ground) in a leaf."""

    __slots__ = ("view", "body", "ids", "where", "hulls", "ev", "moves")

    def __init__(self, view, body, ids, where, hulls, ev):
        self.view, self.body, self.ids, self.where, self.hulls, self.ev = view, body, ids, where, hulls, ev
        self.moves = view is not None and view.moves

    def _selected(self):
        """The vertices looked at (slice or indices) and where each hull begins."""
        h = self.hulls
        if len(self.ids) == 1:
            return h.slice(self.ids[0]), None
        ids = np.asarray(self.ids)
        sizes = h.start[ids + 1] - h.start[ids]
        begins = np.concatenate([[0], np.cumsum(sizes)[:-1]])
        return np.repeat(h.start[ids] - begins, sizes) + np.arange(sizes.sum()), begins

    def lows(self, n):
        which, begins = self._selected()
        f0, f1, k = self._values(n, which)
        low = np.minimum(f0, f1) if isinstance(k, float) else chord(f0, f1, k)
        return low.min() if begins is None else np.minimum.reduceat(low, begins)

    def along(self, n):
        return self._values(n, self._selected()[0])

    def _values(self, n, which):
        """n.v at both ends, and K D² (0.0 where there is none)."""
        x = self.hulls.x[which]
        self.ev.v.spend(len(x))
        if self.view is None:
            f = x @ n
            return f, f, 0.0
        v, ev = self.view, self.ev
        f0 = x @ (n @ v.r[ev.i0]) + float(n @ v.t[ev.i0])
        f1 = x @ (n @ v.r[ev.i1]) + float(n @ v.t[ev.i1])
        share = 1.0 if v.axis is None else float(np.linalg.norm(np.cross(n, v.axis)))
        return f0, f1, self._bend(which, share)

    def _bend(self, which, share):
        v, ev = self.view, self.ev
        a, w = v.a[ev.k], v.w[ev.k]
        if a == 0 and w == 0:
            return 0.0
        rho = 0.0 if v.rho is None else v.rho[which]
        return (a + w * rho * share) * ev.dd + np.zeros(len(self.hulls.x[which]))

    def places(self):
        """The vertices at both ends, and K D² with the whole share."""
        which, _ = self._selected()
        x = self.hulls.x[which]
        if self.view is None:
            return x, x, 0.0
        v, ev = self.view, self.ev
        return (x @ v.r[ev.i0].T + v.t[ev.i0], x @ v.r[ev.i1].T + v.t[ev.i1], self._bend(which, 1.0))

    def at_start(self):
        x = self.hulls.x[self._selected()[0]]
        return x if self.view is None else x @ self.view.r[self.ev.i0].T + self.view.t[self.ev.i0]

    def rounding(self):
        far = self.hulls.far[np.asarray(self.ids)]
        if self.view is None:
            return far, 0.0, 0.0
        v, ev = self.view, self.ev
        r = far + 2 * max(v.size[ev.i0], v.size[ev.i1]) + v.reach[ev.k]
        turned, slid = (max(w[ev.i0], w[ev.i1]) for w in v.width)
        return r, r * turned + slid, float(v.joints)


# ---- 5, 6. Claims and trees ------------------------------------------------

class Claim:
    def __init__(self, verifier, reader):
        r, m = reader, verifier.model
        self.v, self.line = verifier, r.line
        self.words = " ".join(r.words)
        self.is_self = r.key == "self"
        words = r.take(2 if self.is_self else 3)
        owner = whole(words[0])
        owners = m.carriers if self.is_self else m.places
        require(owner < len(owners), f"{r.key}: no such owner")
        self.place = None if self.is_self else m.places[owner]
        self.carrier = m.carriers[owner] if self.is_self else self.place.carrier
        ident = whole(words[1])
        if self.is_self:
            found = [s for s in self.carrier.steps if s.id == ident and s.kind == "strip"]
            require(found, "self: no such strip step")
            self.step = found[0]
            self.zone = self.kind = None
        else:
            self.step = self.place.step(ident)
            self._set(words[2], m)
        self.key = (r.key, owner, ident, None if self.is_self else words[2])
        self.needs, self.touches, self.uppers = {}, {}, {}
        size = len(self.carrier.part_body)
        self.free, self.touch = np.full(size, -np.inf), np.full(size, -np.inf)
        self.first = self.step.present
        require(self.first, "no part is present")
        self.second = None
        if not self.is_self:
            letter = LETTER[self.step.kind]
            self.second = tuple(i for i, s in enumerate(self.place.solids) if letter in s.scenes
                                and s.zone == self.zone and (self.kind is None or s.kind == self.kind))
            require(self.second, "no solid of the set is in the scene")

    def _set(self, word, m):
        self.zone, colon, kind = word.partition(":")
        self.kind = kind if colon else None
        require(self.zone in m.zones, f"no zone {self.zone}")
        require(not colon or self.zone == "hanger" and self.step.kind == "strip", "a kind is for hanger in a strip step")

    def allowed(self, ident, touch):
        if self.is_self:
            return ident == ("strip.self.seams" if touch else "strip.self")
        if self.kind is not None:
            return ident == "strip.supports"
        if self.step.kind == "strip":
            if ident == "strip.dig":
                return self.zone not in KEPT_ZONES
            return ident == "strip.clear" and not touch
        return ident == {"end": "strip.clear", "raise": "raise.clear", "roll": "roll.clear"}[self.step.kind]

    def read_numbers(self, r):
        """need, touch, less, near and each, up to the tree."""
        eachs = set()
        while r.key in ("need", "touch", "less", "near", "each"):
            if r.key in ("need", "touch"):
                require(not eachs, f"{r.key} behind each")
                self._flush_number()
                self._number(r)
            elif r.key == "less":
                require(self._open is not None and not eachs, "less: behind no need or touch")
                self._less(r)
            elif r.key == "near":
                require(self._last is not None and not eachs, "near: behind no need or touch")
                self._flush_number()
                self._near(r)
            else:
                self._flush_number()
                words = r.take(3)
                part = whole(words[0])
                require(part < len(self.free) and part not in eachs, "each: no such part, or twice")
                eachs.add(part)
                for store, word in ((self.free, words[1]), (self.touch, words[2])):
                    if word != "-":
                        store[part] = max(store[part], number(word))
            r.advance()
        self._flush_number()
        require(self.needs, "no need")

    _open = _last = None

    def _number(self, r):
        words = r.take(2, 3 if r.key == "need" else 2)
        require(len(words) == 2 or words[2] == "far", "need: far or nothing")
        touch = r.key == "touch"
        store = self.touches if touch else self.needs
        require(self.allowed(words[0], touch), f"{r.key}: {words[0]} does not belong here")
        require(words[0] not in store, f"{r.key}: {words[0]} twice")
        lower = number(words[1])
        store[words[0]] = (lower, len(words) == 3)
        self._last = (words[0], touch, len(words) == 3)
        self._open = (self.touch if touch else self.free, np.full(len(self.free), lower), set())

    def _less(self, r):
        words = r.take(2)
        require(SIGNED.match(words[0]) and abs(int(words[0])) <= 10 ** 6, "less: not a whole number up to 1e6")
        _, values, seen = self._open
        parts, _ = cover(words[1], self.carrier.parts)
        for p in parts:
            require(p not in seen, f"less: part {p} twice")
        seen.update(parts)
        values[list(parts)] += int(words[0]) * 1e-6
        self.v.less_parts += len(parts)
        self.v.less_most = max(self.v.less_most, -int(words[0]))

    def _near(self, r):
        """A witness: at S two points of a pair are no farther apart than UPPER."""
        words = r.take(6)
        ident, touch, far = self._last
        require(not far and (not touch or ident == "strip.self.seams"), "near: of a number that has no witness")
        require((ident, touch) not in self.uppers, "near: twice")
        upper, s = number(words[0]), number(words[1])
        require(0 <= s <= 1, "near: S is not in the step")
        one, other = whole(words[2]), whole(words[4])
        require(one in self.first and other in (self.first if self.is_self else self.second), "near: a solid that is not in the set")
        require(not self.is_self or one < other, "near: ONE is not below OTHER")
        self.v.spend(len(self.first) + len(self.second or ()))
        require(not self.is_self or not self.exempt((one,), (other,))[0, 0], "near: the pair is exempt")
        declared = self.declared(one, other)
        require(declared if touch else not declared or ident in ("strip.dig", "strip.supports", "raise.clear"),
                "near: the number is not about this pair")
        points, rounding = Evaluator(self, self.v).points(one, other, s)
        a, b = (weighed(w, x) for w, x in zip((words[3], words[5]), points))
        apart = float(np.linalg.norm(a - b))
        require(apart <= max(upper, 0.0) + SLACK + rounding, f"near: the points are {apart:.9g} m apart, {upper:.9g} m are stated")
        self.uppers[(ident, touch)] = upper
        self.v.witnesses += 1

    def _flush_number(self):
        if self._open is not None:
            store, values, _ = self._open
            np.maximum(store, values, out=store)
            self._open = None

    def asked(self, f):
        store = self.touch if f.touched else self.free
        if not self.is_self:
            return store[list(f.a)][:, None]
        return store[np.minimum(np.array(f.a)[:, None], np.array(f.b)[None, :])]

    def exempt(self, a, b):
        """A matrix: which pairs of parts a self claim leaves out."""
        self.v.matrix(a, b)
        ba, bb = self.carrier.body_of[list(a)], self.carrier.body_of[list(b)]
        out = self.v.still(self.carrier, self.step)[ba[:, None], bb[None, :]]
        pinned = self.v.pinned(self.carrier)
        if len(pinned):
            aa, cc = np.array(a)[:, None], np.array(b)[None, :]
            code = np.minimum(aa, cc) * len(self.free) + np.maximum(aa, cc)
            spot = np.minimum(np.searchsorted(pinned, code), len(pinned) - 1)
            out = out | (pinned[spot] == code)
        return out

    def declared(self, a, b):
        if self.is_self:
            return (min(a, b), max(a, b)) in self.carrier.seams
        return self.place.may_touch(self.step, a, b)

    def entries(self, m):
        """(id, subject) -> (LOWER, far), UPPER or None."""
        out = {}
        numbers = [(i, n, False) for i, n in self.needs.items()]
        numbers += [(i, n, True) for i, n in self.touches.items() if i == "strip.self.seams"]
        for ident, value, touch in numbers:
            for key in subjects(m, self, ident):
                out[key] = value, self.uppers.get((ident, touch))
        return out


def weighed(word, vertices):
    """A point by shares of vertices."""
    items = word.split(",")
    require(len(items) <= 4, "near: more than four vertices")
    point, total, last = np.zeros(3), 0.0, -1
    for item in items:
        index, colon, share = item.partition(":")
        i, w = whole(index), number(share)
        require(last < i < len(vertices) and w > 0, f"near: {item} is no share, or does not rise")
        point, total, last = point + w * vertices[i], total + w, i
    require(abs(total - 1) <= 1e-9, f"near: shares that add up to {total:.9g}")
    return point


def subjects(m, claim, ident):
    """The entries that a need of a claim makes (section 7)."""
    step = claim.step.name
    if claim.is_self:
        tail = ", seams" if ident == "strip.self.seams" else ", bodies and links"
        places = [p for p in m.places if p.carrier is claim.carrier]
        return [("strip.self", f"{n}, {step}{tail}") for p in places for n in [p.name] + p.twins]
    z = m.zones[claim.zone]
    tail = {"strip.dig": step, "raise.clear": step, "roll.clear": z, "strip.supports": f"{step}, {z} {claim.kind}",
            "strip.clear": f"{z}, collapsed" if claim.step.kind == "end" else f"{step}, {z}"}[ident]
    return [(ident, f"{n}, {tail}") for n in [claim.place.name] + claim.place.twins]


Node = collections.namedtuple("Node", "a b s0 s1 touched")


class Tree:
    """The tree of a claim, read and shown record by record."""

    def __init__(self, claim, verifier, reader):
        self.claim, self.v, self.r = claim, verifier, reader
        self.evaluator = Evaluator(claim, verifier)
        stack = [Node(claim.first, claim.second, 0.0, 1.0, False)]
        try:
            self._read(stack)
        except Refused as refusal:
            refusal.line = refusal.line or reader.line
            self.evaluator.flush()  # what is wrong earlier in the file is said first
            raise
        self.evaluator.flush()

    def _read(self, stack):
        reader, claim, verifier = self.r, self.claim, self.v
        while stack:
            node = stack.pop()
            key = reader.key
            step = {"A": self._split, "B": self._split, "S": self._parting, "T": self._halves,
                    "C": self._contact, "N": self._nothing, "P": self._plane, "W": self._plane}.get(key)
            require(step is not None, f"a branch is missing before {key or 'the end of the file'}")
            verifier.spend(len(node.a) + len(node.b or ()))
            children = step(node)
            if verifier.visit is not None:
                verifier.visit(claim, reader.line, key, node, children)
            stack.extend(reversed(children))
            reader.advance()

    def _split(self, node):
        (text,) = self.r.take(1)
        require(node.b is not None, f"{self.r.key}: before S has made two sets")
        first = self.r.key == "A"
        listed, rest = cover(text, node.a if first else node.b)
        require(rest, f"{self.r.key}: the rest is empty")
        return [node._replace(a=x) if first else node._replace(b=x) for x in (listed, rest)]

    def _parting(self, node):
        (text,) = self.r.take(1)
        require(node.b is None, "S: not within one set")
        listed, rest = cover(text, node.a)
        require(rest, "S: the rest is empty")
        return [node._replace(a=listed), node._replace(a=listed, b=rest), node._replace(a=rest)]

    def _halves(self, node):
        (word,) = self.r.take(1)
        s = number(word)
        require(node.s0 < s < node.s1, f"T: {word} is not inside {node.s0:g}..{node.s1:g}")
        return [node._replace(s1=s), node._replace(s0=s)]

    def _one_pair(self, node):
        require(node.b is not None and len(node.a) == 1 and len(node.b) == 1, f"{self.r.key}: not one pair")

    def _contact(self, node):
        self.r.take(0)
        self._one_pair(node)
        require(not node.touched, "C: twice")
        require(self.claim.touches, "C: no touch number is given")
        require(self.claim.declared(node.a[0], node.b[0]), f"C: {node.a[0]} and {node.b[0]} are not declared to touch")
        part = min(node.a[0], node.b[0]) if self.claim.is_self else node.a[0]
        self.v.contacts += 1
        self.v.contact_least = min(self.v.contact_least, float(self.claim.touch[part]))
        return [node._replace(touched=True)]

    def _nothing(self, node):
        self.r.take(0)
        require(self.claim.is_self, "N: nothing is exempt in a claim")
        other = node.a if node.b is None else node.b
        exempt = self.claim.exempt(node.a, other)
        if node.b is None:
            exempt = exempt | np.eye(len(node.a), dtype=bool)
        if not exempt.all():
            i, j = np.argwhere(~exempt)[0]
            raise Refused(f"N: parts {node.a[i]} and {other[j]} are not exempt")
        return []

    def _plane(self, node):
        turning = self.r.key == "W"
        words = self.r.take(2 if turning else 1)
        require(node.b is not None, f"{self.r.key}: before S has made two sets")
        if turning:
            self._one_pair(node)
        n0 = unit(words[0])
        n1 = unit(words[1]) if turning else n0
        self.v.planes[self.r.key] += 1
        self.evaluator.add(Leaf(self.r.line, self.r.key, node.a, node.b, node.s0, node.s1, node.touched, n0, n1))
        return []


# ---- The whole -------------------------------------------------------------

def stated_checks(data):
    """The checks of a result that a proof is about."""
    def refuse(word):
        raise Refused(f"result: {word} is no number")
    try:
        checks = [c for c in json.loads(data, parse_constant=refuse)["checks"] if c["id"] in CHECK_IDS]
        for c in checks:
            numbers = [c["limit"], c["allowance"]] + [x for x in [(c["value"] or {}).get("lower")] if x is not None]
            if not isinstance(c["subject"], str) or not all(isinstance(x, (int, float)) for x in numbers):
                raise Refused(f"result: a check of {c['id']} is not one")
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise Refused(f"result: not to be read: {error!r}") from None
    return checks


class Verifier:
    """Reads a proof and shows it, or raises Refused."""

    def __init__(self, data, result=None, observe=None, visit=None):
        self.observe, self.visit = observe, visit
        self.work = 0
        self.planes, self.contacts, self.contact_least = collections.Counter(), 0, math.inf
        self.less_parts, self.less_most, self.witnesses = 0, 0, 0
        self.claims, self.entries, self.uppers = {}, {}, {}
        self._rest, self._still, self._pinned = {}, {}, {}
        self.reader = None
        try:
            self.reader = Reader(data)
            self.model = Model(self.reader)
            self._claims()
            self._coverage()
        except Refused as refusal:
            if refusal.line is None and self.reader is not None:
                refusal.line = self.reader.line
            raise
        if result is not None:
            self._result(result)

    def spend(self, count):
        self.work += count
        require(self.work <= MAX_WORK, "too much work")

    def matrix(self, a, b):
        """Every pair of two sets is looked at."""
        self.spend(len(a) * len(b))
        self.keep(len(a) * len(b))

    def keep(self, count):
        require(count + 3 * self.model.vertex_count <= MAX_KEPT, "too many numbers to keep")

    def rests_in(self, carrier, step):
        cache = self._rest.setdefault(id(step), {})
        return lambda body: carrier.rests(step, body, cache)

    def still(self, carrier, step):
        """Which bodies' pairs are exempt in a self claim, pinned parts aside."""
        if id(step) not in self._still:
            n = len(carrier.bodies)
            out = np.eye(n, dtype=bool)
            if not step.first_strip:
                rests, root = self.rests_in(carrier, step), []
                for b in carrier.bodies:
                    root.append((b.parent if b.parent < 0 else root[b.parent]) if rests(b.id) else b.id)
                root = np.array(root)
                out = root[:, None] == root[None, :]
            self._still[id(step)] = out
        return self._still[id(step)]

    def pinned(self, carrier):
        if id(carrier) not in self._pinned:
            n = len(carrier.part_body)
            self._pinned[id(carrier)] = np.array(sorted(p * n + q for p, q in carrier.pinned), dtype=int)
        return self._pinned[id(carrier)]

    def _claims(self):
        r = self.reader
        while r.key in ("claim", "self"):
            words = " ".join(r.words)
            try:
                claim = Claim(self, r)
                require(claim.key not in self.claims, "this claim stands twice")
                self.claims[claim.key] = claim
                r.advance()
                claim.read_numbers(r)
                Tree(claim, self, r)
                self._enter(claim)
            except Refused as refusal:
                refusal.claim = refusal.claim or words
                raise
        require(r.key == "end", f"not a record that may stand here: {r.key or 'the file is cut'}")
        (count,) = r.take(1)
        require(whole(count) == len(self.claims), f"end: {count} claims, but there are {len(self.claims)}")
        r.advance()
        require(r.key == "", "something stands behind the end")

    def _enter(self, claim):
        for key, (value, upper) in claim.entries(self.model).items():
            require(self.entries.setdefault(key, value) == value, f"another number for {key[0]}, {key[1]}")
            if upper is not None:
                require(key not in self.uppers, f"a second witness for {key[0]}, {key[1]}")
                self.uppers[key] = upper

    def _coverage(self):
        """Section 8."""
        for claim_key, ident, keys in self._required():
            if self.model.scope == "some" and not any(k in self.entries for k in keys):
                continue
            claim = self.claims.get(claim_key)
            words = " ".join(str(x) for x in claim_key if x is not None)
            require(claim is not None and ident in claim.needs, f"nothing is shown for {ident} of {words}")

    def _required(self):
        Shape = collections.namedtuple("Shape", "is_self carrier place step zone kind")
        m = self.model
        for c in m.carriers:
            for s in c.steps:
                if s.kind == "strip" and s.present:
                    shape = Shape(True, c, None, s, None, None)
                    yield ("self", c.id, s.id, None), "strip.self", subjects(m, shape, "strip.self")
        for p in m.places:
            for s in p.carrier.steps + p.steps:
                for zone, kind, idents in self._sets(p, s) if s.present else ():
                    shape = Shape(False, p.carrier, p, s, zone, kind)
                    word = zone if kind is None else f"{zone}:{kind}"
                    for ident in idents:
                        yield ("claim", p.id, s.id, word), ident, subjects(m, shape, ident)

    @staticmethod
    def _sets(place, step):
        letter = LETTER[step.kind]
        seen = [s for s in place.solids if letter in s.scenes]
        for zone in sorted({s.zone for s in seen}):
            if step.kind != "strip":
                yield zone, None, [{"end": "strip.clear", "raise": "raise.clear", "roll": "roll.clear"}[step.kind]]
            elif zone == "hanger":
                kinds = {s.kind for s in seen if s.zone == zone}
                require(None not in kinds, f"a hanger of {place.name} has no kind, so that nothing is shown of it")
                for kind in sorted(kinds):
                    yield zone, kind, ["strip.supports"]
            elif zone not in KEPT_ZONES:
                yield zone, None, ["strip.dig", "strip.clear"]

    def _result(self, data):
        """Section 9."""
        self.not_shown, self.unseen, self.unfailed = [], [], []
        require(self.model.result is not None, "the proof names no result")
        require(hashlib.sha256(data).hexdigest() == self.model.result, "the result is not the one that the proof names")
        seen = set()
        for check in stated_checks(data):
            key = (check["id"], check["subject"])
            words = ", ".join(key)
            entry = self.entries.get(key)
            lower = (check["value"] or {}).get("lower")
            require(key not in seen, f"result: {words} stands twice")
            if entry is not None:
                seen.add(key)
            if lower is None:
                require(entry is None or entry[1] and entry[0] >= check["limit"],
                        f"result: {words} has no number, but the proof has")
            elif entry is None and self.model.scope == "some":
                self.not_shown.append(words)
            else:
                require(entry is not None and not entry[1] and entry[0] == lower, f"result: {words}: {lower} is not what is shown")
                upper = self.uppers.get(key)
                require(upper is None or check["value"].get("upper") == upper, f"result: {words}: its upper end is not that of the witness")
                if upper is None:
                    self.unseen.append(words)
                if check.get("verdict") == "fail" and (upper is None or max(upper, 0.0) - check["allowance"] >= check["limit"]):
                    self.unfailed.append(words)
                if check.get("verdict") == "pass":
                    require(lower - check["allowance"] >= check["limit"], f"result: {words} does not pass")
        left = sorted(set(self.entries) - seen)
        require(not left, f"result: {left[0] if left else ''} is shown but not stated")

    def report(self):
        m, n = self.model, self.model.counts
        lines = [f"holds: {len(self.claims)} claims, {len(self.entries)} entries",
                 f"  {self.planes['P']} planes, {self.planes['W']} turning planes, {self.contacts} contacts, {self.witnesses} witnesses, {len(self.reader.lines)} records",
                 f"taken on trust: scope {m.scope}"]
        if getattr(self, "not_shown", None):
            lines.append(f"  {len(self.not_shown)} numbers of the result are not shown, from {self.not_shown[0]} on")
        for words, names in (("numbers have an upper end that no witness shows", getattr(self, "unseen", ())),
                             ("fails are not shown", getattr(self, "unfailed", ()))):
            if names:
                lines.append(f"  {len(names)} {words}, from {names[0]} on")
        for sha, name in m.inputs:
            lines.append(f"  that {name} is {sha}")
        lines.append("  " + ", ".join(f"{n[k]} {k}" for k in ("carrier", "body", "link", "part", "step", "place", "twin", "solid")))
        lines.append("  declared pairs: " + ", ".join(f"{n[k]} {k}" for k in ("runs", "pinned", "seam", "face", "lands", "stands", "rolls")))
        lines.append(f"  {n['absent part']} parts absent from a step")
        lines.append(f"  {self.less_parts} differences of a part, at most {self.less_most} um asked less")
        if self.contacts:
            lines.append(f"  the least asked of a contact: {self.contact_least:.6g} m")
        return "\n".join(lines)


def verify(data, result=None, **hooks):
    """None where the proof holds, else what it was refused for."""
    try:
        Verifier(data, result, **hooks)
    except Refused as refusal:
        return str(refusal)
    return None


# ---- Tampered copies -------------------------------------------------------

class Survey:
    """What a proof that holds looks like: where a change must tell."""

    def __init__(self, data, result):
        self.lines = data.decode().split("\n")
        self.tight, self.nodes = {}, []
        self.v = Verifier(data, result, observe=self._leaf, visit=self._node)

    def _leaf(self, claim, leaf, margin):
        """Keep the leaf with the least to spare, by self or not and first step or not."""
        if leaf.kind != "P" or len(leaf.a) * len(leaf.b) != 1 or not math.isfinite(margin):
            return
        for sort in (("any",), ("self", claim.is_self, leaf.touched), ("first", claim.step.first_strip, claim.is_self)):
            if sort[0] == "first" and leaf.s0 != 0:
                continue
            if sort not in self.tight or margin < self.tight[sort][0]:
                self.tight[sort] = margin, claim, leaf

    def _node(self, claim, line, key, node, children):
        self.nodes.append((claim, line, key, node, len(children)))

    def first_line(self, key, test=lambda line: True):
        """The number of the first such record, counted from 1."""
        for at, text in enumerate(self.lines, 1):
            if text.split(" ", 1)[0] == key and test(text):
                return at
        raise AssertionError(f"no {key} record to tamper with")

    def last_line(self, key):
        return max(at for at, text in enumerate(self.lines, 1) if text.split(" ", 1)[0] == key)

    def middle_line(self, key):
        at = [at for at, text in enumerate(self.lines, 1) if text.startswith(key + " ")]
        return at[len(at) // 2]

    def edit(self, at, *texts):
        """The proof with one line replaced by those given."""
        return "\n".join(self.lines[:at - 1] + list(texts) + self.lines[at:]).encode()

    def insert(self, at, text):
        return self.edit(at, text, self.lines[at - 1])

    def word(self, at, index, change):
        words = self.lines[at - 1].split(" ")
        words[index] = change(words[index])
        return self.edit(at, " ".join(words))


def written(v):
    return ",".join(repr(float(x)) for x in v)


def aside(n):
    """n turned by about three degrees."""
    square = np.cross(n, np.eye(3)[int(np.argmin(np.abs(n)))])
    n = n + 0.05 * square / np.linalg.norm(square)
    return n / np.linalg.norm(n)


def vertex_moved(t):
    _, claim, leaf = t.tight[("first", True, False)]
    c, part = claim.carrier, leaf.a[0]
    x = c.hulls.x[c.hulls.slice(part)]
    at = part_line(t, c, part)
    return t.word(at, 3 + int(np.argmax(x @ leaf.n0)), lambda w: written(vector(w) + 1e-3 * leaf.n0))


def part_line(t, carrier, part):
    start = t.first_line("carrier", lambda x: x == f"carrier {carrier.id}")
    return t.lines.index(next(x for x in t.lines[start:] if x.startswith(f"part {part} ")), start) + 1


def second_branches(nodes):
    """For each node of the trees (in pre-order) the index of its second branch."""
    end = [0] * len(nodes)
    second = [None] * len(nodes)
    for i in range(len(nodes) - 1, -1, -1):
        after = i + 1
        for branch in range(nodes[i][4]):
            if branch == 1:
                second[i] = after
            after = end[after]
        end[i] = after
    return second


def pair_left_out(t):
    """Drop the last listed member where the rest's branch has no room for it."""
    for i, rest in enumerate(second_branches(t.nodes)):
        claim, line, key, node, _ = t.nodes[i]
        if key not in ("A", "B"):
            continue
        first, other, below = t.nodes[i + 1][3], t.nodes[rest][3], t.nodes[rest][2]
        listed = first.a if key == "A" else first.b
        against = other.b if key == "A" else other.a
        if len(listed) < 2:
            continue
        if below in ("C", "W") or below == "N" and not claim.exempt(listed[-1:], against).all():
            return t.word(line, 1, lambda _: ",".join(str(x) for x in listed[:-1]))
    raise AssertionError("no list to shorten")


def contact_in_tree(t):
    _, claim, leaf = t.tight[("self", False, False)]
    assert not claim.declared(leaf.a[0], leaf.b[0])
    return t.insert(leaf.line, "C")


def contact_declared(t):
    place = t.v.model.places[0]
    solid = min(s for s, _ in place.face)
    s, h = place.hulls, place.carrier.hulls
    far = next(p for p in place.carrier.parts if not near(s.low[solid], s.high[solid], h.low[p], h.high[p]))
    return t.insert(t.first_line("face"), f"face {solid} 1 {far}")


def raised(t, by):
    _, claim, leaf = t.tight[("self", False, False)]
    lower = max(claim.needs, key=lambda i: claim.needs[i][0])
    at = next(i for i in range(claim.line, leaf.line) if t.lines[i].startswith(f"need {lower} ")) + 1
    return t.word(at, 2, lambda w: repr(float(w) + by))


def absent_added(t):
    """A part that is there in the next step again."""
    c = t.v.model.carriers[0]
    strips = [s for s in c.steps if s.kind == "strip"]
    part = next(p for p in strips[0].present if p in strips[1].present)
    gone = sorted(set(strips[0].absent or ()) | {part})
    line = "absent " + ",".join(str(p) for p in gone)
    at = strips[0].line + len(strips[0].drives) + 1
    if strips[0].absent is None:
        return t.insert(at, line)
    at = next(i for i in range(strips[0].line, len(t.lines)) if t.lines[i].startswith("absent ")) + 1
    return t.edit(at, line)


def driven(t, kind, index, by):
    """The first drive that moves in such a step and that the next step takes up."""
    for c in t.v.model.carriers:
        for step, following in zip(c.steps, c.steps[1:]):
            later = c.concerned(following)
            for body, (start, end) in sorted(step.drives.items()):
                if step.kind == kind and start != end and body in later:
                    at = next(i for i in range(step.line, len(t.lines)) if t.lines[i].startswith(f"drive {body} ")) + 1
                    return t.word(at, index, lambda w: repr(float(w) + by))
    raise AssertionError(f"nothing is driven in a step of {kind}")


def claim_dropped(t):
    claims = [i for i, x in enumerate(t.lines, 1) if x.split(" ", 1)[0] in ("self", "claim", "end")]
    lines = t.lines[:claims[-2] - 1] + [f"end {len(claims) - 2}", ""]
    return "\n".join(lines).encode()


def tampered(t):
    """Kind and tampered copy, always the same for the same proof."""
    leaf = t.tight[("any",)][2]
    split = next(line for _, line, key, _, _ in t.nodes if key == "A")
    halving = next((line, node) for _, line, key, node, _ in t.nodes if key == "T")
    own = t.tight[("self", True, False)][2]
    part = t.v.model.carriers[0].hulls.count // 2
    part_at = part_line(t, t.v.model.carriers[0], part)
    cut = "\n".join(t.lines[:len(t.lines) * 2 // 3]).encode()
    yield "plane nudged", t.edit(leaf.line, "P " + written(aside(leaf.n0)))
    yield "plane turned over", t.edit(leaf.line, "P " + written(-leaf.n0))
    yield "plane not a number", t.edit(leaf.line, "P 0,NaN,1")
    yield "plane replaced by N", t.edit(own.line, "N")
    yield "plane dropped", t.edit(leaf.line)
    yield "split dropped", t.edit(split)
    yield "halving dropped", t.edit(halving[0])
    yield "T outside its interval", t.edit(halving[0], f"T {halving[1].s1 + 0.5!r}")
    yield "T at the end of its interval", t.edit(halving[0], f"T {halving[1].s1!r}")
    yield "vertex moved 1 mm toward", vertex_moved(t)
    yield "pair left out of a list", pair_left_out(t)
    yield "contact added in a tree", contact_in_tree(t)
    yield "contact added to the model", contact_declared(t)
    yield "claim raised by 10 um", raised(t, 1e-5)
    yield "claim lowered by 10 um", raised(t, -1e-5)
    yield "claim left out", claim_dropped(t)
    yield "part missing", t.edit(part_at)
    yield "part doubled", t.insert(part_at, t.lines[part_at - 1])
    yield "file cut", cut
    yield "end cut off", t.edit(t.last_line("end"))
    yield "wrong count in end", t.word(t.last_line("end"), 1, lambda w: str(int(w) + 1))
    yield "record behind the end", t.insert(len(t.lines), "N")
    yield "hash of the result changed", t.word(t.first_line("result"), 1, lambda w: w[:-1] + ("0" if w[-1] != "0" else "1"))
    yield "drive of stripping changed", driven(t, "strip", 3, 1e-3)
    yield "drive of raising changed", driven(t, "raise", 3, -0.1)
    yield "absent part added", absent_added(t)
    yield from witness_tampered(t)


def witness_tampered(t):
    at = t.first_line("near", lambda line: ":0." in line.split(" ")[4] and float(line.split(" ")[1]) > 1e-3)
    halved = lambda w: w.rsplit(":", 1)[0] + ":" + repr(float(w.rsplit(":", 1)[1]) / 2)
    yield "witness stated 10 um nearer", t.word(at, 1, lambda w: repr(float(w) - 1e-5))
    yield "witness with a share halved", t.word(at, 4, halved)
    yield "witness of another part", t.word(at, 3, lambda w: str(int(w) + 1))
    yield "witness out of its step", t.word(at, 2, lambda w: "1.5")
    yield "witness given twice", t.insert(at, t.lines[at - 1])


def frame_tampered(t):
    """Kinds that only a carrier on a way over grades can show."""
    at = t.middle_line("carry")
    up = lambda w: ",".join([*w.split(",")[:2], repr(float(w.split(",")[2]) - 0.02)])
    yield "carry: wheels 20 mm lower", t.edit(at, " ".join(up(w) if i in (12, 14) else w for i, w in enumerate(t.lines[at - 1].split(" "))))
    yield "carry: straight ahead turned", t.word(at, 10, lambda w: repr(float(w) + 0.05))
    yield "carry: plane too steep", t.word(at, 14, lambda w: "0.6," + w.split(",", 1)[1])
    yield "carry: guides in one place", t.word(at, 4, lambda w: "0.01")
    yield "carry: placed twice", t.insert(at, t.lines[at - 1])
    yield "carry: left out", t.edit(at)


def tamper(kinds, proof, result, binary):
    with open(proof, "rb") as file:
        data = file.read()
    with open(result, "rb") as file:
        stated = file.read()
    taken = []
    with tempfile.NamedTemporaryFile(suffix=".proof") as copy:
        def second(content):
            copy.seek(0)
            copy.truncate()
            copy.write(content)
            copy.flush()
            run = subprocess.run([binary, "verify", copy.name, "--result", result], capture_output=True, text=True, check=False)
            message = (run.stderr.strip() or run.stdout.strip()).split("\n")[0]
            return run.returncode, message.replace(copy.name, "FILE")

        try:
            survey = Survey(data, stated)
        except Refused as refusal:
            print(f"the proof itself is {refusal}")
            return 1
        code, message = second(data)
        if code != 0:
            print(f"the proof itself is refused by {binary}: {message}")
            return 1
        count = 0
        for kind, content in kinds(survey):
            count += 1
            assert content != data, kind
            mine = verify(content, stated)
            code, theirs = second(content)
            print(f"{kind}\n  here:  {mine or 'HOLDS'}\n  there: {theirs if code else 'HOLDS'}", flush=True)
            if mine is None or code == 0:
                taken.append(kind)
    print(f"{count} kinds of tampering, {count - len(taken)} refused by both" + (f"; TAKEN: {', '.join(taken)}" if taken else ""))
    return 1 if taken else 0


def main(arguments):
    sys.setrecursionlimit(20000)  # a chain of joints may be 2^10 long
    kinds = {"--tamper": tampered, "--tamper-frames": frame_tampered}.get(arguments[0] if arguments else "")
    if kinds and len(arguments) == 4:
        return tamper(kinds, *arguments[1:])
    if len(arguments) not in (1, 2) or arguments[0].startswith("-"):
        print(__doc__, file=sys.stderr)
        return 2
    files = []
    for name in arguments:
        with open(name, "rb") as file:
            files.append(file.read())
    try:
        print(Verifier(*files).report())
    except Refused as refusal:
        print(refusal)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
