"""Claims (section 5): what they ask of every pair, and whether their leaves show it."""
import numpy as np

import bounds
from motion import Motion
from proof import Proof
from text import MAX_KEPT, Refused, below, number, pick, whole
from tree import Exempt, Walk

KEPT = ("hanger", "steel_ahead")
AFTER = {"raise": "raise.clear", "end": "strip.clear", "roll": "roll.clear"}


class Claim:
    def __init__(self, line, step, carrier, place=None, zone=None, kind=""):
        self.line, self.step, self.carrier, self.place = line, step, carrier, place
        self.zone, self.kind = zone, kind
        self.needs, self.touches = {}, {}       # ID -> Need

    def text(self):
        if self.place is None:
            return f"self {self.carrier.id} {self.step.id}"
        return f"claim {self.place.id} {self.step.id} {self.zone}{':' + self.kind if self.kind else ''}"

    def allowed(self, word):
        """The ids of needs or touches that may stand here."""
        if self.place is None:
            return ("strip.self",) if word == "need" else ("strip.self.seams",)
        if self.step.kind != "strip":
            return (AFTER[self.step.kind],)
        if self.kind:
            return ("strip.supports",)
        dig = () if self.zone in KEPT else ("strip.dig",)
        return dig + (("strip.clear",) if word == "need" else ())


class Need:
    def __init__(self, id, lower, far):
        self.id, self.lower, self.far = id, lower, far
        self.less, self.upper, self.near = {}, None, None


class Witness:
    """near: a point of one and a point of another at S."""

    def __init__(self, line, need, touch, upper, s, one, weights, other, weights2):
        self.line, self.need, self.touch, self.upper, self.s = line, need, touch, upper, s
        self.one, self.weights, self.other, self.weights2 = one, weights, other, weights2


