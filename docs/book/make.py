#!/usr/bin/env python3
"""Gathers the chapters of the book into target/book/src: pages of docs/, the outputs of the command
on the invented job, every formula and rule with its source, and the outside checks with plots.
Standard library only. mdBook makes the pages of it; see book.toml."""

import json
import os
import re
import shutil
import subprocess
import sys
import tomllib
from html import escape
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
HERE = TOP / "docs/book"
OUT = TOP / "target/book"
SRC = OUT / "src"
JOB = "jobs/lake-street/job.toml"

# Chapters in order: title, file in the book, where it comes from.
CHAPTERS = [
    ("What it is for", "intro.md", "docs/book/intro.md"),
    ("A job from start to end", None, None),
    ("The visit and the survey", "survey.md", "docs/book/survey.md"),
    ("A tour with the demo", "tour.md", None),
    ("Choosing", "choose.md", "docs/book/choose.md"),
    ("Placing, lines, wires", "install.md", "docs/book/install.md"),
    ("The start-up day", "startup.md", "docs/startup.md"),
    ("Bills and the second winter", "bills.md", "docs/bills.md"),
    ("The papers", "papers.md", "docs/papers.md"),
    ("The page", "page.md", "docs/page.md"),
    ("Many houses", "many.md", "docs/many.md"),
    ("Serving a firm", "serve.md", "docs/serve.md"),
    ("How it reckons", None, None),
    ("Rules: what is said, and why", "rules.md", None),
    ("Formulas with their sources", "formulas/README.md", None),
    ("Outside checks", "checks.md", None),
    ("Random houses", "houses.md", "docs/houses.md"),
    ("Faults", "faults.md", "docs/faults.md"),
    ("Damaged files", "damaged.md", "docs/damaged.md"),
    ("Changes that the tests notice", "mutants.md", "docs/mutants.md"),
    ("Benchmarks", "benchmarks.md", "docs/benchmarks.md"),
    ("Words and units", "words.md", "docs/words.md"),
    ("Sources", "sources.md", None),
    ("Adding to it", None, None),
    ("A unit, a refrigerant, a rule, an edition", "adding.md", "docs/book/adding.md"),
    ("The format of a data sheet", "sheets.md", "catalogue/README.md"),
    ("How the code is laid out", "architecture.md", "ARCHITECTURE.md"),
    ("Decisions", "decisions/README.md", "docs/decisions/README.md"),
]


def northwall():
    folder = Path(os.environ.get("CARGO_TARGET_DIR", TOP / "target"))
    program = Path(os.environ.get("NORTHWALL_PROGRAM") or folder / "debug/northwall")
    if not program.exists():
        sys.exit(f"book: {program} is not there; cargo build -p northwall first")
    return str(program)


def run(*arguments):
    """What a command prints; 2 and above is a defect of the book or the program."""
    env = dict(os.environ, COLUMNS="80", NO_COLOR="1")
    done = subprocess.run(
        [northwall(), *arguments], cwd=TOP, env=env, capture_output=True, text=True
    )
    if done.returncode > 1:
        sys.exit(f"book: northwall {' '.join(arguments)} ended with {done.returncode}\n{done.stderr}")
    return done.stdout.rstrip()


def relinked(text, of):
    """Links to pages that are in the book lead to them; other files of the project are named."""
    places = {source: page for _, page, source in CHAPTERS if page and source}
    for page in (TOP / "docs/decisions").glob("*.md"):
        places[f"docs/decisions/{page.name}"] = f"decisions/{page.name}"
    home = Path(of).parent
    own = places.get(of, of)

    def link(m):
        words, target = m.group(1), m.group(2)
        if re.match(r"[a-z]+:|#", target):
            return m.group(0)
        path, _, part = target.partition("#")
        aim = os.path.normpath(home / path)
        if aim.endswith("decisions"):
            aim += "/README.md"
        if aim in places:
            to = os.path.relpath(places[aim], Path(own).parent)
            return f"[{words}]({to}{'#' + part if part else ''})"
        return f"{words} (`{aim}`)" if f"`{aim}`" not in words and aim not in words else words

    return re.sub(r"\[([^\]]*)\]\(([^)\s]+)\)", link, text)


