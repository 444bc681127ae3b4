"""The numbers of the models, from `data/model_constants.csv`."""

from collections.abc import Mapping
from functools import cache

from crumbcoat_calc.science.estimate import Withheld, outside
from crumbcoat_calc.tables import load_rows


@cache
def constants(model: str) -> Mapping[str, float]:
    """The constants of one model by name; the table gives their units.

    >>> constants("molar-mass")["water"]
    18.015
    """
    return {name: value for of_model, name, value in _rows() if of_model == model}


@cache
def temperatures_c(model: str) -> tuple[float, float]:
    """The range of temperatures in which a model holds, in °C: lowest and highest."""
    of_model = constants(model)
    return of_model["lowest_t"], of_model["highest_t"]


def too_hot_or_cold(t_c: float, model: str) -> Withheld | None:
    """The reason to withhold an estimate if a temperature in °C is outside a model's range.

    >>> too_hot_or_cold(120.0, "vavrinecz-saturation").reason
    'the temperature, 120 °C, is outside the model: 0 to 100 °C'
    """
    return outside("the temperature", t_c, *temperatures_c(model), "°C")


@cache
def _rows() -> tuple[tuple[str, str, float], ...]:
    return load_rows(
        "model_constants", lambda cells: (cells["model"], cells["name"], float(cells["value"])), ("model", "name")
    )
