"""A recipe of a page -> the draft of a recipe file."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_site.bring_in.addresses import old_path
from crumbcoat_site.bring_in.draft_ingredients import ingredient_fields, ingredients_of
from crumbcoat_site.bring_in.draft_steps import stages_of
from crumbcoat_site.bring_in.draft_text import draft_text
from crumbcoat_site.bring_in.families import OTHER, family_of
from crumbcoat_site.bring_in.findings import Findings
from crumbcoat_site.bring_in.found_recipe import FoundRecipe
from crumbcoat_site.bring_in.kinds import OwnKinds
from crumbcoat_site.bring_in.marked_texts import in_parts, in_prose
from crumbcoat_site.bring_in.systems import system_of
from crumbcoat_site.bring_in.yields import yield_of

_SUMMARY = "What it is, and what it is good for, in a sentence or two."
_LONGEST_SUMMARY = 600
MOST_ADDRESSES = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What the site and the command say about all drafts. `measures` is empty where each page decides by itself."""

    author: str
    own: OwnKinds
    measures: str = ""
    head: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """The text of a recipe file, what was found, and the addresses of its pictures and of its old pages."""

    title: str
    text: str
    findings: Findings
    system: str
    cover: tuple[str, ...]
    step_pictures: Mapping[str, str]
    moved_from: tuple[str, ...]
    lost_addresses: tuple[str, ...]


def draft_of(found: FoundRecipe, settings: Settings) -> Draft:
    """The draft of a recipe that a page has."""
    findings = Findings()
    system = settings.measures or system_of(found.language, found.lines)
    lists = ingredients_of(found.lines, settings.own, system, findings)
    stages = stages_of(found, lists, system == "US", findings)
    notes = [*lists.notes, *stages.notes]
    data: dict[str, object] = {"title": found.title or "Recipe without a name"}
    data |= _words(found, settings, notes, findings)
    paths = {address: old_path(address) for address in found.addresses}
    moved_from = tuple(dict.fromkeys(filter(None, paths.values())))[:MOST_ADDRESSES]
    if moved_from:
        data["moved_from"] = list(moved_from)
    data["yield"], doubt = yield_of(found.yields)
    if doubt:
        findings.doubtful(("yield",), "yield", doubt)
    data["ingredients"] = ingredient_fields(lists)
    if not lists.ingredients:
        findings.doubtful(("ingredients",), "ingredients", "the page has none that could be read")
    data["stages"] = stages.stages
    if notes:
        data["notes"] = [in_prose(part) for note in notes for part in in_parts(note)]
    if lists.decorations:
        data["decorations"] = lists.decorations
    last = [f"{name}: {text}" for name, text in found.others]
    for text in last:
        findings.as_text(text, "a comment at the end")
    return Draft(
        title=str(data["title"]),
        text=draft_text(data, findings, settings.head, ["Also on the page:", *last] if last else []),
        findings=findings,
        system=system,
        cover=found.pictures,
        step_pictures=stages.pictures,
        moved_from=moved_from,
        lost_addresses=tuple([address for address, path in paths.items() if path not in moved_from]),
    )


def _words(found: FoundRecipe, settings: Settings, notes: list[str], findings: Findings) -> dict[str, object]:
    """The fields before the ingredients."""
    fields: dict[str, object] = {}
    if not found.title:
        findings.doubtful(("title",), "title", "the page has none")
    fields["summary"], rest = _summary(found.summary)
    notes[:0] = rest
    if not found.summary:
        findings.doubtful(("summary",), "summary", "the page has none")
    fields["author"] = author_of(found) or settings.author
    if not found.authors:
        findings.doubtful(("author",), "author", "the page names none")
    if found.published:
        fields["published"] = found.published
    if found.updated and found.published and found.updated >= found.published:
        fields["updated"] = found.updated
    family = family_of(found.title, " ".join(found.keywords), found.category, found.summary)
    fields["family"] = family
    why = "no word of the page names a kind of frosting" if family == OTHER else "by the words of the page"
    findings.doubtful(("family",), f"family: {family}", why)
    fields["draft"] = "yes"
    keywords: dict[str, str] = {}
    for word in (*found.keywords, *_category(found.category)):
        keywords.setdefault(word.casefold(), word)
    if keywords:
        fields["keywords"] = list(keywords.values())[:30]
    if found.cuisine:
        fields["cuisine"] = found.cuisine[:60]
    if found.video:
        fields["video"] = dict(found.video)
    return fields


def author_of(found: FoundRecipe) -> str | dict[str, str]:
    """The author as a recipe file has it: a person alone is said to be one."""
    names = ", ".join([author.name for author in found.authors])[:200]
    if len(found.authors) != 1 or not (found.authors[0].is_person or found.authors[0].url):
        return names
    author = found.authors[0]
    fields = {"person" if author.is_person else "organization": names}
    return fields | ({"url": author.url} if author.url else {})


def _category(category: str) -> list[str]:
    return [word.strip()[:60] for word in category.split(",") if word.strip()]


def _summary(text: str) -> tuple[str, list[str]]:
    """The summary, and what of a long description becomes notes."""
    lines = text.splitlines()
    if not lines:
        return _SUMMARY, []
    first = lines[0]
    if len(first) > _LONGEST_SUMMARY:
        at = max([found.end() for found in re.finditer(r"[.!?](?= )", first[:_LONGEST_SUMMARY])], default=0)
        at = at or max(first.rfind(" ", 1, _LONGEST_SUMMARY), 0) or _LONGEST_SUMMARY
        lines[0:1] = [first[:at].strip(), first[at:].strip()]
    return in_prose(lines[0]), lines[1:]
