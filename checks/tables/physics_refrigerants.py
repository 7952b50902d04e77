"""Makes crates/physics/src/refrigerant/tables/*.rs with CoolProp 8.0.0: piecewise polynomials.

Run from the project root: python checks/tables/physics_refrigerants.py
Prints the largest difference from CoolProp, on points that the fit did not see.
Saturation: for each property one polynomial of degree 5 in each of CELLS equal steps of
temperature. Inverse: temperature over ln p, likewise. Away from saturation: polynomials in
(ln p, distance from saturation) that are exact at saturation.
Viscosity of R-454B: molar-log mixing (liquid) and Wilke (vapour) of the pure fluids at saturation,
because the mixture model of CoolProp gives impossible liquid viscosities.
"""
import math
import pathlib

import CoolProp
import CoolProp.CoolProp as CP
import numpy as np

assert CoolProp.__version__ == "8.0.0", CoolProp.__version__
ROOT = pathlib.Path(__file__).parents[2]
OUT = ROOT / "crates/physics/src/refrigerant/tables"

CELLS, DEGREE = 13, 5
SHEET_CELLS, DEGREE_U, DEGREE_V = 8, 4, 5
# Distances from saturation are bent to v / (v + BEND): dense where the properties change fast.
BEND_K, BEND_J_PER_KG = 20.0, 1e12
# Hottest saturation: 6 K or more below the critical point, where all properties run away.
FLUIDS = {
    "R32": ("HEOS", "R32", None, -60.0, 65.0),
    "R410A": ("HEOS", "R410A", None, -60.0, 60.0),
    "R454B": ("HEOS", "R32&R1234yf", (0.82924792, 0.17075208), -50.0, 60.0),
    "R290": ("HEOS", "Propane", None, -60.0, 70.0),
}
SUPERHEAT_K, SUBCOOLING_K = 70.0, 50.0


class Fluid:
    def __init__(self, name):
        backend, model, moles, self.low_c, self.high_c = FLUIDS[name]
        self.name = name
        self.state = CP.AbstractState(backend, model)
        self.moles = moles
        self.failed = 0
        if moles:
            self.state.set_mole_fractions(list(moles))
            self.pure = [CP.AbstractState("HEOS", n) for n in model.split("&")]
        self.state.update(CP.QT_INPUTS, 0, 273.15)
        # IIR reference: 200 kJ/kg for bubble liquid at 0 C.
        self.h0 = self.state.hmass() - 200_000.0

    def saturation(self, t_c, quality):
        s = self.state
        s.unspecify_phase()
        try:
            s.update(CP.QT_INPUTS, quality, t_c + 273.15)
        except ValueError:
            # The mixture flash fails on a few points near 57 C: the fit does without them.
            self.failed += 1
            return (math.nan,) * 5
        p, rho, h, cp = s.p(), s.rhomass(), s.hmass() - self.h0, s.cpmass()
        return p, rho, h, cp, self.viscosity(t_c, quality)

    def viscosity(self, t_c, quality):
        if not self.moles:
            return self.state.viscosity()
        mu, mass = [], []
        for s in self.pure:
            s.update(CP.QT_INPUTS, quality, t_c + 273.15)
            mu.append(s.viscosity())
            mass.append(s.molar_mass())
        x = self.moles
        if quality == 0:
            return math.exp(sum(a * math.log(m) for a, m in zip(x, mu)))
        total = 0.0
        for i in (0, 1):
            below = sum(
                x[j] * (1 + math.sqrt(mu[i] / mu[j]) * (mass[j] / mass[i]) ** 0.25) ** 2
                / math.sqrt(8 * (1 + mass[i] / mass[j]))
                for j in (0, 1))
            total += x[i] * mu[i] / below
        return total

    def single(self, p, t_c, gas):
        s = self.state
        s.specify_phase(CP.iphase_gas if gas else CP.iphase_liquid)
        s.update(CP.PT_INPUTS, p, t_c + 273.15)
        out = s.hmass() - self.h0, s.rhomass()
        s.unspecify_phase()
        return out


def chebyshev_nodes(n):
    return np.cos(np.pi * (np.arange(n) + 0.5) / n)


def piecewise(f, low, high, cells, degree):
    """Coefficients per cell of the polynomial in x in [-1, 1]; f takes and gives arrays."""
    width = (high - low) / cells
    out = []
    for c in range(cells):
        x = chebyshev_nodes(degree + 4)
        t = low + width * (c + 0.5 + 0.5 * x)
        y = np.array([f(v) for v in t])
        x, y = x[np.isfinite(y)], y[np.isfinite(y)]
        assert len(y) > degree, "too few points"
        # Relative fit: the tables promise relative error.
        a = np.vander(x, degree + 1, increasing=True)
        out.append(np.linalg.lstsq(a / y[:, None], np.ones_like(y), rcond=None)[0])
    return np.array(out)


def value(table, low, high, t):
    cells = len(table)
    s = (t - low) / (high - low) * cells
    c = min(max(int(math.floor(s)), 0), cells - 1)
    x = 2 * (s - c) - 1
    return float(np.polynomial.polynomial.polyval(x, table[c]))


