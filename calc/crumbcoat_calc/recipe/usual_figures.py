"""What is usual for a family of frostings, for whoever writes a recipe: a figure far off may be a slip of the pen."""

from collections.abc import Mapping
from functools import cache

from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_calc.tables import load_rows, number_in


@cache
def usual_fat() -> Mapping[str, tuple[float, float]]:
    """The least and the most fat that is usual for a family, in g per 100 g.

    Source:
        common-practice: the formulas in use in the trade. Nothing is calculated with it.

    >>> usual_fat()["whipped cream"]
    (18.0, 42.0)
    """
    return dict(load_rows("family_figures", _row_from, ("family",)))


@cache
def recipe_checks() -> Mapping[str, float]:
    """Marks by which a recipe is worth a second look, such as the fat from which cream whips, in g per 100 g or °C.

    Source:
        that of each mark, see recipe_checks.csv. Nothing is calculated with them.

    >>> recipe_checks()["whipping_fat_percent"]
    30.0
    """
    return dict(
        load_rows("recipe_checks", lambda cells: (cells["check"], number_in(cells, "value", 0, 100)), ("check",))
    )


def _row_from(cells: dict[str, str]) -> tuple[str, tuple[float, float]]:
    if cells["family"] not in FAMILIES:
        raise ValueError(f"there is no family {cells['family']!r}")
    low, high = (number_in(cells, column, 0, 100) for column in ("fat_low", "fat_high"))
    if low >= high:
        raise ValueError("fat_low is not below fat_high")
    return cells["family"], (low, high)
