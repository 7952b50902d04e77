"""Invented bills and temperatures for the example jobs. Nobody's meter, tank or thermometer is in them.

Days of the shipped Chicago year wander by a seeded scatter and become the days of real dates. Two
invented houses live through them: Lake Street 12 burns oil and is billed by slips of a dealer and a
utility's table; Lake Street 14 has a gas boiler, gets a heat pump in October 2024, and is billed by
Green Button. The houses follow their own lines, not Northwall's: their numbers stand below.
"""

import datetime as dt
import gzip
import pathlib
import random

HERE = pathlib.Path(__file__).parent
TOP = HERE.parent
OUT = TOP / "jobs" / "lake-street" / "bills"
FIRST, LAST = dt.date(2023, 4, 1), dt.date(2026, 11, 15)
SAYS = "# invented by checks/bills_invented.py; nobody's bill\n"
ZONE_S = -6 * 3600
BTU_J, THERM_J, KWH_J = 1055.05585262, 105_480_400.0, 3.6e6
OIL_J = 138_000 * BTU_J

# Lake Street 12: loss W/K by the year, balance point C, boiler over the season, hot water W of oil,
# and a fortnight away in February 2026
OIL_HOUSE = {"loss": 220.0, "balance": 15.2, "eta": 0.775, "water": 430.0}
# Lake Street 14: as above, before and after
GAS_HOUSE = {"loss": 170.0, "balance": 15.5, "eta": 0.80, "water": 420.0}


def typical():
    text = gzip.decompress((TOP / "weather" / "chicago-725300.epw.gz").read_bytes()).decode("latin-1")
    hours = [float(line.split(",")[6]) for line in text.splitlines()[8:]]
    return [sum(hours[i : i + 24]) / 24 for i in range(0, 8760, 24)]


def days():
    year, dice = typical(), random.Random(12)
    out, wander, shift = {}, 0.0, {}
    day = FIRST
    while day <= LAST:
        winter = day.year if day.month >= 7 else day.year - 1
        if winter not in shift:
            shift[winter] = dice.gauss(0, 0.9)
        wander = 0.72 * wander + dice.gauss(0, 1.9)
        of_year = min((day - dt.date(day.year, 1, 1)).days, 364)
        out[day] = round((year[of_year] + shift[winter] + wander) * 1.8 + 32, 1)
        day += dt.timedelta(1)
    return out


def celsius(f):
    return (f - 32) / 1.8


def oil_slips(temps):
    """A dealer comes when about 150 gallons are gone; now and then he does not fill up."""
    dice, house = random.Random(34), OIL_HOUSE
    gone, rows, since = 0.0, [], 0
    for day, f in temps.items():
        if day < dt.date(2024, 9, 5):
            continue
        heat = house["loss"] * max(house["balance"] - celsius(f), 0) * (1 + dice.gauss(0, 0.05))
        if dt.date(2026, 2, 9) <= day < dt.date(2026, 2, 20):
            heat *= 0.75  # away, set back
        gone += (heat / house["eta"] + house["water"]) * 86400 / OIL_J
        since += 1
        wants = gone > dice.gauss(128, 12) or (day.month == 9 and since > 60) or (day.month == 4 and day.day == 25 and gone > 40)
        if wants and day.weekday() < 5 and since > 12 or day == dt.date(2024, 9, 18):
            part = dice.random() < 0.15 and day.month not in (4, 9)
            put = 60.0 if part and gone > 70 else gone
            rows.append((day, round(put, 1), "partial" if put < gone - 1 else "full", round(3.45 + 0.3 * dice.random(), 2)))
            gone -= put
            since = 0
    # what the job's own [[bill]] entries of the winter before must say
    for a, b in ((dt.date(2023, 9, 14), dt.date(2024, 4, 22)), (dt.date(2024, 4, 22), dt.date(2024, 9, 18))):
        used = sum(
            (house["loss"] * max(house["balance"] - celsius(temps[a + dt.timedelta(i)]), 0) / house["eta"] + house["water"]) * 86400 / OIL_J
            for i in range((b - a).days)
        )
        print(f"{a} to {b}: {used:.0f} gal")
    with open(OUT / "oil-slips.csv", "w", newline="\n") as f:
        f.write(SAYS + "Delivery date,Gallons of oil,Tank,Price per gallon\n")
        for day, gallons, full, price in rows:
            f.write(f"{day.month}/{day.day}/{day.year},{gallons:.1f},{full},${price:.2f}\n")


def reads(first, last, dice):
    """Days on which a meter is read: about a month apart, not on a weekend."""
    out, day = [], first
    while day <= last:
        while day.weekday() > 4:
            day += dt.timedelta(1)
        out.append(day)
        month = day.month % 12 + 1
        day = dt.date(day.year + (day.month == 12), month, min(15 + dice.randint(-2, 2), 28))
    return out


def electricity(temps):
    """Lights and pumps a little more in winter, two window units in summer."""
    dice = random.Random(56)
    ends = reads(dt.date(2024, 9, 16), dt.date(2026, 11, 12), dice)
    with open(OUT / "electricity.csv", "w", newline="\n") as f:
        f.write(SAYS + "Account name,Invented Person\nService address,Lake Street 12\n\n")
        f.write("Type,Start Date,End Date,Usage (kWh),Read Type,Charges\n")
        for a, b in zip(ends, ends[1:]):
            kwh = 0.0
            for i in range((b - a).days):
                c = celsius(temps[a + dt.timedelta(i)])
                kwh += 15.5 + 0.10 * max(14 - c, 0) + 1.1 * max(c - 21, 0)
            kwh *= 1 + dice.gauss(0, 0.05)
            estimated = (a.year, a.month) == (2025, 1)
            if estimated:
                off = round(0.12 * kwh)
                kwh -= off
            elif (a.year, a.month) == (2025, 2):
                kwh += off
            word = "Estimated" if estimated else "Actual"
            f.write(f"Electric usage,{a},{b},{kwh:.0f},{word},${0.22 * kwh:.2f}\n")