def bent(v, v_high, bend):
    return v / (v + bend) * (1 + bend / v_high)


def sheet(points, u_low, u_high, v_high, bend):
    """Fits z = v * g(u, v): points are (u, v, z). Per cell of u: matrix of coefficients."""
    width = (u_high - u_low) / SHEET_CELLS
    out = []
    u, v, z = np.array(points).T
    for c in range(SHEET_CELLS):
        x = 2 * ((u - u_low) / width - c) - 1
        near = (np.abs(x) <= 1.15)
        y = 2 * bent(v[near], v_high, bend) - 1
        a = np.einsum("ki,kj->kij", np.vander(x[near], DEGREE_U + 1, increasing=True),
                      np.vander(y, DEGREE_V + 1, increasing=True)).reshape(near.sum(), -1)
        # a * v = z in absolute terms, a little weighted to small v
        w = 1.0 / (np.abs(z[near]) + 0.02 * np.abs(z).max())
        out.append(np.linalg.lstsq(a * (v[near] * w)[:, None], z[near] * w, rcond=None)[0])
    return np.array(out)


def sheet_value(table, u_low, u_high, v_high, bend, u, v):
    s = (u - u_low) / (u_high - u_low) * SHEET_CELLS
    c = min(max(int(math.floor(s)), 0), SHEET_CELLS - 1)
    x, y = 2 * (s - c) - 1, 2 * bent(v, v_high, bend) - 1
    m = table[c].reshape(DEGREE_U + 1, DEGREE_V + 1)
    return v * float(np.polynomial.polynomial.polyval2d(x, y, m))


NAMES = ["pressure", "density", "enthalpy", "specific heat", "viscosity"]


def make(name):
    f = Fluid(name)
    low, high = f.low_c, f.high_c
    made, report = {}, {}
    for quality, side in ((0, "LIQUID"), (1, "VAPOUR")):
        cache = {}

        def at(t, k):
            if t not in cache:
                cache[t] = f.saturation(t, quality)
            return cache[t][k]

        tables = [piecewise(lambda t, k=k: at(t, k), low, high, CELLS, DEGREE) for k in range(5)]
        made[side] = tables
        worst = [0.0] * 5
        for t in np.linspace(low, high, 211):
            exact = f.saturation(t, quality)
            for k in range(5):
                worst[k] = np.fmax(worst[k], abs(value(tables[k], low, high, t) / exact[k] - 1))
        report[side] = worst
        # inverse
        u_low, u_high = math.log(at(low, 0)), math.log(at(high, 0))

        def t_of(u):
            a, b = low - 1.0, high + 1.0
            for _ in range(60):
                m = 0.5 * (a + b)
                f.state.update(CP.QT_INPUTS, quality, m + 273.15)
                a, b = (m, b) if math.log(f.state.p()) < u else (a, m)
            return 0.5 * (a + b) + 273.15

        if f.moles:
            def t_of(u):
                try:
                    f.state.update(CP.PQ_INPUTS, math.exp(u), quality)
                except ValueError:
                    f.failed += 1
                    return math.nan
                return f.state.T()
        inverse = piecewise(t_of, u_low, u_high, CELLS, DEGREE)
        made[side + "_T"] = (inverse, u_low, u_high)
        # The same enthalpy over ln p: saves a look-up behind a look-up.
        made[side + "_H"] = piecewise(
            lambda u: f.saturation(t_of(u) - 273.15, quality)[2], u_low, u_high, CELLS, DEGREE)
        worst_t = 0.0
        for t in np.linspace(low, high, 211)[1:-1]:
            p = f.saturation(t, quality)[0]
            if math.isnan(p):
                continue
            got = value(inverse, u_low, u_high, math.log(p))
            worst_t = np.fmax(worst_t, abs(got - t - 273.15))
        report[side + "_T"] = worst_t
        # away from saturation
        gas = quality == 1
        far = SUPERHEAT_K if gas else SUBCOOLING_K
        points = []

        def sample(us, ds):
            out = []
            for u in us:
                p = math.exp(u)
                t_sat = t_of(u) - 273.15
                _, rho_sat, h_sat, _, _ = f.saturation(t_sat, quality)
                if math.isnan(rho_sat):
                    continue
                # Liquid is not followed further down than 12 K below the coldest saturation.
                reach = far if gas else min(far, t_sat - low + 12)
                for d in ds * (reach / far):
                    t = t_sat + d if gas else t_sat - d
                    h, rho = f.single(p, t, gas)
                    dh = h - h_sat if gas else h_sat - h
                    out.append((u, d, dh, rho / rho_sat - 1, t_sat))
            return out

        cells = []
        width = (u_high - u_low) / SHEET_CELLS
        for c in range(SHEET_CELLS):
            x = np.concatenate([chebyshev_nodes(9) * 1.02])
            cells += [min(max(u_low + width * (c + 0.5 + 0.5 * v), u_low), u_high) for v in x]
        ds = far * 0.5 * (1 - np.cos(np.linspace(0.08, np.pi, 12)))
        points = sample(sorted(set(cells)), ds)
        dh_high = max(q[2] for q in points)
        t_of_h = sheet([(q[0], q[2], q[1]) for q in points], u_low, u_high, dh_high, BEND_J_PER_KG)
        h_of_t = sheet([(q[0], q[1], q[2]) for q in points], u_low, u_high, far, BEND_K)
        rho_of_t = sheet([(q[0], q[1], q[3]) for q in points], u_low, u_high, far, BEND_K)
        made[side + "_SHEETS"] = (t_of_h, h_of_t, rho_of_t, dh_high, far)
        worst = [0.0] * 3
        for u, d, dh, r, t_sat in sample(np.linspace(u_low, u_high, 37), far * np.linspace(0.01, 1, 17)):
            if not gas and t_sat - d < low:
                continue
            worst[0] = max(worst[0], abs(sheet_value(t_of_h, u_low, u_high, dh_high, BEND_J_PER_KG, u, dh) - d))
            worst[1] = max(worst[1], abs(sheet_value(h_of_t, u_low, u_high, far, BEND_K, u, d) - dh))
            worst[2] = max(worst[2], abs(sheet_value(rho_of_t, u_low, u_high, far, BEND_K, u, d) - r) / (1 + r))
        report[side + "_SHEETS"] = worst
    return f, made, report


