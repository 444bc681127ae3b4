"""The reference of the ingredient table: every kind with what it holds and the measures that it has weights for."""

from collections.abc import Iterator

from crumbcoat_calc.foods.table import Food, Measure, foods

from crumbcoat_site.reference.markdown import page, table

INTRO = """
A `kind` in a recipe file is a name of this list. The figures are g in 100 g, by the sources on [How the figures are
made](../how-the-figures-are-made.md); "?" means that no source gives the value. A measure is written after a number:
`2 US tbsp`, `3 large`. If it says "sifted" or similar, write it after a comma: `1 US cup, sifted`.
"""

FIGURES = (("fat", "fat_g"), ("water", "water_g"), ("sugars", "sugars_g"))


def kinds_page() -> str:
    """The page as Markdown."""
    return page("Ingredients and their measures", "Every kind of ingredient, with its measures", INTRO, *_sections())


def _sections() -> Iterator[str]:
    groups: dict[str, list[Food]] = {}
    for food in foods().values():
        groups.setdefault(food.group, []).append(food)
    for group in sorted(groups):
        yield f"## {group[0].upper()}{group[1:]}"
        head = ("kind", "name", *[name for name, _ in FIGURES], "measures")
        yield table(head, [_row(food) for food in sorted(groups[group], key=lambda food: food.name)])


def _row(food: Food) -> tuple[str, ...]:
    values = [food.content(component) for _, component in FIGURES]
    figures = ["?" if value is None else f"{value:.1f}" for value in values]
    return (f"`{food.key}`", food.name, *figures, "; ".join(_measure(measure) for measure in food.measures) or "g only")


def _measure(measure: Measure) -> str:
    return f"{measure.text}: {measure.grams:g} g"
