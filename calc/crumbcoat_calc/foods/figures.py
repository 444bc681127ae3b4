"""The key figures of a mixture as texts: their labels, and the wording for unknown contents."""

from collections.abc import Callable
from dataclasses import dataclass

from crumbcoat_calc.foods.bounds import Range
from crumbcoat_calc.foods.composition import ENERGY_NEEDS, Mixture, energy_ranges, salt_g, says_something
from crumbcoat_calc.values.display import NOT_KNOWN, list_text, mass_text, number_text, percent_text, range_text


@dataclass(frozen=True, slots=True)
class Figure:
    """One key figure: its key in the texts and in card.json, its label, and its component, or None if derived."""

    key: str
    label: str
    component: str | None


FIGURES = (
    Figure("fat", "Fat", "fat_g"),
    Figure("milk_fat", "of which milk fat", "milk_fat_g"),
    Figure("water", "Water", "water_g"),
    Figure("sugars", "Sugars", "sugars_g"),
    Figure("lactose", "of which lactose", "lactose_g"),
    Figure("milk_solids_not_fat", "Milk solids not fat", "milk_solids_not_fat_g"),
    Figure("protein", "Protein", "protein_g"),
    Figure("starch", "Starch", "starch_g"),
    Figure("alcohol", "Alcohol", "alcohol_g"),
    Figure("salt", "Salt", None),
)
"""In the order of the page. Energy is not among them, since it is not a mass."""

_SALT = "sodium_mg"
_MOST_KCAL_PER_G = 9.0
_HIGHEST_SALT_PERCENT = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureValue:
    """A figure in g and in g per 100 g of mixture: the most of each, too, where `missing` lists ingredients.

    `percent` and `mass_g` are the least. The most is infinite where nothing bounds it. `highest_percent` is about the
    most that any food has.
    """

    mass_g: float
    percent: float
    most_g: float
    most_percent: float
    missing: tuple[str, ...]
    highest_percent: float = 100.0

    @property
    def certain(self) -> bool:
        """Whether something is known of it at all."""
        return self.mass_g > 0

    @property
    def open(self) -> bool:
        """Whether its range says nothing useful."""
        return not says_something(self.percent, self.most_percent, self.highest_percent)


def figure_value(figure: Figure, mixture: Mixture) -> FigureValue:
    """The value of one figure."""
    component = figure.component or _SALT
    ends = salt_g(mixture) if component == _SALT else (mixture.at_least(component), mixture.at_most(component))
    per_g = 100 / mixture.mass_g if mixture.mass_g > 0 else 0.0
    return FigureValue(
        mass_g=ends[0],
        percent=per_g * ends[0],
        most_g=ends[1],
        most_percent=per_g * ends[1] if per_g else 0.0,
        missing=mixture.missing.get(component, ()),
        highest_percent=100.0 if figure.component else _HIGHEST_SALT_PERCENT,
    )


def figure_texts(mixture: Mixture) -> dict[str, str]:
    """The texts of all figures: `<key>.mass` and `<key>.percent`, then `energy`, `energy_100g` and `missing`.

    >>> from crumbcoat_calc.foods.composition import mixture_of
    >>> from crumbcoat_calc.foods.table import food
    >>> texts = figure_texts(mixture_of(food("milk_whole"), 1000))
    >>> texts["fat.percent"], texts["water.mass"]
    ('3.3 %', '881 g')
    """
    texts: dict[str, str] = {}
    unknown: dict[tuple[str, ...], list[str]] = {}
    between: dict[tuple[str, ...], list[str]] = {}
    for figure in FIGURES:
        value = figure_value(figure, mixture)
        mass = texts[f"{figure.key}.mass"] = mass_figure_text(value)
        percent = texts[f"{figure.key}.percent"] = percent_figure_text(value)
        if value.missing and (mass != mass_text(value.mass_g) or percent != percent_text(value.percent)):
            reasons = unknown if value.open else between
            reasons.setdefault(value.missing, []).append(figure.label.removeprefix("of which ").lower())
    texts["energy"], texts["energy_100g"] = energy_figure_texts(mixture)
    if texts["energy"] == NOT_KNOWN or " to " in texts["energy"]:
        names = tuple(dict.fromkeys(name for part in ENERGY_NEEDS for name in mixture.missing.get(part, ())))
        reasons = unknown if texts["energy"] == NOT_KNOWN else between
        reasons.setdefault(names, []).append("energy")
    sentences = [f"Not known for {list_text(names)}: {list_text(figures)}." for names, figures in unknown.items()]
    sentences += [f"Not known exactly for {list_text(names)}: {list_text(what)}." for names, what in between.items()]
    texts["missing"] = " ".join(sentences)
    return texts


def mass_figure_text(value: FigureValue) -> str:
    """A figure as a mass, see `percent_figure_text`."""
    return _with_gaps(value, value.mass_g, value.most_g, mass_text)


def percent_figure_text(value: FigureValue) -> str:
    """A figure as a percentage; a range if what is missing matters after rounding.

    Where the range says nothing useful, it is "at least" the least, or "not known" if nothing is known.

    >>> paste = FigureValue(mass_g=3.0, percent=1.5, most_g=4.0, most_percent=2.0, missing=("nut paste",))
    >>> percent_figure_text(paste)
    '1.5 to 2.0 %'
    >>> from dataclasses import replace
    >>> percent_figure_text(replace(paste, most_g=80, most_percent=40))
    'at least 1.5 %'
    """
    return _with_gaps(value, value.percent, value.most_percent, percent_text)


def share_text(mixture: Mixture, component: str) -> str:
    """A component of FIGURES as a percentage, see `percent_figure_text`."""
    figure = next(figure for figure in FIGURES if figure.component == component)
    return percent_figure_text(figure_value(figure, mixture))


def energy_figure_texts(mixture: Mixture) -> tuple[str, str]:
    """The energy of the mixture and of 100 g of it: a range where it is not known exactly."""
    kcal, kilojoules = energy_ranges(mixture)
    if not says_something(*kcal, _MOST_KCAL_PER_G * mixture.mass_g):
        return NOT_KNOWN, NOT_KNOWN
    per_100g = 100 / mixture.mass_g if mixture.mass_g else 0.0
    whole = _energy_range_text(kcal, kilojoules)
    return whole, _energy_range_text(
        (per_100g * kcal[0], per_100g * kcal[1]), (per_100g * kilojoules[0], per_100g * kilojoules[1])
    ) if per_100g else ""


def energy_text(kcal: float, kilojoules: float) -> str:
    """Energy in both units.

    >>> energy_text(61.2, 256)
    '256 kJ / 61 kcal'
    """
    return f"{number_text(kilojoules, 0)} kJ / {number_text(kcal, 0)} kcal"


def _energy_range_text(kcal: Range, kilojoules: Range) -> str:
    low, high = energy_text(kcal[0], kilojoules[0]), energy_text(kcal[1], kilojoules[1])
    if low == high:
        return low
    in_kj = range_text(f"{number_text(kilojoules[0], 0)} kJ", f"{number_text(kilojoules[1], 0)} kJ")
    return f"{in_kj} / {range_text(f'{number_text(kcal[0], 0)} kcal', f'{number_text(kcal[1], 0)} kcal')}"


def _with_gaps(value: FigureValue, low: float, high: float, text: Callable[[float], str]) -> str:
    least = text(low)
    if not value.missing:
        return least
    if value.open:
        return f"at least {least}" if value.certain else NOT_KNOWN
    return range_text(least, text(high))
