"""Walk of a claim's tree (section 6): which leaf has which sets over which stretch, what is exempt."""
import numpy as np

from text import Refused, number, pick, vector


class Leaf:
    __slots__ = ("line", "word", "a", "b", "s0", "s1", "touched", "n0", "n1")


class Exempt:
    """Pairs of a self claim that need no proof in one step."""

    def __init__(self, carrier, step, budget):
        self.carrier, self.step, self.budget = carrier, step, budget
        self.first = carrier.first_strip() is step
        self.body = [p.body for p in carrier.parts]
        self.pinned = {}
        for p, q in carrier.pinned:
            self.pinned.setdefault(p, set()).add(q)
            self.pinned.setdefault(q, set()).add(p)
        self.cache = {}

    def bodies(self, p, q):
        if p == q:
            return True
        key = (p, q) if p < q else (q, p)
        if key not in self.cache:
            self.budget.spend(len(self.carrier.bodies))
            self.cache[key] = not self.first and self.carrier.geometry.resting_pair(self.step, p, q)
        return self.cache[key]

    def pair(self, p, q):
        return q in self.pinned.get(p, ()) or self.bodies(self.body[p], self.body[q])

    def block(self, a, b):
        """Which pairs of two sets are exempt, as a matrix."""
        ba, bb = [self.body[p] for p in a], [self.body[q] for q in b]
        ua, ub = sorted(set(ba)), sorted(set(bb))
        small = np.array([[self.bodies(x, y) for y in ub] for x in ua])
        ia, ib = {x: i for i, x in enumerate(ua)}, {y: i for i, y in enumerate(ub)}
        out = small[np.ix_([ia[x] for x in ba], [ib[y] for y in bb])]
        at = {q: j for j, q in enumerate(b)}
        for i, p in enumerate(a):
            for q in self.pinned.get(p, ()):
                if q in at:
                    out[i, at[q]] = True
        return out


class Walk:
    """Pre-order over the records; the stack holds the nodes that are still to come."""

    def __init__(self, lines, budget, first, second, touch, has_touch, exempt, counts):
        self.lines, self.budget, self.touch, self.has_touch = lines, budget, touch, has_touch
        self.exempt, self.counts = exempt, counts
        # a node: first set, second set (None: pairs within the first), s0, s1, touch number applies
        self.stack = [(first, second, 0.0, 1.0, False)]
        self.leaves = []

    def run(self):
        while self.stack:
            node = self.stack.pop()
            word = self.lines.next()
            self.counts["records"] += 1
            if word in "ABSTC" and len(word) == 1:
                self.stack.extend(reversed(self._branches(word, node)))
            elif word == "N":
                self.lines.take(0, False)
                self._nothing(node)
            elif word == "P" or word == "W":
                self._leaf(word, node)
            else:
                raise Refused("not a record of a tree: the tree is not finished")
        return self.leaves

    def _branches(self, word, node):
        first, second, s0, s1, touched = node
        if word == "C":
            self.lines.take(0, False)
            return self._contact(node)
        (w,) = self.lines.take(1, False)
        if word == "T":
            s = number(w)
            if not s0 < s < s1:
                raise Refused(f"{s} is not strictly inside {s0} to {s1}")
            return [(first, second, s0, s, touched), (first, second, s, s1, touched)]
        if (word == "S") != (second is None):
            raise Refused("S only before, A and B only after two sets have been made")
        chosen, rest = pick(w, second if word == "B" else first)
        self.budget.spend(len(chosen) + len(rest))
        self.budget.keep(len(chosen) + len(rest))
        if not rest:
            raise Refused("nothing is left for the rest")
        if word == "A":
            return [(chosen, second, s0, s1, touched), (rest, second, s0, s1, touched)]
        if word == "B":
            return [(first, chosen, s0, s1, touched), (first, rest, s0, s1, touched)]
        return [(chosen, None, s0, s1, touched), (chosen, rest, s0, s1, touched), (rest, None, s0, s1, touched)]

    def _one(self, node, what):
        first, second = node[0], node[1]
        if second is None or len(first) != 1 or len(second) != 1:
            raise Refused(f"{what} is for one pair")

    def _contact(self, node):
        self._one(node, "C")
        first, second, s0, s1, touched = node
        p, q = first[0], second[0]
        if q not in self.touch.get(p, ()):
            raise Refused(f"{p} and {q} are not declared to touch in this step")
        if touched or not self.has_touch(p if self.exempt is None else min(p, q)):
            raise Refused("C stands twice" if touched else "no touch number is given")
        self.counts["contacts"] += 1
        return [(first, second, s0, s1, True)]

    def _nothing(self, node):
        first, second = node[0], node[1]
        if self.exempt is None:
            raise Refused("N: no pair of a part and a solid is exempt")
        self.budget.spend(len(first) * len(second or first))
        block = self.exempt.block(first, second or first)
        if second is None:
            np.fill_diagonal(block, True)
        if not block.all():
            i, j = np.argwhere(~block)[0]
            raise Refused(f"N: the pair {first[i]} and {(second or first)[j]} is not exempt")

    def _leaf(self, word, node):
        first, second, s0, s1, touched = node
        if second is None:
            raise Refused(f"{word} within one set: S must come before")
        if word == "W":
            self._one(node, "W")
        leaf = Leaf()
        w = self.lines.take(2 if word == "W" else 1, False)
        leaf.n0 = vector(w[0])
        leaf.n1 = vector(w[1]) if word == "W" else leaf.n0
        leaf.line, leaf.word, leaf.touched = self.lines.at, word, touched
        leaf.a, leaf.b, leaf.s0, leaf.s1 = first, second, s0, s1
        self.counts["planes"] += 1
        self.leaves.append(leaf)