def tour():
    out = ["# A tour with the demo\n"]
    text = (HERE / "tour.md").read_text()
    for part in re.split(r"^(\$ northwall .*)$", text, flags=re.M):
        if part.startswith("$ northwall "):
            shown = part.removeprefix("$ northwall ")
            head = re.search(r" \| (\d+) lines$", shown)
            asked = shown[: head.start()] if head else shown
            printed = run(*[a.replace("JOB", JOB) for a in asked.split()])
            if head:
                lines = printed.splitlines()
                many = int(head.group(1))
                printed = "\n".join(lines[:many])
                if len(lines) > many:
                    printed += f"\n… and {len(lines) - many} lines more"
            asked = asked.replace("JOB", JOB)
            out.append(f"```text\n$ northwall {asked}\n{printed}\n```\n")
        else:
            out.append(part.strip() + "\n")
    return "\n".join(out)


def doc_blocks(text):
    """Doc comments of a Rust file with the name of what they stand on."""
    lines = text.splitlines()
    block = []
    for line in lines:
        bare = line.strip()
        if bare.startswith("///"):
            block.append(bare[3:].removeprefix(" "))
            continue
        if block:
            if bare.startswith("#["):
                continue
            name = re.match(
                r"(?:pub(?:\([^)]*\))? )?(?:const )?(?:fn|struct|enum|const|static) (\w+)", bare
            )
            if name:
                yield name.group(1), block
        block = []


HEADINGS = ["Equation", "Symbols", "Range", "Source", "Departures", "Example"]


def sections(block):
    """First paragraph and headings of a page, written either way."""
    parts, where = {"": []}, ""
    code = False
    for line in block:
        if line.startswith("```"):
            code = not code
        m = None if code else re.match(r"(?:# |\*\*)(\w+)(?:\*\*)?\s*(.*)", line)
        if m and (m.group(1) in HEADINGS or line.startswith("# ")):
            where = m.group(1)
            parts[where] = [m.group(2)] if m.group(2) else []
        else:
            parts[where].append(line)
    return {k: "\n".join(v).strip() for k, v in parts.items()}


def plain_code(text):
    """Code of an example without the asking that only tests need."""
    return re.sub(r"^```\w*$", "```rust", text, count=1, flags=re.M) if "```" in text else text


CRATES = {
    "physics": "Facts of nature",
    "climate": "Weather, sun and wind",
    "heatpump": "Heat pumps and their sheets",
    "house": "The house",
    "season": "The year",
    "install": "The installation",
    "startup": "The start-up day",
    "review": "Bills and the second winter",
}


def formulas(sources):
    """Pages by crate, with the title of each, and how many formulas there are."""
    pages, count = {}, 0
    for crate, title in CRATES.items():
        out = [f"# {title}\n"]
        for file in sorted((TOP / f"crates/{crate}/src").rglob("*.rs")):
            for name, block in doc_blocks(file.read_text()):
                s = sections(block)
                if not s.get("Equation"):
                    continue
                count += 1
                first = re.split(r"\n\n|(?<=[a-z)])\. ", s[""])[0].replace("\n", " ")
                out.append(f"## {unlinked(first).rstrip('.')}\n")
                out.append(f"`{name}` in `{file.relative_to(TOP)}`\n")
                for h in HEADINGS:
                    if s.get(h):
                        text = plain_code(s[h]) if h == "Example" else unlinked(s[h])
                        out.append(f"**{h}** {text}\n" if "\n" not in text else f"**{h}**\n\n{text}\n")
                known(s.get("Source", ""), sources, f"{file}:{name}")
        if len(out) > 1:
            pages[f"formulas/{crate}.md"] = (title, "\n".join(out))
    lead = (
        "# Formulas with their sources\n\n"
        f"Every formula of the program has such a page beside its code; these {count} are made of them. "
        "SI inside: what you type and read is turned at the edge. Keys of sources are those of "
        "[Sources](../sources.md).\n\n"
    )
    lead += "".join(f"- [{t}]({Path(p).name})\n" for p, (t, _) in pages.items())
    return lead, pages, count


def unlinked(text):
    """Links between items of the code have no page here."""
    return re.sub(r"\[(`[^`\]]+`)\](?!\()", r"\1", text)


def known(text, sources, where):
    for key in re.findall(r"`([a-z0-9-]+)`", text):
        if re.fullmatch(r"[a-z]+(-[a-z0-9]+)+", key) and key not in sources and "-" in key:
            if not re.search(r"_|::", key):
                MISSING.append(f"{where}: `{key}`")


MISSING = []


