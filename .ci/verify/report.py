"""What a reader must be told of a proof that holds (section 10)."""


def report(file, claims, counts, entries, shown, lines):
    rows = [
        f"{len(claims)} claims with {counts['records']} records of their trees, {counts['planes']} planes, "
        f"{counts['contacts']} contacts and {counts['witnesses']} witnesses; {len(entries.table)} entries, "
        f"{sum(e.far for e in entries.table.values())} of them far; scope {file.scope}; {lines.at} lines.",
    ]
    rows += _result(file, shown)
    rows.append("Assumed, not proved: " + ", ".join(f"{n} {what}" for what, n in _trusted(file)) + ".")
    rows.append(f"{counts['less']} less; the most that was asked less is {counts['less_most'] / 1e6:.6f} m.")
    if counts["contacts"]:
        rows.append(f"The least that a declared contact was held to, the slack off, is {counts['touch_least']:.9f} m.")
    rows.append(f"{counts['idle']} claims have needs that no pair had to keep (every pair exempt or in contact).")
    rows.append("That the inputs are those of their hashes is assumed, not proved.")
    return rows


def _result(file, shown):
    if not shown.compared:
        had = "was not given" if file.result else "is not named"
        return [f"The result {had}: nothing was compared with it."]
    rows = [
        f"The result is that of the hash; {shown.numbers} of its numbers are shown, {shown.no_upper} of them "
        f"with an upper end that no witness shows; {shown.fails_unshown} of {shown.fails} fails with a number are not shown; "
        f"{shown.silent} checks have no number and no entry.",
    ]
    rows += [f"Not shown: {name}" for name in shown.not_shown]
    return rows


def _trusted(file):
    cs, ps = file.carriers, file.places
    yield "parts", sum(len(c.parts) for c in cs)
    yield "bodies", sum(len(c.bodies) for c in cs)
    yield "links", sum(len(c.links) for c in cs)
    yield "steps", sum(len(c.steps) for c in cs) + sum(len(p.steps) for p in ps)
    yield "places", len(ps)
    yield "twins", sum(len(p.twins) for p in ps)
    yield "solids", sum(len(p.solids) for p in ps)
    yield "runs", sum(len(c.runs) for c in cs)
    yield "pinned", sum(len(c.pinned) for c in cs)
    yield "seams", sum(len(c.seams) for c in cs)
    yield "faces", sum(len(p.faces) for p in ps)
    yield "lands", sum(len(p.lands) for p in ps)
    yield "stands", sum(len(p.stands) for p in ps)
    yield "rolls", sum(len(p.rolls) for p in ps)
    steps = [s for c in cs for s in c.steps] + [s for p in ps for s in p.steps]
    yield "absent parts", sum(len(s.absent or ()) for s in steps)