class ClaimReader:
    """Reads and checks one claim after the other."""

    def __init__(self, file, lines, budget):
        self.file, self.lines, self.budget = file, lines, budget
        self.claims, self.seen, self.kinds = [], set(), {}
        self.counts = dict(records=0, planes=0, contacts=0, witnesses=0, less=0, less_most=0.0, touch_least=np.inf, idle=0)
        self.part_stacks, self.solid_stacks, self.exempts = {}, {}, {}
        self.motions, self.motions_kept = {}, 0
        self.where = "claim"

    def run(self):
        while True:
            word = self.lines.next()
            self.where = None
            if word == "end":
                (w,) = self.lines.take(1, False)
                if whole(w) != len(self.claims):
                    raise Refused(f"end says {w} claims, there are {len(self.claims)}")
                if not self.lines.over():
                    self.lines.next()
                    raise Refused("a record after the end")
                return self.claims
            self._count(word)
            if word not in ("claim", "self"):
                raise Refused("not a claim")
            claim = self._self() if word == "self" else self._claim()
            if claim.text() in self.seen:
                raise Refused("the claim stands twice")
            self.seen.add(claim.text())
            self.where = claim.text()
            self._one(claim)
            self.claims.append(claim)

    def _count(self, word):
        self.kinds[word] = self.kinds.get(word, 0) + 1
        if self.kinds[word] > 1 << 20:
            raise Refused(f"too many {word} records")

    def _step(self, steps, word):
        sid = whole(word)
        for step in steps:
            if step.id == sid:
                return step
        raise Refused(f"there is no step {sid}")

    def _self(self):
        w = self.lines.take(2, False)
        carrier = self.file.carriers[below(w[0], len(self.file.carriers), "carrier")]
        step = self._step(carrier.steps, w[1])
        if step.kind != "strip":
            raise Refused("self is for a strip step")
        return Claim(self.lines.at, step, carrier)

    def _claim(self):
        w = self.lines.take(3, False)
        place = self.file.places[below(w[0], len(self.file.places), "place")]
        step = self._step(place.all_steps(), w[1])
        zone, colon, kind = w[2].partition(":")
        if zone not in self.file.zones:
            raise Refused(f"there is no zone {zone[:40]!r}")
        if colon and (zone != "hanger" or not kind or step.kind != "strip"):
            raise Refused("a KIND is for hanger in a strip step")
        return Claim(self.lines.at, step, place.carrier, place, zone, kind)

    def _one(self, claim):
        place, carrier = claim.place, claim.carrier
        tables = (carrier.pinned, carrier.seams) if place is None else (place.solids, place.faces, place.lands, place.stands, place.rolls)
        self.budget.spend(len(carrier.parts) + sum(map(len, tables)))
        first, second = list(claim.step.present), None
        if claim.place is not None:
            solids = claim.place.solids
            second = [i for i in claim.place.scene(claim.step) if solids[i].zone == claim.zone
                      and (not claim.kind or solids[i].kind == claim.kind)]
        if not first or second == []:
            raise Refused("a set of the claim is empty")
        touch = self._touching(claim)
        exempt = self._exempt(claim) if claim.place is None else None
        each, witnesses = self._asks(claim, first, second, touch, exempt)
        kept = self.budget.kept
        given = {p for p, (_, t) in each.items() if t is not None}
        has_touch = lambda part: bool(claim.touches) or part in given
        walk = Walk(self.lines, self.budget, first, second, touch, has_touch, exempt, self.counts)
        proof = Proof(self, claim, touch, exempt, each)
        proof.check(walk.run(), witnesses)
        proof.idle()
        self.budget.kept = kept

    def _touching(self, claim):
        if claim.place is not None:
            return claim.place.may_touch(claim.step)
        by_part = {}
        for p, q in claim.carrier.seams:
            by_part.setdefault(p, set()).add(q)
            by_part.setdefault(q, set()).add(p)
        return by_part

    def _exempt(self, claim):
        key = (claim.carrier.id, claim.step.id)
        if key not in self.exempts:
            self.exempts = {key: Exempt(claim.carrier, claim.step, self.budget)}
        return self.exempts[key]

    def _asks(self, claim, first, second, touch, exempt):
        """need, touch, less, near and each, up to the tree."""
        each, witnesses, last, done = {}, [], None, False
        while True:
            word = self.lines.next()
            if word not in ("need", "touch", "less", "near", "each"):
                break
            self._count(word)
            if each and word != "each":
                raise Refused(f"{word} stands behind each")
            if word in ("need", "touch"):
                last, done = self._need(claim, word), False
            elif word == "each":
                self._each(claim, each, first)
            elif last is None or done:
                raise Refused(f"{word} has no need or touch to stand behind")
            elif word == "less":
                self._less(claim, last)
            else:
                done = True
                witnesses.append(self._near(claim, last, first, second, touch, exempt))
        if not claim.needs:
            raise Refused("the claim has no need")
        self.lines.back()
        return each, witnesses

    def _need(self, claim, word):
        far = word == "need" and self.lines.words[-1:] == ["far"]
        w = self.lines.take(3 if far else 2, False)
        if w[0] not in claim.allowed(word):
            raise Refused(f"{word} {w[0][:30]} may not stand in this claim")
        table = claim.needs if word == "need" else claim.touches
        if w[0] in table:
            raise Refused(f"{word} {w[0]} stands twice")
        table[w[0]] = Need(w[0], number(w[1]), far)
        return table[w[0]]

    def _less(self, claim, need):
        w = self.lines.take(2, False)
        um = number(w[0])
        self.budget.spend(len(claim.carrier.parts))
        parts, _ = pick(w[1], list(range(len(claim.carrier.parts))))
        self.counts["less"] += 1
        self.counts["less_most"] = max(self.counts["less_most"], -um)
        for p in parts:
            if p in need.less:
                raise Refused(f"part {p} has its less already")
            need.less[p] = um
        self.budget.keep(len(parts))

    def _each(self, claim, each, first):
        w = self.lines.take(3, False)
        part = below(w[0], len(claim.carrier.parts), "part")
        if part in each:
            raise Refused(f"part {part} has its each already")
        each[part] = tuple(None if x == "-" else number(x) for x in w[1:])

    def _near(self, claim, need, first, second, touch, exempt):
        w = self.lines.take(6, False)
        is_touch = claim.touches.get(need.id) is need
        if need.far or (is_touch and need.id != "strip.self.seams"):
            raise Refused("near stands behind a need that is not far, or behind strip.self.seams")
        one, other, s = whole(w[2]), whole(w[4]), number(w[1])
        if not 0 <= s <= 1:
            raise Refused(f"S = {s}")
        if one not in first or other not in (first if second is None else second):
            raise Refused(f"{one} or {other} is not of the claim's sets")
        self._witness_pair(need, is_touch, one, other, touch, exempt)
        parts = claim.carrier.parts
        shape = parts[other].vertices if second is None else claim.place.solids[other].vertices
        need.upper = number(w[0])
        self.counts["witnesses"] += 1
        return Witness(self.lines.at, need, is_touch, need.upper, s, one, weights(w[3], parts[one].vertices),
                       other, weights(w[5], shape))

    def _witness_pair(self, need, is_touch, one, other, touch, exempt):
        declared = other in touch.get(one, ())
        if exempt is not None and (one >= other or exempt.pair(one, other)):
            raise Refused(f"the pair {one} {other} does not rise or is exempt")
        if is_touch and not declared:
            raise Refused(f"the pair {one} {other} is not declared to touch")
        if not is_touch and declared and need.id not in ("strip.dig", "strip.supports", "raise.clear"):
            raise Refused(f"the pair {one} {other} is declared to touch")

    def part_stack(self, carrier):
        if carrier.id not in self.part_stacks:
            self.part_stacks[carrier.id] = bounds.Stack([p.vertices for p in carrier.parts])
        return self.part_stacks[carrier.id]

    def motion(self, claim, points, pairs):
        """The motion of a step at points; that of one interval serves all claims of the step."""
        bodies = len(claim.carrier.bodies)
        size = 8 * len(pairs) * bodies
        self.budget.spend(size)
        if len(pairs) > 1:
            self.budget.keep(6 * size + 12 * len(points) * bodies)
            return Motion(claim.carrier.geometry, claim.step, self.budget, points, pairs)
        key = (claim.carrier.id, id(claim.step), *points)
        if key not in self.motions:
            frames = bodies if claim.place is None else 1
            self.motions_kept += frames * (20 * size + sum(self.part_stack(claim.carrier).sizes))
            if self.motions_kept > MAX_KEPT:
                self.motions, self.motions_kept = {}, 0
            self.motions[key] = Motion(claim.carrier.geometry, claim.step, self.budget, points, pairs)
        return self.motions[key]

    def solid_stack(self, place):
        if place.id not in self.solid_stacks:
            raw = bounds.Stack([s.vertices for s in place.solids])
            raw.points = raw.points - np.array([place.shift, 0.0, 0.0])
            far = np.sqrt(np.sum(raw.points ** 2, -1))
            # the greater of before and after the shift: both have been rounded
            raw.far = np.array([max(f, far[r].max()) for f, r in zip(raw.far, raw.ranges)])
            self.solid_stacks[place.id] = raw
        return self.solid_stacks[place.id]


def weights(word, vertices):
    """INDEX:WEIGHT items as a point's weights over the vertices as listed."""
    items, out, last = word.split(","), np.zeros(len(vertices)), -1
    if len(items) > 4:
        raise Refused("more than 4 weights")
    for item in items:
        i, _, w = item.partition(":")
        i, w = below(i, len(vertices), "vertex"), number(w)
        if i <= last or not w > 0:
            raise Refused(f"weight {item[:40]} does not rise or is not above 0")
        out[i], last = w, i
    if not abs(out.sum() - 1) <= 1e-9:
        raise Refused(f"the weights sum to {out.sum()!r}")
    return out