def rules():
    out = [
        "# Rules: what is said, and why\n",
        "Each finding of the plan has one rule, in one file, with these four things on top of it.\n",
    ]
    for title, folder in [("The year", "crates/season/src/rules"), ("The plan", "crates/plan/src/find")]:
        out.append(f"## {title}\n")
        for file in sorted((TOP / folder).glob("*.rs")):
            head = [l[3:].strip() for l in file.read_text().splitlines() if l.startswith("//!")]
            text = "\n".join(head)
            if "**What it checks**" not in text:
                continue
            out.append(f"### {file.stem.replace('_', ' ').capitalize()}\n\n{text}\n")
    out.append("## The installation\n")
    out.append(
        "What is asked of places, lines, drains and wires: the words of the finding, how to mend it, "
        "and what would tell where it cannot be told.\n"
    )
    rule = re.compile(
        r"const \w+: Rule = Rule \{\s*name: \"([^\"]+)\",\s*level: Level::(\w+),\s*what: \"([^\"]+)\",\s*"
        r"mend:\s*\"((?:[^\"\\]|\\.)*)\",\s*tell:\s*\"((?:[^\"\\]|\\.)*)\"",
        re.S,
    )
    rows = []
    for file in sorted((TOP / "crates/install/src").rglob("*.rs")):
        for m in rule.finditer(file.read_text()):
            name, level, what, mend, tell = (re.sub(r"\\\n\s*", "", g) for g in m.groups())
            rows.append(f"| {what} | {level.lower()} | {mend} | {tell} |")
    out.append("| judged | if not | mend | what would tell |\n|---|---|---|---|")
    out.extend(rows)
    out.append("\nEditions of codes, distances and dates are data with a source and a date:\n")
    for file in sorted((TOP / "data/rules").rglob("*.toml")):
        out.append(f"- `{file.relative_to(TOP)}`")
    return "\n".join(out) + "\n", len(rows)


def numbers(text):
    return [float(n.replace(",", "")) for n in re.findall(r"-?\d[\d,]*\.?\d*(?:e-?\d+)?", text)]


def span_of(expected):
    """Low and high of what was expected, where it is a range or a value with a tolerance."""
    m = re.match(r"(-?[\d.,]+)(?: \S+)? to (-?[\d.,]+)", expected)
    if m:
        a, b = (float(g.replace(",", "")) for g in m.groups())
        return (a, b) if b > a else None
    m = re.match(r"(-?[\d.,]+(?:e-?\d+)?)[^,]*, to (-?[\d.,]+(?:e-?\d+)?)", expected)
    if m:
        a, t = (float(g.replace(",", "")) for g in m.groups())
        return (a - t, a + t) if t > 0 else None
    return None


def plot(title, rows):
    """Where each value lies in its expected range: the band is the range, the dot what we got."""
    line, left, width = 18, 330, 360
    height = 34 + line * len(rows) + 8
    parts = [
        f'<svg class="lies" viewBox="0 0 {left + width + 30} {height}" role="img" '
        f'aria-label="{escape(title)}: where each value lies in its expected range">',
        f'<text x="0" y="16" class="head">{escape(title)}</text>',
        f'<rect class="band" x="{left + width * 0.25:.1f}" y="26" width="{width * 0.5:.1f}" '
        f'height="{line * len(rows)}"/>',
    ]
    for i, (what, place, holds) in enumerate(rows):
        y = 26 + line * i + 9
        x = left + width * (0.25 + 0.5 * min(max(place, -0.45), 1.45))
        short = what if len(what) <= 52 else what[:51] + "…"
        parts.append(f'<text x="0" y="{y + 4}">{escape(short)}</text>')
        parts.append(
            f'<line class="hair" x1="{left}" x2="{left + width}" y1="{y}" y2="{y}"/>'
        )
        if holds:
            parts.append(f'<circle class="dot" cx="{x:.1f}" cy="{y}" r="4"/>')
        else:
            parts.append(
                f'<path class="out" d="M{x - 5:.1f} {y - 5}l10 10m0 -10l-10 10"/>'
            )
    parts.append("</svg>")
    return "".join(parts)


def family(source):
    for start, name in [
        ("ANSI/ASHRAE Standard 140", "Standard 140: boxes of one and two rooms"),
        ("VDI 6007", "VDI 6007: rooms hour by hour"),
        ("reference library", "Reference libraries"),
        ("ISO 13370", "Ground, walls and glass"),
        ("ISO 6946", "Ground, walls and glass"),
        ("ISO 13788", "Ground, walls and glass"),
        ("Standard 140, older", "Ground, walls and glass"),
        ("EN 14825", "Seasonal ratings"),
        ("AHRI", "Seasonal ratings"),
        ("eemeter", "Bills"),
        ("statsmodels", "Bills"),
        ("scipy", "Bills"),
        ("ASHRAE Guideline", "Bills"),
        ("greenbutton", "Bills"),
        ("invented houses", "Bills"),
    ]:
        if source.startswith(start):
            return name
    return "The trade's own numbers, and the rest"


