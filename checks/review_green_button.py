"""Green Button feeds, invented, and what greenbutton-objects reads in them.

Writes the feeds into crates/review/tests/feeds and, beside the other values, what the library
finds: readings and their sum for every meter reading of every usage point.
"""

import datetime as dt
import importlib.metadata
import math
import pathlib

from greenbutton_objects.parse import parse_feed

HERE = pathlib.Path(__file__).parent
FEEDS = HERE.parent / "crates" / "review" / "tests" / "feeds"
LIBRARY = f"greenbutton-objects {importlib.metadata.version('greenbutton-objects')}"
ZONE_S = -6 * 3600  # central standard time
HOUR, DAY = 3600, 86400


def epoch(y, m, d, hour=0, summer=False):
    """Seconds of a local clock time."""
    utc = dt.datetime(y, m, d, hour, tzinfo=dt.timezone.utc).timestamp()
    return int(utc) - ZONE_S - (HOUR if summer else 0)


def entry(path, title, content, up=None, related=()):
    links = [f'<link rel="self" href="{path}"/>']
    if up:
        links.append(f'<link rel="up" href="{up}"/>')
    links += [f'<link rel="related" href="{r}"/>' for r in related]
    return (
        f"  <entry>\n    <id>urn:{path}</id>\n    " + "\n    ".join(links) + f"\n    <title>{title}</title>\n"
        f"    <content>{content}</content>\n  </entry>\n"
    )


def espi(name, body):
    return f'<{name} xmlns="http://naesb.org/espi">{body}</{name}>'


def reading(start, duration, value, quality=None):
    q = f"<ReadingQuality><quality>{quality}</quality></ReadingQuality>" if quality is not None else ""
    return (
        f"<IntervalReading>{q}<timePeriod><duration>{duration}</duration><start>{start}</start></timePeriod>"
        f"<value>{value}</value></IntervalReading>"
    )


def meter(point, number, title, type_body, blocks):
    """A meter reading with its type and blocks."""
    base = f"{point}/MeterReading/{number}"
    out = entry(base, title, espi("MeterReading", ""), f"{point}/MeterReading",
                [f"{base}/IntervalBlock", f"RetailCustomer/1/ReadingType/{point[-1]}{number}"])
    out += entry(f"RetailCustomer/1/ReadingType/{point[-1]}{number}", f"type of {title}", espi("ReadingType", type_body),
                 "RetailCustomer/1/ReadingType")
    for i, block in enumerate(blocks):
        first, last = block[0], block[-1]
        body = (f"<interval><duration>{last[0] + last[1] - first[0]}</duration><start>{first[0]}</start></interval>"
                + "\n      ".join(reading(*r) for r in block))
        out += entry(f"{base}/IntervalBlock/{i}", "", espi("IntervalBlock", body), f"{base}/IntervalBlock")
    return out


def point(number, title, kind):
    base = f"RetailCustomer/1/UsagePoint/{number}"
    return base, entry(base, title, espi("UsagePoint", f"<ServiceCategory><kind>{kind}</kind></ServiceCategory><status>1</status>"),
                       "RetailCustomer/1/UsagePoint", [f"{base}/MeterReading"])


def local_time():
    body = f"<dstEndRule>B40E2000</dstEndRule><dstOffset>3600</dstOffset><dstStartRule>360E2000</dstStartRule><tzOffset>{ZONE_S}</tzOffset>"
    return entry("LocalTimeParameters/1", "time", espi("LocalTimeParameters", body))


def feed(name, *entries):
    text = (
        '<?xml version="1.0" encoding="UTF-8"?>\n<feed xmlns="http://www.w3.org/2005/Atom">\n'
        f"  <id>urn:{name}</id>\n  <title>Invented: {name}</title>\n" + "".join(entries) + "</feed>\n"
    )
    FEEDS.mkdir(parents=True, exist_ok=True)
    (FEEDS / f"{name}.xml").write_text(text, encoding="utf-8", newline="\n")


