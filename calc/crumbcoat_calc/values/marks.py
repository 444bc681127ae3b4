"""Marks in prose: `*emphasis*`, `**strong**`, `` `code` `` and `[a link](https://example.org/)`, as in Markdown.

A small part of Markdown, the same in `prose.js`: no blocks, no HTML, and no mark inside another of its own kind. A mark
begins and ends at the edge of a word, so that `2 * 3` and `snake_case_name` stay as they are; so does a mark that is
not closed, and a link that leads elsewhere than to a page. A backslash before a sign takes the meaning away from it.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import line, text


@dataclass(frozen=True, slots=True)
class Marked:
    """What is inside a mark: `kind` is `em`, `strong`, `code` or `a`; `href` is the address of a link."""

    kind: str
    parts: "tuple[str | Marked, ...]"
    href: str = ""


_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])")
_CODE = re.compile(r"`([^`]+)`")
_LINK = re.compile(r"\[((?:\\.|[^\[\]\\])+)\]\(((?:[^\s()<>\\]|\([^\s()<>\\]*\))+)\)")
_PAGE = re.compile(r"(?:https?://[^/]|mailto:.|(?!//)(?![a-z][a-z0-9+.-]*:))", re.IGNORECASE)

_FILE = re.compile(r"(?!(?:https?|mailto):)(.*)\.(?:md|ya?ml)(#.*|$)", re.IGNORECASE)


def _inside(sign: str, times: int) -> re.Pattern[str]:
    one = rf"(?:\\.|[^{sign}\\])"
    edge = rf"(?:\\.|[^{sign}\\\s])"
    return re.compile(rf"[{sign}]{{{times}}}({edge}(?:{one}*{edge})?)[{sign}]{{{times}}}")


_AROUND = (
    ("strong", _inside("*", 2)), ("strong", _inside("_", 2)), ("em", _inside("*", 1)), ("em", _inside("_", 1)),
)  # fmt: skip


def marks_in(written: str) -> tuple[str | Marked, ...]:
    """The parts of a text: plain ones, and marked ones.

    >>> marks_in("Stir *slowly*.")
    ('Stir ', Marked(kind='em', parts=('slowly',), href=''), '.')
    >>> marks_in("2 * 3 * 4"), marks_in("[x](javascript:x)")
    (('2 * 3 * 4',), ('[x](javascript:x)',))
    """
    if not any(sign in written for sign in "*_`[\\"):
        return (written,)
    parts: list[str | Marked] = []
    plain, at = "", 0
    while at < len(written):
        found, length, letters = _mark_at(written, at)
        if found and plain:
            parts.append(plain)
            plain = ""
        if found:
            parts.append(found)
        plain, at = plain + letters, at + length
    return (*parts, plain) if plain else tuple(parts)


def plain_text(written: str) -> str:
    """The text without its marks.

    >>> plain_text("Stir **very** slowly, as [here](../custard/).")
    'Stir very slowly, as here.'
    """
    return _letters(marks_in(written))


def prose(value: object) -> str:
    """Read a text with marks.

    Raises:
        InputError: if a link in it leads elsewhere than to a page.
    """
    return _with_good_links(text(value))


def prose_line(value: object) -> str:
    """Read a text with marks as a single line."""
    return _with_good_links(line(value))


def _mark_at(written: str, at: int) -> tuple[Marked | None, int, str]:
    """The mark at a position, how long it is, and the letters instead where there is none."""
    sign = written[at]
    if sign == "\\" and (escaped := _ESCAPED.match(written, at)):
        return None, 2, escaped[1]
    if sign == "`" and (code := _CODE.match(written, at)):
        return Marked("code", (code[1],)), len(code[0]), ""
    if sign == "[" and (link := _LINK.match(written, at)) and _PAGE.match(link[2]):
        return Marked("a", marks_in(link[1]), link[2]), len(link[0]), ""
    if sign in "*_" and not (at and written[at - 1].isalnum()):
        for kind, pattern in _AROUND:
            around = pattern.match(written, at)
            if around and not written[around.end() : around.end() + 1].isalnum():
                return Marked(kind, marks_in(around[1])), len(around[0]), ""
    return None, 1, sign


def _letters(parts: Iterable[str | Marked]) -> str:
    return "".join([part if isinstance(part, str) else _letters(part.parts) for part in parts])


def _with_good_links(written: str) -> str:
    for link in _LINK.finditer(_CODE.sub("", written)):
        if not _PAGE.match(link[2]):
            raise InputError(
                f"the link to {link[2][:60]!r} does not lead to a page",
                "write an address that begins with `https://`, `http://` or `mailto:`, or a path such as `../custard/`",
            )
        if _FILE.match(link[2]):
            page = re.sub(r"(^|/)index/(?=#|$)", r"\1", _FILE.sub(r"\1/\2", link[2]))
            raise InputError(
                f"the link to {link[2][:60]!r} is to a file, not to the page that is made of it",
                f"write the way from this page to that one: `../{page}`",
            )
    return written
