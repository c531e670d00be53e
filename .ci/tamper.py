#!/usr/bin/python3
"""Change one thing in a proof that holds; both verifiers must refuse every copy.

    .ci/tamper.py BOXWALK PROOF RESULT.json

Prints each kind of tampering with what either verifier says of it. Exit 1 if the
proof itself does not hold, or if a copy is taken by one of them. Kinds that need a
carrier on a way over grades are tried where the proof has one.
"""
import importlib.util
import math
import os
import re
import subprocess
import sys
import tempfile


def second_verifier():
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "verify", "__main__.py")
    spec = importlib.util.spec_from_file_location("second", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


class Copy:
    """A proof by its lines, and copies of it with something changed."""

    def __init__(self, text):
        self.rows = text.split("\n")

    def find(self, pattern, after=0):
        """The first line that begins so, from a line on."""
        return next(i for i in range(after, len(self.rows)) if re.match(pattern, self.rows[i]))

    def put(self, at, *new, drop=1):
        """The text with lines replaced, added (drop=0) or taken out."""
        return "\n".join(self.rows[:at] + list(new) + self.rows[at + drop:])

    def word(self, at, index, change):
        words = self.rows[at].split(" ")
        words[index] = change(words[index])
        return self.put(at, " ".join(words))

    def sub(self, pattern, old, new, after=0):
        """The text with a change in the first line that begins so."""
        at = self.find(pattern, after)
        row = re.sub(old, new, self.rows[at], count=1)
        assert row != self.rows[at], (pattern, self.rows[at][:80])
        return self.put(at, row)

    def next_claim(self, at):
        return self.find("(self|claim|end) ", after=at + 1)


def more(by):
    return lambda w: repr(float(w) + by)


def in_trees(p):
    first = p.find("self ")
    leaf = p.find("P ", after=first)
    contact = p.find("C$", after=first)
    halved = p.find("T ", after=first)
    x, y, z = (float(c) for c in p.rows[leaf].split(" ")[1].split(","))
    yield "plane turned over", p.put(leaf, f"P {-x!r},{-y!r},{-z!r}")
    yield "plane turned aside", p.put(leaf, f"P {z + 0.1!r},{x!r},{y!r}")
    yield "plane not a number", p.put(leaf, "P 0,NaN,1")
    yield "plane without direction", p.put(leaf, "P 0,0,1e-12")
    yield "plane replaced by N", p.put(leaf, "N")
    yield "plane dropped", p.put(leaf)
    yield "split dropped", p.put(p.find("[ABS] ", after=first))
    yield "halving dropped", p.put(halved)
    yield "halving outside its interval", p.put(halved, "T 1")
    yield "contact added", p.put(leaf, "C", p.rows[leaf])
    yield "contact twice", p.put(contact, "C", "C")
    yield "contact left out", p.put(contact)
    yield "turning plane turned too far", p.put(leaf, "W 0,1,0 0,-1,0")


def in_claims(p):
    first = p.find("self ")
    need, end = p.find("need ", after=first), p.find("end ")
    count = int(p.rows[end].split(" ")[1])
    yield "claim raised by 10 um", p.word(need, 2, more(1e-5))
    yield "claim lowered by 10 um", p.word(need, 2, more(-1e-5))
    yield "claim twice", p.put(end, *p.rows[first:p.next_claim(first)], f"end {count + 1}")
    yield "claim left out", p.put(first, drop=p.next_claim(first) - first).replace(f"\nend {count}", f"\nend {count - 1}")
    yield "number of seams without contacts", seams_unheld(p)
    yield "difference changed", p.sub("less ", r"less -?\d+", "less 900000")
    yield "difference twice", p.put(p.find("less "), p.rows[p.find("less ")], drop=0)
    yield "end with another count", p.put(end, f"end {count + 1}")
    yield "end cut off", p.put(end)
    yield "record behind the end", p.put(end + 1, "N", drop=0)
    yield "file cut", "\n".join(p.rows[:len(p.rows) * 2 // 3])


def seams_unheld(p):
    """A number of seams that only contacts would be held to, and no contact."""
    at = p.find("touch strip.self.seams ")
    start = max(i for i in range(at) if p.rows[i].startswith("self "))
    to = p.next_claim(start)
    claim = [re.sub(r"^(need strip.self|touch strip.self.seams) \S+",
                    lambda m: m[1] + (" 0.5" if m[1].endswith("seams") else " -0.5"), row) for row in p.rows[start:to] if row != "C"]
    return p.put(start, *claim, drop=to - start)


def in_witnesses(p):
    at = p.find("near ")
    _, upper, _, one, _, other, _ = p.rows[at].split(" ")
    assert float(upper) > 1e-3, p.rows[at]
    halve = lambda w: w.rsplit(":", 1)[0] + ":" + repr(float(w.rsplit(":", 1)[1]) / 2)
    yield "witness stated 10 um nearer", p.word(at, 1, more(-1e-5))
    yield "witness with a share halved", p.word(at, 4, halve)
    yield "witness of another part", p.word(at, 3, lambda w: str(int(w) + 1))
    yield "witness out of its step", p.word(at, 2, lambda w: "1.5")
    yield "witness given twice", p.put(at, p.rows[at], drop=0)
    yield "vertex moved 1 mm toward", vertex_moved(p, int(one), int(other), at)


def vertex_moved(p, one, other, at):
    """The heaviest corner of a witness goes 1 mm toward the other part: the first step, where all stand as raised."""
    words = p.rows[at].split(" ")
    assert float(words[2]) == 0, "the first witness is of the start"
    rows = [p.find(f"part {i} ") for i in (one, other)]
    corners = [[tuple(map(float, v.split(","))) for v in p.rows[r].split(" ")[3:] if v.count(",") == 2 and '"' not in v] for r in rows]
    shares = [[(int(i), float(w)) for i, _, w in (x.partition(":") for x in words[k].split(","))] for k in (4, 6)]
    a, b = ([sum(w * c[i][d] for i, w in s) for d in range(3)] for c, s in zip(corners, shares))
    apart = math.dist(a, b)
    heavy = max(shares[0], key=lambda s: s[1])[0]
    moved = [c + 1e-3 * (y - x) / apart for c, x, y in zip(corners[0][heavy], a, b)]
    return p.word(rows[0], 3 + heavy, lambda w: ",".join(map(repr, moved)))


def in_contacts(p):
    """What a check that passes must not rest on: contacts held 1 mm deep, parts asked less than its limit."""
    for kind, needed in (("strip.dig", "strip"), ("raise.clear", "raise"), ("roll.clear", "roll"), ("strip.clear", "end")):
        at = next((i for i in passing(p, f"touch {kind} ", needed)), None)
        if at is not None:
            yield f"contact of {kind} held 1 mm deeper, {needed}", looser(p, at, 1000 if kind != "roll.clear" else 200000)
    at = next(passing(p, "need strip.clear ", "strip"))
    yield "a part asked less than the limit", looser(p, at, 900000)


def passing(p, record, kind):
    """Lines of a record in claims of a kind of step, in which nothing is asked less than stated."""
    kinds, claim = {}, None
    for i, row in enumerate(p.rows):
        words = row.split(" ")
        if words[0] == "step":
            kinds[words[1]] = words[2]
        elif words[0] in ("claim", "self"):
            claim = words
        elif row.startswith(record) and float(words[2]) > -6e-5 and words[-1] != "far" and kinds.get(claim[2]) == kind:
            if not p.rows[i + 1].startswith("less "):
                yield i


def looser(p, at, by):
    """The text with a difference for all parts behind a need or touch."""
    claim = next(i for i in range(at, 0, -1) if p.rows[i].startswith("claim "))
    place = p.find(f"place {p.rows[claim].split(' ')[1]} ")
    count, carrier = 0, p.find(f"carrier {p.rows[place].split(' ')[2]}$")
    for row in p.rows[carrier + 1:]:
        if row.startswith(("carrier ", "place ")):
            break
        count += row.startswith("part ")
    return p.put(at + 1, f"less -{by} 0-{count - 1}", drop=0)


def in_model(p):
    part = p.find("part 7 ")
    yield "part missing", p.put(part)
    yield "part doubled", p.put(part, p.rows[part], drop=0)
    yield "body twice", p.put(p.find("body 1 "), p.rows[p.find("body 0 ")])
    yield "parent that comes later", p.sub("body 2 ", r"body 2 -?\d+", "body 2 3")
    yield "order of records", p.put(p.find("link 0 "), p.rows[p.find("step ")], p.rows[p.find("link 0 ")])
    yield "seam of parts far apart", p.put(p.find("seam "), "seam 0 4")
    yield "contact added to the model", p.sub("face ", r" \S+$", " 0")
    yield "rolls on a wall", p.sub("rolls ", r"rolls \d+", f"rolls {p.rows[p.find('solid [0-9]+ wall ')].split(' ')[1]}")
    yield "hanger without kind", p.sub("solid [0-9]+ hanger", r"hanger:\S+", "hanger")
    yield "drive that jumps", driven(p, "strip", 3, 1e-3)
    yield "drive of raising changed", driven(p, "raise", 3, -0.1)
    yield "hash of the result changed", p.sub("result ", r"\S$", "0" if not p.rows[p.find("result ")].endswith("0") else "1")


def driven(p, kind, index, by):
    """A drive that moves in a step of a kind; in stripping one that a later step takes up."""
    at = p.find(f"step [0-9]+ {kind} ")
    while True:
        at = p.find("drive ", after=at + 1)
        _, body, start, to = p.rows[at].split(" ")
        if start != to and (kind != "strip" or any(row.startswith(f"drive {body} {to} ") for row in p.rows[at + 1:])):
            return p.word(at, index, more(by))


def in_text(p):
    at = p.find("drive ")
    row = p.rows[at]
    last = row.split(" ")[-1]
    yield "blank doubled", p.put(at, row.replace("drive ", "drive  "))
    yield "blank at the end", p.put(at, row + " ")
    yield "empty line", p.put(at, "", drop=0)
    yield "leading zero", p.put(at, row.replace("drive ", "drive 0"))
    yield "number too large", p.put(at, row[:-len(last)] + "1e7")
    yield "number that is none", p.put(at, row[:-len(last)] + "nan")
    yield "carriage return", p.put(at, row + "\r")
    yield "name where none may be", p.put(at, row + ' "x"')
    yield "name missing", p.sub("body 0 ", r' "[^"]*"$', "")
    yield "half a pair for a name", p.sub("body 0 ", r'"[^"]*"$', r'"\\ud800"')
    yield "id that does not rise", p.sub("step 1 ", "step 1", "step 0")


def on_the_way(p):
    """Kinds that only a carrier on a way over grades can show."""
    places = [i for i, row in enumerate(p.rows) if row.startswith("carry ")]
    if not places:
        return
    at = places[len(places) // 2]
    lower = lambda w: ",".join([*w.split(",")[:2], repr(float(w.split(",")[2]) - 0.02)])
    words = p.rows[at].split(" ")
    yield "carry: wheels 20 mm lower", p.put(at, " ".join(lower(w) if i in (12, 14) else w for i, w in enumerate(words)))
    yield "carry: straight ahead turned", p.word(at, 10, more(0.05))
    yield "carry: plane too steep", p.word(at, 14, lambda w: "0.6," + w.split(",", 1)[1])
    yield "carry: guides in one place", p.word(at, 4, lambda w: "0.01")
    yield "carry: on end", p.put(at, " ".join(words[:11] + ["2", "0,0,0", "4", "0.5,0,2.4"]))
    yield "carry: placed twice", p.put(at, p.rows[at], drop=0)
    yield "carry: left out", p.put(at)


KINDS = (in_trees, in_claims, in_witnesses, in_contacts, in_model, in_text, on_the_way)


class Verifiers:
    """What either verifier says of a text; None where it holds."""

    def __init__(self, boxwalk, result):
        self.boxwalk, self.result, self.second = boxwalk, result, second_verifier()

    def say(self, text):
        with tempfile.NamedTemporaryFile("w", suffix=".proof", newline="", encoding="utf-8") as f:
            f.write(text)
            f.flush()
            return self._here(f.name), self._there(f.name)

    def _here(self, name):
        try:
            self.second.verify(name, self.result)
        except self.second.Refused as e:
            return f"line {e.line}: {e.record}: {e.reason}"
        return None

    def _there(self, name):
        run = subprocess.run([self.boxwalk, "verify", name, "--result", self.result], capture_output=True, text=True, check=False)
        said = (run.stderr.strip() or run.stdout.strip()).split("\n")[0]
        return said.replace(name, "FILE") if run.returncode else None


def main(boxwalk, proof, result):
    with open(proof, encoding="utf-8", newline="") as f:
        whole = f.read()
    both = Verifiers(boxwalk, result)
    if any(said is not None for said in both.say(whole)):
        print("the proof itself is refused:", *both.say(whole))
        return 1
    taken, count = [], 0
    for kinds in KINDS:
        for kind, text in kinds(Copy(whole)):
            assert text != whole, kind
            count += 1
            here, there = both.say(text)
            print(f"{kind}\n  here:  {here or 'HOLDS'}\n  there: {there or 'HOLDS'}", flush=True)
            if here is None or there is None:
                taken.append(kind)
    print(f"{count} kinds of tampering, {count - len(taken)} refused by both" + (f"; TAKEN: {', '.join(taken)}" if taken else ""))
    return 1 if taken else 0


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
