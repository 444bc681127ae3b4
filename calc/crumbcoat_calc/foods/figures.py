"""The key figures of a mixture as texts: their labels, and the wording for unknown contents."""

from dataclasses import dataclass

from crumbcoat_calc.foods.composition import SALT_PER_SODIUM, Mixture, energy, salt_g
from crumbcoat_calc.values.display import NOT_KNOWN, list_text, mass_text, number_text, percent_text


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
_ENERGY = ("protein_g", "fat_g", "alcohol_g", "carbohydrate_g", "fibre_g")


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureValue:
    """A figure in g and in g per 100 g of mixture; both are lower bounds if `missing` lists ingredients."""

    mass_g: float
    percent: float
    missing: tuple[str, ...]


def figure_value(figure: Figure, mixture: Mixture) -> FigureValue:
    """The value of one figure."""
    component = figure.component or _SALT
    if figure.component is None:
        known = salt_g(mixture)
        mass_g = mixture.at_least(_SALT) * SALT_PER_SODIUM / 1000 if known is None else known
    else:
        mass_g = mixture.at_least(figure.component)
    percent = 100 * mass_g / mixture.mass_g if mixture.mass_g > 0 else 0.0
    return FigureValue(mass_g=mass_g, percent=percent, missing=mixture.missing.get(component, ()))


def figure_texts(mixture: Mixture) -> dict[str, str]:
    """The texts of all figures: `<key>.mass` and `<key>.percent`, then `energy`, `energy_100g` and `missing`.

    >>> from crumbcoat_calc.foods.composition import mixture_of
    >>> from crumbcoat_calc.foods.table import food
    >>> texts = figure_texts(mixture_of(food("milk_whole"), 1000))
    >>> texts["fat.percent"], texts["water.mass"]
    ('3.3 %', '881 g')
    """
    texts: dict[str, str] = {}
    gaps: dict[tuple[str, ...], list[str]] = {}
    for figure in FIGURES:
        value = figure_value(figure, mixture)
        texts[f"{figure.key}.mass"] = _with_gaps(mass_text(value.mass_g), value.mass_g, value.missing)
        texts[f"{figure.key}.percent"] = percent_figure_text(value)
        if value.missing:
            gaps.setdefault(value.missing, []).append(figure.label.removeprefix("of which ").lower())
    total = energy(mixture)
    if total is None:
        without = tuple(dict.fromkeys(name for part in _ENERGY for name in mixture.missing.get(part, ())))
        gaps.setdefault(without, []).append("energy")
        texts["energy"] = texts["energy_100g"] = NOT_KNOWN
    else:
        texts["energy"] = energy_text(*total)
        texts["energy_100g"] = energy_text(*(100 * part / mixture.mass_g for part in total)) if mixture.mass_g else ""
    texts["missing"] = " ".join(
        f"Not known for {list_text(names)}: {list_text(figures)}." for names, figures in gaps.items()
    )
    return texts


def percent_figure_text(value: FigureValue) -> str:
    """A figure as a percentage, with "at least" if something is missing, or "not known" if nothing is known.

    >>> percent_figure_text(FigureValue(mass_g=3.0, percent=1.5, missing=("nut paste",)))
    'at least 1.5 %'
    """
    return _with_gaps(percent_text(value.percent), value.mass_g, value.missing)


def energy_text(kcal: float, kilojoules: float) -> str:
    """Energy in both units.

    >>> energy_text(61.2, 256)
    '256 kJ / 61 kcal'
    """
    return f"{number_text(kilojoules, 0)} kJ / {number_text(kcal, 0)} kcal"


def _with_gaps(shown: str, known: float, missing: tuple[str, ...]) -> str:
    if not missing:
        return shown
    return f"at least {shown}" if known > 0 else NOT_KNOWN
