"""Numbers of two jobs worked again from their files by hand formulas, with none
of the tool's code: readings by the law of cosines, gaps of a carrier that turns
and slides in the section, levels, weight, pull, restraint, lifting, bearing,
track, support and length of form.

usage: by_hand.py JOB.yaml RESULT.json [GAP]

RESULT.json is what `boxwalk check JOB.yaml --json` prints. Lengths agree to
0.1 mm, forces to 0.1 %. GAP, for a test of this script, is put on one number
of the result, which must then be found. Exit 1 if any number differs.
"""
import json
import math
import os
import re
import sys

import yaml

IN, FT, KIP, G = 0.0254, 0.3048, 4.4482216152605, 9.80665
UNIT = {"m": 1, "mm": 1e-3, "in": IN, '"': IN, "ft": FT, "'": FT, "kN": 1, "kip": KIP, "deg": math.pi / 180, "%": 0.01,
        "kg": 1, "d": 1, "MPa": 1000, "psi": 6.894757, "degC": 1, "lb": 0.45359237}


def number(text):
    """3, 3.05, 45 3/4 or 1:20."""
    if ":" in text:
        a, b = text.split(":")
        return float(a) / float(b)
    total = 0.0
    for part in text.split():
        a, _, b = part.partition("/")
        total += float(a) / (float(b) if b else 1)
    return total


def q(text):
    """A quantity in SI: 2.5 ft, 10', 45 3/4 in, -0.5 %, 1:20."""
    text = str(text).strip()
    m = re.fullmatch(r"(-?)\s*([\d./: ]+?)\s*([a-zA-Z'\"%]*)", text)
    if m is None:
        raise ValueError(text)
    value = number(m[2]) * (UNIT[m[3]] if m[3] else 1)
    return -value if m[1] else value


def size(text):
    """80 x 60 mm, the unit once behind the last."""
    unit = re.search(r"[a-zA-Z'\"]+$", text.strip())[0]
    return [q(p.strip() + (" " + unit if not p.strip().endswith(unit) else "")) for p in text.split(" x ")]


def degrees_celsius(text):
    v, unit = str(text).split()
    return (float(v) - 32) / 1.8 if unit == "degF" else float(v)


class Carrier:
    """One carrier set to one cell, in the section: y out from the centreline, z up
    from the invert, the left side."""

    def __init__(self, job, gear):
        c, self.job, self.gear = job["culvert"], job, gear
        self.half, self.rise, self.kicker = q(c["span"]) / 2, q(c["rise"]), q(c.get("kicker", "0 m"))
        haunch = c.get("haunch", {})
        self.top = size(haunch["top"]) if "top" in haunch else [0, 0]
        self.bottom = size(haunch["bottom"]) if "bottom" in haunch else [0, 0]
        self.plane = self.rise - self.top[1]
        g, roof, frame, jack = gear, gear["roof"], gear["frame"], gear["jack"]
        self.depth = q(g["wall"]["depth"])
        self.edge = self.half - self.top[0] - q(g["corner"].get("soffit", "0 m"))
        self.panel = q(roof["widths"][0])
        self.foot = self.plane - self.stack()
        header = size(frame["header"]["section"])[1]
        self.header = self.rise - q(roof["depth"]) - size(roof["stringers"]["section"])[1] - q(roof["seat"]) - header / 2
        self.wheels = q(g["wheels"]["axle"]) + q(g["wheels"]["diameter"]) / 2
        rest = self.header - header / 2 - size(frame["sill"])[1]
        aim, leg = self.wheels + q(jack["lower"]), frame["leg"]["length"]
        low, pitch = q(leg["min"]), q(leg["increment"])
        holes = [low + n * pitch for n in range(int((q(leg["max"]) - low) / pitch + 1e-9) + 1)]
        self.jack = rest - min(holes, key=lambda h: abs(rest - h - aim))
        self.gauge = q(frame["gauge"]["prefer"])
        self.bents = [q(g["form"]["first"]) + n * q(g["form"]["spacing"]) for n in range(int(g["form"]["bents"]))]

    def stack(self):
        """Height of wall panels whose reach over the kicker is nearest to the preferred one."""
        w = self.gear["wall"]
        want = self.plane - self.kicker + q(w["over_kicker"]["prefer"])
        low, high = want + q(w["over_kicker"]["min"]) - q(w["over_kicker"]["prefer"]), want + q(w["over_kicker"]["max"]) - q(w["over_kicker"]["prefer"])
        sums = {0.0}
        for _ in range(int(w.get("most", 4))):
            sums |= {round(s + q(h), 9) for s in sums for h in w["heights"]}
        return min((s for s in sums if low - 1e-6 <= s <= high + 1e-6), key=lambda s: abs(s - want))

    def pin(self, p):
        y = q(p["out"]) if "out" in p else self.half - q(p["behind"])
        for key, z in (("above_sill", lambda v: self.jack + v), ("above_header", lambda v: self.header + v),
                       ("above_foot", lambda v: self.foot + v), ("below_top", lambda v: self.plane - v)):
            if key in p:
                return y, z(q(p[key]))

    def links(self):
        return {l["name"]: (self.pin(l["from"]), self.pin(l["to"]), l["from"]["body"], l["to"]["body"], l.get("drives", "")) for l in self.gear["links"]}


