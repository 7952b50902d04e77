#!/usr/bin/env python3
"""Counts instructions of the hot kernels, so that a busy machine hides nothing.

usage: benches/count.py            counts, and holds them against benches/counts.json
       benches/count.py --keep     also keeps them there

A kernel's benchmark runs once and twice under valgrind; the difference is one turn of it, in all its
threads. The processor that valgrind shows has AVX2 and no more, on every machine. The compiler's
version is kept beside the counts: another one counts otherwise.
"""
import datetime
import json
import pathlib
import re
import subprocess
import sys
import tempfile

TOP = pathlib.Path(__file__).resolve().parent.parent
KEPT = TOP / "benches" / "counts.json"
# More than this against what is kept is said, and makes exit 1.
SLACK = 0.02

# crate, benchmark, function
KERNELS = [
    ("climate", "weather", "read_epw"),
    ("climate", "weather", "sun_on_eight_facets"),
    ("house", "house_year", "house_year"),
    ("house", "house_year", "weather_on_the_faces"),
    ("house", "house_year", "floor"),
    ("season", "year", "two_heads_on_one"),
    ("season", "year", "five_heads_on_one"),
    ("plan", "plan", "after_edit_of_site"),
    ("plan", "plan", "after_edit_of_heads"),
    ("plan", "plan", "after_edit_of_house"),
    ("plan", "plan", "whole"),
]


def built(crate, bench):
    """The program of a benchmark."""
    out = subprocess.run(
        ["cargo", "bench", "--locked", "-q", "-p", crate, "--bench", bench, "--no-run",
         "--message-format=json"],
        cwd=TOP, check=True, stdout=subprocess.PIPE, text=True).stdout
    found = [json.loads(line) for line in out.splitlines() if line.startswith("{")]
    return next(m["executable"] for m in found
                if m.get("executable") and m["target"]["name"] == bench)


def instructions(program, function, times):
    """Instructions of a whole run that calls the function so often; `function` with its benchmark."""
    with tempfile.TemporaryDirectory() as folder:
        out = subprocess.run(
            ["valgrind", "--tool=cachegrind", "--cache-sim=no",
             f"--cachegrind-out-file={folder}/out", program, "--bench", function, "--exact",
             "--sample-size", "1", "--sample-count", str(times)],
            cwd=TOP / "benches", capture_output=True, text=True)
    count = re.search(r"I\s+refs:\s+([\d,]+)", out.stderr)
    if out.returncode or not count:
        sys.exit(f"{program} {function}: {out.stderr[-2000:]}")
    return int(count.group(1).replace(",", ""))


def main():
    kept = json.loads(KEPT.read_text()) if KEPT.exists() else {"counts": {}}
    compiler = subprocess.run(["rustc", "--version"], capture_output=True, text=True).stdout.strip()
    if kept["counts"] and kept["compiler"] != compiler:
        print(f"kept with {kept['compiler']}, now {compiler}: counts differ by that alone")
    counts, more = {}, False
    print(f"{'kernel':40}{'instructions':>16}{'kept':>16}{'change':>9}")
    programs = {}
    for crate, bench, function in KERNELS:
        if (crate, bench) not in programs:
            programs[crate, bench] = built(crate, bench)
        program, name = programs[crate, bench], f"{bench}/{function}"
        whole = f"{bench}::{function}"
        once = instructions(program, whole, 1)
        counts[name] = instructions(program, whole, 2) - once
        if counts[name] < 10_000:
            sys.exit(f"{name}: no benchmark of that name ran")
        before = kept["counts"].get(name)
        change = counts[name] / before - 1 if before else None
        more |= change is not None and change > SLACK
        print(f"{name:40}{counts[name]:16,}{before or 0:16,}"
              f"{'new' if change is None else f'{100 * change:+.1f} %':>9}", flush=True)
    if "--keep" in sys.argv[1:]:
        commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], cwd=TOP,
                                capture_output=True, text=True).stdout.strip()
        today = datetime.date.today().isoformat()
        KEPT.write_text(json.dumps({"date": today, "commit": commit, "compiler": compiler,
                                    "counts": counts}, indent=1) + "\n")
    if more:
        sys.exit(f"a kernel takes more than {100 * SLACK:.0f} % more instructions than kept")


if __name__ == "__main__":
    main()
