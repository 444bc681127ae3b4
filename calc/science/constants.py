"""The numbers of the models, from `data/model_constants.csv`."""

from collections.abc import Mapping
from functools import cache

from calc.tables import load_rows


@cache
def constants(model: str) -> Mapping[str, float]:
    """The constants of one model by name; the unit stands in the table.

    >>> constants("molar-mass")["water"]
    18.015
    """
    return {name: value for of_model, name, value in _rows() if of_model == model}


@cache
def _rows() -> tuple[tuple[str, str, float], ...]:
    return load_rows(
        "model_constants", lambda cells: (cells["model"], cells["name"], float(cells["value"])), ("model", "name")
    )
