"""The hourly house balance, written plainly with numpy and scipy: the reference that the engine
is timed against and must agree with. One air node and one radiant star node a zone, every opaque
surface by finite volumes, backward Euler, ideal heating and cooling of the air.

usage: house_numpy.py MODEL.json        times and compares; prints one JSON object
       house_numpy.py --check           holds the solver against closed forms

Two ways of one balance:
  plain    every hour's own coefficients in the matrix, factored anew each hour (splu)
  lagged   one matrix with mean coefficients, inverted once; what an hour differs from the mean is
           added as a heat flow with the temperatures of the hour before. This is the engine's way.
The layout of MODEL.json is in README.md beside this file.
"""
import json
import math
import sys
import time

import numpy as np
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu

MOST_CELLS = 10
LEAST_R = 1e-4
# for faces without mass, so that a surface without any slab stays solvable
NOTHING = 1e-9


def cells(slabs, step_s):
    """Cuts layers as the engine does: n = ceil(sqrt(R C / (dt/4))), 1 to 10."""
    capacity, link, waiting = [], [], 0.0
    for slab in slabs:
        r, c = slab["r_m2k_per_w"], slab["c_j_per_m2k"]
        if c <= 0.0:
            waiting += r
            continue
        n = min(max(math.ceil(math.sqrt(r * c / (step_s / 4.0))), 1), MOST_CELLS)
        for _ in range(n):
            link.append(1.0 / max(waiting + r / n / 2.0, LEAST_R))
            capacity.append(c / n)
            waiting = r / n / 2.0
    link.append(1.0 / max(waiting, LEAST_R))
    return capacity, link


