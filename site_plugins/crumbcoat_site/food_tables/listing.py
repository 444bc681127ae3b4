"""Foods of the three tables as lines for people, with what a recipe writes for each."""

from crumbcoat_site.food_tables.conventions import contents_of
from crumbcoat_site.food_tables.find import find_foods
from crumbcoat_site.food_tables.rows import TableFood

MOST = 40


def listing(words: str) -> str:
    """The foods with these words in their names, one a line, with three figures of each; empty if there is none."""
    found = find_foods(words)
    more = [f"{len(found) - MOST} more: add a word."] if len(found) > MOST else []
    return "\n".join([*[_line_of(food) for food in found[:MOST]], *more])


def _line_of(food: TableFood) -> str:
    """A food as a line: what a recipe writes, its name, and three of its figures."""
    shown = []
    if food.cells.get("basis", "100 g") == "100 g":
        contents = contents_of(food)
        for name, component in (("fat", "fat_g"), ("water", "water_g"), ("sugars", "sugars_g")):
            ends = [f"{end:.1f}" for end in dict.fromkeys(contents.get(component, ()))]
            shown.append(f"{name} {' to '.join(ends) or '?'}")
    else:
        shown.append(f"for {food.cells['basis']}, not for use as a kind")
    return f"kind: {food.written:<16} {food.name}  [{', '.join(shown)}]"
