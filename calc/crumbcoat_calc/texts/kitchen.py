"""Texts for a class in the kitchen: a shopping list with its cost, the equipment, whether a batch fits its bowl."""

from collections.abc import Sequence
from decimal import Decimal

from crumbcoat_calc.kitchen.bowls import bowl_range, split_equally, tools
from crumbcoat_calc.lesson.equipment import Needed, class_equipment
from crumbcoat_calc.lesson.lesson import MIXER, Lesson
from crumbcoat_calc.lesson.made import Made
from crumbcoat_calc.purchasing.cost import cost_of, money_text
from crumbcoat_calc.purchasing.prices import Prices
from crumbcoat_calc.purchasing.shopping import Need, ShoppingLine, needs_of, packs, shopping_list
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.portions import batches_text, made_text
from crumbcoat_calc.values.display import list_text, mass_text, plain_number_text
from crumbcoat_calc.values.exact import exact_decimal
from crumbcoat_calc.values.region import REGIONS


def shopping_texts(
    made: Sequence[Made], lesson: Lesson, region: str = REGIONS[0], prices: Prices | None = None
) -> Texts:
    """`shopping`: a row of each thing to buy for what the groups make; `pack.<kind>`: each pack, empty if not known.

    `shopping.margin` says what is bought besides, `shopping.cost` what the ingredients cost; empty without prices.
    `equipment`: a row of each thing, and how many.
    """
    sold = {**packs(), **lesson.packs}
    needs = [
        Need(need.key, need.name, need.mass_g * len(one.groups) * (1 + lesson.margin), need.own)
        for one in made
        for need in needs_of([one.batch])
    ]
    texts: Texts = {"shopping": [_bought_row(line) for line in shopping_list(needs, sold, region)]}
    texts |= {f"pack.{need.key}": "" for need in needs if need.key}
    texts |= {f"pack.{kind}": pack.amount for kind, pack in sold.items()}
    percent = plain_number_text(100 * lesson.margin, 1)
    texts["shopping.margin"] = (
        f"“Needed” counts {percent} % more than is weighed, for what is spilt or stays in bowls."
        if lesson.margin
        else "“Needed” is what is weighed, without anything for what is spilt or stays in bowls."
    )
    texts["shopping.cost"] = _cost_text(made, lesson, prices)
    recipes = {one.recipe: one.batch.recipe for one in made}
    texts["equipment"] = [
        [needed.name, _count_text(needed)] for needed in class_equipment(list(recipes.values()), lesson)
    ]
    return texts


def _cost_text(made: Sequence[Made], lesson: Lesson, prices: Prices | None) -> str:
    """What the ingredients cost with the margin, for the class and for each student."""
    if prices is None:
        return ""
    costs = [cost_of(one.batch, prices) for one in made]
    dates = sorted(date for cost in costs for date in (cost.oldest, cost.newest) if date)
    if not dates:
        return ""
    total = sum((cost.batch * len(one.groups) for cost, one in zip(costs, made, strict=True)), Decimal(0))
    total *= exact_decimal(1 + lesson.margin)
    missing = list(dict.fromkeys(name for cost in costs for name in cost.missing))
    least = "at least " if missing else ""
    each = money_text(total / lesson.students, prices.currency)
    when = dates[0] if dates[0] == dates[-1] else f"{dates[0]} to {dates[-1]}"
    unknown = f" No price is known for {list_text(missing)}." if missing else ""
    return (
        f"The ingredients needed cost {least}{money_text(total, prices.currency)}, {least}{each} a student, at prices "
        f"of {when}; what is left in packs is not counted.{unknown}"
    )


def _count_text(needed: Needed) -> str:
    if needed.shared is not None:
        return f"{min(needed.shared, needed.groups)}, shared"
    if not needed.lasts:
        return f"for {needed.groups} group{'' if needed.groups == 1 else 's'}"
    return str(needed.groups)


def made_from_text(batches: Sequence[Batch], lesson: Lesson) -> str:
    """What a handout is made for: how much of what, and that a reader's changes are not in it."""
    what = "the recipe" if len(batches) == 1 else "each recipe"
    not_made = [batch.recipe.title for batch in batches if batch.recipe.made == 0]
    worked_out = f" {made_text(0)}: {list_text(not_made)}." if not_made else ""
    return (
        f"Made for {batches_text(lesson.batches)} of {what} as published in each group. "
        f"What is changed on {'its' if len(batches) == 1 else 'a'} card is not included.{worked_out}"
    )


def bowl_text(batch: Batch, bowl_ml: float) -> str:
    """Whether a group's batch fits into the bowl that it is whipped in."""
    density = batch.recipe.measured.density_g_per_ml
    if density is None:
        return "Whether it fits into the bowl is not known: the recipe states no density."
    tools_named = [step.tool.lower() for stage in batch.recipe.stages for step in stage.steps if step.tool]
    whisked = any("whisk" in name for name in tools_named)
    tool = tools()["hand_whisk" if not any(MIXER in name for name in tools_named) else "whisk" if whisked else "paddle"]
    fits = bowl_range(bowl_ml, tool.lowest_share, tool.highest_share, max(1.0, density), density)
    bowl = f"{plain_number_text(bowl_ml / 1000, 2)} L"
    if fits.smallest_g > fits.largest_g:
        return f"A bowl of {bowl} and the {tool.name} do not suit such a light frosting."
    parts = split_equally(batch.total.mass_g, fits)
    if not parts.reached:
        least = mass_text(fits.smallest_g)
        return f"In a bowl of {bowl}, the {tool.name} needs at least {least}: make more, or use a smaller bowl."
    if parts.batches == 1:
        return f"It fits into a bowl of {bowl} in one go."
    return f"In a bowl of {bowl}, it takes {parts.batches} batches of {mass_text(parts.each_g)}; the plan counts one."


def _bought_row(line: ShoppingLine) -> list[str]:
    needed = mass_text(line.needed) if line.unit == "g" else f"{line.needed:g} {line.unit}"
    return [line.name, needed, line.buy_text, line.left_text]