class House:
    """Nodes, constant links, links that change by the hour, and what drives them."""

    def __init__(self, model):
        self.step_s = float(model["step_s"])
        self.hours = int(model["hours"])
        self.series = {k: np.asarray(v, float) for k, v in model["series"].items()}
        self.capacity = []
        self.pairs = []      # node, node, values by hour
        self.driven = []     # node, temperature by hour, values by hour
        self.heat = []       # node, W by hour
        zones = model["zones"]
        self.nz = len(zones)
        self.names = [z["name"] for z in zones]
        self.air = [self.node(z["air_j_per_k"]) for z in zones]
        self.star = [self.node(0.0) for _ in zones]
        of_day = np.arange(self.hours) % 24
        self.heat_to = np.array([self.daily(z.get("heat_to_c"), -np.inf)[of_day] for z in zones]).T
        self.cool_to = np.array([self.daily(z.get("cool_to_c"), np.inf)[of_day] for z in zones]).T
        for k, z in enumerate(zones):
            self.heat.append((self.air[k], self.daily(z.get("gain_convective_w"), 0.0)[of_day]))
            self.heat.append((self.star[k], self.daily(z.get("gain_radiant_w"), 0.0)[of_day]))
            # a zone without surfaces would leave its star node without a link
            self.pairs.append((self.air[k], self.star[k], self.by_hour(NOTHING)))
        for s in model["surfaces"]:
            self.surface(s)
        for flow in model["air"]:
            w = self.by_hour(flow["w_per_k"])
            if "from_c" in flow:
                self.driven.append((self.air[flow["to"]], self.by_hour(flow["from_c"]), w))
            else:
                self.pairs.append((self.air[flow["to"]], self.air[flow["from_zone"]], w))
        self.assemble()

    @staticmethod
    def daily(values, absent):
        if values is None:
            return np.full(24, absent)
        return np.array([absent if v is None else v for v in values], float)

    def by_hour(self, value):
        """A number or the name of a series."""
        if isinstance(value, str):
            return self.series[value]
        return np.full(self.hours, float(value))

    def node(self, capacity):
        self.capacity.append(capacity)
        return len(self.capacity) - 1

    def surface(self, s):
        area, zone = s["area_m2"], s["zone"]
        capacity, link = cells(s["slabs"], self.step_s)
        chain = [self.node(0.0)] + [self.node(c * area) for c in capacity] + [self.node(0.0)]
        for a, b, g in zip(chain, chain[1:], link):
            self.pairs.append((a, b, self.by_hour(g * area)))
        outside, inside = chain[0], chain[-1]

        def to_zone(face, z, side):
            convection = self.by_hour(side["convection_w_per_m2k"]) * area
            radiation = self.by_hour(side["radiation_w_per_m2k"]) * area
            self.pairs.append((face, self.air[z], convection))
            self.pairs.append((face, self.star[z], radiation))
            if "absorbed_w_per_m2" in side:
                self.heat.append((face, self.by_hour(side["absorbed_w_per_m2"]) * area))

        to_zone(inside, zone, s["inside"])
        if "other_zone" in s:
            to_zone(outside, s["other_zone"], s["other_side"])
        for link in s.get("outside", []):
            w = self.by_hour(link["w_per_m2k"]) * area
            self.driven.append((outside, self.by_hour(link["temperature_c"]), w))
        if "absorbed_outside_w_per_m2" in s:
            self.heat.append((outside, self.by_hour(s["absorbed_outside_w_per_m2"]) * area))

    def assemble(self):
        """Constant part as a matrix; the changing part as rows, columns and values by hour."""
        n = len(self.capacity)
        self.inertia = np.array(self.capacity) / self.step_s
        constant = np.zeros((n, n))
        rows, cols, values = [], [], []

        def add(i, j, w, sign):
            if np.ptp(w) == 0.0:
                constant[i, j] += sign * w[0]
            else:
                rows.append(i)
                cols.append(j)
                values.append(sign * w)

        for a, b, w in self.pairs:
            add(a, a, w, 1.0)
            add(b, b, w, 1.0)
            add(a, b, w, -1.0)
            add(b, a, w, -1.0)
        self.load = np.zeros((self.hours, n))
        for node, t, w in self.driven:
            add(node, node, w, 1.0)
            self.load[:, node] += w * t
        for node, q in self.heat:
            self.load[:, node] += q
        self.constant = constant
        self.rows, self.cols = np.array(rows, int), np.array(cols, int)
        self.values = np.array(values).T if values else np.zeros((self.hours, 0))

    def year(self, way, warm_up_hours):
        """Heating, cooling (W by hour and zone) and air temperature."""
        step = {"plain": self.plain, "lagged": self.lagged}[way]()
        t = np.full(len(self.capacity), 20.0)
        heat = np.zeros((self.hours, self.nz))
        air = np.zeros((self.hours, self.nz))
        for h in range(-warm_up_hours, self.hours):
            free, answer = step(h % self.hours, t)
            q = self.ideal(h % self.hours, free[self.air], answer[self.air])
            t = free + answer @ q
            if h >= 0:
                heat[h] = q
                air[h] = t[self.air]
        return np.maximum(heat, 0.0), np.maximum(-heat, 0.0), air

    def plain(self):
        """Free temperatures and the answer to 1 W into each air node, hour's own matrix."""
        n = len(self.capacity)
        ones = np.zeros((n, self.nz))
        ones[self.air, np.arange(self.nz)] = 1.0
        base = self.constant + np.diag(self.inertia)
        # the places of the matrix are the same every hour: lay them out once, change the values
        used = base != 0.0
        used[self.rows, self.cols] = True
        col, row = np.nonzero(used.T)
        place = np.zeros((n, n), int)
        place[row, col] = np.arange(row.size)
        changing = place[self.rows, self.cols]
        a = csc_matrix((base[row, col], (row, col)), shape=(n, n))
        fixed = a.data.copy()

        def step(h, t):
            a.data[:] = fixed + np.bincount(changing, self.values[h], fixed.size)
            solve = splu(a).solve
            both = solve(np.column_stack([self.inertia * t + self.load[h], ones]))
            return both[:, 0], both[:, 1:]

        return step

    def lagged(self):
        """As plain, with the year's mean matrix inverted once."""
        base = self.constant + np.diag(self.inertia)
        mean = self.values.mean(axis=0)
        np.add.at(base, (self.rows, self.cols), mean)
        inverse = np.linalg.inv(base)
        answer = np.ascontiguousarray(inverse[:, self.air])
        n = len(self.capacity)
        deviation = self.values - mean

        def step(h, t):
            late = np.bincount(self.rows, deviation[h] * t[self.cols], n)
            return inverse @ (self.inertia * t + self.load[h] - late), answer

        return step

    def ideal(self, h, free, answer):
        """Heat into each air node that just holds its band; zones may pull on each other, so the
        held set is found by trying: hold what is out of the band, let go what would work against
        its sign."""
        low, high = self.heat_to[h], self.cool_to[h]
        q = np.zeros(self.nz)
        held = np.zeros(self.nz, int)
        for _ in range(4 * self.nz + 4):
            t = free + answer @ q
            before = held.copy()
            held[(held == 0) & (t < low - 1e-9)] = 1
            held[(held == 0) & (t > high + 1e-9)] = -1
            held[(before != 0) & (held * q < 0.0)] = 0
            if np.array_equal(held, before):
                break
            on = np.flatnonzero(held)
            q = np.zeros(self.nz)
            if on.size:
                aim = np.where(held > 0, low, high)[on]
                q[on] = np.linalg.solve(answer[np.ix_(on, on)], aim - free[on])
        return q