def cop(c):
    return min(max(2.75 + 0.055 * c, 1.5), 4.2)


def seconds(day):
    """Midnight of the clock, daylight saving and all."""
    summer = dt.date(day.year, 3, 8 + (6 - dt.date(day.year, 3, 8).weekday()) % 7) <= day < dt.date(
        day.year, 11, 1 + (6 - dt.date(day.year, 11, 1).weekday()) % 7
    )
    utc = dt.datetime(day.year, day.month, day.day, tzinfo=dt.timezone.utc).timestamp()
    return int(utc) - ZONE_S - (3600 if summer else 0)


def green_button(temps):
    dice, house = random.Random(78), GAS_HOUSE
    ends = reads(dt.date(2023, 4, 14), dt.date(2026, 11, 12), dice)
    start = dt.date(2024, 10, 15)
    gas, power = [], []
    for a, b in zip(ends, ends[1:]):
        therms = kwh = 0.0
        for i in range((b - a).days):
            day = a + dt.timedelta(i)
            c = celsius(temps[day])
            heat = house["loss"] * max(house["balance"] - c, 0) * (1 + dice.gauss(0, 0.05))
            pump = 0.0
            if day >= start:
                # the boiler takes over part of it in the cold
                pump = heat * (0.92 if c > -6 else 0.6)
            therms += ((heat - pump) / house["eta"] + house["water"]) * 86400 / THERM_J
            kwh += 14.0 + 0.9 * max(c - 22, 0) * (1.4 if day >= start else 1.0) + pump * 86400 / cop(c) / KWH_J
        span = (seconds(a), seconds(b) - seconds(a))
        gas.append((*span, round(therms * (1 + dice.gauss(0, 0.015)) * 1000)))
        power.append((*span, round(kwh * (1 + dice.gauss(0, 0.025)) * 1000)))

    def meter(n, title, kind, commodity, uom, ten, readings):
        point, reading = f"UsagePoint/{n}", f"UsagePoint/{n}/MeterReading/1"
        values = "\n".join(
            f"<IntervalReading><timePeriod><duration>{d}</duration><start>{s}</start></timePeriod><value>{v}</value></IntervalReading>"
            for s, d, v in readings
        )
        return (
            f'<entry><id>urn:p{n}</id><link rel="self" href="{point}"/><link rel="related" href="{point}/MeterReading"/><title>{title}</title>'
            f'<content><UsagePoint xmlns="http://naesb.org/espi"><ServiceCategory><kind>{kind}</kind></ServiceCategory></UsagePoint></content></entry>\n'
            f'<entry><id>urn:m{n}</id><link rel="self" href="{reading}"/><link rel="up" href="{point}/MeterReading"/>'
            f'<link rel="related" href="{reading}/IntervalBlock"/><link rel="related" href="ReadingType/{n}"/><title>bills</title>'
            f'<content><MeterReading xmlns="http://naesb.org/espi"/></content></entry>\n'
            f'<entry><id>urn:t{n}</id><link rel="self" href="ReadingType/{n}"/><title>type</title>'
            f'<content><ReadingType xmlns="http://naesb.org/espi"><accumulationBehaviour>4</accumulationBehaviour><commodity>{commodity}</commodity>'
            f"<flowDirection>1</flowDirection><kind>12</kind><powerOfTenMultiplier>{ten}</powerOfTenMultiplier><uom>{uom}</uom></ReadingType></content></entry>\n"
            f'<entry><id>urn:b{n}</id><link rel="self" href="{reading}/IntervalBlock/1"/><link rel="up" href="{reading}/IntervalBlock"/><title/>'
            f'<content><IntervalBlock xmlns="http://naesb.org/espi">\n{values}\n</IntervalBlock></content></entry>\n'
        )

    with open(OUT / "second-winter.xml", "w", newline="\n") as f:
        f.write('<?xml version="1.0" encoding="UTF-8"?>\n<!-- invented by checks/bills_invented.py; nobody\'s bill -->\n')
        f.write('<feed xmlns="http://www.w3.org/2005/Atom"><title>Invented: Lake Street 14</title>\n')
        f.write(f'<entry><id>urn:z</id><link rel="self" href="Time/1"/><title>time</title><content><LocalTimeParameters xmlns="http://naesb.org/espi">'
                f"<dstOffset>3600</dstOffset><tzOffset>{ZONE_S}</tzOffset></LocalTimeParameters></content></entry>\n")
        f.write(meter(1, "Electricity, invented", 0, 1, 72, 0, power))
        f.write(meter(2, "Gas, invented", 1, 7, 169, -3, gas))
        f.write("</feed>\n")


def main():
    OUT.mkdir(parents=True, exist_ok=True)
    temps = days()
    with open(OUT / "days.csv", "w", newline="\n") as f:
        f.write("# invented by checks/bills_invented.py from the shipped Chicago year; no thermometer read it\n")
        f.write("date,temperature_F\n")
        for day, t in temps.items():
            f.write(f"{day},{t}\n")
    oil_slips(temps)
    electricity(temps)
    green_button(temps)


if __name__ == "__main__":
    main()