def type_body(uom, ten, flow=1, commodity=1, kind=12, length=HOUR):
    return (f"<accumulationBehaviour>4</accumulationBehaviour><commodity>{commodity}</commodity><flowDirection>{flow}</flowDirection>"
            f"<intervalLength>{length}</intervalLength><kind>{kind}</kind><powerOfTenMultiplier>{ten}</powerOfTenMultiplier><uom>{uom}</uom>")


def use(i, size):
    return round(size * (1.2 + math.sin(i / 24 * 2 * math.pi) + 0.3 * math.sin(i * 1.7)))


def hours(start, count, size, but=()):
    return [(start + i * HOUR, HOUR, max(use(i, size), 0)) for i in range(count) if i not in but]


def months(first_year, first_month, count, value):
    """Bills from midnight to midnight of the clock, daylight saving and all."""
    def summer(y, m):
        return 4 <= m <= 10
    out, y, m = [], first_year, first_month
    for i in range(count):
        y2, m2 = (y, m + 1) if m < 12 else (y + 1, 1)
        a, b = epoch(y, m, 14, summer=summer(y, m)), epoch(y2, m2, 14, summer=summer(y2, m2))
        out.append((a, b - a, value(i), 8 if i == 5 else 0))
        y, m = y2, m2
    return out


def main():
    # hours over the end of daylight saving, two days of gap, one reading twice
    start = epoch(2025, 10, 1, summer=True)
    taken = hours(start, 24 * 70, 700, but=range(24 * 20 + 5, 24 * 22 + 9))
    p, usage = point(1, "Electricity, invented", 0)
    feed("hours", local_time(), usage,
         meter(p, 1, "hours", type_body(72, 0), [taken[i : i + 240] for i in range(0, len(taken), 240)] + [[taken[100]]]))
    # delivered and returned apart
    p, usage = point(1, "House with a roof of sun, invented", 0)
    back = [(a, b, max(v - 900, 0)) for a, b, v in hours(epoch(2025, 1, 1), 24 * 40, 800)]
    feed("sun", local_time(), usage, meter(p, 1, "delivered", type_body(72, 0), [hours(epoch(2025, 1, 1), 24 * 40, 500)]),
         meter(p, 2, "received", type_body(72, 0, flow=19), [back]))
    # gas in thousandths of a therm by months, one an estimate, no time zone
    p, usage = point(1, "Gas, invented", 1)
    feed("gas", usage, meter(p, 1, "months", type_body(169, -3, commodity=7, length=0),
                             [months(2024, 1, 14, lambda i: 20000 + round(80000 * (1 + math.cos(i / 6 * math.pi)))) ]))
    # two usage points, days in kWh by tens of watt hours and gas by cubic feet
    p1, u1 = point(1, "Electricity of the house, invented", 0)
    p2, u2 = point(2, "Gas of the house, invented", 1)
    days = [(epoch(2025, 1, 1) + i * DAY, DAY, max(use(i, 1500), 0)) for i in range(75)]
    feed("house", local_time(), u1, u2, meter(p1, 1, "days", type_body(72, 1, length=DAY), [days]),
         meter(p2, 1, "months", type_body(119, 2, commodity=7, length=0), [months(2024, 2, 12, lambda i: 20 + 9 * (i % 4))]))
    rows = []
    for name in ("gas", "hours", "house", "sun"):
        for up in parse_feed(str(FEEDS / f"{name}.xml")):
            for mr in sorted(up.meterReadings, key=lambda m: m.title):
                values = list(mr.intervalReadings)
                rows.append([name, up.title.replace(",", ""), mr.title, mr.readingType.uom.value, len(values),
                             f"{sum(v.value for v in values):.6f}",
                             int(min(v.timePeriod.start for v in values).timestamp())])
    with open(HERE / "values" / "review_green_button.csv", "w", encoding="utf-8", newline="\n") as f:
        f.write(f"# {LIBRARY} reads the invented feeds of crates/review/tests/feeds\n# made by checks/review_green_button.py\n")
        f.write("feed,point,reading,uom,readings,sum,first\n")
        for r in rows:
            f.write(",".join(map(str, r)) + "\n")


if __name__ == "__main__":
    main()