def distance(a, b):
    return math.hypot(a[0] - b[0], a[1] - b[1])


def target(text, raised, wheels):
    """A reading of a step: 590 mm, raised - 25 mm, wheels."""
    for word, base in (("raised", raised), ("wheels", wheels)):
        if str(text).startswith(word):
            rest = text[len(word):].replace(" ", "", 1).strip()
            if not rest:
                return base
            return base + (-1 if rest[0] == "-" else 1) * q(rest[1:].strip())
    return q(text)


class Collapse:
    """Where the bodies stand at the end of each step: v down, d in, a the swing."""

    def __init__(self, carrier):
        self.c, self.v, self.d, self.a, self.jack = carrier, 0.0, 0.0, 0.0, carrier.jack
        self.reads = {n: distance(l[0], l[1]) for n, l in carrier.links().items()}
        self.raised = dict(self.reads)
        g = carrier.gear
        if "hinge" in g:
            self.hinge = (carrier.half - q(g["hinge"]["behind"]), carrier.plane + q(g["hinge"]["above"]))

    def at(self, body, p):
        """A point of a body, raised, at the end of the step. Left side: in is -y, and
        a positive swing takes the foot in."""
        y, z = p
        if body == "frame":
            return y, z - self.v
        if "slide" in self.c.gear:
            fall = q(self.c.gear["slide"]["fall"])
            return (y - self.d, z - self.d * fall - self.v) if body == "wall" else (y, z - self.v)
        if body == "wall":
            hy, hz = self.hinge
            s, k, ry, rz = math.sin(self.a), math.cos(self.a), y - hy, z - hz
            y, z = hy + k * ry + s * rz, hz - s * ry + k * rz
        return y - self.d, z - self.v

    def step(self, s):
        for name, text in (s.get("drivers") or {}).items():
            if name == "jack":
                self.jack = target(text, self.c.jack, self.c.wheels)
                self.v = self.c.jack - max(self.jack, self.c.wheels)
            elif name == "draw screw":
                self.d = target(text, 0, 0)
            else:
                self.reads[name] = target(text, self.raised[name], 0)
        self.follow()

    def follow(self):
        if "slide" not in self.c.gear:
            links = self.c.links()
            for name, (p, _, _, _, drives) in links.items():
                if drives == "half":  # level: what it shortens by is what the half goes in
                    self.d = self.raised[name] - self.reads[name]
            for name, (p, w, _, _, drives) in links.items():
                if drives == "wall":
                    self.a = self.swing(p, w, self.reads[name])
        for name, (p, w, a, b, drives) in self.c.links().items():
            if not drives:
                self.reads[name] = distance(self.at(a, p), self.at(b, w))

    def swing(self, pin, wall, length):
        """Law of cosines at the hinge, before and now: the hinge has gone in by d, the
        pin on the frame has not."""
        def angle(hinge, l):
            big, r = distance(hinge, pin), distance(self.hinge, wall)
            gamma = math.acos((r * r + big * big - l * l) / (2 * r * big))
            line = math.atan2(hinge[0] - pin[0], hinge[1] - pin[1])  # of the frame pin, from straight down
            return gamma - line
        now = angle((self.hinge[0] - self.d, self.hinge[1]), length)
        return angle(self.hinge, distance(pin, wall)) - now


