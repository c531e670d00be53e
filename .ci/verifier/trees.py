"""Section 6: the tree that shows a claim."""

import collections

import numpy as np

from .bounds import Evaluator, Leaf, unit
from .refusal import Refused, require
from .text import cover, number

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
