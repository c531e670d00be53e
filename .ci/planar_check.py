#!/usr/bin/python3
"""Measure the collapsed clearance in the cross-section drawing again.

    .ci/planar_check.py FOLDER ...

FOLDER is what `boxwalk all` wrote. From each drawings/*-section-collapsed*.dxf,
which is drawn in millimetres, the clear opening (the closed polyline on the
concrete layer), the construction joints on the kickers and the outlines of the
panels are taken, and a planar-geometry library works out the least distance
between panels and concrete, zone by zone, on the left and on the right. The
lesser must agree within 0.1 mm with the collapsed strip.clear entry of
result.json for that zone, wherever its governing pair lies in one section and
is on a panel; entries governed otherwise are listed and left out. Prints one
line for each zone; the exit code is 1 when any disagrees, or when a folder has
nothing to compare.
Needs ezdxf and shapely (Debian and Ubuntu: python3-ezdxf, python3-shapely).
"""

import json
import math
import pathlib
import re
import sys

import ezdxf
from shapely.geometry import LineString, MultiLineString

TOLERANCE = 0.1  # mm
CONCRETE, JOINT, PANEL = "W-CONCREE-", "W-GENER-E-", "W-PANEL-E-"
PANEL_MARK = re.compile(r"^[WCR]\d+[LR]?(/\d+)?(\.\d+)?$")  # wall, corner and roof panels: mark, which of them, which solid
ZONES = ("wall", "haunch_top", "roof", "kicker", "haunch_bottom")


def opening(space):
    """Corners of the one closed outline on the concrete layer."""
    loops = [e for e in space.query(f'LWPOLYLINE[layer=="{CONCRETE}"]') if e.closed]
    if len(loops) != 1:
        raise ValueError(f"{len(loops)} closed outlines on {CONCRETE}; one is expected")
    return [(p[0], p[1]) for p in loops[0].get_points()]


def kicker(space, corners):
    """Height of the construction joints that begin at the walls."""
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    tops = set()
    for e in space.query(f'LINE[layer=="{JOINT}"]'):
        for p in (e.dxf.start, e.dxf.end):
            level = abs(e.dxf.start.y - e.dxf.end.y) < 1e-6
            if level and min(abs(p.x - left), abs(p.x - right)) < 1e-6:
                tops.add(round(p.y, 6))
    if len(tops) > 1:
        raise ValueError(f"construction joints at {len(tops)} heights")
    return tops.pop() if tops else min(y for _, y in corners)


def zones(corners, joint):
    """Edges of the opening by zone and side."""
    middle = (min(x for x, _ in corners) + max(x for x, _ in corners)) / 2
    height = (min(y for _, y in corners) + max(y for _, y in corners)) / 2
    out = {}
    for p, q in zip(corners, corners[1:] + corners[:1]):
        side = "left" if (p[0] + q[0]) / 2 < middle else "right"
        upper = (p[1] + q[1]) / 2 > height
        if abs(p[0] - q[0]) < 1e-6:
            low, high = sorted((p[1], q[1]))
            if high > joint:
                out[("wall", side)] = LineString([(p[0], max(low, joint)), (p[0], high)])
            if low < joint:
                out[("kicker", side)] = LineString([(p[0], low), (p[0], min(high, joint))])
        elif abs(p[1] - q[1]) < 1e-6:
            if upper:
                out[("roof", "left")] = LineString([(min(p[0], q[0]), p[1]), (middle, p[1])])
                out[("roof", "right")] = LineString([(middle, p[1]), (max(p[0], q[0]), p[1])])
        else:
            out[("haunch_top" if upper else "haunch_bottom", side)] = LineString([p, q])
    return out


def panels(space):
    """Outlines of the panels."""
    lines = [((e.dxf.start.x, e.dxf.start.y), (e.dxf.end.x, e.dxf.end.y)) for e in space.query(f'LINE[layer=="{PANEL}"]')]
    for e in space.query(f'LWPOLYLINE[layer=="{PANEL}"]'):
        points = [(p[0], p[1]) for p in e.get_points()]
        lines += zip(points, points[1:] + points[: 1 if e.closed else 0])
    if not lines:
        raise ValueError(f"nothing on {PANEL}")
    return MultiLineString(lines)


def cell_of(path):
    """The cell a sheet is of: the first where the name tells none."""
    found = re.search(r"section-collapsed-cells?-(\d+)", path.name)
    return int(found.group(1)) if found else 1


def entries(result, cell):
    """Collapsed clearances of the cell's first pour, by zone."""
    found = {}
    for c in result["checks"]:
        w = c["where"]
        if c["id"] == "strip.clear" and c["subject"].endswith(", collapsed") and w["cell"] == cell and w["pour"] == 1:
            found[w["zone"]] = c
    return found


def reason_to_skip(entry):
    """Why the drawing cannot show an entry; "" when it can."""
    w = entry["where"]
    part = w["part"].split()[0]
    if not PANEL_MARK.match(part):
        return f"governed by {w['part']}, which is no panel"
    if w["a"] is None or w["b"] is None:
        return "no governing pair"
    if abs(w["a"][0] - w["b"][0]) * 1000 > TOLERANCE:
        return "the governing pair does not lie in one section"
    return ""


def check_sheet(path, result):
    """Lines to print, how many zones were compared, and whether all agree."""
    space = ezdxf.readfile(path).modelspace()
    corners = opening(space)
    edges, shapes = zones(corners, kicker(space, corners)), panels(space)
    found = entries(result, cell_of(path))
    compared, agreed = 0, True
    for zone in ZONES:
        entry = found.get(zone)
        if entry is None:
            continue
        skip = reason_to_skip(entry)
        if skip:
            print(f"{path.name}: {zone}: left out: {skip}")
            continue
        sides = {s: shapes.distance(e) for (z, s), e in edges.items() if z == zone}
        if not sides:
            print(f"{path.name}: {zone}: the drawing has no such edge")
            agreed = False
            continue
        want, least = entry["value"]["lower"] * 1000, min(sides.values())
        good = abs(least - want) <= TOLERANCE
        text = ", ".join(f"{s} {d:.3f}" for s, d in sorted(sides.items()))
        print(f"{path.name}: {zone}: {text} mm; result.json {want:.3f} mm: {'agrees' if good else 'DISAGREES'}")
        compared, agreed = compared + 1, agreed and good
    return compared, agreed


def main(folders):
    bad = False
    for folder in map(pathlib.Path, folders):
        result = json.loads((folder / "result.json").read_text(encoding="utf-8"))
        compared = 0
        for path in sorted((folder / "drawings").glob("*section-collapsed*.dxf")):
            try:
                n, agreed = check_sheet(path, result)
            except ValueError as e:
                print(f"{path.name}: {e}")
                n, agreed = 0, False
            compared, bad = compared + n, bad or not agreed
        if compared == 0:
            print(f"{folder}: nothing to compare")
            bad = True
    return 1 if bad else 0


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1:]))
