"""The trials beside a recipe file -> the page of its notebook; imported only where something must be computed."""

from collections.abc import Mapping
from typing import Any

from crumbcoat_calc.purchasing.prices import Prices, read_prices
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.trials.page import page_of
from crumbcoat_calc.values.spacing import page_html

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.front_matter import front_matter
from crumbcoat_site.recipe_cards.build.page_parts import PageParts
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.handout.shell import HandoutShell
from crumbcoat_site.recipe_cards.handout.trial_sheets import sheets_html
from crumbcoat_site.recipe_cards.pages.kept_files import NOTEBOOK_ISLANDS, NOTEBOOK_MARKDOWN, TRIAL_SHEETS
from crumbcoat_site.recipe_cards.pages.trial_cards import trial_cards
from crumbcoat_site.recipe_cards.pictures.formats import BROWSER_ENDINGS, ending_of
from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.notebook_beside import lost_beside
from crumbcoat_site.recipe_cards.source.read_recipe import document_in, load_recipe, recipe_in
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.recipe_mark import recipe_mark
from crumbcoat_site.recipe_cards.source.trial_files import read_trials
from crumbcoat_site.recipe_cards.source.trial_folders import FOLDER_ENDING, trial_folder


def render_notebook(
    file: RecipeFile,
    beside: Mapping[str, RecipeFile],
    prices: str | None,
    options: CardOptions,
    paper: HandoutShell,
    cache: PageCache,
) -> tuple[dict[str, Any], dict[str, str]]:
    """The title of the page, its problems and pictures; and the content of each of its files by the ending.

    Args:
        beside: the files of the other recipes that it shows beside the trials, by name.
        prices: the text of the file of prices; None where the site shows no cost.
        options: what the site decides about all of its cards.
        paper: what surrounds its sheets to print.
        cache: where the cards of its trials are kept, if the site has them.
    """
    document = document_in(text_of(file.path, file.shown), file.shown, file.region)
    recipe, fields = recipe_in(document, file.shown, file.kinds)
    found = read_trials(file.path, fields, file.all_kinds, file.region)
    trials = found.notebook.made
    there = {path.name for path in trial_folder(file.path).iterdir() if ending_of(path.name) in BROWSER_ENDINGS}
    notebook = None
    if trials:
        axes = recipe.notebook.axes
        shown = frozenset(there)
        others = [batch_of(load_recipe(one.path, one.shown, one.kinds, one.region)[0]) for one in beside.values()]
        notebook = page_of(batch_of(recipe), trials, recipe_mark(fields), _prices(prices), axes, shown, others)
    title = f"Notebook: {recipe.title}"
    page = PageParts()
    folder = relative_address(f"{file.name}{FOLDER_ENDING}/", f"{file.name}/trials/")
    component(
        "notebook", page=page, title=title, recipe=recipe, notebook=notebook, folder=folder, has_cards=options.trials
    )
    meta = {
        "title": title,
        "description": f"The trials of {recipe.title}",
        "template": "notebook.html",
        "robots": "noindex",
    }
    named = [picture.file for made in trials for picture in made.trial.pictures]
    problems = [*lost_beside(recipe, document, file.shown, beside), *found.problems]
    facts: dict[str, Any] = {
        "title": title,
        "problems": [[problem.file, problem.line, problem.problem, problem.remedy] for problem in problems],
        "pictures": sorted(there & {*named}),
        "cards": trial_cards(file, trials, prices, options, cache) if options.trials else [],
    }
    return facts, {
        NOTEBOOK_MARKDOWN: front_matter(meta) + page_html(file.region, page.markdown),
        NOTEBOOK_ISLANDS: page_html(file.region, page.islands),
        TRIAL_SHEETS: sheets_html(fields, recipe, trials, file, paper),
    }


def _prices(text: str | None) -> Prices | None:
    return read_prices(text)[0] if text else None
