"""Compares what the scripts made with what is kept, number by number.

usage: compare.py PROJECT COPY
Everything in checks/values must have been made again; elsewhere (jobs, data, crates) a script may
have rewritten a file, and it must be the same.
A number may differ by one unit in its last printed digit, by 1e-9 of itself or by 1e-14, whichever
is most: enough for another processor's rounding, nothing for another formula. In a table of fitted
cells the small terms are rounded as the large ones are: there 1e-14 is of the largest in the line
and the five before, for a cell's rows begin with it. Text must be equal.
A kept file without a generator must say `typed from` in its first comment lines or stand in
kept.txt.
"""
import fnmatch
import math
import pathlib
import re
import sys


# Rows of one fitted cell.
ROWS = 6


def number(text):
    try:
        return float(text)
    except ValueError:
        return None


def last_digit(text):
    mantissa, _, exponent = text.lower().partition("e")
    decimals = len(mantissa.partition(".")[2])
    return 10.0 ** (int(exponent or 0) - decimals)


def alike(kept, remade, largest):
    if kept == remade:
        return True
    a, b = number(kept), number(remade)
    if a is None or b is None:
        return False
    if math.isnan(a) and math.isnan(b):
        return True
    return abs(a - b) <= max(1.001 * last_digit(kept), 1e-9 * abs(a), 1e-14 * max(largest, 1.0))


def words(line):
    return re.split(r"[,;\s\[\]()]+", line)


def differences(kept, remade):
    """Yields line number, kept word, remade word."""
    rows = ROWS if kept.suffix == ".rs" else 0
    old, new = kept.read_text().splitlines(), remade.read_text().splitlines()
    if len(old) != len(new):
        yield 0, f"{len(old)} lines", f"{len(new)} lines"
        return
    for n, (a, b) in enumerate(zip(old, new), 1):
        if a == b:
            continue
        wa, wb = words(a), words(b)
        if a.startswith(("#", "//")) or len(wa) != len(wb):
            yield n, a, b
            continue
        near = (number(word) for line in old[n - min(rows, n):n] for word in words(line))
        largest = max((abs(x) for x in near if x is not None and math.isfinite(x)), default=0.0)
        yield from ((n, x, y) for x, y in zip(wa, wb) if not alike(x, y, largest))


def stands_alone(path):
    """Whether the file says itself, or kept.txt says, that no script makes it."""
    head = [l for l in path.read_text().splitlines()[:8] if l.startswith("#")]
    listed = (pathlib.Path(__file__).parent / "kept.txt").read_text().splitlines()
    patterns = [l.split()[0] for l in listed if l.strip() and not l.startswith("#")]
    return any("typed from" in l for l in head) or any(
        fnmatch.fnmatch(path.name, p) for p in patterns)


def show(name, found):
    print(f"DIFFERS {name}: {len(found)} place(s)")
    for n, a, b in found[:5]:
        print(f"        line {n}: kept {a}, remade {b}")


def values(kept_folder, remade_folder):
    """Counts of same, kept without script, to mend."""
    good = kept_only = bad = 0
    names = {p.name for folder in (kept_folder, remade_folder) for p in folder.glob("*.csv")}
    for name in sorted(names):
        kept, remade = kept_folder / name, remade_folder / name
        if not kept.exists():
            bad += 1
            print(f"NEW     {name}: made but not kept. mend: commit it")
        elif remade.exists():
            found = list(differences(kept, remade))
            if found:
                bad += 1
                show(name, found)
            else:
                good += 1
                print(f"same    {name}")
        elif (pathlib.Path(__file__).parent / "after" / f"{kept.stem}.py").exists():
            print(f"later   {name}: on the program itself")
        elif stands_alone(kept):
            kept_only += 1
            print(f"kept    {name}: no script")
        else:
            bad += 1
            print(f"LOST    {name}: no script made it again. mend: commit its script, or say "
                  "`# typed from ...` in its head, or name it in checks/kept.txt")
    return good, kept_only, bad


def rewritten(project, copy):
    """How many files that a script may have rewritten are not as they were."""
    bad = 0
    for folder in ("jobs", "data", "crates"):
        for remade in sorted(p for p in (copy / folder).rglob("*") if p.is_file()):
            kept = project / remade.relative_to(copy)
            if kept.exists() and kept.read_bytes() == remade.read_bytes():
                continue
            name = remade.relative_to(copy)
            if not kept.exists():
                bad += 1
                print(f"NEW     {name}: made but not kept. mend: commit it")
            elif found := list(differences(kept, remade)):
                bad += 1
                show(name, found)
    return bad


def main(project, copy):
    project, copy = pathlib.Path(project), pathlib.Path(copy)
    good, kept_only, bad = values(project / "checks/values", copy / "checks/values")
    bad += rewritten(project, copy)
    print(f"{good} same, {kept_only} without script, {bad} to mend")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
