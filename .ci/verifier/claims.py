"""Section 5: claims, what they ask of pairs, witnesses."""

import numpy as np

from .bounds import Evaluator, SLACK
from .model import KEPT_ZONES, LETTER
from .refusal import require
from .text import SIGNED, cover, number, whole


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
        """What a leaf must show of each pair; a seam keeps its number without a contact too."""
        store = self.touch if f.touched else self.free
        if not self.is_self:
            return store[list(f.a)][:, None]
        smaller = np.minimum(np.array(f.a)[:, None], np.array(f.b)[None, :])
        seams = self._among(self.v.seams(self.carrier), f.a, f.b) & ~self.exempt(f.a, f.b)
        self.seams_held = self.seams_held or bool(seams.any())
        return np.where(seams & (self.touch[smaller] > store[smaller]), self.touch[smaller], store[smaller])

    seams_held = False

    def _among(self, codes, a, b):
        """A matrix: which pairs of parts stand in a sorted list of codes."""
        aa, cc = np.array(a)[:, None], np.array(b)[None, :]
        code = np.minimum(aa, cc) * len(self.free) + np.maximum(aa, cc)
        if not len(codes):
            return np.zeros(code.shape, dtype=bool)
        return codes[np.minimum(np.searchsorted(codes, code), len(codes) - 1)] == code

    def exempt(self, a, b):
        """A matrix: which pairs of parts a self claim leaves out."""
        self.v.matrix(a, b)
        ba, bb = self.carrier.body_of[list(a)], self.carrier.body_of[list(b)]
        out = self.v.still(self.carrier, self.step)[ba[:, None], bb[None, :]]
        return out | self._among(self.v.pinned(self.carrier), a, b)

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
