"""The US nutrition label: per serving and per 100 g, with the percentage of the daily values."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.composition import Mixture
from crumbcoat_calc.foods.label_rounding import declare
from crumbcoat_calc.label.nutrients import LabelLine, label_lines
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.exact import exact_decimal
from crumbcoat_calc.values.units import factor


@dataclass(frozen=True, slots=True, kw_only=True)
class Serving:
    """What the label calls one serving: words for people, and its mass."""

    words: str
    mass_g: float

    @property
    def text(self) -> str:
        """The serving with its mass in brackets, rounded as the label wants it.

        >>> Serving(words="2 tbsp", mass_g=26.6).text
        '2 tbsp (27 g)'
        """
        if self.words.endswith(" g"):
            return self.words
        return f"{self.words} ({declare('us-serving', self.mass_g)} g)"


@dataclass(frozen=True, slots=True, kw_only=True)
class UsLabel:
    """The lines for one serving and for 100 g, each rounded from its own unrounded values."""

    serving: Serving
    servings: float
    per_serving: tuple[LabelLine, ...]
    per_100g: tuple[LabelLine, ...]


FROSTING = "cake frosting or icing"
"""The category of reference_amounts.csv that frostings and fillings are in."""


@cache
def reference_amounts() -> Mapping[str, float]:
    """The amount customarily eaten at one time, in label tablespoons of 15 mL, by category."""
    return dict(
        load_rows(
            "reference_amounts",
            lambda cells: (cells["category"], number_in(cells, "tablespoons", 0.5, 20)),
            ("category",),
        )
    )


def serving_of(density_g_per_ml: float | None) -> Serving:
    """The serving that the reference amount of frosting makes, at the density of the finished food.

        mass = tablespoons * 15 mL * density

    Without a density it is taken as that of water, and the serving says so.

    Args:
        density_g_per_ml: of the finished food, with its air; 0.05 to 2 g/mL, or None.

    Raises:
        InputError: at `density`, outside the range.

    Source:
        cfr-101-12 (b) Table 2; cfr-101-9 (b)(5)(viii), a label tablespoon is 15 mL.

    >>> serving_of(0.85)
    Serving(words='2 tbsp', mass_g=25.5)
    >>> serving_of(None).text
    '2 tbsp, if they weigh 30 g'
    """
    if density_g_per_ml is None:
        as_water = serving_of(1.0)
        return Serving(words=f"{as_water.words}, if they weigh {as_water.mass_g:g} g", mass_g=as_water.mass_g)
    if not 0.05 <= density_g_per_ml <= 2:
        raise InputError(
            f"{density_g_per_ml:g} g/mL is not a possible density",
            "weigh a cup of it and give 0.05 to 2 g/mL",
            ("density",),
        )
    tablespoons = reference_amounts()[FROSTING]
    mass_g = tablespoons * factor("label_tablespoon", "millilitre") * density_g_per_ml
    return Serving(words=f"{tablespoons:g} tbsp", mass_g=mass_g)


def us_label(mixture: Mixture, serving: Serving) -> UsLabel:
    """The US label of a mixture; a content missing from an ingredient is `not known`, never zero.

    Args:
        mixture: the finished batch, above 0 g.
        serving: above 0 g.

    Raises:
        InputError: if there is no mixture, or no serving.

    Source:
        cfr-101-9 (c), (d)(7)(ii); energy by general factors, (c)(1)(i)(B).

    >>> from crumbcoat_calc.foods.composition import mixture_of
    >>> from crumbcoat_calc.foods.table import food
    >>> label = us_label(mixture_of(food("butter_salted"), 1000), Serving(words="1 tbsp", mass_g=14))
    >>> [(line.nutrient.name, line.text, line.percent_text) for line in label.per_serving[:3]]
    [('Calories', '100 kcal', ''), ('Total fat', '11 g', '15 %'), ('Saturated fat', '7 g', '36 %')]
    """
    return UsLabel(
        serving=serving,
        per_serving=label_lines("us", mixture, serving.mass_g),
        per_100g=label_lines("us", mixture, 100.0),
        servings=float(exact_decimal(mixture.mass_g) / exact_decimal(serving.mass_g)),
    )
