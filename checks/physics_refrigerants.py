"""Makes checks/values/physics_refrigerant_far.csv, physics_refrigerant_wet.csv and
physics_nitrogen.csv with CoolProp 8.0.0: points that the fits of crates/physics did not see.
"""
import pathlib

import CoolProp
import CoolProp.CoolProp as CP

assert CoolProp.__version__ == "8.0.0", CoolProp.__version__
OUT = pathlib.Path(__file__).parent / "values"
FLUIDS = {
    "R32": ("R32", None),
    "R410A": ("R410A", None),
    "R454B": ("R32&R1234yf", (0.82924792, 0.17075208)),
    "R290": ("Propane", None),
}
HEAD = "# CoolProp 8.0.0, backend HEOS; R454B as R32&R1234yf 0.82924792/0.17075208 by mole; enthalpy 200 kJ/kg for bubble liquid at 0 C\n"


def make(name):
    model, moles = FLUIDS[name]
    s = CP.AbstractState("HEOS", model)
    if moles:
        s.set_mole_fractions(list(moles))
    s.update(CP.QT_INPUTS, 0, 273.15)
    h0 = s.hmass() - 200_000.0
    far, wet = [], []
    low = -50 if moles else -60
    for t_sat in (-45.0, -31.7, -18.3, -5.6, 6.1, 14.4, 27.8, 38.3, 47.2, 54.4):
        for quality, side, steps in ((0, "liquid", (1.1, 4.4, 8.3, 16.7, 33.0)),
                                     (1, "vapour", (1.1, 5.6, 13.9, 27.8, 44.4, 66.0))):
            s.unspecify_phase()
            s.update(CP.QT_INPUTS, quality, t_sat + 273.15)
            p = s.p()
            s.specify_phase(CP.iphase_gas if quality else CP.iphase_liquid)
            for d in steps:
                t = t_sat + d if quality else t_sat - d
                if t < low:
                    continue
                s.update(CP.PT_INPUTS, p, t + 273.15)
                far.append(f"{name},{side},{p:.9g},{d},{t:.4f},{s.hmass() - h0:.4f},{s.rhomass():.8g}")
        s.unspecify_phase()
        s.update(CP.QT_INPUTS, 0, t_sat + 273.15)
        p = s.p()
        for quality in (0.1, 0.25, 0.5, 0.75, 0.9):
            s.update(CP.PQ_INPUTS, p, quality)
            wet.append(f"{name},{p:.9g},{quality},{s.hmass() - h0:.4f},{s.T() - 273.15:.6f}")
    return far, wet


def nitrogen():
    s = CP.AbstractState("HEOS", "Nitrogen")
    rows = []
    for psig in (100, 300, 450, 550, 600):
        for f1 in (95, 70, 41):
            for f2 in (95, 75, 60, 40, 20, 0, -20):
                p = psig * 6894.757293168 + 101325
                s.update(CP.PT_INPUTS, p, (f1 + 459.67) / 1.8)
                s.update(CP.DmolarT_INPUTS, s.rhomolar(), (f2 + 459.67) / 1.8)
                rows.append(f"{p:.3f},{(f1 - 32) / 1.8:.6f},{(f2 - 32) / 1.8:.6f},{s.p():.3f}")
    return rows


far, wet = [], []
for name in FLUIDS:
    f, w = make(name)
    far += f
    wet += w
(OUT / "physics_refrigerant_far.csv").write_text(
    HEAD + "# away from saturation: pressure, kelvin from saturation, temperature, enthalpy, density\n"
    "fluid,side,p_pa,distance_k,t_c,h_j_per_kg,rho_kg_per_m3\n" + "\n".join(far) + "\n")
(OUT / "physics_refrigerant_wet.csv").write_text(
    HEAD + "# between liquid and vapour: pressure, mass quality, enthalpy, temperature\n"
    "fluid,p_pa,quality,h_j_per_kg,t_c\n" + "\n".join(wet) + "\n")
(OUT / "physics_nitrogen.csv").write_text(
    "# CoolProp 8.0.0, nitrogen shut in: same density at another temperature\n"
    "p1_pa,t1_c,t2_c,p2_pa\n" + "\n".join(nitrogen()) + "\n")
