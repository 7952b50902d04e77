"""Prints benchmarks beside their references and floors.

usage: table.py FOLDER [--keep]     with divan's output in *.txt and the Python timings in *.json

Each time is held against the last that were kept (times.json), as a multiple of the floor of its
run where there is one. --keep keeps these, and writes docs/benchmarks.md.
"""
import datetime
import json
import pathlib
import re
import subprocess
import sys
import tomllib

HERE = pathlib.Path(__file__).resolve().parent
KEPT = HERE / "times.json"
UNITS = {"ns": 1e-9, "µs": 1e-6, "us": 1e-6, "ms": 1e-3, "s": 1.0}


def divan(text):
    """Medians in seconds by file/function. divan draws a tree; a function's line has times."""
    found, path = {}, []
    for line in text.splitlines():
        m = re.match(r"^([│\s]*(?:[├╰]─ )?)(\S+)\s*(.*)$", line)
        if not m or line.startswith(("running", "test ", "Timer")):
            continue
        depth = len(m.group(1)) // 3
        path = path[:depth] + [m.group(2)]
        columns = m.group(3).split("│")
        times = [re.search(r"([\d.]+) (ns|µs|us|ms|s)\b", c) for c in columns]
        if len(times) >= 3 and times[2]:
            found["/".join(path)] = float(times[2].group(1)) * UNITS[times[2].group(2)]
    return found


def say(seconds):
    if seconds is None:
        return "not there"
    for unit in ("s", "ms", "µs", "ns"):
        if seconds >= UNITS[unit] or unit == "ns":
            return f"{seconds / UNITS[unit]:.3g} {unit}"


def pairs_of(rust, beside):
    """Rows: work, target, ours, floor, what stands beside it."""
    named = tomllib.loads((HERE / "pairs.toml").read_text())["pair"]
    for pair in named:
        ours, floor = rust.get(pair["ours"]), rust.get(pair.get("floor"))
        others = []
        for key in pair.get("beside", []):
            if key not in beside:
                others.append(f"{key} not there")
                continue
            times = f" = {beside[key] / ours:.0f} times ours" if ours else ""
            others.append(f"{key} {say(beside[key])}{times}")
        yield pair, ours, floor, "; ".join(others)


def growth(rust):
    """Rows: work, how many, on one core, on two, each on one core, what two gain."""
    for kind in tomllib.loads((HERE / "pairs.toml").read_text()).get("growth", []):
        counts = sorted(int(key.rsplit("/", 1)[1]) for key in rust
                        if key.startswith(kind["one"] + "/"))
        for count in counts:
            one, two = (rust.get(f"{kind[way]}/{count}") for way in ("one", "two"))
            if one and two:
                yield kind["work"], count, say(one), say(two), say(one / count), f"{one / two:.2f}"


def against(name, ours, kept):
    """Ours as a multiple of what was kept."""
    before = kept.get("times", {}).get(name)
    return f"{ours / before:.2f}" if ours and before else "new"


def main(folder, keep):
    folder = pathlib.Path(folder)
    rust, beside = {}, {}
    for path in folder.glob("*.txt"):
        rust.update(divan(path.read_text()))
    agreement = None
    for path in folder.glob("*.json"):
        values = json.loads(path.read_text() or "{}")
        if path.stem == "house_numpy":
            agreement = values
            values = {f"house_numpy.{way}": values[f"{way}_s"] for way in ("lagged", "plain")}
        beside.update(values)
    kept = json.loads(KEPT.read_text()) if KEPT.exists() else {}
    if kept:
        print(f"last kept: {kept['date']}, {kept['machine']}, {kept['commit']}")
    rows = list(pairs_of(rust, beside))
    print(f"{'work':40}{'target':>16}{'ours':>11}{'floor':>11}{'ours/floor':>12}{'/kept':>7}  beside")
    for pair, ours, floor, others in rows:
        ratio = f"{ours / floor:.2f}" if ours and floor else "-"
        floor_text = say(floor) if "floor" in pair else "-"
        print(f"{pair['work']:40}{pair['target']:>16}{say(ours):>11}{floor_text:>11}{ratio:>12}"
              f"{against(pair['ours'], ours, kept):>7}  {others}")
    named = {p["ours"] for p, *_ in rows} | {p.get("floor") for p, *_ in rows}
    rest = sorted(set(rust) - named)
    for key in rest:
        print(f"{key:56}{say(rust[key]):>11}{against(key, rust[key], kept):>30}")
    for row in growth(rust):
        work, count, one, two, each, gain = row
        print(f"{work:40}{count:>7}{one:>11} on one core{two:>11} on two, {each} each, {gain} times as fast")
    if agreement:
        print("\nsame house in numpy:", f"{agreement['nodes']} nodes, {agreement['zones']} zones")
        for key in sorted(k for k in agreement if k.endswith("_off")):
            print(f"  {key[:-4]}: {100 * agreement[key]:+.3f} % against ours")
    if keep:
        write(rows, rest, rust, agreement, kept)


