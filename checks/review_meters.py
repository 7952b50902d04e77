"""Bills fitted by others: eemeter's sample meters, its degree days, and statsmodels and scipy on them.

eemeter 4.1 no longer fits the balance-point grid of CalTRACK 2.0 itself, but it still makes the
usage and degree-day columns of that method. Those columns go into statsmodels' weighted least
squares here, over the whole grid, and the rules of selection are applied by a few lines of this
script. "before" is all there is before the retrofit, 13 months; "baseline" are its last 365 days, as
the method cuts them. With other bills the best balance point may be another: 60 F on the first, 61 F on
the second for the gas of il-gas-hdd-only-billing_monthly. The band of the slope is found by scipy's root finder on the sum of squares, not by the
closed form that the program uses. eemeter's own billing model of today (another method: one
nonlinear fit with smoothing over seasons) is kept beside it for the year's total.
"""

import logging
import pathlib
import warnings

import eemeter
import numpy as np
import pandas as pd
import scipy
import statsmodels
import statsmodels.api as sm
from eemeter.eemeter import BillingBaselineData, BillingModel
from eemeter.eemeter.common.features import (
    compute_temperature_features,
    compute_usage_per_day_feature,
)
from eemeter.eemeter.common.transform import get_baseline_data
from eemeter.eemeter.samples import load_sample
from scipy import optimize, stats

warnings.filterwarnings("ignore")
logging.disable(logging.CRITICAL)
OUT = pathlib.Path(__file__).parent / "values"
ZONE = "Etc/GMT+6"  # the samples begin their days at 06:00 UTC
VERSIONS = f"eemeter {eemeter.__version__}, statsmodels {statsmodels.__version__}, scipy {scipy.__version__}"
MADE = "made by checks/review_meters.py"
KINDS = ["electricity-cdd-hdd", "electricity-cdd-only", "gas-hdd-only", "gas-intercept-only"]
METERS = [f"il-{k}-billing_{m}" for k in KINDS for m in ("monthly", "bimonthly")]
GRID = list(range(30, 91))
SPLIT = pd.Timestamp("2016-12-26", tz="UTC")


def write(name, about, head, rows):
    with open(OUT / name, "w", encoding="utf-8", newline="\n") as f:
        for line in about:
            f.write(f"# {line}\n")
        f.write(",".join(head) + "\n")
        for row in rows:
            f.write(",".join(str(c) for c in row) + "\n")


def num(x):
    return "" if x is None or not np.isfinite(x) else f"{x:.10g}"


def load(name):
    meter, temperature, meta = load_sample(name)
    return meter.tz_convert(ZONE), temperature.tz_convert(ZONE), meta


def spans(meter):
    before = meter[meter.index <= SPLIT].copy()
    after = meter[meter.index > SPLIT].copy()
    out = []
    for word, part in (("before", before), ("after", after)):
        part = part.copy()
        part.iloc[-1] = np.nan  # the last row only ends the period before it
        out.append((word, part))
    # as the method itself cuts a baseline: no more than 365 days (CalTRACK 2.2.1.1)
    # five bills of two months leave balance points that only one bill tells of tied with each other
    if len(meter) > 20:
        out.append(("baseline", get_baseline_data(meter, end=SPLIT, max_days=365)[0]))
    return out


def wls(y, columns, weights):
    x = np.column_stack([np.ones(len(y)), *columns])
    return sm.WLS(y, x, weights=weights).fit()


def candidates(use, hdd, cdd, weights, cooling):
    """Every candidate of the grid: (kind, heating base, cooling base, fit)."""
    yield "base", None, None, wls(use, [], weights)
    for h in GRID:
        if (hdd[h] * weights).sum() >= 20:
            yield "heating", h, None, wls(use, [hdd[h]], weights)
    if not cooling:
        return
    for c in GRID:
        if (cdd[c] * weights).sum() >= 20:
            yield "cooling", None, c, wls(use, [cdd[c]], weights)
    for h in GRID:
        for c in GRID:
            if c < h or (hdd[h] * weights).sum() < 20 or (cdd[c] * weights).sum() < 20:
                continue
            yield "both", h, c, wls(use, [hdd[h], cdd[c]], weights)


