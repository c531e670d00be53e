# Reads a STEP file with another kernel and measures what it finds: freecadcmd measure.py
# with STEP_JOB set to a file that names the STEP file, the solids to expect (mm) and
# where to write the answer. Imports nothing of the project.
import json
import os

import Part

job = json.load(open(os.environ["STEP_JOB"]))
shape = Part.Shape()
shape.read(job["file"])


def gap(a, b):
    """A lower bound of the distance: that of two boxes."""
    d = [max(0.0, a.XMin - b.XMax, b.XMin - a.XMax), max(0.0, a.YMin - b.YMax, b.YMin - a.YMax), max(0.0, a.ZMin - b.ZMax, b.ZMin - a.ZMax)]
    return (d[0] ** 2 + d[1] ** 2 + d[2] ** 2) ** 0.5


found = [{"solid": s, "volume": s.Volume, "at": s.CenterOfMass, "box": s.BoundBox, "free": True} for s in shape.Solids]
answer = {"solids": len(found), "invalid": 0, "open": 0, "unmatched": [], "worst_volume": 0.0, "distance": {}, "common": {}}
for f in found:
    answer["invalid"] += not f["solid"].isValid()
    answer["open"] += not all(s.isClosed() for s in f["solid"].Shells)

carrier, still = [], {}
for e in job["expected"]:
    for f in found:
        off = max(abs(f["at"][i] - e["at"][i]) for i in range(3))
        if f["free"] and off < 1e-3 and abs(f["volume"] - e["volume"]) < 1e-4 * e["volume"]:
            f["free"] = False
            answer["worst_volume"] = max(answer["worst_volume"], abs(f["volume"] - e["volume"]) / e["volume"])
            (still.setdefault(e["zone"], []) if e["zone"] else carrier).append((f, e))
            break
    else:
        answer["unmatched"].append(e["mark"])

for zone, solids in still.items():
    pairs = [(gap(f["box"], g["box"]), f, g) for f, e in carrier for g, _ in solids if [e["role"], zone] not in job["touch"]]
    pairs.sort(key=lambda p: p[0])
    best, common = float("inf"), 0.0
    for bound, f, g in pairs:
        if bound > best:
            break
        d = f["solid"].distToShape(g["solid"])[0]
        best = min(best, d)
        if d == 0:
            common = max(common, f["solid"].common(g["solid"]).Volume)
    answer["distance"][zone], answer["common"][zone] = best, common

json.dump(answer, open(job["answer"], "w"))
