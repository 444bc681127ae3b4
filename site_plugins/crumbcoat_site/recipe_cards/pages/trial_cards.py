"""The card of each trial of a recipe, as it was planned: a batch that changes it is kept as a trial from there."""

import json
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from crumbcoat_calc.forms.context import published_from
from crumbcoat_calc.forms.trial_start import TrialStart
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_calc.values.spacing import page_html

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.front_matter import front_matter
from crumbcoat_site.recipe_cards.build.page_parts import PageParts
from crumbcoat_site.recipe_cards.card.card import card_from
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.pages.kept_files import ISLANDS, MARKDOWN
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.trial_folders import next_number

_OF_THE_RECIPE = ("summary", "keywords", "storage", "notes", "asked")
"""Fields that are about the recipe as it is, and may not be true of a trial."""


def trial_cards(
    file: RecipeFile, trials: Sequence[MadeTrial], prices: str | None, options: CardOptions, cache: PageCache
) -> list[tuple[int, str]]:
    """The numbers of the trials, and the keys of their cards in the cache; only those that changed are made again."""
    number = str(next_number(file.path, [made.trial.number for made in trials]))
    found = []
    for made in trials:
        fields = _fields(made)
        around = json.dumps([options, file.region, number])
        key = cache.key(json.dumps(fields).encode(), "trial", file.name, str(made.trial.number), prices or "", around)
        if cache.get(key) is None:
            cache.put(key, {}, _files(made.trial.number, fields, file, prices, options, number))
        found.append((made.trial.number, key))
    return found


def _fields(made: MadeTrial) -> dict[str, Any]:
    """The fields of a recipe that is the trial as it was planned."""
    title = made.recipe.title
    fields = {name: value for name, value in made.planned.items() if name not in _OF_THE_RECIPE}
    summary = made.trial.aim or f"A trial of {title}."
    return fields | {"title": f"{title}, trial {made.trial.number}", "summary": summary}


def _files(
    trial: int, fields: dict[str, Any], file: RecipeFile, prices: str | None, options: CardOptions, number: str
) -> dict[str, str]:
    published = published_from(fields, recipe_from(fields), options.region)
    start = TrialStart(came_from=str(trial), number=number)
    place = replace(file, name=f"{file.name}/trials/{trial}", photos={}, has_trials=False)
    card = card_from(published, place, prices, options, handout=False, start=start)
    page = PageParts()
    component("card", page=page, card=card, recipe=card.recipe, texts=card.texts)
    meta = {
        "title": card.recipe.title,
        "description": plain_text(card.recipe.summary),
        "template": "recipe.html",
        "robots": "noindex",
        "search": {"exclude": True},
    }
    return {
        MARKDOWN: front_matter(meta) + page_html(options.region, page.markdown),
        ISLANDS: page_html(options.region, page.islands),
    }
