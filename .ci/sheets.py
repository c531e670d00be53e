"""The PDF of a set of drawings against its SVG files, as two other programs draw them.

usage: sheets.py FOLDER

Each page of drawings/set.pdf has the paper's size of its SVG and all its lettering;
wherever the SVG has a line or a tone, the page has ink within 0.7 mm; and but for
lettering, which is of other fonts, the page has ink nowhere else.
"""
import html
import re
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np

DPI = 72


def drawn(pdf, page):
    """Where a page has ink."""
    data = subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", "-f", str(page), "-l", str(page), pdf], capture_output=True, check=True).stdout
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
    wide, high = int(head[1]), int(head[2])
    return np.frombuffer(data, np.uint8, wide * high, head.end()).reshape(high, wide) < 215


def near(ink, by):
    """Where there is ink within so many points."""
    out = ink.copy()
    for _ in range(by):
        grown = out.copy()
        grown[1:] |= out[:-1]
        grown[:-1] |= out[1:]
        grown[:, 1:] |= out[:, :-1]
        grown[:, :-1] |= out[:, 1:]
        out = grown
    return out


def lettered(pdf, page, shape):
    """Where a page has words: the boxes round them, as the PDF has them."""
    out = np.zeros(shape, bool)
    boxes = subprocess.run(["pdftotext", "-bbox", "-f", str(page), "-l", str(page), pdf, "-"], capture_output=True, text=True, check=True).stdout
    for box in re.findall(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)"', boxes):
        x0, y0, x1, y1 = (float(v) * DPI / 72 for v in box)
        out[max(0, int(y0) - 1):int(y1) + 2, max(0, int(x0) - 1):int(x1) + 2] = True
    return out


def main(folder):
    pdf = Path(folder, "drawings", "set.pdf")
    sheets = sorted(Path(folder, "drawings").glob("*.svg"))
    info = subprocess.run(["pdfinfo", "-f", "1", "-l", str(len(sheets)), pdf], capture_output=True, text=True, check=True).stdout
    sizes = [tuple(map(float, m)) for m in re.findall(r"^Page +\d+ size: +([\d.]+) x ([\d.]+)", info, re.M)]
    faults, worst = [], 1.0
    if int(re.search(r"^Pages: +(\d+)", info, re.M)[1]) != len(sheets):
        faults.append(f"{pdf}: not a page for each of {len(sheets)} sheets")
    with tempfile.TemporaryDirectory() as scratch:
        for n, svg in enumerate(sheets, 1):
            paper = re.search(r'width="([\d.]+)mm" height="([\d.]+)mm"', svg.read_text()[:400])
            if any(abs(float(p) * 72 / 25.4 - s) > 0.02 for p, s in zip(paper.groups(), sizes[n - 1])):
                faults.append(f"{svg}: {paper.groups()} mm, its page {sizes[n - 1]} points")
            text = svg.read_text()
            said = "".join(subprocess.run(["pdftotext", "-raw", "-f", str(n), "-l", str(n), pdf, "-"], capture_output=True, text=True, check=True).stdout.split())
            for line in re.findall(r"<text[^>]*>([^<]*)</text>", text):
                # lettering that stands upright is read word by word, some of it turned
                if "".join(html.unescape(line).split()) not in said and not all(w in said for w in html.unescape(line).split()):
                    faults.append(f"{svg}: the PDF does not say {line!r}")
            page = drawn(str(pdf), n)
            for name, source, least in (("lines and tones of the SVG", re.sub(r"<text.*?</text>", "", text), 0.998), ("PDF", text, 0.998)):
                Path(scratch, "one.svg").write_text(source)
                subprocess.run(["rsvg-convert", "-f", "pdf", "-o", f"{scratch}/one.pdf", f"{scratch}/one.svg"], check=True)
                other = drawn(f"{scratch}/one.pdf", 1)
                high, wide = min(page.shape[0], other.shape[0]), min(page.shape[1], other.shape[1])
                ink, found = page[:high, :wide], other[:high, :wide]
                if name != "PDF":
                    ink, found = found, ink
                else:
                    ink = ink & ~lettered(str(pdf), n, page.shape)[:high, :wide]
                share = (ink & near(found, 2)).sum() / ink.sum()
                worst = min(worst, share) if name != "PDF" else worst
                if share < least:
                    faults.append(f"{svg}: {100 * (1 - share):.2f} % of the ink of the {name} is not in the other")
    print("\n".join(faults) if faults else f"{folder}: {len(sheets)} sheets, at least {100 * worst:.2f} % of the ink of lines and tones on the page")
    return not faults


if __name__ == "__main__":
    sys.exit(0 if main(sys.argv[1]) else 1)
