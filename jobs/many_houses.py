#!/usr/bin/env python3
"""Writes an invented programme of houses from an invented job, as a Parquet file.

    many_houses.py FILE [HOUSES] [JOB]

Every house is the job with its own leakage, price of electricity and station of the weather, drawn
from a seeded generator, so the same call writes the same houses. One house in fifty is bad in one
of a few ways: a programme has such rows, and they must not stop it.
"""

import random
import sys
from pathlib import Path

import pyarrow as pa
import pyarrow.parquet as pq

STATIONS = ["chicago-725300", "denver-725650", "northway-702910", "port-angeles-727885"]


def bad(text, way):
    if way == 0:
        return text.replace("northwall = 1", "northwall = 99", 1)
    if way == 1:
        return text[: len(text) // 2] + "\n[[room"
    if way == 2:
        return "jobs/not-there.toml"
    return None


def houses(text, count):
    draw = random.Random(20261126)
    for n in range(count):
        leak = round(1200 + 2600 * draw.random())
        price = round(0.14 + 0.2 * draw.random(), 3)
        station = STATIONS[draw.randrange(len(STATIONS))]
        job = text if n % 50 != 49 else bad(text, n // 50 % 4)
        yield {
            "id": f"invented-{n:06}",
            "job": job,
            "weather": station,
            "set:leakage.blower_door": f"{leak} cfm at 50 Pa",
            "set:prices.electricity": f"{price} /kWh",
            "town": "invented",
        }


def main():
    to = Path(sys.argv[1])
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 200
    beside = Path(__file__).resolve().parent / "lake-street/job.toml"
    text = (Path(sys.argv[3]) if len(sys.argv) > 3 else beside).read_text()
    rows = list(houses(text, count))
    pq.write_table(pa.Table.from_pylist(rows), to, row_group_size=1000)
    print(f"{to}: {count} invented houses")


if __name__ == "__main__":
    main()
