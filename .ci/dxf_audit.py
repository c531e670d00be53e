#!/usr/bin/python3
"""Audit DXF files with an independent reader and re-measure their dimensions.

    .ci/dxf_audit.py FILE.dxf ...

For each file: the ezdxf audit must find no error and have nothing to fix, and
every DIMENSION, measured anew between its definition points and multiplied by
the DIMLFAC of its style, must agree within 0.1 mm with its stored measurement
and with the number that its block shows (feet and inches: to the sixteenth, a
clearance to the one below).
On a plan (a file named ...-plan.dxf) a dimension whose witness points are the
ends of a drawn edge must measure that edge, and any other must measure the
straight distance of its witness points: nothing on a plan is a projection.
Prints one line for each file; the exit code is 1 when any file fails.
Sample sheets: go test ./export/dxf -run Samples -args -samples FOLDER
Needs ezdxf (Debian and Ubuntu: python3-ezdxf).
"""

import math
import re
import sys

import ezdxf
from ezdxf import recover

TOLERANCE = 0.1  # mm
INCH = 25.4  # mm
CLEARANCE = "W-CLEAR-D-"


def shown_text(dim, doc):
    """The value that the dimension's own block letters."""
    block = doc.blocks.get(dim.dxf.geometry)
    texts = [e.plain_text() for e in block if e.dxftype() == "MTEXT"]
    if len(texts) != 1:
        raise ValueError(f"block {dim.dxf.geometry} has {len(texts)} texts")
    return texts[0]


def parse(text):
    """A lettered length in mm, and by how much rounding may put it off."""
    feet = re.match(r"""^(?:(\d+)'-)?(?:(\d+)(?: (\d+)/(\d+))?|(\d+)/(\d+))\"""", text)
    if feet:
        ft, whole, num, den, num2, den2 = feet.groups()
        inches = 12 * int(ft or 0) + int(whole or 0)
        if num or num2:
            inches += int(num or num2) / int(den or den2)
        return inches * INCH, INCH / 32
    number = re.match(r"^\d+(?:\.\d+)?", text)
    if not number:
        raise ValueError(f"no length in {text!r}")
    return float(number.group()), 0.0


def measure(dim):
    """The length between the definition points along the dimension's direction."""
    a, b = dim.dxf.defpoint2, dim.dxf.defpoint3
    if dim.dimtype == 1:  # aligned
        return (b - a).magnitude
    angle = math.radians(dim.dxf.get("angle", 0))
    return abs((b.x - a.x) * math.cos(angle) + (b.y - a.y) * math.sin(angle))


def check_dimension(dim, doc):
    """The worst disagreement in mm; raises ValueError when it is too large."""
    raw = measure(dim)
    factor = doc.dimstyles.get(dim.dxf.dimstyle).dxf.get("dimlfac", 1.0)
    shown, rounding = parse(shown_text(dim, doc))
    if rounding:  # DIMLFAC letters inches
        factor *= INCH
    off = abs(raw * factor - shown)
    if rounding and dim.dxf.layer == CLEARANCE:  # the sixteenth below, never above
        off = abs(raw * factor - shown - rounding)
    stored = abs(raw - dim.dxf.actual_measurement) * factor
    if off > TOLERANCE + rounding or stored > TOLERANCE:
        raise ValueError(f"DIMENSION {dim.dxf.handle} measures {raw * factor:.3f} mm, shows {shown:.3f}, stores {dim.dxf.actual_measurement * factor:.3f}")
    return off


def drawn_edges(doc):
    """The ends of every straight line drawn in model space."""
    edges = []
    for e in doc.modelspace().query("LINE LWPOLYLINE POLYLINE"):
        if e.dxftype() == "LINE":
            points, closed = [e.dxf.start, e.dxf.end], False
        elif e.dxftype() == "LWPOLYLINE":
            points, closed = [ezdxf.math.Vec3(p[0], p[1]) for p in e.get_points()], e.closed
        else:
            points, closed = list(e.points()), e.is_closed
        edges += zip(points, points[1:])
        if closed and len(points) > 2:
            edges.append((points[-1], points[0]))
    return edges


def check_on_plan(dim, doc, edges):
    """Whether the dimension stands at a drawn edge; raises ValueError when it measures anything but what is between its witness points."""
    a, b = dim.dxf.defpoint2, dim.dxf.defpoint3
    style = doc.dimstyles.get(dim.dxf.dimstyle)
    factor = style.dxf.get("dimlfac", 1.0)
    if style.dxf.get("dimlunit", 2) == 4:  # feet and inches: DIMLFAC letters inches
        factor *= INCH
    near = TOLERANCE / factor
    at_edge = any(
        (a - p).magnitude < near and (b - q).magnitude < near or (a - q).magnitude < near and (b - p).magnitude < near
        for p, q in edges
    )
    true, raw = (b - a).magnitude * factor, measure(dim) * factor
    if abs(true - raw) > TOLERANCE:
        what = "a drawn edge" if at_edge else "witness points"
        raise ValueError(f"DIMENSION {dim.dxf.handle} measures {raw:.3f} mm at {what} {true:.3f} mm long")
    return at_edge


def check(path):
    doc, auditor = recover.readfile(path)
    problems = [f"{e.code}: {e.message}" for e in auditor.errors + auditor.fixes]
    strict = ezdxf.readfile(path).audit()  # without the recovering reader, too
    problems += [f"{e.code}: {e.message}" for e in strict.errors + strict.fixes]
    problems += [
        f"layer {layer.dxf.name} has no line type {layer.dxf.linetype}"
        for layer in doc.layers
        if layer.dxf.linetype not in doc.linetypes
    ]
    dims, worst, along = 0, 0.0, 0
    plan = path.endswith("-plan.dxf")
    edges = drawn_edges(doc) if plan else []
    for layout in doc.layouts_and_blocks():
        for dim in layout.query("DIMENSION"):
            dims += 1
            try:
                worst = max(worst, check_dimension(dim, doc))
                along += plan and check_on_plan(dim, doc, edges)
            except (ValueError, AttributeError, ezdxf.DXFError) as e:
                problems.append(str(e))
    if plan and along == 0:
        problems.append("no dimension stands at a drawn edge")
    return problems, f"{doc.dxfversion}, {len(doc.modelspace())} entities, {dims} dimensions, worst {worst:.3f} mm" + (f", {along} at drawn edges" if plan else "")


def main(paths):
    if not paths:
        print(__doc__)
        return 2
    failed = False
    for path in paths:
        try:
            problems, summary = check(path)
        except (OSError, ezdxf.DXFError) as e:
            problems, summary = [str(e)], "unreadable"
        failed = failed or bool(problems)
        print(f"{path}: {'FAIL ' + '; '.join(problems) if problems else 'ok'} ({summary})")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
