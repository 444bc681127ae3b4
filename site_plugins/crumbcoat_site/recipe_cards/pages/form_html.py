"""The form of a calculator, computed; only a build that has something new to compute imports this."""

from collections.abc import Mapping, Sequence

from crumbcoat_calc.calculators import compare, handout, run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.forms.context import MOST_LINES
from crumbcoat_calc.purchasing.shopping import packs
from crumbcoat_calc.values.spacing import unbroken_html
from markupsafe import Markup

from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.page_context import page_context, region_field
from crumbcoat_site.recipe_cards.handout.handout import kinds_bought
from crumbcoat_site.recipe_cards.pages.recipe_options import RecipeOption

_SLOTS = {"compare": compare.SLOTS, "handout": handout.SLOTS}


def form_html(
    calculator: str,
    names: Sequence[str],
    recipes: Mapping[str, Mapping[str, object]],
    options: Sequence[RecipeOption],
    region: str | None = None,
) -> str:
    """The form of a calculator, filled in.

    Args:
        calculator: the calculator's name.
        names: the recipes to start from.
        recipes: the fields of each.
        options: the recipes that the reader can choose from.
        region: that of the site, if it has one.

    Raises:
        InputError: if there are more recipes than the calculator takes, or it cannot use one of them.
    """
    slots = _SLOTS.get(calculator, ("recipe",))
    if len(names) > len(slots):
        raise InputError(f"there are {len(names)} recipes to {calculator}", f"name at most {len(slots)}")
    chosen = dict(zip(slots, names, strict=False))
    context = page_context({slot: recipes[name] for slot, name in chosen.items()} | region_field(region))
    _, texts = run(calculator, context.context)
    kinds: dict[str, list[tuple[str, str]]] = {}
    for key, food in sorted(foods().items(), key=lambda item: item[1].name):
        kinds.setdefault(food.group, []).append((key, food.name))
    form = component(
        calculator,
        context=context,
        texts=texts,
        options=options,
        chosen=chosen,
        slots=slots,
        lines=range(MOST_LINES),
        kinds=sorted(kinds.items()),
        bought=kinds_bought(packs()) if calculator == "handout" else (),
        address="",
    )
    return Markup(unbroken_html(form))
