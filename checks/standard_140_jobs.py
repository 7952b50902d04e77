"""Writes the job files of the Standard 140-2020 cases, jobs/standard-140/*.toml.

Inputs: the standard's building description as gathered in the project's checks notes (box, build-ups,
glass, gains, infiltration, set points, shading). Plain Python, no packages. Run from anywhere:

    python3 checks/standard_140_jobs.py
"""

from pathlib import Path

OUT = Path(__file__).resolve().parent.parent / "jobs" / "standard-140"
WEATHER = "../../weather/denver-725650.epw.gz"

WHAT = {
    "600": "light walls, 12 m2 of glass to the south",
    "610": "as 600, with an overhang over the south windows",
    "620": "light walls, the glass to east and west",
    "630": "as 620, with overhangs and side fins",
    "640": "as 600, heating set back at night",
    "650": "as 600, no heating, a fan by night",
    "900": "heavy walls and floor, 12 m2 of glass to the south",
    "910": "as 900, with an overhang over the south windows",
    "920": "heavy, the glass to east and west",
    "930": "as 920, with overhangs and side fins",
    "940": "as 900, heating set back at night",
    "950": "as 900, no heating, a fan by night",
    "600ff": "as 600, without heating and cooling",
    "650ff": "as 650, without heating and cooling",
    "900ff": "as 900, without heating and cooling",
    "950ff": "as 950, without heating and cooling",
    "960": "a back room of case 600 behind a sunspace of case 900",
}


def layer(name, thickness, k, density, cp):
    return (
        f'  {{ name = "{name}", thickness = "{thickness} m", k = "{k} W/(m K)", '
        f'density = "{density} kg/m3", cp = "{cp} J/(kg K)" }},\n'
    )


WALL_600 = (
    layer("wood siding", 0.009, 0.140, 530, 900)
    + layer("fibreglass", 0.066, 0.040, 12, 840)
    + layer("plasterboard", 0.012, 0.160, 950, 840)
)
WALL_900 = (
    layer("wood siding", 0.009, 0.140, 530, 900)
    + layer("foam", 0.0615, 0.040, 10, 1400)
    + layer("concrete block", 0.100, 0.510, 1400, 1000)
)
ROOF = (
    layer("deck", 0.019, 0.140, 530, 900)
    + layer("fibreglass", 0.1118, 0.040, 12, 840)
    + layer("plasterboard", 0.010, 0.160, 950, 840)
)
FLOOR_600 = layer("insulation without mass", 1.003, 0.040, 0, 0) + layer(
    "timber", 0.025, 0.140, 650, 1200
)
FLOOR_900 = layer("insulation without mass", 1.007, 0.040, 0, 0) + layer(
    "concrete", 0.080, 1.130, 1400, 1000
)
COMMON_WALL = layer("concrete", 0.200, 0.510, 1400, 1000)


def construction(name, layers):
    return (
        f"[construction.{name}]\nlayers = [\n{layers}]\n"
        "sun_absorptance = 0.6\nemittance = 0.9\nsun_absorptance_in = 0.6\nemittance_in = 0.9\n"
        'seen = "Standard 140"\n\n'
    )


def shade_south(past):
    return f'shade = {{ overhang = "1 m", gap = "0.5 m", past = "{past} m" }}\n'


# Fins stand at the window's edges, from the ground (0.2 m under the sill) up to the overhang.
SHADE_SIDE = (
    'shade = { overhang = "1 m", gap = "0.5 m", past = "0 m", fins = "1 m", fin_gap = "0 m", '
    'fin_above = "0.5 m", fin_below = "0.2 m" }\n'
)


def window(name, room, wall, from_left=None, shade=""):
    text = (
        f'[[window]]\nname = "{name}"\nroom = "{room}"\nwall = "{wall}"\nwidth = "3 m"\n'
        'height = "2 m"\nsill = "0.2 m"\n'
    )
    if from_left is not None:
        text += f'from_left = "{from_left} m"\n'
    return text + 'glazing = "clear pair"\n' + shade + 'seen = "Standard 140"\n\n'


def south_windows(room, overhang):
    comment = ""
    shades = ["", ""]
    if overhang:
        # The overhang is as wide as the wall. Past each window it reaches 0.5 m on one side and
        # 4.5 m on the other; the two windows are alike but mirrored, so giving one of them 0.5 m
        # on both sides and the other 4.5 m on both leaves the sun through the pair as it is.
        comment = (
            "# One overhang as wide as the wall: past each window 0.5 m on one side and 4.5 m on the\n"
            "# other, mirrored. One window with 0.5 m on both sides and one with 4.5 m on both let in\n"
            "# the same sun together at every hour.\n"
        )
        shades = [shade_south(0.5), shade_south(4.5)]
    # Seen from inside, a south wall's left end is its east end.
    return (
        comment
        + window("south east", room, "south", 0.5, shades[0])
        + window("south west", room, "south", 4.5, shades[1])
    )


