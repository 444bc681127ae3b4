"""Saved pages -> the recipes in them: JSON-LD first, then microdata, then RDFa."""

import email
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from crumbcoat_site.bring_in.addresses import file_name_in
from crumbcoat_site.bring_in.found_recipe import FoundRecipe, FoundStep
from crumbcoat_site.bring_in.html_page import HtmlPage, html_page
from crumbcoat_site.bring_in.items import Item, with_references
from crumbcoat_site.bring_in.json_items import JsonProblem, items_of_json
from crumbcoat_site.bring_in.microdata import microdata_items
from crumbcoat_site.bring_in.rdfa import rdfa_items
from crumbcoat_site.bring_in.recipe_items import found_recipe, recipes_in

ENDINGS = (".html", ".htm", ".xhtml", ".mhtml", ".mht", ".json", ".jsonld")
LARGEST = 20_000_000
"""Bytes of a page; a larger file is refused."""

MOST_RECIPES = 20
"""Recipes of one page; the others are reported."""

MOST_PAGES = 1000
_MOST_PARTS = 2000


@dataclass(frozen=True, slots=True)
class PageProblem:
    """Why a page, or a part of it, cannot be used: the place, the problem and the remedy."""

    place: str
    problem: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.place}: {self.problem}.\n    Fix: {self.remedy}."


@dataclass(slots=True)
class ReadPage:
    """The recipes of a page, the pictures that it names itself, and its problems."""

    path: Path
    shown: str
    recipes: list[FoundRecipe] = field(default_factory=list)
    pictures: Sequence[str] = ()
    problems: list[PageProblem] = field(default_factory=list)


def pages_in(paths: Sequence[Path]) -> Iterator[Path]:
    """The files that are named, and the pages in folders that are, in the order of the alphabet."""
    for path in paths:
        if path.is_dir():
            found = (inner for inner in path.rglob("*") if inner.suffix.lower() in ENDINGS and inner.is_file())
            yield from sorted(found)[:MOST_PAGES]
        else:
            yield path


def read_page(path: Path, shown: str) -> ReadPage:
    """Read a saved page, or a file with JSON-LD.

    Raises:
        NoReaderError: if the library for HTML is not installed.
    """
    page = ReadPage(path, shown)
    content = _content(page)
    if content is None:
        return page
    if path.suffix.lower() in (".json", ".jsonld"):
        text = content.decode("utf-8-sig", "replace")
        _take(page, _of_script(page, text, 0), "JSON-LD", "", "", "")
    else:
        is_one_file = path.suffix.lower() in (".mhtml", ".mht")
        found = html_page(*(html_in_one_file(content) if is_one_file else (content, "")))
        if found is None:
            page.problems.append(PageProblem(shown, "there is nothing in this page", "save it again, as a whole page"))
            return page
        _read_html(page, found)
    if not page.recipes and not page.problems:
        remedy = "save the page of the recipe itself; a page without such data has to be copied by hand"
        page.problems.append(PageProblem(shown, "the page has no recipe in the terms of schema.org", remedy))
    return page


def html_in_one_file(content: bytes) -> tuple[bytes, str]:
    """The page in a file that has its pictures with it, and the address that it had.

    Source:
        RFC 2557 (MIME encapsulation of HTML).
    """
    message = email.message_from_bytes(content)
    for number, part in enumerate(message.walk()):
        if part.get_content_type() == "text/html":
            body = part.get_payload(decode=True)
            address = str(part.get("Content-Location") or message.get("Snapshot-Content-Location") or "")
            return body if isinstance(body, bytes) else b"", address
        if number > _MOST_PARTS:
            break
    return b"", ""


def _content(page: ReadPage) -> bytes | None:
    try:
        size = page.path.stat().st_size
        if size <= LARGEST:
            return page.path.read_bytes()
    except OSError as error:
        why = f"the file cannot be read ({error.strerror})"
        page.problems.append(PageProblem(page.shown, why, "name a saved page"))
        return None
    problem = f"the file has {size / 1e6:.0f} MB, and a page may have {LARGEST / 1e6:.0f}"
    page.problems.append(PageProblem(page.shown, problem, "save the page as HTML alone"))
    return None


def _read_html(page: ReadPage, found: HtmlPage) -> None:
    page.pictures = found.pictures
    items: list[Item] = []
    for line, text in found.scripts:
        items += _of_script(page, text, line)
    _take(page, items, "JSON-LD", found.title, found.address, found.language)
    for syntax, read in (("microdata", microdata_items), ("RDFa", rdfa_items)):
        _take(page, read(found.root), syntax, found.title, found.address, found.language)
    page.recipes = [_with_alts(one, found.alts) for one in page.recipes]


def _with_alts(recipe: FoundRecipe, alts: Mapping[str, str]) -> FoundRecipe:
    """The recipe with what the page itself says that pictures of steps show, where their data do not say it."""

    def described(step: FoundStep) -> FoundStep:
        alt = alts.get(file_name_in(step.pictures[0]), "") if step.pictures else ""
        return replace(step, shows=alt) if alt and not step.shows else step

    sections = [replace(one, steps=tuple([described(step) for step in one.steps])) for one in recipe.sections]
    return replace(recipe, sections=tuple(sections))


def _of_script(page: ReadPage, text: str, line: int) -> list[Item]:
    try:
        return items_of_json(text)
    except JsonProblem as error:
        place = f"{page.shown}:{line + error.line - (1 if line else 0)}"
        remedy = "correct it in the file; other recipes of the page are read all the same"
        page.problems.append(PageProblem(place, str(error), remedy))
        return []


def _take(page: ReadPage, items: list[Item], syntax: str, title: str, address: str, language: str) -> None:
    """Add the recipes among some items; a page often has the same one in two syntaxes."""
    others = [one for one in page.recipes if one.syntax != syntax]
    known = {one.title.casefold() for one in others} | {one.lines for one in others}
    for item in recipes_in(with_references(items)):
        one = found_recipe(item, syntax, title, address, language)
        if one.title.casefold() in known or (one.lines and one.lines in known):
            continue
        if not one.lines and not one.sections:
            remedy = "open that page and save it"
            where = one.addresses[0] if one.addresses else "another page"
            name = repr(one.title) if one.title else "a recipe"
            problem = f"this page has only the name of {name}, and the recipe is in {where}"
            page.problems.append(PageProblem(page.shown, problem[:300], remedy))
        elif len(page.recipes) >= MOST_RECIPES:
            problem = f"the page has more than {MOST_RECIPES} recipes, and {one.title[:80]!r} is left out"
            page.problems.append(PageProblem(page.shown, problem, "save the page of that recipe alone"))
            return
        else:
            page.recipes.append(one)
