"""Run by checks/run after the rest, on the program itself. Reads what `northwall season --many` wrote,
with pyarrow, and keeps the verdicts in values/many.csv.

- The folder is one table for pyarrow, as many rows as houses, in their order.
- Its columns and their kinds are those of the table in docs/many.md, and so is what metadata says.
- Every number of a house that is done is, to the bit, what `loads` and `season` say as JSON of the
  same house as a job of its own.
- A house that waits or is refused has its reason, and no year.

Builds the command with the feature `many`. `many.py FILE` writes the verdicts to FILE instead.
"""

import json
import pathlib
import re
import subprocess
import tempfile

import pyarrow as pa
import pyarrow.dataset as dataset
import pyarrow.parquet as parquet
from kept import keep, program

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
DEMO = ROOT / "jobs" / "lake-street"
KINDS = {"text": pa.string(), "whole number": pa.int64(), "number": pa.float64()}
CARRIERS = ("electricity", "oil", "propane", "gas", "wood")
# houses that are done: id, blower door, price of electricity, option
HOUSES = [
    ("as-it-is", "", "", ""),
    ("leaky", "3100 cfm at 50 Pa", "", ""),
    ("tight-and-dear", "900 cfm at 50 Pa", "0.41 /kWh", ""),
    ("other-option", "", "", "an outdoor unit for each head"),
]


NORTHWALL = program("many")


def northwall(*arguments):
    done = subprocess.run([NORTHWALL, *arguments], cwd=ROOT, stdout=subprocess.PIPE, check=False)
    return done.returncode, done.stdout.decode("utf-8")


def columns_of_page():
    """Name, kind and words of every column that the page promises."""
    page = (ROOT / "docs" / "many.md").read_text(encoding="utf-8").split("## Out", 1)[1]
    return re.findall(r"^\| `(\w+)` \| (text|whole number|number) \| (.+) \|$", page, re.MULTILINE)


def with_values(text, leak, price):
    """The job of a row, written out: what `set:` columns do, done by hand."""
    for key, value in (("blower_door", leak), ("electricity", price)):
        if value:
            text, n = re.subn(rf'(?m)^({key}\s*=\s*)"[^"]*"', rf'\g<1>"{value}"', text)
            assert n == 1, f"{n} lines of {key} in the demo"
    return text


