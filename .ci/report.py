"""The report of a job against its result, by a program that shares nothing with the tool.

usage: report.py FOLDER...

In each folder of `boxwalk all`: every number of report.html that says which entry it is
of is that of result.json, to its last bit, and is printed as a rounding of it to the
worse side or the nearest; every entry is told; every formula of every working gives its
line's value again; the page and the PDF say the same verdict, cautions and what is not
checked; the PDF has its fonts embedded, its pages numbered n of m and text on each.
"""
import ast
import json
import math
import operator
import re
import subprocess
import sys
from html.parser import HTMLParser

UNITS = {"metric": {"m": 1000, "rad": 180 / math.pi}, "imperial": {
    "m": 1 / 0.0254, "kN": 1 / (0.45359237 * 9.80665), "kg": 1 / 0.45359237,
    "kPa": 0.0254 ** 2 * 1000 / (0.45359237 * 9.80665), "MPa": 0.0254 ** 2 * 1e6 / (0.45359237 * 9.80665),
    "kNm": 1 / (0.45359237 * 9.80665 * 0.3048), "rad": 180 / math.pi}}


class Page(HTMLParser):
    """Rows that say of which entry they are, the numbers in them, and all text."""

    def __init__(self):
        super().__init__()
        self.rows, self.row, self.data, self.said, self.quiet = [], None, None, [], 0

    def handle_starttag(self, tag, attrs):
        a = dict(attrs)
        if tag in ("style", "math", "svg"):
            self.quiet += 1
        if "data-id" in a:
            self.row = (a["data-id"], a["data-subjects"].split("|"), [])
            self.rows.append(self.row)
        elif tag == "table":
            self.row = None
        if tag == "data":
            self.data = [a.get("data-field"), a["value"], ""]

    def handle_endtag(self, tag):
        if tag in ("style", "math", "svg"):
            self.quiet -= 1
        if tag == "data":
            if self.row:
                self.row[2].append(tuple(self.data))
            self.data = None

    def handle_data(self, text):
        if self.data:
            self.data[2] += text
        if not self.quiet:
            self.said.append(text)


def plain(text):
    return re.sub(r"\s+", "", text)


def value_of(entry, field):
    if field == "value":
        return entry["value"]["lower" if entry["sense"] == "min" else "upper"]
    return entry[field]


def last(printed):
    """One in the last digit of a printed number."""
    mantissa, _, power = printed.lower().partition("e")
    return 10 ** (int(power or 0) - len(mantissa.partition(".")[2]))


OPERATORS = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv, ast.Pow: operator.pow}
FUNCTIONS = {"sqrt": math.sqrt, "min": min, "max": max, "sin": math.sin, "cos": math.cos, "tan": math.tan, "exp": math.exp, "ln": math.log, "abs": abs}


def worked(node, known):
    if isinstance(node, ast.Expression):
        return worked(node.body, known)
    if isinstance(node, ast.Constant):
        return node.value
    if isinstance(node, ast.Name):
        return math.pi if node.id == "pi" else known[node.id]
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return -worked(node.operand, known)
    if isinstance(node, ast.BinOp):
        return OPERATORS[type(node.op)](worked(node.left, known), worked(node.right, known))
    if isinstance(node, ast.Call):
        return FUNCTIONS[node.func.id](*[worked(a, known) for a in node.args])
    raise ValueError(ast.dump(node))


def again(lines):
    """What is wrong with a working, line by line."""
    known = {}
    for line in lines:
        # a symbol may be a word that Python keeps for itself
        formula = re.sub(r"\b([A-Za-z]\w*)\b(?! *\()", r"\1_", line["formula"]).replace("^", "**").replace("pi_", "pi")
        if formula:
            v = worked(ast.parse(formula.strip(), mode="eval"), known)
            if abs(v - line["value"]) > 1e-9 * max(abs(v), abs(line["value"])) + 1e-15:
                yield f"{line['symbol']} = {line['formula']} gives {v}, stated {line['value']}"
        known[line["symbol"] + "_"] = line["value"]


