"""Prints benchmarks beside their references and floors.

usage: table.py FOLDER     with divan's output in *.txt and the Python timings in *.json
"""
import json
import pathlib
import re
import sys
import tomllib

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


def main(folder):
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
    pairs = tomllib.loads((pathlib.Path(__file__).parent / "pairs.toml").read_text())["pair"]
    print(f"{'work':40}{'target':>16}{'ours':>11}{'floor':>11}{'ours/floor':>12}  beside")
    for pair in pairs:
        ours, floor = rust.get(pair["ours"]), rust.get(pair.get("floor"))
        ratio = f"{ours / floor:.2f}" if ours and floor else "-"
        others = []
        for key in pair.get("beside", []):
            if key not in beside:
                others.append(f"{key} not there")
                continue
            times = f" = {beside[key] / ours:.0f} times ours" if ours else ""
            others.append(f"{key} {say(beside[key])}{times}")
        floor_text = say(floor) if "floor" in pair else "-"
        print(f"{pair['work']:40}{pair['target']:>16}{say(ours):>11}{floor_text:>11}{ratio:>12}  "
              + "; ".join(others))
    named = {p["ours"] for p in pairs} | {p.get("floor") for p in pairs}
    for key in sorted(set(rust) - named):
        print(f"{key:56}{say(rust[key]):>11}")
    if agreement:
        print("\nsame house in numpy:", f"{agreement['nodes']} nodes, {agreement['zones']} zones")
        for key in sorted(k for k in agreement if k.endswith("_off")):
            print(f"  {key[:-4]}: {100 * agreement[key]:+.3f} % against ours")


if __name__ == "__main__":
    main(sys.argv[1])
