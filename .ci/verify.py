#!/usr/bin/python3
"""Verify a written proof of clearances a second time.

    .ci/verify.py PROOF [RESULT.json]
    .ci/verify.py --tamper PROOF RESULT.json BOXWALK_BINARY
    .ci/verify.py --tamper-frames PROOF RESULT.json BOXWALK_BINARY

Written from clearance/proof/FORMAT.md alone, in another language and without a
look at the first verifier, so that one misreading does not pass both; only
`carry`, `tip` and `near` were added by somebody who knew the first, and frames.py,
written by somebody who did not, holds where they put the carrier. The section
numbers below are that page's. The first form prints what holds and what
was taken on trust (exit 0), or `refused: line L: reason` (exit 1). The second
makes tampered copies of a proof that holds and fails unless this verifier and
`BOXWALK_BINARY verify` both refuse every one.
Needs numpy (Debian and Ubuntu: python3-numpy).
"""

import sys

from verifier.proof import Verifier
from verifier.refusal import Refused
from verifier.tamper import frame_tampered, tamper, tampered


def main(arguments):
    sys.setrecursionlimit(20000)  # a chain of joints may be 2^10 long
    kinds = {"--tamper": tampered, "--tamper-frames": frame_tampered}.get(arguments[0] if arguments else "")
    if kinds and len(arguments) == 4:
        return tamper(kinds, *arguments[1:])
    if len(arguments) not in (1, 2) or arguments[0].startswith("-"):
        print(__doc__, file=sys.stderr)
        return 2
    files = []
    for name in arguments:
        with open(name, "rb") as file:
            files.append(file.read())
    try:
        print(Verifier(*files).report())
    except Refused as refusal:
        print(refusal)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
