"""Prints the coefficients of crates/physics/src/nitrogen.rs, fitted to CoolProp 8.0.0.

Z = 1 + B r + C r^2 + D r^3 with r in mol/m3, x = 300 / T;
B = b0 + b1 x + b2 x^2 + b3 x^3, C = c0 + c1 x + c2 x^2, D = d0.
-40 to 70 C, 0.5 to 70 bar.
"""
import CoolProp
import CoolProp.CoolProp as CP
import numpy as np

assert CoolProp.__version__ == "8.0.0", CoolProp.__version__
R = 8.314462618


def points(temperatures, pressures):
    s = CP.AbstractState("HEOS", "Nitrogen")
    out = []
    for t in temperatures:
        for p in pressures:
            s.update(CP.PT_INPUTS, p, t)
            out.append((t, s.rhomolar(), p))
    return np.array(out).T


def columns(t, r):
    x, r = 300 / t, r * 1e-3
    return np.stack([r, r * x, r * x**2, r * x**3, r**2, r**2 * x, r**2 * x**2, r**3]).T


t, r, p = points(np.linspace(233.15, 343.15, 40), np.linspace(0.5e5, 7e6, 40))
z = p / (r * R * t)
fit = np.linalg.lstsq(columns(t, r), z - 1, rcond=None)[0]
print([float(f"{v:.9g}") for v in fit])
t, r, p = points(np.linspace(233.15, 343.15, 57), np.linspace(0.7e5, 7e6, 53))
fit = np.array([float(f"{v:.9g}") for v in fit])
print("largest difference", np.abs(r * R * t * (1 + columns(t, r) @ fit) / p - 1).max())
