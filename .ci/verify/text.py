"""Lines, words, numbers, ids and LISTs (section 1), and the one way to refuse."""
import json
import re
from bisect import bisect_left, bisect_right

MAX_BYTES, MAX_LINES, MAX_LINE = 1 << 28, 1 << 24, 1 << 20
MAX_WORK, MAX_KEPT = 2_000_000_000, 1 << 25
CONTROL = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f]")
NUMBER = re.compile(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?\Z")
WHOLE = re.compile(r"(0|[1-9][0-9]{0,9})\Z")
SHA = re.compile(r"[0-9a-f]{64}\Z")


class Refused(Exception):
    """The file is refused; where it says None, the line being read is meant."""

    def __init__(self, reason, line=None, record=None):
        super().__init__(reason)
        self.reason, self.line, self.record = reason, line, record


class Budget:
    """Counts of what is looked at and kept: a short file must not ask for hours or gigabytes."""

    def __init__(self):
        self.work = 0
        self.kept = 0

    def spend(self, n):
        self.work += n
        if self.work > MAX_WORK:
            raise Refused(f"more work than {MAX_WORK} vertices, pairs and joints")

    def keep(self, n):
        self.kept += n
        if self.kept > MAX_KEPT:
            raise Refused(f"more than {MAX_KEPT} numbers to be kept")


def number(word):
    if len(word) > 400 or not NUMBER.match(word):
        raise Refused(f"{word[:40]!r} is not a number")
    x = float(word)
    if not abs(x) <= 1e6:
        raise Refused(f"number {word[:40]} is larger than 1e6")
    return x


def whole(word):
    if not WHOLE.match(word):
        raise Refused(f"{word[:40]!r} is not a whole number")
    return int(word)


def whole_or_minus(word):
    return -1 if word == "-1" else whole(word)


def below(word, count, what):
    """An id of something that stands already."""
    i = whole(word)
    if i >= count:
        raise Refused(f"there is no {what} {i}")
    return i


def vector(word):
    xs = word.split(",")
    if len(xs) != 3:
        raise Refused(f"{word[:60]!r} is not a vector")
    return tuple(number(x) for x in xs)


def sha(word):
    if not SHA.match(word):
        raise Refused(f"{word[:70]!r} is not a sha256")
    return word


def pick(word, members):
    """The listed and the rest of the sorted members; what an item covers must rise."""
    chosen, rest, at = [], [], 0
    for item in word.split(","):
        a, dash, b = item.partition("-")
        lo = whole(a)
        hi = whole(b) if dash else lo
        i, j = bisect_left(members, lo), bisect_right(members, hi)
        if i >= j or (dash and lo >= hi):
            raise Refused(f"item {item[:30]} covers no member" if i >= j else f"item {item[:30]} does not rise")
        if i < at:
            raise Refused(f"item {item[:30]} does not rise")
        rest += members[at:i]
        chosen += members[i:j]
        at = j
    rest += members[at:]
    return chosen, rest


def name_of(text):
    """A JSON string that is the whole of text and stands for text."""
    try:
        name = json.loads(text)
    except ValueError:
        raise Refused("the name is not one JSON string to the end of the line")
    if not isinstance(name, str) or text[0] != '"' or text[-1] != '"':
        raise Refused("the name is not a JSON string")
    if "\ufffd" in name or any(0xD800 <= ord(c) <= 0xDFFF for c in name):
        raise Refused("the name does not stand for text")
    return name


class Lines:
    """The file's lines one by one, each looked at before it is used or given back."""

    def __init__(self, data):
        if len(data) > MAX_BYTES:
            raise Refused(f"{len(data)} bytes are more than {MAX_BYTES}", 1, "file")
        self.rows = self._decode(data).split("\n")
        if self.rows[-1] == "":
            self.rows.pop()
        if len(self.rows) > MAX_LINES:
            raise Refused("too many lines", MAX_LINES, "file")
        self.at = 0
        self.words = self.name = None

    @staticmethod
    def _decode(data):
        if data.count(b"\n") > MAX_LINES:
            raise Refused("too many lines", MAX_LINES, "file")
        try:
            text = data.decode("utf-8")
        except UnicodeDecodeError as e:
            raise Refused("not UTF-8", data.count(b"\n", 0, e.start) + 1, "file")
        bad = CONTROL.search(text)
        if bad:
            raise Refused("control character", text.count("\n", 0, bad.start()) + 1, "file")
        return text

    def next(self):
        """Reads one line into words and name; its number is then self.at."""
        if self.at >= len(self.rows):
            self.at += 1
            raise Refused("the file stops before its end record", self.at, "end")
        row = self.rows[self.at]
        self.at += 1
        self.words = [""]
        if len(row) > MAX_LINE // 4 and len(row.encode()) > MAX_LINE:
            raise Refused("the line is longer than 1 MiB")
        cut = row.find(' "')
        head = row if cut < 0 else row[:cut]
        self.words = head.split(" ")
        if "" in self.words or row[-1] == " ":
            raise Refused("an empty line, or a blank too many")
        self.name = None if cut < 0 else name_of(row[cut + 1:])
        return self.words[0]

    def back(self):
        self.at -= 1

    def over(self):
        return self.at >= len(self.rows)

    def take(self, count, named):
        """The words behind the record's own, exactly count of them (None: any), and the name."""
        if named != (self.name is not None):
            raise Refused("a name is missing" if named else "a name where none may be")
        if count is not None and len(self.words) != count + 1:
            raise Refused(f"{len(self.words) - 1} words where there must be {count}")
        return self.words[1:]
