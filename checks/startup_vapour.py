"""Makes checks/values/startup_vapour.csv with iapws 1.5.5: vapour pressure over ice (IAPWS R14-08)
and over water (IAPWS-IF97), for the vacuum hold.

Run: python3 -m venv v && v/bin/pip install iapws==1.5.5 && v/bin/python checks/startup_vapour.py
iapws is GPL-3: it makes values, and is never shipped.
"""
import pathlib

import iapws
from iapws._iapws import _Sublimation_Pressure
from iapws.iapws97 import _PSat_T

assert iapws.__version__ == "1.5.5", iapws.__version__
OUT = pathlib.Path(__file__).parent / "values"
rows = []
for c in range(-58, 0, 2):
    rows.append(f"{c},ice,{_Sublimation_Pressure(c + 273.15) * 1e6:.6g}")
for c in range(1, 60, 2):
    rows.append(f"{c},water,{_PSat_T(c + 273.15) * 1e6:.7g}")
(OUT / "startup_vapour.csv").write_text(
    "# iapws 1.5.5: vapour pressure over ice by IAPWS R14-08, over water by IAPWS-IF97\n"
    "t_c,over,p_pa\n" + "\n".join(rows) + "\n")
