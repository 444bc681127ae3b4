"""The HTML of a saved page: its scripts, language, address and pictures. lxml reads it, and is imported here alone."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from html import escape
from itertools import islice
from typing import Any

from crumbcoat_site.bring_in.addresses import file_name_in
from crumbcoat_site.bring_in.plain_texts import BLOCKS, MOST_LETTERS, one_line

Element = Any
"""An element of lxml, which has no types."""

MOST_PICTURES = 2000
MOST_LETTERS_OF_PAGE = 20_000_000
"""In the values of a page together; the later ones are empty."""

_LONGEST_ALT = 200


class NoReaderError(Exception):
    """The library that reads HTML is not installed; the text has the remedy."""


@dataclass(frozen=True, slots=True)
class HtmlPage:
    """A page: `scripts` are those with JSON-LD, each with its line; `pictures` the addresses that it names itself.

    `alts` says what pictures show, by the names of their files.
    """

    root: Element
    title: str
    language: str
    address: str
    scripts: tuple[tuple[int, str], ...]
    pictures: tuple[str, ...]
    alts: Mapping[str, str]


def html_page(content: bytes, address: str = "") -> HtmlPage | None:
    """The page in the bytes of a file; None if nothing is in it.

    Nothing outside of it is loaded, and entities that a page defines itself are not expanded.

    Raises:
        NoReaderError: if lxml is not installed.
    """
    try:
        from lxml import etree, html
    except ModuleNotFoundError:
        raise NoReaderError(
            "bring-in: reading saved pages needs a library that is not installed.\n"
            "    Fix: pip install 'crumbcoat[bring-in]'."
        ) from None
    parser = html.HTMLParser(encoding=_encoding(content), no_network=True, remove_pis=True, huge_tree=False)
    try:
        root = html.document_fromstring(content, parser=parser)
    except (etree.ParserError, etree.XMLSyntaxError, ValueError):
        return None
    scripts = [(element.sourceline or 1, element.text or "") for element in root.iter("script") if _is_data(element)]
    return HtmlPage(
        root=root,
        title=one_line(root.findtext(".//title") or "")[:300],
        language=one_line(root.get("lang") or root.get("{http://www.w3.org/XML/1998/namespace}lang") or "")[:20],
        address=next(_addresses(root), address),
        scripts=tuple(scripts),
        pictures=tuple(_pictures(root))[:MOST_PICTURES],
        alts=dict(islice(_alts(root), MOST_PICTURES)),
    )


class InnerHtml:
    """The texts in elements of a page, up to a number of letters: each element around a text has it once more."""

    def __init__(self) -> None:
        self._left = MOST_LETTERS_OF_PAGE

    def of(self, element: Element) -> str:
        """The text in an element as HTML, with a tag where a block begins or ends; of a long one only the beginning."""
        text = _inner_html(element, min(MOST_LETTERS, self._left))
        self._left -= len(text)
        return text


def _inner_html(element: Element, most: int) -> str:
    parts: list[str] = []
    letters = 0
    waiting: list[tuple[Element, bool]] = [(element, True)]
    while waiting and letters < most:
        one, is_start = waiting.pop()
        is_shown = isinstance(one.tag, str) and one.tag not in ("script", "style", "template", "noscript")
        parts.append("<br>" if one is not element and one.tag in BLOCKS else "")
        text = (one.text if is_start and is_shown else "" if is_start else one.tail) or ""
        letters += len(text) + 1
        parts.append(escape(text))
        if is_start:
            waiting += [(one, False)] if one is not element else []
            waiting += [(child, True) for child in reversed(one)] if is_shown else []
    return "".join(parts)


def _encoding(content: bytes) -> str | None:
    """UTF-8 where the bytes are; else what the page says, which is left to the parser."""
    try:
        content.decode("utf-8")
    except UnicodeDecodeError:
        return None
    return "utf-8"


def _is_data(element: Element) -> bool:
    kind = (element.get("type") or "").partition(";")[0].strip().lower()
    return kind == "application/ld+json"


def _addresses(root: Element) -> Iterator[str]:
    """Where the page was: its canonical address, or what the browser that saved it noted."""
    for link in root.iter("link"):
        if "canonical" in (link.get("rel") or "").lower().split() and link.get("href"):
            yield link.get("href").strip()
    for meta in root.iter("meta"):
        if (meta.get("property") or "").strip().lower() == "og:url" and meta.get("content"):
            yield meta.get("content").strip()
    before = root.getprevious()
    while before is not None:
        found = re.search(r"saved from url=\([0-9]+\)(\S+)", before.text or "") if before.text else None
        if found:
            yield found[1]
        before = before.getprevious()


def _alts(root: Element) -> Iterator[tuple[str, str]]:
    for image in root.iter("img"):
        shown = one_line(image.get("alt") or "")[:_LONGEST_ALT]
        names = [file_name_in(image.get(name)) for name in ("src", "data-src") if image.get(name)]
        yield from [(name, shown) for name in names if name and shown]


def _pictures(root: Element) -> Iterator[str]:
    for image in root.iter("img"):
        for name in ("src", "data-src"):
            if image.get(name):
                yield image.get(name).strip()
