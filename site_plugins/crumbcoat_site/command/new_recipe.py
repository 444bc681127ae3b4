"""A new recipe file: a family's usual stages, or some kinds with their amounts, or the smallest recipe there is."""

import os
import re
import unicodedata
from collections.abc import Sequence
from pathlib import Path

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.values.region import measures_in

from crumbcoat_site.command.site_files import SiteFiles, SiteFilesError, site_around
from crumbcoat_site.command.us_kitchen import for_the_us

SKELETONS = Path(__file__).parent / "skeletons"

_KIND_AND_AMOUNT = re.compile(r"(?P<kind>.*?)[\s,:]+(?P<amount>[\d½¼¾⅓⅔].*)")
_LONGEST_NAME = 60

_SMALLEST = """\
yield: {portions: 12, of: cupcakes}
ingredients:
  icing_sugar: {kind: sugar_powdered, amount: 200 g, role: sweetness}
  water: {kind: water_tap, amount: 30 g, role: dissolves a part of the sugar}
"""
_MIX = """\
stages:
  - title: Mix
    steps:
      - do: Mix everything.
        add: [%s]
        look_for: Smooth.
"""


class RecipeError(Exception):
    """The file was not written; the text has place, problem and remedy."""


def write_recipe(here: Path, title: str, family: str | None, kinds: Sequence[str], folder: Path | None) -> Path:
    """Write the file of a recipe with this title into the site around a folder, and give its path.

    Args:
        family: one with a skeleton; None for none.
        kinds: each a kind with an amount, such as `icing sugar 200 g`; not together with a family.
        folder: where in docs_dir; else in its folder `recipes`, if there is one.

    Raises:
        RecipeError: if there is no site, the file is there already, or a kind or amount cannot be used.
    """
    if family and kinds:
        raise RecipeError("--family and --with: only one of them can be used.\n    Fix: leave one out.")
    try:
        site = site_around(here)
    except SiteFilesError as error:
        raise RecipeError(str(error)) from None
    usual = "recipes" if (site.docs / "recipes").is_dir() else ""
    path = site.docs / (folder or usual) / f"{file_name(title)}{site.suffix}"
    shown = os.path.relpath(path, here)
    if not path.resolve().is_relative_to(site.docs.resolve()):
        docs = os.path.relpath(site.docs, here)
        raise RecipeError(f"{shown}: this is outside {docs}.\n    Fix: name a folder in it.")
    if path.exists():
        remedy = "choose another title, or change that file"
        raise RecipeError(f"{shown}: there is such a file already.\n    Fix: {remedy}.")
    content = _head(title, family or "other", site, path) + _body(family, kinds, site.region)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(content, encoding="utf-8")
    return Path(shown)


def file_name(title: str) -> str:
    """The name of a recipe's file, without ending; it is a part of the page's address.

    >>> file_name("Crème & lemon: the 2nd!")
    'creme-lemon-the-2nd'
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    return re.sub("[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST_NAME].strip("-") or "recipe"


def _head(title: str, family: str, site: SiteFiles, path: Path) -> str:
    schema = site.config.parent / "recipe.schema.json"
    lines = [f"# yaml-language-server: $schema={os.path.relpath(schema, path.parent)}"] if schema.is_file() else []
    lines += [
        f"title: {_quoted(' '.join(title.split()))}",
        "summary: What it is, and what it is good for, in a sentence or two.",
        _author(site),
        f"family: {family}",
        "draft: yes # Only you see it. Take this line away to publish it.",
    ]
    return "\n".join(lines) + "\n"


def _author(site: SiteFiles) -> str:
    """A name of its own is taken to be that of a person, and the line says how to write another."""
    name = _quoted(site.author)
    if site.author == site.title:
        return f"author: {name}"
    return f"author: {{person: {name}}} # If it is not a person but a kitchen or a school: `author: {name}`."


def _body(family: str | None, kinds: Sequence[str], region: str | None) -> str:
    if family and family != "other":
        return _in_region(region, (SKELETONS / f"{family.replace(' ', '-')}.yaml").read_text(encoding="utf-8"))
    if not kinds:
        return _in_region(region, _SMALLEST + _MIX % "icing_sugar, water")
    lines, keys = [], []
    for words in kinds:
        key, line = _ingredient(words, region)
        if key in keys:
            raise RecipeError(f"--with {words!r}: this kind is there already.\n    Fix: give it one amount.")
        keys.append(key)
        lines.append(f"  {key}: {line}\n")
    return "yield: {portions: 12, of: cupcakes}\ningredients:\n" + "".join(lines) + _MIX % ", ".join(keys)


def _in_region(region: str | None, text: str) -> str:
    return for_the_us(text) if region == "US" else text


def _ingredient(words: str, region: str | None) -> tuple[str, str]:
    found = _KIND_AND_AMOUNT.fullmatch(words.strip())
    if not found:
        raise RecipeError(f"--with {words!r}: there is no amount.\n    Fix: write it like `icing sugar 200 g`.")
    try:
        kind = food(found["kind"])
        amount_of(kind, measures_in(region, found["amount"]))
    except InputError as error:
        raise RecipeError(f"--with {words!r}: {error.problem}.\n    Fix: {error.remedy}") from None
    key = re.sub("[^a-z0-9_]+", "_", kind.key or file_name(kind.name))
    name = "" if found["kind"] == kind.key else f" name: {_quoted(found['kind'])},"
    return key, f"{{kind: {kind.key},{name} amount: {_quoted(found['amount'])}}}"


def _quoted(text: str) -> str:
    """A text as a YAML value, in quotes only where it needs them."""
    if re.fullmatch(r"[A-Za-z0-9½¼¾⅓⅔][\w ./½¼¾⅓⅔°%’'-]*", text):
        return text
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
