"""`python -m crumbcoat_site.food_tables mascarpone` lists the foods of that name, as a recipe names them."""

import sys

from crumbcoat_site.food_tables.conventions import contents_of
from crumbcoat_site.food_tables.find import find_foods
from crumbcoat_site.food_tables.rows import TableFood

MOST = 40


def line_of(food: TableFood) -> str:
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


if __name__ == "__main__":
    found = find_foods(" ".join(sys.argv[1:]))
    for food in found[:MOST]:
        print(line_of(food))
    if len(found) > MOST:
        print(f"{len(found) - MOST} more: add a word")
    if not found:
        sys.exit("No food of that name. Fix: try one word of it, in English or, for Ciqual, in French.")
