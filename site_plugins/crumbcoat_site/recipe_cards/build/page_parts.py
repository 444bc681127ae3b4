"""A page as its template yields it: headings, which Markdown reads, and between them HTML, which it need not.

MkDocs converts the headings, and in the place of the HTML between two of them one paragraph with words for the search:
those that the template names, or all of it. When the page is built, the HTML takes the places of those paragraphs.
"""

import re

from markupsafe import Markup, escape

_NO_WORDS = re.compile(r"<(svg|select|datalist|script)\b.*?</\1>|<[^>]*>", re.DOTALL)
_NOT_SEARCHED = re.compile(r'<(h[23])(?=[ >][^\n]*</\1>\s*<p data-island="\d+"></p>)')
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
        self._words: list[str] = []  # Of each island.

    def heading(self, level: int, text: str, before: Markup | str = "") -> str:
        """Add a heading with a text and, before it, HTML."""
        words = f"{before} {markdown_safe(text)}" if before else markdown_safe(text)
        self._parts.append(f"{'#' * level} {words}")
        return ""

    def html(self, html: Markup, words: str | None = None) -> str:
        """Add HTML; what follows other HTML is one island with it.

        Args:
            words: what the search knows of it; without them, all of its words.
        """
        html = html.strip()
        last = self._parts[-1] if self._parts else ""
        searched = " ".join(_NO_WORDS.sub(" ", html).split()) if words is None else str(escape(words))
        if html and isinstance(last, Markup):
            self._parts[-1] = last + Markup("\n") + html
            self._words[-1] = f"{self._words[-1]} {searched}".strip()
        elif html:
            self._parts.append(html)
            self._words.append(searched)
        return ""

    def section(self, level: int, title: str, html: Markup, before: Markup | str = "", words: str | None = None) -> str:
        """Add HTML with a heading over it, or nothing where there is no HTML; the search skips one without words."""
        return self.heading(level, title, before) + self.html(html, words) if html.strip() else ""

    @property
    def markdown(self) -> str:
        """The headings, and a paragraph of words in the place of each island of HTML."""
        lines = []
        islands = enumerate(self._words)
        for part in self._parts:
            if isinstance(part, Markup):
                number, words = next(islands)
                lines.append(f'<p data-island="{number}">{words}</p>')
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


def searched(content: str) -> str:
    """The content of a page whose search passes over the headings of islands without words.

    >>> searched('<h2 id="figures">Figures</h2>\\n<p data-island="3"></p>')
    '<h2 data-search-exclude id="figures">Figures</h2>\\n<p data-island="3"></p>'
    >>> searched('<h2 id="notes">Notes</h2>\\n<p data-island="4">Cold tools help.</p>')
    '<h2 id="notes">Notes</h2>\\n<p data-island="4">Cold tools help.</p>'
    """
    return _NOT_SEARCHED.sub(r"<\1 data-search-exclude", content)


def markdown_safe(text: str) -> str:
    """Text in one line that Markdown shows letter for letter."""
    line = str(escape(text)).replace("\n", " ")
    return "".join(f"\\{letter}" if letter in _MARKDOWN_SIGNS else letter for letter in line)
