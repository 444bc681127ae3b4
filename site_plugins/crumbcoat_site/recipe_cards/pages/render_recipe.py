"""A recipe file -> its page, card.json and handout; only a build that has something new to compute imports this."""

import json
from collections.abc import Iterable
from dataclasses import replace

from crumbcoat_calc.forms.context import published_from
from crumbcoat_calc.forms.our_readings import our_readings_from
from crumbcoat_calc.forms.trial_start import TrialStart
from crumbcoat_calc.trials.calibration import for_the_card
from crumbcoat_calc.trials.record import record_of
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_calc.values.spacing import page_html

from crumbcoat_site.recipe_cards.build.addresses import Place
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.front_matter import front_matter
from crumbcoat_site.recipe_cards.build.page_parts import PageParts
from crumbcoat_site.recipe_cards.card.card import Card, card_from
from crumbcoat_site.recipe_cards.card.card_json import card_json
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.card.json_ld import json_ld
from crumbcoat_site.recipe_cards.card.listed import listed
from crumbcoat_site.recipe_cards.embed.page import embed_html, lines_to_copy
from crumbcoat_site.recipe_cards.handout.handout import handout_html
from crumbcoat_site.recipe_cards.handout.shell import HandoutShell
from crumbcoat_site.recipe_cards.pages.kept_files import CARD_JSON, EMBED, HANDOUT, ISLANDS, MARKDOWN
from crumbcoat_site.recipe_cards.pictures.ready import shape_places
from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.photos import lost_photos, slots_of
from crumbcoat_site.recipe_cards.source.read_recipe import document_in, recipe_in
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile, pictures_beside
from crumbcoat_site.recipe_cards.source.recipe_mark import recipe_mark
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.trial_files import read_trials
from crumbcoat_site.recipe_cards.source.trial_folders import next_number
from crumbcoat_site.recipe_cards.source.yaml_text import Document
from crumbcoat_site.recipe_cards.wording.warnings import wording_warnings


def render_recipe(
    file: RecipeFile, prices: str | None, options: CardOptions, shell: HandoutShell | None
) -> tuple[dict[str, object], dict[str, str]]:
    """What lists of recipes show of it, and the content of each of its files by the ending.

    Args:
        prices: the text of the file of prices.
        options: what the site decides about all of its cards.
        shell: what surrounds the handout; without it there is none.

    Raises:
        SourceError: if the file holds no recipe.
    """
    document = document_in(text_of(file.path, file.shown), file.shown, file.region)
    recipe, data = recipe_in(document, file.shown, file.kinds)
    trials = read_trials(file.path, data, file.all_kinds, file.region) if file.has_trials else None
    readings = for_the_card(trials.notebook.made, len(recipe.stages) - 1) if trials else {}
    published = published_from(data, recipe, options.region, our_readings_from(readings))
    numbers = [made.trial.number for made in trials.notebook.made] if trials else []
    start = TrialStart(mark=recipe_mark(data), number=str(next_number(file.path, numbers)))
    for lost in lost_photos(recipe, file.photos, pictures_beside(file.path)):
        raise SourceError(file.shown, document.line_of(lost.path), lost.problem, lost.remedy)
    card = card_from(published, file, prices, options, shell is not None, readings, start)
    if card.notebook and options.trials:
        card = replace(card, trials=numbers)
    if trials and recipe.made != 0:
        card = replace(card, record=record_of(data, trials.versions, trials.notebook.made))
    if options.embed and options.to_copy:
        card = replace(card, lines_to_copy=lines_to_copy(card, options.embed))
    place = Place(options.site_url, file.name)
    page = PageParts()
    component("card", page=page, card=card, recipe=card.recipe, texts=card.texts)
    facts: dict[str, object] = {
        **listed(card),
        "cover": _cover_facts(card),
        "pictures": [(picture.shown.stem, picture.shown.ready.facts) for picture in card.pictures if picture.shown],
        "files": sorted({picture.file for picture in card.pictures if picture.file}),
        "slots": slots_of(recipe),
        "notebook": card.notebook,
        "beside": recipe.notebook.beside,
        "draft": recipe.draft,
        "published": recipe.published,
        "warnings": _warnings(card, document, file),
        "moved_from": recipe.moved_from,
        "moved_line": document.line_of(("moved_from",)),
        "shown": file.shown,
    }
    files = {
        MARKDOWN: _front_matter(card, place, options, _version(trials.versions if trials else ()))
        + page_html(options.region, page.markdown),
        ISLANDS: page_html(options.region, page.islands),
        CARD_JSON: card_json(card),
    }
    if options.embed:
        files[EMBED] = embed_html(card, options.embed)
    if shell:
        seen = prices if options.show_cost else None
        files[HANDOUT] = handout_html(published, file.name, shell, card.notebook, seen)
    return facts, files


def _cover_facts(card: Card) -> dict[str, object] | None:
    """What lists and the head of the page need to know of the cover."""
    cover = card.cover
    if cover is None:
        return None
    return {"file": card.pictures[0].file, "stem": cover.stem, "alt": cover.alt, "ready": cover.ready.facts}


def _warnings(card: Card, document: Document, file: RecipeFile) -> list[str]:
    """What the author should look at, each with its place and its remedy."""
    found = wording_warnings(card.recipe, document, file.path.parent.name, file.region, card.label.label)
    return [f"{file.shown}:{line}: {text}\n    Fix: {hint}" for line, _, text, hint in found]


def _version(earlier: Iterable[str]) -> str | None:
    """The number of the version that comes after earlier ones, such as `v1`; None if there are none."""
    numbers = [int(name.removeprefix("v")) for name in earlier]
    return str(max(numbers) + 1) if numbers else None


def _front_matter(card: Card, place: Place, options: CardOptions, version: str | None) -> str:
    """What MkDocs, the theme and other plug-ins need to know about the page."""
    recipe, shapes = card.recipe, shape_places(card.cover) if card.cover else []
    images = [place.file(shape) for shape in shapes]
    data = json_ld(card, place, images, region=options.region, language=options.language, version=version)
    meta = {
        "title": recipe.title,
        "description": plain_text(recipe.summary),
        "author": recipe.author.name,
        "published": recipe.published,
        "updated": recipe.updated,
        "keywords": list(recipe.keywords),
        "image": shapes[-1] if shapes else None,
        "template": "recipe.html",
        "json_ld": json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c"),
    }
    return front_matter(meta)