def main():
    meters, features, fits, bands, totals = [], [], [], [], []
    temperature = None
    for name in METERS:
        meter, temperature, meta = load(name)
        for word, part in spans(meter):
            hdd_columns = compute_temperature_features(
                part.index,
                temperature,
                heating_balance_points=GRID,
                cooling_balance_points=GRID,
                degree_day_method="daily",
                use_mean_daily_values=True,
                tolerance=pd.Timedelta("70D"),
            )
            use = compute_usage_per_day_feature(part).dropna()
            table = hdd_columns.loc[use.index]
            ends = part.index[1:][: len(use)]
            days = np.array([(b - a).days for a, b in zip(use.index, ends)], float)
            hdd = {h: table[f"hdd_{h}"].to_numpy() for h in GRID}
            cdd = {c: table[f"cdd_{c}"].to_numpy() for c in GRID}
            y = use.to_numpy()
            for a, b, value in zip(use.index, ends, part["value"]):
                meters.append([name, word, a.date(), b.date(), num(value)])
            for i, a in enumerate(use.index):
                for base in (45, 60, 65, 70):
                    features.append([name, word, a.date(), base, num(hdd[base][i]), num(cdd[base][i])])
            best, chosen = {}, None
            cooling = "electricity" in name
            for kind, h, c, fit in candidates(y, hdd, cdd, days, cooling):
                params = list(fit.params)
                if any(p < 0 for p in params):
                    continue
                row = (fit.rsquared_adj, kind, h, c, params, fit.ssr)
                if kind not in best or row[0] > best[kind][0]:
                    best[kind] = row
                if chosen is None or row[0] > chosen[0]:
                    chosen = row
            for kind, (r2, _, h, c, params, ssr) in best.items():
                slope_h = params[1] if h is not None else None
                slope_c = params[-1] if c is not None else None
                fits.append(
                    [name, word, kind, num(h if h is not None else np.nan), num(c if c is not None else np.nan)]
                    + [num(params[0]), num(np.nan if slope_h is None else slope_h)]
                    + [num(np.nan if slope_c is None else slope_c), num(r2), num(ssr)]
                    + ["chosen" if kind == chosen[1] else ""]
                )
            if "hdd-only" in name and len(y) > 6:
                bands.append([name, word, *map(num, slope_band(y, days, temperature, use.index, ends))])
            if word == "before" and name.endswith("_monthly"):
                totals.append([name, word, *map(num, todays_model(meter, temperature, meta, cooling))])
    about = [f"{VERSIONS}; sample meters that eemeter ships (simulated, Apache-2.0)", MADE]
    write(
        "review_meters.csv",
        [*about, "bills: first day, day of the reading, use in kWh or therm"],
        ["meter", "span", "from", "to", "use"],
        meters,
    )
    daily = temperature.resample("D").mean()
    write(
        "review_temperatures.csv",
        [*about, "mean outdoor temperature of each day, local standard time"],
        ["date", "temperature_F"],
        [[d.date(), num(t)] for d, t in daily.items()],
    )
    write(
        "review_degree_days.csv",
        [*about, "degree days a day of each bill by eemeter's CalTRACK columns, F"],
        ["meter", "span", "from", "base_F", "hdd", "cdd"],
        features,
    )
    write(
        "review_fits.csv",
        [
            *about,
            "best of each kind by statsmodels' WLS (weights: days) over balance points 30 to 90 F by 1;",
            "use a day, use a day and F; adjusted R2; weighted sum of squares; which kind is chosen",
        ],
        ["meter", "span", "kind", "heating_F", "cooling_F", "base", "heating", "cooling", "adjusted_r2", "ssr", "chosen"],
        fits,
    )
    write(
        "review_bands.csv",
        [
            *about,
            "90 % band of the heating slope (use a day and F): scipy's root of the least sum of squares at",
            "a given slope, over base and balance point, less the limit by F(1, n - 3); the least by scipy too",
        ],
        ["meter", "span", "low", "slope", "high", "balance_F"],
        bands,
    )
    write(
        "review_totals.csv",
        [*about, "eemeter's own billing model of today: observed and modelled use of the span, CV(RMSE)"],
        ["meter", "span", "observed", "modelled", "cv_rmse"],
        totals,
    )
    write(
        "review_student.csv",
        [f"scipy {scipy.__version__}: quantiles of Student's t", MADE],
        ["freedom", "share", "quantile"],
        [[n, p, num(stats.t.ppf(p, n))] for n in (1, 2, 3, 5, 7, 9, 20, 60, 300) for p in (0.6, 0.9, 0.95, 0.975, 0.999)],
    )


def slope_band(y, days, temperature, starts, ends):
    """Profile band of the slope by root finding; the balance point is free in 45 to 75 F."""
    daily = temperature.resample("D").mean()
    groups = [daily[(daily.index >= a) & (daily.index < b)].to_numpy() for a, b in zip(starts, ends)]

    def hdd(base):
        return np.array([np.maximum(base - g, 0).mean() for g in groups])

    def ssr_at(slope):
        def inner(base):
            r = y - slope * hdd(base)
            return (days * (r - (r * days).sum() / days.sum()) ** 2).sum()

        grid = np.arange(35, 80.01, 0.25)
        at = grid[np.argmin([inner(b) for b in grid])]
        return optimize.minimize_scalar(inner, bounds=(at - 0.5, at + 0.5), method="bounded", options={"xatol": 1e-9}).fun

    def full(base):
        x = np.column_stack([np.ones(len(y)), hdd(base)])
        return sm.WLS(y, x, weights=days).fit()

    grid = np.arange(35, 80.01, 0.25)
    at = grid[np.argmin([full(b).ssr for b in grid])]
    base = optimize.minimize_scalar(lambda b: full(b).ssr, bounds=(at - 0.5, at + 0.5), method="bounded", options={"xatol": 1e-9}).x
    best = full(base)
    n = len(y)
    limit = best.ssr * (1 + stats.f.ppf(0.90, 1, n - 3) / (n - 3))
    slope = best.params[1]
    low = optimize.brentq(lambda s: ssr_at(s) - limit, slope * 0.2, slope)
    high = optimize.brentq(lambda s: ssr_at(s) - limit, slope, slope * 3)
    return low, slope, high, base


def todays_model(meter, temperature, meta, cooling):
    part = meter[meter.index <= SPLIT]
    hours = temperature[(temperature.index >= part.index[0]) & (temperature.index < part.index[-1])]
    data = BillingBaselineData.from_series(part["value"], hours, is_electricity_data=cooling)
    model = BillingModel().fit(data, ignore_disqualification=True)
    result = model.predict(data, ignore_disqualification=True)
    observed, predicted = result["observed"].sum(), result["predicted"].sum()
    cv = getattr(getattr(model, "baseline_metrics", None), "cvrmse", np.nan)
    return observed, predicted, cv


if __name__ == "__main__":
    main()
