"""Makes checks/values/grid_carbon.csv with codecarbon 3.3.2 (MIT), which carries US EPA eGRID2023
(public data of the US government): total output emission rate of CO2 equivalent by state.

Only its file of data is read; it is never run.
"""
import importlib.metadata
import json
import pathlib

OUT = pathlib.Path(__file__).parent / "values"
of = importlib.metadata.distribution("codecarbon")
assert of.version == "3.3.2", of.version
path = of.locate_file("codecarbon/data/private_infra/2023/usa_emissions.json")
states = json.loads(pathlib.Path(path).read_text())
rows = [f"{name.lower()},{of['emissions']}" for name, of in sorted(states.items()) if not name.startswith("_")]
(OUT / "grid_carbon.csv").write_text(
    "# codecarbon 3.3.2: eGRID2023, lb of CO2 equivalent a MWh generated, by state\n"
    "state,lb_per_mwh\n" + "\n".join(rows) + "\n")
