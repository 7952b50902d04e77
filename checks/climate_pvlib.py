"""Makes checks/values/climate_sun_position.csv and climate_tilted.csv with pvlib 0.16.1.

Run: python3 -m venv v && v/bin/pip install pvlib==0.16.1 && v/bin/python checks/climate_pvlib.py
"""
import pathlib

import numpy as np
import pandas as pd
import pvlib

assert pvlib.__version__ == "0.16.1", pvlib.__version__
OUT = pathlib.Path(__file__).parent / "values"
PLACES = [
    (44.88, -93.22, 255.0),
    (62.967, -141.933, 522.0),
    (70.0, 25.0, 10.0),
    (0.0, 0.0, 0.0),
    (-33.95, 151.18, 3.0),
    (39.83, -104.65, 1650.0),
]


def positions():
    stamps = []
    for year in range(1950, 2101, 6):
        for k in range(8):
            day = pd.Timestamp(year, 1, 1, tz="UTC") + pd.Timedelta(days=45.3 * k + year % 11)
            stamps.append((day + pd.Timedelta(minutes=173 * k)).round("min"))
    rows = []
    for lat, lon, height in PLACES:
        times = pd.DatetimeIndex(stamps)
        p = pvlib.solarposition.get_solarposition(
            times, lat, lon, altitude=height, method="nrel_numpy",
            pressure=pvlib.atmosphere.alt2pres(height), temperature=12, delta_t=None)
        for t, (_, r) in zip(times, p.iterrows()):
            rows.append(f"{lat},{lon},{height},{t.year},{t.month},{t.day},"
                        f"{t.hour + t.minute / 60:.6f},{r.zenith:.5f},{r.apparent_zenith:.5f},"
                        f"{r.azimuth:.5f},{r.equation_of_time:.5f}")
    with open(OUT / "climate_sun_position.csv", "w") as f:
        f.write("# pvlib 0.16.1 solarposition.get_solarposition(method=nrel_numpy, delta_t=None, "
                "temperature 12 C, pressure by alt2pres): NREL SPA, 1950 to 2100, universal time\n")
        f.write("lat,lon,elev_m,year,month,day,hour_utc,zenith_deg,apparent_zenith_deg,"
                "azimuth_deg,equation_min\n")
        f.write("\n".join(rows) + "\n")


def tilted():
    """Perez on a grid of skies, sun places and surfaces; sun's numbers given, not computed."""
    rows = []
    for zenith in [5, 20, 40, 60, 75, 82, 86, 89]:
        for azimuth in [80, 150, 200, 280]:
            for dni, dhi in [(0, 40), (0, 200), (100, 150), (300, 220), (500, 150), (800, 110),
                             (950, 60), (1000, 35)]:
                for tilt, faces in [(0, 180), (30, 180), (45, 90), (90, 180), (90, 270), (90, 0),
                                    (120, 200), (180, 0)]:
                    ext = 1366.1
                    ghi = dhi + dni * np.cos(np.radians(zenith))
                    lift = 0.0
                    if zenith > 75:
                        e = 90 - zenith
                        lift = (101325 / 101000 * 283 / 285 * 1.02 /
                                (60 * np.tan(np.radians(e + 10.3 / (e + 5.11)))))
                    mass = pvlib.atmosphere.get_relative_airmass(zenith - lift)
                    got = pvlib.irradiance.get_total_irradiance(
                        tilt, faces, zenith, azimuth, dni, ghi, dhi, dni_extra=ext, airmass=mass,
                        albedo=0.2, model="perez")
                    rows.append(f"{zenith},{azimuth},{dni},{dhi},{ext},{tilt},{faces},{ghi:.6f},"
                                f"{got['poa_direct']:.5f},{got['poa_sky_diffuse']:.5f},"
                                f"{got['poa_ground_diffuse']:.5f}")
    with open(OUT / "climate_tilted.csv", "w") as f:
        f.write("# pvlib 0.16.1 irradiance.get_total_irradiance(model=perez, all sites composite "
                "1990, kastenyoung1989 air mass, albedo 0.2)\n")
        f.write("zenith_deg,azimuth_deg,dni,dhi,extraterrestrial,tilt_deg,faces_deg,ghi,beam,sky,"
                "ground\n")
        f.write("\n".join(rows) + "\n")


def denver():
    """The Denver station over the year, from the hourly file shipped in weather/.

    Sun at mid hour; hours with sunrise or sunset are left out of the sums on both sides."""
    import gzip
    path = pathlib.Path(__file__).parent.parent / "weather" / "denver-725650.epw.gz"
    with gzip.open(path, "rt") as f:
        data, meta = pvlib.iotools.read_epw(f)
    lat, lon, height = meta["latitude"], meta["longitude"], meta["altitude"]
    # pvlib stamps EPW rows at the beginning of the hour (hour - 1).
    mid = data.index + pd.Timedelta(minutes=30)
    sun = pvlib.solarposition.get_solarposition(mid, lat, lon, altitude=height)
    before = pvlib.solarposition.get_solarposition(
        mid - pd.Timedelta(minutes=30), lat, lon, altitude=height)
    after = pvlib.solarposition.get_solarposition(
        mid + pd.Timedelta(minutes=30), lat, lon, altitude=height)
    whole = ((before.zenith.values < 90) & (after.zenith.values < 90) & (sun.zenith.values < 90))
    ext = pvlib.irradiance.get_extra_radiation(mid).values
    mass = pvlib.atmosphere.get_relative_airmass(sun.apparent_zenith.values)
    rows = []
    for tilt, faces in [(0, 180), (90, 180), (90, 90), (90, 270), (90, 0), (30, 180), (45, 225),
                        (135, 180)]:
        got = pvlib.irradiance.get_total_irradiance(
            tilt, faces, sun.zenith.values, sun.azimuth.values, data.dni.values, data.ghi.values,
            data.dhi.values, dni_extra=ext, airmass=mass, albedo=0.2, model="perez")
        s = [np.nansum(np.where(whole, got[k], 0.0)) / 1000
             for k in ("poa_direct", "poa_sky_diffuse", "poa_ground_diffuse")]
        rows.append(f"{tilt},{faces},{whole.sum()},{s[0]:.4f},{s[1]:.4f},{s[2]:.4f}")
    with open(OUT / "climate_denver_year.csv", "w") as f:
        f.write("# pvlib 0.16.1, Denver 725650 TMY3 as shipped in weather/: sums over the hours in "
                "which the sun is up throughout, kWh/m2; sun at mid hour\n")
        f.write("tilt_deg,faces_deg,hours,beam_kwh_per_m2,sky_kwh_per_m2,ground_kwh_per_m2\n")
        f.write("\n".join(rows) + "\n")


if __name__ == "__main__":
    OUT.mkdir(exist_ok=True)
    positions()
    tilted()
    denver()
