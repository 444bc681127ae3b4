"""What schema.org says of the types that pages use, read from tests/reference, and what JSON-LD does not keep to."""

import csv
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

REFERENCE = Path(__file__).parent / "reference"
ADDRESS = "https://schema.org"

NUMBERS_WITH_A_UNIT = {"Energy": ("kcal", "kJ"), "Mass": ("g", "mg")}
"""https://schema.org/Energy and /Mass: `<Number> <unit>`."""


@cache
def properties() -> dict[tuple[str, str], tuple[set[str], str]]:
    """What each property of a type may hold, and what has taken its place."""
    with (REFERENCE / "schema_properties.csv").open(encoding="utf-8", newline="") as file:
        return {
            (row["type"], row["property"]): (set(row["range"].split()), row["superseded_by"])
            for row in csv.DictReader(file)
        }


@cache
def parents() -> dict[str, list[str]]:
    """The types that each type is one of."""
    with (REFERENCE / "schema_types.csv").open(encoding="utf-8", newline="") as file:
        return {row["type"]: row["is_a"].split() for row in csv.DictReader(file)}


def kinds(name: str) -> set[str]:
    """A type with all that it is one of."""
    return {name}.union(*(kinds(parent) for parent in parents()[name]))


def breaches(node: dict[str, Any], where: str = "") -> Iterator[str]:
    """Every property that the type does not have, that another one has replaced, or that holds what it may not."""
    of = kinds(node["@type"])
    for key, value in node.items():
        place = f"{where}/{node['@type']}.{key}"
        if key.startswith("@"):
            continue
        found = [properties()[kind, key] for kind in sorted(of) if (kind, key) in properties()]
        if not found:
            yield f"{place}: no such property"
            continue
        (ranges, superseded), *_ = found
        if superseded:
            yield f"{place}: superseded by {superseded}"
        for inner in value if isinstance(value, list) else [value]:
            if not any(_fits(inner, wanted) for wanted in ranges):
                yield f"{place}: {inner!r} is none of {sorted(ranges)}"
            if isinstance(inner, dict):
                yield from breaches(inner, place)


def _fits(value: object, wanted: str) -> bool:
    import isodate

    if isinstance(value, dict):
        return wanted in kinds(value["@type"])
    if isinstance(value, bool) or wanted == "Boolean":
        return isinstance(value, bool) and wanted == "Boolean"
    if isinstance(value, int | float):
        return wanted in ("Number", "Integer")
    assert isinstance(value, str)
    assert value
    if wanted in NUMBERS_WITH_A_UNIT:
        number, _, unit = value.partition(" ")
        return number.replace(".", "", 1).isdigit() and unit in NUMBERS_WITH_A_UNIT[wanted]
    if wanted in ("Duration", "Date", "DateTime"):
        read = isodate.parse_duration if wanted == "Duration" else isodate.parse_date
        try:
            return bool(read(value))
        except isodate.ISO8601Error:
            return False
    if wanted in ("URL", "ImageObject", "CreativeWork", "WebPage", "Thing"):
        parts = urlsplit(value)
        return parts.scheme in ("http", "https") and bool(parts.netloc)
    if wanted == "RestrictedDiet":
        return value in {f"{ADDRESS}/{diet}" for diet in ("VeganDiet", "VegetarianDiet", "GlutenFreeDiet")}
    return wanted in ("Text", "Language")


def context() -> dict[str, Any]:
    """A context with the terms of these tables, in place of that of schema.org: what can only be an address is one."""
    terms: dict[str, Any] = {"@vocab": f"{ADDRESS}/"}
    for (_, name), (ranges, _) in properties().items():
        if "URL" in ranges and "Text" not in ranges:
            terms[name] = {"@id": f"{ADDRESS}/{name}", "@type": "@id"}
    return terms
