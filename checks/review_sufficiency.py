"""What eemeter says of bills that do not suffice: its CalTRACK rules on its own sample meter, spoilt.

Every case is twelve bills of a gas meter, 364 days, with one thing made wrong. The rows are what the
program reads; `says` is what eemeter's sufficiency criteria answered beyond what they answer of the
year as it is, sorted. Of that they only say that hours are missing here and there in its temperatures.
"""

import logging
import pathlib
import warnings

import eemeter
import numpy as np
import pandas as pd
from eemeter.eemeter import BillingBaselineData
from eemeter.eemeter.samples import load_sample

warnings.filterwarnings("ignore")
logging.disable(logging.CRITICAL)
OUT = pathlib.Path(__file__).parent / "values"
METER = "il-gas-hdd-only-billing_monthly"
ZONE = "Etc/GMT+6"
SPLIT = pd.Timestamp("2016-12-26", tz="UTC")


def bills():
    meter, temperature, _ = load_sample(METER)
    meter, temperature = meter.tz_convert(ZONE), temperature.tz_convert(ZONE)
    year = meter[meter.index > SPLIT]
    ends = year.index[1:]
    rows = [[a, b, float(v), True] for a, b, v in zip(year.index, ends, year["value"])]
    return rows, temperature["tempF"] if isinstance(temperature, pd.DataFrame) else temperature


def asked(rows, temperature):
    """The answer to rows of from, to, use (nan where the reading is missing), temperature there."""
    index = [a for a, *_ in rows] + [rows[-1][1]]
    meter = pd.Series([v for _, _, v, _ in rows] + [np.nan], index=pd.DatetimeIndex(index))
    hours = temperature[(temperature.index >= index[0]) & (temperature.index < index[-1])].copy()
    for a, b, _, there in rows:
        if not there:
            hours[(hours.index >= a) & (hours.index < b)] = np.nan
    data = BillingBaselineData.from_series(meter, hours, is_electricity_data=False)
    said = [w.qualified_name for w in [*data.disqualification, *data.warnings]]
    return sorted({name.rsplit(".", 1)[-1] for name in said})


def cases(rows):
    def but(at, **change):
        out = [list(r) for r in rows]
        for key, value in change.items():
            out[at][{"use": 2, "there": 3}[key]] = value
        return out

    yield "whole", rows
    yield "ten-months", rows[2:]
    yield "seven-months", rows[4:]
    yield "reading-missing", but(5, use=np.nan)
    yield "two-readings-missing", [[*r[:2], np.nan, r[3]] if i in (5, 6) else r for i, r in enumerate(rows)]
    yield "below-nothing", but(7, use=-4.0)
    yield "ten-times", but(1, use=10 * rows[1][2])
    cut = rows[4][0] + pd.Timedelta(days=11)
    share = 11 / (rows[4][1] - rows[4][0]).days
    a, b, use, _ = rows[4]
    yield "read-after-11-days", [*rows[:4], [a, cut, use * share, True], [cut, b, use * (1 - share), True], *rows[5:]]
    joined = [rows[3][0], rows[5][1], sum(r[2] for r in rows[3:6]), True]
    yield "three-months-on-one", [*rows[:3], joined, *rows[6:]]
    joined = [rows[4][0], rows[5][1], rows[4][2] + rows[5][2], True]
    yield "two-months-on-one", [*rows[:4], joined, *rows[6:]]
    yield "no-temperatures-of-a-bill", but(3, there=False)
    yield "no-temperatures-of-two-bills", [[*r[:3], i not in (3, 8)] for i, r in enumerate(rows)]


def main():
    rows, temperature = bills()
    plain = asked(rows, temperature)
    with open(OUT / "review_sufficiency.csv", "w", encoding="utf-8", newline="\n") as f:
        f.write(f"# eemeter {eemeter.__version__}: its CalTRACK sufficiency criteria on {METER}, spoilt\n")
        f.write("# made by checks/review_sufficiency.py; therms; `says` has what a case adds to\n")
        f.write("# what is said of the year as it is: {}\n".format(", ".join(asked(rows, temperature))))
        f.write("case,from,to,use,temperatures,says\n")
        for name, spoilt in cases(rows):
            says = ";".join(s for s in asked(spoilt, temperature) if s not in plain)
            for a, b, use, there in spoilt:
                text = "" if np.isnan(use) else f"{use:.10g}"
                f.write(f"{name},{a.date()},{b.date()},{text},{'there' if there else 'missing'},{says}\n")


if __name__ == "__main__":
    main()
