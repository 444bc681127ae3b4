"""A recipe as plain text: for paper, a mail, or any program that has no idea of recipes."""

import textwrap
from collections.abc import Iterator

from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.values.display import celsius_text, date_text, duration_text, mass_text
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_calc.values.region import text_in

from crumbcoat_site.recipe_cards.card.card import Card
from crumbcoat_site.recipe_cards.card.equipment import equipment_of
from crumbcoat_site.recipe_cards.card.json_ld_lines import ingredient_lines, named_amount, use_amount

_WIDTH = 78


def plain_recipe(card: Card, region: str | None) -> str:
    """The recipe, with all that its author wrote, in lines of at most 78 characters."""
    recipe = card.recipe
    lines = [recipe.title, "=" * len(recipe.title), "", *_wrapped(plain_text(recipe.summary)), ""]
    lines += _wrapped(_credits(recipe, region))
    lines += ["", "Ingredients", *[line for text in ingredient_lines(card, region) for line in _wrapped(text, "- ")]]
    for number, stage in enumerate(recipe.stages, 1):
        lines += ["", f"{number}. {stage.title}"]
        for place, step in enumerate(stage.steps, 1):
            do, *facts = [text_in(region, text) for text in _step(step, card)]
            lines += [*_wrapped(do, f"  {place}) "), *[line for text in facts for line in _wrapped(text, "     ")]]
    tools = [name for names in equipment_of(recipe) for name in names]
    tips, notes = ([plain_text(text) for text in texts] for texts in (recipe.tips, recipe.notes))
    kept = [
        ", ".join([f"{one.where}: up to {duration_text(one.up_to_s)}", *([plain_text(one.note)] if one.note else [])])
        for one in recipe.storage
    ]
    decorations = [one.what for one in recipe.decorations]
    asked = [f"{plain_text(one.question)} {plain_text(one.answer)}" for one in recipe.asked]
    parts = {
        "Decorations": decorations,
        "Equipment": tools,
        "Tips": tips,
        "Keeping": kept,
        "Notes": notes,
        "Asked": asked,
    }
    for title, texts in parts.items():
        if texts:
            lines += ["", title, *[line for text in texts for line in _wrapped(text_in(region, text), "- ")]]
    return "\n".join([*lines, ""])


def _credits(recipe: Recipe, region: str | None) -> str:
    date = f", {text_in(region, date_text(recipe.published))}" if recipe.published else ""
    mass = mass_text(recipe.portion_g * recipe.yields.portions)
    return f"{recipe.author.name}{date}. Makes {recipe.yields.portions} {recipe.yields.of}, {mass}."


def _step(step: Step, card: Card) -> Iterator[str]:
    """The words of a step, and below them what its fields say."""
    yield plain_text(step.do)
    added = []
    for use in step.uses:
        ingredient, amount = card.ingredient(use), use_amount(card, use)
        named = ingredient.name if ingredient else use.what.replace("_", " ")
        added.append(named_amount(amount or "", named))
    time = duration_text(step.time.shortest_s, step.time.longest_s) if step.time else ""
    facts = [
        f"Add: {'; '.join(added)}" if added else "",
        f"Tool: {', '.join(part for part in (step.tool, step.speed) if part)}" if step.tool or step.speed else "",
        f"Time: {time}" if time else "",
        f"Heat to: {celsius_text(step.heat_to_c)}" if step.heat_to_c is not None else "",
        f"Cool to: {celsius_text(step.cool_to_c)}" if step.cool_to_c is not None else "",
        f"Look for: {plain_text(step.look_for)}" if step.look_for else "",
        f"Why: {plain_text(step.why)}" if step.why else "",
    ]
    yield from [fact for fact in facts if fact]
    if step.checkpoint:
        yield f"All is well if: {' '.join(plain_text(sign) for sign in step.checkpoint.passes)}"
        for trouble in step.checkpoint.troubles:
            yield f"If not: {plain_text(trouble.sign)} {plain_text(trouble.remedy)}"


def _wrapped(text: str, first: str = "") -> list[str]:
    return textwrap.wrap(text, _WIDTH, initial_indent=first, subsequent_indent=" " * len(first), break_on_hyphens=False)
