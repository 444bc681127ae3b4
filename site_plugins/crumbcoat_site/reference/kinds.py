"""The reference of the ingredient table: every kind with its names, what it holds, and the measures with weights."""

from collections.abc import Iterator

from crumbcoat_calc.foods.table import Food, Measure, foods, other_names

from crumbcoat_site.reference.markdown import page, table

INTRO = """
A `kind` in a recipe file is a key of this list, or one of the names beside it: `cornstarch`, `Cornflour` and `corn
starch` are the same. Capitals, punctuation and plurals do not matter. A name of several kinds, such as "whipping
cream", is refused, and the build lists what it can mean. UK or US marks a name that is used only there.

The figures are g in 100 g, by the sources on [How the figures are made](../how-the-figures-are-made.md); "?" means that
no source gives the value. A measure is written after a number: `2 US tbsp`, `3 large`. If it says "sifted" or similar,
write it after a comma: `1 US cup, sifted`.
"""

FIGURES = (("fat", "fat_g"), ("water", "water_g"), ("sugars", "sugars_g"))


def kinds_page() -> str:
    """The page as Markdown."""
    return page(
        "Ingredients and their measures", "Every kind of ingredient, with its names and measures", INTRO, *_sections()
    )


def _sections() -> Iterator[str]:
    groups: dict[str, list[Food]] = {}
    for food in foods().values():
        groups.setdefault(food.group, []).append(food)
    yield f"{len(foods())} kinds: " + ", ".join(
        f"[{group}](#{group.replace(' ', '-')}) ({len(groups[group])})" for group in sorted(groups)
    )
    for group in sorted(groups):
        yield f"## {group[0].upper()}{group[1:]}"
        head = ("kind", "name", "also called", *[name for name, _ in FIGURES], "measures")
        yield table(head, [_row(food) for food in sorted(groups[group], key=lambda food: food.name)])


def _row(food: Food) -> tuple[str, ...]:
    values = [food.content(component) for _, component in FIGURES]
    figures = ["?" if value is None else f"{value:.1f}" for value in values]
    measures = "; ".join(_measure(measure) for measure in food.measures) or "g only"
    return (f"`{food.key}`", food.name, _also_called(food), *figures, measures)


def _also_called(food: Food) -> str:
    others = other_names().get(food.key, ())
    return ", ".join(other.name + ("" if other.region == "both" else f" ({other.region})") for other in others)


def _measure(measure: Measure) -> str:
    return f"{measure.text}: {measure.grams:g} g"
