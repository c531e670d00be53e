"""Section 2, the whole model: the head, carriers, places and their order."""

import collections

import numpy as np

from .carrier import Body, Carrier, Hulls, Link, Step
from .refusal import Refused, require
from .rolling import FRAMES
from .text import HASH, MAX_BODIES, MAX_INPUTS, MAX_KIND, MAX_VERTICES, cover, number, vector, whole

PLACE_ORDER = {k: i for i, keys in enumerate((("twin",), ("solid",), ("face",), ("lands",), ("stands",), ("rolls",),
                                              ("step", "drive", "absent", "steer", "carry", "tip"))) for k in keys}
KEPT_ZONES = ("hanger", "steel_ahead")
LETTER = {"strip": "s", "end": "s", "raise": "r", "roll": "a"}


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