def numbers(values):
    return "[" + ", ".join(repr(float(v)) for v in values) + "]"


def sheet_text(name, table, bend, reach):
    yield f"    {name}: Sheet {{"
    yield f"        bend: {'None' if bend > 1e9 else f'Some({bend!r})'},"
    yield f"        reach: {float(reach)!r},"
    yield f"        per_reach: {1 / float(reach)!r},"
    yield "        cells: ["
    for cell in table:
        yield "            ["
        for row in cell.reshape(DEGREE_U + 1, DEGREE_V + 1):
            yield f"                {numbers(row)},"
        yield "            ],"
    yield "        ],"
    yield "    },"


def rust(f, made, report, side):
    word = side.lower()
    sat, inverse = report[side], report[side + "_T"]
    t, h, rho = report[side + "_SHEETS"]
    bounds = ", ".join(f"{n} {w:.0e}" for n, w in zip(NAMES, sat))
    yield f"//! {f.name}, {word} side. Made by checks/tables/physics_refrigerants.py: do not edit."
    yield "//!"
    yield "//! Piecewise polynomials through CoolProp 8.0.0. Largest differences from it, on points"
    yield "//! that the fit did not see: at saturation (relative)"
    yield f"//! {bounds};"
    yield f"//! temperature of a pressure {inverse:.0e} K; away from saturation temperature {t:.0e} K,"
    yield f"//! enthalpy {h:.0f} J/kg, density {rho:.0e} relative."
    yield "use crate::refrigerant::fit::{Sheet, Side};"
    yield ""
    yield "#[rustfmt::skip]"
    yield "pub(in crate::refrigerant) static SIDE: Side = Side {"
    inverse, u_low, u_high = made[side + "_T"]
    yield f"    low_c: {f.low_c!r},"
    yield f"    high_c: {f.high_c!r},"
    yield f"    ln_low: {u_low!r},"
    yield f"    ln_high: {u_high!r},"
    yield f"    cells_per_k: {CELLS / (f.high_c - f.low_c)!r},"
    yield f"    cells_per_ln: {CELLS / (u_high - u_low)!r},"
    yield f"    sheet_cells_per_ln: {SHEET_CELLS / (u_high - u_low)!r},"
    yield "    // per cell of temperature: " + ", ".join(NAMES)
    yield "    saturation: ["
    for c in range(CELLS):
        yield "        ["
        for table in made[side]:
            yield f"            {numbers(table[c])},"
        yield "        ],"
    yield "    ],"
    yield "    temperature_k: ["
    for row in inverse:
        yield f"        {numbers(row)},"
    yield "    ],"
    yield "    enthalpy_of_ln: ["
    for row in made[side + "_H"]:
        yield f"        {numbers(row)},"
    yield "    ],"
    t_of_h, h_of_t, rho_of_t, dh_high, far = made[side + "_SHEETS"]
    yield from sheet_text("temperature", t_of_h, BEND_J_PER_KG, dh_high)
    yield from sheet_text("enthalpy", h_of_t, BEND_K, far)
    yield from sheet_text("density", rho_of_t, BEND_K, far)
    yield "};"


def main():
    for name in FLUIDS:
        f, made, report = make(name)
        print(name, f.failed, "points failed")
        for k, v in report.items():
            print("  ", k, v if isinstance(v, float) else [f"{x:.1e}" for x in v])
        for side in ("LIQUID", "VAPOUR"):
            path = OUT / f"{name.lower()}_{side.lower()}.rs"
            path.write_text("\n".join(rust(f, made, report, side)) + "\n")


if __name__ == "__main__":
    main()
