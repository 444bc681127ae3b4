"""The sheets of a notebook to print: one to weigh each trial, one for each kind of test, and those of a tasting."""

import random
from collections.abc import Mapping, Sequence

from crumbcoat_calc.calculators import solve
from crumbcoat_calc.forms.context import Context, PublishedRecipe, published_from
from crumbcoat_calc.label.caution_facts import caution_facts_of
from crumbcoat_calc.label.caution_table import Caution
from crumbcoat_calc.label.cautions import cautions_for
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.trials.model import OUTCOMES, VERDICTS
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.protocols import PROTOCOLS, Protocol
from crumbcoat_calc.trials.triangle import triangle_sheet
from crumbcoat_calc.trials.weigh_sheets import cup_source, weigh_sheet, weigh_sheet_of
from crumbcoat_calc.values.spacing import page_html

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.handout.shell import HandoutShell
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile

_FOR_TASTERS = (
    "allergens", "allergens_by_accident", "allergens_unknown", "of_slaughter", "raw_egg", "lightly_heated_egg",
    "raw_flour", "choking", "honey", "alcohol", "hard_or_sharp",
)  # fmt: skip
"""The cautions that someone has to know before tasting."""

_FREE_CODES = 12


def sheets_html(
    fields: Mapping[str, object],
    recipe: Recipe,
    trials: Sequence[MadeTrial],
    file: RecipeFile,
    paper: HandoutShell,
) -> str:
    """The page of all sheets of a recipe, each on paper of its own.

    Args:
        fields: the recipe as plain data.
        trials: those that can be used; the newest is printed first.
        paper: what surrounds the page.
    """
    codes = free_codes(recipe.title, [made.trial.code for made in trials])
    batches = [(fields, recipe), *((made.fields, made.recipe) for made in trials)]
    known = [(made.trial.code, made.trial.number) for made in trials if made.trial.code]
    page = component(
        "sheets/page",
        title=recipe.title,
        weigh=[weigh_sheet(recipe), *map(weigh_sheet_of, reversed(trials))],
        protocols=_protocols(codes),
        cautions=_for_tasters(batches, file.region),
        codes=codes[4:],
        known=known,
        outcomes=OUTCOMES,
        verdicts=VERDICTS,
        cup_source=cup_source(),
        language=paper.language,
        styles=[relative_address(path, f"{file.name}/trials/sheets/") for path in paper.styles],
    )
    return page_html(file.region, page)


def free_codes(title: str, taken: Sequence[str | None]) -> list[str]:
    """Codes of three digits that no trial has: always the same for a recipe, so that a sheet can be printed again."""
    free = [code for code in map(str, range(100, 1000)) if code not in taken]
    return random.Random(title).sample(free, _FREE_CODES)


def _protocols(codes: Sequence[str]) -> list[Protocol]:
    """All sheets of tests; that of the triangle test comes before the table of the class."""
    *tests, of_a_class = PROTOCOLS
    return [*tests, triangle_sheet(codes[:4]), of_a_class]


def _for_tasters(batches: Sequence[tuple[Mapping[str, object], Recipe]], region: str | None) -> list[Caution]:
    """What tasters of the recipe and of its trials have to know, each once."""
    found: dict[tuple[str, str], Caution] = {}
    alcohol: dict[str, float] = {}
    for fields, recipe in batches:
        published: PublishedRecipe = published_from(fields, recipe, region)
        context = Context(recipes={"recipe": published}, region=region)
        answer = solve("label", context).answer
        facts = caution_facts_of(answer.batch, lists=answer.label.lists, heat=highest_temperatures(recipe))
        for caution in cautions_for(facts, answer.readers):
            if caution.key in _FOR_TASTERS:
                found[caution.key, caution.words] = caution
            if caution.key == "alcohol":
                alcohol[caution.words] = facts.alcohol_percent or 0.0
    strongest = max(alcohol, key=lambda words: alcohol[words], default=None)
    return [caution for caution in found.values() if caution.key != "alcohol" or caution.words == strongest]
