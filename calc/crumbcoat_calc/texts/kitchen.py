"""Texts for a class in the kitchen: mise en place and equipment of a group, and one shopping list."""

from collections.abc import Sequence

from crumbcoat_calc.forms.changes import eggs_of
from crumbcoat_calc.kitchen.bowls import bowl_range, split_equally, tools
from crumbcoat_calc.lesson.lesson import MIXER, Lesson
from crumbcoat_calc.lesson.made import Made, groups_text
from crumbcoat_calc.lesson.mise_en_place import LaidOut, equipment, mise_en_place
from crumbcoat_calc.purchasing.shopping import Need, ShoppingLine, needs_of, packs, shopping_list
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.texts import Section, Texts
from crumbcoat_calc.texts.eggs import eggs_to_break_text
from crumbcoat_calc.texts.portions import batches_text, made_text, portions_text
from crumbcoat_calc.texts.steps import how_text
from crumbcoat_calc.values.display import celsius_text, list_text, mass_text, plain_number_text
from crumbcoat_calc.values.region import REGIONS

_CONTROL = "Your group makes the control of the experiment: the recipe exactly as published."


def group_texts(made: Made, lesson: Lesson) -> Section:
    """`for`, `makes`, `change` and `bowl`; `laid_out`, `equipment`, `method` and `checks`: rows for one group."""
    batch = made.batch
    whom = "each group" if len(made.groups) == lesson.groups else groups_text(made.groups)
    return {
        "for": f"For {whom}",
        "title": batch.recipe.title,
        "makes": _makes_text(made, lesson),
        "change": made.change or (_CONTROL if made.is_control else ""),
        "bowl": "" if lesson.bowl_ml is None else _bowl_text(batch, lesson.bowl_ml),
        "laid_out": [_laid_row(laid_out, eggs_of(batch.recipe)) for laid_out in mise_en_place(batch)],
        "equipment": _equipment_rows(made, lesson),
        "method": [_method_row(number, step) for number, step in _numbered(batch.recipe)],
        "checks": [row for number, step in _numbered(batch.recipe) if (row := _check_row(number, step))],
    }


def shopping_texts(made: Sequence[Made], lesson: Lesson, region: str = REGIONS[0]) -> Texts:
    """`shopping`: a row of each thing to buy for what the groups make; `pack.<kind>`: each pack, empty if not known."""
    sold = {**packs(), **lesson.packs}
    needs = [
        Need(need.key, need.name, need.mass_g * len(one.groups), need.own)
        for one in made
        for need in needs_of([one.batch])
    ]
    texts: Texts = {"shopping": [_bought_row(line) for line in shopping_list(needs, sold, region)]}
    texts |= {f"pack.{need.key}": "" for need in needs if need.key}
    return texts | {f"pack.{kind}": pack.amount for kind, pack in sold.items()}


def _makes_text(made: Made, lesson: Lesson) -> str:
    batch, count = made.batch, len(made.groups)
    as_published = "" if made.change else " as published"
    who, all_of_them = "Each group makes", "All groups together"
    if count < lesson.groups:
        who = f"{groups_text(made.groups).capitalize()} {'makes' if count == 1 else 'make'}"
        all_of_them = "Together they"
    together = f" {all_of_them} make {mass_text(count * batch.total.mass_g)}." if count > 1 else ""
    return (
        f"{who} {batches_text(lesson.batches)}{as_published}: {mass_text(batch.total.mass_g)}, "
        f"for {portions_text(batch)}{' each' if 1 < count < lesson.groups else ''}.{together}"
    )


def made_from_text(batches: Sequence[Batch], lesson: Lesson) -> str:
    """What a handout is made for: how much of what, and that a reader's changes are not in it."""
    what = "the recipe" if len(batches) == 1 else "each recipe"
    not_made = [batch.recipe.title for batch in batches if batch.recipe.made == 0]
    worked_out = f" {made_text(0)}: {list_text(not_made)}." if not_made else ""
    return (
        f"Made for {batches_text(lesson.batches)} of {what} as published in each group. "
        f"What is changed on {'its' if len(batches) == 1 else 'a'} card is not included.{worked_out}"
    )


def _bowl_text(batch: Batch, bowl_ml: float) -> str:
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


def _laid_row(laid_out: LaidOut, egg_size: str) -> list[str]:
    at = "" if laid_out.temperature_c is None else f"at {celsius_text(laid_out.temperature_c)}"
    eggs = eggs_to_break_text(laid_out.food, laid_out.mass_g, egg_size)
    notes = ["optional" if laid_out.optional else "", laid_out.preparation or "", at, eggs]
    if laid_out.portions_g:
        parts = [f"{mass_text(mass_g)} {key.replace('_', ' ')}" for key, mass_g in laid_out.portions_g]
        notes.append(f"weigh separately: {list_text(parts)}")
    notes += [f"{mass_text(mass_g)} more, kept back for step {place}" for place, mass_g in laid_out.kept_back_g]
    return [laid_out.name, mass_text(laid_out.mass_g), "; ".join(note for note in notes if note)]


def _equipment_rows(made: Made, lesson: Lesson) -> list[list[str]]:
    shared, groups = lesson.tools.get(MIXER), len(made.groups)
    mixers = str(groups) if shared is None else f"{min(shared, groups)}, shared"
    return [
        [item.tool, mixers if MIXER in item.tool.lower() else str(groups), list_text(item.steps)]
        for item in equipment(made.batch.recipe)
    ]


def _numbered(recipe: Recipe) -> list[tuple[str, Step]]:
    return [
        (f"{stage_number}.{number}", step)
        for stage_number, stage in enumerate(recipe.stages, 1)
        for number, step in enumerate(stage.steps, 1)
    ]


def _method_row(number: str, step: Step) -> list[str]:
    how = how_text(step)
    return [number, step.do, f"optional{'; ' if how else ''}{how}" if step.optional else how]


def _check_row(number: str, step: Step) -> list[str]:
    """What to look for at a step, with room for notes and a reading; empty if there is nothing to look for."""
    signs = [step.look_for] if step.look_for else []
    if step.checkpoint:
        signs += step.checkpoint.passes
    readings = [f"{celsius_text(t_c)}" for t_c in (step.heat_to_c, step.cool_to_c) if t_c is not None]
    if not signs and not readings:
        return []
    return [number, " ".join(signs), list_text(readings), "", ""]


def _bought_row(line: ShoppingLine) -> list[str]:
    needed = mass_text(line.needed) if line.unit == "g" else f"{line.needed:g} {line.unit}"
    return [line.name, needed, line.buy_text, line.left_text]
