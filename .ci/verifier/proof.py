"""Sections 7 to 10: the whole proof, its entries, coverage, result and report."""

import collections
import hashlib
import json
import math

import numpy as np

from .claims import Claim, subjects
from .model import KEPT_ZONES, LETTER, Model
from .refusal import Refused, require
from .text import MAX_KEPT, MAX_WORK, Reader, whole
from .trees import Tree

CHECK_IDS = ("strip.dig", "strip.self", "strip.clear", "strip.supports", "raise.clear", "roll.clear")


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
        self._rest, self._still, self._pinned, self._seams = {}, {}, {}, {}
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
        """The pinned pairs of parts, a sorted number each."""
        return self._codes(self._pinned, carrier, carrier.pinned)

    def seams(self, carrier):
        return self._codes(self._seams, carrier, carrier.seams)

    @staticmethod
    def _codes(known, carrier, pairs):
        if id(carrier) not in known:
            n = len(carrier.part_body)
            known[id(carrier)] = np.array(sorted(p * n + q for p, q in pairs), dtype=int)
        return known[id(carrier)]

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
                require("strip.self.seams" not in claim.touches or claim.seams_held, "touch: no seam is held to its number")
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
        last = {}  # the last strip step that is claimed among the parts of each carrier
        for kind, owner, step, _ in self.claims:
            if kind == "self":
                last[owner] = max(last.get(owner, step), step)
        for claim_key, ident, keys in self._required():
            before = claim_key[0] == "self" and claim_key[2] <= last.get(claim_key[1], -1)
            if self.model.scope == "some" and not before and not any(k in self.entries for k in keys):
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
                require(entry is None or entry[1] and entry[0] - max(check["allowance"], 0) >= check["limit"],
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
