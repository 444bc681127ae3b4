"""Built-in kinds, and foods of the three public tables, as lines for people, with what a recipe writes for each."""

from collections.abc import Mapping

from crumbcoat_calc.foods.table import Food, kind_names, other_names, remedy_of

from crumbcoat_site.food_tables.conventions import Range, contents_of
from crumbcoat_site.food_tables.find import find_foods, find_kinds
from crumbcoat_site.food_tables.rows import TableFood

MOST = 40
_MOST_NAMES = 4
_SHOWN = (("fat", "fat_g"), ("water", "water_g"), ("sugars", "sugars_g"))


def listing(words: str) -> str:
    """The kinds with these words in their names, then the foods of the tables, one a line, with three figures of each.

    All kinds, and no tables, without words. Empty if there is none.
    """
    kinds = [_line_of_kind(kind) for kind in find_kinds(words)]
    found = [_line_of(food) for food in find_foods(words)]
    parts = [
        _part("Built-in kinds (per 100 g):", kinds, MOST if words.strip() else len(kinds)),
        _part("Foods of the public tables (per 100 g):", found, MOST),
    ]
    return "\n\n".join(filter(None, parts))


def nearest(words: str) -> str:
    """What to do where no name has these words, as a sentence: the kinds that come near, if any does."""
    near = kind_names().near(words)
    remedy = remedy_of(near) if near.keys else "try one word of it, in English or in French"
    return remedy if remedy.endswith("?") else f"{remedy}."


def _part(title: str, lines: list[str], most: int) -> str:
    more = [f"{len(lines) - most} more: add a word."] if len(lines) > most else []
    return "\n".join([title, *lines[:most], *more]) if lines else ""


def _line_of_kind(kind: Food) -> str:
    """A kind as a line: its key, its name, other names, and three of its figures."""
    contents = {component: (value, value) for _, component in _SHOWN if (value := kind.content(component)) is not None}
    others = [other.name for other in other_names().get(kind.key, ()) if other.name != kind.name]
    also = f"; also {', '.join(others[:_MOST_NAMES])}" if others else ""
    return f"kind: {kind.key:<16} {kind.name}{also}  [{_figures({**contents, **kind.ranges})}]"


def _line_of(food: TableFood) -> str:
    """A food as a line: what a recipe writes, its name, and three of its figures."""
    is_usable = food.cells.get("basis", "100 g") == "100 g"
    shown = _figures(contents_of(food)) if is_usable else f"for {food.cells['basis']}, not for use as a kind"
    return f"kind: {food.written:<16} {food.name}  [{shown}]"


def _figures(contents: Mapping[str, Range]) -> str:
    shown = []
    for name, component in _SHOWN:
        ends = [f"{end:.1f}" for end in dict.fromkeys(contents.get(component, ()))]
        shown.append(f"{name} {' to '.join(ends) or '?'}")
    return ", ".join(shown)