def outlines(c):
    """The faced panels as they stand raised, by role and body, and lines of the section."""
    g, under = c.gear, c.rise - q(c.gear["roof"]["depth"])
    back = c.half - c.depth
    ret = q(g["corner"].get("return", "0 m"))
    seam = (c.half - ret * c.top[0] / c.top[1], c.plane + ret) if c.top[1] else (c.half, c.plane)
    wall = [(c.half, c.foot), (c.half, c.plane), seam, (back, seam[1]), (back, c.foot)]
    out = {"wall panel": [("wall", wall)]}
    if "hinge" in g:
        corner = [seam, (c.half - c.top[0], c.rise), (c.half - c.top[0], under), (seam[0] - q(g["corner"]["depth"]), seam[1])]
        out["corner panel"] = [("half", corner)]
        out["roof panel"] = [("half", [(c.edge - c.panel, c.rise), (c.edge, c.rise), (c.edge, under), (c.edge - c.panel + q(g["roof"].get("taper", "10 mm")), under)])]
    else:
        out["roof panel"] = [("roof", [(0, c.rise), (c.panel, c.rise)])]
        out["corner panel"] = [("wall", [(c.half - c.depth, c.rise), (c.edge, c.rise)])] if not c.top[1] else []
    return out


def gap_to(points, zone, c):
    """Least signed distance of points from a straight piece of the section."""
    b, hb = c.half, c.bottom
    line = {"wall": lambda y, z: b - y, "roof": lambda y, z: c.rise - z, "invert": lambda y, z: z,
            "haunch_top": lambda y, z: ((b - y) * c.top[1] + (c.rise - z) * c.top[0] - c.top[0] * c.top[1]) / math.hypot(*c.top),
            "haunch_bottom": lambda y, z: ((b - y) * hb[1] + z * hb[0] - hb[0] * hb[1]) / math.hypot(*hb)}[zone]
    return min(line(y, z) for y, z in points)


class Report:
    def __init__(self, shift):
        self.shift, self.bad, self.count = shift, [], 0

    def near(self, what, want, got, length=True):
        if self.shift and self.count == 0:
            got += self.shift
        self.count += 1
        if abs(got - want) > (1e-4 if length else max(1e-3 * abs(want), 1e-6)):
            self.bad.append(f"{what}: {got:.6g} in the result, {want:.6g} by hand")


def middle(v):
    return (v["lower"] + v["upper"]) / 2


def sections(c, result, report):
    """Readings and gaps at every step's end, and the levels of the jacks."""
    rows = [s for s in result["steps"] if s["cell"] == 1 and s["pour"] == 1]
    now, shapes = Collapse(c), outlines(c)
    kept = (c.job.get("left_in_place") or {}).get("hangers")
    for s, row in zip(c.gear["steps"], rows):
        before = now.v
        now.step(s)
        for m in row["moves"]:
            name = m["adjuster"].removesuffix(" left")
            have = {"jack": now.jack, "draw screw": now.d, **now.reads}
            if name in have:
                report.near(f"{s['step']}: reading of {name}", have[name], m["to"])
        ends = {(e["role"], e["side"], e["against"]): middle(e["value"]) for e in row["end"] if e["value"]["upper"] is not None}
        for role, parts in shapes.items():
            points = [now.at(body, p) for body, outline in parts for p in outline]
            side = "" if role == "roof panel" and "slide" in c.gear else "left"
            for zone in ("wall", "roof", "haunch_top", "invert"):
                got = ends.get((role, side, zone))
                # beside a haunch its plane is no face; where the wall lies against its own only the plane counts
                if got is not None and square(points, zone, c):
                    report.near(f"{s['step']}: {role} to {zone}", gap_to(points, zone, c), got)
        if kept and now.d + now.v > 0:
            plate_and_nut(c, now, kept, ends, report, s["step"])
        if now.v > before:
            level(c, now, before, shapes, result, s["step"], report)


def square(points, zone, c):
    """Whether the point that governs stands square over the piece itself."""
    y, z = min(points, key=lambda p: gap_to([p], zone, c))
    if zone == "haunch_top":
        if not c.top[1]:
            return False
        t = ((y - (c.half - c.top[0])) * c.top[0] - (z - c.rise) * c.top[1]) / math.hypot(*c.top)
        return -1e-9 <= t <= math.hypot(*c.top) + 1e-9
    if zone == "wall":
        return max(c.kicker, c.bottom[1]) - 1e-9 <= z <= c.plane + 1e-9
    if zone == "roof":
        return y <= c.half - c.top[0] + 1e-9
    return y <= c.half - c.bottom[0] + 1e-9


def plate_and_nut(c, now, kept, ends, report, step):
    """Beside plate and nut, under them, or round their corner."""
    plate = size(kept["plate"])
    width, tail = size(kept["plate"])[1] / 2, q(kept["tail"])
    nut = q(kept.get("nut", "44 mm")) / 2
    inner, top = c.edge - c.panel - now.d, c.rise - now.v
    for what, half, under in (("plate", width, c.rise - plate[2]), ("nut", nut, c.rise - plate[2] - tail)):
        beside, below = inner - half, under - top
        got = ends.get(("roof panel", "left", "hanger " + what))
        if got is not None and now.v > 0 and below > 0 and beside > 0:
            report.near(f"{step}: roof panel to {what}", math.hypot(beside, below), got)
        elif got is not None and what == "plate" and below <= 0:
            report.near(f"{step}: roof panel to plate", beside, got)


