"""The ingredient table for writers: every kind with its names, what it holds, and the measures with weights."""

from collections.abc import Iterator, Sequence

from crumbcoat_calc.foods.table import Food, Measure, foods, other_names

FIGURES = (("fat", "fat_g"), ("water", "water_g"), ("sugars", "sugars_g"))


def sections() -> Iterator[str]:
    """Markdown: how many kinds there are by group, then a heading and a table for each group."""
    groups: dict[str, list[Food]] = {}
    for food in foods().values():
        groups.setdefault(food.group, []).append(food)
    yield f"{len(foods())} kinds: " + ", ".join(
        f"[{group}](#{group.replace(' ', '-')}) ({len(groups[group])})" for group in sorted(groups)
    )
    for group in sorted(groups):
        yield f"## {group[0].upper()}{group[1:]}"
        head = ("kind", "name", "also called", *[name for name, _ in FIGURES], "measures")
        rows = [_row(food) for food in sorted(groups[group], key=lambda food: food.name)]
        yield "\n".join(_line(cells) for cells in (head, ["---"] * len(head), *rows))


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


def _line(cells: Sequence[str]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"
