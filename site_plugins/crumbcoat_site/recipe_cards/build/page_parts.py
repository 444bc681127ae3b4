"""A page as its template yields it: headings, which Markdown reads, and between them HTML, which it need not.

MkDocs converts the headings, and in the place of the HTML between two of them one paragraph with its words, for the
search. When the page is built, the HTML takes the places of those paragraphs.
"""

import re

from markupsafe import Markup, escape

_NO_WORDS = re.compile(r"<(svg|select|datalist|script)\b.*?</\1>|<[^>]*>", re.DOTALL)
_PLACE = re.compile(r'<p data-island="(\d+)">.*?</p>', re.DOTALL)
_BETWEEN = "\n<!-- crumbcoat: next island -->\n"
_MARKDOWN_SIGNS = frozenset("\\`*_{}[]<>#+-.!|")


class PageParts:
    """The parts of a page in their order; a template adds one by a call, which prints nothing.

    >>> page = PageParts()
    >>> page.heading(1, "Veil *thin*"), page.html(Markup("<p>Cold <b>milk</b></p>"))
    ('', '')
    >>> page.markdown
    '# Veil \\\\*thin\\\\*\\n\\n<p data-island="0">Cold milk</p>\\n\\n'
    >>> page.islands
    '<p>Cold <b>milk</b></p>'
    """

    def __init__(self) -> None:
        self._parts: list[str | Markup] = []  # HTML is Markup, a heading is not.

    def heading(self, level: int, text: str, before: Markup | str = "") -> str:
        """Add a heading with a text and, before it, HTML."""
        words = f"{before} {_markdown_safe(text)}" if before else _markdown_safe(text)
        self._parts.append(f"{'#' * level} {words}")
        return ""

    def html(self, html: Markup) -> str:
        """Add HTML; what follows other HTML is one island with it."""
        html = html.strip()
        last = self._parts[-1] if self._parts else ""
        if html and isinstance(last, Markup):
            self._parts[-1] = last + Markup("\n") + html
        elif html:
            self._parts.append(html)
        return ""

    def section(self, level: int, title: str, html: Markup, before: Markup | str = "") -> str:
        """Add HTML with a heading over it, or nothing where there is no HTML."""
        return self.heading(level, title, before) + self.html(html) if html.strip() else ""

    @property
    def markdown(self) -> str:
        """The headings, and a paragraph of words in the place of each island of HTML."""
        lines = []
        islands = 0
        for part in self._parts:
            if isinstance(part, Markup):
                words = " ".join(_NO_WORDS.sub(" ", part).split())
                lines.append(f'<p data-island="{islands}">{words}</p>')
                islands += 1
            else:
                lines.append(part)
        return "".join(f"{line}\n\n" for line in lines)

    @property
    def islands(self) -> str:
        """The HTML between the headings, as `join` takes it."""
        return _BETWEEN.join(part for part in self._parts if isinstance(part, Markup))


def join(page: str, islands: str) -> str:
    """The finished page with the islands in their places.

    >>> join('<h1>Veil</h1><p data-island="0">Cold milk</p>', '<div><p>Cold <b>milk</b></p></div>')
    '<h1>Veil</h1><div><p>Cold <b>milk</b></p></div>'
    """
    found = islands.split(_BETWEEN)
    return _PLACE.sub(lambda place: found[int(place[1])], page)


def _markdown_safe(text: str) -> str:
    """Text in one line that Markdown shows letter for letter."""
    line = str(escape(text)).replace("\n", " ")
    return "".join(f"\\{letter}" if letter in _MARKDOWN_SIGNS else letter for letter in line)