def level(c, now, before, shapes, result, step, report):
    """gap x gauge / height at the start of a lowering, least over the wall panel."""
    v, now.v = now.v, before
    points = [now.at(b, p) for b, o in shapes["wall panel"] for p in o]
    now.v = v
    want = min((c.half - y) * c.gauge / z for y, z in points if z > 0)
    for e in result["checks"]:
        if e["id"] == "strip.level" and e["subject"] == f"cell 1, pour 1, {step}" and "at a height of" in e["text"]:
            report.near(f"{step}: level", want, middle(e["value"]))


def weights(c):
    """kN rolling and raised: the mass as weighed, less fillers and ties, and what lies on
    the faces that are left, at most."""
    g, form = c.gear, c.gear["form"]
    long, roof = q(form["length"]), float(g["roof"]["mass"])
    middle_fill = "hinge" in g
    filler = (2 if middle_fill else 1) * (c.edge - c.panel)
    plates = 0.0
    kept = (c.job.get("left_in_place") or {}).get("hangers")
    if kept:
        plate = size(kept["plate"])
        plates = sum(plate[0] * plate[1] for x in c.bents if c.hung(x))
    fill = filler * long * (1 if middle_fill else 2) - plates
    d, w = q(g["ties"]["diameter"]), g["wall"]["walers"]
    n = max(1, math.ceil(long / q(g["ties"]["spacing"]) - 1e-9))
    rows = len(w.get("above_foot", [])) + len(w.get("below_top", []))
    tie = math.pi / 4 * d * d * (c.depth + size(w["section"])[0] + q(c.job["culvert"]["outer_wall"])) * 7850
    faces = 2 * long * (c.stack() + c.panel)
    faces += 2 * long * (math.hypot(*c.top) * (1 - q(g["corner"].get("return", "0 m")) / c.top[1]) if c.top[1] else q(g["corner"]["soffit"]))
    extra = float((g.get("mass") or {}).get("extra", 10))
    total = q(g["mass"]["total"])
    rolling = total - fill * roof - 2 * rows * n * tie + extra * faces
    return rolling * G / 1000, (total + extra * (faces + fill)) * G / 1000


def statics(c, result, report):
    job, g = c.job, c.gear
    rolling, raised = weights(c)
    got = {}
    for e in result["checks"]:
        if e["where"]["cell"] == 1 and e["where"]["pour"] == 1 and e["value"]:
            got[e["id"], e["subject"].removeprefix("cell 1, pour 1, ")] = e
    at = [q(x) for x in g["wheels"]["at"]]
    off = 0.006 / (max(at) - min(at))  # the invert's tolerance over the wheelbase
    grade = q((job.get("alignment") or {}).get("grade", "0 %"))
    f, breakaway = 0.02, 2.0
    a = math.atan(grade + off)
    report.near("pull", max(0, rolling * (math.sin(a) + f * breakaway * math.cos(a))), middle(got["roll.pull", "winch"]["value"]), False)
    report.near("hold", rolling * math.sin(math.atan(abs(grade) + off)), middle(got["roll.hold", "restraint"]["value"]), False)
    lift = g["lifting"]
    packing, one = q(lift.get("packing", "10 mm")), q(lift.get("pass", "10 mm"))
    pads = [q(x) for x in lift["pads"]]
    report.near("stroke", c.jack - c.wheels + packing, middle(got["raise.lift", "stroke of a lifting jack"]["value"]))
    report.near("tilt along", one / min(b - a for a, b in zip(pads, pads[1:])), middle(got["raise.lift", "tilt along"]["value"]))
    report.near("tilt across", one / c.gauge, middle(got["raise.lift", "tilt across"]["value"]))
    for what, least, key in (("wheel, rocking", 1.6 * rolling / 2, "roll.wheel"), ("jack, worst three", raised / 2, "setup.jacks"), ("load on a lifting jack", rolling / 2, "raise.lift")):
        # half of it on one of two diagonal places; a little more where the centre of gravity leans
        v = middle(got[key, what]["value"])
        report.count += 1
        if not least * (1 - 1e-3) <= v <= least * 1.15:
            report.bad.append(f"{what}: {v:.4g} kN in the result, half is {least:.4g} kN by hand")
    bearing(c, got["roll.bearing", "wheels"], report)
    span = c.half - c.bottom[0] - (c.gauge + q(g["wheels"]["tread"])) / 2
    report.near("wheels raised", c.jack - c.wheels, middle(got["setup.rest", "wheels raised"]["value"]))
    report.near("track", span, middle(got["roll.track", "outer edge of the treads"]["value"]))
    lengths(c, got, at, report)
    pressed(c, got, report)