def page_against(result, page, units, wrong):
    entries = {(e["id"], e["subject"]): e for e in result["checks"]}
    told, numbers = set(), 0
    for check, subjects, data in page.rows:
        for n, subject in enumerate(subjects):
            e = entries.get((check, subject))
            if e is None:
                wrong(f"{check}, {subject}: no such entry")
                continue
            told.add((check, subject))
            for field, exact, printed in data:
                numbers += 1
                number = printed.lstrip("≥≤ ")
                if field.startswith("working "):
                    line = e["working"][int(field.split()[1])]
                    want, near = line["value"], 1e-5 * abs(line["value"])
                    shown = want
                else:
                    want = value_of(e, field)
                    shown = want * UNITS[units].get(e["unit"], 1)
                    near = 1.01 * last(number)
                if n == 0 and float(exact) != want:
                    wrong(f"{check}, {subject}: {field} is {exact}, in the result {want!r}")
                if abs(float(number) - shown) > near + 1e-12:
                    wrong(f"{check}, {subject}: {field} is printed {printed}, in the result {shown!r}")
    if told != set(entries):
        wrong(f"{len(set(entries) - told)} entries are not told")
    return numbers


def main(folder):
    faults = []
    wrong = lambda text: faults.append(f"{folder}: {text}")
    with open(f"{folder}/result.json", encoding="utf-8") as f:
        result = json.load(f)
    with open(f"{folder}/report.html", encoding="utf-8") as f:
        page = Page()
        page.feed(f.read())
    info = subprocess.run(["pdfinfo", f"{folder}/report.pdf"], capture_output=True, text=True, check=True).stdout
    units = "imperial" if "612 x 792" in info else "metric"
    numbers = page_against(result, page, units, wrong)
    steps = 0
    for e in [*result["checks"], *result["allowances"]]:
        steps += sum(1 for line in e.get("working", []) if line["formula"])
        for fault in again(e.get("working", [])):
            wrong(f"{e.get('id', 'allowance')}, {e.get('subject', e.get('zone'))}: {fault}")

    pages = int(re.search(r"^Pages: +(\d+)", info, re.M)[1])
    fonts = subprocess.run(["pdffonts", f"{folder}/report.pdf"], capture_output=True, text=True, check=True).stdout.splitlines()[2:]
    if not fonts or any(" yes " not in f[f.index("Identity-H"):] for f in fonts):
        wrong("a font is not embedded")
    text = subprocess.run(["pdftotext", "-layout", f"{folder}/report.pdf", "-"], capture_output=True, text=True, check=True).stdout
    sheets = text.split("\f")[:-1]
    if len(sheets) != pages:
        wrong(f"{len(sheets)} pages of text, {pages} in all")
    for n, sheet in enumerate(sheets, 1):
        if f"{n} of {pages}" not in sheet or len(sheet.split()) < 20:
            wrong(f"page {n} of the PDF has no number or next to no text")
    everything = plain(" ".join(subprocess.run(["pdftotext", "-raw", f"{folder}/report.pdf", "-"], capture_output=True, text=True, check=True).stdout.split("\n")))
    said = plain(" ".join(page.said))
    stamped = not result["cleared"]
    for what, where in (("page", said), ("PDF", everything)):
        if ("NOTCLEARED" in where) != stamped:
            wrong(f"the {what} is stamped as if the verdict were another")
        for name in [i["sha256"] for i in result["inputs"]] + [d["what"] for d in result["not_checked"]] + (result["cautions"] if where is said else []):
            if plain(name) not in where:
                wrong(f"the {what} does not say {name!r}")
    # a caution may go on over a page: its words are looked for in their order
    for caution in result["cautions"]:
        for part in re.split(r"[,:;.]", caution):
            if plain(part) not in everything:
                wrong(f"the PDF does not say {part!r}")
    for e in {e["id"]: e for e in reversed(result["checks"])}.values():
        if plain(e["subject"]) not in everything:
            wrong(f"the PDF does not name {e['id']}, {e['subject']}")
    print("\n".join(faults) if faults else f"{folder}: {numbers} numbers, {steps} steps worked again, {pages} pages")
    return not faults


if __name__ == "__main__":
    if not all([main(folder) for folder in sys.argv[1:]]):
        sys.exit(1)
