"""Times the outside libraries at the work that the engine does; prints one JSON object of seconds.

Each figure is the median of several runs after one unmeasured run. Work of the same size is done
by the Rust benchmark named beside it in pairs.toml.
"""
import gzip
import json
import pathlib
import statistics
import sys
import tempfile
import time

import CoolProp
import numpy as np
import pandas as pd
import psychrolib
import pvlib

TOP = pathlib.Path(__file__).resolve().parent.parent
STATION = TOP / "weather" / "denver-725650.epw.gz"


def median_s(work, runs=5):
    work()
    took = []
    for _ in range(runs):
        began = time.perf_counter()
        work()
        took.append(time.perf_counter() - began)
    return statistics.median(took)


def sun(times, weather, method):
    """Sun position and Perez sky on eight facets, a year of hours."""
    place = (39.83, -104.65)
    at = pvlib.solarposition.get_solarposition(times, *place, altitude=1650.0, method=method)
    extra = pvlib.irradiance.get_extra_radiation(times)
    mass = pvlib.atmosphere.get_relative_airmass(at["apparent_zenith"])
    total = 0.0
    for k in range(8):
        got = pvlib.irradiance.get_total_irradiance(
            90.0 if k < 6 else 30.0, 45.0 * k, at["apparent_zenith"], at["azimuth"],
            weather["dni"], weather["ghi"], weather["dhi"], dni_extra=extra, airmass=mass,
            albedo=0.2, model="perez")
        total += float(np.nansum(got["poa_global"]))
    return total


def main():
    out = {}
    text = gzip.decompress(STATION.read_bytes())
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "station.epw"
        path.write_bytes(text)
        out["pvlib.read_epw"] = median_s(lambda: pvlib.iotools.read_epw(path))
        out["pandas.read_csv"] = median_s(lambda: pd.read_csv(path, skiprows=8, header=None))
        weather, _ = pvlib.iotools.read_epw(path, coerce_year=2001)
    times = weather.index
    for name in ("nrel_numpy", "ephemeris"):
        out[f"pvlib.sun_{name}"] = median_s(lambda: sun(times, weather, name), 3)

    psychrolib.SetUnitSystem(psychrolib.SI)
    grid = [(-20.0 + 0.05 * i, 0.1 + 0.0008 * i) for i in range(1000)]
    out["psychrolib.state"] = median_s(lambda: [
        psychrolib.CalcPsychrometricsFromRelHum(t, rh, 83000.0) for t, rh in grid]) / len(grid)

    r32 = CoolProp.AbstractState("HEOS", "R32")
    temperatures = [233.15 + 0.08 * i for i in range(1000)]

    def saturation():
        for t in temperatures:
            r32.update(CoolProp.QT_INPUTS, 1.0, t)

    out["coolprop.r32_saturation"] = median_s(saturation) / len(temperatures)
    r32.update(CoolProp.PT_INPUTS, 1.0e6, 320.0)
    enthalpies = [r32.hmass() + 30.0 * i for i in range(500)]

    def inverse():
        for h in enthalpies:
            r32.update(CoolProp.HmassP_INPUTS, h, 1.0e6)

    out["coolprop.r32_ph_to_t"] = median_s(inverse) / len(enthalpies)

    # a blend: the mixture model takes tens of milliseconds a state, so only a few
    blend = CoolProp.AbstractState("HEOS", "R32&R1234yf")
    blend.set_mole_fractions([0.82924792, 0.17075208])
    blend.update(CoolProp.PT_INPUTS, 1.2e6, 320.0)
    superheated = [blend.hmass() + 2000.0 * i for i in range(5)]

    def blend_inverse():
        for h in superheated:
            blend.update(CoolProp.HmassP_INPUTS, h, 1.2e6)

    out["coolprop.r454b_ph_to_t"] = median_s(blend_inverse, 3) / len(superheated)
    json.dump(out, sys.stdout)
    print()


if __name__ == "__main__":
    main()
