"""Section 1: lines, words, numbers, lists."""

import bisect
import json
import re
import unicodedata

import numpy as np

from .refusal import Refused, require

MAX_BYTES, MAX_LINES, MAX_LINE = 2 ** 28, 2 ** 24, 2 ** 20
MAX_VERTICES, MAX_WORK, MAX_KEPT = 2 ** 22, 2e9, 2 ** 25
MAX_BODIES, MAX_KIND, MAX_INPUTS = 2 ** 10, 2 ** 20, 100
NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?\Z")
WHOLE = re.compile(r"(?:0|[1-9][0-9]{0,9})\Z")
SIGNED = re.compile(r"-?[0-9]{1,8}\Z")
HASH = re.compile(r"[0-9a-f]{64}\Z")


def number(word):
    require(NUMBER.match(word), f"not a number: {word[:40]}")
    value = float(word)
    require(abs(value) <= 1e6, f"number too large: {word[:40]}")
    return value


def whole(word, least=0):
    if least == -1 and word == "-1":
        return -1
    require(WHOLE.match(word), f"not a whole number: {word[:40]}")
    return int(word)


def vector(word):
    parts = word.split(",")
    require(len(parts) == 3, f"not a vector: {word[:60]}")
    return np.array([number(p) for p in parts])


def cover(text, members):
    """The members of a sorted tuple that a LIST covers, and the rest."""
    listed, rest, last = [], [], 0
    for item in text.split(","):
        first, dash, final = item.partition("-")
        a = whole(first)
        b = whole(final) if dash else a
        i, j = bisect.bisect_left(members, a), bisect.bisect_right(members, b)
        require(j > i, f"the list covers nothing at {item}")
        require(i >= last, f"the list does not rise at {item}")
        rest.extend(members[last:i])
        listed.extend(members[i:j])
        last = j
    rest.extend(members[last:])
    return tuple(listed), tuple(rest)


class Reader:
    """The records of a proof, one after another."""

    def __init__(self, data):
        require(len(data) <= MAX_BYTES, "the file is too long")
        try:
            text = data.decode("utf-8")
        except UnicodeDecodeError as error:
            raise Refused(f"not UTF-8: {error.reason}") from None
        self.lines = text.split("\n")
        if self.lines and self.lines[-1] == "":
            self.lines.pop()
        require(len(self.lines) <= MAX_LINES, "too many lines")
        self.at = 0
        self.words, self.name, self.key = [], None, ""
        self.advance()

    @property
    def line(self):
        return self.at

    def advance(self):
        """Read the next record; key is "" behind the last."""
        if self.at >= len(self.lines):
            self.key, self.words, self.name = "", [], None
            self.at = len(self.lines) + 1
            return
        text = self.lines[self.at]
        self.at += 1
        require(len(text) * 4 <= MAX_LINE or len(text.encode()) <= MAX_LINE, "line too long")
        require(not any(unicodedata.category(c) == "Cc" for c in text), "a control character")
        cut = text.find(' "')
        self.name = None
        if cut >= 0:
            self.name = self._name(text[cut + 1:])
            text = text[:cut]
        self.words = text.split(" ")
        require(all(self.words) and self.words, "an empty word or line")
        self.key = self.words[0]

    @staticmethod
    def _name(text):
        require(text == text.strip(), "blanks behind the name")
        try:
            name = json.loads(text)
        except ValueError:
            raise Refused("the name is not a JSON string") from None
        require(isinstance(name, str), "the name is not a JSON string")
        require("\ufffd" not in name and not any("\ud800" <= c <= "\udfff" for c in name), "the name stands for no text")
        return name

    def take(self, least, most=None, named=False):
        """The words behind the key; then the next record is read by the caller."""
        count = len(self.words) - 1
        require(count >= least and count <= (least if most is None else most), f"{self.key}: wrong number of words")
        require((self.name is not None) == named, f"{self.key}: " + ("no name" if named else "a name that may not be"))
        return self.words[1:]
