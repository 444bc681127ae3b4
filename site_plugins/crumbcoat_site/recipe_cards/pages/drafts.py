"""Drafts: recipes that are not in the published site, because they say so or their date is to come."""

import re
from collections.abc import Collection
from datetime import date

from crumbcoat_calc.values.display import date_text

_SAYS_SO = re.compile(rb"^[\"']?draft[\"']?\s*:\s*[\"']?(?:yes|true)[\"']?\s*(?:#.*)?$", re.IGNORECASE | re.MULTILINE)


def says_draft(content: bytes) -> bool:
    """Whether a recipe file says that it is a draft, which may have mistakes yet.

    >>> says_draft(b"title: Veil\\ndraft: yes\\n"), says_draft(b"title: Veil\\ndraft: no\\n")
    (True, False)
    """
    return bool(_SAYS_SO.search(content))


def draft_mark(draft: bool, published: str | None, today: date) -> str:
    """What the author sees on a draft; empty if the recipe is published.

    Args:
        draft: whether the recipe says so.
        published: its date of publication, year first.
        today: the date of the build.

    >>> draft_mark(True, None, date(2026, 4, 1)), draft_mark(False, "2026-05-03", date(2026, 4, 1))
    ('Draft', 'Draft until 3 May 2026')
    """
    if draft:
        return "Draft"
    if published is None or date.fromisoformat(published) <= today:
        return ""
    return f"Draft until {date_text(published)}"


def nav_without(nav: object, gone: Collection[str]) -> object:
    """The navigation of mkdocs.yml without some files; a section that has no other page goes as well.

    >>> nav_without([{"Home": "index.md"}, {"New": ["veil.md", {"Cold": "cold.md"}]}], {"veil.md", "cold.md"})
    [{'Home': 'index.md'}]
    """
    if isinstance(nav, list):
        kept = [nav_without(entry, gone) for entry in nav]
        return [entry for entry in kept if entry not in (None, [], {})]
    if isinstance(nav, dict):
        entries = {title: nav_without(entry, gone) for title, entry in nav.items()}
        return {title: entry for title, entry in entries.items() if entry not in (None, [])}
    return None if nav in gone else nav
