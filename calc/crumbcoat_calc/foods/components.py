"""The components that a composition lists, and the reader of a composition in a recipe file."""

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import each_named, nearest_of, text
from crumbcoat_calc.values.units import number_and_words

COMPONENTS = (
    "water_g", "protein_g", "fat_g", "carbohydrate_g", "ash_g", "alcohol_g",
    "fibre_g", "starch_g", "sugars_g", "added_sugars_g",
    "sucrose_g", "glucose_g", "fructose_g", "lactose_g", "maltose_g",
    "milk_fat_g", "milk_solids_not_fat_g", "milk_protein_g",
    "saturated_fat_g", "trans_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g",
    "sodium_mg", "cholesterol_mg", "calcium_mg", "potassium_mg", "iron_mg", "vitamin_d_ug",
)  # fmt: skip
"""The components of a composition; the ending is the unit. Carbohydrate is by difference and includes fibre."""

PROXIMATES = COMPONENTS[:6]
"""The components that together make up the total mass."""

INDEX = {component: position for position, component in enumerate(COMPONENTS)}

FIELD_NAMES = {component.rpartition("_")[0]: component for component in COMPONENTS}
"""Each component by its name in a recipe file, which has no unit."""

FIELD_OF = {component: name for name, component in FIELD_NAMES.items()}

GRAMS_IN = {"g": 1.0, "mg": 1e-3, "ug": 1e-6}
"""Grams in the unit that a component's name ends with."""

_WRITTEN = {"g": ("%", "g"), "mg": ("mg",), "ug": ("µg", "μg", "ug")}
_EXAMPLES = {"g": "`84 %`", "mg": "`11 mg`", "ug": "`1.3 µg`"}


def composition_from(data: object) -> dict[str, float]:
    """Read the composition in a recipe file: the content of each component per 100 g, in the unit of its name.

    Args:
        data: fields of FIELD_NAMES; a share of the mass in % or g, 0 to 100; a mineral in mg, a vitamin in µg.

    Raises:
        InputError: at a field that is unknown, not a number, without its unit or above 100 g.

    >>> composition_from({"fat": "84 %", "sodium": "11 mg"})
    {'fat_g': 84.0, 'sodium_mg': 11.0}
    """
    pairs = each_named(_content, at_least=1)(data)
    return dict(pairs)


def unit_of(component: str) -> str:
    """The unit of a component per 100 g: `g`, `mg` or `ug`."""
    return component.rpartition("_")[2]


def _content(name: str, value: object) -> tuple[str, float]:
    if name not in FIELD_NAMES:
        raise InputError(f"unknown component {name!r}", nearest_of(name, FIELD_NAMES))
    component = FIELD_NAMES[name]
    unit = unit_of(component)
    count, words = number_and_words(value)
    if words not in _WRITTEN[unit]:
        problem = f"{text(value)[:40]!r} has no unit" if not words else f"{words[:40]!r} is not the unit of {name}"
        raise InputError(problem, f"write the content per 100 g, such as {_EXAMPLES[unit]}")
    content = float(count)
    if content * GRAMS_IN[unit] > 100:
        problem = f"{text(value)[:40]!r} is more than 100 g can contain"
        raise InputError(problem, f"write the content per 100 g, such as {_EXAMPLES[unit]}")
    return component, content
