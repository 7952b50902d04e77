"""Run by checks/run after the rest, on the program itself. Holds the papers of the demo and the formats beside them against outside libraries, and keeps
the verdicts in values/papers.csv.

- PDF: pikepdf reads each file; PDF/A and PDF/UA marks, tags, fonts inside, no scripts, no files.
- HPXML: lxml validates each export against the official schemas that hpxml-version-translator
  ships, 4.2 and 5.0.
- Calendar: icalendar reads the file and counts its days.

Builds the command if need be. `papers.py FILE` writes the verdicts to FILE instead.
"""

import csv
import pathlib
import subprocess
import tempfile
from importlib.metadata import version

import hpxml_version_translator
import icalendar
import pikepdf
from kept import keep, program
from lxml import etree

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
SCHEMAS = pathlib.Path(hpxml_version_translator.__file__).parent / "schemas"


def walk(element, kinds, alt):
    kind = element.get("/S")
    if kind is not None:
        kinds.add(str(kind))
        if kind == "/Figure" and "/Alt" not in element:
            alt.append("a figure without words")
    children = element.get("/K")
    if children is None:
        return
    for child in children if isinstance(children, pikepdf.Array) else [children]:
        if isinstance(child, pikepdf.Dictionary):
            walk(child, kinds, alt)


def pdf(path):
    wrong = []
    with pikepdf.open(path) as file:
        root = file.Root
        with file.open_metadata() as meta:
            marks = (meta.get("pdfaid:part"), meta.get("pdfaid:conformance"),
                     meta.get("pdfuaid:part"))
            if marks != ("2", "A", "1"):
                wrong.append(f"marks {marks}")
            if not meta.get("dc:title"):
                wrong.append("no title")
        if not root.get("/MarkInfo", {}).get("/Marked"):
            wrong.append("not marked")
        kinds, alt = set(), []
        walk(root["/StructTreeRoot"], kinds, alt)
        wrong += alt
        for kind in ("/Document", "/H1", "/H2", "/P", "/Table", "/TR", "/TH", "/TD"):
            if kind not in kinds:
                wrong.append(f"no {kind}")
        if "/OutputIntents" not in root:
            wrong.append("no output intent")
        for name in ("/OpenAction", "/AA", "/AcroForm"):
            if name in root:
                wrong.append(f"has {name}")
        for thing in file.objects:
            if isinstance(thing, pikepdf.Dictionary):
                if thing.get("/Type") == "/FontDescriptor" and not any(
                        f"/FontFile{n}" in thing for n in ("", "2", "3")):
                    wrong.append("a font is not inside")
                if thing.get("/S") == "/JavaScript" or thing.get("/Type") == "/Filespec":
                    wrong.append("a script or a file inside")
        for page in file.pages:
            box = [float(x) for x in page.MediaBox]
            if box[2:] != [612.0, 792.0]:
                wrong.append(f"size {box}")
            if page.get("/Tabs") != "/S":
                wrong.append("tab order is not that of the tags")
    return sorted(set(wrong))


def hpxml(path, schema):
    root = etree.XMLSchema(etree.parse(str(SCHEMAS / schema / "HPXML.xsd")))
    root.validate(etree.parse(str(path)))
    return [f"line {e.line}: {e.message}" for e in root.error_log]


def calendar(path):
    days = icalendar.Calendar.from_ical(path.read_bytes())
    events = [e for e in days.walk("VEVENT")]
    wrong = [] if len(events) == 4 else [f"{len(events)} events"]
    for e in events:
        for key in ("UID", "DTSTAMP", "DTSTART", "SUMMARY"):
            if key not in e:
                wrong.append(f"no {key}")
    return wrong


def tables(path):
    with path.open(encoding="utf-8", newline="") as f:
        rows = list(csv.reader(f, strict=True))
    wide = {len(r) for r in rows}
    return [] if len(rows) > 1 and len(wide) == 1 else [f"{len(rows)} rows, widths {wide}"]


def main():
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        command = [program("papers"),
                   "papers", "jobs/lake-street/job.toml", "--into", made, "--csv",
                   "--calendar", "--hpxml", "4", "--hpxml", "5"]
        subprocess.run(command, cwd=ROOT, check=False, stdout=subprocess.DEVNULL)
        rows = []
        for path in sorted(folder.glob("*")):
            if path.suffix == ".pdf":
                rows.append((path.name, "PDF/A-2a, PDF/UA-1, tags, fonts", pdf(path)))
            elif path.name == "hpxml-4.xml":
                rows.append((path.name, "HPXML 4.2", hpxml(path, "v4.2")))
            elif path.name == "hpxml-5.xml":
                rows.append((path.name, "HPXML 5.0", hpxml(path, "v5.0")))
            elif path.suffix == ".ics":
                rows.append((path.name, "calendar", calendar(path)))
            elif path.suffix == ".csv":
                rows.append((path.name, "as wide in every row", tables(path)))
    libraries = ("pikepdf", "lxml", "icalendar", "hpxml-version-translator")
    says = ", ".join(f"{name} {version(name)}" for name in libraries) + ": papers of the demo"
    keep("papers", says, ("file", "against", "verdict"), rows, 7)


if __name__ == "__main__":
    main()