GLASS = """# Two clear panes, 3.048 mm, and 12 mm of air; no frame.
[glazing."clear pair"]
layers = [
  { thickness = "3.048 mm", k = "1 W/(m K)", transmittance = 0.834, reflectance = 0.075, emittance = 0.84 },
  { thickness = "3.048 mm", k = "1 W/(m K)", transmittance = 0.834, reflectance = 0.075, emittance = 0.84 },
]
gaps = [{ width = "12 mm", gas = "air" }]
seen = "Standard 140"

"""


def steps(case):
    # Settings and fans that change within the day are followed by the quarter hour.
    return 'steps_an_hour = 4\n' if case[:3] in ("640", "650", "940", "950") else ""


def head(case):
    return f"""# Standard 140-2020, case {case}: {WHAT[case]}.
# A test house, not a home. Written by checks/standard_140_jobs.py.
northwall = 1

[job]
name = "Standard 140 case {case}"
stage = "visit"

[place]
weather = "{WEATHER}"
elevation = "1650 m"
shelter = "country"
plan_north = "0 deg"
ground_reflects = 0.2

[house]
furnishing = "0 kJ/(m2 K)"   # the test box is empty
{steps(case)}seen = "Standard 140"

# The floor is raised: outdoor air under it, no sun and no wind.
[[storey]]
name = "box"
floor = "0 m"
ceiling = "2.7 m"
under = "still air"
over = "flat roof"

"""


def settings(case):
    if case.endswith("ff"):
        return "# No heating, no cooling.\n"
    if case in ("640", "940"):
        return (
            "# Set back from 23 h to 7 h, then in a straight line up to 20 C at 8 h.\n"
            'heated_to = [\n  { from = "23:00", to = "7:00", at = "10 C" },\n'
            '  { from = "7:00", to = "8:00", at = "20 C", ramp = true },\n'
            '  { from = "8:00", to = "23:00", at = "20 C" },\n]\ncooled_to = "27 C"\n'
        )
    if case in ("650", "950"):
        return 'cooled_to = [{ from = "7:00", to = "18:00", at = "27 C" }]\n'
    return 'heated_to = "20 C"\ncooled_to = "27 C"\n'


LEAKAGE = """# 0.5 an hour of the air as it is at 1650 m. (0.414 is the same mass of air for programs that
# reckon with the density at sea level; this one takes the station's own pressure.)
[leakage]
air_changes = "0.5 /h"
seen = "Standard 140"
"""

FAN = """
# By night a fan brings outdoor air in; its own heat does not count. (1703 m3/h of the air as it
# is at 1650 m; 1409 is the same mass at sea level.)
[[vent]]
room = "box"
flow = "1703.16 m3/h"
on = [{ from = "18:00", to = "7:00" }]
"""


def box(case):
    number = int(case[:3])
    heavy = number >= 900
    kind = number % 100
    text = head(case)
    text += """[[room]]
name = "box"
storey = "box"
outline = ["0 m, 0 m", "8 m, 0 m", "8 m, 6 m", "0 m, 6 m"]
"""
    text += settings(case)
    text += 'gains = [{ heat = "200 W", radiant = 0.6 }]\n\n'
    if kind in (20, 30):
        shade = SHADE_SIDE if kind == 30 else ""
        text += window("east", "box", "east", shade=shade)
        text += window("west", "box", "west", shade=shade)
    else:
        text += south_windows("box", kind == 10)
    text += GLASS
    text += "# Layers from outside to inside.\n"
    text += construction("wall", WALL_900 if heavy else WALL_600)
    text += construction("roof", ROOF)
    text += construction('"open floor"', FLOOR_900 if heavy else FLOOR_600)
    text += LEAKAGE
    if kind == 50:
        text += FAN
    return text


def two_rooms():
    text = head("960")
    text += """# The room with heating and cooling; its loads are what the standard asks for.
[[room]]
name = "back"
storey = "box"
outline = ["0 m, 2 m", "8 m, 2 m", "8 m, 8 m", "0 m, 8 m"]
heated_to = "20 C"
cooled_to = "27 C"
gains = [{ heat = "200 W", radiant = 0.6 }]

# South of it the sunspace, without heating, cooling or gains; its temperatures are asked for.
[[room]]
name = "sunspace"
storey = "box"
outline = ["0 m, 0 m", "8 m, 0 m", "8 m, 2 m", "0 m, 2 m"]

# The sunspace is built as case 900.
[[wall]]
room = "sunspace"
wall = "west"
construction = "heavy wall"

[[wall]]
room = "sunspace"
wall = "south"
construction = "heavy wall"

[[wall]]
room = "sunspace"
wall = "east"
construction = "heavy wall"

"""
    text += south_windows("sunspace", False)
    text += GLASS
    text += "# Layers from outside to inside; of the common wall, from the sunspace.\n"
    text += construction("wall", WALL_600)
    text += construction('"heavy wall"', WALL_900)
    text += construction("partition", COMMON_WALL)
    text += construction("roof", ROOF)
    text += construction('"open floor"', FLOOR_600)
    text += "# A build-up of one room alone bears the room's name.\n"
    text += construction('"open floor of sunspace"', FLOOR_900)
    text += LEAKAGE
    return text


def main():
    OUT.mkdir(parents=True, exist_ok=True)
    for case in WHAT:
        text = two_rooms() if case == "960" else box(case)
        (OUT / f"{case}.toml").write_text(text.rstrip() + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
