#!/usr/bin/python3
"""Hold a drawing set together from outside: marks, levels, paper, numbers.

    .ci/marks_check.py FOLDER ...

FOLDER is what `boxwalk all` wrote. From the DXF files alone, read with ezdxf:
every mark of parts.csv must be lettered on a *-layout sheet, and be of one size
in every row of parts.csv; the invert levels of both ends of every pour in
setout.csv must be lettered on a longitudinal section that names the pour; all
sheets must be of one paper; the index must list every sheet's number once, in
order. Prints one line for each folder; the exit code is 1 when any fails.
Needs ezdxf (Debian and Ubuntu: python3-ezdxf).
"""

import csv
import pathlib
import re
import sys

import ezdxf

MARK = re.compile(r"\b([A-Z]{1,2}\d+[LR]?)(?:/\d+)?\b")


def rows(path):
    """Rows of a table below its comments, by heading."""
    with open(path, encoding="utf-8", newline="") as f:
        return list(csv.DictReader(line for line in f if not line.startswith("#")))


def texts(path):
    """All that a sheet letters, dimensions and blocks included."""
    doc = ezdxf.readfile(path)
    out = []
    for layout in doc.layouts_and_blocks():
        for e in layout.query("TEXT MTEXT"):
            out.append(e.dxf.text if e.dxftype() == "TEXT" else e.plain_text())
        for e in layout.query("INSERT"):
            out += [a.dxf.text for a in e.attribs]
    return out


def check(folder):
    problems = []
    sheets = sorted((folder / "drawings").glob("*.dxf"))
    lettered = {p.name: texts(p) for p in sheets}
    shown = {m for name, list_ in lettered.items() if "-layout" in name for t in list_ for m in MARK.findall(t)}
    size = {}
    parts = rows(folder / "parts.csv")
    for row in parts:
        mark = row["mark"]
        own = tuple(v for k, v in row.items() if k.split(" ")[0] in ("along", "across", "up"))
        if size.setdefault(mark, own) != own:
            problems.append(f"{mark} is {size[mark]} and {own}")
        if mark not in shown:
            problems.append(f"{mark} stands on no layout")
    level = next(k for k in rows(folder / "setout.csv")[0] if k.startswith("invert level"))
    count = 0
    sections = [set(list_) for name, list_ in lettered.items() if "longitudinal" in name]
    for row in rows(folder / "setout.csv"):
        if row["side"] or row["bent"]:
            continue
        count += 1
        if not any(row[level] in s for s in sections):
            problems.append(f"cell {row['cell']} pour {row['pour']}: level {row[level]} of the {row['point']} on no section")
    papers = {p.with_suffix(".svg").read_text(encoding="utf-8").split('height="', 1)[0].rsplit('width="', 1)[1] for p in sheets}
    if len(papers) != 1:
        problems.append(f"papers {sorted(papers)}")
    if [p.name[:2] for p in sheets] != [f"{i + 1:02d}" for i in range(len(sheets))]:
        problems.append("numbers are not in order")
    return problems, f"{len(sheets)} sheets, {len(size)} marks, {count} ends with levels"


def main(folders):
    bad = False
    for folder in map(pathlib.Path, folders):
        problems, summary = check(folder)
        bad = bad or bool(problems)
        print(f"{folder}: {'FAIL ' + '; '.join(problems[:10]) if problems else 'ok'} ({summary})")
    return 1 if bad else 0


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1:]))
