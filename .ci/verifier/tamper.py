"""Copies of a proof that holds, each with one thing changed that must not pass."""

import math
import subprocess
import tempfile

import numpy as np

from .model import near
from .proof import Verifier, verify
from .refusal import Refused
from .text import vector


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


def seams_unheld(t):
    """A number of seams that only contacts would be held to, and no contact."""
    at = t.first_line("touch", lambda line: "strip.self.seams" in line)
    start = max(i for i in range(at) if t.lines[i].startswith("self "))
    end = next(i for i in range(at, len(t.lines)) if t.lines[i].split(" ", 1)[0] in ("self", "claim", "end"))
    claim = []
    for line in t.lines[start:end]:
        if line.startswith(("need strip.self ", "touch strip.self.seams ")):
            words = line.split(" ")
            line = " ".join([*words[:2], "-0.5" if words[0] == "need" else "0.5"])
        if line != "C":
            claim.append(line)
    return "\n".join(t.lines[:start] + claim + t.lines[end:]).encode()


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
    yield "number of seams without contacts", seams_unheld(t)
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
