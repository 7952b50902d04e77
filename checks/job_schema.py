"""Holds the example jobs and the bad ones of the tests against schema/job.schema.json with an
independent validator, and keeps the verdicts in values/job_schema.csv.

Fails if the schema itself is not valid or refuses an example. Bad files that a schema cannot see
(geometry, names, ranges in other units) are listed as `valid`.
"""

import datetime
import json
import pathlib
import sys
import tomllib
from importlib.metadata import version

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parent.parent


def plain(value):
    if isinstance(value, dict):
        return {k: plain(v) for k, v in value.items()}
    if isinstance(value, list):
        return [plain(v) for v in value]
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return value


def verdict(validator, path):
    try:
        data = plain(tomllib.loads(path.read_bytes().decode("utf-8")))
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError):
        return "not TOML"
    return "valid" if validator.is_valid(data) else "refused"


def main():
    schema = json.loads((ROOT / "schema" / "job.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    rows = []
    wrong = []
    for path in sorted((ROOT / "jobs").rglob("*.toml")):
        if path.name == "startup.toml":  # of another format
            continue
        name = path.relative_to(ROOT).as_posix()
        found = verdict(validator, path)
        rows.append((name, found))
        if found != "valid":
            wrong.append(name)
    for path in sorted((ROOT / "crates" / "jobfile" / "tests" / "bad").glob("*.toml")):
        rows.append((path.relative_to(ROOT).as_posix(), verdict(validator, path)))
    out = ROOT / "checks" / "values" / "job_schema.csv"
    with out.open("w", encoding="utf-8") as f:
        f.write(f"# jsonschema {version('jsonschema')}: job files against schema/job.schema.json\n")
        f.write("# made by checks/job_schema.py; examples must be valid\n")
        f.write("file,verdict\n")
        f.writelines(f"{name},{found}\n" for name, found in rows)
    if wrong:
        sys.exit("the schema refuses: " + ", ".join(wrong))


if __name__ == "__main__":
    main()