def pressed(c, got, report):
    """The full head of the fresh concrete at the kicker, and over the fillers."""
    cul = c.job["culvert"]
    roof, kicker = q(cul["roof"]), q(cul.get("kicker", "0 m"))
    high = q(cul["rise"]) + q(cul.get("camber", "0 m")) + roof - kicker
    report.near("pressure at the kicker", unit_weight(c.job) * high, middle(got["pour.pressure", "wall panel"]["value"]), False)
    report.near("pressure at the soffit", unit_weight(c.job) * roof, middle(got["pour.pressure", "filler"]["value"]), False)


def unit_weight(job):
    """kN/m3; 25 unless the job states another."""
    text = job["concrete"].get("unit_weight", "25 kN/m3")
    v, unit = text.split()
    return float(v) * (KIP / 1000 / FT**3 if unit == "pcf" else 1)


def bearing(c, e, report):
    """phi 0.85 f A1 times the spread, f by the equivalent age."""
    con, g = c.job["concrete"], c.gear["wheels"]
    age = q(c.job["schedule"]["invert_age"]) * math.exp(13.65 - 4000 / (273 + degrees_celsius(con["curing"])))
    s = {"R": 0.20, "N": 0.25, "S": 0.38}[con["cement"]]
    f = math.exp(s * (1 - math.sqrt(28 / age))) * (q(con["strength"]) + 8000) - 8000
    tread, patch = q(g["tread"]), q(g.get("patch", "60 mm"))
    outer = c.half + q(c.job["culvert"]["outer_wall"]) - (c.gauge + tread) / 2
    spread = min(2, 1 + 2 * outer / tread, 1 + 2 * 0.1 / patch, 1 + 4 * q(c.job["culvert"]["invert"]) / max(tread, patch))
    report.near("bearing", 0.65 * 0.85 * f * patch * tread * spread, e["limit"], False)


def lengths(c, got, at, report):
    """Form against pour, lap and skew; wheels against the ends of the slab."""
    cul, ends = c.job["culvert"], c.job.get("ends", {})
    skew = cul.get("skew", {})
    tan = math.tan(q(skew.get("inlet", "0 deg")))
    pours = [q(p) for p in cul["pours"]]
    gap = q(cul.get("joint_gap", "0 m"))
    report.near("form needed", pours[0] + abs(tan) * 2 * c.half - (gap / 2 if len(pours) > 1 else 0), got["setup.length", "form length"]["limit"])
    rear = -abs(tan) * c.half  # of the form, at the corner of the pour that lies farthest back
    tread = (c.gauge + q(c.gear["wheels"]["tread"])) / 2
    inlet = q(ends.get("inlet", {}).get("apron", "0 m"))
    report.near("rear wheels", rear + at[0] + inlet - abs(tan) * tread, middle(got["roll.support", "rear wheels"]["value"]))


def hung(c, x):
    """Whether a plate on the centreline at a bent lies wholly under pour 1."""
    cul = c.job["culvert"]
    tan = math.tan(q(cul.get("skew", {}).get("inlet", "0 deg")))
    plate = size(c.job["left_in_place"]["hangers"]["plate"])
    x += -abs(tan) * c.half
    lean = abs(tan) * plate[1] / 2
    return x - plate[0] / 2 - lean >= -1e-9 and x + plate[0] / 2 + lean <= q(cul["pours"][0]) - q(cul.get("joint_gap", "0 m")) / 2 + 1e-9


Carrier.hung = hung


def main(job_file, result_file, shift="0"):
    with open(job_file, encoding="utf-8") as f:
        job = yaml.load(f, yaml.BaseLoader)  # 1:20 is no sexagesimal number here
    with open(os.path.join(os.path.dirname(job_file), job["gear"]), encoding="utf-8") as f:
        gear = yaml.load(f, yaml.BaseLoader)  # 1:20 is no sexagesimal number here
    with open(result_file, encoding="utf-8") as f:
        result = json.load(f)
    report, c = Report(float(shift)), Carrier(job, gear)
    sections(c, result, report)
    statics(c, result, report)
    for line in report.bad:
        print(f"{job_file}: {line}")
    print(f"{job_file}: {report.count} numbers worked again by hand, {len(report.bad)} differ")
    return 1 if report.bad or report.count < 25 else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