def rows_in(text):
    """What goes in: the houses that are done, then some that cannot be."""
    for name, leak, price, option in HOUSES:
        yield name, text, leak, price, option
    yield "newer", text.replace("northwall = 1", "northwall = 99", 1), "", "", ""
    yield "half", text[: len(text) // 2] + "\n[[room", "", "", ""
    yield "no-option", text, "", "", "no such option"
    yield "no-sheet", text.replace('unit = "Grebe 30"', 'unit = "Heron 99"', 1), "", "", ""


def expected(loads, season):
    """What the row of a house must hold, from the JSON of `loads` and `season`."""
    year, house = season["year"], season["house"]
    of = {c["choice"]: c for c in season["choices"]}
    chosen, now = of[season["choice"]], season["choices"][0]
    bought = {b["carrier"]: b["energy_kwh"] for b in year["bought"]}
    want = {f"{c}_kwh": bought.get(c, 0.0) for c in CARRIERS}
    want |= {k: house[k] for k in ("cooling_kwh", "short_2k_hours", "short_k_h")}
    want |= {k: year[k] for k in ("heads_share", "seasonal_cop", "electric_peak_w", "cost", "carbon_kg")}
    want |= {k: chosen[k] for k in ("cycling_hours", "full_hours", "cannot_tell_hours", "coldest_c")}
    return want | {
        "says": None,
        "name": season["job"],
        "station": season["station"],
        "design_outdoor_c": loads["heating_design"]["used_c"],
        "heating_load_w": loads["heating_w"],
        "cooling_load_w": loads["cooling_sensible_w"],
        "heat_kwh": house["heating_kwh"],
        "now_bought_kwh": now["electricity_kwh"] + now["fuel_kwh"],
        "now_cost": now["cost"],
        "now_carbon_kg": now["carbon_kg"],
    }


def as_one_job(folder, text, option):
    job = folder / "one.toml"
    job.write_text(text, encoding="utf-8")
    answers = []
    for command in ("loads", "season"):
        more = ["--option", option] if option and command == "season" else []
        _, said = northwall(command, str(job), "--catalogue", str(ROOT / "catalogue"), *more, "--json")
        answers.append(json.loads(said))
    return expected(*answers)


def columns(out):
    """Whether names, kinds and words of the columns are those of the page."""
    promised = columns_of_page()
    schema = dataset.dataset(out, format="parquet").schema
    wrong = [] if len(promised) > 20 else [f"only {len(promised)} columns on the page"]
    if schema.names != [name for name, _, _ in promised]:
        wrong.append("names or their order")
    for name, kind, _ in promised:
        if name in schema.names and schema.field(name).type != KINDS[kind]:
            wrong.append(f"{name}: {schema.field(name).type}")
    for part in sorted(out.glob("*.parquet")):
        words = parquet.read_metadata(part).metadata
        for name, _, says in promised:
            if words.get(f"northwall.{name}".encode()) != says.encode():
                wrong.append(f"{part.name}: words of {name}")
    return wrong


def main():
    text = (DEMO / "job.toml").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(made)
        names = ("id", "job", "set:leakage.blower_door", "set:prices.electricity", "option")
        rows = list(rows_in(text))
        table = pa.table({n: pa.array(c) for n, c in zip(names, zip(*rows))})
        parquet.write_table(table, folder / "houses.parquet")
        out = folder / "out"
        code, said = northwall(
            "season", "--many", str(folder / "houses.parquet"), "--out", str(out), "--part", "3",
            "--catalogue", str(ROOT / "catalogue"), "--json")
        counts = json.loads(said)
        # pyarrow passes over names that begin with _ by itself
        got = dataset.dataset(out, format="parquet").to_table().to_pylist()
        verdicts = [
            ("folder", "one table, a row a house, in order",
             [] if [(r["row"], r["id"]) for r in got] == list(enumerate(r[0] for r in rows))
             else ["rows"]),
            ("folder", "columns, kinds and words of docs/many.md", columns(out)),
        ]
        states = [sum(r["state"] == s for r in got) for s in ("done", "waits", "refused", "defect")]
        told = [counts[k] for k in ("done", "waits", "refused", "defects")]
        verdicts.append(("folder", "counts and exit code as printed",
                         [] if states == told and code == 1 and states[3] == 0
                         else [f"{states} {told} {code}"]))
        for row, (name, job, leak, price, option) in zip(got, rows):
            if name in [h[0] for h in HOUSES]:
                want = as_one_job(folder, with_values(job, leak, price), option)
                wrong = [f"{k}: {row[k]} is not {v}" for k, v in want.items() if row[k] != v]
                left = set(row) - set(want) - {"row", "id", "state", "currency"}
                wrong += [f"{k} is not looked at" for k in sorted(left)]
                if row["state"] != "done" or not row["currency"]:
                    wrong.append(f"{row['state']}, {row['currency']}")
                verdicts.append((name, f"{len(want)} values as loads and season say", wrong))
            else:
                empty = row["says"] and row["heat_kwh"] is None and row["cost"] is None
                wrong = [] if empty else [f"{row['says']}, {row['heat_kwh']}"]
                verdicts.append((name, f"{row['state']}, with its reason and no year", wrong))
    says = f"pyarrow {pa.__version__}: what `season --many` wrote of houses made from the demo"
    keep("many", says, ("house", "against", "verdict"), verdicts, 3 + len(HOUSES))


if __name__ == "__main__":
    main()
