"""A calculator's form, computed; only a build with something new in it comes here."""

import json
from collections.abc import Mapping, Sequence

from crumbcoat_calc.calculators import compare, handout, run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.forms.given import MOST
from crumbcoat_calc.purchasing.shopping import packs

from crumbcoat_site.recipe_cards.build.environment import environment
from crumbcoat_site.recipe_cards.handout.handout import kinds_bought
from crumbcoat_site.recipe_cards.pages.start import Start

_SLOTS = {"compare": compare.SLOTS, "handout": handout.SLOTS}


def form_html(
    tool: str,
    names: Sequence[str],
    recipes: Mapping[str, Mapping[str, object]],
    starts: Sequence[Start],
) -> str:
    """The form of a calculator as the build prints it.

    Args:
        tool: the calculator's name.
        names: the recipes to start from.
        recipes: the fields of each.
        starts: the recipes to choose from.

    Raises:
        InputError: if there are more recipes than the calculator takes, or one cannot be calculated with.
    """
    slots = _SLOTS.get(tool, ("recipe",))
    if len(names) > len(slots):
        raise InputError(f"there are {len(names)} recipes to {tool}", f"name at most {len(slots)}")
    chosen = dict(zip(slots, names, strict=False))
    given = json.dumps(
        {slot: recipes[name] for slot, name in chosen.items()}, ensure_ascii=False, separators=(",", ":")
    )
    _, texts = run(tool, given, {}, {})
    kinds: dict[str, list[tuple[str, str]]] = {}
    for key, food in sorted(foods().items(), key=lambda item: item[1].name):
        kinds.setdefault(food.group, []).append((key, food.name))
    return (
        environment()
        .get_template(f"forms/{tool}.jinja")
        .render(
            given=given, texts=texts, starts=starts, chosen=chosen, slots=slots, lines=range(MOST),
            kinds=sorted(kinds.items()), bought=kinds_bought(packs()) if tool == "handout" else (),
        )
    )  # fmt: skip
