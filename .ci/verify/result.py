"""The result that the proof belongs to (section 9)."""
import hashlib
import json

from text import Refused

IDS = ("strip.dig", "strip.self", "strip.clear", "strip.supports", "raise.clear", "roll.clear")


CONTACT, PLAY = 50e-6, 3e-6


class Shown:
    """What the comparison leaves to be told."""

    def __init__(self):
        self.compared = False
        self.numbers = self.no_upper = self.fails = self.fails_unshown = self.silent = 0
        self.not_shown = []


def refuse(reason):
    raise Refused(reason, 0, "result")


def unique(pairs):
    out = dict(pairs)
    if len(out) != len(pairs):
        raise ValueError("a key stands twice")
    return out


def no_constant(word):
    raise ValueError(f"{word} is no number")


def parse(data):
    try:
        out = json.loads(data.decode("utf-8"), object_pairs_hook=unique, parse_constant=no_constant)
    except (ValueError, RecursionError) as e:
        refuse(f"not JSON: {str(e)[:80]}")
    if not isinstance(out, dict) or not isinstance(out.get("checks"), list):
        refuse("no list of checks")
    return out["checks"]


def numeric(x, what):
    if isinstance(x, bool) or not isinstance(x, (int, float)):
        refuse(f"{what} is not a number")
    if not abs(x) <= 1e300:
        refuse(f"{what} is not finite")
    return x


def check_result(file, entries, data):
    shown = Shown()
    if data is None:
        return shown
    if file.result is None:
        refuse("the proof names no result")
    digest = hashlib.sha256(data).hexdigest()
    if digest != file.result:
        refuse(f"sha256 {digest} is not that of the proof, {file.result}")
    shown.compared, seen = True, set()
    for at, check in enumerate(parse(data)):
        if not isinstance(check, dict) or not isinstance(check.get("id"), str):
            refuse(f"check {at} has no id")
        if check["id"] in IDS:
            _check(file, entries, check, seen, shown)
    for key in entries.table:
        if key not in seen:
            refuse(f"{key[0]} {key[1]!r} is proved but not in the result")
    return shown


def _check(file, entries, check, seen, shown):
    if not isinstance(check.get("subject"), str) or check.get("verdict") not in ("pass", "fail", "open"):
        refuse(f"a {check['id']} without subject or verdict")
    key = (check["id"], check["subject"])
    entry, name = entries.table.get(key), f"{key[0]} {key[1]!r}"
    if entry is not None:
        if key in seen:
            refuse(f"{name} stands twice")
        seen.add(key)
    if check["verdict"] == "pass" and key in entries.asked:
        _rests(check, entries.asked[key], name)
    value = check.get("value")
    if value is not None and not isinstance(value, dict):
        refuse(f"{name}: a value that is no object")
    if value is None or value.get("lower") is None:
        _without(check, value, entry, name, shown)
    else:
        _with(file, check, value, entry, name, shown)


def _rests(check, asked, name):
    """What passes rests on no part held to less than its limit, and on no contact deeper than one may be."""
    free, touch = asked
    if check.get("limit") is not None and not free + PLAY >= numeric(check["limit"], f"{name}: limit"):
        refuse(f"{name}: passes, and some parts are held to {free:.6g} only where its limit is {check['limit']:.6g}")
    deep = CONTACT
    if check["id"] == "roll.clear":
        deep += max(0.0, numeric(check.get("allowance", 0), f"{name}: allowance"))
    if not touch + PLAY >= -deep:
        refuse(f"{name}: passes, and some contacts are held to {touch:.6g} only where {-deep:.6g} is the limit")


def _without(check, value, entry, name, shown):
    if value is not None and value.get("upper") is not None:
        refuse(f"{name}: an upper without a lower")
    if entry is None:
        shown.silent += 1
        return
    if not entry.far:
        refuse(f"{name} has a number in the proof but none in the result")
    limit, allowance = numeric(check.get("limit"), "limit"), numeric(check.get("allowance"), "allowance")
    if not entry.lower >= limit or not entry.lower - allowance >= limit:
        refuse(f"{name}: far {entry.lower} does not reach the limit {limit} with its allowance {allowance}")


def _with(file, check, value, entry, name, shown):
    lower = numeric(value["lower"], f"{name}: lower")
    verdict = check["verdict"]
    limit = numeric(check.get("limit"), f"{name}: limit")
    allowance = numeric(check.get("allowance"), f"{name}: allowance")
    if verdict == "pass" and not lower - allowance >= limit:
        refuse(f"{name}: passes with {lower} - {allowance} below {limit}")
    if entry is None:
        if file.scope == "all":
            refuse(f"{name} has a number but no claim")
        shown.not_shown.append(name)
        return
    if entry.far or float(lower) != entry.lower:
        refuse(f"{name}: the result says {lower}, the proof {'far ' if entry.far else ''}{entry.lower}")
    shown.numbers += 1
    upper = value.get("upper")
    if entry.upper is None:
        shown.no_upper += upper is not None
    elif upper is None or float(numeric(upper, f"{name}: upper")) != entry.upper:
        refuse(f"{name}: the result says upper {upper}, the witness {entry.upper}")
    if verdict == "fail":
        shown.fails += 1
        if entry.upper is None or not max(entry.upper, 0.0) - allowance < limit:
            shown.fails_unshown += 1
