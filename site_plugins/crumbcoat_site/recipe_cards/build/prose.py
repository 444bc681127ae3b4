"""Prose of a recipe file -> HTML: its marks become elements, and everything else is escaped."""

import re
from collections.abc import Callable, Iterable

from crumbcoat_calc.values.marks import Marked, marks_in
from markupsafe import Markup, escape

_SAME_FROM_EVERYWHERE = re.compile(r"(https?|mailto):", re.IGNORECASE)


def prose(written: str) -> Markup:
    """The text with its marks and links.

    >>> prose("Stir *slowly* <b>, see [custard](../custard/).")
    Markup('Stir <em>slowly</em> &lt;b&gt;, see <a href="../custard/">custard</a>.')
    """
    return _html(marks_in(written), linked=lambda href: True)


def prose_elsewhere(written: str) -> Markup:
    """The text on another page than the card's: a path that leads from there is only its words."""
    return _html(marks_in(written), linked=lambda href: bool(_SAME_FROM_EVERYWHERE.match(href)))


def prose_unlinked(written: str) -> Markup:
    """The text where no link can be, as inside another link: links are only their words."""
    return _html(marks_in(written), linked=lambda href: False)


def _html(parts: Iterable[str | Marked], linked: Callable[[str], bool]) -> Markup:
    return Markup("").join([escape(part) if isinstance(part, str) else _element(part, linked) for part in parts])


def _element(marked: Marked, linked: Callable[[str], bool]) -> Markup:
    inner = _html(marked.parts, linked)
    if marked.kind != "a":
        return Markup(f"<{marked.kind}>{{}}</{marked.kind}>").format(inner)
    return Markup('<a href="{}">{}</a>').format(marked.href, inner) if linked(marked.href) else inner