def check():
    """A steady box, and a bare air node that cools by itself."""
    series = {"out": [0.0] * 48}
    wall = {
        "name": "wall", "zone": 0, "area_m2": 10.0,
        "slabs": [{"r_m2k_per_w": 0.1, "c_j_per_m2k": 1e5}, {"r_m2k_per_w": 2.0, "c_j_per_m2k": 0.0}],
        "inside": {"convection_w_per_m2k": 3.0, "radiation_w_per_m2k": 0.0},
        "outside": [{"w_per_m2k": 25.0, "temperature_c": "out"}],
    }
    zone = {"name": "box", "air_j_per_k": 1e5, "heat_to_c": [20.0] * 24}
    model = {"step_s": 3600, "hours": 48, "series": series, "zones": [zone], "surfaces": [wall],
             "air": [{"to": 0, "from_c": "out", "w_per_k": 2.0}]}
    want = 20.0 * (10.0 / (1 / 25 + 2.1 + 1 / 3) + 2.0)
    for way in ("plain", "lagged"):
        heat, _, _ = House(model).year(way, 24 * 30)
        assert abs(heat[-1, 0] - want) < 1e-6 * want, (way, heat[-1, 0], want)
    zone.pop("heat_to_c")
    model.update(surfaces=[], air=[{"to": 0, "from_c": "out", "w_per_k": 10.0}])
    _, _, air = House(model).year("plain", 0)
    # one backward Euler step keeps 1/(1 + dt G/C) of the difference
    keep = 1.0 / (1.0 + 3600.0 * 10.0 / 1e5)
    assert abs(air[9, 0] - 20.0 * keep**10) < 1e-5, (air[9, 0], 20.0 * keep**10)
    print("house_numpy: closed forms hold")


def main(path):
    with open(path, encoding="utf-8") as f:
        model = json.load(f)
    warm_up = int(model.get("warm_up_hours", 0))
    began = time.perf_counter()
    house = House(model)
    out = {"nodes": len(house.capacity), "zones": house.nz, "set_up_s": time.perf_counter() - began}
    expected = model.get("expected", {})
    for way in ("lagged", "plain"):
        began = time.perf_counter()
        heat, cool, _ = house.year(way, warm_up)
        out[f"{way}_s"] = time.perf_counter() - began
        for what, got in (("heating_kwh", heat), ("cooling_kwh", cool)):
            total = float(got.sum()) * house.step_s / 3.6e6
            out[f"{way}_{what}"] = total
            if what in expected:
                want = float(sum(expected[what]))
                out[f"{way}_{what}_off"] = (total - want) / max(abs(want), 1.0)
    json.dump(out, sys.stdout)
    print()


if __name__ == "__main__":
    check() if sys.argv[1:] == ["--check"] else main(sys.argv[1])
