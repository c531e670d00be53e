"""A second verifier of the written proof of clearances.

    .ci/verify FILE.proof [RESULT.json]

Written from clearance/proof/FORMAT.md alone, in another language and by somebody who
knew neither the first verifier nor what writes proofs, so that one misreading does not
pass both. Sections in the comments are that page's. Says `holds` and what was counted
(exit 0), or `refused`, where and why (exit 1). Needs numpy.
"""
import os
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

from claims import ClaimReader       # noqa: E402
from coverage import Entries         # noqa: E402
from head import Reader              # noqa: E402
from report import report            # noqa: E402
from result import check_result      # noqa: E402
from text import MAX_BYTES, Budget, Lines, Refused  # noqa: E402


def load(path, what):
    try:
        with open(path, "rb") as f:
            return f.read(MAX_BYTES + 1)
    except OSError as e:
        raise Refused(f"{what} cannot be read: {e.strerror}", 0, "file")


def verify(proof, result):
    """The lines of the report; Refused if the file does not hold."""
    lines, reader = None, None
    try:
        lines = Lines(load(proof, "the proof"))
        budget = Budget()
        file = Reader(lines, budget).read()
        reader = ClaimReader(file, lines, budget)
        claims = reader.run()
        entries = Entries(file, claims, budget)
        shown = check_result(file, entries, load(result, "the result") if result else None)
        return report(file, claims, reader.counts, entries, shown, lines)
    except Refused as e:
        if e.line is None and lines is not None:
            e.line = lines.at
        if e.record is None:
            word = (lines.words or ["file"])[0] if lines is not None else "file"
            claim = getattr(reader, "where", None)
            e.record = f"{word} of {claim}" if claim else word
        raise


def clean(text):
    """One printable line of no great length."""
    text = str(text)
    shown = "".join(c if c.isprintable() and c != "\ufffd" else f"\\u{ord(c):04x}" for c in text[:600])
    return shown[:600] + ("..." if len(text) > 600 or len(shown) > 600 else "")


def main(args):
    sys.setrecursionlimit(20000)      # a chain of 1024 bodies is walked by calls
    if len(args) not in (1, 2):
        print("refused: line 0: usage: verify FILE.proof [RESULT.json]")
        return 1
    try:
        out = verify(args[0], args[1] if len(args) == 2 else None)
    except Refused as e:
        print(f"refused: line {e.line or 0}: {clean(e.record)}: {clean(e.reason)}")
        return 1
    except (MemoryError, RecursionError, ArithmeticError, ValueError, LookupError, TypeError) as e:
        # A proof that this program cannot follow is not a proof.
        print(f"refused: line 0: verifier: could not be followed: {clean(type(e).__name__)}: {clean(e)}")
        return 1
    print("holds")
    for row in out:
        print(clean(row))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