def machine():
    """The processor as it names itself, and how many of it there are."""
    cores, model = 0, "a processor"
    for line in pathlib.Path("/proc/cpuinfo").read_text().splitlines():
        if line.startswith("model name"):
            cores, model = cores + 1, line.split(":", 1)[1].strip()
    return f"{cores} of {model}"


def write(rows, rest, rust, agreement, kept):
    """Keeps the times, and the table for docs/."""
    commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], capture_output=True,
                            text=True, cwd=HERE).stdout.strip()
    now = {"date": datetime.date.today().isoformat(), "machine": machine(), "commit": commit}
    out = ["# Benchmarks", "",
           f"Made by `make bench-keep` on {now['date']}, {now['machine']}, at commit {commit}. Medians on",
           "a shared machine: ratios count. *Then* is this time over the one kept before"
           + (f" ({kept['date']}, {kept['commit']})." if kept else "; there is none yet."), "",
           "| work | target | ours | floor | ours/floor | then | beside |",
           "|---|---|---|---|---|---|---|"]
    for pair, ours, floor, others in rows:
        ratio = f"{ours / floor:.2f}" if ours and floor else ""
        out.append(f"| {pair['work']} | {pair['target']} | {say(ours)} | {say(floor) if floor else ''} "
                   f"| {ratio} | {against(pair['ours'], ours, kept)} | {others} |")
    out += ["", "## All others, and how cost grows", "", "| benchmark | median | then |", "|---|---|---|"]
    out += [f"| {key} | {say(rust[key])} | {against(key, rust[key], kept)} |" for key in rest]
    out += ["", "## Houses and cores", "", "How cost grows with their number, and what a second core gains.", "",
            "| work | how many | one core | two cores | each, one core | two over one |",
            "|---|---|---|---|---|---|"]
    out += ["| " + " | ".join(map(str, row)) + " |" for row in growth(rust)]
    counts = HERE / "counts.json"
    if counts.exists():
        counted = json.loads(counts.read_text())
        out += ["", "## Instructions", "",
                f"One turn of each kernel under valgrind, counted {counted['date']} at {counted['commit']} with",
                f"{counted['compiler']} (`benches/count.py`): the same however busy the machine is.", "",
                "| kernel | instructions, millions |", "|---|---|"]
        out += [f"| {name} | {count / 1e6:,.1f} |" for name, count in counted["counts"].items()]
    if agreement:
        off = [f"{k[:-4]} {100 * agreement[k]:+.3f} %" for k in sorted(agreement) if k.endswith("_off")]
        out += ["", f"The same house in numpy, {agreement['nodes']} nodes: " + ", ".join(off) + " against ours."]
    (HERE.parent / "docs" / "benchmarks.md").write_text("\n".join(out) + "\n")
    KEPT.write_text(json.dumps({**now, "times": {k: rust[k] for k in sorted(rust)}}, indent=1) + "\n")


if __name__ == "__main__":
    main(sys.argv[1], "--keep" in sys.argv[2:])
