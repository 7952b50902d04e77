"""The program a check tries, and keeping its verdicts."""
import csv
import json
import os
import pathlib
import subprocess
import sys

VALUES = pathlib.Path(__file__).resolve().parent.parent.parent / "values"


def program(feature):
    """The command with this feature: the one that NORTHWALL_PROGRAM names, or built."""
    if os.environ.get("NORTHWALL_PROGRAM"):
        return os.environ["NORTHWALL_PROGRAM"]
    command = ["cargo", "build", "--quiet", "--locked", "-p", "northwall", "--features", feature,
               "--message-format=json"]
    said = subprocess.run(command, cwd=VALUES.parent.parent, stdout=subprocess.PIPE, check=True).stdout
    made = [json.loads(line) for line in said.decode("utf-8").splitlines()]
    return next(m["executable"] for m in made
                if m.get("executable") and m["target"]["name"] == "northwall")


def keep(name, says, columns, verdicts, least):
    """Writes (thing, against, what is wrong) into values/NAME.csv, or the file named on the command
    line; ends with 1 where something is wrong, or where there are fewer than `least` verdicts."""
    out = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else VALUES / f"{name}.csv"
    with out.open("w", encoding="utf-8", newline="") as f:
        f.write(f"# {says}\n# made by checks/after/{name}.py; every verdict must be `holds`\n")
        rows = csv.writer(f, lineterminator="\n")
        rows.writerow(columns)
        for thing, against, wrong in verdicts:
            rows.writerow((thing, against, "; ".join(wrong) if wrong else "holds"))
    bad = [(thing, wrong) for thing, _, wrong in verdicts if wrong]
    if bad or len(verdicts) < least:
        sys.exit(f"{len(verdicts)} verdicts; " + "; ".join(f"{thing}: {wrong}" for thing, wrong in bad))
