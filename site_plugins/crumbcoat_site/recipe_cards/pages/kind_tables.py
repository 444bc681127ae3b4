"""The ingredient table for writers: every kind with its names, what it holds, and the measures with weights."""

from collections.abc import Iterator, Sequence

from crumbcoat_calc.foods.table import Food, foods, other_names

_LINES = " <br>"

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
        head = ("kind, name, *also called*", "in 100 g, and measures")
        rows = [_row(food) for food in sorted(groups[group], key=lambda food: food.name.casefold())]
        yield "\n".join(_line(cells) for cells in (head, ["---"] * len(head), *rows))


def _row(food: Food) -> tuple[str, str]:
    """Two columns with several lines each, which fit on a phone."""
    names = (f"`{food.key}`", food.name, *_also_called(food))
    figures = ", ".join(f"{name} {_content(food.content(component))}" for name, component in FIGURES)
    measures = "; ".join(f"{measure.text}: {measure.grams:g} g" for measure in food.measures) or "g only"
    return _LINES.join(names), _LINES.join((figures, measures))


def _content(value: float | None) -> str:
    return "?" if value is None else f"{value:.1f}"


def _also_called(food: Food) -> list[str]:
    """A line with the other names of a kind, if it has any."""
    others = other_names().get(food.key, ())
    names = [other.name + ("" if other.region == "both" else f" ({other.region})") for other in others]
    return [f"*{', '.join(names)}*"] if names else []


def _line(cells: Sequence[str]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"
