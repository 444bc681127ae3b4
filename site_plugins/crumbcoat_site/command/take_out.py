"""`crumbcoat take-out`: recipes as JSON-LD, as plain text, and all their ingredients as one table, in a folder."""

import csv
import io
import json
import os
from collections.abc import Iterable, Sequence
from pathlib import Path

from crumbcoat_calc.forms.context import published_from
from crumbcoat_calc.values.display import plain_number_text

from crumbcoat_site.command.plain_recipe import plain_recipe
from crumbcoat_site.command.site_files import SiteFiles, SiteFilesError, files_of, site_around, site_of
from crumbcoat_site.command.site_recipes import kinds_and_region
from crumbcoat_site.recipe_cards.build.addresses import Place
from crumbcoat_site.recipe_cards.card.card import Card, card_from
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.card.json_ld import json_ld
from crumbcoat_site.recipe_cards.pages.drafts import says_draft
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.source_errors import SourceError

TABLE = "ingredients.csv"
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
COLUMNS = ("recipe", "title", "ingredient", "name", "kind", "amount", "grams", "kept_back_grams", "preparation", "role")


class TakeOutError(Exception):
    """Nothing was taken out; the text has place, problem and remedy."""


def take_out(here: Path, folder: Path, files: Sequence[Path]) -> list[Path]:
    """Write the recipes of a site, or some of them, into a folder; the paths of what was written.

    Drafts are among them only where they are named.

    Raises:
        TakeOutError: if there is no recipe, one cannot be used, or the folder has files in it.
    """
    target = here / folder
    shown = os.path.relpath(target, here)
    if target.is_file() or (target.is_dir() and any(target.iterdir())):
        raise TakeOutError(f"{shown}: there are files here already.\n    Fix: name a new folder, or an empty one.")
    try:
        every = files_of(files) if files else site_around(here).recipes
        sources = [path for path in every if files or not says_draft(path.read_bytes())]
    except SiteFilesError as error:
        raise TakeOutError(str(error)) from None
    if not sources:
        what = "every recipe is a draft" if every else "there is no recipe file"
        raise TakeOutError(f"{os.path.relpath(here)}: {what}.\n    Fix: name the files.")
    try:
        written = _texts(sources)
    except SourceError as error:
        raise TakeOutError(f"{error}\n    Nothing was written.") from None
    for name, text in written.items():
        path = target / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="")
    return [Path(os.path.relpath(target / name, here)) for name in written]


def _texts(sources: Iterable[Path]) -> dict[str, str]:
    """The content of each file by its name."""
    found: dict[str, str] = {}
    rows: list[tuple[str, ...]] = [COLUMNS]
    for source in sources:
        site = site_of(source)
        file = _recipe_file(source, site)
        recipe, data = load_recipe(source, file.shown, file.kinds, file.region)
        options = CardOptions(None, show_cost=False, region=file.region)
        card = card_from(published_from(data, recipe, file.region), file, None, options, handout=False)
        name = _free(file.name, found)
        found[f"{name}.json"] = json.dumps(_json(card, file), ensure_ascii=False, indent=2) + "\n"
        found[f"{name}.txt"] = plain_recipe(card, file.region)
        rows += _rows(name, card)
    table = io.StringIO(newline="")
    csv.writer(table).writerows(rows)
    return {TABLE: table.getvalue(), **found}


def _recipe_file(source: Path, site: SiteFiles | None) -> RecipeFile:
    suffix = site.suffix if site else source.suffix
    inside = site is not None and source.resolve().is_relative_to(site.docs.resolve())
    place = source.resolve().relative_to(site.docs.resolve()).as_posix() if site and inside else source.name
    name = place.removesuffix(suffix)
    kinds, region = kinds_and_region(site)
    return RecipeFile(
        path=source,
        name=name,
        photos={},
        kinds=kinds,
        all_kinds=kinds,
        region=region,
    )


def _free(name: str, found: Iterable[str]) -> str:
    """A name that no recipe before has: files from several sites can be called the same."""
    free, number = name, 2
    while f"{free}.json" in found:
        free, number = f"{name}-{number}", number + 1
    return free


def _json(card: Card, file: RecipeFile) -> dict[str, object]:
    """The recipe in the terms of schema.org; where it will be is not known, so it has no address."""
    data = json_ld(card, Place("", file.name), [], region=file.region, language="en", version=None)
    return {name: value for name, value in data.items() if name not in ("url", "mainEntityOfPage")}


def _rows(name: str, card: Card) -> list[tuple[str, ...]]:
    """A row for each ingredient."""
    return [
        (
            name,
            _cell(card.recipe.title),
            one.key,
            _cell(one.name),
            one.food.key,
            _cell(one.amount.written),
            plain_number_text(one.mass_g),
            plain_number_text(sum(part.mass_g for part in one.kept_back)),
            _cell(one.preparation or ""),
            _cell(one.role or ""),
        )
        for one in card.recipe.ingredients
    ]


def _cell(text: str) -> str:
    """A text that no table program takes for a formula."""
    return f"'{text}" if text.startswith(_FORMULA) else text