def checks():
    all_checks = json.loads(run("prove", "--json"))
    held = sum(c["verdict"] == "holds" for c in all_checks)
    out = [
        "# Outside checks\n",
        f"`northwall prove` made this chapter: {len(all_checks)} checks against published standards, "
        f"printed examples and reference libraries; {held} hold, {len(all_checks) - held} do not and say "
        "so. Nothing is tuned to them. In a plot the band is what was expected and the dot what came out; "
        "a cross lies outside. *Second hand* and *from memory* mean that the text itself was not at hand.\n",
    ]
    order = []
    for c in all_checks:
        f = family(c["source"])
        if f not in order:
            order.append(f)
    for f in order:
        mine = [c for c in all_checks if family(c["source"]) == f]
        out.append(f"## {f}\n")
        rows = []
        for c in mine:
            span, got = span_of(c["expected"]), numbers(c["got"])
            if span and got:
                place = (got[0] - span[0]) / (span[1] - span[0])
                rows.append((c["what"], place, c["verdict"] == "holds"))
        for k in range(0, len(rows), 36):
            more = "" if len(rows) <= 36 else f" ({k // 36 + 1})"
            out.append(plot(f + more, rows[k : k + 36]) + "\n")
        out.append("| check | source | expected | got | |\n|---|---|---|---|---|")
        for c in mine:
            cells = [c["what"], c["source"], c["expected"], c["got"], c["verdict"]]
            if c["verdict"] != "holds" and c.get("remark"):
                cells[4] += f": {c['remark']}"
            out.append("| " + " | ".join(x.replace("|", "\\|") for x in cells) + " |")
        out.append("")
    return "\n".join(out), len(all_checks)


def sources_page(sources):
    out = ["# Sources\n", "Keys that the formulas name.\n", "| key | title | edition | kind |\n|---|---|---|---|"]
    for key, s in sources.items():
        out.append(f"| `{key}` | {s['title']} | {s.get('edition', '')} | {s['kind']} |")
    return "\n".join(out) + "\n"


def main():
    sources = tomllib.loads((TOP / "docs/sources.toml").read_text())
    if SRC.exists():
        shutil.rmtree(SRC)
    for folder in ["decisions", "formulas"]:
        (SRC / folder).mkdir(parents=True)
    made = {"tour.md": tour(), "sources.md": sources_page(sources)}
    made["formulas/README.md"], pages, many = formulas(sources)
    made["rules.md"], judged = rules()
    made["checks.md"], proved = checks()
    if MISSING:
        sys.exit("book: sources that docs/sources.toml does not know:\n" + "\n".join(MISSING))
    summary = ["# Summary\n"]
    for title, page, source in CHAPTERS:
        if page is None:
            summary.append(f"\n# {title}\n")
            continue
        text = made[page] if source is None else relinked((TOP / source).read_text(), source)
        (SRC / page).write_text(text)
        summary.append(f"- [{title}]({page})" if page != "intro.md" else f"[{title}]({page})\n")
        if page == "formulas/README.md":
            for at, (name, body) in pages.items():
                (SRC / at).write_text(body)
                summary.append(f"  - [{name}]({at})")
    numbered = [p for p in (TOP / "docs/decisions").glob("*.md") if p.name[0].isdigit()]
    for page in sorted(numbered, key=lambda p: int(p.name.split("-")[0])):
        source = f"docs/decisions/{page.name}"
        text = relinked(page.read_text(), source)
        title = re.search(r"^# (.*)$", text, re.M).group(1)
        (SRC / "decisions" / page.name).write_text(text)
        summary.append(f"  - [{title}](decisions/{page.name})")
    (SRC / "SUMMARY.md").write_text("\n".join(summary) + "\n")
    shutil.copy(HERE / "book.toml", OUT / "book.toml")
    shutil.copy(HERE / "look.css", OUT / "look.css")
    (OUT / "theme").mkdir(exist_ok=True)
    shutil.copy(TOP / "web/public/icon.svg", OUT / "theme/favicon.svg")
    print(f"book: {many} formulas, {judged} judgements of the installation, {proved} outside checks")


if __name__ == "__main__":
    main()
