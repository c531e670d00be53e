"""Reads head and model (section 2) in their order; every record's own shape is checked here."""
from model import Body, Carrier, File, Link, Part, Place, Solid, Step
from text import Refused, below, number, pick, sha, vector, whole, whole_or_minus
import declared
import joints
import roll

HEAD = ["note", "input", "result", "scope"]
CARRIER = ["body", "link", "runs", "part", "pinned", "seam", "step"]
PLACE = ["twin", "solid", "face", "lands", "stands", "rolls", "step"]
STEP = ["drive", "absent", "placed"]
PLACED = {"carry": "vnvnvnnnvnnvnv", "tip": "vnvvvnnnn"}
MAX_KIND, MAX_BODIES, MAX_VERTICES = 1 << 20, 1 << 10, 1 << 22


class Reader:
    """Walks the records; `stage` is where in the order of the present block it stands."""

    def __init__(self, lines, budget):
        self.lines, self.budget, self.file = lines, budget, File()
        self.counts, self.vertices, self.stage = {}, 0, 0
        self.carrier = self.place = self.step = None
        self.names = set()

    def read(self):
        self.lines.next()
        if self.lines.words != ["boxwalk-proof", "1"] or self.lines.name is not None:
            raise Refused("the file must begin with: boxwalk-proof 1")
        self._head()
        self._model()
        return self.file

    def _order(self, order, word):
        at = order.index(word)
        if at < self.stage:
            raise Refused(f"{word} stands too late: after {order[self.stage]}")
        self.stage = at

    def count(self, word):
        self.counts[word] = self.counts.get(word, 0) + 1
        if self.counts[word] > (MAX_BODIES if word == "body" else MAX_KIND):
            raise Refused(f"too many {word} records")

    def _id(self, word, things, what):
        if whole(word) != len(things):
            raise Refused(f"{what} {word} stands where {len(things)} must")

    def _head(self):
        file, notes = self.file, 0
        while file.scope is None:
            word = self.lines.next()
            if word not in HEAD:
                raise Refused("not a record of the head")
            self._order(HEAD, word)
            if word == "note":
                self.lines.take(0, True)
                notes += 1
                if notes > 100:
                    raise Refused("more than 100 notes")
            elif word == "input":
                w = self.lines.take(1, True)
                file.inputs.append((sha(w[0]), self.lines.name))
                if len(file.inputs) > 100:
                    raise Refused("more than 100 inputs")
            elif word == "result":
                if file.result:
                    raise Refused("a second result")
                file.result = sha(self.lines.take(1, False)[0])
            else:
                w = self.lines.take(1, False)
                if w[0] not in ("all", "some"):
                    raise Refused("scope is all or some")
                file.scope = w[0]

    def _model(self):
        while True:
            word = self.lines.next()
            if word in ("claim", "self", "end"):
                self._close_carrier()
                self.lines.back()
                return
            self.count(word)
            self._record(word)

    def _record(self, word):
        if word == "zone":
            self._zone()
        elif word == "carrier":
            self._open_carrier()
        elif word == "place":
            self._open_place()
        elif word in ("drive", "absent") or word in PLACED:
            if self.step is None:
                raise Refused("no step to belong to")
            self._order_step("placed" if word in PLACED else word)
            getattr(self, "_placed" if word in PLACED else "_" + word)()
        else:
            self._block(word)

    def _block(self, word):
        order = PLACE if self.place else CARRIER if self.carrier else []
        if word not in order:
            raise Refused("not a record that may stand here")
        self._order(order, word)
        if word == "step":
            self._step()
        else:
            getattr(self, "_" + word)()

    def _order_step(self, word):
        at = STEP.index(word)
        if at < self.step_stage:
            raise Refused(f"{word} stands too late in its step")
        self.step_stage = at

    def _zone(self):
        (zone,) = self.lines.take(1, True)
        if self.file.carriers:
            raise Refused("zone stands after a carrier")
        if ":" in zone or zone == "self" or zone in self.file.zones:
            raise Refused(f"zone {zone[:40]} has a colon, is self or stands twice")
        self.file.zones[zone] = self.lines.name

    def _open_carrier(self):
        (w,) = self.lines.take(1, False)
        if self.file.places:
            raise Refused("carrier stands after a place")
        self._close_carrier()
        self._id(w, self.file.carriers, "carrier")
        self.carrier = Carrier(len(self.file.carriers))
        self.file.carriers.append(self.carrier)
        self.stage, self.step = 0, None

    def _close_carrier(self):
        """What can be looked at only when the last step with its drives stands."""
        if self.carrier is not None and self.place is None:
            self._bodies_done()
            declared.order_of_steps(self.carrier, self.budget)

    def _bodies_done(self):
        if self.carrier.geometry is None:
            self.carrier.geometry = joints.Chain(self.carrier)

    def _body(self):
        c, w = self.carrier, self.lines.words
        fixed = len(w) > 3 and w[3] == "fixed"
        w = self.lines.take(3 if fixed else 6, True)
        self._id(w[0], c.bodies, "body")
        parent = whole_or_minus(w[1])
        if parent >= len(c.bodies):
            raise Refused(f"parent {parent} is not an earlier body")
        body = Body(len(c.bodies), parent, w[2], self.lines.name)
        if not fixed:
            if w[2] not in ("slide", "turn", "aim"):
                raise Refused(f"a joint {w[2][:20]!r}")
            body.axis, body.pin = vector(w[3]), vector(w[4])
            body.link = -1 if w[5] == "-" else whole(w[5])
        body.line = self.lines.at
        joints.check_axis(body)
        c.bodies.append(body)

    def _body_id(self, word):
        return below(word, len(self.carrier.bodies), "body")

    def _link(self):
        c, w = self.carrier, self.lines.take(5, False)
        self._id(w[0], c.links, "link")
        a = -1 if w[1] == "-1" else self._body_id(w[1])
        link = Link(a, self._body_id(w[2]), vector(w[3]), vector(w[4]))
        if link.a == link.b:
            raise Refused("a link from a body to itself")
        if link.pin_a == link.pin_b:
            raise Refused("the pins of the link are not apart")
        c.links.append(link)

    def _pair(self, ids, taken):
        p, q = ids
        if p >= q or (p, q) in taken:
            raise Refused(f"pair {p} {q} does not rise or stands twice")
        return p, q

    def _runs(self):
        c = self.carrier
        p, q = self._pair([self._body_id(w) for w in self.lines.take(2, False)], c.runs)
        at = q
        while at != -1:
            at = c.bodies[at].parent
            if at == p:
                raise Refused(f"body {q} hangs on {p}: no runs")
        c.runs.add((p, q))

    def _hull(self, words):
        if len(words) < 4:
            raise Refused(f"{len(words)} vertices are fewer than 4")
        self.vertices += len(words)
        if self.vertices > MAX_VERTICES:
            raise Refused("too many vertices")
        return [vector(w) for w in words]

    def _part(self):
        c, w = self.carrier, self.lines.take(None, True)
        if len(w) < 2:
            raise Refused("a part has an id and a body")
        self._id(w[0], c.parts, "part")
        c.parts.append(Part(self._body_id(w[1]), self._hull(w[2:]), self.lines.name))

    def _two_parts(self):
        c = self.carrier
        ids = [below(w, len(c.parts), "part") for w in self.lines.take(2, False)]
        return self._pair(ids, Both(c))

    def _pinned(self):
        p, q = self._two_parts()
        self._bodies_done()
        self.budget.spend((1 + len(self.carrier.links)) * len(self.carrier.bodies))
        declared.check_pinned(self.carrier, p, q)
        self.carrier.pinned.add((p, q))

    def _seam(self):
        p, q = self._two_parts()
        declared.check_near(self.carrier.parts[p].vertices, self.carrier.parts[q].vertices)
        self.carrier.seams.add((p, q))

    def _step(self):
        w = self.lines.take(2, True)
        kinds = ("roll",) if self.place else ("strip", "raise", "end")
        steps = self.place.steps if self.place else self.carrier.steps
        before = self.place.all_steps() if self.place else self.carrier.steps
        if w[1] not in kinds:
            raise Refused(f"a step {w[1][:20]!r} here")
        self._bodies_done()
        self.step = Step(whole(w[0]), w[1], self.lines.name, line=self.lines.at)
        if self.step.id <= (before[-1].id if before else 0):
            raise Refused("ids of steps must rise from 1")
        self.budget.keep(len(self._owner().parts))
        self.step.present = list(range(len(self._owner().parts)))
        steps.append(self.step)
        self.step_stage = 0

    def _owner(self):
        return self.place.carrier if self.place else self.carrier

    def _drive(self):
        c, w = self._owner(), self.lines.take(3, False)
        body = below(w[0], len(c.bodies), "body")
        if body in self.step.drives:
            raise Refused(f"body {body} is driven twice")
        a, b = number(w[1]), number(w[2])
        joints.check_drive(c.bodies[body], a, b)
        if self.step.kind == "end" and a != b:
            raise Refused("in an end step nothing moves")
        self.step.drives[body] = (a, b)

    def _absent(self):
        if self.step.absent is not None:
            raise Refused("a second absent")
        every = list(range(len(self._owner().parts)))
        self.budget.spend(len(every))
        (w,) = self.lines.take(1, False)
        self.step.absent, self.step.present = pick(w, every)

    def _placed(self):
        word = self.lines.words[0]
        if self.step.kind != "roll" or self.step.roll:
            raise Refused("only one of carry and tip, and only in a roll step")
        if any(link.a == -1 for link in self._owner().links):
            raise Refused("a link from the ground in a frame that is placed: where the ground is, is not said")
        form = PLACED[word]
        w = self.lines.take(len(form), False)
        self.step.roll = (word, [vector(x) if f == "v" else number(x) for f, x in zip(form, w)])
        roll.check(self.step.roll)

    def _open_place(self):
        w = self.lines.take(3, True)
        self._close_carrier()
        self._id(w[0], self.file.places, "place")
        carrier = self.file.carriers[below(w[1], len(self.file.carriers), "carrier")]
        self.place = Place(len(self.file.places), carrier, number(w[2]), self._unused())
        self.file.places.append(self.place)
        self.stage, self.step = 0, None

    def _unused(self):
        if self.lines.name in self.names:
            raise Refused("a place or twin of this name stands already")
        self.names.add(self.lines.name)
        return self.lines.name

    def _twin(self):
        self.lines.take(0, True)
        self.place.twins.append(self._unused())

    def _solid(self):
        w = self.lines.take(None, False)
        if len(w) < 3:
            raise Refused("a solid has an id, a zone and scenes")
        self._id(w[0], self.place.solids, "solid")
        zone, colon, kind = w[1].partition(":")
        if zone not in self.file.zones or ":" in kind or bool(colon) != bool(kind):
            raise Refused(f"zone {w[1][:40]!r} does not stand")
        if not w[2] or set(w[2]) - set("sra") or len(set(w[2])) != len(w[2]):
            raise Refused(f"scenes {w[2][:10]!r}")
        if zone == "hanger" and not kind and "s" in w[2]:
            raise Refused("a hanger without KIND in scene s: nothing could cover it")
        self.place.solids.append(Solid(zone, kind, w[2], self._hull(w[3:])))

    def _touching(self, count):
        w = self.lines.take(count, False)
        solid = below(w[0], len(self.place.solids), "solid")
        every = list(range(len(self.place.carrier.parts)))
        parts = pick(w[-1], every)[0]
        self.budget.spend(len(every) + len(parts) * len(self.place.solids[solid].vertices))
        self.budget.keep(len(parts))
        return solid, whole(w[1]) if count == 3 else None, parts

    def _dated(self, table, scene):
        solid, step, parts = self._touching(3)
        declared.check_face(self.place, solid, parts, scene)
        for p in parts:
            if (solid, p) in table:
                raise Refused(f"solid {solid} and part {p} are declared twice")
            table[(solid, p)] = step

    def _undated(self, table):
        solid, _, parts = self._touching(2)
        if self.place.solids[solid].zone != "invert":
            raise Refused(f"solid {solid} is not of zone invert")
        for p in parts:
            if (solid, p) in table:
                raise Refused(f"solid {solid} and part {p} are declared twice")
            table.add((solid, p))

    def _face(self):
        self._dated(self.place.faces, "s")

    def _lands(self):
        self._dated(self.place.lands, "r")

    def _stands(self):
        self._undated(self.place.stands)

    def _rolls(self):
        self._undated(self.place.rolls)


class Both:
    """pinned and seam pairs as one set: each pair is declared once."""

    def __init__(self, carrier):
        self.carrier = carrier

    def __contains__(self, pair):
        return pair in self.carrier.pinned or pair in self.carrier.seams
