"""Entries that claims make (section 7), and what must be claimed (section 8)."""
from claims import KEPT
from text import Refused
from tree import Exempt


class Entry:
    def __init__(self, need):
        self.lower, self.far, self.upper, self.near = need.lower, need.far, None, False


def subject(id, place, step, words, kind):
    """The words of an entry for one name of a place."""
    if id == "strip.self":
        return f"{place}, {step.name}, bodies and links"
    if id == "strip.self.seams":
        return f"{place}, {step.name}, seams"
    if id in ("strip.dig", "raise.clear"):
        return f"{place}, {step.name}"
    if id == "strip.supports":
        return f"{place}, {step.name}, {words} {kind}"
    if step.kind == "end":
        return f"{place}, {words}, collapsed"
    if id == "roll.clear":
        return f"{place}, {words}"
    return f"{place}, {step.name}, {words}"


def keys(file, id, step, place, carrier, zone, kind):
    """(id, subject) of one need, for the place and its twins, or all places of the carrier."""
    places = [place] if place is not None else [p for p in file.places if p.carrier is carrier]
    words = file.zones.get(zone)
    shown = "strip.self" if id == "strip.self.seams" else id
    return [(shown, subject(id, name, step, words, kind)) for p in places for name in p.names()]


def seams_to_show(carrier, step, budget):
    """Whether any declared pair of present parts has to be proved in this strip step."""
    budget.spend(len(carrier.parts) + len(carrier.pinned) + len(carrier.seams))
    here, exempt = set(step.present), Exempt(carrier, step, budget)
    return any(p in here and q in here and not exempt.pair(p, q) for p, q in carrier.seams)


class Entries:
    def __init__(self, file, claims, budget):
        self.budget = budget
        self.file, self.table, self.claimed = file, {}, set()
        self.asked = {}     # (id, subject) -> the least asked of any part: of a need, and of a touch
        for claim in claims:
            self._claim(claim)
        made = set(self.table)
        for claim in claims:
            self._earlier_strips(claim)
        for item in self._required():
            self._require(item, made)

    def _claim(self, claim):
        for need in claim.needs.values():
            self._ask(need, claim, 0)
        for need in claim.touches.values():
            self._ask(need, claim, 1)
        ends = list(claim.needs.values()) + [t for t in claim.touches.values() if t.id == "strip.self.seams"]
        for need in ends:
            self.claimed.add(self._item(need.id, claim))
            args = (claim.step, claim.place, claim.carrier, claim.zone, claim.kind)
            for key in dict.fromkeys(keys(self.file, need.id, *args)):
                self._enter(key, need, claim)

    def _ask(self, need, claim, which):
        """What a need asks least, for the check that it stands for (section 9)."""
        least = need.lower + min(0.0, *need.less.values(), 0.0) * 1e-6
        id, step = need.id, claim.step
        if which == 1 and step.kind == "end":
            strips = [s for s in claim.carrier.steps if s.kind == "strip"]
            self.budget.spend(len(claim.carrier.steps))
            if not strips:
                return
            id, step = "strip.dig", strips[-1]
        for key in dict.fromkeys(keys(self.file, id, step, claim.place, claim.carrier, claim.zone, claim.kind)):
            self.budget.spend(64)
            old = self.asked.get(key, (float("inf"), float("inf")))
            if key not in self.asked:
                self.budget.keep(32)
            self.asked[key] = tuple(min(v, least) if i == which else v for i, v in enumerate(old))

    def _item(self, id, claim):
        owner = ("self", claim.carrier.id) if claim.place is None else ("place", claim.place.id)
        return (id, owner, claim.step.id, claim.zone, claim.kind)

    def _enter(self, key, need, claim):
        entry = self.table.setdefault(key, Entry(need))
        if entry.lower != need.lower or entry.far != need.far:
            raise Refused(f"{key[0]} {key[1]!r}: {need.lower!r} where another claim says {entry.lower!r}",
                          claim.line, claim.text())
        if need.upper is not None:
            if entry.near:
                raise Refused(f"{key[0]} {key[1]!r} has two witnesses", claim.line, claim.text())
            entry.near, entry.upper = True, need.upper

    def _earlier_strips(self, claim):
        """What rests in a strip step was proved where it was, or came to be, at rest: in the steps before."""
        if claim.place is not None:
            return
        for step in claim.carrier.steps:
            self.budget.spend(1)
            if step is claim.step:
                return
            item = ("strip.self", ("self", claim.carrier.id), step.id, None, "")
            if step.kind == "strip" and step.present and item not in self.claimed:
                raise Refused(f"the strip step {step.id} before it is not claimed", claim.line, claim.text())

    def _required(self):
        """(id, step, place, carrier, zone, kind) of all that section 8 asks."""
        for c in self.file.carriers:
            for step in c.steps:
                if step.kind == "strip" and step.present:
                    yield "strip.self", step, None, c, None, ""
                    if seams_to_show(c, step, self.budget):
                        yield "strip.self.seams", step, None, c, None, ""
        for place in self.file.places:
            for step in place.all_steps():
                self.budget.spend(len(place.solids))
                if step.present:
                    yield from self._of_place(place, step)

    def _of_place(self, place, step):
        sets = dict.fromkeys((place.solids[i].zone, place.solids[i].kind) for i in place.scene(step))
        for zone in dict.fromkeys(z for z, _ in sets):
            args = (step, place, place.carrier, zone, "")
            if step.kind == "strip":
                if zone not in KEPT:
                    yield ("strip.dig",) + args
                    yield ("strip.clear",) + args
            else:
                yield ({"end": "strip.clear", "raise": "raise.clear", "roll": "roll.clear"}[step.kind],) + args
        if step.kind == "strip":
            for zone, kind in sets:
                if zone == "hanger":
                    yield "strip.supports", step, place, place.carrier, zone, kind

    def _require(self, item, made):
        id, step, place, carrier, zone, kind = item
        owner = ("self", carrier.id) if place is None else ("place", place.id)
        if (id, owner, step.id, zone, kind) in self.claimed:
            return
        if self.file.scope == "all" or any(k in made for k in keys(self.file, id, step, place, carrier, zone, kind)):
            what = f"carrier {carrier.id}" if place is None else f"place {place.id}"
            raise Refused(f"{id} of {what}, step {step.id}, set {zone or 'self'}{':' + kind if kind else ''} is not claimed",
                          record="end")
